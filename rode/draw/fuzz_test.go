package draw_test

import (
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// Whatever is solved and whatever it is called, it can be drawn.
func FuzzProfile(f *testing.F) {
	f.Add("25 kn", "8 mm chain", 6.0, 1.45, 30.0, 20.0, 700.0, 0.0, 0.0)
	f.Add("\x00<&>", "\xff", 6.0, -0.3, 30.0, 20.0, 0.0, 10.0, 10.4)
	f.Fuzz(func(t *testing.T, label, name string, depth, roller, lower, upper, pull, slope, length float64) {
		r := of(chain(units.Length(lower)), rope(units.Length(upper)))
		r.Pieces[0].Name = name
		s := rode.Site{Depth: units.Length(depth), Roller: units.Length(roller), Slope: degrees(slope), Friction: 0.5}
		st, err := rode.Solve(r, s, units.Force(pull))
		if err != nil {
			t.Skip(err)
		}
		p := draw.Profile{
			Title: label, Boat: draw.Boat{Length: units.Length(length)},
			Views: []draw.View{{Label: label, State: st, Rode: r, Site: s}},
		}
		if length < 0 || length > 1000 || length != length {
			t.Skip()
		}
		if lower+upper > 20e3 || roller > 100 || len(label)+len(name) > 1000 {
			t.Skip()
		}
		root, text := read(t, p)
		checkCurves(t, root, p)
		if bad := notNumber.FindString(text); bad != "" {
			t.Errorf("%s in the drawing", bad)
		}
	})
}
