package wiring_test

import (
	"math"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// Each short formula equals the network when the conductor has the formula's resistivity.
func TestShortFormulasEqualTheNetwork(t *testing.T) {
	metric, awg := tinned(t)
	for _, stock := range []wiring.Stock{metric, awg} {
		for _, c := range stock {
			for _, f := range []struct {
				drop func(units.Current, units.Length, units.Area) (units.Voltage, error)
				rho  float64 // ohm m
			}{
				{wiring.MetricDrop, 0.0164e-6},
				{wiring.CircularMilDrop, 10.75 * (math.Pi / 4 * 25.4e-6 * 25.4e-6) / 0.3048},
			} {
				c.Resistance = units.ResistancePerLength(f.rho / float64(c.Area))
				const run = 7.5
				want, err := f.drop(40, 2*run, c.Area)
				if err != nil {
					t.Fatal(err)
				}
				e := 12 + want
				st, err := wiring.Solve(wiring.Circuit{Elements: []wiring.Element{
					{Name: "battery", From: "-", To: "+", Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: e, Charge: 1, Resistance: 1e-9}},
					{Name: "out", From: "+", To: "load +", Cable: &wiring.Cable{Conductor: c, Length: run}},
					{Name: "load", From: "load +", To: "load -", Load: &wiring.Load{Current: 40}},
					{Name: "back", From: "load -", To: "-", Cable: &wiring.Cable{Conductor: c, Length: run}},
				}}, wiring.Conditions{})
				if err != nil {
					t.Fatal(err)
				}
				b, err := st.Branch("load")
				if err != nil {
					t.Fatal(err)
				}
				// The battery's nanohm takes 4e-8 V.
				if got := float64(e-b.Drop) - 40e-9; math.Abs(got/float64(want)-1) > 1e-10 {
					t.Errorf("%s: network %.12g V, formula %.12g V", c.Size, got, float64(want))
				}
			}
		}
	}
}

// The metric formula is below what IEC 60228 allows for every size and class, by 5 to 24 %;
// the doc comment says so.
func TestMetricFormulaLiesLow(t *testing.T) {
	lowest, highest := math.Inf(1), math.Inf(-1)
	hottest := 0.0
	for _, class := range []wiring.Class{wiring.Stranded, wiring.Flexible} {
		for _, finish := range []wiring.Finish{wiring.Plain, wiring.Tinned} {
			s, err := wiring.Metric(class, finish)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range s {
				d, err := wiring.CompareDrop(c, 10, 10, units.Celsius(60))
				if err != nil {
					t.Fatal(err)
				}
				lowest, highest = math.Min(lowest, d.MetricBelowCold), math.Max(highest, d.MetricBelowCold)
				hottest = math.Max(hottest, d.MetricBelowHot)
			}
		}
	}
	t.Logf("below IEC 60228 at 20 °C by %.3f to %.3f, at 60 °C by up to %.3f", lowest, highest, hottest)
	if lowest < 0.08 || highest > 0.21 || hottest > 0.32 {
		t.Errorf("below IEC 60228 at 20 °C by %.3f to %.3f, at 60 °C by up to %.3f", lowest, highest, hottest)
	}
}
