package rode_test

import (
	"errors"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// plover is the chain and site of an 11.9 m catamaran, and the surge of a gust.
func plover(t testing.TB) (rode.Rode, rode.Site, rode.Surge, rode.Rope) {
	t.Helper()
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		t.Fatal(err)
	}
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		t.Fatal(err)
	}
	return rode.Rode{Pieces: []rode.Piece{chain.Piece(35)}},
		rode.Site{Depth: 7, Roller: 1.7},
		rode.Surge{Mass: 10300, Rest: 2300, Gust: 4400, Speed: 0.8},
		rope.Wet()
}

func surge(t testing.TB, r rode.Rode, s rode.Site, g rode.Surge) rode.SurgePeak {
	t.Helper()
	p, err := rode.SolveSurge(r, s, g)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func snub(t testing.TB, r rode.Rode, n rode.Snubber) rode.Rode {
	t.Helper()
	w, err := r.Snub(n)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The energy that the pieces took is what the boat brought and the gust did.
func TestSurgeBalances(t *testing.T) {
	r, s, g, rope := plover(t)
	for _, slack := range []units.Length{0, 14} {
		p := surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: 10, Legs: 2, Slack: slack}), s, g)
		taken := p.ByFittings
		for _, e := range p.Taken {
			taken += e.Total()
		}
		brought := p.Kinetic + p.Work
		if math.Abs(taken.Per(brought)-1) > 1e-9 {
			t.Errorf("taken %v, brought %v", taken, brought)
		}
		sv, err := rode.NewSolver(snub(t, r, rode.Snubber{Rope: rope, Length: 10, Legs: 2, Slack: slack}), s)
		if err != nil {
			t.Fatal(err)
		}
		if w := work(t, sv, g.Rest, p.Peak.Pull); math.Abs(w/float64(brought)-1) > 1e-8 {
			t.Errorf("the pull's work by quadrature is %v J, brought %v", w, brought)
		}
	}
}

// Without weight a linear line is a spring: F + sqrt((F-F0)² + m v² k) from the
// energy balance, F the gust and F0 the pull at rest.
func TestSurgeOnASpring(t *testing.T) {
	r, s := spring(units.Stiffness(2000))
	for _, g := range []rode.Surge{
		{Mass: 5000, Speed: 0.5},
		{Mass: 5000, Rest: 300, Speed: 0.5},
		{Mass: 5000, Rest: 300, Gust: 900},
		{Mass: 5000, Rest: 300, Gust: 900, Speed: 1.5},
		{Mass: 5000, Gust: 900},
	} {
		p := surge(t, r, s, g)
		f, f0 := float64(max(g.Rest, g.Gust)), float64(g.Rest)
		want := f + math.Sqrt((f-f0)*(f-f0)+5000*float64(g.Speed)*float64(g.Speed)*2000)
		if math.Abs(float64(p.Peak.Pull)/want-1) > 1e-9 {
			t.Errorf("%+v: peak %v, want %v", g, p.Peak.Pull, want)
		}
	}
	still := surge(t, r, s, rode.Surge{Mass: 5000, Rest: 300})
	if math.Abs(float64(still.Peak.Pull)-300) > 1e-9 || still.Run != 0 {
		t.Errorf("without surge: %v and %v", still.Peak.Pull, still.Run)
	}
}

// spring is a level line without weight whose ends are 100 m apart.
func spring(k ...units.Stiffness) (rode.Rode, rode.Site) {
	var r rode.Rode
	for _, k := range k {
		r.Pieces = append(r.Pieces, rode.Piece{
			Name: "spring", Length: 100, Mass: 1e-9, Density: math.MaxFloat64,
			Stretch: rode.LinearStretch(units.Force(float64(k) * 100)),
		})
	}
	return r, rode.Site{Depth: 1e-10}
}

