package rode_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// randomBuoyant draws a rode of 2 to 5 pieces with floats or floating rope, and
// weights, on a level bed.
func randomBuoyant(r *rand.Rand) sample {
	for {
		var s sample
		n := 2 + r.IntN(4)
		for range n {
			p := rode.Piece{
				Name:    "piece",
				Length:  units.Length(logUniform(r, 1, 50)),
				Mass:    units.LinearDensity(logUniform(r, 0.1, 3)),
				Density: []units.Density{7850, 7850, 1140, 910}[r.IntN(4)],
			}
			s.rode.Pieces = append(s.rode.Pieces, p)
		}
		for i := range n - 1 {
			switch r.IntN(3) {
			case 0:
				s.rode.Pieces[i].Top = []rode.Fitting{{
					Name: "float", Mass: 0.5, Volume: units.Volume(logUniform(r, 1e-3, 3e-2)),
				}}
			case 1:
				mass := logUniform(r, 0.5, 30)
				s.rode.Pieces[i].Top = []rode.Fitting{{Name: "kellet", Mass: units.Mass(mass), Volume: units.Volume(mass / 7850)}}
			}
		}
		s.site.Friction = []float64{0, r.Float64()}[r.IntN(2)]
		m := newModel(s.rode, s.site)
		rise := m.length * logUniform(r, 0.03, 0.9)
		roller := []float64{-rise / 2, -rise / 10, 0, rise / 20}[r.IntN(4)]
		s.site.Roller = units.Length(roller)
		s.site.Depth = units.Length(rise - roller)
		s.pull = units.Force(m.weight * logUniform(r, 1e-2, 1e2))
		most := s.pull.Newtons() + m.weight
		for i := range s.rode.Pieces {
			if r.IntN(2) == 0 {
				s.rode.Pieces[i].Stretch = rode.LinearStretch(units.Force(most * logUniform(r, 3, 3000)))
			}
		}
		if m = newModel(s.rode, s.site); m.buoyant() {
			return s
		}
	}
}

func (m *model) buoyant() bool {
	for _, p := range m.pieces {
		if p.wet < 0 {
			return true
		}
	}
	for _, j := range m.joints {
		if j.wet < 0 {
			return true
		}
	}
	return false
}

// Whatever hangs, and lies, as a State says is the equilibrium if every hanging
// part satisfies the differential equations, forces balance at every joint and
// between parts, nothing is below the bed, and the bed only pushes: energy is
// convex, so that there is one such shape.
func TestRandomBuoyantRodesBalance(t *testing.T) {
	rep := &report{worst: map[string]float64{}}
	kinds := map[string]int{}
	var st rode.State
	for i := range samples() / 5 {
		s := randomBuoyant(rand.New(rand.NewPCG(1, uint64(i))))
		m := newModel(s.rode, s.site)
		sv, err := rode.NewSolver(s.rode, s.site)
		if err != nil {
			t.Fatal(err)
		}
		err = sv.Solve(&st, s.pull)
		switch {
		case errors.Is(err, rode.ErrSurface):
			kinds["surfaces"]++
			if m.mu == 0 && !m.surfaces(s.pull.Newtons()) {
				rep.errorf("%v, but the least energy is with all of it below", err)
			}
		case err != nil:
			rep.errorf("%v", err)
		default:
			balances(rep, m, &st)
			if m.mu == 0 && i%10 == 0 {
				leastEnergy(rep, m, &st)
			}
			contacts := 0
			for j, p := range st.Parts {
				if p.OnBed && (j == 0 || !st.Parts[j-1].OnBed) {
					contacts++
				}
			}
			kinds[[]string{"no contact", "one contact", "two contacts", "three contacts or more"}[min(contacts, 3)]]++
		}
		rep.flush(t, i, s)
	}
	rep.log(t)
	for _, k := range []string{"surfaces", "no contact", "one contact", "two contacts", "three contacts or more"} {
		t.Logf("%-28s %d", k, kinds[k])
		if kinds[k] == 0 && samples() == 10000 {
			t.Errorf("none of the random rodes is of the kind %q", k)
		}
	}
}

// leastEnergy compares the shape with that of short straight elements.
func leastEnergy(rep *report, m *model, st *rode.State) {
	nodes, ok := m.rest(st.Pull.Newtons(), m.length/200)
	if !ok {
		rep.errorf("the energy of the elements has not come to rest")
		return
	}
	for q := range st.Points(st.Out / 50) {
		rep.check("height, of least energy", q.Z.Metres(), height(nodes, q.Arc.Metres()), 2e-3*m.length)
	}
}

// surfaces tells whether the shape of least energy has a float or floating rope
// at the surface.
func (m *model) surfaces(h float64) bool {
	nodes, _ := m.rest(h, m.length/200)
	for _, n := range nodes[:len(nodes)-1] {
		for _, r := range n.loads {
			if r.wet < 0 && n.z > r.low-1e-2*m.length {
				return true
			}
		}
	}
	return false
}

