package strip

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"time"
)

// Options of [Solve].
type Options struct {
	// Seed picks the random numbers.
	Seed uint64
	// Work is the number of places to try, by all workers together. The start
	// and a last sweep are finished even if that takes more, unless ctx is done.
	Work int64
	// Workers search side by side, each with a start and random numbers of its
	// own; for the last quarter of the budget all go on from the shortest layout.
	// The result depends on their number, not on that of the processors. Less
	// than 1 counts as 1. Where more would take over a gigabyte there are fewer:
	// some 50 for 1,000 pieces, two for 5,000.
	Workers int
	// Target, if positive, is a length that is short enough: the search stops
	// there.
	Target int64
	// Start, if set, is a layout to go on from.
	Start *Layout
	// Circles, if set, keeps what is inscribed in outlines from one call of Solve
	// to the next, which finds it again; calls must follow one another.
	Circles *Circles
	// Spent, if set, returns the part of the budget used so far, 0 to 1, in
	// place of the part of Work: by a clock, for instance, at the price of
	// results that differ from run to run. The goroutine that calls Solve asks it
	// every few milliseconds, and when it is 1 all stops as when ctx is done.
	Spent func() float64
	// Progress, if set, is called with every shorter layout found.
	Progress func(length, work int64)
}

// Result is the layout found and the work it took.
type Result struct {
	Layout Layout
	Work   int64
}

// Solve lays the pieces of p on as short a strip as it finds. It returns an
// error if p cannot be laid, see [Problem.Check], or if the layout to start from
// is refused (ErrLayout). When ctx is done it returns the best layout so far,
// which is always complete and certified but for the end of the strip: if it
// found none that is as short as that, the error is ErrEnd beside the layout. A
// start that is cut short piles up in columns what it has not laid yet.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	s := newSolver(ctx, p, o)
	defer s.stop()
	if err := s.start(); err != nil {
		return Result{}, err
	}
	s.run()
	found := Result{Layout: s.layout(), Work: s.work()}
	if p.End > 0 && found.Layout.Length > p.End {
		return found, fmt.Errorf("strip: length %d, end at %d: %w", found.Layout.Length, p.End, ErrEnd)
	}
	return found, nil
}

const (
	round       = 100000               // places each worker tries before all compare
	mostBytes   = 1e9                  // that all workers may take, or one
	lookAtClock = 5 * time.Millisecond // from one look at the budget spent to the next
)

// solver leads the workers.
type solver struct {
	ctx     context.Context
	stop    context.CancelFunc
	problem Problem
	options Options
	crew    []*worker
	told    float64 // length last given to Progress
}

func newSolver(ctx context.Context, p Problem, o Options) *solver {
	s := &solver{problem: p, options: o, told: math.Inf(1)}
	s.ctx, s.stop = context.WithCancel(ctx)
	s.problem.End = 0 // until a layout is as short, it may still be out of reach
	p = p.withFlawsNear(o.Start)
	var g *forms
	var first []int
	s.within(func() { g, first = newForms(s.ctx, p, o.Circles) })
	if o.Spent == nil {
		g.prepare(o.Work)
	} else {
		g.prepare(math.MaxInt64)
	}
	var shape []int
	for k, sh := range p.Shapes {
		for range sh.Count {
			shape = append(shape, k)
		}
	}
	pieces, extent, wide, high := len(shape), 0.0, 0.0, 0.0
	for _, k := range shape {
		f := g.all[first[k]]
		extent += max(f.w, f.h)
		wide += f.w
		high += f.h
	}
	wide /= float64(pieces)
	high /= float64(pieces)
	reach := 0.0
	for k := range p.Flaws {
		shape = append(shape, len(p.Shapes)+k)
		f := g.all[first[len(p.Shapes)+k]]
		reach = max(reach, float64(f.minX)+f.w)
	}
	n := len(shape)
	shortest := g.shortest(first, len(p.Shapes))
	b := newBins(n, wide, high, extent+reach, float64(p.Width))
	for k := range crewOf(o.Workers, n, len(b.ids)) {
		if k > 0 {
			b = newBins(n, wide, high, extent+reach, float64(p.Width))
		}
		s.crew = append(s.crew, &worker{
			problem: &s.problem,
			searcher: &searcher{
				forms: g, first: first, shape: shape, pieces: pieces, reach: reach, width: float64(p.Width),
				state: newState(n), bins: b,
				weight: slices.Repeat([]float64{1}, n*n), losses: make([]float64, n*n), listed: make([]bool, n*n), overlaps: make([]bool, n), near: make([]int32, g.most), order: make([]int32, 0, n),
				random: rand.NewPCG(o.Seed, uint64(k)),
			},
			shortest: shortest, end: float64(p.End),
			best: newState(n), bestAt: math.Inf(1), base: newState(n), low: newState(n),
		})
	}
	return s
}

