package hostile

import (
	"encoding"
	"math"
	"reflect"
	"strings"
	"time"

	"example.com/forepeak/anchor"
	anchordraw "example.com/forepeak/anchor/draw"
	"example.com/forepeak/canvas"
	canvaspattern "example.com/forepeak/canvas/pattern"
	"example.com/forepeak/rode"
	rodedraw "example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	wiringdraw "example.com/forepeak/wiring/draw"
)

// with returns v after a change.
func with[T any](v T, change func(*T)) T {
	change(&v)
	return v
}

func init() {
	alsoRode()
	alsoAnchor()
	alsoWiring()
	alsoCanvas()
	alsoDraw()
	for _, s := range []string{"7/8 in", "6 ft 7 1/2 in", "1e-3 m", ".5 m", "1.25e3mm"} {
		also["units.ParseLength s"] = append(also["units.ParseLength s"], func() any { return s })
	}
	for _, t := range types {
		v := reflect.New(t)
		m, ok := v.Interface().(encoding.TextMarshaler)
		if !ok || t.Kind() != reflect.Float64 || !strings.HasSuffix(t.PkgPath(), "/units") {
			continue
		}
		v.Elem().SetFloat(2)
		text := must(m.MarshalText())
		parse, unmarshal := "units.Parse"+t.Name()+" s", "units."+t.Name()+".UnmarshalText 1"
		also[parse] = append(also[parse], func() any { return string(text) })
		also[unmarshal] = append(also[unmarshal], func() any { return text })
	}
}

func alsoRode() {
	add := alsoType
	floating := must(rode.RopeByName("polypropylene three-strand 12 mm"))
	buoyed := rode.Rode{Pieces: []rode.Piece{theChain().Piece(20), theRope().Piece(30)}}
	buoyed.Pieces[0].Top = []rode.Fitting{{Name: "float", Mass: 2, Volume: 20 * units.Litre}}
	buoyed.AtAnchor = []rode.Fitting{{Name: "swivel", Mass: 1, Working: 8000, Breaking: 30000}}
	level := rode.Site{Depth: 6, Roller: 1.4}
	add(func() any { return copied(buoyed) })
	add(func() any {
		return rode.Rode{Pieces: []rode.Piece{theChain().Piece(10), floating.Piece(30), theRope().Piece(20)}}
	})
	add(func() any { return rode.Rode{Pieces: []rode.Piece{{Length: 60, Mass: 2, Density: 7800}}} })
	add(func() any { return level })
	add(func() any { return rode.Site{Depth: -1, Roller: 3, Slope: -0.1, Friction: 0.5} }) // the anchor ashore
	add(func() any { return floating })
	add(func() any { return with(theRope(), func(r *rode.Rope) { r.Stretch = rode.Stretch{} }) })
	add(func() any { return with(theSnubber(), func(s *rode.Snubber) { s.Legs, s.Slack = 2, 0 }) })
	add(func() any { return rode.Surge{Mass: 9000, Rest: 900, Speed: 0.3} }) // no gust
	add(func() any { return rode.Surge{Mass: 9000, Gust: 2000} })
	add(func() any {
		return rode.Bridle{Rope: theRope(), Spread: 4, Port: 6, Starboard: 9}
	})
	add(func() any { return rode.Counter{Setting: 0.33, Pulses: 2, Step: 0.5, Nearest: true, Missed: 0.01} })
	add(func() any { return rode.Scale{Chain: 0.336, ChainU: 0.002} }) // no rope
	add(func() any { return rode.Scale{Rope: 0.31} })
	add(func() any { return rode.LayErrors{} })
	add(func() any { return rode.LayErrors{Tape: 0.01, TapeScale: 1e-4, Repeat: 1e-5} })
	add(func() any { return []rode.Lay{{From: 0, To: 20, Taped: 20.4}} })
	add(func() any {
		return []rode.Lay{{From: 0, To: 10, Taped: 10.2}, {From: 20, To: 3, Taped: 17.4}, {From: 0, To: 30, Taped: 30.6}, {From: 30, To: 0, Taped: 30.5}}
	})
	// All read at changes of the display, taped without an error.
	add(func() any {
		list := theLays()
		for i := range list {
			list[i].Taped = units.Length(math.Abs(float64(list[i].To-list[i].From)) * 1.01)
		}
		return append(list, list...)
	})
	one := rode.Lay{From: 0, To: 20, Taped: 20.4}
	changes := rode.Lay{From: 0, To: 20, Taped: 20.36, FromAtChange: true, ToAtChange: true}
	together["rode.Calibrate"] = []map[string]any{
		{"lays": []rode.Lay{one}, "e": rode.LayErrors{}},
		{"lays": []rode.Lay{one}, "e": rode.LayErrors{Repeat: 1e-5}},
		{"lays": append(theLays(), theLays()...), "e": rode.LayErrors{}},
		{"lays": []rode.Lay{one, one, one, {From: 0, To: 10, Taped: 10.2}}, "e": rode.LayErrors{}},
		{"lays": []rode.Lay{changes, changes, changes}, "e": rode.LayErrors{}}, // all in perfect agreement
		{"lays": []rode.Lay{one, changes}, "e": rode.LayErrors{Tape: 0.01}},
	}
	for _, e := range []rode.LayErrors{{}, {Repeat: 1e-5}} {
		add(func() any { return must(rode.Calibrate(theCounter(), []rode.Lay{one}, e)) })
	}
	add(func() any {
		return must(rode.Calibrate(theCounter(), append(theLays(), theLays()...), rode.LayErrors{}))
	})
	add(func() any { return rode.MarkPlan{Every: 5, Rope: 40} })
	add(func() any {
		return rode.MarkPlan{Every: 5, Chain: 40, Pitch: 0.024, AtAnchor: 6, Scheme: [][]string{{"red"}, {"red", "blue"}, {}}}
	})
	add(func() any { return rode.ForMooring })
	add(func() any { return rode.ChainWheel{Pockets: 5, Pitch: 0.024, Groove: 0.01, Wrap: 2} })
	add(func() any { return rode.SlackChain{Length: 1, Apart: 0, Above: 0, Weight: 12} })
	add(func() any { return rode.Craft{Hull: 19, Waterline: 17, Category: rode.Sheltered} })
	add(func() any { return rode.EyeSplice{Rope: theRope(), Eye: 0.3, Round: 0.1, Lay: 0.045} })
	add(func() any { return rode.Locker{Length: 0.6, Width: 0.5, Fall: 1} })
	add(func() any { return rode.LockerRules()[len(rode.LockerRules())-1] })
	add(func() any {
		eye := rode.EyeSplice{Rope: theRope(), Eye: 0.15, Round: 0.04}
		return rode.CutList{
			Ropes: []rode.CutRope{
				{Name: "bridle", Rope: theRope(), Count: 2, Finished: 9, Midline: []rode.EyeSplice{eye}, Tail: 1.5, Step: 0.5},
				{Name: "line", Rope: floating, Finished: 4},
			},
			Lengths: []rode.CutLength{{Name: "sleeve", Each: 1, Count: 3, Why: "at the fairlead", Step: 0.3}, {Name: "sleeve", Each: 2}},
			Parts:   []rode.CutPart{{Name: "thimble", Count: 2, Pack: 3}, {Name: "thimble", Count: 4}},
		}
	})
	add(func() any { return must(rode.Solve(buoyed, level, 300)) })
	add(func() any { return must(rode.Solve(theRode(), theSite(), 1)) })     // nearly all on the bed
	add(func() any { return must(rode.Solve(theRode(), theSite(), 20000)) }) // none
	also["rode.HangBridle s"] = []func() any{func() any { return rode.Site{Depth: 12, Roller: 1.4, Friction: 0.6} }}
	also["rode.EyeSpliceTucks fibre"] = []func() any{func() any { return "manila" }}
	also["rode.SpliceFactor construction"] = []func() any{func() any { return "double-braid" }}
}

