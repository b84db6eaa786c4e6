package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func (p *plan) site(low, tide units.Length) rode.Site {
	f := p.boat
	return rode.Site{
		Depth: low + tide, Roller: f.Boat.Roller, Slope: f.Place.Slope,
		Friction: f.Place.Friction, Water: f.Place.Water,
	}
}

// cell works out how much rode to let out so that at high water the pull on the
// anchor stays within the limit and the scope is not too short, and how the
// rode then hangs at either tide.
func (p *plan) cell(low units.Length, w wind, pull units.Force) (cell, error) {
	f := p.boat
	c := cell{low: low, wind: w, pull: pull, enough: true, keel: low - f.Boat.Draught}
	top, bottom := p.site(low, f.Place.Range), p.site(low, 0)
	out, err := rode.LengthFor(p.rode, top, pull, f.Limits.AnchorAngle)
	switch {
	case err == nil:
		least := top.Rise().Scale(f.Limits.LeastScope)
		c.out = p.in.whole(max(out, least))
		if c.out > p.rode.Length() {
			c.out, c.enough = p.rode.Length(), false
		}
	case errors.Is(err, rode.ErrShort):
		c.out, c.enough = p.rode.Length(), false
	default:
		return c, err
	}
	c.scope = top.Scope(c.out)
	if c.rode, err = p.rode.Veer(c.out); err != nil {
		return c, err
	}
	if c.high, err = rode.Solve(c.rode, top, pull); err == nil {
		c.lowest, err = rode.Solve(c.rode, bottom, pull)
	}
	if errors.Is(err, rode.ErrStretch) || errors.Is(err, rode.ErrShort) {
		c.enough, c.overdue = false, err.Error()
		return c, nil
	}
	c.swing = max(c.high.Distance, c.lowest.Distance) + f.Boat.Length
	return c, err
}

func (p *plan) writeLengths(s *section) error {
	f := p.boat
	t := table{Caption: fmt.Sprintf("The rode from the %s anchor of %s up; strengths are what wear, water and age leave, splices apart",
		f.Anchor.Type, p.in.mass.say(f.Anchor.Mass, 0)), Head: []string{"piece", "length, " + p.in.long.name, "mass, " + p.in.linear.name, "breaks at, " + p.in.force.name}}
	for i, piece := range p.rode.Pieces {
		t.Rows = append(t.Rows, row("%s|%s|%s|%s", piece.Name, p.in.long.num(piece.Length, 1), p.in.linear.num(piece.Mass, 2), p.in.force.num(piece.Breaking, 1)))
		if piece.Kind != rode.OfChain {
			continue
		}
		c, err := rode.ChainByName(f.Rode.Pieces[i].Chain)
		if err != nil {
			return err
		}
		limit := c.Wire.Scale(0.9)
		if worn := f.Rode.Pieces[i].Worn; worn != 0 && worn < limit {
			s.warn("The %s has worn by more than a tenth of its wire: replace it, do not anchor on it.", c.Name())
		}
		s.check(measure, fmt.Sprintf("Thinnest wire of the %s, where links bear on each other, every %s", c.Name(), p.in.long.say(5*units.Metre, 0)),
			fmt.Sprintf("%s (%s new); below %s replace the chain", p.in.small.say(cmp.Or(f.Rode.Pieces[i].Worn, c.Wire), 1), p.in.small.say(c.Wire, 1), p.in.small.say(limit, 1)))
	}
	s.table(t)
	s.say("Let out so much that at high water, %s above low water, the pull on the anchor is within %.0f° of the bed and the scope is at least %.3g. "+
		"Scope is rode outside the roller over depth and the roller's %s together.",
		p.in.long.say(f.Place.Range, 1), f.Limits.AnchorAngle.Degrees(), f.Limits.LeastScope, p.in.long.say(f.Boat.Roller, 2))
	s.table(p.lengthTable())
	if p.tooShort() {
		s.say("* The whole rode is out and that is not enough: go shallower, or find shelter.")
	}
	s.table(p.feelTable(s))
	s.say("The swing radius is from the anchor to the stern, in that wind, at the tide where it is greater.")
	if slices.ContainsFunc(p.here, func(c cell) bool { return c.overdue == "" }) {
		s.figure(figure{"rode.svg", "The rode at high water", p.drawRode})
	}
	p.writeKellet(s)
	return nil
}

// lengthTable is the rode to let out, by depth and wind.
func (p *plan) lengthTable() table {
	f := p.boat
	t := table{Caption: "Rode to let out in " + map[bool]string{false: "metres", true: "feet"}[p.in.feet] + ", and scope at high water", Head: []string{"depth at low water", "sounder at low", "sounder at high", "under keel"}}
	for _, c := range p.here {
		t.Head = append(t.Head, fmt.Sprintf("%.0f kn, %s", c.wind.Wind.Knots(), p.in.force.say(c.pull, 1)))
	}
	t.Brief = len(t.Head)
	for _, cells := range p.cells {
		low := cells[0].low
		r := row("%s|%s|%s|%s", p.in.long.say(low, 1), p.in.long.num(low-f.Boat.Sounder, 1), p.in.long.num(low+f.Place.Range-f.Boat.Sounder, 1), p.in.long.down(cells[0].keel, 1))
		for _, c := range cells {
			mark := ""
			if !c.enough {
				mark = "*"
			}
			r = append(r, fmt.Sprintf("%s (%.1f)%s", p.in.long.num(c.out, 0), c.scope, mark))
		}
		t.Rows = append(t.Rows, r)
	}
	if p.tooShort() {
		t.Caption += " (*: too short)"
	}
	return t
}

