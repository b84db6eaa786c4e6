package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Frustum is a round cone cut off level: a bucket, a lampshade, a mast coat.
type Frustum struct {
	Name                string
	Bottom, Top, Height units.Length // diameters; Top 0 is a whole cone
	Seam                units.Length // allowance of the upright seam
	BottomEdge, TopEdge Finish
}

// Sector is a sector of a ring: what a frustum is when it is laid flat.
type Sector struct {
	Slant        units.Length // of the cone: the width of the ring
	Inner, Outer units.Length // radii
	Angle        units.Angle
}

// Sector gives the size of the developed frustum, with r and R the smaller and larger
// radius:
//
//	slant = hypot(height, R - r), outer = slant R/(R - r), inner = outer - slant, angle = 2 pi (R - r)/slant
func (f Frustum) Sector() (Sector, error) {
	var c checker
	c.size("Bottom", f.Bottom)
	c.size0("Top", f.Top)
	c.size("Height", f.Height)
	if c.err == nil && !((f.Bottom - f.Top).Abs() > 20*units.Micrometre) {
		c.err = refuse("Top", f.Top, fmt.Sprintf("another diameter than the bottom's %v, or a Cylinder", f.Bottom))
	}
	if c.err != nil {
		return Sector{}, c.err
	}
	large := math.Max(float64(f.Bottom), float64(f.Top)) / 2
	small := math.Min(float64(f.Bottom), float64(f.Top)) / 2
	s := math.Hypot(float64(f.Height), large-small)
	return Sector{
		Slant: units.Length(s), Inner: units.Length(s * small / (large - small)), Outer: units.Length(s * large / (large - small)),
		Angle: units.Angle(2 * math.Pi * (large - small) / s),
	}, nil
}

// Cover makes one panel: a sector of a ring, exactly.
func (f Frustum) Cover() (Cover, error) {
	s, err := f.Sector()
	if err != nil {
		return Cover{}, err
	}
	var c checker
	c.size("Seam", f.Seam)
	if c.err != nil {
		return Cover{}, c.err
	}
	large, small := "bottom", "top"
	largeEdge, smallEdge := f.BottomEdge, f.TopEdge
	if f.Top > f.Bottom {
		large, small, largeEdge, smallEdge = small, large, smallEdge, largeEdge
	}
	// The apex is the origin, the sector hangs below it, or stands on it.
	seam := Finish{Kind: PlainSeam, Width: f.Seam}
	middle := -math.Pi / 2
	if large == "top" {
		middle = math.Pi / 2
	}
	r, q, half := float64(s.Inner), float64(s.Outer), float64(s.Angle)/2
	p := Panel{Name: "cone", Grain: 90 * units.Degree}
	arc := func(name string, radius, from, to float64, finish Finish) {
		depth := radius * (1 - math.Cos((to-from)/2))
		if to < from {
			depth = -depth
		}
		p.Edges = append(p.Edges, Edge{Name: name, From: wrap(polar(radius, from)), Course: Course{Curve: Arc, Depth: units.Length(depth)}, Finish: finish})
	}
	// In halves, as an arc of nearly a whole turn has no chord to speak of.
	for i, name := range []string{large + " left", large + " right"} {
		arc(name, q, middle-half+half*float64(i), middle+half*float64(i), largeEdge)
	}
	p.Edges = append(p.Edges, Edge{Name: "right end", From: wrap(polar(q, middle+half)), Finish: seam})
	if r > 0 {
		for i, name := range []string{small + " right", small + " left"} {
			arc(name, r, middle+half-half*float64(i), middle-half*float64(i), smallEdge)
		}
	}
	p.Edges = append(p.Edges, Edge{Name: "left end", From: wrap(polar(r, middle-half)), Finish: seam})
	v := Cover{Title: f.Name, Panels: []Panel{p}, Seams: []Seam{
		{Name: "upright", A: Side{Panel: "cone", Edges: []string{"right end"}}, B: Side{Panel: "cone", Edges: []string{"left end"}, Backward: true}},
	}}
	return v, v.Check()
}

// ObliqueCone joins two level circles that are not above one another.
type ObliqueCone struct {
	Name                string
	Bottom, Top, Height units.Length // diameters, Top less than Bottom; 0 is a whole cone
	OffsetX, OffsetY    units.Length // of the top's middle from the bottom's
	Seam                units.Length
	BottomEdge, TopEdge Finish
}

