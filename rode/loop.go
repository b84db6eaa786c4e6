package rode

import (
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// SlackChain is the chain that hangs in a loop between the hook of a snubber and
// the bow roller.
type SlackChain struct {
	Length units.Length
	Apart  units.Length // horizontally, from hook to roller
	Above  units.Length // the roller above the hook
	Weight units.ForcePerLength
}

// Loop is how the slack chain hangs.
type Loop struct {
	Below      units.Length // its lowest point below the hook
	Horizontal units.Force  // in the chain
	AtHook     units.Force  // downward on the hook; negative where it lifts it
	AtRoller   units.Force  // downward on the roller
}

// Hang finds the catenary of the slack chain: with parameter a
//
//	sqrt(L² - h²) = 2 a sinh(D/2a)
//
// with L its length, D and h the distances across and up from hook to roller. A
// chain no longer than the straight line between them is [ErrTaut].
//
// The weight is taken as the same all along, in water or in air. A loop that
// reaches the bed, or that is caught by a keel or a propeller, is too long; one
// that comes taut before the snubber has stretched takes the snubber out of use.
func (k SlackChain) Hang() (Loop, error) {
	var c checker
	positive(&c, "SlackChain.Length", k.Length)
	notNegative(&c, "SlackChain.Apart", k.Apart)
	notNegative(&c, "SlackChain.Above", k.Above)
	positive(&c, "SlackChain.Weight", k.Weight)
	if c.err != nil {
		return Loop{}, c.err
	}
	l, d, h, w := float64(k.Length), float64(k.Apart), float64(k.Above), float64(k.Weight)
	if span := math.Hypot(d, h); l <= span {
		return Loop{}, refuseAs(ErrTaut, "SlackChain.Length", k.Length, "more than the distance from hook to roller, "+units.Length(span).String())
	}
	run := math.Sqrt((l - h) * (l + h))
	if d <= 1e-9*run {
		down := (l - h) / 2
		return Loop{Below: units.Length(down), AtHook: units.Force(w * down), AtRoller: units.Force(w * (down + h))}, nil
	}
	ratio := run / d // of sinh q to q, q = D/2a
	q, err := root.Find(func(q float64) (float64, error) {
		return math.Log(math.Sinh(q)/q) - math.Log(ratio), nil
	}, 1e-9, 2+2*math.Log(2*ratio)+2, 1e-15)
	if err != nil {
		return Loop{}, refuseAs(ErrTaut, "SlackChain.Length", k.Length, "a chain that is not straight from hook to roller")
	}
	a := d / (2 * q)
	// From the lowest point of the catenary to hook and roller, along the chain.
	mid := math.Atanh(h / l)
	toHook := a * math.Sinh(q-mid)
	below := 0.0
	if toHook > 0 {
		below = 2 * a * math.Pow(math.Sinh((q-mid)/2), 2)
	}
	return Loop{
		Below:      units.Length(below),
		Horizontal: units.Force(w * a),
		AtHook:     units.Force(w * toHook),
		AtRoller:   units.Force(w * (l - toHook)),
	}, nil
}
