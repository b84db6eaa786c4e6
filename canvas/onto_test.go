package canvas

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// furnished is a panel with all that can be on one, without allowances.
func furnished() Panel {
	return Panel{
		Name: "p", Grain: 0.4, Quantity: 2, Mirrored: 1, Notes: []string{"mind the nap"},
		Edges: []Edge{
			{Name: "a", Course: Course{Curve: Arc, Depth: 0.1}}, {Name: "b", From: Point{X: 2}}, {Name: "c", From: Point{2, 1}, Course: Course{Curve: Points, Offsets: []Offset{{1, 0.1}}}}, {Name: "d", From: Point{Y: 1}},
		},
		Holes: []Hole{
			{Name: "eye", At: Point{0.5, 0.5}, Width: 0.1, Margin: 0.04},
			{Name: "stay", At: Point{1, 0.6}, Length: 0.2, Width: 0.1, Angle: 0.3, Margin: 0.05, Split: true, Edge: "c"},
			{Name: "pin", At: Point{1.2, 0.2}, Width: 0.02},
		},
		Patches:  []CornerPatch{{Corner: 1, Along: 0.2, Layers: 2, Step: 0.05}, {Corner: 3, Along: 0.3, Layers: 1, Round: true}},
		Darts:    []Dart{{Edge: "d", At: 0.5, Width: 0.04, Depth: 0.2}},
		Fittings: []Fitting{{Name: "eyelet", At: Point{1.5, 0.7}, Diameter: 0.012}, {Name: "strap", At: Point{2, 1}, Strap: []Point{{1.8, 0.9}, {2.1, 1.1}}}},
	}
}

