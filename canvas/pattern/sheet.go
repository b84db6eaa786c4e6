package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// Sheet is a drawing to be written: pieces side by side at true scale from [FullSize],
// or pieces on the roll from [Roll.Draw].
type Sheet struct {
	title, desc   string
	width, height float64 // mm
	marks         []stroke
	words         []word
	pieces        []block  // as laid, for sheets that are to be divided
	summary       []string // what is to be cut
	in            ruler
}

// style is how a line looks.
type style int

const (
	cutLine style = iota
	sewLine
	slitLine
	patchLine
	foldLine
	strapLine
	tick
	thin
	areaCloth
	areaPiece
	areaFlaw
	sewSmall
	strapSmall
	styles
)

// Looks of the styles: width and dashes in millimetres, and the grey of what is
// filled, on paper and on a dark screen; 0 is none.
var looks = [styles]struct {
	name       string
	width      float64
	dash       []float64
	grey, dark int
}{
	cutLine:   {"cut", 0.5, nil, 0, 0},
	sewLine:   {"sew", 0.25, []float64{3, 1.5}, 0, 0},
	slitLine:  {"slit", 0.35, []float64{6, 1.5, 1, 1.5}, 0, 0},
	patchLine: {"patch", 0.25, []float64{0.8, 1.2}, 0, 0},
	foldLine:  {"fold", 0.18, []float64{8, 1.5, 1.5, 1.5}, 0, 0},
	strapLine: {"strap", 0.7, []float64{10, 3}, 0, 0},
	tick:      {"tick", 0.35, nil, 0, 0},
	thin:      {"thin", 0.18, nil, 0, 0},
	areaCloth: {"cloth", 0.25, nil, 247, 32},
	areaPiece: {"piece", 0.35, nil, 232, 50},
	areaFlaw:  {"flaw", 0.25, nil, 255, 20},
	// Of drawings that are not at true scale.
	sewSmall:   {"sews", 0.18, []float64{1.2, 0.7}, 0, 0},
	strapSmall: {"straps", 0.8, nil, 0, 0},
}

// stroke is a polyline on the page, Y down, in millimetres.
type stroke struct {
	style  style
	points []svg.Point
	closed bool
}

// word is a line of text; size is that of the font in millimetres.
type word struct {
	at    svg.Point
	text  string
	size  float64
	align svg.Align
	bold  bool
}

// box is the rectangle that a line of text takes.
func (w word) box() (x, y, width, height float64) {
	width = svg.TextWidth(w.text, w.size)
	x = w.at.X
	switch w.align {
	case svg.Centre:
		x -= width / 2
	case svg.Right:
		x -= width
	}
	return x, w.at.Y - w.size, width, 1.3 * w.size
}

// Sizes on the sheet, in millimetres.
const (
	edge   = 10.0 // round the sheet
	gap    = 12.0 // between pieces
	small  = 3.0
	medium = 3.5
	large  = 5.0
)

// mostPieces of a sheet bound the work of drawing it.
const mostPieces = 500

// FullSize puts pieces on a sheet of at most a width, in rows, the highest first. It
// is a drawing, not a plan for the cloth: turned pieces and the roll are another
// matter. A piece wider than the width makes the sheet wider. The check square is in
// inches if the first piece is Imperial.
func FullSize(title string, pieces []canvas.Piece, width units.Length) (*Sheet, error) {
	if !(width >= 100*units.Millimetre && width <= 100*units.Metre) {
		return nil, refuse("width", width, "from 0.1 m to 100 m")
	}
	if len(pieces) == 0 || len(pieces) > mostPieces {
		return nil, refuse("pieces", fmt.Sprint(len(pieces)), fmt.Sprintf("from one to %d", mostPieces))
	}
	s := &Sheet{title: title, in: ruler{pieces[0].Imperial}}
	var blocks []block
	for i := range pieces {
		p := pieces[i] // kept, to be drawn again for pages
		b, err := draw(&p, window{})
		if err != nil {
			return nil, err
		}
		blocks = append(blocks, b)
		lo, hi := extent(pieces[i].Cut)
		s.summary = append(s.summary, fmt.Sprintf("%s: %s, %s", pieces[i].Name, count(&pieces[i]), s.in.size(hi.X-lo.X, hi.Y-lo.Y)))
	}
	slices.SortStableFunc(blocks, func(a, b block) int {
		switch {
		case a.height > b.height:
			return -1
		case a.height < b.height:
			return 1
		}
		return 0
	})
	s.pieces = blocks
	blocks = append([]block{s.head(title, s.in.square()+80)}, blocks...)
	limit := width.Millimetres() - 2*edge
	x, y, row := 0.0, 0.0, 0.0
	for _, b := range blocks {
		if x > 0 && x+b.width > limit {
			x, y, row = 0, y+row+gap, 0
		}
		s.add(b, edge+x, edge+y)
		s.width = math.Max(s.width, x+b.width+2*edge)
		x += b.width + gap
		row = math.Max(row, b.height)
	}
	s.height = y + row + 2*edge
	s.desc = "Pattern at true scale, in " + s.in.name("millimetres") + ". " + strings.Join(s.summary, "; ") + "."
	return s, nil
}

// Size returns the width and height of the sheet.
func (s *Sheet) Size() (width, height units.Length) {
	return units.Length(s.width / 1000), units.Length(s.height / 1000)
}

// block is part of a sheet, from its own upper left corner.
type block struct {
	piece         *canvas.Piece
	width, height float64
	marks         []stroke
	words         []word
}

