package canvas

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// CoversPlan is where the pieces of covers are cut from.
type CoversPlan struct {
	Covers []Cover // with the panels that were split
	Splits []PanelSplit
	Lay    Lay // with all pieces, those it had before first
	// Sources has for each of the Lay's pieces what it is cut for.
	Sources []PieceSource
	Plan    LayPlan
}

// PieceSource says what a piece of a plan is cut for.
type PieceSource struct {
	Cover int    // in the input; -1 for a piece that the lay had before
	Panel string // of that cover in Covers; empty for a piece that the lay had before
	Added bool   // the piece is a patch or a facing of that panel
}

// PanelSplit is a panel that no roll took whole.
type PanelSplit struct {
	Cover    int
	Panel    string
	From, To Point // two points of the line, on the panel
	Square   bool  // to the warp; along it otherwise
	Tried    int   // places of the seam, with pieces that fit
}

// PlanCovers lays the pieces of covers on the rolls, with those that l has, as the
// cloth's Lie and Flip allow: while seams are chosen too.
//
// On a roll with repeats a panel that has a Match lies on the pattern, and so do the
// parts of one that is split, which go on from one another ([Cover.Split]). A panel
// without one lies anywhere, and so do all patches and facings.
//
// A panel that is too wide for every roll is split along its warp, one that is too
// long square to it, with [Cover.Split] and in as few parts as the rolls allow.
// The place of the seam is the one, of some twenty, with which the cloth costs
// least in a short search; where that is alike, the least length is used, and then
// the shortest seam is chosen. Of a panel that needs three parts or more only
// equal ones and parts as large as the roll allows are tried. Panels are split in
// their order, each with the pieces before it.
//
// Of the parts, the first is that to the left of the warp, or that farther along it where
// the seam is square to the warp. With a seam FelledOver it laps over the second, with
// FelledIn the second over it, see [Cover.Split]: have the higher part lap over the lower,
// or water runs into the fell.
//
// Up to half of the budget goes to the places of seams, the rest to the plan of
// all pieces; when it is used up, or ctx is done, the best place so far is taken.
// Progress is also called with what the pieces so far take when a better place is
// found. The plan's Bound is of the parts as they were split.
//
// A panel that cannot be split so is refused with an error that wraps [ErrCloth].
func (l Lay) PlanCovers(ctx context.Context, covers []Cover, t Cloth, seam Finish, o LayOptions) (CoversPlan, error) {
	if o.Work <= 0 {
		o.Work = 500_000
	}
	if o.circles == nil {
		o.circles = &strip.Circles{}
	}
	out := CoversPlan{Lay: l}
	if len(l.Pieces) > 0 {
		if err := l.check(); err != nil {
			return CoversPlan{}, err
		}
	}
	for range l.Pieces {
		out.Sources = append(out.Sources, PieceSource{Cover: -1})
	}
	all := make([][][]Piece, len(covers)) // by cover and panel
	splits := 0                           // panels that have to be
	for i, v := range covers {
		var err error
		if all[i], err = v.piecesOf(t); err != nil {
			return CoversPlan{}, within(fmt.Sprintf("covers[%d]", i), err)
		}
		for _, p := range slices.Concat(all[i]...) {
			fits, err := l.takes(p.Cutting())
			if err != nil {
				return CoversPlan{}, err
			}
			if !fits {
				splits++
			}
		}
	}
	spent := int64(0)
	for i, v := range covers {
		pieces := all[i]
		for {
			large, err := out.Lay.tooLarge(pieces)
			if err != nil {
				return CoversPlan{}, err
			}
			if large < 0 {
				for k, own := range pieces {
					for m, p := range own {
						out.Lay.Pieces = append(out.Lay.Pieces[:len(out.Lay.Pieces):len(out.Lay.Pieces)], p.Cutting())
						out.Sources = append(out.Sources, PieceSource{i, v.Panels[k].Name, m > 0})
					}
				}
				break
			}
			f := fitting{ctx: ctx, lay: out.Lay, cloth: t, seam: seam, options: o, before: spent, share: choosing / float64(max(1, splits))}
			best, err := f.best(v, v.Panels[large].Name)
			if err != nil {
				return CoversPlan{}, within(fmt.Sprintf("covers[%d]", i), outward(err))
			}
			for k := range best.splits {
				best.splits[k].Cover, best.splits[k].Tried = i, f.tried
			}
			v, spent = best.cover, spent+f.spent
			out.Splits = append(out.Splits, best.splits...)
			if pieces, err = v.piecesOf(t); err != nil {
				return CoversPlan{}, within(fmt.Sprintf("covers[%d]", i), err)
			}
		}
		out.Covers = append(out.Covers, v)
	}
	last := o
	last.Work = max(1, o.Work-spent)
	if o.Progress != nil {
		last.Progress = func(p LayProgress) { p.Work += spent; o.Progress(p) }
	}
	plan, err := out.Lay.Plan(ctx, last)
	out.Plan = plan
	out.Plan.Work += spent
	return out, err
}

