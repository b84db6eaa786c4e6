package pattern

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/svg"
)

// tiling is how a sheet is divided over pages.
type tiling struct {
	pageW, pageH float64
	w, h         float64 // of the part of the pattern on a page
	parts        []part
	pages        int
}

// part is what has pages of its own: a piece, or small pieces on one page.
type part struct {
	*Sheet
	cols, rows int
	first      int     // number of its first row, since letters go on from part to part
	used       [][]int // page number of each tile by row and column, 0 when it is empty
}

// tile divides a sheet over upright pages, or over pages that lie where those are fewer.
func (s *Sheet) tile(p Paper) (*tiling, error) {
	w, h := p.Width.Millimetres(), p.Height.Millimetres()
	switch {
	case !(w >= 190 && w <= widest):
		return nil, refuse("paper.Width", p.Width, "from 190 mm to 5.08 m")
	case !(h >= 250 && h <= widest):
		return nil, refuse("paper.Height", p.Height, "from 250 mm to 5.08 m")
	}
	upright, err := s.tileOn(w, h)
	lying, errLying := s.tileOn(h, w)
	if err != nil || errLying == nil && lying.pages < upright.pages {
		return lying, errLying
	}
	return upright, nil
}

func (s *Sheet) tileOn(w, h float64) (*tiling, error) {
	t := &tiling{pageW: w, pageH: h, w: w - 2*unprinted, h: h - 2*unprinted - footer}
	n := func(size, window float64) int { return max(1, int(math.Ceil((size-overlap)/(window-overlap)))) }
	rows, tiles := 0, 0
	sheets, err := s.divide(t.w, t.h)
	if err != nil {
		return nil, err
	}
	for _, sheet := range sheets {
		q := part{Sheet: sheet, cols: n(sheet.width, t.w), rows: n(sheet.height, t.h), first: rows}
		rows += q.rows
		if tiles += q.cols * q.rows; tiles > 1000 {
			return nil, refuse("paper", "more than 1000 tiles", "at most 1000")
		}
		for r := range q.rows {
			q.used = append(q.used, make([]int, q.cols))
			for c := range q.cols {
				x, y := t.corner(r, c)
				if sheet.touches(x, y, t.w, t.h) {
					t.pages++
					q.used[r][c] = t.pages + 1 // after the map
				}
			}
		}
		t.parts = append(t.parts, q)
	}
	return t, nil
}

