package canvas_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// Each way to finish an edge refuses by name what is no measure in the fields that
// it reads, and reads no others.
func TestFinishesRefuseWhatTheyRead(t *testing.T) {
	for _, kind := range []canvas.FinishKind{
		canvas.Raw, canvas.PlainSeam, canvas.SingleHem, canvas.DoubleHem, canvas.Bound, canvas.Sleeve, canvas.FelledOver, canvas.FelledIn,
		canvas.Lapped, canvas.French, canvas.Zip, canvas.Webbing,
	} {
		good := canvas.Finish{Kind: kind, Width: 20 * mm, Turn: 5 * mm, Rope: 6 * mm, Gap: 8 * mm}
		want, err := good.Allowance(mm / 2)
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		for name, part := range map[string]func(f *canvas.Finish) *units.Length{
			"Width": func(f *canvas.Finish) *units.Length { return &f.Width },
			"Turn":  func(f *canvas.Finish) *units.Length { return &f.Turn },
			"Rope":  func(f *canvas.Finish) *units.Length { return &f.Rope },
			"Gap":   func(f *canvas.Finish) *units.Length { return &f.Gap },
		} {
			other := good
			*part(&other) += mm / 10
			got, err := other.Allowance(mm / 2)
			read := err != nil || got != want
			for _, x := range []float64{math.NaN(), math.Inf(1), -0.001} {
				bad := good
				*part(&bad) = units.Length(x)
				_, err := bad.Allowance(mm / 2)
				if read && (err == nil || !strings.Contains(err.Error(), name)) {
					t.Errorf("%s with a %s of %v: %v", kind, name, x, err)
				}
			}
		}
	}
}

// A panel that is its own mirror image is cut as its own mirror image, however
// sharp its corners.
func TestSymmetricPanelsAreCutSymmetric(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		w, h := units.Length(0.05+r.Float64()), units.Length(0.3+3*r.Float64())
		side := canvas.Finish{Kind: []canvas.FinishKind{canvas.PlainSeam, canvas.SingleHem, canvas.Sleeve}[r.IntN(3)], Width: units.Length(0.01 + 0.02*r.Float64()), Rope: 6 * mm}
		p := canvas.Panel{Name: "p", Edges: []canvas.Edge{
			{Name: "foot", From: canvas.Point{X: -w}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}},
			{Name: "right", From: canvas.Point{X: w}, Finish: side},
			{Name: "left", From: canvas.Point{Y: h}, Finish: side},
		}}
		out, err := (canvas.Cover{Panels: []canvas.Panel{p}}).Pieces(canvas.Cloth{})
		if err != nil {
			continue // some corners are too sharp for their allowances
		}
		cut := out[0].Cut
		for _, a := range cut {
			found := false
			for _, b := range cut {
				found = found || (a.X+b.X).Abs() < 1e-9 && (a.Y-b.Y).Abs() < 1e-9
			}
			if !found {
				t.Fatalf("%v by %v with %v: %v has no image in %v", w, h, side, a, cut)
			}
		}
	}
}

// A reading's standardised residual is the residual over its own standard error,
// sigma times the root of its redundancy, and the redundancies add up to what is
// over-determined (Baarda).
func TestRedundancyOfReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for range 20 {
		s := polygon(house, func() float64 { return 1e-3 * r.NormFloat64() })
		a, err := s.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, k := range a.Readings {
			sum += k.Redundancy
			if want := float64(k.Residual) / (float64(s.Sigma) * math.Sqrt(k.Redundancy)); k.Redundancy > 1e-9 && math.Abs(k.Standardised-want) > 1e-6 {
				t.Errorf("%s: standardised %v, want %v", k.Name, k.Standardised, want)
			}
			if math.Abs(float64(k.Adjusted-k.Read-k.Residual)) > 1e-12 {
				t.Errorf("%s: read %v, adjusted %v, residual %v", k.Name, k.Read, k.Adjusted, k.Residual)
			}
		}
		if want := float64(len(a.Readings) - (2*len(house) - 3)); math.Abs(sum-want) > 1e-6 {
			t.Errorf("redundancies add up to %v, want %v", sum, want)
		}
	}
}

// Mirrored pieces need as much cloth as the others.
func TestQuantitiesCountMirroredPieces(t *testing.T) {
	p := canvas.Panel{Name: "p", Edges: []canvas.Edge{{Name: "a"}, {Name: "b", From: canvas.Point{X: 2}}, {Name: "c", From: canvas.Point{X: 1, Y: 1}}}}
	for _, c := range [][2]int{{1, 0}, {1, 1}, {3, 2}, {0, 0}, {2, 0}} {
		p.Quantity, p.Mirrored = c[0], c[1]
		q, err := (canvas.Cover{Panels: []canvas.Panel{p}}).Quantities(canvas.Cloth{Thickness: mm / 2}, canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm})
		if err != nil {
			t.Fatal(err)
		}
		if want := float64(max(1, c[0]) + c[1]); math.Abs(float64(q.Cloth)-want) > 1e-9 {
			t.Errorf("%v of 1 m2: %v", c, q.Cloth)
		}
	}
}

// An upright stay has a round hole.
func TestUprightStay(t *testing.T) {
	a := sunshade(4, 3, 0.1)
	a.Openings = []canvas.AwningOpening{{
		Name: "stay", At: canvas.Point{X: 2, Y: 2}, Diameter: 20 * mm, Lean: 90 * units.Degree, Clearance: 30 * mm, Overlap: 80 * mm, Edge: "edge 3",
	}}
	if h := plan(t, a, fresh).Panel.Holes[0]; h.Length != 0 || h.Width != 80*mm {
		t.Errorf("%+v", h)
	}
}

// A hole in the side of a box stays as far below its top where cloth is added for a tuck.
func TestTuckKeepsHolesBelowTheTop(t *testing.T) {
	b := canvas.RoundedBox{
		Name: "box", Length: 1, Width: 0.6, Height: 0.5, Radius: 0.1, Seam: 12 * mm, Hem: 20 * mm, Gap: 8 * mm, Base: canvas.DrawCord,
		Sides: []canvas.Hole{{Name: "pipe", At: canvas.Point{X: 0.4, Y: 0.2}, Width: 0.05, Margin: 0.02}},
	}
	below := func() units.Length {
		v, err := b.Cover()
		if err != nil {
			t.Fatal(err)
		}
		top := units.Length(0)
		for _, e := range v.Panels[1].Edges {
			top = max(top, e.From.Y)
		}
		return top - v.Panels[1].Holes[0].At.Y
	}
	plain := below()
	b.Tuck = 0.08
	if tucked := below(); (plain-0.3).Abs() > 1e-9 || (tucked-plain).Abs() > 1e-9 {
		t.Errorf("the hole is %v below the top, with a tuck %v; want 0.3 m", plain, tucked)
	}
}
