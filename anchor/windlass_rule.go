package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// WindlassRule is what class rules ask of a windlass at least.
type WindlassRule struct {
	Continuous units.Force // for 30 minutes
	Overload   units.Force // for 2 minutes, to break the anchor out
	Speed      units.Speed // mean, with 82.5 m and the anchor hanging
	// Brake and BrakeWithStopper are the parts of the chain's breaking strength
	// that the brake must hold, without and with a chain stopper.
	Brake, BrakeWithStopper float64
}

// MinimumWindlass is IACS UR A3 (2017, rev. 1, 2019) for a chain of a diameter and a
// grade of stud chain from 1 to 3, at a depth of anchorage:
//
//	Z = 37.5, 42.5 or 47.5 d²  N,  d in mm       up to 82.5 m
//	Z + (D - 82.5) 0.27 d²                       deeper
//
// with 1.5 times that for two minutes and 0.15 m/s. The three coefficients are
// recalled. Friction of the hawse pipe (an efficiency of 70 %) and buoyancy are in
// it. It was made for ships with stud chain from 12.5 mm: for a boat's 8 mm it is
// extrapolated, refused below 6 mm.
func MinimumWindlass(diameter units.Length, grade int, depth units.Length) (WindlassRule, error) {
	var c checker
	between(&c, "diameter", diameter, 6*units.Millimetre, 162*units.Millimetre)
	c.must(grade >= 1 && grade <= 3, "grade", grade, "1, 2 or 3")
	between(&c, "depth", depth, 0, 1000)
	if c.err != nil {
		return WindlassRule{}, c.err
	}
	d2 := diameter.Millimetres() * diameter.Millimetres()
	z := (32.5 + 5*float64(grade)) * d2
	z += math.Max(0, float64(depth)-82.5) * 0.27 * d2
	return WindlassRule{units.Force(z), units.Force(1.5 * z), 0.15, 0.80, 0.45}, nil
}
