package pattern

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// WritePolylines writes pieces for a cutting machine as comma-separated values, one
// row for each point:
//
//	piece      its name
//	quantity   how many are cut as drawn
//	mirrored   how many more are cut the other way round
//	line       number of the line within the piece, from 1
//	kind       what is done along it, see below
//	x_mm,y_mm  in millimetres to 0.001, X to the right, Y up, right side of the cloth up
//
// The kinds, in this order: cut (the outline, anticlockwise), hole, slit and clip are to be
// cut; sew (the finished line), mark (a match mark), patch (where a patch is sewn
// on), dart (both legs) and its fold, strap (its middle line) and fitting (one point, the middle of an
// eyelet or the like) are to be drawn. Lines are written one after the other, points in
// their order; a closed line, cut or hole, ends with its first point.
//
// No line leaves the true one by more than deviation, from 0.01 mm. Cut lines and holes
// are on the side of the cloth: the piece is never cut smaller.
func WritePolylines(w io.Writer, pieces []canvas.Piece, deviation units.Length) error {
	if !(deviation >= 10*units.Micrometre && deviation <= 10*units.Millimetre) {
		return refuse("deviation", deviation, "from 0.01 mm to 10 mm")
	}
	if len(pieces) == 0 || len(pieces) > mostPieces {
		return refuse("pieces", fmt.Sprint(len(pieces)), fmt.Sprintf("from one to %d", mostPieces))
	}
	for i := range pieces {
		if err := checkPiece(&pieces[i]); err != nil {
			return err
		}
	}
	c := csv.NewWriter(w)
	_ = c.Write([]string{"piece", "quantity", "mirrored", "line", "kind", "x_mm", "y_mm"}) // Error below tells
	for i := range pieces {
		p := &pieces[i]
		number := 0
		for _, l := range lines(p) {
			number++
			for _, q := range l.thin(deviation.Millimetres()) {
				_ = c.Write([]string{
					p.Name, strconv.Itoa(p.Quantity), strconv.Itoa(p.Mirrored), strconv.Itoa(number), l.kind, thousandths(q.X), thousandths(q.Y),
				})
			}
		}
	}
	c.Flush()
	return c.Error()
}

func thousandths(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000+0, 'f', -1, 64)
}

// cutterLine is a line of a piece in millimetres.
type cutterLine struct {
	kind   string
	points []plane.Point
	closed bool
	hole   bool // the cloth is outside
}

func lines(p *canvas.Piece) []cutterLine {
	out := []cutterLine{{"cut", inMillimetres(p.Cut), true, false}}
	for _, h := range p.Holes {
		out = append(out, cutterLine{"hole", inMillimetres(h.Line), true, true})
	}
	for _, h := range p.Holes {
		if len(h.Slit) > 0 {
			out = append(out, cutterLine{"slit", inMillimetres(h.Slit), false, false})
		}
	}
	for _, c := range p.Clips {
		out = append(out, cutterLine{"clip", inMillimetres(c[:]), false, false})
	}
	for _, s := range p.Sew {
		out = append(out, cutterLine{"sew", inMillimetres(s), false, false})
	}
	for _, m := range p.Marks {
		out = append(out, cutterLine{"mark", inMillimetres([]canvas.Point{m.At, m.To}), false, false})
	}
	for _, l := range p.Patches {
		out = append(out, cutterLine{"patch", inMillimetres(l), false, false})
	}
	for _, d := range p.Darts {
		out = append(out,
			cutterLine{"dart", inMillimetres([]canvas.Point{d.Left, d.Tip, d.Right}), false, false},
			cutterLine{"fold", inMillimetres([]canvas.Point{d.Tip, d.Fold}), false, false})
	}
	for _, f := range p.Fittings {
		if len(f.Strap) > 0 {
			out = append(out, cutterLine{"strap", inMillimetres(f.Strap), false, false})
		} else {
			out = append(out, cutterLine{"fitting", inMillimetres([]canvas.Point{f.At}), false, false})
		}
	}
	return out
}

func inMillimetres(line []canvas.Point) []plane.Point {
	out := make([]plane.Point, len(line))
	for i, q := range line {
		out[i] = plane.Point{X: q.X.Millimetres(), Y: q.Y.Millimetres()}
	}
	return out
}

// thin leaves out what is not needed to stay within deviation.
func (l *cutterLine) thin(deviation float64) []plane.Point {
	deviation -= 1e-3 // for the rounding of what is written
	if !l.closed {
		var out []plane.Point
		for _, i := range plane.Thin(l.points, deviation) {
			out = append(out, l.points[i])
		}
		return out
	}
	ring := outer(l.points, deviation, l.hole)
	return append(ring, ring[0])
}

