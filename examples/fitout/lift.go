package main

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// lift is what the windlass has to pull at its wheel in the deepest water of the
// file, and what it can.
type lift struct {
	deep     units.Length // at high water, as far down as the rode reaches
	short    bool         // it does not reach the deepest
	reaches  units.Length // depth down to which its rated pull lifts; 0 for none
	out      units.Length // of rode, up and down
	hanging  units.Force  // rode and anchor, on the roller
	set      units.Force  // that full astern set the anchor with, at most
	lifting  units.Force  // at the wheel
	breaking units.Force  // at the wheel, the anchor still in the bed
	// most is the pull at which it stalls, 0 where nothing says it; weak that on a
	// tired cold bank, 0 without electrics.
	most, weak units.Force
	torque     units.Torque // on the motor's shaft while it lifts; 0 without electrics
}

func (p *plan) makeLift() (*lift, error) {
	f, w := p.boat, p.boat.Windlass
	if w == nil {
		return nil, nil
	}
	l := &lift{deep: slices.Max(f.Place.LowWater) + f.Place.Range, set: p.hold.proof.High, most: w.Most}
	if reach := p.rode.Length() - f.Boat.Roller - 1*units.Centimetre; l.deep > reach {
		l.deep, l.short = reach, true
	}
	if l.deep <= 0 {
		return nil, nil // a rode that does not reach the water
	}
	var err error
	if l.hanging, l.out, err = p.hangs(l.deep); err != nil {
		return nil, fmt.Errorf("windlass: %w", err)
	}
	l.lifting, l.breaking = l.hanging.Scale(1/w.Roller), (l.hanging + l.set).Scale(1/w.Roller)
	for d := p.in.whole(1 * units.Centimetre); d <= l.deep && w.Rated > 0; d += p.in.whole(1 * units.Centimetre) {
		h, _, err := p.hangs(d)
		if err != nil {
			return nil, fmt.Errorf("windlass: %w", err)
		}
		if h.Scale(1/w.Roller) <= w.Rated {
			l.reaches = d
		}
	}
	if e := p.electrics; e != nil && w.Rated > 0 && f.Electrics.Rated.Torque > 0 {
		// The gear passes on of every torque what it passes on of the rated one.
		perTorque := w.Rated.Newtons() / f.Electrics.Rated.Torque.NewtonMetres()
		l.torque = units.NewtonMetre.Scale(l.lifting.Newtons() / perTorque)
		pull := func(stall units.Current) units.Force {
			m := &e.windlass.Motor
			return units.Newton.Scale(perTorque * (m.Efficiency*float64(m.Flux)*float64(stall) - float64(m.Drag)))
		}
		weak, err := e.tired(wiring.Conditions{Copper: f.Electrics.Copper, Standing: []string{"motor"}}, nil)
		if err != nil {
			return nil, fmt.Errorf("electrics: %w", err)
		}
		l.weak = pull(weak.Current.Abs())
		if l.most == 0 {
			l.most = pull(e.stall)
		}
		l.weak = max(0, min(l.weak, l.most))
	}
	return l, nil
}

// hangs is what is on the roller when rode and anchor hang free in a depth.
func (p *plan) hangs(deep units.Length) (weight units.Force, out units.Length, err error) {
	site := p.site(deep, 0)
	out = min(site.Rise(), p.rode.Length())
	weight, err = anchor.HangingWeight(p.rode, site, p.boat.Anchor.Mass, out)
	return weight, out, err
}

