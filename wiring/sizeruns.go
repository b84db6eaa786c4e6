package wiring

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Objective is what sizing several runs together makes least.
type Objective string

// Objectives.
const (
	LeastMass Objective = "mass"
	LeastCost Objective = "cost"
	LeastArea Objective = "copper" // length times area
)

// Run is one of several runs that share a voltage drop: a feeder and what branches from it.
// In its Requirement the drop counts from the source to the end of the run, the
// runs before it included; a feeder without a load of its own asks no drop. Current is what
// flows in this run, for a feeder the sum.
type Run struct {
	Name  string
	After string // the run that it branches from; empty: the source
	Requirement
}

// Sized is the outcome of [SizeRuns].
type Sized struct {
	Choices []Choice        // one for each run, in order
	At      []units.Voltage // whole drop from the source to the end of each run
	Mass    units.Mass
	Cost    units.Money
}

// SizeRuns finds the conductors of several runs that keep every drop and have the least
// mass, cost or copper together. It is an exact optimum: for every branch the combinations that no
// other beats in both drop and cost are kept, from the tips to the source. Among
// equals the smaller drop is taken. Down and Up of a choice are for that run alone, with
// the others as chosen; their Fails do not look at the shared drop.
//
// There are at most 200 runs, each after the one that it branches from, and cost needs a price of
// every conductor. The error is an [ErrNoConductor] if no choice keeps every drop, or no
// conductor meets what else a run asks. The caution of [SizeConductor] holds here.
func SizeRuns(runs []Run, least Objective) (Sized, error) {
	var c checker
	must(&c, len(runs) > 0 && len(runs) <= 200, "runs", fmt.Sprint(len(runs), " runs"), "1 to 200")
	must(&c, least == LeastMass || least == LeastCost || least == LeastArea, "least", fmt.Sprintf("%q", least), `"mass", "cost" or "copper"`)
	index := map[string]int{"": -1}
	runs = slices.Clone(runs)
	for i := range runs {
		f := fmt.Sprintf("runs[%d]", i)
		_, twice := index[runs[i].Name]
		must(&c, !twice, f+".Name", fmt.Sprintf("%q", runs[i].Name), "a name of its own")
		_, known := index[runs[i].After]
		must(&c, known, f+".After", fmt.Sprintf("%q", runs[i].After), "the name of a run before this one, or empty")
		index[runs[i].Name] = i
		if c.err == nil {
			c.err = runs[i].check(f + ".")
		}
	}
	if c.err != nil {
		return Sized{}, c.err
	}
	s := runSizer{runs: runs, least: least, children: make([][]int, len(runs)+1), all: make([][]Candidate, len(runs))}
	for i := range runs {
		s.children[index[runs[i].After]+1] = append(s.children[index[runs[i].After]+1], i)
		var err error
		if s.all[i], err = runs[i].candidates(); err != nil {
			return Sized{}, fmt.Errorf("runs[%d] (%s): %w", i, runs[i].Name, err)
		}
		if least == LeastCost {
			for _, k := range s.all[i] {
				if k.Cost == 0 {
					return Sized{}, refuse(fmt.Sprintf("runs[%d].Stock (%s).Price", i, k.Conductor.Size), 0, "a price, to make the cost least")
				}
			}
		}
	}
	front, err := s.together(-1)
	if err != nil {
		return Sized{}, err
	}
	// The front falls in cost with rising need, so the last that is not above 0 is the best.
	best := -1
	for i, p := range front {
		if p.need <= 0 {
			best = i
		}
	}
	if best < 0 {
		return Sized{}, refuseAs(ErrNoConductor, "runs", fmt.Sprintf("%.3v too much drop with the best of the stock", units.Voltage(front[0].need)),
			"larger conductors, shorter runs or more drop")
	}
	out := Sized{Choices: make([]Choice, len(runs)), At: make([]units.Voltage, len(runs))}
	s.take(front[best], &out)
	for i := range runs {
		out.At[i] = out.Choices[i].Drop
		if p := index[runs[i].After]; p >= 0 {
			out.At[i] += out.At[p]
		}
		out.Mass += out.Choices[i].Mass
		out.Cost += out.Choices[i].Cost
	}
	return out, nil
}

type runSizer struct {
	runs     []Run
	least    Objective
	children [][]int // by index of the run + 1
	all      [][]Candidate
}

// part is one combination of conductors for a run and all behind it, or for all that
// branches from a run.
type part struct {
	need, cost  float64 // need: worst drop above what is allowed, from here on
	run, choice int     // run is -1 for a join of branches
	below       []*part // of the branches
}

// together combines what branches from a run, or from the source (-1).
func (s *runSizer) together(run int) ([]*part, error) {
	front := []*part{{need: math.Inf(-1), run: -1}}
	for _, child := range s.children[run+1] {
		branch, err := s.branch(child)
		if err != nil {
			return nil, err
		}
		var both []*part
		for _, a := range front {
			for _, b := range branch {
				both = append(both, &part{
					need: math.Max(a.need, b.need), cost: a.cost + b.cost, run: -1,
					below: append(slices.Clip(a.below), b),
				})
			}
		}
		front = best(both)
	}
	return front, nil
}

// branch is a run and all behind it.
func (s *runSizer) branch(run int) ([]*part, error) {
	behind, err := s.together(run)
	if err != nil {
		return nil, err
	}
	limit := s.runs[run].allowed()
	var front []*part
	for j, k := range s.all[run] {
		if slices.ContainsFunc(k.Fails, func(f Criterion) bool { return f != CriterionDrop }) {
			continue
		}
		for _, b := range behind {
			front = append(front, &part{
				need: math.Max(b.need+k.Drop.Volts(), k.Drop.Volts()-limit), cost: b.cost + s.cost(k, s.runs[run].Run),
				run: run, choice: j, below: []*part{b},
			})
		}
	}
	if len(front) == 0 {
		r := s.runs[run]
		return nil, refuseAs(ErrNoConductor, fmt.Sprintf("runs[%d] (%s).Stock", run, r.Name), "all too small", "a conductor that meets what is asked but the drop")
	}
	return best(front), nil
}

func (s *runSizer) cost(k Candidate, l units.Length) float64 {
	switch s.least {
	case LeastCost:
		return float64(k.Cost)
	case LeastMass:
		return k.Mass.Kilograms()
	}
	return k.Area.SquareMillimetres() * l.Metres()
}

// best drops what another beats in both, and sorts by rising need.
func best(all []*part) []*part {
	slices.SortStableFunc(all, func(a, b *part) int {
		return cmp.Or(cmp.Compare(a.need, b.need), cmp.Compare(a.cost, b.cost))
	})
	var front []*part
	for _, p := range all {
		if len(front) == 0 || p.cost < front[len(front)-1].cost {
			front = append(front, p)
		}
	}
	return front
}

func (s *runSizer) take(p *part, out *Sized) {
	if p.run >= 0 {
		all := s.all[p.run]
		k := &out.Choices[p.run]
		*k = chosen(all, p.choice)
		k.Fails = nil // of the drop alone: the shared drop is kept
	}
	for _, b := range p.below {
		s.take(b, out)
	}
}
