package canvas_test

import (
	"errors"
	"fmt"
	"log"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// A windscreen's four corners, five sides and diagonals taped, and one of them
// read wrongly.
func ExampleSurvey_Adjust() {
	const mm = units.Millimetre
	s := canvas.Survey{Corners: []string{"A", "B", "C", "D", "E"}, Sigma: 1 * mm}
	for _, t := range []struct {
		from, to string
		mm       float64
	}{
		{"A", "B", 2400},
		{"B", "C", 1582},
		{"C", "D", 2109},
		{"D", "E", 2062},
		{"E", "A", 1392},
		{"A", "C", 3265},
		{"A", "D", 2823},
		{"B", "D", 3007},
		{"B", "E", 3179},
		{"C", "E", 3406},
	} {
		s.Tapes = append(s.Tapes, canvas.Tape{From: t.from, To: t.to, Distance: units.Length(t.mm / 1000)})
	}
	a, err := s.Adjust()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("fits:", a.Fits)
	fmt.Println(a.Advice)
	// Output:
	// fits: false
	// read B-D again: without it the rest agrees, and it seems 99 mm too long
}

func ExampleAdjustment_Corner() {
	s := canvas.Survey{Corners: []string{"A", "B", "C"}, Sigma: units.Millimetre, Tapes: []canvas.Tape{
		{From: "A", To: "B", Distance: 4}, {From: "B", To: "C", Distance: 3}, {From: "C", To: "A", Distance: 5},
	}}
	a, err := s.Adjust()
	if err != nil {
		log.Fatal(err)
	}
	c, err := a.Corner("C")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("C: %.3f m, %.3f m\n", c.At.X.Metres(), c.At.Y.Metres())
	fmt.Println(len(a.Outline()), "corners;", a.Advice)
	// Output:
	// C: 4.000 m, 3.000 m
	// 3 corners; nothing checks these readings: one misread tape would go unseen
}

// The corners of a frame as the panel that is to fill it.
func ExampleAdjustment_Outline() {
	s := canvas.Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: units.Millimetre, Tapes: []canvas.Tape{
		{From: "A", To: "B", Distance: 4},
		{From: "B", To: "C", Distance: 3},
		{From: "C", To: "D", Distance: 4},
		{From: "D", To: "A", Distance: 3},
		{From: "A", To: "C", Distance: 5},
		{From: "B", To: "D", Distance: 5},
	}}
	a, err := s.Adjust()
	if err != nil {
		log.Fatal(err)
	}
	p := canvas.Panel{Name: "window"}
	for _, corner := range a.Outline() {
		p.Edges = append(p.Edges, canvas.Edge{From: corner})
	}
	area, err := p.Area()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m2\n", area.SquareMetres())
	// Output: 12.000 m2
}

