package wiring

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/forepeak/units"
)

// Conductor is one insulated copper conductor.
type Conductor struct {
	Size  string // as sold: "35 mm²", "2 AWG", "2 SAE"
	Gauge string `json:",omitempty"` // number in the American tables: "2", "2/0"; empty for metric sizes

	Area       units.Area                // of copper, nominal
	Resistance units.ResistancePerLength // largest at 20 °C

	Insulation units.Temperature   // conductor temperature that the insulation is made for
	Diameter   units.Length        // over the insulation
	Mass       units.LinearDensity // with insulation
	Estimated  bool                `json:",omitempty"` // Diameter or Mass is an estimate

	Price units.Money `json:",omitempty"` // of a metre; 0: not known
}

// check refuses what no calculation can use.
func (c Conductor) check(ck *checker, field string) {
	between(ck, field+".Area", c.Area, 1e-9, 1e-2)
	between(ck, field+".Resistance", c.Resistance, 1e-9, 1e3)
	if c.Insulation != 0 {
		between(ck, field+".Insulation", c.Insulation, units.Celsius(40), hottestCopper)
	}
	notNegative(ck, field+".Diameter", c.Diameter)
	notNegative(ck, field+".Mass", c.Mass)
	notNegative(ck, field+".Price", c.Price)
}

// Stock is what can be bought, in order of rising area: a standard series or the
// caller's own list.
type Stock []Conductor

// NewStock checks the conductors, sorts them by area and estimates the diameters and masses
// that are 0.
func NewStock(conductors []Conductor) (Stock, error) {
	var c checker
	s := slices.Clone(conductors)
	for i, x := range s {
		x.check(&c, fmt.Sprintf("conductors[%d]", i))
		if c.err != nil {
			return nil, c.err
		}
		s[i] = x.estimated()
	}
	slices.SortStableFunc(s, func(a, b Conductor) int { return cmp.Compare(a.Area, b.Area) })
	return s, nil
}

// Find returns the conductor sold under the size, as in "35 mm²" (35 mm2 will do),
// "2 AWG" or "2 SAE". The error for a size that is not in the stock is an [ErrUnknown].
func (s Stock) Find(size string) (Conductor, error) {
	for _, c := range s {
		if plainSize(c.Size) == plainSize(size) {
			return c, nil
		}
	}
	names := make([]string, len(s))
	for i, c := range s {
		names[i] = c.Size
	}
	return Conductor{}, refuseAs(ErrUnknown, "size", fmt.Sprintf("%q", size), "one of "+strings.Join(names, ", "))
}

// plainSize makes "35 mm²", "35 mm2" and "35mm2" alike.
func plainSize(s string) string {
	return strings.ToLower(strings.ReplaceAll(strings.ReplaceAll(s, " ", ""), "²", "2"))
}

// WithInsulation returns the stock with the conductor temperature that its insulation
// is made for.
func (s Stock) WithInsulation(t units.Temperature) Stock {
	s = slices.Clone(s)
	for i := range s {
		s[i].Insulation = t
	}
	return s
}
