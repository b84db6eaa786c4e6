package imperial

import (
	"math"
	"testing"

	"example.com/forepeak/units"
)

func TestTape(t *testing.T) {
	const inch = units.Inch
	for _, c := range []struct {
		l            units.Length
		inches, tape string
	}{
		{0, "0", "0 in"},
		{inch / 33, "0", "0 in"}, // less than half a sixteenth
		{inch / 31, "1/16", "1/16 in"},
		{inch / 4, "1/4", "1/4 in"},
		{15.97 * inch / 16, "1", "1 in"},
		{inch, "1", "1 in"},
		{23.625 * inch, "23 5/8", "23 5/8 in"},
		{-1.5 * inch, "-1 1/2", "-1 1/2 in"},
		{-inch / 40, "0", "0 in"},
		{100 * units.Millimetre, "3 15/16", "3 15/16 in"},
		{119.9375 * inch, "119 15/16", "119 15/16 in"},
		{119.97 * inch, "120", "10 ft"}, // rounds up to the end of the tape
		{151.5 * inch, "151 1/2", "12 ft 7 1/2 in"},
		{-151.5 * inch, "-151 1/2", "-12 ft 7 1/2 in"},
		{156.25 * inch, "156 1/4", "13 ft 1/4 in"},
		{1e5 * units.Foot, "1200000", "100000 ft"},
	} {
		if got := Inches(c.l); got != c.inches {
			t.Errorf("%v: %q, want %q", c.l, got, c.inches)
		}
		if got := Tape(c.l); got != c.tape {
			t.Errorf("%v: %q, want %q", c.l, got, c.tape)
		}
	}
}

// What is written parses back to within half a sixteenth.
func TestTapeParses(t *testing.T) {
	for i := range 2000 {
		l := units.Millimetre.Scale(2.3 * float64(i))
		for _, text := range []string{Tape(l), Inches(l) + " in"} {
			back, err := units.ParseLength(text)
			if err != nil || (back-l).Abs() > units.Inch.Scale(1.0/32+1e-9) {
				t.Errorf("%v: %q is %v, %v", l, text, back, err)
			}
		}
	}
}

func TestFeetAndPounds(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Feet(0), "0 ft"},
		{Feet(20 * units.Foot), "20 ft"},
		{Feet(28.46 * units.Foot), "28.5 ft"},
		{Feet(-0.04 * units.Foot), "0 ft"},
		{Feet(-2 * units.Foot), "-2 ft"},
		{Feet(1e6 * units.Foot), "1000000 ft"},
		{Pounds(0), "0 lbf"},
		{Pounds(2.44 * units.PoundForce), "2.4 lbf"},
		{Pounds(9.96 * units.PoundForce), "10 lbf"},
		{Pounds(1869.4 * units.PoundForce), "1869 lbf"},
		{Pounds(-0.01 * units.PoundForce), "0 lbf"},
		{Pounds(units.Force(math.NaN())), "NaN lbf"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
