package rode_test

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// logUniform is a random number from lo to hi, all powers of ten as likely.
func logUniform(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Exp(r.Float64()*math.Log(hi/lo))
}

// sample is a random rode without buoyancy, and a pull for it.
type sample struct {
	rode rode.Rode
	site rode.Site
	pull units.Force
}

// randomSample draws a rode of 1 to 5 pieces: chains, ropes, pieces a little
// heavier than water and just as heavy, weights at joints, on a bed that is
// level or slopes, with the roller above the water or below it.
func randomSample(r *rand.Rand) sample {
	for {
		var s sample
		n := 1 + r.IntN(5)
		s.site.Water = []units.Density{0, rode.SeaWater, rode.FreshWater}[r.IntN(3)]
		water := s.site.Water
		if water == 0 {
			water = rode.SeaWater
		}
		length, weight := 0.0, 0.0
		for range n {
			p := rode.Piece{
				Name:   "piece",
				Length: units.Length(logUniform(r, 0.5, 80)),
				Mass:   units.LinearDensity(logUniform(r, 0.05, 5)),
			}
			switch r.IntN(8) {
			case 0:
				p.Density = water
			case 1:
				p.Density = water * units.Density(1+logUniform(r, 1e-9, 1e-2))
			case 2, 3:
				p.Kind, p.Density = rode.OfRope, 1140
			default:
				p.Density = 7850
			}
			length += p.Length.Metres()
			s.rode.Pieces = append(s.rode.Pieces, p)
		}
		for i := range n - 1 {
			if r.IntN(2) == 0 {
				mass := logUniform(r, 0.1, 50)
				s.rode.Pieces[i].Top = []rode.Fitting{{
					Name: "kellet", Mass: units.Mass(mass), Volume: units.Volume(mass / []float64{11340, 7850, 1100}[r.IntN(3)]),
				}}
				if r.IntN(3) == 0 {
					s.rode.Pieces[i].Top = append(s.rode.Pieces[i].Top, rode.Fitting{Name: "shackle", Mass: 0.3})
				}
			}
		}
		s.site.Slope = []units.Angle{0, 0, units.Angle(r.Float64() * 0.4), units.Angle(-r.Float64() * 0.4)}[r.IntN(4)]
		s.site.Friction = []float64{0, r.Float64()}[r.IntN(2)]
		rise := length * (0.02 + 0.96*r.Float64())
		if rise <= length*(math.Sin(s.site.Slope.Radians())+0.002) {
			continue
		}
		roller := 0.0
		switch r.IntN(5) {
		case 0:
			roller = -rise * r.Float64()
		case 1:
		case 2:
			roller = rise * r.Float64() * 1.3 // the anchor may be dry
		default:
			roller = rise * 0.3 * r.Float64()
		}
		s.site.Roller = units.Length(roller)
		s.site.Depth = units.Length(rise - roller)
		m := newModel(s.rode, s.site)
		for _, p := range m.pieces {
			weight += p.l * p.wet
		}
		if m.light() && m.depth < 0 {
			continue // between a dry anchor and the bow it may float anywhere along the surface
		}
		for _, j := range m.joints {
			weight += j.wet
		}
		// A line that weighs nothing in water turns so sharply at the surface under
		// a small pull that a reference to 1e-9 would need more digits.
		if m.light() || weight < 0.1*m.weight {
			s.pull = units.Force(m.weight * logUniform(r, 1e-1, 1e3))
		} else {
			s.pull = units.Force(weight * logUniform(r, 1e-3, 1e3))
		}
		most := s.pull.Newtons() + m.weight
		for i := range s.rode.Pieces {
			p := &s.rode.Pieces[i]
			ref := units.Force(most * logUniform(r, 3, 3000))
			switch r.IntN(3) {
			case 0:
				p.Stretch = rode.LinearStretch(ref)
			case 1:
				b := r.Float64()*4 - 2
				p.Stretch = rode.Stretch{Reference: ref, A: r.Float64() + 0.01, B: b}
				p.Stretch.C = b * b / (3 * p.Stretch.A) * (1.01 + r.Float64())
			}
		}
		return s
	}
}

// samples is the number of random rodes: 10,000, or fewer under the race
// detector and with -short.
func samples() int {
	if raceDetector || testing.Short() {
		return 1000
	}
	return 10000
}

