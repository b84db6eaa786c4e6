package rode

import (
	"errors"
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// LengthFor is the least length of rode to let out so that under a pull the
// rode leaves the anchor at no more than an angle above the bed. The rode is
// veered from the anchor up: its pieces come off the boat in their order.
//
// For one inextensible chain and angle 0 it is z sqrt(2 T/(w z) - 1), with z the
// rise, w the weight a metre in water and T the tension at the bow (O. M. Faltinsen,
// Sea Loads on Ships and Offshore Structures, 1990, chapter 8).
//
// The pull has to be more than 0, the angle from 0° to 90°. The error wraps
// [ErrShort] where the whole rode is not enough; the others are those of [Solve].
// Rodes with floats are refused: more length need not lower their angle. So is a
// rode that is longer as a whole than a rising bed allows ([ErrBed]).
//
// It is the length at rest under that pull. Gusts and waves bring more: take the pull
// of the worst of them.
func LengthFor(r Rode, s Site, pull units.Force, angle units.Angle) (units.Length, error) {
	var c checker
	positive(&c, "pull", pull)
	between(&c, "angle", angle, 0, units.Angle(math.Pi/2))
	if c.err != nil {
		return 0, c.err
	}
	whole, err := newSolver(r, s)
	if err != nil {
		return 0, err
	}
	if err := whole.noFloats(); err != nil {
		return 0, err
	}
	var st State
	tooSteep := func(sv *Solver) (float64, error) {
		if err := sv.Solve(&st, pull); err != nil {
			return 0, err
		}
		return st.steeper(angle), nil
	}
	f, err := tooSteep(whole)
	switch {
	case err != nil:
		return 0, err
	case f > 0:
		return 0, refuseAs(ErrShort, "Length", r.Length(), fmt.Sprintf("more rode for a pull of %.3v", pull))
	}
	// Just longer than the rise the rode is nearly upright: the other end of the bracket.
	upright := float64(s.Rise()) * (1 + 1e-9)
	at := func(l float64) (float64, error) {
		v, err := r.veer(units.Length(l))
		if err != nil {
			return 0, err
		}
		sv, err := newSolver(v, s)
		if err != nil {
			return 0, err
		}
		f, err := tooSteep(sv)
		if errors.Is(err, ErrStretch) {
			return math.Pi / 2, nil // the whole rode is not overloaded: it hangs too steeply
		}
		return f, err
	}
	l, err := root.Find(at, upright, float64(r.Length()), lengthStep)
	if errors.Is(err, root.ErrNoBracket) {
		return units.Length(upright), nil
	}
	if err != nil {
		return 0, err
	}
	// The root is on one side or the other of the angle: take the flat side.
	for step := 2 * lengthStep; l < float64(r.Length()); step *= 2 {
		f, err := at(l)
		if err != nil {
			return 0, err
		}
		if f <= 0 {
			break
		}
		l = min(l+step, float64(r.Length()))
	}
	return units.Length(l), nil
}

// lengthStep is how closely LengthFor finds a length, in metres: so closely that
// a step to the other side is rounding.
const lengthStep = 1e-14

// steeper is positive where the pull on the anchor is steeper than angle, and
// grows steadily with pull and falls with length through lift-off: on the bed
// it is minus the part of the rode that lies there.
func (st *State) steeper(angle units.Angle) float64 {
	if st.OnBed > 0 {
		return -float64(angle) - st.OnBed.Per(st.Out)
	}
	return float64(st.Anchor.FromBed - angle)
}

func (sv *Solver) noFloats() error {
	if sv.line.buoyant {
		return refuse("Pieces", "a rode with floats or floating rope", "a rode that sinks all along")
	}
	return nil
}

// PullFor is the greatest horizontal pull under which the rode leaves the
// anchor at no more than an angle above the bed. At angle 0 it is the pull at
// which the anchor begins to be lifted.
//
// The bed may rise to the boat, the angle is from 0° to 90°, and no part of the
// rode may float. The error wraps [ErrNoBalance] where no pull lifts so steeply, or
// none within the rope's load-extension curve.
func PullFor(r Rode, s Site, angle units.Angle) (units.Force, error) {
	var c checker
	between(&c, "angle", angle, 0, units.Angle(math.Pi/2))
	if c.err != nil {
		return 0, c.err
	}
	sv, err := newSolver(r, s)
	if err != nil {
		return 0, err
	}
	if err := sv.noFloats(); err != nil {
		return 0, err
	}
	// A rode under a pull of many times its weight is nearly straight: if that
	// line is not steep enough, no pull is. A rope's curve may end before.
	rec := record{pieces: sv.rode.Pieces}
	var st State
	f := func(logH float64) (float64, error) {
		rec.parts = st.Parts[:0]
		var b balanced
		if err := sv.line.solve(givenPull, math.Exp(logH), &rec, &b); err != nil {
			return 0, explain("pull", units.Force(math.Exp(logH)), err)
		}
		rec.place(sv.line.sin, sv.line.cos)
		st.Parts = rec.parts
		sv.fill(&st, &b)
		return st.steeper(angle), nil
	}
	w := sv.line.heavy()
	most := 1e7 * w
	for i := range r.Pieces {
		if l := float64(r.Pieces[i].Stretch.Limit); l > 0 {
			most = min(most, l)
		}
	}
	low, high, err := bracketSteep(f, math.Log(min(1e-6*w, most)), math.Log(min(w, most)), math.Log(most))
	if err == errNowhere {
		return 0, refuseAs(ErrNoBalance, "angle", angle, "an angle that some pull reaches")
	}
	if err != nil {
		return 0, err
	}
	h, err := root.Find(f, low, high, 1e-13)
	if errors.Is(err, root.ErrNoBracket) { // a rode of next to no weight is steeper whatever the pull
		return 0, refuseAs(ErrNoBalance, "angle", angle, "an angle that some pull reaches")
	}
	if err != nil {
		return 0, err
	}
	pull := units.Force(math.Exp(h))
	if err := sv.Solve(&st, pull); err != nil {
		return 0, err
	}
	return pull, nil
}

var errNowhere = errors.New("steep enough nowhere")

// bracketSteep finds two pulls, in logarithms, between which f grows through zero.
// From low, where it is less, it grows with the pull up to where the rode becomes
// straight, and falls again where stretch flattens it, until on a rising bed there
// is no equilibrium any more.
func bracketSteep(f func(logH float64) (float64, error), low, next, most float64) (from, to float64, err error) {
	falling := func(x float64) (float64, error) {
		y, err := f(x)
		if errors.Is(err, ErrBed) {
			return math.Inf(-1), nil
		}
		return y, err
	}
	from = low
	last := math.Inf(-1)
	for {
		y, err := falling(next)
		if err != nil || y >= 0 {
			return from, next, err
		}
		if y < last || math.IsInf(y, -1) || next == most {
			break
		}
		from, low, last = low, next, y
		next = min(next+math.Ln2, most)
	}
	// The greatest steepness lies between.
	const golden = 0.6180339887498949
	a, b := from, next
	for range 60 {
		x, z := b-golden*(b-a), a+golden*(b-a)
		left, err := falling(x)
		if err != nil || left >= 0 {
			return from, x, err
		}
		right, err := falling(z)
		if err != nil || right >= 0 {
			return from, z, err
		}
		if left < right {
			a = x
		} else {
			b = z
		}
	}
	return 0, 0, errNowhere
}

// heavy is the whole line's weight in water.
func (ln *line) heavy() float64 {
	w := 0.0
	for _, p := range ln.pieces {
		w += p.dry * p.l
	}
	for _, q := range ln.points {
		w += math.Abs(q.dry)
	}
	return w
}

// ScopeRow is one entry of a scope table.
type ScopeRow struct {
	Depth units.Length // of the water at the anchor
	Pull  units.Force
	// Out is the rode to let out, and Scope that over the height of the roller
	// above the anchor. Both are 0 where the whole rode is not enough.
	Out   units.Length
	Scope float64
	State State // with that much rode out; with the whole rode where it is not enough
}

// Enough is whether the rode is long enough for the angle asked.
func (r *ScopeRow) Enough() bool { return r.Out > 0 }

// ScopeTable works out for each depth and each pull how much rode to let out so
// that it leaves the anchor at no more than angle above the bed. Rows come
// depth by depth. The site's own depth is not used. The errors are those of
// [LengthFor], but that a rode too short for an angle makes a row without Out.
func ScopeTable(r Rode, s Site, depths []units.Length, pulls []units.Force, angle units.Angle) ([]ScopeRow, error) {
	rows := make([]ScopeRow, 0, len(depths)*len(pulls))
	for _, d := range depths {
		s.Depth = d
		for _, p := range pulls {
			row := ScopeRow{Depth: d, Pull: p}
			out := r
			l, err := LengthFor(r, s, p, angle)
			switch {
			case err == nil:
				row.Out, row.Scope = l, s.Scope(l)
				if out, err = r.Veer(l); err != nil {
					return nil, err
				}
			case !errors.Is(err, ErrShort) || r.Length() <= s.Rise():
				return nil, err
			}
			if row.State, err = Solve(out, s, p); err != nil {
				return nil, err
			}
			rows = append(rows, row)
		}
	}
	return rows, nil
}
