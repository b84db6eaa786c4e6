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
	best     state   // free of overlap
	bestAt   float64 // its length
	step     float64 // by which the strip is shortened
	found    float64 // layouts, each shorter than the last
	cutting  bool    // in the second phase
	spent    float64 // part of the budget
	pool     []overlapping

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

// takeOver makes the best layout of another worker the own. An attempt at a
// length that is no longer shorter ends.
func (w *worker) takeOver(from *worker) {
	w.best.copy(&from.best)
	w.bestAt = from.bestAt
	if w.length >= w.bestAt {
		w.copy(&w.best)
		w.shortenOrCut()
	}
}

// run sweeps until a number of places are tried, after the given part of the
// budget is spent.
func (w *worker) run(spent float64, places int64) {
	w.spent = spent
	if spent >= exploring && !w.cutting {
		w.cutting = true
		w.shortenOrCut()
	}
	for until := w.work + places; w.work < until && w.bestAt > w.shortest; {
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
// by a smaller step and, at the smallest, from a disturbed state.
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
		w.step = max(smallestStep, min(1.25*w.step, w.spent/w.found, largestStep))
		w.shortenOrCut()
	case w.cutting:
		w.shortenOrCut()
	case w.step > smallestStep:
		w.step = max(w.step/2, smallestStep)
		w.shortenOrCut()
	default:
		w.fill()
		w.measure()
		w.remember()
		w.recall()
		w.disturb()
		w.begin(effortSmall)
	}
}

// shortenOrCut starts an attempt from the best layout: at its end, or in the
// second phase by cutting a thin slice out of it, wherever.
func (w *worker) shortenOrCut() {
	w.pool = w.pool[:0]
	w.copy(&w.best)
	if !w.cutting {
		w.shorten(w.bestAt * (1 - w.step))
		if w.step > smallestStep {
			w.begin(effortLarge)
		} else {
			w.begin(effortSmall)
		}
		return
	}
	part := max(0, w.spent-exploring) / (1 - exploring)
	cut := max(1, math.Floor(w.bestAt*(firstCut+float64(part*(lastCut-firstCut)))))
	at := w.between(0, w.bestAt)
	for i := range w.pieces {
		if w.x[i]+float64(w.all[w.form[i]].w/2) > at {
			w.x[i] = max(0, w.x[i]-cut)
		}
	}
	w.shorten(w.bestAt - cut)
	w.begin(effortCut)
}

// accept keeps the present state if it is certified free of overlap.
func (w *worker) accept() bool {
	// What the pieces take may be less than the length asked for.
	end := 0.0
	for i := range w.pieces {
		end = max(end, w.x[i]+w.all[w.form[i]].w)
	}
	if end >= w.bestAt || Certify(*w.problem, w.layoutOf(&w.state, end)) != nil {
		return false
	}
	w.bestAt = end
	w.best.copy(&w.state)
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