// Cloth that shrinks is cut larger along each thread: all that lies on a piece, but
// for the point of a dart, moves as its coordinates along warp and weft do.
func TestAllOfAPieceShrinks(t *testing.T) {
	p := furnished()
	q := square(Finish{})
	q.Name = "q"
	v := Cover{Panels: []Panel{p, q}, Cautions: []string{"CAUTION"}, Seams: []Seam{{Name: "s", A: Side{Panel: "p", Edges: []string{"b"}}, B: Side{Panel: "q", Edges: []string{"b"}, Backward: true}, Marks: 3}}}
	plain, err := v.Pieces(Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	cloth := Cloth{Warp: -0.03, Weft: 0.02}
	out, err := v.Pieces(cloth)
	if err != nil || len(out) != len(plain) {
		t.Fatal(len(out), len(plain), err)
	}
	onCloth := func(p Point, grain float64) Point {
		sin, cos := math.Sincos(grain)
		u, w := (float64(p.X)*cos+float64(p.Y)*sin)/0.97, (float64(p.Y)*cos-float64(p.X)*sin)/1.02
		return Point{units.Length(u*cos - w*sin), units.Length(u*sin + w*cos)}
	}
	compared := map[string]int{}
	for i, a := range plain {
		b := out[i]
		grain := 0.4
		if strings.HasPrefix(a.Name, "q") {
			grain = 0
		}
		line := func(what string, was, is []Point) {
			t.Helper()
			if len(was) != len(is) {
				t.Fatalf("%s of %s: %d points, %d", what, a.Name, len(was), len(is))
			}
			for k := range was {
				want := onCloth(was[k], grain)
				// Patches and slits that meet a curve are cut before it shrinks, or after.
				if math.Hypot(float64(is[k].X-want.X), float64(is[k].Y-want.Y)) > 1e-9 {
					t.Errorf("%s of %s: %v at %v, want %v", what, a.Name, was[k], is[k], want)
				}
				compared[what]++
			}
		}
		line("cut", a.Cut, b.Cut)
		if len(a.Sew) != len(b.Sew) || len(a.Holes) != len(b.Holes) || len(a.Patches) != len(b.Patches) || len(a.Marks) != len(b.Marks) || len(a.Fittings) != len(b.Fittings) || len(a.Darts) != len(b.Darts) {
			t.Fatalf("%s: %+v, %+v", a.Name, a, b)
		}
		for k := range a.Sew {
			line("sew", a.Sew[k], b.Sew[k])
		}
		for k := range a.Holes {
			line("hole", a.Holes[k].Line, b.Holes[k].Line)
			line("slit", a.Holes[k].Slit, b.Holes[k].Slit)
		}
		for k := range a.Patches {
			line("patch", a.Patches[k], b.Patches[k])
		}
		for k := range a.Marks {
			line("mark", []Point{a.Marks[k].At, a.Marks[k].To}, []Point{b.Marks[k].At, b.Marks[k].To})
		}
		for k, f := range a.Fittings {
			line("fitting", append([]Point{f.At}, f.Strap...), append([]Point{b.Fittings[k].At}, b.Fittings[k].Strap...))
		}
		for k, d := range a.Darts {
			line("dart", []Point{d.Left, d.Right, d.Fold}, []Point{b.Darts[k].Left, b.Darts[k].Right, b.Darts[k].Fold})
		}
	}
	for _, what := range []string{"cut", "sew", "hole", "slit", "patch", "mark", "fitting", "dart"} {
		if compared[what] == 0 {
			t.Errorf("no %s was compared", what)
		}
	}
	// The panel, its two patches of holes (one in halves), three layers at corners; each
	// as often as the panel, with its notes and the cautions on the panel.
	var names []string
	for _, p := range plain {
		names = append(names, p.Name)
		if p.Name != "q" && (p.Quantity != 2 || p.Mirrored != 1 || p.Grain != 0.4) {
			t.Errorf("%s: %d and %d, grain %v", p.Name, p.Quantity, p.Mirrored, p.Grain)
		}
	}
	want := []string{
		"p", "p, patch of eye", "p, patch of stay, half 1", "p, patch of stay, half 2",
		"p, patch of corner 2, layer 1", "p, patch of corner 2, layer 2", "p, patch of corner 4, layer 1", "q",
	}
	if !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	if !slices.Equal(plain[0].Notes, []string{"CAUTION", "mind the nap"}) || !slices.Equal(plain[7].Notes, []string{"CAUTION"}) || plain[7].Quantity != 1 {
		t.Errorf("%q, %q, %d", plain[0].Notes, plain[7].Notes, plain[7].Quantity)
	}
	if len(plain[0].Patches) != 1+2+2+1 || len(plain[1].Holes) != 1 || len(plain[0].Holes) != 3 {
		t.Errorf("%d patches, %+v", len(plain[0].Patches), plain[1].Holes)
	}
}

// Each half of a patch lies on its own side of the slit, leaves the hole open to its
// straight side, and reaches half the margin over the middle beyond the hole.
func TestHalfPatches(t *testing.T) {
	for _, c := range []struct {
		name                         string
		length, width, margin, angle float64
		edge                         string
	}{
		{"round", 0, 0.12, 0.08, 0.5, ""},
		{"narrower than the overlap", 0, 0.057, 0.08, 0, "c"},
		{"pin hole", 0, 0.02, 0.06, 0.5, "d"},
		{"slot to its end", 0.3, 0.1, 0.06, 0, "b"},
		{"slot to its side", 0.3, 0.1, 0.06, 0, "a"},
		{"narrow slot to its side", 0.3, 0.04, 0.06, 0, "a"},
		{"narrow slot to its end", 0.3, 0.04, 0.06, 0, "b"},
		{"slot at a slant", 0.3, 0.1, 0.06, 0.5, ""},
		{"steep slot", 0.3, 0.1, 0.06, 1.4, ""},
		{"narrow steep slot", 0.3, 0.05, 0.08, 1.35, ""},
	} {
		p := square(Finish{})
		p.Holes = []Hole{{Name: "h", At: Point{1, 0.4}, Length: units.Length(c.length), Width: units.Length(c.width), Angle: units.Angle(c.angle), Margin: units.Length(c.margin), Split: true, Edge: c.edge}}
		edges, err := p.lay()
		if err != nil {
			t.Fatal(err)
		}
		h := &p.Holes[0]
		rings, holes := h.patches(&p, edges)
		if len(rings) != 2 || holes[0] != nil || holes[1] != nil {
			t.Fatalf("%s: %d patches, %v", c.name, len(rings), holes)
		}
		at := h.At.bare()
		begin, _ := h.slit(&p, edges)
		u := begin.Sub(at).Unit()
		if c.length > 0 { // along the slot, or square to it
			sin, cos := math.Sincos(c.angle)
			u = plane.Point{X: cos, Y: sin}
			if math.Abs(begin.Sub(at).Dot(u)) < (c.length-c.width)/2+1e-9 {
				u = u.Right()
			}
			u = u.Times(math.Copysign(1, begin.Sub(at).Dot(u)))
		}
		whole, hole := h.line(c.margin), h.line(0)
		for k, side := range []float64{-1, 1} {
			if plane.Area(rings[k]) < 0 {
				t.Errorf("%s: half %d is clockwise", c.name, k+1)
			}
			if _, _, _, found := plane.Crossing(rings[k]); found {
				t.Errorf("%s: half %d meets itself", c.name, k+1)
			}
			inside := 0
			for i := range 120 {
				for j := range 120 {
					q := at.Add(plane.Point{X: 0.5 * (float64(i)/119.5 - 0.5), Y: 0.5 * (float64(j)/119.5 - 0.5)})
					d := q.Sub(at)
					along, right := d.Dot(u), d.Dot(u.Right())
					// The slit is square to the edge of the hole, and so parts what is nearest to either side.
					rim := nearest(hole, q, true)
					lip := rim.Sub(at).Cross(begin.Sub(at)) / begin.Sub(at).Norm()
					want := plane.Contains(whole, q) && !plane.Contains(hole, q)
					if along > 0 {
						want = want && side*lip > 0
					} else {
						want = want && side*right > -c.margin/2
					}
					near := plane.Distance(rings[k], q) < 2e-3 || math.Abs(along) < 2e-3 || along > 0 && math.Abs(lip) < 2e-3
					if got := plane.Contains(rings[k], q); got != want && !near {
						t.Fatalf("%s: half %d has %v: %v, want %v (%.3f along, %.3f to the right)", c.name, k+1, q, got, want, along, right)
					}
					if want {
						inside++
					}
				}
			}
			if inside < 100 {
				t.Errorf("%s: half %d has %d points", c.name, k+1, inside)
			}
		}
	}
	// What is drawn on the panel is what is cut; both halves say where they are sewn.
	p := square(Finish{})
	p.Holes = []Hole{{Name: "h", At: Point{0.5, 0.7}, Width: 0.057, Margin: 0.08, Split: true, Edge: "c"}}
	out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
	if err != nil || len(out) != 3 || len(out[0].Patches) != 2 {
		t.Fatal(len(out), err)
	}
	for k, side := range []float64{-1, 1} {
		half := out[1+k]
		if !slices.Equal(half.Cut, out[0].Patches[k][:len(half.Cut)]) || len(half.Holes) > 0 || !slices.Contains(half.Notes, "sew to its own lip of the slit only") {
			t.Errorf("%+v", half)
		}
		for _, q := range half.Cut { // the slit goes up from the hole
			if q.Y > 0.7+0.0285 && side*float64(q.X-0.5) < -1e-9 {
				t.Errorf("half %d lies on the other lip at %v", k+1, q)
			}
		}
	}
	// A patch as a whole has its hole; without a margin there is none.
	p = square(Finish{})
	h := Hole{Name: "h", At: Point{1, 0.4}, Width: 0.1, Margin: 0.03}
	edges, _ := p.lay()
	rings, holes := h.patches(&p, edges)
	if len(rings) != 1 || math.Abs(plane.Area(rings[0])-math.Pi*0.08*0.08) > 1e-5 || math.Abs(plane.Area(holes[0])-math.Pi*0.05*0.05) > 1e-5 {
		t.Errorf("%v, %v", rings, holes)
	}
	h.Margin = 0
	if rings, holes := h.patches(&p, edges); rings != nil || holes != nil {
		t.Errorf("%v, %v", rings, holes)
	}
	p.Holes = []Hole{{Name: "h", At: Point{1, 0.4}, Width: 0.1, Split: true}}
	if _, err := p.Area(); !errors.Is(err, ErrInput) {
		t.Errorf("a patch in halves without a margin: %v", err)
	}
	p.Holes = []Hole{{Name: "h", At: Point{1, 0.4}, Width: 0.1, Margin: 0.02, Edge: "x"}}
	if _, err := p.Area(); !errors.Is(err, ErrUnknown) {
		t.Errorf("no such edge: %v", err)
	}
	// The panel is cut open to the edge that is named, or to the nearest.
	for edge, want := range map[string]plane.Point{"": {X: 1}, "a": {X: 1}, "b": {X: 2, Y: 0.4}, "c": {X: 1, Y: 1}, "d": {Y: 0.4}} {
		h := Hole{At: Point{1, 0.4}, Width: 0.1, Edge: edge}
		p := square(Finish{})
		p.Edges[2].Course = Course{}
		if got := h.open(&p, edges); got.Sub(want).Norm() > 1e-12 {
			t.Errorf("to %q: %v, want %v", edge, got, want)
		}
	}
	// It is round if no length is given, and a slot as long as wide is round.
	for _, length := range []units.Length{0, 0.1, 0.1 + 1e-12} {
		h := Hole{Width: 0.1, Length: length}
		for _, q := range h.line(0.02) {
			if math.Abs(q.Norm()-0.07) > 1e-9 {
				t.Fatalf("%v from the middle of a round hole", q.Norm())
			}
		}
	}
}

// The nearest point of a line is nearer than any other point of it.
func TestNearestIsNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	for range 300 {
		var line []plane.Point
		for range 2 + r.IntN(5) {
			line = append(line, plane.Point{X: r.Float64(), Y: r.Float64()})
		}
		if r.IntN(3) == 0 {
			line = append(line, line[len(line)-1]) // a point twice
		}
		closed := r.IntN(2) == 0
		p := plane.Point{X: 2*r.Float64() - 0.5, Y: 2*r.Float64() - 0.5}
		got := nearest(line, p, closed).Sub(p).Norm()
		least := math.Inf(1)
		for i := range line {
			if i+1 == len(line) && !closed {
				break
			}
			a, d := line[i], line[(i+1)%len(line)].Sub(line[i])
			for k := range 2001 {
				least = math.Min(least, a.Add(d.Times(float64(k)/2000)).Sub(p).Norm())
			}
		}
		if got > least+1e-12 || got < least-1e-3 {
			t.Fatalf("%v is %v from %v (closed: %v), by all points %v", p, got, line, closed, least)
		}
	}
}