// copied is clone for a value.
func copied[T any](v T) T { return clone(reflect.ValueOf(v)).Interface().(T) }

func alsoAnchor() {
	add := alsoType
	add(func() any { return anchor.Dimensions{Length: 11, Beam: 3.8, Freeboard: 1.3, Rig: anchor.Motor} })
	add(func() any {
		return anchor.Dimensions{Length: 12, Beam: 6.6, Freeboard: 1.4, Rig: anchor.Ketch, Hulls: 2}
	})
	add(func() any { return anchor.Wind{} })
	add(func() any { return anchor.Wind{Speed: 20, Air: anchor.Air{Temperature: 275, Pressure: 99000}} })
	add(func() any { return anchor.Current{Depth: 6, Fresh: true, Temperature: 290} })
	add(func() any { return anchor.Waves{Height: 1.5, Period: 5, Depth: 300} })
	add(func() any {
		return anchor.Windage{Parts: []anchor.Part{
			{Name: "hull", Front: 3, Side: 10.5, Top: 1.1, Length: 10},
			{Name: "houses", Shape: anchor.Distributed, Front: 1, Side: 3, Bottom: 1.1, Top: 2, Shielded: 0.3, DragSide: 0.9},
			{Name: "boom", Shape: anchor.Spar, Front: 0.2, Side: 1.2, Bottom: 2.5, Top: 3, Station: -1, Zero: 1.8},
		}}
	})
	add(func() any {
		return anchor.Underwater{Length: 9, Beam: 3.2, Draught: 0.75, Mass: 7200, Midship: 1.9, Wetted: 26, Form: 0.2}
	})
	add(func() any {
		u := theUnderwater()
		u.Fins = append(u.Fins, anchor.Fin{Name: "rudder", Side: 0.6, Chord: 0.5, Form: 0.1, Station: -4})
		u.Propellers = []anchor.Propeller{{Diameter: 0.43, BladeArea: 0.08, Drag: 0.4}}
		return u
	})
	add(func() any { return theRock().Tide })
	add(func() any { return with(theTide(), func(t *anchor.Tide) { t.Rule = anchor.Twelfths }) })
	add(func() any { return theRock() })
	add(func() any {
		return anchor.Drive{Winding: anchor.Compound, Voltage: 12, Points: []anchor.DrivePoint{{Pull: 500, Speed: 0.45, Current: 50}, {Pull: 1500, Speed: 0.33, Current: 90}, {Pull: 3000, Speed: 0.23, Current: 140}}}
	})
	// Read off a series motor: field c i / (1 + i/250).
	series := anchor.Drive{Winding: anchor.Series, Voltage: 12, Gear: anchor.Gear{Running: 0.7, Starting: 0.6, BackDriving: 0.4}}
	for _, i := range []float64{60, 120, 220} {
		field := 0.5 * i / (1 + i/250)
		series.Points = append(series.Points, anchor.DrivePoint{
			Pull: units.Force(0.6*field*i - 100), Speed: units.Speed((12 - 0.02*i) / field), Current: units.Current(i),
		})
	}
	add(func() any { return copied(series) })
	add(func() any { return anchor.Windlass{Drive: copied(series), Roller: 0.8, Wheel: 0.9} })
	add(func() any {
		return anchor.Haul{Rode: theRode(), Site: rode.Site{Depth: 8, Roller: 1.4, Friction: 0.5}, Anchor: 16, Pull: 300, Travel: 1, Supply: anchor.Supply{Voltage: 12.6}}
	})
	add(func() any {
		return anchor.Watch{Circle: 25, Fix: 3, Memory: 60, Quiet: units.Day, Anchor: anchor.Place{East: 10, North: -5}}
	})
	// A boat that leaves its circle, with a fix that is far off.
	add(func() any {
		list := theFixes()
		for i := range list {
			list[i].Place.East = units.Length(4 * i)
		}
		list[3].Place.North = 5000
		return list
	})
	add(func() any {
		return with(theRide(), func(r *anchor.Ride) { r.Waves, r.Every, r.Fairlead = anchor.Waves{}, 1, 0.2 })
	})
	add(func() any {
		return with(theRide(), func(r *anchor.Ride) {
			r.Regular, r.Waves.Period, r.Drift, r.Gyradius, r.CurrentFrom, r.Step = true, 4, 50, 2.5, 1, 0.1
			r.Current = anchor.Current{Speed: 0.4, Depth: 5}
			r.Gusts = anchor.Gusts{Spectrum: anchor.Sea, Intensity: 0.15, Across: 0.6}
		})
	})
	add(func() any { return anchor.Gusts{Spectrum: anchor.Sea} })
	add(func() any { return anchor.Gusts{Intensity: 0.2, Across: 0.5} })
	add(func() any { return anchor.Claw })
	add(func() any { return must(anchor.Holding(anchor.StocklessFixed, anchor.Sand, 600)) })
	add(func() any { return anchor.Soil(anchor.Mud) })
	add(func() any { return anchor.Bottoms()[3] })
	also["anchor.Ride.Realise 2"] = []func() any{func() any { return 12 }}
	also["anchor.HangingWeight r"] = []func() any{theRodeAny}
	also["anchor.HangingWeight out"] = []func() any{func() any { return 39.0 }}
	for k, names := range map[string][]string{
		"Exposure": {"in-land", "off-land"}, "Rig": {"motor", "ketch"}, "TideRule": {"twelfths"}, "Shape": {"spar", "distributed"}, "Winding": {"series", "compound"},
	} {
		for _, n := range names {
			key := "anchor." + k + ".UnmarshalText 1"
			also[key] = append(also[key], func() any { return []byte(n) })
		}
	}
}

