package anchor

import (
	"fmt"
	"strings"

	"example.com/forepeak/units"
)

// Rig is what stands on a boat.
type Rig int

// The rigs.
const (
	Sloop  Rig = iota // one mast, one headsail rolled on its stay
	Cutter            // one mast, two
	Ketch             // two masts, one
	Motor             // a wheelhouse and a signal mast
)

var rigNames = []string{"sloop", "cutter", "ketch", "motor"}

// String is the rig's name.
func (r Rig) String() string {
	if r < 0 || int(r) >= len(rigNames) {
		return fmt.Sprintf("rig %d", int(r))
	}
	return rigNames[r]
}

// MarshalText writes the rig's name.
func (r Rig) MarshalText() ([]byte, error) {
	if r < 0 || int(r) >= len(rigNames) {
		return nil, refuse("Rig", int(r), "one of the rigs")
	}
	return []byte(rigNames[r]), nil
}

// UnmarshalText reads the rig's name.
func (r *Rig) UnmarshalText(text []byte) error {
	for i, n := range rigNames {
		if n == string(text) {
			*r = Rig(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Rig", fmt.Sprintf("%q", text), strings.Join(rigNames, ", "))
}

// Dimensions is what everybody knows of a boat.
type Dimensions struct {
	Length    units.Length // of the hull, from 5 m to 24 m
	Beam      units.Length // of the boat; of a catamaran, over both hulls
	Freeboard units.Length // mean height of the deck above the water
	Rig       Rig
	// Hulls is 2 for a catamaran; 0 counts as 1.
	Hulls int
}

// EstimateSpread is by how much the load of an estimated Windage may be off,
// as a factor either way: boats of one length and rig differ so much in what
// they carry on deck. It is a judgement, not a measurement.
const EstimateSpread = 1.35

// Estimate makes a Windage from main dimensions, for a boat whose parts have not
// been measured. Its proportions are those common in cruising boats: a mast 1.2
// times the hull's length above deck and 1.4 % of it thick, wires eight times as
// long as the mast, a low house with a spray hood, and what follows from them; a
// catamaran's hulls are 11 % of her length wide, with a bridge deck and a high house
// between. The load is good to a factor of [EstimateSpread] either way: change the
// parts that you know, and add what you carry, such as a dinghy on davits, a frame
// with solar panels or an awning.
func Estimate(d Dimensions) (Windage, error) {
	var c checker
	between(&c, "Length", d.Length, 5, 24)
	between(&c, "Beam", d.Beam, d.Length.Scale(0.15), d.Length.Scale(0.8))
	between(&c, "Freeboard", d.Freeboard, d.Length.Scale(0.03), d.Length.Scale(0.3))
	c.must(d.Hulls >= 0 && d.Hulls <= 2, "Hulls", d.Hulls, "1 or 2")
	c.must(d.Rig >= 0 && int(d.Rig) < len(rigNames), "Rig", int(d.Rig), "one of the rigs")
	if c.err != nil {
		return Windage{}, c.err
	}
	l, deck := d.Length, d.Freeboard
	box := func(name string, wide, long, bottom, high units.Length, drag float64, station units.Length) Part {
		return Part{
			Name: name, Front: wide.TimesLength(high), Side: long.TimesLength(high),
			DragFront: drag, DragSide: 1, Bottom: bottom, Top: bottom + high, Station: station, Length: long,
		}
	}
	hulls := []Part{box("hull", d.Beam.Scale(0.85), l.Scale(0.95), 0, deck, 0.6, 0)}
	house := box("house", d.Beam.Scale(0.5), l.Scale(0.4), deck, l.Scale(0.045), 0.8, 0)
	if d.Hulls == 2 {
		slim := l.Scale(0.11)
		bridge := min(l.Scale(0.06), deck.Scale(0.6)) // its height above the water
		lee := box("lee hull", slim, l.Scale(0.95), 0, deck, 0.6, 0)
		lee.DragSide = 0.4 // the other hull stands before it
		deckhouse := box("bridge deck", max(0, d.Beam-2*slim), 0, bridge, deck-bridge, 1, 0)
		hulls = []Part{box("hull", slim, l.Scale(0.95), 0, deck, 0.6, 0), lee, deckhouse}
		house = box("house", d.Beam.Scale(0.65), l.Scale(0.45), deck, l.Scale(0.09), 0.9, 0)
	}
	if d.Rig == Motor {
		house := l.Scale(0.15)
		mast := l.Scale(0.25)
		return Windage{append(hulls,
			box("wheelhouse", d.Beam.Scale(0.75), l.Scale(0.5), deck, house, 0.9, 0),
			mastPart("signal mast", mast, l.Scale(0.01), deck+house, 0),
			Wires{"rails and aerials", l.Scale(0.0025), l.Scale(6), deck, deck + l.Scale(0.1)}.Part(),
		)}, nil
	}
	parts := append(hulls,
		house,
		box("spray hood", d.Beam.Scale(0.5), l.Scale(0.1), house.Top, l.Scale(0.05), 1, l.Scale(-0.15)),
		Wires{"rails", l.Scale(0.0025), l.Scale(4), deck, deck + l.Scale(0.06)}.Part(),
	)
	parts = append(parts, stick("", l, deck, l.Scale(0.08))...)
	rolled := func(name string, length units.Length, station float64) Part {
		p := Wires{name, l.Scale(0.012), length, deck, deck + length}.Part()
		p.DragFront, p.DragSide, p.Station = 1, 1, l.Scale(station)
		return p
	}
	parts = append(parts, rolled("rolled headsail", l.Scale(1.15), 0.3))
	switch d.Rig {
	case Cutter:
		parts = append(parts, rolled("rolled staysail", l.Scale(0.8), 0.22))
	case Ketch:
		parts = append(parts, stick("mizzen ", l.Scale(0.65), deck, l.Scale(-0.35))...)
	}
	return Windage{parts}, nil
}

// stick is a mast that suits a boat of a length, with what belongs to it.
func stick(name string, l, deck, station units.Length) []Part {
	high := l.Scale(1.2)
	wires := Wires{name + "rigging", l.Scale(0.0007), high.Scale(8), deck, deck + high}.Part()
	halyards := Wires{name + "halyards", l.Scale(0.001), high.Scale(3), deck, deck + high}.Part()
	halyards.Shielded = 0.3 // they lie along the mast
	wires.Station, halyards.Station = station, station
	thick, boom := l.Scale(0.03), deck+l.Scale(0.13)
	return []Part{
		mastPart(name+"mast", high, l.Scale(0.014), deck, station),
		wires, halyards,
		{
			Name: name + "boom and sail", Shape: Spar, Front: thick.TimesLength(thick), Side: thick.TimesLength(l.Scale(0.38)),
			Bottom: boom, Top: boom + thick, Station: station - l.Scale(0.19), Length: l.Scale(0.38),
		},
	}
}

func mastPart(name string, high, thick, bottom, station units.Length) Part {
	p := Wires{name, thick, high, bottom, bottom + high}.Part()
	p.DragFront, p.DragSide, p.Station = 1, 1, station
	return p
}
