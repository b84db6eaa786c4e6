package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// MotorType is how a motor's field is made.
type MotorType string

// Types of motor.
const (
	PermanentMagnet MotorType = "permanent magnet"
	SeriesWound     MotorType = "series"
	CompoundWound   MotorType = "compound" // series and shunt field that help each other
)

// Motor is a direct-current motor working against a torque. [FitMotor] makes one
// from catalogue points.
//
// Its laws, with flux linkage k (volts per rad/s, which is N m per ampere):
//
//	speed = (V - I*Resistance) / k
//	torque = Efficiency*k*I - Drag
//	k = Flux                            permanent magnet
//	k = Slope*I / (1 + I/Knee)          series
//	k = Flux*V/Voltage + Slope*I        compound
//
// So a motor that pulls against a given torque draws a current that the torque
// sets: less voltage makes it slower, not hungrier (a compound motor a little).
// It is not a constant-power load. When the voltage cannot drive that current through
// the resistance, the motor stalls and is nothing but the resistance.
type Motor struct {
	Type       MotorType
	Voltage    units.Voltage    // of the catalogue points
	Resistance units.Resistance // of armature, brushes and series field
	// Flux is the linkage, or a shunt field's part of it, Slope how it grows with the
	// current of a series field, and Knee the current at which saturation has halved
	// that; 0: it does not saturate.
	Flux  units.MagneticFlux `json:",omitempty"`
	Slope units.Inductance   `json:",omitempty"`
	Knee  units.Current      `json:",omitempty"`

	Efficiency float64      // of turning k*I into torque
	Drag       units.Torque // of bearings, brushes and fan

	Load units.Torque // that it works against
}

// MotorPoint is one line of a catalogue or one measurement at a stated voltage.
// At a stall Speed is 0. Torque 0 with a speed means not given, unless NoLoad is set.
type MotorPoint struct {
	Current units.Current
	Speed   units.AngularSpeed
	Torque  units.Torque
	NoLoad  bool // Torque is 0 because the shaft is free
}

// FitMotor finds a motor's constants from points at one voltage: two for a permanent
// magnet motor, three for a series or compound one. Currents must differ, and a greater
// current must go with a lower speed.
//
// Torque comes from the points that state it: one gives the drag, more give
// efficiency and drag by least squares (exactly, where there are two). None: no losses
// beyond the resistance, and the torques of this motor are those of its rotor.
func FitMotor(kind MotorType, at units.Voltage, points ...MotorPoint) (Motor, error) {
	m := Motor{Type: kind, Voltage: at, Efficiency: 1}
	var c checker
	between(&c, "at", at, 0.1*units.Volt, 1000*units.Volt)
	want := map[MotorType]int{PermanentMagnet: 2, SeriesWound: 3, CompoundWound: 3}[kind]
	must(&c, want > 0, "kind", fmt.Sprintf("%q", kind), "one of the MotorType constants")
	must(&c, len(points) == want, "points", len(points), fmt.Sprintf("%d for a %s motor", want, kind))
	if c.err != nil {
		return Motor{}, c.err
	}
	for i, p := range points {
		field := fmt.Sprintf("points[%d]", i)
		between(&c, field+".Current", p.Current, units.Milliampere, 1e6*units.Ampere)
		between(&c, field+".Speed", p.Speed, 0, 1e6)
		between(&c, field+".Torque", p.Torque, 0, 1e9)
		for j, q := range points[:i] {
			must(&c, float64(p.Current-q.Current)*float64(p.Speed-q.Speed) < 0, field, fmt.Sprintf("%v, %v", p.Current, p.Speed),
				fmt.Sprintf("a greater current at a lower speed than points[%d], or the reverse", j))
		}
	}
	if c.err != nil {
		return Motor{}, c.err
	}
	fits := map[MotorType]func(*Motor, []MotorPoint){PermanentMagnet: fitMagnet, SeriesWound: fitSeries, CompoundWound: fitCompound}
	fits[kind](&m, points)
	bad := refuse("points", "not those of a "+string(kind)+" motor", "points that give a positive resistance and flux")
	if !(m.Resistance > 0 && m.Flux >= 0 && m.Slope >= 0 && m.Knee >= 0) {
		return Motor{}, bad
	}
	m.fitTorque(points)
	m.check(&c, "motor")
	if c.err != nil {
		return Motor{}, c.err
	}
	return m, nil
}