// Layers of a corner patch, straight or with a hollow of a tenth of its chord, and
// no larger than the edges beside the corner.
func TestLayersOfCorners(t *testing.T) {
	for _, c := range []struct {
		round bool
		area  func(leg float64) float64
	}{
		{false, func(leg float64) float64 { return leg * leg / 2 }},
		{true, func(leg float64) float64 { return leg*leg/2 - segmentOf(leg*math.Sqrt2, leg*math.Sqrt2/10) }},
	} {
		for corner := range 4 {
			p := square(Finish{Kind: SingleHem, Width: 0.02})
			p.Patches = []CornerPatch{{Corner: corner, Along: 0.3, Layers: 3, Step: 0.09, Round: c.round, Name: []string{"", "tack"}[corner%2]}}
			edges, err := p.lay()
			if err != nil {
				t.Fatal(err)
			}
			layers := p.Patches[0].panels(&p, edges)
			if len(layers) != 3 {
				t.Fatalf("%d layers", len(layers))
			}
			for k, q := range layers {
				a, err := q.Area()
				if want := c.area(0.3 - 0.09*float64(k)); err != nil || math.Abs(float64(a)-want) > 1e-9 {
					t.Errorf("corner %d, layer %d: %v, %v, want %v", corner, k+1, a, err, want)
				}
				name := "p, patch of " + map[bool]string{false: []string{"corner 1", "", "corner 3"}[corner%3], true: "tack"}[corner%2 == 1] + ", layer " + string(rune('1'+k))
				if q.Name != name || q.Edges[0].From != p.Edges[corner].From || q.Edges[0].Finish != p.Edges[corner].Finish || q.Edges[2].Finish != p.Edges[(corner+3)%4].Finish || q.Edges[1].Finish != (Finish{}) {
					t.Errorf("%q, want %q: %+v", q.Name, name, q)
				}
			}
		}
	}
	for _, k := range []struct {
		along, step units.Length
		layers      int
		field       string
	}{
		{1, 0, 1, ""},
		{1.001, 0, 1, "Patches[0].Along"},
		{0.5, 0, 2, "Patches[0].Step"},
		{0.5, 0.1, 5, ""},
		{0.5, 0.151, 4, "Patches[0].Step"},
	} {
		p := square(Finish{})
		p.Patches = []CornerPatch{{Corner: 2, Along: k.along, Layers: k.layers, Step: k.step}}
		_, err := p.Area()
		var e *Error
		if (k.field == "") != (err == nil) || err != nil && (!errors.As(err, &e) || e.Field != k.field) {
			t.Errorf("%+v: %v", k, err)
		}
	}
}

