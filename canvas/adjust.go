package canvas

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"example.com/forepeak/units"
)

// risk is how often a survey without a mistake is called unfit.
const risk = 0.001

// Adjust places the corners so that the sum of the squares of the residuals,
// each divided by its reading's Sigma, is least (Gauss-Newton iteration; each
// step by QR decomposition). The reference frame is that of [Survey].
//
// Whether the readings agree is tested by that sum against chi-square at a risk
// of 0.1 %. A misread tape is named by leaving out one reading after the other:
// when the rest then fits for one of them alone, that is the one. One reading
// more than needed (the six distances of a quadrilateral) shows that something is wrong
// and never what: the residuals of all readings then grow by the same number of their
// standard deviations. See Baarda, A testing procedure for use in geodetic networks, 1968.
//
// An error about readings that place no corner wraps [ErrMeasure].
func (s Survey) Adjust() (Adjustment, error) {
	index, err := s.check()
	if err != nil {
		return Adjustment{}, err
	}
	n := newNetwork(&s, index)
	if err := n.place(); err != nil {
		return Adjustment{}, err
	}
	f, err := n.solve(n.obs)
	if err != nil {
		return Adjustment{}, err
	}
	a := n.report(f)
	if !a.Fits {
		n.accuse(&a, f)
	}
	n.advise(&a, f)
	return a, nil
}

// network is a survey in plain numbers: metres.
type network struct {
	survey *Survey
	points [][3]float64 // the corners
	obs    []observation
	// column of each unknown coordinate in the equations, or -1 where it is held
	column   [][3]int
	unknowns int
	spatial  bool
}

type observation struct {
	name  string
	ends  [4]int // two for a distance, one for a height, four for a gap
	kind  byte   // d, h, g
	value float64
	sigma float64
}

func newNetwork(s *Survey, index map[string]int) *network {
	n := &network{survey: s, points: make([][3]float64, len(s.Corners)), spatial: len(s.Heights)+len(s.Gaps) > 0}
	sigma := func(own units.Length) float64 {
		if own == 0 {
			own = s.Sigma
		}
		return float64(own)
	}
	for _, t := range s.Tapes {
		n.obs = append(n.obs, observation{t.From + "-" + t.To, [4]int{index[t.From], index[t.To]}, 'd', float64(t.Distance), sigma(t.Sigma)})
	}
	for _, h := range s.Heights {
		n.obs = append(n.obs, observation{"height of " + h.Corner, [4]int{index[h.Corner]}, 'h', float64(h.Above), sigma(h.Sigma)})
	}
	for _, g := range s.Gaps {
		name := "gap " + g.First[0] + "-" + g.First[1] + "/" + g.Second[0] + "-" + g.Second[1]
		ends := [4]int{index[g.First[0]], index[g.First[1]], index[g.Second[0]], index[g.Second[1]]}
		n.obs = append(n.obs, observation{name, ends, 'g', float64(g.Above), sigma(g.Sigma)})
	}
	// The frame: the first corner is the origin, the second lies on the X axis;
	// without heights the third lies in the plane of X and Y.
	n.column = make([][3]int, len(n.points))
	for i := range n.column {
		for k := range 3 {
			held := k == 2 && !n.spatial || i == 0 && k < 2 || i == 1 && k == 1 ||
				k == 2 && i < 3 && len(s.Heights) == 0
			n.column[i][k] = -1
			if !held {
				n.column[i][k] = n.unknowns
				n.unknowns++
			}
		}
	}
	return n
}

// at is the value of an observation at the present corners, and its gradient.
func (n *network) at(o *observation) (float64, map[[2]int]float64) {
	g := map[[2]int]float64{}
	switch o.kind {
	case 'h':
		g[[2]int{o.ends[0], 2}] = 1
		return n.points[o.ends[0]][2], g
	case 'd':
		p, q := n.points[o.ends[0]], n.points[o.ends[1]]
		d := sub(q, p)
		l := norm(d)
		if l > 0 {
			for k := range 3 {
				g[[2]int{o.ends[0], k}] = -d[k] / l
				g[[2]int{o.ends[1], k}] = d[k] / l
			}
		}
		return l, g
	}
	// The distance of two lines with directions u and v is w . (u x v)/|u x v|,
	// where w goes from the first to the second. Moving an end moves the point of
	// the common normal on its line by its share of the way along.
	a, b, c, d := n.points[o.ends[0]], n.points[o.ends[1]], n.points[o.ends[2]], n.points[o.ends[3]]
	u, v, w := sub(b, a), sub(d, c), sub(c, a)
	m := cross(u, v)
	l := norm(m)
	if l == 0 {
		return 0, g
	}
	for k := range 3 {
		m[k] /= l
	}
	if m[2] < 0 { // always measured upwards
		for k := range 3 {
			m[k] = -m[k]
		}
	}
	// a + s u + gap m = c + t v
	x := cross(u, v)
	s := dot(cross(w, v), x) / (l * l)
	t := dot(cross(w, u), x) / (l * l)
	for k := range 3 {
		g[[2]int{o.ends[0], k}] = -(1 - s) * m[k]
		g[[2]int{o.ends[1], k}] = -s * m[k]
		g[[2]int{o.ends[2], k}] = (1 - t) * m[k]
		g[[2]int{o.ends[3], k}] = t * m[k]
	}
	return dot(w, m), g
}

