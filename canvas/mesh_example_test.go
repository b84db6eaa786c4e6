package canvas_test

import (
	"fmt"
	"log"
	"math"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// crown is a rounded hatch, 600 by 500 mm and 60 mm higher in the middle, probed
// every 50 mm.
func crown() canvas.Mesh {
	var rows [][]canvas.Space
	for y := -250.0; y <= 250; y += 50 {
		var row []canvas.Space
		for x := -300.0; x <= 300; x += 50 {
			row = append(row, canvas.Space{
				X: units.Length(x) * units.Millimetre, Y: units.Length(y) * units.Millimetre,
				Z: units.Length(60*math.Cos(x/300)*math.Cos(y/300)) * units.Millimetre,
			})
		}
		rows = append(rows, row)
	}
	m, err := canvas.Grid(rows)
	if err != nil {
		log.Fatal(err)
	}
	m.Name = "hatch"
	return m
}

// A hatch with a crown, in one piece.
func ExampleMesh_Flatten() {
	flat, err := crown().Flatten(canvas.Limits{})
	if err != nil {
		log.Fatal(err)
	}
	s := flat.Sheets[0]
	fmt.Printf("%.4f m2 of surface, %.4f m2 of cloth\n", s.Surface.SquareMetres(), s.Flat.SquareMetres())
	fmt.Printf("warp %.2f %%, weft %.2f %%, shear %.2f degrees; %d triangles beyond the limits\n", 100*s.Warp, 100*s.Weft, s.Shear.Degrees(), len(s.Over))
	for _, a := range s.Advice {
		fmt.Println(a)
	}
	// Output:
	// 0.3022 m2 of surface, 0.3022 m2 of cloth
	// warp 0.16 %, weft 0.23 %, shear 0.18 degrees; 0 triangles beyond the limits
	// This surface bends two ways and cannot lie flat without strain: the angle defect is 0.063 degrees at point 71, and 3.7 in all.
	// first row: ease in 1.7 mm.
	// last column: ease in 1.1 mm.
	// last row: ease in 1.7 mm.
	// first column: ease in 1.1 mm.
}

// Where to cut further.
func ExampleMesh_Suggest() {
	row, err := crown().Suggest()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(row)
	// Output:
	// [6 19 32 45 58 71]
}

// Points of a grid are numbered row by row.
func ExampleGrid() {
	m := crown()
	fmt.Println(len(m.Points), "points,", len(m.Triangles), "triangles")
	for _, l := range m.Lines {
		fmt.Println(l.Name, l.Points[0], "to", l.Points[len(l.Points)-1])
	}
	// Output:
	// 143 points, 240 triangles
	// first row 0 to 12
	// last row 130 to 142
	// first column 0 to 130
	// last column 12 to 142
}
