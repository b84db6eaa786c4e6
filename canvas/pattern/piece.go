package pattern

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/svg"
)

// drawn is a piece while it is drawn: in millimetres from its own upper left
// corner, Y down.
type drawn struct {
	block
	left  float64 // of the piece, in millimetres of its own
	top   float64
	cut   []plane.Point
	holes [][]plane.Point
	bare  bool          // words must not cross the finished line either
	taken []plane.Point // points of what is drawn inside, to be kept clear of words
	page  window        // words lie on one page whole
}

// window is the part of a large piece that goes on one page; pages overlap. The
// zero window is a page without end.
type window struct {
	w, h float64
	pad  float64 // between the first page's corner and the piece's
}

// holds says that a rectangle of the piece lies on one page whole.
func (p window) holds(x, y, w, h float64) bool {
	return p.w == 0 || p.along(x+p.pad, w, p.w) && p.along(y+p.pad, h, p.h)
}

func (p window) along(from, size, page float64) bool {
	first := math.Floor(from / (page - overlap)) // the last page that begins before it
	return from+size <= first*(page-overlap)+page
}

func (d *drawn) at(p canvas.Point) svg.Point {
	return svg.Point{X: p.X.Millimetres() - d.left, Y: d.top - p.Y.Millimetres()}
}

func (d *drawn) line(s style, points []canvas.Point, closed bool) {
	out := make([]svg.Point, len(points))
	for i, p := range points {
		out[i] = d.at(p)
	}
	d.marks = append(d.marks, stroke{s, out, closed})
}

func draw(p *canvas.Piece, page window) (block, error) {
	if err := checkPiece(p); err != nil {
		return block{}, err
	}
	d := &drawn{page: page}
	d.piece = p
	lo, hi := extent(p.Cut)
	for _, f := range p.Fittings { // straps reach beyond the cloth
		for _, q := range append(f.Strap[:len(f.Strap):len(f.Strap)], f.At) {
			lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
			hi.X, hi.Y = max(hi.X, q.X), max(hi.Y, q.Y)
		}
	}
	d.left, d.top = lo.X.Millimetres(), hi.Y.Millimetres()
	d.width, d.height = (hi.X - lo.X).Millimetres(), (hi.Y - lo.Y).Millimetres()
	for _, q := range p.Cut {
		a := d.at(q)
		d.cut = append(d.cut, plane.Point{X: a.X, Y: a.Y})
	}
	d.line(cutLine, p.Cut, true)
	for _, line := range p.Sew {
		d.line(sewLine, line, false)
	}
	for _, h := range p.Holes {
		d.line(cutLine, h.Line, true)
		if len(h.Slit) > 0 {
			d.line(slitLine, h.Slit, false)
		}
		var hole []plane.Point
		for _, q := range h.Line {
			a := d.at(q)
			hole = append(hole, plane.Point{X: a.X, Y: a.Y})
		}
		d.holes = append(d.holes, hole)
	}
	for _, m := range p.Marks {
		d.mark(m)
	}
	for _, c := range p.Clips {
		d.line(thin, c[:], false)
	}
	for _, line := range p.Patches {
		d.line(patchLine, line, false)
	}
	for _, t := range p.Darts {
		d.dart(t)
	}
	for i := range p.Fittings {
		d.fitting(&p.Fittings[i])
	}
	for i := range min(len(p.Sew), len(p.Edges)) {
		d.edge(p.Edges[i], p.Sew[i])
	}
	d.describe()
	d.grain()
	return d.block, nil
}

// mark is a stroke across the allowance, with its number inside.
func (d *drawn) mark(m canvas.Mark) {
	a, b := d.at(m.At), d.at(m.To)
	d.marks = append(d.marks, stroke{tick, []svg.Point{a, b}, false})
	u := plane.Point{X: a.X - b.X, Y: a.Y - b.Y}.Unit()
	at := svg.Point{X: a.X + 2.5*u.X, Y: a.Y + 2.5*u.Y + 0.35*small}
	d.words = append(d.words, word{at, fmt.Sprint(m.Number), small, svg.Centre, false})
	d.taken = append(d.taken, plane.Point{X: at.X, Y: at.Y})
}

