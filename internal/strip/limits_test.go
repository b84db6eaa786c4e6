package strip

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestSteps(t *testing.T) {
	for repeat := int64(1); repeat < 12; repeat++ {
		for phase := int64(-15); phase < 15; phase++ {
			for tolerance := int64(0); tolerance < 4; tolerance++ {
				e := Steps{repeat, phase, tolerance}
				is := func(v int64) bool { // by trying the steps
					for m := phase - 100*repeat; m <= 100*repeat+20; m += repeat {
						if m-tolerance <= v && v <= m+tolerance {
							return true
						}
					}
					return false
				}
				for v := int64(0); v < 30; v++ {
					if e.has(v) != is(v) {
						t.Fatalf("%+v has %d: %v", e, v, e.has(v))
					}
					for _, most := range []int64{v, v + 1, 40} {
						want := int64(-1)
						for by := int64(0); by < 60 && want < 0; by++ {
							switch {
							case v >= by && is(v-by):
								want = v - by
							case v+by <= most && is(v+by):
								want = v + by
							}
						}
						for x := int64(0); want < 0; x++ {
							if is(x) {
								want = x
							}
						}
						if got := e.moved(0).nearest(float64(v), float64(most)); got != float64(want) {
							t.Fatalf("%+v nearest to %d up to %d: %v, want %d", e, v, most, got, want)
						}
					}
					want := v
					for !is(want) {
						want++
					}
					if got := e.moved(0).from(float64(v)); got != float64(want) {
						t.Fatalf("%+v from %d: %v, want %d", e, v, got, want)
					}
				}
			}
		}
	}
}

// limited is a random small problem with flaws, grids and an end.
func limited(r *rand.Rand) Problem {
	p := Problem{Width: 8 + r.Int64N(8)}
	for range r.IntN(3) {
		ring := randomRing(r)
		x, y := r.Int64N(20), r.Int64N(p.Width-6)
		for i := range ring {
			ring[i] += []int64{x, y}[i%2]
		}
		p.Flaws = append(p.Flaws, ring)
	}
	for range 1 + r.IntN(3) {
		ring := randomRing(r)
		s := Shape{Turns: [][]int64{ring, quarterTurns(ring, 2)}, Count: 1 + r.IntN(3)}
		if r.IntN(2) == 0 {
			for range s.Turns {
				s.Grids = append(s.Grids, Grid{X: Steps{r.Int64N(7), r.Int64N(9), r.Int64N(2)}, Y: Steps{r.Int64N(3), r.Int64N(4), 0}})
			}
		}
		p.Shapes = append(p.Shapes, s)
	}
	if r.IntN(2) == 0 {
		p.End = 6 + r.Int64N(14)
	}
	return p
}

// TestSolveLimits lays random small problems with flaws, grids and an end, and
// checks the layouts slowly.
func TestSolveLimits(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	ended, flawed, gridded := 0, 0, 0
	for k := range 400 {
		p := limited(r)
		if err := p.Check(); err != nil {
			if !errors.Is(err, ErrFit) {
				t.Fatal(err)
			}
			continue
		}
		got, err := Solve(t.Context(), p, Options{Seed: uint64(k), Work: 3000, Workers: 1})
		l := got.Layout
		q := p
		if errors.Is(err, ErrEnd) {
			ended++
			if l.Length <= p.End || Certify(p, l) == nil {
				t.Fatalf("%+v: %v for length %d", p, err, l.Length)
			}
			q.End = 0
		} else if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		if err := Certify(q, l); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		var laid [][]vec
		for _, at := range l.Places {
			ring, err := laidRing(q.Shapes[at.Shape].Turns[at.Turn], at)
			if err != nil {
				t.Fatal(err)
			}
			for _, flaw := range q.Flaws {
				f, _ := laidRing(flaw, Place{})
				flawed++
				if overlapSlowly(ring, f) {
					t.Fatalf("%+v: %+v on a flaw", q, at)
				}
			}
			for _, other := range laid {
				if overlapSlowly(ring, other) {
					t.Fatalf("%+v: %+v overlaps", q, at)
				}
			}
			laid = append(laid, ring)
			g := q.Shapes[at.Shape].grid(at.Turn)
			for _, a := range []struct {
				e Steps
				v int64
			}{{g.X, at.X}, {g.Y, at.Y}} {
				if a.e.Repeat == 0 {
					continue
				}
				gridded++
				ok := false
				for d := -a.e.Tolerance; d <= a.e.Tolerance; d++ {
					ok = ok || (a.v-a.e.Phase-d)%a.e.Repeat == 0
				}
				if !ok {
					t.Fatalf("%+v: %d not on %+v", q, a.v, a.e)
				}
			}
		}
	}
	if ended < 10 || flawed < 100 || gridded < 100 {
		t.Errorf("%d ended, %d flaws, %d grids: the cases are lopsided", ended, flawed, gridded)
	}
}

