package wiring_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// Whatever points a band has, it is refused or falls with the current.
func FuzzBandOpening(f *testing.F) {
	f.Add(1.1, 3600.0, 0.0, 2.0, 10.0, 60.0, 100.0, 250.0, false)
	f.Add(1.35, 0.75, 600.0, 6.0, 0.0, 0.1, 10.0, 1e9, true)
	f.Add(math.NaN(), 0.0, 0.0, math.Inf(1), -1.0, 1e300, 0.0, -1.0, true)
	f.Fuzz(func(t *testing.T, m0, e0, l0, m1, e1, l1, rating, current float64, tested bool) {
		b := Band{Tested: tested, Points: []BandPoint{
			{Multiple: m0, Earliest: units.Time(e0), Latest: units.Time(l0)},
			{Multiple: m1, Earliest: units.Time(e1), Latest: units.Time(l1)},
		}}
		low, err := b.Opening(units.Current(rating), units.Current(current))
		if err != nil {
			if e := new(Error); !errors.As(err, &e) || e.Field == "" {
				t.Errorf("error %v", err)
			}
			return
		}
		high, err := b.Opening(units.Current(rating), units.Current(current*1.1))
		if err != nil {
			return // more than a multiple can be
		}
		const rounding = 1 + 1e-9
		if low.Opens && (!high.Opens || high.Latest > low.Latest.Scale(rounding)) ||
			!low.Holds && (high.Holds || high.Earliest > low.Earliest.Scale(rounding)) {
			t.Errorf("%+v, and at a larger current %+v", low, high)
		}
		if low.Opens && !low.Holds && low.Earliest > low.Latest.Scale(rounding) {
			t.Errorf("%+v", low)
		}
		if _, err := json.Marshal(low); err != nil {
			t.Error(err)
		}
	})
}

// A study ends, and what it calls protected lets no more pass than the cable stands.
func FuzzStudyFaults(f *testing.F) {
	f.Add(0.2, 6.0, 12.8, 0.005, 1.0, 333.0, 5.0)
	f.Add(5.0, 50.0, 12.0, 0.1, 0.0, 293.0, 0.01)
	f.Add(-1.0, math.NaN(), 1e9, 0.0, 2.0, -1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, before, after, volts, ohm, charge, copper, within float64) {
		c := lampCircuit(units.Length(before), units.Length(after))
		b := *c.Elements[0].Battery
		b.OpenCircuit, b.Resistance, b.Charge = units.Voltage(volts), units.Resistance(ohm), charge
		c.Elements[0].Battery = &b
		r, err := StudyFaults(c, FaultStudy{HotCopper: units.Temperature(copper), Within: units.Time(within)})
		if err != nil {
			return
		}
		if _, err := json.Marshal(r); err != nil {
			t.Error(err)
		}
		for _, k := range r.Cables {
			if k.Protected && k.Peak > units.Ampere && (k.LetThrough > k.Withstand || !k.Worst.Off && k.Left > units.Ampere) {
				t.Errorf("%+v", k)
			}
		}
	})
}
