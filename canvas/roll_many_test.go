package canvas

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"example.com/forepeak/units"
)

// comparedSlowly compares all pieces of a plan in rational numbers: cut lines, to the
// nanometre, and what is
// certified.
func comparedSlowly(t *testing.T, l Lay, p LayPlan, certified bool) (pairs int) {
	t.Helper()
	for i, u := range p.Rolls {
		r := l.Rolls[u.Roll]
		var lines, rings [][][2]int64
		for k, q := range u.Laid {
			line := inNanometres(q.Cut)
			for _, v := range line {
				if v[0] < 0 || v[0] > int64(math.Round(nm(u.Used))) || v[1] < int64(math.Round(nm(r.Selvedge))) || v[1] > int64(math.Round(nm(r.Width-r.Selvedge))) {
					t.Fatalf("%s at %v is off the roll: %+v", q.Name, v, l)
				}
			}
			lines = append(lines, line)
			var ring [][2]int64
			c := p.Certificate.Sheets[i].Pieces[k]
			for m := 0; m < len(c.Outline); m += 2 {
				ring = append(ring, [2]int64{c.Outline[m] + c.X, c.Outline[m+1] + c.Y})
			}
			rings = append(rings, ring)
		}
		for a := range lines {
			for b := range a {
				for m, pair := range [][2][][2]int64{{lines[a], lines[b]}, {rings[a], rings[b]}} {
					if m == 1 && !certified || !boxesMeet(pair[0], pair[1]) {
						continue
					}
					pairs++
					if both, _ := relate(pair[0], pair[1]); both {
						t.Fatalf("%s and %s overlap: %v, %v\n%+v", u.Laid[b].Name, u.Laid[a].Name, pair[0], pair[1], l)
					}
				}
			}
		}
	}
	return pairs
}

// A flaw that the selvedge cuts in two was left out once.
func TestLayFlawInTwo(t *testing.T) {
	l := Lay{
		Rolls:  []Roll{{Width: 60 * milli, Selvedge: 5 * milli, Price: 1}},
		Pieces: []Cutting{{Cut: rectangle(20*milli, 15*milli), Quantity: 2}},
	}
	l.Rolls[0].Flaws = []Flaw{{Outline: []Point{at(0, 0), at(0.03, 0), at(0.03, 0.04), at(0.02, 0.04), at(0.02, 0.002), at(0.01, 0.002), at(0.01, 0.04), at(0, 0.04)}}}
	p, err := l.Plan(t.Context(), LayOptions{Work: 200})
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Check(l); err != nil || len(p.Certificate.Sheets[0].Flaws) != 1 {
		t.Fatalf("%v, %d flaws", err, len(p.Certificate.Sheets[0].Flaws))
	}
}

// TestLayMany lays 10,000 small sets of random outlines, half of them edge to edge in
// quarter turns, where cut lines must not overlap by anything at all, half turned by
// any angle with a gap.
func TestLayMany(t *testing.T) {
	layouts := 10_000
	if testing.Short() || raceDetector || runtime.GOARCH == "wasm" || runtime.GOARCH == "386" {
		layouts = 500 // all ten thousand once are enough of a check run
	}
	r := rand.New(rand.NewPCG(21, 3))
	compared, laid := 0, 0
	for n := range layouts {
		l := Lay{Rolls: []Roll{{Width: 60 * milli, Selvedge: units.Length(r.IntN(2)) * 5 * milli, Price: 1}}}
		for range 2 {
			c := Cutting{Name: string(rune('a' + len(l.Pieces))), Cut: randomSimple(r, 3+r.IntN(5), 40), Quantity: r.IntN(3), QuantityMirrored: r.IntN(2), Lie: Listed}
			c.Turns = []units.Angle{0, 90 * units.Degree}
			if n%2 == 1 {
				c.Turns = []units.Angle{units.Angle(6 * r.Float64()), units.Angle(6 * r.Float64())}
			}
			l.Pieces = append(l.Pieces, c)
		}
		if n%2 == 1 {
			l.Gap = units.Length(1+r.IntN(3)) * milli
			if r.IntN(3) == 0 {
				l.Rolls[0].Flaws = []Flaw{{Outline: randomSimple(r, 4, 50)}}
			}
		}
		p, err := l.Plan(t.Context(), LayOptions{Seed: uint64(n), Work: 30})
		if err != nil {
			if errors.Is(err, ErrCloth) { // longer than the roll is wide
				continue
			}
			t.Fatalf("%v: %+v", err, l)
		}
		if err := p.Check(l); err != nil {
			t.Fatalf("%v: %+v", err, l)
		}
		laid++
		compared += comparedSlowly(t, l, p, n%8 < 2)
	}
	t.Logf("%d layouts, %d pairs compared", laid, compared)
	if laid < layouts*9/10 || compared < laid/2 {
		t.Error("too few")
	}
}

