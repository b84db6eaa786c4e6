package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Winding is how the field of a direct-current motor is made.
type Winding int

// The windings.
const (
	PermanentMagnet Winding = iota // two points of the catalogue
	Series                         // three points
	Compound                       // three points
)

var windingNames = []string{"permanent magnet", "series", "compound"}

// String is the winding's name.
func (w Winding) String() string {
	if w < 0 || int(w) >= len(windingNames) {
		return fmt.Sprintf("winding %d", int(w))
	}
	return windingNames[w]
}

// MarshalText writes the winding's name.
func (w Winding) MarshalText() ([]byte, error) {
	if w < 0 || int(w) >= len(windingNames) {
		return nil, refuse("Winding", int(w), "one of the windings")
	}
	return []byte(windingNames[w]), nil
}

// UnmarshalText reads the winding's name.
func (w *Winding) UnmarshalText(text []byte) error {
	for i, n := range windingNames {
		if n == string(text) {
			*w = Winding(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Winding", fmt.Sprintf("%q", text), fmt.Sprint(windingNames))
}

// DrivePoint is one line of a windlass's data sheet: what it does at the sheet's
// voltage. A stalled windlass has speed 0.
type DrivePoint struct {
	Pull    units.Force
	Speed   units.Speed // of the chain
	Current units.Current
}

// Drive is the motor of a windlass with its gear, as its chain wheel shows it.
type Drive struct {
	Winding Winding
	Voltage units.Voltage // at the motor's terminals, for which the points hold
	// Points are by rising pull, each with less speed and more current than the one
	// before: two of a permanent magnet motor, three of others.
	Points []DrivePoint
	Gear   Gear
}

// Gear are the efficiencies of the gear between motor and chain wheel.
type Gear struct {
	// Running is that under load; 0 counts as the part of the motor's force that
	// reaches the chain by the data sheet's points, which have it in them already.
	Running float64
	// Starting is that from rest, when the teeth have squeezed out their oil; 0
	// counts as 0.75 times Running.
	Starting float64
	// BackDriving is that with which the load on the chain turns the motor; 0 counts
	// as 2 - 1/Running, for a worm loses about as much one way as the other, or as
	// none where that is negative. A worm below 0.45 Running holds by itself, above
	// 0.55 it does not; between, lubricant and vibration decide.
	BackDriving float64
}

// Gears are the drive's efficiencies, with what its zeros count as. Vibration can
// make a gear creep that should hold by itself: never leave a boat at anchor on her
// windlass.
func (d Drive) Gears() (Gear, error) {
	m, err := d.motor()
	return m.gear, err
}

// motor is a Drive as the line
//
//	volts = R I + c(I) v,  pull = e c(I) I - f,  c(I) = shunt + series I/(1 + I/saturation)
//
// in which c stands for the motor's field: constant for permanent magnets, growing
// with the current in a series motor until the iron saturates.
type motor struct {
	volts, resistance     float64
	shunt, series, curved float64 // curved is 1/saturation
	e, friction           float64
	wound                 bool // the shunt field is wound: it follows the voltage
	gear                  Gear
}

func (m *motor) field(i, volts float64) float64 {
	c := m.series * i / (1 + m.curved*i)
	if m.wound {
		return c + m.shunt*volts/m.volts
	}
	return c + m.shunt
}

func (m *motor) pull(i, volts float64) float64 { return m.e*m.field(i, volts)*i - m.friction }

func (m *motor) speed(i, volts float64) float64 {
	return (volts - m.resistance*i) / m.field(i, volts)
}

func (d *Drive) check(c *checker) {
	c.must(d.Winding >= 0 && int(d.Winding) < len(windingNames), "Drive.Winding", int(d.Winding), "one of the windings")
	between(c, "Drive.Voltage", d.Voltage, 1, 1000)
	want := 3
	if d.Winding == PermanentMagnet {
		want = 2
	}
	c.must(len(d.Points) == want, "Drive.Points", len(d.Points), fmt.Sprintf("%d points for a %v motor", want, d.Winding))
	between(c, "Drive.Gear.Running", d.Gear.Running, 0, 1)
	between(c, "Drive.Gear.Starting", d.Gear.Starting, 0, or(d.Gear.Running, 1))
	between(c, "Drive.Gear.BackDriving", d.Gear.BackDriving, 0, 1)
	for i, p := range d.Points {
		at := fmt.Sprintf("Drive.Points[%d].", i)
		between(c, at+"Pull", p.Pull, 0, 1e7)
		between(c, at+"Speed", p.Speed, 0, 10)
		between(c, at+"Current", p.Current, 1e-3, 1e5)
		if i > 0 {
			q := d.Points[i-1]
			c.must(p.Pull > q.Pull && p.Speed < q.Speed && p.Current > q.Current, at+"Pull", p.Pull,
				"points by rising pull, each slower and with more current than the one before")
		}
		c.must(float64(p.Pull)*float64(p.Speed) < float64(d.Voltage)*float64(p.Current), at+"Pull", p.Pull,
			"less work than the current brings in")
	}
}

// motor finds the constants that pass through the points.
func (d *Drive) motor() (motor, error) {
	var c checker
	d.check(&c)
	if c.err != nil {
		return motor{}, c.err
	}
	m := motor{volts: float64(d.Voltage), wound: d.Winding == Compound}
	p := make([]struct{ f, v, i float64 }, len(d.Points))
	for k, x := range d.Points {
		p[k].f, p[k].v, p[k].i = float64(x.Pull), float64(x.Speed), float64(x.Current)
	}
	switch d.Winding {
	case PermanentMagnet: // V = R i + c v, twice
		det := p[0].i*p[1].v - p[1].i*p[0].v
		m.resistance = m.volts * (p[1].v - p[0].v) / det
		m.shunt = m.volts * (p[0].i - p[1].i) / det
	case Compound: // V = R i + c0 v + c1 i v, three times
		x, ok := solve3(
			[3]float64{p[0].i, p[1].i, p[2].i},
			[3]float64{p[0].v, p[1].v, p[2].v},
			[3]float64{p[0].i * p[0].v, p[1].i * p[1].v, p[2].i * p[2].v},
			[3]float64{m.volts, m.volts, m.volts})
		if !ok {
			return motor{}, refuse("Drive.Points", d.Points, "three points that are not on one line")
		}
		m.resistance, m.shunt, m.series = x[0], x[1], x[2]
	case Series:
		var ok bool
		if m.resistance, m.series, m.curved, ok = seriesMotor(m.volts,
			[3]float64{p[0].i, p[1].i, p[2].i}, [3]float64{p[0].v, p[1].v, p[2].v}); !ok {
			return motor{}, refuse("Drive.Points", d.Points, "three points that a series motor can have")
		}
	}
	// The pull from the field and the current, a line through the first and the last
	// point.
	last := len(p) - 1
	first := m.field(p[0].i, m.volts) * p[0].i
	final := m.field(p[last].i, m.volts) * p[last].i
	m.e = (p[last].f - p[0].f) / (final - first)
	m.friction = m.e*first - p[0].f
	switch {
	case !(m.resistance > 0) || !(m.shunt >= 0) || !(m.series >= 0) || !(m.curved >= 0) || !finite(m.resistance):
		return motor{}, refuse("Drive.Points", d.Points, "points of a motor of this winding: its field or its resistance comes out negative")
	case !(m.e > 0) || m.e > 1+1e-9:
		return motor{}, refuse("Drive.Points", d.Points, fmt.Sprintf("a pull that the current can make: %.3g of the motor's force reaches the chain", m.e))
	case m.friction < -1e-9*p[last].f:
		return motor{}, refuse("Drive.Points", d.Points, "a pull that needs some current even without load")
	case d.Gear.Running > 0 && d.Gear.Running < m.e*(1-1e-9):
		return motor{}, refuse("Drive.Gear.Running", d.Gear.Running, fmt.Sprintf("%.3g or more, which is what the points show", m.e))
	}
	m.friction = max(0, m.friction) // what rounding leaves below would be work from nothing under a small pull
	m.gear.Running = or(d.Gear.Running, m.e)
	m.gear.Starting = or(d.Gear.Starting, 0.75*m.gear.Running)
	m.gear.BackDriving = or(d.Gear.BackDriving, max(0, 2-1/m.gear.Running))
	return m, nil
}

// seriesMotor finds the resistance, the field and its curvature of
//
//	(V - R i)/i + s (V - R i) = c v
//
// from three currents and speeds. Three such equations have a solution where the
// determinant of their columns vanishes, which is a quadratic in R.
func seriesMotor(volts float64, i, v [3]float64) (r, c, s float64, ok bool) {
	inverse, one := [3]float64{1 / i[0], 1 / i[1], 1 / i[2]}, [3]float64{1, 1, 1}
	a2 := det3(one, i, v)
	a1 := -volts * det3(inverse, i, v)
	a0 := volts * volts * det3(inverse, one, v)
	root := math.Sqrt(a1*a1 - 4*a2*a0)
	for _, r := range [2]float64{(-a1 - root) / (2 * a2), (-a1 + root) / (2 * a2)} {
		u0, u2 := volts-r*i[0], volts-r*i[2]
		if !(r > 0 && u2 > 0) {
			continue
		}
		// c v - s u = u/i at the first and at the last point.
		det := -v[0]*u2 + v[2]*u0
		c := (-u0/i[0]*u2 + u2/i[2]*u0) / det
		s := (v[0]*u2/i[2] - v[2]*u0/i[0]) / det
		if c > 0 && s >= -1e-12 {
			return r, c, math.Max(0, s), true
		}
	}
	return 0, 0, 0, false
}

// det3 is the determinant of three columns.
func det3(a, b, c [3]float64) float64 {
	return a[0]*(b[1]*c[2]-b[2]*c[1]) - b[0]*(a[1]*c[2]-a[2]*c[1]) + c[0]*(a[1]*b[2]-a[2]*b[1])
}

// solve3 solves three linear equations, given as columns, by Cramer's rule.
func solve3(a, b, c, right [3]float64) (x [3]float64, ok bool) {
	d := det3(a, b, c)
	if d == 0 {
		return x, false
	}
	return [3]float64{det3(right, b, c) / d, det3(a, right, c) / d, det3(a, b, right) / d}, true
}

// Supply is what feeds the windlass.
type Supply struct {
	Voltage    units.Voltage    // of the battery without load
	Resistance units.Resistance // of the battery and of the cables there and back
}

// Running is how a windlass runs under a pull.
type Running struct {
	Current    units.Current
	Voltage    units.Voltage // at the motor
	Speed      units.Speed
	Electrical units.Power // at the motor
	Efficiency float64     // of motor, gear and chain wheel
	// Starts is whether the windlass moves the load from rest, and Start the current
	// that takes. Stall is the current of a stopped motor at this supply, and
	// StallPull what it pulls then.
	Starts       bool
	Start, Stall units.Current
	StallPull    units.Force
}

// Run is how the windlass runs under a pull at its chain wheel, fed by a supply. A
// low voltage costs speed, not pull: the current that a pull needs is the same (a
// compound motor needs somewhat more), and only the current of a stalled motor falls
// with the voltage. The error about a pull that stalls it wraps [ErrStall].
func (d Drive) Run(pull units.Force, s Supply) (Running, error) {
	m, err := d.motor()
	if err != nil {
		return Running{}, err
	}
	var c checker
	notNegative(&c, "pull", pull)
	s.check(&c, d.Voltage)
	if c.err != nil {
		return Running{}, c.err
	}
	return m.run(float64(pull), s)
}

func (s Supply) check(c *checker, rated units.Voltage) {
	between(c, "Supply.Voltage", s.Voltage, rated.Scale(0.3), rated.Scale(1.5))
	between(c, "Supply.Resistance", s.Resistance, 0, 100)
}

func (m *motor) run(pull float64, s Supply) (Running, error) {
	source, r := float64(s.Voltage), float64(s.Resistance)
	at := func(i float64) float64 { return source - r*i }
	stall := source / (r + m.resistance)
	stallPull := m.pull(stall, at(stall))
	if !(pull < stallPull) {
		return Running{}, refuseAs(ErrStall, "pull", fmt.Sprintf("%.4v", units.Force(pull)),
			fmt.Sprintf("less than %.4v, at which the motor stands still with %.3v", units.Force(stallPull), units.Voltage(at(stall))))
	}
	find := func(force float64) (float64, error) {
		return root.Find(func(i float64) (float64, error) { return m.pull(i, at(i)) - force, nil }, 0, stall, 0)
	}
	i, err := find(pull)
	if err != nil {
		return Running{}, refuseAs(ErrStall, "pull", units.Force(pull), "a pull with one current")
	}
	ratio := m.gear.Starting / m.gear.Running
	start, starts := stall, pull < stallPull*ratio
	if starts {
		if start, err = find(pull / ratio); err != nil {
			return Running{}, refuseAs(ErrStall, "pull", units.Force(pull), "a pull with one current")
		}
	}
	v := m.speed(i, at(i))
	power := at(i) * i
	if !(power > 0) || !finite(v) {
		return Running{}, refuse("pull", units.Force(pull), "more: without any load nothing limits the motor's speed")
	}
	return Running{
		Current: units.Current(i), Voltage: units.Voltage(at(i)), Speed: units.Speed(v),
		Electrical: units.Power(power), Efficiency: pull * v / power,
		Starts: starts, Start: units.Current(start), Stall: units.Current(stall), StallPull: units.Force(stallPull),
	}, nil
}
