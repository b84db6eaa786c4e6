package root_test

import (
	"errors"
	"math"
	"testing"

	"example.com/forepeak/internal/root"
)

func TestFind(t *testing.T) {
	for _, c := range []struct {
		name         string
		f            func(float64) float64
		lo, hi, want float64
	}{
		{"line", func(x float64) float64 { return 2*x - 1 }, 0, 4, 0.5},
		{"cosine is x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"reversed ends", func(x float64) float64 { return math.Cos(x) - x }, 1, 0, 0.7390851332151607},
		{"cube root of a tiny number", func(x float64) float64 { return x*x*x - 1e-30 }, -1, 1, 1e-10},
		{"steep exponential", func(x float64) float64 { return math.Exp(40*x) - 1e9 }, -5, 5, 9 * math.Ln10 / 40},
		{"step", func(x float64) float64 { return math.Copysign(1, x-math.Pi) }, 0, 10, math.Pi},
		{"triple root", func(x float64) float64 { return (x - 1) * (x - 1) * (x - 1) }, 0, 3, 1},
		{"root at an end", func(x float64) float64 { return x - 3 }, 3, 8, 3},
		{"root at the other end", func(x float64) float64 { return x - 8 }, 3, 8, 8},
		{"over many powers of ten", func(x float64) float64 { return math.Log(x) }, 1e-300, 1e300, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			calls := 0
			x, err := root.Find(func(x float64) (float64, error) { calls++; return c.f(x), nil }, c.lo, c.hi, 1e-14)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(x-c.want) > 1e-14+4e-16*math.Abs(c.want) && c.name != "triple root" {
				t.Errorf("x = %.17g, want %.17g", x, c.want)
			}
			if math.Abs(x-c.want) > 1e-5 {
				t.Errorf("x = %.17g, want %.17g", x, c.want)
			}
			if calls > 2300 {
				t.Errorf("%d calls", calls)
			}
		})
	}
}

// Where bisection gains one binary digit a call, interpolation multiplies the
// digits; where it cannot help it must not cost more than a few calls.
func TestFindIsQuick(t *testing.T) {
	for _, c := range []struct {
		name     string
		f        func(float64) float64
		lo, hi   float64
		tol      float64
		quickens float64
	}{
		{"line", func(x float64) float64 { return 3*x - 1 }, 0, 4, 1e-15, 8},
		{"cosine is x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 1e-15, 5},
		{"cubic", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 1e-15, 5},
		{"far from nought, to the last digit", func(x float64) float64 { return math.Sqrt(x) - 1000 }, 9e5, 2e6, 0, 5},
		{"exponential, convex", func(x float64) float64 { return math.Exp(x) - 5 }, 0, 4, 1e-15, 4},
		{"exponential, concave", func(x float64) float64 { return 5 - math.Exp(-x) }, -4, 0, 1e-15, 4},
		{"loose", func(x float64) float64 { return math.Exp(x) - 5 }, 0, 4, 0.1, 1},
		{"step", func(x float64) float64 { return math.Copysign(1, x-math.Pi) }, 0, 10, 1e-14, 0.9},
		{"triple root", func(x float64) float64 { return (x - 1) * (x - 1) * (x - 1) }, 0, 3.5, 1e-14, 0.8},
		{"flat, then steep", func(x float64) float64 { return math.Pow(x, 21) - 1e-7 }, 0, 2, 1e-14, 3},
		{"pole beside the root", func(x float64) float64 { return 1/(x-1.0001) + 5 }, 0, 1, 1e-14, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			calls, bisections := 0, 2
			least := math.Inf(1)
			x, err := root.Find(func(x float64) (float64, error) {
				calls++
				least = math.Min(least, math.Abs(c.f(x)))
				return c.f(x), nil
			}, c.lo, c.hi, c.tol)
			if err != nil {
				t.Fatal(err)
			}
			a, b := c.lo, c.hi
			for m := a + (b-a)/2; b-a > c.tol && m > a && m < b; m = a + (b-a)/2 {
				bisections++
				if (c.f(m) > 0) == (c.f(b) > 0) {
					b = m
				} else {
					a = m
				}
			}
			if spacing := 0x1p-52 * math.Abs(x); x < a-c.tol-4*spacing || x > b+c.tol+4*spacing {
				t.Errorf("x = %.17g, bisection gives %.17g to %.17g", x, a, b)
			}
			// All of these are monotone: the last bracket has the least value at one of its ends.
			if math.Abs(c.f(x)) != least {
				t.Errorf("the value at x is %g, another point had %g", c.f(x), least)
			}
			if float64(calls)*c.quickens > float64(bisections) {
				t.Errorf("%d calls, bisection takes %d", calls, bisections)
			}
		})
	}
}

func TestFindStopsAtTheRoot(t *testing.T) {
	calls := 0
	x, err := root.Find(func(x float64) (float64, error) { calls++; return x - 2, nil }, 0, 4, 1e-12)
	if err != nil || x != 2 || calls != 3 {
		t.Errorf("x = %g, %v after %d calls; the third is the root", x, err, calls)
	}
}

func TestFindRefuses(t *testing.T) {
	same := func(x float64) (float64, error) { return 1 + x*x, nil }
	if _, err := root.Find(same, -1, 1, 0); !errors.Is(err, root.ErrNoBracket) {
		t.Errorf("same signs: %v", err)
	}
	small := func(float64) (float64, error) { return 0.25, nil }
	if _, err := root.Find(small, -1, 1, 0); !errors.Is(err, root.ErrNoBracket) {
		t.Errorf("same small values: %v", err)
	}
	for _, ends := range [][2]float64{{math.Inf(-1), 1}, {-1, math.Inf(1)}} {
		infinite := func(x float64) (float64, error) { return ends[int(x)], nil }
		if _, err := root.Find(infinite, 0, 1, 0); !errors.Is(err, root.ErrNoBracket) {
			t.Errorf("values %g at the ends: %v", ends, err)
		}
	}
	nan := func(float64) (float64, error) { return math.NaN(), nil }
	if _, err := root.Find(nan, -1, 1, 0); !errors.Is(err, root.ErrNoBracket) {
		t.Errorf("not a number: %v", err)
	}
	inside := func(x float64) (float64, error) {
		if x > -1 && x < 1 {
			return math.NaN(), nil
		}
		return x, nil
	}
	if _, err := root.Find(inside, -1, 1, 0); err == nil {
		t.Error("not a number inside the bracket: no error")
	}
	boom := errors.New("boom")
	for n := range 3 {
		calls := 0
		f := func(x float64) (float64, error) {
			if calls++; calls > n {
				return 0, boom
			}
			return x + 0.25, nil
		}
		if _, err := root.Find(f, -1, 1, 0); !errors.Is(err, boom) {
			t.Errorf("error at call %d: %v", n+1, err)
		}
		if calls != n+1 {
			t.Errorf("error at call %d: called %d times", n+1, calls)
		}
	}
}
