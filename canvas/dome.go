package canvas

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Dome is half an ellipsoid, or a hemisphere, made of flat gores.
type Dome struct {
	Name           string
	Diameter, Rise units.Length // Rise of half the diameter is a hemisphere
	Gores          int
	Opening        units.Length // diameter of a round hole at the top; 0 is none
	Seam           units.Length
	BaseEdge       Finish
	OpeningEdge    Finish
}

// Deviation is how far the vault that flat gores make is from the round dome.
type Deviation struct {
	Flat  units.Length // the middles of the gores lie this much inside at the base
	Ridge units.Length // and the seams this much outside
	Rise  units.Length // the vault is this much higher
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

// meridian follows a quarter ellipse of half axes r and h from the base to the
// latitude end: parallels' radius and distance from the base along the curve.
func meridian(r, h, end float64) (radius, length []float64) {
	n := 90 + steps(end, math.Max(r*r/h, math.Max(h*h/r, math.Max(r, h))))
	sum := 0.0
	for i := range n + 1 {
		t := end * float64(i) / float64(n)
		if i > 0 {
			sum += quad.Fixed(func(t float64) float64 { return math.Hypot(r*math.Sin(t), h*math.Cos(t)) }, t-end/float64(n), t, 12, nil, 0)
		}
		radius, length = append(radius, r*math.Cos(t)), append(length, sum)
	}
	return radius, length
}

// end is the latitude, as the ellipse's parameter, at which the opening cuts the dome off.
func (d *Dome) end() float64 { return math.Acos(d.Opening.Per(d.Diameter)) }

// Cover makes gores all alike. A gore is as long as the meridian and at each
// distance from the base as wide as its share of the parallel,
//
//	half width = pi r/gores
//
// so that the base of all gores together is as long as the circle that they are
// sewn to, and their area is that of the dome. Sewn together, each gore bends one
// way only and the dome is a vault with as many sides as gores, see [Dome.Deviation].
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
	radius, length := meridian(float64(d.Diameter)/2, float64(d.Rise), d.end())
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
// 2 pi r/gores long, so its middle is pi r/(gores tan(pi/gores)) from the axis
// and its ends pi r/(gores sin(pi/gores)); the vault stands higher because its
// middle line is as long as the meridian and leans in less.
func (d Dome) Deviation() (Deviation, error) {
	var c checker
	d.check(&c)
	if c.err != nil {
		return Deviation{}, c.err
	}
	r, h, n := float64(d.Diameter)/2, float64(d.Rise), math.Pi/float64(d.Gores)
	k := n / math.Tan(n)
	end := d.end()
	rise := quad.Fixed(func(t float64) float64 {
		sin, cos := math.Sincos(t)
		return math.Sqrt(h*h*cos*cos+r*r*sin*sin*(1-k*k)) - h*cos
	}, 0, end, 200, nil, 0)
	return Deviation{units.Length(r * (1 - k)), units.Length(r * (n/math.Sin(n) - 1)), units.Length(rise)}, nil
}

// Sphere is a whole ball of flat gores, a buoy's cover say: each from pole to pole.
type Sphere struct {
	Name     string
	Diameter units.Length
	Gores    int
	Seam     units.Length
}

// Cover makes gores as [Dome.Cover] does.
func (s Sphere) Cover() (Cover, error) {
	d := Dome{Diameter: s.Diameter, Rise: s.Diameter / 2, Gores: s.Gores, Seam: s.Seam}
	var c checker
	d.check(&c)
	if c.err != nil {
		return Cover{}, c.err
	}
	radius, length := meridian(float64(s.Diameter)/2, float64(s.Diameter)/2, math.Pi/2)
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
