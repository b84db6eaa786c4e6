package main

import (
	"math"
	"testing"

	"example.com/forepeak/units"
)

// What hangs free is rode and anchor less the water that they displace, here
// worked out by hand for Plover: 70 m of chain, no rope.
func TestLift(t *testing.T) {
	p := planOf(t, string(plover))
	l := p.lift
	const steel, sea, g = 7850.0, 1025.0, 9.80665
	mass := p.rode.Pieces[0].Mass.KilogramsPerMetre()
	deep, roller := 9.0+3.1, 1.7
	hanging := g * (mass*roller + mass*deep*(1-sea/steel) + 33*(1-sea/steel))
	if got := l.hanging.Newtons(); math.Abs(got/hanging-1) > 1e-9 || math.Abs(l.out.Metres()-13.8) > 1e-9 {
		t.Errorf("%v N hang in %v with %v out, by hand %v N", got, l.deep, l.out, hanging)
	}
	if got := l.lifting.Newtons() * 0.85 / l.hanging.Newtons(); math.Abs(got-1) > 1e-9 {
		t.Errorf("at the wheel %v over a roller of 0.85", l.lifting)
	}
	if got := (l.breaking - l.lifting).Newtons() * 0.85 / p.hold.proof.High.Newtons(); math.Abs(got-1) > 1e-9 {
		t.Errorf("breaking out adds %v", l.breaking-l.lifting)
	}
	p.says(t, "The windlass lifts rode and anchor hanging free in 12.1 m with 0.64 of its 3.5 kN; what it pulls stalled is not known")

	with := func(rated string) planned {
		return planOf(t, change(string(plover), `"rated": "3.5 kN"`, rated))
	}
	weak := with(`"rated": "0.5 kN"`)
	if !(weak.lift.reaches > 1*units.Metre && weak.lift.reaches < 9*units.Metre) {
		t.Error(weak.lift.reaches)
	}
	if h, _, err := weak.hangs(weak.lift.reaches); err != nil || h.Scale(1/0.85) > 0.5*units.Kilonewton {
		t.Errorf("%v hang in %v, %v", h, weak.lift.reaches, err)
	}
	weak.says(t, "the windlass is rated for 0.50 kN: use it no deeper than", "Do not count on the windlass to lift rode and anchor in 12.1 m")
	with(`"rated": "0.1 kN"`).says(t, "use it nowhere in the plan")
	with(`"rated": "9 kN"`).says(t, "that breaks out what full astern set (")
	with(`"rated": "3.5 kN", "most": "3.6 kN"`).says(t, "stalled it pulls 3.6 kN, too little to break out what full astern set (")
	with(`"rated": "3.5 kN", "most": "8 kN"`).says(t, "stalled it pulls 8.0 kN, enough to break out")
	unknown := with(`"ropeLeast": "0 mm"`)
	unknown.says(t, "Ask the windlass's maker what it pulls at its rated load: rode and anchor hanging free in 12.1 m want 0.64 kN at the wheel.")
	unknown.saysNot(t, "The windlass lifts")
	planOf(t, change(string(plover), `"rated": "3.5 kN"`, `"rated": "3.5 kN", "roller": 0.7`)).says(t, "A bow roller is taken to pass on 70 % of a pull")
}

// The motor's torque is tied to the pull on the chain by its rated point.
func TestLiftByMotor(t *testing.T) {
	p := planOf(t, without("canvas"))
	l, rated := p.lift, 2.3
	if got := l.torque.NewtonMetres() / 3.5 * rated / l.lifting.Kilonewtons(); math.Abs(got-1) > 1e-9 {
		t.Errorf("%v lift %v", l.torque, l.lifting)
	}
	// Torque is linear in the current, 0 at 12 A and 3.5 N·m at 105 A.
	if want := rated * (p.electrics.stall.Amperes() - 12) / (105 - 12); math.Abs(l.most.Kilonewtons()/want-1) > 1e-9 || l.weak >= l.most || l.weak < l.most/2 {
		t.Errorf("stalled %v, on a tired bank %v, want %v kN", l.most, l.weak, want)
	}
	p.says(t, "so 0.7 N·m on the shaft lift, and the 3.3 N·m that the circuit is worked out for pull 2.17 kN.")
	p.saysNot(t, "put that into the boat file as electrics.pull")
	deep := planOf(t, change(without("canvas", "night", "snubber"), `"pull": "3.3 N·m"`, `"pull": "0.5 N·m"`))
	deep.says(t, "The circuit is worked out for 0.5 N·m on the motor's shaft, and lifting in 15.1 m takes 0.7 N·m: put that into the boat file as electrics.pull.")
}

// Without the motor's rated torque the pull is not tied to the circuit.
func TestLiftWithoutTorque(t *testing.T) {
	p := planOf(t, change(without("canvas", "night", "snubber"), `"torque": "3.5 N·m"`, `"_torque": ""`))
	p.says(t, "the pull on the chain cannot be set against the circuit", "what it pulls stalled is not known")
	p.saysNot(t, "NaN")
	p.saysNot(t, "Inf")
}

// A wheel that does not fit the chain gets no setting for its counter.
func TestWheelDoesNotFit(t *testing.T) {
	p := planOf(t, change(string(plover), `"pitch": "28 mm"`, `"pitch": "30 mm"`))
	p.says(t, "Do not set the chain counter yet: the wheel does not fit the DIN 766 10 mm G40. With a wheel cut for a pitch of 28 mm and 10 mm wire",
		"creeps -12.0 mm over the 6 links", "; all this with a wheel that fits the chain.")
	for _, unwanted := range []string{"Set the chain counter", "Counter set to", "Ways to set it", "the counter reads -"} {
		p.saysNot(t, unwanted)
	}
	demo(t, "plover").says(t, "Set the chain counter to 33.6 cm a turn")
}

// A counter is looked at where its display can stand, whatever its step.
func TestCounterShowsSteps(t *testing.T) {
	p := planOf(t, change(string(plover), `"step": "1 m"`, `"step": "0.7 m"`))
	p.says(t, "when it shows 30.1 m,")
	demo(t, "plover").says(t, "when it shows 30 m,")
}
