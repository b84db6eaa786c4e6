package rode

import (
	"math"
	"math/big"
	"testing"
)

// The reference for the means is Gauss-Legendre quadrature of their defining
// integrals with 30 digits, in panels that double in width away from the bend
// at v = 0.

const bits = 100

func bigF(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

// gauss holds the nodes and weights of the rule on [-1, 1].
type gauss struct{ x, w []*big.Float }

func newGauss(n int) gauss {
	var g gauss
	one := bigF(1)
	for i := range n {
		x := bigF(math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5)))
		var dp *big.Float
		for range 8 { // Newton's method on the Legendre polynomial
			p0, p1 := bigF(1), new(big.Float).Set(x)
			for k := 2; k <= n; k++ {
				a := new(big.Float).Mul(bigF(float64(2*k-1)), x)
				a.Mul(a, p1)
				a.Sub(a, new(big.Float).Mul(bigF(float64(k-1)), p0))
				a.Quo(a, bigF(float64(k)))
				p0, p1 = p1, a
			}
			dp = new(big.Float).Mul(x, p1)
			dp.Sub(p0, dp).Mul(dp, bigF(float64(n)))
			q := new(big.Float).Mul(x, x)
			q.Sub(one, q)
			dp.Quo(dp, q)
			x.Sub(x, new(big.Float).Quo(p1, dp))
		}
		w := new(big.Float).Mul(x, x)
		w.Sub(one, w).Mul(w, dp).Mul(w, dp)
		g.x = append(g.x, x)
		g.w = append(g.w, w.Quo(bigF(2), w))
	}
	return g
}

// mean integrates f over v from v1 to v2, and its magnitude, and divides by v2 - v1.
func (g gauss) mean(f func(v *big.Float) *big.Float, h, v1, v2 float64) (mean, size float64) {
	if v1 == v2 {
		m, _ := f(bigF(v1)).Float64()
		return m, math.Abs(m)
	}
	cuts := []float64{v1}
	lo, hi := math.Min(v1, v2), math.Max(v1, v2)
	inner := math.Max(h, 1e-9*math.Max(-lo, hi))
	var between []float64
	for a := inner; a < math.Max(-lo, hi); a *= 2 {
		between = append(between, -a, a)
	}
	between = append(between, 0)
	for {
		// The next cut in the direction from v1 to v2.
		next := v2
		last := cuts[len(cuts)-1]
		for _, c := range between {
			if (c-last)*(v2-v1) > 0 && (next-c)*(v2-v1) > 0 {
				next = c
			}
		}
		cuts = append(cuts, next)
		if next == v2 {
			break
		}
	}
	sum, abs := bigF(0), bigF(0)
	for i := 1; i < len(cuts); i++ {
		half := new(big.Float).Sub(bigF(cuts[i]), bigF(cuts[i-1]))
		half.Quo(half, bigF(2))
		mid := new(big.Float).Add(bigF(cuts[i]), bigF(cuts[i-1]))
		mid.Quo(mid, bigF(2))
		for k := range g.x {
			v := new(big.Float).Mul(half, g.x[k])
			y := f(v.Add(v, mid))
			y.Mul(y, g.w[k]).Mul(y, half)
			sum.Add(sum, y)
			abs.Add(abs, y.Abs(y))
		}
	}
	d := new(big.Float).Sub(bigF(v2), bigF(v1))
	mean, _ = sum.Quo(sum, d).Float64()
	size, _ = abs.Quo(abs, d.Abs(d)).Float64()
	return mean, size
}

