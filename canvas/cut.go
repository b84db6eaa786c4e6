package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// margin is the cloth outside an edge.
type margin struct {
	depth  float64
	fold   float64 // height above the finished line at which a hem is folded again, or where it ends
	hem    bool
	sleeve bool
}

func (f Finish) margin(thickness units.Length) margin {
	m := margin{depth: float64(f.allowance(thickness))}
	m.sleeve = f.Kind == Sleeve && !f.Strip
	m.hem = f.turned() && !f.Strip && !m.sleeve
	m.fold = m.depth
	if f.Kind == DoubleHem && !f.Strip {
		m.fold = float64(f.Width)
	}
	return m
}

// cutLine adds the allowances to a panel's edges.
func cutLine(p *Panel, edges []laid, thickness units.Length) ([]plane.Point, error) {
	n := len(edges)
	margins := make([]margin, n)
	for i := range margins {
		margins[i] = p.Edges[i].Finish.margin(thickness)
	}
	corners := make([][]plane.Point, n)
	for i := range edges {
		before := (i + n - 1) % n
		corners[i] = corner(edges[before].line, edges[i].line, margins[before], margins[i], p.Edges[i].Corner)
	}
	var ring []plane.Point
	for i := range edges {
		ring = append(ring, corners[i]...)
		line, next := edges[i].line, corners[(i+1)%n]
		k := len(line) - 1
		from := end{line[0], line[1].Sub(line[0]).Unit(), corners[i][len(corners[i])-1]}
		to := end{line[k], line[k-1].Sub(line[k]).Unit(), next[0]}
		for _, q := range beside(line, margins[i].depth) {
			if !from.before(q) && !to.before(q) {
				ring = append(ring, q)
			}
		}
	}
	cut, ok := plane.Untangle(ring, 1e-7)
	if !ok {
		return nil, refuseAs(ErrOutline, "Edges", fmt.Sprintf("nothing left of %q with its allowances", p.Name), "smaller allowances")
	}
	for i, e := range edges {
		for _, q := range e.line {
			if margins[i].depth >= 0 && margins[(i+n-1)%n].depth >= 0 && margins[(i+1)%n].depth >= 0 &&
				!plane.Contains(cut, q) && plane.Distance(cut, q) > tolerance {
				return nil, refuseAs(ErrOutline, fmt.Sprintf("Edges[%d] of %q", i, p.Name),
					fmt.Sprintf("allowances that run into the panel at %.3v, %.3v", units.Length(q.X), units.Length(q.Y)),
					"smaller allowances, or another cut of the corners")
			}
		}
	}
	return cut, nil
}

// end is where an allowance ends at a corner: the corner, the direction of the edge
// away from it, and the last point of the corner's cut.
type end struct{ corner, along, cut plane.Point }

// before says that a point of the cut line of a curved edge lies nearer to the
// corner than where the corner's cut has already ended the allowance.
func (e *end) before(q plane.Point) bool {
	far := e.cut.Sub(e.corner)
	d := q.Sub(e.corner)
	return d.Dot(e.along) < far.Dot(e.along) && d.Norm() < 1.5*far.Norm()
}

// beside is a polyline moved outwards, without the points at its ends.
func beside(line []plane.Point, by float64) []plane.Point {
	var out []plane.Point
	for i := 1; i+1 < len(line); i++ {
		u, v := line[i].Sub(line[i-1]).Unit(), line[i+1].Sub(line[i]).Unit()
		m, k := u.Right(), v.Right()
		if c := 1 + m.Dot(k); c > 0.3 { // up to 134 degrees of turn: one point
			out = append(out, line[i].Add(m.Add(k).Times(by/c)))
			continue
		}
		out = append(out, line[i].Add(m.Times(by)), line[i], line[i].Add(k.Times(by)))
	}
	return out
}

