package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// An answer is something that the plan decides: a figure, and the words that
// must not change without somebody knowing.
type answer struct {
	name   string
	value  float64
	format string // of value; its words will do where it is empty
	words  string
}

// answers are those of the plan, for the depth chosen and its strongest wind.
func (p *plan) answers() []answer {
	c := p.here[len(p.here)-1]
	words := func(ok bool, yes, no string) string {
		if ok {
			return yes
		}
		return no
	}
	list := []answer{
		{"rode out", p.in.long.of(c.out), p.in.long.format(0), words(c.enough, "long enough", "too short")},
		{"sure hold over the pull", p.hold.low.Newtons() / c.pull.Newtons(), "%.2f", p.hold.verdict(c.pull)},
	}
	if c.overdue == "" {
		w, b := c.high.WeakestWorking, c.high.WeakestBreaking
		list = append(list,
			answer{"swing radius", p.in.long.of(c.swing), p.in.long.format(0), ""},
			answer{"weakest link, of its working load", 100 * w.Fraction, "%.0f %%", words(w.Fraction <= 1, "within", "over")},
			answer{"weakest link, of its breaking load", 100 * b.Fraction, "%.0f %%", words(b.Fraction <= 0.5, "below half", "over half")})
	}
	if n := p.snubber; n != nil {
		list = append(list, answer{
			"peak on the " + n.spec.name(), p.in.force.of(n.option.Peak.Peak.Tension), p.in.force.format(1),
			words(n.option.Holds(), "within its limits", "over them"),
		})
	}
	if l := p.lift; l != nil && p.boat.Windlass.Rated > 0 {
		has := p.boat.Windlass.Rated.Per(l.lifting)
		list = append(list, answer{"windlass's rated pull over what it lifts", has, "%.1f", words(has >= 1, "lifts it", "too weak")})
	}
	if e := p.electrics; e != nil {
		list = append(list,
			answer{"motor on a tired bank", e.weakVolts.Volts(), "%.2f V", words(e.weakVolts >= p.boat.Electrics.LeastVolts, "enough", "run the engine")},
			answer{"cable", e.choice.Conductor.Area.SquareMillimetres(), "", e.choice.Conductor.Size})
		if e.fuse != nil {
			list = append(list, answer{"fuse at the bank", e.fuse.Fuse.Rating.Amperes(), "%.0f A", fmt.Sprintf("%.0f A", e.fuse.Fuse.Rating.Amperes())})
		}
	}
	if v := p.canvas; v != nil {
		list = append(list, answer{"cloth, no panel split", p.in.area.of(v.area), p.in.area.format(2), ""})
		if v.awning != nil {
			list = append(list, answer{"wind to strike the awning in", v.awning.Strike.Wind.Knots(), "%.0f kn", words(v.awning.Strike.Wind >= v.calm.Mean, "stands in the wind it is for", "not even in the wind it is for")})
		}
	}
	return list
}

// A doubt is an input that nobody knows exactly, with the range it may have.
type doubt struct {
	name               string
	planned, low, high float64
	show               func(float64) string // the three
	set                func(f *boatFile, x float64)
	why                string
	part               part
}

// A part of the plan, which is all that is worked out again.
type part int

const (
	anchoring part = iota
	wires
	cloth
)