func sub(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func dot(a, b [3]float64) float64    { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func norm(a [3]float64) float64      { return math.Sqrt(dot(a, a)) }
func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// fit is a solved network.
type fit struct {
	obs      []observation
	points   [][3]float64
	residual []float64  // adjusted less read, over sigma
	shown    []float64  // the part of each reading's own error that its residual shows
	cofactor *mat.Dense // covariance of the unknowns
	sum      float64
}

// equations are the readings' gradients and misclosures, each over its sigma.
func (n *network) equations(obs []observation) (*mat.Dense, *mat.VecDense, float64) {
	a := mat.NewDense(len(obs), n.unknowns, nil)
	b := mat.NewVecDense(len(obs), nil)
	sum := 0.0
	for i := range obs {
		o := &obs[i]
		value, gradient := n.at(o)
		for at, g := range gradient {
			if col := n.column[at[0]][at[1]]; col >= 0 {
				a.Set(i, col, a.At(i, col)+g/o.sigma)
			}
		}
		r := (o.value - value) / o.sigma
		b.SetVec(i, r)
		sum += r * r
	}
	return a, b, sum
}

// solve iterates from the present corners, which it leaves as they were.
func (n *network) solve(obs []observation) (*fit, error) {
	if len(obs) < n.unknowns {
		return nil, refuseAs(ErrMeasure, "Survey", fmt.Sprintf("%d readings", len(obs)), fmt.Sprintf("%d or more", n.unknowns))
	}
	start := clone(n.points)
	defer func() { n.points = start }()
	n.points = clone(start)
	a, b, sum := n.equations(obs)
	settled := false
	for range 100 {
		var qr mat.QR
		qr.Factorize(a)
		if c := qr.Cond(); !(c < 1e10) {
			return nil, loose(n.spatial)
		}
		var step mat.VecDense
		if err := qr.SolveVecTo(&step, false, b); err != nil {
			return nil, loose(n.spatial)
		}
		here := clone(n.points)
		share := 1.0
		for ; ; share /= 2 {
			n.points = clone(here)
			for i := range n.points {
				for k := range 3 {
					if col := n.column[i][k]; col >= 0 {
						n.points[i][k] += share * step.AtVec(col)
					}
				}
			}
			a2, b2, sum2 := n.equations(obs)
			if sum2 <= sum*(1+1e-12)+1e-18 {
				a, b, sum = a2, b2, sum2
				break
			}
			if share < 1e-6 {
				n.points = here
				break
			}
		}
		if share*mat.Norm(&step, math.Inf(1)) < 1e-11 || share < 1e-6 {
			settled = true
			break
		}
	}
	if !settled || math.IsNaN(sum) {
		return nil, refuseAs(ErrMeasure, "Survey", "an adjustment that does not settle", "readings nearer to a figure that can be")
	}
	var qr mat.QR
	qr.Factorize(a)
	var q, r, inv mat.Dense
	qr.QTo(&q)
	qr.RTo(&r)
	if err := inv.Inverse(r.Slice(0, n.unknowns, 0, n.unknowns)); err != nil {
		return nil, loose(n.spatial)
	}
	f := &fit{obs: obs, points: clone(n.points), sum: sum, residual: make([]float64, len(obs)), shown: make([]float64, len(obs))}
	for i := range obs {
		f.residual[i] = -b.AtVec(i)
		// The hat matrix is Q Q', whose diagonal is that of orthonormal columns: it
		// stays within 0 and 1 where its square form loses all digits.
		leverage := 0.0
		for j := range n.unknowns {
			leverage += q.At(i, j) * q.At(i, j)
		}
		if f.shown[i] = 1 - leverage; f.shown[i] < 1e-9 {
			f.shown[i] = 0
		}
	}
	f.cofactor = new(mat.Dense)
	f.cofactor.Mul(&inv, inv.T())
	return f, nil
}

func loose(spatial bool) error {
	want := "more distances: each corner needs two that meet at a clear angle, and the whole must not be able to move"
	if spatial {
		want += "; out of the plane, heights of all corners or a third distance to each"
	}
	return refuseAs(ErrMeasure, "Survey", "a figure that can move", want)
}

func clone(p [][3]float64) [][3]float64 { return slices.Clone(p) }

// limit is what the sum of squares exceeds at the stated risk.
func limit(redundancy int) float64 {
	if redundancy <= 0 {
		return 1e-6 // there is nothing left to disagree but rounding
	}
	return distuv.ChiSquared{K: float64(redundancy)}.Quantile(1 - risk)
}

func (n *network) report(f *fit) Adjustment {
	a := Adjustment{Redundancy: len(f.obs) - n.unknowns, Weighted: f.sum}
	a.Limit = limit(a.Redundancy)
	a.Fits = f.sum <= a.Limit
	sigma := func(i, k int) units.Length {
		col := n.column[i][k]
		if col < 0 {
			return 0
		}
		return units.Length(math.Sqrt(f.cofactor.At(col, col)))
	}
	for i, p := range f.points {
		a.Corners = append(a.Corners, Corner{
			Name:  n.survey.Corners[i],
			At:    Space{units.Length(p[0]), units.Length(p[1]), units.Length(p[2])},
			Sigma: Space{sigma(i, 0), sigma(i, 1), sigma(i, 2)},
		})
	}
	shown := f.shown
	for i, o := range f.obs {
		v := f.residual[i] * o.sigma
		r := Reading{
			Name: o.name, Read: units.Length(o.value), Adjusted: units.Length(o.value + v),
			Residual: units.Length(v), Redundancy: shown[i],
		}
		if shown[i] > 0 {
			r.Standardised = f.residual[i] / math.Sqrt(shown[i])
		}
		a.Readings = append(a.Readings, r)
	}
	return a
}

// accuse looks for the reading without which the rest fits.
func (n *network) accuse(a *Adjustment, f *fit) {
	start := n.points
	defer func() { n.points = start }()
	n.points = clone(f.points)
	for i, o := range f.obs {
		if a.Readings[i].Redundancy == 0 {
			continue
		}
		rest := slices.Delete(slices.Clone(f.obs), i, i+1)
		g, err := n.solve(rest)
		if err != nil || g.sum > limit(a.Redundancy-1) {
			continue
		}
		a.Suspects = append(a.Suspects, o.name)
		n.points = clone(g.points)
		value, _ := n.at(&o)
		n.points = clone(f.points)
		a.Error = units.Length(o.value - value)
	}
	if len(a.Suspects) == 1 && a.Redundancy > 1 {
		a.Misread = a.Suspects[0]
		return
	}
	a.Error = 0
}

// advise finds the distance that would reduce the sum of the corners'
// variances most: with a reading of gradient g and variance s^2 it falls by
// |Q g|^2 / (s^2 + g Q g).
func (n *network) advise(a *Adjustment, f *fit) {
	n.points = f.points
	best := 0.0
	measured := map[[2]int]bool{}
	for _, o := range f.obs {
		if o.kind == 'd' {
			measured[[2]int{min(o.ends[0], o.ends[1]), max(o.ends[0], o.ends[1])}] = true
		}
	}
	sigma := float64(n.survey.Sigma)
	for i := range f.points {
		for j := i + 1; j < len(f.points); j++ {
			if measured[[2]int{i, j}] {
				continue
			}
			o := observation{ends: [4]int{i, j}, kind: 'd'}
			_, gradient := n.at(&o)
			g := mat.NewVecDense(n.unknowns, nil)
			for at, x := range gradient {
				if col := n.column[at[0]][at[1]]; col >= 0 {
					g.SetVec(col, x)
				}
			}
			var qg mat.VecDense
			qg.MulVec(f.cofactor, g)
			gain := mat.Dot(&qg, &qg) / (sigma*sigma + mat.Dot(g, &qg))
			if gain > best*(1+1e-9) {
				best = gain
				a.Next = n.survey.Corners[i] + "-" + n.survey.Corners[j]
			}
		}
	}
	next := ""
	if a.Next != "" {
		next = fmt.Sprintf("; the distance %s would help most", a.Next)
	}
	switch {
	case a.Misread != "":
		a.Advice = fmt.Sprintf("read %s again: without it the rest agrees, and it seems %.0f mm too %s",
			a.Misread, a.Error.Abs().Millimetres(), map[bool]string{true: "long", false: "short"}[a.Error > 0])
	case !a.Fits && a.Redundancy == 0:
		a.Advice = "no figure has these measures: measure all again" + next
	case !a.Fits && !n.spatial:
		a.Advice = "the readings do not fit a flat figure: a tape is misread or the frame is warped, and these readings cannot tell which" + next +
			"; measure the gap between two strings crossed along the diagonals, or the corners' heights above a flat plane"
	case !a.Fits:
		a.Advice = "the readings contradict each other: measure again " + strings.Join(a.Suspects, ", ") + next
		if len(a.Suspects) == 0 {
			a.Advice = "the readings contradict each other in more than one place: measure all again" + next
		}
	case a.Redundancy == 0:
		a.Advice = "nothing checks these readings: one misread tape would go unseen" + next
	default:
		a.Advice = "the readings agree" + next
	}
}
