package wiring

import (
	"fmt"

	"example.com/forepeak/units"
)

// Windlass describes the whole circuit of a reversing windlass, as it is mostly
// built: insulated two-wire, a two-pole isolator and a breaker near the bank, a
// reversing solenoid by the motor, and control switches on a small fused wire. The
// parts that are zero are left out, but for the resistances, which are refused.
//
// Caution: with the coils of both directions on at once, as when two people press two
// switches, the contacts short the supply. Use a solenoid, or two, whose directions lock
// each other out mechanically; a blocking contact in each coil's wire is the second best.
type Windlass struct {
	Bank  Battery
	Motor Motor

	Cable     Cable        // the main run: its conductor, number in parallel and installation; Length is not used
	ToBreaker units.Length // positive cable from the bank's fuse or post to the breaker
	OneWay    units.Length // from the bank to the solenoid; negative: the same
	ToMotor   units.Length // from the solenoid to the motor; 0: the solenoid sits on the motor
	Fuse      *Device      `json:",omitempty"` // at the bank
	Breaker   Device

	Lug      units.Resistance // of each crimped and bolted lug
	Isolator units.Resistance // of each pole; 0: there is no isolator
	OnePole  bool             // the isolator opens the positive pole only
	Contacts units.Resistance // of each pair of the solenoid's main contacts

	Coil        units.Resistance // of each of the solenoid's two coils; 0: no control circuit
	Control     Conductor        // the small wire to the switches
	ControlFuse Device           // at the breaker
	Switches    []ControlSwitch

	Hull *Hull `json:",omitempty"` // metal hull, or the bonding system
}

// ControlSwitch is a place from which the windlass is worked: deck buttons, a remote, a
// hand-held switch on a lead.
type ControlSwitch struct {
	Name   string
	Length units.Length // of wire from the control fuse to the switch
	On     units.Length // of wire from the switch on to the solenoid; 0: Length again
}

// Hull is what leaks to the hull. Insulation that is perfect is left out (0).
type Hull struct {
	Positive, Negative units.Resistance // of all wiring to the hull
	Case               units.Resistance // of the motor's winding to its case
	Bonding            units.Resistance // of the case to the hull: its bolts
	// Bond is a deliberate connection of the negative to the hull, 0: none, as it
	// should be with an insulated circuit.
	Bond units.Resistance
}

// Working is what the windlass does.
type Working string

// States of a windlass.
const (
	Resting  Working = "resting"
	Hauling  Working = "hauling"
	Lowering Working = "lowering"
)

// Circuit is the network of the windlass in a state. With two switches or
// more it is the first that is pressed. Its nodes and elements have the plain names
// that the drawing and the reports show: "bank +", "breaker", "cable forward".
func (w Windlass) Circuit(does Working) (Circuit, error) {
	var ck checker
	must(&ck, does == Resting || does == Hauling || does == Lowering, "does", fmt.Sprintf("%q", does), "resting, hauling or lowering")
	positive(&ck, "ToBreaker", w.ToBreaker)
	notNegative(&ck, "ToMotor", w.ToMotor)
	must(&ck, w.OneWay > w.ToBreaker && finite(w.OneWay.Metres()), "OneWay", w.OneWay, "more than ToBreaker")
	must(&ck, (w.Coil == 0) == (len(w.Switches) == 0), "Switches", fmt.Sprint(len(w.Switches), " switches"), "one or more with a coil, none without")
	names := map[string]bool{}
	for i, s := range w.Switches {
		f := fmt.Sprintf("Switches[%d]", i)
		must(&ck, s.Name != "" && !names[s.Name], f+".Name", fmt.Sprintf("%q", s.Name), "a name of its own")
		names[s.Name] = true
		positive(&ck, f+".Length", s.Length)
		notNegative(&ck, f+".On", s.On)
	}
	ohmic(&ck, "Contacts", w.Contacts)
	if h := w.Hull; h != nil {
		insulation(&ck, "Hull.Positive", h.Positive)
		insulation(&ck, "Hull.Negative", h.Negative)
		insulation(&ck, "Hull.Case", h.Case)
		insulation(&ck, "Hull.Bonding", h.Bonding)
		insulation(&ck, "Hull.Bond", h.Bond)
	}
	if ck.err != nil {
		return Circuit{}, ck.err
	}

	b := lineBuilder{lug: w.Lug, cable: w.Cable}
	bank := w.Bank
	b.add(Element{Name: "bank", From: "bank -", To: "bank +", Battery: &bank})

	// Positive, from the bank to the solenoid.
	b.at = "bank +"
	if w.Fuse != nil {
		fuse := *w.Fuse
		b.step("battery fuse", "fuse out", Element{Device: &fuse})
	}
	if w.Isolator != 0 {
		b.step("isolator +", "isolator + out", Element{Contact: &Contact{Role: Isolator, Resistance: w.Isolator, Of: "isolator"}})
	}
	b.run("cable to breaker", "breaker in", w.ToBreaker)
	breaker := w.Breaker
	b.step("breaker", "breaker out", Element{Device: &breaker})
	b.run("cable forward", "solenoid +", w.OneWay-w.ToBreaker)

	// Solenoid and motor.
	plus, minus := "motor A", "motor B"
	if does == Lowering {
		plus, minus = minus, plus
	}
	contact := func(name, from, to string, closed bool) {
		b.add(Element{Name: name, From: from, To: to, Contact: &Contact{Role: Solenoid, Resistance: w.Contacts, Open: !closed, Of: "reversing solenoid"}})
	}
	a, z := "solenoid A", "solenoid B"
	if w.ToMotor == 0 {
		a, z = "motor A", "motor B"
	}
	contact("solenoid haul +", "solenoid +", a, does == Hauling)
	contact("solenoid haul -", z, "solenoid -", does == Hauling)
	contact("solenoid lower +", "solenoid +", z, does == Lowering)
	contact("solenoid lower -", a, "solenoid -", does == Lowering)
	if w.ToMotor > 0 {
		b.at = a
		b.run("motor lead A", "motor A", w.ToMotor)
		b.at = z
		b.run("motor lead B", "motor B", w.ToMotor)
	}
	motor := w.Motor
	b.add(Element{Name: "motor", From: plus, To: minus, Motor: &motor})

	// Negative, back to the bank.
	b.at = "solenoid -"
	end := "bank -"
	isolated := w.Isolator != 0 && !w.OnePole
	if isolated {
		end = "isolator - out"
	}
	b.run("cable back", end, w.OneWay)
	if isolated {
		b.step("isolator -", "bank -", Element{Contact: &Contact{Role: Isolator, Resistance: w.Isolator, Of: "isolator"}})
	}

	if w.Coil != 0 {
		n := len(b.elements)
		w.control(&b, does)
		for i := n; i < len(b.elements); i++ {
			b.elements[i].Control = true
		}
	}
	if w.Hull != nil {
		w.hull(&b)
	}
	c := Circuit{Elements: b.elements, Reference: "bank -"}
	return c, c.check()
}

