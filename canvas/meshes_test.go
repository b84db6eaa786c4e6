package canvas_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// turn takes the sheet's map from the flat to the surface apart: how a step along
// the warp and one along the weft come out there, from coordinates in the plane of
// the triangle on the surface.
func stepsOnSurface(m canvas.Mesh, s canvas.Sheet, x canvas.Strain, grain float64) (warp, weft [2]float64) {
	flat := func(k int) [2]float64 {
		p := s.Points[x.Corners[k]]
		return [2]float64{float64(p.X), float64(p.Y)}
	}
	a, b, c := m.Points[s.From[x.Corners[0]]], m.Points[s.From[x.Corners[1]]], m.Points[s.From[x.Corners[2]]]
	long := apart(a, b)
	along := (long*long + apart(a, c)*apart(a, c) - apart(b, c)*apart(b, c)) / (2 * long)
	high := math.Sqrt(apart(a, c)*apart(a, c) - along*along)
	o, p, q := flat(0), flat(1), flat(2)
	// v = i (p - o) + j (q - o), which becomes i (long, 0) + j (along, high).
	step := func(v [2]float64) [2]float64 {
		px, py, qx, qy := p[0]-o[0], p[1]-o[1], q[0]-o[0], q[1]-o[1]
		det := px*qy - py*qx
		i, j := (v[0]*qy-v[1]*qx)/det, (px*v[1]-py*v[0])/det
		return [2]float64{i*long + j*along, j * high}
	}
	sin, cos := math.Sincos(grain)
	return step([2]float64{cos, sin}), step([2]float64{-sin, cos})
}

// What a sheet says of itself, worked out again from where its points lie: strains
// of each triangle in the grain's frame, the greatest of them, what is beyond the
// limits, areas, the middle and the longest way.
func TestSheetsSayWhatTheyAre(t *testing.T) {
	for seed := range uint64(8) {
		m := bump(5, seed)
		l := canvas.Limits{Warp: 0.004, Weft: 0.008, Shear: 0.6 * units.Degree}
		f, err := m.Flatten(l)
		if err != nil {
			t.Fatal(err)
		}
		s, grain := f.Sheets[0], float64(f.Cover.Panels[0].Grain)
		var warp, weft, gather, shear, surface, flat, x, y, xx, xy, yy float64
		var over []int
		for i, k := range s.Triangles {
			u, v := stepsOnSurface(m, s, k, grain)
			a, b := math.Hypot(u[0], u[1]), math.Hypot(v[0], v[1])
			sheared := math.Asin((u[0]*v[0] + u[1]*v[1]) / (a * b))
			if math.Abs(float64(k.Warp)-(a-1)) > 1e-9 || math.Abs(float64(k.Weft)-(b-1)) > 1e-9 || math.Abs(float64(k.Shear)-sheared) > 1e-9 {
				t.Fatalf("triangle %d: %+v, want %v, %v and %v", i, k, a-1, b-1, sheared)
			}
			warp, weft, shear = math.Max(warp, a-1), math.Max(weft, b-1), math.Max(shear, math.Abs(sheared))
			gather = math.Max(gather, math.Max(1-a, 1-b))
			if a-1 > l.Warp || b-1 > l.Weft || math.Abs(sheared) > float64(l.Shear) {
				over = append(over, i)
			}
			p, q, r := m.Points[s.From[k.Corners[0]]], m.Points[s.From[k.Corners[1]]], m.Points[s.From[k.Corners[2]]]
			c, d, e := apart(p, q), apart(q, r), apart(r, p)
			area := math.Sqrt((c+d+e)*(c+d-e)*(c-d+e)*(d+e-c)) / 4
			surface += area
			o, g, h := s.Points[k.Corners[0]], s.Points[k.Corners[1]], s.Points[k.Corners[2]]
			flat += float64((g.X-o.X)*(h.Y-o.Y)-(g.Y-o.Y)*(h.X-o.X)) / 2
			mx, my := float64(o.X+g.X+h.X)/3, float64(o.Y+g.Y+h.Y)/3
			x, y = x+area*mx, y+area*my
			xx, xy, yy = xx+area*mx*mx, xy+area*mx*my, yy+area*my*my
		}
		for what, k := range map[string][2]float64{
			"warp": {s.Warp, warp}, "weft": {s.Weft, weft}, "gather": {s.Gather, gather}, "shear": {float64(s.Shear), shear},
			"surface": {float64(s.Surface), surface}, "flat": {float64(s.Flat), flat},
			"middle, X": {x, 0}, "middle, Y": {y, 0}, "askew": {xy, 0},
		} {
			if math.Abs(k[0]-k[1]) > 1e-9 {
				t.Errorf("seed %d, %s: %v, want %v", seed, what, k[0], k[1])
			}
		}
		if xx < yy || !slices.Equal(s.Over, over) {
			t.Errorf("seed %d: %v along X and %v along Y; over %v, want %v", seed, xx, yy, s.Over, over)
		}
		if grain < 0 || grain >= math.Pi {
			t.Errorf("seed %d: grain %v", seed, grain)
		}
		// The words say the same.
		advice := strings.Join(s.Advice, "\n")
		if len(over) > 0 != strings.Contains(advice, fmt.Sprintf("%d of %d triangles are strained beyond the limits of 0.4 %% along the warp, 0.8 %% along the weft and 0.6 degrees of shear, up to %.2g %%, %.2g %% and %.2g degrees",
			len(over), len(s.Triangles), 100*warp, 100*weft, shear*180/math.Pi)) {
			t.Errorf("seed %d: %d over, %s", seed, len(over), advice)
		}
		if !strings.Contains(advice, fmt.Sprintf("the angle defect is %.2g degrees at point %d, and %.3g in all", s.Defect.Degrees(), s.At, s.Total.Degrees())) {
			t.Errorf("seed %d: %s", seed, advice)
		}
	}
}