// crewOf is the number of workers of those asked for that there is memory for, or
// one. Nearly all of it goes into pairs and bins.
func crewOf(workers, pieces, bins int) int {
	bytes := 17*float64(pieces)*float64(pieces) + binBytes*float64(bins)
	return max(1, min(workers, int(mostBytes/bytes)))
}

// within does what takes long, and stops it when the budget is spent by a clock.
func (s *solver) within(do func()) {
	if s.options.Spent == nil {
		do()
		return
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		do()
	}()
	tick := time.NewTicker(lookAtClock)
	defer tick.Stop()
	for {
		select {
		case <-done:
			return
		case <-tick.C:
			if s.spent() >= 1 {
				s.stop()
				<-done
				return
			}
		}
	}
}

// work returns the places tried by all workers.
func (s *solver) work() int64 {
	sum := int64(0)
	for _, w := range s.crew {
		sum += w.work
	}
	return sum
}

// spent returns the part of the budget used.
func (s *solver) spent() float64 {
	switch {
	case s.ctx.Err() != nil:
		return 1
	case s.options.Spent != nil:
		return s.options.Spent()
	}
	return float64(s.work()) / float64(max(1, s.options.Work))
}

// start makes the first layouts.
func (s *solver) start() error {
	var err error
	s.within(func() {
		if l := s.options.Start; l != nil {
			err = s.resume(*l)
			return
		}
		for _, w := range s.crew {
			w.place()
		}
	})
	if err != nil {
		return err
	}
	step := min(max(s.spent(), smallestStep), largestStep)
	s.within(func() {
		for _, w := range s.crew {
			w.start(step)
		}
	})
	s.tell()
	return nil
}

// resume lets all workers take over a layout.
func (s *solver) resume(l Layout) error {
	if err := Certify(s.problem, l); err != nil {
		return err
	}
	for _, w := range s.crew {
		if err := w.resume(l); err != nil {
			return err
		}
	}
	return nil
}

// lead returns the worker with the shortest layout, of several the first.
func (s *solver) lead() *worker {
	lead := s.crew[0]
	for _, w := range s.crew {
		if w.bestAt < lead.bestAt {
			lead = w
		}
	}
	return lead
}

// enough reports whether the shortest layout is as short as is wanted, or can be.
func (s *solver) enough() bool {
	l := s.lead()
	return l.bestAt <= max(float64(s.options.Target), l.shortest)
}

// tell reports a shorter layout.
func (s *solver) tell() {
	if l := s.lead().bestAt; l < s.told && s.options.Progress != nil {
		s.told = l
		s.options.Progress(int64(l), s.work())
	}
}

// run lets the workers search until the budget is spent.
func (s *solver) run() {
	places := int64(round)
	if s.options.Spent == nil {
		places = max(1, min(places, s.options.Work/int64(64*len(s.crew))))
	}
	for spent := s.spent(); spent < 1 && !s.enough(); spent = s.spent() {
		s.within(func() {
			var wait sync.WaitGroup
			for _, w := range s.crew {
				wait.Go(func() { w.run(spent, places) })
			}
			wait.Wait()
			lead := s.lead()
			for _, w := range s.crew {
				if w.cutting && w.bestAt > lead.bestAt && !w.done() {
					w.takeOver(lead)
				}
			}
		})
		s.tell()
	}
}

func (s *solver) layout() Layout {
	w := s.lead()
	return w.layoutOf(&w.best, w.bestAt)
}

// shortest is the length below which no layout can be: that of the widest piece
// in its narrowest form.
func (g *forms) shortest(first []int, shapes int) float64 {
	most := 0.0
	for k := range shapes {
		least := math.Inf(1)
		for f := first[k]; f < first[k+1]; f++ {
			least = min(least, g.all[f].ends())
		}
		most = max(most, least)
	}
	return most
}
