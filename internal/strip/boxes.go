package strip

// boxes are those of the edges of a ring, and of 2, 4, 8, ... edges one after
// another: the children of node k are 2k and 2k+1, edge k is node leaves+k.
type boxes struct {
	low, high []point
	leaves    int
	edges     int
}

func newBoxes(ring []point) *boxes {
	b := &boxes{leaves: 1, edges: len(ring)}
	for b.leaves < b.edges {
		b.leaves *= 2
	}
	b.low, b.high = make([]point, 2*b.leaves), make([]point, 2*b.leaves)
	for k, v := range ring {
		w := ring[(k+1)%len(ring)]
		b.low[b.leaves+k] = point{min(v.x, w.x), min(v.y, w.y)}
		b.high[b.leaves+k] = point{max(v.x, w.x), max(v.y, w.y)}
	}
	for k := b.leaves + b.edges; k < 2*b.leaves; k++ { // none; what is above does not change
		b.low[k], b.high[k] = b.low[k-1], b.high[k-1]
	}
	for k := b.leaves - 1; k > 0; k-- {
		l, r := 2*k, 2*k+1
		b.low[k] = point{min(b.low[l].x, b.low[r].x), min(b.low[l].y, b.low[r].y)}
		b.high[k] = point{max(b.high[l].x, b.high[r].x), max(b.high[l].y, b.high[r].y)}
	}
	return b
}

// find calls is with the edges, from one on, whose boxes have a point of the box
// from low to high, until it is one, and reports whether there was.
func (b *boxes) find(from int, low, high point, is func(k int) bool) bool {
	return b.findIn(1, 0, b.leaves, from, low, high, is)
}

func (b *boxes) findIn(node, begin, size, from int, low, high point, is func(k int) bool) bool {
	if begin+size <= from || begin >= b.edges || b.high[node].x < low.x || high.x < b.low[node].x ||
		b.high[node].y < low.y || high.y < b.low[node].y {
		return false
	}
	if size == 1 {
		return is(begin)
	}
	size /= 2
	return b.findIn(2*node, begin, size, from, low, high, is) || b.findIn(2*node+1, begin+size, size, from, low, high, is)
}
