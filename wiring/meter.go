package wiring

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Voltmeter is the limit of error that a voltmeter's data sheet states: a share of the
// reading and a fixed part, the counts of the last digit.
type Voltmeter struct {
	Share float64 // of the reading: 0.005 for 0.5 %
	Fixed units.Voltage
}

// Ammeter is the limit of error of an ammeter, mostly a clamp.
type Ammeter struct {
	Share float64
	Fixed units.Current
}

func (m Voltmeter) check(c *checker, field string) {
	between(c, field+".Share", m.Share, 0, 0.5)
	notNegative(c, field+".Fixed", m.Fixed)
}

func (m Ammeter) check(c *checker, field string) {
	between(c, field+".Share", m.Share, 0, 0.5)
	notNegative(c, field+".Fixed", m.Fixed)
}

func (m Voltmeter) limit(volts float64) float64 { return m.Share*math.Abs(volts) + m.Fixed.Volts() }

func (m Ammeter) limit(amperes float64) float64 {
	return m.Share*math.Abs(amperes) + m.Fixed.Amperes()
}

// Spread is how far the parts of a boat may lie from the numbers in the model, as
// shares: 0.05 for 5 %. The zero Spread is [TypicalSpread].
type Spread struct {
	Cable   float64 // resistance of cables: length, area, temperature
	Contact float64 // resistance of lugs, terminals, switches
	Device  float64 // resistance of fuses and breakers
	Source  float64 // resistance of batteries and alternators
	Load    float64 // torque of motors; current, power or resistance of loads
}

// TypicalSpread is a guess for sound work: 4 % for cables, 50 % for contacts, 20 % for
// devices and batteries, 10 % for loads.
func TypicalSpread() Spread { return Spread{0.04, 0.5, 0.2, 0.2, 0.1} }

func (s Spread) check(c *checker, field string) {
	between(c, field+".Cable", s.Cable, 0, 0.9)
	between(c, field+".Contact", s.Contact, 0, 0.9)
	between(c, field+".Device", s.Device, 0, 0.9)
	between(c, field+".Source", s.Source, 0, 0.9)
	between(c, field+".Load", s.Load, 0, 0.9)
}

// Probes is where a voltmeter is held.
type Probes struct{ Red, Black string } // nodes

// Expected is what a voltmeter should read.
type Expected struct {
	Probes Probes
	Volts  units.Voltage
	// Meter is the meter's limit of error at that reading, Model the spread of the
	// parts, each part by itself, summed by squares.
	Meter, Model units.Voltage
	// Low and High are Volts less and plus both.
	units.Interval[units.Voltage]
}

// ExpectReadings says what a voltmeter should read between nodes while the circuit works
// under the conditions. What lies outside Low and High is worth looking into: a bad
// joint, another current than supposed, or a wrong model.
func ExpectReadings(c Circuit, at Conditions, probes []Probes, m Voltmeter, s Spread) ([]Expected, error) {
	var ck checker
	m.check(&ck, "meter")
	if s == (Spread{}) {
		s = TypicalSpread()
	}
	s.check(&ck, "spread")
	if ck.err != nil {
		return nil, ck.err
	}
	read := func(c Circuit) ([]float64, error) {
		solved, err := Solve(c, at)
		if err != nil {
			return nil, err
		}
		volts := make([]float64, len(probes))
		for i, p := range probes {
			for _, n := range []struct {
				name, node string
				sign       float64
			}{{"Red", p.Red, 1}, {"Black", p.Black, -1}} {
				v, ok := solved.Nodes[n.node]
				if !ok {
					return nil, refuseAs(ErrUnknown, fmt.Sprintf("probes[%d].%s", i, n.name), fmt.Sprintf("%q", n.node), "a node of the circuit")
				}
				volts[i] += n.sign * v.Volts()
			}
		}
		return volts, nil
	}
	nominal, err := read(c)
	if err != nil {
		return nil, err
	}
	squares := make([]float64, len(probes))
	for i := range c.Elements {
		off := Circuit{Elements: slices.Clone(c.Elements), Reference: c.Reference}
		if !s.apply(&off.Elements[i]) {
			continue
		}
		volts, err := read(off)
		if err != nil {
			return nil, fmt.Errorf("with Elements[%d] (%s) at the end of its spread: %w", i, c.Elements[i].Name, err)
		}
		for j := range volts {
			d := volts[j] - nominal[j]
			squares[j] += d * d
		}
	}
	all := make([]Expected, len(probes))
	for i, v := range nominal {
		meter, model := m.limit(v), math.Sqrt(squares[i])
		all[i] = Expected{
			Probes: probes[i], Volts: units.Voltage(v),
			Meter: units.Voltage(meter), Model: units.Voltage(model),
			Interval: units.Interval[units.Voltage]{Low: units.Voltage(v - meter - model), High: units.Voltage(v + meter + model)},
		}
	}
	return all, nil
}

