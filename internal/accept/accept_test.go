package accept

import (
	"math"
	"testing"

	"example.com/forepeak/units"
)

func TestAccept(t *testing.T) {
	nan, inf := units.Length(math.NaN()), units.Length(math.Inf(1))
	for _, tt := range []struct {
		q                    units.Length
		positive, notNegated string
		between              string // 1 m and 2 m
	}{
		{1, "", "", ""},
		{2, "", "", ""},
		{0, "more than 0", "", "from 1 m to 2 m"},
		{units.Length(math.Copysign(0, -1)), "more than 0", "", "from 1 m to 2 m"},
		{-1, "more than 0", "0 or more", "from 1 m to 2 m"},
		{nan, "more than 0", "0 or more", "from 1 m to 2 m"},
		{-inf, "more than 0", "0 or more", "from 1 m to 2 m"},
		{inf, "from 1e-12 m to 1e+15 m", "0, or from 1e-12 m to 1e+15 m", "from 1 m to 2 m"},
		{5e-324, "from 1e-12 m to 1e+15 m", "0, or from 1e-12 m to 1e+15 m", "from 1 m to 2 m"},
	} {
		if got := Positive(tt.q); got != tt.positive {
			t.Errorf("Positive(%v) wants %q, not %q", tt.q, tt.positive, got)
		}
		if got := NotNegative(tt.q); got != tt.notNegated {
			t.Errorf("NotNegative(%v) wants %q, not %q", tt.q, tt.notNegated, got)
		}
		if got := Between(tt.q, 1, 2); got != tt.between {
			t.Errorf("Between(%v) wants %q, not %q", tt.q, tt.between, got)
		}
	}
}
