package ldl_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.com/forepeak/internal/ldl"
)

// The solution is compared with a dense Cholesky factorisation, on matrices of
// random pattern, twice with different values in the same pattern.
func TestSolveAgainstDense(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for trial := range 300 {
		n := 1 + rng.IntN(30)
		if trial < 5 {
			n = 60 + rng.IntN(100) // more neighbours than one word of bits has
		}
		links := make([][2]int, rng.IntN(3*n))
		for i := range links {
			links[i] = [2]int{rng.IntN(n), rng.IntN(n)}
		}
		m := ldl.New(n, links)
		for range 2 {
			m.Clear()
			dense := mat.NewSymDense(n, nil)
			for r := range n {
				dense.SetSym(r, r, rng.Float64())
				m.AddDiagonal(r, dense.At(r, r))
			}
			for i, l := range links {
				a, b := l[0], l[1]
				g := rng.Float64()
				m.AddDiagonal(a, g)
				m.AddDiagonal(b, g)
				dense.SetSym(a, a, dense.At(a, a)+g)
				dense.SetSym(b, b, dense.At(b, b)+g)
				if a != b {
					dense.SetSym(a, b, dense.At(a, b)-g)
				}
				m.AddLink(i, -g)
			}
			b := mat.NewVecDense(n, nil)
			for r := range n {
				b.SetVec(r, rng.NormFloat64())
			}
			var chol mat.Cholesky
			if !chol.Factorize(dense) {
				t.Fatal("dense matrix is not positive definite")
			}
			var want mat.VecDense
			if err := chol.SolveVecTo(&want, b); err != nil {
				t.Fatal(err)
			}
			if err := m.Factor(); err != nil {
				t.Fatal(err)
			}
			x := b.RawVector().Data
			m.Solve(x)
			for r := range x {
				if math.Abs(x[r]-want.AtVec(r)) > 1e-11*(1+math.Abs(want.AtVec(r))) {
					t.Fatalf("n=%d row %d: %g, want %g", n, r, x[r], want.AtVec(r))
				}
			}
		}
	}
}

func TestFactorRefusesIndefinite(t *testing.T) {
	m := ldl.New(2, [][2]int{{0, 1}})
	m.AddDiagonal(0, 1)
	m.AddDiagonal(1, 1)
	m.AddLink(0, 2)
	if err := m.Factor(); !errors.Is(err, ldl.ErrNotPositive) {
		t.Errorf("error %v, want %v", err, ldl.ErrNotPositive)
	}
	m.Clear()
	m.AddDiagonal(0, math.NaN())
	m.AddDiagonal(1, 1)
	if err := m.Factor(); !errors.Is(err, ldl.ErrNotPositive) {
		t.Errorf("error %v for a NaN, want %v", err, ldl.ErrNotPositive)
	}
}

func TestFactorRefusesSingular(t *testing.T) {
	m := ldl.New(2, [][2]int{{0, 1}})
	m.AddDiagonal(0, 1)
	m.AddDiagonal(1, 1)
	m.AddLink(0, -1)
	if err := m.Factor(); !errors.Is(err, ldl.ErrNotPositive) {
		t.Errorf("error %v, want %v", err, ldl.ErrNotPositive)
	}
}

func TestSolveAllocatesNothing(t *testing.T) {
	const n = 50
	links := make([][2]int, 0, n-1)
	for i := range n - 1 {
		links = append(links, [2]int{i, i + 1})
	}
	m := ldl.New(n, links)
	b := make([]float64, n)
	if allocs := testing.AllocsPerRun(10, func() {
		m.Clear()
		for i := range links {
			m.AddDiagonal(i, 3)
			m.AddLink(i, -1)
		}
		m.AddDiagonal(n-1, 3)
		if err := m.Factor(); err != nil {
			t.Error(err)
		}
		m.Solve(b)
	}); allocs != 0 {
		t.Errorf("%g allocations", allocs)
	}
}
