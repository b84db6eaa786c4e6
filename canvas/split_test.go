package canvas

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// alike compares what must be kept when a cover is split.
func alike(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Fatalf("%s: %.9f, want %.9f", what, got, want)
	}
}

// TestSplitKeeps splits random panels, whose neighbour is sewn along two of their edges.
func TestSplitKeeps(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	done := 0
	for range 120 {
		hem := Finish{Kind: SingleHem, Width: 20 * milli, Clipped: true}
		n := 4 + r.IntN(4)
		p := Panel{Name: "p", Grain: units.Angle(r.Float64() * 6)}
		for k := range n {
			d := 0.7 + 0.3*r.Float64()
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.4*r.Float64()) / float64(n))
			e := Edge{Name: string(rune('a' + k)), From: Point{units.Length(d * cos), units.Length(d * sin)}, Finish: hem}
			switch r.IntN(4) {
			case 1:
				e.Course = Course{Curve: Arc, Depth: units.Length(0.04 * (r.Float64() - 0.6))}
			case 2:
				e.Course = Course{Curve: Catenary, Depth: -0.03}
			case 3:
				e.Course = Course{Curve: Batten, Offsets: []Offset{{0.1, 0.01}, {0.2, 0.02}}}
			}
			p.Edges = append(p.Edges, e)
		}
		p.Holes = []Hole{{Name: "hole", At: Point{0.1, 0.1}, Width: 30 * milli, Margin: 20 * milli}}
		p.Edges[0].Finish, p.Edges[1].Finish = Finish{Kind: PlainSeam, Width: 15 * milli}, Finish{Kind: PlainSeam, Width: 15 * milli}
		cover := Cover{Panels: []Panel{p}}
		edges, err := p.lay()
		if err != nil {
			continue
		}
		whole := edges[0].length + edges[1].length
		strip := Panel{Name: "strip", Edges: []Edge{
			{Name: "free"}, {Name: "end", From: Point{X: units.Length(whole)}}, {Name: "sewn", From: Point{units.Length(whole), 0.1}}, {Name: "begin", From: Point{Y: 0.1}},
		}}
		cover.Panels = append(cover.Panels, strip)
		cover.Seams = []Seam{{Name: "side", A: Side{Panel: "strip", Edges: []string{"sewn"}, Backward: true}, B: Side{Panel: "p", Edges: []string{"a", "b"}}, Marks: 5}}
		if r.IntN(2) == 0 {
			m := &cover.Seams[0]
			m.A, m.B = Side{Panel: "p", Edges: []string{"a", "b"}, Backward: true}, Side{Panel: "strip", Edges: []string{"sewn"}}
		}
		if err := cover.Check(); err != nil {
			t.Fatal(err)
		}
		before, _ := p.Area()
		sin, cos := math.Sincos(6 * r.Float64())
		at := Point{units.Length(0.5 * (r.Float64() - 0.5)), units.Length(0.5 * (r.Float64() - 0.5))}
		if r.IntN(4) == 0 { // through a corner
			at = p.Edges[2].From
		}
		seam := []Finish{{Kind: PlainSeam, Width: 12 * milli}, {Kind: FelledOver, Width: 12 * milli, Turn: 8 * milli}}[r.IntN(2)]
		got, err := cover.Split("p", at, Point{at.X + units.Length(cos), at.Y + units.Length(sin)}, seam)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || !errors.Is(err, ErrSplit) {
				t.Fatal(err)
			}
			continue
		}
		done++
		if err := got.Check(); err != nil {
			t.Fatal(err)
		}
		if len(got.Panels) != 3 || len(got.Panels[0].Holes)+len(got.Panels[1].Holes) != 1 {
			t.Fatalf("%d panels, %d and %d holes", len(got.Panels), len(got.Panels[0].Holes), len(got.Panels[1].Holes))
		}
		one, _ := got.Panels[0].Area()
		two, err := got.Panels[1].Area()
		if err != nil {
			t.Fatal(err)
		}
		alike(t, "area", float64(one+two), float64(before), 1e-9)
		// The left part is left of the line.
		for k, sign := range []float64{1, -1} {
			edges, err := got.Panels[k].lay()
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range edges {
				for _, q := range e.line {
					if d := sign * (cos*(q.Y-float64(at.Y)) - sin*(q.X-float64(at.X))); d < -2e-5 {
						t.Fatalf("%v of part %d is %v beyond the line", q, k+1, -d)
					}
				}
			}
		}
		// All outer edges, and both sides of all seams.
		sum, outer := 0.0, 0.0
		for _, e := range edges {
			outer += e.length
		}
		pairs, err := got.SeamLengths()
		if err != nil {
			t.Fatal(err)
		}
		for k := range 2 {
			q, _ := got.Panels[k].lay()
			for m, e := range q {
				if m+1 < len(q) { // without the seam
					sum += e.length
				} else {
					alike(t, "joint", e.length, float64(pairs[0][k]), 1e-12)
				}
			}
		}
		// Catenary and batten become the polylines that follow them.
		alike(t, "outer edges", sum, outer, 2e-4)
		alike(t, "joint", float64(pairs[0][0]), float64(pairs[0][1]), 1e-12)
		sewn := 0.0
		for _, m := range pairs[1:] {
			alike(t, "sides", float64(m[0]), float64(m[1]), 1e-4)
			sewn += float64(m[0])
		}
		alike(t, "seam", sewn, whole, 2e-4)
		if _, err := got.Pieces(Cloth{Thickness: 0.5 * milli, Warp: -0.01, Weft: 0.01}); err != nil && !errors.Is(err, ErrFold) && !errors.Is(err, ErrOutline) {
			t.Fatal(err)
		}
	}
	if done < 40 {
		t.Errorf("%d panels split", done)
	}
}

