package canvas_test

import (
	"errors"
	"math"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

func TestThread(t *testing.T) {
	s := canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm, Waste: 0.1}
	got, err := s.Thread(10, 1*mm)
	if want := 10 * (2 + 2*1.0/4) * 1.1; err != nil || math.Abs(float64(got)-want) > 1e-12 {
		t.Errorf("%v, %v, want %v m", got, err, want)
	}
	// More for thicker cloth and for shorter stitches, and within what is measured.
	last := 0.0
	for _, thick := range []units.Length{0.2 * mm, 0.6 * mm, 1 * mm, 2 * mm} {
		r, err := canvas.ThreadRatio(canvas.Lockstitch, thick, 4*mm)
		if err != nil || r <= last || r < 2 || r > 3 {
			t.Errorf("%v: ratio %v, %v", thick, r, err)
		}
		shorter, _ := canvas.ThreadRatio(canvas.Lockstitch, thick, 3*mm)
		if shorter <= r {
			t.Errorf("shorter stitches take %v, longer %v", shorter, r)
		}
		last = r
	}
	if _, err := canvas.ThreadRatio("999", mm, mm); !errors.Is(err, canvas.ErrUnknown) {
		t.Error(err)
	}
	for _, bad := range []units.Length{-1, 0, units.Length(math.NaN()), 1} {
		if _, err := canvas.ThreadRatio(canvas.Lockstitch, mm, bad); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("stitch of %v: %v", bad, err)
		}
	}
}

func TestNeedleGrowsWithThread(t *testing.T) {
	last := units.Length(0)
	for tex := 10; tex <= 280; tex++ {
		n, err := canvas.Needle(units.Tex.Scale(float64(tex)))
		if err != nil || n < last || n < 0.6*mm || n > 2.5*mm {
			t.Fatalf("%d tex: %v, %v", tex, n, err)
		}
		last = n
	}
	for _, bad := range []units.LinearDensity{0, 300 * units.Tex, units.LinearDensity(math.NaN())} {
		if _, err := canvas.Needle(bad); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("%v: %v", bad, err)
		}
	}
}

// The strips are laid out on the cloth and measured.
func TestBiasBinding(t *testing.T) {
	for _, c := range []struct{ length, width, roll float64 }{{5, 0.05, 1.5}, {40, 0.06, 1.5}, {2, 0.04, 1.2}, {100, 0.1, 2.04}} {
		cloth, n, err := canvas.BiasBinding{Length: units.Length(c.length), Width: units.Length(c.width), Roll: units.Length(c.roll)}.Cloth()
		if err != nil {
			t.Fatal(err)
		}
		// Strip k lies between the lines y = x + k w sqrt 2 and that of k+1, 0 <= x <= roll.
		if top := float64(n)*c.width*math.Sqrt2 + c.roll; math.Abs(top-float64(cloth)) > 1e-12 {
			t.Errorf("%+v: %d strips reach to %v, %v of cloth", c, n, top, cloth)
		}
		// A joint of two slanted ends at 45 degrees takes one width.
		usable := c.roll*math.Sqrt2 - c.width
		if float64(n)*usable < c.length-1e-9 || float64(n-1)*usable >= c.length {
			t.Errorf("%+v: %d strips of %v", c, n, usable)
		}
	}
	if _, _, err := (canvas.BiasBinding{Length: 1, Width: 1, Roll: 1}).Cloth(); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}

func TestSpacing(t *testing.T) {
	for _, c := range []struct {
		length, most units.Length
		parts        int
	}{{1, 0.25, 4}, {1, 0.3, 4}, {0.9, 0.3, 3}, {0.1, 1, 1}} {
		parts, pitch, err := canvas.Spacing(c.length, c.most)
		if err != nil || parts != c.parts || pitch > c.most+1e-12 || math.Abs(float64(pitch)*float64(parts)-float64(c.length)) > 1e-12 {
			t.Errorf("%+v: %d parts of %v, %v", c, parts, pitch, err)
		}
	}
	if _, _, err := canvas.Spacing(1, 0); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}

