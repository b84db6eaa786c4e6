// Will my foredeck awning hold this breeze, and when do I have to take it down?
//
//	go run ./examples/23-awning
//	go run ./examples/23-awning -out .   also writes the pattern, into this folder
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
	tie := canvas.Tie{Strap: 8 * units.Kilonewton, Lashing: 4 * units.Kilonewton, Parts: 4, Fixing: 2 * units.Kilonewton}
	awning := canvas.Awning{
		Name: "foredeck awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: 40 * mm},
		Canopy: canvas.Canopy{Pitch: 15 * units.Degree, Blockage: 0.3}, Above: 2.2 * units.Metre, Heel: 5 * units.Degree, Flutter: 1.5,
		Weight: 6 * units.Pascal, Sag: 45 * mm, Stiffness: 8 * units.KilonewtonPerMetre,
		Strength: 25 * units.KilonewtonPerMetre, Layers: 3, Safety: 4,
		Openings: []canvas.AwningOpening{{
			Name: "inner stay", At: canvas.Point{Y: 1.5 * units.Metre}, Diameter: 8 * mm, Lean: 65 * units.Degree,
			Direction: 90 * units.Degree, Clearance: 25 * mm, Overlap: 80 * mm, Edge: "fore",
		}},
	}
	corners := []canvas.Point{{X: -1.2}, {X: 1.2}, {X: 0.6, Y: 2.2}, {X: -0.6, Y: 2.2}}
	for i, name := range []string{"aft", "starboard", "fore", "port"} {
		awning.Edges = append(awning.Edges, canvas.AwningEdge{Name: name, From: corners[i], Hollow: 0.08, Tape: 12 * units.Kilonewton, Tie: tie})
	}
	wind := canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre}
	p, err := awning.Plan(wind)
	check(err)
	fmt.Printf("%.2f m² of cloth; the hollows cost %.0f %%\n", p.Area.SquareMetres(), 100*p.Lost)
	fmt.Printf("%.0f kn forecast: gusts of %.0f kn at the awning\n", wind.Mean.Knots(), p.Gust.Gust.Knots())
	for _, k := range p.Cases {
		fmt.Printf("%-28s cloth %3.0f N/m, sag %3.0f mm, aft corner %4.0f N: %s at %.0f %%\n",
			k.Name, k.Pull.NewtonsPerMetre(), k.Sag.Millimetres(), k.Corners[0].Pull.Newtons(), k.Weakest, 100*k.Used)
	}
	drains := map[bool]string{true: "runs off", false: "stands in it"}[p.Rain.Drains]
	fmt.Printf("wet it sags %.0f mm: rain %s at its pitch of 15°, and needs %.0f° at least\n", p.Rain.Sag.Millimetres(), drains, p.Rain.Least.Degrees())
	fmt.Printf("without tape the edges need a band of %.0f mm, %d layers\n", p.Band.Millimetres(), awning.Layers)
	fmt.Printf("strike it at %.0f kn: then the %s carries all it may\n", math.Floor(p.Strike.Wind.Knots()), p.Strike.Part)

	cover := p.Cover()
	pieces, err := cover.Pieces(canvas.Cloth{Name: "acrylic, 300 g/m²", Thickness: 0.5 * mm})
	check(err)
	sheet, err := pattern.FullSize(cover.Title, pieces, 3*units.Metre)
	check(err)
	fmt.Printf("%d pieces with all patches; the awning itself takes %.2f m² of cloth\n", len(pieces), pieces[0].Area().SquareMetres())
	if *out == "" {
		return
	}
	file, err := os.Create(filepath.Join(*out, "awning.pdf"))
	check(err)
	check(sheet.WritePDF(file))
	check(file.Close())
	fmt.Println("written:", file.Name())
}
