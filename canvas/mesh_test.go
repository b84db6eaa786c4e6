package canvas_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// disk is a mesh of rings round a middle point; at gives the place of a point by
// its part of the radius and its angle.
func disk(rings int, at func(part, angle float64) canvas.Space) canvas.Mesh {
	m := canvas.Mesh{Points: []canvas.Space{at(0, 0)}}
	first := func(ring int) int { return 1 + 3*ring*(ring-1) }
	place := func(ring, k int) int {
		if ring == 0 {
			return 0
		}
		return first(ring) + (k%(6*ring)+6*ring)%(6*ring)
	}
	rim := canvas.Line{Name: "rim"}
	for r := 1; r <= rings; r++ {
		for k := range 6 * r {
			m.Points = append(m.Points, at(float64(r)/float64(rings), 2*math.Pi*float64(k)/float64(6*r)))
		}
		for s := range 6 { // a sixth of the ring: r sides outside, r-1 inside
			for k := range r {
				m.Triangles = append(m.Triangles, [3]int{place(r-1, s*(r-1)+k), place(r, s*r+k), place(r, s*r+k+1)})
				if k > 0 {
					m.Triangles = append(m.Triangles, [3]int{place(r-1, s*(r-1)+k), place(r-1, s*(r-1)+k-1), place(r, s*r+k)})
				}
			}
		}
	}
	for k := range 6*rings + 1 {
		rim.Points = append(rim.Points, place(rings, k))
	}
	m.Lines = []canvas.Line{rim}
	return m
}

// sphereCap is part of the unit sphere, as far as an angle from the pole.
func sphereCap(rings int, half float64) canvas.Mesh {
	return disk(rings, func(part, angle float64) canvas.Space {
		s, c := math.Sincos(part * half)
		return space(s*math.Cos(angle), s*math.Sin(angle), c)
	})
}

func space(x, y, z float64) canvas.Space {
	return canvas.Space{X: units.Length(x), Y: units.Length(y), Z: units.Length(z)}
}

