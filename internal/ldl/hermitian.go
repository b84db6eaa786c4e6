package ldl

// Hermitian is a complex matrix that is its own conjugate transpose, of a fixed
// pattern, and its factors L D L*. D is real.
type Hermitian struct {
	*pattern
	diagonal []float64
	value    []complex128
	work     []complex128
}

// Hermitian returns an empty complex matrix with the pattern of m, which is not
// analysed again. Several may be used beside m and each other.
func (m *Matrix) Hermitian() *Hermitian {
	n := len(m.order)
	return &Hermitian{&m.pattern, make([]float64, n), make([]complex128, len(m.row)), make([]complex128, n)}
}

// AddDiagonal adds x at (r, r).
func (m *Hermitian) AddDiagonal(r int, x float64) { m.diagonal[m.place[r]] += x }

// AddLink adds x at (a, b) and its conjugate at (b, a) for a link (a, b) of the
// list that New had.
func (m *Hermitian) AddLink(link, a, b int, x complex128) {
	p := m.link[link]
	if p < 0 {
		return
	}
	if m.place[a] < m.place[b] { // L is below the diagonal
		x = complex(real(x), -imag(x))
	}
	m.value[p] += x
}

// Factor replaces the matrix by its factors.
func (m *Hermitian) Factor() error {
	w := m.work
	for k := range m.order {
		lo, hi := m.start[k], m.start[k+1]
		d := m.diagonal[k]
		for p := lo; p < hi; p++ {
			w[m.row[p]] = m.value[p]
		}
		for i := m.first[k]; i < m.first[k+1]; i++ {
			q, j := m.entry[i], m.column[i]
			re, im := real(m.value[q]), imag(m.value[q])
			d -= (re*re + im*im) * m.diagonal[j]
			a := complex(re*m.diagonal[j], -im*m.diagonal[j])
			for p := q + 1; p < m.start[j+1]; p++ {
				w[m.row[p]] -= m.value[p] * a
			}
		}
		if !(d > 0) {
			return ErrNotPositive
		}
		m.diagonal[k] = d
		for p := lo; p < hi; p++ {
			x := w[m.row[p]]
			m.value[p] = complex(real(x)/d, imag(x)/d)
		}
	}
	return nil
}

// Solve replaces b by the solution x of A x = b. Factor comes first.
func (m *Hermitian) Solve(b []complex128) {
	x := m.work
	for k, r := range m.order {
		x[k] = b[r]
	}
	for k := range x {
		for p := m.start[k]; p < m.start[k+1]; p++ {
			x[m.row[p]] -= m.value[p] * x[k]
		}
	}
	for k := len(x) - 1; k >= 0; k-- {
		s := complex(real(x[k])/m.diagonal[k], imag(x[k])/m.diagonal[k])
		for p := m.start[k]; p < m.start[k+1]; p++ {
			l := m.value[p]
			s -= complex(real(l), -imag(l)) * x[m.row[p]]
		}
		x[k] = s
	}
	for k, r := range m.order {
		b[r] = x[k]
	}
}
