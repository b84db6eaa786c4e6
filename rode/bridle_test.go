package rode_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func bridleOf(t testing.TB, spread, port, starboard units.Length) rode.Bridle {
	t.Helper()
	_, _, _, rope := plover(t)
	return rode.Bridle{Rope: rope, Spread: spread, Port: port, Starboard: starboard}
}

func solveBridle(t testing.TB, b rode.Bridle, p rode.BridlePull) rode.BridleState {
	t.Helper()
	st, err := rode.SolveBridle(b, p)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// Straight ahead with equal legs each carries half the pull over the cosine.
func TestBridleSymmetric(t *testing.T) {
	b := bridleOf(t, 6, 9, 9)
	for _, p := range []rode.BridlePull{{Horizontal: 100}, {Horizontal: 4400}, {Horizontal: 4400, Vertical: 900}, {Horizontal: 20000, Vertical: 5000}} {
		st := solveBridle(t, b, p)
		half := math.Asin(3 / float64(st.Port.Length))
		want := float64(st.Tension) / 2 / math.Cos(half)
		for _, l := range []rode.LegState{st.Port, st.Starboard} {
			if math.Abs(float64(l.Tension)/want-1) > 1e-12 {
				t.Errorf("%+v: a leg carries %v, want %v N", p, l.Tension, want)
			}
			strain, err := b.Rope.Strain(l.Tension)
			if err != nil || math.Abs(float64(l.Length)/(9*(1+strain))-1) > 1e-12 {
				t.Errorf("%+v: a leg is %v long, strain %v, %v", p, l.Length, strain, err)
			}
		}
		if math.Abs(float64(st.ToPort)) > 1e-12 || math.Abs(float64(st.Turning)) > 1e-8 {
			t.Errorf("%+v: ring %v to port, moment %v", p, st.ToPort, st.Turning)
		}
	}
}

// At the ring the forces balance in all three directions, each leg is as long as
// its tension makes it, and a slack leg carries nothing.
func TestBridleBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	slack := 0
	for range 2000 {
		b := bridleOf(t, units.Length(logUniform(r, 0.5, 8)), units.Length(logUniform(r, 1, 20)), units.Length(logUniform(r, 1, 20)))
		if b.Port+b.Starboard <= b.Spread {
			continue
		}
		p := rode.BridlePull{
			Horizontal: units.Force(logUniform(r, 10, 30000)), Sheer: units.Degree.Scale(178*r.Float64() - 89),
		}
		if r.IntN(2) == 0 {
			p.Vertical = p.Horizontal.Scale(r.Float64())
		}
		st := solveBridle(t, b, p)
		ring := [3]float64{float64(st.Forward), float64(st.ToPort), -float64(st.Below)}
		sum := [3]float64{
			float64(p.Horizontal) * p.Sheer.Cos(), float64(p.Horizontal) * p.Sheer.Sin(), -float64(p.Vertical),
		}
		for _, l := range []struct {
			rode.LegState
			at     float64
			length units.Length
		}{{st.Port, float64(b.Spread) / 2, b.Port}, {st.Starboard, -float64(b.Spread) / 2, b.Starboard}} {
			to := [3]float64{-ring[0], l.at - ring[1], -ring[2]}
			d := math.Sqrt(to[0]*to[0] + to[1]*to[1] + to[2]*to[2])
			if math.Abs(d-float64(l.Length)) > 1e-12*d {
				t.Errorf("%+v %+v: length %v, distance %v", b, p, l.Length, d)
			}
			for i := range sum {
				sum[i] += float64(l.Tension) * to[i] / d
			}
			strain, err := b.Rope.Strain(l.Tension)
			if err != nil {
				t.Fatal(err)
			}
			if l.Tension > 0 && math.Abs(d/(float64(l.length)*(1+strain))-1) > 1e-12 {
				t.Errorf("%+v %+v: %v long at %v", b, p, d, l.Tension)
			}
			if l.Slack > 0 {
				slack++
				if l.Tension != 0 || l.Stretch != 0 {
					t.Errorf("a slack leg carries %v", l.Tension)
				}
			}
		}
		for i, f := range sum {
			if math.Abs(f) > 1e-8*float64(st.Tension) {
				t.Errorf("%+v %+v: unbalanced by %v in direction %d", b, p, f, i)
			}
		}
	}
	if slack < 100 {
		t.Errorf("only %d slack legs", slack)
	}
}

