// What does my boat pull at anchor when it blows, and how sure is that?
//
//	go run ./examples/08-loads
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

func main() {
	// Main dimensions give a first estimate; a dinghy on the foredeck is added by hand.
	boat, err := anchor.Estimate(anchor.Dimensions{
		Length: 10.4 * units.Metre, Beam: 3.3 * units.Metre, Freeboard: 1.1 * units.Metre, Rig: anchor.Cutter,
	})
	if err != nil {
		log.Fatal(err)
	}
	boat.Parts = append(boat.Parts, anchor.Part{
		Name: "dinghy", Front: 0.7, Side: 1.3, Bottom: 1.4, Top: 1.9, Station: 2.5, Shielded: 0.2,
	})

	// The forecast is a mean of ten minutes; the boat answers to gusts of half a minute.
	gust, err := anchor.GustFactor(30, 600)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("gusts of 30 s are %.2f times the mean\n", gust)
	for _, mean := range []units.Speed{15 * units.Knot, 25 * units.Knot, 35 * units.Knot} {
		wind := anchor.Wind{Speed: mean.Scale(gust)}
		ahead, err := boat.Load(wind, 0)
		if err != nil {
			log.Fatal(err)
		}
		sheered, err := boat.Load(wind, 30*units.Degree)
		if err != nil {
			log.Fatal(err)
		}
		low, high := ahead.Force().Scale(1/anchor.EstimateSpread), ahead.Force().Scale(anchor.EstimateSpread)
		fmt.Printf("mean %.0f kn, gust %.0f kn: %.2f kN to %.2f kN, sheered by 30° about %.2f kN\n", mean.Knots(),
			wind.Speed.Knots(), low.Kilonewtons(), high.Kilonewtons(), sheered.Force().Kilonewtons())
	}

	// Waves push a little all the time and jerk much more; a stream adds its own.
	waves := anchor.Waves{Height: 0.5, Period: 3, Depth: 6}
	drift, err := waves.Drift(3.2, 22*units.Degree)
	if err != nil {
		log.Fatal(err)
	}
	surge, err := waves.Surge(9)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("waves of 0.5 m push with %.0f N to %.0f N and take her %.2f m to and fro\n",
		drift.Low.Newtons(), drift.High.Newtons(), surge.Boat.Metres())

	// Beside it what a rule of small craft has the gear made for, far more than the wind's own pull.
	rule, err := anchor.HorizontalLoads(10.4*units.Metre, 3.3*units.Metre, anchor.Sloop)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("the loads of ABYC H-40, in its row of %.0f ft: lunch %.1f kN, working %.1f kN, storm %.1f kN\n", rule.Row.Feet(),
		rule.Lunch.Kilonewtons(), rule.Working.Kilonewtons(), rule.Storm.Kilonewtons())
}
