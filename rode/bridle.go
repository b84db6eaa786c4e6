package rode

import (
	"errors"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Bridle is two legs of one kind of rope from a ring or hook to a fairlead on
// each side: on both bows of a monohull, on both hulls of a catamaran.
type Bridle struct {
	Rope   Rope
	Spread units.Length // between the fairleads
	// Port and Starboard are the unstretched legs, from fairlead to ring.
	Port, Starboard units.Length
}

// BridlePull is what pulls on the ring.
type BridlePull struct {
	Horizontal units.Force
	Vertical   units.Force // downward
	// Sheer is the angle in plan from straight ahead to the rode, positive where
	// the rode leads off to port, less than 90° either way.
	Sheer units.Angle
}

// BridleState is how a bridle lies and what its legs feel.
type BridleState struct {
	Tension units.Force // of rode and chain at the ring
	Sheer   units.Angle // as it was given
	// Forward, ToPort and Below are where the ring is, from the middle between
	// the fairleads.
	Forward, ToPort, Below units.Length
	Port, Starboard        LegState
	// Turning is the moment of the pull about the middle between the fairleads,
	// positive where it turns the bow to port: at a sheer it brings the bow back
	// into the rode's line, which a single line to the bow roller does not.
	Turning units.Torque
}

// LegState is one leg of a bridle.
type LegState struct {
	Tension    units.Force // which is also the load on its cleat
	OfBreaking float64
	Stretch    units.Length
	Length     units.Length // from fairlead to ring, stretched; the distance for a slack leg
	Slack      units.Length // that the leg is longer than that distance
	// Lead is the angle in plan of the leg at the fairlead from straight ahead,
	// positive to port, and Down its angle below the horizontal.
	Lead, Down units.Angle
}

func (b Bridle) check(c *checker) {
	positive(c, "Bridle.Spread", b.Spread)
	positive(c, "Bridle.Port", b.Port)
	positive(c, "Bridle.Starboard", b.Starboard)
	if c.err == nil && b.Port+b.Starboard <= b.Spread {
		c.err = refuse("Bridle.Port", b.Port, "legs that together are longer than the spread, "+b.Spread.String())
	}
	b.Rope.check(c, "Bridle.Rope")
}

func (p BridlePull) check(c *checker) {
	positive(c, "BridlePull.Horizontal", p.Horizontal)
	between(c, "BridlePull.Vertical", p.Vertical, 0, maxPull)
	between(c, "BridlePull.Horizontal", p.Horizontal, 0, maxPull)
	if c.err == nil && !(math.Abs(float64(p.Sheer)) < math.Pi/2) {
		c.err = refuse("BridlePull.Sheer", p.Sheer, "more than -90° and less than 90°")
	}
}

// SolveBridle finds the equilibrium of two elastic legs without weight under a
// pull on the ring. Both legs lie in the plane of the pull and the line between
// the fairleads; in it
//
//	T1 u1 + T2 u2 = F,  length of leg i = L_i (1 + e(T_i)), or slack with T_i = 0
//
// is the one point where the elastic energy less the work of the pull is least.
// With equal legs and the rode straight ahead each leg carries half the pull
// over the cosine of its angle. As the boat sheers the leg away from the rode
// takes more and more, and from some angle on all of it: size each leg and each
// cleat for the whole.
//
// Never stand in line with a loaded leg, nor in the bight between the two: a
// rope that parts snaps back. The error wraps ErrStretch where a leg is loaded
// beyond its load-extension curve.
func SolveBridle(b Bridle, p BridlePull) (BridleState, error) {
	var c checker
	b.check(&c)
	p.check(&c)
	if c.err != nil {
		return BridleState{}, c.err
	}
	st, err := b.solve(p)
	if err != nil {
		return BridleState{}, err
	}
	return st, b.withinCurve(&st)
}

func (b *Bridle) withinCurve(st *BridleState) error {
	t := max(st.Port.Tension, st.Starboard.Tension)
	if l := b.Rope.Stretch.Limit; l > 0 && t > l {
		return refuseAs(ErrStretch, "tension of a leg", t, "at most "+l.String())
	}
	return nil
}

// legs is the bridle in the plane of the pull: x from the line between the
// fairleads, y to port.
type legs struct {
	law             law
	half            float64 // of the spread
	port, starboard float64
}

// pull is the tension with which a leg pulls the ring at (x, y) toward its
// fairlead at (0, at), and the distance.
func (g *legs) pull(x, y, at, length float64) (tension, distance float64) {
	d := math.Hypot(x, y-at)
	return g.law.tensionAt(d/length - 1), d
}

// back is the force of both legs on the ring, toward the boat and to starboard.
func (g *legs) back(x, y float64) (fx, fy float64) {
	for _, l := range [...]struct{ at, length float64 }{{g.half, g.port}, {-g.half, g.starboard}} {
		if t, d := g.pull(x, y, l.at, l.length); t > 0 {
			fx += t * (x / d)
			fy += t * ((y - l.at) / d)
		}
	}
	return fx, fy
}

// solve is SolveBridle beyond the end of the curve too. The energy is convex, so
// that the force along x grows with x at every y, and that along y grows with y
// where x balances: a root within a root.
func (b *Bridle) solve(p BridlePull) (BridleState, error) {
	g := legs{b.Rope.Stretch.law(), float64(b.Spread) / 2, float64(b.Port), float64(b.Starboard)}
	sin, cos := math.Sincos(float64(p.Sheer))
	h, v := float64(p.Horizontal), float64(p.Vertical)
	ahead := h * cos
	fx, fy := math.Hypot(ahead, v), h*sin
	reach := (g.half + math.Max(g.port, g.starboard)) * (1 + g.law.at(math.Hypot(fx, fy)))
	along := func(y float64) (float64, error) {
		hi := reach
		for {
			if f, _ := g.back(hi, y); f > fx {
				break
			}
			hi *= 2
		}
		return root.Find(func(x float64) (float64, error) {
			f, _ := g.back(x, y)
			return f - fx, nil
		}, 0, hi, 1e-16*reach)
	}
	// A ring beyond both fairleads is pulled back by more than the pull aside.
	y, err := root.Find(func(y float64) (float64, error) {
		x, err := along(y)
		if err != nil {
			return 0, err
		}
		_, f := g.back(x, y)
		return f - fy, nil
	}, -2*reach, 2*reach, 1e-16*reach)
	if err != nil {
		return BridleState{}, refuseAs(ErrNoBalance, "BridlePull", p.Horizontal, err.Error())
	}
	x, err := along(y)
	if err != nil {
		return BridleState{}, refuseAs(ErrNoBalance, "BridlePull", p.Horizontal, err.Error())
	}
	st := BridleState{
		Tension: units.Force(math.Hypot(fx, fy)),
		Sheer:   p.Sheer,
		Forward: units.Length(x * ahead / fx),
		Below:   units.Length(x * v / fx),
		ToPort:  units.Length(y),
	}
	st.Turning = units.Force(fy).TimesArm(st.Forward) - units.Force(ahead).TimesArm(st.ToPort)
	st.Port = g.leg(&st, b, x, y, g.half, g.port)
	st.Starboard = g.leg(&st, b, x, y, -g.half, g.starboard)
	return st, nil
}

func (g *legs) leg(st *BridleState, b *Bridle, x, y, at, length float64) LegState {
	t, d := g.pull(x, y, at, length)
	aside := float64(st.ToPort) - at
	l := LegState{
		Tension:    units.Force(t),
		OfBreaking: units.Force(t).Per(b.Rope.Breaking),
		Length:     units.Length(d),
		Slack:      units.Length(math.Max(0, length-d)),
		Stretch:    units.Length(math.Max(0, d-length)),
		Lead:       units.Angle(math.Atan2(aside, float64(st.Forward))),
		Down:       units.Angle(math.Atan2(float64(st.Below), math.Hypot(float64(st.Forward), aside))),
	}
	return l
}

// tensionAt is the tension at a strain, 0 for a slack line: the inverse of at,
// which rises steadily.
func (c law) tensionAt(strain float64) float64 {
	if !(strain > 0) {
		return 0
	}
	if c.c2 == 0 && c.c3 == 0 {
		return strain / c.c1
	}
	lo, hi := 0.0, strain/c.c1
	for c.at(hi) < strain {
		lo, hi = hi, 2*hi
	}
	t := hi
	for range 200 {
		f := c.at(t) - strain
		switch {
		case f == 0:
			return t
		case f < 0:
			lo = t
		default:
			hi = t
		}
		next := t - f/(c.c1+t*(2*c.c2+t*3*c.c3))
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if next == t || next <= lo || next >= hi {
			break
		}
		t = next
	}
	return t
}

// BridleHang is a rode on a bridle: how both lie together.
type BridleHang struct {
	Bridle BridleState
	Rode   State // from the anchor to the ring; its bow is the ring
	// Ring is its height above the water, negative for one below it.
	Ring units.Length
}

// HangBridle finds how a rode hangs from the ring of a bridle under a horizontal
// pull. The rode's pieces reach from the anchor to the ring; the site's Roller
// is the height of the fairleads, and its bed has to be level. slack is the chain
// left in a loop between ring and roller, of which half hangs on the ring; 0 leaves
// it out. The legs are taken as without weight.
//
// The error wraps [ErrBed] where the ring would lie on the bed: a longer
// bridle than the water is deep needs more pull to lift it. The others are those of
// [Solve] and [SolveBridle], whose cautions hold here too.
func HangBridle(r Rode, s Site, b Bridle, pull units.Force, sheer units.Angle, slack units.Length) (BridleHang, error) {
	var c checker
	r.check(&c)
	s.check(&c)
	b.check(&c)
	BridlePull{Horizontal: pull, Sheer: sheer}.check(&c)
	notNegative(&c, "slack", slack)
	if c.err != nil {
		return BridleHang{}, c.err
	}
	if s.Slope != 0 {
		return BridleHang{}, refuse("Slope", s.Slope, "0 for a rode on a bridle")
	}
	last := &r.Pieces[len(r.Pieces)-1]
	half := last.Mass.TimesLength(slack.Scale(0.5))
	var hang BridleHang
	deeper := func(drop float64) (float64, error) {
		at := s
		at.Roller -= units.Length(drop)
		sv, err := newSolver(r, at)
		if err != nil {
			return 0, err
		}
		if err := sv.Solve(&hang.Rode, pull); err != nil {
			return 0, err
		}
		load := half.Weight()
		if at.Roller < 0 {
			load = load.Scale(1 - s.water().Per(last.Density))
		}
		hang.Ring = at.Roller
		hang.Bridle, err = b.solve(BridlePull{pull, hang.Rode.Vertical + load, sheer})
		return float64(hang.Bridle.Below) - drop, err
	}
	// The deeper the ring, the less rode it carries and the less it sinks.
	lowest := float64(s.Rise()) * (1 - 1e-9)
	drop, err := root.Find(deeper, 0, lowest, 1e-12)
	if errors.Is(err, root.ErrNoBracket) {
		return BridleHang{}, refuseAs(ErrBed, "pull", pull, "more pull or shorter legs: the ring would lie on the bed")
	}
	if err != nil {
		return BridleHang{}, err
	}
	if _, err := deeper(drop); err != nil {
		return BridleHang{}, err
	}
	return hang, b.withinCurve(&hang.Bridle)
}