// The speed that the energy between two states asks for leads back to the second, up
// to the pull at which a rising bed gets in the way of what stretches.
func TestSurgeOnARisingBed(t *testing.T) {
	soft := warp(20)
	soft.Stretch = rode.LinearStretch(40e3)
	r := rode.Rode{Pieces: []rode.Piece{stiff(40), soft}}
	s := rode.Site{Depth: 8, Roller: 1.5, Slope: 8 * units.Degree}
	sv := mustSolver(t, r, s)
	g := rode.Surge{Mass: 10e3, Rest: 800, Gust: 1500}
	energy := func(pull units.Force) (units.Energy, units.Length) {
		var st rode.State
		if err := sv.Solve(&st, pull); err != nil {
			t.Fatal(err)
		}
		e, err := sv.Energy(&st)
		if err != nil {
			t.Fatal(err)
		}
		return e.Total, st.Distance
	}
	e0, x0 := energy(g.Rest)
	for _, peak := range []units.Force{4000, 7000, 10e3, 13e3, 15e3} {
		e1, x1 := energy(peak)
		kinetic := float64(e1-e0) - float64(g.Gust)*float64(x1-x0)
		g.Speed = units.Speed(math.Sqrt(2 * kinetic / float64(g.Mass)))
		near(t, "peak", float64(surge(t, r, s, g).Peak.Pull), float64(peak), 100*float64(peak))
	}
	g.Speed = 10
	_, err := rode.SolveSurge(r, s, g)
	wants(t, err, rode.ErrBed, "pull")
}

func TestSurgeLimits(t *testing.T) {
	r, s, g, rope := plover(t)
	bare := surge(t, r, s, g)

	// A snubber as stiff as a rod leaves the chain to itself, one as soft as air
	// does it all with little more than twice the gust's pull above rest.
	stiff, soft := rope, rope
	stiff.Stretch = rode.LinearStretch(1e12)
	soft.Stretch = rode.LinearStretch(500)
	at := func(rope rode.Rope, l units.Length) rode.SurgePeak {
		return surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: l}), s, g)
	}
	if p := at(stiff, 0.01); math.Abs(p.Peak.Pull.Per(bare.Peak.Pull)-1) > 1e-2 || p.Share(1) > 1e-6 {
		t.Errorf("stiff snubber: %v, bare chain %v, share %v", p.Peak.Pull, bare.Peak.Pull, p.Share(1))
	}
	most := g.Gust.Scale(2) - g.Rest
	if p := at(soft, 20); p.Share(1) < 0.95 || p.Peak.Pull > most.Scale(1.02) || p.Peak.Pull < most {
		t.Errorf("soft snubber: share %v, peak %v, twice the gust gives %v", p.Share(1), p.Peak.Pull, most)
	}

	// An inextensible chain has no more to give than the lifting of it.
	rigid := r.Pieces[0]
	rigid.Stretch = rode.Stretch{}
	_, err := rode.SolveSurge(rode.Rode{Pieces: []rode.Piece{rigid}}, s, rode.Surge{Mass: 1e5, Rest: 100, Speed: 5})
	if !errors.Is(err, rode.ErrNoBalance) {
		t.Errorf("no stretch and no catenary left: %v", err)
	}
	// A rope asked for more than it can bear says so.
	thin := rode.Snubber{Rope: rope, Length: 2}
	if _, err := rode.SolveSurge(snub(t, r, thin), s, rode.Surge{Mass: 1e5, Rest: 100, Speed: 3}); !errors.Is(err, rode.ErrStretch) {
		t.Errorf("beyond the curve: %v", err)
	}
}

func TestSurgeIsMonotone(t *testing.T) {
	r, s, g, rope := plover(t)
	peak := func(l units.Length, legs int, g rode.Surge) float64 {
		return float64(surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: l, Legs: legs}), s, g).Peak.Tension)
	}
	base := peak(10, 1, g)
	faster, heavier, gustier := g, g, g
	faster.Speed, heavier.Mass, gustier.Gust = 1, 12000, 5000
	for name, p := range map[string]float64{
		"faster": peak(10, 1, faster), "heavier": peak(10, 1, heavier), "gustier": peak(10, 1, gustier),
		"shorter": peak(6, 1, g), "thicker": peak(10, 2, g),
	} {
		if p <= base {
			t.Errorf("%s: %v, not more than %v", name, p, base)
		}
	}
}

