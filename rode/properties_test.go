package rode_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

// chain is a length of 8 mm short-link chain.
func chain(l units.Length) rode.Piece {
	return rode.Piece{
		Name: "chain", Length: l, Mass: 1.4, Density: 7850,
		Stretch: rode.LinearStretch(4500 * units.Kilonewton), Working: 8 * units.Kilonewton, Breaking: 32 * units.Kilonewton,
	}
}

// warp is a length of 14 mm polyamide rope.
func warp(l units.Length) rode.Piece {
	return rode.Piece{
		Name: "warp", Kind: rode.OfRope, Length: l, Mass: 0.122, Density: 1140,
		Stretch: rode.Stretch{Reference: 40 * units.Kilonewton, A: 0.6, B: -0.9, C: 0.7}, Breaking: 40 * units.Kilonewton,
	}
}

var anchorage = rode.Site{Depth: 8, Roller: 1.45, Friction: 0.6}

func mustSolver(t testing.TB, r rode.Rode, s rode.Site) *rode.Solver {
	t.Helper()
	sv, err := rode.NewSolver(r, s)
	if err != nil {
		t.Fatal(err)
	}
	return sv
}

func mustSolve(t testing.TB, r rode.Rode, s rode.Site, pull units.Force) rode.State {
	t.Helper()
	st, err := rode.Solve(r, s, pull)
	if err != nil {
		t.Fatalf("%v: %#v", err, sample{r, s, pull})
	}
	return st
}

// about compares two states, lengths and forces to within the given amounts,
// angles and ratios to a billionth.
func about(length units.Length, force units.Force) cmp.Options {
	return cmp.Options{
		cmp.Comparer(func(a, b units.Length) bool { return (a - b).Abs() <= length }),
		cmp.Comparer(func(a, b units.Force) bool { return (a - b).Abs() <= force }),
		cmp.Comparer(func(a, b units.Angle) bool { return (a - b).Abs() <= 1e-7 }),
		cmp.Comparer(func(a, b units.Stiffness) bool { return (a - b).Abs() <= 1e-6*max(a.Abs(), b.Abs()) }),
		cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(1, math.Max(math.Abs(a), math.Abs(b))) }),
	}
}

// scaled makes every length, and with it the weight of pieces, and every force
// larger. Fittings must have no volume, which would not scale with both.
func scaled(s sample, length, force float64) sample {
	mass := units.LinearDensity(force / length)
	c := s
	c.rode.Pieces = nil
	for _, p := range s.rode.Pieces {
		p.Length = p.Length.Scale(length)
		p.Mass *= mass
		p.Stretch.Reference = p.Stretch.Reference.Scale(force)
		p.Working, p.Breaking = p.Working.Scale(force), p.Breaking.Scale(force)
		var top []rode.Fitting
		for _, f := range p.Top {
			f.Mass = f.Mass.Scale(force)
			top = append(top, f)
		}
		p.Top = top
		c.rode.Pieces = append(c.rode.Pieces, p)
	}
	c.site.Depth, c.site.Roller = s.site.Depth.Scale(length), s.site.Roller.Scale(length)
	c.pull = s.pull.Scale(force)
	return c
}

// scaleBack undoes the scale of a state.
func scaleBack(st rode.State, length, force float64) rode.State {
	l, f := 1/length, 1/force
	pos := func(p rode.Position) rode.Position { return rode.Position{X: p.X.Scale(l), Z: p.Z.Scale(l)} }
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch x := v.Addr().Interface().(type) {
		case *units.Length:
			*x = x.Scale(l)
		case *units.Force:
			*x = x.Scale(f)
		case *units.Stiffness:
			*x = x.Scale(f / l)
		case *rode.Position:
			*x = pos(*x)
		default:
			switch v.Kind() {
			case reflect.Struct:
				for i := range v.NumField() {
					walk(v.Field(i))
				}
			case reflect.Slice:
				for i := range v.Len() {
					walk(v.Index(i))
				}
			}
		}
	}
	walk(reflect.ValueOf(&st).Elem())
	return st
}

