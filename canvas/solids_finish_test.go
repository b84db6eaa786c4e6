package canvas

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// edgesOf are a panel's edges in words: name, finish and width.
func edgesOf(v Cover, panel string) (out []string) {
	for _, p := range v.Panels {
		if p.Name != panel {
			continue
		}
		for _, e := range p.Edges {
			s := fmt.Sprintf("%s: %s %.0f", e.Name, e.Finish.Kind, 1000*float64(e.Finish.Width))
			if e.Finish.Turn > 0 {
				s += fmt.Sprintf("+%.0f", 1000*float64(e.Finish.Turn))
			}
			if e.Finish.Clipped {
				s += " clipped"
			}
			out = append(out, s)
		}
	}
	return out
}

// How the edges of the solids are finished, which are sewn to which, and what is
// remarked of them, by hand.
func TestSolidsAreFinished(t *testing.T) {
	check := func(v Cover, err error, panel string, want ...string) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		if got := edgesOf(v, panel); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", panel, got, want)
		}
	}
	seams := func(v Cover) (out []string) {
		for _, s := range v.Seams {
			out = append(out, fmt.Sprintf("%s: %s %s, %s %s", s.Name, s.A.Panel, strings.Join(s.A.Edges, "+"), s.B.Panel, strings.Join(s.B.Edges, "+")))
		}
		return out
	}
	// 600 by 400 mm with ease of 20 and corners of 60, which are 70 with half the ease: the
	// straight parts are 480 and 280 mm.
	box := RoundedBox{Name: "box", Length: 0.6, Width: 0.4, Height: 0.3, Radius: 0.06, Ease: 0.02, Seam: 0.012, Hem: 0.02, Gap: 0.01}
	round := 2*480 + 2*280 + 2*math.Pi*70
	open, err := box.Cover()
	check(open, err, "wrap", "bottom: double hem 20+10", "right end: seam 12", "top: seam 12", "left end: seam 12")
	if len(open.Panels) != 2 || len(open.Remarks) != 0 || open.Title != "box" {
		t.Errorf("%d panels, %q", len(open.Panels), open.Remarks)
	}
	around := []string{"back left", "corner back/left", "left", "corner left/front", "front", "corner front/right", "right", "corner right/back", "back right"}
	var want []string
	for _, e := range around {
		want = append(want, e+": seam 12")
	}
	check(open, nil, "top", want...)
	if got := seams(open); !slices.Equal(got, []string{"top: top " + strings.Join(around, "+") + ", wrap top", "back: wrap right end, wrap left end"}) {
		t.Errorf("%q", got)
	}
	box.Base = DrawCord
	cord, err := box.Cover()
	check(cord, err, "wrap", "bottom: double hem 20+10", "right end: seam 12", "top: seam 12", "left end: seam 12")
	if len(cord.Remarks) != 1 || !strings.Contains(cord.Remarks[0], fmt.Sprintf("cord: %.0f mm round", round)) {
		t.Errorf("%q", cord.Remarks)
	}
	box.Base = ZipBase
	zip, err := box.Cover()
	check(zip, err, "wrap", "back left: seam 12", "bottom: zip 12", "back right: seam 12", "right end: seam 12", "top: seam 12", "left end: seam 12")
	// Seen from below left and right change places; the back is sewn, the rest is zipped and clipped round the corners.
	check(zip, nil, "base", "back right: seam 12", "corner back/right: zip 12 clipped", "right: zip 12", "corner right/front: zip 12 clipped", "front: zip 12",
		"corner front/left: zip 12 clipped", "left: zip 12", "corner left/back: zip 12 clipped", "back left: seam 12")
	if len(zip.Remarks) != 1 || zip.Remarks[0] != fmt.Sprintf("zip: %.0f mm", round-480) {
		t.Errorf("%q", zip.Remarks)
	}
	got := seams(zip)
	if len(got) != 5 || got[0] != "hinge left: wrap back left, base back left" || got[2] != "hinge right: wrap back right, base back right" ||
		got[1] != "zip: wrap bottom, base corner back/right+right+corner right/front+front+corner front/left+left+corner left/back" {
		t.Errorf("%q", got)
	}
	for _, k := range []struct {
		panel, edge string
		want        float64
	}{{"wrap", "back left", 240}, {"wrap", "back right", 240}, {"wrap", "bottom", round - 480}, {"base", "back left", 240}, {"top", "front", 480}, {"top", "left", 280}, {"top", "corner left/front", 35 * math.Pi}, {"wrap", "left end", 300}} {
		for _, p := range zip.Panels {
			if p.Name != k.panel {
				continue
			}
			if l, err := p.Length(k.edge); err != nil || math.Abs(l.Millimetres()-k.want) > 1e-9 {
				t.Errorf("%s of %s: %v, %v, want %v mm", k.edge, k.panel, l, err, k.want)
			}
		}
	}
	// A hole in the side is measured from the front's flat part: the wrap begins at the middle of the back.
	box.Sides = []Hole{{Name: "pipe", At: Point{0.1, 0.15}, Width: 0.05}}
	box.Top = []Hole{{Name: "handle", Width: 0.04}}
	v, err := box.Cover()
	if err != nil {
		t.Fatal(err)
	}
	if h := v.Panels[1].Holes[0]; math.Abs(h.At.X.Millimetres()-(240+280+140*math.Pi/2+100)) > 1e-9 || h.At.Y != 0.15 || len(v.Panels[0].Holes) != 1 || box.Sides[0].At.X != 0.1 {
		t.Errorf("%+v", v.Panels[1].Holes)
	}
	bound := Finish{Kind: Bound}
	cylinder := Cylinder{Name: "c", Diameter: 0.3, Height: 0.4, Ease: 0.01, Opening: 0.1, Seam: 0.012, Hem: 0.02, OpeningEdge: bound}
	flat, err := cylinder.Cover()
	check(flat, err, "wall", "bottom: double hem 20+10", "right end: seam 12", "top: seam 12", "left end: seam 12")
	check(flat, nil, "top", "left half: seam 12", "right half: seam 12")
	if h := flat.Panels[1].Holes; len(h) != 1 || h[0].Width != 0.1 || h[0].At != (Point{}) || len(flat.Remarks) != 0 {
		t.Errorf("%+v", h)
	}
	cylinder.Opening = 0
	if v, err := cylinder.Cover(); err != nil || len(v.Panels[1].Holes) != 0 {
		t.Error(v, err)
	}
	cylinder.Opening, cylinder.Rise, cylinder.Gores = 0.1, 0.12, 8
	domed, err := cylinder.Cover()
	check(domed, err, "gore", "base: seam 12", "right: seam 12", "opening: binding 0", "left: seam 12")
	dev, _ := Dome{Diameter: 0.31, Rise: 0.12, Gores: 8, Seam: 0.012}.Deviation()
	if len(domed.Remarks) != 1 || !strings.Contains(domed.Remarks[0], fmt.Sprintf("by %.1f mm inwards and %.1f mm outwards", 1000*float64(dev.Flat), 1000*float64(dev.Ridge))) || domed.Panels[1].Quantity != 8 {
		t.Errorf("%q", domed.Remarks)
	}
	if s := domed.Seams; len(s) != 3 || s[1].Name != "gores" || s[2].A.Times != 8 {
		t.Errorf("%+v", s)
	}
	// The gore's opening is its share of the circle of the opening, its base of the wall's.
	if l, err := domed.Panels[1].Length("opening"); err != nil || math.Abs(float64(l)-math.Pi*0.1/8) > 1e-12 {
		t.Errorf("%v, %v", l, err)
	}
	for _, up := range []bool{false, true} {
		f := Frustum{Name: "f", Bottom: 0.5, Top: 0.3, Height: 0.4, Seam: 0.012, BottomEdge: Finish{Kind: PlainSeam, Width: 0.02}, TopEdge: bound}
		if up {
			f.Bottom, f.Top = f.Top, f.Bottom
		}
		v, err := f.Cover()
		want := []string{"bottom left: seam 20", "bottom right: seam 20", "right end: seam 12", "top right: binding 0", "top left: binding 0", "left end: seam 12"}
		if up {
			want = []string{"top left: binding 0", "top right: binding 0", "right end: seam 12", "bottom right: seam 20", "bottom left: seam 20", "left end: seam 12"}
		}
		check(v, err, "cone", want...)
		for _, k := range []struct {
			edge string
			want units.Length
		}{{"bottom left", f.Bottom}, {"bottom right", f.Bottom}, {"top left", f.Top}, {"top right", f.Top}} {
			if l, err := v.Panels[0].Length(k.edge); err != nil || math.Abs(float64(l)-math.Pi/2*float64(k.want)) > 1e-12 {
				t.Errorf("%s: %v, %v", k.edge, l, err)
			}
		}
	}
	for top, edges := range map[units.Length][]string{
		0.3: {"bottom left: seam 20", "bottom right: seam 20", "right end: seam 12", "top right: binding 0", "top left: binding 0", "left end: seam 12"},
		0:   {"bottom left: seam 20", "bottom right: seam 20", "right end: seam 12", "left end: seam 12"},
	} {
		for k, cover := range []func() (Cover, error){
			ObliqueCone{Name: "o", Bottom: 0.5, Top: top, Height: 0.4, OffsetX: 0.1, Seam: 0.012, BottomEdge: Finish{Kind: PlainSeam, Width: 0.02}, TopEdge: bound}.Cover,
			Frustum{Name: "f", Bottom: 0.5, Top: top, Height: 0.4, Seam: 0.012, BottomEdge: Finish{Kind: PlainSeam, Width: 0.02}, TopEdge: bound}.Cover,
		} {
			v, err := cover()
			check(v, err, "cone", edges...)
			if v.Title != []string{"o", "f"}[k] || len(v.Seams) != 1 || v.Seams[0].Name != "upright" || v.Panels[0].Grain != 90*units.Degree {
				t.Errorf("%+v", v)
			}
		}
	}
	x, err := Transition{Name: "t", Length: 0.5, Width: 0.4, Diameter: 0.3, Height: 0.4, Seam: 0.012, BottomEdge: Finish{Kind: SingleHem, Width: 0.02}, TopEdge: bound}.Cover()
	check(x, err, "transition", "back left: single hem 20", "left: single hem 20", "front: single hem 20", "right: single hem 20", "back right: single hem 20", "right end: seam 12",
		"top 4: binding 0", "top 3: binding 0", "top 2: binding 0", "top 1: binding 0", "left end: seam 12")
	sphere, err := Sphere{Name: "s", Diameter: 0.5, Gores: 8, Seam: 0.012}.Cover()
	check(sphere, err, "gore", "right: seam 12", "left: seam 12")
	// From pole to pole along the middle of a gore; seams are 3.8 % longer for eight gores.
	low, high := sphere.Panels[0].Edges[0].From, sphere.Panels[0].Edges[1].From
	l, err := sphere.Panels[0].Length("right")
	if meridian := math.Pi / 2 * 0.5; err != nil || math.Abs(float64(high.Y-low.Y)-meridian) > 1e-9 || math.Abs(float64(l)/meridian-1.038) > 5e-4 || sphere.Panels[0].Quantity != 8 || low.X.Abs() > 1e-12 || high.X.Abs() > 1e-12 {
		t.Errorf("%v to %v, %v, %v", low, high, l, err)
	}
	bottle := BottleCover{
		Name: "bottle", Diameter: 0.3, Height: 0.4, Rise: 0.15, Gores: 8, Ease: 0.01, Valve: 0.11, Hose: 0.03, HoseHeight: 0.3, Seam: 0.012, Hem: 0.02, Closed: true, Vent: 0.03, Gap: 0.008,
	}
	closed, err := bottle.Cover()
	check(closed, err, "wall", "bottom: zip 12", "right end: seam 12", "top: seam 12", "left end: seam 12")
	check(closed, nil, "base", "left half: zip 12 clipped", "right half: zip 12 clipped")
	check(closed, nil, "gore", "base: seam 12", "right: seam 12", "opening: binding 0", "left: seam 12")
	check(closed, nil, "flap of hose", "slit: seam 15", "edge: single hem 15", "under: single hem 15", "opening: single hem 15")
	base, flap := closed.Panels[2], closed.Panels[3]
	if h := base.Holes; len(h) != 1 || h[0].Name != "vent" || h[0].Width != 0.03 || h[0].Margin != 0.02 || len(base.Notes) != 1 || !strings.Contains(base.Notes[0], "lowest point") {
		t.Errorf("%+v, %q", h, base.Notes)
	}
	hose := closed.Panels[0].Holes[0]
	if math.Abs(float64(hose.At.X)-math.Pi*0.31/2) > 1e-12 || hose.At.Y != 0.3 || !hose.Split || hose.Edge != "bottom" || len(closed.Panels[0].Notes) != 2 || !strings.Contains(closed.Panels[0].Notes[1], "zip") || flap.Edges[2].From.Y != 0.04 {
		t.Errorf("%+v, %+v", hose, flap.Edges)
	}
	if s := closed.Seams[len(closed.Seams)-1]; s.Name != "base" || !s.B.Backward || !slices.Equal(s.B.Edges, []string{"left half", "right half"}) {
		t.Errorf("%+v", s)
	}
}
