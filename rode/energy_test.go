package rode_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// work is the integral of the pull over the distance, taken by Gauss-Legendre
// quadrature of the solver's pulls and distances: H X between the ends less the
// integral of X dH, in log H.
func work(t *testing.T, sv *rode.Solver, lo, hi units.Force) float64 {
	t.Helper()
	var st rode.State
	distance := func(h float64) float64 {
		if err := sv.Solve(&st, units.Force(h)); err != nil {
			t.Fatal(err)
		}
		return float64(st.Distance)
	}
	f := func(x float64) float64 {
		h := math.Exp(x)
		return distance(h) * h
	}
	// Halved where a joint leaves the bed, which bends the curve.
	var halve func(a, b, whole float64, depth int) float64
	halve = func(a, b, whole float64, depth int) float64 {
		m := (a + b) / 2
		l, r := quad.Fixed(f, a, m, 16, nil, 0), quad.Fixed(f, m, b, 16, nil, 0)
		if depth == 0 || math.Abs(l+r-whole) <= 1e-11*math.Abs(l+r) {
			return l + r
		}
		return halve(a, m, l, depth-1) + halve(m, b, r, depth-1)
	}
	a, b := math.Log(float64(lo)), math.Log(float64(hi))
	sum := halve(a, b, quad.Fixed(f, a, b, 16, nil, 0), 10)
	return float64(hi)*distance(float64(hi)) - float64(lo)*distance(float64(lo)) - sum
}

func TestEnergyIsTheWorkOfThePull(t *testing.T) {
	chain := rode.Piece{Name: "chain", Length: 30, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(5e6)}
	rope := rode.Piece{
		Name: "rope", Kind: rode.OfRope, Length: 12, Mass: 0.12, Density: 1140,
		Stretch: rode.Stretch{Reference: 40e3, A: 0.66, B: -0.66, C: 0.35},
	}
	hook := rode.Fitting{Name: "hook and slack chain", Mass: 6, Volume: 0.0008}
	with := func(p rode.Piece, f ...rode.Fitting) rode.Piece { p.Top = f; return p }
	of := func(p ...rode.Piece) rode.Rode { return rode.Rode{Pieces: p} }
	rigid := chain
	rigid.Stretch = rode.Stretch{}
	for name, c := range map[string]struct {
		rode rode.Rode
		site rode.Site
	}{
		"rigid chain":           {of(rigid), rode.Site{Depth: 6, Roller: 1.4}},
		"chain":                 {of(chain), rode.Site{Depth: 6, Roller: 1.4}},
		"chain and snubber":     {of(with(chain, hook), rope), rode.Site{Depth: 6, Roller: 1.4}},
		"snubber in air":        {of(with(chain, hook), rope), rode.Site{Depth: 1, Roller: 5}},
		"nearly taut":           {of(with(chain, hook), rope), rode.Site{Depth: 30, Roller: 1.4}},
		"rope in the middle":    {of(chain, with(rope, hook), chain), rode.Site{Depth: 12, Roller: 2}},
		"bed rises to the boat": {of(with(chain, hook), rope), rode.Site{Depth: 9, Roller: 1.4, Slope: 0.1}},
		"bed falls":             {of(with(chain, hook), rope), rode.Site{Depth: 5, Roller: 1.4, Slope: -0.1}},
	} {
		t.Run(name, func(t *testing.T) {
			sv, err := rode.NewSolver(c.rode, c.site)
			if err != nil {
				t.Fatal(err)
			}
			held := func(h units.Force) float64 {
				var st rode.State
				if err := sv.Solve(&st, h); err != nil {
					t.Fatal(err)
				}
				e, err := sv.Energy(&st)
				if err != nil {
					t.Fatal(err)
				}
				return float64(e.Total)
			}
			worst := 0.0
			for _, ends := range [][2]units.Force{{50, 300}, {300, 2500}, {2500, 16000}, {20, 20000}} {
				got, want := held(ends[1])-held(ends[0]), work(t, sv, ends[0], ends[1])
				worst = max(worst, math.Abs(got/want-1))
			}
			t.Logf("relative difference %.1e", worst)
			if worst > 1e-8 {
				t.Errorf("energy differs from the work by %.1e of it", worst)
			}
		})
	}
}

// On random rodes the energy gained is the work of the pull, or less where there
// is friction on the bed.
func TestEnergyOfRandomRodes(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	for i := range 140 {
		s := randomSample(r)
		sv, err := rode.NewSolver(s.rode, s.site)
		if err != nil {
			t.Fatal(err)
		}
		if s.site.Slope > 0 || s.site.Depth < 0 {
			continue // a bed out of the water, on which a rode lies with its weight in water
		}
		var a, b rode.State
		if err := errors.Join(sv.Solve(&a, s.pull), sv.Solve(&b, s.pull.Scale(1.3))); err != nil {
			t.Fatal(err)
		}
		ea, err := sv.Energy(&a)
		if err != nil {
			t.Fatal(err)
		}
		eb, err := sv.Energy(&b)
		if err != nil {
			t.Fatal(err)
		}
		did, gained := work(t, sv, s.pull, s.pull.Scale(1.3)), float64(eb.Total-ea.Total)
		// What rounding leaves of the two energies' difference.
		tol := 1e-7*math.Abs(did) + 1e-11*math.Abs(float64(eb.Total)) + 1e-11*float64(b.Pull)*float64(b.Distance)
		switch {
		case s.site.Friction == 0 && math.Abs(did-gained) > tol:
			t.Errorf("%d: work %v, energy gained %v", i, did, gained)
		case gained > did+tol:
			t.Errorf("%d: energy gained %v is more than the work %v", i, gained, did)
		}
	}
}

