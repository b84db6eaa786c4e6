package units_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/forepeak/units"
)

func TestString(t *testing.T) {
	for _, c := range []struct {
		value fmt.Stringer
		want  string
	}{
		{units.Length(0), "0 m"},
		{units.Length(0.25), "0.25 m"},
		{units.Length(-0.9144), "-0.9144 m"},
		{3 * units.Foot, "0.9144000000000001 m"}, // rounded twice, see the package comment
		{units.Length(12345678), "12345678 m"},
		{units.Length(1e15), "1e+15 m"},
		{units.Length(0.00001), "0.00001 m"},
		{units.Length(0.000001), "1e-06 m"},
		{units.Length(math.Inf(-1)), "-Inf m"},
		{units.Area(2.5e-6), "2.5e-06 m²"},
		{units.Angle(0.5), "0.5 rad"},
		{units.Celsius(18), "291.15 K"},
		{units.Torque(3), "3 N·m"},
		{units.Charge(3600), "3600 C"},
	} {
		if got := c.value.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestFormat(t *testing.T) {
	l := units.Length(12.3456)
	for _, c := range []struct {
		format string
		value  any
		want   string
	}{
		{"%v", l, "12.3456 m"},
		{"%s", l, "12.3456 m"},
		{"%q", l, `"12.3456 m"`},
		{"%+v", l, "+12.3456 m"},
		{"% v", l, " 12.3456 m"},
		{"%+v", -l, "-12.3456 m"},
		{"%#v", l, "units.Length(12.3456)"},
		{"%#v", units.Volt, "units.Voltage(1)"},
		{"%14v", l, "     12.3456 m"},
		{"%-14v|", l, "12.3456 m     |"},
		{"%014v", l, "0000012.3456 m"},
		{"%014v", -l, "-000012.3456 m"},
		{"%+014v", l, "+000012.3456 m"},
		{"% 014v", l, " 000012.3456 m"},
		{"%-014v|", l, "12.3456 m     |"},
		{"%14q", l, `   "12.3456 m"`},
		{"%014q", l, `   "12.3456 m"`},
		{"%3v", l, "12.3456 m"},
		{"%.3v", l, "12.3 m"},
		{"%.3s", l, "12.3 m"},
		{"%.3q", l, `"12.3 m"`},
		{"%9.3v", l, "   12.3 m"},
		{"%-9.3v|", l, "12.3 m   |"},
		{"%.2f", l, "12.35 m"},
		{"%.2F", l, "12.35 m"},
		{"%f", l, "12.345600 m"},
		{"%e", l, "1.234560e+01 m"},
		{"%.1E", l, "1.2E+01 m"},
		{"%g", l, "12.3456 m"},
		{"%.2g", l, "12 m"},
		{"%G", units.Length(1e-20), "1E-20 m"},
		{"%10.1f", l, "    12.3 m"},
		{"%+.1f", l, "+12.3 m"},
		{"%010.1f", -l, "-00012.3 m"},
		{"%.1f", units.Degree, "0.0 rad"},
		{"%8.1f", 5 * units.SquareMetre, "  5.0 m²"},
		{"%d", l, "%!d(units.Length=12.3456 m)"},
		{"%x", l, "%!x(units.Length=12.3456 m)"},
		{"%t", units.Volt, "%!t(units.Voltage=1 V)"},
		{"%v", units.Length(math.NaN()), "NaN m"},
		{"%+v", units.Length(math.Inf(1)), "+Inf m"},
		{"%08v", units.Length(math.NaN()), "   NaN m"},
		{"%.3v", units.Length(math.NaN()), "NaN m"},
		{"%.3v", units.Length(math.Inf(1)), "+Inf m"},
		{"%v", []units.Length{1, 2}, "[1 m 2 m]"},
		{"%v", struct{ L units.Length }{3}, "{3 m}"},
	} {
		if got := fmt.Sprintf(c.format, c.value); got != c.want {
			t.Errorf("%s of %v: got %q, want %q", c.format, c.value, got, c.want)
		}
	}
}

// The readable form: the unit follows the size, after rounding.
func TestFormatReadable(t *testing.T) {
	for _, c := range []struct {
		digits int
		value  any
		want   string
	}{
		{3, units.Length(0), "0.00 m"},
		{3, units.Length(math.Copysign(0, -1)), "-0.00 m"},
		{3, 8 * units.Millimetre, "8.00 mm"},
		{3, -8 * units.Millimetre, "-8.00 mm"},
		{3, 12.5 * units.Metre, "12.5 m"},
		{3, 0.1 * units.Millimetre, "0.100 mm"},
		{3, 0.00001 * units.Millimetre, "1.00e-05 mm"},
		{3, 0.9994 * units.Metre, "999 mm"},
		{3, 0.9995 * units.Metre, "1.00 m"},
		{3, 0.99951 * units.Metre, "1.00 m"},
		{4, 0.99951 * units.Metre, "999.5 mm"},
		{1, 0.96 * units.Metre, "1 m"},
		{0, 0.94 * units.Metre, "900 mm"},
		{2, 123 * units.Metre, "120 m"},
		{3, 999.6 * units.Metre, "1.00 km"},
		{3, 1234567 * units.Kilometre, "1230000 km"},
		{3, 12345678 * units.Kilometre, "1.23e+07 km"},
		{3, 2.5 * units.SquareMillimetre, "2.50 mm²"},
		{3, 95 * units.SquareCentimetre, "9500 mm²"},
		{3, 0.5 * units.SquareMetre, "0.500 m²"},
		{3, 40 * units.Litre, "40.0 L"},
		{3, 1450 * units.Newton, "1.45 kN"},
		{3, 8.2 * units.Tonne, "8.20 t"},
		{3, units.Celsius(18), "18.0 °C"},
		{3, units.Celsius(-3), "-3.00 °C"},
		{3, units.Temperature(0), "-273 °C"},
		{3, units.Celsius(0), "0.00 °C"},
		{3, 10 * units.Kelvin, "10.0 K"},
		{3, 14.3 * units.Degree, "14.3°"},
		{3, units.Angle(0), "0.00°"},
		{3, units.Angle(1e308), "1.00e+308 rad"}, // in degrees it would overflow
		{3, 25 * units.Knot, "12.9 m/s"},
		{3, 200 * units.Megapascal, "200 MPa"},
		{3, 90 * units.Minute, "1.50 h"},
		{3, 50 * units.Millisecond, "50.0 ms"},
		{3, 110 * units.AmpereHour, "110 Ah"},
		{3, 500 * units.MilliampereHour, "500 mAh"},
		{3, 12.6 * units.Volt, "12.6 V"},
		{3, 360 * units.Millivolt, "360 mV"},
		{3, 250 * units.Microhm, "250 µΩ"},
		{3, 1.91 * units.OhmPerKilometre, "1.91 mΩ/m"},
		{3, 3000 * units.RevolutionPerMinute, "3000 rpm"},
		{3, 2.5 * units.KilogramSquareMetre, "2.50 kg·m²"},
	} {
		if got := fmt.Sprintf("%.*v", c.digits, c.value); got != c.want {
			t.Errorf("%.*v: got %q, want %q", c.digits, c.value, got, c.want)
		}
	}
}
