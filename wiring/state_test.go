package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// A solver that has worked before, and a solution that has held another answer, give what new ones give, to the last bit.
func TestSolverUsedAgain(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 15))
	var st Solution
	solved := 0
	for range 60 {
		c := randomCircuit(rng, 2+rng.IntN(15), true)
		used, err := NewSolver(c)
		if err != nil {
			t.Fatal(err)
		}
		for range 6 {
			var at Conditions
			for _, e := range c.Elements {
				if rng.IntN(8) == 0 {
					at.Open = append(at.Open, e.Name)
				}
				if e.Motor != nil && rng.IntN(3) == 0 {
					at.Standing = append(at.Standing, e.Name)
				}
			}
			if rng.IntN(2) == 0 {
				at.Copper = units.Celsius(100 * rng.Float64())
			}
			want, err := Solve(c, at)
			again := used.Solve(&st, at)
			if fmt.Sprint(err) != fmt.Sprint(again) {
				t.Fatalf("error %v, before %v", again, err)
			}
			if err != nil {
				continue
			}
			solved++
			if !reflect.DeepEqual(st, want) {
				t.Fatalf("%+v\nwant %+v", st, want)
			}
		}
	}
	if solved < 200 {
		t.Errorf("only %d solved", solved)
	}
}

// A load is dark below a twentieth of the highest source voltage. There it is a resistance, that which takes its current or
// power at the twentieth: the voltage is that of a divider.
func TestDarkLoads(t *testing.T) {
	battery := func(name, from, to string, e units.Voltage) Element {
		return Element{Name: name, From: from, To: to, Battery: &Battery{Chemistry: AGM, OpenCircuit: e, Charge: 1, Resistance: 1e-6}}
	}
	for _, k := range []struct {
		name    string
		source  []Element
		highest float64
	}{
		{"a battery", []Element{battery("bank", "-", "+", 12)}, 12},
		{"an alternator", []Element{{Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 12, Limit: 100, Resistance: 1e-6}}}, 12},
		{"a greater battery first", []Element{battery("other", "x", "y", 48), battery("bank", "-", "+", 12)}, 48},
		{"a greater battery last", []Element{battery("bank", "-", "+", 12), battery("other", "x", "y", 48)}, 48},
		{"a greater alternator last", []Element{battery("bank", "-", "+", 12), {Name: "other", From: "x", To: "y", Alternator: &Alternator{Voltage: 48, Limit: 100, Resistance: 1e-6}}}, 48},
	} {
		low := k.highest / 20
		for _, share := range []float64{0.3, 0.99, 1.01} {
			// Without the load the divider gives twice the voltage that is wanted, from 1 ohm.
			volts := share * low
			for name, e := range map[string]Element{
				"resistance": {Load: &Load{Resistance: 1}},
				"motor":      {Motor: &Motor{Type: PermanentMagnet, Flux: 1e-3, Resistance: 1, Efficiency: 1, Load: 1e6}},
			} {
				e.Name, e.From, e.To = "load", "node", "-"
				c := Circuit{Elements: append([]Element{}, k.source...)}
				c.Elements = append(c.Elements, e,
					Element{Name: "long wire", From: "+", To: "node", Contact: &Contact{Role: Leakage, Resistance: units.Resistance(12/volts - 1)}})
				s, err := Solve(c, Conditions{})
				if err != nil {
					t.Fatal(err)
				}
				b, err := s.Branch("load")
				if err != nil {
					t.Fatal(err)
				}
				near(t, k.name+", "+name, b.Drop.Volts(), volts, 1e-4*volts)
				want := Normal
				if name == "motor" {
					want = Stalled
				}
				if share < 1 {
					want = Dark
				}
				if b.State != want {
					t.Errorf("%s, %s at %v V of %v: state %q, want %q", k.name, name, b.Drop, low, b.State, want)
				}
			}
		}
		// Dark without any load on it too, so no collapse.
		for name, l := range map[string]Load{"current": {Current: 0.5}, "power": {Power: units.Power(0.5 * low)}} {
			const far = 3.0
			volts := 0.9 * low // without the load
			siemens := 0.5 / low
			near1 := far * volts / (12 - volts) // ohm of the lower half
			c := Circuit{Elements: append([]Element{}, k.source...)}
			c.Elements = append(c.Elements,
				Element{Name: "wet", From: "+", To: "node", Contact: &Contact{Role: Leakage, Resistance: far}},
				Element{Name: "puddle", From: "node", To: "-", Contact: &Contact{Role: Leakage, Resistance: units.Resistance(near1)}},
				Element{Name: "load", From: "node", To: "-", Load: &l})
			for _, reversed := range []float64{1, -1} {
				s, err := Solve(c, Conditions{})
				if err != nil {
					t.Fatalf("%s, %s: %v", k.name, name, err)
				}
				b, err := s.Branch("load")
				if err != nil {
					t.Fatal(err)
				}
				want := 12 / far / (1/far + 1/near1 + siemens)
				near(t, k.name+", "+name+": volts", b.Drop.Volts(), reversed*want, 1e-5*want)
				near(t, k.name+", "+name+": amperes", b.Current.Amperes(), reversed*want*siemens, 1e-5*want*siemens)
				if b.State != Dark {
					t.Errorf("%s, %s: state %q", k.name, name, b.State)
				}
				last := &c.Elements[len(c.Elements)-1]
				last.From, last.To = last.To, last.From
			}
		}
	}
}

