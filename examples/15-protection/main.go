// May the windlass's breaker sit at the companionway, and what protects the cable up to it?
//
//	go run ./examples/15-protection
package main

import (
	"cmp"
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
	cable := must(must(wiring.Metric(wiring.Flexible, wiring.Tinned)).WithInsulation(units.Celsius(90)).Find("50 mm²"))
	breaker := wiring.Device{
		Kind: wiring.Breaker, Rating: 110, Resistance: 0.6 * units.Milliohm, Interrupting: 5 * units.Kiloampere,
		Band: &wiring.Band{Name: "from its data sheet", Points: []wiring.BandPoint{
			{Multiple: 1.05, Earliest: units.Hour},
			{Multiple: 1.3, Earliest: 40 * units.Second, Latest: units.Hour},
			{Multiple: 2, Earliest: 6 * units.Second, Latest: 25 * units.Second},
			{Multiple: 4, Earliest: 0.8 * units.Second, Latest: 3 * units.Second},
		}},
	}
	dunlin := wiring.Windlass{
		Bank:  wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Charge: 1, Resistance: 3 * units.Milliohm},
		Motor: motor, Cable: wiring.Cable{Conductor: cable}, Breaker: breaker,
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Lug: 0.1 * units.Milliohm, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
	}

	for _, p := range must(wiring.CheckPlacements(wiring.Place{Length: dunlin.ToBreaker, Battery: true})) {
		fmt.Println(p, map[bool]string{true: "[read]", false: "[recalled]"}[p.Confirmed])
	}
	fmt.Println("(33 CFR 183 is law in the United States, for boats with petrol inboard engines only)")
	bare := study("\nwith the breaker alone", dunlin)
	// The fuse must break the strongest short at the bank and open in the weakest at the breaker.
	near := must(wiring.FaultCurrents(bare, "bank +", "bank -", wiring.FaultStudy{})).High
	far := must(wiring.FaultCurrents(bare, "breaker in", "", wiring.FaultStudy{})).Low
	stall := must(must(wiring.Solve(bare, wiring.Conditions{Standing: []string{"motor"}})).Branch("motor")).Current
	asked := must(wiring.InterruptingRule(12*units.Volt, 1300*units.Ampere, 230*units.AmpereHour)).Main
	fuse := must(wiring.ProposeFuse(wiring.SecondFuse{
		Breaker: breaker, Cable: dunlin.Cable, System: 12 * units.Volt, Stall: stall, Near: near, Far: far,
		Rules: wiring.IEC60092, Ampacity: must(wiring.Ampacity(wiring.IEC60092, cable, wiring.Installation{})).Current,
		Series: must(wiring.PreferredRatings(wiring.SeriesNEC)), Band: wiring.BandBolted,
		Interrupting: max(asked, near), Resistance: 0.3 * units.Milliohm, // buy one that breaks as much
	}))
	fmt.Printf("\na short drives %.3v at the bank, full and warm, the rule has the fuse break %.3v; low, cold and at the breaker %.3v\n", near, asked, far)
	fmt.Printf("so a fuse of %v at the bank, %s of %v; but:\n  %s\n", fuse.Fuse.Rating, fuse.Limit.Because, fuse.Limit.Limit, strings.Join(fuse.Findings, "\n  "))
	dunlin.Fuse = &fuse.Fuse
	study("with the fuse too", dunlin)
	for _, seconds := range []units.Time{0.5, 2, 30} {
		r := must(wiring.RideThrough(breaker, []wiring.Spell{{Current: 100, For: 4 * units.Minute}, {Current: stall, For: seconds}}))
		fmt.Printf("hauling, then stalled at %.0f A for %4.1f s: the breaker %s\n", stall.Amperes(), seconds.Seconds(),
			map[[2]bool]string{{true, false}: "holds", {false, true}: "opens", {}: "may do either"}[[2]bool{r.Holds, r.Opens}])
	}
}

func study(what string, w wiring.Windlass) wiring.Circuit {
	c := must(w.Circuit(wiring.Hauling))
	r := must(wiring.StudyFaults(c, wiring.FaultStudy{}))
	fmt.Printf("%s, cables that nothing protects: %s\n", what, cmp.Or(strings.Join(r.Unprotected, ", "), "none"))
	for _, d := range r.Devices {
		fmt.Printf("  %-12s %s the %.3v of a short, opens within %.0f s in the weakest\n", d.Device,
			map[bool]string{true: "breaks", false: "CANNOT BREAK"}[d.Breaks], d.Largest, d.Opens.Seconds())
	}
	return c
}

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
