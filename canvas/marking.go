package canvas

import (
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// MarkingOut returns points of the cut line to be marked on the cloth with a
// tape and a square, for those without a printer: X along a straight baseline
// and Y square to it, both from the lower left corner of the rectangle that
// encloses the piece. They begin at the lowest corner, of several the one to the
// left, and go round anticlockwise. Joined by straight lines they leave the cut line by
// no more than deviation.
func (p Piece) MarkingOut(deviation units.Length) ([]Point, error) {
	var c checker
	c.size("deviation", deviation)
	c.count("Cut", len(p.Cut), 3, 20000)
	for _, q := range p.Cut {
		c.point("Cut", q)
	}
	if c.err != nil {
		return nil, c.err
	}
	ring := bareAll(p.Cut)
	low := ring[0]
	for _, q := range ring {
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
	}
	// The corners stay, so that two sides alike are thinned alike.
	fixed := corners(ring)
	ring = append(ring[fixed[0]:], ring[:fixed[0]+1]...)
	n := len(ring) - 1
	var out []Point
	last := 0
	for _, k := range append(fixed[1:], fixed[0]+n) {
		k -= fixed[0]
		for _, i := range plane.Thin(ring[last:k+1], float64(deviation)) {
			if last+i < k {
				out = append(out, wrap(ring[last+i].Sub(low)))
			}
		}
		last = k
	}
	return slices.Clip(out), nil
}

// corners are where a ring turns by more than 20 degrees, from the lowest on, of
// several the one to the left. A round ring has two: its lowest point and the one
// farthest from it.
func corners(ring []plane.Point) []int {
	n := len(ring)
	lower := func(a, b int) bool {
		return plane.Clearly(ring[b].Y, ring[a].Y) || !plane.Clearly(ring[a].Y, ring[b].Y) && plane.Clearly(ring[b].X, ring[a].X)
	}
	var found []int
	first, lowest := 0, 0
	for i := range ring {
		if lower(i, lowest) {
			lowest = i
		}
		u, v := ring[i].Sub(ring[(i+n-1)%n]), ring[(i+1)%n].Sub(ring[i])
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > float64(20*units.Degree) {
			found = append(found, i)
			if lower(i, found[first]) {
				first = len(found) - 1
			}
		}
	}
	if len(found) < 2 {
		far := plane.Farthest(ring, lowest)
		if far < lowest {
			return []int{lowest, far + n}
		}
		return []int{lowest, far}
	}
	for k := range first {
		found = append(found, found[k]+n)
	}
	return found[first:]
}
