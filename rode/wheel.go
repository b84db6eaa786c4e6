package rode

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// ChainWheel is the wheel of a windlass that carries chain, the gypsy: pockets
// in which every second link lies flat, and a groove between them for the links
// that stand upright.
type ChainWheel struct {
	// Pockets is how many flat links lie once round the wheel. Tables that count
	// every link, flat and upright, give twice as many.
	Pockets int
	// Pitch and Wire are those of the chain that the wheel is cut for.
	Pitch, Wire units.Length

	// What follows is needed by Fit and FitRope only.

	// Play is how far a link of that chain can slide along its pocket: put one in
	// and measure.
	Play units.Length `json:",omitempty"`
	// Width is the clear width of a pocket, and Groove that of the groove for
	// upright links. Zero is not measured, and then not compared.
	Width  units.Length `json:",omitempty"`
	Groove units.Length `json:",omitempty"`
	// Wrap is the angle over which the chain lies on the wheel; zero counts as
	// half a turn.
	Wrap units.Angle `json:",omitempty"`
	// RopeLeast and RopeMost are the diameters of rope that the wheel's maker says
	// it grips. Zero for RopeMost is a wheel for chain only.
	RopeLeast units.Length `json:",omitempty"`
	RopeMost  units.Length `json:",omitempty"`
}

func (w *ChainWheel) check(c *checker) {
	if c.err == nil && (w.Pockets < 3 || w.Pockets > 100) {
		c.err = refuse("Pockets", strconv.Itoa(w.Pockets), "from 3 to 100")
	}
	positive(c, "Pitch", w.Pitch)
	between(c, "Pitch", w.Pitch, 1e-3, 1)
	notNegative(c, "Wire", w.Wire)
	between(c, "Wire", w.Wire, 0, w.Pitch.Scale(0.5))
}

// Payout is the chain that one turn pays out,
//
//	2 z p,  z = pockets, p = pitch
//
// two links a pocket. It is not the circumference of the pitch circle, which is
// longer, since the chain lies round the wheel as a polygon. It is also what a
// counter should be set to.
func (w ChainWheel) Payout() (units.Length, error) {
	var c checker
	w.check(&c)
	if c.err != nil {
		return 0, c.err
	}
	return w.payout(w.Pitch), nil
}

func (w *ChainWheel) payout(pitch units.Length) units.Length {
	return pitch.Scale(float64(2 * w.Pockets))
}

// PitchDiameter is the diameter of the circle on which the joints of the chain
// lie as it goes round,
//
//	D = sqrt( (p / sin(90°/z))² + (d / cos(90°/z))² ),  d = wire
//
// the pocket-wheel formula of mechanical engineering handbooks (recalled, not
// read). It follows from the geometry: flat links are chords p + d between the
// centres of the wires they bear on, upright links chords p - d.
func (w ChainWheel) PitchDiameter() (units.Length, error) {
	var c checker
	w.check(&c)
	positive(&c, "Wire", w.Wire)
	if c.err != nil {
		return 0, c.err
	}
	sin, cos := math.Sincos(math.Pi / 2 / float64(w.Pockets))
	return units.Length(math.Hypot(float64(w.Pitch)/sin, float64(w.Wire)/cos)), nil
}

// MeasuredPitch is the pitch of a chain as it is now: a length over many links,
// taut, from a place on one link to the same place on the link so many further
// on. Twenty links and more make the end marks harmless. Chain that has worn or
// stretched is longer than its catalogue says.
func MeasuredPitch(length units.Length, links int) (units.Length, error) {
	var c checker
	positive(&c, "length", length)
	if c.err == nil && (links < 1 || links > 1e6) {
		c.err = refuse("links", strconv.Itoa(links), "from 1 to 1000000")
	}
	if c.err != nil {
		return 0, c.err
	}
	p := length.Scale(1 / float64(links))
	positive(&c, "length", p)
	return p, c.err
}
