package strip

import "math"

// The search's own test of overlap and its measure of how bad one is.

// loss returns 0 if form b at dx, dy from form a does not overlap it, and
// otherwise how bad the overlap is. Their boxes must overlap. near is scratch
// space for the edges of the largest form.
func (g *forms) loss(a, b *form, dx, dy float64, near []int32) float64 {
	if a.outline > b.outline {
		a, b, dx, dy = b, a, -dx, -dy
	}
	if g.tables != nil {
		if t := g.table(a, b); t.cells != nil {
			return t.at(g, a, b, dx, dy, near)
		}
	}
	if !g.circlesMeet(a, b, dx, dy) && !g.overlap(a, b, dx, dy, near) {
		return 0
	}
	return g.badness(a, b, dx, dy)
}

// badness is a measure of the overlap of two forms: the depths at which their
// circles meet, or come near, and the more the larger the forms.
func (g *forms) badness(a, b *form, dx, dy float64) float64 {
	eps := 0.01 * max(a.diameter, b.diameter)
	floor := float64(eps * eps)
	share := a.share * b.share
	sum := 0.0
	for j := b.p0; j < b.p1; j++ {
		x, y, r := g.px[j]+dx, g.py[j]+dy, g.pr[j]
		for i := a.p0; i < a.p1; i++ {
			ex, ey := g.px[i]-x, g.py[i]-y
			s := g.pr[i]
			depth := r + s - math.Sqrt(float64(ex*ex)+float64(ey*ey))
			if depth < eps {
				depth = floor / (float64(2*eps) - depth)
			}
			sum += float64(depth * min(r, s))
		}
	}
	return math.Sqrt(float64(math.Pi*sum)+floor) * share
}

// circlesMeet reports whether the largest circles of the forms overlap by more
// than rounding, which proves that the forms do.
func (g *forms) circlesMeet(a, b *form, dx, dy float64) bool {
	ex, ey := g.px[b.p0]+dx-g.px[a.p0], g.py[b.p0]+dy-g.py[a.p0]
	r := 0.999 * (g.pr[a.p0] + g.pr[b.p0])
	return float64(ex*ex)+float64(ey*ey) < float64(r*r)
}

// overlap reports whether the insides of form a and of form b, moved by whole
// dx, dy, have a point in common. It is exact.
func (g *forms) overlap(a, b *form, dx, dy float64, near []int32) bool {
	// Outlines can only meet in the common part of the bounding boxes.
	x0, x1 := max(0, dx), min(a.w, dx+b.w)
	y0, y1 := max(0, dy), min(a.h, dy+b.h)
	n := 0
	for j := b.v0; j < b.v1; j++ {
		cx, ex := g.vx[j]+dx, g.vx[j+1]+dx
		cy, ey := g.vy[j]+dy, g.vy[j+1]+dy
		if min(cx, ex) <= x1 && max(cx, ex) >= x0 && min(cy, ey) <= y1 && max(cy, ey) >= y0 {
			near[n] = int32(j)
			n++
		}
	}
	for i := a.v0; i < a.v1; i++ {
		ax, bx := g.vx[i], g.vx[i+1]
		ay, by := g.vy[i], g.vy[i+1]
		ax0, ax1 := min(ax, bx), max(ax, bx)
		ay0, ay1 := min(ay, by), max(ay, by)
		if ax0 > x1 || ax1 < x0 || ay0 > y1 || ay1 < y0 {
			continue
		}
		ux, uy := bx-ax, by-ay
		for _, j := range near[:n] {
			cx, ex := g.vx[j]+dx, g.vx[j+1]+dx
			if cx > ax1 && ex > ax1 || cx < ax0 && ex < ax0 {
				continue
			}
			cy, ey := g.vy[j]+dy, g.vy[j+1]+dy
			if cy > ay1 && ey > ay1 || cy < ay0 && ey < ay0 {
				continue
			}
			c := cross(ux, uy, cx-ax, cy-ay)
			e := cross(ux, uy, ex-ax, ey-ay)
			if c > 0 && e > 0 || c < 0 && e < 0 {
				continue
			}
			wx, wy := ex-cx, ey-cy
			p := cross(wx, wy, ax-cx, ay-cy)
			q := cross(wx, wy, bx-cx, by-cy)
			if p > 0 && q > 0 || p < 0 && q < 0 {
				continue
			}
			if c != 0 && e != 0 && p != 0 && q != 0 {
				return true
			}
			if g.touch(a, b, i, int(j), dx, dy, c, p) {
				return true
			}
		}
	}
	if x0 == 0 && y0 == 0 && x1 == a.w && y1 == a.h && g.within(a, b, dx, dy) {
		return true
	}
	return x0 == dx && y0 == dy && x1 == dx+b.w && y1 == dy+b.h && g.within(b, a, -dx, -dy)
}

