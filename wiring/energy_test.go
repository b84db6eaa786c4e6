package wiring_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// twoBanks is a lithium bank with a disconnect and a lead-acid bank, joined, feeding a
// windlass and the plotter.
func twoBanks() wiring.Circuit {
	return wiring.Circuit{Elements: []wiring.Element{
		{Name: "lithium", From: "-", To: "lithium +", Battery: &wiring.Battery{
			Chemistry: wiring.LithiumPhosphate, Cells: 4, Charge: 0.8, Resistance: 3 * units.Milliohm, Capacity: 200 * units.AmpereHour,
			Disconnect: &wiring.Disconnect{
				Resistance: 0.5 * units.Milliohm, Continuous: 100, Peak: 200, PeakTime: 30 * units.Second,
				LowVoltage: 10 * units.Volt, LowTemperature: units.Celsius(-20),
			},
		}},
		{Name: "link", From: "lithium +", To: "+", Contact: &wiring.Contact{Role: wiring.Isolator, Resistance: 0.2 * units.Milliohm}},
		{Name: "windlass", From: "+", To: "-", Motor: &wiring.Motor{
			Type: wiring.PermanentMagnet, Resistance: 25 * units.Milliohm, Flux: 0.05, Efficiency: 0.9, Drag: 0.5, Load: 5,
		}},
		{Name: "plotter", From: "+", To: "-", Load: &wiring.Load{Power: 30}},
	}}
}

func TestCheckDisconnects(t *testing.T) {
	c := twoBanks()
	start := wiring.Conditions{Standing: []string{"windlass"}}
	pull := wiring.Conditions{}
	idle := wiring.Conditions{Open: []string{"windlass"}}
	phases := func(p ...wiring.Phase) []wiring.Phase { return p }
	both := []string{"windlass", "plotter"}
	type answer struct {
		Opens bool
		After units.Time
		Dark  []string
	}
	for name, k := range map[string]struct {
		phases []wiring.Phase
		want   []answer
	}{
		// 13.3 V over 28.7 mohm is above the peak: open at once.
		"start": {phases(wiring.Phase{At: start, For: units.Second}), []answer{{true, 0, both}}},
		// The pull, 122 A, is carried for 30 s.
		"short pull":              {phases(wiring.Phase{At: pull, For: 20 * units.Second}), []answer{{}}},
		"long pull":               {phases(wiring.Phase{At: pull, For: units.Minute}), []answer{{true, 30 * units.Second, both}}},
		"two pulls":               {phases(wiring.Phase{At: pull, For: 20 * units.Second}, wiring.Phase{At: pull, For: 20 * units.Second}), []answer{{}, {true, 10 * units.Second, both}}},
		"two pulls with a rest":   {phases(wiring.Phase{At: pull, For: 20 * units.Second}, wiring.Phase{At: idle, For: 1}, wiring.Phase{At: pull, For: 20 * units.Second}), []answer{{}, {}, {}}},
		"nothing but the plotter": {phases(wiring.Phase{At: idle, For: units.Hour}), []answer{{}}},
	} {
		got, err := wiring.CheckDisconnects(c, k.phases)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var short []answer
		for _, g := range got {
			short = append(short, answer{g.Opens, g.After, g.Dark})
		}
		if d := cmp.Diff(k.want, short); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}

	// A lead-acid bank beside it keeps the lights on, and pulls the windlass too.
	c.Elements = append(c.Elements, wiring.Element{Name: "lead", From: "-", To: "+", Battery: &wiring.Battery{
		Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 4 * units.Milliohm, Capacity: 100 * units.AmpereHour,
	}})
	c.Elements[0].Battery.Temperature = units.Celsius(-25)
	got, err := wiring.CheckDisconnects(c, phases(wiring.Phase{Name: "pull", At: pull, For: units.Second}))
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 1 || !got[0].Opens || got[0].Dark != nil || got[0].Rest != "" {
		t.Errorf("cold lithium bank beside a lead-acid one: %+v", got)
	}
}

