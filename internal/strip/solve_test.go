package strip

import (
	"context"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
)

// fingerprint is a number that changes with any coordinate of a layout.
func fingerprint(l Layout) uint64 {
	h := fnv.New64a()
	fmt.Fprintln(h, l.Length, l.Places)
	return h.Sum64()
}

// fingerprints are those of the layouts of TestSolvePlatforms, which must be the
// same on every platform. They change when the search does.
var fingerprints = map[string]uint64{
	"albano":   0x4cc84b29b847d066,
	"dagli":    0x31aa43e516cf456a,
	"few":      0xed323d6f35e5734e,
	"fu":       0x795226567d930f1c,
	"jakobs1":  0xdc9f5e2f9f18edc9,
	"shapes0":  0x4db9df98c0bc16a4,
	"shirts":   0xec66fe50aa9c8eae,
	"trousers": 0xb1dce68087eb84f1,
}

func TestSolvePlatforms(t *testing.T) {
	check := func(name string, p Problem) {
		t.Helper()
		got, err := Solve(t.Context(), p, Options{Seed: 3, Work: 800000, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		if f := fingerprint(got.Layout); f != fingerprints[name] {
			t.Errorf("%q: %#x, want %#x", name, f, fingerprints[name])
		}
	}
	for _, in := range published {
		check(in.name, read(t, in).problem)
	}
	check("few", few) // laid anew several times
}

// few are so few pieces that all are soon laid anew.
var few = scattered(4, 2)

// TestSolveAnew checks that a worker who gets no further lays all pieces anew
// and keeps the shortest layout.
func TestSolveAnew(t *testing.T) {
	s := newSolver(t.Context(), few, Options{Seed: 3, Work: 1 << 40})
	if err := s.start(); err != nil {
		t.Fatal(err)
	}
	w, starts, shortest := s.crew[0], 0, math.Inf(1)
	for w.work < 1500000 {
		was := w.baseAt
		w.run(0, 1000)
		if w.baseAt > was {
			starts++
		}
		shortest = min(shortest, w.baseAt)
	}
	if starts < 3 || starts > 30 {
		t.Errorf("laid anew %d times", starts)
	}
	// A layout may be found and left behind within 1,000 places.
	if w.bestAt > shortest {
		t.Errorf("shortest %v, but %v was found", w.bestAt, shortest)
	}
	if err := Certify(few, s.layout()); err != nil {
		t.Error(err)
	}
	if s.layout().Length != int64(w.bestAt) {
		t.Errorf("length %d, shortest %v", s.layout().Length, w.bestAt)
	}
}

// TestSolveShortens lays the published instances with little work.
func TestSolveShortens(t *testing.T) {
	for _, in := range published {
		in = read(t, in)
		var lengths []int64
		got, err := Solve(t.Context(), in.problem, Options{Seed: 1, Work: 250000, Workers: 1, Progress: func(l, _ int64) {
			lengths = append(lengths, l)
		}})
		if err != nil {
			t.Fatal(err)
		}
		if err := Certify(in.problem, got.Layout); err != nil {
			t.Errorf("%s: %v", in.name, err)
		}
		if len(lengths) < 3 || lengths[len(lengths)-1] != got.Layout.Length || !slices.IsSortedFunc(lengths, func(a, b int64) int { return int(b - a) }) {
			t.Errorf("%s: progress %v, then %d", in.name, lengths, got.Layout.Length)
		}
		if over := float64(got.Layout.Length)/in.scale/in.mean - 1; over > 0.25 {
			t.Errorf("%s: %.1f %% over the published mean", in.name, 100*over)
		}
	}
}

// TestSolveProcessors checks that the layout depends on the workers, not on the
// processors, and not on whether a progress is asked for.
func TestSolveProcessors(t *testing.T) {
	in := read(t, published[1])
	solve := func(o Options) uint64 {
		got, err := Solve(t.Context(), in.problem, o)
		if err != nil {
			t.Fatal(err)
		}
		return fingerprint(got.Layout)
	}
	two := solve(Options{Seed: 3, Work: 50000, Workers: 2, Progress: func(int64, int64) {}})
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if one := solve(Options{Seed: 3, Work: 50000, Workers: 2}); one != two {
		t.Error("the layout depends on the number of processors")
	}
	if other := solve(Options{Seed: 4, Work: 50000, Workers: 2}); other == two {
		t.Error("the layout does not depend on the seed")
	}
}

func TestSolveStops(t *testing.T) {
	in := read(t, published[5])
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	got, err := Solve(ctx, in.problem, Options{Work: 1 << 40})
	if err != nil {
		t.Fatal(err)
	}
	if err := Certify(in.problem, got.Layout); err != nil {
		t.Error(err)
	}
	asked := 0
	got, err = Solve(t.Context(), in.problem, Options{Spent: func() float64 {
		asked++
		return float64(asked) / 20
	}})
	if err != nil || asked < 20 || asked > 22 {
		t.Errorf("asked for the time %d times, error %v", asked, err)
	}
	if err := Certify(in.problem, got.Layout); err != nil {
		t.Error(err)
	}
}

// TestSolveRandom certifies layouts of random small problems, among them shapes
// that touch, fold and nest in every way of a small grid.
func TestSolveRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for k := range 300 {
		p := Problem{Width: 6 + r.Int64N(8)}
		for range 1 + r.IntN(4) {
			ring := randomRing(r)
			p.Shapes = append(p.Shapes, Shape{Turns: [][]int64{ring, quarterTurns(ring, 2)}, Count: 1 + r.IntN(3)})
		}
		got, err := Solve(t.Context(), p, Options{Seed: uint64(k), Work: 3000, Workers: 1})
		if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		if err := Certify(p, got.Layout); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		var area float64
		for _, s := range p.Shapes {
			area += ringArea(s.Turns[0]) * float64(s.Count)
		}
		if float64(got.Layout.Length)*float64(p.Width) < area {
			t.Fatalf("%+v: shorter than the area allows", p)
		}
	}
}

// TestSolveKnown lays sets whose shortest length is known.
func TestSolveKnown(t *testing.T) {
	scaled := func(k int64, ring []int64) [][]int64 {
		r := slices.Clone(ring)
		for i := range r {
			r[i] *= k
		}
		return [][]int64{r, quarterTurns(r, 1), quarterTurns(r, 2), quarterTurns(r, 3)}
	}
	for _, tt := range []struct {
		name string
		p    Problem
		want int64
	}{
		{"one square", Problem{Width: 10, Shapes: []Shape{{Turns: scaled(1, square), Count: 1}}}, 10},
		{"squares, no play", Problem{Width: 3000, Shapes: []Shape{{Turns: scaled(100, square), Count: 9}}}, 3000},
		{"square in a notch", Problem{Width: 3000, Shapes: []Shape{{Turns: scaled(100, notch), Count: 1}, {Turns: scaled(100, square), Count: 2}}}, 3000},
		{"two triangles make a square", Problem{Width: 1000, Shapes: []Shape{{Turns: scaled(100, []int64{0, 0, 10, 0, 0, 10}), Count: 2}}}, 1000},
		{"needles", Problem{Width: 4, Shapes: []Shape{{Turns: [][]int64{needle}, Count: 2}}}, 1 << 25},
	} {
		got, err := Solve(t.Context(), tt.p, Options{Seed: 1, Work: 300000, Workers: 1})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if got.Layout.Length != tt.want {
			t.Errorf("%s: length %d, want %d", tt.name, got.Layout.Length, tt.want)
		}
		if err := Certify(tt.p, got.Layout); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// TestSolveAwkward lays shapes with hardly any inside, or hardly any outside.
func TestSolveAwkward(t *testing.T) {
	for _, ring := range [][]int64{needle, star, spiral, notch} {
		p := Problem{Width: 400, Shapes: []Shape{{Turns: [][]int64{ring, quarterTurns(ring, 2)}, Count: 1}, {Turns: [][]int64{square}, Count: 3}}}
		got, err := Solve(t.Context(), p, Options{Work: 20000, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		if err := Certify(p, got.Layout); err != nil {
			t.Error(err)
		}
	}
}
