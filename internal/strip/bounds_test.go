package strip

import (
	"errors"
	"math/rand/v2"
	"testing"
)

func rectangle(x0, y0, x1, y1 int64) []int64 { return []int64{x0, y0, x1, y0, x1, y1, x0, y1} }

// TestFlawsNear leaves out the flaws that no piece can come to: two pieces of 10
// reach 20 beyond the flaws before.
func TestFlawsNear(t *testing.T) {
	two := []Shape{{Turns: [][]int64{rectangle(5, 5, 12, 15), rectangle(0, 0, 10, 7)}, Count: 2}}
	flaw := func(x int64) []int64 { return rectangle(x, 3, x+4, 5) }
	for _, tt := range []struct {
		flaws []int64
		want  int
		start int64
	}{
		{flaws: nil, want: 0},
		{flaws: []int64{19}, want: 1},
		{flaws: []int64{20}, want: 0},
		{flaws: []int64{20}, want: 1, start: 21},
		{flaws: []int64{0, 24}, want: 1},
		{flaws: []int64{23, 0}, want: 2},
		{flaws: []int64{46, 23, 0}, want: 3},
		{flaws: []int64{47, 23, 0, 1 << 20}, want: 2},
	} {
		p := Problem{Width: 10, Shapes: two}
		for _, x := range tt.flaws {
			p.Flaws = append(p.Flaws, flaw(x))
		}
		var start *Layout
		if tt.start > 0 {
			start = &Layout{Length: tt.start}
		}
		got := p.withFlawsNear(start)
		if len(got.Flaws) != tt.want || len(p.Flaws) != len(tt.flaws) {
			t.Errorf("%v: %d flaws left of %d, want %d", tt.flaws, len(got.Flaws), len(p.Flaws), tt.want)
		}
	}
	// On stripes 50 apart each takes 57 at most.
	striped := Problem{Width: 10, Shapes: []Shape{{
		Turns: [][]int64{rectangle(0, 0, 7, 7)}, Count: 2, Grids: []Grid{{X: Steps{Repeat: 50}}},
	}}}
	for x, want := range map[int64]int{113: 1, 114: 0} {
		striped.Flaws = [][]int64{flaw(x)}
		if got := striped.withFlawsNear(nil); len(got.Flaws) != want {
			t.Errorf("striped, flaw at %d: %d left, want %d", x, len(got.Flaws), want)
		}
	}
}

// TestFarFlaw lays four pieces of 10 mm on a roll with a flaw at 99 m, in
// hundredths of a millimetre.
func TestFarFlaw(t *testing.T) {
	p := Problem{
		Width: 150000, Flaws: [][]int64{rectangle(9900000, 0, 9910000, 10000)},
		Shapes: []Shape{{Turns: [][]int64{rectangle(0, 0, 1000, 1000)}, Count: 4}},
	}
	o := Options{Seed: 1, Work: 1000}
	s := newSolver(t.Context(), p, o)
	defer s.stop()
	if n := len(s.crew[0].bins.ids); n > 1000 {
		t.Errorf("%d bins", n)
	}
	got, err := Solve(t.Context(), p, o)
	if err != nil || got.Layout.Length != 1000 {
		t.Errorf("length %d, %v", got.Layout.Length, err)
	}
	// A layout that reaches the flaw is refused, and one to go on from that ends
	// behind it keeps clear of it.
	l := Layout{Length: 9911000, Places: []Place{{X: 9909999}, {}, {Y: 1000}, {Y: 2000}}}
	o.Start = &l
	if _, err := Solve(t.Context(), p, o); !errors.Is(err, ErrLayout) {
		t.Errorf("on the flaw: %v", err)
	}
	l.Places[0].X++
	got, err = Solve(t.Context(), p, o)
	if err != nil || Certify(p, got.Layout) != nil || got.Layout.Length == l.Length {
		t.Errorf("length %d, %v", got.Layout.Length, err)
	}
	s = newSolver(t.Context(), p, o)
	defer s.stop()
	if n := len(s.crew[0].bins.ids); n > mostBins+5*mostBinsForPiece {
		t.Errorf("%d bins", n)
	}
}

// TestBinsLimit checks that bins cover the strip, however many there would be.
func TestBinsLimit(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	size := func() float64 { return 1 + float64(r.Int64N(1<<r.IntN(27))) }
	for range 300 {
		n, width, height, length, strip := 1+r.IntN(1000), size(), size(), size(), size()
		if b := newBins(n, width, height, length, strip); len(b.ids) > mostBins+mostBinsForPiece*n ||
			float64(b.nx)/b.perX < length || float64(b.ny)/b.perY < strip*(1-1e-9) {
			t.Fatalf("%d pieces of %v by %v on %v by %v: %d by %d bins of %v by %v",
				n, width, height, length, strip, b.nx, b.ny, 1/b.perX, 1/b.perY)
		}
	}
}

func TestCrewOf(t *testing.T) {
	for _, tt := range []struct{ workers, pieces, bins, want int }{
		{0, 10, 20, 1},
		{2, 10, 20, 2},
		{256, 10, 20, 256},
		{256, 100, 20000, 256},
		{256, 1000, 30000, 50},
		{256, 5000, 300000, 2},
		{256, 10000, 600000, 1},
		{3, 5000, 300000, 2},
	} {
		if got := crewOf(tt.workers, tt.pieces, tt.bins); got != tt.want {
			t.Errorf("%+v: %d", tt, got)
		}
	}
}

func TestCheckCount(t *testing.T) {
	p := Problem{Width: 100, Shapes: []Shape{{Turns: [][]int64{square}, Count: maxCount}}}
	if err := p.Check(); err != nil {
		t.Error(err)
	}
	p.Flaws = [][]int64{rectangle(0, 0, 1, 1)}
	if err := p.Check(); !errors.Is(err, ErrCount) {
		t.Errorf("%d pieces and a flaw: %v", maxCount, err)
	}
}
