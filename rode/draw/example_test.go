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
