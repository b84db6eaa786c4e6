package canvas_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

func box(w, h units.Length, f canvas.Finish) canvas.Panel {
	return canvas.Panel{Name: "p", Edges: []canvas.Edge{
		{Name: "bottom", Finish: f},
		{Name: "right", From: canvas.Point{X: w}, Finish: f},
		{Name: "top", From: canvas.Point{X: w, Y: h}, Finish: f},
		{Name: "left", From: canvas.Point{Y: h}, Finish: f},
	}}
}

func pieces(t *testing.T, cloth canvas.Cloth, panels ...canvas.Panel) []canvas.Piece {
	t.Helper()
	out, err := canvas.Cover{Panels: panels}.Pieces(cloth)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func bare(line []canvas.Point) []plane.Point {
	out := make([]plane.Point, len(line))
	for i, p := range line {
		out[i] = plane.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	return out
}

func TestAllowance(t *testing.T) {
	for _, c := range []struct {
		f    canvas.Finish
		want units.Length
	}{
		{canvas.Finish{}, 0},
		{canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm}, 15 * mm},
		{canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm}, 30 * mm},
		{canvas.Finish{Kind: canvas.DoubleHem, Width: 30 * mm, Turn: 12 * mm}, 42 * mm},
		{canvas.Finish{Kind: canvas.Bound}, 0},
		{canvas.Finish{Kind: canvas.FelledOver, Width: 12 * mm, Turn: 10 * mm}, 22 * mm},
		{canvas.Finish{Kind: canvas.FelledIn, Width: 12 * mm}, 12 * mm},
		{canvas.Finish{Kind: canvas.Lapped, Width: 20 * mm}, 10 * mm},
		{canvas.Finish{Kind: canvas.French, Width: 10 * mm, Turn: 6 * mm}, 16 * mm},
		{canvas.Finish{Kind: canvas.Zip, Width: 15 * mm, Gap: 10 * mm}, 10 * mm},
		{canvas.Finish{Kind: canvas.Webbing, Width: 25 * mm}, 25 * mm},
		{canvas.Finish{Kind: canvas.Sleeve, Rope: 9 * mm, Width: 20 * mm}, units.Length(math.Pi*0.010 + 0.020)},
		{canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm, Turn: 10 * mm, Strip: true}, 10 * mm},
	} {
		got, err := c.f.Allowance(1 * mm)
		if err != nil || math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("%+v: %v, %v, want %v", c.f, got, err, c.want)
		}
	}
	for name, f := range map[string]canvas.Finish{
		"no width":          {Kind: canvas.PlainSeam},
		"turn beyond width": {Kind: canvas.DoubleHem, Width: 10 * mm, Turn: 11 * mm},
		"french shows":      {Kind: canvas.French, Width: 10 * mm, Turn: 10 * mm},
		"wide zip":          {Kind: canvas.Zip, Width: 4 * mm, Gap: 10 * mm},
		"no rope":           {Kind: canvas.Sleeve},
		"faced seam":        {Kind: canvas.PlainSeam, Width: 10 * mm, Strip: true},
		"not a number":      {Kind: canvas.PlainSeam, Width: units.Length(math.NaN())},
	} {
		if _, err := f.Allowance(mm); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (canvas.Finish{Kind: "glue"}).Allowance(mm); !errors.Is(err, canvas.ErrUnknown) {
		t.Error(err)
	}
}

// Steiner's formula: a convex outline grown by d with its corners run out has
// the area A + P d + d^2 sum tan(turn/2).
func TestSeamAllowanceAllRound(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		p, turns := convex(r, canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm})
		out := pieces(t, canvas.Cloth{}, p)[0]
		a, _ := p.Area()
		around := 0.0
		for i := range out.Sew {
			around += plane.Length(bare(out.Sew[i]))
		}
		want := float64(a) + around*0.01
		for _, turn := range turns {
			want += 1e-4 * math.Tan(turn/2)
		}
		if got := float64(out.Area()); math.Abs(got-want) > 1e-9 {
			t.Fatalf("area %v, want %v", got, want)
		}
	}
}

