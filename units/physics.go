package units

//go:generate go run ../internal/unitsgen

import (
	"math"
	"time"
)

// Weight returns the force of standard gravity on m, m * 9.80665 m/s^2.
func (m Mass) Weight() Force { return Force(float64(m) * gravity) }

// Mass returns the mass that weighs f under standard gravity, f / 9.80665 m/s^2.
func (f Force) Mass() Mass { return Mass(float64(f) / gravity) }

// Weight returns the weight per length under standard gravity, d * 9.80665 m/s^2.
func (d LinearDensity) Weight() ForcePerLength { return ForcePerLength(float64(d) * gravity) }

// Mass returns the mass per length that weighs f under standard gravity, f / 9.80665 m/s^2.
func (f ForcePerLength) Mass() LinearDensity { return LinearDensity(float64(f) / gravity) }

// Atan2 returns the angle from the x axis to the point (x, y), in (-pi, pi].
func Atan2(y, x Length) Angle { return Angle(math.Atan2(float64(y), float64(x))) }

// Sin returns the sine of a.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of a.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent of a, the slope.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// Celsius returns the temperature that is c on the Celsius scale.
func Celsius(c float64) Temperature { return Temperature(c + 273.15) }

// Fahrenheit returns the temperature that is f on the Fahrenheit scale.
func Fahrenheit(f float64) Temperature { return Temperature((f + 459.67) / 9 * 5) }

// Add returns the temperature that is d above t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return Temperature(float64(t) + float64(d))
}

// Sub returns how far t is above u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(float64(t) - float64(u))
}

// FromDuration returns d as a Time. It is exact up to 104 days (2^53 ns, rounded beyond).
func FromDuration(d time.Duration) Time { return Time(d.Seconds()) }

// Duration returns t to the nearest nanosecond. The error about a t beyond what a
// time.Duration holds (292 years), or NaN, is a [*ValueError].
func (t Time) Duration() (time.Duration, error) {
	ns := math.RoundToEven(float64(t) * 1e9)
	if !(ns >= math.MinInt64 && ns < math.MaxInt64) {
		return 0, &ValueError{Quantity: qTime.name, Value: t.String(), Reason: "time.Duration holds from -292 to 292 years"}
	}
	return time.Duration(ns), nil
}

// Period returns the time of one cycle, 1/f.
func (f Frequency) Period() Time { return Time(1 / float64(f)) }

// Frequency returns the frequency whose period is t, 1/t.
func (t Time) Frequency() Frequency { return Frequency(1 / float64(t)) }

// Frequency returns the turns per second, w / (2 pi).
func (w AngularSpeed) Frequency() Frequency { return Frequency(float64(w) / (2 * math.Pi)) }

// AngularSpeed returns the speed of rotation at f turns per second, 2 pi f.
func (f Frequency) AngularSpeed() AngularSpeed { return AngularSpeed(float64(f) * (2 * math.Pi)) }
