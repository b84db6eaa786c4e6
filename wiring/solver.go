package wiring

import (
	"errors"
	"fmt"
	"math"

	"example.com/forepeak/internal/ldl"
	"example.com/forepeak/units"
)

// A load that gets less than this share of the highest source voltage is dark.
const darkShare = 0.05

// Solver is a circuit, checked once and ready to be solved many times. It holds
// working space: a Solver must not be used by two goroutines at once.
type Solver struct {
	circuit   Circuit
	nodes     []string
	element   map[string]int
	reference int
	branches  []branch
	low       float64 // voltage below which a load is dark
	linear    bool    // every branch is a resistance
	powers    bool    // some load has constant power

	matrix *ldl.Matrix
	island []int  // of each node, a node nearer to the root of its island
	zero   []int  // of each root, the node that is called 0; -1 in an island without a source
	pinned []bool // nodes that are held at 0

	// Node voltages are sums of two numbers: a leakage current makes a drop across
	// a good joint that is less than the spacing of float64 at 12 V.
	now, next voltages
	step      []float64 // Newton step of each node
	excess    []float64 // current that leaves each node, which has to become 0
	share     float64   // of the constant powers that is taken, 1 but on the way there
}

type voltages struct{ high, low []float64 }

func newVoltages(n int) voltages { return voltages{make([]float64, n), make([]float64, n)} }

func (v voltages) copyFrom(u voltages) {
	copy(v.high, u.high)
	copy(v.low, u.low)
}

// branch is an element in SI.
type branch struct {
	from, to int
	open     bool
	emf      float64 // of a source
	law      law     // nil for a resistance
	siemens  float64 // its conductance
	cable    float64 // resistance at 20 °C of a cable
	dark     bool    // a load that nothing feeds

	volts, amps, slope float64
}

// NewSolver checks the circuit, which must not be changed while the solver is in use.
func NewSolver(c Circuit) (*Solver, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	s := &Solver{circuit: c, element: make(map[string]int, len(c.Elements)), branches: make([]branch, len(c.Elements)), linear: true}
	index := map[string]int{}
	node := func(name string) int {
		i, known := index[name]
		if !known {
			i = len(s.nodes)
			index[name] = i
			s.nodes = append(s.nodes, name)
		}
		return i
	}
	highest := 0.0
	for i := range c.Elements {
		e := &c.Elements[i]
		s.element[e.Name] = i
		b := &s.branches[i]
		b.from, b.to = node(e.From), node(e.To)
		switch {
		case e.Battery != nil:
			emf, err := e.Battery.OpenCircuitVoltage()
			if err != nil {
				return nil, within(err, i, e)
			}
			r, err := e.Battery.InternalResistance()
			if err != nil {
				return nil, within(err, i, e)
			}
			b.siemens, b.emf = 1/float64(r), float64(emf)
			highest = max(highest, float64(emf))
		case e.Alternator != nil:
			a := e.Alternator
			b.law = alternatorLaw{conductance: 1 / float64(a.Resistance), limit: float64(a.Limit)}
			b.emf = float64(a.Voltage)
			highest = max(highest, float64(a.Voltage))
		case e.Cable != nil:
			b.cable = float64(e.Cable.resistance20())
		case e.Contact != nil:
			b.siemens = 1 / float64(e.Contact.Resistance)
		case e.Device != nil:
			b.siemens = 1 / float64(e.Device.Resistance)
		case e.Load != nil && e.Load.Resistance != 0:
			b.siemens = 1 / float64(e.Load.Resistance)
		}
	}
	s.low = darkShare * highest
	if highest == 0 {
		s.low = 1 // nothing will flow
	}
	for i := range c.Elements {
		e := &c.Elements[i]
		b := &s.branches[i]
		switch {
		case e.Load != nil && e.Load.Current != 0:
			b.law = currentLaw{amperes: float64(e.Load.Current), low: s.low}
		case e.Load != nil && e.Load.Power != 0:
			b.law = powerLaw{watts: float64(e.Load.Power), low: s.low}
			s.powers = true
		case e.Motor != nil:
			m := *e.Motor
			b.law = motorLaw{motor: &m}
		}
		s.linear = s.linear && b.law == nil
	}
	if c.Reference != "" {
		s.reference = index[c.Reference]
	} else {
		for i := range c.Elements {
			if c.Elements[i].source() {
				s.reference = s.branches[i].from
				break
			}
		}
	}
	n := len(s.nodes)
	links := make([][2]int, len(s.branches))
	for i, b := range s.branches {
		links[i] = [2]int{b.from, b.to}
	}
	s.matrix = ldl.New(n, links)
	s.island, s.zero, s.pinned = make([]int, n), make([]int, n), make([]bool, n)
	s.now, s.next = newVoltages(n), newVoltages(n)
	s.step, s.excess = make([]float64, n), make([]float64, n)
	return s, nil
}

