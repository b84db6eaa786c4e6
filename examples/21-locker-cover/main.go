// How do I cut a cover for the deck box, so that its seams meet?
//
//	go run ./examples/21-locker-cover
//	go run ./examples/21-locker-cover -out .   also writes the pattern, into this folder
package main

import (
	"flag"
	"fmt"
	"log"
	"math"
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
	box := canvas.RoundedBox{
		Name: "Deck box", Length: 620 * mm, Width: 380 * mm, Height: 330 * mm, Radius: 60 * mm,
		Ease: 8 * mm, Base: canvas.DrawCord, Seam: 15 * mm, Hem: 25 * mm,
		// A slot for the latch, in the middle of the front, with a patch round it.
		Sides: []canvas.Hole{{Name: "latch", At: canvas.Point{X: 250 * mm, Y: 220 * mm}, Length: 100 * mm, Width: 40 * mm, Margin: 30 * mm}},
	}
	cover, err := box.Cover()
	check(err)
	pairs, err := cover.SeamLengths()
	check(err)
	for i, p := range pairs {
		fmt.Printf("seam %-4s finished: %6.1f mm on one side, %6.1f mm on the other\n", cover.Seams[i].Name, p[0].Millimetres(), p[1].Millimetres())
	}
	fmt.Println(cover.Remarks[0])

	// The cloth shrinks by 1 % along the warp in its first summer.
	cloth := canvas.Cloth{Name: "acrylic, 300 g/m²", Thickness: 0.5 * mm, Warp: -0.01}
	pieces, err := cover.Pieces(cloth)
	check(err)
	for _, p := range pieces {
		fmt.Printf("cut %d of %-21s %.3f m²\n", p.Quantity, p.Name+",", p.Area().SquareMetres())
	}
	q, err := cover.Quantities(cloth, canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm, Waste: 0.15})
	check(err)
	needle, err := canvas.Needle(90 * units.Tex)
	check(err)
	fmt.Printf("%.0f m of thread of 90 tex; a needle of size %.0f\n", math.Ceil(q.Thread.Metres()), 100*needle.Millimetres())

	sheet, err := pattern.FullSize(cover.Title, pieces, 2*units.Metre)
	check(err)
	w, h := sheet.Size()
	fmt.Printf("side by side the pieces take %.2f m by %.2f m of paper, or many sheets of A4\n", w.Metres(), h.Metres())
	if *out == "" {
		return
	}
	file, err := os.Create(filepath.Join(*out, "locker-a4.pdf"))
	check(err)
	check(sheet.WriteTiled(file, pattern.A4))
	check(file.Close())
	fmt.Println("written:", file.Name())
}
