package rode

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/forepeak/internal/root"
)

// heap is a cone with its top over the middle of a box, cut off by the walls.
type heap struct {
	a, b float64 // half length and half width of the box
	tan  float64 // of the slope
}

// volume below the cone's surface when its top is at a height:
//
//	4 integral over a quarter of the floor of (height - r tan), where positive
//
// in polar coordinates, the integral along r done by hand. Its kinks, at the corner
// of the box and where the foot of the cone meets a wall, divide the range.
func (h heap) volume(height float64) float64 {
	if h.tan == 0 {
		return 4 * h.a * h.b * height
	}
	if height <= 0 {
		return 0
	}
	foot := height / h.tan
	kinks := []float64{0, math.Atan2(h.b, h.a), math.Pi / 2}
	if h.a < foot {
		kinks = append(kinks, math.Acos(h.a/foot))
	}
	if h.b < foot {
		kinks = append(kinks, math.Asin(h.b/foot))
	}
	slices.Sort(kinks)
	f := func(angle float64) float64 {
		sin, cos := math.Sincos(angle)
		r := math.Min(foot, math.Min(h.a/cos, h.b/sin))
		return r * r * (height/2 - r*h.tan/3)
	}
	var v float64
	for i := 1; i < len(kinks); i++ {
		if kinks[i] > kinks[i-1] {
			v += quad.Fixed(f, kinks[i-1], kinks[i], 24, nil, 0)
		}
	}
	return 4 * v
}

// height is the inverse of volume.
func (h heap) height(volume float64) (float64, error) {
	if volume == 0 {
		return 0, nil
	}
	// Level, it is the lowest; the cone reaches above that by no more than its
	// slope along half the diagonal.
	level := volume / (4 * h.a * h.b)
	if h.tan == 0 {
		return level, nil
	}
	most := level + h.tan*math.Hypot(h.a, h.b) // the integral may be short of it by some millionths
	return root.Find(func(x float64) (float64, error) { return h.volume(x)/volume - 1, nil }, 0, 1.01*most, 1e-12*most)
}