func (e *Element) source() bool { return e.Battery != nil || e.Alternator != nil }

// within puts the place in the circuit before the field of an error.
func within(err error, i int, e *Element) error {
	var x *Error
	if !errors.As(err, &x) {
		return err
	}
	y := *x
	y.Field = fmt.Sprintf("Elements[%d] (%s).%s", i, e.Name, x.Field)
	return &y
}

// Solve solves the circuit in the conditions and puts the answer into st, whose
// slice and map it uses again: once they are there, a network of resistances and
// batteries costs no allocation.
func (s *Solver) Solve(st *Solution, at Conditions) error {
	if st == nil {
		return refuse("Solution", "nil", "a place for the result")
	}
	if err := s.set(at); err != nil {
		return err
	}
	s.findIslands()
	n, err := s.findVoltages()
	if err != nil {
		return err
	}
	s.answer(st, at)
	st.Iterations = n
	if !st.balances() {
		return s.unsolved("sources with more resistance between them: given and taken power agree to less than 10 digits")
	}
	return nil
}

// balances is whether the power that is given and taken agree to 1e-10 of what
// is turned from one form into another. Batteries of microhms that are shorted by
// one another leave fewer digits than that, and then there is no answer.
func (st *Solution) balances() bool {
	power, most := 0.0, 0.0
	for i := range st.Branches {
		b := &st.Branches[i]
		power += float64(b.Power)
		most += math.Abs(float64(b.Current)) * (math.Abs(float64(b.Drop)) + math.Abs(float64(b.EMF)))
	}
	return math.Abs(power) <= math.Max(1e-10*most, 1e-12)
}

// Solve finds the voltage of every node and the current of every element, by
// nodal analysis with Newton's method for loads that are not resistances.
//
// A part of the circuit that no closed element connects to the rest has its own
// zero: the From node of its first source. A part without a source is dark.
//
// A load of constant power or current that the circuit cannot supply is
// [ErrCollapse]; a motor that cannot turn is not an error but [Stalled]. A name in the
// conditions that the circuit does not have is [ErrUnknown], and a network whose parts are so
// unequal that rounding leaves no answer [ErrNoSolution].
func Solve(c Circuit, at Conditions) (Solution, error) {
	s, err := NewSolver(c)
	if err != nil {
		return Solution{}, err
	}
	var st Solution
	if err := s.Solve(&st, at); err != nil {
		return Solution{}, err
	}
	return st, nil
}

// set puts the conditions into the branches.
func (s *Solver) set(at Conditions) error {
	warm, err := CopperFactor(copperAt(nil, at))
	if err != nil {
		return refuse("Copper", at.Copper, fmt.Sprintf("0, or from %v to %v", coldestCopper, hottestCopper))
	}
	for i := range s.branches {
		b := &s.branches[i]
		e := &s.circuit.Elements[i]
		b.open = e.Contact != nil && e.Contact.Open
		if e.Cable != nil {
			f := warm
			if e.Cable.Temperature != 0 {
				f, _ = CopperFactor(e.Cable.Temperature) // checked with the circuit
			}
			b.siemens = 1 / (b.cable * f)
		}
		if l, ok := b.law.(motorLaw); ok && l.standing {
			b.law = motorLaw{motor: l.motor}
		}
	}
	for i, name := range at.Open {
		k, known := s.element[name]
		if !known {
			return refuseAs(ErrUnknown, fmt.Sprintf("Open[%d]", i), fmt.Sprintf("%q", name), "the name of an element")
		}
		s.branches[k].open = true
	}
	for i, name := range at.Standing {
		k, known := s.element[name]
		if !known || s.circuit.Elements[k].Motor == nil {
			return refuseAs(ErrUnknown, fmt.Sprintf("Standing[%d]", i), fmt.Sprintf("%q", name), "the name of a motor")
		}
		s.branches[k].law = motorLaw{motor: s.branches[k].law.(motorLaw).motor, standing: true}
	}
	return nil
}

