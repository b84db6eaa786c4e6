package rode

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/forepeak/units"
)

// Method is how a Calibration comes by its interval.
type Method string

// The ways to an interval.
const (
	// ByLeastSquares: what differs at random from lay to lay is at least as large as
	// a pulse, so rounding is one error among others.
	ByLeastSquares Method = "least squares"
	// ByLikelihood: the rounding of pulses and display is the greatest error, so
	// that what the readings exclude says more than their mean.
	ByLikelihood Method = "interval likelihood"
	// ByFeasibleSet: there is one lay, and its random error is not known.
	ByFeasibleSet Method = "feasible set"
	// ByBoth: how large the random error is, is not known; the interval holds what
	// either of the two says.
	ByBoth Method = "least squares and feasible set"
)

// Calibration is what test lays say of the payout per turn.
type Calibration struct {
	// Payout per turn is what to set the counter to, with its standard uncertainty
	// and the 95 % interval, which come by Method.
	Payout, U units.Length
	Interval  units.Interval[units.Length]
	Method    Method

	// LeastSquares is the 95 % interval by weighted least squares, zero where there
	// is one lay and its scatter is not known. Feasible are all payouts that can
	// have given the readings, with as much random error as 95 sets in 100 have;
	// zero where there is none, so that something else is wrong.
	LeastSquares, Feasible units.Interval[units.Length]

	// Random is the standard deviation of a lay, without the rounding of the
	// counter where it was given, with it where it was judged from the lays.
	Random units.Length
	// Chance is the probability that lays with the errors that were given scatter
	// as much as these do; 1 where their scatter was not given.
	Chance float64

	Lays []LayResult
	// Line and Directions tell slip from scale; nil where the lays do not allow it.
	Line       *LayLine       `json:",omitempty"`
	Directions *LayDirections `json:",omitempty"`
	// Advice is what would make the calibration better, the most useful first.
	Advice []string `json:",omitempty"`
}

// LayResult is one lay in a Calibration.
type LayResult struct {
	Turns  float64 // of the wheel, the middle of what the readings allow
	TurnsU float64 // its standard uncertainty
	// Residual is the taped length less Turns times the payout, by least squares, of
	// all lays that are no outliers.
	Residual units.Length
	// Studentised is the residual, before anything that stands out less was set
	// aside, in standard deviations: of the errors given, or of the scatter of all
	// other lays. It is 0 where it cannot be had.
	Studentised float64
	// Chance that the largest among so many residuals is this large (Bonferroni).
	Chance float64
	// Outlier is a lay with a chance of less than 5 %: measure it again. Outliers
	// are shown, not dropped: the payout is that of all lays.
	Outlier bool
}

// Calibrate finds what a turn of the wheel pays out from test lays, whose
// readings the counter c gave. Chain and rope need calibrations of their own.
//
// By weighted least squares through the origin
//
//	payout = sum(x y / v) / sum(x² / v),  v = uTape² + uRepeat² + uRounding² payout²
//
// x turns and y taped; the rounding is that of one or two ends, each anywhere
// between two pulses, or of none where the display changed. uRepeat is given,
// or the scatter is judged from the residuals, with Student's factor (JCGM
// 100:2008, annex G). The scale of the tape is added to it, common to all lays.
//
// The feasible set is the intersection of what each lay allows,
//
//	(taped - e) / most turns <= payout <= (taped + e) / least turns
//
// with e so large that the random errors of all lays keep within it in 95 of 100
// sets. Between the two lies the interval likelihood: the density of each taped
// length, rounding and random error together, as a function of the payout. It is
// the answer where the random error is given and less than a pulse; otherwise see
// Method.
//
// A lay of less than about two pulses is refused. Payout is per turn out, averaged
// over both directions if the lays go both ways; look at Directions and Line
// before believing it, and at Outlier before anything else.
func Calibrate(c Counter, lays []Lay, e LayErrors) (Calibration, error) {
	var k checker
	c.check(&k)
	e.check(&k)
	ts := c.travels(&k, lays)
	if k.err != nil {
		return Calibration{}, k.err
	}
	known := e.Repeat > 0
	samples, err := samplesOf(&c, ts, e)
	if err != nil {
		return Calibration{}, err
	}
	var r Calibration
	fit := fitPayout(samples, known)
	widest := 0.0
	for i := range ts {
		widest = math.Max(widest, math.Max(ts[i].start, ts[i].end))
	}
	// By the setting, not the fit: what the lays happen to give must not choose.
	rounding := widest / c.pulses() * float64(c.Setting)
	r.Feasible = feasible(&c, ts, e)
	r.LeastSquares = fit.interval(e.TapeScale)
	r.Random, r.Chance = units.Length(e.random()), fit.chance
	if !known && fit.free > 0 {
		r.Random = units.Length(fit.scatter)
	}
	r.choose(fit, e)
	if known && e.random() < rounding {
		r.byLikelihood(&c, ts, e)
	}
	between(&k, "lays: payout", r.Payout, leastPayout, mostPayout)
	if k.err != nil {
		return Calibration{}, k.err
	}
	r.Lays = results(&c, ts, samples, known)
	r.Line = fitLine(samples, known)
	r.Directions = fitDirections(samples, known)
	r.advise(e.random() < rounding)
	return r, nil
}

