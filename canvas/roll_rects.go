package canvas

import (
	"context"
	"math"

	"example.com/forepeak/internal/rects"
	"example.com/forepeak/internal/strip"
)

// rectangles is a problem whose pieces are all rectangles with their sides along
// and across the roll, without flaws or pattern; false if it is another.
func rectangles(p strip.Problem) (rects.Problem, bool) {
	out := rects.Problem{Width: p.Width}
	if len(p.Flaws) > 0 {
		return out, false
	}
	for _, s := range p.Shapes {
		if len(s.Grids) > 0 {
			return out, false
		}
		var piece rects.Piece
		for t, ring := range s.Turns {
			w, h, ok := sidesOf(ring)
			switch {
			case !ok:
				return out, false
			case t == 0:
				piece = rects.Piece{Along: w, Across: h, Count: s.Count}
			case w == piece.Along && h == piece.Across:
			case w == piece.Across && h == piece.Along:
				piece.Turn = true
			default:
				return out, false
			}
		}
		out.Pieces = append(out.Pieces, piece)
	}
	return out, true
}

// sidesOf tells a rectangle along the axes.
func sidesOf(ring []int64) (w, h int64, ok bool) {
	if len(ring) != 8 {
		return 0, 0, false
	}
	x0, x1, y0, y1 := box(ring)
	for k := 0; k < 8; k += 2 {
		x, y, nx, ny := ring[k], ring[k+1], ring[(k+2)%8], ring[(k+3)%8]
		if (x != x0 && x != x1) || (y != y0 && y != y1) || (x == nx) == (y == ny) {
			return 0, 0, false
		}
	}
	return x1 - x0, y1 - y0, true
}

func box(ring []int64) (x0, x1, y0, y1 int64) {
	x0, x1, y0, y1 = ring[0], ring[0], ring[1], ring[1]
	for k := 2; k < len(ring); k += 2 {
		x0, x1 = min(x0, ring[k]), max(x1, ring[k])
		y0, y1 = min(y0, ring[k+1]), max(y1, ring[k+1])
	}
	return x0, x1, y0, y1
}

// within is r with sides rounded down, the pieces' own with the gap, and the cloth
// up: what is proved of it is proved of the pieces, too. Pieces have the kinds of; it
// reports whether it is r.
func (s *laying) within(roll *Roll, of []int, r rects.Problem) (out rects.Problem, exact bool) {
	const hair = 1e-6
	gap := s.lay.of(s.lay.Gap)
	out.Width = int64(math.Ceil(s.lay.of(roll.Width-2*roll.Selvedge) + gap - hair))
	exact = gap == s.lay.gap() && out.Width == r.Width
	for i, q := range r.Pieces {
		x0, x1, y0, y1 := extent(s.kinds[of[i]].turns[0].cut)
		in := q
		in.Along, in.Across = int64(math.Floor(x1-x0+gap+hair)), int64(math.Floor(y1-y0+gap+hair))
		exact = exact && in == q
		out.Pieces = append(out.Pieces, in)
	}
	return out, exact
}

// clock is a context that is done when a time is up. It is asked, as a timer may
// have to wait for what it is to stop (under WebAssembly).
type clock struct {
	context.Context
	up func() bool
}

func (c clock) Err() error {
	if err := c.Context.Err(); err != nil || !c.up() {
		return err
	}
	return context.DeadlineExceeded
}

// rectangles lays rectangles by a way of their own, which proves the least length
// where the work is enough, and in any case a length below which they have no room.
func (s *laying) rectangles(roll int, p strip.Problem, of []int, r rects.Problem, o strip.Options) (got strip.Result, bound float64, err error) {
	for _, shape := range p.Shapes { // one by one: what all take together is no matter here
		one := p
		shape.Count = 1
		one.Shapes = []strip.Shape{shape}
		if err := one.Check(); err != nil {
			return strip.Result{}, 0, err
		}
	}
	inner, exact := s.within(&s.lay.Rolls[roll], of, r)
	solve := func(r rects.Problem, part float64) (rects.Layout, error) {
		ctx, work := s.ctx, int64(math.Ceil(part*float64(o.Work)))
		if o.Spent != nil {
			now := s.spent(0)
			until := now + part*(s.until-now)
			ctx, work = clock{ctx, func() bool { return s.spent(0) >= until }}, math.MaxInt64
		}
		return rects.Solve(ctx, r, rects.Options{Seed: o.Seed, Work: work})
	}
	part := 1.0
	if !exact {
		part = 0.5 // the other half is for the proof
	}
	l, err := solve(r, part)
	if err != nil {
		return strip.Result{}, 0, err
	}
	got = strip.Result{Work: l.Work, Layout: strip.Layout{Length: l.Length}}
	bound = float64(l.Bound) - s.lay.gap()
	if !exact {
		least, err := solve(inner, part)
		if err != nil { // a side of less than a unit
			least.Bound = 0
		}
		got.Work += least.Work
		bound = float64(least.Bound) - s.lay.of(s.lay.Gap)
	}
	for _, at := range l.Places {
		along := r.Pieces[at.Piece].Along
		if at.Turned {
			along = r.Pieces[at.Piece].Across
		}
		for t, ring := range p.Shapes[at.Piece].Turns {
			if x0, x1, y0, _ := box(ring); x1-x0 == along {
				got.Layout.Places = append(got.Layout.Places, strip.Place{Shape: at.Piece, Turn: t, X: at.X - x0, Y: at.Y - y0})
				break
			}
		}
	}
	if o.Start != nil && o.Start.Length <= l.Length {
		got.Layout = *o.Start
	} else if o.Progress != nil {
		o.Progress(l.Length, l.Work)
	}
	if p.End > 0 && got.Layout.Length > p.End {
		return got, bound, strip.ErrEnd
	}
	return got, bound, nil
}
