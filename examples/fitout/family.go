package main

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// A family is the units that a boat file is written in, which are those of the
// answers: metres, newtons and square millimetres, or feet, pounds and gauges.
type family struct {
	feet bool

	long, near, mid, small scale[units.Length] // of a rode, of an eye, of a cleat, of a wire
	force, pull            scale[units.Force]  // on a rode, on a piece of cloth
	mass                   scale[units.Mass]
	linear                 scale[units.LinearDensity]
	area                   scale[units.Area]
	speed                  scale[units.Speed] // not of the wind, which blows in knots
	torque                 scale[units.Torque]
	energy                 scale[units.Energy]
	edge, stiff            scale[units.ForcePerLength] // pull and stiffness of cloth
	temperature            scale[units.Temperature]
}

// A scale is a unit for a quantity of some size.
type scale[Q ~float64] struct {
	name string
	of   func(Q) float64
	more int // decimals, besides those that the metric unit has
}

var metric = family{
	long:        scale[units.Length]{"m", units.Length.Metres, 0},
	near:        scale[units.Length]{"m", units.Length.Metres, 0},
	mid:         scale[units.Length]{"cm", units.Length.Centimetres, 0},
	small:       scale[units.Length]{"mm", units.Length.Millimetres, 0},
	force:       scale[units.Force]{"kN", units.Force.Kilonewtons, 0},
	pull:        scale[units.Force]{"N", units.Force.Newtons, 0},
	mass:        scale[units.Mass]{"kg", units.Mass.Kilograms, 0},
	linear:      scale[units.LinearDensity]{"kg/m", units.LinearDensity.KilogramsPerMetre, 0},
	area:        scale[units.Area]{"m²", units.Area.SquareMetres, 0},
	speed:       scale[units.Speed]{"m/s", units.Speed.MetresPerSecond, 0},
	torque:      scale[units.Torque]{"N·m", units.Torque.NewtonMetres, 0},
	energy:      scale[units.Energy]{"J", units.Energy.Joules, 0},
	edge:        scale[units.ForcePerLength]{"N/m", units.ForcePerLength.NewtonsPerMetre, 0},
	stiff:       scale[units.ForcePerLength]{"kN/m", units.ForcePerLength.KilonewtonsPerMetre, 0},
	temperature: scale[units.Temperature]{"°C", units.Temperature.Celsius, 0},
}

var imperial = family{
	feet:        true,
	long:        scale[units.Length]{"ft", units.Length.Feet, 0},
	near:        scale[units.Length]{"in", units.Length.Inches, -1},
	mid:         scale[units.Length]{"in", units.Length.Inches, 1},
	small:       scale[units.Length]{"in", units.Length.Inches, 2},
	force:       scale[units.Force]{"lbf", units.Force.PoundsForce, -2},
	pull:        scale[units.Force]{"lbf", units.Force.PoundsForce, 0},
	mass:        scale[units.Mass]{"lb", units.Mass.Pounds, 0},
	linear:      scale[units.LinearDensity]{"lb/ft", units.LinearDensity.PoundsPerFoot, 0},
	area:        scale[units.Area]{"ft²", units.Area.SquareFeet, -1},
	speed:       scale[units.Speed]{"ft/s", units.Speed.FeetPerSecond, 0},
	torque:      scale[units.Torque]{"lbf·ft", units.Torque.PoundForceFeet, 0},
	energy:      scale[units.Energy]{"ft·lbf", units.Energy.FootPoundsForce, 0},
	edge:        scale[units.ForcePerLength]{"lbf/ft", units.ForcePerLength.PoundsForcePerFoot, 1},
	stiff:       scale[units.ForcePerLength]{"lbf/in", units.ForcePerLength.PoundsForcePerInch, 0},
	temperature: scale[units.Temperature]{"°F", units.Temperature.Fahrenheit, 0},
}

// familyOf is the one in which a file has the length of the boat.
func familyOf(data []byte) family {
	length := at(withoutMark(data), "boat.length")
	if _, err := units.ParseLength(strings.Trim(length, `"`)); err == nil && (strings.Contains(length, "ft") || strings.Contains(length, "in")) {
		return imperial
	}
	return metric
}

// num is a quantity with as many decimals as the metric unit would have so many.
func (s scale[Q]) num(q Q, decimals int) string {
	return strconv.FormatFloat(s.of(q), 'f', max(0, decimals+s.more), 64)
}

