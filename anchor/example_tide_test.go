package anchor_test

import (
	"errors"
	"fmt"
	"log"
	"math"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// eveningTide is the tide table of an invented harbour.
func eveningTide() anchor.Tide {
	day := func(hour, minute int) time.Time { return time.Date(2030, 5, 17, hour, minute, 0, 0, time.UTC) }
	return anchor.Tide{Turns: []anchor.Turn{
		{At: day(17, 40), Height: 4.9}, {At: day(24, 5), Height: 0.7}, {At: day(30, 20), Height: 4.7},
	}}
}

// Canadian Tide and Current Tables, table 5, worked for Montague Harbour on 1
// October 2003: 2.2 ft at 0327, 11.4 ft at 1141, and at 0700 5.8 ft.
func ExampleTide_Height() {
	at := func(hour, minute int) time.Time { return time.Date(2003, 10, 1, hour, minute, 0, 0, time.UTC) }
	tide := anchor.Tide{Turns: []anchor.Turn{
		{At: at(3, 27), Height: units.Foot.Scale(2.2)},
		{At: at(11, 41), Height: units.Foot.Scale(11.4)},
	}}
	for _, tide.Rule = range []anchor.TideRule{anchor.Cosine, anchor.Twelfths} {
		h, err := tide.Height(at(7, 0))
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v: %.1f ft\n", tide.Rule, h.Feet())
	}
	_, err := tide.Height(at(12, 0))
	fmt.Println(errors.Is(err, anchor.ErrRange))
	// Output:
	// cosine: 5.8 ft
	// twelfths: 5.9 ft
	// true
}

func ExampleTide_Between() {
	epoch := time.Date(2030, 5, 17, 0, 0, 0, 0, time.UTC)
	tide := anchor.Tide{Mean: 2.6, Epoch: epoch}
	for _, k := range []struct {
		name      string
		amplitude units.Length
		phase     float64 // degrees at the epoch
	}{{"M2", 1.62, 142}, {"S2", 0.53, 173}, {"K1", 0.11, 25}} {
		speed, err := anchor.ConstituentSpeed(k.name)
		if err != nil {
			log.Fatal(err)
		}
		tide.Constituents = append(tide.Constituents, anchor.Constituent{
			Name: k.name, Amplitude: k.amplitude, Phase: units.Degree.Scale(k.phase), Speed: speed,
		})
	}
	turns, err := tide.Between(epoch, epoch.Add(24*time.Hour))
	if err != nil {
		log.Fatal(err)
	}
	for _, t := range turns {
		fmt.Printf("%s  %.2f m  high %t\n", t.At.Format("15:04"), t.Height.Metres(), t.High)
	}
	// Output:
	// 05:04  4.78 m  high true
	// 11:18  0.38 m  high false
	// 17:28  4.68 m  high true
	// 23:33  0.55 m  high false
}

func ExampleTideRule_Risen() {
	for hour := range 7 {
		t, err := anchor.Twelfths.Risen(float64(hour) / 6)
		if err != nil {
			log.Fatal(err)
		}
		c, err := anchor.Cosine.Risen(float64(hour) / 6)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("after %d sixths: twelfths %5.1f %%, cosine %5.1f %%\n", hour, 100*t, 100*c)
	}
	// Output:
	// after 0 sixths: twelfths   0.0 %, cosine   0.0 %
	// after 1 sixths: twelfths   8.3 %, cosine   6.7 %
	// after 2 sixths: twelfths  25.0 %, cosine  25.0 %
	// after 3 sixths: twelfths  50.0 %, cosine  50.0 %
	// after 4 sixths: twelfths  75.0 %, cosine  75.0 %
	// after 5 sixths: twelfths  91.7 %, cosine  93.3 %
	// after 6 sixths: twelfths 100.0 %, cosine 100.0 %
}

func ExampleConstituentSpeed() {
	v, err := anchor.ConstituentSpeed("M2")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.7f degrees an hour, a period of %.2f h\n", v.DegreesPerSecond()*3600, units.Turn.PerAngularSpeed(v).Hours())
	// Output:
	// 28.9841042 degrees an hour, a period of 12.42 h
}

func ExampleSounding_DepthAt() {
	// The sounder shows what is below the transducer, half a metre down.
	s := anchor.Sounding{At: time.Date(2030, 5, 17, 19, 30, 0, 0, time.UTC), Shown: 6.1, Offset: 0.5}
	low := time.Date(2030, 5, 18, 0, 5, 0, 0, time.UTC)
	d, err := s.DepthAt(eveningTide(), low)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f m now, %.1f m at low water\n", s.Depth().Metres(), d.Metres())
	// Output:
	// 6.6 m now, 3.2 m at low water
}

func ExampleSwingCircle() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	boat := anchor.Swing{
		Rode:  rode.Rode{Pieces: []rode.Piece{chain.Piece(35 * units.Metre)}},
		Site:  rode.Site{Depth: 6, Roller: 1.4, Friction: 0.6},
		Stern: 10.4, Antenna: 9,
	}
	for _, pull := range []units.Force{30, 300, 3000} {
		c, err := anchor.SwingCircle(boat, pull)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%4.0f N: bow %.1f m, antenna %.1f m, stern %.1f m from the anchor\n",
			pull.Newtons(), c.Bow.Metres(), c.Antenna.Metres(), c.Stern.Metres())
	}
	// Output:
	// 30 N: bow 30.6 m, antenna 39.6 m, stern 41.0 m from the anchor
	//  300 N: bow 33.2 m, antenna 42.2 m, stern 43.6 m from the anchor
	// 3000 N: bow 34.2 m, antenna 43.2 m, stern 44.6 m from the anchor
}

