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

// Roll is a strip of cloth and where pieces are cut from it. X runs along the
// roll from its free end, which is the direction of the warp, Y across it from
// the lower selvedge.
type Roll struct {
	Title         string
	Width, Length units.Length
	Pieces        []RollPiece
	Flaws         []Zone
	Offcut        Zone     // what is left in one piece; the zero Zone is nothing
	Notes         []string // printed below the title
	Imperial      bool     `json:",omitempty"` // has sizes in inches and a scale in feet
}

// RollPiece is a piece where it lies on the roll.
type RollPiece struct {
	Name    string
	Order   int            // in which it is cut
	Outline []canvas.Point // the cut line, as turned and placed
}

// Zone is a rectangle between two opposite corners, From nearest to the origin.
type Zone struct {
	Name     string
	From, To canvas.Point
}

// scales are those of drawings that are not at true scale.
var scales = [...]float64{1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 500}

// scaleFor is the largest scale at which a drawing fits, or the smallest.
func scaleFor(fits func(n float64) bool) float64 {
	for _, n := range scales {
		if fits(n) {
			return n
		}
	}
	return scales[len(scales)-1]
}

// Draw puts the roll on a sheet, at the largest usual scale at which it is at most 260 mm
// long, or longer where it would be less than 25 mm wide. Below the drawing is a
// list of the pieces in the order in which they are cut, with the place of the
// nearest corner of the rectangle round each.
//
// It refuses pieces that are not outlines or lie outside the roll by more than
// 0.1 mm; whether pieces lie on one another is for whoever placed them.
func (r Roll) Draw() (*Sheet, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	s := &Sheet{title: r.Title, in: ruler{r.Imperial}}
	long, wide := r.Length.Millimetres(), r.Width.Millimetres()
	scale := scaleFor(func(n float64) bool { return long/n <= 260 || wide/n < 50 })
	s.width = math.Max(190, long/scale+2*edge+12)
	y := s.paragraph(edge+4, r.Title, large, true)
	for _, text := range append([]string{fmt.Sprintf("%s of cloth %s wide, drawn 1 : %v. The double arrow is the warp; numbers are the order of cutting.",
		s.in.roll(r.Length), s.in.say(r.Width), scale)}, r.Notes...) {
		y = s.paragraph(y, text, medium, false)
	}
	d := &rollDrawing{Sheet: s, scale: scale, left: edge + 6, top: y + 5, wide: wide / scale}
	d.ruler(long)
	d.box(areaCloth, canvas.Point{}, canvas.Point{X: r.Length, Y: r.Width})
	if r.Offcut != (Zone{}) {
		d.offcut(r.Offcut)
	}
	for i := range r.Pieces {
		d.piece(&r.Pieces[i], r.Pieces)
	}
	for _, z := range r.Flaws {
		d.flaw(z, r.Pieces)
	}
	d.list(&r)
	s.desc = fmt.Sprintf("%d pieces on %s of cloth %s wide, drawn 1 : %v.", len(r.Pieces), s.in.roll(r.Length), s.in.say(r.Width), scale)
	return s, nil
}

func (r *Roll) check() error {
	for _, q := range []struct {
		field string
		l     units.Length
	}{{"Width", r.Width}, {"Length", r.Length}} {
		if !(q.l >= 10*units.Millimetre && q.l <= 100*units.Metre) {
			return refuse(q.field, q.l, "from 10 mm to 100 m")
		}
	}
	if n := len(r.Pieces) + len(r.Flaws); n > 2000 {
		return refuse("Pieces", fmt.Sprint(n, " with the flaws"), "at most 2000")
	}
	const out = 0.1 * units.Millimetre
	on := func(p canvas.Point) bool {
		return p.X >= -out && p.X <= r.Length+out && p.Y >= -out && p.Y <= r.Width+out
	}
	for i, p := range r.Pieces {
		field := fmt.Sprintf("Pieces[%d].Outline", i)
		if err := checkOutline(field, p.Outline); err != nil {
			return err
		}
		for _, q := range p.Outline {
			if !on(q) {
				return refuse(field, fmt.Sprintf("a point at %.4v, %.4v", q.X, q.Y), fmt.Sprintf("points on the roll, %.4v by %.4v", r.Length, r.Width))
			}
		}
	}
	zones := r.Flaws
	if r.Offcut != (Zone{}) {
		zones = append(zones[:len(zones):len(zones)], r.Offcut)
	}
	for i, z := range zones {
		if !on(z.From) || !on(z.To) || !(z.From.X < z.To.X) || !(z.From.Y < z.To.Y) {
			field := fmt.Sprintf("Flaws[%d]", i)
			if i == len(r.Flaws) {
				field = "Offcut"
			}
			return refuse(field, fmt.Sprintf("from %.4v, %.4v to %.4v, %.4v", z.From.X, z.From.Y, z.To.X, z.To.Y), "a rectangle on the roll, From before To")
		}
	}
	return nil
}

