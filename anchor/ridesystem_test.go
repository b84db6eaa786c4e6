package anchor

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// A line whose pull grows evenly from a distance on.
func spring(stiffness, from float64) *lineTable {
	t := &lineTable{low: -10, step: 10, heights: 3, pulls: []float64{0, 1e4, 1e5}}
	for range t.heights {
		for _, p := range t.pulls {
			t.distance = append(t.distance, from+p/stiffness)
			t.slope = append(t.slope, stiffness)
			t.vertical = append(t.vertical, 0)
			t.anchorPull = append(t.anchorPull, p)
			t.anchorLift = append(t.anchorLift, 0)
		}
	}
	return t
}

// In line with a spring and with linear drag only, surge is the damped oscillator
// of every textbook, forced by waves: its start and its steady part are known.
func TestSurgeIsALinearOscillator(t *testing.T) {
	const mass, k, from, drag, step = 8000.0, 3000.0, 30.0, 900.0, 0.05
	s := &system{line: spring(k, from), surge: mass, sway: 2 * mass, yaw: 1e5, surgeDrag: drag, step: step}
	const start, accel, omega = 1.5, 0.3, 0.8
	m := motion{x: -(from + 2 + start)}
	// Displacement q = -x - from - 2, held at 2 by a steady drift.
	s.drift = 2 * k
	wn, zeta := math.Sqrt(k/mass), drag/(2*math.Sqrt(k*mass))
	wd := wn * math.Sqrt(1-zeta*zeta)
	// q'' + 2 zeta wn q' + wn² q = -accel cos(omega t)
	den := (wn*wn-omega*omega)*(wn*wn-omega*omega) + 4*zeta*zeta*wn*wn*omega*omega
	c := -accel * (wn*wn - omega*omega) / den
	d := -accel * 2 * zeta * wn * omega / den
	a := start - c
	b := (zeta*wn*a - d*omega) / wd
	hint := 0
	worst := 0.0
	at := func(time float64) outside { return outside{forward: accel * math.Cos(omega*time)} }
	for i := range 4000 {
		now := float64(i) * step
		from0, middle, to := at(now), at(now+step/2), at(now+step)
		if !s.advance(&m, &from0, &middle, &to, &hint) {
			t.Fatal("beyond the table")
		}
		now += step
		e := math.Exp(-zeta * wn * now)
		sin, cos := math.Sincos(wd * now)
		q := e*(a*cos+b*sin) + c*math.Cos(omega*now) + d*math.Sin(omega*now)
		worst = math.Max(worst, math.Abs(-m.x-from-2-q))
	}
	if worst > 2e-6 {
		t.Errorf("off the exact response by %v m", worst)
	}
}

