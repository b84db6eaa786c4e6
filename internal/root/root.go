// Package root finds a root of a function of one variable inside a bracket.
package root

import (
	"errors"
	"fmt"
	"math"
)

// ErrNoBracket is wrapped by the error for an interval whose ends do not have
// values of opposite sign.
var ErrNoBracket = errors.New("root: no change of sign")

// Find returns x in [lo, hi] where f changes sign, to within tol (or the
// spacing of float64 there). f(lo) and f(hi) must be finite and must not have
// the same sign. An error from f ends the search.
//
// The method is Chandrupatla's (Advances in Engineering Software 28, 1997):
// inverse quadratic interpolation where the three last points allow it,
// bisection otherwise. It never takes more than a small multiple of the steps
// that bisection would.
func Find(f func(float64) (float64, error), lo, hi, tol float64) (float64, error) {
	a, b := lo, hi
	fa, err := f(a)
	if err != nil {
		return 0, err
	}
	fb, err := f(b)
	if err != nil {
		return 0, err
	}
	switch {
	case fa == 0:
		return a, nil
	case fb == 0:
		return b, nil
	case !(fa < 0 && fb > 0 || fa > 0 && fb < 0) || math.IsInf(fa, 0) || math.IsInf(fb, 0):
		return 0, fmt.Errorf("%w between %g and %g: the values are %g and %g", ErrNoBracket, lo, hi, fa, fb)
	}
	c, fc := a, fa
	t := 0.5
	for range 4 * 1100 {
		x := a + t*(b-a)
		fx, err := f(x)
		if err != nil {
			return 0, err
		}
		if fx == 0 {
			return x, nil
		}
		if math.IsNaN(fx) {
			return 0, fmt.Errorf("root: the value at %g is not a number", x)
		}
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, b, fc, fb = b, a, fb, fa
		}
		a, fa = x, fx
		best := a
		if math.Abs(fb) < math.Abs(fa) {
			best = b
		}
		// The narrowest step that still moves.
		least := tol/2 + 2*0x1p-52*math.Abs(best)
		width := math.Abs(b - a)
		if width <= 2*least {
			return best, nil
		}
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = math.Min(1-least/width, math.Max(least/width, t))
	}
	return 0, fmt.Errorf("root: no convergence between %g and %g", lo, hi)
}
