package anchor_test

import (
	"errors"
	"fmt"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func ExampleHorizontalLoads() {
	l, err := anchor.HorizontalLoads(34*units.Foot, 10*units.Foot, anchor.Sloop)
	fmt.Printf("lunch %.0f lbf, working %.0f lbf, storm %.0f lbf %v\n",
		l.Lunch.PoundsForce(), l.Working.PoundsForce(), l.Storm.PoundsForce(), err)
	// Output:
	// lunch 225 lbf, working 900 lbf, storm 1800 lbf <nil>
}

// A cruising boat is too small for the rule of ships.
func ExampleEquipmentNumber() {
	n, err := anchor.EquipmentNumber(6*units.Tonne, 3.4, 1.6, 14)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f\n", n)
	_, err = anchor.EquipmentGear(n)
	fmt.Println(errors.Is(err, anchor.ErrRange))
	// Output:
	// 16
	// true
}

func ExampleEquipmentGear() {
	g, err := anchor.EquipmentGear(100)
	fmt.Printf("%d anchors of %.0f kg, or %.0f kg of high holding power, on %v of %v mm chain %v\n",
		g.Anchors, g.Mass.Kilograms(), g.HighHolding.Kilograms(), g.Chain, g.Grade1.Millimetres(), err)
	// Output:
	// 2 anchors of 300 kg, or 225 kg of high holding power, on 247.5 m of 17.5 mm chain <nil>
}

func ExampleSmallVesselGear() {
	g, err := anchor.SmallVesselGear(9.7)
	fmt.Printf("%v on %v mm chain, kedge %v %v\n", g.Main, g.MainChain.Millimetres(), g.Kedge, err)
	// Output:
	// 13 kg on 8 mm chain, kedge 6 kg <nil>
}

func ExampleHolding() {
	for _, soil := range []anchor.Soil{anchor.Sand, anchor.Mud} {
		h, err := anchor.Holding(anchor.PlateHinged, soil, 15)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %.1f kN to %.1f kN, lighter than the anchors of the law: %v\n",
			soil, h.Low.Kilonewtons(), h.High.Kilonewtons(), h.Extrapolated)
	}
	// Output:
	// sand: 1.5 kN to 5.9 kN, lighter than the anchors of the law: true
	// mud: 0.8 kN to 3.1 kN, lighter than the anchors of the law: true
}

// What an anchor that is good in sand holds elsewhere.
func ExampleHeld_On() {
	sand, err := anchor.Holding(anchor.PlateHinged, anchor.Sand, 15)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range anchor.Bottoms()[:4] {
		h, err := sand.On(b)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.1f kN to %.1f kN\n", b.Name, h.Low.Kilonewtons(), h.High.Kilonewtons())
	}
	// Output:
	// stiff, dense clay: 2.2 kN to 8.8 kN
	// firm sand: 1.5 kN to 5.9 kN
	// sticky clay: 1.0 kN to 3.9 kN
	// soft mud: 0.5 kN to 1.9 kN
}

func ExampleHoldingByEfficiency() {
	h, err := anchor.HoldingByEfficiency(25, 16)
	fmt.Printf("%.1f kN to %.1f kN %v\n", h.Low.Kilonewtons(), h.High.Kilonewtons(), err)
	// Output:
	// 2.0 kN to 7.8 kN <nil>
}

func ExampleHoldingLeft() {
	left, err := anchor.HoldingLeft(8*units.Degree, 30*units.Degree)
	fmt.Printf("%.0f %% to %.0f %% %v\n", 100*left.Low, 100*left.High, err)
	// Output:
	// 68 % to 99 % <nil>
}

func ExampleSafetyFactors() {
	for _, f := range anchor.SafetyFactors()[3:5] {
		fmt.Printf("%s: %v %s\n", f.Of, f.Factor, f.Note)
	}
	// Output:
	// chain, straight: 3 of the new breaking strength
	// chain round bends: 4 of the new breaking strength
}

// The Masthead (Westlawn), issue 29, page 28: 427.5 hp on 16 in make 4404 lb.
func ExampleStaticThrust() {
	t, err := anchor.StaticThrust(427.5*units.MechanicalHorsepower, 16*units.Inch)
	fmt.Printf("%.0f lbf, and never more than %.0f lbf %v\n", t.Rule.PoundsForce(), t.Bound.PoundsForce(), err)
	// Output:
	// 4404 lbf, and never more than 6746 lbf <nil>
}

