package canvas

import (
	"math"

	"example.com/forepeak/units"
)

// Diameter returns the diameter of a round thing from a tape laid round it,
// girth/pi - thickness: the tape reads along its own middle, half its thickness
// outside the thing.
func Diameter(girth, thickness units.Length) (units.Length, error) {
	var c checker
	c.size("girth", girth)
	c.size0("thickness", thickness)
	d := girth.Scale(1/math.Pi) - thickness
	if c.err == nil && d <= 0 {
		c.err = refuse("thickness", thickness, "less than girth/pi")
	}
	if c.err != nil {
		return 0, c.err
	}
	return d, nil
}

// ArcRadius returns the radius of a circle from a straight chord between two
// points of it and the rise of the arc above the middle of the chord,
// chord^2/(8 rise) + rise/2.
func ArcRadius(chord, rise units.Length) (units.Length, error) {
	var c checker
	c.size("chord", chord)
	c.size("rise", rise)
	if c.err != nil {
		return 0, c.err
	}
	return units.Length(float64(chord)*float64(chord)/(8*float64(rise)) + float64(rise)/2), nil
}
