// What should my meter read while the windlass works, and which joint is bad when it does not?
//
//	go run ./examples/16-commissioning
package main

import (
	"fmt"
	"log"
	"strings"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

var yes = map[bool]string{true: "yes", false: "NO"}

func main() {
	motor := must(wiring.FitMotor(wiring.PermanentMagnet, 12*units.Volt,
		wiring.MotorPoint{Current: 12, Speed: 2870 * units.RevolutionPerMinute, NoLoad: true},
		wiring.MotorPoint{Current: 105, Speed: 2100 * units.RevolutionPerMinute, Torque: 3.5 * units.NewtonMetre}))
	motor.Load = 2.6 * units.NewtonMetre // what she pulled that day: the clamp shows 78 A
	cable := must(must(wiring.Metric(wiring.Flexible, wiring.Tinned)).Find("50 mm²"))
	dunlin := wiring.Windlass{
		Bank:  wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Charge: 0.9, Resistance: 3 * units.Milliohm},
		Motor: motor, Cable: wiring.Cable{Conductor: cable},
		Fuse:      &wiring.Device{Kind: wiring.Fuse, Rating: 175, Resistance: 0.3 * units.Milliohm},
		Breaker:   wiring.Device{Kind: wiring.Breaker, Rating: 110, Resistance: 0.6 * units.Milliohm},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Lug: 0.1 * units.Milliohm, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Hull: &wiring.Hull{Positive: 40 * units.Kilohm, Negative: 2 * units.Megohm, Case: units.Megohm, Bonding: 10 * units.Milliohm},
	}
	circuit := must(dunlin.Circuit(wiring.Hauling))

	// On a steel hull both poles are insulated, and nothing but a test shows whether they still are (100 kΩ: practice).
	hull := must(wiring.CheckHull(circuit, wiring.HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 100 * units.Kilohm}))
	fmt.Printf("neither pole on the hull: %s; the isolator parts both: %s\n", yes[hull.TwoWire], yes[hull.TwoPole])
	for i, pole := range hull.Poles {
		fmt.Printf("  %s to the hull: insulated by %.3v, enough: %s; supply on, black on the hull and red on it shows %.2f V\n",
			[]string{"positive", "negative"}[i], pole.Insulation, yes[pole.Enough], pole.Reads.Volts())
	}

	// The meter is good to 0.5 % and 2 mV, the clamp to 2 % and half an ampere.
	at := wiring.Conditions{Copper: units.Celsius(30)}
	volts, amperes := wiring.Voltmeter{Share: 0.005, Fixed: 2 * units.Millivolt}, wiring.Ammeter{Share: 0.02, Fixed: 0.5}
	points := []wiring.Probes{
		{Red: "bank +", Black: "bank -"},
		{Red: "bank +", Black: "breaker in"},
		{Red: "breaker in", Black: "breaker out"},
		{Red: "breaker out", Black: "solenoid +"},
		{Red: "motor A", Black: "motor B"},
		{Red: "solenoid -", Black: "bank -"},
	}
	fmt.Println("hauling, the meter should show:")
	for _, r := range must(wiring.ExpectReadings(circuit, at, points, volts, wiring.Spread{})) {
		fmt.Printf("  %-11s to %-11s %6.3f V, from %.3f to %.3f V (meter %.3f, boat %.3f)\n", r.Probes.Red, r.Probes.Black,
			r.Volts.Volts(), r.Low.Volts(), r.High.Volts(), r.Meter.Volts(), r.Model.Volts())
	}

	// The windlass is slow. What the meter did show, with the clamp's current at that moment:
	const current = 78 * units.Ampere
	taken := []wiring.Reading{
		{Probes: points[1], Volts: 0.139, Current: current},
		{Probes: points[2], Volts: 0.048, Current: current},
		{Probes: wiring.Probes{Red: "breaker out", Black: "cable forward 2"}, Volts: 0.218, Current: current},
		{Probes: wiring.Probes{Red: "cable forward 2", Black: "solenoid +"}, Volts: 0.335, Current: current},
		{Probes: points[5], Volts: 0.331, Current: current},
	}
	fmt.Println("what it showed means:")
	for _, j := range must(wiring.FindBadJoint(circuit, at, taken, volts, amperes, wiring.Spread{})) {
		fmt.Printf("  %-5s %.2f mΩ, from %.2f to %.2f, %2.0f W of heat too much: %s\n", j.Judgement, j.Measured.Value.Milliohms(),
			j.Measured.Low.Milliohms(), j.Measured.High.Milliohms(), j.Heat.Watts(), strings.Join(j.Parts, ", "))
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
