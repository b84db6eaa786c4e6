package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// chainwork is what the report says of the wheel, its counter, the marks and
// the locker.
type chainwork struct {
	chain  rode.Chain
	length units.Length   // of it
	rope   units.Length   // of rope above it
	thick  []units.Length // diameter of each piece of rope; 0 for chain

	fit     rode.WheelFit
	reads   float64 // error of the counter as it is set, as a fraction
	shown   units.Length
	out     rode.LengthOut // what is out when it shows that
	set     rode.LengthOut // and when it is set to what the wheel pays out
	lays    []rode.LayPlan // to set it within a millimetre a turn
	marks   rode.Marks
	stowage rode.Stowage // by the rule that trusts the locker least
	below   units.Length // height of the rope under it

	ropeMisfits []string
	worn        *wornChain // nil where no wear was measured or the pitch was, or there is no windlass
	measured    bool       // the pitch
}

// wornChain is what becomes of wheel and counter if all links have worn like the thinnest.
type wornChain struct {
	wire  units.Length // that is left
	pitch units.Length // that they may have
	fit   rode.WheelFit
	reads float64        // error of a counter that is set for new chain
	out   rode.LengthOut // what is then out when it shows so much
}

// tried is over how many links the pitch is to be measured.
const tried = 50

// mostHandled is how often a crew will lay all of its chain out to set a counter.
const mostHandled = 4

// layErrors are those of a careful crew with a tape on a quay.
var layErrors = rode.LayErrors{Tape: 1 * units.Centimetre, Repeat: 2 * units.Centimetre}

func (p *plan) makeChainwork() (*chainwork, error) {
	if p.links == 0 {
		return nil, nil // a rode that begins with rope: nothing for the wheel to count by links
	}
	f := p.boat
	c := &chainwork{chain: p.chain, length: p.links, shown: 30 * units.Metre}
	if p.in.feet {
		c.shown = 100 * units.Foot
	}
	if w := f.Windlass; w != nil { // a display shows whole steps
		c.shown = w.Step.Scale(math.Round(c.shown.Per(w.Step)))
	}
	c.thick = make([]units.Length, len(f.Rode.Pieces))
	for i, piece := range f.Rode.Pieces {
		if piece.Pitch > 0 && piece.Chain == c.chain.Name() {
			if low, high := c.chain.Pitch.Scale(0.95), c.chain.Pitch.Scale(1.1); piece.Pitch < low || piece.Pitch > high {
				return nil, &fileError{fmt.Sprintf("rode.pieces[%d].pitch", i), fmt.Sprintf("%.4v", piece.Pitch), fmt.Sprintf("from %.4v to %.4v", low, high)}
			}
			c.chain.Pitch, c.measured = piece.Pitch, true
		}
		if piece.Rope == "" {
			continue
		}
		c.rope += piece.Length
		r, err := rode.RopeByName(piece.Rope)
		if err != nil {
			return nil, fmt.Errorf("rode.pieces[%d]: %w", i, err)
		}
		c.thick[i] = r.Diameter
	}
	if err := c.count(f); err != nil {
		return nil, err
	}
	if m := f.Marks; m != nil {
		var err error
		if c.marks, err = rode.MarkRode(rode.MarkPlan{
			Every: m.Every, AtAnchor: m.AtAnchor, AtZero: m.AtZero,
			Chain: c.length, Pitch: c.chain.Pitch, Rope: c.rope, Scheme: m.Scheme,
		}); err != nil {
			return nil, fmt.Errorf("marks: %w", err)
		}
	}
	if l := f.Locker; l != nil {
		if err := c.stow(rode.Locker{Length: l.Length, Width: l.Width, Fall: l.Fall, Slope: l.Slope}, p.rode); err != nil {
			return nil, fmt.Errorf("locker: %w", err)
		}
	}
	return c, nil
}

// stow lets the rope fall first, since it comes in first, and the chain on top of it.
func (c *chainwork) stow(l rode.Locker, r rode.Rode) error {
	for i, piece := range r.Pieces {
		if piece.Kind != rode.OfRope {
			continue
		}
		stowages, err := l.Stow(rode.OfRope, piece.Length, c.thick[i])
		if err != nil {
			return err
		}
		c.below += slices.MaxFunc(stowages, func(a, b rode.Stowage) int { return cmp.Compare(a.Level, b.Level) }).Level
	}
	if l.Fall -= c.below; l.Fall < 1*units.Centimetre {
		return nil // rope alone fills it: no chain stows
	}
	stowages, err := l.Stow(rode.OfChain, c.length, c.chain.Wire)
	if err != nil {
		return err
	}
	c.stowage = slices.MinFunc(stowages, func(a, b rode.Stowage) int { return cmp.Compare(a.Stows, b.Stows) })
	return nil
}