// convex is a polygon round a circle of 1 m, with gentle corners, and how much it turns at each.
func convex(r *rand.Rand, f canvas.Finish) (canvas.Panel, []float64) {
	n := 5 + r.IntN(6)
	var p canvas.Panel
	p.Name = "p"
	angle := make([]float64, n)
	turns := make([]float64, n)
	for i := range n {
		angle[i] = 2 * math.Pi * (float64(i) + 0.25*r.Float64()) / float64(n)
	}
	for i := range n { // corners between the tangents at these angles
		b := angle[(i+1)%n]
		if i+1 == n {
			b += 2 * math.Pi
		}
		turns[i] = b - angle[i]
		m, k := (angle[i]+b)/2, 1/math.Cos((b-angle[i])/2)
		p.Edges = append(p.Edges, canvas.Edge{From: canvas.Point{X: units.Length(k * math.Cos(m)), Y: units.Length(k * math.Sin(m))}, Finish: f})
	}
	return p, turns
}

// Mitred hems, folded, cover the band inside the edge once and leave nothing
// bare: cloth outside the fold has the area of that band, P w - w^2 sum tan(turn/2).
func TestMitredHemsFold(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 200 {
		p, turns := convex(r, canvas.Finish{Kind: canvas.SingleHem, Width: 40 * mm})
		out := pieces(t, canvas.Cloth{}, p)[0]
		a, _ := p.Area()
		band := 0.0
		for i := range out.Sew {
			band += 0.04 * plane.Length(bare(out.Sew[i]))
		}
		for _, turn := range turns {
			band -= 0.04 * 0.04 * math.Tan(turn/2)
		}
		if got := float64(out.Area() - a); math.Abs(got-band) > 1e-9 {
			t.Fatalf("hems of %v, the band inside is %v", got, band)
		}
	}
	// Of unlike widths: the corner of the hems' inner edges lies under the mitre.
	q := box(1, 1, canvas.Finish{Kind: canvas.SingleHem, Width: 40 * mm})
	q.Edges[1].Finish.Width = 80 * mm
	out := pieces(t, canvas.Cloth{}, q)[0]
	if got, want := float64(out.Area()), 1+0.04*3+0.08-2*0.04*0.04-2*0.04*0.08; math.Abs(got-want) > 1e-9 {
		t.Errorf("area %v, want %v", got, want)
	}
}

// The end of a hem beside a seam, folded, lies on the seam's cut line.
func TestFoldedHemEnd(t *testing.T) {
	// A parallelogram leaning to the right: the hem along the bottom must widen at
	// one end and narrow at the other.
	f := canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}
	p := canvas.Panel{Name: "p", Edges: []canvas.Edge{
		{From: canvas.Point{}, Finish: canvas.Finish{Kind: canvas.SingleHem, Width: 50 * mm}},
		{From: canvas.Point{X: 1}, Finish: f},
		{From: canvas.Point{X: 1.3, Y: 0.5}, Finish: f},
		{From: canvas.Point{X: 0.3, Y: 0.5}, Finish: f},
	}}
	out := pieces(t, canvas.Cloth{}, p)[0]
	lean := 0.3 / 0.5
	wide := 0.01 * math.Hypot(1, lean) // of the seam's allowance, along the fold
	for _, want := range []plane.Point{{X: 1 + wide + 0.05*lean, Y: -0.05}, {X: -wide + 0.05*lean, Y: -0.05}, {X: 1 + wide}, {X: -wide}} {
		found := false
		for _, q := range bare(out.Cut) {
			found = found || q.Sub(want).Norm() < 1e-9
		}
		if !found {
			t.Errorf("no corner at %v in %v", want, out.Cut)
		}
	}
}

