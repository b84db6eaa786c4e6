package main

import (
	"fmt"
	"io"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	"example.com/forepeak/wiring/draw"
)

// electrics is what the report says of the windlass's circuit.
type electrics struct {
	windlass  wiring.Windlass // with the fuse that the bank needs, if any
	need      wiring.Requirement
	choice    wiring.Choice
	ampacity  []wiring.CableRating // of the chosen cable under each rule set that knows it
	current   units.Current        // while hauling
	drop      wiring.DropReport    // copper at 60 °C
	cold      wiring.DropReport    // copper at 10 °C
	compare   wiring.DropComparison
	stall     units.Current
	ride      wiring.Ride // start, haul and a stall of stallTime
	places    []wiring.Placement
	accepted  bool // by every rule that states a length
	fuse      *wiring.FuseProposal
	breaking  wiring.Interrupting
	unguarded []string // cables that nothing protects with the circuit as described
	guarded   []string // the same with the fuse
	hull      *wiring.HullReport
	readings  []wiring.Expected
	taken     wiring.Withdrawal
	shopping  []wiring.Item
	circuit   wiring.Circuit // while hauling, with the fuse
	solution  *wiring.Solution
}

const (
	coldCopper = 10.0
	stallTime  = 2 * units.Second // until somebody lifts the finger
	hotCopper  = 60.0
	lugs       = 0.1 * units.Milliohm // of each: practice, to be measured
)

func (f *boatFile) makeElectrics() (*electrics, error) {
	s := f.Electrics
	if s == nil {
		return nil, nil
	}
	e, err := s.design()
	if err != nil {
		return nil, fmt.Errorf("electrics: %w", err)
	}
	return e, nil
}

// design goes the way that an electrician does: the motor's current, the cable,
// the breaker, the place of the breaker, faults, and what is left to measure.
func (s *electricsSpec) design() (*electrics, error) {
	e := &electrics{}
	if err := s.chooseCable(e); err != nil {
		return nil, err
	}
	if err := s.protect(e); err != nil {
		return nil, err
	}
	return e, s.prove(e)
}

func (s *electricsSpec) chooseCable(e *electrics) error {
	motor, err := wiring.FitMotor(wiring.PermanentMagnet, s.System,
		wiring.MotorPoint{Current: s.NoLoad.Current, Speed: s.NoLoad.Speed, NoLoad: true},
		wiring.MotorPoint{Current: s.Rated.Current, Speed: s.Rated.Speed, Torque: s.Rated.Torque})
	if err != nil {
		return err
	}
	motor.Load = s.Pull
	if e.current, _, err = motor.Running(s.System); err != nil {
		return err
	}
	if e.stall, err = motor.StallCurrent(s.System); err != nil {
		return err
	}
	bank := wiring.Battery{
		Chemistry: s.Chemistry, Cells: s.Cells, Capacity: s.Capacity, Resistance: s.Resistance,
		Peukert: 1.2, Charge: 0.8,
	}
	stock, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		return err
	}
	stock = stock.WithInsulation(s.Insulation)
	open, err := bank.OpenCircuitVoltage()
	if err != nil {
		return err
	}
	e.need = wiring.Requirement{
		Stock: stock, Run: s.OneWay.Scale(2), Current: e.current, Copper: units.Celsius(hotCopper),
		System: s.System, MaxDrop: wiring.NonCriticalDrop,
		Supply: open - e.current.TimesResistance(s.Resistance), AtLoad: s.LeastVolts,
		Others: 6*lugs + 2*units.Milliohm, // lugs, breaker, isolator, solenoid
		Rules:  wiring.IEC60092,
		Duty:   []wiring.Spell{{Current: e.current, For: s.Haul}},
	}
	if e.choice, err = wiring.SizeConductor(e.need); err != nil {
		return err
	}
	cable := e.choice.Conductor
	for _, r := range wiring.AllRules() {
		if a, err := wiring.Ampacity(r, cable, wiring.Installation{Sheathed: s.Sheathed}); err == nil {
			e.ampacity = append(e.ampacity, a)
		}
	}
	if e.compare, err = wiring.CompareDrop(cable, e.need.Run, e.current, units.Celsius(hotCopper)); err != nil {
		return err
	}
	control, err := stock.Find("1.5 mm²")
	if err != nil {
		return err
	}
	small, err := wiring.PublishedBand(wiring.BandBlade, 3*units.Ampere)
	if err != nil {
		return err
	}
	e.windlass = wiring.Windlass{
		Bank: bank, Motor: motor, Cable: wiring.Cable{Conductor: cable, Installation: wiring.Installation{Sheathed: s.Sheathed}},
		ToBreaker: s.ToBreaker, OneWay: s.OneWay,
		Breaker: breakerOf(s.Breaker),
		Lug:     lugs, Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Coil: 12 * units.Ohm, Control: control,
		CtrlFuse: wiring.Device{Kind: wiring.Fuse, Rating: 3, Resistance: 30 * units.Milliohm, Interrupting: 1 * units.Kiloampere, Band: &small},
		Switches: []wiring.ControlSwitch{{Name: "foredeck", Length: 2 * units.Metre}, {Name: "cockpit", Length: s.OneWay + 2*units.Metre}},
	}
	if s.MetalHull {
		e.windlass.Hull = &wiring.Hull{Positive: units.Megohm, Negative: units.Megohm, Bonding: 10 * units.Milliohm, Case: units.Megohm}
	}
	return nil
}

