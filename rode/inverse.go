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
// For one inextensible chain and angle 0 it is z sqrt(2 T/(w z) - 1), with T
// the tension at the bow (O. M. Faltinsen, Sea Loads on Ships and Offshore
// Structures, 1990, chapter 8).
//
// It returns an error that wraps ErrShort where the whole rode is not enough.
// Rodes with floats are refused: more length need not lower their angle.
func LengthFor(r Rode, s Site, pull units.Force, angle units.Angle) (units.Length, error) {
	var c checker
	positive(&c, "pull", pull)
	between(&c, "angle", angle, 0, units.Angle(math.Pi/2))
	if c.err != nil {
		return 0, c.err
	}
	whole, err := NewSolver(r, s)
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
		sv, err := NewSolver(v, s)
		if errors.Is(err, ErrBed) || errors.Is(err, ErrShort) {
			return 1, nil
		}
		if err != nil {
			return 0, err
		}
		return tooSteep(sv)
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
// The rode must not float. The error wraps ErrNoBalance where no pull lifts so
// steeply, or none within the rope's load-extension curve.
func PullFor(r Rode, s Site, angle units.Angle) (units.Force, error) {
	var c checker
	between(&c, "angle", angle, 0, units.Angle(math.Pi/2))
	if c.err != nil {
		return 0, c.err
	}
	sv, err := NewSolver(r, s)
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
	h, err := root.Find(f, math.Log(1e-6*w), math.Log(most), 1e-13)
	if errors.Is(err, root.ErrNoBracket) {
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
// depth by depth. The site's own depth is not used.
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
