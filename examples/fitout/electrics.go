package main

import (
	"errors"
	"fmt"
	"io"
	"slices"

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
	stall     units.Current       // in this circuit: full bank, cold copper
	rating    units.Current       // least breaker for the motor's rated current
	near      units.Current       // into a short at the full bank's posts, through its fuse
	warm      units.Temperature   // of the copper at the end of a retrieval
	weakVolts units.Voltage       // at the motor from a cold bank at a third of its charge
	faults    *wiring.FaultReport // with the fuse
	ride      wiring.Ride         // start, haul and a stall of stallTime
	places    []wiring.Placement
	accepted  bool // by every rule that states a length
	fuse      *wiring.FuseProposal
	lesser    *wiring.FuseProposal // the next smaller rating, nil if the breaker's is larger
	far       units.Current        // into a short at the breaker, bank cold and low
	breaking  wiring.Interrupting
	unguarded []wiring.CableFaults // cables that nothing protects with the circuit as described
	hull      *wiring.HullReport
	readings  []wiring.Expected
	taken     wiring.Withdrawal
	shopping  []wiring.Item
	circuit   wiring.Circuit // while hauling, with the fuse
	solution  *wiring.Solution
}

const (
	coldCopper     = 10.0
	airTemperature = 30.0
	stallTime      = 2 * units.Second // until somebody lifts the finger
	hotCopper      = 60.0

	leastInsulation = 100 * units.Kilohm
	lugs            = 0.1 * units.Milliohm // of each: practice, to be measured
)

