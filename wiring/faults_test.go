package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// testWindlass is a 12 V windlass of 1 kW with 50 mm² at 9.5 m from the bank.
func testWindlass(t testing.TB) Windlass {
	t.Helper()
	motor, err := FitMotor(PermanentMagnet, 12*units.Volt,
		MotorPoint{Torque: 0, Current: 12, Speed: 300, NoLoad: true}, MotorPoint{Torque: 3.5, Current: 105, Speed: 220})
	if err != nil {
		t.Fatal(err)
	}
	motor.Load = 3
	band, err := PublishedBand(BandC, 100)
	if err != nil {
		t.Fatal(err)
	}
	small, err := PublishedBand(BandBlade, 3)
	if err != nil {
		t.Fatal(err)
	}
	return Windlass{
		Bank: Battery{
			Chemistry: AGM, Cells: 6, Capacity: 230 * units.AmpereHour,
			Resistance: 3 * units.Milliohm, Charge: 0.9, Temperature: units.Celsius(20),
		},
		Motor: motor,
		Cable: Cable{Conductor: Conductor{
			Size: "50 mm²", Area: 50 * units.SquareMillimetre, Resistance: 0.386e-3, Insulation: units.Celsius(70),
		}},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker:  Device{Kind: Breaker, Rating: 100, Resistance: 0.5 * units.Milliohm, Interrupting: 10000, Band: &band},
		Lug:      0.1 * units.Milliohm,
		Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Coil:        12 * units.Ohm,
		Control:     Conductor{Size: "1 mm²", Area: 1 * units.SquareMillimetre, Resistance: 19.5e-3, Insulation: units.Celsius(70)},
		ControlFuse: Device{Kind: Fuse, Rating: 3, Resistance: 30 * units.Milliohm, Interrupting: 1000, Band: &small},
		Switches:    []ControlSwitch{{Name: "deck", Length: 2 * units.Metre}, {Name: "cockpit", Length: 11 * units.Metre}},
		Hull:        &Hull{Positive: 1e6, Negative: 1e6, Case: 5e5, Bonding: 0.01},
	}
}

// lampCircuit is a bank, a fuse some way along the positive cable, and a lamp.
func lampCircuit(before, after units.Length) Circuit {
	wire := Conductor{Size: "2.5 mm²", Area: 2.5e-6, Resistance: 8.21e-3, Insulation: units.Celsius(70)}
	fuse := fuseOf(10, BandBlade)
	fuse.Resistance = 0.008
	return Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{
			Chemistry: AGM, Cells: 6, Capacity: 100 * units.AmpereHour, Resistance: 0.005, Charge: 1, OpenCircuit: 12.8,
		}},
		{Name: "cable to fuse", From: "+", To: "fuse in", Cable: &Cable{Conductor: wire, Length: before}},
		{Name: "fuse", From: "fuse in", To: "fuse out", Device: &fuse},
		{Name: "cable on", From: "fuse out", To: "lamp +", Cable: &Cable{Conductor: wire, Length: after}},
		{Name: "lamp", From: "lamp +", To: "lamp -", Load: &Load{Resistance: 4}},
		{Name: "cable back", From: "lamp -", To: "-", Cable: &Cable{Conductor: wire, Length: before + after}},
	}}
}

func cableOf(t *testing.T, r FaultReport, name string) CableFaults {
	t.Helper()
	for _, k := range r.Cables {
		if k.Cable == name {
			return k
		}
	}
	t.Fatalf("no cable %s", name)
	return CableFaults{}
}

