package canvas

import (
	"math"
	"math/cmplx"

	"example.com/forepeak/internal/ldl"
)

// flattener lays a sheet flat. The plane is that of complex numbers, x + iy.
//
// A map of a triangle from its own plane z into the flat is u = a z + b conj(z) +
// const: it turns by the direction of a, and its principal stretches are |a| + |b|
// and |a| - |b|. What is made least is the sum over triangles of
//
//	area ((s1 - 1)^2 + (s2 - 1)^2) = 2 area ((|a| - 1)^2 + |b|^2)
//
// (Liu et al., A local/global approach to mesh parameterization, 2008). The map
// is conformal where b is 0.
type flattener struct {
	tri  []flatTriangle
	u    []complex128 // where the points are
	link [][2]int     // sides of triangles

	laplace *ldl.Hermitian // factored once, for all steps
	pattern *ldl.Matrix
}

type flatTriangle struct {
	p    [3]int
	link [3]int        // side k goes from corner k to the next
	z    [3]complex128 // corners in the triangle's own plane
	area float64
	// grad of the function that is 1 at a corner and 0 at the others: x + iy is its gradient.
	grad [3]complex128
}

func newFlattener(m *Mesh, h *sheet) *flattener {
	f := &flattener{u: make([]complex128, len(h.from)), tri: make([]flatTriangle, len(h.tri))}
	known := map[pair]int{}
	for i, p := range h.tri {
		q := m.Triangles[h.of[i]]
		x, y := sub(m.bare(q[1]), m.bare(q[0])), sub(m.bare(q[2]), m.bare(q[0]))
		t := &f.tri[i]
		t.p = p
		t.z[1] = complex(norm(x), 0)
		t.z[2] = complex(dot(x, y)/norm(x), norm(cross(x, y))/norm(x))
		t.area = norm(cross(x, y)) / 2
		for k := range 3 {
			t.grad[k] = 1i * (t.z[(k+2)%3] - t.z[(k+1)%3]) / complex(2*t.area, 0)
			s := pair{p[k], p[(k+1)%3]}
			l, twice := known[s.back()]
			if !twice {
				l = len(f.link)
				known[s] = l
				f.link = append(f.link, s)
			}
			t.link[k] = l
		}
	}
	f.pattern = ldl.New(len(f.u), f.link)
	return f
}

// parts are the a and b of a triangle under a map, which is linear in u.
func (t *flatTriangle) parts(u []complex128) (a, b complex128) {
	for k, g := range t.grad {
		w := u[t.p[k]]
		a += w * cmplx.Conj(g)
		b += w * g
	}
	return a / 2, b / 2
}

// fill is a matrix of the form sum of area entry(k, l) over the corners k, l of
// triangles, with the rows and columns of pins left out: a 1 stands there.
func (f *flattener) fill(entry func(t *flatTriangle, k, l int) complex128, pins ...int) *ldl.Hermitian {
	m := f.pattern.Hermitian()
	pinned := make([]bool, len(f.u))
	for _, p := range pins {
		pinned[p] = true
		m.AddDiagonal(p, 1)
	}
	for i := range f.tri {
		t := &f.tri[i]
		for k := range 3 {
			l := (k + 1) % 3
			p, q := t.p[k], t.p[l]
			if !pinned[p] {
				m.AddDiagonal(p, t.area*real(entry(t, k, k)))
			}
			if !pinned[p] && !pinned[q] {
				m.AddLink(t.link[k], p, q, complex(t.area, 0)*entry(t, k, l))
			}
		}
	}
	return m
}

func conformal(t *flatTriangle, k, l int) complex128 { return cmplx.Conj(t.grad[k]) * t.grad[l] }

func harmonic(t *flatTriangle, k, l int) complex128 {
	return complex(real(conformal(t, k, l)), 0)
}