// theRock is a night among shoals, with the tide's harmonics.
func theRock() anchor.Night {
	return with(theNight(), func(n *anchor.Night) {
		n.Out, n.Slope, n.Step = 45, 0.01, 0
		n.Shoals = []anchor.Shoal{{Name: "rock", Bearing: 1, Distance: 30, Rise: 1.2}, {Bearing: 2, Distance: 20, Rise: 0.5}}
		n.Tide = anchor.Tide{Mean: 2.8, Epoch: hour(0), Constituents: []anchor.Constituent{
			{Name: "M2", Amplitude: 1.9, Phase: 1, Speed: must(anchor.ConstituentSpeed("M2"))},
			{Name: "S2", Amplitude: 0.6, Phase: 2, Speed: must(anchor.ConstituentSpeed("S2"))},
			{Name: "M4", Amplitude: 0.2, Phase: -1, Speed: must(anchor.ConstituentSpeed("M4"))},
		}}
	})
}

func alsoDraw() {
	add := alsoType
	add(func() any {
		return rodedraw.Profile{
			Title: "a mixed rode", Prefix: "p", Boat: rodedraw.Boat{Length: 11, Overhang: 1},
			Views: []rodedraw.View{
				{State: *theState(), Rode: theRode(), Site: theSite()},
				{Label: "slack", State: must(rode.Solve(theRode(), theSite(), 1)), Rode: theRode(), Site: theSite()},
				{Label: "hard", State: must(rode.Solve(theRode(), theSite(), 20000)), Rode: theRode(), Site: theSite()},
			},
		}
	})
	ashore := rode.Site{Depth: -1, Roller: 3, Slope: -0.1, Friction: 0.5}
	add(func() any {
		return rodedraw.Profile{Boat: rodedraw.Boat{Length: 12, Hulls: 2}, Views: []rodedraw.View{{State: must(rode.Solve(theRode(), ashore, 900)), Rode: theRode(), Site: ashore}}}
	})
	add(func() any {
		site := rode.Site{Depth: 6, Roller: 1.4, Friction: 0.6}
		b := rode.Bridle{Rope: theRope(), Spread: 4, Port: 6, Starboard: 9}
		chain := rode.Rode{Pieces: []rode.Piece{theChain().Piece(35)}}
		return with(rodedraw.Bridle(b, must(rode.HangBridle(chain, site, b, 2000, 0.1, 8)), site, 2.5, 2), func(b *rodedraw.Bow) { b.Title = "bridle" })
	})
	plan := must(anchor.PlanNight(theRock()))
	add(func() any { return anchordraw.NightPlot{Title: "the night", Prefix: "n", Night: theRock(), Plan: plan} })
	add(func() any {
		return anchordraw.SwingPlan{
			Title: "among others", Night: theRock(), Plan: plan, Alarm: 60, Hulls: 2, Neighbours: []anchordraw.Neighbour{{
				Neighbour: anchor.Neighbour{Name: "Teal", Bearing: 1.4, Distance: 60, Swing: theSwing()},
				Circle:    anchor.Circle{Bow: 20, Antenna: 28, Stern: 30},
			}},
		}
	})
	add(func() any {
		return anchordraw.WindPolar{Title: "wind", Boat: theWindage(), Hulls: 2, Winds: []anchor.Wind{{Speed: 8}, {Speed: 13}, {Speed: 20}}, Spread: 1.5}
	})
	add(func() any {
		return wiringdraw.Diagram{Title: "house", Circuit: theHouse(), Show: wiringdraw.Everything}
	})
	add(func() any { return wiringdraw.Diagram{Circuit: theCircuit(), Show: wiringdraw.Control} })
	// In feet, inches and pounds-force.
	add(func() any {
		return rodedraw.Profile{Imperial: true, Views: []rodedraw.View{{State: *theState(), Rode: theRode(), Site: theSite()}}}
	})
	add(func() any { return anchordraw.NightPlot{Night: theRock(), Plan: plan, Imperial: true} })
	add(func() any { return anchordraw.SwingPlan{Night: theRock(), Plan: plan, Imperial: true} })
	add(func() any {
		return anchordraw.WindPolar{Boat: theWindage(), Winds: []anchor.Wind{{Speed: 13}}, Imperial: true}
	})
	add(func() any { return wiringdraw.Diagram{Circuit: theCircuit(), Imperial: true} })
	add(func() any { return canvaspattern.Roll{Width: 1.4, Length: 3, Imperial: true} })
	add(func() any { return wiringdraw.Bars{Title: "drop", Report: must(theSolution().DropTo("coil haul"))} })
	add(func() any { return canvaspattern.Roll{Width: 1.4, Length: 3} })
	also["canvas/pattern.FullSize pieces"] = []func() any{func() any {
		return must(canvas.Cover{Panels: []canvas.Panel{thePanelWith(theHem())}}.Pieces(theCloth()))
	}}
	add(func() any { // until the time is over
		left := 20
		return canvas.LayOptions{Seed: 1, Left: func() time.Duration { left--; return time.Duration(left) }, Progress: func(canvas.LayProgress) {}}
	})
}

