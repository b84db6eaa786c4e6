package wiring_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// runAt gives a motor the load at which it drew a point's current, and runs it.
func runAt(t *testing.T, m wiring.Motor, load units.Torque, at units.Voltage) (units.Current, units.AngularSpeed) {
	t.Helper()
	m.Load = load
	i, w, err := m.Running(at)
	if err != nil {
		t.Fatal(err)
	}
	return i, w
}

// Motors are made up, catalogue points computed from their equations by bisection in the
// speed, and the fit has to find its way back.
func TestFitMotorFindsTheMotor(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for range 300 {
		v := 10 + 15*rng.Float64()
		r := 0.005 + 0.05*rng.Float64()
		stall := v / r
		k0, k1, sat := 0.02+0.05*rng.Float64(), 1e-4+4e-4*rng.Float64(), 0.02*rng.Float64()
		efficiency, drag := 0.7+0.3*rng.Float64(), 0.6*rng.Float64()
		for _, kind := range []wiring.MotorType{wiring.PermanentMagnet, wiring.SeriesWound, wiring.CompoundWound} {
			flux := func(i float64) float64 {
				switch kind {
				case wiring.PermanentMagnet:
					return k0
				case wiring.SeriesWound:
					return k1 * i / (1 + sat*i)
				default:
					return k0 + k1*i
				}
			}
			n := 3
			if kind == wiring.PermanentMagnet {
				n = 2
			}
			drag := drag * flux(0.1*stall) * 0.1 * stall // a share of the least torque
			var points []wiring.MotorPoint
			for j := range n {
				i := stall * (0.1 + 0.2*float64(j) + 0.1*rng.Float64())
				points = append(points, wiring.MotorPoint{
					Current: units.Current(i),
					Speed:   units.AngularSpeed((v - i*r) / flux(i)),
					Torque:  units.Torque(efficiency*flux(i)*i - drag),
				})
			}
			m, err := wiring.FitMotor(kind, units.Voltage(v), points...)
			if err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
			if math.Abs(float64(m.Resistance)/r-1) > 1e-6 || math.Abs(m.Efficiency/efficiency-1) > 1e-6 || math.Abs(float64(m.Drag)-drag) > 1e-6 {
				t.Errorf("%s: resistance %v, efficiency %g, drag %v, want %g, %g, %g", kind, m.Resistance, m.Efficiency, m.Drag, r, efficiency, drag)
			}
			for _, p := range points {
				i, w := runAt(t, m, p.Torque, units.Voltage(v))
				if math.Abs(i.Per(p.Current)-1) > 1e-6 || math.Abs(w.Per(p.Speed)-1) > 1e-6 {
					t.Errorf("%s: %v at %v, want %v at %v", kind, i, w, p.Current, p.Speed)
				}
			}
		}
	}
}

// The trade's rule: less voltage does not make a loaded motor draw more, as a constant power
// would. A permanent magnet or series motor draws the same and turns slower; a compound one
// draws at most a little more; below what its torque needs it is held.
func TestLessVoltage(t *testing.T) {
	for _, kind := range []wiring.MotorType{wiring.PermanentMagnet, wiring.SeriesWound, wiring.CompoundWound} {
		m := wiring.Motor{Type: kind, Voltage: 12, Resistance: 0.02, Efficiency: 1, Load: 4}
		switch kind {
		case wiring.PermanentMagnet:
			m.Flux = 0.05
		case wiring.SeriesWound:
			m.Slope, m.Knee = 8e-4, 200
		case wiring.CompoundWound:
			m.Flux, m.Slope = 0.03, 2e-4
		}
		full, fast := runAt(t, m, 4, 12)
		low, slow := runAt(t, m, 4, 9)
		if slow >= fast {
			t.Errorf("%s: %v at 9 V, %v at 12 V", kind, slow, fast)
		}
		if power := full.Scale(12.0 / 9); low < full.Scale(1-1e-12) || low > full.Scale(0.5)+power.Scale(0.5) {
			t.Errorf("%s: %v at 9 V, %v at 12 V", kind, low, full)
		}
		held, still := runAt(t, m, 4, 1)
		if still != 0 || math.Abs(float64(held)-50) > 1e-9 {
			t.Errorf("%s: %v and %v at 1 V, want 50 A and a stall", kind, held, still)
		}
		if s, err := m.StallCurrent(12); err != nil || math.Abs(float64(s)-600) > 1e-9 {
			t.Errorf("%s: stall current %v (%v), want 600 A", kind, s, err)
		}
	}
}

func TestFitMotorRefuses(t *testing.T) {
	p := wiring.MotorPoint{Current: 20, Speed: 300}
	q := wiring.MotorPoint{Current: 90, Speed: 200}
	for name, f := range map[string]func() (wiring.Motor, error){
		"unknown type":   func() (wiring.Motor, error) { return wiring.FitMotor("shunt", 12, p, q) },
		"one point":      func() (wiring.Motor, error) { return wiring.FitMotor(wiring.PermanentMagnet, 12, p) },
		"two for series": func() (wiring.Motor, error) { return wiring.FitMotor(wiring.SeriesWound, 12, p, q) },
		"equal points":   func() (wiring.Motor, error) { return wiring.FitMotor(wiring.PermanentMagnet, 12, p, p) },
		"faster and harder": func() (wiring.Motor, error) {
			return wiring.FitMotor(wiring.PermanentMagnet, 12, p, wiring.MotorPoint{Current: 90, Speed: 400})
		},
		"NaN": func() (wiring.Motor, error) {
			return wiring.FitMotor(wiring.PermanentMagnet, units.Voltage(math.NaN()), p, q)
		},
		"too much torque": func() (wiring.Motor, error) {
			return wiring.FitMotor(wiring.PermanentMagnet, 12, wiring.MotorPoint{Current: 20, Speed: 300, Torque: 1}, wiring.MotorPoint{Current: 90, Speed: 200, Torque: 9})
		},
		"not of this type": func() (wiring.Motor, error) {
			return wiring.FitMotor(wiring.SeriesWound, 12, wiring.MotorPoint{Current: 20, Speed: 300}, wiring.MotorPoint{Current: 21, Speed: 100}, wiring.MotorPoint{Current: 400, Speed: 99})
		},
	} {
		_, err := f()
		var e *wiring.Error
		if !errors.Is(err, wiring.ErrInput) || !errors.As(err, &e) || e.Field == "" {
			t.Errorf("%s: error %v, want %v with a field", name, err, wiring.ErrInput)
		}
	}
}
