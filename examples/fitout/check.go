package main

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// check refuses what no boat or place has. Ranges are wide: they catch a wrong
// unit or a slip of the finger, not an unusual boat.
func (f *boatFile) check() error {
	b := &f.Boat
	checks := []error{
		text("name", f.Name),
		whole("boat.hulls", b.Hulls, 1, 2),
		within("boat.length", b.Length, 3*units.Metre, 30*units.Metre),
		within("boat.waterline", b.Waterline, b.Length.Scale(0.5), b.Length),
		within("boat.beam", b.Beam, 1*units.Metre, b.Length),
		within("boat.draught", b.Draught, 0.2*units.Metre, 6*units.Metre),
		within("boat.displacement", b.Displacement, 200*units.Kilogram, 200*units.Tonne),
		within("boat.roller", b.Roller, 0.1*units.Metre, 5*units.Metre),
		within("boat.sounder", b.Sounder, 0, b.Draught),
		within("boat.freeboard", b.Freeboard, 0.2*units.Metre, 5*units.Metre),
		within("boat.engine", b.Engine, 1*units.Kilowatt, 1000*units.Kilowatt),
		within("boat.propeller", b.Propeller, 0.1*units.Metre, 3*units.Metre),
		optional("boat.windage", b.Windage, 0.3, 3),
		optional("place.gust", f.Place.Gust, 1, 2.5),
		number("anchor.efficiency", f.Anchor.Efficiency, 1, 100),
		within("anchor.fluke", f.Anchor.Fluke, 15*units.Degree, 60*units.Degree),
		within("anchor.mass", f.Anchor.Mass, 1*units.Kilogram, 500*units.Kilogram),
		filled("rode.pieces", len(f.Rode.Pieces)),
		f.bottom(),
		number("place.friction", f.Place.Friction, 0, 2),
		within("place.slope", f.Place.Slope, -15*units.Degree, 15*units.Degree),
		within("place.water", f.Place.Water, 990*units.KilogramPerCubicMetre, 1050*units.KilogramPerCubicMetre),
		filled("place.lowWater", len(f.Place.LowWater)),
		within("place.range", f.Place.Range, 0, 17*units.Metre),
		filled("winds", len(f.Winds)),
		within("limits.anchorAngle", f.Limits.AnchorAngle, 0, 30*units.Degree),
		number("limits.leastScope", f.Limits.LeastScope, 1, 20),
		within("limits.underKeel", f.Limits.UnderKeel, 0, 5*units.Metre),
	}
	if w := f.Windlass; w != nil {
		checks = append(checks,
			whole("windlass.pockets", w.Pockets, 3, 30),
			within("windlass.pitch", w.Pitch, 10*units.Millimetre, 150*units.Millimetre),
			within("windlass.wire", w.Wire, 4*units.Millimetre, 50*units.Millimetre),
			within("windlass.play", w.Play, 0, 20*units.Millimetre),
			within("windlass.setting", w.Setting, 5*units.Centimetre, 2*units.Metre),
			whole("windlass.pulses", w.Pulses, 1, 64),
			within("windlass.step", w.Step, 1*units.Centimetre, 10*units.Metre),
			within("windlass.ropeLeast", w.RopeLeast, 0, 50*units.Millimetre),
			within("windlass.ropeMost", w.RopeMost, w.RopeLeast, 50*units.Millimetre),
			within("windlass.rated", w.Rated, 0, 200*units.Kilonewton),
			optional("windlass.roller", w.Roller, 0.2, 1))
		if w.Most != 0 {
			checks = append(checks, within("windlass.most", w.Most, w.Rated, 500*units.Kilonewton))
		}
	}
	if l := f.Locker; l != nil {
		checks = append(checks,
			within("locker.length", l.Length, 0.1*units.Metre, 5*units.Metre),
			within("locker.width", l.Width, 0.1*units.Metre, 5*units.Metre),
			within("locker.fall", l.Fall, 0.1*units.Metre, 5*units.Metre),
			within("locker.slope", l.Slope, 0, 60*units.Degree))
	}
	if m := f.Marks; m != nil {
		checks = append(checks,
			within("marks.every", m.Every, 1*units.Metre, 100*units.Metre),
			within("marks.atAnchor", m.AtAnchor, 0, 2*units.Metre),
			within("marks.atZero", m.AtZero, 0, 20*units.Metre),
			filled("marks.scheme", len(m.Scheme)))
	}
	if v := f.Prices; v != nil {
		checks = append(checks, text("prices.currency", v.Currency))
		for i, item := range v.Items {
			at := fmt.Sprintf("prices.items[%d].", i)
			checks = append(checks, text(at+"of", item.Of), number(at+"low", item.Low, 0, 1e6), number(at+"high", item.High, item.Low, 1e6))
		}
	}
	if n := f.Snubber; n != nil {
		checks = append(checks,
			whole("snubber.legs", n.Legs, 1, 2),
			within("snubber.length", n.Length, 1*units.Metre, 100*units.Metre),
			within("snubber.spread", n.Spread, 0, b.Beam),
			within("snubber.inner", n.Inner, 0.1*units.Metre, 10*units.Metre),
			within("snubber.cleat", n.Cleat, 1*units.Kilonewton, 500*units.Kilonewton),
			within("snubber.horns", n.Horns, 5*units.Centimetre, 1*units.Metre),
			within("snubber.thick", n.Thick, 5*units.Millimetre, 20*units.Centimetre),
			within("snubber.base", n.Base, 1*units.Centimetre, n.Horns),
			within("snubber.speed", n.Speed, 0, 5*units.MetrePerSecond),
			within("snubber.slack", n.Slack, 1*units.Metre, 50*units.Metre),
			filled("snubber.hoses", len(n.Hoses)))
		if (n.Legs == 2) != (n.Spread > 0) {
			checks = append(checks, &fileError{"snubber.spread", fmt.Sprintf("%.3v with legs: %d", n.Spread, n.Legs), "a spread for two legs, none for one"})
		}
	}
	if e := f.Electrics; e != nil {
		checks = append(checks,
			voltage("electrics.system", e.System),
			whole("electrics.cells", e.Cells, 1, 40),
			within("electrics.capacity", e.Capacity, 10*units.AmpereHour, 5000*units.AmpereHour),
			within("electrics.resistance", e.Resistance, 0.1*units.Milliohm, 1*units.Ohm),
			within("electrics.alternator", e.Alternator, 0, 500*units.Ampere),
			within("electrics.carries", e.Carries, 0, 20*units.Kiloampere),
			number("electrics.peukert", e.Peukert, 1, 2),
			within("electrics.breaks", e.Breaks, 100*units.Ampere, 100*units.Kiloampere),
			within("electrics.haul", e.Haul, 1*units.Second, 1*units.Hour),
			within("electrics.oneWay", e.OneWay, 0.5*units.Metre, 50*units.Metre),
			within("electrics.toBreaker", e.ToBreaker, 0, e.OneWay),
			within("electrics.insulation", e.Insulation, units.Celsius(60), units.Celsius(200)),
			within("electrics.breaker", e.Breaker, 5*units.Ampere, 500*units.Ampere),
			temperature("electrics.copper", e.Copper),
			within("electrics.lug", e.Lug, 0, 10*units.Milliohm),
			within("electrics.leastVolts", e.LeastVolts, e.System.Scale(0.5), e.System.Scale(1.2)))
		cell := 2 * units.Volt
		if e.Chemistry == wiring.LithiumPhosphate {
			cell = 3.2 * units.Volt
			checks = append(checks, within("electrics.peak", e.Peak, e.Carries, 20*units.Kiloampere))
		} else {
			checks = append(checks, within("electrics.cranking", e.Cranking, 50*units.Ampere, 20*units.Kiloampere))
		}
		if v := cell.Scale(float64(e.Cells)); (v - e.System).Abs() > e.System.Scale(0.15) {
			checks = append(checks, &fileError{
				"electrics.cells", fmt.Sprintf("%d, which make %.3v", e.Cells, v),
				fmt.Sprintf("as many in series as make %.3v", e.System),
			})
		}
	}
	if n := f.Night; n != nil {
		for i, w := range n.Winds {
			checks = append(checks, within(fmt.Sprintf("night.winds[%d].direction", i), w.Direction, 0, 360*units.Degree),
				within(fmt.Sprintf("night.winds[%d].wind", i), w.Wind, 0, 120*units.Knot))
		}
		for i, b := range n.Shoals {
			checks = append(checks, within(fmt.Sprintf("night.shoals[%d].bearing", i), b.Bearing, 0, 360*units.Degree))
		}
	}
	if c := f.Canvas; c != nil {
		checks = append(checks, c.checks()...)
	}
	for i, c := range f.Rode.Connectors {
		at := fmt.Sprintf("rode.connectors[%d].", i)
		checks = append(checks, text(at+"name", c.Name),
			within(at+"working", c.Working, 100*units.Newton, 1000*units.Kilonewton),
			within(at+"breaking", c.Breaking, c.Working, 5000*units.Kilonewton),
			number(at+"sideLoad", c.SideLoad, 0, 1))
	}
	for i, p := range f.Rode.Pieces {
		at := fmt.Sprintf("rode.pieces[%d].", i)
		if (p.Chain == "") == (p.Rope == "") {
			checks = append(checks, &fileError{at + "chain", "chain and rope, or neither", "one of the two"})
		}
		checks = append(checks, within(at+"length", p.Length, 0.1*units.Metre, 500*units.Metre),
			number(at+"strengthLeft", p.StrengthLeft, 0, 1), number(at+"splice", p.Splice, 0, 1))
	}
	if k := f.Rode.Kellet; k != nil {
		checks = append(checks, within("rode.kellet.mass", k.Mass, 0.5*units.Kilogram, 200*units.Kilogram),
			within("rode.kellet.down", k.Down, 1*units.Metre, 100*units.Metre))
	}
	for i, d := range f.Place.LowWater {
		at := fmt.Sprintf("place.lowWater[%d]", i)
		checks = append(checks, cmp.Or(within(at, d, 0.5*units.Metre, 60*units.Metre), f.afloat(at, d)))
	}
	if len(f.Place.LowWater) > 0 && !slices.Contains(f.Place.LowWater, f.Place.AnchorIn) {
		checks = append(checks, &fileError{"place.anchorIn", fmt.Sprintf("%.3v", f.Place.AnchorIn), "one of the depths in place.lowWater"})
	}
	for i, w := range f.Winds {
		at := fmt.Sprintf("winds[%d].", i)
		least := 1 * units.Knot
		if i > 0 {
			least = max(least, f.Winds[i-1].Wind)
		}
		checks = append(checks, within(at+"wind", w.Wind, least, 120*units.Knot),
			within(at+"pull", w.Pull, 0, 200*units.Kilonewton))
	}
	return errors.Join(checks...)
}

