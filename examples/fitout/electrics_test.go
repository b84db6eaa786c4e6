package main

import (
	"bytes"
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