// touch reports whether the forms overlap around the start of edge i of a or
// the start of edge j of b, if it lies on the other edge. The starts lie off the
// other's line by q (that of a) and p (that of b).
func (g *forms) touch(a, b *form, i, j int, dx, dy, p, q float64) bool {
	ax, ay, bx, by := g.vx[i], g.vy[i], g.vx[i+1], g.vy[i+1]
	cx, cy, ex, ey := g.vx[j]+dx, g.vy[j]+dy, g.vx[j+1]+dx, g.vy[j+1]+dy
	ux, uy, wx, wy := bx-ax, by-ay, ex-cx, ey-cy
	i0, j0 := before(i, a), before(j, b)
	sx, sy := g.vx[i0]-ax, g.vy[i0]-ay       // back along a's edge before
	tx, ty := g.vx[j0]+dx-cx, g.vy[j0]+dy-cy // and b's
	if ax == cx && ay == cy {
		return wedges(ux, uy, sx, sy, wx, wy, tx, ty)
	}
	if q == 0 && between(ax, ay, cx, cy, ex, ey) && wedges(ux, uy, sx, sy, wx, wy, -wx, -wy) {
		return true
	}
	return p == 0 && between(cx, cy, ax, ay, bx, by) && wedges(ux, uy, -ux, -uy, wx, wy, tx, ty)
}

func before(k int, f *form) int {
	if k == f.v0 {
		return f.v1 - 1
	}
	return k - 1
}

// between reports whether a point of the line from a to b lies between them,
// not at b.
func between(x, y, ax, ay, bx, by float64) bool {
	return (x != bx || y != by) && min(ax, bx) <= x && x <= max(ax, bx) && min(ay, by) <= y && y <= max(ay, by)
}

// wedges reports whether the open wedges counter-clockwise from u to s and from
// w to t overlap: one of them must begin in the other, or both alike.
func wedges(ux, uy, sx, sy, wx, wy, tx, ty float64) bool {
	return opens(ux, uy, sx, sy, wx, wy) || opens(wx, wy, tx, ty, ux, uy)
}

// opens reports whether direction v is u or strictly between u and s.
func opens(ux, uy, sx, sy, vx, vy float64) bool {
	uv, vs, us := cross(ux, uy, vx, vy), cross(vx, vy, sx, sy), cross(ux, uy, sx, sy)
	switch {
	case uv == 0 && float64(ux*vx)+float64(uy*vy) > 0:
		return true
	case us > 0:
		return uv > 0 && vs > 0
	case us < 0:
		return uv > 0 || vs > 0
	}
	return uv > 0
}

// within reports whether a lies inside b, given that their outlines do not
// cross: the first vertex of a off b's outline tells.
func (g *forms) within(a, b *form, dx, dy float64) bool {
vertices:
	for i := a.v0; i < a.v1; i++ {
		x, y := g.vx[i]-dx, g.vy[i]-dy
		in := false
		for j := b.v0; j < b.v1; j++ {
			cx, cy, ex, ey := g.vx[j]-x, g.vy[j]-y, g.vx[j+1]-x, g.vy[j+1]-y
			side := cross(cx, cy, ex, ey)
			if side == 0 && min(cx, ex) <= 0 && max(cx, ex) >= 0 && min(cy, ey) <= 0 && max(cy, ey) >= 0 {
				continue vertices
			}
			if (cy > 0) != (ey > 0) && (side > 0) == (ey > cy) {
				in = !in
			}
		}
		return in
	}
	return false
}
