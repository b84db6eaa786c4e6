package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestAreaAndLength(t *testing.T) {
	square := []Point{{1, 1}, {3, 1}, {3, 4}, {1, 4}}
	if a := Area(square); a != 6 {
		t.Errorf("area %v, want 6", a)
	}
	if l := Length(square); l != 7 {
		t.Errorf("length %v, want 7", l)
	}
	if !Contains(square, Point{2, 2}) || Contains(square, Point{0, 2}) {
		t.Error("inside and outside are mistaken")
	}
	if d := Distance(square, Point{0, 2}); d != 1 {
		t.Errorf("distance %v, want 1", d)
	}
	if Area(nil) != 0 || Length(nil) != 0 {
		t.Error("nothing has a size")
	}
}

func TestCrossing(t *testing.T) {
	for _, c := range []struct {
		name string
		ring []Point
		want bool
	}{
		{"square", []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, false},
		{"figure of eight", []Point{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, true},
		{"back on itself", []Point{{0, 0}, {2, 0}, {1, 0}, {1, 1}}, true},
		{"touching corner", []Point{{0, 0}, {2, 0}, {2, 2}, {1, 0}, {0, 2}}, true},
		{"L", []Point{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}, false},
		{"overlap", []Point{{0, 0}, {4, 0}, {4, 1}, {3, 0}, {2, 0}, {1, 1}}, true},
	} {
		if _, _, _, found := Crossing(c.ring); found != c.want {
			t.Errorf("%s: crossing found %v, want %v", c.name, found, c.want)
		}
	}
}

// The crossing found agrees with a plain test of every pair of edges.
func TestCrossingAgainstEveryPair(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		ring := make([]Point, 4+r.IntN(9))
		for k := range ring {
			ring[k] = Point{r.Float64(), r.Float64()}
		}
		want := false
		n := len(ring)
		side := func(a, b, c Point) bool { return b.Sub(a).Cross(c.Sub(a)) > 0 }
		for i := range n {
			for j := i + 2; j < n; j++ {
				if i == 0 && j == n-1 {
					continue
				}
				a, b, c, d := ring[i], ring[(i+1)%n], ring[j], ring[(j+1)%n]
				want = want || side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
			}
		}
		if _, _, _, found := Crossing(ring); found != want {
			t.Fatalf("%v: crossing found %v, want %v", ring, found, want)
		}
	}
}

func TestUntangle(t *testing.T) {
	// A square whose lower right corner makes a loop.
	ring := []Point{{0, 0}, {5, 0}, {5, 1}, {4, 1}, {4, -0.5}, {4.5, -0.5}, {4.5, -1}, {6, -1}, {6, 5}, {0, 5}}
	out, ok := Untangle(ring, 1e-9)
	if _, _, _, found := Crossing(out); found || !ok {
		t.Errorf("%v, %v", out, ok)
	}
	if _, ok := Untangle([]Point{{0, 0}, {0, 1}, {1, 1}, {1, 0}}, 1e-9); ok {
		t.Error("a clockwise ring is not refused")
	}
	if _, ok := Untangle([]Point{{0, 0}, {0, 1}}, 1e-9); ok {
		t.Error("two points are not refused")
	}
	r := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		ring := make([]Point, 3+r.IntN(12))
		for k := range ring {
			ring[k] = Point{r.Float64(), r.Float64()}
		}
		out, ok := Untangle(ring, 1e-9)
		if !ok {
			continue
		}
		if _, _, _, found := Crossing(out); found || math.IsNaN(Area(out)) {
			t.Fatalf("%v became %v", ring, out)
		}
	}
}

// What Thin leaves passes within the deviation of what it leaves out, and of points
// on a straight line only the ends stay.
func TestThin(t *testing.T) {
	var wave, ring []Point
	for i := range 400 {
		x := float64(i) / 20
		wave = append(wave, Point{x, math.Sin(x)})
		s, c := math.Sincos(2 * math.Pi * float64(i) / 400)
		ring = append(ring, Point{3 * c, 2 * s})
	}
	for _, deviation := range []float64{1e-4, 1e-2, 0.3, 5} {
		for name, at := range map[string][]int{"wave": Thin(wave, deviation), "ring": ThinRing(ring, deviation)} {
			line := wave
			if name == "ring" {
				line = append(ring, ring[0])
				at = append(at, len(ring))
			}
			if at[0] != 0 || at[len(at)-1] != len(line)-1 {
				t.Fatalf("%s: ends %v", name, at)
			}
			for k := 1; k < len(at); k++ {
				if at[k] <= at[k-1] {
					t.Fatalf("%s: order %v", name, at)
				}
				for i := at[k-1]; i <= at[k]; i++ {
					if d := Distance([]Point{line[at[k-1]], line[at[k]]}, line[i]); d > deviation*(1+1e-6) {
						t.Errorf("%s: point %d is %v away, want %v", name, i, d, deviation)
					}
				}
			}
		}
	}
	if at := Thin([]Point{{0, 0}, {1, 1}, {2, 2}, {3, 3}}, 1e-9); len(at) != 2 {
		t.Errorf("a straight line keeps %v", at)
	}
	if at := Thin(nil, 1); at != nil {
		t.Errorf("nothing keeps %v", at)
	}
	if at := ThinRing([]Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 0.1); len(at) != 4 {
		t.Errorf("a square keeps %v", at)
	}
	for from, want := range []int{2, 3, 0, 1} { // of equals the first, even off by rounding
		if far := Farthest([]Point{{0, 0}, {1, 0}, {1, 1 - 1e-13}, {0, 1}}, from); far != want {
			t.Errorf("farthest from %d is %d", from, far)
		}
	}
	if far := Farthest([]Point{{1, 1}}, 0); far != 0 {
		t.Errorf("farthest of one point is %d", far)
	}
	if at := ThinRing(nil, 1); at != nil {
		t.Errorf("no ring keeps %v", at)
	}
}

// A line parts a convex ring in two: nothing is lost, and each lies on its side.
func TestClip(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for range 300 {
		var ring []Point
		n := 3 + r.IntN(9)
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.9*r.Float64()) / float64(n))
			ring = append(ring, Point{5 * cos, 3 * sin})
		}
		side, c := Point{r.NormFloat64(), r.NormFloat64()}, 4*r.NormFloat64()
		one, two := Clip(ring, side, c), Clip(ring, side.Times(-1), -c)
		for _, p := range one {
			if side.Dot(p)+c < -1e-9 {
				t.Fatalf("%v is beyond %v, %v", p, side, c)
			}
		}
		if got, want := Area(one)+Area(two), Area(ring); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%v and %v of %v: areas of %v, want %v", one, two, ring, got, want)
		}
	}
	// A point on the line stays, once.
	if got := Clip([]Point{{0, 0}, {2, 0}, {1, 1}}, Point{Y: 1}, 0); len(got) != 3 {
		t.Errorf("%v", got)
	}
}
