package draw

import (
	"slices"
	"strconv"
	"strings"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
)

// scaleBar draws a bar of metres or feet from the anchors on.
func (s *sheet) scaleBar() {
	s.y += 8
	unit, name := s.in.unit()
	mm := unit.Metres() * s.mm
	step := s.in.barStep(s.scale)
	n := max(1, int((s.right()-4-s.anchor)/(step*mm)))
	x := func(i int) float64 { return s.anchor + float64(i)*step*mm }
	const height = 1.6
	for i := range n {
		class := "even"
		if i%2 == 1 {
			class = "odd"
		}
		s.Rect(class, svg.Point{X: x(i), Y: s.y}, svg.Point{X: x(i + 1), Y: s.y + height})
	}
	for i := range n + 1 {
		t := strconv.FormatFloat(float64(i)*step, 'g', 6, 64)
		if i == n {
			t += " " + name
		}
		s.Text("small", svg.Point{X: x(i), Y: s.y - 1.2}, svg.Centre, svg.Span{Text: t})
	}
	s.Text("scale", svg.Point{X: margin, Y: s.y + height}, svg.Left, svg.Span{Text: "1:" + strconv.FormatFloat(s.scale, 'f', -1, 64)})
	s.y += height + 0.6
	text := s.in.says(s.scale, s.width, step, step*mm) + " It is the same along and up."
	s.lines("note", small, svg.Wrap(text, small, s.inner()))
}

// entry is a line of the legend: a symbol and what it means.
type entry struct {
	symbol func(left svg.Point)
	width  float64 // of the symbol
	text   string
}

// legend explains what occurs in the views.
func (s *sheet) legend(views []View) {
	var chains, ropes, weights, buoys []string
	var chain, rope, joint, lying, weight, buoy bool
	for i := range views {
		v := &views[i]
		lying = lying || slices.ContainsFunc(v.State.Parts, func(p rode.Part) bool { return p.OnBed })
		for j := range v.Rode.Pieces {
			p := &v.Rode.Pieces[j]
			if p.Kind == rode.OfChain {
				chain = true
				chains = include(chains, p.Name)
			} else {
				rope = true
				ropes = include(ropes, p.Name)
			}
			if j < len(v.Rode.Pieces)-1 {
				f := v.fittings(j)
				joint = joint || f.joint
				weight = weight || len(f.weights) > 0
				buoy = buoy || len(f.buoys) > 0
				weights = include(weights, f.weights...)
				buoys = include(buoys, f.buoys...)
			}
		}
	}
	line := func(classes ...string) func(svg.Point) {
		return func(p svg.Point) {
			for _, c := range classes {
				s.Line(c, svg.Point{X: p.X, Y: p.Y - 1}, svg.Point{X: p.X + lineWidth, Y: p.Y - 1})
			}
		}
	}
	var entries []entry
	add := func(shown bool, width float64, symbol func(svg.Point), text string, names []string) {
		if len(names) > 0 {
			text += ": " + strings.Join(names, ", ")
		}
		if shown {
			entries = append(entries, entry{symbol, width, text})
		}
	}
	add(chain, lineWidth, line("chain", "links"), "chain", chains)
	add(rope, lineWidth, line("rope"), "rope", ropes)
	add(joint, pointWidth, func(p svg.Point) { s.Circle("joint", svg.Point{X: p.X + pointWidth/2, Y: p.Y - 1}, 0.9) }, "joint or connector", nil)
	add(weight, pointWidth, func(p svg.Point) { s.kellet(svg.Point{X: p.X + pointWidth/2, Y: p.Y - 1 - kelletHeight/2}) }, "weight", weights)
	add(buoy, pointWidth, func(p svg.Point) { s.buoy(svg.Point{X: p.X + pointWidth/2, Y: p.Y - 1 + buoyHeight/2}) }, "float", buoys)
	add(lying, lineWidth, func(p svg.Point) {
		line("lying")(p)
		for _, x := range []float64{p.X, p.X + lineWidth} {
			s.Line("lying", svg.Point{X: x, Y: p.Y - 1.9}, svg.Point{X: x, Y: p.Y - 0.1})
		}
	}, "lies on the bed", nil)
	s.flow(entries)
}

// Widths of symbols in the legend.
const lineWidth, pointWidth = 12.0, 3.4

// flow sets the entries one after the other and breaks the line where it is full.
func (s *sheet) flow(entries []entry) {
	const gap, between = 2.0, 7.0
	s.y += 7
	x := margin
	for _, e := range entries {
		lines := svg.Wrap(e.text, medium, s.inner()-e.width-gap)
		width := e.width + gap + svg.TextWidth(lines[0], medium)
		if x > margin && (x+width > s.right() || len(lines) > 1) {
			x = margin
			s.y += 1.8 * medium
		}
		e.symbol(svg.Point{X: x, Y: s.y})
		for i, l := range lines {
			if i > 0 {
				s.y += 1.3 * medium
			}
			s.Text("medium", svg.Point{X: x + e.width + gap, Y: s.y}, svg.Left, svg.Span{Text: l})
		}
		x += width + between
		if len(lines) > 1 {
			x = s.right()
		}
	}
}

// include adds names that are not empty and not there yet.
func include(names []string, more ...string) []string {
	for _, n := range more {
		if n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}

// note says what is not to scale and what the picture does not show.
func (s *sheet) note(b Boat) {
	s.y += 2
	what := "of the boat, the height of the roller is"
	if b.Length > 0 {
		what = "of the boat, length and height of the roller are"
	}
	text := "Symbols and hull are sketches; " + what + " to scale. The anchor angle is that of its pull above the bed. " +
		"The shape is that in still water under a steady pull: gusts, sheering and waves load a rode to a multiple of it."
	s.lines("note", small, svg.Wrap(text, small, s.inner()))
}