// fitMagnet solves V = I R + w Flux for two points.
func fitMagnet(m *Motor, p []MotorPoint) {
	v := float64(m.Voltage)
	i1, i2, w1, w2 := float64(p[0].Current), float64(p[1].Current), float64(p[0].Speed), float64(p[1].Speed)
	det := i1*w2 - i2*w1
	m.Resistance = units.Resistance(v * (w2 - w1) / det)
	m.Flux = units.MagneticFlux(v * (i1 - i2) / det)
}

// fitCompound solves V = I R + w Flux + w I Slope for three points, by Cramer's rule.
func fitCompound(m *Motor, p []MotorPoint) {
	v := float64(m.Voltage)
	var rows [3][3]float64
	for i, q := range p {
		a, w := float64(q.Current), float64(q.Speed)
		rows[i] = [3]float64{a, w, w * a}
	}
	det := det3(rows)
	var x [3]float64
	for k := range x {
		r := rows
		for i := range r {
			r[i][k] = v
		}
		x[k] = det3(r) / det
	}
	m.Resistance, m.Flux, m.Slope = units.Resistance(x[0]), units.MagneticFlux(x[1]), units.Inductance(x[2])
}

// fitSeries solves (V - I R)(1 + s I) = w c I for three points. Written out it is
// V = R I - s V I + s R I^2 + c w I: linear in (R - s V), s R and c. With d = R - s V
// and q = s R, R is the positive root of R^2 - d R - q V = 0.
func fitSeries(m *Motor, p []MotorPoint) {
	v := float64(m.Voltage)
	var rows [3][3]float64
	for i, pt := range p {
		a, w := float64(pt.Current), float64(pt.Speed)
		rows[i] = [3]float64{a, a * a, w * a}
	}
	det := det3(rows)
	var x [3]float64
	for k := range x {
		r := rows
		for i := range r {
			r[i][k] = v
		}
		x[k] = det3(r) / det
	}
	d, q := x[0], x[1]
	// Points computed from a motor without saturation leave q at rounding.
	saturates := math.Abs(q)*float64(p[0].Current) > 1e-9*math.Abs(d)
	if !saturates {
		q = 0
	}
	r := (d + math.Sqrt(d*d+4*q*v)) / 2
	m.Resistance, m.Slope = units.Resistance(r), units.Inductance(x[2])
	if saturates {
		m.Knee = units.Current(r / q)
	}
}

func det3(a [3][3]float64) float64 {
	return a[0][0]*(a[1][1]*a[2][2]-a[1][2]*a[2][1]) -
		a[0][1]*(a[1][0]*a[2][2]-a[1][2]*a[2][0]) +
		a[0][2]*(a[1][0]*a[2][1]-a[1][1]*a[2][0])
}

