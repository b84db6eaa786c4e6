package rode

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// WheelFit says how a chain lies on a wheel.
type WheelFit struct {
	// Payout is what a turn pays out with this chain: what to set the counter to.
	Payout units.Length
	// PitchError is the pitch of the chain less that of the wheel, per link.
	PitchError units.Length
	// Links lie on the wheel at once.
	Links int
	// Creep is how far the links have crept along their pockets from one end of
	// the wrap to the other: Links times PitchError. It has to stay within the
	// wheel's Play, or links climb out of their pockets.
	Creep units.Length
	// Misfits are the reasons why the chain does not fit; none when it does.
	Misfits []string
}

// Fits reports whether nothing speaks against the chain.
func (f WheelFit) Fits() bool { return len(f.Misfits) == 0 }

// Fit compares a chain with the wheel: the error of pitch summed over the chain
// that lies on the wheel against the play of a link in its pocket, the wire
// against the groove, the greatest width of a link against the pocket. The
// chain's Pitch should be measured (MeasuredPitch): a worn chain is longer, and
// 10 mm chain has a pitch of 28 or 30 mm, depending on its standard. Widths that
// are zero, of chain or wheel, are not compared.
//
// The rule is geometry; no standard with a tolerance for small windlasses was
// found. Turn the wheel by hand with the chain under load before relying on it:
// chain that jumps its wheel runs out uncontrolled.
func (w ChainWheel) Fit(chain Chain) (WheelFit, error) {
	wrap := w.Wrap
	if wrap == 0 {
		wrap = units.Turn / 2
	}
	var c checker
	w.check(&c)
	positive(&c, "Wire", w.Wire)
	notNegative(&c, "Play", w.Play)
	notNegative(&c, "Width", w.Width)
	notNegative(&c, "Groove", w.Groove)
	between(&c, "Wrap", wrap, 0, units.Turn)
	between(&c, "chain.Pitch", chain.Pitch, 1e-3, 1)
	between(&c, "chain.Wire", chain.Wire, 1e-4, chain.Pitch.Scale(0.5))
	notNegative(&c, "chain.OutsideWidth", chain.OutsideWidth)
	if c.err != nil {
		return WheelFit{}, c.err
	}
	f := WheelFit{
		Payout:     w.payout(chain.Pitch),
		PitchError: chain.Pitch - w.Pitch,
		Links:      int(math.Ceil(2 * float64(w.Pockets) * wrap.Turns())),
	}
	f.Creep = f.PitchError.Scale(float64(f.Links))
	misfit := func(format string, a ...any) { f.Misfits = append(f.Misfits, fmt.Sprintf(format, a...)) }
	// A link is longer outside than its pitch by two wires, so thicker wire takes
	// of the play what thinner wire adds to it.
	play := w.Play - (chain.Wire - w.Wire).Scale(2)
	if rounded := 1e-9 * float64(w.Pitch); float64(f.Creep.Abs()) > math.Max(0, float64(play))+rounded {
		misfit("pitch %.1f mm on a wheel for %.1f mm creeps %.1f mm over the %d links on the wheel, and a link has %.1f mm of play",
			chain.Pitch.Millimetres(), w.Pitch.Millimetres(), f.Creep.Millimetres(), f.Links, math.Max(0, play.Millimetres()))
	}
	if play < 0 {
		misfit("wire of %.1f mm makes a link too long for the pocket, which is cut for %.1f mm with %.1f mm of play",
			chain.Wire.Millimetres(), w.Wire.Millimetres(), w.Play.Millimetres())
	}
	if w.Groove > 0 && chain.Wire >= w.Groove {
		misfit("wire of %.1f mm does not stand upright in a groove of %.1f mm", chain.Wire.Millimetres(), w.Groove.Millimetres())
	}
	if w.Width > 0 && chain.OutsideWidth >= w.Width {
		misfit("links up to %.1f mm wide do not lie in a pocket of %.1f mm", chain.OutsideWidth.Millimetres(), w.Width.Millimetres())
	}
	return f, nil
}

// FitRope says whether a rope and the splice between rope and chain pass the
// wheel: the rope must lie within the diameters that the wheel's maker gives,
// and the splice, at its thickest, must clear the pockets' width. It returns the
// reasons why not, none when they pass.
func (w ChainWheel) FitRope(rope, splice units.Length) ([]string, error) {
	var c checker
	positive(&c, "rope", rope)
	between(&c, "splice", splice, rope, rope.Scale(10))
	notNegative(&c, "Width", w.Width)
	notNegative(&c, "RopeMost", w.RopeMost)
	between(&c, "RopeLeast", w.RopeLeast, 0, w.RopeMost)
	if c.err != nil {
		return nil, c.err
	}
	var misfits []string
	misfit := func(format string, a ...any) { misfits = append(misfits, fmt.Sprintf(format, a...)) }
	switch {
	case w.RopeMost == 0:
		misfit("the wheel takes chain only")
	case rope < w.RopeLeast || rope > w.RopeMost:
		misfit("rope of %.1f mm on a wheel for %.1f to %.1f mm: thinner slips, thicker does not wedge in",
			rope.Millimetres(), w.RopeLeast.Millimetres(), w.RopeMost.Millimetres())
	}
	switch {
	case w.Width == 0:
		misfit("the width of the pockets is not known: measure it and compare it with the splice")
	case splice >= w.Width:
		misfit("a splice %.1f mm thick does not pass pockets %.1f mm wide: taper it, or lift it over by hand",
			splice.Millimetres(), w.Width.Millimetres())
	}
	return misfits, nil
}
