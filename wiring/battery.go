package wiring

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/units"
)

// Chemistry is the kind of a battery.
type Chemistry string

// Chemistries.
const (
	Flooded          Chemistry = "flooded lead-acid"
	AGM              Chemistry = "AGM lead-acid"
	Gel              Chemistry = "gel lead-acid"
	LithiumPhosphate Chemistry = "lithium iron phosphate"
)

// Battery is a bank seen at its posts.
type Battery struct {
	Chemistry  Chemistry
	Cells      int              // in series: 6 lead-acid or 4 lithium iron phosphate for 12 V
	Capacity   units.Charge     // rated, of the whole bank
	RatedOver  units.Time       // discharge time of the rating, 0: 20 h
	Peukert    float64          // exponent, 0: 1, a capacity that does not depend on the current
	Resistance units.Resistance // of the whole bank, full, at 25 °C, with its links

	Charge      float64           // state of charge, 0 empty to 1 full
	Temperature units.Temperature // from -30 °C to 60 °C; 0: 25 °C

	// OpenCircuit, when not 0, replaces the chemistry's curve: what was measured after a rest.
	OpenCircuit units.Voltage `json:",omitempty"`

	Disconnect *Disconnect `json:",omitempty"`
}

// Disconnect is the electronic switch of a battery's management.
type Disconnect struct {
	Resistance     units.Resistance  // of the closed switch
	Continuous     units.Current     // carried for ever
	Peak           units.Current     // carried for PeakTime; more than that opens at once
	PeakTime       units.Time        //
	LowVoltage     units.Voltage     // opens at the posts below this, 0: never
	LowTemperature units.Temperature // opens when the battery is colder, 0: never
}

// Range of temperatures in which a battery is used.
var (
	coldestBank = units.Celsius(-30)
	hottestBank = units.Celsius(60)
)

func (b Battery) check(c *checker, field string) {
	between(c, field+".Charge", b.Charge, 0, 1)
	ohmic(c, field+".Resistance", b.Resistance)
	notNegative(c, field+".Capacity", b.Capacity)
	notNegative(c, field+".RatedOver", b.RatedOver)
	notNegative(c, field+".Peukert", b.Peukert)
	if b.Temperature != 0 {
		between(c, field+".Temperature", b.Temperature, coldestBank, hottestBank)
	}
	if b.OpenCircuit != 0 {
		between(c, field+".OpenCircuit", b.OpenCircuit, 0.1*units.Volt, 1000*units.Volt)
	}
	if _, known := chemistries[b.Chemistry]; !known {
		var names []string
		for name := range chemistries {
			names = append(names, string(name))
		}
		slices.Sort(names)
		must(c, false, field+".Chemistry", fmt.Sprintf("%q", b.Chemistry), strings.Join(names, ", "))
	}
	if b.OpenCircuit == 0 {
		must(c, b.Cells > 0 && b.Cells <= 500, field+".Cells", b.Cells, "from 1 to 500, or OpenCircuit")
	}
	if d := b.Disconnect; d != nil {
		ohmic(c, field+".Disconnect.Resistance", d.Resistance)
		positive(c, field+".Disconnect.Continuous", d.Continuous)
		must(c, d.Peak >= d.Continuous && finite(float64(d.Peak)), field+".Disconnect.Peak", d.Peak, "at least Continuous")
		notNegative(c, field+".Disconnect.PeakTime", d.PeakTime)
		notNegative(c, field+".Disconnect.LowVoltage", d.LowVoltage)
		notNegative(c, field+".Disconnect.LowTemperature", d.LowTemperature)
	}
}

// temperature is the one the battery has.
func (b Battery) temperature() units.Temperature {
	if b.Temperature == 0 {
		return units.Celsius(25)
	}
	return b.Temperature
}

