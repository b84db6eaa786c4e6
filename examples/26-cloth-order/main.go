// How much cloth do I order for these covers, what does it cost, and could it be less?
//
//	go run ./examples/26-cloth-order
//	go run ./examples/26-cloth-order -out .   also draws where each piece is cut from, into this folder
package main

import (
	"context"
	"flag"
	"fmt"
	"log"
	"os"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

var out = flag.String("out", "", "folder `DIR` to write the drawing to")

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}

func main() {
	flag.Parse()
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}
	hatch, err := canvas.RoundedBox{Name: "hatch", Length: 640 * mm, Width: 520 * mm, Radius: 60 * mm, Height: 90 * mm, Ease: 4 * mm, Seam: seam.Width, Hem: 25 * mm}.Cover()
	check(err)
	// Weather cloths: one for each side, from cloth that has a right side.
	weather := canvas.Panel{Name: "weather cloth", Quantity: 1, Mirrored: 1}
	for i, p := range []canvas.Point{{}, {X: 1900 * mm}, {X: 1750 * mm, Y: 620 * mm}, {X: 100 * mm, Y: 480 * mm}} {
		weather.Edges = append(weather.Edges, canvas.Edge{Name: []string{"foot", "aft", "wire", "fore"}[i], From: p, Finish: canvas.Finish{Kind: canvas.SingleHem, Width: 25 * mm}})
	}
	covers := []canvas.Cover{hatch, {Title: "cockpit", Panels: []canvas.Panel{weather}}}
	stain := canvas.Flaw{Name: "stain", Outline: []canvas.Point{{X: 600 * mm, Y: 200 * mm}, {X: 720 * mm, Y: 200 * mm}, {X: 720 * mm, Y: 290 * mm}, {X: 640 * mm, Y: 290 * mm}}}
	lay := canvas.Lay{Gap: 4 * mm, Rolls: []canvas.Roll{
		{Name: "new roll", Width: 1500 * mm, Selvedge: 10 * mm, Price: 38, Increment: 100 * mm, Flaws: []canvas.Flaw{stain}},
		{Name: "last year's offcut", Width: 700 * mm, Length: 900 * mm, Value: 5},
	}}
	order, err := lay.PlanCovers(context.Background(), covers, canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm}, seam, canvas.LayOptions{Seed: 1, Work: 200_000})
	check(err)
	var sheets []*pattern.Sheet
	for _, u := range order.Plan.Rolls {
		fmt.Printf("%s: %d of the pieces on %.2f m, %.0f %% of it used, no way below %.2f m; %.2f\n",
			u.Name, len(u.Laid), u.Used.Metres(), 100*u.Utilisation, u.Bound.Metres(), float64(u.Cost))
		drawing := pattern.RollOf(order.Lay, u)
		for i, q := range u.Laid {
			fmt.Printf("  cut %d: %s, for the %s\n", i+1, drawing.Pieces[i].Name, covers[order.Sources[q.Piece].Cover].Title)
		}
		if r := u.Rest; r.Length > 200*mm && r.Width > 200*mm {
			fmt.Printf("  left to keep: %.0f by %.0f mm\n", r.Length.Millimetres(), r.Width.Millimetres())
		}
		sheet, err := drawing.Draw()
		check(err)
		sheets = append(sheets, sheet)
	}
	fmt.Printf("the order costs %.2f; nothing below %.2f is possible\n", float64(order.Plan.Cost), float64(order.Plan.Bound))
	check(order.Plan.Check(order.Lay))
	fmt.Println("checked against panels and rolls: all there, none overlaps, none on the stain")
	if *out == "" {
		return
	}
	sheet, err := pattern.Stack(sheets...)
	check(err)
	file, err := os.Create(*out + "/cloth-order.svg")
	check(err)
	check(sheet.WriteSVG(file, "roll"))
	check(file.Close())
}
