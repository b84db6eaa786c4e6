package rode

import (
	"math"
	"testing"
)

// The tension at a strain is the inverse of the strain at a tension, whichever
// terms a law has.
func TestTensionAtIsTheInverse(t *testing.T) {
	for _, c := range []law{
		{c1: 1e-6}, {c1: 1e-6, c2: 3e-12}, {c1: 1e-6, c3: 4e-18}, {c1: 1e-6, c2: -1e-12, c3: 4e-19}, {c1: 1.7e-5, c2: -4e-10, c3: 6e-15},
	} {
		for e := 1e-9; e < 1; e *= 3 {
			if got := c.at(c.tensionAt(e)); math.Abs(got-e) > 1e-14*e {
				t.Errorf("%+v: at the tension for %g the strain is %g", c, e, got)
			}
		}
		if c.tensionAt(0) != 0 || c.tensionAt(-1) != 0 {
			t.Errorf("%+v: a slack line has tension", c)
		}
	}
}
