package rode_test

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// strayed are lays of 10, 20 and 30 turns that stray by 10 cm, none and 10 cm from
// 0.336 m a turn. By hand, with sum x² = 1400 and the sum of x times what they stray
// -2, the payout is 0.336 - 2/1400 and the residuals are those of strayedResiduals.
func strayed() []rode.Lay {
	lays := laysBetween(counter33, 0.336, 0, 10, 20, 30)
	lays[0].Taped += 0.1
	lays[2].Taped -= 0.1
	return lays
}

var strayedResiduals = [...]float64{0.1 + 20./1400, 40. / 1400, -0.1 + 60./1400}

func strayedSquares() (sum float64) {
	for _, r := range strayedResiduals {
		sum += r * r
	}
	return sum
}

// Where the scatter is not known it is that of the residuals, and the factor of the
// interval is Student's, as any table has it.
func TestScatterOfResiduals(t *testing.T) {
	const student2, student8 = 4.302653, 2.306004 // 97.5 % with 2 and 8 degrees of freedom
	r := calibrate(t, strayed(), rode.LayErrors{})
	scatter := math.Sqrt(strayedSquares() / 2)
	u := scatter / math.Sqrt(1400)
	near(t, "payout", float64(r.Payout), 0.336-2./1400, 1)
	near(t, "scatter", float64(r.Random), scatter, 1)
	near(t, "u", float64(r.U), u, 1)
	near(t, "low end", float64(r.Payout-r.Interval.Low)/u, student2, 1e3)
	near(t, "high end", float64(r.Interval.High-r.Payout)/u, student2, 1e3)
	// Between changes of the display no payout gives all three.
	if r.Method != rode.ByLeastSquares || r.Interval != r.LeastSquares || r.Feasible.High != 0 || r.Chance != 1 ||
		!strings.Contains(strings.Join(r.Advice, "\n"), "no payout gives all these readings") {
		t.Errorf("%+v", r)
	}
	// The scale of the tape, known with certainty, makes it less of a guess: twice
	// the variance is 2 (1/2)^-2 degrees of freedom (Welch and Satterthwaite).
	e := rode.LayErrors{TapeScale: u / float64(r.Payout)}
	r = calibrate(t, strayed(), e)
	near(t, "u with the tape's scale", float64(r.U), u*math.Sqrt2, 1)
	near(t, "its interval", float64(r.Interval.High-r.Payout)/float64(r.U), student8, 1e3)

	// Each lay against what scatter the others have, with one degree of freedom,
	// whose probability is that of an angle.
	for i, l := range r.Lays {
		x := 10 * float64(i+1)
		left := 1 - x*x/1400
		others := strayedSquares() - strayedResiduals[i]*strayedResiduals[i]/left
		want := strayedResiduals[i] / math.Sqrt(left*others)
		near(t, "turns", l.Turns, x, 1)
		near(t, "residual", float64(l.Residual), strayedResiduals[i], 1)
		near(t, "studentised", l.Studentised, want, 100)
		near(t, "chance", l.Chance, math.Min(1, 3*(1-2/math.Pi*math.Atan(math.Abs(want)))), 1)
	}
}

// Where the random error is given, residuals are compared with it. For two degrees
// of freedom the chance of a sum of squares is exp(-sum/2).
func TestChanceOfResiduals(t *testing.T) {
	for _, repeat := range []float64{0.05, 0.1} {
		r := calibrate(t, strayed(), rode.LayErrors{Repeat: units.Length(repeat)})
		near(t, "chance", r.Chance, math.Exp(-strayedSquares()/repeat/repeat/2), 1)
		near(t, "random", float64(r.Random), repeat, 1)
		for i, l := range r.Lays {
			x := 10 * float64(i+1)
			want := strayedResiduals[i] / repeat / math.Sqrt(1-x*x/1400)
			near(t, "studentised", l.Studentised, want, 1)
			near(t, "chance", l.Chance, math.Min(1, 3*math.Erfc(math.Abs(want)/math.Sqrt2)), 1)
			if l.TurnsU != 0 {
				t.Errorf("turns between changes are known, not to %v", l.TurnsU)
			}
		}
		scatters := strings.Contains(strings.Join(r.Advice, "\n"), "scatter more than the errors given")
		if scatters != (r.Chance < 0.01) {
			t.Errorf("chance %v, advice %q", r.Chance, r.Advice)
		}
	}
}

