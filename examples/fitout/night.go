package main

import (
	"fmt"
	"io"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/units"
)

// night is the plan for one night of the file.
type night struct {
	asked anchor.Night
	plan  anchor.NightPlan
	alarm anchor.AlarmLimit
}

func (p *plan) makeNight() (*night, error) {
	f := p.boat
	s := f.Night
	if s == nil {
		return nil, nil
	}
	n := &night{asked: anchor.Night{
		From: s.From, To: s.To,
		Sounding: anchor.Sounding{At: s.Sounding.At, Shown: s.Sounding.Shown, Offset: f.Boat.Sounder},
		Rode:     p.rode, Roller: f.Boat.Roller, Friction: f.Place.Friction, Water: f.Place.Water,
		Steepest: f.Limits.AnchorAngle, Wave: s.Wave, TideError: s.TideError,
		Draught: f.Boat.Draught, UnderKeel: f.Limits.UnderKeel, Stern: f.Boat.Length, Antenna: s.Antenna, Slope: f.Place.Slope.Abs(),
	}}
	for _, t := range s.Tide {
		n.asked.Tide.Turns = append(n.asked.Tide.Turns, anchor.Turn{At: t.At, Height: t.Height})
	}
	for i, w := range s.Winds {
		pull, err := p.pulls.in(w.Wind)
		if err != nil {
			return nil, fmt.Errorf("night.winds[%d]: %w", i, err)
		}
		n.asked.Winds = append(n.asked.Winds, anchor.NightWind{From: w.From, Direction: w.Direction, Pull: pull.plan})
	}
	for _, b := range s.Shoals {
		n.asked.Shoals = append(n.asked.Shoals, anchor.Shoal{Name: b.Name, Bearing: b.Bearing, Distance: b.Distance, Rise: b.Rise})
	}
	var err error
	if n.plan, err = anchor.PlanNight(n.asked); err != nil {
		return nil, fmt.Errorf("night: %w", err)
	}
	// What is let out at night is whole metres.
	if n.asked.Out = min(p.rode.Length(), wholeMetres(n.plan.Out)); n.asked.Out != n.plan.Out {
		if n.plan, err = anchor.PlanNight(n.asked); err != nil {
			return nil, fmt.Errorf("night: %w", err)
		}
	}
	fix, err := anchor.Deviation(receiver, 0.95)
	if err != nil {
		return nil, err
	}
	n.alarm, err = anchor.AlarmRadius(anchor.AlarmBudget{
		Circle: n.plan.Widest.Antenna, Set: 2 * units.Metre, Mark: fix, Fix: fix, Chance: 0.001,
	})
	return n, err
}

// receiver is within what 95 of 100 positions lie.
const receiver = 3.5 * units.Metre

func (p *plan) writeNightPlan(t *printer) {
	n := p.overnight
	if n == nil {
		return
	}
	t.line("")
	t.line("The night of %s, sounder %.1f m at %s: let out %.0f m", n.asked.From.Format("2 January 2006"),
		n.asked.Sounding.Shown.Metres(), n.asked.Sounding.At.Format("15:04"), n.plan.Out.Metres())
	t.line("           depth   under the keel  scope  pull     tension  angle at the anchor")
	for _, m := range []struct {
		name  string
		index int
	}{{"begins", 0}, {"lowest", n.plan.Low}, {"highest", n.plan.High}, {"hardest", n.plan.Worst}} {
		q := n.plan.Moments[m.index]
		t.line("  %-7s  %4.1f m  %5.1f m          %4.1f   %4.2f kN  %4.2f kN  %4.1f°   at %s", m.name, q.Depth.Metres(), q.UnderKeel.Metres(),
			q.Scope, q.Pull.Kilonewtons(), q.Tension.Kilonewtons(), q.Angle.Degrees(), q.At.Format("15:04"))
	}
	t.line("  Under the keel: in the trough of a wave, the tide lower than predicted, over %s.", n.plan.Shoalest)
	t.line("  She swings within %.0f m of the anchor, stern and all; set the anchor alarm to %.0f m.", n.plan.Widest.Stern.Metres(), n.alarm.Radius.Metres())
}

func (p *plan) drawNight(w io.Writer) error {
	return draw.NightPlot{Title: p.boat.Name + ": the night over the tide", Night: p.overnight.asked, Plan: p.overnight.plan}.WriteSVG(w)
}

func (p *plan) drawSwing(w io.Writer) error {
	return draw.SwingPlan{Title: p.boat.Name + ": room to swing", Night: p.overnight.asked, Plan: p.overnight.plan, Alarm: p.overnight.alarm.Radius}.WriteSVG(w)
}
