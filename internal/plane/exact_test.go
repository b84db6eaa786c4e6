package plane

import (
	"math"
	"math/rand/v2"
	"testing"
)

// grid is a random ring on whole eighths, no point twice in a row, so that touching
// corners and overlapping edges are frequent and can be told exactly.
func grid(r *rand.Rand) []Point {
	for {
		ring := make([]Point, 4+r.IntN(5))
		for k := range ring {
			ring[k] = Point{float64(r.IntN(6)) / 8, float64(r.IntN(6)) / 8}
		}
		if ring = Clean(ring, 0.05); len(ring) > 3 {
			return ring
		}
	}
}

// touch tells whether two edges have a point in common, by signs of whole numbers.
func touch(a, b, c, d Point) bool {
	side := func(a, b, c Point) int {
		switch x := b.Sub(a).Cross(c.Sub(a)); {
		case x > 0:
			return 1
		case x < 0:
			return -1
		}
		return 0
	}
	on := func(a, b, c Point) bool {
		return side(a, b, c) == 0 && min(a.X, b.X) <= c.X && c.X <= max(a.X, b.X) && min(a.Y, b.Y) <= c.Y && c.Y <= max(a.Y, b.Y)
	}
	return on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b) ||
		side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// The first crossing along the ring is found, and where: the place lies on both
// edges, and no point of edge i before it lies on an edge that i may not meet.
func TestCrossingOnAGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	edge := func(ring []Point, k int) []Point { return []Point{ring[k], ring[(k+1)%len(ring)]} }
	for range 5000 {
		ring := grid(r)
		n := len(ring)
		meets := func(i, j int) bool {
			e, f := edge(ring, i), edge(ring, j)
			if j == i+1 || i == 0 && j == n-1 { // neighbours, one turned back on the other
				u, v := e[1].Sub(e[0]), f[1].Sub(f[0])
				return u.Cross(v) == 0 && u.Dot(v) < 0
			}
			return touch(e[0], e[1], f[0], f[1])
		}
		first := -1
		for i := n - 1; i >= 0; i-- {
			for j := i + 1; j < n; j++ {
				if meets(i, j) {
					first = i
				}
			}
		}
		i, j, at, found := Crossing(ring)
		if found != (first >= 0) {
			t.Fatalf("%v: crossing found %v, first at edge %d", ring, found, first)
		}
		if out, ok := Untangle(ring, 1e-9); ok { // nothing of it touches itself
			if _, _, _, found := Crossing(out); found || !(Area(out) > 0) {
				t.Fatalf("%v of area %v became %v of area %v", ring, Area(ring), out, Area(out))
			}
		}
		if !found {
			continue
		}
		if i != first || !meets(i, j) {
			t.Fatalf("%v: edges %d and %d, the first that meets another is %d", ring, i, j, first)
		}
		if d := math.Max(Distance(edge(ring, i), at), Distance(edge(ring, j), at)); !(d < 1e-12) {
			t.Fatalf("%v: edges %d and %d meet at %v, %g away from one of them", ring, i, j, at, d)
		}
		part := at.Sub(ring[i]).Norm()
		for k := i + 2; k < n; k++ {
			if i == 0 && k == n-1 {
				continue
			}
			for _, p := range edge(ring, k) {
				if touch(ring[i], ring[(i+1)%n], p, p) && p.Sub(ring[i]).Norm() < part-1e-12 {
					t.Fatalf("%v: edges %d and %d meet at %v, but %v is before", ring, i, j, at, p)
				}
			}
		}
	}
}

// A ray to the right and one upwards cross a ring equally often, but for twos.
func TestContainsEitherWay(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 2000 {
		ring, turned := make([]Point, 3+r.IntN(9)), make([]Point, 0, 12)
		for k := range ring {
			ring[k] = Point{r.Float64(), r.Float64()}
			turned = append(turned, ring[k].Right())
		}
		p := Point{r.Float64(), r.Float64()}
		if Contains(ring, p) != Contains(turned, p.Right()) {
			t.Fatalf("%v in %v: the answer depends on how they are turned", p, ring)
		}
		var centre Point // of a triangle, in it
		for _, q := range ring[:3] {
			centre = centre.Add(q.Times(1.0 / 3))
		}
		if !Contains(ring[:3], centre) || Contains(ring[:3], centre.Add(Point{2, 0})) || Contains(ring[:3], centre.Add(Point{0, -2})) {
			t.Fatalf("the triangle %v does not hold its centre, or more", ring[:3])
		}
	}
}

