package canvas

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// The gradients of the three kinds of readings against differences.
func TestReadingsGradients(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		n := &network{points: make([][3]float64, 4), spatial: true}
		for i := range n.points {
			for k := range 3 {
				n.points[i][k] = r.NormFloat64()
			}
		}
		for _, o := range []observation{
			{ends: [4]int{2, 0, 0, 0}, kind: 'h'}, {ends: [4]int{1, 3, 0, 0}, kind: 'd'}, {ends: [4]int{0, 1, 2, 3}, kind: 'g'},
		} {
			_, g := n.at(&o)
			for i := range n.points {
				for k := range 3 {
					const h = 1e-6
					was := n.points[i][k]
					n.points[i][k] = was + h
					up, _ := n.at(&o)
					n.points[i][k] = was - h
					down, _ := n.at(&o)
					n.points[i][k] = was
					want := (up - down) / (2 * h)
					if got := g[[2]int{i, k}]; math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
						t.Fatalf("%c of %v: by coordinate %d of point %d %v, by differences %v", o.kind, n.points, k, i, got, want)
					}
				}
			}
		}
	}
}

// While a boat rolls no tilt on the way is worse than the worst.
func TestWorstOfARollingCanopy(t *testing.T) {
	for _, c := range []struct {
		roof        Roof
		pitch, heel float64
	}{{Monopitch, 3, 0}, {Monopitch, 3, 15}, {Monopitch, 12, 7}, {Duopitch, 5, 15}, {Duopitch, -13, 7}, {Duopitch, 20, 10}} {
		k := Canopy{Roof: c.roof, Pitch: units.Degree.Scale(c.pitch), Blockage: 0.6}
		worst, err := k.worst(units.Degree.Scale(c.heel))
		if err != nil {
			t.Fatal(err)
		}
		reached := false
		for i := range 401 {
			a := c.pitch + c.heel*(float64(i)/200-1)
			if c.roof == Monopitch {
				a = math.Abs(a)
			} else if math.Abs(a) < 5 {
				continue // nothing is published for roofs that flat
			}
			for _, blockage := range []float64{0, 0.6} {
				g, err := Canopy{Roof: c.roof, Pitch: units.Degree.Scale(a), Blockage: blockage}.Coefficients()
				if err != nil {
					t.Fatal(err)
				}
				if g.Down > worst.Down+1e-9 || g.Up < worst.Up-1e-9 || g.MiddleDown > worst.MiddleDown+1e-9 || g.MiddleUp < worst.MiddleUp-1e-9 {
					t.Fatalf("%+v: at %v degrees %+v, the worst should be %+v", c, a, g, worst)
				}
				reached = reached || math.Abs(g.Up-worst.Up) < 0.02
			}
		}
		if !reached {
			t.Errorf("%+v: uplift of %v at no tilt", c, worst.Up)
		}
	}
}

// The grain against the sum of the strains' squares, each over its limit, of every
// direction tried.
func TestGrainIsTheBestDirection(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		// Triangles apart from each other, each strained its own way.
		f := &flattener{}
		for k := range 6 {
			tri := flatTriangle{p: [3]int{3 * k, 3*k + 1, 3*k + 2}, z: [3]complex128{0, 1, 1i}, area: 0.5, grad: [3]complex128{-1 - 1i, 1, 1i}}
			f.tri = append(f.tri, tri)
			a, b := complex(1+0.05*r.NormFloat64(), 0), complex(0.1*r.NormFloat64(), 0.1*r.NormFloat64())
			for _, z := range tri.z {
				f.u = append(f.u, a*z+b*cmplx.Conj(z))
			}
		}
		l := Limits{Warp: 0.003 + 0.02*r.Float64(), Weft: 0.003 + 0.02*r.Float64(), Shear: units.Angle(0.01 + 0.05*r.Float64())}
		cost := func(g float64) float64 {
			sum := 0.0
			warp, weft := cmplx.Rect(1, g), cmplx.Rect(1, g+math.Pi/2)
			for i := range f.tri {
				p, q := f.tri[i].back(f.u)
				a, b := p*warp+q*cmplx.Conj(warp), p*weft+q*cmplx.Conj(weft) // where a step along each goes
				sum += f.tri[i].area * (math.Pow((inner(a, a)-1)/2/l.Warp, 2) + math.Pow((inner(b, b)-1)/2/l.Weft, 2) + math.Pow(inner(a, b)/float64(l.Shear), 2))
			}
			return sum
		}
		least := math.Inf(1)
		for k := range 720 {
			least = math.Min(least, cost(float64(k)*math.Pi/720))
		}
		if got := cost(f.grain(l)); got > least*(1+1e-9) {
			t.Fatalf("grain %v costs %v, another direction %v", f.grain(l), got, least)
		}
	}
}