// report keeps the greatest deviation of each quantity, as a multiple of what
// is allowed, and what was wrong with the present sample.
type report struct {
	worst    map[string]float64
	problems []string
}

func (r *report) errorf(format string, args ...any) {
	r.problems = append(r.problems, fmt.Sprintf(format, args...))
}

func (r *report) check(what string, got, want, allowed float64) {
	d := math.Abs(got-want) / allowed
	if !(d <= 1) {
		r.errorf("%s is %v, independently %v: %.2g times the tolerance", what, got, want, d)
	}
	r.worst[what] = math.Max(r.worst[what], d)
}

// flush reports the problems of a sample, and stops the test after a few bad ones.
func (r *report) flush(t *testing.T, i int, sample any) {
	t.Helper()
	if len(r.problems) == 0 {
		return
	}
	t.Errorf("random rode %d:\n%s\n%#v", i, strings.Join(r.problems, "\n"), sample)
	r.problems = nil
	r.worst["bad samples"]++
	if r.worst["bad samples"] == 5 {
		t.Fatal("and so on")
	}
}

func (r *report) log(t *testing.T) {
	t.Helper()
	for _, n := range slices.Sorted(maps.Keys(r.worst)) {
		t.Logf("%-28s %.1e of the tolerance", n, r.worst[n])
	}
}

// Every solution is integrated from the bow down with the forces it reports
// there, and must arrive at the anchor: at its place, with its forces.
func TestRandomRodesAgainstIntegration(t *testing.T) {
	rep := &report{worst: map[string]float64{}}
	kinds := map[string]int{}
	var st rode.State
	for i := range samples() {
		s := randomSample(rand.New(rand.NewPCG(1, uint64(i))))
		m := newModel(s.rode, s.site)
		sv, err := rode.NewSolver(s.rode, s.site)
		if err != nil {
			t.Fatal(err)
		}
		err = sv.Solve(&st, s.pull)
		switch {
		case errors.Is(err, rode.ErrBed):
			// It is right where the rode, stretched along the bed, would reach higher than the roller.
			h := s.pull.Newtons()
			if tr := m.trace(h, h*m.sin/m.cos*(1+1e-12)); tr.drop < m.depth+m.roller {
				rep.errorf("%v", err)
			}
			kinds["aground"]++
		case err != nil:
			rep.errorf("%v", err)
		default:
			compare(rep, m, &st)
			if i%20 == 0 {
				solveIndependently(rep, m, &st)
			}
			roundTrips(rep, sv, m, &st)
			count(kinds, s, m, &st)
		}
		rep.flush(t, i, s)
	}
	rep.log(t)
	for _, k := range []string{
		"aground", "lifted", "on the bed", "all but the rise on the bed", "slope up", "slope down", "dry anchor", "roller under water",
		"roller above water", "weights", "weight on the bed", "stretching", "friction takes all", "weightless piece",
	} {
		t.Logf("%-28s %d", k, kinds[k])
		if kinds[k] == 0 && samples() == 10000 {
			t.Errorf("none of the random rodes is of the kind %q", k)
		}
	}
}

// count notes what kind of rode a sample is, to make sure that all were met.
func count(kinds map[string]int, s sample, m *model, st *rode.State) {
	note := func(kind string, is bool) {
		if is {
			kinds[kind]++
		}
	}
	note("lifted", st.Lifted)
	note("on the bed", !st.Lifted)
	note("all but the rise on the bed", st.OnBed+s.site.Rise() > 0.99*st.Out)
	note("slope up", m.sin > 0)
	note("slope down", m.sin < 0)
	note("dry anchor", m.depth < 0)
	note("roller under water", m.roller < 0)
	note("roller above water", m.roller > 0)
	note("weights", len(m.joints) > 0 && m.joints[0].dry > 0)
	for _, j := range st.Joints {
		note("weight on the bed", j.Reaction > 0)
	}
	note("stretching", st.Stretch > 0)
	note("friction takes all", st.Anchor.Tension == 0)
	for i := range m.pieces {
		note("weightless piece", m.pieces[i].wet == 0)
	}
}