func TestFasteners(t *testing.T) {
	p := box(1, 0.5, canvas.Finish{})
	all, err := p.Fasteners([]string{"bottom", "right", "top", "left"}, 20*mm, 250*mm)
	if err != nil {
		t.Fatal(err)
	}
	// 960 mm in 4 parts and 460 mm in 2, twice, with the corners counted once.
	if len(all) != 12 {
		t.Fatalf("%d fasteners: %v", len(all), all)
	}
	for i, want := range map[int]canvas.Point{0: {X: 0.02, Y: 0.02}, 1: {X: 0.26, Y: 0.02}, 4: {X: 0.98, Y: 0.02}, 5: {X: 0.98, Y: 0.25}, 6: {X: 0.98, Y: 0.48}} {
		if math.Hypot(float64(all[i].X-want.X), float64(all[i].Y-want.Y)) > 1e-12 {
			t.Errorf("fastener %d at %v, want %v", i, all[i], want)
		}
	}
	two, err := p.Fasteners([]string{"bottom", "right"}, 20*mm, 250*mm)
	if err != nil || len(two) != 4+2+1 || math.Abs(float64(two[0].X)-0.02) > 1e-12 || math.Abs(float64(two[6].Y)-0.48) > 1e-12 {
		t.Errorf("%v, %v", two, err)
	}
	// Along an arc they lie inside it at an equal distance.
	p.Edges[2].Course = canvas.Course{Curve: canvas.Arc, Depth: 0.1}
	row, err := p.Fasteners([]string{"top"}, 20*mm, 200*mm)
	if err != nil {
		t.Fatal(err)
	}
	radius := (0.25 + 0.01) / 0.2
	for _, q := range row {
		if r := math.Hypot(float64(q.X)-0.5, float64(q.Y)-(0.6-radius)); math.Abs(r-(radius-0.02)) > 2e-5 {
			t.Errorf("%v lies at %v, want %v", q, r, radius-0.02)
		}
	}
	// At a hollow corner the fastener lies on the line that halves the angle.
	l := canvas.Panel{Name: "l"}
	for i, c := range [][2]float64{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}} {
		l.Edges = append(l.Edges, canvas.Edge{Name: string(rune('a' + i)), From: canvas.Point{X: units.Length(c[0]), Y: units.Length(c[1])}})
	}
	row, err = l.Fasteners([]string{"c", "d"}, 20*mm, 10)
	if err != nil || len(row) != 3 || math.Hypot(float64(row[1].X)-0.98, float64(row[1].Y)-0.98) > 1e-12 {
		t.Errorf("%v, %v", row, err)
	}
	if _, err := p.Fasteners([]string{"bottom"}, 0.6, 1); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("inset beyond the middle: %v", err)
	}
	if _, err := p.Fasteners([]string{"none"}, 20*mm, 1); !errors.Is(err, canvas.ErrUnknown) {
		t.Error(err)
	}
}

// A cover added up by hand.
func TestQuantities(t *testing.T) {
	p := box(1, 0.5, canvas.Finish{Kind: canvas.SingleHem, Width: 20 * mm})
	p.Quantity = 2
	p.Edges[1].Finish = canvas.Finish{Kind: canvas.Zip, Width: 10 * mm, Gap: 10 * mm}
	p.Edges[3].Finish = canvas.Finish{Kind: canvas.Bound}
	s := canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm}
	q, err := canvas.Cover{Panels: []canvas.Panel{p}}.Quantities(canvas.Cloth{Thickness: 0.4 * mm}, s)
	if err != nil {
		t.Fatal(err)
	}
	// Twice: two hems of 1 m through two layers, a zip and a binding of 0.5 m through three.
	thread := 2 * (2*1*(2+2*0.8/4) + 2*0.5*(2+2*1.2/4))
	for name, x := range map[string][2]float64{
		"thread": {float64(q.Thread), thread}, "zip": {float64(q.Zip), 0.5}, "binding": {float64(q.Binding), 1},
		"cloth": {float64(q.Cloth), 2 * (1.0 + 0.005) * (0.5 + 0.04)},
	} {
		if math.Abs(x[0]-x[1]) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, x[0], x[1])
		}
	}
}

