package main

import (
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Only what holds when she surges, with loads that can be trusted, should hold.
func TestVerdictOnSurging(t *testing.T) {
	for _, c := range []struct {
		steady string
		u      surging
		want   string
	}{
		{holdsSteady, surging{anchor: 900, sure: 1000}, "should hold"},
		{holdsSteady, surging{anchor: 1100, sure: 1000}, "may drag"},
		{holdsSteady, surging{anchor: 900, sure: 1000, jerked: true}, "steady gust only"},
		{holdsSteady, surging{missing: "it parts"}, "steady gust only"},
		{"may drag", surging{anchor: 900, sure: 1000}, "may drag"},
		{"drags", surging{}, "drags"},
	} {
		if got := c.u.verdict(c.steady); got != c.want {
			t.Errorf("%+v after %q: %q, want %q", c.u, c.steady, got, c.want)
		}
	}
}

func TestSurgingIsSaid(t *testing.T) {
	d := demo(t, "dunlin")
	d.saysNot(t, "should hold")
	d.says(t, "2 times* steady gust only", "! Surging in gusts of a 25 kn forecast pulls 4 times the steady 1.6 kN and more; 1.4 kN are sure in firm sand")
	for i, u := range d.surging {
		if pull := d.pulls.rows[i].plan; !(u.bow > pull && u.anchor > 0 && u.lift > 0 && u.sure > 0 && u.jerked && u.missing == "") {
			t.Errorf("%+v where the steady pull is %v", u, pull)
		}
	}
	demo(t, "plover").says(t, "on what is let out there, with the bridle where the plan has it on")

	// A steady sea breeze moves her so little that the loads can be told.
	less := without("canvas", "electrics", "snubber", "night")
	quiet := planOf(t, change(less, `"range": "3.1 m"`, `"range": "3.1 m", "gust": 1.1`, `"wind": "15 kn"`, `"wind": "12 kn"`))
	quiet.says(t, "should hold")
	if u := quiet.surging[0]; u.jerked || u.anchor > u.sure || u.bow > quiet.pulls.rows[0].plan.Scale(2) {
		t.Errorf("12 kn: %+v", u)
	}
	// What was measured is pulled whatever the estimate says.
	given := planOf(t, change(less, `"wind": "15 kn"`, `"wind": "15 kn", "pull": "1.1 kN"`))
	if a, b := given.surging[0], d.surging[0]; a.bow < b.bow.Scale(1.5) {
		t.Errorf("twice the pull: %v at the bow after %v", a.bow, b.bow)
	}
	// What cannot be followed is said.
	p := *quiet.plan
	p.surging = []surging{{missing: "it parts"}}
	var s section
	p.writeSurging(&s)
	if got := s.Blocks[len(s.Blocks)-1].Text; got != "In 12 kn surging cannot be followed: count with several times the steady pull." || p.surged(0) != "not known" {
		t.Errorf("%q, %q", got, p.surged(0))
	}
}

// The night counts with the boat downhill of her anchor, whichever way the file has
// the bed go up; in a calm the scope is what asks for rode.
func TestNightOfSlopeAndCalm(t *testing.T) {
	less := without("canvas", "electrics", "snubber", "windlass") // a windlass wants no bed that comes up within the whole rode
	var needed [3]units.Length
	for i, slope := range []string{`"0°"`, `"-2°"`, `"2°"`} {
		p := planOf(t, change(less, `"slope": "0°"`, `"slope": `+slope))
		needed[i] = p.overnight.plan.Needed
		if i == 0 {
			p.saysNot(t, "The bed slopes by")
			continue
		}
		p.says(t, "The bed slopes by 2.0°: the rode is reckoned for the wind that lays her straight downhill of her anchor")
		n := p.overnight
		w := n.plan.Moments[n.plan.Worst]
		site := p.site(w.Depth, n.asked.TideError+n.asked.Wave.Scale(0.5))
		site.Slope = -2 * units.Degree
		if want, err := rode.LengthFor(p.rode, site, w.Pull, n.asked.Steepest); err != nil || (want-needed[i]).Abs() > 1e-6 {
			t.Errorf("%s: needed %v, where section 2 reckons %v, %v", slope, needed[i], want, err)
		}
	}
	if needed[1] != needed[2] || needed[1] <= needed[0] {
		t.Errorf("needed %v", needed)
	}
	calm := planOf(t, change(less, `"wind": "12 kn"`, `"wind": "0 kn"`))
	if m := calm.overnight.plan.Moments[0]; m.Pull != 0 || m.OnBed <= 0 {
		t.Errorf("in a calm: %+v", m)
	}
	demo(t, "dunlin").says(t, "set the anchor alarm to 59 m, 68 m with the antenna as mark.")
	if n := demo(t, "dunlin").overnight; n.aft.Radius != n.alarm.Radius+n.asked.Antenna {
		t.Errorf("alarm %v about the anchor, %v about the antenna", n.alarm, n.aft)
	}
	if _, err := anchor.PlanNight(calm.overnight.asked); err != nil {
		t.Error(err)
	}
}