func TestStudyFaultsByHand(t *testing.T) {
	c := lampCircuit(0.2, 6)
	r, err := StudyFaults(c, FaultStudy{})
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, r)
	// The cable on stands (115 x 2.5)² = 82.6 kA² s. A short at the fuse sees 12.8 V and what 40 °C add, over
	// the warm bank, 0.4 m of cable out and back and the fuse; the fuse opens within 0.1 s.
	on := cableOf(t, r, "cable on")
	near(t, "withstand", float64(on.Withstand), 82620, 200)
	volts, warm := 12.8+15*6*0.2e-3, 0.005*math.Pow(2, -15.0/43)
	ohm := warm + 0.4*8.21e-3 + 0.008 + 1e-5
	near(t, "most let-through", float64(on.LetThrough), 0.1*math.Pow(volts/ohm, 2), 50)
	if !on.Protected || !slices.Equal(on.Worst.Opened, []string{"fuse"}) || !on.Worst.Off {
		t.Errorf("%+v", on)
	}
	// 1.8 kA flow in a short before the fuse, and nothing stops it.
	before := cableOf(t, r, "cable to fuse")
	near(t, "current before the fuse", before.Left.Amperes(), volts/(warm+0.4*8.21e-3+1e-5), 1)
	if before.Protected || !strings.Contains(before.Because, "nothing interrupts") {
		t.Errorf("%+v", before)
	}
	if !slices.Equal(r.Unprotected, []string{"cable to fuse", "cable back"}) {
		t.Errorf("unprotected are %q", r.Unprotected)
	}
	// The smallest fault is at the lamp with copper at 70 °C and the weak bank.
	weak := *c.Elements[0].Battery
	weak.Charge, weak.Temperature, weak.OpenCircuit = 0.2, units.Celsius(-10), 0
	emf, err := weak.OpenCircuitVoltage()
	if err != nil {
		t.Fatal(err)
	}
	inside, err := weak.InternalResistance()
	if err != nil {
		t.Fatal(err)
	}
	fuse := r.Devices[0]
	near(t, "smallest", fuse.Smallest.Amperes(), emf.Volts()/(inside.Ohms()+0.008+1e-5+12.4*8.21e-3*304.5/254.5), 0.01)
	near(t, "largest", fuse.Largest.Amperes(), volts/(ohm-0.008+1e-5), 0.1) // a link in its place
	fault, err := FaultCurrents(c, "lamp +", "lamp -", FaultStudy{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "strong fault at the lamp", fault.High.Amperes(), volts/(warm+0.008+1e-5+12.4*8.21e-3), 0.01)
	near(t, "weak fault at the lamp", fault.Low.Amperes(), fuse.Smallest.Amperes(), 1e-6)
	if !fuse.Breaks || !fuse.Reached || fuse.Opens != 0.1 {
		t.Errorf("%+v", fuse)
	}
}

// A second bank feeds the fault from the far side of the first bank's fuse.
func TestStudyFaultsSecondSource(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements = append(c.Elements, Element{Name: "second bank", From: "lamp -", To: "lamp +", Battery: &Battery{
		Chemistry: AGM, Cells: 6, Capacity: 7 * units.AmpereHour, Resistance: 0.05, Charge: 1,
	}})
	r, err := StudyFaults(c, FaultStudy{})
	if err != nil {
		t.Fatal(err)
	}
	on := cableOf(t, r, "cable on")
	if on.Protected || len(on.Worst.Opened) > 1 || on.Worst.Off {
		t.Errorf("%+v", on)
	}
	if !slices.Contains(r.Unprotected, "cable on") {
		t.Errorf("unprotected are %q", r.Unprotected)
	}
	// With a fuse at its post it is protected.
	fuse := fuseOf(10, BandBlade)
	c.Elements[len(c.Elements)-1].To = "second +"
	c.Elements = append(c.Elements, Element{Name: "second fuse", From: "second +", To: "lamp +", Device: &fuse})
	if r, err = StudyFaults(c, FaultStudy{}); err != nil || slices.Contains(r.Unprotected, "cable on") {
		t.Errorf("unprotected are %q, error %v: %+v", r.Unprotected, err, r.Cables)
	}
}

func TestWindlassFaults(t *testing.T) {
	w := testWindlass(t)
	for _, does := range []Working{Resting, Hauling, Lowering} {
		c, err := w.Circuit(does)
		if err != nil {
			t.Fatal(err)
		}
		// Without a fuse at the bank nothing interrupts a short before the breaker. The
		// type test of the breaker promises nothing better than 120 s for the current
		// of a short at the bow, and that spoils the cable.
		r, err := StudyFaults(c, FaultStudy{})
		if err != nil {
			t.Fatal(err)
		}
		if want := []string{"cable to breaker", "cable forward", "cable back"}; !slices.Equal(r.Unprotected, want) {
			t.Errorf("%s: unprotected are %q", does, r.Unprotected)
		}
		// A fuse at the bank protects them all, down to the smallest fault.
		v := w
		fuse := fuseOf(160, BandBolted)
		v.Fuse = &fuse
		if c, err = v.Circuit(does); err != nil {
			t.Fatal(err)
		}
		if r, err = StudyFaults(c, FaultStudy{}); err != nil || len(r.Unprotected) > 0 {
			t.Errorf("%s: unprotected are %q, error %v", does, r.Unprotected, err)
		}
		for _, d := range r.Devices {
			// The fuse is quicker than the breaker has to be.
			if d.Reached != (d.Device != "breaker") || d.Reached == (d.Smallest == 0) || d.Largest <= d.Smallest {
				t.Errorf("%s: %+v", does, d)
			}
		}
	}
}