func TestCornerCuts(t *testing.T) {
	const w = 0.04
	for cut, want := range map[canvas.CornerCut]float64{
		canvas.Crossed: 1 + 4*w + 4*w*w,
		canvas.Squared: 1 + 4*w,
		canvas.Mitred:  1 + 4*w - 4*w*w,
	} {
		p := box(1, 1, canvas.Finish{Kind: canvas.SingleHem, Width: 40 * mm})
		for i := range p.Edges {
			p.Edges[i].Corner = cut
		}
		if got := float64(pieces(t, canvas.Cloth{}, p)[0].Area()); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: area %v, want %v", cut, got, want)
		}
	}
	// The rope comes out of a sleeve at the corner.
	sleeve := box(1, 1, canvas.Finish{})
	sleeve.Edges[0].Finish = canvas.Finish{Kind: canvas.Sleeve, Rope: 10 * mm, Width: 20 * mm}
	sleeve.Edges[1].Finish = canvas.Finish{Kind: canvas.SingleHem, Width: 40 * mm}
	if got, want := float64(pieces(t, canvas.Cloth{}, sleeve)[0].Area()), 1+0.04+math.Pi*0.01+0.02; math.Abs(got-want) > 1e-9 {
		t.Errorf("sleeve: area %v, want %v", got, want)
	}
	// A double hem: the turn is mirrored back from the first fold.
	p := box(1, 1, canvas.Finish{Kind: canvas.DoubleHem, Width: 40 * mm, Turn: 10 * mm})
	want := 1 + 4*(w-w*w) + 4*0.01*(1-2*w+0.01)
	if got := float64(pieces(t, canvas.Cloth{}, p)[0].Area()); math.Abs(got-want) > 1e-9 {
		t.Errorf("double hem: area %v, want %v", got, want)
	}
	// Where an edge runs on into another of unlike allowance there is a step, no spike.
	run := box(1, 1, canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm})
	run.Edges[0].Course = canvas.Course{Curve: canvas.Arc, Depth: -0.02}
	on := canvas.Edge{From: canvas.Point{X: 1.5, Y: 0.04}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}}
	run.Edges = append(run.Edges[:1:1], append([]canvas.Edge{{From: canvas.Point{X: 1}, Finish: on.Finish}, on}, run.Edges[2:]...)...)
	cut := bare(pieces(t, canvas.Cloth{}, run)[0].Cut)
	for _, want := range []plane.Point{{X: 1, Y: -0.015}, {X: 1, Y: -0.012}} {
		if d := plane.Distance(cut, want); d > 0.002 {
			t.Errorf("the step is %v away from %v", d, want)
		}
	}
	near := 0
	for _, q := range cut {
		if q.Sub(plane.Point{X: 1, Y: -0.0135}).Norm() < 0.004 {
			near++
		}
	}
	if near != 2 {
		t.Errorf("%d points at the step, want 2", near)
	}
	// A sharp corner is blunted, within reason of its allowance.
	spike := canvas.Panel{Name: "p", Edges: []canvas.Edge{
		{Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}},
		{From: canvas.Point{X: 1, Y: 0.02}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}},
		{From: canvas.Point{X: 0, Y: 0.5}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}},
	}}
	for _, q := range pieces(t, canvas.Cloth{}, spike)[0].Cut {
		if q.X > 1.021 {
			t.Errorf("the spike grew to %v", q)
		}
	}
}

// A turn that is deeper than a hollow edge is curved cannot cross itself.
func TestCutLinesDoNotCross(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	kinds := []canvas.Curve{canvas.Straight, canvas.Arc, canvas.Catenary}
	cuts := []canvas.CornerCut{canvas.AutoCorner, canvas.Crossed, canvas.Squared, canvas.Mitred, canvas.Folded}
	done := 0
	for range 1000 {
		p := star(r)
		for i := range p.Edges {
			e := &p.Edges[i]
			if e.Course.Curve = kinds[r.IntN(3)]; e.Course.Curve != canvas.Straight {
				e.Course.Depth = units.Length(0.05 * (r.Float64() - 0.5))
			}
			e.Finish = canvas.Finish{Kind: []canvas.FinishKind{canvas.PlainSeam, canvas.SingleHem, canvas.DoubleHem, canvas.Zip}[r.IntN(4)]}
			e.Finish.Width = units.Length(0.01 + 0.06*r.Float64())
			e.Finish.Turn, e.Finish.Gap = e.Finish.Width/3, e.Finish.Width
			e.Corner = cuts[r.IntN(len(cuts))]
		}
		out, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{Fold: 0.5})
		if err != nil {
			if !errors.Is(err, canvas.ErrOutline) && !errors.Is(err, canvas.ErrFold) {
				t.Fatal(err)
			}
			continue
		}
		done++
		ring := bare(out[0].Cut)
		if i, j, at, found := plane.Crossing(ring); found {
			t.Fatalf("edges %d and %d cross at %v", i, j, at)
		}
		for _, line := range out[0].Sew {
			for _, q := range bare(line) {
				if !plane.Contains(ring, q) && plane.Distance(ring, q) > 1e-5 {
					t.Fatalf("the finished line leaves the cloth at %v", q)
				}
			}
		}
	}
	if done < 300 {
		t.Errorf("only %d of 1000 panels could be cut", done)
	}
}

// star goes round the origin at random distances: hollow corners of any sharpness.
func star(r *rand.Rand) canvas.Panel {
	n := 3 + r.IntN(9)
	p := canvas.Panel{Name: "p"}
	for i := range n {
		a, d := 2*math.Pi*(float64(i)+0.5*r.Float64())/float64(n), 0.1+0.9*r.Float64()
		p.Edges = append(p.Edges, canvas.Edge{From: canvas.Point{X: units.Length(d * math.Cos(a)), Y: units.Length(d * math.Sin(a))}})
	}
	return p
}

