package rects

import (
	"context"
	"slices"
)

// Limits of what decide takes.
const (
	mostDecided = 200     // pieces
	mostSums    = 1 << 13 // sums that are kept account of at every step
	mostPlaces  = 1 << 20 // places across the strip that are known
	memory      = 1 << 22 // numbers of states that are remembered
)

type answer int

const (
	unknown answer = iota // the work was not enough
	no
	yes
)

// decider searches for a layout in width by length, depth first. The state of
// the search is the skyline and what is left to lay; everything below the skyline
// is laid or given up.
//
// A stretch lower than both of its neighbours is a gap. Take any layout of
// what is left, each piece moved towards the origin along and across as far as it
// goes, and any gap: what lies in it below its walls rests on other pieces there
// down to its floor. So either
//
//   - nothing lies on the floor, and the gap is empty up to its lower wall; or
//   - a piece lies in its left corner; or
//   - the first piece on its floor keeps off the corner, because something hangs
//     over it from the left wall: then the piece rises above that wall, what is left of
//     it is empty up to the wall, and its place is a sum of sides.
//
// Trying all three on one gap is therefore complete, whichever gap is taken.
type decider struct {
	ctx           context.Context
	width, length int64
	kinds         []kind
	left          []int
	n             int
	path          []laid
	skies         [][]stretch // by depth
	order         [][]choice  // by depth
	acrossSums    sums        // of what is left, or unused if too many
	alongSums     sums
	places        sums // of all sides across
	reach         bool // all places across are known
	rank          []int
	narrowest     []int64 // side across, by kind
	lowest        []int64 // side along
	work, limit   int64
	stopped       bool
	seen          memo
	fine          bool // few enough sums for an account at every step
}

// choice is a way to lie in a gap, and how good it looks.
type choice struct {
	kind, way, score int
}

func newDecider(ctx context.Context, width, length int64, kinds []kind) *decider {
	d := &decider{ctx: ctx, width: width, length: length, kinds: kinds, left: make([]int, len(kinds)), rank: make([]int, len(kinds))}
	for _, k := range kinds {
		d.n += k.count
	}
	for _, k := range kinds {
		d.narrowest = append(d.narrowest, k.narrowest())
		d.lowest = append(d.lowest, k.lowest())
	}
	d.fine = width <= mostSums && length <= mostSums
	if d.fine {
		d.acrossSums, d.alongSums = newSums(width), newSums(length)
	}
	if d.reach = width <= mostPlaces; d.reach {
		d.places = newSums(width)
		for _, k := range kinds {
			for range k.count {
				d.places.add(k.ways, across)
			}
		}
	}
	// A skyline has at most one stretch more for each piece, and as many depths
	// again are gaps given up.
	d.skies = make([][]stretch, 2*d.n+5)
	for i := range d.skies {
		d.skies[i] = make([]stretch, 0, d.n+2)
	}
	d.order = make([][]choice, 2*d.n+5)
	d.seen = newMemo(2*(d.n+2) + len(kinds) + 1)
	return d
}

// try searches with at most limit steps, kinds of low rank first where they suit a
// gap alike.
func (d *decider) try(rank []int, limit int64) answer {
	copy(d.rank, rank)
	d.limit, d.stopped = d.work+limit, false
	waste := d.width * d.length
	for k := range d.kinds {
		d.left[k] = d.kinds[k].count
		waste -= d.kinds[k].area * int64(d.kinds[k].count)
	}
	if waste < 0 {
		return no
	}
	d.path = d.path[:0]
	d.skies[0] = append(d.skies[0][:0], stretch{0, d.width, 0})
	if d.search(0, d.n, waste) {
		return yes
	}
	if d.stopped {
		return unknown
	}
	return no
}

// search reports whether the n pieces left go above the skyline at a depth with
// at most waste of the area given up. It is false too when the work ran out.
func (d *decider) search(depth, n int, waste int64) bool {
	if n == 0 {
		return true
	}
	d.work++
	if d.work > d.limit || d.work%4096 == 0 && d.ctx.Err() != nil {
		d.stopped = true
	}
	if d.stopped {
		return false
	}
	sky := d.skies[depth]
	if d.seen.has(sky, d.left) {
		return false
	}
	if d.fine && !d.promising(sky, waste, d.shortest()) {
		return false
	}
	gap := d.pick(depth, sky, waste)
	if d.fill(depth, n, gap, waste) {
		return true
	}
	if !d.stopped {
		d.seen.add(sky, d.left)
	}
	return false
}

// shortest is the shortest side along the strip of all pieces left.
func (d *decider) shortest() int64 {
	h := d.length
	for k, c := range d.left {
		if c > 0 {
			h = min(h, d.lowest[k])
		}
	}
	return h
}

// promising compares what must be wasted with what may: above each stretch
// the sides left do not add up to what is free along the strip, and on the floor
// of each gap they do not add up to its width, up to the height of the lowest piece.
func (d *decider) promising(sky []stretch, waste, lowest int64) bool {
	d.acrossSums.reset()
	d.alongSums.reset()
	for k, c := range d.left {
		for range c {
			d.acrossSums.add(d.kinds[k].ways, across)
			d.alongSums.add(d.kinds[k].ways, along)
		}
	}
	var above, beside int64
	for i, s := range sky {
		free := d.length - s.y
		above += s.w * (free - d.alongSums.below(free))
		left, right := walls(sky, i, d.length)
		if left < s.y || right < s.y {
			continue
		}
		most := d.acrossSums.below(s.w)
		depth := min(left, right) - s.y
		if most > 0 {
			depth = min(depth, lowest)
		}
		beside += (s.w - most) * depth
	}
	return above <= waste && beside <= waste
}