// Cover makes one panel. The generators of the cone run to one apex, and the
// angle between them is integrated along the circle, so that the lengths of both
// edges are those of the circles. The seam is on the shortest generator.
func (k ObliqueCone) Cover() (Cover, error) {
	var c checker
	c.size("Bottom", k.Bottom)
	c.size0("Top", k.Top)
	check3(&c, k.OffsetX, k.OffsetY, k.Height)
	c.size("Seam", k.Seam)
	if c.err == nil && !(k.Top < k.Bottom.Scale(0.999)) {
		c.err = refuse("Top", k.Top, fmt.Sprintf("less than the bottom's %v", k.Bottom))
	}
	if c.err != nil {
		return Cover{}, c.err
	}
	share := float64(k.Top) / float64(k.Bottom) // of a generator that is above the top
	apex := [3]float64{float64(k.OffsetX) / (1 - share), float64(k.OffsetY) / (1 - share), float64(k.Height) / (1 - share)}
	base := circle{radius: float64(k.Bottom) / 2}
	from := math.Atan2(apex[1], apex[0]) // the nearest point of the circle
	rays := base.unroll(apex, from, from+2*math.Pi, base.around())
	turn := rays[len(rays)-1].angle
	var bottom, top []plane.Point
	for _, r := range rays {
		a := -math.Pi/2 - turn/2 + r.angle
		bottom = append(bottom, polar(r.length, a))
		if share > 0 {
			top = append([]plane.Point{polar(r.length*share, a)}, top...)
		}
	}
	if share == 0 {
		top = []plane.Point{{}}
	}
	seam := Finish{Kind: PlainSeam, Width: k.Seam}
	half := len(bottom) / 2
	p := Panel{Name: "cone", Grain: 90 * units.Degree, Edges: []Edge{
		chain("bottom left", bottom[:half+1], k.BottomEdge),
		chain("bottom right", bottom[half:], k.BottomEdge),
		{Name: "right end", From: wrap(bottom[len(bottom)-1]), Finish: seam},
	}}
	if share > 0 {
		p.Edges = append(p.Edges, chain("top right", top[:half+1], k.TopEdge), chain("top left", top[half:], k.TopEdge))
	}
	p.Edges = append(p.Edges, Edge{Name: "left end", From: wrap(top[len(top)-1]), Finish: seam})
	v := Cover{Title: k.Name, Panels: []Panel{p}, Seams: []Seam{
		{Name: "upright", A: Side{Panel: "cone", Edges: []string{"right end"}}, B: Side{Panel: "cone", Edges: []string{"left end"}, Backward: true}},
	}}
	return v, v.Check()
}

// Transition joins a level rectangle below to a level circle above.
type Transition struct {
	Name             string
	Length, Width    units.Length // of the rectangle, its middle in the origin
	Diameter, Height units.Length // of the circle, and how high it is above the rectangle
	OffsetX, OffsetY units.Length // of the circle's middle
	Seam             units.Length
	BottomEdge       Finish
	TopEdge          Finish
}

// Cover makes one panel: four flat triangles on the sides of the rectangle, and
// between them four parts of oblique cones whose apexes are its corners. The
// seam is in the middle of the back. Nothing stretches, and the two kinds of surface
// pass smoothly into one another.
func (k Transition) Cover() (Cover, error) {
	var c checker
	c.size("Length", k.Length)
	c.size("Width", k.Width)
	c.size("Diameter", k.Diameter)
	check3(&c, k.OffsetX, k.OffsetY, k.Height)
	c.size("Seam", k.Seam)
	if c.err != nil {
		return Cover{}, c.err
	}
	x, y := float64(k.Length)/2, float64(k.Width)/2
	top := circle{[3]float64{float64(k.OffsetX), float64(k.OffsetY), float64(k.Height)}, float64(k.Diameter) / 2}
	corners := [][3]float64{{0, y}, {-x, y}, {-x, -y}, {x, -y}, {x, y}, {0, y}}
	names := []string{"back left", "left", "front", "right", "back right"}
	on := func(quarter int) [3]float64 { // of the circle, from the back round by the left
		sin, cos := math.Sincos(math.Pi/2 + float64(quarter)*math.Pi/2)
		return [3]float64{top.centre[0] + top.radius*cos, top.centre[1] + top.radius*sin, top.centre[2]}
	}
	// Corner and point of the circle as they lie on the cloth, seen from outside.
	low := plane.Point{}
	high := plane.Point{Y: norm(sub(on(0), corners[0]))}
	bottom := []plane.Point{low}
	rim := []plane.Point{high}
	n := top.around() / 4
	for i := range names {
		// A triangle to the right of the line from low to high.
		a, b, q := corners[i], corners[i+1], on(i)
		u := high.Sub(low)
		l := u.Norm()
		u = u.Times(1 / l)
		side, far := norm(sub(b, a)), norm(sub(q, b))
		along := (side*side - far*far + l*l) / (2 * l)
		low = low.Add(u.Times(along)).Add(u.Right().Times(math.Sqrt(math.Max(0, side*side-along*along))))
		bottom = append(bottom, low)
		if i+1 == len(names) {
			break
		}
		start := math.Pi/2 + float64(i)*math.Pi/2
		rays := top.unroll(b, start, start+math.Pi/2, n)
		first := high.Sub(low)
		angle := math.Atan2(first.Y, first.X)
		for _, r := range rays[1:] {
			rim = append(rim, low.Add(polar(r.length, angle-r.angle)))
		}
		high = rim[len(rim)-1]
	}
	seam := Finish{Kind: PlainSeam, Width: k.Seam}
	p := Panel{Name: "transition", Grain: 90 * units.Degree}
	for i, name := range names {
		p.Edges = append(p.Edges, Edge{Name: name, From: wrap(bottom[i]), Finish: k.BottomEdge})
	}
	p.Edges = append(p.Edges, Edge{Name: "right end", From: wrap(low), Finish: seam})
	for i := len(names) - 2; i >= 0; i-- {
		var line []plane.Point
		for m := (i + 1) * n; m >= i*n; m-- {
			line = append(line, rim[m])
		}
		p.Edges = append(p.Edges, chain(fmt.Sprintf("top %d", i+1), line, k.TopEdge))
	}
	p.Edges = append(p.Edges, Edge{Name: "left end", From: wrap(rim[0]), Finish: seam})
	v := Cover{Title: k.Name, Panels: []Panel{p}, Seams: []Seam{
		{Name: "upright", A: Side{Panel: "transition", Edges: []string{"right end"}}, B: Side{Panel: "transition", Edges: []string{"left end"}, Backward: true}},
	}}
	return v, v.Check()
}