// A battery that is switched off has no say in what is dark.
func TestDarkBesideAnOpenBattery(t *testing.T) {
	bank := func(name string) Element {
		return Element{Name: name, From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.01}}
	}
	c := Circuit{Elements: []Element{
		bank("on"), bank("off"),
		{Name: "wet", From: "+", To: "node", Contact: &Contact{Role: Leakage, Resistance: 29}},
		{Name: "puddle", From: "node", To: "-", Contact: &Contact{Role: Leakage, Resistance: 1}}, // 0.4 V
		{Name: "beacon", From: "node", To: "-", Load: &Load{Power: 5}},
	}}
	s, err := Solve(c, Conditions{Open: []string{"off"}})
	if err != nil {
		t.Fatal(err)
	}
	if b, err := s.Branch("beacon"); err != nil || b.State != Dark {
		t.Errorf("%+v, error %v", b, err)
	}
	if b, err := s.Branch("off"); err != nil || b.State != Off || b.Current != 0 || b.EMF != 12 {
		t.Errorf("%+v, error %v", b, err)
	}
}

// Without a source nothing flows, whatever the loads are.
func TestNoSource(t *testing.T) {
	c := Circuit{Reference: "b", Elements: []Element{
		{Name: "wire", From: "a", To: "b", Contact: &Contact{Role: Terminal, Resistance: 0.1}},
		{Name: "lamp", From: "a", To: "b", Load: &Load{Resistance: 1}},
		{Name: "pump", From: "a", To: "b", Load: &Load{Current: 2}},
		{Name: "radio", From: "b", To: "a", Load: &Load{Power: 20}},
		{Name: "windlass", From: "a", To: "b", Motor: &Motor{Type: PermanentMagnet, Flux: 0.1, Resistance: 0.1, Efficiency: 1, Load: 1}},
	}}
	s, err := Solve(c, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	for i, b := range s.Branches {
		if b.Current != 0 || b.Drop != 0 || b.Power != 0 || b.Speed != 0 || (b.State == Dark) != (i > 0) {
			t.Errorf("%+v", b)
		}
	}
	// So does a boat whose only battery is switched off.
	c.Elements = append(c.Elements, Element{Name: "bank", From: "b", To: "a", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.1}})
	if s, err = Solve(c, Conditions{Open: []string{"bank"}}); err != nil {
		t.Fatal(err)
	}
	for _, b := range s.Branches {
		if b.Current != 0 || math.Abs(b.Drop.Volts()) > 0 {
			t.Errorf("%+v", b)
		}
	}
}