// breakerOf is a thermal breaker of an invented make; the band of the breaker
// bought takes its place.
func breakerOf(rating units.Current) wiring.Device {
	return wiring.Device{
		Kind: wiring.Breaker, Rating: rating, Resistance: 0.6 * units.Milliohm, Interrupting: 5 * units.Kiloampere,
		Band: &wiring.Band{Name: "thermal breaker", Points: []wiring.BandPoint{
			{Multiple: 1.05, Earliest: units.Hour},
			{Multiple: 1.3, Earliest: 40 * units.Second, Latest: units.Hour},
			{Multiple: 2, Earliest: 6 * units.Second, Latest: 25 * units.Second},
			{Multiple: 4, Earliest: 0.8 * units.Second, Latest: 3 * units.Second},
		}},
	}
}

// protect judges the breaker's place under every rule set and, where one says
// that it is too far from the bank, adds a fuse there.
func (s *electricsSpec) protect(e *electrics) error {
	var err error
	if e.ride, err = wiring.RideThrough(e.windlass.Breaker, []wiring.Spell{
		{Current: e.stall, For: 0.3 * units.Second}, {Current: e.current, For: s.Haul}, {Current: e.stall, For: stallTime},
	}); err != nil {
		return err
	}
	if e.places, err = wiring.CheckPlacements(wiring.Place{Length: s.ToBreaker, Battery: true}); err != nil {
		return err
	}
	e.accepted = true
	for _, p := range e.places {
		if p.Place.Sheathed == s.Sheathed && p.Stated && !p.Accepted {
			e.accepted = false
		}
	}
	if e.breaking, err = wiring.InterruptingRule(s.System, s.Cranking, s.Capacity); err != nil {
		return err
	}
	if e.unguarded, err = e.unprotected(); err != nil {
		return err
	}
	if e.accepted {
		return nil
	}
	near, err := e.windlass.Bank.FaultCurrent()
	if err != nil {
		return err
	}
	weak := e.windlass.Bank
	weak.Charge, weak.Temperature = 0.2, units.Celsius(-10)
	open, err := weak.OpenCircuitVoltage()
	if err != nil {
		return err
	}
	inside, err := weak.InternalResistance()
	if err != nil {
		return err
	}
	cable := e.choice.Conductor
	hot, err := cable.ResistanceAt(units.Celsius(70))
	if err != nil {
		return err
	}
	far := open.PerResistance(inside + hot.TimesLength(s.ToBreaker.Scale(2)) + 4*lugs)
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		return err
	}
	p, err := wiring.ProposeFuse(wiring.SecondFuse{
		Breaker: e.windlass.Breaker, Cable: wiring.Cable{Conductor: cable, Length: s.ToBreaker},
		Rules: wiring.IEC60092, Ampacity: e.choice.Ampacity, System: s.System,
		Series: series, Band: wiring.BandBolted, Interrupting: e.breaking.Main, Resistance: 0.3 * units.Milliohm,
		Stall: e.stall, Near: near, Far: far,
	})
	if err != nil {
		return err
	}
	e.fuse = &p
	e.windlass.Fuse = &p.Fuse
	e.guarded, err = e.unprotected()
	return err
}

