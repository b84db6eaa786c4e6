package strip

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// What limits the places of pieces beside one another: flaws, the end of the
// strip and grids.

// checkFlaws returns how far the flaws reach.
func (p Problem) checkFlaws() (reach int64, err error) {
	for k, ring := range p.Flaws {
		if len(ring)%2 != 0 {
			return 0, fmt.Errorf("strip: flaw %d: odd number of coordinates: %w", k, ErrFlaw)
		}
		r := clean(ring)
		if len(r) == 0 {
			return 0, fmt.Errorf("strip: flaw %d: no vertices: %w", k, ErrFlaw)
		}
		if b := boundsOf(r); b.x0 < 0 || b.y0 < 0 || b.x1 > maxExtent || b.y1 > p.Width {
			return 0, fmt.Errorf("strip: flaw %d spans %d,%d to %d,%d: %w: want it within 0,0 to %d,%d",
				k, b.x0, b.y0, b.x1, b.y1, ErrFlaw, maxExtent, p.Width)
		}
		if why := notSimple(r); why != "" {
			return 0, fmt.Errorf("strip: flaw %d: %s: %w", k, why, ErrFlaw)
		}
		reach = max(reach, boundsOf(r).x1)
	}
	return reach, nil
}

// withFlawsNear returns p without the flaws that no piece comes near, however it is laid:
// the search lays nothing beyond all pieces one behind the other, behind the
// flaws before. A layout to start from may be longer.
func (p Problem) withFlawsNear(start *Layout) Problem {
	end, row := int64(0), int64(0)
	if start != nil {
		end = start.Length
	}
	for _, s := range p.Shapes {
		longest := int64(0)
		for t, ring := range s.Turns {
			b := boundsOf(clean(ring))
			longest = max(longest, b.x1-b.x0+s.grid(t).X.Repeat)
		}
		row += longest * int64(s.Count)
	}
	boxes := make([]box, len(p.Flaws))
	for k, ring := range p.Flaws {
		boxes[k] = boundsOf(clean(ring))
	}
	byBegin := slices.Clone(boxes)
	slices.SortFunc(byBegin, func(a, b box) int { return cmp.Compare(a.x0, b.x0) })
	end = max(end, row)
	for _, b := range byBegin {
		if b.x0 < end {
			end = max(end, b.x1+row)
		}
	}
	var near [][]int64
	for k, b := range boxes {
		if b.x0 < end {
			near = append(near, p.Flaws[k])
		}
	}
	p.Flaws = near
	return p
}

func (s Shape) checkGrids() error {
	if len(s.Grids) != 0 && len(s.Grids) != len(s.Turns) {
		return fmt.Errorf("%d grids for %d rotations: %w", len(s.Grids), len(s.Turns), ErrGrid)
	}
	for _, g := range s.Grids {
		for _, e := range []Steps{g.X, g.Y} {
			if e.Repeat < 0 || e.Repeat > maxExtent || e.Tolerance < 0 || e.Tolerance > maxExtent || e.Phase < -maxExtent || e.Phase > maxExtent {
				return fmt.Errorf("%+v: %w: want each within %d and repeat and tolerance not negative", e, ErrGrid, maxExtent)
			}
		}
	}
	return nil
}

// grid is that of a rotation.
func (s Shape) grid(turn int) Grid {
	if len(s.Grids) == 0 {
		return Grid{}
	}
	return s.Grids[turn]
}

// fits reports whether an outline has a place on the strip.
func (p Problem) fits(b box, g Grid) bool {
	x := g.X.moved(b.x0).least() + float64(b.x1-b.x0)
	y := g.Y.moved(b.y0).least() + float64(b.y1-b.y0)
	return y <= float64(p.Width) && (p.End == 0 || x <= float64(p.End))
}

// has reports whether v is one of the steps.
func (e Steps) has(v int64) bool {
	if e.Repeat == 0 {
		return true
	}
	r := (v - e.Phase) % e.Repeat
	if r < 0 {
		r += e.Repeat
	}
	return r <= e.Tolerance || e.Repeat-r <= e.Tolerance
}

