package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// slow opens by a time from twice its rating on and by another from four times on.
func slow(rating units.Current, twice, fourTimes units.Time) *Device {
	return &Device{Kind: Breaker, Rating: rating, Resistance: units.Milliohm, Interrupting: 5000, Band: &Band{
		Points: []BandPoint{{2, 0, twice}, {4, 0, fourTimes}}, Tested: true,
	}}
}

// asItIs studies the smallest fault with the bank and the copper of the largest.
func asItIs() FaultStudy {
	return FaultStudy{WarmBank: units.Celsius(25), HotCopper: units.Celsius(20), WeakCharge: 1, ColdBank: units.Celsius(25)}
}

// twoFeeds is two banks of 12 V and 19 milliohm, each with a breaker of a milliohm, on one feeder of 20 milliohm.
func twoFeeds(mm2 float64) Circuit {
	bank := func() *Battery {
		return &Battery{Chemistry: AGM, OpenCircuit: 12, Charge: 1, Resistance: 19 * units.Milliohm}
	}
	return Circuit{Elements: []Element{
		{Name: "bank 1", From: "-", To: "1", Battery: bank()},
		{Name: "bank 2", From: "-", To: "2", Battery: bank()},
		{Name: "breaker 1", From: "1", To: "bus", Device: slow(60, 4, 4)},
		{Name: "breaker 2", From: "2", To: "bus", Device: slow(60, 20, 10)},
		{Name: "feeder", From: "bus", To: "end", Cable: &Cable{Conductor: Conductor{
			Size: "feeder", Area: units.Area(mm2 * 1e-6), Resistance: 0.01, Insulation: units.Celsius(70),
		}, Length: 2}},
		{Name: "lamp", From: "end", To: "-", Load: &Load{Resistance: 10}},
	}}
}

// The course of a fault that two breakers interrupt, by hand. At the far end both banks drive 400 A through the feeder,
// each 200 A or 3.33 times its breaker. The first opens by 4 s, when the second has used 4/20 of its life. Now 300 A flow,
// five times its rating: it has 10 s, of which 0.8 are left: off by 12 s, with 400² 4 + 300² 8 A² s. At the bus each
// breaker takes 600 A, ten times: off by 4 + 0.6 x 10 = 10 s; a hand's breadth into the feeder flow 1200 A and then 600 A.
func TestCourseOfAFault(t *testing.T) {
	// To the digit, with the 10 microhm of the short.
	two, one := 12/(0.01+0.02+1e-5), 12/(0.02+0.02+1e-5)
	bus2, bus1 := 12/(0.01+1e-5), 12/(0.02+1e-5)
	atEnd, atBus := two*two*4+one*one*8, bus2*bus2*4+bus1*bus1*6
	for _, k := range []struct {
		name      string
		mm2       float64
		within    units.Time
		end       bool // the fault at the end is the worst
		protected bool
		because   string
	}{
		{"late", 70, 5, true, false, "is off only after 12.0 s"},
		{"late by a little", 70, 11.999, true, false, "is off only after 12.0 s"},
		{"just in time", 70, 12, true, true, "at most 1.36e+06 A² s pass"},
		{"not late", 70, 120, false, true, "at most 7.91e+06 A² s pass"},
		{"too thin", 16, 60, false, false, "7.91e+06 A² s pass in a short between bus and - until [breaker 1 breaker 2] opened, more than k²S²"},
	} {
		s := asItIs()
		s.Within = k.within
		r, err := StudyFaults(twoFeeds(k.mm2), s)
		if err != nil {
			t.Fatal(err)
		}
		f := cableOf(t, r, "feeder")
		through, peak, after, at := atEnd, two, 12.0, "end"
		if !k.end {
			through, peak, after, at = atBus, bus2, 10, "bus"
		}
		near(t, k.name+": let-through", float64(f.LetThrough), through, 1e-6*through)
		near(t, k.name+": peak", f.Peak.Amperes(), peak, 1e-6*peak)
		near(t, k.name+": left", f.Left.Amperes(), 0, 0.01)
		near(t, k.name+": after", f.Worst.After.Seconds(), after, 1e-9)
		near(t, k.name+": fault", f.Worst.Current.Amperes(), peak, 1e-6*peak)
		// k² S² with k = 226 sqrt(ln(1 + 90/304.5)).
		near(t, k.name+": withstand", float64(f.Withstand), 226*226*math.Log(1+90/304.5)*k.mm2*k.mm2, 1)
		if f.Protected != k.protected || !strings.Contains(f.Because, k.because) || f.Worst.Between != [2]string{at, "-"} || !f.Worst.Off || f.Worst.Weak ||
			!slices.Equal(f.Worst.Opened, []string{"breaker 1", "breaker 2"}) || slices.Contains(r.Unprotected, "feeder") == k.protected {
			t.Errorf("%s: %+v", k.name, f)
		}
		for i, d := range r.Devices {
			near(t, k.name+": largest", d.Largest.Amperes(), 12/((0.019+1e-5)/2+1e-5)/2, 1e-6*bus2) // both breakers links
			near(t, k.name+": smallest", d.Smallest.Amperes(), two/2, 1e-6*two)
			near(t, k.name+": opens", d.Opens.Seconds(), []float64{4, 20}[i], 0)
			if d.Device != fmt.Sprint("breaker ", i+1) || d.At.Between != [2]string{"bus", "-"} || d.At.Weak || d.AtWeak.Between != [2]string{"end", "-"} || !d.AtWeak.Weak ||
				!d.Reached || !d.Breaks || d.Interrupting != 5000 {
				t.Errorf("%s: %+v", k.name, d)
			}
		}
	}
}

