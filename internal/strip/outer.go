package strip

import (
	"fmt"
	"math"
	"slices"
)

// point is a place in units of the strip that need not be whole.
type point struct{ x, y float64 }

func (a point) sub(b point) point { return point{a.x - b.x, a.y - b.y} }
func (a point) plus(b point, k float64) point {
	return point{a.x + float64(k*b.x), a.y + float64(k*b.y)}
}
func (a point) dot(b point) float64   { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a point) cross(b point) float64 { return cross(a.x, a.y, b.x, b.y) }
func (a point) norm() float64         { return math.Sqrt(a.dot(a)) }
func (a point) right() point          { return point{a.y, -a.x} }
func (a point) unit() point           { n := a.norm(); return point{a.x / n, a.y / n} }

// whole is how near to a whole number, in units, counts as one.
const whole = 1e-4

// Outer returns a simple ring of whole units, anticlockwise, that holds an
// outline and keeps clear of it: at least clear[k] of edge k, which runs from
// vertex k of the outline to the next. Apart from that it is as close as it can
// be, with fewer vertices, and with corners cut off square where they are
// sharper than a right angle: in general within deviation and a few units. What
// it holds is checked, to 2e-4 units, on the ring itself; notches too narrow
// for the clearance are closed, and an outline on which nothing better can be
// found is held by its convex hull.
//
// The outline is x0, y0, x1, y1, ..., simple and anticlockwise, within 2^26
// units. Nothing here depends on the processor.
func Outer(outline, clear []float64, deviation float64) ([]int64, error) {
	p := make([]point, len(outline)/2)
	for k := range p {
		p[k] = point{outline[2*k], outline[2*k+1]}
		if !(math.Abs(p[k].x) <= maxExtent && math.Abs(p[k].y) <= maxExtent) {
			return nil, fmt.Errorf("strip: vertex %d of the outline at %v, %v: %w", k, p[k].x, p[k].y, ErrSize)
		}
	}
	if len(p) < 3 || len(clear) != len(p) || len(outline)%2 != 0 {
		return nil, fmt.Errorf("strip: %d coordinates, %d clearances: %w", len(outline), len(clear), ErrRing)
	}
	for _, d := range []float64{deviation, deviation / 4, deviation / 16} {
		chords := chordsOf(p, clear, d)
		for _, more := range []float64{0, 1, 2} {
			if ring := snap(untangle(grow(chords, more))); holds(ring, p, clear) {
				return flat(ring), nil
			}
		}
	}
	hull, most := hullOf(p), slices.Max(clear)
	chords := make([]chord, len(hull))
	for k, v := range hull {
		chords[k] = chord{from: v, out: most}
	}
	for more := 0.0; more < 8; more++ {
		if ring := snap(grow(chords, more)); holds(ring, p, clear) {
			return flat(ring), nil
		}
	}
	return nil, fmt.Errorf("strip: no ring of whole units holds the outline: %w", ErrRing)
}

func flat(ring []vec) []int64 {
	out := make([]int64, 0, 2*len(ring))
	for _, v := range ring {
		out = append(out, v.x, v.y)
	}
	return out
}

// chord stands for a part of an outline: from its first vertex straight to that
// of the next chord, to be moved out so that it clears the part.
type chord struct {
	from point
	out  float64
}

// chordsOf leaves out vertices that are within deviation of a chord (Ramer, 1972;
// Douglas and Peucker, 1973).
func chordsOf(p []point, clear []float64, deviation float64) []chord {
	n, first, far := len(p), 0, 0
	for k, v := range p {
		if v.x < p[first].x || v.x == p[first].x && v.y < p[first].y {
			first = k
		}
	}
	for k := range p {
		if p[k].sub(p[first]).norm() > p[far].sub(p[first]).norm() {
			far = k
		}
	}
	if far < first {
		far += n
	}
	var out []chord
	// Vertices are numbered round and round.
	type span struct{ a, b int }
	stack := []span{{far, first + n}, {first, far}}
	for len(stack) > 0 {
		s := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		a, b := p[s.a%n], p[s.b%n]
		worst, at := deviation, -1
		u := b.sub(a)
		length := u.norm()
		move := clear[s.a%n]
		for k := s.a + 1; k < s.b; k++ {
			v := p[k%n]
			if d := away(v, a, b); d > worst {
				worst, at = d, k
			}
			if length > 0 {
				move = max(move, max(clear[(k-1)%n], clear[k%n])+max(0, v.sub(a).dot(u.right())/length))
			}
		}
		if at >= 0 || length == 0 && s.b > s.a+1 {
			at = max(at, s.a+1)
			stack = append(stack, span{at, s.b}, span{s.a, at})
			continue
		}
		// A part's clearance is greatest where it is farthest out, near enough;
		// holds decides.
		out = append(out, chord{a, move})
	}
	return out
}

