package anchor

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
	"gonum.org/v1/gonum/integrate/quad"
)

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Max(1e-9, math.Abs(want))) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

func sloop(t *testing.T) Windage {
	t.Helper()
	b, err := Estimate(Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func below() Underwater {
	return Underwater{
		Length: 9, Beam: 3, Draught: 0.55, Mass: 6000,
		Fins:       []Fin{{Side: 2.6, Chord: 1.9, Station: 0.2}, {Side: 0.7, Chord: 0.5, Station: -3.9}},
		Propellers: []Propeller{{Diameter: 0.43}},
	}
}

func mustWind(t *testing.T, b Windage, w Wind, from units.Angle) WindLoad {
	t.Helper()
	l, err := b.Load(w, from)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A boat that is the same on both sides has mirrored loads.
func TestWindLoadIsMirrored(t *testing.T) {
	for _, rig := range []Rig{Sloop, Cutter, Ketch, Motor} {
		b, err := Estimate(Dimensions{Length: 12, Beam: 4, Freeboard: 1.3, Rig: rig, Hulls: int(rig) % 3})
		if err != nil {
			t.Fatal(err)
		}
		for a := 0.0; a <= 2*math.Pi; a += 0.05 {
			l, r := mustWind(t, b, Wind{Speed: 15}, units.Angle(-a)), mustWind(t, b, Wind{Speed: 15}, units.Angle(a))
			scale := float64(mustWind(t, b, Wind{Speed: 15}, math.Pi/2).Force())
			for _, d := range []float64{float64(l.X - r.X), float64(l.Y + r.Y), float64(l.Yaw+r.Yaw) / 12} {
				if math.Abs(d) > 1e-12*scale {
					t.Fatalf("%v at %v rad: %v and %v", rig, a, l.Load, r.Load)
				}
			}
		}
	}
}

// The load goes with the square of the speed and with the density, and with nothing else of them.
func TestWindLoadPowerLaws(t *testing.T) {
	b := sloop(t)
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		v, k, a := 1+20*r.Float64(), 0.2+3*r.Float64(), units.Angle(7*r.Float64())
		one, other := mustWind(t, b, Wind{Speed: units.Speed(v)}, a), mustWind(t, b, Wind{Speed: units.Speed(k * v)}, a)
		near(t, "X", float64(other.X), k*k*float64(one.X), 1e-12)
		near(t, "Y", float64(other.Y), k*k*float64(one.Y), 1e-12)
		near(t, "yaw", float64(other.Yaw), k*k*float64(one.Yaw), 1e-12)
		air := Air{Temperature: units.Celsius(30), Humidity: 1, Pressure: 98000}
		rho, err := air.Density()
		if err != nil {
			t.Fatal(err)
		}
		thin := mustWind(t, b, Wind{Speed: units.Speed(v), Air: air}, a)
		near(t, "density", float64(thin.X), float64(one.X)*float64(rho)/(101325/(dryAir*288.15)), 1e-12)
	}
}

// What has more has more windage: masts, sails, hulls.
func TestEstimatesCompare(t *testing.T) {
	pull := func(d Dimensions) float64 {
		b, err := Estimate(d)
		if err != nil {
			t.Fatal(err)
		}
		return float64(mustWind(t, b, Wind{Speed: 15}, 0).Force())
	}
	base := Dimensions{Length: 11.9, Beam: 3.8, Freeboard: 1.3}
	cutter, ketch, cat, longer := base, base, base, base
	cutter.Rig, ketch.Rig, longer.Length = Cutter, Ketch, 14
	cat.Hulls, cat.Beam = 2, 6.6
	for _, d := range []Dimensions{cutter, ketch, cat, longer} {
		if !(pull(d) > pull(base)) {
			t.Errorf("%+v pulls %v, less than the sloop's %v", d, pull(d), pull(base))
		}
	}
	if r := pull(cat) / pull(base); !(r < 2) {
		t.Errorf("the catamaran pulls %v times the sloop", r)
	}
	// From abeam the lee hull of a catamaran adds 0.4 of the other's load.
	b, err := Estimate(cat)
	if err != nil {
		t.Fatal(err)
	}
	abeam := mustWind(t, b, Wind{Speed: 15}, 90*units.Degree)
	near(t, "lee hull", float64(abeam.Parts[1].Y), 0.4*float64(abeam.Parts[0].Y), 1e-12)
	// A boat twice as large has four times the area, and stands twice as high in the wind.
	near(t, "scale", pull(Dimensions{Length: 20, Beam: 6, Freeboard: 2})/pull(Dimensions{Length: 10, Beam: 3, Freeboard: 1}), 4*math.Pow(2, 2.0/7), 1e-9)
}

// The parts add up, and each scales with its own area.
func TestWindLoadAddsUp(t *testing.T) {
	b := sloop(t)
	l := mustWind(t, b, Wind{Speed: 20}, 0.7)
	var sum Load
	for i, p := range l.Parts {
		sum = sum.Plus(p)
		alone := mustWind(t, Windage{Parts: b.Parts[i : i+1]}, Wind{Speed: 20}, 0.7)
		if alone.Load != p {
			t.Errorf("part %d alone has %v, among others %v", i, alone.Load, p)
		}
	}
	if sum != l.Load {
		t.Errorf("sum %v, whole %v", sum, l.Load)
	}
}

// The mean over a part's height is the integral of the profile over it.
func TestExposureByQuadrature(t *testing.T) {
	w := Wind{Speed: 12, Height: 10}
	for _, h := range [][2]float64{{0, 1.1}, {1.1, 13}, {5, 5.001}, {0.2, 40}} {
		square := func(z float64) float64 {
			v, err := w.At(units.Length(z))
			if err != nil {
				t.Fatal(err)
			}
			return float64(v) * float64(v)
		}
		// z = s^4 smooths the corner at the water.
		lo, hi := math.Pow(h[0], 0.25), math.Pow(h[1], 0.25)
		force := quad.Fixed(func(s float64) float64 { return square(s*s*s*s) * 4 * s * s * s }, lo, hi, 60, nil, 0)
		moment := quad.Fixed(func(s float64) float64 { return square(s*s*s*s) * s * s * s * s * 4 * s * s * s }, lo, hi, 60, nil, 0)
		mean, centre := w.exposure(h[0], h[1])
		near(t, "mean", mean, force/(h[1]-h[0])/144, 1e-7)
		near(t, "centre", centre, moment/force, 1e-7)
	}
}

// A round part is pushed straight down the wind, from whichever side.
func TestRoundGoesDownwind(t *testing.T) {
	b := Windage{Parts: []Part{Wires{"rigging", 0.008, 100, 1, 13}.Part()}}
	first := mustWind(t, b, Wind{Speed: 10}, 0)
	for a := 0.1; a < 6.3; a += 0.1 {
		l := mustWind(t, b, Wind{Speed: 10}, units.Angle(a))
		near(t, "force", float64(l.Force()), float64(first.Force()), 1e-12)
		near(t, "downstream", float64(l.Downstream(units.Angle(a))), float64(first.Force()), 1e-12)
	}
}

// All shapes are 1 from ahead, -1 from astern, and 1 across from abeam; the force
// along vanishes at the part's own angle.
func TestShapes(t *testing.T) {
	for s := Block; s <= Spar; s++ {
		p := Part{Shape: s, Zero: 80 * units.Degree}
		at := func(deg float64) (x, y float64) {
			a := deg * math.Pi / 180
			return p.shape(a, math.Sin(a), math.Cos(a))
		}
		ahead, _ := at(0)
		astern, _ := at(180)
		_, abeam := at(90)
		near(t, s.String()+" ahead", ahead, 1, 1e-12)
		near(t, s.String()+" astern", astern, -1, 1e-12)
		near(t, s.String()+" abeam", abeam, 1, 1e-12)
		if x, _ := at(80); s <= Distributed && math.Abs(x) > 1e-12 {
			t.Errorf("%v: %v at its zero", s, x)
		}
	}
}

func TestSpeedForInvertsLoad(t *testing.T) {
	b := sloop(t)
	for _, v := range []float64{0, 0.5, 10, 40} {
		l := mustWind(t, b, Wind{Speed: units.Speed(v)}, 0)
		got, err := b.SpeedFor(l.Force(), Wind{})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "speed", float64(got), v, 1e-12)
	}
}

func TestGustFactorChains(t *testing.T) {
	times := []units.Time{1, 3, 10, 60, 600, 3600, 10000, 36000}
	factor := func(a, b units.Time) float64 {
		f, err := GustFactor(a, b)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	for i := range times {
		near(t, "itself", factor(times[i], times[i]), 1, 0)
		for j := i + 1; j < len(times); j++ {
			if f := factor(times[i], times[j]); !(f > 1) {
				t.Errorf("%v in %v: %v", times[i], times[j], f)
			}
			for k := j + 1; k < len(times); k++ {
				near(t, "chain", factor(times[i], times[j])*factor(times[j], times[k]), factor(times[i], times[k]), 1e-14)
			}
		}
	}
	// The fit's two branches meet to the digits they were printed with.
	near(t, "branches", 1.277+0.296*math.Tanh(0.9*math.Log10(45.0/3600)), 1.5334-0.15*math.Log10(3600), 3.1e-4)
}

// Gusts are stronger over rougher ground and the shorter they are.
func TestExposureGusts(t *testing.T) {
	for e := InLand; e <= AtSea; e++ {
		for _, mean := range []units.Time{60, 600, 3600} {
			before := math.Inf(1)
			for gust := units.Time(1); gust <= mean; gust *= 1.2 {
				f, err := e.GustFactor(gust, mean)
				if err != nil {
					t.Fatal(err)
				}
				if !(f <= before && f >= 1) {
					t.Errorf("%v: %v in %v has %v, shorter %v", e, gust, mean, f, before)
				}
				if e > InLand {
					if rougher, err := (e - 1).GustFactor(gust, mean); err != nil || rougher < f {
						t.Errorf("%v over rougher ground, %v over %v", rougher, f, e)
					}
				}
				before = f
			}
		}
	}
}

// Waves obey the dispersion relation, and its limits in deep and in shallow water.
func TestWavelength(t *testing.T) {
	for period := 0.1; period < 1000; period *= 1.7 {
		for depth := 1e-3; depth < 12000; depth *= 1.9 {
			l, err := Wavelength(units.Time(period), units.Length(depth))
			if err != nil {
				t.Fatal(err)
			}
			k, w := 2*math.Pi/float64(l), 2*math.Pi/period
			near(t, "dispersion", gravity*k*math.Tanh(k*depth), w*w, 4e-15)
			if deep := gravity * period * period / (2 * math.Pi); depth > deep {
				near(t, "deep", float64(l), deep, 1e-5)
			} else if depth < deep/1e5 {
				near(t, "shallow", float64(l), period*math.Sqrt(gravity*depth), 2e-5)
			}
		}
	}
}

// The mean force on a wall that throws a wave back, by the mean pressure on it to the second
// order: rho g <eta²>/2 less rho/2 the integral of <w²>.
func TestDriftIsTheMeanPressureOnAWall(t *testing.T) {
	for _, w := range []Waves{{0.5, 3, 5}, {0.5, 6, 1.5}, {0.2, 2, 100}, {1, 10, 4}} {
		k, omega := wavenumber(float64(w.Period), float64(w.Depth)), 2*math.Pi/float64(w.Period)
		d := math.Min(float64(w.Depth), 40/k)
		a2 := float64(w.Height) * float64(w.Height) / 8 // of the amplitude of a wave with the seaway's energy
		speed := func(z float64) float64 {
			v := omega * math.Sinh(k*(z+d)) / math.Sinh(k*d)
			return 2 * a2 * v * v
		}
		want := 1025*gravity*a2 - 1025.0/2*quad.Fixed(speed, -d, 0, 200, nil, 0)
		got, err := w.Drift(1, math.Pi/2)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "drift", float64(got.High), want, 1e-6)
		near(t, "least at a blunt bow", float64(got.Low), float64(got.High), 1e-12)
	}
}

// The steepest wave in deep water is 0.142 of its length high; in shallow water less by tanh(kd).
func TestBreaking(t *testing.T) {
	for _, depth := range []units.Length{1, 3, 100} {
		l, err := Wavelength(4, depth)
		if err != nil {
			t.Fatal(err)
		}
		limit := l.Scale(0.142 * math.Tanh(2*math.Pi*depth.Per(l)))
		if _, err := (Waves{limit.Scale(0.999), 4, depth}).Surge(5); err != nil {
			t.Errorf("just below: %v", err)
		}
		if _, err := (Waves{limit.Scale(1.001), 4, depth}).Surge(5); err == nil {
			t.Errorf("%v high in %v has not broken", limit.Scale(1.001), depth)
		}
	}
}

// A short boat goes to and fro with the water; one as long as the wave stays where it is.
func TestSurgeLimits(t *testing.T) {
	w := Waves{0.5, 4, 6}
	s, err := w.Surge(0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "short", float64(s.Boat), float64(s.Amplitude), 1e-12)
	near(t, "celerity", float64(s.Celerity)*4, float64(s.Wavelength), 1e-12)
	long, err := w.Surge(s.Wavelength)
	if err != nil {
		t.Fatal(err)
	}
	if float64(long.Boat) > 1e-9 {
		t.Errorf("a boat as long as the wave goes %v", long.Boat)
	}
}

func TestCurrentLoad(t *testing.T) {
	u := below()
	load := func(v, d, a float64) CurrentLoad {
		l, err := u.Load(Current{Speed: units.Speed(v), Depth: units.Length(d)}, units.Angle(a))
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	for a := 0.0; a < 6.3; a += 0.1 {
		l, r := load(1, 5, a), load(1, 5, -a)
		near(t, "mirrored", float64(l.Y), -float64(r.Y), 1e-9)
		near(t, "mirrored", float64(l.X), float64(r.X), 1e-9)
	}
	// Across it goes with the square; along with somewhat less, as friction falls.
	near(t, "across", float64(load(2, 5, math.Pi/2).Y), 4*float64(load(1, 5, math.Pi/2).Y), 1e-12)
	if r := float64(load(2, 5, 0).X) / float64(load(1, 5, 0).X); !(r < 4 && r > 3.4) {
		t.Errorf("twice the stream has %v times the drag", r)
	}
	before := 0.0
	for _, d := range []float64{1000, 10, 3, 1, 0.6} {
		y := -float64(load(1, d, 1).Hull.Y)
		if !(y > before) {
			t.Errorf("across in %v m: %v N, deeper %v N", d, y, before)
		}
		before = y
	}
	// The hull along the stream, by hand: Cf 0.003159 at 2.317e6... times 1.2 S q.
	l := load(1, 5, 0)
	s := 1.7*0.55*9 + 6000/1025.0/0.55
	near(t, "hull", -float64(l.Hull.X), l.Friction*1.2*s*512.5, 1e-12)
}

// The answer put back: no moment about the roller, the pull is the force, and turned a
// degree she turns back.
func TestLieIsABalance(t *testing.T) {
	b, u := sloop(t), below()
	const roller = 5.0
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		w := Wind{Speed: units.Speed(3 + 15*r.Float64())}
		s := Current{Speed: units.Speed(1.2 * r.Float64()), Depth: 6}
		apart := units.Angle(2 * math.Pi * r.Float64())
		ways, err := Lie(b, u, w, s, apart, roller)
		if err != nil {
			t.Fatalf("%v, %v, %v: %v", w.Speed, s.Speed, apart, err)
		}
		for _, l := range ways {
			moment := func(turn float64) float64 {
				wind := mustWind(t, b, w, l.WindFrom+units.Angle(turn))
				stream, err := u.Load(s, l.CurrentFrom+units.Angle(turn))
				if err != nil {
					t.Fatal(err)
				}
				sum := wind.Plus(stream.Load)
				return float64(sum.Yaw) - roller*float64(sum.Y)
			}
			if m := moment(0); math.Abs(m) > 1e-6*roller*math.Max(1, float64(l.Pull)) {
				t.Errorf("moment %v N m at a pull of %v", m, l.Pull)
			}
			// Turned to starboard the wind is farther to port: a negative turn, and a moment to port.
			if !(moment(-0.01) < 0 && moment(0.01) > 0) {
				t.Errorf("not steady: %v and %v", moment(-0.01), moment(0.01))
			}
		}
	}
	ways, err := Lie(b, u, Wind{Speed: 10}, Current{Depth: 6}, 1, roller)
	if err != nil || len(ways) != 1 || math.Abs(float64(ways[0].WindFrom)) > 1e-9 {
		t.Errorf("wind alone: %v %v", ways, err)
	}
}