func (f *boatFile) makeElectrics() (*electrics, error) {
	s := f.Electrics
	if s == nil {
		return nil, nil
	}
	e, err := s.design()
	var named *fileError
	switch {
	case errors.As(err, &named):
		return nil, err // it names its field already
	case err != nil:
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
	if s.Breaker < e.current {
		return &fileError{"electrics.breaker", fmt.Sprintf("%.3v", s.Breaker), fmt.Sprintf("at least the %.0f A that the motor draws while it hauls", e.current.Amperes())}
	}
	bank := wiring.Battery{
		Chemistry: s.Chemistry, Cells: s.Cells, Capacity: s.Capacity, Resistance: s.Resistance,
		Peukert: s.Peukert, Charge: 0.8,
	}
	if err := s.checkBank(bank); err != nil {
		return err
	}
	inside, err := bank.InternalResistance()
	if err != nil {
		return err
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
		Supply: open - e.current.TimesResistance(inside), AtLoad: s.LeastVolts,
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
		Breaker: breakerOf(s.Breaker, s.Breaks),
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

// checkBank refuses a resistance that the bank's cranking current contradicts.
func (s *electricsSpec) checkBank(b wiring.Battery) error {
	most, err := wiring.ResistanceFromCranking(s.Cells, s.Cranking)
	if err != nil || b.Chemistry == wiring.LithiumPhosphate {
		return err
	}
	b.Charge, b.Temperature = 1, units.Celsius(-18)
	cold, err := b.InternalResistance()
	if err == nil && cold > most {
		return &fileError{"electrics.resistance", fmt.Sprintf("%.3v, %.3v at -18 °C", s.Resistance, cold), fmt.Sprintf("at most %.3v there, as electrics.cranking says", most)}
	}
	return err
}

// breakerOf is a thermal breaker of an invented make; the band of the breaker
// bought takes its place.
func breakerOf(rating, breaks units.Current) wiring.Device {
	return wiring.Device{
		Kind: wiring.Breaker, Rating: rating, Resistance: 0.6 * units.Milliohm, Interrupting: breaks,
		Band: &wiring.Band{Name: "thermal breaker", Points: []wiring.BandPoint{
			{Multiple: 1.05, Earliest: units.Hour},
			{Multiple: 1.3, Earliest: 40 * units.Second, Latest: units.Hour},
			{Multiple: 2, Earliest: 6 * units.Second, Latest: 25 * units.Second},
			{Multiple: 4, Earliest: 0.8 * units.Second, Latest: 3 * units.Second},
		}},
	}
}

// protect judges the breaker and its place under every rule set and, where one
// says that it is too far from the bank, adds a fuse there.
func (s *electricsSpec) protect(e *electrics) error {
	full := e.windlass
	full.Bank.Charge = 1 // the strongest fault, and the strongest stall
	c, err := full.Circuit(wiring.Hauling)
	if err != nil {
		return err
	}
	held, err := wiring.Solve(c, wiring.Conditions{Copper: units.Celsius(coldCopper), Standing: []string{"motor"}})
	if err != nil {
		return err
	}
	motor, err := held.Branch("motor")
	if err != nil {
		return err
	}
	e.stall = motor.Current.Abs()
	if e.ride, err = wiring.RideThrough(e.windlass.Breaker, []wiring.Spell{
		{Current: e.stall, For: 0.3 * units.Second}, {Current: e.current, For: s.Haul}, {Current: e.stall, For: stallTime},
	}); err != nil {
		return err
	}
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		return err
	}
	if e.rating, _, err = wiring.ChooseRating(wiring.IEC60092, s.Rated.Current, e.choice.Ampacity, s.System, series); err != nil {
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
	if e.near, err = full.Bank.FaultCurrent(); err != nil {
		return err
	}
	bare, err := wiring.StudyFaults(c, wiring.FaultStudy{})
	if err != nil {
		return err
	}
	for _, k := range bare.Cables {
		if !k.Protected {
			e.unguarded = append(e.unguarded, k)
		}
	}
	e.faults = bare
	if e.accepted {
		return nil
	}
	_, far, err := wiring.FaultCurrents(c, "breaker in", "bank -", wiring.FaultStudy{})
	if err != nil {
		return err
	}
	second := wiring.SecondFuse{
		Breaker: e.windlass.Breaker, Cable: wiring.Cable{Conductor: e.choice.Conductor, Length: s.ToBreaker},
		Rules: wiring.IEC60092, Ampacity: e.choice.Ampacity, System: s.System,
		Series: series, Band: wiring.BandBolted, Interrupting: max(e.breaking.Main, e.near), Resistance: 0.3 * units.Milliohm,
		Stall: e.stall, Near: e.near, Far: far,
	}
	p, err := wiring.ProposeFuse(second)
	if err != nil {
		return err
	}
	e.far = far
	if n := slices.Index(series, p.Fuse.Rating); n > 0 && series[n-1] >= s.Breaker {
		second.Series = series[:n]
		lesser, err := wiring.ProposeFuse(second)
		if err != nil {
			return err
		}
		e.lesser = &lesser
	}
	e.fuse, e.windlass.Fuse = &p, &p.Fuse
	full.Fuse = &p.Fuse
	if c, err = full.Circuit(wiring.Hauling); err != nil {
		return err
	}
	e.faults, err = wiring.StudyFaults(c, wiring.FaultStudy{})
	return err
}

// prove solves the circuit as it will be built.
func (s *electricsSpec) prove(e *electrics) error {
	var err error
	if e.circuit, err = e.windlass.Circuit(wiring.Hauling); err != nil {
		return err
	}
	// A short haul warms the copper little: it is what the meter will find, and
	// 60 °C is what the cable was sized for.
	air := units.Celsius(airTemperature)
	if e.warm, err = wiring.TemperatureAfter(e.choice.Conductor, air, air, wiring.Spell{Current: e.current, For: s.Haul}); err != nil {
		return err
	}
	hauling := wiring.Conditions{Copper: e.warm}
	hot := wiring.Conditions{Copper: units.Celsius(hotCopper)}
	if e.weakVolts, err = e.tired(hot); err != nil {
		return err
	}
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
	if e.readings, err = wiring.ExpectReadings(e.circuit, hauling, []wiring.Probes{
		{Red: "bank +", Black: "bank -"},
		{Red: "breaker in", Black: "breaker out"},
		{Red: "breaker out", Black: "solenoid +"},
		{Red: "motor A", Black: "motor B"},
		{Red: "solenoid -", Black: "bank -"},
	}, meter, wiring.Spread{}); err != nil {
		return err
	}
	taken, err := wiring.Retrieve(e.circuit, []wiring.Phase{{Name: "retrieval", At: hauling, For: s.Haul}})
	if err != nil {
		return err
	}
	e.taken = taken[0]
	if s.MetalHull {
		if e.hull, err = wiring.CheckHull(e.circuit, wiring.HullStudy{
			Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: leastInsulation,
			Cases: []string{"windlass case"},
		}); err != nil {
			return err
		}
	}
	e.shopping, err = wiring.ShoppingList(e.circuit, wiring.Shop{})
	return err
}

// tired is the voltage at the motor from a cold bank at a third of its charge.
func (e *electrics) tired(at wiring.Conditions) (units.Voltage, error) {
	w := e.windlass
	w.Bank.Charge, w.Bank.Temperature = 0.33, units.Celsius(5)
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		return 0, err
	}
	st, err := wiring.Solve(c, at)
	if err != nil {
		return 0, err
	}
	d, err := st.DropTo("motor")
	return d.AtLoad, err
}

func (p *plan) writeElectrics(t *printer) {
	e, s := p.electrics, p.boat.Electrics
	if e == nil {
		return
	}
	t.line("")
	t.line("Windlass circuit: %.0f V, %.0f Ah, %.1f m one way, motor %.0f A hauling and %.0f A when it is held fast",
		s.System.Volts(), s.Capacity.AmpereHours(), s.OneWay.Metres(), e.current.Amperes(), e.stall.Amperes())
	p.writeCable(t)
	p.writeProtection(t)
	t.line("  a voltmeter should read, hauling with %.0f A and copper at %.0f °C (clamp the current):", e.current.Amperes(), e.warm.Celsius())
	for _, r := range e.readings {
		t.line("    %-11s to %-11s %6.2f V, from %.2f to %.2f V", r.Probes.Red, r.Probes.Black, r.Volts.Volts(), r.Low.Volts(), r.High.Volts())
	}
	if h := e.hull; h != nil {
		t.line("  insulation, supply isolated and the motor's leads parted, by a tester: %.0f kΩ or more from each pole to the hull", leastInsulation.Kilohms())
		t.line("    and from the winding to its case, bond parted. Supply on, with all of 1 MΩ: hull to positive %.1f V, to negative %.1f V, %.0f µA through the hull",
			h.Poles[0].Reads.Volts(), -h.Poles[1].Reads.Volts(), 1000*h.Leakage.Milliamperes())
		for _, k := range h.Cases {
			t.line("    bond of the %s: %.0f mΩ; a fault of the winding to it drives %.2g mA, so only this test finds it", k.Node, k.Bonding.Milliohms(), k.Current.Milliamperes())
		}
	}
	p.writeShopping(t)
	t.line("  A bank drives thousands of amperes into a fault. Keep to the rules in force where the boat is, and")
	t.line("  have the work checked by a qualified marine electrician before it is switched on.")
}

func (p *plan) writeCable(t *printer) {
	e, s := p.electrics, p.boat.Electrics
	c := &e.choice
	t.line("  cable %s, tinned, class 5 (%s governs): %.1f %% of %.0f V lost from posts to motor at 60 °C; %.1f kg",
		c.Conductor.Size, c.Governs, 100*c.Share, s.System.Volts(), c.Mass.Kilograms())
	if c.Down != nil {
		t.line("    one size down, %s: %.1f %%, fails %s", c.Down.Conductor.Size, 100*c.Down.Share, criteria(c.Down.Fails))
	}
	if c.Up != nil {
		t.line("    one size up, %s: %.1f %%, %.1f kg", c.Up.Conductor.Size, 100*c.Up.Share, c.Up.Mass.Kilograms())
	}
	t.line("    it may carry, alone and outside engine spaces, at the rule's own air temperature:%s", e.ampacities())
	m := &e.compare
	t.line("    two short formulas in use show too little of it: the metric one by %.0f %% cold and %.0f %% hot, circular mils by %.0f %% and %.0f %%",
		100*m.MetricBelowCold, 100*m.MetricBelowHot, 100*m.CircularMilBelowCold, 100*m.CircularMilBelowHot)
	t.line("  at the motor %.2f V with copper at 60 °C, %.2f V at 10 °C, %.2f V from a tired cold bank%s",
		e.drop.AtLoad.Volts(), e.cold.AtLoad.Volts(), e.weakVolts.Volts(), short(e.weakVolts, s.LeastVolts))
	t.line("  on the way from the bank's %.2f V, where the volts go:", e.drop.EMF.Volts())
	rest := e.drop.Total
	for _, d := range e.drop.Parts {
		if d.Share >= 0.03 {
			t.line("    %-24s %.2f V, %2.0f %%", d.Name, d.Drop.Volts(), 100*d.Share)
			rest -= d.Drop
		}
	}
	t.line("    %-24s %.2f V, %2.0f %%", "fuse, switches, lugs", rest.Volts(), 100*rest.Per(e.drop.Total))
	t.line("  a retrieval of %.0f min takes %.1f Ah, which count as %.1f Ah, engine stopped; the bank sags from %.2f V to %.2f V",
		s.Haul.Minutes(), e.taken.Out.AmpereHours(), e.taken.Taken.AmpereHours(), e.taken.Begin.Volts(), e.taken.End.Volts())
}

func (e *electrics) ampacities() string {
	out := ""
	for i, a := range e.ampacity {
		if i > 0 {
			out += ","
		}
		out += fmt.Sprintf(" %s %.0f A", a.Rules, a.Current.Amperes())
		if a.Kind == "memory" {
			out += "?"
		}
	}
	return out
}

func short(got, least units.Voltage) string {
	if got < least {
		return fmt.Sprintf(": less than %.1f V, run the engine", least.Volts())
	}
	return ""
}

func (p *plan) writeShopping(t *printer) {
	e := p.electrics
	t.line("  to buy, with slack and a spare of each fuse; isolator and solenoid for %.0f A or more, coils for %.0f V:",
		p.boat.Electrics.Breaker.Amperes(), p.boat.Electrics.System.Volts())
	for _, item := range e.shopping {
		what := item.Kind
		if item.Role != "" {
			what = item.Role + " " + what
		}
		if item.Length > 0 {
			t.line("    %3.0f m %s, %s (%.1f m needed)", item.Length.Metres(), what, item.Size, item.Needed.Metres())
		} else {
			t.line("    %3d   %s, %s", item.Count, what, item.Size)
		}
	}
}

func (p *plan) writeProtection(t *printer) {
	e, s := p.electrics, p.boat.Electrics
	t.line("  breaker %.0f A (the motor's rated %.0f A asks for %.0f A), %.1f m of %s cable from the bank; ? from memory:",
		s.Breaker.Amperes(), s.Rated.Current.Amperes(), e.rating.Amperes(), s.ToBreaker.Metres(), sheath(s.Sheathed))
	for i := 0; i+1 < len(e.places); i += 2 { // unsheathed and sheathed of one rule set
		t.line("    %-14s unsheathed: %s; sheathed: %s", e.places[i].Rules, verdict(e.places[i]), verdict(e.places[i+1]))
	}
	if len(e.unguarded) > 0 {
		k := e.unguarded[0]
		t.line("    a short between the two cables on the first %.1f m drives %.1f kA, and nothing interrupts it",
			s.ToBreaker.Metres(), k.Peak.Kiloamperes())
	}
	if f := e.fuse; f != nil {
		t.line("  so: a bolted fuse of %.0f A as close to the bank's post as it will go, with the breaker where it is", f.Fuse.Rating.Amperes())
		t.line("    it must break the rule's %.1f kA and this bank's %.1f kA", e.breaking.Main.Kiloamperes(), e.near.Kiloamperes())
		if !f.Selectivity.Full {
			t.line("    in a long stall it may open before the breaker: the published bands prove them apart only up to %.0f A", f.Selectivity.UpTo.Amperes())
		}
		if l := e.lesser; l != nil {
			t.line("    %.0f A instead would be apart only up to %.0f A; the weakest short, %.1f kA, it opens in %.2g s at the latest, this one in %.2g s",
				l.Fuse.Rating.Amperes(), l.Selectivity.UpTo.Amperes(), e.far.Kiloamperes(), l.Opens.Latest.Seconds(), f.Opens.Latest.Seconds())
		}
		if len(e.faults.Unprotected) == 0 {
			t.line("    with it a short in any cable behind it is off before the copper is too hot")
		}
		for _, name := range e.faults.Unprotected {
			t.line("    even so nothing interrupts a short in: %s", name)
		}
	}
	for _, d := range e.faults.Devices {
		if !d.Breaks {
			t.line("    the %s cannot be relied on to break %.1f kA", d.Device, d.Largest.Kiloamperes())
		}
	}
	t.line("  start, haul and a stall of %.0f s: a breaker of the usual thermal band %s", stallTime.Seconds(), ride(e.ride))
	if e.hull != nil {
		t.line("  metal hull: built insulated two-wire with a two-pole isolator; the first fault to the hull opens nothing")
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
	limit := "any length"
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

func sheath(b bool) string {
	if b {
		return "sheathed"
	}
	return "unsheathed"
}

func (p *plan) drawCircuit(w io.Writer) error {
	return draw.Diagram{Title: p.boat.Name + ": windlass circuit, hauling, copper at 60 °C", Circuit: p.electrics.circuit, Solution: p.electrics.solution}.WriteSVG(w)
}

func (p *plan) drawControl(w io.Writer) error {
	return draw.Diagram{
		Title: p.boat.Name + ": control of the windlass, hauling", Circuit: p.electrics.circuit,
		Solution: p.electrics.solution, Show: draw.Control, Prefix: "control",
	}.WriteSVG(w)
}

func (p *plan) drawDrop(w io.Writer) error {
	return draw.Bars{Title: "Where the volts go", Report: p.electrics.drop}.WriteSVG(w)
}
