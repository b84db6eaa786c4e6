package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// advance follows the copper's temperature for a time at one current, by the classical
// Runge-Kutta rule with steps of a twentieth of a time constant or 5 K or less. It stops where
// the temperature settles, and at the hottest one that the model is for.
func (h thermal) advance(t, amps, seconds float64) float64 {
	rate := func(t float64) float64 { return (h.heating(amps, t) - h.cooling(t)) / h.capacity }
	hottest := float64(hottestCopper)
	for seconds > 0 && t < hottest {
		const small = 0.5 // K
		k1 := rate(t)
		back := (k1 - rate(t+small)) / small // 1/s, the reciprocal of the time constant here
		if back > 0 && math.Abs(k1) < 1e-7*back {
			return t // the rest of the way is less than 1e-7 K
		}
		step := seconds
		if back != 0 {
			step = math.Min(step, 0.05/math.Abs(back))
		}
		if k1 != 0 {
			step = math.Min(step, 5/math.Abs(k1))
		}
		k2 := rate(t + step/2*k1)
		k3 := rate(t + step/2*k2)
		k4 := rate(t + step*k3)
		t += step / 6 * (k1 + 2*k2 + 2*k3 + k4)
		seconds -= step
	}
	return t
}

// TemperatureAfter returns the copper's temperature after spells of current, one after
// the other, in the cable of [SteadyCurrent], starting at a temperature: the ambient, or what an
// earlier duty left behind. A spell of current 0 is a pause.
//
//	heat capacity * dT/dt = I^2 R(T) - heat given off at T
//
// with 3.45 J/(K cm³) for copper (IEC 60364-5-54) and 2.0 for insulation. Copper and
// insulation are taken to warm together, which is right for spells of minutes and on the low
// side of the copper's heat in the first seconds of a heavy overload: for a fault use [Withstand].
// More than 250 °C is [ErrRange].
func TemperatureAfter(c Conductor, ambient, start units.Temperature, spells ...Spell) (units.Temperature, error) {
	h, err := newThermal(c, ambient)
	if err != nil {
		return 0, err
	}
	last, _, err := h.follow(start, spells)
	return last, err
}

// follow is the temperature after the last spell, and the highest on the way. During a
// spell it rises or falls all the time, so that this is one at an end of a spell.
func (h thermal) follow(start units.Temperature, spells []Spell) (last, highest units.Temperature, err error) {
	var ck checker
	between(&ck, "start", start, units.Temperature(h.ambient), hottestCopper)
	for i, s := range spells {
		between(&ck, fmt.Sprintf("spells[%d].Current", i), s.Current, 0, 1e6)
		between(&ck, fmt.Sprintf("spells[%d].For", i), s.For, 0, 1e7)
	}
	if ck.err != nil {
		return 0, 0, ck.err
	}
	last, highest = start, start
	for i, s := range spells {
		last = units.Temperature(h.advance(float64(last), float64(s.Current), float64(s.For)))
		if last >= hottestCopper {
			return 0, 0, refuseAs(ErrRange, fmt.Sprintf("spells[%d].Current", i), s.Current, "a current and time that leave the copper below 250 °C")
		}
		highest = max(highest, last)
	}
	return last, highest, nil
}

// CarriedFor returns the current that brings the copper from a temperature to its Insulation
// temperature in a time, by [TemperatureAfter]. It tends to [SteadyCurrent] for
// hours. Start warm: a cable is used again before it has cooled.
//
// Caution: joints and lugs heat faster than the cable.
func CarriedFor(c Conductor, ambient, start units.Temperature, duration units.Time) (units.Current, error) {
	h, err := newThermal(c, ambient)
	if err != nil {
		return 0, err
	}
	var ck checker
	between(&ck, "start", start, ambient, hottestCopper)
	must(&ck, c.Insulation > start, "conductor.Insulation", fmt.Sprintf("%.3v", c.Insulation), "more than start")
	between(&ck, "duration", duration, units.Second, 1e7)
	if ck.err != nil {
		return 0, ck.err
	}
	limit := float64(c.Insulation)
	steady := math.Sqrt(h.cooling(limit) / h.heating(1, limit))
	// With no cooling at all the heat of the whole rise would be stored.
	most := math.Sqrt(h.capacity*(limit-float64(start))/(float64(duration)*h.heating(1, float64(start)))) + steady
	short := func(amps float64) (float64, error) {
		return h.advance(float64(start), amps, float64(duration)) - limit, nil
	}
	if left, _ := short(steady); left > -1e-6 { // after hours
		return units.Current(steady), nil
	}
	i, err := root.Find(short, steady, 2*most, 1e-6*steady)
	if err != nil {
		return 0, refuseAs(ErrNoSolution, "duration", duration, err.Error())
	}
	return units.Current(i), nil
}

// TimeConstant returns the time in which the copper, starting at the ambient, comes to
// 1 - 1/e = 63.2 % of its final rise at the current that holds it at its Insulation temperature.
func TimeConstant(c Conductor, ambient units.Temperature) (units.Time, error) {
	i, err := SteadyCurrent(c, ambient)
	if err != nil {
		return 0, err
	}
	h, err := newThermal(c, ambient)
	if err != nil {
		return 0, err
	}
	goal := h.ambient + (float64(c.Insulation)-h.ambient)*(1-1/math.E)
	rough := h.capacity * (float64(c.Insulation) - h.ambient) / h.cooling(float64(c.Insulation))
	t, err := root.Find(func(seconds float64) (float64, error) {
		return h.advance(h.ambient, float64(i), seconds) - goal, nil
	}, 0, 10*rough, 1e-6*rough)
	if err != nil {
		return 0, refuseAs(ErrNoSolution, "conductor", c.Size, err.Error())
	}
	return units.Time(t), nil
}

// EquivalentCurrent returns the steady current that heats alike over a cycle short against the
// time constant: the root of the mean square, sqrt(sum I²t / sum t). Pauses count as spells of 0.
func EquivalentCurrent(spells ...Spell) (units.Current, error) {
	var c checker
	must(&c, len(spells) > 0, "spells", "none", "at least one")
	square, time := 0.0, 0.0
	for i, s := range spells {
		between(&c, fmt.Sprintf("spells[%d].Current", i), s.Current, 0, 1e6)
		between(&c, fmt.Sprintf("spells[%d].For", i), s.For, 0, 1e9)
		square += float64(s.Current) * float64(s.Current) * float64(s.For)
		time += float64(s.For)
	}
	must(&c, time > 0, "spells", "0 s long", "a time in all")
	if c.err != nil {
		return 0, c.err
	}
	return units.Current(math.Sqrt(square / time)), nil
}