// tooLarge is the first panel of a cover whose piece fits no roll, -1 if none is.
func (l *Lay) tooLarge(pieces [][]Piece) (int, error) {
	for panel, own := range pieces {
		for k, p := range own {
			fits, err := l.takes(p.Cutting())
			if err != nil {
				return 0, err
			}
			if fits {
				continue
			}
			if k > 0 {
				return 0, refuseAs(ErrCloth, quoted(p.Name), "too large for the rolls", "a patch or a facing that fits one of them")
			}
			return panel, nil
		}
	}
	return -1, nil
}

// takes reports whether a roll has room for a piece.
func (l *Lay) takes(c Cutting) (bool, error) {
	one := *l
	one.Pieces = []Cutting{c}
	if err := one.check(); err != nil {
		return false, err
	}
	in := one.ruled()
	kinds, err := in.kinds()
	if err != nil {
		return false, err
	}
	s := &laying{lay: in, kinds: kinds, flaws: make([][][]int64, len(l.Rolls))}
	for i := range l.Rolls {
		if s.flaws[i], err = in.flaws(i); err != nil {
			return false, err
		}
	}
	switch err := s.roomForEach(); {
	case errors.Is(err, ErrCloth):
		return false, nil
	default:
		return err == nil, err
	}
}

// choosing is the part of the budget for the places of all seams.
const choosing = 0.5

// fitting is the search for the place of a seam.
type fitting struct {
	ctx     context.Context
	lay     Lay
	cloth   Cloth
	seam    Finish
	options LayOptions
	share   float64 // of the budget, for this panel
	before  int64   // work for others
	spent   int64
	tried   int
}

// fitted is a cover whose panel was split until its parts fit.
type fitted struct {
	cover  Cover
	splits []PanelSplit
	parts  []Cutting
	seam   float64 // length
	cost   units.Money
	used   units.Length
	rolls  []RollUse
}

// less is whether a is the better one. What is alike but for rounding is alike.
func (a *fitted) less(b *fitted) bool {
	const hair = 1e-7
	if d := float64(a.cost - b.cost); math.Abs(d) > hair {
		return d < 0
	}
	if d := float64(a.used - b.used); math.Abs(d) > hair {
		return d < 0
	}
	return a.seam < b.seam-hair
}