// With lengths, load scales of the strain laws, pull and weights at joints
// twice as large, and the same weight per metre, angles and strains are the
// same and forces twice as large. The same holds for any change of the units of
// length and force.
func TestScales(t *testing.T) {
	for _, c := range []struct{ length, force float64 }{
		{2, 2}, {1, 2}, {2, 1}, {0.3048, 4.4482216152605}, {1 / 1.8288, 1e-3},
	} {
		for i := range 300 {
			s := randomSample(rand.New(rand.NewPCG(11, uint64(i))))
			for _, p := range s.rode.Pieces {
				for j := range p.Top {
					p.Top[j].Volume = 0
				}
			}
			want := mustSolve(t, s.rode, s.site, s.pull)
			large := scaled(s, c.length, c.force)
			st := mustSolve(t, large.rode, large.site, large.pull)
			got := scaleBack(st, c.length, c.force)
			if want.Condition > 1e6 {
				want.Condition, want.Stiffness, got.Condition, got.Stiffness = 0, 0, 0, 0
			}
			m := newModel(s.rode, s.site)
			if d := cmp.Diff(want, got, about(units.Length(1e-9*m.length), units.Force(1e-9*(m.weight+s.pull.Newtons()))), ignoreStretch); d != "" {
				t.Fatalf("random rode %d, scales %v: %s", i, c, d)
			}
		}
	}
}

// ignoreStretch leaves the strain laws out, which the parts of a State repeat.
var ignoreStretch = cmp.FilterPath(func(p cmp.Path) bool {
	return p.Last().Type() == reflect.TypeFor[rode.Stretch]()
}, cmp.Ignore())

// Where nothing floats, and the bed does not fall away below the anchor, more
// pull never lowers a tension anywhere, nor the distance.
func TestMorePullNeverLowersATension(t *testing.T) {
	var last, st rode.State
	for i := range samples() / 10 {
		s := randomSample(rand.New(rand.NewPCG(12, uint64(i))))
		if s.site.Slope < 0 {
			continue
		}
		sv := mustSolver(t, s.rode, s.site)
		m := newModel(s.rode, s.site)
		last = rode.State{}
		for k := range 12 {
			if err := sv.Solve(&st, s.pull.Scale(math.Pow(2, float64(k-6)))); err != nil {
				if errors.Is(err, rode.ErrBed) {
					break
				}
				t.Fatal(err)
			}
			if last.Pieces != nil {
				notLess := func(what string, was, is units.Force) {
					if is < was-units.Force(1e-9*m.weight) {
						t.Errorf("random rode %d: the %s falls from %v to %v as the pull grows from %v to %v: %#v",
							i, what, was, is, last.Pull, st.Pull, s)
					}
				}
				notLess("tension at the bow", last.Tension, st.Tension)
				notLess("tension at the anchor", last.Anchor.Tension, st.Anchor.Tension)
				for j := range st.Pieces {
					notLess("tension of a piece", last.Pieces[j].MaxTension, st.Pieces[j].MaxTension)
					notLess("tension above a joint", last.Pieces[j].TensionLower, st.Pieces[j].TensionLower)
					notLess("tension below a joint", last.Pieces[j].TensionUpper, st.Pieces[j].TensionUpper)
				}
				if st.Distance < last.Distance-units.Length(1e-12*m.length) {
					t.Errorf("random rode %d: the distance falls from %v to %v", i, last.Distance, st.Distance)
				}
				// A rode that stretches much may come to lie on the bed again.
				if s.site.Slope == 0 && !m.light() && st.Stretch < st.Out/20 && st.OnBed > last.OnBed+units.Length(1e-12*m.length) {
					t.Errorf("random rode %d: the length on the bed grows from %v to %v: %#v", i, last.OnBed, st.OnBed, s)
				}
			}
			last, st = st, last
			if t.Failed() {
				return
			}
		}
	}
}

// Stiffness is the derivative of the pull by the distance.
func TestStiffnessIsTheDerivative(t *testing.T) {
	var st, lo, hi rode.State
	compared := 0
	for i := range samples() / 10 {
		s := randomSample(rand.New(rand.NewPCG(13, uint64(i))))
		sv := mustSolver(t, s.rode, s.site)
		d := s.pull.Scale(1e-5)
		if sv.Solve(&st, s.pull) != nil || sv.Solve(&lo, s.pull-d) != nil || sv.Solve(&hi, s.pull+d) != nil {
			continue
		}
		// Leave out where the difference has no digits, and where its two halves
		// differ because a weight lifts, or the surface or the bed is met, in between.
		up, down := (hi.Distance - st.Distance).Metres(), (st.Distance - lo.Distance).Metres()
		if st.Condition > 1e4 || math.Abs(up-down) > 1e-3*(up+down) {
			continue
		}
		compared++
		want := 2 * d.Newtons() / (up + down)
		if got := st.Stiffness.NewtonsPerMetre(); math.Abs(got-want) > 1e-5*want {
			t.Errorf("random rode %d: stiffness %v, by difference %v: %#v", i, got, want, s)
		}
		if want := st.Stiffness.NewtonsPerMetre() * st.Distance.Metres() / st.Pull.Newtons(); math.Abs(st.Condition-want) > 1e-9*want {
			t.Errorf("random rode %d: condition %v, want %v", i, st.Condition, want)
		}
	}
	if compared < samples()/20 {
		t.Errorf("only %d rodes compared", compared)
	}
}