// steps are those of an outline whose lower left corner is moved to 0, in the
// numbers of the search, all of which float64 holds exactly.
type steps struct{ repeat, phase, tolerance float64 }

func (e Steps) moved(corner int64) steps {
	if e.Repeat == 0 || 2*e.Tolerance >= e.Repeat {
		return steps{}
	}
	phase := (e.Phase + corner) % e.Repeat
	if phase < 0 {
		phase += e.Repeat
	}
	return steps{float64(e.Repeat), float64(phase), float64(e.Tolerance)}
}

// least is the first of the steps that is not negative.
func (e steps) least() float64 { return e.nearest(0, 0) }

// nearest returns the one from 0 to most of the steps that is next to v, a whole
// number in that range, or, if there is none, the first that is not negative.
func (e steps) nearest(v, most float64) float64 {
	if e.repeat == 0 {
		return v
	}
	m := e.phase + float64(e.repeat*math.Floor((v-e.phase)/e.repeat)) // at or below v
	below, above := min(v, m+e.tolerance), max(v, m+e.repeat-e.tolerance)
	switch {
	case below < 0:
		return above
	case above > most || v-below <= above-v:
		return below
	}
	return above
}

// from returns the first of the steps that is not below v, which is not negative.
func (e steps) from(v float64) float64 {
	if e.repeat == 0 {
		return v
	}
	m := e.phase + float64(e.repeat*math.Floor((v-e.phase)/e.repeat))
	if v <= m+e.tolerance {
		return v
	}
	return max(v, m+e.repeat-e.tolerance)
}

// step returns the one from 0 to most next to was and by, rounded; where there
// are gaps, one on the other side of the gap rather than was.
func (e steps) step(was, by, most float64) float64 {
	v := e.nearest(min(max(math.Round(was+by), 0), most), most)
	if v == was && e.repeat > 0 && by != 0 {
		v = e.nearest(min(max(was+math.Copysign(e.repeat, by), 0), most), most)
	}
	return v
}

// onto puts a place within the room of a form on its grid.
func (f *form) onto(x, y, roomX, roomY float64) (float64, float64) {
	return f.gx.nearest(x, roomX), f.gy.nearest(y, roomY)
}

// ends returns the least x at which a form can end.
func (f *form) ends() float64 { return f.gx.least() + f.w }

// settle moves piece i inside the strip and onto its grid.
func (w *searcher) settle(i int) {
	f := w.form[i]
	roomX, roomY := w.room(f)
	w.x[i], w.y[i] = w.all[f].onto(min(max(w.x[i], 0), roomX), min(max(w.y[i], 0), roomY), roomX, roomY)
}

// layFlaws puts the flaws where they are.
func (w *searcher) layFlaws() {
	for i := w.pieces; i < len(w.x); i++ {
		f := w.first[w.shape[i]]
		g := &w.all[f]
		w.form[i], w.x[i], w.y[i] = int32(f), float64(g.minX), float64(g.minY)
		w.enter(i)
	}
}

// resume takes over a layout that is certified.
func (w *worker) resume(l Layout) error {
	if l.Length > maxExtent {
		return fmt.Errorf("strip: length %d of the layout to start from: %w", l.Length, ErrSize)
	}
	places := slices.Clone(l.Places)
	slices.SortStableFunc(places, func(a, b Place) int { return cmp.Compare(a.Shape, b.Shape) })
	w.length = 0
	for i, at := range places {
		f := w.first[at.Shape]
		for f < w.first[at.Shape+1] && w.all[f].turn != at.Turn {
			f++
		}
		if f == w.first[at.Shape+1] {
			return fmt.Errorf("strip: shape %d in rotation %d is longer than the strip: %w", at.Shape, at.Turn, ErrLayout)
		}
		g := &w.all[f]
		w.form[i], w.x[i], w.y[i] = int32(f), float64(at.X+g.minX), float64(at.Y+g.minY)
		w.length = max(w.length, w.x[i]+g.w)
	}
	w.layFlaws()
	w.fill()
	w.measure()
	return nil
}
