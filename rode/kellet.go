package rode

import (
	"math"
	"slices"

	"example.com/forepeak/units"
)

// KelletOption is one way to spend a kellet's mass, and what it brings.
type KelletOption struct {
	Name string
	Rode Rode
	// LiftPull is the pull at which the anchor begins to be lifted, and State
	// how the rode hangs at the pull asked.
	LiftPull units.Force
	State    State
}

// CompareKellet answers what a kellet is worth. It sets four rodes side by side
// at the same site and pull: the rode as it is; the kellet hung on it at a
// length down from the roller; the kellet's mass as that much more of the
// lowest chain let out; and the kellet's mass as heavier chain of the same
// length. A kellet acts only while it is off the straight line between anchor
// and bow: as the pull grows its worth falls, and longer or heavier chain
// lifts later.
func CompareKellet(r Rode, s Site, kellet Fitting, down units.Length, pull units.Force) ([]KelletOption, error) {
	var c checker
	r.check(&c)
	positive(&c, "kellet.Mass", kellet.Mass)
	between(&c, "down", down, 0, r.Length())
	positive(&c, "pull", pull)
	if c.err != nil {
		return nil, c.err
	}
	if r.Pieces[0].Kind != OfChain {
		return nil, refuse("Pieces[0].Kind", r.Pieces[0].Kind, "chain, to compare the kellet with more of it")
	}
	hung, err := r.Hang(kellet, down)
	if err != nil {
		return nil, err
	}
	longer, heavier := r.clone(), r.clone()
	longer.Pieces[0].Length += kellet.Mass.PerLinearDensity(r.Pieces[0].Mass)
	heavier.Pieces[0].Mass += kellet.Mass.PerLength(r.Pieces[0].Length)
	options := []KelletOption{
		{Name: "as it is", Rode: r},
		{Name: "with the kellet", Rode: hung},
		{Name: "the same mass as longer chain", Rode: longer},
		{Name: "the same mass as heavier chain", Rode: heavier},
	}
	for i := range options {
		o := &options[i]
		if o.LiftPull, err = PullFor(o.Rode, s, 0); err != nil {
			return nil, err
		}
		if o.State, err = Solve(o.Rode, s, pull); err != nil {
			return nil, err
		}
	}
	return options, nil
}

// Hang is the rode with a fitting, such as a kellet or a float, at a length
// down from the bow roller, measured along the unstretched rode. The piece
// there is cut in two.
func (r Rode) Hang(f Fitting, down units.Length) (Rode, error) {
	var c checker
	r.check(&c)
	checkFittings(&c, "fitting", []Fitting{f})
	if c.err != nil {
		return Rode{}, c.err
	}
	up := r.Length() - down
	if !(down > 0 && up > 0) || math.IsInf(float64(down), 0) {
		return Rode{}, refuse("down", down, "more than 0 and less than the rode's length, "+r.Length().String())
	}
	h := Rode{AtAnchor: r.AtAnchor}
	for _, p := range r.Pieces {
		switch {
		case up > 0 && up < p.Length:
			low, high := p, p
			low.Length, low.Top = up, []Fitting{f}
			high.Length -= up
			h.Pieces = append(h.Pieces, low, high)
		case up == p.Length:
			p.Top = append(append([]Fitting(nil), p.Top...), f)
			h.Pieces = append(h.Pieces, p)
		default:
			h.Pieces = append(h.Pieces, p)
		}
		up -= p.Length
	}
	return h, nil
}

// clone copies the rode so that its pieces can be changed.
func (r Rode) clone() Rode {
	r.AtAnchor = slices.Clone(r.AtAnchor)
	r.Pieces = slices.Clone(r.Pieces)
	for i := range r.Pieces {
		r.Pieces[i].Top = slices.Clone(r.Pieces[i].Top)
	}
	return r
}
