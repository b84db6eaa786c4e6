package strip

import (
	"math"
	"slices"
)

// untangle takes the loops out of a ring: where it crosses itself, the part with
// the lesser area goes, the loops of the fewest edges first, and of those the
// first.
func untangle(ring []point) []point {
	if len(ring) == 0 {
		return nil
	}
	t := newTangle(ring)
	for t.untie() {
	}
	return t.part(t.first, t.last)
}

// tangle is a ring that is taken apart. An edge keeps its number for as long as
// some of it is left, so that the edges are always in the order of their numbers.
type tangle struct {
	from        []point // where each edge begins; it ends where the next does
	next        []int   // edge left, after the last the first
	first, last int
	// The first edge after each that crosses it and is no neighbour, or none.
	crossed []int
	area    float64
	doubt   float64 // areas as near as that are computed with care
	// A tree of the edges, in order: the children of node k are 2k and 2k+1, and
	// edge k is node leaves+k.
	nodes  []tangleNode
	leaves int
}

// tangleNode sums up some edges.
type tangleNode struct {
	low, high point // their box
	left      int   // so many are not taken out
	crossed   int   // the greatest of their crossed
	shortest  int   // edges of the shortest loop that begins in one of them
	begin     int   // in which
}

const none = -1

func newTangle(ring []point) *tangle {
	n := len(ring)
	t := &tangle{from: slices.Clone(ring), next: make([]int, n), last: n - 1, crossed: make([]int, n), area: areaOf(ring), leaves: 1}
	low, high := ring[0], ring[0]
	for k, v := range ring {
		t.next[k] = (k + 1) % n
		t.crossed[k] = none
		low, high = point{min(low.x, v.x), min(low.y, v.y)}, point{max(high.x, v.x), max(high.y, v.y)}
	}
	// Each term of an area is rounded to 2^-51 of the square of the ring's
	// extent, n of them add up with as much again for each sum so far, and an area
	// is known from those of n loops at most.
	square := high.sub(low)
	t.doubt = float64(float64(n)*float64(n)) * square.dot(square) * 0x1p-48
	for t.leaves < n {
		t.leaves *= 2
	}
	t.nodes = make([]tangleNode, 2*t.leaves)
	for k := range t.nodes {
		t.nodes[k] = tangleNode{crossed: none, shortest: math.MaxInt}
	}
	for k := range n {
		t.setLeaf(k)
	}
	for k := t.leaves - 1; k > 0; k-- {
		t.sumUp(k)
	}
	for k := range n {
		t.crossed[k] = t.crossing(k, 0)
		t.setLeaf(k)
	}
	for k := t.leaves - 1; k > 0; k-- {
		t.sumUp(k)
	}
	return t
}

// setLeaf enters what is known of an edge, which is left, in its leaf.
func (t *tangle) setLeaf(k int) {
	a, b := t.from[k], t.from[t.next[k]]
	l := tangleNode{
		low: point{min(a.x, b.x), min(a.y, b.y)}, high: point{max(a.x, b.x), max(a.y, b.y)},
		left: 1, crossed: t.crossed[k], shortest: math.MaxInt, begin: k,
	}
	if l.crossed != none {
		l.shortest = t.rank(l.crossed) - t.rank(k)
	}
	t.nodes[t.leaves+k] = l
}

// sumUp makes a node from its children.
func (t *tangle) sumUp(node int) {
	a, b := &t.nodes[2*node], &t.nodes[2*node+1]
	switch {
	case b.left == 0:
		t.nodes[node] = *a
		return
	case a.left == 0:
		t.nodes[node] = *b
		return
	}
	n := tangleNode{
		low: point{min(a.low.x, b.low.x), min(a.low.y, b.low.y)}, high: point{max(a.high.x, b.high.x), max(a.high.y, b.high.y)},
		left: a.left + b.left, crossed: max(a.crossed, b.crossed), shortest: a.shortest, begin: a.begin,
	}
	if b.shortest < a.shortest {
		n.shortest, n.begin = b.shortest, b.begin
	}
	t.nodes[node] = n
}

// update enters an edge in the tree, or takes it out.
func (t *tangle) update(k int, left bool) {
	if left {
		t.setLeaf(k)
	} else {
		t.nodes[t.leaves+k] = tangleNode{crossed: none, shortest: math.MaxInt}
	}
	for node := (t.leaves + k) / 2; node > 0; node /= 2 {
		t.sumUp(node)
	}
}

// rank counts the edges left before an edge.
func (t *tangle) rank(k int) int {
	sum := 0
	for node := t.leaves + k; node > 1; node /= 2 {
		if node%2 == 1 {
			sum += t.nodes[node-1].left
		}
	}
	return sum
}

// part returns where the edges from i to j begin.
func (t *tangle) part(i, j int) []point {
	var out []point
	for k := i; k != j; k = t.next[k] {
		out = append(out, t.from[k])
	}
	return append(out, t.from[j])
}

