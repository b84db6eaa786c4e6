package canvas

import (
	"encoding/json"
	"errors"
	"math"
	"math/cmplx"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/units"
)

// polygonPanel has hems of no width, so that it is cut as it is drawn.
func polygonPanel(name string, ring ...Point) Panel {
	p := Panel{Name: name}
	for _, q := range ring {
		p.Edges = append(p.Edges, Edge{From: q})
	}
	return p
}

// TestPlanCoversLie lays covers on cloth with a nap, on cloth alike on both sides and on
// cloth without a grain.
func TestPlanCoversLie(t *testing.T) {
	tent := polygonPanel("tent", Point{}, Point{X: 1}, Point{0.5, 0.5})
	tent.Quantity = 3
	handed := polygonPanel("handed", Point{}, Point{X: 1}, Point{0.45, 0.5})
	handed.Quantity, handed.Mirrored = 1, 1
	strip := polygonPanel("strip", Point{}, Point{X: 0.5}, Point{0.5, 1.2}, Point{Y: 1.2})
	large := polygonPanel("large", Point{}, Point{X: 2}, Point{2, 0.8}, Point{Y: 0.9})
	for _, tt := range []struct {
		name   string
		panel  Panel
		cloth  Cloth
		used   units.Length // 0 is any
		splits int
	}{
		// Three triangles on cloth as wide as they are high: only heads beside feet nest.
		{"plain", tent, Cloth{}, 2, 0},
		{"nap", tent, Cloth{Lie: OneWay}, 3, 0},
		{"nap on both sides", tent, Cloth{Lie: OneWay, Flip: true}, 2, 0},
		{"both sides alike", tent, Cloth{Flip: true}, 2, 0},
		// The mirrored one has its apex below, and nests beside the other.
		{"handed", handed, Cloth{Lie: OneWay}, 1.55, 0},
		{"across", strip, Cloth{}, 0, 2},
		{"across, without a grain", strip, Cloth{Lie: AnyWay}, 1.2, 0},
		{"split, plain", large, Cloth{}, 0, 1},
		{"split, nap", large, Cloth{Lie: OneWay}, 0, 1},
		{"split, nap on both sides", large, Cloth{Lie: OneWay, Flip: true}, 0, 1},
	} {
		l := Lay{Rolls: []Roll{{Name: "roll", Width: 520 * milli, Price: 10}}}
		got, err := l.PlanCovers(t.Context(), []Cover{{Panels: []Panel{tt.panel}}}, tt.cloth, Finish{Kind: PlainSeam, Width: 10 * milli}, LayOptions{Work: 20000})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err := got.Plan.Check(got.Lay); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		for _, p := range got.Lay.Pieces {
			if p.Lie != tt.cloth.Lie || p.Flip != tt.cloth.Flip {
				t.Errorf("%s: %s lies %q, flipped %v", tt.name, p.Name, p.Lie, p.Flip)
			}
		}
		u := got.Plan.Rolls[0]
		mirrored := 0
		for _, q := range u.Laid {
			if tt.cloth.Lie == OneWay && q.Turn != 0 || !tt.cloth.Flip && q.Flipped {
				t.Errorf("%s: %s is turned by %v, flipped %v", tt.name, q.Name, q.Turn, q.Flipped)
			}
			if q.Mirrored {
				mirrored++
			}
		}
		if len(got.Splits) != tt.splits || mirrored != tt.panel.Mirrored {
			t.Errorf("%s: %d splits, %d mirrored", tt.name, len(got.Splits), mirrored)
		}
		if tt.used > 0 && math.Abs(float64(u.Used-tt.used)) > 0.06 {
			t.Errorf("%s: used %v, want %v", tt.name, u.Used, tt.used)
		}
	}
}

func TestClothLieIsRefused(t *testing.T) {
	for _, tt := range []struct {
		cloth Cloth
		is    error
	}{
		{Cloth{Lie: Listed}, ErrInput},
		{Cloth{Lie: AnyWay, Warp: -0.02, Weft: -0.01}, ErrInput},
		{Cloth{Lie: "upside down"}, ErrUnknown},
		{Cloth{Lie: AnyWay, Warp: -0.02, Weft: -0.02}, nil},
		{Cloth{Lie: OneWay, Warp: -0.02}, nil},
	} {
		_, err := Cover{Panels: []Panel{polygonPanel("a", Point{}, Point{X: 1}, Point{Y: 1})}}.Pieces(tt.cloth)
		var e *Error
		if !errors.Is(err, tt.is) || tt.is != nil && (!errors.As(err, &e) || e.Field != "Cloth.Lie") {
			t.Errorf("%+v: %v", tt.cloth, err)
		}
	}
}

