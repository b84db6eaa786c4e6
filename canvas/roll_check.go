package canvas

import (
	"fmt"
	"math"
	"math/cmplx"

	"example.com/forepeak/units"
)

// Check proves a plan against what was asked for. From the rolls and the pieces of
// the lay, and from nothing but where [Laid] says that each lies, it follows that
//
//   - every piece is there as often as it is wanted, as drawn and mirrored, flipped
//     only where that is allowed, with its grain in a direction that is;
//   - the whole cut line, and the curve that its points follow, lies on the roll
//     between the selvedges and within Used, clear of all others by the gap, of
//     flaws by half the gap, and on the pattern;
//   - what is bought, what it costs, what is in pieces and the rest are as stated;
//   - each outline of the certificate holds its piece with half the gap all round,
//     and [LayCertificate.Check] passes.
//
// Nothing of this shares code with the search, so that a mistake between the input
// and the search is found too; and it serves for a plan that was changed by hand.
// Points are taken to the nearest nanometre, and 10 nanometres are allowed
// everywhere. A bound is only compared with what is used.
//
// The error wraps [ErrLay].
func (p LayPlan) Check(l Lay) error {
	if err := l.check(); err != nil {
		return err
	}
	if err := p.check(l); err != nil {
		return err
	}
	counts := make([][2]int, len(l.Pieces))
	for _, u := range p.Rolls {
		for _, q := range u.Laid {
			if q.Mirrored {
				counts[q.Piece][1]++
			} else {
				counts[q.Piece][0]++
			}
		}
	}
	for i, c := range l.Pieces {
		want := [2]int{c.Quantity, c.QuantityMirrored}
		if want == [2]int{} {
			want[0] = 1
		}
		if counts[i] != want {
			return refuseAs(ErrLay, fmt.Sprintf("Rolls: Pieces[%d] (%s)", i, c.Name),
				fmt.Sprintf("laid %d times as drawn and %d times mirrored", counts[i][0], counts[i][1]), fmt.Sprintf("%d and %d", want[0], want[1]))
		}
	}
	return nil
}

// check is all of Check but that no piece is missing.
func (p LayPlan) check(l Lay) error {
	seen := map[int]bool{}
	cost := 0.0
	if len(p.Certificate.Sheets) != len(p.Rolls) {
		return refuseAs(ErrLay, "Certificate.Sheets", len(p.Certificate.Sheets), fmt.Sprintf("one for each of %d rolls", len(p.Rolls)))
	}
	unit := math.Round(nm(p.Certificate.Unit))
	if unit != hundredth && unit != fine {
		return refuseAs(ErrLay, "Certificate.Unit", p.Certificate.Unit, "0.01 mm or 1/160 mm")
	}
	for i, u := range p.Rolls {
		field := fmt.Sprintf("Rolls[%d]", i)
		if u.Roll < 0 || u.Roll >= len(l.Rolls) || seen[u.Roll] || u.Name != l.Rolls[u.Roll].Name {
			return refuseAs(ErrLay, field+".Roll", fmt.Sprintf("%d (%s)", u.Roll, u.Name), "each roll once at most, with its name")
		}
		seen[u.Roll] = true
		cost += float64(u.Cost)
		c := useCheck{field: field, lay: &l, roll: &l.Rolls[u.Roll], use: &u, gap: nm(l.Gap)}
		if err := c.pieces(); err != nil {
			return err
		}
		if err := c.apart(); err != nil {
			return err
		}
		if err := c.sums(); err != nil {
			return err
		}
		if err := c.certified(&p.Certificate.Sheets[i], unit); err != nil {
			return err
		}
	}
	if !(math.Abs(cost-float64(p.Cost)) <= 1e-9*(1+math.Abs(cost))) {
		return refuseAs(ErrLay, "Cost", p.Cost, fmt.Sprintf("%v, what the rolls cost", cost))
	}
	if !(p.Bound >= 0 && float64(p.Bound) <= cost+1e-9*(1+cost)) {
		return refuseAs(ErrLay, "Bound", p.Bound, fmt.Sprintf("at most the cost of %v", p.Cost))
	}
	return p.Certificate.Check()
}

// checkSlack is what Check lets pass, in nanometres.
const checkSlack = 10

// nm is a length in nanometres.
func nm(l units.Length) float64 { return float64(l) * 1e9 }

