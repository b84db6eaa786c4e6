package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	"example.com/forepeak/wiring/draw"
)

// electrics is what the report says of the windlass's circuit.
type electrics struct {
	in        family
	windlass  wiring.Windlass // with the fuse that the bank needs, if any
	need      wiring.Requirement
	choice    wiring.Choice
	least     units.Area           // of a cable that breaker and fuse protect; 0: what the motor asks for does
	ampacity  []wiring.CableRating // of the chosen cable under each rule set that knows it
	current   units.Current        // while hauling
	drop      wiring.DropReport    // copper at 60 °C
	cold      wiring.DropReport    // copper at 10 °C
	stall     units.Current        // in this circuit: full bank, cold copper
	rating    units.Current        // least breaker for the motor's rated current
	near      units.Current        // into a short at the posts of the full warm bank
	warm      units.Temperature    // of the copper at the end of a retrieval
	weakVolts units.Voltage        // at the motor from a tired cold bank
	aided     units.Voltage        // the same with the engine running
	rules     wiring.Rules         // by which cable and fuse are judged
	faults    wiring.FaultReport   // with the fuse
	ride      wiring.Ride          // start, haul and a stall of stallTime
	places    []wiring.Placement
	accepted  bool // by every rule that states a length
	fuse      *wiring.FuseProposal
	lesser    *wiring.FuseProposal // the next smaller rating, nil if the breaker's is larger
	far       units.Current        // into a short between the cables at the breaker, bank cold and low
	breaking  wiring.Interrupting  // 0 where the rule has no class for the bank
	larger    *wiring.FuseProposal // with the next larger cable, nil if the stall is no matter or it helps nothing
	unguarded []wiring.CableFaults // cables that nothing protects with the circuit as described
	hull      *wiring.HullReport   // while hauling
	rest      *wiring.HullReport   // supply on, nothing pressed
	readings  []wiring.Expected
	taken     wiring.Withdrawal
	shopping  []wiring.Item
	circuit   wiring.Circuit  // while hauling, with the fuse
	solution  wiring.Solution // with the copper as warm as for the readings
	stallEnds units.Time      // the breaker opens a stall by then; 0: it need not
}

const (
	coldCopper     = 10.0
	airTemperature = 30.0
	stallTime      = 2 * units.Second // until somebody lifts the finger
	usualCharge    = 0.8
	tiredCharge    = 0.33
	tiredCelsius   = 5.0
	fuseResistance = 0.3 * units.Milliohm // of a bolted fuse at the bank
	switchLead     = 2 * units.Metre      // from the solenoid to the buttons on the foredeck, from the bank to those in the cockpit

	// leastInsulation is a practice, for a boat in use with damp in every terminal: no standard of small craft
	// that was found gives a number. IEC 60364-6 asks new wiring ashore of up to 50 V for newInsulation with the
	// same 250 V d.c. (read in a railway administration's table of it; older editions had half as much).
	leastInsulation = 100 * units.Kilohm
	newInsulation   = 500 * units.Kilohm

	controlPower = 12 * units.Watt // of the solenoid's coil
	// controlBreaks is what cartridge fuses break; blade fuses break 1 kA, less than the bank drives here.
	controlBreaks = 10 * units.Kiloampere
	perCell       = 2.35 * units.Volt // that the alternator's regulator holds
	perCellLFP    = 3.5 * units.Volt
	isolatorPole  = 0.2 * units.Milliohm
	contactPair   = 0.3 * units.Milliohm
	breakerPath   = 0.6 * units.Milliohm
	leak          = units.Megohm // of either pole to a metal hull
)

