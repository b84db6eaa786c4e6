package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// snubber is what the report says of the snubber or bridle.
type snubber struct {
	spec *snubberSpec // the file's, with a longer loop of chain where that would come taut
	cell cell         // the depth and wind it is worked out for: the strongest that leaves chain for it
	gust cell         // the wind that comes on top, one further on
	most units.Force  // greatest tension of the plan at the bow, which the bitter end has to hold if all else lets go
	at   units.Length // of chain between anchor and hook
	hook rode.Rode    // from the anchor to the hook
	site rode.Site
	rope rode.Rope

	bare   rode.SurgePeak
	shared rode.SnubberOption // all legs alike
	option rode.SnubberOption // on one leg, by which it is judged: a boat that sheers hangs on one
	rest   rode.State         // how she lies to all legs before the gust, the rope pulled slowly
	far    rode.SurgePeak     // on one leg of rope as soft as in a slow pull: the way is longest then
	limits rode.SnubberLimits
	surged surged
	legs   []rode.BridleHang // of a bridle at the sheers below
	cleat  rode.CleatCheck
	rule   units.Force // that the rule for strong points asks of a cleat
	sleeve rode.Sleeve
	place  rode.SleevePlace
	eye    units.Length
	secure rode.SecureLoads
	bitter rode.Lashing
	buy    rode.Shopping
}

// surged is what the highest peak does at the anchor's end.
type surged struct {
	over []overload
	sure units.Force // that the anchor holds at the angle at which it is pulled
}

var sheers = []units.Angle{0, 20 * units.Degree, 40 * units.Degree}

// inboard is the chain that wheel and stopper have to keep hold of.
const inboard = 2 * units.Metre

// makeSnubber works the snubber out for the strongest wind in the depth chosen,
// or else in another, for which there is chain enough.
func (p *plan) makeSnubber() (*snubber, error) {
	spec := p.boat.Snubber
	if spec == nil || p.links == 0 {
		return nil, nil
	}
	rope, err := rode.RopeByName(spec.Rope)
	if err != nil {
		return nil, fmt.Errorf("snubber: %w", err)
	}
	n, err := p.trySnubber(spec, rope)
	if err != nil || n == nil {
		return nil, err
	}
	// A loop that comes taut before the rope has stretched makes the rope useless: one
	// with a metre to spare, or else without, where there is chain for it.
	least := n.far.LeastSlack()
	for _, spare := range []units.Length{1 * units.Metre, 0} {
		if n.spec.Slack >= least {
			break
		}
		longer := *spec
		longer.Slack = p.in.whole(least + spare)
		m, err := p.trySnubber(&longer, rope)
		if err != nil {
			return nil, err
		}
		if m != nil && longer.Slack >= m.far.LeastSlack() {
			return m, nil
		}
	}
	return n, nil
}

// trySnubber works it out with the slack of a spec; it is nil where no depth and
// wind leave chain enough.
func (p *plan) trySnubber(spec *snubberSpec, rope rode.Rope) (*snubber, error) {
	n := &snubber{spec: spec, rope: rope.Wet()}
	for _, row := range p.cells {
		for _, c := range row {
			n.most = max(n.most, c.high.Tension, c.lowest.Tension)
		}
	}
	chosen, err := n.choose(p, spec)
	if err != nil {
		return nil, fmt.Errorf("snubber: %w", err)
	}
	if !chosen {
		return nil, nil
	}
	if err := n.design(p.boat, spec, rope, p.in); err != nil {
		return nil, fmt.Errorf("snubber: %w", err)
	}
	if n.surged, err = n.surge(p, spec); err != nil {
		return nil, fmt.Errorf("snubber: %w", err)
	}
	return n, nil
}

// choose looks for the strongest wind in which she lies on chain and snubber alone.
func (n *snubber) choose(p *plan, spec *snubberSpec) (bool, error) {
	for _, row := range append([][]cell{p.here}, p.cells...) {
		for i := len(row) - 1; i >= 0; i-- {
			ok, err := n.fits(p, spec, row[i])
			if err != nil {
				return false, err
			}
			if ok {
				n.cell, n.gust = row[i], row[min(i+1, len(row)-1)]
				return true, nil
			}
		}
	}
	return false, nil
}

