package rects

import (
	"errors"
	"fmt"
)

// Piece is a size and the number of rectangles of it.
type Piece struct {
	Along, Across int64 // sides along and across the strip
	Count         int
	Turn          bool // a quarter turn is allowed
}

// Problem is the width of a strip and what to lay on it.
type Problem struct {
	Width  int64
	Pieces []Piece
}

// Place is a rectangle laid: its corner nearest to the origin, and whether
// Pieces[Piece] is turned.
type Place struct {
	Piece  int
	X, Y   int64
	Turned bool
}

// Errors that an [Error] wraps.
var (
	ErrSize  = errors.New("size out of range")
	ErrCount = errors.New("count out of range")
	ErrFit   = errors.New("wider than the strip")
)

// Error says which field of a [Problem] is refused, and what is accepted.
type Error struct {
	Field string // Pieces[2].Along
	Value int64
	Want  string
	Err   error // ErrSize, ErrCount or ErrFit
}

func (e *Error) Error() string {
	return fmt.Sprintf("rects: %s %d: %v: want %s", e.Field, e.Value, e.Err, e.Want)
}

func (e *Error) Unwrap() error { return e.Err }

// Limits that keep every sum and every area far within 64 bits.
const (
	maxSide   = 1 << 26
	maxLength = 1 << 30 // of all pieces one after another
	maxPieces = 1 << 14
)

// Check reports why p cannot be laid, as an [Error].
func (p Problem) Check() error {
	if p.Width < 1 || p.Width > maxSide {
		return &Error{"Width", p.Width, fmt.Sprintf("1 to %d", maxSide), ErrSize}
	}
	if len(p.Pieces) == 0 || len(p.Pieces) > maxPieces {
		return &Error{"Pieces", int64(len(p.Pieces)), fmt.Sprintf("1 to %d", maxPieces), ErrCount}
	}
	var length int64
	count := 0
	for i, q := range p.Pieces {
		field := func(name string) string { return fmt.Sprintf("Pieces[%d].%s", i, name) }
		if q.Along < 1 || q.Along > maxSide {
			return &Error{field("Along"), q.Along, fmt.Sprintf("1 to %d", maxSide), ErrSize}
		}
		if q.Across < 1 || q.Across > maxSide {
			return &Error{field("Across"), q.Across, fmt.Sprintf("1 to %d", maxSide), ErrSize}
		}
		if q.Count < 1 || q.Count > maxPieces-count {
			return &Error{field("Count"), int64(q.Count), fmt.Sprintf("1 or more, at most %d pieces in all", maxPieces), ErrCount}
		}
		count += q.Count
		switch least := min(q.Along, q.Across); {
		case q.Turn && least > p.Width:
			return &Error{field("Across"), least, fmt.Sprintf("a side of at most the width, %d", p.Width), ErrFit}
		case !q.Turn && q.Across > p.Width:
			return &Error{field("Across"), q.Across, fmt.Sprintf("at most the width, %d", p.Width), ErrFit}
		}
		length += max(q.Along, q.Across) * int64(q.Count)
		if length > maxLength {
			return &Error{field("Along"), q.Along, fmt.Sprintf("pieces whose longest sides add up to at most %d", maxLength), ErrSize}
		}
	}
	return nil
}

// kind is a size after equal pieces have been put together, in the search's
// terms: w across the strip, h along it, as many ways as the piece may lie.
type kind struct {
	ways  []way
	count int
	area  int64
	of    []member
}

type way struct{ w, h int64 }

// member is a piece of the problem that has the size of a kind.
type member struct {
	piece, count int
	swapped      bool // the first way of the kind is the piece turned
}

// kindsOf puts equal pieces together.
func kindsOf(p Problem) []kind {
	type key struct {
		w, h int64
		turn bool
	}
	at := map[key]int{}
	var out []kind
	for i, q := range p.Pieces {
		w, h := q.Across, q.Along
		turn := q.Turn && w != h && max(w, h) <= p.Width
		swapped := q.Turn && (w > p.Width || turn && w < h)
		if swapped {
			w, h = h, w
		}
		k := key{w, h, turn}
		j, ok := at[k]
		if !ok {
			j = len(out)
			at[k] = j
			ways := []way{{w, h}}
			if turn {
				ways = append(ways, way{h, w})
			}
			out = append(out, kind{ways: ways, area: w * h})
		}
		out[j].count += q.Count
		out[j].of = append(out[j].of, member{i, q.Count, swapped})
	}
	return out
}
