package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Section is a stretch of a faulty circuit between two places where it can be parted.
type Section struct {
	Name string
	// Likelihood that the fault is here, in any unit: only ratios count. Length, age,
	// chafing points, water and recent work speak for a section.
	Likelihood float64
}

// Joint is a place between two sections where the circuit can be parted.
type Joint struct {
	Name   string
	Effort units.Time // to reach it, part it, test and make it again
}

// Method is how each test is made. None closes the breaker onto the fault again.
type Method string

// Methods of testing.
const (
	// ByResistance: supply isolated on both poles, meter between the conductors of the
	// part that is cut off.
	ByResistance Method = "resistance, supply isolated"
	// ByLamp: a lamp of the system's voltage in place of the device, so that no more than
	// its current flows: bright while the short is connected, dim or out when it is not.
	// A standing motor is as good as a short to a lamp: its leads have to be parted.
	ByLamp Method = "lamp in place of the device"
	// BySmallFuse: a fuse of a few amperes in place of the device, which has to break the
	// whole current of the short: a blade fuse in the hand may not.
	BySmallFuse Method = "small fuse in place of the device"
)

// Hunt is the order of tests that takes the least work on average.
type Hunt struct {
	Method   Method
	Expected units.Time // average labour
	Worst    units.Time // labour on the longest way through the tests
	First    *Test
	Caution  string
}

// Test is one joint to part, or the section where the fault must be.
type Test struct {
	Section    string  `json:",omitempty"` // set at an end: nothing left to test
	Likelihood float64 // that the hunt gets here

	Joint  string     `json:",omitempty"`
	Effort units.Time `json:",omitempty"`
	Near   *Test      `json:",omitempty"` // when the fault is still there with the joint parted
	Far    *Test      `json:",omitempty"` // when it is gone
}

const huntCaution = "Isolate the supply on both poles before parting a joint. Do not close the breaker onto the fault to test: " +
	"test by resistance with the supply isolated, or through a lamp. A small fuse in its place must be made " +
	"to break what the bank drives into a short, thousands of amperes, in a closed holder. Part the motor's leads first: " +
	"standing, it looks like a short. Wear eye protection and no rings. Work on a battery circuit can burn and start fires; if in doubt leave it to a qualified marine electrician."

// PlanHunt orders the tests for one fault in a circuit of sections in line, from
// the supply on, with joints[i] between sections[i] and sections[i+1]. Parting a
// joint tells whether the fault lies before or behind it. The order has the least
// expected labour, by dynamic programming over all runs of sections:
//
//	E(i,k) = min over j of effort(j) P(i..k) + E(i,j) + E(j+1,k)
//
// A branch counts as the section that it hangs on. Equal likelihoods and efforts give the fewest tests. There must be one fault only:
// when it is found and mended, test the whole again.
func PlanHunt(sections []Section, joints []Joint, by Method) (Hunt, error) {
	var c checker
	n := len(sections)
	must(&c, n >= 1 && n <= 300, "sections", fmt.Sprint(n, " sections"), "1 to 300")
	must(&c, len(joints) == n-1, "joints", fmt.Sprint(len(joints), " joints"), "one between each two sections")
	must(&c, by == ByResistance || by == ByLamp || by == BySmallFuse, "by", fmt.Sprintf("%q", by), "one of the methods")
	sum := 0.0
	for i, s := range sections {
		f := fmt.Sprintf("sections[%d].Likelihood", i)
		notNegative(&c, f, s.Likelihood)
		sum += s.Likelihood
	}
	must(&c, sum > 0, "sections", "of no likelihood", "one that may be at fault")
	for i, j := range joints {
		f := fmt.Sprintf("joints[%d].Effort", i)
		notNegative(&c, f, j.Effort)
		must(&c, j.Effort == 0 || j.Effort >= 1e-6, f, j.Effort.String(), "0, or a microsecond and more")
	}
	if c.err != nil {
		return Hunt{}, c.err
	}
	before := make([]float64, n+1) // likelihood of all sections before i
	for i, s := range sections {
		before[i+1] = before[i] + s.Likelihood/sum
	}
	cost := make([][]float64, n)
	at := make([][]int, n)
	for i := range n {
		cost[i], at[i] = make([]float64, n), make([]int, n)
	}
	for width := 1; width < n; width++ {
		for i := 0; i+width < n; i++ {
			k := i + width
			cost[i][k] = math.Inf(1)
			for j := i; j < k; j++ {
				e := joints[j].Effort.Seconds()*(before[k+1]-before[i]) + cost[i][j] + cost[j+1][k]
				if e < cost[i][k] {
					cost[i][k], at[i][k] = e, j
				}
			}
		}
	}
	var tree func(i, k int) (*Test, float64)
	tree = func(i, k int) (*Test, float64) {
		t := &Test{Likelihood: before[k+1] - before[i]}
		if i == k {
			t.Section = sections[i].Name
			return t, 0
		}
		j := at[i][k]
		t.Joint, t.Effort = joints[j].Name, joints[j].Effort
		var near, far float64
		t.Near, near = tree(i, j)
		t.Far, far = tree(j+1, k)
		return t, t.Effort.Seconds() + math.Max(near, far)
	}
	first, worst := tree(0, n-1)
	return Hunt{Method: by, Expected: units.Time(cost[0][n-1]), Worst: units.Time(worst), First: first, Caution: huntCaution}, nil
}

