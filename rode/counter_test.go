package rode_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func TestScaleThereAndBack(t *testing.T) {
	for name, s := range map[string]rode.Scale{
		"chain": {Chain: 0.336, ChainU: 0.001},
		"rope":  {Rope: 0.31, RopeU: 0.01},
		"mixed": {Chain: 0.336, ChainU: 0.001, Splice: 40, Rope: 0.31, RopeU: 0.01},
	} {
		for _, out := range []units.Length{0, 0.1, 39, 41, 90} {
			turns, err := s.Turns(out)
			if err != nil {
				t.Fatal(err)
			}
			back, u, err := s.Out(turns)
			if err != nil || math.Abs(float64(back-out)) > 1e-12 {
				t.Errorf("%s: %v is %v turns is %v, %v", name, out, turns, back, err)
			}
			// The uncertainty by moving one scale at a time.
			chain, rope := s, s
			chain.Chain += s.ChainU
			rope.Rope += s.RopeU
			dc, _, err1 := chain.Out(turns)
			dr, _, err2 := rope.Out(turns)
			want := math.Hypot(float64(dc-back), float64(dr-back))
			if err1 != nil || err2 != nil || math.Abs(float64(u)-want) > 0.01*want+1e-12 {
				t.Errorf("%s: at %v u = %v, by differences %v", name, out, u, want)
			}
		}
	}
}

// Whatever a counter that steps from pulse to pulse shows, Readings hold it, and
// Length leads back.
func TestReadingAgainstSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	scale := rode.Scale{Chain: 0.336, Splice: 21, Rope: 0.29}
	for _, c := range []rode.Counter{
		{Setting: 0.33},
		{Setting: 0.33, Step: 1},
		{Setting: 0.33, Step: 0.1, Nearest: true},
		{Setting: 0.336, Pulses: 2, Step: 0.1},
		{Setting: 0.4, Pulses: 4, Step: 0.3048},
	} {
		m := math.Max(1, float64(c.Pulses))
		for range 2000 {
			phase, out := rng.Float64(), units.Length(45*rng.Float64())
			// Turn the wheel in small steps and count.
			turns, err := scale.Turns(out)
			if err != nil {
				t.Fatal(err)
			}
			count := 0
			for next := 1.0; next <= phase+m*turns; next++ {
				count++
			}
			shown, err := c.Reading(scale, phase, out)
			if err != nil {
				t.Fatal(err)
			}
			want := float64(c.Setting) * float64(count) / m
			if c.Step > 0 {
				half := 0.0
				if c.Nearest {
					half = 0.5
				}
				want = math.Floor(want/float64(c.Step)+half+1e-9) * float64(c.Step)
			}
			if math.Abs(float64(shown)-want) > 1e-9 {
				t.Fatalf("%+v at %v from phase %v shows %v, want %v", c, out, phase, shown, want)
			}
			can, err := c.Readings(scale, out)
			if err != nil || shown < can.Low || shown > can.High {
				t.Fatalf("%+v at %v shows %v, Readings %v, %v", c, out, shown, can, err)
			}
			l, err := c.Length(scale, shown)
			if err != nil || out < l.Low-1e-9 || out > l.High+1e-9 {
				t.Fatalf("%+v: %v out shows %v, Length says %+v, %v", c, out, shown, l, err)
			}
		}
	}
}

func TestReadingUpAndDown(t *testing.T) {
	s := rode.Scale{Chain: 0.336}
	c := rode.Counter{Setting: 0.336}
	// What comes in is counted back: the same place shows the same.
	direct, err := c.Reading(s, 0.3, 12)
	if err != nil {
		t.Fatal(err)
	}
	round, err := c.Reading(s, 0.3, 30, -25, 10, -3)
	if err != nil || round != direct {
		t.Errorf("12 m out shows %v, after moves %v, %v", direct, round, err)
	}
	if zero, err := c.Reading(s, 0.3, 30, -30); err != nil || zero != 0 {
		t.Errorf("all in shows %v, %v", zero, err)
	}
	// Every tenth pulse missed, out and in: a tenth short on the way out, and the
	// error comes back.
	c.Missed = 0.1
	out, err := c.Reading(s, 0, 33.6)
	if err != nil || math.Abs(float64(out)-0.9*33.6) > 1e-9 {
		t.Errorf("33.6 m with a tenth missed shows %v, %v", out, err)
	}
	l, err := c.Length(s, out)
	if err != nil || l.Low > 33.6 || l.High < 33.6 || math.Abs(float64(l.Length-33.6)) > 0.34 {
		t.Errorf("%v with a tenth missed is %+v, %v", out, l, err)
	}
}

// A lay of 5 m cannot tell 33.0 from 33.6 cm when a pulse is a third of a metre.
func TestFiveMetresTellNothing(t *testing.T) {
	c := rode.Counter{Setting: 0.33}
	readings := func(payout, out units.Length) units.Interval[units.Length] {
		shown, err := c.Readings(rode.Scale{Chain: payout}, out)
		if err != nil {
			t.Fatal(err)
		}
		return shown
	}
	if less, more := readings(0.33, 5), readings(0.336, 5); more.High < less.Low {
		t.Errorf("5 m: %v at most with 33.6 cm, %v at least with 33.0", more.High, less.Low)
	}
	ls, err := rode.LayToTell(c, 0.33, 0.336, rode.LayErrors{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []float64{1.0001, 1.01, 1.1, 1.5, 2} { // and no longer lay can be mistaken either
		l := ls[0].Length.Scale(f)
		less, more := readings(0.33, l), readings(0.336, l)
		if more.High >= less.Low {
			t.Errorf("%v: %v at most with 33.6 cm, %v at least with 33.0", l, more.High, less.Low)
		}
	}
	if l := ls[0].Length.Metres(); math.Abs(l-36.96) > 1e-9 { // 112 pulses of 33.0 or 110 of 33.6
		t.Errorf("a lay must have %v m, want 36.96", l)
	}
	// The answer is not far beyond the longest lay that can be mistaken.
	var longest units.Length
	for l := units.Length(1); l < ls[0].Length; l += units.Centimetre {
		less, more := readings(0.33, l), readings(0.336, l)
		if more.High >= less.Low {
			longest = l
		}
	}
	if longest < ls[0].Length.Scale(0.9) {
		t.Errorf("no lay beyond %v can be mistaken", longest)
	}
}
