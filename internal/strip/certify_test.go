package strip

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	square = []int64{0, 0, 10, 0, 10, 10, 0, 10}
	notch  = []int64{0, 0, 30, 0, 30, 30, 20, 30, 20, 10, 10, 10, 10, 30, 0, 30} // U, a notch of 10 by 20
	star   = []int64{0, -100, 20, -20, 100, 0, 20, 20, 0, 100, -20, 20, -100, 0, -20, -20}
	needle = []int64{0, 0, 1 << 25, 1, 1 << 25, 2}
	spiral = []int64{
		0, 0, 90, 0, 90, 90, 20, 90, 20, 30, 60, 30, 60, 60, 50, 60, 50, 40, 30, 40, 30, 80, 80, 80, 80, 10, 10, 10, 10, 100, 0, 100,
	}
)

func shapeOf(ring []int64) Shape { return Shape{Turns: [][]int64{ring}, Count: 1} }

// TestOverlap lays two shapes; the second is moved.
func TestOverlap(t *testing.T) {
	for _, tt := range []struct {
		name string
		a, b []int64
		x, y int64
		want bool
	}{
		{"side by side", square, square, 10, 0, false},
		{"side by side, shifted", square, square, 10, 3, false},
		{"corner to corner", square, square, 10, 10, false},
		{"one unit deep", square, square, 9, 0, true},
		{"one unit deep at the corner", square, square, 9, 9, true},
		{"same place", square, square, 0, 0, true},
		{"crossed bars", []int64{0, 10, 30, 10, 30, 20, 0, 20}, []int64{10, 0, 20, 0, 20, 30, 10, 30}, 0, 0, true},
		{"fills the notch", notch, square, 10, 10, false},
		{"fills the notch's mouth", notch, square, 10, 20, false},
		{"too deep in the notch", notch, square, 10, 9, true},
		{"vertex on edge from outside", square, []int64{0, 0, 5, -5, 5, 5}, 10, 5, false},
		{"vertex on edge from inside", square, []int64{0, 0, -5, 5, -5, -5}, 10, 5, true},
		{"only vertices on the outline", square, []int64{5, 0, 10, 5, 5, 10, 0, 5}, 0, 0, true},
		{"same outline, more vertices", square, []int64{0, 0, 5, 0, 10, 0, 10, 10, 5, 10, 0, 10, 0, 4}, 0, 0, true},
		{"through two vertices", []int64{0, 0, 10, 10, 0, 20, -10, 10}, []int64{0, -10, 1, 30, -1, 30}, 0, 0, true},
		{"inside", star, []int64{-1, -1, 1, -1, 1, 1, -1, 1}, 0, 0, true},
		{"between the rays", star, square, 20, 20, false},
		{"between the rays, one deeper", star, square, 19, 20, true},
		{"stars point to point", star, star, 200, 0, false},
		{"stars locked", star, star, 199, 0, true},
		{"needle along needle", needle, needle, 1, 0, true},
		{"needle across needle", needle, []int64{0, 0, 2, 0, 1, 1 << 20}, 1 << 24, -5, true},
		{"needle tip to needle tip", needle, needle, 0, 1, false},
		{"needle beside needle", needle, needle, 0, 2, false},
		{"needle under square", needle, square, 1<<25 - 10, 2, false},
		{"spiral in itself", spiral, spiral, 10, 10, true},
		{"square in the spiral", spiral, []int64{0, 0, 10, 0, 10, 10, 0, 10}, 10, 0, true},
		{"square in the spiral's passage", spiral, []int64{0, 0, 10, 0, 10, 10, 0, 10}, 10, 90, false},
		{"square in the inner passage", spiral, []int64{0, 0, 10, 0, 10, 10, 0, 10}, 40, 50, false},
		{"corner folds round corner", []int64{0, 0, 20, 0, 20, 10, 10, 10, 10, 20, 0, 20}, square, 10, 10, false},
	} {
		a, err := laidRing(tt.a, Place{})
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		b, err := laidRing(tt.b, Place{X: tt.x, Y: tt.y})
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		if got := overlapSlowly(a, b); got != tt.want {
			t.Errorf("%s: slow test says %v, want %v", tt.name, got, tt.want)
		}
		if got := overlap(a, b); got != tt.want {
			t.Errorf("%s: certificate says %v, want %v", tt.name, got, tt.want)
		}
		if got := overlap(b, a); got != tt.want {
			t.Errorf("%s, exchanged: certificate says %v, want %v", tt.name, got, tt.want)
		}
		if got := searchOverlap(tt.a, tt.b, tt.x, tt.y); got != tt.want {
			t.Errorf("%s: search says %v, want %v", tt.name, got, tt.want)
		}
	}
}

