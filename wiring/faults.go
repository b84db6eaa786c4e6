package wiring

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// FaultStudy says in which circumstances faults are studied. Its zero value is: copper at
// 20 °C and the bank full and at 40 °C, if it is not hotter, for the largest fault; copper at
// 70 °C and a bank at a fifth of its charge and -10 °C for the smallest; insulation of PVC; 5 s.
// Charges and temperatures of banks are practice, for boats from cold to hot waters.
// A bank of which only OpenCircuit is known keeps it.
type FaultStudy struct {
	WarmBank   units.Temperature `json:",omitempty"` // in the largest fault, with the bank full
	HotCopper  units.Temperature `json:",omitempty"` // of all cables in the smallest fault
	WeakCharge float64           `json:",omitempty"` // state of charge in the smallest fault, OpenCircuit then being the curve's
	ColdBank   units.Temperature `json:",omitempty"`
	// Final is the temperature that the insulation survives once: [ThermoplasticLimit],
	// or [ThermosetLimit] if all cables are of that kind.
	Final  units.Temperature `json:",omitempty"`
	Within units.Time        `json:",omitempty"` // a fault must be off by then
	// Harmless is the current below which a fault counts as off; 0: 1 A.
	Harmless units.Current `json:",omitempty"`
	// Carries is what each cable carries for ever, by name: its ampacity. A cable
	// that is not named is not allowed any current that no device interrupts.
	Carries map[string]units.Current `json:",omitempty"`
}

func (s *FaultStudy) defaults() {
	or(&s.WarmBank, units.Celsius(40))
	or(&s.HotCopper, units.Celsius(70))
	or(&s.WeakCharge, 0.2)
	or(&s.ColdBank, units.Celsius(-10))
	or(&s.Final, ThermoplasticLimit)
	or(&s.Within, offWithin)
	or(&s.Harmless, units.Ampere)
}

// check fills the defaults and refuses what cannot be studied.
func (s *FaultStudy) check(c Circuit) error {
	s.defaults()
	var ck checker
	between(&ck, "WarmBank", s.WarmBank, coldestBank, hottestBank)
	between(&ck, "HotCopper", s.HotCopper, coldestCopper, hottestCopper)
	between(&ck, "WeakCharge", s.WeakCharge, 0, 1)
	between(&ck, "ColdBank", s.ColdBank, coldestBank, hottestBank)
	between(&ck, "Final", s.Final, units.Celsius(-60), units.Celsius(300))
	positive(&ck, "Within", s.Within)
	positive(&ck, "Harmless", s.Harmless)
	for _, name := range slices.Sorted(maps.Keys(s.Carries)) {
		field := fmt.Sprintf("Carries[%q]", name)
		notNegative(&ck, field, s.Carries[name])
		must(&ck, slices.ContainsFunc(c.Elements, func(e Element) bool { return e.Cable != nil && e.Name == name }), field, "of no cable", "the name of a cable of the circuit")
	}
	if ck.err == nil {
		ck.err = c.check()
	}
	return ck.err
}

// offWithin is by when a fault must be off, if nobody says otherwise.
const offWithin = 5 * units.Second

func or[Q quantity](q *Q, otherwise Q) {
	if *q == 0 {
		*q = otherwise
	}
}

// ShortCircuit is a short between two nodes and what comes of it.
type ShortCircuit struct {
	Between [2]string // the one on the side of a source's positive post first
	Weak    bool      // cold discharged bank and hot copper, else a warm full bank and cold copper
	Current units.Current
	// Opened are the devices that open, in order, each at its latest.
	Opened []string
	Off    bool       // the fault current ends
	After  units.Time // it ends by then; 0 if it does not
}

// CableFaults is the worst that faults do to a cable.
type CableFaults struct {
	Cable      string
	Withstand  LetThrough    // k² S² of one of its conductors: a short of one is fed by it alone
	LetThrough LetThrough    // most that flows through it until the fault is off
	Worst      ShortCircuit  // the fault that comes nearest to the withstand, or is never off
	Peak       units.Current // most current in that fault
	Left       units.Current // current that still flows when no device opens any more
	Protected  bool
	Because    string // in words
}

