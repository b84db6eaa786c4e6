package canvas

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/forepeak/units"
)

func dartPanel() Panel {
	hem := Finish{Kind: SingleHem, Width: 0.02}
	return Panel{
		Name: "side", Grain: 0.6,
		Edges: []Edge{
			{Name: "foot", From: Point{}, Course: Course{Curve: Arc, Depth: 0.05}, Finish: hem},
			{Name: "aft", From: Point{X: 0.8}},
			{Name: "top", From: Point{X: 0.8, Y: 0.5}},
			{Name: "fore", From: Point{Y: 0.5}},
		},
		Darts:    []Dart{{Edge: "foot", At: 0.4, Width: 0.03, Depth: 0.15}},
		Fittings: []Fitting{{Name: "eyelet", At: Point{X: 0.05, Y: 0.45}, Diameter: 0.012}, {Name: "strap", Strap: []Point{{X: 0.7, Y: 0.4}, {X: 0.9, Y: 0.6}}}},
	}
}

// A panel with an eyelet and a dart that takes in 30 mm of its foot.
func ExampleDart() {
	p := dartPanel()
	pieces, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{Thickness: 0.5 * units.Millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	d := pieces[0].Darts[0]
	for _, q := range []Point{d.Left, d.Right} {
		fmt.Printf("leg of %.1f mm\n", 1000*math.Hypot(float64(q.X-d.Tip.X), float64(q.Y-d.Tip.Y)))
	}
	// Output:
	// leg of 150.7 mm
	// leg of 150.7 mm
}

// On cloth that shrinks unequally both legs are still equal, the mouth is as wide
// as the edge has to lose, and eyelets and straps move with the cloth.
func TestDartLegsAreEqual(t *testing.T) {
	p := dartPanel()
	for _, at := range []float64{0.1, 0.4, 0.9} {
		p.Darts[0].At = at
		cloth := Cloth{Thickness: 0.5e-3, Warp: -0.03, Weft: 0.02}
		pieces, err := Cover{Panels: []Panel{p}}.Pieces(cloth)
		if err != nil {
			t.Fatal(err)
		}
		d := pieces[0].Darts[0]
		leg := func(a, b Point) float64 { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) }
		if l, r := leg(d.Tip, d.Left), leg(d.Tip, d.Right); math.Abs(l-r) > 1e-12 || math.Abs(leg(d.Fold, d.Left)-leg(d.Fold, d.Right)) > 1e-4 {
			t.Errorf("at %v: legs of %v and %v", at, l, r)
		}
		if m := leg(d.Left, d.Right); m < 0.03*0.96 || m > 0.03*1.04 {
			t.Errorf("at %v: the mouth is %v wide", at, m)
		}
		whole := p
		whole.Fittings = []Fitting{{At: p.Edges[2].From}}
		pieces, err = Cover{Panels: []Panel{whole}}.Pieces(cloth)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := pieces[0].Fittings[0].At, pieces[0].Sew[2][0]; leg(got, want) > 1e-12 {
			t.Errorf("a fitting on a corner lies at %v, the corner at %v", got, want)
		}
	}
}

func TestDartRefuses(t *testing.T) {
	nan := units.Length(math.NaN())
	for want, change := range map[string]func(*Panel){
		"Darts[0].Edge":        func(p *Panel) { p.Darts[0].Edge = "luff" },
		"Darts[0].Width":       func(p *Panel) { p.Darts[0].Width = 0 },
		"Darts[0].Depth":       func(p *Panel) { p.Darts[0].Depth = 0.02 },
		"Darts[0].At":          func(p *Panel) { p.Darts[0].At = 0.01 },
		"Darts[1].At":          func(p *Panel) { p.Darts = append(p.Darts, p.Darts[0]) },
		"Darts[0].Depth ":      func(p *Panel) { p.Darts[0].Depth = 2 },
		"Fittings[0].At.X":     func(p *Panel) { p.Fittings[0].At.X = nan },
		"Fittings[0].Diameter": func(p *Panel) { p.Fittings[0].Diameter = -1 },
		"Fittings[1].Strap[1].Y": func(p *Panel) {
			p.Fittings[1].Strap[1].Y = nan
		},
	} {
		p := dartPanel()
		change(&p)
		_, err := p.Area()
		var e *Error
		if !errors.As(err, &e) || e.Field+" " != want+" " && e.Field+" " != want {
			t.Errorf("%s: %v", want, err)
		}
	}
}

