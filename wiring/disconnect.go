package wiring

import (
	"errors"
	"fmt"
	"slices"

	"example.com/forepeak/units"
)

// Phase is a spell of use: the start, the working pull, a stall.
type Phase struct {
	Name string
	At   Conditions
	For  units.Time
}

// Cutout is what a battery's electronic disconnect does in a phase.
type Cutout struct {
	Phase   string
	Battery string
	Current units.Current // out of the battery, before it opens
	Posts   units.Voltage // at its posts then
	Opens   bool
	After   units.Time // from the beginning of the phase, 0: at once
	Why     string     // the limit that is passed
	// Dark names the loads and motors that have no voltage once it has opened
	// and had it before; stalled motors too.
	Dark []string
	// Rest says that what is left cannot feed its loads of constant power or current, and
	// which; all of them may go off.
	Rest string
}

// CheckDisconnects solves the phases, one after the other, and says for every battery with a
// [Disconnect] whether it opens: below its temperature or voltage or above its peak current at
// once, between continuous and peak current when that has lasted PeakTime, phases
// that follow each other without a rest counted together. Every phase begins with the disconnects closed.
// What one battery lays down the others take
// up, so they are asked again.
//
// The limits are the maker's. Real ones react to voltage after a delay of a second or so, and
// on the side of the cells: an opening within 5 % of a limit may or may not happen.
//
// Caution: an opened disconnect takes everything on that battery with it, navigation lights and
// engine electronics included, and an alternator charging into it may be destroyed.
func CheckDisconnects(c Circuit, phases []Phase) ([]Cutout, error) {
	sv, err := NewSolver(c)
	if err != nil {
		return nil, err
	}
	over := map[string]units.Time{} // how long each battery has been above its continuous current
	var answers []Cutout
	for i, p := range phases {
		field := fmt.Sprintf("phases[%d]", i)
		var ck checker
		between(&ck, field+".For", p.For, 0, 1e9)
		if ck.err != nil {
			return nil, ck.err
		}
		at := p.At
		at.Open = slices.Clone(p.At.Open)
		st := new(Solution)
		if err := sv.Solve(st, at); err != nil {
			return nil, err
		}
		first := len(answers)
		var which []int // elements that the answers of this phase are for
		for k := range c.Elements {
			if b := c.Elements[k].Battery; b != nil && b.Disconnect != nil && !slices.Contains(at.Open, c.Elements[k].Name) {
				answers = append(answers, Cutout{Phase: p.Name, Battery: c.Elements[k].Name})
				which = append(which, k)
			}
		}
		for again := true; again; {
			again = false
			for n, k := range which {
				o := &answers[first+n]
				if o.Opens {
					continue
				}
				o.judge(c.Elements[k].Battery, st.Branches[k], over[o.Battery], p.For)
				if !o.Opens {
					continue
				}
				at.Open = append(at.Open, o.Battery)
				after := new(Solution)
				err := sv.Solve(after, at)
				if errors.Is(err, ErrCollapse) {
					o.Rest = err.Error()
					continue // the others are judged by what was before
				}
				if err != nil {
					return nil, err
				}
				o.Dark = newlyDark(st, after)
				st, again = after, true
				break
			}
		}
		lasts := map[string]units.Time{}
		for n, k := range which {
			o := &answers[first+n]
			if o.Current > c.Elements[k].Battery.Disconnect.Continuous && !o.Opens {
				lasts[o.Battery] = over[o.Battery] + p.For
			}
		}
		over = lasts
	}
	return answers, nil
}

// judge compares a battery's state with its limits. It has been above its continuous current for
// a time already.
func (o *Cutout) judge(b *Battery, br Branch, already, phase units.Time) {
	d := b.Disconnect
	o.Current, o.Posts = br.Current, -br.Drop
	switch {
	case d.LowTemperature != 0 && b.temperature() < d.LowTemperature:
		o.Opens, o.Why = true, fmt.Sprintf("battery at %.3v, limit %.3v", b.temperature(), d.LowTemperature)
	case d.LowVoltage != 0 && o.Posts < d.LowVoltage:
		o.Opens, o.Why = true, fmt.Sprintf("%.3v at the posts, limit %.3v", o.Posts, d.LowVoltage)
	case o.Current > d.Peak:
		o.Opens, o.Why = true, fmt.Sprintf("%.3v, peak %.3v", o.Current, d.Peak)
	case o.Current > d.Continuous && already+phase > d.PeakTime:
		o.Opens, o.After = true, d.PeakTime-already
		o.Why = fmt.Sprintf("%.3v for more than %.3v, continuous %.3v", o.Current, d.PeakTime, d.Continuous)
	}
}

// newlyDark lists the consumers that worked before and do not work after.
func newlyDark(before, after *Solution) []string {
	var names []string
	for i, b := range after.Branches {
		was := before.Branches[i].State
		if was != Dark && b.State != was && (b.State == Dark || b.State == Stalled) { // what is off stays off
			names = append(names, b.Name)
		}
	}
	return names
}
