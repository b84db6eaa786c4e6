package rode_test

import (
	"cmp"
	"fmt"
	"slices"

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

// The same chain may have grown longer by a fifteenth, if all of its links have worn so.
func ExampleChain_WornPitch() {
	c, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		fmt.Println(err)
		return
	}
	pitch, err := c.WornPitch(7.2 * units.Millimetre)
	fmt.Printf("%.1f to %.1f mm, %v\n", pitch.Low.Millimetres(), pitch.High.Millimetres(), err)
	// Output: 24.0 to 25.6 mm, <nil>
}

// How much stiffer is a wet rope in a surge than it is in a slow pull?
func ExampleRope_Cyclic() {
	r, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	slow, cyclic := r.Wet(), r.Wet().Cyclic()
	for _, part := range []float64{0.05, 0.2, 0.5} {
		load := slow.Breaking.Scale(part)
		a, err := slow.Strain(load)
		if err != nil {
			fmt.Println(err)
			return
		}
		b, err := cyclic.Strain(load)
		fmt.Printf("%4.1f kN: %4.1f %% in a slow pull, %4.1f %% in a surge, %v\n", load.Kilonewtons(), 100*a, 100*b, err)
	}
	// Output:
	//  1.7 kN:  3.1 % in a slow pull,  1.4 % in a surge, <nil>
	//  6.8 kN: 10.8 % in a slow pull,  5.7 % in a surge, <nil>
	// 17.1 kN: 20.9 % in a slow pull, 14.1 % in a surge, <nil>
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

// Chains of 10 mm wire come in two pitches: a chain wheel is cut for one of them.
func ExampleChains() {
	for _, c := range rode.Chains() {
		if c.Wire == 10*units.Millimetre {
			fmt.Printf("%s: pitch %.0f mm\n", c.Name(), c.Pitch.Millimetres())
		}
	}
	// Output:
	// ISO 4565 10 mm G30: pitch 30 mm
	// ISO 4565 10 mm G40: pitch 30 mm
	// DIN 766 10 mm G30: pitch 28 mm
	// DIN 766 10 mm G40: pitch 28 mm
	// EN 818-3 10 mm G40: pitch 30 mm
}

// Which 8 mm chain with a pitch of 24 mm is the strongest? Its name finds it again.
func ExampleChain_Name() {
	for _, c := range rode.Chains() {
		if c.Wire == 8*units.Millimetre && c.Pitch == 24*units.Millimetre && c.Breaking > 40*units.Kilonewton {
			again, err := rode.ChainByName(c.Name())
			fmt.Println(c.Name(), again == c, err)
		}
	}
	// Output:
	// EN 818-3 8 mm G40 true <nil>
}

// What do 40 m of chain weigh, and how much of that does the bow feel in the water?
func ExampleChain_Piece() {
	c, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		fmt.Println(err)
		return
	}
	p := c.Piece(40 * units.Metre)
	dry := p.Mass.Weight().TimesLength(p.Length)
	wet := dry.Scale(1 - rode.SeaWater.Per(p.Density))
	fmt.Printf("%v of %s: %.0f kg, %.0f N in air, %.0f N in the sea\n", p.Length, p.Name, dry.Mass().Kilograms(), dry.Newtons(), wet.Newtons())
	// Output:
	// 40 m of DIN 766 8 mm G30 chain: 56 kg, 549 N in air, 477 N in the sea
}

// Which ropes of 14 mm are in the catalogue, from the softest to the stiffest at a tenth of
// their breaking force?
func ExampleRopes() {
	var of14 []rode.Rope
	for _, r := range rode.Ropes() {
		if r.Diameter == 14*units.Millimetre {
			of14 = append(of14, r)
		}
	}
	strain := func(r rode.Rope) float64 {
		e, err := r.Strain(r.Breaking.Scale(0.1))
		if err != nil {
			fmt.Println(err)
		}
		return e
	}
	slices.SortStableFunc(of14, func(a, b rode.Rope) int { return cmp.Compare(strain(b), strain(a)) })
	for _, r := range of14 {
		fmt.Printf("%-30s %4.1f %%, breaks at %.0f kN\n", r.Name(), 100*strain(r), r.Breaking.Kilonewtons())
	}
	// Output:
	// polyamide three-strand 14 mm    7.5 %, breaks at 40 kN
	// polyamide eight-strand 14 mm    6.0 %, breaks at 40 kN
	// polypropylene three-strand 14 mm  3.0 %, breaks at 27 kN
	// polypropylene eight-strand 14 mm  3.0 %, breaks at 27 kN
	// polyester three-strand 14 mm    2.4 %, breaks at 31 kN
	// polyester eight-strand 14 mm    2.4 %, breaks at 31 kN
	// HMPE twelve-strand 14 mm        0.4 %, breaks at 115 kN
}

// Fibre, construction and size, as RopeByName takes them.
func ExampleRope_Name() {
	r, err := rode.RopeByName("polyamide eight-strand 14 mm")
	fmt.Println(r.Name(), err)
	fmt.Printf("%s: %s of %s\n", r.Size, r.Construction, r.Fibre)
	// Output:
	// polyamide eight-strand 14 mm <nil>
	// 14 mm: eight-strand of polyamide
}

// Dunlin lies to 30 m of chain and 20 m of rope: the rope is light in air, and in the water it is
// lighter still.
func ExampleRope_Piece() {
	r, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	p := r.Piece(20 * units.Metre)
	fmt.Printf("%s, %s: %.2f kg dry, %.2f kg of pull in the sea\n", p.Kind, p.Name, p.Mass.TimesLength(p.Length).Kilograms(),
		p.Mass.TimesLength(p.Length).Kilograms()*(1-rode.SeaWater.Per(p.Density)))
	// Output:
	// rope, polyamide eight-strand 14 mm rope: 2.44 kg dry, 0.25 kg of pull in the sea
}

// A snubber of polyamide is wet when it works: weaker, and it stretches further.
func ExampleRope_Wet() {
	dry, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range []rode.Rope{dry, dry.Wet()} {
		e, err := r.Strain(5 * units.Kilonewton)
		fmt.Printf("breaks at %.1f kN, stretches by %.1f %% at 5 kN %v\n", r.Breaking.Kilonewtons(), 100*e, err)
	}
	// Output:
	// breaks at 40.2 kN, stretches by 7.3 % at 5 kN <nil>
	// breaks at 34.2 kN, stretches by 8.4 % at 5 kN <nil>
}
