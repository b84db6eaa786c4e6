package rode

import (
	"errors"
	"math"

	"example.com/forepeak/units"
)

// Solver is a rode at a site, checked once and ready to be solved many times.
// It does not change, nor with the rode it was made of, so any number of goroutines
// may share it.
type Solver struct {
	line line
	rode Rode
	site Site
}

// NewSolver checks the rode and the site. Beside [ErrInput] the error wraps
// [ErrShort] for a rode no longer than the rise of the roller above the anchor,
// [ErrBed] for a bed that comes up to the roller's height within the rode's length, and
// [ErrSlope] for a rode of which a part floats over a bed that slopes.
func NewSolver(r Rode, s Site) (*Solver, error) {
	sv, err := newSolver(r, s)
	if err != nil {
		return nil, err
	}
	sv.rode = r.clone()
	return sv, nil
}

// newSolver is NewSolver of a rode that nobody changes while the solver lives.
func newSolver(r Rode, s Site) (*Solver, error) {
	var c checker
	r.check(&c)
	s.check(&c)
	if c.err != nil {
		return nil, c.err
	}
	sv := &Solver{rode: r, site: s}
	ln := &sv.line
	ln.roller = float64(s.Roller)
	ln.rise = float64(s.Rise())
	ln.friction = s.Friction
	ln.sin, ln.cos = math.Sincos(float64(s.Slope))
	ln.tan, ln.sec = ln.sin/ln.cos, 1/ln.cos
	water := s.water()
	// On a level bed above the water everything is: nothing floats.
	ashore := s.Depth <= 0 && s.Slope == 0
	for i, p := range r.Pieces {
		dry := float64(p.Mass.Weight())
		sp := span{
			l:   float64(p.Length),
			wet: dry * (1 - water.Per(p.Density)),
			dry: dry,
			law: p.Stretch.law(),
		}
		if ashore {
			sp.wet = sp.dry
		}
		ln.pieces = append(ln.pieces, sp)
		ln.length += sp.l
		ln.weight += sp.dry * sp.l
		ln.buoyant = ln.buoyant || sp.wet < 0
		if i < len(r.Pieces)-1 {
			q := joint(p.Top, water)
			if ashore {
				q.wet = q.dry
			}
			ln.points = append(ln.points, q)
			ln.buoyant = ln.buoyant || q.wet < 0
		}
	}
	switch {
	case ln.length <= ln.rise:
		return nil, refuseAs(ErrShort, "Length", r.Length(), "more than the rise of "+s.Rise().String())
	case ln.buoyant && s.Slope != 0:
		return nil, refuseAs(ErrSlope, "Slope", s.Slope, "0, or a rode without floats and floating rope")
	case ln.rise <= ln.length*ln.sin:
		return nil, refuseAs(ErrBed, "Slope", s.Slope, "a bed below the roller all along the rode")
	}
	return sv, nil
}

// joint is the sum of the fittings at one joint.
func joint(fs []Fitting, water units.Density) pointLoad {
	var q pointLoad
	var volume float64
	for _, f := range fs {
		q.wet += float64(f.Weight(water))
		q.dry += float64(f.Mass.Weight())
		volume += float64(f.Volume)
	}
	q.size = math.Cbrt(volume)
	return q
}

// Solve solves for a horizontal pull at the bow and puts the answer into st,
// whose slices it uses again: once they are long enough it allocates nothing.
// After an error st holds no answer: it is empty.
//
// The error wraps [ErrStretch] where a piece is loaded beyond its load-extension
// curve, [ErrBed] where the rode stretches to where the bed is higher than the
// roller, [ErrSurface] where a part of it comes up to the surface, and
// [ErrNoBalance] where no equilibrium is found.
func (sv *Solver) Solve(st *State, pull units.Force) error {
	return explain("pull", pull, sv.solve(st, givenPull, float64(pull)))
}

// SolveDistance solves for the horizontal distance from the anchor to the bow
// roller. Nearer than where the rode hangs straight down the pull is zero, and
// State.Slack says by how much. The errors are those of [Solver.Solve], and
// [ErrTaut] for a distance to which no pull stretches the rode.
func (sv *Solver) SolveDistance(st *State, distance units.Length) error {
	return explain("distance", distance, sv.solve(st, givenDistance, float64(distance)))
}

// SolveTension solves for the tension at the bow, which is at least the weight of
// the rode that hangs straight down. (Over a bed that falls away from the anchor
// toward the boat a small pull eases the tension a little: such a tension is
// refused too.) The errors are those of [Solver.Solve].
func (sv *Solver) SolveTension(st *State, tension units.Force) error {
	return explain("tension", tension, sv.solve(st, givenTension, float64(tension)))
}

