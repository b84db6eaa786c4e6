package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Split divides a panel along a straight line and sews the two parts together
// again: the part to the left of the way from one point to the other gets the
// panel's name and " 1", that to the right " 2". Both get the allowance of the
// seam: a plain, lapped, French or flat-felled one. FelledOver has the left part lap over
// the right one, FelledIn (with the Turn) the right part over the left, where the fell is
// on the side that gets the rain; sewn underneath, it laps the other way. On an awning or a
// cover it has to be the part that lies higher, so that water runs off the fell and not
// into it. Of a lapped seam lay the higher part on top. Edges that the line crosses are divided, and so are the seams along them,
// with the edges on their other sides at the same part of their length, so that
// match marks still meet. Holes, darts, fittings and corner patches go with the
// part they lie on.
//
// Both parts keep the panel's coordinates and its Match, on whichever the point lies.
// Laid as [Cover.Pieces] says, every point of them has the place in the repeat that it had
// in the whole panel, and a point of the sewing line the same one on both sides: the
// pattern goes on across the seam, to within twice the tolerance. Allowances
// are more of the same pattern, and lie on what they repeat. Shrinkage changes nothing, as
// both parts are cut larger or smaller from the same X = 0, Y = 0 along the same grain.
//
// An error that wraps [ErrSplit] says what is in the way: a line that does not
// cross the outline twice, a hole with its patch, a dart, an eyelet or a corner
// patch on the seam, or a seam of several panels side by side that would be divided.
func (v Cover) Split(panel string, from, to Point, seam Finish) (Cover, error) {
	if _, err := v.lay(); err != nil {
		return Cover{}, err
	}
	var c checker
	c.point("from", from)
	c.point("to", to)
	seam.check(&c, "seam")
	if seam.Kind == FelledIn {
		seam.sides()[1].check(&c, "seam")
	}
	if c.err == nil && !(to.bare().Sub(from.bare()).Norm() > tolerance) {
		c.err = refuse("to", fmt.Sprint(to), "another point than from")
	}
	if c.err == nil && !slices.Contains([]FinishKind{PlainSeam, Lapped, French, FelledOver, FelledIn}, seam.Kind) {
		c.err = refuse("seam.Kind", fmt.Sprintf("%q", seam.Kind), "a plain, lapped or French seam, or felled over or in")
	}
	at := slices.IndexFunc(v.Panels, func(p Panel) bool { return p.Name == panel })
	if c.err == nil && at < 0 {
		c.err = refuseAs(ErrUnknown, "panel", fmt.Sprintf("%q", panel), "a panel of the cover")
	}
	if c.err != nil {
		return Cover{}, c.err
	}
	s := splitter{panels: slices.Clone(v.Panels)}
	for i := range s.panels {
		p := &s.panels[i]
		p.Patches = slices.Clone(p.Patches)
		for k := range p.Patches {
			p.Patches[k].Name = p.Patches[k].name()
		}
	}
	for _, m := range v.Seams {
		w := parted{seam: m}
		for k, side := range []Side{m.A, m.B} {
			for _, e := range side.Edges {
				w.sides[k] = append(w.sides[k], edgeOf{side.Panel, e})
			}
		}
		s.seams = append(s.seams, w)
	}
	if err := s.split(at, from.bare(), to.bare(), seam); err != nil {
		return Cover{}, err
	}
	if err := s.partSeams(); err != nil {
		return Cover{}, err
	}
	v.Panels, v.Seams = s.panels, nil
	for _, w := range s.seams {
		v.Seams = append(v.Seams, w.whole())
	}
	l, err := v.lay()
	if err != nil {
		return Cover{}, refuseAs(ErrSplit, "line", fmt.Sprintf("in the way of something (%v)", err), "a line elsewhere")
	}
	remark := fmt.Sprintf("%s is joined of two parts by a seam of %s, where it is weaker than the cloth", panel, written(units.Length(l.seams[s.joint][0].length), v.Imperial))
	over := map[FinishKind][2]int{FelledOver: {1, 2}, FelledIn: {2, 1}}[seam.Kind]
	switch seam.Kind {
	case FelledOver, FelledIn:
		remark += fmt.Sprintf("; with the fell on the upper side %[1]s %[2]d laps over %[1]s %[3]d, which then has to lie lower, or water runs into it: where it lies higher, sew the fell underneath", panel, over[0], over[1])
	case Lapped:
		remark += "; lay the part that is higher on top, so that water runs off the lap"
	}
	v.Remarks = append(slices.Clone(v.Remarks), remark)
	return v, nil
}

