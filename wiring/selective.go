package wiring

import (
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Selectivity is how two devices in series share their work.
type Selectivity struct {
	// Full says that up to the prospective current the lower device alone opens.
	Full bool
	// UpTo is the current to which that is so; the prospective current when Full, 0 if
	// it is lost as soon as the lower device can open at all.
	UpTo units.Current
	// Upper and Lower are the openings at UpTo and just above it when not Full.
	Upper, Lower OpenTimes
}

// Selective compares two devices in series from the lower one's rating up to a prospective
// fault current. It is selective at a current at which the upper device holds for
// ever, or opens, at the earliest, after the lower one at the latest. A fuse
// that has carried a fault for nearly its melting time is damaged even if the breaker
// below it opened first.
//
// Bands from type tests seldom prove it: where an earliest time is not stated, it is 0.
func Selective(upper, lower Device, prospective units.Current) (Selectivity, error) {
	var c checker
	upper.check(&c, "upper")
	lower.check(&c, "lower")
	must(&c, upper.Band != nil, "upper.Band", "not given", "the band of the device")
	must(&c, lower.Band != nil, "lower.Band", "not given", "the band of the device")
	positive(&c, "prospective", prospective)
	must(&c, prospective > lower.Rating, "prospective", prospective, "more than the rating of the lower device")
	if c.err != nil {
		return Selectivity{}, c.err
	}
	lost := func(i float64) bool {
		u, l := i/upper.Rating.Amperes(), i/lower.Rating.Amperes()
		early := upper.Band.earliest(u)
		return !math.IsInf(early, 1) && early <= lower.Band.latest(l)
	}
	// Both curves are straight between their points, or jump at them, so looking
	// just below and above every point, and at the ends, finds the first loss; where
	// it lies between two looks, bisection does.
	lo, hi := lower.Rating.Amperes(), prospective.Amperes()
	looks := []float64{lo, hi}
	add := func(d Device) {
		at := []float64{1}
		for _, p := range d.Band.Points {
			at = append(at, p.Multiple)
		}
		for _, m := range at {
			i := m * d.Rating.Amperes()
			for _, x := range []float64{i * (1 - 1e-9), i, i * (1 + 1e-9)} {
				if x > lo && x < hi {
					looks = append(looks, x)
				}
			}
		}
	}
	add(upper)
	add(lower)
	slices.Sort(looks)
	good := 0.0
	for _, i := range looks {
		if !lost(i) {
			good = i
			continue
		}
		s := Selectivity{}
		if good > 0 {
			bad := i
			for range 100 {
				mid := good + (bad-good)/2
				if lost(mid) {
					bad = mid
				} else {
					good = mid
				}
			}
			s.UpTo = units.Current(good)
			i = bad
		}
		s.Upper = upper.Band.opening(i / upper.Rating.Amperes())
		s.Lower = lower.Band.opening(i / lower.Rating.Amperes())
		return s, nil
	}
	return Selectivity{
		Full: true, UpTo: prospective,
		Upper: upper.Band.opening(hi / upper.Rating.Amperes()),
		Lower: lower.Band.opening(hi / lower.Rating.Amperes()),
	}, nil
}
