package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/units"
)

// largest is the size beyond which no dimension is accepted: nothing sewn on a
// boat is longer.
const largest = 100 * units.Metre

// checker collects the first refusal.
type checker struct{ err error }

// quantity is any defined type over float64.
type quantity interface{ ~float64 }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func between[Q quantity](c *checker, field string, q, lo, hi Q) {
	if want := accept.Between(q, lo, hi); want != "" && c.err == nil {
		c.err = refuse(field, q, want)
	}
}

// size is a dimension of something that is there.
func (c *checker) size(field string, l units.Length) {
	if c.err == nil && !(l >= 10*units.Micrometre && l <= largest) {
		c.err = refuse(field, l, fmt.Sprintf("from 0.01 mm to %v", largest))
	}
}

// size0 is a dimension that may be nothing.
func (c *checker) size0(field string, l units.Length) { between(c, field, l, 0, largest) }

func (c *checker) point(field string, p Point) {
	between(c, field+".X", p.X, -largest, largest)
	between(c, field+".Y", p.Y, -largest, largest)
}

func (c *checker) count(field string, n, lo, hi int) {
	if c.err == nil && !(n >= lo && n <= hi) {
		c.err = refuse(field, n, fmt.Sprintf("from %d to %d", lo, hi))
	}
}
