package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// Load is what wind or current does to a boat, in her own axes: X forward, Y to
// starboard, Yaw about midships and positive where it turns the bow to
// starboard. A wind from ahead has a negative X, one from starboard a negative Y.
type Load struct {
	X, Y units.Force
	Yaw  units.Torque
}

// Force is the size of the horizontal force.
func (l Load) Force() units.Force { return units.Force(math.Hypot(float64(l.X), float64(l.Y))) }

// Plus is the sum of two loads.
func (l Load) Plus(m Load) Load { return Load{l.X + m.X, l.Y + m.Y, l.Yaw + m.Yaw} }

// Downstream is the part of the force that acts away from where wind or current
// come from, with from the angle off the bow, positive to starboard.
func (l Load) Downstream(from units.Angle) units.Force {
	return units.Force(-float64(l.X)*from.Cos() - float64(l.Y)*from.Sin())
}

// shift is how far the centre of a side force lies from the middle of the length
// it acts on, as a part of that length, toward the end that is struck first:
// 0.3 (1 - |sin|). It is Joessel's rule for the centre of pressure of a plate,
// 0.2 + 0.3 sin from its leading edge.
func shift(sin, cos float64) float64 {
	return math.Copysign(0.3*(1-math.Abs(sin)), cos)
}