// Chain and rope side by side: in a breeze they turn together, in a calm the
// rope boat wanders.
func ExampleClearOf() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		log.Fatal(err)
	}
	site := rode.Site{Depth: 6, Roller: 1.4, Friction: 0.6}
	ours := anchor.Swing{
		Rode: rode.Rode{Pieces: []rode.Piece{chain.Piece(35 * units.Metre)}}, Site: site, Stern: 10.4, Beam: 3.3,
	}
	theirs := anchor.Neighbour{
		Bearing: 80 * units.Degree, Distance: 60,
		Swing: anchor.Swing{
			Rode: rode.Rode{Pieces: []rode.Piece{chain.Piece(8 * units.Metre), rope.Wet().Piece(42 * units.Metre)}},
			Site: site, Stern: 9, Beam: 3,
		},
	}
	for _, wind := range []struct {
		name   string
		pull   units.Force
		differ units.Angle // of the headings
	}{{"gale", 2500, 20 * units.Degree}, {"breeze", 300, 45 * units.Degree}, {"calm", 15, 180 * units.Degree}} {
		c, err := anchor.ClearOf(ours, wind.pull, theirs, wind.pull.Scale(0.8), wind.differ)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%-6s %4.1f m clear, circles %.1f m apart\n", wind.name, c.Least.Metres(), c.Apart.Metres())
	}
	// Output:
	// gale   26.6 m clear, circles -47.8 m apart
	// breeze 14.6 m clear, circles -45.3 m apart
	// calm    0.0 m clear, circles -41.3 m apart
}

func ExamplePlanNight() {
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	at := func(hour int) time.Time { return time.Date(2030, 5, 17, hour, 0, 0, 0, time.UTC) }
	night := anchor.Night{
		From: at(20), To: at(30),
		Tide:     eveningTide(),
		Sounding: anchor.Sounding{At: at(19), Shown: 6.1, Offset: 0.5},
		Rode:     rode.Rode{Pieces: []rode.Piece{chain.Piece(60 * units.Metre)}},
		Roller:   1.4, Friction: 0.6,
		Winds: []anchor.NightWind{
			{From: at(18), Pull: 600 * units.Newton},
			{From: at(26), Pull: 1800 * units.Newton}, // a front
		},
		Steepest: 8 * units.Degree,
		Wave:     0.4, TideError: 0.2, Draught: 1.5, UnderKeel: 0.3, Stern: 10.4, Antenna: 9,
	}
	p, err := anchor.PlanNight(night)
	if err != nil {
		log.Fatal(err)
	}
	low, worst := p.Moments[p.Low], p.Moments[p.Worst]
	fmt.Printf("let out %.1f m: it is needed at %s\n", p.Out.Metres(), worst.At.Format("15:04"))
	fmt.Printf("low water %s: %.1f m deep, %.1f m under the keel in a trough, scope %.1f\n",
		low.At.Format("15:04"), low.Depth.Metres(), low.UnderKeel.Metres(), low.Scope)
	fmt.Printf("the stern stays within %.0f m of the anchor\n", p.Widest.Stern.Metres())

	night.Draught = 3.1
	_, err = anchor.PlanNight(night)
	fmt.Println(err)
	fmt.Println(errors.Is(err, anchor.ErrAground))
	// Output:
	// let out 34.8 m: it is needed at 06:00
	// low water 00:05: 2.8 m deep, 0.9 m under the keel in a trough, scope 8.2
	// the stern stays within 45 m of the anchor
	// anchor: not enough water under the keel: clearance over the bed at the anchor at 2030-05-18 00:05 is -0.67 m, want at least 0.3 m
	// true
}

