package pattern_test

import (
	"bytes"
	"fmt"
	"log"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

// A cover for a bucket, as one drawing and on sheets of A4.
func Example() {
	const mm = units.Millimetre
	cover, err := canvas.Cylinder{
		Name: "Bucket cover", Diameter: 280 * mm, Height: 150 * mm, Ease: 6 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	pieces, err := cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := pattern.FullSize(cover.Title, pieces, 1200*mm)
	if err != nil {
		log.Fatal(err)
	}
	var svg, tiles bytes.Buffer
	if err := sheet.WriteSVG(&svg, "bucket"); err != nil {
		log.Fatal(err)
	}
	if err := sheet.WriteTiled(&tiles, pattern.A4); err != nil {
		log.Fatal(err)
	}
	w, h := sheet.Size()
	fmt.Printf("%d pieces on %.0f mm by %.0f mm\n", len(pieces), w.Millimetres(), h.Millimetres())
	fmt.Println("SVG and PDF:", svg.Len() > 1000, tiles.Len() > 1000)
	// Output:
	// 2 pieces on 942 mm by 534 mm
	// SVG and PDF: true true
}
