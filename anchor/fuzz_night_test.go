package anchor_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Whatever is asked, a plan is refused by one of the errors of the packages or
// holds finite numbers that keep what was asked.
func FuzzPlanNight(f *testing.F) {
	f.Add(6.1, 0.5, 0.6, 4.9, 40.0, 700.0, 1500.0, 0.09, 0.4, 1.5, 10.4, 0.01, 0.0, 40.0, 1.0)
	f.Add(0.1, 0.0, -1.0, 9.0, 5.0, 0.0, 1e6, 0.0, 0.0, 0.0, 0.0, 0.0, 3.0, 0.0, 0.0)
	f.Add(500.0, 1.0, 0.0, 1e-9, 1e4, 1e-9, 1e9, 0.7, 5.0, 2.0, 30.0, 0.2, 9000.0, 1.0, 400.0)
	f.Add(math.NaN(), math.Inf(1), 0.6, 4.9, 40.0, -700.0, 1500.0, 0.09, 0.4, 1.5, 10.4, 0.01, 30.0, 40.0, 1.0)
	f.Fuzz(func(t *testing.T, shown, offset, low, high, length, pull, gale, steepest, wave, draught, stern, slope, out, distance, rise float64) {
		n := night()
		n.Step = 3600
		n.Sounding.Shown, n.Sounding.Offset = units.Length(shown), units.Length(offset)
		n.Tide.Turns[0].Height, n.Tide.Turns[2].Height = units.Length(low), units.Length(low)
		n.Tide.Turns[1].Height, n.Tide.Turns[3].Height = units.Length(high), units.Length(high)
		n.Rode = rode.Rode{Pieces: []rode.Piece{chainOf(units.Length(length)), ropeOf(units.Length(length))}}
		n.Winds[0].Pull, n.Winds[1].Pull = units.Force(pull), units.Force(gale)
		n.Steepest, n.Slope, n.Wave = units.Angle(steepest), units.Angle(slope), units.Length(wave)
		n.Draught, n.Stern, n.Antenna = units.Length(draught), units.Length(stern), 0
		n.Out = units.Length(out)
		n.Shoals = []anchor.Shoal{{Distance: units.Length(distance), Rise: units.Length(rise)}}
		p, err := anchor.PlanNight(n)
		if err != nil {
			var a *anchor.Error
			var r *rode.Error
			if !errors.As(err, &a) && !errors.As(err, &r) || err.Error() == "" {
				t.Fatalf("an error of neither package: %v", err)
			}
			return
		}
		for _, m := range p.Moments {
			for _, v := range []float64{
				m.Tide.Metres(), m.Depth.Metres(), m.Tension.Newtons(), m.OnBed.Metres(), m.Scope, m.Angle.Radians(),
				m.Needed.Metres(), m.UnderKeel.Metres(), m.Circle.Stern.Metres(),
			} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", m)
				}
			}
			if m.UnderKeel < n.UnderKeel || m.Needed > p.Needed || m.Circle.Stern > p.Widest.Stern {
				t.Fatalf("%+v in a plan of %+v", m, p)
			}
			if p.Veer == 0 && m.Angle > n.Steepest+1e-6 {
				t.Fatalf("angle %v, asked %v", m.Angle, n.Steepest)
			}
		}
	})
}

// A night of 11 hours at 10 minutes.
func BenchmarkPlanNight(b *testing.B) {
	n := night()
	for b.Loop() {
		if _, err := anchor.PlanNight(n); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWatcher(b *testing.B) {
	w, err := anchor.NewWatcher(anchor.Watch{Circle: 45, Fix: 1.4, Memory: 120, Quiet: 240 * 3600})
	if err != nil {
		b.Fatal(err)
	}
	f := anchor.Fix{At: at(0, 0), Place: anchor.Place{North: 44}}
	b.ReportAllocs()
	for b.Loop() {
		f.At = f.At.Add(time.Millisecond)
		if _, err := w.Add(f); err != nil {
			b.Fatal(err)
		}
	}
}