func (s *Sheet) add(b block, x, y float64) {
	for _, m := range b.marks {
		moved := make([]svg.Point, len(m.points))
		for i, p := range m.points {
			moved[i] = svg.Point{X: p.X + x, Y: p.Y + y}
		}
		s.marks = append(s.marks, stroke{m.style, moved, m.closed})
	}
	for _, w := range b.words {
		w.at.X += x
		w.at.Y += y
		s.words = append(s.words, w)
	}
}

// head is the check square with the title and the meaning of the lines beside it.
// Only lines of the styles in use are explained.
func (s *Sheet) head(title string, width float64) block {
	side, name, used := s.in.square(), s.in.squareName(), s.used()
	b := block{width: width, height: side}
	b.marks = append(b.marks, stroke{cutLine, []svg.Point{{X: 0, Y: 0}, {X: side, Y: 0}, {X: side, Y: side}, {X: 0, Y: side}}, true})
	b.words = append(b.words,
		word{svg.Point{X: side / 2, Y: side/2 - 2}, name + " × " + name, medium, svg.Centre, true},
		word{svg.Point{X: side / 2, Y: side/2 + 4}, "measure before cutting", medium, svg.Centre, false})
	x, y := side+6, 6.0
	for _, line := range svg.Wrap(title, large, width-x) {
		b.words = append(b.words, word{svg.Point{X: x, Y: y}, line, large, svg.Left, true})
		y += 1.4 * large
	}
	for _, l := range legend {
		if !used[l.style] {
			continue
		}
		if l.style == tick {
			b.marks = append(b.marks, stroke{l.style, []svg.Point{{X: x + 7, Y: y - 3.2}, {X: x + 7, Y: y + 0.8}}, false})
		} else {
			b.marks = append(b.marks, stroke{l.style, []svg.Point{{X: x, Y: y - 1.2}, {X: x + 14, Y: y - 1.2}}, false})
		}
		for _, line := range svg.Wrap(l.text, small, width-x-17) {
			b.words = append(b.words, word{svg.Point{X: x + 17, Y: y}, line, small, svg.Left, false})
			y += 1.3 * small
		}
		y += 2.5
	}
	for _, text := range append([]string{"The right side of the cloth is up."}, s.grainLegend()...) {
		for _, line := range svg.Wrap(text, small, width-x) {
			b.words = append(b.words, word{svg.Point{X: x, Y: y}, line, small, svg.Left, false})
			y += 1.3 * small
		}
	}
	return b
}

// grainLegend tells what the arrows of the pieces mean.
func (s *Sheet) grainLegend() (out []string) {
	one, both := false, false
	for _, b := range s.pieces {
		one, both = one || oneWay(b.piece), both || !oneWay(b.piece)
	}
	if both {
		out = append(out, "Double arrow: along the warp.")
	}
	if one {
		out = append(out, "Single arrow: along the warp, away from the free end of the roll.")
	}
	return out
}

// oneWay reports whether the grain of a piece lies in one direction along the roll.
func oneWay(p *canvas.Piece) bool { return p.Lie == canvas.OneWay }

// used are the styles of the lines of the pieces.
func (s *Sheet) used() (u [styles]bool) {
	for _, b := range s.pieces {
		for _, m := range b.marks {
			u[m.style] = true
		}
	}
	return u
}

// legend is what the lines mean.
var legend = []struct {
	style style
	text  string
}{
	{cutLine, "cut"},
	{sewLine, "finished edge: sew or fold"},
	{slitLine, "cut open to let the fitting in"},
	{patchLine, "sew a patch on here"},
	{foldLine, "fold of a dart; its legs are sewn"},
	{strapLine, "middle of a strap of webbing"},
	{tick, "match mark: equal numbers meet"},
}

func count(p *canvas.Piece) string {
	text := fmt.Sprintf("cut %d", p.Quantity)
	if p.Mirrored > 0 {
		text += fmt.Sprintf(" and %d mirrored", p.Mirrored)
	}
	return text
}

// stroke draws a line, word writes one, straight onto the sheet.
func (s *Sheet) stroke(look style, closed bool, points ...svg.Point) {
	s.marks = append(s.marks, stroke{look, points, closed})
}

func (s *Sheet) word(x, y float64, text string, size float64, align svg.Align, bold bool) {
	s.words = append(s.words, word{svg.Point{X: x, Y: y}, text, size, align, bold})
}

// paragraph writes text over the width of the sheet, and returns where the next goes.
func (s *Sheet) paragraph(y float64, text string, size float64, bold bool) float64 {
	for _, l := range svg.Wrap(text, size, s.width-2*edge) {
		s.word(edge, y, l, size, svg.Left, bold)
		y += 1.4 * size
	}
	return y
}

func (s *Sheet) arrows(look style, a, b svg.Point, both bool) {
	s.marks = append(s.marks, arrows(look, a, b, both)...)
}

// arrows is a line with a tip at its end, or at both.
func arrows(look style, a, b svg.Point, both bool) []stroke {
	out := []stroke{{look, []svg.Point{a, b}, false}, {look, tip(a, b), false}}
	if both {
		out = append(out, stroke{look, tip(b, a), false})
	}
	return out
}

// tip is the head of an arrow from a to b.
func tip(a, b svg.Point) []svg.Point {
	u := plane.Point{X: b.X - a.X, Y: b.Y - a.Y}
	size := math.Min(3, 0.4*u.Norm())
	u = u.Unit()
	back := plane.Point(b).Sub(u.Times(size))
	side := u.Right().Times(0.4 * size)
	return []svg.Point{svg.Point(back.Add(side)), b, svg.Point(back.Sub(side))}
}
