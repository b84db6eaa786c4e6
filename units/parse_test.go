package units_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind, text string
		want       float64
	}{
		{"Length", "12.5 m", 12.5},
		{"Length", "12.5m", 12.5},
		{"Length", " \t12.5 \t m\t ", 12.5},
		{"Length", "+2 m", 2},
		{"Length", "-2.5 m", -2.5},
		{"Length", "0 m", 0},
		{"Length", ".5 m", 0.5},
		{"Length", "007 m", 7},
		{"Length", "1.25e3 m", 1250},
		{"Length", "1E-3 m", 0.001},
		{"Length", "1e+3m", 1000},
		{"Length", "5e-324 m", 5e-324},
		{"Length", "1.7976931348623157e308 m", math.MaxFloat64},
		{"Length", "8mm", 0.008},
		{"Length", "3 micrometres", 3e-6},
		{"Length", "3 µm", 3e-6},
		{"Length", "3 \u03bcm", 3e-6},
		{"Length", "1 metre", 1},
		{"Length", "2 meters", 2},
		{"Length", "5/16 in", 0.0079375},
		{"Length", "5/16in", 0.0079375},
		{"Length", "0/16 in", 0},
		{"Length", "010/16 in", 0.015875}, // decimal, not octal
		{"Length", "1 08/016 in", 0.0381},
		{"Length", "010 ft", 3.048},
		{"Length", "17/16 in", 0.0269875},
		{"Length", "1 1/2 in", 0.0381},
		{"Length", "1-1/2 in", 0.0381},
		{"Length", "-1-1/2 in", -0.0381},
		{"Length", "1 1/2 m", 1.5},
		{"Length", "41ft 3in", 12.573},
		{"Length", "41 ft 3 in", 12.573},
		{"Length", "41ft3in", 12.573},
		{"Length", "41 feet 3 inches", 12.573},
		{"Length", "-41ft 3in", -12.573},
		{"Length", "41 ft 3 1/2 in", 12.5857},
		{"Length", "41 ft 1/2 in", 12.5095},
		{"Length", "41 ft 3.5 in", 12.5857},
		{"Length", "41 ft 0 in", 12.4968},
		{"Length", `3'6"`, 1.0668},
		{"Length", `3' 6"`, 1.0668},
		{"Length", `3′6″`, 1.0668},
		{"Length", `6"`, 0.1524},
		{"Length", "5 fathoms", 9.144},
		{"Length", "1 nautical mile", 1852},
		{"Length", "2 nmi", 3704},
		{"Area", "2.5 mm2", 2.5e-6},
		{"Area", "2.5 mm²", 2.5e-6},
		{"Area", "3 sq ft", 0.27870912},
		{"Volume", "2 US gal", 0.007570823568},
		{"Volume", "2 imperial gallons", 0.00909218},
		{"Volume", "40 l", 0.04},
		{"Mass", "12 lb 4 oz", 5.5565065325},
		{"Mass", "1 lb", 0.45359237},
		{"Mass", "1 long ton", 1016.0469088},
		{"Force", "25 kN", 25000},
		{"Force", "1 pound-force", 4.4482216152605},
		{"LinearDensity", "30.48 lb/100ft", 0.45359237},
		{"LinearDensity", "30.48 lb/100 ft", 0.45359237},
		{"Pressure", "200 N/mm2", 2e8},
		{"Pressure", "1 lbf/in²", 6894.757293168362},
		{"Speed", "25 kn", 12.861111111111111},
		{"Speed", "36 km/h", 10},
		{"Acceleration", "0.5 g", 4.903325},
		{"Angle", "180°", math.Pi},
		{"Angle", "180 degrees", math.Pi},
		{"Angle", "90 deg", math.Pi / 2},
		{"Angle", "1 turn", 2 * math.Pi},
		{"Temperature", "18 °C", 291.15},
		{"Temperature", "18°C", 291.15},
		{"Temperature", "-3 °C", 270.15},
		{"Temperature", "-40 °F", 233.15},
		{"Temperature", "64.4 F", 291.15},
		{"Temperature", "293 K", 293},
		{"Temperature", "-273.15 °C", 0},
		{"TemperatureDifference", "-18 °F", -10},
		{"Time", "1 h 30 min", 5400},
		{"Time", "1 d 2 h 3 min 4.5 s", 93784.5},
		{"Energy", "1.2 kWh", 4.32e6},
		{"Energy", "1 W h", 3600},
		{"Power", "100 PS", 73549.875},
		{"Torque", "4.5 N·m", 4.5},
		{"Torque", "4.5 N m", 4.5},
		{"Torque", "4.5 N⋅m", 4.5},
		{"Torque", "4.5 Nm", 4.5},
		{"Current", "10 amps", 10},
		{"Resistance", "3 mΩ", 0.003},
		{"Resistance", "3 m\u2126", 0.003},
		{"Resistance", "3 mohm", 0.003},
		{"Resistance", "1 ohm", 1},
		{"ResistancePerLength", "1 ohm/kft", 1 / 304.8},
		{"ResistancePerLength", "1.91 mΩ/m", 0.00191},
		{"Charge", "110 Ah", 396000},
		{"AngularSpeed", "60 rpm", 2 * math.Pi},
	} {
		got, err := kindNamed(t, c.kind).parse(c.text)
		if err != nil {
			t.Errorf("%s %q: %v", c.kind, c.text, err)
		} else if got != c.want {
			t.Errorf("%s %q: got %v, want %v", c.kind, c.text, got, c.want)
		}
	}
	x, err := units.ParseLength("-0.0 ft")
	if err != nil || !math.Signbit(float64(x)) {
		t.Errorf("-0.0 ft: got %v, %v; want the zero with a sign", x, err)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ kind, text, reason string }{
		{"Length", "", "does not begin with a number"},
		{"Length", "   ", "does not begin with a number"},
		{"Length", "m", "does not begin with a number"},
		{"Length", "-", "does not begin with a number"},
		{"Length", "--1 m", "does not begin with a number"},
		{"Length", "- 1 m", "does not begin with a number"},
		{"Length", "NaN m", "does not begin with a number"},
		{"Length", "Inf m", "does not begin with a number"},
		{"Length", "+inf m", "does not begin with a number"},
		{"Length", ".m", "digits are missing after the decimal point"},
		{"Length", "5. m", "digits are missing after the decimal point"},
		{"Length", "12", "the unit is missing: write for example 12 m or 12 ft"},
		{"Length", "0", "the unit is missing"},
		{"Length", "12 ", "the unit is missing"},
		{"Length", "1 1/2", "write for example 1 1/2 m"},
		{"Charge", "12", "write for example 12 Ah or 12 C"},
		{"Length", "1,200 m", "a comma is not accepted"},
		{"Length", "1,5 m", "write 1200 or 1.2"},
		{"Length", "0x10 m", `unknown unit "x10 m"`},
		{"Length", "1_000 m", `unknown unit "_000 m"`},
		{"Length", "1e m", `unknown unit "e m"`},
		{"Length", "1 m3", `"m3" is a unit of volume`},
		{"Length", "1 m m", `unknown unit "m m"`},
		{"Length", "1 m 2", `unknown unit "m 2"`},
		{"Length", "12.5.3 m", `unknown unit ".3 m"`},
		{"Length", "1/ in", "digits are missing after the fraction stroke"},
		{"Length", "1/0 in", "divides by zero"},
		{"Length", "1 1/00 in", "divides by zero"},
		{"Length", "1 3/2 in", "not less than one"},
		{"Length", "1 2/2 in", "not less than one"},
		{"Length", "1.5 1/2 in", `unknown unit "1/2 in"`},
		{"Length", "1 - 1/2 in", `unknown unit "- 1/2 in"`},
		{"Length", "1e401 m", "the exponent is beyond 400"},
		{"Length", "1e99999999999999999999 m", "the exponent is beyond 400"},
		{"Length", "1e309 m", "too large"},
		{"Length", "-1e308 km", "too large"},
		{"Length", "1e-330 m", "too small"},
		{"Length", "1e-400 mm", "too small"},
		{"Length", "0." + strings.Repeat("0", 100) + "1 m", "longer than 100 bytes"},
		{"Length", "41ft 15in", "as much as one ft or more in in after ft"},
		{"Length", "41ft 12in", "as much as one ft or more"},
		{"Length", "41.5ft 3in", "may follow only a whole number of ft"},
		{"Length", "1/2 ft 3 in", "may follow only a whole number of ft"},
		{"Length", "1e1 ft 3 in", "may follow only a whole number of ft"},
		{"Length", "41ft -3in", "does not begin with a number"},
		{"Length", "41ft 3", "the unit is missing"},
		{"Length", "41ft 3m", "only in may follow ft"},
		{"Length", "41ft 3ft", "only in may follow ft"},
		{"Length", "41ft 3in 2in", `unknown unit "in 2in"`},
		{"Length", "41ft 3furlongs", `unknown unit "furlongs"`},
		{"Length", "12 M", "mistaken for the metre"},
		{"Length", "12 NM", "write nmi"},
		{"Length", "12 nm", "write nmi"},
		{"Length", "12 Ft", `did you mean "ft"`},
		{"Length", "12 MM", `did you mean "mm"`},
		{"Length", "1 mile", "two kinds of mile"},
		{"Length", "2 cables", "units.CableLength"},
		{"Length", "2 cable", "185.2 m"},
		{"Length", "2 shackles", "27.5 m (units.Shackle)"},
		{"Length", "2 shackle", "27.5 m"},
		{"Length", "2 shot", "15 fathoms = 27.432 m (units.Shot)"},
		{"Length", "2 shots", "27.432 m"},
		{"Length", "12 kg", `"kg" is a unit of mass`},
		{"Length", "12 furlongs", "accepted units: m, µm, mm, cm, km, in, ft, yd, fathom, nmi, mi"},
		{"Length", "12 m\n", `unknown unit "m\n"`},
		{"Length", "12\u00a0m", "unknown unit"},
		{"Length", "12 \xff", "unknown unit"},
		{"Volume", "3 gal", "two kinds of gallon"},
		{"Mass", "3 ton", "three kinds of ton"},
		{"Mass", "3 tons", "three kinds of ton"},
		{"Mass", "12 lb 16 oz", "as much as one lb"},
		{"Mass", "12 lbf", `"lbf" is a unit of force`},
		{"Force", "12 lb", "write lbf"},
		{"Force", "12 kg", "write kgf"},
		{"Force", "12 kilos", "write kgf"},
		{"Force", "1 t", "write tf"},
		{"Force", "3 tons", "three kinds of ton"},
		{"Force", "25 kn", `"kn" is a unit of speed; "kN" is one of force`},
		{"Speed", "25 kN", `"kN" is a unit of force; "kn" is one of speed`},
		{"Force", "25 KN", `did you mean "kN"`},
		{"Angle", "3'", "minutes and seconds of arc"},
		{"Temperature", "18 °", "write °C or °F"},
		{"Temperature", "18", "write for example 18 °C or 18 °F"},
		{"Temperature", "18 °C 3 °C", "unknown unit"},
		{"Time", "3 m", "write min"},
		{"Time", "30 min 2 h", "only s may follow min"},
		{"Power", "9 hp", "write PS (735.5 W) or mechanical hp (745.7 W)"},
		{"Torque", "9 lb ft", "write lbf ft"},
		{"Torque", "9 J", `"J" is a unit of energy`},
		{"Energy", "9 N·m", `"N·m" is a unit of torque`},
		{"Current", "9 Ah", "an ampere hour is a charge"},
	} {
		got, err := kindNamed(t, c.kind).parse(c.text)
		if err == nil {
			t.Errorf("%s %q: got %v, want an error with %q", c.kind, c.text, got, c.reason)
			continue
		}
		if got != 0 {
			t.Errorf("%s %q: value %v beside an error", c.kind, c.text, got)
		}
		if !strings.Contains(err.Error(), c.reason) {
			t.Errorf("%s %q: error %q does not have %q", c.kind, c.text, err, c.reason)
		}
		var pe *units.ParseError
		if !errors.Is(err, units.ErrParse) || !errors.As(err, &pe) {
			t.Errorf("%s %q: error is a %T, want a *ParseError that wraps ErrParse", c.kind, c.text, err)
		}
	}
}