// pick returns the gap with the fewest choices and leaves them in
// d.order[depth], the promising ones first.
func (d *decider) pick(depth int, sky []stretch, waste int64) int {
	best, fewest := -1, 1<<30
	for i, s := range sky {
		if left, right := walls(sky, i, d.length+1); left <= s.y || right <= s.y {
			continue
		}
		count := 0
		for k, c := range d.left {
			if c == 0 {
				continue
			}
			for _, w := range d.kinds[k].ways {
				if d.suits(w, s, waste) {
					count++
				}
			}
		}
		if count < fewest {
			best, fewest = i, count
		}
	}
	s := sky[best]
	left, right := walls(sky, best, d.length)
	order := d.order[depth][:0]
	for k, c := range d.left {
		if c == 0 {
			continue
		}
		for v, w := range d.kinds[k].ways {
			if !d.suits(w, s, waste) {
				continue
			}
			score := 0
			if w.w == s.w {
				score += 4
			}
			if s.y+w.h == left {
				score += 2
			}
			if s.y+w.h == right && w.w == s.w {
				score++
			}
			order = append(order, choice{k, v, score<<20 - d.rank[k]})
		}
	}
	slices.SortStableFunc(order, func(a, b choice) int { return b.score - a.score })
	d.order[depth] = order
	return best
}

// suits reports whether a piece goes into a gap; where nothing may be wasted,
// whether sides that are left can make up for what it leaves free.
func (d *decider) suits(w way, s stretch, waste int64) bool {
	beside, above := s.w-w.w, d.length-s.y-w.h
	if beside < 0 || above < 0 {
		return false
	}
	return waste > 0 || !d.fine || d.acrossSums.has(beside) && d.alongSums.has(above)
}

// fill tries everything in a gap.
func (d *decider) fill(depth, n, gap int, waste int64) bool {
	sky := d.skies[depth]
	s := sky[gap]
	left, right := walls(sky, gap, d.length)
	put := func(c choice, x, lost int64) bool {
		w := d.kinds[c.kind].ways[c.way]
		next := d.skies[depth+1]
		if x > s.x {
			// The corner is given up to the height of the left wall.
			part := raise(d.skies[len(d.skies)-1], sky, gap, s.x, x-s.x, left)
			at := slices.IndexFunc(part, func(p stretch) bool { return p.x == x })
			next = raise(next, part, at, x, w.w, s.y+w.h)
		} else {
			next = raise(next, sky, gap, x, w.w, s.y+w.h)
		}
		d.skies[depth+1] = next
		d.left[c.kind]--
		d.path = append(d.path, laid{c.kind, c.way, x, s.y})
		if d.search(depth+1, n-1, waste-lost) {
			return true
		}
		d.path = d.path[:len(d.path)-1]
		d.left[c.kind]++
		return false
	}
	for _, c := range d.order[depth] {
		if put(c, s.x, 0) {
			return true
		}
		if d.stopped {
			return false
		}
	}
	if gap > 0 && left-s.y <= waste {
		for _, c := range d.order[depth] {
			w := d.kinds[c.kind].ways[c.way]
			if s.y+w.h <= left {
				continue
			}
			far := min(s.w-w.w, waste/(left-s.y))
			if far > 0 && !d.reach {
				d.stopped = true // more places than can be known
				return false
			}
			for off := int64(1); off <= far; off++ {
				x := d.places.above(s.x + off)
				if x < 0 || x-s.x > far {
					break
				}
				off = x - s.x
				if put(c, x, off*(left-s.y)) {
					return true
				}
				if d.stopped {
					return false
				}
			}
		}
	}
	if low := min(left, right); len(sky) > 1 && s.w <= waste/(low-s.y) {
		d.skies[depth+1] = raise(d.skies[depth+1], sky, gap, s.x, s.w, low)
		return d.search(depth+1, n, waste-s.w*(low-s.y))
	}
	return false
}

// memo remembers states that came to nothing, as many as there is room for: a
// later one takes the place of an earlier one. States are compared whole.
type memo struct {
	stride, slots, added int
	data                 []int32
	key                  []int32
}

func newMemo(stride int) memo {
	m := memo{stride: stride, key: make([]int32, stride)}
	m.size(64)
	return m
}

func (m *memo) size(slots int) {
	m.slots, m.added, m.data = slots, 0, make([]int32, slots*m.stride)
}

// slot writes the state into m.key and returns where it belongs.
func (m *memo) slot(sky []stretch, left []int) []int32 {
	i := 1
	hash := uint64(14695981039346656037)
	put := func(v int32) {
		m.key[i] = v
		hash = (hash ^ uint64(uint32(v))) * 1099511628211
		hash ^= hash >> 29
		i++
	}
	for _, c := range left {
		put(int32(c))
	}
	for _, s := range sky {
		put(int32(s.x))
		put(int32(s.y))
	}
	m.key[0] = int32(i)
	at := int(hash>>20&uint64(m.slots-1)) * m.stride
	return m.data[at : at+m.stride]
}

func (m *memo) has(sky []stretch, left []int) bool {
	s := m.slot(sky, left)
	return s[0] == m.key[0] && slices.Equal(s[:s[0]], m.key[:s[0]])
}

func (m *memo) add(sky []stretch, left []int) {
	if m.added++; m.added > m.slots && 2*m.slots*m.stride <= memory {
		m.size(2 * m.slots) // what is forgotten can be found again
	}
	s := m.slot(sky, left)
	copy(s, m.key[:m.key[0]])
}
