package rode

import (
	"errors"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Surge is what a rode has to stop: a boat that lies to a steady pull and then
// falls back, with a speed, in a gust, or both.
type Surge struct {
	// Mass of the loaded boat and of the water that moves with it, of which the
	// caller decides; a tenth of the boat is usual for moving end on.
	Mass units.Mass
	// Rest is the steady horizontal pull it lies to at first.
	Rest units.Force
	// Gust is the horizontal pull while it falls back; 0 counts as Rest.
	Gust units.Force
	// Speed at which it falls back through its place of rest.
	Speed units.Speed
}

// pull is the horizontal pull while the boat falls back.
func (g Surge) pull() units.Force {
	if g.Gust == 0 {
		return g.Rest
	}
	return g.Gust
}

// Kinetic is m v²/2.
func (g Surge) Kinetic() units.Energy {
	v := float64(g.Speed)
	return units.Energy(float64(g.Mass) * v * v / 2)
}

func (g Surge) check(c *checker) {
	positive(c, "Surge.Mass", g.Mass)
	notNegative(c, "Surge.Rest", g.Rest)
	notNegative(c, "Surge.Speed", g.Speed)
	if c.err == nil && g.Gust != 0 && !(g.Gust >= g.Rest && finite(float64(g.Gust))) {
		c.err = refuse("Surge.Gust", g.Gust, "0, or at least the pull at rest, "+g.Rest.String())
	}
}

// SurgePeak is how a rode stops a boat.
type SurgePeak struct {
	Rest, Peak State        // before, and where the boat comes to a stop
	Run        units.Length // that the boat falls back
	Kinetic    units.Energy // that the boat brought
	Work       units.Energy // of the gust over the run
	// Taken is what each piece took of the two, its weight lifted and its
	// stretch, and ByFittings what was lifted with joints.
	Taken      []PieceEnergy
	ByFittings units.Energy
}

// Share is the part of the energy that a piece took; 0 for one that is not there,
// and where there was no energy to take.
func (p *SurgePeak) Share(piece int) float64 {
	brought := p.Kinetic + p.Work
	if piece < 0 || piece >= len(p.Taken) || !(brought > 0) {
		return 0
	}
	return p.Taken[piece].Total().Per(brought)
}

// SolveSurge finds how far a boat falls back on its rode and the greatest pull,
// from the energy balance
//
//	m v²/2 + F (X1 - X0) = E(X1) - E(X0)
//
// with F the pull of the gust, X the distance from the anchor and E the energy
// of [Solver.Energy]. A gust that comes suddenly to a boat at rest on a linear
// spring gives twice its pull; a speed v gives v sqrt(m k) more.
//
// Ropes must have the curve of cycles of seconds here, [Rope.Cyclic], not the slow
// one that the catalogue gives: polyamide is up to three times stiffer in a surge, and
// peaks found with its slow curve are too low by a tenth or two, and a snubber sized by
// them too short by up to half. A Piece does not know its fibre, so nothing here can
// see to it for you. [SnubberLength] and
// [CompareSnubbers] do it for the snubber. The slow curve tells how far the boat runs
// back at the most.
//
// The rode is taken as without mass of its own and without the drag of water on
// it, and ropes as without internal friction. Drag and friction lower the peak;
// a chain that is jerked taut raises it. What friction on the bed takes is left
// out, which is on the safe side. Nobody knows the surge of the next wave:
// compare rodes with this, do not trust it to the last newton, and keep clear of
// the line of a loaded rope: it snaps back.
//
// The error wraps ErrStretch where a rope would be loaded beyond its curve and
// ErrNoBalance where the rode cannot take the energy at any pull, as one
// without stretch.
func SolveSurge(r Rode, s Site, g Surge) (SurgePeak, error) {
	sv, err := newSolver(r, s)
	if err != nil {
		return SurgePeak{}, err
	}
	p, err := sv.surge(g)
	if err != nil {
		return SurgePeak{}, err
	}
	for _, st := range []*State{&p.Rest, &p.Peak} {
		if err := sv.withinCurves(st); err != nil {
			return SurgePeak{}, err
		}
	}
	return p, nil
}

// surge is SolveSurge on the load-extension curves continued beyond their end.
func (sv *Solver) surge(g Surge) (SurgePeak, error) {
	var c checker
	g.check(&c)
	if c.err != nil {
		return SurgePeak{}, c.err
	}
	p := SurgePeak{Kinetic: g.Kinetic()}
	var rest, e Energy
	if err := sv.hold(&p.Rest, &rest, float64(g.Rest)); err != nil {
		return SurgePeak{}, err
	}
	f := float64(g.pull())
	left := func(h float64) (float64, error) {
		if err := sv.hold(&p.Peak, &e, h); err != nil {
			return 0, err
		}
		p.Run = p.Peak.Distance - p.Rest.Distance
		p.Work = units.Energy(f * float64(p.Run))
		return float64((e.Total - rest.Total) - p.Kinetic - p.Work), nil
	}
	h, err := sv.stop(left, math.Max(f, float64(g.Rest)))
	if err != nil {
		return SurgePeak{}, err
	}
	if _, err := left(h); err != nil {
		return SurgePeak{}, err
	}
	p.ByFittings = e.Fittings - rest.Fittings
	for i := range e.Pieces {
		p.Taken = append(p.Taken, PieceEnergy{
			Lifting:    e.Pieces[i].Lifting - rest.Pieces[i].Lifting,
			Stretching: e.Pieces[i].Stretching - rest.Pieces[i].Stretching,
		})
	}
	return p, nil
}

// stop is the pull, from h up, at which nothing of the boat's energy is left.
// There left grows steadily with the pull: d left = (h - f) dX.
func (sv *Solver) stop(left func(float64) (float64, error), h float64) (float64, error) {
	if h > 0 {
		if l, err := left(h); err != nil || l >= 0 {
			return h, err
		}
	}
	lo := h
	if h == 0 {
		for lo = 1e-9 * sv.line.heavy(); lo > leastPull; lo /= 16 {
			if l, err := left(lo); err != nil || l < 0 {
				break // what is wrong shows again below
			}
		}
	}
	hi := 2 * lo
	for ; ; hi *= 4 {
		l, err := left(hi)
		// A step can lead beyond the pull at which a rising bed is in the way.
		for errors.Is(err, ErrBed) && hi > lo*(1+1e-6) {
			hi = math.Sqrt(lo * hi)
			l, err = left(hi)
		}
		if err != nil {
			return 0, err
		}
		if l >= 0 {
			break
		}
		lo = hi
		if hi > 1e12*(sv.line.heavy()+h) {
			return 0, refuseAs(ErrNoBalance, "Surge", "more energy than the rode takes at any pull", "less, or a rode that stretches")
		}
	}
	x, err := root.Find(func(x float64) (float64, error) { return left(math.Exp(x)) }, math.Log(lo), math.Log(hi), 1e-15)
	if errors.Is(err, root.ErrNoBracket) {
		return lo, nil // no speed, no gust and no pull: it stays where it is
	}
	return math.Exp(x), err
}

// hold solves for a pull, without regard to the end of load-extension curves,
// and for the energy held.
func (sv *Solver) hold(st *State, e *Energy, h float64) error {
	if h < leastPull {
		h = 0
	}
	rec := record{st.Parts[:0], sv.rode.Pieces}
	var b balanced
	if err := sv.line.solve(givenPull, h, &rec, &b); err != nil {
		return explain("pull", units.Force(h), err)
	}
	rec.place(sv.line.sin, sv.line.cos)
	st.Parts = rec.parts
	sv.fill(st, &b)
	return sv.energy(e, st)
}
