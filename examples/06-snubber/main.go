// How thick and how long does my snubber have to be, and what does too thick a rope cost?
//
//	go run ./examples/06-snubber
package main

import (
	"fmt"
	"log"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(30 * units.Metre)}} // from the anchor to the hook
	site := rode.Site{Depth: 5 * units.Metre, Roller: 1.45 * units.Metre}

	// A gust from 25 to 35 knots meets a 7.6 t boat, with a tenth more for the
	// water that moves with it, as it falls back in the swell.
	surge := rode.Surge{Mass: 8.4 * units.Tonne, Rest: 1.3 * units.Kilonewton, Gust: 2.5 * units.Kilonewton, Speed: 0.5 * units.MetrePerSecond}
	bare, err := rode.SolveSurge(r, site, surge)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("chain alone: the boat brings %.0f J and runs back %.2f m, peak %.1f kN at the bow\n",
		(bare.Kinetic + bare.Work).Joules(), bare.Run.Metres(), bare.Peak.Tension.Kilonewtons())

	up := func(l units.Length) float64 { return math.Ceil(10*l.Metres()-1e-9) / 10 } // a least length
	var snubbers []rode.Snubber
	for _, size := range []string{"10", "12", "14", "18", "24"} {
		rope, err := rode.RopeByName("polyamide eight-strand " + size + " mm")
		if err != nil {
			log.Fatal(err)
		}
		snubbers = append(snubbers, rode.Snubber{Rope: rope.Wet(), Length: 8 * units.Metre})
	}
	// Cleat and anchor are good for 8 kN; the rope may see a third of what its
	// splice leaves of it.
	splice, err := rode.SpliceFactor("eight-strand")
	if err != nil {
		log.Fatal(err)
	}
	limits := rode.SnubberLimits{Bow: 8 * units.Kilonewton, OfBreaking: splice / 3}
	// Peaks are those of rope in cycles of seconds, stiffer than the catalogue's.
	options, err := rode.CompareSnubbers(r, site, surge, limits, snubbers)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("\n8 m of    peak     of breaking  stretch  of the energy  length wanted")
	for _, o := range options {
		fmt.Printf("%s  %5.1f kN  %6.0f %%  %8.2f m  %8.0f %%  %12.1f m\n", o.Snubber.Rope.Size, o.Peak.Peak.Tension.Kilonewtons(),
			100*o.OfBreaking, o.Stretch.Metres(), 100*o.Share, up(o.Wanted))
	}

	// The 14 mm rope, as long as it has to be: where does its hook hang, how much
	// chain must be slack, and where does the sleeve go? Pulled slowly it stretches farther.
	n := snubbers[2]
	n.Length = options[2].Wanted
	snubbed, err := r.Snub(n)
	if err != nil {
		log.Fatal(err)
	}
	p, err := rode.SolveSurge(snubbed, site, surge)
	if err != nil {
		log.Fatal(err)
	}
	strain := p.Peak.Pieces[1].Stretch.Per(n.Length)
	sleeve, err := rode.Fairlead{Inboard: 1.2 * units.Metre, Contact: 80 * units.Millimetre, Margin: 100 * units.Millimetre, Strain: strain}.Sleeve()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("\n%.1f m of 14 mm: hook %.1f m below the water at rest; leave more than %.1f m of chain slack\n",
		up(n.Length), -p.Rest.HookHeight().Metres(), up(p.LeastSlack()))
	fmt.Printf("sleeve from %.2f m to %.2f m from the cleat\n", sleeve.From.Metres(), sleeve.To.Metres())
}
