package wiring

import (
	"fmt"

	"example.com/forepeak/units"
)

// longestNames of an element and its nodes together, in bytes.
const longestNames = 1000

// check refuses a circuit that says nothing or too much.
func (c *Circuit) check() error {
	var ck checker
	must(&ck, len(c.Elements) > 0, "Elements", "empty", "at least one element")
	names := make(map[string]bool, len(c.Elements))
	nodes := map[string]bool{"": true}
	for i := range c.Elements {
		e := &c.Elements[i]
		if len(e.Name)+len(e.From)+len(e.To) > longestNames {
			return refuse(fmt.Sprintf("Elements[%d]", i), fmt.Sprintf("with names %d bytes long", len(e.Name)+len(e.From)+len(e.To)), fmt.Sprintf("at most %d", longestNames))
		}
		field := fmt.Sprintf("Elements[%d] (%s)", i, e.Name)
		must(&ck, e.Name != "" && !names[e.Name], field+".Name", fmt.Sprintf("%q", e.Name), "a name of its own")
		must(&ck, e.From != "", field+".From", "empty", "the name of a node")
		must(&ck, e.To != "" && e.To != e.From, field+".To", fmt.Sprintf("%q", e.To), "the name of another node than From")
		names[e.Name] = true
		nodes[e.From], nodes[e.To] = true, true
		e.check(&ck, field)
	}
	must(&ck, nodes[c.Reference], "Reference", fmt.Sprintf("%q", c.Reference), "the name of a node, or empty")
	return ck.err
}

func (e *Element) check(c *checker, field string) {
	parts := 0
	for _, has := range []bool{e.Battery != nil, e.Alternator != nil, e.Cable != nil, e.Contact != nil, e.Device != nil, e.Load != nil, e.Motor != nil} {
		if has {
			parts++
		}
	}
	must(c, parts == 1, field, fmt.Sprintf("%d parts", parts), "exactly one of Battery, Alternator, Cable, Contact, Device, Load and Motor")
	switch {
	case parts != 1:
	case e.Battery != nil:
		e.Battery.check(c, field+".Battery")
	case e.Alternator != nil:
		a, field := e.Alternator, field+".Alternator"
		between(c, field+".Voltage", a.Voltage, 0.1*units.Volt, 1000*units.Volt)
		between(c, field+".Limit", a.Limit, units.Milliampere, 1e6*units.Ampere)
		ohmic(c, field+".Resistance", a.Resistance)
	case e.Cable != nil:
		e.Cable.check(c, field+".Cable")
	case e.Contact != nil:
		ohmic(c, field+".Contact.Resistance", e.Contact.Resistance)
	case e.Device != nil:
		e.Device.check(c, field+".Device")
	case e.Load != nil:
		e.Load.check(c, field+".Load")
	case e.Motor != nil:
		e.Motor.check(c, field+".Motor")
	}
}

func (k *Cable) check(c *checker, field string) {
	k.Conductor.check(c, field+".Conductor")
	positive(c, field+".Length", k.Length)
	must(c, k.Parallel >= 0 && k.Parallel <= 1000, field+".Parallel", k.Parallel, "from 0 to 1000")
	if k.Temperature != 0 {
		between(c, field+".Temperature", k.Temperature, coldestCopper, hottestCopper)
	}
	k.Installation.check(c, field+".Installation")
	if c.err == nil {
		ohmic(c, field+" resistance", k.resistance20())
	}
}

// resistance20 is that of the whole cable at 20 °C.
func (k *Cable) resistance20() units.Resistance {
	return k.Conductor.Resistance.TimesLength(k.Length).Scale(1 / float64(max(1, k.Parallel)))
}

func (l *Load) check(c *checker, field string) {
	kinds := 0
	for _, x := range []float64{float64(l.Resistance), float64(l.Current), float64(l.Power)} {
		if x != 0 {
			kinds++
		}
	}
	must(c, kinds == 1, field, fmt.Sprintf("%d of its fields", kinds), "exactly one of Resistance, Current and Power")
	if l.Resistance != 0 {
		ohmic(c, field+".Resistance", l.Resistance)
	}
	between(c, field+".Current", l.Current, 0, 1e6*units.Ampere)
	between(c, field+".Power", l.Power, 0, 1e9*units.Watt)
}