// best tries the places of the seam.
func (f *fitting) best(v Cover, panel string) (fitted, error) {
	c, err := f.choice(v, panel)
	if err != nil {
		return fitted{}, err
	}
	var best fitted
	var why error
	var through []string // what seams would go through
	budget, began := int64(f.share*float64(f.options.Work)), time.Duration(0)
	if f.options.Left != nil {
		began = f.options.Left()
	}
	for i, at := range c.places {
		// What is left of this panel's share, divided among the places left.
		o := LayOptions{Seed: f.options.Seed, Workers: f.options.Workers, circles: f.options.circles}
		part := 1 / float64(len(c.places)-i)
		o.Work = max(1, int64(part*float64(budget-f.spent)))
		over := f.spent >= budget
		if left := f.options.Left; left != nil {
			// Time goes by the same shares; a place is tried for as long as its own lasts.
			until := began - time.Duration(f.share*float64(began))
			now := left()
			end := now - time.Duration(part*float64(now-until))
			o.Left = func() time.Duration { return left() - end }
			over = now <= until
		}
		if best.splits != nil && (over || f.ctx.Err() != nil) {
			break
		}
		got, err := f.divide(v, panel, []float64{at})
		if err == nil {
			err = f.lays(&got, o)
		}
		if err != nil {
			var e *Error
			switch {
			case errors.Is(err, ErrSplit) && errors.As(err, &e):
				if !slices.Contains(through, e.Value) {
					through = append(through, e.Value)
				}
			case !errors.Is(why, errShort):
				why = err
			}
			continue
		}
		f.tried++
		if best.splits == nil || got.less(&best) {
			best = got
			f.tell(&got)
		}
	}
	if best.splits == nil {
		return fitted{}, c.refuse(panel, why, through)
	}
	return best, nil
}

// errShort is an [ErrCloth] of rolls that are wide enough, to tell them apart on the way
// out: outward makes it the sentinel.
var errShort = fmt.Errorf("%w", ErrCloth)

func outward(err error) error {
	if e, ok := err.(*Error); ok && e.Err == errShort {
		plain := *e
		plain.Err = ErrCloth
		return &plain
	}
	return err
}

// refuse says why a panel cannot be split: what is in the way, or through what
// each seam would go.
func (c *choice) refuse(panel string, why error, through []string) error {
	found, sentinel := c.found()
	switch {
	case errors.Is(why, errShort):
		found = fmt.Sprintf("on rolls too short for it, whole or in parts: %.3v %s the roll (%v)", units.Length(c.size), c.way, why)
		return refuseAs(errShort, quoted(panel), found, "longer rolls, or more of them")
	case why != nil:
		found += fmt.Sprintf(" and not to be split (%v)", why)
	case through != nil:
		found += fmt.Sprintf(" and not to be split (a seam would be %s)", strings.Join(through, ", or "))
	}
	return refuseAs(sentinel, quoted(panel), found, "a panel that fits one of the rolls, whole or in parts")
}

// found says in which way a panel is too large, and as which error.
func (c *choice) found() (string, error) {
	found := fmt.Sprintf("%.3v %s the roll", units.Length(c.size), c.way)
	if c.matched {
		found += ", on its pattern"
	}
	if c.way == "along" {
		return "on rolls too short for it: " + found, errShort
	}
	return found, ErrCloth
}

// lays finds what it costs.
func (f *fitting) lays(g *fitted, o LayOptions) error {
	lay := f.lay
	lay.Deviation = max(lay.Deviation, 3*units.Millimetre) // near enough to choose by, with far fewer corners
	lay.Pieces = append(lay.Pieces[:len(lay.Pieces):len(lay.Pieces)], g.parts...)
	plan, err := lay.planned(f.ctx, o)
	f.spent += plan.Work
	g.cost, g.rolls = plan.Cost, plan.Rolls
	for _, u := range plan.Rolls {
		g.used += u.Used
	}
	return err
}

// tell reports the lengths with a better place of the seam.
func (f *fitting) tell(g *fitted) {
	if f.options.Progress == nil {
		return
	}
	for _, u := range g.rolls {
		f.options.Progress(LayProgress{u.Roll, u.Used, f.before + f.spent})
	}
}