func TestFoldStrain(t *testing.T) {
	// A sector of cloth: the raw edge at radius R + d must come to lie at R - d.
	for _, c := range []struct{ depth, radius float64 }{{0.03, 2}, {0.03, 0.1}, {0.05, -0.4}, {0.02, -5}} {
		before, after := math.Abs(c.radius+c.depth), math.Abs(c.radius-c.depth)
		got, err := canvas.FoldStrain(units.Length(c.depth), units.Length(c.radius))
		if err != nil || math.Abs(got-(after/before-1)) > 1e-12 {
			t.Errorf("%+v: %v, %v, want %v", c, got, err, after/before-1)
		}
		if thumb := -2 * c.depth / c.radius; math.Abs(c.radius) > 1 && math.Abs(got-thumb) > 0.03*math.Abs(thumb) {
			t.Errorf("%+v: %v is not about %v", c, got, thumb)
		}
	}
	if _, err := canvas.FoldStrain(0.1, 0.1); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
	s, err := canvas.ClipSpacing(0.5, 0.0005)
	if err != nil {
		t.Fatal(err)
	}
	if r, _ := canvas.ArcRadius(s, 0.0005); math.Abs(float64(r)/0.5-1) > 1e-3 {
		t.Errorf("clips %v apart on 0.5 m leave an arc of radius %v", s, r)
	}
}

func TestCurvedHem(t *testing.T) {
	p := box(2, 1, canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm})
	p.Edges[0].Course = canvas.Course{Curve: canvas.Arc, Depth: -0.2} // radius 2.6 m
	if _, err := (canvas.Cover{Panels: []canvas.Panel{p}}).Pieces(canvas.Cloth{Fold: 0.03}); err != nil {
		t.Errorf("2.3 %% of strain in cloth that takes 3 %%: %v", err)
	}
	_, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{Fold: 0.02})
	if !errors.Is(err, canvas.ErrFold) {
		t.Fatalf("2.3 %% of strain in cloth that takes 2 %%: %v", err)
	}
	// Clipped, each part of the fold is straight to 0.5 mm.
	clipped := box(2, 1, canvas.Finish{Kind: canvas.SingleHem, Width: 30 * mm})
	clipped.Edges[0].Course = p.Edges[0].Course
	clipped.Edges[0].Finish.Clipped = true
	cuts := pieces(t, canvas.Cloth{Fold: 0.02}, clipped)[0].Clips
	if len(cuts) < 10 {
		t.Fatalf("%d clips", len(cuts))
	}
	for i, c := range cuts {
		d := math.Hypot(float64(c[0].X-c[1].X), float64(c[0].Y-c[1].Y))
		if math.Abs(d-0.024) > 1e-9 {
			t.Errorf("clip %d is %v long", i, d)
		}
		if i > 0 {
			gap := math.Hypot(float64(c[1].X-cuts[i-1][1].X), float64(c[1].Y-cuts[i-1][1].Y))
			if rise := gap * gap / 8 / 2.6; rise > 0.0005 {
				t.Errorf("clips %v apart: the fold leaves the curve by %v", gap, rise)
			}
		}
	}
	p.Edges[0].Finish.Strip, p.Edges[0].Finish.Turn = true, 10*mm
	p.Edges[1].Finish, p.Edges[3].Finish = canvas.Finish{}, canvas.Finish{}
	out := pieces(t, canvas.Cloth{Fold: 0.02}, p)
	if len(out) != 2 {
		t.Fatalf("%d pieces, want the panel and a facing", len(out))
	}
	// The facing goes 10 mm outside the edge and 40 mm inside it, and ends with the panel:
	// what lies over a chord of 2 m under one circle and not under the other.
	under := func(radius float64) float64 { return math.Sqrt(radius*radius-1) + radius*radius*math.Asin(1/radius) }
	radius := float64(2*2)/8/0.2 + 0.1
	want := under(radius+0.04) - under(radius-0.01)
	if got := float64(out[1].Area()); math.Abs(got-want) > 1e-5 {
		t.Errorf("facing of %v m2, want %v", got, want)
	}
}