// A state is answered for only by the solver of its rode and site.
func TestEnergyRefusesAnotherRodesState(t *testing.T) {
	c := rode.Piece{Name: "chain", Length: 30, Mass: 1.4, Density: rode.Steel}
	rope := rode.Piece{Name: "rope", Kind: rode.OfRope, Length: 12, Mass: 0.12, Density: 1140, Stretch: rode.LinearStretch(100e3)}
	of := func(pieces ...rode.Piece) rode.Rode { return rode.Rode{Pieces: pieces} }
	with := func(p rode.Piece, f func(*rode.Piece)) rode.Piece { f(&p); return p }
	site := rode.Site{Depth: 5, Roller: 1}
	one := mustSolver(t, of(c, rope), site)
	for name, o := range map[string]struct {
		rode rode.Rode
		site rode.Site
	}{
		"fewer pieces": {of(c), site},
		"longer chain, shorter rope": {of(
			with(c, func(p *rode.Piece) { p.Length++ }), with(rope, func(p *rode.Piece) { p.Length-- })), site},
		"longer rope":       {of(c, with(rope, func(p *rode.Piece) { p.Length++ })), site},
		"other curve":       {of(c, with(rope, func(p *rode.Piece) { p.Stretch.Reference *= 2 })), site},
		"heavier chain":     {of(with(c, func(p *rode.Piece) { p.Mass *= 1.1 }), rope), site},
		"deeper":            {of(c, rope), rode.Site{Depth: 6, Roller: 1}},
		"deeper, as high":   {of(c, rope), rode.Site{Depth: 5.5, Roller: 0.5}},
		"higher roller":     {of(c, rope), rode.Site{Depth: 5, Roller: 2}},
		"in fresh water":    {of(c, rope), rode.Site{Depth: 5, Roller: 1, Water: rode.FreshWater}},
		"the rode itself":   {of(c, rope), site},
		"another name only": {of(with(c, func(p *rode.Piece) { p.Name = "" }), rope), site},
	} {
		same := name == "the rode itself" || name == "another name only"
		for _, pull := range []units.Force{0, 100, 3000, 30e3} {
			if name == "heavier chain" && pull == 0 {
				continue // all of it lies on the bed, and nothing of the state tells its weight
			}
			st := mustSolve(t, o.rode, o.site, pull)
			if _, err := one.Energy(&st); (err == nil) != same || err != nil && !errors.Is(err, rode.ErrInput) {
				t.Errorf("%s: got %v at %v", name, err, pull)
			}
		}
	}
	st := mustSolve(t, of(c, rope), site, 3000)
	for name, spoil := range map[string]func(st *rode.State){
		"no parts":     func(st *rode.State) { st.Parts = nil },
		"a part less":  func(st *rode.State) { st.Parts = st.Parts[:len(st.Parts)-1] },
		"a part more":  func(st *rode.State) { st.Parts = append(st.Parts, st.Parts[len(st.Parts)-1]) },
		"out of order": func(st *rode.State) { slices.Reverse(st.Parts) },
		"no number":    func(st *rode.State) { st.Parts[0].Length = units.Length(math.NaN()) },
		"no depth":     func(st *rode.State) { st.Depth = units.Length(math.NaN()) },
	} {
		bad := st
		bad.Parts = slices.Clone(st.Parts)
		spoil(&bad)
		if _, err := one.Energy(&bad); !errors.Is(err, rode.ErrInput) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// After a solution that failed nothing is left of the one before.
func TestNoEnergyAfterAFailure(t *testing.T) {
	rope := rode.Piece{Name: "rope", Kind: rode.OfRope, Length: 12, Mass: 0.12, Density: 1140, Stretch: rode.LinearStretch(100e3)}
	rope.Stretch.Limit = 10e3
	sv := mustSolver(t, rode.Rode{Pieces: []rode.Piece{rope}}, rode.Site{Depth: 5})
	for name, fail := range map[string]func(st *rode.State) error{
		"beyond the curve": func(st *rode.State) error { return sv.Solve(st, 20e3) },
		"less than none":   func(st *rode.State) error { return sv.Solve(st, -1) },
		"far":              func(st *rode.State) error { return sv.SolveDistance(st, 1e3) },
		"slack":            func(st *rode.State) error { return sv.SolveTension(st, 0.01) },
	} {
		var st rode.State
		if err := sv.Solve(&st, 500); err != nil {
			t.Fatal(err)
		}
		if err := fail(&st); err == nil {
			t.Fatalf("%s: no error", name)
		}
		if _, err := sv.Energy(&st); !errors.Is(err, rode.ErrInput) || st.Pull != 0 || st.Distance != 0 {
			t.Errorf("%s: got %v of %+v", name, err, st)
		}
	}
}

// A solver keeps to the rode that it was made of, whatever becomes of the caller's.
func TestSolverKeepsItsRode(t *testing.T) {
	r := rode.Rode{
		AtAnchor: []rode.Fitting{{Name: "shackle", Working: 2e3}},
		Pieces:   []rode.Piece{chain(20), warp(25)},
	}
	r.Pieces[0].Top = []rode.Fitting{{Name: "kellet", Mass: 12, Volume: 1.1e-3, Breaking: 5e3}}
	sv := mustSolver(t, r, anchorage)
	var before, after rode.State
	if err := sv.Solve(&before, 600); err != nil {
		t.Fatal(err)
	}
	r.AtAnchor[0] = rode.Fitting{Name: "other", Working: 1}
	r.Pieces[0].Top[0] = rode.Fitting{Name: "other", Breaking: 1}
	r.Pieces[0].Name, r.Pieces[1].Breaking, r.Pieces[1].Stretch = "other", 1, rode.LinearStretch(1)
	if err := sv.Solve(&after, 600); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(before, after); d != "" {
		t.Error(d)
	}
}
