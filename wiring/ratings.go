package wiring

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/forepeak/units"
)

// Ratings is a list of rated currents that devices are made in, rising.
type Ratings []units.Current

// SeriesName names a published series.
type SeriesName string

// Published series.
const (
	// SeriesIEC60898 is that of small breakers, IEC 60898-1, 6 A to 125 A.
	SeriesIEC60898 SeriesName = "IEC 60898-1"
	// SeriesNEC is that of fuses and breakers in NFPA 70 (NEC), 240.6(A).
	SeriesNEC SeriesName = "NFPA 70, 240.6(A)"
	// SeriesISO8820 is that of the blade fuses of road vehicles, ISO 8820-3, 1 A to 40 A.
	SeriesISO8820 SeriesName = "ISO 8820-3"
)

// PreferredRatings returns a published series.
func PreferredRatings(name SeriesName) (Ratings, error) {
	var s []float64
	switch name {
	case SeriesIEC60898:
		s = []float64{6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125}
	case SeriesNEC:
		s = []float64{
			1, 3, 6, 10, // fuses only
			15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200,
			225, 250, 300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200,
		}
	case SeriesISO8820:
		s = []float64{1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40}
	default:
		return nil, refuseAs(ErrUnknown, "name", fmt.Sprintf("%q", name),
			fmt.Sprintf("%q, %q or %q", SeriesIEC60898, SeriesNEC, SeriesISO8820))
	}
	r := make(Ratings, len(s))
	for i, a := range s {
		r[i] = units.Current(a)
	}
	return r, nil
}

// check refuses a series that is empty or does not rise.
func (s Ratings) check(c *checker, field string) {
	must(c, len(s) > 0, field, "empty", "at least one rating")
	for i, r := range s {
		positive(c, fmt.Sprintf("%s[%d]", field, i), r)
		must(c, i == 0 || r > s[i-1], fmt.Sprintf("%s[%d]", field, i), r, "more than the one before")
	}
}

// AtLeast is the smallest rating that is not less than a current. The error is an
// [ErrRange] if there is none.
func (s Ratings) AtLeast(i units.Current) (units.Current, error) {
	var c checker
	s.check(&c, "series")
	notNegative(&c, "current", i)
	if c.err != nil {
		return 0, c.err
	}
	n, _ := slices.BinarySearchFunc(s, i, cmp.Compare)
	if n == len(s) {
		return 0, refuseAs(ErrRange, "current", i, fmt.Sprintf("at most %v, the largest rating of the series", s[len(s)-1]))
	}
	return s[n], nil
}

// AtMost is the largest rating that is not more than a current. The error is an
// [ErrRange] if there is none.
func (s Ratings) AtMost(i units.Current) (units.Current, error) {
	var c checker
	s.check(&c, "series")
	notNegative(&c, "current", i)
	if c.err != nil {
		return 0, c.err
	}
	n, found := slices.BinarySearchFunc(s, i, cmp.Compare)
	switch {
	case found:
		return s[n], nil
	case n == 0:
		return 0, refuseAs(ErrRange, "current", i, fmt.Sprintf("at least %v, the smallest rating of the series", s[0]))
	}
	return s[n-1], nil
}

// RatingLimit is the highest rating that a rule set lets protect a conductor.
type RatingLimit struct {
	Rules   Rules
	Limit   units.Current
	Because string // the rule in words, with its place
}

// LargestRating is the highest rating that a rule set lets protect a conductor of an
// ampacity (by the same rule set, with all its factors) at the voltage of the system:
//
//	ISO 13297     the ampacity
//	33 CFR 183    150 % of it below 50 V; from 50 V as the next
//	ABYC E-11     the ampacity, or the next rating of the series above it if that is
//	              not more than 150 % of it
//	IEC 60092     the ampacity
//
// 33 CFR 183.455(c), 46 CFR 183.380(d), ABYC E-11. For ISO and IEC the rule is
// recalled and not confirmed. Where the limit is a size of the series it is that
// size, otherwise the bare limit.
func LargestRating(r Rules, ampacity units.Current, system units.Voltage, series Ratings) (RatingLimit, error) {
	var c checker
	positive(&c, "ampacity", ampacity)
	positive(&c, "system", system)
	series.check(&c, "series")
	if c.err != nil {
		return RatingLimit{}, c.err
	}
	l := RatingLimit{Rules: r, Limit: ampacity}
	nextSize := func() {
		next, err := series.AtLeast(ampacity)
		if err == nil && next <= ampacity.Scale(1.5) {
			l.Limit = next
		}
	}
	switch r {
	case ISO:
		l.Because = "not more than the conductor's ampacity (ISO 13297, table A.1)"
	case IEC60092:
		l.Because = "not more than the conductor's ampacity (IEC 60092-202)"
	case CFR:
		if system < 50*units.Volt {
			l.Limit = ampacity.Scale(1.5)
			l.Because = "below 50 V at most 150 % of table 5 (33 CFR 183.455(c)(1))"
		} else {
			nextSize()
			l.Because = "from 50 V at most table 5, or the next size if that is within 150 % (33 CFR 183.455(c)(2))"
		}
	case E11:
		nextSize()
		l.Because = "at most the ampacity, or the next size if that is within 150 % (ABYC E-11)"
	default:
		return RatingLimit{}, unknownRules(r)
	}
	return l, nil
}

func unknownRules(r Rules) error {
	return refuseAs(ErrUnknown, "rules", fmt.Sprintf("%q", r), fmt.Sprintf("one of %q", AllRules()))
}

// ChooseRating is the smallest rating of the series that carries a load, if the rule
// set lets it protect the conductor. The error is an [ErrRating] if the rule does
// not: then the conductor is too small for the load.
func ChooseRating(r Rules, load, ampacity units.Current, system units.Voltage, series Ratings) (units.Current, RatingLimit, error) {
	var c checker
	positive(&c, "load", load)
	if c.err != nil {
		return 0, RatingLimit{}, c.err
	}
	limit, err := LargestRating(r, ampacity, system, series)
	if err != nil {
		return 0, limit, err
	}
	rating, err := series.AtLeast(load)
	if err != nil {
		return 0, limit, err
	}
	if rating > limit.Limit {
		return 0, limit, refuseAs(ErrRating, "load", load, fmt.Sprintf(
			"a rating of at most %.3v: %s; the load asks for %.3v", limit.Limit, limit.Because, rating))
	}
	return rating, limit, nil
}
