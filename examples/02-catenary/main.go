// How does my chain hang, and when does it begin to lift the anchor?
//
//	go run ./examples/02-catenary
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	// 40 m of it in 6 m of water, the bow roller 1.45 m above the surface.
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(40 * units.Metre)}}
	site := rode.Site{Depth: 6 * units.Metre, Roller: 1.45 * units.Metre}

	fmt.Println("  pull  tension  distance  on the bed  angle at the anchor")
	for _, kn := range []float64{0, 0.2, 0.5, 1, 2, 4} {
		s, err := rode.Solve(r, site, units.Kilonewton.Scale(kn))
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%3.1f kN  %4.2f kN  %6.2f m  %8.1f m  %8.1f°\n", kn, s.Tension.Kilonewtons(),
			s.Distance.Metres(), s.OnBed.Metres(), s.Anchor.FromBed.Degrees())
	}

	// The pull at which the last link leaves the bed:
	lift, err := rode.PullFor(r, site, 0)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("the anchor begins to be lifted at %.3v\n", lift)

	// Nearly taut, the last hand's breadth doubles the pull: chain has no give left.
	for _, x := range []units.Length{39.0, 39.2, 39.25, 39.3} {
		s, err := rode.SolveDistance(r, site, x)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("at %5.2f m from the anchor the pull is %5.2f kN\n", x.Metres(), s.Pull.Kilonewtons())
	}

	// The curve itself, in points at most 10 m of chain apart, under a pull of 1 kN.
	s, err := rode.Solve(r, site, 1*units.Kilonewton)
	if err != nil {
		log.Fatal(err)
	}
	for p := range s.Points(10 * units.Metre) {
		fmt.Printf("%4.1f m of chain: %5.2f m out, %4.2f m up, %.0f N\n",
			p.Arc.Metres(), p.X.Metres(), p.Z.Metres(), p.Tension.Newtons())
	}
}