// A side of 660 mm with darts of 60 mm is sewn to one of 600 mm: the marks divide
// what is left when the darts are sewn, 200 mm apart on both sides.
func TestMarksSkipDarts(t *testing.T) {
	square := func(name string, long units.Length) Panel {
		return Panel{Name: name, Edges: []Edge{
			{Name: "foot", From: Point{}},
			{Name: "right", From: Point{X: long}},
			{Name: "top", From: Point{X: long, Y: 0.5}},
			{Name: "left", From: Point{Y: 0.5}},
		}}
	}
	for _, tt := range []struct {
		darts []Dart
		want  []float64 // along the longer side
	}{
		{[]Dart{{Edge: "foot", At: 0.5, Width: 0.06, Depth: 0.1}}, []float64{0.2, 0.46}},
		{[]Dart{{Edge: "foot", At: 0.1, Width: 0.06, Depth: 0.1}}, []float64{0.26, 0.46}},
		{[]Dart{{Edge: "foot", At: 0.95, Width: 0.06, Depth: 0.1}}, []float64{0.2, 0.4}},
		{[]Dart{{Edge: "foot", At: 0.8, Width: 0.03, Depth: 0.1}, {Edge: "foot", At: 0.4, Width: 0.03, Depth: 0.1}, {Edge: "top", At: 0.5, Width: 0.03, Depth: 0.1}}, []float64{0.2, 0.43}},
	} {
		for _, backward := range []bool{false, true} {
			b := square("b", 0.66)
			b.Darts = tt.darts
			v := Cover{Panels: []Panel{square("a", 0.6), b}, Seams: []Seam{{
				Name: "s", A: Side{Panel: "a", Edges: []string{"foot"}}, B: Side{Panel: "b", Edges: []string{"foot"}, Backward: backward}, Fullness: 0.1, Marks: 3,
			}}}
			pieces, err := v.Pieces(Cloth{})
			if err != nil {
				t.Fatal(err)
			}
			for k, m := range pieces[1].Marks {
				i := k
				if backward {
					i = len(tt.want) - 1 - k
				}
				if math.Abs(float64(m.At.X)-tt.want[i]) > 1e-9 || math.Abs(float64(pieces[0].Marks[k].At.X)-0.2*float64(k+1)) > 1e-9 {
					t.Errorf("%+v, backward %v: mark %d at %v, want %g", tt.darts, backward, k+1, m.At.X, tt.want[i])
				}
			}
		}
	}
	// A joint of two edges is marked where the edges meet.
	b := square("b", 0.66)
	b.Edges[1].From = Point{X: 0.36}
	b.Edges = append(b.Edges[:2], append([]Edge{{Name: "corner", From: Point{X: 0.66}}}, b.Edges[2:]...)...)
	b.Darts = []Dart{{Edge: "foot", At: 0.5, Width: 0.06, Depth: 0.1}}
	v := Cover{Panels: []Panel{square("a", 0.6), b}, Seams: []Seam{{
		Name: "s", A: Side{Panel: "a", Edges: []string{"foot"}}, B: Side{Panel: "b", Edges: []string{"foot", "right"}}, Fullness: 0.1, Marks: 1,
	}}}
	pieces, err := v.Pieces(Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := pieces[0].Marks, pieces[1].Marks; len(a) != 1 || len(b) != 1 || math.Abs(float64(a[0].At.X)-0.3) > 1e-9 || math.Abs(float64(b[0].At.X)-0.36) > 1e-9 {
		t.Errorf("joint at %+v and %+v", a, b)
	}
}
