package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// PeukertExponent returns the exponent k of I^k t = constant from two discharges of one
// battery to the same end:
//
//	k = ln(tb/ta) / ln(Ia/Ib)
func PeukertExponent(a, b Spell) (float64, error) {
	var c checker
	positive(&c, "a.Current", a.Current)
	positive(&c, "a.For", a.For)
	positive(&c, "b.Current", b.Current)
	positive(&c, "b.For", b.For)
	must(&c, float64(a.Current-b.Current)*float64(a.For-b.For) < 0, "b.Current", b.Current, "the lesser current with the longer time")
	if c.err != nil {
		return 0, c.err
	}
	k := math.Log(b.For.Per(a.For)) / math.Log(a.Current.Per(b.Current))
	if !finite(k) {
		return 0, refuse("b.Current", b.Current, "currents that differ by more than rounding")
	}
	return k, nil
}

// PeukertCapacity returns the charge that a battery gives at 1 A, H (C/H)^k with the rated
// capacity C over H hours: 42 Ah in 10 h with k = 1.107 is 49 Ah. It is the constant of the law
// written t = Cp/I^k; using the rated capacity for Cp instead is the
// common mistake.
func (b Battery) PeukertCapacity() (units.Charge, error) {
	h, k, err := b.peukert()
	if err != nil {
		return 0, err
	}
	hours := h.Hours()
	return units.AmpereHour.Scale(hours * math.Pow(b.Capacity.AmpereHours()/hours, k)), nil
}

// peukert returns the rated time and the exponent.
func (b Battery) peukert() (units.Time, float64, error) {
	var c checker
	between(&c, "Battery.Capacity", b.Capacity, units.Coulomb, 1e9)
	h, k := b.RatedOver, b.Peukert
	if h == 0 {
		h = 20 * units.Hour
	}
	if k == 0 {
		k = 1
	}
	between(&c, "Battery.RatedOver", h, units.Minute, 1000*units.Hour)
	between(&c, "Battery.Peukert", k, 1, 2)
	return h, k, c.err
}

// RunTime returns how long a full battery gives a current, by Peukert's law referred to the
// rated time H:
//
//	t = H (C / (I H))^k
//
// so that the rated current lasts the rated time. Lead-acid has k from 1.1 (AGM) to 1.3
// (flooded), lithium 1.0 to 1.05 (recalled). The law was fitted to constant currents at one temperature;
// it says too little for short heavy ones with rests between, and
// for currents far below the rated one it promises more than there is.
func (b Battery) RunTime(current units.Current) (units.Time, error) {
	h, k, err := b.peukert()
	if err != nil {
		return 0, err
	}
	var c checker
	between(&c, "current", current, units.Milliampere, 1e6)
	if c.err != nil {
		return 0, c.err
	}
	return h.Scale(math.Pow(float64(b.Capacity)/(float64(current)*float64(h)), k)), nil
}

// ChargeTaken returns what a current takes out of the rated capacity over a time: that
// time's share of [Battery.RunTime] at the current. Below the rated current it is taken for
// what it is, current times time.
func (b Battery) ChargeTaken(current units.Current, over units.Time) (units.Charge, error) {
	h, k, err := b.peukert()
	if err != nil {
		return 0, err
	}
	var c checker
	between(&c, "current", current, 0, 1e6)
	between(&c, "over", over, 0, 1e9)
	if c.err != nil {
		return 0, c.err
	}
	return units.Charge(float64(b.Capacity) * drain(float64(b.Capacity), float64(h), k, float64(current)) * float64(over)), nil
}

// drain is the share of the capacity that a current takes per second.
func drain(capacity, hours, k, amps float64) float64 {
	rated := capacity / hours
	share := amps / capacity
	if amps > rated {
		share *= math.Pow(amps/rated, k-1)
	}
	return share
}

// Withdrawal is what a phase does to a battery.
type Withdrawal struct {
	Phase   string
	Battery string
	Out     units.Charge  // current times time, negative when it is charged
	Taken   units.Charge  // out of the rated capacity, by [Battery.ChargeTaken]
	Begin   units.Voltage // at the posts
	End     units.Voltage
	Charge  float64 // state of charge at the end
}

// Withdraw solves phases of use one after the other and follows the state of charge of every
// battery, in steps of a minute at most: what a retrieval of the anchor takes, and how far the
// bank sags. With the engine running there is an alternator in the circuit; name it in
// Conditions.Open when it is stopped. Charging counts ampere for ampere and stops at full.
//
// A battery that is emptied to below its chemistry's curve is [ErrRange]. A battery with OpenCircuit
// keeps that voltage throughout.
func Withdraw(c Circuit, phases []Phase) ([]Withdrawal, error) {
	var answers []Withdrawal
	elements := make([]Element, len(c.Elements))
	copy(elements, c.Elements)
	for i := range elements {
		if elements[i].Battery != nil {
			b := *elements[i].Battery
			if _, _, err := b.peukert(); err != nil {
				return nil, within(err, i, &elements[i])
			}
			elements[i].Battery = &b
		}
	}
	c.Elements = elements
	for i, p := range phases {
		var ck checker
		between(&ck, fmt.Sprintf("phases[%d].For", i), p.For, 0, 1e7)
		if ck.err != nil {
			return nil, ck.err
		}
		first := len(answers)
		steps := max(1, int(math.Ceil(p.For.Minutes())))
		dt := p.For.Scale(1 / float64(steps))
		for n := 0; n <= steps; n++ { // the last one only for the voltage at the end
			st, err := Solve(c, p.At)
			if err != nil {
				return nil, err
			}
			k := first
			for j := range c.Elements {
				e := &c.Elements[j]
				if e.Battery == nil {
					continue
				}
				br := st.Branches[j]
				if n == 0 {
					answers = append(answers, Withdrawal{Phase: p.Name, Battery: e.Name, Begin: -br.Drop})
				}
				w := &answers[k]
				k++
				w.End, w.Charge = -br.Drop, e.Battery.Charge
				if n < steps {
					if err := w.take(e.Battery, br.Current, dt); err != nil {
						return nil, within(err, j, e)
					}
				}
			}
		}
	}
	return answers, nil
}

// take moves charge out of a battery.
func (w *Withdrawal) take(b *Battery, current units.Current, dt units.Time) error {
	out := current.TimesTime(dt)
	taken := out
	if current > 0 {
		var err error
		if taken, err = b.ChargeTaken(current, dt); err != nil {
			return err
		}
	}
	left := b.Charge - taken.Per(b.Capacity)
	if left < 0 {
		return refuseAs(ErrRange, "Battery.Charge", fmt.Sprintf("%.3g", left), "0 or more: the battery is empty before the end")
	}
	if left > 1 { // full
		taken, left = b.Capacity.Scale(b.Charge-1), 1
	}
	w.Out += out
	w.Taken += taken
	b.Charge = left
	return nil
}