func TestSplitRefuses(t *testing.T) {
	panel := Panel{
		Name: "p", Edges: []Edge{{Name: "a"}, {Name: "b", From: Point{X: 2}}, {Name: "c", From: Point{2, 1}}, {Name: "d", From: Point{Y: 1}}},
		Holes:    []Hole{{Name: "h", At: Point{0.5, 0.5}, Width: 0.1, Margin: 0.05, Split: true, Edge: "c"}},
		Fittings: []Fitting{{Name: "eye", At: Point{1.5, 0.5}, Diameter: 0.01}},
		Darts:    []Dart{{Edge: "a", At: 0.6, Width: 0.02, Depth: 0.2}},
		Patches:  []CornerPatch{{Corner: 1, Along: 0.2, Layers: 1}},
	}
	seam := Finish{Kind: PlainSeam, Width: 15 * milli}
	for _, tt := range []struct {
		from, to Point
		seam     Finish
		want     error
	}{
		{Point{0.9, 0}, Point{0.9, 1}, seam, nil},
		{Point{0.55, 0}, Point{0.55, 1}, seam, ErrSplit},   // patch of the hole
		{Point{0, 0.8}, Point{2, 0.8}, seam, ErrSplit},     // its slit
		{Point{1.2, 0}, Point{1.2, 1}, seam, ErrSplit},     // dart
		{Point{1.501, 0}, Point{1.501, 1}, seam, ErrSplit}, // eyelet
		{Point{1.9, 0}, Point{1.9, 1}, seam, ErrSplit},     // corner patch
		{Point{2, 0}, Point{1, 1}, seam, ErrSplit},         // through its corner
		{Point{3, 0}, Point{3, 1}, seam, ErrSplit},         // beside
		{Point{0, 0}, Point{1, 0}, seam, ErrSplit},         // along an edge
		{Point{1, 1}, Point{1, 1}, seam, ErrInput},
		{Point{0.9, 0}, Point{0.9, 1}, Finish{Kind: SingleHem, Width: 0.01}, ErrInput},
		{Point{X: units.Length(math.NaN())}, Point{0.9, 1}, seam, ErrInput},
	} {
		got, err := Cover{Panels: []Panel{panel}}.Split("p", tt.from, tt.to, tt.seam)
		var e *Error
		if !errors.Is(err, tt.want) || err != nil && !errors.As(err, &e) {
			t.Errorf("%v to %v: %v, want %v", tt.from, tt.to, err, tt.want)
		}
		if err == nil && (len(got.Panels[0].Holes) != 1 || len(got.Panels[1].Darts) != 1 || len(got.Panels[1].Fittings) != 1 || len(got.Panels[1].Patches) != 1) {
			t.Errorf("%+v: something is lost", got)
		}
		if err != nil {
			continue
		}
		pieces, err := got.Pieces(Cloth{Name: "cloth"})
		if err != nil || !slices.ContainsFunc(pieces, func(p Piece) bool { return p.Name == "p 2, patch of corner 2, layer 1" }) {
			t.Errorf("%+v, %v: the second corner is called otherwise", pieces, err)
		}
	}
	if _, err := (Cover{Panels: []Panel{panel}}).Split("q", Point{}, Point{Y: 1}, seam); !errors.Is(err, ErrUnknown) {
		t.Error(err)
	}
	round := Cover{Panels: []Panel{panel, {Name: "gore", Edges: panel.Edges}}, Seams: []Seam{{
		Name: "ring", A: Side{Panel: "p", Edges: []string{"a"}}, B: Side{Panel: "gore", Edges: []string{"b"}, Times: 2, Backward: true},
	}}}
	if _, err := round.Split("p", Point{X: 0.9}, Point{0.9, 1}, seam); !errors.Is(err, ErrSplit) {
		t.Error(err)
	}
	if _, err := round.Split("gore", Point{Y: 0.3}, Point{2, 0.3}, seam); !errors.Is(err, ErrSplit) {
		t.Error(err)
	}
}

