package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

func stockOf(t testing.TB) Stock {
	t.Helper()
	s, err := Metric(Flexible, Tinned)
	if err != nil {
		t.Fatal(err)
	}
	return s.WithInsulation(units.Celsius(70))
}

// windlassRun is a 1.5 kW windlass at 24 V, 18 m out and back.
func windlassRun(t testing.TB) Requirement {
	return Requirement{
		Stock: stockOf(t), Run: 18, Current: 62.5, System: 24, MaxDrop: 0.031,
		Rules: ISO, Duty: []Spell{{Current: 90, For: 600}}, Fault: 1200, Clearing: 1,
	}
}

func TestSizeConductor(t *testing.T) {
	q := windlassRun(t)
	ch, err := SizeConductor(q)
	if err != nil {
		t.Fatal(err)
	}
	if ch.Conductor.Size != "35 mm²" || ch.Governs != CriterionDrop || len(ch.Fails) > 0 {
		t.Errorf("%+v", ch)
	}
	near(t, "share", ch.Share, 0.0306, 0.0001)
	if ch.Down == nil || ch.Down.Conductor.Size != "25 mm²" || len(ch.Down.Fails) != 1 || ch.Down.Fails[0] != CriterionDrop {
		t.Errorf("one size down: %+v", ch.Down)
	}
	if ch.Up == nil || ch.Up.Conductor.Size != "50 mm²" || len(ch.Up.Fails) != 0 {
		t.Errorf("one size up: %+v", ch.Up)
	}
	roundTrip(t, ch)
	for _, c := range []struct {
		governs Criterion
		change  func(*Requirement)
		size    string
	}{
		{CriterionDrop, func(q *Requirement) { q.MaxDrop, q.Supply, q.AtLoad = 0, 24, 23.6 }, "70 mm²"},
		{CriterionAmpacity, func(q *Requirement) { q.MaxDrop = 0.5; q.Duty = nil; q.Run = 1; q.Fault, q.Clearing = 0, 0 }, "10 mm²"},
		{CriterionWithstand, func(q *Requirement) { q.MaxDrop = 0.5; q.Run = 1; q.Fault = 10000 }, "95 mm²"},
	} {
		q := windlassRun(t)
		c.change(&q)
		ch, err := SizeConductor(q)
		if err != nil || ch.Conductor.Size != c.size || ch.Governs != c.governs {
			t.Errorf("%s: %s governed by %s, error %v, want %s", c.governs, ch.Conductor.Size, ch.Governs, err, c.size)
		}
	}
	q.MaxDrop = 1e-4
	if _, err := SizeConductor(q); !errors.Is(err, ErrNoConductor) {
		t.Errorf("error %v", err)
	}
}

// No candidate with less copper than the choice meets the criteria, parallel
// conductors included, and the choice does by formulas written out here.
func TestSizeConductorIsSmallest(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 50))
	stock := stockOf(t)
	chosen, refused, parallel := 0, 0, 0
	for range 300 {
		q := Requirement{
			Stock: stock, Parallel: 1 + r.IntN(3), Run: units.Length(1 + 40*r.Float64()), Current: units.Current(1 + 300*r.Float64()),
			System: 12, MaxDrop: []float64{CriticalDrop, NonCriticalDrop}[r.IntN(2)], Others: units.Resistance(1e-3 * r.Float64()),
			Copper: units.Celsius(20 + 50*r.Float64()), Fault: units.Current(5000 * r.Float64()), Clearing: units.Time(3 * r.Float64()),
		}
		if r.IntN(2) == 0 {
			q.Rules = ISO
		}
		ok := func(c Conductor, n int) bool {
			ohm := c.Resistance.OhmsPerMetre() * (234.5 + q.Copper.Celsius()) / 254.5 * q.Run.Metres() / float64(n)
			if q.Current.Amperes()*(ohm+q.Others.Ohms()) > q.MaxDrop*12 {
				return false
			}
			if math.Pow(114.96*c.Area.SquareMillimetres(), 2) < math.Pow(q.Fault.Amperes(), 2)*q.Clearing.Seconds() {
				return false
			}
			if q.Rules != "" {
				a, err := Ampacity(ISO, c, Installation{})
				return err == nil && a.Current.Amperes()*float64(n) >= q.Current.Amperes()
			}
			return true
		}
		best := math.Inf(1)
		for _, c := range stock {
			for n := 1; n <= q.Parallel; n++ {
				if ok(c, n) {
					best = math.Min(best, c.Area.SquareMillimetres()*float64(n))
				}
			}
		}
		ch, err := SizeConductor(q)
		switch {
		case math.IsInf(best, 1):
			refused++
			if !errors.Is(err, ErrNoConductor) {
				t.Errorf("nothing fits %+v, but got %+v, error %v", q, ch.Conductor, err)
			}
		case err != nil:
			t.Errorf("%v, but %v mm² fits", err, best)
		default:
			chosen++
			if ch.Parallel > 1 {
				parallel++
			}
			near(t, "area", ch.Area.SquareMillimetres(), best, 1e-9*best)
		}
	}
	if chosen < 50 || refused < 10 || parallel < 10 {
		t.Errorf("%d chosen, %d in parallel, %d refused: the cases are too much alike", chosen, parallel, refused)
	}
}

