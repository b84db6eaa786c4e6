// What does each leg of my bridle carry when the boat sheers, and what do I buy to make it?
//
//	go run ./examples/07-bridle
package main

import (
	"fmt"
	"log"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		log.Fatal(err)
	}
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		log.Fatal(err)
	}
	// Plover is a catamaran, her bridle fast on both hulls.
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(35 * units.Metre)}}
	site := rode.Site{Depth: 7 * units.Metre, Roller: 1.2 * units.Metre}
	craft := rode.Craft{Hull: 11.9 * units.Metre, Waterline: 11.5 * units.Metre, Category: rode.Ocean, Mass: 9.4 * units.Tonne}
	b := rode.Bridle{Rope: rope.Wet(), Spread: 6 * units.Metre, Port: 9 * units.Metre, Starboard: 9 * units.Metre}
	const slack = 12 * units.Metre
	for _, pull := range []units.Force{900, 2300, 7200} {
		for _, sheer := range []units.Angle{0, 20 * units.Degree, 40 * units.Degree} {
			h, err := rode.HangBridle(r, site, b, pull, sheer, slack)
			if err != nil {
				log.Fatal(err)
			}
			fmt.Printf("%.1f kN, rode %2.0f° to port: port leg %.2f kN, starboard %.2f kN; ring %.1f m below the water\n",
				pull.Kilonewtons(), sheer.Degrees(), h.Bridle.Port.Tension.Kilonewtons(), h.Bridle.Starboard.Tension.Kilonewtons(), -h.Ring.Metres())
		}
	}
	cleat, err := craft.CheckCleat(rode.ForAnchoring, 7.5*units.Kilonewton, 50*units.Kilonewton, rope)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("\neach cleat: %.0f %% of its strength, %.0f %% of the rule's load\n", 100*cleat.OfStrength, 100*cleat.OfRule)
	for _, p := range cleat.Problems {
		fmt.Println("but", p)
	}

	mm := func(x float64) units.Length { return units.Millimetre.Scale(x) }
	thimble := rode.Thimble{Name: "16 mm thimble", Groove: mm(17), Width: mm(28), Length: mm(46), Wall: mm(3), Thick: mm(24)}
	ring := rode.Thimble{Name: "ring of 12 mm, 70 mm inside, working load 8 kN or more", Width: mm(70), Thick: mm(12)} // one bow takes no two thimbles, but what they lie in
	shackle, err := rode.ChooseShackle([]rode.Shackle{
		{Name: "8 mm shackle", Pin: mm(9), Gape: mm(16), Body: mm(8), Inside: mm(26), Working: 6 * units.Kilonewton},
		{Name: "10 mm shackle", Pin: mm(11), Gape: mm(20), Body: mm(10), Inside: mm(30), Working: 10 * units.Kilonewton},
	}, chain, ring, 8*units.Kilonewton)
	if err != nil {
		log.Fatal(err)
	}
	sleeve, err := rode.ChooseSleeve([]rode.Sleeve{{Name: "20 mm hose", Inside: mm(20)}, {Name: "32 mm hose", Inside: mm(32)}}, rope.Diameter, rode.OverEye)
	if err != nil {
		log.Fatal(err)
	}
	onCleat := rode.EyeSplice{Rope: rope, Eye: mm(300), Round: mm(90)}
	s, err := rode.CutList{
		Ropes:   []rode.CutRope{{Name: "legs", Rope: rope, Count: 2, Finished: 10.2 * units.Metre, Eyes: []rode.EyeSplice{onCleat, thimble.Eye(rope)}, Step: units.Metre}},
		Lengths: []rode.CutLength{{Name: sleeve.Name, Each: 0.6 * units.Metre, Count: 2, Why: "sleeves at the fairleads", Step: 0.5 * units.Metre}},
		Parts:   []rode.CutPart{{Name: thimble.Name, Count: 2, Why: "the ring"}, {Name: ring.Name, Count: 1, Why: "legs to shackle"}, {Name: shackle.Name, Count: 1, Why: "ring to chain"}},
	}.Shopping()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println()
	for _, p := range s.Buy {
		amount := fmt.Sprintf("%.1f m of", p.Length.Metres())
		if p.Count > 0 {
			amount = fmt.Sprint(p.Count)
		}
		fmt.Printf("buy %s %s: %s\n", amount, p.Name, strings.Join(p.Why, ", "))
	}
}