// insulation refuses a leak that is neither left out nor a resistance.
func insulation(c *checker, field string, r units.Resistance) {
	if r != 0 {
		ohmic(c, field, r)
	}
}

// control adds fuse, switches, wires and coils. All switches are in parallel.
func (w Windlass) control(b *lineBuilder, does Working) {
	fuse := w.ControlFuse
	b.at = "breaker out"
	b.step("control fuse", "control +", Element{Device: &fuse})
	wire := func(name, from, to string, l units.Length) {
		b.add(Element{Name: name, From: from, To: to, Cable: &Cable{Conductor: w.Control, Length: l}})
	}
	for i, s := range w.Switches {
		in := s.Name + " in"
		or(&s.On, s.Length)
		wire("control wire to "+s.Name, "control +", in, s.Length)
		for _, way := range []struct {
			name, coil string
			does       Working
		}{{"haul", "coil haul", Hauling}, {"lower", "coil lower", Lowering}} {
			out := s.Name + " " + way.name
			b.add(Element{
				Name: s.Name + " " + way.name + " button", From: in, To: out,
				Contact: &Contact{Role: Switch, Resistance: 20 * units.Milliohm, Open: does != way.does || i > 0, Of: s.Name + " buttons"},
			})
			wire("control wire "+way.name+" from "+s.Name, out, way.coil, s.On)
		}
	}
	for _, coil := range []string{"coil haul", "coil lower"} {
		b.add(Element{Name: coil, From: coil, To: "solenoid -", Load: &Load{Resistance: w.Coil}})
	}
}

// hull adds what leaks.
func (w Windlass) hull(b *lineBuilder) {
	for _, l := range []struct {
		name, from, to string
		role           Role
		r              units.Resistance
	}{
		{"leakage +", "breaker out", "hull", Leakage, w.Hull.Positive},
		{"leakage -", "solenoid -", "hull", Leakage, w.Hull.Negative},
		{"winding to case", "motor A", "windlass case", Leakage, w.Hull.Case},
		{"case to hull", "windlass case", "hull", Bond, w.Hull.Bonding},
		{"negative to hull", "bank -", "hull", Bond, w.Hull.Bond},
	} {
		if l.r != 0 {
			b.add(Element{Name: l.name, From: l.from, To: l.to, Contact: &Contact{Role: l.role, Resistance: l.r}})
		}
	}
}

// lineBuilder appends elements in line.
type lineBuilder struct {
	elements []Element
	at       string // the node reached
	lug      units.Resistance
	cable    Cable
}

func (b *lineBuilder) add(e Element) { b.elements = append(b.elements, e) }

// step adds an element from the node reached to the next.
func (b *lineBuilder) step(name, to string, e Element) {
	e.Name, e.From, e.To = name, b.at, to
	b.add(e)
	b.at = to
}

// run adds a cable with a lug at either end.
func (b *lineBuilder) run(name, to string, l units.Length) {
	k := b.cable
	k.Length = l
	b.step("lug 1 of "+name, name+" 1", Element{Contact: &Contact{Role: Lug, Resistance: b.lug}})
	b.step(name, name+" 2", Element{Cable: &k})
	b.step("lug 2 of "+name, to, Element{Contact: &Contact{Role: Lug, Resistance: b.lug}})
}
