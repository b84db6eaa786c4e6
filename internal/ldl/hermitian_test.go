package ldl_test

import (
	"errors"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/internal/ldl"
)

// The solution is put back into the matrix, kept whole beside the factors.
func TestHermitian(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		n := 1 + rng.IntN(30)
		links := make([][2]int, rng.IntN(3*n))
		for i := range links {
			links[i] = [2]int{rng.IntN(n), rng.IntN(n)}
		}
		m := ldl.New(n, links).Hermitian()
		whole := make([][]complex128, n)
		for r := range whole {
			whole[r] = make([]complex128, n)
			d := rng.Float64()
			m.AddDiagonal(r, d)
			whole[r][r] += complex(d, 0)
		}
		for i, l := range links {
			a, b := l[0], l[1]
			x := complex(rng.NormFloat64(), rng.NormFloat64())
			m.AddDiagonal(a, cmplx.Abs(x))
			m.AddDiagonal(b, cmplx.Abs(x))
			whole[a][a] += complex(cmplx.Abs(x), 0)
			whole[b][b] += complex(cmplx.Abs(x), 0)
			if a == b {
				m.AddLink(i, a, b, x) // adds nothing
				continue
			}
			if rng.IntN(2) == 0 {
				m.AddLink(i, a, b, x)
			} else {
				m.AddLink(i, b, a, cmplx.Conj(x))
			}
			whole[a][b] += x
			whole[b][a] += cmplx.Conj(x)
		}
		if err := m.Factor(); err != nil {
			t.Fatal(err)
		}
		b := make([]complex128, n)
		for r := range b {
			b[r] = complex(rng.NormFloat64(), rng.NormFloat64())
		}
		x := append([]complex128(nil), b...)
		m.Solve(x)
		for r := range x {
			sum, size := -b[r], 1.0
			for s := range x {
				sum += whole[r][s] * x[s]
				size += cmplx.Abs(whole[r][s] * x[s])
			}
			if cmplx.Abs(sum) > 1e-11*size {
				t.Fatalf("n=%d row %d: off by %g", n, r, cmplx.Abs(sum))
			}
		}
	}
	m := ldl.New(2, [][2]int{{0, 1}}).Hermitian()
	m.AddDiagonal(0, 1)
	m.AddDiagonal(1, 1)
	m.AddLink(0, 0, 1, 2i)
	if err := m.Factor(); !errors.Is(err, ldl.ErrNotPositive) {
		t.Errorf("error %v, want %v", err, ldl.ErrNotPositive)
	}
	m = ldl.New(2, [][2]int{{0, 1}}).Hermitian()
	m.AddDiagonal(0, 1)
	m.AddDiagonal(1, 1)
	m.AddLink(0, 0, 1, 1i) // the second pivot is 0
	if err := m.Factor(); !errors.Is(err, ldl.ErrNotPositive) {
		t.Errorf("singular: error %v, want %v", err, ldl.ErrNotPositive)
	}
}
