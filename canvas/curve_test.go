package canvas

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// spline is the cubic spline with free ends through points, from its second
// derivatives, which a full linear system gives.
func spline(xs, ys []float64) func(x float64) float64 {
	n := len(xs)
	a, b := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	a.Set(0, 0, 1)
	a.Set(n-1, n-1, 1)
	for i := 1; i+1 < n; i++ {
		h, k := xs[i]-xs[i-1], xs[i+1]-xs[i]
		a.Set(i, i-1, h/6)
		a.Set(i, i, (h+k)/3)
		a.Set(i, i+1, k/6)
		b.SetVec(i, (ys[i+1]-ys[i])/k-(ys[i]-ys[i-1])/h)
	}
	var m mat.VecDense
	if err := m.SolveVec(a, b); err != nil {
		panic(err)
	}
	return func(x float64) float64 {
		i := 1
		for i < n-1 && xs[i] < x {
			i++
		}
		h := xs[i] - xs[i-1]
		p, q := xs[i]-x, x-xs[i-1]
		return (m.AtVec(i-1)*p*p*p+m.AtVec(i)*q*q*q)/(6*h) + (ys[i-1]/h-m.AtVec(i-1)*h/6)*p + (ys[i]/h-m.AtVec(i)*h/6)*q
	}
}

// Each course against its curve as a function of the place along the chord:
// points lie on it, chords leave it by no more than 0.004 mm and hardly less where it
// bends most, and its length is that of a much finer polyline.
func TestCoursesFollowTheirCurves(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for n := range 60 {
		chord := 0.05 + 4*r.Float64()
		var w Course
		var f func(x float64) float64
		switch n % 3 {
		case 0:
			d := chord * (0.005 + 0.4*r.Float64())
			w = Course{Curve: Arc, Depth: units.Length(d)}
			radius := (chord*chord/4 + d*d) / (2 * d)
			f = func(x float64) float64 { return math.Sqrt(radius*radius-(x-chord/2)*(x-chord/2)) - (radius - d) }
		case 1:
			d := chord * (0.005 + 0.4*r.Float64())
			w = Course{Curve: Catenary, Depth: units.Length(d)}
			lo, hi := chord/100, 1000*chord // a (cosh(chord/2a) - 1) falls with a
			for range 200 {
				a := math.Sqrt(lo * hi)
				if a*(math.Cosh(chord/2/a)-1) > d {
					lo = a
				} else {
					hi = a
				}
			}
			a := lo
			f = func(x float64) float64 { return d - a*(math.Cosh((x-chord/2)/a)-1) }
		case 2:
			xs, ys := []float64{0}, []float64{0}
			for k := range 1 + r.IntN(4) {
				xs, ys = append(xs, xs[k]+chord*(0.05+0.15*r.Float64())), append(ys, 0.1*chord*r.NormFloat64())
				w.Offsets = append(w.Offsets, Offset{units.Length(xs[k+1]), units.Length(ys[k+1])})
			}
			w.Curve = Batten
			f = spline(append(xs, chord), append(ys, 0))
		}
		if n%2 == 1 && n%3 < 2 { // a hollow
			w.Depth = -w.Depth
			bulge := f
			f = func(x float64) float64 { return -bulge(x) }
		}
		line, length := w.local(chord)
		if line[0] != (plane.Point{}) || line[len(line)-1] != (plane.Point{X: chord}) {
			t.Fatalf("%+v goes from %v to %v", w, line[0], line[len(line)-1])
		}
		worst := 0.0
		for k := 1; k < len(line); k++ {
			a, b := line[k-1], line[k]
			if math.Abs(f(b.X)-b.Y) > 1e-9*chord {
				t.Fatalf("%+v: %v is off the curve, which is at %v", w, b, f(b.X))
			}
			middle := (a.X + b.X) / 2
			off := math.Abs(f(middle)-(a.Y+b.Y)/2) * (b.X - a.X) / b.Sub(a).Norm()
			worst = math.Max(worst, off)
		}
		if worst > tolerance*1.01 || worst < tolerance/4 && len(line) > 8*len(w.Offsets)+20 {
			t.Errorf("%+v over %v: chords leave it by %v m", w, chord, worst)
		}
		by := func(parts int) (sum float64) {
			last := f(0)
			for k := 1; k <= parts; k++ {
				next := f(chord * float64(k) / float64(parts))
				sum += math.Hypot(chord/float64(parts), next-last)
				last = next
			}
			return sum
		}
		sum := (4*by(20_000) - by(10_000)) / 3 // a chord's error falls with the square of its length
		within := 2e-9
		if w.Curve == Batten { // 24 points of Gauss for each part of a curve that need not be gentle
			within = 1e-7
		}
		if math.Abs(sum/length-1) > within {
			t.Errorf("%+v over %v: %v long, want %v", w, chord, length, sum)
		}
	}
	for _, c := range []struct{ angle, radius float64 }{{1, 1}, {math.Pi, 0.3}, {0.001, 20}, {6, 1e-5}, {0.3, 100}, {2, 5e-6}} {
		n := float64(steps(c.angle, c.radius))
		sagitta := func(n float64) float64 { return c.radius * (1 - math.Cos(c.angle/n/2)) }
		if sagitta(n) > tolerance*(1+1e-6) || n > 2 && sagitta(n-1) < tolerance {
			t.Errorf("%+v: %v parts, which leave it by %v", c, n, sagitta(n))
		}
	}
	if steps(1, 3e-6) != 4 || steps(100, 1e6) != 20000 {
		t.Errorf("%d, %d", steps(1, 3e-6), steps(100, 1e6))
	}
	// Points are joined as they are.
	line, length := Course{Curve: Points, Offsets: []Offset{{-0.3, 0.4}, {0.7, 0.4}}}.local(1)
	if len(line) != 4 || line[1] != (plane.Point{X: -0.3, Y: 0.4}) || math.Abs(length-2) > 1e-12 {
		t.Errorf("%v, %v long", line, length)
	}
}

