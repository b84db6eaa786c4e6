package plane

import "math"

// Thin leaves out points of an open polyline: joined by straight lines, those
// that are left pass within deviation of the others. Between two points that
// stay it keeps the one farthest from the straight line between them, and goes
// on on both sides, while it is too far (the method of Ramer, 1972, and Douglas
// and Peucker, 1973). It returns the places of what is left, both ends included.
func Thin(line []Point, deviation float64) []int {
	if len(line) == 0 {
		return nil
	}
	out := []int{0}
	var between func(from, to int)
	between = func(from, to int) {
		worst, at := deviation, -1
		for i := from + 1; i < to; i++ {
			if d := Distance([]Point{line[from], line[to]}, line[i]); Clearly(d, worst) {
				worst, at = d, i
			}
		}
		if at >= 0 {
			between(from, at)
			between(at, to)
			return
		}
		if to > from {
			out = append(out, to)
		}
	}
	between(0, len(line)-1)
	return out
}

// ThinRing is Thin for a ring: the first point stays, and the one farthest from it.
func ThinRing(ring []Point, deviation float64) []int {
	far := Farthest(ring, 0)
	out := Thin(ring[:min(far+1, len(ring))], deviation)
	back := Thin(append(append([]Point{}, ring[far:]...), ring[:min(1, len(ring))]...), deviation)
	for _, i := range back {
		if at := far + i; i > 0 && at < len(ring) {
			out = append(out, at)
		}
	}
	return out
}

// Farthest is the point of a ring farthest from its point from, of several the first;
// from itself if there is no other.
func Farthest(ring []Point, from int) int {
	far := from
	for i, q := range ring {
		if Clearly(q.Sub(ring[from]).Norm(), ring[far].Sub(ring[from]).Norm()) {
			far = i
		}
	}
	return far
}

// Clearly is whether a is greater than b by more than the rounding of sizes from a
// millimetre up: of two points equally far out the first is kept, on every processor.
func Clearly(a, b float64) bool { return a > b+1e-9*(math.Abs(a)+math.Abs(b)+1e-3) }
