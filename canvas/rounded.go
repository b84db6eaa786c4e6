package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/units"
)

// Base is how a cover ends at the bottom.
type Base string

// The bases.
const (
	OpenBase Base = ""          // hemmed
	DrawCord Base = "draw cord" // in the hem
	ZipBase  Base = "zip"       // a bottom panel, zipped on three sides and sewn along the back
)

// RoundedBox is a box or a can with upright sides and round corners in plan, as
// measured on the thing: a locker, a canister, a deck box.
type RoundedBox struct {
	Name                  string
	Length, Width, Height units.Length // over all
	Radius                units.Length // of the four upright corners
	// Ease is added to length and width, and half of it to the radius, before
	// anything is computed: room for the thing and for the cover's own seams.
	Ease  units.Length
	Base  Base
	Tuck  units.Length // how far a cover with a draw cord reaches under the thing
	Seam  units.Length // allowance of the seams
	Hem   units.Length // width of the hem at the bottom; the cord runs in it
	Gap   units.Length // width of a zip between the folded edges
	Top   []Hole       // in the top, from its middle: for a handle, a filler
	Sides []Hole       // in the wrap, from the lower left corner of the front's flat part, to the right and up
	// Imperial is that of the Cover.
	Imperial bool `json:",omitempty"`
}

// Cover makes a top and one wrap, closed by a seam at the middle of the back.
// The wrap is as long as the finished edge of the top,
//
//	2 (length - 2 radius) + 2 (width - 2 radius) + 2 pi radius
//
// with ease in all three. Both are flat cloth, bent one way only: they fit without stretching.
func (b RoundedBox) Cover() (Cover, error) {
	l, w, r := float64(b.Length+b.Ease), float64(b.Width+b.Ease), float64(b.Radius+b.Ease/2)
	if err := b.check(l, w, r); err != nil {
		return Cover{}, err
	}
	seam := Finish{Kind: PlainSeam, Width: b.Seam}
	half := (l - 2*r) / 2 // of the back's flat part
	round := 4*half + 2*(w-2*r) + 2*math.Pi*r
	h := float64(b.Height + b.Tuck)

	top := Panel{Name: "top", Holes: b.Top, Edges: roundedEdges(l, w, r, seam,
		"back left", "left", "front", "right", "back right")}
	wrap := Panel{Name: "wrap", Holes: slices.Clone(b.Sides)}
	for i := range wrap.Holes { // the wrap begins at the middle of the back
		wrap.Holes[i].At.X += units.Length(half + math.Pi*r + w - 2*r)
		wrap.Holes[i].At.Y += b.Tuck
	}
	v := Cover{Title: b.Name, Imperial: b.Imperial}
	if b.Base == ZipBase {
		zip := Finish{Kind: Zip, Width: b.Seam, Gap: b.Gap}
		// Its right side is seen from below, where left and right change places.
		base := Panel{Name: "base", Edges: roundedEdges(l, w, r, zip, "back right", "right", "front", "left", "back left")}
		n := len(base.Edges)
		base.Edges[0].Finish, base.Edges[n-1].Finish = seam, seam
		for i := range base.Edges {
			e := &base.Edges[i]
			e.Finish.Clipped = e.Finish.Kind == Zip && e.Course.Curve == Arc
		}
		wrap.Edges = []Edge{
			{Name: "back left", From: at(0, 0), Finish: seam},
			{Name: "bottom", From: at(half, 0), Finish: zip},
			{Name: "back right", From: at(round-half, 0), Finish: seam},
		}
		v.Panels = []Panel{top, wrap, base}
		join := func(name string, wrap string, base ...string) Seam {
			return Seam{Name: name, A: Side{Panel: "wrap", Edges: []string{wrap}}, B: Side{Panel: "base", Edges: base, Backward: true}}
		}
		v.Seams = []Seam{
			join("hinge left", "back left", "back left"),
			join("zip", "bottom", edgeNames(base.Edges[1:n-1])...),
			join("hinge right", "back right", "back right"),
		}
		v.Remarks = append(v.Remarks, "zip: "+written(units.Length(round-2*half), b.Imperial))
	} else {
		wrap.Edges = []Edge{{Name: "bottom", From: at(0, 0), Finish: Finish{Kind: DoubleHem, Width: b.Hem, Turn: b.Hem / 2}}}
		v.Panels = []Panel{top, wrap}
	}
	v.Panels[1].Edges = append(wrap.Edges,
		Edge{Name: "right end", From: at(round, 0), Finish: seam},
		Edge{Name: "top", From: at(round, h), Finish: seam},
		Edge{Name: "left end", From: at(0, h), Finish: seam})
	v.Seams = append(v.Seams,
		Seam{Name: "top", A: Side{Panel: "top", Edges: edgeNames(top.Edges)}, B: Side{Panel: "wrap", Edges: []string{"top"}, Backward: true}},
		Seam{Name: "back", A: Side{Panel: "wrap", Edges: []string{"right end"}}, B: Side{Panel: "wrap", Edges: []string{"left end"}, Backward: true}})
	if b.Base == DrawCord {
		v.Remarks = append(v.Remarks, fmt.Sprintf("cord: %s round, and what the knot needs; its ends come out through two eyelets in the hem, one on either side of the back seam", written(units.Length(round), b.Imperial)))
	}
	return v, v.Check()
}