func TestShrinkage(t *testing.T) {
	p := box(1, 0.5, canvas.Finish{})
	p.Grain = 30 * units.Degree
	cloth := canvas.Cloth{Warp: -0.02, Weft: 0.01}
	out := pieces(t, cloth, p)[0]
	if got, want := float64(out.Area()), 0.5/0.98/1.01; math.Abs(got-want) > 1e-12 {
		t.Errorf("area %v, want %v", got, want)
	}
	// Shrinking what was cut gives the panel again.
	sin, cos := math.Sincos(math.Pi / 6)
	for i, e := range p.Edges {
		q := bare(out.Sew[i])[0]
		u, v := (q.X*cos+q.Y*sin)*0.98, (-q.X*sin+q.Y*cos)*1.01
		if math.Hypot(u*cos-v*sin-float64(e.From.X), u*sin+v*cos-float64(e.From.Y)) > 1e-12 {
			t.Errorf("corner %d is wrong", i)
		}
	}
	q, err := cloth.Cut(canvas.Point{X: 1}, 0)
	if err != nil || math.Abs(float64(q.X)-1/0.98) > 1e-15 || q.Y != 0 {
		t.Errorf("%v, %v", q, err)
	}
	if _, err := (canvas.Cloth{Warp: -0.5}).Cut(canvas.Point{}, 0); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}

func TestHolesAndPatches(t *testing.T) {
	p := box(1, 1, canvas.Finish{})
	p.Holes = []canvas.Hole{
		{Name: "eye", At: canvas.Point{X: 0.3, Y: 0.3}, Width: 50 * mm, Margin: 30 * mm},
		{Name: "slot", At: canvas.Point{X: 0.6, Y: 0.7}, Length: 200 * mm, Width: 40 * mm, Angle: 90 * units.Degree, Margin: 25 * mm, Split: true},
	}
	p.Patches = []canvas.CornerPatch{{Corner: 2, Along: 200 * mm, Layers: 3, Step: 40 * mm}}
	out := pieces(t, canvas.Cloth{}, p)
	if len(out) != 1+1+2+3 {
		t.Fatalf("%d pieces", len(out))
	}
	near := func(what string, got units.Area, want float64) {
		t.Helper()
		if math.Abs(float64(got)-want) > 2e-6 {
			t.Errorf("%s: %v m2, want %v", what, float64(got), want)
		}
	}
	near("patch of a round hole", out[1].Area(), math.Pi*0.055*0.055)
	// Half a stadium of 250 by 90 mm, and away from the slit a strip of 12.5 mm beyond
	// its middle, without what the slot of 200 by 40 mm takes of both.
	half := (overHalf(0.25, 0.09, 0.0125) + overHalf(0.25, 0.09, 0) - overHalf(0.2, 0.04, 0.0125) - overHalf(0.2, 0.04, 0)) / 2
	near("half patch", out[2].Area(), half)
	near("other half", out[3].Area(), half)
	for i, leg := range []float64{0.2, 0.16, 0.12} {
		near("corner patch", out[4+i].Area(), leg*leg/2)
	}
	if len(out[0].Holes) != 2 || out[0].Holes[0].Slit != nil || len(out[0].Holes[1].Slit) != 2 {
		t.Errorf("holes: %+v", out[0].Holes)
	}
	p.Holes[0].At.X = 0.01
	if _, err := (canvas.Cover{Panels: []canvas.Panel{p}}).Pieces(canvas.Cloth{}); !errors.Is(err, canvas.ErrOutline) {
		t.Errorf("a hole across the edge: %v", err)
	}
}

// overHalf is half the area of a stadium and what lies within a distance beyond its long axis.
func overHalf(length, width, beyond float64) float64 {
	r := width / 2
	half := (length-width)*r + math.Pi*r*r/2
	chordArea := beyond*math.Sqrt(r*r-beyond*beyond) + r*r*math.Asin(beyond/r)
	return half + (length-width)*beyond + chordArea
}