// OpenCircuitVoltage returns the voltage after a rest of hours, without current:
// the field OpenCircuit, or else Cells times the curve of the chemistry at the
// state of charge, plus 0.2 mV per cell and kelvin above 25 °C for lead-acid.
//
// The curves are rounded figures of the trade, good to 0.05 V for a 12 V battery that
// has rested; a flat curve such as that of lithium iron phosphate says little
// about charge. A charge below the curve's lowest point is [ErrRange].
func (b Battery) OpenCircuitVoltage() (units.Voltage, error) {
	var c checker
	b.check(&c, "Battery")
	if c.err != nil {
		return 0, c.err
	}
	if b.OpenCircuit != 0 {
		return b.OpenCircuit, nil
	}
	k := chemistries[b.Chemistry]
	first := k.curve[0]
	if b.Charge < first.charge {
		return 0, refuseAs(ErrRange, "Battery.Charge", b.Charge, fmt.Sprintf("%g or more for %s, or OpenCircuit", first.charge, b.Chemistry))
	}
	v := k.curve[len(k.curve)-1].volts
	for i, hi := range k.curve[1:] {
		if lo := k.curve[i]; b.Charge <= hi.charge {
			v = lo.volts + (hi.volts-lo.volts)*(b.Charge-lo.charge)/(hi.charge-lo.charge)
			break
		}
	}
	v += k.perKelvin * float64(b.temperature().Sub(units.Celsius(25)))
	return units.Voltage(v * float64(b.Cells)), nil
}

// InternalResistance returns the resistance between the posts at the state of
// charge and temperature, with the closed disconnect if there is one:
//
//	Resistance * (1 + discharged*(1 - Charge)) * 2^((25 °C - Temperature)/doubling)
//
// with discharged = 1 and doubling = 43 K for lead-acid, 0.3 and 25 K for lithium iron
// phosphate. These two are rules of thumb from memory, within a factor of 1.5.
//
// In frost the sources on lead-acid disagree. Of the cranking power at 27 °C manuals print
// 65 % at 0 °C, 40 % at -18 °C and 20 or 30 % at -29 °C, where this resistance leaves 65, 49
// and 41 %; acid also diffuses slower, which a resistance does not show. But rated
// cranking currents are only 1.25 times as large at 0 °C as at -18 °C, here 1.33 times.
//
// Caution: below -18 °C do not count on more than half of the current that follows from
// this. Where it matters, measure (see [ResistanceFromStep]).
func (b Battery) InternalResistance() (units.Resistance, error) {
	var c checker
	b.check(&c, "Battery")
	if c.err != nil {
		return 0, c.err
	}
	k := chemistries[b.Chemistry]
	cold := math.Exp2(float64(units.Celsius(25).Sub(b.temperature())) / k.doubling)
	r := b.Resistance.Scale((1 + k.discharged*(1-b.Charge)) * cold)
	if b.Disconnect != nil {
		r += b.Disconnect.Resistance
	}
	return r, nil
}

// ResistanceFromStep returns a resistance from two readings: V/I with no load
// and under load, (before - under)/current. It is the battery's own when the meter
// is on its posts.
func ResistanceFromStep(before, under units.Voltage, current units.Current) (units.Resistance, error) {
	var c checker
	positive(&c, "current", current)
	notNegative(&c, "under", under)
	positive(&c, "before", before)
	must(&c, before > under, "before", before, "more than the voltage under load")
	if c.err != nil {
		return 0, c.err
	}
	return (before - under).PerCurrent(current), nil
}

// ResistanceFromCranking returns the most that the resistance of a battery can be at
// -18 °C, from its cold cranking current: at that current 7.2 V (for 12 V, 1.2 V a
// cell) must be left after 30 s, so (2.1 V - 1.2 V) * cells / current. Warm it is about half.
// The definition is SAE's and BCI's; EN and IEC ratings use other voltages.
func ResistanceFromCranking(cells int, cranking units.Current) (units.Resistance, error) {
	var c checker
	must(&c, cells > 0 && cells <= 500, "cells", cells, "from 1 to 500")
	positive(&c, "cranking", cranking)
	if c.err != nil {
		return 0, c.err
	}
	return units.Voltage(0.9 * float64(cells)).PerCurrent(cranking), nil
}

// FaultCurrent returns what the battery drives into a dead short across its posts,
// open-circuit voltage over internal resistance.
//
// Caution: a cold or discharged battery gives less, a warm full one more; a device must
// break the largest and still open at the smallest.
func (b Battery) FaultCurrent() (units.Current, error) {
	e, err := b.OpenCircuitVoltage()
	if err != nil {
		return 0, err
	}
	r, err := b.InternalResistance()
	if err != nil {
		return 0, err
	}
	return e.PerResistance(r), nil
}