func TestSegmentMeansAgainstQuadrature(t *testing.T) {
	g := newGauss(16)
	mul := func(x ...*big.Float) *big.Float {
		p := bigF(1)
		for _, y := range x {
			p.Mul(p, y)
		}
		return p
	}
	worst := map[string]float64{}
	check := func(what string, got, want, scale float64, at ...any) {
		t.Helper()
		d := math.Abs(got-want) / scale
		if scale == 0 {
			d = math.Abs(got - want)
		}
		worst[what] = math.Max(worst[what], d)
		if !(d <= 2e-14) {
			t.Errorf("%s of %v is %.17g, by quadrature %.17g: off by %.1g", what, at, got, want, d)
		}
	}
	forces := [][2]float64{
		{0, 1},
		{1, 1},
		{1, 1 + 1e-9},
		{1, 1 + 1e-3},
		{-1, 1},
		{-1, 2},
		{-3, -1},
		{2, -1},
		{1e-9, 1},
		{-1e3, 1e3},
		{1e3, -1e-3},
		{0, 0},
		{-1e-5, 1e-5},
		{0.1, 0.35},
		{5, 5.6},
		{1, 1 + 1e-13},
		{-1e-12, 1e-12},
		{1e3, 1e3 + 1},
	}
	for _, c := range []law{{}, {c1: 1e-3}, {2e-3, -3e-6, 2e-9}} {
		for _, h := range []float64{0, 1e-6, 1e-3, 0.3, 1, 1e3} {
			for _, v := range forces {
				v1, v2 := v[0], v[1]
				t1, t2 := math.Sqrt(h*h+v1*v1), math.Sqrt(h*h+v2*v2)
				H := bigF(h)
				tension := func(v *big.Float) *big.Float {
					s := mul(v, v)
					return s.Add(s, mul(H, H)).Sqrt(s)
				}
				strain := func(t *big.Float) *big.Float { // c1 t + c2 t² + c3 t³
					e := mul(bigF(c.c3), t)
					e.Add(e, bigF(c.c2)).Mul(e, t).Add(e, bigF(c.c1))
					return e.Mul(e, t)
				}
				slope := func(t *big.Float) *big.Float {
					e := mul(bigF(3*c.c3), t)
					return e.Add(e, bigF(2*c.c2)).Mul(e, t).Add(e, bigF(c.c1))
				}
				long := func(t *big.Float) *big.Float { return new(big.Float).Add(bigF(1), strain(t)) }
				over := func(a, b *big.Float) *big.Float { return new(big.Float).Quo(a, b) }
				at := []any{c, h, v1, v2}
				// mean of f(v, t); the bend at v = 0 is sharp where h is 0.
				mean := func(f func(v, t *big.Float) *big.Float) (float64, float64) {
					return g.mean(func(v *big.Float) *big.Float { return f(v, tension(v)) }, h, v1, v2)
				}
				if h == 0 && (v1 == 0 && v2 == 0) {
					check("rise", c.meanRise(v1, t1, v2, t2), 0, 1, at...)
					continue
				}
				want, size := mean(func(v, t *big.Float) *big.Float { return over(mul(long(t), v), t) })
				check("rise", c.meanRise(v1, t1, v2, t2), want, size, at...)
				want, size = mean(func(v, t *big.Float) *big.Float { return t })
				check("tension", absMeanTension(h, v1, t1, v2, t2), want, size, at...)
				want, size = mean(func(v, t *big.Float) *big.Float { return strain(t) })
				check("strain", c.meanStrain(h, v1, t1, v2, t2, absMeanTension(h, v1, t1, v2, t2)), want, size, at...)
				vv := func(v, t *big.Float) *big.Float {
					a := over(mul(long(t), H, H), mul(t, t, t))
					return a.Add(a, over(mul(slope(t), v, v), mul(t, t)))
				}
				if h == 0 {
					// (1+e) v/t turns from -1 to 1 at v = 0, where its derivative has no mean but its difference.
					if v1*v2 > 0 {
						want, size = mean(vv)
						check("rise by v", c.meanVV(h, v1, t1, v2, t2), want, math.Max(size, 1e-2/math.Max(t1, t2)), at...)
					}
					continue
				}
				mi, _ := mean(func(v, t *big.Float) *big.Float { return over(bigF(1), t) })
				check("inverse", meanInverse(h, v1, t1, v2, t2), mi, mi, at...)
				want, size = mean(vv)
				check("rise by v", c.meanVV(h, v1, t1, v2, t2), want, size, at...)
				var m means
				m.all(&c, h, v1, t1, v2, t2)
				check("all, rise by v", m.vv, want, size, at...)
				want, size = mean(func(v, t *big.Float) *big.Float { return over(mul(long(t), H), t) })
				check("run", m.run, want, size, at...)
				want, size = mean(func(v, t *big.Float) *big.Float { return over(mul(long(t), v), t) })
				check("all, rise", m.rise, want, size, at...)
				want, size = mean(func(v, t *big.Float) *big.Float { return strain(t) })
				check("all, strain", m.strain, want, size, at...)
				// The last two are differences; what they are added to is of the size of 1/t.
				want, size = mean(func(v, t *big.Float) *big.Float {
					a := over(mul(slope(t), H, v), mul(t, t))
					return a.Sub(a, over(mul(long(t), H, v), mul(t, t, t)))
				})
				check("run by v", m.hv, want, math.Max(size, mi), at...)
				want, size = mean(func(v, t *big.Float) *big.Float {
					a := over(mul(long(t), v, v), mul(t, t, t))
					return a.Add(a, over(mul(slope(t), H, H), mul(t, t)))
				})
				check("run by h", m.hh, want, math.Max(size, mi), at...)
			}
		}
		for _, r := range [][2]float64{{0, 1}, {3, 3}, {500, 20}} {
			a, b := r[0], r[1]
			mean := func(f func(t *big.Float) *big.Float) float64 {
				m, _ := g.mean(f, 1, a, b)
				return m
			}
			check("ramp", c.meanRamp(a, b), mean(func(t *big.Float) *big.Float {
				e := mul(bigF(c.c3), t)
				e.Add(e, bigF(c.c2)).Mul(e, t).Add(e, bigF(c.c1))
				return e.Mul(e, t)
			}), c.at(math.Max(a, b))+1e-300)
			check("slope of the ramp", c.meanSlopeRamp(a, b), mean(func(t *big.Float) *big.Float {
				e := mul(bigF(3*c.c3), t)
				return e.Add(e, bigF(2*c.c2)).Mul(e, t).Add(e, bigF(c.c1))
			}), c.c1+1e-300)
		}
	}
	for what, d := range worst {
		t.Logf("%-20s %.1e", what, d)
	}
}
