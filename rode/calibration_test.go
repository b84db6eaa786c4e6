package rode_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/stat"
)

// laysBetween are lays between changes of the display, n pulses of one magnet and a
// slip, out or in.
func laysBetween(counter rode.Counter, payout, slip float64, pulses ...int) []rode.Lay {
	var lays []rode.Lay
	for _, n := range pulses {
		from, to := counter.Setting, counter.Setting.Scale(1+math.Abs(float64(n)))
		if n < 0 { // what shows as a pulse is taken back is one less
			from, to = to-counter.Setting, 0
		}
		lays = append(lays, rode.Lay{
			From: from, To: to, FromAtChange: true, ToAtChange: true,
			Taped: units.Length(math.Abs(float64(n))*payout + slip),
		})
	}
	return lays
}

var counter33 = rode.Counter{Setting: 0.33}

func calibrate(t *testing.T, lays []rode.Lay, e rode.LayErrors) rode.Calibration {
	t.Helper()
	r, err := rode.Calibrate(counter33, lays, e)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Without any error the payout comes out exactly, whatever the way.
func TestCalibrateExact(t *testing.T) {
	r := calibrate(t, laysBetween(counter33, 0.336, 0, 20, 60, -40), rode.LayErrors{Tape: 0.01, Repeat: 0.001})
	if math.Abs(float64(r.Payout)-0.336) > 1e-14 || r.Method != rode.ByLeastSquares || r.Chance < 0.999 {
		t.Errorf("%+v", r)
	}
	// By hand: u = 1 / sqrt(sum x²) times the random error.
	want := math.Hypot(0.01, 0.001) / math.Sqrt(20*20+60*60+40*40)
	if math.Abs(float64(r.U)/want-1) > 1e-12 || math.Abs(float64(r.Interval.High-r.Payout)/(1.959963984540054*want)-1) > 1e-9 {
		t.Errorf("u = %v, interval %v, want u %v", r.U, r.Interval, want)
	}
	if r.Line.Told || math.Abs(float64(r.Line.Slip)) > 1e-12 || r.Directions.Told || len(r.Advice) > 0 {
		t.Errorf("line %+v, directions %+v, advice %q", r.Line, r.Directions, r.Advice)
	}
	// The scale of the tape adds in squares and does not average out.
	e := rode.LayErrors{Tape: 0.01, Repeat: 0.001, TapeScale: 0.002}
	if got := calibrate(t, laysBetween(counter33, 0.336, 0, 20, 60, -40), e).U; math.Abs(float64(got)-math.Hypot(want, 0.002*0.336)) > 1e-12 {
		t.Errorf("u with the tape's scale is %v", got)
	}
}

// The line against gonum's regression, and its uncertainties against lays drawn
// at random.
func TestLineAgainstRegression(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	const sets = 4000
	turns := []int{15, 30, 30, 60, 90}
	var slips, payouts []float64
	var line *rode.LayLine
	for range sets {
		lays := laysBetween(counter33, 0.336, 0.5, turns...)
		var x, y []float64
		for i := range lays {
			lays[i].Taped += units.Length(0.05 * rng.NormFloat64())
			x, y = append(x, float64(turns[i])), append(y, float64(lays[i].Taped))
		}
		line = calibrate(t, lays, rode.LayErrors{Repeat: 0.05}).Line
		a, b := stat.LinearRegression(x, y, nil, false)
		if math.Abs(float64(line.Slip)-a) > 1e-10 || math.Abs(float64(line.Payout)-b) > 1e-12 {
			t.Fatalf("%+v, gonum %v %v", line, a, b)
		}
		slips, payouts = append(slips, a), append(payouts, b)
	}
	near := func(what string, got, want float64) {
		if math.Abs(got/want-1) > 0.04 { // three standard errors of 4000 sets
			t.Errorf("%s is %v, of lays drawn at random %v", what, got, want)
		}
	}
	near("u of the slip", float64(line.SlipU), stat.StdDev(slips, nil))
	near("u of the payout", float64(line.PayoutU), stat.StdDev(payouts, nil))
	near("correlation", line.Correlation, stat.Correlation(slips, payouts, nil))
	var at []float64
	for i := range slips {
		at = append(at, slips[i]+200*payouts[i])
	}
	_, u, err := line.At(200)
	if err != nil {
		t.Fatal(err)
	}
	near("u at 200 turns", float64(u), stat.StdDev(at, nil))
	if !line.Told || line.Least >= 0.5 {
		t.Errorf("a slip of half a metre is not told: %+v", line)
	}
}

func TestSlipAndScale(t *testing.T) {
	e := rode.LayErrors{Tape: 0.01, Repeat: 0.02}
	for _, c := range []struct {
		name                            string
		lays                            []rode.Lay
		line, slips, directions, byTurn bool
		advice                          string
		wantSlip, wantDifference        float64
	}{
		{name: "one length, one direction", lays: laysBetween(counter33, 0.336, 0.2, 40, 40, 40), advice: "cannot be told from the scale: add a lay of another length"},
		{name: "two lengths", lays: laysBetween(counter33, 0.336, 0.2, 10, 40, 80), line: true, slips: true, wantSlip: 0.2, advice: "slips by 0.20 m"},
		{name: "both directions", lays: append(laysBetween(counter33, 0.338, 0, 10, 80), laysBetween(counter33, 0.334, 0, -80, -10)...), line: true, directions: true, byTurn: true, wantDifference: 0.004, advice: "slips on the wheel"},
		{name: "no slip", lays: append(laysBetween(counter33, 0.336, 0, 10, 80), laysBetween(counter33, 0.336, 0, -80, -10)...), line: true, directions: true},
	} {
		r := calibrate(t, c.lays, e)
		advice := strings.Join(r.Advice, "\n")
		if (r.Line != nil) != c.line || (r.Directions != nil) != c.directions || !strings.Contains(advice, c.advice) {
			t.Errorf("%s: line %+v, directions %+v, advice %q", c.name, r.Line, r.Directions, r.Advice)
			continue
		}
		if c.line && (r.Line.Told != c.slips || math.Abs(float64(r.Line.Slip)-c.wantSlip) > 1e-9) {
			t.Errorf("%s: line %+v", c.name, r.Line)
		}
		if c.directions && (r.Directions.Told != c.byTurn || math.Abs(float64(r.Directions.Difference)-c.wantDifference) > 1e-9) {
			t.Errorf("%s: directions %+v", c.name, r.Directions)
		}
	}
}

// One lay misread by three pulses among good ones; and how often a good set is
// accused, which the test for outliers says is one in twenty.
func TestOutlier(t *testing.T) {
	for _, e := range []rode.LayErrors{{Tape: 0.01, Repeat: 0.02}, {}} {
		lays := laysBetween(counter33, 0.336, 0, 20, 40, 60, 80, -50)
		for i := range lays {
			lays[i].Taped += units.Length([]float64{0.01, -0.02, 0.015, 0.01, -0.01}[i])
		}
		lays[2].Taped += 1
		r := calibrate(t, lays, e)
		for i, l := range r.Lays {
			if l.Outlier != (i == 2) {
				t.Errorf("errors %+v: lay %d: %+v", e, i+1, l)
			}
		}
		if len(r.Advice) == 0 || !strings.Contains(r.Advice[0], "lay 3") {
			t.Errorf("advice %q", r.Advice)
		}
	}
	// All others agree to the last digit.
	lays := laysBetween(counter33, 0.336, 0, 20, 40, 60)
	lays[1].Taped += 1
	if r := calibrate(t, lays, rode.LayErrors{}); !marshals(r) {
		t.Errorf("%+v", r)
	}

	rng := rand.New(rand.NewPCG(7, 8))
	for _, e := range []rode.LayErrors{{Repeat: 0.3}, {}} {
		const sets = 5000
		accused := 0
		for range sets {
			lays := laysBetween(counter33, 0.336, 0, 20, 40, 60, 80, 30, 70)
			for i := range lays {
				lays[i].Taped += units.Length(0.3 * rng.NormFloat64())
			}
			for _, l := range calibrate(t, lays, e).Lays {
				if l.Outlier {
					accused++
					break
				}
			}
		}
		if rate := float64(accused) / sets; rate < 0.03 || rate > 0.06 {
			t.Errorf("errors %+v: %.1f %% of good sets accused", e, 100*rate)
		}
	}
}

// The likelihood of one lay that is read standing is a triangle, whose 95 % is
// known.
func TestLikelihoodOfOneLay(t *testing.T) {
	lay := rode.Lay{To: 0.33 * 100, Taped: 33.6}
	r := calibrate(t, []rode.Lay{lay}, rode.LayErrors{Repeat: 1e-5})
	if r.Method != rode.ByLikelihood {
		t.Fatal(r.Method)
	}
	// taped = payout (100 + e), e a triangle from -1 to 1: 95 % within 1 - sqrt(0.05).
	half := 1 - math.Sqrt(0.05)
	for got, want := range map[units.Length]float64{
		r.Interval.Low: 33.6 / (100 + half), r.Interval.High: 33.6 / (100 - half),
		r.Feasible.Low: 33.6 / 101, r.Feasible.High: 33.6 / 99,
		r.U: 0.336 / 100 / math.Sqrt(6),
	} {
		if math.Abs(float64(got)-want) > 0.015*0.336/100 {
			t.Errorf("%v, want %v", got, want)
		}
	}
	// With the random error not known, one lay leaves the set that it allows.
	r = calibrate(t, []rode.Lay{lay}, rode.LayErrors{})
	if r.Method != rode.ByFeasibleSet || r.Interval != r.Feasible || r.LeastSquares.High != 0 {
		t.Errorf("%+v", r)
	}
}

// A reading at the change makes one lay as good as many: the advice is worth it.
func TestReadAtChanges(t *testing.T) {
	e := rode.LayErrors{Tape: 0.01, Repeat: 0.005}
	standing := calibrate(t, []rode.Lay{{To: 0.33 * 15, Taped: 5}}, e)
	changes := calibrate(t, []rode.Lay{{From: 0.33, To: 0.33 * 16, FromAtChange: true, ToAtChange: true, Taped: 15 * 0.336}}, e)
	if ratio := standing.U.Per(changes.U); ratio < 10 {
		t.Errorf("u is %v standing and %v at changes", standing.U, changes.U)
	}
	if !strings.Contains(strings.Join(standing.Advice, " "), "at the instant the display changes") {
		t.Errorf("advice %q", standing.Advice)
	}
	// Five metres of it tell 33.0 from 33.6 after all.
	if changes.Interval.Low < 0.330 {
		t.Errorf("interval %v", changes.Interval)
	}
}

// Sets that ProposeLays asks for reach what was wanted.
func TestProposeLays(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for _, c := range []struct {
		counter rode.Counter
		errors  rode.LayErrors
		want    units.Length
		longest units.Length
	}{
		{counter33, rode.LayErrors{Tape: 0.02, Repeat: 0.1}, 0.003, 30},
		{rode.Counter{Setting: 0.33, Step: 1}, rode.LayErrors{Tape: 0.02, Repeat: 0.05}, 0.005, 40},
		{counter33, rode.LayErrors{Tape: 0.05, Repeat: 0.4, TapeScale: 0.002}, 0.004, 40},
	} {
		plans, err := rode.ProposeLays(c.counter, rode.LayGoal{Payout: 0.336, Half: c.want, Longest: c.longest, Errors: c.errors})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range plans {
			if p.Half > c.want+1e-12 {
				t.Errorf("%+v: half width %v, want %v", p, p.Half, c.want)
			}
			if p.Way == rode.ReadAtEnd {
				continue // lay() reads neither or both ends at changes
			}
			random := math.Hypot(float64(c.errors.Tape), float64(c.errors.Repeat))
			w := wheelOf{c.counter, 0.336, random, 0, rng}
			var width float64
			const sets = 300
			for range sets {
				var lays []rode.Lay
				for _, l := range p.Lays {
					if p.Way == rode.ReadAtChanges {
						l += w.counter.Step.Scale(0.5) // of way to the first change
						if w.counter.Step == 0 {
							l += 0.168
						}
					}
					lays = append(lays, w.lay(float64(l)+0.3*rng.Float64(), p.Way == rode.ReadAtChanges))
				}
				r, err := rode.Calibrate(c.counter, lays, c.errors)
				if err != nil {
					t.Fatal(err)
				}
				width += float64(r.Interval.High-r.Interval.Low) / 2
			}
			if width /= sets; width > 1.03*float64(c.want) {
				t.Errorf("%s, %d lays, %v in all: half width %v on average, want %v", p.Way, len(p.Lays), p.Total, width, c.want)
			}
		}
		for i := range plans[1:] { // the better they are read, the less chain there is to handle
			if plans[i+1].Total > plans[i].Total {
				t.Errorf("%+v", plans)
			}
		}
	}
	_, err := rode.ProposeLays(counter33, rode.LayGoal{Payout: 0.336, Half: 0.001, Longest: 40, Errors: rode.LayErrors{TapeScale: 0.02}})
	if !errors.Is(err, rode.ErrInput) {
		t.Errorf("with a tape that is too bad: %v", err)
	}
}

// The prediction band holds one more length, at full scope, in 95 of 100 sets.
func TestPredictCovers(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for _, c := range []struct {
		name      string
		random    float64
		e         rode.LayErrors
		low, high float64
	}{
		{"least squares", 0.4, rode.LayErrors{Repeat: 0.4}, 0.94, 0.97},
		{"likelihood", 0.1, rode.LayErrors{Repeat: 0.1}, 0.94, 1},
		{"not known", 0.4, rode.LayErrors{}, 0.94, 1},
	} {
		const sets = 4000
		covered := 0
		for range sets {
			w := wheelOf{counter33, 0.336, c.random, 0, rng}
			var lays []rode.Lay
			for range 5 {
				lays = append(lays, w.lay(8+22*rng.Float64(), false))
			}
			r := calibrate(t, lays, c.e)
			// Reset to the new payout, and out to full scope.
			w.counter = rode.Counter{Setting: r.Payout, Step: 1}
			full := w.lay(70+10*rng.Float64(), false)
			b, err := r.Predict(w.counter, full.To)
			if err != nil {
				t.Fatal(err)
			}
			if b.Low <= full.Taped && full.Taped <= b.High {
				covered++
			}
		}
		if got := float64(covered) / sets; got < c.low || got > c.high {
			t.Errorf("%s: the band covers %.1f %%", c.name, 100*got)
		}
	}
}

// The order and direction of lays do not matter, and JSON brings all back.
func TestCalibrationProperties(t *testing.T) {
	lays := []rode.Lay{{To: 9.9, Taped: 10.2}, {To: 29.7, Taped: 30.1}, {From: 29.7, To: 3.3, Taped: 26.8}}
	e := rode.LayErrors{Tape: 0.02, Repeat: 0.1}
	r := calibrate(t, lays, e)
	again := calibrate(t, []rode.Lay{lays[2], lays[0], lays[1]}, e)
	if math.Abs(float64(r.Payout-again.Payout)) > 1e-9 {
		t.Errorf("%v, in another order %v", r.Payout, again.Payout)
	}
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var back rode.Calibration
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(r, back); diff != "" {
		t.Error(diff)
	}
}

// marshals reports whether JSON takes all numbers of a result.
func marshals(x any) bool {
	_, err := json.Marshal(x)
	return err == nil
}
