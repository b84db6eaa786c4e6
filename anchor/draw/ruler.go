package draw

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/units"
)

// ruler is how lengths and forces are written: metric, or in feet and pounds-force.
type ruler struct{ feet bool }

// unit is that of axes and bars.
func (r ruler) unit() (units.Length, string) {
	if r.feet {
		return units.Foot, "ft"
	}
	return units.Metre, "m"
}

// on is a length on an axis.
func (r ruler) on(l units.Length) float64 {
	if r.feet {
		return l.Feet()
	}
	return l.Metres()
}

// near is a length to the decimetre, or to a tenth of a foot.
func (r ruler) near(l units.Length) string {
	if r.feet {
		return imperial.Feet(l)
	}
	return fmt.Sprintf("%.1f m", l.Metres())
}

// clear is a clearance to as much, rounded down: nobody has more water than there is.
func (r ruler) clear(l units.Length) string {
	unit, _ := r.unit()
	return r.near(unit.Scale(math.Floor(10*l.Per(unit)+1e-6) / 10))
}

// far is a length in whole metres or feet.
func (r ruler) far(l units.Length) string {
	if r.feet {
		return fmt.Sprintf("%.0f ft", l.Feet())
	}
	return fmt.Sprintf("%.0f m", l.Metres())
}

// rise is the height of a shoal.
func (r ruler) rise(l units.Length) string {
	if r.feet {
		return imperial.Feet(l)
	}
	return number(math.Round(l.Metres()*10)/10) + " m"
}

// load is a force on an axis.
func (r ruler) load(f units.Force) float64 {
	if r.feet {
		return f.PoundsForce()
	}
	return f.Kilonewtons()
}

func (r ruler) loadUnit() string {
	if r.feet {
		return "lbf"
	}
	return "kN"
}

// force is one that is printed.
func (r ruler) force(f units.Force) string {
	if r.feet {
		return imperial.Pounds(f)
	}
	return fmt.Sprintf("%.3v", f)
}

// ring is a force that is round in newtons or pounds, and what is written beside it.
func (r ruler) ring(least units.Force) (units.Force, func(n float64) string) {
	if r.feet {
		step := round(least.PoundsForce())
		return units.PoundForce.Scale(step), func(n float64) string { return number(n*step) + " lbf" }
	}
	step := round(least.Newtons())
	return units.Force(step), func(n float64) string { return force(n * step) }
}

// scales are the first of the scales and the round numbers of them: in feet an inch is
// a round number of those.
func (r ruler) scales() (first float64, numbers []float64) {
	if r.feet {
		return 12, []float64{1, 1.5, 2, 3, 4, 5, 6, 8}
	}
	return 1, []float64{1, 1.25, 2, 2.5, 4, 5, 8}
}
