package canvas

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/rects"
	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// Plan lays the pieces on the rolls so that the cloth costs as little as the
// search finds: on one roll that is the least length. Offcuts are filled first,
// those of the least value for their area before others, and used if that saves
// more than they are worth; the rest is laid on the roll that comes cheapest, or
// on several where pieces are too wide for it. Then pieces are moved and exchanged
// between rolls for as long as that saves money, or cloth where the money is alike.
//
// When ctx is done the best so far is returned. A piece that does not fit any
// roll is refused, and when there is not cloth enough the error beside the plan
// of what was laid names the pieces that are left, and whether it is sure that they
// do not fit; both wrap [ErrCloth]. Every plan has passed [LayPlan.Check], but for
// pieces that are left.
func (l Lay) Plan(ctx context.Context, o LayOptions) (LayPlan, error) {
	plan, err := l.planned(ctx, o)
	return plan, outward(err)
}

// planned is Plan, and tells with errShort where rolls are wide enough.
func (l Lay) planned(ctx context.Context, o LayOptions) (LayPlan, error) {
	if err := l.check(); err != nil {
		return LayPlan{}, err
	}
	in := l.ruled()
	kinds, err := in.kinds()
	if err != nil {
		return LayPlan{}, err
	}
	if o.Work <= 0 {
		o.Work = 500_000
	}
	s := &laying{ctx: ctx, lay: in, kinds: kinds, options: o, flaws: make([][][]int64, len(l.Rolls)), circles: o.circles}
	if s.circles == nil {
		s.circles = &strip.Circles{}
	}
	if o.Left != nil {
		s.time = o.Left()
	}
	for i := range l.Rolls {
		if s.flaws[i], err = in.flaws(i); err != nil {
			return LayPlan{}, err
		}
	}
	if err := s.roomForEach(); err != nil {
		return LayPlan{}, err
	}
	x, err := s.assign()
	if err != nil {
		return LayPlan{}, err
	}
	if err := x.spend(); err != nil {
		return LayPlan{}, err
	}
	if err := s.gather(x.sheets()); err != nil {
		return LayPlan{}, err
	}
	plan := s.plan(x.sheets())
	if slices.Max(x.left) == 0 {
		plan.Bound = s.leastCost()
		if len(l.Rolls) == 1 { // what is proved of its length may be more
			_, least := l.cost(&l.Rolls[0], plan.Rolls[0].Bound)
			plan.Bound = max(plan.Bound, least)
		}
		if math.Abs(float64(plan.Bound-plan.Cost)) <= 1e-8*float64(plan.Cost) { // but for rounding
			plan.Bound = plan.Cost
		}
	}
	if err := plan.check(l); err != nil {
		return LayPlan{}, err
	}
	var names []string
	for k, n := range x.left {
		if n > 0 {
			names = append(names, fmt.Sprintf("%d of %s", n, l.Pieces[kinds[k].piece].Name))
		}
	}
	if names != nil {
		found, want := "where no room was found for ", "more cloth, or more work"
		if s.tooShort() {
			found, want = "too short for ", "more cloth"
		}
		return plan, refuseAs(errShort, "Rolls", found+strings.Join(names, ", "), want)
	}
	return plan, nil
}

