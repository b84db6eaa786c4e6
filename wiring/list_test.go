package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// A whole list by hand. The main cable is two of 16 mm² side by side, the return one of 6 mm², the rest is thinner; the bow
// light hangs behind a switch, so its wire is positive or negative only when that is closed.
func TestShoppingListByHand(t *testing.T) {
	wire := func(mm2, diameter float64) Conductor {
		return Conductor{Size: fmt.Sprintf("%g mm²", mm2), Area: units.Area(mm2 * 1e-6), Resistance: 1e-3, Diameter: units.Length(diameter / 1000), Mass: 0.1}
	}
	contact := func(name, from, to string, role Role, of string) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: role, Resistance: units.Milliohm, Of: of}}
	}
	c := Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.01}},
		{Name: "main fuse", From: "+", To: "fuse out", Device: &Device{Kind: Fuse, Rating: 100, Resistance: units.Milliohm}},
		contact("lug 1", "fuse out", "main 1", Lug, ""),
		{Name: "main", From: "main 1", To: "main 2", Cable: &Cable{Conductor: wire(16, 9.6), Length: 2.9, Parallel: 2}},
		contact("lug 2", "main 2", "pole 1", Lug, ""),
		contact("isolator +", "pole 1", "bar", Isolator, "isolator"),
		{Name: "panel breaker", From: "bar", To: "panel", Device: &Device{Kind: Breaker, Rating: 7.5, Resistance: units.Milliohm}},
		{Name: "spare breaker", From: "bar", To: "spare", Device: &Device{Kind: Breaker, Rating: 7.5, Resistance: units.Milliohm}},
		contact("bow switch", "panel", "switched", Switch, ""),
		{Name: "bow wire", From: "switched", To: "lamp +", Cable: &Cable{Conductor: wire(5.9, 5.01), Length: 9}},
		{Name: "lamp", From: "lamp +", To: "lamp -", Load: &Load{Resistance: 10}},
		{Name: "bow return", From: "lamp -", To: "pole 2", Cable: &Cable{Conductor: wire(6, 5.5), Length: 9}},
		contact("isolator -", "pole 2", "-", Isolator, "isolator"),
		contact("relay", "panel", "horn", Solenoid, ""),
		{Name: "coil wire", From: "panel", To: "coil", Control: true, Cable: &Cable{Conductor: wire(1.5, 3), Length: 0.9}},
		{Name: "coil", From: "coil", To: "-", Control: true, Load: &Load{Resistance: 50}},
		contact("bar of the minus", "-", "minus bar", Busbar, ""),
		contact("terminal a", "minus bar", "a", Terminal, "strip"),
		contact("terminal b", "minus bar", "b", Terminal, "strip"),
		contact("damp", "+", "hull", Leakage, ""),
		contact("plate", "hull", "keel", Bond, ""),
	}}
	items, err := ShoppingList(c, Shop{Studs: map[string]string{"pole 1": "M10", "coil": "M4"}})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, i := range items {
		line := strings.TrimSpace(fmt.Sprintf("%s %s %s", i.Kind, i.Size, i.Role))
		if i.Length > 0 {
			line += fmt.Sprintf(": %.4g m of %.5g m", i.Length.Metres(), i.Needed.Metres())
		}
		if i.Count > 0 {
			line += fmt.Sprintf(": %d", i.Count)
		}
		got = append(got, line+" for "+strings.Join(i.For, ", "))
	}
	want := []string{
		"cable 16 mm² positive: 7 m of 6.69 m for main",                         // twice 2.9 x 1.05 + 0.3 m
		"cable 5.9 mm² switched: 10 m of 9.75 m for bow wire",                   // 9 x 1.05 + 0.3
		"cable 6 mm² negative: 10 m of 9.75 m for bow return",                   // the same
		"cable 1.5 mm² positive: 2 m of 1.245 m for coil wire",                  // 0.9 x 1.05 + 0.3
		"lug 16 mm² M8: 2 for main",                                             // at the fuse, two conductors
		"lug 16 mm² M10: 2 for main",                                            // at the isolator
		"lug 5.9 mm² M8: 2 for bow wire",                                        //
		"lug 6 mm² M8: 2 for bow return",                                        //
		"lug 1.5 mm² M5: 1 for coil wire",                                       // a control wire
		"lug 1.5 mm² M4: 1 for coil wire",                                       // with a stud of its own
		"heat-shrink to go over 10 mm: 1 m of 0.16 m for main",                  // four lugs of 40 mm
		"heat-shrink to go over 5.5 mm: 1 m of 0.12 m for bow wire, bow return", // half on 5.9 mm², whole on 6 mm²
		"heat-shrink to go over 3 mm: 1 m of 0.04 m for coil wire",              //
		"clip for 10 mm: 22 for main",                                           // 2.9 m by 300 mm are 10 spaces, 11 clips, twice
		"clip for 5.5 mm: 42 for bow wire, bow return",                          // 9 m by 450 mm: 20 spaces each
		"clip for 3 mm: 3 for coil wire",                                        //
		"breaker 7.5 A: 2 for panel breaker, spare breaker",                     //
		"fuse 100 A: 2 for main fuse",                                           // and a spare
		"fuse holder 100 A: 1 for main fuse",                                    //
		"isolator 2 poles: 1 for isolator",                                      //
		"solenoid 1 contact: 1 for relay",                                       //
		"switch 1 contact: 1 for bow switch",                                    //
		"busbar: 1 for bar of the minus",                                        //
		"terminal: 1 for strip",                                                 //
	}
	for i := range max(len(got), len(want)) {
		var g, w string
		if i < len(got) {
			g = got[i]
		}
		if i < len(want) {
			w = want[i]
		}
		if g != w {
			t.Errorf("got  %s\nwant %s", g, w)
		}
	}
	// Spares, and none of them; no bank, no poles.
	for _, k := range []struct{ spares, count int }{{-1, 1}, {0, 2}, {1, 2}, {3, 4}} {
		items, err := ShoppingList(c, Shop{Spares: k.spares})
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range items {
			if i.Kind == "fuse" && i.Count != k.count {
				t.Errorf("%d spares: %+v", k.spares, i)
			}
			if i.Kind == "breaker" && i.Count != 2 {
				t.Errorf("%d spares: %+v", k.spares, i)
			}
		}
	}
	items, err = ShoppingList(Circuit{Elements: c.Elements[1:]}, Shop{})
	if err != nil || items[0].Role != "switched" {
		t.Errorf("%+v, error %v", items, err)
	}
	// One's own ways: no slack to speak of, by the roll, other studs and spacings.
	items, err = ShoppingList(c, Shop{Slack: 0.5, Ends: 1, SoldBy: 50, Stud: "M6", Control: "M3", Shrink: 0.1, Stick: 0.25, MainClip: 1, Clip: 3, Spares: -1})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []Item{
		{Kind: "cable", Size: "16 mm²", Role: "positive", Length: 50, Needed: 10.7, For: []string{"main"}},
		{Kind: "lug", Size: "16 mm² M6", Count: 4, For: []string{"main"}},
		{Kind: "lug", Size: "1.5 mm² M3", Count: 2, For: []string{"coil wire"}},
		{Kind: "heat-shrink", Size: "to go over 10 mm", Length: 0.5, Needed: 0.4, For: []string{"main"}},
		{Kind: "clip", Size: "for 10 mm", Count: 8, For: []string{"main"}},
		{Kind: "clip", Size: "for 3 mm", Count: 2, For: []string{"coil wire"}},
	} {
		if !slices.ContainsFunc(items, func(i Item) bool {
			i.Needed, w.Needed = units.Length(math.Round(float64(i.Needed)*1e9)), units.Length(math.Round(float64(w.Needed)*1e9))
			ok := reflect.DeepEqual(i, w)
			w.Needed = w.Needed.Scale(1e-9)
			return ok
		}) {
			t.Errorf("no %+v in %+v", w, items)
		}
	}
}