func (p *plan) tooShort() bool {
	for _, cells := range p.cells {
		for _, c := range cells {
			if !c.enough {
				return true
			}
		}
	}
	return false
}

// orChain is what helps a rode that begins with rope.
func (p *plan) orChain() string {
	if p.links > 0 {
		return ""
	}
	return ", or put chain between anchor and rope: its weight holds the pull down, and it does not chafe through on the bed"
}

// feelTable is what the rode feels in the depth chosen, and the decisions for it.
func (p *plan) feelTable(s *section) table {
	f := p.boat
	low, high := f.Place.AnchorIn, f.Place.AnchorIn+f.Place.Range
	m, kN := p.in.long.name, p.in.force.name
	t := table{Caption: fmt.Sprintf("Anchored in %s at low water, %s at high water", p.in.long.say(low, 1), p.in.long.say(high, 1)), Head: []string{
		"wind", "out, " + m, "on the bed low, high, " + m, "angle at the anchor", "at the bow, " + kN, "at the anchor, " + kN, "swing, " + m, "nearest to breaking",
	}}
	veer, short := "", []string(nil)
	for i, c := range p.here {
		wind := fmt.Sprintf("%.0f kn", c.wind.Wind.Knots())
		if c.overdue != "" {
			s.warn("In %s in %s the rode is no good: %s.", wind, p.in.long.say(low, 1), p.in.reword(c.overdue))
			t.Rows = append(t.Rows, row("%s|%s||||||%s", wind, p.in.long.num(c.out, 0), c.overdue))
			continue
		}
		h := &c.high
		t.Rows = append(t.Rows, row("%s|%s|%s, %s|%.1f°|%s|%s|%s|%s, %.0f %%", wind, p.in.long.num(c.out, 0), p.in.long.num(c.lowest.OnBed, 0), p.in.long.num(h.OnBed, 0),
			h.Anchor.FromBed.Degrees(), p.in.force.num(max(h.Tension, c.lowest.Tension), 2), p.in.force.num(max(h.Anchor.Tension, c.lowest.Anchor.Tension), 2),
			p.in.long.num(c.swing, 0), h.WeakestBreaking.Name, 100*h.WeakestBreaking.Fraction))
		over := overloads(c.rode, &c.high) // low water lifts less chain, and loads nothing more
		if len(over) > 0 {
			s.warn("In %s more than its working load is carried by: %s.", wind, sizes(over, p.in))
		}
		if !c.enough {
			short = append(short, wind)
		}
		if i > 0 {
			veer += ", "
		}
		veer += fmt.Sprintf("%s in %s", p.in.long.say(c.out, 0), wind)
	}
	if len(short) > 0 {
		s.warn("In %s the whole rode is not enough in %s: go shallower, or find shelter%s.", p.in.long.say(low, 1), strings.Join(short, ", "), p.orChain())
	}
	if veer != "" {
		s.do("In %s at low water let out %s; she then swings within %s of the anchor.", p.in.long.say(low, 1), veer, p.in.long.say(p.here[len(p.here)-1].swing, 0))
	}
	if p.overnight == nil || p.overnight.fails != "" { // which knows the low water better
		s.check(firstNight, fmt.Sprintf("Sounder at low water over %s", p.in.long.say(low, 1)),
			fmt.Sprintf("%s, %s %s under the keel", p.in.long.say(low-f.Boat.Sounder, 1), p.in.long.down(low-f.Boat.Draught, 1), p.in.long.name))
	}
	return t
}

// overload is a piece or fitting that carries more than its working load, of
// which side load leaves a part.
type overload struct {
	name     string
	wanted   units.Force // working load in line that would do
	fraction float64     // of what is left of the working load
	left     float64
}

func overloads(r rode.Rode, st *rode.State) []overload {
	var over []overload
	add := func(name string, tension, working units.Force, left float64) {
		if working == 0 {
			return // not known, or not in the way of the load
		}
		if f := tension.Per(working.Scale(left)); f > 1 {
			over = append(over, overload{name, tension.Scale(1 / left), f, left})
		}
	}
	fittings := func(list []rode.Fitting, tension units.Force) {
		for _, f := range list {
			add(f.Name, tension, f.Working, cmp.Or(f.SideLoad, 1))
		}
	}
	fittings(r.AtAnchor, st.Anchor.Tension)
	for i, p := range r.Pieces {
		add(p.Name, st.Pieces[i].MaxTension, p.Working, 1)
		if i < len(st.Joints) {
			fittings(p.Top, st.Joints[i].Tension)
		} else {
			fittings(p.Top, st.Tension)
		}
	}
	return over
}

// sizes lists what is overloaded, by how much, and what would do.
func sizes(over []overload, in family) string {
	var list []string
	for _, o := range over {
		s := fmt.Sprintf("%s %.0f %% (fit one of %s", o.name, 100*o.fraction, in.force.up(o.wanted, 1))
		switch {
		case o.left == 0.5:
			s += ": half of it is left under side load"
		case o.left < 1:
			s += fmt.Sprintf(": %.0f %% of it is left under side load", 100*o.left)
		}
		list = append(list, s+")")
	}
	return strings.Join(list, ", ")
}
