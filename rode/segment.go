package rode

import "math"

// This file holds the closed forms for one uniform segment of line. Along a
// segment of unstretched length l the horizontal force h is constant and the
// vertical force v changes in proportion to the unstretched arc length, so
// every integral over the segment is l times a mean over v from v1 to v2:
//
//	dx/ds = (1 + e(t)) h/t,  dz/ds = (1 + e(t)) v/t,  t = sqrt(h² + v²)
//	e(t)  = c1 t + c2 t² + c3 t³
//
// The means are written without dividing by the weight per length, so that a
// weightless segment (v1 = v2), a light one and a floating one (v falling
// upward) need no case of their own and lose no digits.

// law is a polynomial strain law with tension in newtons.
type law struct{ c1, c2, c3 float64 }

// third saves a division where time counts.
const third = 1. / 3

func (c law) at(t float64) float64 { return t * (c.c1 + t*(c.c2+t*c.c3)) }

// meanRamp is the mean strain where tension runs linearly from a to b.
func (c law) meanRamp(a, b float64) float64 {
	return c.c1*(a+b)/2 + c.c2*(a*a+a*b+b*b)*third + c.c3*(a+b)*(a*a+b*b)/4
}

// meanSlopeRamp is the mean of de/dt where tension runs linearly from a to b.
func (c law) meanSlopeRamp(a, b float64) float64 {
	return c.c1 + c.c2*(a+b) + c.c3*(a*a+a*b+b*b)
}

// meanRise is the mean of (1+e) v/t: height gained per unstretched length.
// It uses t2 - t1 = (v2 - v1)(v1 + v2)/(t1 + t2).
func (c law) meanRise(v1, t1, v2, t2 float64) float64 {
	s := t1 + t2
	if s == 0 {
		return 0
	}
	return (v1 + v2) / s * (1 + c.c1*s/2 + c.c2*(t1*t1+t1*t2+t2*t2)*third + c.c3*s*(t1*t1+t2*t2)/4)
}

// meanInverse is the mean of 1/t: (asinh(v2/h) - asinh(v1/h))/(v2 - v1). The
// difference of inverse hyperbolic sines is 2 atanh(q), q = (v2-v1)/(t1+t2),
// exact for any signs; for q near ±1 the equivalent logarithm keeps its digits.
func meanInverse(h, v1, t1, v2, t2 float64) float64 {
	s := t1 + t2
	q := (v2 - v1) / s
	switch a := math.Abs(q); {
	case a < 1e-3:
		q2 := q * q
		return 2 / s * (1 + q2*(1./3+q2*(1./5+q2*(1./7))))
	case a < 0.1:
		return 2 / s * math.Atanh(q) / q
	}
	return math.Log(plus(h, v2, t2)/plus(h, v1, t1)) / (v2 - v1)
}

// plus is t + v without cancellation for negative v.
func plus(h, v, t float64) float64 {
	if v >= 0 {
		return t + v
	}
	return h * (h / (t - v))
}

// meanRun is the mean of (1+e) h/t, with m the mean of 1/t: horizontal distance
// per unstretched length.
func (c law) meanRun(h, v1, t1, v2, t2, m float64) float64 {
	return h * (m + c.c1 + c.c2*meanTension(h, v1, t1, v2, t2, m) + c.c3*(h*h+(v1*v1+v1*v2+v2*v2)/3))
}

// meanTension is the mean of t, with m the mean of 1/t.
func meanTension(h, v1, t1, v2, t2, m float64) float64 {
	s := t1 + t2
	p := v1 + v2
	return 0.5 * (s/2 + p*p/(2*s) + h*h*m)
}

// meanStrain is the mean strain, with mt the mean of t and
// ∫t³dv = (v t³ + 3 h² ∫t dv)/4.
func (c law) meanStrain(h, v1, t1, v2, t2, mt float64) float64 {
	e := c.c1*mt + c.c2*(h*h+(v1*v1+v1*v2+v2*v2)/3)
	if c.c3 != 0 {
		e += c.c3 * (meanVT3(v1, t1, v2, t2) + 3*h*h*mt) / 4
	}
	return e
}

