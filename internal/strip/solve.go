package strip

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
)

// Options of [Solve].
type Options struct {
	// Seed picks the random numbers.
	Seed uint64
	// Work is the number of places to try. The start and a last sweep are
	// finished even if that takes more.
	Work int64
	// Workers search side by side, each with its own random numbers, and agree
	// after every sweep; the layout depends on their number, not on that of the
	// processors. Less than 1 counts as 1.
	Workers int
	// Target, if positive, is a length that is short enough: the search stops
	// there.
	Target int64
	// Start, if set, is a layout to go on from.
	Start *Layout
	// Spent, if set, returns the part of the budget used so far, 0 to 1, in
	// place of the part of Work: by a clock, for instance, at the price of
	// results that differ from run to run.
	Spent func() float64
	// Progress, if set, is called with every shorter layout found.
	Progress func(length, work int64)
}

// Result is the layout found and the work it took.
type Result struct {
	Layout Layout
	Work   int64
}

// Numbers of the plan.
const (
	exploring    = 0.75   // part of the budget for the first phase
	largestStep  = 0.02   // of the length, by which the strip is shortened
	smallestStep = 0.001  // in the first phase
	firstSqueeze = 0.0005 // and in the second, at its begin
	lastSqueeze  = 0.00002
	progress     = 0.98 // a loss below this part of the least so far starts the count of sweeps again
	poolSize     = 8
)

// Solve lays the pieces of p on as short a strip as it finds. It returns an
// error if p cannot be laid, see [Problem.Check], or if the layout to start from
// is refused (ErrLayout). When ctx is done it returns the best layout so far,
// which is always complete and certified but for the end of the strip: if it
// found none that is as short as that, the error is ErrEnd beside the layout.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	s := newSolver(ctx, p, o)
	if err := s.start(); err != nil {
		return Result{}, err
	}
	s.explore()
	s.squeeze()
	found := Result{Layout: s.layout(), Work: s.work()}
	if p.End > 0 && found.Layout.Length > p.End {
		return found, fmt.Errorf("strip: length %d, end at %d: %w", found.Layout.Length, p.End, ErrEnd)
	}
	return found, nil
}

// solver runs the plan.
type solver struct {
	ctx     context.Context
	problem Problem
	options Options
	*searcher
	helpers []*searcher // the other workers
	best    state       // free of overlap
	bestAt  float64     // its length
	low     state       // scratch of separate
	pool    []overlapping
}

// overlapping is a state that could not be freed of overlap, and its loss.
type overlapping struct {
	state
	loss float64
}

func newSolver(ctx context.Context, p Problem, o Options) *solver {
	g, first := newForms(p)
	var shape []int
	for k, sh := range p.Shapes {
		for range sh.Count {
			shape = append(shape, k)
		}
	}
	pieces, extent, wide := len(shape), 0.0, 0.0
	for _, k := range shape {
		f := g.all[first[k]]
		extent += max(f.w, f.h)
		wide += f.w
	}
	wide /= float64(pieces)
	reach := 0.0
	for k := range p.Flaws {
		shape = append(shape, len(p.Shapes)+k)
		f := g.all[first[len(p.Shapes)+k]]
		reach = max(reach, float64(f.minX)+f.w)
	}
	n := len(shape)
	worker := func(seed uint64) *searcher {
		return &searcher{
			forms: g, first: first, shape: shape, pieces: pieces, reach: reach, width: float64(p.Width),
			state: newState(n), slabs: newSlabs(n, wide, extent+reach),
			weight: make([]float64, n*n), losses: make([]float64, n*n), near: make([]int32, g.most),
			random: rand.NewPCG(o.Seed, seed),
		}
	}
	s := &solver{ctx: ctx, problem: p, options: o, searcher: worker(0), best: newState(n), low: newState(n)}
	for k := 1; k < o.Workers; k++ {
		s.helpers = append(s.helpers, worker(uint64(k)))
	}
	return s
}

// work returns the places tried by all workers.
func (s *solver) work() int64 {
	sum := s.searcher.work
	for _, w := range s.helpers {
		sum += w.work
	}
	return sum
}

