package wiring_test

import (
	"maps"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// What textbooks work out for a battery, a starter motor and a motor with a constant field.

func init() { maps.Copy(handlers, textbookHandlers) }

var textbookHandlers = map[string]refcheck.Handler{
	"wiring.Battery.FaultCurrent": func(in refcheck.Inputs) (any, error) { return source(in).FaultCurrent() },
	"wiring.ResistanceFromStep": func(in refcheck.Inputs) (any, error) {
		return wiring.ResistanceFromStep(in.Voltage("before"), in.Voltage("under"), in.Current("current"))
	},
	"wiring.Solve#current": func(in refcheck.Inputs) (any, error) {
		b, err := starter(in)
		return b.Current, err
	},
	"wiring.Solve#voltage": func(in refcheck.Inputs) (any, error) {
		b, err := starter(in)
		return b.Drop, err
	},
	"wiring.Solve#power": func(in refcheck.Inputs) (any, error) {
		b, err := starter(in)
		return b.Power, err
	},
	"wiring.FindBadJoint": func(in refcheck.Inputs) (any, error) {
		c := wiring.Circuit{Elements: []wiring.Element{
			{Name: "battery", From: "-", To: "+", Battery: &wiring.Battery{
				Chemistry: wiring.Flooded, Charge: 1, OpenCircuit: in.Voltage("battery"), Resistance: in.Resistance("inside"),
			}},
			{Name: "cable", From: "+", To: "motor +", Contact: &wiring.Contact{Role: wiring.Terminal, Resistance: in.Resistance("most")}},
			{Name: "motor", From: "motor +", To: "-", Load: &wiring.Load{Resistance: in.Resistance("motor")}},
		}}
		limit := wiring.Spread{Cable: 1e-6, Contact: 1e-6, Device: 1e-6, Source: 1e-6, Load: 1e-6} // the maker's most, to the letter
		found, err := wiring.FindBadJoint(c, wiring.Conditions{Copper: units.Celsius(20)}, []wiring.Reading{
			{Probes: wiring.Probes{Red: "+", Black: "motor +"}, Volts: in.Voltage("reading"), Current: in.Current("current")},
		}, wiring.Voltmeter{}, wiring.Ammeter{}, limit)
		if err != nil {
			return nil, err
		}
		return string(found[0].Judgement), nil
	},
	"wiring.FitMotor#resistance": func(in refcheck.Inputs) (any, error) {
		m, err := wiring.FitMotor(wiring.PermanentMagnet, in.Voltage("voltage"),
			wiring.MotorPoint{Current: in.Current("idle"), Speed: in.AngularSpeed("idling")},
			wiring.MotorPoint{Current: in.Current("current"), Speed: in.AngularSpeed("speed")})
		return m.Resistance, err
	},
	"wiring.Motor.Running#current": func(in refcheck.Inputs) (any, error) {
		m := motor(in)
		i, _, err := m.Running(m.Voltage)
		return i, err
	},
	"wiring.Motor.Running#speed": func(in refcheck.Inputs) (any, error) {
		m := motor(in)
		_, speed, err := m.Running(m.Voltage)
		return speed, err
	},
	"wiring.Motor.StallCurrent": func(in refcheck.Inputs) (any, error) {
		m := motor(in)
		return m.StallCurrent(m.Voltage)
	},
	"wiring.Conductor.ResistanceAt": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("gauge") + " AWG")
		if err != nil {
			return nil, err
		}
		return c.ResistanceAt(in.Temperature("t"))
	},
	"wiring.SteadyCurrent": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.WithInsulation(in.Temperature("insulation")).Find(in.Text("gauge") + " AWG")
		if err != nil {
			return nil, err
		}
		return wiring.SteadyCurrent(c, in.Temperature("ambient"))
	},
}

// source is a battery of a row's electromotive force and inner resistance.
func source(in refcheck.Inputs) wiring.Battery {
	return wiring.Battery{Chemistry: wiring.Flooded, Charge: 1, OpenCircuit: in.Voltage("battery"), Resistance: in.Resistance("inside")}
}

// starter is what such a battery does to a resistance, or to a current, through a
// corroded joint if the row has one.
func starter(in refcheck.Inputs) (wiring.Branch, error) {
	st, err := wiring.Solve(starterCircuit(in), wiring.Conditions{Copper: units.Celsius(20)})
	if err != nil {
		return wiring.Branch{}, err
	}
	return st.Branch("motor")
}

func starterCircuit(in refcheck.Inputs) wiring.Circuit {
	battery := source(in)
	var load wiring.Load
	if in.Has("current") {
		load.Current = in.Current("current")
	} else {
		load.Resistance = in.Resistance("motor")
	}
	c := wiring.Circuit{Elements: []wiring.Element{
		{Name: "battery", From: "-", To: "+", Battery: &battery},
		{Name: "motor", From: "+", To: "-", Load: &load},
	}}
	if in.Has("joint") {
		c.Elements[1].From = "motor +"
		c.Elements = append(c.Elements, wiring.Element{
			Name: "joint", From: "+", To: "motor +", Contact: &wiring.Contact{Role: wiring.Terminal, Resistance: in.Resistance("joint")},
		})
	}
	return c
}

// motor has a constant field and no losses but in its resistance. Its flux is that of a
// reading without load.
func motor(in refcheck.Inputs) wiring.Motor {
	m := wiring.Motor{Type: wiring.PermanentMagnet, Voltage: in.Voltage("voltage"), Resistance: in.Resistance("resistance"), Efficiency: 1}
	turning := m.Voltage - in.Current("idle").TimesResistance(m.Resistance)
	m.Flux = turning.PerAngularSpeed(in.AngularSpeed("idling"))
	if in.Has("torque") {
		m.Load = in.Torque("torque")
	}
	return m
}