func (e *electrics) unprotected() ([]string, error) {
	c, err := e.windlass.Circuit(wiring.Hauling)
	if err != nil {
		return nil, err
	}
	r, err := wiring.StudyFaults(c, wiring.FaultStudy{})
	if err != nil {
		return nil, err
	}
	return r.Unprotected, nil
}

// prove solves the circuit as it will be built.
func (s *electricsSpec) prove(e *electrics) error {
	var err error
	if e.circuit, err = e.windlass.Circuit(wiring.Hauling); err != nil {
		return err
	}
	hot := wiring.Conditions{Copper: units.Celsius(hotCopper)}
	if e.solution, err = wiring.Solve(e.circuit, hot); err != nil {
		return err
	}
	if e.drop, err = e.solution.DropTo("motor"); err != nil {
		return err
	}
	cold, err := wiring.Solve(e.circuit, wiring.Conditions{Copper: units.Celsius(coldCopper)})
	if err != nil {
		return err
	}
	if e.cold, err = cold.DropTo("motor"); err != nil {
		return err
	}
	meter := wiring.Voltmeter{Share: 0.005, Fixed: 2 * units.Millivolt}
	if e.readings, err = wiring.ExpectReadings(e.circuit, hot, []wiring.Probes{
		{Red: "bank +", Black: "bank -"},
		{Red: "breaker in", Black: "breaker out"},
		{Red: "breaker out", Black: "solenoid +"},
		{Red: "motor A", Black: "motor B"},
		{Red: "solenoid -", Black: "bank -"},
	}, meter, wiring.Spread{}); err != nil {
		return err
	}
	taken, err := wiring.Retrieve(e.circuit, []wiring.Phase{{Name: "retrieval", At: hot, For: s.Haul}})
	if err != nil {
		return err
	}
	e.taken = taken[0]
	if s.MetalHull {
		if e.hull, err = wiring.CheckHull(e.circuit, wiring.HullStudy{
			Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 100 * units.Kilohm,
		}); err != nil {
			return err
		}
	}
	e.shopping, err = wiring.ShoppingList(e.circuit, wiring.Shop{})
	return err
}

func (p *plan) writeElectrics(t *printer) {
	e, s := p.electrics, p.boat.Electrics
	if e == nil {
		return
	}
	c := &e.choice
	t.line("")
	t.line("Windlass circuit: %.0f V, %.0f Ah, %.1f m one way, motor %.0f A hauling and %.0f A stalled",
		s.System.Volts(), s.Capacity.AmpereHours(), s.OneWay.Metres(), e.current.Amperes(), e.stall.Amperes())
	t.line("  cable %s, tinned, class 5 (%s governs): %.1f %% of %.0f V lost at 60 °C; %.1f kg",
		c.Conductor.Size, c.Governs, 100*c.Share, s.System.Volts(), c.Mass.Kilograms())
	if c.Down != nil {
		t.line("    one size down, %s: %.1f %%, fails %s", c.Down.Conductor.Size, 100*c.Down.Share, criteria(c.Down.Fails))
	}
	if c.Up != nil {
		t.line("    one size up, %s: %.1f %%, %.1f kg", c.Up.Conductor.Size, 100*c.Up.Share, c.Up.Mass.Kilograms())
	}
	for _, a := range e.ampacity {
		t.line("    %-14s lets it carry %.0f A%s", a.Rules, a.Current.Amperes(), unconfirmed(a.Kind == "memory"))
	}
	t.line("  at the motor %.2f V with hot copper, %.2f V with cold; on the way from the bank's %.2f V go:",
		e.drop.AtLoad.Volts(), e.cold.AtLoad.Volts(), e.drop.EMF.Volts())
	rest := e.drop.Total
	for _, d := range e.drop.Parts {
		if d.Share >= 0.03 {
			t.line("    %-24s %.2f V, %2.0f %%", d.Name, d.Drop.Volts(), 100*d.Share)
			rest -= d.Drop
		}
	}
	t.line("    %-24s %.2f V, %2.0f %%", "fuse, switches, lugs", rest.Volts(), 100*rest.Per(e.drop.Total))
	t.line("  a retrieval of %.0f min takes %.1f Ah; the bank sags to %.2f V", s.Haul.Minutes(), e.taken.Taken.AmpereHours(), e.taken.End.Volts())
	p.writeProtection(t)
	t.line("  a voltmeter on the working circuit should read:")
	for _, r := range e.readings {
		t.line("    %-11s to %-11s %6.2f V, from %.2f to %.2f V", r.Probes.Red, r.Probes.Black, r.Volts.Volts(), r.Low.Volts(), r.High.Volts())
	}
	t.line("  A bank drives thousands of amperes into a fault. Keep to the rules in force where the boat is, and")
	t.line("  have the work checked by a qualified marine electrician before it is switched on.")
}