func ExampleDiameter() {
	// A tape 1 mm thick reads 942 mm round a gas bottle.
	d, err := canvas.Diameter(942*units.Millimetre, 1*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm\n", d.Millimetres())
	// Output: 298.8 mm
}

func ExampleArcRadius() {
	// A coaming's bend rises 60 mm above a straight edge of 1.2 m.
	r, err := canvas.ArcRadius(1200*units.Millimetre, 60*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f m\n", r.Metres())
	// Output: 3.03 m
}

// awning is a cloth of 2 m by 1.5 m with one hollow edge.
func awning() canvas.Panel {
	hem := canvas.Finish{Kind: canvas.DoubleHem, Width: 30 * units.Millimetre, Turn: 10 * units.Millimetre}
	return canvas.Panel{Name: "awning", Edges: []canvas.Edge{
		{Name: "aft", From: canvas.Point{}, Finish: hem, Course: canvas.Course{Curve: canvas.Arc, Depth: -0.1}},
		{Name: "starboard", From: canvas.Point{X: 2}, Finish: hem},
		{Name: "fore", From: canvas.Point{X: 2, Y: 1.5}, Finish: hem},
		{Name: "port", From: canvas.Point{Y: 1.5}, Finish: hem},
	}}
}

func ExamplePanel_Length() {
	l, err := awning().Length("aft")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm\n", l.Millimetres())
	// Output: 2013.3 mm
}

func ExamplePanel_Area() {
	a, err := awning().Area()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m2\n", a.SquareMetres())
	// Output: 2.866 m2
}

func ExamplePanel_Fasteners() {
	at, err := awning().Fasteners([]string{"starboard", "fore", "port"}, 15*units.Millimetre, 500*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range at {
		fmt.Printf("%.0f,%.0f ", p.X.Millimetres(), p.Y.Millimetres())
	}
	// Output: 1985,15 1985,505 1985,995 1985,1485 1492,1485 1000,1485 508,1485 15,1485 15,995 15,505 15,15
}

func ExampleFinish_Allowance() {
	f := canvas.Finish{Kind: canvas.Sleeve, Rope: 8 * units.Millimetre, Width: 20 * units.Millimetre}
	a, err := f.Allowance(0.5 * units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm\n", a.Millimetres())
	// Output: 46.7 mm
}

func ExampleFoldStrain() {
	for _, r := range []units.Length{5, 0.5, -0.5} {
		s, err := canvas.FoldStrain(30*units.Millimetre, r)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("a hem of 30 mm on a radius of %4.1f m: %+.1f %%\n", r.Metres(), 100*s)
	}
	// Output:
	// a hem of 30 mm on a radius of  5.0 m: -1.2 %
	// a hem of 30 mm on a radius of  0.5 m: -11.3 %
	// a hem of 30 mm on a radius of -0.5 m: +12.8 %
}

func ExampleClipSpacing() {
	s, err := canvas.ClipSpacing(500*units.Millimetre, 0.5*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("every %.0f mm\n", s.Millimetres())
	// Output: every 45 mm
}

func ExampleCloth_Cut() {
	// Cloth that shrinks by 2 % along the warp is cut longer.
	p, err := canvas.Cloth{Warp: -0.02}.Cut(canvas.Point{X: 1, Y: 1}, 0)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm, %.1f mm\n", p.X.Millimetres(), p.Y.Millimetres())
	// Output: 1020.4 mm, 1000.0 mm
}

func ExampleCover_Check() {
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 10 * units.Millimetre}
	strip := func(name string, length units.Length) canvas.Panel {
		return canvas.Panel{Name: name, Edges: []canvas.Edge{
			{Name: "lower", Finish: seam},
			{From: canvas.Point{X: length}},
			{Name: "upper", From: canvas.Point{X: length, Y: 0.2}, Finish: seam},
			{From: canvas.Point{Y: 0.2}},
		}}
	}
	v := canvas.Cover{Panels: []canvas.Panel{strip("a", 1), strip("b", 1.012)}, Seams: []canvas.Seam{{
		Name: "long", A: canvas.Side{Panel: "a", Edges: []string{"upper"}}, B: canvas.Side{Panel: "b", Edges: []string{"lower"}, Backward: true},
	}}}
	err := v.Check()
	fmt.Println(errors.Is(err, canvas.ErrSeam))
	fmt.Println(err)
	v.Seams[0].Fullness = 0.012 // eased in
	fmt.Println(v.Check())
	// Output:
	// true
	// canvas: the sides of the seam differ: Seams[0] (long) is 1012.0 mm on b, want 1000.0 mm, for the 1000.0 mm on a
	// <nil>
}

// locker is the cover of a deck locker with a slot for its latch.
func locker() canvas.RoundedBox {
	const mm = units.Millimetre
	return canvas.RoundedBox{
		Name: "Locker cover", Length: 620 * mm, Width: 380 * mm, Height: 330 * mm, Radius: 60 * mm, Ease: 8 * mm,
		Base: canvas.DrawCord, Seam: 15 * mm, Hem: 25 * mm,
		Sides: []canvas.Hole{{Name: "latch", At: canvas.Point{X: 250 * mm, Y: 220 * mm}, Length: 100 * mm, Width: 40 * mm, Margin: 30 * mm}},
	}
}

func ExampleRoundedBox_Cover() {
	v, err := locker().Cover()
	if err != nil {
		log.Fatal(err)
	}
	pairs, err := v.SeamLengths()
	if err != nil {
		log.Fatal(err)
	}
	for i, p := range pairs {
		fmt.Printf("%s: %.1f mm to %.1f mm\n", v.Seams[i].Name, p[0].Millimetres(), p[1].Millimetres())
	}
	fmt.Println(v.Remarks[0])
	// Output:
	// top: 1922.1 mm to 1922.1 mm
	// back: 330.0 mm to 330.0 mm
	// cord: 1922 mm round, and what the knot needs; its ends come out through two eyelets in the hem, one on either side of the back seam
}

// Both sides of a seam, as they are when finished.
func ExampleCover_SeamLengths() {
	v, err := canvas.Dome{Name: "lamp cover", Diameter: 0.3, Rise: 0.15, Gores: 8, Seam: 10 * units.Millimetre}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	pairs, err := v.SeamLengths()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s: %.2f mm and %.2f mm\n", v.Seams[0].Name, pairs[0][0].Millimetres(), pairs[0][1].Millimetres())
	// Output: gores: 238.71 mm and 238.71 mm
}

// Cloth that gives 2 % along the warp and nothing across it: the wall of a bucket's cover is cut
// longer than the round top that it is sewn to, and eased in.
func ExampleCover_SeamLengthsCut() {
	v, err := canvas.Cylinder{
		Name: "bucket", Diameter: 0.3, Height: 0.25, Seam: 10 * units.Millimetre, Hem: 20 * units.Millimetre,
	}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	finished, err := v.SeamLengths()
	if err != nil {
		log.Fatal(err)
	}
	cut, err := v.SeamLengthsCut(canvas.Cloth{Warp: -0.02})
	if err != nil {
		log.Fatal(err)
	}
	for i, s := range v.Seams {
		fmt.Printf("%s: %.1f mm, cut %.1f mm on the %s and %.1f mm on the %s\n", s.Name, finished[i][0].Millimetres(),
			cut[i][0].Millimetres(), s.A.Panel, cut[i][1].Millimetres(), s.B.Panel)
	}
	// Output:
	// upright: 250.0 mm, cut 250.0 mm on the wall and 250.0 mm on the wall
	// top: 942.5 mm, cut 952.1 mm on the top and 961.7 mm on the wall
}

// A square metre with a hem all round, its corners mitred.
func ExamplePiece_Area() {
	hem := canvas.Finish{Kind: canvas.SingleHem, Width: 25 * units.Millimetre}
	p := canvas.Panel{Name: "square", Edges: []canvas.Edge{
		{From: canvas.Point{}, Finish: hem},
		{From: canvas.Point{X: 1}, Finish: hem},
		{From: canvas.Point{X: 1, Y: 1}, Finish: hem},
		{From: canvas.Point{Y: 1}, Finish: hem},
	}}
	pieces, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.4f m2\n", pieces[0].Area().SquareMetres())
	// Output: 1.0975 m2
}

func ExampleCover_Pieces() {
	v, err := locker().Cover()
	if err != nil {
		log.Fatal(err)
	}
	pieces, err := v.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * units.Millimetre, Warp: -0.01})
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range pieces {
		fmt.Printf("%s: cut %d, %.3f m2, %d marks\n", p.Name, p.Quantity, p.Area().SquareMetres(), len(p.Marks))
	}
	// Output:
	// top: cut 1, 0.272 m2, 17 marks
	// wrap: cut 1, 0.754 m2, 19 marks
	// wrap, patch of latch: cut 1, 0.014 m2, 0 marks
}

func ExampleCover_Quantities() {
	v, err := locker().Cover()
	if err != nil {
		log.Fatal(err)
	}
	q, err := v.Quantities(canvas.Cloth{Thickness: 0.5 * units.Millimetre}, canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * units.Millimetre, Waste: 0.15})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("cloth %.2f m2, thread %.1f m\n", q.Cloth.SquareMetres(), q.Thread.Metres())
	// Output: cloth 1.03 m2, thread 15.0 m
}

// What the locker's cover costs besides its cloth, from a chandler's list: thread
// is sold by the reel, eyelets in bags.
func ExamplePriceList_Bill() {
	v, err := locker().Cover()
	if err != nil {
		log.Fatal(err)
	}
	q, err := v.Quantities(canvas.Cloth{Thickness: 0.5 * units.Millimetre}, canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * units.Millimetre, Waste: 0.15})
	if err != nil {
		log.Fatal(err)
	}
	list := canvas.PriceList{
		Thread: canvas.Ware{Lot: 500 * units.Metre, Low: 11},
		Pieces: map[string]canvas.Ware{"eyelet": {Pack: 20, Low: 6.50, High: 9}},
	}
	bill, err := list.Bill(q, map[string]int{"eyelet": 8, "cord lock": 1})
	if err != nil {
		log.Fatal(err)
	}
	for _, l := range bill.Lines {
		fmt.Printf("%d lots of %s, %.2f to %.2f\n", l.Lots, l.Name, l.Low, l.High)
	}
	fmt.Printf("together %.2f to %.2f, without the price of %v\n", bill.Low, bill.High, bill.Unpriced)
	// Output:
	// 1 lots of Thread, 11.00 to 11.00
	// 1 lots of eyelet, 6.50 to 9.00
	// together 17.50 to 20.00, without the price of [cord lock]
}