// Where the rode lies on a bed that passes through the surface, its weight on the
// bed changes at a spot that moves with the pull; soft line shows what that does.
func TestStiffnessOnABedThatFallsDry(t *testing.T) {
	soft := func(l units.Length) rode.Piece {
		p := chain(l)
		p.Stretch = rode.LinearStretch(2 * units.Kilonewton)
		return p
	}
	shallow := rode.Rode{Pieces: []rode.Piece{soft(4), soft(30)}}
	shallow.Pieces[0].Top = []rode.Fitting{{Name: "block", Mass: 40, Volume: 30 * units.Litre}}
	for _, c := range []struct {
		name string
		rode rode.Rode
		site rode.Site
		pull units.Force
	}{
		{"up the beach", rode.Rode{Pieces: []rode.Piece{soft(30)}}, rode.Site{Depth: -0.5, Roller: 2, Slope: -0.17, Friction: 0.3}, 60},
		{"up the beach, sliding", rode.Rode{Pieces: []rode.Piece{soft(10), soft(20)}}, rode.Site{Depth: -0.5, Roller: 2, Slope: -0.17}, 90},
		{"over a bank", rode.Rode{Pieces: []rode.Piece{soft(20), soft(10)}}, rode.Site{Depth: 1.5, Roller: 5, Slope: 0.1, Friction: 0.2}, 60},
		{"half under", shallow, rode.Site{Depth: 0.2, Roller: 3, Slope: -0.02, Friction: 0.1}, 120},
		{"half under, rising", shallow, rode.Site{Depth: 0.3, Roller: 3, Slope: 0.02, Friction: 0.1}, 120},
	} {
		sv := mustSolver(t, c.rode, c.site)
		var st, lo, hi rode.State
		d := c.pull.Scale(1e-4)
		if err := errors.Join(sv.Solve(&st, c.pull), sv.Solve(&lo, c.pull-d), sv.Solve(&hi, c.pull+d)); err != nil {
			t.Fatal(c.name, err)
		}
		wet, dry := false, false
		for _, p := range st.Parts {
			if p.OnBed && p.TensionUpper > 0 {
				wet, dry = wet || !p.Dry, dry || p.Dry
			}
		}
		if half := len(st.Joints) > 0 && st.Joints[0].Reaction > 0; !(wet && dry) && !half {
			t.Errorf("%s: the rode on the bed does not pass through the surface: %+v", c.name, st.Parts)
		}
		want := 2 * d.Newtons() / (hi.Distance - lo.Distance).Metres()
		if got := st.Stiffness.NewtonsPerMetre(); math.Abs(got-want) > 1e-7*want {
			t.Errorf("%s: stiffness %v, by difference %v", c.name, got, want)
		}
	}
}

// Through the pull at which the last of the rode leaves the bed, nothing jumps,
// and the stiffness changes by no more than weights and pieces explain.
func TestContinuousThroughLiftOff(t *testing.T) {
	found := 0
	var st, a, b rode.State
	for i := range samples() / 10 {
		s := randomSample(rand.New(rand.NewPCG(14, uint64(i))))
		sv := mustSolver(t, s.rode, s.site)
		m := newModel(s.rode, s.site)
		if m.light() {
			continue // what weighs nothing lifts all at once
		}
		lo, hi := 1e-3*m.weight, 1e3*m.weight
		lifted := func(h float64) (bool, error) {
			err := sv.Solve(&st, units.Force(h))
			return st.Lifted, err
		}
		if l, err := lifted(lo); l || err != nil {
			continue
		}
		if l, err := lifted(hi); !l || err != nil {
			continue
		}
		for range 100 {
			mid := math.Sqrt(lo * hi)
			if l, err := lifted(mid); err != nil {
				t.Fatal(err)
			} else if l {
				hi = mid
			} else {
				lo = mid
			}
		}
		found++
		if err := errors.Join(sv.Solve(&a, units.Force(lo)), sv.Solve(&b, units.Force(hi))); err != nil {
			t.Fatal(err)
		}
		a.Lifted = true // the one thing that jumps
		for j := range a.Joints {
			a.Joints[j].Lifted = b.Joints[j].Lifted
		}
		opts := cmp.Options{
			about(units.Length(1e-8*m.length), units.Force(1e-8*(m.weight+hi))),
			cmp.FilterPath(func(p cmp.Path) bool {
				f := p.Last().String()
				return f == ".Parts" || f == ".Stiffness" || f == ".Condition" || f == ".FromBed" || f == ".FromLevel"
			}, cmp.Ignore()),
		}
		if d := cmp.Diff(a, b, opts); d != "" {
			t.Errorf("random rode %d: %s\n%#v", i, d, s)
		}
		if k := b.Stiffness.Per(a.Stiffness); b.Condition < 1e6 && !(k > 0.1 && k < 10) {
			t.Errorf("random rode %d: the stiffness jumps from %v to %v: %#v", i, a.Stiffness, b.Stiffness, s)
		}
	}
	if found < samples()/50 {
		t.Errorf("only %d rodes lifted off", found)
	}
}

