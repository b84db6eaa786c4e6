package anchor

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Gumbel is a distribution of the greatest load in a time, fitted to that of
// several such times:
//
//	P(greatest < x) = exp(-exp(-(x - mode)/scale))
type Gumbel struct {
	Mode, Scale units.Force
	N           int // number of times fitted to
}

// FitGumbel fits by the greatest likelihood. It needs ten loads or more that are not
// all alike.
func FitGumbel(peaks []units.Force) (Gumbel, error) {
	if len(peaks) < 10 {
		return Gumbel{}, refuse("peaks", fmt.Sprintf("%d long", len(peaks)), "ten or more")
	}
	for i, p := range peaks {
		if !(math.Abs(float64(p)) <= 1e12) {
			return Gumbel{}, refuse(fmt.Sprintf("peaks[%d]", i), p, "a load")
		}
	}
	lo, hi := slices.Min(peaks), slices.Max(peaks)
	width := float64(hi - lo)
	if !(width > 1e-9*math.Abs(float64(hi))) {
		return Gumbel{}, refuse("peaks", hi, "loads that differ")
	}
	n := float64(len(peaks))
	mean := 0.0
	for _, p := range peaks {
		mean += float64(p-lo) / n
	}
	// scale = mean(x) - sum(x exp(-x/scale)) / sum(exp(-x/scale)), x above the least.
	excess := func(scale float64) (float64, error) {
		var sum, weighted float64
		for _, p := range peaks {
			x := float64(p - lo)
			e := math.Exp(-x / scale)
			sum += e
			weighted += x * e
		}
		return scale - mean + weighted/sum, nil
	}
	scale, err := root.Find(excess, 1e-6*width, 2*width, 1e-12*width)
	if err != nil {
		return Gumbel{}, err
	}
	sum := 0.0
	for _, p := range peaks {
		sum += math.Exp(-float64(p-lo) / scale)
	}
	return Gumbel{Mode: lo + units.Force(-scale*math.Log(sum/n)), Scale: units.Force(scale), N: len(peaks)}, nil
}

// Quantile is a load that the greatest stays under with a probability, and the
// interval about it that holds the true one in 90 of 100 cases.
type Quantile struct {
	Load units.Force
	units.Interval[units.Force]
}

// Quantile is that of a probability above 0 and less than 1, its interval from the
// asymptotic covariance of the fit:
//
//	var = scale²/n (1.1087 + 0.5140 y + 0.6079 y²),  y = -ln(-ln p)
//
// The interval is for chance alone. It knows nothing of the errors of the model.
func (g Gumbel) Quantile(p float64) (Quantile, error) {
	if !(p > 0 && p < 1) {
		return Quantile{}, refuse("p", p, "more than 0 and less than 1")
	}
	var c checker
	between(&c, "Mode", g.Mode, -accept.Largest, accept.Largest)
	positive(&c, "Scale", g.Scale)
	c.must(g.N >= 1, "N", g.N, "1 or more")
	if c.err != nil {
		return Quantile{}, c.err
	}
	y := -math.Log(-math.Log(p))
	q := g.Mode + g.Scale.Scale(y)
	const pi2 = math.Pi * math.Pi
	a := 1 - eulerGamma
	variance := (1 + 6*a*a/pi2 + 12*a/pi2*y + 6*y*y/pi2) / float64(g.N)
	half := g.Scale.Scale(1.6449 * math.Sqrt(variance))
	return Quantile{q, units.Interval[units.Force]{Low: q - half, High: q + half}}, nil
}

const eulerGamma = 0.57721566490153286
