// Package imperial writes lengths and forces in inches, feet and pounds-force, for
// patterns and drawings that are not to be metric.
package imperial

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// longTape is where a tape's inches are no longer counted on: 10 ft, the end of a long
// sewing tape (practice).
const longTape = 120 // in

// Inches is a length to the nearest sixteenth of an inch, as it is read off a tape,
// without the unit: 23 5/8.
func Inches(l units.Length) string {
	n := math.Round(16*l.Inches()) + 0 // without a minus before nothing
	sign := ""
	if n < 0 {
		n, sign = -n, "-"
	}
	whole := strconv.FormatFloat(math.Floor(n/16), 'f', 0, 64)
	part, of := int(math.Mod(n, 16)), 16
	if part == 0 {
		return sign + whole
	}
	for part%2 == 0 {
		part, of = part/2, of/2
	}
	fraction := strconv.Itoa(part) + "/" + strconv.Itoa(of)
	if n < 16 {
		return sign + fraction
	}
	return sign + whole + " " + fraction
}

// Tape is the same with the unit, and in feet and inches from 10 ft on: 23 5/8 in,
// 12 ft 7 1/2 in.
func Tape(l units.Length) string {
	n := math.Round(16 * l.Inches())
	if math.Abs(n) < 16*longTape {
		return Inches(l) + " in"
	}
	feet := math.Trunc(n / 192)
	text := strconv.FormatFloat(feet, 'f', 0, 64) + " ft"
	if rest := math.Abs(n - 192*feet); rest > 0 {
		text += " " + Inches(units.Inch.Scale(rest/16)) + " in"
	}
	return text
}

// Feet is a length to a tenth of a foot, with no more digits than it takes: 20 ft, 28.5 ft.
func Feet(l units.Length) string {
	return strconv.FormatFloat(math.Round(10*l.Feet())/10+0, 'f', -1, 64) + " ft"
}

// Pounds is a force in whole pounds, or tenths below 10: 1869 lbf, 2.4 lbf.
func Pounds(f units.Force) string {
	x := f.PoundsForce()
	step := 1.0
	if math.Abs(x) < 9.95 {
		step = 10
	}
	return strconv.FormatFloat(math.Round(step*x)/step+0, 'f', -1, 64) + " lbf"
}