// The zero of the voltages: the reference in its island, the From node of the first source in the others.
func TestZeroOfEachIsland(t *testing.T) {
	contact := func(name, from, to string) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: Terminal, Resistance: 1}}
	}
	battery := func(name, from, to string) Element {
		return Element{Name: name, From: from, To: to, Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 1}}
	}
	c := Circuit{Elements: []Element{
		contact("a to b", "a", "b"), contact("b to c", "b", "c"), battery("bank", "c", "d"), contact("d to a", "d", "a"),
		contact("w to x", "w", "x"), contact("x to y", "x", "y"), battery("bank 2", "y", "z"), contact("z to w", "z", "w"),
		contact("p to q", "p", "q"),
	}}
	// 3 A go round each ring of 4 ohm.
	for _, k := range []struct {
		reference string
		volts     map[string]float64
	}{
		{"", map[string]float64{"c": 0, "b": 3, "a": 6, "d": 9}},
		{"a", map[string]float64{"c": -6, "b": -3, "a": 0, "d": 3}},
		{"x", map[string]float64{"c": 0, "d": 9, "x": 0, "y": -3, "w": 3, "z": 6}},
		{"p", map[string]float64{"c": 0, "d": 9}}, // nothing feeds that island
	} {
		c.Reference = k.reference
		s, err := Solve(c, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		if k.reference != "x" {
			k.volts["y"], k.volts["x"], k.volts["w"], k.volts["z"] = 0, 3, 6, 9
		}
		k.volts["p"], k.volts["q"] = 0, 0
		for node, want := range k.volts {
			near(t, "node "+node+" against "+k.reference, s.Nodes[node].Volts(), want, 1e-9)
		}
	}
}

// How much of a power reaches the load: at most E²/4r, 360 W behind 0.1 ohm, of what is asked.
func TestCollapseSaysHowMuch(t *testing.T) {
	for _, asked := range []float64{361, 400, 720, 3600} {
		_, err := Solve(oneLoad(12, 0.1, Element{Load: &Load{Power: units.Power(asked)}}), Conditions{})
		e := new(Error)
		if !errors.Is(err, ErrCollapse) || !errors.As(err, &e) || e.Field != "Elements[1] (load).Load.Power" {
			t.Fatalf("error %v", err)
		}
		var share float64
		if _, err := fmt.Sscanf(e.Want, "no more than %g of it", &share); err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("share of %v W", asked), share, 360/asked, 3e-6)
	}
	// Two loads alike; a third that is off is not to blame, and what is not asked for is found.
	c := oneLoad(12, 0.1, Element{Load: &Load{Power: 360}})
	c.Elements = append([]Element{{Name: "off", From: "+", To: "-", Load: &Load{Power: 1e4}}}, append(c.Elements, Element{Name: "other", From: "+", To: "-", Load: &Load{Power: 360}})...)
	_, err := Solve(c, Conditions{Open: []string{"off"}})
	if e := new(Error); !errors.As(err, &e) || e.Field != "Elements[2] (load).Load.Power" || !strings.HasPrefix(e.Want, "no more than 0.49999") && !strings.HasPrefix(e.Want, "no more than 0.5 ") {
		t.Errorf("error %v", err)
	}
	for _, asked := range []float64{1, 300, 359, 359.99} {
		s, err := Solve(oneLoad(12, 0.1, Element{Load: &Load{Power: units.Power(asked)}}), Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "volts", s.Branches[1].Drop.Volts(), 6+math.Sqrt(36-asked*0.1), 1e-6)
		if s.Iterations < 1 {
			t.Errorf("%d steps", s.Iterations)
		}
	}
	// A current that its wiring cannot give names itself.
	_, err = Solve(oneLoad(12, 0.1, Element{Load: &Load{Current: 119}}), Conditions{})
	if e := new(Error); !errors.As(err, &e) || e.Field != "Elements[1] (load).Load.Current" {
		t.Errorf("error %v", err)
	}
	var s *Solver
	if s, err = NewSolver(c); err != nil {
		t.Fatal(err)
	}
	if err = s.Solve(nil, Conditions{}); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
}