// say is the same with its unit.
func (s scale[Q]) say(q Q, decimals int) string { return s.num(q, decimals) + " " + s.name }

// format is how fmt prints what of gives, with its unit.
func (s scale[Q]) format(decimals int) string {
	return fmt.Sprintf("%%.%df %s", max(0, decimals+s.more), s.name)
}

// shown says so many of a unit.
func (s scale[Q]) shown(decimals int, one Q) func(float64) string {
	return func(x float64) string { return s.say(Q(float64(one)*x), decimals) }
}

// up is say, rounded up.
func (s scale[Q]) up(q Q, decimals int) string {
	d := max(0, decimals+s.more)
	step := math.Pow10(d)
	return strconv.FormatFloat(math.Ceil(s.of(q)*step-1e-9)/step, 'f', d, 64) + " " + s.name
}

// down is num, rounded down.
func (s scale[Q]) down(q Q, decimals int) string {
	d := max(0, decimals+s.more)
	step := math.Pow10(d)
	return strconv.FormatFloat(math.Floor(s.of(q)*step+1e-9)/step, 'f', d, 64)
}

// short is say without zeros at the end.
func (s scale[Q]) short(q Q, decimals int) string {
	n := s.num(q, decimals)
	if strings.Contains(n, ".") {
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
	}
	return n + " " + s.name
}

// whole rounds up to whole metres or feet, as a crew lets rode out.
func (u family) whole(l units.Length) units.Length {
	if u.feet {
		return units.Foot.Scale(math.Ceil(l.Feet() - 1e-9))
	}
	return units.Length(math.Ceil(l.Metres()))
}

// wholeDown is whole, rounded down.
func (u family) wholeDown(l units.Length) units.Length {
	if u.feet {
		return units.Foot.Scale(math.Floor(l.Feet() + 1e-9))
	}
	return units.Length(math.Floor(l.Metres()))
}

// length is a purchase of a length: in metres by a step, or by the foot.
func (u family) length(p purchase, l, step units.Length) purchase {
	p.need, p.unit, p.step = l.Metres(), "m", step.Metres()
	if u.feet {
		p.need, p.unit, p.step = l.Feet(), "ft", 1
	}
	return p
}

// stock is the cable to choose from, and the size of the wires that only control.
func (u family) stock() (wiring.Stock, string, error) {
	if u.feet {
		s, err := wiring.AWG(wiring.Tinned)
		return s, "16 AWG", err
	}
	s, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	return s, "1.5 mm²", err
}

// reword puts the figures of a sentence of the library into the family's units, with
// as many significant digits.
func (u family) reword(s string) string {
	if !u.feet {
		return s
	}
	return metricFigure.ReplaceAllStringFunc(s, func(found string) string {
		m := metricFigure.FindStringSubmatch(found)
		x, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return found
		}
		switch m[2] {
		case "m":
			x = units.Metre.Scale(x).Feet()
		case "mm":
			x = units.Millimetre.Scale(x).Inches()
		case "kg":
			x = units.Kilogram.Scale(x).Pounds()
		case "t":
			x = units.Tonne.Scale(x).Pounds()
		case "kN":
			x = units.Kilonewton.Scale(x).PoundsForce()
		}
		digits := len(strings.TrimLeft(strings.NewReplacer("-", "", ".", "").Replace(m[1]), "0"))
		decimals := 0
		if x != 0 {
			decimals = max(0, digits-1-int(math.Floor(math.Log10(math.Abs(x)))))
		}
		return strconv.FormatFloat(x, 'f', decimals, 64) + " " + imperialName[m[2]] + m[3]
	})
}

var (
	metricFigure = regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?) (mm|m|kg|t|kN)([^²/a-zA-Z"]|$)`)
	imperialName = map[string]string{"m": "ft", "mm": "in", "kg": "lb", "t": "lb", "kN": "lbf"}
)

// at is the text of a field of a file, any entry of a list; "" where it is not there.
func at(data []byte, field string) string {
	here := json.RawMessage(data)
	for name := range strings.FieldsFuncSeq(field, func(r rune) bool { return strings.ContainsRune(".[]", r) }) {
		var fields map[string]json.RawMessage
		var items []json.RawMessage
		switch {
		case json.Unmarshal(here, &fields) == nil:
			here = fields[name]
		case json.Unmarshal(here, &items) == nil && len(items) > 0:
			here = items[0]
		default:
			return ""
		}
	}
	return string(here)
}
