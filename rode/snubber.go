package rode

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Snubber is a rope from a hook or shackle on the chain to a cleat on board,
// over the bow or from an eye in the stem: it takes the load off the windlass
// and gives the chain the stretch it lacks. A bridle counts as its two legs.
type Snubber struct {
	Rope   Rope
	Length units.Length // unstretched, from the hook to the bow
	Legs   int          // that share the load: 1, 2 for a bridle; 0 counts as 1
	// Slack is the chain that hangs in a loop between hook and roller; half its
	// weight hangs on the hook. Zero leaves it out.
	Slack units.Length
}

func (n Snubber) legs() int { return max(n.Legs, 1) }

func (n Snubber) check(c *checker) {
	positive(c, "Snubber.Length", n.Length)
	if c.err == nil && (n.Legs < 0 || n.Legs > 2) {
		c.err = refuse("Snubber.Legs", n.Legs, "0 to 2")
	}
	notNegative(c, "Snubber.Slack", n.Slack)
	n.Rope.check(c, "Snubber.Rope")
}

// check is for a rope that has to stretch and to hold.
func (r *Rope) check(c *checker, field string) {
	positive(c, field+".Diameter", r.Diameter)
	positive(c, field+".Mass", r.Mass)
	positive(c, field+".Density", r.Density)
	positive(c, field+".Breaking", r.Breaking)
	if c.err == nil && r.Stretch == (Stretch{}) {
		c.err = refuse(field+".Stretch", "zero", "a rope whose load-extension curve is known")
	}
	r.Stretch.check(c, field+".Stretch")
}

// Snub is the rode from the anchor to the hook, which is r, with the snubber
// above it, to be solved like any other: the hook is the joint below the last
// piece. The two legs of a bridle become one rope of twice the mass and
// strength, as if they ran side by side; legs that spread to a half angle a are
// softer lengthwise by cos² a, 7 % for 15°. [SolveBridle] has their geometry.
//
// The rope has the curve it is given: that of a slow pull for how the boat lies. To
// put the result to [SolveSurge], give the snubber its Rope.Cyclic first.
//
// For a snubber led over the bow roller the site is that of the rode; for one
// from an eye in the stem give the site that eye's height as Roller.
func (r Rode) Snub(n Snubber) (Rode, error) {
	var c checker
	r.check(&c)
	n.check(&c)
	if c.err != nil {
		return Rode{}, c.err
	}
	k := float64(n.legs())
	p := n.Rope.Piece(n.Length)
	p.Name = "snubber, " + n.Rope.Name()
	if n.legs() == 2 {
		p.Name = "bridle, 2 x " + n.Rope.Name()
	}
	p.Mass = p.Mass.Scale(k)
	p.Breaking = p.Breaking.Scale(k)
	p.Stretch.Reference = p.Stretch.Reference.Scale(k)
	p.Stretch.Limit = p.Stretch.Limit.Scale(k)
	v := r.clone()
	hook := &v.Pieces[len(v.Pieces)-1]
	if n.Slack > 0 {
		if hook.Kind != OfChain {
			return Rode{}, refuse("Snubber.Slack", n.Slack, "0, or a rode whose last piece is chain")
		}
		half := hook.Mass.TimesLength(n.Slack.Scale(0.5))
		hook.Top = append(append([]Fitting(nil), hook.Top...), Fitting{
			Name: "half the slack chain", Mass: half, Volume: half.PerDensity(hook.Density),
		})
	}
	v.Pieces = append(v.Pieces, p)
	return v, nil
}

// SnubberLimits are the loads a snubber may see at the peak of a surge.
type SnubberLimits struct {
	// Bow is the greatest tension at the bow, of all legs together: what cleats
	// and anchor hold with the margin wanted.
	Bow units.Force
	// OfBreaking is the greatest part of the rope's breaking force as rigged:
	// above 0, at most 1. A splice leaves 0.9 of it, wet polyamide 0.85: put
	// Rope.Wet in, and multiply the splice in here.
	OfBreaking float64
}