// samplesOf turns what is known of the wheel into samples. The variance of the
// rounding depends on the payout, roughly known from the sums.
func samplesOf(c *Counter, ts []travel, e LayErrors) ([]laySample, error) {
	var x, y float64
	for i := range ts {
		x += ts[i].mid() / c.pulses()
		y += ts[i].taped
	}
	perPulse := y / x / c.pulses()
	random := e.random()
	ss := make([]laySample, len(ts))
	exact := 0
	for i := range ts {
		ss[i] = laySample{
			x: ts[i].mid() / c.pulses(), y: ts[i].taped, inward: ts[i].inward,
			variance: random*random + perPulse*perPulse*ts[i].variance(),
		}
		if ss[i].variance == 0 {
			exact++
		}
	}
	switch {
	case exact == len(ss): // all alike
		for i := range ss {
			ss[i].variance = 1
		}
	case exact > 0:
		return nil, refuse("Tape", e.Tape, "more than 0 where some lays are read at changes of the display and others are not")
	}
	return ss, nil
}

// payoutFit is a straight line through the origin.
type payoutFit struct {
	payout, u float64
	free      int     // degrees of freedom of a scatter judged from the samples; 0 if it is known
	scale     float64 // of the variances
	scatter   float64 // standard deviation of the residuals
	lacking   bool    // one sample, and its scatter is not known
	known     bool
	sum       float64 // of x²/v
	chance    float64 // of the residuals, where the scatter is known
}

func fitPayout(samples []laySample, known bool) payoutFit {
	f := payoutFit{known: known, scale: 1, chance: 1}
	var sxy float64
	for _, s := range samples {
		f.sum += s.x * s.x / s.variance
		sxy += s.x * s.y / s.variance
	}
	f.payout = sxy / f.sum
	var chi2, squares float64
	for _, s := range samples {
		r := s.y - f.payout*s.x
		chi2 += r * r / s.variance
		squares += r * r
	}
	free := len(samples) - 1
	switch {
	case known && free > 0:
		f.chance = distuv.ChiSquared{K: float64(free)}.Survival(chi2)
	case known:
	case free == 0:
		f.lacking = true
	default:
		f.free = free
		f.scale = chi2 / float64(free)
	}
	if free > 0 {
		f.scatter = math.Sqrt(squares / float64(free))
	}
	f.u = math.Sqrt(f.scale / f.sum)
	return f
}

// expanded is the standard uncertainty with that of the tape's scale, and the
// half width of the 95 % interval (Welch-Satterthwaite).
func (f *payoutFit) expanded(tapeScale float64) (u, half float64) {
	u = math.Hypot(f.u, tapeScale*f.payout)
	if f.free == 0 {
		return u, quantile95(0) * u
	}
	if f.u == 0 {
		return u, quantile95(0) * u
	}
	ratio := u / f.u
	nu := float64(f.free) * ratio * ratio * ratio * ratio
	if nu > 1e6 {
		return u, quantile95(0) * u
	}
	return u, distuv.StudentsT{Sigma: 1, Nu: nu}.Quantile(0.975) * u
}

