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
	Flaws         []canvas.Flaw
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

// RollOf is what a plan cuts from a roll of the lay: pieces in the order of cutting,
// those that are mirrored or lie with the wrong side up marked as such, flaws, and what is
// left at the end. It is as long as what is bought; set Imperial for inches.
//
// A use of a roll that the lay does not have has no width, which [Roll.Draw] refuses.
func RollOf(lay canvas.Lay, use canvas.RollUse) Roll {
	r := Roll{Title: use.Name, Length: use.Bought}
	if use.Roll >= 0 && use.Roll < len(lay.Rolls) {
		r.Width, r.Flaws = lay.Rolls[use.Roll].Width, lay.Rolls[use.Roll].Flaws
	}
	for i, q := range use.Laid {
		name := q.Name
		if q.Mirrored {
			name += ", mirrored"
		}
		if q.Flipped {
			name += ", wrong side up"
		}
		r.Pieces = append(r.Pieces, RollPiece{Name: name, Order: i + 1, Outline: q.Cut})
	}
	if rest := use.Rest; rest != (canvas.Rest{}) {
		r.Offcut = Zone{From: rest.From, To: canvas.Point{X: rest.From.X + rest.Length, Y: rest.From.Y + rest.Width}}
	}
	return r
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
// 0.1 mm; whether pieces lie on one another is for whoever placed them. Of a flaw
// that part is drawn which lies on the roll. There may be as many pieces as a
// [canvas.Lay] has, 10,000, flaws included.
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
	d := &rollDrawing{Sheet: s, scale: scale, left: edge + 6, top: y + 5, wide: wide / scale, right: edge + 6 + long/scale}
	d.ruler(long)
	d.box(areaCloth, canvas.Point{}, canvas.Point{X: r.Length, Y: r.Width})
	if r.Offcut != (Zone{}) {
		d.offcut(r.Offcut)
	}
	for i := range r.Pieces {
		d.pieces = append(d.pieces, d.onPage(r.Pieces[i].Outline))
	}
	for i := range r.Pieces {
		d.piece(&r.Pieces[i], d.pieces[i:i+1])
	}
	lines := make([][]canvas.Point, len(r.Flaws))
	for i := range r.Flaws {
		if lines[i] = r.onCloth(r.Flaws[i].Outline); len(lines[i]) >= 3 {
			d.flaws = append(d.flaws, d.onPage(lines[i]))
		}
	}
	for i := range r.Flaws {
		d.flaw(&r.Flaws[i], lines[i])
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
	if n := len(r.Pieces) + len(r.Flaws); n > 10000 {
		return refuse("Pieces", fmt.Sprint(n, " with the flaws"), "at most 10000")
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
	for i, f := range r.Flaws {
		field := fmt.Sprintf("Flaws[%d].Outline", i)
		if n := len(f.Outline); n < 3 || n > 20000 {
			return refuse(field, fmt.Sprint(n, " points"), "from 3 to 20000")
		}
		for _, q := range f.Outline {
			if !(q.X.Abs() <= 1000*units.Metre && q.Y.Abs() <= 1000*units.Metre) {
				return refuse(field, fmt.Sprintf("a point at %v, %v", q.X, q.Y), "points within 1000 m")
			}
		}
	}
	if z := r.Offcut; z != (Zone{}) && !(on(z.From) && on(z.To) && z.From.X < z.To.X && z.From.Y < z.To.Y) {
		return refuse("Offcut", fmt.Sprintf("from %.4v, %.4v to %.4v, %.4v", z.From.X, z.From.Y, z.To.X, z.To.Y), "a rectangle on the roll, From before To")
	}
	return nil
}

type rollDrawing struct {
	*Sheet
	scale           float64
	left, top, wide float64 // of the cloth on the page
	right, foot     float64 // its far end, and that of what is written under the scale
	pieces, flaws   []rollRing
}

// rollRing is an outline on the page, and the rectangle round it.
type rollRing struct {
	ring   []plane.Point
	lo, hi plane.Point
}

func (d *rollDrawing) onPage(line []canvas.Point) rollRing {
	r := rollRing{ring: make([]plane.Point, len(line))}
	for i, q := range line {
		r.ring[i] = plane.Point(d.at(q))
	}
	lo, hi := extent(line)
	r.lo, r.hi = plane.Point(d.at(canvas.Point{X: lo.X, Y: hi.Y})), plane.Point(d.at(canvas.Point{X: hi.X, Y: lo.Y}))
	return r
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
func (d *rollDrawing) piece(p *RollPiece, own []rollRing) {
	bare := own[0].ring
	ring := make([]svg.Point, len(bare))
	for i, q := range bare {
		ring[i] = svg.Point(q)
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
	if width := svg.TextWidth(number, size); !name && hits(own, at.X, y, width, 0.72*size) { // digits are so tall
		if to, ok := d.beside(at, room, width, size); ok {
			if far := to.Sub(at).Norm(); far > room+width/2+1 { // not next to it: a line leads there
				middle := plane.Point{X: to.X, Y: to.Y - 0.36*size}
				u := middle.Sub(at).Unit()
				end := middle.Sub(u.Times(math.Min(width/2/math.Max(math.Abs(u.X), 1e-9), 0.36*size/math.Max(math.Abs(u.Y), 1e-9)) + 0.4))
				d.stroke(thin, false, svg.Point(at), svg.Point(end))
			}
			at.X, y = to.X, to.Y
		}
	}
	if name {
		y = above
		d.word(at.X, above+0.6*size+small, p.Name, small, svg.Centre, false)
	}
	d.word(at.X, y, number, size, svg.Centre, true)
}

// beside is the place nearest to a piece where a centred line of text is clear of all.
func (d *rollDrawing) beside(at plane.Point, room, width, size float64) (plane.Point, bool) {
	half := width/2 + 1
	try := []plane.Point{{X: at.X + room + half, Y: at.Y + 0.36*size}, {X: at.X - room - half, Y: at.Y + 0.36*size}, {X: at.X, Y: at.Y - room - 1}, {X: at.X, Y: at.Y + room + size + 1}}
	for far := 3.0; far <= 15; far++ { // mm on the sheet
		for k := range 16 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 8)
			try = append(try, plane.Point{X: at.X + (room+far)*cos, Y: at.Y + (room+far)*sin + 0.36*size})
		}
	}
	for _, to := range try {
		if d.clear(to.X, to.Y, width, size) {
			return to, true
		}
	}
	return at, false
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
func hits(pieces []rollRing, x, base, width, size float64) bool {
	for k := range pieces {
		p := &pieces[k]
		if p.lo.X > x+width/2 || p.hi.X < x-width/2 || p.lo.Y > base || p.hi.Y < base-size {
			continue
		}
		if p.crossed(x-width/2, base-size, width, size) {
			return true
		}
	}
	return false
}

// clear says that a centred line of text lies on the cloth beside all pieces.
func (d *rollDrawing) clear(x, base, width, size float64) bool {
	if !(x-width/2 > d.left && base-size > d.top && base < d.top+d.wide) || hits(d.pieces, x, base, width, size) {
		return false
	}
	for k := range d.pieces {
		p := &d.pieces[k]
		if p.lo.X <= x && x <= p.hi.X && p.lo.Y <= base && base <= p.hi.Y && plane.Contains(p.ring, plane.Point{X: x, Y: base}) {
			return false
		}
	}
	return true
}

// onCloth is the part of a flaw that lies on the roll.
func (r *Roll) onCloth(outline []canvas.Point) []canvas.Point {
	ring := make([]plane.Point, len(outline))
	for i, p := range outline {
		ring[i] = plane.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	ring = plane.Clip(ring, plane.Point{X: 1}, 0)
	ring = plane.Clip(ring, plane.Point{X: -1}, float64(r.Length))
	ring = plane.Clip(ring, plane.Point{Y: 1}, 0)
	ring = plane.Clip(ring, plane.Point{Y: -1}, float64(r.Width))
	out := make([]canvas.Point, len(ring))
	for i, p := range ring {
		out[i] = canvas.Point{X: units.Length(p.X), Y: units.Length(p.Y)}
	}
	return out
}

// flaw is hatched, with its name beside it.
func (d *rollDrawing) flaw(f *canvas.Flaw, line []canvas.Point) {
	if len(line) < 3 {
		return
	}
	ring := make([]svg.Point, len(line))
	for i, q := range line {
		ring[i] = d.at(q)
	}
	d.stroke(areaFlaw, true, ring...)
	from, to := extent(line)
	lo, hi := d.at(canvas.Point{X: from.X, Y: to.Y}), d.at(canvas.Point{X: to.X, Y: from.Y})
	w, h := hi.X-lo.X, hi.Y-lo.Y
	step := math.Max(2, (w+h)/200)
	for t := step; t < w+h; t += step {
		sum := lo.X + lo.Y + t // of X and Y along the stroke
		var xs []float64       // where it enters and leaves
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			if u, v := p.X+p.Y-sum, q.X+q.Y-sum; (u < 0) != (v < 0) {
				xs = append(xs, p.X+float64(u/(u-v)*(q.X-p.X)))
			}
		}
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			d.stroke(thin, false, svg.Point{X: xs[k+1], Y: sum - xs[k+1]}, svg.Point{X: xs[k], Y: sum - xs[k]})
		}
	}
	name := f.Name
	if name == "" {
		name = "flaw"
	}
	d.label(name, lo, hi)
}

// label writes the name of a flaw where it is least in the way: above it, below it, on
// either side, or under the scale; never off the sheet.
func (d *rollDrawing) label(name string, lo, hi svg.Point) {
	lines := svg.Wrap(name, small, math.Min(45, d.width-2*edge))
	const space = 1.3 * small
	wide, high := 0.0, space*float64(len(lines))
	for _, l := range lines {
		wide = math.Max(wide, svg.TextWidth(l, small))
	}
	middle := (lo.X + hi.X) / 2
	places := []svg.Point{{X: middle, Y: lo.Y - 0.5 - high}, {X: middle, Y: hi.Y + 0.5}}
	for _, part := range []float64{0.5, 0.25, 0.75, 0.1, 0.9} {
		y := lo.Y + part*(hi.Y-lo.Y) - high/2
		places = append(places, svg.Point{X: hi.X + 1 + wide/2, Y: y}, svg.Point{X: lo.X - 1 - wide/2, Y: y})
	}
	for _, far := range []float64{1, 2} { // in a piece rather than across its edge
		places = append(places, svg.Point{X: middle, Y: lo.Y - high - far*space}, svg.Point{X: middle, Y: hi.Y + far*space})
	}
	if foot := d.top + d.wide; hi.Y > foot-1 { // where it leaves the cloth
		places = append(places, svg.Point{X: middle, Y: foot + 8.5})
	}
	best, at := math.Inf(1), svg.Point{}
	for _, p := range places {
		if wide+2 < d.right-d.left {
			p.X = math.Max(d.left+1+wide/2, math.Min(p.X, d.right-1-wide/2))
		}
		p.X = math.Max(edge/2+wide/2, math.Min(p.X, d.width-edge/2-wide/2))
		if c := d.crowded(p.X-wide/2, p.Y, wide, high); c < best {
			best, at = c, p
		}
		if best == 0 {
			break
		}
	}
	if at.Y > d.top+d.wide {
		d.foot = math.Max(d.foot, at.Y+high)
	}
	for i, l := range lines {
		d.word(at.X, at.Y+space*float64(i+1)-0.3*small, l, small, svg.Centre, false)
	}
}

// crowded says how much words in a rectangle would be in the way, or something in theirs.
func (d *rollDrawing) crowded(x, y, w, h float64) float64 {
	sum, foot := 0.0, d.top+d.wide
	switch {
	case y < d.top: // where the warp is explained
		sum += 50
	case y+h <= foot:
	case y < foot+8: // on the scale
		sum += 100
	default:
		sum += 20
	}
	if x < d.left || x+w > d.right {
		sum += 3
	}
	for k := range d.pieces {
		p := &d.pieces[k]
		if p.lo.X > x+w || p.hi.X < x || p.lo.Y > y+h || p.hi.Y < y {
			continue
		}
		switch {
		case p.crossed(x, y, w, h):
			sum += 25
		case plane.Contains(p.ring, plane.Point{X: x, Y: y}):
			sum += 2
		}
	}
	for _, f := range d.flaws {
		if f.lo.X < x+w && f.hi.X > x && f.lo.Y < y+h && f.hi.Y > y {
			sum += 15
		}
	}
	for _, t := range d.words {
		if tx, ty, tw, th := t.box(); tx < x+w && tx+tw > x && ty < y+h && ty+th > y {
			sum += 30
		}
	}
	return sum
}

// crossed says that the outline enters a rectangle.
func (p *rollRing) crossed(x, y, w, h float64) bool {
	for i, a := range p.ring {
		if crosses(a, p.ring[(i+1)%len(p.ring)], x, y, w, h) {
			return true
		}
	}
	return false
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
	y := math.Max(d.top+d.wide+16, d.foot+small+1)
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