// Cause is what made a device trip.
type Cause string

// Causes of a trip.
const (
	CauseShort    Cause = "short"
	CauseStall    Cause = "stalled motor"
	CauseEither   Cause = "short or stalled motor"
	CauseOverload Cause = "overloaded motor: it turned, with more than the device carries"
	CauseNeither  Cause = "neither: the device itself, its warmth or another load"
)

// TellTrip tells a short from a stalled motor by how long the device took: each is possible
// if its current opens the device within the device's band at that time. stall is the
// current of the standing motor, from a tired bank and warm copper to a full bank and cold
// copper, short that of a fault, from a far one with a tired bank to a near one. Where
// neither fits, a motor that turned may have drawn some current between the rating and the
// least of a stall.
//
// before is what the device carried until then: a haul leaves it warm, and it opens sooner, as
// in [RideThrough].
func TellTrip(d Device, stall, short units.Interval[units.Current], after units.Time, before ...Spell) (Cause, error) {
	var c checker
	d.check(&c, "device")
	must(&c, d.Band != nil, "device.Band", "not given", "the band of the device")
	interval(&c, "stall", stall, positive)
	interval(&c, "short", short, positive)
	notNegative(&c, "after", after)
	checkSpells(&c, "before", before)
	if c.err != nil {
		return "", c.err
	}
	warm := d.warming()
	for _, s := range before {
		warm.pass(s.Current.Per(d.Rating), s.For.Seconds())
	}
	can := func(i units.Interval[units.Current]) bool {
		return after.Seconds() >= warm.left(i.High.Per(d.Rating))*(1-1e-12) && after.Seconds() <= d.Band.latest(i.Low.Per(d.Rating))
	}
	shorted, stalled := can(short), can(stall)
	switch {
	case shorted && stalled:
		return CauseEither, nil
	case shorted:
		return CauseShort, nil
	case stalled:
		return CauseStall, nil
	case stall.Low > d.Rating && can(units.Interval[units.Current]{Low: d.Rating, High: stall.Low}):
		return CauseOverload, nil
	}
	return CauseNeither, nil
}

// TellResistance tells a short from a healthy motor by the resistance measured
// between the conductors behind the open device, supply isolated, everything
// connected: standing is that of the motor with its cables. Most meters cannot:
// a windlass motor stands at some tens of milliohms, and so does a far short. It is surer
// to part the motor's leads: then a healthy circuit measures open, see [PlanHunt].
func TellResistance(measured, standing units.Interval[units.Resistance]) (Cause, error) {
	var c checker
	interval(&c, "measured", measured, notNegative)
	interval(&c, "standing", standing, notNegative)
	if c.err != nil {
		return "", c.err
	}
	switch {
	case measured.High < standing.Low:
		return CauseShort, nil
	case measured.Low > standing.High:
		return CauseNeither, nil
	case measured.Low >= standing.Low:
		return CauseStall, nil
	}
	return CauseEither, nil
}