func mustFlatten(t testing.TB, m canvas.Mesh) canvas.Flattening {
	t.Helper()
	f, err := m.Flatten(canvas.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// grid is a mesh of a surface over the unit square.
func grid(t testing.TB, rows, columns int, at func(x, y float64) canvas.Space) canvas.Mesh {
	t.Helper()
	all := make([][]canvas.Space, rows)
	for i := range all {
		for j := range columns {
			all[i] = append(all[i], at(float64(j)/float64(columns-1), float64(i)/float64(rows-1)))
		}
	}
	m, err := canvas.Grid(all)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Surfaces whose angle defects are 0 lie flat with every length kept.
func TestFlattenDevelopable(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	knots := make([]float64, 40)
	for i := range knots {
		knots[i] = rng.Float64()
	}
	meshes := map[string]canvas.Mesh{
		"cylinder": grid(t, 20, 30, func(x, y float64) canvas.Space { return space(math.Cos(6*x), math.Sin(6*x), 2*y) }),
		"cone": grid(t, 20, 30, func(x, y float64) canvas.Space {
			return space((1+y)*math.Cos(5*x), (1+y)*math.Sin(5*x), 3*y)
		}),
		"oblique cone": grid(t, 12, 40, func(x, y float64) canvas.Space { // to an apex at (0.4, 0.1, 2)
			return space(math.Cos(5*x)*(1-y/2)+0.4*y/2, math.Sin(5*x)*(1-y/2)+0.1*y/2, y)
		}),
		"strip": grid(t, 3, 600, func(x, y float64) canvas.Space {
			return space(20*x, math.Sin(30*x), 0.1*y)
		}),
		"folds": grid(t, 10, 40, func(x, y float64) canvas.Space {
			return space(3*x, 2*y, knots[int(math.Round(39*x))]/10)
		}),
		"plane": grid(t, 9, 9, func(x, y float64) canvas.Space {
			return space(x+0.2*x*y, y*(1+x*x), 0.3*x+0.2*x*y*0.3+2*y*(1+x*x))
		}),
		"disk": disk(8, func(part, angle float64) canvas.Space {
			return space(part*math.Cos(angle), part*math.Sin(angle), 1)
		}),
	}
	// A tube, closed all round, cut along a line: its two edges are one seam.
	tube := canvas.Mesh{Name: "tube", Lines: []canvas.Line{
		{Name: "cut", Points: []int{0, 1, 2}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}},
		{Name: "foot", Finish: canvas.Finish{Kind: canvas.SingleHem, Width: 20 * mm}},
	}}
	const n = 36
	for k := range n {
		a := 2 * math.Pi * float64(k) / n
		for r := range 3 {
			tube.Points = append(tube.Points, space(0.2*math.Cos(a), 0.2*math.Sin(a), 0.15*float64(r)))
		}
		b, c := 3*k, 3*((k+1)%n)
		tube.Triangles = append(tube.Triangles, [3]int{b, c, c + 1}, [3]int{b, c + 1, b + 1}, [3]int{b + 1, c + 1, c + 2}, [3]int{b + 1, c + 2, b + 2})
		tube.Lines[1].Points = append(tube.Lines[1].Points, b)
	}
	tube.Lines[1].Points = append(tube.Lines[1].Points, 0)
	meshes["tube"] = tube
	for name, m := range meshes {
		t.Run(name, func(t *testing.T) {
			f := mustFlatten(t, m)
			s := f.Sheets[0]
			if s.Defect.Abs() > 1e-9 || len(s.Advice) > 0 {
				t.Errorf("defect %v at %d, advice %q", s.Defect, s.At, s.Advice)
			}
			if s.Warp > 1e-9 || s.Weft > 1e-9 || s.Gather > 1e-9 || s.Shear > 1e-9 {
				t.Errorf("warp %g weft %g gather %g shear %v", s.Warp, s.Weft, s.Gather, s.Shear)
			}
			for _, x := range s.Triangles {
				for k := range 3 {
					a, b := x.Corners[k], x.Corners[(k+1)%3]
					flat := math.Hypot(float64(s.Points[a].X-s.Points[b].X), float64(s.Points[a].Y-s.Points[b].Y))
					if want := apart(m.Points[s.From[a]], m.Points[s.From[b]]); math.Abs(flat-want) > 1e-9*want {
						t.Fatalf("%d-%d is %v long, want %v", s.From[a], s.From[b], flat, want)
					}
				}
			}
		})
	}
	f := mustFlatten(t, tube)
	if got := f.Cover.Seams; len(got) != 1 || got[0].Name != "cut" || math.Abs(got[0].Fullness) > 1e-9 {
		t.Errorf("seams %+v", got)
	}
	pieces, err := f.Cover.Pieces(canvas.Cloth{Thickness: mm / 2})
	if err != nil {
		t.Fatal(err)
	}
	around := 2 * n * 0.2 * math.Sin(math.Pi/n)
	if got, want := float64(pieces[0].Area()), (around+0.024)*0.3+around*0.02; math.Abs(got-want) > 0.02*0.024 {
		t.Errorf("the piece is %v m2, want %v", got, want)
	}
}

func apart(a, b canvas.Space) float64 {
	return math.Hypot(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)), float64(a.Z-b.Z))
}

// bump is a sheet that bends both ways, another for each seed.
func bump(rings int, seed uint64) canvas.Mesh {
	rng := rand.New(rand.NewPCG(seed, 7))
	a, b, c := rng.NormFloat64()/4, rng.NormFloat64()/4, rng.NormFloat64()/4
	return disk(rings, func(part, angle float64) canvas.Space {
		x, y := part*math.Cos(angle)*(1+c*part), part*math.Sin(angle)
		return space(x, y, a*x*x+b*y*y+c*math.Sin(2*x*y))
	})
}

// Gauss and Bonnet: the defects inside and the turning of the outline make a turn.
func TestFlattenGaussBonnet(t *testing.T) {
	for seed := range uint64(20) {
		m := bump(6, seed)
		s := mustFlatten(t, m).Sheets[0]
		sum := make([]float64, len(m.Points))
		for _, x := range m.Triangles {
			for k := range 3 {
				a, b, c := apart(m.Points[x[k]], m.Points[x[(k+1)%3]]), apart(m.Points[x[k]], m.Points[x[(k+2)%3]]), apart(m.Points[x[(k+1)%3]], m.Points[x[(k+2)%3]])
				sum[x[k]] += math.Acos((a*a + b*b - c*c) / (2 * a * b))
			}
		}
		turn := 0.0
		for _, p := range m.Lines[0].Points[1:] {
			turn += math.Pi - sum[p]
		}
		if got := float64(s.Total) + turn; math.Abs(got-2*math.Pi) > 1e-9 {
			t.Errorf("seed %d: %v, want a turn", seed, got)
		}
	}
}

