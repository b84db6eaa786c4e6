package draw

import (
	"math"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// drawAnchor draws an anchor dug into the bed, its shackle where the rode begins.
func (f *frame) drawAnchor() {
	sin, cos := f.view.Site.Slope.Sin(), f.view.Site.Slope.Cos()
	at := func(x, y float64) svg.Point { // along the bed from the shackle, and down
		return svg.Point{X: f.anchor + x*cos + y*sin, Y: f.level - x*sin + y*cos}
	}
	var shank, fluke svg.Path
	shank.Move(at(0, 0))
	shank.Curve(at(-4.6, -3), at(-7, 0.6))
	f.Path("shank", &shank)
	fluke.Move(at(-8.4, -0.9))
	fluke.Curve(at(-6.6, 2.2), at(-1.9, 3.5))
	fluke.Curve(at(-4.6, 1.2), at(-5.6, -0.3))
	fluke.Curve(at(-6.8, 0.6), at(-8.4, -0.9))
	fluke.Close()
	f.Path("fluke", &fluke)
	f.Circle("joint", at(0, 0), 0.7)
}

// fitted is what is at a joint, sorted into what is drawn alike.
type fitted struct {
	joint          bool // two different lines meet, or there is a connector
	weights, buoys []string
}

// fittings sorts the fittings above a piece that is not the last.
func (v *View) fittings(i int) fitted {
	water := v.Site.Water
	if water == 0 {
		water = rode.SeaWater
	}
	a, b := &v.Rode.Pieces[i], &v.Rode.Pieces[i+1]
	f := fitted{joint: a.Kind != b.Kind || a.Name != b.Name}
	for _, t := range a.Top {
		switch w := t.Weight(water); {
		case w < 0:
			f.buoys = append(f.buoys, t.Name)
		case w > connector(a, b):
			f.weights = append(f.weights, t.Name)
		default:
			f.joint = true
		}
	}
	return f
}

// connector is the greatest weight in water of a fitting that is taken for a
// connector and not for a kellet: that of a kilogram, or of a metre of the line.
func connector(a, b *rode.Piece) units.Force {
	m := max(a.Mass, b.Mass).TimesLength(units.Metre)
	return max(m, units.Kilogram).Weight()
}

// joints draws what is at the joints.
func (f *frame) joints() {
	for i, j := range f.view.State.Joints {
		t, at := f.view.fittings(i), f.place(j.Position)
		if len(t.weights) > 0 {
			// Where there is no room to hang it stands on the bed.
			f.kellet(svg.Point{X: at.X, Y: math.Min(at.Y, f.ground(at.X).Y-kelletHeight)})
		}
		if len(t.buoys) > 0 {
			y := at.Y
			if at.Y > f.surfaceY() {
				y = math.Max(at.Y, f.surfaceY()+buoyHeight)
			}
			f.buoy(svg.Point{X: at.X, Y: y})
		}
		if t.joint {
			f.Circle("joint", at, 0.9)
		}
	}
}

const kelletHeight, buoyHeight = 3.2, 3.4

// kellet draws a weight that hangs from a point.
func (s *sheet) kellet(p svg.Point) {
	s.Polygon("kellet",
		svg.Point{X: p.X - 0.6, Y: p.Y},
		svg.Point{X: p.X + 0.6, Y: p.Y},
		svg.Point{X: p.X + 1.5, Y: p.Y + kelletHeight},
		svg.Point{X: p.X - 1.5, Y: p.Y + kelletHeight})
}

// buoy draws a float that stands on a point.
func (s *sheet) buoy(p svg.Point) {
	c := svg.Point{X: p.X, Y: p.Y - buoyHeight/2}
	s.Circle("buoy", c, buoyHeight/2)
	s.Line("belt", svg.Point{X: c.X - buoyHeight/2, Y: c.Y}, svg.Point{X: c.X + buoyHeight/2, Y: c.Y})
}
