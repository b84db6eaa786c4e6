package canvas

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// checkRing is an outline in whole nanometres, anticlockwise. Differences of its
// coordinates are exact in float64; a distance is good to 1e-3 nm on a piece of
// 100 m, of which Check allows 10 nm. On which side of a line a point lies is exact.
type checkRing struct {
	at             []checkPoint
	bulge          []float64 // of the curve beyond the edge from a point to the next
	x0, y0, x1, y1 float64
}

type checkPoint struct{ x, y float64 }

func (p checkPoint) sub(q checkPoint) checkPoint { return checkPoint{p.x - q.x, p.y - q.y} }
func (p checkPoint) norm() float64               { return math.Hypot(p.x, p.y) }

func newCheckRing(line []complex128) checkRing {
	r := checkRing{x0: math.Inf(1), y0: math.Inf(1), x1: math.Inf(-1), y1: math.Inf(-1)}
	for _, z := range line {
		v := checkPoint{math.Round(real(z)), math.Round(imag(z))}
		if n := len(r.at); n > 0 && r.at[n-1] == v {
			continue
		}
		r.at = append(r.at, v)
		r.x0, r.x1, r.y0, r.y1 = math.Min(r.x0, v.x), math.Max(r.x1, v.x), math.Min(r.y0, v.y), math.Max(r.y1, v.y)
	}
	for n := len(r.at); n > 1 && r.at[0] == r.at[n-1]; n = len(r.at) {
		r.at = r.at[:n-1]
	}
	if r.signedArea() < 0 {
		slices.Reverse(r.at)
	}
	n := len(r.at)
	r.bulge = make([]float64, n)
	for k := range n {
		a, b, c, d := r.at[(k+n-1)%n], r.at[k], r.at[(k+1)%n], r.at[(k+2)%n]
		// Beyond a chord of a circle to whose next one it turns by t lies chord/2 tan(t/4).
		// Points of curves are within 0.004 mm of them.
		turn := math.Max(bent(a, b, c), bent(b, c, d))
		r.bulge[k] = math.Min(c.sub(b).norm()/2*math.Tan(turn/4), mostBulge)
	}
	return r
}

// bent is the turn to the left at b, 0 if it is a corner.
func bent(a, b, c checkPoint) float64 {
	u, v := b.sub(a), c.sub(b)
	turn := math.Atan2(u.x*v.y-u.y*v.x, u.x*v.x+u.y*v.y)
	if turn < 1e-6 || turn > 0.5 {
		return 0
	}
	return turn
}

func (r *checkRing) signedArea() float64 {
	sum := 0.0
	for k := range r.at {
		a, b := r.at[k].sub(r.at[0]), r.at[(k+1)%len(r.at)].sub(r.at[0])
		sum += a.x*b.y - a.y*b.x
	}
	return sum / 2
}

func (r *checkRing) area() float64 { return math.Abs(r.signedArea()) }

func (r *checkRing) length() (sum float64) {
	for k := range r.at {
		sum += r.at[(k+1)%len(r.at)].sub(r.at[k]).norm()
	}
	return sum
}

// bulged is the rectangle round a ring with its curves.
func (r *checkRing) bulged() (box checkRing) {
	box = checkRing{x0: r.x0, x1: r.x1, y0: r.y0, y1: r.y1}
	for k, a := range r.at {
		b, out := r.at[(k+1)%len(r.at)], r.bulge[k]
		box.x0, box.x1 = math.Min(box.x0, math.Min(a.x, b.x)-out), math.Max(box.x1, math.Max(a.x, b.x)+out)
		box.y0, box.y1 = math.Min(box.y0, math.Min(a.y, b.y)-out), math.Max(box.y1, math.Max(a.y, b.y)+out)
	}
	return box
}

func sortedByX(rings []checkRing) []int {
	order := make([]int, len(rings))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch a, b := rings[i].x0, rings[j].x0; {
		case a < b:
			return -1
		case a > b:
			return 1
		}
		return 0
	})
	return order
}

