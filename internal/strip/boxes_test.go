package strip

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// TestBoxes finds edges by a look at each.
func TestBoxes(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	whole := func() float64 { return float64(r.IntN(20)) }
	for range 3000 {
		ring := make([]point, 1+r.IntN(40))
		for k := range ring {
			ring[k] = point{whole(), whole()}
		}
		low := point{whole(), whole()}
		high := point{low.x + whole()/2, low.y + whole()/2}
		if r.IntN(3) == 0 {
			low.x, high.x = math.Inf(-1), math.Inf(1)
		}
		from, stop := r.IntN(len(ring)), r.IntN(len(ring))
		var want, got []int
		for k := from; k < len(ring) && !slices.Contains(want, stop); k++ {
			a, b := ring[k], ring[(k+1)%len(ring)]
			if min(a.x, b.x) <= high.x && max(a.x, b.x) >= low.x && min(a.y, b.y) <= high.y && max(a.y, b.y) >= low.y {
				want = append(want, k)
			}
		}
		found := newBoxes(ring).find(from, low, high, func(k int) bool {
			got = append(got, k)
			return k == stop
		})
		if !slices.Equal(got, want) || found != slices.Contains(want, stop) {
			t.Fatalf("%v from %d in %v, %v: %v, %v; want %v", ring, from, low, high, got, found, want)
		}
	}
}

// notSimpleSlowly looks at every pair of edges.
func notSimpleSlowly(r []vec) string {
	n := len(r)
	for i := range r {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		if turnSign(a, b, c) == 0 && dotSign(b.sub(a), c.sub(b)) < 0 {
			return "an edge folds back on itself"
		}
		for j := i + 2; j < n; j++ {
			if (i > 0 || j < n-1) && meet(a, b, r[j], r[(j+1)%n]) {
				return "the outline meets itself"
			}
		}
	}
	return ""
}

// TestNotSimple compares rings of many edges, some with a vertex out of place, and
// some far from 0, where float64 rounds.
func TestNotSimple(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	count := map[string]int{}
	for k := range 600 {
		outline := starry(r, fewEdges-1+r.IntN(40), 900, 1000)
		if k%2 == 0 {
			outline = comb(15+r.IntN(10), 20, 300, 6*r.Float64())
		}
		var ring []vec
		shift, far := 0, int64(0)
		if k%3 == 0 {
			shift, far = 3, 1<<60+1 // near which float64 holds every 256th number
		}
		for i := 0; i < len(outline); i += 2 {
			ring = append(ring, vec{int64(outline[i])>>shift + far, int64(outline[i+1])>>shift - far})
		}
		if r.IntN(2) == 0 {
			i, j := r.IntN(len(ring)), r.IntN(len(ring))
			ring[i] = vec{ring[j].x + r.Int64N(5) - 2, ring[i].y}
		}
		if r.IntN(4) == 0 { // there and back
			i := 1 + r.IntN(len(ring)-2)
			x, y := r.Int64N(5)-2, 1+r.Int64N(5)
			ring[i] = vec{ring[i-1].x + 3*x, ring[i-1].y + 3*y}
			ring[i+1] = vec{ring[i-1].x + x, ring[i-1].y + y}
		}
		want := notSimpleSlowly(ring)
		count[want]++
		if got := notSimple(ring); got != want {
			t.Fatalf("%v: %q, want %q", ring, got, want)
		}
	}
	if len(count) != 3 || count[""] < 100 || count["an edge folds back on itself"] < 5 {
		t.Errorf("%v: the cases are lopsided", count)
	}
}

// TestOuterTime holds outlines of 20,000 corners, which took from ten seconds to
// a minute with a look at each edge of one ring for each of the other.
func TestOuterTime(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 3))
	began := time.Now()
	for _, outline := range [][]float64{circle(20000, 0, 0, 1e6), starry(r, 20000, 999900, 1000000), comb(5000, 150, 3000, 0.3)} {
		ring, err := Outer(outline, even(20000, 200), 0)
		if err != nil {
			t.Fatal(err)
		}
		if why := notSimple(clean(ring)); why != "" {
			t.Error(why)
		}
	}
	if took := time.Since(began); took > 15*time.Second {
		t.Errorf("%v", took)
	}
}

// TestConvolveLimit checks that edges of a convolution for which no table pays
// are not all kept.
func TestConvolveLimit(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 4))
	p := Problem{Width: maxExtent}
	for range 2 {
		var ring []int64
		for _, v := range starry(r, 1000, 100000, 1000000) {
			ring = append(ring, int64(v))
		}
		p.Shapes = append(p.Shapes, Shape{Turns: [][]int64{ring}, Count: 1})
	}
	g, _ := newForms(t.Context(), p, nil)
	g.prepare(math.MaxInt64)
	var made table
	made.convolve(g, &g.all[0], &g.all[1])
	if n := len(made.edges); n <= mostEdges || n > mostEdges+1000 {
		t.Errorf("%d edges", n)
	}
	if made := g.newTable(&g.all[0], &g.all[1]); made.cells != nil {
		t.Error("a table that does not pay")
	}
}
