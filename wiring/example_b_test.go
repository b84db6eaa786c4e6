package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// A 1.5 kW windlass at 24 V, 9 m from the bank: which cable, and what would one size
// up or down do?
func ExampleSizeConductor() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	stock = stock.WithInsulation(units.Celsius(90))
	for i := range stock { // an invented price list
		stock[i].Price = units.Money(0.9 + 0.28*stock[i].Area.SquareMillimetres())
	}
	choice, err := wiring.SizeConductor(wiring.Requirement{
		Stock: stock, Run: 18 * units.Metre, Current: 62.5 * units.Ampere,
		System: 24 * units.Volt, MaxDrop: 0.05,
		Rules: wiring.IEC60092,
		Duty:  []wiring.Spell{{Current: 90 * units.Ampere, For: 10 * units.Minute}},
		Fault: 1.5 * units.Kiloampere, Clearing: units.Second,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	print := func(what string, c *wiring.Candidate) {
		fmt.Printf("%-7s %s: %.1f %%, %.1f kg, %.0f, fails %v\n", what, c.Conductor.Size, 100*c.Share, c.Mass.Kilograms(), c.Cost, c.Fails)
	}
	print("choice", &choice.Candidate)
	fmt.Println("governed by", choice.Governs)
	print("down", choice.Down)
	print("up", choice.Up)
	// Output:
	// choice  25 mm²: 4.3 %, 4.8 kg, 142, fails []
	// governed by voltage drop
	// down    16 mm²: 6.7 %, 3.2 kg, 97, fails [voltage drop]
	// up      35 mm²: 3.1 %, 6.7 kg, 193, fails []
}

// A feeder to a panel and two circuits behind it share 3 % of 12 V at the lights and
// 10 % at the fan. Which sizes are lightest together?
func ExampleSizeRuns() {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	run := func(l units.Length, i units.Current, drop float64) wiring.Requirement {
		return wiring.Requirement{Stock: stock, Run: l, Current: i, System: 12 * units.Volt, MaxDrop: drop}
	}
	sized, err := wiring.SizeRuns([]wiring.Run{
		{Name: "feeder", Requirement: run(5, 18, wiring.NonCriticalDrop)},
		{Name: "lights", After: "feeder", Requirement: run(16, 6, wiring.CriticalDrop)},
		{Name: "fan", After: "feeder", Requirement: run(12, 5, wiring.NonCriticalDrop)},
	}, wiring.LeastMass)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, name := range []string{"feeder", "lights", "fan"} {
		fmt.Printf("%-7s %s, %.2f V\n", name, sized.Choices[i].Conductor.Size, sized.At[i].Volts())
	}
	fmt.Printf("%.1f kg\n", sized.Mass.Kilograms())
	// Output:
	// feeder  16 mm², 0.13 V
	// lights  10 mm², 0.35 V
	// fan     1.5 mm², 1.08 V
	// 2.9 kg
}

// The breaker of Dunlin's windlass sits at the companionway, 2.6 m of bare cable from
// the bank.
func ExampleCheckPlacements() {
	verdicts, err := wiring.CheckPlacements(wiring.Place{Length: 2.6 * units.Metre, Battery: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range verdicts {
		fmt.Println(v)
	}
	// Output:
	// ISO 13297, bare, 2.60 m: too far; within 200 mm of the source (ISO 10133, ISO 13297)
	// ISO 13297, sheathed, 2.60 m: accepted; protected by its sheath all the way to the device (ISO 10133, ISO 13297)
	// 33 CFR 183, bare, 2.60 m: too far; within 72 in of the battery (33 CFR 183.460(a))
	// 33 CFR 183, sheathed, 2.60 m: too far; within 72 in of the battery (33 CFR 183.460(a))
	// ABYC E-11, bare, 2.60 m: too far; within 7 in of the source (ABYC E-11)
	// ABYC E-11, sheathed, 2.60 m: too far; sheathed, within 72 in of the battery (ABYC E-11)
	// IEC 60092-352, bare, 2.60 m: no length stated; as near the source as practicable; no length is stated (IEC 60092)
	// IEC 60092-352, sheathed, 2.60 m: no length stated; as near the source as practicable; no length is stated (IEC 60092)
}

// thermalBreaker has a band as a maker prints it.
func thermalBreaker(rating units.Current) wiring.Device {
	return wiring.Device{
		Kind: wiring.Breaker, Rating: rating, Resistance: 0.6 * units.Milliohm, Interrupting: 5 * units.Kiloampere,
		Band: &wiring.Band{Name: "invented thermal breaker", Points: []wiring.BandPoint{
			{Multiple: 1.05, Earliest: units.Hour},
			{Multiple: 1.3, Earliest: 40 * units.Second, Latest: units.Hour},
			{Multiple: 2, Earliest: 6 * units.Second, Latest: 25 * units.Second},
			{Multiple: 4, Earliest: 0.8 * units.Second, Latest: 3 * units.Second},
		}},
	}
}

// A breaker of 70 A for a 1.5 kW windlass at 24 V sits too far from the bank. Which fuse
// there protects the 35 mm² before it?
func ExampleProposeFuse() {
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := wiring.ProposeFuse(wiring.SecondFuse{
		Breaker: thermalBreaker(70),
		Cable: wiring.Cable{Conductor: wiring.Conductor{
			Size: "35 mm²", Area: 35 * units.SquareMillimetre, Resistance: 0.565e-3, Insulation: units.Celsius(70),
		}},
		Rules: wiring.ISO, Ampacity: 160 * units.Ampere, System: 24 * units.Volt,
		Series: series, Band: wiring.BandBolted, Interrupting: 2 * units.Kiloampere, Resistance: 0.3 * units.Milliohm,
		Stall: 290 * units.Ampere, Near: 1.9 * units.Kiloampere, Far: 1.2 * units.Kiloampere,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f A, at most %.0f A: %s\n", p.Fuse.Rating.Amperes(), p.Limit.Limit.Amperes(), p.Limit.Because)
	fmt.Printf("opens within %v at the smallest fault; at most %v of %v pass\n", p.Opens.Latest, p.LetThrough, p.Withstand)
	fmt.Println("protects:", p.Protects, "breaks:", p.Breaks)
	for _, f := range p.Findings {
		fmt.Println("-", f)
	}
	// Output:
	// 125 A, at most 160 A: not more than the conductor's ampacity (ISO 13297, table A.1)
	// opens within 1 s at the smallest fault; at most 3.44e+06 A² s of 1.62e+07 A² s pass
	// protects: true breaks: true
	// - the bands alone do not prove that the breaker opens before the fuse up to the stall current of 290 A
}

// Does the breaker hold while the windlass starts, pulls, and stalls for a moment?
func ExampleRideThrough() {
	breaker := thermalBreaker(100)
	for _, stall := range []units.Time{0.2 * units.Second, 3 * units.Second, 10 * units.Second} {
		r, err := wiring.RideThrough(breaker, []wiring.Spell{
			{Current: 330, For: 0.3 * units.Second},
			{Current: 95, For: 4 * units.Minute},
			{Current: 330, For: stall},
		})
		switch {
		case err != nil:
			fmt.Println(err)
		case r.Holds:
			fmt.Printf("a stall of %.3v: holds\n", stall)
		case r.Opens:
			fmt.Printf("a stall of %.3v: opens %.1f s to %.1f s after the start\n", stall, r.MayOpen.Seconds(), r.OpensBy.Seconds())
		default:
			fmt.Printf("a stall of %.3v: may open from %.1f s after the start\n", stall, r.MayOpen.Seconds())
		}
	}
	// Output:
	// a stall of 200 ms: holds
	// a stall of 3.00 s: may open from 240.6 s after the start
	// a stall of 10.0 s: opens 240.6 s to 245.4 s after the start
}

// dunlin is the windlass circuit of the invented cruiser Dunlin: steel hull, 12 V, 1 kW,
// 9.5 m from a bank of 230 Ah, 50 mm² of flexible tinned cable.
func dunlin() (wiring.Windlass, error) {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		return wiring.Windlass{}, err
	}
	stock = stock.WithInsulation(units.Celsius(90))
	main, err := stock.Find("50 mm²")
	if err != nil {
		return wiring.Windlass{}, err
	}
	control, err := stock.Find("1.5 mm²")
	if err != nil {
		return wiring.Windlass{}, err
	}
	motor, err := wiring.FitMotor(wiring.PermanentMagnet, 12*units.Volt,
		wiring.MotorPoint{Current: 12, Speed: 300, NoLoad: true},
		wiring.MotorPoint{Current: 105, Speed: 220, Torque: 3.5})
	if err != nil {
		return wiring.Windlass{}, err
	}
	motor.Load = 2.6
	small, err := wiring.PublishedBand(wiring.BandBlade, 3*units.Ampere)
	if err != nil {
		return wiring.Windlass{}, err
	}
	return wiring.Windlass{
		Bank: wiring.Battery{
			Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Resistance: 3 * units.Milliohm, Charge: 0.9,
		},
		Motor: motor, Cable: wiring.Cable{Conductor: main},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker: thermalBreaker(100),
		Lug:     0.1 * units.Milliohm, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Coil: 12 * units.Ohm, Control: control,
		ControlFuse: wiring.Device{Kind: wiring.Fuse, Rating: 3, Resistance: 30 * units.Milliohm, Interrupting: units.Kiloampere, Band: &small},
		Switches:    []wiring.ControlSwitch{{Name: "foredeck", Length: 2}, {Name: "cockpit", Length: 11}},
		Hull:        &wiring.Hull{Positive: units.Megohm, Negative: 2 * units.Megohm, Bonding: 10 * units.Milliohm, Case: units.Megohm},
	}, nil
}

// Which of Dunlin's cables can carry a fault current that nothing interrupts, and does a
// fuse at the bank mend it? Its control fuse is one of a vehicle, which breaks 1 kA.
func ExampleStudyFaults() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	fuse, err := wiring.PublishedBand(wiring.BandBolted, 150*units.Ampere)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w.Fuse = range []*wiring.Device{nil, {
		Kind: wiring.Fuse, Rating: 150, Resistance: 0.3 * units.Milliohm, Interrupting: 6 * units.Kiloampere, Band: &fuse,
	}} {
		c, err := w.Circuit(wiring.Hauling)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := wiring.StudyFaults(c, wiring.FaultStudy{})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("fuse at the bank: %v\n", w.Fuse != nil)
		for _, k := range r.Cables {
			if !k.Protected {
				fmt.Printf("- %s: %s\n", k.Cable, k.Because)
			}
		}
		for _, d := range r.Devices {
			fmt.Printf("- %s: at most %.3v, can break it: %v\n", d.Device, d.Largest, d.Breaks)
		}
	}
	// Output:
	// fuse at the bank: false
	// - cable to breaker: nothing interrupts 2.56 kA after a short between cable to breaker 2 and cable back at 2.60 m
	// - cable back: nothing interrupts 2.56 kA after a short between cable to breaker 2 and cable back at 2.60 m
	// - breaker: at most 2.50 kA, can break it: true
	// - control fuse: at most 2.50 kA, can break it: false
	// fuse at the bank: true
	// - battery fuse: at most 5.40 kA, can break it: true
	// - breaker: at most 2.50 kA, can break it: true
	// - control fuse: at most 2.49 kA, can break it: false
}

// On a steel hull: is the circuit insulated, and what does a fault to the hull do?
func ExampleCheckHull() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := wiring.CheckHull(c, wiring.HullStudy{
		Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 100 * units.Kilohm,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("insulated two-wire:", r.TwoWire, "isolator opens both poles:", r.TwoPole)
	for _, f := range r.Findings {
		fmt.Println("-", f)
	}
	// Output:
	// insulated two-wire: true isolator opens both poles: true
	// - a fault of the positive pole to the hull drives 0.00636 mA: no device opens and nothing shows it but an insulation test
	// - a fault of the negative pole to the hull drives 0.0254 mA: no device opens and nothing shows it but an insulation test
}

// What should a meter read while the windlass hauls?
func ExampleExpectReadings() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		fmt.Println(err)
		return
	}
	meter := wiring.Voltmeter{Share: 0.005, Fixed: 2 * units.Millivolt}
	readings, err := wiring.ExpectReadings(c, wiring.Conditions{Copper: units.Celsius(30)}, []wiring.Probes{
		{Red: "bank +", Black: "bank -"},
		{Red: "breaker in", Black: "breaker out"},
		{Red: "breaker out", Black: "solenoid +"},
		{Red: "motor A", Black: "motor B"},
		{Red: "solenoid -", Black: "bank -"},
	}, meter, wiring.Spread{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range readings {
		fmt.Printf("%-11s to %-11s %6.3f V, from %.3f to %.3f V\n", r.Probes.Red, r.Probes.Black, r.Volts.Volts(), r.Low.Volts(), r.High.Volts())
	}
	// Output:
	// bank +      to bank -      12.449 V, from 12.326 to 12.572 V
	// breaker in  to breaker out  0.049 V, from 0.036 to 0.062 V
	// breaker out to solenoid +   0.245 V, from 0.218 to 0.271 V
	// motor A     to motor B     11.635 V, from 11.465 to 11.806 V
	// solenoid -  to bank -       0.351 V, from 0.314 to 0.389 V
}

// The windlass is slow. Which joint is bad?
func ExampleFindBadJoint() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		fmt.Println(err)
		return
	}
	const current = 78 * units.Ampere
	sections, err := wiring.FindBadJoint(c, wiring.Conditions{Copper: units.Celsius(30)}, []wiring.Reading{
		{Probes: wiring.Probes{Red: "bank +", Black: "breaker in"}, Volts: 0.118, Current: current},
		{Probes: wiring.Probes{Red: "breaker in", Black: "breaker out"}, Volts: 0.041, Current: current},
		{Probes: wiring.Probes{Red: "breaker out", Black: "cable forward 2"}, Volts: 0.228, Current: current},
		{Probes: wiring.Probes{Red: "cable forward 2", Black: "solenoid +"}, Volts: 0.335, Current: current},
	}, wiring.Voltmeter{Share: 0.005, Fixed: 2 * units.Millivolt}, wiring.Ammeter{Share: 0.02, Fixed: 0.5}, wiring.Spread{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sections {
		fmt.Printf("%-8s %.3v, from %.3v to %.3v: %v\n", s.Judgement, s.Measured.Value, s.Measured.Low, s.Measured.High, s.Parts)
	}
	fmt.Printf("%.0f W in the first\n", sections[0].Heat.Watts())
	// Output:
	// bad      4.29 mΩ, from 4.14 mΩ to 4.46 mΩ: [lug 2 of cable forward]
	// sound    1.51 mΩ, from 1.44 mΩ to 1.59 mΩ: [isolator + lug 1 of cable to breaker lug 2 of cable to breaker cable to breaker]
	// sound    2.92 mΩ, from 2.81 mΩ to 3.04 mΩ: [lug 1 of cable forward cable forward]
	// sound    526 µΩ, from 485 µΩ to 569 µΩ: [breaker]
	// 26 W in the first
}

// The breaker trips at once, with the motor's leads off too. In which order should the run
// be parted? Behind the lining a joint takes an hour to reach.
func ExamplePlanHunt() {
	hunt, err := wiring.PlanHunt([]wiring.Section{
		{Name: "companionway to saloon", Likelihood: 2},
		{Name: "behind the saloon lining", Likelihood: 3},
		{Name: "through the bulkhead", Likelihood: 5},
		{Name: "chain locker to solenoid", Likelihood: 6},
	}, []wiring.Joint{
		{Name: "saloon junction", Effort: 15 * units.Minute},
		{Name: "joint behind the lining", Effort: units.Hour},
		{Name: "terminals in the chain locker", Effort: 10 * units.Minute},
	}, wiring.ByResistance)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f minutes on average, %.0f at worst, by %s\n", hunt.Expected.Minutes(), hunt.Worst.Minutes(), hunt.Method)
	var tell func(t *wiring.Test, indent string)
	tell = func(t *wiring.Test, indent string) {
		if t.Section != "" {
			fmt.Printf("%sit is %s (%.0f %%)\n", indent, t.Section, 100*t.Likelihood)
			return
		}
		fmt.Printf("%spart %s\n", indent, t.Joint)
		tell(t.Near, indent+"  still there: ")
		tell(t.Far, indent+"  gone: ")
	}
	tell(hunt.First, "")
	// Output:
	// 49 minutes on average, 85 at worst, by resistance, supply isolated
	// part terminals in the chain locker
	//   still there: part saloon junction
	//   still there:   still there: it is companionway to saloon (12 %)
	//   still there:   gone: part joint behind the lining
	//   still there:   gone:   still there: it is behind the saloon lining (19 %)
	//   still there:   gone:   gone: it is through the bulkhead (31 %)
	//   gone: it is chain locker to solenoid (38 %)
}

// What has to be bought for the circuit?
func ExampleShoppingList() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := w.Circuit(wiring.Resting)
	if err != nil {
		fmt.Println(err)
		return
	}
	items, err := wiring.ShoppingList(c, wiring.Shop{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, i := range items {
		if i.Length > 0 {
			fmt.Printf("%-11s %-18s %-9s %.0f m\n", i.Kind, i.Size, i.Role, i.Length.Metres())
		} else {
			fmt.Printf("%-11s %-18s %-9s %d\n", i.Kind, i.Size, i.Role, i.Count)
		}
	}
	// Output:
	// cable       50 mm²             positive  11 m
	// cable       50 mm²             negative  11 m
	// cable       1.5 mm²            positive  15 m
	// cable       1.5 mm²            switched  29 m
	// lug         50 mm² M8                    6
	// lug         1.5 mm² M5                   12
	// heat-shrink to go over 12.5 mm           1 m
	// heat-shrink to go over 3.5 mm            1 m
	// clip        for 12.5 mm                  68
	// clip        for 3.5 mm                   96
	// breaker     100 A                        1
	// fuse        3 A                          2
	// fuse holder 3 A                          1
	// isolator    2 poles                      1
	// solenoid    4 contacts                   1
	// switch      2 contacts                   2
}
