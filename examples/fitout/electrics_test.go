package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"strings"
	"testing"
)

// The drawings show what the voltmeter's table says, and name the conditions.
func TestDrawingsAgreeWithReadings(t *testing.T) {
	p := demo(t, "dunlin")
	e := p.electrics
	if len(e.readings) == 0 {
		t.Fatal("no readings")
	}
	for _, r := range e.readings {
		if v := e.solution.Nodes[r.Probes.Red] - e.solution.Nodes[r.Probes.Black]; math.Abs((v - r.Volts).Volts()) > 1e-9 {
			t.Errorf("%+v: the drawing has %v, the table %v", r.Probes, v, r.Volts)
		}
	}
	var circuit, control bytes.Buffer
	if err := p.drawCircuit(&circuit); err != nil {
		t.Fatal(err)
	}
	if err := p.drawControl(&control); err != nil {
		t.Fatal(err)
	}
	for _, b := range []*bytes.Buffer{&circuit, &control} {
		if !strings.Contains(b.String(), "hauling, copper at 33 °C, volts against bank -") {
			t.Error("the title does not say the conditions")
		}
	}
	if !strings.Contains(circuit.String(), "case to hull") {
		t.Error("the bond is not drawn")
	}
}

// What the cable was sized with beside it is what the circuit has beside it.
func TestBesideCable(t *testing.T) {
	p := demo(t, "dunlin")
	e := p.electrics
	if e.fuse == nil {
		t.Fatal("no fuse at the bank")
	}
	ohms := 0.0
	for _, d := range e.drop.Parts {
		if d.Name != "bank" && !strings.HasPrefix(d.Name, "cable ") {
			ohms += d.Drop.Volts() / d.Current.Amperes()
		}
	}
	if math.Abs(ohms-e.need.Others.Ohms()) > 1e-9 {
		t.Errorf("%v ohm beside the cable, sized with %v", ohms, e.need.Others)
	}
}