// away is the distance from v to the segment from a to b.
func away(v, a, b point) float64 {
	u := b.sub(a)
	t := 0.0
	if l := u.dot(u); l > 0 {
		t = min(max(v.sub(a).dot(u)/l, 0), 1)
	}
	return v.sub(a.plus(u, t)).norm()
}

// grow moves the chords out, those that are askew by more besides, and joins
// them.
func grow(chords []chord, more float64) []point {
	n := len(chords)
	dir := make([]point, n)
	length := make([]float64, n)
	out := make([]float64, n)
	for k, c := range chords {
		d := chords[(k+1)%n].from.sub(c.from)
		length[k] = d.norm()
		if length[k] == 0 {
			return nil
		}
		dir[k], out[k] = d.unit(), c.out
		if math.Abs(d.x) > whole && math.Abs(d.y) > whole {
			out[k] += more
		}
	}
	var ring []point
	for k, c := range chords {
		b := (k + n - 1) % n
		v, u, w := c.from, dir[b], dir[k]
		m1, m2 := u.right(), w.right()
		e1, e2 := v.plus(m1, out[b]), v.plus(m2, out[k])
		sin, cos := u.cross(w), u.dot(w)
		switch {
		case cos > 0 && math.Abs(sin) < 1e-7:
			ring = append(ring, e1, e2)
		case sin > 0 && cos > -1e-9: // up to a right angle, both run on
			ring = append(ring, v.plus(crossing(m1, m2, out[b], out[k]), 1))
		case sin >= 0: // a sharp corner, cut square to its middle
			r := max(out[b], out[k])
			m := point{m1.x + m2.x, m1.y + m2.y}
			if m.norm() < 1e-6 {
				m = u
			}
			m = m.unit()
			ring = append(ring, v.plus(crossing(m1, m, out[b], r), 1), v.plus(crossing(m, m2, r, out[k]), 1))
		default: // a hollow corner
			if sin < -1e-6 {
				x := crossing(m1, m2, out[b], out[k])
				if -x.dot(u) < length[b] && x.dot(w) < length[k] {
					ring = append(ring, v.plus(x, 1))
					continue
				}
			}
			ring = append(ring, e1, v, e2)
		}
	}
	return ring
}

// crossing is the point x with x.m = a and x.n = b.
func crossing(m, n point, a, b float64) point {
	d := m.cross(n)
	return point{(float64(a*n.y) - float64(b*m.y)) / d, (float64(b*m.x) - float64(a*n.x)) / d}
}

func areaOf(ring []point) float64 {
	sum := 0.0
	for k := 1; k+1 < len(ring); k++ {
		sum += ring[k].sub(ring[0]).cross(ring[k+1].sub(ring[0]))
	}
	return sum / 2
}

// snap rounds a ring to whole units, outwards.
func snap(ring []point) []vec {
	var tidy []point
	for _, v := range ring {
		if len(tidy) == 0 || v.sub(tidy[len(tidy)-1]).norm() > whole {
			tidy = append(tidy, v)
		}
	}
	for len(tidy) > 1 && tidy[0].sub(tidy[len(tidy)-1]).norm() <= whole {
		tidy = tidy[:len(tidy)-1]
	}
	n := len(tidy)
	var flat []int64
	for k, v := range tidy {
		in, out := v.sub(tidy[(k+n-1)%n]), tidy[(k+1)%n].sub(v)
		if n < 3 {
			return nil
		}
		m1, m2 := in.unit().right(), out.unit().right()
		ox, oy := m1.x+m2.x, m1.y+m2.y
		for _, d := range []point{in, out} { // an edge along an axis goes out as it is
			if math.Abs(d.x) < whole {
				ox = d.y
			}
			if math.Abs(d.y) < whole {
				oy = -d.x
			}
		}
		flat = append(flat, outward(v.x, ox), outward(v.y, oy))
	}
	r := clean(flat)
	// Vertices in line go, one after the other.
	for k := 0; len(r) > 3 && k < len(r); {
		n := len(r)
		a, b, c := r[(k+n-1)%n], r[k], r[(k+1)%n]
		if turnSign(a, b, c) == 0 && dotSign(b.sub(a), c.sub(b)) > 0 {
			r = slices.Delete(r, k, k+1)
			continue
		}
		k++
	}
	return r
}

func outward(c, direction float64) int64 {
	near := math.Round(c)
	switch {
	case math.Abs(c-near) <= whole:
	case direction > 1e-9:
		near = math.Ceil(c)
	case direction < -1e-9:
		near = math.Floor(c)
	}
	return int64(near)
}

