package pattern

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// checkOutline refuses what is no closed line of cloth.
func checkOutline(field string, line []canvas.Point) error {
	if len(line) < 3 || len(line) > 20000 {
		return refuse(field, fmt.Sprint(len(line), " points"), "from 3 to 20000")
	}
	ring := make([]plane.Point, len(line))
	for i, q := range line {
		if !(q.X.Abs() <= 1000*units.Metre && q.Y.Abs() <= 1000*units.Metre) {
			return refuse(field, fmt.Sprintf("a point at %v, %v", q.X, q.Y), "points within 1000 m")
		}
		ring[i] = plane.Point{X: q.X.Millimetres(), Y: q.Y.Millimetres()}
	}
	lo, hi := extent(line)
	if size := max(hi.X-lo.X, hi.Y-lo.Y); !(size < 100*units.Metre && size > 0) {
		return refuse(field, fmt.Sprintf("%v by %v", hi.X-lo.X, hi.Y-lo.Y), "more than nothing and less than 100 m")
	}
	clean := plane.Clean(ring, 1e-6)
	if len(clean) < 3 {
		return outline(field, "nothing inside", "an area")
	}
	if _, _, at, found := plane.Crossing(clean); found {
		return outline(field, fmt.Sprintf("a line that meets itself at %.1f mm, %.1f mm", at.X, at.Y), "a simple outline")
	}
	return nil
}

func extent(line []canvas.Point) (lo, hi canvas.Point) {
	lo, hi = line[0], line[0]
	for _, q := range line {
		lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
		hi.X, hi.Y = max(hi.X, q.X), max(hi.Y, q.Y)
	}
	return lo, hi
}

// inmost is a point far from all sides of a ring, and how far.
func inmost(ring []plane.Point) (at plane.Point, room float64) {
	lo, hi := ring[0], ring[0]
	for _, q := range ring {
		lo.X, lo.Y = math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)
		hi.X, hi.Y = math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)
	}
	at = lo.Add(hi).Times(0.5)
	w, h := hi.X-lo.X, hi.Y-lo.Y
	// The middle first: a later point must be clearly better.
	if plane.Contains(ring, at) {
		room = plane.Distance(ring, at)
	}
	centre := at
	for range 3 {
		const parts = 12
		for i := range parts + 1 {
			for j := range parts + 1 {
				p := centre.Add(plane.Point{X: w * (float64(i)/parts - 0.5), Y: h * (float64(j)/parts - 0.5)})
				if !plane.Contains(ring, p) {
					continue
				}
				if d := plane.Distance(ring, p); d > room*1.001+1e-6 {
					at, room = p, d
				}
			}
		}
		centre, w, h = at, w/6, h/6
	}
	return at, room
}

// sortedBy is a copy of a list in order, equals as they were.
func sortedBy[T any](list []T, key func(*T) float64) []T {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b T) int {
		switch x, y := key(&a), key(&b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return out
}

// checkPiece refuses a piece with a line that cannot be drawn. Lines inside may
// reach 10 m beyond the outline, which no match mark does.
func checkPiece(p *canvas.Piece) error {
	if len(p.Name) > 200 {
		return refuse("pieces: Name", fmt.Sprintf("%d bytes long", len(p.Name)), "at most 200")
	}
	const most = 1000
	if n := len(p.Sew) + len(p.Holes) + len(p.Marks) + len(p.Clips) + len(p.Patches) + len(p.Darts) + len(p.Fittings); n > most {
		return refuse("pieces: lines of "+p.Name, fmt.Sprint(n), fmt.Sprintf("at most %d", most))
	}
	if err := checkOutline("pieces: Cut of "+p.Name, p.Cut); err != nil {
		return err
	}
	if !(p.Grain.Abs() <= 1000) {
		return refuse("pieces: Grain of "+p.Name, p.Grain, "an angle")
	}
	lo, hi := extent(p.Cut)
	const room = 10 * units.Metre
	var bad error
	check := func(field string, line []canvas.Point, least int) {
		if bad != nil {
			return
		}
		field = fmt.Sprintf("pieces: %s of %s", field, p.Name)
		if len(line) < least || len(line) > 200000 {
			bad = refuse(field, fmt.Sprint(len(line), " points"), fmt.Sprintf("from %d to 200000", least))
		}
		for _, q := range line {
			if !(q.X >= lo.X-room && q.X <= hi.X+room && q.Y >= lo.Y-room && q.Y <= hi.Y+room) {
				bad = refuse(field, fmt.Sprintf("a point at %v, %v", q.X, q.Y), "points on the piece")
				return
			}
		}
	}
	for i, l := range p.Sew {
		check(fmt.Sprintf("Sew[%d]", i), l, 2)
	}
	for i, h := range p.Holes {
		check(fmt.Sprintf("Holes[%d].Line", i), h.Line, 3)
		check(fmt.Sprintf("Holes[%d].Slit", i), h.Slit, 0)
	}
	for i, m := range p.Marks {
		check(fmt.Sprintf("Marks[%d]", i), []canvas.Point{m.At, m.To}, 2)
	}
	for i, c := range p.Clips {
		check(fmt.Sprintf("Clips[%d]", i), c[:], 2)
	}
	for i, l := range p.Patches {
		check(fmt.Sprintf("Patches[%d]", i), l, 2)
	}
	for i, d := range p.Darts {
		check(fmt.Sprintf("Darts[%d]", i), []canvas.Point{d.Tip, d.Left, d.Right, d.Fold}, 4)
	}
	for i, f := range p.Fittings {
		check(fmt.Sprintf("Fittings[%d]", i), append(f.Strap[:len(f.Strap):len(f.Strap)], f.At), 1)
		if bad == nil && !(f.Diameter >= 0 && f.Diameter < 10*units.Metre) {
			return refuse(fmt.Sprintf("pieces: Fittings[%d].Diameter of %s", i, p.Name), f.Diameter, "less than 10 m")
		}
	}
	return bad
}