// corner is the cut line round the corner where line a ends and line b begins.
func corner(a, b []plane.Point, ma, mb margin, cut CornerCut) []plane.Point {
	p := b[0]
	d1, d2 := p.Sub(a[len(a)-2]).Unit(), b[1].Sub(p).Unit()
	n1, n2 := d1.Right(), d2.Right()
	sin, cos := d1.Cross(d2), d1.Dot(d2)
	e1, e2 := p.Add(n1.Times(ma.depth)), p.Add(n2.Times(mb.depth))
	if unlike := math.Abs(ma.depth-mb.depth) > 1e-9; cos > 0 && (math.Abs(sin) < 1e-6 || unlike && math.Abs(sin) < 0.2) {
		// Where one edge runs on into the next: a step between unlike allowances.
		if unlike {
			return []plane.Point{e1, e2}
		}
		return []plane.Point{e1}
	}
	outward := sin > 0 && ma.depth >= 0 && mb.depth >= 0
	if cut == AutoCorner {
		switch {
		case ma.sleeve || mb.sleeve:
			cut = Squared
		case ma.hem && mb.hem:
			cut = Mitred
		case ma.hem || mb.hem:
			cut = Folded
		default:
			cut = Crossed
		}
	}
	switch {
	case outward && cut == Squared:
		return []plane.Point{e1, p, e2}
	case outward && cut == Mitred && sin > 0.1:
		return mitred(p, d1, d2, ma, mb)
	case outward && cut == Folded && ma.hem != mb.hem && sin > 0.2:
		return folded(p, d1, d2, ma, mb)
	}
	// Where the two cut lines meet: x . n1 = depth1 and x . n2 = depth2.
	if math.Abs(sin) < 1e-6 { // the edge turns back on itself
		return []plane.Point{e1, p, e2}
	}
	x := plane.Point{
		X: (ma.depth*n2.Y - mb.depth*n1.Y) / n1.Cross(n2),
		Y: (mb.depth*n1.X - ma.depth*n2.X) / n1.Cross(n2),
	}
	if outward {
		if m := math.Max(ma.depth, mb.depth); x.Norm() > 2.5*m {
			return []plane.Point{e1.Add(d1.Times(m)), e2.Add(d2.Times(-m))}
		}
		return []plane.Point{p.Add(x)}
	}
	// A hollow corner: the lines are shortened, when they are long enough.
	last, first := p.Sub(a[len(a)-2]).Norm(), b[1].Sub(p).Norm()
	if -x.Dot(d1) < last && x.Dot(d2) < first {
		return []plane.Point{p.Add(x)}
	}
	return []plane.Point{e1, p, e2}
}

// mitred ends two hems on the mirror images of the line from the corner to
// where the inner edges of the hems cross.
func mitred(p, d1, d2 plane.Point, ma, mb margin) []plane.Point {
	n1, n2 := d1.Right(), d2.Right()
	w1, w2 := ma.fold, mb.fold
	// The crossing is w1 inside the first edge and w2 inside the second.
	q := plane.Point{
		X: (-w1*n2.Y + w2*n1.Y) / n1.Cross(n2),
		Y: (-w2*n1.X + w1*n2.X) / n1.Cross(n2),
	}
	s1, s2 := q.Dot(d1), q.Dot(d2) // along the edges, from the corner
	var out []plane.Point
	if ma.depth > w1 {
		out = append(out, p.Add(d1.Times(s1*(2-ma.depth/w1))).Add(n1.Times(ma.depth)))
	}
	out = append(out, p.Add(d1.Times(s1)).Add(n1.Times(w1)), p, p.Add(d2.Times(s2)).Add(n2.Times(w2)))
	if mb.depth > w2 {
		out = append(out, p.Add(d2.Times(s2*(2-mb.depth/w2))).Add(n2.Times(mb.depth)))
	}
	return out
}

// folded ends a hem on the mirror image of its neighbour's cut line.
func folded(p, d1, d2 plane.Point, ma, mb margin) []plane.Point {
	n1, n2 := d1.Right(), d2.Right()
	sin := d1.Cross(d2)
	if mb.hem {
		from := p.Add(d2.Times(-ma.depth / sin))
		return hemEnd(from, d2, n2, d1.Times(-1), mb)
	}
	out := hemEnd(p.Add(d1.Times(mb.depth/sin)), d1, n1, d2, ma)
	slices.Reverse(out)
	return out
}

// hemEnd goes from the fold of a hem outwards. Inside the panel the neighbour's
// cut line goes in direction in.
func hemEnd(from, d, n, in plane.Point, m margin) []plane.Point {
	mirror := in.Sub(n.Times(2 * in.Dot(n)))
	rise := mirror.Dot(n)
	w := m.fold
	out := []plane.Point{from, from.Add(mirror.Times(w / rise))}
	if m.depth > w {
		back := mirror.Sub(d.Times(2 * mirror.Dot(d)))
		out = append(out, out[1].Add(back.Times((m.depth-w)/rise)))
	}
	return out
}