// Straight outlines are marked out corner by corner from the lowest, of two the left
// one, anticlockwise and from wherever the line begins; corners are turns of more
// than 20 degrees, and round pieces have none.
func TestMarkingOutByHand(t *testing.T) {
	for _, outline := range [][]Point{
		{{}, {X: 2}, {2, 1}, {0, 1}},
		{{0.5, 0}, {2, 0.3}, {1.5, 2}, {0, 1}},
		{{1, 0}, {1.5, 0}, {2, 1}, {0, 1}},
		{{0.2, 0}, {0.8, 0}, {1, 0.5}, {0.5, 2}, {0, 0.6}},
	} {
		for k := range outline {
			turned := append(slices.Clone(outline[k:]), outline[:k]...)
			for i := range turned {
				turned[i].X, turned[i].Y = turned[i].X-3, turned[i].Y+7
			}
			got, err := Piece{Cut: turned}.MarkingOut(1e-3)
			if err != nil || len(got) != len(outline) {
				t.Fatalf("%v: %v, %v", turned, got, err)
			}
			for i := range got {
				if math.Hypot(float64(got[i].X-outline[i].X), float64(got[i].Y-outline[i].Y)) > 1e-12 {
					t.Errorf("%v: %v, want %v", turned, got, outline)
				}
			}
		}
	}
	// A corner within the deviation stays if it turns by more than 20 degrees.
	for _, c := range []struct {
		turn float64
		left int
	}{{19.9, 4}, {20.1, 5}} {
		rise := math.Tan(c.turn*math.Pi/360) * 1e-3
		cut := []Point{{}, {units.Length(1e-3), units.Length(-rise)}, {X: 2e-3}, {2e-3, 1e-3}, {0, 1e-3}}
		got, err := Piece{Cut: cut}.MarkingOut(1e-3)
		if err != nil || len(got) != c.left {
			t.Errorf("a turn of %v degrees: %v, %v", c.turn, got, err)
		}
	}
	// A circle begins at its lowest point; with one corner it begins there or below.
	for first := range 50 {
		var ring []Point
		for k := range 50 {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k+first) + 0.25) / 50)
			ring = append(ring, Point{units.Length(cos), units.Length(sin)})
		}
		lowest := slices.MinFunc(ring, func(a, b Point) int { return int(math.Copysign(1, float64(a.Y-b.Y))) })
		leftmost := slices.MinFunc(ring, func(a, b Point) int { return int(math.Copysign(1, float64(a.X-b.X))) })
		got, err := Piece{Cut: ring}.MarkingOut(0.02)
		if err != nil || len(got) < 8 || len(got) > 40 || got[0].Y != 0 || math.Abs(float64(got[0].X-(lowest.X-leftmost.X))) > 1e-12 {
			t.Fatalf("from %d: %v, %v", first, got, err)
		}
		for i, a := range got {
			b := got[(i+1)%len(got)]
			m := math.Hypot(float64(a.X+b.X)/2+float64(leftmost.X), float64(a.Y+b.Y)/2+float64(lowest.Y))
			if m < 1-0.02-1e-3 || m > 1 {
				t.Errorf("from %d: between %v and %v the middle is %v from the centre", first, a, b, m)
			}
		}
	}
}

