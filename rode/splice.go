package rode

import (
	"strconv"

	"example.com/forepeak/units"
)

// EyeSpliceTucks is the least number of full tucks in an eye splice of laid
// rope: 3 in manila, 4 in synthetic fibre (29 CFR 1926.251(d)(2)). Fibres are
// manila and those of the catalogue; for others the error wraps [ErrUnknown]. Two
// more with thinned strands make a tapered splice: see SpliceTaperTucks.
func EyeSpliceTucks(fibre string) (int, error) {
	switch fibre {
	case "manila":
		return 3, nil
	case "polyamide", "polyester", "polypropylene", "HMPE":
		return 4, nil
	}
	return 0, refuseAs(ErrUnknown, "fibre", strconv.Quote(fibre), "manila, polyamide, polyester, polypropylene or HMPE")
}

// ShortSpliceTucks is the least number of full tucks in a short splice of two
// laid ropes, both sides together: as many on each side as in an eye splice.
func ShortSpliceTucks(fibre string) (int, error) {
	n, err := EyeSpliceTucks(fibre)
	return 2 * n, err
}

// SpliceTaperTucks is the least number of tucks more, with strands thinned, for
// a splice whose tails are tapered (29 CFR 1926.251(d)(2)(vi)).
const SpliceTaperTucks = 2

// SpliceTail is the least length of the strands' ends left beyond the last full
// tuck: 6 rope diameters below 1 in of diameter, 6 in from 1 in up (29 CFR
// 1926.251(d)(2)(iv)). Ends cut off short at the rope pull through.
func SpliceTail(diameter units.Length) (units.Length, error) {
	var c checker
	positive(&c, "diameter", diameter)
	if c.err != nil {
		return 0, c.err
	}
	if diameter < units.Inch {
		return diameter.Scale(6), nil
	}
	return 6 * units.Inch, nil
}

// SpliceTaperTail is what the tapered tails take where short tails would be in
// the way: about 6 rope diameters for the 2 further tucks (29 CFR
// 1926.251(d)(2)(vi)).
func SpliceTaperTail(diameter units.Length) (units.Length, error) {
	var c checker
	positive(&c, "diameter", diameter)
	if c.err != nil {
		return 0, c.err
	}
	return diameter.Scale(6), nil
}

// SpliceFactor is the part of a rope's strength that an eye splice leaves: 0.9 in
// three-strand, eight-strand and twelve-strand rope (about 90 % in OCIMF Mooring
// Equipment Guidelines, 2nd edition, table 6.5, note 2; 90 to 95 % in the US
// Coast Guard's Boat Crew Seamanship Manual, table 7-6), 0.78 in double braid
// (tests of factory splices: 0.78 in polyamide, 0.88 in polyester). It is for a
// splice made with care, with all its tucks or its whole bury and taper. The error
// for another construction wraps [ErrUnknown].
func SpliceFactor(construction string) (float64, error) {
	switch construction {
	case "three-strand", "eight-strand", "twelve-strand":
		return 0.9, nil
	case "double-braid":
		return 0.78, nil
	}
	return 0, refuseAs(ErrUnknown, "construction", strconv.Quote(construction), "three-strand, eight-strand, twelve-strand or double-braid")
}

// ShortSpliceFactor is the part of a rope's strength that a short splice leaves
// (US Coast Guard, Boat Crew Seamanship Manual, table 7-6).
const ShortSpliceFactor = 0.85

// knotFactors is table 7-6 of the US Coast Guard's Boat Crew Seamanship Manual,
// the lower value where it gives a range.
var knotFactors = map[string]float64{
	"square":             0.54,
	"bowline":            0.63,
	"two bowlines":       0.57,
	"becket bend":        0.59,
	"double becket bend": 0.59,
	"round turn":         0.65,
	"timber hitch":       0.65,
	"clove hitch":        0.60,
}

// KnotFactor is the part of a rope's strength that a knot leaves: square,
// bowline, two bowlines (eye in eye), becket bend, double becket bend, round
// turn, timber hitch or clove hitch (US Coast Guard, Boat Crew Seamanship
// Manual, table 7-6, the lower value where it gives a range). Tests of double braid
// gave a tenth less: splice a snubber. The error for another knot wraps [ErrUnknown].
func KnotFactor(knot string) (float64, error) {
	if f, ok := knotFactors[knot]; ok {
		return f, nil
	}
	return 0, refuseAs(ErrUnknown, "knot", strconv.Quote(knot), names(knotFactors))
}

// EyeSpliceCrowns is the rope to unlay for the tucks of an eye splice in
// three-strand rope, in crowns: a crown is the distance along the rope from the
// top of one strand to that of the next, a third of the lay (a rope maker's
// instructions for class I three-strand rope).
const EyeSpliceCrowns = 16

// LayDiameters is the lay length of three-strand rope in diameters where the
// rope itself has not been measured: a usual value, from 3 to 3.5.
const LayDiameters = 3.2

// spliceTails is what the tucks or the bury of an eye splice take, in rope
// diameters: 4 tucks of pairs and a taper in eight-strand; a bury of 3.5 fids in
// hollow twelve-strand and 2 fids in double braid, a fid being 21 diameters.
// These are usual values of the trade; a maker's instructions go before them.
var spliceTails = map[string]float64{
	"three-strand":  EyeSpliceCrowns * LayDiameters / 3,
	"eight-strand":  20,
	"twelve-strand": 3.5 * 21,
	"double-braid":  2 * 21,
}
