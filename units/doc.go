// Package units holds physical quantities as typed numbers: a length cannot be
// passed where a force is wanted, and a number never leaves the program
// without its unit.
//
// # Quantities
//
// Every quantity is a defined type over float64 that holds the value in the SI
// unit: [Length] in metres, [Force] in newtons, [Angle] in radians, and so on.
// A value is made by multiplying a unit constant, converting a number that is
// already in SI, or parsing what a person typed:
//
//	chain := 40 * units.Metre
//	depth := units.Length(3.5)              // metres
//	rise, err := units.ParseLength("11ft 6in")
//	weight := units.Kilogram.Scale(measured) // measured is a float64
//
// and read back with an accessor, chain.Feet(), or [Length.In].
//
// # Products
//
// Go gives the product of two lengths the type Length, which is wrong. Products
// and quotients that change dimension are therefore methods (Length.TimesLength
// is an Area, Force.PerArea is a Pressure), [Length.Per] is the plain ratio of
// two values of a kind, and Scale multiplies by a number. A test of this package
// searches the module for * and / between two quantities.
//
// Products, ratios and accessors follow IEEE 754: they overflow to an infinity,
// divide by zero to an infinity or a NaN, and carry a NaN through. Parsing and
// marshalling return an error instead.
//
// # Accuracy
//
// A unit that is exact by definition is exact here: the factors are untyped
// constant expressions (file exact.go) that the compiler evaluates to hundreds
// of digits and rounds once. 3 * [Foot] is three times that rounded value and
// may differ from 0.9144 m in the last bit; ParseLength("3 ft") does not, since
// parsing converts the decimal digits exactly and rounds once. Accessors for decimal submultiples (millimetres, grams)
// and for decimal multiples are correctly rounded; the others, which divide by a
// factor that binary cannot hold, are good to two units in the last place (of
// the larger number where a temperature scale subtracts its offset).
//
// # Text
//
// String prints the fewest digits that give the same value back, in the SI unit:
// "0.25 m". The fmt verb %.3v prints three significant digits in the metric unit
// a person would use for that size ("8.00 mm", "1.45 kN", "18.0 °C"); %f, %e and
// %g print the SI value and always the unit. All quantities implement the text
// marshalling interfaces, so JSON holds "0.25 m" and flag.TextVar works.
//
// What is parsed is one number and one unit, or feet and inches and the like:
//
//	12.5 m   8mm   5/16 in   1 1/2 in   1-1/2 in   41ft 3in   3'6"
//	25 kn   18 °C   -3 °C   12 lb 4 oz   1 h 30 min   2.5e3 N   4.5 N·m
//
// Names are case-sensitive symbols, or English names in the singular or plural.
// A bare number is refused, zero too. A comma is refused always, because 1,200
// is 1200 to one half of the world and 1.2 to the other. Words that mean several
// things (ton, gallon, horsepower, cable, shackle, shot, mile) are refused with
// an explanation.
//
// The zero value of every quantity is zero of its SI unit; the zero Temperature
// is absolute zero. Values are comparable and safe for concurrent use.
//
// # Beside quantities
//
// [Interval] is a range of one quantity, for every result of the library that is a
// range, and [Money] what things cost.
package units