// dart is its legs, the line along which it is folded, and a cross where the stitches end.
func (d *drawn) dart(t canvas.DartLine) {
	d.line(sewLine, []canvas.Point{t.Left, t.Tip, t.Right}, false)
	d.line(foldLine, []canvas.Point{t.Tip, t.Fold}, false)
	a := d.at(t.Tip)
	d.cross(a, 2)
	for _, q := range []canvas.Point{t.Left, t.Right} {
		b := d.at(q)
		for k := range 12 {
			s := float64(k) / 12
			d.taken = append(d.taken, plane.Point{X: a.X + s*(b.X-a.X), Y: a.Y + s*(b.Y-a.Y)})
		}
	}
}

func (d *drawn) cross(a svg.Point, arm float64) {
	d.marks = append(d.marks,
		stroke{thin, []svg.Point{{X: a.X - arm, Y: a.Y}, {X: a.X + arm, Y: a.Y}}, false},
		stroke{thin, []svg.Point{{X: a.X, Y: a.Y - arm}, {X: a.X, Y: a.Y + arm}}, false})
}

// fitting is the hole to be made with a cross in its middle, or the middle line of
// a strap, with a name.
func (d *drawn) fitting(f *canvas.Fitting) {
	a := d.at(f.At)
	name := f.Name
	if len(f.Strap) > 1 {
		d.line(strapLine, f.Strap, false)
		// The name beside the end inside.
		b := d.at(f.Strap[0])
		for k := range 21 {
			s := float64(k) / 20
			d.taken = append(d.taken, plane.Point{X: a.X + s*(b.X-a.X), Y: a.Y + s*(b.Y-a.Y)})
		}
		a = b
	} else {
		d.cross(a, 3)
	}
	r := f.Diameter.Millimetres() / 2
	if r > 0 {
		var ring []svg.Point
		for i := range 48 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 48)
			ring = append(ring, svg.Point{X: a.X + r*cos, Y: a.Y + r*sin})
		}
		d.marks = append(d.marks, stroke{cutLine, ring, true})
		name = strings.TrimSpace(name + " " + ruler{d.piece.Imperial}.say(f.Diameter))
	}
	if name == "" {
		return
	}
	// To the side that lies further inside, or a line above or below.
	var w word
	for _, down := range []float64{0, -5, 5} {
		w = word{svg.Point{X: a.X + math.Max(4, r+2), Y: a.Y + down + 0.35*small}, name, small, svg.Left, false}
		if !d.fits(w) {
			w.at.X, w.align = a.X-math.Max(4, r+2), svg.Right
		}
		if d.fits(w) {
			d.words = append(d.words, w)
			break
		}
	}
	d.taken = append(d.taken, grid(a.X-4, a.Y-2, 8, 4)...)
	left := w.at.X
	if w.align == svg.Right {
		left -= svg.TextWidth(name, small)
	}
	d.taken = append(d.taken, grid(left, w.at.Y-0.35*small-2, svg.TextWidth(name, small), 4)...)
}

// edge writes what is done to an edge beside its middle, on the inside.
func (d *drawn) edge(text string, line []canvas.Point) {
	points := make([]plane.Point, len(line))
	for i, q := range line {
		a := d.at(q)
		points[i] = plane.Point{X: a.X, Y: a.Y}
	}
	length := plane.Length(points)
	if text == "" || length < 25 {
		return
	}
	// A little aside of the middle, where a match mark may be.
	for _, part := range []float64{0.42, 0.58, 0.3, 0.7, 0.18, 0.82} {
		if d.beside(text, points, part*length, length) {
			return
		}
	}
}

