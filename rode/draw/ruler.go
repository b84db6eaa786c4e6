package draw

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/units"
)

// ruler is how lengths and forces are written: metric, or in feet and pounds-force.
type ruler struct{ feet bool }

// length is one to the centimetre, or to a tenth of a foot, with no more digits than it takes.
func (r ruler) length(l units.Length) string {
	if r.feet {
		return imperial.Feet(l)
	}
	return strconv.FormatFloat(math.Round(float64(l)*100)/100, 'f', -1, 64) + " m"
}

// rough is one to the decimetre, or to a tenth of a foot.
func (r ruler) rough(l units.Length) string {
	if r.feet {
		return imperial.Feet(l)
	}
	return fmt.Sprintf("%.1f m", l.Metres())
}

func (r ruler) force(f units.Force) string {
	switch {
	case r.feet:
		return imperial.Pounds(f)
	case f == 0:
		return "0 N"
	}
	return fmt.Sprintf("%.3v", f)
}

// unit is that of the bar.
func (r ruler) unit() (units.Length, string) {
	if r.feet {
		return units.Foot, "ft"
	}
	return units.Metre, "m"
}

// barStep is what a part of the bar is long at a scale, in metres or feet: 12 mm or more
// on the page, and in feet half an inch, or an inch where the half is no round number.
func (r ruler) barStep(scale float64) float64 {
	if r.feet {
		inch := scale / 12
		if half := strconv.FormatFloat(inch/2, 'e', -1, 64); strings.Contains(half, ".") {
			return inch
		}
		return inch / 2
	}
	for ten := 1e-3; ; ten *= 10 {
		for _, n := range []float64{1, 2, 5} {
			if n*ten*(1000/scale) >= 12 {
				return n * ten
			}
		}
	}
}

// scale is the largest of a round number, no larger than 1:1, at which a drawing fits,
// or one beyond maxScale if there is none. In feet an inch is a round number of them.
func (r ruler) scale(fits func(mm float64) bool) float64 {
	first, numbers := 1.0, []float64{1, 1.25, 2, 2.5, 4, 5, 8}
	if r.feet {
		first, numbers = 12, []float64{1, 1.5, 2, 3, 4, 5, 6, 8}
	}
	for ten := first; ; ten *= 10 {
		for _, n := range numbers {
			if n *= ten; fits(1000/n) || n > maxScale {
				return n
			}
		}
	}
}

// says is the scale, and how long a part of the bar is on a page of a width, both in millimetres.
func (r ruler) says(scale, width, step, part float64) string {
	if r.feet {
		mm := units.Millimetre
		return fmt.Sprintf("Scale 1:%v, an inch to %v ft, on a page %s wide: %v ft of the bar measure %s.",
			scale, scale/12, imperial.Tape(mm.Scale(width)), step, imperial.Tape(mm.Scale(part)))
	}
	return fmt.Sprintf("Scale 1:%v on a page %v mm wide: %v m of the bar measure %v mm.",
		scale, width, step, math.Round(part*100)/100)
}
