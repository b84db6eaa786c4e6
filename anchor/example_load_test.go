package anchor_test

import (
	"fmt"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// The invented boat of the examples: a sloop of 10.4 m.
var grebe = anchor.Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1, Rig: anchor.Sloop}

var grebeBelow = anchor.Underwater{
	Length: 9, Beam: 3, Draught: 0.55, Mass: 6 * units.Tonne,
	Fins: []anchor.Fin{
		{Name: "keel", Side: 2.6, Chord: 1.9, Station: 0.2},
		{Name: "rudder", Side: 0.7, Chord: 0.5, Station: -3.9},
	},
	Propellers: []anchor.Propeller{{Diameter: 17 * units.Inch}},
}

func ExampleAir_Density() {
	for _, a := range []anchor.Air{{}, {Temperature: units.Celsius(30), Pressure: 1000 * units.Hectopascal, Humidity: 0.8}} {
		rho, err := a.Density()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.3f kg/m³\n", rho.KilogramsPerCubicMetre())
	}
	// Output:
	// 1.225 kg/m³
	// 1.134 kg/m³
}

func ExampleWind_At() {
	w := anchor.Wind{Speed: 30 * units.Knot} // at 10 m
	for _, h := range []units.Length{1, 5, 15} {
		v, err := w.At(h)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%4.1f kn at %2.0f m\n", v.Knots(), h.Metres())
	}
	// Output:
	// 21.6 kn at  1 m
	// 27.2 kn at  5 m
	// 31.8 kn at 15 m
}

func ExampleWind_Pressure() {
	q, err := anchor.Wind{Speed: 30 * units.Knot}.Pressure()
	fmt.Printf("%.0f Pa %v\n", q.Pascals(), err)
	// Output:
	// 146 Pa <nil>
}

// Coastal Engineering Manual, example II-2-1: means of 5 minutes become hourly ones.
func ExampleGustFactor() {
	f, err := anchor.GustFactor(5*60, 3600)
	fmt.Printf("%.2f %v\n", f, err)
	for _, v := range []units.Speed{20.3, 24.8, 28.2} {
		fmt.Printf("%.1f m/s becomes %.1f m/s\n", v.MetresPerSecond(), v.Scale(1/f).MetresPerSecond())
	}
	// Output:
	// 1.09 <nil>
	// 20.3 m/s becomes 18.6 m/s
	// 24.8 m/s becomes 22.7 m/s
	// 28.2 m/s becomes 25.9 m/s
}

// How much stronger than a forecast of ten minutes' mean is a gust of three seconds?
func ExampleExposure_GustFactor() {
	for _, e := range []anchor.Exposure{anchor.AtSea, anchor.OffSea, anchor.OffLand} {
		f, err := e.GustFactor(3, 600)
		fmt.Printf("%v: %.2f %v\n", e, f, err)
	}
	// Output:
	// at-sea: 1.23 <nil>
	// off-sea: 1.38 <nil>
	// off-land: 1.52 <nil>
}

func ExampleWires_Part() {
	shrouds := anchor.Wires{Name: "shrouds", Diameter: 8 * units.Millimetre, Length: 62, Bottom: 1.1, Top: 13}.Part()
	fmt.Printf("%.2f m² %v\n", shrouds.Side.SquareMetres(), shrouds.Shape)
	// Output:
	// 0.50 m² round
}

// A steel cutter is measured part by part.
func ExampleWindage_Load() {
	b := anchor.Windage{Parts: []anchor.Part{
		{Name: "hull", Front: 3.1, Side: 11, DragFront: 0.6, Top: 1.1, Length: 10},
		{Name: "house", Front: 0.9, Side: 2.2, DragFront: 0.8, Bottom: 1.1, Top: 1.7, Length: 4},
		{Name: "mast", Shape: anchor.Round, Front: 1.8, Side: 1.8, DragFront: 1, DragSide: 1, Bottom: 1.1, Top: 13.5, Station: 0.8},
		anchor.Wires{Name: "rigging", Diameter: 8 * units.Millimetre, Length: 100, Bottom: 1.1, Top: 13}.Part(),
	}}
	for _, from := range []units.Angle{0, 30 * units.Degree, 60 * units.Degree} {
		l, err := b.Load(anchor.Wind{Speed: 30 * units.Knot}, from)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f°: aft %4.0f N, to port %4.0f N, %.1f m above the water\n",
			from.Degrees(), l.X.Abs().Newtons(), l.Y.Abs().Newtons(), l.Height.Metres())
	}
	// Output:
	// 0°: aft  528 N, to port    0 N, 5.5 m above the water
	// 30°: aft  457 N, to port  601 N, 5.5 m above the water
	// 60°: aft  264 N, to port 1119 N, 5.5 m above the water
}

func ExampleWindage_SpeedFor() {
	b, err := anchor.Estimate(grebe)
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := b.SpeedFor(1500*units.Newton, anchor.Wind{})
	fmt.Printf("%.0f kn %v\n", v.Knots(), err)
	// Output:
	// 38 kn <nil>
}