// The points for marking out stay within the deviation, and there are few of them.
func TestMarkingOut(t *testing.T) {
	p := box(2, 1, canvas.Finish{})
	p.Edges[0].Course = canvas.Course{Curve: canvas.Arc, Depth: -0.2}
	piece := pieces(t, canvas.Cloth{}, p)[0]
	for _, deviation := range []units.Length{0.1 * mm, 1 * mm, 5 * mm} {
		at, err := piece.MarkingOut(deviation)
		if err != nil {
			t.Fatal(err)
		}
		ring := bare(at)
		worst := 0.0
		for _, q := range bare(piece.Cut) {
			worst = math.Max(worst, plane.Distance(ring, q))
		}
		// An arc of radius R divided in n parts of equal length leaves their chords by s^2/8R.
		length, _ := p.Length("bottom")
		least := float64(length) / math.Sqrt(8*2.6*float64(deviation))
		if worst > float64(deviation) || float64(len(at)) > 2*least+6 || len(at) < 5 {
			t.Errorf("%v: %d points, %v m off", deviation, len(at), worst)
		}
		if slices.ContainsFunc(at, func(q canvas.Point) bool { return q.X < 0 || q.Y < 0 }) {
			t.Errorf("%v: points left of or below the baseline", deviation)
		}
	}
	// A piece that is alike on both sides is marked out alike: a gore.
	v, err := canvas.Dome{Diameter: 0.42, Rise: 0.15, Gores: 7, Seam: 10 * mm}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	gore := pieces(t, canvas.Cloth{}, v.Panels...)[0]
	at, err := gore.MarkingOut(1 * mm)
	if err != nil {
		t.Fatal(err)
	}
	width := at[1].X
	for i, q := range at {
		if i == 0 && (q.X != 0 || q.Y != 0) {
			t.Errorf("the gore begins at %v, not at its lower left corner", q)
		}
		mirrored := func(r canvas.Point) bool {
			return math.Abs(float64(width-r.X-q.X)) < 1e-6 && math.Abs(float64(r.Y-q.Y)) < 1e-6
		}
		if !slices.ContainsFunc(at, mirrored) {
			t.Errorf("nothing opposite %v", q)
		}
	}
	// A disk has no corners.
	disk, err := canvas.Cylinder{Diameter: 0.4, Height: 0.1, Seam: 10 * mm, Hem: 10 * mm}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	at, err = pieces(t, canvas.Cloth{}, disk.Panels[1])[0].MarkingOut(1 * mm)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range at {
		if r := math.Hypot(float64(q.X)-0.21, float64(q.Y)-0.21); math.Abs(r-0.21) > 1e-5 {
			t.Errorf("%v is %v m from the middle of a disk", q, r)
		}
	}
	if _, err := piece.MarkingOut(0); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
	if _, err := (canvas.Piece{}).MarkingOut(mm); !errors.Is(err, canvas.ErrInput) {
		t.Error(err)
	}
}

// The polyline of every curve is as long as the curve, less what chords lose
// when they leave it by at most 0.004 mm.
func TestPolylinesFollowTheirCurves(t *testing.T) {
	for name, w := range map[string]canvas.Course{
		"arc":      {Curve: canvas.Arc, Depth: 0.3},
		"catenary": {Curve: canvas.Catenary, Depth: -0.2},
		"batten":   {Curve: canvas.Batten, Offsets: []canvas.Offset{{Along: 0.9, Out: 0.4}, {Along: 1.1, Out: 0.35}}},
	} {
		p := box(2, 1, canvas.Finish{})
		p.Edges[2].Course = w
		length, err := p.Length("top")
		if err != nil {
			t.Fatal(err)
		}
		line := bare(pieces(t, canvas.Cloth{}, p)[0].Sew[2])
		// With a rise d on a chord c the chord is shorter by 8 d^2/(3 c).
		n := float64(len(line) - 1)
		most := n * 8 * 4e-6 * 4e-6 / (3 * float64(length) / n)
		if less := float64(length) - plane.Length(line); less < -1e-12 || less > 3*most {
			t.Errorf("%s: the polyline is %v m shorter, at most %v expected", name, less, most)
		}
	}
}

func TestSeams(t *testing.T) {
	a, b := box(1, 1, canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm}), box(1.05, 1, canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * mm})
	a.Name, b.Name = "a", "b"
	v := canvas.Cover{Panels: []canvas.Panel{a, b}, Seams: []canvas.Seam{{
		Name: "s", A: canvas.Side{Panel: "a", Edges: []string{"top"}}, B: canvas.Side{Panel: "b", Edges: []string{"bottom"}, Backward: true},
		Fullness: 0.05, Marks: 4,
	}}}
	out, err := v.Pieces(canvas.Cloth{Warp: -0.03})
	if err != nil {
		t.Fatal(err)
	}
	// Marks at quarters of the finished length, on the cloth before it shrinks; the
	// sides run against each other.
	for i, w := range []float64{1, 1.05} {
		if len(out[i].Marks) != 3 {
			t.Fatalf("%d marks", len(out[i].Marks))
		}
		for k, m := range out[i].Marks {
			part := float64(k+1) / 4
			if i == 0 { // the top goes from right to left
				part = 1 - part
			} else { // the bottom goes from left to right, and is sewn backward
				part = 1 - part
			}
			if got, want := float64(m.At.X), w*part/0.97; math.Abs(got-want) > 1e-12 {
				t.Errorf("panel %d, mark %d at %v, want %v", i, m.Number, got, want)
			}
		}
	}
	v.Seams[0].Fullness = 0
	if err := v.Check(); !errors.Is(err, canvas.ErrSeam) {
		t.Errorf("50 mm too long: %v", err)
	}
	v.Seams[0].B.Edges = []string{"bottom", "top"}
	if err := v.Check(); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("edges that do not follow one another: %v", err)
	}
	v.Seams[0].B.Panel = "c"
	if err := v.Check(); !errors.Is(err, canvas.ErrUnknown) {
		t.Errorf("no such panel: %v", err)
	}
}

