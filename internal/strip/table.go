package strip

import (
	"math"
	"sync/atomic"
)

// A table holds what the search asks about two forms over and over: whether the
// second, moved by dx, dy, overlaps the first, and how badly. It divides the
// positions at which their boxes overlap into cells.
//
// Whether they overlap is told by the convolution of the outline of the first
// and the reversed outline of the second: a closed chain of edges, each an edge
// of one form moved by a vertex of the other, whose winding number around dx, dy
// is the number of parts that the forms have in common (Guibas, Ramshaw and
// Stolfi, A kinetic framework for computational geometry, FOCS 1983). A cell
// that no edge crosses has one answer for all its positions; in the others a
// few edges decide. All of it is exact. On an edge, where the forms touch, the
// forms themselves are asked.
//
// How badly is interpolated between the corners of the cell.
type table struct {
	x0, y0     float64   // of the first cell
	perX, perY float64   // cells in a unit
	side       int       // cells along each side
	cells      []uint16  // row by row: apart, together, or crossed and more for which; nil if a table does not pay
	losses     []float32 // at the corners of the cells
	rims       []rim
	edges      []edge // of the convolution, upwards
	near       []uint32
}

// What is known of a cell.
const (
	apart    = iota // the forms do not overlap
	together        // they do
	crossed         // edges decide
)

// rim is where to find the edges that decide in a cell.
type rim struct {
	first uint32 // in near
	count uint16
	base  int16 // winding number due to all others
}

// edge is an edge of a convolution that runs upwards, or level to the right. To
// the right of one that runs upwards the winding number is higher by turns.
type edge struct {
	ax, ay, bx, by float64
	turns          int32
}

// at returns what forms.loss does, for a and b the forms of t.
func (t *table) at(g *forms, a, b *form, dx, dy float64, near []int32) float64 {
	u, v := float64((dx-t.x0)*t.perX), float64((dy-t.y0)*t.perY)
	i, j := min(int(u), t.side-1), min(int(v), t.side-1)
	k := j*t.side + i
	if c := t.cells[k]; c == apart || c >= crossed && !t.overlap(g, a, b, dx, dy, near, &t.rims[c-crossed]) {
		return 0
	}
	k += j // a row has one corner more than cells
	low, high := t.losses[k:k+2], t.losses[k+t.side+1:k+t.side+3]
	u -= float64(i)
	v -= float64(j)
	l0, l1 := float64(low[0]), float64(high[0])
	l0 += float64(u * (float64(low[1]) - l0))
	l1 += float64(u * (float64(high[1]) - l1))
	return l0 + float64(v*(l1-l0))
}

// overlap answers for a position in a cell that edges cross.
func (t *table) overlap(g *forms, a, b *form, dx, dy float64, near []int32, c *rim) bool {
	winding := int32(c.base)
	for _, k := range t.near[c.first : c.first+uint32(c.count)] {
		e := &t.edges[k]
		if dy < e.ay || dy > e.by {
			continue
		}
		side := cross(e.bx-e.ax, e.by-e.ay, dx-e.ax, dy-e.ay)
		if side == 0 && (e.ay < e.by || dx >= e.ax && dx <= e.bx) {
			return g.overlap(a, b, dx, dy, near)
		}
		if side < 0 && dy < e.by {
			winding += e.turns
		}
	}
	return winding != 0
}

const (
	fineSide   = 32      // cells along a side of a table
	coarseSide = 16      // of more tables than manyTables
	manyTables = 6000    // they take 6 kB each, and their edges
	mostEdges  = 1 << 14 // of a convolution, for a table to pay
	paysAfter  = 500     // places tried for each table
)

// prepare decides on tables for a number of places to try.
func (g *forms) prepare(places int64) {
	switch tables := int64(g.outlines) * int64(g.outlines+1) / 2; {
	case places < paysAfter*tables || tables > 4*manyTables:
		return
	case tables > manyTables:
		g.side = coarseSide
	default:
		g.side = fineSide
	}
	g.tables = make([]atomic.Pointer[table], g.outlines*g.outlines)
}

// noTable stands for a table that does not pay.
var noTable table

// table returns the table of two outlines in this order, made when it is first
// asked for. If two workers do that at once they make the same. When ctx is done
// no more are made.
func (g *forms) table(a, b *form) *table {
	p := &g.tables[a.outline*g.outlines+b.outline]
	t := p.Load()
	if t == nil {
		if g.ctx.Err() != nil {
			return &noTable
		}
		t = g.newTable(a, b)
		p.Store(t)
		g.tables[b.outline*g.outlines+a.outline].Store(t) // found by tablesOf(b) too
	}
	return t
}

// row is a row of forms.tables.
type row []atomic.Pointer[table]

// tablesOf returns the tables of a with each outline. Those with outlines before
// its own have the other one first.
func (g *forms) tablesOf(a *form) row {
	if g.tables == nil {
		return nil
	}
	return g.tables[a.outline*g.outlines:][:g.outlines]
}

// with returns the table with an outline, or nil if there is none yet, or none
// that pays.
func (r row) with(outline int) *table {
	if outline >= len(r) {
		return nil
	}
	if t := r[outline].Load(); t != nil && t.cells != nil {
		return t
	}
	return nil
}