// doubtsOf are those of a boat. The ranges are judgement, from what is said beside them.
func doubtsOf(f *boatFile, in family) []doubt {
	metres := func(name string, l, less, more units.Length, set func(*boatFile, units.Length), why string, of part) doubt {
		return doubt{name, l.Metres(), (l - less).Metres(), (l + more).Metres(), in.long.shown(2, units.Metre), func(f *boatFile, x float64) { set(f, units.Metre.Scale(x)) }, why, of}
	}
	spread, eff := anchor.EstimateSpread, f.Anchor.Efficiency
	list := []doubt{
		{"gusts over the forecast's mean", f.Place.Gust, 1.1, 1.6, bare("%.2f"), func(f *boatFile, x float64) { f.Place.Gust = x }, "steady sea breeze; squalls, or wind off high land", anchoring},
		{"windage over the estimate", f.Boat.Windage, 1 / spread, spread, bare("%.2f"), func(f *boatFile, x float64) { f.Boat.Windage = x }, "the estimate's own spread", anchoring},
		{"holding over the anchor's weight", eff, 0.6 * eff, 1.4 * eff, bare("%.0f"), func(f *boatFile, x float64) { f.Anchor.Efficiency = x }, "trials of one anchor differ as much", anchoring},
		{"friction of rode on the bed", f.Place.Friction, 0.4, 1, bare("%.1f"), func(f *boatFile, x float64) { f.Place.Friction = x }, "mud; coarse sand", anchoring},
		metres("rise of the tide", f.Place.Range, f.Place.Range.Scale(0.1), 0.4*units.Metre, func(f *boatFile, l units.Length) { f.Place.Range = l }, "wind and air pressure", anchoring),
		metres("height of the roller", f.Boat.Roller, 0.1*units.Metre, 0.1*units.Metre, func(f *boatFile, l units.Length) { f.Boat.Roller = l }, "loading, and the tape", anchoring),
	}
	for i, piece := range f.Rode.Pieces {
		if worn := piece.Worn.Millimetres(); worn != 0 {
			list = append(list, doubt{"thinnest wire of the chain", worn, worn - 0.4, worn, in.small.shown(1, units.Millimetre), func(f *boatFile, x float64) { f.Rode.Pieces[i].Worn = units.Millimetre.Scale(x) }, "a thinner place that was missed", anchoring})
		}
		if left := piece.StrengthLeft; left != 0 {
			list = append(list, doubt{"strength left in the rope", left, 0.5, min(1, left+0.1), bare("%.1f"), func(f *boatFile, x float64) { f.Rode.Pieces[i].StrengthLeft = x }, "sun and salt, not to be seen", anchoring})
		}
	}
	if w := f.Windlass; w != nil && w.Rated > 0 {
		list = append(list, doubt{"what the bow roller passes on", w.Roller, 0.7, 0.95, bare("%.2f"), func(f *boatFile, x float64) { f.Windlass.Roller = x }, "it does not turn; it turns like new", anchoring})
	}
	if n := f.Snubber; n != nil {
		list = append(list, doubt{"speed of falling back", n.Speed.MetresPerSecond(), 0.3, 1, in.speed.shown(1, units.MetrePerSecond), func(f *boatFile, x float64) { f.Snubber.Speed = units.MetrePerSecond.Scale(x) }, "slight sea; steep chop", anchoring})
	}
	if e := f.Electrics; e != nil {
		pull, bank := e.Pull.NewtonMetres(), e.Resistance.Milliohms()
		list = append(list,
			doubt{"temperature of the copper", e.Copper.Celsius(), 10, 70, func(x float64) string { return in.temperature.say(units.Celsius(x), 0) }, func(f *boatFile, x float64) { f.Electrics.Copper = units.Celsius(x) }, "winter morning; hot locker", wires},
			doubt{"resistance of the bank", bank, 0.8 * bank, 2 * bank, bare("%.1f mΩ"), func(f *boatFile, x float64) {
				e := f.Electrics
				e.Cranking = e.Cranking.Scale(min(1, e.Resistance.Milliohms()/x)) // an old bank no longer does what its label says
				e.Resistance = units.Milliohm.Scale(x)
			}, "new; years old", wires},
			doubt{"resistance of a lug", e.Lug.Milliohms(), 0.05, 0.5, bare("%.2f mΩ"), func(f *boatFile, x float64) { f.Electrics.Lug = units.Milliohm.Scale(x) }, "good crimp; poor one", wires},
			doubt{"torque while it hauls", pull, 0.85 * pull, 1.03 * pull, in.torque.shown(1, units.NewtonMetre), func(f *boatFile, x float64) { f.Electrics.Pull = units.NewtonMetre.Scale(x) }, "less chain hanging; mud on it", wires},
			metres("way of the cable", e.OneWay, 0.5*units.Metre, 0.5*units.Metre, func(f *boatFile, l units.Length) { f.Electrics.OneWay = l }, "string against cable", wires))
	}
	if s := f.Canvas; s != nil {
		list = append(list, doubt{"change along the warp", 100 * s.Warp, -2, 0, bare("%+.0f %%"), func(f *boatFile, x float64) { f.Canvas.Warp = x / 100 }, "from roll to roll", cloth})
		if s.DeckBox != nil {
			box := s.DeckBox.Length.Millimetres()
			list = append(list, doubt{"length of the deck box", box, box - 3, box + 3, in.small.shown(0, units.Millimetre), func(f *boatFile, x float64) { f.Canvas.DeckBox.Length = units.Millimetre.Scale(x) }, "a careful tape", cloth})
		}
		if s.Awning == nil {
			return list
		}
		stiff := s.Awning.Stiffness.KilonewtonsPerMetre()
		list = append(list,
			doubt{"flutter of the awning", s.Awning.Flutter, 1.2, 2, bare("%.1f"), func(f *boatFile, x float64) { f.Canvas.Awning.Flutter = x }, "flat; slack", cloth},
			doubt{"blockage below the awning", s.Awning.Blockage, 0, 1, bare("%.1f"), func(f *boatFile, x float64) { f.Canvas.Awning.Blockage = x }, "clear deck; a full one", cloth},
			doubt{"stiffness of the cloth", stiff, stiff / 2, 2 * stiff, in.stiff.shown(0, units.KilonewtonPerMetre), func(f *boatFile, x float64) { f.Canvas.Awning.Stiffness = units.KilonewtonPerMetre.Scale(x) }, "on the bias; along the warp", cloth})
	}
	return list
}

