package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Finish is what is done to an edge, with its sizes. The zero Finish is an edge
// cut off at the finished line, as of coated cloth cut with a hot knife.
type Finish struct {
	Kind FinishKind
	// Width of the seam, of the hem when finished, of the overlap, or of the turn
	// under a zip or webbing.
	Width units.Length
	// Turn is the further turn that hides the raw edge, where there is one.
	Turn units.Length
	// Rope is the diameter of what a sleeve goes round.
	Rope units.Length
	// Gap is the width of a zip between the two folded edges.
	Gap units.Length
	// Strip says that a turned edge is not turned but faced with a strip of
	// cloth of its own, cut along the same curve; the edge then gets Turn alone.
	Strip bool
	// Clipped says that the turn of a curved edge is clipped (where it is hollow) or
	// notched (where it bulges), as far apart as [ClipSpacing] says for 0.5 mm. The
	// clips are drawn; they end short of the fold by a fifth of the allowance.
	Clipped bool
}

// FinishKind is a way to finish an edge or to join two.
type FinishKind string

// The finishes, with the allowance that is added outside the finished line: the
// sew line of a seam, the fold of a hem, the middle of an overlap or a zip. These
// are custom of the trade.
const (
	Raw        FinishKind = ""            // 0
	PlainSeam  FinishKind = "seam"        // Width: two edges face to face
	SingleHem  FinishKind = "single hem"  // Width
	DoubleHem  FinishKind = "double hem"  // Width + Turn
	Bound      FinishKind = "binding"     // 0: the tape goes round the edge
	Sleeve     FinishKind = "sleeve"      // pi (Rope + t) + Width: beyond the stitches beside the rope, round it and under again
	FelledOver FinishKind = "felled over" // Width + Turn: the edge of a flat-felled seam that wraps the other and is turned in
	FelledIn   FinishKind = "felled in"   // Width: the edge that is wrapped
	Lapped     FinishKind = "lapped"      // Width/2 on both edges, + Turn where the raw edge is turned in
	French     FinishKind = "french"      // Width + Turn: Turn is the width of the first, inner seam, less than Width
	Zip        FinishKind = "zip"         // Width - Gap/2: the edge is folded Gap/2 short of the middle of the zip
	Webbing    FinishKind = "webbing"     // Width: turned under webbing that is sewn along the edge
)

// Allowance is the cloth outside the finished line, in cloth of a thickness.
// Negative means that the cloth ends short of the line.
func (f Finish) Allowance(thickness units.Length) (units.Length, error) {
	var c checker
	c.size0("thickness", thickness)
	f.check(&c, "Finish")
	if c.err != nil {
		return 0, c.err
	}
	return f.allowance(thickness), nil
}

func (f Finish) check(c *checker, field string) {
	c.size0(field+".Width", f.Width)
	c.size0(field+".Turn", f.Turn)
	c.size0(field+".Rope", f.Rope)
	c.size0(field+".Gap", f.Gap)
	switch f.Kind {
	case Raw, Bound, Webbing:
	case PlainSeam, SingleHem, FelledIn, Lapped:
		c.size(field+".Width", f.Width)
	case DoubleHem, FelledOver:
		c.size(field+".Width", f.Width)
		c.size(field+".Turn", f.Turn)
		if c.err == nil && f.Turn > f.Width {
			c.err = refuse(field+".Turn", f.Turn, fmt.Sprintf("at most the width of %v", f.Width))
		}
	case French:
		c.size(field+".Turn", f.Turn)
		if c.err == nil && f.Turn >= f.Width {
			c.err = refuse(field+".Turn", f.Turn, fmt.Sprintf("less than the width of %v, which hides it", f.Width))
		}
	case Sleeve:
		c.size(field+".Rope", f.Rope)
	case Zip:
		c.size(field+".Gap", f.Gap)
		if c.err == nil && f.Width < f.Gap/2 {
			c.err = refuse(field+".Width", f.Width, fmt.Sprintf("half the gap of %v or more", f.Gap))
		}
	default:
		if c.err == nil {
			c.err = refuseAs(ErrUnknown, field+".Kind", fmt.Sprintf("%q", f.Kind), "one of the finishes")
		}
	}
	if c.err == nil && f.Strip && !f.turned() {
		c.err = refuse(field+".Strip", true, "a hem or a sleeve")
	}
	if c.err == nil && f.Clipped && (f.Strip || f.Kind != SingleHem && f.Kind != Zip && f.Kind != Webbing) {
		c.err = refuse(field+".Clipped", true, "a single hem, a zip or webbing, without Strip")
	}
}

// turned says that the cloth outside the line is folded back on the inside.
func (f Finish) turned() bool {
	return f.Kind == SingleHem || f.Kind == DoubleHem || f.Kind == Sleeve
}

func (f Finish) allowance(thickness units.Length) units.Length {
	if f.Strip {
		return f.Turn
	}
	switch f.Kind {
	case PlainSeam, SingleHem, FelledIn, Webbing:
		return f.Width
	case DoubleHem, FelledOver, French:
		return f.Width + f.Turn
	case Sleeve:
		return (f.Rope + thickness).Scale(math.Pi) + f.Width
	case Lapped:
		return f.Width/2 + f.Turn
	case Zip:
		return f.Width - f.Gap/2
	}
	return 0
}

// depth is how far a turned edge reaches inside its fold.
func (f Finish) depth(thickness units.Length) units.Length {
	switch {
	case f.Strip:
		return 0
	case f.Kind == DoubleHem:
		return f.Width
	case f.Kind == Sleeve:
		return f.allowance(thickness) / 2
	case f.Kind == SingleHem, f.Kind == Webbing, f.Kind == Zip:
		return f.Width
	}
	return 0
}

// FoldStrain is how much the raw edge of a hem must stretch when it is turned by
// depth on a curve of a radius, positive where the edge bulges outwards and
// negative where it is hollow:
//
//	(radius - depth)/(radius + depth) - 1 = -2 depth/(radius + depth)
//
// Negative is fullness to be eased in, positive is stretch: the hem of a hollow
// edge must grow. For a large radius it is about -2 depth/radius.
func FoldStrain(depth, radius units.Length) (float64, error) {
	var c checker
	c.size("depth", depth)
	between(&c, "radius", radius, -1e6, 1e6)
	if c.err == nil && radius.Abs() <= depth {
		c.err = refuse("radius", radius, fmt.Sprintf("more than the depth of %v", depth))
	}
	if c.err != nil {
		return 0, c.err
	}
	return -2 * float64(depth) / float64(radius+depth), nil
}

// ClipSpacing is how far apart the turn of an edge of a radius is clipped
// (hollow) or notched (bulging) so that the straight folds between two clips
// leave the curve by no more than deviation: sqrt(8 radius deviation).
func ClipSpacing(radius, deviation units.Length) (units.Length, error) {
	var c checker
	c.size("radius", radius)
	c.size("deviation", deviation)
	if c.err == nil && deviation > radius {
		c.err = refuse("deviation", deviation, fmt.Sprintf("at most the radius of %v", radius))
	}
	if c.err != nil {
		return 0, c.err
	}
	return units.Length(clipSpacing(float64(radius), float64(deviation))), nil
}

// clipError is how far the straight folds between clips may leave the curve.
const clipError = 0.5e-3

func clipSpacing(radius, deviation float64) float64 { return math.Sqrt(8 * radius * deviation) }
