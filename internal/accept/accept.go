// Package accept says of a quantity what would be accepted in its place, in the
// words of the errors of all packages.
package accept

import (
	"fmt"
	"reflect"
	"strconv"

	"example.com/forepeak/units"
)

// No quantity of the library, in SI units, is smaller or larger than these unless
// by mistake. Between them no product of several overflows.
const (
	Smallest = 1e-12
	Largest  = 1e15
)

// Positive returns what is accepted, empty if q is.
func Positive[Q ~float64](q Q) string {
	switch {
	case !(q > 0):
		return "more than 0"
	case q < Smallest || q > Largest:
		return fmt.Sprintf("from %v to %v", Q(Smallest), Q(Largest))
	}
	return ""
}

// NotNegative returns what is accepted, empty if q is.
func NotNegative[Q ~float64](q Q) string {
	switch {
	case q == 0:
	case !(q >= 0):
		return "0 or more"
	case q < Smallest || q > Largest:
		return fmt.Sprintf("0, or from %v to %v", Q(Smallest), Q(Largest))
	}
	return ""
}

// Between returns what is accepted, empty if q is.
func Between[Q ~float64](q, low, high Q) string {
	if q >= low && q <= high {
		return ""
	}
	return fmt.Sprintf("from %s to %s", Show(low), Show(high))
}

// Show writes a value as a person would: to nine digits, since sums and products of
// what was given end in others, an angle in degrees and a temperature in degrees Celsius.
func Show(v any) string {
	switch q := v.(type) {
	case units.Angle:
		return strconv.FormatFloat(nine(q.Degrees()), 'g', -1, 64) + "°"
	case units.Temperature:
		return strconv.FormatFloat(nine(q.Celsius()), 'g', -1, 64) + " °C"
	}
	r := reflect.ValueOf(v)
	if !r.CanFloat() {
		return fmt.Sprint(v)
	}
	one := reflect.New(r.Type()).Elem()
	one.SetFloat(nine(r.Float()))
	return fmt.Sprint(one.Interface())
}

func nine(x float64) float64 {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64) // of what was just formatted
	return y
}
