package main

import (
	"context"
	"fmt"
	"slices"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// surging is what the gusts of a forecast do to a boat that moves in them, where the
// rest of the plan has her lie still to the strongest.
type surging struct {
	bow    units.Force // the greatest pull in a spell, the mean of all spells
	anchor units.Force // at the anchor, what nine spells of ten stay below
	lift   units.Angle // the steepest of all
	sure   units.Force // that the anchor holds at that angle
	// jerked is whether the chain is thrown about so fast that its inertia makes the
	// loads higher than these, and missing why there are none.
	jerked  bool
	missing string
	rigged  bool // with the plan's snubber
}

// spells of the length of the forecast's mean are followed, the same ones in every
// plan.
const spells = 10

// makeSurging follows the boat in each wind of the file, in the depth chosen, at
// high water and without waves, on the rode that the plan has for that.
func (p *plan) makeSurging() []surging {
	var all []surging
	for i := range p.here {
		u, err := p.surge(&p.here[i], p.pulls.rows[i])
		if err != nil {
			u.missing = inWords(err).Error()
		}
		all = append(all, u)
	}
	return all
}

func (p *plan) surge(c *cell, r pull) (u surging, err error) {
	f := p.boat
	line, err := inCycles(f, c.rode)
	if err != nil {
		return u, err
	}
	if n := p.snubber; n != nil && c.low <= n.cell.low && c.wind.Wind <= n.cell.wind.Wind {
		u.rigged = true
		hook, err := inCycles(f, n.hook)
		if err != nil {
			return u, err
		}
		if line, err = hook.Snub(n.spec.rigged(n.rope.Cyclic(), n.spec.Legs)); err != nil {
			return u, err
		}
	}
	ride := anchor.Ride{
		Below: f.Boat.below(f.Place.Water), Ahead: f.Boat.Length.Scale(0.47),
		Surging: 120, Swaying: 60, Yawing: 60,
		Site: p.site(c.low, f.Place.Range), Rode: line,
		Wind: anchor.Wind{Speed: c.wind.Wind}, Gusts: anchor.Gusts{Intensity: f.turbulence()},
		Current:  anchor.Current{Depth: c.low + f.Place.Range},
		Duration: forecastOver, Settle: 120, Step: 0.1, Seed: 1,
	}
	// She sheers, as far as she does: then the plan counts with the middle of the
	// estimate. A pull that was measured is taken as it is.
	windage := p.pulls.windage / anchor.EstimateSpread
	if r.given {
		ahead, err := p.pulls.boat.Load(anchor.Wind{Speed: r.gust}, 0)
		if err != nil {
			return u, err
		}
		windage = r.plan.Per(ahead.Force())
	}
	for _, part := range p.pulls.boat.Parts {
		part.Front, part.Side = part.Front.Scale(windage), part.Side.Scale(windage)
		ride.Above.Parts = append(ride.Above.Parts, part)
	}
	e, err := ride.Realise(context.Background(), spells, nil)
	if err != nil {
		return u, err
	}
	for _, run := range e.Runs {
		u.lift = max(u.lift, run.Lift)
	}
	u.bow, u.anchor, u.jerked = e.Expected, e.Anchor.Load, !e.Trusted
	if u.lift >= f.Anchor.Fluke {
		return u, nil // nothing presses the fluke down any more
	}
	left, err := anchor.HoldingLeft(u.lift, f.Anchor.Fluke)
	u.sure = p.hold.level.Low.Scale(left.Low)
	return u, err
}

// below is the boat under water, as far as her dimensions tell: a hull of block
// coefficient 0.45, nine tenths of her beam wide (a catamaran's two together three
// tenths), a keel under the middle third and a rudder. Without the keel the loads come
// out within a tenth of those with it.
func (b *boat) below(water units.Density) anchor.Underwater {
	beam := b.Beam.Scale(0.9)
	if b.Hulls == 2 {
		beam = b.Beam.Scale(0.3)
	}
	hull := b.Displacement.PerDensity(water).PerArea(b.Waterline.TimesLength(beam).Scale(0.45))
	hull = min(hull, b.Draught.Scale(0.8))
	chord := b.Waterline.Scale(0.3)
	return anchor.Underwater{
		Length: b.Waterline, Beam: beam, Draught: hull, Mass: b.Displacement,
		Fins: []anchor.Fin{
			{Name: "keel", Side: chord.TimesLength(b.Draught - hull), Chord: chord},
			{
				Name: "rudder", Side: b.Waterline.TimesLength(b.Draught).Scale(0.04),
				Chord: b.Waterline.Scale(0.07), Station: b.Waterline.Scale(-0.44),
			},
		},
	}
}

// turbulence is the intensity with which gusts are as strong as those of the plan:
// their factor is linear in it.
func (f *boatFile) turbulence() float64 {
	sea, _ := anchor.AtSea.GustFactor(gustOver, forecastOver) // of constants
	land, _ := anchor.InLand.GustFactor(gustOver, forecastOver)
	return min(0.5, max(0.05, 0.1+0.15*(f.Place.Gust-sea)/(land-sea)))
}

// verdict is that on the anchor when she surges, after the one on a steady gust.
func (u *surging) verdict(steady string) string {
	switch {
	case steady != holdsSteady:
		return steady
	case u.missing != "" || u.jerked:
		return "steady gust only"
	case u.anchor > u.sure:
		return "may drag"
	}
	return "should hold"
}

// surged is what surging makes of a steady pull: a force, or where the chain is jerked
// about how many times as much.
func (p *plan) surged(i int) string {
	u := &p.surging[i]
	switch {
	case u.missing != "":
		return "not known"
	case u.jerked:
		return p.times(i) + "*"
	}
	return p.in.force.num(u.bow, 2)
}

func (p *plan) times(i int) string {
	return fmt.Sprintf("%.0f times", max(1, p.surging[i].bow.Per(p.pulls.rows[i].plan)))
}

// writeSurging says what is behind the column on it.
func (p *plan) writeSurging(s *section) {
	with := ""
	if slices.ContainsFunc(p.surging, func(u surging) bool { return u.rigged }) {
		with = fmt.Sprintf(", with the %s where the plan has it on", p.snubber.spec.name())
	}
	s.say("A boat does not lie still to a gust: she falls back, sheers, and runs up on her rode. The column on surging is the greatest pull in %.0f min of such gusts, the mean of %d spells, "+
		"in %s at high water and without waves, on what is let out there%s. The rode is reckoned for the steady pull.",
		forecastOver.Minutes(), spells, p.in.long.say(p.boat.Place.AnchorIn+p.boat.Place.Range, 1), with)
	if slices.ContainsFunc(p.surging, func(u surging) bool { return u.jerked && u.missing == "" }) {
		s.say("* So many times what is planned on, and more: the chain is thrown about so fast that its own inertia, which is not in it, adds to that. A longer or softer snubber takes the jerks off; without it the plan vouches for the steady gust only.")
	}
	for i, u := range p.surging {
		if u.missing != "" {
			s.say("In %.0f kn surging cannot be followed: count with several times the steady pull.", p.here[i].wind.Wind.Knots())
		}
	}
	s.assume("Under water her hull has a block coefficient of 0.45, and a third of her length is keel; a surge dies down to 1/e in 2 min, swaying and yawing in 1 min.")
}

// warnOfDragging is about the least wind in which more than is sure comes on the
// anchor, in a steady gust and when she surges.
func (p *plan) warnOfDragging(s *section) {
	f, h := p.boat, p.hold
	steady := slices.IndexFunc(p.pulls.rows, func(r pull) bool { return r.plan > h.low })
	surges := slices.IndexFunc(p.surging, func(u surging) bool { return u.missing == "" && u.anchor > u.sure })
	knots := func(i int) float64 { return f.Winds[i].Wind.Knots() }
	what := ""
	switch {
	case surges >= 0 && (steady < 0 || surges < steady):
		u := &p.surging[surges]
		load := fmt.Sprintf("loads the anchor with %s at %.0f°", p.in.force.say(u.anchor, 1), u.lift.Degrees())
		if u.jerked {
			load = fmt.Sprintf("pulls %s the steady %s and more", p.times(surges), p.in.force.say(p.pulls.rows[surges].plan, 1))
		}
		what = fmt.Sprintf("Surging in gusts of a %.0f kn forecast %s; %s are sure in %s", knots(surges), load, p.in.force.say(u.sure, 1), f.Place.Bed)
	case steady >= 0:
		what = fmt.Sprintf("Gusts of a %.0f kn forecast pull %s; of the %s anchor no more than %s is sure in %s",
			knots(steady), p.in.force.say(p.pulls.rows[steady].plan, 1), p.in.mass.say(f.Anchor.Mass, 0), p.in.force.say(h.low, 1), f.Place.Bed)
	default:
		return
	}
	s.warn("%s: keep a watch, or find shelter.", what)
}