func (p *plan) writeProtection(t *printer) {
	e, s := p.electrics, p.boat.Electrics
	t.line("  breaker %.0f A, %.1f m of %s cable from the bank (limits with ? are from memory):", s.Breaker.Amperes(), s.ToBreaker.Metres(), sheath(s.Sheathed))
	for i := 0; i+1 < len(e.places); i += 2 { // bare and sheathed of one rule set
		t.line("    %-14s bare: %s; sheathed: %s", e.places[i].Rules, verdict(e.places[i]), verdict(e.places[i+1]))
	}
	for _, name := range e.unguarded {
		t.line("    as it is, nothing interrupts a fault in: %s", name)
	}
	if f := e.fuse; f != nil {
		t.line("  so: a fuse of %.0f A at the bank, %.1f kA or more breaking capacity, with the breaker where it is",
			f.Fuse.Rating.Amperes(), e.breaking.Main.Kiloamperes())
		if !f.Selectivity.Full {
			t.line("    (in a long stall the fuse may open before the breaker)")
		}
		if len(e.guarded) == 0 {
			t.line("    with it every cable is protected")
		}
		for _, name := range e.guarded {
			t.line("    even so nothing interrupts a fault in: %s", name)
		}
	}
	t.line("  start, haul and a stall of %.0f s: the breaker %s", stallTime.Seconds(), ride(e.ride))
	if h := e.hull; h != nil {
		t.line("  metal hull: insulated two-wire %s, isolator opens both poles %s", yes(h.TwoWire), yes(h.TwoPole))
	}
}

// verdict is a rule set's answer to the breaker's place.
func verdict(v wiring.Placement) string {
	if !v.Stated {
		return "no length stated"
	}
	s := "too far"
	if v.Accepted {
		s = "accepted"
	}
	limit := "at any length"
	if v.Limit > 0 {
		limit = fmt.Sprintf("limit %.3v", v.Limit)
	}
	if !v.Confirmed {
		limit += "?"
	}
	return s + " (" + limit + ")"
}

func ride(r wiring.Ride) string {
	switch {
	case r.Holds:
		return "holds"
	case r.Opens:
		return "opens"
	}
	return "may open: let go of the button when the chain stops"
}

func criteria(cs []wiring.Criterion) string {
	s := ""
	for i, c := range cs {
		if i > 0 {
			s += ", "
		}
		s += string(c)
	}
	return s
}

func unconfirmed(b bool) string {
	if b {
		return " (from memory)"
	}
	return ""
}

func sheath(b bool) string {
	if b {
		return "sheathed"
	}
	return "bare"
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "NO"
}

func (p *plan) drawCircuit(w io.Writer) error {
	return draw.Diagram{Title: p.boat.Name + ": windlass circuit, hauling, copper at 60 °C", Circuit: p.electrics.circuit, Solution: p.electrics.solution}.WriteSVG(w)
}

func (p *plan) drawDrop(w io.Writer) error {
	return draw.Bars{Title: "Where the volts go", Report: p.electrics.drop}.WriteSVG(w)
}
