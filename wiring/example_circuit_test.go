package wiring_test

import (
	"fmt"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// windlassCircuit is a 12 V windlass on a bank aft, made up: the motor from two catalogue points,
// 9.5 m of 70 mm² each way, a breaker, a solenoid and their lugs.
func windlassCircuit() (wiring.Circuit, error) {
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		return wiring.Circuit{}, err
	}
	cable, err := stock.Find("70 mm²")
	if err != nil {
		return wiring.Circuit{}, err
	}
	motor, err := wiring.FitMotor(wiring.PermanentMagnet, 12*units.Volt,
		wiring.MotorPoint{Current: 15 * units.Ampere, Speed: 2600 * units.RevolutionPerMinute, NoLoad: true},
		wiring.MotorPoint{Current: 110 * units.Ampere, Speed: 2000 * units.RevolutionPerMinute, Torque: 3.8 * units.NewtonMetre},
	)
	if err != nil {
		return wiring.Circuit{}, err
	}
	motor.Load = 3.8 * units.NewtonMetre
	contact := func(name, from, to string, role wiring.Role, r units.Resistance) wiring.Element {
		return wiring.Element{Name: name, From: from, To: to, Contact: &wiring.Contact{Role: role, Resistance: r}}
	}
	return wiring.Circuit{Elements: []wiring.Element{
		{Name: "bank", From: "bank -", To: "bank +", Battery: &wiring.Battery{
			Chemistry: wiring.AGM, Cells: 6, Capacity: 230 * units.AmpereHour, Peukert: 1.15, Charge: 0.8, Resistance: 3.5 * units.Milliohm,
		}},
		contact("lugs +", "bank +", "feed", wiring.Lug, 100*units.Microhm),
		{Name: "breaker", From: "feed", To: "fed", Device: &wiring.Device{Kind: wiring.Breaker, Rating: 120, Resistance: 400 * units.Microhm}},
		{Name: "cable out", From: "fed", To: "forward", Cable: &wiring.Cable{Conductor: cable, Length: 9.5 * units.Metre}},
		contact("solenoid", "forward", "motor +", wiring.Solenoid, 300*units.Microhm),
		{Name: "windlass", From: "motor +", To: "motor -", Motor: &motor},
		{Name: "cable back", From: "motor -", To: "return", Cable: &wiring.Cable{Conductor: cable, Length: 9.5 * units.Metre}},
		contact("lugs -", "return", "bank -", wiring.Lug, 100*units.Microhm),
	}}, nil
}

// Where the volts of a working windlass go, with the copper warm.
func ExampleSolution_DropTo() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	st, err := wiring.Solve(c, wiring.Conditions{Copper: units.Celsius(60)})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := st.DropTo("windlass")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f V in the bank, %.2f V at the motor\n", r.EMF.Volts(), r.AtLoad.Volts())
	for _, p := range r.Parts {
		fmt.Printf("%-10s %5.1f A %5.3f V %3.0f %%\n", p.Name, p.Current.Amperes(), p.Drop.Volts(), 100*p.Share)
	}
	// Output:
	// 12.64 V in the bank, 11.41 V at the motor
	// bank       110.0 A 0.462 V  38 %
	// lugs +     110.0 A 0.011 V   1 %
	// breaker    110.0 A 0.044 V   4 %
	// cable out  110.0 A 0.335 V  27 %
	// solenoid   110.0 A 0.033 V   3 %
	// cable back 110.0 A 0.335 V  27 %
	// lugs -     110.0 A 0.011 V   1 %
}

// The same windlass at the moment of starting, and held fast: the motor is nothing but its resistance.
func ExampleSolve() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, at := range []wiring.Conditions{
		{Copper: units.Celsius(60)},
		{Copper: units.Celsius(10), Standing: []string{"windlass"}},
	} {
		st, err := wiring.Solve(c, at)
		if err != nil {
			fmt.Println(err)
			return
		}
		b, err := st.Branch("windlass")
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f A, %.1f V at the motor, %.0f rpm, state %q\n", b.Current.Amperes(), b.Drop.Volts(), b.Speed.RevolutionsPerMinute(), b.State)
	}
	// Output:
	// 110 A, 11.4 V at the motor, 1867 rpm, state ""
	// 330 A, 9.3 V at the motor, 0 rpm, state "stalled"
}

