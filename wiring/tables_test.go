package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// The steps of the published bands lie where the doc comments' standards put them: the last rating of a step has its
// time, the next one that of the next step.
func TestBandSteps(t *testing.T) {
	latest := func(name BandName, rating units.Current, multiple float64) float64 {
		b, err := PublishedBand(name, rating)
		if err != nil {
			t.Fatal(err)
		}
		o, err := b.Opening(rating, rating.Scale(multiple))
		if err != nil || !o.Opens || b.Name != string(name) {
			t.Fatalf("%s, %v at %v times: %+v, error %v", name, rating, multiple, o, err)
		}
		return o.Latest.Seconds()
	}
	for _, k := range []struct {
		name     BandName
		rating   units.Current
		multiple float64
		seconds  float64
	}{
		// IEC 60898: conventional time 1 h up to 63 A, 2 h above; 2.55 times 60 s up to 32 A, 120 s above.
		{BandB, 63, 1.45, 3600},
		{BandB, 63.5, 1.45, 7200},
		{BandB, 32, 2.56, 60},
		{BandB, 32.5, 2.56, 120},
		{BandC, 63, 1.45, 3600},
		{BandC, 63.5, 1.45, 7200},
		{BandC, 32, 2.56, 60},
		{BandC, 32.5, 2.56, 120},
		{BandB, 16, 6.9, 60},
		{BandB, 16, 7.01, 0.1},
		{BandC, 16, 14.9, 60},
		{BandC, 16, 15.01, 0.1},
		// UL 489: 1 h at 135 % up to 50 A, 2 h above; at 200 % by rating.
		{BandUL489, 50, 1.36, 3600},
		{BandUL489, 50.5, 1.36, 7200},
		{BandUL489, 30, 2.01, 120},
		{BandUL489, 30.5, 2.01, 240},
		{BandUL489, 50, 2.01, 240},
		{BandUL489, 50.5, 2.01, 360},
		{BandUL489, 100, 2.01, 360},
		{BandUL489, 100.5, 2.01, 480},
		{BandUL489, 150, 2.01, 480},
		{BandUL489, 150.5, 2.01, 600},
		{BandUL489, 225, 2.01, 600},
		{BandUL489, 225.5, 2.01, 720},
		{BandUL489, 400, 2.01, 720},
		{BandUL489, 400.5, 2.01, 840},
		{BandUL489, 600, 2.01, 840},
		// ISO 8820-3: at six times 100 ms, above 30 A 150 ms.
		{BandBlade, 30, 6.01, 0.1},
		{BandBlade, 30.5, 6.01, 0.15},
	} {
		near(t, fmt.Sprintf("%s, %v at %v times", k.name, k.rating, k.multiple), latest(k.name, k.rating, k.multiple), k.seconds, 1e-9)
	}
	// What does not trip at 1.13 times for the conventional time, 1 h to 63 A and 2 h above.
	for _, k := range []struct {
		rating  units.Current
		seconds float64
	}{{63, 3600}, {63.5, 7200}} {
		b, err := PublishedBand(BandB, k.rating)
		if err != nil {
			t.Fatal(err)
		}
		o, err := b.Opening(k.rating, k.rating.Scale(1.12))
		if err != nil || o.Opens || o.Holds || o.Earliest.Seconds() != k.seconds {
			t.Errorf("%v: %+v, error %v", k.rating, o, err)
		}
	}
}

