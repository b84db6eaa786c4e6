package strip

import (
	"math/big"
	"slices"
)

// The slow, obvious test of overlap: both polygons are cut into trapezia between
// the x of every vertex and every crossing of edges, in rational numbers; within
// such a slab edges do not cross, so that the order of the edges at its middle
// tells whether some part lies inside both.

type ratPoint struct{ x, y *big.Rat }

type ratEdge struct {
	a, b ratPoint // a.x < b.x
	of   int
}

// at returns the y of the edge at x.
func (e ratEdge) at(x *big.Rat) *big.Rat {
	dx := new(big.Rat).Sub(e.b.x, e.a.x)
	t := new(big.Rat).Quo(new(big.Rat).Sub(x, e.a.x), dx)
	dy := new(big.Rat).Sub(e.b.y, e.a.y)
	return dy.Mul(dy, t).Add(dy, e.a.y)
}

func overlapSlowly(p, q []vec) bool {
	var edges []ratEdge
	var xs []*big.Rat
	for of, ring := range [][]vec{p, q} {
		for i, v := range ring {
			u := ring[(i+1)%len(ring)]
			xs = append(xs, big.NewRat(v.x, 1))
			if v.x == u.x {
				continue
			}
			if v.x > u.x {
				v, u = u, v
			}
			edges = append(edges, ratEdge{
				ratPoint{big.NewRat(v.x, 1), big.NewRat(v.y, 1)},
				ratPoint{big.NewRat(u.x, 1), big.NewRat(u.y, 1)},
				of,
			})
		}
	}
	for i, e := range edges {
		for _, f := range edges[:i] {
			lo, hi := later(e.a.x, f.a.x), earlier(e.b.x, f.b.x)
			if lo.Cmp(hi) >= 0 {
				continue
			}
			// The height of e over f, linear in x, may change its sign.
			g := new(big.Rat).Sub(e.at(lo), f.at(lo))
			h := new(big.Rat).Sub(e.at(hi), f.at(hi))
			if g.Sign()*h.Sign() < 0 {
				t := new(big.Rat).Quo(g, new(big.Rat).Sub(g, h))
				x := new(big.Rat).Sub(hi, lo)
				xs = append(xs, x.Mul(x, t).Add(x, lo))
			}
		}
	}
	slices.SortFunc(xs, (*big.Rat).Cmp)
	half := big.NewRat(1, 2)
	for k := 1; k < len(xs); k++ {
		if xs[k-1].Cmp(xs[k]) == 0 {
			continue
		}
		x := new(big.Rat).Add(xs[k-1], xs[k])
		x.Mul(x, half)
		type crossing struct {
			y  *big.Rat
			of int
		}
		var at []crossing
		for _, e := range edges {
			if e.a.x.Cmp(x) < 0 && x.Cmp(e.b.x) < 0 {
				at = append(at, crossing{e.at(x), e.of})
			}
		}
		slices.SortFunc(at, func(a, b crossing) int { return a.y.Cmp(b.y) })
		var in [2]bool
		for m, c := range at {
			in[c.of] = !in[c.of]
			if in[0] && in[1] && m+1 < len(at) && c.y.Cmp(at[m+1].y) < 0 {
				return true
			}
		}
	}
	return false
}

func later(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}

func earlier(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}
