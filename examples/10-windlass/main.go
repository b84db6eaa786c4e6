// Can my windlass get the anchor up on a tired battery, and what does it take from it?
//
//	go run ./examples/10-windlass
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	// Two lines of the data sheet, both at 12 V, are the whole motor.
	windlass := anchor.Windlass{Drive: anchor.Drive{
		Winding: anchor.PermanentMagnet, Voltage: 12,
		Points: []anchor.DrivePoint{
			{Pull: 1000, Speed: 24 * units.MetrePerMinute, Current: 80},
			{Pull: 2500, Speed: 13.2 * units.MetrePerMinute, Current: 170},
		},
	}}
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	haul := anchor.Haul{
		Rode:   rode.Rode{Pieces: []rode.Piece{chain.Piece(40 * units.Metre)}},
		Site:   rode.Site{Depth: 8, Roller: 1.4},
		Anchor: 16, Breakout: 1200 * units.Newton,
	}

	for _, c := range []struct {
		name    string
		battery units.Voltage
		pull    units.Force
	}{
		{"engine running, boat motored up", 13.5, 0},
		{"on the battery, 15 kn of wind", 12.4, 300},
		{"tired battery, 25 kn of wind", 11.8, 800},
	} {
		haul.Supply = anchor.Supply{Voltage: c.battery, Resistance: 0.012} // battery and cables
		haul.Pull = c.pull
		r, err := windlass.Retrieve(haul)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %.0f s, %.2f Ah, at most %.0f A\n", c.name, r.Time.Seconds(), r.Charge.AmpereHours(), r.Hardest.Current.Amperes())
		for _, s := range r.Stages {
			fmt.Printf("  %-13s %3.0f s at %.1f V and %3.0f A\n", s.Name, s.Time.Seconds(), s.Voltage.Volts(), s.Current.Amperes())
		}
	}

	// Class rules ask this of a ship with such chain; a boat's windlass need not reach it.
	rule, err := anchor.MinimumWindlass(chain.Wire, 1, haul.Site.Depth)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("the rule of ships (IACS UR A3, its coefficient recalled): %.1f kN for half an hour, %.1f kN for two minutes, %.0f m/min\n",
		rule.Continuous.Kilonewtons(), rule.Overload.Kilonewtons(), rule.Speed.MetresPerMinute())

	// An anchor wedged in rock stops it: then the current is what the breaker must carry.
	haul.Breakout = 4000
	if _, err := windlass.Retrieve(haul); err != nil {
		fmt.Println(err)
	}
	run, err := windlass.Drive.Run(1000, haul.Supply)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("stalled it draws %.0f A and pulls %.1f kN\n", run.Stall.Amperes(), run.StallPull.Kilonewtons())
}