// A device carries its rating for ever, what is a little more not; at a point the point is true, and beyond the last one
// only its latest.
func TestOpeningAtPoints(t *testing.T) {
	curve := Band{Points: []BandPoint{{2, 10, 40}, {4, 0, 20}, {8, 1, 5}}}
	test := Band{Points: curve.Points, Tested: true}
	bare := Band{Points: []BandPoint{{2, 0, 40}}}
	for _, k := range []struct {
		name     string
		band     Band
		amperes  units.Current
		holds    bool
		earliest float64
		latest   float64 // 0: need not open
	}{
		{"rating", curve, 10, true, 0, 0},
		{"above the rating", curve, 10.001, false, 10, 0}, // opens no sooner than at the first point
		{"above the rating, nothing stated", bare, 10.001, false, 0, 0},
		{"first point", curve, 20, false, 10, 40},
		{"on the curve, early", curve, 40, false, math.Sqrt(10), 20}, // halfway from 2 to 8 in logarithms
		{"on the curve, late", curve, 20 * math.Sqrt2, false, 10 * math.Pow(10, -0.25), math.Sqrt(800)},
		{"last point", curve, 80, false, 1, 5},
		{"beyond", curve, 81, false, 0, 5},
		{"test between points", test, 30, false, 1, 40},
		{"test at a point", test, 40, false, 1, 20},
		{"test at the last point", test, 80, false, 1, 5},
	} {
		o, err := k.band.Opening(10, k.amperes)
		if err != nil {
			t.Fatal(err)
		}
		if o.Holds != k.holds || o.Opens != (k.latest > 0) {
			t.Errorf("%s: %+v", k.name, o)
		}
		near(t, k.name+": multiple", o.Multiple, k.amperes.Amperes()/10, 1e-12)
		near(t, k.name+": earliest", o.Earliest.Seconds(), k.earliest, 1e-9)
		near(t, k.name+": latest", o.Latest.Seconds(), k.latest, 1e-9)
	}
}

// The verdicts of the doc comment, for every place at every kind of conductor.
func TestPlacementRules(t *testing.T) {
	for _, battery := range []bool{false, true} {
		for _, sheathed := range []bool{false, true} {
			for _, cranking := range []bool{false, true} {
				for _, rules := range AllRules() {
					limit, confirmed, words := units.Length(0), false, ""
					switch {
					case rules == IEC60092:
						words = "no length"
					case rules == ISO && sheathed:
						words = "sheath"
					case rules == ISO:
						limit, words = 200*units.Millimetre, "200 mm"
					case cranking:
						words = "exempt"
					case rules == CFR && battery:
						limit, words = 72*units.Inch, "72 in of the battery"
					case rules == E11 && battery && sheathed:
						limit, confirmed, words = 72*units.Inch, true, "72 in of the battery"
					case sheathed:
						limit, confirmed, words = 40*units.Inch, true, "sheathed, within 40 in"
					default:
						limit, confirmed, words = 7*units.Inch, true, "within 7 in"
					}
					at := limit
					if at == 0 {
						at = 50
					}
					for _, length := range []units.Length{at, at.Scale(1 + 1e-9)} {
						p := Place{Length: length, Battery: battery, Sheathed: sheathed, Cranking: cranking}
						v, err := CheckPlacement(rules, p)
						if err != nil {
							t.Fatal(err)
						}
						accepted := rules != IEC60092 && (limit == 0 || length == at)
						if v.Stated != (rules != IEC60092) || v.Confirmed != confirmed || v.Accepted != accepted || v.Rules != rules || v.Place != p {
							t.Errorf("%+v", v)
						}
						near(t, "limit", v.Limit.Metres(), limit.Metres(), 0)
						how := map[bool]string{true: ", sheathed, ", false: ", bare, "}[sheathed]
						verdict := map[bool]string{true: ": accepted; ", false: ": too far; "}[accepted]
						if rules == IEC60092 {
							verdict = ": no length stated; "
						}
						for _, part := range []string{string(rules) + how, verdict, words} {
							if !strings.Contains(v.String(), part) {
								t.Errorf("%q does not say %q", v.String(), part)
							}
						}
					}
				}
			}
		}
	}
	// Each rule set, bare and then sheathed.
	all, err := CheckPlacements(Place{Length: 1, Battery: true, Cranking: true, Sheathed: true})
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range all {
		want := Place{Length: 1, Battery: true, Cranking: true, Sheathed: i%2 == 1}
		if v.Rules != AllRules()[i/2] || v.Place != want {
			t.Errorf("%d: %+v", i, v)
		}
	}
}

func factors(r CableRating) string {
	var all []string
	for _, f := range r.Factors {
		all = append(all, fmt.Sprintf("%s %.4g %s", f.Name, f.Value, f.Kind))
	}
	return strings.Join(all, "; ")
}

