package rode

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
)

// randomLine draws a rode that sinks, of chains, ropes and weights that may pass
// through the surface, on a bed that may slope out of the water at either end.
func randomLine(r *rand.Rand) (*Solver, error) {
	var rd Rode
	for range 1 + r.IntN(3) {
		p := randomChain(r)
		if r.IntN(2) == 0 {
			p = randomRope(r)
		}
		if r.IntN(2) == 0 { // so soft that the stretch shows
			p.Stretch.Reference /= 1000
		}
		if r.IntN(3) == 0 {
			p.Stretch.B, p.Stretch.C = 0.5, 0
		}
		if r.IntN(2) == 0 {
			p.Top = []Fitting{{Name: "kellet", Mass: units.Mass(20 * r.Float64()), Volume: units.Volume(2e-3 * r.Float64())}}
			if r.IntN(2) == 0 { // a box full of water, as high as it is heavy
				p.Top[0].Mass += p.Top[0].Volume.TimesDensity(SeaWater)
			}
		}
		rd.Pieces = append(rd.Pieces, p)
	}
	s := Site{
		Depth: units.Length(-1 + 9*r.Float64()), Roller: units.Length(-1 + 3*r.Float64()),
		Friction: r.Float64() * float64(r.IntN(2)), Slope: units.Angle((0.5*r.Float64() - 0.3) * float64(r.IntN(3))),
	}
	sv, err := NewSolver(rd, s)
	if err == nil && sv.line.buoyant {
		err = ErrInput
	}
	return sv, err
}

// difference is the derivative of f at x by central differences.
func difference(f func(x float64) float64, x, d float64) float64 { return (f(x+d) - f(x-d)) / (2 * d) }

// What Newton's method follows in the search for a balance are the derivatives of
// what it searches. Wrong ones would lead there too, but later.
func TestDerivatives(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	met := map[string]int{}
	for range 4000 {
		sv, err := randomLine(r)
		if err != nil {
			continue
		}
		ln := &sv.line
		near := func(what string, got, want, within float64) {
			if !(math.Abs(got-want) <= within*math.Abs(want)) {
				t.Errorf("%+v at %+v: %s is %v, by differences %v", sv.rode, sv.site, what, got, want)
			}
		}
		h := ln.weight * math.Exp(6*r.Float64()-4)
		v := h*ln.tan + (ln.weight+h)*math.Exp(4*r.Float64()-4)
		imbalance := func(v float64) (g, gV float64) {
			var k walk
			k.start(ln, h, v, math.Sqrt(h*h+v*v))
			stopped := ln.down(&k, false, nil)
			switch {
			case stopped == atAnchor:
				met["free"]++
			case ln.sin == 0:
				met["level"]++
			case k.wet:
				met["slope"]++
			default:
				met["dry slope"]++
			}
			return ln.imbalance(&k, stopped)
		}
		_, gV := imbalance(v)
		near("d imbalance / d v", gV, difference(func(v float64) float64 { g, _ := imbalance(v); return g }, v, 1e-6*v), 1e-4)

		// Along the balanced lines.
		balance := func(h float64) (b balanced) {
			if e := ln.under(h, 0, nil, &b); e != nil {
				err = e
			}
			return b
		}
		b := balance(h)
		vRate := difference(func(h float64) float64 { return balance(h).v }, h, 1e-5*h)
		rate := difference(func(h float64) float64 { return balance(h).run }, h, 1e-5*h)
		if err != nil {
			continue // it stretches to where the bed rises above the roller
		}
		met["balanced"]++
		near("d v / d h", b.vRate, vRate, 1e-4)
		near("d run / d h", b.rate, rate, 1e-4)
	}
	for _, kind := range []string{"free", "level", "slope", "dry slope", "balanced"} {
		if met[kind] < 300 {
			t.Errorf("%d lines of the kind: %s", met[kind], kind)
		}
	}
}

// Chain of which some lies on a level bed needs no search: the tension at the bow is
// known from its weight and the rise.
func TestOneWalkIsEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	var lies, lifted int
	for range 2000 {
		rd := Rode{Pieces: []Piece{randomChain(r)}}
		if r.IntN(2) == 0 {
			rd.Pieces = append(rd.Pieces, randomChain(r))
		}
		sv, err := NewSolver(rd, Site{Depth: units.Length(-1 + 8*r.Float64()), Roller: units.Length(-1 + 3*r.Float64()), Friction: 0.5})
		if err != nil {
			continue
		}
		pull := sv.line.weight * math.Exp(7*r.Float64()-4)
		var st State
		if err := sv.Solve(&st, units.Force(pull)); err != nil {
			t.Fatal(err)
		}
		var b balanced
		if err := sv.line.under(pull, 0, nil, &b); err != nil {
			t.Fatal(err)
		}
		switch onBed := st.Pieces[len(rd.Pieces)-1].OnBed; {
		case onBed > 5: // with less, what is dry and so heavier has it looked for
			lies++
			if b.steps != 1 {
				t.Errorf("%d walks, though %v of the top piece lies on the bed: %+v at %+v", b.steps, onBed, rd, sv.site)
			}
		case onBed == 0:
			lifted++
			if b.steps == 1 {
				t.Errorf("one walk though none of the top piece lies on the bed: %+v at %+v", rd, sv.site)
			}
		}
	}
	if lies < 400 || lifted < 400 {
		t.Errorf("%d lie, %d are lifted", lies, lifted)
	}
}