// Areas under arcs and beside other curves: of a panel with each on one edge.
func TestAreaUnderCurves(t *testing.T) {
	for name, c := range map[string]struct {
		course Course
		area   float64
		within float64
	}{
		"half circle":  {Course{Curve: Arc, Depth: 1}, math.Pi / 2, 1e-12},
		"hollow":       {Course{Curve: Arc, Depth: -0.3}, -segmentOf(2, 0.3), 1e-12},
		"nearly flat":  {Course{Curve: Arc, Depth: 1e-4}, 2.0 / 3 * 2 * 1e-4, 1e-11},
		"nearly flat ": {Course{Curve: Arc, Depth: 4.9e-3}, segmentOf(2, 4.9e-3), 1e-10},
		"triangle":     {Course{Curve: Points, Offsets: []Offset{{1, 0.4}}}, 0.4, 1e-12},
	} {
		p := square(Finish{})
		p.Edges[2].Course = c.course
		if got, err := p.Area(); err != nil || math.Abs(float64(got)-2-c.area) > c.within {
			t.Errorf("%s: %v, %v, want %v m2", name, got, err, 2+c.area)
		}
	}
	// Where the series takes over, it goes on: R^2 (x - sin x)/2 by its series to the seventh power.
	for _, angle := range []float64{9.99e-3, 1.001e-2} {
		depth := math.Tan(angle/4) / 2
		radius := (0.25 + depth*depth) / (2 * depth)
		want := radius * radius / 2 * (math.Pow(angle, 3)/6 - math.Pow(angle, 5)/120 + math.Pow(angle, 7)/5040)
		if got := segment(1, depth); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("segment of %v rad: %v, want %v", angle, got, want)
		}
		if got := segment(1, -depth); math.Abs(got/want+1) > 1e-9 {
			t.Errorf("hollow of %v rad: %v, want %v", angle, got, -want)
		}
	}
	// The same for the stretch of an arc, asin(x)/x - 1 to the tenth power.
	for _, x := range []float64{1e-4, 0.01, 0.0299, 0.0301} {
		y := x * x
		want := y/6 + 3*y*y/40 + 5*y*y*y/112 + 35*y*y*y*y/1152 + 63*y*y*y*y*y/2816
		if got := (Membrane{Span: 2}).stretch(units.Pressure(x), 1); math.Abs(got/want-1) > 2e-12 {
			t.Errorf("stretch at %v: %v, want %v", x, got, want)
		}
	}
}

// segmentOf is the area between an arc and its chord by its radius and angle.
func segmentOf(chord, depth float64) float64 {
	r := (chord*chord/4 + depth*depth) / (2 * depth)
	half := math.Asin(chord / 2 / r)
	return r*r*half - chord/2*(r-depth)
}