// Every step of the reductions for conductors laid together, as the doc comment and the tables have them.
func TestBundleSteps(t *testing.T) {
	c := Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3, Insulation: units.Celsius(85)}
	for _, k := range []struct {
		rules Rules
		upTo  []int
		value []float64
	}{
		{E11, []int{2, 3, 6, 24, 1000}, []float64{1, 0.7, 0.6, 0.5, 0.4}},
		{ISO, []int{3, 6, 24, 1000}, []float64{1, 0.7, 0.6, 0.5}},
		{IEC60092, []int{1, 2, 4, 5, 7, 12, 19, 27, 37}, []float64{1, 0.85, 0.7, 0.58, 0.5, 0.43, 0.38, 0.33, 0.3}},
		{CFR, []int{1000}, []float64{1}},
	} {
		first := 0
		for i, last := range k.upTo {
			for _, n := range []int{first, last} {
				r, err := Ampacity(k.rules, c, Installation{Bundled: n})
				if err != nil {
					t.Fatal(err)
				}
				got := 1.0
				for _, f := range r.Factors {
					got *= f.Value
				}
				if got != k.value[i] || (len(r.Factors) > 0) != (k.value[i] < 1) {
					t.Errorf("%s, %d together: %s, want %v", k.rules, n, factors(r), k.value[i])
				}
				near(t, "current", r.Current.Amperes(), r.Table.Amperes()*k.value[i], 1e-9)
				for _, f := range r.Factors {
					if f.Name != fmt.Sprintf("%d conductors together", n) || f.Kind != "standard" && f.Kind != "memory" {
						t.Errorf("%+v", f)
					}
				}
				if noted := slices.ContainsFunc(r.Notes, func(s string) bool { return strings.Contains(s, "bundles below 50 V") }); noted != (k.rules == CFR && n > 1) {
					t.Errorf("%s, %d together: %q", k.rules, n, r.Notes)
				}
			}
			first = last + 1
		}
	}
}