func compare(rep *report, m *model, st *rode.State) {
	length, force := 1e-9*m.length, 1e-9*m.weight
	h, v := st.Pull.Newtons(), st.Vertical.Newtons()
	tr := m.trace(h, v)
	rep.check("rise", m.depth+m.roller, tr.drop, length)
	rep.check("distance", st.Distance.Metres(), tr.x, length)
	rep.check("stretch", st.Stretch.Metres(), tr.stretch, length)
	rep.check("length on the bed", st.OnBed.Metres(), tr.onBed, length)
	rep.check("friction", st.Friction.Newtons(), tr.friction, force)
	rep.check("horizontal at the anchor", st.Anchor.Horizontal.Newtons(), tr.anchorH, force)
	rep.check("vertical at the anchor", st.Anchor.Vertical.Newtons(), tr.anchorV, force)
	rep.check("tension at the anchor", st.Anchor.Tension.Newtons(), math.Hypot(tr.anchorH, tr.anchorV), force)
	rep.check("tension at the bow", st.Tension.Newtons(), math.Hypot(h, v), force)
	if st.Lifted == tr.touched && tr.onBed > length {
		rep.errorf("lifted is %v, independently %v m on the bed", st.Lifted, tr.onBed)
	}
	for i, p := range st.Pieces {
		q := tr.pieces[i]
		rep.check("tension of a piece, above", p.TensionUpper.Newtons(), q.tUpper, force)
		rep.check("tension of a piece, below", p.TensionLower.Newtons(), q.tLower, force)
		rep.check("stretch of a piece", p.Stretch.Metres(), q.stretch, length)
		rep.check("piece on the bed", p.OnBed.Metres(), q.onBed, length)
		rep.check("joint, across", p.Upper.X.Metres(), tr.x-q.x, length)
		rep.check("joint, up", p.Upper.Z.Metres(), tr.drop-q.drop, length)
	}
}

// solveIndependently finds the vertical force at the bow by bisection.
func solveIndependently(rep *report, m *model, st *rode.State) {
	h := st.Pull.Newtons()
	rise := m.depth + m.roller
	lo := h * m.sin / m.cos
	hi := math.Abs(lo) + h + m.weight
	for m.trace(h, hi).drop < rise {
		hi *= 2
	}
	for range 100 {
		mid := lo + (hi-lo)/2
		if mid == lo || mid == hi {
			break
		}
		if m.trace(h, mid).drop < rise {
			lo = mid
		} else {
			hi = mid
		}
	}
	tr := m.trace(h, hi)
	force := 1e-9 * m.weight
	rep.check("vertical, solved", st.Vertical.Newtons(), hi, force)
	rep.check("anchor horizontal, solved", st.Anchor.Horizontal.Newtons(), tr.anchorH, force)
	rep.check("anchor vertical, solved", st.Anchor.Vertical.Newtons(), tr.anchorV, force)
	rep.check("distance, solved", st.Distance.Metres(), tr.x, 1e-9*m.length)
}

// roundTrips solves for the distance and the tension that a pull gave.
func roundTrips(rep *report, sv *rode.Solver, m *model, st *rode.State) {
	var back rode.State
	h := st.Pull.Newtons()
	if err := sv.SolveDistance(&back, st.Distance); err != nil {
		rep.errorf("distance: %v (condition %v)", err, st.Condition)
	} else {
		rep.check("distance, pull, distance", back.Distance.Metres(), st.Distance.Metres(), 1e-9*m.length)
		if st.Condition < 1e8 { // beyond that the bound is no longer small, and means little
			rep.check("pull, distance, pull", back.Pull.Newtons(), h, 1e-9*h*math.Max(1, st.Condition))
		}
	}
	tension := st.Tension.Newtons()
	switch err := sv.SolveTension(&back, st.Tension); {
	case err == nil:
		rep.check("tension, pull, tension", back.Tension.Newtons(), tension, 1e-9*tension)
		if m.sin >= 0 {
			rep.check("pull, tension, pull", back.Pull.Newtons(), h, 1e-9*tension)
		}
	case m.sin < 0:
		// Over a bed that falls toward the boat a small pull takes the rode off its
		// deepest places, and the tension is less than without it.
		var slack rode.State
		if err := sv.Solve(&slack, 0); err != nil || slack.Tension.Newtons() < tension {
			rep.errorf("tension: %v", err)
		}
	default:
		rep.errorf("tension: %v", err)
	}
}
