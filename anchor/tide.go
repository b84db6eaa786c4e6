package anchor

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/forepeak/units"
)

// Turn is one high or low water of a tide table.
type Turn struct {
	At     time.Time
	Height units.Length // above chart datum
	High   bool         // high water; in a tide table given to Tide it is not looked at
}

// TideRule is how the height goes from one turn of the tide to the next.
type TideRule int

// The rules. Both know nothing of the place: they fit a tide that rises and
// falls evenly, and not one with a stand, a double high water or a bore.
const (
	// Cosine is half a cosine wave: (1 - cos(pi t/T))/2 of the range after t of
	// the time T between the turns.
	Cosine TideRule = iota
	// Twelfths is the rule of twelfths: 1, 2, 3, 3, 2, 1 twelfths of the range in
	// the six sixths of the time, joined by straight lines. It leaves the cosine by
	// 2.6 % of the range at most.
	Twelfths
)

// String is "cosine" or "twelfths".
func (r TideRule) String() string {
	switch r {
	case Cosine:
		return "cosine"
	case Twelfths:
		return "twelfths"
	}
	return fmt.Sprintf("tide rule %d", int(r))
}

// MarshalText writes "cosine" or "twelfths".
func (r TideRule) MarshalText() ([]byte, error) {
	if r != Cosine && r != Twelfths {
		return nil, refuse("TideRule", int(r), "cosine or twelfths")
	}
	return []byte(r.String()), nil
}

// UnmarshalText reads "cosine" or "twelfths".
func (r *TideRule) UnmarshalText(text []byte) error {
	switch string(text) {
	case "cosine":
		*r = Cosine
	case "twelfths":
		*r = Twelfths
	default:
		return refuseAs(ErrUnknown, "TideRule", fmt.Sprintf("%q", text), "cosine or twelfths")
	}
	return nil
}

// Risen is the part of the range by which the tide has moved after a part of
// the time between two turns, both from 0 to 1.
func (r TideRule) Risen(part float64) (float64, error) {
	var c checker
	between(&c, "part", part, 0, 1)
	if r != Cosine && r != Twelfths {
		return 0, refuse("TideRule", int(r), "cosine or twelfths")
	}
	if c.err != nil {
		return 0, c.err
	}
	return r.risen(part), nil
}

// twelfths are those risen at the ends of the sixths of the time.
var twelfths = [7]float64{0, 1, 3, 6, 9, 11, 12}

func (r TideRule) risen(part float64) float64 {
	if r == Cosine {
		s := math.Sin(math.Pi / 2 * part)
		return s * s
	}
	i := min(int(6*part), 5)
	return (twelfths[i] + (6*part-float64(i))*(twelfths[i+1]-twelfths[i])) / 12
}

// Tide is the height of the water above chart datum in the course of time: from
// the turns of a tide table, or from harmonic constituents. The zero Tide is
// water without a tide.
//
// A tide table is a prediction for average weather. Wind and air pressure move
// the water by decimetres, in narrow seas by metres; a plan that starts from a
// sounding takes up what is steady of it.
type Tide struct {
	// Turns of a tide table in the order of time, high and low water in turn.
	Turns []Turn   `json:",omitempty"`
	Rule  TideRule // how the height goes between them

	// Constituents of a harmonic prediction about the mean level Mean, with their
	// phases at Epoch. They exclude Turns.
	Constituents []Constituent `json:",omitempty"`
	Mean         units.Length
	Epoch        time.Time
}

// Height of the water above chart datum. It refuses a time that the tide table
// does not reach.
func (td Tide) Height(at time.Time) (units.Length, error) {
	if err := td.valid(); err != nil {
		return 0, err
	}
	if err := td.reaches(at, at); err != nil {
		return 0, err
	}
	return units.Length(td.height(at)), nil
}

// Between lists the high and low waters from one time to another, the ends
// included.
func (td Tide) Between(from, to time.Time) ([]Turn, error) {
	if err := td.valid(); err != nil {
		return nil, err
	}
	if err := interval(from, to); err != nil {
		return nil, err
	}
	if err := td.reaches(from, to); err != nil {
		return nil, err
	}
	if len(td.Constituents) > 0 {
		return td.harmonicTurns(from, to)
	}
	var turns []Turn
	for i, t := range td.Turns {
		if !t.At.Before(from) && !t.At.After(to) {
			t.High = td.isHigh(i)
			turns = append(turns, t)
		}
	}
	return turns, nil
}

