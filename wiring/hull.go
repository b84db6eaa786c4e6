package wiring

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// HullStudy says what to check on a metal hull, or against a bonding system.
type HullStudy struct {
	Node     string   // the hull
	Isolator []string // elements that the isolator opens, both poles
	// Least insulation of each pole against the hull that is asked for; 0: none.
	Least units.Resistance `json:",omitempty"`
	// Noticed is the least current of a fault to the hull that something shows: a lamp
	// of the leakage test; 0: 10 mA.
	Noticed units.Current `json:",omitempty"`
}

// PoleToHull is what a fault of one pole to the hull does, and how the pole is insulated.
type PoleToHull struct {
	Positive   bool
	Current    units.Current    // into the hull, through a solid fault at the post
	Opens      []string         // devices that must open at that current
	Insulation units.Resistance // of the pole against the hull; 0 when it is joined to it
	Joined     bool             // the pole is connected to the hull by design
	Enough     bool             // not less than Least
	// Reads is what a voltmeter of 10 MΩ shows from the hull to the pole with the supply on:
	// the voltage divides as the insulations do. A pole near 0 V is the one that leaks.
	Reads units.Voltage
}

// HullReport is the answer of [CheckHull].
type HullReport struct {
	// TwoWire says that neither pole is joined to the hull, and no conductor of the circuit
	// runs through it.
	TwoWire bool
	Poles   [2]PoleToHull // positive, negative
	// Live are the nodes of motors and other loads that stay joined to a post with the isolator open.
	Live     []string
	TwoPole  bool // nothing stays live
	Findings []string
}

// CheckHull checks a circuit with a node for the hull: that it is insulated two-wire,
// what a fault of either pole to the hull does, how well each pole is insulated, and
// that the isolator parts both poles.
//
// In an insulated circuit the first fault to the hull drives no current, so no device
// opens and nobody notices, until a second one, of the other pole, makes a short
// through the hull, and leakage corrodes it meanwhile. The insulation therefore has to be
// measured with the supply isolated and the motor's leads parted: see Insulation, which
// is what the model gives for that.
//
// Caution: a steel or aluminium hull that carries a stray current corrodes in days. Rules and
// insurers differ on bonding; have it checked by a qualified marine electrician.
func CheckHull(c Circuit, s HullStudy) (*HullReport, error) {
	or(&s.Noticed, 10*units.Milliampere)
	var ck checker
	notNegative(&ck, "Least", s.Least)
	positive(&ck, "Noticed", s.Noticed)
	if ck.err == nil {
		ck.err = c.check()
	}
	must(&ck, slices.Contains(nodesInOrder(c), s.Node), "Node", fmt.Sprintf("%q", s.Node), "a node of the circuit")
	for i, name := range s.Isolator {
		must(&ck, slices.ContainsFunc(c.Elements, func(e Element) bool { return e.Name == name }),
			fmt.Sprintf("Isolator[%d]", i), fmt.Sprintf("%q", name), "the name of an element")
	}
	source := slices.IndexFunc(c.Elements, func(e Element) bool { return e.Battery != nil })
	must(&ck, source >= 0, "Elements", "without a battery", "at least one")
	if ck.err != nil {
		return nil, ck.err
	}
	r := &HullReport{TwoWire: true}
	bank := c.Elements[source]
	hull := distances(c, s.Node)
	for i, post := range []string{bank.To, bank.From} {
		p := &r.Poles[i]
		p.Positive = i == 0
		if _, p.Joined = hull[post]; p.Joined {
			r.TwoWire = false
			r.find("the %s pole is joined to the hull", pole(p.Positive))
		}
		volts, err := p.fault(c, s.Node, post)
		if err != nil {
			return nil, err
		}
		if p.Reads, err = reads(c, s.Node, post); err != nil {
			return nil, err
		}
		// With one pole on the hull the whole voltage lies across the insulation of the other.
		if other := &r.Poles[1-i]; !p.Joined {
			other.Insulation = units.Resistance(math.Min(maxInsulation, volts/p.Current.Amperes()))
		}
		switch {
		case p.Joined:
		case p.Current < s.Noticed:
			r.find("a fault of the %s pole to the hull drives %.3v: no device opens and nothing shows it but an insulation test", pole(p.Positive), p.Current)
		case len(p.Opens) == 0:
			r.find("a fault of the %s pole to the hull drives %.3v and no device opens", pole(p.Positive), p.Current)
		default:
			r.find("a fault of the %s pole to the hull drives %.3v and opens %s", pole(p.Positive), p.Current, p.Opens)
		}
	}
	for i := range r.Poles {
		p := &r.Poles[i]
		if p.Joined {
			p.Insulation = 0
		}
		p.Enough = !p.Joined && p.Insulation >= s.Least
		if !p.Joined && !p.Enough {
			r.find("the %s pole has %.3v to the hull, less than %.3v", pole(p.Positive), p.Insulation, s.Least)
		}
	}
	r.isolation(c, s.Isolator, bank)
	return r, nil
}