// What is too much, and what is dark, does not depend on which node is called 0, nor on which side of the reference a
// battery lies: two of 6 V in series here.
func TestCollapseAgainstEachReference(t *testing.T) {
	battery := func(name, from, to string) Element {
		return Element{Name: name, From: from, To: to, Battery: &Battery{Chemistry: AGM, OpenCircuit: 6, Charge: 1, Resistance: 0.05}}
	}
	for _, reference := range []string{"", "-", "middle", "+", "node"} {
		for _, k := range []struct {
			load     Load
			collapse bool
		}{{Load{Power: 350}, false}, {Load{Power: 370}, true}, {Load{Current: 113}, false}, {Load{Current: 118}, true}} {
			c := Circuit{Reference: reference, Elements: []Element{
				battery("upper", "middle", "+"), battery("lower", "-", "middle"),
				{Name: "load", From: "+", To: "-", Load: &k.load},
				{Name: "wet", From: "+", To: "node", Contact: &Contact{Role: Leakage, Resistance: 2900}},
				{Name: "puddle", From: "node", To: "-", Contact: &Contact{Role: Leakage, Resistance: 60}}, // 0.24 V of 6
				{Name: "beacon", From: "node", To: "-", Load: &Load{Current: 0.5}},
			}}
			s, err := Solve(c, Conditions{})
			if k.collapse {
				if e := new(Error); !errors.Is(err, ErrCollapse) || !errors.As(err, &e) || !strings.HasPrefix(e.Field, "Elements[2] (load)") {
					t.Errorf("against %q, %+v: error %v", reference, k.load, err)
				}
				continue
			}
			if err != nil || s.Branches[5].State != Dark || s.Branches[2].State != Normal {
				t.Errorf("against %q, %+v: %+v, error %v", reference, k.load, s.Branches, err)
			}
			near(t, "zero of "+reference, s.Nodes[map[string]string{"": "middle"}[reference]+reference].Volts(), 0, 0)
		}
	}
}

// What each branch reports of itself.
func TestBranchesReport(t *testing.T) {
	wire := Conductor{Size: "10 mm²", Area: 10e-6, Resistance: 2e-3}
	c := Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.05}},
		{Name: "hot", From: "+", To: "a", Cable: &Cable{Conductor: wire, Length: 10, Parallel: 2, Temperature: units.Celsius(70)}},
		{Name: "cool", From: "a", To: "b", Cable: &Cable{Conductor: wire, Length: 10}},
		{Name: "fuse", From: "b", To: "c", Device: &Device{Kind: Fuse, Rating: 10, Resistance: 0.003}},
		{Name: "motor", From: "c", To: "-", Motor: &Motor{Type: PermanentMagnet, Flux: 0.05, Resistance: 0.1, Efficiency: 1, Load: 1}},
		{Name: "open", From: "c", To: "-", Contact: &Contact{Role: Switch, Resistance: 0.1, Open: true}},
	}}
	for _, copper := range []float64{20, 60} {
		at := Conditions{}
		if copper != 20 {
			at.Copper = units.Celsius(copper)
		}
		s, err := Solve(c, at)
		if err != nil {
			t.Fatal(err)
		}
		hot, cool := 10*2e-3/2*304.5/254.5, 10*2e-3*(234.5+copper)/254.5
		v := 12 - 20*(0.05+hot+cool+0.003) // 1 N m / 0.05 V s are 20 A
		for i, want := range []Branch{
			{Name: "bank", From: "-", To: "+", Current: 20, Drop: -11, Power: -220, Resistance: 0.05, EMF: 12},
			{Name: "hot", From: "+", To: "a", Current: 20, Drop: units.Voltage(20 * hot), Power: units.Power(400 * hot), Resistance: units.Resistance(hot), Temperature: units.Celsius(70)},
			{Name: "cool", From: "a", To: "b", Current: 20, Drop: units.Voltage(20 * cool), Power: units.Power(400 * cool), Resistance: units.Resistance(cool), Temperature: units.Celsius(copper)},
			{Name: "fuse", From: "b", To: "c", Current: 20, Drop: 0.06, Power: 1.2, Resistance: 0.003},
			{Name: "motor", From: "c", To: "-", Current: 20, Drop: units.Voltage(v), Power: units.Power(20 * v), Resistance: 0.1, Speed: units.AngularSpeed((v - 2) / 0.05)},
			{Name: "open", From: "c", To: "-", Drop: units.Voltage(v), Resistance: 0.1, State: Off},
		} {
			got := s.Branches[i]
			for what, x := range map[string][2]float64{
				"current": {float64(got.Current), float64(want.Current)}, "drop": {float64(got.Drop), float64(want.Drop)},
				"power": {float64(got.Power), float64(want.Power)}, "resistance": {float64(got.Resistance), float64(want.Resistance)},
				"EMF": {float64(got.EMF), float64(want.EMF)}, "temperature": {float64(got.Temperature), float64(want.Temperature)},
				"speed": {float64(got.Speed), float64(want.Speed)},
			} {
				near(t, want.Name+": "+what, x[0], x[1], 1e-9*math.Max(1, math.Abs(x[1])))
			}
			if got.Name != want.Name || got.From != want.From || got.To != want.To || got.State != want.State {
				t.Errorf("%+v, want %+v", got, want)
			}
		}
	}
	// Standing, it is its resistance; switched off, it stands still.
	for _, k := range []struct {
		at    Conditions
		amps  float64
		state State
	}{
		{Conditions{Standing: []string{"motor"}}, 12 / (0.05 + 10*2e-3/2*304.5/254.5 + 0.02 + 0.003 + 0.1), Stalled},
		{Conditions{Open: []string{"motor"}}, 0, Off},
		{Conditions{Open: []string{"motor"}, Standing: []string{"motor"}}, 0, Off},
		{Conditions{}, 20, Normal},
	} {
		s, err := Solve(c, k.at)
		if err != nil {
			t.Fatal(err)
		}
		b := s.Branches[4]
		near(t, fmt.Sprintf("%+v", k.at), b.Current.Amperes(), k.amps, 1e-9)
		if b.State != k.state || (b.Speed == 0) != (k.state != Normal) {
			t.Errorf("%+v: %+v", k.at, b)
		}
	}
}