// SizeRuns is compared with every combination.
func TestSizeRunsAgainstEveryCombination(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 10))
	found, none := 0, 0
	for range 150 {
		all := stockOf(t)
		stock := Stock{}
		for _, c := range all {
			if r.IntN(4) == 0 && len(stock) < 6 {
				c.Price = units.Money(1 + 0.2*c.Area.SquareMillimetres()*(0.5+r.Float64()))
				c.Mass = units.LinearDensity(0.012 * c.Area.SquareMillimetres() * (0.7 + 0.6*r.Float64()))
				stock = append(stock, c)
			}
		}
		if len(stock) == 0 {
			continue
		}
		n := 1 + r.IntN(4)
		runs := make([]Run, n)
		parent := make([]int, n)
		for i := range runs {
			parent[i] = r.IntN(i+1) - 1
			runs[i] = Run{Name: fmt.Sprint("run ", i), Requirement: Requirement{
				Stock: stock, Run: units.Length(1 + 12*r.Float64()), Current: units.Current(1 + 60*r.Float64()),
				System: 12, MaxDrop: 0.02 + 0.1*r.Float64(), Copper: units.Celsius(20),
			}}
			if parent[i] >= 0 {
				runs[i].After = runs[parent[i]].Name
			}
			if r.IntN(3) == 0 {
				runs[i].Rules = ISO
			}
		}
		for _, least := range []Objective{LeastMass, LeastCost, LeastArea} {
			best := math.Inf(1)
			pick := make([]int, n)
			var try func(i int)
			try = func(i int) {
				if i < n {
					for pick[i] = range stock {
						try(i + 1)
					}
					return
				}
				cost := 0.0
				at := make([]float64, n)
				for i, q := range runs {
					c := stock[pick[i]]
					at[i] = q.Current.Amperes() * c.Resistance.OhmsPerMetre() * q.Run.Metres()
					if parent[i] >= 0 {
						at[i] += at[parent[i]]
					}
					if at[i] > q.MaxDrop*12*(1+1e-12) {
						return
					}
					if q.Rules != "" {
						if a, err := Ampacity(ISO, c, Installation{}); err != nil || a.Current < q.Current {
							return
						}
					}
					switch least {
					case LeastMass:
						cost += c.Mass.KilogramsPerMetre() * q.Run.Metres()
					case LeastCost:
						cost += float64(c.Price) * q.Run.Metres()
					default:
						cost += c.Area.SquareMillimetres() * q.Run.Metres()
					}
				}
				best = math.Min(best, cost)
			}
			try(0)
			got, err := SizeRuns(runs, least)
			if math.IsInf(best, 1) {
				none++
				if !errors.Is(err, ErrNoConductor) {
					t.Errorf("nothing fits, but got %+v, error %v", got, err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%v, but %v fits", err, best)
				continue
			}
			found++
			cost := map[Objective]float64{LeastMass: got.Mass.Kilograms(), LeastCost: float64(got.Cost)}[least]
			if least == LeastArea {
				for i, c := range got.Choices {
					cost += c.Area.SquareMillimetres() * runs[i].Run.Metres()
				}
			}
			near(t, string(least), cost, best, 1e-9*best)
			for i, q := range runs {
				if got.At[i].Volts() > q.MaxDrop*12*(1+1e-9) {
					t.Errorf("run %d drops %v of %v", i, got.At[i], q.MaxDrop*12)
				}
			}
		}
	}
	if found < 100 || none < 20 {
		t.Errorf("%d found and %d without: the cases are too much alike", found, none)
	}
}

// The least cost needs prices, the heat of a duty the temperature that the insulation stands.
func TestSizeNeedsToKnow(t *testing.T) {
	stock := slices.Clone(stockOf(t))
	run := Requirement{Stock: stock, Run: 5, Current: 5, System: 12, MaxDrop: 0.1}
	for i := range stock {
		stock[i].Price = 1
	}
	if _, err := SizeRuns([]Run{{Name: "a", Requirement: run}}, LeastCost); err != nil {
		t.Error(err)
	}
	stock[3].Price = 0
	_, err := SizeRuns([]Run{{Name: "a", Requirement: run}}, LeastCost)
	if e := new(Error); !errors.As(err, &e) || e.Field != "runs[0].Stock ("+stock[3].Size+").Price" {
		t.Errorf("error %v", err)
	}
	if _, err = SizeRuns([]Run{{Name: "a", Requirement: run}}, LeastMass); err != nil {
		t.Error(err)
	}
	run.Duty = []Spell{{Current: 5, For: 60}}
	for i := range stock {
		stock[i].Insulation = 0
	}
	_, err = SizeConductor(run)
	if e := new(Error); !errors.As(err, &e) || e.Field != "Stock ("+stock[0].Size+").Insulation" {
		t.Errorf("error %v", err)
	}
}

func TestShoppingList(t *testing.T) {
	c, err := testWindlass(t).Circuit(Resting)
	if err != nil {
		t.Fatal(err)
	}
	items, err := ShoppingList(c, Shop{Studs: map[string]string{"breaker in": "M6", "breaker out": "M6"}})
	if err != nil {
		t.Fatal(err)
	}
	find := func(kind, size, role string) Item {
		for _, i := range items {
			if i.Kind == kind && i.Size == size && i.Role == role {
				return i
			}
		}
		t.Errorf("no %s %s %s in %+v", kind, size, role, items)
		return Item{}
	}
	// 2.6 and 6.9 m with 5 % and twice 0.3 m: 10.575 m; back 9.5 m: 10.275 m.
	near(t, "positive cable", find("cable", "50 mm²", "positive").Length.Metres(), 11, 0)
	near(t, "needed", find("cable", "50 mm²", "positive").Needed.Metres(), 10.575, 1e-9)
	near(t, "negative cable", find("cable", "50 mm²", "negative").Length.Metres(), 11, 0)
	near(t, "lugs M8", float64(find("lug", "50 mm² M8", "").Count), 4, 0)
	near(t, "lugs M6", float64(find("lug", "50 mm² M6", "").Count), 2, 0)
	near(t, "fuses", float64(find("fuse", "3 A", "").Count), 2, 0)
	near(t, "holders", float64(find("fuse holder", "3 A", "").Count), 1, 0)
	near(t, "breakers", float64(find("breaker", "100 A", "").Count), 1, 0)
	roundTrip(t, items)
}

func FuzzSizeConductor(f *testing.F) {
	stock := stockOf(f)
	f.Add(18.0, 62.5, 24.0, 0.03, 333.0, 1200.0, 1.0, uint8(1))
	f.Add(1e-300, 1e300, 12.0, 0.1, 293.0, 0.0, 0.0, uint8(9))
	f.Add(math.NaN(), -1.0, math.Inf(1), 0.0, 0.0, 1e308, 1e308, uint8(255))
	f.Fuzz(func(t *testing.T, run, current, system, drop, copper, fault, clearing float64, parallel uint8) {
		ch, err := SizeConductor(Requirement{
			Stock: stock, Parallel: int(parallel % 4), Run: units.Length(run), Current: units.Current(current), System: units.Voltage(system),
			MaxDrop: drop, Copper: units.Temperature(copper), Fault: units.Current(fault), Clearing: units.Time(clearing),
			Duty: []Spell{{Current: units.Current(current), For: 60}},
		})
		if err != nil {
			return
		}
		for _, x := range []float64{ch.Drop.Volts(), ch.Share, ch.Mass.Kilograms(), float64(ch.Cost), float64(ch.Withstand)} {
			if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
				t.Errorf("%+v", ch.Candidate)
			}
		}
	})
}

