package canvas_test

import (
	"context"
	"fmt"
	"log"
	"math"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// Four triangular side panels, two of each hand, on a roll sold by the tenth of a metre.
func ExampleLay_Plan() {
	side := canvas.Cutting{
		Name: "side", Cut: []canvas.Point{{}, {X: 0.9}, {X: 0.9, Y: 0.3}, {Y: 0.7}},
		Quantity: 2, QuantityMirrored: 2,
	}
	lay := canvas.Lay{
		Rolls:  []canvas.Roll{{Name: "acrylic", Width: 1530 * units.Millimetre, Selvedge: 10 * units.Millimetre, Price: 24, Increment: 100 * units.Millimetre}},
		Pieces: []canvas.Cutting{side},
		Gap:    3 * units.Millimetre,
	}
	plan, err := lay.Plan(context.Background(), canvas.LayOptions{Work: 40_000})
	if err != nil {
		log.Fatal(err)
	}
	roll := plan.Rolls[0]
	fmt.Printf("%d pieces, buy %.1f m for %.2f\n", len(roll.Laid), roll.Bought.Metres(), float64(plan.Cost))
	fmt.Println("certificate:", plan.Certificate.Check())
	// Output:
	// 4 pieces, buy 1.5 m for 36.00
	// certificate: <nil>
}

func ExampleLayCertificate_Check() {
	square := []int64{0, 0, 100, 0, 100, 100, 0, 100}
	sheet := canvas.CertifiedSheet{Roll: "acrylic", Width: 200, Length: 100, Pieces: []canvas.CertifiedPiece{
		{Name: "a", Outline: square}, {Name: "b", Outline: square, Y: 100},
	}}
	fmt.Println(canvas.LayCertificate{Sheets: []canvas.CertifiedSheet{sheet}}.Check())
	sheet.Pieces[1].Y = 99
	fmt.Println(canvas.LayCertificate{Sheets: []canvas.CertifiedSheet{sheet}}.Check() != nil)
	// Output:
	// <nil>
	// true
}

// Somebody turns a piece of a finished plan by hand.
func ExampleLayPlan_Check() {
	flap := canvas.Cutting{Name: "flap", Cut: []canvas.Point{{}, {X: 0.6}, {X: 0.6, Y: 0.2}, {Y: 0.4}}, Quantity: 1, QuantityMirrored: 1}
	lay := canvas.Lay{Rolls: []canvas.Roll{{Name: "acrylic", Width: 1.53, Price: 24}}, Pieces: []canvas.Cutting{flap}}
	plan, err := lay.Plan(context.Background(), canvas.LayOptions{Work: 1000})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(plan.Check(lay))
	plan.Rolls[0].Laid[1].Turn = 90 * units.Degree
	fmt.Println(plan.Check(lay))
	// Output:
	// <nil>
	// canvas: the plan does not hold: Rolls[0].Laid[1] (flap).Turn is 90°, want a direction of the grain that the piece may have
}

func ExamplePiece_Cutting() {
	piece := canvas.Piece{Name: "flap", Quantity: 1, Mirrored: 1, Cut: []canvas.Point{{}, {X: 1}, {Y: 1}}, Lie: canvas.OneWay}
	c := piece.Cutting()
	fmt.Println(c.Name, c.Quantity, c.QuantityMirrored, c.Lie)
	// Output: flap 1 1 one way
}

// A sheet of 2 m by 2 m is too wide for a roll of 1.53 m.
func ExampleLay_PlanCovers() {
	sheet := canvas.Cover{Panels: []canvas.Panel{{Name: "sheet", Edges: []canvas.Edge{
		{}, {From: canvas.Point{X: 2}}, {From: canvas.Point{X: 2, Y: 2}}, {From: canvas.Point{Y: 2}},
	}}}}
	lay := canvas.Lay{Rolls: []canvas.Roll{{Width: 1.53, Price: 24, Increment: 0.1}}}
	cloth := canvas.Cloth{Thickness: 0.5 * units.Millimetre}
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * units.Millimetre}
	got, err := lay.PlanCovers(context.Background(), []canvas.Cover{sheet}, cloth, seam, canvas.LayOptions{Work: 5000})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%d split, buy %.1f m\n", len(got.Splits), got.Plan.Rolls[0].Bought.Metres())
	// Output: 1 split, buy 4.0 m
}

// Striped cloth, a stripe every 120 mm: the middle of the panel lies on the middle of one,
// and the stripes go on across the seam.
func ExampleLay_PlanCovers_stripes() {
	const stripes = 120 * units.Millimetre
	sheet := canvas.Panel{Name: "sheet", Match: &canvas.Match{At: canvas.Point{X: 1, Y: 1}, Across: stripes / 2}, Edges: []canvas.Edge{
		{}, {From: canvas.Point{X: 2}}, {From: canvas.Point{X: 2, Y: 2}}, {From: canvas.Point{Y: 2}},
	}}
	lay := canvas.Lay{Rolls: []canvas.Roll{{Width: 1.53, Price: 24, Increment: 0.1, Across: stripes}}}
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * units.Millimetre}
	got, err := lay.PlanCovers(context.Background(), []canvas.Cover{{Panels: []canvas.Panel{sheet}}}, canvas.Cloth{}, seam, canvas.LayOptions{Work: 5000})
	if err != nil {
		log.Fatal(err)
	}
	for _, q := range got.Plan.Rolls[0].Laid {
		// The seam lies at one place in the repeat on both sides.
		y := (q.At.Y + got.Splits[0].From.Y).Millimetres()
		fmt.Printf("%s: the seam lies %.0f mm into a repeat\n", q.Name, math.Mod(y, stripes.Millimetres()))
	}
	fmt.Println("checked:", got.Plan.Check(got.Lay))
	// Output:
	// sheet 2: the seam lies 105 mm into a repeat
	// sheet 1: the seam lies 105 mm into a repeat
	// checked: <nil>
}
