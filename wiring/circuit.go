package wiring

import (
	"fmt"
	"slices"

	"example.com/forepeak/units"
)

// Circuit is a network of two-ended elements between named nodes. A node is any
// point with one voltage: a battery post, a stud, the hull, the windlass case, the
// engine's negative terminal. Nodes come into being by being named.
type Circuit struct {
	Elements []Element
	// Reference is the node whose voltage is called 0; empty: the From node of
	// the first battery or alternator.
	Reference string `json:",omitempty"`
}

// Element is one part between two nodes. Its current counts positive from From to
// To, its drop is the voltage of From less that of To. Exactly one of the pointers
// is set. Names are unique in a circuit.
type Element struct {
	Name     string
	From, To string
	// Control says that it belongs to a control circuit: small wires, coils and buttons, which
	// are drawn apart and have lugs of their own size.
	Control bool `json:",omitempty"`

	Battery    *Battery    `json:",omitempty"` // From is the negative post, To the positive
	Alternator *Alternator `json:",omitempty"` // From is negative, To positive
	Cable      *Cable      `json:",omitempty"`
	Contact    *Contact    `json:",omitempty"`
	Device     *Device     `json:",omitempty"`
	Load       *Load       `json:",omitempty"` // From is positive
	Motor      *Motor      `json:",omitempty"` // From is positive
}

// Installation is how a cable lies. The rules ask for it.
type Installation struct {
	Ambient     units.Temperature // 0: the one the rule set is written for
	EngineSpace bool
	Bundled     int  // current-carrying conductors in the bundle or sheath, 0: 1
	Sheathed    bool // in a sheath, conduit or other enclosure all along
}

// beside is the installation of n equal conductors in parallel, which lie side by side: each further
// one is one more in the bundle, or two where out and back lie together.
func (in Installation) beside(n int) Installation {
	switch {
	case n <= 1:
	case in.Bundled <= 1:
		in.Bundled = n
	default:
		in.Bundled += 2 * (n - 1)
	}
	return in
}

// Cable is one conductor, or several in parallel, of one length.
type Cable struct {
	Conductor    Conductor
	Length       units.Length      // of this conductor: half of an out-and-back run
	Parallel     int               // equal conductors side by side, 0: 1
	Temperature  units.Temperature // of the copper, 0: that of the Conditions
	Installation Installation
}

// Role is what a contact is.
type Role string

// Roles of contacts.
const (
	Lug      Role = "lug"
	Terminal Role = "terminal"
	Busbar   Role = "busbar"
	Isolator Role = "isolator" // one pole of it
	Solenoid Role = "solenoid" // its main contacts; the coil is a Load
	Switch   Role = "switch"
	Bond     Role = "bond"    // a deliberate connection to hull, case or bonding system
	Leakage  Role = "leakage" // insulation that is not perfect
	Fault    Role = "fault"   // a short being studied
)

// Contact is anything that is nothing but a resistance between two nodes.
type Contact struct {
	Role       Role
	Resistance units.Resistance
	Open       bool // opened: no current
	// Of names the apparatus that it is a part of, if that has more than this: a pole of a
	// two-pole isolator, a contact of a reversing solenoid.
	Of string `json:",omitempty"`
}

// Load is a consumer. Exactly one of the three is set.
type Load struct {
	Resistance units.Resistance `json:",omitempty"` // heater, lamp, coil
	Current    units.Current    `json:",omitempty"` // the same current at any voltage
	Power      units.Power      `json:",omitempty"` // converter, electronics: more current at less voltage
}

// Alternator is the charging source of a running engine: it holds its voltage until
// its current limit, and takes no current.
type Alternator struct {
	Voltage    units.Voltage // regulated
	Limit      units.Current // most it delivers
	Resistance units.Resistance
}

// Conditions are the circumstances in which a circuit is solved.
type Conditions struct {
	// Copper is the temperature of all cables that do not state their own;
	// 0: 20 °C.
	Copper units.Temperature
	// Standing names the motors that do not turn: at the moment of starting, or stalled.
	Standing []string `json:",omitempty"`
	// Open names the elements that are switched off, opened, tripped or cut.
	Open []string `json:",omitempty"`
}

// State is what an element does in a solution, where its name and current do not say it.
type State string

// States of elements.
const (
	Normal  State = ""
	Off     State = "off"     // opened by the conditions or by itself
	Dark    State = "dark"    // a load or motor that gets less than a twentieth of the highest source voltage
	Stalled State = "stalled" // a motor that its torque holds, or that stands by the conditions
	Limited State = "limited" // an alternator at its limit
	Idle    State = "idle"    // an alternator that delivers nothing
)

// Branch is the answer for one element.
type Branch struct {
	Name     string
	From, To string
	Current  units.Current // from From to To
	Drop     units.Voltage // voltage of From less that of To
	Power    units.Power   // taken from the network; negative for a source
	State    State         `json:",omitempty"`

	// Resistance is what was used: of the copper at Temperature, of the contact, inside
	// the battery. 0 for an element that is not a resistance.
	Resistance units.Resistance
	// EMF is the open-circuit voltage of a battery.
	EMF units.Voltage `json:",omitempty"`
	// Temperature is the one assumed for a cable's copper; 0 for anything else.
	Temperature units.Temperature
	// Speed is that of a motor.
	Speed units.AngularSpeed `json:",omitempty"`
}

// Solution is the state of a circuit.
type Solution struct {
	Conditions Conditions
	Nodes      map[string]units.Voltage // against the reference of the node's island
	Branches   []Branch                 // one for each element, in their order
	Iterations int                      // Newton steps
}

// Branch returns the answer for the element of that name.
func (s Solution) Branch(name string) (Branch, error) {
	for i := range s.Branches {
		if s.Branches[i].Name == name {
			return s.Branches[i], nil
		}
	}
	return Branch{}, refuseAs(ErrUnknown, "name", fmt.Sprintf("%q", name), "the name of an element")
}

// Element returns the element of that name.
func (c *Circuit) Element(name string) (*Element, error) {
	if i := slices.IndexFunc(c.Elements, func(e Element) bool { return e.Name == name }); i >= 0 {
		return &c.Elements[i], nil
	}
	return nil, refuseAs(ErrUnknown, "name", fmt.Sprintf("%q", name), "the name of an element")
}
