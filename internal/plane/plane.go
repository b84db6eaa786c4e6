// Package plane is plane geometry on polylines in plain numbers: lengths,
// areas, crossings and the removal of loops. Rings are closed, without their
// first point again at the end; anticlockwise ones have a positive area.
package plane

import (
	"cmp"
	"iter"
	"math"
	"slices"
)

// Point is a place or a direction in the plane.
type Point struct{ X, Y float64 }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times returns k p.
func (p Point) Times(k float64) Point { return Point{k * p.X, k * p.Y} }

// Dot returns the scalar product.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the turn from p to q, positive anticlockwise.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Norm returns the length of p.
func (p Point) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Unit returns p at length 1; p must not be zero.
func (p Point) Unit() Point { return p.Times(1 / p.Norm()) }

// Right returns p turned a quarter to the right: the outside of an
// anticlockwise ring whose edge goes in direction p.
func (p Point) Right() Point { return Point{p.Y, -p.X} }

// Length is that of a polyline.
func Length(line []Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += line[i].Sub(line[i-1]).Norm()
	}
	return sum
}

// Area is that of a ring, negative when it runs clockwise.
func Area(ring []Point) float64 {
	if len(ring) == 0 {
		return 0
	}
	sum, o := 0.0, ring[0]
	for i := 1; i+1 < len(ring); i++ {
		sum += ring[i].Sub(o).Cross(ring[i+1].Sub(o))
	}
	return sum / 2
}

// Contains reports whether p lies inside a ring; on its edge either may be.
func Contains(ring []Point, p Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// Distance is that from p to the nearest point of a ring.
func Distance(ring []Point, p Point) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		d := ring[(i+1)%len(ring)].Sub(a)
		t := 0.0
		if n := d.Dot(d); n > 0 {
			t = math.Max(0, math.Min(1, p.Sub(a).Dot(d)/n))
		}
		best = math.Min(best, p.Sub(a.Add(d.Times(t))).Norm())
	}
	return best
}

// Clean leaves out points of a ring that are closer than least to the one before.
func Clean(ring []Point, least float64) []Point {
	var out []Point
	for _, p := range ring {
		if len(out) == 0 || p.Sub(out[len(out)-1]).Norm() > least {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0].Sub(out[len(out)-1]).Norm() <= least {
		out = out[:len(out)-1]
	}
	return out
}

// Clip keeps the part of a ring where side.X x + side.Y y + c is not negative
// (Sutherland and Hodgman, 1974). Parts that come apart stay joined along the line.
// The result is the same on every platform.
func Clip(ring []Point, side Point, c float64) []Point {
	var out []Point
	at := func(p Point) float64 { return float64(side.X*p.X) + float64(side.Y*p.Y) + c }
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		u, v := at(a), at(b)
		if u >= 0 {
			out = append(out, a)
		}
		if (u >= 0) != (v >= 0) {
			t := u / (u - v)
			out = append(out, Point{a.X + float64(t*(b.X-a.X)), a.Y + float64(t*(b.Y-a.Y))})
		}
	}
	return out
}

// Crossing finds two edges of a ring, i < j, that have a point in common other
// than the end where neighbours meet.
func Crossing(ring []Point) (i, j int, at Point, found bool) {
	var first crossing
	for e, f := range pairs(ring) {
		if found && e > first.i {
			continue
		}
		along, p, ok := meet(ring, e, f)
		if ok && (!found || cmp.Or(cmp.Compare(e, first.i), cmp.Compare(along, first.along), cmp.Compare(f, first.j)) < 0) {
			first, found = crossing{e, f, along, p}, true
		}
	}
	return first.i, first.j, first.at, found
}

// crossing is where edge j of a ring meets the earlier edge i.
type crossing struct {
	i, j  int
	along float64 // part of edge i up to there
	at    Point
}

func crossings(ring []Point) []crossing {
	var out []crossing
	for e, f := range pairs(ring) {
		if along, p, ok := meet(ring, e, f); ok {
			out = append(out, crossing{e, f, along, p})
		}
	}
	return out
}