func theRodeAny() any { return theRode() }

// theHouse is a circuit of several sources and loads of each kind, with a chain of
// parts that closes on itself and a part that is joined to nothing.
func theHouse() wiring.Circuit {
	bank, wire := theBattery(), theConductor()
	bank.Disconnect, bank.OpenCircuit = nil, 12.7
	cable := func(length units.Length) *wiring.Cable { return &wiring.Cable{Conductor: wire, Length: length} }
	fuse := theFuse(150)
	return wiring.Circuit{Reference: "-", Elements: []wiring.Element{
		{Name: "bank", From: "-", To: "+", Battery: &bank},
		{Name: "alternator", From: "-", To: "+", Alternator: &wiring.Alternator{Voltage: 14.2, Limit: 60, Resistance: 0.01}},
		{Name: "fuse", From: "+", To: "a", Device: &fuse},
		{Name: "near", From: "a", To: "b", Cable: cable(2)},
		{Name: "far", From: "b", To: "c", Cable: cable(5)},
		{Name: "back", From: "c", To: "a", Cable: cable(6)},
		{Name: "lamp", From: "b", To: "-", Load: &wiring.Load{Resistance: 3}},
		{Name: "pump", From: "c", To: "-", Load: &wiring.Load{Current: 6}},
		{Name: "converter", From: "c", To: "-", Load: &wiring.Load{Power: 200}},
		{Name: "earth", From: "-", To: "hull", Contact: &wiring.Contact{Role: wiring.Bond, Resistance: 1e-3}},
		{Name: "winding", From: "c", To: "case", Contact: &wiring.Contact{Role: wiring.Leakage, Resistance: 1e6}},
		{Name: "strap", From: "case", To: "hull", Contact: &wiring.Contact{Role: wiring.Bond, Resistance: 0.01}},
		{Name: "spare", From: "x", To: "y", Contact: &wiring.Contact{Role: wiring.Switch, Resistance: 1e-3, Open: true}},
	}}
}

