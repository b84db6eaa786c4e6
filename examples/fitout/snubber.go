package main

import (
	"fmt"
	"io"

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
	for _, row := range append([][]cell{p.night}, p.cells...) {
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
	cord, err := rode.RopeByName("polyester three-strand 8 mm")
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
			Name: "legs", Rope: n.rope, Count: spec.Legs, Finished: spec.Inner + spec.Length,
			Eyes: []rode.EyeSplice{soft, hook}, Step: 1 * units.Metre,
		}},
		Lengths: []rode.CutLength{
			{Name: n.sleeve.Name, Each: n.place.Length, Count: spec.Legs, Why: "chafe at the fairlead", Step: 0.5 * units.Metre},
			{Name: cord.Name(), Each: n.bitter.Cord, Why: "lashing of the bitter end", Step: 1 * units.Metre},
		},
		Parts: []rode.CutPart{
			{Name: fmt.Sprintf("thimble for %.0f mm rope", n.rope.Diameter.Millimetres()), Count: spec.Legs, Why: "the hook's end"},
			{Name: fmt.Sprintf("hook or shackle for %s, working load %.1f kN or more", chain, n.option.Peak.Peak.Tension.Kilonewtons()), Count: 1, Why: "to the chain"},
		},
	}.Shopping()
	return err
}

func (p *plan) writeSnubber(t *printer) {
	n, spec := p.snubber, p.boat.Snubber
	if n == nil {
		return
	}
	word := "Snubber"
	if spec.Legs == 2 {
		word = "Bridle of two legs"
	}
	o := &n.option
	t.line("")
	when := fmt.Sprintf("lying to %.1f kN (%.0f kn)", n.cell.wind.Pull.Kilonewtons(), n.cell.wind.Wind.Knots())
	if n.gust.Wind > n.cell.wind.Wind {
		when += fmt.Sprintf(", then %.1f kN (%.0f kn)", n.gust.Pull.Kilonewtons(), n.gust.Wind.Knots())
	}
	t.line("%s, %.0f m of chain out in %.1f m at low water: %s:", word, n.cell.out.Metres(), n.cell.low.Metres(), when)
	t.line("  falling back at %.1f m/s the boat brings %.0f J and peaks at %.1f kN on chain alone,", spec.Speed.MetresPerSecond(),
		(n.bare.Kinetic + n.bare.Work).Joules(), n.bare.Peak.Tension.Kilonewtons())
	t.line("  at %.1f kN with %.0f m of %s: %.0f %% of its strength, %.2f m of stretch", o.Peak.Peak.Tension.Kilonewtons(),
		o.Snubber.Length.Metres(), n.rope.Name(), 100*o.OfBreaking, o.Stretch.Metres())
	wanted := "no length of this rope is enough"
	if o.Wanted > 0 {
		wanted = fmt.Sprintf("%.1f m would do", o.Wanted.Metres())
	}
	t.line("  limits: %.1f kN at the bow, %.0f %% of the rope: %s", n.limits.Bow.Kilonewtons(), 100*n.limits.OfBreaking, wanted)
	side, height := "above", o.Peak.Rest.HookHeight()
	if height < 0 {
		side, height = "below", -height
	}
	t.line("  the hook hangs %.1f m %s the water at rest; leave more than %.1f m of chain slack (here %.0f m)",
		height.Metres(), side, o.Peak.LeastSlack().Metres(), spec.Slack.Metres())
	if spec.Slack < o.Peak.LeastSlack() {
		t.line("    too little: the chain comes taut before the rope has stretched")
	}
	for i, h := range n.legs {
		t.line("  rode %2.0f° to port in %.0f kn: port leg %.1f kN, starboard %.1f kN", sheers[i].Degrees(), n.gust.Wind.Knots(),
			h.Bridle.Port.Tension.Kilonewtons(), h.Bridle.Starboard.Tension.Kilonewtons())
	}
	t.line("  cleat: %.0f %% of its strength; the rule for strong points asks for %.1f kN", 100*n.cleat.OfStrength, n.rule.Kilonewtons())
	for _, problem := range n.cleat.Problems {
		t.line("    %s", problem)
	}
	t.line("  eye of %.2f m for the cleat; %s, from %.2f to %.2f m from the cleat", n.eye.Metres(), n.sleeve.Name, n.place.From.Metres(), n.place.To.Metres())
	t.line("  anchor home on its roller: pin and lashing for %.2f kN; bitter end: %s", n.secure.Hold.Kilonewtons(), turns(n.bitter.Turns))
	for _, b := range n.buy.Buy {
		if b.Length > 0 {
			t.line("    buy %.1f m of %s (%.2f m needed)", b.Length.Metres(), b.Name, b.Need.Metres())
		} else {
			t.line("    buy %d x %s", b.Count, b.Name)
		}
	}
	t.line("  A rope that parts snaps back: nobody stands in its line. Look at the sleeves every few hours.")
}

func turns(n int) string {
	if n == 1 {
		return "one turn of 8 mm cord"
	}
	return fmt.Sprintf("%d turns of 8 mm cord", n)
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
