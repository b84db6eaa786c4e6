package main

import (
	"fmt"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// chainwork is what the report says of the wheel, its counter, the marks and
// the locker.
type chainwork struct {
	chain  rode.Chain   // the lowest chain of the rode
	length units.Length // of it
	rope   units.Length // of rope above it

	fit      rode.WheelFit
	reads    float64 // error of the counter as it is set, as a fraction
	shown    units.Length
	out      rode.LengthOut // what is out when it shows that
	lays     []rode.LayPlan // to set it within a millimetre a turn
	marks    rode.Marks
	stowages []rode.Stowage
}

// layErrors are those of a careful crew with a tape on a quay.
var layErrors = rode.LayErrors{Tape: 1 * units.Centimetre, Repeat: 2 * units.Centimetre}

func (f *boatFile) makeChainwork() (*chainwork, error) {
	c := &chainwork{shown: 30 * units.Metre}
	for _, p := range f.Rode.Pieces {
		switch {
		case p.Rope != "":
			c.rope += p.Length
		case c.length == 0 && c.rope == 0:
			var err error
			if c.chain, err = rode.ChainByName(p.Chain); err != nil {
				return nil, err
			}
			c.length = p.Length
		}
	}
	if c.length == 0 {
		return nil, nil // a rode that begins with rope: nothing for the wheel to count by links
	}
	w := f.Windlass
	wheel := rode.ChainWheel{Pockets: w.Pockets, Pitch: w.Pitch, Wire: w.Wire, Play: w.Play}
	var err error
	if c.fit, err = wheel.Fit(c.chain); err != nil {
		return nil, fmt.Errorf("windlass: %w", err)
	}
	counter := rode.Counter{Setting: w.Setting, Pulses: w.Pulses, Step: w.Step}
	if c.reads, err = rode.CounterError(c.fit.Payout, w.Setting); err != nil {
		return nil, fmt.Errorf("windlass: %w", err)
	}
	if c.out, err = counter.Length(rode.Scale{Chain: c.fit.Payout}, c.shown); err != nil {
		return nil, fmt.Errorf("windlass: %w", err)
	}
	if c.lays, err = rode.ProposeLays(counter, rode.LayGoal{Payout: c.fit.Payout, Half: 1 * units.Millimetre, Longest: c.length, Errors: layErrors}); err != nil {
		return nil, fmt.Errorf("windlass: %w", err)
	}
	if c.marks, err = rode.MarkRode(rode.MarkPlan{
		Every: f.Marks.Every, AtAnchor: f.Marks.AtAnchor, AtZero: f.Marks.AtZero,
		Chain: c.length, Pitch: c.chain.Pitch, Rope: c.rope, Scheme: f.Marks.Scheme,
	}); err != nil {
		return nil, fmt.Errorf("marks: %w", err)
	}
	locker := rode.Locker{Length: f.Locker.Length, Width: f.Locker.Width, Fall: f.Locker.Fall, Slope: f.Locker.Slope}
	if c.stowages, err = locker.Stow(rode.OfChain, c.length, c.chain.Wire); err != nil {
		return nil, fmt.Errorf("locker: %w", err)
	}
	return c, nil
}

func (p *plan) writeChainwork(t *printer) error {
	c, f := p.chainwork, p.boat
	if c == nil {
		return nil
	}
	t.line("")
	t.line("Chain counter: %d pockets, pitch %.4g mm: %.1f cm a turn; set to %.1f cm it reads %+.1f %%.",
		f.Windlass.Pockets, c.chain.Pitch.Millimetres(), c.fit.Payout.Centimetres(), f.Windlass.Setting.Centimetres(), 100*c.reads)
	t.line("  When it shows %.0f m, %.1f to %.1f m are out. Set it to %.1f cm, then test it against a tape:",
		c.shown.Metres(), c.out.Low.Metres(), c.out.High.Metres(), c.fit.Payout.Centimetres())
	for _, l := range c.lays {
		t.line("    read %s: lays: %d, %.0f m of chain in all, within %.1f mm a turn",
			l.Way, len(l.Lays), l.Total.Metres(), l.Half.Millimetres())
	}
	for _, m := range c.fit.Misfits {
		t.line("  This chain does not fit the wheel: %s.", m)
	}
	least := c.stowages[0]
	for _, s := range c.stowages {
		if s.Stows < least.Stows {
			least = s
		}
	}
	t.line("  Locker: of %.0f m of chain %.0f m stow themselves by the most cautious rule (%s).", c.length.Metres(), least.Stows.Metres(), least.Rule.Name)
	table, err := c.marks.Table("m")
	if err != nil {
		return err
	}
	t.line("")
	t.line("Marks for the day it fails, links counted from the anchor's shackle:")
	t.block(table)
	return nil
}
