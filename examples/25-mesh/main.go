// My outboard's cowl is round every way: can one piece of cloth cover it, or where do I cut?
//
//	go run ./examples/25-mesh
//	go run ./examples/25-mesh -out .   also writes the pattern, into this folder
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

var out = flag.String("out", "", "folder `DIR` to write the pattern to")

// Heights in mm over a level board, every 60 mm across and 90 mm along, the aft row first.
var heights = [][]float64{
	{150, 178, 187, 178, 150},
	{184, 218, 229, 218, 184},
	{197, 233, 246, 233, 197},
	{194, 229, 242, 229, 194},
	{176, 208, 219, 208, 176},
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}

func main() {
	flag.Parse()
	var rows [][]canvas.Space
	for i, row := range heights {
		rows = append(rows, nil)
		for j, z := range row {
			rows[i] = append(rows[i], canvas.Space{X: mm.Scale(60 * float64(j)), Y: mm.Scale(90 * float64(i)), Z: mm.Scale(z)})
		}
	}
	cowl, err := canvas.Grid(rows)
	check(err)
	cowl.Name = "cowl"
	one, err := cowl.Flatten(canvas.Limits{})
	check(err)
	show("in one piece:", one)
	// The middle column, from aft to fore, becomes a seam.
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}
	cowl.Lines = append(cowl.Lines, canvas.Line{Name: "ridge", Points: []int{2, 7, 12, 17, 22}, Finish: seam})
	two, err := cowl.Flatten(canvas.Limits{})
	check(err)
	show("with a seam along the ridge:", two)
	if *out == "" {
		return
	}
	pieces, err := two.Cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	check(err)
	sheet, err := pattern.FullSize(cowl.Name, pieces, 1500*mm)
	check(err)
	file, err := os.Create(filepath.Join(*out, "cowl.svg"))
	check(err)
	check(sheet.WriteSVG(file, cowl.Name))
	check(file.Close())
	fmt.Println("written:", file.Name())
}

func show(title string, f canvas.Flattening) {
	fmt.Println(title)
	for _, s := range f.Sheets {
		fmt.Printf("  %s: warp %.1f %%, weft %.1f %%, shear %.1f°\n", s.Panel, 100*s.Warp, 100*s.Weft, s.Shear.Degrees())
		fmt.Println("    " + strings.Join(s.Advice, "\n    "))
	}
}