// Edges, measured on the surface and on the panel: how much longer they are, what
// of that is eased in and what darts take; and what is said of it.
func TestEdgesSayHowFullTheyAre(t *testing.T) {
	words := map[string]int{}
	for seed := range uint64(12) {
		m := bump(5, seed)
		rim := m.Lines[0].Points
		m.Lines[0] = canvas.Line{Name: "one", Points: rim[:9]}
		m.Lines = append(m.Lines, canvas.Line{Name: "two", Points: rim[12:20]})
		l := canvas.Limits{Ease: 0.0004 + 0.02*float64(seed%2)}
		f, err := m.Flatten(l)
		if err != nil {
			t.Fatal(err)
		}
		s := f.Sheets[0]
		at := make([]canvas.Point, len(s.From))
		for p, q := range s.From {
			at[q] = s.Points[p]
		}
		parts := map[string][]int{"one": rim[:9], "two": rim[12:20], "edge 1": rim[8:13], "edge 2": rim[19:]}
		if len(s.Edges) != 4 || len(f.Cover.Panels[0].Edges) != 4 {
			t.Fatalf("%+v", s.Edges)
		}
		for i, e := range s.Edges {
			points := parts[e.Edge]
			if e.Edge == "edge 2" && math.Abs(float64(f.Cover.Panels[0].Edges[i].From.X-at[points[0]].X)) > 1e-12 {
				points = parts["edge 1"] // whichever comes first
			} else if e.Edge == "edge 1" && math.Abs(float64(f.Cover.Panels[0].Edges[i].From.X-at[points[0]].X)) > 1e-12 {
				points = parts["edge 2"]
			}
			surface, flat := 0.0, 0.0
			for k := 1; k < len(points); k++ {
				p, q := points[k-1], points[k]
				surface += apart(m.Points[p], m.Points[q])
				flat += math.Hypot(float64(at[p].X-at[q].X), float64(at[p].Y-at[q].Y))
			}
			dart := math.Max(0, flat-surface*(1+l.Ease))
			if math.Abs(float64(e.Surface)-surface) > 1e-12 || math.Abs(float64(e.Flat)-flat) > 1e-12 || math.Abs(e.Fullness-(flat/surface-1)) > 1e-12 || math.Abs(float64(e.Dart)-dart) > 1e-12 {
				t.Errorf("seed %d: %+v, want %v, %v, dart %v", seed, e, surface, flat, dart)
			}
			want := ""
			switch more := flat - surface; {
			case dart > 0:
				want = fmt.Sprintf("%s: ease in %.1f mm and take out %.1f mm in darts.", e.Edge, 1000*(more-dart), 1000*dart)
			case more >= 0.5e-3:
				want = fmt.Sprintf("%s: ease in %.1f mm.", e.Edge, 1000*more)
			case more <= -0.5e-3:
				want = fmt.Sprintf("%s: stretch by %.1f mm.", e.Edge, -1000*more)
			}
			own := slices.DeleteFunc(slices.Clone(s.Advice), func(a string) bool { return !strings.HasPrefix(a, e.Edge+":") })
			if want == "" && len(own) > 0 || want != "" && !slices.Equal(own, []string{want}) {
				t.Errorf("seed %d: %q, want %q", seed, own, want)
			}
			words[strings.Join(strings.Fields(want + " none of it")[2:3], "")]++
		}
	}
	if len(words) < 2 {
		t.Error(words)
	}
}