// One lay whose random error is not known: the middle of what it allows, with the
// standard deviation of a value that may be anywhere there.
func TestOneLayNotKnown(t *testing.T) {
	r := calibrate(t, []rode.Lay{{To: 0.33 * 100, Taped: 33.6}}, rode.LayErrors{})
	low, high := 33.6/101, 33.6/99
	near(t, "low end", float64(r.Interval.Low), low, 1)
	near(t, "high end", float64(r.Interval.High), high, 1)
	near(t, "payout", float64(r.Payout), (low+high)/2, 1)
	near(t, "u", float64(r.U), (high-low)/math.Sqrt(12), 1)
	near(t, "u of the turns", r.Lays[0].TurnsU, math.Sqrt(2./12), 1)
}

// What either way allows is in the interval where the scatter is not known.
func TestNotKnownHoldsBoth(t *testing.T) {
	for _, lays := range [][]rode.Lay{
		{{To: 9.9, Taped: 10.2}, {To: 19.8, Taped: 20.1}, {To: 29.7, Taped: 30.1}},
		{{To: 9.9, Taped: 10.08}, {To: 19.8, Taped: 20.16}, {To: 29.7, Taped: 30.24}},
	} {
		r := calibrate(t, lays, rode.LayErrors{})
		if r.Method != rode.ByBoth || r.Interval.Low != min(r.LeastSquares.Low, r.Feasible.Low) ||
			r.Interval.High != max(r.LeastSquares.High, r.Feasible.High) || r.Feasible.Low <= 0 {
			t.Errorf("%+v", r)
		}
	}
}

// The likelihood is asked where the random error given is less than the widest
// rounding of an end, a pulse or a step of the display: here 0.15, 0.33 and 1.05 m.
func TestMethodByTheRounding(t *testing.T) {
	for _, c := range []struct {
		counter rode.Counter
		to      units.Length
		width   units.Length
	}{
		{rode.Counter{Setting: 0.3, Pulses: 2}, 24, 0.15},
		{counter33, 0.33 * 80, 0.33},
		{rode.Counter{Setting: 0.35, Step: 1}, 25, 1.05},
	} {
		for repeat, want := range map[units.Length]rode.Method{
			c.width - 0.001: rode.ByLikelihood, c.width + 0.001: rode.ByLeastSquares,
		} {
			r, err := rode.Calibrate(c.counter, []rode.Lay{{To: c.to, Taped: c.to}}, rode.LayErrors{Repeat: repeat})
			rounding := strings.Contains(strings.Join(r.Advice, "\n"), "at the instant the display changes")
			if err != nil || r.Method != want || rounding != (want == rode.ByLikelihood) {
				t.Errorf("%+v, repeat %v: %s, advice %q, %v", c.counter, repeat, r.Method, r.Advice, err)
			}
		}
	}
}

// Where a lay is an outlier nothing else is read out of the lays that it spoils.
func TestAdviceOnAnOutlierOnly(t *testing.T) {
	for _, e := range []rode.LayErrors{{Tape: 0.01, Repeat: 0.02}, {}} {
		lays := laysBetween(counter33, 0.336, 0, 20, 40, 60, 80, -50)
		for i := range lays {
			lays[i].Taped += units.Length([]float64{0.01, -0.02, 0.015, 0.01, -0.01}[i])
		}
		lays[2].Taped += 1
		if r := calibrate(t, lays, e); len(r.Advice) != 1 || !strings.Contains(r.Advice[0], "lay 3") {
			t.Errorf("%+v: %q", e, r.Advice)
		}
	}
}

