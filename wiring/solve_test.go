package wiring_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// oneLoad is a battery of emf and r with a load straight across its posts.
func oneLoad(emf units.Voltage, r units.Resistance, load wiring.Element) wiring.Circuit {
	load.Name, load.From, load.To = "load", "+", "-"
	return wiring.Circuit{Elements: []wiring.Element{
		{Name: "battery", From: "-", To: "+", Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: emf, Charge: 1, Resistance: r}},
		load,
	}}
}

// With one source the answers have closed forms.
func TestOneLoad(t *testing.T) {
	const e, r = 12.0, 0.1
	magnet := wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 0.1, Flux: 0.1, Efficiency: 1}
	with := func(m wiring.Motor, torque units.Torque) wiring.Element {
		m.Load = torque
		return wiring.Element{Motor: &m}
	}
	for _, c := range []struct {
		name  string
		load  wiring.Element
		volts float64
		state wiring.State
	}{
		{"resistance", wiring.Element{Load: &wiring.Load{Resistance: 0.5}}, e * 0.5 / 0.6, ""},
		{"current", wiring.Element{Load: &wiring.Load{Current: 30}}, e - 3, ""},
		{"power", wiring.Element{Load: &wiring.Load{Power: 300}}, (e + math.Sqrt(e*e-4*300*r)) / 2, ""},
		{"power just possible", wiring.Element{Load: &wiring.Load{Power: 359.9999}}, (e + math.Sqrt(e*e-4*359.9999*r)) / 2, ""},
		{"motor turning", with(magnet, 3), e - 3, ""},
		{"motor held", with(magnet, 7), e / 2, wiring.Stalled},
	} {
		st, err := wiring.Solve(oneLoad(e, r, c.load), wiring.Conditions{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		b, err := st.Branch("load")
		if err != nil {
			t.Fatal(err)
		}
		if tol := 1e-9 * e; math.Abs(float64(b.Drop)-c.volts) > tol {
			t.Errorf("%s: %.12g V at the load, want %.12g", c.name, float64(b.Drop), c.volts)
		}
		if b.State != c.state {
			t.Errorf("%s: state %q, want %q", c.name, b.State, c.state)
		}
	}
}

func TestCollapse(t *testing.T) {
	for name, load := range map[string]wiring.Load{
		"power":   {Power: 360.001}, // 12^2/(4*0.1) is the most
		"current": {Current: 119},
	} {
		_, err := wiring.Solve(oneLoad(12, 0.1, wiring.Element{Load: &load}), wiring.Conditions{})
		var e *wiring.Error
		if !errors.Is(err, wiring.ErrCollapse) || !errors.As(err, &e) {
			t.Errorf("%s: error %v, want %v", name, err, wiring.ErrCollapse)
			continue
		}
		t.Log(err)
	}
}

// A load of constant power beside a motor that is held: the first guess, with the
// motor turning, is far below the answer.
func TestPowerBesideHeldMotor(t *testing.T) {
	c := oneLoad(12, 0.1, wiring.Element{Motor: &wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 0.3, Flux: 0.1, Efficiency: 1, Load: 8}})
	c.Elements = append(c.Elements, wiring.Element{Name: "lamp", From: "+", To: "-", Load: &wiring.Load{Power: 100}})
	st, err := wiring.Solve(c, wiring.Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	// V + 0.1 (V/0.3 + 100/V) = 12
	v := (12 + math.Sqrt(144-4*(4.0/3)*10)) / (8.0 / 3)
	if got := float64(st.Nodes["+"]); math.Abs(got-v) > 1e-9 {
		t.Errorf("%.12g V, want %.12g", got, v)
	}
}

// What leaks through insulation also leaks, unrounded, through the good joints in series
// with it, though the drop there is a hundred-thousandth of the spacing of float64 at 12 V.
func TestLeakageThroughGoodJoints(t *testing.T) {
	c := wiring.Circuit{Elements: []wiring.Element{
		{Name: "battery", From: "a", To: "b", Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.001}},
		{Name: "joint", From: "b", To: "c", Contact: &wiring.Contact{Role: wiring.Lug, Resistance: 10e-6}},
		{Name: "joint 2", From: "c", To: "d", Contact: &wiring.Contact{Role: wiring.Lug, Resistance: 10e-6}},
		{Name: "leak", From: "d", To: "a", Contact: &wiring.Contact{Role: wiring.Leakage, Resistance: 10e6}},
	}}
	st, err := wiring.Solve(c, wiring.Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	conserved(t, c, st)
	want := 12 / (10e6 + 0.001 + 20e-6)
	for _, b := range st.Branches {
		if math.Abs(float64(b.Current)/want-1) > 1e-12 {
			t.Errorf("%s carries %.15g A, want %.15g", b.Name, float64(b.Current), want)
		}
	}
	joint, err := st.Branch("joint")
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(joint.Drop)/(want*10e-6)-1) > 1e-12 {
		t.Errorf("drop %.15g V across the joint, want %.15g", float64(joint.Drop), want*10e-6)
	}
}

