package pattern

import (
	"fmt"
	"io"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// tiling is how a sheet is divided over pages.
type tiling struct {
	pageW, pageH float64
	w, h         float64 // of the part of the pattern on a page
	cols, rows   int
	used         [][]int // page number of each tile by row and column, 0 when it is empty
	pages        int
}

func (s *Sheet) tile(p Paper) (*tiling, error) {
	t := &tiling{pageW: p.Width.Millimetres(), pageH: p.Height.Millimetres()}
	if !(p.Width >= 140*units.Millimetre && p.Height >= 180*units.Millimetre && t.pageW <= widest && t.pageH <= widest) {
		return nil, refuse("paper", fmt.Sprintf("%v by %v", p.Width, p.Height), "from 140 mm by 180 mm to 5.08 m")
	}
	t.w, t.h = t.pageW-2*unprinted, t.pageH-2*unprinted-footer
	n := func(size, window float64) int { return max(1, int(math.Ceil((size-overlap)/(window-overlap)))) }
	t.cols, t.rows = n(s.width, t.w), n(s.height, t.h)
	if t.cols*t.rows > 500 {
		return nil, refuse("paper", fmt.Sprintf("%d tiles", t.cols*t.rows), "at most 500")
	}
	for r := range t.rows {
		t.used = append(t.used, make([]int, t.cols))
		for c := range t.cols {
			x, y := t.corner(r, c)
			if s.touches(x, y, t.w, t.h) {
				t.pages++
				t.used[r][c] = t.pages + 1 // after the map
			}
		}
	}
	return t, nil
}

// corner is where the tile begins on the sheet.
func (t *tiling) corner(row, col int) (x, y float64) {
	return float64(col) * (t.w - overlap), float64(row) * (t.h - overlap)
}

// touches says that anything is drawn in a rectangle.
func (s *Sheet) touches(x, y, w, h float64) bool {
	return slices.ContainsFunc(s.marks, func(m stroke) bool { return m.touches(x, y, w, h) }) ||
		slices.ContainsFunc(s.words, func(t word) bool { return t.touches(x, y, w, h) })
}

func (m *stroke) touches(x, y, w, h float64) bool {
	for i := range m.points {
		k := i + 1
		if k == len(m.points) {
			if !m.closed {
				break
			}
			k = 0
		}
		a, b := m.points[i], m.points[k]
		if crosses(plane.Point{X: a.X, Y: a.Y}, plane.Point{X: b.X, Y: b.Y}, x, y, w, h) {
			return true
		}
	}
	return false
}

func (t *word) touches(x, y, w, h float64) bool {
	left, width := t.at.X, svg.TextWidth(t.text, t.size)
	switch t.align {
	case svg.Centre:
		left -= width / 2
	case svg.Right:
		left -= width
	}
	return left < x+w && left+width > x && t.at.Y > y && t.at.Y-t.size < y+h
}

// within is what of a sheet is in a rectangle.
func (s *Sheet) within(x, y, w, h float64) *Sheet {
	part := *s
	part.marks, part.words = nil, nil
	for _, m := range s.marks {
		if m.touches(x, y, w, h) {
			part.marks = append(part.marks, m)
		}
	}
	for _, t := range s.words {
		if t.touches(x, y, w, h) {
			part.words = append(part.words, t)
		}
	}
	return &part
}

// Tiled writes the sheet on pages of a size, to be taped together: first a map
// of the pages, then a page for every tile with something on it. Neighbours
// overlap by 10 mm; the crosses lie in the middle of the overlaps, at the corners
// where tiles meet, and come to lie on one another. Each page bears a line of 100 mm.
func (s *Sheet) Tiled(w io.Writer, p Paper) error {
	t, err := s.tile(p)
	if err != nil {
		return err
	}
	f := newPDF(s.title, t.pageW, t.pageH)
	f.contents(s, t)
	for r := range t.rows {
		for c := range t.cols {
			if t.used[r][c] > 0 {
				f.tilePage(s, t, r, c)
			}
		}
	}
	return f.Output(w)
}

// contents is the first page: what is to be cut, and a map of the tiles.
func (f *writer) contents(s *Sheet, t *tiling) {
	f.page(t.pageW, t.pageH)
	y := unprinted + large
	put := func(text string, size float64, bold bool) {
		for _, l := range svg.Wrap(text, size, t.pageW-2*unprinted) {
			f.word(word{svg.Point{X: unprinted, Y: y}, l, size, svg.Left, bold})
			y += 1.4 * size
		}
	}
	put(s.title, large, true)
	put(fmt.Sprintf("%d pages of pattern, at true scale. Print without fitting to the page. Measure the square of 100 mm on the pattern and the "+
		"line of 100 mm on every page before cutting. Lay the crosses of neighbouring pages on one another and tape.", t.pages), medium, false)
	y += 2
	for i, l := range s.summary {
		if left := len(s.summary) - i; y > t.pageH*0.45 && left > 1 {
			put(fmt.Sprintf("and %d more", left), medium, false)
			break
		}
		put(l, medium, false)
	}
	y += 3
	scale := math.Min((t.pageW-2*unprinted)/s.width, (t.pageH-unprinted-y)/s.height)
	f.sheet(s, unprinted, y, math.Min(scale, 0.5))
	scale = math.Min(scale, 0.5)
	f.SetLineWidth(0.1)
	f.SetDrawColor(110, 110, 110)
	defer f.SetDrawColor(0, 0, 0)
	for r := range t.rows {
		for c := range t.cols {
			if t.used[r][c] == 0 {
				continue
			}
			x0, y0 := t.corner(r, c)
			// To the middle of the overlaps.
			w, h := math.Min(t.w, s.width-x0), math.Min(t.h, s.height-y0)
			if c > 0 {
				x0, w = x0+overlap/2, w-overlap/2
			}
			if r > 0 {
				y0, h = y0+overlap/2, h-overlap/2
			}
			if c+1 < t.cols {
				w -= overlap / 2
			}
			if r+1 < t.rows {
				h -= overlap / 2
			}
			x1, y1 := unprinted+scale*x0, y+scale*y0
			f.Rect(x1, y1, scale*w, scale*h, "D")
			size := math.Min(large, 0.3*scale*math.Min(w, h))
			f.word(word{svg.Point{X: x1 + scale*w/2, Y: y1 + scale*h/2 + size/3}, place(r, c), size, svg.Centre, true})
		}
	}
}

// place names a tile by row and column: A1, A2, B1.
func place(row, col int) string {
	name := ""
	for row++; row > 0; row = (row - 1) / 26 {
		name = string(rune('A'+(row-1)%26)) + name
	}
	return fmt.Sprint(name, col+1)
}

func (f *writer) tilePage(s *Sheet, t *tiling, row, col int) {
	f.page(t.pageW, t.pageH)
	x, y := t.corner(row, col)
	f.ClipRect(unprinted, unprinted, t.w, t.h, false)
	f.sheet(s.within(x, y, t.w, t.h), unprinted-x, unprinted-y, 1)
	f.ClipEnd()
	f.SetLineWidth(0.1)
	f.Rect(unprinted, unprinted, t.w, t.h, "D")
	// Crosses where the middles of the overlaps meet.
	for _, dx := range []float64{overlap / 2, t.w - overlap/2} {
		for _, dy := range []float64{overlap / 2, t.h - overlap/2} {
			px, py := unprinted+dx, unprinted+dy
			f.Line(px-4, py, px+4, py)
			f.Line(px, py-4, px, py+4)
			f.Circle(px, py, 2, "D")
		}
	}
	base := t.pageH - unprinted
	f.SetLineWidth(0.25)
	f.Line(unprinted, base-2, unprinted+square, base-2)
	f.Line(unprinted, base-4, unprinted, base)
	f.Line(unprinted+square, base-4, unprinted+square, base)
	f.word(word{svg.Point{X: unprinted + square/2, Y: base - 3}, "100 mm", small, svg.Centre, false})
	name := place(row, col)
	beside, comma := "", ": "
	if col+1 < t.cols && t.used[row][col+1] > 0 {
		beside += comma + place(row, col+1) + " to the right"
		comma = ", "
	}
	if row+1 < t.rows && t.used[row+1][col] > 0 {
		beside += comma + place(row+1, col) + " below"
	}
	right := t.pageW - unprinted
	f.word(word{svg.Point{X: right, Y: base - 4.5}, name + beside, medium, svg.Right, true})
	f.word(word{svg.Point{X: right, Y: base}, fmt.Sprintf("%s, page %d of %d", s.title, t.used[row][col], t.pages+1), small, svg.Right, false})
}