// What is sold by the metre is not rounded up for the last bit of a sum.
func TestShoppingListRounds(t *testing.T) {
	c := Circuit{Elements: []Element{{Name: "cable", From: "a", To: "b", Cable: &Cable{
		Conductor: Conductor{Size: "4 mm²", Area: 4e-6, Resistance: 5e-3}, Length: 2 * units.Metre, Parallel: 3,
	}}}}
	items, err := ShoppingList(c, Shop{Slack: 1e-17, Ends: 0.1 * units.Metre, SoldBy: 0.1 * units.Metre, Spares: -1})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "cable", items[0].Length.Metres(), 6.3, 1e-9)
	for _, i := range items {
		if i.Kind == "lug" && i.Count != 6 {
			t.Errorf("%+v", i)
		}
	}
}

func TestSizeConductorRefusals(t *testing.T) {
	for field, change := range map[string]func(*Requirement){
		"MaxDrop":  func(q *Requirement) { *q = Requirement{Stock: q.Stock, Run: 1, Current: 1} },
		"System":   func(q *Requirement) { q.System = 0 },
		"Supply":   func(q *Requirement) { q.AtLoad = 12 },
		"Clearing": func(q *Requirement) { q.Clearing = 0 },
		"Run":      func(q *Requirement) { q.Run = units.Length(math.NaN()) },
		"Parallel": func(q *Requirement) { q.Parallel = -1 },
		"Copper":   func(q *Requirement) { q.Copper = -1 },
	} {
		q := windlassRun(t)
		change(&q)
		_, err := SizeConductor(q)
		if e := new(Error); !errors.As(err, &e) || e.Field != field {
			t.Errorf("%s: error %v", field, err)
		}
	}
}