// DeviceFaults is what faults ask of a device.
type DeviceFaults struct {
	Device string
	// Largest is the prospective current: what a short would drive through the device if
	// it and all others were links without resistance.
	Largest      units.Current
	At           ShortCircuit
	Interrupting units.Current // what it can break; 0: not known
	Breaks       bool          // it is known to break the largest current
	// Smallest current that a fault for it to interrupt drives through it, with the weak
	// bank; 0 when other devices interrupt every fault before it must.
	Smallest units.Current
	AtWeak   ShortCircuit
	// Opens by the latest at the smallest current; Reached says that it must open at all.
	Opens   units.Time
	Reached bool
}

// FaultReport is the answer of [StudyFaults].
type FaultReport struct {
	Cables      []CableFaults
	Devices     []DeviceFaults
	Unprotected []string // cables that can carry a fault current that nothing interrupts in time
}

// StudyFaults puts a short between every node that is joined to a source's positive
// post and what lies beside it on the other pole, and the other way round, as the switches
// of the circuit stand, once with a strong bank and cold copper and once with a weak bank
// and hot copper, loads and motors off. Out and back are taken to lie side by side, so
// that what is equally far from the source along the cables can touch; everything can
// touch what is bonded to the other pole, a hull. In each it lets the devices open, the one with the shortest
// latest time first, until the fault is off or nothing opens any more, and adds up the
// let-through of every cable:
//
//	protected: sum of I² t <= k² S², no current left above what the cable carries, off in time
//
// Copper starts from the cable's insulation temperature (70 °C if that is not given).
// Every device needs a band. More than 1,000 elements are refused with [ErrInput]: the number of
// shorts grows with the square of theirs.
//
// A short on the cable between a source and its first device is interrupted by
// nothing: such cables are always in Unprotected. Rules allow them a length, see
// [CheckPlacement].
//
// Caution: what is protected here is protected in the model. A fault with an arc draws less than a
// solid one and can burn on below what opens a device. The rules in force decide, and a
// qualified marine electrician should check the design.
func StudyFaults(c Circuit, s FaultStudy) (FaultReport, error) {
	if err := s.check(c); err != nil {
		return FaultReport{}, err
	}
	if n := len(c.Elements); n > mostStudied {
		return FaultReport{}, refuse("Elements", fmt.Sprintf("%d long", n), fmt.Sprintf("at most %d", mostStudied))
	}
	for i, e := range c.Elements {
		if e.Device != nil && e.Device.Band == nil {
			return FaultReport{}, refuse(fmt.Sprintf("Elements[%d] (%s).Device.Band", i, e.Name), "not given", "the band of the device")
		}
	}
	f := newFaultFinder(c, s)
	if err := f.withstands(); err != nil {
		return FaultReport{}, err
	}
	for _, weak := range []bool{false, true} {
		for _, t := range f.touches {
			if err := f.try(t, weak); err != nil {
				return FaultReport{}, err
			}
		}
	}
	return f.report(), nil
}

const mostStudied = 1000

// FaultCurrents is the range of the current of a short between two nodes, as the switches of
// the circuit stand: Low with the weak bank and hot copper of the study, High with the strong
// one and copper at 20 °C. Loads and motors are off. An empty minus is all that lies beside
// plus on the other pole, by [StudyFaults]: as far along the return cable as plus is from the
// source, and what is bonded.
func FaultCurrents(c Circuit, plus, minus string, s FaultStudy) (units.Interval[units.Current], error) {
	var i units.Interval[units.Current]
	if err := s.check(c); err != nil {
		return i, err
	}
	nodes := nodesInOrder(c)
	var ck checker
	must(&ck, slices.Contains(nodes, plus), "plus", fmt.Sprintf("%q", plus), "a node of the circuit")
	must(&ck, minus == "" || slices.Contains(nodes, minus) && minus != plus, "minus", fmt.Sprintf("%q", minus), "another node of the circuit")
	if ck.err != nil {
		return i, ck.err
	}
	f := newFaultFinder(c, s)
	meet := []touch{{plus, minus, -1, 0, false}}
	if minus == "" {
		meet = slices.DeleteFunc(f.touches, func(t touch) bool { return t.plus != plus && t.minus != plus })
		if len(meet) == 0 {
			return i, refuse("plus", fmt.Sprintf("%q", plus), "a node that is joined to a source, behind its post, or a minus")
		}
	}
	i.Low, i.High = units.Current(math.Inf(1)), units.Current(math.Inf(-1))
	for _, t := range meet {
		for _, base := range []Circuit{f.strong, f.weak} {
			solved, err := Solve(f.shorted(base, t), Conditions{})
			if err != nil {
				return units.Interval[units.Current]{}, err
			}
			flow := solved.Branches[len(base.Elements)].Current
			if minus == "" {
				flow = flow.Abs()
			}
			i.Low, i.High = min(i.Low, flow), max(i.High, flow)
		}
	}
	return i, nil
}

