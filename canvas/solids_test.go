package canvas_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// solids makes one random cover of each kind, and what it should measure.
func solids(r *rand.Rand) map[string]struct {
	make func() (canvas.Cover, error)
	area float64 // 0 is not known
} {
	l := func(lo, hi float64) units.Length { return units.Length(lo + (hi-lo)*r.Float64()) }
	d, h, t, rise := l(0.1, 3), l(0.05, 2), l(0.1, 0.9), l(0.05, 1)
	gores := 3 + r.IntN(14)
	box := canvas.RoundedBox{
		Name: "box", Length: l(0.3, 2), Width: l(0.3, 2), Height: h, Radius: l(0.01, 0.14), Ease: l(0, 0.02), Seam: seam, Hem: 2 * seam, Gap: seam,
		Base: []canvas.Base{canvas.OpenBase, canvas.DrawCord, canvas.ZipBase}[r.IntN(3)],
	}
	bl, bw, br := float64(box.Length+box.Ease), float64(box.Width+box.Ease), float64(box.Radius+box.Ease/2)
	top := bl*bw - (4-math.Pi)*br*br
	round := 2*(bl+bw) - 8*br + 2*math.Pi*br
	boxArea := top + round*float64(h)
	if box.Base == canvas.ZipBase {
		boxArea += top
	}
	slant := math.Hypot(float64(h), float64(d-d.Scale(float64(t)))/2)
	return map[string]struct {
		make func() (canvas.Cover, error)
		area float64
	}{
		"box":      {box.Cover, boxArea},
		"cylinder": {canvas.Cylinder{Name: "c", Diameter: d, Height: h, Seam: seam, Hem: seam}.Cover, math.Pi*float64(d)*float64(h) + math.Pi*float64(d)*float64(d)/4},
		"domed":    {canvas.Cylinder{Name: "c", Diameter: d, Height: h, Rise: rise, Gores: gores, Seam: seam, Hem: seam, Opening: d / 3}.Cover, 0},
		"dome":     {canvas.Dome{Name: "d", Diameter: d, Rise: d / 2, Gores: gores, Seam: seam}.Cover, 0},
		"sphere":   {canvas.Sphere{Name: "s", Diameter: d, Gores: gores, Seam: seam}.Cover, math.Pi * float64(d) * float64(d)},
		"frustum": {
			canvas.Frustum{Name: "f", Bottom: d, Top: d.Scale(float64(t)), Height: h, Seam: seam}.Cover,
			math.Pi * float64(d) * (1 + float64(t)) / 2 * slant,
		},
		"oblique":    {canvas.ObliqueCone{Name: "o", Bottom: d, Top: d.Scale(float64(t)), Height: h, OffsetX: l(-1, 1), OffsetY: l(-1, 1), Seam: seam}.Cover, 0},
		"transition": {canvas.Transition{Name: "t", Length: l(0.1, 2), Width: l(0.1, 2), Diameter: d, Height: h, OffsetX: l(-0.5, 0.5), OffsetY: l(-0.5, 0.5), Seam: seam}.Cover, 0},
	}
}

// Both sides of every seam are equally long, exactly where both are straight or
// arcs, and the panels have the area of the solid.
func TestSeamsAreEqualAndAreaIsKept(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 25 {
		for name, s := range solids(r) {
			v, err := s.make()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			pairs, err := v.SeamLengths()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for i, p := range pairs {
				if d := math.Abs(float64(p[0] - p[1])); d > 1e-12*float64(p[0]) {
					t.Errorf("%s, seam %s: the sides differ by %v m", name, v.Seams[i].Name, d)
				}
			}
			got, err := area(v)
			if err != nil {
				t.Fatal(err)
			}
			if s.area > 0 && math.Abs(float64(got)/s.area-1) > 2e-4 {
				t.Errorf("%s: area %v, want %v", name, float64(got), s.area)
			}
			if name == "box" || name == "cylinder" || name == "frustum" {
				if math.Abs(float64(got)/s.area-1) > 1e-12 {
					t.Errorf("%s: area %.15g, want %.15g exactly", name, float64(got), s.area)
				}
			}
		}
	}
}