// fits puts the hook on where the rode of a cell ends, or nearer to the anchor
// where the chain would not do for the loop behind it, and asks whether the plan's
// limits are kept when the snubber is part of the rode.
func (n *snubber) fits(p *plan, spec *snubberSpec, c cell) (bool, error) {
	n.at = min(c.out, p.in.wholeDown(p.links-inboard-spec.Slack))
	n.site = p.site(c.low, p.boat.Place.Range)
	reach := n.at + spec.Length
	if !c.enough || n.at <= 0 || n.site.Scope(reach) < p.boat.Limits.LeastScope {
		return false, nil
	}
	var err error
	if n.hook, err = p.rode.Veer(n.at); err != nil {
		return false, err
	}
	whole, err := n.hook.Snub(spec.rigged(n.rope, spec.Legs))
	if err != nil {
		return false, err
	}
	n.rest, err = rode.Solve(whole, n.site, c.pull)
	switch {
	case errors.Is(err, rode.ErrShort), errors.Is(err, rode.ErrStretch):
		return false, nil
	case err != nil:
		return false, err
	}
	return n.rest.Anchor.FromBed <= p.boat.Limits.AnchorAngle, nil
}

// name is what it is called.
func (s *snubberSpec) name() string {
	if s.Legs == 2 {
		return "bridle"
	}
	return "snubber"
}

// rigged is the snubber or bridle with so many legs in the load.
func (s *snubberSpec) rigged(rope rode.Rope, legs int) rode.Snubber {
	return rode.Snubber{Rope: rope, Length: s.Length, Legs: legs, Slack: s.Slack}
}

func (n *snubber) design(f *boatFile, spec *snubberSpec, rope rode.Rope, in family) error {
	splice, err := rode.SpliceFactor(rope.Construction)
	if err != nil {
		return err
	}
	// A third of what water and splice leave of the rope; three times the steady
	// pull of the gust, and no more than half of what one cleat is good for.
	n.limits = rode.SnubberLimits{Bow: min(n.gust.pull.Scale(3), spec.Cleat.Scale(rode.LoadOfStrongPoint)), OfBreaking: splice / 3}
	surge := rode.Surge{
		Mass: f.Boat.Displacement.Scale(1.1), // and a tenth of water that moves with it
		Rest: n.cell.pull, Gust: n.gust.pull, Speed: spec.Speed,
	}
	bare, err := inCycles(f, n.cell.rode)
	if err != nil {
		return err
	}
	if n.bare, err = rode.SolveSurge(bare, n.site, surge); err != nil {
		return err
	}
	slow := spec.rigged(n.rope, 1)
	slow.Rope.Stretch.Limit = 0 // a peak beyond it is reported as one
	whole, err := n.hook.Snub(slow)
	if err != nil {
		return err
	}
	if n.far, err = rode.SolveSurge(whole, n.site, surge); err != nil {
		return err
	}
	options, err := rode.CompareSnubbers(n.hook, n.site, surge, n.limits, []rode.Snubber{spec.rigged(n.rope, spec.Legs), spec.rigged(n.rope, 1)})
	if err != nil {
		return err
	}
	n.shared, n.option = options[0], options[1]
	if spec.Legs == 2 {
		b := rode.Bridle{Rope: n.rope, Spread: spec.Spread, Port: spec.Length, Starboard: spec.Length}
		for _, sheer := range sheers {
			h, err := rode.HangBridle(n.hook, n.site, b, n.gust.pull, sheer, spec.Slack)
			if err != nil {
				return err
			}
			n.legs = append(n.legs, h)
		}
	}
	craft := rode.Craft{Hull: f.Boat.Length, Waterline: f.Boat.Waterline, Category: rode.Ocean, Mass: f.Boat.Displacement}
	if n.rule, err = craft.StrongPointLoad(rode.ForAnchoring); err != nil {
		return err
	}
	if n.cleat, err = craft.CheckCleat(rode.ForAnchoring, n.option.Peak.Peak.Tension, spec.Cleat, rope); err != nil {
		return err
	}
	return n.outfit(f, spec, in)
}

