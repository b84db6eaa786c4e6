package anchor

import (
	"fmt"
	"math"
)

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64.
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

func (c *checker) must(ok bool, field string, value any, want string) {
	if c.err == nil && !ok {
		c.err = refuse(field, value, want)
	}
}

// within checks an element of a list, and names it if it is refused.
func (c *checker) within(list string, i int, check func(*checker)) {
	if c.err != nil {
		return
	}
	check(c)
	if e, ok := c.err.(*Error); ok {
		e.Field = fmt.Sprintf("%s[%d].%s", list, i, e.Field)
	}
}

// or is x, or what a zero x counts as.
func or[Q quantity](x, instead Q) Q {
	if x == 0 {
		return instead
	}
	return x
}
