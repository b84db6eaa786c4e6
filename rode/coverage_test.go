package rode_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// wheelOf is a wheel that somebody lays out rode with: what it really pays out,
// and what differs from lay to lay.
type wheelOf struct {
	counter rode.Counter
	payout  float64
	random  float64 // standard deviation, m
	tape    float64 // relative error of the tape, for all lays alike
	rng     *rand.Rand
}

// lay pays out about a length from wherever the wheel stands. It counts pulses by
// stepping from one to the next, which the library does not.
func (w *wheelOf) lay(about float64, atChanges bool) rode.Lay {
	m := math.Max(1, float64(w.counter.Pulses))
	perCount := float64(w.counter.Setting) / m
	shown := func(count int) float64 {
		x := float64(count) * perCount
		step := float64(w.counter.Step)
		switch {
		case step == 0:
			return x
		case w.counter.Nearest:
			return math.Floor(x/step+0.5+1e-9) * step
		default:
			return math.Floor(x/step+1e-9) * step
		}
	}
	next := (1 - w.rng.Float64()) * w.payout / m // to the first pulse
	count := 0
	var l rode.Lay
	var began float64
	changed := func() bool { return shown(count) != shown(count-1) }
	for ; next <= about; next += w.payout / m {
		count++
		if atChanges && l.From == 0 && changed() {
			l.From, l.FromAtChange, began = units.Length(shown(count)), true, next
		}
	}
	stop := about
	if atChanges { // go on to the next change
		for count++; !changed(); count++ {
			next += w.payout / m
		}
		stop, l.ToAtChange = next, true
	}
	l.To = units.Length(shown(count))
	l.Taped = units.Length((stop - began + w.random*w.rng.NormFloat64()) * (1 + w.tape))
	return l
}

// Of 20,000 sets of lays whose wheel starts anywhere and whose lengths are drawn
// at random, how many intervals hold the true payout?
func TestCoverage(t *testing.T) {
	if raceDetector {
		t.Skip("pure arithmetic, ten times as slow under the race detector")
	}
	pulse := 0.336
	for _, c := range []struct {
		name      string
		counter   rode.Counter
		lays      int
		random    float64
		errors    rode.LayErrors
		atChanges bool
		method    rode.Method
		low, high float64 // of the coverage
		sets      int     // 20,000 if not given
	}{
		{
			name: "random error of a pulse, given", random: pulse, lays: 5,
			counter: rode.Counter{Setting: 0.33}, errors: rode.LayErrors{Repeat: 0.336},
			method: rode.ByLeastSquares, low: 0.94, high: 0.96,
		},
		{
			name: "random error of two pulses, display of 0.1 m, tape off too", random: 2 * pulse, lays: 4,
			counter: rode.Counter{Setting: 0.33, Step: 0.1}, errors: rode.LayErrors{Repeat: 0.672, TapeScale: 0.004},
			method: rode.ByLeastSquares, low: 0.94, high: 0.96,
		},
		{
			name: "random error of a pulse, two magnets, display of 0.1 m", random: pulse / 2, lays: 8,
			counter: rode.Counter{Setting: 0.3, Pulses: 2, Step: 0.1, Nearest: true}, errors: rode.LayErrors{Repeat: 0.168},
			method: rode.ByLeastSquares, low: 0.94, high: 0.96,
		},
		{
			name: "read at changes, the tape decides", random: 0.02, lays: 3, atChanges: true,
			counter: rode.Counter{Setting: 0.33, Step: 1}, errors: rode.LayErrors{Tape: 0.02, Repeat: 1e-6},
			method: rode.ByLeastSquares, low: 0.94, high: 0.96,
		},
		{
			name: "rounding alone", random: 0, lays: 4,
			counter: rode.Counter{Setting: 0.33, Step: 1}, errors: rode.LayErrors{Repeat: 0.001},
			method: rode.ByLikelihood, low: 0.94, high: 0.96,
		},
		{
			name: "rounding dominates", random: 0.1, lays: 4,
			counter: rode.Counter{Setting: 0.33}, errors: rode.LayErrors{Repeat: 0.1},
			method: rode.ByLikelihood, low: 0.94, high: 0.96,
		},
		{
			name: "rounding dominates, tape off too", random: 0.2, lays: 3,
			counter: rode.Counter{Setting: 0.33, Step: 0.1}, errors: rode.LayErrors{Repeat: 0.2, TapeScale: 0.005},
			method: rode.ByLikelihood, low: 0.94, high: 0.96,
		},
		{
			name: "random error not known, as large as a pulse", random: pulse, lays: 5,
			counter: rode.Counter{Setting: 0.33}, low: 0.94, high: 1, sets: 5000,
		},
		{
			name: "random error not known, half a pulse", random: pulse / 2, lays: 5,
			counter: rode.Counter{Setting: 0.33}, low: 0.94, high: 1, sets: 5000,
		},
		{
			name: "random error not known, none", random: 0, lays: 5,
			counter: rode.Counter{Setting: 0.33, Step: 0.1}, low: 0.94, high: 1, sets: 5000,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			sets := 20000
			if c.sets > 0 {
				sets = c.sets
			}
			rng := rand.New(rand.NewPCG(3, 14))
			var covered, bySquares, method int
			var width, squaresWidth float64
			for range sets {
				w := wheelOf{c.counter, 0.336, c.random, c.errors.TapeScale * rng.NormFloat64(), rng}
				lays := make([]rode.Lay, c.lays)
				for i := range lays {
					lays[i] = w.lay(8+32*rng.Float64(), c.atChanges)
				}
				r, err := rode.Calibrate(c.counter, lays, c.errors)
				if err != nil {
					t.Fatal(err)
				}
				if r.Interval.Low <= 0.336 && 0.336 <= r.Interval.High {
					covered++
				}
				if r.LeastSquares.Low <= 0.336 && 0.336 <= r.LeastSquares.High {
					bySquares++
				}
				width += float64(r.Interval.High - r.Interval.Low)
				squaresWidth += float64(r.LeastSquares.High - r.LeastSquares.Low)
				if r.Method == c.method {
					method++
				}
			}
			got := float64(covered) / float64(sets)
			t.Logf("coverage %.2f %%, mean width %.2f mm; of least squares %.2f %%, %.2f mm",
				100*got, 1e3*width/float64(sets), 100*float64(bySquares)/float64(sets), 1e3*squaresWidth/float64(sets))
			if got < c.low || got > c.high {
				t.Errorf("the intervals cover %.2f %%, want %v to %v", 100*got, c.low, c.high)
			}
			// An empty feasible set, 5 % of the sets at most, falls back to least squares.
			if c.method != "" && float64(method) < 0.95*float64(sets) {
				t.Errorf("%d of %d sets by %s", method, sets, c.method)
			}
		})
	}
}
