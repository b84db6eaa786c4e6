package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Spectrum is how the energy of gusts is spread over frequency.
type Spectrum int

// The spectra. With f the frequency in hertz and U the hourly mean at the height z,
// S is the one-sided density of the speed along the wind.
const (
	// Land is Kaimal's form with the constants of EN 1991-1-4:2005, annex B:
	//
	//	f S / s² = 6.8 n / (1 + 10.2 n)^(5/3),  n = f L(z)/U
	//	L(z) = 300 m (z/200 m)^(0.67 + 0.05 ln z0),  s = U / ln(z/z0)
	//
	// Its integral over all frequencies is s². It suits an anchorage with land to
	// windward.
	Land Spectrum = iota
	// Sea is that of the Frøya measurements for winds off the open sea (ISO
	// 19901-1:2005, annex A; NORSOK N-003; its formulas are recalled, and are those of
	// an open library):
	//
	//	S = 320 (U0/10)² (z/10)^0.45 / (1 + F^0.468)^3.561,  F = 172 f (z/10)^(2/3) (U0/10)^-0.75
	//
	// with U0 the hourly mean at 10 m, in metres and seconds.
	Sea
)

var spectrumNames = []string{"land", "sea"}

// String is the spectrum's name.
func (s Spectrum) String() string {
	if s < 0 || int(s) >= len(spectrumNames) {
		return fmt.Sprintf("spectrum %d", int(s))
	}
	return spectrumNames[s]
}

// MarshalText writes the spectrum's name.
func (s Spectrum) MarshalText() ([]byte, error) {
	if s < 0 || int(s) >= len(spectrumNames) {
		return nil, refuse("Spectrum", int(s), "land or sea")
	}
	return []byte(spectrumNames[s]), nil
}

// UnmarshalText reads the spectrum's name.
func (s *Spectrum) UnmarshalText(text []byte) error {
	for i, n := range spectrumNames {
		if n == string(text) {
			*s = Spectrum(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Spectrum", fmt.Sprintf("%q", text), fmt.Sprint(spectrumNames))
}

// Gusts is the turbulence of a wind whose Speed is its hourly mean.
type Gusts struct {
	Spectrum Spectrum
	// Roughness is that of the surface to windward, z0, for Land: 0.003 m for a
	// coast, 0.01 m for a lake, 0.05 m for open country, 0.3 m for a village or a
	// wood (EN 1991-1-4, table 4.1). 0 counts as 0.01 m.
	Roughness units.Length
	// Intensity is the deviation over the mean; 0 counts as that of the spectrum.
	// Under hills it can be 0.4.
	Intensity float64
	// Across is the deviation across the wind over that along it; 0 counts as 0.75.
	// Its spectrum has the same form.
	Across float64
}

// Density is the spectral density S at a frequency, of a wind at its height, in
// m²/s² per hertz.
func (g Gusts) Density(w Wind, f units.Frequency) (float64, error) {
	var c checker
	g.check(&c)
	w.check(&c)
	between(&c, "f", f, 1e-6, 100)
	positive(&c, "Wind.Speed", w.Speed)
	if c.err != nil {
		return 0, c.err
	}
	return g.density(w)(float64(f)), nil
}

// Deviation is that of the speed along the wind over all frequencies that an hour
// holds, from 1/3600 Hz up.
func (g Gusts) Deviation(w Wind) (units.Speed, error) {
	if _, err := g.Density(w, 1); err != nil {
		return 0, err
	}
	return units.Speed(math.Sqrt(area(g.density(w)))), nil
}

// area is the integral of a density from 1/3600 Hz to 10 Hz, by Simpson's rule in
// the logarithm of the frequency.
func area(density func(f float64) float64) float64 {
	const n = 2000
	lo, hi := math.Log(1.0/3600), math.Log(10)
	sum := 0.0
	for i := range n + 1 {
		weight := 2.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		f := math.Exp(lo + (hi-lo)*float64(i)/n)
		sum += weight * f * density(f)
	}
	return sum * (hi - lo) / n / 3
}

// density is that along the wind. The arguments have been checked.
func (g *Gusts) density(w Wind) func(f float64) float64 {
	u, z := float64(w.Speed), float64(or(w.Height, 10))
	scale := 1.0
	var raw func(f float64) float64
	switch g.Spectrum {
	case Sea:
		u0 := u * math.Pow(10/z, or(w.Exponent, seventh))
		top := 320 * (u0 / 10) * (u0 / 10) * math.Pow(z/10, 0.45)
		k := 172 * math.Pow(z/10, 2.0/3) * math.Pow(u0/10, -0.75)
		raw = func(f float64) float64 { return top / math.Pow(1+math.Pow(k*f, 0.468), 5/(3*0.468)) }
		if g.Intensity > 0 {
			scale = g.Intensity * u * g.Intensity * u / area(raw)
		}
	default:
		z0 := float64(or(g.Roughness, 0.01))
		s := u / math.Log(z/z0)
		if g.Intensity > 0 {
			s = g.Intensity * u
		}
		length := 300 * math.Pow(z/200, 0.67+0.05*math.Log(z0))
		raw = func(f float64) float64 {
			n := f * length / u
			return s * s * 6.8 * length / u / math.Pow(1+10.2*n, 5.0/3)
		}
	}
	return func(f float64) float64 { return scale * raw(f) }
}

func (g *Gusts) check(c *checker) {
	c.must(g.Spectrum == Land || g.Spectrum == Sea, "Gusts.Spectrum", int(g.Spectrum), "land or sea")
	between(c, "Gusts.Roughness", or(g.Roughness, 0.01), 1e-4, 0.5)
	between(c, "Gusts.Intensity", g.Intensity, 0, 1)
	between(c, "Gusts.Across", g.Across, 0, 2)
}