// onTheRoll is where a point of a finished panel lies on the roll, by complex numbers.
func onTheRoll(q Laid, p Point, grain units.Angle, t Cloth) complex128 {
	z := complex(float64(p.X), float64(p.Y)) * cmplx.Rect(1, -float64(grain)) // along warp and weft
	z = complex(real(z)/(1+t.Warp), imag(z)/(1+t.Weft))
	if q.Mirrored != q.Flipped {
		z = cmplx.Conj(z)
	}
	return complex(float64(q.At.X), float64(q.At.Y)) + z*cmplx.Rect(1, float64(q.Turn))
}

// offRepeat is how far two places differ in the repeat.
func offRepeat(a, b float64, repeat units.Length) float64 {
	if repeat == 0 {
		return 0
	}
	return math.Abs(math.Remainder(a-b, float64(repeat)))
}

// TestStripesGoOn follows the pattern along the seams of panels that were split: both
// parts show the same there, wherever they lie.
func TestStripesGoOn(t *testing.T) {
	hem := Finish{Kind: SingleHem, Width: 25 * milli}
	match := &Match{At: Point{0.31, 0.47}, Along: 30 * milli, Across: 20 * milli}
	loose := *match
	loose.Tolerance = 3 * milli
	for _, tt := range []struct {
		name  string
		match *Match
		w, h  units.Length
		grain units.Angle
		cloth Cloth
		seam  Finish
		rolls []Roll
		parts int
	}{
		{"stripes along", match, 1.9, 2.2, 0, Cloth{}, Finish{Kind: PlainSeam, Width: 15 * milli}, []Roll{{Across: 120 * milli}}, 2},
		{"a nap, too", match, 1.9, 2.2, 0, Cloth{Lie: OneWay}, Finish{Kind: Lapped, Width: 20 * milli}, []Roll{{Across: 120 * milli}}, 2},
		{"both sides alike", match, 1.9, 2.2, 0, Cloth{Flip: true}, Finish{Kind: PlainSeam, Width: 15 * milli}, []Roll{{Across: 120 * milli}}, 2},
		{"checks", match, 2.2, 1.3, 90 * units.Degree, Cloth{}, Finish{Kind: FelledOver, Width: 12 * milli, Turn: 8 * milli}, []Roll{{Along: 90 * milli, Across: 70 * milli}}, 2},
		{"shrinking", match, 2.0, 2.3, 0.2, Cloth{Warp: -0.03, Weft: -0.015, Thickness: 0.5 * milli}, Finish{Kind: FelledOver, Width: 12 * milli, Turn: 8 * milli}, []Roll{{Along: 90 * milli, Across: 70 * milli}}, 2},
		{"to some millimetres", &loose, 1.9, 2.2, 0, Cloth{}, Finish{Kind: French, Width: 8 * milli, Turn: 6 * milli}, []Roll{{Across: 120 * milli}}, 2},
		{"short offcuts", match, 3.1, 1.2, 0, Cloth{}, Finish{Kind: PlainSeam, Width: 15 * milli}, []Roll{
			{Length: 2, Along: 90 * milli, Across: 70 * milli, Pattern: Point{40 * milli, 11 * milli}},
			{Length: 1.8, Along: 90 * milli, Across: 70 * milli, Pattern: Point{X: 1.234, Y: -0.4}},
		}, 2},
		{"three parts", match, 1.0, 3.6, 0, Cloth{Weft: -0.02}, Finish{Kind: PlainSeam, Width: 15 * milli}, []Roll{{Across: 130 * milli}}, 3},
	} {
		p := polygonPanel("sheet", Point{}, Point{X: tt.w}, Point{tt.w, tt.h}, Point{Y: tt.h})
		for i := range p.Edges {
			p.Edges[i].Finish = hem
		}
		p.Quantity, p.Mirrored, p.Grain, p.Match = 1, 1, tt.grain, tt.match
		l := Lay{Gap: 2 * milli}
		for _, r := range tt.rolls {
			r.Width, r.Selvedge, r.Price = 1.53, 10*milli, 20
			if r.Length > 0 { // enough for the mirrored parts
				l.Rolls = append(l.Rolls, r)
			}
			l.Rolls = append(l.Rolls, r)
		}
		got, err := l.PlanCovers(t.Context(), []Cover{{Panels: []Panel{p}}}, tt.cloth, tt.seam, LayOptions{Work: 20000})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err := got.Plan.Check(got.Lay); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		if len(got.Splits) != tt.parts-1 {
			t.Errorf("%s: %d splits: %+v", tt.name, len(got.Splits), got.Splits)
		}
		type laid struct {
			Laid
			roll Roll
		}
		parts := map[bool]map[string]laid{false: {}, true: {}}
		for _, u := range got.Plan.Rolls {
			for _, q := range u.Laid {
				parts[q.Mirrored][q.Name] = laid{q, got.Lay.Rolls[u.Roll]}
			}
		}
		most := 2*float64(tt.match.Tolerance) + 10.1e-6 // two parts, each to the nearest 0.01 mm
		for _, s := range got.Covers[0].Seams {
			a, b := got.Covers[0].Panels[indexOf(got.Covers[0].Panels, s.A.Panel)], s.B.Panel
			k := len(a.Edges) - 1 // the join
			from, to := a.Edges[k].From, a.Edges[0].From
			for _, mirrored := range []bool{false, true} {
				one, two := parts[mirrored][a.Name], parts[mirrored][b]
				if one.Name == "" || two.Name == "" {
					t.Fatalf("%s: %q or %q is not laid", tt.name, a.Name, b)
				}
				for i := range 11 {
					f := float64(i) / 10
					at := Point{from.X + (to.X - from.X).Scale(f), from.Y + (to.Y - from.Y).Scale(f)}
					z, w := onTheRoll(one.Laid, at, tt.grain, tt.cloth), onTheRoll(two.Laid, at, tt.grain, tt.cloth)
					z -= complex(float64(one.roll.Pattern.X), float64(one.roll.Pattern.Y))
					w -= complex(float64(two.roll.Pattern.X), float64(two.roll.Pattern.Y))
					if x, y := offRepeat(real(z), real(w), one.roll.Along), offRepeat(imag(z), imag(w), one.roll.Across); x > most || y > most {
						t.Errorf("%s: %s and %s, mirrored %v: the pattern is off by %.3f and %.3f mm along and across at %v", tt.name, a.Name, b, mirrored, 1e3*x, 1e3*y, at)
					}
				}
				// The point itself, wherever it lies.
				z := onTheRoll(one.Laid, tt.match.At, tt.grain, tt.cloth)
				if x, y := offRepeat(real(z), float64(tt.match.Along+one.roll.Pattern.X), one.roll.Along), offRepeat(imag(z), float64(tt.match.Across+one.roll.Pattern.Y), one.roll.Across); x > most || y > most {
					t.Errorf("%s: %s, mirrored %v: its point is %.3f and %.3f mm off the pattern", tt.name, a.Name, mirrored, 1e3*x, 1e3*y)
				}
			}
		}
	}
	if match.At != (Point{0.31, 0.47}) {
		t.Error("the input was changed")
	}
}

