package anchor

import (
	"errors"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// lineTable is a rode's static force over the distance and the height of the
// roller, worked out once. At each of some heights it holds the distances at which the
// pull has certain values, so that steep and slack parts of the curve are told
// apart alike. Between heights distances are interpolated linearly, which keeps
// them in order, and between distances the pull by a cubic that the slopes at both
// ends keep monotone (F. N. Fritsch and R. E. Carlson, SIAM Journal on Numerical
// Analysis 17, 1980).
type lineTable struct {
	low, step float64 // heights of the roller above the anchor
	heights   int
	pulls     []float64 // the first is 0
	// The rest is height by height.
	distance, slope        []float64
	vertical               []float64 // at the bow
	anchorPull, anchorLift []float64 // tension and angle at the anchor
	worst                  float64   // relative error of the pull seen between the nodes
}

// lineState is what the table says of one place.
type lineState struct {
	pull, vertical, anchor, lift float64
}

// Pulls of the table: from a newton on by this ratio, until the rope's curve ends
// or chain of any size would have parted.
const (
	pullRatio = 1.06
	mostPull  = 3e6
)

// newLineTable makes a table for heights of the roller between two, in metres
// above the water. It puts more heights in until the pull is good to a part.
func newLineTable(r rode.Rode, s rode.Site, lowest, highest, good float64) (*lineTable, error) {
	lowest, highest = lowest-0.05, highest+0.05 // never a single height
	for n := 9; ; n = 2*n - 1 {
		t, err := tabulate(r, s, lowest, highest, n)
		if err != nil {
			return nil, err
		}
		if t.worst <= good {
			return t, nil
		}
		if n > 200 {
			return nil, refuse("Rode.Pieces", "hardly any stretch", "pieces with the stretch that they have: without it there is no limit to a snatch")
		}
	}
}

func tabulate(r rode.Rode, s rode.Site, lowest, highest float64, n int) (*lineTable, error) {
	t := &lineTable{low: lowest, step: (highest - lowest) / float64(n-1), heights: n}
	t.pulls = append(t.pulls, 0)
	for p := 1.0; p <= mostPull; p *= pullRatio {
		t.pulls = append(t.pulls, p)
	}
	for i := range n {
		s.Roller = units.Length(lowest + float64(i)*t.step)
		if err := t.addHeight(r, s); err != nil {
			return nil, err
		}
	}
	// Tell the error where it is greatest, halfway between the heights and the pulls.
	for i := 0; i < n-1; i += max(1, (n-1)/8) {
		h := lowest + (float64(i)+0.5)*t.step
		s.Roller = units.Length(h)
		sv, err := rode.NewSolver(r, s)
		if err != nil {
			return nil, err
		}
		var st rode.State
		for j := 1; j < len(t.pulls)-1; j += 3 {
			want := math.Sqrt(t.pulls[j] * t.pulls[j+1])
			if err := sv.Solve(&st, units.Force(want)); err != nil {
				return nil, err
			}
			var hint int
			got, ok := t.at(float64(st.Distance), h, &hint)
			if !ok {
				continue
			}
			// A pull of less than 20 N is judged as one of 20 N.
			t.worst = math.Max(t.worst, math.Abs(got.pull-want)/math.Max(want, 20))
		}
	}
	return t, nil
}

// addHeight solves one more height. The first sets how far the pulls go.
func (t *lineTable) addHeight(r rode.Rode, s rode.Site) error {
	sv, err := rode.NewSolver(r, s)
	if err != nil {
		return err
	}
	var st rode.State
	for j, p := range t.pulls {
		if err := sv.Solve(&st, units.Force(p)); err != nil {
			if !errors.Is(err, rode.ErrStretch) || j < 2 {
				return err
			}
			t.cut(j)
			break
		}
		t.distance = append(t.distance, float64(st.Distance))
		t.slope = append(t.slope, float64(st.Stiffness))
		t.vertical = append(t.vertical, float64(st.Vertical))
		t.anchorPull = append(t.anchorPull, float64(st.Anchor.Tension))
		t.anchorLift = append(t.anchorLift, float64(st.Anchor.FromBed))
	}
	return nil
}

// cut leaves the pulls from the j-th on out of all heights so far.
func (t *lineTable) cut(j int) {
	n := len(t.pulls)
	t.pulls = t.pulls[:j]
	for _, v := range []*[]float64{&t.distance, &t.slope, &t.vertical, &t.anchorPull, &t.anchorLift} {
		full := len(*v) / n // heights that are complete
		kept := (*v)[:0:0]
		for i := range full {
			kept = append(kept, (*v)[i*n:i*n+j]...)
		}
		*v = append(kept, (*v)[full*n:]...)
	}
}

// at looks a place up, in metres from the anchor and above the water. The hint is
// where the last place was found. It reports false beyond the table.
func (t *lineTable) at(distance, height float64, hint *int) (lineState, bool) {
	pull, ok := t.pullAt(distance, height, hint)
	if !ok {
		return lineState{}, false
	}
	i, y := t.between(height)
	n := len(t.pulls)
	a, b := i*n+*hint, (i+1)*n+*hint
	f := (pull - t.pulls[*hint]) / (t.pulls[*hint+1] - t.pulls[*hint])
	mix := func(v []float64) float64 {
		lo := v[a] + f*(v[a+1]-v[a])
		hi := v[b] + f*(v[b+1]-v[b])
		return lo + y*(hi-lo)
	}
	return lineState{pull, mix(t.vertical), mix(t.anchorPull), mix(t.anchorLift)}, true
}

// between is the height below and the part of the way to the next.
func (t *lineTable) between(height float64) (int, float64) {
	y := (height - t.low) / t.step
	i := int(y)
	return i, y - float64(i)
}

// pullAt is the horizontal pull alone.
func (t *lineTable) pullAt(distance, height float64, hint *int) (float64, bool) {
	if !(height >= t.low) {
		return 0, false
	}
	i, y := t.between(height)
	if i >= t.heights-1 {
		return 0, false
	}
	n := len(t.pulls)
	lower, upper := t.distance[i*n:(i+1)*n], t.distance[(i+1)*n:(i+2)*n]
	j := *hint
	for j > 0 && lower[j]+y*(upper[j]-lower[j]) > distance {
		j--
	}
	for j < n-2 && lower[j+1]+y*(upper[j+1]-lower[j+1]) <= distance {
		j++
	}
	*hint = j
	d0 := lower[j] + y*(upper[j]-lower[j])
	if distance < d0 { // slack
		return 0, true
	}
	l := lower[j+1] + y*(upper[j+1]-lower[j+1]) - d0
	x := (distance - d0) / l
	if !(x <= 1) {
		return 0, false
	}
	secant := t.pulls[j+1] - t.pulls[j]
	a, b := i*n+j, (i+1)*n+j
	m0 := math.Min(l*(t.slope[a]+y*(t.slope[b]-t.slope[a])), 3*secant)
	m1 := math.Min(l*(t.slope[a+1]+y*(t.slope[b+1]-t.slope[a+1])), 3*secant)
	return t.pulls[j] + x*(m0+x*(3*secant-2*m0-m1+x*(m0+m1-2*secant))), true
}