// divide splits a panel at the first of some heights that leads to parts that
// fit; none is any that may.
func (f *fitting) divide(v Cover, panel string, heights []float64) (fitted, error) {
	c, err := f.choice(v, panel)
	if err != nil {
		return fitted{}, err
	}
	if heights == nil {
		heights = c.places
	}
	found, sentinel := c.found()
	why := refuseAs(sentinel, quoted(panel), found, "a panel that can be split to fit")
	for _, at := range heights {
		q := c.square.Times(at)
		line := PanelSplit{Panel: panel, From: wrap(q), To: wrap(q.Add(c.square.Right())), Square: c.way == "along"}
		var out fitted
		if out, err = f.parts(v, line); err == nil {
			return out, nil
		}
		why = err
	}
	return fitted{}, why
}

// parts splits a panel, and its parts where they do not fit.
func (f *fitting) parts(v Cover, line PanelSplit) (fitted, error) {
	cover, err := v.Split(line.Panel, line.From, line.To, f.seam)
	if err != nil {
		return fitted{}, err
	}
	pairs, err := cover.SeamLengths()
	if err != nil {
		return fitted{}, err
	}
	out := fitted{cover: cover, splits: []PanelSplit{line}, seam: float64(pairs[0][0])}
	for k := 1; k <= 2; k++ {
		name := fmt.Sprintf("%s %d", line.Panel, k)
		p, err := f.piece(out.cover, name)
		if err != nil {
			return fitted{}, err
		}
		fits, err := f.lay.takes(p.Cutting())
		if err != nil {
			return fitted{}, err
		}
		if fits {
			out.parts = append(out.parts, p.Cutting())
			continue
		}
		more, err := f.divide(out.cover, name, nil)
		if err != nil {
			return fitted{}, err
		}
		out.cover, out.seam = more.cover, out.seam+more.seam
		out.splits, out.parts = append(out.splits, more.splits...), append(out.parts, more.parts...)
	}
	return out, nil
}

// piece returns a panel's piece.
func (f *fitting) piece(v Cover, panel string) (Piece, error) {
	i := slices.IndexFunc(v.Panels, func(p Panel) bool { return p.Name == panel })
	pieces, err := (Cover{Panels: v.Panels[i : i+1]}).Pieces(f.cloth)
	if err != nil {
		return Piece{}, err
	}
	return pieces[0], nil
}

// choice is where a panel may be split.
type choice struct {
	square plane.Point // to the lines
	way    string      // in which it is too large on the roll
	size   float64
	// matched is a piece that lies on the pattern, where there may be less room.
	matched bool
	places  []float64 // of the line, from the panel's X = 0, Y = 0
}

// choice finds the places at which as few parts as possible may fit.
func (f *fitting) choice(v Cover, panel string) (choice, error) {
	p, err := f.piece(v, panel)
	if err != nil {
		return choice{}, err
	}
	sin, cos := math.Sincos(float64(p.Grain))
	c, scale := choice{square: plane.Point{X: -sin, Y: cos}, way: "across", matched: p.Match != nil}, 1+f.cloth.Weft
	low, high := reach(p.Cut, c.square)
	room := f.lay.rooms(&p, c.square, false, low, high)
	// A roll without an end is never too short.
	if endless := slices.ContainsFunc(f.lay.Rolls, func(r Roll) bool { return r.Length == 0 }); !endless && high-low <= room[0] {
		left, right := reach(p.Cut, plane.Point{X: cos, Y: sin})
		long := f.lay.rooms(&p, plane.Point{X: cos, Y: sin}, true, left, right)
		// Where one roll is wide enough and another long enough, one of them has to do.
		var wide bool
		if right-left <= long[0] {
			room, long, wide = f.lay.single(&p, [2]plane.Point{c.square, {X: cos, Y: sin}}, [2]float64{low, high}, [2]float64{left, right})
		}
		if !wide {
			c.way, c.square, scale = "along", plane.Point{X: cos, Y: sin}, 1+f.cloth.Warp
			low, high, room = left, right, long
		}
	}
	c.size = high - low
	var sewn []Point
	for _, line := range p.Sew {
		sewn = append(sewn, line...)
	}
	from, to := reach(sewn, c.square)
	sides := f.seam.sides()
	allowance := float64(max(sides[0].allowance(f.cloth.Thickness), sides[1].allowance(f.cloth.Thickness)))
	// What a part at an end of the panel reaches, and one between two seams.
	const hair = 0.2e-3 // for outlines that are rounded outwards
	first, last := low+room[0]-allowance-hair, high-room[1]+allowance+hair
	each := min(room[0], room[1]) - 2*allowance - hair
	if !(first > from && last < to && each > 0) {
		return c, nil
	}
	parts := 2.0
	for ; parts < 50 && first+(parts-2)*each < last; parts++ {
	}
	add := func(at float64) {
		if at > from && at < to {
			c.places = append(c.places, at*scale)
		}
	}
	if parts > 2 {
		add(from + (to-from)/parts)
		add(first)
		add(last)
		return c, nil
	}
	const between = 20
	first, last = math.Min(first, to-allowance), math.Max(last, from+allowance)
	// The middle and the ends before what lies between, should the budget end.
	for _, k := range [between + 1]float64{10, 0, 20, 5, 15, 2, 18, 8, 12, 1, 19, 4, 16, 7, 13, 3, 17, 6, 14, 9, 11} {
		add(last + float64(k/between*(first-last)))
	}
	return c, nil
}

