package canvas

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strconv"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Flatten cuts a mesh along its lines and lays each part flat: first conformally
// by least squares or, where that is nearer, triangle by triangle; then so that the
// sum over the surface of the squares of the principal strains is least. A surface that bends
// one way only comes out without strain. The longest way of each panel lies along X.
//
// The cloth is taken to be equally stiff all ways while it is laid flat, and the
// warp is chosen after that. Real cloth shears easily and hardly stretches
// along its threads, so that it settles better than the figures say; where they are
// near the limits, sew a sample.
//
// An error that wraps [ErrMesh] is about a mesh that is not a set of sheets without
// holes, one that wraps [ErrFlat] about a sheet that folds over or overlaps itself when
// flat; both name a cut that helps, where [Mesh.Suggest] has one, or a cut that does not: one
// that ends inside where the surface is flat does not open. One that wraps [ErrSeam] is
// about a seam whose sides came out more than half again as long as one another.
func (m Mesh) Flatten(l Limits) (Flattening, error) {
	l, err := l.check()
	if err != nil {
		return Flattening{}, err
	}
	sheets, parts, err := m.open()
	if err != nil {
		return Flattening{}, err
	}
	if m.Warp[0] != m.Warp[1] && !slices.ContainsFunc(sheets, func(h sheet) bool {
		return slices.Contains(h.from, m.Warp[0]) && slices.Contains(h.from, m.Warp[1])
	}) {
		return Flattening{}, refuse("Warp", m.Warp, "two points of one part")
	}
	out := Flattening{Cover: Cover{Title: m.Name}}
	sides := make([][2]Side, len(parts)) // to the left and to the right of a seam
	for i := range sheets {
		h := &sheets[i]
		name := m.Name
		if name == "" {
			name = "sheet"
		}
		if len(sheets) > 1 {
			name += " " + strconv.Itoa(i+1)
		}
		f := newFlattener(&m, h)
		if !f.flatten(m.apart(h)) {
			return Flattening{}, m.tangled(h, name, "not at rest")
		}
		f.align()
		for k := range f.tri {
			a, b := f.tri[k].parts(f.u)
			if !(cmplx.Abs(a)-cmplx.Abs(b) > 1e-6) {
				return Flattening{}, m.tangled(h, name, fmt.Sprintf("folded over at triangle %d", h.of[k]))
			}
		}
		grain := f.grain(l)
		if m.Warp[0] != m.Warp[1] {
			var at [2]int
			for p, q := range h.from {
				for k, w := range m.Warp {
					if q == w {
						at[k] = p + 1
					}
				}
			}
			if at[0] > 0 && at[1] > 0 {
				grain = cmplx.Phase(f.u[at[1]-1] - f.u[at[0]-1])
			}
		}
		if k := f.shut(h); k >= 0 {
			return Flattening{}, refuseAs(ErrFlat, name, "cut along "+parts[k].name+", which does not open",
				"a cut that ends where the surface bends both ways, or that divides it")
		}
		s := m.report(h, f, grain, l)
		p := Panel{Name: name, Grain: units.Angle(grain)}
		if err := m.edges(h, f, parts, &p, &s, sides, l); err != nil {
			return Flattening{}, err
		}
		s.Panel = name
		s.advise(l)
		if _, err := p.lay(); err != nil {
			var e *Error
			if !errors.As(err, &e) || !errors.Is(err, ErrOutline) {
				return Flattening{}, within(name, err)
			}
			return Flattening{}, m.tangled(h, name, e.Value)
		}
		out.Cover.Panels = append(out.Cover.Panels, p)
		out.Sheets = append(out.Sheets, s)
	}
	return out, out.seams(parts, sides)
}

// open cuts a mesh into sheets and sees that each has one outline.
func (m *Mesh) open() ([]sheet, []part, error) {
	if err := m.check(); err != nil {
		return nil, nil, err
	}
	sheets, parts, err := m.split()
	if err != nil {
		return nil, nil, err
	}
	for i := range sheets {
		if h := &sheets[i]; !h.disk {
			found, want := fmt.Sprintf("a part with %d outlines, with triangle %d", h.loops, h.of[0]), "one outline"+m.cutFor(h)
			if h.loops == 1 {
				found = fmt.Sprintf("a part with a handle, with triangle %d", h.of[0])
				want = "a part without: cut it across the handle, from outline to outline"
			}
			return nil, nil, refuseAs(ErrMesh, "Triangles", found, want)
		}
	}
	return sheets, parts, nil
}

func (m *Mesh) tangled(h *sheet, name, found string) error {
	return refuseAs(ErrFlat, name, found, "a sheet that covers nothing twice"+m.cutFor(h))
}

// apart are two points of the outline far from one another.
func (m *Mesh) apart(h *sheet) (a, b int, distance float64) {
	far := func(from int) (to int) {
		for _, s := range h.outline {
			if d := m.side(h.from[from], h.from[s.a]); d > distance {
				to, distance = s.a, d
			}
		}
		return to
	}
	a = far(h.outline[0].a)
	distance = 0
	b = far(a)
	return a, b, distance
}

