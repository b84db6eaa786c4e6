package rode_test

import (
	"fmt"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// chainAndRope is 30 m of 8 mm chain with 40 m of rope behind it, in 6 m of water.
func chainAndRope() (rode.Rode, rode.Site) {
	chain := rode.Piece{Name: "chain", Length: 30 * units.Metre, Mass: 1.4 * units.KilogramPerMetre, Density: rode.Steel}
	rope := rode.Piece{Name: "rope", Kind: rode.OfRope, Length: 40 * units.Metre, Mass: 0.12 * units.KilogramPerMetre, Density: 1140}
	return rode.Rode{Pieces: []rode.Piece{chain, rope}}, rode.Site{Depth: 6 * units.Metre, Roller: 1.4 * units.Metre}
}

// How much do I let out so that the pull stays level, or within 8° of the bed?
func ExampleLengthFor() {
	r, site := chainAndRope()
	for _, angle := range []units.Angle{0, 8 * units.Degree} {
		out, err := rode.LengthFor(r, site, 1.5*units.Kilonewton, angle)
		fmt.Printf("%.0f°: %.1f m %v\n", angle.Degrees(), math.Ceil(10*out.Metres())/10, err)
	}
	_, err := rode.LengthFor(r, site, 20*units.Kilonewton, 0)
	fmt.Println(err)
	// Output:
	// 0°: 46.6 m <nil>
	// 8°: 29.7 m <nil>
	// rode: not long enough: Length is 70 m, want more rode for a pull of 20.0 kN
}

// At what pull does the anchor begin to be lifted?
func ExamplePullFor() {
	r, site := chainAndRope()
	for _, out := range []units.Length{30 * units.Metre, 45 * units.Metre, 70 * units.Metre} {
		veered, err := r.Veer(out)
		if err != nil {
			fmt.Println(err)
			return
		}
		pull, err := rode.PullFor(veered, site, 0)
		fmt.Printf("%.0f m out: %.2f kN %v\n", out.Metres(), pull.Kilonewtons(), err)
	}
	// Output:
	// 30 m out: 0.68 kN <nil>
	// 45 m out: 1.42 kN <nil>
	// 70 m out: 2.66 kN <nil>
}

// A row for each depth and pull; where the whole rode is not enough, it says so.
func ExampleScopeTable() {
	r, site := chainAndRope()
	rows, err := rode.ScopeTable(r, site, []units.Length{4 * units.Metre, 10 * units.Metre},
		[]units.Force{500 * units.Newton, 4 * units.Kilonewton}, 5*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range rows {
		row := &rows[i]
		fmt.Printf("%2.0f m, %.1f kN: %4.1f m, scope %.1f, enough %v\n",
			row.Depth.Metres(), row.Pull.Kilonewtons(), math.Ceil(10*row.Out.Metres())/10, row.Scope, row.Enough())
	}
	// Output:
	//  4 m, 0.5 kN: 18.6 m, scope 3.4, enough true
	//  4 m, 4.0 kN: 38.4 m, scope 7.1, enough true
	// 10 m, 0.5 kN: 29.6 m, scope 2.6, enough true
	// 10 m, 4.0 kN:  0.0 m, scope 0.0, enough false
}

// A kellet of 10 kg, 8 m down the rode, and the same mass spent on chain.
func ExampleCompareKellet() {
	r, site := chainAndRope()
	veered, err := r.Veer(40 * units.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	kellet := rode.Fitting{Name: "kellet", Mass: 10 * units.Kilogram, Volume: 0.9 * units.Litre}
	options, err := rode.CompareKellet(veered, site, kellet, 8*units.Metre, 2*units.Kilonewton)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range options {
		fmt.Printf("%-31s lifts from %.2f kN on, %.1f° at 2 kN\n", o.Name, o.LiftPull.Kilonewtons(), o.State.Anchor.FromBed.Degrees())
	}
	// Output:
	// as it is                        lifts from 1.17 kN on, 4.4° at 2 kN
	// with the kellet                 lifts from 1.26 kN on, 3.9° at 2 kN
	// the same mass as longer chain   lifts from 1.68 kN on, 1.5° at 2 kN
	// the same mass as heavier chain  lifts from 1.45 kN on, 2.9° at 2 kN
}

// A weight hung on the rode cuts the piece there in two.
func ExampleRode_Hang() {
	r, _ := chainAndRope()
	hung, err := r.Hang(rode.Fitting{Name: "kellet", Mass: 10 * units.Kilogram, Volume: 0.9 * units.Litre}, 15*units.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range hung.Pieces {
		fmt.Printf("%.0f m of %s, on top of it %d fittings\n", p.Length.Metres(), p.Name, len(p.Top))
	}
	// Output:
	// 30 m of chain, on top of it 0 fittings
	// 25 m of rope, on top of it 1 fittings
	// 15 m of rope, on top of it 0 fittings
}

// Scope counts from the roller, not from the water.
func ExampleSite_Scope() {
	site := rode.Site{Depth: 6 * units.Metre, Roller: 1.5 * units.Metre}
	fmt.Printf("%.1f over a rise of %.1f m\n", site.Scope(45*units.Metre), site.Rise().Metres())
	// Output: 6.0 over a rise of 7.5 m
}

// Which part of the blow goes into the rope, and which into lifting the chain?
func ExampleSurgePeak_Share() {
	r, site := chainAndRope()
	for i := range r.Pieces {
		r.Pieces[i].Stretch = rode.LinearStretch(5e6)
	}
	r.Pieces[1].Stretch = rode.LinearStretch(150e3)
	veered, err := r.Veer(45 * units.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := rode.SolveSurge(veered, site, rode.Surge{Mass: 8 * units.Tonne, Rest: 500, Speed: 0.6 * units.MetrePerSecond})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("chain %.0f %%, rope %.0f %%\n", 100*p.Share(0), 100*p.Share(1))
	// Output:
	// chain 35 %, rope 65 %
}

// In which depths is the rode enough for a gale that pulls with 4 kN?
func ExampleScopeRow_Enough() {
	r, site := chainAndRope()
	rows, err := rode.ScopeTable(r, site, []units.Length{4, 8, 12}, []units.Force{4000}, 5*units.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range rows {
		if row.Enough() {
			fmt.Printf("%v: let out %.0f m\n", row.Depth, math.Ceil(row.Out.Metres()))
		} else {
			fmt.Printf("%v: too deep, with all of it %.0f° at the anchor\n", row.Depth, row.State.Anchor.FromBed.Degrees())
		}
	}
	// Output:
	// 4 m: let out 39 m
	// 8 m: let out 62 m
	// 12 m: too deep, with all of it 7° at the anchor
}
