package canvas_test

import (
	"fmt"
	"log"
	"math"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// A flatter edge pulls harder: 3 m of edge in a cloth that pulls with 200 N/m.
func ExampleArcEdge() {
	for _, hollow := range []units.Length{0.15, 0.24, 0.3, 0.36} {
		e, err := canvas.ArcEdge(3, hollow, 200*units.NewtonPerMetre)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%2.0f %%: %.0f N, %.1f° to the chord\n", 100*hollow.Per(3), e.End.Newtons(), e.Angle.Degrees())
	}
	// Output:
	//  5 %: 1515 N, 11.4° to the chord
	//  8 %: 962 N, 18.2° to the chord
	// 10 %: 780 N, 22.6° to the chord
	// 12 %: 661 N, 27.0° to the chord
}

// A cord that holds strips of cloth which all run square to it.
func ExampleParabolaEdge() {
	e, err := canvas.ParabolaEdge(5, 0.5, 1*units.KilonewtonPerMetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3v in the middle, %.4v at the ends, %.4f m of cord\n", e.Middle, e.End, e.Length.Metres())
	// Output: 6.25 kN in the middle, 6.731 kN at the ends, 5.1303 m of cord
}

// How much a taut cloth gains by being taut.
func ExampleMembrane_Pull() {
	for _, prestress := range []units.ForcePerLength{0, 100, 500} {
		m := canvas.Membrane{Span: 2.4, Prestress: prestress, Stiffness: 60 * units.KilonewtonPerMetre}
		pull, sag, err := m.Pull(60 * units.Pascal)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("set up with %3.0f N/m: %.0f N/m in the gust, sag %.0f mm\n", prestress.NewtonsPerMetre(), pull.NewtonsPerMetre(), sag.Millimetres())
	}
	// Output:
	// set up with   0 N/m: 375 N/m in the gust, sag 116 mm
	// set up with 100 N/m: 411 N/m in the gust, sag 106 mm
	// set up with 500 N/m: 631 N/m in the gust, sag 69 mm
}

// Eight bottles of 1.5 litres laid out evenly on 4 square metres are 29 Pa. The
// edges of an awning give, so that it is much softer than its cloth.
func ExampleMembrane_Measured() {
	m := canvas.Membrane{Span: 2.4, Prestress: 60 * units.NewtonPerMetre}
	ea, err := m.Measured(29*units.Pascal, 150*units.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f kN/m\n", ea.KilonewtonsPerMetre())
	// Output: 7.8 kN/m
}

func ExampleSagPull() {
	pull, err := canvas.SagPull(2.4, 40*units.Millimetre, 6*units.Pascal)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f N/m\n", pull.NewtonsPerMetre())
	// Output: 108 N/m
}

func ExampleWaterPull() {
	pull, err := canvas.WaterPull(2.4)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f kN/m: make it drain\n", pull.KilonewtonsPerMetre())
	// Output: 5.7 kN/m: make it drain
}

// A forecast of 20 kn at 10 m, two metres above the sea.
func ExampleWind_At() {
	g, err := canvas.Wind{Mean: 20 * units.Knot, Height: 10 * units.Metre}.At(2 * units.Metre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f kn, gusts of %.0f kn press with %.0f Pa\n", g.Mean.Knots(), g.Gust.Knots(), g.Pressure.Pascals())
	// Output: 16 kn, gusts of 23 kn press with 88 Pa
}

func ExampleCanopy_Coefficients() {
	k, err := canvas.Canopy{Pitch: 10 * units.Degree, Blockage: 0.5}.Coefficients()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("whole %+.2f and %+.2f, middle of the cloth %+.2f and %+.2f\n", k.Down, k.Up, k.MiddleDown, k.MiddleUp)
	// Output: whole +0.50 and -1.15, middle of the cloth +1.20 and -1.80
}

// small is an awning over a cockpit.
func small() canvas.Awning {
	tie := canvas.Tie{Strap: 8 * units.Kilonewton, Lashing: 4 * units.Kilonewton, Parts: 4, Fixing: 2 * units.Kilonewton}
	a := canvas.Awning{
		Name: "cockpit awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: 40 * units.Millimetre},
		Canopy: canvas.Canopy{Pitch: 10 * units.Degree, Blockage: 0.3}, Above: 2.5 * units.Metre, Heel: 5 * units.Degree, Flutter: 1.5,
		Weight: 6 * units.Pascal, Prestress: 60 * units.NewtonPerMetre, Stiffness: 8 * units.KilonewtonPerMetre,
		Strength: 25 * units.KilonewtonPerMetre, Layers: 3, Safety: 4,
	}
	for i, p := range []canvas.Point{{X: 0, Y: 0}, {X: 2.4, Y: 0}, {X: 2.2, Y: 2}, {X: 0.2, Y: 2}} {
		a.Edges = append(a.Edges, canvas.AwningEdge{Name: []string{"aft", "starboard", "fore", "port"}[i], From: p, Hollow: 0.08, Tape: 12 * units.Kilonewton, Tie: tie})
	}
	return a
}

func ExampleAwning_Plan() {
	p, err := small().Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
	if err != nil {
		log.Fatal(err)
	}
	for _, k := range p.Cases {
		fmt.Printf("%-28s cloth %3.0f N/m, first corner %4.0f N, %.0f %% of what %s may carry\n",
			k.Name, k.Pull.NewtonsPerMetre(), k.Corners[0].Pull.Newtons(), 100*k.Used, k.Weakest)
	}
	fmt.Printf("strike it at %.0f kn\n", math.Floor(p.Strike.Wind.Knots()))
	// Output:
	// calm                         cloth  70 N/m, first corner  452 N, 23 % of what strap of corner 1 may carry
	// gust down                    cloth 166 N/m, first corner 1075 N, 54 % of what strap of corner 1 may carry
	// gust up                      cloth 174 N/m, first corner 1128 N, 56 % of what strap of corner 1 may carry
	// gust down, heel and flutter  cloth 224 N/m, first corner 1445 N, 72 % of what strap of corner 1 may carry
	// gust up, heel and flutter    cloth 238 N/m, first corner 1537 N, 77 % of what strap of corner 1 may carry
	// strike it at 14 kn
}

// What is cut and sewn, with what has to be said about it.
func ExampleAwningPlan_Cover() {
	p, err := small().Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
	if err != nil {
		log.Fatal(err)
	}
	v := p.Cover()
	fmt.Println(len(v.Panels), "panel")
	fmt.Println(v.Remarks[0])
	// Output:
	// 1 panel
	// strike it at 14 kn of mean wind, when the strap of corner 1 carries all it may
}

// What must each corner's fixing hold in the worst case?
func ExampleAwningPlan_Worst() {
	p, err := small().Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
	if err != nil {
		log.Fatal(err)
	}
	for i := range 4 {
		w := p.Worst(i)
		fmt.Printf("corner %d: %4.0f N, %.0f N of it square to the cloth\n", i+1, w.Pull.Newtons(), w.Out.Abs().Newtons())
	}
	// Output:
	// corner 1: 1537 N, 47 N of it square to the cloth
	// corner 2: 1537 N, 47 N of it square to the cloth
	// corner 3: 1328 N, 46 N of it square to the cloth
	// corner 4: 1328 N, 46 N of it square to the cloth
}
