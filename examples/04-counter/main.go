// My chain counter shows 30 m: how much chain is really out, and how do I set it right?
//
//	go run ./examples/04-counter
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	// What the wheel should pay out: six pockets for 10 mm chain of 28 mm pitch.
	wheel := rode.ChainWheel{Pockets: 6, Pitch: 28 * units.Millimetre, Wire: 10 * units.Millimetre}
	payout, err := wheel.Payout()
	check(err)
	counter := rode.Counter{Setting: 33 * units.Centimetre, Step: 1 * units.Metre} // as it came
	short, err := rode.CounterError(payout, counter.Setting)
	check(err)
	out, err := counter.Length(rode.Scale{Chain: payout}, 30)
	check(err)
	fmt.Printf("the wheel pays out %.1f cm a turn, the counter reads %+.1f %%\n", payout.Centimetres(), 100*short)
	fmt.Printf("when it shows 30 m, %.1f m is out, from %.1f to %.1f m\n",
		out.Length.Metres(), out.Low.Metres(), out.High.Metres())

	// Is it 33.0 or 33.6? How long a lay must be to tell, depends on how it is read.
	tape := rode.LayErrors{Tape: 1 * units.Centimetre, Repeat: 2 * units.Centimetre}
	lengths, err := rode.LayToTell(counter, counter.Setting, payout, tape)
	check(err)
	fmt.Println("to tell 33.0 from 33.6 cm, lay out on a quay:")
	for _, l := range lengths {
		fmt.Printf("  %.1f m, read %s\n", l.Length.Metres(), l.Way)
	}

	// To set it within 1 mm a turn, 25 cm in 80 m:
	plans, err := rode.ProposeLays(counter, rode.LayGoal{Payout: payout, Half: 1 * units.Millimetre, Longest: 20, Errors: tape})
	check(err)
	fmt.Println("to set it within 1 mm a turn, lay out in all:")
	for _, p := range plans {
		fmt.Printf("  %.1f m, lays: %d, read %s\n", p.Total.Metres(), len(p.Lays), p.Way)
	}

	// Three lays on the quay, stopped and marked as the display changed.
	lays := []rode.Lay{
		{From: 1, To: 6, Taped: 5.02, FromAtChange: true, ToAtChange: true},
		{From: 1, To: 20, Taped: 19.11, FromAtChange: true, ToAtChange: true},
		{From: 20, To: 1, Taped: 19.08, FromAtChange: true, ToAtChange: true},
	}
	c, err := rode.Calibrate(counter, lays, tape)
	check(err)
	fmt.Printf("set it to %.2f cm; 95 in 100 such sets are right within %.2f to %.2f\n",
		c.Payout.Centimetres(), c.Interval.Low.Centimetres(), c.Interval.High.Centimetres())
	for _, a := range c.Advice {
		fmt.Println("  " + a)
	}
	counter.Setting = c.Payout
	full, err := c.Predict(counter, 80)
	check(err)
	fmt.Printf("at 80 m shown, %.1f to %.1f m will be out\n", full.Low.Metres(), full.High.Metres())
}

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
