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

func TestFindRefuses(t *testing.T) {
	same := func(x float64) (float64, error) { return 1 + x*x, nil }
	if _, err := root.Find(same, -1, 1, 0); !errors.Is(err, root.ErrNoBracket) {
		t.Errorf("same signs: %v", err)
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
	}
}