// beside writes a text inside a line of the piece, at a length from its first point.
func (d *drawn) beside(text string, points []plane.Point, rest, length float64) bool {
	for i := 1; i < len(points); i++ {
		u := points[i].Sub(points[i-1])
		l := u.Norm()
		if rest > l {
			rest -= l
			continue
		}
		at := points[i-1].Add(u.Times(rest / l))
		in := u.Times(1 / l).Right() // the page is upside down: this is the inside
		at = at.Add(in.Times(4))
		width := svg.TextWidth(text, small)
		w := word{svg.Point{X: at.X, Y: at.Y + 0.35*small}, text, small, svg.Centre, false}
		switch {
		case in.X > 0.35:
			w.align = svg.Left
		case in.X < -0.35:
			w.align = svg.Right
		}
		if w.align == svg.Centre { // clear of a line that slants
			w.at.Y += math.Copysign(math.Abs(in.X)*width/2, in.Y)
		}
		if width > length && w.align == svg.Centre || !d.fits(w) {
			return false
		}
		d.words = append(d.words, w)
		d.taken = append(d.taken, grid(w.box())...)
		return true
	}
	return false
}

// fits says that a line of text lies on the piece and on no other.
func (d *drawn) fits(w word) bool { return d.clear(w.box()) }

// clear says that a rectangle lies on the piece with nothing else in it.
func (d *drawn) clear(x, y, w, h float64) bool {
	if !d.page.holds(x, y, w, h) {
		return false
	}
	for _, p := range []plane.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}} {
		if !plane.Contains(d.cut, p) {
			return false
		}
	}
	inside := func(p plane.Point) bool { return p.X > x-1 && p.X < x+w+1 && p.Y > y-1 && p.Y < y+h+1 }
	if slices.ContainsFunc(d.taken, inside) {
		return false
	}
	for _, hole := range d.holes {
		if len(hole) > 2 && plane.Contains(hole, plane.Point{X: x, Y: y}) {
			return false
		}
	}
	for _, ring := range append([][]plane.Point{d.cut}, d.holes...) {
		for i, a := range ring {
			if crosses(a, ring[(i+1)%len(ring)], x, y, w, h) {
				return false
			}
		}
	}
	for i := range d.piece.Holes {
		if d.meets(d.piece.Holes[i].Slit, x-2, y-2, w+4, h+4) {
			return false
		}
	}
	for _, line := range d.piece.Patches {
		if d.meets(line, x, y, w, h) {
			return false
		}
	}
	return !d.bare || !slices.ContainsFunc(d.piece.Sew, func(line []canvas.Point) bool { return d.meets(line, x, y, w, h) })
}

// meets says that a line of the piece enters a rectangle.
func (d *drawn) meets(line []canvas.Point, x, y, w, h float64) bool {
	for i := 1; i < len(line); i++ {
		a, b := d.at(line[i-1]), d.at(line[i])
		if crosses(plane.Point{X: a.X, Y: a.Y}, plane.Point{X: b.X, Y: b.Y}, x, y, w, h) {
			return true
		}
	}
	return false
}

