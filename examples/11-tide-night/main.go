// Will she still float at low water, and how much rode does the night ask for?
//
//	go run ./examples/11-tide-night
package main

import (
	"errors"
	"fmt"
	"log"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func clock(hour, minute int) time.Time { return time.Date(2030, 5, 17, hour, minute, 0, 0, time.UTC) }

func main() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	night := anchor.Night{
		From: clock(20, 0), To: clock(31, 0),
		Tide: anchor.Tide{Turns: []anchor.Turn{ // from the tide table
			{At: clock(17, 40), Height: 4.9},
			{At: clock(24, 5), Height: 0.7},
			{At: clock(30, 20), Height: 4.7},
			{At: clock(36, 40), Height: 0.9},
		}},
		// The sounder shows the water below a transducer half a metre down.
		Sounding: anchor.Sounding{At: clock(19, 30), Shown: 6.6, Offset: 0.5},
		Rode:     rode.Rode{Pieces: []rode.Piece{chain.Piece(60 * units.Metre)}},
		Roller:   1.45, Friction: 0.6,
		Winds: []anchor.NightWind{
			{From: clock(18, 0), Pull: 500}, {From: clock(26, 0), Pull: 1600}, {From: clock(29, 0), Pull: 900},
		},
		Steepest: 8 * units.Degree, // that the anchor may be pulled
		Wave:     0.4, TideError: 0.2, Draught: 1.5, UnderKeel: 0.3, Stern: 10.4, Antenna: 9,
		Shoals: []anchor.Shoal{{Name: "ledge", Distance: 38, Rise: 0.6}},
	}
	p, err := anchor.PlanNight(night)
	if err != nil {
		log.Fatal(err)
	}
	for _, m := range []struct {
		name string
		anchor.Moment
	}{{"now", p.Moments[0]}, {"lowest", p.Moments[p.Low]}, {"highest", p.Moments[p.High]}, {"worst", p.Moments[p.Worst]}} {
		fmt.Printf("%-7s %s: %.1f m deep, %.1f m under the keel in a trough, scope %.1f, %.1f kN at the bow\n",
			m.name, m.At.Format("15:04"), m.Depth.Metres(), m.UnderKeel.Metres(), m.Scope, m.Tension.Kilonewtons())
	}
	fmt.Printf("let out %.1f m; the stern stays within %.0f m, %s inside it stands %.1f m high\n",
		p.Out.Metres(), p.Widest.Stern.Metres(), p.Shoalest, p.Rise.Metres())

	fix, err := anchor.FixDeviation(3.5, 0.95) // the receiver: 95 % within 3.5 m
	if err != nil {
		log.Fatal(err)
	}
	// The button was pressed as the anchor went down: that marks the antenna, not the anchor.
	alarm, err := anchor.AlarmRadius(anchor.AlarmBudget{
		Circle: p.Widest.Antenna, Aft: night.Antenna, Set: 2, Mark: fix, Fix: fix, Chance: 0.001,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("set the anchor alarm to %.0f m, or to %.0f m once its mark is moved to the anchor\n",
		alarm.Radius.Metres(), (alarm.Radius - night.Antenna).Metres())

	night.Sounding.Shown = 5.2 // a little closer in
	_, err = anchor.PlanNight(night)
	if !errors.Is(err, anchor.ErrAground) {
		log.Fatalf("a plan that grounds was not refused: %v", err)
	}
	fmt.Println("closer in she grounds:", err)
}