func alsoWiring() {
	add := alsoType
	series := wiring.Motor{Type: wiring.SeriesWound, Resistance: 0.03, Slope: 5e-4, Knee: 100, Efficiency: 0.9, Load: 3}
	compound := wiring.Motor{Type: wiring.CompoundWound, Voltage: 12, Resistance: 0.05, Flux: 0.03, Slope: 2e-4, Efficiency: 0.9, Drag: 0.1, Load: 2}
	add(func() any { return series })
	add(func() any { return with(series, func(m *wiring.Motor) { m.Knee = 0 }) })
	add(func() any { return compound })
	lithium := wiring.Battery{Chemistry: wiring.LithiumPhosphate, Cells: 4, Capacity: 100 * units.AmpereHour, Resistance: 4e-3, Charge: 0.5}
	add(func() any { return lithium })
	add(func() any {
		return wiring.Battery{Chemistry: wiring.Flooded, Cells: 6, Capacity: 100 * units.AmpereHour, Peukert: 1.3, Resistance: 4e-3, OpenCircuit: 12.7}
	})
	add(func() any { return theHouse() })
	add(func() any {
		c := theHouse()
		for i := range c.Elements {
			if c.Elements[i].Load != nil {
				c.Elements[i].Load, c.Elements[i].Motor = nil, new(series)
			}
		}
		return c
	})
	// Nothing but loads, and a source that is shorted.
	add(func() any { c := theHouse(); c.Elements = c.Elements[2:]; return c })
	add(func() any { c := theHouse(); c.Elements[2].To = "-"; return c })
	add(func() any {
		return with(theWindlass(), func(w *wiring.Windlass) {
			w.Motor, w.ToMotor, w.Fuse, w.OnePole, w.Hull = series, 0, nil, true, nil
		})
	})
	add(func() any {
		return with(theWindlass(), func(w *wiring.Windlass) {
			w.Isolator, w.Coil, w.Control, w.ControlFuse, w.Switches, w.Bank = 0, 0, wiring.Conductor{}, wiring.Device{}, nil, lithium
			w.Hull = &wiring.Hull{Positive: 1e6, Negative: 1e6, Bond: 1e-3}
			w.Cable.Parallel, w.OneWay, w.Motor = 2, 5, compound
		})
	})
	add(func() any { return wiring.Conditions{} })
	add(func() any { return wiring.Conditions{Standing: []string{"motor"}, Open: []string{"battery fuse"}} })
	add(func() any { return wiring.Conditions{Open: []string{"isolator +"}} })
	add(func() any { return must(wiring.Solve(theHouse(), wiring.Conditions{})) })
	add(func() any { return *must(wiring.NewSolver(theHouse())) })
	add(func() any {
		return wiring.HullStudy{Node: "hull", Cases: []string{"windlass case"}, Isolator: []string{"isolator +"}, Least: 1e5, Noticed: 0.1}
	})
	add(func() any { return wiring.FaultStudy{} })
	add(func() any {
		return wiring.FaultStudy{Within: 5, Harmless: 3, Carries: map[string]units.Current{"cable forward": 150}}
	})
	add(func() any {
		return []wiring.Phase{
			{Name: "rest", For: units.Hour},
			{Name: "still", At: wiring.Conditions{Standing: []string{"motor"}}, For: 30},
			{Name: "haul", For: 3 * units.Hour},
			{Name: "cold", At: wiring.Conditions{Copper: 260}, For: 600},
		}
	})
	add(func() any {
		return wiring.Requirement{Stock: theStock(), Run: 18, Current: 62.5, Supply: 12.5, AtLoad: 11, Others: 1e-3}
	})
	add(func() any {
		return wiring.Requirement{Stock: must(wiring.AWG(wiring.Plain)).WithInsulation(units.Celsius(75)), Parallel: 3, Run: 18, Current: 62.5, System: 12, MaxDrop: 0.1, Rules: wiring.E11}
	})
	run := func(name, after string) wiring.Run {
		return wiring.Run{Name: name, After: after, Requirement: wiring.Requirement{Stock: theStock(), Run: 8, Current: 20, System: 12, MaxDrop: 0.1}}
	}
	add(func() any {
		return []wiring.Run{run("feeder", ""), run("lights", "feeder"), run("pump", "lights"), run("radio", "feeder")}
	})
	add(func() any { return wiring.Installation{Ambient: 320, EngineSpace: true} })
	add(func() any { return wiring.Installation{Bundled: 7, Sheathed: true} })
	add(func() any { return wiring.Spread{} })
	add(func() any { return wiring.Voltmeter{} })
	add(func() any { return wiring.Ammeter{} })
	add(func() any { return wiring.Place{Length: 0.1, Sheathed: true, Cranking: true} })
	add(func() any {
		return wiring.Shop{SoldBy: 1, Stud: "M8", Control: "M4", Studs: map[string]string{"bank +": "M10", "hull": ""}, Spares: -1}
	})
	for _, name := range []wiring.BandName{wiring.BandB, wiring.BandC, wiring.BandUL489, wiring.BandBlade} {
		add(func() any {
			band := must(wiring.PublishedBand(name, 20))
			return wiring.Device{Kind: wiring.Breaker, Rating: 20, Resistance: 1e-3, Interrupting: 5000, Band: &band}
		})
		if name != wiring.BandBlade { // for less than the 100 A asked for
			also["wiring.PublishedBand name"] = append(also["wiring.PublishedBand name"], func() any { return name })
		}
	}
	add(func() any { return must(wiring.PreferredRatings(wiring.SeriesIEC60898)) })
	add(func() any { return must(wiring.PreferredRatings(wiring.SeriesISO8820)) })
	add(func() any { return must(must(wiring.AWG(wiring.Tinned)).Find("2 AWG")) })
	for _, r := range []wiring.Rules{wiring.CFR, wiring.E11, wiring.IEC60092} {
		for _, k := range []string{"Ampacity rules", "CheckPlacement r", "ChooseRating r", "LargestRating r"} {
			also["wiring."+k] = append(also["wiring."+k], func() any { return r })
		}
	}
	add(func() any { return wiring.SeriesNEC })
	add(func() any { return wiring.SeriesISO8820 })
	for _, k := range []wiring.Working{wiring.Resting, wiring.Lowering} {
		also["wiring.Windlass.Circuit 1"] = append(also["wiring.Windlass.Circuit 1"], func() any { return k })
	}
	for _, k := range []wiring.Objective{wiring.LeastCost, wiring.LeastArea} {
		also["wiring.SizeRuns least"] = append(also["wiring.SizeRuns least"], func() any { return k })
	}
	for _, k := range []wiring.Method{wiring.ByLamp, wiring.BySmallFuse} {
		also["wiring.PlanHunt by"] = append(also["wiring.PlanHunt by"], func() any { return k })
	}
	together["wiring.FitMotor"] = []map[string]any{
		{"kind": wiring.SeriesWound, "points": []wiring.MotorPoint{{Current: 60, Speed: 400}, {Current: 120, Speed: 250, Torque: 2}, {Current: 220, Speed: 160, Torque: 5}}},
		{"kind": wiring.CompoundWound, "points": []wiring.MotorPoint{{Current: 20, Speed: 324}, {Current: 60, Speed: 214, Torque: 1}, {Current: 120, Speed: 111, Torque: 3}}},
	}
	together["wiring.CheckHull"] = []map[string]any{{"c": theHouse(), "s": wiring.HullStudy{Node: "hull", Cases: []string{"case"}, Least: 1e5, Noticed: 0.1}}}
	also["wiring.GaugeArea gauge"] = []func() any{func() any { return "12" }, func() any { return "0000" }}
	also["wiring.Solution.DropTo 1"] = []func() any{func() any { return "coil haul" }}
	also["wiring.RideThrough spells"] = []func() any{func() any { return []wiring.Spell{{Current: 10, For: 10}} }}
}

