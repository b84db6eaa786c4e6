package anchor

import (
	"math"
	"math/rand/v2"
)

// bretschneider is the wave spectrum of a significant height and a peak period,
//
//	S = (5/16) H² fp^4 f^-5 exp(-(5/4) (fp/f)^4)
//
// whose integral is H²/16.
func bretschneider(height, period float64) func(f float64) float64 {
	fp := 1 / period
	return func(f float64) float64 {
		r := fp / f
		r *= r
		r *= r
		return 5.0 / 16 * height * height * r / f * math.Exp(-1.25*r)
	}
}

// follow is how a boat of a waterline length rides a wave: as a raft that lies on
// it by least squares. Heave is that of midships over the wave's amplitude, trim
// the slope of the raft over the wave's own, both less than 1 for short waves.
func follow(halfPhase float64) (heave, trim float64) {
	if halfPhase < 1e-3 {
		return 1, 1
	}
	sin, cos := math.Sincos(halfPhase)
	return sin / halfPhase, 3 * (sin - halfPhase*cos) / (halfPhase * halfPhase * halfPhase)
}

// bowResponse is the height of the bow over the wave's height at midships, and
// the horizontal speed and acceleration of the water averaged along the boat over
// the same. A wave cos(w t + k x) comes from ahead.
func bowResponse(f, depth, waterline, roller float64) (bow, speed, acceleration complex128) {
	k := wavenumber(1/f, depth)
	heave, trim := follow(k * waterline / 2)
	w := 2 * math.Pi * f
	// Elevation cos(w t + k x): its slope at midships is -k sin(w t), the real part
	// of i k exp(i w t).
	bow = complex(heave, trim*k*roller)
	// The water under a crest of a wave from ahead goes aft: u = -w coth(k d) cos.
	coth := 1 / math.Tanh(k*depth)
	return bow, complex(-w*coth*heave, 0), complex(0, -w*w*coth*heave)
}

// seaway is the bow's height above its mean and the water's speed and acceleration
// forward at the boat, step by step.
type seaway struct{ bow, stream, forward []float64 }

// ripple is the frequency, in those of the peak, above which waves are left out:
// beyond it lies less than 1 % of their energy.
const ripple = 4

func (s *seaway) fill(m *maker, rng *rand.Rand, w *Waves, regular bool, waterline, roller float64) {
	fp := 1 / float64(w.Period)
	depth := float64(w.Depth)
	if regular {
		s.bow, s.stream, s.forward = room(s.bow, m.n), room(s.stream, m.n), room(s.forward, m.n)
		b, u, a := bowResponse(fp, depth, waterline, roller)
		half := complex(float64(w.Height)/2, 0)
		for i := range m.n {
			sin, cos := math.Sincos(2 * math.Pi * fp * float64(i) * m.step)
			turn := half * complex(cos, sin)
			s.bow[i], s.stream[i], s.forward[i] = real(b*turn), real(u*turn), real(a*turn)
		}
		return
	}
	density := bretschneider(float64(w.Height), float64(w.Period))
	m.draw(rng, func(f float64) float64 {
		if f < fp/4 || f > ripple*fp {
			return 0
		}
		return density(f)
	})
	series := func(dst []float64, which func(bow, speed, acceleration complex128) complex128) []float64 {
		return m.series(room(dst, m.n), func(k int) complex128 {
			if m.coeffs[k] == 0 {
				return 0
			}
			return which(bowResponse(m.frequency(k), depth, waterline, roller))
		})
	}
	s.bow = series(s.bow, func(bow, _, _ complex128) complex128 { return bow })
	s.stream = series(s.stream, func(_, speed, _ complex128) complex128 { return speed })
	s.forward = series(s.forward, func(_, _, acceleration complex128) complex128 { return acceleration })
}

// room is a slice of a length, that given if it is long enough.
func room(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}