// The voltage at the posts falls by what the current drops inside, 3.5 mohm with the disconnect, a little
// more for what is out of the bank: 13.3 - 122*0.0037 is 12.85 V.
func TestDisconnectForLowVoltage(t *testing.T) {
	for _, k := range []struct {
		limit units.Voltage
		opens bool
	}{{12.8, false}, {12.9, true}} {
		c := twoBanks()
		c.Elements[0].Battery.Disconnect.LowVoltage = k.limit
		got, err := wiring.CheckDisconnects(c, []wiring.Phase{{For: units.Second}})
		if err != nil {
			t.Fatal(err)
		}
		if got[0].Opens != k.opens || k.opens && (got[0].After != 0 || !strings.Contains(got[0].Why, "at the posts, limit 12.9 V")) {
			t.Errorf("limit %v: %+v", k.limit, got)
		}
	}
}

// The bank that stays cannot feed the plotter alone, and that is said instead of refused.
func TestDisconnectLeavesTooLittle(t *testing.T) {
	c := twoBanks()
	c.Elements[0].Battery.Disconnect.LowVoltage = 13.5
	c.Elements = append(c.Elements, wiring.Element{Name: "radio's battery", From: "-", To: "+", Battery: &wiring.Battery{
		Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 2 * units.Ohm, Capacity: units.AmpereHour,
	}})
	got, err := wiring.CheckDisconnects(c, []wiring.Phase{{At: wiring.Conditions{Open: []string{"windlass"}}, For: units.Second}})
	if err != nil {
		t.Fatal(err)
	}
	// 12.8 V over 2 ohm give at most 20 W, and the plotter asks for 30.
	if len(got) != 1 || !got[0].Opens || got[0].Dark != nil || !strings.Contains(got[0].Rest, "(plotter).Load.Power") {
		t.Errorf("%+v", got)
	}
}