func TestSolveFlaw(t *testing.T) {
	hundred := []int64{0, 0, 100, 0, 100, 100, 0, 100}
	lay := func(p Problem) (Layout, error) {
		got, err := Solve(t.Context(), p, Options{Seed: 1, Work: 50000})
		return got.Layout, err
	}
	two := []Shape{{Turns: [][]int64{hundred}, Count: 2}}
	// A flaw across the strip from 100 to 130 leaves one square before it.
	across := Problem{Width: 100, Shapes: two, Flaws: [][]int64{{100, 0, 130, 0, 130, 100, 100, 100}}}
	if l, err := lay(across); err != nil || l.Length != 230 {
		t.Errorf("flaw across: %d, %v, want 230", l.Length, err)
	}
	across.End = 229
	if l, err := lay(across); !errors.Is(err, ErrEnd) || l.Length != 230 {
		t.Errorf("flaw across, end: %d, %v", l.Length, err)
	}
	across.End = 230
	if l, err := lay(across); err != nil || l.Length != 230 {
		t.Errorf("flaw across, end: %d, %v, want 230", l.Length, err)
	}
	// Stripes every 70, one to run 10 from the left side of each piece.
	striped := Problem{Width: 100, Shapes: []Shape{{
		Turns: [][]int64{hundred}, Count: 3, Grids: []Grid{{X: Steps{Repeat: 70, Phase: 60}}},
	}}}
	if l, err := lay(striped); err != nil || l.Length != 60+2*140+100 {
		t.Errorf("striped: %d, %v, want 440", l.Length, err)
	}
	for _, tt := range []struct {
		change func(*Problem)
		want   error
	}{
		{func(p *Problem) { p.Flaws = [][]int64{{0, 0, 10, 0}} }, ErrFlaw},
		{func(p *Problem) { p.Flaws = [][]int64{{0, 0, 10, 0, 10, 101}} }, ErrFlaw},
		{func(p *Problem) { p.Flaws = [][]int64{{0, 0, 10, 0, 10}} }, ErrFlaw},
		{func(p *Problem) { p.Flaws = [][]int64{{}} }, ErrFlaw},
		{func(p *Problem) { p.End = 99 }, ErrFit},
		{func(p *Problem) { p.End = -1 }, ErrSize},
		{func(p *Problem) { p.Shapes[0].Grids = make([]Grid, 2) }, ErrGrid},
		{func(p *Problem) { p.Shapes[0].Grids = []Grid{{X: Steps{Repeat: -1}}} }, ErrGrid},
		{func(p *Problem) { p.Shapes[0].Grids = []Grid{{Y: Steps{Repeat: 10, Phase: 3}}} }, ErrFit},
	} {
		p := Problem{Width: 100, Shapes: slices.Clone(two)}
		tt.change(&p)
		if _, err := lay(p); !errors.Is(err, tt.want) {
			t.Errorf("%+v: %v, want %v", p, err, tt.want)
		}
	}
}

func TestCertifyLimits(t *testing.T) {
	p := Problem{
		Width: 30, End: 40,
		Shapes: []Shape{{Turns: [][]int64{square}, Count: 1, Grids: []Grid{{X: Steps{7, 2, 1}, Y: Steps{5, 0, 0}}}}},
		Flaws:  [][]int64{{20, 20, 30, 20, 30, 30, 20, 30}},
	}
	for _, tt := range []struct {
		x, y, length int64
		text         string
	}{
		{3, 5, 13, ""},
		{1, 5, 13, ""},
		{9, 20, 40, ""},
		{10, 20, 40, ""},
		{4, 5, 20, "grid"},
		{3, 6, 20, "grid"},
		{16, 15, 40, "flaw"},
		{10, 20, 41, "beyond the end"},
	} {
		err := Certify(p, Layout{Length: tt.length, Places: []Place{{X: tt.x, Y: tt.y}}})
		if tt.text == "" && err != nil || tt.text != "" && (!errors.Is(err, ErrLayout) || !strings.Contains(err.Error(), tt.text)) {
			t.Errorf("%+v: %v", tt, err)
		}
	}
}

func TestSolveTarget(t *testing.T) {
	in := read(t, published[5])
	first, err := Solve(t.Context(), in.problem, Options{Seed: 1, Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	target := first.Layout.Length * 95 / 100
	got, err := Solve(t.Context(), in.problem, Options{Seed: 1, Work: 1 << 40, Target: target})
	if err != nil || got.Layout.Length > target || got.Layout.Length < target*9/10 {
		t.Fatalf("length %d for target %d: %v", got.Layout.Length, target, err)
	}
	on, err := Solve(t.Context(), in.problem, Options{Seed: 1, Work: 1, Start: &got.Layout})
	if err != nil || on.Layout.Length != got.Layout.Length {
		t.Errorf("started from %d: %d, %v", got.Layout.Length, on.Layout.Length, err)
	}
	got.Layout.Places[0].X = -1
	if _, err := Solve(t.Context(), in.problem, Options{Seed: 1, Work: 1, Start: &got.Layout}); !errors.Is(err, ErrLayout) {
		t.Errorf("bad start: %v", err)
	}
}
