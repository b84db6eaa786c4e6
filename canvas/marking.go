package canvas

import (
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// MarkingOut returns points of the cut line to be marked on the cloth with a
// tape and a square, for those without a printer: X along a straight baseline
// and Y square to it, both from the lower left corner of the rectangle that
// encloses the piece. Joined by straight lines they leave the cut line by no
// more than deviation.
func (p Piece) MarkingOut(deviation units.Length) ([]Point, error) {
	var c checker
	c.size("deviation", deviation)
	c.count("Cut", len(p.Cut), 3, 1000000)
	for _, q := range p.Cut {
		c.point("Cut", q)
	}
	if c.err != nil {
		return nil, c.err
	}
	ring := bareAll(p.Cut)
	low, far := ring[0], 0
	for i, q := range ring {
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		if clearly(q.Sub(ring[0]).Norm(), ring[far].Sub(ring[0]).Norm()) {
			far = i
		}
	}
	// Two points stay in any case: the first and the one farthest from it.
	ring = append(ring, ring[0])
	keep := make([]bool, len(ring))
	keep[0], keep[far] = true, true
	thin(ring, keep, 0, far, float64(deviation))
	thin(ring, keep, far, len(ring)-1, float64(deviation))
	var out []Point
	for i, k := range keep[:len(keep)-1] {
		if k {
			out = append(out, wrap(ring[i].Sub(low)))
		}
	}
	return slices.Clip(out), nil
}

// clearly is whether a is greater than b by more than rounding: of two corners
// equally far out the first is kept, on every processor.
func clearly(a, b float64) bool { return a > b*(1+1e-9) }

// thin keeps between two points of a line the one farthest from the straight
// line between them, and goes on on both sides, while it is too far (the method
// of Ramer, 1972, and Douglas and Peucker, 1973).
func thin(line []plane.Point, keep []bool, from, to int, deviation float64) {
	worst, at := deviation, -1
	for i := from + 1; i < to; i++ {
		if d := plane.Distance([]plane.Point{line[from], line[to]}, line[i]); clearly(d, worst) {
			worst, at = d, i
		}
	}
	if at < 0 {
		return
	}
	keep[at] = true
	thin(line, keep, from, at, deviation)
	thin(line, keep, at, to, deviation)
}
