package wiring

import (
	"math"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/units"
)

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64, and float64 for a pure number.
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

// interval checks both ends, each by one of the above, and their order.
func interval[Q quantity](c *checker, field string, i units.Interval[Q], each func(*checker, string, Q)) {
	each(c, field+".Low", i.Low)
	each(c, field+".High", i.High)
	must(c, i.High >= i.Low, field+".High", i.High, "not less than "+field+".Low")
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