// TestPlanCovers splits what no roll takes.
func TestPlanCovers(t *testing.T) {
	cloth, seam, hem := Cloth{Thickness: 0.5 * milli}, Finish{Kind: PlainSeam, Width: 15 * milli}, Finish{Kind: SingleHem, Width: 30 * milli}
	sheet := func(w, h units.Length, holes ...Hole) Cover {
		return Cover{Panels: []Panel{{Name: "sheet", Holes: holes, Edges: []Edge{
			{Name: "a", Finish: hem}, {Name: "b", From: Point{X: w}, Finish: hem}, {Name: "c", From: Point{w, h}, Finish: hem}, {Name: "d", From: Point{Y: h}, Finish: hem},
		}}}}
	}
	roll := []Roll{{Name: "roll", Width: 1.53, Selvedge: 10 * milli, Price: 20}}
	for _, tt := range []struct {
		name   string
		covers []Cover
		rolls  []Roll
		splits int
		square bool
		used   units.Length // of the first roll, 0 for any
	}{
		{"whole", []Cover{sheet(2, 1.4)}, roll, 0, false, 2.06},
		{"two strips", []Cover{sheet(2, 2)}, roll, 1, false, 0},
		// Halves lie one after the other; a wide part and a narrow one beside a piece do better.
		{"beside another", []Cover{sheet(2, 0.9), sheet(2, 1.85)}, roll, 1, false, 4.12},
		{"three", []Cover{sheet(3, 4)}, roll, 2, false, 9.18},
		{"seven", []Cover{sheet(0.5, 10)}, roll, 6, false, 0},
		{"short roll", []Cover{sheet(3, 1)}, []Roll{{Width: 1.53, Length: 2}, {Width: 1.53, Length: 1.8}}, 1, true, 0},
		{"hole in the middle", []Cover{sheet(2, 2, Hole{Name: "mast", At: Point{1, 1}, Width: 0.2, Margin: 0.05})}, roll, 1, false, 0},
	} {
		l := Lay{Rolls: tt.rolls, Gap: 2 * milli}
		got, err := l.PlanCovers(t.Context(), tt.covers, cloth, seam, LayOptions{Work: 30000})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		checkLaid(t, got.Lay, got.Plan)
		if len(got.Splits) != tt.splits {
			t.Errorf("%s: %d splits, want %d: %+v", tt.name, len(got.Splits), tt.splits, got.Splits)
		}
		laid := 0
		for _, u := range got.Plan.Rolls {
			laid += len(u.Laid)
		}
		want := 0
		for i, v := range got.Covers {
			if err := v.Check(); err != nil {
				t.Errorf("%s: %v", tt.name, err)
			}
			pieces, err := v.Pieces(cloth)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range pieces {
				want += p.Quantity
			}
			before, after := units.Area(0), units.Area(0)
			for _, p := range tt.covers[i].Panels {
				a, _ := p.Area()
				before += a
			}
			for _, p := range v.Panels {
				a, _ := p.Area()
				after += a
			}
			alike(t, tt.name, float64(after), float64(before), 1e-9)
		}
		if laid != want {
			t.Errorf("%s: %d pieces laid, want %d", tt.name, laid, want)
		}
		for _, s := range got.Splits {
			if s.Square != tt.square {
				t.Errorf("%s: %+v", tt.name, s)
			}
		}
		if u := got.Plan.Rolls[0].Used; tt.used > 0 && math.Abs(float64(u-tt.used)) > 0.01 {
			t.Errorf("%s: used %v, want %v", tt.name, u, tt.used)
		}
		t.Logf("%s: %d tried, cost %.2f, work %d, %+v", tt.name, got.Plan.Work, got.Plan.Cost, got.Plan.Work, got.Splits)
	}
	// What is refused, and what is said to be in the way.
	hatch := Hole{Name: "hatch", At: Point{1, 1}, Width: 1.2, Margin: 0.05}
	slit := Hole{Name: "mast", At: Point{0.3, 1}, Width: 0.2, Margin: 0.05, Split: true, Edge: "b"}
	turned := sheet(2, 2, slit) // its slit runs square to the warp
	turned.Panels[0].Grain = 90 * units.Degree
	for _, tt := range []struct {
		name  string
		cover Cover
		rolls []Roll
		want  string
	}{
		{"hole that no seam passes", sheet(2, 2, hatch), roll, `is 2.06 m across the roll and not to be split (a seam would be through Holes[0] (hatch) of "sheet")`},
		{"slit", turned, roll, `is 2.06 m across the roll and not to be split (a seam would be through the slit of Holes[0] (mast) of "sheet")`},
		{"roll too short for both halves", sheet(2, 2), []Roll{{Width: 1.53, Length: 3}}, `is on rolls too short for it, whole or in parts: 2.06 m across the roll (`},
		{"roll too short for a part of a half", sheet(4, 2), []Roll{{Width: 1.53, Length: 0.04}}, `is on rolls too short for it, whole or in parts: 2.06 m across the roll (`},
		{
			"roll too short, and a slit", sheet(4, 1.4, Hole{Name: "mast", At: Point{0.3, 0.7}, Width: 0.2, Margin: 0.05, Split: true, Edge: "b"}),
			[]Roll{{Width: 1.53, Length: 3}, {Width: 1.53, Length: 3}},
			`is on rolls too short for it: 4.06 m along the roll and not to be split (a seam would be through the slit of Holes[0] (mast) of "sheet")`,
		},
	} {
		_, err := Lay{Rolls: tt.rolls}.PlanCovers(t.Context(), []Cover{tt.cover}, cloth, seam, LayOptions{Work: 2000})
		var e *Error
		if !errors.As(err, &e) || e.Err != ErrCloth || e.Field != `covers[0]."sheet"` || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
}

// A piece as wide as one roll takes and as long as another does is split to fit one of
// them, rather than on and on.
func TestSplitForOneOfTwoRolls(t *testing.T) {
	sheet := polygonPanel("sheet", Point{}, Point{X: 1.1}, Point{1.1, 1.3}, Point{Y: 1.3})
	seam := Finish{Kind: PlainSeam, Width: 15 * milli}
	for name, c := range map[string]struct {
		rolls []Roll
		parts int // 0 where it has to be refused
	}{
		"wide and short, narrow and long": {[]Roll{{Name: "wide", Width: 1.5, Length: 0.9}, {Name: "long", Width: 0.9, Length: 3}}, 2},
		"a roll of nothing":               {[]Roll{{Name: "offcut", Width: 1, Length: 2.6}, {Name: "roll", Width: 1.53, Length: 5e-324}}, 2},
		"two of nothing":                  {[]Roll{{Name: "a", Width: 0.0021, Length: 3}, {Name: "b", Width: 1.53, Length: 5e-324}}, 0},
	} {
		got, err := Lay{Rolls: c.rolls}.PlanCovers(t.Context(), []Cover{{Panels: []Panel{sheet}}}, Cloth{}, seam, LayOptions{Work: 2000})
		if c.parts == 0 {
			if !errors.Is(err, ErrCloth) {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		if err != nil || len(got.Lay.Pieces) != c.parts {
			t.Errorf("%s: %d parts, %v", name, len(got.Lay.Pieces), err)
		}
	}
}