// Equal numbers meet, so a number belongs to one seam, and to both of its sides.
func TestMarkNumbers(t *testing.T) {
	v, err := canvas.RoundedBox{
		Length: 600 * mm, Width: 400 * mm, Height: 300 * mm, Radius: 60 * mm, Seam: 15 * mm, Gap: 8 * mm, Base: canvas.ZipBase,
	}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	out, err := v.Pieces(canvas.Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	seamOf, sides := map[int]string{}, map[int]int{}
	for _, p := range out {
		for _, m := range p.Marks {
			if s := seamOf[m.Number]; s != "" && s != m.Seam {
				t.Errorf("mark %d is of seam %s and of %s", m.Number, s, m.Seam)
			}
			seamOf[m.Number] = m.Seam
			sides[m.Number]++
		}
	}
	for n := 1; n <= len(seamOf); n++ {
		if sides[n] != 2 {
			t.Errorf("mark %d stands on %d sides", n, sides[n])
		}
	}
	if len(seamOf) < len(v.Seams) {
		t.Errorf("%d numbers for %d seams", len(seamOf), len(v.Seams))
	}
}

// A hem of two folds shows both: 38 mm alone would be taken for the width of the hem.
func TestEdgeLabels(t *testing.T) {
	for _, k := range []struct {
		finish canvas.Finish
		want   string
	}{
		{canvas.Finish{}, "bottom"},
		{canvas.Finish{Kind: canvas.Bound}, "bottom: binding"},
		{canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm}, "bottom: seam 15 mm"},
		{canvas.Finish{Kind: canvas.DoubleHem, Width: 25 * mm, Turn: 12.5 * mm}, "bottom: double hem 25 + 12.5 mm"},
		{canvas.Finish{Kind: canvas.DoubleHem, Width: 25 * mm, Turn: 10 * mm, Strip: true}, "bottom: faced, turn 10 mm"},
		{canvas.Finish{Kind: canvas.FelledOver, Width: 15 * mm, Turn: 10 * mm}, "bottom: felled over 15 + 10 mm"},
		{canvas.Finish{Kind: canvas.Lapped, Width: 20 * mm}, "bottom: lapped 10 mm"},
		{canvas.Finish{Kind: canvas.Lapped, Width: 20 * mm, Turn: 8 * mm}, "bottom: lapped 10 + 8 mm"},
	} {
		p := box(1, 0.5, canvas.Finish{})
		p.Edges[0].Finish = k.finish
		if got := pieces(t, canvas.Cloth{}, p)[0].Edges[0]; got != k.want {
			t.Errorf("%+v: %q, want %q", k.finish, got, k.want)
		}
	}
}

// A patch that would hang over the edge is refused, not drawn there.
func TestPatchOverTheEdge(t *testing.T) {
	p := box(1, 0.5, canvas.Finish{})
	for _, k := range []struct {
		y, margin units.Length
		ok        bool
	}{{60 * mm, 44 * mm, true}, {60 * mm, 46 * mm, false}, {60 * mm, 0, true}, {10 * mm, 0, false}} {
		p.Holes = []canvas.Hole{{Name: "stay", At: canvas.Point{X: 0.5, Y: k.y}, Width: 30 * mm, Margin: k.margin}}
		_, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
		if k.ok && err != nil || !k.ok && !errors.Is(err, canvas.ErrOutline) {
			t.Errorf("%+v: %v", k, err)
		}
	}
}

// The turn under webbing and zips is judged like that of a hem.
func TestTurnUnderWebbing(t *testing.T) {
	for _, k := range []struct {
		width units.Length
		clip  bool
		ok    bool
	}{{40 * mm, false, false}, {40 * mm, true, true}, {20 * mm, false, true}} {
		p := box(1, 2, canvas.Finish{})
		// A chord of 1 m with a hollow of 80 mm: R = 1602.5 mm, a strain of
		// 80/1562.5 = 5.1 % for 40 mm and 40/1582.5 = 2.5 % for 20 mm.
		p.Edges[0].Course = canvas.Course{Curve: canvas.Arc, Depth: -80 * mm}
		p.Edges[0].Finish = canvas.Finish{Kind: canvas.Webbing, Width: k.width, Clipped: k.clip}
		_, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
		if k.ok && err != nil || !k.ok && !errors.Is(err, canvas.ErrFold) {
			t.Errorf("%+v: %v", k, err)
		}
	}
}