// What a cable carries for ever may flow on; a fault that leaves more is not protected. And a device breaks what it is
// made for, not more.
func TestFaultsAtTheirLimits(t *testing.T) {
	// Breaker 2 opens at nothing less than 30 times: 300 A stay in the feeder.
	c := twoFeeds(70)
	c.Elements[3].Device = slow(60, 0, 0)
	c.Elements[3].Device.Band.Points = []BandPoint{{30, 0, 1}}
	study := func(carries units.Current) (CableFaults, FaultReport) {
		s := asItIs()
		s.Within = 60
		s.Carries = map[string]units.Current{"feeder": carries}
		r, err := StudyFaults(c, s)
		if err != nil {
			t.Fatal(err)
		}
		return cableOf(t, r, "feeder"), r
	}
	f, r := study(0)
	if f.Protected || f.Worst.Off || f.Worst.After != 0 || !slices.Equal(r.Unprotected, []string{"feeder"}) ||
		!strings.Contains(f.Because, "600 A still flow after a short between bus and - and [breaker 1] opened") {
		t.Errorf("%+v", f)
	}
	left := f.Left
	near(t, "left", left.Amperes(), 600, 0.6)
	if r.Devices[1].Reached || r.Devices[1].Opens != 0 || r.Devices[1].Smallest == 0 {
		t.Errorf("%+v", r.Devices[1])
	}
	// Exactly what stays is allowed, and less is not. (What flowed before breaker 1 opened is allowed for 4 s.)
	if f, _ = study(left); !f.Protected {
		t.Errorf("%+v", f)
	}
	if f, _ = study(left.Scale(1 - 1e-9)); f.Protected {
		t.Errorf("%+v", f)
	}
	// Nothing that ever flows is more than 1200 A.
	peak := units.Current(0)
	if f, _ = study(2000); f.Protected && strings.Contains(f.Because, "no fault drives more than 1.20 kA through it") {
		peak = f.Peak
	} else {
		t.Errorf("%+v", f)
	}
	if f, _ = study(peak); !strings.Contains(f.Because, "no fault drives more than") {
		t.Errorf("%+v", f)
	}
	if f, _ = study(peak.Scale(1 - 1e-9)); !strings.Contains(f.Because, "pass") {
		t.Errorf("%+v", f)
	}

	largest := r.Devices[0].Largest
	for _, k := range []struct {
		interrupting units.Current
		breaks       bool
	}{{largest, true}, {largest.Scale(1 - 1e-9), false}, {0, false}} {
		d := *c.Elements[2].Device
		d.Interrupting = k.interrupting
		c.Elements[2].Device = &d
		if _, r = study(0); r.Devices[0].Breaks != k.breaks || r.Devices[0].Interrupting != k.interrupting {
			t.Errorf("%v: %+v", k.interrupting, r.Devices[0])
		}
	}
}