// A ring by hand: 12 V behind 0.1 ohm, 0.1 ohm out, 0.6 ohm of lamp, 0.2 ohm back, and a second battery of 3 V behind
// 0.5 ohm in the return: 10 A. The list begins with the stronger battery, whichever way round the parts are written, and so
// it does with all resistances a thousand times as large.
func TestDropByHand(t *testing.T) {
	for _, k := range []float64{1, 1000} {
		ohm := func(r float64) units.Resistance { return units.Resistance(r * k) }
		battery := func(e units.Voltage, r float64) *Battery {
			return &Battery{Chemistry: AGM, OpenCircuit: e, Charge: 1, Resistance: ohm(r)}
		}
		for _, turned := range []bool{false, true} {
			c := Circuit{Elements: []Element{
				{Name: "weak", From: "far", To: "-", Battery: battery(3, 0.5)},
				{Name: "out", From: "+", To: "a", Contact: &Contact{Role: Terminal, Resistance: ohm(0.1)}},
				{Name: "lamp", From: "a", To: "b", Load: &Load{Resistance: ohm(0.6)}},
				{Name: "back", From: "b", To: "far", Contact: &Contact{Role: Terminal, Resistance: ohm(0.2)}},
				{Name: "strong", From: "-", To: "+", Battery: battery(12, 0.1)},
			}}
			if turned {
				for _, i := range []int{1, 2, 3} {
					c.Elements[i].From, c.Elements[i].To = c.Elements[i].To, c.Elements[i].From
				}
			}
			s, err := Solve(c, Conditions{})
			if err != nil {
				t.Fatal(err)
			}
			r, err := s.DropTo("lamp")
			if err != nil {
				t.Fatal(err)
			}
			near(t, "EMF", r.EMF.Volts(), 15, 1e-9)
			near(t, "at the lamp", r.AtLoad.Volts(), 6, 1e-9)
			near(t, "total", r.Total.Volts(), 9, 1e-9)
			want := []PartDrop{
				{"strong", "-", "+", 10, 1, 1.0 / 9},
				{"out", "+", "a", 10, 1, 1.0 / 9},
				{"back", "b", "far", 10, 2, 2.0 / 9},
				{"weak", "far", "-", 10, 5, 5.0 / 9},
			}
			if len(r.Parts) != len(want) || r.Load != "lamp" {
				t.Fatalf("%+v", r)
			}
			for i, p := range r.Parts {
				w := want[i]
				near(t, p.Name+": current", p.Current.Amperes(), w.Current.Amperes()/k, 1e-9)
				near(t, p.Name+": drop", p.Drop.Volts(), w.Drop.Volts(), 1e-9)
				near(t, p.Name+": share", p.Share, w.Share, 1e-9)
				if p.Name != w.Name || p.From != w.From || p.To != w.To {
					t.Errorf("%+v, want %+v", p, w)
				}
			}
		}
	}
}

