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
	low := ring[0]
	for _, q := range ring {
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
	}
	var out []Point
	for _, i := range plane.ThinRing(ring, float64(deviation)) {
		out = append(out, wrap(ring[i].Sub(low)))
	}
	return slices.Clip(out), nil
}