// divide gives every piece that is larger than a page a sheet of its own, drawn
// anew so that no page's edge cuts a word, and puts the others side by side on pages.
func (s *Sheet) divide(w, h float64) (out []*Sheet, err error) {
	if len(s.pieces) == 0 {
		return []*Sheet{s}, nil
	}
	const pad = 2.0
	var page *Sheet
	x, y, row := 0.0, 0.0, 0.0
	for _, b := range s.pieces {
		if b.width+2*pad > w || b.height+2*pad > h {
			if b, err = draw(b.piece, window{w, h, pad}); err != nil {
				return nil, err
			}
			large := &Sheet{title: b.piece.Name, width: b.width + 2*pad, height: b.height + 2*pad}
			large.add(b, pad, pad)
			out = append(out, large)
			continue
		}
		if x > 0 && x+b.width > w-2*pad {
			x, y, row = 0, y+row+gap/2, 0
		}
		if page == nil || y+b.height > h-2*pad {
			page = &Sheet{title: "small pieces", width: w, height: h}
			x, y, row = 0, 0, 0
			out = append(out, page)
		}
		page.add(b, x+pad, y+pad)
		x, row = x+b.width+gap/2, math.Max(row, b.height)
	}
	return out, nil
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

// plain says that nothing in a rectangle is written, turns or ends.
func (s *Sheet) plain(x, y, w, h float64) bool {
	for _, m := range s.marks {
		if slices.ContainsFunc(m.points, func(p svg.Point) bool { return p.X >= x && p.X <= x+w && p.Y >= y && p.Y <= y+h }) {
			return false
		}
	}
	return !slices.ContainsFunc(s.words, func(t word) bool { return t.touches(x, y, w, h) })
}

// plain are the names of the pages that bear only straight lines from edge to edge.
func (t *tiling) plain() (names []string) {
	for i := range t.parts {
		q := &t.parts[i]
		for r := range q.rows {
			for c := range q.cols {
				if x, y := t.corner(r, c); q.used[r][c] > 0 && q.plain(x, y, t.w, t.h) {
					names = append(names, q.place(r, c))
				}
			}
		}
	}
	return names
}

func (t *word) touches(x, y, w, h float64) bool {
	left, _, width, _ := t.box()
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

// WriteTiled writes the sheet in parts on sheets of paper, upright or lying, to be
// taped together: the first page has what is to be cut, the check square and
// a map. Each piece that is larger than a page has pages of its own, small ones share
// pages. Pages overlap by 10 mm, and crosses in the overlap are laid on one another;
// pages with nothing on them are left out. Letters are those of WritePDF.
func (s *Sheet) WriteTiled(w io.Writer, p Paper) error {
	if err := s.western(); err != nil {
		return err
	}
	t, err := s.tile(p)
	if err != nil {
		return err
	}
	width, height := p.Width.Millimetres(), p.Height.Millimetres()
	f := newPDF(s.title, width, height)
	f.contents(s, t, width, height)
	for i := range t.parts {
		q := &t.parts[i]
		for r := range q.rows {
			for c := range q.cols {
				if q.used[r][c] > 0 {
					f.tilePage(s, t, q, r, c)
				}
			}
		}
	}
	return f.Output(w)
}

// contents is the first page: what is to be cut, the square, and a map of the tiles.
func (f *writer) contents(s *Sheet, t *tiling, width, height float64) {
	f.page(width, height)
	y := unprinted + large
	put := func(text string, size float64, bold bool) {
		for _, l := range svg.Wrap(text, size, width-2*unprinted) {
			f.word(word{svg.Point{X: unprinted, Y: y}, l, size, svg.Left, bold})
			y += 1.4 * size
		}
	}
	put(s.title, large, true)
	put(fmt.Sprintf("%d pages of pattern at true scale. Print without fitting to the page. Measure the square here and the "+
		"line on every page: %s, before cutting. Lay the crosses of neighbouring pages on one another and tape.", t.pages, s.in.squareName()), medium, false)
	square := Sheet{}
	square.add(s.head("", width-2*unprinted), unprinted, y)
	f.sheet(&square, 0, 0, 1)
	y += s.in.square() + 3 + large
	if len(s.summary) > 0 {
		put("To be cut, with the size of the rectangle round each piece. What is straight and square may be marked out with a ruler instead.", medium, false)
	}
	for i, l := range s.summary {
		if left := len(s.summary) - i; y > 0.72*height && left > 1 {
			put(fmt.Sprintf("and %d more", left), medium, false)
			break
		}
		put(l, medium, false)
	}
	if names := t.plain(); len(names) > 0 && len(names) <= 80 {
		put("Only straight lines from edge to edge, to be drawn with a ruler from the pages beside them if you like: "+strings.Join(names, ", ")+".", medium, false)
	}
	f.tileMap(t, unprinted, y+1, width-2*unprinted, height-unprinted-y-1)
}

// tileMap draws the parts small, with the names of their pages, within a rectangle.
func (f *writer) tileMap(t *tiling, x, y, w, h float64) {
	const between = 4.0
	corners := make([]svg.Point, len(t.parts))
	scale := 0.5
	for ; scale > 1e-3; scale *= 0.95 {
		at, row := svg.Point{}, 0.0
		fits := true
		for i, q := range t.parts {
			if pw := scale * q.width; at.X > 0 && at.X+pw > w {
				at, row = svg.Point{Y: at.Y + row + between}, 0
			}
			corners[i] = at
			fits = fits && at.X+scale*q.width <= w && at.Y+scale*q.height <= h
			at.X += scale*q.width + between
			row = math.Max(row, scale*q.height)
		}
		if fits {
			break
		}
	}
	for i := range t.parts {
		q := &t.parts[i]
		left, top := x+corners[i].X, y+corners[i].Y
		f.sheet(q.Sheet, left, top, scale)
		f.SetLineWidth(0.1)
		f.SetDrawColor(110, 110, 110)
		for r := range q.rows {
			for c := range q.cols {
				if q.used[r][c] == 0 {
					continue
				}
				// To the middle of the overlaps.
				x0, y0 := t.corner(r, c)
				x1, y1 := math.Min(x0+t.w, q.width), math.Min(y0+t.h, q.height)
				if c > 0 {
					x0 += overlap / 2
				}
				if r > 0 {
					y0 += overlap / 2
				}
				if c+1 < q.cols {
					x1 -= overlap / 2
				}
				if r+1 < q.rows {
					y1 -= overlap / 2
				}
				f.Rect(left+scale*x0, top+scale*y0, scale*(x1-x0), scale*(y1-y0), "D")
				size := math.Min(large, 0.5*scale*math.Min(t.w, t.h))
				f.word(word{svg.Point{X: left + scale*(x0+x1)/2, Y: top + scale*(y0+y1)/2 + size/3}, q.place(r, c), size, svg.Centre, true})
			}
		}
		f.SetDrawColor(0, 0, 0)
	}
}

// place names a tile by row and column: A1, A2, B1.
func (s *part) place(row, col int) string {
	name := ""
	for row += s.first + 1; row > 0; row = (row - 1) / 26 {
		name = string(rune('A'+(row-1)%26)) + name
	}
	return fmt.Sprint(name, col+1)
}

func (f *writer) tilePage(of *Sheet, t *tiling, s *part, row, col int) {
	f.page(t.pageW, t.pageH)
	x, y := t.corner(row, col)
	f.ClipRect(unprinted, unprinted, t.w, t.h, false)
	f.sheet(s.within(x, y, t.w, t.h), unprinted-x, unprinted-y, 1)
	f.ClipEnd()
	f.SetLineWidth(0.1)
	f.Rect(unprinted, unprinted, t.w, t.h, "D")
	if s.cols*s.rows > 1 {
		f.crosses(t)
	}
	base := t.pageH - unprinted
	f.SetLineWidth(0.25)
	long := of.in.square()
	f.Line(unprinted, base-2, unprinted+long, base-2)
	f.Line(unprinted, base-4, unprinted, base)
	f.Line(unprinted+long, base-4, unprinted+long, base)
	f.word(word{svg.Point{X: unprinted + long/2, Y: base - 3}, of.in.squareName(), small, svg.Centre, false})
	name := s.place(row, col)
	beside, comma := "", ": "
	if col+1 < s.cols && s.used[row][col+1] > 0 {
		beside += comma + s.place(row, col+1) + " to the right"
		comma = ", "
	}
	if row+1 < s.rows && s.used[row+1][col] > 0 {
		beside += comma + s.place(row+1, col) + " below"
	}
	right := t.pageW - unprinted
	f.word(word{svg.Point{X: right, Y: base - 4.5}, name + beside, medium, svg.Right, true})
	f.word(word{svg.Point{X: right, Y: base}, fmt.Sprintf("%s: %s, page %d of %d", of.title, s.title, s.used[row][col], t.pages+1), small, svg.Right, false})
}

// crosses lie where the middles of the overlaps meet.
func (f *writer) crosses(t *tiling) {
	for _, dx := range []float64{overlap / 2, t.w - overlap/2} {
		for _, dy := range []float64{overlap / 2, t.h - overlap/2} {
			px, py := unprinted+dx, unprinted+dy
			f.Line(px-4, py, px+4, py)
			f.Line(px, py-4, px, py+4)
			f.Circle(px, py, 2, "D")
		}
	}
}