// Hauling and lowering draw the same current, and the motor sees the reverse voltage.
func TestWindlassReverses(t *testing.T) {
	w := testWindlass(t)
	volts := map[Working]float64{}
	for _, does := range []Working{Resting, Hauling, Lowering} {
		c, err := w.Circuit(does)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Solve(c, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		volts[does] = (s.Nodes["motor A"] - s.Nodes["motor B"]).Volts()
		coils := 0
		for _, name := range []string{"coil haul", "coil lower"} {
			b, err := s.Branch(name)
			if err != nil {
				t.Fatal(err)
			}
			if b.Current > 0.5 {
				coils++
			}
		}
		if want := map[Working]int{Resting: 0, Hauling: 1, Lowering: 1}[does]; coils != want {
			t.Errorf("%s: %d coils are on", does, coils)
		}
	}
	near(t, "resting", volts[Resting], 0, 0.01)
	near(t, "lowering", volts[Lowering], -volts[Hauling], 1e-6)
	if volts[Hauling] < 11 {
		t.Errorf("hauling at %v V", volts[Hauling])
	}
}

// With the solenoid away from the motor the leads between them take their share, whichever way it turns.
func TestWindlassLeads(t *testing.T) {
	w := testWindlass(t)
	w.ToMotor, w.Hull = 1.5*units.Metre, nil
	for _, does := range []Working{Hauling, Lowering} {
		c, err := w.Circuit(does)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Solve(c, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		b, err := s.Branch("motor")
		if err != nil {
			t.Fatal(err)
		}
		sum := func(from, to string) float64 { return math.Abs((s.Nodes[from] - s.Nodes[to]).Volts()) }
		lead := b.Current.Amperes() * (1.5*0.386e-3 + 2*0.1e-3)
		near(t, "lead A", sum("solenoid A", "motor A"), lead, 1e-9)
		near(t, "lead B", sum("solenoid B", "motor B"), lead, 1e-9)
		near(t, "at the motor", b.Drop.Volts(), sum("solenoid A", "solenoid B")-2*lead, 1e-9)
	}
}

// More elements than a study could get through are refused.
func TestStudyFaultsTooLarge(t *testing.T) {
	c := lampCircuit(0.2, 6)
	for len(c.Elements) <= 1000 {
		e := c.Elements[1]
		e.Name = fmt.Sprint("more ", len(c.Elements))
		c.Elements = append(c.Elements, e)
	}
	_, err := StudyFaults(c, FaultStudy{})
	if e := new(Error); !errors.As(err, &e) || !errors.Is(err, ErrInput) || e.Field != "Elements" {
		t.Errorf("error %v", err)
	}
}

// Without a band nothing can be said of a device, and without a source there is nothing to interrupt.
func TestStudyFaultsNeedsBands(t *testing.T) {
	c := lampCircuit(0.2, 6)
	bare := *c.Elements[2].Device
	bare.Band = nil
	c.Elements[2].Device = &bare
	_, err := StudyFaults(c, FaultStudy{})
	if e := new(Error); !errors.As(err, &e) || !errors.Is(err, ErrInput) || e.Field != "Elements[2] (fuse).Device.Band" {
		t.Errorf("error %v", err)
	}
	c.Elements = slices.Delete(lampCircuit(0.2, 6).Elements, 0, 1)
	r, err := StudyFaults(c, FaultStudy{})
	if err != nil || len(r.Unprotected) > 0 || len(r.Cables) != 3 || !strings.Contains(r.Cables[0].Because, "no fault drives a current") {
		t.Errorf("%+v, error %v", r, err)
	}
	for i, field := range []string{"plus", "minus", "WeakCharge"} {
		_, err := FaultCurrents(c, []string{"?", "+", "+"}[i], []string{"-", "?", "-"}[i], FaultStudy{WeakCharge: []float64{0, 0, 2}[i]})
		if e := new(Error); !errors.As(err, &e) || e.Field != field {
			t.Errorf("%s: error %v", field, err)
		}
	}
}

func TestCheckHull(t *testing.T) {
	w := testWindlass(t)
	both := []string{"isolator +", "isolator -"}
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	r, err := CheckHull(c, HullStudy{Node: "hull", Isolator: both, Least: 500e3})
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, r)
	// While hauling the winding, 500 kohm to the case, lies on the positive pole beside its 1 Mohm.
	near(t, "positive", r.Poles[0].Insulation.Ohms(), 1e6/3, 1000)
	near(t, "negative", r.Poles[1].Insulation.Ohms(), 1e6, 3000)
	// The meter lies beside 333 kohm, in series with 1 Mohm, and the other way round.
	volts := r.Poles[0].Current.Amperes() * 1e6 // the whole voltage
	beside := func(a, b float64) float64 { return volts * (a * 1e7 / (a + 1e7)) / (a*1e7/(a+1e7) + b) }
	near(t, "meter at the positive", r.Poles[0].Reads.Volts(), beside(1e6/3, 1e6), 0.01)
	near(t, "meter at the negative", r.Poles[1].Reads.Volts(), -beside(1e6, 1e6/3), 0.01)
	if !r.TwoWire || !r.TwoPole || r.Poles[0].Enough || !r.Poles[1].Enough || len(r.Findings) != 3 {
		t.Errorf("%+v", r)
	}
	// One pole of the isolator leaves the negative of motor and coils on the bank.
	if r, err = CheckHull(c, HullStudy{Node: "hull", Isolator: both[:1]}); err != nil || r.TwoPole || !slices.Equal(r.Live, []string{"motor B", "solenoid -"}) {
		t.Errorf("%+v, error %v", r, err)
	}
	// Bonded to the hull, a fault of the positive at the bank is a dead short before every device.
	w.Hull.Bond = units.Milliohm
	if c, err = w.Circuit(Hauling); err != nil {
		t.Fatal(err)
	}
	if r, err = CheckHull(c, HullStudy{Node: "hull", Isolator: both}); err != nil {
		t.Fatal(err)
	}
	if r.TwoWire || !r.Poles[1].Joined || r.Poles[0].Current < 2000 || len(r.Poles[0].Opens) > 0 {
		t.Errorf("%+v", r)
	}
	if study, err := StudyFaults(c, FaultStudy{}); err != nil || !slices.Contains(study.Unprotected, "cable to breaker") {
		t.Errorf("%+v, error %v", study, err)
	}
}

// Readings of a boat whose parts lie anywhere within the spread are within what is expected.
func TestExpectReadings(t *testing.T) {
	w := testWindlass(t)
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	probes := []Probes{
		{"bank +", "bank -"},
		{"breaker in", "breaker out"},
		{"breaker out", "solenoid -"},
		{"motor A", "motor B"},
		{"solenoid -", "bank -"},
	}
	meter := Voltmeter{Share: 0.005, Fixed: 2 * units.Millivolt}
	want, err := ExpectReadings(c, Conditions{}, probes, meter, Spread{})
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, want)
	r := rand.New(rand.NewPCG(1, 2))
	s := TypicalSpread()
	vary := func(share float64) float64 { return 1 + share*(2*r.Float64()-1) }
	outside, n := 0, 0
	for range 200 {
		boat := Circuit{Elements: slices.Clone(c.Elements), Reference: c.Reference}
		for i := range boat.Elements {
			e := &boat.Elements[i]
			switch {
			case e.Cable != nil:
				k := *e.Cable
				k.Conductor.Resistance = k.Conductor.Resistance.Scale(vary(s.Cable))
				e.Cable = &k
			case e.Contact != nil:
				k := *e.Contact
				k.Resistance = k.Resistance.Scale(vary(s.Contact))
				e.Contact = &k
			case e.Device != nil:
				k := *e.Device
				k.Resistance = k.Resistance.Scale(vary(s.Device))
				e.Device = &k
			case e.Battery != nil:
				k := *e.Battery
				k.Resistance = k.Resistance.Scale(vary(s.Source))
				e.Battery = &k
			case e.Motor != nil:
				k := *e.Motor
				k.Load = k.Load.Scale(vary(s.Load))
				e.Motor = &k
			}
		}
		solved, err := Solve(boat, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range want {
			v := (solved.Nodes[e.Probes.Red] - solved.Nodes[e.Probes.Black]).Volts()
			v *= vary(meter.Share)
			n++
			if v < e.Low.Volts() || v > e.High.Volts() {
				outside++
			}
		}
	}
	// Uniform errors, summed by squares of their limits, are seldom beyond it.
	if outside > n/20 {
		t.Errorf("%d of %d readings are outside", outside, n)
	}
	if p := want[3]; p.High-p.Low > 0.6 {
		t.Errorf("the motor's voltage is only known from %v to %v", p.Low, p.High)
	}
}

// An alternator and a lamp have spreads too: 14 V behind 0.1 ohm with a lamp of 1 ohm are 12.73 V; a fifth
// more of the one takes 0.227 V of it, a tenth more of the other gives 0.106 V.
func TestExpectReadingsOfLoads(t *testing.T) {
	c := Circuit{Elements: []Element{
		{Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 14, Limit: 50, Resistance: 0.1}},
		{Name: "lamp", From: "+", To: "-", Load: &Load{Resistance: 1}},
	}}
	want, err := ExpectReadings(c, Conditions{}, []Probes{{Red: "+", Black: "-"}}, Voltmeter{Share: 0.01, Fixed: 0.01}, Spread{})
	if err != nil {
		t.Fatal(err)
	}
	e := want[0]
	near(t, "volts", e.Volts.Volts(), 14/1.1, 1e-9)
	near(t, "model", e.Model.Volts(), math.Hypot(14/1.1-14/1.12, 14*1.1/1.2-14/1.1), 1e-9)
	near(t, "meter", e.Meter.Volts(), 0.14/1.1+0.01, 1e-9)
	near(t, "high", e.High.Volts(), (e.Volts + e.Model + e.Meter).Volts(), 1e-12)
	_, err = ExpectReadings(c, Conditions{}, []Probes{{Red: "+", Black: "?"}}, Voltmeter{}, Spread{})
	if x := new(Error); !errors.As(err, &x) || !errors.Is(err, ErrUnknown) || x.Field != "probes[0].Black" {
		t.Errorf("error %v", err)
	}
	// Of a load of constant power the reading is unknown when its spread is more than there is.
	c.Elements[0] = Element{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.5}}
	c.Elements[1].Load = &Load{Power: 70} // of 72 W that can be
	if _, err = ExpectReadings(c, Conditions{}, []Probes{{Red: "+", Black: "-"}}, Voltmeter{}, Spread{}); !errors.Is(err, ErrCollapse) || !strings.Contains(err.Error(), "end of its spread") {
		t.Errorf("error %v", err)
	}
	_, err = FindBadJoint(c, Conditions{}, []Reading{{Probes: Probes{Red: "?", Black: "-"}, Current: 1}}, Voltmeter{}, Ammeter{}, Spread{})
	if x := new(Error); !errors.As(err, &x) || !errors.Is(err, ErrUnknown) || x.Field != "readings[0].Probes.Red" {
		t.Errorf("error %v", err)
	}
}

