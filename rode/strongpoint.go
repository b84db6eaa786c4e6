package rode

import (
	"fmt"
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// Craft is what the rule for strong points asks of a boat.
type Craft struct {
	Hull      units.Length // length of the hull, LH
	Waterline units.Length // length at the waterline, LWL, loaded
	Category  Category     // design category
	Mass      units.Mass   // loaded; 0 if not known
}

// Category is a design category of small craft: A ocean, B offshore, C inshore,
// D sheltered waters.
type Category string

// The design categories.
const (
	Ocean     Category = "A"
	Offshore  Category = "B"
	Inshore   Category = "C"
	Sheltered Category = "D"
)

// StrongPoint is what a strong point is used for.
type StrongPoint int

// The uses.
const (
	ForAnchoring StrongPoint = iota // forward: anchoring and being towed
	ForMooring                      // forward: mooring
	Aft
)

var strongPointNames = [...]string{"anchoring", "mooring", "aft"}

// String names the use.
func (u StrongPoint) String() string {
	if u < 0 || int(u) >= len(strongPointNames) {
		return "StrongPoint(" + strconv.Itoa(int(u)) + ")"
	}
	return strongPointNames[u]
}

// MarshalText writes the use's name.
func (u StrongPoint) MarshalText() ([]byte, error) {
	if u < 0 || int(u) >= len(strongPointNames) {
		return nil, refuse("StrongPoint", u, "anchoring, mooring or aft")
	}
	return []byte(strongPointNames[u]), nil
}

// UnmarshalText reads the use's name. The error for another wraps [ErrUnknown].
func (u *StrongPoint) UnmarshalText(text []byte) error {
	for i, n := range strongPointNames {
		if string(text) == n {
			*u = StrongPoint(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "StrongPoint", strconv.Quote(string(text)), "anchoring, mooring or aft")
}

// categoryFactor is X of ISO 15084.
var categoryFactor = map[Category]float64{Ocean: 1, Offshore: 1, Inshore: 0.9, Sheltered: 0.75}

func (k Craft) check(c *checker) {
	between(c, "Craft.Hull", k.Hull, 2.5, 24)
	positive(c, "Craft.Waterline", k.Waterline)
	between(c, "Craft.Waterline", k.Waterline, 0, k.Hull)
	notNegative(c, "Craft.Mass", k.Mass)
	if _, ok := categoryFactor[k.Category]; c.err == nil && !ok {
		c.err = refuse("Craft.Category", strconv.Quote(string(k.Category)), "A, B, C or D")
	}
}

// StrongPointLoad is the horizontal load in kN that a strong point and what
// holds it to the boat have to bear, with LC = (LH + LWL)/2 in metres and X = 1
// in categories A and B, 0.9 in C, 0.75 in D:
//
//	forward, anchoring and being towed: X (4.3 LC - 5.4)
//	forward, mooring:                   X (3.5 LC - 4.3)
//	aft:                                X (3.0 LC - 3.8)
//
// but no more than the weight of the loaded boat (ISO 15084:2003; the
// coefficients are recalled, and confirmed by an owner's manual that prints all
// three loads of one boat). It is for craft of 2.5 m to 24 m. It is a minimum
// for building, not a load to look forward to: the standard in force and local
// rules go before this.
func (k Craft) StrongPointLoad(use StrongPoint) (units.Force, error) {
	var c checker
	k.check(&c)
	if c.err != nil {
		return 0, c.err
	}
	lc := float64(k.Hull+k.Waterline) / 2
	var kn float64
	switch use {
	case ForAnchoring:
		kn = 4.3*lc - 5.4
	case ForMooring:
		kn = 3.5*lc - 4.3
	case Aft:
		kn = 3.0*lc - 3.8
	default:
		return 0, refuse("use", use, "anchoring, mooring or aft")
	}
	f := units.Kilonewton.Scale(categoryFactor[k.Category] * kn)
	if k.Mass > 0 {
		f = min(f, k.Mass.Weight())
	}
	return f, nil
}

// StrongPointCount is the least number of strong points: forward, aft, and more
// on each side.
type StrongPointCount struct{ Forward, Aft, EachSide int }

// StrongPoints is the least number of strong points: one forward for anchoring
// on every craft, one aft over 6 m of hull length, one more forward and aft over
// 12 m, and one on each side over 18 m (ISO 15084:2003).
func (k Craft) StrongPoints() (StrongPointCount, error) {
	var c checker
	k.check(&c)
	if c.err != nil {
		return StrongPointCount{}, c.err
	}
	n := StrongPointCount{Forward: 1}
	if k.Hull > 6 {
		n.Aft = 1
	}
	if k.Hull > 12 {
		n.Forward++
		n.Aft++
	}
	if k.Hull > 18 {
		n.EachSide = 1
	}
	return n, nil
}

// CleatCheck sets a load on a cleat against what the cleat is good for.
type CleatCheck struct {
	OfStrength float64 // load over the strength at which the cleat gives way; 0 if that is not known
	OfRule     float64 // load over the rule's load
	// RopeOfCleat is the breaking force of the rope over the strength of the
	// cleat, or over the rule's load where the strength is not known. Above 0.8
	// the rope may take the cleat out of the deck before it parts.
	RopeOfCleat float64
	// Problems are what is wrong, in words; none if empty.
	Problems []string `json:",omitempty"`
}

// LineOfStrongPoint is how strong a line may be at most, as a part of the strong
// point's strength (printed in an owner's manual for a boat built to ISO 15084).
const LineOfStrongPoint = 0.8

// LoadOfStrongPoint is how much of a cleat's strength a load may be at most, the peak
// of a surge included: half, so that bolts that have worked loose, wet core and a pull
// from an unlucky side are not the end of it. It is practice; no standard was found
// that gives one for the strength of a cleat.
const LoadOfStrongPoint = 0.5

// CheckCleat sets the load of one leg on one cleat against the cleat's strength,
// 0 if that is not known, against the rule for the use, and the rope's breaking
// force against both. Strength is that at which the cleat, its bolts or the deck under
// them give way, the weakest of them: a load of more than half of it
// ([LoadOfStrongPoint]) is a problem. Where a maker gives a working load, give twice
// that. Where nothing is known of the cleat, it has the rule's load for its strength,
// which is what its builder had to keep to, and half of that is the limit.
func (k Craft) CheckCleat(use StrongPoint, load, strength units.Force, rope Rope) (CleatCheck, error) {
	var c checker
	notNegative(&c, "load", load)
	notNegative(&c, "strength", strength)
	positive(&c, "rope.Breaking", rope.Breaking)
	if c.err != nil {
		return CleatCheck{}, c.err
	}
	rule, err := k.StrongPointLoad(use)
	if err != nil {
		return CleatCheck{}, err
	}
	q := CleatCheck{OfRule: load.Per(rule), RopeOfCleat: rope.Breaking.Per(rule)}
	if q.OfRule > 1 {
		q.Problems = append(q.Problems, fmt.Sprintf("the load of %.1f kN is more than the %.1f kN that the rule asks for %v",
			load.Kilonewtons(), rule.Kilonewtons(), use))
	} else if strength == 0 && q.OfRule > LoadOfStrongPoint {
		q.Problems = append(q.Problems, fmt.Sprintf("the load of %.1f kN is %.0f %% of the %.1f kN that the rule asks for %v, more than 50 %%, and nothing more is known of the cleat",
			load.Kilonewtons(), math.Ceil(100*q.OfRule-1e-9), rule.Kilonewtons(), use))
	}
	if strength > 0 {
		q.OfStrength = load.Per(strength)
		q.RopeOfCleat = rope.Breaking.Per(strength)
		if q.OfStrength > LoadOfStrongPoint {
			q.Problems = append(q.Problems, fmt.Sprintf("the load of %.1f kN is %.0f %% of the cleat's strength of %.1f kN, more than 50 %%",
				load.Kilonewtons(), math.Ceil(100*q.OfStrength-1e-9), strength.Kilonewtons()))
		}
		if strength < rule {
			q.Problems = append(q.Problems, fmt.Sprintf("the cleat's strength of %.1f kN is less than the %.1f kN that the rule asks for %v",
				strength.Kilonewtons(), rule.Kilonewtons(), use))
		}
	}
	if q.RopeOfCleat > LineOfStrongPoint {
		q.Problems = append(q.Problems, fmt.Sprintf("the rope breaks at %.0f %% of what holds it, more than 80 %%: it may take the cleat with it",
			100*q.RopeOfCleat))
	}
	return q, nil
}
