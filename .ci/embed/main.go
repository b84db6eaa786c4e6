// An application that uses the library from a module of its own. The continuous
// integration copies it out of the clone, adds an import of every library
// package, and builds and runs it. It calls each package, and says so by name: the
// continuous integration looks for them all.
package main

import (
	"bytes"
	"fmt"
	"io"
	"log"
	"math"

	"example.com/forepeak/anchor"
	anchordraw "example.com/forepeak/anchor/draw"
	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/rode"
	rodedraw "example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	wiringdraw "example.com/forepeak/wiring/draw"
)

func main() {
	lengths()
	lies()
	pulls()
	circuits()
	covers()
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

// near fails unless got is want, good to a part in 1e9.
func near(what string, got, want float64) {
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
		log.Fatalf("%s: %v, want %v", what, got, want)
	}
}

// drawn fails unless a file comes out that begins as it should.
func drawn(write func(io.Writer) error, begin string) {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		log.Fatal(err)
	}
	if !bytes.HasPrefix(b.Bytes(), []byte(begin)) || b.Len() < 1000 {
		log.Fatalf("%d bytes, beginning with %.20q", b.Len(), b.Bytes())
	}
}

func lengths() {
	near("3 fathoms", must(units.ParseLength("3 fathoms")).Metres(), 5.4864)
	if _, err := units.ParseLength("3"); err == nil {
		log.Fatal("a length without a unit was accepted")
	}
	fmt.Println("units")
}

func lies() {
	chain := must(rode.ChainByName("DIN 766 8 mm G30"))
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(40 * units.Metre)}}
	site := rode.Site{Depth: 6, Roller: 1.2}
	s := must(rode.Solve(r, site, 1*units.Kilonewton))
	if s.OnBed <= 0 || s.OnBed >= s.Out {
		log.Fatalf("%v of %v of chain lie on the bed", s.OnBed, s.Out)
	}
	fmt.Println("rode")
	view := rodedraw.View{Label: "1 kN", State: s, Rode: r, Site: site}
	drawn(rodedraw.Profile{Title: "A rode", Views: []rodedraw.View{view}}.WriteSVG, "<svg ")
	fmt.Println("rode/draw")
}

func pulls() {
	wind, strong := anchor.Wind{Speed: 10}, anchor.Wind{Speed: 20}
	near("pressure of a wind twice as strong", float64(must(strong.Pressure())), 4*float64(must(wind.Pressure())))
	boat := must(anchor.Estimate(anchor.Dimensions{Length: 10.4, Beam: 3.3, Freeboard: 1.1, Rig: anchor.Cutter}))
	once, twice := must(boat.Load(wind, 0)), must(boat.Load(strong, 0))
	near("its force", float64(twice.Force()), 4*float64(once.Force()))
	fmt.Println("anchor")
	drawn(anchordraw.WindPolar{Title: "A boat in 10 m/s", Boat: boat, Winds: []anchor.Wind{wind}}.WriteSVG, "<svg ")
	fmt.Println("anchor/draw")
}

func circuits() {
	wire := wiring.Conductor{Size: "2.5 mm²", Area: 2.5 * units.SquareMillimetre, Resistance: 0.008}
	c := wiring.Circuit{Elements: []wiring.Element{
		{Name: "bank", From: "bank -", To: "bank +", Battery: &wiring.Battery{
			Chemistry: wiring.AGM, Cells: 6, Capacity: 100 * units.AmpereHour, Resistance: 5 * units.Milliohm, Charge: 0.8,
		}},
		{Name: "cable out", From: "bank +", To: "lamp +", Cable: &wiring.Cable{Conductor: wire, Length: 6}},
		{Name: "lamp", From: "lamp +", To: "lamp -", Load: &wiring.Load{Resistance: 4}},
		{Name: "cable back", From: "lamp -", To: "bank -", Cable: &wiring.Cable{Conductor: wire, Length: 6}},
	}}
	s := must(wiring.Solve(c, wiring.Conditions{}))
	near("current", float64(must(s.Branch("lamp")).Current), float64(must(s.DropTo("lamp")).AtLoad)/4)
	fmt.Println("wiring")
	drawn(wiringdraw.Diagram{Title: "A lamp", Circuit: c, Solution: &s}.WriteSVG, "<svg ")
	fmt.Println("wiring/draw")
}

func covers() {
	const mm = units.Millimetre
	cover := must(canvas.Cylinder{Name: "Bucket", Diameter: 280 * mm, Height: 150 * mm, Seam: 12 * mm, Hem: 20 * mm}.Cover())
	for i, pair := range must(cover.SeamLengths()) {
		near("seam "+cover.Seams[i].Name, float64(pair[0]), float64(pair[1]))
	}
	pieces := must(cover.Pieces(canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm}))
	fmt.Println("canvas")
	sheet := must(pattern.FullSize(cover.Title, pieces, 1200*mm))
	drawn(func(w io.Writer) error { return sheet.WriteTiled(w, pattern.A4) }, "%PDF-")
	fmt.Println("canvas/pattern")
}