func indexOf(panels []Panel, name string) int {
	for i, p := range panels {
		if p.Name == name {
			return i
		}
	}
	return -1
}

// An offcut that was cut off within a repeat has its pattern elsewhere than the roll.
func TestOffcutWithItsOwnPattern(t *testing.T) {
	square := Cutting{Name: "square", Cut: rectangle(400*milli, 400*milli), Quantity: 3, Lie: OneWay, Match: &Match{At: Point{0.1, 0.05}, Along: 20 * milli, Across: 60 * milli}}
	l := Lay{
		Rolls: []Roll{
			{Name: "roll", Width: 520 * milli, Price: 20, Along: 350 * milli, Across: 110 * milli},
			{Name: "offcut", Width: 520 * milli, Length: 900 * milli, Value: 1, Along: 350 * milli, Across: 110 * milli, Pattern: Point{X: 130 * milli, Y: -25 * milli}},
		},
		Pieces: []Cutting{square}, Gap: 2 * milli,
	}
	plan, err := l.Plan(t.Context(), LayOptions{Work: 4000})
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Check(l); err != nil {
		t.Fatal(err)
	}
	if len(plan.Rolls) != 2 {
		t.Fatalf("%d rolls", len(plan.Rolls))
	}
	for _, u := range plan.Rolls {
		for _, q := range u.Laid {
			// By hand: 20 mm into the repeat of 350 along, 60 into that of 110 across; the
			// offcut's repeats begin 130 mm along and 25 below its edge.
			x, y := 20e-3, 60e-3
			if u.Name == "offcut" {
				x, y = 150e-3, 35e-3
			}
			if dx, dy := offRepeat(float64(q.At.X)+0.1, x, 0.35), offRepeat(float64(q.At.Y)+0.05, y, 0.11); dx > 5.1e-6 || dy > 5.1e-6 {
				t.Errorf("%s, at %v: %v and %v off", u.Name, q.At, dx, dy)
			}
		}
	}
	var back Lay
	data, err := json.Marshal(l)
	if err == nil {
		err = json.Unmarshal(data, &back)
	}
	if d := cmp.Diff(l, back); err != nil || d != "" {
		t.Error(err, d)
	}
	for _, change := range []func(*Point){
		func(p *Point) { p.X += 0.1 * milli },
		func(p *Point) { p.Y -= 0.1 * milli },
		func(p *Point) { p.X += 175 * milli },
	} {
		bad := copied(t, l)
		change(&bad.Rolls[1].Pattern)
		if err := plan.Check(bad); !errors.Is(err, ErrLay) {
			t.Errorf("with the pattern at %v: %v", bad.Rolls[1].Pattern, err)
		}
	}
	same := copied(t, l)
	same.Rolls[1].Pattern.X -= 700 * milli // whole repeats
	same.Rolls[1].Pattern.Y += 330 * milli
	if err := plan.Check(same); err != nil {
		t.Error(err)
	}
}