func (f *payoutFit) interval(tapeScale float64) (i units.Interval[units.Length]) {
	if f.lacking {
		return i
	}
	_, half := f.expanded(tapeScale)
	i.Low, i.High = units.Length(f.payout-half), units.Length(f.payout+half)
	return i
}

// sigmas is how many standard deviations n errors keep within, all of them, in
// 95 of 100 cases.
func sigmas(n int) float64 {
	return distuv.UnitNormal.Quantile((1 + math.Pow(0.95, 1/float64(n))) / 2)
}

// allowed is the set of payouts per pulse that no lay excludes when its random
// error is at most slack; not ok if it is empty.
func allowed(ts []travel, slack float64) (low, high float64, ok bool) {
	high = math.Inf(1)
	for i := range ts {
		t := &ts[i]
		low = math.Max(low, (t.taped-slack)/t.most)
		high = math.Min(high, (t.taped+slack)/t.least)
	}
	// Readings without any rounding or error leave a point, which rounding of the
	// numbers must not make empty.
	if low > high*(1+1e-12) {
		return 0, 0, false
	}
	return math.Min(low, high), math.Max(low, high), true
}

// feasible is the set of payouts that the lays and the tape allow.
func feasible(c *Counter, ts []travel, e LayErrors) (i units.Interval[units.Length]) {
	n := len(ts)
	if e.TapeScale > 0 {
		n++
	}
	z := sigmas(n)
	low, high, ok := allowed(ts, z*e.random())
	if !ok {
		return i
	}
	m := c.pulses()
	i.Low, i.High = units.Length(low*m*(1-z*e.TapeScale)), units.Length(high*m*(1+z*e.TapeScale))
	return i
}

// choose takes least squares, with the feasible set beside it where the random
// error is not known, or in its place where the scatter cannot be judged.
func (r *Calibration) choose(fit payoutFit, e LayErrors) {
	u, _ := fit.expanded(e.TapeScale)
	r.Payout, r.U = units.Length(fit.payout), units.Length(u)
	r.Interval, r.Method = r.LeastSquares, ByLeastSquares
	switch {
	case fit.lacking:
		r.Interval, r.Method = r.Feasible, ByFeasibleSet
		r.Payout = (r.Feasible.Low + r.Feasible.High).Scale(0.5)
		r.U = (r.Feasible.High - r.Feasible.Low).Scale(1 / math.Sqrt(12))
	case !fit.known && r.Feasible.High > 0:
		r.Method = ByBoth
		r.Interval.Low = min(r.LeastSquares.Low, r.Feasible.Low)
		r.Interval.High = max(r.LeastSquares.High, r.Feasible.High)
	}
}

// results are the lays with their residuals and the test for outliers: the lay
// that stands out most is set aside as long as it is more than chance, and what
// remains is fitted again, since one bad lay pulls the line away from the good. It
// is not set aside where slip, in every lay or by direction, explains more.
func results(c *Counter, ts []travel, samples []laySample, known bool) []LayResult {
	rs := make([]LayResult, len(samples))
	left := make([]int, len(samples)) // not set aside
	for i, s := range samples {
		rs[i] = LayResult{Turns: s.x, TurnsU: math.Sqrt(ts[i].variance()) / c.pulses(), Chance: 1}
		left[i] = i
	}
	for {
		kept := make([]laySample, len(left))
		for i, j := range left {
			kept[i] = samples[j]
		}
		f := fitPayout(kept, known)
		worst := 0
		for i, j := range left {
			rs[j].Studentised, rs[j].Chance = f.studentised(kept[i], len(kept))
			if math.Abs(rs[j].Studentised) > math.Abs(rs[left[worst]].Studentised) {
				worst = i
			}
		}
		if rs[left[worst]].Chance >= 0.05 || len(left) < 3 || slipExplains(kept, worst, known) {
			for i, s := range samples {
				rs[i].Residual = units.Length(s.y - f.payout*s.x)
			}
			return rs
		}
		rs[left[worst]].Outlier = true
		left = slices.Delete(left, worst, worst+1)
	}
}