// fitTorque finds efficiency and drag from the points that state a torque:
// torque = Efficiency*x - Drag with x = flux*current.
func (m *Motor) fitTorque(points []MotorPoint) {
	var n, sx, sy, sxx, sxy float64
	for _, p := range points {
		if p.Torque == 0 && !p.NoLoad {
			continue
		}
		x, y := m.flux(float64(m.Voltage), float64(p.Current))*float64(p.Current), float64(p.Torque)
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	switch det := n*sxx - sx*sx; {
	case n == 0:
	case det <= 1e-12*n*sxx: // one point, or points as good as one
		m.Drag = units.Torque((sx - sy) / n)
	default:
		m.Efficiency = (n*sxy - sx*sy) / det
		m.Drag = units.Torque((m.Efficiency*sx - sy) / n)
	}
}

func (m *Motor) check(c *checker, field string) {
	_, known := map[MotorType]bool{PermanentMagnet: true, SeriesWound: true, CompoundWound: true}[m.Type]
	must(c, known, field+".Type", fmt.Sprintf("%q", m.Type), "one of the MotorType constants")
	ohmic(c, field+".Resistance", m.Resistance)
	between(c, field+".Flux", m.Flux, 0, 1e6)
	between(c, field+".Slope", m.Slope, 0, 1e6)
	if m.Knee != 0 {
		between(c, field+".Knee", m.Knee, units.Milliampere, 1e15)
	}
	must(c, m.Efficiency > 1e-6 && m.Efficiency <= 1.001, field+".Efficiency", m.Efficiency, "more than 0 and no more than 1: torque beyond flux times current cannot be")
	between(c, field+".Drag", m.Drag, 0, 1e9)
	between(c, field+".Load", m.Load, 0, 1e9)
	if m.Voltage != 0 {
		between(c, field+".Voltage", m.Voltage, 0.1*units.Volt, 1000*units.Volt)
	}
	switch m.Type {
	case SeriesWound:
		must(c, m.Flux == 0, field+".Flux", m.Flux, "0 for a series motor")
		must(c, m.Slope > 1e-12, field+".Slope", m.Slope, "more than 0")
		must(c, m.Load+m.Drag > 1e-12, field+".Load", m.Load, "more than 0, as a series motor without load runs away")
	case PermanentMagnet:
		must(c, m.Slope == 0 && m.Knee == 0, field+".Slope", m.Slope, "0 for a permanent magnet motor")
		must(c, m.Flux > 1e-12, field+".Flux", m.Flux, "more than 0")
	case CompoundWound:
		between(c, field+".Voltage", m.Voltage, 0.1*units.Volt, 1000*units.Volt)
		must(c, m.Knee == 0, field+".Knee", m.Knee, "0 for a compound motor")
		must(c, m.Flux > 1e-12 && m.Slope > 1e-12, field+".Slope", m.Slope, "more than 0, and Flux too")
	}
}

// flux is the linkage at a voltage and current, both positive.
func (m *Motor) flux(v, i float64) float64 {
	switch m.Type {
	case PermanentMagnet:
		return float64(m.Flux)
	case SeriesWound:
		return float64(m.Slope) * i / (1 + m.saturation()*i)
	default:
		return float64(m.Flux)*v/float64(m.Voltage) + float64(m.Slope)*i
	}
}

// saturation is 1/Knee.
func (m *Motor) saturation() float64 {
	if m.Knee == 0 {
		return 0
	}
	return 1 / float64(m.Knee)
}

// running is the current that the torque asks for at a voltage v > 0, and its
// derivative with respect to v.
func (m *Motor) running(v float64) (i, slope float64) {
	x := (float64(m.Load) + float64(m.Drag)) / m.Efficiency // flux times current
	magnet, series := float64(m.Flux), float64(m.Slope)
	switch m.Type {
	case PermanentMagnet:
		return x / magnet, 0
	case SeriesWound: // Slope I^2 - x/Knee I - x = 0
		b := m.saturation() * x
		return (b + math.Sqrt(b*b+4*series*x)) / (2 * series), 0
	default: // Slope I^2 + Flux v/Voltage I - x = 0
		b := magnet * v / float64(m.Voltage)
		root := math.Sqrt(b*b + 4*series*x)
		if root == 0 {
			return 0, 0
		}
		i = 2 * x / (b + root)
		return i, -i * magnet / float64(m.Voltage) / root
	}
}

// Running returns current and speed under the load at a voltage across the motor.
// A motor that is held is reported with speed 0 and the current V/Resistance.
func (m Motor) Running(at units.Voltage) (units.Current, units.AngularSpeed, error) {
	var c checker
	m.check(&c, "motor")
	between(&c, "at", at, 0, 1000*units.Volt)
	if c.err != nil {
		return 0, 0, c.err
	}
	law := motorLaw{motor: &m}
	i, _ := law.current(float64(at))
	return units.Current(i), units.AngularSpeed(law.speed(float64(at), i)), nil
}

// StallCurrent returns what the motor draws standing still, at the start or held fast,
// V/Resistance, with the motor cold.
func (m Motor) StallCurrent(at units.Voltage) (units.Current, error) {
	var c checker
	m.check(&c, "motor")
	between(&c, "at", at, 0, 1000*units.Volt)
	if c.err != nil {
		return 0, c.err
	}
	return at.PerResistance(m.Resistance), nil
}
