package draw

import (
	"math"
	"slices"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
)

// Sizes of a picture that do not follow the scale, in millimetres.
const (
	depthLine = 11.5 // of the depth's dimension line ahead of the anchor
	band      = 4.5  // thickness of the bed
	above     = 4.5  // room for symbols above the highest spot
)

// frame places one view on the sheet.
type frame struct {
	*sheet
	view        *View
	level       float64 // Y of the anchor
	left, right float64 // X of the ends of water and bed
}

// at is the place on the page of a point in metres from the anchor.
func (f *frame) at(x, z float64) svg.Point {
	return svg.Point{X: f.anchor + x*f.mm, Y: f.level - z*f.mm}
}

func (f *frame) place(p rode.Position) svg.Point { return f.at(p.X.Metres(), p.Z.Metres()) }

// strip draws one view below what is there.
func (s *sheet) strip(v *View) {
	s.y += 4
	s.Line("rule", svg.Point{X: margin, Y: s.y}, svg.Point{X: s.right(), Y: s.y})
	s.lines("label", large, svg.Wrap(v.Label, bold*large, s.inner()))
	s.figures(v)
	s.y += 2

	f := frame{sheet: s, view: v, left: margin, right: s.right()}
	e := v.extent(s.boat, s.mm)
	if v.Site.Slope != 0 {
		f.right = s.anchor + e.right*s.mm + beyond
	}
	tan := v.Site.Slope.Tan()
	ends := []float64{tan * (f.left - s.anchor), tan * (f.right - s.anchor)}
	top := math.Max(e.high*s.mm, slices.Max(ends))
	bottom := math.Min(e.low*s.mm, slices.Min(ends))
	f.level = s.y + above + top
	s.y = f.level - bottom + band

	s.Begin("view")
	f.water()
	f.bed()
	f.depth()
	f.drawHull()
	f.surface()
	f.onBed()
	f.rode()
	f.drawAnchor()
	f.joints()
	f.drawRoller()
	s.End()
}

// shore is where water and bed meet: the ends of the water in X.
func (f *frame) shore() (left, right float64, wet bool) {
	left, right = f.left, f.right
	depth, tan := f.view.Site.Depth.Metres(), f.view.Site.Slope.Tan()
	meet := f.at(depth/tan, 0).X
	switch {
	case tan > 0:
		right = math.Min(right, meet)
	case tan < 0:
		left = math.Max(left, meet)
	case depth <= 0:
		return 0, 0, false
	}
	return left, right, left < right
}

// ground is the bed at an X.
func (f *frame) ground(x float64) svg.Point {
	return svg.Point{X: x, Y: f.level - (x-f.anchor)*f.view.Site.Slope.Tan()}
}

func (f *frame) surfaceY() float64 { return f.level - f.deep() }

// deep is the depth at the anchor on the page.
func (f *frame) deep() float64 { return f.view.Site.Depth.Metres() * f.mm }

func (f *frame) water() {
	if left, right, wet := f.shore(); wet {
		y := f.surfaceY()
		f.Polygon("water", svg.Point{X: left, Y: y}, svg.Point{X: right, Y: y}, f.ground(right), f.ground(left))
	}
}

// surface draws the surface and the mark of a water level.
func (f *frame) surface() {
	left, right, wet := f.shore()
	if !wet {
		return
	}
	y := f.surfaceY()
	f.Line("surface", svg.Point{X: left, Y: y}, svg.Point{X: right, Y: y})
	// The mark keeps clear of the anchor.
	if x := f.anchor - 5; left < x-2 && x < right && f.deep() > 2 {
		f.Polygon("level", svg.Point{X: x, Y: y - 0.3}, svg.Point{X: x - 1.3, Y: y - 2.5}, svg.Point{X: x + 1.3, Y: y - 2.5})
		if f.deep() < 6 {
			return
		}
		for i, half := range []float64{1.3, 0.7} {
			y := y + 0.8*float64(i+1)
			f.Line("level", svg.Point{X: x - half, Y: y}, svg.Point{X: x + half, Y: y})
		}
	}
}

// bed draws a band of ground with strokes across.
func (f *frame) bed() {
	a, b := f.ground(f.left), f.ground(f.right)
	f.Polygon("ground", a, b, svg.Point{X: b.X, Y: b.Y + band}, svg.Point{X: a.X, Y: a.Y + band})
	var p svg.Path
	const stroke, step = 1.6, 3.0
	for x := f.left + step; x < f.right; x += step {
		from := f.ground(x)
		p.Move(from)
		p.Line(svg.Point{X: from.X - stroke, Y: from.Y + stroke})
	}
	f.Path("hatch", &p)
	f.Line("bed", a, b)
}

// depth draws the dimension of the water's depth at the anchor.
func (f *frame) depth() {
	x, top := f.anchor-depthLine, f.surfaceY()
	if left, right, wet := f.shore(); !wet || x < left || x > right || f.deep() < 1.5 {
		return
	}
	f.Line("thin", svg.Point{X: x, Y: top}, svg.Point{X: x, Y: f.level})
	for _, y := range []float64{top, f.level} {
		f.Line("thin", svg.Point{X: x - 1, Y: y}, svg.Point{X: f.anchor - 9.5, Y: y})
		f.Line("tick", svg.Point{X: x - 0.8, Y: y + 0.8}, svg.Point{X: x + 0.8, Y: y - 0.8})
	}
	low := math.Min(f.level, f.ground(f.left).Y) // of the water beside the line
	y := (top+low)/2 + 0.36*small
	if low-top < 6 { // no room in the water
		y = math.Min(top, low) - 1.2
	}
	f.Text("small", svg.Point{X: x - 1.6, Y: y}, svg.Right, svg.Span{Text: f.in.length(f.view.Site.Depth)})
}
