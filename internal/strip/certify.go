package strip

import (
	"errors"
	"fmt"
)

// ErrLayout is what [Certify] wraps.
var ErrLayout = errors.New("layout refused")

// maxCertified bounds the coordinates that [Certify] takes, so that their
// differences fit int64.
const maxCertified = 1 << 60

// Certify proves that every piece of p is in l once, in a rotation allowed,
// within the strip from 0 to l.Length and on its grid, and that no two pieces
// and no piece and a flaw overlap, or says what is wrong. It is exact. Pieces
// may touch at points and along edges.
func Certify(p Problem, l Layout) error {
	if err := complete(p, l); err != nil {
		return err
	}
	if p.End > 0 && l.Length > p.End {
		return fmt.Errorf("strip: length %d, beyond the end at %d: %w", l.Length, p.End, ErrLayout)
	}
	laid := make([][]vec, len(l.Places))
	bounds := make([]box, len(l.Places))
	for i, at := range l.Places {
		r, err := laidRing(p.Shapes[at.Shape].Turns[at.Turn], at)
		if err != nil {
			return fmt.Errorf("strip: piece %d: %w", i, err)
		}
		b := boundsOf(r)
		if b.x0 < 0 || b.y0 < 0 || b.x1 > l.Length || b.y1 > p.Width {
			return fmt.Errorf("strip: piece %d spans %d,%d to %d,%d, outside the strip of %d by %d: %w",
				i, b.x0, b.y0, b.x1, b.y1, l.Length, p.Width, ErrLayout)
		}
		if g := p.Shapes[at.Shape].grid(at.Turn); !g.X.has(at.X) || !g.Y.has(at.Y) {
			return fmt.Errorf("strip: piece %d is at %d,%d, not on its grid %+v: %w", i, at.X, at.Y, g, ErrLayout)
		}
		laid[i], bounds[i] = r, b
	}
	for k, ring := range p.Flaws {
		flaw, err := laidRing(ring, Place{})
		if err != nil {
			return fmt.Errorf("strip: flaw %d: %w", k, err)
		}
		b := boundsOf(flaw)
		for i := range laid {
			if bounds[i].meets(b) && overlap(laid[i], flaw) {
				return fmt.Errorf("strip: piece %d overlaps flaw %d: %w", i, k, ErrLayout)
			}
		}
	}
	for i := range laid {
		for j := range i {
			if bounds[i].meets(bounds[j]) && overlap(laid[i], laid[j]) {
				return fmt.Errorf("strip: pieces %d and %d overlap: %w", j, i, ErrLayout)
			}
		}
	}
	return nil
}