// Without wind and drag the energy of the boat and her rode changes only by the
// moment that the table of loads takes the place of.
func TestEnergyIsKept(t *testing.T) {
	chain := rode.Rode{Pieces: []rode.Piece{{Length: 35, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(5.465e6)}}}
	table, err := newLineTable(chain, rode.Site{Depth: 5, Roller: 1.4}, 1.4, 1.4, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	s := &system{line: table, surge: 8000, sway: 14000, yaw: 9e4, ahead: 4.9, roller: 1.4, step: 0.02}
	hint := 0
	stored := func(d float64) float64 { // work of the static rode, by Simpson's rule
		const n = 20000
		lo := 28.0
		sum := 0.0
		for i := range n + 1 {
			weight := 2.0
			switch {
			case i == 0 || i == n:
				weight = 1
			case i%2 == 1:
				weight = 4
			}
			p, ok := table.pullAt(lo+(d-lo)*float64(i)/n, 1.4, &hint)
			if !ok {
				t.Fatal("beyond the table")
			}
			sum += weight * p
		}
		return sum * (d - lo) / n / 3
	}
	m := motion{x: -39, y: 0.5, heading: 0.3, u: -0.4, v: 0.3, r: 0.05}
	energy := func() float64 {
		sin, cos := math.Sincos(m.heading)
		d := math.Hypot(m.x+s.ahead*cos, m.y+s.ahead*sin)
		return (s.surge*m.u*m.u+s.sway*m.v*m.v+s.yaw*m.r*m.r)/2 + stored(d)
	}
	// Of the moment (surge - sway) u v of the moving water only the table of loads
	// knows; what is left out of it does this work.
	work := func() float64 { return (s.sway - s.surge) * m.u * m.v * m.r }
	before, done := energy(), 0.0
	largest := before
	for i := range 6000 {
		w := work()
		if !s.advance(&m, &outside{}, &outside{}, &outside{}, &hint) {
			t.Fatal("beyond the table")
		}
		done += s.step * (w + work()) / 2
		if i%200 == 0 {
			e := energy()
			largest = math.Max(largest, e)
			if math.Abs(e-before-done) > 2e-3*largest {
				t.Fatalf("after %.0f s: %.2f J, began with %.2f J, work %.2f J", float64(i)*s.step, e, before, done)
			}
		}
	}
}

// The table against solutions of the rode, anywhere in it.
func TestLineTable(t *testing.T) {
	rope := rode.Piece{Name: "snubber", Kind: rode.OfRope, Length: 8, Mass: 0.12, Density: 1140, Stretch: rode.LinearStretch(1.2e5)}
	chain := rode.Piece{Name: "chain", Length: 35, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(5.465e6)}
	short := rope
	short.Length = 40
	lead := chain
	lead.Length = 8
	for name, r := range map[string]rode.Rode{
		"chain":   {Pieces: []rode.Piece{chain}},
		"snubber": {Pieces: []rode.Piece{chain, rope}},
		"mixed":   {Pieces: []rode.Piece{lead, short}},
	} {
		site := rode.Site{Depth: 5, Roller: 1.4, Friction: 0.6}
		table, err := newLineTable(r, site, 0.4, 2.4, 0.01)
		if err != nil {
			t.Fatal(err)
		}
		if table.worst > 0.01 {
			t.Errorf("%s: %v", name, table.worst)
		}
		rng := rand.New(rand.NewPCG(1, 9))
		worst, worstBow, worstAnchor, worstLift := 0.0, 0.0, 0.0, 0.0
		hint := 0
		for range 2000 {
			site.Roller = units.Length(0.4 + 2*rng.Float64())
			pull := math.Exp(math.Log(1e5) * rng.Float64())
			st, err := rode.Solve(r, site, units.Force(pull))
			if err != nil {
				t.Fatal(err)
			}
			got, ok := table.at(float64(st.Distance), float64(site.Roller), &hint)
			if !ok {
				t.Fatalf("%s: %v beyond the table", name, st.Distance)
			}
			worst = math.Max(worst, math.Abs(got.pull-pull)/math.Max(20, pull))
			worstBow = math.Max(worstBow, math.Abs(math.Hypot(got.pull, got.vertical)-float64(st.Tension))/math.Max(100, float64(st.Tension)))
			worstAnchor = math.Max(worstAnchor, math.Abs(got.anchor-float64(st.Anchor.Tension))/math.Max(20, pull))
			worstLift = math.Max(worstLift, math.Abs(got.lift-float64(st.Anchor.FromBed)))
		}
		t.Logf("%s: %d heights, pull %.4f, bow %.4f, anchor %.4f, lift %.4f rad", name, table.heights, worst, worstBow, worstAnchor, worstLift)
		if worst > 0.01 || worstBow > 0.015 || worstAnchor > 0.02 || worstLift > 0.003 {
			t.Errorf("%s: off by %.4f in pull, %.4f at the bow, %.4f at the anchor, %.4f rad in lift", name, worst, worstBow, worstAnchor, worstLift)
		}
		// Farther out never pulls less.
		last := -1.0
		for i := range 20000 {
			d := 26 + 44*float64(i)/20000
			p, ok := table.pullAt(d, 1.7, &hint)
			if !ok {
				break
			}
			if p < last {
				t.Fatalf("%s: pull falls to %v from %v at %v m", name, p, last, d)
			}
			last = p
		}
		if last < 1e4 {
			t.Errorf("%s: the sweep ended at %v N", name, last)
		}
	}
}

func TestStepDoesNotAllocate(t *testing.T) {
	chain := rode.Rode{Pieces: []rode.Piece{{Length: 35, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(5.465e6)}}}
	table, err := newLineTable(chain, rode.Site{Depth: 5, Roller: 1.4}, 1, 2, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	s := &system{line: table, surge: 8000, sway: 14000, yaw: 9e4, ahead: 4.9, roller: 1.4, speed: 12, step: 0.05, strips: []strip{{1, 100}}}
	m, hint := motion{x: -38}, 0
	if n := testing.AllocsPerRun(1000, func() {
		s.advance(&m, &outside{}, &outside{bow: 0.1}, &outside{}, &hint)
	}); n != 0 {
		t.Errorf("%v allocations a step", n)
	}
}

// Ten times as long a run allocates no more often.
func TestRunDoesNotAllocateStepByStep(t *testing.T) {
	count := func(duration units.Time) float64 {
		r := someRide()
		r.Duration, r.Settle = duration, 10
		s, err := newSystem(&r)
		if err != nil {
			t.Fatal(err)
		}
		n := newRun(s, &r)
		return testing.AllocsPerRun(2, func() {
			if _, err := n.realise(context.Background(), 0, nil); err != nil {
				t.Fatal(err)
			}
		})
	}
	// The peaks of the summing up are a slice that doubles.
	if short, long := count(60), count(600); long > short+15 {
		t.Errorf("%v allocations in a minute, %v in ten", short, long)
	}
}

// Over many draws the variance of the series is the area under the spectrum, and
// their spectrum the one asked.
func TestSeriesHaveTheirSpectrum(t *testing.T) {
	density := bretschneider(0.6, 4)
	m := newMaker(2000, 0.1)
	rng := rand.New(rand.NewPCG(3, 3))
	var v []float64
	sum, band := 0.0, 0.0
	const draws = 60
	for range draws {
		m.draw(rng, density)
		for k, c := range m.coeffs {
			if f := m.frequency(k); f > 0.2 && f < 0.3 {
				band += 2 * (real(c)*real(c) + imag(c)*imag(c)) / draws
			}
		}
		v = m.series(v, nil)
		for _, x := range v {
			sum += x * x / float64(m.n) / draws
		}
	}
	if want := 0.6 * 0.6 / 16; math.Abs(sum/want-1) > 0.02 {
		t.Errorf("variance %v, want %v", sum, want)
	}
	// The cumulative spectrum is H²/16 exp(-(5/4) (fp/f)^4).
	below := func(f float64) float64 { return 0.6 * 0.6 / 16 * math.Exp(-1.25*math.Pow(0.25/f, 4)) }
	if want := below(0.3) - below(0.2); math.Abs(band/want-1) > 0.03 {
		t.Errorf("from 0.2 to 0.3 Hz %v, want %v", band, want)
	}
}

// drifter is someRide's boat, with all her drag, on a rode that never comes taut,
// without wind.
func drifter(t *testing.T, w Waves, regular bool) (*system, *run) {
	t.Helper()
	r := someRide()
	r.Site.Depth, r.Current.Depth = w.Depth, w.Depth
	r.Waves, r.Regular = w, regular
	s, err := newSystem(&r)
	if err != nil {
		t.Fatal(err)
	}
	s.line, s.wind = spring(1, 1000), [headings + 1]Load{}
	return s, newRun(s, &r)
}

// Whatever her heading, a boat without a rode goes to and fro with the water as
// Waves.Surge says, since no water flows past her: her drag has nothing to act on
// and her added mass nothing to turn against. Drag against the mean flow alone made
// that 1 to 8 % less in waves of 3 m, and turned her broadside.
func TestFreeBoatGoesWithTheWater(t *testing.T) {
	w := Waves{Height: 3, Period: 10, Depth: 12}
	want, err := w.Surge(9)
	if err != nil {
		t.Fatal(err)
	}
	for _, degrees := range []float64{0, 40, 90, 200} {
		s, n := drifter(t, w, true)
		n.weather(0)
		heading := degrees * math.Pi / 180
		sin, cos := math.Sincos(heading)
		from := n.outside(0)
		m, hint := motion{heading: heading, u: from.stream * cos, v: -from.stream * sin}, 0
		lo, hi, turned, aside := 0.0, 0.0, 0.0, 0.0
		for k := range 3 * 200 { // three periods
			middle, to := n.outside(2*k+1), n.outside(2*k+2)
			if !s.advance(&m, &from, &middle, &to, &hint) {
				t.Fatal("beyond the table")
			}
			from = to
			lo, hi = math.Min(lo, m.x), math.Max(hi, m.x)
			turned, aside = math.Max(turned, math.Abs(m.heading-heading)), math.Max(aside, math.Abs(m.y))
		}
		if got := (hi - lo) / 2; math.Abs(got/float64(want.Boat)-1) > 1e-3 || turned > 1e-3 || aside > 1e-3 {
			t.Errorf("heading %v°: surge %.4f m, want %.4f; turned %.4f rad, went aside %.4f m", degrees, got, want.Boat, turned, aside)
		}
	}
}

// In a spectrum the deviation of her speed is that of the linear transfer function
// times the spectrum, integrated here from their formulas.
func TestFreeBoatInASpectrum(t *testing.T) {
	const h, period, depth, l = 3.0, 10.0, 12.0, 9.0
	w := Waves{Height: h, Period: period, Depth: depth}
	variance := 0.0
	const df = 1e-4
	for f := 0.25/period + df/2; f < 4/period; f += df {
		omega := 2 * math.Pi * f
		lo, hi := 0.0, 100.0
		for range 100 { // w² = g k tanh(k d)
			if k := (lo + hi) / 2; 9.80665*k*math.Tanh(k*depth) < omega*omega {
				lo = k
			} else {
				hi = k
			}
		}
		k := (lo + hi) / 2
		density := 5.0 / 16 * h * h / math.Pow(period, 4) / math.Pow(f, 5) * math.Exp(-1.25/math.Pow(f*period, 4))
		speed := omega / math.Tanh(k*depth) * math.Sin(k*l/2) / (k * l / 2)
		variance += speed * speed * density * df
	}
	want := math.Sqrt(variance)
	s, n := drifter(t, w, false)
	const draws = 4
	got, most := 0.0, 0.0
	for draw := range draws {
		n.weather(uint64(draw))
		from := n.outside(0)
		m, hint := motion{u: from.stream}, 0
		steps := n.steps + n.settle
		for k := range steps {
			middle, to := n.outside(2*k+1), n.outside(2*k+2)
			if !s.advance(&m, &from, &middle, &to, &hint) {
				t.Fatal("beyond the table")
			}
			from = to
			got += m.u * m.u / float64(steps) / draws
			most = math.Max(most, math.Abs(m.u-from.stream))
		}
	}
	if got = math.Sqrt(got); math.Abs(got/want-1) > 0.03 || most > 0.01*want {
		t.Errorf("deviation %.3f m/s, want %.3f; off the water's by up to %.4f m/s", got, want, most)
	}
}

// A boat that floats free in a regular wave surges as Waves.Surge says.
func TestSurgeInWaves(t *testing.T) {
	w := Waves{Height: 0.5, Period: 5, Depth: 5}
	want, err := w.Surge(9)
	if err != nil {
		t.Fatal(err)
	}
	s := &system{line: spring(1, 1000), surge: 8000, sway: 14000, yaw: 9e4, ahead: 4.9, step: 0.05}
	m := newMaker(200, 0.05)
	var sea seaway
	sea.fill(m, nil, &w, true, 9, 4.9)
	// Start with the speed of the wave's own motion: aft under a crest.
	state, hint := motion{u: -float64(want.Speed)}, 0
	lo, hi := 0.0, 0.0
	for i := range 100 { // one period
		a, c := outside{forward: sea.forward[i]}, outside{forward: sea.forward[i+1]}
		b := outside{forward: (a.forward + c.forward) / 2}
		if !s.advance(&state, &a, &b, &c, &hint) {
			t.Fatal("beyond the table")
		}
		lo, hi = math.Min(lo, state.x), math.Max(hi, state.x)
	}
	if got := (hi - lo) / 2; math.Abs(got/float64(want.Boat)-1) > 2e-3 {
		t.Errorf("surge %v m, want %v", got, want.Boat)
	}
	// Long waves carry the bow up and down by all of their height.
	b, _, _ := bowResponse(0.01, 5, 9, 4.9)
	if math.Abs(math.Hypot(real(b), imag(b))-1) > 0.001 {
		t.Errorf("bow in a long wave: %v", b)
	}
}

// plain is the same boat and rode without a table: the rode is solved at every
// evaluation. It is the baseline of the benchmark.
type plain struct {
	*system
	rode rode.Rode
	site rode.Site
	st   rode.State
}

func (p *plain) derivative(m *motion, o *outside) (motion, error) {
	sin, cos := math.Sincos(m.heading)
	x, y, yaw := p.forces(m, o, sin, cos)
	bx, by := m.x+p.ahead*cos, m.y+p.ahead*sin
	d := math.Hypot(bx, by)
	p.site.Roller = units.Length(p.roller + o.bow)
	sv, err := rode.NewSolver(p.rode, p.site)
	if err == nil {
		err = sv.SolveDistance(&p.st, units.Length(d))
	}
	if err != nil {
		return motion{}, err
	}
	pull := float64(p.st.Pull)
	x, y, yaw = p.pulled(x, y, yaw, -pull*bx/d, -pull*by/d, sin, cos)
	return p.change(m, o, x, y, yaw, sin, cos), nil
}

func (p *plain) advance(m *motion, from, middle, to *outside) error {
	var k [4]motion
	at, outsides := *m, [4]*outside{from, middle, middle, to}
	for i := range k {
		var err error
		if k[i], err = p.derivative(&at, outsides[i]); err != nil {
			return err
		}
		at = m.plus(&k[i], p.step*[4]float64{0.5, 0.5, 1, 0}[i])
	}
	for i, w := range [4]float64{1, 2, 2, 1} {
		*m = m.plus(&k[i], p.step*w/6)
	}
	return nil
}

// A ride for the comparison with the plain one.
func someRide() Ride {
	return Ride{
		Above: Windage{Parts: []Part{{Name: "hull", Front: 6, Side: 16, Top: 2, Length: 10}}},
		Below: Underwater{Length: 9, Beam: 3.2, Draught: 0.75, Mass: 7200, Fins: []Fin{{Name: "keel", Side: 2.4, Chord: 3}}},
		Ahead: 4.9, Surging: 120, Swaying: 60, Yawing: 60,
		Rode: rode.Rode{Pieces: []rode.Piece{
			{Name: "chain", Length: 35, Mass: 1.4, Density: rode.Steel, Stretch: rode.LinearStretch(5.465e6)},
			{Name: "snubber", Kind: rode.OfRope, Length: 8, Mass: 0.12, Density: 1140, Stretch: rode.LinearStretch(1.2e5)},
		}},
		Site: rode.Site{Depth: 5, Roller: 1.4, Friction: 0.6},
		Wind: Wind{Speed: 11}, Current: Current{Depth: 5},
		Waves: Waves{Height: 0.2, Period: 2.8}, Seed: 1,
	}
}

// Minutes of boat time by the table and with the rode solved at every step come
// to the same loads.
func TestTableAgainstSolvingTheRode(t *testing.T) {
	r := someRide()
	s, err := newSystem(&r)
	if err != nil {
		t.Fatal(err)
	}
	n := newRun(s, &r)
	n.weather(0)
	a, _, err := n.start()
	if err != nil {
		t.Fatal(err)
	}
	b := a
	p := plain{system: s, rode: r.Rode, site: r.Site}
	hint := 0
	var peaks, worst [2]float64
	for k := range 120 * 20 {
		from, middle, to := n.outside(2*k), n.outside(2*k+1), n.outside(2*k+2)
		if !s.advance(&a, &from, &middle, &to, &hint) {
			t.Fatal("beyond the table")
		}
		if err := p.advance(&b, &from, &middle, &to); err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(a.heading)
		st, _ := s.line.at(math.Hypot(a.x+s.ahead*cos, a.y+s.ahead*sin), s.roller+to.bow, &hint)
		peaks[0], peaks[1] = math.Max(peaks[0], st.pull), math.Max(peaks[1], float64(p.st.Pull))
		worst[0] = math.Max(worst[0], math.Hypot(a.x-b.x, a.y-b.y))
		worst[1] = math.Max(worst[1], math.Abs(a.heading-b.heading))
	}
	t.Logf("peaks %.0f N and %.0f N, places %.4f m and headings %.5f rad apart", peaks[0], peaks[1], worst[0], worst[1])
	if math.Abs(peaks[0]/peaks[1]-1) > 0.01 || worst[0] > 0.02 || worst[1] > 0.01 {
		t.Errorf("peaks %.0f N and %.0f N, places %.4f m and headings %.5f rad apart", peaks[0], peaks[1], worst[0], worst[1])
	}
}

// Ten seconds of boat time, in the same weather, by the table and by solving the
// rode. Both report how many times faster than real time they are.
func BenchmarkTenSeconds(b *testing.B) {
	r := someRide()
	s, err := newSystem(&r)
	if err != nil {
		b.Fatal(err)
	}
	n := newRun(s, &r)
	n.weather(0)
	start, _, err := n.start()
	if err != nil {
		b.Fatal(err)
	}
	seconds := func(b *testing.B, advance func(m *motion, from, middle, to *outside) error) {
		b.ReportAllocs()
		for b.Loop() {
			m := start
			for k := range 200 {
				from, middle, to := n.outside(2*k), n.outside(2*k+1), n.outside(2*k+2)
				if err := advance(&m, &from, &middle, &to); err != nil {
					b.Fatal(err)
				}
			}
		}
		b.ReportMetric(10*float64(b.N)/b.Elapsed().Seconds(), "times-real")
	}
	b.Run("table", func(b *testing.B) {
		hint := 0
		seconds(b, func(m *motion, from, middle, to *outside) error {
			if !s.advance(m, from, middle, to, &hint) {
				return ErrParted
			}
			return nil
		})
	})
	b.Run("solved", func(b *testing.B) {
		p := plain{system: s, rode: r.Rode, site: r.Site}
		seconds(b, p.advance)
	})
}

// The gusts that come of the spectra against published gust factors: over open
// country Durst's curve, off the sea the formula of the spectrum's own standard,
//
//	U(t)/U = 1 - 0.41 I ln(t/3600),  I = 0.06 (1 + 0.043 U0)  (at 10 m)
func TestGustFactorsOfTheSpectra(t *testing.T) {
	const hours = 60
	factors := func(g Gusts, w Wind, times ...float64) []float64 {
		density := g.density(w)
		m := newMaker(3600, gustStep)
		rng := rand.New(rand.NewPCG(11, 1))
		out := make([]float64, len(times))
		var v []float64
		for range hours {
			m.draw(rng, func(f float64) float64 {
				if f < 1.0/3600 {
					return 0
				}
				return density(f)
			})
			v = m.series(v, nil)
			for i, seconds := range times {
				n := int(seconds / gustStep)
				best, sum := 0.0, 0.0
				for j, x := range v[:int(3600/gustStep)] {
					if sum += x; j >= n {
						sum -= v[j-n]
					}
					if j >= n-1 {
						best = math.Max(best, sum/float64(n))
					}
				}
				out[i] += (1 + best/float64(w.Speed)) / hours
			}
		}
		return out
	}
	for _, u := range []units.Speed{10, 20} {
		w := Wind{Speed: u}
		got := factors(Gusts{Roughness: 0.05}, w, 3, 60)
		for i, seconds := range []units.Time{3, 60} {
			want, err := GustFactor(seconds, 3600)
			if err != nil || math.Abs(got[i]/want-1) > 0.05 {
				t.Errorf("land, %v: gusts of %v are %.3f times the mean, Durst %.3f, %v", u, seconds, got[i], want, err)
			}
		}
		got = factors(Gusts{Spectrum: Sea}, w, 3, 60)
		for i, seconds := range []float64{3, 60} {
			want := 1 - 0.41*0.06*(1+0.043*float64(u))*math.Log(seconds/3600)
			if math.Abs(got[i]/want-1) > 0.04 {
				t.Errorf("sea, %v: gusts of %v s are %.3f times the mean, standard %.3f", u, seconds, got[i], want)
			}
		}
	}
}
