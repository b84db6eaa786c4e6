package wiring_test

import (
	"math"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func tinned(t *testing.T) (metric, awg wiring.Stock) {
	t.Helper()
	metric, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		t.Fatal(err)
	}
	awg, err = wiring.AWG(wiring.Tinned)
	if err != nil {
		t.Fatal(err)
	}
	return metric, awg
}

// The published tables over the heat balance of one cable alone in still air. The bands are what
// was found; a table is below the balance where it has cables laid together in mind, and
// far below in the least American sizes, which are held down by the fuses made for them.
func TestTablesNearHeatBalance(t *testing.T) {
	metric, awg := tinned(t)
	for _, k := range []struct {
		rules      wiring.Rules
		stock      wiring.Stock
		insulation float64
		ambient    float64
		least      float64 // area in mm²
		lo, hi     float64
	}{
		{wiring.CFR, awg, 105, 30, 0, 0.89, 1.00},
		{wiring.CFR, awg, 60, 30, 5, 0.96, 1.07},
		{wiring.CFR, awg, 75, 30, 8, 0.93, 1.03},
		{wiring.CFR, awg, 75, 30, 0, 0.60, 1.03},
		{wiring.IEC60092, metric, 85, 45, 0, 0.77, 0.97},
		{wiring.IEC60092, metric, 85, 45, 30, 0.77, 0.88},
		{wiring.IEC60092, metric, 85, 45, -30, 0.90, 0.97}, // sizes below 30 mm²
		{wiring.ISO, metric, 70, 30, 1, 0.82, 1.00},
		{wiring.ISO, metric, 105, 30, 0, 0.77, 0.97},
	} {
		for _, c := range k.stock.WithInsulation(units.Celsius(k.insulation)) {
			mm2 := c.Area.SquareMillimetres()
			if k.least > 0 && mm2 < k.least || k.least < 0 && mm2 > -k.least {
				continue
			}
			table, err := wiring.Ampacity(k.rules, c, wiring.Installation{})
			if err != nil {
				continue // not in the table
			}
			balance, err := wiring.SteadyCurrent(c, units.Celsius(k.ambient))
			if err != nil {
				t.Fatal(err)
			}
			if r := table.Current.Per(balance); r < k.lo || r > k.hi {
				t.Errorf("%s, %g °C, %s: table %v is %.3f of the balance %.4g A, want %g to %g", k.rules, k.insulation, c.Size, table.Current, r, float64(balance), k.lo, k.hi)
			}
		}
	}
}

// SteadyTemperature undoes SteadyCurrent, and a long spell ends there; a time constant later
// than cold the rise is 63.2 % of it.
func TestHeatIsConsistent(t *testing.T) {
	metric, _ := tinned(t)
	ambient := units.Celsius(30)
	for _, c := range metric.WithInsulation(units.Celsius(85)) {
		i, err := wiring.SteadyCurrent(c, ambient)
		if err != nil {
			t.Fatal(err)
		}
		hot, err := wiring.SteadyTemperature(c, ambient, i)
		if err != nil || math.Abs(hot.Celsius()-85) > 1e-6 {
			t.Errorf("%s: %.9g °C at the steady current, want 85 (%v)", c.Size, hot.Celsius(), err)
		}
		day, err := wiring.TemperatureAfter(c, ambient, ambient, wiring.Spell{Current: i, For: 24 * units.Hour})
		if err != nil || math.Abs(day.Celsius()-85) > 1e-3 {
			t.Errorf("%s: %.9g °C after a day, want 85 (%v)", c.Size, day.Celsius(), err)
		}
		tau, err := wiring.TimeConstant(c, ambient)
		if err != nil {
			t.Fatal(err)
		}
		part, err := wiring.TemperatureAfter(c, ambient, ambient, wiring.Spell{Current: i, For: tau})
		if want := 30 + 55*(1-1/math.E); err != nil || math.Abs(part.Celsius()-want) > 1e-3 {
			t.Errorf("%s: %.9g °C after the time constant, want %.9g (%v)", c.Size, part.Celsius(), want, err)
		}
		for _, minutes := range []float64{2, 5, 10} {
			start := units.Celsius(50)
			short, err := wiring.CarriedFor(c, ambient, start, units.Minute.Scale(minutes))
			if err != nil {
				t.Fatal(err)
			}
			if short < i {
				t.Errorf("%s: carries %v for %g min and %v for ever", c.Size, short, minutes, i)
			}
			end, err := wiring.TemperatureAfter(c, ambient, start, wiring.Spell{Current: short, For: units.Minute.Scale(minutes)})
			if err != nil || math.Abs(end.Celsius()-85) > 1e-3 {
				t.Errorf("%s: %.9g °C after %g min, want 85 (%v)", c.Size, end.Celsius(), minutes, err)
			}
			// No cooling would let it reach the limit with no more than this.
			bound, err := wiring.Withstand(c.Area, start, units.Celsius(85))
			if err != nil {
				t.Fatal(err)
			}
			if float64(short)*float64(short)*minutes*60 < float64(bound) {
				t.Errorf("%s: %v for %g min is less than the adiabatic limit", c.Size, short, minutes)
			}
		}
	}
}

// The temperature against an integration of the same balance in small steps of Euler's rule, with
// the loss taken from the exported function and the surface found by bisection.
func TestTransientAgainstEuler(t *testing.T) {
	metric, _ := tinned(t)
	c, err := metric.Find("35 mm²")
	if err != nil {
		t.Fatal(err)
	}
	const ambient, amps = 30.0, 350.0
	mm2 := 35.0
	core := math.Sqrt(4 * mm2 / math.Pi / 0.66)
	outer := c.Diameter.Millimetres()
	capacity := 3.45*mm2 + 2.0*math.Pi/4*(outer*outer-core*core) // J/(K m)
	inside := math.Log(outer/core) / (2 * math.Pi * 0.19)
	at := 60.0
	for k := range 6000 { // ten minutes by 0.1 s
		lo, hi := ambient, at
		for range 60 {
			mid := (lo + hi) / 2
			loss, err := wiring.SurfaceLoss(c.Diameter, units.Metre, units.Celsius(mid), units.Celsius(ambient), 0.9)
			if err != nil {
				t.Fatal(err)
			}
			if float64(loss) > (at-mid)/inside {
				hi = mid
			} else {
				lo = mid
			}
		}
		heat := amps * amps * 0.565e-3 * (234.5 + at) / 254.5
		at += 0.1 * (heat - (at-lo)/inside) / capacity
		if k == 1199 || k == 2999 || k == 5999 {
			got, err := wiring.TemperatureAfter(c, units.Celsius(ambient), units.Celsius(60), wiring.Spell{Current: amps, For: units.Time(float64(k+1) / 10)})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got.Celsius()-at) > 0.02 {
				t.Errorf("after %d s %.5g °C, want %.5g", (k+1)/10, got.Celsius(), at)
			}
		}
	}
}
