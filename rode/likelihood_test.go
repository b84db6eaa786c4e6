package rode

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// The density of the rounding of two ends, each anywhere within its width, and a
// normal error, by the definition: the mean of the normal density over all pairs of
// places of the ends. Its logarithm is known up to a constant.
func TestLogDensityIsThatOfTheSum(t *testing.T) {
	for _, c := range []struct{ start, end, sigma float64 }{
		{1, 1, 0.3}, {1, 1, 0.05}, {1, 0, 0.2}, {0, 1, 0.05}, {1, 3, 0.4}, {3, 1, 0.1}, {0.3, 0.4, 2}, {0, 0, 0.4},
	} {
		r := rounded{outer: (c.start + c.end) / 2, inner: math.Abs(c.start-c.end) / 2, sigma: c.sigma}
		density := func(u float64) float64 {
			one := func(width float64, f func(x float64) float64) float64 {
				if width == 0 {
					return f(0)
				}
				sum := 0.0
				for i := range 14 {
					a, b := width*(float64(i)/14-0.5), width*(float64(i+1)/14-0.5)
					sum += quad.Fixed(f, a, b, 12, nil, 0)
				}
				return sum / width
			}
			return one(c.start, func(x float64) float64 {
				return one(c.end, func(y float64) float64 { return distuv.Normal{Sigma: c.sigma}.Prob(u - x - y) })
			})
		}
		at0, top := r.logDensity(0), math.Log(density(0))
		for _, u := range []float64{0.01, 0.3, 0.5, 0.9, 1.4, 2.2, r.outer, r.inner, r.outer + 4.9*c.sigma, r.outer + 5.1*c.sigma, r.outer + 7*c.sigma} {
			want := math.Log(density(u)) - top
			for _, u := range []float64{u, -u} {
				// The series of the tail is good to its next term, 945/5^8 where it begins.
				if got := r.logDensity(u) - at0; !(math.Abs(got-want) <= 2.5e-3) {
					t.Errorf("%+v at %v: log density %v below the middle, by integration %v", c, u, got, want)
				}
			}
		}
	}
}

// The interval of the likelihood is that of a fine sum over a wide range, and lays
// read in different ways go together: one between changes of the display, which says
// most, one whose end is, and one read standing.
func TestLikelihoodBySumming(t *testing.T) {
	normal := distuv.Normal{Sigma: 0.08}
	// Each density by hand: none, one or two ends that are spread over a pulse.
	const n = 60
	ends := func(u, pulse float64, spread int) (sum float64) {
		switch spread {
		case 0:
			return normal.Prob(u)
		case 1:
			return (normal.CDF(u+pulse/2) - normal.CDF(u-pulse/2)) / pulse
		}
		for i := range n {
			x := pulse * ((float64(i)+0.5)/n - 0.5)
			sum += (normal.CDF(u-x+pulse/2) - normal.CDF(u-x-pulse/2)) / pulse / n
		}
		return sum
	}
	for _, ts := range [][]travel{
		{{least: 30, most: 30, taped: 10.1}, {least: 20, most: 21, start: 1, taped: 6.9}, {least: 49, most: 51, start: 1, end: 1, taped: 16.9}},
		{{least: 49, most: 51, start: 1, end: 1, taped: 16.9}, {least: 20, most: 22, start: 1, end: 1, taped: 6.9}},
		{{least: 30, most: 30, taped: 10.1}, {least: 12, most: 12, taped: 3.9}},
	} {
		const points = 2001
		low, high := 0.32, 0.36
		var below [points]float64
		var mean, square, whole float64
		p := func(i int) float64 { return low + (high-low)*float64(i)/(points-1) }
		for i := range below {
			like := 1.0
			for _, l := range ts {
				spread := int(l.most - l.least)
				like *= ends(l.taped-p(i)*(l.least+l.most)/2, p(i), spread)
			}
			whole += like
			mean += like * p(i)
			square += like * p(i) * p(i)
			below[i] = whole - like/2
		}
		mean /= whole
		sd := math.Sqrt(square/whole - mean*mean)
		at := func(part float64) float64 {
			i := 0
			for below[i] < part*whole {
				i++
			}
			return (p(i-1) + p(i)) / 2
		}
		l := likelihood{ts, normal.Sigma}
		gotMean, gotSD, from, to, ok := l.interval(0.2, 0.5)
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"mean", gotMean, mean}, {"standard deviation", gotSD, sd}, {"low end", from, at(0.025)}, {"high end", to, at(0.975)}} {
			// Its 48 steps are some nine to the standard deviation, with straight lines between.
			if !ok || !(math.Abs(c.got-c.want) <= 0.02*sd) {
				t.Errorf("%+v: %s %v, by a fine sum %v (standard deviation %v)", ts, c.what, c.got, c.want, sd)
			}
		}
	}
}
