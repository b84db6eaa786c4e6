package wiring

import (
	"fmt"

	"example.com/forepeak/units"
)

// Interrupting is what devices must be able to break.
type Interrupting struct {
	Main   units.Current // at the battery
	Branch units.Current // behind the main device
}

// InterruptingRule is the interrupting capacity that ABYC E-11 asks of breakers by
// the cold cranking current of the bank (its AIC table):
//
//	12 and 24 V   to 650 A: 1500 A main, 750 A branch; to 1100 A: 3000, 1500; above: 5000, 2500
//	32 V          to 1250 A: 3000 A main, 1500 A branch; above: 5000, 2500 (recalled, not confirmed)
//
// A bank of more than 2200 A or 500 Ah is an [ErrRange]: there the device must break the
// short-circuit current of the bank, see [BankFault]. Capacity 0 is not compared.
func InterruptingRule(system units.Voltage, cranking units.Current, capacity units.Charge) (Interrupting, error) {
	var c checker
	positive(&c, "cranking", cranking)
	notNegative(&c, "capacity", capacity)
	v := system.Volts()
	must(&c, v == 12 || v == 24 || v == 32, "system", system, "12, 24 or 32 V")
	if c.err != nil {
		return Interrupting{}, c.err
	}
	const instead = "at most %v; beyond it the rule is the short-circuit current of the bank"
	if cranking > 2200*units.Ampere {
		return Interrupting{}, refuseAs(ErrRange, "cranking", cranking, fmt.Sprintf(instead, "2200 A"))
	}
	if capacity > 500*units.AmpereHour {
		return Interrupting{}, refuseAs(ErrRange, "capacity", capacity, fmt.Sprintf(instead, "500 Ah"))
	}
	a := cranking.Amperes()
	class := 2
	switch {
	case v < 32 && a <= 650:
		class = 0
	case v < 32 && a <= 1100, v == 32 && a <= 1250:
		class = 1
	}
	return [...]Interrupting{{1500, 750}, {3000, 1500}, {5000, 2500}}[class], nil
}

// BankFault is the short-circuit current of a bank of equal batteries: those of
// parallel strings add, those in a string do not. Three strings of two 6 V batteries of
// 2400 A give 7200 A at 12 V (ABYC E-11). Links and posts are left out, so the true
// current is lower.
func BankFault(one units.Current, strings int) (units.Current, error) {
	var c checker
	positive(&c, "one", one)
	must(&c, strings >= 1 && strings <= 1000, "strings", strings, "1 to 1000")
	if c.err != nil {
		return 0, c.err
	}
	return one.Scale(float64(strings)), nil
}