// A cut that leads to the outline is the shortest: by all ways round (Floyd and
// Warshall). It begins at the point that lacks the largest angle, worked out from
// the sides of the triangles.
func TestSuggestIsTheShortestWay(t *testing.T) {
	for seed := range uint64(10) {
		m := bump(4, seed)
		n := len(m.Points)
		way := make([][]float64, n)
		for i := range way {
			way[i] = make([]float64, n)
			for j := range way[i] {
				if i != j {
					way[i][j] = math.Inf(1)
				}
			}
		}
		lacks := make([]float64, n)
		for i := range lacks {
			lacks[i] = 2 * math.Pi
		}
		for _, x := range m.Triangles {
			for k := range 3 {
				p, q, r := x[k], x[(k+1)%3], x[(k+2)%3]
				a, b, c := apart(m.Points[p], m.Points[q]), apart(m.Points[p], m.Points[r]), apart(m.Points[q], m.Points[r])
				way[p][q], way[q][p] = a, a
				lacks[p] -= math.Acos((a*a + b*b - c*c) / (2 * a * b))
			}
		}
		for k := range n {
			for i := range n {
				for j := range n {
					way[i][j] = math.Min(way[i][j], way[i][k]+way[k][j])
				}
			}
		}
		rim := m.Lines[0].Points
		worst, total := -1, 0.0
		for p := range n {
			if slices.Contains(rim, p) {
				continue
			}
			total += lacks[p]
			if worst < 0 || math.Abs(lacks[p]) > math.Abs(lacks[worst])+1e-9 { // of points that are alike the first
				worst = p
			}
		}
		s := mustFlatten(t, m).Sheets[0]
		if s.At != worst || math.Abs(float64(s.Defect)-lacks[worst]) > 1e-9 || math.Abs(float64(s.Total)-total) > 1e-9 {
			t.Errorf("seed %d: %v at %d, %v in all, want %v at %d and %v", seed, s.Defect, s.At, s.Total, lacks[worst], worst, total)
		}
		least := math.Inf(1)
		for _, p := range rim {
			least = math.Min(least, way[worst][p])
		}
		row, err := m.Suggest()
		if err != nil {
			t.Fatal(err)
		}
		long := 0.0
		for k := 1; k < len(row); k++ {
			long += apart(m.Points[row[k-1]], m.Points[row[k]])
		}
		begins := row[len(row)-1] == worst && slices.Contains(rim, row[0]) || row[0] == worst && slices.Contains(rim, row[len(row)-1])
		if !begins || math.Abs(long-least) > 1e-9 {
			t.Errorf("seed %d: %v, %v long, want %v from %d", seed, row, long, least, worst)
		}
	}
}

