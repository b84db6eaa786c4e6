package canvas

import (
	"errors"
	"math"
	"slices"
	"testing"

	"example.com/forepeak/units"
)

// The opening of a flat top is finished as that of a domed one is.
func TestOpeningOfAFlatTop(t *testing.T) {
	lid := Cylinder{Name: "lid", Diameter: 0.3, Height: 0.2, Opening: 0.1, Seam: 0.01, Hem: 0.02}
	sewing := Sewing{Stitch: Lockstitch, Length: 4e-3}
	cut := func(f Finish) (Piece, Quantities) {
		t.Helper()
		c := lid
		c.OpeningEdge = f
		v, err := c.Cover()
		if err != nil {
			t.Fatal(f, err)
		}
		pieces, err := v.Pieces(Cloth{Thickness: 0.4e-3})
		if err != nil {
			t.Fatal(f, err)
		}
		q, err := v.Quantities(Cloth{Thickness: 0.4e-3}, sewing)
		if err != nil {
			t.Fatal(f, err)
		}
		return pieces[1], q
	}
	bare, none := cut(Finish{})
	if !slices.Equal(bare.Edges, []string{"left half: seam 10 mm", "right half: seam 10 mm"}) || len(bare.Sew) != 2 || none.Binding != 0 {
		t.Errorf("%+v, %+v", bare.Edges, none)
	}
	for _, c := range []struct {
		f       Finish
		label   string
		radius  float64
		thread  float64 // of the edge, for a metre
		binding float64
		clips   bool
	}{
		{Finish{Kind: Bound}, "opening: binding", 0.05, 2 + 2*1.2/4, 0.1 * math.Pi, false},
		{Finish{Kind: PlainSeam, Width: 0.01}, "opening: seam 10 mm", 0.04, (2 + 2*0.8/4) / 2, 0, false},
		{Finish{Kind: SingleHem, Width: 0.0125, Clipped: true}, "opening: single hem 12.5 mm", 0.0375, 2 + 2*0.8/4, 0, true},
	} {
		p, q := cut(c.f)
		if len(p.Sew) != 3 || p.Edges[2] != c.label || (len(p.Clips) > 0) != c.clips {
			t.Fatalf("%+v: %q, %d lines, %d clips", c.f, p.Edges, len(p.Sew), len(p.Clips))
		}
		for _, at := range p.Holes[0].Line {
			if r := math.Hypot(float64(at.X), float64(at.Y)); math.Abs(r-c.radius) > 1e-9 {
				t.Fatalf("%+v: the hole is cut at %v from its middle, want %v", c.f, r, c.radius)
			}
		}
		for _, at := range p.Sew[2] {
			if r := math.Hypot(float64(at.X), float64(at.Y)); math.Abs(r-0.05) > 1e-9 {
				t.Fatalf("%+v: finished at %v from the middle", c.f, r)
			}
		}
		for _, k := range p.Clips { // from the cut line to short of the fold
			from, to := math.Hypot(float64(k[0].X), float64(k[0].Y)), math.Hypot(float64(k[1].X), float64(k[1].Y))
			if math.Abs(from-c.radius) > 1e-4 || math.Abs(to-(0.05-0.0025)) > 1e-4 {
				t.Fatalf("a clip from %v to %v", from, to)
			}
		}
		if math.Abs(float64(q.Binding)-c.binding) > 1e-5 || math.Abs(float64(q.Thread-none.Thread)-0.1*math.Pi*c.thread) > 1e-4 {
			t.Errorf("%+v: %v of binding, %v more thread, want %v", c.f, q.Binding, q.Thread-none.Thread, 0.1*math.Pi*c.thread)
		}
	}
	for name, c := range map[string]struct {
		f    Finish
		want error
	}{
		"no such finish": {Finish{Kind: "glued"}, ErrUnknown},
		"a zip":          {Finish{Kind: Zip, Width: 0.01, Gap: 0.01}, ErrInput},
		"a facing":       {Finish{Kind: SingleHem, Width: 0.02, Turn: 0.01, Strip: true}, ErrInput},
		"wider than it":  {Finish{Kind: PlainSeam, Width: 0.046}, ErrInput},
	} {
		for _, opening := range []units.Length{0.1, 0} {
			if opening == 0 && name == "wider than it" {
				continue
			}
			c2 := lid
			c2.Opening, c2.OpeningEdge = opening, c.f
			if _, err := c2.Cover(); !errors.Is(err, c.want) {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	// A hem that is not clipped does not turn so sharply; nor is a slit hole anything but bound.
	tight := lid
	tight.OpeningEdge = Finish{Kind: SingleHem, Width: 0.0125}
	v, err := tight.Cover()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := v.Pieces(Cloth{}); !errors.Is(err, ErrFold) {
		t.Error(err)
	}
	for _, h := range []Hole{
		{At: Point{1, 0.5}, Width: 0.1, Margin: 0.03, Split: true, Finish: Finish{Kind: Bound}},
		{At: Point{1, 0.5}, Width: 0.1, Margin: 0.03, Finish: Finish{Kind: PlainSeam, Width: 0.01}},
	} {
		p := square(Finish{})
		p.Holes = []Hole{h}
		if _, err := p.Area(); !errors.Is(err, ErrInput) {
			t.Errorf("%+v: %v", h, err)
		}
	}
}
