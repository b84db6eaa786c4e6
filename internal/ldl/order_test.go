package ldl

import (
	"math/rand/v2"
	"testing"
)

// A tree eliminated from its leaves fills nothing: the factor has as many entries
// off the diagonal as the tree has links. Each row has the least degree when its
// turn comes, counted here anew in a plain table.
func TestOrderOfLeastDegree(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 100 {
		n := 2 + rng.IntN(100)
		name := rng.Perm(n)
		var links [][2]int
		for i := 1; i < n; i++ {
			links = append(links, [2]int{name[i], name[rng.IntN(i)]})
		}
		if m := New(n, links); len(m.row) != n-1 {
			t.Errorf("a tree of %d rows has %d entries", n, len(m.row))
		}
		for range rng.IntN(n) {
			links = append(links, [2]int{rng.IntN(n), rng.IntN(n)})
		}
		linked := make([][]bool, n)
		for r := range linked {
			linked[r] = make([]bool, n)
		}
		for _, l := range links {
			linked[l[0]][l[1]], linked[l[1]][l[0]] = true, true
		}
		degree := func(r int) int {
			sum := 0
			for s := range linked {
				if s != r && linked[r][s] {
					sum++
				}
			}
			return sum
		}
		m := New(n, links)
		gone := make([]bool, n)
		for k, r := range m.order {
			for s := range n {
				if !gone[s] && degree(s) < degree(r) {
					t.Fatalf("row %d of degree %d is eliminated before one of %d", r, degree(r), degree(s))
				}
			}
			if got := m.start[k+1] - m.start[k]; got != degree(r) {
				t.Fatalf("column %d has %d entries, row %d has %d neighbours", k, got, r, degree(r))
			}
			gone[r] = true
			for a := range n {
				for b := range n {
					if linked[r][a] && linked[r][b] {
						linked[a][b] = true
					}
				}
			}
			for s := range n {
				linked[r][s], linked[s][r] = false, false
			}
		}
	}
}
