package pattern

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// Overview draws pieces small, all to one scale, side by side on a page of a width:
// cut, sew and patch lines, fittings, the grain, name, number and the size of the rectangle round each.
func Overview(title string, pieces []canvas.Piece, width units.Length) (*Sheet, error) {
	if !(width >= 150*units.Millimetre && width <= 2*units.Metre) {
		return nil, refuse("width", width, "from 150 mm to 2 m")
	}
	if len(pieces) == 0 || len(pieces) > 1000 {
		return nil, refuse("pieces", len(pieces), "1 to 1000")
	}
	room := width.Millimetres() - 2*edge
	widest := 0.0
	for i := range pieces {
		if err := checkPiece(&pieces[i]); err != nil {
			return nil, err
		}
		lo, hi := extent(pieces[i].Cut)
		widest = math.Max(widest, math.Max((hi.X-lo.X).Millimetres(), 0.6*(hi.Y-lo.Y).Millimetres()))
	}
	scale := scaleFor(func(n float64) bool { return widest/n <= 0.6*room })
	s := &Sheet{title: title, width: width.Millimetres()}
	y := s.paragraph(edge+4, title, large, true)
	arrow := "the double arrow lies along the warp"
	if slices.ContainsFunc(pieces, func(p canvas.Piece) bool { return oneWay(&p) }) {
		arrow = "arrows lie along the warp, single ones point away from the free end of the roll"
	}
	y = s.paragraph(y, fmt.Sprintf("Drawn 1 : %v, not to be cut by. Sizes in %s over the cut line. Full lines are cut, dashes sewn or folded, "+
		"dots show where patches go; %s.", scale, ruler{pieces[0].Imperial}.name("mm"), arrow), small, false) + 4
	x, row := 0.0, 0.0
	order := sortedBy(pieces, func(p *canvas.Piece) float64 {
		lo, hi := extent(p.Cut)
		return -math.Round((hi.Y - lo.Y).Millimetres()) // the highest first
	})
	for i := range order {
		b := overviewOf(&order[i], scale)
		if x > 0 && x+b.width > room {
			x, y, row = 0, y+row+6, 0
		}
		s.add(b, edge+x, y)
		x += b.width + 8
		row = math.Max(row, b.height)
	}
	s.height = y + row + edge
	s.desc = fmt.Sprintf("%d pieces, drawn 1 : %v.", len(pieces), scale)
	return s, nil
}

// overviewOf is one piece with its sizes and its name below.
func overviewOf(p *canvas.Piece, scale float64) block {
	lo, hi := extent(p.Cut)
	s := &Sheet{} // to draw on
	at := func(q canvas.Point) svg.Point {
		return svg.Point{X: (q.X - lo.X).Millimetres() / scale, Y: (hi.Y - q.Y).Millimetres() / scale}
	}
	s.small(p, at)
	in := ruler{p.Imperial}
	w, h := (hi.X - lo.X).Millimetres(), (hi.Y - lo.Y).Millimetres()
	wide, high := w/scale, h/scale
	// Sizes below and to the right.
	s.measure(svg.Point{Y: high + 3}, svg.Point{X: wide, Y: high + 3})
	middle := wide / 2
	if in.inches { // a fraction may be longer than a small piece
		middle = math.Max(middle, svg.TextWidth(in.bare(w), small)/2)
	}
	s.word(middle, high+3+1.3*small, in.bare(w), small, svg.Centre, false)
	const beside = 5.2 // from the piece to the number, clear of the arrows
	s.measure(svg.Point{X: wide + 3, Y: 0}, svg.Point{X: wide + 3, Y: high})
	text := in.bare(h)
	s.word(wide+beside, high/2+0.35*small, text, small, svg.Left, false)
	b := block{width: math.Max(wide+beside+svg.TextWidth(text, small), 34), height: high + 3 + 1.4*small}
	names := svg.Wrap(p.Name, small, b.width)
	for i, l := range append(names, count(p)) {
		b.height += 1.3 * small
		s.word(0, b.height, l, small, svg.Left, i < len(names))
	}
	b.marks, b.words = s.marks, s.words
	return b
}