// shorted is a circuit with the two poles of a touch together: the element behind
// its own is the fault, and the one after that the second half of a cable that is cut.
func (f *faultFinder) shorted(base Circuit, t touch) Circuit {
	c := Circuit{Reference: base.Reference, Elements: slices.Clone(base.Elements)}
	c.Elements = append(c.Elements, Element{
		Name: newName(base, "fault"), From: t.plus, To: t.minus, Contact: &Contact{Role: Fault, Resistance: solidFault},
	})
	if t.cable >= 0 {
		cutCable(&c, t)
	}
	return c
}

type faultFinder struct {
	study        FaultStudy
	strong, weak Circuit
	links        Circuit // the strong one with devices that have no resistance
	touches      []touch
	withstand    []LetThrough // by element
	cables       []CableFaults
	devices      []DeviceFaults // by element; Smallest is 0 until one was found
	score        []float64      // of the worst fault, by element: at most 1 is protected
}

func newFaultFinder(c Circuit, s FaultStudy) *faultFinder {
	n := len(c.Elements)
	f := &faultFinder{
		study: s, withstand: make([]LetThrough, n),
		cables: make([]CableFaults, n), devices: make([]DeviceFaults, n), score: make([]float64, n),
	}
	f.strong, f.weak = strengthened(c, s), weakened(c, s)
	f.links = f.strong
	f.links.Elements = slices.Clone(f.strong.Elements)
	for i := range f.links.Elements {
		if e := &f.links.Elements[i]; e.Device != nil {
			d := *e.Device
			d.Resistance = solidFault
			e.Device = &d
		}
	}
	f.touches = touches(c)
	return f
}

// strengthened is the circuit of the largest faults: without loads, banks full and warm.
func strengthened(c Circuit, s FaultStudy) Circuit {
	c = withoutLoads(c)
	for i := range c.Elements {
		e := &c.Elements[i]
		if e.Battery == nil {
			continue
		}
		b := *e.Battery
		b.Temperature = max(b.temperature(), s.WarmBank)
		b.Charge = 1
		if b.Cells > 0 {
			full := b
			full.OpenCircuit = 0
			if v, err := full.OpenCircuitVoltage(); err == nil && v > b.OpenCircuit {
				b.OpenCircuit = 0
			}
		}
		e.Battery = &b
	}
	return c
}

// weakened is the circuit of the smallest faults: without loads, banks low and cold, copper hot. A
// bank whose curve cannot be asked keeps the voltage that was measured.
func weakened(c Circuit, s FaultStudy) Circuit {
	c = withoutLoads(c)
	for i := range c.Elements {
		e := &c.Elements[i]
		switch {
		case e.Battery != nil:
			b := *e.Battery
			b.Charge = min(b.Charge, s.WeakCharge)
			b.Temperature = min(b.temperature(), s.ColdBank)
			if b.Cells > 0 && b.Charge >= chemistries[b.Chemistry].curve[0].charge {
				b.OpenCircuit = 0
			}
			e.Battery = &b
		case e.Cable != nil:
			k := *e.Cable
			k.Temperature = s.HotCopper
			e.Cable = &k
		}
	}
	return c
}

// withoutLoads puts a gigohm in the place of every load and motor, so that no
// node hangs in the air.
func withoutLoads(c Circuit) Circuit {
	c.Elements = slices.Clone(c.Elements)
	for i := range c.Elements {
		e := &c.Elements[i]
		if e.Load != nil || e.Motor != nil {
			e.Load, e.Motor, e.Contact = nil, nil, &Contact{Role: Leakage, Resistance: 1e9}
		}
	}
	return c
}

// touch is a place where two poles can come together: two nodes, or a node and a
// point along a cable.
type touch struct {
	plus, minus string
	cable       int // index of a cable that is cut where the other pole's node lies beside it; -1: none
	share       float64
	onPlus      bool // the cut cable is on the positive pole
}

