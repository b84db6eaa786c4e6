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
	Cases    []string `json:",omitempty"` // metal cases: the windlass's, the engine block
	// Least insulation of each pole against the hull, and of each winding against its case,
	// that is asked for; 0: none.
	Least units.Resistance `json:",omitempty"`
	// Noticed is the least current of a fault to the hull that something shows: a lamp
	// of the leakage test; 0: 10 mA.
	Noticed units.Current `json:",omitempty"`
}

// PoleToHull is what a fault of one pole to the hull does, and how the pole is insulated.
type PoleToHull struct {
	Positive   bool
	Current    units.Current    // into the hull, through a solid fault at the post
	Opens      []string         // devices that must open, even with a weak bank and hot copper
	Insulation units.Resistance // of the pole against the hull; 0 when it is joined to it, at most 1 GΩ
	Joined     bool             // the pole is connected to the hull by design
	Enough     bool             // not less than Least
	// Reads is what a voltmeter of 10 MΩ shows from the hull to the pole with the supply on, loads
	// and motors off, and the switches as they stand in the circuit: the voltage divides as the
	// insulations do. A pole near 0 V is the one that leaks. A winding counts when its contacts are closed.
	Reads units.Voltage
}

// CaseToHull is how a metal case is insulated from what is in it, how it is bonded to the
// hull, and what a fault of the winding to it does. What is in a case the circuit says by a
// [Leakage] from there into the case. Without one only the bond is known: Insulation is 0,
// Enough is false, and there is no Current.
type CaseToHull struct {
	Node string
	// Insulation is that of what leaks into the case, with its bonds parted; what leaks from the
	// hull, or from what is joined to it and is no motor's terminal, does not count.
	Insulation units.Resistance
	Enough     bool             // not less than Least
	Bonded     bool             // a conductor joins it to the hull
	Bonding    units.Resistance // of that way; 0 if there is none
	Current    units.Current    // from the winding into the case, through a solid fault
	Opens      []string         // devices that must open, even with a weak bank and hot copper
	Touch      units.Voltage    // between case and hull as long as it flows
}

// HullReport is the answer of [CheckHull].
type HullReport struct {
	// TwoWire says that neither pole is joined to the hull, and no conductor of the circuit
	// runs through it.
	TwoWire bool
	Poles   [2]PoleToHull // positive, negative
	Cases   []CaseToHull  // in the order of the study
	// Leakage flows through the hull, from the insulation of one pole to that of the other, with
	// the supply on and no fault. As long as it stays in metal it corrodes nothing: that happens
	// where current leaves metal into water, as in wet insulation, a bilge, or under water.
	Leakage units.Current
	// Live are the nodes of motors and other loads that stay joined to a post with the isolator open.
	Live     []string
	TwoPole  bool // nothing stays live
	Findings []string
}

