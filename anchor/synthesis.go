package anchor

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/dsp/fourier"
)

// maker makes Gaussian time series of given spectra, with room of its own.
type maker struct {
	fft    *fourier.FFT
	n      int
	step   float64
	coeffs []complex128
}

// newMaker is for series of at least so many seconds.
func newMaker(seconds, step float64) *maker {
	n := 2
	for float64(n)*step < seconds {
		n *= 2
	}
	return &maker{fft: fourier.NewFFT(n), n: n, step: step, coeffs: make([]complex128, n/2+1)}
}

// frequency is that of a coefficient.
func (m *maker) frequency(k int) float64 { return float64(k) / (float64(m.n) * m.step) }

// draw draws the coefficients of a series: complex normal ones, whose sum has the
// density asked, each frequency apart from the others.
func (m *maker) draw(rng *rand.Rand, density func(f float64) float64) {
	df := m.frequency(1)
	m.coeffs[0] = 0
	last := len(m.coeffs) - 1
	for k := 1; k < last; k++ {
		a := math.Sqrt(density(m.frequency(k)) * df / 4)
		m.coeffs[k] = complex(a*rng.NormFloat64(), a*rng.NormFloat64())
	}
	m.coeffs[last] = 0
}

// series is the sum of the coefficients, each multiplied by a response.
func (m *maker) series(dst []float64, response func(k int) complex128) []float64 {
	if response == nil {
		return m.fft.Sequence(dst, m.coeffs)
	}
	turned := make([]complex128, len(m.coeffs))
	for k, c := range m.coeffs {
		turned[k] = c * response(k)
	}
	return m.fft.Sequence(dst, turned)
}
