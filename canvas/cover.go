package canvas

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Cover is what is sewn of panels.
type Cover struct {
	Title    string
	Panels   []Panel  // at most 1,000
	Seams    []Seam   // at most 1,000
	Cautions []string // printed on every panel
	Remarks  []string // what the maker should know: deviations, lengths of cord
	// Imperial has lengths in the words of its pieces, and on their patterns, in inches
	// instead of millimetres.
	Imperial bool `json:",omitempty"`
}

// Seam joins two sides.
type Seam struct {
	Name string
	A, B Side
	// Fullness is how much longer side B is than side A, as a part of A, to be
	// eased in.
	Fullness float64
	// Marks is into how many equal parts match marks divide the seam; 0 is parts
	// of at most 200 mm, two or more. Joints between edges get marks besides.
	Marks int
}

// Side is a row of edges of a panel, in the panel's direction.
type Side struct {
	Panel string
	Edges []string
	// Backward is a side that is sewn from its last point to its first: one of
	// the two sides of a seam, since two panels side by side run in opposite directions.
	Backward bool
	// Times is how many such panels, side by side, make the side: gores round a
	// dome. 0 is one.
	Times int
}

// seamTolerance is how much two sides may differ: half of what a tape shows.
const seamTolerance = 0.5e-3

// mostPanels of a cover bound the work of laying it out.
const mostPanels = 1000

// Check lays out every panel and compares the two sides of every seam, in the
// finished state: their lengths differ by the declared fullness, to within 0.5 mm.
// The error about a seam wraps [ErrSeam].
func (v Cover) Check() error {
	_, err := v.lay()
	return err
}

// SeamLengths returns the finished lengths of both sides of each seam.
func (v Cover) SeamLengths() ([][2]units.Length, error) {
	l, err := v.lay()
	if err != nil {
		return nil, err
	}
	out := make([][2]units.Length, len(v.Seams))
	for i, s := range l.seams {
		out[i] = [2]units.Length{units.Length(s[0].length), units.Length(s[1].length)}
	}
	return out, nil
}

// SeamLengthsCut returns the lengths of both sides of each seam as they are on the cloth
// that is cut, from end to end of the seam, without allowances. Cloth that changes more along one thread than
// along the other has sides of unlike length that are alike when the cover is finished
// and has shrunk: the longer one is eased in by the difference, or
// it puckers where it is sewn. For cloth that does not change they are those of SeamLengths.
func (v Cover) SeamLengthsCut(t Cloth) ([][2]units.Length, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	l, err := v.lay()
	if err != nil {
		return nil, err
	}
	out := make([][2]units.Length, len(v.Seams))
	for i, s := range l.seams {
		for k, r := range s {
			cut := t.cut(v.Panels[r.panel].Grain)
			sum := 0.0
			for _, e := range r.edges {
				edge := &l.panels[r.panel][e]
				sum += edge.length * plane.Length(each(edge.line, cut)) / plane.Length(edge.line)
			}
			out[i][k] = units.Length(sum * float64(r.times))
		}
	}
	return out, nil
}

// layout is a cover with its edges followed and its seams found.
type layout struct {
	panels [][]laid
	seams  [][2]run
}

// run is a side of a seam: edges one after the other.
type run struct {
	panel    int
	edges    []int
	backward bool
	length   float64
	darts    [][2]float64 // what darts take out of the length, from and to
	joints   []float64    // parts of the sewn length where an edge ends
	times    int
}

// sewn is how much of a length from the run's first point is left when its darts
// are sewn.
func (r *run) sewn(length float64) float64 {
	left := length
	for _, d := range r.darts {
		left -= max(0, min(length, d[1])-d[0])
	}
	return left
}

func (v Cover) lay() (*layout, error) {
	var c checker
	c.count("Panels", len(v.Panels), 0, mostPanels)
	c.count("Seams", len(v.Seams), 0, mostPanels)
	if c.err != nil {
		return nil, c.err
	}
	l := &layout{}
	names := map[string]int{}
	for i := range v.Panels {
		p := &v.Panels[i]
		field := fmt.Sprintf("Panels[%d]", i)
		if _, twice := names[p.Name]; twice || p.Name == "" {
			return nil, refuse(field+".Name", fmt.Sprintf("%q", p.Name), "a name of its own")
		}
		names[p.Name] = i
		edges, err := p.lay()
		if err != nil {
			return nil, within(field, err)
		}
		l.panels = append(l.panels, edges)
	}
	for i, s := range v.Seams {
		field := fmt.Sprintf("Seams[%d]", i)
		var c checker
		between(&c, field+".Fullness", s.Fullness, -0.5, 0.5)
		c.count(field+".Marks", s.Marks, 0, 1000)
		if c.err != nil {
			return nil, c.err
		}
		a, err := v.run(l, names, field+".A", s.A)
		if err != nil {
			return nil, err
		}
		b, err := v.run(l, names, field+".B", s.B)
		if err != nil {
			return nil, err
		}
		if want := a.length * (1 + s.Fullness); !(math.Abs(b.length-want) <= seamTolerance) {
			return nil, refuseAs(ErrSeam, fmt.Sprintf("%s (%s)", field, s.Name), fmt.Sprintf("%.1f mm on %s", 1000*b.length, s.B.Panel),
				fmt.Sprintf("%.1f mm, for the %.1f mm on %s", 1000*want, 1000*a.length, s.A.Panel))
		}
		l.seams = append(l.seams, [2]run{a, b})
	}
	return l, nil
}