// The leg away from the rode takes more and more as the boat sheers, mirrored it
// is the other's, and beyond some sheer it has it all.
func TestBridleSheer(t *testing.T) {
	b := bridleOf(t, 6, 9, 9)
	last := units.Force(0)
	for sheer := -60.0; sheer <= 60; sheer += 5 {
		p := rode.BridlePull{Horizontal: 4400, Sheer: units.Degree.Scale(sheer)}
		st := solveBridle(t, b, p)
		if st.Starboard.Tension < last-1e-9 {
			t.Errorf("%v°: starboard leg %v after %v", sheer, st.Starboard.Tension, last)
		}
		last = st.Starboard.Tension
		p.Sheer = -p.Sheer
		mirror := solveBridle(t, b, p)
		if math.Abs(float64(mirror.Starboard.Tension-st.Port.Tension)) > 1e-8 || math.Abs(float64(mirror.Turning+st.Turning)) > 1e-6 {
			t.Errorf("%v°: port %v, mirrored starboard %v", sheer, st.Port.Tension, mirror.Starboard.Tension)
		}
		if sheer > 0 && st.Turning <= 0 {
			t.Errorf("%v°: moment %v does not turn the bow to the rode", sheer, st.Turning)
		}
	}
	st := solveBridle(t, b, rode.BridlePull{Horizontal: 4400, Sheer: 60 * units.Degree})
	if math.Abs(float64(st.Starboard.Tension)-4400) > 1e-8 || st.Port.Tension != 0 || st.Port.Slack <= 0 {
		t.Errorf("port %v, starboard %v", st.Port, st.Starboard)
	}
	if math.Abs(float64(st.Starboard.Lead-60*units.Degree)) > 1e-9 {
		t.Errorf("a single leg leads to %v", st.Starboard.Lead)
	}
}

// Legs that hardly stretch keep their lengths: the statics of a rigid triangle,
// with the law of sines for the tensions.
func TestBridleStiff(t *testing.T) {
	b := bridleOf(t, 6, 8, 9)
	b.Rope.Stretch = rode.LinearStretch(1e12)
	b.Rope.Breaking = 1e12
	st := solveBridle(t, b, rode.BridlePull{Horizontal: 1000})
	y := (9.0*9 - 8*8) / (2 * 6) // of the ring to port
	x := math.Sqrt(8*8 - (y-3)*(y-3))
	if math.Abs(float64(st.ToPort)-y) > 1e-6 || math.Abs(float64(st.Forward)-x) > 1e-6 {
		t.Errorf("ring at %v, %v, want %v, %v", st.Forward, st.ToPort, x, y)
	}
	port, starboard := math.Atan2(3-y, x), math.Atan2(3+y, x) // inward of straight ahead
	for _, l := range []struct{ got, other float64 }{{float64(st.Port.Tension), starboard}, {float64(st.Starboard.Tension), port}} {
		if want := 1000 * math.Sin(l.other) / math.Sin(port+starboard); math.Abs(l.got-want) > 1e-3 {
			t.Errorf("tension %v, want %v", l.got, want)
		}
	}
}

func TestHangBridle(t *testing.T) {
	r, s, _, _ := plover(t)
	b := bridleOf(t, 6, 9, 9)
	last := units.Length(-100)
	for _, pull := range []units.Force{1500, 2300, 4400, 7200, 20000} {
		h, err := rode.HangBridle(r, s, b, pull, 0, 12)
		if err != nil {
			t.Fatal(err)
		}
		if off := h.Ring + h.Bridle.Below - s.Roller; math.Abs(float64(off)) > 1e-9 {
			t.Errorf("%v: ring %v, %v below the fairleads", pull, h.Ring, h.Bridle.Below)
		}
		if h.Ring <= last {
			t.Errorf("%v: ring at %v, before %v", pull, h.Ring, last)
		}
		last = h.Ring
		at := s
		at.Roller = h.Ring
		st, err := rode.Solve(r, at, pull)
		if err != nil {
			t.Fatal(err)
		}
		load := math.Hypot(float64(pull), float64(st.Vertical)+12*0.5*2.2*9.80665*(1-1025.0/7850))
		if h.Ring < 0 && math.Abs(float64(h.Bridle.Tension)/load-1) > 0.05 {
			t.Errorf("%v: tension %v, want about %v", pull, h.Bridle.Tension, load)
		}
	}
	// Next to no pull in shallow water: the ring lies on the bed.
	s.Depth = 2
	if _, err := rode.HangBridle(r, s, b, 5, 0, 20); !errors.Is(err, rode.ErrBed) {
		t.Errorf("got %v", err)
	}
}

