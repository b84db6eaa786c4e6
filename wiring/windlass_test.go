package wiring_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// netlist is one line for each element: between which nodes, what it is, and how large.
func netlist(c Circuit) []string {
	var all []string
	for _, e := range c.Elements {
		what := ""
		switch {
		case e.Battery != nil:
			what = "battery"
		case e.Cable != nil:
			what = fmt.Sprintf("%s of %.4g m", e.Cable.Conductor.Size, e.Cable.Length.Metres())
		case e.Contact != nil:
			what = fmt.Sprintf("%s of %.4g mΩ", e.Contact.Role, e.Contact.Resistance.Milliohms())
			if e.Contact.Open {
				what += " open"
			}
			if e.Contact.Of != "" {
				what += " (" + e.Contact.Of + ")"
			}
		case e.Device != nil:
			what = fmt.Sprintf("%s of %g A", e.Device.Kind, e.Device.Rating.Amperes())
		case e.Load != nil:
			what = fmt.Sprintf("load of %g Ω", e.Load.Resistance.Ohms())
		case e.Motor != nil:
			what = "motor"
		}
		if e.Control {
			what += ", control"
		}
		all = append(all, fmt.Sprintf("%s: %s > %s, %s", e.Name, e.From, e.To, what))
	}
	return all
}

