// How many gores does a domed hood for the binnacle want, and how do I cut them without a printer?
//
//	go run ./examples/24-dome
//	go run ./examples/24-dome -out .   also writes the pattern, into this folder
package main

import (
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

var out = flag.String("out", "", "folder `DIR` to write the pattern to")

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}

func main() {
	flag.Parse()
	// An ellipse in section: 420 mm across, 150 mm high, on a rim that is hemmed.
	hood := canvas.Dome{
		Name: "Binnacle hood", Diameter: 420 * mm, Rise: 150 * mm,
		Seam: 10 * mm, BaseEdge: canvas.Finish{Kind: canvas.SingleHem, Width: 25 * mm},
	}
	sewing := canvas.Sewing{Stitch: canvas.Lockstitch, Length: 3.5 * mm, Waste: 0.15}
	for _, hood.Gores = range []int{6, 8, 12} {
		off, err := hood.Deviation()
		check(err)
		cover, err := hood.Cover()
		check(err)
		need, err := cover.Quantities(canvas.Cloth{Thickness: 0.5 * mm}, sewing)
		check(err)
		fmt.Printf("%2d gores: sides %4.1f mm inside the round, seams %3.1f mm outside it, %4.1f m of thread\n",
			hood.Gores, off.Flat.Millimetres(), off.Ridge.Millimetres(), need.Thread.Metres())
	}
	hood.Gores = 8
	cover, err := hood.Cover()
	check(err)
	gore := cover.Panels[0]
	base, err := gore.Length("base")
	check(err)
	pairs, err := cover.SeamLengths()
	check(err)
	fmt.Printf("8 bases of %.1f mm go round the rim; each seam is %.1f mm on both sides\n", base.Millimetres(), pairs[0][0].Millimetres())

	pieces, err := cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	check(err)
	fmt.Println("the gore's cut line, square to a baseline along its hem:")
	corners, err := pieces[0].MarkingOut(2 * mm)
	check(err)
	for _, p := range corners {
		fmt.Printf("  %4.0f along, %4.0f up\n", p.X.Millimetres(), p.Y.Millimetres())
	}

	if *out == "" {
		return
	}
	sheet, err := pattern.FullSize(cover.Title, pieces, 1500*mm)
	check(err)
	file, err := os.Create(filepath.Join(*out, "dome.svg"))
	check(err)
	check(sheet.WriteSVG(file, "dome"))
	check(file.Close())
	fmt.Println("written:", file.Name())
}
