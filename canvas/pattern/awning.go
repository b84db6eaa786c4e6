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

// AwningPlan draws how an awning is set, as seen from above, on a page 190 mm
// wide: the finished outline with chord, hollow and length of each edge, patches, straps and eyelets,
// the opening and its slit, and at each corner the greatest pull of all cases with
// its direction. The wind in which it is to be struck and the caution are written below.
func AwningPlan(p canvas.AwningPlan) (*Sheet, error) {
	for i, c := range p.Cases {
		for k, q := range c.Corners {
			for _, f := range []units.Force{q.X, q.Y, q.Out, q.Pull} {
				if !(math.Abs(f.Newtons()) <= math.MaxFloat64) {
					return nil, refuse(fmt.Sprintf("Cases[%d].Corners[%d]", i, k), f, "finite forces")
				}
			}
		}
	}
	if w := p.Strike.Wind; !(w >= 0) || math.IsInf(float64(w), 1) {
		return nil, refuse("Strike.Wind", w, "0 or more, and finite")
	}
	pieces, err := canvas.Cover{Panels: []canvas.Panel{p.Panel}}.Pieces(canvas.Cloth{})
	if err != nil {
		return nil, err
	}
	piece := pieces[0]
	lo, hi := piece.Sew[0][0], piece.Sew[0][0]
	for _, l := range piece.Sew {
		a, b := extent(l)
		lo.X, lo.Y, hi.X, hi.Y = min(lo.X, a.X), min(lo.Y, a.Y), max(hi.X, b.X), max(hi.Y, b.Y)
	}
	const width, side, above = 190.0, 34.0, 22.0
	scale := scaleFor(func(n float64) bool {
		return (hi.X-lo.X).Millimetres()/n <= width-2*edge-2*side && (hi.Y-lo.Y).Millimetres()/n <= 180
	})
	s := &Sheet{title: p.Panel.Name, width: width, in: ruler{p.Imperial}}
	y := edge + 4
	y = s.paragraph(y, fmt.Sprintf("%s: how it is set", p.Panel.Name), large, true)
	y = s.paragraph(y, fmt.Sprintf("Seen from above, drawn 1 : %v. Finished sizes in %s. Arrows: the greatest pull at each corner, of all cases.", scale, s.in.name("mm")), small, false)
	top := y + above
	left := width/2 - (hi.X-lo.X).Millimetres()/scale/2
	at := func(q canvas.Point) svg.Point {
		return svg.Point{X: left + (q.X-lo.X).Millimetres()/scale, Y: top + (hi.Y-q.Y).Millimetres()/scale}
	}
	finished := piece
	finished.Cut, finished.Sew = nil, nil
	for _, l := range piece.Sew {
		finished.Cut = append(finished.Cut, l[:len(l)-1]...)
	}
	// A slit ends on the finished edge.
	finished.Holes = append([]canvas.HoleLine(nil), piece.Holes...)
	for i := range finished.Holes {
		if n := len(finished.Holes[i].Slit); n > 2 {
			finished.Holes[i].Slit = finished.Holes[i].Slit[:n-1]
		}
	}
	s.small(&finished, at)
	for i, l := range piece.Sew {
		s.edgeSizes(&p.Panel.Edges[i], l, at)
	}
	for i := range p.Panel.Edges {
		s.pull(&p, i, at)
	}
	for i := range p.Panel.Holes {
		h := &p.Panel.Holes[i]
		a := at(h.At)
		s.word(a.X+6+(h.Width/2+h.Margin).Millimetres()/scale, a.Y+0.35*small, h.Name, small, svg.Left, true)
	}
	y = top + (hi.Y-lo.Y).Millimetres()/scale + above + 8
	for _, text := range p.Cover().Remarks {
		y = s.paragraph(y, strings.ToUpper(text[:1])+text[1:]+".", small, false)
	}
	y = s.paragraph(y, canvas.AwningCaution, small, true)
	s.height = y + edge - small
	s.desc = fmt.Sprintf("An awning of %d corners as it is set, drawn 1 : %v.", len(p.Panel.Edges), scale)
	return s, nil
}

// edgeSizes writes the sizes of an edge outside its middle.
func (s *Sheet) edgeSizes(e *canvas.Edge, l []canvas.Point, at func(canvas.Point) svg.Point) {
	line := make([]plane.Point, len(l))
	for i, q := range l {
		line[i] = plane.Point{X: q.X.Millimetres(), Y: q.Y.Millimetres()}
	}
	chord := line[len(line)-1].Sub(line[0]).Norm()
	a, b := plane.Point(at(l[0])), plane.Point(at(l[len(l)-1]))
	out := b.Sub(a).Unit().Right().Times(-1) // the page is upside down: this is the outside
	p := plane.Point(at(l[len(l)/2])).Add(out.Times(3))
	lines := []string{
		e.Name, "chord " + s.in.bare(chord), "hollow " + s.in.bare((-e.Course.Depth).Millimetres()), "along it " + s.in.bare(plane.Length(line)),
	}
	step := 1.3 * small
	align, top := svg.Centre, p.Y-step*float64(len(lines)-1)/2+0.35*small
	switch {
	case out.Y < -0.7: // above
		top = p.Y - step*float64(len(lines)-1)
	case out.Y > 0.7: // below
		top = p.Y + small
	case out.X > 0:
		align = svg.Left
	default:
		align = svg.Right
	}
	words := make([]word, len(lines))
	for i, text := range lines {
		words[i] = word{svg.Point{X: p.X, Y: top + step*float64(i)}, text, small, align, i == 0}
	}
	meets := func(w word) bool {
		x, y, wide, high := w.box()
		for i := 1; i < len(l); i++ {
			if crosses(plane.Point(at(l[i-1])), plane.Point(at(l[i])), x-1.5, y-1.5, wide+3, high+3) {
				return true
			}
		}
		return false
	}
	for range 40 { // away from an edge that slants
		if !slices.ContainsFunc(words, meets) {
			break
		}
		for i := range words {
			words[i].at.X += 0.5 * out.X
			words[i].at.Y += 0.5 * out.Y
		}
	}
	s.words = append(s.words, words...)
}

// pull is an arrow out of a corner with what it pulls.
func (s *Sheet) pull(p *canvas.AwningPlan, i int, at func(canvas.Point) svg.Point) {
	worst := p.Worst(i)
	u := plane.Point{X: worst.X.Newtons(), Y: -worst.Y.Newtons()}
	if !(u.Norm() > 0) {
		return
	}
	u = u.Unit()
	corner := plane.Point(at(p.Panel.Edges[i].From))
	from, to := corner.Add(u.Times(4)), corner.Add(u.Times(15))
	s.arrows(tick, svg.Point(from), svg.Point(to), false)
	text := s.in.pull(worst.Pull)
	align := svg.Left
	if u.X < 0 {
		align = svg.Right
	}
	end := to.Add(u.Times(2))
	end.X += math.Copysign(1.5, u.X) // clear of the arrow's head
	s.word(end.X, end.Y+0.35*medium, text, medium, align, true)
	lines := []string{fmt.Sprintf("corner %d", i+1)}
	if out := worst.Out.Newtons(); out >= 1 {
		lines = append(lines, s.in.part(worst.Out)+" of it up")
	} else if out <= -1 {
		lines = append(lines, s.in.part(-worst.Out)+" of it down")
	}
	for k, l := range lines {
		s.word(end.X, end.Y+0.35*medium+1.3*small*float64(k+1), l, small, align, false)
	}
}
