package canvas

import (
	"math"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// The units of whole numbers in which pieces are laid, in nanometres. A sixteenth of
// an inch, half of it, and a tenth of a millimetre are whole in the second.
const (
	hundredth = 10_000 // of a millimetre
	fine      = 6_250  // a millimetre has 160, 1/32 in 127
)

// longestFine is how long the pieces of a lay in fine units may be, one after another:
// less than what a search takes in them, see ErrSize of internal/strip.
const longestFine = 400 // m

// ruled is a lay and the unit in which its pieces are laid.
type ruled struct {
	*Lay
	unit float64 // nanometres
}

// ruled chooses the unit: the one in which the repeats of the patterns are whole or, if
// they are so in both or in neither, more of the other sizes. Of pieces, straight lines
// along X or Y count, as only they are laid as they are.
func (l *Lay) ruled() ruled {
	in := [2]ruled{{l, hundredth}, {l, fine}}
	var repeats, whole [2]int
	count := func(to *[2]int, v units.Length) {
		for i := range in {
			if u := in[i].of(v); u == math.Round(u) {
				to[i]++
			}
		}
	}
	count(&whole, l.Gap/2)
	for _, r := range l.Rolls {
		count(&repeats, r.Along)
		count(&repeats, r.Across)
		count(&whole, r.Width-2*r.Selvedge)
		count(&whole, r.Length)
	}
	long := 0.0
	for _, p := range l.Pieces {
		low, high := p.Cut[0].bare(), p.Cut[0].bare()
		for k, q := range p.Cut {
			d := p.Cut[(k+1)%len(p.Cut)].bare().Sub(q.bare())
			switch {
			case math.Abs(d.X) < 1e-9:
				count(&whole, q.X)
			case math.Abs(d.Y) < 1e-9:
				count(&whole, q.Y)
			}
			low = plane.Point{X: min(low.X, float64(q.X)), Y: min(low.Y, float64(q.Y))}
			high = plane.Point{X: max(high.X, float64(q.X)), Y: max(high.Y, float64(q.Y))}
		}
		long += float64((high.Sub(low).Norm() + float64(l.Gap)) * float64(max(1, p.Quantity+p.QuantityMirrored)))
	}
	if repeats[1] > repeats[0] || repeats[1] == repeats[0] && whole[1] > whole[0] && long < longestFine {
		return in[1]
	}
	return in[0]
}

// of is a length in units. It is rounded to a nanometre, so that the last digits of
// what computed it do not matter.
func (l ruled) of(v units.Length) float64 { return math.Round(float64(v)*1e9) / l.unit }

// length is that of so many units.
func (l ruled) length(u float64) units.Length { return units.Length(u * (l.unit * 1e-9)) }

// area is that of so many units squared, in square metres.
func (l ruled) area(u float64) float64 { return u * (l.unit * 1e-9) * (l.unit * 1e-9) }

// gap is what is kept, in units: half of it is a whole number of them, so that pieces
// as wide as the cloth are no wider with the gap than the cloth is.
func (l ruled) gap() float64 { return 2 * math.Ceil(l.of(l.Gap)/2-1e-6) }