// copperAt is the temperature of a cable's copper.
func copperAt(k *Cable, at Conditions) units.Temperature {
	switch {
	case k != nil && k.Temperature != 0:
		return k.Temperature
	case at.Copper != 0:
		return at.Copper
	default:
		return units.Celsius(20)
	}
}

// findIslands pins one node of every part of the network that hangs together, and all
// of a part without a source.
func (s *Solver) findIslands() {
	for i := range s.island {
		s.island[i] = i
		s.zero[i] = -1
		s.pinned[i] = true
	}
	for i := range s.branches {
		if b := &s.branches[i]; !b.open {
			s.island[s.root(b.from)] = s.root(b.to)
		}
	}
	for i := range s.branches {
		b := &s.branches[i]
		if r := s.root(b.from); !b.open && s.circuit.Elements[i].source() && s.zero[r] < 0 {
			s.zero[r] = b.from
		}
	}
	if r := s.root(s.reference); s.zero[r] >= 0 {
		s.zero[r] = s.reference
	}
	for i := range s.pinned {
		if zero := s.zero[s.root(i)]; zero >= 0 && zero != i {
			s.pinned[i] = false
		}
	}
}

func (s *Solver) root(i int) int {
	for s.island[i] != i {
		s.island[i] = s.island[s.island[i]]
		i = s.island[i]
	}
	return i
}

// across is the voltage across a branch, with a source in it. What rounding takes from the
// large parts is put back.
func across(v voltages, b *branch, emf float64) float64 {
	d, lost1 := twoSum(v.high[b.from], -v.high[b.to])
	u, lost2 := twoSum(d, emf)
	return u + (lost1 + lost2 + (v.low[b.from] - v.low[b.to]))
}

// twoSum returns a + b rounded, and what rounding took (Knuth).
func twoSum(a, b float64) (sum, lost float64) {
	sum = a + b
	part := sum - a
	return sum, (a - (sum - part)) + (b - part)
}

// flow computes the current of every branch at the voltages v, and what leaves
// every node. It returns the largest excess and the largest current.
func (s *Solver) flow(v voltages) (worst, largest float64) {
	clear(s.excess)
	for i := range s.branches {
		b := &s.branches[i]
		switch u := across(v, b, b.emf); {
		case b.open:
			b.volts, b.amps, b.slope = u, 0, 0
			continue
		case b.law == nil:
			b.volts, b.amps, b.slope = u, b.siemens*u, b.siemens
		default:
			b.volts = u
			b.amps, b.slope = b.law.current(u)
			if _, ok := b.law.(powerLaw); ok {
				b.amps *= s.share
				b.slope *= s.share
			}
		}
		s.excess[b.from] += b.amps
		s.excess[b.to] -= b.amps
		largest = max(largest, math.Abs(b.amps))
	}
	for i, pinned := range s.pinned {
		if pinned {
			s.excess[i] = 0
		}
		worst = max(worst, math.Abs(s.excess[i]))
	}
	return worst, largest
}

// fill puts the slopes of the branches into the matrix and factors it.
func (s *Solver) fill(slope func(*branch) float64) error {
	s.matrix.Clear()
	for i := range s.branches {
		b := &s.branches[i]
		if b.open {
			continue
		}
		g := slope(b)
		free := 0
		for _, node := range [2]int{b.from, b.to} {
			if !s.pinned[node] {
				s.matrix.AddDiagonal(node, g)
				free++
			}
		}
		if free == 2 {
			s.matrix.AddLink(i, -g)
		}
	}
	for i, pinned := range s.pinned {
		if pinned {
			s.matrix.AddDiagonal(i, 1)
		}
	}
	return s.matrix.Factor()
}

// Slopes for the matrix. A branch whose current does not depend on its voltage
// still gets a trace, so that nothing hangs loose; the balance of currents is
// computed without it.
const trace = 1e-9 // S

func trueSlope(b *branch) float64 {
	if b.slope == 0 {
		return trace
	}
	return b.slope
}

// chordSlope takes, for a branch that takes no more at more voltage, current over voltage
// instead. That keeps the matrix positive definite and the steps short, at the price of more
// of them.
func chordSlope(b *branch) float64 {
	if b.slope > 0 {
		return b.slope
	}
	if chord := b.amps / b.volts; chord > trace && finite(chord) {
		return chord
	}
	return trace
}
