package canvas

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/forepeak/units"
)

// flattenerOf is the work on a grid over the unit square.
func flattenerOf(t *testing.T, rows, columns int, at func(x, y float64) Space) (*Mesh, *sheet, *flattener) {
	t.Helper()
	all := make([][]Space, rows)
	for i := range all {
		for j := range columns {
			all[i] = append(all[i], at(float64(j)/float64(columns-1), float64(i)/float64(rows-1)))
		}
	}
	m, err := Grid(all)
	if err != nil {
		t.Fatal(err)
	}
	sheets, _, err := m.open()
	if err != nil {
		t.Fatal(err)
	}
	return &m, &sheets[0], newFlattener(&m, &sheets[0])
}

func saddle(x, y float64) Space {
	return Space{X: units.Length(2 * x), Y: units.Length(y), Z: units.Length(0.4*x*x - 0.5*(y-0.3)*(y-0.3) + 0.2*x*y)}
}

// Each triangle in its own plane has the sides and the area that it has on the
// surface, and the gradients of its corners take a linear function apart.
func TestTrianglesInTheirPlanes(t *testing.T) {
	m, h, f := flattenerOf(t, 5, 6, saddle)
	r := rand.New(rand.NewPCG(3, 3))
	for i := range f.tri {
		x := &f.tri[i]
		for k := range 3 {
			d := x.z[(k+1)%3] - x.z[k]
			if want := m.side(h.from[x.p[k]], h.from[x.p[(k+1)%3]]); math.Abs(math.Hypot(real(d), imag(d))-want) > 1e-12 {
				t.Fatalf("a side of %v, on the surface %v", d, want)
			}
		}
		if want := m.area(m.Triangles[h.of[i]]); math.Abs(x.area-want) > 1e-12 {
			t.Fatalf("area %v, want %v", x.area, want)
		}
		// u = a z + b conj(z) + c at the corners gives a and b again.
		a, b, c := complex(r.NormFloat64(), r.NormFloat64()), complex(r.NormFloat64(), r.NormFloat64()), complex(r.NormFloat64(), r.NormFloat64())
		for k, z := range x.z {
			f.u[x.p[k]] = a*z + b*complex(real(z), -imag(z)) + c
		}
		p, q := x.parts(f.u)
		if d, e := p-a, q-b; math.Hypot(real(d), imag(d))+math.Hypot(real(e), imag(e)) > 1e-9 {
			t.Fatalf("%v and %v, want %v and %v", p, q, a, b)
		}
		// Back: z = p u + q conj(u).
		p, q = x.back(f.u)
		du, dz := f.u[x.p[1]]-f.u[x.p[0]], x.z[1]-x.z[0]
		if d := p*du + q*complex(real(du), -imag(du)) - dz; math.Hypot(real(d), imag(d)) > 1e-8 {
			t.Fatalf("back %v off", d)
		}
	}
}

