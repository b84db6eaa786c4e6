// What size of cable does my windlass need, and what is it that asks for so much copper?
//
//	go run ./examples/14-cable-size
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func main() {
	stock := must(wiring.Metric(wiring.Flexible, wiring.Tinned)).WithInsulation(units.Celsius(90))
	for i := range stock { // an invented price list
		stock[i].Price = units.Money(0.9 + 0.28*stock[i].Area.SquareMillimetres())
	}
	// 9.5 m there and as much back at 100 A; lugs, breaker, isolator and solenoid take their part.
	run := wiring.Requirement{
		Stock: stock, Run: 19 * units.Metre, Current: 100 * units.Ampere,
		System: 12 * units.Volt, Copper: units.Celsius(60), Others: 2.6 * units.Milliohm,
	}

	drop, volts, hot, duty, fault := run, run, run, run, run
	drop.MaxDrop = wiring.NonCriticalDrop
	volts.Supply, volts.AtLoad = 12.2*units.Volt, 10.5*units.Volt
	// Out and back as the two cores of one cable, where an engine warms it.
	hot.Rules, hot.Installation = wiring.IEC60092, wiring.Installation{Bundled: 2, Ambient: units.Celsius(55)}
	// Two retrievals with a pause, and a foul anchor at the end of the second.
	duty.Ambient = units.Celsius(55)
	duty.Duty = []wiring.Spell{
		{Current: 100, For: 4 * units.Minute},
		{For: 2 * units.Minute},
		{Current: 100, For: 4 * units.Minute},
		{Current: 300, For: 5 * units.Second},
	}
	fault.Fault, fault.Clearing = 2*units.Kiloampere, units.Second // until a fuse has opened
	all := drop
	all.Supply, all.AtLoad, all.Rules, all.Installation = volts.Supply, volts.AtLoad, hot.Rules, hot.Installation
	all.Ambient, all.Duty, all.Fault, all.Clearing = duty.Ambient, duty.Duty, fault.Fault, fault.Clearing

	asks := []wiring.Requirement{drop, volts, hot, duty, fault, all}
	for i, what := range []string{
		"at most 10 % of 12 V lost", "10.5 V at the motor", "100 A steadily at 55 °C",
		"the heat of two retrievals", "a short of 2 kA for 1 s", "all of it",
	} {
		c := must(wiring.SizeConductor(asks[i]))
		fmt.Printf("%-26s asks for %s\n", what, c.Conductor.Size)
	}

	c := must(wiring.SizeConductor(all))
	fmt.Printf("\n%s governs:\n", c.Governs)
	show("one size down", c.Down)
	show("this one", &c.Candidate)
	show("one size up", c.Up)
	all.MaxDrop, all.Others = wiring.CriticalDrop, 0 // the class of navigation lights, for the cables alone
	for _, all.Parallel = range []int{1, 2} {
		c = must(wiring.SizeConductor(all))
		show("3 % in cables", &c.Candidate)
	}
}

func show(what string, c *wiring.Candidate) {
	fmt.Printf("  %-14s %d x %-7s loses %4.1f %%, may carry %.0f A, gets %.0f °C hot, %4.1f kg, costs %.0f", what, c.Parallel,
		c.Conductor.Size, 100*c.Share, c.Ampacity.Amperes(), c.Hottest.Celsius(), c.Mass.Kilograms(), c.Cost)
	if len(c.Fails) > 0 {
		fmt.Printf("; fails %v", c.Fails)
	}
	fmt.Println()
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
