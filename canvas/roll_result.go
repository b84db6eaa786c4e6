package canvas

import (
	"cmp"
	"math"
	"slices"

	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// plan is what the sheets come to.
func (s *laying) plan(sheets []*filled) LayPlan {
	out := LayPlan{Work: s.work, Certificate: LayCertificate{Unit: s.lay.length(1)}}
	slices.SortStableFunc(sheets, func(a, b *filled) int { return cmp.Compare(a.roll, b.roll) })
	gap := s.lay.gap()
	for _, t := range sheets {
		r := &s.lay.Rolls[t.roll]
		p, of := s.problem(t.roll, t.counts)
		u := RollUse{Roll: t.roll, Name: r.Name, Used: s.used(*t)}
		c := CertifiedSheet{Roll: r.Name, Width: p.Width, Length: t.layout.Length, End: p.End, Flaws: p.Flaws}
		places := slices.Clone(t.layout.Places)
		begins := func(at strip.Place) int64 {
			least, _, _, _ := extent(s.kinds[of[at.Shape]].turns[at.Turn].cut)
			return int64(math.Round(least)) + at.X
		}
		slices.SortStableFunc(places, func(a, b strip.Place) int {
			return cmp.Or(cmp.Compare(begins(a), begins(b)), cmp.Compare(a.Y, b.Y))
		})
		area := 0.0
		for _, at := range places {
			k := &s.kinds[of[at.Shape]]
			piece, turn := &s.lay.Pieces[k.piece], &k.turns[at.Turn]
			where := func(x, y float64) Point {
				return Point{
					s.lay.length(x - turn.by[0] + float64(at.X) - gap/2),
					s.lay.length(y-turn.by[1]+float64(at.Y)-gap/2) + r.Selvedge,
				}
			}
			laid := Laid{
				Piece: k.piece, Name: piece.Name, Mirrored: k.mirrored, Flipped: turn.flipped, Turn: turn.turn, At: where(0, 0),
			}
			line := s.lay.place(piece, piece.Cut, turn.turn, k.mirrored != turn.flipped)
			for m := 0; m < len(line); m += 2 {
				laid.Cut = append(laid.Cut, where(line[m], line[m+1]))
			}
			u.Laid = append(u.Laid, laid)
			area += k.area
			q := CertifiedPiece{Name: piece.Name, Outline: p.Shapes[at.Shape].Turns[at.Turn], X: at.X, Y: at.Y}
			if g := p.Shapes[at.Shape].Grids; g != nil {
				x, y := g[at.Turn].X, g[at.Turn].Y
				q.Along, q.Across = [3]int64{x.Repeat, x.Phase, x.Tolerance}, [3]int64{y.Repeat, y.Phase, y.Tolerance}
			}
			c.Pieces = append(c.Pieces, q)
		}
		u.Bought, u.Cost = s.lay.cost(r, u.Used)
		u.Utilisation = s.lay.area(area) / (float64(r.Width) * float64(u.Used))
		// Down to whole nanometres, as what is used is rounded to.
		least := max(s.bound(t.roll, t.counts), t.bound)
		u.Bound = s.lay.length(math.Floor(least*s.lay.unit) / s.lay.unit)
		u.Excess = float64(u.Used)/float64(u.Bound) - 1
		u.Rest = s.lay.rest(r, c, u.Bought)
		out.Rolls = append(out.Rolls, u)
		out.Cost += u.Cost
		out.Certificate.Sheets = append(out.Certificate.Sheets, c)
	}
	return out
}

// gather moves what lies loose to the begin of each roll, so that what is left of
// it is in one piece. It takes up to a twentieth of the work once more.
func (s *laying) gather(sheets []*filled) error {
	for _, t := range sheets {
		p, _ := s.problem(t.roll, t.counts)
		if _, ok := rectangles(p); ok {
			continue // never loose
		}
		o := strip.Options{Seed: s.options.Seed, Circles: s.circles, Start: &t.layout, Work: s.options.Work / int64(20*len(sheets))}
		got, err := strip.Gather(s.ctx, p, o)
		if err != nil {
			return err
		}
		t.layout = got.Layout
		s.work += got.Work
	}
	return nil
}

// rest is the largest rectangle at the end of what is bought, whose sides lie
// on a grid of 256 bands along the roll.
func (l ruled) rest(r *Roll, c CertifiedSheet, bought units.Length) Rest {
	const bands = 256
	pitch := float64(c.Width) / bands
	taken := make([]float64, bands) // how far pieces and flaws reach in a band
	mark := func(ring []int64, dx, dy int64) {
		n := len(ring)
		for k := 0; k < n; k += 2 {
			ax, ay, bx, by := float64(ring[k]+dx), float64(ring[k+1]+dy), float64(ring[(k+2)%n]+dx), float64(ring[(k+3)%n]+dy)
			switch {
			case ay == by:
				continue // the edges before and behind it reach as far
			case ay > by:
				ax, ay, bx, by = bx, by, ax, ay
			}
			x := func(y float64) float64 { return ax + float64((min(max(y, ay), by)-ay)/(by-ay)*(bx-ax)) }
			for b := max(0, int(ay/pitch)-1); b < bands && float64(b)*pitch < by; b++ {
				if float64(b+1)*pitch > ay {
					taken[b] = max(taken[b], min(max(ax, bx), math.Ceil(max(x(float64(b)*pitch), x(float64(b+1)*pitch)))))
				}
			}
		}
	}
	for _, p := range c.Pieces {
		mark(p.Outline, p.X, p.Y)
	}
	gap := l.gap()
	end := l.of(bought) + gap/2
	for _, f := range c.Flaws {
		if x0, _, _, _ := box(f); float64(x0) < end {
			mark(f, 0, 0)
		}
	}
	var best Rest
	most := 0.0
	for a := range bands {
		far := 0.0
		for b := a; b < bands; b++ {
			far = max(far, taken[b], gap/2)
			y0, y1 := max(float64(a)*pitch-gap/2, 0), min(float64(b+1)*pitch-gap/2, l.of(r.Width-2*r.Selvedge))
			if size := (end - far) * (y1 - y0); end > far && y1 > y0 && size > most*(1+1e-9) {
				most = size
				best = Rest{
					From:   Point{l.length(far - gap/2), l.length(y0) + r.Selvedge},
					Length: l.length(end - far), Width: l.length(y1 - y0),
				}
			}
		}
	}
	return best
}