// count is what the wheel makes of the chain, and the counter of the wheel.
func (c *chainwork) count(f *boatFile) error {
	w := f.Windlass
	if w == nil {
		return nil
	}
	wheel := rode.ChainWheel{Pockets: w.Pockets, Pitch: w.Pitch, Wire: w.Wire, Play: w.Play, RopeLeast: w.RopeLeast, RopeMost: w.RopeMost}
	var err error
	if c.fit, err = wheel.Fit(c.chain); err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	for _, thick := range c.thick {
		if thick == 0 || w.RopeMost == 0 {
			continue
		}
		misfits, err := wheel.FitRope(thick, thick) // the splice is thicker; try it
		if err != nil {
			return fmt.Errorf("windlass: %w", err)
		}
		c.ropeMisfits = append(c.ropeMisfits, misfits...)
	}
	counter := rode.Counter{Setting: w.Setting, Pulses: w.Pulses, Step: w.Step}
	if c.reads, err = rode.CounterError(c.fit.Payout, w.Setting); err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	if c.out, err = counter.Length(rode.Scale{Chain: c.fit.Payout}, c.shown); err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	counter.Setting = c.fit.Payout
	if err := c.wear(f, wheel, counter); err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	if c.set, err = counter.Length(rode.Scale{Chain: c.fit.Payout}, c.shown); err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	lays, err := rode.ProposeLays(counter, rode.LayGoal{Payout: c.fit.Payout, Half: 1 * units.Millimetre, Longest: c.length, Errors: layErrors})
	if err != nil {
		return fmt.Errorf("windlass: %w", err)
	}
	for _, l := range lays {
		if l.Total <= c.length.Scale(mostHandled) {
			c.lays = append(c.lays, l)
		}
	}
	return nil
}

// wear puts links as long as the wear that was measured may have made them on the wheel.
func (c *chainwork) wear(f *boatFile, wheel rode.ChainWheel, counter rode.Counter) error {
	w := wornChain{wire: c.chain.Wire}
	for _, piece := range f.Rode.Pieces {
		if piece.Chain == c.chain.Name() && piece.Worn > 0 {
			w.wire = min(w.wire, piece.Worn)
		}
	}
	if w.wire == c.chain.Wire || c.measured {
		return nil
	}
	pitch, err := c.chain.WornPitch(w.wire)
	if err != nil {
		return err
	}
	longer := c.chain // the wire of its sides is as thick as it was
	longer.Pitch, w.pitch = pitch.High, pitch.High
	if w.fit, err = wheel.Fit(longer); err != nil {
		return err
	}
	if w.reads, err = rode.CounterError(w.fit.Payout, counter.Setting); err != nil {
		return err
	}
	if w.out, err = counter.Length(rode.Scale{Chain: w.fit.Payout}, c.shown); err != nil {
		return err
	}
	c.worn = &w
	return nil
}

func (p *plan) writeChainwork(s *section) error {
	c, f := p.chainwork, p.boat
	if c == nil {
		s.say("The rode begins with rope: a chain wheel, a counter of its turns and marks by links have nothing to go by.")
		return nil
	}
	if f.Windlass == nil {
		s.say("The boat file has no windlass: nothing is said of its wheel and its counter.")
	} else {
		p.writeCounter(s)
	}
	if f.Locker == nil {
		s.say("The boat file has no locker: whether the chain stows itself is not looked at.")
	} else {
		st := &c.stowage
		if st.Stows < c.length {
			s.warn("The locker stows %s of %s of chain by itself; knock the heap over for the rest.", p.in.long.num(st.Stows, 0), p.in.long.say(c.length, 0))
		}
		if c.below > 0 {
			s.say("The rope lies under the chain in the locker, %s deep by the most cautious rule.", p.in.mid.say(c.below, 0))
		}
		s.say("Locker: of %s of chain %s stow themselves by the most cautious rule (%s), heaped up to %s of a fall of %s.",
			p.in.long.say(c.length, 0), p.in.long.say(st.Stows, 0), st.Rule.Name, p.in.long.say(st.Heap, 2), p.in.long.say(f.Locker.Fall-c.below, 2))
		s.check(dryFit, "Haul the whole rode into the locker", fmt.Sprintf("%s of chain fall into place without a hand", p.in.long.say(st.Stows, 0)))
	}
	if f.Marks == nil {
		s.say("The boat file has no marks: without them nothing says what is out when the counter fails.")
		return nil
	}
	return p.writeMarks(s)
}

