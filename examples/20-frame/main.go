// Is my windscreen frame flat and square, and did I read the tape right?
//
//	go run ./examples/20-frame
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

// tape is a list of distances between corners.
func tape(pairs ...any) (t []canvas.Tape) {
	for i := 0; i < len(pairs); i += 2 {
		ends := pairs[i].(string)
		t = append(t, canvas.Tape{From: ends[:1], To: ends[1:], Distance: mm.Scale(float64(pairs[i+1].(int)))})
	}
	return t
}

func adjust(s canvas.Survey) canvas.Adjustment {
	a, err := s.Adjust()
	if err != nil {
		log.Fatal(err)
	}
	return a
}

// fits puts into words whether the readings agree within what a tape can show.
var fits = map[bool]string{true: "fits", false: "does not fit"}

func main() {
	// Four sides and both diagonals: one distance more than a flat frame needs.
	frame := canvas.Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: 1 * mm}
	frame.Tapes = tape("AB", 3000, "BC", 2000, "CD", 3010, "DA", 1990, "AC", 3612, "BD", 3600)
	a := adjust(frame)
	fmt.Println("1. Six tapes. Corners, from A along A-B and square to it:")
	for _, c := range a.Corners {
		fmt.Printf("   %s at %6.1f, %6.1f mm, each good to about %.1f, %.1f mm\n", c.Name,
			c.At.X.Millimetres(), c.At.Y.Millimetres(), c.Sigma.X.Millimetres(), c.Sigma.Y.Millimetres())
	}
	fmt.Println("   Advice:", a.Advice)

	// A mistake of 50 mm is seen, but six distances cannot tell whose it is.
	frame.Tapes = tape("AB", 3000, "BC", 2000, "CD", 3060, "DA", 1990, "AC", 3612, "BD", 3600)
	fmt.Println("2. The same with C-D misread by 50 mm.\n   Advice:", adjust(frame).Advice)

	// A frame that is really warped: two strings along the diagonals pass 150 mm apart.
	frame.Tapes = tape("AB", 3000, "BC", 2000, "CD", 3015, "DA", 2022, "AC", 3606, "BD", 3618)
	fmt.Println("3. A frame that is warped. As a flat one, it", fits[adjust(frame).Fits])
	frame.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: 150 * mm}}
	a = adjust(frame)
	d, err := a.Corner("D")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("   With the gap between two strings, it %s: D stands %.0f mm out of the plane of A, B and C\n", fits[a.Fits], d.At.Z.Millimetres())

	// Five corners and every distance: now a misread tape has a name.
	screen := canvas.Survey{Corners: []string{"A", "B", "C", "D", "E"}, Sigma: 1 * mm}
	screen.Tapes = tape("AB", 2400, "BC", 1582, "CD", 2109, "DE", 2062, "EA", 1392,
		"AC", 3265, "AD", 2823, "BD", 3007, "BE", 3179, "CE", 3406)
	fmt.Println("4. Five corners, all ten distances, one of them wrong.\n   Advice:", adjust(screen).Advice)
}
