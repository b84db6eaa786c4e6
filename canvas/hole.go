package canvas

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Hole is a round hole or a slot with round ends, with a patch around it.
type Hole struct {
	Name string
	At   Point
	// Length and Width over all; Length 0 is a round hole of diameter Width.
	Length, Width units.Length
	Angle         units.Angle // of the length, from X
	// Margin is how much the patch reaches beyond the hole on all sides; 0 is no patch.
	Margin units.Length
	// Split says that the fitting cannot be passed through the hole: the panel is
	// cut open from the hole to an edge, and the patch is cut in two halves. Each ends
	// at its own lip of the slit, and is sewn to that side only; beyond the hole, where
	// the panel is whole, they overlap by Margin.
	Split bool
	Edge  string // to which the panel is cut open; empty is the nearest
	// Finish of the edge of a hole that is not Split, which is bound in any case: none,
	// binding, a hem or a plain seam. The hole is cut smaller by its allowance; it then
	// has no patch.
	Finish Finish `json:",omitzero"`
}

func (h *Hole) check(c *checker, field string, p *Panel, ring []plane.Point) {
	c.point(field+".At", h.At)
	c.size(field+".Width", h.Width)
	c.size0(field+".Length", h.Length)
	c.size0(field+".Margin", h.Margin)
	between(c, field+".Angle", h.Angle, -10, 10)
	if c.err == nil && h.Length != 0 && h.Length < h.Width {
		c.err = refuse(field+".Length", h.Length, fmt.Sprintf("0, or the width of %v or more", h.Width))
	}
	if c.err == nil && h.Edge != "" && !slices.ContainsFunc(p.Edges, func(e Edge) bool { return e.Name == h.Edge }) {
		c.err = refuseAs(ErrUnknown, field+".Edge", fmt.Sprintf("%q", h.Edge), "an edge of the panel")
	}
	if c.err == nil && h.Split && h.Margin == 0 {
		c.err = refuse(field+".Margin", h.Margin, "more than 0 where the patch is split")
	}
	h.Finish.checkHole(c, field+".Finish", h.Width)
	if c.err == nil && h.Finish != (Finish{}) && h.Split {
		c.err = refuse(field+".Finish", fmt.Sprintf("%q", h.Finish.Kind), "none at a hole that is Split")
	}
	if c.err == nil && h.Finish.allowance(0) > 0 && h.Margin > 0 {
		c.err = refuse(field+".Margin", h.Margin, "0 round a hole whose edge is turned")
	}
	if c.err != nil {
		return
	}
	for _, p := range h.line(0) {
		if !plane.Contains(ring, p) {
			c.err = refuseAs(ErrOutline, field, "a hole across the edge of the panel", "a hole inside it")
			return
		}
	}
	if h.Margin == 0 {
		return
	}
	for _, p := range h.line(float64(h.Margin)) {
		if !plane.Contains(ring, p) {
			c.err = refuseAs(ErrOutline, field, fmt.Sprintf("a hole whose patch, %v wide, goes across the edge of the panel", h.Margin),
				"a hole farther inside, or a narrower patch")
			return
		}
	}
}

// checkHole is for the edge of a hole of a width.
func (f Finish) checkHole(c *checker, field string, width units.Length) {
	f.check(c, field)
	if c.err != nil {
		return
	}
	switch f.Kind {
	case Raw, Bound, PlainSeam, SingleHem, DoubleHem:
	default:
		c.err = refuse(field+".Kind", fmt.Sprintf("%q", f.Kind), "binding, a hem, a plain seam or none at a hole")
		return
	}
	if f.Strip {
		c.err = refuse(field+".Strip", true, "false at a hole")
	}
	if a := f.allowance(0); c.err == nil && a > width.Scale(0.45) {
		c.err = refuse(field+".Width", f.Width, fmt.Sprintf("an allowance of less than 45 %% of the hole's width of %v", width))
	}
}

// edge is the finished line of a hole with the cloth on its left, closed.
func (h *Hole) edge(cut func(plane.Point) plane.Point) laid {
	line := each(h.line(0), cut)
	slices.Reverse(line)
	line = append(line, line[0])
	return laid{line, plane.Length(line)}
}