// At each of its limits a disconnect holds, just beyond it opens.
func TestDisconnectAtItsLimits(t *testing.T) {
	c := oneLoad(13, 10*units.Milliohm, wiring.Element{Load: &wiring.Load{Resistance: 0.1}})
	b := c.Elements[0].Battery
	b.Temperature = units.Celsius(-5)
	limits := wiring.Disconnect{Resistance: units.Milliohm, Continuous: 1000, Peak: 1000}
	b.Disconnect = &limits
	st, err := wiring.Solve(c, wiring.Conditions{})
	if err != nil {
		t.Fatal(err)
	}
	amps, volts := st.Branches[0].Current, -st.Branches[0].Drop
	const less, more = 1 - 1e-9, 1 + 1e-9
	for _, k := range []struct {
		name  string
		set   func(d *wiring.Disconnect)
		phase units.Time
		opens bool
		after units.Time
		why   string
	}{
		{"continuous", func(d *wiring.Disconnect) { d.Continuous = amps }, units.Hour, false, 0, ""},
		{"above continuous, not long enough", func(d *wiring.Disconnect) { d.Continuous, d.PeakTime = amps.Scale(less), 10 }, 10, false, 0, ""},
		{"above continuous", func(d *wiring.Disconnect) { d.Continuous, d.PeakTime = amps.Scale(less), 10 }, 10.001, true, 10, "for more than 10.0 s"},
		{"peak", func(d *wiring.Disconnect) { d.Continuous, d.Peak, d.PeakTime = amps.Scale(0.5), amps, 10 }, 10, false, 0, ""},
		{"above peak", func(d *wiring.Disconnect) { d.Continuous, d.Peak, d.PeakTime = amps.Scale(0.5), amps.Scale(less), 10 }, 1, true, 0, "peak"},
		{"voltage", func(d *wiring.Disconnect) { d.LowVoltage = volts }, 1, false, 0, ""},
		{"below voltage", func(d *wiring.Disconnect) { d.LowVoltage = volts.Scale(more) }, 1, true, 0, "at the posts"},
		{"temperature", func(d *wiring.Disconnect) { d.LowTemperature = units.Celsius(-5) }, 1, false, 0, ""},
		{"below temperature", func(d *wiring.Disconnect) { d.LowTemperature = units.Celsius(-4.99) }, 1, true, 0, "battery at"},
	} {
		d := limits
		k.set(&d)
		b.Disconnect = &d
		got, err := wiring.CheckDisconnects(c, []wiring.Phase{{Name: "work", For: k.phase}})
		if err != nil || len(got) != 1 {
			t.Fatalf("%s: %+v, error %v", k.name, got, err)
		}
		o := got[0]
		if o.Opens != k.opens || o.After != k.after || !strings.Contains(o.Why, k.why) || (o.Why == "") == k.opens || o.Phase != "work" || o.Battery != "battery" {
			t.Errorf("%s: %+v", k.name, o)
		}
		if o.Current != amps || o.Posts != volts {
			t.Errorf("%s: %v and %v, want %v and %v", k.name, o.Current, o.Posts, amps, volts)
		}
	}

	// The caller's list of what is open is not written into, be there room in it or not.
	open := make([]string, 1, 4)
	b.Disconnect = &wiring.Disconnect{Resistance: units.Milliohm, Continuous: 1, Peak: 1}
	open[0] = "spare"
	c.Elements = append(c.Elements, wiring.Element{Name: "spare", From: "+", To: "-", Load: &wiring.Load{Resistance: 1}})
	if got, err := wiring.CheckDisconnects(c, []wiring.Phase{{For: 1, At: wiring.Conditions{Open: open}}}); err != nil || !got[0].Opens || open[:2][1] != "" {
		t.Errorf("%+v, error %v, %q", got, err, open[:2])
	}
	c.Elements = c.Elements[:2]

	// Three pulls of 4 s without a rest: 2 s of the third are left of 10 s. A rest, or the bank switched off,
	// begins anew, and so does what opened.
	d := limits
	d.Continuous, d.PeakTime = amps.Scale(0.9), 10
	b.Disconnect = &d
	pull := wiring.Phase{For: 4}
	rest := wiring.Phase{For: 4, At: wiring.Conditions{Open: []string{"load"}}}
	off := wiring.Phase{For: 4, At: wiring.Conditions{Open: []string{"battery"}}}
	long := wiring.Phase{For: 11}
	for _, k := range []struct {
		name   string
		phases []wiring.Phase
		after  []units.Time // -1: holds
	}{
		{"three pulls", []wiring.Phase{pull, pull, pull}, []units.Time{-1, -1, 2}},
		{"a rest", []wiring.Phase{pull, pull, rest, pull}, []units.Time{-1, -1, -1, -1}},
		{"switched off", []wiring.Phase{pull, pull, off, pull}, []units.Time{-1, -1, -1}},
		{"after it opened", []wiring.Phase{long, pull, pull}, []units.Time{10, -1, -1}},
	} {
		got, err := wiring.CheckDisconnects(c, k.phases)
		if err != nil {
			t.Fatal(err)
		}
		var after []units.Time
		for _, o := range got {
			if o.Opens {
				after = append(after, o.After)
			} else {
				after = append(after, -1)
			}
		}
		if d := cmp.Diff(k.after, after); d != "" {
			t.Errorf("%s: %s", k.name, d)
		}
	}
}

// With the lithium bank gone the small one turns no windlass: the motor stands, at 12.8 V * 25/125, and is named. A lamp
// that never had voltage is not, nor is what is switched off.
func TestDisconnectStallsTheWindlass(t *testing.T) {
	c := twoBanks()
	c.Elements[0].Battery.Disconnect.Peak, c.Elements[0].Battery.Disconnect.Continuous = 50, 50
	c.Elements[3].Load = &wiring.Load{Resistance: 10}
	c.Elements = append(c.Elements,
		wiring.Element{Name: "small", From: "-", To: "+", Battery: &wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 100 * units.Milliohm}},
		wiring.Element{Name: "wet wire", From: "+", To: "far", Contact: &wiring.Contact{Role: wiring.Leakage, Resistance: 1e6}},
		wiring.Element{Name: "far lamp", From: "far", To: "-", Load: &wiring.Load{Resistance: 10}},
		wiring.Element{Name: "radio", From: "+", To: "-", Load: &wiring.Load{Resistance: 10}},
	)
	got, err := wiring.CheckDisconnects(c, []wiring.Phase{{For: 1, At: wiring.Conditions{Open: []string{"radio"}}}})
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 1 || !got[0].Opens || !cmp.Equal(got[0].Dark, []string{"windlass"}) {
		t.Errorf("%+v", got)
	}
}