// Grids are divided along the shorter diagonal, and their seams and outlines are
// named and numbered along them.
func TestGridWithASeam(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	m := grid(t, 5, 7, func(x, y float64) canvas.Space {
		return space(x+0.03*r.NormFloat64(), y+0.03*r.NormFloat64(), 0.2*x*y)
	})
	for k := 0; k < len(m.Triangles); k += 2 {
		a, b := m.Triangles[k], m.Triangles[k+1]
		var both, one []int
		for _, p := range a {
			if slices.Contains(b[:], p) {
				both = append(both, p)
			} else {
				one = append(one, p)
			}
		}
		for _, p := range b {
			if !slices.Contains(a[:], p) {
				one = append(one, p)
			}
		}
		if len(both) != 2 || apart(m.Points[both[0]], m.Points[both[1]]) > apart(m.Points[one[0]], m.Points[one[1]]) {
			t.Errorf("triangles %v and %v: %v is the longer diagonal", a, b, both)
		}
	}
	m.Name = "hood"
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}
	m.Lines = append(m.Lines, canvas.Line{Name: "ridge", Points: []int{3, 10, 17, 24, 31}, Finish: seam})
	m.Lines[0].Finish = canvas.Finish{Kind: canvas.SingleHem, Width: 20 * mm}
	f := mustFlatten(t, m)
	var names []string
	edges := map[string]map[string]canvas.Edge{}
	for _, p := range f.Cover.Panels {
		edges[p.Name] = map[string]canvas.Edge{}
		for _, e := range p.Edges {
			names = append(names, p.Name+": "+e.Name)
			edges[p.Name][e.Name] = e
		}
	}
	slices.Sort(names)
	want := []string{ // walking up the ridge the first column is to the left
		"hood 1: first column", "hood 1: first row 1", "hood 1: last row 1", "hood 1: ridge left",
		"hood 2: first row 2", "hood 2: last column", "hood 2: last row 2", "hood 2: ridge right",
	}
	if !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	if edges["hood 1"]["ridge left"].Finish != seam || edges["hood 2"]["first row 2"].Finish != m.Lines[0].Finish || edges["hood 2"]["last column"].Finish != (canvas.Finish{}) {
		t.Errorf("%+v", edges)
	}
	// One seam, whose sides are as long as the edges say, the right one sewn backward.
	s := f.Cover.Seams[0]
	left, _ := f.Cover.Panels[0].Length("ridge left")
	right, _ := f.Cover.Panels[1].Length("ridge right")
	if len(f.Cover.Seams) != 1 || s.Name != "ridge" || s.A.Panel != "hood 1" || s.B.Panel != "hood 2" || s.A.Backward || !s.B.Backward ||
		math.Abs(s.Fullness-(right.Per(left)-1)) > 1e-12 {
		t.Errorf("%+v of %v and %v", f.Cover.Seams, left, right)
	}
	// Warp threads run where they were asked to, in the panel that has both points,
	// whichever of the two is first.
	for _, w := range [][2]int{{0, 8}, {8, 0}, {14, 2}} {
		m.Warp = w
		f := mustFlatten(t, m)
		x := f.Sheets[0]
		a, b := x.Points[slices.Index(x.From, w[0])], x.Points[slices.Index(x.From, w[1])]
		grain := float64(f.Cover.Panels[0].Grain)
		if off := float64(b.X-a.X)*math.Sin(grain) - float64(b.Y-a.Y)*math.Cos(grain); math.Abs(off) > 1e-12 {
			t.Errorf("%v: grain %v", w, grain)
		}
	}
	m.Name, m.Warp = "", [2]int{}
	if f := mustFlatten(t, m); f.Cover.Panels[1].Name != "sheet 2" {
		t.Errorf("%q", f.Cover.Panels[1].Name)
	}
	// A closed line is an edge in two halves, since a panel needs corners.
	disk := bump(3, 1)
	if e := mustFlatten(t, disk).Cover.Panels[0].Edges; len(e) != 2 || e[0].Name != "rim 1" || e[1].Name != "rim 2" {
		t.Errorf("%+v", e)
	}
	// Two lines that cross are divided where they do.
	m = grid(t, 5, 5, func(x, y float64) canvas.Space { return space(x, y, x*y/10) })
	m.Lines = append(m.Lines, canvas.Line{Name: "up", Points: []int{2, 7, 12, 17, 22}}, canvas.Line{Name: "over", Points: []int{10, 11, 12, 13, 14}})
	f = mustFlatten(t, m)
	names = nil
	for _, s := range f.Cover.Seams {
		names = append(names, s.Name)
	}
	if !slices.Equal(names, []string{"up 1", "up 2", "over 1", "over 2"}) || len(f.Sheets) != 4 {
		t.Errorf("%d sheets, seams %q", len(f.Sheets), names)
	}
}