// Three lays that stray by 10, -20 and 10 cm leave slope and offset as they are: both
// sums, of what they stray and of that times x, are nothing. Two out and two in the
// same way.
func TestLineAndDirectionsByHand(t *testing.T) {
	const student1, student2 = 12.706205, 4.302653
	lays := laysBetween(counter33, 0.336, 0.4, 10, 20, 30)
	for i, d := range []units.Length{0.1, -0.2, 0.1} {
		lays[i].Taped += d
	}
	l := calibrate(t, lays, rode.LayErrors{}).Line
	s := math.Sqrt(0.06)
	near(t, "slip", float64(l.Slip), 0.4, 1)
	near(t, "payout", float64(l.Payout), 0.336, 1)
	near(t, "scatter", float64(l.Scatter), s, 1)
	near(t, "u of the slip", float64(l.SlipU), s*math.Sqrt(1./3+400./200), 1)
	near(t, "u of the payout", float64(l.PayoutU), s/math.Sqrt(200), 1)
	near(t, "correlation", l.Correlation, -20/math.Sqrt(200./3+400), 1)
	near(t, "least slip told", l.Least.Per(l.SlipU), student1, 1e3)
	if l.Freedom != 1 || l.Told {
		t.Errorf("%+v", l)
	}

	lays = append(laysBetween(counter33, 0.338, 0, 10, 20), laysBetween(counter33, 0.335, 0, -20, -40)...)
	for i, d := range []units.Length{0.02, -0.01, 0.02, -0.01} {
		lays[i].Taped += d
	}
	d := calibrate(t, lays, rode.LayErrors{}).Directions
	u := math.Sqrt(0.001 / 2 * (1./500 + 1./2000))
	near(t, "out", float64(d.Out), 0.338, 1)
	near(t, "in", float64(d.In), 0.335, 1)
	near(t, "difference", float64(d.Difference), 0.003, 1)
	near(t, "its u", float64(d.DifferenceU), u, 1)
	near(t, "least difference told", d.Least.Per(d.DifferenceU), student2, 1e3)
	if d.Told {
		t.Errorf("%+v", d)
	}
	// Three lays, one of them in, leave one degree of freedom; two leave none, which
	// is enough only where the random error is given.
	if r := calibrate(t, lays[1:], rode.LayErrors{}); r.Directions == nil || r.Line == nil {
		t.Errorf("three lays: %+v, %+v", r.Line, r.Directions)
	}
	if r := calibrate(t, lays[1:3], rode.LayErrors{}); r.Directions != nil || r.Line != nil {
		t.Errorf("two lays: %+v, %+v", r.Line, r.Directions)
	}
	if r := calibrate(t, lays[1:4], rode.LayErrors{Repeat: 0.02}); r.Directions == nil || r.Line == nil {
		t.Errorf("two lays, random error given: %+v, %+v", r.Line, r.Directions)
	}
}

