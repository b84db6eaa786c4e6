package rode_test

import (
	"fmt"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Beer and Johnston, Vector Mechanics for Engineers: Statics, the sample problem
// of the catenary (recalled): a cable of 3 lb/ft spans 500 ft between two points
// at one level, with a sag of 100 ft. The least tension is 984 lb, the greatest
// 1284 lb, and the cable 550 ft long.
//
// Half of it hangs as a rode does of which the rest lies on a level bed: here it
// is on land, and pulled with the least tension.
func ExampleSolve() {
	cable := rode.Rode{Pieces: []rode.Piece{{
		Name: "cable", Length: 400 * units.Foot, Mass: 3 * units.PoundPerFoot, Density: rode.Steel,
	}}}
	st, err := rode.Solve(cable, rode.Site{Roller: 100 * units.Foot}, 984*units.PoundForce)
	if err != nil {
		fmt.Println(err)
		return
	}
	hangs := st.Out - st.OnBed
	fmt.Printf("greatest tension %.0f lbf\n", st.Tension.PoundsForce())
	fmt.Printf("length %.0f ft\n", 2*hangs.Feet())
	fmt.Printf("span %.0f ft\n", 2*(st.Distance-st.OnBed).Feet())
	// Output:
	// greatest tension 1284 lbf
	// length 550 ft
	// span 500 ft
}

// Jonkman, Definition of the Floating System for Phase IV of OC3, NREL/TP-500-47535
// (2010), mooring system (figures recalled): three lines at 120 degrees pull down
// with 1 607 000 N, and hold the platform in surge with 41 180 N/m.
func ExampleSolveDistance() {
	const diameter = 0.09 * units.Metre
	line := rode.Piece{
		Name: "mooring line", Length: 902.2 * units.Metre, Mass: 77.7066 * units.KilogramPerMetre,
		Density: 77.7066 / (math.Pi / 4 * 0.09 * 0.09), Stretch: rode.LinearStretch(384.243e6 * units.Newton),
	}
	// The fairlead is 70 m under water and 5.2 m from the axis, the anchor 853.87 m from it.
	site := rode.Site{Depth: 320 * units.Metre, Roller: -70 * units.Metre}
	st, err := rode.SolveDistance(rode.Rode{Pieces: []rode.Piece{line}}, site, (853.87-5.2)*units.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	surge := 1.5 * (st.Stiffness + st.Pull.PerStretch(st.Distance))
	fmt.Printf("weight in water %.1f N/m over a diameter of %.0f mm\n",
		st.Vertical.PerLength(st.Out-st.OnBed).NewtonsPerMetre(), diameter.Millimetres())
	fmt.Printf("three lines pull down with %.0f kN\n", 3*st.Vertical.Kilonewtons())
	fmt.Printf("surge stiffness %.2f kN/m\n", surge.KilonewtonsPerMetre())
	fmt.Printf("%.0f m lie on the bed\n", st.OnBed.Metres())
	// Output:
	// weight in water 698.1 N/m over a diameter of 90 mm
	// three lines pull down with 1607 kN
	// surge stiffness 41.18 kN/m
	// 135 m lie on the bed
}

// Faltinsen, Sea Loads on Ships and Offshore Structures (1990), chapter 8, worked
// in the notes of MIT course 2.019 (2011), lecture 13: at a tension of 1510 kN at
// the top a chain of 828 N/m in 25 m of water lifts 300.93 m off the bed.
func ExampleSolveTension() {
	// The weight is given in water: a density so high that no buoyancy is taken off once more.
	line := rode.Piece{Name: "chain", Length: 350 * units.Metre, Mass: 828 / 9.80665, Density: 1e12}
	st, err := rode.SolveTension(rode.Rode{Pieces: []rode.Piece{line}}, rode.Site{Depth: 25 * units.Metre}, 1510*units.Kilonewton)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m are off the bed\n", (st.Out - st.OnBed).Metres())
	fmt.Printf("the anchor feels %.1f kN\n", st.Anchor.Tension.Kilonewtons())
	// Output:
	// 300.93 m are off the bed
	// the anchor feels 1489.3 kN
}

// A Solver checks the rode once and then solves without allocating, into a State
// that is used again.
func ExampleSolver() {
	chain := rode.Piece{Name: "chain", Length: 40 * units.Metre, Mass: 1.4 * units.KilogramPerMetre, Density: rode.Steel}
	solver, err := rode.NewSolver(
		rode.Rode{Pieces: []rode.Piece{chain}},
		rode.Site{Depth: 6 * units.Metre, Roller: 1.45 * units.Metre},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	var st rode.State
	for _, pull := range []units.Force{0.2, 0.5, 1, 2} {
		if err := solver.Solve(&st, pull*units.Kilonewton); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%4.1f kN: %4.1f m on the bed, the anchor is pulled at %4.1f degrees\n",
			float64(pull), st.OnBed.Metres(), st.Anchor.FromBed.Degrees())
	}
	// Output:
	//  0.2 kN: 22.5 m on the bed, the anchor is pulled at  0.0 degrees
	//  0.5 kN: 13.9 m on the bed, the anchor is pulled at  0.0 degrees
	//  1.0 kN:  3.9 m on the bed, the anchor is pulled at  0.0 degrees
	//  2.0 kN:  0.0 m on the bed, the anchor is pulled at  4.1 degrees
}

// What a kellet does at each joint: where it hangs, and whether the bed still
// carries part of it.
func ExampleState() {
	chain := rode.Piece{Name: "chain", Length: 20 * units.Metre, Mass: 1.4 * units.KilogramPerMetre, Density: rode.Steel}
	rope := rode.Piece{Name: "rope", Kind: rode.OfRope, Length: 25 * units.Metre, Mass: 0.122 * units.KilogramPerMetre, Density: 1140}
	chain.Top = []rode.Fitting{{Name: "kellet", Mass: 10 * units.Kilogram, Volume: 1.3 * units.Litre}}
	r := rode.Rode{Pieces: []rode.Piece{chain, rope}}
	site := rode.Site{Depth: 6 * units.Metre, Roller: 1.4 * units.Metre}
	for _, pull := range []units.Force{200, 400, 900} {
		st, err := rode.Solve(r, site, pull)
		if err != nil {
			fmt.Println(err)
			return
		}
		j := st.Joints[0]
		fmt.Printf("%3.0f N: kellet %.2f m above the anchor, lifted %v, the bed carries %.0f N\n",
			pull.Newtons(), j.Z.Metres(), j.Lifted, j.Reaction.Newtons())
	}
	// Output:
	// 200 N: kellet 0.00 m above the anchor, lifted false, the bed carries 25 N
	// 400 N: kellet 0.13 m above the anchor, lifted true, the bed carries 0 N
	// 900 N: kellet 1.04 m above the anchor, lifted true, the bed carries 0 N
}

// The curve for a drawing, in steps of at most 10 m of line.
func ExampleState_Points() {
	chain := rode.Piece{Name: "chain", Length: 40 * units.Metre, Mass: 1.4 * units.KilogramPerMetre, Density: rode.Steel}
	st, err := rode.Solve(rode.Rode{Pieces: []rode.Piece{chain}}, rode.Site{Depth: 8 * units.Metre}, 600*units.Newton)
	if err != nil {
		fmt.Println(err)
		return
	}
	for p := range st.Points(10 * units.Metre) {
		fmt.Printf("%5.2f m along the rode: %5.2f m from the anchor, %4.2f m up, %v\n",
			p.Arc.Metres(), p.X.Metres(), p.Z.Metres(), map[bool]string{true: "on the bed", false: "hanging"}[p.OnBed])
	}
	// Output:
	//  0.00 m along the rode:  0.00 m from the anchor, 0.00 m up, on the bed
	//  5.27 m along the rode:  5.27 m from the anchor, 0.00 m up, on the bed
	// 10.53 m along the rode: 10.53 m from the anchor, 0.00 m up, on the bed
	// 20.36 m along the rode: 20.29 m from the anchor, 0.95 m up, hanging
	// 30.18 m along the rode: 29.71 m from the anchor, 3.70 m up, hanging
	// 40.00 m along the rode: 38.53 m from the anchor, 8.00 m up, hanging
}

// Only part of the rode is out.
func ExampleRode_Veer() {
	r := rode.Rode{Pieces: []rode.Piece{
		{Name: "chain", Length: 40 * units.Metre, Mass: 1.4 * units.KilogramPerMetre, Density: rode.Steel},
		{Name: "rope", Kind: rode.OfRope, Length: 50 * units.Metre, Mass: 0.122 * units.KilogramPerMetre, Density: 1140},
	}}
	out, err := r.Veer(55 * units.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range out.Pieces {
		fmt.Println(p.Name, p.Length)
	}
	_, err = r.Veer(100 * units.Metre)
	fmt.Println(err)
	// Output:
	// chain 40 m
	// rope 15 m
	// rode: value not accepted: out is 100 m, want at most the rode's length, 90 m
}

// A chain with an axial stiffness of 10 MN stretches by 0.1 % at 10 kN.
func ExampleLinearStretch() {
	e, err := rode.LinearStretch(10_000 * units.Kilonewton).Strain(10 * units.Kilonewton)
	fmt.Printf("%.2f %%, %v\n", 100*e, err)
	// Output:
	// 0.10 %, <nil>
}

// A rope grows stiffer as it is pulled: the curve is a cubic in the tension over
// its breaking force, as far as it was measured.
func ExampleStretch_Strain() {
	rope := rode.Stretch{Reference: 40 * units.Kilonewton, A: 0.66, B: -0.66, C: 0.35, Limit: 30 * units.Kilonewton}
	for _, tension := range []units.Force{2, 10, 20, 35} {
		e, err := rope.Strain(tension * units.Kilonewton)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f kN: %4.1f %%\n", float64(tension), 100*e)
	}
	// Output:
	//  2 kN:  3.1 %
	// 10 kN: 12.9 %
	// 20 kN: 20.9 %
	// rode: beyond the measured load-extension curve: tension is 35000 N, want at most 30000 N
}

// A kellet of lead loses less of its weight in the sea than one of concrete; a
// float pulls upward.
func ExampleFitting_Weight() {
	for _, f := range []rode.Fitting{
		{Name: "lead", Mass: 10 * units.Kilogram, Volume: 0.88 * units.Litre},
		{Name: "concrete", Mass: 10 * units.Kilogram, Volume: 4.2 * units.Litre},
		{Name: "float", Mass: 0.5 * units.Kilogram, Volume: 5 * units.Litre},
	} {
		fmt.Printf("%s %.0f N\n", f.Name, f.Weight(rode.SeaWater).Newtons())
	}
	// Output:
	// lead 89 N
	// concrete 56 N
	// float -45 N
}
