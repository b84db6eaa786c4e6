package wiring

import "example.com/forepeak/units"

// Drop returns the volts lost in a run of cable at a steady current, with the copper at a
// temperature: current * run * [Conductor.ResistanceAt]. The run is the length of conductor
// out and back, not the distance. Contacts are not in it: see [Solve].
func Drop(c Conductor, run units.Length, current units.Current, copper units.Temperature) (units.Voltage, error) {
	var ck checker
	between(&ck, "run", run, 0, 1e5)
	between(&ck, "current", current, 0, 1e6)
	between(&ck, "copper", copper, coldestCopper, hottestCopper)
	if ck.err != nil {
		return 0, ck.err
	}
	r, err := c.ResistanceAt(copper)
	return current.TimesResistance(r.TimesLength(run)), err
}

// MetricDrop is the short formula of ISO 10133 annex A,
//
//	E = 0.0164 I L / S
//
// in volts, amperes, metres out and back, and mm². Its resistivity is 5 % under that of
// copper at 20 °C (0.01724 ohm mm²/m), 9 to 20 % under what IEC 60228 allows there, and up to
// 31 % under the same conductor at 60 °C: [CompareDrop] says how much. Never size a cable by
// it alone.
func MetricDrop(current units.Current, run units.Length, area units.Area) (units.Voltage, error) {
	return shortFormula(current, run, area, 0.0164e-6)
}

// CircularMilDrop is the short formula of ABYC E-11,
//
//	E = K I L / CM, K = 10.75
//
// in volts, amperes, feet out and back, and circular mils. K is that of copper at 29 °C; 10.371 would be
// 20 °C. It makes no allowance for stranding or tin.
func CircularMilDrop(current units.Current, run units.Length, area units.Area) (units.Voltage, error) {
	return shortFormula(current, run, area, 10.75*float64(units.CircularMil)/float64(units.Foot))
}

// shortFormula has a resistivity in ohm metres for copper.
func shortFormula(current units.Current, run units.Length, area units.Area, resistivity float64) (units.Voltage, error) {
	var c checker
	between(&c, "current", current, 0, 1e6)
	between(&c, "run", run, 0, 1e5)
	between(&c, "area", area, 1e-10, 1e-2)
	if c.err != nil {
		return 0, c.err
	}
	return units.Voltage(resistivity * float64(current) * float64(run) / float64(area)), nil
}

// DropComparison sets the short formulas beside what the conductor's own resistance gives.
type DropComparison struct {
	Metric      units.Voltage // [MetricDrop]
	CircularMil units.Voltage // [CircularMilDrop]
	Cold        units.Voltage // [Drop] at 20 °C
	Hot         units.Voltage // [Drop] at the temperature asked for

	// How far the metric formula lies below Cold and Hot, as a share of them, and
	// the circular-mil formula below the same. Negative: above.
	MetricBelowCold, MetricBelowHot           float64
	CircularMilBelowCold, CircularMilBelowHot float64
}

// CompareDrop evaluates the short formulas and the conductor's resistance, cold and hot.
func CompareDrop(c Conductor, run units.Length, current units.Current, hot units.Temperature) (DropComparison, error) {
	var d DropComparison
	var ck checker
	positive(&ck, "run", run)
	positive(&ck, "current", current)
	between(&ck, "hot", hot, coldestCopper, hottestCopper)
	if ck.err != nil {
		return d, ck.err
	}
	var err error
	if d.Hot, err = Drop(c, run, current, hot); err != nil {
		return DropComparison{}, err
	}
	if d.Cold, err = Drop(c, run, current, units.Celsius(20)); err != nil {
		return DropComparison{}, err
	}
	if d.Metric, err = MetricDrop(current, run, c.Area); err != nil {
		return DropComparison{}, err
	}
	if d.CircularMil, err = CircularMilDrop(current, run, c.Area); err != nil {
		return DropComparison{}, err
	}
	d.MetricBelowCold, d.MetricBelowHot = 1-d.Metric.Per(d.Cold), 1-d.Metric.Per(d.Hot)
	d.CircularMilBelowCold, d.CircularMilBelowHot = 1-d.CircularMil.Per(d.Cold), 1-d.CircularMil.Per(d.Hot)
	return d, nil
}