func (l *Lay) check() error {
	var c checker
	c.count("Rolls", len(l.Rolls), 1, 100)
	c.count("Pieces", len(l.Pieces), 1, 10000)
	between(&c, "Gap", l.Gap, 0, 0.1*units.Metre)
	between(&c, "Deviation", l.Deviation, 0, 10*units.Millimetre)
	for i := range l.Rolls {
		r, f := &l.Rolls[i], fmt.Sprintf("Rolls[%d]", i)
		c.size(f+".Width", r.Width)
		c.size0(f+".Length", r.Length)
		between(&c, f+".Selvedge", r.Selvedge, 0, r.Width/2-1*units.Millimetre)
		between(&c, f+".Price", r.Price, 0, 1e9)
		between(&c, f+".Value", r.Value, 0, 1e9)
		c.size0(f+".Increment", r.Increment)
		c.point(f+".Pattern", r.Pattern)
		c.size0(f+".Along", r.Along)
		c.size0(f+".Across", r.Across)
		for k, flaw := range r.Flaws {
			c.count(fmt.Sprintf("%s.Flaws[%d].Outline", f, k), len(flaw.Outline), 3, 10000)
			for _, q := range flaw.Outline {
				c.point(fmt.Sprintf("%s.Flaws[%d].Outline", f, k), q)
			}
		}
	}
	total := 0
	for i := range l.Pieces {
		p, f := &l.Pieces[i], fmt.Sprintf("Pieces[%d] (%s)", i, l.Pieces[i].Name)
		c.count(f+".Cut", len(p.Cut), 3, 20000)
		c.count(f+".Quantity", p.Quantity, 0, 10000)
		c.count(f+".QuantityMirrored", p.QuantityMirrored, 0, 10000)
		between(&c, f+".Grain", p.Grain, -10, 10)
		for _, q := range p.Cut {
			c.point(f+".Cut", q)
		}
		switch p.Lie {
		case EitherWay, OneWay, AnyWay:
			c.count(f+".Turns", len(p.Turns), 0, 0)
		case Listed:
			c.count(f+".Turns", len(p.Turns), 1, 360)
		default:
			if c.err == nil {
				c.err = refuseAs(ErrUnknown, f+".Lie", fmt.Sprintf("%q", p.Lie), "one way, listed, any way or none")
			}
		}
		for _, t := range p.Turns {
			between(&c, f+".Turns", t, -10, 10)
		}
		p.Match.check(&c, f+".Match")
		total += max(1, p.Quantity+p.QuantityMirrored)
	}
	c.count("Pieces in all", total, 1, 10000)
	if c.err != nil {
		return c.err
	}
	in := l.ruled()
	for i, r := range l.Rolls {
		for _, e := range []struct {
			name string
			l    units.Length
		}{{"Along", r.Along}, {"Across", r.Across}} {
			if u := in.of(e.l); u != math.Round(u) || e.l > 0 && u == 0 {
				return refuse(fmt.Sprintf("Rolls[%d].%s", i, e.name), e.l, "all repeats multiples of 0.01 mm, or all of 1/160 mm")
			}
		}
	}
	return nil
}

// flaws returns those of a roll on the cloth between the selvedges, half a gap
// wider all round.
func (l ruled) flaws(i int) ([][]int64, error) {
	r := &l.Rolls[i]
	width, gap := l.width(r), l.gap()
	var out [][]int64
	for k, flaw := range r.Flaws {
		var ring []plane.Point
		var fine []int64 // nanometres
		for _, q := range flaw.Outline {
			fine = append(fine, int64(math.Round(float64(q.X)*1e9)), int64(math.Round(float64(q.Y)*1e9)))
			ring = append(ring, plane.Point{X: l.of(q.X) + gap/2, Y: l.of(q.Y-r.Selvedge) + gap/2})
		}
		if _, err := strip.Simple(fine); err != nil {
			return nil, refuseAs(ErrOutline, fmt.Sprintf("Rolls[%d].Flaws[%d] (%s)", i, k, flaw.Name), err, "a simple outline")
		}
		// Cut off what is not on the cloth.
		ring = plane.Clip(ring, plane.Point{X: 1}, 4)
		ring = plane.Clip(ring, plane.Point{Y: 1}, 4)
		ring = plane.Clip(ring, plane.Point{Y: -1}, 4+float64(width))
		if len(ring) < 3 {
			continue
		}
		held, err := l.heldFlaw(ring, width)
		if err != nil { // parts that meet again along the selvedge: what lies between goes too
			if held, err = l.heldFlaw(hull(ring), width); err != nil {
				continue // wholly in the selvedge
			}
		}
		out = append(out, held)
	}
	return out, nil
}

