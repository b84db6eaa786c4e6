// Package ldl factors symmetric and Hermitian positive definite matrices that are
// nearly empty, as those of electrical networks and of meshes are. The pattern of
// a matrix is analysed once; filling, factoring and solving again allocate nothing.
package ldl

import (
	"errors"
	mathbits "math/bits"
	"slices"
)

// ErrNotPositive is for a matrix with a pivot that is not more than 0.
var ErrNotPositive = errors.New("ldl: matrix is not positive definite")

// Matrix is a symmetric matrix of a fixed pattern and its factors L D L'.
//
// Rows are eliminated in order of least degree, which keeps the factors of a
// network as empty as its tree. Storage is by column of L in that order: the
// diagonal apart, then the rows below it.
type Matrix struct {
	pattern
	diagonal []float64 // of A, then of D; by place
	value    []float64 // of A, then of L
	work     []float64
}

// pattern says where a matrix and its factors have entries.
type pattern struct {
	order []int // order[k] is the row eliminated as the k-th
	place []int // the inverse: row r is eliminated as place[r]

	start []int // column k is value[start[k]:start[k+1]]
	row   []int // place of each value's row, more than k
	link  []int // position in value of each link

	// The entries of L by row, which factoring needs too: row k has those at
	// entry[first[k]:first[k+1]], in the columns column[first[k]:first[k+1]], from left to right.
	first, entry, column []int
}

// New analyses the pattern of an n by n matrix that has the diagonal and, for each
// link, the two entries (a, b) and (b, a). A link with a == b stands for nothing
// off the diagonal.
func New(n int, links [][2]int) *Matrix {
	m := &Matrix{
		pattern: pattern{
			order: make([]int, 0, n),
			place: make([]int, n),
			start: make([]int, n+1),
			link:  make([]int, len(links)),
			first: make([]int, n+1),
		},
		diagonal: make([]float64, n),
		work:     make([]float64, n),
	}
	// Neighbours that are not eliminated yet, a row of bits for each.
	words := (n + 63) / 64
	bits := make([]uint64, n*words)
	alive := func(r int) []uint64 { return bits[r*words : (r+1)*words] }
	set := func(r, s int) { alive(r)[s/64] |= 1 << (s % 64) }
	for _, l := range links {
		if l[0] != l[1] {
			set(l[0], l[1])
			set(l[1], l[0])
		}
	}
	degree := make([]int, n) // -1 once eliminated
	count := func(r int) {
		degree[r] = 0
		for _, w := range alive(r) {
			degree[r] += mathbits.OnesCount64(w)
		}
	}
	for r := range n {
		count(r)
	}
	columns := make([][]int, n) // by place, of rows
	for k := range n {
		least := -1
		for r, d := range degree {
			if d >= 0 && (least < 0 || d < degree[least]) {
				least = r
			}
		}
		m.place[least] = k
		m.order = append(m.order, least)
		columns[k] = make([]int, 0, degree[least])
		degree[least] = -1
		for i, w := range alive(least) {
			for ; w != 0; w &= w - 1 {
				columns[k] = append(columns[k], 64*i+mathbits.TrailingZeros64(w))
			}
		}
		for _, r := range columns[k] { // what is left behind is linked to each other
			row := alive(r)
			for i, w := range alive(least) {
				row[i] |= w
			}
			row[r/64] &^= 1 << (r % 64)
			row[least/64] &^= 1 << (least % 64)
			count(r)
		}
	}
	for k, rows := range columns {
		m.start[k] = len(m.row)
		for _, r := range rows {
			m.row = append(m.row, m.place[r])
		}
		slices.Sort(m.row[m.start[k]:])
	}
	m.start[n] = len(m.row)
	m.value = make([]float64, len(m.row))
	for i, l := range links {
		m.link[i] = -1
		if l[0] != l[1] {
			m.link[i] = m.find(m.place[l[0]], m.place[l[1]])
		}
	}
	for _, r := range m.row {
		m.first[r+1]++
	}
	for k := range n {
		m.first[k+1] += m.first[k]
	}
	m.entry, m.column = make([]int, len(m.row)), make([]int, len(m.row))
	next := slices.Clone(m.first)
	for k := range n {
		for p := m.start[k]; p < m.start[k+1]; p++ {
			i := next[m.row[p]]
			m.entry[i], m.column[i] = p, k
			next[m.row[p]]++
		}
	}
	return m
}

// find returns the position of an entry off the diagonal that the pattern has.
func (m *pattern) find(a, b int) int {
	if a > b {
		a, b = b, a
	}
	i, _ := slices.BinarySearch(m.row[m.start[a]:m.start[a+1]], b)
	return m.start[a] + i
}

// Clear sets the matrix to 0.
func (m *Matrix) Clear() {
	clear(m.diagonal)
	clear(m.value)
}

// AddDiagonal adds x at (r, r).
func (m *Matrix) AddDiagonal(r int, x float64) { m.diagonal[m.place[r]] += x }

// AddLink adds x at both entries of a link, given by its position in the list
// that New had.
func (m *Matrix) AddLink(link int, x float64) {
	if p := m.link[link]; p >= 0 {
		m.value[p] += x
	}
}

// Factor replaces the matrix by its factors. After an error the matrix has to be
// cleared and filled again.
func (m *Matrix) Factor() error {
	w := m.work
	for k := range m.order {
		lo, hi := m.start[k], m.start[k+1]
		d := m.diagonal[k]
		for p := lo; p < hi; p++ {
			w[m.row[p]] = m.value[p]
		}
		for i := m.first[k]; i < m.first[k+1]; i++ { // what the columns to the left take off
			q, j := m.entry[i], m.column[i]
			a := m.value[q] * m.diagonal[j]
			d -= m.value[q] * a
			for p := q + 1; p < m.start[j+1]; p++ {
				w[m.row[p]] -= m.value[p] * a
			}
		}
		if !(d > 0) {
			return ErrNotPositive
		}
		m.diagonal[k] = d
		for p := lo; p < hi; p++ {
			m.value[p] = w[m.row[p]] / d
		}
	}
	return nil
}

// Solve replaces b by the solution x of A x = b. Factor comes first.
func (m *Matrix) Solve(b []float64) {
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
		x[k] /= m.diagonal[k]
		for p := m.start[k]; p < m.start[k+1]; p++ {
			x[k] -= m.value[p] * x[m.row[p]]
		}
	}
	for k, r := range m.order {
		b[r] = x[k]
	}
}