// slipExplains reports whether a line with slip, or a payout for either direction,
// comes nearer to all samples than the payout does to all but one: each costs one
// degree of freedom.
func slipExplains(samples []laySample, without int, known bool) bool {
	misfit := func(samples []laySample, predict func(s laySample) float64) float64 {
		var chi2 float64
		for _, s := range samples {
			r := s.y - predict(s)
			chi2 += r * r / s.variance
		}
		return chi2
	}
	others := slices.Delete(slices.Clone(samples), without, without+1)
	payout := fitPayout(others, known).payout
	left := misfit(others, func(s laySample) float64 { return payout * s.x })
	if l := fitLine(samples, known); l != nil &&
		misfit(samples, func(s laySample) float64 { return float64(l.Slip) + float64(l.Payout)*s.x }) < left {
		return true
	}
	d := fitDirections(samples, known)
	return d != nil && misfit(samples, func(s laySample) float64 {
		if s.inward {
			return float64(d.In) * s.x
		}
		return float64(d.Out) * s.x
	}) < left
}

// studentised is the residual of one of n samples in standard deviations, and
// the chance that the largest of them is so large (Bonferroni).
func (f *payoutFit) studentised(s laySample, n int) (t, chance float64) {
	residual := s.y - f.payout*s.x
	// What the sample's own pull on the line spares of its variance.
	left := s.variance * (1 - s.x*s.x/s.variance/f.sum)
	switch {
	case left <= 1e-9*s.variance || !f.known && f.free < 2:
		return 0, 1
	case f.known:
		t = residual / math.Sqrt(left)
		chance = 2 * distuv.UnitNormal.Survival(math.Abs(t))
	default:
		free := f.free - 1
		others := (f.scale*float64(f.free) - residual*residual/left) / float64(free)
		t, chance = studentised(residual, left, others, s.y, free)
	}
	return t, math.Min(1, float64(n)*chance)
}

// studentised is a residual in standard deviations of what scatter the other
// lays have, and its two-sided probability.
func studentised(residual, left, others, taped float64, free int) (t, chance float64) {
	const rounded = 1e-12 // of numbers, not of counters
	switch {
	case math.Abs(residual) <= rounded*taped:
		return 0, 1
	case others <= rounded*residual*residual/left: // the others agree perfectly
		return math.Copysign(math.MaxFloat64, residual), 0
	}
	t = residual / math.Sqrt(left*others)
	return t, 2 * distuv.StudentsT{Sigma: 1, Nu: float64(free)}.Survival(math.Abs(t))
}

func (r *Calibration) advise(rounding bool) {
	add := func(format string, a ...any) { r.Advice = append(r.Advice, fmt.Sprintf(format, a...)) }
	odd := false // and then the rest of the statistics is about it
	for i, l := range r.Lays {
		if l.Outlier {
			odd = true
			add("lay %d is off by %.2f m, more than chance: measure it again", i+1, l.Residual.Metres())
		}
	}
	if !odd && r.Chance < 0.01 {
		add("the lays scatter more than the errors given would have them do")
	}
	if !odd && r.Feasible.High == 0 {
		add("no payout gives all these readings: beyond rounding and the errors given something slipped, was missed, or was misread")
	}
	if rounding {
		add("read each lay at the instant the display changes, at both ends: the pulses are then counted exactly")
	}
	if r.Line == nil {
		add("what slips in every lay cannot be told from the scale: add a lay of another length")
	} else if r.Line.Told && !odd {
		add("every lay slips by %.2f m whatever its length: the line, %.4f m a turn, fits better than the payout", r.Line.Slip.Metres(), r.Line.Payout.Metres())
	}
	if r.Directions == nil {
		add("what slips with every turn cannot be told from the scale: lay in both directions")
	} else if r.Directions.Told && !odd {
		add("a turn carries %.4f m out and %.4f m in: the chain slips on the wheel", r.Directions.Out.Metres(), r.Directions.In.Metres())
	}
}
