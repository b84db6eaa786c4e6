package rode_test

import (
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Chain of one wire size has another pitch in another standard.
func ExampleChainByName() {
	for _, name := range []string{"DIN 766 10 mm G30", "ISO 4565 10 mm G30", "DIN 766 9 mm G30"} {
		c, err := rode.ChainByName(name)
		if err != nil {
			fmt.Println("no such size")
			continue
		}
		fmt.Printf("%s: pitch %.3v, %.2f kg/m, breaks at %.3v\n", c.Name(), c.Pitch, c.Mass.KilogramsPerMetre(), c.Breaking)
	}
	// Output:
	// DIN 766 10 mm G30: pitch 28.0 mm, 2.20 kg/m, breaks at 50.0 kN
	// ISO 4565 10 mm G30: pitch 30.0 mm, 2.25 kg/m, breaks at 50.0 kN
	// no such size
}

// Tables print 1.4 kg/m for chain of 8 mm wire with a pitch of 24 mm, 28.8 mm wide.
func ExampleChain_LinkMass() {
	m, err := rode.Chain{Wire: 8 * units.Millimetre, Pitch: 24 * units.Millimetre, OutsideWidth: 28.8 * units.Millimetre}.LinkMass()
	fmt.Printf("%.2f kg/m %v\n", m.KilogramsPerMetre(), err)
	// Output: 1.44 kg/m <nil>
}

// ASTM A413 rounds this up to 7600 lbf, four times 1900, for 5/16 in, whose wire is
// 0.331 in thick.
func ExampleGradeBreaking() {
	f, err := rode.GradeBreaking(0.331*units.Inch, 30)
	fmt.Printf("%.0f lbf %v\n", f.PoundsForce(), err)
	// Output: 7488 lbf <nil>
}

// By how much does 40 m of chain stretch under 5 kN?
func ExampleChain_AxialStiffness() {
	c, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		fmt.Println(err)
		return
	}
	ea := c.AxialStiffness()
	stretch := (40 * units.Metre).Scale((5 * units.Kilonewton).Per(ea))
	fmt.Printf("E times A is %.3v, so %.0f mm\n", ea, stretch.Millimetres())
	// Output: E times A is 5470 kN, so 37 mm
}

// A wire of 8 mm that has worn to 7.2 mm, a tenth less, has lost a fifth of its strength.
func ExampleChain_Worn() {
	c, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		fmt.Println(err)
		return
	}
	worn, err := c.Worn(7.2 * units.Millimetre)
	fmt.Printf("%.3v, left of %.3v, %v\n", worn.Breaking, c.Breaking, err)
	_, err = c.Worn(9 * units.Millimetre)
	fmt.Println(err != nil)
	// Output:
	// 25.9 kN, left of 32.0 kN, <nil>
	// true
}

// What an old rope is good for: wet, and with the strength left that its owner believes in.
func ExampleRopeByName() {
	r, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	used, err := r.Wet().Used(0.8)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("new %.3v, wet %.3v, wet and old %.3v\n", r.Breaking, r.Wet().Breaking, used.Breaking)
	// Output: new 40.2 kN, wet 34.2 kN, wet and old 27.3 kN
}

// Polyamide three-strand stretches more before its strands have settled.
func ExampleRope_New() {
	worked, err := rode.RopeByName("polyamide three-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	fresh, err := worked.New()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range []rode.Rope{fresh, worked} {
		e, err := r.Strain(r.Breaking.Scale(0.2))
		fmt.Printf("%.0f %% at a fifth of its strength, %v\n", 100*e, err)
	}
	// Output:
	// 19 % at a fifth of its strength, <nil>
	// 14 % at a fifth of its strength, <nil>
}

// How much does 10 m of 12 mm rope stretch when the boat snatches at it with 5 kN?
func ExampleRope_Strain() {
	for _, name := range []string{"polyamide three-strand 12 mm", "polyester three-strand 12 mm"} {
		r, err := rode.RopeByName(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		e, err := r.Strain(5 * units.Kilonewton)
		fmt.Printf("%s: %.1f m %v\n", r.Fibre, 10*e, err)
	}
	// Output:
	// polyamide: 1.2 m <nil>
	// polyester: 0.5 m <nil>
}

// A rope that is not in the catalogue, with its maker's breaking force.
func ExampleRopeStretch() {
	breaking := 41 * units.Kilonewton
	curve, err := rode.RopeStretch("polyamide", "eight-strand", breaking)
	if err != nil {
		fmt.Println(err)
		return
	}
	piece := rode.Piece{
		Name: "our warp", Kind: rode.OfRope, Length: 50 * units.Metre, Mass: 0.121 * units.KilogramPerMetre,
		Density: 1140, Breaking: breaking, Stretch: curve,
	}
	e, err := piece.Stretch.Strain(4 * units.Kilonewton)
	fmt.Printf("%.0f m of it give %.1f m at 4 kN, %v\n", piece.Length.Metres(), piece.Length.Scale(e).Metres(), err)
	// Output: 50 m of it give 2.9 m at 4 kN, <nil>
}