// sides are the finishes of the left and of the right side of a joint.
func (f Finish) sides() [2]Finish {
	in, over := Finish{Kind: FelledIn, Width: f.Width}, Finish{Kind: FelledOver, Width: f.Width, Turn: f.Turn}
	switch f.Kind {
	case FelledOver:
		return [2]Finish{over, in}
	case FelledIn:
		return [2]Finish{in, over}
	}
	return [2]Finish{f, f}
}

// splitter is the work on a cover.
type splitter struct {
	panels []Panel
	seams  []parted
	joint  int // the new seam
}

// edgeOf is an edge by its name.
type edgeOf struct{ panel, edge string }

// parted is a seam whose sides may for a while belong to several panels.
type parted struct {
	seam  Seam
	sides [2][]edgeOf // in the direction of the panels
}

func (w *parted) side(k int) *Side {
	if k == 0 {
		return &w.seam.A
	}
	return &w.seam.B
}

func (w *parted) whole() Seam {
	for k, edges := range w.sides {
		side := w.side(k)
		side.Panel, side.Edges = edges[0].panel, nil
		for _, e := range edges {
			side.Edges = append(side.Edges, e.edge)
		}
	}
	return w.seam
}

// onLine is how near to a line a point lies on it.
const onLine = 1e-6 // m

// meeting is where the line crosses the outline: at a part of an edge's length, 0 at its beginning.
type meeting struct {
	edge int
	part float64
}