// apply puts an element at the upper end of its spread; false if it has none.
func (s Spread) apply(e *Element) bool {
	share := 0.0
	switch {
	case e.Cable != nil:
		x := *e.Cable
		share = s.Cable
		x.Conductor.Resistance = x.Conductor.Resistance.Scale(1 + share)
		e.Cable = &x
	case e.Contact != nil:
		x := *e.Contact
		share = s.Contact
		x.Resistance = x.Resistance.Scale(1 + share)
		e.Contact = &x
	case e.Device != nil:
		x := *e.Device
		share = s.Device
		x.Resistance = x.Resistance.Scale(1 + share)
		e.Device = &x
	case e.Battery != nil:
		x := *e.Battery
		share = s.Source
		x.Resistance = x.Resistance.Scale(1 + share)
		e.Battery = &x
	case e.Alternator != nil:
		x := *e.Alternator
		share = s.Source
		x.Resistance = x.Resistance.Scale(1 + share)
		e.Alternator = &x
	case e.Load != nil:
		x := *e.Load
		share = s.Load
		x.Resistance = x.Resistance.Scale(1 + share)
		x.Current = x.Current.Scale(1 + share)
		x.Power = x.Power.Scale(1 + share)
		e.Load = &x
	case e.Motor != nil:
		x := *e.Motor
		share = s.Load
		x.Load = x.Load.Scale(1 + share)
		e.Motor = &x
	}
	return share > 0
}

// Reading is a voltage measured under load, together with the current at that moment.
type Reading struct {
	Probes  Probes // red towards the positive post
	Volts   units.Voltage
	Current units.Current
}

// Judgement of a measured section.
type Judgement string

// Judgements.
const (
	Sound     Judgement = "sound"     // the value is not more than the model allows
	Suspect   Judgement = "suspect"   // the value is more than the model allows, but its interval reaches down to it
	Undecided Judgement = "undecided" // the value is not more than the model allows, but the meters are too coarse for that to mean anything
	Bad       Judgement = "bad"       // all of the interval is more than the model allows
	TooLow    Judgement = "too low"   // all of it is less than the model allows: another path, or a wrong model
	Reversed  Judgement = "reversed"  // the sign is not that of the current
	Unmatched Judgement = "unmatched" // no parts of the model lie between the probes
)

var worstFirst = []Judgement{Bad, Suspect, Undecided, Reversed, TooLow, Unmatched, Sound}

// Ohms is a resistance and its interval.
type Ohms struct {
	Value units.Resistance
	units.Interval[units.Resistance]
}

// Joints is what a reading says of the section between its probes.
type Joints struct {
	Reading   Reading
	Measured  Ohms
	Model     Ohms
	Judgement Judgement
	// Excess is what is measured above the model, and Heat what that makes of the current.
	Excess units.Resistance
	Heat   units.Power
	// Parts are the elements between the probes, the likeliest culprits first: contacts,
	// then devices, then cables.
	Parts []string
}

// FindBadJoint gives each section's resistance with its interval, from readings taken
// under load, and says which is more than the model allows: that joint is loose,
// corroded or badly crimped. R = V/I, the interval from the limits of error of both meters.
// What is worst comes first: bad, suspect, undecided, then what does not fit the circuit,
// sound last; of the same judgement the greater excess. The current should be as large as the motor
// can be made to draw; do not hold a stalled motor for it.
//
// With M for what is measured, value and interval, and X for the model's interval, the first
// that is true decides:
//
//	M.High < 0                         reversed
//	M.Low > X.High                     bad
//	M.High < X.Low                     too low
//	M.Value > X.High                   suspect
//	M.High > X.High + (X.High - X.Low) undecided
//	otherwise                          sound
//
// The value decides between sound and suspect, not the upper end of the interval: a sound cable
// has what the model has, often its standard's highest, and any meter's interval would reach
// beyond that. So a joint that is worse than the model by less than the meters' error may pass;
// that error may be as wide as the model's own interval, within which no meter could tell sound
// from bad either. What reaches farther is undecided: measure with more current or a finer meter.
func FindBadJoint(c Circuit, at Conditions, readings []Reading, volts Voltmeter, amperes Ammeter, s Spread) ([]Joints, error) {
	var ck checker
	volts.check(&ck, "volts")
	amperes.check(&ck, "amperes")
	if s == (Spread{}) {
		s = TypicalSpread()
	}
	s.check(&ck, "spread")
	for i, r := range readings {
		f := fmt.Sprintf("readings[%d]", i)
		between(&ck, f+".Volts", r.Volts, -1e6*units.Volt, 1e6*units.Volt)
		positive(&ck, f+".Current", r.Current)
		must(&ck, r.Current.Amperes() > amperes.limit(r.Current.Amperes()), f+".Current", r.Current,
			"more than the meter's limit of error")
	}
	if ck.err != nil {
		return nil, ck.err
	}
	solved, err := Solve(c, at)
	if err != nil {
		return nil, err
	}
	var all []Joints
	for i, r := range readings {
		for _, n := range []struct{ name, node string }{{"Red", r.Probes.Red}, {"Black", r.Probes.Black}} {
			if _, ok := solved.Nodes[n.node]; !ok {
				return nil, refuseAs(ErrUnknown, fmt.Sprintf("readings[%d].Probes.%s", i, n.name), fmt.Sprintf("%q", n.node), "a node of the circuit")
			}
		}
		all = append(all, judge(c, &solved, r, volts, amperes, s))
	}
	slices.SortStableFunc(all, func(a, b Joints) int {
		return cmp.Or(cmp.Compare(slices.Index(worstFirst, a.Judgement), slices.Index(worstFirst, b.Judgement)), cmp.Compare(b.Excess, a.Excess))
	})
	return all, nil
}