func (td *Tide) isHigh(i int) bool {
	if i > 0 {
		return td.Turns[i].Height > td.Turns[i-1].Height
	}
	return td.Turns[0].Height > td.Turns[1].Height
}

// Limits that keep times and heights within what a boat can need.
const (
	longest  = 366 * 24 * time.Hour // of a plan
	tallest  = units.Length(30)     // a height of tide, above or under datum
	lastYear = 2200
)

func (td *Tide) valid() error {
	if td.Rule != Cosine && td.Rule != Twelfths {
		return refuse("Tide.Rule", td.Rule, "cosine or twelfths")
	}
	if len(td.Turns) > 0 && len(td.Constituents) > 0 {
		return refuse("Tide.Constituents", fmt.Sprintf("%d long beside %d turns", len(td.Constituents), len(td.Turns)), "either turns or constituents")
	}
	if len(td.Turns) == 1 {
		return refuse("Tide.Turns", "1 long", "none, or two and more")
	}
	var c checker
	for i, t := range td.Turns {
		f := fmt.Sprintf("Tide.Turns[%d].", i)
		between(&c, f+"Height", t.Height, -tallest, tallest)
		if c.err == nil {
			c.err = checkTime(f+"At", t.At)
		}
		if c.err != nil {
			return c.err
		}
		if i == 0 {
			continue
		}
		last := td.Turns[i-1]
		if !t.At.After(last.At) {
			return refuse(f+"At", t.At, "later than the turn before it, "+last.At.String())
		}
		if t.At.Sub(last.At) > 36*time.Hour {
			return refuse(f+"At", t.At, "within 36 h of the turn before it, "+last.At.String())
		}
		if t.Height == last.Height || i > 1 && (t.Height > last.Height) == (last.Height > td.Turns[i-2].Height) {
			return refuse(f+"Height", t.Height, "high and low water in turn")
		}
	}
	if len(td.Constituents) == 0 {
		return nil
	}
	between(&c, "Tide.Mean", td.Mean, -tallest, tallest)
	if c.err != nil {
		return c.err
	}
	if err := checkTime("Tide.Epoch", td.Epoch); err != nil {
		return err
	}
	for i, k := range td.Constituents {
		if err := k.check(fmt.Sprintf("Tide.Constituents[%d].", i)); err != nil {
			return err
		}
	}
	return nil
}

// checkTime keeps differences of times within a time.Duration.
func checkTime(field string, at time.Time) error {
	if y := at.Year(); y < 1900 || y > lastYear {
		return refuse(field, at, fmt.Sprintf("from 1900 to %d", lastYear))
	}
	return nil
}

func interval(from, to time.Time) error {
	if err := cmp.Or(checkTime("from", from), checkTime("to", to)); err != nil {
		return err
	}
	if d := to.Sub(from); d < 0 || d > longest {
		return refuse("to", to, "from "+from.String()+" to a year later")
	}
	return nil
}

func (td *Tide) reaches(from, to time.Time) error {
	if err := cmp.Or(checkTime("time", from), checkTime("time", to)); err != nil {
		return err
	}
	if n := len(td.Turns); n > 0 {
		first, last := td.Turns[0].At, td.Turns[n-1].At
		for _, at := range []time.Time{from, to} {
			if at.Before(first) || at.After(last) {
				return refuseAs(ErrRange, "time", at, "within the tide table, "+first.String()+" to "+last.String())
			}
		}
	}
	return nil
}

// height is in metres, at a time that the table reaches.
func (td *Tide) height(at time.Time) float64 {
	if len(td.Constituents) > 0 {
		return td.harmonic(at)
	}
	if len(td.Turns) == 0 {
		return 0
	}
	i, _ := slices.BinarySearchFunc(td.Turns, at, func(t Turn, at time.Time) int { return t.At.Compare(at) })
	i = max(i, 1)
	a, b := &td.Turns[i-1], &td.Turns[i]
	part := at.Sub(a.At).Seconds() / b.At.Sub(a.At).Seconds()
	h, range_ := float64(a.Height), float64(b.Height-a.Height)
	return h + range_*td.Rule.risen(part)
}
