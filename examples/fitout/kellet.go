package main

import (
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// compareKellet asks what the kellet is worth on the rode of the second
// strongest wind.
func (p *plan) compareKellet() error {
	k := p.boat.Rode.Kellet
	if k == nil {
		return nil
	}
	c := p.here[max(0, len(p.here)-2)]
	p.kelletCell = c
	var err error
	p.kellet, err = rode.CompareKellet(c.rode, p.site(c.low, p.boat.Place.Range), k.fitting(), k.Down, c.pull)
	return err
}

// fitting is the kellet, of lead.
func (k *kelletSpec) fitting() rode.Fitting {
	return rode.Fitting{Name: "kellet", Mass: k.Mass, Volume: k.Mass.PerDensity(leadDensity)}
}

const leadDensity = 11340 * units.KilogramPerCubicMetre

// writeKellet says what the kellet is worth.
func (p *plan) writeKellet(s *section) {
	if p.kellet == nil {
		return
	}
	k := p.boat.Rode.Kellet
	s.head("What the kellet is worth")
	t := table{Caption: fmt.Sprintf("A kellet of %.0f kg, %.0f m down the rode, in %.0f kn (pull %.2f kN) at high water", k.Mass.Kilograms(), k.Down.Metres(),
		p.kelletCell.wind.Wind.Knots(), p.kelletCell.pull.Kilonewtons()), Head: []string{"the rode", "out, m", "angle at the anchor", "pull that lifts its shank, kN"}}
	for _, o := range p.kellet {
		t.Rows = append(t.Rows, row("%s|%.0f|%.1f°|%.2f", o.Name, o.State.Out.Metres(), o.State.Anchor.FromBed.Degrees(), o.LiftPull.Kilonewtons()))
	}
	s.table(t)
	s.say("The other tables count without it.")
}
