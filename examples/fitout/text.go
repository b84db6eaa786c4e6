package main

import (
	"fmt"
	"io"
	"strings"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// writeText prints the plan for the terminal, at most 100 columns wide.
func (p *plan) writeText(w io.Writer) error {
	t := &printer{w: w}
	f := p.boat
	t.line("%s: anchoring plan for %s", f.Name, f.Place.Name)
	t.line("%s", f.Note)
	t.line("")
	t.line("Rode, from the anchor up: %s anchor of %.3v", f.Anchor.Type, f.Anchor.Mass)
	for _, piece := range p.rode.Pieces {
		t.line("  %-42s %5.1f m  %5.2f kg/m  breaks at %.3v", piece.Name, piece.Length.Metres(), piece.Mass.KilogramsPerMetre(), piece.Breaking)
	}
	for _, piece := range f.Rode.Pieces {
		if c, err := rode.ChainByName(piece.Chain); err == nil && piece.Worn != 0 && piece.Worn < c.Wire.Scale(0.9) {
			t.line("  %s has worn by more than a tenth of its wire: replace it, do not anchor on it", c.Name())
		}
	}
	t.line("  strengths are what wear, water, age and splices leave; roller %.2f m above the water", f.Boat.Roller.Metres())
	if err := p.writePulls(t); err != nil {
		return err
	}
	p.writeLengths(t)
	p.writeNight(t)
	p.writeNightPlan(t)
	p.writeKellet(t)
	p.writeSnubber(t)
	if err := p.writeChainwork(t); err != nil {
		return err
	}
	p.writeElectrics(t)
	p.writeCanvas(t)
	t.line("")
	t.line("Static pulls in still water. Gusts, sheering and waves load the rode to a multiple of them, and the")
	t.line("seabed decides what an anchor holds: dig it in with the engine, watch it, keep to local rules.")
	return t.err
}

// writeLengths is the table of rode to let out, by depth and wind.
func (p *plan) writeLengths(t *printer) {
	f := p.boat
	t.line("")
	t.line("Rode to let out, in metres outside the roller (scope at high water): so much that at high water,")
	t.line("%.1f m above low water, the pull on the anchor is within %.0f° of the bed and the scope at least %.3g:",
		f.Place.Range.Metres(), f.Limits.AnchorAngle.Degrees(), f.Limits.LeastScope)
	var head, pull strings.Builder
	for _, w := range f.Winds {
		fmt.Fprintf(&head, "%14s", fmt.Sprintf("%.0f kn", w.Wind.Knots()))
		fmt.Fprintf(&pull, "%14s", fmt.Sprintf("%.1f kN", w.Pull.Kilonewtons()))
	}
	t.line("  depth  sounder reads  under keel %s", head.String())
	t.line("  at low  low    high     at low   %s", pull.String())
	for _, row := range p.cells {
		var cells strings.Builder
		for _, c := range row {
			s := fmt.Sprintf("%.0f (%.1f) ", c.out.Metres(), c.scope)
			if !c.enough {
				s = fmt.Sprintf("%.0f (%.1f)*", c.out.Metres(), c.scope)
			}
			fmt.Fprintf(&cells, "%14s", s)
		}
		low := row[0].low
		t.line("  %4.1f m  %4.1f   %4.1f     %4.2f m   %s", low.Metres(), (low - f.Boat.Sounder).Metres(),
			(low + f.Place.Range - f.Boat.Sounder).Metres(), row[0].keel.Metres(), cells.String())
	}
	for _, row := range p.cells {
		for _, c := range row {
			if !c.enough {
				t.line("  * the whole rode is out and that is not enough: go shallower, or find shelter.")
				return
			}
		}
	}
}

// writeNight is the table for the depth chosen.
func (p *plan) writeNight(t *printer) {
	f := p.boat
	t.line("")
	t.line("Anchored in %.1f m at low water, %.1f m at high water, that rode feels:", f.Place.AnchorIn.Metres(), (f.Place.AnchorIn + f.Place.Range).Metres())
	t.line("  wind     out  on bed  angle at  tension  pull on  swing   nearest to its breaking load")
	t.line("           m    low hi  anchor    at bow   anchor   radius")
	for _, c := range p.night {
		if c.overdue != "" {
			t.line("  %2.0f kn  %s", c.wind.Wind.Knots(), c.overdue)
			continue
		}
		h := &c.high
		t.line("  %2.0f kn   %3.0f  %3.0f %2.0f   %4.1f°   %6.2f kN %5.2f kN  %3.0f m   %s, %.0f %%",
			c.wind.Wind.Knots(), c.out.Metres(), c.lowest.OnBed.Metres(), h.OnBed.Metres(), h.Anchor.FromBed.Degrees(),
			max(h.Tension, c.lowest.Tension).Kilonewtons(), max(h.Anchor.Tension, c.lowest.Anchor.Tension).Kilonewtons(),
			c.swing.Metres(), h.WeakestBreaking.Name, 100*h.WeakestBreaking.Fraction)
		if h.WeakestWorking.Fraction > 1 {
			t.line("          over its working load: %s, %.0f %%", h.WeakestWorking.Name, 100*h.WeakestWorking.Fraction)
		}
	}
	t.line("  Swing radius: from the anchor to the stern, in that wind, at the tide where it is greater.")
}

// writeKellet says what the kellet is worth.
func (p *plan) writeKellet(t *printer) {
	if p.kellet == nil {
		return
	}
	k := p.boat.Rode.Kellet
	t.line("")
	t.line("What a kellet of %.0f kg, %.0f m down the rode, is worth in %.0f kn (pull %.2f kN) at high water:",
		k.Mass.Kilograms(), k.Down.Metres(), p.kelletWind.Wind.Knots(), p.kelletWind.Pull.Kilonewtons())
	for _, o := range p.kellet {
		t.line("  %-31s %3.0f m out, angle at the anchor %4.1f°, it lifts from %s on", o.Name,
			o.State.Out.Metres(), o.State.Anchor.FromBed.Degrees(), kn(o.LiftPull))
	}
	t.line("  The tables above count without it.")
}

func kn(f units.Force) string { return fmt.Sprintf("%.2f kN", f.Kilonewtons()) }

// block prints lines that are there already, a little to the right.
func (t *printer) block(text string) {
	for _, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		t.line("  %s", l)
	}
}

// printer keeps the first error.
type printer struct {
	w   io.Writer
	err error
}

// line prints one line; what is too long for the terminal goes on below, farther in.
func (t *printer) line(format string, args ...any) {
	rest := strings.TrimRight(fmt.Sprintf(format, args...), " ")
	indent := strings.Repeat(" ", len(rest)-len(strings.TrimLeft(rest, " "))+4)
	for {
		line := rest
		if r := []rune(rest); len(r) > columns {
			i := strings.LastIndex(string(r[:columns+1]), " ")
			for i > len(indent) && strings.ContainsAny(rest[i-1:i], "0123456789?") { // a number stays with its unit
				i = strings.LastIndex(rest[:i], " ")
			}
			if i > len(indent) {
				line = rest[:i]
			}
		}
		if t.err == nil {
			_, t.err = fmt.Fprintln(t.w, strings.TrimRight(line, " "))
		}
		if rest = strings.TrimLeft(rest[len(line):], " "); rest == "" {
			return
		}
		rest = indent + rest
	}
}

const columns = 100