// A joint in the return, 2 m from the post, lies beside the feeder at 2 m of its 6: the feeder is parted there. Behind the
// fuse of 8 milliohm the copper has 8.21 milliohm a metre.
func TestFaultAlongACable(t *testing.T) {
	wire := Conductor{Size: "2.5 mm²", Area: 2.5e-6, Resistance: 8.21e-3, Insulation: units.Celsius(70)}
	fuse := fuseOf(10, BandBlade)
	fuse.Resistance = 8 * units.Milliohm
	for _, mirrored := range []bool{false, true} {
		c := Circuit{Elements: []Element{
			{Name: "out", From: "fuse out", To: "lamp +", Cable: &Cable{Conductor: wire, Length: 6}},
			{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12.8, Charge: 1, Resistance: 5 * units.Milliohm}},
			{Name: "fuse", From: "+", To: "fuse out", Device: &fuse},
			{Name: "lamp", From: "lamp +", To: "lamp -", Load: &Load{Resistance: 4}},
			{Name: "back 1", From: "lamp -", To: "joint", Cable: &Cable{Conductor: wire, Length: 4}},
			{Name: "back 2", From: "joint", To: "-", Cable: &Cable{Conductor: wire, Length: 2}},
		}}
		if mirrored { // the joint in the positive, the fuse in the negative
			for i := range c.Elements {
				e := &c.Elements[i]
				if e.Battery == nil {
					e.From, e.To = e.To, e.From
				} else {
					b := *e.Battery
					e.From, e.To, e.Battery = e.To, e.From, &b
				}
			}
		}
		s := asItIs()
		s.Within = 1
		r, err := StudyFaults(c, s)
		if err != nil {
			t.Fatal(err)
		}
		// What flows through the first hand's breadth of "back 1" from the joint is the current of a short there.
		want := 12.8 / (0.005 + 0.008 + 1e-5 + 4*8.21e-3)
		k := cableOf(t, r, "back 1")
		near(t, "short at the joint", k.Worst.Current.Amperes(), want, 1e-6)
		near(t, "into the cable behind it", k.Peak.Amperes(), want, 1e-6)
		near(t, "let-through", float64(k.LetThrough), 0.1*want*want, 1e-3)
		cut := "out at 2.00 m"
		if between := k.Worst.Between; !slices.Contains(between[:], "joint") || !slices.Contains(between[:], cut) || (between[1] == "joint") == mirrored {
			t.Errorf("between %q", between)
		}
		// The lamp's end is the farthest: 12 m.
		near(t, "smallest", r.Devices[0].Smallest.Amperes(), 12.8/(0.005+0.008+1e-5+12*8.21e-3), 1e-6)
		// Behind the fuse, at the post, both cables that end there see 12.8 V over bank and fuse.
		near(t, "first stretch", cableOf(t, r, "out").Peak.Amperes(), 12.8/(0.005+0.008+1e-5), 1e-6)
	}
}

// A return that is shorter than the way out: what lies beyond it meets its far end, 3 m and not 1 m from the post.
func TestFaultBeyondTheReturn(t *testing.T) {
	wire := Conductor{Size: "2.5 mm²", Area: 2.5e-6, Resistance: 8.21e-3, Insulation: units.Celsius(70)}
	fuse := fuseOf(10, BandBlade)
	fuse.Resistance = 8 * units.Milliohm
	r, err := StudyFaults(Circuit{Elements: []Element{
		{Name: "bank", From: "-", To: "+", Battery: &Battery{Chemistry: AGM, OpenCircuit: 12.8, Charge: 1, Resistance: 5 * units.Milliohm}},
		{Name: "fuse", From: "+", To: "fuse out", Device: &fuse},
		{Name: "out", From: "fuse out", To: "lamp +", Cable: &Cable{Conductor: wire, Length: 6}},
		{Name: "lamp", From: "lamp +", To: "lamp -", Load: &Load{Resistance: 4}},
		{Name: "back 1", From: "lamp -", To: "joint", Cable: &Cable{Conductor: wire, Length: 2}},
		{Name: "back 2", From: "joint", To: "-", Cable: &Cable{Conductor: wire, Length: 1}},
	}}, asItIs())
	if err != nil {
		t.Fatal(err)
	}
	d := r.Devices[0]
	near(t, "smallest", d.Smallest.Amperes(), 12.8/(0.005+0.008+1e-5+9*8.21e-3), 1e-6)
	if d.AtWeak.Between != [2]string{"lamp +", "lamp -"} {
		t.Errorf("%+v", d)
	}
}

