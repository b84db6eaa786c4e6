package rode_test

import (
	"fmt"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// How does 40 m of chain hang in 6 m of water when the boat pulls with 1 kN, and
// how much of it must be out so that it pulls level on the anchor at 2 kN?
func Example() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		fmt.Println(err)
		return
	}
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(40 * units.Metre)}}
	site := rode.Site{Depth: 6 * units.Metre, Roller: 1.45 * units.Metre}
	s, err := rode.Solve(r, site, 1*units.Kilonewton)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tension at the bow %.3v, %.1f m of chain on the bed\n", s.Tension, s.OnBed.Metres())

	r.Pieces[0].Length = 100 * units.Metre
	out, err := rode.LengthFor(r, site, 2*units.Kilonewton, 0)
	fmt.Printf("let out %.0f m for 2 kN, %v\n", math.Ceil(out.Metres()), err)
	// Output:
	// tension at the bow 1.09 kN, 3.9 m of chain on the bed
	// let out 51 m for 2 kN, <nil>
}
