package canvas

import (
	"math"
	"slices"
)

// slice is a part of a piece's length on the roll and a width that it takes up
// there, at least.
type slice struct{ along, across float64 }

// slicesOf cuts a piece across the roll at its points and between them. The width
// in a slice is that of one stretch of cloth, the lesser of its two ends, with half
// a gap on each side, or half of a notch that is narrower than the gap: the widths
// of two stretches may not share what lies between.
func slicesOf(ring []float64, gap float64) []slice {
	const parts = 4
	n := len(ring)
	var xs []float64
	for k := 0; k < n; k += 2 {
		xs = append(xs, ring[k])
	}
	slices.Sort(xs)
	var out []slice
	for i := 1; i < len(xs); i++ {
		x0, x1 := xs[i-1], xs[i]
		if x1-x0 < 1e-3 {
			continue
		}
		type edge struct{ mid, at0, slope float64 }
		var cut []edge
		for k := 0; k < n; k += 2 {
			ax, ay, bx, by := ring[k], ring[k+1], ring[(k+2)%n], ring[(k+3)%n]
			if min(ax, bx) <= x0 && max(ax, bx) >= x1 {
				slope := (by - ay) / (bx - ax)
				at0 := ay + float64(slope*(x0-ax))
				cut = append(cut, edge{at0 + float64(slope*(x1-x0))/2, at0, slope})
			}
		}
		slices.SortFunc(cut, func(a, b edge) int {
			if a.mid < b.mid {
				return -1
			}
			return 1
		})
		// least is the lesser of what lies between two edges at the ends of a part.
		least := func(k int, f0, f1 float64) float64 {
			w, slope := cut[k+1].at0-cut[k].at0, cut[k+1].slope-cut[k].slope
			return max(0, w+min(float64(f0*slope), float64(f1*slope)))
		}
		for k := 0; k+1 < len(cut); k += 2 {
			for p := range parts {
				f0, f1 := (x1-x0)*float64(p)/parts, (x1-x0)*float64(p+1)/parts
				below, above := gap, gap
				if k > 0 {
					below = min(gap, least(k-1, f0, f1))
				}
				if k+2 < len(cut) {
					above = min(gap, least(k+1, f0, f1))
				}
				out = append(out, slice{f1 - f0, least(k, f0, f1) + (below+above)/2})
			}
		}
	}
	return out
}

// measures is the number of portions.
const measures = 1 + 12 + 10

// portions are functions that map parts of the width whose sum is at most 1 to
// numbers whose sum is at most 1 (dual feasible functions: Fekete and Schepers,
// Mathematical Programming 91 (2001) 11). Across the roll, at every place along
// it, the stretches of cloth side by side are such parts. So the sum over all
// pieces of a function of the width, added up along the piece, is a length
// below which the pieces have no room: the first of them gives the area divided
// by the width, the others know that two wide pieces do not lie side by side.
func portions(x float64, out []float64) []float64 {
	const hair = 1e-9
	out = append(out, max(0, x-hair))
	for k := 1.0; k <= 12; k++ {
		out = append(out, max(0, math.Floor(float64((k+1)*x)-hair)/k))
	}
	for e := 1.0; e <= 10; e++ {
		switch e := e / 20; {
		case x > 1-e+hair:
			out = append(out, 1)
		case x < e+hair:
			out = append(out, 0)
		default:
			out = append(out, max(0, x-hair))
		}
	}
	return out
}

// footprint is what one piece of a kind takes of a roll, at least: of its length
// by each of the portions and by area, and in one stretch; fits is whether it can
// lie there at all.
type footprint struct {
	takes [measures + 1]float64
	long  float64
	fits  bool
}

// footprintOf returns that of a kind on a roll.
func (l ruled) footprintOf(r *Roll, k *kind) footprint {
	gap := l.of(l.Gap)
	width := l.of(r.Width-2*r.Selvedge) + gap
	var out footprint
	for _, t := range k.turns {
		lo, hi, bottom, top := extent(t.cut)
		if top-bottom > width-gap+0.5 || r.Length > 0 && hi-lo > l.of(r.Length)+0.5 {
			continue
		}
		var f [measures + 1]float64
		if len(k.turns) <= 8 && len(t.cut) <= 4000 { // of others the area must do
			for _, s := range slicesOf(t.cut, gap) {
				for m, v := range portions(s.across/width, make([]float64, 0, measures)) {
					f[m] += float64(v * s.along)
				}
			}
		}
		// The area of a piece with half a gap all round is least for a circle.
		grown := math.Sqrt(k.area) + float64(math.Sqrt(math.Pi)*gap/2)
		f[measures] = float64(grown*grown) / width
		if !out.fits {
			out = footprint{f, hi - lo, true}
			continue
		}
		out.long = min(out.long, hi-lo)
		for m := range f {
			out.takes[m] = min(out.takes[m], f[m])
		}
	}
	return out
}

// bound is a length of a roll below which counts of the kinds cannot be laid, in
// units.
func (s *laying) bound(roll int, counts []int) float64 {
	gap := s.lay.of(s.lay.Gap)
	var sums [measures + 1]float64
	best := 0.0
	for k, n := range counts {
		if n == 0 {
			continue
		}
		f := s.footprint(roll, k)
		best = max(best, f.long)
		for m, v := range f.takes {
			sums[m] += float64(v * float64(n))
		}
	}
	for _, v := range sums {
		best = max(best, v-gap)
	}
	return best
}

// footprint keeps what footprintOf returns.
func (s *laying) footprint(roll, kind int) *footprint {
	if s.prints == nil {
		s.prints = make([][]*footprint, len(s.lay.Rolls))
	}
	if s.prints[roll] == nil {
		s.prints[roll] = make([]*footprint, len(s.kinds))
	}
	if s.prints[roll][kind] == nil {
		f := s.lay.footprintOf(&s.lay.Rolls[roll], &s.kinds[kind])
		s.prints[roll][kind] = &f
	}
	return s.prints[roll][kind]
}

// extent is the rectangle that encloses a line.
func extent(line []float64) (x0, x1, y0, y1 float64) {
	x0, y0 = math.Inf(1), math.Inf(1)
	x1, y1 = math.Inf(-1), math.Inf(-1)
	for k := 0; k+1 < len(line); k += 2 {
		x0, x1 = min(x0, line[k]), max(x1, line[k])
		y0, y1 = min(y0, line[k+1]), max(y1, line[k+1])
	}
	return x0, x1, y0, y1
}
