package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// The negative is joined to the engine block, and a wire bonds the windlass's case to the block. The
// winding touches the case: which conductor carries what, and does the bonding wire stand it
// until the breaker opens?
func ExampleSolve_bonding() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	w.Hull = nil
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		fmt.Println(err)
		return
	}
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, size := range []string{"2.5 mm²", "16 mm²"} {
		wire, err := stock.Find(size)
		if err != nil {
			fmt.Println(err)
			return
		}
		bonded := wiring.Circuit{Reference: c.Reference, Elements: append(c.Elements[:len(c.Elements):len(c.Elements)],
			wiring.Element{Name: "engine strap", From: "bank -", To: "engine -", Contact: &wiring.Contact{Role: wiring.Bond, Resistance: 0.5 * units.Milliohm}},
			wiring.Element{Name: "bonding wire", From: "engine -", To: "windlass case", Cable: &wiring.Cable{Conductor: wire, Length: 11 * units.Metre}},
			wiring.Element{Name: "winding on case", From: "motor A", To: "windlass case", Contact: &wiring.Contact{Role: wiring.Fault, Resistance: units.Milliohm}},
		)}
		s, err := wiring.Solve(bonded, wiring.Conditions{Standing: []string{"motor"}})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("bonding wire of %s:\n", size)
		for _, name := range []string{"breaker", "motor", "cable back", "bonding wire", "engine strap"} {
			b, err := s.Branch(name)
			if err != nil {
				fmt.Println(err)
				return
			}
			fmt.Printf("- %s carries %.0f A\n", name, b.Current.Abs().Amperes())
		}
		through, err := s.Branch("breaker")
		if err != nil {
			fmt.Println(err)
			return
		}
		open, err := w.Breaker.Band.Opening(w.Breaker.Rating, through.Current)
		if err != nil {
			fmt.Println(err)
			return
		}
		bond, err := s.Branch("bonding wire")
		if err != nil {
			fmt.Println(err)
			return
		}
		stands, err := wiring.WithstandTime(wire.Area, bond.Current.Abs(), units.Celsius(30), wiring.ThermoplasticLimit)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("the breaker opens within %.1f s, the bonding wire stands it for %.1f s\n", open.Latest.Seconds(), stands.Seconds())
	}
	// Output:
	// bonding wire of 2.5 mm²:
	// - breaker carries 361 A
	// - motor carries 256 A
	// - cable back carries 256 A
	// - bonding wire carries 105 A
	// - engine strap carries 105 A
	// the breaker opens within 4.1 s, the bonding wire stands it for 11.6 s
	// bonding wire of 16 mm²:
	// - breaker carries 658 A
	// - motor carries 188 A
	// - cable back carries 189 A
	// - bonding wire carries 469 A
	// - engine strap carries 469 A
	// the breaker opens within 3.0 s, the bonding wire stands it for 23.7 s
}

// Short or stalled motor, by a milliohm meter?
func ExampleTellResistance() {
	standing := units.Interval[units.Resistance]{Low: 40 * units.Milliohm, High: 50 * units.Milliohm}
	for _, measured := range []units.Interval[units.Resistance]{
		{Low: 5 * units.Milliohm, High: 11 * units.Milliohm},
		{Low: 41 * units.Milliohm, High: 47 * units.Milliohm},
		{Low: 0, High: 100 * units.Milliohm},
	} {
		cause, err := wiring.TellResistance(measured, standing)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f to %.0f mΩ: %s\n", measured.Low.Milliohms(), measured.High.Milliohms(), cause)
	}
	// Output:
	// 5 to 11 mΩ: short
	// 41 to 47 mΩ: stalled motor
	// 0 to 100 mΩ: short or stalled motor
}