// useCheck is the check of one roll. All numbers are nanometres.
type useCheck struct {
	field string
	lay   *Lay
	roll  *Roll
	use   *RollUse
	gap   float64
	rings []checkRing // of the pieces laid
}

func (c *useCheck) refuse(field string, value any, want string) error {
	return refuseAs(ErrLay, c.field+field, value, want)
}

// pieces places what the caller drew and looks at each piece by itself.
func (c *useCheck) pieces() error {
	last := math.Inf(-1)
	for i, q := range c.use.Laid {
		field := fmt.Sprintf(".Laid[%d] (%s)", i, q.Name)
		if q.Piece < 0 || q.Piece >= len(c.lay.Pieces) || c.lay.Pieces[q.Piece].Name != q.Name {
			return c.refuse(field+".Piece", q.Piece, "one of the pieces, with its name")
		}
		piece := &c.lay.Pieces[q.Piece]
		if q.Flipped && !piece.Flip {
			return c.refuse(field+".Flipped", true, "a piece that may be flipped")
		}
		if !piece.mayTurn(q.Turn) {
			return c.refuse(field+".Turn", fmt.Sprintf("%.6g°", q.Turn.Degrees()), "a direction of the grain that the piece may have")
		}
		for _, at := range []struct {
			axis string
			by   units.Length
		}{{"X", q.At.X}, {"Y", q.At.Y}} {
			if v := float64(at.by); math.IsNaN(v) || math.IsInf(v, 0) {
				return c.refuse(field+".At."+at.axis, at.by, "finite")
			}
		}
		if len(q.Cut) != len(piece.Cut) {
			return c.refuse(field+".Cut", fmt.Sprintf("a line of %d points", len(q.Cut)), fmt.Sprintf("%d as drawn", len(piece.Cut)))
		}
		place := q.move(piece)
		line := make([]complex128, len(piece.Cut))
		for k, v := range piece.Cut {
			line[k] = place(v)
			if !(cmplx.Abs(line[k]-complex(nm(q.Cut[k].X), nm(q.Cut[k].Y))) <= checkSlack) {
				return c.refuse(fmt.Sprintf("%s.Cut[%d]", field, k), fmt.Sprint(q.Cut[k]), "the point drawn, turned and moved as stated")
			}
		}
		ring := newCheckRing(line)
		box := ring.bulged()
		low, high := nm(c.roll.Selvedge), nm(c.roll.Width-c.roll.Selvedge)
		if !(box.x0 >= -checkSlack && box.x1 <= nm(c.use.Used)+checkSlack && box.y0 >= low-checkSlack && box.y1 <= high+checkSlack) {
			return c.refuse(field, fmt.Sprintf("from %.6v, %.6v to %.6v, %.6v m", box.x0/1e9, box.y0/1e9, box.x1/1e9, box.y1/1e9), "a place on what is used of the roll, between the selvedges")
		}
		if ring.x0 < last-2e4 {
			return c.refuse(field, "before the one that is cut first", "pieces in the order in which they begin, to 0.02 mm")
		}
		last = ring.x0
		if m := piece.Match; m != nil {
			at := place(m.At)
			if !onRepeat(real(at)-nm(c.roll.Pattern.X), c.roll.Along, m.Along, m.Tolerance) || !onRepeat(imag(at)-nm(c.roll.Pattern.Y), c.roll.Across, m.Across, m.Tolerance) {
				return c.refuse(field, fmt.Sprintf("with its point of the pattern at %.6v, %.6v m", real(at)/1e9, imag(at)/1e9), "that point on the pattern")
			}
		}
		c.rings = append(c.rings, ring)
	}
	return nil
}

// move is the motion that takes the grain into the direction stated and X = 0,
// Y = 0 to its place, seen on the side of the cloth that is up.
func (q *Laid) move(piece *Cutting) func(Point) complex128 {
	at := complex(nm(q.At.X), nm(q.At.Y))
	over := q.Mirrored != q.Flipped
	turn := cmplx.Rect(1, float64(q.Turn-piece.Grain))
	if over {
		turn = cmplx.Rect(1, float64(q.Turn+piece.Grain))
	}
	return func(v Point) complex128 {
		z := complex(nm(v.X), nm(v.Y))
		if over {
			z = cmplx.Conj(z)
		}
		return at + z*turn
	}
}

