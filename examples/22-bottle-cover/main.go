// How do I cover the gas bottle on deck without holding leaking gas in?
//
//	go run ./examples/22-bottle-cover
//	go run ./examples/22-bottle-cover -out .   also writes the pattern, into this folder
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
	// The tape, 1 mm thick, reads 945 mm round the bottle.
	diameter, err := canvas.Diameter(945*mm, 1*mm)
	check(err)
	fmt.Printf("945 mm round it: a diameter of %.1f mm\n", diameter.Millimetres())
	bottle := canvas.BottleCover{
		Name: "Gas bottle", Diameter: diameter, Height: 390 * mm, Rise: 150 * mm, Gores: 8, Ease: 12 * mm,
		Valve: 120 * mm, Hose: 30 * mm, HoseHeight: 330 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}
	// Down to the deck it would hold gas in, and with a base and no vent as well.
	_, err = bottle.Cover()
	fmt.Println("down to the deck, refused:", err)
	closed := bottle
	closed.Closed = true
	_, err = closed.Cover()
	fmt.Println("with a base, refused:", err)

	bottle.Clearance = 40 * mm
	cover, err := bottle.Cover()
	check(err)
	fmt.Println("open below, 40 mm above the foot:", cover.Remarks[0])
	pairs, err := cover.SeamLengths()
	check(err)
	for i, p := range pairs {
		fmt.Printf("seam %-8s finished: %.1f mm on one side, %.1f mm on the other\n", cover.Seams[i].Name, p[0].Millimetres(), p[1].Millimetres())
	}
	pieces, err := cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	check(err)
	for _, p := range pieces {
		fmt.Printf("cut %d of %s\n", p.Quantity, p.Name)
	}
	fmt.Println("Printed on every piece:", pieces[0].Notes[0])

	if *out == "" {
		return
	}
	sheet, err := pattern.FullSize(cover.Title, pieces, 1500*mm)
	check(err)
	file, err := os.Create(filepath.Join(*out, "bottle.svg"))
	check(err)
	check(sheet.WriteSVG(file, "bottle"))
	check(file.Close())
	fmt.Println("written:", file.Name())
}