// The flat triangles, compared with the sides of those on the surface, have the
// strains that are reported, and no point can move without more of them.
func TestFlattenIsLeast(t *testing.T) {
	for seed := range uint64(10) {
		m := bump(5, seed)
		f := mustFlatten(t, m)
		s := f.Sheets[0]
		least := strainOf(m, s)
		if math.Abs(least-s.Energy) > 1e-12+1e-9*least {
			t.Fatalf("seed %d: energy %v, want %v", seed, s.Energy, least)
		}
		for p := range s.Points {
			was := s.Points[p]
			for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				s.Points[p] = canvas.Point{X: was.X + units.Length(1e-4*d[0]), Y: was.Y + units.Length(1e-4*d[1])}
				if got := strainOf(m, s); got < least {
					t.Fatalf("seed %d point %d: energy falls from %v to %v", seed, p, least, got)
				}
			}
			s.Points[p] = was
		}
	}
}

// strainOf is the mean of the squares of the principal strains from the metric of
// each triangle: the eigenvalues of (surface metric)^-1 (flat metric) are the squares
// of the stretches.
func strainOf(m canvas.Mesh, s canvas.Sheet) float64 {
	sum, area := 0.0, 0.0
	for _, x := range s.Triangles {
		metric := func(between func(a, b int) float64) (e, f, g float64) {
			a, b, c := between(0, 1), between(0, 2), between(1, 2)
			return a * a, (a*a + b*b - c*c) / 2, b * b
		}
		e, f, g := metric(func(a, b int) float64 {
			return apart(m.Points[s.From[x.Corners[a]]], m.Points[s.From[x.Corners[b]]])
		})
		e2, f2, g2 := metric(func(a, b int) float64 {
			p, q := s.Points[x.Corners[a]], s.Points[x.Corners[b]]
			return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y))
		})
		det := e*g - f*f
		trace, product := (e2*g-2*f*f2+g2*e)/det, (e2*g2-f2*f2)/det
		root := math.Sqrt(math.Max(0, trace*trace/4-product))
		s1, s2 := math.Sqrt(trace/2+root), math.Sqrt(math.Max(0, trace/2-root))
		sum += math.Sqrt(det) / 2 * ((s1-1)*(s1-1) + (s2-1)*(s2-1))
		area += math.Sqrt(det) / 2
	}
	return sum / area
}

// No flat map of a cap of the sphere is better than that of least strain, the
// equidistant one is worse by a known amount.
func TestFlattenCapAgainstEquidistant(t *testing.T) {
	for half, equidistant := range map[float64]float64{30: 7.22e-4, 60: 1.29528e-2, 90: 8.05685e-2} {
		s := mustFlatten(t, sphereCap(16, half*math.Pi/180)).Sheets[0]
		if s.Energy > equidistant {
			t.Errorf("%v degrees: energy %v, equidistant %v", half, s.Energy, equidistant)
		}
	}
}

// An eighth of a sphere: seams along its sides and a quarter turn of curvature.
func TestFlattenOctant(t *testing.T) {
	octant := func(rows int) canvas.Mesh {
		var m canvas.Mesh
		at := func(i, j int) int { return i*(i+1)/2 + j }
		for i := range rows + 1 {
			for j := range i + 1 {
				x, y, z := float64(rows-i), float64(i-j), float64(j)
				r := math.Sqrt(x*x + y*y + z*z)
				m.Points = append(m.Points, space(x/r, y/r, z/r))
				if i < rows {
					m.Triangles = append(m.Triangles, [3]int{at(i, j), at(i+1, j), at(i+1, j+1)})
				}
				if j > 0 && i < rows {
					m.Triangles = append(m.Triangles, [3]int{at(i, j), at(i, j-1), at(i+1, j)})
				}
			}
		}
		for k, name := range []string{"xy", "yz", "zx"} {
			l := canvas.Line{Name: name}
			for i := range rows + 1 {
				l.Points = append(l.Points, []int{at(i, 0), at(rows, i), at(i, i)}[k])
			}
			m.Lines = append(m.Lines, l)
		}
		return m
	}
	s := mustFlatten(t, octant(40)).Sheets[0]
	// The strip along the sides, half a triangle wide, is not counted.
	if got := float64(s.Total); got < 0.93*math.Pi/2 || got > math.Pi/2 {
		t.Errorf("total defect %v, want nearly pi/2", got)
	}
	if len(s.Edges) != 3 || math.Abs(s.Edges[0].Fullness-s.Edges[1].Fullness) > 1e-9 || math.Abs(s.Edges[0].Fullness-s.Edges[2].Fullness) > 1e-9 {
		t.Errorf("the edges of an octant are alike, got %+v", s.Edges)
	}
	if got := float64(s.Surface); math.Abs(got-math.Pi/2) > 1e-3 {
		t.Errorf("area %v, want pi/2", got)
	}
}

