package canvas

import "math"

// segment is the area between an arc and its chord, with the sign of the depth:
// radius^2 (angle - sin angle)/2.
func segment(chord, depth float64) float64 {
	d := math.Abs(depth)
	angle := 4 * math.Atan(2*d/chord)
	radius := (chord*chord/4 + d*d) / (2 * d)
	part := angle - math.Sin(angle)
	if angle < 1e-2 { // the difference has no digits left
		part = angle * angle * angle / 6 * (1 - angle*angle/20)
	}
	return math.Copysign(radius*radius*part/2, depth)
}
