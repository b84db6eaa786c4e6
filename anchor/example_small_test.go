package anchor_test

import (
	"fmt"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// Wind and stream together, and the part that the rode feels when the boat lies
// 20° off the wind.
func ExampleLoad_Downstream() {
	wind := anchor.Load{X: -600, Y: -350, Yaw: 200}
	stream := anchor.Load{X: -80, Y: 40}
	both := wind.Plus(stream)
	fmt.Printf("%.0f N in all, %.0f N of it down the wind\n",
		both.Force().Newtons(), both.Downstream(20*units.Degree).Newtons())
	// Output:
	// 747 N in all, 745 N of it down the wind
}

func ExamplePlace_From() {
	anchored := anchor.LatLon{Lat: 54.3201 * units.Degree, Lon: 10.1402 * units.Degree}
	boat, err := anchor.PlaceOf(anchored, anchor.LatLon{Lat: 54.3204 * units.Degree, Lon: 10.1405 * units.Degree})
	fmt.Printf("%.1f m east, %.1f m north: %.1f m from the anchor %v\n",
		boat.East.Metres(), boat.North.Metres(), boat.From(anchor.Place{}).Metres(), err)
	// Output:
	// 19.5 m east, 33.4 m north: 38.7 m from the anchor <nil>
}

// The sounder counts from half a metre down.
func ExampleSounding_Depth() {
	s := anchor.Sounding{Shown: 4.3, Offset: 0.5}
	fmt.Printf("%.1f m of water\n", s.Depth().Metres())
	// Output:
	// 4.8 m of water
}

// The load that nine nights in ten stay below, and how well ten nights tell it.
func ExampleGumbel_Quantile() {
	g, err := anchor.FitGumbel([]units.Force{2100, 2600, 1900, 2300, 3100, 2200, 2500, 2000, 2800, 2400})
	if err != nil {
		fmt.Println(err)
		return
	}
	q, err := g.Quantile(0.9)
	fmt.Printf("%.0f N, between %.0f N and %.0f N %v\n", q.Load.Newtons(), q.Low.Newtons(), q.High.Newtons(), err)
	// Output:
	// 2871 N, between 2525 N and 3217 N <nil>
}

// One false alarm in thirty days, for a receiver whose errors last a minute.
func ExampleWatch_Threshold() {
	w := anchor.Watch{Circle: 40, Fix: 2, Memory: 60, Quiet: 30 * units.Day}
	h, err := w.Threshold()
	fmt.Printf("%.1f deviations in all before it is an alarm %v\n", h, err)
	// Output:
	// 8.1 deviations in all before it is an alarm <nil>
}