// untie takes out the shortest loop, or what is not the loop, if there is one.
func (t *tangle) untie() bool {
	root := &t.nodes[1]
	if root.shortest == math.MaxInt {
		return false
	}
	i := root.begin
	j := t.crossed[i]
	a, b := t.from[i], t.from[t.next[i]]
	s, _ := crossesAt(a, b, t.from[j], t.from[t.next[j]])
	at := a.plus(b.sub(a), s)
	loop := areaOf(append([]point{at}, t.part(t.next[i], j)...))
	rest := t.area - loop
	if !(math.Abs(loop-rest) > t.doubt) {
		ring := append(t.part(t.first, i), at)
		if j != t.last {
			ring = append(ring, t.part(t.next[j], t.last)...)
		}
		rest = areaOf(ring)
	}
	if loop > rest {
		t.keepLoop(i, j, at, loop)
	} else {
		t.dropLoop(i, j, at, t.area-loop)
	}
	return true
}

// dropLoop takes out what is between edges i and j, which cross.
func (t *tangle) dropLoop(i, j int, at point, area float64) {
	for k := t.next[i]; k != j; k = t.next[k] {
		t.update(k, false)
	}
	t.area, t.next[i], t.from[j] = area, j, at
	for _, k := range []int{i, j} {
		t.crossed[k] = none
		t.update(k, true)
	}
	for _, k := range []int{i, j} {
		t.crossed[k] = t.crossing(k, 0)
		t.update(k, true)
		t.crossBefore(k)
	}
	t.renew(1, 0, t.leaves, i, j)
}

// keepLoop takes out all but the loop from edge i to edge j, which cross.
func (t *tangle) keepLoop(i, j int, at point, area float64) {
	for k := t.first; k != i; k = t.next[k] {
		t.update(k, false)
	}
	for k := t.next[j]; k != t.first; k = t.next[k] {
		t.update(k, false)
	}
	t.first, t.last = i, j
	t.area, t.next[j], t.from[i] = area, i, at
	for _, k := range []int{i, j} {
		t.crossed[k] = none
		t.update(k, true)
	}
	t.crossed[i] = t.crossing(i, 0)
	t.update(i, true)
	t.crossBefore(j)
	t.renew(1, 0, t.leaves, j, math.MaxInt)
}

// crossing returns the first edge from an edge on that crosses edge k, comes after
// it and is no neighbour.
func (t *tangle) crossing(k, from int) int {
	if k == t.last || t.next[k] == t.last {
		return none
	}
	l := t.find(1, 0, t.leaves, max(from, t.next[t.next[k]]), t.from[k], t.from[t.next[k]])
	if k == t.first && l == t.last {
		return none
	}
	return l
}

// find looks among the edges of a node, of which the first is begin, for the first
// from an edge on that crosses the one from a to b.
func (t *tangle) find(node, begin, size, from int, a, b point) int {
	n := &t.nodes[node]
	if n.left == 0 || begin+size <= from || n.apart(a, b) {
		return none
	}
	if size == 1 {
		if _, cross := crossesAt(a, b, t.from[begin], t.from[t.next[begin]]); cross {
			return begin
		}
		return none
	}
	size /= 2
	if l := t.find(2*node, begin, size, from, a, b); l != none {
		return l
	}
	return t.find(2*node+1, begin+size, size, from, a, b)
}

// apart reports whether a segment has no point in the box.
func (n *tangleNode) apart(a, b point) bool {
	return max(a.x, b.x) < n.low.x || n.high.x < min(a.x, b.x) || max(a.y, b.y) < n.low.y || n.high.y < min(a.y, b.y)
}

// crossBefore tells the edges before edge l, which has changed, that it crosses
// them: a point that is rounded may make it cross one that it did not.
func (t *tangle) crossBefore(l int) { t.tell(1, 0, t.leaves, l) }

func (t *tangle) tell(node, begin, size, l int) {
	n := &t.nodes[node]
	a, b := t.from[l], t.from[t.next[l]]
	if n.left == 0 || begin >= l || n.apart(a, b) {
		return
	}
	if size > 1 {
		size /= 2
		t.tell(2*node, begin, size, l)
		t.tell(2*node+1, begin+size, size, l)
		t.sumUp(node)
		return
	}
	k := begin
	if t.next[k] == l || k == t.first && l == t.last || t.crossed[k] != none && t.crossed[k] <= l {
		return
	}
	if _, cross := crossesAt(t.from[k], t.from[t.next[k]], a, b); cross {
		t.crossed[k] = l
		t.setLeaf(k)
	}
}

// renew brings up to date the edges before an edge that are first crossed by it or
// by one after it: by another than before, if that is not beyond to.
func (t *tangle) renew(node, begin, size, from, to int) {
	if begin >= from || t.nodes[node].crossed < from {
		return
	}
	if size == 1 {
		if t.crossed[begin] <= to {
			t.crossed[begin] = t.crossing(begin, from)
		}
		t.setLeaf(begin)
		return
	}
	size /= 2
	t.renew(2*node, begin, size, from, to)
	t.renew(2*node+1, begin+size, size, from, to)
	t.sumUp(node)
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