// at says whether an element ends where the poles meet.
func (t touch) at(e Element) bool {
	return slices.Contains([]string{t.plus, t.minus}, e.From) || slices.Contains([]string{t.plus, t.minus}, e.To)
}

// touches are the places where a source's poles can meet. Out and back lie side by
// side: a node meets what is as far from the source on the other pole, measured along the
// cables, or the farthest that there is; and it meets what is bonded to the other pole.
func touches(c Circuit) []touch {
	var all []touch
	var posts [][2]map[string]bool
	for _, e := range c.Elements {
		if e.Battery == nil && e.Alternator == nil {
			continue
		}
		plus, minus := distances(c, e.To), distances(c, e.From)
		if _, joined := plus[e.From]; joined {
			continue // a source shorted by design: nothing to learn
		}
		posts = append(posts, [2]map[string]bool{bare(c, e.To), bare(c, e.From)})
		nodes := nodesInOrder(c)
		for _, n := range nodes {
			if d, ok := plus[n]; ok {
				for _, t := range beside(c, nodes, minus, d) {
					all = append(all, touch{n, t.node, t.cable, t.share, false})
				}
			}
			if d, ok := minus[n]; ok {
				for _, t := range beside(c, nodes, plus, d) {
					all = append(all, touch{t.node, n, t.cable, t.share, t.cable >= 0})
				}
			}
		}
	}
	// A short at the posts of a source is no cable's.
	all = slices.DeleteFunc(all, func(t touch) bool {
		return slices.ContainsFunc(posts, func(p [2]map[string]bool) bool { return p[0][t.plus] && p[1][t.minus] })
	})
	// Nodes at the same distance meet from both sides.
	var once []touch
	for _, t := range all {
		if !slices.Contains(once, t) {
			once = append(once, t)
		}
	}
	return once
}

// bare is what is joined to a post by contacts alone.
func bare(c Circuit, post string) map[string]bool {
	c.Elements = slices.DeleteFunc(slices.Clone(c.Elements), func(e Element) bool { return e.Contact == nil })
	joined := map[string]bool{}
	for n := range distances(c, post) {
		joined[n] = true
	}
	return joined
}

type meeting struct {
	node  string // of the circuit, or the name of the cut
	cable int
	share float64 // of the cable, from its From
}

// beside is what lies at a distance on the other pole.
func beside(c Circuit, nodes []string, other map[string]float64, d float64) []meeting {
	const near = 0.05 // m
	var found []meeting
	farthest := 0.0
	for _, m := range nodes {
		if x, ok := other[m]; ok {
			farthest = math.Max(farthest, x)
			if math.Abs(x-d) <= near {
				found = append(found, meeting{m, -1, 0})
			}
		}
	}
	for i, e := range c.Elements {
		x, ok := other[e.From]
		y, too := other[e.To]
		if !ok || !too {
			continue
		}
		if e.Cable != nil && math.Min(x, y) < d-near && d+near < math.Max(x, y) {
			name := fmt.Sprintf("%s at %.3v", e.Name, units.Length(d))
			for slices.Contains(nodes, name) {
				name += "'"
			}
			found = append(found, meeting{name, i, (d - x) / (y - x)})
		}
		if e.Contact != nil && e.Contact.Role == Bond {
			for _, m := range []string{e.From, e.To} {
				if !slices.Contains(found, meeting{m, -1, 0}) {
					found = append(found, meeting{m, -1, 0})
				}
			}
		}
	}
	if len(found) == 0 {
		for _, m := range nodes {
			if x, ok := other[m]; ok && x == farthest {
				found = append(found, meeting{m, -1, 0})
			}
		}
	}
	return found
}

// distances are the shortest ways along cables to every node that is joined to a
// post, in metres.
func distances(c Circuit, post string) map[string]float64 {
	d := map[string]float64{post: 0}
	for changed := true; changed; {
		changed = false
		for _, e := range c.Elements {
			if !conducts(e) {
				continue
			}
			l := 0.0
			if e.Cable != nil {
				l = e.Cable.Length.Metres()
			}
			for _, ends := range [][2]string{{e.From, e.To}, {e.To, e.From}} {
				x, ok := d[ends[0]]
				y, known := d[ends[1]]
				if ok && (!known || x+l < y) {
					d[ends[1]] = x + l
					changed = true
				}
			}
		}
	}
	return d
}

