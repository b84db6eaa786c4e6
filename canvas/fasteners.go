package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Spacing divides a length into equal parts of at most a given size: the number
// of parts, ceil(length/most), and their size.
func Spacing(length, most units.Length) (parts int, pitch units.Length, err error) {
	var c checker
	c.size("length", length)
	c.size("most", most)
	if c.err == nil && length.Per(most) > 10000 {
		c.err = refuse("most", most, fmt.Sprintf("a ten-thousandth of %v or more", length))
	}
	if c.err != nil {
		return 0, 0, c.err
	}
	parts = max(1, int(math.Ceil(length.Per(most)-1e-9)))
	return parts, length.Scale(1 / float64(parts)), nil
}

// Fasteners returns where eyelets or snaps go along edges that follow one
// another. They lie inset from the finished edge, one in every corner between
// two of the edges, one at either end, as far from it as from the edge, and
// between those at equal distances of at most most. All edges of a panel,
// named from any one on, are a closed row.
func (p Panel) Fasteners(edges []string, inset, most units.Length) ([]Point, error) {
	all, err := p.lay()
	if err != nil {
		return nil, err
	}
	var c checker
	c.size("inset", inset)
	c.size("most", most)
	if c.err != nil {
		return nil, c.err
	}
	v := Cover{Panels: []Panel{p}}
	r, err := v.run(&layout{panels: [][]laid{all}}, map[string]int{p.Name: 0}, "Fasteners", Side{Panel: p.Name, Edges: edges})
	if err != nil {
		return nil, err
	}
	if len(r.edges) > len(p.Edges) {
		return nil, refuse("edges", fmt.Sprint(edges), "each edge once")
	}
	closed := len(r.edges) == len(p.Edges)
	in := float64(inset)
	// How far from its start the first fastener of edge k lies: at a corner it is
	// on the line that halves the angle.
	setback := func(k int) float64 {
		a := all[r.edges[(k+len(r.edges)-1)%len(r.edges)]].line
		b := all[r.edges[k]].line
		d1, d2 := a[len(a)-1].Sub(a[len(a)-2]).Unit(), b[1].Sub(b[0]).Unit()
		return in * math.Tan(math.Atan2(d1.Cross(d2), d1.Dot(d2))/2)
	}
	var out []Point
	for k, e := range r.edges {
		from, to := in, all[e].length-in
		if closed || k > 0 {
			from = setback(k)
		}
		last := k+1 == len(r.edges)
		if closed || !last {
			to = all[e].length - setback((k+1)%len(r.edges))
		}
		if to <= from {
			return nil, refuse("inset", inset, fmt.Sprintf("less than fits on edge %q", p.Edges[e].Name))
		}
		parts, _, err := Spacing(units.Length(to-from), most)
		if err != nil {
			return nil, err
		}
		n := parts
		if last && !closed {
			n++
		}
		for i := range n {
			s := from + (to-from)*float64(i)/float64(parts)
			on := math.Max(0, math.Min(all[e].length, s))
			at, right := along(all[e].line, on/all[e].length)
			// At a hollow corner the row begins before the edge and ends behind it.
			at = at.Sub(right.Right().Times(s - on))
			out = append(out, wrap(at.Sub(right.Times(in))))
		}
	}
	ring := ringOf(all)
	if i := slices.IndexFunc(out, func(q Point) bool { return !plane.Contains(ring, q.bare()) }); i >= 0 {
		return nil, refuse("inset", inset, fmt.Sprintf("less: fastener %d would lie outside the panel", i+1))
	}
	return out, nil
}
