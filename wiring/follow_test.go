package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// Phases of constant currents by hand: 20 A are four times the rated 5 A and take 4^0.2 times what flows.
func TestWithdrawByHand(t *testing.T) {
	bank := func(name, minus, plus string, charge float64) Element {
		return Element{Name: name, From: minus, To: plus, Battery: &Battery{
			Chemistry: AGM, OpenCircuit: 12, Charge: charge, Resistance: 10 * units.Milliohm, Capacity: 100 * units.AmpereHour, Peukert: 1.2,
		}}
	}
	c := Circuit{Elements: []Element{
		bank("service", "-", "+", 1),
		{Name: "pump", From: "+", To: "-", Load: &Load{Current: 20}},
		bank("start", "s-", "s+", 0.5),
		{Name: "lamp", From: "s+", To: "s-", Load: &Load{Current: 5}},
	}}
	for _, seconds := range []float64{90, 60, 1, 3600, 0} {
		got, err := Withdraw(c, []Phase{
			{Name: "both", For: units.Time(seconds)},
			{Name: "lamp alone", For: units.Time(2 * seconds), At: Conditions{Open: []string{"pump"}}},
		})
		if err != nil || len(got) != 4 {
			t.Fatalf("%+v, error %v", got, err)
		}
		charge := map[string]float64{"service": 1, "start": 0.5}
		for i, k := range []struct {
			phase, battery string
			amps, seconds  float64
		}{{"both", "service", 20, seconds}, {"both", "start", 5, seconds}, {"lamp alone", "service", 0, 2 * seconds}, {"lamp alone", "start", 5, 2 * seconds}} {
			w := got[i]
			what := fmt.Sprintf("%s of %v s, %s", k.phase, k.seconds, k.battery)
			out := k.amps * k.seconds
			taken := out * math.Pow(math.Max(1, k.amps/5), 0.2)
			posts := func(charge float64) float64 { return 12 - k.amps*0.010*(2-charge) }
			near(t, what+": begin", w.Begin.Volts(), posts(charge[k.battery]), 1e-9)
			charge[k.battery] -= taken / 360000
			near(t, what+": end", w.End.Volts(), posts(charge[k.battery]), 1e-9)
			near(t, what+": out", float64(w.Out), out, 1e-6)
			near(t, what+": taken", float64(w.Taken), taken, 1e-6)
			near(t, what+": charge", w.Charge, charge[k.battery], 1e-12)
			if w.Phase != k.phase || w.Battery != k.battery {
				t.Errorf("%+v, want %+v", w, k)
			}
		}
	}
	// To the last coulomb, and not one more: 0.1 of 100 Ah are 36 kC, at the rated 5 A 2 h.
	last := Circuit{Elements: []Element{bank("bank", "-", "+", 0.1), {Name: "lamp", From: "+", To: "-", Load: &Load{Current: 4}}}}
	for _, k := range []struct {
		seconds float64
		empty   bool
	}{{8999, false}, {9001, true}} {
		got, err := Withdraw(last, []Phase{{For: units.Time(k.seconds)}})
		if e := new(Error); (err != nil) != k.empty || err != nil && (!errors.Is(err, ErrRange) || !errors.As(err, &e) || e.Field != "Elements[0] (bank).Battery.Charge") {
			t.Errorf("%v s: %+v, error %v", k.seconds, got, err)
		}
	}
	// Charged from 12.8 V behind 30 milliohm, bank included: what flows in counts for what it is, to full and no further.
	charger := Circuit{Elements: []Element{bank("bank", "-", "+", 0.99), {Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 20, Limit: 10, Resistance: 10 * units.Milliohm}}}}
	for _, k := range []struct{ seconds, charge, taken float64 }{{180, 0.995, -1800}, {360, 1, -3600}, {3600, 1, -3600}} {
		got, err := Withdraw(charger, []Phase{{For: units.Time(k.seconds)}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "charged", got[0].Charge, k.charge, 1e-9)
		near(t, "taken up", float64(got[0].Taken), k.taken, 1e-3)
		near(t, "in", float64(got[0].Out), -10*k.seconds, 1e-6)
	}
	// A fault in a later phase is found, and a bank whose law is none.
	if _, err := Withdraw(c, []Phase{{For: 1}, {For: 1, At: Conditions{Open: []string{"kettle"}}}}); !errors.Is(err, ErrUnknown) {
		t.Errorf("error %v", err)
	}
	c.Elements[2].Battery.Peukert = 3
	_, err := Withdraw(c, nil)
	if e := new(Error); !errors.As(err, &e) || e.Field != "Elements[2] (start).Battery.Peukert" {
		t.Errorf("error %v", err)
	}
}