func (g *forms) newTable(a, b *form) *table {
	n := g.side
	t := &table{x0: -b.w, y0: -b.h, side: n, perX: float64(n) / (a.w + b.w), perY: float64(n) / (a.h + b.h)}
	t.convolve(g, a, b)
	if len(t.edges) > mostEdges {
		return &noTable
	}
	t.cells, t.losses = make([]uint16, n*n), make([]float32, 0, (n+1)*(n+1))
	for j := range n {
		t.fillRow(j)
	}
	for j := range n + 1 {
		dy := t.y0 + float64(float64(j)/t.perY)
		for i := range n + 1 {
			dx := t.x0 + float64(float64(i)/t.perX)
			t.losses = append(t.losses, float32(g.badness(a, b, dx, dy)))
		}
	}
	return t
}

// convolve finds the edges, or some more than a table pays for: of outlines with
// thousands of corners they would fill the memory.
func (t *table) convolve(g *forms, a, b *form) {
	add := func(x, y, x1, y1 float64, sign int32) {
		switch {
		case y < y1:
			t.edges = append(t.edges, edge{x, y, x1, y1, -sign})
		case y > y1:
			t.edges = append(t.edges, edge{x1, y1, x, y, sign})
		default:
			t.edges = append(t.edges, edge{min(x, x1), y, max(x, x1), y, 0})
		}
	}
	// The outline of b turned by half a turn is -b. Of two edges in the same
	// direction that of b counts as turned further.
	for i := a.v0; i < a.v1 && len(t.edges) <= mostEdges; i++ {
		p := before(i, a)
		inX, inY := g.vx[i]-g.vx[p], g.vy[i]-g.vy[p]
		outX, outY := g.vx[i+1]-g.vx[i], g.vy[i+1]-g.vy[i]
		for j := b.v0; j < b.v1; j++ {
			ex, ey := g.vx[j]-g.vx[j+1], g.vy[j]-g.vy[j+1]
			fromIn, toOut := cross(inX, inY, ex, ey), cross(ex, ey, outX, outY)
			sign := int32(0)
			switch c := cross(inX, inY, outX, outY); {
			case c > 0 && fromIn >= 0 && toOut > 0:
				sign = 1
			case c < 0 && fromIn < 0 && toOut <= 0:
				sign = -1
			}
			if sign != 0 {
				add(g.vx[i]-g.vx[j], g.vy[i]-g.vy[j], g.vx[i]-g.vx[j+1], g.vy[i]-g.vy[j+1], sign)
			}
		}
	}
	for j := b.v0; j < b.v1 && len(t.edges) <= mostEdges; j++ {
		p := before(j, b)
		inX, inY := g.vx[p]-g.vx[j], g.vy[p]-g.vy[j]
		outX, outY := g.vx[j]-g.vx[j+1], g.vy[j]-g.vy[j+1]
		for i := a.v0; i < a.v1; i++ {
			ex, ey := g.vx[i+1]-g.vx[i], g.vy[i+1]-g.vy[i]
			fromIn, toOut := cross(inX, inY, ex, ey), cross(ex, ey, outX, outY)
			sign := int32(0)
			switch c := cross(inX, inY, outX, outY); {
			case c > 0 && fromIn > 0 && toOut >= 0:
				sign = 1
			case c < 0 && fromIn <= 0 && toOut < 0:
				sign = -1
			}
			if sign != 0 {
				add(g.vx[i]-g.vx[j], g.vy[i]-g.vy[j], g.vx[i+1]-g.vx[j], g.vy[i+1]-g.vy[j], sign)
			}
		}
	}
}

// fillRow fills in the cells of row j from left to right.
func (t *table) fillRow(j int) {
	// Positions are whole, and a rounded quotient may put one on the wrong side
	// of a limit of a cell: one unit more on each side is enough.
	y0 := t.y0 + float64(float64(j)/t.perY) - 1
	y1 := t.y0 + float64(float64(j+1)/t.perY) + 1
	type span struct {
		edge   uint32
		x0, x1 float64 // where the edge is between y0 and y1
		across bool    // from y0 to y1
	}
	var row []span
	for k, e := range t.edges {
		if e.ay > y1 || e.by < y0 {
			continue
		}
		s := span{uint32(k), min(e.ax, e.bx), max(e.ax, e.bx), e.ay <= y0 && e.by >= y1}
		if e.ay < e.by {
			slope := (e.bx - e.ax) / (e.by - e.ay)
			u, v := e.ax+float64(max(0, y0-e.ay)*slope), e.bx-float64(max(0, e.by-y1)*slope)
			s.x0, s.x1 = max(s.x0, min(u, v)), min(s.x1, max(u, v))
		}
		row = append(row, s)
	}
	for i := range t.side {
		x0 := t.x0 + float64(float64(i)/t.perX) - 1
		x1 := t.x0 + float64(float64(i+1)/t.perX) + 1
		c := rim{first: uint32(len(t.near))}
		decide := false
		for _, s := range row {
			if s.x0 > x1 {
				continue
			}
			left := s.x1 < x0
			decide = decide || !left
			switch turns := t.edges[s.edge].turns; {
			case left && s.across:
				c.base += int16(turns)
			case !left || turns != 0:
				t.near = append(t.near, s.edge)
			}
		}
		k := j*t.side + i
		if decide {
			c.count = uint16(len(t.near) - int(c.first))
			t.cells[k] = uint16(crossed + len(t.rims))
			t.rims = append(t.rims, c)
			continue
		}
		// The answer is that for any position in the cell.
		y := math.Floor((y0 + y1) / 2)
		for _, k := range t.near[c.first:] {
			if e := t.edges[k]; e.ay <= y && y < e.by {
				c.base += int16(e.turns)
			}
		}
		t.near = t.near[:c.first]
		if c.base != 0 {
			t.cells[k] = together
		}
	}
}
