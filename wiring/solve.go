package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/ldl"
	"example.com/forepeak/units"
)

// Balance of currents at every node, as a share of the largest current, that the
// iteration aims at, and the one it is content with when it comes no nearer. Less than
// the last is no current at all: what remains where a diode or an open switch blocks it.
const (
	balance    = 1e-13
	balanceEnd = 1e-11
	noCurrent  = 1e-15 // A
)

// findVoltages solves the network from the no-load state down. It returns the number
// of Newton steps.
func (s *Solver) findVoltages() (int, error) {
	clear(s.now.high)
	clear(s.now.low)
	s.share = 1
	if s.linear {
		n, _, err := s.newton(false)
		return n, err
	}
	if err := s.unload(); err != nil {
		return 0, err
	}
	start := s.now
	if s.powers {
		start = newVoltages(len(s.nodes))
		start.copyFrom(s.now)
	}
	n, steep, err := s.newton(false)
	if s.powers && (steep || err != nil || s.starved(true) >= 0) {
		// Newton from above finds the solution of constant powers if there is one,
		// unless motors and alternators lead it astray. Then the powers are raised
		// little by little.
		s.now.copyFrom(start)
		var more int
		more, err = s.raisePowers()
		n += more
	}
	if err != nil {
		return n, err
	}
	if i := s.starved(false); i >= 0 {
		e := &s.circuit.Elements[i]
		return n, refuseAs(ErrCollapse, fmt.Sprintf("Elements[%d] (%s).Load.Current", i, e.Name), e.Load.Current, "a current that reaches it through this wiring")
	}
	return n, nil
}

// unload finds the voltages with the loads switched off but for a millionth, and marks
// those that get no voltage even so.
func (s *Solver) unload() error {
	for i := range s.branches {
		b := &s.branches[i]
		b.slope = b.siemens
		switch l := b.law.(type) {
		case nil:
		case alternatorLaw: // as if it were a battery
			b.slope = l.conductance
		default:
			_, b.slope = l.current(0)
			b.slope *= 1e-6
		}
	}
	if err := s.fill(trueSlope); err != nil {
		return s.noSolution()
	}
	clear(s.excess)
	for i := range s.branches {
		b := &s.branches[i]
		if b.open {
			continue
		}
		s.excess[b.from] += b.slope * b.emf
		s.excess[b.to] -= b.slope * b.emf
	}
	for i := range s.now.high {
		s.now.high[i] = -s.excess[i]
		if s.pinned[i] {
			s.now.high[i] = 0
		}
	}
	s.matrix.Solve(s.now.high)
	for i := range s.branches {
		b := &s.branches[i]
		b.dark = math.Abs(across(s.now, b, 0)) < s.low
	}
	return nil
}

// starved is a load of constant power, or current, that was fed without load and
// has no voltage under load; -1 if there is none.
func (s *Solver) starved(power bool) int {
	for i := range s.branches {
		b := &s.branches[i]
		if l := s.circuit.Elements[i].Load; l != nil && (power && l.Power != 0 || !power && l.Current != 0) && !b.open && !b.dark && math.Abs(b.volts) < s.low {
			return i
		}
	}
	return -1
}

// mostSteps of Newton on the way to full power bound the work; random networks of 100
// elements brought to the brink of collapse take 200.
const mostSteps = 2000

// raisePowers follows the solution from no constant power to all of it.
func (s *Solver) raisePowers() (steps int, err error) {
	s.share = 0
	n, _, err := s.newton(false)
	if err != nil {
		return n, err
	}
	good := newVoltages(len(s.nodes))
	good.copyFrom(s.now)
	reached, rise := 0.0, 1.0
	for easy := false; reached < 1; {
		if n > mostSteps {
			return n, s.collapse(reached)
		}
		s.share = min(1, reached+rise)
		more, _, err := s.newton(true)
		n += more
		if err == nil && s.starved(true) < 0 {
			reached = s.share
			good.copyFrom(s.now)
			if easy {
				rise *= 2
			}
			easy = true
			continue
		}
		easy = false
		s.now.copyFrom(good)
		if rise /= 2; rise < 1e-6 {
			return n, s.collapse(reached)
		}
	}
	return n, nil
}

func (s *Solver) collapse(reached float64) error {
	for i := range s.branches {
		if e := &s.circuit.Elements[i]; e.Load != nil && e.Load.Power != 0 && !s.branches[i].open && !s.branches[i].dark {
			return refuseAs(ErrCollapse, fmt.Sprintf("Elements[%d] (%s).Load.Power", i, e.Name), e.Load.Power,
				fmt.Sprintf("no more than %.6g of it (with all loads of constant power reduced alike), or less resistance on the way", reached))
		}
	}
	return s.noSolution()
}

func (s *Solver) noSolution() error {
	return s.unsolved("resistances within 1e15 of each other, and loads that the sources can feed")
}

