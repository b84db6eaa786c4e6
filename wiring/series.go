package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Class is how fine a conductor of IEC 60228 is stranded.
type Class int

// Classes of IEC 60228. Vibration breaks solid conductors (class 1): none here.
const (
	Stranded Class = 2
	Flexible Class = 5
)

// Finish is that of the strands. Tinned copper corrodes less in damp salt air.
type Finish string

// Finishes.
const (
	Plain  Finish = "plain"
	Tinned Finish = "tinned"
)

func (f Finish) check(c *checker) {
	must(c, f == Plain || f == Tinned, "finish", fmt.Sprintf("%q", f), `"plain" or "tinned"`)
}

// Metric returns the sizes from 0.5 to 300 mm² with the largest resistances of IEC
// 60228:2004, tables 2 and 3. Diameter and mass are estimates.
func Metric(class Class, finish Finish) (Stock, error) {
	var c checker
	must(&c, class == Stranded || class == Flexible, "class", int(class), "2 or 5")
	finish.check(&c)
	if c.err != nil {
		return nil, c.err
	}
	s := make(Stock, len(tableIEC60228))
	for i, r := range tableIEC60228 {
		ohms := map[Class]map[Finish]float64{
			Stranded: {Plain: r.plain2, Tinned: r.tinned2},
			Flexible: {Plain: r.plain5, Tinned: r.tinned5},
		}[class][finish]
		s[i] = Conductor{
			Size:       fmt.Sprintf("%g mm²", r.area),
			Area:       units.Area(r.area * 1e-6),
			Resistance: units.ResistancePerLength(ohms / 1000),
		}.estimated()
	}
	return s, nil
}

// What stranding and tin add to the resistance of copper of the area. Concentric plain strands:
// 2 %, ASTM B8. Fine tinned ropes: 6 % for the lay, and 93.15 % conductivity for tinned
// strands of 0.25 to 0.5 mm, ASTM B33, both from memory; together 13.8 %, which is within 2 % of
// the tinned wire of FAA AC 43.13-1B, table 11-9, and of IEC 60228 class 5 from 10 mm² up.
const (
	plainStrands  = 1.02
	tinnedStrands = 1.06 / 0.9315
)

// american returns conductors whose resistance is that of copper of the area, stranded.
func american(names []string, suffix string, finish Finish, area func(i int) units.Area) (Stock, error) {
	var c checker
	finish.check(&c)
	if c.err != nil {
		return nil, c.err
	}
	k := plainStrands
	if finish == Tinned {
		k = tinnedStrands
	}
	s := make(Stock, len(names))
	for i, g := range names {
		a := area(i)
		s[i] = Conductor{
			Size:       g + suffix,
			Gauge:      g,
			Area:       a,
			Resistance: units.ResistancePerLength(k * copperResistivity / float64(a)),
		}.estimated()
	}
	return s, nil
}

// AWG returns stranded conductors of the American wire gauge from 18 to 4/0 with the exact
// area of ASTM B258. The resistance is that of copper of the area ([CopperResistance]) times
// 1.02 for plain strands and 1.138 for fine tinned ones, within 2 % of published tables.
func AWG(finish Finish) (Stock, error) {
	var names []string
	for i := range tableSAE {
		names = append(names, tableSAE[i].gauge)
	}
	return american(names, " AWG", finish, func(i int) units.Area {
		a, _ := GaugeArea(names[i]) // all of them are gauges
		return a
	})
}

// tableSAE has the least areas of SAE J1127 and J1128 conductors in circular mils, as
// printed in a data page of boat cable.
var tableSAE = []struct {
	gauge string
	cmil  float64
}{
	{"18", 1537},
	{"16", 2336},
	{"14", 3702},
	{"12", 5833},
	{"10", 9343},
	{"8", 14810},
	{"6", 24538},
	{"4", 37360},
	{"2", 62450},
	{"1", 77790},
	{"1/0", 98980},
	{"2/0", 125100},
	{"3/0", 158600},
	{"4/0", 205500},
}

// SAE returns the conductors of road vehicles, SAE J1127 and J1128, from 18 to 4/0. They carry
// the numbers of the American wire gauge but are 3 to 12 % smaller. Resistances as for [AWG].
func SAE(finish Finish) (Stock, error) {
	var names []string
	for i := range tableSAE {
		names = append(names, tableSAE[i].gauge)
	}
	return american(names, " SAE", finish, func(i int) units.Area { return units.CircularMil.Scale(tableSAE[i].cmil) })
}

// strandFill is how much of its circle a stranded conductor fills.
const strandFill = 0.66

// estimated fills in the diameter and the mass where they are not given.
//
// Strands fill two thirds of their circle; insulation is 0.6 mm thick plus 0.1 mm for the
// square root of the area in mm², which is within 0.2 mm of what standards of flexible
// single-core cable ask for; its density is 1.4 kg/L, that of copper 8.89 kg/L with 3 % for
// lay and tin. Within about 10 % of catalogues.
func (c Conductor) estimated() Conductor {
	mm2 := c.Area.SquareMillimetres()
	core := math.Sqrt(4 * mm2 / (math.Pi * strandFill))
	outer := core + 2*(0.6+0.1*math.Sqrt(mm2))
	if c.Diameter == 0 {
		c.Diameter = units.Length(outer / 1000)
		c.Estimated = true
	}
	if c.Mass == 0 {
		ring := math.Pi/4*c.Diameter.Millimetres()*c.Diameter.Millimetres() - mm2/strandFill
		c.Mass = units.LinearDensity((8.89*1.03*mm2 + 1.4*max(0, ring)) / 1000)
		c.Estimated = true
	}
	return c
}

// BendRadius returns the least inside radius of a bend of a fixed cable: 4 times its diameter
// up to 25 mm, 6 times above. IEC 60092-352 gives these for cables without armour, from
// memory; the maker's figure goes before it.
func (c Conductor) BendRadius() (units.Length, error) {
	var ck checker
	c.check(&ck, "conductor")
	if ck.err != nil {
		return 0, ck.err
	}
	d := c.estimated().Diameter
	if d <= 25*units.Millimetre {
		return d.Scale(4), nil
	}
	return d.Scale(6), nil
}