func ExampleCylinder_Cover() {
	v, err := canvas.Cylinder{
		Name: "Winch cover", Diameter: 180 * units.Millimetre, Height: 150 * units.Millimetre, Ease: 10 * units.Millimetre,
		Rise: 40 * units.Millimetre, Gores: 6, Seam: 8 * units.Millimetre, Hem: 20 * units.Millimetre,
	}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(v.Remarks[0])
	// Output: the flat gores leave a round dome by 8.8 mm inwards and 4.5 mm outwards
}

func ExampleBottleCover_Cover() {
	const mm = units.Millimetre
	b := canvas.BottleCover{
		Name: "Bottle cover", Diameter: 300 * mm, Height: 400 * mm, Rise: 150 * mm, Gores: 8, Ease: 10 * mm, Clearance: 40 * mm,
		Valve: 110 * mm, Hose: 30 * mm, HoseHeight: 300 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}
	v, err := b.Cover()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(len(v.Panels), "panels;", v.Remarks[0])
	b.Closed, b.Clearance = true, 0
	_, err = b.Cover()
	fmt.Println(err)
	// Output:
	// 3 panels; the flat gores leave a round dome by 8.1 mm inwards and 4.1 mm outwards
	// canvas: gas would be held in: Vent is 0 m, want 0.019 m or more at the lowest point of a closed base, or no base at all
}