// Rows of stitches and layers by finish: a seam's two edges have half each.
func TestThreadOfFinishes(t *testing.T) {
	sewing := canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm}
	for _, k := range []struct {
		finish       canvas.Finish
		rows, layers float64
	}{
		{canvas.Finish{}, 0, 0},
		{canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}, 0.5, 2},
		{canvas.Finish{Kind: canvas.DoubleHem, Width: 20 * mm, Turn: 10 * mm}, 1, 3},
		{canvas.Finish{Kind: canvas.Sleeve, Rope: 8 * mm, Width: 10 * mm}, 1, 2},
		{canvas.Finish{Kind: canvas.Webbing, Width: 20 * mm}, 2, 3},
		{canvas.Finish{Kind: canvas.FelledOver, Width: 15 * mm, Turn: 10 * mm}, 1, 4},
		{canvas.Finish{Kind: canvas.FelledIn, Width: 15 * mm}, 1, 4},
		{canvas.Finish{Kind: canvas.French, Width: 15 * mm, Turn: 6 * mm}, 1, 4},
		{canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm, Turn: 10 * mm, Strip: true}, 2, 2.5},
		{canvas.Finish{Kind: canvas.Lapped, Width: 15 * mm}, 1, 2},
		{canvas.Finish{Kind: canvas.Lapped, Width: 15 * mm, Turn: 8 * mm}, 1, 4},
	} {
		p := box(1, 0.5, canvas.Finish{})
		p.Edges[0].Finish = k.finish
		q, err := canvas.Cover{Panels: []canvas.Panel{p}}.Quantities(canvas.Cloth{Thickness: 0.4 * mm}, sewing)
		if err != nil {
			t.Fatal(k.finish, err)
		}
		if want := k.rows * (2 + 2*0.4*k.layers/4); math.Abs(float64(q.Thread)-want) > 1e-9 {
			t.Errorf("%+v: %v of thread a metre, want %v m", k.finish, q.Thread, want)
		}
		var webbing, rope units.Length
		switch k.finish.Kind {
		case canvas.Webbing:
			webbing = 1
		case canvas.Sleeve:
			rope = 1
		}
		if q.Webbing != webbing || q.Rope != rope {
			t.Errorf("%+v: %v of webbing and %v of rope", k.finish, q.Webbing, q.Rope)
		}
	}
	// Bound are both lips of a slit and the hole: 2 x 85 mm and pi x 30 mm. A corner
	// patch of 100 mm with straight inner sides, 100 sqrt 2 mm, then 60 sqrt 2 mm.
	p := box(1, 0.5, canvas.Finish{})
	p.Holes = []canvas.Hole{{Name: "hose", At: canvas.Point{X: 0.5, Y: 0.1}, Width: 30 * mm, Margin: 20 * mm, Split: true, Edge: p.Edges[0].Name}}
	bare := canvas.Cover{Panels: []canvas.Panel{p}}
	p.Patches = []canvas.CornerPatch{{Corner: 0, Along: 100 * mm, Layers: 2, Step: 40 * mm}}
	patched := canvas.Cover{Panels: []canvas.Panel{p}}
	a, err := bare.Quantities(canvas.Cloth{Thickness: 0.4 * mm}, sewing)
	if err != nil {
		t.Fatal(err)
	}
	b, err := patched.Quantities(canvas.Cloth{Thickness: 0.4 * mm}, sewing)
	if err != nil {
		t.Fatal(err)
	}
	if want := 0.17 + 0.03*math.Pi; math.Abs(float64(a.Binding)-want) > 1e-5 {
		t.Errorf("%v of binding round a slit, want %v m", a.Binding, want)
	}
	if want := 2 * math.Sqrt2 * (0.1*(2+2*0.8/4) + 0.06*(2+2*1.2/4)); math.Abs(float64(b.Thread-a.Thread)-want) > 1e-9 {
		t.Errorf("%v of thread for the corner, want %v m", b.Thread-a.Thread, want)
	}
	// What cannot be cut or sewn has no quantities.
	good := box(1, 0.5, canvas.Finish{Kind: canvas.SingleHem, Width: 10 * mm})
	bad := good
	bad.Name = ""
	for _, k := range []struct {
		panel  canvas.Panel
		sewing canvas.Sewing
		want   error
	}{
		{bad, sewing, canvas.ErrInput},
		{good, canvas.Sewing{Stitch: "999", Length: 4 * mm}, canvas.ErrUnknown},
		{good, canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm, Waste: -1}, canvas.ErrInput},
	} {
		if q, err := (canvas.Cover{Panels: []canvas.Panel{k.panel}}).Quantities(canvas.Cloth{}, k.sewing); !errors.Is(err, k.want) {
			t.Errorf("%+v: %+v, %v", k, q, err)
		}
	}
	if _, err := canvas.Ticket(0); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
	if _, err := good.Length("nowhere"); !errors.Is(err, canvas.ErrUnknown) {
		t.Error(err)
	}
	if _, err := (&canvas.Adjustment{}).Corner("A"); !errors.Is(err, canvas.ErrUnknown) {
		t.Error(err)
	}
	if _, err := canvas.ClipSpacing(10*mm, 20*mm); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}

func TestMeasures(t *testing.T) {
	d, err := canvas.Diameter(units.Length(math.Pi)*0.302, 2*mm)
	if err != nil || math.Abs(float64(d)-0.3) > 1e-12 {
		t.Errorf("%v, %v", d, err)
	}
	if _, err := canvas.Diameter(1*mm, 10*mm); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
	if _, err := canvas.ArcRadius(1, 0); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}