func nodesInOrder(c Circuit) []string {
	var nodes []string
	for _, e := range c.Elements {
		for _, n := range []string{e.From, e.To} {
			if !slices.Contains(nodes, n) {
				nodes = append(nodes, n)
			}
		}
	}
	return nodes
}

func (f *faultFinder) withstands() error {
	for i, e := range f.strong.Elements {
		if e.Cable == nil {
			continue
		}
		initial := e.Cable.Conductor.Insulation
		or(&initial, units.Celsius(70))
		w, err := Withstand(e.Cable.Conductor.Area, initial, f.study.Final)
		if err != nil {
			return within(err, i, &f.strong.Elements[i])
		}
		f.withstand[i] = w
	}
	return nil
}

// solidFault is the resistance of a short: a few crossed strands.
const solidFault = 10 * units.Microhm

// try lets one fault run its course and keeps the worst for every element.
func (f *faultFinder) try(t touch, weak bool) error {
	base := f.strong
	if weak {
		base = f.weak
	}
	n := len(base.Elements)
	c := f.shorted(base, t)
	fault := ShortCircuit{Between: [2]string{t.plus, t.minus}, Weak: weak}
	used := make([]float64, n)     // share of each device's life
	through := make([]float64, n)  // let-through of each cable
	largest := make([]float64, n)  // current of each element, at first
	peak := make([]float64, n)     // most current of each element
	left := make([]float64, n)     // current of each element in the end
	opened := make(map[int]bool)   // devices
	latestOf := make([]float64, n) // of each device at the first current
	clock := 0.0
	prospective := Solution{}
	if !weak {
		var err error
		if prospective, err = Solve(f.shorted(f.links, t), Conditions{}); err != nil {
			return fmt.Errorf("with %s: %w", where(fault), err)
		}
	}
	var at Conditions
	for first := true; ; first = false {
		solved, err := Solve(c, at)
		if err != nil {
			return fmt.Errorf("with %s: %w", where(fault), err)
		}
		for i := range n {
			left[i] = math.Abs(solved.Branches[i].Current.Amperes())
			if i == t.cable { // the other half carries its own current
				left[i] = math.Max(left[i], math.Abs(solved.Branches[n+1].Current.Amperes()))
			}
		}
		// A short a hand's breadth into the cables that end where the fault is: what comes from
		// the other side flows through their first stretch.
		total := math.Abs(solved.Branches[n].Current.Amperes())
		for i, e := range base.Elements {
			if e.Cable != nil && i != t.cable && t.at(e) {
				left[i] = math.Max(left[i], total-left[i])
			}
			peak[i] = math.Max(peak[i], left[i])
		}
		current := solved.Branches[n].Current
		if first {
			fault.Current = current
			copy(largest, left)
		}
		if math.Abs(current.Amperes()) < f.study.Harmless.Amperes() {
			fault.Off = true
			fault.After = units.Time(clock)
			break
		}
		next, wait := -1, math.Inf(1)
		for i, e := range base.Elements {
			if e.Device == nil || opened[i] {
				continue
			}
			latest := e.Device.Band.latest(left[i] / e.Device.Rating.Amperes())
			if first {
				latestOf[i] = latest
			}
			if t := (1 - used[i]) * latest; t < wait {
				next, wait = i, t
			}
		}
		if next < 0 {
			break
		}
		for i, e := range base.Elements {
			through[i] += left[i] * left[i] * wait
			if e.Device != nil && !opened[i] {
				used[i] += wait / e.Device.Band.latest(left[i]/e.Device.Rating.Amperes())
			}
		}
		clock += wait
		opened[next] = true
		fault.Opened = append(fault.Opened, base.Elements[next].Name)
		at.Open = append(at.Open, base.Elements[next].Name)
	}
	for i, e := range base.Elements {
		switch {
		case e.Cable != nil:
			f.keepCable(i, fault, through[i], peak[i], left[i])
		case e.Device != nil:
			if !weak {
				largest[i] = math.Abs(prospective.Branches[i].Current.Amperes())
			}
			f.keepDevice(i, fault, largest[i], latestOf[i])
		}
	}
	return nil
}