// Every element and every branch is found by its name, the first and the last too.
func TestFindByName(t *testing.T) {
	c := lampCircuit(0.2, 6)
	s, err := Solve(c, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range c.Elements {
		name := c.Elements[i].Name
		if e, err := c.Element(name); err != nil || e != &c.Elements[i] {
			t.Errorf("%s: %+v, error %v", name, e, err)
		}
		if b, err := s.Branch(name); err != nil || b != s.Branches[i] {
			t.Errorf("%s: %+v, error %v", name, b, err)
		}
	}
}

// A compound motor without any torque takes nothing, at rest too.
func TestMotorsWithoutLoad(t *testing.T) {
	m := Motor{Type: CompoundWound, Voltage: 12, Resistance: 0.03, Flux: 0.05, Slope: 1e-4, Efficiency: 1}
	for _, v := range []units.Voltage{0, 12} {
		i, w, err := m.Running(v)
		if err != nil || i != 0 || math.Abs(float64(w)-map[units.Voltage]float64{0: 0, 12: 240}[v]) > 1e-9 {
			t.Errorf("at %v: %v and %v, error %v", v, i, w, err)
		}
	}
	// Under a torque by hand: 12 V, 0.05 I + 1e-4 I² = 4.5 gives 77.79 A.
	m.Load, m.Drag, m.Efficiency = 3, 0.6, 0.8
	i, w, err := m.Running(12)
	want := (-0.05 + math.Sqrt(0.05*0.05+4*1e-4*4.5)) / 2e-4
	if err != nil || math.Abs(i.Amperes()-want) > 1e-9 || math.Abs(float64(w)-(12-0.03*want)/(0.05+1e-4*want)) > 1e-9 {
		t.Errorf("%v and %v, error %v, want %v A", i, w, err, want)
	}
	// At 9 V the shunt field is three quarters of that.
	i, w, err = m.Running(9)
	want = (-0.0375 + math.Sqrt(0.0375*0.0375+4*1e-4*4.5)) / 2e-4
	if err != nil || math.Abs(i.Amperes()-want) > 1e-9 || math.Abs(float64(w)-(9-0.03*want)/(0.0375+1e-4*want)) > 1e-9 {
		t.Errorf("%v and %v, error %v, want %v A", i, w, err, want)
	}
}

// Torque from the points that state it: from one of them the drag, from none no losses.
func TestFitTorque(t *testing.T) {
	// 12 V behind 0.03 ohm, 0.05 V s: 10 A at 234 rad/s and 100 A at 180.
	p := []MotorPoint{{Current: 10, Speed: 234}, {Current: 100, Speed: 180}}
	for _, k := range []struct {
		name             string
		free             bool
		first, second    units.Torque
		efficiency, drag float64
	}{
		{"none", false, 0, 0, 1, 0},
		{"at no load", true, 0, 0, 1, 0.5},               // 10 A make 0.5 N m, all of it drag
		{"under load", false, 0, 4.8, 1, 0.2},            // 100 A make 5 N m
		{"both", true, 0, 3.6, 0.8, 0.4},                 // 0.8 x 0.5 - 0.4 and 0.8 x 5 - 0.4
		{"both under load", false, 0.1, 4.15, 0.9, 0.35}, // 0.9 x 0.5 - 0.35 and 0.9 x 5 - 0.35
	} {
		p[0].NoLoad, p[0].Torque, p[1].Torque = k.free, k.first, k.second
		m, err := FitMotor(PermanentMagnet, 12, p...)
		if err != nil {
			t.Errorf("%s: %v", k.name, err)
			continue
		}
		near(t, k.name+": resistance", m.Resistance.Ohms(), 0.03, 1e-12)
		near(t, k.name+": flux", float64(m.Flux), 0.05, 1e-12)
		near(t, k.name+": efficiency", m.Efficiency, k.efficiency, 1e-9)
		near(t, k.name+": drag", float64(m.Drag), k.drag, 1e-9)
	}
	// A series motor that does not saturate has no knee.
	q := []MotorPoint{{Current: 50, Speed: 10.5 / (8e-4 * 50)}, {Current: 100, Speed: 9 / (8e-4 * 100), Torque: 5}, {Current: 200, Speed: 6 / (8e-4 * 200)}}
	m, err := FitMotor(SeriesWound, 12, q...)
	if err != nil || m.Knee != 0 || math.Abs(m.Resistance.Ohms()-0.03) > 1e-9 || math.Abs(float64(m.Slope)-8e-4) > 1e-9 || math.Abs(float64(m.Drag)-3) > 1e-6 {
		t.Errorf("%+v, error %v", m, err)
	}
}

// A spell in one piece heats like the same spell in a thousand: the steps are small enough.
func TestSpellsInPieces(t *testing.T) {
	c := Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3, Insulation: units.Celsius(85)}
	for _, k := range []struct {
		start, amps, seconds float64
	}{{30, 350, 600}, {30, 150, 3600}, {85, 0, 1200}, {60, 800, 60}, {30, 250, 7200}} {
		whole, err := TemperatureAfter(c, units.Celsius(30), units.Celsius(k.start), Spell{units.Current(k.amps), units.Time(k.seconds)})
		if err != nil {
			t.Fatal(err)
		}
		var pieces []Spell
		for range 1000 {
			pieces = append(pieces, Spell{units.Current(k.amps), units.Time(k.seconds / 1000)})
		}
		parts, err := TemperatureAfter(c, units.Celsius(30), units.Celsius(k.start), pieces...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%+v", k), whole.Celsius(), parts.Celsius(), 2e-4)
	}
}

// ladder is a bank, a line of ten joints of 10 milliohm, and a consumer at each.
func ladder(consumer func(i int) Element, more ...Element) Circuit {
	c := Circuit{Elements: []Element{{Name: "bank", From: "-", To: "n0", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.01}}}}
	for i := range 10 {
		a, b := fmt.Sprint("n", i), fmt.Sprint("n", i+1)
		e := consumer(i)
		e.Name, e.From, e.To = "consumer "+b, b, "-"
		c.Elements = append(c.Elements, Element{Name: "joint " + b, From: a, To: b, Contact: &Contact{Role: Terminal, Resistance: 0.01}}, e)
	}
	c.Elements = append(c.Elements, more...)
	return c
}

