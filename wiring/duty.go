package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Spell is a current that flows for a time.
type Spell struct {
	Current units.Current
	For     units.Time
}

// Ride is what a device does in a sequence of spells: a motor's start, its pull,
// its stall.
type Ride struct {
	Holds bool // it cannot open
	// MayOpen is the earliest moment at which it can open, from the start of the
	// first spell; 0 with Holds, or when the band states no earliest time.
	MayOpen units.Time
	Opens   bool // it must open
	// OpensBy is the latest moment; 0 unless Opens.
	OpensBy units.Time
	// InSpell counts the spell in which it may open first, from 0; -1 with Holds.
	InSpell int
}

// RideThrough says whether a device opens during a sequence of spells that begins
// with the device cold. Each spell uses up the part of the device's life that its length
// is of the time in which the band opens; opening is at the whole. Warmth is not
// lost between spells in this sum, so that "holds" is safe to believe; "must open" is
// only as good as the sum where a heavy spell comes before a light one.
func RideThrough(d Device, spells []Spell) (Ride, error) {
	var c checker
	d.check(&c, "device")
	must(&c, d.Band != nil, "device.Band", "not given", "the band of the device")
	must(&c, len(spells) > 0, "spells", "empty", "at least one spell")
	for i, s := range spells {
		notNegative(&c, fmt.Sprintf("spells[%d].Current", i), s.Current)
		positive(&c, fmt.Sprintf("spells[%d].For", i), s.For)
	}
	if c.err != nil {
		return Ride{}, c.err
	}
	r := Ride{Holds: true, InSpell: -1}
	var early, late, clock float64
	for i, s := range spells {
		m, t := s.Current.Per(d.Rating), s.For.Seconds()
		first, last := d.Band.earliest(m), d.Band.latest(m)
		if r.Holds && early+t/first >= 1 { // t/0 is +Inf, t/+Inf is 0
			r.Holds, r.InSpell = false, i
			r.MayOpen = units.Time(clock + math.Max(0, (1-early)*first))
		}
		if !r.Opens && late+t/last >= 1 {
			r.Opens = true
			r.OpensBy = units.Time(clock + math.Max(0, (1-late)*last))
		}
		early += t / first
		late += t / last
		clock += t
	}
	return r, nil
}
