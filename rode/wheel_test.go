package rode_test

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Round the wheel link by link: flat links are chords p + d of the circle of the
// joints, upright links chords p - d, and together they close it.
func TestPitchDiameterClosesTheRing(t *testing.T) {
	for z := 3; z <= 12; z++ {
		for _, d := range []float64{0.001, 0.006, 0.008, 0.010, 0.013} {
			for _, ratio := range []float64{2.6, 2.8, 3, 3.5} {
				p := ratio * d
				w := rode.ChainWheel{Pockets: z, Pitch: units.Length(p), Wire: units.Length(d)}
				got, err := w.PitchDiameter()
				if err != nil {
					t.Fatal(err)
				}
				a, b, s := p+d, p-d, math.Pi/float64(z)
				chords := math.Sqrt(a*a+b*b+2*a*b*math.Cos(s)) / math.Sin(s)
				if math.Abs(float64(got)/chords-1) > 1e-12 {
					t.Errorf("%d pockets, %g x %g: %v, by the chords %v m", z, d, p, got, chords)
				}
				round := 2 * float64(z) * (math.Asin(a/float64(got)) + math.Asin(b/float64(got)))
				if math.Abs(round-2*math.Pi) > 1e-7 {
					t.Errorf("%d pockets, %g x %g: the links go round %v rad", z, d, p, round)
				}
				payout, err := w.Payout()
				if err != nil || float64(payout) >= math.Pi*float64(got) {
					t.Errorf("payout %v, circumference %v m, %v", payout, math.Pi*float64(got), err)
				}
			}
		}
	}
}

// Two wheels of common practice pay out the same.
func TestPayoutOfPractice(t *testing.T) {
	for _, w := range []rode.ChainWheel{{Pockets: 6, Pitch: 0.028}, {Pockets: 7, Pitch: 0.024}} {
		got, err := w.Payout()
		if err != nil || math.Abs(got.Centimetres()-33.6) > 1e-12 {
			t.Errorf("%+v pays out %v, %v", w, got, err)
		}
	}
	e, err := rode.CounterError(0.336, 0.33)
	if err != nil || math.Abs(e+0.006/0.336) > 1e-15 {
		t.Errorf("error of a counter left at 33 cm: %v, %v", e, err)
	}
}

func TestFit(t *testing.T) {
	wheel := rode.ChainWheel{
		Pockets: 6, Pitch: 0.028, Wire: 0.010, Play: 0.003, Width: 0.038, Groove: 0.012,
		RopeLeast: 0.014, RopeMost: 0.016,
	}
	chain := rode.Chain{Wire: 0.010, Pitch: 0.028, OutsideWidth: 0.036}
	with := func(f func(*rode.Chain)) rode.Chain { c := chain; f(&c); return c }
	for _, c := range []struct {
		name    string
		chain   rode.Chain
		misfits []string // a word of each
	}{
		{"its own", chain, nil},
		{"stretched by 1.5 %, within the play", with(func(c *rode.Chain) { c.Pitch = 0.02842 }), nil},
		{"stretched by 2 %", with(func(c *rode.Chain) { c.Pitch = 0.02856 }), []string{"creeps 3.4 mm"}},
		{"short", with(func(c *rode.Chain) { c.Pitch = 0.027 }), []string{"creeps -6.0 mm"}},
		{"30 mm of the other standard", with(func(c *rode.Chain) { c.Pitch = 0.030 }), []string{"creeps 12.0 mm"}},
		{"thick", with(func(c *rode.Chain) { c.Wire = 0.013 }), []string{"too long for the pocket", "groove"}},
		{"wide", with(func(c *rode.Chain) { c.OutsideWidth = 0.040 }), []string{"wide"}},
		{"thin wire leaves more play", with(func(c *rode.Chain) { c.Wire, c.Pitch = 0.0095, 0.02856 }), nil},
	} {
		f, err := wheel.Fit(c.chain)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if len(f.Misfits) != len(c.misfits) || f.Fits() != (c.misfits == nil) {
			t.Errorf("%s: %q, want %q", c.name, f.Misfits, c.misfits)
			continue
		}
		for i, word := range c.misfits {
			if !strings.Contains(f.Misfits[i], word) {
				t.Errorf("%s: %q lacks %q", c.name, f.Misfits[i], word)
			}
		}
		if want := c.chain.Pitch.Scale(12); f.Payout != want || f.Links != 6 {
			t.Errorf("%s: payout %v, %d links", c.name, f.Payout, f.Links)
		}
	}

	for _, c := range []struct {
		rope, splice units.Length
		width, most  units.Length
		misfits      int
	}{
		{0.014, 0.022, 0.038, 0.016, 0},
		{0.012, 0.022, 0.038, 0.016, 1},
		{0.014, 0.040, 0.038, 0.016, 1},
		{0.018, 0.040, 0.038, 0.016, 2},
		{0.014, 0.022, 0, 0.016, 1},
		{0.014, 0.022, 0.038, 0, 1},
	} {
		w := wheel
		w.Width, w.RopeMost, w.RopeLeast = c.width, c.most, min(w.RopeLeast, c.most)
		got, err := w.FitRope(c.rope, c.splice)
		if err != nil || len(got) != c.misfits {
			t.Errorf("rope %v, splice %v: %q, %v", c.rope, c.splice, got, err)
		}
	}
}