// thePanelWith is a panel with one finish all round, curves, a dart, a fitting, a hole
// with a slit and a patch.
func thePanelWith(f canvas.Finish) canvas.Panel {
	at := func(x, y units.Length) canvas.Point { return canvas.Point{X: x, Y: y} }
	p := canvas.Panel{
		Name: "panel", Quantity: 2, Mirrored: 1, Grain: 0.3, Edges: []canvas.Edge{
			{Name: "foot", Finish: f, Course: canvas.Course{Curve: canvas.Catenary, Depth: -0.1}},
			{Name: "right", From: at(2, 0), Finish: f, Corner: canvas.Squared},
			{Name: "head", From: at(2, 1.5), Finish: f, Course: canvas.Course{Curve: canvas.Points, Offsets: []canvas.Offset{{Along: 0.5, Out: 0.05}, {Along: 1.2, Out: 0.06}}}},
			{Name: "left", From: at(0, 1.5), Finish: f, Course: canvas.Course{Curve: canvas.Arc, Depth: 0.1}, Corner: canvas.Crossed},
		},
		Holes:    []canvas.Hole{{Name: "stay", At: at(1, 0.7), Width: 0.05, Angle: 0.2, Margin: 0.02, Split: true, Edge: "right"}},
		Darts:    []canvas.Dart{{Edge: "foot", At: 0.4, Width: 0.03, Depth: 0.15}},
		Fittings: []canvas.Fitting{{Name: "eyelet", At: at(0.2, 0.2), Diameter: 0.01, Strap: []canvas.Point{at(0.2, 0.2), at(0.3, 0.3)}}},
		Patches:  []canvas.CornerPatch{{Name: "tack", Corner: 0, Along: 0.2, Layers: 1, Round: true}},
		Notes:    []string{"grain along the roll"},
	}
	if f.Kind == canvas.Sleeve || f.Kind == canvas.SingleHem || f.Kind == canvas.DoubleHem {
		p.Darts, p.Edges[2].Corner = nil, canvas.Mitred
	}
	return p
}

