package strip

import (
	"errors"
	"fmt"
)

// Errors that [Problem.Check] and [Solve] wrap.
var (
	ErrRing  = errors.New("not a simple polygon with an area")
	ErrSize  = errors.New("outside the coordinates the search can hold")
	ErrFit   = errors.New("fits the strip in no rotation")
	ErrCount = errors.New("count out of range")
	ErrFlaw  = errors.New("flaw refused")
	ErrGrid  = errors.New("grid refused")
	ErrEnd   = errors.New("no layout found that is as short as the strip")
)

// maxExtent bounds coordinates of the search: differences stay within 2^26,
// their products within 2^52 and the difference of two products within 2^53,
// which float64 holds exactly.
const maxExtent = 1 << 26

// maxCount bounds the pieces and flaws together: pairs of them are numbered in 32
// bits.
const maxCount = 1 << 15

// Shape is an outline and the number of pieces to be cut from it.
type Shape struct {
	// Turns holds the outline in each rotation allowed: x0, y0, x1, y1, ...,
	// in either sense, the first vertex not repeated.
	Turns [][]int64
	Count int
	// Grids, if set, says for each rotation where it may lie.
	Grids []Grid
}

// Grid limits the X and the Y of a [Place].
type Grid struct{ X, Y Steps }

// Steps are the numbers that leave the remainder Phase, give or take Tolerance,
// when divided by Repeat: the stripes of a cloth. With Repeat 0 they are all
// numbers.
type Steps struct{ Repeat, Phase, Tolerance int64 }

// Problem is a set of shapes and the strip to lay them on.
type Problem struct {
	Width  int64
	End    int64 // length of the strip; 0 is as long as it takes
	Shapes []Shape
	// Flaws are outlines, in place on the strip, that no piece may overlap. They
	// may overlap one another.
	Flaws [][]int64
}

// Place is a piece laid: the outline Shapes[Shape].Turns[Turn] moved by X, Y.
type Place struct {
	Shape, Turn int
	X, Y        int64
}

// Layout is a strip of the given length with pieces laid on it, one Place for
// each piece, in the order of the shapes.
type Layout struct {
	Length int64
	Places []Place
}

// Check reports why p cannot be laid: a ring that is not simple or has no area
// (ErrRing), a shape that in no rotation fits the width, the end and its grid
// (ErrFit), a width or a count that is not positive, or more than 32,768 pieces
// and flaws (ErrCount), a flaw that is
// not on the strip (ErrFlaw), steps that are none (ErrGrid), or outlines too
// large for exact arithmetic (ErrSize): the flaws and after them the longest
// sides of all pieces, one after another on their grids, may take 2^26 units.
// Rotations in which a shape does not fit are passed over by the search.
func (p Problem) Check() error {
	if p.Width <= 0 || p.Width > maxExtent {
		return fmt.Errorf("strip: width %d: %w: want 1 to %d", p.Width, ErrSize, maxExtent)
	}
	if len(p.Shapes) == 0 {
		return fmt.Errorf("strip: no shapes: %w", ErrCount)
	}
	if p.End < 0 || p.End > maxCertified {
		return fmt.Errorf("strip: end %d: %w: want 0 to %d", p.End, ErrSize, int64(maxCertified))
	}
	count := len(p.Flaws)
	total, err := p.checkFlaws()
	if err != nil {
		return err
	}
	for k, s := range p.Shapes {
		if s.Count < 1 || s.Count > maxExtent {
			return fmt.Errorf("strip: shape %d: %w: %d, want 1 to %d", k, ErrCount, s.Count, maxExtent)
		}
		if len(s.Turns) == 0 {
			return fmt.Errorf("strip: shape %d: no rotation: %w", k, ErrCount)
		}
		if err := s.checkGrids(); err != nil {
			return fmt.Errorf("strip: shape %d: %w", k, err)
		}
		if count += s.Count; count > maxCount {
			return fmt.Errorf("strip: more than %d pieces and flaws: %w", maxCount, ErrCount)
		}
		fits := false
		var longest int64
		for t, ring := range s.Turns {
			if len(ring)%2 != 0 {
				return fmt.Errorf("strip: shape %d turn %d: %w: odd number of coordinates", k, t, ErrRing)
			}
			for _, c := range ring {
				if c < -maxExtent || c > maxExtent {
					return fmt.Errorf("strip: shape %d turn %d: coordinate %d: %w: want within %d", k, t, c, ErrSize, maxExtent)
				}
			}
			r := clean(ring)
			if why := notSimple(r); why != "" {
				return fmt.Errorf("strip: shape %d turn %d: %w: %s", k, t, ErrRing, why)
			}
			b := boundsOf(r)
			g := s.grid(t)
			longest = max(longest, b.x1-b.x0+g.X.Repeat, b.y1-b.y0)
			if p.fits(b, g) {
				fits = true
			}
		}
		if !fits {
			return fmt.Errorf("strip: shape %d: %w", k, ErrFit)
		}
		total += longest * int64(s.Count)
		if total > maxExtent {
			return fmt.Errorf("strip: the longest sides of the pieces add up to more than %d units: %w", maxExtent, ErrSize)
		}
	}
	return nil
}

// pieces counts the pieces of p.
func (p Problem) pieces() int {
	n := 0
	for _, s := range p.Shapes {
		n += s.Count
	}
	return n
}
