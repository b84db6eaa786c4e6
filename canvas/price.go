package canvas

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Ware is something that is bought.
type Ware struct {
	// Lot is the length that is sold at a time, 1 m of webbing or a reel of 1500 m
	// of thread, and Pack how many pieces, of what is counted. Only whole ones are
	// bought.
	Lot  units.Length
	Pack int
	// Low and High are the price of a lot or pack; a High of 0 is Low. A Ware
	// without a price is one whose price is not known.
	Low, High units.Money
}

// PriceList has a ware for each length in [Quantities], and by name those that are
// counted.
type PriceList struct {
	Thread, Zip, Binding, Webbing, Rope Ware

	Pieces map[string]Ware
}

// Bill is what a cover's material costs besides its cloth.
type Bill struct {
	Lines []BillLine
	// Low and High are what all lines cost together.
	units.Interval[units.Money]
	// Unpriced is what is needed and has no price: the sums are without it.
	Unpriced []string
}

// BillLine is a ware that is needed.
type BillLine struct {
	Name   string
	Length units.Length // needed, of what is sold by length
	Count  int          // needed, of what is counted
	Lots   int          // bought
	// Low and High are the price of all lots.
	units.Interval[units.Money]
}

// Bill prices what a cover takes besides its cloth, whose cost is that of the
// rolls on which the pieces are laid ([LayPlan.Cost]); pieces are eyelets and snaps by the names
// of the list, as many as [Panel.Fasteners] has places.
func (l PriceList) Bill(q Quantities, pieces map[string]int) (Bill, error) {
	var b Bill
	for _, k := range []struct {
		name string
		ware Ware
		need units.Length
	}{
		{"Thread", l.Thread, q.Thread},
		{"Zip", l.Zip, q.Zip},
		{"Binding", l.Binding, q.Binding},
		{"Webbing", l.Webbing, q.Webbing},
		{"Rope", l.Rope, q.Rope},
	} {
		var c checker
		between(&c, k.name+" needed", k.need, 0, 1e6)
		k.ware.check(&c, k.name)
		if c.err == nil && k.ware.Low > 0 {
			between(&c, k.name+".Lot", k.ware.Lot, units.Millimetre, 1e6)
		}
		if c.err != nil {
			return Bill{}, c.err
		}
		if k.need > 0 {
			b.add(BillLine{Name: k.name, Length: k.need}, k.ware, k.need.Per(k.ware.Lot))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(pieces)) {
		var c checker
		w, n := l.Pieces[name], pieces[name]
		field := fmt.Sprintf("Pieces[%q]", name)
		c.count(field+" needed", n, 0, 1e6)
		w.check(&c, field)
		if c.err == nil && w.Low > 0 {
			c.count(field+".Pack", w.Pack, 1, 1e6)
		}
		if c.err != nil {
			return Bill{}, c.err
		}
		if n > 0 {
			b.add(BillLine{Name: name, Count: n}, w, float64(n)/float64(w.Pack))
		}
	}
	return b, nil
}

func (w Ware) check(c *checker, field string) {
	between(c, field+".Low", w.Low, 0, 1e9)
	between(c, field+".High", w.High, 0, 1e9)
	if c.err == nil && w.High != 0 && w.High < w.Low {
		c.err = refuse(field+".High", w.High, fmt.Sprintf("0, or the low price of %v or more", w.Low))
	}
	if c.err == nil && w.High > 0 && w.Low == 0 {
		c.err = refuse(field+".Low", w.Low, "the low price of what has a high one")
	}
}

func (b *Bill) add(line BillLine, w Ware, lots float64) {
	if w.Low == 0 {
		b.Unpriced = append(b.Unpriced, line.Name)
		return
	}
	line.Lots = int(math.Ceil(lots - 1e-9))
	line.Low = units.Money(float64(w.Low) * float64(line.Lots))
	line.High = units.Money(float64(max(w.Low, w.High)) * float64(line.Lots))
	b.Lines = append(b.Lines, line)
	b.Low += line.Low
	b.High += line.High
}
