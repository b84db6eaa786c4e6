package wiring

import (
	"math"
)

// A law gives the current through an element from the voltage across it, From
// less To and with the source in it, and its derivative. In SI.
type law interface {
	current(v float64) (i, slope float64)
}

// alternatorLaw delivers up to its limit, and takes nothing.
type alternatorLaw struct{ conductance, limit float64 }

func (l alternatorLaw) current(v float64) (float64, float64) {
	switch i := l.conductance * v; {
	case i <= 0:
		return 0, 0
	case i >= l.limit:
		return l.limit, 0
	default:
		return i, l.conductance
	}
}

// currentLaw is a constant current down to the voltage low, and a resistance below:
// without that a switched-off load would have no solution.
type currentLaw struct{ amperes, low float64 }

func (l currentLaw) current(v float64) (float64, float64) {
	if math.Abs(v) < l.low {
		return l.amperes * v / l.low, l.amperes / l.low
	}
	return math.Copysign(l.amperes, v), 0
}

// powerLaw is a constant power down to the voltage low, and a resistance below.
type powerLaw struct{ watts, low float64 }

func (l powerLaw) current(v float64) (float64, float64) {
	if math.Abs(v) < l.low {
		return l.watts * v / (l.low * l.low), l.watts / (l.low * l.low)
	}
	return l.watts / v, -l.watts / (v * v)
}

// motorLaw is the lesser of what the torque asks for and what the resistance lets
// through: the first while it turns, the second when it is held.
type motorLaw struct {
	motor    *Motor
	standing bool
}

func (l motorLaw) current(v float64) (float64, float64) {
	g := 1 / float64(l.motor.Resistance)
	if l.standing {
		return g * v, g
	}
	a := math.Abs(v)
	i, slope := l.motor.running(a)
	if g*a <= i {
		return g * v, g
	}
	return math.Copysign(i, v), slope
}

// speed is positive whichever way round the motor is connected.
func (l motorLaw) speed(v, i float64) float64 {
	v, i = math.Abs(v), math.Abs(i)
	back := v - i*float64(l.motor.Resistance)
	if l.standing || back <= 1e-12*v {
		return 0
	}
	return back / l.motor.flux(v, i)
}
