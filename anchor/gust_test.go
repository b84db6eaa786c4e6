package anchor_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// The integral of the spectrum from 0 to a frequency is, in closed form,
// s² (1 - (1 + 10.2 n)^(-2/3)), which comes to s² in the end.
func TestLandSpectrumHoldsItsVariance(t *testing.T) {
	const u, z, z0 = 14.0, 10.0, 0.05
	g := anchor.Gusts{Roughness: z0}
	w := anchor.Wind{Speed: u}
	s := u / math.Log(z/z0)
	length := 300 * math.Pow(z/200, 0.67+0.05*math.Log(z0))
	upTo := func(f float64) float64 { return s * s * (1 - math.Pow(1+10.2*f*length/u, -2.0/3)) }
	for _, band := range [][2]float64{{1e-5, 1e-3}, {1e-3, 0.1}, {0.1, 10}} {
		got := quad.Fixed(func(x float64) float64 {
			f := math.Exp(x)
			d, err := g.Density(w, units.Frequency(f))
			if err != nil {
				t.Fatal(err)
			}
			return f * d
		}, math.Log(band[0]), math.Log(band[1]), 200, nil, 0)
		if want := upTo(band[1]) - upTo(band[0]); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("from %v Hz to %v Hz %v, want %v", band[0], band[1], got, want)
		}
	}
	d, err := g.Deviation(w)
	if want := math.Sqrt(upTo(10) - upTo(1.0/3600)); err != nil || math.Abs(d.MetresPerSecond()/want-1) > 1e-6 {
		t.Errorf("deviation %v, want %v, %v", d, want, err)
	}
	g.Intensity = 0.3
	e, err := g.Deviation(w)
	if want := d.MetresPerSecond() * 0.3 / (s / u); err != nil || math.Abs(e.MetresPerSecond()/want-1) > 1e-6 {
		t.Errorf("with an intensity of 0.3: %v, want %v, %v", e, want, err)
	}
}

func TestSeaSpectrum(t *testing.T) {
	g := anchor.Gusts{Spectrum: anchor.Sea}
	// At the lowest frequencies the density is 320 (U/10)² m²/s² per hertz, and its
	// slope in the end is that of -5/3.
	d, err := g.Density(anchor.Wind{Speed: 20}, 1e-6)
	if err != nil || d > 1280 || d < 1280*0.8 {
		t.Errorf("density %v at no frequency, %v", d, err)
	}
	a, err := g.Density(anchor.Wind{Speed: 20}, 50)
	b, err2 := g.Density(anchor.Wind{Speed: 20}, 100)
	if err != nil || err2 != nil || math.Abs(math.Log2(a/b)-5.0/3) > 0.03 {
		t.Errorf("slope %v, %v %v", math.Log2(a/b), err, err2)
	}
	// The intensity of the same standard, 0.06 (1 + 0.043 U), is for shorter times
	// than an hour: the spectrum holds up to a fifth more.
	for _, u := range []float64{10, 15, 20, 30} {
		s, err := g.Deviation(anchor.Wind{Speed: units.Speed(u)})
		want := 0.06 * (1 + 0.043*u)
		if got := s.MetresPerSecond() / u; err != nil || got < want || got > 1.2*want {
			t.Errorf("intensity %v at %v m/s, standard %v, %v", got, u, want, err)
		}
	}
}

func TestGustsRefuse(t *testing.T) {
	w := anchor.Wind{Speed: 10}
	_, err := anchor.Gusts{}.Density(w, 0)
	refused(t, err, "f")
	_, err = anchor.Gusts{Across: -1}.Density(w, 1)
	refused(t, err, "Gusts.Across")
	_, err = anchor.Gusts{}.Deviation(anchor.Wind{})
	refused(t, err, "Wind.Speed")
	var s anchor.Spectrum
	if err := s.UnmarshalText([]byte("sky")); err == nil {
		t.Error("a spectrum of the sky")
	}
	if _, err := anchor.Spectrum(5).MarshalText(); err == nil {
		t.Error("Spectrum(5) was written")
	}
	for _, want := range []anchor.Spectrum{anchor.Land, anchor.Sea} {
		text, err := want.MarshalText()
		if err != nil || s.UnmarshalText(text) != nil || s != want {
			t.Errorf("%v became %v, %v", want, s, err)
		}
	}
}

// No gust is weaker than its mean: where the fit is, the factor is 1.
func TestGustIsNoLull(t *testing.T) {
	for _, e := range []anchor.Exposure{anchor.InLand, anchor.OffLand, anchor.OffSea, anchor.AtSea} {
		for _, mean := range []units.Time{60, 180, 600, 3600} {
			for gust := mean; gust >= 1; gust = gust.Scale(1 / 1.3) {
				f, err := e.GustFactor(gust, mean)
				if err != nil || f < 1 || f > 1.1 && gust == mean {
					t.Errorf("%v, %v of %v: %v, %v", e, gust, mean, f, err)
				}
			}
		}
	}
	for _, gust := range []units.Time{60, 180, 600} {
		if f, err := anchor.AtSea.GustFactor(gust, gust); err != nil || f != 1 {
			t.Errorf("%v of %v at sea: %v, %v", gust, gust, f, err)
		}
	}
}