// A turn of depth d on a radius R strains its raw edge by 2 d/(R + d), on a hollow one
// by 2 d/(R - d): it is refused beyond what the cloth bears, with the radius
// that would do and what else can be done.
func TestTurnsOnCurves(t *testing.T) {
	type k struct {
		finish Finish
		hollow bool
		fold   float64 // 0 is 0.05
		depth  float64 // of the turn
		also   string
	}
	for _, c := range []k{
		{Finish{Kind: SingleHem, Width: 0.03}, false, 0, 0.03, "Strip"},
		{Finish{Kind: SingleHem, Width: 0.03}, true, 0, 0.03, "Strip"},
		{Finish{Kind: SingleHem, Width: 0.03}, true, 0.1, 0.03, "Strip"},
		{Finish{Kind: DoubleHem, Width: 0.02, Turn: 0.01}, false, 0, 0.02, "Strip"},
		{Finish{Kind: Webbing, Width: 0.025}, true, 0, 0.025, "or one that is clipped"},
		{Finish{Kind: Zip, Width: 0.025, Gap: 0.01}, false, 0, 0.025, "or one that is clipped"},
		{Finish{Kind: Sleeve, Width: 0.02, Rope: 0.008}, false, 0, (math.Pi*0.009 + 0.02) / 2, "Strip"},
	} {
		fold := c.fold
		if fold == 0 {
			fold = 0.05
		}
		// d = f (R +- d)/2
		radius := c.depth * (2/fold - 1)
		sign := 1.0
		if c.hollow {
			radius, sign = c.depth*(2/fold+1), -1
		}
		for _, more := range []float64{0.999, 1.001} {
			for _, curve := range []Curve{Arc, Points} {
				r := radius * more
				depth := r - math.Sqrt(r*r-0.04) // over 0.4 m
				p := Panel{Name: "p", Edges: []Edge{
					{Name: "a", Course: Course{Curve: Arc, Depth: units.Length(sign * depth)}, Finish: c.finish},
					{Name: "b", From: Point{X: 0.4}},
					{Name: "c", From: Point{0.4, 2}},
					{Name: "d", From: Point{Y: 2}},
				}}
				if curve == Points {
					line, _ := p.Edges[0].Course.local(0.4)
					p.Edges[0].Course = Course{Curve: Points}
					for _, q := range line[1 : len(line)-1] {
						p.Edges[0].Course.Offsets = append(p.Edges[0].Course.Offsets, Offset{units.Length(q.X), units.Length(q.Y)})
					}
				}
				_, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{Thickness: 1e-3, Fold: c.fold})
				if (err == nil) != (more > 1) || err != nil && !errors.Is(err, ErrFold) {
					t.Errorf("%+v on a radius of %v, least %v: %v", c, r, radius, err)
				}
				if err == nil {
					continue
				}
				var e *Error
				errors.As(err, &e)
				if !strings.Contains(e.Want, fmt.Sprintf("a radius of %.3v or more for %.0f %%", units.Length(radius), 100*fold)) || !strings.Contains(e.Want, c.also) {
					t.Errorf("%+v, least radius %v: %v", c, radius, err)
				}
			}
		}
	}
	// Tighter than its own depth, a hollow hem would turn inside out.
	p := square(Finish{})
	p.Edges[0].Course, p.Edges[0].Finish = Course{Curve: Arc, Depth: -0.9}, Finish{Kind: SingleHem, Width: 1.2}
	if _, err := (Cover{Panels: []Panel{p}}).Pieces(Cloth{Fold: 0.5}); !errors.Is(err, ErrFold) && !errors.Is(err, ErrOutline) {
		t.Error(err)
	}
}