// balances checks all conditions of equilibrium, from the anchor up.
func balances(rep *report, m *model, st *rode.State) {
	length, force := 1e-9*m.length, 1e-9*m.weight
	var x, z, arc, lying float64
	var below *rode.Part // the part below the present one
	friction := 0.0
	// The buoyancy of a float that breaks the surface changes by many newtons a
	// millimetre, so depths are taken from the bow, where they are exact.
	top := st.Parts[len(st.Parts)-1].Upper.Z.Metres()
	for i := range st.Parts {
		p := &st.Parts[i]
		mp := &m.pieces[p.Piece]
		w := mp.wet
		if p.Dry {
			w = mp.dry
		}
		rep.check("part, across", p.Lower.X.Metres(), x, length)
		rep.check("part, up", p.Lower.Z.Metres(), z, length)
		joint := 0.0
		if below != nil && below.Piece != p.Piece {
			joint = m.joints[below.Piece].load(p.Lower.Z.Metres() - top + m.roller)
		}
		reaction := 0.0
		l := p.Length.Metres()
		if p.OnBed {
			lying += l
			if w < 0 {
				rep.errorf("floating rope lies on the bed")
			}
			rep.check("bed", z, 0, length)
			lost := math.Min(m.mu*w*l, p.TensionUpper.Newtons())
			friction += lost
			rep.check("tension along the bed", p.TensionUpper.Newtons()-p.TensionLower.Newtons(), lost, force)
			stretched := l
			if lost > 0 || p.TensionUpper > 0 {
				ramp := func(f float64) float64 {
					return 1 + mp.strain(p.TensionLower.Newtons()+f*lost)
				}
				stretched *= (ramp(0) + 4*ramp(0.5) + ramp(1)) / 6 // Simpson's rule is exact for a cubic
			}
			x += stretched
		} else {
			h := p.Horizontal.Newtons()
			q := m.follow(mp, h, p.VerticalUpper.Newtons(), w, l)
			rep.check("vertical force along a part", p.VerticalLower.Newtons(), q.v, force)
			rep.check("tension, above", p.TensionUpper.Newtons(), math.Hypot(h, p.VerticalUpper.Newtons()), force)
			rep.check("tension, below", p.TensionLower.Newtons(), math.Hypot(h, p.VerticalLower.Newtons()), force)
			x += q.x
			z += q.drop
			if deepest := z - q.lowest; deepest < -length {
				rep.errorf("part %d comes to %g below the bed", i, -deepest)
			}
			if highest := z - q.highest - m.depth; !p.Dry && highest > length {
				rep.errorf("wet part %d comes to %g above the surface", i, highest)
			}
			if deepest := z - q.lowest - m.depth; p.Dry && deepest < -length {
				rep.errorf("dry part %d comes to %g below the surface", i, -deepest)
			}
		}
		// Balance where this part meets the one below it.
		if below != nil {
			up, down := p.VerticalLower.Newtons(), below.VerticalUpper.Newtons() // 0 on the bed
			reaction = joint + down - up
			atBed := math.Abs(p.Lower.Z.Metres()) <= length
			switch {
			case !atBed:
				rep.check("balance, vertical", reaction, 0, force)
			case joint <= 0 || below.Piece == p.Piece:
				// The bed carries no part of what does not sink.
				rep.check("balance on the bed", reaction, 0, force)
			case reaction < -force:
				rep.errorf("the bed pulls at the joint below part %d with %g", i, -reaction)
			}
			above, under := p.Horizontal.Newtons(), below.Horizontal.Newtons()
			if p.OnBed {
				above = p.TensionLower.Newtons()
			}
			if below.OnBed {
				under = below.TensionUpper.Newtons()
			}
			if atBed && reaction > 0 {
				rub := math.Min(m.mu*reaction, above)
				friction += rub
				above -= rub
			}
			rep.check("balance, horizontal", above, under, force)
			if below.Piece != p.Piece {
				j := st.Joints[below.Piece]
				rep.check("reaction", j.Reaction.Newtons(), math.Max(0, reaction), force)
			}
		}
		arc += l
		below = p
	}
	rep.check("rise", st.Parts[len(st.Parts)-1].Upper.Z.Metres(), m.depth+m.roller, length)
	rep.check("rise, integrated", z, m.depth+m.roller, length)
	rep.check("distance", st.Distance.Metres(), x, length)
	rep.check("length", arc, m.length, length)
	rep.check("length on the bed", st.OnBed.Metres(), lying, length)
	rep.check("friction", st.Friction.Newtons(), friction, force)
	rep.check("bow, horizontal", st.Pull.Newtons(), below.Horizontal.Newtons(), force)
	rep.check("bow, vertical", st.Vertical.Newtons(), below.VerticalUpper.Newtons(), force)
	first := &st.Parts[0]
	if first.OnBed {
		rep.check("anchor", st.Anchor.Tension.Newtons(), first.TensionLower.Newtons(), force)
	} else {
		rep.check("anchor, vertical", st.Anchor.Vertical.Newtons(), first.VerticalLower.Newtons(), force)
		rep.check("anchor, horizontal", st.Anchor.Horizontal.Newtons(), first.Horizontal.Newtons(), force)
	}
}

// followed is where a hanging part leads, seen from its upper end.
type followed struct {
	x, drop, v      float64
	lowest, highest float64 // drops of its extremes
}

// follow integrates l metres of a part that weighs w per metre.
func (m *model) follow(p *modelPiece, h, v, w, l float64) followed {
	y := vec{0, 0, v, 0}
	q := followed{}
	left := l
	for left > 0 {
		gone, event := integrate(
			func(y *vec) vec {
				t := math.Hypot(h, y[2])
				if t == 0 {
					return vec{0, 0, -w, 0}
				}
				e := p.strain(t)
				return vec{(1 + e) * h / t, (1 + e) * y[2] / t, -w, e}
			},
			func(y *vec) float64 { return math.Hypot(h, y[2]) / (2 * math.Abs(w)) },
			&y, left, m.length,
			[]func(*vec) float64{func(y *vec) float64 { return y[2] * math.Copysign(1, w) }},
		)
		left -= gone
		if event < 0 {
			left = 0
		}
		q.lowest = math.Max(q.lowest, y[1])
		q.highest = math.Min(q.highest, y[1])
	}
	q.x, q.drop, q.v = y[0], y[1], y[2]
	return q
}