// Pieces joined without a fitting are one piece.
func TestSplittingChangesNothing(t *testing.T) {
	for i := range samples() / 10 {
		r := rand.New(rand.NewPCG(15, uint64(i)))
		s := randomSample(r)
		want, err := rode.Solve(s.rode, s.site, s.pull)
		if err != nil {
			continue
		}
		var split rode.Rode
		var last []int // of the pieces in split, the last one of each piece
		for _, p := range s.rode.Pieces {
			top, left := p.Top, p.Length
			p.Top = nil
			for range r.IntN(3) {
				p.Length = left.Scale(r.Float64())
				if p.Length > 0 {
					left -= p.Length
					split.Pieces = append(split.Pieces, p)
				}
			}
			p.Top, p.Length = top, left
			split.Pieces = append(split.Pieces, p)
			last = append(last, len(split.Pieces)-1)
		}
		got := mustSolve(t, split, s.site, s.pull)
		m := newModel(s.rode, s.site)
		pieces := make([]rode.PieceState, len(last))
		for k, p := range got.Pieces {
			q := 0
			for k > last[q] {
				q++
			}
			o := &pieces[q]
			if o.Name == "" {
				o.Name, o.Lower, o.TensionLower = p.Name, p.Lower, p.TensionLower
			}
			o.Upper, o.TensionUpper = p.Upper, p.TensionUpper
			o.MaxTension = max(o.MaxTension, p.MaxTension)
			o.Stretch += p.Stretch
			o.OnBed += p.OnBed
		}
		got.Pieces, got.Joints, got.Parts, want.Joints, want.Parts = pieces, nil, nil, nil, nil
		if want.Condition > 1e6 {
			want.Condition, want.Stiffness, got.Condition, got.Stiffness = 0, 0, 0, 0
		}
		if d := cmp.Diff(want, got, about(units.Length(1e-9*m.length), units.Force(1e-9*(m.weight+s.pull.Newtons())))); d != "" {
			t.Fatalf("random rode %d: %s\n%#v", i, d, s)
		}
	}
}

// A State that is used again, and a Solver that is shared, give the same to the
// last bit as fresh ones.
func TestReuseAndSharing(t *testing.T) {
	var reused rode.State
	for i := range 300 {
		r := rand.New(rand.NewPCG(16, uint64(i)))
		s := randomSample(r)
		if i%3 == 0 {
			s = randomBuoyant(r)
		}
		want, err := rode.Solve(s.rode, s.site, s.pull)
		if err != nil {
			continue
		}
		if err := mustSolver(t, s.rode, s.site).Solve(&reused, s.pull); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, reused, cmp.Transformer("nil", func(j []rode.JointState) map[int]rode.JointState {
			m := map[int]rode.JointState{}
			for k := range j {
				m[k] = j[k]
			}
			return m
		})); d != "" {
			t.Fatal(d)
		}
	}

	sv := mustSolver(t, rode.Rode{Pieces: []rode.Piece{chain(30), warp(20)}}, anchorage)
	var want rode.State
	if err := sv.SolveDistance(&want, 46); err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			var st rode.State
			for range 20 {
				if err := sv.SolveDistance(&st, 46); err != nil {
					t.Error(err)
				}
				if d := cmp.Diff(want, st); d != "" {
					t.Error(d)
				}
			}
		})
	}
	wg.Wait()
}