func (l SnubberLimits) check(c *checker) {
	positive(c, "SnubberLimits.Bow", l.Bow)
	positive(c, "SnubberLimits.OfBreaking", l.OfBreaking)
	between(c, "SnubberLimits.OfBreaking", l.OfBreaking, 0, 1)
}

// tension is the greatest tension allowed at the bow.
func (l SnubberLimits) tension(n Snubber) units.Force {
	return min(l.Bow, n.Rope.Breaking.Scale(l.OfBreaking*float64(n.legs())))
}

// LongestSnubber is as long as SnubberLength looks for.
const LongestSnubber = 200 * units.Metre

// SnubberLength is the least length of a snubber with which a surge stays
// within limits, to a millimetre; the snubber's own Length is not used. The
// longer it is, the more it gives and the lower the peak.
//
// The snubber's rope is reckoned with the curve that it has in cycles, [Rope.Cyclic],
// whichever it comes with. Rope in the rode below the hook is taken as it is: give it
// that curve too.
//
// The error wraps [ErrShort] where [LongestSnubber] is not enough, as for a rope
// whose strength is less than the gust. On a bed that rises to the boat no rode
// is longer than the bed allows, and the longest tried is less. The cautions of
// [SolveSurge] hold here: nobody knows the surge of the next wave.
func SnubberLength(r Rode, s Site, n Snubber, g Surge, l SnubberLimits) (units.Length, error) {
	n.Length = LongestSnubber
	var c checker
	n.check(&c)
	g.check(&c)
	l.check(&c)
	if c.err != nil {
		return 0, c.err
	}
	n.Rope = n.Rope.Cyclic()
	allowed := float64(l.tension(n))
	over := func(length float64) (float64, error) {
		n.Length = units.Length(length)
		whole, err := r.Snub(n)
		if err != nil {
			return 0, err
		}
		sv, err := newSolver(whole, s)
		if err != nil {
			return 0, err
		}
		p, err := sv.surge(g)
		if err != nil {
			return 0, err
		}
		return math.Log(float64(p.Peak.Tension) / allowed), nil
	}
	least := math.Max(0.1, float64(s.Rise()-r.Length())*(1+1e-9)+1e-3)
	longest := float64(LongestSnubber)
	f, err := over(longest)
	for errors.Is(err, ErrBed) && longest > least {
		longest = math.Max(least, 0.97*longest)
		f, err = over(longest)
	}
	if err != nil {
		return 0, err
	}
	if f > 0 {
		return 0, refuseAs(ErrShort, "Snubber.Length", units.Length(longest),
			fmt.Sprintf("a stronger rope or cleat for a peak of %.3v", units.Force(allowed*math.Exp(f))))
	}
	length, err := root.Find(over, least, longest, 1e-4)
	if errors.Is(err, root.ErrNoBracket) {
		return units.Length(least), nil
	}
	if err != nil {
		return 0, err
	}
	// The root may lie a hair on the short side.
	return units.Length(math.Ceil(length*1000+0.5) / 1000), nil
}

// SnubberOption is one rope of a comparison, and what it does.
type SnubberOption struct {
	Snubber Snubber
	Peak    SurgePeak
	// Stretch of the snubber at the peak, and its Strain, on the curve of cycles: how
	// much it gives to the surge. A slow pull of that size stretches it more.
	Stretch units.Length
	Strain  float64
	// OfBreaking is the peak as a part of the rope's breaking force, OfLimit as
	// a part of what the limits allow.
	OfBreaking, OfLimit float64
	Share               float64 // of the surge's energy that the snubber took
	// Wanted is the least length that stays within the limits; 0 where none does.
	Wanted units.Length
}

// Holds is whether the option stays within the limits.
func (o *SnubberOption) Holds() bool { return o.OfLimit <= 1 }