// small draws the lines of a piece, placed and scaled by at.
func (s *Sheet) small(p *canvas.Piece, at func(canvas.Point) svg.Point) {
	line := func(look style, closed bool, points []canvas.Point) {
		var out []svg.Point
		for i, q := range points {
			// What is closer than a line is thick adds nothing.
			if a := at(q); i == 0 || i+1 == len(points) || math.Hypot(a.X-out[len(out)-1].X, a.Y-out[len(out)-1].Y) > 0.2 {
				out = append(out, a)
			}
		}
		s.stroke(look, closed, out...)
	}
	line(areaPiece, true, p.Cut)
	for _, l := range p.Sew {
		line(sewSmall, false, l)
	}
	for _, l := range p.Patches {
		line(patchLine, false, l)
	}
	for _, h := range p.Holes {
		line(areaFlaw, true, h.Line)
		if len(h.Slit) > 1 {
			line(slitLine, false, h.Slit)
		}
	}
	for _, d := range p.Darts {
		line(thin, false, []canvas.Point{d.Left, d.Tip, d.Right})
	}
	for _, m := range p.Marks {
		line(thin, false, []canvas.Point{m.At, m.To})
	}
	for _, f := range p.Fittings {
		if len(f.Strap) > 1 {
			line(strapSmall, false, f.Strap)
		} else {
			s.ring(thin, at(f.At), 0.8)
		}
	}
	s.warp(p, at)
}

// warp is an arrow where there is most room, clear of holes.
func (s *Sheet) warp(p *canvas.Piece, at func(canvas.Point) svg.Point) {
	ring := make([]plane.Point, 0, len(p.Cut))
	for _, q := range p.Cut {
		ring = append(ring, plane.Point(at(q)))
	}
	thinned := make([]plane.Point, 0, len(ring))
	for _, i := range plane.ThinRing(ring, 0.05) {
		thinned = append(thinned, ring[i])
	}
	if len(thinned) < 3 {
		return
	}
	middle, room := inmost(thinned)
	for _, h := range p.Holes { // beside a hole in the middle
		lo, hi := extent(h.Line)
		a, b := at(lo), at(hi)
		if middle.X > a.X-6 && middle.X < b.X+6 && middle.Y > b.Y-3 && middle.Y < a.Y+3 {
			middle.Y, room = a.Y+3, math.Min(room, room/2)
		}
	}
	sin, cos := math.Sincos(float64(p.Grain))
	half := plane.Point{X: cos, Y: -sin}.Times(math.Min(9, 0.7*room))
	if half.Norm() < 1 || !plane.Contains(thinned, middle.Add(half)) || !plane.Contains(thinned, middle.Sub(half)) {
		return
	}
	s.arrows(thin, svg.Point(middle.Sub(half)), svg.Point(middle.Add(half)), !oneWay(p))
}

// measure is a dimension line.
func (s *Sheet) measure(a, b svg.Point) {
	s.arrows(thin, a, b, true)
	u := plane.Point{X: b.X - a.X, Y: b.Y - a.Y}
	if u.Norm() == 0 {
		return
	}
	side := u.Unit().Right().Times(1.2)
	for _, p := range []svg.Point{a, b} {
		s.stroke(thin, false, svg.Point(plane.Point(p).Add(side)), svg.Point(plane.Point(p).Sub(side)))
	}
}

func (s *Sheet) ring(look style, at svg.Point, radius float64) {
	var out []svg.Point
	for i := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
		out = append(out, svg.Point{X: at.X + radius*cos, Y: at.Y + radius*sin})
	}
	s.stroke(look, true, out...)
}

// Stack puts drawings below one another on one sheet, under the title of the first.
func Stack(parts ...*Sheet) (*Sheet, error) {
	if len(parts) == 0 || len(parts) > 100 {
		return nil, refuse("parts", len(parts), "1 to 100")
	}
	for i, p := range parts {
		if p == nil {
			return nil, refuse(fmt.Sprintf("parts[%d]", i), "nil", "a sheet")
		}
	}
	out := &Sheet{title: parts[0].title}
	for i, p := range parts {
		if i > 0 {
			out.desc += " "
		}
		out.desc += p.desc
		out.add(block{marks: p.marks, words: p.words}, 0, out.height)
		out.width = math.Max(out.width, p.width)
		out.height += p.height
	}
	return out, nil
}