// Darts and seams take strain away.
func TestFlattenSeams(t *testing.T) {
	m := sphereCap(12, math.Pi/3)
	whole := mustFlatten(t, m).Sheets[0]
	spoke := func(sixth int) (out []int) {
		for r := 12; r >= 1; r-- {
			out = append(out, 1+3*r*(r-1)+sixth*r)
		}
		return out
	}
	// One dart as far as half way to the middle.
	dart := m
	dart.Lines = append([]canvas.Line{{Name: "dart", Points: spoke(0)[:7]}}, m.Lines...)
	f := mustFlatten(t, dart)
	if s := f.Sheets[0]; len(f.Sheets) != 1 || !(s.Energy < whole.Energy) || len(s.Points) != len(m.Points)+6 {
		t.Errorf("a dart: %d sheets, energy %v before, %v after, %d points", len(f.Sheets), whole.Energy, s.Energy, len(s.Points))
	}
	// Six gores.
	gores := m
	gores.Name = "gore"
	for k := range 6 {
		gores.Lines = append(gores.Lines, canvas.Line{
			Name: fmt.Sprintf("spoke %c", 'a'+k), Points: append(spoke(k), 0),
			Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm},
		})
	}
	gores.Lines[0].Finish = canvas.Finish{Kind: canvas.Bound}
	f = mustFlatten(t, gores)
	if len(f.Sheets) != 6 || len(f.Cover.Seams) != 6 {
		t.Fatalf("%d sheets and %d seams, want 6 gores", len(f.Sheets), len(f.Cover.Seams))
	}
	for i, s := range f.Sheets {
		if !(s.Energy < whole.Energy/10) {
			t.Errorf("gore %d: energy %v, of the whole cap %v", i, s.Energy, whole.Energy)
		}
		if math.Abs(f.Cover.Seams[i].Fullness) > 1e-6 {
			t.Errorf("seam %d: fullness %v between mirror images", i, f.Cover.Seams[i].Fullness)
		}
	}
	if _, err := f.Cover.Pieces(canvas.Cloth{Fold: 0.1}); err != nil {
		t.Error(err)
	}
	roundTrip(t, f)
	roundTrip(t, gores)
}

// The warp lies where the cloth is strained least, or where it was asked for.
func TestFlattenGrain(t *testing.T) {
	m := grid(t, 15, 25, func(x, y float64) canvas.Space { return space(2*x, y, 0.3*math.Sin(3*x)*(y-0.4)*y) })
	limits := canvas.Limits{Warp: 0.003, Weft: 0.03, Shear: 0.05}
	cost := func(f canvas.Flattening) float64 {
		sum := 0.0
		for _, s := range f.Sheets[0].Triangles {
			t := m.Triangles[s.Triangle]
			a, b, c := apart(m.Points[t[0]], m.Points[t[1]]), apart(m.Points[t[0]], m.Points[t[2]]), apart(m.Points[t[1]], m.Points[t[2]])
			area := math.Sqrt((a+b+c)*(a+b-c)*(a-b+c)*(b+c-a)) / 4
			sum += area * (math.Pow(s.Warp/limits.Warp, 2) + math.Pow(s.Weft/limits.Weft, 2) + math.Pow(float64(s.Shear/limits.Shear), 2))
		}
		return sum
	}
	best, err := m.Flatten(limits)
	if err != nil {
		t.Fatal(err)
	}
	least := cost(best)
	for p := 0; p < len(m.Points)-1; p += 11 {
		m.Warp = [2]int{p, len(m.Points) - 1}
		f, err := m.Flatten(limits)
		if err != nil {
			t.Fatal(err)
		}
		// Green's strains differ from these by a part as large as the strains.
		if got := cost(f); got < 0.97*least {
			t.Errorf("grain %.1f degrees has cost %v, the best at %.1f has %v", f.Cover.Panels[0].Grain.Degrees(), got, best.Cover.Panels[0].Grain.Degrees(), least)
		}
		s := f.Sheets[0]
		a, b := s.Points[slices.Index(s.From, p)], s.Points[slices.Index(s.From, len(m.Points)-1)]
		if want := units.Atan2(b.Y-a.Y, b.X-a.X); (f.Cover.Panels[0].Grain - want).Abs() > 1e-12 {
			t.Errorf("from point %d: grain %v, want %v", p, f.Cover.Panels[0].Grain, want)
		}
	}
}