// bare shows a number that has the same unit in either family.
func bare(format string) func(float64) string {
	return func(x float64) string { return fmt.Sprintf(format, x) }
}

// effect is what one doubt does.
type effect struct {
	doubt
	most      answer // the answer that it moves most, as planned
	low, high answer
	moved     float64 // by how much, as a part of the planned
	flips     []string
}

// with is the plan with one input changed.
func (p *plan) with(d doubt, x float64) (*plan, error) {
	f := p.boat.clone()
	f.Night = nil
	if d.part != anchoring {
		f.Snubber = nil
	}
	if d.part != wires {
		f.Electrics = nil
	}
	if d.part != cloth {
		f.Canvas = nil
	}
	d.set(f, x)
	return f.makePlan(p.in)
}

// try asks what a doubt does to the answers.
func (p *plan) try(d doubt) effect {
	e := effect{doubt: d}
	tried := [2]float64{d.low, d.high}
	var ends [2][]answer
	for i, x := range tried {
		q, err := p.with(d, x)
		if err != nil {
			e.flips = append(e.flips, fmt.Sprintf("at %s there is no plan: %v", d.show(x), inWords(err)))
			continue
		}
		ends[i] = q.answers()
	}
	find := func(list []answer, name string) (answer, bool) {
		i := slices.IndexFunc(list, func(a answer) bool { return a.name == name })
		if i < 0 {
			return answer{}, false
		}
		return list[i], true
	}
	for _, a := range p.answers() {
		low, okLow := find(ends[0], a.name)
		high, okHigh := find(ends[1], a.name)
		for i, end := range []answer{low, high} {
			if end.words != a.words && end.name != "" {
				e.flips = append(e.flips, fmt.Sprintf("at %s the %s goes from %q to %q", d.show(tried[i]), a.name, a.words, end.words))
			}
		}
		if !okLow || !okHigh || a.value == 0 {
			continue
		}
		if moved := math.Abs(high.value-low.value) / math.Abs(a.value); moved > e.moved+1e-9 {
			e.moved, e.most, e.low, e.high = moved, a, low, high
		}
	}
	return e
}

// doubts is the section on what the answers hang on.
func (p *plan) doubts(sections []*section) (*section, error) {
	s := &section{ID: "doubts", Title: "What the answers hang on"}
	var effects []effect
	for _, d := range doubtsOf(p.boat, p.in) {
		effects = append(effects, p.try(d))
	}
	slices.SortStableFunc(effects, func(a, b effect) int {
		return cmp.Or(cmp.Compare(len(b.flips), len(a.flips)), cmp.Compare(math.Round(1000*b.moved), math.Round(1000*a.moved)))
	})
	s.say("Each input that nobody knows exactly is varied alone over its range, the rest as planned; what depends on them is that of %s and the strongest wind. Those that overturn most come first, then those that move an answer most. The ranges are judgement.", p.in.long.say(p.boat.Place.AnchorIn, 1))
	t := table{Caption: "Uncertain inputs, the one that matters most first", Head: []string{"input", "planned", "range", "why", "moves most"}}
	var names []string
	for i, e := range effects {
		if i < 3 {
			names = append(names, e.name)
		}
		t.Rows = append(t.Rows, []string{e.name, e.show(e.planned), e.show(e.doubt.low) + " to " + e.show(e.doubt.high), e.why, e.moves()})
	}
	s.table(t)
	s.head("Decisions that flip")
	for _, e := range effects {
		for _, f := range e.flips {
			s.item("%s: %s.", e.name, f)
		}
	}
	s.head("Assumed")
	s.say("What no boat file says, and the plan takes as given:")
	for _, other := range sections {
		for _, a := range other.assumed {
			s.item("%s", a)
		}
	}
	s.do("The answers hang most on: %s. Look at what they would overturn.", strings.Join(names, "; "))
	return s, nil
}

func (e *effect) moves() string {
	if e.moved < 0.005 {
		return "nothing by half a percent"
	}
	if e.most.format == "" {
		return fmt.Sprintf("%s: %s to %s", e.most.name, e.low.words, e.high.words)
	}
	low, high := apart(e.most.format, e.low.value, e.high.value)
	return fmt.Sprintf("%s: %s to %s", e.most.name, low, high)
}

// apart prints two different values with as many more digits as tell them apart.
func apart(format string, low, high float64) (a, b string) {
	before, after, _ := strings.Cut(format, "%.")
	for digits := int(after[0] - '0'); digits < 9; digits++ {
		f := fmt.Sprintf("%s%%.%d%s", before, digits, after[1:])
		if a, b = fmt.Sprintf(f, low), fmt.Sprintf(f, high); a != b {
			break
		}
	}
	return a, b
}
