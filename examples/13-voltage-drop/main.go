// Where do the volts go between my battery and the windlass, and what do the short formulas leave out?
//
//	go run ./examples/13-voltage-drop
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func main() {
	// Two lines of the data sheet are the motor; the pull at the gypsy sets its torque.
	motor := must(wiring.FitMotor(wiring.PermanentMagnet, 12*units.Volt,
		wiring.MotorPoint{Current: 12, Speed: 2870 * units.RevolutionPerMinute, NoLoad: true},
		wiring.MotorPoint{Current: 105, Speed: 2100 * units.RevolutionPerMinute, Torque: 3.5 * units.NewtonMetre}))
	motor.Load = 3.3 * units.NewtonMetre

	tinned := must(wiring.Metric(wiring.Flexible, wiring.Tinned))
	cable := must(tinned.Find("50 mm²"))
	windlass := wiring.Windlass{
		Bank: wiring.Battery{
			Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Charge: 0.8, Resistance: 3 * units.Milliohm,
		},
		Motor:     motor,
		Cable:     wiring.Cable{Conductor: cable},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker: wiring.Device{Kind: wiring.Breaker, Rating: 110, Resistance: 0.6 * units.Milliohm},
		Lug:     0.1 * units.Milliohm, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
	}
	circuit := must(windlass.Circuit(wiring.Hauling))

	// Hot copper costs speed. The current stays, as it is the pull that sets it.
	var drop wiring.DropReport
	for _, copper := range []float64{5, 20, 60} {
		s := must(wiring.Solve(circuit, wiring.Conditions{Copper: units.Celsius(copper)}))
		drop = must(s.DropTo("motor"))
		m := must(s.Branch("motor"))
		fmt.Printf("copper at %2.0f °C: %.2f V at the motor, %.0f A, %.0f rpm\n",
			copper, drop.AtLoad.Volts(), m.Current.Amperes(), m.Speed.RevolutionsPerMinute())
	}
	fmt.Printf("%.2f V of the bank's %.2f V are lost on the way, with hot copper:\n", drop.Total.Volts(), drop.EMF.Volts())
	for _, p := range drop.Parts {
		fmt.Printf("  %-26s %.2f V %3.0f %%\n", p.Name, p.Drop.Volts(), 100*p.Share)
	}

	// Four minutes of hauling with the engine running.
	engine := wiring.Alternator{Voltage: 14.2, Limit: 60, Resistance: 5 * units.Milliohm}
	circuit.Elements = append(circuit.Elements, wiring.Element{Name: "alternator", From: "bank -", To: "bank +", Alternator: &engine})
	taken := must(wiring.Withdraw(circuit, []wiring.Phase{{For: 4 * units.Minute}}))[0]
	fmt.Printf("with the engine running the bank gives %.1f Ah and falls to %.2f V\n", taken.Out.AmpereHours(), taken.End.Volts())

	// The short formulas know the cables alone, and copper better than what is sold.
	fmt.Println("\nthe cables alone    cold    hot     metric formula          circular-mil formula")
	plain := must(wiring.Metric(wiring.Flexible, wiring.Plain))
	gauge := must(wiring.AWG(wiring.Tinned))
	for _, c := range []struct {
		name  string
		cable wiring.Conductor
	}{
		{"50 mm², tinned", cable},
		{"50 mm², plain", must(plain.Find("50 mm²"))},
		{"1/0 AWG, tinned", must(gauge.Find("1/0 AWG"))},
	} {
		d := must(wiring.CompareDrop(c.cable, 19*units.Metre, 100, units.Celsius(60)))
		fmt.Printf("  %-15s   %.2f V  %.2f V  %.2f V, %2.0f %% to %.0f %% low  %.2f V, %2.0f %% to %.0f %% low\n", c.name,
			d.Cold.Volts(), d.Hot.Volts(), d.Metric.Volts(), 100*d.MetricBelowCold, 100*d.MetricBelowHot,
			d.CircularMil.Volts(), 100*d.CircularMilBelowCold, 100*d.CircularMilBelowHot)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