// holds reports whether a ring is simple, anticlockwise, holds an outline and
// keeps clear of it.
func holds(ring []vec, p []point, clear []float64) bool {
	const slack = 2 * whole
	if len(ring) < 3 || notSimple(ring) != "" || !counterClockwise(ring) {
		return false
	}
	q := pointsOf(ring)
	ofP, ofQ := newBoxes(p), newBoxes(q)
	for _, v := range p {
		if !around(q, ofQ, v) && awayFrom(q, v) > slack {
			return false
		}
	}
	for _, v := range q {
		if around(p, ofP, v) && awayFrom(p, v) > slack {
			return false
		}
	}
	for k, a := range p {
		b := p[(k+1)%len(p)]
		r := clear[k]
		reach := r + 1 // more than enough for rounding
		low, high := point{min(a.x, b.x) - reach, min(a.y, b.y) - reach}, point{max(a.x, b.x) + reach, max(a.y, b.y) + reach}
		if ofQ.find(0, low, high, func(i int) bool {
			c, d := q[i], q[(i+1)%len(q)]
			if min(c.x, d.x)-max(a.x, b.x) > r || min(a.x, b.x)-max(c.x, d.x) > r ||
				min(c.y, d.y)-max(a.y, b.y) > r || min(a.y, b.y)-max(c.y, d.y) > r {
				return false
			}
			// Each on both sides of the other, by more than slack, is a crossing.
			if u, w := b.sub(a), d.sub(c); u.norm() > 0 {
				s1, s2 := u.cross(c.sub(a))/u.norm(), u.cross(d.sub(a))/u.norm()
				t1, t2 := w.cross(a.sub(c))/w.norm(), w.cross(b.sub(c))/w.norm()
				if min(s1, s2) < -slack && max(s1, s2) > slack && min(t1, t2) < -slack && max(t1, t2) > slack {
					return true
				}
			}
			return r > slack && min(away(a, c, d), away(b, c, d), away(c, a, b), away(d, a, b)) < r-slack
		}) {
			return false
		}
	}
	return true
}

// around reports whether v lies in a ring whose edges have the boxes given.
func around(ring []point, edges *boxes, v point) bool {
	in := false
	edges.find(0, point{math.Inf(-1), v.y}, point{math.Inf(1), v.y}, func(k int) bool {
		a, b := ring[k], ring[(k+1)%len(ring)]
		if (a.y > v.y) != (b.y > v.y) && (b.sub(a).cross(v.sub(a)) > 0) == (b.y > a.y) {
			in = !in
		}
		return false
	})
	return in
}

func awayFrom(ring []point, v point) float64 {
	least := math.Inf(1)
	for k, a := range ring {
		least = min(least, away(v, a, ring[(k+1)%len(ring)]))
	}
	return least
}

// hullOf returns the convex hull, anticlockwise.
func hullOf(p []point) []point {
	order := slices.Clone(p)
	slices.SortFunc(order, func(a, b point) int {
		switch {
		case a.x < b.x || a.x == b.x && a.y < b.y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	var hull []point
	for range 2 {
		begin := len(hull)
		for _, v := range order {
			for len(hull) > begin+1 && hull[len(hull)-1].sub(hull[len(hull)-2]).cross(v.sub(hull[len(hull)-2])) <= 0 {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, v)
		}
		hull = hull[:len(hull)-1]
		slices.Reverse(order)
	}
	return hull
}

// Turned turns an outline anticlockwise by an angle in radians; angles within
// 1e-12 of quarter turns are quarter turns. The digits are the same on every
// processor.
func Turned(outline []float64, angle float64) []float64 {
	sin, cos := sincos(angle)
	out := make([]float64, len(outline))
	for k := 0; k+1 < len(outline); k += 2 {
		x, y := outline[k], outline[k+1]
		out[k] = float64(cos*x) - float64(sin*y)
		out[k+1] = float64(sin*x) + float64(cos*y)
	}
	return out
}

// sincos of an angle of a few turns: quarter turns off, and the series.
func sincos(angle float64) (sin, cos float64) {
	quarters := math.Round(angle / (math.Pi / 2))
	const low = 6.123233995736766e-17 // what float64 leaves of pi/2
	r := angle - float64(quarters*(math.Pi/2)) - float64(quarters*low)
	if math.Abs(r) < 1e-12 {
		r = 0
	}
	term := 1.0
	square := float64(r * r)
	s, c := r, 1.0
	for k := 2.0; k < 24; k += 2 {
		term = -float64(term*square) / float64(k*(k-1))
		c += term
		s += float64(term*r) / (k + 1)
	}
	sin, cos = s, c
	switch int64(quarters) & 3 {
	case 1:
		sin, cos = cos, -sin
	case 2:
		sin, cos = -sin, -cos
	case 3:
		sin, cos = -cos, sin
	}
	return sin, cos
}