// Darts beside one another on an edge, and on other edges.
func TestDartsBesideOneAnother(t *testing.T) {
	for _, c := range []struct {
		one, two Dart
		ok       bool
	}{
		{Dart{Edge: "a", At: 0.5, Width: 0.03, Depth: 0.1}, Dart{Edge: "a", At: 0.5151, Width: 0.03, Depth: 0.1}, true},
		{Dart{Edge: "a", At: 0.5, Width: 0.03, Depth: 0.1}, Dart{Edge: "a", At: 0.5149, Width: 0.03, Depth: 0.1}, false},
		{Dart{Edge: "a", At: 0.5, Width: 0.05, Depth: 0.1}, Dart{Edge: "a", At: 0.4801, Width: 0.03, Depth: 0.1}, false},
		{Dart{Edge: "a", At: 0.5, Width: 0.05, Depth: 0.1}, Dart{Edge: "a", At: 0.4799, Width: 0.03, Depth: 0.1}, true},
		{Dart{Edge: "a", At: 0.5, Width: 0.03, Depth: 0.1}, Dart{Edge: "c", At: 0.5, Width: 0.03, Depth: 0.1}, true},
		{Dart{Edge: "a", At: 0.5, Width: 0.03, Depth: 0.03}, Dart{Edge: "c", At: 0.5, Width: 0.03, Depth: 0.0299}, false},
	} {
		p := square(Finish{})
		p.Darts = []Dart{c.one, c.two}
		if _, err := p.Area(); (err == nil) != c.ok {
			t.Errorf("%+v: %v", c, err)
		}
	}
	// The point lies Depth inside the middle between the legs; one leg beyond the panel is enough to refuse it.
	p := Panel{Name: "p", Edges: []Edge{{Name: "a"}, {Name: "b", From: Point{X: 1}}, {Name: "c", From: Point{X: 0.9, Y: 0.5}}}}
	p.Darts = []Dart{{Edge: "a", At: 0.5, Width: 0.1, Depth: 0.2}}
	out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	want := DartLine{Tip: Point{0.5, 0.2}, Left: Point{X: 0.45}, Right: Point{X: 0.55}, Fold: Point{X: 0.5}}
	got := out[0].Darts[0]
	for k, q := range [][2]Point{{got.Tip, want.Tip}, {got.Left, want.Left}, {got.Right, want.Right}, {got.Fold, want.Fold}} {
		if math.Hypot(float64(q[0].X-q[1].X), float64(q[0].Y-q[1].Y)) > 1e-12 {
			t.Errorf("%d: %v, want %v", k, q[0], q[1])
		}
	}
	p.Darts[0].Depth = 0.29 // beyond the slanting side
	if _, err := p.Area(); err == nil {
		t.Error("a dart beyond the panel")
	}
}

