package canvas

import (
	"fmt"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Panel is a piece of cloth in its finished state, seen on its right side.
type Panel struct {
	Name string
	// Quantity is how many are cut as drawn; 0 is one. Mirrored is how many more
	// are cut the other way round: one left, one right.
	Quantity, Mirrored int
	Edges              []Edge      // anticlockwise; the last one ends where the first begins
	Grain              units.Angle // direction of the warp, from X
	Holes              []Hole
	Patches            []CornerPatch
	Darts              []Dart
	Fittings           []Fitting
	Notes              []string // printed on the panel
	// Match, if set, places a point of the panel, as it is when finished, in the repeat of
	// the pattern on the cloth as it is cut. Pieces of the panel then lie OneWay and with
	// the right side up, whatever the cloth allows, so that all other points lie as they
	// should too. At a seam of two panels take points of the seam: mirrored panels match there too.
	Match *Match
}

// Edge goes from a corner of a panel to the next.
type Edge struct {
	Name   string
	From   Point
	Course Course
	Finish Finish
	Corner CornerCut // how the allowances are cut at From
}

// CornerCut is how the allowances of two edges meet at a corner that points outwards.
type CornerCut string

// The cuts of a corner.
const (
	// AutoCorner is Squared beside a sleeve, whose rope comes out there, Mitred
	// between two hems, Folded between a hem and another edge, Crossed otherwise.
	AutoCorner CornerCut = ""
	// Crossed runs both cut lines on until they meet, blunted at a sharp corner.
	Crossed CornerCut = "crossed"
	// Squared ends each allowance at right angles to its own edge.
	Squared CornerCut = "squared"
	// Mitred cuts both hems so that, folded, they meet on the line between the
	// corner and where the inner edges of the hems cross.
	Mitred CornerCut = "mitred"
	// Folded cuts the end of a hem as the mirror image of the neighbouring cut
	// line, so that the folded hem lies on that line.
	Folded CornerCut = "folded"
)

// laid is an edge as a polyline.
type laid struct {
	line   []plane.Point // with both corners
	length float64       // exact
}

// lay checks a panel and follows its edges.
func (p *Panel) lay() ([]laid, error) {
	var c checker
	c.count("Quantity", p.Quantity, 0, 10000)
	c.count("Mirrored", p.Mirrored, 0, 10000)
	c.count("Edges", len(p.Edges), 2, 2000)
	between(&c, "Grain", p.Grain, -10, 10)
	p.Match.check(&c, "Match")
	for i := range p.Edges {
		c.point(fmt.Sprintf("Edges[%d].From", i), p.Edges[i].From)
	}
	edges := make([]laid, len(p.Edges))
	var ring []plane.Point
	for i := range p.Edges {
		e := &p.Edges[i]
		field := fmt.Sprintf("Edges[%d]", i)
		next := p.Edges[(i+1)%len(p.Edges)].From
		e.Finish.check(&c, field+".Finish")
		if c.err != nil {
			return nil, c.err
		}
		a, b := e.From.bare(), next.bare()
		chord := b.Sub(a).Norm()
		if !(chord > tolerance && chord <= 2*float64(largest)) {
			return nil, refuseAs(ErrOutline, field, fmt.Sprintf("%v long", units.Length(chord)), "two corners that are apart")
		}
		e.Course.check(&c, field+".Course", chord)
		switch e.Corner {
		case AutoCorner, Crossed, Squared, Mitred, Folded:
		default:
			c.err = refuseAs(ErrUnknown, field+".Corner", fmt.Sprintf("%q", e.Corner), "crossed, squared, mitred, folded or none")
		}
		if c.err != nil {
			return nil, c.err
		}
		local, length := e.Course.local(chord)
		if !finite(length) {
			return nil, refuse(field+".Course", "not a curve", "offsets that make one")
		}
		edges[i] = laid{place(local, a, b), length}
		ring = append(ring, edges[i].line[:len(edges[i].line)-1]...)
	}
	clean := plane.Clean(ring, 1e-9)
	if len(clean) < 3 {
		return nil, refuseAs(ErrOutline, "Edges", "nothing inside", "an area")
	}
	if i, _, at, found := plane.Crossing(clean); found {
		return nil, refuseAs(ErrOutline, "Edges", fmt.Sprintf("an outline that meets itself at %.3v, %.3v (point %d)", units.Length(at.X), units.Length(at.Y), i), "a simple outline")
	}
	if a := plane.Area(clean); !(a > 0) {
		return nil, refuseAs(ErrOutline, "Edges", "clockwise", "anticlockwise")
	}
	c.count("Holes", len(p.Holes), 0, 1000)
	c.count("Patches", len(p.Patches), 0, 200)
	for i := range p.Holes {
		p.Holes[i].check(&c, fmt.Sprintf("Holes[%d]", i), p, clean)
	}
	for i := range p.Patches {
		p.Patches[i].check(&c, fmt.Sprintf("Patches[%d]", i), edges)
	}
	c.count("Darts", len(p.Darts), 0, 1000)
	c.count("Fittings", len(p.Fittings), 0, 10000)
	for i := range p.Fittings {
		p.Fittings[i].check(&c, fmt.Sprintf("Fittings[%d]", i))
	}
	if c.err != nil {
		return nil, c.err
	}
	asItIs := func(q plane.Point) plane.Point { return q }
	for i := range p.Darts {
		if _, err := p.dart(i, edges, asItIs); err != nil {
			return nil, err
		}
	}
	return edges, c.err
}

func ringOf(edges []laid) []plane.Point {
	var ring []plane.Point
	for _, e := range edges {
		ring = append(ring, e.line[:len(e.line)-1]...)
	}
	return ring
}

// Length returns the finished length of an edge. It is exact for a straight
// edge, an arc and a catenary.
func (p Panel) Length(edge string) (units.Length, error) {
	edges, err := p.lay()
	if err != nil {
		return 0, err
	}
	for i := range p.Edges {
		if p.Edges[i].Name == edge {
			return units.Length(edges[i].length), nil
		}
	}
	return 0, refuseAs(ErrUnknown, "edge", fmt.Sprintf("%q", edge), "an edge of the panel")
}

// Area returns the finished area, holes included. Under arcs it is exact, under
// other curves it is that of the polyline that follows them.
func (p Panel) Area() (units.Area, error) {
	edges, err := p.lay()
	if err != nil {
		return 0, err
	}
	sum := 0.0
	var corners []plane.Point
	for i, e := range edges {
		corners = append(corners, e.line[0])
		w := p.Edges[i].Course
		chord := e.line[len(e.line)-1].Sub(e.line[0]).Norm()
		if w.Curve == Arc {
			sum += segment(chord, float64(w.Depth))
			continue
		}
		local, _ := w.local(chord)
		sum -= plane.Area(local) // to the right of the chord is outside
	}
	return units.Area(sum + plane.Area(corners)), nil
}
