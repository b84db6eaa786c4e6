package rode

import (
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// rounded is a length whose error has a hard part and a soft one: two ends, each
// anywhere within its width, and a normal error.
type rounded struct {
	outer, inner float64 // half the foot and half the top of the trapezium of the two ends
	sigma        float64
}

// logDensity is the logarithm of the density of the error u, up to a constant
// that does not depend on u or the widths: a trapezium, which is the second
// difference of a ramp, a box, which is the difference of two steps, or nothing but
// the error itself, smoothed by the normal error.
func (r rounded) logDensity(u float64) float64 {
	u = math.Abs(u)
	if r.outer == 0 {
		z := u / r.sigma
		return -z * z / 2
	}
	box := r.outer == r.inner // one end only
	first := (u - r.outer) / r.sigma
	if !(first > 5) {
		sum := 0.0
		if box {
			sum = normalAbove(first) - normalAbove((u+r.outer)/r.sigma)
		} else {
			sum = rampAbove(first)
			sum += rampAbove((u+r.outer)/r.sigma) - rampAbove((u-r.inner)/r.sigma) - rampAbove((u+r.inner)/r.sigma)
		}
		return math.Log(sum)
	}
	// Far out what all edges have in common is taken out, lest nothing be left.
	smooth := rampFar
	if box {
		smooth = normalFar
	}
	edge := func(at float64) float64 {
		z := (u - at) / r.sigma
		down := (z - first) * (z + first) / 2
		if down > 40 {
			return 0
		}
		return math.Exp(-down) * smooth(z)
	}
	sum := edge(r.outer)
	if box {
		sum -= edge(-r.outer)
	} else {
		sum += edge(-r.outer) - edge(r.inner) - edge(-r.inner)
	}
	return math.Log(sum) - first*first/2 - math.Log(2*math.Pi)/2
}

func normalAbove(z float64) float64   { return math.Erfc(z/math.Sqrt2) / 2 }
func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// rampAbove is a ramp that falls to 0 at its foot, smoothed.
func rampAbove(z float64) float64 {
	switch {
	case z > 9:
		return 0
	case z < -9:
		return -z
	}
	return normalDensity(z) - z*normalAbove(z)
}

// normalFar and rampFar are what normalAbove and rampAbove are, far above 0, over the
// normal density.
func normalFar(z float64) float64 {
	q := 1 / (z * z)
	return (1 - q*(1-q*(3-q*15))) / z
}

func rampFar(z float64) float64 {
	q := 1 / (z * z)
	return q * (1 - q*(3-q*(15-q*105)))
}

// likelihood is that of a payout per pulse, given all lays.
type likelihood struct {
	ts    []travel
	sigma float64
}

func (l *likelihood) log(perPulse float64) float64 {
	var sum float64
	logP := math.Log(perPulse)
	for i := range l.ts {
		t := &l.ts[i]
		r := rounded{
			outer: perPulse * (t.start + t.end) / 2,
			inner: perPulse * math.Abs(t.start-t.end) / 2,
			sigma: l.sigma,
		}
		sum += r.logDensity(t.taped - perPulse*t.mid())
		for _, width := range [...]float64{t.start, t.end} {
			if width > 0 { // the wider, the lower
				sum -= logP
			}
		}
	}
	return sum
}

// interval is the mean, the standard deviation and the central 95 % of the
// normalised likelihood, between bounds outside which it is nothing. For a
// location, which the payout nearly is, such an interval covers what it says.
func (l *likelihood) interval(low, high float64) (mean, sd, from, to float64, ok bool) {
	mode := l.mode(low, high)
	top := l.log(mode)
	edge := func(end float64) float64 {
		const drop = 11 // e^-11, 2 in 100,000, is nothing
		f := func(p float64) (float64, error) { return math.Max(l.log(p)-top+drop, -math.MaxFloat64), nil }
		x, err := root.Find(f, end, mode, 1e-2*math.Abs(end-mode))
		if err != nil {
			return end // it has not dropped there yet, and does not count beyond
		}
		return x
	}
	low, high = edge(low), edge(high)
	const n = 48
	var density, below [n + 1]float64
	step := (high - low) / n
	for i := range density {
		density[i] = math.Exp(l.log(low+step*float64(i)) - top)
		if i > 0 {
			below[i] = below[i-1] + (density[i-1]+density[i])/2
		}
	}
	whole := below[n]
	if !(whole > 0) || math.IsInf(whole, 0) {
		return 0, 0, 0, 0, false
	}
	var first, second float64
	for i, d := range density {
		first += d * float64(i)
		second += d * float64(i) * float64(i)
	}
	var sum float64
	for _, d := range density {
		sum += d
	}
	first /= sum
	mean = low + step*first
	sd = step * math.Sqrt(math.Max(0, second/sum-first*first))
	at := func(part float64) float64 {
		i := 1
		for i < n && below[i] < part*whole {
			i++
		}
		return low + step*(float64(i-1)+(part*whole-below[i-1])/(below[i]-below[i-1]))
	}
	return mean, sd, at(0.025), at(0.975), true
}

// mode is where the likelihood, which has one top, is greatest.
func (l *likelihood) mode(low, high float64) float64 {
	const golden = 0.6180339887498949
	a, b := high-golden*(high-low), low+golden*(high-low)
	fa, fb := l.log(a), l.log(b)
	for range 12 { // good enough to start from
		if fa < fb {
			low, a, fa = a, b, fb
			b = low + golden*(high-low)
			fb = l.log(b)
		} else {
			high, b, fb = b, a, fa
			a = high - golden*(high-low)
			fa = l.log(a)
		}
	}
	return (low + high) / 2
}

// byLikelihood puts the interval of the normalised likelihood into r, unless the
// lays contradict each other, and then least squares stands.
func (r *Calibration) byLikelihood(c *Counter, ts []travel, e LayErrors) {
	l := likelihood{ts, e.random()}
	low, high, ok := allowed(ts, sigmas(len(ts))*l.sigma)
	if !ok {
		return
	}
	var travelled float64
	for i := range ts {
		travelled = math.Max(travelled, ts[i].mid())
	}
	margin := high - low + 8*l.sigma/travelled
	mean, sd, from, to, ok := l.interval(math.Max(low/2, low-margin), high+margin)
	if !ok {
		return
	}
	m := c.pulses()
	scale := e.TapeScale * mean
	half := quantile95(0) * scale
	r.Payout = units.Length(mean * m)
	r.U = units.Length(m * math.Hypot(sd, scale))
	r.Interval = units.Interval[units.Length]{
		Low:  units.Length(m * (mean - math.Hypot(mean-from, half))),
		High: units.Length(m * (mean + math.Hypot(to-mean, half))),
	}
	r.Method = ByLikelihood
}
