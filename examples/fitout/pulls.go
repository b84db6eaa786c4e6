package main

import (
	"errors"
	"fmt"
	"io"
	"math"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/units"
)

// The forecast is a mean of ten minutes; a boat answers to gusts of half a
// minute, and sheers about in them.
const (
	gustOver     = 30 * units.Second
	forecastOver = 600 * units.Second
	sheerAngle   = 30 * units.Degree
)

// pulls is what the wind makes the boat pull.
type pulls struct {
	boat    anchor.Windage
	gust    float64 // strongest half minute over the forecast's mean
	windage float64 // what is counted with, over the estimate
	rows    []pull  // one a wind of the file
}

type pull struct {
	gust      units.Speed
	low, high units.Force // in the gust, from ahead, within the estimate's spread
	sheered   units.Force
	plan      units.Force // what the plan counts with
	given     bool        // by the file
}

func (f *boatFile) makePulls() (*pulls, error) {
	p := &pulls{gust: f.Place.Gust, windage: f.Boat.Windage}
	var err error
	b := &f.Boat
	if p.boat, err = anchor.Estimate(anchor.Dimensions{
		Length: b.Length, Beam: b.Beam, Freeboard: b.Freeboard, Rig: b.Rig, Hulls: b.Hulls,
	}); err != nil {
		return nil, fmt.Errorf("boat: %w", err)
	}
	for i, w := range f.Winds {
		r, err := p.in(w.Wind)
		if err != nil {
			return nil, fmt.Errorf("winds[%d]: %w", i, err)
		}
		if w.Pull > 0 {
			r.plan, r.given = w.Pull, true
		}
		p.rows = append(p.rows, r)
	}
	return p, nil
}

// in is the pull in a wind of a mean speed. The plan counts with the estimate from
// ahead times the windage, by default the upper end of its spread, or with the
// force when sheered if that is more.
func (p *pulls) in(mean units.Speed) (pull, error) {
	r := pull{gust: mean.Scale(p.gust)}
	wind := anchor.Wind{Speed: r.gust}
	ahead, err := p.boat.Load(wind, 0)
	if err != nil {
		return r, err
	}
	sheered, err := p.boat.Load(wind, sheerAngle)
	if err != nil {
		return r, err
	}
	r.low, r.high = ahead.Force().Scale(1/anchor.EstimateSpread), ahead.Force().Scale(anchor.EstimateSpread)
	r.sheered = sheered.Force()
	r.plan = max(ahead.Force().Scale(p.windage), r.sheered.Scale(p.windage/anchor.EstimateSpread))
	return r, nil
}

// hold is what the anchor may hold, and what the engine proves of it.
type hold struct {
	level     anchor.Held // pulled along the bed
	low, high units.Force // pulled at the greatest angle of the limits
	proof     units.Interval[units.Force]
	// proved are the gusts that pull as much as the proof, counted with the
	// plan's windage: from ahead and sheered.
	proved, provedSheered units.Speed
}

func (f *boatFile) makeHold(p *pulls) (*hold, error) {
	h := &hold{}
	var err error
	if h.level, err = anchor.HoldingByEfficiency(f.Anchor.Efficiency, f.Anchor.Mass); err != nil {
		return nil, fmt.Errorf("anchor: %w", err)
	}
	for _, b := range anchor.Bottoms() {
		if b.Name == f.Place.Bed {
			if h.level, err = h.level.On(b); err != nil {
				return nil, fmt.Errorf("place.bed: %w", err)
			}
		}
	}
	left, err := anchor.HoldingLeft(f.Limits.AnchorAngle, f.Anchor.Fluke)
	if err != nil {
		return nil, fmt.Errorf("anchor: %w", err)
	}
	h.low, h.high = h.level.Low.Scale(left.Low), h.level.High.Scale(left.High)
	if h.proof, err = anchor.BackDown(f.Boat.Engine, f.Boat.Propeller); err != nil {
		return nil, fmt.Errorf("boat: %w", err)
	}
	force := h.proof.Low.Scale(1 / p.windage)
	if h.proved, err = p.boat.SpeedFor(force, anchor.Wind{}); err != nil {
		return nil, err
	}
	sheered, err := p.boat.Load(anchor.Wind{Speed: h.proved}, sheerAngle)
	if err != nil {
		return nil, err
	}
	h.provedSheered = h.proved.Scale(math.Sqrt(force.Per(sheered.Force()))) // load goes with the square of the wind
	return h, nil
}