// The whole circuit, part by part, with everything that it can have: 9.5 m one way, 2.6 m of them to the breaker.
func TestWindlassNetlist(t *testing.T) {
	w := testWindlass(t)
	fuse := fuseOf(160, BandBolted)
	w.Fuse, w.ToMotor = &fuse, 1.5*units.Metre
	w.Hull = &Hull{Positive: 1, Negative: 2, Case: 3, Bonding: 4, Bond: 5}
	w.Switches[1].On = 3
	main := []string{
		"bank: bank - > bank +, battery",
		"battery fuse: bank + > fuse out, fuse of 160 A",
		"isolator +: fuse out > isolator + out, isolator of 0.2 mΩ (isolator)",
		"lug 1 of cable to breaker: isolator + out > cable to breaker 1, lug of 0.1 mΩ",
		"cable to breaker: cable to breaker 1 > cable to breaker 2, 50 mm² of 2.6 m",
		"lug 2 of cable to breaker: cable to breaker 2 > breaker in, lug of 0.1 mΩ",
		"breaker: breaker in > breaker out, breaker of 100 A",
		"lug 1 of cable forward: breaker out > cable forward 1, lug of 0.1 mΩ",
		"cable forward: cable forward 1 > cable forward 2, 50 mm² of 6.9 m",
		"lug 2 of cable forward: cable forward 2 > solenoid +, lug of 0.1 mΩ",
		"solenoid haul +: solenoid + > solenoid A, solenoid of 0.3 mΩ (reversing solenoid)",
		"solenoid haul -: solenoid B > solenoid -, solenoid of 0.3 mΩ (reversing solenoid)",
		"solenoid lower +: solenoid + > solenoid B, solenoid of 0.3 mΩ open (reversing solenoid)",
		"solenoid lower -: solenoid A > solenoid -, solenoid of 0.3 mΩ open (reversing solenoid)",
		"lug 1 of motor lead A: solenoid A > motor lead A 1, lug of 0.1 mΩ",
		"motor lead A: motor lead A 1 > motor lead A 2, 50 mm² of 1.5 m",
		"lug 2 of motor lead A: motor lead A 2 > motor A, lug of 0.1 mΩ",
		"lug 1 of motor lead B: solenoid B > motor lead B 1, lug of 0.1 mΩ",
		"motor lead B: motor lead B 1 > motor lead B 2, 50 mm² of 1.5 m",
		"lug 2 of motor lead B: motor lead B 2 > motor B, lug of 0.1 mΩ",
		"motor: motor A > motor B, motor",
		"lug 1 of cable back: solenoid - > cable back 1, lug of 0.1 mΩ",
		"cable back: cable back 1 > cable back 2, 50 mm² of 9.5 m",
		"lug 2 of cable back: cable back 2 > isolator - out, lug of 0.1 mΩ",
		"isolator -: isolator - out > bank -, isolator of 0.2 mΩ (isolator)",
	}
	control := []string{
		"control fuse: breaker out > control +, fuse of 3 A, control",
		"control wire to deck: control + > deck in, 1 mm² of 2 m, control",
		"deck haul button: deck in > deck haul, switch of 20 mΩ (deck buttons), control",
		"control wire haul from deck: deck haul > coil haul, 1 mm² of 2 m, control",
		"deck lower button: deck in > deck lower, switch of 20 mΩ open (deck buttons), control",
		"control wire lower from deck: deck lower > coil lower, 1 mm² of 2 m, control",
		"control wire to cockpit: control + > cockpit in, 1 mm² of 11 m, control",
		"cockpit haul button: cockpit in > cockpit haul, switch of 20 mΩ open (cockpit buttons), control",
		"control wire haul from cockpit: cockpit haul > coil haul, 1 mm² of 3 m, control",
		"cockpit lower button: cockpit in > cockpit lower, switch of 20 mΩ open (cockpit buttons), control",
		"control wire lower from cockpit: cockpit lower > coil lower, 1 mm² of 3 m, control",
		"coil haul: coil haul > solenoid -, load of 12 Ω, control",
		"coil lower: coil lower > solenoid -, load of 12 Ω, control",
	}
	hull := []string{
		"leakage +: breaker out > hull, leakage of 1000 mΩ",
		"leakage -: solenoid - > hull, leakage of 2000 mΩ",
		"winding to case: motor A > windlass case, leakage of 3000 mΩ",
		"case to hull: windlass case > hull, bond of 4000 mΩ",
		"negative to hull: bank - > hull, bond of 5000 mΩ",
	}
	swap := func(lines []string, pairs ...string) []string {
		all := slices.Clone(lines)
		for i := range all {
			for k := 0; k < len(pairs); k += 2 {
				all[i] = strings.ReplaceAll(all[i], pairs[k], pairs[k+1])
			}
		}
		return all
	}
	// without leaves out the lines that begin with one of some names.
	without := func(lines []string, names ...string) []string {
		return slices.DeleteFunc(slices.Clone(lines), func(s string) bool {
			return slices.ContainsFunc(names, func(n string) bool { return strings.HasPrefix(s, n) })
		})
	}
	openHaul := func(lines []string) []string {
		all := slices.Clone(lines)
		for i, s := range all {
			if strings.HasPrefix(s, "solenoid haul") || strings.HasPrefix(s, "deck haul button") {
				all[i] = strings.Replace(s, " (", " open (", 1)
			}
		}
		return all
	}
	closeLower := func(lines []string) []string {
		all := slices.Clone(lines)
		for i, s := range all {
			if strings.HasPrefix(s, "solenoid lower") || strings.HasPrefix(s, "deck lower button") {
				all[i] = strings.Replace(s, " open (", " (", 1)
			}
		}
		return all
	}
	all := slices.Concat(main, control, hull)
	for _, k := range []struct {
		name   string
		does   Working
		change func(w *Windlass)
		want   []string
	}{
		{"hauling", Hauling, func(*Windlass) {}, all},
		{"resting", Resting, func(*Windlass) {}, openHaul(all)},
		{"lowering", Lowering, func(*Windlass) {}, swap(closeLower(openHaul(all)), "motor: motor A > motor B", "motor: motor B > motor A")},
		{"no fuse", Hauling, func(w *Windlass) { w.Fuse = nil }, swap(without(all, "battery fuse"), "fuse out", "bank +")},
		{"one pole", Hauling, func(w *Windlass) { w.OnePole = true }, swap(without(all, "isolator -:"), "isolator - out", "bank -")},
		{"no isolator", Hauling, func(w *Windlass) { w.Isolator = 0 }, swap(without(all, "isolator"), "isolator - out", "bank -", "isolator + out", "fuse out")},
		{"solenoid on the motor", Hauling, func(w *Windlass) { w.ToMotor = 0 }, swap(without(all, "motor lead", "lug 1 of motor lead", "lug 2 of motor lead"), "solenoid A", "motor A", "solenoid B", "motor B")},
		{"no control", Hauling, func(w *Windlass) { w.Coil, w.Switches = 0, nil }, slices.Concat(main, hull)},
		{"no hull", Hauling, func(w *Windlass) { w.Hull = nil }, slices.Concat(main, control)},
		{"a bond alone", Hauling, func(w *Windlass) { w.Hull = &Hull{Bond: 5} }, slices.Concat(main, control, hull[4:])},
	} {
		v := w
		k.change(&v)
		c, err := v.Circuit(k.does)
		if err != nil {
			t.Errorf("%s: %v", k.name, err)
			continue
		}
		got := netlist(c)
		for i := range max(len(got), len(k.want)) {
			var a, b string
			if i < len(got) {
				a = got[i]
			}
			if i < len(k.want) {
				b = k.want[i]
			}
			if a != b {
				t.Errorf("%s: got %q, want %q", k.name, a, b)
				break
			}
		}
		if c.Reference != "bank -" {
			t.Errorf("%s: the reference is %q", k.name, c.Reference)
		}
	}
	// The circuit owns its parts.
	c, err := w.Circuit(Hauling)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range c.Elements {
		if e.Device != nil {
			e.Device.Rating = 1
		}
		if e.Battery != nil {
			e.Battery.Charge = 0
		}
		if e.Motor != nil {
			e.Motor.Load = 0
		}
	}
	if w.Breaker.Rating != 100 || w.Fuse.Rating != 160 || w.ControlFuse.Rating != 3 || w.Bank.Charge != 0.9 || w.Motor.Load != 3 {
		t.Errorf("%+v", w)
	}
	// A part that no circuit can have is refused under its element.
	w.Lug = 0
	_, err = w.Circuit(Hauling)
	if e := new(Error); !errors.As(err, &e) || e.Field != "Elements[3] (lug 1 of cable to breaker).Contact.Resistance" {
		t.Errorf("error %v", err)
	}
}