func ExampleDome_Deviation() {
	for _, n := range []int{6, 8, 12} {
		d, err := canvas.Dome{Diameter: 1, Rise: 0.5, Gores: n, Seam: 10 * units.Millimetre}.Deviation()
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%d gores: %.1f mm in, %.1f mm out\n", n, d.Flat.Millimetres(), d.Ridge.Millimetres())
	}
	// Output:
	// 6 gores: 46.6 mm in, 23.6 mm out
	// 8 gores: 26.0 mm in, 13.1 mm out
	// 12 gores: 11.5 mm in, 5.8 mm out
}

func ExampleDome_Cover() {
	v, err := canvas.Dome{Name: "dome", Diameter: 2, Rise: 1, Gores: 8, Seam: 10 * units.Millimetre}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	l, err := v.Panels[0].Length("right")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%d gores, %.0f mm along the edge\n", v.Panels[0].Quantity, l.Millimetres())
	// Output: 8 gores, 1591 mm along the edge
}

func ExampleSphere_Cover() {
	v, err := canvas.Sphere{Name: "buoy", Diameter: 500 * units.Millimetre, Gores: 6, Seam: 8 * units.Millimetre}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	a, err := v.Panels[0].Area()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m2 in %d gores\n", a.Scale(6).SquareMetres(), v.Panels[0].Quantity)
	// Output: 0.785 m2 in 6 gores
}

func ExampleFrustum_Sector() {
	const mm = units.Millimetre
	s, err := canvas.Frustum{Bottom: 900 * mm, Top: 400 * mm, Height: 600 * mm}.Sector()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("slant %.0f mm, radii %.0f and %.0f mm, %.3f°\n", s.Slant.Millimetres(), s.Inner.Millimetres(), s.Outer.Millimetres(), s.Angle.Degrees())
	// Output: slant 650 mm, radii 520 and 1170 mm, 138.462°
}

func ExampleFrustum_Cover() {
	const mm = units.Millimetre
	v, err := canvas.Frustum{Name: "mast coat", Bottom: 320 * mm, Top: 160 * mm, Height: 120 * mm, Seam: 15 * mm}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	a, err := v.Panels[0].Area()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.4f m2\n", a.SquareMetres())
	// Output: 0.1087 m2
}

func ExampleObliqueCone_Cover() {
	const mm = units.Millimetre
	// A mast that rakes 30 mm in the height of its coat.
	v, err := canvas.ObliqueCone{Name: "mast coat", Bottom: 320 * mm, Top: 160 * mm, Height: 120 * mm, OffsetX: -30 * mm, Seam: 15 * mm}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	l, err := v.Panels[0].Length("left end")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("the seam is %.1f mm long\n", l.Millimetres())
	// Output: the seam is 130.0 mm long
}

func ExampleTransition_Cover() {
	const mm = units.Millimetre
	v, err := canvas.Transition{Name: "hatch scoop", Length: 500 * mm, Width: 400 * mm, Diameter: 250 * mm, Height: 300 * mm, Seam: 10 * mm}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	a, err := v.Panels[0].Area()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m2, %d edges\n", a.SquareMetres(), len(v.Panels[0].Edges))
	// Output: 0.419 m2, 11 edges
}