// afloat refuses a depth in which the boat would take the ground.
func (f *boatFile) afloat(field string, low units.Length) error {
	if clear := low - f.Boat.Draught; clear < f.Limits.UnderKeel {
		return &fileError{
			field, fmt.Sprintf("%.3v, which leaves %.3v under the keel at low water", low, clear),
			fmt.Sprintf("at least %.3v (draught and limits.underKeel)", f.Boat.Draught+f.Limits.UnderKeel),
		}
	}
	return nil
}

// bottom refuses a bed that no published factor is known for.
func (f *boatFile) bottom() error {
	var names []string
	for _, b := range anchor.Bottoms() {
		if b.Name == f.Place.Bed {
			return nil
		}
		names = append(names, fmt.Sprintf("%q", b.Name))
	}
	return &fileError{"place.bed", fmt.Sprintf("%q", f.Place.Bed), strings.Join(names, ", ")}
}

func within[Q ~float64](field string, q, lo, hi Q) error {
	if q >= lo && q <= hi {
		return nil
	}
	if v, ok := any(q).(units.Speed); ok { // a wind is a matter of knots
		return &fileError{field, fmt.Sprintf("%.4g kn", v.Knots()), fmt.Sprintf("%.3g kn to %.3g kn", units.Speed(lo).Knots(), units.Speed(hi).Knots())}
	}
	return &fileError{field, fmt.Sprintf("%.4v", q), fmt.Sprintf("%.3v to %.3v", lo, hi)}
}

