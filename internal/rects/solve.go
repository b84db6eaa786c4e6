package rects

import (
	"cmp"
	"context"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// Options of [Solve].
type Options struct {
	Seed uint64 // picks the random numbers
	Work int64  // steps: pieces laid, by best fit or in the search; a start is made in any case
}

// Layout is a strip of the given length with all pieces laid on it, one Place for
// each, and a length below which no layout can be.
type Layout struct {
	Length, Bound int64
	Places        []Place
	Work          int64 // steps taken
}

// Optimal reports whether no layout can be shorter.
func (l Layout) Optimal() bool { return l.Length == l.Bound }

const (
	shortRun = 4000 // steps of the search
	mostLaid = 400  // orders tried in a round
	every    = 4    // runs at the bound to one just below the best
)

// Solve lays the pieces of p on as short a strip as it finds with the work
// allowed. It returns an [Error] if p is refused, see [Problem.Check]. When ctx
// is done it returns the best layout so far, which is always complete.
func Solve(ctx context.Context, p Problem, o Options) (Layout, error) {
	if err := p.Check(); err != nil {
		return Layout{}, err
	}
	t := reduce(p)
	s := &solver{
		ctx: ctx, options: o, task: t, fitter: newFitter(t.width, t.rest),
		random: rand.New(rand.NewPCG(o.Seed, uint64(len(t.rest)))),
	}
	if len(t.rest) > 0 {
		s.start()
		s.rounds()
	}
	l := t.layout(s.best)
	l.Bound = (t.base + s.bound) * t.unit.h
	l.Work = s.work
	return l, nil
}

// solver closes in on the least length from both sides.
type solver struct {
	ctx     context.Context
	options Options
	task    *task
	fitter  *fitter
	random  *rand.Rand
	lengths sums // that are possible at all, if there are few enough
	known   bool
	best    []laid
	length  int64 // of best
	bound   int64
	ranks   [][]int // good orders of the kinds
	search  [2]*decider
	work    int64
}

// start lays in a few orders by size, and finds the bound.
func (s *solver) start() {
	kinds := s.task.rest
	s.length = 1 << 40
	for _, size := range []func(k kind) int64{
		func(k kind) int64 { return k.area },
		func(k kind) int64 { return k.ways[0].w },
		func(k kind) int64 { return k.ways[0].h },
		func(k kind) int64 { return k.ways[0].w + k.ways[0].h },
	} {
		order := make([]int, len(kinds))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size(kinds[b]), size(kinds[a])) })
		rank := make([]int, len(kinds))
		for r, k := range order {
			rank[k] = r
		}
		s.ranks = append(s.ranks, rank)
		for _, weight := range []int{0, len(kinds)} {
			s.lay(rank, weight)
		}
	}
	if s.known = s.length <= mostPlaces; s.known {
		s.lengths = newSums(s.length)
		for _, k := range kinds {
			for range k.count {
				s.lengths.add(k.ways, along)
			}
		}
	}
	// A length that is refuted refutes all that are less.
	low, high := leastLength(s.task.width, kinds), s.length
	for low < high {
		if mid := low + (high-low)/2; refuted(s.task.width, mid, kinds) {
			low = mid + 1
		} else {
			high = mid
		}
	}
	s.bound = s.possible(low)
}

// possible is the least length from v that sides can add up to.
func (s *solver) possible(v int64) int64 {
	if !s.known || v >= s.length {
		return min(v, s.length)
	}
	if v = s.lengths.above(v); v < 0 {
		return s.length
	}
	return min(v, s.length)
}

// shorter is the greatest length below the best that sides can add up to.
func (s *solver) shorter() int64 {
	if s.known {
		return s.lengths.below(s.length - 1)
	}
	return s.length - 1
}

// lay lays by best fit and returns the length.
func (s *solver) lay(rank []int, weight int) int64 {
	before := s.fitter.work
	length := s.fitter.lay(rank, weight)
	s.work += s.fitter.work - before
	if length < s.length {
		s.take(s.fitter.out, length)
	}
	return length
}

func (s *solver) take(out []laid, length int64) {
	s.best, s.length = append(s.best[:0], out...), length
}