// With the hull joined to the negative, the positive meets it 0.2 m from the post, wherever the return lies.
func TestFaultToTheHull(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements = append(c.Elements, Element{Name: "earth", From: "-", To: "hull", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}})
	r, err := StudyFaults(c, asItIs())
	if err != nil {
		t.Fatal(err)
	}
	// To the bond's other end no bond is on the way; the fuse is a link.
	near(t, "largest", r.Devices[0].Largest.Amperes(), 12.8/(0.005+1e-5+1e-5+0.2*8.21e-3), 1e-6)
	// The lamp's far end against the hull: 6.2 m and no return.
	fault, err := FaultCurrents(c, "lamp +", "hull", asItIs())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "to the hull", fault.High.Amperes(), 12.8/(0.005+0.008+1e-5+0.001+6.2*8.21e-3), 1e-6)
	near(t, "the same weak", fault.Low.Amperes(), fault.High.Amperes(), 1e-9)
	// Asked the other way round it flows the other way.
	back, err := FaultCurrents(c, "hull", "lamp +", FaultStudy{})
	if err != nil {
		t.Fatal(err)
	}
	there, err := FaultCurrents(c, "lamp +", "hull", FaultStudy{})
	if err != nil || !(back.Low < back.High) {
		t.Fatalf("%v, error %v", back, err)
	}
	near(t, "most back", back.Low.Amperes(), -there.High.Amperes(), 1e-6)
	near(t, "least back", back.High.Amperes(), -there.Low.Amperes(), 1e-6)
	if at := r.Devices[0].AtWeak.Between; at != [2]string{"lamp +", "lamp -"} {
		t.Errorf("the smallest is between %q", at)
	}
}

// The weak bank is empty and cold, its copper hot; what is weaker already stays as it is. The
// strong one is full and warm.
func TestWeakFaults(t *testing.T) {
	c := lampCircuit(0.2, 6)
	b := *c.Elements[0].Battery
	c.Elements[0].Battery = &b
	b.OpenCircuit = 0
	b.Charge, b.Temperature = 0.1, units.Celsius(-15)
	s := FaultStudy{WeakCharge: 0.5, ColdBank: units.Celsius(0), HotCopper: units.Celsius(80)}
	volts, ohm := 11.88-40*6*0.2e-3, 0.005*1.9*math.Pow(2, 40.0/43)
	i, err := FaultCurrents(c, "lamp +", "lamp -", s)
	if err != nil {
		t.Fatal(err)
	}
	full, warm := 12.8+15*6*0.2e-3, 0.005*math.Pow(2, -15.0/43)
	near(t, "strong", i.High.Amperes(), full/(warm+0.008+1e-5+12.4*8.21e-3), 1e-6)
	near(t, "weak", i.Low.Amperes(), volts/(ohm+0.008+1e-5+12.4*8.21e-3*314.5/254.5), 1e-6)
	b.Charge, b.Temperature = 1, 0
	volts, ohm = 12.3-25*6*0.2e-3, 0.005*1.5*math.Pow(2, 25.0/43)
	if i, err = FaultCurrents(c, "lamp +", "lamp -", s); err != nil {
		t.Fatal(err)
	}
	near(t, "strong", i.High.Amperes(), full/(warm+0.008+1e-5+12.4*8.21e-3), 1e-6)
	b.Temperature = units.Celsius(50) // hotter than the study's
	if i, err = FaultCurrents(c, "lamp +", "lamp -", s); err != nil {
		t.Fatal(err)
	}
	near(t, "hot", i.High.Amperes(), (12.8+25*6*0.2e-3)/(0.005*math.Pow(2, -25.0/43)+0.008+1e-5+12.4*8.21e-3), 1e-6)
	b.Temperature = 0
	// What was measured stays where it is more than the curve says of a full bank.
	b.OpenCircuit = 13
	if i, err = FaultCurrents(c, "lamp +", "lamp -", s); err != nil {
		t.Fatal(err)
	}
	near(t, "measured", i.High.Amperes(), 13/(warm+0.008+1e-5+12.4*8.21e-3), 1e-6)
	near(t, "weak", i.Low.Amperes(), volts/(ohm+0.008+1e-5+12.4*8.21e-3*314.5/254.5), 1e-6)
	// A flooded bank has no curve below a tenth, and keeps the voltage that was measured.
	b.Chemistry, b.OpenCircuit = Flooded, 12.5
	s.WeakCharge = 0.05
	ohm = 0.005 * 1.95 * math.Pow(2, 25.0/43)
	if i, err = FaultCurrents(c, "lamp +", "lamp -", s); err != nil {
		t.Fatal(err)
	}
	near(t, "weak flooded", i.Low.Amperes(), 12.5/(ohm+0.008+1e-5+12.4*8.21e-3*314.5/254.5), 1e-6)
	s.WeakCharge = 0.1 // the curve begins: 1.918 V a cell
	ohm = 0.005 * 1.9 * math.Pow(2, 25.0/43)
	if i, err = FaultCurrents(c, "lamp +", "lamp -", s); err != nil {
		t.Fatal(err)
	}
	near(t, "weak flooded with its curve", i.Low.Amperes(), (6*1.918-25*6*0.2e-3)/(ohm+0.008+1e-5+12.4*8.21e-3*314.5/254.5), 1e-6)
	// The caller's circuit is as it was.
	if b.Charge != 1 || b.OpenCircuit != 12.5 || c.Elements[1].Cable.Temperature != 0 || c.Elements[4].Load == nil {
		t.Errorf("%+v", c)
	}
}