func ExampleEstimate() {
	b, err := anchor.Estimate(grebe)
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := b.Load(anchor.Wind{Speed: 30 * units.Knot}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	f := l.Force()
	fmt.Printf("%.0f N, between %.0f N and %.0f N\n",
		f.Newtons(), f.Newtons()/anchor.EstimateSpread, f.Newtons()*anchor.EstimateSpread)
	// Output:
	// 946 N, between 701 N and 1277 N
}

func ExampleUnderwater_Load() {
	stream := anchor.Current{Speed: 2 * units.Knot, Depth: 5}
	for _, from := range []units.Angle{0, 20 * units.Degree} {
		l, err := grebeBelow.Load(stream, from)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f°: %.0f N along (propeller %.0f N), %.0f N across\n", from.Degrees(),
			l.X.Abs().Newtons(), l.Propellers.X.Abs().Newtons(), l.Y.Abs().Newtons())
	}
	// Output:
	// 0°: 100 N along (propeller 40 N), 0 N across
	// 20°: 94 N along (propeller 37 N), 1231 N across
}

func ExampleLie() {
	b, err := anchor.Estimate(grebe)
	if err != nil {
		fmt.Println(err)
		return
	}
	wind, stream := anchor.Wind{Speed: 20 * units.Knot}, anchor.Current{Speed: 1 * units.Knot, Depth: 6}
	for _, apart := range []units.Angle{0, 90 * units.Degree, 180 * units.Degree} {
		ways, err := anchor.Lie(b, grebeBelow, wind, stream, apart, 5)
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, l := range ways {
			fmt.Printf("stream %3.0f° from the wind: wind at %4.0f°, stream at %3.0f°, rode %4.0f° off the bow, pull %.0f N\n", apart.Degrees(),
				l.WindFrom.Degrees(), l.CurrentFrom.Degrees(), l.RodeTo.Degrees(), l.Pull.Newtons())
		}
	}
	// Output:
	// stream   0° from the wind: wind at    0°, stream at   0°, rode    0° off the bow, pull 448 N
	// stream  90° from the wind: wind at  -52°, stream at  38°, rode  -15° off the bow, pull 287 N
	// stream 180° from the wind: wind at  180°, stream at   0°, rode  180° off the bow, pull 393 N
}

func ExampleWavelength() {
	l, err := anchor.Wavelength(4, 5)
	fmt.Printf("%.1f m %v\n", l.Metres(), err)
	// Output:
	// 22.2 m <nil>
}

// Coastal Engineering Manual, example II-1-3: a wave of 3 m and 10 s in 12 m.
func ExampleWaves_Surge() {
	s, err := anchor.Waves{Height: 3, Period: 10, Depth: 12}.Surge(9)
	fmt.Printf("water %.2f m, boat %.2f m, %.1f m/s %v\n", s.Amplitude.Metres(), s.Boat.Metres(), s.Speed.MetresPerSecond(), err)
	// Output:
	// water 2.35 m, boat 2.32 m, 1.5 m/s <nil>
}

func ExampleWaves_Drift() {
	d, err := anchor.Waves{Height: 0.6, Period: 3, Depth: 5}.Drift(3.2, 25*units.Degree)
	fmt.Printf("%.0f N to %.0f N %v\n", d.Low.Newtons(), d.High.Newtons(), err)
	// Output:
	// 142 N to 792 N <nil>
}

func ExampleFrictionCoefficient() {
	c, err := anchor.FrictionCoefficient(1e7)
	fmt.Printf("%.6f %v\n", c, err)
	// Output:
	// 0.003000 <nil>
}

func ExampleCurrent_Reynolds() {
	re, err := anchor.Current{Speed: 1 * units.Knot, Depth: 5}.Reynolds(9)
	fmt.Printf("%.2g %v\n", re, err)
	// Output:
	// 3.9e+06 <nil>
}

func ExampleLoad() {
	wind := anchor.Load{X: -900, Y: -200}
	both := wind.Plus(anchor.Load{X: -100})
	fmt.Printf("%.0f N, %.0f N down a wind from 10°\n", both.Force().Newtons(), both.Downstream(10*units.Degree).Newtons())
	// Output:
	// 1020 N, 1020 N down a wind from 10°
}

// Wind on the beam and a current from ahead: how much is it together?
func ExampleLoad_Plus() {
	wind := anchor.Load{Y: -1200 * units.Newton, Yaw: 300 * units.NewtonMetre}
	current := anchor.Load{X: -400 * units.Newton, Y: -100 * units.Newton, Yaw: -150 * units.NewtonMetre}
	sum := wind.Plus(current)
	fmt.Printf("%.0f N aft, %.0f N to port, turning the bow to starboard with %.0f N m\n", -sum.X.Newtons(), -sum.Y.Newtons(), sum.Yaw.NewtonMetres())
	// Output:
	// 400 N aft, 1300 N to port, turning the bow to starboard with 150 N m
}

// The rode feels the size of the force, whichever way it points.
func ExampleLoad_Force() {
	l := anchor.Load{X: -400 * units.Newton, Y: -300 * units.Newton}
	fmt.Println(l.Force())
	// Output:
	// 500 N
}