func TestBridleRefuses(t *testing.T) {
	r, s, _, _ := plover(t)
	good := bridleOf(t, 6, 9, 9)
	pull := rode.BridlePull{Horizontal: 4400}
	nan := math.NaN()
	with := func(f func(*rode.Bridle)) func() error {
		return func() error { b := good; f(&b); _, err := rode.SolveBridle(b, pull); return err }
	}
	pulled := func(p rode.BridlePull) func() error {
		return func() error { _, err := rode.SolveBridle(good, p); return err }
	}
	hang := func(s rode.Site, pull units.Force, slack units.Length) func() error {
		return func() error { _, err := rode.HangBridle(r, s, good, pull, 0, slack); return err }
	}
	sloping := s
	sloping.Slope = 0.1
	for _, c := range []struct {
		field string
		f     func() error
	}{
		{"Bridle.Spread", with(func(b *rode.Bridle) { b.Spread = 0 })},
		{"Bridle.Port", with(func(b *rode.Bridle) { b.Port = units.Length(nan) })},
		{"Bridle.Port", with(func(b *rode.Bridle) { b.Port, b.Starboard = 3, 3 })},
		{"Bridle.Starboard", with(func(b *rode.Bridle) { b.Starboard = -1 })},
		{"Bridle.Rope.Stretch", with(func(b *rode.Bridle) { b.Rope.Stretch = rode.Stretch{} })},
		{"BridlePull.Horizontal", pulled(rode.BridlePull{})},
		{"BridlePull.Horizontal", pulled(rode.BridlePull{Horizontal: units.Force(math.Inf(1))})},
		{"BridlePull.Vertical", pulled(rode.BridlePull{Horizontal: 1, Vertical: -1})},
		{"BridlePull.Sheer", pulled(rode.BridlePull{Horizontal: 1, Sheer: 90 * units.Degree})},
		{"BridlePull.Sheer", pulled(rode.BridlePull{Horizontal: 1, Sheer: units.Angle(nan)})},
		{"tension of a leg", pulled(rode.BridlePull{Horizontal: 200e3})},
		{"Slope", hang(sloping, 100, 0)},
		{"slack", hang(s, 100, -1)},
		{"BridlePull.Horizontal", hang(s, 0, 0)},
	} {
		refused(t, c.field, c.f())
	}
}

func FuzzBridle(f *testing.F) {
	f.Add(6.0, 9.0, 9.0, 4400.0, 0.0, 0.2)
	f.Add(0.8, 9.0, 4.0, 100.0, 50.0, -1.2)
	f.Add(1e-9, 1e-9, 1e9, 1e-9, 1e9, 1.57)
	f.Fuzz(func(t *testing.T, spread, port, starboard, h, v, sheer float64) {
		b := bridleOf(t, units.Length(spread), units.Length(port), units.Length(starboard))
		st, err := rode.SolveBridle(b, rode.BridlePull{Horizontal: units.Force(h), Vertical: units.Force(v), Sheer: units.Angle(sheer)})
		if err != nil {
			if _, ok := errors.AsType[*rode.Error](err); !ok {
				t.Errorf("%v is not the package's error", err)
			}
			return
		}
		for _, x := range []float64{
			float64(st.Tension), float64(st.Forward), float64(st.ToPort), float64(st.Below), float64(st.Turning),
			float64(st.Port.Tension), float64(st.Starboard.Tension), float64(st.Port.Slack), float64(st.Starboard.Lead),
		} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%+v", st)
			}
		}
	})
}
