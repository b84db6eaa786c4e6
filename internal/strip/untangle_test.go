package strip

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// untangleSlowly looks at every pair of edges for each loop.
func untangleSlowly(ring []point) []point {
	for range len(ring) {
		n := len(ring)
		bi, bj, at := 0, n, point{}
		for i := range ring {
			a, b := ring[i], ring[(i+1)%n]
			u := b.sub(a)
			for j := i + 2; j < n && j-i < bj-bi; j++ {
				if i == 0 && j == n-1 {
					continue
				}
				c, d := ring[j], ring[(j+1)%n]
				if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
					max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
					continue
				}
				w, e := d.sub(c), c.sub(a)
				det := u.cross(w)
				if det == 0 {
					continue
				}
				s, t := e.cross(w)/det, e.cross(u)/det
				if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
					bi, bj, at = i, j, a.plus(u, s)
				}
			}
		}
		if bj == n {
			return ring
		}
		loop := append([]point{at}, ring[bi+1:bj+1]...)
		rest := append(append(slices.Clone(ring[:bi+1]), at), ring[bj+1:]...)
		if areaOf(loop) > areaOf(rest) {
			rest = loop
		}
		ring = rest
	}
	return nil
}

// comb is an outline of n teeth of a width and a length, turned by an angle, with
// notches as wide as the teeth.
func comb(n int, width, length, angle float64) []float64 {
	out := []float64{0, -length, float64(2*n-1) * width, -length}
	for k := n - 1; k >= 0; k-- {
		x := float64(2*k) * width
		out = append(out, x+width, length, x, length)
		if k > 0 {
			out = append(out, x, 0, x-width, 0)
		}
	}
	return Turned(out, angle)
}

// coil is an outline of a band that winds inwards in n steps of a turn's twelfth.
func coil(r *rand.Rand, n int, band float64) []float64 {
	var out, back []float64
	for k := range n {
		s, c := math.Sincos(float64(k) * math.Pi / 6)
		d := 100 + 20*float64(n-k) + 3*r.Float64()
		out = append(out, d*c, d*s)
		back = append(back, (d-band)*c, (d-band)*s)
	}
	for k := n - 1; k >= 0; k-- {
		out = append(out, back[2*k], back[2*k+1])
	}
	return out
}

func even(n int, d float64) []float64 {
	return slices.Repeat([]float64{d}, n)
}

// tangled grows an outline.
func tangled(outline, clear []float64, deviation, more float64) []point {
	p := make([]point, len(outline)/2)
	for k := range p {
		p[k] = point{outline[2*k], outline[2*k+1]}
	}
	return grow(chordsOf(p, clear, deviation), more)
}

// TestUntangle compares the loops taken out with those that the slow way takes
// out, to the last digit.
func TestUntangle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	loops, kept := 0, 0
	check := func(ring []point) {
		t.Helper()
		given := slices.Clone(ring)
		got, want := untangle(ring), untangleSlowly(ring)
		if !slices.Equal(got, want) {
			t.Fatalf("%v\nuntangles to %v,\nwant %v", ring, got, want)
		}
		if !slices.Equal(given, ring) {
			t.Fatal("the ring is no longer what it was")
		}
		if len(want) < len(ring) {
			loops++
		}
		if len(want) > 0 && want[0] != ring[0] {
			kept++
		}
	}
	check(nil)
	check([]point{{1, 2}})
	for k := range 100 {
		n := 3 + r.IntN(40)
		check(tangled(starry(r, n, 20+200*r.Float64(), 1000), even(n, 200*r.Float64()), 1, float64(k%3)))
		teeth := comb(2+r.IntN(20), 20+100*r.Float64(), 50+500*r.Float64(), 6*r.Float64())
		check(tangled(teeth, even(len(teeth)/2, 150*r.Float64()), 1, float64(k%3)))
		band := coil(r, 10+r.IntN(40), 5+100*r.Float64())
		check(tangled(band, even(len(band)/2, 150*r.Float64()), 1, float64(k%3)))
	}
	for range 300 { // which cross themselves all over, many of them at corners
		ring := make([]point, 3+r.IntN(30))
		whole := r.IntN(2) == 0
		for k := range ring {
			ring[k] = point{1000 * r.Float64(), 1000 * r.Float64()}
			if whole {
				ring[k] = point{float64(r.IntN(12)), float64(r.IntN(12))}
			}
		}
		check(ring)
	}
	for range 100 { // a walk, and along the same way back
		ring := []point{{}}
		for range 5 + r.IntN(60) {
			last := ring[len(ring)-1]
			ring = append(ring, point{last.x + 100*r.NormFloat64(), last.y + 100*r.NormFloat64()})
		}
		for k := len(ring) - 1; k >= 0; k-- {
			ring = append(ring, point{ring[k].x + 20*r.Float64(), ring[k].y})
		}
		check(ring)
	}
	ring := []point{{0, 0}, {10, 10}, {math.NaN(), 3}, {10, 0}, {0, 10}, {5, -5}}
	if got, want := untangle(ring), untangleSlowly(ring); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, want %v", got, want)
	}
	if loops < 500 || kept < 100 {
		t.Errorf("%d rings had loops, of %d a loop was kept: the cases are lopsided", loops, kept)
	}
}

// TestUntangleTime untangles a comb of 20,000 corners, with a notch to close for
// every four of them, for which a look at every pair of edges for each loop would
// take hours.
func TestUntangleTime(t *testing.T) {
	teeth := comb(5000, 150, 3000, 0.3)
	ring := tangled(teeth, even(len(teeth)/2, 200), 1, 0)
	began := time.Now()
	if got := untangle(ring); len(got) >= len(ring) {
		t.Errorf("%d corners of %d", len(got), len(ring))
	}
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("%v", took)
	}
}