// single is the roll that takes a piece in the fewest parts, of several the one with the
// most cloth: the room across it and along it, and whether the piece is too wide for it.
func (l *Lay) single(p *Piece, d [2]plane.Point, across, along [2]float64) (room, long [2]float64, wide bool) {
	least, most := math.Inf(1), 0.0
	for i := range l.Rolls {
		one := Lay{Rolls: l.Rolls[i : i+1]}
		a, b := one.rooms(p, d[0], false, across[0], across[1]), one.rooms(p, d[1], true, along[0], along[1])
		if !(min(a[0], a[1], b[0], b[1]) > 0) {
			continue
		}
		w, h := across[1]-across[0], along[1]-along[0]
		if parts := math.Ceil(w/a[0]) * math.Ceil(h/b[0]); parts < least || parts == least && a[0]*b[0] > most {
			least, most, room, long, wide = parts, a[0]*b[0], a, b, w > a[0]
		}
	}
	return room, long, wide
}

// rooms is the most that a roll has, across it or along it, for a piece that reaches
// from low to high in that direction: for a part of it with the low end, and for one with the
// high end. A piece with a Match leaves free what the pattern keeps its end from the edge.
func (l *Lay) rooms(p *Piece, d plane.Point, along bool, low, high float64) (most [2]float64) {
	for _, r := range l.Rolls {
		from, to, repeat := float64(r.Selvedge), float64(r.Width-r.Selvedge), float64(r.Across)
		if along {
			from, to, repeat = 0, float64(r.Length), float64(r.Along)
		}
		room := [2]float64{to - from, to - from}
		if m := p.Match; m != nil && repeat > 0 {
			at := float64(m.Across + r.Pattern.Y)
			if along {
				at = float64(m.Along + r.Pattern.X)
			}
			kept := func(gap float64) float64 {
				gap -= float64(repeat * math.Floor(gap/repeat))
				if play := math.Max(float64(m.Tolerance), hundredth*1e-9/2); gap <= play || gap >= repeat-play {
					return 0
				}
				return gap
			}
			begin, end := low-m.At.bare().Dot(d), high-m.At.bare().Dot(d)
			room[0] -= kept(at + begin - from)
			room[1] -= kept(to - at - end)
			if p.Mirrored > 0 && !along { // its low end is the upper one on the roll
				room[0] = min(room[0], to-from-kept(to-at+begin))
				room[1] = min(room[1], to-from-kept(at-end-from))
			}
		}
		most[0], most[1] = max(most[0], room[0]), max(most[1], room[1])
	}
	return most
}

// reach is how far a line goes in a direction.
func reach(line []Point, d plane.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, q := range line {
		at := q.bare().Dot(d)
		low, high = math.Min(low, at), math.Max(high, at)
	}
	return low, high
}
