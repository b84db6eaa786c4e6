package strip

import (
	"context"
	"encoding/binary"
	"math"
	"slices"
	"sync/atomic"
)

// forms is the geometry of every shape in every rotation that fits the strip,
// in flat slices. Outlines run counter-clockwise from a bounding box with its
// lower left corner at 0, 0, and repeat their first vertex.
type forms struct {
	all    []form
	vx, vy []float64
	px, py []float64 // centres of the circles
	pr     []float64 // their radii
	most   int       // edges of the largest form
	known  *Circles  // nil if none are kept
	ctx    context.Context

	outlines int                     // different ones
	tables   []atomic.Pointer[table] // of each with each; nil if they do not pay
	side     int                     // cells along a side of a table
}

// form is one shape in one rotation.
type form struct {
	v0, v1     int     // vertices; edge k runs from vertex k to k+1
	p0, p1     int     // circles, the largest first
	w, h       float64 // bounding box
	hull       float64 // area of the convex hull
	share      float64 // its fourth root: weighs the losses of the shape
	diameter   float64 // of the bounding box
	least      float64 // shorter side of the bounding box
	shape      int
	turn       int
	outline    int   // the same for forms alike
	minX, minY int64 // lower left corner of the outline as given
	gx, gy     steps // where that corner may be
}

// newForms returns the forms of p and, for each shape and then each flaw, the
// range of its forms.
func newForms(ctx context.Context, p Problem, known *Circles) (g *forms, first []int) {
	g = &forms{ctx: ctx, known: known}
	alike := map[string]int{} // of all, by outline, the first
	for k, s := range p.Shapes {
		first = append(first, len(g.all))
		for t, ring := range s.Turns {
			if r := canonical(clean(ring)); p.fits(boundsOf(r), s.grid(t)) {
				g.add(r, s.grid(t), k, t, alike)
			}
		}
	}
	for k, ring := range p.Flaws {
		first = append(first, len(g.all))
		g.add(canonical(clean(ring)), Grid{}, len(p.Shapes)+k, 0, alike)
	}
	return g, append(first, len(g.all))
}

// canonical returns a ring counter-clockwise from the lowest of its leftmost
// vertices, without vertices on a straight line.
func canonical(r []vec) []vec {
	if !counterClockwise(r) {
		slices.Reverse(r)
	}
	n, least := len(r), 0
	for i, v := range r {
		if v.x < r[least].x || v.x == r[least].x && v.y < r[least].y {
			least = i
		}
	}
	var c []vec
	for i := range n {
		k := least + i
		if v := r[k%n]; turnSign(r[(k+n-1)%n], v, r[(k+1)%n]) != 0 {
			c = append(c, v)
		}
	}
	return c
}

// add adds the form of a ring; one like it may be there.
func (g *forms) add(r []vec, grid Grid, shape, turn int, alike map[string]int) {
	b := boundsOf(r)
	f := form{v0: len(g.vx), v1: len(g.vx) + len(r), p0: len(g.px), w: float64(b.x1 - b.x0), h: float64(b.y1 - b.y0)}
	for _, v := range append(r, r[0]) {
		g.vx = append(g.vx, float64(v.x-b.x0))
		g.vy = append(g.vy, float64(v.y-b.y0))
	}
	key := outlineKey(g.vx[f.v0:f.v1], g.vy[f.v0:f.v1])
	if same, ok := alike[key]; ok {
		g.vx, g.vy = g.vx[:f.v0], g.vy[:f.v0]
		f = g.all[same]
	} else {
		alike[key] = len(g.all)
		f.hull = hullArea(g.vx[f.v0:f.v1], g.vy[f.v0:f.v1])
		f.share = math.Sqrt(math.Sqrt(f.hull))
		f.diameter = math.Sqrt(float64(f.w*f.w) + float64(f.h*f.h))
		f.least = min(f.w, f.h)
		f.outline = g.outlines
		g.outlines++
		g.most = max(g.most, f.v1-f.v0)
		g.inscribe(&f, key)
	}
	f.shape, f.turn = shape, turn
	f.minX, f.minY = b.x0, b.y0
	f.gx, f.gy = grid.X.moved(b.x0), grid.Y.moved(b.y0)
	g.all = append(g.all, f)
}

// outlineKey is different for outlines that are.
func outlineKey(x, y []float64) string {
	b := make([]byte, 0, 16*len(x))
	for k := range x {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x[k]))
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(y[k]))
	}
	return string(b)
}

// hullArea returns the area of the convex hull of points, by a scan of them
// from left to right, once below and once above.
func hullArea(x, y []float64) float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		switch {
		case x[i] < x[j] || x[i] == x[j] && y[i] < y[j]:
			return -1
		case x[i] == x[j] && y[i] == y[j]:
			return 0
		}
		return 1
	})
	twice := 0.0
	for range 2 {
		var chain []int
		for _, i := range order {
			for len(chain) > 1 {
				a, b := chain[len(chain)-2], chain[len(chain)-1]
				if cross(x[b]-x[a], y[b]-y[a], x[i]-x[a], y[i]-y[a]) > 0 {
					break
				}
				chain = chain[:len(chain)-1]
			}
			chain = append(chain, i)
		}
		for k := 1; k < len(chain); k++ {
			a, b := chain[k-1], chain[k]
			twice += float64(x[a]*y[b]) - float64(x[b]*y[a])
		}
		slices.Reverse(order)
	}
	return twice / 2
}

// cross is exact for differences of coordinates of the search.
func cross(ax, ay, bx, by float64) float64 { return float64(ax*by) - float64(ay*bx) }