// One lug is made bad; the readings find it.
func TestFindBadJoint(t *testing.T) {
	w := testWindlass(t)
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	boat := Circuit{Elements: slices.Clone(c.Elements), Reference: c.Reference}
	bad := slices.IndexFunc(boat.Elements, func(e Element) bool { return e.Name == "lug 2 of cable forward" })
	boat.Elements[bad].Contact = &Contact{Role: Lug, Resistance: 4 * units.Milliohm}
	s, err := Solve(boat, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	current, err := s.Branch("cable forward")
	if err != nil {
		t.Fatal(err)
	}
	var readings []Reading
	for _, p := range []Probes{
		{"bank +", "breaker in"},
		{"breaker in", "breaker out"},
		{"breaker out", "cable forward 2"},
		{"cable forward 2", "solenoid +"},
		{"solenoid -", "bank -"},
	} {
		readings = append(readings, Reading{Probes: p, Volts: s.Nodes[p.Red] - s.Nodes[p.Black], Current: current.Current})
	}
	found, err := FindBadJoint(c, Conditions{}, readings, Voltmeter{Share: 0.005, Fixed: units.Millivolt}, Ammeter{Share: 0.02, Fixed: 0.5}, Spread{})
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, found)
	if f := found[0]; f.Judgement != Bad || !slices.Equal(f.Parts, []string{"lug 2 of cable forward"}) {
		t.Errorf("%+v", f)
	}
	near(t, "resistance", found[0].Measured.Value.Milliohms(), 4, 1e-6)
	near(t, "excess", found[0].Excess.Milliohms(), 3.9, 1e-6)
	near(t, "heat", found[0].Heat.Watts(), 3.9e-3*math.Pow(current.Current.Amperes(), 2), 1e-3)
	if f := found[0].Measured; f.Low > 4*units.Milliohm || f.High < 4*units.Milliohm || f.High-f.Low > 0.4*units.Milliohm {
		t.Errorf("interval from %v to %v", f.Low, f.High)
	}
	for _, f := range found[1:] {
		if f.Judgement != Sound {
			t.Errorf("%+v", f)
		}
	}
	// Probes the wrong way round, and on nodes with nothing between them.
	odd := []Reading{{Probes{"breaker out", "breaker in"}, -0.05, 90}, {Probes{"bank +", "bank -"}, 12, 90}}
	odd[0].Probes, odd[0].Volts = Probes{"breaker in", "breaker out"}, -0.05
	found, err = FindBadJoint(c, Conditions{}, odd, Voltmeter{}, Ammeter{}, Spread{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if want := map[string]Judgement{"breaker in": Reversed, "bank +": Unmatched}[f.Reading.Probes.Red]; f.Judgement != want {
			t.Errorf("%+v, want %s", f, want)
		}
	}
}

// On a boat whose hull is the return, everything can touch it.
func TestStudyFaultsHullReturn(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements[len(c.Elements)-1] = Element{Name: "hull return", From: "lamp -", To: "-", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}}
	r, err := StudyFaults(c, FaultStudy{WarmBank: units.Celsius(25)})
	if err != nil {
		t.Fatal(err)
	}
	on := cableOf(t, r, "cable on")
	near(t, "let-through", float64(on.LetThrough), 0.1*math.Pow(12.8/(0.005+0.2*8.21e-3+0.008+1e-5), 2), 200)
	if !slices.Equal(r.Unprotected, []string{"cable to fuse"}) {
		t.Errorf("unprotected are %q", r.Unprotected)
	}
	// A negative that ends at once, by a busbar: a far fault is against its end.
	c.Elements[len(c.Elements)-1].Contact = &Contact{Role: Busbar, Resistance: units.Milliohm}
	if r, err = StudyFaults(c, FaultStudy{}); err != nil || cableOf(t, r, "cable on").Peak < 100 {
		t.Errorf("%+v, error %v", r, err)
	}
}

