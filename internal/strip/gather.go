package strip

import (
	"cmp"
	"context"
	"slices"
)

// Gather moves pieces of a layout, o.Start, to where they end farther to the
// left, from the rightmost on, until none is moved or o.Work places are tried:
// what [Solve] had no reason to move lies anywhere. The strip gets no longer, and
// what is free of it lies together at its end. Of o, Seed and Circles count as
// well. It returns an error if the problem or the layout is refused.
func Gather(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	if err := Certify(p, *o.Start); err != nil {
		return Result{}, err
	}
	s := newSolver(ctx, p, Options{Seed: o.Seed, Circles: o.Circles, Start: o.Start})
	defer s.stop()
	w := s.crew[0]
	if err := w.resume(*o.Start); err != nil {
		return Result{}, err
	}
	order := make([]int, w.pieces)
	for i := range order {
		order[i] = i
	}
	for moves := int64(-1); w.moves != moves; {
		moves = w.moves
		slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(w.ends(j), w.ends(i)) })
		for _, i := range order {
			if w.work >= o.Work || w.done() {
				break
			}
			c := w.pack(i, candidate{form: w.form[i], x: w.x[i], y: w.y[i]})
			if other := w.leftmost(i, c.l); other.l < c.l {
				c = other
			}
			if c.l < w.ends(i) {
				w.move(i, c)
			}
		}
	}
	l := w.layoutOf(&w.state, w.used())
	return Result{l, w.work}, Certify(p, l)
}
