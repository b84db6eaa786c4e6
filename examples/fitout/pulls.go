package main

import (
	"errors"
	"fmt"
	"io"

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
	boat anchor.Windage
	gust float64 // strongest half minute over the forecast's mean
	rows []pull  // one a wind of the file
}

type pull struct {
	gust      units.Speed
	low, high units.Force // in the gust, from ahead, within the estimate's spread
	sheered   units.Force
	plan      units.Force // what the plan counts with
	given     bool        // by the file
}

func (f *boatFile) makePulls() (*pulls, error) {
	p := &pulls{}
	var err error
	b := &f.Boat
	if p.boat, err = anchor.Estimate(anchor.Dimensions{
		Length: b.Length, Beam: b.Beam, Freeboard: b.Freeboard, Rig: b.Rig, Hulls: b.Hulls,
	}); err != nil {
		return nil, fmt.Errorf("boat: %w", err)
	}
	if p.gust, err = anchor.GustFactor(gustOver, forecastOver); err != nil {
		return nil, err
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

// in is the pull in a wind of a mean speed. The plan counts with the upper end
// of the estimate from ahead, or with the force when sheered if that is more.
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
	r.plan = max(r.high, r.sheered)
	return r, nil
}

func (p *plan) writePulls(t *printer) error {
	f := p.boat
	t.line("")
	t.line("What she pulls: gusts of %.0f s are %.2f times the forecast's mean of ten minutes; the force is",
		gustOver.Seconds(), p.pulls.gust)
	t.line("estimated from her dimensions, good to a factor of %.2f. Waves and snatching come on top.", anchor.EstimateSpread)
	for i, r := range p.pulls.rows {
		how := fmt.Sprintf("%.2f to %.2f kN from ahead, %.2f kN sheered by %.0f°", r.low.Kilonewtons(), r.high.Kilonewtons(), r.sheered.Kilonewtons(), sheerAngle.Degrees())
		if r.given {
			how += ", given in the file"
		}
		t.line("  %2.0f kn, gust %2.0f kn: planned on %.2f kN (%s)", f.Winds[i].Wind.Knots(), r.gust.Knots(), r.plan.Kilonewtons(), how)
	}
	rule, err := anchor.HorizontalLoads(f.Boat.Length, f.Boat.Beam, false)
	switch {
	case errors.Is(err, anchor.ErrRange):
		t.line("  Rules beside it: ABYC H-40 does not reach a boat of this length and beam.")
	case err != nil:
		return err
	default:
		t.line("  Rules beside it: ABYC H-40, row of %.0f ft, has gear designed for %.1f kN working, %.1f kN storm.",
			rule.Row.Feet(), rule.Working.Kilonewtons(), rule.Storm.Kilonewtons())
	}
	return p.writeHolding(t)
}

// writeHolding says what the anchor may hold, and what the engine proves of it.
func (p *plan) writeHolding(t *printer) error {
	f := p.boat
	held, err := anchor.HoldingOf(f.Anchor.Efficiency, f.Anchor.Mass)
	if err != nil {
		return fmt.Errorf("anchor: %w", err)
	}
	for _, b := range anchor.Bottoms() {
		if b.Name == f.Place.Bed {
			if held, err = held.On(b); err != nil {
				return fmt.Errorf("place.bed: %w", err)
			}
		}
	}
	low, high, err := anchor.PullAngle(f.Limits.AnchorAngle, f.Anchor.Fluke)
	if err != nil {
		return fmt.Errorf("anchor: %w", err)
	}
	t.line("  In %s the %s anchor of %.0f kg holds %.1f to %.1f kN pulled level, %.1f to %.1f kN at %.0f°,", f.Place.Bed,
		f.Anchor.Type, f.Anchor.Mass.Kilograms(), held.Low.Kilonewtons(), held.High.Kilonewtons(),
		held.Low.Kilonewtons()*low, held.High.Kilonewtons()*high, f.Limits.AnchorAngle.Degrees())
	t.line("  reckoned from %.0f times its weight in firm sand. The seabed decides: weed or rock may hold nothing.", f.Anchor.Efficiency)
	proof, err := anchor.BackDown(f.Boat.Engine, f.Boat.Propeller)
	if err != nil {
		return fmt.Errorf("boat: %w", err)
	}
	most, err := p.pulls.boat.SpeedFor(proof.Low, anchor.Wind{})
	if err != nil {
		return err
	}
	t.line("  Full astern for half a minute proves %.1f kN at least: a steady %.0f kn from ahead and no more.",
		proof.Low.Kilonewtons(), most.Knots())
	return nil
}

func (p *plan) drawPolar(w io.Writer) error {
	d := draw.WindPolar{Title: p.boat.Name + ": force of the gusts", Boat: p.pulls.boat, Spread: anchor.EstimateSpread}
	for _, r := range p.pulls.rows[max(0, len(p.pulls.rows)-3):] { // it has room for three
		d.Winds = append(d.Winds, anchor.Wind{Speed: r.gust})
	}
	return d.WriteSVG(w)
}
