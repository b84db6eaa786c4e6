package strip

import (
	"fmt"
	"math/bits"
)

// vec is a point or a difference of points in whole units. Coordinates within
// 2^61 keep differences within int64.
type vec struct{ x, y int64 }

func (a vec) sub(b vec) vec { return vec{a.x - b.x, a.y - b.y} }

// crossSign returns the sign of a.x*b.y - a.y*b.x, from 128-bit products.
func crossSign(a, b vec) int { return compareProducts(a.x, b.y, a.y, b.x) }

// dotSign returns the sign of a.x*b.x + a.y*b.y.
func dotSign(a, b vec) int { return compareProducts(a.x, b.x, -a.y, b.y) }

// turnSign is positive if a, b, c turn counter-clockwise, zero if they lie on a
// line.
func turnSign(a, b, c vec) int { return crossSign(b.sub(a), c.sub(a)) }

// compareProducts returns the sign of a*b - c*d.
func compareProducts(a, b, c, d int64) int {
	s, t := signOf(a)*signOf(b), signOf(c)*signOf(d)
	if s != t || s == 0 {
		return signOf(int64(s - t))
	}
	h1, l1 := bits.Mul64(magnitude(a), magnitude(b))
	h2, l2 := bits.Mul64(magnitude(c), magnitude(d))
	switch {
	case h1 == h2 && l1 == l2:
		return 0
	case h1 > h2 || h1 == h2 && l1 > l2:
		return s
	default:
		return -s
	}
}

func signOf(a int64) int {
	switch {
	case a > 0:
		return 1
	case a < 0:
		return -1
	}
	return 0
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

// onSegment reports whether p lies on the closed segment from a to b.
func onSegment(p, a, b vec) bool {
	return min(a.x, b.x) <= p.x && p.x <= max(a.x, b.x) &&
		min(a.y, b.y) <= p.y && p.y <= max(a.y, b.y) && turnSign(a, b, p) == 0
}

// meet reports whether the closed segments a-b and c-d have a point in common.
func meet(a, b, c, d vec) bool {
	if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
		max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
		return false
	}
	if turnSign(a, b, c)*turnSign(a, b, d) < 0 && turnSign(c, d, a)*turnSign(c, d, b) < 0 {
		return true
	}
	return onSegment(a, c, d) || onSegment(b, c, d) || onSegment(c, a, b) || onSegment(d, a, b)
}

// clean returns the vertices of a ring without immediate repetitions.
func clean(ring []int64) []vec {
	r := make([]vec, 0, len(ring)/2)
	for k := 0; k+1 < len(ring); k += 2 {
		v := vec{ring[k], ring[k+1]}
		if len(r) == 0 || r[len(r)-1] != v {
			r = append(r, v)
		}
	}
	for len(r) > 1 && r[0] == r[len(r)-1] {
		r = r[:len(r)-1]
	}
	return r
}

// notSimple says what is wrong with a ring: edges may meet only where one ends
// and the next begins, and must not fold back there. Such a ring has an area.
func notSimple(r []vec) string {
	n := len(r)
	if n < 3 {
		return "fewer than three different vertices"
	}
	meets := func(i, j int) bool {
		neighbours := i == 0 && j == n-1
		return !neighbours && meet(r[i], r[(i+1)%n], r[j], r[(j+1)%n])
	}
	var edges *boxes
	if n > fewEdges {
		edges = newBoxes(pointsOf(r))
	}
	for i := range r {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		if turnSign(a, b, c) == 0 && dotSign(b.sub(a), c.sub(b)) < 0 {
			return "an edge folds back on itself"
		}
		met := false
		if edges == nil {
			for j := i + 2; j < n && !met; j++ {
				met = meets(i, j)
			}
		} else {
			met = edges.find(i+2, edges.low[edges.leaves+i], edges.high[edges.leaves+i], func(j int) bool { return meets(i, j) })
		}
		if met {
			return "the outline meets itself"
		}
	}
	return ""
}

// fewEdges are compared each with each: boxes do not pay.
const fewEdges = 60

// pointsOf rounds coordinates, but in their order, so that boxes that have a point
// in common still do.
func pointsOf(r []vec) []point {
	p := make([]point, len(r))
	for k, v := range r {
		p[k] = point{float64(v.x), float64(v.y)}
	}
	return p
}

// counterClockwise reports the sense of a simple ring, from the turn at its
// lowest of the leftmost vertices, where the outline cannot be straight.
func counterClockwise(r []vec) bool {
	k := 0
	for i, v := range r {
		if v.x < r[k].x || v.x == r[k].x && v.y < r[k].y {
			k = i
		}
	}
	n := len(r)
	return turnSign(r[(k+n-1)%n], r[k], r[(k+1)%n]) > 0
}

type box struct{ x0, y0, x1, y1 int64 }

func boundsOf(r []vec) box {
	b := box{r[0].x, r[0].y, r[0].x, r[0].y}
	for _, v := range r[1:] {
		b = box{min(b.x0, v.x), min(b.y0, v.y), max(b.x1, v.x), max(b.y1, v.y)}
	}
	return b
}

// Simple reports whether a ring, x0, y0, x1, y1, ..., runs anticlockwise; the
// error, which wraps ErrRing, says why it is not a simple polygon.
func Simple(ring []int64) (anticlockwise bool, err error) {
	r := clean(ring)
	if why := notSimple(r); why != "" {
		return false, fmt.Errorf("%w: %s", ErrRing, why)
	}
	return counterClockwise(r), nil
}