func TestFlattenRefuses(t *testing.T) {
	square := func() canvas.Mesh {
		return canvas.Mesh{
			Points:    []canvas.Space{space(0, 0, 0), space(1, 0, 0), space(1, 1, 0), space(0, 1, 0.2)},
			Triangles: [][3]int{{0, 1, 2}, {0, 2, 3}},
		}
	}
	for name, c := range map[string]struct {
		change func(m *canvas.Mesh)
		want   error
		field  string
	}{
		"no points":     {func(m *canvas.Mesh) { m.Points = nil }, canvas.ErrInput, "Points"},
		"no triangles":  {func(m *canvas.Mesh) { m.Triangles = nil }, canvas.ErrInput, "Triangles"},
		"not a number":  {func(m *canvas.Mesh) { m.Points[2].Y = units.Length(math.NaN()) }, canvas.ErrInput, "Points[2].Y"},
		"far away":      {func(m *canvas.Mesh) { m.Points[2].Y = 1e6 }, canvas.ErrInput, "Points[2].Y"},
		"no such point": {func(m *canvas.Mesh) { m.Triangles[1][2] = 4 }, canvas.ErrInput, "Triangles[1][2]"},
		"negative":      {func(m *canvas.Mesh) { m.Triangles[1][2] = -1 }, canvas.ErrInput, "Triangles[1][2]"},
		"twice a point": {func(m *canvas.Mesh) { m.Triangles[1][2] = 0 }, canvas.ErrMesh, "Triangles[1]"},
		"in a line":     {func(m *canvas.Mesh) { m.Points[1] = space(0.5, 0.5, 0) }, canvas.ErrMesh, "Triangles[0]"},
		"turned over":   {func(m *canvas.Mesh) { m.Triangles[1] = [3]int{0, 3, 2} }, canvas.ErrMesh, "Triangles[1]"},
		"three at side": {func(m *canvas.Mesh) {
			m.Points = append(m.Points, space(0, 0, 1))
			m.Triangles = append(m.Triangles, [3]int{2, 0, 4})
		}, canvas.ErrMesh, "Triangles[2]"},
		"no name":     {func(m *canvas.Mesh) { m.Lines = []canvas.Line{{Points: []int{0, 1}}} }, canvas.ErrInput, "Lines[0].Name"},
		"short line":  {func(m *canvas.Mesh) { m.Lines = []canvas.Line{{Name: "a", Points: []int{0}}} }, canvas.ErrInput, "Lines[0].Points"},
		"no side":     {func(m *canvas.Mesh) { m.Lines = []canvas.Line{{Name: "a", Points: []int{0, 1, 3}}} }, canvas.ErrInput, "Lines[0].Points[2]"},
		"in and out":  {func(m *canvas.Mesh) { m.Lines = []canvas.Line{{Name: "a", Points: []int{0, 1, 2, 0}}} }, canvas.ErrInput, "Lines[0].Points[3]"},
		"there, back": {func(m *canvas.Mesh) { m.Lines = []canvas.Line{{Name: "a", Points: []int{0, 1, 0}}} }, canvas.ErrInput, "Lines[0].Points[2]"},
		"one name": {func(m *canvas.Mesh) {
			m.Lines = []canvas.Line{{Name: "a", Points: []int{0, 1}}, {Name: "a", Points: []int{2, 3}}}
		}, canvas.ErrInput, "Lines"},
		"a finish": {func(m *canvas.Mesh) {
			m.Lines = []canvas.Line{{Name: "a", Points: []int{0, 1}, Finish: canvas.Finish{Kind: "glue"}}}
		}, canvas.ErrUnknown, "Lines[0].Finish.Kind"},
		"a warp": {func(m *canvas.Mesh) { m.Warp = [2]int{0, 9} }, canvas.ErrInput, "Warp[1]"},
		"a warp from part to part": {func(m *canvas.Mesh) {
			for _, x := range []float64{5, 6} {
				m.Points = append(m.Points, space(x, 0, 0))
			}
			m.Points = append(m.Points, space(5, 1, 0))
			m.Triangles = append(m.Triangles, [3]int{4, 5, 6})
			m.Warp = [2]int{0, 5}
		}, canvas.ErrInput, "Warp"},
	} {
		m := square()
		c.change(&m)
		_, err := m.Flatten(canvas.Limits{})
		var e *canvas.Error
		if !errors.As(err, &e) || !errors.Is(err, c.want) || e.Field != c.field {
			t.Errorf("%s: %v, want %v about %s", name, err, c.want, c.field)
		}
	}
	if _, err := square().Flatten(canvas.Limits{Warp: -1}); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("negative limit: %v", err)
	}
	for name, rows := range map[string][][]canvas.Space{
		"none": nil, "one row": {{{}, {}}}, "one column": {{{}}, {{}}}, "ragged": {{{}, {}}, {{}}},
	} {
		if _, err := canvas.Grid(rows); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A doughnut with a triangle missing has one outline and a handle: no cut is
// suggested for it, but for the part beside it that bends both ways one is.
func TestHandle(t *testing.T) {
	var m canvas.Mesh
	const n = 8
	at := func(i, k int) int { return i%n*n + k%n }
	for i := range n {
		for k := range n {
			a, b := 2*math.Pi*float64(i)/n, 2*math.Pi*float64(k)/n
			r := 1 + 0.4*math.Cos(b)
			m.Points = append(m.Points, space(r*math.Cos(a), r*math.Sin(a), 0.4*math.Sin(b)))
			m.Triangles = append(m.Triangles, [3]int{at(i, k), at(i+1, k), at(i+1, k+1)}, [3]int{at(i, k), at(i+1, k+1), at(i, k+1)})
		}
	}
	m.Triangles = m.Triangles[1:]
	_, err := m.Flatten(canvas.Limits{})
	if !errors.Is(err, canvas.ErrMesh) || !strings.Contains(err.Error(), "handle") || strings.Contains(err.Error(), "a cut along") {
		t.Errorf("a doughnut: %v", err)
	}
	if row, err := m.Suggest(); err != nil || row != nil {
		t.Errorf("a doughnut: %v, %v", row, err)
	}
	bowl := sphereCap(3, 1)
	first := len(m.Points)
	for _, p := range bowl.Points {
		m.Points = append(m.Points, canvas.Space{X: p.X + 5, Y: p.Y, Z: p.Z})
	}
	for _, q := range bowl.Triangles {
		m.Triangles = append(m.Triangles, [3]int{q[0] + first, q[1] + first, q[2] + first})
	}
	if row, err := m.Suggest(); err != nil || len(row) < 2 || row[0] < first && row[len(row)-1] < first {
		t.Errorf("a bowl beside it: %v, %v", row, err)
	}
}

// A ring, a closed surface and a sheet that overlaps itself are refused with a
// cut, and the cut helps.
func TestSuggest(t *testing.T) {
	var ring canvas.Mesh
	const n = 24
	for k := range n {
		a := 2 * math.Pi * float64(k) / n
		ring.Points = append(ring.Points, space(math.Cos(a), math.Sin(a), 0), space(1.5*math.Cos(a), 1.5*math.Sin(a), 0.4))
		b, c := 2*k, 2*((k+1)%n)
		ring.Triangles = append(ring.Triangles, [3]int{b, b + 1, c + 1}, [3]int{b, c + 1, c})
	}
	octahedron := canvas.Mesh{
		Points:    []canvas.Space{space(1, 0, 0), space(0, 1, 0), space(-1, 0, 0), space(0, -1, 0), space(0, 0, 1), space(0, 0, -1)},
		Triangles: [][3]int{{0, 1, 4}, {1, 2, 4}, {2, 3, 4}, {3, 0, 4}, {1, 0, 5}, {2, 1, 5}, {3, 2, 5}, {0, 3, 5}},
	}
	// A spiral ramp, more than a turn round: flat, it covers itself.
	spiral := grid(t, 4, 60, func(x, y float64) canvas.Space {
		return space((1+y)*math.Cos(8*x), (1+y)*math.Sin(8*x), 0.05*x)
	})
	for name, c := range map[string]struct {
		mesh canvas.Mesh
		want error
	}{"ring": {ring, canvas.ErrMesh}, "octahedron": {octahedron, canvas.ErrMesh}, "spiral": {spiral, canvas.ErrFlat}} {
		_, err := c.mesh.Flatten(canvas.Limits{})
		if !errors.Is(err, c.want) || !strings.Contains(err.Error(), "a cut along") {
			t.Errorf("%s: %v, want %v with a cut", name, err, c.want)
			continue
		}
		row, err := c.mesh.Suggest()
		if err != nil || len(row) < 2 {
			t.Fatalf("%s: %v, %v", name, row, err)
		}
		c.mesh.Lines = append(c.mesh.Lines, canvas.Line{Name: "further", Points: row})
		if _, err := c.mesh.Flatten(canvas.Limits{}); name == "ring" && err != nil {
			t.Errorf("%s cut along %v: %v", name, row, err)
		} else if errors.Is(err, canvas.ErrMesh) {
			t.Errorf("%s cut along %v: %v", name, row, err)
		}
	}
	slit := grid(t, 4, 4, func(x, y float64) canvas.Space { return space(x, y, x*x) })
	slit.Lines = append(slit.Lines, canvas.Line{Name: "slit", Points: []int{1, 5, 9}})
	if _, err := slit.Flatten(canvas.Limits{}); !errors.Is(err, canvas.ErrFlat) || !strings.Contains(err.Error(), "cut along slit, which does not open") {
		t.Errorf("a slit that does not open: %v", err)
	}
	flat := grid(t, 4, 4, func(x, y float64) canvas.Space { return space(x, y, 0) })
	if row, err := flat.Suggest(); err != nil || row != nil {
		t.Errorf("a plane: %v, %v", row, err)
	}
}

func FuzzFlatten(f *testing.F) {
	f.Add([]byte{10, 20, 30, 40, 50, 60, 70, 80, 90}, uint8(3), uint8(0), uint8(0))
	f.Add([]byte{0, 0, 0, 0, 255, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 255, 255, 0, 0}, uint8(4), uint8(5), uint8(1))
	f.Add([]byte{1, 2, 3, 4, 5, 6, 7, 8}, uint8(2), uint8(3), uint8(3))
	f.Fuzz(func(t *testing.T, heights []byte, columns, from, change uint8) {
		n := 2 + int(columns)%8
		if len(heights) > 200 || len(heights) < 2*n {
			t.Skip()
		}
		rows := make([][]canvas.Space, len(heights)/n)
		for i := range rows {
			for j := range n {
				rows[i] = append(rows[i], space(float64(j), float64(i), float64(heights[i*n+j])/50))
			}
		}
		m, err := canvas.Grid(rows)
		if err != nil {
			t.Fatal(err)
		}
		if change%4 == 1 {
			var l canvas.Line
			for p := int(from); p < len(m.Points); p += n {
				l.Points = append(l.Points, p)
			}
			l.Name = "cut"
			m.Lines = append(m.Lines, l)
		}
		if change%4 == 2 {
			k := int(from) % len(m.Triangles)
			m.Triangles[k][int(change)%3] = int(heights[0])
		}
		if change%4 == 3 {
			k := int(from) % len(m.Triangles)
			m.Triangles = append(m.Triangles[:k], m.Triangles[k+1:]...)
			m.Lines = nil
		}
		out, err := m.Flatten(canvas.Limits{})
		if err != nil {
			var e *canvas.Error
			if !errors.As(err, &e) {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		if err := out.Cover.Check(); err != nil {
			t.Fatal(err)
		}
		sum := 0
		for i, s := range out.Sheets {
			sum += len(s.Triangles)
			a, err := out.Cover.Panels[i].Area()
			if err != nil || math.Abs(float64(a-s.Flat)) > 1e-9*float64(a) {
				t.Fatalf("area of the panel %v, of its triangles %v, %v", a, s.Flat, err)
			}
			for _, x := range s.Triangles {
				if !(x.Warp > -1 && x.Weft > -1 && x.Shear.Abs() < 2) {
					t.Fatalf("%+v", x)
				}
			}
			if e := strainOf(m, s); !(math.Abs(e-s.Energy) < 1e-7*(1+e)) {
				t.Fatalf("energy %v, want %v", s.Energy, e)
			}
		}
		if sum != len(m.Triangles) {
			t.Fatalf("%d triangles of %d", sum, len(m.Triangles))
		}
	})
}
