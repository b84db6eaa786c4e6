package strip

import (
	"math"
	"slices"
)

// Numbers of the plan.
const (
	exploring    = 0.75   // part of the budget for the first phase
	largestStep  = 0.02   // of the length, by which the strip is shortened
	smallestStep = 0.001  // in the first phase
	firstCut     = 0.0005 // of the length, cut out of the strip in the second, at its begin
	lastCut      = 0.00002
	progress     = 0.98 // a loss below this part of the least so far starts the count of sweeps again
	poolSize     = 8
)

// effort is what an attempt is given up after.
type effort struct {
	patience int // sweeps without progress, until it is taken up again
	takes    int // without progress, one after another
}

var (
	effortLarge = effort{15, 1} // a step that can be smaller
	effortSmall = effort{50, 3}
	effortCut   = effort{15, 3}
)

// worker follows the plan: it shortens the strip and sets the pieces free of
// overlap, an attempt at a time.
type worker struct {
	*searcher
	problem  *Problem
	shortest float64 // the strip can be
	end      float64 // of the strip, or 0
	best     state   // the shortest of all starts, free of overlap
	bestAt   float64 // its length
	cutting  bool    // in the second phase
	spent    float64 // part of the budget

	// The present start.
	base   state   // its shortest
	baseAt float64 // the length of that
	since  float64 // part of the budget spent before
	found  float64 // layouts, each shorter than the last
	step   float64 // by which the strip is shortened
	failed int     // attempts at the smallest step since the last layout found
	pool   []overlapping

	// The attempt under way.
	effort
	low   state   // the state of the least loss
	least float64 // that loss
	idle  int     // sweeps without much progress
	taken int     // takes without much progress
	mark  float64 // the least loss at the begin of the take
}

// overlapping is a state that could not be freed of overlap, and its loss.
type overlapping struct {
	state
	loss float64
}

// start begins anew with the present state, which is free of overlap.
func (w *worker) start(step float64) {
	w.since, w.found, w.failed, w.step = w.spent, 0, 0, step
	w.keep(w.length)
	if w.done() {
		return
	}
	w.shortenOrCut()
	if w.end > 0 && w.baseAt > w.end {
		w.shorten(w.end) // all at once, before step by step
		w.begin(effortLarge)
	}
}

// keep makes the present state, of a length, the shortest of its start.
func (w *worker) keep(length float64) {
	w.base.copy(&w.state)
	w.baseAt = length
	if length < w.bestAt {
		w.best.copy(&w.state)
		w.bestAt = length
	}
}

// takeOver makes the best layout of another worker the own. An attempt at a
// length that is no longer shorter ends.
func (w *worker) takeOver(from *worker) {
	w.best.copy(&from.best)
	w.bestAt = from.bestAt
	w.goOn()
	if w.length >= w.baseAt {
		w.shortenOrCut()
	}
}

// goOn makes the best layout of all starts the one to be shortened.
func (w *worker) goOn() {
	w.base.copy(&w.best)
	w.baseAt = w.bestAt
}

// run sweeps until a number of places are tried or ctx is done, after the given
// part of the budget is spent.
func (w *worker) run(spent float64, places int64) {
	w.spent = spent
	if spent >= exploring && !w.cutting {
		w.cutting = true
		w.goOn()
		w.shortenOrCut()
	}
	for until := w.work + places; w.work < until && w.bestAt > w.shortest && !w.done(); {
		w.sweep()
		l := w.total()
		w.reweigh()
		w.idle++
		if l < w.least {
			if l < progress*w.least {
				w.idle = 0
			}
			w.least = l
			w.low.copy(&w.state)
		}
		if w.least == 0 || w.idle >= w.patience && !w.again() {
			w.next()
		}
	}
}

// begin starts an attempt at the length set.
func (w *worker) begin(e effort) {
	w.even()
	w.least = w.total()
	w.low.copy(&w.state)
	w.effort, w.idle, w.taken, w.mark = e, 0, 0, w.least
}

// again returns to the state of the least loss, with the weights that the pairs
// have by now, and reports whether the attempt is worth another take.
func (w *worker) again() bool {
	if w.least < progress*w.mark {
		w.taken = 0
	}
	w.taken++
	if w.taken >= w.takes {
		return false
	}
	w.idle, w.mark = 0, w.least
	w.copy(&w.low)
	w.fill()
	w.measure()
	return true
}