// align moves the middle of a sheet to the origin and its longest way along X.
func (f *flattener) align() {
	var middle, spread complex128
	area := 0.0
	for pass := range 2 {
		for i := range f.tri {
			t := &f.tri[i]
			c := (f.u[t.p[0]] + f.u[t.p[1]] + f.u[t.p[2]]) / 3
			w := complex(t.area, 0)
			if pass == 0 {
				middle += w * c
				area += t.area
			} else {
				spread += w * (c - middle) * (c - middle)
			}
		}
		if pass == 0 {
			middle /= complex(area, 0)
		}
	}
	turn := complex(1, 0)
	if cmplx.Abs(spread) > 1e-9*area*area { // not as wide as long
		turn = cmplx.Rect(1, -cmplx.Phase(spread)/2)
	}
	for p := range f.u {
		f.u[p] = (f.u[p] - middle) * turn
	}
}

// shut finds a part of a line whose two sides lie on one another, -1 for none:
// a dart where there is nothing to take in.
func (f *flattener) shut(h *sheet) int {
	type key struct{ part, point int }
	left := map[key]int{}
	open := map[int]float64{}
	for pass := range 2 {
		for i, e := range h.outline {
			if e.part < 0 || e.back == (pass == 0) {
				continue
			}
			for _, p := range []int{e.a, h.outline[(i+1)%len(h.outline)].a} {
				k := key{e.part, h.from[p]}
				if pass == 0 {
					left[k] = p
				} else if q, both := left[k]; both {
					open[e.part] = math.Max(open[e.part], cmplx.Abs(f.u[p]-f.u[q]))
				}
			}
		}
	}
	for _, e := range h.outline {
		if wide, both := open[e.part]; both && wide < 2*tolerance {
			return e.part
		}
	}
	return -1
}

// edges makes the outline of a panel, an edge for each part of a line, and
// compares them with the surface.
func (m *Mesh) edges(h *sheet, f *flattener, parts []part, p *Panel, s *Sheet, sides [][2]Side, l Limits) error {
	n := len(h.outline)
	start := 0
	for i, e := range h.outline {
		before := h.outline[(i+n-1)%n]
		if e.part != before.part || e.back != before.back || e.part >= 0 && h.from[e.a] == parts[e.part].points[0] {
			start = i
			break
		}
	}
	at := func(i int) plane.Point { // a point of the outline, counted from the start
		u := f.u[h.outline[(start+i)%n].a]
		return plane.Point{X: real(u), Y: imag(u)}
	}
	taken := map[string]bool{}
	loose := 0
	for from := 0; from < n; {
		e := h.outline[(start+from)%n]
		to := from + 1
		for to < n {
			next := h.outline[(start+to)%n]
			if next.part != e.part || next.back != e.back {
				break
			}
			to++
		}
		var line []plane.Point
		for i := from; i <= to; i++ {
			line = append(line, at(i))
		}
		// A panel needs corners that are apart.
		stops := []int{0, to - from}
		if chord := line[len(line)-1].Sub(line[0]).Norm(); to-from == n || chord < 0.1*plane.Length(line) {
			stops = []int{0, (to - from) / 2, to - from}
		}
		var finish Finish
		name, right := "", 0
		if e.part >= 0 {
			l := &parts[e.part]
			name, finish = l.name, l.finish
			if l.inner && !e.back {
				name += " left"
			} else if l.inner {
				name += " right"
				right = 1
			}
		} else {
			loose++
			name = fmt.Sprintf("edge %d", loose)
		}
		for k := 1; k < len(stops); k++ {
			own := name
			if len(stops) > 2 {
				own += " " + strconv.Itoa(k)
			}
			if taken[own] {
				return refuse("Lines", fmt.Sprintf("two edges named %q", own), "a name for each line that gives no edge another's name")
			}
			taken[own] = true
			i, j := stops[k-1], stops[k]
			p.Edges = append(p.Edges, Edge{Name: own, From: wrap(line[i]), Course: points(line[i : j+1]), Finish: finish})
			surface := 0.0
			for q := from + i; q < from+j; q++ {
				surface += m.side(h.from[h.outline[(start+q)%n].a], h.from[h.outline[(start+q+1)%n].a])
			}
			flat := plane.Length(line[i : j+1])
			s.Edges = append(s.Edges, Fullness{
				Edge: own, Surface: units.Length(surface), Flat: units.Length(flat),
				Fullness: flat/surface - 1, Dart: units.Length(math.Max(0, flat-surface*(1+l.Ease))),
			})
			if e.part >= 0 {
				side := &sides[e.part][right]
				side.Panel, side.Backward = p.Name, right == 1
				side.Edges = append(side.Edges, own)
			}
		}
		from = to
	}
	return nil
}

// seams joins what the lines inside divided.
func (v *Flattening) seams(parts []part, sides [][2]Side) error {
	length := map[[2]string]float64{}
	for _, s := range v.Sheets {
		for _, e := range s.Edges {
			length[[2]string{s.Panel, e.Edge}] = float64(e.Flat)
		}
	}
	for i, l := range parts {
		if !l.inner {
			continue
		}
		var sum [2]float64
		for k, side := range sides[i] {
			for _, e := range side.Edges {
				sum[k] += length[[2]string{side.Panel, e}]
			}
		}
		v.Cover.Seams = append(v.Cover.Seams, Seam{Name: l.name, A: sides[i][0], B: sides[i][1], Fullness: sum[1]/sum[0] - 1})
	}
	return v.Cover.Check()
}
