// My breaker trips the first time I press the button: is it a short or a stalled motor, and where do I look?
//
//	go run ./examples/17-fault-finding
package main

import (
	"fmt"
	"log"
	"strings"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func main() {
	motor := must(wiring.FitMotor(wiring.PermanentMagnet, 12*units.Volt,
		wiring.MotorPoint{Current: 12, Speed: 2870 * units.RevolutionPerMinute, NoLoad: true},
		wiring.MotorPoint{Current: 105, Speed: 2100 * units.RevolutionPerMinute}))
	band := wiring.Band{Name: "from the breaker's data sheet", Points: []wiring.BandPoint{
		{Multiple: 2, Earliest: 6 * units.Second, Latest: 25 * units.Second},
		{Multiple: 4, Earliest: 0.8 * units.Second, Latest: 3 * units.Second},
		{Multiple: 10, Earliest: 0.02 * units.Second, Latest: 0.3 * units.Second},
	}}
	dunlin := wiring.Windlass{
		Bank:  wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Charge: 0.9, Resistance: 3 * units.Milliohm},
		Motor: motor, Cable: wiring.Cable{Conductor: must(must(wiring.Metric(wiring.Flexible, wiring.Tinned)).Find("50 mm²"))},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker: wiring.Device{Kind: wiring.Breaker, Rating: 110, Resistance: 0.6 * units.Milliohm, Band: &band},
		Lug:     0.1 * units.Milliohm, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
	}
	circuit := must(dunlin.Circuit(wiring.Hauling))

	// The time tells: the weakest short, at the motor with the bank low, draws more than the motor held fast.
	held := func(charge float64, copper units.Temperature) units.Current {
		dunlin.Bank.Charge = charge
		solved := must(wiring.Solve(must(dunlin.Circuit(wiring.Hauling)), wiring.Conditions{Copper: copper, Standing: []string{"motor"}}))
		return must(solved.Branch("motor")).Current
	}
	stall := units.Interval[units.Current]{Low: held(0.3, units.Celsius(60)), High: held(1, units.Celsius(10))}
	short := must(wiring.FaultCurrents(circuit, "motor A", "motor B", wiring.FaultStudy{}))
	short.High = must(wiring.FaultCurrents(circuit, "bank +", "bank -", wiring.FaultStudy{})).High // no short draws more
	fmt.Printf("held fast %.0f A to %.0f A, a short %.0f A to %.0f A\n", stall.Low.Amperes(), stall.High.Amperes(), short.Low.Amperes(), short.High.Amperes())
	for _, s := range []units.Time{0.1, 1, 8, 60} {
		fmt.Printf("  tripped after %4.1f s: %s\n", s.Seconds(), must(wiring.TellTrip(dunlin.Breaker, stall, short, s)))
	}
	haul := wiring.Spell{Current: 100, For: 4 * units.Minute}
	fmt.Printf("  after  1.0 s, warm from a haul: %s\n", must(wiring.TellTrip(dunlin.Breaker, stall, short, 1, haul)))

	// At once, and with the motor's leads parted too: a short. The order with the least labour on average:
	hunt := must(wiring.PlanHunt([]wiring.Section{
		{Name: "companionway to saloon", Likelihood: 2},
		{Name: "saloon to chain locker", Likelihood: 5},
		{Name: "chain locker to solenoid", Likelihood: 6},
	}, []wiring.Joint{
		{Name: "saloon junction", Effort: units.Hour},
		{Name: "terminals in the chain locker", Effort: 10 * units.Minute},
	}, wiring.ByResistance))
	fmt.Printf("the short takes %.0f minutes to find on average, %.0f at worst, by %s:\n", hunt.Expected.Minutes(), hunt.Worst.Minutes(), hunt.Method)
	tell(hunt.First, "", 1)
	fmt.Println(strings.ReplaceAll(hunt.Caution, ". ", ".\n"))
}

// tell prints the tests as an indented list.
func tell(t *wiring.Test, found string, depth int) {
	in := strings.Repeat("  ", depth) + found
	if t.Section != "" {
		fmt.Printf("%sit is %s (%.0f %%)\n", in, t.Section, 100*t.Likelihood)
		return
	}
	fmt.Printf("%spart the %s\n", in, t.Joint)
	tell(t.Near, "still there: ", depth+1)
	tell(t.Far, "gone: ", depth+1)
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