func ExampleFitMotor() {
	m, err := wiring.FitMotor(wiring.PermanentMagnet, 24*units.Volt,
		wiring.MotorPoint{Current: 12 * units.Ampere, Speed: 2200 * units.RevolutionPerMinute, NoLoad: true},
		wiring.MotorPoint{Current: 75 * units.Ampere, Speed: 1800 * units.RevolutionPerMinute, Torque: 6.2 * units.NewtonMetre},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	stall, err := m.StallCurrent(24 * units.Volt)
	if err != nil {
		fmt.Println(err)
		return
	}
	m.Load = 6.2 * units.NewtonMetre
	i, w, err := m.Running(20 * units.Volt)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mohm, %.0f A when held, at 20 V %.0f A and %.0f rpm\n", m.Resistance.Milliohms(), stall.Amperes(), i.Amperes(), w.RevolutionsPerMinute())
	// Output: 67 mohm, 358 A when held, at 20 V 75 A and 1421 rpm
}

// What a retrieval of fifteen minutes takes out of the bank, engine stopped.
func ExampleWithdraw() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := wiring.Withdraw(c, []wiring.Phase{{Name: "retrieval", For: 15 * units.Minute}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f Ah out, which counts as %.1f Ah; %.2f V at the posts at first, %.2f V at the end, %.0f %% left\n",
		w[0].Out.AmpereHours(), w[0].Taken.AmpereHours(), w[0].Begin.Volts(), w[0].End.Volts(), 100*w[0].Charge)
	// Output: 27.5 Ah out, which counts as 38.6 Ah; 12.18 V at the posts at first, 11.93 V at the end, 63 % left
}

// The same windlass on a lithium bank whose disconnect does not like its start.
func ExampleCheckDisconnects() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	bank := c.Elements[0].Battery
	bank.Chemistry, bank.Cells = wiring.LithiumPhosphate, 4
	bank.Disconnect = &wiring.Disconnect{
		Resistance: 0.4 * units.Milliohm,
		Continuous: 150, Peak: 300, PeakTime: 10 * units.Second,
		LowVoltage: 10.5 * units.Volt,
	}
	c.Elements = append(c.Elements, wiring.Element{Name: "navigation lights", From: "bank +", To: "bank -", Load: &wiring.Load{Power: 6}})
	answers, err := wiring.CheckDisconnects(c, []wiring.Phase{
		{Name: "start", At: wiring.Conditions{Copper: units.Celsius(10), Standing: []string{"windlass"}}, For: 0.3 * units.Second},
		{Name: "pull", At: wiring.Conditions{Copper: units.Celsius(60)}, For: 5 * units.Minute},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range answers {
		fmt.Printf("%s: %.0f A, opens %t %s %q\n", a.Phase, a.Current.Amperes(), a.Opens, a.Why, a.Dark)
	}
	// Output:
	// start: 349 A, opens true 349 A, peak 300 A ["windlass" "navigation lights"]
	// pull: 110 A, opens false  []
}

func ExampleBattery_RunTime() {
	b := wiring.Battery{Capacity: 100 * units.AmpereHour, RatedOver: 20 * units.Hour, Peukert: 1.2}
	t, err := b.RunTime(10 * units.Ampere)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f h\n", t.Hours())
	// Output: 8.7 h
}

// A bank of 4 mohm at half charge and freezing, with its disconnect's half a milliohm.
func ExampleBattery_InternalResistance() {
	b := wiring.Battery{
		Chemistry: wiring.LithiumPhosphate, Cells: 4, Charge: 0.5, Temperature: units.Celsius(0), Resistance: 4 * units.Milliohm,
		Disconnect: &wiring.Disconnect{Resistance: 0.5 * units.Milliohm, Continuous: 100, Peak: 200},
	}
	r, err := b.InternalResistance()
	fmt.Printf("%.1f mohm %v\n", r.Milliohms(), err)
	// Output: 9.7 mohm <nil>
}

// 42 Ah in 10 h with an exponent of 1.107.
func ExampleBattery_PeukertCapacity() {
	b := wiring.Battery{Capacity: 42 * units.AmpereHour, RatedOver: 10 * units.Hour, Peukert: 1.107}
	q, err := b.PeukertCapacity()
	fmt.Printf("%.1f Ah %v\n", q.AmpereHours(), err)
	// Output: 49.0 Ah <nil>
}

// Less voltage makes the motor slower and not hungrier, until it stands.
func ExampleMotor_Running() {
	m := wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 40 * units.Milliohm, Flux: 0.04, Efficiency: 0.9, Load: 3.6 * units.NewtonMetre}
	for _, v := range []units.Voltage{12, 10, 3} {
		i, w, err := m.Running(v)
		fmt.Printf("%2.0f V: %.0f A, %.0f rpm %v\n", v.Volts(), i.Amperes(), w.RevolutionsPerMinute(), err)
	}
	// Output:
	// 12 V: 100 A, 1910 rpm <nil>
	// 10 V: 100 A, 1432 rpm <nil>
	//  3 V: 75 A, 0 rpm <nil>
}

func ExampleMotor_StallCurrent() {
	m := wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 40 * units.Milliohm, Flux: 0.04, Efficiency: 0.9}
	i, err := m.StallCurrent(12 * units.Volt)
	fmt.Printf("%.0f A %v\n", i.Amperes(), err)
	// Output: 300 A <nil>
}