// What the one bank leaves cannot feed the plotter; the other bank is judged all the same.
func TestDisconnectJudgesTheOther(t *testing.T) {
	c := twoBanks()
	c.Elements[0].Battery.Disconnect.LowVoltage = 13.5
	c.Elements = append(c.Elements, wiring.Element{Name: "radio's battery", From: "-", To: "+", Battery: &wiring.Battery{
		Chemistry: wiring.AGM, Cells: 6, Charge: 1, Resistance: 2 * units.Ohm,
		Disconnect: &wiring.Disconnect{Resistance: units.Milliohm, Continuous: 10, Peak: 10, LowVoltage: 5},
	}})
	got, err := wiring.CheckDisconnects(c, []wiring.Phase{{At: wiring.Conditions{Open: []string{"windlass"}}, For: units.Second}})
	if err != nil {
		t.Fatal(err)
	}
	// It holds beside the lithium bank, which charges it: 13.3 V less 12.8 V over 2 ohm.
	if len(got) != 2 || !got[0].Opens || got[0].Rest == "" || got[1].Opens || math.Abs(float64(got[1].Current)+0.25) > 0.01 || math.Abs(float64(got[1].Posts)-13.3) > 0.02 {
		t.Errorf("%+v", got)
	}
	c.Elements[4].Battery.Disconnect.LowTemperature = units.Celsius(26)
	if got, err = wiring.CheckDisconnects(c, []wiring.Phase{{For: units.Second}}); err != nil || !got[0].Opens || !got[1].Opens || got[1].Dark == nil {
		t.Errorf("%+v, error %v", got, err)
	}
}

// An empty bank is said to be empty, and a full one takes no more.
func TestRetrieveEmptyAndFull(t *testing.T) {
	bank := func(charge float64) wiring.Circuit {
		c := oneLoad(0, 4*units.Milliohm, wiring.Element{Load: &wiring.Load{Resistance: 1.2}})
		*c.Elements[0].Battery = wiring.Battery{Chemistry: wiring.AGM, Cells: 6, Charge: charge, Resistance: 4 * units.Milliohm, Capacity: 100 * units.AmpereHour}
		return c
	}
	// Some 10 A take 10 Ah in an hour and 15 Ah in one and a half.
	if _, err := wiring.Withdraw(bank(0.12), []wiring.Phase{{For: units.Hour}}); err != nil {
		t.Error(err)
	}
	_, err := wiring.Withdraw(bank(0.12), []wiring.Phase{{For: units.Hour.Scale(1.5)}})
	refused(t, "empty", err, wiring.ErrRange, "Elements[0] (battery).Battery.Charge")
	c := bank(0.99)
	c.Elements = append(c.Elements, wiring.Element{Name: "alternator", From: "-", To: "+", Alternator: &wiring.Alternator{Voltage: 14.2, Limit: 30, Resistance: 10 * units.Milliohm}})
	got, err := wiring.Withdraw(c, []wiring.Phase{{For: units.Hour}})
	if err != nil {
		t.Fatal(err)
	}
	if w := got[0]; w.Charge != 1 || math.Abs(w.Taken.AmpereHours()+1) > 1e-9 || w.Out.AmpereHours() > -10 {
		t.Errorf("%+v, want 1 Ah taken up of 18", w)
	}
}

