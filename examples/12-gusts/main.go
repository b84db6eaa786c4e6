// Behind a low spit, in gusts without waves: how long a snubber, and what does a riding sail do?
//
//	go run ./examples/12-gusts
package main

import (
	"context"
	"fmt"
	"log"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	chain, err := rode.ChainByName("DIN 766 8 mm G40")
	if err != nil {
		log.Fatal(err)
	}
	rope, err := rode.RopeByName("polyamide three-strand 14 mm")
	if err != nil {
		log.Fatal(err)
	}
	rope = rope.Wet().Cyclic() // as stiff as in gusts
	above, err := anchor.Estimate(anchor.Dimensions{Length: 10.4, Beam: 3.3, Freeboard: 1.1, Rig: anchor.Sloop})
	if err != nil {
		log.Fatal(err)
	}
	boat := anchor.Ride{
		Above: above,
		Below: anchor.Underwater{
			Length: 9, Beam: 3.2, Draught: 0.75, Mass: 7.2 * units.Tonne,
			Fins: []anchor.Fin{{Name: "keel", Side: 2.4, Chord: 3}, {Name: "rudder", Side: 0.7, Chord: 0.6, Station: -4}},
		},
		Ahead: 4.9, Surging: 120, Swaying: 60, Yawing: 60,
		Site:     rode.Site{Depth: 5, Roller: 1.4, Friction: 0.6},
		Wind:     anchor.Wind{Speed: 20 * units.Knot},
		Gusts:    anchor.Gusts{Intensity: 0.1}, // straight off the sea, over a low spit
		Current:  anchor.Current{Depth: 5},
		Waves:    anchor.Waves{Height: 0.03, Period: 2.5}, // which stops the waves
		Duration: 900, Settle: 120, Seed: 1,
	}
	show := func(name string, pieces ...rode.Piece) {
		boat.Rode.Pieces = pieces
		e, err := boat.Realise(context.Background(), 20, nil)
		if err != nil {
			log.Fatal(err)
		}
		sheer, lift := units.Angle(0), units.Angle(0)
		for _, r := range e.Runs {
			sheer, lift = max(sheer, r.Sheer), max(lift, r.Lift)
		}
		note := ""
		if !e.Trusted {
			note = "  do not rely on it"
		}
		fmt.Printf("%-21s %4.1f kN  %4.1f kN (%4.1f to %4.1f)  %2.0f°  %2.0f°  %.2f%s\n",
			name, e.Expected.Kilonewtons(), e.Bow.Load.Kilonewtons(), e.Bow.Low.Kilonewtons(), e.Bow.High.Kilonewtons(),
			lift.Degrees(), sheer.Degrees(), e.Snatch, note)
	}
	fmt.Println("greatest load in 15 min   mean  9 of 10 below           lift sheer snatch    (lift: of the pull at the anchor)")
	show("35 m chain", chain.Piece(35))
	for _, length := range []units.Length{3, 6, 12} {
		show(fmt.Sprintf("with %v of snubber", length), chain.Piece(35), rope.Piece(length))
	}
	show("15 m chain, 25 m rope", chain.Piece(15), rope.Piece(25))
	boat.Above.Parts = append(boat.Above.Parts, anchor.Part{
		Name: "riding sail", Front: 0.4, Side: 4, Bottom: 2, Top: 5, Station: -4, Length: 2,
	})
	show("6 m and a riding sail", chain.Piece(35), rope.Piece(6))
	boat.Wind.Speed, boat.Gusts.Intensity, boat.Waves.Height = 22*units.Knot, 0.2, 0.12
	fmt.Println("22 knots off low hills, and more sea:")
	show("6 m and a riding sail", chain.Piece(35), rope.Piece(6))
	fmt.Println("Beyond a snatch of 0.3 inertia and drag of the chain add to the loads: see RideResult.Snatch.")
}