// What a plan says of itself: each test is as likely as its two outcomes together, each end as its section, and both
// orders of a symmetric pair cost the same.
func TestPlanHuntLikelihoods(t *testing.T) {
	s := []Section{{"a", 1}, {"b", 4}, {"c", 0}, {"d", 3}}
	j := []Joint{{"ab", 10}, {"bc", 20}, {"cd", 40}}
	h, err := PlanHunt(s, j, ByResistance)
	if err != nil {
		t.Fatal(err)
	}
	effort := map[string]units.Time{"ab": 10, "bc": 20, "cd": 40}
	ends := ""
	var walk func(x *Test)
	walk = func(x *Test) {
		if x.Near == nil {
			ends += x.Section
			near(t, "likelihood of "+x.Section, x.Likelihood, map[string]float64{"a": 1, "b": 4, "c": 0, "d": 3}[x.Section]/8, 1e-12)
			if x.Joint != "" || x.Effort != 0 || x.Far != nil {
				t.Errorf("%+v", x)
			}
			return
		}
		near(t, "likelihood of "+x.Joint, x.Likelihood, x.Near.Likelihood+x.Far.Likelihood, 1e-12)
		if x.Section != "" || x.Effort != effort[x.Joint] {
			t.Errorf("%+v", x)
		}
		walk(x.Near)
		walk(x.Far)
	}
	walk(h.First)
	// bc first: 20, then ab for five eighths: 6.25, cd for three eighths: 15. ab first: 10, then for seven eighths bc: 17.5,
	// then cd for three eighths: 15: 42.5. cd first: 40 and more.
	near(t, "expected", h.Expected.Seconds(), 41.25, 1e-9)
	near(t, "worst", h.Worst.Seconds(), 60, 1e-9)
	if ends != "abcd" || h.First.Joint != "bc" || h.Method != ByResistance || !strings.Contains(h.Caution, "supply") {
		t.Errorf("%s, %+v", ends, h)
	}
	if h, err = PlanHunt(s[:1], nil, ByLamp); err != nil || h.Expected != 0 || h.Worst != 0 || h.First.Section != "a" || h.First.Likelihood != 1 {
		t.Errorf("%+v, error %v", h, err)
	}
}