// Factors of engine spaces and of ambients, by hand and by the doc comment, and what the answer says of itself.
func TestAmpacityByHand(t *testing.T) {
	metric := func(mm2, insulation float64) Conductor {
		return Conductor{Size: fmt.Sprintf("%g mm²", mm2), Area: units.Area(mm2 * 1e-6), Resistance: 1e-3, Insulation: units.Celsius(insulation)}
	}
	gauge := Conductor{Size: "2 SAE", Gauge: "2", Area: 31.6e-6, Resistance: 1e-3, Insulation: units.Celsius(105)}
	for _, k := range []struct {
		name    string
		rules   Rules
		c       Conductor
		in      Installation
		row     string
		column  float64
		table   float64
		factors string
		notes   []string
	}{
		{"ISO 35 mm²", ISO, metric(35, 70), Installation{}, "35 mm²", 70, 160, "", []string{"from memory"}},
		{"a size between", ISO, metric(30, 70), Installation{}, "25 mm²", 70, 120, "", []string{"30 mm² is not in the table: 25 mm²", "from memory"}},
		{"insulation between", ISO, metric(35, 90), Installation{}, "35 mm²", 85, 185, "", []string{"90 °C insulation is rated by the column for 85 °C", "from memory"}},
		{"insulation within rounding", ISO, metric(35, 85.4), Installation{}, "35 mm²", 85, 185, "", []string{"from memory"}},
		{"a little less than a size", IEC60092, metric(34.97, 85), Installation{}, "35 mm²", 85, 145, "", []string{"34.97 mm² is not in the table"}},
		{"the largest and rounding", IEC60092, metric(335, 85), Installation{}, "300 mm²", 85, 560, "", []string{"335 mm² is not"}},
		{"the smallest", IEC60092, metric(1.5, 85), Installation{}, "1.5 mm²", 85, 20, "", nil},
		{"the table's ambient", ISO, metric(35, 70), Installation{Ambient: units.Celsius(30)}, "35 mm²", 70, 160, "", []string{"from memory"}},
		// sqrt((70-50)/(70-30)) is 0.7071, sqrt((85-30)/(85-45)) 1.173.
		{"warm", ISO, metric(35, 70), Installation{Ambient: units.Celsius(50)}, "35 mm²", 70, 160, "ambient of 50 °C 0.7071 formula", []string{"from memory"}},
		{"cooler than the table", IEC60092, metric(35, 85), Installation{Ambient: units.Celsius(30)}, "35 mm²", 85, 145, "ambient of 30 °C 1.173 formula", nil},
		{"ISO engine", ISO, metric(35, 70), Installation{EngineSpace: true}, "35 mm²", 70, 160, "engine space 0.75 memory", []string{"from memory"}},
		{"ISO engine with its ambient", ISO, metric(35, 70), Installation{EngineSpace: true, Ambient: units.Celsius(50)}, "35 mm²", 70, 160, "engine space 0.75 memory", []string{"from memory"}},
		{"ISO engine, 105 °C", ISO, metric(35, 105), Installation{EngineSpace: true}, "35 mm²", 105, 210, "engine space 0.86 memory", []string{"from memory"}},
		{"ABYC engine, 105 °C", E11, gauge, Installation{EngineSpace: true}, "2 AWG", 105, 210, "engine space 0.85 standard", nil},
		{"CFR engine, 105 °C", CFR, gauge, Installation{EngineSpace: true}, "2 AWG", 105, 210, "engine space 0.86 memory", nil},
		{"ABYC engine and bundle", E11, gauge, Installation{EngineSpace: true, Bundled: 3}, "2 AWG", 105, 210, "engine space 0.85 standard; 3 conductors together 0.7 standard", nil},
		{"metric by the American table", CFR, metric(35, 105), Installation{}, "2 AWG", 105, 210, "", []string{"35 mm² is not in the table: 2 AWG"}},
		{"written otherwise", ISO, Conductor{Size: "35MM2", Area: 35e-6, Resistance: 1e-3, Insulation: units.Celsius(70)}, Installation{}, "35 mm²", 70, 160, "", []string{"from memory"}},
	} {
		r, err := Ampacity(k.rules, k.c, k.in)
		if err != nil {
			t.Errorf("%s: %v", k.name, err)
			continue
		}
		if r.Rules != k.rules || r.Row != k.row || math.Abs(r.Column.Celsius()-k.column) > 1e-9 || r.Table.Amperes() != k.table || factors(r) != k.factors {
			t.Errorf("%s: %+v", k.name, r)
		}
		current := k.table
		for _, f := range r.Factors {
			current *= f.Value
		}
		near(t, k.name, r.Current.Amperes(), current, 1e-9)
		if kind := map[bool]string{true: "memory", false: "standard"}[k.rules == ISO]; r.Kind != kind {
			t.Errorf("%s: kind %q", k.name, r.Kind)
		}
		if len(r.Notes) != len(k.notes) {
			t.Errorf("%s: %q", k.name, r.Notes)
			continue
		}
		for i, n := range k.notes {
			if !strings.Contains(r.Notes[i], n) {
				t.Errorf("%s: %q does not say %q", k.name, r.Notes[i], n)
			}
		}
	}
	for name, k := range map[string]struct {
		rules Rules
		c     Conductor
		in    Installation
		field string
		want  string
	}{
		"too thick":       {IEC60092, metric(340, 85), Installation{}, "conductor.Area", "1.5 mm² to 300 mm²"},
		"too thin":        {IEC60092, metric(1.4, 85), Installation{}, "conductor.Area", "1.5 mm² to 300 mm²"},
		"too cool":        {IEC60092, metric(35, 79), Installation{}, "conductor.Insulation", "80 °C or more"},
		"cores":           {IEC60092, metric(35, 85), Installation{Bundled: 38}, "installation.Bundled", "37 or fewer"},
		"no engine space": {ISO, metric(35, 60), Installation{EngineSpace: true}, "conductor.Insulation", "70 °C or more"},
		"no factor":       {IEC60092, metric(35, 85), Installation{EngineSpace: true}, "installation.EngineSpace", "an Ambient instead"},
	} {
		_, err := Ampacity(k.rules, k.c, k.in)
		if e := new(Error); !errors.Is(err, ErrRange) || !errors.As(err, &e) || e.Field != k.field || !strings.Contains(e.Want, k.want) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// Voltage at rest between the points of a curve, by hand; the temperature moves lead-acid 0.2 mV a cell and kelvin.
func TestOpenCircuitByHand(t *testing.T) {
	for _, k := range []struct {
		chemistry Chemistry
		cells     int
		charge    float64
		celsius   float64
		volts     float64
	}{
		{AGM, 6, 0, 25, 11.8},
		{AGM, 6, 0.25, 25, 12},
		{AGM, 6, 0.1, 25, 11.88},
		{AGM, 6, 0.6, 25, 12.42},
		{AGM, 6, 1, 25, 12.8},
		{AGM, 12, 1, 25, 25.6},
		{AGM, 6, 1, -5, 12.8 - 30*6*0.2e-3},
		{AGM, 6, 1, 35, 12.8 + 10*6*0.2e-3},
		{Gel, 6, 0.5, 25, 12.35},
		{Flooded, 6, 0.1, 25, 6 * 1.918},
		{Flooded, 6, 0.15, 25, 6 * 1.9305},
		{LithiumPhosphate, 4, 0.05, 25, 11},
		{LithiumPhosphate, 4, 0.95, -20, 13.5},
	} {
		b := Battery{Chemistry: k.chemistry, Cells: k.cells, Charge: k.charge, Resistance: 0.004, Temperature: units.Celsius(k.celsius)}
		v, err := b.OpenCircuitVoltage()
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%s at %v", k.chemistry, k.charge), v.Volts(), k.volts, 1e-9)
		// 4 milliohm, twice that when empty (1.3 times for lithium), doubled for each 43 K (25 K) of cold.
		empty, kelvins := 1.0, 43.0
		if k.chemistry == LithiumPhosphate {
			empty, kelvins = 0.3, 25
		}
		want := 0.004 * (1 + empty*(1-k.charge)) * math.Pow(2, (25-k.celsius)/kelvins)
		r, err := b.InternalResistance()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "resistance", r.Ohms(), want, 1e-12)
		i, err := b.FaultCurrent()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "fault", i.Amperes(), k.volts/want, 1e-6)
		b.Disconnect = &Disconnect{Resistance: 0.001, Continuous: 1, Peak: 1}
		if r, err = b.InternalResistance(); err != nil {
			t.Fatal(err)
		}
		near(t, "resistance with a disconnect", r.Ohms(), want+0.001, 1e-12)
	}
	// No temperature is 25 °C.
	if v, err := (Battery{Chemistry: AGM, Cells: 6, Charge: 1, Resistance: 1}).OpenCircuitVoltage(); err != nil || math.Abs(v.Volts()-12.8) > 1e-12 {
		t.Errorf("%v, error %v", v, err)
	}
	_, err := Battery{Chemistry: "potato", Cells: 6, Resistance: 1}.OpenCircuitVoltage()
	if e := new(Error); !errors.As(err, &e) || e.Want != "AGM lead-acid, flooded lead-acid, gel lead-acid, lithium iron phosphate" {
		t.Errorf("error %v", err)
	}
}