func ExamplePlaceOf() {
	mark := anchor.LatLon{Lat: units.Degree.Scale(56.0321), Lon: units.Degree.Scale(-5.5610)}
	fix := anchor.LatLon{Lat: units.Degree.Scale(56.0318), Lon: units.Degree.Scale(-5.5605)}
	p, err := anchor.PlaceOf(mark, fix)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f m east, %.1f m north, %.1f m away\n", p.East.Metres(), p.North.Metres(), p.From(anchor.Place{}).Metres())
	// Output:
	// 31.2 m east, -33.4 m north, 45.7 m away
}

func ExampleAlarmRadius() {
	// The receiver's maker says 3.5 m for 95 %.
	d, err := anchor.FixDeviation(3.5, 0.95)
	if err != nil {
		log.Fatal(err)
	}
	a, err := anchor.AlarmRadius(anchor.AlarmBudget{Circle: 45, Set: 2, Mark: d, Fix: d, Chance: 0.001})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("set it to %.0f m, of which %.1f m for errors\n", a.Radius.Metres(), a.Errors.Metres())

	// With the antenna's own place marked as the anchor went down, 9 m aft of the roller.
	a, err = anchor.AlarmRadius(anchor.AlarmBudget{Circle: 45, Aft: 9, Set: 2, Mark: d, Fix: d, Chance: 0.001})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("set it to %.0f m\n", a.Radius.Metres())
	// Output:
	// set it to 53 m, of which 6.2 m for errors
	// set it to 62 m
}

func ExampleFixDeviation() {
	for _, fraction := range []float64{0.5, 0.95} {
		d, err := anchor.FixDeviation(3, fraction)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%.0f %% within 3 m: %.2f m along each axis\n", 100*fraction, d.Metres())
	}
	// Output:
	// 50 % within 3 m: 2.55 m along each axis
	// 95 % within 3 m: 1.23 m along each axis
}

func ExampleWatch_Detect() {
	watch := anchor.Watch{Circle: 45, Fix: 1.4, Memory: 120, Quiet: 240 * 3600}
	h, err := watch.Threshold()
	if err != nil {
		log.Fatal(err)
	}
	// A boat that sheers on a circle of 43 m, whose anchor comes home by 2 m a
	// minute from the thirtieth minute on.
	var track []anchor.Fix
	start := time.Date(2030, 5, 17, 23, 0, 0, 0, time.UTC)
	for s := 0; s < 3600; s += 10 {
		t := float64(s)
		sin, cos := math.Sincos(0.3 * math.Sin(t/12))
		home := 2 * max(0, t/60-30)
		track = append(track, anchor.Fix{
			At:    start.Add(time.Duration(s) * time.Second),
			Place: anchor.Place{East: units.Length(43 * sin), North: units.Length(43*cos + home)},
		})
	}
	d, err := watch.Detect(track)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("threshold %.1f; left the circle at %s, alarm at %s, %.1f m outside\n",
		h, d.Since.Format("15:04:05"), d.At.Format("15:04:05"), d.Beyond.Metres())
	// Output:
	// threshold 6.3; left the circle at 23:31:30, alarm at 23:35:00, 7.8 m outside
}

func ExampleWatcher_Add() {
	w, err := anchor.NewWatcher(anchor.Watch{Circle: 45, Fix: 1.4, Memory: 120, Quiet: 240 * 3600})
	if err != nil {
		log.Fatal(err)
	}
	at := time.Date(2030, 5, 17, 23, 0, 0, 0, time.UTC)
	for _, north := range []units.Length{44, 1044, 45, 54, 57, 60, 63} { // the second one is wild
		d, err := w.Add(anchor.Fix{At: at, Place: anchor.Place{North: north}})
		if err != nil {
			log.Fatal(err)
		}
		fmt.Print(d.Found, " ")
		at = at.Add(10 * time.Second)
	}
	// Output:
	// false false false false false true true
}

// A watch that could never tell anything is refused before the night.
func ExampleNewWatcher() {
	watch := anchor.Watch{Circle: 45, Fix: 1.4, Memory: 120, Quiet: 240 * 3600}
	if _, err := anchor.NewWatcher(watch); err != nil {
		log.Fatal(err)
	}
	h, err := watch.Threshold()
	fmt.Printf("alarm above %.1f %v\n", h, err)
	watch.Fix = 0
	_, err = anchor.NewWatcher(watch)
	fmt.Println(err)
	// Output:
	// alarm above 6.3 <nil>
	// anchor: value not accepted: Fix is 0 m, want from 0.001 m to 1000 m
}