func TestFloatBarelyFloats(t *testing.T) {
	// A float that lifts next to nothing turns the solver for floats on, and
	// must give what the one without gives for a weight of next to nothing.
	for i := range 200 {
		s := randomSample(rand.New(rand.NewPCG(17, uint64(i))))
		if len(s.rode.Pieces) < 2 || s.site.Roller > 0 || s.site.Slope != 0 || s.site.Depth < 1 {
			continue
		}
		water := 1025 * units.KilogramPerCubicMetre
		s.site.Water = water
		for j := range s.rode.Pieces {
			if p := &s.rode.Pieces[j]; p.Density < 1100 {
				p.Density = 1100
			}
		}
		s.rode.Pieces[0].Top = []rode.Fitting{{Name: "float", Volume: 1e-3}}
		for _, f := range s.rode.Pieces {
			for k := range f.Top {
				f.Top[k].Volume = min(f.Top[k].Volume, 1e-3)
			}
		}
		fit := &s.rode.Pieces[0].Top[0]
		fit.Mass = water.TimesVolume(fit.Volume).Scale(1 + 1e-11)
		heavy := mustSolve(t, s.rode, s.site, s.pull)
		fit.Mass = water.TimesVolume(fit.Volume).Scale(1 - 1e-11)
		light, err := rode.Solve(s.rode, s.site, s.pull)
		if errors.Is(err, rode.ErrSurface) {
			continue // the float is at the surface
		}
		if err != nil {
			t.Fatal(err)
		}
		m := newModel(s.rode, s.site)
		heavy.Parts, light.Parts, heavy.Joints, light.Joints = nil, nil, nil, nil
		// Rates are by differences where there are floats, and have kinks.
		heavy.Condition, heavy.Stiffness, light.Condition, light.Stiffness = 0, 0, 0, 0
		if d := cmp.Diff(heavy, light, about(units.Length(1e-7*m.length), units.Force(1e-7*m.weight))); d != "" {
			t.Fatalf("random rode %d: %s\n%#v", i, d, s)
		}
	}
}

func TestSinkerOfNoWeight(t *testing.T) {
	plain := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
	sunk := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
	sunk.Pieces[0].Top = []rode.Fitting{{Name: "nothing", Mass: 1.025, Volume: 1e-3}}
	site := anchorage
	for _, pull := range []units.Force{0, 100, 1000} {
		want, got := mustSolve(t, plain, site, pull), mustSolve(t, sunk, site, pull)
		if d := cmp.Diff(want, got, about(1e-12, 1e-10)); d != "" {
			t.Error(d)
		}
	}
}

// A weight at a joint is the limit of a short, dense piece between the two.
func TestSinkerSpreadOut(t *testing.T) {
	for _, pull := range []units.Force{50, 300, 2000} {
		point := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
		point.Pieces[0].Top = []rode.Fitting{{Name: "sinker", Mass: 15, Volume: 15. / 7850}}
		want := mustSolve(t, point, anchorage, pull)
		last := math.Inf(1)
		for _, l := range []units.Length{1e-1, 1e-2, 1e-3, 1e-4} {
			spread := rode.Rode{Pieces: []rode.Piece{
				chain(20), {Name: "sinker", Length: l, Mass: units.LinearDensity(15 / l.Metres()), Density: 7850}, warp(20),
			}}
			got := mustSolve(t, spread, anchorage, pull)
			d := math.Hypot((got.Distance - want.Distance).Metres(), (got.Vertical-want.Vertical).Newtons()/20)
			if d > 3*l.Metres() || d > last/5 {
				t.Errorf("pull %v, spread over %v: off by %v", pull, l, d)
			}
			last = d
		}
	}
}

func TestVerticalForceJumpsByTheSinkersWeight(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{chain(10), chain(10), warp(20)}}
	kellet := rode.Fitting{Name: "kellet", Mass: 12, Volume: 12. / 7100}
	r.Pieces[1].Top = []rode.Fitting{kellet, {Name: "shackle", Mass: 0.4, Volume: 0.4 / 7850}}
	st := mustSolve(t, r, anchorage, 900)
	if !st.Joints[1].Lifted || st.Joints[1].Reaction != 0 {
		t.Fatal("the kellet lies on the bed")
	}
	var below, above units.Force
	for _, p := range st.Parts {
		if p.Piece == 1 {
			below = p.VerticalUpper
		}
		if p.Piece == 2 {
			above = p.VerticalLower
			break
		}
	}
	want := (12 + 0.4 - 1025*(12./7100+0.4/7850)) * 9.80665
	if got := (above - below).Newtons(); math.Abs(got-want) > 1e-9 {
		t.Errorf("the vertical force jumps by %v, want %v", got, want)
	}
	if w := kellet.Weight(rode.SeaWater) + r.Pieces[1].Top[1].Weight(rode.SeaWater); math.Abs(w.Newtons()-want) > 1e-9 {
		t.Errorf("the fittings weigh %v, want %v", w, want)
	}
}