// Names that are taken already are no reason to mistake one element for another.
func TestFaultsKeepNamesApart(t *testing.T) {
	c := twoFeeds(70)
	want, err := StudyFaults(c, asItIs())
	if err != nil {
		t.Fatal(err)
	}
	c.Elements[0].Name, c.Elements[1].Name = "fault", "fault'"
	got, err := StudyFaults(c, asItIs())
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	// A source that is shorted by design has no faults, and a second fault is no first.
	c = twoFeeds(70)
	c.Elements = append(c.Elements, Element{Name: "strap", From: "bus", To: "-", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}})
	if got, err = StudyFaults(c, asItIs()); err != nil || got.Devices[0].Largest != 0 || len(got.Unprotected) > 0 || got.Cables[0].Because != "no fault drives a current through it" {
		t.Errorf("%+v, error %v", got, err)
	}
}

// The reference of the voltages is a matter of words: nothing about the hull depends on it.
func TestCheckHullReference(t *testing.T) {
	w := testWindlass(t)
	w.Hull.Bond = 3 * units.Milliohm
	w.Hull.Bonding = 20 * units.Milliohm
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	study := HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}, Least: 1e5, Cases: []string{"windlass case"}}
	want, err := CheckHull(c, study)
	if err != nil {
		t.Fatal(err)
	}
	// The fault flows through bonding and bond: the case lies on the share of the bonding.
	k := want.Cases[0]
	near(t, "touch", k.Touch.Volts(), k.Current.Amperes()*0.020, 1e-6*k.Touch.Volts()+1e-6)
	for _, node := range []string{"", "bank +", "hull", "motor A", "solenoid -"} {
		c.Reference = node
		got, err := CheckHull(c, study)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "touch against "+node, got.Cases[0].Touch.Volts(), k.Touch.Volts(), 1e-9)
		for i := range got.Poles {
			near(t, "reading against "+node, got.Poles[i].Reads.Volts(), want.Poles[i].Reads.Volts(), 1e-9)
			near(t, "fault against "+node, got.Poles[i].Current.Amperes(), want.Poles[i].Current.Amperes(), 1e-6)
		}
		if !slices.Equal(got.Findings, want.Findings) {
			t.Errorf("against %s: %q, want %q", node, got.Findings, want.Findings)
		}
	}
}

// The findings of a hull, each with the words that say what it is about, and no others.
func TestCheckHullFindings(t *testing.T) {
	leak := func(name, from, to string, r units.Resistance) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: Leakage, Resistance: r}}
	}
	bond := func(name, from, to string) Element {
		return Element{Name: name, From: from, To: to, Contact: &Contact{Role: Bond, Resistance: units.Milliohm}}
	}
	wet := []Element{leak("wet +", "+", "hull", 1e6), leak("wet -", "-", "hull", 2e6)}
	for _, k := range []struct {
		name  string
		more  []Element
		study HullStudy
		want  []string
	}{
		{"dry", wet, HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}}, []string{
			"a fault of the positive pole to the hull drives 0.00640 mA: no device opens and nothing shows it",
			"a fault of the negative pole to the hull drives 0.0128 mA: no device opens and nothing shows it",
		}},
		{"enough at the limit", wet, HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Least: 999e3}, []string{
			"of the positive pole", "of the negative pole",
		}},
		{"too little", wet, HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Least: 1.5e6}, []string{
			"of the positive pole", "of the negative pole", "the positive pole has 1.00 MΩ to the hull, less than 1.50 MΩ",
		}},
		{"noticed", wet, HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Noticed: 10e-6}, []string{
			"a fault of the positive pole to the hull drives 0.00640 mA: no device opens and nothing",
			"a fault of the negative pole to the hull drives 0.0128 mA and no device opens",
		}},
		{"no isolator", wet, HullStudy{Node: "hull"}, []string{"of the positive pole", "of the negative pole", "no isolator is named"}},
		{"one pole", wet, HullStudy{Node: "hull", Isolator: []string{"cable to fuse"}}, []string{
			"of the positive pole", "of the negative pole", `with the isolator open ["lamp -"] stay joined to the bank`,
		}},
		{"joined", []Element{bond("earth", "-", "hull")}, HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}}, []string{
			"a fault of the positive pole to the hull drives 2.13 kA and no device opens", "the negative pole is joined to the hull",
		}},
		{"a case", append(slices.Clone(wet), leak("winding", "lamp +", "case", 1e6), bond("strap", "case", "hull")), HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Cases: []string{"case"}, Least: 1e6}, []string{
			"of the positive pole", "of the negative pole", "the positive pole has 500 kΩ", "a fault of the winding to case drives 0.00640 mA: no device opens and nothing shows it",
		}},
		{"a loose case", append(slices.Clone(wet), leak("winding", "lamp +", "case", 0.9e6)), HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Cases: []string{"case"}, Least: 0.95e6}, []string{
			"of the positive pole", "of the negative pole", "case is not bonded to the hull", "case has 900 kΩ to its winding, less than 950 kΩ", "a fault of the winding to case",
		}},
		{"an unknown case", append(slices.Clone(wet), bond("strap", "case", "hull")), HullStudy{Node: "hull", Isolator: []string{"cable to fuse", "cable back"}, Cases: []string{"case"}}, []string{
			"of the positive pole", "of the negative pole", "what is in case is not known",
		}},
	} {
		c := lampCircuit(0.2, 6)
		c.Elements = append(c.Elements, k.more...)
		r, err := CheckHull(c, k.study)
		if err != nil {
			t.Fatal(err)
		}
		ok := len(r.Findings) == len(k.want)
		for i := 0; ok && i < len(k.want); i++ {
			ok = strings.Contains(r.Findings[i], k.want[i])
		}
		if !ok {
			t.Errorf("%s: %q, want %q", k.name, r.Findings, k.want)
		}
	}
}