func TestOutlinesRefused(t *testing.T) {
	corner := func(x, y float64) canvas.Edge {
		return canvas.Edge{From: canvas.Point{X: units.Length(x), Y: units.Length(y)}}
	}
	for name, p := range map[string]canvas.Panel{
		"clockwise":     {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(0, 1), corner(1, 1)}},
		"bow tie":       {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(1, 1), corner(1, 0), corner(0, 1)}},
		"in a line":     {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(1, 0), corner(2, 0)}},
		"there, back":   {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(1, 0)}},
		"point twice":   {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(0, 0), corner(1, 0), corner(1, 1)}},
		"arc too round": {Name: "p", Edges: []canvas.Edge{{Course: canvas.Course{Curve: canvas.Arc, Depth: -0.6}}, corner(1, 0), corner(1, 0.5), corner(0, 0.5)}},
	} {
		if _, err := p.Area(); !errors.Is(err, canvas.ErrOutline) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, p := range map[string]canvas.Panel{
		"one edge":     {Name: "p", Edges: []canvas.Edge{corner(0, 0)}},
		"not a number": {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(math.NaN(), 0), corner(1, 1)}},
		"far away":     {Name: "p", Edges: []canvas.Edge{corner(0, 0), corner(1e9, 0), corner(1, 1)}},
		"flat arc":     {Name: "p", Edges: []canvas.Edge{{Course: canvas.Course{Curve: canvas.Arc}}, corner(1, 0), corner(1, 1)}},
		"batten back": {Name: "p", Edges: []canvas.Edge{{Course: canvas.Course{
			Curve: canvas.Batten, Offsets: []canvas.Offset{{Along: 0.6}, {Along: 0.5}},
		}}, corner(1, 0), corner(1, 1)}},
	} {
		if _, err := p.Area(); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzOutline(f *testing.F) {
	f.Add([]byte{0, 0, 200, 0, 200, 200, 0, 200}, uint8(10), uint8(0))
	f.Add([]byte{0, 0, 100, 90, 200, 0, 100, 250}, uint8(40), uint8(1))
	f.Add([]byte{0, 0, 250, 0, 250, 10, 10, 10, 10, 250, 0, 250}, uint8(90), uint8(2))
	f.Add([]byte{0, 0, 200, 0, 200, 100, 101, 100, 100, 20, 99, 100, 0, 100}, uint8(30), uint8(3))
	f.Add([]byte{5, 5, 5, 5, 5, 5}, uint8(3), uint8(4))
	f.Fuzz(func(t *testing.T, corners []byte, width, cut uint8) {
		if len(corners) > 80 {
			t.Skip()
		}
		p := canvas.Panel{Name: "p"}
		kinds := []canvas.FinishKind{canvas.PlainSeam, canvas.SingleHem, canvas.DoubleHem, canvas.Lapped, canvas.Raw, canvas.Zip}
		cuts := []canvas.CornerCut{canvas.AutoCorner, canvas.Crossed, canvas.Squared, canvas.Mitred, canvas.Folded}
		for i := 0; i+1 < len(corners); i += 2 {
			w := units.Length(width) * mm / 2
			e := canvas.Edge{
				From:   canvas.Point{X: units.Length(corners[i]) * 4 * mm, Y: units.Length(corners[i+1]) * 4 * mm},
				Finish: canvas.Finish{Kind: kinds[(i/2+int(width))%len(kinds)], Width: w, Turn: w / 2, Gap: w},
				Corner: cuts[int(cut)%len(cuts)],
			}
			if cut > 100 && i%4 == 0 {
				e.Course = canvas.Course{Curve: canvas.Arc, Depth: units.Length(int(cut)-178) * mm}
			}
			p.Edges = append(p.Edges, e)
		}
		out, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{Fold: 0.5})
		if err != nil {
			var e *canvas.Error
			if !errors.As(err, &e) {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		ring := bare(out[0].Cut)
		if _, _, at, found := plane.Crossing(ring); found || !(plane.Area(ring) > 0) {
			t.Fatalf("the cut line crosses itself at %v, area %v", at, plane.Area(ring))
		}
	})
}
