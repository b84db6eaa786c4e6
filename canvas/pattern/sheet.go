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

// Sheet is a drawing to be written: pieces side by side at true scale from [Lay],
// or pieces on the roll from [Roll.Draw].
type Sheet struct {
	title, desc   string
	width, height float64 // mm
	marks         []stroke
	words         []word
	summary       []string // what is to be cut
}

// style is how a line looks.
type style int

const (
	cutLine style = iota
	sewLine
	slitLine
	tick
	thin
	areaCloth
	areaPiece
	areaFlaw
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
	tick:      {"tick", 0.35, nil, 0, 0},
	thin:      {"thin", 0.18, nil, 0, 0},
	areaCloth: {"cloth", 0.25, nil, 247, 32},
	areaPiece: {"piece", 0.35, nil, 226, 56},
	areaFlaw:  {"flaw", 0.25, nil, 255, 20},
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

// Sizes on the sheet, in millimetres.
const (
	edge   = 10.0 // round the sheet
	gap    = 12.0 // between pieces
	square = 100.0
	small  = 2.6
	medium = 3.5
	large  = 5.0
)

// Lay puts pieces on a sheet of at most a width, in rows, the highest first. It
// is a drawing, not a plan for the cloth: turned pieces and the roll are another
// matter. A piece wider than the width makes the sheet wider.
func Lay(title string, pieces []canvas.Piece, width units.Length) (*Sheet, error) {
	if !(width >= 100*units.Millimetre && width <= 100*units.Metre) {
		return nil, refuse("width", width, "from 0.1 m to 100 m")
	}
	if len(pieces) == 0 {
		return nil, refuse("pieces", "empty", "one or more")
	}
	s := &Sheet{title: title}
	blocks := []block{s.head()}
	for i := range pieces {
		b, err := draw(&pieces[i])
		if err != nil {
			return nil, err
		}
		blocks = append(blocks, b)
		s.summary = append(s.summary, pieces[i].Name+": "+count(&pieces[i]))
	}
	slices.SortStableFunc(blocks[1:], func(a, b block) int {
		switch {
		case a.height > b.height:
			return -1
		case a.height < b.height:
			return 1
		}
		return 0
	})
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
	s.desc = "Pattern at true scale, in millimetres. " + strings.Join(s.summary, "; ") + "."
	return s, nil
}

// Size returns the width and height of the sheet.
func (s *Sheet) Size() (width, height units.Length) {
	return units.Length(s.width / 1000), units.Length(s.height / 1000)
}

// block is part of a sheet, from its own upper left corner.
type block struct {
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

// head is the check square with the title and the meaning of the lines.
func (s *Sheet) head() block {
	b := block{width: square + 80, height: square}
	b.marks = append(b.marks, stroke{cutLine, []svg.Point{{X: 0, Y: 0}, {X: square, Y: 0}, {X: square, Y: square}, {X: 0, Y: square}}, true})
	b.words = append(b.words,
		word{svg.Point{X: square / 2, Y: square/2 - 2}, "100 mm × 100 mm", medium, svg.Centre, true},
		word{svg.Point{X: square / 2, Y: square/2 + 4}, "measure before cutting", medium, svg.Centre, false})
	x, y := square+6, 6.0
	for _, line := range svg.Wrap(s.title, large, 74) {
		b.words = append(b.words, word{svg.Point{X: x, Y: y}, line, large, svg.Left, true})
		y += 1.4 * large
	}
	y += 4
	for _, l := range []struct {
		style style
		text  string
	}{
		{cutLine, "cut"}, {sewLine, "finished edge: sew or fold"}, {slitLine, "cut open to let the fitting in"}, {tick, "match mark: equal numbers meet"},
	} {
		b.marks = append(b.marks, stroke{l.style, []svg.Point{{X: x, Y: y - 1.2}, {X: x + 14, Y: y - 1.2}}, false})
		b.words = append(b.words, word{svg.Point{X: x + 17, Y: y}, l.text, medium, svg.Left, false})
		y += 7
	}
	b.words = append(b.words,
		word{svg.Point{X: x, Y: y}, "The right side of the cloth is up.", medium, svg.Left, false},
		word{svg.Point{X: x, Y: y + 5}, "Double arrow: along the warp.", medium, svg.Left, false})
	return b
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

// arrows is a line with a tip at its end, or at both.
func (s *Sheet) arrows(look style, a, b svg.Point, both bool) {
	s.stroke(look, false, a, b)
	s.stroke(look, false, tip(a, b)...)
	if both {
		s.stroke(look, false, tip(b, a)...)
	}
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
