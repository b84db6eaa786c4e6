package rode

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// LayWay is a way to read a test lay.
type LayWay string

// The ways to read a lay.
const (
	// ReadStanding: the counter is set to zero, and read where the wheel comes to stand.
	ReadStanding LayWay = "standing"
	// ReadAtEnd: it is set to zero, and the end is marked as the display changes.
	ReadAtEnd LayWay = "at the change, end only"
	// ReadAtChanges: both ends are marked as the display changes.
	ReadAtChanges LayWay = "at the change, both ends"
)

var waysToRead = [...]LayWay{ReadStanding, ReadAtEnd, ReadAtChanges}

// ends are the widths, in pulses, of what is known of the two ends of a lay.
func (c *Counter) ends(way LayWay) (start, end float64) {
	width := 1.0
	if c.Step > 0 {
		width = math.Max(1, ceil(c.Step.Per(c.Setting.Scale(1/c.pulses()))))
	}
	switch way {
	case ReadAtEnd:
		return 1, 0
	case ReadAtChanges:
		return 0, 0
	default:
		return 1, width
	}
}

// LayLength is the length that a test lay must have.
type LayLength struct {
	Way    LayWay // ReadStanding, ReadAtEnd or ReadAtChanges
	Length units.Length
}

// LayToTell answers how long one test lay must be to tell whether a wheel pays
// out a or b a turn, for each way of reading it: so long that no reading, wherever
// the wheel started, is possible with both,
//
//	L = a (N + h) + e,  N = (h (a + b) + 2 e) / (b - a - z uScale (a + b))
//
// h are the turns by which rounding may be off, half a pulse for each end that is
// not read at a change and more for a coarse display; e = z sqrt(uTape² + uRepeat²),
// and z = 1.96. A lay shorter than that may tell them apart by luck.
func LayToTell(c Counter, a, b units.Length, e LayErrors) ([]LayLength, error) {
	var k checker
	c.check(&k)
	e.check(&k)
	between(&k, "a", a, leastPayout, mostPayout)
	between(&k, "b", b, leastPayout, mostPayout)
	if k.err == nil && a == b {
		k.err = refuse("b", b, "another payout than a")
	}
	if k.err != nil {
		return nil, k.err
	}
	lo, hi := float64(min(a, b)), float64(max(a, b))
	z := quantile95(0)
	apart := hi - lo - z*e.TapeScale*(lo+hi)
	if apart <= 0 {
		return nil, refuse("TapeScale", e.TapeScale, fmt.Sprintf("less than %.2g: that of the tape hides the difference at any length", (hi-lo)/(lo+hi)/z))
	}
	slack := z * e.random()
	ls := make([]LayLength, len(waysToRead))
	for i, way := range waysToRead {
		start, end := c.ends(way)
		h := (start + end) / 2 / c.pulses()
		n := math.Max((h*(lo+hi)+2*slack)/apart, 1/c.pulses())
		ls[i] = LayLength{way, units.Length(lo*(n+h) + slack)}
	}
	for _, l := range ls {
		between(&k, "b", l.Length, 0, mostOut)
	}
	if k.err != nil {
		return nil, refuse("b", b, "farther from a: a lay that tells them apart would be longer than "+mostOut.String())
	}
	return ls, nil
}

// LayPlan is a set of test lays.
type LayPlan struct {
	Way   LayWay // how to read them
	Lays  []units.Length
	Total units.Length // of chain to handle
	// Half is the half width of the 95 % interval to be expected, per turn.
	Half units.Length
}

// LayGoal is what test lays are wanted for.
type LayGoal struct {
	Payout  units.Length // per turn, roughly what is expected
	Half    units.Length // half width of its 95 % interval that is wanted
	Longest units.Length // lay that can be handled
	Errors  LayErrors
}

// ProposeLays gives the shortest set of lays for a wanted half width of the 95 %
// interval of the payout per turn, none of them longer than the longest that can be
// handled, for each way of reading them that can reach it.
//
// Long lays do more per metre than short ones: information grows as the square
// of the length. So the set is as many of the longest as are needed, the last one
// cut to measure. A LayErrors.Repeat of zero counts as none here. Where rounding is
// the greatest error, one set does better and another worse than Half. Add lays of
// other lengths and inward ones to see slip, which these do not show.
func ProposeLays(c Counter, g LayGoal) ([]LayPlan, error) {
	var k checker
	c.check(&k)
	g.Errors.check(&k)
	between(&k, "LayGoal.Payout", g.Payout, leastPayout, mostPayout)
	between(&k, "LayGoal.Half", g.Half, 1e-6, g.Payout)
	between(&k, "LayGoal.Longest", g.Longest, g.Payout.Scale(5), mostOut)
	if k.err != nil {
		return nil, k.err
	}
	var plans []LayPlan
	for _, way := range waysToRead {
		if p, ok := c.plan(way, &g); ok {
			plans = append(plans, p)
		}
	}
	if plans == nil {
		return nil, refuse("LayGoal.Half", g.Half, fmt.Sprintf("a wider interval, longer lays or a better tape: not even %d lays of %v reach it", mostLays, g.Longest))
	}
	return plans, nil
}

// mostLays is how many lays anybody would do.
const mostLays = 40

func (c *Counter) plan(way LayWay, g *LayGoal) (LayPlan, bool) {
	start, end := c.ends(way)
	m := c.pulses()
	payout, want, longest := float64(g.Payout), float64(g.Half), float64(g.Longest)
	random := g.Errors.random()
	z := quantile95(0)
	scale := z * g.Errors.TapeScale * payout
	if scale >= want {
		return LayPlan{}, false
	}
	v := random*random + (start*start+end*end)/12*payout*payout/m/m
	// The sum of the squared turns that the lays must make up.
	need := v * z * z / (want*want - scale*scale)
	most := longest / payout
	n := math.Max(1, ceil(need/(most*most)))
	if n > mostLays {
		return LayPlan{}, false
	}
	p := LayPlan{Way: way}
	for range int(n) - 1 {
		p.Lays = append(p.Lays, units.Length(longest))
		need -= most * most
	}
	last := math.Min(most, math.Max(math.Sqrt(math.Max(0, need)), 5))
	p.Lays = append(p.Lays, units.Length(last*payout))
	sum := 0.0
	for _, l := range p.Lays {
		p.Total += l
		sum += float64(l) * float64(l) / payout / payout
	}
	p.Half = units.Length(math.Hypot(z*math.Sqrt(v/sum), scale))
	return p, true
}
