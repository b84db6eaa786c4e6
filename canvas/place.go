package canvas

import (
	"math"

	"example.com/forepeak/internal/plane"
)

// place finds where the corners roughly are: from the sketch, or by compasses
// from corner to corner.
func (n *network) place() error {
	flat := make([]plane.Point, len(n.points))
	if len(n.survey.Sketch) > 0 {
		for i, p := range n.survey.Sketch {
			flat[i] = p.bare()
		}
	} else if err := n.compasses(flat); err != nil {
		return err
	}
	// Into the frame of the survey.
	o, x := flat[0], flat[1].Sub(flat[0])
	if x.Norm() == 0 {
		return refuseAs(ErrMeasure, "Survey", "the two first corners in one place", "two places")
	}
	x = x.Unit()
	for i, p := range flat {
		d := p.Sub(o)
		n.points[i] = [3]float64{d.Dot(x), x.Cross(d), 0}
	}
	n.points[1][1] = 0 // it lies on the axis, whichever way products are rounded
	if n.spatial {
		n.lift()
	}
	return nil
}

// compasses places a corner at a time: from two placed ones it lies to the left
// or the right as the corners' order says, from three where it fits best.
func (n *network) compasses(flat []plane.Point) error {
	k := len(flat)
	d := make([][]float64, k)
	for i := range d {
		d[i] = make([]float64, k)
	}
	for _, o := range n.obs {
		if o.kind == 'd' {
			i, j := o.ends[0], o.ends[1]
			d[i][j], d[j][i] = o.value, o.value
		}
	}
	placed := make([]bool, k)
	// Begin with the longest distance of a corner that two others share.
	a, b, best := -1, -1, 0.0
	for i := range k {
		for j := i + 1; j < k; j++ {
			for l := range k {
				if d[i][j] > best && d[i][l] > 0 && d[j][l] > 0 {
					a, b, best = i, j, d[i][j]
				}
			}
		}
	}
	if a < 0 {
		return loose(false)
	}
	flat[b] = plane.Point{X: best}
	placed[a], placed[b] = true, true
	for range k - 2 {
		// The corner with the most distances to placed ones comes next.
		next, most := -1, 1
		for i := range k {
			count := 0
			for j := range k {
				if placed[j] && d[i][j] > 0 {
					count++
				}
			}
			if !placed[i] && count > most {
				next, most = i, count
			}
		}
		if next < 0 {
			return refuseAs(ErrMeasure, "Tapes", "a corner with fewer than two distances", "two or more to each corner, at a clear angle, or a Sketch")
		}
		flat[next] = compass(flat, placed, d[next], next, most)
		placed[next] = true
	}
	return nil
}

func compass(flat []plane.Point, placed []bool, d []float64, self, count int) plane.Point {
	var best plane.Point
	least := math.Inf(1)
	for i := range flat {
		for j := i + 1; j < len(flat); j++ {
			if !placed[i] || !placed[j] || d[i] == 0 || d[j] == 0 {
				continue
			}
			u := flat[j].Sub(flat[i])
			l := u.Norm()
			if l == 0 {
				continue
			}
			u = u.Times(1 / l)
			along := (d[i]*d[i] - d[j]*d[j] + l*l) / (2 * l)
			out := math.Sqrt(math.Max(0, d[i]*d[i]-along*along))
			// Anticlockwise, a corner between i and j lies to the right of the way there.
			side := 1.0
			if i < self && self < j {
				side = -1
			}
			for _, s := range []float64{side, -side} {
				p := flat[i].Add(u.Times(along)).Add(u.Right().Times(-s * out))
				miss := 0.0
				for m := range flat {
					if placed[m] && d[m] > 0 {
						e := p.Sub(flat[m]).Norm() - d[m]
						miss += e * e
					}
				}
				// The side by order counts where the distances do not tell.
				if s != side {
					miss += 1e-6 * l * l
					if count == 2 {
						continue
					}
				}
				if miss < least {
					best, least = p, miss
				}
			}
		}
	}
	return best
}

// lift gives the corners heights to begin with: those measured, and out of the
// plane what a gap says, since in the plane no distance tells up from down.
func (n *network) lift() {
	if len(n.survey.Heights) > 0 {
		for _, o := range n.obs {
			if o.kind == 'h' {
				n.points[o.ends[0]][2] = o.value
			}
		}
		return
	}
	for _, o := range n.obs {
		if o.kind != 'g' {
			continue
		}
		up := o.value
		if up == 0 {
			up = o.sigma
		}
		for m, i := range o.ends {
			if i < 3 {
				continue
			}
			if m < 2 {
				n.points[i][2] = -2 * up
			} else {
				n.points[i][2] = 2 * up
			}
		}
	}
	for i := 3; i < len(n.points); i++ {
		if n.points[i][2] == 0 { // leave the plane, or its gradient is zero
			n.points[i][2] = float64(n.survey.Sigma)
		}
	}
}