// Two boats' worth of wiring that nothing connects, and one switched off.
func TestIslands(t *testing.T) {
	c := oneLoad(12, 0.1, wiring.Element{Load: &wiring.Load{Resistance: 1}})
	c.Elements = append(c.Elements,
		wiring.Element{Name: "battery 2", From: "minus", To: "plus", Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: 24, Charge: 1, Resistance: 1}},
		wiring.Element{Name: "load 2", From: "plus", To: "minus", Load: &wiring.Load{Resistance: 1}},
		wiring.Element{Name: "switch", From: "+", To: "fed", Contact: &wiring.Contact{Role: wiring.Switch, Resistance: 0.001}},
		wiring.Element{Name: "radio", From: "fed", To: "-", Load: &wiring.Load{Power: 20}},
		wiring.Element{Name: "pump", From: "fed", To: "-", Load: &wiring.Load{Current: 5}},
	)
	st, err := wiring.Solve(c, wiring.Conditions{Open: []string{"switch"}})
	if err != nil {
		t.Fatal(err)
	}
	conserved(t, c, st)
	for node, want := range map[string]float64{"minus": 0, "plus": 12, "-": 0, "+": 12 / 1.1, "fed": 0} {
		if got := float64(st.Nodes[node]); math.Abs(got-want) > 1e-9 {
			t.Errorf("node %s at %.12g V, want %.12g", node, got, want)
		}
	}
	for name, want := range map[string]wiring.State{"switch": wiring.Off, "radio": wiring.Dark, "pump": wiring.Dark, "load": wiring.Normal} {
		b, err := st.Branch(name)
		if err != nil || b.State != want {
			t.Errorf("%s: state %q, want %q (%v)", name, b.State, want, err)
		}
	}
}

// The engine running: the alternator carries the load up to its limit, the battery the rest.
func TestAlternator(t *testing.T) {
	c := oneLoad(12.5, 0.01, wiring.Element{Load: &wiring.Load{Current: 20}})
	c.Elements = append(c.Elements, wiring.Element{Name: "alternator", From: "-", To: "+", Alternator: &wiring.Alternator{Voltage: 14, Limit: 60, Resistance: 0.02}})
	for _, k := range []struct {
		load    units.Current
		want    float64 // alternator's current
		state   wiring.State
		battery float64
	}{
		{20, 1.5/0.03 + 20*0.01/0.03, "", 20 - (1.5/0.03 + 20*0.01/0.03)},
		{100, 60, wiring.Limited, 40},
	} {
		c.Elements[1].Load.Current = k.load
		st, err := wiring.Solve(c, wiring.Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		conserved(t, c, st)
		alt, _ := st.Branch("alternator")
		bat, _ := st.Branch("battery")
		if math.Abs(float64(alt.Current)-k.want) > 1e-9 || alt.State != k.state || math.Abs(float64(bat.Current)-k.battery) > 1e-9 {
			t.Errorf("load %v: alternator %v (%q), battery %v, want %g (%q) and %g", k.load, alt.Current, alt.State, bat.Current, k.want, k.state, k.battery)
		}
	}
	c.Elements[2].Alternator.Voltage = 12 // below the battery: a diode
	st, err := wiring.Solve(c, wiring.Conditions{Open: []string{"load"}})
	if err != nil {
		t.Fatal(err)
	}
	if alt, _ := st.Branch("alternator"); alt.Current != 0 || alt.State != wiring.Idle {
		t.Errorf("alternator below the battery: %v (%q)", alt.Current, alt.State)
	}
}

// Batteries of half a microhm in a ring with one another turn hundreds of megawatts into heat, and
// the watts of the motor beside them are lost in the rounding of some: that is what is said then.
func TestPowerThatDoesNotBalance(t *testing.T) {
	refused := 0
	for k := range 300 {
		r := units.Resistance(4e-7 + 2e-9*float64(k))
		battery := func(name, from, to string) wiring.Element {
			return wiring.Element{Name: name, From: from, To: to, Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: 12, Charge: 1, Resistance: r}}
		}
		_, err := wiring.Solve(wiring.Circuit{Elements: []wiring.Element{
			battery("a", "7", "2"), battery("b", "1", "0"),
			{Name: "motor", From: "0", To: "2", Motor: &wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 0.05, Flux: 0.05, Efficiency: 1, Load: 1e-6}},
			battery("c", "0", "1"),
		}}, wiring.Conditions{})
		if err == nil {
			continue
		}
		refused++
		if e := new(wiring.Error); !errors.As(err, &e) || !errors.Is(err, wiring.ErrNoSolution) || !strings.Contains(e.Want, "power agree") {
			t.Fatal(err)
		}
	}
	if refused == 0 {
		t.Error("none is refused")
	}
}