// What a refusal says can be supplied can be, and no more: a little less is solved, a little more refused again. That holds
// beside motors, held or turning, and an alternator. And it takes no more than a few steps.
func TestCollapseIsWhereItIsSaid(t *testing.T) {
	for _, k := range []struct {
		name     string
		consumer func(i int, watts float64) Element
		more     []Element
	}{
		{"powers", func(_ int, w float64) Element { return Element{Load: &Load{Power: units.Power(w)}} }, nil},
		{"powers and lamps", func(i int, w float64) Element {
			if i%2 == 0 {
				return Element{Load: &Load{Resistance: 3}}
			}
			return Element{Load: &Load{Power: units.Power(2 * w)}}
		}, nil},
		{"powers and turning motors", func(i int, w float64) Element {
			if i%2 == 0 {
				return Element{Motor: &Motor{Type: PermanentMagnet, Resistance: 0.05, Flux: 0.05, Efficiency: 1, Load: 0.1}}
			}
			return Element{Load: &Load{Power: units.Power(w)}}
		}, nil},
		{"powers and held motors", func(i int, w float64) Element {
			if i%2 == 0 {
				return Element{Motor: &Motor{Type: SeriesWound, Resistance: 0.5, Slope: 5e-4, Knee: 100, Efficiency: 1, Load: 50}}
			}
			return Element{Load: &Load{Power: units.Power(w)}}
		}, nil},
		{"powers, currents and an alternator", func(i int, w float64) Element {
			if i%2 == 0 {
				return Element{Load: &Load{Current: 1}}
			}
			return Element{Load: &Load{Power: units.Power(w)}}
		}, []Element{{Name: "alternator", From: "-", To: "n5", Alternator: &Alternator{Voltage: 14, Limit: 50, Resistance: 0.02}}}},
	} {
		at := func(watts float64) (Solution, error) {
			return Solve(ladder(func(i int) Element { return k.consumer(i, watts) }, k.more...), Conditions{})
		}
		most := 0.0
		for _, asked := range []float64{200, 300, 2000} {
			_, err := at(asked)
			e := new(Error)
			if !errors.Is(err, ErrCollapse) || !errors.As(err, &e) {
				t.Fatalf("%s: error %v", k.name, err)
			}
			var share float64
			if _, err := fmt.Sscanf(e.Want, "no more than %g of it", &share); err != nil {
				t.Fatal(err)
			}
			if most == 0 {
				most = share * asked
			}
			near(t, k.name+": most power", share*asked, most, 3e-6*asked)
		}
		for _, share := range []float64{0.01, 0.3, 0.6, 0.9, 0.999} {
			s, err := at(share * most)
			if err != nil {
				t.Errorf("%s: %v of what is said to be possible: %v", k.name, share, err)
				continue
			}
			if s.Iterations < 1 || s.Iterations > 15 {
				t.Errorf("%s: %v of what is possible takes %d steps", k.name, share, s.Iterations)
			}
		}
		if _, err := at(1.02 * most); !errors.Is(err, ErrCollapse) {
			t.Errorf("%s: error %v", k.name, err)
		}
	}
	// Constant currents by hand: at the end 12 V less 0.65 ohm times each have to be more than 0.6 V, so 17.538 A.
	for _, k := range []struct {
		amps units.Current
		ok   bool
	}{{1, true}, {17.53, true}, {17.55, false}, {25, false}} {
		s, err := Solve(ladder(func(int) Element { return Element{Load: &Load{Current: k.amps}} }), Conditions{})
		if (err == nil) != k.ok || err != nil && !errors.Is(err, ErrCollapse) {
			t.Errorf("%v: error %v", k.amps, err)
		}
		if k.ok {
			near(t, "at the end", s.Nodes["n10"].Volts(), 12-0.65*k.amps.Amperes(), 1e-9)
		}
	}
}

