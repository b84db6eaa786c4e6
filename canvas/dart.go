package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Dart takes in what an edge is too long: a fold that is sewn along two legs of
// equal length, from the edge to a point inside the panel. The sewn edge is shorter
// by Width, which its seam declares as fullness. Match marks divide what is left of the
// edge when it is sewn. Darts of one edge must not overlap. [Fullness.Dart] says how much
// there is to take in on a surface that was laid flat.
type Dart struct {
	Edge  string
	At    float64      // the middle of the dart, as a part of the edge's length
	Width units.Length // between the legs, along the edge
	Depth units.Length // from the edge to the point
}

// DartLine is a dart on the cloth. The legs go from Tip, where the stitches end, to Left
// and Right on the sew line; it is folded along the line from Tip to Fold.
type DartLine struct{ Tip, Left, Right, Fold Point }

// Fitting is what is set into or sewn onto a panel: an eyelet, a snap, a strap.
type Fitting struct {
	Name     string
	At       Point
	Diameter units.Length // of the hole to be made; 0 is none
	Strap    []Point      // the middle line of a strap, which may reach beyond the panel
}

// dart lays a dart on the cloth. The legs are made equal there, where they are sewn.
func (p *Panel) dart(i int, edges []laid, cut func(plane.Point) plane.Point) (DartLine, error) {
	d := &p.Darts[i]
	field := fmt.Sprintf("Darts[%d]", i)
	k := slices.IndexFunc(p.Edges, func(e Edge) bool { return e.Name == d.Edge })
	if k < 0 || d.Edge == "" {
		return DartLine{}, refuseAs(ErrUnknown, field+".Edge", fmt.Sprintf("%q", d.Edge), "an edge of the panel")
	}
	var c checker
	c.size(field+".Width", d.Width)
	c.size(field+".Depth", d.Depth)
	long := edges[k].length
	half := float64(d.Width) / 2 / long
	between(&c, field+".At", d.At, half, 1-half)
	if c.err == nil && d.Depth < d.Width {
		c.err = refuse(field+".Depth", d.Depth, fmt.Sprintf("the width of %v or more", d.Width))
	}
	if c.err != nil {
		return DartLine{}, c.err
	}
	left, _ := along(edges[k].line, d.At-half)
	right, _ := along(edges[k].line, d.At+half)
	middle, _ := along(edges[k].line, d.At)
	left, right, middle = cut(left), cut(right), cut(middle)
	base := left.Add(right).Times(0.5)
	for _, other := range p.Darts[:i] {
		if gap := math.Abs(other.At-d.At)*long - float64(other.Width+d.Width)/2; other.Edge == d.Edge && gap < -1e-9 {
			return DartLine{}, refuse(field+".At", d.At, "a dart beside the others of the edge")
		}
	}
	tip := base.Sub(right.Sub(left).Unit().Right().Times(float64(d.Depth)))
	ring := each(ringOf(edges), cut)
	for n := range 32 { // both legs, from the tip outwards
		t := float64(n) / 32
		if !plane.Contains(ring, tip.Add(left.Sub(tip).Times(t))) || !plane.Contains(ring, tip.Add(right.Sub(tip).Times(t))) {
			return DartLine{}, refuse(field+".Depth", d.Depth, "a dart that lies on the panel")
		}
	}
	return DartLine{wrap(tip), wrap(left), wrap(right), wrap(middle)}, nil
}

// check refuses what cannot be drawn.
func (f *Fitting) check(c *checker, field string) {
	c.point(field+".At", f.At)
	c.size0(field+".Diameter", f.Diameter)
	c.count(field+".Strap", len(f.Strap), 0, 1000)
	for i, q := range f.Strap {
		c.point(fmt.Sprintf("%s.Strap[%d]", field, i), q)
	}
}

// onCloth moves it to where it lies before the cloth has shrunk.
func (f Fitting) onCloth(cut func(plane.Point) plane.Point) Fitting {
	f.At = wrap(cut(f.At.bare()))
	if f.Strap != nil {
		f.Strap = wrapAll(each(bareAll(f.Strap), cut))
	}
	return f
}