// The rims of cones and transitions are as long as the circles and rectangles they
// meet, to the fineness of their polylines, so that other panels can be sewn on.
func TestRims(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	l := func(lo, hi float64) units.Length { return units.Length(lo + (hi-lo)*r.Float64()) }
	for range 30 {
		k := canvas.ObliqueCone{Bottom: l(0.2, 2), Height: l(0.05, 1), OffsetX: l(-1, 1), OffsetY: l(-1, 1), Seam: seam}
		k.Top = k.Bottom.Scale(0.1 + 0.8*r.Float64())
		v, err := k.Cover()
		if err != nil {
			t.Fatal(err)
		}
		rim := func(edges ...string) float64 {
			sum := 0.0
			for _, e := range edges {
				n, err := v.Panels[0].Length(e)
				if err != nil {
					t.Fatal(err)
				}
				sum += float64(n)
			}
			return sum
		}
		for got, want := range map[float64]float64{
			rim("bottom left", "bottom right"): math.Pi * float64(k.Bottom),
			rim("top left", "top right"):       math.Pi * float64(k.Top),
			// The shortest generator, in the plane of both axes.
			rim("left end"): math.Hypot(float64(k.Height), math.Hypot(float64(k.OffsetX), float64(k.OffsetY))-float64(k.Bottom-k.Top)/2),
		} {
			if math.Abs(got/want-1) > 2e-5 {
				t.Errorf("%+v: %v, want %v", k, got, want)
			}
		}
		x := canvas.Transition{Length: l(0.2, 2), Width: l(0.2, 2), Diameter: l(0.1, 1), Height: l(0.05, 1), OffsetX: l(-0.4, 0.4), OffsetY: l(-0.4, 0.4), Seam: seam}
		if v, err = x.Cover(); err != nil {
			t.Fatal(err)
		}
		if got, want := rim("top 1", "top 2", "top 3", "top 4"), math.Pi*float64(x.Diameter); math.Abs(got/want-1) > 2e-5 {
			t.Errorf("%+v: rim %v, want %v", x, got, want)
		}
		if got, want := rim("back left", "left", "front", "right", "back right"), 2*float64(x.Length+x.Width); math.Abs(got/want-1) > 1e-12 {
			t.Errorf("%+v: rectangle %v, want %v", x, got, want)
		}
	}
}

// The straight lines of a transition are as long on the cloth as in space.
func TestTransitionIsDevelopable(t *testing.T) {
	// From each corner of the rectangle to the points of the circle where triangles
	// and cones meet.
	x := canvas.Transition{Length: 0.9, Width: 0.5, Diameter: 0.4, Height: 0.6, OffsetX: 0.1, OffsetY: -0.05, Seam: seam}
	v, err := x.Cover()
	if err != nil {
		t.Fatal(err)
	}
	p := v.Panels[0]
	at := map[string]canvas.Point{}
	for _, e := range p.Edges {
		at[e.Name] = e.From
	}
	circle := func(a float64) [3]float64 { return [3]float64{0.1 + 0.2*math.Cos(a), -0.05 + 0.2*math.Sin(a), 0.6} }
	for _, c := range []struct {
		low, high string
		corner    [3]float64
		angle     float64
	}{
		{"left", "left end", [3]float64{-0.45, 0.25, 0}, math.Pi / 2},
		{"left", "top 1", [3]float64{-0.45, 0.25, 0}, math.Pi},
		{"front", "top 1", [3]float64{-0.45, -0.25, 0}, math.Pi},
		{"front", "top 2", [3]float64{-0.45, -0.25, 0}, 1.5 * math.Pi},
		{"right", "top 3", [3]float64{0.45, -0.25, 0}, 2 * math.Pi},
		{"back right", "top 4", [3]float64{0.45, 0.25, 0}, math.Pi / 2},
	} {
		a, b, q := at[c.low], at[c.high], circle(c.angle)
		got := math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
		want := math.Sqrt(math.Pow(q[0]-c.corner[0], 2) + math.Pow(q[1]-c.corner[1], 2) + math.Pow(q[2]-c.corner[2], 2))
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("from %s to %s: %v on the cloth, %v in space", c.low, c.high, got, want)
		}
	}
}