func (p *plan) writeLift(s *section) error {
	l, w := p.lift, p.boat.Windlass
	switch {
	case w == nil:
		s.say("The boat file has no windlass: whether one lifts rode and anchor is not looked at.")
		return nil
	case l == nil:
		s.say("The rode does not reach the water: there is nothing to lift.")
		return nil
	}
	deepest := "the deepest water of the boat file at high water"
	if l.short {
		deepest = "as deep as the whole rode reaches"
	}
	s.say("In %s, %s, %s of rode and the anchor hang free with %s. A bow roller is taken to pass on %.0f %% of a pull: that is %s at the wheel. "+
		"The boat is motored up to her anchor: wind and sea are not in it.",
		p.in.long.say(l.deep, 1), deepest, p.in.long.say(l.out, 1), p.in.force.say(l.hanging, 2), 100*w.Roller, p.in.force.say(l.lifting, 2))
	s.say("To tear the anchor out is reckoned to take as much on top as full astern may have set it with, %s: %s at the wheel. That allowance is judgement. After a blow it may take as much as the anchor has held: make the chain fast short and let the boat break it out, never the windlass.",
		p.in.force.say(l.set, 1), p.in.force.say(l.breaking, 2))
	s.assume("Breaking the anchor out takes what full astern may have set it with, on top of what hangs.")
	s.assume("Shackles and swivels weigh nothing, and a kellet is taken off before the anchor is lifted.")
	breaks := ""
	switch stall := cmp.Or(l.weak, l.most); {
	case w.Rated >= l.breaking:
		breaks = fmt.Sprintf("that breaks out what full astern set (%s) too", p.in.force.say(l.breaking, 1))
	case stall == 0:
		breaks = "what it pulls stalled is not known: break the anchor out with the boat, the chain made fast short"
	case stall < l.breaking:
		breaks = fmt.Sprintf("stalled it pulls %s, too little to break out what full astern set (%s): let the boat do that, the chain made fast short", p.in.force.say(stall, 1), p.in.force.say(l.breaking, 1))
	default:
		breaks = fmt.Sprintf("stalled it pulls %s, enough to break out what full astern set", p.in.force.say(stall, 1))
	}
	if c := p.chainwork; c != nil && !c.fit.Fits() {
		breaks += "; all this with a wheel that fits the chain"
	}
	switch {
	case w.Rated == 0:
		s.do("Ask the windlass's maker what it pulls at its rated load: rode and anchor hanging free in %s want %s at the wheel. As to the rest, %s.", p.in.long.say(l.deep, 1), p.in.force.say(l.lifting, 2), breaks)
		return nil
	case l.lifting > w.Rated:
		where := "nowhere in the plan"
		if l.reaches > 0 {
			where = fmt.Sprintf("no deeper than %s", p.in.long.say(l.reaches, 0))
		}
		s.warn("Rode and anchor hanging free in %s want %s at the wheel, and the windlass is rated for %s: use it %s, or get a stronger one.",
			p.in.long.say(l.deep, 1), p.in.force.say(l.lifting, 2), p.in.force.say(w.Rated, 2), where)
		s.do("Do not count on the windlass to lift rode and anchor in %s; %s.", p.in.long.say(l.deep, 1), breaks)
	default:
		s.do("The windlass lifts rode and anchor hanging free in %s with %s of its %s; %s.", p.in.long.say(l.deep, 1), p.in.force.num(l.lifting, 2), p.in.force.say(w.Rated, 1), breaks)
	}
	e := p.boat.Electrics
	switch {
	case e != nil && l.torque == 0:
		s.say("The boat file does not say at what torque on its shaft the motor is rated: the pull on the chain cannot be set against the circuit.")
	case e != nil:
		s.say("Its rated pull is that of the motor's rated %s, so %s on the shaft lift, and the %s that the circuit is worked out for pull %s. Held fast on a tired cold bank it pulls %s.",
			p.in.torque.say(e.Rated.Torque, 1), p.in.torque.say(l.torque, 1), p.in.torque.say(e.Pull, 1), p.in.force.say(w.Rated.Scale(e.Pull.NewtonMetres()/e.Rated.Torque.NewtonMetres()), 2), p.in.force.say(l.weak, 1))
		s.assume("The windlass's gear passes on of every torque what it passes on of the motor's rated one.")
		if l.torque > e.Pull {
			s.warn("The circuit is worked out for %s on the motor's shaft, and lifting in %s takes %s: put that into the boat file as electrics.pull.", p.in.torque.say(e.Pull, 1), p.in.long.say(l.deep, 1), p.in.torque.up(l.torque, 1))
		}
	}
	return nil
}
