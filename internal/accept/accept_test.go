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

func TestShow(t *testing.T) {
	for _, tt := range []struct {
		v    any
		want string
	}{
		{10 * units.Degree, "10°"},
		{units.Angle(math.NaN()), "NaN°"},
		{units.Angle(math.Inf(-1)), "-Inf°"},
		{units.Length(0.2).Scale(2.1), "0.42 m"},
		{units.Length(math.NaN()), "NaN m"},
		{-units.Length(5e-324), "-5e-324 m"},
		{units.Length(math.MaxFloat64), "1.79769313e+308 m"},
		{0.1 + 0.2, "0.3"},
		{8, "8"},
		{"clockwise", "clockwise"},
		{nil, "<nil>"},
	} {
		if got := Show(tt.v); got != tt.want {
			t.Errorf("Show(%v) is %q, not %q", tt.v, got, tt.want)
		}
	}
}
