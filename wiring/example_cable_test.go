package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// The formula of ABYC E-11, worked example 1 of a reprint: 10 A, 21 ft out and back, 12 V and
// 3 %: 6271 circular mils, so 12 AWG (6530) by area, but 10 in SAE sizes, whose 12 has 5833.
func ExampleCircularMilDrop() {
	drop, err := wiring.CircularMilDrop(10*units.Ampere, 21*units.Foot, units.CircularMil.Scale(6271))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f V\n", drop.Volts())
	// Output: 0.36 V
}

func ExampleMetricDrop() {
	drop, err := wiring.MetricDrop(62.5*units.Ampere, 18*units.Metre, 35*units.SquareMillimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f V, %.1f %% of 24 V\n", drop.Volts(), 100*drop.Per(24*units.Volt))
	// Output: 0.527 V, 2.2 % of 24 V
}

// The check of common practice: a 1.5 kW, 24 V windlass on 35 mm², 18 m out and back. The short
// formula promises 2.2 %; the cable as standardised loses 2.65 % cold and 3.06 % at 60 °C.
func ExampleCompareDrop() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	cable, err := stock.Find("35 mm2")
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := wiring.CompareDrop(cable, 18*units.Metre, 62.5*units.Ampere, units.Celsius(60))
	if err != nil {
		fmt.Println(err)
		return
	}
	percent := func(v units.Voltage) float64 { return 100 * v.Per(24*units.Volt) }
	fmt.Printf("formula  %.2f %%\n", percent(d.Metric))
	fmt.Printf("20 °C    %.2f %%, the formula is %.0f %% below\n", percent(d.Cold), 100*d.MetricBelowCold)
	fmt.Printf("60 °C    %.2f %%, the formula is %.0f %% below\n", percent(d.Hot), 100*d.MetricBelowHot)
	// Output:
	// formula  2.20 %
	// 20 °C    2.65 %, the formula is 17 % below
	// 60 °C    3.06 %, the formula is 28 % below
}

func ExampleMetric() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, size := range []string{"25 mm²", "35 mm²", "50 mm²"} {
		c, err := stock.Find(size)
		if err != nil {
			fmt.Println(err)
			return
		}
		bend, err := c.BendRadius()
		if err != nil {
			fmt.Println(err)
			return
		}
		hot, err := c.ResistanceAt(units.Celsius(60))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.3v at 20 °C, %.3v at 60 °C; about %.2v across, %.2v, bend %.2v\n", c.Size, c.Resistance, hot, c.Diameter, c.Mass, bend)
	}
	// Output:
	// 25 mm²: 0.795 mΩ/m at 20 °C, 0.920 mΩ/m at 60 °C; about 9.1 mm across, 270 g/m, bend 37 mm
	// 35 mm²: 0.565 mΩ/m at 20 °C, 0.654 mΩ/m at 60 °C; about 11 mm across, 370 g/m, bend 42 mm
	// 50 mm²: 0.393 mΩ/m at 20 °C, 0.455 mΩ/m at 60 °C; about 12 mm across, 520 g/m, bend 50 mm
}

func ExampleGaugeArea() {
	a, err := wiring.GaugeArea("2/0")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm²\n", a.SquareMillimetres())
	// Output: 67.43 mm²
}

// What the rule sets say of 35 mm² with 105 °C insulation, and why.
func ExampleAmpacity() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	cable, err := stock.WithInsulation(units.Celsius(105)).Find("35 mm²")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, rules := range wiring.AllRules() {
		r, err := wiring.Ampacity(rules, cable, wiring.Installation{Bundled: 4})
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s: %.0f A from %.0f A for %s", rules, r.Current.Amperes(), r.Table.Amperes(), r.Row)
		for _, f := range r.Factors {
			fmt.Printf(" * %.2f %s (%s)", f.Value, f.Name, f.Kind)
		}
		fmt.Println()
	}
	// Output:
	// ISO 13297: 147 A from 210 A for 35 mm² * 0.70 4 conductors together (memory)
	// 33 CFR 183: 210 A from 210 A for 2 AWG
	// ABYC E-11: 126 A from 210 A for 2 AWG * 0.60 4 conductors together (standard)
	// IEC 60092-352: 102 A from 145 A for 35 mm² * 0.70 4 conductors together (standard)
}