// LayToTell and ProposeLays by their formulas.
func TestLaysByHand(t *testing.T) {
	const z = 1.959963984540054
	for _, c := range []struct {
		counter rode.Counter
		errors  rode.LayErrors
		turns   [3]float64 // by which rounding may be off: standing, at the end, at changes
	}{
		{counter33, rode.LayErrors{}, [3]float64{1, 0.5, 0}},
		{counter33, rode.LayErrors{Tape: 0.03, Repeat: 0.04, TapeScale: 0.001}, [3]float64{1, 0.5, 0}},
		// 1 m is 6.06 pulses of 16.5 cm, so that a reading stands for up to 7.
		{rode.Counter{Setting: 0.33, Pulses: 2, Step: 1}, rode.LayErrors{Tape: 0.05}, [3]float64{2, 0.25, 0}},
		{rode.Counter{Setting: 0.33, Pulses: 2, Step: 0.1}, rode.LayErrors{}, [3]float64{0.5, 0.25, 0}},
	} {
		e := z * math.Hypot(float64(c.errors.Tape), float64(c.errors.Repeat))
		pulses := math.Max(1, float64(c.counter.Pulses))
		for _, pair := range [][2]units.Length{{0.33, 0.336}, {0.336, 0.33}} {
			ls, err := rode.LayToTell(c.counter, pair[0], pair[1], c.errors)
			if err != nil || len(ls) != 3 {
				t.Fatal(ls, err)
			}
			for i, h := range c.turns {
				n := math.Max(1/pulses, (h*0.666+2*e)/(0.006-z*c.errors.TapeScale*0.666))
				near(t, string(ls[i].Way), float64(ls[i].Length), 0.33*(n+h)+e, 100)
			}
		}
	}

	const payout, half, longest = 0.336, 0.003, 30.
	e := rode.LayErrors{Tape: 0.02, Repeat: 0.1, TapeScale: 0.002}
	plans, err := rode.ProposeLays(counter33, rode.LayGoal{Payout: payout, Half: half, Longest: longest, Errors: e})
	if err != nil || len(plans) != 3 {
		t.Fatal(plans, err)
	}
	most := longest / payout // turns
	for i, ends := range []float64{2, 1, 0} {
		p := plans[i]
		v := 0.02*0.02 + 0.1*0.1 + ends/12*payout*payout
		need := v * z * z / (half*half - math.Pow(z*0.002*payout, 2)) // squared turns
		want := []float64{}
		for ; need > most*most; need -= most * most {
			want = append(want, longest)
		}
		want = append(want, math.Sqrt(need)*payout)
		if len(p.Lays) != len(want) {
			t.Fatalf("%s: %v, want %v", p.Way, p.Lays, want)
		}
		total := 0.0
		for j, l := range want {
			near(t, string(p.Way), float64(p.Lays[j]), l, 100)
			total += l
		}
		near(t, "in all", float64(p.Total), total, 100)
		near(t, "half width", float64(p.Half), half, 1)
	}
	// A lay of less than five turns is none: the interval is then better than asked for.
	plans, err = rode.ProposeLays(counter33, rode.LayGoal{Payout: payout, Half: 0.1, Longest: longest, Errors: rode.LayErrors{Tape: 0.05}})
	if err != nil {
		t.Fatal(err)
	}
	last := plans[len(plans)-1]
	near(t, "shortest lay", float64(last.Lays[0]), 5*payout, 1)
	near(t, "its half width", float64(last.Half), z*0.05/5, 1)

	// Forty lays and no more: by changes the information wanted is that of 40 and 41.
	for n, want := range map[float64]bool{39.9: true, 40.1: false} {
		goal := rode.LayGoal{Payout: payout, Half: units.Length(z * 0.3 / math.Sqrt(n) / most), Longest: longest, Errors: rode.LayErrors{Tape: 0.3}}
		plans, err := rode.ProposeLays(counter33, goal)
		if want != (err == nil) || want && len(plans[0].Lays) != 40 {
			t.Errorf("the information of %v lays: %v, %v", n, plans, err)
		}
	}
}

// Two lays have a scatter, of one degree of freedom, but tell no outlier. Of three,
// one that is off by more than the random error is one.
func TestFewLays(t *testing.T) {
	two := laysBetween(counter33, 0.336, 0, 10, 20)
	two[0].Taped += 0.1
	// The payout is 0.336 + 1/500, and the residuals 0.08 and -0.04.
	near(t, "scatter", float64(calibrate(t, two, rode.LayErrors{}).Random), math.Sqrt(0.008), 1)
	three := laysBetween(counter33, 0.336, 0, 20, 40, 60)
	three[1].Taped++
	for _, lays := range [][]rode.Lay{three, three[:2]} {
		for i, l := range calibrate(t, lays, rode.LayErrors{Repeat: 0.02}).Lays {
			if l.Outlier != (i == 1 && len(lays) == 3) {
				t.Errorf("lay %d of %d: %+v", i+1, len(lays), l)
			}
		}
	}
}