func TestParseError(t *testing.T) {
	_, err := units.ParseAcceleration("3 kn")
	want := &units.ParseError{
		Quantity: "acceleration",
		Input:    "3 kn",
		Reason:   `"kn" is a unit of speed`,
		Accepted: []string{"m/s²", "ft/s²", "g"},
	}
	if diff := cmp.Diff(want, err); diff != "" {
		t.Error(diff)
	}
	const text = `units: acceleration "3 kn": "kn" is a unit of speed; accepted units: m/s², ft/s², g`
	if err.Error() != text {
		t.Errorf("got %s\nwant %s", err, text)
	}

	// A long input is cut, between characters.
	_, err = units.ParseLength("3 " + strings.Repeat("é", 40))
	var pe *units.ParseError
	if !errors.As(err, &pe) || pe.Input != "3 "+strings.Repeat("é", 19)+"..." {
		t.Errorf("input in the error is %q", pe.Input)
	}

	// Changing what an error or a list holds does not change the package.
	list := units.LengthUnits()
	list[0] = "x"
	if units.LengthUnits()[0] != "m" {
		t.Error("LengthUnits gives away its own list")
	}
}

func TestIn(t *testing.T) {
	if got, err := (18 * units.Inch).In("ft"); err != nil || got != 1.5 {
		t.Errorf("18 in is %v ft, %v", got, err)
	}
	for _, name := range []string{"", "kg", "cable", "m2", "m ", " m", "12 m", "m 1"} {
		got, err := units.Metre.In(name)
		if !errors.Is(err, units.ErrParse) || got != 0 {
			t.Errorf("In(%q) = %v, %v; want ErrParse", name, got, err)
		}
	}
}

// The names of units, spelled in all the ways that are accepted, of every
// quantity: what the list of symbols has is accepted with ² and 2 and the like.
func TestSpellings(t *testing.T) {
	for _, k := range kinds {
		for _, s := range k.units() {
			want, err := k.parse("3 " + s)
			if err != nil {
				t.Errorf("%s: %v", k.name, err)
				continue
			}
			spellings := []string{s}
			for _, r := range []*strings.Replacer{
				strings.NewReplacer("²", "2", "³", "3"),
				strings.NewReplacer("·", " "),
				strings.NewReplacer("·", "⋅"),
				strings.NewReplacer("Ω", "ohm"),
				strings.NewReplacer("µ", "u"),
				strings.NewReplacer("µ", "\u03bc", "Ω", "\u2126"),
				strings.NewReplacer("·", " ", "²", "2"),
			} {
				if n := r.Replace(s); !slices.Contains(spellings, n) {
					spellings = append(spellings, n)
				}
			}
			for _, n := range spellings {
				for _, text := range []string{"3 " + n, "3" + n} {
					if got, err := k.parse(text); err != nil || got != want {
						t.Errorf("%s %q: got %v, %v; want %v", k.name, text, got, err, want)
					}
				}
			}
		}
	}
}