// A slit leads from the hole across the finished edge to the cut line.
func TestSlitReachesTheCutLine(t *testing.T) {
	p := Panel{Name: "p", Edges: []Edge{
		{Name: "a", Finish: Finish{Kind: SingleHem, Width: 30 * milli}}, {Name: "b", From: Point{X: 1}}, {Name: "c", From: Point{1, 1}}, {Name: "d", From: Point{Y: 1}},
	}}
	p.Holes = []Hole{{Name: "h", At: Point{0.5, 0.4}, Width: 0.1, Margin: 0.03, Split: true, Edge: "a"}}
	out, err := Cover{Panels: []Panel{p}}.Pieces(Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	slit := out[0].Holes[0].Slit
	low := slices.MinFunc(out[0].Cut, func(a, b Point) int { return int(math.Copysign(1, float64(a.Y-b.Y))) })
	if len(slit) != 3 || math.Abs(float64(slit[0].Y-0.35)) > 1e-6 || math.Abs(float64(slit[1].Y)) > 1e-6 || math.Abs(float64(slit[2].Y-low.Y)) > 1e-6 || low.Y > -0.02 {
		t.Errorf("slit %v, the cut line begins at %v", slit, low)
	}
}

// A certificate holds pieces to the pattern: half a repeat off is found, and would
// not be without the pattern.
func TestCertificateHoldsTheMatch(t *testing.T) {
	l := Lay{
		Rolls:  []Roll{{Width: 500 * milli, Along: 350 * milli}},
		Pieces: []Cutting{{Cut: rectangle(500*milli, 500*milli), Quantity: 1, Lie: OneWay, Match: &Match{At: Point{X: 100 * milli}}}},
	}
	p, err := l.Plan(t.Context(), LayOptions{Seed: 1, Work: 20000})
	if err != nil {
		t.Fatal(err)
	}
	c := p.Certificate
	if err := c.Check(); err != nil {
		t.Fatal(err)
	}
	piece := &c.Sheets[0].Pieces[0]
	if piece.Along[0] != 35000 {
		t.Fatalf("repeat %d hundredths of a millimetre, want 35000", piece.Along[0])
	}
	piece.X -= 10000 // it began 250 mm along the roll, so that its mark is on a stripe
	if err := c.Check(); err == nil {
		t.Error("a piece 100 mm off its stripe passes")
	}
	piece.Along = [3]int64{}
	if err := c.Check(); err != nil {
		t.Errorf("without stripes: %v", err)
	}
}

// What a box cover hangs down over: its height and the tuck, all round.
func TestTuckLengthensTheWrap(t *testing.T) {
	b := RoundedBox{Name: "box", Base: DrawCord, Length: 1, Width: 0.6, Height: 0.5, Radius: 0.1, Seam: 12 * milli, Hem: 20 * milli, Gap: 8 * milli}
	area := func() float64 {
		v, err := b.Cover()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, p := range v.Panels {
			a, err := p.Area()
			if err != nil {
				t.Fatal(err)
			}
			sum += float64(a) * float64(max(1, p.Quantity))
		}
		return sum
	}
	plain := area()
	b.Tuck = 0.08
	round := 2*(1+0.6) - 8*0.1 + 2*math.Pi*0.1
	if got := area() - plain; math.Abs(got-0.08*round) > 1e-4 {
		t.Errorf("a tuck of 80 mm adds %v m2, want %v", got, 0.08*round)
	}
}

// The patch round a hose is at least 20 mm wide, and half a thick hose.
func TestHosePatch(t *testing.T) {
	for hose, want := range map[units.Length]units.Length{30 * milli: 20 * milli, 60 * milli: 30 * milli} {
		v, err := BottleCover{
			Name: "bottle", Diameter: 300 * milli, Height: 400 * milli, Rise: 150 * milli, Gores: 8, Ease: 10 * milli, Clearance: 40 * milli,
			Valve: 110 * milli, Hose: hose, HoseHeight: 300 * milli, Seam: 12 * milli, Hem: 20 * milli, Gap: 8 * milli,
		}.Cover()
		if err != nil {
			t.Fatal(err)
		}
		if got := v.Panels[0].Holes[0].Margin; math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("hose of %v: patch of %v, want %v", hose, got, want)
		}
	}
}

// A panel joined of two parts says so, with the width of the seam's run.
func TestSplitRemarksTheSeam(t *testing.T) {
	p := Panel{Name: "p", Edges: []Edge{{Name: "a"}, {Name: "b", From: Point{X: 2}}, {Name: "c", From: Point{2, 1}}, {Name: "d", From: Point{Y: 1}}}}
	v, err := Cover{Panels: []Panel{p}, Remarks: []string{"first"}}.Split("p", Point{X: 0.8}, Point{0.8, 1}, Finish{Kind: PlainSeam, Width: 15 * milli})
	if err != nil {
		t.Fatal(err)
	}
	if len(v.Remarks) != 2 || v.Remarks[0] != "first" || !strings.Contains(v.Remarks[1], "two parts by a seam of 1000 mm") {
		t.Errorf("%q", v.Remarks)
	}
}

func TestPanelsRefused(t *testing.T) {
	p := Panel{Name: "p", Quantity: 10001, Edges: []Edge{{Name: "a"}, {Name: "b", From: Point{X: 2}}, {Name: "c", From: Point{2, 1}}}}
	if _, err := p.Area(); err == nil || !strings.Contains(err.Error(), "Quantity") {
		t.Errorf("10001 panels: %v", err)
	}
	p.Quantity = 1
	p.Edges[0].Course = Course{Curve: Batten}
	if _, err := p.Area(); err == nil || !strings.Contains(err.Error(), "Offsets") {
		t.Errorf("a batten without offsets: %v", err)
	}
	p.Edges[0].Course = Course{}
	if _, err := p.Fasteners([]string{"a", "b", "c", "a"}, 0.02, 0.3); err == nil {
		t.Error("an edge named twice is accepted")
	}
}