// next follows an attempt that has succeeded or failed. The strip is shortened
// for as long as the pieces can be set free, slowly if the budget allows it: a
// strip that is shortened fast jams sooner. When they cannot, it is tried again
// by a smaller step and, at the smallest, from a disturbed state, as often as
// there are pairs of pieces to swap. Then all are laid anew.
func (w *worker) next() {
	w.copy(&w.low)
	accepted := w.least == 0 && w.accept()
	if w.least == 0 && !accepted {
		w.work++ // such attempts try no places: they must come to an end too
	}
	switch {
	case accepted:
		// A hundredth of the budget for a hundredth of the length.
		w.found++
		w.failed = 0
		w.step = max(smallestStep, min(1.25*w.step, (w.spent-w.since)/w.found, largestStep))
		w.shortenOrCut()
	case w.cutting:
		w.shortenOrCut()
	case w.step > smallestStep:
		w.step = max(w.step/2, smallestStep)
		w.shortenOrCut()
	case w.failed >= w.pieces*(w.pieces-1)/2:
		w.place()
		w.start(smallestStep)
	default:
		w.failed++
		w.fill()
		w.measure()
		w.remember()
		w.recall()
		w.disturb()
		w.begin(effortSmall)
	}
}

// shortenOrCut begins an attempt from the base: at its end, or in the
// second phase by cutting a thin slice out of it, wherever.
func (w *worker) shortenOrCut() {
	w.pool = w.pool[:0]
	w.copy(&w.base)
	if !w.cutting {
		w.shorten(w.baseAt * (1 - w.step))
		if w.step > smallestStep {
			w.begin(effortLarge)
		} else {
			w.begin(effortSmall)
		}
		return
	}
	part := max(0, w.spent-exploring) / (1 - exploring)
	cut := max(1, math.Floor(w.baseAt*(firstCut+float64(part*(lastCut-firstCut)))))
	at := w.between(0, w.baseAt)
	for i := range w.pieces {
		if w.x[i]+float64(w.all[w.form[i]].w/2) > at {
			w.x[i] = max(0, w.x[i]-cut)
		}
	}
	w.shorten(w.baseAt - cut)
	w.begin(effortCut)
}

// accept keeps the present state if it is certified free of overlap.
func (w *worker) accept() bool {
	end := w.used()
	if end >= w.baseAt || Certify(*w.problem, w.layoutOf(&w.state, end)) != nil {
		return false
	}
	w.keep(end)
	return true
}

func (w *worker) layoutOf(at *state, length float64) Layout {
	l := Layout{Length: int64(length), Places: make([]Place, w.pieces)}
	for i := range w.pieces {
		f := &w.all[at.form[i]]
		l.Places[i] = Place{Shape: f.shape, Turn: f.turn, X: int64(at.x[i]) - f.minX, Y: int64(at.y[i]) - f.minY}
	}
	return l
}

// shorten sets the strip to a length and moves what is left outside back to the
// end.
func (w *worker) shorten(length float64) {
	w.length = max(math.Floor(length), w.shortest)
	for i := range w.pieces {
		for f := w.first[w.shape[i]]; w.all[w.form[i]].ends() > w.length; f++ {
			w.form[i] = int32(f)
		}
		w.settle(i)
	}
	w.fill()
	w.measure()
}

// remember enters the present state in the pool, by loss.
func (w *worker) remember() {
	l := w.total()
	k := 0
	for k < len(w.pool) && w.pool[k].loss <= l {
		k++
	}
	if k == poolSize {
		return
	}
	var o overlapping
	if len(w.pool) == poolSize {
		o, w.pool = w.pool[poolSize-1], w.pool[:poolSize-1]
	} else {
		o.state = newState(len(w.x))
	}
	o.copy(&w.state)
	o.loss = l
	w.pool = slices.Insert(w.pool, k, o)
}

// recall takes a state from the pool, most likely one of low loss.
func (w *worker) recall() {
	if len(w.pool) == 0 {
		return
	}
	k := min(w.uniform(len(w.pool)), w.uniform(len(w.pool)))
	w.copy(&w.pool[k].state)
}

// disturb swaps two large pieces of different shapes.
func (w *worker) disturb() {
	n := w.pieces
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch a, b := w.all[w.form[i]].hull, w.all[w.form[j]].hull; {
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
	i := large[w.uniform(len(large))]
	j := large[w.uniform(len(large))]
	for range n {
		if w.shape[i] != w.shape[j] {
			break
		}
		j = large[w.uniform(len(large))]
	}
	a, b := &w.all[w.form[i]], &w.all[w.form[j]]
	xi, yi := math.Round(w.x[j]+float64((b.w-a.w)/2)), math.Round(w.y[j]+float64((b.h-a.h)/2))
	xj, yj := math.Round(w.x[i]+float64((a.w-b.w)/2)), math.Round(w.y[i]+float64((a.h-b.h)/2))
	w.x[i], w.y[i], w.x[j], w.y[j] = xi, yi, xj, yj
	w.settle(i)
	w.settle(j)
	w.fill()
	w.measure()
}
