package main

import (
	"fmt"
	"io"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// snubber is what the report says of the snubber or bridle.
type snubber struct {
	cell cell        // the depth and wind it is worked out for: the strongest in which only chain is out
	gust wind        // the wind that comes on top, one row further down
	most units.Force // greatest tension of the plan at the bow, which the bitter end has to hold if all else lets go
	hook rode.Rode   // from the anchor to the hook
	site rode.Site
	rope rode.Rope

	bare   rode.SurgePeak
	option rode.SnubberOption
	limits rode.SnubberLimits
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

var sheers = []units.Angle{0, 20 * units.Degree, 40 * units.Degree}

// makeSnubber works the snubber out for the first of the night's depth and the
// others in which a wind is ridden to on chain alone.
func (p *plan) makeSnubber() (*snubber, error) {
	spec := p.boat.Snubber
	if spec == nil {
		return nil, nil
	}
	n := &snubber{}
	if !n.choose(p) {
		return nil, nil // rope is out in any wind: it is the snubber
	}
	err := n.design(p.boat, spec)
	if err != nil {
		return nil, fmt.Errorf("snubber: %w", err)
	}
	return n, nil
}

func (n *snubber) choose(p *plan) bool {
	for _, row := range p.cells {
		for _, c := range row {
			n.most = max(n.most, c.high.Tension, c.lowest.Tension)
		}
	}
	chain := units.Length(0)
	for _, piece := range p.rode.Pieces {
		if piece.Kind != rode.OfChain {
			break
		}
		chain += piece.Length
	}
	for _, row := range append([][]cell{p.here}, p.cells...) {
		for i := len(row) - 1; i >= 0; i-- {
			if c := row[i]; c.enough && c.out <= chain {
				n.cell, n.gust = c, p.boat.Winds[min(i+1, len(row)-1)]
				n.hook, n.site = c.rode, p.site(c.low, p.boat.Place.Range)
				return true
			}
		}
	}
	return false
}

func (n *snubber) design(f *boatFile, spec *snubberSpec) error {
	rope, err := rode.RopeByName(spec.Rope)
	if err != nil {
		return err
	}
	n.rope = rope.Wet()
	splice, err := rode.SpliceFactor(rope.Construction)
	if err != nil {
		return err
	}
	// A third of what water and splice leave of the rope; three times the steady
	// pull of the gust, and no more than half of what one cleat is good for, since
	// a boat that sheers hangs on one leg.
	n.limits = rode.SnubberLimits{Bow: min(n.gust.Pull.Scale(3), spec.Cleat.Scale(0.5)), OfBreaking: splice / 3}
	surge := rode.Surge{
		Mass: f.Boat.Displacement.Scale(1.1), // and a tenth of water that moves with it
		Rest: n.cell.wind.Pull, Gust: n.gust.Pull, Speed: spec.Speed,
	}
	if n.bare, err = rode.SolveSurge(n.hook, n.site, surge); err != nil {
		return err
	}
	options, err := rode.CompareSnubbers(n.hook, n.site, surge, n.limits,
		[]rode.Snubber{{Rope: n.rope, Length: spec.Length, Legs: spec.Legs, Slack: spec.Slack}})
	if err != nil {
		return err
	}
	n.option = options[0]
	load := n.option.Peak.Peak.Tension
	if spec.Legs == 2 {
		b := rode.Bridle{Rope: n.rope, Spread: spec.Spread, Port: spec.Length, Starboard: spec.Length}
		for _, sheer := range sheers {
			h, err := rode.HangBridle(n.hook, n.site, b, n.gust.Pull, sheer, spec.Slack)
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
	if n.cleat, err = craft.CheckCleat(rode.ForAnchoring, load, spec.Cleat, rope); err != nil {
		return err
	}
	return n.outfit(f, spec)
}

// lashingCord is what everything that is not spliced is lashed with.
const lashingCord = "polyester three-strand 8 mm"

// outfit is what has to be bought and made.
func (n *snubber) outfit(f *boatFile, spec *snubberSpec) error {
	var stock []rode.Sleeve
	for _, d := range spec.Hoses {
		stock = append(stock, rode.Sleeve{Name: fmt.Sprintf("hose of %.0f mm inside", d.Millimetres()), Inside: d})
	}
	var err error
	if n.sleeve, err = rode.ChooseSleeve(stock, n.rope.Diameter, rode.OverEye); err != nil {
		return err
	}
	lead := rode.Fairlead{Inboard: spec.Inner, Contact: 8 * units.Centimetre, Margin: 10 * units.Centimetre, Strain: n.option.Strain}
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
	chain := ""
	for _, p := range f.Rode.Pieces {
		if p.Chain != "" {
			chain = p.Chain
			break
		}
	}
	cord, err := rode.RopeByName(lashingCord)
	if err != nil {
		return err
	}
	if n.bitter, err = rode.BitterEndLashing(n.most, cord, 1*units.Metre); err != nil {
		return err
	}
	soft := rode.EyeSplice{Rope: n.rope, Eye: n.eye, Round: spec.Base}
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
		Parts: []rode.CutPart{
			{Name: fmt.Sprintf("thimble for %.0f mm rope", n.rope.Diameter.Millimetres()), Count: spec.Legs, Why: "the hook's end"},
			{Name: fmt.Sprintf("hook or shackle for %s, working load %.1f kN or more", chain, n.option.Peak.Peak.Tension.Kilonewtons()), Count: 1, Why: "the chain's end"},
		},
	}.Shopping()
	return err
}

func (p *plan) writeSnubber(s *section) error {
	n, spec := p.snubber, p.boat.Snubber
	if n == nil {
		s.say("%s", p.whyNoSnubber())
		return nil
	}
	word := "snubber"
	if spec.Legs == 2 {
		word = "bridle"
	}
	s.Title = strings.ToUpper(word[:1]) + word[1:]
	o := &n.option
	if n.cell.low != p.boat.Place.AnchorIn {
		s.say("In %.1f m rope is out in any wind and is the snubber itself. The %s is for shallower water, where only chain is out: worked out for %.1f m.",
			p.boat.Place.AnchorIn.Metres(), word, n.cell.low.Metres())
	}
	gust := ""
	if n.gust.Wind > n.cell.wind.Wind {
		gust = fmt.Sprintf(" when gusts of a %.0f kn forecast (%.1f kN) arrive", n.gust.Wind.Knots(), n.gust.Pull.Kilonewtons())
	}
	peak := o.Peak.Peak.Tension
	s.say("With %.0f m of chain out in %.1f m at low water she lies to gusts of a %.0f kn forecast (%.1f kN), and falls back at %.1f m/s%s: %.0f J have to be stopped. On chain alone that peaks at %.1f kN. "+
		"With %.0f m of %s it peaks at %.1f kN, %.0f %% of its strength, and stretches by %.2f m.",
		n.cell.out.Metres(), n.cell.low.Metres(), n.cell.wind.Wind.Knots(), n.cell.wind.Pull.Kilonewtons(), spec.Speed.MetresPerSecond(), gust, (n.bare.Kinetic + n.bare.Work).Joules(), n.bare.Peak.Tension.Kilonewtons(),
		o.Snubber.Length.Metres(), n.rope.Name(), peak.Kilonewtons(), 100*o.OfBreaking, o.Stretch.Metres())
	wanted := "no length of this rope keeps both"
	if o.Wanted > 0 {
		wanted = fmt.Sprintf("%.1f m or more keep both", o.Wanted.Metres())
	}
	if n.bare.Peak.Tension <= n.limits.Bow {
		s.say("Chain alone would stay within the limit of %.1f kN at the bow: the %s makes her lie easier, and keeps the load off the windlass.", n.limits.Bow.Kilonewtons(), word)
	} else {
		s.say("Limits of %.1f kN at the bow and %.0f %% of the rope's strength: %s.", n.limits.Bow.Kilonewtons(), 100*n.limits.OfBreaking, wanted)
	}
	if o.Wanted <= 0 || o.Wanted > spec.Length {
		s.warn("The %s of %.0f m is too short or too thin: %s.", word, spec.Length.Metres(), wanted)
	}
	side, height := "above", o.Peak.Rest.HookHeight()
	if height < 0 {
		side, height = "below", -height
	}
	if len(n.legs) > 0 {
		t := table{Caption: fmt.Sprintf("The legs in %.0f kn, the rode to port", n.gust.Wind.Knots()), Head: []string{"rode to port by", "port leg, kN", "starboard leg, kN"}}
		for i, h := range n.legs {
			t.Rows = append(t.Rows, row("%.0f°|%.1f|%.1f", sheers[i].Degrees(), h.Bridle.Port.Tension.Kilonewtons(), h.Bridle.Starboard.Tension.Kilonewtons()))
		}
		s.table(t)
	}
	s.say("The cleat is loaded to %.0f %% of its strength; the rule for strong points (ISO 15084) asks for one of %.1f kN.", 100*n.cleat.OfStrength, n.rule.Kilonewtons())
	for _, problem := range n.cleat.Problems {
		s.warn("The cleat of the %s: %s.", word, problem)
	}
	s.say("Anchor home on its roller: pin and lashing for %.2f kN. The bitter end is made fast with %s of 8 mm cord.", n.secure.Hold.Kilonewtons(), turns(n.bitter.Turns))
	if spec.Slack < o.Peak.LeastSlack() {
		s.warn("Leave more than %.1f m of chain slack behind the hook, not %.0f m: the chain comes taut before the rope has stretched.",
			o.Peak.LeastSlack().Metres(), spec.Slack.Metres())
	}
	s.do("Make the %s of %s, %.0f m from fairlead to hook%s, an eye of %.2f m for the cleat; leave %.0f m of chain slack behind the hook.",
		word, n.rope.Name(), spec.Length.Metres(), map[bool]string{true: " a leg"}[spec.Legs == 2], n.eye.Metres(), spec.Slack.Metres())
	s.buys = n.purchases()
	s.check(measure, "Cleat from tip to tip, and from cleat to fairlead", fmt.Sprintf("%.0f cm and %.2f m, as in the boat file", spec.Horns.Centimetres(), spec.Inner.Metres()))
	s.check(dryFit, fmt.Sprintf("Eye over the cleat; sleeve (%s) on the rope", n.sleeve.Name),
		fmt.Sprintf("the eye drops over; the sleeve covers from %.2f to %.2f m from the cleat, the fairlead well inside", n.place.From.Metres(), n.place.To.Metres()))
	s.check(firstNight, fmt.Sprintf("Hook the %s on, let out %.0f m of chain more", word, spec.Slack.Metres()),
		fmt.Sprintf("the hook hangs %.1f m %s the water in %.0f kn, and the loop of chain never comes taut", height.Metres(), side, n.cell.wind.Wind.Knots()))
	s.figure(figure{"snubber.svg", "From above and from the side", p.drawBow})
	s.caution("A rope that parts snaps back: nobody stands in its line. Look at the sleeves every few hours.")
	return nil
}

func (p *plan) whyNoSnubber() string {
	if p.boat.Snubber == nil {
		return "The boat file has no snubber. Where only chain is out the boat wants one: a gust that arrives at a rode of chain alone peaks at several times its pull."
	}
	return "Rope is out in every wind and depth of the plan: it is the snubber."
}

// purchases are what the cut list adds up to.
func (n *snubber) purchases() []purchase {
	var out []purchase
	for _, b := range n.buy.Buy {
		p := purchase{what: b.Name, kind: "fitting", need: float64(b.Count), why: strings.Join(b.Why, ", ")}
		if b.Length > 0 {
			p.kind, p.need, p.unit = "rope", b.Need.Metres(), "m"
			if strings.HasPrefix(b.Name, "hose") {
				p.kind, p.step = "hose", 0.5
			}
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
	n, spec := p.snubber, p.boat.Snubber
	var d draw.Bow
	if spec.Legs == 2 {
		b := rode.Bridle{Rope: n.rope, Spread: spec.Spread, Port: spec.Length, Starboard: spec.Length}
		d = draw.Bridle(b, n.legs[1], n.site, spec.Slack, p.boat.Boat.Hulls)
		d.Title = fmt.Sprintf("%s's bridle in %.0f kn, sheered by %.0f°", p.boat.Name, n.gust.Wind.Knots(), sheers[1].Degrees())
	} else {
		d = draw.Snubber(n.option.Peak.Rest, n.site, spec.Slack)
		d.Title = fmt.Sprintf("%s's snubber in %.0f kn", p.boat.Name, n.cell.wind.Wind.Knots())
	}
	return d.WriteSVG(w)
}