// An alternator counts with the voltage that it holds, and one that is charged lies the other way round.
func TestDropFromAnAlternator(t *testing.T) {
	c := Circuit{Elements: []Element{
		{Name: "alternator", From: "-", To: "post", Alternator: &Alternator{Voltage: 14, Limit: 100, Resistance: 0.1}},
		{Name: "out", From: "post", To: "+", Contact: &Contact{Role: Terminal, Resistance: 0.1}},
		{Name: "lamp", From: "+", To: "-", Load: &Load{Resistance: 1.2}},
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 11, Charge: 1, Resistance: 1}},
	}}
	s, err := Solve(c, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	v := (14/0.2 + 11/1.0) / (1/0.2 + 1/1.0 + 1/1.2) // at +
	amps := (14 - v) / 0.2
	r, err := s.DropTo("lamp")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "EMF", r.EMF.Volts(), 14-0.1*amps, 1e-9)
	near(t, "at the lamp", r.AtLoad.Volts(), v, 1e-9)
	near(t, "total", r.Total.Volts(), 0.1*amps, 1e-9)
	if len(r.Parts) != 2 || r.Parts[0].Name != "alternator" || math.Abs(r.Parts[0].Drop.Volts()) > 1e-12 || r.Parts[1].Name != "out" {
		t.Errorf("%+v", r.Parts)
	}
	near(t, "share", r.Parts[1].Share, 1, 1e-9)
	// What the bank takes goes the same way.
	if r, err = s.DropTo("bank"); err != nil {
		t.Fatal(err)
	}
	if r.Parts[0].Name != "alternator" || len(r.Parts) != 2 {
		t.Errorf("%+v", r.Parts)
	}
	// Straight at the source nothing is lost on the way.
	c = oneLoad(0, 1, Element{Load: &Load{Resistance: 1}})
	c.Elements[0] = Element{Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 14, Limit: 100, Resistance: 1}}
	if s, err = Solve(c, Conditions{}); err != nil {
		t.Fatal(err)
	}
	if r, err = s.DropTo("load"); err != nil || r.Total != 0 || r.Parts[0].Share != 0 || math.Abs(r.EMF.Volts()-7) > 1e-9 {
		t.Errorf("%+v, error %v", r, err)
	}
	// A solution that is none.
	s.Branches[1].Drop = units.Voltage(nan)
	if _, err = s.DropTo("load"); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
	s.Branches = s.Branches[1:]
	s.Branches[0].Drop = 1
	if _, err = s.DropTo("load"); !errors.Is(err, ErrNoSolution) {
		t.Errorf("error %v", err)
	}
}

