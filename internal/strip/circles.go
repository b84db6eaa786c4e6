package strip

import (
	"math"
	"slices"
)

// Circles are those inscribed in outlines, by outline. The zero Circles is ready
// to use.
type Circles struct{ of map[string][3][]float64 }

func (c *Circles) find(key string) (circles [3][]float64, ok bool) {
	if c != nil {
		circles, ok = c.of[key]
	}
	return circles, ok
}

func (c *Circles) keep(key string, circles [3][]float64) {
	if c == nil {
		return
	}
	if c.of == nil {
		c.of = map[string][3][]float64{}
	}
	for k, s := range circles {
		circles[k] = slices.Clone(s)
	}
	c.of[key] = circles
}

// Circles are added to a form until they cover enough of it or are too many.
const (
	mostCircles  = 12
	enoughCircle = 0.85 // of the area of the outline
	grid         = 12   // cells of the first grid, along each side of the box
	refinements  = 24   // each halves the cell around the best point
)

// inscribe finds circles inside a form: each is centred on the point farthest
// from the outline and from the circles before it (a pole of inaccessibility),
// as well as a grid and its refinement find it. They only guide the search, so
// they need not be the best, and when ctx is done there are no more of them.
func (g *forms) inscribe(f *form, key string) {
	if c, ok := g.known.find(key); ok {
		g.px, g.py, g.pr = append(g.px, c[0]...), append(g.py, c[1]...), append(g.pr, c[2]...)
		f.p1 = len(g.px)
		return
	}
	area, covered := 0.0, 0.0
	for k := f.v0; k < f.v1; k++ {
		area += (float64(g.vx[k]*g.vy[k+1]) - float64(g.vx[k+1]*g.vy[k])) / 2
	}
	for len(g.px)-f.p0 < mostCircles && covered < enoughCircle*area && g.ctx.Err() == nil {
		x, y, r := g.farthest(f)
		if r <= 0 || len(g.px) > f.p0 && r < 0.1*g.pr[f.p0] {
			break
		}
		g.px, g.py, g.pr = append(g.px, x), append(g.py, y), append(g.pr, r)
		covered += float64(math.Pi * float64(r*r))
	}
	if len(g.px) == f.p0 { // a sliver between the points tried, or no time
		g.px = append(g.px, (g.vx[f.v0]+g.vx[f.v0+1])/2)
		g.py = append(g.py, (g.vy[f.v0]+g.vy[f.v0+1])/2)
		g.pr = append(g.pr, 0)
	}
	f.p1 = len(g.px)
	if g.ctx.Err() == nil {
		g.known.keep(key, [3][]float64{g.px[f.p0:f.p1], g.py[f.p0:f.p1], g.pr[f.p0:f.p1]})
	}
}

// farthest returns the centre and the radius of the largest circle found.
func (g *forms) farthest(f *form) (x, y, r float64) {
	r = math.Inf(-1)
	try := func(cx, cy float64) {
		if d := g.clearance(f, cx, cy); d > r {
			x, y, r = cx, cy, d
		}
	}
	dx, dy := f.w/grid, f.h/grid
	for i := range grid {
		for j := range grid {
			try(float64((float64(i)+0.5)*dx), float64((float64(j)+0.5)*dy))
		}
	}
	for range refinements {
		cx, cy := x, y
		for i := -1; i <= 1; i++ {
			for j := -1; j <= 1; j++ {
				try(cx+float64(float64(i)*dx), cy+float64(float64(j)*dy))
			}
		}
		if x == cx && y == cy {
			dx, dy = dx/2, dy/2
		}
	}
	return x, y, r
}

// clearance is the distance from a point to the outline and the circles so far,
// negative outside the outline or inside a circle.
func (g *forms) clearance(f *form, x, y float64) float64 {
	least := math.Inf(1)
	in := false
	for k := f.v0; k < f.v1; k++ {
		ax, ay, bx, by := g.vx[k]-x, g.vy[k]-y, g.vx[k+1]-x, g.vy[k+1]-y
		ex, ey := bx-ax, by-ay
		t := -(float64(ax*ex) + float64(ay*ey)) / (float64(ex*ex) + float64(ey*ey))
		t = min(max(t, 0), 1)
		px, py := ax+float64(t*ex), ay+float64(t*ey)
		least = min(least, float64(px*px)+float64(py*py))
		if (ay > 0) != (by > 0) && (cross(ax, ay, bx, by) > 0) == (by > ay) {
			in = !in
		}
	}
	d := math.Sqrt(least)
	if !in {
		d = -d
	}
	for k := f.p0; k < len(g.px); k++ {
		ex, ey := g.px[k]-x, g.py[k]-y
		d = min(d, math.Sqrt(float64(ex*ex)+float64(ey*ey))-g.pr[k])
	}
	return d
}