// A point of the cut line nearer a corner than the corner's own cut is left out,
// and cones keep to their circles.
func TestConesKeepToTheirCircles(t *testing.T) {
	for _, d := range []units.Length{0.02, 0.3, 4} {
		v, err := ObliqueCone{Name: "o", Bottom: d, Top: d / 2, Height: d, Seam: 0.01}.Cover()
		if err != nil {
			t.Fatal(err)
		}
		edges, err := v.Panels[0].lay()
		if err != nil {
			t.Fatal(err)
		}
		slant := math.Hypot(1, 0.25) * float64(d)
		for i, e := range v.Panels[0].Edges {
			radius := 2 * slant
			switch {
			case strings.HasPrefix(e.Name, "top"):
				radius = slant
			case !strings.HasPrefix(e.Name, "bottom"):
				continue
			}
			for k, q := range edges[i].line {
				if math.Abs(q.Norm()-radius) > 1e-9 {
					t.Fatalf("%s of %v: a point at %v, want %v", e.Name, d, q.Norm(), radius)
				}
				if k == 0 {
					continue
				}
				m := q.Add(edges[i].line[k-1]).Times(0.5)
				if off := radius - m.Norm(); off > 2*tolerance {
					t.Fatalf("%s of %v: chords leave the circle by %v", e.Name, d, off)
				}
			}
		}
	}
}