// Where two ways carry alike, the answer is the same each time.
func TestDropIsTheSameEachTime(t *testing.T) {
	contact := func(name, from, to string) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: Terminal, Resistance: 0.1}}
	}
	c := Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.1}},
		contact("x", "+", "m"), contact("y", "m", "end"), contact("v", "+", "k"), contact("w", "k", "end"),
		contact("z", "end", "lamp +"),
		{Name: "lamp", From: "lamp +", To: "-", Load: &Load{Resistance: 1}},
	}}
	s, err := Solve(c, Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	// Alike to the last bit.
	for i := 1; i <= 4; i++ {
		s.Branches[i].Current = s.Branches[1].Current
	}
	first, err := s.DropTo("lamp")
	if err != nil {
		t.Fatal(err)
	}
	for range 200 {
		if again, err := s.DropTo("lamp"); err != nil || !reflect.DeepEqual(again, first) {
			t.Fatalf("%+v, error %v, before %+v", again, err, first)
		}
	}
}

// What stands exactly at a criterion meets it, what is a billionth over it does not.
func TestSizingAtItsLimits(t *testing.T) {
	const less, more = 1 - 1e-9, 1 + 1e-9
	c := Conductor{Size: "10 mm²", Area: 10e-6, Resistance: 1.95e-3, Insulation: units.Celsius(70), Price: 3}
	base := Requirement{Stock: Stock{c}, Run: 8, Current: 50, Copper: units.Celsius(20), Others: 2 * units.Milliohm}
	with := func(change func(*Requirement)) (Choice, error) {
		q := base
		q.Stock = slices.Clone(base.Stock)
		change(&q)
		return SizeConductor(q)
	}
	warm, err := TemperatureAfter(c, units.Celsius(30), units.Celsius(40), Spell{90, 300}) // the light spell after it does not count
	if err != nil {
		t.Fatal(err)
	}
	withstand, err := Withstand(10e-6, units.Celsius(70), units.Celsius(160))
	if err != nil {
		t.Fatal(err)
	}
	drop := 50 * (8*1.95e-3 + 2e-3)
	for _, k := range []struct {
		criterion Criterion
		at        func(q *Requirement, share float64) // share of what it needs
	}{
		{CriterionDrop, func(q *Requirement, share float64) { q.System, q.MaxDrop = 10, drop/10*share+1e-15 }},
		{CriterionDrop, func(q *Requirement, share float64) { q.Supply, q.AtLoad = 1, units.Voltage(1-drop*share-1e-15) }},
		{CriterionAmpacity, func(q *Requirement, share float64) { q.Rules, q.Current = ISO, units.Current(65/share) }},
		{CriterionHeat, func(q *Requirement, share float64) {
			q.Duty, q.Start = []Spell{{90, 300}, {10, 60}}, units.Celsius(40)
			q.Stock[0].Insulation = warm.Add(units.TemperatureDifference(1000 * (share - 1)))
		}},
		{CriterionWithstand, func(q *Requirement, share float64) {
			q.Fault, q.Clearing = 1000, units.Time(float64(withstand)/1e6/share)
		}},
	} {
		if ch, err := with(func(q *Requirement) { k.at(q, 1) }); err != nil || len(ch.Fails) > 0 || ch.Governs != CriterionNone || ch.Down != nil || ch.Up != nil {
			t.Errorf("%s: %+v, error %v", k.criterion, ch, err)
		}
		if _, err := with(func(q *Requirement) { k.at(q, more) }); err != nil {
			t.Errorf("%s: error %v", k.criterion, err)
		}
		_, err := with(func(q *Requirement) { k.at(q, less) })
		if e := new(Error); !errors.Is(err, ErrNoConductor) || !errors.As(err, &e) || e.Value != "up to 10 mm²" || !strings.HasSuffix(e.Want, "the largest fails "+string(k.criterion)) {
			t.Errorf("%s: error %v", k.criterion, err)
		}
	}
	// Of two limits for the drop the harder one counts.
	for _, k := range []struct {
		maxDrop, atLoad float64
		ok              bool
	}{{0.09, 9.1, true}, {0.09, 9.2, false}, {0.08, 9.1, false}} {
		if _, err := with(func(q *Requirement) {
			q.System, q.MaxDrop, q.Supply, q.AtLoad = 10, k.maxDrop, 10, units.Voltage(k.atLoad)
		}); (err == nil) != k.ok {
			t.Errorf("%+v: error %v", k, err)
		}
	}
	// The figures by hand, for two side by side: each has half the current of the duty.
	ch, err := with(func(q *Requirement) {
		q.Parallel, q.Current, q.System, q.MaxDrop, q.Rules = 2, 100, 12, 0.3, ISO
		q.Duty, q.Start = []Spell{{140, 300}, {20, 60}}, units.Celsius(40)
		q.Fault, q.Clearing = 1000, 1
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drop", ch.Drop.Volts(), 100*(8*1.95e-3/2+2e-3), 1e-12)
	near(t, "share", ch.Share, 100*(8*1.95e-3/2+2e-3)/12, 1e-12)
	near(t, "area", ch.Area.SquareMillimetres(), 20, 1e-9)
	near(t, "ampacity", ch.Ampacity.Amperes(), 130, 1e-9)
	alone, err := TemperatureAfter(c, units.Celsius(30), units.Celsius(40), Spell{70, 300})
	if err != nil || ch.Hottest <= alone || ch.Hottest >= alone.Add(10) { // beside the other it is warmer
		t.Errorf("hottest %v, of one alone %v", ch.Hottest, alone)
	}
	near(t, "withstand", float64(ch.Withstand), float64(withstand), 1e-3)
	near(t, "cost", float64(ch.Cost), 3*8*2, 1e-12)
	s, err := NewStock([]Conductor{c})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mass", ch.Mass.Kilograms(), s[0].Mass.KilogramsPerMetre()*16, 1e-12)
	if ch.Parallel != 2 || ch.Governs != CriterionAmpacity || ch.Down == nil || ch.Down.Parallel != 1 || ch.Up != nil {
		t.Errorf("%+v", ch)
	}
	// Names of what is not enough.
	_, err = with(func(q *Requirement) {
		q.Parallel, q.Current, q.System, q.MaxDrop, q.Rules = 2, 200, 12, 0.1, ISO
	})
	if e := new(Error); !errors.As(err, &e) || e.Value != "up to 2 x 10 mm²" || !strings.HasSuffix(e.Want, "the largest fails voltage drop and steady ampacity") {
		t.Errorf("error %v", err)
	}
	// A duty that would melt it is too hot, and a size outside the table has no ampacity.
	if _, err = with(func(q *Requirement) { q.Duty = []Spell{{5000, 600}} }); !errors.Is(err, ErrNoConductor) {
		t.Errorf("error %v", err)
	}
	if _, err = with(func(q *Requirement) { q.Rules, q.Stock[0].Area = ISO, 0.1e-6 }); !errors.Is(err, ErrNoConductor) {
		t.Errorf("error %v", err)
	}
	if _, err = with(func(q *Requirement) { q.Rules = "club rules" }); !errors.Is(err, ErrUnknown) {
		t.Errorf("error %v", err)
	}
	if _, err = with(func(q *Requirement) { q.Duty = []Spell{{-1, 1}} }); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
}

// The choice's neighbours are the next candidates by area, of equal areas the one with fewer conductors first, and what
// governs is what the nearest smaller one fails that fails at all.
func TestSizeNeighbours(t *testing.T) {
	stock := Stock{
		{Size: "a", Area: 10e-6, Resistance: 2e-3, Insulation: units.Celsius(70)},
		{Size: "b", Area: 20e-6, Resistance: 1e-3, Insulation: units.Celsius(70)},
		{Size: "c", Area: 40e-6, Resistance: 0.5e-3, Insulation: units.Celsius(70)},
	}
	name := func(c *Candidate) string {
		if c == nil {
			return "none"
		}
		return fmt.Sprintf("%d x %s", c.Parallel, c.Conductor.Size)
	}
	// By area: a, b = 2 a, 3 a, c = 2 b, 3 b, 2 c, 3 c.
	for _, k := range []struct {
		drop         float64
		down, is, up string
		governs      Criterion
	}{
		{0.5, "none", "1 x a", "1 x b", CriterionNone},
		{0.15, "1 x a", "1 x b", "2 x a", CriterionDrop},
		{0.08, "1 x b", "3 x a", "1 x c", CriterionDrop}, // 2 a and b drop 0.1, 3 a 0.067
		{0.03, "3 x b", "2 x c", "3 x c", CriterionDrop},
		{0.02, "2 x c", "3 x c", "none", CriterionDrop},
	} {
		ch, err := SizeConductor(Requirement{Stock: stock, Parallel: 3, Run: 10, Current: 10, System: 1, MaxDrop: k.drop, Copper: units.Celsius(20)})
		if err != nil {
			t.Fatal(err)
		}
		if k.is == "3 x a" {
			k.down = "2 x a"
		}
		if name(ch.Down) != k.down || name(&ch.Candidate) != k.is || name(ch.Up) != k.up || ch.Governs != k.governs {
			t.Errorf("%v: %s, %s, %s by %s, want %+v", k.drop, name(ch.Down), name(&ch.Candidate), name(ch.Up), ch.Governs, k)
		}
	}
}

// The section between two probes: its parts with the likeliest culprits first, and the model's interval from the spread of
// each kind, by the shortest way over what conducts.
func TestBadJointSections(t *testing.T) {
	wire := Conductor{Size: "10 mm²", Area: 10e-6, Resistance: 2e-3}
	contact := func(name, from, to string, role Role, r units.Resistance) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: role, Resistance: r}}
	}
	c := Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.01}},
		contact("damp", "+", "d", Leakage, 1e6),
		contact("long way 1", "+", "x", Terminal, 1e-3), contact("long way 2", "x", "y", Terminal, 1e-3),
		contact("long way 3", "y", "z", Terminal, 1e-3), contact("long way 4", "z", "w", Terminal, 1e-3), contact("long way 5", "w", "d", Terminal, 1e-3),
		{Name: "wire", From: "a", To: "+", Cable: &Cable{Conductor: wire, Length: 5}}, // 10 milliohm
		{Name: "fuse", From: "a", To: "b", Device: &Device{Kind: Fuse, Rating: 100, Resistance: 2e-3}},
		contact("lug 1", "b", "c", Lug, 0.4e-3),
		contact("lug 2", "c", "d", Lug, 0.6e-3),
		{Name: "lamp", From: "d", To: "-", Load: &Load{Resistance: 0.3}},
	}}
	probes := Probes{Red: "+", Black: "d"}
	find := func(readings ...Reading) []Joints {
		found, err := FindBadJoint(c, Conditions{}, readings, Voltmeter{}, Ammeter{}, Spread{Cable: 0.1, Contact: 0.5, Device: 0.25})
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	// 10 A over 20 milliohm, where the model has 13: 7 more.
	j := find(Reading{probes, 0.2, 10})[0]
	if !slices.Equal(j.Parts, []string{"lug 1", "lug 2", "fuse", "wire"}) || j.Judgement != Bad {
		t.Errorf("%+v", j)
	}
	near(t, "model", j.Model.Value.Milliohms(), 13, 1e-9)
	near(t, "low", j.Model.Low.Milliohms(), 13-(0.5+0.5+1), 1e-9)
	near(t, "high", j.Model.High.Milliohms(), 13+(0.5+0.5+1), 1e-9)
	near(t, "excess", j.Excess.Milliohms(), 7, 1e-9)
	near(t, "heat", j.Heat.Watts(), 0.7, 1e-9)
	// Less than the model makes no heat, and the worst comes first, what is sound last.
	found := find(Reading{probes, 0.1, 10}, Reading{Probes{"b", "c"}, 0.004, 10}, Reading{probes, 0.2, 10}, Reading{Probes{"c", "d"}, 0.01, 10})
	var excess []float64
	for _, j := range found {
		excess = append(excess, math.Round(1e6*j.Excess.Milliohms())/1e6)
		if (j.Heat > 0) != (j.Excess > 0) || j.Heat < 0 {
			t.Errorf("%+v", j)
		}
	}
	if !slices.Equal(excess, []float64{7, 0.4, -3, 0}) && !slices.Equal(excess, []float64{7, 0.4, -3, math.Copysign(0, -1)}) {
		t.Errorf("%v", excess)
	}
	// With a lug open, or switched off, the way is the long one: 5 milliohm; with both none but the leak.
	c.Elements[9].Contact = &Contact{Role: Lug, Resistance: 0.4e-3, Open: true}
	if j = find(Reading{probes, 0.05, 10})[0]; j.Judgement != Sound || len(j.Parts) != 5 || math.Abs(j.Model.Value.Milliohms()-5) > 1e-9 || j.Parts[0] != "long way 1" || j.Parts[4] != "long way 5" {
		t.Errorf("%+v", j)
	}
	found, err := FindBadJoint(c, Conditions{Open: []string{"long way 3"}}, []Reading{{probes, 0.05, 10}}, Voltmeter{}, Ammeter{}, Spread{})
	if err != nil || found[0].Judgement != Unmatched || found[0].Parts != nil || found[0].Model != (Ohms{}) || found[0].Excess != 0 {
		t.Errorf("%+v, error %v", found, err)
	}
	// A node is no section.
	if j = find(Reading{Probes{"a", "a"}, 0, 10})[0]; j.Judgement != Unmatched {
		t.Errorf("%+v", j)
	}
}