// heldFlaw is a simple outline on the cloth that holds a flaw.
func (l ruled) heldFlaw(ring []plane.Point, width int64) ([]int64, error) {
	var flat []float64
	for _, v := range ring {
		flat = append(flat, v.X, v.Y)
	}
	if ringArea(flat) < 0 {
		flat = backwards(flat)
	}
	clear := make([]float64, len(ring))
	for m := range clear {
		clear[m] = 1
	}
	held, err := strip.Outer(flat, clear, 1)
	if err != nil {
		return nil, err
	}
	// What reaches beyond the cloth again is cut off. To move its corners in would
	// take the sides that slant with them, off the flaw.
	held = cutOff(cutOff(cutOff(held, 0, 1, 0), 1, 1, 0), 1, -1, width)
	_, err = strip.Simple(held)
	return held, err
}

// cutOff keeps of an anticlockwise ring what lies on the side of a limit across an
// axis, 0 for X and 1 for Y. Where it cuts a side it rounds outwards.
func cutOff(ring []int64, axis int, side, limit int64) (out []int64) {
	n := len(ring)
	add := func(along, across int64) {
		v := [2]int64{}
		v[axis], v[1-axis] = along, across
		if k := len(out); k == 0 || out[k-2] != v[0] || out[k-1] != v[1] {
			out = append(out, v[0], v[1])
		}
	}
	for k := 0; k < n; k += 2 {
		a, b := ring[k:k+2], ring[(k+2)%n:(k+2)%n+2]
		x, y := side*(a[axis]-limit), side*(b[axis]-limit)
		if x >= 0 {
			add(a[axis], a[1-axis])
		}
		if x > 0 && y < 0 || x < 0 && y > 0 {
			up := b[axis] > a[axis] == (axis == 1) // the ring's outside is where the other coordinate grows
			add(limit, a[1-axis]+quotient((b[1-axis]-a[1-axis])*(limit-a[axis]), b[axis]-a[axis], up))
		}
	}
	if k := len(out); k > 2 && out[0] == out[k-2] && out[1] == out[k-1] {
		out = out[:k-2]
	}
	return out
}

// quotient of whole numbers, rounded up or down.
func quotient(a, b int64, up bool) int64 {
	q := a / b
	if a%b == 0 {
		return q
	}
	switch positive := (a < 0) == (b < 0); {
	case up && positive:
		q++
	case !up && !positive:
		q--
	}
	return q
}

