package anchor_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/stat/distuv"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// dunlin is a ten-metre cutter of steel on 8 mm chain with a snubber.
func dunlin(snubber units.Length) anchor.Ride {
	chain := chainOf(35)
	chain.Stretch = rode.LinearStretch(5465 * units.Kilonewton)
	r := rode.Rode{Pieces: []rode.Piece{chain}}
	if snubber > 0 {
		rope := ropeOf(snubber)
		rope.Stretch = rode.Rope{Fibre: "polyamide", Breaking: 34 * units.Kilonewton}.Cyclic().Stretch
		r.Pieces = append(r.Pieces, rope)
	}
	return anchor.Ride{
		Above: anchor.Windage{Parts: []anchor.Part{
			{Name: "hull", Front: 3, Side: 10.5, Top: 1.1, Length: 10, DragFront: 0.8},
			{Name: "house", Front: 1.5, Side: 2.5, Bottom: 1.1, Top: 1.6, Station: -0.5, Length: 4},
			{Name: "mast", Shape: anchor.Round, Front: 1.9, Side: 1.9, Bottom: 1.5, Top: 14, Station: 1},
			{Name: "headsail rolled", Shape: anchor.Round, Front: 1.6, Side: 1.6, Bottom: 1.5, Top: 13, Station: 3},
			anchor.Wires{Name: "rigging", Diameter: 0.007, Length: 110, Bottom: 1.2, Top: 12}.Part(),
			{Name: "boom", Shape: anchor.Spar, Front: 0.1, Side: 1.2, Bottom: 2.5, Top: 2.9, Station: -2},
		}},
		Below: anchor.Underwater{
			Length: 9, Beam: 3.2, Draught: 0.75, Mass: 7200,
			Fins: []anchor.Fin{
				{Name: "keel", Side: 2.4, Chord: 3, Station: 0},
				{Name: "rudder", Side: 0.7, Chord: 0.6, Station: -4},
			},
		},
		Ahead:   4.9,
		Surging: 120, Swaying: 60, Yawing: 60,
		Rode: r, Site: rode.Site{Depth: 5, Roller: 1.4, Friction: 0.6},
		Wind:    anchor.Wind{Speed: 25 * units.Knot},
		Current: anchor.Current{Depth: 5},
		Waves:   anchor.Waves{Height: 0.4, Period: 2.8},
		Seed:    1,
	}
}

