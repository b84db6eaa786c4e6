package strip

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
)

// circle is an outline of n vertices on a circle.
func circle(n int, x, y, r float64) []float64 {
	var out []float64
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		out = append(out, x+r*c, y+r*s)
	}
	return out
}

// starry is an outline round 0, 0 at random distances.
func starry(r *rand.Rand, n int, least, most float64) []float64 {
	var out []float64
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.8*r.Float64()) / float64(n))
		d := least + (most-least)*r.Float64()
		out = append(out, d*c, d*s)
	}
	return out
}

// inRing counts crossings in rational numbers; on the edge is inside.
func inRing(ring []int64, x, y float64) bool {
	rx, ry := new(big.Rat).SetFloat64(x), new(big.Rat).SetFloat64(y)
	in := false
	n := len(ring)
	for k := 0; k < n; k += 2 {
		ax, ay, bx, by := ring[k], ring[k+1], ring[(k+2)%n], ring[(k+3)%n]
		// The cross product of b-a and v-a.
		c := new(big.Rat).Mul(big.NewRat(bx-ax, 1), new(big.Rat).Sub(ry, big.NewRat(ay, 1)))
		c.Sub(c, new(big.Rat).Mul(big.NewRat(by-ay, 1), new(big.Rat).Sub(rx, big.NewRat(ax, 1))))
		if c.Sign() == 0 && float64(min(ax, bx)) <= x && x <= float64(max(ax, bx)) && float64(min(ay, by)) <= y && y <= float64(max(ay, by)) {
			return true
		}
		if (big.NewRat(ay, 1).Cmp(ry) > 0) != (big.NewRat(by, 1).Cmp(ry) > 0) && (c.Sign() > 0) == (by > ay) {
			in = !in
		}
	}
	return in
}

func TestOuterHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	hulls := 0
	for k := range 200 {
		n := 3 + r.IntN(40)
		p := starry(r, n, 20+200*r.Float64(), 1000)
		if k%3 == 0 {
			p = starry(r, n, 900, 1000)
		}
		clear := make([]float64, n)
		gap := []float64{0, 0, 3.3, 25, 60}[r.IntN(5)]
		for i := range clear {
			clear[i] = gap
		}
		deviation := []float64{0, 1, 20}[r.IntN(3)]
		ring, err := Outer(p, clear, deviation)
		if err != nil {
			t.Fatalf("%v: %v", p, err)
		}
		area := 0.0
		around := 0.0
		for i := range n {
			ax, ay, bx, by := p[2*i], p[2*i+1], p[2*((i+1)%n)], p[2*((i+1)%n)+1]
			area += (ax*by - bx*ay) / 2
			around += math.Hypot(bx-ax, by-ay)
			// Points of the outline, and as far from it as the gap, inside what is held.
			for m := range 3 {
				f := float64(m) / 3
				s, c := math.Sincos(2 * math.Pi * r.Float64())
				reach := max(0, gap-3e-4)
				x, y := ax+f*(bx-ax)+reach*c, ay+f*(by-ay)+reach*s
				if gap == 0 { // 3e-4 units inwards, to the left of the edge
					l := math.Hypot(bx-ax, by-ay)
					x, y = x-3e-4*(by-ay)/l, y+3e-4*(bx-ax)/l
				}
				if !inRing(ring, x, y) && (gap > 0 || m > 0) {
					t.Fatalf("gap %v, deviation %v: %v,%v of %v is not in %v", gap, deviation, x, y, p, ring)
				}
			}
		}
		got := ringArea(ring)
		if got < area-1e-3*around {
			t.Fatalf("area %v of %v", got, area)
		}
		// Mitres add less than (4/pi - 1) of the round corners; the rest is
		// rounding and deviation, all the way round.
		if most := area + around*(gap+deviation+4) + 4*math.Pow(gap+deviation+4, 2)*float64(n); got > most {
			hulls++
		}
	}
	if hulls > 3 {
		t.Errorf("%d of 200 outlines are held loosely", hulls)
	}
}