func ExampleBackDown() {
	p, err := anchor.BackDown(20*units.Kilowatt, 17*units.Inch)
	fmt.Printf("%.1f kN to %.1f kN %v\n", p.Low.Kilonewtons(), p.High.Kilonewtons(), err)
	// Output:
	// 1.6 kN to 2.6 kN <nil>
}

func ExampleMinimumWindlass() {
	r, err := anchor.MinimumWindlass(14*units.Millimetre, 1, 120)
	fmt.Printf("%.1f N, %.1f N for two minutes, %.0f m/min %v\n",
		r.Continuous.Newtons(), r.Overload.Newtons(), r.Speed.MetresPerMinute(), err)
	// Output:
	// 9334.5 N, 14001.8 N for two minutes, 9 m/min <nil>
}

var capstan = anchor.Drive{Voltage: 12, Points: []anchor.DrivePoint{
	{Pull: 1000, Speed: 0.4, Current: 80},
	{Pull: 2500, Speed: 0.22, Current: 170},
}}

// A flat battery makes it slow, not weak.
func ExampleDrive_Run() {
	for _, v := range []units.Voltage{13.2, 12, 10.8} {
		r, err := capstan.Run(1500, anchor.Supply{Voltage: v})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f V: %.0f A, %.0f m/min, stalls at %.0f A\n", v.Volts(), r.Current.Amperes(), r.Speed.MetresPerMinute(), r.Stall.Amperes())
	}
	// Output:
	// 13.2 V: 110 A, 24 m/min, stalls at 308 A
	// 12.0 V: 110 A, 20 m/min, stalls at 280 A
	// 10.8 V: 110 A, 17 m/min, stalls at 252 A
}

func ExampleDrive_Gears() {
	g, err := capstan.Gears()
	fmt.Printf("running %.2f, starting %.2f, back-driving %.2f %v\n", g.Running, g.Starting, g.BackDriving, err)
	// Output:
	// running 0.78, starting 0.58, back-driving 0.71 <nil>
}

func ExampleHangingWeight() {
	chain := rode.Rode{Pieces: []rode.Piece{{Length: 40, Mass: 1.4, Density: rode.Steel}}}
	site := rode.Site{Depth: 10, Roller: 1.4}
	for _, out := range []units.Length{40, 11, 1} {
		f, err := anchor.HangingWeight(chain, site, 16, out)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f m out: %.0f N\n", out.Metres(), f.Newtons())
	}
	// Output:
	// 40 m out: 139 N
	// 11 m out: 270 N
	//  1 m out: 171 N
}

func ExampleWindlass_Retrieve() {
	r, err := anchor.Windlass{Drive: capstan}.Retrieve(anchor.Haul{
		Rode:   rode.Rode{Pieces: []rode.Piece{{Length: 40, Mass: 1.4, Density: rode.Steel}}},
		Site:   rode.Site{Depth: 8, Roller: 1.4},
		Anchor: 16, Pull: 300, Breakout: 1200,
		Supply: anchor.Supply{Voltage: 12.6, Resistance: 0.01},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range r.Stages {
		fmt.Printf("%-13s %3.0f s, %.1f V, %.0f A\n", s.Name, s.Time.Seconds(), s.Voltage.Volts(), s.Current.Amperes())
	}
	fmt.Printf("%.2f Ah in %.0f s\n", r.Charge.AmpereHours(), r.Time.Seconds())
	// Output:
	// shortening up  67 s, 12.1 V, 54 A
	// breaking out    1 s, 11.3 V, 128 A
	// lifting        19 s, 12.3 V, 35 A
	// 1.22 Ah in 86 s
}

// What does an anchor hold elsewhere that holds 10 kN in firm sand?
func ExampleBottoms() {
	for _, b := range anchor.Bottoms() {
		fmt.Printf("%-28s %4.1f kN\n", b.Name, 10*b.Factor)
	}
	// Output:
	// stiff, dense clay            15.0 kN
	// firm sand                    10.0 kN
	// sticky clay                   6.6 kN
	// soft mud                      3.3 kN
	// coarse, loose sand            3.3 kN
	// gravel                        3.3 kN
	// rock                          0.0 kN
}