// within puts the place of a panel before the field of an error.
func within(field string, err error) error {
	if e, ok := err.(*Error); ok {
		inner := *e
		inner.Field = field + "." + e.Field
		return &inner
	}
	return err
}

func (v Cover) run(l *layout, names map[string]int, field string, s Side) (run, error) {
	i, ok := names[s.Panel]
	if !ok {
		return run{}, refuseAs(ErrUnknown, field+".Panel", fmt.Sprintf("%q", s.Panel), "a panel of the cover")
	}
	r := run{panel: i, backward: s.Backward, times: max(1, s.Times)}
	p := &v.Panels[i]
	if len(s.Edges) == 0 {
		return run{}, refuse(field+".Edges", "empty", "an edge or more")
	}
	for k, name := range s.Edges {
		e := slices.IndexFunc(p.Edges, func(e Edge) bool { return e.Name == name })
		if e < 0 || name == "" {
			return run{}, refuseAs(ErrUnknown, fmt.Sprintf("%s.Edges[%d]", field, k), fmt.Sprintf("%q", name), "an edge of "+s.Panel)
		}
		if k > 0 && e != (r.edges[k-1]+1)%len(p.Edges) {
			return run{}, refuse(fmt.Sprintf("%s.Edges[%d]", field, k), name, "the edge that follows "+s.Edges[k-1])
		}
		r.edges = append(r.edges, e)
		long := l.panels[i][e].length
		for _, d := range p.Darts {
			if d.Edge == name {
				middle, half := r.length+d.At*long, float64(d.Width)/2
				r.darts = append(r.darts, [2]float64{middle - half, middle + half})
			}
		}
		r.length += long
	}
	slices.SortFunc(r.darts, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var c checker
	c.count(field+".Times", s.Times, 0, 1000)
	if s.Times > 1 && len(s.Edges) > 1 {
		c.count(field+".Edges", len(s.Edges), 1, 1)
	}
	if c.err != nil {
		return run{}, c.err
	}
	if s.Times > 1 {
		r.length *= float64(s.Times)
		for k := 1; k < s.Times; k++ {
			r.joints = append(r.joints, float64(k)/float64(s.Times))
		}
		return r, nil
	}
	sum := 0.0
	for _, e := range r.edges[:len(r.edges)-1] {
		sum += l.panels[i][e].length
		f := r.sewn(sum) / r.sewn(r.length)
		if r.backward {
			f = 1 - f
		}
		r.joints = append(r.joints, f)
	}
	return r, nil
}

// at is the place at a part of a run's sewn length, and the direction out of the
// panel there.
func (r *run) at(edges []laid, part float64) (p, out plane.Point) {
	if r.backward {
		part = 1 - part
	}
	rest := part * r.sewn(r.length)
	for _, d := range r.darts {
		if rest > d[0] { // beyond a dart that is still open here
			rest += d[1] - d[0]
		}
	}
	for k, e := range r.edges {
		if rest > edges[e].length*(1+1e-12) && k+1 < len(r.edges) {
			rest -= edges[e].length
			continue
		}
		line := edges[e].line
		return along(line, rest/edges[e].length)
	}
	return plane.Point{}, plane.Point{}
}

// along is the place at a part of a polyline's length, and the direction to its right.
func along(line []plane.Point, part float64) (p, right plane.Point) {
	rest := part * plane.Length(line)
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		l := d.Norm()
		if rest <= l || i+1 == len(line) {
			return line[i-1].Add(d.Times(math.Min(1, rest/l))), d.Times(1 / l).Right()
		}
		rest -= l
	}
	return line[0], plane.Point{}
}

// marks are the parts of a seam's length at which both sides are marked.
func (s *Seam) marks(a, b *run) []float64 {
	n := s.Marks
	if a.times > 1 || b.times > 1 {
		n = 1 // the joints are enough, and are in other places on every panel
	} else if n == 0 {
		n = max(2, int(math.Ceil(a.length/0.2-1e-9)))
	}
	var parts []float64
	for k := 1; k < n; k++ {
		parts = append(parts, float64(k)/float64(n))
	}
	parts = append(append(parts, a.joints...), b.joints...)
	slices.Sort(parts)
	least := 2e-3 / a.length // two marks in one place are one
	return slices.CompactFunc(parts, func(x, y float64) bool { return math.Abs(y-x) < least })
}