func (p *plan) writePulls(s *section) error {
	f, h := p.boat, p.hold
	s.say("Gusts of %.0f s are %.2f times the forecast's mean of ten minutes. The force is estimated from her dimensions, "+
		"good to a factor of %.2f either way; waves and snatching come on top.", gustOver.Seconds(), p.pulls.gust, anchor.EstimateSpread)
	kN := p.in.force.name
	p.surging = p.makeSurging()
	t := table{Caption: "Pull at the bow in gusts", Head: []string{
		"forecast, kn", "gust, kn", "from ahead, " + kN, fmt.Sprintf("sheered by %.0f°, %s", sheerAngle.Degrees(), kN), "planned on, " + kN, "surging, " + kN, "the anchor",
	}}
	for i, r := range p.pulls.rows {
		plan := p.in.force.num(r.plan, 2)
		if r.given {
			plan += " (given)"
		}
		t.Rows = append(t.Rows, row("%.0f|%.0f|%s to %s|%s|%s|%s|%s", f.Winds[i].Wind.Knots(), r.gust.Knots(),
			p.in.force.num(r.low, 2), p.in.force.num(r.high, 2), p.in.force.num(r.sheered, 2), plan, p.surged(i), p.surging[i].verdict(h.verdict(r.plan))))
	}
	s.table(t)
	s.say("In %s the %s anchor of %s holds %s to %s pulled along the bed and %s to %s at %.0f° above it, "+
		"reckoned from %.0f times its weight in firm sand.", f.Place.Bed, f.Anchor.Type, p.in.mass.say(f.Anchor.Mass, 0), p.in.force.num(h.level.Low, 1),
		p.in.force.say(h.level.High, 1), p.in.force.num(h.low, 1), p.in.force.say(h.high, 1), f.Limits.AnchorAngle.Degrees(), f.Anchor.Efficiency)
	p.writeSurging(s)
	forecast := h.proved.Scale(1 / p.pulls.gust)
	s.say("Full astern for half a minute pulls %s at least: with the windage that the plan counts, what gusts of %.0f kn from ahead pull, or of %.0f kn once she has sheered by %.0f°. It proves no more than that.",
		p.in.force.say(h.proof.Low, 1), h.proved.Knots(), h.provedSheered.Knots(), sheerAngle.Degrees())
	rule, err := anchor.HorizontalLoads(f.Boat.Length, f.Boat.Beam, anchor.Sloop)
	switch {
	case errors.Is(err, anchor.ErrRange):
		s.say("ABYC H-40 has no row for a boat of this length and beam.")
	case err != nil:
		return err
	default:
		s.say("For comparison, ABYC H-40 in its row of %.0f ft has gear designed for %s (working) or %s (storm).",
			rule.Row.Feet(), p.in.force.say(rule.Working, 1), p.in.force.say(rule.Storm, 1))
	}
	if h.level.High == 0 {
		s.warn("In %s the anchor holds nothing that can be counted on, only where it happens to catch: do not leave her, or go elsewhere.", f.Place.Bed)
	}
	if h.level.High > 0 {
		p.warnOfDragging(s)
	}
	s.do("Set the anchor gently, then slowly to full astern for half a minute: it must not move at %s. That proves it for the steady pull of the gusts (%.0f kn) of a %.0f kn forecast and no more; sheered by %.0f°, for those of %.0f kn.",
		p.in.force.say(h.proof.Low, 1), h.proved.Knots(), forecast.Knots(), sheerAngle.Degrees(), h.provedSheered.Scale(1/p.pulls.gust).Knots())
	s.assume(fmt.Sprintf("The forecast is a mean of %.0f min at %s height, a gust lasts %.0f s, and she sheers by %.0f°.", forecastOver.Minutes(), p.in.long.say(10*units.Metre, 0), gustOver.Seconds(), sheerAngle.Degrees()))
	s.check(measure, "Height of the bow roller above the water, and of the sounder's transducer below it",
		fmt.Sprintf("%s and %s, as in the boat file", p.in.long.say(f.Boat.Roller, 2), p.in.long.say(f.Boat.Sounder, 2)))
	s.check(firstNight, "Revolutions slowly up to full astern, for half a minute, with two marks ashore in line abeam",
		fmt.Sprintf("the marks stay in line: %s held", p.in.force.say(h.proof.Low, 1)))
	s.figure(figure{"wind.svg", "Force of the gusts by the wind's direction", p.drawPolar})
	s.caution("The seabed decides what an anchor holds: weed or rock may hold nothing. Gusts, sheering and waves load the rode to a multiple of a steady pull.")
	return nil
}

// holdsSteady is the verdict on a pull that is sure to be held, if it is steady.
const holdsSteady = "holds if steady"

// verdict sets a steady pull against the range of what the anchor holds at the
// limit's angle. What a boat makes of it that surges is another matter.
func (h *hold) verdict(pull units.Force) string {
	switch {
	case pull <= h.low:
		return holdsSteady
	case pull <= h.high:
		return "may drag"
	}
	return "drags"
}

func (p *plan) drawPolar(w io.Writer) error {
	d := draw.WindPolar{Title: p.boat.Name + ": force of the gusts", Boat: p.pulls.boat, Hulls: p.boat.Boat.Hulls, Spread: anchor.EstimateSpread, Imperial: p.in.feet}
	for _, r := range p.pulls.rows[max(0, len(p.pulls.rows)-3):] { // it has room for three
		d.Winds = append(d.Winds, anchor.Wind{Speed: r.gust})
	}
	return d.WriteSVG(w)
}
