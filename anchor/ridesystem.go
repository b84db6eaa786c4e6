package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// headings is the number of angles off the bow at which loads are tabulated.
const headings = 144

// system is a Ride ready to run: everything that does not change from one
// realisation to the next. The axes of the world have the anchor at their
// origin, x to where the wind comes from and y to the right of it; those of the boat
// are x forward from midships and y to starboard.
type system struct {
	line *lineTable

	surge, sway, yaw             float64 // masses and inertia with the water's
	surgeDrag, swayDrag, yawDrag float64 // linear
	ahead                        float64
	roller                       float64 // mean height of the roller above the water
	wind                         [headings + 1]Load
	water                        [headings + 1]Load // without the side force
	strips                       []strip
	speed                        float64 // of the wind
	current                      [2]float64
	drift                        float64
	fairlead                     float64
	fall                         float64 // speed at which the lowest piece sinks
	step                         float64
}

// strip is a part of the hull or a fin that a cross flow drags on.
type strip struct{ at, drag float64 }

// motion is the state: midships, heading to the right of the wind, and the speed
// through the water, as it would be without waves, in the boat's axes.
type motion struct{ x, y, heading, u, v, r float64 }

func (m *motion) plus(k *motion, t float64) motion {
	return motion{m.x + t*k.x, m.y + t*k.y, m.heading + t*k.heading, m.u + t*k.u, m.v + t*k.v, m.r + t*k.r}
}

// outside is what acts on the boat at one instant.
type outside struct {
	along, across float64 // gusts, added to the mean wind
	bow           float64 // height of the roller above its mean
	stream        float64 // speed of the water against the waves, less than its mean
	forward       float64 // acceleration of it
}

func (s *system) tabulateLoads(r *Ride) error {
	for i := range s.wind {
		a := units.Angle(2*math.Pi*float64(i)/headings - math.Pi)
		w := r.Wind
		w.Speed = 1
		wind, err := r.Above.Load(w, a)
		if err != nil {
			return err
		}
		s.wind[i] = wind.Load
		// Friction depends weakly on speed: take that of a slow stream.
		stream := r.Current
		stream.Speed = max(stream.Speed, 0.3)
		v := float64(stream.Speed)
		water, err := r.Below.Load(stream, a)
		if err != nil {
			return err
		}
		s.water[i] = Load{X: water.X.Scale(1 / (v * v)), Yaw: water.Yaw.Scale(1 / (v * v))}
	}
	const parts = 8
	half := r.Current.density() / 2
	l := float64(r.Below.Length)
	for i := range parts {
		x := l * ((float64(i)+0.5)/parts - 0.5)
		s.strips = append(s.strips, strip{x, half * r.Below.broadside(r.Current) / parts})
	}
	for _, f := range r.Below.Fins {
		s.strips = append(s.strips, strip{float64(f.Station), half * 1.2 * float64(f.Side)})
	}
	return nil
}

// look interpolates a table of loads at an angle off the bow.
func look(table *[headings + 1]Load, angle float64) (x, y, yaw float64) {
	p := (angle + math.Pi) * (headings / (2 * math.Pi))
	i := min(max(int(p), 0), headings-1)
	f := p - float64(i)
	a, b := &table[i], &table[i+1]
	return float64(a.X) + f*float64(b.X-a.X), float64(a.Y) + f*float64(b.Y-a.Y), float64(a.Yaw) + f*float64(b.Yaw-a.Yaw)
}

// forces are those on the boat in her own axes, without those of the rode.
func (s *system) forces(m *motion, o *outside, sin, cos float64) (x, y, yaw float64) {
	// Wind over the deck: the air comes from ahead of the world.
	ground := [2]float64{m.u*cos - m.v*sin + s.current[0], m.u*sin + m.v*cos + s.current[1]}
	ex, ey := s.speed+o.along+ground[0], o.across+ground[1]
	ahead, abeam := ex*cos+ey*sin, -ex*sin+ey*cos
	q := ex*ex + ey*ey
	wx, wy, wn := look(&s.wind, math.Atan2(abeam, ahead))
	x, y, yaw = q*wx, q*wy, q*wn

	// Water past the hull, which in waves goes to and fro itself: along and turning from
	// the table, across strip by strip.
	u, v := m.u-o.stream*cos, m.v+o.stream*sin
	flow := u*u + v*v
	if flow > 0 {
		hx, _, hn := look(&s.water, math.Atan2(v, u))
		x += flow * hx
		yaw += flow * hn
	}
	speed := math.Sqrt(flow)
	for i := range s.strips {
		p := &s.strips[i]
		w := v + m.r*p.at
		f := p.drag * math.Sqrt(u*u+w*w) * w
		y -= f
		yaw -= (f - p.drag*speed*v) * p.at
	}
	slip := ground[0] - o.stream // over the ground, but for the waves
	x -= s.surgeDrag * (slip*cos + ground[1]*sin)
	y -= s.swayDrag * (ground[1]*cos - slip*sin)
	yaw -= s.yawDrag * m.r

	// Waves: the mean force aft, and the water's own acceleration on the masses.
	x -= s.drift * cos
	y += s.drift * sin
	x += s.surge * o.forward * cos
	y -= s.sway * o.forward * sin
	return x, y, yaw
}

// derivative is the change of the motion. It reports false beyond the table of the rode.
func (s *system) derivative(m *motion, o *outside, hint *int) (motion, bool) {
	sin, cos := math.Sincos(m.heading)
	x, y, yaw := s.forces(m, o, sin, cos)

	bx, by := m.x+s.ahead*cos, m.y+s.ahead*sin
	d := math.Hypot(bx, by)
	pull, ok := s.line.pullAt(d, s.roller+o.bow, hint)
	if !ok {
		return motion{}, false
	}
	if pull > 0 {
		x, y, yaw = s.pulled(x, y, yaw, -pull*bx/d, -pull*by/d, sin, cos)
	}
	return s.change(m, o, x, y, yaw, sin, cos), true
}

