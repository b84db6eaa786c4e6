package canvas

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/interp"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Curve is the kind of a course.
type Curve string

// The kinds of course.
const (
	Straight Curve = ""
	// Arc is part of a circle.
	Arc Curve = "arc"
	// Catenary is a hanging chain's curve, as a hollow it spreads the pull of an
	// edge cord where the cloth pulls along one direction.
	Catenary Curve = "catenary"
	// Batten is the smooth curve through offsets that a thin batten takes: a cubic
	// spline with free ends.
	Batten Curve = "batten"
	// Points goes straight from offset to offset.
	Points Curve = "points"
)

// Course is the way of an edge from its corner to the next. The zero Course is straight.
type Course struct {
	Curve Curve
	// Depth is how far the middle of an arc or a catenary lies outside the chord;
	// negative is a hollow.
	Depth units.Length
	// Offsets of a batten or of points, without the two corners; those of a batten
	// go forward along the chord.
	Offsets []Offset
}

// Offset is a point beside a baseline: how far along it and how far out from it,
// outside the panel.
type Offset struct{ Along, Out units.Length }

// tolerance is how far a polyline may be from the curve it stands for.
const tolerance = 4e-6 // m

func (w Course) check(c *checker, field string, chord float64) {
	between(c, field+".Depth", w.Depth, -largest, largest)
	c.count(field+".Offsets", len(w.Offsets), 0, 20000)
	last := 0.0
	for i, o := range w.Offsets {
		f := fmt.Sprintf("%s.Offsets[%d]", field, i)
		between(c, f+".Along", o.Along, -largest, largest)
		between(c, f+".Out", o.Out, -largest, largest)
		if c.err == nil && w.Curve == Batten && !(float64(o.Along) > last+tolerance && float64(o.Along) < chord-tolerance) {
			c.err = refuse(f+".Along", o.Along, fmt.Sprintf("between the one before and the next corner at %v", units.Length(chord)))
		}
		last = float64(o.Along)
	}
	if c.err != nil {
		return
	}
	ratio := math.Abs(float64(w.Depth)) / chord
	switch w.Curve {
	case Straight:
	case Arc:
		if !(ratio > 1e-9 && ratio <= 10) {
			c.err = refuse(field+".Depth", w.Depth, "a part of the chord, at most 10 chords")
		}
	case Catenary:
		if !(ratio > 1e-6 && ratio <= 1) {
			c.err = refuse(field+".Depth", w.Depth, "a part of the chord, at most the chord")
		}
	case Batten, Points:
		if len(w.Offsets) == 0 {
			c.err = refuse(field+".Offsets", "empty", "an offset or more")
		}
	default:
		c.err = refuseAs(ErrUnknown, field+".Curve", fmt.Sprintf("%q", w.Curve), "arc, catenary, batten, points or none")
	}
}

// local is the course from (0, 0) to (chord, 0), Y outside, as a polyline
// within tolerance, and its exact length.
func (w Course) local(chord float64) (line []plane.Point, length float64) {
	depth := float64(w.Depth)
	end := plane.Point{X: chord}
	line = append(line, plane.Point{})
	switch w.Curve {
	case Arc:
		// Angle of the arc from its depth: tan(angle/4) = 2 depth / chord.
		angle := 4 * math.Atan(2*math.Abs(depth)/chord)
		radius := (chord*chord/4 + depth*depth) / (2 * math.Abs(depth))
		length = radius * angle
		n := steps(angle, radius)
		for i := 1; i < n; i++ {
			a := angle * (float64(i)/float64(n) - 0.5)
			s, c := math.Sincos(a)
			y := radius*(c-1) + math.Abs(depth)
			line = append(line, plane.Point{X: chord/2 + radius*s, Y: math.Copysign(y, depth)})
		}
	case Catenary:
		a := catenary(chord, math.Abs(depth))
		length = 2 * a * math.Sinh(chord/(2*a))
		n := steps(length/a, a)
		for i := 1; i < n; i++ {
			x := chord * float64(i) / float64(n)
			y := math.Abs(depth) - a*(math.Cosh((x-chord/2)/a)-1)
			line = append(line, plane.Point{X: x, Y: math.Copysign(y, depth)})
		}
	case Batten:
		xs, ys := make([]float64, 0, len(w.Offsets)+2), make([]float64, 0, len(w.Offsets)+2)
		xs, ys = append(xs, 0), append(ys, 0)
		for _, o := range w.Offsets {
			xs, ys = append(xs, float64(o.Along)), append(ys, float64(o.Out))
		}
		xs, ys = append(xs, chord), append(ys, 0)
		var s interp.NaturalCubic
		if err := s.Fit(xs, ys); err != nil {
			return append(line, end), math.NaN()
		}
		for i := 1; i < len(xs); i++ {
			length += quad.Fixed(func(x float64) float64 { return math.Hypot(1, s.PredictDerivative(x)) }, xs[i-1], xs[i], 24, nil, 0)
			// The second derivative of a cubic is greatest at an end; a part of width w
			// leaves the curve by less than w^2/8 times that.
			w := xs[i] - xs[i-1]
			h := w / 1e4
			bend := math.Max(math.Abs(s.PredictDerivative(xs[i-1]+h)-s.PredictDerivative(xs[i-1])),
				math.Abs(s.PredictDerivative(xs[i])-s.PredictDerivative(xs[i]-h))) / h
			parts := max(8, min(2000, int(math.Ceil(w*math.Sqrt(bend/(8*tolerance))))))
			for k := 1; k <= parts; k++ {
				x := xs[i-1] + w*float64(k)/float64(parts)
				if i+1 < len(xs) || k < parts {
					line = append(line, plane.Point{X: x, Y: s.Predict(x)})
				}
			}
		}
	case Points:
		for _, o := range w.Offsets {
			line = append(line, plane.Point{X: float64(o.Along), Y: float64(o.Out)})
		}
		line = append(line, end)
		return line, plane.Length(line)
	default:
		length = chord
	}
	return append(line, end), length
}

// steps is into how many equal parts an arc is divided to stay within tolerance.
func steps(angle, radius float64) int {
	if radius <= tolerance {
		return 4
	}
	step := 2 * math.Acos(1-math.Min(1, tolerance/radius))
	return max(2, min(20000, int(math.Ceil(angle/step))))
}

// catenary is the parameter a of the chain that sags s over a span:
// s = a (cosh(span/2a) - 1), found as x = span/2a with (cosh x - 1)/x = 2 s/span.
func catenary(span, s float64) float64 {
	lo, hi := 0.0, 10.0
	for range 200 {
		x := (lo + hi) / 2
		// cosh x - 1 without loss of digits for a flat chain
		h := math.Sinh(x / 2)
		if 2*h*h/x < 2*s/span {
			lo = x
		} else {
			hi = x
		}
	}
	return span / (lo + hi)
}

// place turns a local line into the plane, from corner to corner.
func place(local []plane.Point, from, to plane.Point) []plane.Point {
	x := to.Sub(from).Unit()
	out := make([]plane.Point, len(local))
	for i, p := range local {
		out[i] = from.Add(x.Times(p.X)).Add(x.Right().Times(p.Y))
	}
	out[0], out[len(out)-1] = from, to
	return out
}
