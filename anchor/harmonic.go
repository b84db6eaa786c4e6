package anchor

import (
	"math"
	"strings"
	"time"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Constituent is one cosine of a harmonic tide.
type Constituent struct {
	Name      string             // for the reader
	Amplitude units.Length       // half the range it adds
	Phase     units.Angle        // lag: its high water is Phase/Speed after the epoch
	Speed     units.AngularSpeed // from ConstituentSpeed, or the table of the port
}

func (k *Constituent) check(field string) error {
	var c checker
	between(&c, field+"Amplitude", k.Amplitude, 0, tallest)
	between(&c, field+"Phase", k.Phase, -4*units.Turn, 4*units.Turn)
	// The slowest tide is a year long; the fastest in use is an eighth of a day.
	between(&c, field+"Speed", k.Speed, 0, units.AngularSpeed(15*2*math.Pi/86400))
	return c.err
}

// Rates of the mean motions that make up the tides, in degrees in an hour of
// mean solar time at the epoch 1900 (P. Schureman, Manual of Harmonic Analysis
// and Prediction of Tides, 1940, table 1): the Earth's rotation against the mean
// Sun, the mean longitudes of Moon and Sun, and the Moon's perigee.
var astronomicalRates = [4]float64{15, 0.54901653, 0.04106864, 0.00464183}

// constituents by the multiples of those rates that they turn with.
var constituents = []struct {
	name string
	by   [4]float64
}{
	{"Ssa", [4]float64{0, 0, 2, 0}},
	{"Mm", [4]float64{0, 1, 0, -1}},
	{"Mf", [4]float64{0, 2, 0, 0}},
	{"Q1", [4]float64{1, -3, 1, 1}},
	{"O1", [4]float64{1, -2, 1, 0}},
	{"P1", [4]float64{1, 0, -1, 0}},
	{"K1", [4]float64{1, 0, 1, 0}},
	{"N2", [4]float64{2, -3, 2, 1}},
	{"M2", [4]float64{2, -2, 2, 0}},
	{"S2", [4]float64{2, 0, 0, 0}},
	{"K2", [4]float64{2, 0, 2, 0}},
	{"M4", [4]float64{4, -4, 4, 0}},
	{"MS4", [4]float64{4, -2, 2, 0}},
	{"M6", [4]float64{6, -6, 6, 0}},
}

// ConstituentSpeed is the angular speed of a harmonic constituent: Ssa, Mm, Mf,
// Q1, O1, P1, K1, N2, M2, S2, K2, M4, MS4 or M6. It is a sum of whole multiples of
// four astronomical rates (Schureman, 1940), good to 1e-7 degrees an hour.
func ConstituentSpeed(name string) (units.AngularSpeed, error) {
	for _, k := range constituents {
		if k.name == name {
			var v float64
			for i, n := range k.by {
				v += n * astronomicalRates[i]
			}
			return units.AngularSpeed(v * math.Pi / 180 / 3600), nil
		}
	}
	var names []string
	for _, k := range constituents {
		names = append(names, k.name)
	}
	return 0, refuseAs(ErrUnknown, "constituent", name, "one of "+strings.Join(names, ", "))
}

// harmonic is the mean level and the sum of A cos(speed t - phase).
func (td *Tide) harmonic(at time.Time) float64 {
	h, t := float64(td.Mean), at.Sub(td.Epoch).Seconds()
	for i := range td.Constituents {
		k := &td.Constituents[i]
		h += float64(k.Amplitude) * math.Cos(float64(k.Speed)*t-float64(k.Phase))
	}
	return h
}

// slope of the tide and its change, in metres and seconds.
func (td *Tide) slope(t float64) (first, second float64) {
	for i := range td.Constituents {
		k := &td.Constituents[i]
		a, w := float64(k.Amplitude), float64(k.Speed)
		sin, cos := math.Sincos(w*t - float64(k.Phase))
		first -= a * w * sin
		second -= a * w * w * cos
	}
	return first, second
}

// harmonicTurns finds where the slope changes its sign. It looks at 64 points
// in the period of the fastest constituent: a turn that it misses is a ripple
// within another.
func (td *Tide) harmonicTurns(from, to time.Time) ([]Turn, error) {
	fastest := 0.0
	for _, k := range td.Constituents {
		fastest = max(fastest, float64(k.Speed))
	}
	start := from.Sub(td.Epoch).Seconds()
	slope := func(t float64) (float64, error) {
		v, _ := td.slope(start + t)
		return v, nil
	}
	span := to.Sub(from).Seconds()
	step := span
	if fastest > 0 {
		step = min(span, 2*math.Pi/fastest/64)
	}
	var turns []Turn
	add := func(t float64) {
		if _, curve := td.slope(start + t); curve != 0 {
			at := from.Add(time.Duration(math.Round(t * 1e9)))
			turns = append(turns, Turn{At: at, Height: units.Length(td.harmonic(at)), High: curve < 0})
		}
	}
	last, was := 0.0, 0.0
	for t := 0.0; ; t = min(t+step, span) {
		is, _ := td.slope(start + t)
		switch {
		case is == 0:
			add(t)
		case is < 0 && was > 0 || is > 0 && was < 0:
			at, err := root.Find(slope, last, t, 1e-3)
			if err != nil {
				return nil, err
			}
			add(at)
		}
		last, was = t, is
		if t >= span {
			return turns, nil
		}
	}
}