// TestPlanCoversSources tells apart pieces of the same name.
func TestPlanCoversSources(t *testing.T) {
	hem := Finish{Kind: SingleHem, Width: 20 * milli}
	a := polygonPanel("a", Point{}, Point{X: 0.8}, Point{0.8, 0.8}, Point{Y: 0.8})
	a.Edges[0].Name, a.Edges[0].Finish = "foot", Finish{Kind: SingleHem, Width: 30 * milli, Turn: 5 * milli, Strip: true}
	a.Edges[1].Finish = hem
	a.Patches = []CornerPatch{{Name: "a", Corner: 2, Along: 0.2, Layers: 1}}
	a.Holes = []Hole{{Name: "mast", At: Point{0.3, 0.3}, Width: 0.1, Margin: 0.03}}
	large := polygonPanel("a", Point{}, Point{X: 0.8}, Point{0.8, 1.6}, Point{Y: 1.6})
	b := polygonPanel("b", Point{}, Point{X: 0.3}, Point{Y: 0.3})
	covers := []Cover{{Title: "one", Panels: []Panel{large, b}}, {Title: "two", Panels: []Panel{a}}}
	l := Lay{Rolls: []Roll{{Width: 1, Price: 10}}, Pieces: []Cutting{{Name: "a", Cut: rectangle(0.2, 0.1)}}}
	got, err := l.PlanCovers(t.Context(), covers, Cloth{}, Finish{Kind: PlainSeam, Width: 10 * milli}, LayOptions{Work: 4000})
	if err != nil {
		t.Fatal(err)
	}
	want := []PieceSource{{Cover: -1}, {0, "a 1", false}, {0, "a 2", false}, {0, "b", false}, {1, "a", false}, {1, "a", true}, {1, "a", true}, {1, "a", true}}
	if d := cmp.Diff(want, got.Sources); d != "" {
		t.Error(d)
	}
	names := []string{"a", "a 1", "a 2", "b", "a", "a, patch of mast", "a, patch of a, layer 1", "a, facing of foot"}
	for i, p := range got.Lay.Pieces {
		if p.Name != names[i] {
			t.Errorf("piece %d is %q, want %q", i, p.Name, names[i])
		}
	}
}