// Insulation, leakage and readings of a hull, by the divider that the two insulations are.
func TestCheckHullByHand(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements[4].Load.Resistance = 1e9
	c.Elements = append(c.Elements,
		Element{Name: "wet +", From: "+", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 3e6}},
		Element{Name: "wet -", From: "hull", To: "-", Contact: &Contact{Role: Leakage, Resistance: 1e6}},
		Element{Name: "plate", From: "hull", To: "keel", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}},
		Element{Name: "wet keel", From: "keel", To: "-", Contact: &Contact{Role: Leakage, Resistance: 1e6}},
		Element{Name: "damp paint", From: "keel", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 1e3}},
	)
	r, err := CheckHull(c, HullStudy{Node: "hull", Least: 500e3})
	if err != nil {
		t.Fatal(err)
	}
	plus, minus := r.Poles[0], r.Poles[1]
	// 3 Mohm against 0.5 Mohm: the two insulations of the negative side by side.
	near(t, "insulation +", plus.Insulation.Ohms(), 3e6, 1)
	near(t, "insulation -", minus.Insulation.Ohms(), 0.5e6, 1)
	near(t, "fault +", plus.Current.Amperes(), 12.8/0.5e6, 1e-10)
	near(t, "fault -", minus.Current.Amperes(), 12.8/3e6, 1e-10)
	near(t, "leakage", r.Leakage.Amperes(), 12.8/3.5e6, 1e-10)
	par := func(a, b float64) float64 { return a * b / (a + b) }
	near(t, "reading +", plus.Reads.Volts(), 12.8*par(3e6, 1e7)/(par(3e6, 1e7)+0.5e6), 1e-6)
	near(t, "reading -", minus.Reads.Volts(), -12.8*par(0.5e6, 1e7)/(par(0.5e6, 1e7)+3e6), 1e-6)
	if !plus.Positive || minus.Positive || !plus.Enough || !r.TwoWire || plus.Joined || minus.Joined {
		t.Errorf("%+v", r)
	}
	// Exactly what is asked is enough.
	if r, err = CheckHull(c, HullStudy{Node: "hull", Least: minus.Insulation}); err != nil || !r.Poles[1].Enough {
		t.Errorf("%+v, error %v", r, err)
	}
	if r, err = CheckHull(c, HullStudy{Node: "hull", Least: minus.Insulation.Scale(1 + 1e-9)}); err != nil || r.Poles[1].Enough || !r.Poles[0].Enough {
		t.Errorf("%+v, error %v", r, err)
	}
	// A dry hull has a gigohm at most.
	c.Elements = c.Elements[:len(lampCircuit(1, 1).Elements)]
	c.Elements = append(c.Elements, Element{Name: "wet +", From: "+", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 1e11}},
		Element{Name: "wet -", From: "-", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 1e11}})
	if r, err = CheckHull(c, HullStudy{Node: "hull"}); err != nil {
		t.Fatal(err)
	}
	near(t, "dry +", r.Poles[0].Insulation.Ohms(), 1e9, 0)
	near(t, "dry -", r.Poles[1].Insulation.Ohms(), 1e9, 0)
	// One pole on the hull: it has no insulation, the other its own.
	c.Elements = append(c.Elements[:len(c.Elements)-1], Element{Name: "earth", From: "-", To: "hull", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}})
	if r, err = CheckHull(c, HullStudy{Node: "hull"}); err != nil {
		t.Fatal(err)
	}
	if r.TwoWire || !r.Poles[1].Joined || r.Poles[1].Enough || r.Poles[1].Insulation != 0 || r.Poles[1].Current != 0 || r.Poles[1].Opens != nil {
		t.Errorf("%+v", r.Poles)
	}
	near(t, "joined reads", r.Poles[1].Reads.Volts(), 0, 1e-6)
	near(t, "the other reads", r.Poles[0].Reads.Volts(), 12.8, 1e-6)
}