// Two runs by hand. Sizes s, m and l have 4, 2 and 1 milliohm a metre and cost 1, 2 and 2 a metre: at the same cost l drops
// less than m.
func TestSizeRunsByHand(t *testing.T) {
	stock := Stock{
		{Size: "s", Area: 5e-6, Resistance: 4e-3, Price: 1, Mass: 0.05, Diameter: 0.005},
		{Size: "m", Area: 10e-6, Resistance: 2e-3, Price: 2, Mass: 0.1, Diameter: 0.006},
		{Size: "l", Area: 20e-6, Resistance: 1e-3, Price: 2, Mass: 0.2, Diameter: 0.008},
	}
	runs := func(drop1, drop2 float64) []Run {
		return []Run{
			{Name: "feeder", Requirement: Requirement{Stock: stock, Run: 10, Current: 10, System: 10, MaxDrop: drop1, Copper: units.Celsius(20)}},
			{Name: "lamp", After: "feeder", Requirement: Requirement{Stock: stock, Run: 5, Current: 4, System: 10, MaxDrop: drop2, Copper: units.Celsius(20)}},
			{Name: "pump", After: "feeder", Requirement: Requirement{Stock: stock, Run: 5, Current: 6, System: 10, MaxDrop: 0.5, Copper: units.Celsius(20)}},
		}
	}
	// The feeder drops 0.4, 0.2 or 0.1 V, the lamp's run 0.08, 0.04 or 0.02 V, the pump's 0.12, 0.06 or 0.03 V.
	for _, k := range []struct {
		least        Objective
		drop1, drop2 float64
		sizes        string
		at           [3]float64
		mass, cost   float64
	}{
		{LeastMass, 0.5, 0.5, "s s s", [3]float64{0.4, 0.48, 0.52}, 1, 20},
		{LeastMass, 0.5, 0.0281, "m s s", [3]float64{0.2, 0.28, 0.32}, 1.5, 30},
		{LeastArea, 0.5, 0.0279, "m m s", [3]float64{0.2, 0.24, 0.32}, 1.75, 35},
		{LeastMass, 0.0199, 0.5, "l s s", [3]float64{0.1, 0.18, 0.22}, 2.5, 30},
		{LeastCost, 0.5, 0.0281, "l s s", [3]float64{0.1, 0.18, 0.22}, 2.5, 30}, // not dearer than m, and less drop
		{LeastMass, 0.5, 0.0121, "l l s", [3]float64{0.1, 0.12, 0.22}, 3.25, 35},
	} {
		got, err := SizeRuns(runs(k.drop1, k.drop2), k.least)
		if err != nil {
			t.Errorf("%+v: %v", k, err)
			continue
		}
		var sizes []string
		for i, ch := range got.Choices {
			sizes = append(sizes, ch.Conductor.Size)
			near(t, fmt.Sprintf("%v: drop at %d", k, i), got.At[i].Volts(), k.at[i], 1e-12)
			if ch.Fails != nil {
				t.Errorf("%+v", ch)
			}
			// Its neighbours in the stock.
			n := strings.Index("sml", ch.Conductor.Size)
			if (ch.Down == nil) != (n == 0) || (ch.Up == nil) != (n == 2) || ch.Down != nil && ch.Down.Conductor.Size != "sml"[n-1:n] || ch.Up != nil && ch.Up.Conductor.Size != "sml"[n+1:n+2] {
				t.Errorf("%+v", ch)
			}
		}
		if s := strings.Join(sizes, " "); s != k.sizes {
			t.Errorf("%+v: %s", k, s)
		}
		near(t, "mass", got.Mass.Kilograms(), k.mass, 1e-12)
		near(t, "cost", float64(got.Cost), k.cost, 1e-12)
	}
	// With the best of the stock the lamp has 0.12 V.
	_, err := SizeRuns(runs(0.5, 0.0119), LeastMass)
	if e := new(Error); !errors.Is(err, ErrNoConductor) || !errors.As(err, &e) || e.Field != "runs" || !strings.HasPrefix(e.Value, "1.00 mV too much") {
		t.Errorf("error %v", err)
	}
	// A run whose other criteria nothing meets, and one that cannot be worked out.
	r := runs(0.5, 0.5)
	r[1].Fault, r[1].Clearing = 1e5, 5
	_, err = SizeRuns(r, LeastMass)
	if e := new(Error); !errors.Is(err, ErrNoConductor) || !errors.As(err, &e) || e.Field != "runs[1] (lamp).Stock" {
		t.Errorf("error %v", err)
	}
	r = runs(0.5, 0.5)
	r[2].Rules = ISO // for which the insulation has to be known
	if _, err = SizeRuns(r, LeastMass); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), "runs[2] (pump)") {
		t.Errorf("error %v", err)
	}
	// The caller's runs stay as they are.
	if r[0].Parallel != 0 || r[0].Final != 0 {
		t.Errorf("%+v", r[0])
	}
}