// meets reports whether the insides of two boxes have a point in common.
func (a box) meets(b box) bool {
	return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

// complete checks that l has the pieces of p.
func complete(p Problem, l Layout) error {
	count := make([]int, len(p.Shapes))
	for i, at := range l.Places {
		if at.Shape < 0 || at.Shape >= len(p.Shapes) || at.Turn < 0 || at.Turn >= len(p.Shapes[at.Shape].Turns) {
			return fmt.Errorf("strip: piece %d: no shape %d in rotation %d: %w", i, at.Shape, at.Turn, ErrLayout)
		}
		if err := p.Shapes[at.Shape].checkGrids(); err != nil {
			return fmt.Errorf("strip: shape %d: %w: %w", at.Shape, err, ErrLayout)
		}
		count[at.Shape]++
	}
	for k, s := range p.Shapes {
		if count[k] != s.Count {
			return fmt.Errorf("strip: shape %d is laid %d times, want %d: %w", k, count[k], s.Count, ErrLayout)
		}
	}
	return nil
}

// laidRing returns the outline in place, counter-clockwise.
func laidRing(ring []int64, at Place) ([]vec, error) {
	for _, c := range append([]int64{at.X, at.Y}, ring...) {
		if c < -maxCertified || c > maxCertified {
			return nil, fmt.Errorf("coordinate %d beyond %d: %w", c, int64(maxCertified), ErrLayout)
		}
	}
	r := clean(ring)
	if why := notSimple(r); why != "" || len(ring)%2 != 0 {
		return nil, fmt.Errorf("%s: %w: %w", why, ErrRing, ErrLayout)
	}
	ccw := counterClockwise(r)
	for i := range r {
		r[i] = vec{r[i].x + at.X, r[i].y + at.Y}
	}
	if !ccw {
		for i, j := 0, len(r)-1; i < j; i, j = i+1, j-1 {
			r[i], r[j] = r[j], r[i]
		}
	}
	return r, nil
}

// overlap reports whether the insides of two counter-clockwise simple rings
// have a point in common.
//
// If they have, and the two are not the same region, some stretch of one outline
// runs inside the other polygon. It either reaches a vertex there, or begins
// where the outlines meet: at a crossing of two edges, or at a point that is a
// vertex of one of them, and there the corners that the polygons occupy, taken
// without their legs, overlap. The corners also overlap if the regions are the
// same. So crossings, corners at common points and vertices inside are all there
// is to look at.
func overlap(p, q []vec) bool {
	for i := range p {
		for j := range q {
			if edgesOverlap(p, q, i, j) {
				return true
			}
		}
	}
	return vertexInside(p, q) || vertexInside(q, p)
}

// edgesOverlap looks at the edges that start at p[i] and q[j], without the
// vertices they end at, which start the next edges.
func edgesOverlap(p, q []vec, i, j int) bool {
	a, b := p[i], p[(i+1)%len(p)]
	c, d := q[j], q[(j+1)%len(q)]
	if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
		max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
		return false
	}
	if turnSign(a, b, c)*turnSign(a, b, d) < 0 && turnSign(c, d, a)*turnSign(c, d, b) < 0 {
		return true
	}
	atP := corner{from: b.sub(a), to: p[(i+len(p)-1)%len(p)].sub(a)}
	atQ := corner{from: d.sub(c), to: q[(j+len(q)-1)%len(q)].sub(c)}
	alongP := corner{from: b.sub(a), to: a.sub(b)}
	alongQ := corner{from: d.sub(c), to: c.sub(d)}
	if a == c {
		return atP.overlaps(atQ)
	}
	return a != d && onSegment(a, c, d) && atP.overlaps(alongQ) ||
		c != b && onSegment(c, a, b) && alongP.overlaps(atQ)
}

// corner is what a polygon occupies around a point of its outline: the
// directions counter-clockwise between from and to, without both.
type corner struct{ from, to vec }

func (c corner) overlaps(d corner) bool { return c.begins(d.from) || d.begins(c.from) }

// begins reports whether direction v is from, or lies between from and to.
func (c corner) begins(v vec) bool {
	fromV, vTo := crossSign(c.from, v), crossSign(v, c.to)
	if fromV == 0 && dotSign(c.from, v) > 0 {
		return true
	}
	switch crossSign(c.from, c.to) {
	case 1:
		return fromV > 0 && vTo > 0
	case -1: // the rest of the turn, from to to from, is less than a half
		return fromV > 0 || vTo > 0
	default:
		return fromV > 0
	}
}

// vertexInside reports whether a vertex of p is inside q and not on its outline.
func vertexInside(p, q []vec) bool {
	for _, v := range p {
		if inside(v, q) {
			return true
		}
	}
	return false
}

// inside counts the edges of q that a ray from v towards +x crosses.
func inside(v vec, q []vec) bool {
	in := false
	for i, a := range q {
		b := q[(i+1)%len(q)]
		if onSegment(v, a, b) {
			return false
		}
		if (a.y > v.y) != (b.y > v.y) && (turnSign(a, b, v) > 0) == (b.y > a.y) {
			in = !in
		}
	}
	return in
}