// Two windings in one case: both count for its insulation, the worse for the fault.
func TestCheckHullTwoWindings(t *testing.T) {
	c := lampCircuit(0.2, 6)
	c.Elements = append(c.Elements,
		Element{Name: "earth", From: "-", To: "hull", Contact: &Contact{Role: Bond, Resistance: units.Milliohm}},
		Element{Name: "strap", From: "case", To: "hull", Contact: &Contact{Role: Bond, Resistance: 50 * units.Milliohm}},
		Element{Name: "winding", From: "lamp +", To: "case", Contact: &Contact{Role: Leakage, Resistance: 2e6}},
		Element{Name: "feed", From: "fuse in", To: "case", Contact: &Contact{Role: Leakage, Resistance: 3e6}},
		Element{Name: "not in the case", From: "+", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 1e6}},
	)
	for range 2 {
		r, err := CheckHull(c, HullStudy{Node: "hull", Cases: []string{"case"}, Least: 1e6})
		if err != nil {
			t.Fatal(err)
		}
		k := r.Cases[0]
		near(t, "insulation", k.Insulation.Ohms(), 1.2e6, 1e-3)
		near(t, "bonding", k.Bonding.Ohms(), 0.05, 1e-12)
		amps := 12.8 / (0.005 + 0.2*8.21e-3 + 1e-5 + 0.05 + 0.001)
		near(t, "fault", k.Current.Amperes(), amps, 1e-4)
		near(t, "touch", k.Touch.Volts(), amps*0.05, 1e-5)
		if !k.Enough || !k.Bonded || len(k.Opens) > 0 { // before the fuse
			t.Errorf("%+v", k)
		}
		// The order of the windings is nothing.
		n := len(c.Elements)
		c.Elements[n-2], c.Elements[n-3] = c.Elements[n-3], c.Elements[n-2]
	}
}

// A band that must open only from a current on is asked with the weak bank, device by device.
func TestHuntAtTheEdgesOfABand(t *testing.T) {
	d := Device{Kind: Breaker, Rating: 10, Resistance: units.Milliohm, Band: &Band{Points: []BandPoint{{2, 1, 5}, {4, 0.5, 2}}, Tested: true}}
	for _, k := range []struct {
		after units.Time
		want  Cause
	}{{0.999, CauseNeither}, {1, CauseStall}, {5, CauseStall}, {5.001, CauseOverload}} {
		// 20 A at a stall, opening within 1 to 5 s; a short below what opens it says nothing.
		got, err := TellTrip(d, units.Interval[units.Current]{Low: 20, High: 20}, units.Interval[units.Current]{Low: 5, High: 9}, k.after)
		if err != nil || got != k.want {
			t.Errorf("after %v: %s, error %v, want %s", k.after, got, err, k.want)
		}
	}
	for _, k := range []struct {
		after units.Time
		want  Cause
	}{{0.4, CauseNeither}, {0.5, CauseShort}, {5, CauseShort}, {5.01, CauseNeither}} {
		// A short of 20 to 40 A: not before the soonest of the greatest, not after the latest of the least.
		got, err := TellTrip(d, units.Interval[units.Current]{Low: 8, High: 8}, units.Interval[units.Current]{Low: 20, High: 40}, k.after)
		if err != nil || got != k.want {
			t.Errorf("after %v: %s, error %v, want %s", k.after, got, err, k.want)
		}
	}
	standing := ohms{Low: 2, High: 3}
	for _, k := range []struct {
		low, high units.Resistance
		want      Cause
	}{
		{0, 1.999, CauseShort},
		{1, 2, CauseEither},
		{1.999, 5, CauseEither},
		{2, 2, CauseStall},
		{2, 9, CauseStall},
		{3, 9, CauseStall},
		{3.001, 9, CauseNeither},
	} {
		got, err := TellResistance(ohms{Low: k.low, High: k.high}, standing)
		if err != nil || got != k.want {
			t.Errorf("%v to %v: %s, error %v, want %s", k.low, k.high, got, err, k.want)
		}
	}
}

