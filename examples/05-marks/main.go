// Which links do I mark, so that I can see how much chain is out when the counter fails?
//
//	go run ./examples/05-marks
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	// Fifty links of the old chain, taut, are 1.206 m: it is worn a little.
	pitch, err := rode.MeasuredPitch(1.206*units.Metre, 50)
	if err != nil {
		log.Fatal(err)
	}
	m, err := rode.MarkRode(rode.MarkPlan{
		Every:    10 * units.Metre,
		AtAnchor: 14 * units.Centimetre, // shackle and swivel
		Chain:    40 * units.Metre, Pitch: pitch,
		Rope: 50 * units.Metre,
		// The counter is set to zero with the anchor at the waterline, from where
		// it is 1.9 m over the roller to the wheel.
		AtZero: 1.9 * units.Metre,
		// Our own way of telling them apart; any words will do.
		Scheme: [][]string{
			{"yellow"},
			{"yellow", "yellow"},
			{"blue"},
			{"blue", "blue"},
			{"white"},
			{"white", "yellow"},
			{"white", "blue"},
			{"white", "white"},
		},
	})
	if err != nil {
		log.Fatal(err)
	}
	table, err := m.Table("m")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(table)
}