// mayTurn reports whether the grain may lie in a direction.
func (p *Cutting) mayTurn(turn units.Angle) bool {
	same := func(t units.Angle) bool {
		return math.Abs(math.Remainder(float64(turn-t), 2*math.Pi)) <= 1e-12
	}
	switch p.Lie {
	case OneWay:
		return same(0)
	case Listed:
		for _, t := range p.Turns {
			if same(t) {
				return true
			}
		}
		return false
	case AnyWay:
		return finite(float64(turn))
	}
	return same(0) || same(math.Pi)
}

// onRepeat reports whether a coordinate leaves a remainder, within a tolerance or
// the half unit to which pieces are laid.
func onRepeat(at float64, repeat, rest, tolerance units.Length) bool {
	if repeat == 0 {
		return true
	}
	off := math.Abs(math.Remainder(at-nm(rest), nm(repeat)))
	return off <= math.Max(nm(tolerance), 5000)+checkSlack
}

// apart looks at all that lies side by side.
func (c *useCheck) apart() error {
	order := sortedByX(c.rings)
	for m, i := range order {
		for _, j := range order[m+1:] {
			if c.rings[j].x0-c.rings[i].x1 > c.gap+2*mostBulge {
				break
			}
			if !c.rings[i].clear(&c.rings[j], c.gap) {
				return c.refuse(fmt.Sprintf(".Laid[%d] (%s)", min(i, j), c.use.Laid[min(i, j)].Name),
					fmt.Sprintf("too near to Laid[%d] (%s)", max(i, j), c.use.Laid[max(i, j)].Name), fmt.Sprintf("%v between cut lines", c.lay.Gap))
			}
		}
	}
	for k, f := range c.roll.Flaws {
		flaw := flawRing(f)
		for i := range c.rings {
			if !c.rings[i].clear(&flaw, c.gap/2) {
				return c.refuse(fmt.Sprintf(".Laid[%d] (%s)", i, c.use.Laid[i].Name), fmt.Sprintf("too near to Flaws[%d] (%s)", k, f.Name), "half the gap between them")
			}
		}
	}
	return nil
}

func flawRing(f Flaw) checkRing {
	line := make([]complex128, len(f.Outline))
	for k, v := range f.Outline {
		line[k] = complex(nm(v.X), nm(v.Y))
	}
	r := newCheckRing(line)
	clear(r.bulge) // a flaw is what it is drawn as
	return r
}

// sums looks at lengths, money and the rest.
func (c *useCheck) sums() error {
	u, r := c.use, c.roll
	end, area, round := 0.0, 0.0, 0.0
	for i := range c.rings {
		round += c.rings[i].length()
		end = math.Max(end, c.rings[i].x1)
		area += c.rings[i].area()
	}
	if used := nm(u.Used); !(used >= end-checkSlack && used <= end+2e4) {
		return c.refuse(".Used", u.Used, fmt.Sprintf("the %.6v m that the pieces take, to 0.02 mm", end/1e9))
	}
	if r.Length > 0 && !(nm(u.Used) <= nm(r.Length)+checkSlack) {
		return c.refuse(".Used", u.Used, fmt.Sprintf("at most the %v that there are", r.Length))
	}
	// Whole increments, one less would not do; an offcut is taken whole.
	bought, used, step := nm(u.Bought), nm(u.Used), nm(r.Increment)
	switch whole := nm(r.Length); {
	case r.Length > 0 && (r.Price == 0 || bought == whole):
		if bought != whole || r.Price > 0 && !(used > whole-step-checkSlack) {
			return c.refuse(".Bought", u.Bought, "the offcut's length")
		}
	case step > 0:
		if !(math.Abs(math.Remainder(bought, step)) <= checkSlack && bought >= used-checkSlack && bought-step < used+checkSlack) {
			return c.refuse(".Bought", u.Bought, fmt.Sprintf("%v rounded up to a multiple of %v", u.Used, r.Increment))
		}
	default:
		if !(math.Abs(bought-used) <= checkSlack) {
			return c.refuse(".Bought", u.Bought, fmt.Sprint(u.Used))
		}
	}
	cost := float64(r.Value) + float64(r.Price)*float64(u.Bought)
	if !(math.Abs(cost-float64(u.Cost)) <= 1e-9*(1+cost)) {
		return c.refuse(".Cost", u.Cost, fmt.Sprint(cost))
	}
	// Points to the nearest nanometre: so much of an area is the length of its outline.
	if part := area / nm(r.Width) / nm(u.Used); !(math.Abs(part-u.Utilisation) <= 1e-9+round/nm(r.Width)/nm(u.Used)) {
		return c.refuse(".Utilisation", u.Utilisation, fmt.Sprint(part))
	}
	if !(u.Bound >= 0 && nm(u.Bound) <= nm(u.Used)+checkSlack) {
		return c.refuse(".Bound", u.Bound, fmt.Sprintf("at most the %v used", u.Used))
	}
	if !(math.Abs(float64(u.Used)-float64(u.Bound)*(1+u.Excess)) <= 1e-9*(1+float64(u.Used))) {
		return c.refuse(".Excess", u.Excess, fmt.Sprintf("by how much %v is above %v", u.Used, u.Bound))
	}
	return c.rest()
}