func judge(c Circuit, solved *Solution, r Reading, volts Voltmeter, amperes Ammeter, s Spread) Joints {
	v, i := r.Volts.Volts(), r.Current.Amperes()
	dv, di := volts.limit(v), amperes.limit(i)
	low := func(v float64) float64 { // the smaller of v/(i-di) and v/(i+di), whatever the sign
		return math.Min(v/(i-di), v/(i+di))
	}
	j := Joints{Reading: r, Measured: Ohms{
		units.Resistance(v / i),
		units.Interval[units.Resistance]{Low: units.Resistance(low(v - dv)), High: units.Resistance(-low(-(v + dv)))},
	}}
	path := resistivePath(c, solved, r.Probes.Red, r.Probes.Black)
	if len(path) == 0 {
		j.Judgement = Unmatched
		return j
	}
	slices.SortStableFunc(path, func(a, b int) int { return culprit(c.Elements[a]) - culprit(c.Elements[b]) })
	var value, off float64
	for _, n := range path {
		e := c.Elements[n]
		ohm := solved.Branches[n].Resistance.Ohms()
		value += ohm
		off += ohm * [...]float64{s.Contact, s.Device, s.Cable}[culprit(e)]
		j.Parts = append(j.Parts, e.Name)
	}
	j.Model = Ohms{
		units.Resistance(value),
		units.Interval[units.Resistance]{Low: units.Resistance(value - off), High: units.Resistance(value + off)},
	}
	j.Excess = j.Measured.Value - j.Model.Value
	if j.Excess > 0 {
		j.Heat = units.Power(j.Excess.Ohms() * i * i)
	}
	switch {
	case j.Measured.High < 0:
		j.Judgement = Reversed
	case j.Measured.Low > j.Model.High:
		j.Judgement = Bad
	case j.Measured.High < j.Model.Low:
		j.Judgement = TooLow
	case j.Measured.Value > j.Model.High:
		j.Judgement = Suspect
	case j.Measured.High > 2*j.Model.High-j.Model.Low:
		j.Judgement = Undecided
	default:
		j.Judgement = Sound
	}
	return j
}

// culprit orders elements by how often they are to blame.
func culprit(e Element) int {
	switch {
	case e.Contact != nil:
		return 0
	case e.Device != nil:
		return 1
	}
	return 2
}

// resistivePath is the shortest way between two nodes over closed contacts, devices
// and cables, as indices of elements. Leakage and faults are no way.
func resistivePath(c Circuit, solved *Solution, from, to string) []int {
	via := map[string]int{from: -1} // the element by which a node was reached
	queue := []string{from}
	for len(queue) > 0 {
		node := queue[0]
		queue = queue[1:]
		if node == to {
			var path []int
			for node != from {
				i := via[node]
				path = append(path, i)
				node = otherEnd(c.Elements[i], node)
			}
			slices.Reverse(path)
			return path
		}
		for i, e := range c.Elements {
			if node != e.From && node != e.To || !conducts(e) || solved.Branches[i].State == Off {
				continue
			}
			next := otherEnd(e, node)
			if _, seen := via[next]; !seen {
				via[next] = i
				queue = append(queue, next)
			}
		}
	}
	return nil
}

func otherEnd(e Element, node string) string {
	if node == e.From {
		return e.To
	}
	return e.From
}

// conducts says whether an element is a way for current by design.
func conducts(e Element) bool {
	return e.Cable != nil || e.Device != nil ||
		e.Contact != nil && !e.Contact.Open && e.Contact.Role != Leakage && e.Contact.Role != Fault
}
