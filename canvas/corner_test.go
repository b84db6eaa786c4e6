package canvas

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// fold turns a point of the cloth outside an edge in: over the fold at its own
// height first, if it is beyond it, then over the edge.
func fold(q, corner, along plane.Point, height float64) plane.Point {
	out := along.Right()
	h := q.Sub(corner).Dot(out)
	if h > height {
		q = q.Sub(out.Times(2 * (h - height)))
		h = q.Sub(corner).Dot(out)
	}
	return q.Sub(out.Times(2 * h))
}

// offLine is how far a point is from a line.
func offLine(q, on, along plane.Point) float64 { return math.Abs(q.Sub(on).Cross(along.Unit())) }

// Cuts of outward corners, by what each is for: hems that are mitred meet, folded, on the
// line to where their inner edges cross; a folded hem ends on its neighbour's cut line;
// crossed lines run on to where they are as far outside as they should be, if
// that is not too far; squared ones end square to their edges.
func TestCornersByWhatTheyAreFor(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	seen := map[string]int{}
	for range 4000 {
		p := plane.Point{X: r.NormFloat64(), Y: r.NormFloat64()}
		a1, turn := 6*r.Float64(), 0.25+2.6*r.Float64()
		d1, d2 := polar(1, a1), polar(1, a1+turn)
		before, after := []plane.Point{p.Sub(d1.Times(2)), p}, []plane.Point{p, p.Add(d2.Times(3))}
		var f [2]Finish
		for k := range f {
			w := units.Length(0.01 + 0.05*r.Float64())
			f[k] = Finish{Kind: []FinishKind{SingleHem, DoubleHem, PlainSeam, Sleeve}[r.IntN(4)], Width: w, Turn: w.Scale(0.2 + 0.7*r.Float64()), Rope: 0.008}
			f[k].Strip = f[k].turned() && r.IntN(5) == 0
		}
		m, n := f[0].margin(1e-3), f[1].margin(1e-3)
		cut := []CornerCut{AutoCorner, AutoCorner, Crossed, Squared, Mitred, Folded}[r.IntN(6)]
		out := corner(before, after, m, n, cut)
		e1, e2 := p.Add(d1.Right().Times(m.depth)), p.Add(d2.Right().Times(n.depth))
		hem := [2]bool{f[0].turned() && !f[0].Strip && f[0].Kind != Sleeve, f[1].turned() && !f[1].Strip && f[1].Kind != Sleeve}
		if cut == AutoCorner {
			switch sleeve := f[0].Kind == Sleeve && !f[0].Strip || f[1].Kind == Sleeve && !f[1].Strip; {
			case sleeve:
				cut = Squared
			case hem[0] && hem[1]:
				cut = Mitred
			case hem[0] || hem[1]:
				cut = Folded
			default:
				cut = Crossed
			}
		}
		sin := math.Sin(turn)
		if cut == Mitred && sin <= 0.1 || cut == Folded && (hem[0] == hem[1] || sin <= 0.2) {
			cut = Crossed // too sharp or too flat for it, or no hem
		}
		fail := func(what string) {
			t.Helper()
			t.Fatalf("%s, %v after a turn of %v, %+v and %+v: %v, edges at %v and %v", cut, what, turn, f[0], f[1], out, e1, e2)
		}
		near := func(a, b plane.Point) bool { return a.Sub(b).Norm() < 1e-12 }
		switch cut {
		case Squared:
			if len(out) != 3 || !near(out[0], e1) || !near(out[1], p) || !near(out[2], e2) {
				fail("not square")
			}
		case Mitred:
			height := [2]float64{m.depth, n.depth}
			for k := range f {
				if f[k].Kind == DoubleHem && !f[k].Strip {
					height[k] = float64(f[k].Width)
				}
			}
			// Inside both edges by the heights, x . right = -height.
			n1, n2 := d1.Right(), d2.Right()
			det := n1.X*n2.Y - n1.Y*n2.X
			q := p.Add(plane.Point{X: (-height[0]*n2.Y + height[1]*n1.Y) / det, Y: (-height[1]*n1.X + height[0]*n2.X) / det})
			middle := -1
			for k, v := range out {
				if near(v, p) {
					middle = k
				}
			}
			if middle < 0 || !(offLine(out[0], e1, d1) < 1e-12) || !(offLine(out[len(out)-1], e2, d2) < 1e-12) {
				fail("it does not run from one cut line over the corner to the other")
			}
			for k, v := range out {
				in := v
				switch {
				case k < middle:
					in = fold(v, p, d1, height[0])
				case k > middle:
					in = fold(v, p, d2, height[1])
				}
				if offLine(in, p, q.Sub(p)) > 1e-10 {
					fail("hems do not meet on the mitre")
				}
			}
		case Folded:
			// The hem's end, turned in, on the other's cut line.
			along, own, on, way, cutTo, far := d1, m, e2, d2, e1, out[0]
			if hem[1] {
				along, own, on, way, cutTo, far = d2, n, e1, d1, e2, out[len(out)-1]
			}
			if offLine(far, cutTo, along) > 1e-12 {
				fail("it does not reach the hem's cut line")
			}
			for _, v := range out {
				if offLine(fold(v, p, along, own.fold), on, way) > 1e-10 {
					fail("the hem does not end on its neighbour's cut line")
				}
			}
			if again := own.depth > own.fold; len(out) != 2 && !again || len(out) != 3 && again {
				fail("a point for the fold, its end, and another where it is folded again")
			}
		case Crossed:
			big := math.Max(m.depth, n.depth)
			if len(out) == 1 {
				if offLine(out[0], e1, d1) > 1e-12 || offLine(out[0], e2, d2) > 1e-12 || out[0].Sub(p).Norm() > 2.5*big+1e-12 {
					fail("not where the lines cross")
				}
				break
			}
			// Blunted: each runs on as far as the wider allowance.
			if len(out) != 2 || !near(out[0], e1.Add(d1.Times(big))) || !near(out[1], e2.Sub(d2.Times(big))) {
				fail("not blunted")
			}
			n1, n2 := d1.Right(), d2.Right()
			det := n1.X*n2.Y - n1.Y*n2.X
			x := plane.Point{X: (m.depth*n2.Y - n.depth*n1.Y) / det, Y: (n.depth*n1.X - m.depth*n2.X) / det}
			if x.Norm() < 2.5*big-1e-12 {
				fail("blunted though not sharp")
			}
			cut = "blunted"
		}
		seen[string(cut)]++
	}
	for _, k := range []string{"crossed", "blunted", "squared", "mitred", "folded"} {
		if seen[k] < 50 {
			t.Errorf("%s only %d times", k, seen[k])
		}
	}
}

