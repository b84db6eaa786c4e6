package canvas

import (
	"math"

	"example.com/forepeak/units"
)

// EdgeLoad is a hollow edge under the pull of the cloth.
type EdgeLoad struct {
	// Middle and End are the tensions in the edge's tape, rope or band.
	Middle, End units.Force
	Angle       units.Angle  // between the edge at its ends and the chord
	Length      units.Length // along the edge
	Area        units.Area   // between the edge and the chord
}

// ParabolaEdge is an edge whose cloth pulls in one direction, square to the
// chord, with w on each metre of the chord: an edge cord that holds strips of
// cloth. With the span L and the hollow s in its middle,
//
//	middle = w L^2/(8 s), end = middle sqrt(1 + 16 (s/L)^2)
//
// The hollow is from a thousandth to half of the chord: a straight edge has no
// finite tension. The tape is taken not to stretch.
func ParabolaEdge(chord, hollow units.Length, pull units.ForcePerLength) (EdgeLoad, error) {
	if err := checkEdge(chord, hollow, pull); err != nil {
		return EdgeLoad{}, err
	}
	l, s, w := float64(chord), float64(hollow), float64(pull)
	slope := 4 * s / l
	h := w * l * l / (8 * s)
	return EdgeLoad{
		Middle: units.Force(h), End: units.Force(h * math.Hypot(1, slope)),
		Angle:  units.Angle(math.Atan(slope)),
		Length: units.Length(l / 2 * (math.Hypot(1, slope) + math.Asinh(slope)/slope)),
		Area:   units.Area(2 * s * l / 3),
	}, nil
}

// ArcEdge is an edge whose cloth pulls alike in all directions, so that w acts
// on each metre of the edge at right angles to it. The edge is then a circle of
// radius R = L^2/(8 s) + s/2 and its tension everywhere
//
//	w R
//
// which is the middle of [ParabolaEdge] and w s/2 besides. The hollow is from a
// thousandth to half of the chord; the tape is taken not to stretch.
func ArcEdge(chord, hollow units.Length, pull units.ForcePerLength) (EdgeLoad, error) {
	if err := checkEdge(chord, hollow, pull); err != nil {
		return EdgeLoad{}, err
	}
	l, s := float64(chord), float64(hollow)
	radius := l*l/(8*s) + s/2
	angle := 2 * math.Atan(2*s/l)
	t := units.Force(float64(pull) * radius)
	return EdgeLoad{
		Middle: t, End: t, Angle: units.Angle(angle),
		Length: units.Length(2 * angle * radius), Area: units.Area(segment(l, s)),
	}, nil
}

func checkEdge(chord, hollow units.Length, pull units.ForcePerLength) error {
	var c checker
	c.size("chord", chord)
	if c.err == nil {
		between(&c, "hollow", hollow, chord/1000, chord/2)
	}
	between(&c, "pull", pull, 0, greatestPull)
	return c.err
}

// greatestPull is beyond what any cloth holds.
const greatestPull = 1000 * units.KilonewtonPerMetre
