package strip

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestGather moves small squares, which lie loose, to where they end earliest.
func TestGather(t *testing.T) {
	box := func(w, h int64) [][]int64 { return [][]int64{{0, 0, w, 0, w, h, 0, h}} }
	p := Problem{Width: 1000, Shapes: []Shape{{Turns: box(2000, 800), Count: 1}, {Turns: box(200, 200), Count: 2}}}
	l := Layout{Length: 2100, Places: []Place{{Shape: 0, X: 100}, {Shape: 1, X: 1890, Y: 800}, {Shape: 1, X: 1300, Y: 800}}}
	got, err := Gather(t.Context(), p, Options{Start: &l, Work: 10000})
	if err != nil {
		t.Fatal(err)
	}
	want := Layout{Length: 2000, Places: []Place{{Shape: 0}, {Shape: 1, X: 200, Y: 800}, {Shape: 1, Y: 800}}}
	if d := cmp.Diff(want, got.Layout); d != "" {
		t.Error(d)
	}
	if got.Work < 200 || got.Work > 10000 {
		t.Errorf("%d places tried", got.Work)
	}
	// What is gathered stays, and no work moves nothing.
	if again, err := Gather(t.Context(), p, Options{Start: &got.Layout, Work: 10000}); err != nil || !cmp.Equal(again.Layout, got.Layout) {
		t.Errorf("%v, %v", again.Layout, err)
	}
	if none, err := Gather(t.Context(), p, Options{Start: &l}); err != nil || !cmp.Equal(none, Result{Layout: l}) {
		t.Errorf("%v, %v", none, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if none, err := Gather(ctx, p, Options{Start: &l, Work: 10000}); err != nil || !cmp.Equal(none.Layout, l) {
		t.Errorf("%v, %v", none, err)
	}
	l.Places[1].X = 1400
	if _, err := Gather(t.Context(), p, Options{Start: &l, Work: 10000}); !errors.Is(err, ErrLayout) {
		t.Errorf("pieces that overlap: %v", err)
	}
	if _, err := Gather(t.Context(), Problem{}, Options{Start: &l}); err == nil {
		t.Error("a strip without width")
	}
}

// TestGatherRandom gathers layouts of random shapes with flaws and grids.
func TestGatherRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	moved := 0
	for k := range 300 {
		p := Problem{Width: 9000 + r.Int64N(8000)}
		for range 2 + r.IntN(4) {
			ring := randomRing(r)
			for i := range ring {
				ring[i] *= 1000
			}
			sh := Shape{Turns: [][]int64{ring, quarterTurns(ring, 2)}, Count: 1 + r.IntN(3)}
			if r.IntN(3) == 0 {
				g := Grid{X: Steps{Repeat: 2000 + r.Int64N(9000), Phase: r.Int64N(5000)}}
				sh.Grids = []Grid{g, g}
			}
			p.Shapes = append(p.Shapes, sh)
		}
		if r.IntN(2) == 0 {
			p.Flaws = [][]int64{{5000, 0, 9000, 0, 9000, 4000, 5000, 4000}}
		}
		start, err := Solve(t.Context(), p, Options{Seed: uint64(k), Work: 1000})
		if err != nil {
			t.Fatal(err)
		}
		got, err := Gather(t.Context(), p, Options{Seed: uint64(k), Start: &start.Layout, Work: 3000})
		if err != nil {
			t.Fatal(err)
		}
		if err := Certify(p, got.Layout); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		// The search goes on from a layout with flaws where they are.
		s := newSolver(t.Context(), p, Options{Start: &got.Layout})
		if err := s.start(); err != nil {
			t.Fatal(err)
		}
		w := s.crew[0]
		w.copy(&w.base)
		w.fill()
		w.measure()
		for i := range p.Flaws {
			if f := boundsOf(clean(p.Flaws[i])); w.x[w.pieces+i] != float64(f.x0) || w.y[w.pieces+i] != float64(f.y0) {
				t.Fatalf("%+v: flaw at %v, %v", p, w.x[w.pieces+i], w.y[w.pieces+i])
			}
		}
		if l := w.total(); l != 0 {
			t.Fatalf("%+v: a loss of %v at the start", p, l)
		}
		ends := func(l Layout) (sum int64) {
			for _, at := range l.Places {
				sum += at.X + boundsOf(clean(p.Shapes[at.Shape].Turns[at.Turn])).x1
			}
			return sum
		}
		was, is := ends(start.Layout), ends(got.Layout)
		if is > was || got.Layout.Length > start.Layout.Length {
			t.Errorf("%+v: from %d, %d to %d, %d", p, was, start.Layout.Length, is, got.Layout.Length)
		}
		if is < was {
			moved++
		}
	}
	if moved < 50 {
		t.Errorf("%d of 300 layouts were gathered", moved)
	}
}
