package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// FixDeviation is the standard deviation along each axis of positions of which a
// fraction, above 0 and under 1, falls within a radius of the truth, if the errors
// are normal and alike in all directions:
//
//	fraction = 1 - exp(-radius² / (2 deviation²))
//
// A receiver's accuracy may be the radius of 50 % (circular error probable), of
// 95 %, or twice the root mean square of the distance, which is 98.2 % here.
func FixDeviation(radius units.Length, fraction float64) (units.Length, error) {
	var c checker
	notNegative(&c, "radius", radius)
	c.must(fraction > 0 && fraction < 1, "fraction", fraction, "more than 0 and less than 1")
	if c.err != nil {
		return 0, c.err
	}
	d := units.Length(float64(radius) / math.Sqrt(-2*math.Log1p(-fraction)))
	if !finite(float64(d)) {
		return 0, refuse("fraction", fraction, "one for which the deviation is finite")
	}
	return d, nil
}

// AlarmBudget is what an anchor alarm has to allow for.
type AlarmBudget struct {
	// Circle is the widest radius of the antenna, as NightPlan.Widest.Antenna.
	Circle units.Length
	// Mark is the deviation of the position marked for the anchor, Fix that of each
	// position of the antenna afterwards (see [FixDeviation]).
	Mark, Fix units.Length
	// Aft is how far from the anchor the mark was taken. It is the distance from the bow
	// roller to the antenna (as Swing.Antenna) where the position of the antenna was
	// marked as the anchor went down, which is what a receiver does when its button is
	// pressed then. It is 0 only for a mark that was moved forward to the anchor.
	Aft units.Length
	// Set is how far the anchor may have moved while it set.
	Set units.Length
	// Chance is the accepted chance that one fix of a boat at the very edge of its
	// circle sounds the alarm, above 0 and at most 0.5.
	Chance float64
}

// AlarmLimit is the radius to set an anchor alarm to.
type AlarmLimit struct {
	Radius    units.Length // about the mark
	Circle    units.Length // part of the radius that allows for where the boat may lie: what Watch.Circle has to be
	Deviation units.Length // of the distance from mark to fix
	Errors    units.Length // part of the radius that allows for it
}

// AlarmRadius is the radius about the mark beyond which a fix means that the anchor
// has moved:
//
//	radius = circle + aft + set + q sqrt(mark² + fix²),  with a chance of Q(q)
//
// that errors alone reach so far, Q the upper tail of the normal distribution.
// The errors of fixes stay alike for minutes, so that one false alarm is a row of
// them, and the chance is not to be multiplied by the number of fixes.
//
// # Caution
//
// The mark belongs where the anchor lies. The position of the antenna as the anchor
// goes down is a boat's length off: with a radius that does not allow for it (Aft), a
// boat that swings to the other side sounds the alarm without dragging, and one that
// drags the other way is seen so much later. It is better to move the mark than to
// widen the radius: forward along the heading at that moment, as far as from the
// antenna to the roller.
//
// Inside the circle an alarm is blind: a boat that lies at a distance d from the mark
// drags by the radius less d before it sounds, and one that swings over the anchor by
// up to twice the radius.
func AlarmRadius(b AlarmBudget) (AlarmLimit, error) {
	var c checker
	for _, l := range []struct {
		field string
		l     units.Length
	}{{"Circle", b.Circle}, {"Mark", b.Mark}, {"Fix", b.Fix}, {"Aft", b.Aft}, {"Set", b.Set}} {
		between(&c, l.field, l.l, 0, 1e5)
	}
	c.must(b.Chance >= 1e-15 && b.Chance <= 0.5, "Chance", b.Chance, "from 1e-15 to 0.5")
	if c.err != nil {
		return AlarmLimit{}, c.err
	}
	var a AlarmLimit
	a.Deviation = units.Length(math.Hypot(float64(b.Mark), float64(b.Fix)))
	a.Errors = a.Deviation.Scale(math.Sqrt2 * math.Erfcinv(2*b.Chance))
	a.Circle = b.Circle + b.Aft + b.Set
	a.Radius = a.Circle + a.Errors
	return a, nil
}