// absMeanTension is the mean of t, also where h = 0 and t = |v|.
func absMeanTension(h, v1, t1, v2, t2 float64) float64 {
	if h == 0 {
		if v1*v2 >= 0 {
			return (t1 + t2) / 2
		}
		return (v1*v1 + v2*v2) / (2 * (t1 + t2))
	}
	return meanTension(h, v1, t1, v2, t2, meanInverse(h, v1, t1, v2, t2))
}

// meanVT3 is (v2 t2³ - v1 t1³)/(v2 - v1), written so that it holds for
// v1 = v2 too: a divided difference obeys D[fg] = f̄ D[g] + ḡ D[f], with the
// bars for the mean of the two ends, and D[t] = (v1+v2)/(t1+t2).
func meanVT3(v1, t1, v2, t2 float64) float64 {
	c1, c2 := t1*t1*t1, t2*t2*t2
	return (c1+c2)/2 + (v1+v2)/2*(t1*t1+t1*t2+t2*t2)*(v1+v2)/(t1+t2)
}

// meanVV is the mean of d/dv of (1+e) v/t alone: what a search for the vertical force needs.
func (c law) meanVV(h, v1, t1, v2, t2 float64) float64 {
	d := meanBend(h, v1, t1, v2, t2) + c.c1
	if c.c2 != 0 || c.c3 != 0 {
		mt := absMeanTension(h, v1, t1, v2, t2)
		mi := 0.0
		if h != 0 {
			mi = meanInverse(h, v1, t1, v2, t2)
		}
		d += c.c2*(2*mt-h*h*mi) + c.c3*(h*h+(v1*v1+v1*v2+v2*v2))
	}
	return d
}

// meanBend is the mean of h²/t³: the divided difference of v/t.
func meanBend(h, v1, t1, v2, t2 float64) float64 {
	switch {
	case v1*v2 < 0:
		return (v2/t2 - v1/t1) / (v2 - v1)
	case h > 0:
		// With (t1+t2)² - (v2-v1)² = 2(h² + t1 t2 + v1 v2).
		return h * h * (t1 + t2) / ((h*h + t1*t2 + v1*v2) * t1 * t2)
	case v1 != v2 && (v1 == 0 || v2 == 0):
		return 1 / math.Max(t1, t2) // v/t is taken as 0 where both are 0: a line resting without pull
	}
	return 0
}

// means are all the means of one segment: what it runs, rises and stretches per
// unstretched length, and how that answers to the forces.
type means struct {
	run, rise, strain float64
	// Means of the second derivatives of ∫(1+e)dt with respect to the force
	// components: how run and rise answer to h and v.
	vv, hv, hh float64
}

// all works the means out together, sharing what they have in common; h > 0.
func (m *means) all(c *law, h, v1, t1, v2, t2 float64) {
	is := 1 / (t1 + t2)
	b := (v1 + v2) * is // mean of v/t
	mi := meanInverse(h, v1, t1, v2, t2)
	mt := 0.5 * ((t1+t2)/2 + (v1+v2)*b/2 + h*h*mi)
	it := 1 / (t1 * t2)
	bend := 0.0
	if v1*v2 >= 0 {
		bend = h * h * (t1 + t2) * it / (h*h + t1*t2 + v1*v2)
	} else {
		bend = meanBend(h, v1, t1, v2, t2)
	}
	m.run = h * (mi + c.c1)
	m.rise = b * (1 + c.c1*(t1+t2)/2)
	m.strain = c.c1 * mt
	m.vv, m.hv, m.hh = bend+c.c1, -h*b*it, mi-bend+c.c1
	if c.c2 != 0 || c.c3 != 0 {
		mv2 := (v1*v1 + v1*v2 + v2*v2) / 3
		mt2 := h*h + mv2
		m.run += h * (c.c2*mt + c.c3*mt2)
		m.rise += b * (c.c2*(t1*t1+t1*t2+t2*t2)/3 + c.c3*(t1+t2)*(t1*t1+t2*t2)/4)
		m.strain = c.meanStrain(h, v1, t1, v2, t2, mt)
		m.vv += c.c2*(2*mt-h*h*mi) + c.c3*(mt2+2*mv2)
		m.hv += c.c2*h*b + c.c3*h*(v1+v2)
		m.hh += c.c2*(mt+h*h*mi) + c.c3*(mt2+2*h*h)
	}
}
