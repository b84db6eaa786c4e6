package pattern

import (
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// A piece that goes over several pages has its name and its caution, as all words,
// whole on one of them.
func TestWordsLieOnOnePage(t *testing.T) {
	const mm = units.Millimetre
	for _, size := range [][2]units.Length{{1000 * mm, 330 * mm}, {650 * mm, 650 * mm}, {1900 * mm, 60 * mm}, {40 * mm, 700 * mm}, {205 * mm, 20 * mm}, {180 * mm, 300 * mm}} {
		p := canvas.Piece{
			Name: "side of the coat of the bottle", Quantity: 1, Notes: []string{strings.Repeat("CAUTION: gas is heavier than air and must find its way out. ", 3)},
			Cut:      []canvas.Point{{}, {X: size[0]}, {X: size[0], Y: size[1]}, {Y: size[1]}},
			Sew:      [][]canvas.Point{{{X: 10 * mm, Y: 10 * mm}, {X: size[0] - 10*mm, Y: 10 * mm}}},
			Edges:    []string{"foot: hem 25 mm"},
			Fittings: []canvas.Fitting{{Name: "eyelet", At: canvas.Point{X: size[0] / 2, Y: size[1] / 2}, Diameter: 12 * mm}},
		}
		s, err := FullSize("coat", []canvas.Piece{p}, 2*units.Metre)
		if err != nil {
			t.Fatal(err)
		}
		for _, paper := range []Paper{A4, A3, Letter} {
			g, err := s.tile(paper)
			if err != nil {
				t.Fatal(err)
			}
			text := ""
			for _, q := range g.parts {
				for _, w := range q.words {
					text += w.text + " "
					left, width := w.at.X, svg.TextWidth(w.text, w.size)
					switch w.align {
					case svg.Centre:
						left -= width / 2
					case svg.Right:
						left -= width
					}
					whole := false
					for r := range q.rows {
						for c := range q.cols {
							x, y := g.corner(r, c)
							whole = whole || q.used[r][c] > 0 && left >= x && left+width <= x+g.w && w.at.Y-w.size >= y && w.at.Y+0.3*w.size <= y+g.h
						}
					}
					if !whole {
						t.Errorf("%v on %v: %q is cut", size, paper, w.text)
					}
				}
			}
			for _, want := range append(strings.Fields(p.Notes[0]), strings.Fields(p.Name)...) {
				if !strings.Contains(text, want) {
					t.Errorf("%v on %v: %q is missing in %q", size, paper, want, text)
				}
			}
		}
	}
}

// Of a frame of straight lines the pages between the corners are plain, but for
// those with a mark, a word or a curve.
func TestPlainPages(t *testing.T) {
	const m = units.Metre
	p := canvas.Piece{
		Name: "flap", Quantity: 1, Cut: []canvas.Point{{}, {X: 1 * m}, {X: 1 * m, Y: 1 * m}, {Y: 1 * m}},
		Marks: []canvas.Mark{{Number: 1, At: canvas.Point{X: 0.5 * m, Y: 0.01 * m}, To: canvas.Point{X: 0.5 * m}}},
	}
	s, err := FullSize("flap", []canvas.Piece{p}, 2*m)
	if err != nil {
		t.Fatal(err)
	}
	g, err := s.tile(A4) // 6 by 4 pages of 190 by 267 mm
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(g.plain(), " "), "A2 A3 A4 A5 B1 B6 C1 C6 D2 D4 D5"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
