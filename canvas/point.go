package canvas

import (
	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Point is a place on the cloth or in the plane of a frame, X to the right and Y up.
type Point struct{ X, Y units.Length }

// Space is a place in space.
type Space struct{ X, Y, Z units.Length }

func (p Point) bare() plane.Point { return plane.Point{X: float64(p.X), Y: float64(p.Y)} }

func wrap(p plane.Point) Point { return Point{units.Length(p.X), units.Length(p.Y)} }

func wrapAll(line []plane.Point) []Point {
	out := make([]Point, len(line))
	for i, p := range line {
		out[i] = wrap(p)
	}
	return out
}