// pulled adds a pull at the bow, given in the axes of the world.
func (s *system) pulled(x, y, yaw, px, py, sin, cos float64) (float64, float64, float64) {
	side := -px*sin + py*cos
	return x + px*cos + py*sin, y + side, yaw + side*s.ahead
}

// change is the derivative of the motion under forces in the boat's axes. The water
// around her has the speed of the waves: its added mass turns with her speed through it.
func (s *system) change(m *motion, o *outside, x, y, yaw, sin, cos float64) motion {
	along, across := o.stream*cos, -o.stream*sin
	return motion{
		x:       m.u*cos - m.v*sin + s.current[0],
		y:       m.u*sin + m.v*cos + s.current[1],
		heading: m.r,
		u:       (x+s.sway*(m.v-across)*m.r)/s.surge + across*m.r,
		v:       (y-s.surge*(m.u-along)*m.r)/s.sway - along*m.r,
		r:       yaw / s.yaw,
	}
}

// advance takes one step by the classical rule of Runge and Kutta.
func (s *system) advance(m *motion, from, middle, to *outside, hint *int) bool {
	h := s.step
	k1, ok1 := s.derivative(m, from, hint)
	m2 := m.plus(&k1, h/2)
	k2, ok2 := s.derivative(&m2, middle, hint)
	m3 := m.plus(&k2, h/2)
	k3, ok3 := s.derivative(&m3, middle, hint)
	m4 := m.plus(&k3, h)
	k4, ok4 := s.derivative(&m4, to, hint)
	if !(ok1 && ok2 && ok3 && ok4) {
		return false
	}
	*m = m.plus(&k1, h/6)
	*m = m.plus(&k2, h/3)
	*m = m.plus(&k3, h/3)
	*m = m.plus(&k4, h/6)
	return true
}

// newSystem works out what every realisation shares.
func newSystem(r *Ride) (*system, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	s := &system{
		ahead: float64(r.Ahead), roller: float64(r.Site.Roller), speed: float64(r.Wind.Speed),
		drift: float64(r.Drift), fairlead: r.Fairlead, step: r.step(),
	}
	added, err := r.Below.AddedMass(r.Current)
	if err != nil {
		return nil, err
	}
	m := float64(r.Below.Mass)
	k := float64(or(r.Gyradius, r.Below.Length/4))
	s.surge, s.sway, s.yaw = m+float64(added.Along), m+float64(added.Across), m*k*k+float64(added.Yaw)
	linear := func(mass float64, t units.Time) float64 {
		if t == 0 {
			return 0
		}
		return mass / float64(t)
	}
	s.surgeDrag, s.swayDrag, s.yawDrag = linear(s.surge, r.Surging), linear(s.sway, r.Swaying), linear(s.yaw, r.Yawing)
	sin, cos := math.Sincos(float64(r.CurrentFrom))
	v := float64(r.Current.Speed)
	s.current = [2]float64{-v * cos, -v * sin}
	if err := s.tabulateLoads(r); err != nil {
		return nil, err
	}
	reach := r.bowReach()
	if s.line, err = newLineTable(r.Rode, r.Site, s.roller-reach, s.roller+reach, 0.01); err != nil {
		return nil, inRode("Rode.", "Site.", nil, err)
	}
	s.fall = fallSpeed(r)
	return s, nil
}

// bowReach is how far from its mean the roller can come.
func (r *Ride) bowReach() float64 {
	if r.Waves.Height == 0 {
		return 0
	}
	w := r.waves()
	l, x := float64(r.Below.Length), float64(r.Ahead)
	if r.Regular {
		b, _, _ := bowResponse(1/float64(w.Period), float64(w.Depth), l, x)
		return float64(w.Height) / 2 * math.Hypot(real(b), imag(b))
	}
	density := bretschneider(float64(w.Height), float64(w.Period))
	fp := 1 / float64(w.Period)
	variance := 0.0
	const n = 400
	for i := range n { // midpoints in the frequencies that seaway uses
		f := fp * (0.25 + (ripple-0.25)*(float64(i)+0.5)/n)
		b, _, _ := bowResponse(f, float64(w.Depth), l, x)
		variance += density(f) * (real(b)*real(b) + imag(b)*imag(b)) * fp * (ripple - 0.25) / n
	}
	// Seven deviations: once in 10^10 waves.
	return 7 * math.Sqrt(variance)
}

// fallSpeed is the speed at which the lowest piece sinks sideways: its weight
// against a drag of 1.2 on the thickness of a rope and 2.4 on the wire of a chain
// (DNV-OS-E301, chapter 2, section 1, recalled).
func fallSpeed(r *Ride) float64 {
	p := &r.Rode.Pieces[0]
	water := float64(or(r.Site.Water, rode.SeaWater))
	wet := float64(p.Mass.Weight()) * (1 - water/float64(p.Density))
	if wet <= 0 {
		return 0
	}
	section := float64(p.Mass) / float64(p.Density)
	drag := 1.2 * math.Sqrt(4/math.Pi*section)
	if p.Kind == rode.OfChain {
		drag = 2.4 * math.Sqrt(4/math.Pi*section/chainSection)
	}
	return math.Sqrt(wet / (water / 2 * drag))
}

// chainSection is the mean section of a short-link chain over that of its wire:
// 1.4 kg/m for 8 mm.
const chainSection = 1.4 / 7850 / (math.Pi / 4 * 0.008 * 0.008)
