package pattern

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/units"
)

// ruler is how sizes and pulls are written: metric, or in inches and pounds-force.
type ruler struct{ inches bool }

// square is the side of the check square and the length of the line on every page, in
// millimetres: whole in either unit, so that any ruler has a mark for it.
func (r ruler) square() float64 {
	if r.inches {
		return 4 * 25.4
	}
	return 100
}

func (r ruler) squareName() string {
	if r.inches {
		return "4 in"
	}
	return "100 mm"
}

// name is that of the unit of bare numbers, if it is not inches.
func (r ruler) name(metric string) string {
	if r.inches {
		return "inches"
	}
	return metric
}

// bare is a length in millimetres as a number without its unit.
func (r ruler) bare(mm float64) string {
	if r.inches {
		return imperial.Inches(units.Millimetre.Scale(mm))
	}
	return fmt.Sprintf("%.0f", mm)
}

// place is how far along something lies, without its unit and without a minus before nothing.
func (r ruler) place(l units.Length) string {
	if r.inches {
		return imperial.Inches(l)
	}
	return fmt.Sprintf("%.0f", math.Round(l.Millimetres())+0)
}

// say is a length with its unit.
func (r ruler) say(l units.Length) string {
	if r.inches {
		return imperial.Tape(l)
	}
	return fmt.Sprintf("%.0f mm", l.Millimetres())
}

// size is a width by a height.
func (r ruler) size(w, h units.Length) string {
	if r.inches {
		return imperial.Tape(w) + " × " + imperial.Tape(h)
	}
	return fmt.Sprintf("%.0f × %.0f mm", w.Millimetres(), h.Millimetres())
}

// roll is a length of cloth.
func (r ruler) roll(l units.Length) string {
	if r.inches {
		return imperial.Tape(l)
	}
	return fmt.Sprintf("%.2f m", l.Metres())
}

// pull is that of a corner, part a part of it.
func (r ruler) pull(f units.Force) string {
	if r.inches {
		return imperial.Pounds(f)
	}
	return fmt.Sprintf("%.2f kN", f.Kilonewtons())
}

func (r ruler) part(f units.Force) string {
	if r.inches {
		return imperial.Pounds(f)
	}
	return fmt.Sprintf("%.0f N", f.Newtons())
}
