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
	t := table{Caption: fmt.Sprintf("A kellet of %s, %s down the rode, in %.0f kn (pull %s) at high water", p.in.mass.say(k.Mass, 0), p.in.long.say(k.Down, 0),
		p.kelletCell.wind.Wind.Knots(), p.in.force.say(p.kelletCell.pull, 2)), Head: []string{"the rode", "out, " + p.in.long.name, "angle at the anchor", "pull that lifts its shank, " + p.in.force.name}}
	for _, o := range p.kellet {
		t.Rows = append(t.Rows, row("%s|%s|%.1f°|%s", o.Name, p.in.long.num(o.State.Out, 0), o.State.Anchor.FromBed.Degrees(), p.in.force.num(o.LiftPull, 2)))
	}
	s.table(t)
	s.say("The other tables count without it.")
}