// curvature is the greatest, of a hollow edge.
func (h *Hole) curvature() [2]float64 { return [2]float64{0, -2 / float64(h.Width)} }

// line is the hole grown on all sides, anticlockwise.
func (h *Hole) line(by float64) []plane.Point {
	r := float64(h.Width)/2 + by
	half := math.Max(0, float64(h.Length-h.Width)/2)
	sin, cos := math.Sincos(float64(h.Angle))
	u := plane.Point{X: cos, Y: sin}
	n := 2 * steps(math.Pi/2, r)
	var out []plane.Point
	for end, centre := range []plane.Point{h.At.bare().Add(u.Times(half)), h.At.bare().Sub(u.Times(half))} {
		for i := range n + 1 {
			a := float64(h.Angle) - math.Pi/2 + math.Pi*(float64(end)+float64(i)/float64(n))
			s, c := math.Sincos(a)
			out = append(out, centre.Add(plane.Point{X: c, Y: s}.Times(r)))
		}
	}
	return plane.Clean(out, 1e-9)
}

// patches are the reinforcements of a hole: their outlines, and the hole in the
// middle of one that is whole.
func (h *Hole) patches(p *Panel, edges []laid) (rings, holes [][]plane.Point) {
	if h.Margin == 0 {
		return nil, nil
	}
	whole, hole := h.line(float64(h.Margin)), h.line(0)
	if !h.Split {
		return [][]plane.Point{whole}, [][]plane.Point{hole}
	}
	at := h.At.bare()
	begin, end := h.slit(p, edges)
	over := float64(h.Margin) / 2
	u := h.parting(begin)
	left := halfPatch(whole, hole, at, u, begin, end, over)
	mirror := func(q plane.Point) plane.Point {
		d := q.Sub(at)
		return at.Add(u.Times(2 * d.Dot(u))).Sub(d)
	}
	turned := func(ring []plane.Point) []plane.Point {
		out := each(ring, mirror)
		slices.Reverse(out)
		return out
	}
	right := turned(halfPatch(turned(whole), turned(hole), at, u, mirror(begin), mirror(end), over))
	return [][]plane.Point{left, right}, [][]plane.Point{nil, nil}
}

// halfPatch is the part of a patch to the left of a slit from the edge of the hole: along
// the slit to the rim, round on that side until it is so far over the line that parts the
// halves, which is on the side of the hole away from u, in to the hole, and back along its edge.
func halfPatch(whole, hole []plane.Point, at, u, begin, end plane.Point, over float64) []plane.Point {
	back := u.Times(-1)
	beside := at.Add(u.Right().Times(over))
	first, rim := exit(whole, begin, end.Sub(begin))
	last, far := exit(whole, beside, back)
	out := []plane.Point{begin, rim}
	for i := first + 1; ; i++ {
		out = append(out, whole[i%len(whole)])
		if i%len(whole) == last {
			break
		}
	}
	out = append(out, far)
	// The straight side meets the hole or, if that is narrower, ends below its middle.
	// What enters a ring leaves it, seen from the other side.
	from, meets := 0, plane.Point{}
	if sides(hole, far, u) {
		from, meets = exit(hole, beside, back)
	}
	if !sides(hole, far, u) || meets.Sub(at).Dot(u) > 0 {
		out = append(out, beside)
		from, meets = exit(hole, at, beside.Sub(at))
	}
	out = append(out, meets)
	to, _ := exit(hole, at, begin.Sub(at))
	for i := from; i != to; i = (i + len(hole) - 1) % len(hole) {
		out = append(out, hole[i])
	}
	return plane.Clean(out, 1e-9)
}

// exit is where a straight way leaves a convex ring that is anticlockwise: the
// number of the point before, and the place. The line of the way goes through the ring.
func exit(ring []plane.Point, from, d plane.Point) (int, plane.Point) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if x, y := d.Cross(a.Sub(from)), d.Cross(b.Sub(from)); x <= 0 && y > 0 {
			return i, a.Add(b.Sub(a).Times(x / (x - y)))
		}
	}
	return 0, ring[0]
}