// hull is the convex hull, anticlockwise: once below and once above.
func hull(ring []plane.Point) (out []plane.Point) {
	points := slices.Clone(ring)
	slices.SortFunc(points, func(a, b plane.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	points = slices.Compact(points)
	for range 2 {
		begin := len(out)
		for _, v := range points {
			for len(out) > begin+1 {
				a, b := out[len(out)-2], out[len(out)-1]
				if float64((b.X-a.X)*(v.Y-a.Y))-float64((b.Y-a.Y)*(v.X-a.X)) > 0 {
					break
				}
				out = out[:len(out)-1]
			}
			out = append(out, v)
		}
		out = out[:len(out)-1]
		slices.Reverse(points)
	}
	return out
}

// width is that of the cloth between the selvedges and half a gap on each side.
func (l ruled) width(r *Roll) int64 {
	return int64(math.Floor(l.of(r.Width-2*r.Selvedge) + l.gap() + 1e-4))
}

// laying is the work on a plan.
type laying struct {
	ctx     context.Context
	lay     ruled
	kinds   []kind
	flaws   [][][]int64
	options LayOptions
	time    time.Duration
	until   float64 // part of the time that the layout at hand may take
	work    int64
	circles *strip.Circles
	prints  [][]*footprint // by roll and kind
	room    [][]int8       // 1 where a kind fits a roll, -1 where not
}

// filled is a roll and how many of each kind are laid on it.
type filled struct {
	roll   int
	counts []int
	layout strip.Layout
	bound  float64 // of the length used, in units, if one is proved
}

// problem is that of laying counts on a roll; shapes have the kinds' order.
func (s *laying) problem(roll int, counts []int) (p strip.Problem, of []int) {
	r := &s.lay.Rolls[roll]
	gap := s.lay.gap()
	p = strip.Problem{Width: s.lay.width(r), Flaws: s.flaws[roll]}
	p.End = s.end(roll)
	for k := range s.kinds {
		if counts[k] == 0 {
			continue
		}
		shape := strip.Shape{Turns: s.kinds[k].held, Count: counts[k]}
		if m := s.lay.Pieces[s.kinds[k].piece].Match; m != nil && (r.Along > 0 || r.Across > 0) {
			for _, t := range s.kinds[k].turns {
				shape.Grids = append(shape.Grids, strip.Grid{
					X: s.lay.steps(r.Along, s.lay.of(m.Along+r.Pattern.X)+gap/2-t.match[0], m.Tolerance),
					Y: s.lay.steps(r.Across, s.lay.of(m.Across+r.Pattern.Y-r.Selvedge)+gap/2-t.match[1], m.Tolerance),
				})
			}
		}
		p.Shapes, of = append(p.Shapes, shape), append(of, k)
	}
	return p, of
}

// end is that of a roll with half a gap on both sides, 0 if it has none.
func (s *laying) end(roll int) int64 {
	r := &s.lay.Rolls[roll]
	if r.Length == 0 {
		return 0
	}
	return max(1, int64(math.Floor(s.lay.of(r.Length)+s.lay.gap()+1e-4)))
}

func (l ruled) steps(repeat units.Length, phase float64, tolerance units.Length) strip.Steps {
	if repeat == 0 {
		return strip.Steps{}
	}
	r := int64(l.of(repeat))
	// The phase is rounded: half a unit of the tolerance goes.
	return strip.Steps{Repeat: r, Phase: int64(math.Round(phase)) % r, Tolerance: min(r, int64(max(0, math.Floor(l.of(tolerance)-0.5))))}
}

// spent is the part of the budget that is used up.
func (s *laying) spent(work int64) float64 {
	if s.options.Left == nil {
		return float64(work) / float64(s.options.Work)
	}
	if s.time <= 0 {
		return 1
	}
	return 1 - float64(s.options.Left())/float64(s.time)
}

// mostWorkers bound the memory of a search, which takes some for each.
const mostWorkers = 256

// solve lays what is to lie on a roll. It reports false where that is not possible,
// or the end of the roll is too near for what the work found.
func (s *laying) solve(t *filled, o strip.Options) (bool, error) {
	p, of := s.problem(t.roll, t.counts)
	o.Seed, o.Workers, o.Circles = s.options.Seed, min(max(1, s.options.Workers), mostWorkers), s.circles
	var got strip.Result
	var bound float64
	var err error
	if r, ok := rectangles(p); ok {
		got, bound, err = s.rectangles(t.roll, p, of, r, o)
	} else {
		got, err = strip.Solve(s.ctx, p, o)
	}
	s.work += got.Work
	switch {
	case errors.Is(err, strip.ErrFit), errors.Is(err, strip.ErrEnd):
		return false, nil
	case errors.Is(err, strip.ErrSize):
		return false, refuseAs(ErrInput, "Pieces", err, fmt.Sprintf("pieces whose longest sides add up to less than %.0f m", 100*math.Floor(math.Ldexp(s.lay.unit, 26)*1e-11)))
	case errors.Is(err, rects.ErrSize):
		return false, refuseAs(ErrInput, "Pieces", err, fmt.Sprintf("rectangles whose longest sides add up to less than %.0f m", 100*math.Floor(math.Ldexp(s.lay.unit, 30)*1e-11)))
	case err != nil:
		return false, refuseAs(ErrCloth, fmt.Sprintf("Rolls[%d] (%s)", t.roll, s.lay.Rolls[t.roll].Name), err, "pieces that can be laid")
	}
	t.layout, t.bound = got.Layout, max(t.bound, bound)
	return true, nil
}

// roomFor reports whether one of a kind fits a roll.
func (s *laying) roomFor(roll, kind int) (bool, error) {
	if s.room == nil {
		s.room = make([][]int8, len(s.lay.Rolls))
	}
	if s.room[roll] == nil {
		s.room[roll] = make([]int8, len(s.kinds))
	}
	known := &s.room[roll][kind]
	if *known == 0 {
		counts := make([]int, len(s.kinds))
		counts[kind] = 1
		p, _ := s.problem(roll, counts)
		switch err := p.Check(); {
		case err == nil:
			*known = 1
		case errors.Is(err, strip.ErrFit):
			*known = -1
		default:
			return false, refuse(fmt.Sprintf("Pieces[%d] (%s)", s.kinds[kind].piece, s.lay.Pieces[s.kinds[kind].piece].Name), err, "what can be laid")
		}
	}
	return *known > 0, nil
}

func (s *laying) roomForEach() error {
	for k := range s.kinds {
		some := false
		for i := range s.lay.Rolls {
			fits, err := s.roomFor(i, k)
			if err != nil {
				return err
			}
			some = some || fits
		}
		if !some {
			p := &s.lay.Pieces[s.kinds[k].piece]
			left, right, low, high := extent(s.kinds[k].turns[0].cut)
			wide := func(r Roll) bool { return s.lay.of(r.Width-2*r.Selvedge) >= high-low }
			long := func(r Roll) bool { return wide(r) && (r.Length == 0 || s.lay.of(r.Length) >= right-left) }
			c := choice{way: "across", size: float64(s.lay.length(high - low))}
			if slices.ContainsFunc(s.lay.Rolls, wide) {
				c = choice{way: "along", size: float64(s.lay.length(right - left))}
			}
			found, sentinel := c.found()
			if slices.ContainsFunc(s.lay.Rolls, long) {
				found, sentinel = fmt.Sprintf("as large as the cloth or too near to that for the %v mm to which pieces are laid", s.lay.unit/1e6), ErrCloth
				if p.Match != nil {
					found = "nowhere on the pattern"
				}
			}
			return refuseAs(sentinel, fmt.Sprintf("Pieces[%d] (%s)", s.kinds[k].piece, p.Name), found, "a piece that fits one of the rolls, on its pattern, if any")
		}
	}
	return nil
}

// cost of a length, in units without the gap, of a roll.
func (l *Lay) cost(r *Roll, used units.Length) (bought units.Length, cost units.Money) {
	bought = used
	if r.Increment > 0 {
		bought = r.Increment.Scale(math.Ceil(float64(used)/float64(r.Increment) - 1e-9))
	}
	if r.Length > 0 {
		bought = min(bought, r.Length)
	}
	cost = r.Value + units.Money(float64(r.Price)*float64(bought))
	if r.Price == 0 && r.Length > 0 {
		bought = r.Length // an offcut
	}
	return bought, cost
}

// used is how far the pieces themselves reach, up to a whole nanometre: what is
// laid for them reaches a little farther.
func (s *laying) used(t filled) units.Length {
	_, of := s.problem(t.roll, t.counts)
	end := 0.0
	for _, at := range t.layout.Places {
		end = max(end, s.kinds[of[at.Shape]].turns[at.Turn].end+float64(at.X))
	}
	return s.lay.length(math.Ceil((end-s.lay.gap()/2)*s.lay.unit-1e-2) / s.lay.unit)
}

func (l ruled) used(length int64) units.Length {
	return l.length(math.Round((float64(length)-l.gap())*l.unit) / l.unit)
}