// The spread of every kind of part, one at a time, against the circuit solved with that part changed.
func TestReadingsOfEachSpread(t *testing.T) {
	base := func() Circuit {
		return Circuit{Reference: "-", Elements: []Element{
			{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 0.05}},
			{Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 13, Limit: 500, Resistance: 0.1}},
			{Name: "wire", From: "+", To: "a", Cable: &Cable{Conductor: Conductor{Area: 10e-6, Resistance: 2e-3}, Length: 10}},
			{Name: "lug", From: "a", To: "b", Contact: &Contact{Role: Lug, Resistance: 0.01}},
			{Name: "fuse", From: "b", To: "c", Device: &Device{Kind: Fuse, Rating: 100, Resistance: 0.02}},
			{Name: "lamp", From: "c", To: "-", Load: &Load{Resistance: 2}},
			{Name: "pump", From: "c", To: "-", Load: &Load{Current: 5}},
			{Name: "radio", From: "c", To: "-", Load: &Load{Power: 50}},
			{Name: "windlass", From: "c", To: "-", Motor: &Motor{Type: PermanentMagnet, Flux: 0.05, Resistance: 0.05, Efficiency: 1, Load: 0.5}},
		}}
	}
	volts := func(c Circuit) float64 {
		s, err := Solve(c, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		return (s.Nodes["c"] - s.Nodes["-"]).Volts()
	}
	nominal := volts(base())
	for _, k := range []struct {
		name   string
		spread Spread
		change []func(c *Circuit)
	}{
		{"cable", Spread{Cable: 0.1}, []func(c *Circuit){func(c *Circuit) { c.Elements[2].Cable.Conductor.Resistance *= 1.1 }}},
		{"contact", Spread{Contact: 0.1}, []func(c *Circuit){func(c *Circuit) { c.Elements[3].Contact.Resistance *= 1.1 }}},
		{"device", Spread{Device: 0.1}, []func(c *Circuit){func(c *Circuit) { c.Elements[4].Device.Resistance *= 1.1 }}},
		{"source", Spread{Source: 0.1}, []func(c *Circuit){
			func(c *Circuit) { c.Elements[0].Battery.Resistance *= 1.1 },
			func(c *Circuit) { c.Elements[1].Alternator.Resistance *= 1.1 },
		}},
		{"load", Spread{Load: 0.1}, []func(c *Circuit){
			func(c *Circuit) { c.Elements[5].Load.Resistance *= 1.1 },
			func(c *Circuit) { c.Elements[6].Load.Current *= 1.1 },
			func(c *Circuit) { c.Elements[7].Load.Power *= 1.1 },
			func(c *Circuit) { c.Elements[8].Motor.Load *= 1.1 },
		}},
	} {
		squares := 0.0
		for _, change := range k.change {
			c := base()
			change(&c)
			d := volts(c) - nominal
			if math.Abs(d) < 1e-4 {
				t.Errorf("%s: changes nothing", k.name)
			}
			squares += d * d
		}
		got, err := ExpectReadings(base(), Conditions{}, []Probes{{"c", "-"}, {"-", "c"}}, Voltmeter{Share: 0.01, Fixed: 0.02}, k.spread)
		if err != nil {
			t.Fatal(err)
		}
		for i, sign := range []float64{1, -1} {
			e := got[i]
			meter, model := 0.01*nominal+0.02, math.Sqrt(squares)
			near(t, k.name+": volts", e.Volts.Volts(), sign*nominal, 1e-9)
			near(t, k.name+": meter", e.Meter.Volts(), meter, 1e-9)
			near(t, k.name+": model", e.Model.Volts(), model, 1e-9)
			near(t, k.name+": low", e.Low.Volts(), sign*nominal-meter-model, 1e-9)
			near(t, k.name+": high", e.High.Volts(), sign*nominal+meter+model, 1e-9)
		}
	}
	if TypicalSpread() != (Spread{Cable: 0.04, Contact: 0.5, Device: 0.2, Source: 0.2, Load: 0.1}) {
		t.Errorf("%+v", TypicalSpread())
	}
}
