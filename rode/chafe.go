package rode

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// Sleeve is a chafe sleeve in stock.
type Sleeve struct {
	Name   string
	Inside units.Length // diameter inside when round: FlatSleeve for a flat tube
}

// FlatSleeve is the diameter inside of a tube sold by its width when flat: the
// circumference is twice the width.
func FlatSleeve(width units.Length) (units.Length, error) {
	var c checker
	positive(&c, "width", width)
	if c.err != nil {
		return 0, c.err
	}
	return width.Scale(2 / math.Pi), nil
}

// How thick a rope becomes, in diameters.
var (
	// splicedThick is a splice: for the length of the tucks, or of a bury, there
	// are two ropes in the section of one, so that its area is twice.
	splicedThick = math.Sqrt2
	// doubledThick is a soft eye pressed flat, or any bight: the girth of two
	// ropes side by side is (2 + pi) d.
	doubledThick = (2 + math.Pi) / math.Pi
)

// sleeveEase is how much wider than what goes through it a sleeve has to be to
// slide: a tenth, a usual value.
const sleeveEase = 1.1

// SleeveNeed is the least diameter inside a sleeve, with a tenth of ease, to
// pass over the bare rope, over a splice, and over a soft eye pressed flat.
type SleeveNeed struct{ OverRope, OverSplice, OverEye units.Length }

// NeedSleeve works out how wide a sleeve has to be: over a rope of diameter d;
// over a splice, where two ropes lie in one section, sqrt(2) d; and over an eye,
// whose two parts side by side have the girth (2 + pi) d, that of 1.64 d round.
// The widths are geometry, the tenth of ease on top of them is practice.
func NeedSleeve(diameter units.Length) (SleeveNeed, error) {
	var c checker
	positive(&c, "diameter", diameter)
	if c.err != nil {
		return SleeveNeed{}, c.err
	}
	d := diameter.Scale(sleeveEase)
	return SleeveNeed{d, d.Scale(splicedThick), d.Scale(doubledThick)}, nil
}

// SleeveEnd is what a sleeve has to pass over to come onto the rope.
type SleeveEnd int

// The ends.
const (
	OverSplice SleeveEnd = iota // the splice of an eye with a thimble, threaded before the eye is made
	OverEye                     // a soft eye, with the rope as it is finished
)

var sleeveEndNames = [...]string{"splice", "eye"}

// String is "splice" or "eye".
func (e SleeveEnd) String() string {
	if e < 0 || int(e) >= len(sleeveEndNames) {
		return "SleeveEnd(" + strconv.Itoa(int(e)) + ")"
	}
	return sleeveEndNames[e]
}

// ChooseSleeve is the narrowest sleeve in stock that passes over the rope and
// over what it has to pass over at the end. A sleeve must be able to move onto
// the splice and off it again, to be put where it chafes and to be replaced:
// one that passes over the bare rope alone would have to be threaded before the
// splice is made and could never be moved past it, and is refused. The error
// wraps ErrFit.
func ChooseSleeve(stock []Sleeve, diameter units.Length, end SleeveEnd) (Sleeve, error) {
	need, err := NeedSleeve(diameter)
	if err != nil {
		return Sleeve{}, err
	}
	least := need.OverSplice
	switch end {
	case OverSplice:
	case OverEye:
		least = need.OverEye
	default:
		return Sleeve{}, refuse("end", end, "OverSplice or OverEye")
	}
	var best, bare *Sleeve
	var c checker
	for i := range stock {
		s := &stock[i]
		positive(&c, "stock["+strconv.Itoa(i)+"].Inside", s.Inside)
		switch {
		case s.Inside >= least:
			if best == nil || s.Inside < best.Inside {
				best = s
			}
		case s.Inside >= need.OverRope:
			bare = s
		}
	}
	switch {
	case c.err != nil:
		return Sleeve{}, c.err
	case best != nil:
		return *best, nil
	case bare != nil:
		return Sleeve{}, refuseAs(ErrFit, "stock", bare.Name+", which passes over the rope but only before the splice is made", "at least "+millimetres(least)+" inside")
	}
	return Sleeve{}, refuseAs(ErrFit, "stock", "no sleeve wide enough", "at least "+millimetres(least)+" inside")
}

// SleevePlace is where a sleeve goes, along the unloaded rope from the bearing
// of its eye on the cleat.
type SleevePlace struct{ From, To, Length units.Length }

// Fairlead is a place where a rope chafes.
type Fairlead struct {
	Inboard units.Length // from the bearing of the eye on the cleat to the middle of the fairlead
	Contact units.Length // of rope and fairlead
	Margin  units.Length // to cover on either side of it
	Strain  float64      // of the rope at the peak, 0 to 1
}

// Sleeve works out what has to be covered at a fairlead. As the rope stretches,
// the part of it that lies in the fairlead moves: at a strain e the fairlead is
// Inboard/(1+e) along the unloaded rope. The sleeve covers the contact, half of it
// either side, from no load to the peak's strain, and the margin at both ends.
// From is 0 where that would begin beyond the cleat. Tie it to the rope at the
// outer end: a sleeve that wanders is none.
func (f Fairlead) Sleeve() (SleevePlace, error) {
	var c checker
	positive(&c, "Fairlead.Inboard", f.Inboard)
	notNegative(&c, "Fairlead.Contact", f.Contact)
	notNegative(&c, "Fairlead.Margin", f.Margin)
	between(&c, "Fairlead.Strain", f.Strain, 0, 1)
	if c.err != nil {
		return SleevePlace{}, c.err
	}
	p := SleevePlace{
		From: f.Inboard.Scale(1/(1+f.Strain)) - f.Contact.Scale(0.5) - f.Margin,
		To:   f.Inboard + f.Contact.Scale(0.5) + f.Margin,
	}
	p.From = max(p.From, 0) // the cleat ends it
	p.Length = p.To - p.From
	return p, nil
}
