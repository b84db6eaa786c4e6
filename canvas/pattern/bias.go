package pattern

import (
	"fmt"
	"math"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// BiasStrips lays the strips for a binding of a length and cut width on a roll, at
// 45 degrees to the selvedge, where cloth stretches and goes round curves: as many as
// [canvas.BiasBinding] says, side by side, each a parallelogram with its slanted ends on the selvedges.
func BiasStrips(length, width, roll units.Length) (Roll, error) {
	cloth, n, err := canvas.BiasBinding(length, width, roll)
	if err != nil {
		return Roll{}, err
	}
	if n > 200 {
		return Roll{}, refuse("length", length, fmt.Sprintf("what 200 strips give, not %d", n))
	}
	along := width.Scale(math.Sqrt2) // of a strip, on the selvedge
	r := Roll{
		Title: fmt.Sprintf("Bias binding, %.1f m long and %.0f mm wide before folding, in %d strips", length.Metres(), width.Millimetres(), n),
		Width: roll, Length: cloth,
		Notes: []string{
			fmt.Sprintf("Mark %.1f mm after %.1f mm along the lower selvedge from 0 and along the upper one from %.0f mm, and join the marks: "+
				"the lines lie at 45 degrees. Only the first and the last cut waste a triangle.", along.Millimetres(), along.Millimetres(), roll.Millimetres()),
			"Join two strips at their ends on the selvedge: right sides together, square to one another, so that the seam runs across the binding " +
				"at 45 degrees. Shift them by the seam allowance so that the edges meet on the seam; press it open and cut off the corners.",
		},
	}
	for i := range n {
		a, b := along.Scale(float64(i)), along.Scale(float64(i+1))
		if i+1 == n {
			b = cloth - roll // the same, to the last digit
		}
		r.Pieces = append(r.Pieces, RollPiece{
			Name: fmt.Sprintf("strip: below from %.0f to %.0f, above from %.0f to %.0f mm", a.Millimetres(), b.Millimetres(),
				(a + roll).Millimetres(), (b + roll).Millimetres()),
			Order:   i + 1,
			Outline: []canvas.Point{{X: a}, {X: b}, {X: b + roll, Y: roll}, {X: a + roll, Y: roll}},
		})
	}
	return r, nil
}
