package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Piece is a panel, a patch or a facing as it is cut: the lines on the cloth.
type Piece struct {
	Name               string
	Quantity, Mirrored int
	Sew                [][]Point // finished line, edge by edge, each with both ends; then those of holes that have a Finish
	Edges              []string  // name and finish of each
	Cut                []Point   // closed line, anticlockwise
	Holes              []HoleLine
	Marks              []Mark
	Patches            [][]Point // where patches are sewn on: their edges on the piece, those along its own edge left out
	Darts              []DartLine
	Fittings           []Fitting
	Clips              [][2]Point // cuts into the allowance of curved edges, from the edge inwards
	Grain              units.Angle
	Notes              []string
	// Lie and Flip are how the piece may lie on a roll: as the cloth allows.
	Lie  Lie
	Flip bool
	// Match is that of the panel, with its point where it lies on the cloth as cut.
	Match *Match
	// Imperial, which is that of the cover, has its sizes written in inches; lines for a
	// cutting machine stay in millimetres.
	Imperial bool `json:",omitempty"`
}

// HoleLine is the edge of a hole.
type HoleLine struct {
	Name string
	Line []Point // closed
	// Slit is the line from the hole to the edge where the panel is cut open, if it is.
	Slit []Point
}

// Mark is a match mark: At lies on the sew line, To outside it on the way to the cut
// line, on that where it is nearer than 8 mm, or beyond it where there is no allowance.
type Mark struct {
	Seam   string
	Number int // the same on both sides of the seam, and of no other seam of the cover
	At, To Point
}

// Area returns the area within the cut line.
func (p Piece) Area() units.Area { return units.Area(plane.Area(bareAll(p.Cut))) }

func bareAll(line []Point) []plane.Point {
	out := make([]plane.Point, len(line))
	for i, p := range line {
		out[i] = p.bare()
	}
	return out
}

// Pieces returns what is to be cut for a cover: each panel, its patches, and the
// strips that face its curved edges. Shrinkage and stretch come first, allowances
// after; seams are checked and marked in the finished state.
//
// Patches are cut at their line, with no turn added, and say so: the patch of a hole all
// round, that of a corner on its inner side. Along the edges of the panel it has their
// allowance, and is turned with it.
//
// An edge that is too curved to be turned in this cloth is refused with an error
// that wraps [ErrFold] and tells what can be done instead.
func (v Cover) Pieces(t Cloth) ([]Piece, error) {
	panels, err := v.piecesOf(t)
	if err != nil {
		return nil, err
	}
	return slices.Concat(panels...), nil
}

// piecesOf are the pieces of each panel, its own first.
func (v Cover) piecesOf(t Cloth) ([][]Piece, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	l, err := v.lay()
	if err != nil {
		return nil, err
	}
	var pieces [][]Piece
	for i := range v.Panels {
		p, edges := &v.Panels[i], l.panels[i]
		if err := t.foldable(p, edges); err != nil {
			return nil, err
		}
		piece, err := t.piece(p, edges, v.Imperial)
		if err != nil {
			return nil, err
		}
		piece.Notes = append(slices.Clone(v.Cautions), piece.Notes...)
		v.mark(&piece, l, i, t.cut(p.Grain))
		more, err := t.patches(p, edges, v.Imperial)
		if err != nil {
			return nil, err
		}
		own := append([]Piece{piece}, more...)
		for k := range own {
			own[k].Lie, own[k].Flip = t.Lie, t.Flip
		}
		if m := p.Match; m != nil {
			at := *m
			at.At = wrap(t.cut(p.Grain)(m.At.bare()))
			own[0].Lie, own[0].Flip, own[0].Match = OneWay, false, &at
		}
		pieces = append(pieces, own)
	}
	return pieces, nil
}