type rollDrawing struct {
	*Sheet
	scale           float64
	left, top, wide float64 // of the cloth on the page
}

func (d *rollDrawing) at(p canvas.Point) svg.Point {
	return svg.Point{X: d.left + p.X.Millimetres()/d.scale, Y: d.top + d.wide - p.Y.Millimetres()/d.scale}
}

func (d *rollDrawing) box(s style, a, b canvas.Point) {
	d.stroke(s, true, d.at(a), d.at(canvas.Point{X: b.X, Y: a.Y}), d.at(b), d.at(canvas.Point{X: a.X, Y: b.Y}))
}

// ruler is a scale along the lower selvedge, and the direction of the warp.
func (d *rollDrawing) ruler(long float64) {
	steps, unit, name := []float64{100, 200, 500, 1000, 2000, 5000}, 1000.0, "m" // mm of cloth
	if d.in.inches {
		unit, name = 304.8, "ft"
		steps = []float64{0.5 * unit, 1 * unit, 2 * unit, 5 * unit, 10 * unit, 20 * unit}
	}
	step := 0.0
	for _, k := range steps {
		if step = k; k/d.scale >= 14 {
			break
		}
	}
	y := d.top + d.wide + 2
	d.stroke(thin, false, svg.Point{X: d.left, Y: y}, svg.Point{X: d.left + long/d.scale, Y: y})
	for i := 0.0; i*step <= long*(1+1e-9); i++ {
		x := d.left + i*step/d.scale
		d.stroke(thin, false, svg.Point{X: x, Y: y}, svg.Point{X: x, Y: y + 2})
		text := fmt.Sprintf("%.1f", i*step/unit)
		if d.in.inches {
			text = strings.TrimSuffix(text, ".0")
		}
		if i == 0 {
			text = "0 " + name
		}
		d.word(x, y+5.5, text, small, svg.Centre, false)
	}
	a, b := svg.Point{X: d.left, Y: d.top - 3.5}, svg.Point{X: d.left + 24, Y: d.top - 3.5}
	d.arrows(thin, a, b, true)
	d.word(b.X+3, b.Y+1, "warp; selvedges above and below", small, svg.Left, false)
}

// piece has its number inside or, where the cloth is too narrow for that, beside it.
func (d *rollDrawing) piece(p *RollPiece, all []RollPiece) {
	ring := make([]svg.Point, len(p.Outline))
	bare := make([]plane.Point, len(p.Outline))
	for i, q := range p.Outline {
		ring[i] = d.at(q)
		bare[i] = plane.Point(ring[i])
	}
	d.stroke(areaPiece, true, ring...)
	at, room := inmost(bare)
	size := math.Max(1.8, math.Min(large, 1.1*room))
	number := fmt.Sprint(p.Order)
	if most := 1.7 * room / svg.TextWidth(number, 1); size > most {
		size = math.Max(1.8, most)
	}
	name := size > medium && p.Name != ""
	above := at.Y + 0.06*size - 0.6*small // of the number's foot, so that both together lie in the middle
	if name {
		// The name below the number, where it fits between the sides.
		name = free(bare, at.X, above+0.6*size+small, svg.TextWidth(p.Name, small), small)
	}
	y := at.Y + 0.36*size
	if width := svg.TextWidth(number, size); !name && d.hits([]RollPiece{*p}, at.X, y, width, 0.72*size) { // digits are so tall
		half := width/2 + 1
		for _, to := range []plane.Point{{X: at.X + room + half, Y: y}, {X: at.X - room - half, Y: y}, {X: at.X, Y: at.Y - room - 1}, {X: at.X, Y: at.Y + room + size + 1}} {
			if d.clear(all, to.X, to.Y, width, size) {
				at.X, y = to.X, to.Y
				break
			}
		}
	}
	if name {
		y = above
		d.word(at.X, above+0.6*size+small, p.Name, small, svg.Centre, false)
	}
	d.word(at.X, y, number, size, svg.Centre, true)
}

// free says that a centred line of text lies within a ring.
func free(ring []plane.Point, x, base, width, size float64) bool {
	if !plane.Contains(ring, plane.Point{X: x, Y: base}) {
		return false
	}
	for i, a := range ring {
		if crosses(a, ring[(i+1)%len(ring)], x-width/2-1, base-size-0.3, width+2, size+1) {
			return false
		}
	}
	return true
}

// hits says that a centred line of text crosses the outline of a piece.
func (d *rollDrawing) hits(pieces []RollPiece, x, base, width, size float64) bool {
	return slices.ContainsFunc(pieces, func(p RollPiece) bool {
		for i, a := range p.Outline {
			if crosses(plane.Point(d.at(a)), plane.Point(d.at(p.Outline[(i+1)%len(p.Outline)])), x-width/2, base-size, width, size) {
				return true
			}
		}
		return false
	})
}

