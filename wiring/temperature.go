package wiring

import "example.com/forepeak/units"

// Range of conductor temperatures for which the resistance of copper is a straight
// line to better than 1 %.
var (
	coldestCopper = units.Celsius(-60)
	hottestCopper = units.Celsius(250)
)

// CopperFactor returns the resistance of copper at t over that at 20 °C, for t from
// -60 to 250 °C:
//
//	(234.5 + t) / 254.5
//
// Source: IEC 60028, temperature coefficient 0.00393 per kelvin at 20 °C, in the
// form that IEC 60228 annex A calls exact and FAA AC 43.13-1B par. 11-66 prints.
func CopperFactor(t units.Temperature) (float64, error) {
	var c checker
	between(&c, "t", t, coldestCopper, hottestCopper)
	if c.err != nil {
		return 0, c.err
	}
	return (234.5 + t.Celsius()) / 254.5, nil
}

// TemperatureCorrection returns the kt of IEC 60228 annex A that a resistance measured at t, from
// 5 to 100 °C, is multiplied with to correct it to 20 °C:
//
//	250 / (230 + t)
//
// This is the rounded form, 0.004 per kelvin, that the table prints to three decimals;
// 1/[CopperFactor] is the exact one and differs by up to 0.003. Use it only
// to compare a measurement with the standard.
func TemperatureCorrection(t units.Temperature) (float64, error) {
	var c checker
	between(&c, "t", t, units.Celsius(5), units.Celsius(100))
	if c.err != nil {
		return 0, c.err
	}
	return 250 / (230 + t.Celsius()), nil
}

// ResistanceAt returns the conductor's largest resistance at the temperature of
// its copper, Resistance * [CopperFactor].
func (c Conductor) ResistanceAt(t units.Temperature) (units.ResistancePerLength, error) {
	var ck checker
	c.check(&ck, "conductor")
	if ck.err != nil {
		return 0, ck.err
	}
	f, err := CopperFactor(t)
	return c.Resistance.Scale(f), err
}