// check takes the measures with ease besides.
func (b *RoundedBox) check(l, w, r float64) error {
	var c checker
	c.size("Length", b.Length)
	c.size("Width", b.Width)
	c.size("Height", b.Height)
	c.size("Radius", b.Radius)
	c.size0("Ease", b.Ease)
	c.size0("Tuck", b.Tuck)
	c.size("Seam", b.Seam)
	if b.Base != ZipBase {
		c.size("Hem", b.Hem)
	} else {
		c.size("Gap", b.Gap)
	}
	if c.err == nil && !slices.Contains([]Base{OpenBase, DrawCord, ZipBase}, b.Base) {
		c.err = refuseAs(ErrUnknown, "Base", fmt.Sprintf("%q", b.Base), "draw cord, zip or none")
	}
	if c.err == nil && b.Tuck > 0 && b.Base != DrawCord {
		c.err = refuse("Tuck", b.Tuck, "0 where there is no draw cord")
	}
	if c.err == nil && !(2*r < math.Min(l, w)-1e-3) {
		c.err = refuse("Radius", b.Radius, "less than half the width and half the length")
	}
	return c.err
}

func at(x, y float64) Point { return Point{units.Length(x), units.Length(y)} }

func edgeNames(edges []Edge) []string {
	out := make([]string, len(edges))
	for i, e := range edges {
		out[i] = e.Name
	}
	return out
}

// roundedEdges goes round a rectangle with round corners, its middle in the
// origin and the front below, from the middle of the back. The names are those
// of the first half of the back, the three sides, and the other half.
func roundedEdges(l, w, r float64, f Finish, names ...string) []Edge {
	x, y := l/2, w/2
	bulge := Course{Curve: Arc, Depth: units.Length(r * (1 - math.Sqrt2/2))}
	corner := func(a, b string) string { return "corner " + a + "/" + b }
	return []Edge{
		{Name: names[0], From: at(0, y), Finish: f},
		{Name: corner("back", names[1]), From: at(-x+r, y), Course: bulge, Finish: f},
		{Name: names[1], From: at(-x, y-r), Finish: f},
		{Name: corner(names[1], names[2]), From: at(-x, -y+r), Course: bulge, Finish: f},
		{Name: names[2], From: at(-x+r, -y), Finish: f},
		{Name: corner(names[2], names[3]), From: at(x-r, -y), Course: bulge, Finish: f},
		{Name: names[3], From: at(x, -y+r), Finish: f},
		{Name: corner(names[3], "back"), From: at(x, y-r), Course: bulge, Finish: f},
		{Name: names[4], From: at(x-r, y), Finish: f},
	}
}