// side tells where c lies of the way from a to b: 1 to the left, -1 to the right.
func side(a, b, c checkPoint) int {
	u, v := b.sub(a), c.sub(a)
	p, q := u.x*v.y, u.y*v.x
	switch d := p - q; {
	case d > 1e-15*(math.Abs(p)+math.Abs(q)):
		return 1
	case -d > 1e-15*(math.Abs(p)+math.Abs(q)):
		return -1
	}
	mul := func(x, y float64) *big.Int {
		return new(big.Int).Mul(big.NewInt(int64(x)), big.NewInt(int64(y)))
	}
	return mul(u.x, v.y).Cmp(mul(u.y, v.x))
}

// crosses reports whether two edges pass through one another.
func crosses(a, b, c, d checkPoint) bool {
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// off is the distance of v from the edge from a to b, at the part t of it.
func off(v, a, b checkPoint) (distance, t float64) {
	u, w := b.sub(a), v.sub(a)
	t = math.Max(0, math.Min(1, (u.x*w.x+u.y*w.y)/(u.x*u.x+u.y*u.y)))
	// Square to the edge the difference of products has more digits.
	if t > 0 && t < 1 {
		return math.Abs(u.x*w.y-u.y*w.x) / u.norm(), t
	}
	return w.sub(checkPoint{t * u.x, t * u.y}).norm(), t
}

// apartBy is the distance of two edges.
func apartBy(a, b, c, d checkPoint) float64 {
	if crosses(a, b, c, d) {
		return 0
	}
	least := math.Inf(1)
	for _, e := range [][3]checkPoint{{a, c, d}, {b, c, d}, {c, a, b}, {d, a, b}} {
		distance, _ := off(e[0], e[1], e[2])
		least = math.Min(least, distance)
	}
	return least
}

// inside reports whether v lies in a ring; on its outline it may say either.
func (r *checkRing) inside(v checkPoint) bool {
	in := false
	for k, a := range r.at {
		b := r.at[(k+1)%len(r.at)]
		if (a.y > v.y) != (b.y > v.y) && a.x+(b.x-a.x)*((v.y-a.y)/(b.y-a.y)) > v.x {
			in = !in
		}
	}
	return in
}

// mostBulge is the greatest bulge of a curve.
const mostBulge = tolerance * 1e9

// clear reports whether two outlines and their curves keep a distance, and
// neither lies in the other.
func (r *checkRing) clear(s *checkRing, gap float64) bool {
	if far := gap + 2*mostBulge; s.x0-r.x1 > far || r.x0-s.x1 > far || s.y0-r.y1 > far || r.y0-s.y1 > far {
		return true
	}
	if !r.keeps(s, gap, true) || !r.shallow(s, true) || !s.shallow(r, true) {
		return false
	}
	// No outline comes into the other by more than is allowed: so either the whole
	// of the other lies in it, or nothing.
	return !r.has(s) && !s.has(r)
}

// holds reports whether s and its curves lie in r, with a distance all round.
func (r *checkRing) holds(s *checkRing, gap float64) bool {
	return r.keeps(s, gap, false) && r.shallow(s, true) && s.shallow(r, false) && r.has(s)
}

// keeps reports whether no two edges are nearer to one another than a gap and the
// bulges of s, and those of r if it has any.
func (r *checkRing) keeps(s *checkRing, gap float64, both bool) bool {
	far := gap + 2*mostBulge
	var near []int
	for j, c := range s.at {
		if d := s.at[(j+1)%len(s.at)]; apartInBoxes(c, d, checkPoint{r.x0, r.y0}, checkPoint{r.x1, r.y1}) <= far {
			near = append(near, j)
		}
	}
	for i, a := range r.at {
		b := r.at[(i+1)%len(r.at)]
		if apartInBoxes(a, b, checkPoint{s.x0, s.y0}, checkPoint{s.x1, s.y1}) > far {
			continue
		}
		for _, j := range near {
			c, d := s.at[j], s.at[(j+1)%len(s.at)]
			want := gap + s.bulge[j] - checkSlack
			if both {
				want += r.bulge[i]
			}
			if want > 0 && apartInBoxes(a, b, c, d) < want && apartBy(a, b, c, d) < want {
				return false
			}
		}
	}
	return true
}

// apartInBoxes is how far the rectangles round two edges are apart in X or in Y.
func apartInBoxes(a, b, c, d checkPoint) float64 {
	return max(min(a.x, b.x)-max(c.x, d.x), min(c.x, d.x)-max(a.x, b.x), min(a.y, b.y)-max(c.y, d.y), min(c.y, d.y)-max(a.y, b.y))
}

// shallow reports whether no part of the outline of r runs in s, or outside it, by
// more than is allowed. Each edge is divided where it crosses an edge of s and
// where it passes a point of s; a part on the wrong side must begin and end beside
// the same edge of s.
func (r *checkRing) shallow(s *checkRing, in bool) bool {
	type stop struct {
		t float64
		v checkPoint
	}
	n := len(s.at)
	for i, a := range r.at {
		b := r.at[(i+1)%len(r.at)]
		if in && apartInBoxes(a, b, checkPoint{s.x0, s.y0}, checkPoint{s.x1, s.y1}) > checkSlack {
			continue
		}
		u := b.sub(a)
		on := func(t float64) stop { return stop{t, checkPoint{a.x + t*u.x, a.y + t*u.y}} }
		stops := []stop{{0, a}, {1, b}}
		var beside []int // edges of s
		for j, c := range s.at {
			d := s.at[(j+1)%n]
			if apartInBoxes(a, b, c, d) > checkSlack {
				continue
			}
			beside = append(beside, j)
			if crosses(a, b, c, d) {
				w, e := d.sub(c), c.sub(a)
				stops = append(stops, on(math.Max(0, math.Min(1, (e.x*w.y-e.y*w.x)/(u.x*w.y-u.y*w.x)))))
			}
			for _, v := range []checkPoint{c, d} {
				if distance, t := off(v, a, b); distance <= checkSlack {
					stops = append(stops, on(t))
				}
			}
		}
		slices.SortFunc(stops, func(p, q stop) int { return cmp.Compare(p.t, q.t) })
		for k := 1; k < len(stops); k++ {
			p, q := stops[k-1], stops[k]
			if p.t == q.t || s.inside(on((p.t+q.t)/2).v) != in {
				continue
			}
			if !slices.ContainsFunc(beside, func(j int) bool {
				d1, _ := off(p.v, s.at[j], s.at[(j+1)%n])
				d2, _ := off(q.v, s.at[j], s.at[(j+1)%n])
				return d1 <= checkSlack && d2 <= checkSlack
			}) {
				return false
			}
		}
	}
	return true
}

// has reports whether places well within s lie in r: beside the middles of its
// longest edges.
func (r *checkRing) has(s *checkRing) bool {
	n := len(s.at)
	long := make([]int, n)
	for k := range long {
		long[k] = k
	}
	length := func(k int) float64 { return s.at[(k+1)%n].sub(s.at[k]).norm() }
	slices.SortStableFunc(long, func(i, j int) int { return cmp.Compare(length(j), length(i)) })
	for _, k := range long[:min(n, 8)] {
		a, b := s.at[k], s.at[(k+1)%n]
		u := b.sub(a)
		deep := 3 * checkSlack / length(k)
		v := checkPoint{(a.x+b.x)/2 - deep*u.y, (a.y+b.y)/2 + deep*u.x}
		least := math.Inf(1)
		for m, c := range s.at {
			distance, _ := off(v, c, s.at[(m+1)%n])
			least = math.Min(least, distance)
		}
		if least > 2*checkSlack && s.inside(v) {
			return r.inside(v)
		}
	}
	return false
}