// meetings follows the outline of a panel and finds where it changes sides.
func meetings(p *Panel, edges []laid, side func(plane.Point) float64) ([]meeting, error) {
	type vertex struct {
		at   meeting
		side float64
	}
	var ring []vertex
	for i, e := range edges {
		whole, sum := plane.Length(e.line), 0.0
		for k, q := range e.line[:len(e.line)-1] {
			d := side(q)
			if math.Abs(d) < onLine {
				d = 0
			}
			ring = append(ring, vertex{meeting{i, sum / whole}, d})
			sum += e.line[k+1].Sub(q).Norm()
		}
	}
	var out []meeting
	last := 0.0 // the side before
	for k := len(ring) - 1; k >= 0 && last == 0; k-- {
		last = ring[k].side
	}
	for k, a := range ring {
		b := ring[(k+1)%len(ring)]
		if a.side == 0 {
			if b.side == 0 {
				return nil, refuseAs(ErrSplit, "line", "along "+quoted(p.Edges[a.at.edge].Name), "a line across the panel")
			}
			if b.side*last < 0 {
				out = append(out, a.at)
			}
			continue
		}
		last = a.side
		if a.side*b.side < 0 {
			end := b.at.part
			if b.at.edge != a.at.edge {
				end = 1
			}
			e := &edges[a.at.edge]
			lo, hi := a.at.part, end
			for range 60 {
				mid := (lo + hi) / 2
				if q := exactly(p.Edges[a.at.edge].Course, e, mid); side(q)*a.side > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			out = append(out, meeting{a.at.edge, (lo + hi) / 2})
		}
	}
	if len(out) != 2 {
		return nil, refuseAs(ErrSplit, "line", fmt.Sprintf("across the outline of %s at %d places", quoted(p.Name), len(out)), "a line across it at two")
	}
	return out, nil
}

func quoted(s string) string { return fmt.Sprintf("%q", s) }

// exactly is the point at a part of an edge's length: on the circle, where it is an arc.
func exactly(w Course, e *laid, part float64) plane.Point {
	if w.Curve != Arc {
		q, _ := along(e.line, part)
		return q
	}
	a, b := e.line[0], e.line[len(e.line)-1]
	chord, depth := b.Sub(a).Norm(), math.Abs(float64(w.Depth))
	angle := 4 * math.Atan(2*depth/chord)
	radius := (chord*chord/4 + depth*depth) / (2 * depth)
	sin, cos := math.Sincos(angle * (part - 0.5))
	x := b.Sub(a).Unit()
	return a.Add(x.Times(chord/2 + radius*sin)).Add(x.Right().Times(math.Copysign(radius*(cos-1)+depth, float64(w.Depth))))
}

// divide makes two edges of one. It reports what is in the way.
func (s *splitter) divide(panel, edge int, part float64) error {
	p := &s.panels[panel]
	edges, err := p.outline()
	if err != nil {
		return err
	}
	e, long := edges[edge], edges[edge].length
	first := p.Edges[edge]
	second := first
	q := exactly(first.Course, &e, part)
	second.From, second.Corner = wrap(q), AutoCorner
	switch w := first.Course; w.Curve {
	case Straight:
	case Arc:
		chord, depth := e.line[len(e.line)-1].Sub(e.line[0]).Norm(), math.Abs(float64(w.Depth))
		angle := 4 * math.Atan(2*depth/chord)
		sagitta := func(part float64) units.Length {
			sin := math.Sin(angle * part / 4)
			return units.Length(math.Copysign(2*long/angle*sin*sin, float64(w.Depth)))
		}
		first.Course.Depth, second.Course.Depth = sagitta(part), sagitta(1-part)
	default:
		before := head(e.line, part*plane.Length(e.line))
		back := slices.Clone(e.line)
		slices.Reverse(back)
		after := head(back, (1-part)*plane.Length(e.line))
		slices.Reverse(after)
		first.Course, second.Course = points(before), points(after)
	}
	for n := 2; second.Name != "" && slices.ContainsFunc(p.Edges, func(e Edge) bool { return e.Name == second.Name }); n++ {
		second.Name = fmt.Sprintf("%s %d", first.Name, n)
	}
	p.Edges = slices.Clone(p.Edges)
	p.Edges[edge] = first
	p.Edges = slices.Insert(p.Edges, edge+1, second)
	for i := range p.Patches {
		if p.Patches[i].Corner > edge {
			p.Patches[i].Corner++
		}
	}
	p.Darts = slices.Clone(p.Darts)
	for i := range p.Darts {
		d := &p.Darts[i]
		if d.Edge != first.Name {
			continue
		}
		half := float64(d.Width) / 2 / long
		switch {
		case d.At+half < part:
			d.At /= part
		case d.At-half > part:
			d.At, d.Edge = (d.At-part)/(1-part), second.Name
		default:
			return refuseAs(ErrSplit, "line", fmt.Sprintf("through Darts[%d] of %s", i, quoted(p.Name)), "a seam beside it")
		}
	}
	p.Holes = slices.Clone(p.Holes)
	for i := range p.Holes {
		h := &p.Holes[i]
		if h.Edge == first.Name && h.Edge != "" {
			if n := nearest(e.line, h.At.bare(), false); plane.Length(upTo(e.line, n)) > part*plane.Length(e.line) {
				h.Edge = second.Name
			}
		}
	}
	for i := range s.seams {
		for k := range s.seams[i].sides {
			list := s.seams[i].sides[k]
			if at := slices.Index(list, edgeOf{p.Name, first.Name}); at >= 0 {
				if s.seams[i].side(k).Times > 1 {
					return refuseAs(ErrSplit, "line", fmt.Sprintf("dividing seam %s of panels side by side", quoted(s.seams[i].seam.Name)), "a line beside it")
				}
				s.seams[i].sides[k] = slices.Insert(slices.Clone(list), at+1, edgeOf{p.Name, second.Name})
			}
		}
	}
	return nil
}

// outline follows the edges alone: what lies on the panel is checked when it is split.
func (p Panel) outline() ([]laid, error) {
	p.Holes, p.Patches, p.Darts, p.Fittings = nil, nil, nil, nil
	return p.lay()
}

// upTo is the part of a polyline before the place nearest to a point of it.
func upTo(line []plane.Point, p plane.Point) []plane.Point {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		if plane.Distance(line[i-1:i+1], p) < 1e-9 {
			return append(out, p)
		}
		out = append(out, line[i])
	}
	return out
}