func (f *boatFile) makeElectrics(in family) (*electrics, error) {
	s := f.Electrics
	if s == nil {
		return nil, nil
	}
	e, err := s.design(in)
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
func (s *electricsSpec) design(in family) (*electrics, error) {
	e := &electrics{in: in}
	for {
		if err := s.chooseCable(e); err != nil {
			return nil, err
		}
		err := s.protect(e)
		if err == nil {
			return e, s.prove(e)
		}
		if !errors.Is(err, wiring.ErrRating) || e.choice.Up == nil {
			return nil, err
		}
		e.least = e.choice.Up.Conductor.Area // what the breaker cannot protect is too small, whatever it carries
	}
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
		Peukert: s.Peukert, Charge: usualCharge,
	}
	if err := s.checkBank(bank); err != nil {
		return err
	}
	inside, err := bank.InternalResistance()
	if err != nil {
		return err
	}
	stock, small, err := e.in.stock()
	if err != nil {
		return err
	}
	stock = stock.WithInsulation(s.Insulation)
	control, err := stock.Find(small)
	if err != nil {
		return err
	}
	stock = slices.DeleteFunc(stock, func(c wiring.Conductor) bool { return c.Area < e.least })
	open, err := bank.OpenCircuitVoltage()
	if err != nil {
		return err
	}
	blade, err := wiring.PublishedBand(wiring.BandBlade, 3*units.Ampere)
	if err != nil {
		return err
	}
	e.windlass = wiring.Windlass{
		Bank: bank, Motor: motor, Cable: wiring.Cable{Conductor: stock[len(stock)-1], Installation: wiring.Installation{Sheathed: s.Sheathed}},
		ToBreaker: s.ToBreaker, OneWay: s.OneWay,
		Breaker: breakerOf(s.Breaker, s.Breaks),
		Lug:     s.Lug, Isolator: isolatorPole, Contacts: contactPair,
		Coil: s.System.PerCurrent(controlPower.PerVoltage(s.System)), Control: control,
		ControlFuse: wiring.Device{Kind: wiring.Fuse, Rating: 3, Resistance: 30 * units.Milliohm, Interrupting: controlBreaks, Band: &blade},
		Switches: []wiring.ControlSwitch{
			{Name: "foredeck", Length: s.OneWay - s.ToBreaker + switchLead, On: switchLead},
			{Name: "cockpit", Length: s.ToBreaker + switchLead, On: s.OneWay + switchLead},
		},
	}
	if s.MetalHull {
		e.windlass.Hull = &wiring.Hull{Positive: leak, Negative: leak, Bonding: 10 * units.Milliohm, Case: leak}
	}
	e.rules = wiring.IEC60092
	if e.in.feet || s.Insulation < units.Celsius(80) { // its tables are metric, and begin there
		e.rules = wiring.E11
	}
	others, err := besideCable(e.windlass)
	if err != nil {
		return err
	}
	e.need = wiring.Requirement{
		Stock: stock, Run: s.OneWay.Scale(2), Current: e.current, Copper: s.Copper,
		System: s.System, MaxDrop: wiring.NonCriticalDrop,
		Supply: open - e.current.TimesResistance(inside), AtLoad: s.LeastVolts,
		Others: others,
		Rules:  e.rules,
		Duty:   []wiring.Spell{{Current: e.current, For: s.Haul}},
	}
	if e.choice, err = wiring.SizeConductor(e.need); err != nil {
		return err
	}
	cable := e.choice.Conductor
	e.windlass.Cable.Conductor = cable
	for _, r := range wiring.AllRules() {
		if a, err := wiring.Ampacity(r, cable, wiring.Installation{Sheathed: s.Sheathed}); err == nil {
			e.ampacity = append(e.ampacity, a)
		}
	}
	return nil
}

// besideCable is the resistance of lugs, devices, isolator and solenoid on the way to the motor and
// back, with a fuse at the bank whether or not it will need one.
func besideCable(w wiring.Windlass) (units.Resistance, error) {
	w.Fuse = &wiring.Device{Kind: wiring.Fuse, Rating: w.Breaker.Rating, Resistance: fuseResistance}
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		return 0, err
	}
	var sum units.Resistance
	for _, e := range c.Elements {
		k := e.Contact
		switch {
		case e.Control:
		case e.Device != nil:
			sum += e.Device.Resistance
		case k != nil && !k.Open && k.Role != wiring.Leakage && k.Role != wiring.Bond:
			sum += k.Resistance
		}
	}
	return sum, nil
}