// crosses says that a segment enters a rectangle (by clipping it, side by side).
func crosses(a, b plane.Point, x, y, w, h float64) bool {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, e := range [][2]float64{{-d.X, a.X - x}, {d.X, x + w - a.X}, {-d.Y, a.Y - y}, {d.Y, y + h - a.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		default:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	return t0 <= t1
}

// describe writes name, number and notes on the piece where there is room, or
// under it.
func (d *drawn) describe() {
	p := d.piece
	type size struct{ width, name, note float64 }
	var w, h float64
	var lines []word
	set := func(z size) {
		lines = nil
		w, h = 0, 0
		put := func(text string, size float64, bold bool) {
			for _, l := range svg.Wrap(text, size, z.width) {
				h += 1.3 * size
				lines = append(lines, word{svg.Point{Y: h - 0.3*size}, l, size, svg.Left, bold})
				w = math.Max(w, svg.TextWidth(l, size))
			}
		}
		put(p.Name, z.name, true)
		put(count(p), z.note, false)
		for _, n := range p.Notes {
			put(n, z.note, false)
		}
	}
	var sizes []size
	if math.Min(d.width, d.height) > 600 { // read from where the whole piece is seen
		sizes = append(sizes, size{400, 16, 8}, size{280, 12, 6})
	}
	sizes = append(sizes, []size{
		{160, 7, 4}, {110, 7, 4}, {140, 5, 3.2}, {90, 5, 3.2}, {110, 4, 2.6}, {70, 4, 2.6}, {50, 3.5, 2.6}, {36, 3.5, 2.6}, {170, 3.5, 2.6}, {60, 2.6, 2.2}, {24, 2.6, 2.2},
	}...)
	for _, d.bare = range []bool{true, false} {
		for _, z := range sizes {
			set(z)
			const pad = 3.0
			if x, y, ok := d.room(w+2*pad, h+2*pad); ok {
				d.put(lines, x+pad, y+pad)
				d.taken = append(d.taken, grid(x, y, w+2*pad, h+2*pad)...)
				return
			}
		}
	}
	wide := math.Max(80, d.width)
	if d.page.w > 0 {
		wide = math.Min(wide, d.page.w-2*d.page.pad)
	}
	set(size{wide, 3.5, 2.6})
	y := d.height + 3
	if d.page.w > 0 && !d.page.holds(0, y, w, h) { // at the top of the next page
		y = (math.Floor((y+d.page.pad)/(d.page.h-overlap))+1)*(d.page.h-overlap) - d.page.pad + 1
	}
	d.put(lines, 0, y)
	d.height = y + h
	d.width = math.Max(d.width, w)
}

func (d *drawn) put(lines []word, x, y float64) {
	for _, l := range lines {
		l.at.X += x
		l.at.Y += y
		d.words = append(d.words, l)
	}
}

// grid is points all over a rectangle, to keep others out of it.
func grid(x, y, w, h float64) []plane.Point {
	var out []plane.Point
	nx, ny := int(w/3)+1, int(h/3)+1
	for i := range nx + 1 {
		for j := range ny + 1 {
			out = append(out, plane.Point{X: x + w*float64(i)/float64(nx), Y: y + h*float64(j)/float64(ny)})
		}
	}
	return out
}

// room looks for a free rectangle on the piece, the nearest to its middle.
func (d *drawn) room(w, h float64) (x, y float64, ok bool) {
	if w > d.width || h > d.height {
		return 0, 0, false
	}
	const parts = 24
	best := math.Inf(1)
	for i := range parts + 1 {
		for j := range parts + 1 {
			u := (d.width - w) * float64(i) / parts
			v := (d.height - h) * float64(j) / parts
			off := math.Hypot(u+w/2-d.width/2, v+h/2-d.height/2)
			if off < best && d.clear(u, v, w, h) {
				x, y, best, ok = u, v, off, true
			}
		}
	}
	return x, y, ok
}

// grain draws an arrow along the warp where there is room, a double one unless the
// piece lies one way.
func (d *drawn) grain() {
	for _, d.bare = range []bool{true, false} {
		if d.arrow() {
			return
		}
	}
}

func (d *drawn) arrow() bool {
	sin, cos := math.Sincos(float64(d.piece.Grain))
	u := plane.Point{X: cos, Y: -sin}
	for _, l := range []float64{200, 120, 80, 50, 30, 18} {
		w, h := math.Max(5, l*math.Abs(u.X)+2), math.Max(5, l*math.Abs(u.Y)+2)
		x, y, ok := d.room(w, h)
		if !ok {
			continue
		}
		m := plane.Point{X: x + w/2, Y: y + h/2}
		a, b := m.Add(u.Times(l/2)), m.Sub(u.Times(l/2))
		d.marks = append(d.marks, arrows(thin, svg.Point(b), svg.Point(a), !oneWay(d.piece))...)
		return true
	}
	return false
}
