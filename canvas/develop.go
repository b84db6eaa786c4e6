package canvas

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// ray is a generator of a cone laid flat: its length, and its angle from the
// first one.
type ray struct{ length, angle float64 }

// circle is a circle in a level plane.
type circle struct {
	centre [3]float64
	radius float64
}

// unroll lays flat the cone from an apex to part of a circle. Along the circle
// the angle at the apex grows by |p' x (p - apex)|/|p - apex|^2, which is
// integrated exactly (12-point Gauss rule on each of n steps).
func (k circle) unroll(apex [3]float64, from, to float64, n int) []ray {
	at := func(t float64) (p, slope [3]float64) {
		sin, cos := math.Sincos(t)
		return [3]float64{k.centre[0] + k.radius*cos, k.centre[1] + k.radius*sin, k.centre[2]},
			[3]float64{-k.radius * sin, k.radius * cos, 0}
	}
	rate := func(t float64) float64 {
		p, slope := at(t)
		g := sub(p, apex)
		return norm(cross(slope, g)) / dot(g, g)
	}
	out := make([]ray, n+1)
	angle := 0.0
	for i := range out {
		t := from + (to-from)*float64(i)/float64(n)
		if i > 0 {
			angle += math.Abs(quad.Fixed(rate, t-(to-from)/float64(n), t, 12, nil, 0))
		}
		p, _ := at(t)
		out[i] = ray{norm(sub(p, apex)), angle}
	}
	return out
}

// around is into how many steps a whole circle is divided.
func (k circle) around() int { return 4 * max(90, steps(math.Pi/2, k.radius)) }

func polar(length, angle float64) plane.Point {
	sin, cos := math.Sincos(angle)
	return plane.Point{X: length * cos, Y: length * sin}
}

// chain is an edge along a polyline.
func chain(name string, line []plane.Point, f Finish) Edge {
	return Edge{Name: name, From: wrap(line[0]), Course: points(line), Finish: f}
}

func check3(c *checker, x, y, z units.Length) {
	c.size("Height", z)
	between(c, "OffsetX", x, -largest, largest)
	between(c, "OffsetY", y, -largest, largest)
}