// The conformal start: no free point can move without more of what is not conformal,
// and the sheet is as large as the surface. Unfolded, a developable one is as
// it should be already.
func TestStartsOfFlattening(t *testing.T) {
	m, h, f := flattenerOf(t, 7, 9, saddle)
	first, second, apart := m.apart(h)
	far := 0.0
	for _, a := range h.outline {
		for _, b := range h.outline {
			far = math.Max(far, m.side(h.from[a.a], h.from[b.a]))
		}
	}
	if first == second || math.Abs(apart-m.side(h.from[first], h.from[second])) > 1e-12 || apart < far/2 {
		t.Errorf("points %d and %d are %v apart, the outline is %v wide", first, second, apart, far)
	}
	if !f.conform(first, second, apart) {
		t.Fatal("no conformal start")
	}
	skew := func() (sum, flat, surface float64) {
		for i := range f.tri {
			a, b := f.tri[i].parts(f.u)
			aa, bb := real(a)*real(a)+imag(a)*imag(a), real(b)*real(b)+imag(b)*imag(b)
			sum += f.tri[i].area * bb
			flat += f.tri[i].area * (aa - bb)
			surface += f.tri[i].area
		}
		return sum, flat, surface
	}
	least, flat, surface := skew()
	if math.Abs(flat/surface-1) > 1e-9 {
		t.Errorf("%v flat, %v of surface", flat, surface)
	}
	for p := range f.u {
		if p == first || p == second {
			continue
		}
		for _, d := range []complex128{1e-4, -1e-4, 1e-4i, -1e-4i} {
			f.u[p] += d
			if got, _, _ := skew(); got < least {
				t.Fatalf("point %d: %v, before %v", p, got, least)
			}
			f.u[p] -= d
		}
	}
	_, _, f = flattenerOf(t, 6, 8, func(x, y float64) Space {
		return Space{X: units.Length(math.Cos(3 * x)), Y: units.Length(math.Sin(3 * x)), Z: units.Length(y)}
	})
	f.unfold()
	if e := f.energy(); e > 1e-20 {
		t.Errorf("an unfolded cylinder has %v", e)
	}
	if slices.Contains(f.u[1:], 0) {
		t.Error("a point was not placed")
	}
}

// Along a direction the search ends where the energy is least, or says that it found
// no such place; and the energy of triangles is that of their stretches.
func TestSearchAlongADirection(t *testing.T) {
	_, _, f := flattenerOf(t, 5, 6, saddle)
	f.unfold()
	r := rand.New(rand.NewPCG(5, 5))
	n := len(f.tri)
	found := 0
	for range 300 {
		u := slices.Clone(f.u)
		for p := range u {
			u[p] += complex(0.02*r.NormFloat64(), 0.02*r.NormFloat64())
		}
		way := make([]complex128, len(u))
		for p := range way {
			way[p] = complex(r.NormFloat64(), r.NormFloat64())
		}
		energy := func(length float64) float64 {
			sum := 0.0
			for i := range f.tri {
				moved := make([]complex128, len(u))
				for p := range u {
					moved[p] = u[p] + complex(length, 0)*way[p]
				}
				a, b := f.tri[i].parts(moved)
				s1, s2 := math.Hypot(real(a), imag(a))+math.Hypot(real(b), imag(b)), math.Hypot(real(a), imag(a))-math.Hypot(real(b), imag(b))
				sum += f.tri[i].area * ((s1-1)*(s1-1) + (s2-1)*(s2-1))
			}
			return sum
		}
		s := search{tri: f.tri, a: make([]complex128, n), b: make([]complex128, n), da: make([]complex128, n), db: make([]complex128, n)}
		for i := range f.tri {
			s.a[i], s.b[i] = f.tri[i].parts(u)
			s.energy += f.tri[i].strain(s.a[i], s.b[i])
		}
		here := energy(0)
		if math.Abs(s.energy-here) > 1e-9*here {
			t.Fatalf("energy %v, by stretches %v", s.energy, here)
		}
		if energy(1e-7) > here { // uphill: the other way round
			for p := range way {
				way[p] = -way[p]
			}
		}
		length, ok := s.follow(way)
		if !ok {
			continue
		}
		found++
		// The slope has fallen to a hundredth, or four steps of Newton were made.
		h := 1e-4 * length
		slope0, slope := (energy(h)-energy(0))/h, (energy(length+h)-energy(length-h))/(2*h)
		if !(length > 0) || energy(length) > here*(1+1e-9) || math.Abs(slope) > 0.02*math.Abs(slope0)+1e-6 {
			t.Fatalf("at %v: energy %v from %v, slope %v from %v", length, energy(length), here, slope, slope0)
		}
		for p := range way {
			way[p] = -way[p]
		}
		if _, ok := s.follow(way); ok {
			t.Fatal("uphill is followed")
		}
	}
	if found < 250 {
		t.Errorf("%d of 300 found", found)
	}
}
