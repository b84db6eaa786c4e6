package canvas

import (
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// The units of whole numbers in which pieces are laid, in nanometres. A sixteenth of
// an inch, half of it, and a tenth of a millimetre are whole in the second.
const (
	hundredth = 10_000 // of a millimetre
	fine      = 6_250  // a millimetre has 160, 1/32 in 127
)

// How long the pieces of a lay in fine units may be, one after another: less than what
// a search takes in them, see ErrSize of internal/strip, and of internal/rects.
const (
	longestFine      = 400  // m
	longestFineRects = 6500 // m
)

// ruled is a lay and the unit in which its pieces are laid.
type ruled struct {
	*Lay
	unit float64 // nanometres
}

// ruled chooses the unit: the one in which more of the repeats of the patterns are whole;
// if that tells nothing, the one in which more of the pieces is, by area, so that a few
// small ones do not decide for all; and then that of the widths, lengths and the gap. Of a
// piece, straight lines along and across the roll count, as only they are laid as they
// are, by their distance from the corner of the rectangle round the piece: where it is
// drawn is nothing to the cloth.
func (l *Lay) ruled() ruled {
	in := [2]ruled{{l, hundredth}, {l, fine}}
	// To a nanometre, and less than what turning a piece leaves.
	whole := func(i int, nanometres float64) bool {
		return math.Abs(math.Remainder(nanometres, in[i].unit)) < 0.5
	}
	var repeats, rest [2]int
	count := func(to *[2]int, v units.Length) {
		for i := range in {
			if whole(i, math.Round(float64(v)*1e9)) {
				to[i]++
			}
		}
	}
	count(&rest, l.Gap/2)
	patterned, flawed := false, false
	for _, r := range l.Rolls {
		count(&repeats, r.Along)
		count(&repeats, r.Across)
		count(&rest, r.Width-2*r.Selvedge)
		count(&rest, r.Length)
		patterned, flawed = patterned || r.Along > 0 || r.Across > 0, flawed || len(r.Flaws) > 0
	}
	long, boxes := 0.0, !flawed // how much one after another, and that all are laid as rectangles
	var pieces [2]float64       // m2
	for i := range l.Pieces {
		p := &l.Pieces[i]
		flat := ruled{l, 1}.place(p, p.Cut, 0, false)
		x0, x1, y0, y1 := extent(flat)
		lines, good := 0, [2]int{}
		for k, n := 0, len(flat); k < n; k += 2 {
			x, y := flat[k], flat[k+1]
			dx, dy := math.Abs(flat[(k+2)%n]-x), math.Abs(flat[(k+3)%n]-y)
			off := x - x0
			switch {
			case dx < 1 && dy < 1: // a point twice
				continue
			case dx < 1:
			case dy < 1:
				off = y - y0
			default:
				boxes = false
				continue
			}
			lines++
			for i := range in {
				if whole(i, off) {
					good[i]++
				}
			}
		}
		boxes = boxes && lines == 4 && p.square() && (p.Match == nil || !patterned)
		number := float64(max(1, p.Quantity+p.QuantityMirrored))
		for i := range pieces {
			pieces[i] += float64(number * (x1 - x0) * (y1 - y0) * float64(good[i]) / float64(max(1, lines)) * 1e-18)
		}
		long += float64((math.Hypot(x1-x0, y1-y0)*1e-9 + float64(l.Gap)) * number)
	}
	most := float64(longestFine)
	if boxes {
		most = longestFineRects
	}
	finer := plane.Clearly(pieces[1], pieces[0]) || !plane.Clearly(pieces[0], pieces[1]) && rest[1] > rest[0]
	if repeats[1] > repeats[0] || repeats[1] == repeats[0] && finer && long < most {
		return in[1]
	}
	return in[0]
}

// square says that a piece lies on the roll in quarter turns only.
func (p *Cutting) square() bool {
	return !slices.ContainsFunc(p.turns(), func(t units.Angle) bool {
		return math.Abs(math.Remainder(float64(t), math.Pi/2)) > 1e-12
	})
}

// settle moves a line down and to the left by less than a unit, so that the distances of
// its sides along the axes from the corner of the rectangle round it are whole where they
// are so in the piece. It tells how far: nothing where no side is along an axis.
func settle(flat []float64) (by [2]float64) {
	const rounding = 1e-6 // of a unit: a nanometre is more than a hundred times that
	x0, _, y0, _ := extent(flat)
	for axis, low := range [2]float64{x0, y0} {
		along := false
		for k, n := axis, len(flat); k < n && !along; k += 2 {
			along = math.Abs(flat[(k+2)%n]-flat[k]) < rounding
		}
		f := low - math.Floor(low)
		if !along || f < rounding || f > 1-rounding {
			continue
		}
		by[axis] = f
		for k := axis; k < len(flat); k += 2 {
			flat[k] -= f
			if r := math.Round(flat[k]); math.Abs(flat[k]-r) < rounding {
				flat[k] = r
			}
		}
	}
	return by
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
