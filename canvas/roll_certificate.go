package canvas

import (
	"fmt"

	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// LayCertificate holds what was laid in whole numbers of a unit: outlines that hold the cut lines, grown by half the gap as it is laid, on cloth that is
// larger by as much. [LayCertificate.Check] needs nothing else; that the outlines
// are those of the pieces asked for is for [LayPlan.Check].
type LayCertificate struct {
	Unit   units.Length // 0.01 mm or 1/160 mm, see [Lay]
	Sheets []CertifiedSheet
}

// CertifiedSheet is a roll without its selvedges, X from half a gap before the
// free end, Y from half a gap below the lower selvedge.
type CertifiedSheet struct {
	Roll   string
	Width  int64
	Length int64     // as far as the outlines may reach
	End    int64     // of the cloth; 0 is as much as is needed
	Flaws  [][]int64 // x0, y0, x1, y1, ...
	Pieces []CertifiedPiece
}

// CertifiedPiece is an outline and how far it is moved.
type CertifiedPiece struct {
	Name    string
	Outline []int64 // x0, y0, x1, y1, ...
	X, Y    int64
	// Along and Across are where X and Y may be for the pattern: repeat, remainder
	// and tolerance.
	Along, Across [3]int64
}

// Check proves, in integers of 128 bits, that all outlines lie on their cloth
// and on its pattern, and that none overlaps another or a flaw; they may touch.
// The error wraps [ErrLay].
func (c LayCertificate) Check() error {
	for i, s := range c.Sheets {
		p := strip.Problem{Width: s.Width, End: s.End, Flaws: s.Flaws}
		l := strip.Layout{Length: s.Length}
		for k, q := range s.Pieces {
			p.Shapes = append(p.Shapes, strip.Shape{Turns: [][]int64{q.Outline}, Count: 1, Grids: []strip.Grid{{
				X: strip.Steps{Repeat: q.Along[0], Phase: q.Along[1], Tolerance: q.Along[2]},
				Y: strip.Steps{Repeat: q.Across[0], Phase: q.Across[1], Tolerance: q.Across[2]},
			}}})
			l.Places = append(l.Places, strip.Place{Shape: k, X: q.X, Y: q.Y})
		}
		if err := strip.Certify(p, l); err != nil {
			return refuseAs(ErrLay, fmt.Sprintf("Sheets[%d] (%s)", i, s.Roll), err, "pieces side by side")
		}
	}
	return nil
}