// pairs gives the pairs of edges, the earlier one first, that overlap in X.
func pairs(ring []Point) iter.Seq2[int, int] {
	type span struct {
		lo, hi float64
		edge   int
	}
	n := len(ring)
	spans := make([]span, n)
	for k, a := range ring {
		b := ring[(k+1)%n]
		spans[k] = span{math.Min(a.X, b.X), math.Max(a.X, b.X), k}
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Or(cmp.Compare(a.lo, b.lo), cmp.Compare(a.edge, b.edge)) })
	return func(yield func(e, f int) bool) {
		for s := range spans {
			for t := s + 1; t < n && spans[t].lo <= spans[s].hi; t++ {
				if !yield(min(spans[s].edge, spans[t].edge), max(spans[s].edge, spans[t].edge)) {
					return
				}
			}
		}
	}
}

// meet is where edge e of a ring meets edge f, as the part of e up to there.
func meet(ring []Point, e, f int) (along float64, at Point, ok bool) {
	n := len(ring)
	a, b := ring[e], ring[(e+1)%n]
	c, d := ring[f], ring[(f+1)%n]
	u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
	det := u.Cross(v)
	if f == e+1 || e == 0 && f == n-1 {
		// Neighbours share a corner; they overlap when one turns back on the other, from
		// that corner as far as the shorter of them reaches.
		if det != 0 || u.Dot(v) >= 0 {
			return 0, Point{}, false
		}
		reach := v.Norm() / u.Norm()
		switch {
		case f == e+1 && reach < 1:
			return 1 - reach, d, true
		case f == e+1:
			return 0, a, true
		case reach < 1:
			return reach, c, true
		}
		return 1, b, true
	}
	if det == 0 {
		if u.Cross(w) != 0 || u.Dot(u) == 0 {
			return 0, Point{}, false
		}
		lo, hi := w.Dot(u)/u.Dot(u), d.Sub(a).Dot(u)/u.Dot(u)
		if lo > hi {
			lo, hi = hi, lo
		}
		if hi < 0 || lo > 1 {
			return 0, Point{}, false
		}
		s := math.Max(0, lo)
		return s, a.Add(u.Times(s)), true
	}
	s, t := w.Cross(v)/det, w.Cross(u)/det
	if s < 0 || s > 1 || t < 0 || t > 1 {
		return 0, Point{}, false
	}
	return s, a.Add(u.Times(s)), true
}

// Untangle removes the loops of a ring that has been offset outwards: at each
// crossing it keeps the part with the greater area, the shortest loops first.
// The result crosses itself nowhere, or ok is false.
func Untangle(ring []Point, least float64) (out []Point, ok bool) {
	ring = Clean(ring, least)
	for range len(ring) + 1 {
		if len(ring) < 3 {
			return nil, false
		}
		all := crossings(ring)
		if len(all) == 0 {
			return ring, Area(ring) > 0
		}
		slices.SortFunc(all, func(a, b crossing) int {
			return cmp.Or(cmp.Compare(a.j-a.i, b.j-b.i), cmp.Compare(a.i, b.i), cmp.Compare(a.along, b.along))
		})
		// All loops at once that have no edge in common.
		total := Area(ring)
		taken := make([]bool, len(ring))
		var cuts []crossing
		for _, c := range all {
			inner := Area(append([]Point{c.at}, ring[c.i+1:c.j+1]...))
			if inner > total-inner {
				if len(cuts) == 0 { // the rest is the loop
					ring = append([]Point{c.at}, ring[c.i+1:c.j+1]...)
					break
				}
				continue
			}
			if slices.Contains(taken[c.i:c.j+1], true) {
				continue
			}
			for k := c.i; k <= c.j; k++ {
				taken[k] = true
			}
			cuts = append(cuts, c)
		}
		slices.SortFunc(cuts, func(a, b crossing) int { return b.i - a.i })
		for _, c := range cuts { // from the end, so that numbers before stay right
			ring = slices.Replace(ring, c.i+1, c.j+1, c.at)
		}
		ring = Clean(ring, least)
	}
	return nil, false
}

// Around is the length of a ring.
func Around(ring []Point) float64 {
	if len(ring) == 0 {
		return 0
	}
	return Length(ring) + ring[0].Sub(ring[len(ring)-1]).Norm()
}