// inCycles is a rode whose rope is as stiff as in cycles of seconds. Its pieces are
// the first of the file's.
func inCycles(f *boatFile, r rode.Rode) (rode.Rode, error) {
	r.Pieces = slices.Clone(r.Pieces)
	for i := range r.Pieces {
		if r.Pieces[i].Kind != rode.OfRope {
			continue
		}
		rope, err := rode.RopeByName(f.Rode.Pieces[i].Rope)
		if err != nil {
			return r, err
		}
		rope.Breaking, rope.Stretch = r.Pieces[i].Breaking, r.Pieces[i].Stretch
		r.Pieces[i].Stretch = rope.Cyclic().Stretch
	}
	return r, nil
}

// surge asks what the peak of all legs, which is the higher one, does at the anchor.
func (n *snubber) surge(p *plan, spec *snubberSpec) (s surged, err error) {
	whole, err := n.hook.Snub(spec.rigged(n.rope, spec.Legs)) // for the strengths
	if err != nil {
		return s, err
	}
	st := &n.shared.Peak.Peak
	s.over = overloads(whole, st)
	if st.Anchor.FromBed >= p.boat.Anchor.Fluke {
		return s, nil // nothing presses the fluke down any more
	}
	left, err := anchor.HoldingLeft(st.Anchor.FromBed, p.boat.Anchor.Fluke)
	s.sure = p.hold.level.Low.Scale(left.Low)
	return s, err
}

// lashingCord is what everything that is not spliced is lashed with.
const lashingCord = "polyester three-strand 8 mm"

// outfit is what has to be bought and made.
func (n *snubber) outfit(f *boatFile, spec *snubberSpec, in family) error {
	var stock []rode.Sleeve
	for _, d := range spec.Hoses {
		stock = append(stock, rode.Sleeve{Name: fmt.Sprintf("hose of %s inside", in.small.short(d, 1)), Inside: d})
	}
	var err error
	if n.sleeve, err = rode.ChooseSleeve(stock, n.rope.Diameter, rode.OverEye); err != nil {
		return err
	}
	lead := rode.Fairlead{Inboard: spec.Inner, Contact: 8 * units.Centimetre, Margin: 10 * units.Centimetre, Strain: n.far.Peak.Pieces[len(n.far.Peak.Pieces)-1].Stretch.Per(spec.Length)}
	if n.place, err = lead.Sleeve(); err != nil {
		return err
	}
	cleat := rode.Cleat{Horns: spec.Horns, Thick: spec.Thick, Base: spec.Base}
	if n.eye, err = cleat.EyeLength(); err != nil {
		return err
	}
	if n.secure, err = rode.SecureAnchor(f.Anchor.Mass, rode.BowMotion{Vertical: units.StandardGravity, Pitch: 20 * units.Degree, Heel: 25 * units.Degree}); err != nil {
		return err
	}
	cord, err := rode.RopeByName(lashingCord)
	if err != nil {
		return err
	}
	if n.bitter, err = rode.BitterEndLashing(n.most, cord, 1*units.Metre); err != nil {
		return err
	}
	soft := rode.EyeSplice{Rope: n.rope, Eye: n.eye, Round: spec.Base}
	chainEnd := rode.CutPart{Name: fmt.Sprintf("hook or shackle for %s, working load %s or more", f.Rode.Pieces[0].Chain, in.force.up(n.shared.Peak.Peak.Tension, 1)), Count: 1, Why: "the chain's end"}
	parts := []rode.CutPart{{Name: fmt.Sprintf("thimble for %s rope", n.rope.Size), Count: spec.Legs, Why: "the hook's end"}, chainEnd}
	if spec.Legs == 2 { // two thimbles do not go into one bow
		parts = append(parts, rode.CutPart{Name: fmt.Sprintf("ring for two thimbles, working load %s or more", in.force.up(n.shared.Peak.Peak.Tension, 1)), Count: 1, Why: "both legs to hook or shackle"})
	}
	hook := rode.EyeSplice{Rope: n.rope, Eye: n.rope.Diameter.Scale(6), Round: n.rope.Diameter.Scale(2)} // round a thimble
	n.buy, err = rode.CutList{
		Ropes: []rode.CutRope{{
			Name: map[int]string{1: "the snubber", 2: "the legs"}[spec.Legs], Rope: n.rope, Count: spec.Legs, Finished: spec.Inner + spec.Length,
			Eyes: []rode.EyeSplice{soft, hook}, Step: 1 * units.Metre,
		}},
		Lengths: []rode.CutLength{
			{Name: n.sleeve.Name, Each: n.place.Length, Count: spec.Legs, Why: "chafe at the fairlead", Step: 0.5 * units.Metre},
			{Name: cord.Name(), Each: n.bitter.Cord, Why: "lashing of the bitter end", Step: 1 * units.Metre},
		},
		Parts: parts,
	}.Shopping()
	return err
}

