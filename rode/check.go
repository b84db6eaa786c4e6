package rode

import (
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