// piece cuts one panel.
func (t Cloth) piece(p *Panel, edges []laid, inches bool) (Piece, error) {
	cut := t.cut(p.Grain)
	out := Piece{Name: p.Name, Quantity: p.Quantity, Mirrored: p.Mirrored, Grain: p.Grain, Notes: slices.Clone(p.Notes), Imperial: inches}
	if out.Quantity == 0 {
		out.Quantity = 1
	}
	onCloth := make([]laid, len(edges))
	for i, e := range edges {
		line := each(e.line, cut)
		onCloth[i] = laid{line, plane.Length(line)}
		out.Sew = append(out.Sew, wrapAll(line))
		out.Edges = append(out.Edges, p.Edges[i].label(t.Thickness, inches))
	}
	for i := range p.Edges {
		if f := p.Edges[i].Finish; f.Clipped {
			out.Clips = append(out.Clips, clips(curvatures(p.Edges[i].Course, onCloth[i].line), onCloth[i], float64(f.allowance(t.Thickness)))...)
		}
	}
	ring, err := cutLine(p, onCloth, t.Thickness)
	if err != nil {
		return Piece{}, err
	}
	out.Cut = wrapAll(ring)
	for i := range p.Holes {
		h := &p.Holes[i]
		line := each(h.line(-float64(h.Finish.allowance(t.Thickness))), cut)
		if h.Finish.Kind != Raw {
			e := h.edge(cut)
			out.Sew = append(out.Sew, wrapAll(e.line))
			out.Edges = append(out.Edges, (&Edge{Name: h.Name, Finish: h.Finish}).label(t.Thickness, inches))
			if h.Finish.Clipped {
				out.Clips = append(out.Clips, clips(h.curvature(), e, float64(h.Finish.allowance(t.Thickness)))...)
			}
		}
		hole := HoleLine{Name: h.Name, Line: wrapAll(line)}
		if h.Split {
			// From the edge of the hole, across the finished edge, to the cut line.
			begin, finished := h.slit(p, edges)
			begin, finished = cut(begin), cut(finished)
			end := finished
			if far := nearest(ring, finished, true); far.Sub(finished).Norm() > tolerance {
				end = far
			}
			hole.Slit = wrapAll(plane.Clean([]plane.Point{begin, finished, end}, 1e-9))
		}
		out.Holes = append(out.Holes, hole)
		rings, _ := h.patches(p, edges)
		for _, ring := range rings {
			out.Patches = append(out.Patches, wrapAll(each(append(ring, ring[0]), cut)))
		}
	}
	for i := range p.Patches {
		for _, q := range p.Patches[i].panels(p, edges) {
			layer, err := q.lay()
			if err != nil {
				return Piece{}, err
			}
			out.Patches = append(out.Patches, wrapAll(each(layer[1].line, cut))) // the inner side
		}
	}
	for i := range p.Darts {
		d, err := p.dart(i, edges, cut)
		if err != nil {
			return Piece{}, err
		}
		out.Darts = append(out.Darts, d)
	}
	for _, f := range p.Fittings {
		out.Fittings = append(out.Fittings, f.onCloth(cut))
	}
	return out, nil
}

// clips are equally far apart, by the sharpest part of the curve.
func clips(k [2]float64, e laid, allowance float64) (out [][2]Point) {
	sharpest := math.Max(k[0], -k[1])
	if sharpest == 0 || allowance <= 0 {
		return nil
	}
	n := int(math.Ceil(e.length / clipSpacing(1/sharpest, clipError)))
	n = min(n, 10000)
	for i := range n { // half a part from the ends, where the next edge goes on
		p, right := along(e.line, (float64(i)+0.5)/float64(n))
		out = append(out, [2]Point{wrap(p.Add(right.Times(allowance))), wrap(p.Add(right.Times(allowance / 5)))})
	}
	return out
}

func each(line []plane.Point, f func(plane.Point) plane.Point) []plane.Point {
	out := make([]plane.Point, len(line))
	for i, p := range line {
		out[i] = f(p)
	}
	return out
}

