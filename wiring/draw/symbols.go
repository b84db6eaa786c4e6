package draw

import (
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

// symbolWidth is the room that a symbol takes along the wire.
func symbolWidth(e wiring.Element) float64 {
	switch {
	case e.Contact != nil && e.Contact.Role == wiring.Lug:
		return 2.4
	case e.Cable != nil:
		return 16
	}
	return 12
}

// symbol draws an element of a circuit on a wire, with its middle at a place. Its ends are
// at -6 and 6, those of a cable at -8 and 8, those of a lug at -1.2 and 1.2.
func symbol(d *svg.Drawing, e wiring.Element, at svg.Point, turned, open bool) {
	side := 1.0
	if turned {
		side = -1
	}
	p := func(x, y float64) svg.Point { return svg.Point{X: at.X + side*x, Y: at.Y + y} }
	wire := func(x0, x1 float64) { d.Line("wire", p(x0, 0), p(x1, 0)) }
	rect := func(class string, x, y float64) {
		d.Rect(class, svg.Point{X: at.X - x, Y: at.Y - y}, svg.Point{X: at.X + x, Y: at.Y + y})
	}
	letter := func(s string) {
		wire(-6, -5)
		wire(5, 6)
		d.Circle("hollow", at, 5)
		d.Text("letter", svg.Point{X: at.X, Y: at.Y + 1.6}, svg.Centre, svg.Span{Text: s})
	}
	switch {
	case e.Battery != nil: // two cells; From is the negative post
		wire(-6, -2.4)
		d.Line("thick", p(-2.4, -2), p(-2.4, 2))
		d.Line("wire", p(-0.8, -4.5), p(-0.8, 4.5))
		d.Line("thick", p(0.8, -2), p(0.8, 2))
		d.Line("wire", p(2.4, -4.5), p(2.4, 4.5))
		wire(2.4, 6)
		d.Line("wire", p(4, -2.6), p(5.6, -2.6)) // plus
		d.Line("wire", p(4.8, -3.4), p(4.8, -1.8))
	case e.Alternator != nil:
		letter("G")
	case e.Motor != nil:
		letter("M")
	case e.Load != nil:
		wire(-6, -5)
		wire(5, 6)
		rect("hollow", 5, 2)
	case e.Cable != nil:
		d.Line("cable", p(-8, 0), p(8, 0))
	case e.Device != nil && e.Device.Kind == wiring.Fuse:
		wire(-6, 6)
		rect("hollow", 5, 2)
		wire(-6, 6)
	case e.Device != nil:
		contact(d, p, open)
		d.Line("wire", p(-5, -1.2), p(-2.6, 1.2)) // the cross of a breaker
		d.Line("wire", p(-5, 1.2), p(-2.6, -1.2))
	case e.Contact != nil:
		switch e.Contact.Role {
		case wiring.Lug:
			wire(-1.2, 1.2)
			d.Circle("hollow", at, 0.8)
		case wiring.Isolator:
			contact(d, p, open)
			d.Line("wire", p(-3.8, -1.6), p(-3.8, 1.6)) // the bar of a disconnector
		case wiring.Solenoid:
			contact(d, p, open)
			var arc svg.Path // the half circle of a contactor
			arc.Move(p(-5.4, 0))
			arc.Curve(p(-5.4, 2), p(-4.6, 2))
			arc.Curve(p(-3.8, 2), p(-3.8, 0))
			d.Path("wire", &arc)
		case wiring.Switch:
			contact(d, p, open)
		case wiring.Leakage:
			wire(-6, -5)
			wire(5, 6)
			rect("dashed", 5, 2)
		case wiring.Fault:
			wire(-6, -3)
			wire(3, 6)
			d.Polyline("wire", p(-3, 0), p(0.8, -2.5), p(-0.8, 2.5), p(3, 0))
		case wiring.Bond: // to a frame or hull
			wire(-6, 6)
			for _, x := range []float64{-2, 0, 2} {
				d.Line("wire", p(x, 0), p(x-1, 2.4))
			}
		default: // terminals and busbars
			wire(-6, 6)
			d.Circle("hollow", at, 1.4)
		}
	}
}

// contact draws a make contact; the blade of a closed one touches.
func contact(d *svg.Drawing, p func(x, y float64) svg.Point, open bool) {
	d.Line("wire", p(-6, 0), p(-3.8, 0))
	d.Line("wire", p(4, 0), p(6, 0))
	if open {
		d.Line("wire", p(4, 0), p(-3.2, -3.8))
		return
	}
	d.Line("wire", p(-3.8, 0), p(-3.8, -1.5))
	d.Line("wire", p(4, 0), p(-4.8, -1.7))
}
