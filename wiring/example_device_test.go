package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// What the type test of a bolted fuse of 175 A promises. By 0 s means that it need not open.
func ExamplePublishedBand() {
	band, err := wiring.PublishedBand(wiring.BandBolted, 175*units.Ampere)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range band.Points {
		fmt.Printf("%.2f times: not before %v, by %v\n", p.Multiple, p.Earliest, p.Latest)
	}
	// Output:
	// 1.10 times: not before 14400 s, by 0 s
	// 1.35 times: not before 120 s, by 1800 s
	// 2.00 times: not before 1 s, by 15 s
	// 3.50 times: not before 0.3 s, by 5 s
	// 6.00 times: not before 0.1 s, by 1 s
}

func ExampleBand_Opening() {
	breaker := thermalBreaker(100)
	for _, i := range []units.Current{95, 160, 330} {
		o, err := breaker.Band.Opening(breaker.Rating, i)
		switch {
		case err != nil:
			fmt.Println(err)
		case o.Holds:
			fmt.Printf("%.0f A: for ever\n", i.Amperes())
		default:
			fmt.Printf("%.0f A: opens between %.1f s and %.0f s\n", i.Amperes(), o.Earliest.Seconds(), o.Latest.Seconds())
		}
	}
	// Output:
	// 95 A: for ever
	// 160 A: opens between 16.0 s and 328 s
	// 330 A: opens between 1.4 s and 5 s
}

func ExampleRatings_AtLeast() {
	r, err := wiring.Ratings{30, 40, 50, 60, 70}.AtLeast(62.5 * units.Ampere)
	fmt.Printf("%.0f A %v\n", r.Amperes(), err)
	// Output: 70 A <nil>
}

func ExampleRatings_AtMost() {
	r, err := wiring.Ratings{30, 40, 50, 60, 70}.AtMost(62.5 * units.Ampere)
	fmt.Printf("%.0f A %v\n", r.Amperes(), err)
	// Output: 60 A <nil>
}

// The largest fuse that each rule set lets protect a conductor of 210 A at 12 V.
func ExampleLargestRating() {
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, rules := range wiring.AllRules() {
		l, err := wiring.LargestRating(rules, 210*units.Ampere, 12*units.Volt, series)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f A, %s\n", l.Limit.Amperes(), l.Because)
	}
	// Output:
	// 210 A, not more than the conductor's ampacity (ISO 13297, table A.1)
	// 315 A, below 50 V at most 150 % of table 5 (33 CFR 183.455(c)(1))
	// 225 A, at most the ampacity, or the next size if that is within 150 % (ABYC E-11)
	// 210 A, not more than the conductor's ampacity (IEC 60092-202)
}

// A windlass of 105 A on a cable that may carry 180 A, and on one that may carry 90 A.
func ExampleChooseRating() {
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, ampacity := range []units.Current{180, 90} {
		r, _, err := wiring.ChooseRating(wiring.IEC60092, 105*units.Ampere, ampacity, 12*units.Volt, series)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.0f A\n", r.Amperes())
	}
	// Output:
	// 110 A
	// wiring: no rating protects the conductor: load is 105 A, want a rating of at most 90.0 A: not more than the conductor's ampacity (IEC 60092-202); the load asks for 110 A
}

// Up to which current does the breaker open and the fuse before it certainly not?
func ExampleSelective() {
	band, err := wiring.PublishedBand(wiring.BandBolted, 175*units.Ampere)
	if err != nil {
		fmt.Println(err)
		return
	}
	fuse := wiring.Device{Kind: wiring.Fuse, Rating: 175, Resistance: 0.3 * units.Milliohm, Band: &band}
	s, err := wiring.Selective(fuse, thermalBreaker(70), 290*units.Ampere)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("all the way: %t; up to %.0f A\n", s.Full, s.UpTo.Amperes())
	fmt.Printf("beyond it the breaker opens by %.2g s, the fuse from %.2g s on\n", s.Lower.Latest.Seconds(), s.Upper.Earliest.Seconds())
	// Output:
	// all the way: false; up to 236 A
	// beyond it the breaker opens by 5 s, the fuse from 1 s on
}

// The breaker tripped on the first press of the button. Was it the motor, held fast at 280
// to 330 A, or a short of 1.1 to 2 kA?
func ExampleTellTrip() {
	stall := units.Interval[units.Current]{Low: 280, High: 330}
	short := units.Interval[units.Current]{Low: 1.1 * units.Kiloampere, High: 2 * units.Kiloampere}
	for _, after := range []units.Time{0.1, 2, 8, 60} {
		cause, err := wiring.TellTrip(thermalBreaker(100), stall, short, after)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("after %g s: %s\n", after.Seconds(), cause)
	}
	// Output:
	// after 0.1 s: short
	// after 2 s: short or stalled motor
	// after 8 s: stalled motor
	// after 60 s: overloaded motor: it turned, with more than the device carries
}

// A breaker for a bank of 230 Ah with 900 A of cranking current.
func ExampleInterruptingRule() {
	r, err := wiring.InterruptingRule(12*units.Volt, 900*units.Ampere, 230*units.AmpereHour)
	fmt.Printf("%.0f A at the bank, %.0f A behind %v\n", r.Main.Amperes(), r.Branch.Amperes(), err)
	// Output: 3000 A at the bank, 1500 A behind <nil>
}

// Three strings of two 6 V batteries of 2400 A each.
func ExampleBankFault() {
	i, err := wiring.BankFault(2400*units.Ampere, 3)
	fmt.Printf("%.0f A %v\n", i.Amperes(), err)
	// Output: 7200 A <nil>
}

func ExampleCheckPlacement() {
	v, err := wiring.CheckPlacement(wiring.E11, wiring.Place{Length: units.Metre, Sheathed: true})
	fmt.Println(v, err)
	// Output: ABYC E-11, sheathed, 1.00 m: accepted; sheathed, within 40 in of the source (ABYC E-11) <nil>
}

// What a short at Dunlin's breaker draws when the bank is cold and low, and when it is full and warm:
// between the cables there.
func ExampleFaultCurrents() {
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
	i, err := wiring.FaultCurrents(c, "breaker in", "", wiring.FaultStudy{})
	fmt.Printf("%.0f A to %.0f A %v\n", i.Low.Amperes(), i.High.Amperes(), err)
	// Output: 942 A to 2509 A <nil>
}

// 4 mm² with PVC insulation, from 70 °C to the 160 °C that it survives once.
func ExampleWithstand() {
	w, err := wiring.Withstand(4*units.SquareMillimetre, units.Celsius(70), wiring.ThermoplasticLimit)
	fmt.Println(w, err)
	// Output: 2.12e+05 A² s <nil>
}

func ExampleWithstandTime() {
	t, err := wiring.WithstandTime(4*units.SquareMillimetre, 500*units.Ampere, units.Celsius(70), wiring.ThermoplasticLimit)
	fmt.Printf("%.2f s %v\n", t.Seconds(), err)
	// Output: 0.85 s <nil>
}

func ExampleWithstandCurrent() {
	i, err := wiring.WithstandCurrent(4*units.SquareMillimetre, units.Second, units.Celsius(70), wiring.ThermoplasticLimit)
	fmt.Printf("%.0f A %v\n", i.Amperes(), err)
	// Output: 460 A <nil>
}