// Clips are cut from the edge of the allowance to a fifth of it, as far apart as
// sqrt(8 R 0.5 mm) at most, half a part from the ends.
func TestClipsOfCurvedEdges(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		p := square(Finish{})
		p.Edges[0].Course = Course{Curve: Arc, Depth: units.Length(sign * 0.4)}
		p.Edges[0].Finish = Finish{Kind: SingleHem, Width: 0.05, Clipped: true}
		out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
		if err != nil {
			t.Fatal(err)
		}
		const radius = (1 + 0.4*0.4) / 0.8
		angle := 4 * math.Atan(0.4)
		n := int(math.Ceil(radius * angle / math.Sqrt(8*radius*0.5e-3)))
		clips := out[0].Clips
		if len(clips) != n {
			t.Fatalf("%d clips, want %d", len(clips), n)
		}
		for i, c := range clips {
			for k, deep := range []float64{0.05, 0.01} {
				a := -angle/2 + angle*(float64(i)+0.5)/float64(n)
				r := radius + sign*deep
				want := Point{units.Length(1 + r*math.Sin(a)), units.Length(sign * (radius - 0.4 - r*math.Cos(a)))}
				if math.Hypot(float64(c[k].X-want.X), float64(c[k].Y-want.Y)) > 2e-4 { // square to chords, which turn by 5 mrad
					t.Fatalf("clip %d goes through %v, want %v", i, c[k], want)
				}
			}
		}
	}
	// A straight edge has nothing to clip, nor one whose cloth ends short of the line.
	p := square(Finish{})
	p.Edges[0].Finish = Finish{Kind: SingleHem, Width: 0.05, Clipped: true}
	p.Edges[2].Course, p.Edges[2].Finish = Course{Curve: Arc, Depth: 0.1}, Finish{Kind: Zip, Width: 0.01, Gap: 0.02, Clipped: true}
	out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
	if err != nil || len(out[0].Clips) != 0 {
		t.Errorf("%v, %v", out[0].Clips, err)
	}
}

