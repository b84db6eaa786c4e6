package rects

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// ErrLayout is what [Certify] wraps.
var ErrLayout = errors.New("layout refused")

// Certify proves that every piece of p is in l once, turned only where that is
// allowed, within the strip from 0 to l.Length, and that no two overlap, or says
// what is wrong. The problem must pass [Problem.Check]. It is exact.
func Certify(p Problem, l Layout) error {
	if err := p.Check(); err != nil {
		return err
	}
	if l.Length < 0 || l.Length > maxLength {
		return fmt.Errorf("rects: length %d: %w: want 0 to %d", l.Length, ErrLayout, maxLength)
	}
	type box struct{ x0, x1, y0, y1 int64 }
	count := make([]int, len(p.Pieces))
	var boxes []box
	for i, at := range l.Places {
		if at.Piece < 0 || at.Piece >= len(p.Pieces) {
			return fmt.Errorf("rects: place %d: no piece %d: %w", i, at.Piece, ErrLayout)
		}
		q := p.Pieces[at.Piece]
		along, across := q.Along, q.Across
		if at.Turned {
			if !q.Turn {
				return fmt.Errorf("rects: place %d: piece %d may not be turned: %w", i, at.Piece, ErrLayout)
			}
			along, across = across, along
		}
		if at.X < 0 || at.Y < 0 || at.X > l.Length-along || at.Y > p.Width-across {
			return fmt.Errorf("rects: place %d: %d by %d at %d,%d, outside the strip of %d by %d: %w",
				i, along, across, at.X, at.Y, l.Length, p.Width, ErrLayout)
		}
		count[at.Piece]++
		boxes = append(boxes, box{at.X, at.X + along, at.Y, at.Y + across})
	}
	for i, q := range p.Pieces {
		if count[i] != q.Count {
			return fmt.Errorf("rects: piece %d is laid %d times, want %d: %w", i, count[i], q.Count, ErrLayout)
		}
	}
	slices.SortFunc(boxes, func(a, b box) int { return cmp.Compare(a.x0, b.x0) })
	for i, a := range boxes {
		for _, b := range boxes[i+1:] {
			if b.x0 >= a.x1 {
				break
			}
			if a.y0 < b.y1 && b.y0 < a.y1 {
				return fmt.Errorf("rects: pieces at %d,%d and %d,%d overlap: %w", a.x0, a.y0, b.x0, b.y0, ErrLayout)
			}
		}
	}
	return nil
}