// What does one part of the circuit do?
func ExampleSolution_Branch() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := wiring.Solve(c, wiring.Conditions{Copper: units.Celsius(60)})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := s.Branch("cable out")
	fmt.Printf("%.0f A and %.2f V over %.2f mΩ: %.0f W of heat %v\n", b.Current.Amperes(), b.Drop.Volts(), b.Resistance.Milliohms(), b.Power.Watts(), err)
	_, err = s.Branch("bilge pump")
	fmt.Println(err)
	// Output:
	// 110 A and 0.33 V over 3.05 mΩ: 37 W of heat <nil>
	// wiring: not known: name is "bilge pump", want the name of an element
}

// What do 2.5 m more of cable cost? Change one element, solve again.
func ExampleCircuit_Element() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := c.Element("cable out")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, length := range []units.Length{9.5, 12} {
		e.Cable.Length = length
		s, err := wiring.Solve(c, wiring.Conditions{Copper: units.Celsius(60)})
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := s.DropTo("windlass")
		fmt.Printf("%v out: %.2f V at the motor %v\n", length, r.AtLoad.Volts(), err)
	}
	// Output:
	// 9.5 m out: 11.41 V at the motor <nil>
	// 12 m out: 11.32 V at the motor <nil>
}

// What is wrong with a circuit is told once, before it is solved.
func ExampleNewSolver() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	c.Elements[2].Device.Resistance = -1
	_, err = wiring.NewSolver(c)
	fmt.Println(err)
	// Output:
	// wiring: value not accepted: Elements[2] (breaker).Device.Resistance is -1 Ω, want from 1e-09 Ω to 1000000000000 Ω
}

// Cold and warm copper, one solver and one Solution.
func ExampleSolver_Solve() {
	c, err := windlassCircuit()
	if err != nil {
		fmt.Println(err)
		return
	}
	sv, err := wiring.NewSolver(c)
	if err != nil {
		fmt.Println(err)
		return
	}
	var s wiring.Solution
	for _, copper := range []float64{20, 60, 90} {
		if err := sv.Solve(&s, wiring.Conditions{Copper: units.Celsius(copper)}); err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f °C: %.2f V at the motor\n", copper, (s.Nodes["motor +"] - s.Nodes["motor -"]).Volts())
	}
	// Output:
	// 20 °C: 11.50 V at the motor
	// 60 °C: 11.41 V at the motor
	// 90 °C: 11.34 V at the motor
}

// Dunlin's windlass as a network: what is between the bank and the motor while it hauls?
func ExampleWindlass_Circuit() {
	w, err := dunlin()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := wiring.Solve(c, wiring.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := s.DropTo("motor")
	for _, p := range r.Parts {
		fmt.Println(p.Name)
	}
	fmt.Println(err)
	// Output:
	// bank
	// isolator +
	// lug 1 of cable to breaker
	// cable to breaker
	// lug 2 of cable to breaker
	// breaker
	// lug 1 of cable forward
	// cable forward
	// lug 2 of cable forward
	// solenoid haul +
	// solenoid haul -
	// lug 1 of cable back
	// cable back
	// lug 2 of cable back
	// isolator -
	// <nil>
}