// clear says that a centred line of text lies on the cloth beside all pieces.
func (d *rollDrawing) clear(pieces []RollPiece, x, base, width, size float64) bool {
	return x-width/2 > d.left && base-size > d.top && base < d.top+d.wide && !d.hits(pieces, x, base, width, size) &&
		!slices.ContainsFunc(pieces, func(p RollPiece) bool {
			ring := make([]plane.Point, len(p.Outline))
			for i, q := range p.Outline {
				ring[i] = plane.Point(d.at(q))
			}
			return plane.Contains(ring, plane.Point{X: x, Y: base})
		})
}

// flaw is hatched, with its name on the side where no piece begins.
func (d *rollDrawing) flaw(z Zone, pieces []RollPiece) {
	d.box(areaFlaw, z.From, z.To)
	a, b := d.at(z.From), d.at(z.To)
	lo, hi := svg.Point{X: a.X, Y: b.Y}, svg.Point{X: b.X, Y: a.Y}
	w, h := hi.X-lo.X, hi.Y-lo.Y
	step := math.Max(2, (w+h)/200)
	for t := step; t < w+h; t += step {
		p := svg.Point{X: lo.X + math.Min(t, w), Y: lo.Y + math.Max(0, t-w)}
		q := svg.Point{X: lo.X + math.Max(0, t-h), Y: lo.Y + math.Min(t, h)}
		d.stroke(thin, false, p, q)
	}
	name := z.Name
	if name == "" {
		name = "flaw"
	}
	x, y, below := (lo.X+hi.X)/2, lo.Y-1, hi.Y+small+0.5
	hit := func(base float64) bool { return d.hits(pieces, x, base, svg.TextWidth(name, small), small) }
	if y-small < d.top || hit(y) && below < d.top+d.wide && !hit(below) {
		y = below
	}
	d.word(x, y, name, small, svg.Centre, false)
}

func (d *rollDrawing) offcut(z Zone) {
	d.box(sewLine, z.From, z.To)
	a, b := d.at(z.From), d.at(z.To)
	text := d.in.size(z.To.X-z.From.X, z.To.Y-z.From.Y)
	if z.Name != "" {
		text = z.Name + ": " + text
	} else {
		text = "left over: " + text
	}
	w, h := b.X-a.X, a.Y-b.Y
	y := (a.Y + b.Y) / 2
	lines := svg.Wrap(text, small, math.Max(8, w-2))
	if float64(len(lines))*1.3*small > h {
		lines = nil
	}
	y -= 1.3 * small * float64(len(lines)-1) / 2
	for i, l := range lines {
		d.word((a.X+b.X)/2, y+1.3*small*float64(i)+0.35*small, l, small, svg.Centre, false)
	}
}

// list is the order of cutting, in columns as wide as the sheet allows.
func (d *rollDrawing) list(r *Roll) {
	y := d.top + d.wide + 16
	const column = 88.0
	columns := max(1, int((d.width-2*edge)/column))
	rows := (len(r.Pieces) + columns - 1) / columns
	y = d.paragraph(y, "Order of cutting: name, size of the rectangle round the piece, and where its corner nearest to the start lies "+
		"along the roll and up from the lower selvedge, in "+d.in.name("mm"), small, false) - 2
	order := sortedBy(r.Pieces, func(p *RollPiece) float64 { return float64(p.Order) })
	foot := y
	line := 0
	for k, p := range order {
		if k%max(1, rows) == 0 {
			line = 0
		}
		x := edge + column*float64(k/max(1, rows))
		lo, hi := extent(p.Outline)
		place := fmt.Sprintf("%s × %s at %s, %s", d.in.bare((hi.X - lo.X).Millimetres()), d.in.bare((hi.Y - lo.Y).Millimetres()), d.in.bare(lo.X.Millimetres()), d.in.bare(lo.Y.Millimetres()))
		names := svg.Wrap(p.Name, small, column-14)
		if len(names) == 0 {
			names = []string{""}
		}
		// Name and place on one line where they fit.
		last := names[len(names)-1]
		if svg.TextWidth(last+": "+place, small) <= column-14 {
			names[len(names)-1] = strings.TrimPrefix(last+": "+place, ": ")
		} else {
			names = append(names, place)
		}
		for i, l := range names {
			at := y + 1.35*small*float64(line+1)
			if i == 0 {
				d.word(x+7, at, fmt.Sprint(p.Order), small, svg.Right, true)
			}
			d.word(x+9, at, l, small, svg.Left, false)
			foot = math.Max(foot, at)
			line++
		}
	}
	d.height = foot + edge
}
