package anchor_test

import (
	"context"
	"fmt"
	"maps"
	"math"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// What is put together from other calculations, in cases that somebody has worked out.

func init() {
	maps.Copy(handlers, map[string]refcheck.Handler{
		"anchor.Place.From": func(in refcheck.Inputs) (any, error) {
			return anchor.Place{North: in.Length("north"), East: in.Length("east")}.From(anchor.Place{}), nil
		},
		"anchor.Windage.SpeedFor": func(in refcheck.Inputs) (any, error) {
			b := anchor.Windage{Parts: []anchor.Part{{Shape: anchor.Block, Front: in.Area("A"), Bottom: 10, Top: 10}}}
			return b.SpeedFor(in.Force("F"), anchor.Wind{Air: anchor.Air{Temperature: in.Temperature("t")}})
		},
		// Without a current she lies head to wind.
		"anchor.Lie#pull": func(in refcheck.Inputs) (any, error) {
			a := in.Area("A")
			b := anchor.Windage{Parts: []anchor.Part{{Shape: anchor.Block, Front: a, Side: a, Bottom: 10, Top: 10}}}
			lying, err := anchor.Lie(b, anchor.Underwater{Length: 12, Beam: 4, Draught: 0.5, Mass: 9000},
				anchor.Wind{Speed: in.Speed("V"), Air: anchor.Air{Temperature: in.Temperature("t")}}, anchor.Current{Depth: 100}, 0, 6)
			if err != nil {
				return nil, err
			}
			return lying[0].Pull, nil
		},
		"anchor.Gusts.Density": func(in refcheck.Inputs) (any, error) {
			return anchor.Gusts{Spectrum: anchor.Sea}.Density(anchor.Wind{Speed: in.Speed("U")}, in.Frequency("f"))
		},
		"anchor.Drive.Gears": func(in refcheck.Inputs) (any, error) {
			g, err := anchor.Drive{
				Voltage: 12, Gear: anchor.Gear{Running: in.Float("running")},
				Points: []anchor.DrivePoint{{Pull: 1000, Speed: 0.2, Current: 60}, {Pull: 3000, Speed: 0.1, Current: 160}},
			}.Gears()
			if g.BackDriving > 0 {
				return "runs back", err
			}
			return "locks", err
		},
		// Weight in water to a metre.
		"anchor.HangingWeight#line": func(in refcheck.Inputs) (any, error) {
			d := in.Length("diameter")
			mass := in.LinearDensity("mass")
			line := rode.Piece{Length: 400, Mass: mass, Density: units.Density(4 * float64(mass) / (math.Pi * float64(d) * float64(d)))}
			r := rode.Rode{Pieces: []rode.Piece{line}}
			site := rode.Site{Depth: 200}
			w, err := anchor.HangingWeight(r, site, 1, 100)
			if err != nil {
				return nil, err
			}
			half, err := anchor.HangingWeight(r, site, 1, 50)
			return (w - half).PerLength(50), err
		},
		// How much lighter an anchor is in the water than in the air.
		"anchor.HangingWeight#lighter": func(in refcheck.Inputs) (any, error) {
			thread := rode.Rode{Pieces: []rode.Piece{{Length: 50, Mass: 1e-9, Density: rode.Steel}}}
			site := rode.Site{Depth: 20, Roller: 5, Water: in.Density("water")}
			dry, err := anchor.HangingWeight(thread, site, in.Mass("anchor"), 4)
			if err != nil {
				return nil, err
			}
			wet, err := anchor.HangingWeight(thread, site, in.Mass("anchor"), 8)
			return dry - wet, err
		},
		// A chain hung from a roof and got up.
		"anchor.Windlass.Retrieve#work": func(in refcheck.Inputs) (any, error) {
			l := in.Length("length")
			w := anchor.Windlass{Drive: anchor.Drive{Voltage: 12, Points: []anchor.DrivePoint{
				{Pull: 1, Speed: 0.2, Current: 60}, {Pull: 3000, Speed: 0.1, Current: 160},
			}}}
			r, err := w.Retrieve(anchor.Haul{
				Rode:   rode.Rode{Pieces: []rode.Piece{{Length: l, Mass: in.ForcePerLength("weight").Mass(), Density: rode.Steel}}},
				Site:   rode.Site{Depth: 1e-6, Roller: l - 1e-5},
				Anchor: 1e-6, Travel: 0.01, Supply: anchor.Supply{Voltage: 12},
			})
			return r.Work, err
		},
		// A taut rode over a bed just below the roller.
		"anchor.SwingCircle#antenna": func(in refcheck.Inputs) (any, error) {
			c, err := anchor.SwingCircle(taut(in.Length("rode"), in.Length("antenna"), 0), 100*units.Kilonewton)
			return c.Antenna, err
		},
		"anchor.ClearOf": func(in refcheck.Inputs) (any, error) {
			const pull = 100 * units.Kilonewton
			c, err := anchor.ClearOf(taut(in.Length("bow"), in.Length("long"), in.Length("beam")), pull, anchor.Neighbour{
				Bearing: in.Angle("bearing"), Distance: in.Length("distance"),
				Swing: taut(in.Length("theirbow"), in.Length("theirlong"), in.Length("beam")),
			}, pull, in.Angle("differ"))
			return c.Least, err
		},
		"anchor.PlanNight#needed": func(in refcheck.Inputs) (any, error) {
			from := at(20, 0)
			w := in.ForcePerLength("w")
			n := anchor.Night{
				From: from, To: from.Add(2 * time.Hour), Sounding: anchor.Sounding{At: from, Shown: in.Length("rise")},
				Rode:    rode.Rode{Pieces: []rode.Piece{{Length: in.Length("rise").Scale(15), Mass: w.Mass(), Density: math.MaxFloat64}}},
				Draught: 1,
			}
			pull := units.Force(0)
			if in.Has("H") {
				pull = in.Force("H")
			} else {
				pull = in.Force("T") - w.TimesLength(in.Length("rise")) // of a catenary, whose lowest point is the anchor
			}
			n.Winds = []anchor.NightWind{{From: from, Pull: pull}}
			p, err := anchor.PlanNight(n)
			return p.Needed, err
		},
		"anchor.Tide.Between#period": func(in refcheck.Inputs) (any, error) {
			v, err := anchor.ConstituentSpeed(in.Text("name"))
			if err != nil {
				return nil, err
			}
			from := at(0, 0)
			turns, err := anchor.Tide{Epoch: from, Constituents: []anchor.Constituent{{Name: in.Text("name"), Speed: v, Amplitude: 1, Phase: units.Degree.Scale(77)}}}.
				Between(from, from.AddDate(0, 0, 60))
			if err != nil {
				return nil, err
			}
			var high []time.Time
			for _, t := range turns {
				if t.Height > 0.5 {
					high = append(high, t.At)
				}
			}
			n := len(high) - 1
			return units.Time(high[n].Sub(high[0]).Seconds() / float64(n)), nil
		},
		"anchor.Underwater.AddedMass#hull": func(in refcheck.Inputs) (any, error) {
			t := in.Length("draught")
			a, err := anchor.Underwater{Length: 12, Beam: 4, Draught: t, Mass: 9000}.AddedMass(anchor.Current{Depth: 100})
			return float64(a.Across) / (math.Pi * float64(rode.SeaWater) * float64(t) * float64(t) * 12), err
		},
		"anchor.Underwater.AddedMass#fin": func(in refcheck.Inputs) (any, error) {
			depth := in.Length("depth")
			u := anchor.Underwater{Length: 12, Beam: 4, Draught: 0.5, Mass: 9000}
			bare, err := u.AddedMass(anchor.Current{Depth: 100})
			if err != nil {
				return nil, err
			}
			u.Fins = []anchor.Fin{{Side: depth.TimesLength(2), Chord: 2}}
			with, err := u.AddedMass(anchor.Current{Depth: 100})
			return float64(with.Across-bare.Across) / (math.Pi * float64(rode.SeaWater) * float64(depth) * float64(depth) * 2), err
		},
		// A short boat on a rode that hardly holds her moves with the water. The waves of the source are
		// taken a hundred times smaller, where their drag on the hull is nothing, and what she does a
		// hundred times larger.
		"anchor.Ride.Simulate#surge": func(in refcheck.Inputs) (any, error) {
			const every = 100 * units.Millisecond
			t := in.Time("T")
			r, err := anchor.Ride{
				Above: anchor.Windage{Parts: []anchor.Part{{Shape: anchor.Block, Front: 1e-3, Side: 1e-3, Bottom: 1, Top: 2}}},
				Below: anchor.Underwater{Length: 1.5, Beam: 1, Draught: 0.3, Mass: 200}, Ahead: 0.75,
				Surging: 100, Swaying: 20, Yawing: 20,
				Rode:    rode.Rode{Pieces: []rode.Piece{{Kind: rode.OfRope, Length: in.Length("d") + 4, Mass: 1e-3, Density: rode.SeaWater + 0.1, Stretch: rode.LinearStretch(60)}}},
				Site:    rode.Site{Depth: in.Length("d"), Roller: 0.5},
				Wind:    anchor.Wind{Speed: 1},
				Gusts:   anchor.Gusts{Intensity: 1e-6},
				Current: anchor.Current{Depth: in.Length("d")},
				Waves:   anchor.Waves{Height: in.Length("H"), Period: t}, Regular: true,
				Settle: units.Hour, Duration: 5 * units.Minute, Every: every,
			}.Simulate(context.Background(), nil)
			if err != nil {
				return nil, err
			}
			// The mean over half a period before and after takes away where she drifts.
			half, most := int(math.Round(t.Per(every)/2)), 0.0
			for i := half; i < len(r.Track)-half; i++ {
				around := (r.Track[i-half].Downwind + r.Track[i+half].Downwind) / 2
				most = math.Max(most, float64(r.Track[i].Downwind-around)/2)
			}
			return units.Length(most), nil
		},
		// In a wind that hardly gusts the greatest pull is the steady one.
		"anchor.Ride.Realise#steady": func(in refcheck.Inputs) (any, error) {
			a := in.Area("A")
			x, err := anchor.Ride{
				Above: anchor.Windage{Parts: []anchor.Part{{Shape: anchor.Block, Front: a, Side: a, Bottom: 10, Top: 10}}},
				Below: anchor.Underwater{Length: 1.5, Beam: 1, Draught: 0.3, Mass: 200}, Ahead: 0.75,
				Surging: 10, Swaying: 10, Yawing: 10,
				Rode:    rode.Rode{Pieces: []rode.Piece{{Kind: rode.OfRope, Length: 200, Mass: 1e-3, Density: rode.SeaWater + 0.1, Stretch: rode.LinearStretch(6000)}}},
				Site:    rode.Site{Depth: 5, Roller: 0.5},
				Wind:    anchor.Wind{Speed: in.Speed("V"), Air: anchor.Air{Temperature: in.Temperature("t")}},
				Gusts:   anchor.Gusts{Intensity: 1e-6},
				Current: anchor.Current{Depth: 5},
				Settle:  10 * units.Minute, Duration: 5 * units.Minute,
			}.Realise(context.Background(), 10, nil)
			return x.Expected, err
		},
		"anchor.Watch.Detect#alarm": func(in refcheck.Inputs) (any, error) {
			d, err := chart(in).Detect(charted(in))
			return samples(d.At), err
		},
		"anchor.Watcher.Add#since": func(in refcheck.Inputs) (any, error) {
			w, err := anchor.NewWatcher(chart(in))
			if err != nil {
				return nil, err
			}
			for _, f := range charted(in) {
				d, err := w.Add(f)
				if err != nil {
					return nil, err
				}
				if d.Found {
					return samples(d.Since), nil
				}
			}
			return nil, fmt.Errorf("no alarm")
		},
	})
}

// taut is a boat on a rode that nothing bends and nothing stretches; long is what
// lies abaft the roller.
func taut(length, long, beam units.Length) anchor.Swing {
	return anchor.Swing{
		Rode: rode.Rode{Pieces: []rode.Piece{{Length: length, Mass: 1e-6, Density: rode.Steel}}},
		Site: rode.Site{Depth: units.Millimetre}, Stern: long, Antenna: long, Beam: beam,
	}
}

// chart watches samples instead of fixes: their target is the circle and an error
// lasts half a sample, so that each counts in full.
func chart(in refcheck.Inputs) anchor.Watch {
	return anchor.Watch{Circle: units.Length(in.Float("target")), Fix: units.Length(in.Float("deviation")), Memory: 30, Quiet: units.Time(60 * in.Float("runs"))}
}

// charted has a sample a minute, the first one before them on target.
func charted(in refcheck.Inputs) []anchor.Fix {
	fixes := []anchor.Fix{{At: at(0, 0), Place: anchor.Place{East: units.Length(in.Float("target"))}}}
	for i := 1; in.Has(fmt.Sprint("x", i)); i++ {
		fixes = append(fixes, anchor.Fix{At: at(0, i), Place: anchor.Place{East: units.Length(in.Float(fmt.Sprint("x", i)))}})
	}
	return fixes
}

func samples(t time.Time) int { return int(t.Sub(at(0, 0)).Minutes() + 0.5) }
