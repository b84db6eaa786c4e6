package pattern_test

import (
	"bytes"
	"fmt"
	"log"
	"regexp"

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

// bucket is the pieces of a cover for a bucket, at true scale.
func bucket() *pattern.Sheet {
	const mm = units.Millimetre
	cover, err := canvas.Cylinder{Name: "Bucket cover", Diameter: 280 * mm, Height: 150 * mm, Seam: 12 * mm, Hem: 20 * mm}.Cover()
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
	return sheet
}

// How large a sheet do the pieces take that have to be narrower than 600 mm?
func ExampleFullSize() {
	const mm = units.Millimetre
	square := canvas.Panel{Name: "cushion"}
	for _, p := range []canvas.Point{{}, {X: 400 * mm}, {X: 400 * mm, Y: 400 * mm}, {Y: 400 * mm}} {
		square.Edges = append(square.Edges, canvas.Edge{Name: fmt.Sprint("edge ", len(square.Edges)+1), From: p})
	}
	pieces, err := canvas.Cover{Panels: []canvas.Panel{square}}.Pieces(canvas.Cloth{})
	if err != nil {
		log.Fatal(err)
	}
	for _, width := range []units.Length{600 * mm, 1200 * mm} {
		sheet, err := pattern.FullSize("Two cushions", append(pieces, pieces...), width)
		if err != nil {
			log.Fatal(err)
		}
		w, h := sheet.Size()
		fmt.Printf("%.0f mm by %.0f mm\n", w.Millimetres(), h.Millimetres())
	}
	// Output:
	// 420 mm by 944 mm
	// 1024 mm by 420 mm
}

// Does the sheet fit a plotter's paper of 610 mm?
func ExampleSheet_Size() {
	w, h := bucket().Size()
	fmt.Printf("%.0f mm by %.0f mm, fits %t\n", w.Millimetres(), h.Millimetres(), min(w, h) <= 610*units.Millimetre)
	// Output:
	// 924 mm by 528 mm, fits true
}

// One page of the sheet's own size. PDF counts in points of 1/72 in: 2618 of them are 924 mm.
func ExampleSheet_WritePDF() {
	var file bytes.Buffer
	if err := bucket().WritePDF(&file); err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s\n", regexp.MustCompile(`/MediaBox \[.*?\]`).Find(file.Bytes()))
	// Output:
	// /MediaBox [0 0 2618.21 1496.69]
}

// One millimetre of the file is one millimetre of cloth.
func ExampleSheet_WriteSVG() {
	var file bytes.Buffer
	if err := bucket().WriteSVG(&file, "bucket"); err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s\n", regexp.MustCompile(`width="[\d.]+mm" height="[\d.]+mm"`).Find(file.Bytes()))
	// Output:
	// width="923.65mm" height="528mm"
}

// On how many sheets of A4 and A3 is it printed, the first with the map among them?
func ExampleSheet_WriteTiled() {
	for _, paper := range []pattern.Paper{pattern.A4, pattern.A3} {
		var file bytes.Buffer
		if err := bucket().WriteTiled(&file, paper); err != nil {
			log.Fatal(err)
		}
		fmt.Println(bytes.Count(file.Bytes(), []byte("/Type /Page\n")), "sheets")
	}
	// Output:
	// 10 sheets
	// 6 sheets
}

// Two drawings below one another, under the title of the first.
func ExampleStack() {
	const mm = units.Millimetre
	roll, err := pattern.BiasStrips(canvas.BiasBinding{Length: 5 * units.Metre, Width: 60 * mm, Roll: 1400 * mm})
	if err != nil {
		log.Fatal(err)
	}
	strips, err := roll.Draw()
	if err != nil {
		log.Fatal(err)
	}
	both, err := pattern.Stack(strips, strips)
	if err != nil {
		log.Fatal(err)
	}
	_, one := strips.Size()
	_, two := both.Size()
	fmt.Printf("%.0f mm and %.0f mm high\n", one.Millimetres(), two.Millimetres())
	// Output:
	// 261 mm and 522 mm high
}
