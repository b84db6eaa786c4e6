package units_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"

	"example.com/forepeak/units"
)

func Example() {
	// What is on the label of the drum, and how deep it is.
	weight, err := units.ParseLinearDensity("95 lb/100ft")
	if err != nil {
		fmt.Println(err)
		return
	}
	depth := 8 * units.Fathom

	hanging := weight.TimesLength(depth)
	fmt.Printf("%.3v of chain hang in %.3v of water\n", hanging, depth)
	fmt.Printf("and pull with %.3v, or %.0f lbf\n", hanging.Weight(), hanging.Weight().PoundsForce())
	// Output:
	// 20.7 kg of chain hang in 14.6 m of water
	// and pull with 203 N, or 46 lbf
}

func ExampleParseLength() {
	for _, s := range []string{"8mm", "5/16 in", "41ft 3 1/2in", `3'6"`, "1,200 m", "2 shackles", "12"} {
		l, err := units.ParseLength(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s is %v\n", s, l)
	}
	// Output:
	// 8mm is 0.008 m
	// 5/16 in is 0.0079375 m
	// 41ft 3 1/2in is 12.5857 m
	// 3'6" is 1.0668 m
	// units: length "1,200 m": a comma is not accepted, as 1,200 is 1200 to some and 1.2 to others: write 1200 or 1.2
	// units: length "2 shackles": a shackle of cable is 27.5 m (units.Shackle) in metric chain, 15 fathoms = 27.432 m (units.Shot) in imperial: write metres, feet or fathoms; accepted units: m, µm, mm, cm, km, in, ft, yd, fathom, nmi, mi
	// units: length "12": the unit is missing: write for example 12 m or 12 ft
}

func ExampleParseError() {
	_, err := units.ParseForce("25 kn")
	var parse *units.ParseError
	if errors.As(err, &parse) {
		fmt.Println(parse.Quantity, "-", parse.Reason)
		fmt.Println(parse.Accepted)
	}
	fmt.Println(errors.Is(err, units.ErrParse))
	// Output:
	// force - "kn" is a unit of speed; "kN" is one of force
	// [N daN kN lbf kgf tf]
	// true
}

func ExampleLength_Format() {
	l := 8 * units.Millimetre
	fmt.Printf("%v\n%.3v\n%.4f\n%8.2v|\n", l, l, l, l)
	// Output:
	// 0.008 m
	// 8.00 mm
	// 0.0080 m
	//   8.0 mm|
}

func ExampleLength_In() {
	feet, err := (12.5 * units.Metre).In("ft")
	fmt.Printf("%.2f ft %v\n", feet, err)
	// Output:
	// 41.01 ft <nil>
}

func ExampleLength_UnmarshalText() {
	var rode struct{ Chain, Rope units.Length }
	err := json.Unmarshal([]byte(`{"Chain": "40 m", "Rope": "27 fathoms"}`), &rode)
	fmt.Println(rode, err)
	err = json.Unmarshal([]byte(`{"Chain": 40}`), &rode)
	fmt.Println(err != nil)
	// Output:
	// {40 m 49.3776 m} <nil>
	// true
}

func Example_flag() {
	var depth units.Length
	flags := flag.NewFlagSet("plan", flag.ContinueOnError)
	flags.TextVar(&depth, "depth", 4*units.Metre, "depth at low water")
	err := flags.Parse([]string{"-depth", "11ft 6in"})
	fmt.Println(depth, err)
	// Output:
	// 3.5052 m <nil>
}

// A length times a length is an area; Go's own * would call it a length.
func ExampleLength_TimesLength() {
	panel := (2.4 * units.Metre).TimesLength(1.5 * units.Metre)
	fmt.Printf("%.2v\n", panel)
	// Output:
	// 3.6 m²
}

func ExampleLength_Per() {
	scope := (35 * units.Metre).Per(7 * units.Metre)
	fmt.Println(scope)
	// Output:
	// 5
}

func ExampleMass_Weight() {
	fmt.Printf("%.4v\n", (20 * units.Kilogram).Weight())
	// Output:
	// 196.1 N
}

// Temperatures are points on a scale, what lies between them is a difference.
func ExampleTemperature_Sub() {
	rise := units.Celsius(90).Sub(units.Fahrenheit(86))
	fmt.Printf("%.3v\n", rise)
	fmt.Printf("%.3v\n", units.Celsius(30).Add(rise))
	// Output:
	// 60.0 K
	// 90.0 °C
}

func ExampleForce_TimesArm() {
	fmt.Println((150 * units.Newton).TimesArm(0.4 * units.Metre))
	fmt.Println((150 * units.Newton).TimesLength(0.4 * units.Metre)) // work
	// Output:
	// 60 N·m
	// 60 J
}

func ExampleCurrent_TimesResistance() {
	round := (2 * units.OhmPerKilometre).TimesLength(2 * 6 * units.Metre)
	drop := (15 * units.Ampere).TimesResistance(round)
	fmt.Printf("%.3v lost, %.3v of heat\n", drop, drop.TimesCurrent(15*units.Ampere))
	// Output:
	// 360 mV lost, 5.40 W of heat
}

func ExampleTime_Duration() {
	d, err := (1.5 * units.Minute).Duration()
	fmt.Println(d, err)
	_, err = (300 * 365 * units.Day).Duration()
	fmt.Println(err)
	// Output:
	// 1m30s <nil>
	// units: time 9460800000 s: time.Duration holds from -292 to 292 years
}

func ExampleAtan2() {
	slope := units.Atan2(1*units.Metre, 5*units.Metre)
	fmt.Printf("%.3v\n", slope)
	// Output:
	// 11.3°
}

func ExampleLengthUnits() {
	fmt.Println(units.SpeedUnits())
	// Output:
	// [m/s m/min km/h kn ft/s ft/min mph]
}

// A range of one quantity, as results give it.
func ExampleInterval() {
	holds := units.Interval[units.Force]{Low: 2.1 * units.Kilonewton, High: 8.4 * units.Kilonewton}
	fmt.Printf("%.2v to %.2v, the higher %.0f times the lower\n", holds.Low, holds.High, holds.High.Per(holds.Low))
	// Output:
	// 2.1 kN to 8.4 kN, the higher 4 times the lower
}