// What says how to search goes to JSON, but for the calls.
func TestLayOptionsToJSON(t *testing.T) {
	o := LayOptions{Seed: 7, Work: 1000, Workers: 2}
	with := o
	with.Progress = func(LayProgress) {}
	data, err := json.Marshal(with)
	if err != nil {
		t.Fatal(err)
	}
	var back LayOptions
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if back.Seed != o.Seed || back.Work != o.Work || back.Workers != o.Workers || back.Progress != nil || back.Left != nil {
		t.Errorf("%s became %+v", data, back)
	}
}

// TestRoomsOnThePattern cuts rectangles of a piece from either end and compares what just
// fits with what is said to.
func TestRoomsOnThePattern(t *testing.T) {
	const hair = 0.02 * milli
	whole := Piece{Name: "p", Quantity: 1, Lie: OneWay, Match: &Match{At: Point{0.17, 0.33}, Along: 40 * milli, Across: 65 * milli}}
	for _, tt := range []struct {
		roll     Roll
		mirrored int
		off      units.Length // tolerance
	}{
		{Roll{Width: 1.2, Length: 3, Selvedge: 10 * milli, Across: 310 * milli, Along: 240 * milli}, 0, 0},
		{Roll{Width: 1.2, Length: 3, Selvedge: 10 * milli, Across: 310 * milli, Along: 240 * milli, Pattern: Point{0.1, -0.123}}, 0, 0},
		{Roll{Width: 1.2, Length: 3, Across: 310 * milli, Along: 240 * milli, Pattern: Point{Y: 0.2}}, 1, 0},
		{Roll{Width: 1.2, Length: 3, Across: 310 * milli, Along: 240 * milli, Pattern: Point{Y: 0.2}}, 0, 20 * milli},
		{Roll{Width: 1.2, Length: 3, Across: 700 * milli, Along: 900 * milli, Pattern: Point{0.4, 0.6}}, 1, 0},
		{Roll{Width: 1.2, Length: 3}, 1, 0},
	} {
		p := whole
		m := *whole.Match
		m.Tolerance = tt.off
		p.Match, p.Mirrored = &m, tt.mirrored
		l := Lay{Rolls: []Roll{tt.roll}}
		const low, high = -0.4, 5.3
		for _, along := range []bool{false, true} {
			d := Point{Y: 1}
			if along {
				d = Point{X: 1}
			}
			rooms := l.rooms(&p, d.bare(), along, low, high)
			for end, most := range rooms {
				for _, more := range []float64{-float64(hair), float64(hair)} {
					size := most + more
					from, to := units.Length(low), units.Length(low+size)
					if end == 1 {
						from, to = units.Length(high-size), high
					}
					c := p.Cutting()
					// As thin as a repeat leaves room for, in the other direction.
					if along {
						c.Cut = []Point{{from, 0.33}, {to, 0.33}, {to, 0.34}, {from, 0.34}}
					} else {
						c.Cut = []Point{{0.17, from}, {0.18, from}, {0.18, to}, {0.17, to}}
					}
					fits, err := l.takes(c)
					if err != nil {
						t.Fatal(err)
					}
					slack := more > 0 && tt.off > 0 // half a unit of the tolerance is not used
					if fits != (more < 0) && !slack {
						t.Errorf("%+v, mirrored %d, along %v, end %d: %.5f m fit: %v, of %.5f", tt.roll, tt.mirrored, along, end, size, fits, most)
					}
				}
			}
		}
	}
}

// A roll without an end and a wider one that is short: a panel too wide for the first and too
// long for the second is split along its warp.
func TestPlanCoversOnUnlikeRolls(t *testing.T) {
	l := Lay{Rolls: []Roll{{Width: 1, Price: 10}, {Width: 1.5, Length: 1, Price: 10}}}
	sheet := Cover{Panels: []Panel{polygonPanel("sheet", Point{}, Point{X: 3}, Point{3, 1.4}, Point{Y: 1.4})}}
	got, err := l.PlanCovers(t.Context(), []Cover{sheet}, Cloth{}, Finish{Kind: PlainSeam, Width: 10 * milli}, LayOptions{Work: 4000})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Splits) != 1 || got.Splits[0].Square {
		t.Errorf("%+v", got.Splits)
	}
}