// CheckHull checks a circuit with a node for the hull: that it is insulated two-wire,
// what a fault of either pole to the hull does, how well each pole is insulated, whether
// each metal case is bonded and insulated from its winding, and that the isolator parts
// both poles.
//
// In an insulated circuit the first fault to the hull drives no current, so no device
// opens and nobody notices, until a second one, of the other pole, makes a short
// through the hull. The insulation therefore has to be measured with the supply isolated
// and the motor's leads parted: see Insulation, which is what the model gives for that.
//
// Currents are those of the bank as it is, with copper at 20 °C. Which devices must open is
// asked with the weak bank and hot copper of the zero [FaultStudy]; whether that is in time for
// the cables is the question of [StudyFaults].
//
// Caution: where stray current leaves a steel or aluminium hull into the water, it eats through it,
// sometimes within days. Rules and insurers differ on bonding; have it checked by a qualified
// marine electrician.
func CheckHull(c Circuit, s HullStudy) (HullReport, error) {
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
	for i, name := range s.Cases {
		must(&ck, slices.Contains(nodesInOrder(c), name) && name != s.Node, fmt.Sprintf("Cases[%d]", i), fmt.Sprintf("%q", name), "a node of the circuit other than the hull")
	}
	source := slices.IndexFunc(c.Elements, func(e Element) bool { return e.Battery != nil })
	must(&ck, source >= 0, "Elements", "without a battery", "at least one")
	if ck.err != nil {
		return HullReport{}, ck.err
	}
	r := HullReport{TwoWire: true}
	bank := c.Elements[source]
	hull := distances(c, s.Node)
	for i, post := range []string{bank.To, bank.From} {
		p := &r.Poles[i]
		p.Positive = i == 0
		var err error
		if p.Reads, err = reads(c, s.Node, post); err != nil {
			return HullReport{}, err
		}
		if _, p.Joined = hull[post]; p.Joined {
			r.TwoWire = false
			r.find("the %s pole is joined to the hull", pole(p.Positive))
			continue
		}
		volts, err := p.fault(c, s.Node, post)
		if err != nil {
			return HullReport{}, err
		}
		// With one pole on the hull the whole voltage lies across the insulation of the other.
		r.Poles[1-i].Insulation = units.Resistance(math.Min(maxInsulation, volts/p.Current.Amperes()))
		r.judgeFault("of the "+pole(p.Positive)+" pole to the hull", p.Current, s.Noticed, p.Opens)
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
	for _, name := range s.Cases {
		if err := r.addCase(c, s, name); err != nil {
			return HullReport{}, err
		}
	}
	var err error
	if r.Leakage, err = leakage(c, s.Node); err != nil {
		return HullReport{}, err
	}
	r.isolation(c, s.Isolator, bank)
	return r, nil
}

func (r *HullReport) judgeFault(where string, i, noticed units.Current, opens []string) {
	switch {
	case i < noticed:
		r.find("a fault %s drives %.3v: no device opens and nothing shows it but an insulation test", where, i)
	case len(opens) == 0:
		r.find("a fault %s drives %.3v and no device opens", where, i)
	default:
		r.find("a fault %s drives %.3v and opens %s", where, i, opens)
	}
}

// addCase judges a metal case.
func (r *HullReport) addCase(c Circuit, s HullStudy, name string) error {
	k := CaseToHull{Node: name}
	hull, own := distances(c, s.Node), distances(c, name)
	siemens := 0.0
	var windings []string // where a fault would connect: whence the case is leaked into
	for _, e := range c.Elements {
		if e.Contact == nil || e.Contact.Role != Leakage || e.From != name && e.To != name {
			continue
		}
		from := otherEnd(e, name)
		_, ofHull := hull[from]
		_, ofCase := own[from]
		terminal := slices.ContainsFunc(c.Elements, func(m Element) bool { return m.Motor != nil && (m.From == from || m.To == from) })
		if (ofHull || ofCase) && !terminal {
			continue
		}
		siemens += 1 / e.Contact.Resistance.Ohms()
		windings = append(windings, from)
	}
	var err error
	if k.Bonding, k.Bonded, err = wayBetween(c, name, s.Node); err != nil {
		return err
	}
	if !k.Bonded {
		r.find("%s is not bonded to the hull", name)
	}
	if len(windings) == 0 {
		r.find("what is in %s is not known, for no leakage into it is given: neither is its insulation, nor what a fault to it does", name)
		r.Cases = append(r.Cases, k)
		return nil
	}
	for _, w := range windings {
		f, err := short(c, w, name)
		if err != nil {
			return err
		}
		if i := f.current.Abs(); i >= k.Current {
			k.Current, k.Opens = i, f.opens
			k.Touch = (f.solved.Nodes[name] - f.solved.Nodes[s.Node]).Abs()
		}
	}
	k.Insulation = units.Resistance(math.Min(maxInsulation, 1/siemens))
	if k.Enough = k.Insulation >= s.Least; !k.Enough {
		r.find("%s has %.3v to its winding, less than %.3v", name, k.Insulation, s.Least)
	}
	r.judgeFault("of the winding to "+name, k.Current, s.Noticed, k.Opens)
	r.Cases = append(r.Cases, k)
	return nil
}

// wayBetween is the resistance of the conductors between two nodes, by a test voltage
// with everything else off.
func wayBetween(c Circuit, a, b string) (units.Resistance, bool, error) {
	if _, joined := distances(c, a)[b]; !joined {
		return 0, false, nil
	}
	var test Circuit
	for _, e := range c.Elements {
		if conducts(e) {
			test.Elements = append(test.Elements, e)
		}
	}
	n := len(test.Elements)
	test.Elements = append(test.Elements, Element{
		Name: newName(test, "test"), From: b, To: a,
		Battery: &Battery{Chemistry: AGM, OpenCircuit: 12 * units.Volt, Charge: 1, Resistance: units.Ohm},
	})
	solved, err := Solve(test, Conditions{})
	if err != nil {
		return 0, false, fmt.Errorf("between %s and %s: %w", a, b, err)
	}
	t := solved.Branches[n]
	return units.Resistance(math.Abs(t.Drop.Volts() / t.Current.Amperes())), true, nil
}

// leakage is what flows into the hull and what is bonded to it, and out of it again.
func leakage(c Circuit, hull string) (units.Current, error) {
	solved, err := Solve(withoutLoads(c), Conditions{})
	if err != nil {
		return 0, err
	}
	group := distances(c, hull)
	in := 0.0
	for i, e := range c.Elements {
		if e.Contact == nil || e.Contact.Role != Leakage {
			continue
		}
		_, from := group[e.From]
		_, to := group[e.To]
		if from == to {
			continue
		}
		current := solved.Branches[i].Current.Amperes()
		if from {
			current = -current
		}
		in += math.Max(0, current)
	}
	return units.Current(in), nil
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
	f, err := short(c, post, hull)
	if err != nil {
		return 0, err
	}
	p.Current, p.Opens = f.current.Abs(), f.opens
	for i, e := range c.Elements {
		if e.Battery != nil && (e.From == post || e.To == post) {
			volts = math.Abs(f.solved.Branches[i].Drop.Volts())
		}
	}
	return volts, nil
}

type shorted struct {
	solved  Solution // the elements of the circuit, then the fault
	current units.Current
	opens   []string // devices that must open, with the bank weak
}

// short joins two nodes, with loads and motors off.
func short(c Circuit, a, b string) (shorted, error) {
	n := len(c.Elements)
	var study FaultStudy
	study.defaults()
	var solved [2]Solution // with the bank as it is, and weak
	for i, faulty := range []Circuit{withoutLoads(c), weakened(c, study)} {
		faulty.Elements = append(faulty.Elements, Element{
			Name: newName(c, "fault"), From: a, To: b, Contact: &Contact{Role: Fault, Resistance: solidFault},
		})
		var err error
		if solved[i], err = Solve(faulty, Conditions{}); err != nil {
			return shorted{}, fmt.Errorf("with a fault between %s and %s: %w", a, b, err)
		}
	}
	f := shorted{solved: solved[0], current: solved[0].Branches[n].Current}
	for i, e := range c.Elements {
		if e.Device != nil && e.Device.Band != nil && !math.IsInf(e.Device.Band.latest(solved[1].Branches[i].Current.Abs().Per(e.Device.Rating)), 1) {
			f.opens = append(f.opens, e.Name)
		}
	}
	return f, nil
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
