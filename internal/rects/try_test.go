package rects

import (
	"context"
	"testing"
	"time"
)

func TestTry(t *testing.T) {
	for _, s := range publishedSets(t) {
		for _, p := range []Problem{s.p, turning(s.p)} {
			start := time.Now()
			l, err := Solve(context.Background(), p, Options{Work: 5e6})
			if err != nil {
				t.Fatal(err)
			}
			if err := Certify(p, l); err != nil {
				t.Error(err)
			}
			t.Logf("%-14s n=%d turn=%v: length %d bound %d (known %d) work %d, %.2f s", s.name, s.count, p.Pieces[0].Turn, l.Length, l.Bound, s.length, l.Work, time.Since(start).Seconds())
		}
	}
}