// A cable that a table gives 140 A for ever carries a windlass for some minutes with more,
// even when it is still warm from the last time.
func ExampleCarriedFor() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	cable, err := stock.WithInsulation(units.Celsius(70)).Find("35 mm²")
	if err != nil {
		fmt.Println(err)
		return
	}
	ambient, warm := units.Celsius(30), units.Celsius(50)
	steady, err := wiring.SteadyCurrent(cable, ambient)
	if err != nil {
		fmt.Println(err)
		return
	}
	tau, err := wiring.TimeConstant(cable, ambient)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("for ever %.0f A, time constant %.0f min\n", steady.Amperes(), tau.Minutes())
	for _, m := range []float64{2, 5, 10} {
		i, err := wiring.CarriedFor(cable, ambient, warm, units.Minute.Scale(m))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f min, from 50 °C: %.0f A\n", m, i.Amperes())
	}
	t, err := wiring.TemperatureAfter(cable, ambient, warm, wiring.Spell{Current: 200, For: 5 * units.Minute}, wiring.Spell{For: 5 * units.Minute})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("after 5 min of 200 A and a rest of 5 min: %.0f °C\n", t.Celsius())
	// Output:
	// for ever 166 A, time constant 7 min
	//  2 min, from 50 °C: 263 A
	//  5 min, from 50 °C: 201 A
	// 10 min, from 50 °C: 178 A
	// after 5 min of 200 A and a rest of 5 min: 50 °C
}

func ExampleEquivalentCurrent() {
	i, err := wiring.EquivalentCurrent(wiring.Spell{Current: 140, For: 4.8}, wiring.Spell{For: 55.2})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f A\n", i.Amperes())
	// Output: 39.6 A
}

// flexible35 is a flexible tinned conductor of 35 mm² with 90 °C insulation.
func flexible35() wiring.Conductor {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		panic(err)
	}
	c, err := stock.WithInsulation(units.Celsius(90)).Find("35 mm²")
	if err != nil {
		panic(err)
	}
	return c
}

// 18 m out and back of 35 mm² at 62.5 A, with copper at 60 °C.
func ExampleDrop() {
	drop, err := wiring.Drop(flexible35(), 18*units.Metre, 62.5*units.Ampere, units.Celsius(60))
	fmt.Printf("%.3f V %v\n", drop.Volts(), err)
	// Output: 0.736 V <nil>
}

func ExampleConductor_ResistanceAt() {
	r, err := flexible35().ResistanceAt(units.Celsius(60))
	fmt.Printf("%.3v %v\n", r, err)
	// Output: 0.654 mΩ/m <nil>
}

func ExampleConductor_BendRadius() {
	r, err := flexible35().BendRadius()
	fmt.Printf("%.0f mm %v\n", r.Millimetres(), err)
	// Output: 42 mm <nil>
}

// What holds 90 °C copper in air of 45 °C.
func ExampleSteadyCurrent() {
	i, err := wiring.SteadyCurrent(flexible35(), units.Celsius(45))
	fmt.Printf("%.0f A %v\n", i.Amperes(), err)
	// Output: 176 A <nil>
}

// Four minutes of 140 A, ten of rest, and four minutes again.
func ExampleTemperatureAfter() {
	pull := wiring.Spell{Current: 140 * units.Ampere, For: 4 * units.Minute}
	t, err := wiring.TemperatureAfter(flexible35(), units.Celsius(30), units.Celsius(30), pull, wiring.Spell{For: 10 * units.Minute}, pull)
	fmt.Printf("%.0f °C %v\n", t.Celsius(), err)
	// Output: 44 °C <nil>
}

func ExampleTimeConstant() {
	t, err := wiring.TimeConstant(flexible35(), units.Celsius(30))
	fmt.Printf("%.1f min %v\n", t.Minutes(), err)
	// Output: 7.1 min <nil>
}