// spent returns the part of the budget used.
func (s *solver) spent() float64 {
	if s.ctx.Err() != nil {
		return 1
	}
	if s.bestAt <= float64(s.options.Target) {
		return 1
	}
	if s.options.Spent != nil {
		return s.options.Spent()
	}
	return float64(s.work()) / float64(max(1, s.options.Work))
}

// start makes the first layout.
func (s *solver) start() error {
	s.place()
	if s.options.Start != nil {
		if err := s.resume(*s.options.Start); err != nil {
			return err
		}
	}
	s.bestAt = s.length
	s.best.copy(&s.state)
	s.record()
	return nil
}

// record tells of a new best layout.
func (s *solver) record() {
	if s.options.Progress != nil {
		s.options.Progress(int64(s.bestAt), s.work())
	}
}

// accept keeps the present state if it is certified free of overlap.
func (s *solver) accept() bool {
	// What the pieces take may be less than the length asked for.
	end := 0.0
	for i := range s.pieces {
		end = max(end, s.x[i]+s.all[s.form[i]].w)
	}
	open := s.problem // the end may still be out of reach
	open.End = 0
	if end >= s.bestAt || Certify(open, s.layoutOf(&s.state, end)) != nil {
		return false
	}
	s.bestAt = end
	s.best.copy(&s.state)
	s.record()
	return true
}

func (s *solver) layout() Layout { return s.layoutOf(&s.best, s.bestAt) }

func (s *solver) layoutOf(at *state, length float64) Layout {
	l := Layout{Length: int64(length), Places: make([]Place, s.pieces)}
	for i := range s.pieces {
		f := &s.all[at.form[i]]
		l.Places[i] = Place{Shape: f.shape, Turn: f.turn, X: int64(at.x[i]) - f.minX, Y: int64(at.y[i]) - f.minY}
	}
	return l
}

// shortest is the length below which no layout can be: that of the widest piece
// in its narrowest form.
func (s *solver) shortest() float64 {
	most := 0.0
	for _, k := range s.shape[:s.pieces] {
		least := math.Inf(1)
		for f := s.first[k]; f < s.first[k+1]; f++ {
			least = min(least, s.all[f].ends())
		}
		most = max(most, least)
	}
	return most
}

// shorten sets the strip to a length and moves what is left outside back to the
// end.
func (s *solver) shorten(length float64) {
	s.length = max(math.Floor(length), s.shortest())
	for i := range s.pieces {
		for f := s.first[s.shape[i]]; s.all[s.form[i]].ends() > s.length; f++ {
			s.form[i] = int32(f)
		}
		s.settle(i)
	}
	s.fill()
	s.measure()
}

// explore shortens the strip from the best layout for as long as the pieces can
// be set free, and when they cannot, tries again by a smaller step and, at the
// smallest, from a disturbed state.
func (s *solver) explore() {
	step := largestStep
	s.shorten(s.bestAt * (1 - step))
	if end := float64(s.problem.End); end > 0 && s.bestAt > end {
		s.shorten(end) // all at once, before step by step
	}
	for s.spent() < exploring && s.bestAt > s.shortest() {
		sweeps, runs := 25, 1
		if step == smallestStep {
			sweeps, runs = 40, 1
		}
		if s.separate(exploring, sweeps, runs) && s.accept() {
			s.pool = s.pool[:0]
			step = min(1.25*step, largestStep)
			s.shorten(s.bestAt * (1 - step))
			continue
		}
		if step > smallestStep {
			step = max(step/2, smallestStep)
			s.copy(&s.best)
			s.shorten(s.bestAt * (1 - step))
			s.pool = s.pool[:0]
			continue
		}
		s.remember()
		s.recall()
		s.disturb()
	}
}