// Everything ten times as long with speeds by the root of it, and forces alike in
// weight: peaks scale as the weights do.
func TestSurgeScales(t *testing.T) {
	r, s, g, rope := plover(t)
	n := rode.Snubber{Rope: rope, Length: 10}
	small := surge(t, snub(t, r, n), s, g)
	const k = 2.0
	r.Pieces[0].Length *= k
	r.Pieces[0].Stretch.Reference *= k
	n.Length *= k
	n.Rope.Stretch.Reference *= k
	n.Rope.Stretch.Limit *= k
	s.Depth *= k
	s.Roller *= k
	g.Mass *= k
	g.Rest *= k
	g.Gust *= k
	g.Speed *= units.Speed(math.Sqrt(k))
	large := surge(t, snub(t, r, n), s, g)
	if math.Abs(float64(large.Peak.Tension/small.Peak.Tension)-k) > 1e-9 || math.Abs(float64(large.Run/small.Run)-k) > 1e-9 {
		t.Errorf("peaks %v and %v, runs %v and %v", small.Peak.Tension, large.Peak.Tension, small.Run, large.Run)
	}
}

func TestSnubberLength(t *testing.T) {
	r, s, g, rope := plover(t)
	l := rode.SnubberLimits{Bow: 9 * units.Kilonewton, OfBreaking: 0.25}
	for _, legs := range []int{1, 2} {
		n := rode.Snubber{Rope: rope, Legs: legs}
		length, err := rode.SnubberLength(r, s, n, g, l)
		if err != nil {
			t.Fatal(err)
		}
		allowed := min(l.Bow, rope.Breaking.Scale(0.25*float64(legs)))
		n.Length, n.Rope = length, rope.Cyclic() // which is what it reckons with
		if p := surge(t, snub(t, r, n), s, g).Peak.Tension; p > allowed {
			t.Errorf("%v gives %v, more than %v", length, p, allowed)
		}
		n.Length -= 2 * units.Millimetre
		if p := surge(t, snub(t, r, n), s, g).Peak.Tension; p < allowed {
			t.Errorf("2 mm less than %v gives %v, not more than %v", length, p, allowed)
		}
	}
	if _, err := rode.SnubberLength(r, s, rode.Snubber{Rope: rope}, g, rode.SnubberLimits{Bow: 4401, OfBreaking: 1}); !errors.Is(err, rode.ErrShort) {
		t.Errorf("a limit below any peak: %v", err)
	}
	if got, err := rode.SnubberLength(r, s, rode.Snubber{Rope: rope}, rode.Surge{Mass: 1, Rest: 100}, l); err != nil || got != 0.1 {
		t.Errorf("no snubber needed: %v, %v", got, err)
	}
	// Chain shorter than the water is deep: the snubber has to make up for it.
	r.Pieces[0].Length = 5
	if got, err := rode.SnubberLength(r, s, rode.Snubber{Rope: rope}, rode.Surge{Mass: 1, Rest: 100}, l); err != nil || got < 3.7 {
		t.Errorf("short chain: %v, %v", got, err)
	}
}

