package canvas

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// A panel of 2 by 1 m parted 0.8 m from its left end: what goes where, by hand.
func TestSplitByHand(t *testing.T) {
	hem, seam := Finish{Kind: SingleHem, Width: 0.02}, Finish{Kind: FelledOver, Width: 0.012, Turn: 0.008}
	p := square(hem)
	p.Quantity, p.Mirrored, p.Grain, p.Notes = 2, 1, 0.3, []string{"note"}
	p.Edges[0].Corner, p.Edges[2].Corner = Crossed, Squared
	p.Holes = []Hole{
		{Name: "left", At: Point{0.3, 0.4}, Width: 0.1, Margin: 0.03, Split: true, Edge: "c"},
		{Name: "right", At: Point{1.6, 0.4}, Width: 0.1, Margin: 0.03, Split: true, Edge: "c"},
		{Name: "low", At: Point{1.3, 0.3}, Width: 0.1, Margin: 0.03, Split: true},
		{Name: "plain", At: Point{1.3, 0.7}, Width: 0.05},
	}
	p.Fittings = []Fitting{{Name: "eye", At: Point{1.7, 0.8}, Diameter: 0.01}, {Name: "strap", At: Point{1.9, 0.9}, Strap: []Point{{0.6, 0.8}, {0.5, 0.9}}}, {Name: "mark", At: Point{0.8, 0.5}}}
	p.Darts = []Dart{{Edge: "a", At: 0.25, Width: 0.04, Depth: 0.1}, {Edge: "a", At: 0.75, Width: 0.04, Depth: 0.1}, {Edge: "d", At: 0.5, Width: 0.02, Depth: 0.1}}
	p.Patches = []CornerPatch{{Corner: 0, Along: 0.2, Layers: 1}, {Corner: 1, Along: 0.2, Layers: 1}, {Corner: 2, Along: 0.2, Layers: 1, Name: "head"}, {Corner: 3, Along: 0.2, Layers: 1}}
	got, err := Cover{Title: "title", Panels: []Panel{p}, Cautions: []string{"c"}}.Split("p", Point{X: 0.8}, Point{0.8, 1}, seam)
	if err != nil {
		t.Fatal(err)
	}
	if got.Title != "title" || len(got.Panels) != 2 || len(got.Cautions) != 1 {
		t.Fatalf("%+v", got)
	}
	type edge struct {
		name string
		from Point
		f    Finish
		c    CornerCut
	}
	in := Finish{Kind: FelledIn, Width: 0.012}
	for k, want := range [][]edge{
		{{"c 2", Point{0.8, 1}, hem, AutoCorner}, {"d", Point{0, 1}, hem, AutoCorner}, {"a", Point{}, hem, Crossed}, {"join", Point{X: 0.8}, seam, AutoCorner}},
		{{"a 2", Point{X: 0.8}, hem, AutoCorner}, {"b", Point{X: 2}, hem, AutoCorner}, {"c", Point{2, 1}, hem, Squared}, {"join", Point{0.8, 1}, in, AutoCorner}},
	} {
		q := got.Panels[k]
		if q.Name != fmt.Sprintf("p %d", k+1) || q.Quantity != 2 || q.Mirrored != 1 || q.Grain != 0.3 || !slices.Equal(q.Notes, p.Notes) || len(q.Edges) != 4 {
			t.Fatalf("%+v", q)
		}
		for i, e := range q.Edges {
			if e.Name != want[i].name || math.Hypot(float64(e.From.X-want[i].from.X), float64(e.From.Y-want[i].from.Y)) > 1e-9 || e.Finish != want[i].f || e.Corner != want[i].c {
				t.Errorf("panel %d, edge %d: %+v, want %+v", k+1, i, e, want[i])
			}
		}
	}
	var names [2][]string
	for k, q := range got.Panels {
		for _, h := range q.Holes {
			names[k] = append(names[k], "hole "+h.Name+" to "+h.Edge)
		}
		for _, f := range q.Fittings {
			names[k] = append(names[k], "fitting "+f.Name)
		}
		for _, d := range q.Darts {
			names[k] = append(names[k], fmt.Sprintf("dart on %s at %.6f", d.Edge, d.At))
		}
		for _, c := range q.Patches {
			names[k] = append(names[k], fmt.Sprintf("%s at %d", c.Name, c.Corner))
		}
	}
	want := [2][]string{
		{"hole left to c 2", "fitting strap", "dart on a at 0.625000", "dart on d at 0.500000", "corner 1 at 2", "corner 4 at 1"},
		{"hole right to c", "hole low to a 2", "hole plain to ", "fitting eye", "fitting mark", "dart on a 2 at 0.583333", "corner 2 at 1", "head at 2"},
	}
	for k := range names {
		if !slices.Equal(names[k], want[k]) {
			t.Errorf("panel %d has %q, want %q", k+1, names[k], want[k])
		}
	}
	s := got.Seams[0]
	if len(got.Seams) != 1 || s.Name != "p, joint" || s.A.Panel != "p 1" || s.B.Panel != "p 2" || s.A.Backward || !s.B.Backward || s.A.Edges[0] != "join" || s.B.Edges[0] != "join" {
		t.Errorf("%+v", s)
	}
	// The panel that was parted is as it was.
	if p.Edges[1].Name != "b" || len(p.Edges) != 4 || p.Darts[0].At != 0.25 || p.Patches[0].Name != "" || p.Holes[2].Edge != "" {
		t.Errorf("%+v", p)
	}
	// Names that are taken get a number; so do the later joins.
	p = square(hem)
	p.Edges[1].Name, p.Edges[3].Name = "a 2", "join"
	got, err = Cover{Panels: []Panel{p}}.Split("p", Point{X: 0.8}, Point{0.8, 1}, Finish{Kind: PlainSeam, Width: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	if q := got.Panels[1]; q.Edges[0].Name != "a 3" || q.Edges[3].Name != "join 2" || got.Panels[0].Edges[1].Name != "join" || got.Seams[0].A.Edges[0] != "join 2" {
		t.Errorf("%+v", got.Panels)
	}
	again, err := got.Split("p 2", Point{X: 1.4}, Point{1.4, 1}, Finish{Kind: PlainSeam, Width: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	if len(again.Panels) != 3 || again.Panels[1].Name != "p 2 1" || again.Panels[2].Edges[3].Name != "join" || len(again.Remarks) != 2 {
		t.Errorf("%+v", again)
	}
	// The other way along the line the parts change places.
	back, err := Cover{Panels: []Panel{square(hem)}}.Split("p", Point{0.8, 1}, Point{X: 0.8}, Finish{Kind: PlainSeam, Width: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	if a, _ := back.Panels[0].Area(); math.Abs(float64(a)-1.2) > 1e-9 {
		t.Errorf("the left part has %v", a)
	}
}

// Seams along a parted edge are parted where it is, with their marks in proportion,
// and so is the edge on their other side.
func TestSplitPartsSeams(t *testing.T) {
	seam := Finish{Kind: PlainSeam, Width: 0.01}
	for _, c := range []struct {
		a, b  Side
		marks int
		want  []string // seams after the joint: sides with their edges, marks
	}{
		{Side{Panel: "p", Edges: []string{"c"}}, Side{Panel: "q", Edges: []string{"a"}, Backward: true}, 5, []string{"s 1: p 2 c, q a 2, 3", "s 2: p 1 c 2, q a, 2"}},
		{Side{Panel: "q", Edges: []string{"a"}}, Side{Panel: "p", Edges: []string{"c"}, Backward: true}, 5, []string{"s 1: q a, p 1 c 2, 2", "s 2: q a 2, p 2 c, 3"}},
		{Side{Panel: "p", Edges: []string{"c"}, Backward: true}, Side{Panel: "q", Edges: []string{"a"}}, 0, []string{"s 1: p 1 c 2, q a, 0", "s 2: p 2 c, q a 2, 0"}},
		{Side{Panel: "p", Edges: []string{"c"}}, Side{Panel: "q", Edges: []string{"a"}, Backward: true}, 1, []string{"s 1: p 2 c, q a 2, 1", "s 2: p 1 c 2, q a, 1"}},
		{Side{Panel: "p", Edges: []string{"c"}}, Side{Panel: "q", Edges: []string{"a"}, Backward: true}, 2, []string{"s 1: p 2 c, q a 2, 1", "s 2: p 1 c 2, q a, 1"}},
		// The seam goes on round corners: 0.8 + 1 of 3 m on the one side, all on the long edge of the other.
		{Side{Panel: "p", Edges: []string{"b", "c"}}, Side{Panel: "r", Edges: []string{"long"}, Backward: true}, 6, []string{"s 1: p 2 b+c, r long 2, 4", "s 2: p 1 c 2, r long, 2"}},
		{Side{Panel: "p", Edges: []string{"c", "d"}}, Side{Panel: "r", Edges: []string{"long"}, Backward: true}, 6, []string{"s 1: p 2 c, r long 2, 2", "s 2: p 1 c 2+d, r long, 4"}},
		// Where the other side has a joint already, it is not parted again.
		{Side{Panel: "p", Edges: []string{"c"}}, Side{Panel: "j", Edges: []string{"one", "two"}, Backward: true}, 4, []string{"s 1: p 2 c, j two, 2", "s 2: p 1 c 2, j one, 2"}},
		// Seams of other edges stay as they are.
		{Side{Panel: "p", Edges: []string{"b"}}, Side{Panel: "q", Edges: []string{"d"}, Backward: true}, 3, []string{"s: p 2 b, q d, 3"}},
	} {
		p, q := square(seam), square(seam)
		p.Name, q.Name = "p", "q"
		r := Panel{Name: "r", Edges: []Edge{{Name: "long"}, {Name: "e", From: Point{X: 3}}, {Name: "f", From: Point{3, 0.2}}, {Name: "g", From: Point{Y: 0.2}}}}
		j := Panel{Name: "j", Edges: []Edge{{Name: "one"}, {Name: "two", From: Point{X: 0.8}}, {Name: "e", From: Point{X: 2}}, {Name: "f", From: Point{2, 0.2}}, {Name: "g", From: Point{Y: 0.2}}}}
		v := Cover{Panels: []Panel{p, q, r, j}, Seams: []Seam{{Name: "s", A: c.a, B: c.b, Marks: c.marks}}}
		got, err := v.Split("p", Point{X: 0.8}, Point{0.8, 1}, seam)
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		var list []string
		for _, m := range got.Seams[1:] {
			list = append(list, fmt.Sprintf("%s: %s %s, %s %s, %d", m.Name, m.A.Panel, strings.Join(m.A.Edges, "+"), m.B.Panel, strings.Join(m.B.Edges, "+"), m.Marks))
			if m.A.Backward != c.a.Backward || m.B.Backward != c.b.Backward {
				t.Errorf("%+v", m)
			}
		}
		if !slices.Equal(list, c.want) {
			t.Errorf("%q, want %q", list, c.want)
		}
		lengths, err := got.SeamLengths()
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range lengths {
			if math.Abs(float64(l[0]-l[1])) > 1e-9 {
				t.Errorf("%s: %v and %v", got.Seams[i].Name, l[0], l[1])
			}
		}
		if v.Seams[0].Name != "s" || len(v.Panels[1].Edges) != 4 {
			t.Error("the cover itself was changed")
		}
	}
}

// Arcs are parted into arcs of the same circle, exactly, and other curves into the
// points that follow them.
func TestSplitCurves(t *testing.T) {
	for _, depth := range []float64{0.3, -0.2, 0.9} {
		for _, x := range []float64{0.3, 1, 1.7} {
			p := square(Finish{})
			p.Edges[0].Course = Course{Curve: Arc, Depth: units.Length(depth)}
			whole, _ := p.Length("a")
			v, err := Cover{Panels: []Panel{p}}.Split("p", Point{X: units.Length(x)}, Point{units.Length(x), 1}, Finish{Kind: PlainSeam, Width: 0.01})
			if err != nil {
				t.Fatal(err)
			}
			radius := (1 + depth*depth) / (2 * math.Abs(depth))
			middle := plane.Point{X: 1, Y: math.Copysign(radius, depth) - depth}
			sum := units.Length(0)
			for k, edge := range []int{2, 0} {
				q := v.Panels[k]
				l, err := q.Length(q.Edges[edge].Name)
				if err != nil || q.Edges[edge].Course.Curve != Arc {
					t.Fatalf("%+v, %v", q.Edges[edge], err)
				}
				sum += l
				edges, _ := q.lay()
				for _, at := range edges[edge].line {
					if math.Abs(at.Sub(middle).Norm()-radius) > 1e-9 {
						t.Fatalf("depth %v parted at %v: %v is %v from the middle, want %v", depth, x, at, at.Sub(middle).Norm(), radius)
					}
				}
			}
			if math.Abs(float64(sum-whole)) > 1e-12 {
				t.Errorf("parts of %v, the arc is %v", sum, whole)
			}
		}
	}
	p := square(Finish{})
	p.Edges[0].Course = Course{Curve: Batten, Offsets: []Offset{{0.7, 0.1}, {1.2, 0.15}}}
	before, _ := p.lay()
	v, err := Cover{Panels: []Panel{p}}.Split("p", Point{X: 0.9}, Point{0.9, 1}, Finish{Kind: PlainSeam, Width: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	for k, edge := range []int{2, 0} {
		edges, _ := v.Panels[k].lay()
		for _, q := range edges[edge].line {
			if d := plane.Distance(before[0].line, q); d > 1e-9 && v.Panels[k].Edges[edge].Course.Curve != Points {
				t.Errorf("%v is %v off the batten", q, d)
			}
		}
		if got := v.Panels[k].Edges[edge].Course.Curve; got != Points {
			t.Errorf("a part of a batten is %q", got)
		}
	}
}

// What is in the way of a line is named.
func TestSplitNamesWhatIsInTheWay(t *testing.T) {
	seam := Finish{Kind: PlainSeam, Width: 0.015}
	up := func(x units.Length) [2]Point { return [2]Point{{X: x}, {x, 1}} }
	ell := Panel{Name: "p"}
	for k, c := range []Point{{}, {X: 2}, {2, 1}, {1.5, 1}, {1.5, 0.5}, {0.5, 0.5}, {0.5, 1}, {Y: 1}} {
		ell.Edges = append(ell.Edges, Edge{Name: string(rune('a' + k)), From: c})
	}
	eye := func(diameter units.Length) []Fitting {
		return []Fitting{{Name: "eye", At: Point{1, 0.5}, Diameter: diameter}}
	}
	for name, c := range map[string]struct {
		change func(*Panel)
		line   [2]Point
		seam   Finish
		want   string
	}{
		"a hole":                     {func(p *Panel) { p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1}} }, up(0.96), seam, `through Holes[0] (h) of "p"`},
		"a hole beside, in the seam": {func(p *Panel) { p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1}} }, up(0.936), seam, `through Holes[0] (h) of "p"`},
		"a hole beside":              {func(p *Panel) { p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1}} }, up(0.934), seam, ""},
		"its patch":                  {func(p *Panel) { p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1, Margin: 0.03}} }, up(0.921), seam, `through Holes[0] (h) of "p"`},
		"beside its patch":           {func(p *Panel) { p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1, Margin: 0.03}} }, up(0.919), seam, ""},
		"its slit": {func(p *Panel) {
			p.Holes = []Hole{{Name: "h", At: Point{1, 0.5}, Width: 0.1, Margin: 0.03, Split: true, Edge: "d"}}
		}, up(0.5), seam, `through the slit of Holes[0] (h) of "p"`},
		"an eyelet":                   {func(p *Panel) { p.Fittings = eye(0.02) }, up(1.005), seam, `through Fittings[0] (eye) of "p"`},
		"an eyelet in the seam":       {func(p *Panel) { p.Fittings = eye(0.02) }, up(1.0249), seam, `through Fittings[0] (eye) of "p"`},
		"an eyelet beside the seam":   {func(p *Panel) { p.Fittings = eye(0.02) }, up(1.0251), seam, ""},
		"felled over an eyelet":       {func(p *Panel) { p.Fittings = eye(0.02) }, up(1.0251), Finish{Kind: FelledOver, Width: 0.015, Turn: 0.01}, `through Fittings[0] (eye) of "p"`},
		"a mark without a hole":       {func(p *Panel) { p.Fittings = eye(0) }, up(1), seam, ""},
		"a dart":                      {func(p *Panel) { p.Darts = []Dart{{Edge: "a", At: 0.5, Width: 0.04, Depth: 0.2}} }, up(1.019), seam, `through Darts[0] of "p"`},
		"a dart on the other side":    {func(p *Panel) { p.Darts = []Dart{{Edge: "a", At: 0.5, Width: 0.04, Depth: 0.2}} }, up(0.981), seam, `through Darts[0] of "p"`},
		"beside a dart":               {func(p *Panel) { p.Darts = []Dart{{Edge: "a", At: 0.5, Width: 0.04, Depth: 0.2}} }, up(1.021), seam, ""},
		"a dart's point":              {func(p *Panel) { p.Darts = []Dart{{Edge: "d", At: 0.5, Width: 0.04, Depth: 1.02}} }, up(1), seam, `through Darts[0] of "p"`},
		"a corner patch":              {func(p *Panel) { p.Patches = []CornerPatch{{Corner: 1, Along: 0.2, Layers: 1}} }, up(1.81), seam, `through Patches[0] of "p"`},
		"beside a corner patch":       {func(p *Panel) { p.Patches = []CornerPatch{{Corner: 1, Along: 0.2, Layers: 1}} }, up(1.79), seam, ""},
		"a patched corner":            {func(p *Panel) { p.Patches = []CornerPatch{{Corner: 1, Along: 0.2, Layers: 1}} }, [2]Point{{X: 2}, {1, 1}}, seam, `through Patches[0] of "p"`},
		"an outline crossed often":    {func(p *Panel) { *p = ell }, [2]Point{{Y: 0.7}, {2, 0.7}}, seam, `across the outline of "p" at 4 places`},
		"an outline missed":           {func(p *Panel) {}, up(3), seam, `across the outline of "p" at 0 places`},
		"a corner touched":            {func(p *Panel) {}, [2]Point{{3, 0}, {1, 2}}, seam, `across the outline of "p" at 0 places`},
		"along an edge":               {func(p *Panel) {}, [2]Point{{}, {X: 1}}, seam, `along "a"`},
		"along an edge, a hair above": {func(p *Panel) {}, [2]Point{{0, 0.9e-6}, {1, 0.9e-6}}, seam, `along "a"`},
		"through two corners":         {func(p *Panel) {}, [2]Point{{}, {2, 1}}, seam, ""},
		"through one corner":          {func(p *Panel) {}, [2]Point{{}, {1, 1}}, seam, ""},
		"a join where none may be":    {func(p *Panel) {}, up(0.0000005), seam, "along"},
	} {
		p := square(Finish{})
		c.change(&p)
		got, err := Cover{Panels: []Panel{p}}.Split("p", c.line[0], c.line[1], c.seam)
		var e *Error
		switch {
		case c.want == "":
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			sum := 0
			for _, q := range got.Panels {
				sum += len(q.Holes) + len(q.Fittings) + len(q.Darts) + len(q.Patches)
			}
			if want := len(p.Holes) + len(p.Fittings) + len(p.Darts) + len(p.Patches); sum != want {
				t.Errorf("%s: %d things, before %d", name, sum, want)
			}
		case !errors.Is(err, ErrSplit) || !errors.As(err, &e) || e.Field != "line" || !strings.Contains(e.Value, c.want):
			t.Errorf("%s: %v", name, err)
		}
	}
	for field, c := range map[string]struct {
		panel    string
		from, to Point
		seam     Finish
	}{
		"panel":      {"x", Point{}, Point{Y: 1}, seam},
		"to":         {"p", Point{X: 1}, Point{X: 1 + 3.9e-6}, seam},
		"from.X":     {"p", Point{X: 101}, Point{Y: 1}, seam},
		"to.Y":       {"p", Point{}, Point{Y: 101}, seam},
		"seam.Width": {"p", Point{}, Point{Y: 1}, Finish{Kind: PlainSeam}},
		"seam.Kind":  {"p", Point{}, Point{Y: 1}, Finish{Kind: Zip, Width: 0.02, Gap: 0.01}},
	} {
		_, err := Cover{Panels: []Panel{square(Finish{})}}.Split(c.panel, c.from, c.to, c.seam)
		var e *Error
		if !errors.As(err, &e) || e.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	for _, kind := range []FinishKind{PlainSeam, Lapped, French, FelledOver} {
		v, err := Cover{Panels: []Panel{square(Finish{})}}.Split("p", Point{X: 1}, Point{1, 1}, Finish{Kind: kind, Width: 0.015, Turn: 0.01})
		if err != nil || v.Panels[0].Edges[3].Finish.Kind != kind || (v.Panels[1].Edges[3].Finish.Kind == FelledIn) != (kind == FelledOver) {
			t.Errorf("%s: %v", kind, err)
		}
	}
	// Which part laps over the other, and what has to lie lower for that.
	for _, c := range []struct {
		kind        FinishKind
		left, right Finish
		remark      string
	}{
		{FelledOver, Finish{Kind: FelledOver, Width: 0.015, Turn: 0.01}, Finish{Kind: FelledIn, Width: 0.015}, "p 1 laps over p 2, which then has to lie lower"},
		{FelledIn, Finish{Kind: FelledIn, Width: 0.015}, Finish{Kind: FelledOver, Width: 0.015, Turn: 0.01}, "p 2 laps over p 1, which then has to lie lower"},
		{Lapped, Finish{Kind: Lapped, Width: 0.015, Turn: 0.01}, Finish{Kind: Lapped, Width: 0.015, Turn: 0.01}, "higher on top"},
	} {
		v, err := Cover{Panels: []Panel{square(Finish{})}}.Split("p", Point{X: 1}, Point{1, 1}, Finish{Kind: c.kind, Width: 0.015, Turn: 0.01})
		if err != nil {
			t.Fatal(c.kind, err)
		}
		l, r := v.Panels[0].Edges, v.Panels[1].Edges
		if l[len(l)-1].Finish != c.left || r[len(r)-1].Finish != c.right || !strings.Contains(v.Remarks[0], c.remark) {
			t.Errorf("%s: %+v, %+v, %q", c.kind, l[len(l)-1].Finish, r[len(r)-1].Finish, v.Remarks)
		}
	}
	if _, err := (Cover{Panels: []Panel{square(Finish{})}}).Split("p", Point{X: 1}, Point{1, 1}, Finish{Kind: FelledIn, Width: 0.015}); !errors.Is(err, ErrInput) {
		t.Errorf("felled in without a turn: %v", err)
	}
	bad := square(Finish{})
	bad.Quantity = -1
	if _, err := (Cover{Panels: []Panel{bad}}).Split("p", Point{X: 1}, Point{1, 1}, seam); err == nil {
		t.Error("a cover that is none is split")
	}
}