// Marks of panels side by side are the joints alone, on the long side; ticks are
// 8 mm long, square to the seam and outside the panel.
func TestMarksOfManyPanels(t *testing.T) {
	gore := square(Finish{Kind: PlainSeam, Width: 0.01})
	gore.Name, gore.Quantity = "gore", 4
	wall := square(Finish{Kind: PlainSeam, Width: 0.01})
	wall.Name = "wall"
	for i := range wall.Edges {
		wall.Edges[i].From.X *= 4
	}
	v := Cover{Panels: []Panel{gore, wall}, Seams: []Seam{
		{Name: "ring", A: Side{Panel: "gore", Edges: []string{"a"}, Times: 4}, B: Side{Panel: "wall", Edges: []string{"c"}, Backward: true}},
		{Name: "end", A: Side{Panel: "wall", Edges: []string{"b"}}, B: Side{Panel: "wall", Edges: []string{"d"}, Backward: true}},
	}}
	out, err := v.Pieces(Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	if len(out[0].Marks) != 0 {
		t.Errorf("marks on the gores: %+v", out[0].Marks)
	}
	var ring, end []Mark
	for _, m := range out[1].Marks {
		if m.Seam == "ring" {
			ring = append(ring, m)
		} else {
			end = append(end, m)
		}
		if d := math.Hypot(float64(m.To.X-m.At.X), float64(m.To.Y-m.At.Y)); math.Abs(d-8e-3) > 1e-12 {
			t.Errorf("a tick of %v m", d)
		}
	}
	// The wall's top runs from right to left; sewn backward, from left to right.
	if len(ring) != 3 {
		t.Fatalf("%d marks, want 3", len(ring))
	}
	for i, m := range ring {
		if math.Abs(float64(m.At.X)-2*float64(i+1)) > 1e-12 || m.At.Y != 1 || m.Number != i+1 || math.Abs(float64(m.To.Y)-1.008) > 1e-12 {
			t.Errorf("%+v", m)
		}
	}
	// One metre in parts of at most 200 mm is five: four marks on either side.
	if len(end) != 8 {
		t.Fatalf("%d marks, want 8", len(end))
	}
	for i, m := range end {
		y := 0.2 * float64(i%4+1)
		if math.Abs(float64(m.At.Y)-y) > 1e-12 || m.Number != 4+i%4 || m.At.X != []units.Length{8, 0}[i/4] || math.Abs(float64(m.To.X-m.At.X)) < 7.9e-3 {
			t.Errorf("%+v", m)
		}
	}
	// Parts of at most 200 mm, two at least.
	for _, k := range []struct {
		long  units.Length
		marks int
	}{{0.1, 1}, {0.3, 1}, {0.4, 1}, {0.41, 2}, {0.6, 2}, {0.61, 3}, {2, 9}} {
		p, q := square(Finish{}), square(Finish{})
		p.Name, q.Name = "p", "q"
		for _, s := range []*Panel{&p, &q} {
			s.Edges[1].From.X, s.Edges[2].From.X = k.long, k.long
		}
		v := Cover{Panels: []Panel{p, q}, Seams: []Seam{{Name: "s", A: Side{Panel: "p", Edges: []string{"a"}}, B: Side{Panel: "q", Edges: []string{"c"}, Backward: true}}}}
		out, err := v.Pieces(Cloth{})
		if err != nil || len(out[0].Marks) != k.marks || len(out[1].Marks) != k.marks {
			t.Errorf("%v: %d and %d marks, want %d, %v", k.long, len(out[0].Marks), len(out[1].Marks), k.marks, err)
		}
	}
	// A joint where a mark is is one mark; 2 mm beside it are two.
	for _, k := range []struct {
		at    units.Length
		marks int
	}{{1, 1}, {1.0019, 1}, {1.0021, 2}, {0.5, 2}} {
		p, q := square(Finish{}), square(Finish{})
		p.Name, q.Name = "p", "q"
		p.Edges = append([]Edge{p.Edges[0], {Name: "a2", From: Point{X: k.at}}}, p.Edges[1:]...)
		v := Cover{Panels: []Panel{p, q}, Seams: []Seam{{Name: "s", A: Side{Panel: "p", Edges: []string{"a", "a2"}}, B: Side{Panel: "q", Edges: []string{"c"}, Backward: true}, Marks: 2}}}
		out, err := v.Pieces(Cloth{})
		if err != nil || len(out[0].Marks) != k.marks {
			t.Errorf("a joint at %v: %+v, %v", k.at, out[0].Marks, err)
		}
	}
}

// Lines are divided where they meet others, and inside where they touch the outline;
// a line round the outline is not divided where it closes.
func TestPartsOfLines(t *testing.T) {
	var rows [][]Space
	for i := range 5 {
		var row []Space
		for j := range 5 {
			row = append(row, Space{X: units.Length(j), Y: units.Length(i)})
		}
		rows = append(rows, row)
	}
	m, err := Grid(rows) // with diagonals from 0 to 6, 1 to 7 and so on
	if err != nil {
		t.Fatal(err)
	}
	round := []int{0, 1, 2, 3, 4, 9, 14, 19, 24, 23, 22, 21, 20, 15, 10, 5, 0}
	for name, c := range map[string]struct {
		lines []Line
		want  string
	}{
		"touching the outline": {[]Line{{Name: "a", Points: []int{7, 2, 8}}}, "a 1 [7 2], a 2 [2 8]"},
		"inside":               {[]Line{{Name: "a", Points: []int{6, 7, 8}}}, "a [6 7 8]"},
		"from side to side":    {[]Line{{Name: "a", Points: []int{5, 6, 7, 8, 9}}}, "a [5 6 7 8 9]"},
		"along the outline":    {[]Line{{Name: "a", Points: []int{1, 2, 3}}}, "a [1 2 3]"},
		"round":                {[]Line{{Name: "a", Points: round}}, "a " + strings.Join(strings.Fields(fmt.Sprint(round)), " ")},
		"round, from a seam":   {[]Line{{Name: "a", Points: round}, {Name: "b", Points: []int{2, 7}}}, "a 1 [0 1 2], a 2 [2 3 4 9 14 19 24 23 22 21 20 15 10 5 0], b [2 7]"},
		"a T":                  {[]Line{{Name: "a", Points: []int{6, 7, 8}}, {Name: "b", Points: []int{12, 7}}}, "a 1 [6 7], a 2 [7 8], b [12 7]"},
		"a cross":              {[]Line{{Name: "a", Points: []int{6, 7, 8}}, {Name: "b", Points: []int{12, 7, 2}}}, "a 1 [6 7], a 2 [7 8], b 1 [12 7], b 2 [7 2]"},
		"a loop inside":        {[]Line{{Name: "a", Points: []int{6, 7, 12, 11, 6}}}, "a [6 7 12 11 6]"},
	} {
		m.Lines = c.lines
		left, err := m.sides()
		if err != nil {
			t.Fatal(err)
		}
		parts, err := m.parts(left)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var got []string
		for _, p := range parts {
			got = append(got, fmt.Sprint(p.name, " ", p.points))
			if p.inner == (name == "along the outline" || p.name[0] == 'a' && name[0] == 'r') {
				t.Errorf("%s: %s inside: %v", name, p.name, p.inner)
			}
		}
		if strings.Join(got, ", ") != c.want {
			t.Errorf("%s: %s, want %s", name, strings.Join(got, ", "), c.want)
		}
	}
}
