package pattern

import (
	"fmt"
	"math"

	"example.com/forepeak/canvas"
)

// BiasStrips lays the strips for a binding on a roll, as many as
// [canvas.BiasBinding.Cloth] says, side by side, each a parallelogram with its slanted
// ends on the selvedges.
func BiasStrips(b canvas.BiasBinding) (Roll, error) {
	cloth, n, err := b.Cloth()
	if err != nil {
		return Roll{}, err
	}
	if n > 200 {
		return Roll{}, refuse("Length", b.Length, fmt.Sprintf("what 200 strips give, not %d", n))
	}
	along := b.Width.Scale(math.Sqrt2) // of a strip, on the selvedge
	r := Roll{
		Title: fmt.Sprintf("Bias binding, %.1f m long and %.0f mm wide before folding, in %d strips", b.Length.Metres(), b.Width.Millimetres(), n),
		Width: b.Roll, Length: cloth,
		Notes: []string{
			fmt.Sprintf("Mark %.1f mm after %.1f mm along the lower selvedge from 0 and along the upper one from %.0f mm, and join the marks: "+
				"the lines lie at 45 degrees. Only the first and the last cut waste a triangle.", along.Millimetres(), along.Millimetres(), b.Roll.Millimetres()),
			"Join two strips at their ends on the selvedge: right sides together, square to one another, so that the seam runs across the binding " +
				"at 45 degrees. Shift them by the seam allowance so that the edges meet on the seam; press it open and cut off the corners.",
		},
	}
	for i := range n {
		from, to := along.Scale(float64(i)), along.Scale(float64(i+1))
		if i+1 == n {
			to = cloth - b.Roll // the same, to the last digit
		}
		r.Pieces = append(r.Pieces, RollPiece{
			Name: fmt.Sprintf("strip: below from %.0f to %.0f, above from %.0f to %.0f mm", from.Millimetres(), to.Millimetres(),
				(from + b.Roll).Millimetres(), (to + b.Roll).Millimetres()),
			Order:   i + 1,
			Outline: []canvas.Point{{X: from}, {X: to}, {X: to + b.Roll, Y: b.Roll}, {X: from + b.Roll, Y: b.Roll}},
		})
	}
	return r, nil
}
