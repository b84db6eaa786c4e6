package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64, and float64 for a pure number.
type quantity interface{ ~float64 }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// No quantity, in SI units, is smaller or larger than these unless by mistake.
// Between them no product of several overflows.
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

// must records a refusal when what was expected does not hold.
func must(c *checker, holds bool, field string, value any, want string) {
	if c.err == nil && !holds {
		c.err = refuse(field, value, want)
	}
}

// ohmic refuses a resistance that no real part has. There are no ideal wires: two
// of them side by side would share a current in no particular way.
func ohmic(c *checker, field string, r units.Resistance) {
	between(c, field, r, 1e-9*units.Ohm, 1e12*units.Ohm)
}
