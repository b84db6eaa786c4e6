package rode_test

import (
	"testing"

	"example.com/forepeak/rode"
)

// A Solver that fills a State used before allocates nothing.
func TestSolverAllocatesNothing(t *testing.T) {
	kellet := rode.Rode{Pieces: []rode.Piece{chain(20), warp(25), chain(2)}}
	kellet.Pieces[0].Top = []rode.Fitting{{Name: "kellet", Mass: 12, Volume: 1.1e-3}}
	float := rode.Rode{Pieces: []rode.Piece{chain(20), warp(25), chain(2)}}
	float.Pieces[0].Top = []rode.Fitting{{Name: "float", Mass: 0.3, Volume: 5e-3}}
	sloping := anchorage
	sloping.Slope = -0.1
	for _, c := range []struct {
		name string
		rode rode.Rode
		site rode.Site
	}{
		{"chain", rode.Rode{Pieces: []rode.Piece{chain(40)}}, anchorage},
		{"kellet", kellet, anchorage},
		{"slope", kellet, sloping},
		{"float", float, anchorage},
	} {
		sv := mustSolver(t, c.rode, c.site)
		var st rode.State
		if err := sv.Solve(&st, 600); err != nil {
			t.Fatal(err)
		}
		distance, tension := st.Distance, st.Tension
		for what, solve := range map[string]func() error{
			"pull":     func() error { return sv.Solve(&st, 600) },
			"distance": func() error { return sv.SolveDistance(&st, distance) },
			"tension":  func() error { return sv.SolveTension(&st, tension) },
		} {
			var err error
			n := testing.AllocsPerRun(10, func() { err = solve() })
			if err != nil || n != 0 {
				t.Errorf("%s by %s: %v allocations, %v", c.name, what, n, err)
			}
		}
	}
}