// On a bed that rises to the boat a snubber of 200 m would lie beyond it; the one
// that is wanted is much shorter. Peak and length agree as on the level.
func TestSnubberLengthOnARisingBed(t *testing.T) {
	r, s, g, rope := plover(t)
	s.Slope = 4 * units.Degree
	l := rode.SnubberLimits{Bow: 11 * units.Kilonewton, OfBreaking: 0.25}
	n := rode.Snubber{Rope: rope, Legs: 2}
	var err error
	if n.Length, err = rode.SnubberLength(r, s, n, g, l); err != nil {
		t.Fatal(err)
	}
	for by, more := range map[units.Length]bool{0: false, -2 * units.Millimetre: true} {
		m := n
		m.Length += by
		m.Rope = rope.Cyclic()
		if p := surge(t, snub(t, r, m), s, g).Peak.Tension; (p > l.Bow) != more {
			t.Errorf("%v gives %v", m.Length, p)
		}
	}
	options, err := rode.CompareSnubbers(r, s, g, l, []rode.Snubber{n})
	if err != nil || options[0].Wanted != n.Length || !options[0].Holds() {
		t.Errorf("%+v, %v", options, err)
	}
	// What is wrong with anything else is passed on.
	_, err = rode.SnubberLength(rode.Rode{}, s, n, g, l)
	wants(t, err, rode.ErrInput, "Pieces")
	s.Friction = -1
	_, err = rode.SnubberLength(r, s, n, g, l)
	wants(t, err, rode.ErrInput, "Friction")
	_, err = rode.CompareSnubbers(r, s, g, l, []rode.Snubber{n})
	wants(t, err, rode.ErrInput, "snubbers[0]: Friction")
	_, err = rode.CompareSnubbers(rode.Rode{}, s, g, l, []rode.Snubber{n})
	wants(t, err, rode.ErrInput, "snubbers[0]: Pieces")
	s.Friction, s.Slope = 0, 15*units.Degree
	_, err = rode.SnubberLength(r, s, n, g, l)
	wants(t, err, rode.ErrBed, "Slope")
}

func TestSnubberHookAndSlack(t *testing.T) {
	r, s, g, rope := plover(t)
	p := surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: 8}), s, g)
	if h := p.Peak.HookHeight(); h != p.Peak.Joints[0].Z-s.Depth || h > s.Roller || h < -s.Depth {
		t.Errorf("hook at %v", h)
	}
	least := p.LeastSlack()
	top := p.Peak.Pieces[1]
	if most := 8 + top.Stretch; least > most || least < most.Scale(0.99) {
		t.Errorf("slack %v, snubber %v long", least, most)
	}
}

func TestSnubberUnitInvariance(t *testing.T) {
	r, s, g, rope := plover(t)
	a := surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: 10 * units.Foot}), s, g)
	b := surge(t, snub(t, r, rode.Snubber{Rope: rope, Length: 3048 * units.Millimetre}), s, g)
	if math.Abs(a.Peak.Tension.Per(b.Peak.Tension)-1) > 1e-12 {
		t.Errorf("%v and %v", a.Peak.Tension, b.Peak.Tension)
	}
}

func TestSnubberRefuses(t *testing.T) {
	r, s, g, rope := plover(t)
	good := rode.Snubber{Rope: rope, Length: 10}
	lim := rode.SnubberLimits{Bow: 9000, OfBreaking: 0.25}
	nan := math.NaN()
	for field, f := range map[string]func() error{
		"Snubber.Length": func() error { n := good; n.Length = 0; _, err := r.Snub(n); return err },
		"Snubber.Legs":   func() error { n := good; n.Legs = 3; _, err := r.Snub(n); return err },
		"Snubber.Slack":  func() error { n := good; n.Slack = -1; _, err := r.Snub(n); return err },
		"Snubber.Rope.Stretch": func() error {
			n := good
			n.Rope.Stretch = rode.Stretch{}
			_, err := r.Snub(n)
			return err
		},
		"Snubber.Rope.Breaking": func() error { n := good; n.Rope.Breaking = units.Force(nan); _, err := r.Snub(n); return err },
		"Snubber.Rope.Diameter": func() error { n := good; n.Rope.Diameter = -1; _, err := r.Snub(n); return err },
		"Pieces":                func() error { _, err := rode.Rode{}.Snub(good); return err },
		"Surge.Mass":            func() error { _, err := rode.SolveSurge(r, s, rode.Surge{}); return err },
		"Surge.Rest":            func() error { _, err := rode.SolveSurge(r, s, rode.Surge{Mass: 1, Rest: -1}); return err },
		"Surge.Gust":            func() error { _, err := rode.SolveSurge(r, s, rode.Surge{Mass: 1, Rest: 5, Gust: 4}); return err },
		"Surge.Speed": func() error {
			_, err := rode.SolveSurge(r, s, rode.Surge{Mass: 1, Speed: units.Speed(math.Inf(1))})
			return err
		},
		"SnubberLimits.Bow":        func() error { l := lim; l.Bow = 0; _, err := rode.SnubberLength(r, s, good, g, l); return err },
		"SnubberLimits.OfBreaking": func() error { l := lim; l.OfBreaking = 2; _, err := rode.SnubberLength(r, s, good, g, l); return err },
		"snubbers[1]: Snubber.Length": func() error {
			_, err := rode.CompareSnubbers(r, s, g, lim, []rode.Snubber{good, {Rope: rope}})
			return err
		},
		"SlackChain.Length": func() error { _, err := rode.SlackChain{Length: 1, Apart: 2, Weight: 1}.Hang(); return err },
		"SlackChain.Weight": func() error { _, err := rode.SlackChain{Length: 3, Apart: 2}.Hang(); return err },
		"SlackChain.Apart":  func() error { _, err := rode.SlackChain{Length: 3, Apart: -2, Weight: 1}.Hang(); return err },
	} {
		refused(t, field, f())
	}
}