// outer is a ring of fewer points that holds the given one, or lies within it,
// and leaves it by no more than deviation. Each side of the thinned ring is moved
// out to the farthest point that it cut off. At a sharp corner between two curves
// that moves the corner farther than the sides: then more points are kept.
func outer(ring []plane.Point, deviation float64, within bool) []plane.Point {
	for _, part := range []float64{2, 4, 8, 16} {
		if out, ok := moveOut(ring, plane.ThinRing(ring, deviation/part), deviation, within); ok {
			return out
		}
	}
	return ring
}

func moveOut(ring []plane.Point, at []int, deviation float64, within bool) (out []plane.Point, ok bool) {
	n := len(at)
	if n < 3 {
		return nil, false
	}
	side := 1.0 // the outside of an anticlockwise ring is to the right
	if (plane.Area(ring) < 0) != within {
		side = -1
	}
	type moved struct{ a, u plane.Point }
	sides := make([]moved, n)
	for k, i := range at {
		a, b := ring[i], ring[at[(k+1)%n]]
		u := b.Sub(a).Unit()
		right := u.Right().Times(side)
		far := 0.0
		for j := (i + 1) % len(ring); j != at[(k+1)%n]; j = (j + 1) % len(ring) {
			far = math.Max(far, ring[j].Sub(a).Dot(right))
		}
		sides[k] = moved{a.Add(right.Times(far)), u}
	}
	out = make([]plane.Point, n)
	for k := range sides {
		p, q := sides[(k+n-1)%n], sides[k]
		sin := p.u.Cross(q.u)
		if math.Abs(sin) < 1e-9 {
			return nil, false
		}
		t := q.a.Sub(p.a).Cross(q.u) / sin
		out[k] = p.a.Add(p.u.Times(t))
	}
	if (plane.Area(out) < 0) != (plane.Area(ring) < 0) {
		return nil, false
	}
	for _, q := range out {
		if plane.Distance(ring, q) > deviation {
			return nil, false
		}
	}
	for _, q := range ring {
		d := plane.Distance(out, q)
		if d > deviation || d > 1e-6 && plane.Contains(out, q) == within {
			return nil, false
		}
	}
	return out, true
}

// WriteOffsets writes a table for marking a piece out on the cloth with a tape and a
// square, for those without a printer: numbered points of the cut line with their
// distances along a straight baseline and square to it, in whole millimetres, or in inches
// if the piece is Imperial, and the distance to the next point as a check. Straight lines
// between the points leave the cut line by no more than deviation and the rounding.
func WriteOffsets(w io.Writer, p canvas.Piece, deviation units.Length) error {
	if err := checkPiece(&p); err != nil {
		return err
	}
	points, err := p.MarkingOut(deviation)
	if err != nil {
		return err
	}
	lo, hi := extent(p.Cut)
	in := ruler{p.Imperial}
	within, head, row := fmt.Sprintf("%.1f mm", deviation.Millimetres()), "point   along  square  to next   (mm)", "%5d %7s %7s %8s\n"
	if in.inches {
		up := math.Ceil(16*deviation.Inches()-1e-9) / 16
		within, head, row = in.say(units.Inch.Scale(up)), "point      along     square    to next   (inches)", "%5d %10s %10s %10s\n"
	}
	_, err = fmt.Fprintf(w, `%s: %s

Draw a baseline of %s on the cloth, its right side up, and mark its left end.
Measure along the baseline, from there square to it, and mark the point. Join the
points in turn, the last one with point 1: that is the cut line, to %s.
Check each point by its distance to the next. The warp lies %s.

%s
`, p.Name, count(&p), in.say(hi.X-lo.X), within, grainWords(&p), head)
	for i, q := range points {
		if err != nil {
			return err
		}
		next := points[(i+1)%len(points)]
		d := math.Hypot((next.X - q.X).Millimetres(), (next.Y - q.Y).Millimetres())
		_, err = fmt.Fprintf(w, row, i+1, in.bare(q.X.Millimetres()), in.bare(q.Y.Millimetres()), in.bare(d))
	}
	return err
}

// grainWords tells the direction of the warp from the baseline, which is along X.
func grainWords(p *canvas.Piece) string {
	turn, whole, from := p.Grain.Degrees(), 180.0, ""
	if oneWay(p) {
		whole, from = 360, ", from the roll's free end on"
	}
	if turn = math.Mod(turn, whole); turn < -0.5 {
		turn += whole
	}
	switch {
	case turn < 0.5 || turn > whole-0.5:
		if oneWay(p) {
			return "along the baseline" + from + " to the right"
		}
		return "along the baseline"
	case !oneWay(p) && math.Abs(turn-90) < 0.5:
		return "square to the baseline"
	}
	return fmt.Sprintf("at %.0f degrees to the baseline, anticlockwise%s", turn, from)
}
