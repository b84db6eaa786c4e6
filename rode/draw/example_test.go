package draw_test

import (
	"bytes"
	"fmt"
	"regexp"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// Dunlin lies to 30 m of chain and 20 m of rope. How does the rode hang in a
// light and in a fresh wind?
func ExampleProfile_WriteSVG() {
	r := rode.Rode{Pieces: []rode.Piece{
		{Name: "8 mm chain", Kind: rode.OfChain, Length: 30, Mass: 1.4, Density: rode.Steel},
		{Name: "14 mm polyamide", Kind: rode.OfRope, Length: 20, Mass: 0.121, Density: 1140},
	}}
	site := rode.Site{Depth: 6, Roller: 1.45}
	drawing := draw.Profile{Title: "Dunlin in 6 m"}
	for _, wind := range []struct {
		label string
		pull  units.Force
	}{
		{"15 kn", 250 * units.Newton},
		{"25 kn", 700 * units.Newton},
	} {
		st, err := rode.Solve(r, site, wind.pull)
		if err != nil {
			fmt.Println(err)
			return
		}
		drawing.Views = append(drawing.Views, draw.View{Label: wind.label, State: st, Rode: r, Site: site})
	}
	var file bytes.Buffer
	if err := drawing.WriteSVG(&file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s\n", regexp.MustCompile(`width="\d+mm"`).Find(file.Bytes()))
	fmt.Printf("%s\n", regexp.MustCompile(`Scale 1:\d+`).Find(file.Bytes()))
	// Output:
	// width="253mm"
	// Scale 1:250
}

// Dunlin's chain hangs on a snubber of 8 m. How far is its hook below the bow?
func ExampleSnubber() {
	r := rode.Rode{Pieces: []rode.Piece{
		{Name: "8 mm chain", Kind: rode.OfChain, Length: 30, Mass: 1.4, Density: rode.Steel},
		{Name: "snubber", Kind: rode.OfRope, Length: 8, Mass: 0.121, Density: 1140, Stretch: rode.LinearStretch(60 * units.Kilonewton)},
	}}
	site := rode.Site{Depth: 6, Roller: 1.45}
	st, err := rode.Solve(r, site, 700*units.Newton)
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing := draw.Snubber(st, site, 10*units.Metre)
	fmt.Printf("%.1f m ahead of it and %.1f m below\n", drawing.Forward.Metres(), drawing.Below.Metres())
	var file bytes.Buffer
	if err := drawing.WriteSVG(&file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s\n", regexp.MustCompile(`Scale 1:\d+`).Find(file.Bytes()))
	// Output:
	// 7.5 m ahead of it and 3.0 m below
	// Scale 1:100
}

// A catamaran's bridle as she sheers by 10°: what does each leg hold?
func ExampleBridle() {
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	r := rode.Rode{Pieces: []rode.Piece{{Name: "8 mm chain", Kind: rode.OfChain, Length: 30, Mass: 1.4, Density: rode.Steel}}}
	site := rode.Site{Depth: 6, Roller: 1.2}
	bridle := rode.Bridle{Rope: rope.Wet(), Spread: 5, Port: 7, Starboard: 7}
	hang, err := rode.HangBridle(r, site, bridle, 2*units.Kilonewton, 10*units.Degree, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing := draw.Bridle(bridle, hang, site, 0, 2)
	for _, leg := range drawing.Lines {
		fmt.Printf("%s: %.2f kN\n", leg.Name, leg.Tension.Kilonewtons())
	}
	var file bytes.Buffer
	if err := drawing.WriteSVG(&file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s\n", regexp.MustCompile(`Scale 1:\d+`).Find(file.Bytes()))
	// Output:
	// port leg: 0.66 kN
	// starboard leg: 1.53 kN
	// Scale 1:80
}
