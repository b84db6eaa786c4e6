package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func ExampleCopperFactor() {
	f, err := wiring.CopperFactor(units.Celsius(90))
	fmt.Printf("%.3f %v\n", f, err)
	// Output: 1.275 <nil>
}

// IEC 60228:2004, annex A: kt at 5 °C is 1.064.
func ExampleTemperatureCorrection() {
	k, err := wiring.TemperatureCorrection(units.Celsius(5))
	fmt.Printf("%.3f %v\n", k, err)
	// Output: 1.064 <nil>
}

func ExampleGaugeDiameter() {
	d, err := wiring.GaugeDiameter("4/0")
	fmt.Printf("%.4f in %v\n", d.Inches(), err)
	// Output: 0.4600 in <nil>
}

// NEC chapter 9, table 8: 14 AWG solid, uncoated, has 3.07 ohm/kft at 75 °C.
func ExampleCopperResistance() {
	a, err := wiring.GaugeArea("14")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := wiring.CopperResistance(a, units.Celsius(75))
	fmt.Printf("%.2f ohm/kft %v\n", r.OhmsPerKilofoot(), err)
	// Output: 3.07 ohm/kft <nil>
}

// The same number on two cables: conductors for road vehicles are smaller.
func ExampleSAE() {
	awg, err := wiring.AWG(wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	sae, err := wiring.SAE(wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, gauge := range []string{"12", "2", "2/0"} {
		a, err := awg.Find(gauge + " AWG")
		if err != nil {
			fmt.Println(err)
			return
		}
		s, err := sae.Find(gauge + " SAE")
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s %.1f mm², %s %.1f mm²\n", a.Size, a.Area.SquareMillimetres(), s.Size, s.Area.SquareMillimetres())
	}
	// Output:
	// 12 AWG 3.3 mm², 12 SAE 3.0 mm²
	// 2 AWG 33.6 mm², 2 SAE 31.6 mm²
	// 2/0 AWG 67.4 mm², 2/0 SAE 63.4 mm²
}

// A list of what a chandler has.
func ExampleNewStock() {
	stock, err := wiring.NewStock([]wiring.Conductor{
		{Size: "70 mm²", Area: 70 * units.SquareMillimetre, Resistance: 0.277 * units.OhmPerKilometre, Price: 19.5},
		{Size: "50 mm²", Area: 50 * units.SquareMillimetre, Resistance: 0.393 * units.OhmPerKilometre, Price: 14.2, Diameter: 13.1 * units.Millimetre},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range stock {
		fmt.Printf("%s %.1f mm %.0f g/m, estimated %t\n", c.Size, c.Diameter.Millimetres(), 1000*float64(c.Mass), c.Estimated)
	}
	// Output:
	// 50 mm² 13.1 mm 540 g/m, estimated true
	// 70 mm² 14.5 mm 723 g/m, estimated true
}

func ExampleAmbientFactor() {
	f, err := wiring.AmbientFactor(wiring.Ambients{Conductor: units.Celsius(85), Rated: units.Celsius(45), Actual: units.Celsius(60)})
	fmt.Printf("%.2f %v\n", f, err)
	// Output: 0.79 <nil>
}

func ExampleSurfaceLoss() {
	p, err := wiring.SurfaceLoss(100*units.Millimetre, units.Metre, units.Celsius(150), units.Celsius(20), 0.8)
	fmt.Printf("%.0f W %v\n", p.Watts(), err)
	// Output: 645 W <nil>
}

func ExampleSteadyTemperature() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := stock.Find("35 mm²")
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := wiring.SteadyTemperature(c, units.Celsius(30), 145*units.Ampere)
	fmt.Printf("%.0f °C %v\n", t.Celsius(), err)
	// Output: 61 °C <nil>
}

func ExampleBattery_OpenCircuitVoltage() {
	for _, b := range []wiring.Battery{
		{Chemistry: wiring.Flooded, Cells: 6, Charge: 0.5, Resistance: 4 * units.Milliohm},
		{Chemistry: wiring.LithiumPhosphate, Cells: 4, Charge: 0.5, Resistance: 4 * units.Milliohm},
	} {
		v, err := b.OpenCircuitVoltage()
		fmt.Printf("%.2f V %v\n", v.Volts(), err)
	}
	// Output:
	// 12.10 V <nil>
	// 13.05 V <nil>
}

// A short across a warm full bank, and across the same one cold and half empty.
func ExampleBattery_FaultCurrent() {
	b := wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 4 * units.Milliohm}
	warm, err := b.FaultCurrent()
	if err != nil {
		fmt.Println(err)
		return
	}
	b.Charge, b.Temperature = 0.5, units.Celsius(-5)
	cold, err := b.FaultCurrent()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f A, %.0f A\n", warm.Amperes(), cold.Amperes())
	// Output: 3200 A, 1260 A
}

// 600 A of cold cranking current: no more than 9 mohm at -18 °C.
func ExampleResistanceFromCranking() {
	r, err := wiring.ResistanceFromCranking(6, 600*units.Ampere)
	fmt.Printf("%.1f mohm %v\n", r.Milliohms(), err)
	// Output: 9.0 mohm <nil>
}

func ExampleResistanceFromStep() {
	r, err := wiring.ResistanceFromStep(12.6*units.Volt, 12.1*units.Volt, 100*units.Ampere)
	fmt.Printf("%.1f mohm %v\n", r.Milliohms(), err)
	// Output: 5.0 mohm <nil>
}

func ExamplePeukertExponent() {
	k, err := wiring.PeukertExponent(
		wiring.Spell{Current: 5 * units.Ampere, For: 20 * units.Hour},
		wiring.Spell{Current: 25 * units.Ampere, For: 2.8 * units.Hour})
	fmt.Printf("%.2f %v\n", k, err)
	// Output: 1.22 <nil>
}

// An hour of 25 A takes more than 25 Ah out of 100 Ah rated over 20 h.
func ExampleBattery_ChargeTaken() {
	b := wiring.Battery{Capacity: 100 * units.AmpereHour, RatedOver: 20 * units.Hour, Peukert: 1.2}
	q, err := b.ChargeTaken(25*units.Ampere, units.Hour)
	fmt.Printf("%.1f Ah %v\n", q.AmpereHours(), err)
	// Output: 34.5 Ah <nil>
}

// One circuit solved at several temperatures without allocating again.
func ExampleSolver() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := wiring.NewSolver(c)
	if err != nil {
		fmt.Println(err)
		return
	}
	var st wiring.Solution
	for _, t := range []float64{0, 20, 60} {
		if err := s.Solve(&st, wiring.Conditions{Copper: units.Celsius(t)}); err != nil {
			fmt.Println(err)
			return
		}
		b, err := st.Branch("windlass")
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f °C: %.2f V\n", t, b.Drop.Volts())
	}
	// Output:
	//  0 °C: 11.55 V
	// 20 °C: 11.50 V
	// 60 °C: 11.41 V
}

// Three sizes of the American wire gauge, with fine tinned strands.
func ExampleAWG() {
	stock, err := wiring.AWG(wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, size := range []string{"6 AWG", "2 AWG", "2/0 AWG"} {
		c, err := stock.Find(size)
		fmt.Printf("%-7s %4.1f mm², at most %.3f mΩ/m %v\n", c.Size, c.Area.SquareMillimetres(), c.Resistance.MilliohmsPerMetre(), err)
	}
	// Output:
	// 6 AWG   13.3 mm², at most 1.475 mΩ/m <nil>
	// 2 AWG   33.6 mm², at most 0.583 mΩ/m <nil>
	// 2/0 AWG 67.4 mm², at most 0.291 mΩ/m <nil>
}

// 35 mm², however it is written.
func ExampleStock_Find() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, size := range []string{"35 mm²", "35mm2"} {
		c, err := stock.Find(size)
		fmt.Printf("%q %v\n", c.Size, err)
	}
	// Output:
	// "35 mm²" <nil>
	// "35 mm²" <nil>
}

// Insulation for 90 °C instead of 70 °C carries more through the same copper.
func ExampleStock_WithInsulation() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range []units.Temperature{units.Celsius(70), units.Celsius(90)} {
		c, err := stock.WithInsulation(t).Find("35 mm²")
		if err != nil {
			fmt.Println(err)
			return
		}
		i, err := wiring.SteadyCurrent(c, units.Celsius(30))
		fmt.Printf("%.0f °C: %.0f A for ever %v\n", c.Insulation.Celsius(), i.Amperes(), err)
	}
	// Output:
	// 70 °C: 166 A for ever <nil>
	// 90 °C: 204 A for ever <nil>
}

