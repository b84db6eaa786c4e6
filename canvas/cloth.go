package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Cloth is what the pieces are cut from.
type Cloth struct {
	Name      string
	Thickness units.Length
	// Warp and Weft are how much the cloth grows along each after cutting, by
	// washing, weather or load: -0.02 for a shrinkage of 2 %. Pieces are cut larger
	// or smaller so that the finished size is the one drawn.
	Warp, Weft float64
	// Fold is the greatest strain, of either sign, that a turned edge takes without
	// puckers or tearing; 0 is 0.05, common for woven acrylic and polyester.
	Fold float64
	// Lie is how pieces may lie on a roll of it: EitherWay; OneWay, for a nap or a print
	// with a top, with the grain of every panel pointing away from the free end; or
	// AnyWay, where Warp and Weft are alike.
	Lie Lie
	// Flip is cloth alike on both sides: pieces may be cut with either side up.
	Flip bool
}

func (t Cloth) check() error {
	var c checker
	between(&c, "Cloth.Thickness", t.Thickness, 0, 20*units.Millimetre)
	between(&c, "Cloth.Warp", t.Warp, -0.3, 0.3)
	between(&c, "Cloth.Weft", t.Weft, -0.3, 0.3)
	between(&c, "Cloth.Fold", t.Fold, 0, 0.5)
	if c.err != nil {
		return c.err
	}
	switch t.Lie {
	case EitherWay, OneWay:
		return nil
	case AnyWay:
		if t.Warp != t.Weft { // pieces are cut larger along the grain than across it, or smaller
			return refuse("Cloth.Lie", quoted(string(t.Lie)), "one way or none for cloth whose Warp and Weft differ")
		}
		return nil
	case Listed: // its angles are those of a piece
		return refuse("Cloth.Lie", quoted(string(t.Lie)), "one way, any way or none")
	}
	return refuseAs(ErrUnknown, "Cloth.Lie", quoted(string(t.Lie)), "one way, any way or none")
}

func (t Cloth) fold() float64 {
	if t.Fold == 0 {
		return 0.05
	}
	return t.Fold
}

// Cut returns where a point of the finished panel lies on the cloth before it
// shrinks or stretches: its coordinates along warp and weft are divided by
// 1 + Warp and 1 + Weft. The grain is the direction of the warp from X.
func (t Cloth) Cut(p Point, grain units.Angle) (Point, error) {
	if err := t.check(); err != nil {
		return Point{}, err
	}
	var c checker
	c.point("p", p)
	between(&c, "grain", grain, -10, 10)
	if c.err != nil {
		return Point{}, c.err
	}
	return wrap(t.cut(grain)(p.bare())), nil
}

func (t Cloth) cut(grain units.Angle) func(plane.Point) plane.Point {
	if t.Warp == 0 && t.Weft == 0 {
		return func(p plane.Point) plane.Point { return p }
	}
	sin, cos := math.Sincos(float64(grain))
	u := plane.Point{X: cos, Y: sin}
	v := plane.Point{X: -sin, Y: cos}
	return func(p plane.Point) plane.Point {
		return u.Times(p.Dot(u) / (1 + t.Warp)).Add(v.Times(p.Dot(v) / (1 + t.Weft)))
	}
}

// foldable refuses a turned edge whose curve is too sharp for the cloth.
func (t Cloth) foldable(p *Panel, edges []laid) error {
	for i, e := range edges {
		if err := t.folds(p.Edges[i].Finish, curvatures(p.Edges[i].Course, e.line), fmt.Sprintf("Edges[%d] (%s) of %q", i, p.Edges[i].Name, p.Name), "a faced edge (Strip), "); err != nil {
			return err
		}
	}
	for i := range p.Holes {
		h := &p.Holes[i]
		if err := t.folds(h.Finish, h.curvature(), fmt.Sprintf("Holes[%d] (%s) of %q", i, h.Name, p.Name), ""); err != nil {
			return err
		}
	}
	return nil
}

// folds refuses a turn on curves that are too sharp; or is what else can be done.
func (t Cloth) folds(f Finish, curves [2]float64, field, or string) error {
	depth := float64(f.depth(t.Thickness))
	if depth == 0 || f.Clipped {
		return nil
	}
	for _, k := range curves {
		if k == 0 {
			continue
		}
		strain := -2 * depth * k / (1 + depth*k) // k is 1/radius
		if 1+depth*k > 0 && math.Abs(strain) <= t.fold() {
			continue
		}
		least := depth * (2/t.fold() - 1)
		if k < 0 {
			least = depth * (2/t.fold() + 1)
		}
		clip := clipSpacing(1/math.Abs(k), clipError)
		others := fmt.Sprintf("%sbinding cut on the bias, or a single hem clipped every %.0f mm (Clipped)", or, 1000*clip)
		if !f.turned() {
			others = fmt.Sprintf("or one that is clipped every %.0f mm (Clipped)", 1000*clip)
		}
		return refuseAs(ErrFold, field,
			fmt.Sprintf("a turn of %.3v on a radius of %.3v, a strain of %+.0f %%", units.Length(depth), units.Length(1/math.Abs(k)), 100*strain),
			fmt.Sprintf("a radius of %.3v or more for %.0f %%, or a narrower turn, %s", units.Length(least), 100*t.fold(), others))
	}
	return nil
}

// curvatures are the greatest on either side: 1/radius, positive outwards.
func curvatures(w Course, line []plane.Point) [2]float64 {
	if w.Curve == Arc {
		chord := line[len(line)-1].Sub(line[0]).Norm()
		d := float64(w.Depth)
		k := 2 * d / (chord*chord/4 + d*d)
		return [2]float64{math.Max(0, k), math.Min(0, k)}
	}
	var out [2]float64
	for i := 1; i+1 < len(line); i++ {
		a, b, c := line[i-1], line[i], line[i+1]
		u, v, w := b.Sub(a), c.Sub(b), c.Sub(a)
		k := 2 * u.Cross(v) / (u.Norm() * v.Norm() * w.Norm())
		out[0], out[1] = math.Max(out[0], k), math.Min(out[1], k)
	}
	return out
}