// conform makes the sum of area |b|^2 least with two points held, which is least
// squares conformal (Levy et al., Least squares conformal maps, 2002), and then as
// large as the surface. It fails where the matrix has no digits left, as for
// long narrow strips.
func (f *flattener) conform(first, second int, apart float64) bool {
	m := f.fill(conformal, first, second)
	clear(f.u)
	for i := range f.tri {
		t := &f.tri[i]
		for k, p := range t.p {
			if p != second {
				continue
			}
			for l, q := range t.p {
				if q != first && q != second {
					f.u[q] -= complex(t.area*apart, 0) * conformal(t, l, k)
				}
			}
		}
	}
	f.u[second] = complex(apart, 0)
	if m.Factor() != nil {
		return false
	}
	m.Solve(f.u)
	surface, flat := 0.0, 0.0
	for i := range f.tri {
		a, b := f.tri[i].parts(f.u)
		surface += f.tri[i].area
		flat += f.tri[i].area * (real(a)*real(a) + imag(a)*imag(a) - real(b)*real(b) - imag(b)*imag(b))
	}
	if !(flat > 0) || math.IsInf(flat, 0) {
		return false
	}
	scale := complex(math.Sqrt(surface/flat), 0)
	for p := range f.u {
		f.u[p] *= scale
	}
	return true
}

// unfold lays one triangle after the other beside the one it was reached from,
// which is exact where the surface is developable.
func (f *flattener) unfold() {
	beside := make([][2]int, len(f.link)) // triangles at a link, -1 for none
	for i := range beside {
		beside[i] = [2]int{-1, -1}
	}
	for i := range f.tri {
		for _, l := range f.tri[i].link {
			if beside[l][0] < 0 {
				beside[l][0] = i
			} else {
				beside[l][1] = i
			}
		}
	}
	placed := make([]bool, len(f.u))
	seen := make([]bool, len(f.tri))
	for k, p := range f.tri[0].p {
		f.u[p], placed[p] = f.tri[0].z[k], true
	}
	seen[0] = true
	for row := []int{0}; len(row) > 0; row = row[1:] {
		for _, l := range f.tri[row[0]].link {
			for _, j := range beside[l] {
				if j < 0 || seen[j] {
					continue
				}
				seen[j] = true
				row = append(row, j)
				t := &f.tri[j]
				for k := range 3 {
					a, b, c := k, (k+1)%3, (k+2)%3
					if t.link[a] == l && !placed[t.p[c]] {
						turn := (f.u[t.p[b]] - f.u[t.p[a]]) / (t.z[b] - t.z[a])
						turn /= complex(cmplx.Abs(turn), 0)
						f.u[t.p[c]] = f.u[t.p[a]] + turn*(t.z[c]-t.z[a])
						placed[t.p[c]] = true
					}
				}
			}
		}
	}
}

// energy is what is made least.
func (f *flattener) energy() float64 {
	sum := 0.0
	for i := range f.tri {
		a, b := f.tri[i].parts(f.u)
		sum += f.tri[i].strain(a, b)
	}
	return sum
}

func (t *flatTriangle) strain(a, b complex128) float64 {
	d := math.Hypot(real(a), imag(a)) - 1
	return 2 * t.area * (d*d + real(b)*real(b) + imag(b)*imag(b))
}

// turned is a at length 1: the rotation nearest to a triangle's map.
func turned(a complex128) complex128 {
	if l := math.Hypot(real(a), imag(a)); l > 0 {
		return complex(real(a)/l, imag(a)/l)
	}
	return 1
}

const (
	mostSteps = 3000
	// still is the step, as a part of the size of the sheet, below which it has come to rest.
	still = 1e-12
)