// What stays on is told from what a device interrupts.
func TestCheckHullSaysWhatOpens(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements = append(c.Elements,
		Element{Name: "earth", From: "-", To: "hull", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}})
	r, err := CheckHull(c, HullStudy{Node: "hull"})
	if err != nil || !strings.Contains(strings.Join(r.Findings, "; "), "and no device opens") {
		t.Errorf("%+v, error %v", r, err)
	}
	// With the fuse at the post, and the hull joined to what it feeds.
	fuse := *c.Elements[2].Device
	c.Elements = c.Elements[:len(c.Elements)-1]
	c.Elements = append(c.Elements,
		Element{Name: "post fuse", From: "-", To: "far", Device: &fuse},
		Element{Name: "wet", From: "far", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 20 * units.Milliohm}})
	if r, err = CheckHull(c, HullStudy{Node: "hull"}); err != nil || !strings.Contains(strings.Join(r.Findings, "; "), "opens [post fuse]") {
		t.Errorf("%+v, error %v", r, err)
	}
}

// A fault that opens the fuse when the bank is full need not when it is cold and low: 12.8 V over
// 0.934 ohm are 13.7 A, 11.9 V over 0.944 ohm 12.6 A, and the fuse must open from 13.5 A on.
func TestCheckHullAsksTheWeakBank(t *testing.T) {
	fuse := fuseOf(10, BandBlade)
	fuse.Resistance = 0.008
	for _, k := range []struct {
		wet  units.Resistance
		want []string
	}{{0.92, nil}, {0.7, []string{"post fuse"}}} {
		c := lampCircuit(0.2, 6)
		c.Elements = append(c.Elements,
			Element{Name: "post fuse", From: "-", To: "far", Device: &fuse},
			Element{Name: "wet", From: "far", To: "hull", Contact: &Contact{Role: Leakage, Resistance: k.wet}})
		r, err := CheckHull(c, HullStudy{Node: "hull"})
		if err != nil {
			t.Fatal(err)
		}
		p := r.Poles[0]
		near(t, "fault", p.Current.Amperes(), 12.8/(0.005+0.008+1e-5+float64(k.wet)), 1e-3)
		if p.Current < 13.5 || !slices.Equal(p.Opens, k.want) {
			t.Errorf("%+v, want %q to open", p, k.want)
		}
		// A bank of which only the voltage is known keeps that.
		b := *c.Elements[0].Battery
		b.Cells = 0
		c.Elements[0].Battery = &b
		if r, err = CheckHull(c, HullStudy{Node: "hull"}); err != nil || len(r.Poles[0].Opens) != 1 {
			t.Errorf("%+v, error %v", r, err)
		}
	}
}