// split makes two panels of one.
func (s *splitter) split(panel int, from, to plane.Point, seam Finish) error {
	left := to.Sub(from).Unit().Right().Times(-1)
	side := func(q plane.Point) float64 { return q.Sub(from).Dot(left) }
	edges, err := s.panels[panel].lay()
	if err != nil {
		return err
	}
	m, err := meetings(&s.panels[panel], edges, side)
	if err != nil {
		return err
	}
	s.openTo(panel, edges)
	// The later one first, so that the numbers of the other's edges stay.
	if m[1].part > 0 {
		if err := s.divide(panel, m[1].edge, m[1].part); err != nil {
			return err
		}
		m[1].edge++
	}
	if m[0].part > 0 {
		part := m[0].part
		if m[0].edge == m[1].edge-1 && m[1].part > 0 {
			part /= m[1].part
		}
		if err := s.divide(panel, m[0].edge, part); err != nil {
			return err
		}
		m[0].edge++
		m[1].edge++
	}
	p := s.panels[panel]
	i, j, n := m[0].edge, m[1].edge, len(p.Edges)
	join := "join"
	for k := 2; slices.ContainsFunc(p.Edges, func(e Edge) bool { return e.Name == join }); k++ {
		join = fmt.Sprintf("join %d", k)
	}
	// Both parts begin where the seam ends.
	var numbers [2][]int
	for k := i; k < j; k++ {
		numbers[0] = append(numbers[0], k)
	}
	for k := j; k < i+n; k++ {
		numbers[1] = append(numbers[1], k%n)
	}
	if edges, err = p.outline(); err != nil {
		return err
	}
	sum := 0.0
	for _, k := range numbers[0] {
		for _, q := range edges[k].line {
			sum += side(q)
		}
	}
	if sum < 0 { // the first part is the left one
		numbers[0], numbers[1] = numbers[1], numbers[0]
		i, j = j, i
	}
	finishes := seam.sides()
	begins := [2]Point{p.Edges[j].From, p.Edges[i].From} // of the seam
	var parts [2]Panel
	for k := range parts {
		q := p
		q.Name = fmt.Sprintf("%s %d", p.Name, k+1)
		if p.Match != nil {
			m := *p.Match
			q.Match = &m
		}
		q.Edges, q.Holes, q.Patches, q.Darts, q.Fittings = nil, nil, nil, nil, nil
		for _, e := range numbers[k] {
			q.Edges = append(q.Edges, p.Edges[e])
		}
		q.Edges[0].Corner = AutoCorner
		q.Edges = append(q.Edges, Edge{Name: join, From: begins[k], Finish: finishes[k]})
		parts[k] = q
	}
	if err := hand(&p, &parts, numbers, side, float64(seam.Width+seam.Turn)); err != nil {
		return err
	}
	of := map[string]string{}
	for k := range parts {
		for _, e := range parts[k].Edges[:len(parts[k].Edges)-1] {
			of[e.Name] = parts[k].Name
		}
	}
	for a := range s.seams {
		for k := range s.seams[a].sides {
			list := slices.Clone(s.seams[a].sides[k])
			for b := range list {
				if list[b].panel == p.Name {
					list[b].panel = of[list[b].edge]
				}
			}
			s.seams[a].sides[k] = list
		}
	}
	s.panels = slices.Replace(s.panels, panel, panel+1, parts[0], parts[1])
	s.joint = 0
	s.seams = slices.Insert(s.seams, 0, parted{
		seam:  Seam{Name: p.Name + ", joint", B: Side{Backward: true}},
		sides: [2][]edgeOf{{{parts[0].Name, join}}, {{parts[1].Name, join}}},
	})
	return nil
}

// openTo writes down the edge to which a panel is cut open at a hole, where it is
// the nearest: that must not become the new seam.
func (s *splitter) openTo(panel int, edges []laid) {
	p := &s.panels[panel]
	p.Holes = slices.Clone(p.Holes)
	p.Edges = slices.Clone(p.Edges)
	for i := range p.Holes {
		h := &p.Holes[i]
		if !h.Split || h.Edge != "" {
			continue
		}
		q := h.open(p, edges)
		for k, e := range edges {
			if plane.Distance(e.line, q) < 1e-9 {
				if p.Edges[k].Name == "" {
					p.Edges[k].Name = fmt.Sprintf("edge %d", k+1)
				}
				h.Edge = p.Edges[k].Name
				break
			}
		}
	}
}

// hand gives to each part what lies on it; nothing may lie on the seam.
func hand(p *Panel, parts *[2]Panel, numbers [2][]int, side func(plane.Point) float64, allowance float64) error {
	inTheWay := func(what string) error {
		return refuseAs(ErrSplit, "line", fmt.Sprintf("through %s of %s", what, quoted(p.Name)), "a seam beside it")
	}
	edges, err := p.outline()
	if err != nil {
		return err
	}
	which := func(q plane.Point) int {
		if side(q) > 0 {
			return 0
		}
		return 1
	}
	for i, h := range p.Holes {
		k := which(h.At.bare())
		name := fmt.Sprintf("Holes[%d] (%s)", i, h.Name)
		for _, q := range h.line(max(float64(h.Margin), allowance)) {
			if which(q) != k {
				return inTheWay(name)
			}
		}
		if h.Split && which(h.open(p, edges)) != k {
			return inTheWay("the slit of " + name)
		}
		parts[k].Holes = append(parts[k].Holes, h)
	}
	for i, f := range p.Fittings {
		at := f.At.bare()
		if len(f.Strap) > 0 {
			at = f.Strap[0].bare()
		} else if math.Abs(side(at)) < float64(f.Diameter)/2+allowance && f.Diameter > 0 {
			return inTheWay(fmt.Sprintf("Fittings[%d] (%s)", i, f.Name))
		}
		k := which(at)
		parts[k].Fittings = append(parts[k].Fittings, f)
	}
	for i, d := range p.Darts {
		for k := range parts {
			if slices.ContainsFunc(parts[k].Edges, func(e Edge) bool { return e.Name == d.Edge }) {
				parts[k].Darts = append(parts[k].Darts, d)
				q := parts[k]
				if _, err := q.lay(); err != nil {
					return inTheWay(fmt.Sprintf("Darts[%d]", i))
				}
			}
		}
	}
	for i, c := range p.Patches {
		for k := range parts {
			at := slices.Index(numbers[k], c.Corner)
			if at < 0 {
				continue
			}
			if at == 0 { // the seam ends there
				return inTheWay(fmt.Sprintf("Patches[%d]", i))
			}
			c.Corner = at
			parts[k].Patches = append(parts[k].Patches, c)
			q := parts[k]
			if _, err := q.lay(); err != nil {
				return inTheWay(fmt.Sprintf("Patches[%d]", i))
			}
			break
		}
	}
	return nil
}