// explain puts the field and its value to a bare sentinel.
func explain[Q quantity](field string, q Q, err error) error {
	if err == nil {
		return nil
	}
	want := ""
	switch err {
	default:
		return err
	case ErrInput:
		want = "0 or more, and finite"
	case errHangs:
		err, want = ErrInput, "at least the weight of the rode hanging straight down"
	case ErrTaut:
		want = "a distance within the rode's reach"
	case ErrSurface:
		want = "more pull, less buoyancy or a longer rode below it"
	case ErrBed:
		want = "less: there the rode reaches to where the bed rises above the roller"
	case ErrNoBalance:
	}
	return refuseAs(err, field, q, want)
}

var errHangs = errors.New("less than the weight of the hanging rode")

func (sv *Solver) solve(st *State, by given, want float64) error {
	if st == nil {
		return refuse("State", "nil", "a place for the result")
	}
	err := sv.find(st, by, want)
	if err != nil {
		*st = State{Pieces: st.Pieces[:0], Joints: st.Joints[:0], Parts: st.Parts[:0]}
	}
	return err
}

func (sv *Solver) find(st *State, by given, want float64) error {
	if !(want >= 0 && want <= maxPull) {
		return ErrInput
	}
	if want < leastPull {
		want = 0
	}
	var rec record
	rec.parts, rec.pieces = st.Parts[:0], sv.rode.Pieces
	if room := 20 * len(sv.rode.Pieces); sv.line.buoyant && cap(rec.parts) < room {
		rec.parts = make([]Part, 0, room) // for trial solutions too
	}
	var b balanced
	if err := sv.line.solve(by, want, &rec, &b); err != nil {
		return err
	}
	if by == givenTension && b.h == 0 && want < b.v*(1-1e-12) {
		return errHangs
	}
	rec.place(sv.line.sin, sv.line.cos)
	st.Parts = rec.parts
	sv.fill(st, &b)
	if !finite(float64(st.Distance)) || !finite(float64(st.Tension)) || !finite(float64(st.Friction)+float64(st.Stretch)) {
		return ErrNoBalance
	}
	if by == givenDistance && b.h == 0 {
		st.Slack = max(0, st.Distance-units.Length(want))
	}
	return sv.withinCurves(st)
}

// leastPull is zero for every purpose. Its fourth power is still a number.
const leastPull = 1e-70

// withinCurves refuses tensions beyond the measured load-extension curves.
func (sv *Solver) withinCurves(st *State) error {
	for i := range st.Pieces {
		s := &sv.rode.Pieces[i].Stretch
		if p := &st.Pieces[i]; s.Limit > 0 && p.MaxTension > s.Limit {
			return refuseAs(ErrStretch, "tension in "+sv.rode.Pieces[i].Name, p.MaxTension, "at most "+s.Limit.String())
		}
	}
	return nil
}

// Solve finds how a rode hangs under a horizontal pull at the bow, in still
// water: for one piece the elastic catenary, here of a length L that hangs down
// to a level bed, with w its weight a metre, EA its axial stiffness, H the pull and
// T the tension at the bow,
//
//	x = (H/w) asinh(w L/H) + H L/EA,  z = (T - H)/w + w L²/(2 EA),  T = sqrt(H² + (w L)²)
//
// and for several the same piece by piece, with one vertical force at the bow
// as the only unknown. What is above the water has its weight in air, and pieces
// may have curves that are not straight, see [Stretch].
//
// It computes static equilibrium. Snatch loads in waves and gusts are higher:
// never size gear on the static figure alone. The errors are those of [NewSolver] and
// [Solver.Solve].
func Solve(r Rode, s Site, pull units.Force) (State, error) {
	return once(r, s, func(sv *Solver, st *State) error { return sv.Solve(st, pull) })
}

// SolveDistance finds how a rode hangs when the bow roller is at a horizontal
// distance from the anchor. See [NewSolver] and [Solver.SolveDistance] for the errors.
func SolveDistance(r Rode, s Site, distance units.Length) (State, error) {
	return once(r, s, func(sv *Solver, st *State) error { return sv.SolveDistance(st, distance) })
}

// SolveTension finds how a rode hangs under a tension at the bow. See [NewSolver]
// and [Solver.SolveTension] for the errors.
func SolveTension(r Rode, s Site, tension units.Force) (State, error) {
	return once(r, s, func(sv *Solver, st *State) error { return sv.SolveTension(st, tension) })
}

func once(r Rode, s Site, f func(*Solver, *State) error) (State, error) {
	sv, err := newSolver(r, s)
	if err != nil {
		return State{}, err
	}
	var st State
	if err := f(sv, &st); err != nil {
		return State{}, err
	}
	return st, nil
}
