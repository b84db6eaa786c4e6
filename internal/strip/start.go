package strip

import (
	"math"
	"slices"
)

// samplesStart is the number of places tried for a piece in each of its forms.
const samplesStart = 100

// place lays the pieces from the largest convex hull to the smallest, each in
// the leftmost free place found, and sets the length to what they take. When ctx
// is done it piles up the rest.
func (w *searcher) place() {
	w.even()
	w.bins.clear()
	w.layFlaws()
	order := make([]int, w.pieces)
	for i := range order {
		order[i] = i
	}
	hull := func(i int) float64 { return w.all[w.first[w.shape[i]]].hull }
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case hull(i) > hull(j):
			return -1
		case hull(i) < hull(j):
			return 1
		}
		return 0
	})
	end := 0.0
	for k, i := range order {
		if w.done() {
			end = w.pile(order[k:], max(end, w.reach))
			break
		}
		c := w.leftmost(i, max(end, w.reach))
		w.form[i], w.x[i], w.y[i] = c.form, c.x, c.y
		w.enter(i)
		end = max(end, c.x+w.all[c.form].w)
	}
	w.length = end
	w.measure()
}

// pile lays pieces one above the other, in columns one behind the other from a
// length on, beyond which the strip is free, and returns where they end.
func (w *searcher) pile(pieces []int, begin float64) (end float64) {
	end = begin
	top := 0.0
	for _, i := range pieces {
		c := w.above(i, begin, top)
		if math.IsInf(c.l, 1) {
			begin = end
			c = w.above(i, begin, 0)
		}
		w.form[i], w.x[i], w.y[i] = c.form, c.x, c.y
		w.enter(i)
		end, top = max(end, c.l), c.y+w.all[c.form].h
	}
	return end
}

// above returns the place that ends first of those from begin on that are above
// top.
func (w *searcher) above(i int, begin, top float64) candidate {
	best := candidate{l: math.Inf(1)}
	for f := int32(w.first[w.shape[i]]); f < int32(w.first[w.shape[i]+1]); f++ {
		g := &w.all[f]
		if x, y := g.gx.from(begin), g.gy.from(top); x+g.w < best.l && y+g.h <= w.width {
			best = candidate{f, x, y, x + g.w}
		}
	}
	return best
}

// leftmost returns a free place for piece i on a strip used up to end, compared
// by where the piece would end.
func (w *searcher) leftmost(i int, end float64) candidate {
	best := candidate{l: math.Inf(1)}
	for f := int32(w.first[w.shape[i]]); f < int32(w.first[w.shape[i]+1]); f++ {
		g := &w.all[f]
		roomY := w.width - g.h
		if x, y := g.gx.from(end), g.gy.least(); x+g.w < best.l {
			best = candidate{f, x, y, x + g.w}
		}
		for range samplesStart {
			x := w.between(0, min(end, best.l-g.w))
			x, y := g.onto(x, w.between(0, roomY), 2*maxExtent, roomY)
			if x+g.w < best.l && w.evaluate(i, f, x, y, math.SmallestNonzeroFloat64) == 0 {
				best = w.pack(i, candidate{f, x, y, x + g.w})
			}
		}
	}
	return w.pack(i, best)
}

// pack pushes a free candidate left and down, by steps that halve and, as long as
// it goes, double.
func (w *searcher) pack(i int, c candidate) candidate {
	g := &w.all[c.form]
	free := func(x, y float64) bool { return w.evaluate(i, c.form, x, y, math.SmallestNonzeroFloat64) == 0 }
	for step := math.Floor(g.w / 2); step >= 1; step = math.Floor(step / 2) {
		for by := step; by >= step; {
			if x := g.gx.step(c.x, -by, c.x); x < c.x && free(x, c.y) {
				c.x, by = x, 2*by
			} else {
				by /= 2
			}
		}
		for by := step; by >= step; {
			if y := g.gy.step(c.y, -by, c.y); y < c.y && free(c.x, y) {
				c.y, by = y, 2*by
			} else {
				by /= 2
			}
		}
	}
	c.l = c.x + g.w
	return c
}