// With a steady wind and current and no waves the boat comes to lie as the
// static balance says, and the rode to pull what rode.Solve says.
func TestRideComesToTheStaticBalance(t *testing.T) {
	r := dunlin(8)
	r.Waves.Height, r.Gusts.Intensity = 0, 1e-9
	r.Wind.Speed = 9
	r.Swaying, r.Yawing, r.Surging = 20, 20, 20
	r.Settle, r.Duration = 3600, 120
	for _, c := range []struct {
		speed units.Speed
		from  units.Angle
	}{{0, 0}, {0.4, 0}, {0.5, units.Degree.Scale(40)}, {0.4, units.Degree.Scale(-70)}} {
		r.Current.Speed, r.CurrentFrom, r.Every = c.speed, c.from, 60
		res, err := r.Simulate(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		lying, err := anchor.Lie(r.Above, r.Below, r.Wind, r.Current, c.from, r.Ahead)
		if err != nil {
			t.Fatal(err)
		}
		st, err := rode.Solve(r.Rode, r.Site, lying[0].Pull)
		if err != nil {
			t.Fatal(err)
		}
		heading := res.Track[len(res.Track)-1].Heading
		for i, m := range res.Track {
			if m.At != units.Time(60*i) || m.Downwind <= 0 {
				t.Errorf("moment %d: at %v, %v downwind of the anchor", i, m.At, m.Downwind)
			}
		}
		if len(res.Track) < 2 || res.Slack != 0 {
			t.Errorf("%d moments in two minutes, slack for %v of the time", len(res.Track), res.Slack)
		}
		if (res.Bow.Mean-st.Tension).Abs() > 0.005*st.Tension || (heading+lying[0].WindFrom).Abs() > units.Degree.Scale(0.3) ||
			res.Bow.Deviation > 0.005*st.Tension {
			t.Errorf("current %v from %.0f°: %v ± %v at the bow and heading %.2f°, static %v and %.2f°", c.speed, c.from.Degrees(),
				res.Bow.Mean, res.Bow.Deviation, heading.Degrees(), st.Tension, -lying[0].WindFrom.Degrees())
		}
	}
}

// Half the step changes the peaks of the same gusts by less than a hundredth.
func TestRideConverges(t *testing.T) {
	r := dunlin(8)
	r.Duration, r.Settle = 600, 60
	r.Waves.Height = 0 // the same waves cannot be had at another step
	a, err := r.Simulate(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Step = 0.025
	b, err := r.Simulate(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if (a.Bow.Peak-b.Bow.Peak).Abs() > 0.01*b.Bow.Peak || (a.Bow.Mean-b.Bow.Mean).Abs() > 0.001*b.Bow.Mean {
		t.Errorf("at 20 a second %+v, at 40 %+v", a.Bow, b.Bow)
	}
}

func TestRealiseIsTheSameOnAnyNumberOfCores(t *testing.T) {
	r := dunlin(8)
	r.Duration, r.Settle = 120, 30
	var got [2]anchor.RideExtremes
	for i, cores := range []int{1, 4} {
		before := runtime.GOMAXPROCS(cores)
		last, calls := 0, 0
		var err error
		got[i], err = r.Realise(context.Background(), 12, func(done, of int) {
			if done != last+1 || of != 12 {
				t.Errorf("%d of %d done after %d", done, of, last)
			}
			last = done
			calls++
		})
		runtime.GOMAXPROCS(before)
		if err != nil || calls != 12 {
			t.Fatal(calls, err)
		}
	}
	if d := cmp.Diff(got[0], got[1]); d != "" {
		t.Error(d)
	}
	if got[0].Runs[0].Bow == got[0].Runs[1].Bow {
		t.Error("two runs are one")
	}
	one, err := r.Simulate(context.Background(), nil)
	if d := cmp.Diff(got[0].Runs[0], one); d != "" || err != nil {
		t.Error(d, err)
	}
	r.Seed++
	other, err := r.Simulate(context.Background(), nil)
	if err != nil || other.Bow == one.Bow {
		t.Errorf("another seed gives %+v, the first %+v, %v", other.Bow, one.Bow, err)
	}
}

func TestRideStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	r := dunlin(8)
	last := -1.0
	_, err := r.Simulate(ctx, func(part float64) {
		if part < last {
			t.Errorf("%v done after %v", part, last)
		}
		if last = part; part > 0.3 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || last > 0.5 {
		t.Errorf("%v after %v", err, last)
	}
	if _, err := r.Realise(ctx, 10, nil); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// What a skipper expects: a longer snubber, less wind and smaller waves load the
// gear less; what reaches the cleat is less than what comes to the roller.
func TestRideComparisons(t *testing.T) {
	expected := func(change func(*anchor.Ride)) units.Force {
		t.Helper()
		r := dunlin(8)
		r.Duration, r.Settle = 300, 60
		change(&r)
		e, err := r.Realise(context.Background(), 10, nil)
		if err != nil {
			t.Fatal(err)
		}
		return e.Expected
	}
	base := expected(func(*anchor.Ride) {})
	for name, change := range map[string]func(*anchor.Ride){
		"longer snubber": func(r *anchor.Ride) { r.Rode.Pieces[1].Length = 16 },
		"less wind":      func(r *anchor.Ride) { r.Wind.Speed -= 3 },
		"smaller waves":  func(r *anchor.Ride) { r.Waves.Height /= 2 },
		"less gusty":     func(r *anchor.Ride) { r.Gusts.Spectrum = anchor.Sea },
	} {
		if other := expected(change); other >= base {
			t.Errorf("%s: %v, before %v", name, other, base)
		}
	}
	r := dunlin(8)
	r.Duration, r.Fairlead = 120, 0.2
	res, err := r.Simulate(context.Background(), nil)
	if err != nil || res.Cleat.Peak >= res.Bow.Peak || res.Anchor.Peak >= res.Bow.Peak || res.Bow.Significant >= res.Bow.Peak {
		t.Errorf("%+v, %v", res, err)
	}
}

func TestRideParts(t *testing.T) {
	r := dunlin(8)
	stretch, err := rode.RopeStretch("polyamide", "three-strand", 1.2*units.Kilonewton)
	if err != nil {
		t.Fatal(err)
	}
	r.Rode.Pieces[1].Stretch = stretch
	if _, err := r.Simulate(context.Background(), nil); !errors.Is(err, anchor.ErrParted) || !errors.Is(err, anchor.ErrRange) {
		t.Errorf("a snubber of 1.2 kN: %v", err)
	}
}

func TestRideRefuses(t *testing.T) {
	for field, change := range map[string]func(*anchor.Ride){
		"Wind.Speed":      func(r *anchor.Ride) { r.Wind.Speed = units.Speed(math.NaN()) },
		"Ahead":           func(r *anchor.Ride) { r.Ahead = 0 },
		"Gyradius":        func(r *anchor.Ride) { r.Gyradius = 100 },
		"Surging":         func(r *anchor.Ride) { r.Surging = -1 },
		"Fairlead":        func(r *anchor.Ride) { r.Fairlead = 2 },
		"CurrentFrom":     func(r *anchor.Ride) { r.CurrentFrom = units.Angle(math.Inf(1)) },
		"Waves.Height":    func(r *anchor.Ride) { r.Waves.Height = -1 },
		"Waves.Period":    func(r *anchor.Ride) { r.Waves.Period, r.Waves.Height = 1, 0.05 },
		"Drift":           func(r *anchor.Ride) { r.Drift = -1 },
		"Duration":        func(r *anchor.Ride) { r.Duration = 1e9 },
		"Settle":          func(r *anchor.Ride) { r.Settle = -5 },
		"Step":            func(r *anchor.Ride) { r.Step = 1 },
		"Every":           func(r *anchor.Ride) { r.Every = -1 },
		"Gusts.Intensity": func(r *anchor.Ride) { r.Gusts.Intensity = 2 },
		"Gusts.Roughness": func(r *anchor.Ride) { r.Gusts.Roughness = 5 },
		"Gusts.Spectrum":  func(r *anchor.Ride) { r.Gusts.Spectrum = 9 },
		"Current.Depth":   func(r *anchor.Ride) { r.Current.Depth = 0.5 },
		"Rode.Pieces":     func(r *anchor.Ride) { r.Rode.Pieces = []rode.Piece{chainOf(35)} },
	} {
		r := dunlin(8)
		change(&r)
		_, err := r.Simulate(context.Background(), nil)
		refused(t, err, field)
	}
	_, err := dunlin(8).Realise(context.Background(), 3, nil)
	refused(t, err, "n")
}

func TestGumbelIsFitted(t *testing.T) {
	truth := distuv.GumbelRight{Mu: 4000, Beta: 500, Src: rand.NewPCG(1, 2)}
	true90 := truth.Quantile(0.9)
	const repeats, n = 2000, 40
	held, bias := 0, 0.0
	for range repeats {
		var peaks []units.Force
		for range n {
			peaks = append(peaks, units.Force(truth.Rand()))
		}
		g, err := anchor.FitGumbel(peaks)
		if err != nil {
			t.Fatal(err)
		}
		q, err := g.Quantile(0.9)
		if err != nil {
			t.Fatal(err)
		}
		if q.Low.Newtons() <= true90 && true90 <= q.High.Newtons() {
			held++
		}
		bias += (q.Load.Newtons() - true90) / repeats
		// Nothing near is likelier.
		likelihood := func(mode, scale units.Force) float64 {
			d := distuv.GumbelRight{Mu: mode.Newtons(), Beta: scale.Newtons()}
			sum := 0.0
			for _, p := range peaks {
				sum += d.LogProb(p.Newtons())
			}
			return sum
		}
		best := likelihood(g.Mode, g.Scale)
		for _, d := range [][2]units.Force{{5, 0}, {-5, 0}, {0, 5}, {0, -5}} {
			if likelihood(g.Mode+d[0], g.Scale+d[1]) > best {
				t.Fatalf("%+v is not the likeliest", g)
			}
		}
	}
	// 90 % in large samples; of 40 a little less.
	if part := float64(held) / repeats; part < 0.86 || part > 0.92 || math.Abs(bias) > 30 {
		t.Errorf("the interval held the truth in %.3f of cases, bias %.1f N", part, bias)
	}
	_, err := anchor.FitGumbel(make([]units.Force, 5))
	refused(t, err, "peaks")
	_, err = anchor.FitGumbel(make([]units.Force, 50))
	refused(t, err, "peaks")
	bad := make([]units.Force, 50)
	bad[7] = units.Force(math.NaN())
	_, err = anchor.FitGumbel(bad)
	refused(t, err, "peaks[7]")
	_, err = anchor.Gumbel{Mode: 1, Scale: 1, N: 10}.Quantile(1)
	refused(t, err, "p")
	_, err = anchor.Gumbel{}.Quantile(0.5)
	refused(t, err, "Scale")
	_, err = anchor.Gumbel{Mode: 1e300, Scale: 1, N: 10}.Quantile(0.5)
	refused(t, err, "Mode")
	_, err = anchor.Gumbel{Mode: 1, Scale: 1}.Quantile(0.5)
	refused(t, err, "N")
}

// One hour at twenty steps a second, without what is worked out once.
func BenchmarkRideHour(b *testing.B) {
	r := dunlin(8)
	for b.Loop() {
		if _, err := r.Simulate(context.Background(), nil); err != nil {
			b.Fatal(err)
		}
	}
	hours := 1 + 1.0/12 // with the time to settle
	b.ReportMetric(hours*3600*float64(b.N)/b.Elapsed().Seconds(), "times-real")
}

// Whatever is asked, a ride is refused by an error of the packages or gives
// finite numbers.
func FuzzRide(f *testing.F) {
	f.Add(25.0, 0.4, 2.8, 35.0, 8.0, 5.0, 0.3, 40.0, 0.2, 7200.0, 60.0)
	f.Add(60.0, 2.0, 6.0, 200.0, 0.5, 30.0, 1.5, 180.0, 0.9, 20000.0, 1.0)
	f.Add(1.0, 0.0, 0.0, 6.5, 1e-3, 5.0, 0.0, 0.0, 0.0, 3000.0, 0.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e9, 0.0, 0.0, -3.0, 1e300, 2.0, 0.0, -5.0)
	f.Fuzz(func(t *testing.T, knots, height, period, chain, snubber, depth, current, from, intensity, mass, damping float64) {
		r := dunlin(8)
		r.Duration, r.Settle, r.Every = 60, 10, 10
		r.Wind.Speed = units.Knot.Scale(knots)
		r.Waves.Height, r.Waves.Period = units.Length(height), units.Time(period)
		r.Rode.Pieces[0].Length, r.Rode.Pieces[1].Length = units.Length(chain), units.Length(snubber)
		r.Site.Depth, r.Current.Depth, r.Current.Speed = units.Length(depth), units.Length(depth), units.Speed(current)
		r.CurrentFrom, r.Gusts.Intensity = units.Angle(from), intensity
		r.Below.Mass = units.Mass(mass)
		r.Swaying, r.Yawing = units.Time(damping), units.Time(damping)
		res, err := r.Simulate(context.Background(), nil)
		if err != nil {
			var a *anchor.Error
			var e *rode.Error
			if !errors.As(err, &a) && !errors.As(err, &e) {
				t.Fatalf("an error of neither package: %v", err)
			}
			return
		}
		for _, v := range []float64{
			res.Bow.Mean.Newtons(), res.Bow.Deviation.Newtons(), res.Bow.Peak.Newtons(), res.Bow.Significant.Newtons(),
			res.Anchor.Peak.Newtons(), res.Static.Newtons(), res.Amplification, res.Lift.Radians(), res.LiftedFor,
			res.Sheer.Radians(), res.Farthest.Metres(), res.Slack, res.Snatch,
		} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v", res)
			}
		}
		if slightly := res.Bow.Peak.Scale(1 + 1e-9); slightly < res.Bow.Significant || slightly < res.Bow.Mean {
			t.Fatalf("%+v", res.Bow)
		}
	})
}