// The interval of a resistance is that of the worst readings of both meters.
func TestFindBadJointInterval(t *testing.T) {
	c := lampCircuit(0.2, 6)
	found, err := FindBadJoint(c, Conditions{}, []Reading{{Probes{Red: "fuse in", Black: "fuse out"}, 0.1, 10}},
		Voltmeter{Share: 0.01, Fixed: units.Millivolt}, Ammeter{Share: 0.02, Fixed: 0.1}, Spread{})
	if err != nil {
		t.Fatal(err)
	}
	f := found[0]
	near(t, "low", f.Measured.Low.Ohms(), (0.1-0.002)/(10+0.3), 1e-12)
	near(t, "high", f.Measured.High.Ohms(), (0.1+0.002)/(10-0.3), 1e-12)
	near(t, "model low", f.Model.Low.Ohms(), 0.008*0.8, 1e-12)
	near(t, "model high", f.Model.High.Ohms(), 0.008*1.2, 1e-12)
	// The fuse may have 6.4 to 9.6 mohm. A reading that reaches more than 3.2 mohm beyond decides nothing.
	fine, coarse := Voltmeter{Share: 0.01, Fixed: units.Millivolt}, Voltmeter{Fixed: 50 * units.Millivolt}
	for _, c := range []struct {
		meter Voltmeter
		volts units.Voltage
		want  Judgement
	}{
		{fine, -0.08, Reversed},
		{fine, 0.05, TooLow},
		{fine, 0.06, TooLow},      // 5.7 to 6.35 mohm
		{fine, 0.0615, Sound},     // 5.8 to 6.5
		{fine, 0.08, Sound},       // 7.6 to 8.4
		{fine, 0.0955, Sound},     // 9.1 to 10.05, and the value within
		{fine, 0.0965, Suspect},   // 9.2 to 10.15, and the value beyond
		{fine, 0.1, Suspect},      // 9.5 to 10.6
		{fine, 0.12, Bad},         // 11.4 to 12.6
		{coarse, 0.02, Sound},     // -2.9 to 7.2: low enough, whatever it is
		{coarse, 0.07, Sound},     // 1.9 to 12.4
		{coarse, 0.08, Undecided}, // 2.9 to 13.4
		{coarse, 0.1, Suspect},    // 4.9 to 15.5
		{coarse, 0.16, Bad},       // 10.7 to 21.6
		{coarse, -0.04, TooLow},   // -9.3 to 1
	} {
		found, err := FindBadJoint(lampCircuit(0.2, 6), Conditions{}, []Reading{{Probes{Red: "fuse in", Black: "fuse out"}, c.volts, 10}},
			c.meter, Ammeter{Share: 0.02, Fixed: 0.1}, Spread{})
		if err != nil || found[0].Judgement != c.want {
			t.Errorf("%v: %+v, error %v, want %s", c.volts, found, err, c.want)
		}
	}
}

