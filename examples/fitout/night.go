package main

import (
	"errors"
	"fmt"
	"io"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// night is the plan for one night of the file.
type night struct {
	asked   anchor.Night
	plan    anchor.NightPlan
	alarm   anchor.AlarmLimit // about the anchor
	aft     anchor.AlarmLimit // about where the antenna was when it went down
	least   units.Length      // that the scope asks for, in whole metres, where that is more than the pull on the anchor does
	fails   string            // why there is no plan for it: the rode does not do, or she grounds
	instead string            // what to do then
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
	n.plan, err = anchor.PlanNight(n.asked)
	if e, ok := errors.AsType[*rode.Error](err); ok && (errors.Is(err, rode.ErrShort) || errors.Is(err, rode.ErrStretch)) {
		n.fails, n.instead = fmt.Sprintf("all %s of the rode do not do: wanted is %s", p.in.long.say(p.rode.Length(), 0), p.in.reword(e.Want)), "Go shallower, or find shelter."
		return n, nil
	}
	if e, ok := errors.AsType[*anchor.Error](err); ok && errors.Is(err, anchor.ErrAground) {
		n.fails, n.instead = fmt.Sprintf("she may ground: the %s is %s, wanted is %s", e.Field, p.in.reword(e.Value), p.in.reword(e.Want)), "Go deeper, or to where the bed is more level."
		return n, nil
	}
	if err != nil {
		return nil, fmt.Errorf("night: %w", err)
	}
	// What is let out at night is whole metres, and no less scope than by day.
	wanted := p.in.whole(n.plan.Out)
	if least := p.in.whole((n.plan.Moments[n.plan.High].Depth + f.Boat.Roller).Scale(f.Limits.LeastScope)); least > wanted {
		n.least, wanted = least, least
	}
	if n.asked.Out = min(p.rode.Length(), wanted); n.asked.Out != n.plan.Out {
		if n.plan, err = anchor.PlanNight(n.asked); err != nil {
			return nil, fmt.Errorf("night: %w", err)
		}
	}
	fix, err := anchor.FixDeviation(receiver, 0.95)
	if err != nil {
		return nil, err
	}
	budget := anchor.AlarmBudget{Circle: n.plan.Widest.Antenna, Set: 2 * units.Metre, Mark: fix, Fix: fix, Chance: 0.001}
	if n.alarm, err = anchor.AlarmRadius(budget); err != nil {
		return nil, err
	}
	budget.Aft = s.Antenna
	n.aft, err = anchor.AlarmRadius(budget)
	return n, err
}

// receiver is within what 95 of 100 positions lie.
const receiver = 3.5 * units.Metre

func (p *plan) writeNight(s *section) error {
	n := p.overnight
	if n == nil {
		s.say("The boat file has no night: with one, this is the plan for it over the tide.")
		return nil
	}
	s.Title = "The night of " + n.asked.From.Format("2 January 2006")
	if n.fails != "" {
		s.say("This night cannot be planned for: %s.", n.fails)
		s.warn("On the night of %s %s. %s", n.asked.From.Format("2 January"), n.fails, n.instead)
		return nil
	}
	shown, at := p.in.long.say(n.asked.Sounding.Shown, 1), n.asked.Sounding.At.Format("15:04")
	t := table{
		Caption: fmt.Sprintf("The sounder showed %s at %s, and %s of rode are out", shown, at, p.in.long.say(n.plan.Out, 0)),
		Head:    []string{"when", "at", "depth, " + p.in.long.name, "under the keel, " + p.in.long.name, "scope", "pull, " + p.in.force.name, "at the bow, " + p.in.force.name, "angle at the anchor"},
	}
	for _, m := range []struct {
		name  string
		index int
	}{{"it begins", 0}, {"lowest water", n.plan.Low}, {"highest water", n.plan.High}, {"hardest on the anchor", n.plan.Worst}} {
		q := n.plan.Moments[m.index]
		t.Rows = append(t.Rows, row("%s|%s|%s|%s|%.1f|%s|%s|%.1f°", m.name, q.At.Format("15:04"), p.in.long.num(q.Depth, 1), p.in.long.down(q.UnderKeel, 1),
			q.Scope, p.in.force.num(q.Pull, 2), p.in.force.num(q.Tension, 2), q.Angle.Degrees()))
	}
	s.table(t)
	s.say("What is under the keel is counted in the trough of a wave, with the tide lower than predicted, over %s: the shoalest place within her circle. Times are those of the boat file.", n.plan.Shoalest)
	if n.asked.Slope > 0 {
		s.say("The bed slopes by %.1f°: the rode is reckoned for the wind that lays her straight downhill of her anchor, which is then pulled so much more steeply, and her circle for the one uphill.", n.asked.Slope.Degrees())
	}
	if n.least > 0 {
		s.say("The pull on the anchor asks for %s, a scope of %.3g at high water for %s.", p.in.long.say(p.in.whole(n.plan.Needed), 0), p.boat.Limits.LeastScope, p.in.long.say(n.least, 0))
	}
	low, high := n.plan.Moments[n.plan.Low], n.plan.Moments[n.plan.High]
	s.do("On the night of %s let out %s. She swings within %s of the anchor, stern and all; set the anchor alarm to %s, %s with the antenna as mark.",
		n.asked.From.Format("2 January"), p.in.long.say(n.plan.Out, 0), p.in.long.say(n.plan.Widest.Stern, 0), p.in.long.say(n.alarm.Radius, 0), p.in.long.say(n.aft.Radius, 0))
	if low.UnderKeel < p.boat.Limits.UnderKeel {
		s.warn("At %s only %s are left under the keel over %s.", low.At.Format("15:04"), p.in.long.down(low.UnderKeel, 1)+" "+p.in.long.name, n.plan.Shoalest)
	}
	if high.Scope < p.boat.Limits.LeastScope {
		s.warn("At %s the scope is only %.1f with the whole rode out: go shallower, or find shelter.", high.At.Format("15:04"), high.Scope)
	}
	s.check(firstNight, fmt.Sprintf("Sounder at the lowest water, %s", low.At.Format("15:04")),
		fmt.Sprintf("%s where the anchor lies, by the tide as predicted", p.in.long.say(low.Depth-n.asked.Sounding.Offset, 1)))
	s.check(firstNight, "Anchor alarm: move its mark from the antenna to the anchor, "+p.in.long.say(n.asked.Antenna, 1)+" forward along the heading as it went down",
		fmt.Sprintf("silent within %s of that mark; without moving it, within %s", p.in.long.say(n.alarm.Radius, 0), p.in.long.say(n.aft.Radius, 0)))
	s.assume(fmt.Sprintf("95 of 100 positions of the receiver are within %s.", p.in.long.say(receiver, 1)))
	s.figure(figure{"night.svg", "Depth, scope and load over the tide", p.drawNight})
	s.figure(figure{"swing.svg", "Room to swing", p.drawSwing})
	return nil
}

func (p *plan) drawNight(w io.Writer) error {
	return draw.NightPlot{Title: p.boat.Name + ": the night over the tide", Night: p.overnight.asked, Plan: p.overnight.plan, Imperial: p.in.feet}.WriteSVG(w)
}

func (p *plan) drawSwing(w io.Writer) error {
	return draw.SwingPlan{Title: p.boat.Name + ": room to swing", Night: p.overnight.asked, Plan: p.overnight.plan, Alarm: p.overnight.alarm.Radius, Hulls: p.boat.Boat.Hulls, Imperial: p.in.feet}.WriteSVG(w)
}