// sides says that a ring has points on both sides of a line.
func sides(ring []plane.Point, from, d plane.Point) bool {
	left := func(q plane.Point) bool { return d.Cross(q.Sub(from)) > 0 }
	return slices.ContainsFunc(ring, left) && slices.ContainsFunc(ring, func(q plane.Point) bool { return !left(q) })
}

// parting is the direction of the slit, as it leaves a hole, to the nearest of those in
// which the hole is its own mirror image.
func (h *Hole) parting(begin plane.Point) plane.Point {
	d := begin.Sub(h.At.bare())
	if h.Length <= h.Width {
		return d.Unit()
	}
	sin, cos := math.Sincos(float64(h.Angle))
	u := plane.Point{X: cos, Y: sin}
	if math.Abs(d.Dot(u)) < float64(h.Length-h.Width)/2+1e-9 { // from its straight side
		u = u.Right()
	}
	return u.Times(math.Copysign(1, d.Dot(u)))
}

// slit is the way on which the panel is cut open, from the edge of the hole to the
// finished edge.
func (h *Hole) slit(p *Panel, edges []laid) (begin, end plane.Point) {
	end = h.open(p, edges)
	return nearest(h.line(0), end, true), end
}

// open is where the panel is cut open to: the nearest point of the edge.
func (h *Hole) open(p *Panel, edges []laid) plane.Point {
	if i := slices.IndexFunc(p.Edges, func(e Edge) bool { return e.Name == h.Edge }); i >= 0 && h.Edge != "" {
		return nearest(edges[i].line, h.At.bare(), false)
	}
	return nearest(ringOf(edges), h.At.bare(), true)
}

// cutCorners names the corner patches of a panel that the slit of a hole runs through.
func (h *Hole) cutCorners(p *Panel, edges []laid) []string {
	if !h.Split || edges == nil {
		return nil
	}
	begin, end := h.slit(p, edges)
	n := int(math.Min(2000, 1+end.Sub(begin).Norm()/1e-3)) // by less than a millimetre is not cut
	var names []string
	for i := range p.Patches {
		largest := p.Patches[i].panels(p, edges)[0]
		e, err := largest.lay()
		if err != nil {
			continue
		}
		ring := ringOf(e)
		for k := range n {
			if plane.Contains(ring, begin.Add(end.Sub(begin).Times(float64(k)/float64(n)))) {
				names = append(names, p.Patches[i].name())
				break
			}
		}
	}
	return names
}

// lips is the way along one lip of the slit, round the hole and along the other.
func (h *Hole) lips(p *Panel, edges []laid) float64 {
	begin, end := h.slit(p, edges)
	return plane.Around(h.line(0)) + 2*end.Sub(begin).Norm()
}

// flap is a strip that is sewn under one lip of a slit, from the edge of the hole on,
// and reaches under the other.
func flap(name string, long, reach float64) Panel {
	seam, hem := Finish{Kind: PlainSeam, Width: flapSeam}, Finish{Kind: SingleHem, Width: flapSeam}
	return Panel{Name: name, Edges: []Edge{
		{Name: "slit", From: at(0, 0), Finish: seam},
		{Name: "edge", From: at(long, 0), Finish: hem},
		{Name: "under", From: at(long, reach), Finish: hem},
		{Name: "opening", From: at(0, reach), Finish: hem},
	}}
}

const flapSeam = 15 * units.Millimetre

// nearest is the point of a polyline nearest to p.
func nearest(line []plane.Point, p plane.Point, closed bool) plane.Point {
	var best plane.Point
	least := math.Inf(1)
	for i, a := range line {
		if i+1 == len(line) && !closed {
			break
		}
		d := line[(i+1)%len(line)].Sub(a)
		t := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/math.Max(d.Dot(d), math.SmallestNonzeroFloat64)))
		q := a.Add(d.Times(t))
		if l := p.Sub(q).Norm(); l < least {
			best, least = q, l
		}
	}
	return best
}