// A case is judged by its own insulation and bond, against sums by hand.
func TestCheckHullCases(t *testing.T) {
	w := testWindlass(t)
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	study := HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 600e3, Cases: []string{"windlass case"}}
	r, err := CheckHull(c, study)
	if err != nil {
		t.Fatal(err)
	}
	k := r.Cases[0]
	near(t, "insulation", k.Insulation.Ohms(), 500e3, 1e-6)
	near(t, "bonding", k.Bonding.Ohms(), w.Hull.Bonding.Ohms(), 1e-9)
	volts := r.Poles[0].Current.Amperes() * 1e6
	near(t, "leakage", r.Leakage.Amperes(), volts/(1e6+1e6/3), 1e-9)
	near(t, "fault", k.Current.Amperes(), volts/1e6, 1e-7)
	if k.Enough || !k.Bonded || len(k.Opens) > 0 || !strings.Contains(strings.Join(r.Findings, "; "), "windlass case has 500 kΩ to its winding") {
		t.Errorf("%+v", r)
	}
	// Joined to the negative, the fault opens the breaker; without a bond there is none.
	w.Hull.Bond = units.Milliohm
	if c, err = w.Circuit(Hauling); err != nil {
		t.Fatal(err)
	}
	if r, err = CheckHull(c, study); err != nil || !slices.Contains(r.Cases[0].Opens, "breaker") || r.Cases[0].Touch < units.Volt {
		t.Errorf("%+v, error %v", r, err)
	}
	// Lowering, the winding's terminal hangs on the negative and so on the hull: still the winding.
	if c, err = w.Circuit(Lowering); err != nil {
		t.Fatal(err)
	}
	if r, err = CheckHull(c, study); err != nil {
		t.Fatal(err)
	}
	near(t, "insulation while lowering", r.Cases[0].Insulation.Ohms(), 500e3, 1e-6)
	// A case that leaks to the hull is not bonded to it, and that says nothing of what is in it.
	w.Hull = &Hull{Positive: 1e6, Negative: 1e6}
	if c, err = w.Circuit(Hauling); err != nil {
		t.Fatal(err)
	}
	c.Elements = append(c.Elements, Element{Name: "box", From: "hull", To: "box", Contact: &Contact{Role: Leakage, Resistance: 1e6}})
	study.Cases = []string{"box"}
	if r, err = CheckHull(c, study); err != nil {
		t.Fatal(err)
	}
	roundTrip(t, r)
	if k := r.Cases[0]; k.Bonded || k.Enough || k.Insulation != 0 || k.Current != 0 || !strings.Contains(strings.Join(r.Findings, "; "), "what is in box is not known") {
		t.Errorf("%+v", r)
	}
	// What leaks from the wiring into it does: 750 kohm and 3 Mohm side by side.
	c.Elements = append(c.Elements,
		Element{Name: "wet lead", From: "solenoid +", To: "box", Contact: &Contact{Role: Leakage, Resistance: 750e3}},
		Element{Name: "wet return", From: "box", To: "bank -", Contact: &Contact{Role: Leakage, Resistance: 3e6}})
	if r, err = CheckHull(c, study); err != nil || !r.Cases[0].Enough {
		t.Fatalf("%+v, error %v", r, err)
	}
	near(t, "insulation of the box", r.Cases[0].Insulation.Ohms(), 600e3, 1e-6)
	// An engine block with a strap and nothing said of what is in it: only the strap is known.
	c.Elements = append(c.Elements, Element{Name: "strap", From: "engine", To: "hull", Contact: &Contact{Role: Bond, Resistance: 2 * units.Milliohm}})
	study.Cases = []string{"engine"}
	if r, err = CheckHull(c, study); err != nil {
		t.Fatal(err)
	}
	near(t, "strap", r.Cases[0].Bonding.Ohms(), 2e-3, 1e-12)
	if k := r.Cases[0]; !k.Bonded || k.Enough || k.Insulation != 0 || k.Current != 0 || len(k.Opens) > 0 {
		t.Errorf("%+v", k)
	}
	// Names as long as they may be, and one that the check would take for its own.
	c.Elements[len(c.Elements)-1].Name = strings.Repeat("s", 1000-len("enginehull"))
	c.Elements = append(c.Elements, Element{Name: "test", From: "engine", To: "block", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}})
	if r, err = CheckHull(c, study); err != nil || !r.Cases[0].Bonded {
		t.Errorf("%+v, error %v", r, err)
	}
	study.Cases = []string{"hull"}
	if _, err = CheckHull(c, study); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
}

// The wire on to the solenoid may have another length than the one to the switch.
func TestControlSwitchOn(t *testing.T) {
	for _, on := range []units.Length{0, 3} {
		w := testWindlass(t)
		w.Switches = []ControlSwitch{{Name: "deck", Length: 9, On: on}}
		c, err := w.Circuit(Hauling)
		if err != nil {
			t.Fatal(err)
		}
		want := on
		if on == 0 {
			want = 9
		}
		for name, l := range map[string]units.Length{"control wire to deck": 9, "control wire haul from deck": want, "control wire lower from deck": want} {
			e, err := c.Element(name)
			if err != nil {
				t.Fatal(err)
			}
			if e.Cable.Length != l {
				t.Errorf("On %v: %s is %v long, want %v", on, name, e.Cable.Length, l)
			}
		}
	}
	w := testWindlass(t)
	w.Switches = []ControlSwitch{{Name: "deck", Length: 9, On: -1}}
	if _, err := w.Circuit(Hauling); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
}