func (p *plan) writeSnubber(s *section) error {
	n := p.snubber
	if n == nil {
		s.say("%s", p.whyNoSnubber())
		if spec := p.boat.Snubber; spec != nil && p.links > 0 && p.rode.Length() <= p.links {
			s.warn("The chain is too short for the snubber or bridle: she lies on bare chain.")
		}
		return nil
	}
	spec, word := n.spec, n.spec.name()
	s.Title = strings.ToUpper(word[:1]) + word[1:]
	o := &n.option
	if n.cell.low != p.boat.Place.AnchorIn {
		rest := "there the boat needs more of it, or a shorter " + word
		if p.rode.Length() > p.links {
			rest = "there rope is out, and is the snubber itself"
		}
		s.say("In %s the chain of %s does not do for the hook and the loop behind it: %s. The %s is worked out for %s.",
			p.in.long.say(p.boat.Place.AnchorIn, 1), p.in.long.say(p.links, 0), rest, word, p.in.long.say(n.cell.low, 1))
	}
	gust := ""
	if n.gust.wind.Wind > n.cell.wind.Wind {
		gust = fmt.Sprintf(" when gusts of a %.0f kn forecast (%s) arrive", n.gust.wind.Wind.Knots(), p.in.force.say(n.gust.pull, 1))
	}
	s.say("In %s at low water and gusts of a %.0f kn forecast (%s) the hook is %s from the anchor, and %s of chain are out with the loop. She falls back at %s%s. "+
		"On %s of chain alone that is %s to be stopped, and peaks at %s. With %s of %s she runs farther, which makes it %s, but it peaks at %s, and the rope stretches by %s.",
		p.in.long.say(n.cell.low, 1), n.cell.wind.Wind.Knots(), p.in.force.say(n.cell.pull, 1), p.in.long.say(n.at, 0), p.in.long.say(n.at+spec.Slack, 0),
		p.in.speed.say(spec.Speed, 1), gust, p.in.long.say(n.cell.out, 0), p.in.energy.say(n.bare.Kinetic+n.bare.Work, 0), p.in.force.say(n.bare.Peak.Tension, 1),
		p.in.long.say(spec.Length, 0), n.rope.Name(), p.in.energy.say(n.shared.Peak.Kinetic+n.shared.Peak.Work, 0), p.in.force.say(n.shared.Peak.Peak.Tension, 1), p.in.long.say(n.shared.Stretch, 2))
	if spec.Legs == 2 {
		s.say("That is with both legs alike. A boat that sheers hangs on one: then it peaks at %s, and by that the rope and the cleat are judged.", p.in.force.say(o.Peak.Peak.Tension, 1))
	}
	wanted := "no length of this rope keeps both"
	if o.Wanted > 0 {
		wanted = fmt.Sprintf("%s or more keep both", p.in.long.up(o.Wanted, 1))
	}
	if n.bare.Peak.Tension <= n.limits.Bow {
		s.say("Chain alone would stay within the limit of %s at the bow: the %s makes her lie easier, and keeps the load off the windlass.", p.in.force.say(n.limits.Bow, 1), word)
	}
	s.say("The rope is loaded to %.0f %% of its strength. With limits of %s at the bow (three times the gust's steady pull, and no more than half of what the cleat is good for) and %.0f %% of that strength (a third of what the splice leaves), %s.",
		100*o.OfBreaking, p.in.force.say(n.limits.Bow, 1), 100*n.limits.OfBreaking, wanted)
	if !o.Holds() {
		s.warn("The %s of %s is too short or too thin: %s.", word, p.in.long.say(spec.Length, 0), wanted)
	}
	p.writePeak(s)
	side, height := "above", n.rest.HookHeight()
	if height < 0 {
		side, height = "below", -height
	}
	if len(n.legs) > 0 {
		t := table{Caption: fmt.Sprintf("The legs in %.0f kn, the rode to port", n.gust.wind.Wind.Knots()), Head: []string{"rode to port by", "port leg, " + p.in.force.name, "starboard leg, " + p.in.force.name}}
		for i, h := range n.legs {
			t.Rows = append(t.Rows, row("%.0f°|%s|%s", sheers[i].Degrees(), p.in.force.num(h.Bridle.Port.Tension, 1), p.in.force.num(h.Bridle.Starboard.Tension, 1)))
		}
		s.table(t)
	}
	s.say("The cleat is loaded to %.0f %% of its strength; the rule for strong points (ISO 15084) asks for one of %s.", 100*n.cleat.OfStrength, p.in.force.say(n.rule, 1))
	for _, problem := range n.cleat.Problems {
		s.warn("The cleat of the %s: %s.", word, p.in.reword(problem))
	}
	s.say("Anchor home on its roller: pin and lashing for %s from her own motion; a sea that comes aboard adds to that, so lash it in two places. The bitter end is made fast with %s of 8 mm cord, so long that the lashing comes on deck and can be cut there when the rode has to be slipped.", p.in.force.say(n.secure.Hold, 2), turns(n.bitter.Turns))
	switch least, file := n.far.LeastSlack(), p.boat.Snubber.Slack; {
	case spec.Slack < least:
		s.warn("Leave more than %s of chain slack behind the hook, not %s: the chain comes taut before the rope has stretched.",
			p.in.long.up(least, 1), p.in.long.say(spec.Slack, 0))
	case spec.Slack > file:
		s.say("The boat file's %s of slack would come taut before the rope has stretched: the plan leaves %s.", p.in.long.say(file, 0), p.in.long.say(spec.Slack, 0))
	}
	if low := p.site(n.cell.low, 0); spec.Length > low.Rise() {
		s.say("The %s is longer than it is from the roller to the bed at low water, so that in a calm the hook lies on the bed: take one that cannot come off by itself, and look at the rope for chafe.", word)
	}
	s.do("Make the %s: %s, %s outboard%s, eye %s.",
		word, n.rope.Name(), p.in.long.say(spec.Length, 0), map[bool]string{true: " a leg"}[spec.Legs == 2], p.in.near.say(n.eye, 2))
	s.do("In up to %s at low water and %.0f kn hook the %s on with %s of chain between it and the anchor, then let out %s more for the loop: %s in all.",
		p.in.long.say(n.cell.low, 1), n.cell.wind.Wind.Knots(), word, p.in.long.say(n.at, 0), p.in.long.say(spec.Slack, 0), p.in.long.say(n.at+spec.Slack, 0))
	s.buys = n.purchases(p.in)
	s.check(measure, "Cleat from tip to tip, and from cleat to fairlead", fmt.Sprintf("%s and %s, as in the boat file", p.in.mid.say(spec.Horns, 0), p.in.near.say(spec.Inner, 2)))
	s.check(dryFit, fmt.Sprintf("Eye over the cleat; sleeve (%s) on the rope", n.sleeve.Name),
		fmt.Sprintf("the eye drops over; the sleeve covers from %s to %s from the cleat, the fairlead well inside", p.in.near.num(n.place.From, 2), p.in.near.say(n.place.To, 2)))
	reach := n.at + spec.Length
	if reach > n.cell.out {
		s.say("So rigged she lies to %s of chain and rope, where the table has %s: she swings as much wider.", p.in.long.say(reach, 0), p.in.long.say(n.cell.out, 0))
	}
	if night := p.overnight; night != nil && night.fails == "" && night.plan.Out != reach {
		s.say("The night of %s has another wind or depth than this: its %s count without the %s.", night.asked.From.Format("2 January"), p.in.long.say(night.plan.Out, 0), word)
	} else {
		s.check(firstNight, fmt.Sprintf("In %s: hook the %s on at %s, let out %s of chain more", p.in.long.say(n.cell.low, 1), word, p.in.long.say(n.at, 0), p.in.long.say(spec.Slack, 0)),
			fmt.Sprintf("the hook hangs %s %s the water in %.0f kn, and the loop of chain never comes taut", p.in.long.say(height, 1), side, n.cell.wind.Wind.Knots()))
	}
	if n.rope.Cyclic() != n.rope {
		s.assume("In a surge polyamide rope is as stiff as double braid in cycles of seconds, up to three times stiffer than in a slow pull; how the hook hangs, how long the loop of chain has to be and where the sleeves lie is reckoned with the slow curve, which stretches farther.")
	} else {
		s.assume(fmt.Sprintf("In a surge %s rope is as stiff as in a slow pull: no curve of cycles is known of it. It is stiffer, and the peaks are higher than told here.", n.rope.Fibre))
	}
	s.assume("A tenth of the boat's mass in water moves with her when she falls back.")
	s.assume("The bow throws the anchor on its roller with 1 g up and down, and 20° of pitch and 25° of heel.")
	s.figure(figure{"snubber.svg", "From above and from the side", p.drawBow})
	s.caution("A rope that parts snaps back: nobody stands in its line. Look at the sleeves every few hours.")
	return nil
}

