package draw

import (
	"math"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// rode draws each piece as one line in the style of its kind.
func (f *frame) rode() {
	lines := make([][]svg.Point, len(f.view.Rode.Pieces))
	var last svg.Point
	// So close on paper that not even a fold, as in a rode that hangs nearly straight
	// down, is cut off by what shows; then without the points that do not show.
	for q := range f.view.State.Points(units.Length(2 * invisible / f.mm)) {
		p := f.place(q.Position)
		if l := &lines[q.Piece]; len(*l) == 0 && q.Piece > 0 {
			*l = append(*l, last, p)
		} else {
			*l = append(*l, p)
		}
		last = p
	}
	for i, l := range lines {
		l = thin(l)
		if f.view.Rode.Pieces[i].Kind == rode.OfChain {
			f.Polyline("chain", l...)
			f.Polyline("links", l...)
		} else {
			f.Polyline("rope", l...)
		}
	}
}

// invisible is how far a line may leave its points, in millimetres.
const invisible = 0.01

// thin leaves out points that lie on the line through those left, as Ramer,
// Douglas and Peucker do: between two ends it keeps the farthest.
func thin(points []svg.Point) []svg.Point {
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	type ends struct{ a, b int }
	for todo := []ends{{0, len(points) - 1}}; len(todo) > 0; {
		e := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		far, most := 0, invisible
		for i := e.a + 1; i < e.b; i++ {
			if d := toSegment(points[i], points[e.a], points[e.b]); !(d <= most) { // what is not a number is kept, and refused when written
				far, most = i, d
			}
		}
		if far > 0 {
			keep[far] = true
			todo = append(todo, ends{e.a, far}, ends{far, e.b})
		}
	}
	var kept []svg.Point
	for i, p := range points {
		if keep[i] {
			kept = append(kept, p)
		}
	}
	return kept
}

// toSegment is the distance of a point from the straight line between two others.
func toSegment(p, a, b svg.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = math.Min(1, math.Max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// onBed draws a bar under each stretch that lies on the bed.
func (f *frame) onBed() {
	const below = 3.1
	parts := f.view.State.Parts
	for i := 0; i < len(parts); i++ {
		if !parts[i].OnBed {
			continue
		}
		from := f.place(parts[i].Lower)
		for i+1 < len(parts) && parts[i+1].OnBed {
			i++
		}
		to := f.place(parts[i].Upper)
		from.Y += below
		to.Y += below
		f.Line("lying", from, to)
		for _, p := range []svg.Point{from, to} {
			f.Line("lying", svg.Point{X: p.X, Y: p.Y - 0.9}, svg.Point{X: p.X, Y: p.Y + 0.9})
		}
	}
}
