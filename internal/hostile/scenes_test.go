package hostile

import (
	"context"
	"fmt"
	"math"
	"reflect"

	"example.com/forepeak/anchor"
	"example.com/forepeak/canvas"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// A scene is a calculation with values that are harder than those of the table.
type scene struct {
	name string
	call any
	args []any
}

func scenes() []scene {
	var list []scene
	add := func(name string, call any, args ...any) { list = append(list, scene{name, call, args}) }

	chain := rode.Rode{Pieces: []rode.Piece{theChain().Piece(40)}}
	rope := rode.Rode{Pieces: []rode.Piece{theRope().Piece(40)}}
	warp := rode.Rode{Pieces: []rode.Piece{theChain().Piece(6), theRope().Piece(60)}}
	float := rode.Rode{Pieces: []rode.Piece{theChain().Piece(20), theRope().Piece(30)}}
	float.Pieces[0].Top = []rode.Fitting{{Name: "float", Mass: 2, Volume: 20 * units.Litre}}
	floating := rode.Rode{Pieces: []rode.Piece{
		theChain().Piece(10), must(rode.RopeByName("polypropylene three-strand 12 mm")).Piece(30), theRope().Piece(20),
	}}
	stiff := theRode()
	for i := range stiff.Pieces {
		stiff.Pieces[i].Stretch = rode.Stretch{}
	}
	level := rode.Site{Depth: 6, Roller: 1.4, Friction: 0.7}
	falling := rode.Site{Depth: 9, Roller: 1.4, Slope: -0.2, Friction: 0.7}
	rising := rode.Site{Depth: 9, Roller: 1.4, Slope: 0.1, Friction: 0.7, Water: 1000}
	dry := rode.Site{Depth: -1, Roller: 3}
	for _, r := range []struct {
		name string
		rode rode.Rode
	}{{"chain", chain}, {"rope", rope}, {"warp", warp}, {"kellet", theRode()}, {"stiff", stiff}, {"float", float}, {"floating rope", floating}} {
		for _, s := range []struct {
			name string
			site rode.Site
		}{{"level", level}, {"falling", falling}, {"rising", rising}, {"dry", dry}} {
			at := r.name + " " + s.name
			if s.site.Slope != 0 && (r.name == "float" || r.name == "floating rope") {
				continue
			}
			for _, pull := range []units.Force{1e-3, 50, 5000} {
				add(fmt.Sprintf("pull %g N on %s", float64(pull), at), rode.Solve, r.rode, s.site, pull)
			}
			add("tension on "+at, rode.SolveTension, r.rode, s.site, units.Force(1800))
			// Slack, hanging, half taut, nearly taut, and as taut as it goes.
			length, rise := float64(r.rode.Length()), float64(s.site.Rise())
			reach := math.Sqrt(length*length - rise*rise)
			for _, share := range []float64{0.8, 0.99, 0.9999, 1 - 1e-7, 1.01} {
				add(fmt.Sprintf("%g of the reach of %s", share, at), rode.SolveDistance, r.rode, s.site, units.Length(share*reach))
			}
		}
	}
	for _, pull := range []units.Force{100, 1000, 10000} {
		add(fmt.Sprintf("length for %g N", float64(pull)), rode.LengthFor, rode.Rode{Pieces: []rode.Piece{theChain().Piece(300)}}, level, pull, units.Angle(0))
	}
	for _, angle := range []units.Angle{0, 0.01, 0.2} {
		add(fmt.Sprintf("pull for an angle of %g", float64(angle)), rode.PullFor, warp, level, angle)
	}
	for _, sheer := range []units.Angle{0, 0.01, 0.4, 1.2} {
		add(fmt.Sprintf("bridle at %g", float64(sheer)), rode.SolveBridle, theBridle(), rode.BridlePull{Horizontal: 3000, Vertical: 400, Sheer: sheer})
	}
	for _, speed := range []units.Speed{0, 0.3, 1.5} {
		add(fmt.Sprintf("surge at %g m/s", float64(speed)), rode.SolveSurge, theSnubbed(), level, rode.Surge{Mass: 9000, Rest: 900, Gust: 2500, Speed: speed})
		add(fmt.Sprintf("surge of a warp at %g m/s", float64(speed)), rode.SolveSurge, warp, level, rode.Surge{Mass: 9000, Rest: 200, Gust: 800, Speed: speed})
	}

	for _, spectrum := range []anchor.Spectrum{anchor.Land, anchor.Sea} {
		for _, hz := range []units.Frequency{1e-4, 0.003, 0.1, 5} {
			add(fmt.Sprintf("%v spectrum at %g Hz", spectrum, float64(hz)), anchor.Gusts.Density, anchor.Gusts{Spectrum: spectrum}, theWind(), hz)
		}
	}
	for _, depth := range []units.Length{0.3, 3, 300} {
		add(fmt.Sprintf("wavelength at %g m", float64(depth)), anchor.Wavelength, units.Time(5), depth)
	}
	lively := theRide()
	lively.Duration, lively.Waves.Height, lively.Rode = 150, 0.6, chain
	add("lively ride", anchor.Ride.Simulate, lively, context.Background())

	for i, k := range []wiring.Working{wiring.Resting, wiring.Hauling} {
		c := must(theWindlass().Circuit(k))
		for _, at := range []wiring.Conditions{{Copper: 260}, {Copper: 360}} {
			add(fmt.Sprintf("circuit %d at %g K", i, float64(at.Copper)), wiring.Solve, c, at)
		}
	}
	for _, amperes := range []units.Current{1, 100, 400} {
		add(fmt.Sprintf("%g A in the copper", float64(amperes)), wiring.SteadyTemperature, theConductor(), units.Celsius(30), amperes)
	}

	crooked := theSurvey()
	for i := range crooked.Tapes {
		crooked.Tapes[i].Distance += units.Length(i%3) * 2 * mm
	}
	add("crooked survey", canvas.Survey.Adjust, crooked)
	many := theLay()
	many.Pieces[0].Quantity, many.Pieces[1].Quantity = 4, 3
	many.Pieces[0].Lie = canvas.AnyWay
	add("canvas.Lay.Plan of many", canvas.Lay.Plan, many, context.Background(), canvas.LayOptions{Seed: 7, Work: 4000, Workers: 2})
	add("canvas.Lay.Plan of rectangles", canvas.Lay.Plan, canvas.Lay{
		Rolls: []canvas.Roll{{Name: "roll", Width: 1.5, Price: 30, Increment: 0.1}},
		Pieces: []canvas.Cutting{
			{Name: "wide", Cut: []canvas.Point{{}, {X: 0.8}, {X: 0.8, Y: 0.7}, {Y: 0.7}}, Quantity: 5},
			{Name: "long", Cut: []canvas.Point{{}, {X: 2.3}, {X: 2.3, Y: 0.31}, {Y: 0.31}}, Quantity: 7},
		},
		Gap: 2 * mm,
	}, context.Background(), canvas.LayOptions{Seed: 3, Work: 2000})

	sheet := canvas.Panel{Name: "sheet", Mirrored: 1, Match: &canvas.Match{At: canvas.Point{X: 0.31, Y: 0.47}, Along: 0.03, Across: 0.02}}
	for _, p := range []canvas.Point{{}, {X: 2}, {X: 2, Y: 2.2}, {Y: 2.1}} {
		sheet.Edges = append(sheet.Edges, canvas.Edge{From: p, Finish: theHem()})
	}
	add("canvas.Lay.PlanCovers on stripes", canvas.Lay.PlanCovers, canvas.Lay{
		Rolls: []canvas.Roll{{Name: "roll", Width: 1.5, Price: 30, Increment: 0.1, Along: 0.09, Across: 0.07, Pattern: canvas.Point{X: 0.01, Y: 0.02}}},
		Gap:   2 * mm,
	}, context.Background(), []canvas.Cover{{Panels: []canvas.Panel{sheet}}}, canvas.Cloth{Warp: -0.02, Weft: -0.01, Lie: canvas.OneWay}, canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm}, canvas.LayOptions{Seed: 5, Work: 2000})

	for _, s := range []string{"12 ft", "-0.3 mm", "1e-3 nmi", "7.25 in", "1 km", "0.1 m", "123456789.125 mm"} {
		add("length "+s, units.ParseLength, s)
	}
	for _, s := range []string{"20 °C", "68 °F", "293.15 K"} {
		add("temperature "+s, units.ParseTemperature, s)
	}
	return list
}

// fresh are the arguments of a scene as those of a calculation.
func (s scene) fresh() reflect.Value {
	f := reflect.TypeOf(s.call)
	fields := make([]reflect.StructField, f.NumIn())
	for i := range fields {
		fields[i] = reflect.StructField{Name: fmt.Sprintf("Arg%d", i), Type: f.In(i)}
	}
	args := reflect.New(reflect.StructOf(fields)).Elem()
	for i, a := range s.args {
		args.Field(i).Set(reflect.ValueOf(a))
	}
	return clone(args)
}
