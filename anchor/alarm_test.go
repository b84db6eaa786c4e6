package anchor_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// The distance of a circular normal error is of Weibull's distribution with shape 2.
func TestDeviationByWeibull(t *testing.T) {
	for _, fraction := range []float64{1e-6, 0.3935, 0.5, 0.95, 0.997, 1 - 1e-9} {
		d, err := anchor.FixDeviation(7, fraction)
		w := distuv.Weibull{K: 2, Lambda: math.Sqrt2 * d.Metres()}
		if err != nil || math.Abs(w.CDF(7)-fraction) > 1e-12 {
			t.Errorf("%v: deviation %v holds %v, %v", fraction, d, w.CDF(7), err)
		}
	}
}

// Marks and fixes thrown at random cross the radius as often as asked.
func TestAlarmRadiusByChance(t *testing.T) {
	b := anchor.AlarmBudget{Circle: 45, Mark: 2, Fix: 1.5, Set: 3, Chance: 0.01}
	a, err := anchor.AlarmRadius(b)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(5, 6))
	const n = 400000
	beyond := 0
	for range n {
		x := 48 + 1.5*rng.NormFloat64() - 2*rng.NormFloat64()
		y := 1.5*rng.NormFloat64() - 2*rng.NormFloat64()
		if math.Hypot(x, y) > a.Radius.Metres() {
			beyond++
		}
	}
	// The curvature of the edge adds a little: 2.5²/(2*48) = 0.07 m outward.
	if got := float64(beyond) / n; got < 0.0095 || got > 0.0115 {
		t.Errorf("%.5f beyond the radius of %v, want 0.01", got, a.Radius)
	}
	if want := units.Length(48 + 2.5*distuv.UnitNormal.Quantile(0.99)); (a.Radius - want).Abs() > 1e-9 {
		t.Errorf("radius %v, want %v", a.Radius, want)
	}
}

// A boat whose antenna was marked lies at the edge when she has swung right round.
func TestAlarmAftOfTheAnchor(t *testing.T) {
	const bow, antenna = 36.0, 9.0
	a, err := anchor.AlarmRadius(anchor.AlarmBudget{Circle: bow + antenna, Aft: antenna, Set: 2, Fix: 1, Chance: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	// The anchor is at the origin; she let go with the wind from the north.
	mark := anchor.Place{North: -antenna}
	widest := units.Length(0)
	for i := range 360 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 360)
		widest = max(widest, anchor.Place{East: units.Length((bow + antenna) * sin), North: units.Length((bow + antenna) * cos)}.From(mark))
	}
	if got := widest + 2; (a.Circle-got).Abs() > 1e-9 || (a.Radius-a.Circle-a.Errors).Abs() > 1e-9 {
		t.Errorf("%+v, and she comes as far as %v", a, got)
	}
}

// ecef is a position in the Earth's own axes.
func ecef(p anchor.LatLon) [3]float64 {
	const a, b = 6378137.0, 6356752.314245179
	sin, cos := math.Sincos(p.Lat.Radians())
	n := a * a / math.Hypot(a*cos, b*sin)
	return [3]float64{n * cos * p.Lon.Cos(), n * cos * p.Lon.Sin(), b * b / (a * a) * n * sin}
}

// The distance from the origin is that through the Earth's own axes.
func TestPlaceByEarthAxes(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	worst := 0.0
	for range 10000 {
		o := anchor.LatLon{Lat: units.Angle(1.22 * (2*rng.Float64() - 1)), Lon: units.Angle(math.Pi * (2*rng.Float64() - 1))}
		const reach = 1000 / 6371e3
		q := anchor.LatLon{
			Lat: o.Lat + units.Angle(reach*(2*rng.Float64()-1)),
			Lon: o.Lon + units.Angle(reach*(2*rng.Float64()-1)/o.Lat.Cos()),
		}
		p, err := anchor.PlaceOf(o, q)
		if err != nil {
			t.Fatal(err)
		}
		a, b := ecef(o), ecef(q)
		chord := math.Sqrt((b[0]-a[0])*(b[0]-a[0]) + (b[1]-a[1])*(b[1]-a[1]) + (b[2]-a[2])*(b[2]-a[2]))
		worst = max(worst, math.Abs(p.From(anchor.Place{}).Metres()-chord))
	}
	if worst > 1e-4 {
		t.Errorf("distances up to 1.4 km are off by %v m", worst)
	}
}

func TestAlarmRefuses(t *testing.T) {
	good := anchor.AlarmBudget{Circle: 45, Chance: 0.01}
	nan := units.Length(math.NaN())
	for field, change := range map[string]func(*anchor.AlarmBudget){
		"Circle": func(b *anchor.AlarmBudget) { b.Circle = nan },
		"Mark":   func(b *anchor.AlarmBudget) { b.Mark = -1 },
		"Fix":    func(b *anchor.AlarmBudget) { b.Fix = units.Length(math.Inf(1)) },
		"Aft":    func(b *anchor.AlarmBudget) { b.Aft = -1 },
		"Set":    func(b *anchor.AlarmBudget) { b.Set = nan },
		"Chance": func(b *anchor.AlarmBudget) { b.Chance = 0 },
	} {
		b := good
		change(&b)
		_, err := anchor.AlarmRadius(b)
		refused(t, err, field)
	}
	for _, fraction := range []float64{0, 1, -1, math.NaN()} {
		_, err := anchor.FixDeviation(1, fraction)
		refused(t, err, "fraction")
	}
	_, err := anchor.FixDeviation(nan, 0.5)
	refused(t, err, "radius")
	_, err = anchor.PlaceOf(anchor.LatLon{Lat: 2}, anchor.LatLon{})
	refused(t, err, "origin.Lat")
	_, err = anchor.PlaceOf(anchor.LatLon{}, anchor.LatLon{Lon: units.Angle(math.NaN())})
	refused(t, err, "at.Lon")
	_, err = anchor.PlaceOf(anchor.LatLon{}, anchor.LatLon{Lat: 0.01})
	refused(t, err, "north of origin")
	if p, err := anchor.PlaceOf(anchor.LatLon{Lon: 3.1415}, anchor.LatLon{Lon: -3.1415}); err != nil || p.East < 0 || p.East > 2000 {
		t.Errorf("across the date line: %+v, %v", p, err)
	}
}
