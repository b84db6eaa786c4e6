// My outboard's cowl is round every way: can one piece of cloth cover it, or where do I cut?
//
//	go run ./examples/25-mesh [-out .]   (-out writes the pattern there)
package main

import (
	"bytes"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

var out = flag.String("out", "", "folder for the pattern; none is written without")

// Heights over a level board in mm, every 60 mm from port to starboard, the aft row first.
var heights = [][]float64{
	{150, 178, 187, 178, 150},
	{176, 208, 219, 208, 176},
	{190, 225, 237, 225, 190},
	{197, 233, 246, 233, 197},
	{197, 233, 246, 233, 197},
	{190, 225, 237, 225, 190},
	{176, 208, 219, 208, 176},
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}

func main() {
	flag.Parse()
	rows := make([][]canvas.Space, len(heights))
	for i, row := range heights {
		for j, z := range row {
			rows[i] = append(rows[i], canvas.Space{X: mm.Scale(60 * float64(j)), Y: mm.Scale(60 * float64(i)), Z: mm.Scale(float64(z))})
		}
	}
	cowl, err := canvas.Grid(rows)
	check(err)
	cowl.Name = "cowl"
	one, err := cowl.Flatten(canvas.Limits{})
	check(err)
	show("in one piece:", one)
	cowl.Lines = append(cowl.Lines, canvas.Line{
		Name: "ridge", Points: []int{2, 7, 12, 17, 22, 27, 32}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm},
	})
	two, err := cowl.Flatten(canvas.Limits{})
	check(err)
	show("with a seam along the ridge:", two)
	if *out == "" {
		return
	}
	pieces, err := two.Cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	check(err)
	sheet, err := pattern.Lay("cowl", pieces, 1500*mm)
	check(err)
	var b bytes.Buffer
	check(sheet.SVG(&b, "cowl"))
	check(os.WriteFile(filepath.Join(*out, "cowl.svg"), b.Bytes(), 0o666))
}

func show(title string, f canvas.Flattening) {
	fmt.Println(title)
	for _, s := range f.Sheets {
		fmt.Printf("  %s: warp %.1f %%, weft %.1f %%, shear %.1f°\n", s.Panel, 100*s.Warp, 100*s.Weft, s.Shear.Degrees())
		for _, a := range s.Advice {
			fmt.Println("   ", a)
		}
	}
}
