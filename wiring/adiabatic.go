package wiring

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/forepeak/units"
)

// LetThrough is the integral of the square of a current over time, in A² s: what
// a cable can take before its insulation is spoilt, and what a device lets pass
// before it opens.
type LetThrough float64

// String prints three significant digits and the unit.
func (i LetThrough) String() string { return fmt.Sprintf("%.3g A² s", float64(i)) }

// MarshalText writes the fewest digits that give the same value back, and the unit.
// The error is an [ErrInput] for a value that is not finite.
func (i LetThrough) MarshalText() ([]byte, error) {
	if !finite(float64(i)) {
		return nil, refuse("let-through", i, "a finite value")
	}
	return append(strconv.AppendFloat(nil, float64(i), 'g', -1, 64), letThroughUnit...), nil
}

// UnmarshalText reads what MarshalText writes.
func (i *LetThrough) UnmarshalText(text []byte) error {
	number, ok := strings.CutSuffix(string(text), letThroughUnit)
	x, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil || !finite(x) {
		return refuse("let-through", strconv.Quote(string(text)), `a number and A² s, as in "5400 A² s"`)
	}
	*i = LetThrough(x)
	return nil
}

const letThroughUnit = " A² s"

// Final temperatures of the copper that insulation survives once, for up to 5 s.
// IEC 60364-4-43, table 43A.
const (
	ThermoplasticLimit units.Temperature = 160 + 273.15 // PVC and its like; taken where nothing else is known
	ThermosetLimit     units.Temperature = 250 + 273.15 // cross-linked polyethylene, EPR
)

// Withstand is the let-through that heats a copper conductor from one temperature
// to another when no heat leaves it:
//
//	(k S)^2, k = 226 sqrt(ln(1 + (final-initial)/(234.5+initial)))
//
// with S in mm² and the temperatures in °C (IEC 60364-5-54, annex A). The formula
// is meant for up to 5 s; over longer times heat leaves the copper and the result
// is on the safe side.
func Withstand(area units.Area, initial, final units.Temperature) (LetThrough, error) {
	var c checker
	positive(&c, "area", area)
	between(&c, "initial", initial, units.Celsius(-60), units.Celsius(300))
	between(&c, "final", final, units.Celsius(-60), units.Celsius(300))
	must(&c, final > initial, "final", final, "more than the initial temperature")
	if c.err != nil {
		return 0, c.err
	}
	kS := faultFactor(initial, final) * area.SquareMillimetres()
	return LetThrough(kS * kS), nil
}

// faultFactor is k in A sqrt(s)/mm².
func faultFactor(initial, final units.Temperature) float64 {
	return 226 * math.Sqrt(math.Log1p(float64(final-initial)/(234.5+initial.Celsius())))
}

// WithstandTime is how long a copper conductor carries a fault current before it
// reaches the final temperature, by the formula of [Withstand].
func WithstandTime(area units.Area, fault units.Current, initial, final units.Temperature) (units.Time, error) {
	var c checker
	positive(&c, "fault", fault)
	if c.err != nil {
		return 0, c.err
	}
	i2t, err := Withstand(area, initial, final)
	if err != nil {
		return 0, err
	}
	return units.Time(float64(i2t) / fault.Amperes() / fault.Amperes()), nil
}

// WithstandCurrent is the fault current that brings a copper conductor to the final
// temperature in a time, by the formula of [Withstand].
func WithstandCurrent(area units.Area, t units.Time, initial, final units.Temperature) (units.Current, error) {
	var c checker
	positive(&c, "time", t)
	if c.err != nil {
		return 0, c.err
	}
	i2t, err := Withstand(area, initial, final)
	if err != nil {
		return 0, err
	}
	return units.Current(math.Sqrt(float64(i2t) / t.Seconds())), nil
}