func (p *plan) writeCounter(s *section) {
	c, f := p.chainwork, p.boat
	for _, m := range append(slices.Clone(c.fit.Misfits), c.ropeMisfits...) {
		s.warn("The windlass: %s.", p.in.reword(m))
	}
	expect := fmt.Sprintf("%s "+map[bool]string{false: "new", true: "as in the boat file"}[c.measured]+", a pitch of %s", p.in.mid.say(c.chain.Pitch.Scale(tried), 1), p.in.small.short(c.chain.Pitch, 2))
	if c.fit.Fits() {
		most := f.Windlass.Pitch + (f.Windlass.Play - (c.chain.Wire - f.Windlass.Wire).Scale(2)).Scale(1/float64(c.fit.Links))
		expect += fmt.Sprintf("; more than %s does not lie in the wheel", p.in.mid.down(most.Scale(tried), 1)+" "+p.in.mid.name)
	}
	s.check(measure, fmt.Sprintf("From a place on a link to the same place on the link %d further on, hand taut, where the chain is most worn", tried), expect)
	if !c.fit.Fits() {
		s.say("What a turn pays out is not to be relied on as long as the chain does not lie in the pockets.")
		s.do("Do not set the chain counter yet: the wheel does not fit the %s. With a wheel cut for a pitch of %s and %s wire, set it to twice that wheel's pockets times the pitch.",
			c.chain.Name(), p.in.small.short(c.chain.Pitch, 2), p.in.small.short(c.chain.Wire, 2))
		return
	}
	s.say("%d pockets and a pitch of %s pay out %s a turn. Set to %s, as it is, the counter reads %+.1f %%: when it shows %s, %s to %s are out.",
		f.Windlass.Pockets, p.in.small.short(c.chain.Pitch, 2), p.in.mid.say(c.fit.Payout, 1), p.in.mid.say(f.Windlass.Setting, 1), 100*c.reads,
		p.in.long.short(c.shown, 1), p.in.long.num(c.out.Low, 1), p.in.long.say(c.out.High, 1))
	if w := c.worn; w != nil {
		s.say("That is the pitch of new chain. Where links bear on each other the wire has worn from %s to %s: a link loses that at both ends and grows by up to %s inside. If all have worn like that, a turn pays out %s, and a counter set to %s reads %+.1f %%: when it shows %s, %s to %s are out, more than it says.",
			p.in.small.say(c.chain.Wire, 1), p.in.small.say(w.wire, 1), p.in.small.say(w.pitch-c.chain.Pitch, 1), p.in.mid.say(w.fit.Payout, 1), p.in.mid.say(c.fit.Payout, 1),
			100*w.reads, p.in.long.short(c.shown, 1), p.in.long.num(w.out.Low, 1), p.in.long.say(w.out.High, 1))
		if w.fit.Fits() {
			s.say("Links so long still lie in the wheel: end to end they creep %s of the %s of play.", p.in.small.say(w.fit.Creep, 1), p.in.small.say(f.Windlass.Play, 1))
		} else {
			s.say("Links so long do not lie in the wheel any more, and a chain that jumps it runs out uncontrolled: %s. Measure the pitch before you trust the windlass.", p.in.reword(strings.Join(w.fit.Misfits, "; ")))
			s.warn("Chain worn all along like its thinnest link may jump the wheel.")
		}
	}
	if len(c.lays) > 0 {
		t := table{Caption: "Ways to set it by a tape on a quay, each to " + p.in.small.say(1*units.Millimetre, 0) + " a turn: lay chain out and compare", Head: []string{"how the counter is read", "times", "chain to handle, " + p.in.long.name}}
		for _, l := range c.lays {
			t.Rows = append(t.Rows, row("%s|%d|%s", ways[l.Way], len(l.Lays), p.in.long.num(l.Total, 0)))
		}
		s.table(t)
	}
	s.assume(fmt.Sprintf("Laying chain on a quay, the tape is good to %s and the hand to %s.", p.in.mid.say(layErrors.Tape, 0), p.in.mid.say(layErrors.Repeat, 0)))
	first := ": measure it first"
	if c.measured {
		first = ""
	}
	s.do("Set the chain counter to %s a turn, %d times the pitch%s.", p.in.mid.say(c.fit.Payout, 1), 2*f.Windlass.Pockets, first)
	s.check(dryFit, "Chain round the wheel by hand, a whole turn",
		fmt.Sprintf("links lie in their pockets; end to end they creep %s of the %s of play", p.in.small.say(c.fit.Creep.Abs(), 1), p.in.small.say(f.Windlass.Play, 1)))
	s.check(testLay, fmt.Sprintf("Counter set to %s: run out %s as it shows, tape what lies on the quay", p.in.mid.say(c.fit.Payout, 1), p.in.long.short(c.shown, 1)),
		fmt.Sprintf("%s to %s: the counter, which shows whole steps and counts whole pulses, cannot tell these apart", p.in.long.num(c.set.Low, 2), p.in.long.say(c.set.High, 2)))
}