// A discharge at two thirds of the current that lasts half as long again has the exponent 1, and so on by the law; currents
// that differ in the last bit give none.
func TestPeukertByHand(t *testing.T) {
	for _, k := range []struct{ ratio, time, exponent float64 }{{2, 2, 1}, {2, 4, 2}, {10, 20, math.Log10(20)}} {
		got, err := PeukertExponent(Spell{units.Current(5 * k.ratio), 600}, Spell{5, units.Time(600 * k.time)})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "exponent", got, k.exponent, 1e-12)
	}
	low := math.Nextafter(2, 1)
	_, err := PeukertExponent(Spell{units.Current(low), 600}, Spell{units.Current(math.Nextafter(low, 1)), 700})
	if e := new(Error); err != nil && (!errors.As(err, &e) || e.Field != "b.Current") {
		t.Errorf("error %v", err)
	}
	// 42 Ah in 10 h with 1.107: 10 (4.2)^1.107 Ah at 1 A. Without a rated time it is 20 h, without an exponent 1.
	for _, k := range []struct {
		b    Battery
		want float64
	}{
		{Battery{Capacity: 42 * units.AmpereHour, RatedOver: 10 * units.Hour, Peukert: 1.107}, 10 * math.Pow(4.2, 1.107)},
		{Battery{Capacity: 100 * units.AmpereHour, Peukert: 1.2}, 20 * math.Pow(5, 1.2)},
		{Battery{Capacity: 100 * units.AmpereHour, RatedOver: 10 * units.Hour}, 100},
	} {
		c, err := k.b.PeukertCapacity()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "capacity at 1 A", c.AmpereHours(), k.want, 1e-9)
		run, err := k.b.RunTime(2)
		if err != nil {
			t.Fatal(err)
		}
		k2 := k.b.Peukert
		if k2 == 0 {
			k2 = 1
		}
		near(t, "time at 2 A", run.Hours(), k.want/math.Pow(2, k2), 1e-9)
	}
	// Below the rated current the charge is what flows; at it both laws agree; above it is more.
	b := Battery{Capacity: 100 * units.AmpereHour, RatedOver: 20 * units.Hour, Peukert: 1.25}
	for _, k := range []struct{ amps, want float64 }{{0, 0}, {1, 1}, {5, 5}, {80, 80 * math.Pow(16, 0.25)}} {
		c, err := b.ChargeTaken(units.Current(k.amps), units.Hour)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "charge taken", c.AmpereHours(), k.want, 1e-9)
	}
}