// Steps of Newton: one or two for resistances and batteries, on the average one and a half with motors, alternators and
// loads, and a few more as a power comes near what there is.
func TestSolverSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(77, 1))
	for _, k := range []struct {
		loads bool
		mean  float64
		most  int
	}{{false, 1.3, 3}, {true, 1.7, 12}} {
		sum, n := 0, 0
		for range 500 {
			s, err := Solve(randomCircuit(rng, 3+rng.IntN(30), k.loads), Conditions{})
			if err != nil {
				continue
			}
			sum, n = sum+s.Iterations, n+1
			if s.Iterations < 0 || s.Iterations > k.most {
				t.Errorf("%d steps", s.Iterations)
			}
		}
		if mean := float64(sum) / float64(n); n < 400 || mean > k.mean {
			t.Errorf("%.3f steps on the average of %d", mean, n)
		}
	}
	for watts, most := range map[float64]int{1: 3, 100: 4, 300: 6, 350: 7, 359: 9, 359.9: 11, 359.9999: 16} {
		s, err := Solve(oneLoad(12, 0.1, Element{Load: &Load{Power: units.Power(watts)}}), Conditions{})
		if err != nil || s.Iterations > most {
			t.Errorf("%v W of 360: %d steps, error %v", watts, s.Iterations, err)
		}
	}
}