func TestOuterExact(t *testing.T) {
	for _, tt := range []struct {
		name   string
		p      []float64
		gap    float64
		want   []int64
		turned float64
	}{
		{"whole", []float64{0, 0, 100, 0, 100, 50, 0, 50}, 0, []int64{0, 0, 100, 0, 100, 50, 0, 50}, 0},
		{"gap", []float64{0, 0, 100, 0, 100, 50, 0, 50}, 2.5, []int64{-3, -3, 103, -3, 103, 53, -3, 53}, 0},
		{"quarter turn", []float64{0, 0, 100, 0, 100, 50, 0, 50}, 5, []int64{-55, -5, 5, -5, 5, 105, -55, 105}, math.Pi / 2},
		{"half turn", []float64{0, 0, 100, 0, 100, 50, 0, 50}, 0, []int64{-100, -50, 0, -50, 0, 0, -100, 0}, math.Pi},
		{"fractions", []float64{0.25, 0.25, 99.75, 0.25, 99.75, 49.5, 0.25, 49.5}, 0, []int64{0, 0, 100, 0, 100, 50, 0, 50}, 0},
		{"a hair off", []float64{1e-5, 0, 100.00001, 0, 100, 50, 0, 50}, 0, []int64{0, 0, 100, 0, 100, 50, 0, 50}, 0},
		{"duplicates and in line", []float64{0, 0, 0, 0, 50, 0, 100, 0, 100, 0, 100, 50, 0, 50, 0, 50}, 0, []int64{0, 0, 100, 0, 100, 50, 0, 50}, 0},
		{"narrow slot closes", []float64{0, 0, 100, 0, 100, 50, 52, 50, 52, 10, 48, 10, 48, 50, 0, 50}, 10, []int64{-10, -10, 110, -10, 110, 60, -10, 60}, 0},
	} {
		clear := make([]float64, len(tt.p)/2)
		for k := range clear {
			clear[k] = tt.gap
		}
		got, err := Outer(Turned(tt.p, tt.turned), clear, 1)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		// The first vertex may be any.
		same := len(got) == len(tt.want)
		if same {
			same = false
			for shift := 0; shift < len(got); shift += 2 {
				all := true
				for k := range got {
					all = all && got[(k+shift)%len(got)] == tt.want[k]
				}
				same = same || all
			}
		}
		if !same {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestOuterCircle(t *testing.T) {
	for _, gap := range []float64{0, 250} {
		p := circle(5000, 0, 0, 10000)
		clear := make([]float64, 5000)
		for k := range clear {
			clear[k] = gap
		}
		ring, err := Outer(p, clear, 20)
		if err != nil {
			t.Fatal(err)
		}
		r := 10000 + gap
		if got := ringArea(ring) / (math.Pi * r * r); got < 1 || got > 1.005 || len(ring) > 2*80 {
			t.Errorf("gap %v: area %v of the circle's, %d vertices", gap, got, len(ring)/2)
		}
	}
}

func TestOuterRefuses(t *testing.T) {
	if _, err := Outer([]float64{0, 0, 1, 1}, []float64{0, 0}, 0); !errors.Is(err, ErrRing) {
		t.Error(err)
	}
	if _, err := Outer([]float64{0, 0, 1e9, 0, 1, 1}, make([]float64, 3), 0); !errors.Is(err, ErrSize) {
		t.Error(err)
	}
	if _, err := Outer([]float64{0, 0, math.NaN(), 0, 1, 1}, make([]float64, 3), 0); !errors.Is(err, ErrSize) {
		t.Error(err)
	}
}

func TestSincos(t *testing.T) {
	for k := -4000; k <= 4000; k++ {
		a := float64(k) * 0.00314
		s, c := sincos(a)
		if math.Abs(s-math.Sin(a)) > 3e-16 || math.Abs(c-math.Cos(a)) > 3e-16 {
			t.Fatalf("%v: %v, %v; want %v, %v", a, s, c, math.Sin(a), math.Cos(a))
		}
	}
	for q, want := range []point{{0, 1}, {1, 0}, {0, -1}, {-1, 0}} {
		s, c := sincos(float64(q) * math.Pi / 2)
		if s != want.x || c != want.y {
			t.Errorf("%d quarters: %v, %v", q, s, c)
		}
	}
}

// TestHullOf compares hulls of random points, many of them alike or on one line,
// with what a hull is: corners that are points, turns to the left at each, and no
// point to the right of an edge.
func TestHullOf(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	for range 2000 {
		points := make([]point, 1+r.IntN(12))
		for i := range points {
			points[i] = point{float64(r.IntN(5)), float64(r.IntN(5))}
		}
		flat := true
		for _, q := range points {
			flat = flat && points[0].sub(points[len(points)-1]).cross(q.sub(points[0])) == 0
		}
		given := slices.Clone(points)
		hull := hullOf(points)
		if !slices.Equal(given, points) {
			t.Fatal("the points are no longer what they were")
		}
		n := len(hull)
		for i, a := range hull {
			if !slices.Contains(points, a) {
				t.Fatalf("%v: hull %v", points, hull)
			}
			b, c := hull[(i+1)%n], hull[(i+2)%n]
			if !flat && (n < 3 || b.sub(a).cross(c.sub(b)) <= 0) {
				t.Fatalf("%v: hull %v turns right at %v", points, hull, b)
			}
			for _, q := range points {
				if b.sub(a).cross(q.sub(a)) < 0 {
					t.Fatalf("%v: %v is outside the hull %v", points, q, hull)
				}
			}
		}
	}
}
