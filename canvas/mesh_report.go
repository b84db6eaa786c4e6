package canvas

import (
	"fmt"
	"math"
	"math/cmplx"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Limits are what the cloth bears. Where one is 0 a figure common for firm woven
// cloth stands for it; cut a strip each way and try how far yours goes.
type Limits struct {
	Warp, Weft float64     // stretch along the threads, as a part; 0.01 and 0.02
	Shear      units.Angle // of warp and weft from square; 3 degrees
	// Ease is how much longer than what it covers an edge may be, as a part; what
	// is more than that is taken out by darts. 0.05.
	Ease float64
}

// Flattening is a mesh laid flat.
type Flattening struct {
	// Cover has a panel for each sheet and a seam for each line inside the mesh.
	// The two sides of a seam differ by what the flattening could not avoid, which is
	// declared as its fullness.
	Cover  Cover
	Sheets []Sheet // in the order of the panels
}

// Sheet is how a panel came out of the mesh.
type Sheet struct {
	Panel     string
	Points    []Point // where the points lie on the panel
	From      []int   // which points of the mesh they are
	Triangles []Strain
	Edges     []Fullness
	// Surface is the area on the mesh, Flat that of the panel.
	Surface, Flat units.Area
	// Defect is the angle that is missing round a point inside the sheet, 360 degrees
	// less the angles of its triangles, where it is greatest without regard to sign, and At that
	// point of the mesh, -1 if there is none inside. Total is the sum over all of
	// them. Only where all are 0 can a sheet lie flat without strain: cloth must
	// stretch or be gathered round a positive one (a dome), and round a negative one (a saddle).
	Defect, Total units.Angle
	At            int
	// Energy is the mean over the surface of the squares of both principal strains.
	Energy float64
	// Warp, Weft and Shear are the greatest stretch and the greatest shear without
	// regard to sign; Gather is the greatest shortening along a thread.
	Warp, Weft, Gather float64
	Shear              units.Angle
	Over               []int // triangles, by their place in Triangles, beyond the limits
	Advice             []string
}

// Strain is what the cloth of a triangle bears when it is on the surface.
type Strain struct {
	Triangle   int         // of the mesh
	Corners    [3]int      // in Points of the sheet
	Warp, Weft float64     // stretch along the threads, negative where they are gathered
	Shear      units.Angle // how much less than a right angle is between warp and weft
}

// Fullness compares an edge with what it goes round.
type Fullness struct {
	Edge          string
	Surface, Flat units.Length
	// Fullness is how much longer the edge is, as a part of Surface: to be eased
	// in, or, when negative, to be stretched.
	Fullness float64
	Dart     units.Length // to be taken out of the edge beyond what can be eased in
}

func (l Limits) check() (Limits, error) {
	var c checker
	between(&c, "Limits.Warp", l.Warp, 0, 1)
	between(&c, "Limits.Weft", l.Weft, 0, 1)
	between(&c, "Limits.Shear", l.Shear, 0, 45*units.Degree)
	between(&c, "Limits.Ease", l.Ease, 0, 1)
	for _, d := range []struct {
		value *float64
		usual float64
	}{{&l.Warp, 0.01}, {&l.Weft, 0.02}, {(*float64)(&l.Shear), float64(3 * units.Degree)}, {&l.Ease, 0.05}} {
		if *d.value == 0 {
			*d.value = d.usual
		}
	}
	return l, c.err
}

// back is the map from the flat to a triangle's own plane, z = p u + q conj(u).
func (t *flatTriangle) back(u []complex128) (p, q complex128) {
	a, b := t.parts(u)
	d := complex(inner(a, a)-inner(b, b), 0)
	return cmplx.Conj(a) / d, -b / d
}

// grain is the direction of the warp, from 0 to pi, that makes least the sum over
// the flat of the squares of warp strain, weft strain and shear, each divided by its limit.
// Strains are Green's, so that the sum is one of waves of twice and four times the
// angle. It is 0 where the direction makes no difference.
func (f *flattener) grain(l Limits) float64 {
	warp, weft, shear := 1/(l.Warp*l.Warp), 1/(l.Weft*l.Weft), 1/(float64(l.Shear)*float64(l.Shear))
	var two, four complex128
	size := 0.0
	for i := range f.tri {
		t := &f.tri[i]
		p, q := t.back(f.u)
		mean := complex((inner(p, p)+inner(q, q)-1)/2, 0)
		x := p * cmplx.Conj(q) // along e^(ig): mean + Re(x e^(2ig)); shear -2 Im(x e^(2ig))
		two += complex(t.area*(warp-weft), 0) * mean * x
		four += complex(t.area*((warp+weft)/2-2*shear), 0) * x * x
		size += t.area * warp
	}
	if 2*cmplx.Abs(two)+cmplx.Abs(four) < 1e-12*size {
		return 0
	}
	cost := func(g float64) float64 {
		return real(2*two*cmplx.Rect(1, 2*g) + four*cmplx.Rect(1, 4*g))
	}
	best, step := 0.0, math.Pi/180
	for k := range 180 {
		if g := float64(k) * step; cost(g) < cost(best) {
			best = g
		}
	}
	// Between its neighbours the best one has a single least cost, where the slope
	// turns. The cost itself would show it to half the digits only.
	slope := func(g float64) float64 {
		return -imag(two*cmplx.Rect(1, 2*g) + four*cmplx.Rect(1, 4*g))
	}
	from, to := best-step, best+step
	for range 52 {
		if best = (from + to) / 2; slope(best) < 0 {
			from = best
		} else {
			to = best
		}
	}
	if math.Abs(best) < 1e-9 {
		return 0 // rather than half a turn, by rounding
	}
	return math.Mod(best+math.Pi, math.Pi)
}

// report measures a sheet that lies flat.
func (m *Mesh) report(h *sheet, f *flattener, grain float64, l Limits) Sheet {
	s := Sheet{From: h.from, At: -1}
	at, defect, total := m.defect(h)
	if s.Defect, s.Total = defect, total; at >= 0 {
		s.At = h.from[at]
	}
	for _, u := range f.u {
		s.Points = append(s.Points, wrap(plane.Point{X: real(u), Y: imag(u)}))
	}
	way := cmplx.Rect(1, grain)
	for i := range f.tri {
		t := &f.tri[i]
		p, q := t.back(f.u)
		warp := p*way + q*cmplx.Conj(way)
		weft := 1i*p*way - 1i*q*cmplx.Conj(way)
		x := Strain{
			Triangle: h.of[i], Corners: t.p,
			Warp: cmplx.Abs(warp) - 1, Weft: cmplx.Abs(weft) - 1,
			Shear: units.Angle(math.Asin(inner(warp, weft) / (cmplx.Abs(warp) * cmplx.Abs(weft)))),
		}
		s.Triangles = append(s.Triangles, x)
		s.Warp, s.Weft = math.Max(s.Warp, x.Warp), math.Max(s.Weft, x.Weft)
		s.Gather = math.Max(s.Gather, math.Max(-x.Warp, -x.Weft))
		s.Shear = max(s.Shear, x.Shear.Abs())
		if x.Warp > l.Warp || x.Weft > l.Weft || x.Shear.Abs() > l.Shear {
			s.Over = append(s.Over, i)
		}
		s.Surface += units.Area(t.area)
		s.Flat += units.Area(t.area / (inner(p, p) - inner(q, q)))
	}
	s.Energy = f.energy() / float64(s.Surface)
	return s
}

// advise puts into words what the figures say.
func (s *Sheet) advise(l Limits) {
	if s.Defect.Abs() > flatDefect {
		s.Advice = append(s.Advice, fmt.Sprintf("This surface bends two ways and cannot lie flat without strain: the angle defect is %.2g degrees at point %d, and %.3g in all.",
			s.Defect.Degrees(), s.At, s.Total.Degrees()))
	}
	if len(s.Over) > 0 {
		s.Advice = append(s.Advice, fmt.Sprintf("%d of %d triangles are strained beyond the limits of %.2g %% along the warp, %.2g %% along the weft and %.2g degrees of shear, "+
			"up to %.2g %%, %.2g %% and %.2g degrees: add a seam or a dart.",
			len(s.Over), len(s.Triangles), 100*l.Warp, 100*l.Weft, l.Shear.Degrees(), 100*s.Warp, 100*s.Weft, s.Shear.Degrees()))
	}
	for _, e := range s.Edges {
		switch {
		case e.Dart > 0:
			s.Advice = append(s.Advice, fmt.Sprintf("%s: ease in %.1f mm and take out %.1f mm in darts.", e.Edge, (e.Flat-e.Surface-e.Dart).Millimetres(), e.Dart.Millimetres()))
		case e.Flat-e.Surface >= 0.5*units.Millimetre:
			s.Advice = append(s.Advice, fmt.Sprintf("%s: ease in %.1f mm.", e.Edge, (e.Flat-e.Surface).Millimetres()))
		case e.Surface-e.Flat >= 0.5*units.Millimetre:
			s.Advice = append(s.Advice, fmt.Sprintf("%s: stretch by %.1f mm.", e.Edge, (e.Surface-e.Flat).Millimetres()))
		}
	}
}

// flatDefect is what rounding alone leaves of the angles round a point, for
// triangles that are not slivers.
const flatDefect = 1e-9