var ways = map[rode.LayWay]string{
	rode.ReadStanding:  "as it stands when the chain has stopped",
	rode.ReadAtEnd:     "zero it, stop just as the display changes",
	rode.ReadAtChanges: "begin and stop just as the display changes",
}

func (p *plan) writeMarks(s *section) error {
	c := p.chainwork
	t := table{Caption: "Marks for the day the counter fails; links are counted from the anchor's shackle", Head: []string{"out, " + p.in.long.name, "mark", "links from the last mark", "link", "off, " + p.in.small.name}}
	for _, m := range c.marks.Marks {
		count, link, off := strconv.Itoa(m.Links), strconv.Itoa(m.Link), signed(p.in.small.num(m.Off, 0))
		if m.Kind == rode.OfRope {
			count, link, off = fmt.Sprintf("rope, %s beyond the splice", p.in.long.say(m.FromSplice, 2)), "", ""
		}
		t.Rows = append(t.Rows, []string{p.in.long.num(m.At, 0), markers(m.Markers), count, link, off})
	}
	s.table(t)
	if m, n := c.marks.Marks, len(p.boat.Marks.Scheme); n < len(m) {
		s.say("After %d marks they begin again: those at %s and %s are alike. Count them as they go out, or put more into the boat file.",
			n, p.in.long.num(m[0].At, 0), p.in.long.say(m[n].At, 0))
	}
	for _, m := range slices.Backward(c.marks.Marks) {
		if w := c.worn; w != nil && m.Kind == rode.OfChain {
			longer := (w.pitch - c.chain.Pitch).Scale(float64(m.Link) - 0.5)
			s.say("Links are counted with the pitch of new chain. If all have worn like the thinnest, the mark of %s comes when %s are out: the tape below tells.", p.in.long.say(m.At, 0), p.in.long.say(m.At+m.Off+longer, 1))
			break
		}
	}
	s.do("Mark the rode every %s (marks.txt is the list to take on deck).", p.in.long.say(p.boat.Marks.Every, 0))
	for _, b := range c.marks.Buy {
		s.buy(purchase{what: b.Marker + " to mark the rode", kind: "marker", need: float64(b.Count), why: "the marks"})
	}
	for _, m := range slices.Backward(c.marks.Marks) {
		if m.Kind == rode.OfChain {
			s.check(testLay, fmt.Sprintf("Tape from the anchor's ring to the mark of %s, hand taut", p.in.long.say(m.At, 0)),
				fmt.Sprintf("%s, give or take half a link: %s are past the wheel when the counter reads zero",
					p.in.long.say(m.At+m.Off+p.boat.Marks.AtZero, 2), p.in.long.say(p.boat.Marks.AtZero, 2)))
			break
		}
	}
	return nil
}

// signed puts a + before what is not negative.
func signed(number string) string {
	if strings.HasPrefix(number, "-") {
		return number
	}
	return "+" + number
}

// markers names those of one mark: "tie × 3, tag".
func markers(names []string) string {
	var out []string
	for len(names) > 0 {
		n := 1
		for n < len(names) && names[n] == names[0] {
			n++
		}
		if n == 1 {
			out = append(out, names[0])
		} else {
			out = append(out, fmt.Sprintf("%s × %d", names[0], n))
		}
		names = names[n:]
	}
	return strings.Join(out, ", ")
}