// TestLayWorstShapes lays what makes geometry fail, each with itself, without a gap
// and with one: it is refused as no outline, or laid without an overlap.
func TestLayWorstShapes(t *testing.T) {
	ring := func(mm ...float64) (out []Point) {
		for k := 0; k < len(mm); k += 2 {
			out = append(out, at(mm[k]/1000, mm[k+1]/1000))
		}
		return out
	}
	var spiral, star, comb []Point
	for k := range 60 {
		s, c := math.Sincos(float64(k) / 5)
		d := 20 + float64(k)*1.5
		spiral = append(spiral, at(d*c/1000, d*s/1000))
	}
	for k := 59; k >= 0; k-- {
		s, c := math.Sincos(float64(k) / 5)
		d := 14 + float64(k)*1.5
		spiral = append(spiral, at(d*c/1000, d*s/1000))
	}
	for k := range 40 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 40)
		d := []float64{100, 12}[k%2]
		star = append(star, at(d*c/1000, d*s/1000))
	}
	comb = append(comb, at(0, 0), at(0.2, 0))
	for k := 19; k >= 0; k-- {
		x := float64(k) / 100
		comb = append(comb, at(x+0.008, 0.1), at(x+0.002, 0.1), at(x+0.001, 0.01))
	}
	var hole []Point // a square with a hole, cut open along a line: its outline touches itself
	hole = append(hole, ring(0, 0, 100, 0, 100, 100, 0, 100, 0, 50, 30, 50, 30, 70, 70, 70, 70, 30, 30, 30, 30, 50, 0, 50)...)
	for _, tt := range []struct {
		name  string
		cut   []Point
		legal bool
	}{
		{"square", ring(0, 0, 100, 0, 100, 100, 0, 100), true},
		{"points in line", ring(0, 0, 20, 0, 50, 0, 100, 0, 100, 50, 100, 100, 50, 100, 0, 100, 0, 1), true},
		{"points twice", ring(0, 0, 0, 0, 100, 0, 100, 0, 100, 0, 100, 100, 0, 100, 0, 0), true},
		{"points a nanometre apart", []Point{{}, {X: 1e-9}, {X: 0.1}, {0.1, 1e-9}, {0.1, 0.1}}, true},
		{"clockwise", ring(0, 0, 0, 100, 100, 100, 100, 0), true},
		{"needle", ring(0, 0, 300, 0.02, 0, 0.04), true},
		{"hair", ring(0, 0, 300, 0.001, 0, 0.002), true},
		{"needle askew", ring(0, 0, 200, 199.99, 200, 200), true},
		{"needle of ten nanometres", []Point{{}, {X: 0.3, Y: 5e-9}, {Y: 1e-8}}, false},
		{"spiral", spiral, true},
		{"star", star, true},
		{"comb", comb, true},
		{"ring with a slit", ring(0, 0, 100, 0, 100, 100, 0, 100, 0, 51, 30, 51, 30, 70, 70, 70, 70, 30, 30, 30, 30, 49, 0, 49), true},
		{"ring with a closed slit", hole, false},
		{"no area", ring(0, 0, 50, 0, 100, 0), false},
		{"there and back", ring(0, 0, 100, 0, 100, 100, 100, 0), false},
		{"one point", ring(5, 5, 5, 5, 5, 5), false},
		{"bow tie", ring(0, 0, 100, 100, 100, 0, 0, 100), false},
		{"touching itself at a corner", ring(0, 0, 50, 50, 100, 0, 100, 100, 50, 50, 0, 100), false},
		{"a spike out and back", ring(0, 0, 100, 0, 150, 0, 100, 0, 100, 100, 0, 100), false},
	} {
		for _, gap := range []units.Length{0, 2 * milli} {
			for _, lie := range []Lie{EitherWay, AnyWay} {
				if lie == AnyWay && (gap == 0 || len(tt.cut) > 50) {
					continue // a few are enough
				}
				l := Lay{Rolls: []Roll{{Width: 350 * milli, Price: 1}}, Gap: gap, Pieces: []Cutting{{Name: tt.name, Cut: tt.cut, Quantity: 2, QuantityMirrored: 1, Lie: lie}}}
				p, err := l.Plan(t.Context(), LayOptions{Work: 100})
				if !tt.legal {
					if !errors.Is(err, ErrOutline) {
						t.Errorf("%s: %v, want %v", tt.name, err, ErrOutline)
					}
					continue
				}
				if err == nil {
					err = p.Check(l)
				}
				if err != nil {
					t.Errorf("%s, gap %v, %q: %v", tt.name, gap, lie, err)
					continue
				}
				checkLaid(t, l, p)
				if gap > 0 {
					comparedSlowly(t, l, p, true)
				}
			}
		}
	}
}

// BenchmarkLay lays 10 to 1,000 panels, each another, and reports the time for a
// place tried, with all that is around the search: outlines, bounds and both checks.
func BenchmarkLay(b *testing.B) {
	for _, n := range []int{10, 30, 100, 300, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			r := rand.New(rand.NewPCG(uint64(n), 1))
			l := Lay{Rolls: []Roll{{Width: units.Length(0.05 * math.Sqrt(float64(n))), Price: 1}}, Gap: 2 * milli}
			for range n {
				l.Pieces = append(l.Pieces, Cutting{Cut: randomSimple(r, 4+r.IntN(4), 40)})
			}
			work := int64(0)
			for b.Loop() {
				p, err := l.Plan(b.Context(), LayOptions{Work: 200_000 + 2000*int64(n)})
				if err != nil {
					b.Fatal(err)
				}
				work += p.Work
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(work), "ns/place")
		})
	}
}