// writePeak sets the peak against what is at the anchor's end.
func (p *plan) writePeak(s *section) {
	n := p.snubber
	a := &n.shared.Peak.Peak.Anchor
	s.say("At that peak %s reach the anchor, pulling it at %.0f° above the bed, where %s of it are sure. Chain is reckoned there without its inertia and the water's drag: a peak that passes in a second "+
		"arrives weaker, one from chain that is jerked taut stronger.", p.in.force.say(a.Tension, 1), a.FromBed.Degrees(), p.in.force.say(n.surged.sure, 1))
	if len(n.surged.over) > 0 {
		s.warn("At the peak of a surge in %.0f kn more than its working load is carried by: %s.", n.gust.wind.Wind.Knots(), sizes(n.surged.over, p.in))
	}
	if a.Tension > n.surged.sure {
		s.warn("At the peak of a surge in %.0f kn %s reach the anchor at %.0f° above the bed, and only %s are sure there: surges may walk it.",
			n.gust.wind.Wind.Knots(), p.in.force.say(a.Tension, 1), a.FromBed.Degrees(), p.in.force.say(n.surged.sure, 1))
	}
}

func (p *plan) whyNoSnubber() string {
	spec := p.boat.Snubber
	switch {
	case spec == nil:
		return "The boat file has no snubber. Where only chain is out the boat wants one: a gust that arrives at a rode of chain alone peaks at several times its pull."
	case p.links == 0:
		return "The rode begins with rope, which is the snubber."
	}
	return fmt.Sprintf("In no depth and wind of the plan do %s of chain reach for the hook, the loop of %s behind it and %s that wheel and stopper keep hold of, or the limits are not kept with the hook there. Where rope is out, it is the snubber.",
		p.in.long.say(p.links, 0), p.in.long.say(spec.Slack, 0), p.in.long.say(inboard, 0))
}

