package rode

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
)

// Newton's method doubles the digits with each walk down the line, where halving
// a bracket gains one digit in three. So a search for sixteen digits takes a few
// walks from a fair start: some 50 by halving, 2500 for the pair of searches that
// a distance needs. The bounds are a quarter above what it takes; those of the loops
// themselves only say that they end.
func TestStepsOfTheSolver(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(r *rand.Rand) (Rode, Site)
		most [3]float64 // walks on the average, by given
	}{
		{"chain under water", func(r *rand.Rand) (Rode, Site) {
			return Rode{Pieces: []Piece{randomChain(r)}}, Site{Depth: units.Length(3 + 7*r.Float64()), Roller: 0, Friction: 0.5}
		}, [3]float64{3.2, 25, 12}},
		{"chain from a roller", func(r *rand.Rand) (Rode, Site) {
			return Rode{Pieces: []Piece{randomChain(r)}}, Site{Depth: units.Length(3 + 7*r.Float64()), Roller: 1.5, Friction: 0.5}
		}, [3]float64{3.5, 26, 12.5}},
		{"chain and rope", func(r *rand.Rand) (Rode, Site) {
			return Rode{Pieces: []Piece{randomChain(r), randomRope(r)}}, Site{Depth: units.Length(3 + 7*r.Float64()), Roller: 1.5, Friction: 0.5}
		}, [3]float64{9.5, 53, 29}},
		{"kellet on a slope", func(r *rand.Rand) (Rode, Site) {
			low := randomChain(r)
			low.Top = []Fitting{{Name: "kellet", Mass: 15, Volume: 15.0 / 7850}}
			return Rode{Pieces: []Piece{low, randomRope(r), randomChain(r)}},
				Site{Depth: units.Length(8 + 7*r.Float64()), Roller: 1.5, Friction: 0.5, Slope: units.Angle(0.1*r.Float64() - 0.06)}
		}, [3]float64{9.5, 53, 29}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			var mean [3]float64
			const n = 300
			for range n {
				rd, s := c.make(r)
				sv, err := NewSolver(rd, s)
				if err != nil {
					t.Fatal(err)
				}
				pull := sv.line.weight * math.Exp(7*r.Float64()-4)
				var st balanced
				for by, want := range [...]func() float64{
					givenPull:     func() float64 { return pull },
					givenDistance: func() float64 { return st.run },
					givenTension:  func() float64 { return math.Hypot(st.h, st.v) },
				} {
					var b balanced
					if err := sv.line.solve(given(by), want(), nil, &b); err != nil {
						t.Fatal(err)
					}
					if by == 0 {
						st = b
					}
					mean[by] += float64(b.steps) / n
				}
			}
			for by, m := range mean {
				if !(m >= 1 && m <= c.most[by]) {
					t.Errorf("given %d: %.1f walks, want at most %.1f", by, m, c.most[by])
				}
			}
			t.Log(mean)
		})
	}
}

func randomChain(r *rand.Rand) Piece {
	return Piece{
		Name: "chain", Length: units.Length(20 + 40*r.Float64()), Mass: units.LinearDensity(1 + 3*r.Float64()), Density: Steel,
		Stretch: LinearStretch(units.Force(1e6 * math.Exp(3*r.Float64()))),
	}
}

func randomRope(r *rand.Rand) Piece {
	b := -0.6645 * float64(r.IntN(2))
	return Piece{
		Name: "rope", Kind: OfRope, Length: units.Length(10 + 30*r.Float64()), Mass: 0.12, Density: 1140,
		Stretch: Stretch{Reference: 40e3, A: 0.6612, B: b, C: 0.3535},
	}
}