// refused checks that an error names a field and is one of the package's.
func refused(t *testing.T, field string, err error) {
	t.Helper()
	e, ok := errors.AsType[*rode.Error](err)
	switch {
	case !ok:
		t.Errorf("%s: got %v", field, err)
	case e.Field != field:
		t.Errorf("got field %q, want %q: %v", e.Field, field, err)
	case e.Value == "" || e.Want == "" || e.Err == nil:
		t.Errorf("%s: says too little: %v", field, err)
	}
}

// A loop of slack chain, integrated along its links, ends at the roller.
func TestSlackChain(t *testing.T) {
	for _, k := range []rode.SlackChain{
		{Length: 12, Apart: 8, Above: 1.5, Weight: 20},
		{Length: 12, Apart: 8, Above: 0, Weight: 20},
		{Length: 9.001, Apart: 8.9, Above: 1, Weight: 20},
		{Length: 12, Apart: 0, Above: 4, Weight: 20},
		{Length: 30, Apart: 0.5, Above: 1, Weight: 20},
		{Length: 6, Apart: 3, Above: 5, Weight: 20},
	} {
		l, err := k.Hang()
		if err != nil {
			t.Error(err)
			continue
		}
		x, z, low := 0.0, 0.0, 0.0
		const n = 200000
		ds := float64(k.Length) / n
		for i := range n {
			v := -float64(l.AtHook) + (float64(i)+0.5)*ds*float64(k.Weight)
			tension := math.Hypot(v, float64(l.Horizontal))
			x += float64(l.Horizontal) / tension * ds
			z += v / tension * ds
			low = math.Min(low, z)
		}
		if math.Abs(x-float64(k.Apart)) > 2e-4 || math.Abs(z-float64(k.Above)) > 2e-4 || math.Abs(low+float64(l.Below)) > 2e-4 {
			t.Errorf("%+v: ends at %v, %v, lowest %v: %+v", k, x, z, low, l)
		}
		if sum := l.AtHook + l.AtRoller - k.Weight.TimesLength(k.Length); math.Abs(float64(sum)) > 1e-9 {
			t.Errorf("%+v: ends carry %v more than the weight", k, sum)
		}
	}
}

func TestCompareSnubbers(t *testing.T) {
	r, s, g, _ := plover(t)
	var ns []rode.Snubber
	for _, size := range []string{"12", "16", "24"} {
		rope, err := rode.RopeByName("polyamide eight-strand " + size + " mm")
		if err != nil {
			t.Fatal(err)
		}
		ns = append(ns, rode.Snubber{Rope: rope.Wet(), Length: 10})
	}
	os, err := rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 9 * units.Kilonewton, OfBreaking: 0.3}, ns)
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range os {
		t.Logf("%s: peak %.2f kN, %.0f %% of breaking, strain %.0f %%, share %.0f %%, wanted %.2f m, holds %v",
			o.Snubber.Rope.Name(), o.Peak.Peak.Tension.Kilonewtons(), 100*o.OfBreaking, 100*o.Strain, 100*o.Share, o.Wanted.Metres(), o.Holds())
		if i > 0 && (o.Peak.Peak.Tension <= os[i-1].Peak.Peak.Tension || o.Share >= os[i-1].Share) {
			t.Errorf("%s: a thicker rope should give less", o.Snubber.Rope.Name())
		}
		if o.Holds() != (o.Wanted > 0 && o.Wanted <= 10) {
			t.Errorf("%s: holds %v, wanted %v", o.Snubber.Rope.Name(), o.Holds(), o.Wanted)
		}
	}
}