// purchases are what the cut list adds up to.
func (n *snubber) purchases(in family) []purchase {
	var out []purchase
	for _, b := range n.buy.Buy {
		p := purchase{what: b.Name, kind: "fitting", need: float64(b.Count), why: in.reword(strings.Join(b.Why, ", "))}
		if b.Length > 0 {
			p.kind = "rope"
			step := 1 * units.Metre
			if strings.HasPrefix(b.Name, "hose") {
				p.kind, step = "hose", 500*units.Millimetre
			}
			p = in.length(p, b.Need, step)
		}
		out = append(out, p)
	}
	return out
}

func turns(n int) string {
	if n == 1 {
		return "one turn"
	}
	return fmt.Sprintf("%d turns", n)
}

func (p *plan) drawBow(w io.Writer) error {
	n, spec := p.snubber, p.snubber.spec
	var d draw.Bow
	if spec.Legs == 2 {
		b := rode.Bridle{Rope: n.rope, Spread: spec.Spread, Port: spec.Length, Starboard: spec.Length}
		d = draw.Bridle(b, n.legs[1], n.site, spec.Slack, p.boat.Boat.Hulls)
		d.Title = fmt.Sprintf("%s's bridle in %.0f kn, sheered by %.0f°", p.boat.Name, n.gust.wind.Wind.Knots(), sheers[1].Degrees())
	} else {
		d = draw.Snubber(n.rest, n.site, spec.Slack)
		d.Title = fmt.Sprintf("%s's snubber in %.0f kn at high water, %s deep", p.boat.Name, n.cell.wind.Wind.Knots(), p.in.long.say(n.site.Depth, 1))
	}
	d.Imperial = p.in.feet
	return d.WriteSVG(w)
}
