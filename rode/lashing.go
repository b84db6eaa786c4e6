package rode

import (
	"math"

	"example.com/forepeak/units"
)

// tuckedEnd is what each end of a seizing or lashing takes for its knot.
const tuckedEnd = 150 * units.Millimetre

// SeizingTwine is the twine for a round seizing of two ropes side by side: turns
// of the girth (2 + pi) d + pi t each, two frapping turns across them, and two
// ends, of 150 mm each, to make fast. The lengths are geometry; two frapping turns
// and the ends are practice.
func SeizingTwine(rope, twine units.Length, turns int) (units.Length, error) {
	var c checker
	positive(&c, "rope", rope)
	positive(&c, "twine", twine)
	if c.err == nil && (turns < 1 || turns > 1000) {
		c.err = refuse("turns", turns, "from 1 to 1000")
	}
	if c.err != nil {
		return 0, c.err
	}
	n := float64(turns)
	girth := rope.Scale(2+math.Pi) + twine.Scale(math.Pi)
	across := twine.Scale(2*n) + rope.Scale(2) + twine.Scale(math.Pi)
	return girth.Scale(n) + across.Scale(2) + 2*tuckedEnd, nil
}

// Lashing holds the bitter end of a rode.
type Lashing struct {
	Turns    int
	Strength units.Force  // of all its parts, with the knot's loss
	Cord     units.Length // to buy
}

// BitterEndLashing works out the turns of a cord between the last link and the
// strong point in the locker. Each turn is two parts; the knot leaves 0.54 of the
// cord's strength (KnotFactor, square), and all of it must hold the load:
//
//	turns = load / (2 0.54 B), rounded up
//
// span is from the strong point up through the deck to where the last link is
// then: it has to be so long that the lashing itself comes on deck, where it
// can be cut with a knife when the anchor has to be slipped at once. load is
// what the running chain may bring: the windlass's greatest pull, or the weight
// of all the chain and anchor; a chain that runs out freely breaks any cord
// lashing, which is why nobody relies on it to stop one. Keep hands, feet and
// the cutter's face out of its line: it springs back.
func BitterEndLashing(load units.Force, cord Rope, span units.Length) (Lashing, error) {
	var c checker
	positive(&c, "load", load)
	positive(&c, "cord.Breaking", cord.Breaking)
	positive(&c, "span", span)
	if c.err != nil {
		return Lashing{}, c.err
	}
	part := cord.Breaking.Scale(knotFactors["square"])
	n := math.Ceil(load.Per(part) / 2)
	if n > 100 {
		return Lashing{}, refuse("cord.Breaking", cord.Breaking, "a cord of which 100 turns hold "+load.String())
	}
	return Lashing{
		Turns:    int(n),
		Strength: part.Scale(2 * n),
		Cord:     span.Scale(2*n) + 2*tuckedEnd,
	}, nil
}
