package rode_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Read the ratios within one run:
//
//	go test ./rode -run '^$' -bench . -benchmem
//
// SinglePull against ClosedForm and ClosedFormState: the whole solution against
// the formulas of one elastic chain under water evaluated once, as nine numbers
// or put into the same State, which is what a person would do who knows beforehand
// that part of the chain lies on the bed. It takes about 3.0 and 1.4 times those.
//
// SingleDistance and MixedDistance against their Bisection: the same equations,
// given to nested bisection on a shape that gonum's quadrature integrates.

const (
	benchDepth  = 9.0
	benchChainL = 60.0
	benchChainW = 1.4 * 9.80665 * (1 - 1025.0/7850)
	benchEA     = 0.854e11 * 8e-3 * 8e-3
)

func benchChain(l units.Length) rode.Piece {
	return rode.Piece{Name: "chain", Length: l, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(benchEA)}
}

func singleChain(b *testing.B, roller units.Length) *rode.Solver {
	b.Helper()
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{benchChain(benchChainL)}}, rode.Site{Depth: benchDepth, Roller: roller, Friction: 0.7})
	if err != nil {
		b.Fatal(err)
	}
	return sv
}

// mixedRode is chain, a kellet, rope and a chain leader.
func mixedRode(b *testing.B) *rode.Solver {
	b.Helper()
	rope := rode.Piece{
		Name: "rope", Kind: rode.OfRope, Length: 30, Mass: 0.122, Density: 1140,
		Stretch: rode.Stretch{Reference: 40e3, A: 0.6612, B: -0.6645, C: 0.3535},
	}
	chain := benchChain(40)
	chain.Top = []rode.Fitting{{Name: "kellet", Mass: 12, Volume: 12.0 / 11340}}
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{chain, rope, benchChain(3)}}, rode.Site{Depth: benchDepth, Friction: 0.7})
	if err != nil {
		b.Fatal(err)
	}
	return sv
}