// What cannot be cut is refused by what is in the way.
func TestPiecesRefused(t *testing.T) {
	spike := Course{Curve: Points, Offsets: []Offset{{0.1, -0.45}, {0.12, 0}}} // into the panel, beside its corner
	for name, c := range map[string]struct {
		change func(*Panel)
		want   error
		field  string
	}{
		"a patch across an edge": {func(p *Panel) {
			p.Edges[0].Course, p.Patches = spike, []CornerPatch{{Corner: 0, Along: 0.5, Layers: 1}}
		}, ErrOutline, "Edges"},
		"a facing wider than the hollow": {func(p *Panel) {
			p.Edges[0].Course, p.Edges[0].Finish = Course{Curve: Arc, Depth: -0.9}, Finish{Kind: SingleHem, Width: 3, Turn: 0.01, Strip: true}
		}, nil, ""},
		"a curve too sharp": {func(p *Panel) {
			p.Edges[0].Course, p.Edges[0].Finish = Course{Curve: Arc, Depth: 0.5}, Finish{Kind: SingleHem, Width: 0.2}
		}, ErrFold, `Edges[0] (a) of "p"`},
		"a panel of no name": {func(p *Panel) { p.Name = "" }, ErrInput, "Panels[0].Name"},
	} {
		p := square(Finish{})
		c.change(&p)
		out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
		var e *Error
		if !errors.Is(err, c.want) || err != nil && (!errors.As(err, &e) || e.Field != c.field) {
			t.Errorf("%s: %v", name, err)
		}
		if err != nil && out != nil {
			t.Errorf("%s: %d pieces beside an error", name, len(out))
		}
		if _, err := (Cover{Panels: []Panel{p}}).Quantities(Cloth{}, Sewing{Stitch: Lockstitch, Length: 4e-3}); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (Cover{Panels: []Panel{square(Finish{})}}).Pieces(Cloth{Thickness: -1}); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
	// A facing along an edge: turn outside, width inside, mirrored along the warp, as many as there are panels.
	p := square(Finish{})
	p.Quantity, p.Mirrored = 2, 3
	p.Edges[0].Finish = Finish{Kind: SingleHem, Width: 0.05, Turn: 0.01, Strip: true}
	out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
	if err != nil || len(out) != 2 {
		t.Fatal(len(out), err)
	}
	f := out[1]
	low, high := f.Cut[0].Y, f.Cut[0].Y
	for _, q := range f.Cut {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	if f.Name != "p, facing of a" || f.Quantity != 2 || f.Mirrored != 3 || math.Abs(float64(low)+0.06) > 1e-12 || math.Abs(float64(high)-0.01) > 1e-12 || math.Abs(float64(f.Area())-2*0.07) > 1e-12 || len(f.Sew) != 1 || !slices.Equal(f.Edges, []string{"a"}) || len(f.Notes) != 2 {
		t.Errorf("%+v", f)
	}
}

// A facing covers what it is sewn to: put on the panel with its right side down, its edge
// lies on the panel's, and its ends on the panel's own, allowances included.
func TestFacingLiesOnThePanel(t *testing.T) {
	for name, c := range map[string]struct {
		left, right Finish
		grain       units.Angle
		cloth       Cloth
	}{
		"seams":    {Finish{Kind: PlainSeam, Width: 0.015}, Finish{Kind: PlainSeam, Width: 0.02}, 0, Cloth{}},
		"slanting": {Finish{}, Finish{Kind: PlainSeam, Width: 0.02}, 0.7, Cloth{Warp: -0.03, Weft: 0.01}},
		"hems":     {Finish{Kind: DoubleHem, Width: 0.02, Turn: 0.01}, Finish{Kind: SingleHem, Width: 0.02}, 2, Cloth{}},
		"faced":    {Finish{Kind: SingleHem, Width: 0.04, Turn: 0.01, Strip: true}, Finish{Kind: Bound}, 0, Cloth{}},
	} {
		// An edge that is hollow on its left half only, an obtuse corner and an acute one.
		p := Panel{Name: "p", Grain: c.grain, Edges: []Edge{
			{Name: "foot", Course: Course{Curve: Points, Offsets: []Offset{{0.2, -0.03}, {0.4, -0.02}, {0.6, 0}}}, Finish: Finish{Kind: SingleHem, Width: 0.05, Turn: 0.01, Strip: true}},
			{Name: "right", From: Point{X: 1}, Finish: c.right},
			{Name: "head", From: Point{1.3, 0.8}},
			{Name: "left", From: Point{0.2, 0.8}, Finish: c.left},
		}}
		out, err := Cover{Panels: []Panel{p}}.Pieces(c.cloth)
		if err != nil {
			t.Fatal(name, err)
		}
		f := out[1]
		sin, cos := math.Sincos(float64(c.grain))
		warp := plane.Point{X: cos, Y: sin}
		down := func(q Point) plane.Point { return warp.Times(2 * q.bare().Dot(warp)).Sub(q.bare()) } // turned over along the warp
		for k, q := range out[0].Sew[0] {
			if got := down(f.Sew[0][len(f.Sew[0])-1-k]); got.Sub(q.bare()).Norm() > 1e-9 {
				t.Fatalf("%s: the edge lies at %v, want %v", name, got, q)
			}
		}
		var laid []plane.Point
		for _, q := range f.Cut {
			laid = append(laid, down(q))
		}
		slices.Reverse(laid)
		if plane.Area(bareAll(f.Cut)) < 0 {
			t.Errorf("%s: clockwise", name)
		}
		panel := bareAll(out[0].Cut)
		foot := bareAll(out[0].Sew[0])
		n := 0
		for i := range 200 {
			for j := range 60 {
				q := plane.Point{X: -0.1 + 1.5*float64(i)/199, Y: -0.05 + 0.2*float64(j)/59}
				if plane.Distance(laid, q) < 2e-3 || plane.Distance(panel, q) < 2e-3 {
					continue
				}
				from := plane.Distance(append(slices.Clone(foot), foot[len(foot)-1]), q)
				switch in := plane.Contains(laid, q); {
				case in && !plane.Contains(panel, q):
					t.Fatalf("%s: %v hangs over the panel", name, q)
				case in:
					n++
				case plane.Contains(panel, q) && q.X > 0.1 && q.X < 0.9 && from < 0.058:
					t.Fatalf("%s: %v is not faced", name, q)
				}
			}
		}
		if n < 300 {
			t.Errorf("%s: %d points on the facing", name, n)
		}
		// To the corners, and beyond them by what the neighbours have.
		for _, corner := range []Point{{}, {X: 1}} {
			q := c.cloth.cut(c.grain)(corner.bare())
			if !plane.Contains(laid, q) && plane.Distance(laid, q) > 1e-6 {
				t.Errorf("%s: the corner at %v is not on the facing", name, q)
			}
		}
		if c.right.Kind == PlainSeam { // its cut line ends the facing too
			sewn := out[0].Sew[1]
			a, b := sewn[0].bare(), sewn[len(sewn)-1].bare()
			u := b.Sub(a).Unit()
			if q := a.Add(u.Times(0.03)).Add(u.Right().Times(float64(c.right.Width) - 1e-4)); !plane.Contains(laid, q) {
				t.Errorf("%s: no allowance of the right edge at %v", name, q)
			}
		}
	}
}

// Ticks of match marks end at the cut line.
func TestTicksEndAtTheCutLine(t *testing.T) {
	for _, width := range []units.Length{0.005, 0.008, 0.02} {
		p := square(Finish{Kind: PlainSeam, Width: width})
		q := p
		q.Name = "q"
		v := Cover{Panels: []Panel{p, q}, Seams: []Seam{{Name: "s", A: Side{Panel: "p", Edges: []string{"b"}}, B: Side{Panel: "q", Edges: []string{"d"}, Backward: true}, Marks: 3}}}
		out, err := v.Pieces(Cloth{})
		if err != nil {
			t.Fatal(err)
		}
		for _, piece := range out {
			for _, m := range piece.Marks {
				if got := math.Hypot(float64(m.To.X-m.At.X), float64(m.To.Y-m.At.Y)); math.Abs(got-float64(min(width, 0.008))) > 1e-9 {
					t.Errorf("a tick of %v on a seam of %v", got, width)
				}
			}
		}
	}
}

// The lengths of a seam as cut are those of the finished lines on the pieces, and for
// cloth that does not change those of the finished seam.
func TestSeamLengthsCut(t *testing.T) {
	bottle, err := BottleCover{
		Name: "b", Diameter: 0.3, Height: 0.4, Rise: 0.15, Gores: 8, Ease: 0.01, Clearance: 0.02, Valve: 0.11, Hose: 0.03, HoseHeight: 0.3, Seam: 0.012, Hem: 0.02,
	}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	p := square(Finish{})
	p.Grain = 0.7
	p.Edges[1].Course = Course{Curve: Arc, Depth: 0.1}
	q := p
	q.Name, q.Grain = "q", 2
	q.Edges = slices.Clone(p.Edges)
	odd := Cover{Panels: []Panel{p, q}, Seams: []Seam{{Name: "s", A: Side{Panel: "p", Edges: []string{"a", "b"}}, B: Side{Panel: "q", Edges: []string{"a", "b"}, Backward: true}}}}
	for _, v := range []Cover{bottle, odd} {
		for _, cloth := range []Cloth{{}, {Warp: -0.03, Weft: 0.01}, {Warp: -0.01}} {
			finished, err := v.SeamLengths()
			if err != nil {
				t.Fatal(err)
			}
			cut, err := v.SeamLengthsCut(cloth)
			if err != nil {
				t.Fatal(err)
			}
			pieces, err := v.Pieces(cloth)
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range v.Seams {
				for k, side := range []Side{s.A, s.B} {
					want := 0.0
					for _, panel := range v.Panels {
						if panel.Name != side.Panel {
							continue
						}
						at := slices.IndexFunc(pieces, func(q Piece) bool { return q.Name == panel.Name })
						for n, e := range panel.Edges {
							if slices.Contains(side.Edges, e.Name) {
								want += plane.Length(bareAll(pieces[at].Sew[n])) * float64(max(1, side.Times))
							}
						}
					}
					if cloth == (Cloth{}) && (cut[i][k]-finished[i][k]).Abs() > 1e-12 || math.Abs(float64(cut[i][k])-want) > 1e-5 {
						t.Errorf("%s, side %d, in %+v: %v cut, lines of %v, %v finished", s.Name, k, cloth, cut[i][k], want, finished[i][k])
					}
				}
			}
		}
	}
	if _, err := bottle.SeamLengthsCut(Cloth{Warp: -0.9}); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
	if _, err := (Cover{Panels: []Panel{{}}}).SeamLengthsCut(Cloth{}); err == nil {
		t.Error("a cover that is none")
	}
}
