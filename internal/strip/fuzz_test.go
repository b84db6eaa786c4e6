package strip

import (
	"errors"
	"testing"
)

// ringFrom reads a ring on a grid of 16 by 16: a byte a vertex.
func ringFrom(data []byte) []int64 {
	ring := make([]int64, 0, 2*len(data))
	for _, b := range data {
		ring = append(ring, int64(b>>4), int64(b&15))
	}
	return ring
}

// FuzzOverlap compares the certificate, the tables and the search without them
// with the slow test.
func FuzzOverlap(f *testing.F) {
	f.Fuzz(func(t *testing.T, ringA, ringB []byte, x, y int8) {
		if len(ringA) > 20 || len(ringB) > 20 {
			return
		}
		a, errA := laidRing(ringFrom(ringA), Place{})
		b, errB := laidRing(ringFrom(ringB), Place{X: int64(x), Y: int64(y)})
		if errA != nil || errB != nil {
			return
		}
		want := overlapSlowly(a, b)
		if got := overlap(a, b); got != want {
			t.Errorf("certificate says %v, want %v", got, want)
		}
		if got := searchOverlap(ringFrom(ringA), ringFrom(ringB), int64(x), int64(y)); got != want {
			t.Errorf("search says %v, want %v", got, want)
		}
	})
}

// FuzzSolve lays problems read from bytes: shapes of a count, a number of
// vertices and the vertices.
func FuzzSolve(f *testing.F) {
	f.Fuzz(func(t *testing.T, data []byte, width, repeat uint8, work uint16) {
		p := Problem{Width: int64(width)}
		for len(data) > 2 && len(p.Shapes) < 6 {
			count, n := int(data[0]%4), min(int(data[1]%12), len(data)-2)
			ring := ringFrom(data[2 : 2+n])
			data = data[2+n:]
			s := Shape{Turns: [][]int64{ring, quarterTurns(ring, 1), quarterTurns(ring, 2)}, Count: count}
			if repeat > 0 {
				s.Grids = []Grid{{X: Steps{Repeat: int64(repeat)}}, {}, {Y: Steps{Repeat: int64(repeat), Tolerance: 1}}}
			}
			p.Shapes = append(p.Shapes, s)
		}
		got, err := Solve(t.Context(), p, Options{Work: int64(work), Workers: 2})
		if err != nil {
			for _, known := range []error{ErrRing, ErrSize, ErrFit, ErrCount, ErrGrid} {
				if errors.Is(err, known) {
					return
				}
			}
			t.Fatal(err)
		}
		if err := Certify(p, got.Layout); err != nil {
			t.Error(err)
		}
	})
}