// circuitOf is the circuit of Dunlin with some of her electrics changed, and what the report says of it.
func circuitOf(t *testing.T, change map[string]any) (*plan, string) {
	t.Helper()
	var file map[string]any
	if err := json.Unmarshal(dunlin, &file); err != nil {
		t.Fatal(err)
	}
	delete(file, "canvas")
	spec := file["electrics"].(map[string]any)
	for k, v := range change {
		if spec[k] = v; v == nil {
			delete(spec, k)
		}
	}
	data, err := json.Marshal(file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := read(data)
	if err != nil {
		t.Fatal(err)
	}
	s := &section{}
	if err := p.writeElectrics(s); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, w := range s.Warn {
		b.WriteString("! " + w + "\n")
	}
	for _, d := range s.Do {
		b.WriteString("- " + d + "\n")
	}
	for _, block := range s.Blocks {
		b.WriteString(block.Text + "\n")
	}
	return p, b.String()
}

// Banks and cables other than Dunlin's are judged by what holds for them.
func TestOtherCircuits(t *testing.T) {
	lithium := map[string]any{
		"chemistry": "lithium iron phosphate", "cells": 4, "resistance": "1.5 mΩ", "capacity": "600 Ah", "peukert": 1.02, "cranking": nil,
	}
	with := func(more map[string]any) map[string]any {
		m := maps.Clone(lithium)
		maps.Copy(m, more)
		return m
	}
	half := map[string]any{ // half the current at twice the voltage
		"system": "24 V", "cells": 12, "resistance": "6 mΩ", "capacity": "115 Ah", "breaker": "60 A", "leastVolts": "21 V",
		"noLoad": map[string]any{"current": "6 A", "speed": "2870 rpm"},
		"rated":  map[string]any{"current": "52.5 A", "speed": "2100 rpm", "torque": "3.5 N·m"},
	}
	for name, c := range map[string]struct {
		change      map[string]any
		says, quiet []string
	}{
		"lithium that says nothing of its switch": {lithium, []string{"own switch must carry 100 A for 4 min", "alternator", "13.6 kA of the bank, full and warm"}, []string{"cranking current) and"}},
		"lithium that switches itself off":        {with(map[string]any{"carries": "100 A", "peak": "200 A"}), []string{"it may open in the middle of a haul"}, nil},
		"lithium that carries it":                 {with(map[string]any{"carries": "200 A", "peak": "400 A"}), []string{"own switch carries the haul"}, []string{"in the middle of a haul"}},
		"cable of 70 °C":                          {map[string]any{"insulation": "70 °C"}, []string{"bolted fuse"}, nil},
		"a bank beyond the rule":                  {map[string]any{"capacity": "600 Ah"}, []string{"ABYC E-11 has no class"}, nil},
		"a breaker at the bank": {
			map[string]any{"toBreaker": "0.15 m", "breaks": "2 kA"},
			[]string{"breaker is next to the bank and breaks 2.0 kA, less than the 5.4 kA", "Put the breaker of 110 A where it was planned"},
			[]string{"bolted fuse"},
		},
		"24 V": {half, []string{"kA²s or less there", "fuse of 60 A at the bank before the breaker"}, []string{"nothing interrupts a short"}},
		"48 V": {
			map[string]any{
				"system": "48 V", "cells": 24, "resistance": "20 mΩ", "capacity": "60 Ah", "cranking": "500 A", "breaker": "30 A", "leastVolts": "42 V",
				"noLoad": map[string]any{"current": "3 A", "speed": "2870 rpm"},
				"rated":  map[string]any{"current": "26 A", "speed": "2100 rpm", "torque": "3.5 N·m"},
			},
			[]string{"ABYC E-11 has no class", "Wire the windlass with 4 mm²"},
			nil,
		},
		"a full cable route": {nil, []string{"lock each other out", "from the alternator there are"}, []string{"lithium"}},
	} {
		p, text := circuitOf(t, c.change)
		for _, s := range c.says {
			if !strings.Contains(text, s) {
				t.Errorf("%s: %q is not said in\n%s", name, s, text)
			}
		}
		for _, s := range c.quiet {
			if strings.Contains(text, s) {
				t.Errorf("%s: %q is said in\n%s", name, s, text)
			}
		}
		if e := p.electrics; e.aided <= e.weakVolts {
			t.Errorf("%s: the engine does not help: %v, %v", name, e.aided, e.weakVolts)
		}
	}
}

// With equal leaks and nothing pressed the hull lies in the middle: the motor floats. A voltmeter of 10 MΩ
// takes (1/10)/(2 + 1/10) off.
func TestHullReadsAtRest(t *testing.T) {
	e := demo(t, "dunlin").electrics
	want := e.drop.EMF.Volts() / 2.1
	for i, sign := range []float64{1, -1} {
		if got := sign * e.rest.Poles[i].Reads.Volts(); math.Abs(got-want) > 1e-3 {
			t.Errorf("pole %d: %.4f V, want %.4f V", i, got, want)
		}
	}
}

// The wire to the buttons begins at the breaker, where its fuse is.
func TestControlWire(t *testing.T) {
	p := demo(t, "dunlin")
	spec, sum := p.boat.Electrics, 0.0
	for _, e := range p.electrics.circuit.Elements {
		if e.Cable != nil && (e.Name == "control wire to foredeck" || e.Name == "control wire haul from foredeck") {
			sum += e.Cable.Length.Metres()
		}
	}
	if want := (spec.OneWay - spec.ToBreaker + 4).Metres(); math.Abs(sum-want) > 1e-9 {
		t.Errorf("%.2f m from the breaker to the buttons and the solenoid, want %.2f m", sum, want)
	}
}

// What nobody is asked for is listed, and a rule is not called law where it is none.
func TestAssumed(t *testing.T) {
	d := demo(t, "dunlin")
	d.says(t, "Control wire: 2 m from the solenoid to the buttons on the foredeck", "The alternator's regulator holds 14.1 V.",
		"law in the United States, and there for boats with petrol (gasoline) inboard engines only",
		"100 kΩ is a practice for a boat in use, no rule's number.", "100 kΩ or more (practice); new, 500 kΩ")
	demo(t, "plover").saysNot(t, "regulator")
	p := planOf(t, change(without("canvas"), `"chemistry": "AGM lead-acid"`, `"chemistry": "lithium iron phosphate"`, `"cells": 6`, `"cells": 4`, `"metalHull": true`, `"metalHull": false`))
	p.says(t, "The alternator's regulator holds 14.0 V.")
	p.saysNot(t, "to the hull, and so does the winding")
}
