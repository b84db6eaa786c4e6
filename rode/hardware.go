package rode

import (
	"maps"
	"slices"
	"strings"

	"example.com/forepeak/units"
)

// Thimble keeps an eye round and takes the chafe of a shackle.
type Thimble struct {
	Name   string
	Groove units.Length // greatest diameter of rope it takes
	// Width and Length inside, Wall the metal between the groove and the inside,
	// Thick its thickness over the flanges.
	Width, Length, Wall, Thick units.Length
}

// Shackle joins a thimble, on its bow, to a chain, on its pin.
type Shackle struct {
	Name     string
	Pin      units.Length // diameter
	Gape     units.Length // between the ears
	Body     units.Length // thickness of the bow
	Inside   units.Length // width inside the bow
	Working  units.Force
	Breaking units.Force
}

// looseGroove is how much thinner than the groove a rope may be.
const looseGroove = 0.8

// FitsRope is nil if a rope of a diameter lies well in the thimble's groove: no
// thicker than it, nor thinner than 0.8 of it, or the rope lies askew and the
// thimble falls out. The 0.8 is practice. The error wraps ErrFit.
func (t Thimble) FitsRope(diameter units.Length) error {
	var c checker
	positive(&c, "Thimble.Groove", t.Groove)
	positive(&c, "diameter", diameter)
	if c.err == nil && !(diameter <= t.Groove && diameter >= t.Groove.Scale(looseGroove)) {
		c.err = refuseAs(ErrFit, "diameter", millimetres(diameter), "from "+millimetres(t.Groove.Scale(looseGroove))+" to "+millimetres(t.Groove)+" for thimble "+t.Name)
	}
	return c.err
}

// Eye is the splice round the thimble in a rope.
func (t Thimble) Eye(r Rope) EyeSplice {
	return EyeSplice{Rope: r, Eye: t.Length + 2*t.Wall, Round: t.Width + 2*t.Wall}
}

// FitsChain is nil if the pin goes through the chain's links and a link goes
// between the ears. Where the catalogue does not give the width inside a link it
// is taken as the greatest outside width less two wires. The error wraps ErrFit.
func (s Shackle) FitsChain(k Chain) error {
	var c checker
	positive(&c, "Shackle.Pin", s.Pin)
	positive(&c, "Shackle.Gape", s.Gape)
	notNegative(&c, "Shackle.Working", s.Working)
	notNegative(&c, "Shackle.Breaking", s.Breaking)
	positive(&c, "Chain.Wire", k.Wire)
	inside := k.InsideWidth
	if inside == 0 {
		inside = k.OutsideWidth - 2*k.Wire
		if c.err == nil && !(inside > 0 && finite(float64(inside))) {
			c.err = refuse("Chain.OutsideWidth", k.OutsideWidth, "more than two wires")
		}
	}
	positive(&c, "Chain.InsideWidth", inside)
	switch {
	case c.err != nil:
	case s.Pin > inside:
		c.err = refuseAs(ErrFit, "Shackle.Pin", millimetres(s.Pin), "at most the width inside a link of "+k.Name()+", "+millimetres(inside))
	case s.Gape < k.Wire:
		c.err = refuseAs(ErrFit, "Shackle.Gape", millimetres(s.Gape), "at least the wire of "+k.Name()+", "+millimetres(k.Wire))
	}
	return c.err
}

// FitsThimble is nil if the bow goes through the thimble and the thimble goes
// between the sides of the bow. The error wraps ErrFit.
func (s Shackle) FitsThimble(t Thimble) error {
	var c checker
	positive(&c, "Shackle.Body", s.Body)
	positive(&c, "Shackle.Inside", s.Inside)
	positive(&c, "Thimble.Width", t.Width)
	positive(&c, "Thimble.Thick", t.Thick)
	switch {
	case c.err != nil:
	case s.Body > t.Width:
		c.err = refuseAs(ErrFit, "Shackle.Body", millimetres(s.Body), "at most the width inside thimble "+t.Name+", "+millimetres(t.Width))
	case s.Inside < t.Thick:
		c.err = refuseAs(ErrFit, "Shackle.Inside", millimetres(s.Inside), "at least the thickness of thimble "+t.Name+", "+millimetres(t.Thick))
	}
	return c.err
}

// ChooseShackle is the weakest shackle in stock that still carries a working load
// and fits chain and thimble. The error wraps ErrFit and tells of each why not.
// Use a shackle whose working load is marked on it, wire its pin, and look at it
// whenever the chain comes in.
func ChooseShackle(stock []Shackle, k Chain, t Thimble, load units.Force) (Shackle, error) {
	var c checker
	notNegative(&c, "load", load)
	if c.err != nil {
		return Shackle{}, c.err
	}
	var best *Shackle
	var why []string
	for i := range stock {
		s := &stock[i]
		err := s.FitsChain(k)
		if err == nil {
			err = s.FitsThimble(t)
		}
		switch {
		case err != nil:
			why = append(why, s.Name+": "+strings.TrimPrefix(err.Error(), "rode: "))
		case !(s.Working >= load):
			why = append(why, s.Name+": works at "+s.Working.String())
		case best == nil || s.Working < best.Working:
			best = s
		}
	}
	if len(stock) == 0 {
		why = append(why, "empty")
	}
	if best == nil {
		return Shackle{}, refuseAs(ErrFit, "stock", strings.Join(why, "; "), "a shackle for "+load.String()+" that fits chain and thimble")
	}
	return *best, nil
}

// names lists the keys of a map in order.
func names(m map[string]float64) string {
	return strings.Join(slices.Sorted(maps.Keys(m)), ", ")
}
