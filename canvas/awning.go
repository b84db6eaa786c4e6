package canvas

import (
	"fmt"
	"math"
	"strings"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// AwningCaution belongs to every awning.
const AwningCaution = "CAUTION, WIND: the loads are estimates from coefficients for rigid roofs on land. A flogging awning " +
	"breaks fittings and hurts people: strike it before the wind given here and before every squall, and never leave it set unattended. " +
	"The load is taken in the middle: where the wind presses on one side, a corner there may hold half as much again square to the cloth. " +
	"Have fixings that matter judged by someone trained to do so."

// Awning is a flat cloth spread between its corners: a sunshade or a rain awning.
type Awning struct {
	Name  string
	Edges []AwningEdge // 3 to 8, anticlockwise as seen from above
	Grain units.Angle  // direction of the warp, from X
	Edge  Finish       // of all edges

	Canopy Canopy
	Above  units.Length // of the awning's middle over the water
	// Heel is how far the boat rolls to either side of the pitch, and Flutter by how much a
	// cloth that moves multiplies the pressure on a rigid one: 1 for none, 1.5 to
	// 2 for a slack one by judgement; nothing published was found for boats.
	Heel    units.Angle
	Flutter float64

	// Weight of the cloth, wet: 300 g/m2 of acrylic soaks up about as much water
	// and weighs 6 Pa.
	Weight units.Pressure
	// Prestress is the pull set up by the lashings, or Sag the sag measured in
	// the middle of the awning in a calm, in cloth of this Weight. One of them is 0.
	Prestress units.ForcePerLength
	Sag       units.Length
	Stiffness units.ForcePerLength // as in Membrane; its Measured counts in edges that give
	Strength  units.ForcePerLength // breaking load of a strip, per width
	Layers    int                  // of cloth in corner patches and in the band along the edges
	// Safety is the breaking load over the load allowed, for cloth, tape,
	// eyelets, straps and cord. 4 is custom for what ages in the sun.
	Safety float64

	Openings []AwningOpening
	// Imperial is that of the plan.
	Imperial bool `json:",omitempty"`
}

// AwningEdge goes from a corner to the next.
type AwningEdge struct {
	Name string
	From Point
	// Hollow is the depth of the edge's arc over its chord, 0.02 to 0.25. 0.08 to
	// 0.12 is custom; flatter edges pull harder.
	Hollow float64
	Tape   units.Force // breaking load of webbing or rope along the edge; 0 is none
	Tie    Tie         // at From
}

// Tie is what holds a corner. Breaking loads that are 0 are of parts that are not there.
type Tie struct {
	Eyelet  units.Force // that pulls an eyelet or ring out, as tested
	Strap   units.Force // breaking load of the strap
	Lashing units.Force // breaking load of the cord; its knots are taken to leave half
	Parts   int         // of the lashing that share the pull
	Fixing  units.Force // working load of what it is tied to
}

// AwningOpening is a hole for a stay or a mast. The cloth is slit from it to an
// edge and overlaps there, so that it can be passed round. The slit cuts the
// edge's tape: when the awning is set the tape is joined there, as strong as it is.
type AwningOpening struct {
	Name     string
	At       Point
	Diameter units.Length // of stay or mast
	// Lean is the angle between it and the cloth, a right angle for a mast
	// through a level awning, and Direction that of its lean, from X.
	Lean, Direction units.Angle
	Clearance       units.Length // on all sides, for what moves
	Overlap         units.Length // of the slit, and how far the patch reaches
	Edge            string       // to which it is slit; empty is the nearest
}

// AwningPlan is an awning worked out.
type AwningPlan struct {
	Panel Panel
	// Flaps are strips, one for each opening, that are sewn under one lip of its
	// slit and reach under the other by Overlap.
	Flaps     []Panel
	Area      units.Area   // finished, without openings
	Lost      float64      // part of the area between the corners that the hollows take
	Span      units.Length // the least width between the corners
	Prestress units.ForcePerLength
	Gust      Gust
	// Cases are a calm, with the prestress and the cloth's weight, the gust down
	// and up on a rigid roof, and the two with heel and flutter.
	Cases []AwningCase
	Rain  AwningRain
	// Band is the width of Layers of cloth along the edges that would carry the
	// worst edge without a tape.
	Band   units.Length
	Strike Strike
	// Imperial is that of the Cover; drawings of the plan have inches and pounds-force.
	Imperial bool `json:",omitempty"`
}

// AwningCase is an awning under one load.
type AwningCase struct {
	Name     string
	Pressure units.Pressure // on the whole, positive down, the cloth's weight with it
	Middle   units.Pressure // on the middle of the cloth, without sign
	Pull     units.ForcePerLength
	Sag      units.Length
	Edges    []EdgeLoad
	Corners  []CornerPull
	// Used is the greatest load over what is allowed, and Weakest the part where.
	Used    float64
	Weakest string
}

// CornerPull is what a tie pulls with: X and Y outwards in the plane of the
// cloth, Out square to it, positive up: it holds against the pressure.
type CornerPull struct {
	X, Y, Out units.Force
	Pull      units.Force // of all three together
}

// Strike is the wind at which the awning is to be gone.
type Strike struct {
	// Wind is the mean, at the forecast's height and terrain, in whose gusts, with
	// heel and flutter, the first part carries what is allowed. It is 0 when a calm
	// is too much already.
	Wind units.Speed
	// Part is the first one; empty when nothing is overloaded up to Wind, 40 m/s.
	Part string
}

// Plan works an awning out in a wind.
//
// The cloth pulls alike in all directions with what a strip across its least
// width pulls ([Membrane.Pull]): on the safe side, since a cloth that also
// carries the other way and edges that give pull less. The edges are arcs
// ([ArcEdge]), and a corner holds both its edges. Square to the cloth the
// corners share the load as a stiff plate on equal springs would.
//
// Pressures are those of [Canopy.Coefficients], as if a ridged awning lay flat: of
// the middle for the cloth's pull, of the whole for what the corners hold square
// to the cloth. Uplift is the greater of that with the blockage and that without
// any, which the standard has downwind of what blocks (EN 1991-1-4, 7.3 (4)).
// With heel they are the worst within it, with flutter multiplied.
//
// Two things in the standard are not counted. The load may lie a quarter of the
// depth from the windward edge (7.3 (6)), where the corners of a rectangle hold half as much
// again square to the cloth as with the load in the middle. And the strips
// along the edges feel more than the middle, up to twice as much: on a tenth of
// the span at either end that adds 4 % to the moment which the cloth's pull
// balances. [Coefficients] has these pressures, for battens or zips in an edge.
//
// The cloth is taken to be in one piece. Of a seam across it, such as
// [Lay.PlanCovers] puts where no roll is wide enough, the plan knows nothing: a seam
// often breaks before the cloth does, so that Strength then has to be that of a
// strip with the seam in it, as tested.
func (a Awning) Plan(w Wind) (AwningPlan, error) {
	f, err := a.frame()
	if err != nil {
		return AwningPlan{}, err
	}
	out := f.plan
	if out.Gust, out.Cases, err = f.cases(w); err != nil {
		return AwningPlan{}, err
	}
	if out.Rain, err = a.rain(out.Span, out.Prestress); err != nil {
		return AwningPlan{}, err
	}
	for _, k := range out.Cases {
		for _, e := range k.Edges {
			out.Band = max(out.Band, units.Length(float64(e.End)*a.Safety/(float64(a.Strength)*float64(a.Layers))))
		}
	}
	if err := f.reinforce(&out); err != nil {
		return AwningPlan{}, err
	}
	out.Strike, err = f.strike(w)
	return out, err
}

// frame is an awning as far as it does not depend on the wind.
type frame struct {
	awning *Awning
	plan   AwningPlan
	chords []plane.Point // from corner to corner
	share  []float64     // of the load square to the cloth, by corner
	// Pressures over that of the gust: of a rigid roof, and the worst with heel.
	rigid, heeled Coefficients
}

func (a *Awning) frame() (*frame, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	f := &frame{awning: a, plan: AwningPlan{Imperial: a.Imperial}}
	var err error
	if _, err = a.Canopy.Coefficients(); err != nil {
		return nil, err
	}
	if f.rigid, err = a.Canopy.worst(0); err != nil {
		return nil, err
	}
	if f.heeled, err = a.Canopy.worst(a.Heel); err != nil {
		return nil, err
	}
	p := &f.plan.Panel
	*p = Panel{Name: a.Name, Grain: a.Grain}
	n := len(a.Edges)
	corners := make([]plane.Point, n)
	for i, e := range a.Edges {
		corners[i] = e.From.bare()
		chord := a.Edges[(i+1)%n].From.bare().Sub(corners[i])
		f.chords = append(f.chords, chord)
		p.Edges = append(p.Edges, Edge{
			Name: e.Name, From: e.From, Finish: a.Edge,
			Course: Course{Curve: Arc, Depth: -units.Length(e.Hollow * chord.Norm())},
		})
	}
	for _, o := range a.Openings {
		p.Holes = append(p.Holes, o.hole())
	}
	edges, err := p.lay()
	if err != nil {
		return nil, within("Panel", err)
	}
	if f.plan.Area, err = p.Area(); err != nil {
		return nil, err
	}
	for i := range p.Holes {
		h := &p.Holes[i]
		begin, end := h.slit(p, edges)
		f.plan.Flaps = append(f.plan.Flaps, flap(fmt.Sprintf("%s, flap of %s", a.Name, h.Name), end.Sub(begin).Norm(), float64(h.Margin)))
	}
	f.plan.Lost = 1 - float64(f.plan.Area)/plane.Area(corners)
	f.plan.Span = units.Length(leastWidth(corners))
	f.plan.Prestress = a.Prestress
	if a.Sag > 0 {
		var c checker
		between(&c, "Sag", a.Sag, f.plan.Span/10000, f.plan.Span/5)
		if c.err != nil {
			return nil, c.err
		}
		h, err := SagPull(f.plan.Span, a.Sag, a.Weight)
		if err != nil {
			return nil, err
		}
		// The weight has stretched the cloth and so added to the prestress.
		m := Membrane{Span: f.plan.Span, Stiffness: a.Stiffness}
		f.plan.Prestress = h - a.Stiffness.Scale(m.stretch(a.Weight, h))
		if !(f.plan.Prestress >= 0) {
			_, flat, err := m.Pull(a.Weight)
			if err != nil {
				return nil, tooSoft(a.Stiffness, "a calm")
			}
			return nil, refuse("Sag", a.Sag, fmt.Sprintf("at most the %.3v of a flat cloth of this Stiffness that is not set up", flat))
		}
	}
	f.share = shares(corners, centroid(ringOf(edges)))
	return f, nil
}

func (a *Awning) check() error {
	var c checker
	c.count("Edges", len(a.Edges), 3, 8)
	for i, e := range a.Edges {
		at := fmt.Sprintf("Edges[%d].", i)
		c.point(at+"From", e.From)
		between(&c, at+"Hollow", e.Hollow, 0.02, 0.25)
		between(&c, at+"Tape", e.Tape, 0, greatestForce)
		between(&c, at+"Tie.Eyelet", e.Tie.Eyelet, 0, greatestForce)
		between(&c, at+"Tie.Strap", e.Tie.Strap, 0, greatestForce)
		between(&c, at+"Tie.Lashing", e.Tie.Lashing, 0, greatestForce)
		if e.Tie.Lashing > 0 {
			c.count(at+"Tie.Parts", e.Tie.Parts, 1, 100)
		}
		between(&c, at+"Tie.Fixing", e.Tie.Fixing, 1*units.Newton, greatestForce)
	}
	between(&c, "Above", a.Above, 0.1*units.Metre, 100*units.Metre)
	between(&c, "Heel", a.Heel, 0, 30*units.Degree)
	between(&c, "Flutter", a.Flutter, 1, 5)
	between(&c, "Weight", a.Weight, 0.1*units.Pascal, 200*units.Pascal)
	between(&c, "Sag", a.Sag, 0, largest)
	if c.err == nil && (a.Prestress == 0) == (a.Sag == 0) {
		c.err = refuse("Prestress", fmt.Sprintf("%v with a Sag of %v", a.Prestress, a.Sag), "one of the two: a flat cloth with neither has no finite pull that could be told")
	}
	between(&c, "Prestress", a.Prestress, 0, 100*units.KilonewtonPerMetre)
	between(&c, "Strength", a.Strength, 100*units.NewtonPerMetre, greatestPull)
	c.count("Layers", a.Layers, 1, 10)
	between(&c, "Safety", a.Safety, 1, 20)
	for i, o := range a.Openings {
		at := fmt.Sprintf("Openings[%d].", i)
		c.size(at+"Diameter", o.Diameter)
		between(&c, at+"Lean", o.Lean, 10*units.Degree, (90+1e-9)*units.Degree)
		between(&c, at+"Direction", o.Direction, -10, 10)
		c.size0(at+"Clearance", o.Clearance)
		c.size(at+"Overlap", o.Overlap)
	}
	Membrane{Span: 1, Prestress: a.Prestress, Stiffness: a.Stiffness}.check(&c)
	return c.err
}

const greatestForce = 1000 * units.Kilonewton

// hole is long enough for a stay that passes through the cloth at a slant.
func (o AwningOpening) hole() Hole {
	h := Hole{
		Name: o.Name, At: o.At, Width: o.Diameter + 2*o.Clearance, Angle: o.Direction,
		Length: o.Diameter.Scale(1/o.Lean.Sin()) + 2*o.Clearance, Margin: o.Overlap, Split: true, Edge: o.Edge,
	}
	if h.Length < h.Width.Scale(1+1e-9) {
		h.Length = 0
	}
	return h
}

// Cover is what is cut and sewn: the panel with its patches, and the flaps. A slit that
// runs through the patch of a corner is in its Cautions.
func (p AwningPlan) Cover() Cover {
	v := Cover{Title: p.Panel.Name, Panels: append([]Panel{p.Panel}, p.Flaps...), Cautions: []string{AwningCaution}, Imperial: p.Imperial}
	switch {
	case p.Strike.Part == "":
		v.Remarks = append(v.Remarks, fmt.Sprintf("nothing that was given breaks up to %.0f kn of mean wind; strike it long before", p.Strike.Wind.Knots()))
	case p.Strike.Wind == 0:
		v.Remarks = append(v.Remarks, fmt.Sprintf("do not set it: in a calm its pull alone overloads the %s", p.Strike.Part))
	default:
		v.Remarks = append(v.Remarks, fmt.Sprintf("strike it at %.0f kn of mean wind, when the %s carries all it may", math.Floor(p.Strike.Wind.Knots()), p.Strike.Part))
	}
	edges, err := p.Panel.lay()
	for i := range p.Panel.Holes {
		h := &p.Panel.Holes[i]
		// A plan that was changed by hand may be no panel any more: Pieces says so.
		if cut := h.cutCorners(&p.Panel, edges); err == nil && len(cut) > 0 {
			v.Cautions = append(v.Cautions, fmt.Sprintf("CAUTION, CORNER: the slit of %s runs through the patch of %s, which then hands no load across it and may tear out: "+
				"slit the cloth to another edge, or have the opening farther from the corner.", h.Name, strings.Join(cut, " and ")))
		}
		v.Remarks = append(v.Remarks, fmt.Sprintf("sew each half of the patch of %s to its own lip of the slit only, bind the slit on both sides, close it every %s, and join the edge's tape, which it cuts, with a lashing or buckle as strong", h.Name, closures(p.Imperial)))
	}
	return v
}

// cases are the loads in a wind.
func (f *frame) cases(w Wind) (Gust, []AwningCase, error) {
	a := f.awning
	g, err := w.At(a.Above)
	if err != nil {
		return g, nil, err
	}
	q, own := float64(g.Pressure), float64(a.Weight)
	moving := a.Flutter * q
	var out []AwningCase
	for _, k := range []struct {
		name          string
		whole, middle float64
	}{
		{"calm", own, own},
		{"gust down", q*f.rigid.Down + own, q*f.rigid.MiddleDown + own},
		{"gust up", q*f.rigid.Up + own, q*f.rigid.MiddleUp + own},
		{"gust down, heel and flutter", moving*f.heeled.Down + own, moving*f.heeled.MiddleDown + own},
		{"gust up, heel and flutter", moving*f.heeled.Up + own, moving*f.heeled.MiddleUp + own},
	} {
		c, err := f.load(k.name, units.Pressure(k.whole), units.Pressure(k.middle).Abs())
		if err != nil {
			return g, nil, err
		}
		out = append(out, c)
	}
	return g, out, nil
}

// load is one case.
func (f *frame) load(name string, whole, middle units.Pressure) (AwningCase, error) {
	a := f.awning
	k := AwningCase{Name: name, Pressure: whole, Middle: middle}
	m := Membrane{Span: f.plan.Span, Prestress: f.plan.Prestress, Stiffness: a.Stiffness}
	var err error
	if k.Pull, k.Sag, err = m.Pull(middle); err != nil {
		return k, tooSoft(a.Stiffness, name)
	}
	for i, e := range a.Edges {
		chord := f.chords[i].Norm()
		l, err := ArcEdge(units.Length(chord), units.Length(e.Hollow*chord), k.Pull)
		if err != nil {
			return k, within(fmt.Sprintf("Edges[%d]", i), err)
		}
		k.Edges = append(k.Edges, l)
	}
	for i := range a.Edges {
		last, next := f.ends(&k, i)
		tie := last.Add(next).Times(-1)
		up := float64(whole) * float64(f.plan.Area) * f.share[i]
		k.Corners = append(k.Corners, CornerPull{
			X: units.Force(tie.X), Y: units.Force(tie.Y), Out: units.Force(up),
			Pull: units.Force(math.Hypot(tie.Norm(), up)),
		})
	}
	f.judge(&k)
	return k, nil
}

// tooSoft is for cloth that a load blows up to a half circle.
func tooSoft(stiffness units.ForcePerLength, load string) error {
	return refuse("Stiffness", stiffness, "one with which the cloth sags less than half its span in "+load)
}

// Worst is the greatest pull of a corner in all cases, counted from 0; nothing
// where there is no such corner.
func (p AwningPlan) Worst(corner int) CornerPull {
	var worst CornerPull
	for _, k := range p.Cases {
		if corner >= 0 && corner < len(k.Corners) && k.Corners[corner].Pull > worst.Pull {
			worst = k.Corners[corner]
		}
	}
	return worst
}

// ends are the tensions with which the two edges pull at a corner.
func (f *frame) ends(k *AwningCase, corner int) (last, next plane.Point) {
	n := len(f.chords)
	before := (corner + n - 1) % n
	next = turn(f.chords[corner].Unit(), float64(k.Edges[corner].Angle)).Times(float64(k.Edges[corner].End))
	last = turn(f.chords[before].Unit(), -float64(k.Edges[before].Angle)).Times(-float64(k.Edges[before].End))
	return last, next
}

// judge finds the part that is nearest to what is allowed.
func (f *frame) judge(k *AwningCase) {
	a := f.awning
	use := func(part string, load, allowed float64) {
		if !(allowed > 0) {
			return
		}
		used := load / allowed
		if plane.Clearly(used, k.Used) { // of corners that are alike the first
			k.Weakest = part
		}
		k.Used = max(k.Used, used)
	}
	use("cloth", float64(k.Pull), float64(a.Strength)/a.Safety)
	for i, e := range a.Edges {
		use("tape of "+e.Name, float64(k.Edges[i].End), float64(e.Tape)/a.Safety)
		pull, t, at := float64(k.Corners[i].Pull), e.Tie, fmt.Sprintf(" of corner %d", i+1)
		use("eyelet"+at, pull, float64(t.Eyelet)/a.Safety)
		use("strap"+at, pull, float64(t.Strap)/a.Safety)
		use("lashing"+at, pull, float64(t.Lashing)*float64(t.Parts)*knot/a.Safety)
		use("fixing"+at, pull, float64(t.Fixing))
	}
}

// knot is the strength that a knot leaves a cord: custom, rounded down.
const knot = 0.5

// turn turns a vector anticlockwise.
func turn(v plane.Point, angle float64) plane.Point {
	s, c := math.Sincos(angle)
	return plane.Point{X: v.X*c - v.Y*s, Y: v.X*s + v.Y*c}
}

// leastWidth is the least distance between two parallels that hold all corners;
// one of them lies along two corners.
func leastWidth(corners []plane.Point) float64 {
	least := math.Inf(1)
	for i, p := range corners {
		for _, q := range corners[:i] {
			d := q.Sub(p)
			if d.Norm() == 0 {
				continue
			}
			low, high := 0.0, 0.0
			for _, r := range corners {
				h := d.Unit().Cross(r.Sub(p))
				low, high = math.Min(low, h), math.Max(high, h)
			}
			least = math.Min(least, high-low)
		}
	}
	return least
}

func centroid(ring []plane.Point) plane.Point {
	var sum plane.Point
	area := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		p0, q0 := p.Sub(ring[0]), q.Sub(ring[0])
		x := p0.Cross(q0)
		area += x
		sum = sum.Add(p0.Add(q0).Times(x / 3))
	}
	return ring[0].Add(sum.Times(1 / area))
}

// shares of a load at a place among corners on equal springs: equal ones, and
// more or less in proportion to the distance from an axis through their middle.
func shares(corners []plane.Point, load plane.Point) []float64 {
	var mean plane.Point
	n := float64(len(corners))
	for _, p := range corners {
		mean = mean.Add(p.Times(1 / n))
	}
	var xx, xy, yy float64
	for _, p := range corners {
		d := p.Sub(mean)
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
	}
	e := load.Sub(mean)
	det := xx*yy - xy*xy
	b, c := (yy*e.X-xy*e.Y)/det, (xx*e.Y-xy*e.X)/det
	out := make([]float64, len(corners))
	for i, p := range corners {
		d := p.Sub(mean)
		out[i] = 1/n + b*d.X + c*d.Y
	}
	return out
}