// remember enters the present state in the pool, by loss.
func (s *solver) remember() {
	l := s.total()
	k := 0
	for k < len(s.pool) && s.pool[k].loss <= l {
		k++
	}
	if k == poolSize {
		return
	}
	var o overlapping
	if len(s.pool) == poolSize {
		o, s.pool = s.pool[poolSize-1], s.pool[:poolSize-1]
	} else {
		o.state = newState(len(s.x))
	}
	o.copy(&s.state)
	o.loss = l
	s.pool = slices.Insert(s.pool, k, o)
}

// recall takes a state from the pool, most likely one of low loss.
func (s *solver) recall() {
	if len(s.pool) == 0 {
		return
	}
	k := min(s.uniform(len(s.pool)), s.uniform(len(s.pool)))
	s.copy(&s.pool[k].state)
}

// disturb swaps two large pieces of different shapes.
func (s *solver) disturb() {
	n := s.pieces
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch a, b := s.all[s.form[i]].hull, s.all[s.form[j]].hull; {
		case a > b:
			return -1
		case a < b:
			return 1
		}
		return 0
	})
	large := order[:max(2, n/2)]
	if n < 2 {
		large = order
	}
	i := large[s.uniform(len(large))]
	j := large[s.uniform(len(large))]
	for range n {
		if s.shape[i] != s.shape[j] {
			break
		}
		j = large[s.uniform(len(large))]
	}
	a, b := &s.all[s.form[i]], &s.all[s.form[j]]
	xi, yi := math.Round(s.x[j]+float64((b.w-a.w)/2)), math.Round(s.y[j]+float64((b.h-a.h)/2))
	xj, yj := math.Round(s.x[i]+float64((a.w-b.w)/2)), math.Round(s.y[i]+float64((a.h-b.h)/2))
	s.x[i], s.y[i], s.x[j], s.y[j] = xi, yi, xj, yj
	s.settle(i)
	s.settle(j)
	s.fill()
	s.measure()
}

// squeeze cuts thin slices out of the best layout, wherever, and sets the pieces
// free again.
func (s *solver) squeeze() {
	for s.bestAt > s.shortest() {
		spent := s.spent()
		if spent >= 1 {
			return
		}
		part := max(0, spent-exploring) / (1 - exploring)
		cut := max(1, math.Floor(s.bestAt*(firstSqueeze+float64(part*(lastSqueeze-firstSqueeze)))))
		s.copy(&s.best)
		at := s.between(0, s.bestAt)
		for i := range s.pieces {
			if s.x[i]+float64(s.all[s.form[i]].w/2) > at {
				s.x[i] = max(0, s.x[i]-cut)
			}
		}
		s.shorten(s.bestAt - cut)
		if s.separate(1, 30, 1) {
			s.accept()
		}
	}
}

// separate moves pieces until none overlap. It gives up when the budget is spent
// up to limit, or after a number of runs of sweeps that each fail to lower the
// loss, and then leaves the state of the least loss.
func (s *solver) separate(limit float64, sweeps, runs int) bool {
	s.even()
	least := s.total()
	s.low.copy(&s.state)
	for failed := 0; failed < runs && least > 0; {
		before := least
		for idle := 0; idle < sweeps; idle++ {
			if s.spent() >= limit {
				break
			}
			s.sweepAll()
			l := s.total()
			s.reweigh()
			if l < least {
				if l < progress*least {
					idle = -1
				}
				least = l
				s.low.copy(&s.state)
			}
			if least == 0 {
				return true
			}
		}
		s.copy(&s.low)
		s.fill()
		s.measure()
		if s.spent() >= limit {
			break
		}
		if least < progress*before {
			failed = 0
		} else {
			failed++
		}
	}
	return least == 0
}

// sweepAll lets every worker sweep from the present state and keeps the outcome
// of the least weighted loss.
func (s *solver) sweepAll() {
	var wait sync.WaitGroup
	for _, w := range s.helpers {
		w.load(s.searcher)
		wait.Go(w.sweep)
	}
	// The helpers have what they need of the state: this one may change.
	s.sweep()
	wait.Wait()
	best := s.searcher
	for _, w := range s.helpers {
		if w.weighted(-1) < best.weighted(-1) {
			best = w
		}
	}
	if best != s.searcher {
		s.load(best)
	}
}