func alsoCanvas() {
	add := alsoType
	at := func(x, y units.Length) canvas.Point { return canvas.Point{X: x, Y: y} }
	// Four corners, one of them 0.3 m out of the plane of the others, in distances.
	frame := []canvas.Space{{}, {X: 2}, {X: 2, Y: 1.5}, {Y: 1.5, Z: 0.3}}
	spatial := canvas.Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: 1 * mm}
	for i, p := range frame {
		for j, q := range frame[:i] {
			d := math.Hypot(math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)), float64(p.Z-q.Z))
			spatial.Tapes = append(spatial.Tapes, canvas.Tape{From: spatial.Corners[j], To: spatial.Corners[i], Distance: units.Length(d)})
		}
	}
	add(func() any {
		s := copied(spatial)
		for i, p := range frame {
			s.Heights = append(s.Heights, canvas.Height{Corner: s.Corners[i], Above: p.Z, Sigma: 2 * mm})
		}
		return s
	})
	add(func() any {
		s := copied(spatial)
		s.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: 0.15}}
		s.Sketch = []canvas.Point{{}, at(2, 0), at(2, 1.5), at(0, 1.5)}
		return s
	})
	add(func() any { return copied(spatial) }) // readings that contradict each other
	add(func() any { s := copied(spatial); s.Tapes = s.Tapes[:5]; return s })
	hem := theHem()
	for _, f := range []canvas.Finish{
		{},
		{Kind: canvas.PlainSeam, Width: 15 * mm},
		{Kind: canvas.SingleHem, Width: 20 * mm, Clipped: true},
		{Kind: canvas.Bound},
		{Kind: canvas.Sleeve, Width: 20 * mm, Rope: 8 * mm, Strip: true, Turn: 5 * mm},
		{Kind: canvas.FelledOver, Width: 15 * mm, Turn: 8 * mm},
		{Kind: canvas.FelledIn, Width: 15 * mm},
		{Kind: canvas.Lapped, Width: 20 * mm, Turn: 8 * mm},
		{Kind: canvas.French, Width: 12 * mm, Turn: 5 * mm},
		{Kind: canvas.Zip, Width: 20 * mm, Gap: 8 * mm, Clipped: true},
		{Kind: canvas.Webbing, Width: 25 * mm},
	} {
		add(func() any { return f })
		p := thePanelWith(f)
		add(func() any { return copied(p) })
		add(func() any { return canvas.Cover{Panels: []canvas.Panel{copied(p)}} })
	}
	square := func(name string, x units.Length, f canvas.Finish) canvas.Panel {
		return canvas.Panel{Name: name, Edges: []canvas.Edge{
			{Name: "a", From: at(x, 0), Finish: hem},
			{Name: "b", From: at(x+1, 0), Finish: f},
			{Name: "c", From: at(x+1, 1), Finish: hem},
			{Name: "d", From: at(x, 1), Finish: f},
		}}
	}
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm}
	side := func(panel string, edges ...string) canvas.Side { return canvas.Side{Panel: panel, Edges: edges} }
	// A tube: three panels sewn in a ring.
	tube := canvas.Cover{
		Panels: []canvas.Panel{square("one", 0, seam), square("two", 1, seam), square("three", 2, seam)},
		Seams: []canvas.Seam{
			{Name: "1", A: side("one", "b"), B: side("two", "d")},
			{Name: "2", A: side("two", "b"), B: side("three", "d")},
			{Name: "3", A: side("three", "b"), B: side("one", "d")},
		},
	}
	add(func() any { return copied(tube) })
	together["canvas.Cover.Split"] = []map[string]any{
		{"0": copied(tube), "1": "two", "2": at(1, 0.4), "3": at(2, 0.5)},                                                // both of its seams
		{"0": copied(tube), "1": "one", "2": at(0.5, 0), "3": at(1, 1)},                                                  // to a corner
		{"0": canvas.Cover{Panels: []canvas.Panel{thePanelWith(hem)}}, "1": "panel", "2": at(0.3, 0), "3": at(0.3, 1.5)}, // beside a hole
	}
	// A panel sewn to itself, and one with a dart in its seam.
	add(func() any {
		return canvas.Cover{
			Panels: []canvas.Panel{square("tube", 0, seam)},
			Seams:  []canvas.Seam{{Name: "1", A: side("tube", "b"), B: side("tube", "d")}},
		}
	})
	add(func() any {
		p := square("dart", 0, seam)
		p.Edges[1].From.X += 0.02
		p.Edges[2].Course = canvas.Course{}
		return canvas.Cover{Panels: []canvas.Panel{p}, Cautions: []string{"hot"}, Remarks: []string{"soft"}}
	})
	add(func() any {
		return with(theBox(), func(b *canvas.RoundedBox) { b.Base, b.Gap = canvas.ZipBase, 8*mm; b.Sides = nil })
	})
	add(func() any { return with(theBox(), func(b *canvas.RoundedBox) { b.Base = canvas.OpenBase }) })
	add(func() any { return canvas.Cloth{Name: "cloth"} })
	add(func() any { return canvas.Cloth{Name: "napped", Lie: canvas.OneWay, Flip: true, Warp: -0.02} })
	add(func() any { return canvas.Cloth{Name: "film", Lie: canvas.AnyWay, Warp: 0.01, Weft: 0.01} })
	add(func() any {
		return with(thePanel(), func(p *canvas.Panel) {
			p.Mirrored, p.Match = 1, &canvas.Match{At: at(1, 0.7), Along: 0.05, Across: 0.02, Tolerance: 1 * mm}
		})
	})
	add(func() any { return canvas.Sewing{Stitch: canvas.DoubleChain, Length: 3 * mm} })
	add(func() any {
		return with(theAwning(), func(a *canvas.Awning) {
			a.Prestress, a.Sag, a.Layers = 0, 0.07, 1
			a.Openings = []canvas.AwningOpening{{Name: "mast", At: at(1.2, 1), Diameter: 0.15, Lean: 1.3, Direction: 1.5, Clearance: 0.02, Overlap: 0.1, Edge: "aft"}}
		})
	})
	add(func() any { return canvas.Canopy{Roof: canvas.Duopitch, Pitch: 0.2, Blockage: 1} })
	add(func() any {
		return canvas.Cylinder{Name: "lid", Diameter: 0.3, Height: 0.2, Opening: 0.1, Seam: 0.01, Hem: 0.02, OpeningEdge: hem}
	})
	add(func() any {
		return canvas.BottleCover{Name: "bottle", Diameter: 0.3, Height: 0.4, Rise: 0.15, Gores: 8, Ease: 0.01, Valve: 0.11, Closed: true, Vent: 0.1, Hose: 0.03, HoseHeight: 0.3, Seam: 0.012, Hem: 0.02, Gap: 8 * mm}
	})
	add(func() any {
		return canvas.Frustum{Name: "cone", Bottom: 0.3, Height: 0.2, Seam: 0.01, BottomEdge: hem, TopEdge: canvas.Finish{}}
	})
	add(func() any {
		return canvas.Dome{Name: "dome", Diameter: 2, Rise: 0.5, Gores: 6, Seam: 0.01, BaseEdge: hem}
	})
	// Several ways to lie, a price for what is owned, rolls that repeat a pattern.
	add(func() any {
		l := theLay()
		l.Pieces[0].Match = nil
		l.Pieces[0].Lie, l.Pieces[0].Turns = canvas.Listed, []units.Angle{0, 1.5, 3}
		l.Pieces[1].Lie, l.Pieces[1].Flip = canvas.AnyWay, true
		l.Pieces[2].Lie, l.Pieces[2].Grain = canvas.OneWay, 0.2
		return l
	})
	add(func() any {
		l := theLay()
		l.Rolls[0].Along, l.Rolls[0].Across, l.Rolls[0].Pattern = 0.2, 0.15, at(0.07, -0.02)
		return l
	})
	add(func() any {
		return canvas.Lay{Gap: 2 * mm, Rolls: []canvas.Roll{{Name: "roll", Width: 1.5, Price: 30, Increment: 0.1}, {Name: "short", Width: 1.2, Length: 2, Price: 20}}, Pieces: []canvas.Cutting{
			{Name: "wide", Cut: []canvas.Point{{}, at(0.8, 0), at(0.8, 0.7), at(0, 0.7)}, Quantity: 3},
			{Name: "long", Cut: []canvas.Point{{}, at(2.3, 0), at(2.3, 0.31), at(0, 0.31)}, Quantity: 2, Lie: canvas.Listed, Turns: []units.Angle{0, math.Pi / 2}},
		}}
	})
	// Cut in two by a line, with parts that touch at a corner only; a cap cut out of it.
	add(func() any {
		m := must(canvas.Grid(theRows()))
		m.Lines = append(m.Lines, canvas.Line{Name: "seam", Points: []int{14, 15, 16, 17, 18, 19, 20}, Finish: seam})
		m.Warp = [2]int{0, 6}
		return m
	})
	add(func() any {
		m := must(canvas.Grid(theRows()))
		m.Triangles, m.Lines = append(m.Triangles[:16:16], m.Triangles[20:]...), nil // a hole
		return m
	})
	add(func() any { return canvas.Limits{} })
	price := canvas.Ware{Lot: 1, Pack: 10, Low: 2, High: 3}
	add(func() any {
		return canvas.PriceList{Thread: price, Zip: price, Binding: price, Webbing: price, Rope: price, Pieces: map[string]canvas.Ware{"eyelet": price, "snap": {}}}
	})
	also["canvas.PriceList.Bill 2"] = []func() any{
		func() any { return map[string]int{"eyelet": 26, "snap": 3, "hook": 2, "none": 0} },
		func() any { return map[string]int(nil) },
	}
	for _, terrain := range []canvas.Terrain{canvas.Lake, canvas.Grass, canvas.Villages, canvas.Town} {
		add(func() any { return canvas.Wind{Mean: 6, Height: 10, Terrain: terrain} })
	}
	wide := square("wide", 0, hem)
	for i := range wide.Edges {
		wide.Edges[i].From.X *= 3
		wide.Edges[i].From.Y *= 2.5
	}
	matched := copied(wide)
	matched.Match = &canvas.Match{At: at(0.3, 0.4), Along: 0.05, Tolerance: 1 * mm}
	also["canvas.Lay.PlanCovers 2"] = []func() any{
		func() any { return []canvas.Cover{{Panels: []canvas.Panel{copied(wide)}}} },
		func() any { return []canvas.Cover{{Panels: []canvas.Panel{copied(matched)}}} },
	}
}