// The nearest of many points along the ring is hardly farther than Distance says.
func TestDistanceAgainstManyPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 100 {
		ring := make([]Point, 1+r.IntN(6))
		for k := range ring {
			ring[k] = Point{r.Float64(), r.Float64()}
		}
		p := Point{2*r.Float64() - 0.5, 2*r.Float64() - 0.5}
		least := math.Inf(1)
		const steps = 1000
		for k, a := range ring {
			d := ring[(k+1)%len(ring)].Sub(a)
			for i := range steps {
				least = math.Min(least, p.Sub(a.Add(d.Times(float64(i)/steps))).Norm())
			}
		}
		if d := Distance(ring, p); d > least+1e-12 || d < least-1e-3 {
			t.Fatalf("%v is %g from %v, the nearest of many points %g", p, d, ring, least)
		}
	}
}

// What is kept does not depend on where the ring begins, and its size is known.
func TestUntangleKeepsTheGreaterPart(t *testing.T) {
	for _, c := range []struct {
		name string
		ring []Point
		want float64
	}{
		{"one loop", []Point{{0, 0}, {5, 0}, {5, 1}, {4, 1}, {4, -0.5}, {4.5, -0.5}, {4.5, -1}, {6, -1}, {6, 5}, {0, 5}}, 31.75},
		{"two loops", []Point{{0, 0}, {4, 0}, {4, -1}, {3, -1}, {3, 6}, {2, 6}, {2, 5}, {4, 5}, {4, 7}, {0, 7}}, 23},
		{"unequal eight", []Point{{0, 0}, {3, 0}, {3, 3}, {-1, -1}, {0, -1}}, 4.5},
		{"out and back less far", []Point{{0, 0}, {4, 0}, {4, 6}, {4, 4}, {0, 4}}, 16},
		{"out and back farther", []Point{{0, 0}, {4, 0}, {4, 4}, {6, 4}, {0, 4}}, 16},
		{"out and back as far", []Point{{0, 0}, {4, 0}, {6, 0}, {4, 0}, {4, 4}, {0, 4}}, 16},
		{"plain", []Point{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, 4},
		{"triangle", []Point{{0, 0}, {2, 0}, {0, 2}}, 2},
		{"one point twice", []Point{{0, 0}, {0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}, 4},
	} {
		for from := range c.ring {
			ring := append(append([]Point(nil), c.ring[from:]...), c.ring[:from]...)
			out, ok := Untangle(ring, 1e-9)
			if !ok || math.Abs(Area(out)-c.want) > 1e-12 {
				t.Errorf("%s, from point %d: %v of area %v, %v, want %v", c.name, from, out, Area(out), ok, c.want)
			}
		}
	}
}

func TestCleanRing(t *testing.T) {
	a, b, c := Point{0, 0}, Point{1, 0}, Point{1, 1}
	for _, s := range []struct {
		ring []Point
		want int
	}{
		{nil, 0},
		{[]Point{a}, 1},
		{[]Point{a, a, a}, 1},
		{[]Point{a, b}, 2},
		{[]Point{a, b, a}, 2},
		{[]Point{a, b, b, c, c, a, a}, 3},
		{[]Point{a, b, c, {0, 0.2}, {0, 0.1}}, 3},
	} {
		if out := Clean(s.ring, 0.3); len(out) != s.want {
			t.Errorf("of %v %v is left, want %d points", s.ring, out, s.want)
		}
	}
}

func TestDirections(t *testing.T) {
	p := Point{3, -4}
	if u := p.Unit(); u.Sub(Point{0.6, -0.8}).Norm() > 1e-15 {
		t.Errorf("unit %v", u)
	}
	if r := p.Right(); r != (Point{-4, -3}) || p.Cross(r) >= 0 {
		t.Errorf("to the right of %v is %v", p, r)
	}
	if d := p.Dot(Point{2, 5}); d != -14 {
		t.Errorf("scalar product %v", d)
	}
	if l := Around([]Point{{1, 1}, {3, 1}, {3, 4}, {1, 4}}); l != 10 || Around(nil) != 0 {
		t.Errorf("around a rectangle of 2 by 3: %v; around nothing: %v", l, Around(nil))
	}
}

// Sizes that differ by rounding are alike, at every size; a millionth is a difference.
func TestClearly(t *testing.T) {
	for _, a := range []float64{1e-3, 1, 1e3, 1e6} {
		if Clearly(a*(1+1e-12), a) || Clearly(a, a) || !Clearly(a*(1+1e-6), a) {
			t.Errorf("about %g: equal are told apart, or others are not", a)
		}
	}
	if Clearly(1e-13, 0) || !Clearly(1e-9, 0) {
		t.Error("about 0: equal are told apart, or others are not")
	}
	for _, one := range [][]int{Thin([]Point{{1, 2}}, 1), ThinRing([]Point{{1, 2}}, 1)} {
		if len(one) != 1 || one[0] != 0 {
			t.Errorf("one point keeps %v", one)
		}
	}
}