// CornerPatch is cloth sewn on in layers where the pull of a corner comes in.
type CornerPatch struct {
	// Name is what the pieces are called by; "corner 3" for the third if it is empty.
	// [Cover.Split] fills it in, so that a corner is called the same after it as before.
	Name   string
	Corner int          // number of the edge that begins there
	Along  units.Length // along both edges
	Layers int
	Step   units.Length // each further layer is shorter by this, so that the load is handed over bit by bit
	Round  bool         // the inner side is an arc, hollow towards the corner by a tenth of its chord
}

func (k *CornerPatch) name() string {
	return cmp.Or(k.Name, fmt.Sprintf("corner %d", k.Corner+1))
}

func (k *CornerPatch) check(c *checker, field string, edges []laid) {
	c.count(field+".Corner", k.Corner, 0, len(edges)-1)
	c.size(field+".Along", k.Along)
	c.count(field+".Layers", k.Layers, 1, 20)
	c.size0(field+".Step", k.Step)
	if c.err != nil {
		return
	}
	if k.Layers > 1 {
		c.size(field+".Step", k.Step)
		if least := k.Along - k.Step.Scale(float64(k.Layers-1)); c.err == nil && !(least > k.Along/10) {
			c.err = refuse(field+".Step", k.Step, fmt.Sprintf("steps that leave a tenth of %v", k.Along))
		}
	}
	shorter := math.Min(edges[k.Corner].length, edges[(k.Corner+len(edges)-1)%len(edges)].length)
	if c.err == nil && float64(k.Along) > shorter {
		c.err = refuse(field+".Along", k.Along, fmt.Sprintf("at most the shorter edge, %v", units.Length(shorter)))
	}
}

// panels are the layers of a corner patch, with the allowances of the edges they share.
func (k *CornerPatch) panels(p *Panel, edges []laid) []Panel {
	out := make([]Panel, 0, k.Layers)
	before := (k.Corner + len(edges) - 1) % len(edges)
	for layer := range k.Layers {
		along := float64(k.Along - k.Step.Scale(float64(layer)))
		next := head(edges[k.Corner].line, along)
		last := edges[before].line
		back := slices.Clone(last)
		slices.Reverse(back)
		back = head(back, along)
		slices.Reverse(back)
		inner := Course{}
		if k.Round {
			inner = Course{Curve: Arc, Depth: -units.Length(back[0].Sub(next[len(next)-1]).Norm() / 10)}
		}
		out = append(out, Panel{
			Name:     fmt.Sprintf("%s, patch of %s, layer %d", p.Name, k.name(), layer+1),
			Quantity: p.Quantity, Mirrored: p.Mirrored, Grain: p.Grain,
			Edges: []Edge{
				{Name: p.Edges[k.Corner].Name, From: wrap(next[0]), Course: points(next), Finish: p.Edges[k.Corner].Finish, Corner: p.Edges[k.Corner].Corner},
				{Name: "inner", From: wrap(next[len(next)-1]), Course: inner},
				{Name: p.Edges[before].Name, From: wrap(back[0]), Course: points(back), Finish: p.Edges[before].Finish},
			},
		})
	}
	return out
}

// head is the beginning of a polyline.
func head(line []plane.Point, length float64) []plane.Point {
	out := []plane.Point{line[0]}
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		l := d.Norm()
		if l >= length {
			return append(out, line[i-1].Add(d.Times(length/l)))
		}
		length -= l
		out = append(out, line[i])
	}
	return out
}

// points is a course along a polyline.
func points(line []plane.Point) Course {
	if len(line) < 3 {
		return Course{}
	}
	u := line[len(line)-1].Sub(line[0]).Unit()
	w := Course{Curve: Points}
	for _, p := range line[1 : len(line)-1] {
		d := p.Sub(line[0])
		w.Offsets = append(w.Offsets, Offset{Along: units.Length(d.Dot(u)), Out: units.Length(d.Dot(u.Right()))})
	}
	return w
}