// searchOverlap asks the test of the search, and the pair loss, which must agree.
func searchOverlap(a, b []int64, x, y int64) bool {
	g, _ := newForms(context.Background(), Problem{Width: maxExtent, Shapes: []Shape{shapeOf(a), shapeOf(b)}}, nil)
	f, h := &g.all[0], &g.all[1]
	dx, dy := float64(x+h.minX-f.minX), float64(y+h.minY-f.minY)
	if dx >= f.w || dx <= -h.w || dy >= f.h || dy <= -h.h {
		return false
	}
	near := make([]int32, g.most)
	got := g.overlap(f, h, dx, dy, near)
	for _, places := range []int64{0, math.MaxInt64} { // without and with tables
		if g.prepare(places); (g.loss(f, h, dx, dy, near) > 0) != got {
			panic("loss and overlap disagree")
		}
	}
	return got
}

// randomRing returns a simple polygon of 3 to 7 vertices on a small grid, where
// touching and lying in line are common.
func randomRing(r *rand.Rand) []int64 {
	for {
		ring := make([]int64, 2*(3+r.IntN(5)))
		for k := range ring {
			ring[k] = r.Int64N(7)
		}
		if notSimple(clean(ring)) == "" {
			return ring
		}
	}
}

// TestOverlapAgrees compares the certificate and the search with the slow test.
func TestOverlapAgrees(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	overlaps, layouts := 0, 10000
	if testing.Short() {
		layouts = 2000
	}
	for range layouts {
		ringA, ringB := randomRing(r), randomRing(r)
		x, y := r.Int64N(9)-4, r.Int64N(9)-4
		a, _ := laidRing(ringA, Place{})
		b, _ := laidRing(ringB, Place{X: x, Y: y})
		want := overlapSlowly(a, b)
		if want {
			overlaps++
		}
		if got := overlap(a, b); got != want {
			t.Fatalf("%v and %v at %d,%d: certificate says %v, want %v", ringA, ringB, x, y, got, want)
		}
		if got := searchOverlap(ringA, ringB, x, y); got != want {
			t.Fatalf("%v and %v at %d,%d: search says %v, want %v", ringA, ringB, x, y, got, want)
		}
	}
	if overlaps < layouts/5 || overlaps > layouts*4/5 {
		t.Errorf("%d of %d overlap: the cases are lopsided", overlaps, layouts)
	}
}

func TestCheckRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		ring []int64
		why  error
	}{
		{"no vertices", nil, ErrRing},
		{"two vertices", []int64{0, 0, 5, 5}, ErrRing},
		{"no area", []int64{0, 0, 5, 5, 10, 10}, ErrRing},
		{"all the same", []int64{3, 3, 3, 3, 3, 3}, ErrRing},
		{"spike", []int64{0, 0, 10, 0, 20, 0, 10, 0, 10, 10}, ErrRing},
		{"crosses itself", []int64{0, 0, 10, 10, 10, 0, 0, 10}, ErrRing},
		{"touches itself", []int64{0, 0, 10, 0, 10, 10, 5, 0, 0, 10}, ErrRing},
		{"hole by a slit", []int64{0, 0, 9, 0, 9, 9, 0, 9, 0, 0, 3, 3, 3, 6, 6, 6, 6, 3, 3, 3}, ErrRing},
		{"odd", []int64{0, 0, 9, 0, 9, 9, 0}, ErrRing},
		{"too wide", []int64{0, 0, 9, 0, 9, 101}, ErrFit},
		{"too long", []int64{0, 0, maxExtent + 1, 0, 9, 9}, ErrSize},
	} {
		p := Problem{Width: 100, Shapes: []Shape{shapeOf(tt.ring)}}
		if err := p.Check(); !errors.Is(err, tt.why) {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.why)
		}
		if _, err := Solve(t.Context(), p, Options{Work: 100}); !errors.Is(err, tt.why) {
			t.Errorf("%s: Solve: %v, want %v", tt.name, err, tt.why)
		}
	}
	for _, p := range []Problem{
		{Width: 0, Shapes: []Shape{shapeOf(square)}},
		{Width: 100},
		{Width: 100, Shapes: []Shape{{Turns: [][]int64{square}}}},
		{Width: 100, Shapes: []Shape{{Count: 1}}},
		{Width: 100, Shapes: []Shape{{Turns: [][]int64{square}, Count: maxExtent/10 + 1}}},
	} {
		if err := p.Check(); !errors.Is(err, ErrCount) && !errors.Is(err, ErrSize) {
			t.Errorf("%+v: %v", p, err)
		}
	}
	repeated := []int64{0, 0, 0, 0, 10, 0, 10, 0, 10, 10, 0, 0}
	if err := (Problem{Width: 100, Shapes: []Shape{shapeOf(repeated)}}).Check(); err != nil {
		t.Errorf("repeated vertices: %v", err)
	}
}