// CompareSnubbers answers what too thick or too short a rope costs: it puts
// snubbers to the same surge and tells for each the peak, and the length that
// would do. A rope of twice the strength stretches half as much at one load, so
// that for the same peak it has to be about twice as long.
//
// All is reckoned with the curve of cycles, [Rope.Cyclic], as in [SnubberLength], the
// state at rest too: for how the hook hangs there solve the rode with the slow curve.
// Peaks beyond the load-extension curve, which ends at the breaking force, are
// those of the curve continued: OfBreaking is then above 1, and such a rope parts.
func CompareSnubbers(r Rode, s Site, g Surge, l SnubberLimits, snubbers []Snubber) ([]SnubberOption, error) {
	var c checker
	l.check(&c)
	if c.err == nil && len(snubbers) > mostPieces {
		c.err = refuse("snubbers", fmt.Sprintf("%d long", len(snubbers)), fmt.Sprintf("at most %d", mostPieces))
	}
	if c.err != nil {
		return nil, c.err
	}
	options := make([]SnubberOption, 0, len(snubbers))
	for i, n := range snubbers {
		o, err := trySnubber(r, s, g, l, n)
		if err != nil {
			if e, ok := errors.AsType[*Error](err); ok {
				e.Field = "snubbers[" + strconv.Itoa(i) + "]: " + e.Field
			}
			return nil, err
		}
		options = append(options, o)
	}
	return options, nil
}

func trySnubber(r Rode, s Site, g Surge, l SnubberLimits, n Snubber) (SnubberOption, error) {
	var c checker
	r.check(&c)
	n.check(&c)
	if c.err != nil {
		return SnubberOption{}, c.err
	}
	cyclic := n
	cyclic.Rope = n.Rope.Cyclic()
	whole, err := r.Snub(cyclic)
	if err != nil {
		return SnubberOption{}, err
	}
	sv, err := newSolver(whole, s)
	if err != nil {
		return SnubberOption{}, err
	}
	o := SnubberOption{Snubber: n}
	if o.Peak, err = sv.surge(g); err != nil {
		return SnubberOption{}, err
	}
	top := len(whole.Pieces) - 1
	t := o.Peak.Peak.Tension
	o.Stretch = o.Peak.Peak.Pieces[top].Stretch
	o.Strain = o.Stretch.Per(n.Length)
	o.OfBreaking = t.Per(whole.Pieces[top].Breaking)
	o.OfLimit = t.Per(l.tension(n))
	o.Share = o.Peak.Share(top)
	o.Wanted, err = SnubberLength(r, s, n, g, l)
	if err != nil && !errors.Is(err, ErrShort) {
		return SnubberOption{}, err
	}
	return o, nil
}

// LeastSlack is the length of chain to leave between hook and roller so that it
// does not come taut before the snubber has stretched to the peak: the distance
// from hook to bow at the peak. Leave a good metre more, since a wave may bring
// more than was reckoned with. It is 0 for a rode of one piece.
//
// A rope stretches farther in a slow pull than in a surge: the slack that is enough
// for both is that of the peak solved with the slow curve, a few per cent of the
// snubber's length more than with [Rope.Cyclic].
func (p *SurgePeak) LeastSlack() units.Length {
	n := len(p.Peak.Pieces)
	if n < 2 {
		return 0
	}
	q := &p.Peak.Pieces[n-1]
	return units.Length(math.Hypot(float64(q.Upper.X-q.Lower.X), float64(q.Upper.Z-q.Lower.Z)))
}

// HookHeight is how high the hook of a snubber, the joint below the last piece,
// hangs above the water, negative for one below it. A hook that lies on the bed
// when the pull is light chafes, and may let go of a slack chain. It is 0 for a
// rode of one piece, which has no hook.
func (st *State) HookHeight() units.Length {
	if len(st.Joints) == 0 {
		return 0
	}
	return st.Joints[len(st.Joints)-1].Z - st.Depth
}