// Polyamide in cycles is a straight line, whatever slow curve it had, as strong as before
// and never softer than it was; a stiffer curve of one's own stays, and other fibres as they are.
func TestCyclic(t *testing.T) {
	for _, r := range rode.Ropes() {
		for what, r := range map[string]rode.Rope{"dry": r, "wet": r.Wet(), "used": mustUse(t, r, 0.6)} {
			c := r.Cyclic()
			if c.Fibre != "polyamide" {
				if c != r {
					t.Errorf("%s %s: changed to %+v", r.Name(), what, c)
				}
				continue
			}
			for _, part := range []float64{0.01, 0.05, 0.2, 0.5, 1} {
				load := r.Stretch.Limit.Scale(part)
				slow, err := r.Strain(load)
				if err != nil {
					t.Fatal(err)
				}
				got, err := c.Strain(load)
				if err != nil || math.Abs(got-0.2825*part) > 1e-12 || got > slow {
					t.Errorf("%s %s: %v at %v, slowly %v: %v", r.Name(), what, got, load, slow, err)
				}
			}
			if _, err := c.Strain(r.Stretch.Limit.Scale(1.01)); !errors.Is(err, rode.ErrStretch) {
				t.Errorf("%s %s beyond its curve: %v", r.Name(), what, err)
			}
			if c.Breaking != r.Breaking || c.Cyclic() != c {
				t.Errorf("%s %s: %+v", r.Name(), what, c)
			}
		}
	}
	own := rode.Rope{Fibre: "polyamide", Breaking: 10e3, Stretch: rode.LinearStretch(50e3)}
	if own.Cyclic() != own {
		t.Error("a stiffer curve is lost")
	}
	own.Stretch = rode.LinearStretch(20e3)
	if c := own.Cyclic().Stretch; c.Limit != 10e3 || math.Abs(float64(c.Reference)*0.2825-10e3) > 1e-9 {
		t.Errorf("a softer curve becomes %+v", c)
	}
	for _, r := range []rode.Rope{{}, {Fibre: "polyamide"}, {Fibre: "polyamide", Breaking: units.Force(math.Inf(1))}} {
		if r.Cyclic() != r {
			t.Errorf("%+v: %+v", r, r.Cyclic())
		}
	}
}

func mustUse(t *testing.T, r rode.Rope, left float64) rode.Rope {
	t.Helper()
	r, err := r.Used(left)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The peak that a snubber is judged by is that of the stiffer rope.
func TestSnubbersAreSizedForCycles(t *testing.T) {
	r, s, g, rope := plover(t)
	n := rode.Snubber{Rope: rope, Length: 10}
	options, err := rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 12e3, OfBreaking: 0.4}, []rode.Snubber{n})
	if err != nil {
		t.Fatal(err)
	}
	got := options[0].Peak.Peak.Tension
	slow := surge(t, snub(t, r, n), s, g).Peak
	n.Rope = rope.Cyclic()
	fast := surge(t, snub(t, r, n), s, g).Peak
	if got != fast.Tension || got < slow.Tension.Scale(1.05) {
		t.Errorf("peak %v, in cycles %v, slowly %v", got, fast.Tension, slow.Tension)
	}
	if options[0].Snubber.Rope != rope {
		t.Error("the snubber asked about was changed")
	}
	n.Rope.Stretch = rode.Stretch{}
	_, err = rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 12e3, OfBreaking: 0.4}, []rode.Snubber{n})
	refused(t, "snubbers[0]: Snubber.Rope.Stretch", err)
}