// cutCable parts a cable where the fault touches it. The second half is the last element.
func cutCable(c *Circuit, t touch) {
	e := &c.Elements[t.cable]
	middle := t.minus
	if t.onPlus {
		middle = t.plus
	}
	first, second := *e.Cable, *e.Cable
	first.Length = first.Length.Scale(t.share)
	second.Length -= first.Length
	rest := Element{Name: newName(*c, e.Name+", far part"), From: middle, To: e.To, Cable: &second}
	e.To, e.Cable = middle, &first
	c.Elements = append(c.Elements, rest)
}

// newName is a name that no element has.
func newName(c Circuit, name string) string {
	for slices.ContainsFunc(c.Elements, func(e Element) bool { return e.Name == name }) {
		name += "'"
	}
	return name
}

func (f *faultFinder) keepCable(i int, fault ShortCircuit, through, peak, left float64) {
	e := f.strong.Elements[i]
	carries := math.Max(f.study.Carries[e.Name].Amperes(), f.study.Harmless.Amperes())
	stays := !fault.Off && left > carries
	ratio := through / float64(f.withstand[i])
	late := fault.After.Seconds() / f.study.Within.Seconds()
	score := math.Max(ratio, late)
	switch {
	case stays:
		score = math.Inf(1)
	case peak <= carries:
		score = 0
	}
	k := &f.cables[i]
	if k.Cable != "" && (score < f.score[i] || score == f.score[i] && peak <= k.Peak.Amperes()) {
		return
	}
	f.score[i] = score
	*k = CableFaults{
		Cable: e.Name, Withstand: f.withstand[i], LetThrough: LetThrough(through), Worst: fault,
		Peak: units.Current(peak), Left: units.Current(left), Protected: score <= 1,
	}
	switch short := where(fault); {
	case stays && len(fault.Opened) == 0:
		k.Because = fmt.Sprintf("nothing interrupts %.3v after %s", k.Left, short)
	case stays:
		k.Because = fmt.Sprintf("%.3v still flow after %s and %s opened", k.Left, short, fault.Opened)
	case score > 1 && ratio > 1:
		k.Because = fmt.Sprintf("%v pass in %s until %s opened, more than k²S² = %v", k.LetThrough, short, fault.Opened, k.Withstand)
	case score > 1:
		k.Because = fmt.Sprintf("%s is off only after %.3v", short, fault.After)
	case score == 0:
		k.Because = fmt.Sprintf("no fault drives more than %.3v through it", k.Peak)
	default:
		k.Because = fmt.Sprintf("at most %v pass, in %s, of k²S² = %v", k.LetThrough, short, k.Withstand)
	}
}

func where(f ShortCircuit) string {
	return fmt.Sprintf("a short between %s and %s", f.Between[0], f.Between[1])
}

func (f *faultFinder) keepDevice(i int, fault ShortCircuit, current, latest float64) {
	e := f.strong.Elements[i]
	d := &f.devices[i]
	d.Device, d.Interrupting = e.Name, e.Device.Interrupting
	if !fault.Weak && current > d.Largest.Amperes() {
		d.Largest, d.At = units.Current(current), fault
	}
	// A fault before the device drives next to nothing through it, and one that another
	// device interrupts is none of its business.
	concerns := current > 0.01*math.Abs(fault.Current.Amperes()) && (!fault.Off || slices.Contains(fault.Opened, e.Name))
	if fault.Weak && concerns && (d.Smallest == 0 || current < d.Smallest.Amperes()) {
		d.Smallest, d.AtWeak = units.Current(current), fault
		d.Reached, d.Opens = !math.IsInf(latest, 1), 0
		if d.Reached {
			d.Opens = units.Time(latest)
		}
	}
	d.Breaks = d.Interrupting >= d.Largest && d.Interrupting > 0
}

func (f *faultFinder) report() FaultReport {
	var r FaultReport
	for i, e := range f.strong.Elements {
		switch {
		case e.Cable != nil:
			k := f.cables[i]
			if k.Cable == "" { // no source, no pair
				k = CableFaults{Cable: e.Name, Withstand: f.withstand[i], Protected: true, Because: "no fault drives a current through it"}
			}
			r.Cables = append(r.Cables, k)
			if !k.Protected {
				r.Unprotected = append(r.Unprotected, e.Name)
			}
		case e.Device != nil:
			d := f.devices[i]
			d.Device, d.Interrupting = e.Name, e.Device.Interrupting
			r.Devices = append(r.Devices, d)
		}
	}
	return r
}
