package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
)

// facing is the strip that faces an edge. It is sewn right sides together, so that on
// its own right side it is the mirror image of the panel along the edge; mirrored along
// the warp it keeps the panel's grain, and which end of the roll that points to.
func (t Cloth) facing(p *Panel, edges []laid, edge int, inches bool) (Piece, error) {
	f := &p.Edges[edge].Finish
	cut := t.cut(p.Grain)
	onCloth := make([]laid, len(edges))
	for i, e := range edges {
		line := each(e.line, cut)
		onCloth[i] = laid{line, plane.Length(line)}
	}
	panel, err := cutLine(p, onCloth, t.Thickness)
	if err != nil {
		return Piece{}, err
	}
	n := len(edges)
	line := onCloth[edge].line
	before, after := onCloth[(edge+n-1)%n].line, onCloth[(edge+1)%n].line
	strip := faceStrip{panel: panel, line: line, width: float64(f.Width), turn: float64(f.Turn)}
	strip.follow[0] = goesIn(before[len(before)-2], line[0], line[1])
	strip.follow[1] = goesIn(line[len(line)-2], after[0], after[1])
	ring, err := strip.ring()
	if err != nil {
		return Piece{}, err
	}
	sin, cos := math.Sincos(float64(p.Grain))
	warp := plane.Point{X: cos, Y: sin}
	mirrored := func(line []plane.Point) []Point {
		out := each(line, func(q plane.Point) plane.Point { return warp.Times(2 * q.Dot(warp)).Sub(q) })
		slices.Reverse(out)
		return wrapAll(out)
	}
	return Piece{
		Name: fmt.Sprintf("%s, facing of %s", p.Name, p.Edges[edge].Name), Quantity: max(1, p.Quantity), Mirrored: p.Mirrored, Grain: p.Grain,
		Sew: [][]Point{mirrored(line)}, Edges: []string{p.Edges[edge].Name}, Cut: mirrored(ring), Imperial: inches,
		Notes: []string{"faces the edge: right sides together, turned to the inside", "drawn on its own right side, so the other way round than the panel's edge"},
	}, nil
}

// goesIn says that a panel clearly turns inwards at a corner.
func goesIn(a, corner, b plane.Point) bool {
	return corner.Sub(a).Unit().Cross(b.Sub(corner).Unit()) > 0.1
}

// faceStrip is a strip along a line of a panel: turn outside it, width and turn inside.
type faceStrip struct {
	panel, line []plane.Point // the panel's cut line, and the finished edge
	width, turn float64
	// follow is for the two ends: cut as the panel is there, allowances included. An end
	// where the panel does not turn inwards is cut square, with the turn added.
	follow [2]bool
}

// side is the line moved outwards, with its ends, which are lengthened.
func (s *faceStrip) side(by, longer float64) []plane.Point {
	n := len(s.line)
	first, last := s.line[1].Sub(s.line[0]).Unit(), s.line[n-1].Sub(s.line[n-2]).Unit()
	out := []plane.Point{s.line[0].Add(first.Right().Times(by)).Sub(first.Times(longer))}
	out = append(out, beside(s.line, by)...)
	return append(out, s.line[n-1].Add(last.Right().Times(by)).Add(last.Times(longer)))
}

func (s *faceStrip) ring() ([]plane.Point, error) {
	far := 0.0
	for _, q := range s.panel {
		far = max(far, q.Sub(s.line[0]).Norm())
	}
	outer, inner, long := s.side(s.turn, s.turn), s.side(-s.width-s.turn, s.turn), s.side(-s.width-s.turn, 2*far)
	// From a place in the middle of the outer side to both ends.
	k := len(outer) / 2
	middle := outer[k-1].Add(outer[k]).Times(0.5)
	start := 0 // of the panel's cut line, the side on which the middle lies
	for i := range s.panel {
		if near := func(i int) float64 { return plane.Distance(s.panelSide(i), middle) }; near(i) < near(start) {
			start = i
		}
	}
	n := len(s.panel)
	var ends [2][]plane.Point
	last := float64(len(inner) - 1)
	reach := [2]float64{0, last} // of the inner side, in numbers of its points
	for end, step := range [2]int{n - 1, 1} {
		from := (start + end) % n
		path, at := []plane.Point{middle}, -1.0
		for i := range n {
			q := s.panel[(from+i*step)%n]
			meets := plane.Point{}
			if at, meets = firstOn(long, path[len(path)-1], q); at >= 0 {
				path = append(path, meets)
				break
			}
			path = append(path, q)
		}
		switch {
		case s.follow[end] && at >= 0:
			ends[end], reach[end] = path, at
		case end == 0:
			ends[end] = slices.Clone(outer[:k])
			slices.Reverse(ends[end])
			ends[end] = append(ends[end], inner[0])
		default:
			ends[end] = append(slices.Clone(outer[k:]), inner[len(inner)-1])
		}
	}
	slices.Reverse(ends[0])
	ring := append(ends[0], ends[1]...)
	for i := len(inner) - 1; i >= 0; i-- {
		if at := float64(i); at > reach[0] && at < reach[1] {
			ring = append(ring, inner[i])
		}
	}
	ring, ok := plane.Untangle(plane.Clean(ring, 1e-9), 1e-7)
	if !ok || reach[0] >= reach[1] {
		return nil, refuseAs(ErrOutline, "facing", "crossing itself", "a narrower facing")
	}
	return ring, nil
}

func (s *faceStrip) panelSide(i int) []plane.Point {
	return []plane.Point{s.panel[i], s.panel[(i+1)%len(s.panel)]}
}

// firstOn is where a way from a to b first meets a line, in numbers of the line's
// points; -1 if it does not.
func firstOn(line []plane.Point, a, b plane.Point) (float64, plane.Point) {
	at, best := -1.0, math.Inf(1)
	d := b.Sub(a)
	for i := 1; i < len(line); i++ {
		e := line[i].Sub(line[i-1])
		det := d.Cross(e)
		if det == 0 {
			continue
		}
		f := line[i-1].Sub(a)
		if u, v := f.Cross(e)/det, f.Cross(d)/det; u >= 0 && u <= 1 && v >= 0 && v <= 1 && u < best {
			best, at = u, float64(i-1)+v
		}
	}
	return at, a.Add(d.Times(min(best, 1)))
}
