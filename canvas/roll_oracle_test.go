package canvas

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
)

// The slow, obvious test of two outlines, in rational numbers: both are cut into
// trapezia at the X of every corner and of every crossing; in the middle of a slab
// the order of the edges tells what lies in which.

// relate reports whether some part lies in both outlines, and whether some part
// lies in the second alone.
func relate(p, q [][2]int64) (both, alone bool) {
	type edge struct {
		x0, y0, x1, y1 int64 // x0 < x1
		of             int
	}
	var edges []edge
	var xs []*big.Rat
	for of, ring := range [][][2]int64{p, q} {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			xs = append(xs, big.NewRat(a[0], 1))
			if a[0] > b[0] {
				a, b = b, a
			}
			if a[0] < b[0] {
				edges = append(edges, edge{a[0], a[1], b[0], b[1], of})
			}
		}
	}
	for i, e := range edges {
		for _, f := range edges[:i] {
			if e.of == f.of || max(e.x0, f.x0) >= min(e.x1, f.x1) || max(e.y0, e.y1) < min(f.y0, f.y1) || max(f.y0, f.y1) < min(e.y0, e.y1) {
				continue
			}
			// y = y0 + (x - x0) dy/dx of both, for x.
			m := big.NewRat(e.y1-e.y0, e.x1-e.x0)
			n := big.NewRat(f.y1-f.y0, f.x1-f.x0)
			d := new(big.Rat).Sub(m, n)
			if d.Sign() == 0 {
				continue
			}
			x := new(big.Rat).Sub(new(big.Rat).Mul(m, big.NewRat(e.x0, 1)), new(big.Rat).Mul(n, big.NewRat(f.x0, 1)))
			x.Add(x, big.NewRat(f.y0-e.y0, 1)).Quo(x, d)
			if x.Cmp(big.NewRat(max(e.x0, f.x0), 1)) > 0 && x.Cmp(big.NewRat(min(e.x1, f.x1), 1)) < 0 {
				xs = append(xs, x)
			}
		}
	}
	slices.SortFunc(xs, (*big.Rat).Cmp)
	type height struct {
		y  *big.Rat
		of int
	}
	for k := 1; k < len(xs); k++ {
		if xs[k-1].Cmp(xs[k]) == 0 {
			continue
		}
		x := new(big.Rat).Add(xs[k-1], xs[k])
		x.Quo(x, big.NewRat(2, 1))
		var at []height
		for _, e := range edges {
			if big.NewRat(e.x0, 1).Cmp(x) < 0 && big.NewRat(e.x1, 1).Cmp(x) > 0 {
				y := new(big.Rat).Sub(x, big.NewRat(e.x0, 1))
				y.Mul(y, big.NewRat(e.y1-e.y0, e.x1-e.x0))
				at = append(at, height{y.Add(y, big.NewRat(e.y0, 1)), e.of})
			}
		}
		slices.SortStableFunc(at, func(a, b height) int { return a.y.Cmp(b.y) })
		var in [2]bool
		for m := range at {
			in[at[m].of] = !in[at[m].of]
			if m+1 < len(at) && at[m].y.Cmp(at[m+1].y) < 0 {
				both = both || in[0] && in[1]
				alone = alone || in[1] && !in[0]
			}
		}
	}
	return both, alone
}

// inNanometres rounds an outline.
func inNanometres(ring []Point) [][2]int64 {
	out := make([][2]int64, len(ring))
	for k, v := range ring {
		out[k] = [2]int64{int64(math.Round(float64(v.X) * 1e9)), int64(math.Round(float64(v.Y) * 1e9))}
	}
	return out
}

func boxesMeet(p, q [][2]int64) bool {
	for k := range 2 {
		by := func(a, b [2]int64) int { return int(max(-1, min(1, a[k]-b[k]))) }
		if slices.MaxFunc(p, by)[k] <= slices.MinFunc(q, by)[k] || slices.MaxFunc(q, by)[k] <= slices.MinFunc(p, by)[k] {
			return false
		}
	}
	return true
}

// overlapsSlowly reports whether two outlines have some part in common.
func overlapsSlowly(a, b []Point) bool {
	p, q := inNanometres(a), inNanometres(b)
	if !boxesMeet(p, q) {
		return false
	}
	both, _ := relate(p, q)
	return both
}

// heldSlowly reports whether the second outline lies in the first.
func heldSlowly(a, b []Point) bool {
	_, alone := relate(inNanometres(a), inNanometres(b))
	return !alone
}

// simple reports whether an outline of whole numbers is one: no edges meet but
// neighbours, at their corner, and it has an area.
func simple(ring [][2]int64) bool {
	n := len(ring)
	turn := func(a, b, c [2]int64) int64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	on := func(v, a, b [2]int64) bool {
		return turn(a, b, v) == 0 && min(a[0], b[0]) <= v[0] && v[0] <= max(a[0], b[0]) && min(a[1], b[1]) <= v[1] && v[1] <= max(a[1], b[1])
	}
	differ := func(x, y int64) bool { return x > 0 && y < 0 || x < 0 && y > 0 }
	area := int64(0)
	for i, a := range ring {
		b := ring[(i+1)%n]
		area += a[0]*b[1] - a[1]*b[0]
		for j := i + 1; j < n; j++ {
			c, d := ring[j], ring[(j+1)%n]
			switch {
			case a == b || a == c || j > i+1 && (i > 0 || j < n-1) && (on(a, c, d) || on(b, c, d)):
				return false
			case on(d, a, b) && d != a, on(c, a, b) && c != b, on(a, c, d) && a != d:
				return false
			case differ(turn(a, b, c), turn(a, b, d)) && differ(turn(c, d, a), turn(c, d, b)):
				return false
			}
		}
	}
	return area != 0
}

// randomSimple is an outline with corners on a square of so many millimetres.
func randomSimple(r *rand.Rand, corners, span int) []Point {
	for {
		ring := make([][2]int64, corners)
		for k := range ring {
			ring[k] = [2]int64{int64(r.IntN(span)), int64(r.IntN(span))}
		}
		if simple(ring) {
			out := make([]Point, corners)
			for k, v := range ring {
				out[k] = at(float64(v[0])/1000, float64(v[1])/1000)
			}
			return out
		}
	}
}
