package rode

import (
	"fmt"
	"math"
)

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64.
type quantity interface{ ~float64 }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// No quantity of a rode, in SI units, is smaller or larger than these unless by
// mistake. Between them no product of several overflows.
const (
	smallest = 1e-12
	largest  = 1e15
)

func positive[Q quantity](c *checker, field string, q Q) {
	switch {
	case c.err != nil:
	case !(q > 0):
		c.err = refuse(field, q, "more than 0")
	case q < smallest || q > largest:
		c.err = refuse(field, q, fmt.Sprintf("from %v to %v", Q(smallest), Q(largest)))
	}
}

func notNegative[Q quantity](c *checker, field string, q Q) {
	switch {
	case c.err != nil || q == 0:
	case !(q >= 0):
		c.err = refuse(field, q, "0 or more")
	case q < smallest || q > largest:
		c.err = refuse(field, q, fmt.Sprintf("0, or from %v to %v", Q(smallest), Q(largest)))
	}
}

func between[Q quantity](c *checker, field string, q, lo, hi Q) {
	if c.err == nil && !(q >= lo && q <= hi) {
		c.err = refuse(field, q, fmt.Sprintf("from %v to %v", lo, hi))
	}
}
