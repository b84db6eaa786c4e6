package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/accept"
)

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64.
type quantity interface{ ~float64 }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func positive[Q quantity](c *checker, field string, q Q) {
	if want := accept.Positive(q); want != "" && c.err == nil {
		c.err = refuse(field, q, want)
	}
}

func notNegative[Q quantity](c *checker, field string, q Q) {
	if want := accept.NotNegative(q); want != "" && c.err == nil {
		c.err = refuse(field, q, want)
	}
}

func between[Q quantity](c *checker, field string, q, lo, hi Q) {
	if want := accept.Between(q, lo, hi); want != "" && c.err == nil {
		c.err = refuse(field, q, want)
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