// What will the four rule sets let 35 mm² with insulation for 90 °C carry?
func ExampleAllRules() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := stock.WithInsulation(units.Celsius(90)).Find("35 mm²")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, rules := range wiring.AllRules() {
		a, err := wiring.Ampacity(rules, c, wiring.Installation{})
		fmt.Printf("%-14s %.0f A %v\n", rules, a.Current.Amperes(), err)
	}
	// Output:
	// ISO 13297      185 A <nil>
	// 33 CFR 183     180 A <nil>
	// ABYC E-11      180 A <nil>
	// IEC 60092-352  145 A <nil>
}

// Breakers are not made for every current: the next above 105 A.
func ExamplePreferredRatings() {
	for _, name := range []wiring.SeriesName{wiring.SeriesIEC60898, wiring.SeriesNEC} {
		series, err := wiring.PreferredRatings(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := series.AtLeast(105 * units.Ampere)
		fmt.Printf("%s: %v %v\n", name, r, err)
	}
	// Output:
	// IEC 60898-1: 125 A <nil>
	// NFPA 70, 240.6(A): 110 A <nil>
}

// What a sound boat may differ by from its model: contacts most of all.
func ExampleTypicalSpread() {
	s := wiring.TypicalSpread()
	fmt.Printf("cable %.0f %%, contacts %.0f %%, devices %.0f %%, sources %.0f %%, loads %.0f %%\n",
		100*s.Cable, 100*s.Contact, 100*s.Device, 100*s.Source, 100*s.Load)
	// Output:
	// cable 4 %, contacts 50 %, devices 20 %, sources 20 %, loads 10 %
}
