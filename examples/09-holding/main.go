// Will my anchor hold the night, and what has backing down on it proved?
//
//	go run ./examples/09-holding
package main

import (
	"errors"
	"fmt"
	"log"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

func main() {
	boat, err := anchor.Estimate(anchor.Dimensions{
		Length: 10.4 * units.Metre, Beam: 3.3 * units.Metre, Freeboard: 1.1 * units.Metre, Rig: anchor.Cutter,
	})
	if err != nil {
		log.Fatal(err)
	}

	// The answer is a range: the seabed decides, and how steeply the rode pulls.
	sand, err := anchor.Holding(anchor.PlateHinged, anchor.Sand, 16*units.Kilogram)
	if err != nil {
		log.Fatal(err)
	}
	left, err := anchor.HoldingLeft(8*units.Degree, 32*units.Degree)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("16 kg of hinged plates hold    when pulled level    at 8° above the bed")
	for _, bottom := range anchor.Bottoms() {
		h, err := sand.On(bottom)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("  %-26s %4.1f kN to %4.1f kN    %4.1f kN to %4.1f kN\n", bottom.Name, h.Low.Kilonewtons(), h.High.Kilonewtons(),
			h.Low.Kilonewtons()*left.Low, h.High.Kilonewtons()*left.High)
	}

	// Half a minute astern at 15 kW proves this much, and it is as a wind of so many knots.
	proof, err := anchor.BackDown(15*units.Kilowatt, 17*units.Inch)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("astern at 15 kW the anchor held %.1f kN at least\n", proof.Low.Kilonewtons())
	for _, pull := range []units.Force{proof.Low, proof.High} {
		wind, err := boat.SpeedFor(pull, anchor.Wind{})
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("  %.1f kN is a steady wind of %.0f kn from ahead\n", pull.Kilonewtons(), wind.Knots())
	}

	// What rules say, where they reach.
	gear, err := anchor.SmallVesselGear(9.7 * units.Metre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("a code for small vessels asks for %v on %.0f mm chain\n", gear.Main, gear.MainChain.Millimetres())
	number, err := anchor.EquipmentNumber(6.5*units.Tonne, 3.3*units.Metre, 1.6*units.Metre, 14)
	if err != nil {
		log.Fatal(err)
	}
	_, err = anchor.EquipmentGear(number)
	if errors.Is(err, anchor.ErrRange) {
		fmt.Printf("equipment number %.0f: too small a boat for the rule of ships\n", number)
	}
}
