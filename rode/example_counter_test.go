package rode_test

import (
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Two wheels of common practice pay out the same.
func ExampleChainWheel_Payout() {
	for _, w := range []rode.ChainWheel{
		{Pockets: 6, Pitch: 28 * units.Millimetre},
		{Pockets: 7, Pitch: 24 * units.Millimetre},
	} {
		payout, err := w.Payout()
		fmt.Printf("%d pockets, pitch %.0f mm: %.1f cm a turn %v\n", w.Pockets, w.Pitch.Millimetres(), payout.Centimetres(), err)
	}
	// Output:
	// 6 pockets, pitch 28 mm: 33.6 cm a turn <nil>
	// 7 pockets, pitch 24 mm: 33.6 cm a turn <nil>
}

func ExampleChainWheel_PitchDiameter() {
	w := rode.ChainWheel{Pockets: 6, Pitch: 28 * units.Millimetre, Wire: 10 * units.Millimetre}
	d, err := w.PitchDiameter()
	fmt.Printf("%.2f mm %v\n", d.Millimetres(), err)
	// Output: 108.68 mm <nil>
}

// Ten-millimetre chain of one standard on a wheel for the other.
func ExampleChainWheel_Fit() {
	w := rode.ChainWheel{
		Pockets: 6, Pitch: 28 * units.Millimetre, Wire: 10 * units.Millimetre, Play: 3 * units.Millimetre,
	}
	for _, name := range []string{"DIN 766 10 mm G40", "ISO 4565 10 mm G40"} {
		c, err := rode.ChainByName(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		f, err := w.Fit(c)
		fmt.Println(name, f.Fits(), f.Misfits, err)
	}
	// Output:
	// DIN 766 10 mm G40 true [] <nil>
	// ISO 4565 10 mm G40 false [pitch 30.0 mm on a wheel for 28.0 mm creeps 12.0 mm over the 6 links on the wheel, and a link has 3.0 mm of play] <nil>
}

func ExampleChainWheel_FitRope() {
	w := rode.ChainWheel{
		Width: 32 * units.Millimetre, RopeLeast: 14 * units.Millimetre, RopeMost: 16 * units.Millimetre,
	}
	misfits, err := w.FitRope(12*units.Millimetre, 24*units.Millimetre)
	fmt.Println(misfits, err)
	// Output: [rope of 12.0 mm on a wheel for 14.0 to 16.0 mm: thinner slips, thicker does not wedge in] <nil>
}

// An old chain, measured over fifty links, on the wheel for its pitch when new:
// what wear does to the counter.
func ExampleMeasuredPitch() {
	pitch, err := rode.MeasuredPitch(1.412*units.Metre, 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	w := rode.ChainWheel{Pockets: 6, Pitch: 28 * units.Millimetre, Wire: 10 * units.Millimetre, Play: 3 * units.Millimetre}
	f, err := w.Fit(rode.Chain{Pitch: pitch, Wire: 10 * units.Millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	short, err := rode.CounterError(f.Payout, 33.6*units.Centimetre)
	fmt.Printf("pitch %.2f mm, fits %t, %.2f cm a turn, the counter reads %+.1f %% %v\n",
		pitch.Millimetres(), f.Fits(), f.Payout.Centimetres(), 100*short, err)
	// Output: pitch 28.24 mm, fits true, 33.89 cm a turn, the counter reads -0.8 % <nil>
}

func ExampleCounterError() {
	e, err := rode.CounterError(33.6*units.Centimetre, 33*units.Centimetre)
	fmt.Printf("%+.1f %% %v\n", 100*e, err)
	// Output: -1.8 % <nil>
}

// 40 m of chain and then rope, which the wheel carries by less a turn.
func ExampleScale() {
	s := rode.Scale{
		Chain: 33.6 * units.Centimetre, Splice: 40 * units.Metre,
		Rope: 31 * units.Centimetre, RopeU: 1 * units.Centimetre,
	}
	turns, err := s.Turns(60 * units.Metre)
	fmt.Printf("60 m are %.1f turns %v\n", turns, err)
	out, u, err := s.Out(200)
	fmt.Printf("200 turns are %.1f m, give or take %.1f m %v\n", out.Metres(), u.Metres(), err)
	// Output:
	// 60 m are 183.6 turns <nil>
	// 200 turns are 65.1 m, give or take 0.8 m <nil>
}

// Out, some of it back, and a little out again, with the wheel a third of a
// pulse beyond its magnet at first.
func ExampleCounter_Reading() {
	c := rode.Counter{Setting: 33 * units.Centimetre, Step: 1 * units.Metre}
	shown, err := c.Reading(rode.Scale{Chain: 33.6 * units.Centimetre}, 0.33, 50, -20, 3)
	fmt.Println(shown, err)
	// Output: 32 m <nil>
}

func ExampleCounter_Readings() {
	c := rode.Counter{Setting: 33 * units.Centimetre, Step: 0.1 * units.Metre}
	shown, err := c.Readings(rode.Scale{Chain: 33.6 * units.Centimetre}, 50)
	fmt.Printf("50 m show as %.1f to %.1f m %v\n", shown.Low.Metres(), shown.High.Metres(), err)
	// Output: 50 m show as 48.8 to 49.1 m <nil>
}

func ExampleCounter_Length() {
	c := rode.Counter{Setting: 33 * units.Centimetre, Step: 1 * units.Metre}
	l, err := c.Length(rode.Scale{Chain: 33.6 * units.Centimetre}, 49)
	fmt.Printf("49 shown: %.1f m, from %.1f to %.1f m %v\n", l.Length.Metres(), l.Low.Metres(), l.High.Metres(), err)
	// Output: 49 shown: 50.4 m, from 49.7 to 51.1 m <nil>
}

// Three lays, read as the display changed.
func ExampleCalibrate() {
	c := rode.Counter{Setting: 33 * units.Centimetre, Step: 1 * units.Metre}
	lays := []rode.Lay{
		{From: 1, To: 6, Taped: 5.04, FromAtChange: true, ToAtChange: true},
		{From: 1, To: 20, Taped: 19.15, FromAtChange: true, ToAtChange: true},
		{From: 20, To: 1, Taped: 19.13, FromAtChange: true, ToAtChange: true},
	}
	r, err := rode.Calibrate(c, lays, rode.LayErrors{Tape: 1 * units.Centimetre, Repeat: 2 * units.Centimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("set %.2f cm; 95 %%: %.2f to %.2f cm, by %s\n", r.Payout.Centimetres(),
		r.Interval.Low.Centimetres(), r.Interval.High.Centimetres(), r.Method)
	fmt.Println("slip in every lay:", r.Line.Told, "- by direction:", r.Directions.Told)
	// Output:
	// set 33.58 cm; 95 %: 33.53 to 33.63 cm, by least squares
	// slip in every lay: false - by direction: false
}

func ExampleCalibration_Predict() {
	c := rode.Counter{Setting: 33.6 * units.Centimetre, Step: 1 * units.Metre}
	r, err := rode.Calibrate(c, []rode.Lay{{To: 10, Taped: 10.2}, {To: 25, Taped: 25.3}},
		rode.LayErrors{Tape: 2 * units.Centimetre, Repeat: 10 * units.Centimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := r.Predict(c, 80)
	fmt.Printf("80 shown: %.1f m out, from %.1f to %.1f m %v\n", b.Length.Metres(),
		b.Low.Metres(), b.High.Metres(), err)
	// Output: 80 shown: 79.9 m out, from 77.2 to 82.6 m <nil>
}

func ExampleLayLine_At() {
	l := rode.LayLine{Slip: 0.2, SlipU: 0.05, Payout: 0.336, PayoutU: 0.001, Correlation: -0.8}
	out, u, err := l.At(200)
	fmt.Printf("%.1f m, give or take %.2f m %v\n", out.Metres(), u.Metres(), err)
	// Output: 67.4 m, give or take 0.16 m <nil>
}

func ExampleLayToTell() {
	c := rode.Counter{Setting: 33 * units.Centimetre}
	ls, err := rode.LayToTell(c, 33*units.Centimetre, 33.6*units.Centimetre, rode.LayErrors{Tape: 1 * units.Centimetre})
	for _, l := range ls {
		fmt.Printf("%s: %.1f m\n", l.Way, l.Length.Metres())
	}
	fmt.Println(err)
	// Output:
	// standing: 39.1 m
	// at the change, end only: 20.7 m
	// at the change, both ends: 2.2 m
	// <nil>
}

func ExampleProposeLays() {
	c := rode.Counter{Setting: 33 * units.Centimetre}
	plans, err := rode.ProposeLays(c, rode.LayGoal{
		Payout: 33.5 * units.Centimetre, Half: 2 * units.Millimetre, Longest: 30,
		Errors: rode.LayErrors{Tape: 1 * units.Centimetre, Repeat: 5 * units.Centimetre},
	})
	for _, p := range plans {
		fmt.Printf("%s:", p.Way)
		for _, l := range p.Lays {
			fmt.Printf(" %.1f m", l.Metres())
		}
		fmt.Println()
	}
	fmt.Println(err)
	// Output:
	// standing: 30.0 m 30.0 m 22.3 m
	// at the change, end only: 30.0 m 19.7 m
	// at the change, both ends: 16.7 m
	// <nil>
}

func ExampleMarkRode() {
	m, err := rode.MarkRode(rode.MarkPlan{
		Every: 10 * units.Metre, AtAnchor: 11 * units.Centimetre, AtZero: 2.3 * units.Metre,
		Chain: 30 * units.Metre, Pitch: 24 * units.Millimetre,
		Scheme: [][]string{{"one band"}, {"two bands"}},
	})
	for _, k := range m.Marks {
		fmt.Printf("%.0f m: link %d, %v\n", k.At.Metres(), k.Link, k.Markers)
	}
	fmt.Println(m.Buy, err)
	// Output:
	// 10 m: link 508, [one band]
	// 20 m: link 925, [two bands]
	// [{one band 1} {two bands 1}] <nil>
}

func ExampleMarks_Table() {
	m, err := rode.MarkRode(rode.MarkPlan{Every: 25 * units.Foot, Chain: 60 * units.Foot, Pitch: 1 * units.Inch, Rope: 40 * units.Foot})
	if err != nil {
		fmt.Println(err)
		return
	}
	text, err := m.Table("ft")
	fmt.Print(text)
	fmt.Println(err)
	// Output:
	// out, ft  mark  count on  link  off, in
	// 25.0     -     301       301   +0.5
	// 50.0     -     300       601   +0.5
	// 75.0     -     rope, 15.00 ft beyond the splice
	// 100.0    -     rope, 40.00 ft beyond the splice
	// <nil>
}

func ExampleLocker_Stow() {
	l := rode.Locker{Length: 60 * units.Centimetre, Width: 50 * units.Centimetre, Fall: 1 * units.Metre, Slope: 40 * units.Degree}
	ss, err := l.Stow(rode.OfChain, 60*units.Metre, 10*units.Millimetre)
	for _, s := range ss {
		fmt.Printf("%s: %.0f litres, heap %.2f m, %.0f m stow themselves\n", s.Rule.Name, 1e3*s.Volume.CubicMetres(), s.Heap.Metres(), s.Stows.Metres())
	}
	fmt.Println(err)
	// Output:
	// handbook, chain: 123 litres, heap 0.59 m, 53 m stow themselves
	// class rule, chain: 122 litres, heap 0.59 m, 53 m stow themselves
	// class rule in fathoms, chain: 122 litres, heap 0.59 m, 53 m stow themselves
	// older class rule, chain: 66 litres, heap 0.40 m, 60 m stow themselves
	// yard standard, chain: 58 litres, heap 0.37 m, 60 m stow themselves
	// <nil>
}

func ExampleLockerRule_Volume() {
	v, err := rode.LockerRules()[0].Volume(30*units.Metre, 7*units.Millimetre)
	fmt.Printf("%.4f m³ %v\n", v.CubicMetres(), err)
	// Output: 0.0302 m³ <nil>
}

// How often does the wheel turn until 30 m of chain and 10 m of rope are out?
func ExampleScale_Turns() {
	s := rode.Scale{Chain: 336 * units.Millimetre, Splice: 30 * units.Metre, Rope: 310 * units.Millimetre}
	for _, out := range []units.Length{10, 30, 40} {
		n, err := s.Turns(out)
		fmt.Printf("%v: %.1f turns %v\n", out, n, err)
	}
	// Output:
	// 10 m: 29.8 turns <nil>
	// 30 m: 89.3 turns <nil>
	// 40 m: 121.5 turns <nil>
}

// What do the rules think of 40 m of 8 mm chain?
func ExampleLockerRules() {
	for _, r := range rode.LockerRules() {
		if r.Kind != rode.OfChain {
			continue
		}
		v, err := r.Volume(40*units.Metre, 8*units.Millimetre)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%3.0f l  %s\n", v.Litres(), r.Name)
	}
	// Output:
	// 53 l  handbook, chain
	//  52 l  class rule, chain
	//  52 l  class rule in fathoms, chain
	//  28 l  older class rule, chain
	//  25 l  yard standard, chain
}

// A chain that has stretched by 1 % over its 28 mm still fits, one by 3 % does not.
func ExampleWheelFit_Fits() {
	w := rode.ChainWheel{Pockets: 6, Pitch: 28 * units.Millimetre, Wire: 10 * units.Millimetre, Play: 3 * units.Millimetre}
	for _, pitch := range []units.Length{28 * units.Millimetre, 28.28 * units.Millimetre, 28.84 * units.Millimetre} {
		f, err := w.Fit(rode.Chain{Wire: 10 * units.Millimetre, Pitch: pitch})
		fmt.Printf("%.2f mm: creeps %.1f mm, fits %t %v\n", pitch.Millimetres(), f.Creep.Millimetres(), f.Fits(), err)
	}
	// Output:
	// 28.00 mm: creeps 0.0 mm, fits true <nil>
	// 28.28 mm: creeps 1.7 mm, fits true <nil>
	// 28.84 mm: creeps 5.0 mm, fits false <nil>
}
