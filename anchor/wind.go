package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// Wind is a wind over open water.
type Wind struct {
	Speed  units.Speed  // up to 100 m/s
	Height units.Length // where that is measured, from 1 m to 200 m; 0 counts as 10 m
	// Exponent of the growth of speed with height, at most 1; 0 counts as 1/7.
	Exponent float64
	Air      Air
}

const seventh = 1.0 / 7

// At is the speed at a height above the water, by the power law
//
//	V(z) = V(h) (z/h)^n,  n = 1/7 or the wind's own
//
// (Coastal Engineering Manual, EM 1110-2-1100, part II, chapter 2; good to about
// 20 m). At the water it is 0.
func (w Wind) At(height units.Length) (units.Speed, error) {
	var c checker
	w.check(&c)
	between(&c, "height", height, 0, 200)
	if c.err != nil {
		return 0, c.err
	}
	return w.Speed.Scale(math.Pow(height.Per(or(w.Height, 10)), or(w.Exponent, seventh))), nil
}

// Pressure is the dynamic pressure at the height where the wind was measured,
// rho V²/2.
func (w Wind) Pressure() (units.Pressure, error) {
	var c checker
	w.check(&c)
	return units.Pressure(w.pressure()), c.err
}

func (w Wind) pressure() float64 {
	return w.Air.density() * float64(w.Speed) * float64(w.Speed) / 2
}

func (w Wind) check(c *checker) {
	between(c, "Wind.Speed", w.Speed, 0, 100)
	between(c, "Wind.Height", or(w.Height, 10), 1, 200)
	between(c, "Wind.Exponent", or(w.Exponent, seventh), 1e-9, 1)
	if c.err == nil {
		w.Air.check(c)
		if e, ok := c.err.(*Error); ok {
			e.Field = "Wind.Air." + e.Field
		}
	}
}

// exposure is the mean of V² between two heights over V² at the wind's own, and
// the height at which the mean force acts.
func (w Wind) exposure(bottom, top float64) (mean, centre float64) {
	h := float64(or(w.Height, 10))
	m := 2 * or(w.Exponent, seventh)
	if top-bottom <= 1e-6*top {
		z := (bottom + top) / 2
		return math.Pow(z/h, m), z
	}
	// Integrals of z^m and of z^(m+1).
	force := (math.Pow(top, m+1) - math.Pow(bottom, m+1)) / (m + 1)
	moment := (math.Pow(top, m+2) - math.Pow(bottom, m+2)) / (m + 2)
	return force / (top - bottom) / math.Pow(h, m), moment / force
}

// GustFactor is the strongest mean over a short time in an hour over the mean of a
// longer time, both from 1 s to 10 h,
//
//	U(t)/U(3600) = 1.277 + 0.296 tanh(0.9 log10(45/t))  up to 3600 s
//	             = 1.5334 - 0.15 log10(t)               beyond
//
// (Shore Protection Manual, 1984, figure 3-13, and Coastal Engineering Manual, part
// II, chapter 2: a fit to Durst's curve of 1960, from winds over open, level
// country; at an hour its branches miss each other by 0.03 %). Winds over the open
// sea are less gusty, an anchorage under hills far more so: there gusts of twice the
// mean are common.
func GustFactor(gust, mean units.Time) (float64, error) {
	var c checker
	between(&c, "gust", gust, 1, 36000)
	between(&c, "mean", mean, 1, 36000)
	c.must(gust <= mean, "gust", gust, "no longer than mean")
	if c.err != nil {
		return 0, c.err
	}
	return durst(float64(gust)) / durst(float64(mean)), nil
}

func durst(t float64) float64 {
	if t <= 3600 {
		return 1.277 + 0.296*math.Tanh(0.9*math.Log10(45/t))
	}
	return 1.5334 - 0.15*math.Log10(t)
}
