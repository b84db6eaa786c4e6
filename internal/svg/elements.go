package svg

import (
	"bytes"
	"encoding/xml"
)

// Begin opens a group of elements, End closes it.
func (d *Drawing) Begin(class string) {
	d.element("g", class).raw(">\n")
	d.open++
}

// End closes the group opened last.
func (d *Drawing) End() {
	d.raw("</g>\n")
	d.open--
}

// Line draws a straight line.
func (d *Drawing) Line(class string, a, b Point) {
	d.element("line", class)
	d.number(` x1="`, a.X).number(`" y1="`, a.Y).number(`" x2="`, b.X).number(`" y2="`, b.Y).raw("\"/>\n")
}

// Polyline draws straight lines from point to point.
func (d *Drawing) Polyline(class string, points ...Point) { d.points("polyline", class, points) }

// Polygon draws a closed polyline.
func (d *Drawing) Polygon(class string, points ...Point) { d.points("polygon", class, points) }

func (d *Drawing) points(name, class string, points []Point) {
	d.element(name, class).raw(` points="`)
	for i, p := range points {
		if i > 0 {
			d.raw(" ")
		}
		d.number("", p.X).number(",", p.Y)
	}
	d.raw("\"/>\n")
}

// Circle draws a circle of a radius in millimetres.
func (d *Drawing) Circle(class string, centre Point, radius float64) {
	d.element("circle", class)
	d.number(` cx="`, centre.X).number(`" cy="`, centre.Y).number(`" r="`, radius).raw("\"/>\n")
}

// Rect draws a rectangle between two opposite corners, a the upper left one.
func (d *Drawing) Rect(class string, a, b Point) {
	d.element("rect", class)
	d.number(` x="`, a.X).number(`" y="`, a.Y).number(`" width="`, b.X-a.X).number(`" height="`, b.Y-a.Y).raw("\"/>\n")
}

// Path is an outline of lines and curves. The zero Path is empty.
type Path struct{ steps []step }

type step struct {
	command string
	points  []Point
}

// Move begins at a point.
func (p *Path) Move(to Point) { p.steps = append(p.steps, step{"M", []Point{to}}) }

// Line goes straight to a point.
func (p *Path) Line(to Point) { p.steps = append(p.steps, step{"L", []Point{to}}) }

// Curve goes to a point along a quadratic Bézier curve.
func (p *Path) Curve(control, to Point) { p.steps = append(p.steps, step{"Q", []Point{control, to}}) }

// Close goes straight back to where the outline began.
func (p *Path) Close() { p.steps = append(p.steps, step{"Z", nil}) }

// Path draws an outline.
func (d *Drawing) Path(class string, p *Path) {
	d.element("path", class).raw(` d="`)
	for _, s := range p.steps {
		d.raw(s.command)
		for i, q := range s.points {
			if i > 0 {
				d.raw(" ")
			}
			d.number("", q.X).number(",", q.Y)
		}
	}
	d.raw("\"/>\n")
}

// Align is which point of a text lies at its place.
type Align int

// The alignments of text.
const (
	Left Align = iota
	Centre
	Right
)

var anchors = [...]string{Left: "", Centre: ` text-anchor="middle"`, Right: ` text-anchor="end"`}

// Span is part of a text in a class of its own; none is that of the text.
type Span struct{ Class, Text string }

// Text writes one line of text with its base line at a place.
func (d *Drawing) Text(class string, at Point, align Align, spans ...Span) {
	d.element("text", class)
	d.number(` x="`, at.X).number(`" y="`, at.Y).raw(`"` + anchors[align] + ">")
	for _, s := range spans {
		if s.Class == "" {
			d.escape(s.Text)
		} else {
			d.element("tspan", s.Class).raw(">").escape(s.Text).raw("</tspan>")
		}
	}
	d.raw("</text>\n")
}

func (d *Drawing) element(name, class string) *Drawing {
	return d.raw("<" + name + ` class="` + d.prefix + "-" + class + `"`)
}

// escape appends text; what XML cannot hold becomes U+FFFD.
func (d *Drawing) escape(s string) *Drawing {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(s)) // a Buffer does not fail
	d.body = append(d.body, b.Bytes()...)
	return d
}
