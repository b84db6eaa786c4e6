package rode_test

import (
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"gonum.org/v1/gonum/stat"
)

// A calibration of six lays, and the plain regression of a statistics library that
// knows nothing of rounding.
func BenchmarkCalibrate(b *testing.B) {
	var x, y []float64
	var lays []rode.Lay
	for i := range 6 {
		pulses := float64(20 + 15*i)
		l := rode.Lay{To: counter33.Setting.Scale(pulses), Taped: units.Length(0.336*pulses + 0.08)}
		lays = append(lays, l)
		x, y = append(x, l.To.Per(counter33.Setting)), append(y, float64(l.Taped))
	}
	for name, e := range map[string]rode.LayErrors{
		"least squares": {Tape: 0.01, Repeat: 0.4},
		"likelihood":    {Tape: 0.01, Repeat: 0.05},
		"not known":     {},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := rode.Calibrate(counter33, lays, e); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("plain regression", func(b *testing.B) {
		for b.Loop() {
			stat.LinearRegression(x, y, nil, true)
		}
	})
}