// Hollow corners, edges that run on, and edges that turn back.
func TestCornersThatAreNone(t *testing.T) {
	seam := func(w units.Length) margin { return Finish{Kind: PlainSeam, Width: w}.margin(0) }
	pt := func(x, y float64) plane.Point { return plane.Point{X: x, Y: y} }
	for name, c := range map[string]struct {
		a, b []plane.Point
		m, n margin
		cut  CornerCut
		want []plane.Point
	}{
		// From the left along X, then to the right, down: the cut lines run 10 and 20 mm to the right of both.
		"hollow":                    {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, -1)}, seam(0.01), seam(0.02), AutoCorner, []plane.Point{pt(-0.02, -0.01)}},
		"hollow, whatever is asked": {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, -1)}, seam(0.01), seam(0.02), Squared, []plane.Point{pt(-0.02, -0.01)}},
		"hollow, first edge short":  {[]plane.Point{pt(-0.019, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, -1)}, seam(0.01), seam(0.02), AutoCorner, []plane.Point{pt(0, -0.01), pt(0, 0), pt(-0.02, 0)}},
		"hollow, just long enough":  {[]plane.Point{pt(-0.021, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, -0.011)}, seam(0.01), seam(0.02), AutoCorner, []plane.Point{pt(-0.02, -0.01)}},
		"hollow, second edge short": {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, -0.009)}, seam(0.01), seam(0.02), AutoCorner, []plane.Point{pt(0, -0.01), pt(0, 0), pt(-0.02, 0)}},
		"run on":                    {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(1, 0)}, seam(0.01), seam(0.01), Squared, []plane.Point{pt(0, -0.01)}},
		"a step":                    {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(1, 0)}, seam(0.01), seam(0.03), AutoCorner, []plane.Point{pt(0, -0.01), pt(0, -0.03)}},
		"back":                      {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(-1, 0)}, seam(0.01), seam(0.03), AutoCorner, []plane.Point{pt(0, -0.01), pt(0, 0), pt(0, 0.03)}},
		// A zip's cloth ends short of the line: nothing outward to shape.
		"inside": {[]plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), pt(0, 1)}, margin{depth: -0.01}, seam(0.02), Squared, []plane.Point{pt(0.02, 0.01)}},
	} {
		got := corner(c.a, c.b, c.m, c.n, c.cut)
		ok := len(got) == len(c.want)
		for k := range got {
			ok = ok && got[k].Sub(c.want[k]).Norm() < 1e-12
		}
		if !ok {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	// A slight bend is a corner between like allowances and a step between unlike ones.
	for _, turn := range []float64{0.1, -0.1, 0.19, 0.21, -0.21} {
		d := polar(1, turn)
		a, b := []plane.Point{pt(-1, 0), pt(0, 0)}, []plane.Point{pt(0, 0), d}
		if got := corner(a, b, seam(0.01), seam(0.01), AutoCorner); len(got) != 1 || math.Abs(got[0].Norm()-0.01/math.Cos(turn/2)) > 1e-12 {
			t.Errorf("a bend of %v: %v", turn, got)
		}
		got := corner(a, b, seam(0.01), seam(0.02), AutoCorner)
		step := len(got) == 2 && got[0].Sub(pt(0, -0.01)).Norm() < 1e-12 && got[1].Sub(d.Right().Times(0.02)).Norm() < 1e-12
		if step != (math.Abs(math.Sin(turn)) < 0.2) {
			t.Errorf("a bend of %v between unlike allowances: %v", turn, got)
		}
	}
}

// A curve moved outwards by so much: of a circle a circle. Where it turns back
// sharply its cut line goes square out and in again.
func TestBesideACurve(t *testing.T) {
	var line []plane.Point
	for k := range 101 {
		line = append(line, polar(2, float64(k)/100))
	}
	for _, by := range []float64{0.1, -0.3} {
		out := beside(line, by)
		if len(out) != 99 {
			t.Fatalf("%d points", len(out))
		}
		for k, q := range out {
			// Lines beside chords meet on the ray through the point, by/cos of half the turn farther out.
			if want := line[k+1].Times(1 + by/2/math.Cos(0.005)); q.Sub(want).Norm() > 1e-12 {
				t.Errorf("%v, want %v", q, want)
			}
		}
	}
	for _, c := range []struct {
		turn   float64 // degrees, to the left
		points int
	}{{133, 1}, {135, 3}, {-133, 1}, {-135, 3}} {
		sin, cos := math.Sincos(c.turn * math.Pi / 180)
		p, q := plane.Point{X: 1}, plane.Point{X: 1 + cos, Y: sin}
		out := beside([]plane.Point{{}, p, q}, 0.1)
		if len(out) != c.points {
			t.Errorf("a turn of %v degrees: %v", c.turn, out)
		}
		if c.points == 3 && (out[0].Sub(plane.Point{X: 1, Y: -0.1}).Norm() > 1e-12 || out[1] != p || out[2].Sub(p.Add(plane.Point{X: sin, Y: -cos}.Times(0.1))).Norm() > 1e-12) {
			t.Errorf("a turn of %v degrees: %v", c.turn, out)
		}
	}
}
