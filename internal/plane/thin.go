package plane

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
			if d := Distance([]Point{line[from], line[to]}, line[i]); clearly(d, worst) {
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
	far := 0
	for i, q := range ring {
		if clearly(q.Sub(ring[0]).Norm(), ring[far].Sub(ring[0]).Norm()) {
			far = i
		}
	}
	out := Thin(ring[:min(far+1, len(ring))], deviation)
	back := Thin(append(append([]Point{}, ring[far:]...), ring[:min(1, len(ring))]...), deviation)
	for _, i := range back {
		if at := far + i; i > 0 && at < len(ring) {
			out = append(out, at)
		}
	}
	return out
}

// clearly is whether a is greater than b by more than rounding: of two corners
// equally far out the first is kept, on every processor.
func clearly(a, b float64) bool { return a > b*(1+1e-9) }
