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
	return whole(mm)
}

// say is a length with its unit.
func (r ruler) say(l units.Length) string {
	if r.inches {
		return imperial.Tape(l)
	}
	return whole(l.Millimetres()) + " mm"
}

// size is a width by a height.
func (r ruler) size(w, h units.Length) string {
	if r.inches {
		return imperial.Tape(w) + " × " + imperial.Tape(h)
	}
	return whole(w.Millimetres()) + " × " + whole(h.Millimetres()) + " mm"
}

// whole is a length for print, without a minus before nothing. Half a millimetre is the
// same number wherever the piece lies.
func whole(mm float64) string { return fmt.Sprintf("%.0f", math.Floor(mm+0.5+1e-6)+0) }

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
