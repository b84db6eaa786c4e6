package strip

import "slices"

// untangle takes the loops out of a ring: where it crosses itself, the part with
// the lesser area goes, the loops of the fewest edges first, and of those the
// first.
func untangle(ring []point) []point {
	ring = slices.Clone(ring)
	// No edge crosses one that is fewer than apart after it, and none before past
	// the one that is as many after it, but for the new ones, from lo to hi, and
	// those shortly before them.
	apart, past, lo, hi := 2, 0, 0, 0
	for d := 2; d < len(ring); {
		from, to := max(0, lo-d), hi
		if d == apart {
			from, to = min(past, from), len(ring)
		}
		i, at := firstLoop(ring, d, from, min(to, len(ring)-d))
		if i < 0 {
			if d++; d > apart {
				apart, past = d, 0
				if d == manySpans && !crossesItself(ring) {
					break
				}
			}
			continue
		}
		loop := append([]point{at}, ring[i+1:i+d+1]...)
		ring[i+1] = at
		ring = slices.Delete(ring, i+2, i+d+1)
		switch {
		case areaOf(loop) > areaOf(ring):
			ring, apart, past, lo, hi = loop, 2, 0, 0, 0
		case d == apart:
			past, lo, hi = i, i, i+2
		default:
			past, lo, hi = min(past, i), min(lo, i), max(hi-d+1, i+2)
		}
		d = 2
	}
	return ring
}

// manySpans is the number of edges from one to another from which on it pays to ask
// first whether any cross.
const manySpans = 64

// firstLoop returns the first edge from an edge to before another that crosses the
// one d edges after it, and where; -1 if there is none.
func firstLoop(ring []point, d, from, to int) (int, point) {
	n := len(ring)
	for i := from; i < to; i++ {
		j := i + d
		if i == 0 && j == n-1 {
			continue // neighbours
		}
		a, b := ring[i], ring[i+1]
		if s, cross := crossesAt(a, b, ring[j], ring[(j+1)%n]); cross {
			return i, a.plus(b.sub(a), s)
		}
	}
	return -1, point{}
}

// crossesItself reports whether any two edges cross.
func crossesItself(ring []point) bool {
	n, edges := len(ring), newBoxes(ring)
	for i, a := range ring {
		b := ring[(i+1)%n]
		if edges.find(i+2, edges.low[edges.leaves+i], edges.high[edges.leaves+i], func(j int) bool {
			_, cross := crossesAt(a, b, ring[j], ring[(j+1)%n])
			return cross && !(i == 0 && j == n-1)
		}) {
			return true
		}
	}
	return false
}

// crossesAt reports whether the segments a-b and c-d cross or touch, those on
// one line apart, and at which part of a-b.
func crossesAt(a, b, c, d point) (s float64, ok bool) {
	if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
		max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
		return 0, false
	}
	u, w, e := b.sub(a), d.sub(c), c.sub(a)
	det := u.cross(w)
	if det == 0 {
		return 0, false
	}
	s, t := e.cross(w)/det, e.cross(u)/det
	return s, s >= 0 && s <= 1 && t >= 0 && t <= 1
}