func BenchmarkSinglePull(b *testing.B) {
	for _, c := range []struct {
		name   string
		roller units.Length
	}{{"UnderWater", 0}, {"RollerAbove", 1.45}} {
		b.Run(c.name, func(b *testing.B) {
			sv := singleChain(b, c.roller)
			var st rode.State
			b.ReportAllocs()
			for b.Loop() {
				if err := sv.Solve(&st, 800); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// closedForm are the same results for one elastic chain under water.
type closedForm struct {
	tension, vertical, angle, distance, onBed, friction, anchor, stretch, stiffness float64
}

//go:noinline
func closedFormOf(h float64) (c closedForm) {
	const w, ea, l, z, mu = benchChainW, benchEA, benchChainL, benchDepth, 0.7
	// (t - h)(1 + (t + h)/2EA) = w z
	a := 1 + h/ea
	d := 2 * w * z / (a + math.Sqrt(a*a+2*w*z/ea))
	c.tension = h + d
	c.vertical = math.Sqrt(d * (2*h + d))
	c.angle = math.Atan2(c.vertical, h)
	s := c.vertical / w
	c.onBed = l - s
	u := math.Log((c.vertical + c.tension) / h)
	c.friction = math.Min(h, mu*w*c.onBed)
	c.anchor = h - c.friction
	taut := math.Min(c.onBed, h/(mu*w))
	bed := taut * (h + c.anchor) / 2 / ea
	hung := (c.vertical*c.tension + h*h*u) / (2 * w * ea)
	c.stretch = bed + hung
	c.distance = c.onBed + bed + h/w*u + h*s/ea
	dt := (1 + h/ea) / (1 + c.tension/ea)
	dv := (c.tension*dt - h) / c.vertical
	dbed := taut/ea - dv/w*(1+c.anchor/ea)
	c.stiffness = 1 / (dbed + u/w + (dv*h-c.vertical)/(w*c.tension) + (c.vertical+h*dv)/(w*ea))
	return c
}

var sink closedForm

func BenchmarkClosedForm(b *testing.B) {
	h := 800.0
	for b.Loop() {
		sink = closedFormOf(h)
	}
}

// closedFormState puts the same results where the solver does: into the fields
// and the slices of a State that is used again.
//
//go:noinline
func closedFormState(st *rode.State, chain *rode.Piece, h float64) {
	c := closedFormOf(h)
	st.Pull, st.Vertical, st.Tension, st.BowAngle = units.Force(h), units.Force(c.vertical), units.Force(c.tension), units.Angle(c.angle)
	st.Depth = benchDepth
	st.Distance, st.Out, st.Scope, st.Stretch, st.Slack = units.Length(c.distance), chain.Length, float64(chain.Length)/benchDepth, units.Length(c.stretch), 0
	st.OnBed, st.Lifted, st.Friction = units.Length(c.onBed), false, units.Force(c.friction)
	st.Anchor = rode.AnchorPull{Tension: units.Force(c.anchor), Horizontal: units.Force(c.anchor), FromLevel: units.Angle(math.Atan2(0, c.anchor))}
	st.Stiffness, st.Condition = units.Stiffness(c.stiffness), c.distance*c.stiffness/h
	touch := rode.Position{X: units.Length(c.distance)}
	bow := rode.Position{X: st.Distance, Z: benchDepth}
	st.Pieces = append(st.Pieces[:0], rode.PieceState{
		Name: chain.Name, Upper: bow, TensionLower: st.Anchor.Tension, TensionUpper: st.Tension, MaxTension: st.Tension,
		Stretch: st.Stretch, OnBed: st.OnBed,
	})
	st.Joints = st.Joints[:0]
	st.WeakestWorking, st.WeakestBreaking = rode.Loaded{}, rode.Loaded{}
	st.Parts = append(st.Parts[:0],
		rode.Part{Length: st.OnBed, OnBed: true, Upper: touch, TensionLower: st.Anchor.Tension, TensionUpper: st.Pull, Stretch: chain.Stretch},
		rode.Part{
			Length: chain.Length - st.OnBed, Lower: touch, Upper: bow, Horizontal: st.Pull, VerticalUpper: st.Vertical,
			TensionLower: st.Pull, TensionUpper: st.Tension, Stretch: chain.Stretch,
		})
}

func BenchmarkClosedFormState(b *testing.B) {
	h := 800.0
	chain := benchChain(benchChainL)
	var st rode.State
	for b.Loop() {
		closedFormState(&st, &chain, h)
	}
}

// The benchmark compares like with like only if both give the same.
func TestClosedFormAgrees(t *testing.T) {
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{benchChain(benchChainL)}}, rode.Site{Depth: benchDepth, Friction: 0.7})
	if err != nil {
		t.Fatal(err)
	}
	var st rode.State
	if err := sv.Solve(&st, 800); err != nil {
		t.Fatal(err)
	}
	c := closedFormOf(800)
	for _, v := range []struct {
		name      string
		got, want float64
		tol       float64
	}{
		{"tension", float64(st.Tension), c.tension, 1e-12},
		{"vertical", float64(st.Vertical), c.vertical, 1e-12},
		{"angle", float64(st.BowAngle), c.angle, 1e-12},
		{"distance", float64(st.Distance), c.distance, 1e-12},
		{"on the bed", float64(st.OnBed), c.onBed, 1e-12},
		{"friction", float64(st.Friction), c.friction, 1e-12},
		{"anchor", float64(st.Anchor.Tension), c.anchor, 1e-12},
		{"stretch", float64(st.Stretch), c.stretch, 1e-10},
		{"stiffness", float64(st.Stiffness), c.stiffness, 1e-10},
	} {
		if math.Abs(v.got-v.want) > v.tol*math.Abs(v.want) {
			t.Errorf("%s: %.15g, closed form %.15g", v.name, v.got, v.want)
		}
	}
}

func BenchmarkSingleDistance(b *testing.B) {
	sv := singleChain(b, 0)
	var st rode.State
	b.ReportAllocs()
	for b.Loop() {
		if err := sv.SolveDistance(&st, 58.5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMixedDistance(b *testing.B) {
	sv := mixedRode(b)
	var st rode.State
	b.ReportAllocs()
	for b.Loop() {
		if err := sv.SolveDistance(&st, 73); err != nil {
			b.Fatal(err)
		}
	}
}

// slowLine is the baseline: pieces under water from the bow down, with the
// shape by quadrature and no thought of closed forms.
type slowLine struct {
	l, w, load []float64 // length and weight per metre of a piece, point load below it
	strain     []func(t float64) float64
}

func slowSingle() slowLine {
	return slowLine{[]float64{benchChainL}, []float64{benchChainW}, []float64{0}, []func(float64) float64{chainStrain}}
}

func slowMixed() slowLine {
	rope := func(t float64) float64 { r := t / 40e3; return r * (0.6612 + r*(-0.6645+r*0.3535)) }
	ropeW := 0.122 * 9.80665 * (1 - 1025.0/1140)
	return slowLine{
		[]float64{3, 30, 40},
		[]float64{benchChainW, ropeW, benchChainW},
		[]float64{0, 12 * 9.80665 * (1 - 1025.0/11340), 0},
		[]func(float64) float64{chainStrain, rope, chainStrain},
	}
}

func chainStrain(t float64) float64 { return t / benchEA }

// shape integrates from the bow to the anchor or to where the line lies down.
func (s slowLine) shape(h, v float64) (drop, run float64) {
	for i, l := range s.l {
		hang := math.Min(l, v/s.w[i])
		top := v
		at := func(x float64) (v, t float64) { v = top - s.w[i]*x; return v, math.Hypot(h, v) }
		const nodes = 24
		drop += quad.Fixed(func(x float64) float64 { v, t := at(x); return (1 + s.strain[i](t)) * v / t }, 0, hang, nodes, quad.Legendre{}, 0)
		run += quad.Fixed(func(x float64) float64 { _, t := at(x); return (1 + s.strain[i](t)) * h / t }, 0, hang, nodes, quad.Legendre{}, 0)
		v -= s.w[i] * hang
		run += (l - hang) * (1 + s.strain[i](h)) // frictionless on the bed: a little less work than ours
		v = math.Max(0, v-s.load[i])
	}
	return drop, run
}

// distance is nested bisection: v for the depth, h for the distance.
func (s slowLine) distance(x float64) (h float64) {
	lo, hi := 1e-3, 1e6
	for hi-lo > 1e-9*hi {
		h = math.Sqrt(lo * hi)
		vlo, vhi := 0.0, 1e6
		for vhi-vlo > 1e-10*vhi {
			v := (vlo + vhi) / 2
			if drop, _ := s.shape(h, v); drop < benchDepth {
				vlo = v
			} else {
				vhi = v
			}
		}
		if _, run := s.shape(h, vhi); run < x {
			lo = h
		} else {
			hi = h
		}
	}
	return h
}

func benchSlow(b *testing.B, s slowLine, sv *rode.Solver, x units.Length, solve func(slowLine) float64) {
	b.Helper()
	var st rode.State
	if err := sv.SolveDistance(&st, x); err != nil {
		b.Fatal(err)
	}
	var h float64
	for b.Loop() {
		h = solve(s)
	}
	if math.Abs(h-float64(st.Pull)) > 0.02*float64(st.Pull) {
		b.Fatalf("the baseline solves another problem: %v N, want %v", h, st.Pull)
	}
}

func BenchmarkSingleDistanceBisection(b *testing.B) {
	benchSlow(b, slowSingle(), singleChain(b, 0), 58.5, func(s slowLine) float64 { return s.distance(58.5) })
}

func BenchmarkMixedDistanceBisection(b *testing.B) {
	benchSlow(b, slowMixed(), mixedRode(b), 73, func(s slowLine) float64 { return s.distance(73) })
}
