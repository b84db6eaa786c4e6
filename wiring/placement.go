package wiring

import (
	"fmt"

	"example.com/forepeak/units"
)

// Place is where the first device of a conductor sits: how much of the conductor
// lies between it and its source.
type Place struct {
	Length   units.Length // measured along the conductor
	Battery  bool         // the source is the battery itself
	Sheathed bool         // in a sheath, conduit or enclosure all the way to the device
	Cranking bool         // the conductor feeds an engine's starter
}

// Placement is the verdict of a rule set on a place.
type Placement struct {
	Rules  Rules
	Place  Place
	Stated bool // the rule set gives a length
	// Limit is the longest unprotected length; 0: none, since the conductor is exempt,
	// or protected by its sheath, or no length is stated.
	Limit     units.Length
	Accepted  bool
	Because   string // the rule in words, with its place
	Confirmed bool   // the figure was read in a reproduction, and is not from memory
}

// CheckPlacement compares the unprotected length of a conductor with a rule set:
//
//	33 CFR 183   183.455(b): at the source; where that is impractical within 7 in, or
//	             within 40 in if sheathed; 183.460(a): a battery conductor within
//	             72 in; engine cranking conductors are exempt; law for petrol
//	             (gasoline) inboards only
//	ABYC E-11    7 in; 40 in if sheathed; 72 in if sheathed and from the battery;
//	             cranking conductors are exempt
//	ISO 13297    (and ISO 10133) 200 mm; if sheathed all the way, up to the device
//	IEC 60092    as near the source as practicable, without a length: not stated
//
// The length from the battery in the CFR and all of ISO are recalled and not confirmed.
// A place that a rule accepts is still one where a short that occurs before the device
// is interrupted by nothing.
func CheckPlacement(r Rules, p Place) (Placement, error) {
	var c checker
	notNegative(&c, "place.Length", p.Length)
	if c.err != nil {
		return Placement{}, c.err
	}
	v := Placement{Rules: r, Place: p, Stated: true}
	switch r {
	case CFR:
		v.Confirmed = true
		switch {
		case p.Cranking:
			v.Because = "cranking conductors are exempt (33 CFR 183.455 and 183.460)"
			v.Confirmed = false
		case p.Battery:
			v.Limit, v.Because = 72*units.Inch, "within 72 in of the battery (33 CFR 183.460(a))"
			v.Confirmed = false
		case p.Sheathed:
			v.Limit, v.Because = 40*units.Inch, "sheathed, within 40 in of the source (33 CFR 183.455(b)(2))"
		default:
			v.Limit, v.Because = 7*units.Inch, "within 7 in of the source (33 CFR 183.455(b)(1))"
		}
	case E11:
		v.Confirmed = true
		switch {
		case p.Cranking:
			v.Because = "cranking conductors are exempt (ABYC E-11)"
			v.Confirmed = false
		case p.Sheathed && p.Battery:
			v.Limit, v.Because = 72*units.Inch, "sheathed, within 72 in of the battery (ABYC E-11)"
		case p.Sheathed:
			v.Limit, v.Because = 40*units.Inch, "sheathed, within 40 in of the source (ABYC E-11)"
		default:
			v.Limit, v.Because = 7*units.Inch, "within 7 in of the source (ABYC E-11)"
		}
	case ISO:
		if p.Sheathed {
			v.Because = "protected by its sheath all the way to the device (ISO 10133, ISO 13297)"
		} else {
			v.Limit, v.Because = 200*units.Millimetre, "within 200 mm of the source (ISO 10133, ISO 13297)"
		}
	case IEC60092:
		v.Stated = false
		v.Because = "as near the source as practicable; no length is stated (IEC 60092)"
	default:
		return Placement{}, unknownRules(r)
	}
	v.Accepted = v.Stated && (v.Limit == 0 || p.Length <= v.Limit)
	return v, nil
}

// CheckPlacements compares a place with all rule sets, bare and sheathed.
func CheckPlacements(p Place) ([]Placement, error) {
	var all []Placement
	for _, r := range AllRules() {
		for _, p.Sheathed = range []bool{false, true} {
			v, err := CheckPlacement(r, p)
			if err != nil {
				return nil, err
			}
			all = append(all, v)
		}
	}
	return all, nil
}

// String is one line for a report.
func (v Placement) String() string {
	how, verdict := "bare", "too far"
	if v.Place.Sheathed {
		how = "sheathed"
	}
	switch {
	case !v.Stated:
		verdict = "no length stated"
	case v.Accepted:
		verdict = "accepted"
	}
	return fmt.Sprintf("%s, %s, %.3v: %s; %s", v.Rules, how, v.Place.Length, verdict, v.Because)
}
