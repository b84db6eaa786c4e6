package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Thrust is the pull of a propeller on a boat that does not move.
type Thrust struct {
	// Bound is that of an ideal propeller, which none without a nozzle exceeds.
	Bound units.Force
	// Rule is what a rule of small craft design gives.
	Rule units.Force
}

// StaticThrust is the thrust ahead of a propeller of a diameter that takes a shaft
// power, on a boat made fast in salt water:
//
//	Bound = (rho pi/2)^(1/3) (P D)^(2/3)       momentum and energy of the slipstream
//	Rule  = 62.72 lbf (P D)^0.67               P in hp, D in feet
//
// The rule is printed in The Masthead (Westlawn Institute of Marine Technology),
// issue 29, page 28, and is about two thirds of the bound. A propeller pitched for
// speed, or small and fast, gives less than the rule.
func StaticThrust(power units.Power, diameter units.Length) (Thrust, error) {
	var c checker
	between(&c, "power", power, 1, 1e7)
	between(&c, "diameter", diameter, 0.05, 10)
	if c.err != nil {
		return Thrust{}, c.err
	}
	bound := math.Cbrt(float64(rode.SeaWater)*math.Pi/2) * math.Pow(float64(power)*float64(diameter), 2.0/3)
	rule := 62.72 * math.Pow(power.MechanicalHorsepower()*diameter.Feet(), 0.67)
	return Thrust{units.Force(bound), units.PoundForce.Scale(rule)}, nil
}

// BackDown is the pull of a propeller that turns astern with a shaft power, on a
// boat that the anchor holds: 0.5 to 0.8 times the rule of [StaticThrust]. An anchor
// that did not move has shown that it holds a pull in that range. A blade
// shaped to drive ahead works with its back and its trailing edge foremost; the part
// that is left is common practice, not a standard. Compare Low with what the night
// may bring: what an anchor has held for half a minute at a straight pull proves
// that pull, not more, and not from another side.
func BackDown(power units.Power, diameter units.Length) (units.Interval[units.Force], error) {
	t, err := StaticThrust(power, diameter)
	if err != nil {
		return units.Interval[units.Force]{}, err
	}
	return units.Interval[units.Force]{Low: t.Rule.Scale(0.5), High: t.Rule.Scale(0.8)}, nil
}