func (s *Solver) unsolved(want string) error {
	return refuseAs(ErrNoSolution, "Elements", fmt.Sprintf("a network of %d nodes", len(s.nodes)), want)
}

// newton improves the voltages until currents balance. It says whether the network
// was somewhere steep: so close to collapse that the matrix lost its
// definiteness. With strict, that ends it.
func (s *Solver) newton(strict bool) (steps int, steep bool, err error) {
	factored, lost := false, false
	best, waited := math.Inf(1), 0
	for steps = range 200 {
		worst, largest := s.flow(s.now)
		if !finite(worst) {
			return steps, steep, s.noSolution()
		}
		if worst <= balance*largest {
			return steps, steep, nil
		}
		if worst < best {
			best, waited = worst, 0
		} else if waited++; waited > 3 && worst <= max(balanceEnd*largest, noCurrent) {
			return steps, steep, nil
		}
		if !factored || !s.linear {
			err := ldl.ErrNotPositive
			if !lost {
				if err = s.fill(trueSlope); err != nil {
					steep = true
					if strict {
						return steps, steep, s.noSolution()
					}
				}
			}
			if err != nil {
				err = s.fill(chordSlope)
			}
			if err != nil {
				return steps, steep, s.noSolution()
			}
			factored = true
		}
		for i, x := range s.excess {
			s.step[i] = -x
		}
		s.matrix.Solve(s.step)
		length := 1.0
		if !s.linear && worst > 1e-9*largest {
			length = s.search()
			lost = lost || length < 1e-3 // where loads of constant current are all that is left
		}
		s.advance(length)
		s.now, s.next = s.next, s.now
	}
	return steps, steep, s.noSolution()
}

// search finds how far to go along the step. For loads that take more at more voltage the
// solution is the lowest point of a convex function, whose slope along the
// step is excess . step: it is looked for where that slope has fallen by half.
func (s *Solver) search() float64 {
	along := func() float64 {
		sum := 0.0
		for i, x := range s.excess {
			sum += x * s.step[i]
		}
		return sum
	}
	first := along() // less than 0
	lo, hi := 0.0, 1.0
	at := func(length float64) float64 {
		s.advance(length)
		s.flow(s.next)
		return along()
	}
	for length, tries := 1.0, 0; ; tries++ {
		slope := at(length)
		if math.Abs(slope) <= 0.5*math.Abs(first) || tries == 40 {
			return length
		}
		if slope < 0 {
			if length == 1 {
				return 1 // still falling: no need to hold back
			}
			lo = length
		} else {
			hi = length
		}
		length = (lo + hi) / 2
	}
}

// advance puts the voltages a share of the step further into s.next.
func (s *Solver) advance(length float64) {
	for i, d := range s.step {
		s.next.high[i], s.next.low[i] = twoSum(s.now.high[i], s.now.low[i]+length*d)
	}
}

// answer fills in the solution.
func (s *Solver) answer(st *Solution, at Conditions) {
	st.Conditions = at
	if st.Nodes == nil {
		st.Nodes = make(map[string]units.Voltage, len(s.nodes))
	}
	clear(st.Nodes)
	for i, name := range s.nodes {
		st.Nodes[name] = units.Voltage(s.now.high[i])
	}
	if cap(st.Branches) < len(s.branches) {
		st.Branches = make([]Branch, len(s.branches))
	}
	st.Branches = st.Branches[:len(s.branches)]
	for i := range s.branches {
		st.Branches[i] = s.branchAnswer(i, at)
	}
}

func (s *Solver) branchAnswer(i int, at Conditions) Branch {
	e, b := &s.circuit.Elements[i], &s.branches[i]
	drop := across(s.now, b, 0)
	out := Branch{
		Name: e.Name, From: e.From, To: e.To,
		Current: units.Current(b.amps),
		Drop:    units.Voltage(drop),
		Power:   units.Power(b.amps * drop),
	}
	if e.Battery != nil {
		out.EMF = units.Voltage(b.emf)
	}
	if b.law == nil {
		out.Resistance = units.Resistance(1 / b.siemens)
	}
	if e.Cable != nil {
		out.Temperature = copperAt(e.Cable, at)
	}
	consumer := e.Load != nil || e.Motor != nil
	switch l := b.law.(type) {
	case motorLaw:
		out.Resistance = l.motor.Resistance
		out.Speed = units.AngularSpeed(l.speed(b.volts, b.amps))
		if out.Speed == 0 {
			out.State = Stalled
		}
	case alternatorLaw:
		switch b.amps {
		case 0:
			out.State = Idle
		case l.limit:
			out.State = Limited
		}
	}
	switch {
	case b.open:
		out.State = Off
		out.Speed = 0
	case consumer && math.Abs(drop) < s.low:
		out.State = Dark
	}
	return out
}