func ExampleThreadRatio() {
	r, err := canvas.ThreadRatio(canvas.Lockstitch, 1.2*units.Millimetre, 4*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f m of thread a metre of seam\n", r)
	// Output: 2.6 m of thread a metre of seam
}

func ExampleSewing_Thread() {
	s := canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * units.Millimetre, Waste: 0.15}
	l, err := s.Thread(12, 1.2*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f m\n", l.Metres())
	// Output: 36 m
}

func ExampleTicket() {
	n, err := canvas.Ticket(90 * units.Tex)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f\n", n)
	// Output: 33
}

func ExampleNeedle() {
	d, err := canvas.Needle(90 * units.Tex)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("number %.0f\n", d.Millimetres()*100)
	// Output: number 120
}

func ExampleBiasBinding_Cloth() {
	cloth, n, err := canvas.BiasBinding{Length: 12, Width: 50 * units.Millimetre, Roll: 1.5}.Cloth()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%d strips from %.2f m of cloth\n", n, cloth.Metres())
	// Output: 6 strips from 1.92 m of cloth
}

func ExampleSpacing() {
	n, pitch, err := canvas.Spacing(1840*units.Millimetre, 300*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%d parts of %.0f mm\n", n, pitch.Millimetres())
	// Output: 7 parts of 263 mm
}

func ExamplePiece_MarkingOut() {
	pieces, err := canvas.Cover{Panels: []canvas.Panel{awning()}}.Pieces(canvas.Cloth{Fold: 0.06})
	if err != nil {
		log.Fatal(err)
	}
	at, err := pieces[0].MarkingOut(5 * units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range at {
		fmt.Printf("%.0f,%.0f ", p.X.Millimetres(), p.Y.Millimetres())
	}
	// Output: 72,0 308,41 545,70 783,88 1034,94 1272,89 1523,71 1772,41 2008,0 1998,12 2040,34 2070,71 2080,59 2080,1514 2070,1504 2010,1564 2020,1574 60,1574 70,1564 10,1504 0,1514 0,59 10,71 40,34 82,12
}

// A cover for a bucket: measure, make panels, cut.
func Example() {
	const mm = units.Millimetre
	diameter, err := canvas.Diameter(882*mm, 1*mm) // by a tape laid round it
	if err != nil {
		log.Fatal(err)
	}
	cover, err := canvas.Cylinder{
		Name: "Bucket cover", Diameter: diameter, Height: 150 * mm, Ease: 6 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	pieces, err := cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm})
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range pieces {
		fmt.Printf("cut %d %s of %.3f m2\n", p.Quantity, p.Name, p.Area().SquareMetres())
	}
	// Output:
	// cut 1 wall of 0.177 m2
	// cut 1 top of 0.075 m2
}

// A sheet of 1.9 m by 2.4 m is wider than the cloth: it gets a felled seam in the middle, along the
// warp.
func ExampleCover_Split() {
	const mm = units.Millimetre
	hem := canvas.Finish{Kind: canvas.DoubleHem, Width: 25 * mm, Turn: 10 * mm}
	sheet := canvas.Panel{Name: "sheet", Grain: 90 * units.Degree}
	for i, p := range []canvas.Point{{}, {X: 1900 * mm}, {X: 1900 * mm, Y: 2400 * mm}, {Y: 2400 * mm}} {
		sheet.Edges = append(sheet.Edges, canvas.Edge{Name: []string{"foot", "right", "head", "left"}[i], From: p, Finish: hem})
	}
	v, err := canvas.Cover{Title: "sheet", Panels: []canvas.Panel{sheet}}.Split("sheet",
		canvas.Point{X: 950 * mm}, canvas.Point{X: 950 * mm, Y: 2400 * mm}, canvas.Finish{Kind: canvas.FelledOver, Width: 15 * mm, Turn: 8 * mm})
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range v.Panels {
		a, err := p.Area()
		fmt.Printf("%s: %.2f m² %v\n", p.Name, a.SquareMetres(), err)
	}
	sides, err := v.SeamLengths()
	fmt.Println(sides, err)
	// Output:
	// sheet 1: 2.28 m² <nil>
	// sheet 2: 2.28 m² <nil>
	// [[2.4 m 2.4 m]] <nil>
}