// label is what is written beside an edge.
func (e *Edge) label(thickness units.Length, inches bool) string {
	s := e.Name
	if e.Finish.Kind == Raw {
		return s
	}
	if s != "" {
		s += ": "
	}
	f := e.Finish
	if f.Strip {
		s += "faced"
		if f.Turn > 0 {
			s += ", turn " + written(f.Turn, inches)
		}
		return s
	}
	s += string(f.Kind)
	switch a := f.allowance(thickness); {
	case a == 0:
	case f.Kind == DoubleHem, f.Kind == FelledOver, f.Kind == French, f.Kind == Lapped && f.Turn > 0:
		// Two folds: the sum alone would be taken for the width of the hem.
		if inches {
			s += " " + imperial.Tape(a-f.Turn) + " + " + imperial.Tape(f.Turn)
		} else {
			s += fmt.Sprintf(" %v + %v mm", millimetres(a-f.Turn), millimetres(f.Turn))
		}
	default:
		s += " " + written(a, inches)
	}
	return s
}

// written is a length in the words of a cover: as read off a rule, or in inches.
func written(l units.Length, inches bool) string {
	if inches {
		return imperial.Tape(l)
	}
	return fmt.Sprintf("%v mm", millimetres(l))
}

// millimetres are what is read off a rule: to half a millimetre.
func millimetres(l units.Length) float64 { return math.Round(2*l.Millimetres()) / 2 }

// mark puts the match marks of all seams on a piece.
func (v Cover) mark(piece *Piece, l *layout, panel int, cut func(plane.Point) plane.Point) {
	const tick = 8e-3
	before := 0 // marks of the seams before this one
	for i := range v.Seams {
		s := &v.Seams[i]
		parts := s.marks(&l.seams[i][0], &l.seams[i][1])
		for _, r := range l.seams[i] {
			if r.panel != panel || r.times > 1 {
				continue
			}
			for n, part := range parts {
				at, out := r.at(l.panels[panel], part)
				a := cut(at)
				b := piece.withinCut(a, cut(at.Add(out.Times(tick))))
				piece.Marks = append(piece.Marks, Mark{Seam: s.Name, Number: before + n + 1, At: wrap(a), To: wrap(b)})
			}
		}
		before += len(parts)
	}
}

// withinCut ends a tick from a place on the finished line at the cut line, unless
// nothing could be seen of it then.
func (p *Piece) withinCut(from, to plane.Point) plane.Point {
	const least = 1e-3
	ring := append(bareAll(p.Cut), p.Cut[0].bare())
	if at, end := firstOn(ring, from, to); at >= 0 && end.Sub(from).Norm() > least {
		return end
	}
	return to
}

// ownLip is written on the halves of a patch.
const ownLip = "sew to its own lip of the slit only"

// patches are the pieces that are sewn onto a panel.
func (t Cloth) patches(p *Panel, edges []laid, inches bool) ([]Piece, error) {
	var out []Piece
	cut := t.cut(p.Grain)
	for i := range p.Holes {
		h := &p.Holes[i]
		rings, holes := h.patches(p, edges)
		for k, ring := range rings {
			name, notes := fmt.Sprintf("%s, patch of %s", p.Name, h.Name), []string{"no turn is added: hot-cut it"}
			if len(rings) > 1 {
				name += fmt.Sprintf(", half %d", k+1)
				notes = append(notes, ownLip)
			}
			piece := Piece{Name: name, Quantity: max(1, p.Quantity), Mirrored: p.Mirrored, Grain: p.Grain, Cut: wrapAll(each(ring, cut)), Notes: notes, Imperial: inches}
			if len(holes[k]) > 0 {
				piece.Holes = []HoleLine{{Name: h.Name, Line: wrapAll(each(holes[k], cut))}}
			}
			out = append(out, piece)
		}
	}
	for i := range p.Patches {
		for _, q := range p.Patches[i].panels(p, edges) {
			e, err := q.lay()
			if err != nil {
				return nil, err
			}
			piece, err := t.piece(&q, e, inches)
			if err != nil {
				return nil, err
			}
			piece.Notes = append(piece.Notes, "inner side: no turn is added, hot-cut it")
			out = append(out, piece)
		}
	}
	for i := range p.Edges {
		e := &p.Edges[i]
		if !e.Finish.Strip {
			continue
		}
		piece, err := t.facing(p, edges, i, inches)
		if err != nil {
			return nil, within(fmt.Sprintf("Edges[%d] of %q", i, p.Name), err)
		}
		out = append(out, piece)
	}
	return out, nil
}
