// How much rode do I let out, and does the tide change the answer?
//
//	go run ./examples/03-scope
package main

import (
	"fmt"
	"log"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// up rounds up to whole decimetres.
func up(l units.Length) units.Length {
	return units.Metre.Scale(math.Ceil(10*l.Metres()-1e-9) / 10)
}

func main() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		log.Fatal(err)
	}
	r := rode.Rode{Pieces: []rode.Piece{
		chain.Piece(40 * units.Metre), rope.Wet().Piece(50 * units.Metre), // from the anchor up
	}}
	site := rode.Site{Roller: 1.45 * units.Metre}
	low, high := 6*units.Metre, 9.1*units.Metre

	// The anchor may be pulled up to 5° above the bed.
	pulls := []units.Force{500, 1300, 2500, 4100}
	rows, err := rode.ScopeTable(r, site, []units.Length{low, high}, pulls, 5*units.Degree)
	if err != nil {
		log.Fatal(err)
	}
	for i := range rows {
		row := &rows[i]
		row.Out = up(row.Out) // a least length is never rounded down
		fmt.Printf("depth %4.1f m, pull %.1f kN: let out %4.1f m, scope %.1f, roller to anchor %.0f m\n",
			row.Depth.Metres(), row.Pull.Kilonewtons(), row.Out.Metres(), row.Scope, row.State.Distance.Metres())
	}

	// Rode let out for low water is too short six hours later.
	short, err := r.Veer(rows[3].Out)
	if err != nil {
		log.Fatal(err)
	}
	site.Depth = high
	s, err := rode.Solve(short, site, pulls[3])
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f m let out at low water pulls the anchor at %.1f° at high water\n",
		s.Out.Metres(), s.Anchor.FromBed.Degrees())
}