func number(field string, x, lo, hi float64) error {
	if x >= lo && x <= hi && !math.IsNaN(x) {
		return nil
	}
	return &fileError{field, fmt.Sprint(x), fmt.Sprintf("%v to %v", lo, hi)}
}

// optional is a number that is 0 where it is left out.
func optional(field string, x, lo, hi float64) error {
	if x == 0 {
		return nil
	}
	return number(field, x, lo, hi)
}

// temperature is that of a cable; 0 K where it is left out.
func temperature(field string, t units.Temperature) error {
	if t == 0 {
		return nil
	}
	return within(field, t, units.Celsius(-20), units.Celsius(100))
}

// voltage is one that boats are wired for.
func voltage(field string, v units.Voltage) error {
	if slices.Contains([]units.Voltage{12, 24, 32, 48}, v) {
		return nil
	}
	return &fileError{field, fmt.Sprintf("%.3v", v), "12, 24, 32 or 48 V"}
}

func whole(field string, n, lo, hi int) error {
	if n >= lo && n <= hi {
		return nil
	}
	return &fileError{field, fmt.Sprint(n), fmt.Sprintf("%d to %d", lo, hi)}
}

func filled(field string, n int) error {
	if n > 0 {
		return nil
	}
	return &fileError{field, "an empty list", "at least one entry"}
}

func text(field, s string) error {
	if s != "" {
		return nil
	}
	return &fileError{field, `""`, "a name"}
}
