package rode

import (
	"math"
	"slices"

	"example.com/forepeak/units"
)

// LockerRule is a published rule for the room that a length of chain or rope
// needs,
//
//	V = L d^Power / Divisor,  V in m³, L in m, d in mm
//
// d the diameter of the wire or the rope.
type LockerRule struct {
	Name           string
	Kind           Kind // OfChain or OfRope
	Divisor, Power float64
	Source         string
}

// LockerRules lists the rules, those for chain first, each kind in the order of
// the room that it gives. They differ by about two times for the same chain:
// between what chain fills when it is stowed by hand and what it takes when it
// falls as it will. Those for ships' chain have been read in design notes, not
// in the rules of the societies.
func LockerRules() []LockerRule { return slices.Clone(lockerRules) }

var lockerRules = []LockerRule{
	{"handbook, chain", OfChain, 48612, 2, "Gerr, Boat Mechanical Systems Handbook (2009), formula 24-6"},
	{"class rule, chain", OfChain, 49000, 2, "design note of a naval architect, after a class rule"},
	// 0.85 times fathoms times inches squared, in cubic feet.
	{"class rule in fathoms, chain", OfChain, 25.4 * 25.4 * 1.8288 / (0.85 * 0.3048 * 0.3048 * 0.3048), 2, "design note on the volume of chain lockers"},
	{"older class rule, chain", OfChain, 1e5 / 1.1, 2, "from memory"},
	{"yard standard, chain", OfChain, 100 / 0.000963, 2.0017, "fitted to the table of a Dutch yard's standard"},
	// The metric form is printed with 481 620, two digits exchanged: the form in
	// feet and inches, with 70, is 486 120.
	{"handbook, rope", OfRope, 486120, 2, "Gerr, Boat Mechanical Systems Handbook (2009), formula 24-7"},
}

// Volume is the room that the rule gives a length.
func (r LockerRule) Volume(length, diameter units.Length) (units.Volume, error) {
	var c checker
	between(&c, "Divisor", r.Divisor, 1, 1e9)
	between(&c, "Power", r.Power, 0, 4)
	between(&c, "length", length, 0, mostOut)
	between(&c, "diameter", diameter, 1e-4, 1)
	if c.err != nil {
		return 0, c.err
	}
	return r.volume(length, diameter), nil
}

func (r *LockerRule) volume(length, diameter units.Length) units.Volume {
	return units.Volume(float64(length) * math.Pow(diameter.Millimetres(), r.Power) / r.Divisor)
}

// Locker is a box below the wheel or the deck pipe, which is over its middle.
type Locker struct {
	// Length and Width of its floor, and Fall from the wheel or the pipe, where
	// the chain begins to drop, to the floor.
	Length, Width, Fall units.Length
	// Clear is the fall that has to be left when the heap is at its highest, for
	// the weight of the hanging chain to pull it off the wheel. Zero counts as
	// 0.46 m (18 in), from where Gerr's rule counts its volume.
	Clear units.Length `json:",omitempty"`
	// Slope at which chain heaps up by itself; it is laid level by hand at 0. No
	// published value was found: 30° to 45° is what heaps of chain look like, and
	// yours can be measured.
	Slope units.Angle `json:",omitempty"`
}

// Stowage is what one rule says of chain or rope in a locker.
type Stowage struct {
	Rule   LockerRule
	Volume units.Volume // of the length asked for
	Level  units.Length // height of it, laid level
	Heap   units.Length // height of the top of the heap, as it falls
	// Stows is how much falls into place by itself, before the heap grows into
	// the clear fall; at most the length asked for. What remains has to be knocked
	// over by hand.
	Stows units.Length
}

// Stow asks every rule for the kind, OfChain or OfRope, how much of a length stows
// itself in the locker. The answers differ as much as the rules do; take
// the smallest for what can be relied on.
func (l Locker) Stow(kind Kind, length, diameter units.Length) ([]Stowage, error) {
	clear := l.Clear
	if clear == 0 {
		clear = 0.46
	}
	var c checker
	between(&c, "Length", l.Length, 0.01, 100)
	between(&c, "Width", l.Width, 0.01, 100)
	between(&c, "Fall", l.Fall, 0.01, 100)
	between(&c, "Clear", clear, 0, 100)
	between(&c, "Slope", l.Slope, 0, 80*units.Degree)
	between(&c, "length", length, 0, mostOut)
	positive(&c, "length", length)
	between(&c, "diameter", diameter, 1e-4, 1)
	if c.err == nil && kind != OfChain && kind != OfRope {
		c.err = refuse("kind", kind, "chain or rope")
	}
	if c.err != nil {
		return nil, c.err
	}
	h := heap{float64(l.Length) / 2, float64(l.Width) / 2, l.Slope.Tan()}
	room := h.volume(math.Max(0, float64(l.Fall-clear)))
	var ss []Stowage
	for _, r := range lockerRules {
		if r.Kind != kind {
			continue
		}
		v := float64(r.volume(length, diameter))
		top, err := h.height(v)
		if err != nil {
			return nil, err
		}
		ss = append(ss, Stowage{
			Rule: r, Volume: units.Volume(v),
			Level: units.Length(v / float64(l.Length) / float64(l.Width)),
			Heap:  units.Length(top),
			Stows: length.Scale(math.Min(1, room/v)),
		})
	}
	return ss, nil
}