// What the estimate of a conductor says is by hand: 35 mm² in 0.66 of the circle are 8.2170 mm, with 0.6 + 0.1 sqrt(35) mm
// of insulation 11.6002 mm; 35 mm² of copper and 52.66 mm² of insulation weigh 394.2 g/m.
func TestEstimates(t *testing.T) {
	const core, outer = 8.21703, 8.21703 + 2*(0.6+0.591608)
	mass := 8.89*1.03*35 + 1.4*(math.Pi/4*outer*outer-35/0.66)
	for _, k := range []struct {
		name           string
		c              Conductor
		diameter, mass float64 // mm, g/m
		estimated      bool
	}{
		{"neither", Conductor{}, outer, mass, true},
		{"diameter", Conductor{Diameter: 12e-3}, 12, 8.89*1.03*35 + 1.4*(math.Pi*36-35/0.66), true},
		{"mass", Conductor{Mass: 0.4}, outer, 400, true},
		{"both", Conductor{Diameter: 12e-3, Mass: 0.4}, 12, 400, false},
		// A diameter over less than the strands leaves no insulation to weigh.
		{"thin", Conductor{Diameter: 5e-3}, 5, 8.89 * 1.03 * 35, true},
	} {
		k.c.Size, k.c.Area, k.c.Resistance = "35 mm²", 35e-6, 1e-3
		s, err := NewStock([]Conductor{{Size: "50 mm²", Area: 50e-6, Resistance: 1e-3}, k.c})
		if err != nil {
			t.Fatal(err)
		}
		near(t, k.name+": diameter", s[0].Diameter.Millimetres(), k.diameter, 1e-4)
		near(t, k.name+": mass", s[0].Mass.KilogramsPerMetre()*1000, k.mass, 1e-2)
		if s[0].Estimated != k.estimated || s[1].Size != "50 mm²" {
			t.Errorf("%s: %+v", k.name, s)
		}
	}
	// Bends: 4 times up to 25 mm, 6 times above.
	for _, k := range []struct{ diameter, want float64 }{{10, 40}, {25, 100}, {25.001, 150.006}} {
		r, err := Conductor{Area: 35e-6, Resistance: 1e-3, Diameter: units.Length(k.diameter / 1000)}.BendRadius()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "bend", r.Millimetres(), k.want, 1e-9)
	}
	r, err := Conductor{Area: 35e-6, Resistance: 1e-3}.BendRadius()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bend of the estimate", r.Millimetres(), 4*outer, 1e-3)
	// A stock keeps what it was made from as it is.
	given := []Conductor{{Size: "b", Area: 2e-6, Resistance: 1}, {Size: "a", Area: 1e-6, Resistance: 1}}
	s, err := NewStock(given)
	if err != nil || s[0].Size != "a" || given[0].Size != "b" || given[0].Estimated {
		t.Errorf("%+v of %+v, error %v", s, given, err)
	}
	warm := s.WithInsulation(300)
	if warm[0].Insulation != 300 || warm[1].Insulation != 300 || s[0].Insulation != 0 {
		t.Errorf("%+v of %+v", warm, s)
	}
	for _, name := range []string{"A", " a", "a "} {
		if c, err := s.Find(name); err != nil || c.Size != "a" {
			t.Errorf("%q: %+v, error %v", name, c, err)
		}
	}
	_, err = s.Find("c")
	if e := new(Error); !errors.As(err, &e) || e.Want != "one of a, b" {
		t.Errorf("error %v", err)
	}
}