func TestEverySolidCanBeCut(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for range 2 {
		for name, s := range solids(r) {
			v, err := s.make()
			if err != nil {
				t.Fatal(err)
			}
			if _, err := v.Pieces(canvas.Cloth{Thickness: mm / 2, Warp: -0.01, Weft: -0.005}); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

func bottle() canvas.BottleCover {
	return canvas.BottleCover{
		Name: "bottle", Diameter: 300 * mm, Height: 400 * mm, Rise: 150 * mm, Gores: 8, Ease: 10 * mm, Clearance: 40 * mm,
		Valve: 110 * mm, Hose: 30 * mm, HoseHeight: 350 * mm, Seam: 12 * mm, Hem: 20 * mm, Gap: 8 * mm,
	}
}

func TestBottleCover(t *testing.T) {
	v, err := bottle().Cover()
	if err != nil {
		t.Fatal(err)
	}
	if h, _ := v.Panels[0].Length("left end"); math.Abs(float64(h)-0.36) > 1e-12 {
		t.Errorf("the wall is %v high, want 0.36 m", h)
	}
	out, err := v.Pieces(canvas.Cloth{Thickness: mm / 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range out {
		panel := p.Name == "wall" || p.Name == "gore"
		if strings.Contains(p.Name, "patch") && !strings.Contains(strings.Join(p.Notes, " "), "no turn is added: hot-cut it") {
			t.Errorf("%s does not say that it has no turn: %q", p.Name, p.Notes)
		}
		if panel && !strings.Contains(strings.Join(p.Notes, " "), "CAUTION, GAS") {
			t.Errorf("%s does not bear the caution", p.Name)
		}
	}
	for name, c := range map[string]struct {
		change func(*canvas.BottleCover)
		want   error
	}{
		"down to the ground": {func(b *canvas.BottleCover) { b.Clearance = 0 }, canvas.ErrVent},
		"closed, no vent":    {func(b *canvas.BottleCover) { b.Closed, b.Clearance = true, 0 }, canvas.ErrVent},
		"a pin hole":         {func(b *canvas.BottleCover) { b.Closed, b.Clearance, b.Vent = true, 0, 5*mm }, canvas.ErrVent},
		"no hand at valve":   {func(b *canvas.BottleCover) { b.Valve = 40 * mm }, canvas.ErrInput},
		"no valve":           {func(b *canvas.BottleCover) { b.Valve = 0 }, canvas.ErrInput},
		"no hose":            {func(b *canvas.BottleCover) { b.Hose = 0 }, canvas.ErrInput},
		"hose below":         {func(b *canvas.BottleCover) { b.HoseHeight = 30 * mm }, canvas.ErrOutline},
		"two gores":          {func(b *canvas.BottleCover) { b.Gores = 2 }, canvas.ErrInput},
		"half a cover":       {func(b *canvas.BottleCover) { b.Clearance = 300 * mm }, canvas.ErrInput},
	} {
		b := bottle()
		c.change(&b)
		if _, err := b.Cover(); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	b := bottle()
	b.Closed, b.Clearance, b.Vent = true, 0, 25*mm
	v, err = b.Cover()
	if err != nil || len(v.Panels) != 4 || len(v.Panels[2].Holes) != 1 {
		t.Errorf("closed with a vent: %v, %+v", err, v.Panels)
	}
	// The slit runs into the zip of the base, and only there.
	const parted = "begin the zip at one lip of the slit and end it at the other"
	if !strings.Contains(strings.Join(v.Remarks, " "), parted) || !strings.Contains(strings.Join(v.Panels[0].Notes, " "), parted) {
		t.Errorf("a slit into the zip: %q, %q", v.Remarks, v.Panels[0].Notes)
	}
	if open, err := bottle().Cover(); err != nil || strings.Contains(strings.Join(open.Remarks, " "), "zip") {
		t.Errorf("a zip without a base: %q, %v", open.Remarks, err)
	}
	// The flap behind the slit is as long as from the edge of the hose's hole to the lower edge.
	hose := v.Panels[0].Holes[0]
	if l, err := v.Panels[3].Length("slit"); err != nil || math.Abs(float64(l-(hose.At.Y-hose.Width/2))) > 1e-12 {
		t.Errorf("a flap of %v for a slit of %v: %v", l, hose.At.Y, err)
	}
}

func TestSolidsRefuse(t *testing.T) {
	for name, f := range map[string]func() (canvas.Cover, error){
		"box of nothing":      canvas.RoundedBox{}.Cover,
		"box too round":       canvas.RoundedBox{Length: 1, Width: 0.5, Height: 1, Radius: 0.25, Seam: seam, Hem: seam}.Cover,
		"tuck without cord":   canvas.RoundedBox{Length: 1, Width: 0.5, Height: 1, Radius: 0.1, Seam: seam, Hem: seam, Tuck: seam}.Cover,
		"cylinder, no gores":  canvas.Cylinder{Diameter: 1, Height: 1, Rise: 1, Seam: seam, Hem: seam}.Cover,
		"flat top with gores": canvas.Cylinder{Diameter: 1, Height: 1, Gores: 6, Seam: seam, Hem: seam}.Cover,
		"frustum upright":     canvas.Frustum{Bottom: 1, Top: 1, Height: 1, Seam: seam}.Cover,
		"frustum, no seam":    canvas.Frustum{Bottom: 1, Top: 0.5, Height: 1}.Cover,
		"oblique, wide top":   canvas.ObliqueCone{Bottom: 1, Top: 1, Height: 1, Seam: seam}.Cover,
		"not a number":        canvas.Sphere{Diameter: units.Length(math.NaN()), Gores: 6, Seam: seam}.Cover,
		"infinite":            canvas.Dome{Diameter: 1, Rise: units.Length(math.Inf(1)), Gores: 6, Seam: seam}.Cover,
		"flat dome":           canvas.Dome{Diameter: 10, Rise: 0.01, Gores: 6, Seam: seam}.Cover,
		"transition, flat":    canvas.Transition{Length: 1, Width: 1, Diameter: 0.5, Seam: seam}.Cover,
	} {
		var e *canvas.Error
		if _, err := f(); !errors.Is(err, canvas.ErrInput) || !errors.As(err, &e) || e.Want == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A vault of n flat gores, built point by point in space: its ridge is as long
// as the gore's edge, its sides have the gores' area, and it is as high as the dome.
func TestVault(t *testing.T) {
	for _, n := range []int{4, 8, 13} {
		d := canvas.Dome{Diameter: 1.2, Rise: 0.4, Gores: n, Seam: seam}
		v, err := d.Cover()
		if err != nil {
			t.Fatal(err)
		}
		dev, err := d.Deviation()
		if err != nil {
			t.Fatal(err)
		}
		// A polygon as long round as the circle.
		side := math.Pi * 1.2 / float64(n)
		flat := side / 2 / math.Tan(math.Pi/float64(n))
		corner := side / 2 / math.Sin(math.Pi/float64(n))
		if math.Abs(0.6-flat-float64(dev.Flat)) > 1e-12 || math.Abs(corner-0.6-float64(dev.Ridge)) > 1e-12 {
			t.Errorf("%d gores: %+v, want %v and %v", n, dev, 0.6-flat, corner-0.6)
		}
		ridge, face := 0.0, 0.0
		const steps = 50000
		for i := range steps {
			a, b := math.Pi/2*float64(i)/steps, math.Pi/2*float64(i+1)/steps
			in, up := math.Cos(a)-math.Cos(b), 0.4*(math.Sin(b)-math.Sin(a))
			ridge += math.Hypot(corner*in, up)
			face += side * (math.Cos(a) + math.Cos(b)) / 2 * math.Hypot(flat*in, up)
		}
		edge, _ := v.Panels[0].Length("right")
		if math.Abs(ridge-float64(edge)) > 1e-5 {
			t.Errorf("%d gores: the ridge is %v long, the gore's edge %v", n, ridge, edge)
		}
		if a, _ := v.Panels[0].Area(); math.Abs(face-float64(a)) > 1e-5 {
			t.Errorf("%d gores: a face of %v, a gore of %v", n, face, a)
		}
	}
}

func FuzzBox(f *testing.F) {
	f.Add(0.62, 0.38, 0.33, 0.06, 0.008, uint8(0))
	f.Add(0.62, 0.38, 0.33, 0.19, 0.0, uint8(1))
	f.Add(90.0, 90.0, 90.0, 0.001, 5.0, uint8(2))
	f.Fuzz(func(t *testing.T, l, w, h, radius, ease float64, base uint8) {
		b := canvas.RoundedBox{
			Name: "b", Length: units.Length(l), Width: units.Length(w), Height: units.Length(h), Radius: units.Length(radius), Ease: units.Length(ease),
			Seam: seam, Hem: seam, Gap: seam, Base: []canvas.Base{"", canvas.DrawCord, canvas.ZipBase}[base%3],
		}
		v, err := b.Cover()
		if err == nil {
			_, err = v.Pieces(canvas.Cloth{})
		}
		var e *canvas.Error
		if err != nil && !errors.As(err, &e) {
			t.Fatal(fmt.Sprintf("%T", err), err)
		}
	})
}