// The choice of a second fuse, by hand: 1.6 times a breaker of 50 A are 80 A.
func TestSecondFuseByHand(t *testing.T) {
	for _, k := range []struct {
		name        string
		series      Ratings
		ampacity    units.Current
		rating      float64 // 0: none
		coordinated bool
		near        units.Current
		findings    []string
	}{
		{"just", Ratings{60, 80, 100}, 80, 80, true, 3000, []string{"the bands alone"}},
		{"the next", Ratings{60, 79.9, 100}, 100, 100, true, 3000, []string{"the bands alone"}},
		{"not allowed", Ratings{60, 80, 100}, 79.9, 60, false, 3000, []string{"no fuse of 1.6 times", "the bands alone"}},
		{"none so large", Ratings{50, 60}, 500, 60, false, 3000, []string{"no fuse of 1.6 times", "the bands alone"}},
		{"as large as the breaker", Ratings{50, 80}, 79, 50, false, 3000, []string{"no fuse of 1.6 times", "the bands alone"}},
		{"smaller than the breaker", Ratings{49, 80}, 79, 0, false, 3000, nil},
		{"nothing allowed", Ratings{80}, 79, 0, false, 3000, nil},
		{"breaks less", Ratings{80}, 80, 80, true, 3000.001, []string{"the bands alone", "not known to break 3.00 kA"}},
	} {
		p, err := ProposeFuse(SecondFuse{
			Breaker: thermal(50), Cable: Cable{Conductor: Conductor{Area: 35e-6, Resistance: 1e-3}}, Rules: ISO, Ampacity: k.ampacity, System: 12,
			Series: k.series, Band: BandBolted, Interrupting: 3000, Resistance: 0.3e-3, Stall: 300, Near: k.near, Far: 800,
		})
		if k.rating == 0 {
			if e := new(Error); !errors.Is(err, ErrRating) || !errors.As(err, &e) || e.Field != "Ampacity" || !strings.Contains(e.Want, "at least the breaker's 50.0 A") {
				t.Errorf("%s: error %v", k.name, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", k.name, err)
			continue
		}
		if p.Fuse.Rating.Amperes() != k.rating || p.Fuse.Kind != Fuse || p.Fuse.Interrupting != 3000 || p.Fuse.Resistance != 0.3e-3 || p.Coordinated != k.coordinated || p.Breaks != (k.near <= 3000) {
			t.Errorf("%s: %+v", k.name, p)
		}
		ok := len(p.Findings) == len(k.findings)
		for i := 0; ok && i < len(k.findings); i++ {
			ok = strings.Contains(p.Findings[i], k.findings[i])
		}
		if !ok {
			t.Errorf("%s: %q, want %q", k.name, p.Findings, k.findings)
		}
	}
}
