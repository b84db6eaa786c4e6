package wiring

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// DropReport says where the volts go on the way from the sources to a load and back.
type DropReport struct {
	Load   string
	EMF    units.Voltage // of the sources on the way, without current
	AtLoad units.Voltage
	Total  units.Voltage // EMF less AtLoad: the sum of the parts
	Parts  []PartDrop    // in the direction of the current, from the source out to the load and back
}

// PartDrop is one part's share.
type PartDrop struct {
	Name     string
	From, To string // as the current flows
	Current  units.Current
	Drop     units.Voltage // inside a battery: that of its resistance
	Share    float64       // of the total
}

// DropTo follows the current of a load round its circuit, where it divides by the strongest
// way, and lists what each part takes. The parts add up to the total, by Kirchhoff's
// voltage law. In cables that are shared, the drop that other loads cause is in the figure.
//
// An alternator counts with the voltage it holds under the load, so without a drop.
func (s Solution) DropTo(load string) (DropReport, error) {
	at := slices.IndexFunc(s.Branches, func(b Branch) bool { return b.Name == load })
	if at < 0 {
		return DropReport{}, refuseAs(ErrUnknown, "load", fmt.Sprintf("%q", load), "the name of an element")
	}
	b := s.Branches[at]
	largest := units.Current(0)
	for _, x := range s.Branches {
		largest = max(largest, x.Current.Abs())
	}
	if b.Current.Abs() <= largest.Scale(1e-12) { // rounding
		return DropReport{}, refuse("load", fmt.Sprintf("%q without a current", load), "an element that carries one")
	}
	start, end := b.To, b.From // where its current goes, and where it comes from
	if b.Current < 0 {
		start, end = end, start
	}
	way, ok := s.strongestWay(start, end, at)
	if !ok {
		return DropReport{}, refuseAs(ErrNoSolution, "load", fmt.Sprintf("%q", load), "a current that closes round the circuit")
	}
	r := DropReport{Load: load, AtLoad: b.Drop.Abs()}
	first, highest := 0, units.Voltage(0) // the strongest source begins the list
	for k, i := range way {
		p := s.Branches[i]
		x := PartDrop{Name: p.Name, From: p.From, To: p.To, Current: p.Current, Drop: p.Drop}
		emf := p.EMF
		if p.Drop < 0 && p.Current > 0 && emf == 0 { // an alternator
			emf = -p.Drop
		}
		x.Drop += emf
		if p.Current < 0 {
			x.From, x.To, x.Current, x.Drop, emf = p.To, p.From, -p.Current, -x.Drop, -emf
		}
		if emf > highest {
			first, highest = k, emf
		}
		r.EMF += emf
		r.Total += x.Drop
		r.Parts = append(r.Parts, x)
	}
	for i := range r.Parts {
		if r.Total != 0 {
			r.Parts[i].Share = r.Parts[i].Drop.Per(r.Total)
		}
	}
	if !finite(float64(r.Total)) || !finite(float64(r.EMF)) || !finite(float64(r.AtLoad)) {
		return DropReport{}, refuse("Solution.Branches", "not finite", "a solution as it was found")
	}
	r.Parts = slices.Concat(r.Parts[first:], r.Parts[:first])
	return r, nil
}

// strongestWay finds the path from one node to another along the currents whose weakest current is
// strongest. It does not use the branch without.
func (s *Solution) strongestWay(from, to string, without int) ([]int, bool) {
	type mark struct {
		weakest float64
		by      int // branch that leads here
		done    bool
	}
	marks := map[string]*mark{from: {weakest: math.Inf(1), by: -1}}
	for {
		node, best := "", 0.0
		for name, m := range marks {
			if !m.done && (m.weakest > best || m.weakest == best && name < node) {
				node, best = name, m.weakest
			}
		}
		if best == 0 {
			return nil, false
		}
		if node == to {
			break
		}
		marks[node].done = true
		for i, b := range s.Branches {
			next, amps := b.To, float64(b.Current)
			tail := b.From
			if amps < 0 {
				next, tail, amps = tail, next, -amps
			}
			if i == without || amps == 0 || tail != node {
				continue
			}
			weakest := math.Min(best, amps)
			if m := marks[next]; m == nil {
				marks[next] = &mark{weakest: weakest, by: i}
			} else if !m.done && weakest > m.weakest {
				m.weakest, m.by = weakest, i
			}
		}
	}
	var way []int
	for node := to; node != from; {
		i := marks[node].by
		way = append(way, i)
		if s.Branches[i].Current > 0 {
			node = s.Branches[i].From
		} else {
			node = s.Branches[i].To
		}
	}
	slices.Reverse(way)
	return way, true
}