func TestRetrieve(t *testing.T) {
	c := twoBanks()
	b := c.Elements[0].Battery
	b.Chemistry, b.Cells, b.Charge, b.Peukert, b.Disconnect = wiring.Flooded, 6, 0.9, 1.2, nil
	got, err := wiring.Withdraw(c, []wiring.Phase{{Name: "pull", For: 15 * units.Minute}, {Name: "rest", At: wiring.Conditions{Open: []string{"windlass", "plotter"}}, For: 5 * units.Minute}})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: the motor's torque needs 5.5/(0.9*0.05) = 122.2 A, the plotter some 2.6 A at 11.8 V.
	amps := 5.5/0.045 + 30/11.75
	rated := 200.0 / 20
	taken := amps * math.Pow(amps/rated, 0.2) * 0.25 // Ah in a quarter of an hour
	if math.Abs(got[0].Out.AmpereHours()-amps*0.25) > 0.01*amps*0.25 {
		t.Errorf("%.4g Ah out, want about %.4g", got[0].Out.AmpereHours(), amps*0.25)
	}
	if math.Abs(got[0].Taken.AmpereHours()-taken) > 0.01*taken {
		t.Errorf("%.4g Ah taken, want about %.4g", got[0].Taken.AmpereHours(), taken)
	}
	if want := 0.9 - got[0].Taken.AmpereHours()/200; math.Abs(got[0].Charge-want) > 1e-12 {
		t.Errorf("charge %v, want %v", got[0].Charge, want)
	}
	if !(got[0].End < got[0].Begin && got[1].End > got[0].End && got[1].Taken == 0) {
		t.Errorf("no sag and recovery: %+v", got)
	}
	// The circuit of the caller is as it was.
	if b.Charge != 0.9 {
		t.Errorf("the caller's battery was discharged to %v", b.Charge)
	}

	// With the engine running the alternator takes part of the load.
	c.Elements = append(c.Elements, wiring.Element{Name: "alternator", From: "-", To: "+", Alternator: &wiring.Alternator{Voltage: 14.2, Limit: 90, Resistance: 10 * units.Milliohm}})
	running, err := wiring.Withdraw(c, []wiring.Phase{{For: 15 * units.Minute}})
	if err != nil {
		t.Fatal(err)
	}
	if r := running[0].Taken.Per(got[0].Taken); !(r > 0 && r < 0.4) {
		t.Errorf("with 90 A of 125 A from the alternator %.3g of the charge is taken", r)
	}

	b.Charge = 0.11
	if _, err := wiring.Withdraw(c, []wiring.Phase{{At: wiring.Conditions{Open: []string{"alternator"}}, For: units.Hour}}); !errors.Is(err, wiring.ErrRange) {
		t.Errorf("error %v for an empty battery, want %v", err, wiring.ErrRange)
	}
}

// At the rated current a battery lasts its rated time, and half the time at a greater current
// takes half the capacity.
func TestPeukertProperties(t *testing.T) {
	for _, k := range []float64{1, 1.05, 1.25, 1.4} {
		b := wiring.Battery{Capacity: 100 * units.AmpereHour, RatedOver: 20 * units.Hour, Peukert: k}
		run, err := b.RunTime(5 * units.Ampere)
		if err != nil || math.Abs(run.Hours()-20) > 1e-9 {
			t.Errorf("k=%g: %v at the rated current, %v", k, run, err)
		}
		heavy, err := b.RunTime(60 * units.Ampere)
		if err != nil {
			t.Fatal(err)
		}
		taken, err := b.ChargeTaken(60*units.Ampere, heavy.Scale(0.5))
		if err != nil || math.Abs(taken.Per(b.Capacity)-0.5) > 1e-12 {
			t.Errorf("k=%g: half the run takes %v (%v)", k, taken, err)
		}
		back, err := wiring.PeukertExponent(wiring.Spell{Current: 5, For: 20 * units.Hour}, wiring.Spell{Current: 60, For: heavy})
		if err != nil || math.Abs(back-k) > 1e-12 {
			t.Errorf("k=%g comes back as %g (%v)", k, back, err)
		}
	}
}