// relax makes the energy least. A step to where every triangle is only turned as
// well as the others allow (local: the rotation of each; global: a linear system
// with the same matrix every time) is the steepest descent in that matrix's measure;
// directions are conjugated after Polak and Ribiere and followed to the least
// energy, which takes a fraction of the steps. It reports whether it came to rest.
func (f *flattener) relax() bool {
	n := len(f.u)
	if f.laplace == nil {
		f.laplace = f.fill(harmonic, 0)
		if f.laplace.Factor() != nil {
			return false
		}
	}
	area := 0.0
	for i := range f.tri {
		area += f.tri[i].area
	}
	pull, last, step, way := make([]complex128, n), make([]complex128, n), make([]complex128, n), make([]complex128, n)
	line := search{tri: f.tri}
	for _, c := range []*[]complex128{&line.a, &line.b, &line.da, &line.db} {
		*c = make([]complex128, len(f.tri))
	}
	a, b := line.a, line.b
	before := 0.0
	for count := range mostSteps {
		pull, last = last, pull
		clear(pull)
		line.energy = 0
		for i := range f.tri {
			t := &f.tri[i]
			a[i], b[i] = t.parts(f.u)
			line.energy += t.strain(a[i], b[i])
			off, w := a[i]-turned(a[i]), complex(t.area, 0)
			for k, g := range t.grad {
				pull[t.p[k]] -= w * (off*g + b[i]*cmplx.Conj(g))
			}
		}
		pull[0] = 0
		copy(step, pull)
		f.laplace.Solve(step)
		most, now, change := 0.0, 0.0, 0.0
		for p, s := range step {
			most = math.Max(most, math.Hypot(real(s), imag(s)))
			now += inner(s, pull[p])
			change += inner(s, pull[p]-last[p])
		}
		if most <= still*math.Sqrt(area) {
			return true
		}
		keep := 0.0
		if count > 0 && before > 0 {
			keep = math.Max(0, change/before)
		}
		before = now
		for p := range way {
			way[p] = step[p] + complex(keep, 0)*way[p]
		}
		length, ok := line.follow(way)
		if !ok { // the plain step always goes down
			copy(way, step)
			length = 1
		}
		for p := range f.u {
			f.u[p] += complex(length, 0) * way[p]
		}
	}
	return false
}

func inner(a, b complex128) float64 {
	return float64(real(a)*real(b)) + float64(imag(a)*imag(b))
}

// search is a search along a line: the parts of the triangles' maps now, and
// how they change along it.
type search struct {
	tri          []flatTriangle
	a, b, da, db []complex128
	energy       float64 // now
}

// follow finds how far along a direction the energy is least, by Newton's method.
func (s *search) follow(way []complex128) (length float64, ok bool) {
	a, b, da, db := s.a, s.b, s.da, s.db
	for i := range s.tri {
		da[i], db[i] = s.tri[i].parts(way)
	}
	slope0 := 0.0
	for count := range 4 {
		slope, bend := 0.0, 0.0
		for i := range s.tri {
			t := complex(length, 0)
			x, y := a[i]+t*da[i], b[i]+t*db[i]
			r := math.Hypot(real(x), imag(x))
			along, across := 0.0, 0.0
			if r > 0 {
				along = inner(x, da[i]) / r
				across = inner(1i*x, da[i]) / r
			}
			slope += s.tri[i].area * ((r-1)*along + inner(y, db[i]))
			bend += s.tri[i].area * (along*along + inner(db[i], db[i]))
			if r > 0 {
				bend += s.tri[i].area * (r - 1) / r * across * across
			}
		}
		if count == 0 {
			slope0 = slope
		}
		if !(bend > 0) || !(slope0 < 0) {
			return 0, false
		}
		length -= slope / bend
		if math.Abs(slope) <= 0.01*math.Abs(slope0) {
			break
		}
	}
	if !(length > 0 && length < 1e6) {
		return 0, false
	}
	then := 0.0
	for i := range s.tri {
		t := complex(length, 0)
		then += s.tri[i].strain(a[i]+t*da[i], b[i]+t*db[i])
	}
	return length, then <= s.energy*(1+1e-12)
}

// flatten starts from the better of two layouts.
func (f *flattener) flatten(first, second int, apart float64) bool {
	f.unfold()
	unfolded, least := append([]complex128(nil), f.u...), f.energy()
	if !f.conform(first, second, apart) || !(f.energy() < least) {
		f.u = unfolded
	}
	return f.relax()
}