func TestCertifyRefuses(t *testing.T) {
	p := Problem{Width: 10, Shapes: []Shape{{Turns: [][]int64{square}, Count: 2}}}
	good := Layout{Length: 20, Places: []Place{{}, {X: 10}}}
	if err := Certify(p, good); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name, text string
		change     func(*Layout)
	}{
		{"missing", "laid 1 times", func(l *Layout) { l.Places = l.Places[:1] }},
		{"too many", "laid 3 times", func(l *Layout) { l.Places = append(l.Places, Place{X: 20}) }},
		{"no such shape", "no shape 1", func(l *Layout) { l.Places[0].Shape = 1 }},
		{"no such turn", "rotation -1", func(l *Layout) { l.Places[0].Turn = -1 }},
		{"before the begin", "outside", func(l *Layout) { l.Places[0].X = -1 }},
		{"past the end", "outside", func(l *Layout) { l.Length = 19 }},
		{"above", "outside", func(l *Layout) { l.Places[0].Y = 1 }},
		{"below", "outside", func(l *Layout) { l.Places[0].Y = -1 }},
		{"one unit over", "overlap", func(l *Layout) { l.Places[1].X = 9 }},
		{"same place", "overlap", func(l *Layout) { l.Places[1].X = 0 }},
		{"far away", "beyond", func(l *Layout) { l.Places[1].X = 1 << 62 }},
	} {
		l := Layout{Length: good.Length, Places: slices.Clone(good.Places)}
		tt.change(&l)
		if err := Certify(p, l); !errors.Is(err, ErrLayout) || !strings.Contains(err.Error(), tt.text) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.text)
		}
	}
}

// TestCertifyFar certifies where cross products need more than 64 bits: a
// diagonal of 2^59 and a triangle whose vertex is off it by less than a unit.
func TestCertifyFar(t *testing.T) {
	const far = 1 << 59
	below := []int64{0, 0, far, 0, far, far - 1}
	for _, tt := range []struct {
		vertex vec
		ok     bool
	}{
		// The line is y = x (far-1)/far: at far/2 it is 1/2 lower than x.
		{vec{far / 2, far / 2}, true},
		{vec{far/2 + 1, far / 2}, false}, // 1/2 - 1/far below it
		{vec{far, far - 1}, true},        // on it
	} {
		above := []int64{tt.vertex.x, tt.vertex.y, 0, far, 0, far / 2}
		p := Problem{Width: far, Shapes: []Shape{shapeOf(below), shapeOf(above)}}
		l := Layout{Length: far, Places: []Place{{}, {Shape: 1}}}
		if err := Certify(p, l); (err == nil) != tt.ok {
			t.Errorf("%v: %v", tt.vertex, err)
		}
	}
}

// TestCertifyFlawFar certifies pieces far from a flaw of many corners, of which no
// edge is looked at.
func TestCertifyFlawFar(t *testing.T) {
	p := Problem{Width: 10000, Shapes: []Shape{{Turns: [][]int64{square}, Count: 3000}}}
	var l Layout
	for k := range int64(3000) {
		l.Places = append(l.Places, Place{X: 10 * k})
	}
	l.Length = 30000
	flaw := []int64{40000, 1000}
	for x := int64(40000); x < 48000; x += 2 {
		flaw = append(flaw, x, 0, x+1, 1)
	}
	p.Flaws = [][]int64{append(flaw, 48000, 1000)}
	began := time.Now()
	if err := Certify(p, l); err != nil {
		t.Error(err)
	}
	if took := time.Since(began); took > time.Second {
		t.Errorf("%v", took)
	}
}