// Two bands by hand: the upper one opens at four times 50 A within 2 to 9 s, the lower by 1 s from 100 A on.
func TestSelectiveByHand(t *testing.T) {
	upper := Device{Kind: Fuse, Rating: 50, Resistance: 1e-3, Band: &Band{Points: []BandPoint{{2, 5, 20}, {4, 2, 9}, {10, 0.1, 1}}, Tested: true}}
	lower := Device{Kind: Breaker, Rating: 10, Resistance: 1e-3, Band: &Band{Points: []BandPoint{{2, 0, 4}, {10, 0, 1}}, Tested: true}}
	for _, k := range []struct {
		prospective units.Current
		full        bool
		upTo        float64
	}{
		// Up to 50 A the upper one holds. To 100 A it opens no sooner than after 5 s, and the lower by 4 s.
		{40, true, 40},
		{99, true, 99},
		{100, true, 100},
		// From 100 A on the lower opens by 1 s, the upper not before 2 s up to 200 A; beyond, not before 0.1 s.
		{200, true, 200},
		{200.1, false, 200},
		{1000, false, 200},
	} {
		s, err := Selective(upper, lower, k.prospective)
		if err != nil || s.Full != k.full {
			t.Errorf("%v: %+v, error %v", k.prospective, s, err)
		}
		near(t, fmt.Sprint("up to, of ", k.prospective), s.UpTo.Amperes(), k.upTo, 1e-6)
		near(t, "upper", s.Upper.Multiple, k.upTo/50, 1e-6)
		near(t, "lower", s.Lower.Multiple, k.upTo/10, 1e-6)
		if !k.full && (s.Upper.Earliest != 0.1 || s.Lower.Latest != 1) {
			t.Errorf("%v: %+v", k.prospective, s)
		}
	}
	// At exactly 20 A both open at 5 s: not one before the other. Lost as soon as the lower device opens at all, it is
	// lost from there on.
	same := Device{Kind: Fuse, Rating: 10, Resistance: 1, Band: &Band{Points: []BandPoint{{2, 5, 5}}}}
	if s, err := Selective(same, same, 20); err != nil || s.Full {
		t.Errorf("%+v, error %v", s, err)
	}
	never := Device{Kind: Breaker, Rating: 60, Resistance: 1, Band: &Band{Points: []BandPoint{{100, 0, 5}}}}
	if s, err := Selective(upper, never, 500); err != nil || s.Full || s.UpTo != 0 || s.Upper.Multiple != 1.2 || s.Lower.Multiple != 1 {
		t.Errorf("%+v, error %v", s, err)
	}
	if _, err := Selective(upper, never, 60); !errors.Is(err, ErrInput) {
		t.Errorf("error %v", err)
	}
}

// Copper that works hotter than it may be after a fault is refused under its cable.
func TestFaultsNeedAWithstand(t *testing.T) {
	for _, k := range []struct {
		final units.Temperature
		ok    bool
	}{{units.Celsius(70.1), true}, {units.Celsius(70), false}, {units.Celsius(60), false}} {
		_, err := StudyFaults(lampCircuit(0.2, 6), FaultStudy{Final: k.final})
		if e := new(Error); (err == nil) != k.ok || err != nil && (!errors.As(err, &e) || e.Field != "Elements[1] (cable to fuse).final") {
			t.Errorf("%v: error %v", k.final, err)
		}
	}
	// A cable without an insulation is taken for one of 70 °C, and of two in parallel one must stand it.
	c := lampCircuit(0.2, 6)
	for _, i := range []int{1, 3} {
		k := *c.Elements[i].Cable
		k.Conductor.Insulation, k.Parallel = 0, 2*(i/3)
		c.Elements[i].Cable = &k
	}
	r, err := StudyFaults(c, FaultStudy{})
	if err != nil {
		t.Fatal(err)
	}
	k2 := 226 * 226 * math.Log(1+90/304.5)
	near(t, "withstand", float64(cableOf(t, r, "cable to fuse").Withstand), k2*2.5*2.5, 1e-6)
	near(t, "withstand of one of two", float64(cableOf(t, r, "cable on").Withstand), k2*2.5*2.5, 1e-6)
	if r, err = StudyFaults(c, FaultStudy{Final: ThermosetLimit}); err != nil {
		t.Fatal(err)
	}
	near(t, "withstand to 250 °C", float64(cableOf(t, r, "cable to fuse").Withstand), 226*226*math.Log(1+180/304.5)*2.5*2.5, 1e-6)
}
