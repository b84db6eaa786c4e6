package strip

import (
	"context"
	"errors"
	"math/rand/v2"
	"runtime"
	"testing"
)

// patient is done once it has been asked so many times.
type patient struct {
	context.Context
	left int
}

func (c *patient) Err() error {
	c.left--
	if c.left < 0 {
		return context.Canceled
	}
	return nil
}

func cancelled(t *testing.T) context.Context {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	return ctx
}

// TestSolveCancelled lays pieces when there is no time at all: each at once, in
// columns, on what is free of flaws.
func TestSolveCancelled(t *testing.T) {
	p := scattered(100, 1)
	got, err := Solve(cancelled(t), p, Options{Work: 1 << 40, Workers: 2})
	if err != nil || got.Work != 0 {
		t.Errorf("%d places tried, error %v", got.Work, err)
	}
	if err := Certify(p, got.Layout); err != nil {
		t.Error(err)
	}
	// One behind the other they would take 400,000.
	if got.Layout.Length > 60000 {
		t.Errorf("length %d", got.Layout.Length)
	}
	p.End = got.Layout.Length - 1
	if got, err := Solve(cancelled(t), p, Options{Work: 1 << 40}); !errors.Is(err, ErrEnd) || got.Layout.Length != p.End+1 {
		t.Errorf("length %d, end %d: %v", got.Layout.Length, p.End, err)
	}
	r := rand.New(rand.NewPCG(4, 4))
	for range 1000 {
		p := limited(r)
		if p.Check() != nil {
			continue
		}
		got, err := Solve(cancelled(t), p, Options{})
		if (err != nil) != (p.End > 0 && got.Layout.Length > p.End) || err != nil && !errors.Is(err, ErrEnd) {
			t.Fatalf("%+v: length %d, %v", p, got.Layout.Length, err)
		}
		if err != nil {
			p.End = 0
		}
		if err := Certify(p, got.Layout); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
	}
}

// TestPlaceStops ends ctx in the middle of a start: what is laid stays, the
// rest is piled up, and nothing more is tried.
func TestPlaceStops(t *testing.T) {
	p := scattered(60, 3)
	p.Flaws = [][]int64{{3000, 3000, 9000, 3000, 9000, 9000}}
	s := newSolver(t.Context(), p, Options{Work: 1 << 40})
	w := s.crew[0]
	w.place()
	whole, length := w.work, w.length
	for asked := 0; asked < 300; asked += 7 {
		w.work, w.stopped = 0, false
		w.ctx = &patient{t.Context(), asked}
		w.place()
		if most := int64(lookEvery * (asked + 1)); w.work > most {
			t.Fatalf("%d places after %d looks at the context", w.work, asked)
		}
		if !w.stopped || w.work >= whole || w.length < length/2 {
			t.Fatalf("%d places of %d, length %v of %v", w.work, whole, w.length, length)
		}
		if err := Certify(p, w.layoutOf(&w.state, w.length)); err != nil {
			t.Fatal(err)
		}
	}
}

// TestRunStops ends ctx in the middle of a sweep.
func TestRunStops(t *testing.T) {
	p := scattered(60, 3)
	s := newSolver(t.Context(), p, Options{Work: 1 << 40})
	if err := s.start(); err != nil {
		t.Fatal(err)
	}
	w := s.crew[0]
	for asked := range 50 {
		w.work, w.stopped = 0, false
		w.ctx = &patient{t.Context(), asked}
		w.run(0, 1<<40)
		// The places tried in vain after the last look are few.
		if most := int64(lookEvery*(asked+1) + 100); w.work > most {
			t.Fatalf("%d places after %d looks at the context", w.work, asked)
		}
		if err := Certify(p, s.layout()); err != nil {
			t.Fatal(err)
		}
	}
}

// TestLookAlways checks that ctx is looked at for each place where these take
// long.
func TestLookAlways(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	p := Problem{Width: 3000000}
	for range 3 {
		var ring []int64
		for _, v := range starry(r, manyEdges+1, 200000, 1000000) {
			ring = append(ring, int64(v))
		}
		p.Shapes = append(p.Shapes, Shape{Turns: [][]int64{ring}, Count: 1})
	}
	s := newSolver(t.Context(), p, Options{})
	w := s.crew[0]
	w.ctx = &patient{t.Context(), 10}
	w.place()
	// One look before each piece; the samples of the piece under way are counted.
	if w.work > 10+samplesStart+50 || !w.stopped {
		t.Errorf("%d places", w.work)
	}
}

// TestSpentStops checks that a budget by a clock that is used up ends the start.
func TestSpentStops(t *testing.T) {
	if runtime.GOARCH == "wasm" {
		t.Skip("nothing runs at the same time")
	}
	p := scattered(300, 1)
	whole, err := Solve(t.Context(), p, Options{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	got, err := Solve(t.Context(), p, Options{Spent: func() float64 { return 1 }})
	if err != nil || got.Work >= whole.Work/2 {
		t.Errorf("%d places of %d, error %v", got.Work, whole.Work, err)
	}
	if err := Certify(p, got.Layout); err != nil {
		t.Error(err)
	}
}

// TestCirclesStop checks that circles cut short are not kept.
func TestCirclesStop(t *testing.T) {
	p := scattered(3, 1)
	var known, cut Circles
	newForms(t.Context(), p, &known)
	for asked := range 60 {
		newForms(&patient{t.Context(), asked}, p, &cut)
	}
	if len(cut.of) == 0 {
		t.Error("none are kept")
	}
	for key, c := range cut.of {
		for m := range c {
			if len(c[m]) != len(known.of[key][m]) {
				t.Errorf("%d circles of %d", len(c[m]), len(known.of[key][m]))
			}
		}
	}
}

// TestTablesStop goes on from a layout when there is no time: no table is made
// for it.
func TestTablesStop(t *testing.T) {
	p := scattered(20, 1)
	whole, err := Solve(t.Context(), p, Options{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	o := Options{Work: 1 << 40, Start: &whole.Layout}
	s := newSolver(cancelled(t), p, o)
	if err := s.start(); err != nil {
		t.Fatal(err)
	}
	if len(s.crew[0].tables) == 0 {
		t.Fatal("tables do not pay")
	}
	for k := range s.crew[0].tables {
		if s.crew[0].tables[k].Load() != nil {
			t.Fatal("a table")
		}
	}
	if s.layout().Length != whole.Layout.Length {
		t.Errorf("length %d, want %d", s.layout().Length, whole.Layout.Length)
	}
}