// The short formulas beside the conductor's resistance: 40 A through 20 m of 35 mm² with 0.565 mohm/m.
func TestCompareDropByHand(t *testing.T) {
	d, err := CompareDrop(Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3}, 20, 40, units.Celsius(60))
	if err != nil {
		t.Fatal(err)
	}
	cold := 40 * 20 * 0.565e-3
	hot := cold * 294.5 / 254.5
	metric := 0.0164 * 40 * 20 / 35
	mil := 10.75 * 40 * (20 / 0.3048) / (35 / (math.Pi / 4 * 0.0254 * 0.0254))
	for _, k := range []struct {
		name      string
		got, want float64
	}{
		{"cold", d.Cold.Volts(), cold},
		{"hot", d.Hot.Volts(), hot},
		{"metric", d.Metric.Volts(), metric},
		{"circular mil", d.CircularMil.Volts(), mil},
		{"metric below cold", d.MetricBelowCold, (cold - metric) / cold},
		{"metric below hot", d.MetricBelowHot, (hot - metric) / hot},
		{"circular mil below cold", d.CircularMilBelowCold, (cold - mil) / cold},
		{"circular mil below hot", d.CircularMilBelowHot, (hot - mil) / hot},
	} {
		near(t, k.name, k.got, k.want, 1e-9)
	}
}

// The rule for the rating changes at 50 V, and the next size counts to 150 %.
func TestRatingRules(t *testing.T) {
	for _, k := range []struct {
		rules    Rules
		ampacity units.Current
		system   units.Voltage
		series   Ratings
		limit    float64
		words    string
	}{
		{ISO, 33, 12, Ratings{30, 40}, 33, "ISO 13297"},
		{IEC60092, 33, 12, Ratings{30, 40}, 33, "IEC 60092-202"},
		{CFR, 33, 49.9, Ratings{30, 40}, 49.5, "below 50 V"},
		{CFR, 33, 50, Ratings{30, 40}, 40, "from 50 V"},
		{CFR, 33, 50, Ratings{30, 49.6}, 33, "from 50 V"},
		{E11, 33, 12, Ratings{30, 40}, 40, "ABYC E-11"},
		{E11, 33, 12, Ratings{30, 49.5}, 49.5, "ABYC E-11"},
		{E11, 33, 12, Ratings{30, 49.6}, 33, "ABYC E-11"},
		{E11, 33, 12, Ratings{30, 33}, 33, "ABYC E-11"},
		{E11, 33, 12, Ratings{30}, 33, "ABYC E-11"},
	} {
		l, err := LargestRating(k.rules, k.ampacity, k.system, k.series)
		if err != nil || l.Rules != k.rules || !strings.Contains(l.Because, k.words) {
			t.Errorf("%+v, error %v", l, err)
		}
		near(t, fmt.Sprintf("%s at %v with %v", k.rules, k.system, k.series), l.Limit.Amperes(), k.limit, 1e-9)
	}
	for _, k := range []struct {
		load, ampacity units.Current
		rating         float64 // 0: none
	}{{20, 30, 20}, {20.1, 30, 30}, {30, 30, 30}, {20.1, 29.9, 0}} {
		got, _, err := ChooseRating(ISO, k.load, k.ampacity, 12, Ratings{10, 20, 30})
		if (err == nil) != (k.rating > 0) || err != nil && !errors.Is(err, ErrRating) || got.Amperes() != k.rating {
			t.Errorf("%v on %v: %v, error %v", k.load, k.ampacity, got, err)
		}
	}
	// A series of three does not rise if its third is less than its second.
	if _, err := (Ratings{10, 30, 20}).AtLeast(5); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
	// The classes of the AIC table, at their ends.
	for _, k := range []struct {
		system   units.Voltage
		cranking units.Current
		main     float64
	}{
		{12, 650, 1500},
		{12, 651, 3000},
		{24, 650, 1500},
		{12, 1100, 3000},
		{12, 1101, 5000},
		{24, 1100, 3000},
		{24, 1101, 5000},
		{32, 1, 3000},
		{32, 1250, 3000},
		{32, 1251, 5000},
		{12, 2200, 5000},
	} {
		i, err := InterruptingRule(k.system, k.cranking, 0)
		if err != nil || i.Main.Amperes() != k.main || i.Branch.Amperes() != k.main/2 {
			t.Errorf("%v at %v: %+v, error %v", k.cranking, k.system, i, err)
		}
	}
	if i, err := BankFault(2400, 3); err != nil || i != 7200 {
		t.Errorf("%v, error %v", i, err)
	}
	if got := fmt.Sprint(AllRules()); got != "[ISO 13297 33 CFR 183 ABYC E-11 IEC 60092-352]" {
		t.Error(got)
	}
}