// maxInsulation in ohms: what a circuit without leakage is said to have.
const maxInsulation = 1e9

func pole(positive bool) string {
	if positive {
		return "positive"
	}
	return "negative"
}

func (r *HullReport) find(format string, a ...any) {
	r.Findings = append(r.Findings, fmt.Sprintf(format, a...))
}

// fault shorts a pole to the hull at its post. It returns the voltage of the battery.
func (p *PoleToHull) fault(c Circuit, hull, post string) (volts float64, err error) {
	if p.Joined {
		return 0, nil
	}
	c = withoutLoads(c)
	name := newName(c, "fault")
	c.Elements = append(c.Elements, Element{Name: name, From: post, To: hull, Contact: &Contact{Role: Fault, Resistance: solidFault}})
	solved, err := Solve(c, Conditions{})
	if err != nil {
		return 0, fmt.Errorf("with the %s pole on the hull: %w", pole(p.Positive), err)
	}
	for i, e := range c.Elements {
		b := solved.Branches[i]
		if e.Name == name {
			p.Current = b.Current.Abs()
		}
		if e.Device != nil && e.Device.Band != nil && !math.IsInf(e.Device.Band.latest(b.Current.Abs().Per(e.Device.Rating)), 1) {
			p.Opens = append(p.Opens, e.Name)
		}
		if e.Battery != nil && (e.From == post || e.To == post) {
			volts = math.Abs(b.Drop.Volts())
		}
	}
	return volts, nil
}

// reads is the voltage from the hull to a post on a voltmeter.
func reads(c Circuit, hull, post string) (units.Voltage, error) {
	c = withoutLoads(c)
	c.Elements = append(c.Elements, Element{
		Name: newName(c, "voltmeter"), From: post, To: hull, Contact: &Contact{Role: Leakage, Resistance: 10 * units.Megohm},
	})
	solved, err := Solve(c, Conditions{})
	if err != nil {
		return 0, fmt.Errorf("with a voltmeter between %s and %s: %w", post, hull, err)
	}
	return solved.Nodes[post] - solved.Nodes[hull], nil
}

// isolation looks for what stays joined to a post with the isolator open.
func (r *HullReport) isolation(c Circuit, isolator []string, bank Element) {
	open := c
	open.Elements = slices.DeleteFunc(slices.Clone(c.Elements), func(e Element) bool { return slices.Contains(isolator, e.Name) })
	plus, minus := distances(open, bank.To), distances(open, bank.From)
	for _, e := range open.Elements {
		if e.Load == nil && e.Motor == nil {
			continue
		}
		for _, n := range []string{e.From, e.To} {
			_, a := plus[n]
			_, b := minus[n]
			if (a || b) && !slices.Contains(r.Live, n) {
				r.Live = append(r.Live, n)
			}
		}
	}
	r.TwoPole = len(isolator) > 0 && len(r.Live) == 0
	switch {
	case len(isolator) == 0:
		r.find("no isolator is named")
	case !r.TwoPole:
		r.find("with the isolator open %q stay joined to the bank", r.Live)
	}
}