func (c *useCheck) rest() error {
	r := c.use.Rest
	if r == (Rest{}) {
		return nil
	}
	x0, y0 := nm(r.From.X), nm(r.From.Y)
	x1, y1 := x0+nm(r.Length), y0+nm(r.Width)
	if !(x0 >= -checkSlack && x1 > x0 && math.Abs(x1-nm(c.use.Bought)) <= checkSlack && y1 > y0 &&
		y0 >= nm(c.roll.Selvedge)-checkSlack && y1 <= nm(c.roll.Width-c.roll.Selvedge)+checkSlack) {
		return c.refuse(".Rest", fmt.Sprintf("%+v", r), "a rectangle at the end of what is bought, between the selvedges")
	}
	box := newCheckRing([]complex128{complex(x0, y0), complex(x1, y0), complex(x1, y1), complex(x0, y1)})
	for i := range c.rings {
		if !c.rings[i].clear(&box, 0) {
			return c.refuse(".Rest", fmt.Sprintf("%+v", r), fmt.Sprintf("a rectangle beside Laid[%d] (%s)", i, c.use.Laid[i].Name))
		}
	}
	for k, f := range c.roll.Flaws {
		flaw := flawRing(f)
		if !flaw.clear(&box, 0) {
			return c.refuse(".Rest", fmt.Sprintf("%+v", r), fmt.Sprintf("a rectangle beside Flaws[%d] (%s)", k, f.Name))
		}
	}
	return nil
}

// certified looks at whether what the certificate is about holds the pieces.
func (c *useCheck) certified(s *CertifiedSheet, unit float64) error {
	half := unit * math.Ceil(math.Round(c.gap)/2/unit-1e-6)
	field := fmt.Sprintf(" (%s) in the certificate", c.use.Name)
	width := nm(c.roll.Width-2*c.roll.Selvedge) + 2*half
	if s.Roll != c.use.Name || float64(s.Width)*unit > width+checkSlack ||
		len(s.Pieces) != len(c.rings) || c.roll.Length > 0 && (s.End == 0 || float64(s.End)*unit > nm(c.roll.Length)+2*half+checkSlack) {
		return c.refuse(field, fmt.Sprintf("%d pieces on %q, %d wide", len(s.Pieces), s.Roll, s.Width), "this roll")
	}
	for i := range c.rings {
		q := &s.Pieces[i]
		name := fmt.Sprintf("%s: Pieces[%d] (%s)", field, i, q.Name)
		if q.Name != c.use.Laid[i].Name || len(q.Outline) < 6 || len(q.Outline)%2 != 0 {
			return c.refuse(name, fmt.Sprintf("an outline of %d numbers", len(q.Outline)), "that of "+quoted(c.use.Laid[i].Name))
		}
		line := make([]complex128, len(q.Outline)/2)
		for k := range line {
			x, y := float64(q.Outline[2*k])+float64(q.X), float64(q.Outline[2*k+1])+float64(q.Y)
			line[k] = complex(x*unit-half, y*unit-half+nm(c.roll.Selvedge))
		}
		holder := newCheckRing(line)
		if !holder.holds(&c.rings[i], c.gap/2) {
			return c.refuse(name, "not round the piece", "an outline that holds the piece with half the gap all round")
		}
	}
	return nil
}