func (s *solver) done() bool {
	return s.bound >= s.length || s.work >= s.options.Work || s.ctx.Err() != nil
}

// rounds takes turns between the two sides. A search that set out badly seldom
// comes right, so there are many short runs in different orders and a few long
// ones: of 1, 1, 2, 1, 1, 2, 4, 1, ... short runs (Luby, Sinclair and Zuckerman,
// Information Processing Letters 47 (1993) 173).
func (s *solver) rounds() {
	pieces := 0
	for _, k := range s.task.rest {
		pieces += k.count
	}
	for round := 0; !s.done(); round++ {
		steps := shortRun * luby(round/2+1)
		if round%every == 0 || pieces > mostDecided {
			s.swap(steps)
		}
		if pieces > mostDecided {
			continue
		}
		for !s.done() && s.decide(s.bound, round, steps) == no {
			continue
		}
		if round%every == every-1 && !s.done() && s.shorter() > s.bound {
			s.decide(s.shorter(), round/every, steps)
		}
	}
}

// luby is the i-th of the numbers 1, 1, 2, 1, 1, 2, 4, ..., i from 1.
func luby(i int) int64 {
	for {
		n := bits.Len(uint(i))
		if i == 1<<n-1 {
			return 1 << (n - 1)
		}
		i -= 1<<(n-1) - 1
	}
}

// swap lays in orders that differ by an exchange from the one before, and
// keeps those that are not worse.
func (s *solver) swap(steps int64) {
	n := len(s.task.rest)
	stop := s.work + min(steps, s.options.Work-s.work)
	rank := slices.Clone(s.ranks[s.random.IntN(len(s.ranks))])
	weight := n * s.random.IntN(2)
	last := s.lay(rank, weight)
	for count := 0; count < mostLaid && s.work < stop && !s.done() && n > 1; count++ {
		i, j := s.random.IntN(n), s.random.IntN(n)
		rank[i], rank[j] = rank[j], rank[i]
		if length := s.lay(rank, weight); length <= last {
			last = length
			continue
		}
		rank[i], rank[j] = rank[j], rank[i]
	}
}

// decide searches once for a layout of a length, in every second round with the
// sides of the strip exchanged, and draws the conclusion.
func (s *solver) decide(length int64, round int, steps int64) answer {
	side := round % 2
	d := s.search[side]
	w, h := s.task.width, length
	if side == 1 {
		w, h = h, w
	}
	if d == nil || d.width != w || d.length != h {
		kinds := s.task.rest
		if side == 1 {
			kinds = exchanged(kinds)
		}
		d = newDecider(s.ctx, w, h, kinds)
		s.search[side] = d
	}
	rank := s.ranking(round)
	before := d.work
	got := d.try(rank, min(steps, s.options.Work-s.work))
	s.work += d.work - before
	switch got {
	case yes:
		out := slices.Clone(d.path)
		if side == 1 {
			for i := range out {
				out[i].x, out[i].y = out[i].y, out[i].x
			}
		}
		s.take(out, s.reach(out))
	case no:
		s.bound = s.possible(length + 1)
	}
	return got
}

// ranking puts large kinds first, but for the first rounds only about.
func (s *solver) ranking(round int) []int {
	kinds := s.task.rest
	size := make([]int64, len(kinds))
	order := make([]int, len(kinds))
	spread := int64(25 * (1 + round/2%2)) // per cent
	for i, k := range kinds {
		order[i], size[i] = i, 100*k.area
		if round >= 2 {
			size[i] = k.area * (100 - spread + s.random.Int64N(2*spread+1))
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size[b], size[a]) })
	rank := make([]int, len(kinds))
	for r, k := range order {
		rank[k] = r
	}
	return rank
}

// reach is the length of a layout.
func (s *solver) reach(out []laid) int64 {
	var length int64
	for _, a := range out {
		length = max(length, a.y+s.task.rest[a.kind].ways[a.way].h)
	}
	return length
}

// exchanged has sides along and across exchanged.
func exchanged(kinds []kind) []kind {
	out := slices.Clone(kinds)
	for i, k := range kinds {
		out[i].ways = nil
		for _, w := range k.ways {
			out[i].ways = append(out[i].ways, way{w.h, w.w})
		}
	}
	return out
}