// partSeams divides the seams whose sides belong to several panels now.
func (s *splitter) partSeams() error {
	for i := 0; i < len(s.seams); i++ {
		k, at := s.seams[i].breaks()
		if at == 0 {
			continue
		}
		name := s.seams[i].seam.Name
		if s.seams[i].seam.A.Times > 1 || s.seams[i].seam.B.Times > 1 {
			return refuseAs(ErrSplit, "line", fmt.Sprintf("dividing seam %s of panels side by side", quoted(name)), "a line beside it")
		}
		// Where it breaks, as a part of the seam.
		lengths, whole, err := s.lengths(s.seams[i].sides[k])
		if err != nil {
			return err
		}
		part := 0.0
		for _, l := range lengths[:at] {
			part += l / whole
		}
		if s.seams[i].side(k).Backward {
			part = 1 - part
		}
		cut, err := s.cutSide(i, 1-k, part)
		if err != nil {
			return err
		}
		w := s.seams[i]
		var cuts [2]int
		cuts[k], cuts[1-k] = at, cut
		one, two := w, w
		for m, list := range w.sides {
			one.sides[m], two.sides[m] = list[:cuts[m]:cuts[m]], list[cuts[m]:]
			if w.side(m).Backward {
				one.sides[m], two.sides[m] = two.sides[m], one.sides[m]
			}
		}
		one.seam.Name, two.seam.Name = name+" 1", name+" 2"
		if n := w.seam.Marks; n > 0 {
			one.seam.Marks = min(max(1, int(math.Round(part*float64(n)))), max(1, n-1))
			two.seam.Marks = max(1, n-one.seam.Marks)
		}
		s.seams = slices.Replace(s.seams, i, i+1, one, two)
		i--
	}
	return nil
}

// breaks is the first place where a side goes on on another panel.
func (w *parted) breaks() (side, at int) {
	for k, list := range w.sides {
		for at := 1; at < len(list); at++ {
			if list[at].panel != list[at-1].panel {
				return k, at
			}
		}
	}
	return 0, 0
}

func (s *splitter) find(e edgeOf) (panel, edge int) {
	panel = slices.IndexFunc(s.panels, func(p Panel) bool { return p.Name == e.panel })
	return panel, slices.IndexFunc(s.panels[panel].Edges, func(f Edge) bool { return f.Name == e.edge })
}

func (s *splitter) lengths(list []edgeOf) (each []float64, whole float64, err error) {
	for _, e := range list {
		p, k := s.find(e)
		edges, err := s.panels[p].outline()
		if err != nil {
			return nil, 0, err
		}
		each = append(each, edges[k].length)
		whole += edges[k].length
	}
	return each, whole, nil
}

// cutSide divides a side of a seam at a part of its length, and returns how many
// of its edges come before.
func (s *splitter) cutSide(seam, k int, part float64) (int, error) {
	list := s.seams[seam].sides[k]
	lengths, whole, err := s.lengths(list)
	if err != nil {
		return 0, err
	}
	if s.seams[seam].side(k).Backward {
		part = 1 - part
	}
	rest := part * whole
	for m, l := range lengths {
		if m > 0 && math.Abs(rest) < 10*tolerance {
			return m, nil
		}
		if rest < l-10*tolerance {
			p, e := s.find(list[m])
			return m + 1, s.divide(p, e, rest/l)
		}
		rest -= l
	}
	return 0, refuseAs(ErrSplit, "line", fmt.Sprintf("at the end of seam %s", quoted(s.seams[seam].seam.Name)), "a line away from it")
}