// checkBank refuses a resistance that the bank's cranking current contradicts.
func (s *electricsSpec) checkBank(b wiring.Battery) error {
	if b.Chemistry == wiring.LithiumPhosphate {
		return nil
	}
	most, err := wiring.ResistanceFromCranking(s.Cells, s.Cranking)
	if err != nil {
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
		Kind: wiring.Breaker, Rating: rating, Resistance: breakerPath, Interrupting: breaks,
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
	open, err := e.windlass.Breaker.Band.Opening(e.windlass.Breaker.Rating, e.stall)
	if err != nil {
		return err
	}
	e.stallEnds = open.Latest
	series, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		return err
	}
	if e.rating, _, err = wiring.ChooseRating(e.rules, s.Rated.Current, e.choice.Ampacity, s.System, series); err != nil {
		return err
	}
	limit, err := wiring.LargestRating(e.rules, e.choice.Ampacity, s.System, series)
	if err != nil {
		return err
	}
	if s.Breaker > limit.Limit {
		return fmt.Errorf("%w: a breaker of %.3v does not protect %s, which allows %.3v", wiring.ErrRating, s.Breaker, e.choice.Conductor.Size, limit.Limit)
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
	if s.Chemistry != wiring.LithiumPhosphate && s.System <= 32*units.Volt {
		if e.breaking, err = wiring.InterruptingRule(s.System, s.Cranking, s.Capacity); err != nil && !errors.Is(err, wiring.ErrRange) {
			return err
		}
	}
	atBank, err := wiring.FaultCurrents(c, "bank +", "bank -", wiring.FaultStudy{})
	if err != nil {
		return err
	}
	e.near = atBank.High
	bare, err := wiring.StudyFaults(c, wiring.FaultStudy{})
	if err != nil {
		return err
	}
	e.unguarded = nil
	for _, k := range bare.Cables {
		if !k.Protected {
			e.unguarded = append(e.unguarded, k)
		}
	}
	e.faults = bare
	if e.accepted {
		return nil
	}
	fault, err := wiring.FaultCurrents(c, "breaker in", "", wiring.FaultStudy{})
	if err != nil {
		return err
	}
	second := wiring.SecondFuse{
		Breaker: e.windlass.Breaker, Cable: wiring.Cable{Conductor: e.choice.Conductor, Length: s.ToBreaker},
		Rules: e.rules, Ampacity: e.choice.Ampacity, System: s.System,
		Series: series, Band: wiring.BandBolted, Interrupting: max(e.breaking.Main, e.near), Resistance: fuseResistance,
		Stall: e.stall, Near: e.near, Far: fault.Low,
	}
	p, err := wiring.ProposeFuse(second)
	if err != nil {
		return err
	}
	e.far = fault.Low
	if n := slices.Index(series, p.Fuse.Rating); n > 0 && series[n-1] >= s.Breaker {
		second.Series = series[:n]
		lesser, err := wiring.ProposeFuse(second)
		if err != nil {
			return err
		}
		e.lesser = &lesser
	}
	if up := e.choice.Up; up != nil && p.Selectivity.UpTo < e.stall {
		second.Series, second.Ampacity, second.Cable.Conductor = series, up.Ampacity, up.Conductor
		if l, err := wiring.ProposeFuse(second); err == nil && l.Fuse.Rating > p.Fuse.Rating {
			e.larger = &l
		}
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
	hot := wiring.Conditions{Copper: s.Copper}
	motor, err := e.tired(hot, nil)
	if err != nil {
		return err
	}
	e.weakVolts = motor.Drop.Abs()
	if motor, err = e.tired(hot, &wiring.Alternator{
		Voltage: s.regulated(), Limit: s.charging(e.current), Resistance: 5 * units.Milliohm,
	}); err != nil {
		return err
	}
	e.aided = motor.Drop.Abs()
	if e.solution, err = wiring.Solve(e.circuit, hauling); err != nil {
		return err
	}
	warm, err := wiring.Solve(e.circuit, hot)
	if err != nil {
		return err
	}
	if e.drop, err = warm.DropTo("motor"); err != nil {
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
	taken, err := wiring.Withdraw(e.circuit, []wiring.Phase{{Name: "retrieval", At: hauling, For: s.Haul}})
	if err != nil {
		return err
	}
	e.taken = taken[0]
	if s.MetalHull {
		hull, err := wiring.CheckHull(e.circuit, wiring.HullStudy{
			Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: leastInsulation,
			Cases: []string{"windlass case"},
		})
		if err != nil {
			return err
		}
		e.hull = &hull
		rest, err := e.windlass.Circuit(wiring.Resting)
		if err != nil {
			return err
		}
		atRest, err := wiring.CheckHull(rest, wiring.HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}})
		if err != nil {
			return err
		}
		e.rest = &atRest
	}
	e.shopping, err = wiring.ShoppingList(e.circuit, wiring.Shop{})
	return err
}

// charging is what the alternator gives while the windlass hauls.
func (s *electricsSpec) charging(hauling units.Current) units.Current {
	if s.Alternator > 0 {
		return s.Alternator
	}
	return hauling.Scale(0.5)
}

// regulated is the voltage that the alternator's regulator holds.
func (s *electricsSpec) regulated() units.Voltage {
	cell := perCell
	if s.Chemistry == wiring.LithiumPhosphate {
		cell = perCellLFP
	}
	return cell.Scale(float64(s.Cells))
}

// tired is the motor on a cold bank that is low, and on the alternator if it turns.
func (e *electrics) tired(at wiring.Conditions, turns *wiring.Alternator) (wiring.Branch, error) {
	w := e.windlass
	w.Bank.Charge, w.Bank.Temperature = tiredCharge, units.Celsius(tiredCelsius)
	c, err := w.Circuit(wiring.Hauling)
	if err != nil {
		return wiring.Branch{}, err
	}
	if turns != nil {
		c.Elements = append(c.Elements, wiring.Element{Name: "alternator", From: "bank -", To: "bank +", Alternator: turns})
	}
	st, err := wiring.Solve(c, at)
	if err != nil {
		return wiring.Branch{}, err
	}
	return st.Branch("motor")
}

func (p *plan) writeElectrics(s *section) error {
	e, spec := p.electrics, p.boat.Electrics
	if e == nil {
		s.say("The boat file has no electrics.")
		return nil
	}
	s.say("%.0f V, %.0f Ah, %s one way; the motor draws %.0f A hauling and %.0f A when it is held fast.",
		spec.System.Volts(), spec.Capacity.AmpereHours(), p.in.long.say(spec.OneWay, 1), e.current.Amperes(), e.stall.Amperes())
	p.writeCable(s)
	p.writeProtection(s)
	p.writeReadings(s)
	for _, item := range e.shopping {
		s.buy(e.bought(spec, item))
	}
	e.assumptions(s, spec)
	s.figure(figure{"circuit.svg", "The circuit while it hauls", p.drawCircuit})
	s.figure(figure{"control.svg", "Its control", p.drawControl})
	s.figure(figure{"volts.svg", "Where the volts go", p.drawDrop})
	s.caution("A bank drives thousands of amperes into a fault. Keep to the rules in force where the boat is, and " +
		"have the work checked by a qualified marine electrician before it is switched on.")
	return nil
}

// assumptions are what nobody is asked for.
func (e *electrics) assumptions(s *section, spec *electricsSpec) {
	s.assume(fmt.Sprintf("Control wire: %s from the solenoid to the buttons on the foredeck and as much from the bank to those in the cockpit, %s on a cartridge fuse of 3 A; coils of %.0f W.", e.in.long.say(switchLead, 0), e.windlass.Control.Size, controlPower.Watts()))
	s.assume(fmt.Sprintf("Resistances: isolator %.1f mΩ a pole, solenoid %.1f mΩ a pair of contacts, breaker %.1f mΩ, bolted fuse %.1f mΩ.",
		isolatorPole.Milliohms(), contactPair.Milliohms(), breakerPath.Milliohms(), fuseResistance.Milliohms()))
	s.assume("The breaker is thermal, of a band that is usual; the band of the one you buy takes its place.")
	s.assume(fmt.Sprintf("Air of %s; a bank %.0f %% charged for the readings, and %.0f %% at %s when it is called tired.", e.in.temperature.say(units.Celsius(airTemperature), 0), 100*usualCharge, 100*tiredCharge, e.in.temperature.say(units.Celsius(tiredCelsius), 0)))
	s.assume(fmt.Sprintf("The alternator's regulator holds %.1f V.", spec.regulated().Volts()))
	if e.hull != nil {
		s.assume(fmt.Sprintf("Either pole leaks through %.0f MΩ to the hull, and so does the winding to its case, which is bonded by 10 mΩ.", leak.Megohms()))
	}
}

// bought is a line of the circuit's own list.
func (e *electrics) bought(spec *electricsSpec, item wiring.Item) purchase {
	p := purchase{kind: item.Kind, need: float64(item.Count), why: "windlass circuit"}
	switch {
	case item.Kind == "cable":
		p.what = fmt.Sprintf("cable %s, tinned, %s", item.Size, item.Role)
		p = e.in.length(p, item.Needed, 1*units.Metre)
	case item.Length > 0:
		p.what = item.Kind + " " + e.in.reword(item.Size)
		p = e.in.length(p, item.Needed, 1*units.Metre)
	default:
		p.what = item.Kind + " " + e.in.reword(item.Size)
	}
	switch item.Kind {
	case "fuse":
		p.why += ", one as a spare"
		p.what += e.breakingAt(item)
	case "breaker":
		p.what += e.breakingAt(item)
	case "clip":
		p.what = "cable " + p.what
	case "lug":
		if strings.HasPrefix(item.Size, e.choice.Conductor.Size+" ") {
			p.why += "; links between neighbours not counted"
		}
	case "isolator": // carries what the breaker lets pass, continuously, and a stall until it opens
		p.what += fmt.Sprintf(", %.0f A continuously and %s", spec.Breaker.Amperes(), e.stallFor())
	case "solenoid": // carries the haul, makes and breaks a stall
		p.what += fmt.Sprintf(", interlocked, %.0f V, %.0f A for %.0f min, %.0f A switched",
			spec.System.Volts(), e.current.Amperes(), spec.Haul.Minutes(), e.stall.Amperes())
	}
	return p
}

// mustBreak is what the device next to the bank has to break, in words.
func (e *electrics) mustBreak(device string) string {
	if e.breaking.Main == 0 {
		return fmt.Sprintf("The %s must break the %.1f kA of the bank, full and warm: ABYC E-11 has no class for such a bank by its cranking current.", device, e.near.Kiloamperes())
	}
	return fmt.Sprintf("The %s must break the rule's %.1f kA (ABYC E-11, by the bank's cranking current) and this bank's %.1f kA, full and warm.",
		device, e.breaking.Main.Kiloamperes(), e.near.Kiloamperes())
}

// first is the device next to the bank.
func (e *electrics) first() string {
	if e.fuse != nil {
		return "battery fuse"
	}
	return "breaker"
}

// breakingAt is what a device has to interrupt: the first one the greatest of the short, the bank's and the rule's
// for it, a breaker behind it the greater of the short and the rule's.
func (e *electrics) breakingAt(item wiring.Item) string {
	most := units.Current(0)
	for _, d := range e.faults.Devices {
		if slices.Contains(item.For, d.Device) {
			most = max(most, d.Largest)
			switch {
			case d.Device == e.first():
				most = max(most, e.near, e.breaking.Main)
			case item.Kind == string(wiring.Breaker):
				most = max(most, e.breaking.Branch)
			}
		}
	}
	return fmt.Sprintf(", breaking %.1f kA d.c.", math.Ceil(most.Kiloamperes()*10)/10)
}

// stallFor is what the parts before the motor carry while it is held.
func (e *electrics) stallFor() string {
	if e.stallEnds == 0 {
		return fmt.Sprintf("as long %.0f A", e.stall.Amperes())
	}
	return fmt.Sprintf("%.0f A for %.2g s", e.stall.Amperes(), e.stallEnds.Seconds())
}

func (p *plan) writeCable(s *section) {
	e, spec := p.electrics, p.boat.Electrics
	c := &e.choice
	s.head("Cable")
	chosen := "chosen: " + string(c.Governs) + " governs"
	if e.least > 0 {
		chosen = "chosen: breaker and fuse protect no smaller one"
	}
	t := table{
		Caption: fmt.Sprintf("Tinned cable%s with copper at %s; lost is from the bank's posts to the motor and back", map[bool]string{false: " of class 5"}[p.in.feet], p.in.temperature.say(spec.Copper, 0)),
		Head:    []string{"cable", "lost, % of the system", "cable, " + p.in.mass.name, "verdict"},
	}
	for _, o := range []struct {
		*wiring.Candidate
		verdict string
	}{{c.Down, ""}, {&c.Candidate, chosen}, {c.Up, "one size up"}} {
		if o.Candidate == nil {
			continue
		}
		if len(o.Fails) > 0 {
			o.verdict = "fails " + criteria(o.Fails)
		}
		t.Rows = append(t.Rows, row("%s|%.1f|%s|%s", o.Conductor.Size, 100*o.Share, p.in.mass.num(o.Mass, 1), o.verdict))
	}
	s.table(t)
	s.say("Alone, outside engine spaces and at each rule's own air temperature it may carry:%s (? is from memory).%s", e.ampacities(), spec.byTheEngine(c.Conductor, p.in))
	s.say("At the motor there are %.2f V with copper at %s, %.2f V at %s, and %.2f V from a tired cold bank (%.0f %% charged, %s; copper at %s).",
		e.drop.AtLoad.Volts(), p.in.temperature.say(spec.Copper, 0), e.cold.AtLoad.Volts(), p.in.temperature.say(units.Celsius(coldCopper), 0), e.weakVolts.Volts(), 100*tiredCharge, p.in.temperature.say(units.Celsius(tiredCelsius), 0), p.in.temperature.say(spec.Copper, 0))
	if e.weakVolts < spec.LeastVolts {
		s.warn("A tired cold bank leaves the windlass %.2f V, less than %.1f V: run the engine while it hauls. With %.0f A from the alternator there are %.2f V.",
			e.weakVolts.Volts(), spec.LeastVolts.Volts(), spec.charging(e.current).Amperes(), e.aided.Volts())
	} else {
		s.say("With the engine running and %.0f A from its alternator the tired bank leaves %.2f V.", spec.charging(e.current).Amperes(), e.aided.Volts())
	}
	t = table{Caption: fmt.Sprintf("Where the volts go, of the bank's %.2f V", e.drop.EMF.Volts()), Head: []string{"part", "V", "share"}}
	rest := e.drop.Total
	for _, d := range e.drop.Parts {
		if d.Share >= 0.03 {
			t.Rows = append(t.Rows, row("%s|%.2f|%.0f %%", d.Name, d.Drop.Volts(), 100*d.Share))
			rest -= d.Drop
		}
	}
	t.Rows = append(t.Rows, row("fuse, switches, lugs|%.2f|%.0f %%", rest.Volts(), 100*rest.Per(e.drop.Total)))
	s.table(t)
	s.say("A retrieval of %.0f min takes %.1f Ah, which count as %.1f Ah, engine stopped; the bank sags from %.2f V to %.2f V.",
		spec.Haul.Minutes(), e.taken.Out.AmpereHours(), e.taken.Taken.AmpereHours(), e.taken.Begin.Volts(), e.taken.End.Volts())
	s.say("The shopping list has the runs to the breaker, forward and back with their lugs. Links between neighbours, as from the bank to " +
		"the isolator, are not counted: they take the same cable, and two lugs each.")
	s.do("Wire the windlass with %s cable, %s one way: %.1f V at the motor.", c.Conductor.Size, p.in.long.say(spec.OneWay, 1), e.drop.AtLoad.Volts())
	s.check(measure, "Way of the cable with a string, bank to windlass", fmt.Sprintf("%s, of it %s to the breaker", p.in.long.say(spec.OneWay, 1), p.in.long.say(spec.ToBreaker, 1)))
	s.check(dryFit, "Cable of the size chosen through every hole and into every terminal", "it lies without strain, and the lugs seat flat")
}

// byTheEngine is what is left of the cable's rating in an engine space, in the rules that say so.
func (s *electricsSpec) byTheEngine(c wiring.Conductor, in family) string {
	a, err := wiring.Ampacity(wiring.E11, c, wiring.Installation{Sheathed: s.Sheathed, EngineSpace: true})
	if err != nil {
		return ""
	}
	return fmt.Sprintf(" Where it passes the engine, %.0f A by ABYC E-11 for insulation of %s.", a.Current.Amperes(), in.temperature.say(a.Column, 0))
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

func (p *plan) writeProtection(s *section) {
	e, spec := p.electrics, p.boat.Electrics
	s.head("Protection")
	s.say("The breaker of %.0f A (the motor's rated %.0f A asks for %.0f A) has %s of %s cable between it and the bank. "+
		"With a stall of %.0f s after a haul, a breaker of the usual thermal band %s.",
		spec.Breaker.Amperes(), spec.Rated.Current.Amperes(), e.rating.Amperes(), p.in.long.say(spec.ToBreaker, 1), sheath(spec.Sheathed), stallTime.Seconds(), ride(e.ride))
	t := table{Caption: "May the breaker be there? (? is from memory)", Head: []string{"rules", "unsheathed", "sheathed"}}
	for i := 0; i+1 < len(e.places); i += 2 { // unsheathed and sheathed of one rule set
		t.Rows = append(t.Rows, row("%s|%s|%s", e.places[i].Rules, verdict(e.places[i], p.in), verdict(e.places[i+1], p.in)))
	}
	s.table(t)
	s.say("33 CFR 183 is law in the United States, and there for boats with petrol (gasoline) inboard engines only; a boat with another engine may follow it.")
	switch {
	case e.fuse != nil && len(e.unguarded) > 0:
		s.warn("A short between the cables on the first %s drives %.1f to %.1f kA, and without a fuse at the bank nothing interrupts it.",
			p.in.long.say(spec.ToBreaker, 1), e.unguarded[0].Peak.Kiloamperes(), e.near.Kiloamperes())
	case e.fuse == nil:
		s.do("Put the breaker of %.0f A where it was planned, %s of %s cable from the bank: the rules that state a length ask for no fuse before it.",
			spec.Breaker.Amperes(), p.in.long.say(spec.ToBreaker, 2), sheath(spec.Sheathed))
		s.say("%s", e.mustBreak("breaker"))
		if most := max(e.near, e.breaking.Main); spec.Breaks < most {
			s.warn("The breaker is next to the bank and breaks %.1f kA, less than the %.1f kA that it has to.", spec.Breaks.Kiloamperes(), most.Kiloamperes())
		}
		if len(e.unguarded) > 0 {
			s.say("A short in that piece drives up to %.1f kA, and nothing interrupts it: keep it as short as can be, and guard it from chafe.", e.near.Kiloamperes())
		}
	}
	if f := e.fuse; f != nil {
		s.do("Put a bolted fuse of %.0f A as close to the bank's post as it will go, and the breaker of %.0f A where it was planned, %s of cable from the bank.",
			f.Fuse.Rating.Amperes(), spec.Breaker.Amperes(), p.in.long.say(spec.ToBreaker, 1))
		s.say("%s Its holder has to be made for it.", e.mustBreak("fuse"))
		if !f.Selectivity.Full {
			s.say("In a long stall it may open before the breaker: by the published bands the two are proved selective only up to %.0f A.", f.Selectivity.UpTo.Amperes())
		}
		if l := e.lesser; l != nil {
			sooner := "."
			if l.Opens.Latest < f.Opens.Latest {
				sooner = fmt.Sprintf("; the weakest short, %.1f kA, it opens in %.2g s at the latest, that of %.0f A in %.2g s.",
					e.far.Kiloamperes(), l.Opens.Latest.Seconds(), f.Fuse.Rating.Amperes(), f.Opens.Latest.Seconds())
			}
			s.say("A fuse of %.0f A would be selective only up to %.0f A%s", l.Fuse.Rating.Amperes(), l.Selectivity.UpTo.Amperes(), sooner)
		}
		if l := e.larger; l != nil {
			s.say("With %s cable it could be one of %.0f A, selective up to %.0f A.", e.choice.Up.Conductor.Size, l.Fuse.Rating.Amperes(), l.Selectivity.UpTo.Amperes())
		}
		if f.Fuse.Rating < spec.Breaker.Scale(1.25) {
			s.warn("A stall may open the fuse of %.0f A at the bank before the breaker of %.0f A: a larger cable allows a larger fuse.", f.Fuse.Rating.Amperes(), spec.Breaker.Amperes())
		}
		if len(e.faults.Unprotected) == 0 {
			s.say("With it, a short in any cable behind it is off before the copper is too hot.")
		}
		e.warnOfShorts(s)
	}
	for _, d := range e.faults.Devices {
		if !d.Breaks {
			s.warn("The %s cannot be relied on to break %.1f kA.", d.Device, d.Largest.Kiloamperes())
		}
	}
	s.say("Let haul and lower lock each other out in the solenoid, mechanically: with both coils on, as when foredeck and cockpit press together, its contacts short the bank.")
	if spec.Chemistry == wiring.LithiumPhosphate {
		e.writeManagement(s, spec)
	}
	if e.hull != nil {
		s.say("Metal hull: insulated two-wire with a two-pole isolator. The first fault to the hull opens nothing, so it has to be looked for.")
	}
}

// warnOfShorts tells of cables that a short can spoil in spite of the fuse: where nothing opens, and where
// what opens may by the slowest times of its band let more pass than the cable stands.
func (e *electrics) warnOfShorts(s *section) {
	type slow struct {
		opens     string
		withstand wiring.LetThrough
	}
	var order []slow
	names := map[slow][]string{}
	peak := map[slow]units.Current{}
	for _, k := range e.faults.Cables {
		if k.Protected {
			continue
		}
		opened := k.Worst.Opened
		if !k.Worst.Off || len(opened) == 0 {
			s.warn("Even with the fuse nothing interrupts a short in: %s.", k.Cable)
			continue
		}
		w := slow{opened[len(opened)-1], k.Withstand}
		if names[w] == nil {
			order = append(order, w)
		}
		names[w] = append(names[w], k.Cable)
		peak[w] = max(peak[w], k.Peak)
	}
	for _, w := range order {
		s.warn("A short of up to %.1f kA in %s: by the slowest times of its standard the %s lets more pass than the cable stands. Buy one whose maker states %.2g kA²s or less there, or take a larger cable.",
			peak[w].Kiloamperes(), strings.Join(names[w], ", "), w.opens, float64(w.withstand)/1000)
	}
}

// writeManagement is what the switch in a lithium bank must bear.
func (e *electrics) writeManagement(s *section, spec *electricsSpec) {
	asked := fmt.Sprintf("%.0f A for %.0f min and %s", e.current.Amperes(), spec.Haul.Minutes(), e.stallFor())
	const loses = "If it opens while the alternator charges, the voltage leaps and spoils diodes and electronics."
	switch {
	case spec.Carries == 0:
		s.warn("The lithium bank's own switch must carry %s, or it opens in the middle of a haul: ask its maker. %s", asked, loses)
	case spec.Carries < e.current || spec.Peak < e.stall:
		s.warn("The lithium bank's own switch carries %.0f A, and %.0f A for seconds, but the windlass asks for %s: it may open in the middle of a haul. %s",
			spec.Carries.Amperes(), spec.Peak.Amperes(), asked, loses)
	default:
		s.say("The lithium bank's own switch carries the haul and, for as long as its maker says, the stall (%s). %s", asked, loses)
	}
	s.say("Let what it warns with stop the charging first, or charge through a lead-acid battery that stays joined to the alternator; do not charge it below freezing.")
}

// writeReadings is what a voltmeter should show at the first run.
func (p *plan) writeReadings(s *section) {
	e := p.electrics
	s.head("What a voltmeter should read")
	if h := e.hull; h != nil {
		s.say("Supply on, nothing pressed and either pole's leak 1 MΩ, a meter of 10 MΩ shows %.1f V from hull to positive and %.1f V from hull to negative, and %.0f µA go through the hull. The pole that shows less leaks more: near 0 V it lies on the hull.",
			e.rest.Poles[0].Reads.Volts(), -e.rest.Poles[1].Reads.Volts(), 1000*e.rest.Leakage.Milliamperes())
		s.say("Insulation is tested with 250 V d.c., as is practice for extra-low voltage: only on wiring that is cut off, with the battery, " +
			"electronics, chargers and suppressors disconnected, for it would destroy them; and not above what the motor's maker allows.")
		s.say("%.0f kΩ is a practice for a boat in use, no rule's number. New and dry, expect more than the %.0f kΩ that IEC 60364-6 asks for ashore at this voltage; write down what is read, for less than the year before is a leak on its way.",
			leastInsulation.Kilohms(), newInsulation.Kilohms())
		enough := fmt.Sprintf("%.0f kΩ or more (practice); new, %.0f kΩ", leastInsulation.Kilohms(), newInsulation.Kilohms())
		s.check(firstRun, "Before anything is switched on: supply isolated, motor's leads parted, electronics off the circuit, insulation tester at 250 V d.c. from each pole to the hull", enough)
		for _, k := range h.Cases {
			s.say("A fault of the winding to the %s drives %.2g mA through its bond of %.0f mΩ: no fuse sees it, only the insulation test.",
				k.Node, k.Current.Milliamperes(), k.Bonding.Milliohms())
			s.check(firstRun, fmt.Sprintf("The same from the motor's winding to the %s, bond parted", k.Node), enough)
		}
	}

	t := table{
		Caption: fmt.Sprintf("Hauling with %.0f A (clamp the current), engine and chargers off, copper at %s", e.current.Amperes(), p.in.temperature.say(e.warm, 0)),
		Head:    []string{"red on", "black on", "V", "from, V", "to, V"},
	}
	for _, r := range e.readings {
		t.Rows = append(t.Rows, row("%s|%s|%.2f|%.2f|%.2f", r.Probes.Red, r.Probes.Black, r.Volts.Volts(), r.Low.Volts(), r.High.Volts()))
		s.check(firstRun, fmt.Sprintf("Hauling, voltmeter red on %s, black on %s", r.Probes.Red, r.Probes.Black),
			fmt.Sprintf("%.2f V (%.2f to %.2f V)", r.Volts.Volts(), r.Low.Volts(), r.High.Volts()))
	}
	s.table(t)
}

// verdict is a rule set's answer to the breaker's place.
func verdict(v wiring.Placement, in family) string {
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
		if in.feet {
			limit = "limit " + in.small.short(v.Limit, 0)
		}
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

// drawnAs is the title of a drawing that shows what the voltmeter should read.
func (p *plan) drawnAs(what string) string {
	return fmt.Sprintf("%s: %s, hauling, copper at %s, volts against %s", p.boat.Name, what, p.in.temperature.say(p.electrics.warm, 0), p.electrics.circuit.Reference)
}

func (p *plan) drawCircuit(w io.Writer) error {
	return draw.Diagram{Title: p.drawnAs("windlass circuit"), Circuit: p.electrics.circuit, Solution: &p.electrics.solution, Imperial: p.in.feet}.WriteSVG(w)
}

func (p *plan) drawControl(w io.Writer) error {
	return draw.Diagram{
		Title: p.drawnAs("control of the windlass"), Circuit: p.electrics.circuit,
		Solution: &p.electrics.solution, Show: draw.Control, Imperial: p.in.feet, Prefix: "control",
	}.WriteSVG(w)
}

func (p *plan) drawDrop(w io.Writer) error {
	title := fmt.Sprintf("Where the volts go, copper at %s", p.in.temperature.say(p.boat.Electrics.Copper, 0))
	return draw.Bars{Title: title, Report: p.electrics.drop}.WriteSVG(w)
}
