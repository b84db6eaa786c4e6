package canvas

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Dome is half an ellipsoid, or a hemisphere, made of flat gores: a vault with as
// many sides as gores.
type Dome struct {
	Name           string
	Diameter, Rise units.Length // Rise of half the diameter is a hemisphere
	Gores          int
	Opening        units.Length // diameter of a round hole at the top; 0 is none
	Seam           units.Length
	BaseEdge       Finish
	OpeningEdge    Finish
}

// Deviation is how far the vault that flat gores make is from the round dome, at
// the base, where it is greatest. The top is as high as the dome's.
type Deviation struct {
	Flat  units.Length // the middles of the gores lie this much inside
	Ridge units.Length // the seams between them lie this much outside
}

func (d *Dome) check(c *checker) {
	c.size("Diameter", d.Diameter)
	c.size("Rise", d.Rise)
	c.count("Gores", d.Gores, 3, 200)
	c.size("Seam", d.Seam)
	c.size0("Opening", d.Opening)
	if c.err == nil && d.Opening >= d.Diameter.Scale(0.99) {
		c.err = refuse("Opening", d.Opening, fmt.Sprintf("less than the diameter of %v", d.Diameter))
	}
	if c.err == nil && !(d.Rise.Per(d.Diameter) > 0.01 && d.Rise.Per(d.Diameter) < 100) {
		c.err = refuse("Rise", d.Rise, fmt.Sprintf("from a hundredth to a hundred times the diameter of %v", d.Diameter))
	}
}

// profile follows a quarter ellipse of half axes r and h from the base to the
// parameter end: its radii, and the distance from the base along a curve that is
// narrower than the ellipse by a factor.
func profile(r, h, end, narrower float64) (radius, length []float64) {
	n := 90 + steps(end, math.Max(r*r/h, math.Max(h*h/r, math.Max(r, h))))
	sum := 0.0
	for i := range n + 1 {
		t := end * float64(i) / float64(n)
		if i > 0 {
			sum += quad.Fixed(func(t float64) float64 { return math.Hypot(narrower*r*math.Sin(t), h*math.Cos(t)) }, t-end/float64(n), t, 12, nil, 0)
		}
		radius, length = append(radius, r*math.Cos(t)), append(length, sum)
	}
	return radius, length
}

// apothem is how far the sides of a polygon of n sides are from its middle, as a
// part of the radius of the circle that is as long round: (pi/n)/tan(pi/n).
func apothem(n int) float64 {
	a := math.Pi / float64(n)
	return a / math.Tan(a)
}

// end is the latitude, as the ellipse's parameter, at which the opening cuts the dome off.
func (d *Dome) end() float64 { return math.Acos(d.Opening.Per(d.Diameter)) }

// Cover makes gores all alike. With a the apothem factor (pi/n)/tan(pi/n), the
// middle of a gore follows the ellipse of half axes a Diameter/2 and Rise, and at each point it is as wide
// as its share of the round dome's parallel:
//
//	half width = pi r/n
//
// So the bases of all gores together are as long as the circle that they are sewn
// to, each gore bends one way only, the seams close without stretching, and the
// vault is as high as the dome. See [Dome.Deviation] for what it is off by.
func (d Dome) Cover() (Cover, error) {
	var c checker
	d.check(&c)
	if c.err != nil {
		return Cover{}, c.err
	}
	v := Cover{Title: d.Name, Panels: []Panel{d.gore()}, Seams: []Seam{goreSeam()}}
	return v, v.Check()
}

func goreSeam() Seam {
	return Seam{Name: "gores", A: Side{Panel: "gore", Edges: []string{"right"}}, B: Side{Panel: "gore", Edges: []string{"left"}, Backward: true}}
}

func (d *Dome) gore() Panel {
	radius, length := profile(float64(d.Diameter)/2, float64(d.Rise), d.end(), apothem(d.Gores))
	var right, left []plane.Point
	for i := range radius {
		w := math.Pi * radius[i] / float64(d.Gores)
		if i+1 == len(radius) && d.Opening == 0 {
			w = 0
		}
		right = append(right, plane.Point{X: w, Y: length[i]})
	}
	for i := len(right) - 1; i >= 0; i-- {
		left = append(left, plane.Point{X: -right[i].X, Y: right[i].Y})
	}
	seam := Finish{Kind: PlainSeam, Width: d.Seam}
	p := Panel{Name: "gore", Quantity: d.Gores, Grain: 90 * units.Degree, Edges: []Edge{
		{Name: "base", From: wrap(left[len(left)-1]), Finish: d.BaseEdge},
		chain("right", right, seam),
	}}
	if d.Opening > 0 {
		p.Edges = append(p.Edges, Edge{Name: "opening", From: wrap(right[len(right)-1]), Finish: d.OpeningEdge})
	}
	p.Edges = append(p.Edges, chain("left", left, seam))
	return p
}

// Deviation compares the vault with the dome. At the base a side of the vault is
// pi Diameter/n long, so with r = Diameter/2 its middle is a r from the axis and its ends
// a r/cos(pi/n), which is pi r/(n sin(pi/n)).
func (d Dome) Deviation() (Deviation, error) {
	var c checker
	d.check(&c)
	if c.err != nil {
		return Deviation{}, c.err
	}
	r, a := float64(d.Diameter)/2, apothem(d.Gores)
	return Deviation{units.Length(r * (1 - a)), units.Length(r * (a/math.Cos(math.Pi/float64(d.Gores)) - 1))}, nil
}

// Sphere is a whole ball of flat gores, a buoy's cover say: each from pole to pole.
type Sphere struct {
	Name     string
	Diameter units.Length
	Gores    int
	Seam     units.Length
}

// Cover makes gores as long as the meridian and, at each distance along it, as
// wide as their share of the parallel: their area is that of the ball, and drawn tight
// over it they reach from pole to pole. Each seam is a little longer than the
// meridian, by 1.7 % at 12 gores and 3.8 % at 8, and is eased.
func (s Sphere) Cover() (Cover, error) {
	d := Dome{Diameter: s.Diameter, Rise: s.Diameter / 2, Gores: s.Gores, Seam: s.Seam}
	var c checker
	d.check(&c)
	if c.err != nil {
		return Cover{}, c.err
	}
	radius, length := profile(float64(s.Diameter)/2, float64(s.Diameter)/2, math.Pi/2, 1)
	n := len(radius) - 1
	var right, left []plane.Point
	for i := -n; i <= n; i++ {
		k := max(i, -i)
		w := math.Pi * radius[k] / float64(s.Gores)
		if k == n {
			w = 0
		}
		p := plane.Point{X: w, Y: math.Copysign(length[k], float64(i))}
		right = append(right, p)
		left = append([]plane.Point{{X: -p.X, Y: p.Y}}, left...)
	}
	seam := Finish{Kind: PlainSeam, Width: s.Seam}
	v := Cover{
		Title:  s.Name,
		Panels: []Panel{{Name: "gore", Quantity: s.Gores, Grain: 90 * units.Degree, Edges: []Edge{chain("right", right, seam), chain("left", left, seam)}}},
		Seams:  []Seam{goreSeam()},
	}
	return v, v.Check()
}
