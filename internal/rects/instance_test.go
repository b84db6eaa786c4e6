package rects

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
)

// published is a set of rectangles with its known least length.
type published struct {
	name   string
	p      Problem
	length int64
	count  int
}

func publishedSets(t testing.TB) []published {
	t.Helper()
	f, err := os.Open("../../testdata/canvas/rects/zero-waste.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []published
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		word := strings.Fields(lines.Text())
		if len(word) == 0 || word[0] == "#" {
			continue
		}
		s := published{name: word[0]}
		if _, err := fmt.Sscan(word[1]+" "+word[2], &s.p.Width, &s.length); err != nil {
			t.Fatalf("%s: %v", s.name, err)
		}
		for _, w := range word[3:] {
			q := Piece{Count: 1}
			size, count, many := strings.Cut(w, "*")
			if _, err := fmt.Sscanf(size, "%dx%d", &q.Across, &q.Along); err != nil {
				t.Fatalf("%s: %q: %v", s.name, w, err)
			}
			if many {
				if _, err := fmt.Sscan(count, &q.Count); err != nil {
					t.Fatalf("%s: %q: %v", s.name, w, err)
				}
			}
			s.p.Pieces = append(s.p.Pieces, q)
			s.count += q.Count
		}
		out = append(out, s)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// turning is p with quarter turns allowed.
func turning(p Problem) Problem {
	q := Problem{Width: p.Width}
	for _, x := range p.Pieces {
		x.Turn = true
		q.Pieces = append(q.Pieces, x)
	}
	return q
}
