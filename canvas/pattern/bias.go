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
	in := ruler{b.Imperial}
	long := fmt.Sprintf("%.1f m", b.Length.Metres())
	mark := fmt.Sprintf("%.1f mm after %.1f mm", along.Millimetres(), along.Millimetres())
	if in.inches { // sixteenths would add up to an error that shows
		long, mark = in.say(b.Length), "what the list says, about every "+in.say(along)+","
	}
	r := Roll{
		Title: fmt.Sprintf("Bias binding, %s long and %s wide before folding, in %d strips", long, in.say(b.Width), n),
		Width: b.Roll, Length: cloth, Imperial: b.Imperial,
		Notes: []string{
			fmt.Sprintf("Mark %s along the lower selvedge from 0 and along the upper one from %s, and join the marks: "+
				"the lines lie at 45 degrees. Only the first and the last cut waste a triangle.", mark, in.say(b.Roll)),
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
			Name: fmt.Sprintf("strip: below from %s to %s, above from %s to %s %s", in.bare(from.Millimetres()), in.bare(to.Millimetres()),
				in.bare((from + b.Roll).Millimetres()), in.bare((to + b.Roll).Millimetres()), in.name("mm")),
			Order:   i + 1,
			Outline: []canvas.Point{{X: from}, {X: to}, {X: to + b.Roll, Y: b.Roll}, {X: from + b.Roll, Y: b.Roll}},
		})
	}
	return r, nil
}
