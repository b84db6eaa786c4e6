package rode

import (
	"math"

	"example.com/forepeak/units"
)

// Energy is the energy a rode holds as it hangs: what it took to lift it off
// the bed and to stretch it. The rode unstretched at the level of the anchor
// holds none.
type Energy struct {
	Pieces   []PieceEnergy
	Fittings units.Energy // lifting what is at the joints
	Total    units.Energy
}

// PieceEnergy is what one piece holds.
type PieceEnergy struct {
	Lifting    units.Energy // its weight in water (above it, in air) times height
	Stretching units.Energy // the integral of tension over extension
}

// Total is lifting and stretching together.
func (e PieceEnergy) Total() units.Energy { return e.Lifting + e.Stretching }

// Energy works out the energy held by a rode in a state that this solver has
// found. For a hanging part of unstretched length L, weight w a metre and strain
// e(T), with heights z from the anchor,
//
//	lifting    = w integral of z ds = V2 z2 - V1 z1 - integral of V²/T (1+e) ds
//	stretching = integral of (c1 T²/2 + 2 c2 T³/3 + 3 c3 T⁴/4) ds
//
// both in closed form. Without friction on the bed the change from one state to
// another is the work of the pull over the distance between them, which is how
// a rode brings a boat to rest; with friction the work is greater by what
// sliding takes. On a bed that comes out of the water the balance does not
// close, since what lies on a bed has its weight in water everywhere. A state of
// another rode or site is refused with ErrInput, as far as it tells: by depth, height
// of the roller, lengths, curves and weights. So is one that a failed Solve left.
func (sv *Solver) Energy(st *State) (Energy, error) {
	if err := sv.owns(st); err != nil {
		return Energy{}, err
	}
	var e Energy
	if err := sv.energy(&e, st); err != nil {
		return Energy{}, err
	}
	return e, nil
}

// owns refuses a state that cannot be one of this solver's rode at its site.
func (sv *Solver) owns(st *State) error {
	const solved = "a state of this solver's rode"
	switch {
	case st == nil:
		return refuse("State", "nil", solved)
	case len(st.Pieces) != len(sv.rode.Pieces) || len(st.Joints) != len(sv.line.points):
		return refuse("State.Pieces", len(st.Pieces), solved)
	case len(st.Parts) == 0:
		return refuse("State.Parts", "empty", solved)
	}
	near := 1e-6 * sv.line.length
	if !(math.Abs(float64(st.Depth-sv.site.Depth)) <= near) {
		return refuse("State.Depth", st.Depth, "the depth of this solver's site, "+sv.site.Depth.String())
	}
	k, left := 0, sv.line.pieces[0].l // the piece, and what the parts have not covered of it
	for i := range st.Parts {
		p := &st.Parts[i]
		if p.Piece == k+1 && k+1 < len(sv.line.pieces) && math.Abs(left) <= near {
			k++
			left = sv.line.pieces[k].l
		}
		if p.Piece != k {
			return refuse("State.Parts", p.Piece, solved)
		}
		sp := &sv.line.pieces[k]
		if left -= float64(p.Length); !(left >= -near) {
			return refuse("State.Parts", p.Length, solved+", whose piece is "+units.Length(sp.l).String()+" long")
		}
		if p.Stretch != sv.rode.Pieces[k].Stretch {
			return refuse("State.Parts", p.Stretch.Reference, solved+", with its curves")
		}
		w := sp.wet
		if p.Dry {
			w = sp.dry
		}
		v1, v2 := float64(p.VerticalLower), float64(p.VerticalUpper)
		w *= float64(p.Length)
		if !p.OnBed && !(math.Abs(v2-v1-w) <= 1e-6*(math.Abs(v1)+math.Abs(v2)+math.Abs(w))+1e-9*sv.line.weight) {
			return refuse("State.Parts", units.Force(v2-v1), solved+", whose part weighs "+units.Force(w).String())
		}
	}
	if k+1 < len(sv.line.pieces) || !(left <= near) {
		return refuse("State.Parts", len(st.Parts), solved+", all of it")
	}
	if top := st.Parts[len(st.Parts)-1].Upper.Z; !(math.Abs(float64(top)-sv.line.rise) <= near) {
		return refuse("State.Parts", top, solved+", up to the roller's height of "+units.Length(sv.line.rise).String())
	}
	return nil
}

func (sv *Solver) energy(e *Energy, st *State) error {
	ln := &sv.line
	surface := ln.rise - ln.roller
	e.Pieces = append(e.Pieces[:0], make([]PieceEnergy, len(st.Pieces))...)
	for i := range st.Parts {
		p := &st.Parts[i]
		if r := float64(p.Stretch.Reference); !(r >= 0) || math.IsInf(r, 1) {
			return refuse("State.Parts", p.Stretch.Reference, "a state as it was solved")
		}
		sp := &ln.pieces[p.Piece]
		q := &e.Pieces[p.Piece]
		lift, stretch := p.lifting(sp.wet, sp.dry, surface), p.stretching()
		q.Lifting += units.Energy(lift)
		q.Stretching += units.Energy(stretch)
	}
	e.Fittings, e.Total = 0, 0
	for i := range st.Joints {
		if z := st.Joints[i].Z; !finite(float64(z)) {
			return refuse("State.Joints", z, "a state as it was solved")
		}
		e.Fittings += units.Energy(ln.points[i].lifting(float64(st.Joints[i].Z), surface))
	}
	for i := range e.Pieces {
		e.Total += e.Pieces[i].Total()
	}
	e.Total += e.Fittings
	if !finite(float64(e.Total)) {
		return refuse("State.Parts", "not finite", "a state as it was solved")
	}
	return nil
}

// lifting is what it took to bring the part up from the anchor's level: with
// its weight in water as far as the surface, with that in air above.
func (p *Part) lifting(wet, dry, surface float64) float64 {
	l := float64(p.Length)
	z1, z2 := float64(p.Lower.Z), float64(p.Upper.Z)
	if p.OnBed {
		return wet * l * (z1 + p.meanHeightOnBed())
	}
	v1, v2 := float64(p.VerticalLower), float64(p.VerticalUpper)
	// The part's own weight times height, by parts.
	own := v2*z2 - v1*z1 - l*p.Stretch.law().meanVRise(float64(p.Horizontal), v1, float64(p.TensionLower), v2, float64(p.TensionUpper))
	if p.Dry {
		own += (wet - dry) * surface * l
	}
	return own
}

// meanHeightOnBed is the mean height of a part on a sloping bed above its lower
// end. Stretch shifts the middle by less than its strain; the means of the
// tension's ramp give it exactly.
func (p *Part) meanHeightOnBed() float64 {
	rise := float64(p.Upper.Z - p.Lower.Z)
	if rise == 0 {
		return 0
	}
	// x(f) = L integral of (1 + e(T)) df, T from low to high: a polynomial of
	// degree four in f, whose mean three Gauss points give exactly.
	sum := 0.0
	for _, g := range [...]struct{ x, w float64 }{{0.5 - gauss3, 5.0 / 18}, {0.5, 8.0 / 18}, {0.5 + gauss3, 5.0 / 18}} {
		sum += g.w * float64(p.at(g.x).Z-p.Lower.Z)
	}
	return sum
}

// gauss3 is sqrt(15)/10: how far the outer of three Gauss points are from the middle.
var gauss3 = math.Sqrt(15) / 10

// stretching is the energy of extension.
func (p *Part) stretching() float64 {
	c := p.Stretch.law()
	if c == (law{}) {
		return 0
	}
	t1, t2 := float64(p.TensionLower), float64(p.TensionUpper)
	l := float64(p.Length)
	if p.OnBed {
		s := t1 + t2
		q := t1*t1 + t2*t2
		return l * (c.c1*(q+t1*t2)/6 + c.c2*s*q/6 + 3*c.c3*(q*q+t1*t2*q-t1*t1*t2*t2)/20)
	}
	h, v1, v2 := float64(p.Horizontal), float64(p.VerticalLower), float64(p.VerticalUpper)
	m2, m4 := meanSquares(v1, v2)
	t2nd := h*h + m2
	t4th := h*h*(h*h+2*m2) + m4
	t3rd := 0.0
	if c.c2 != 0 && t1+t2 > 0 {
		t3rd = (meanVT3(v1, t1, v2, t2) + 3*h*h*absMeanTension(h, v1, t1, v2, t2)) / 4
	}
	return l * (c.c1*t2nd/2 + 2*c.c2*t3rd/3 + 3*c.c3*t4th/4)
}

// meanSquares are the means of v² and v⁴ between two values.
func meanSquares(a, b float64) (m2, m4 float64) {
	q := a*a + b*b
	return (q + a*b) / 3, (q*q + a*b*q - a*a*b*b) / 5
}

// meanVRise is the mean of (1+e) v²/t: the vertical force times the rise it
// goes with, per unstretched length.
func (c law) meanVRise(h, v1, t1, v2, t2 float64) float64 {
	if t1+t2 == 0 {
		return 0
	}
	mt := absMeanTension(h, v1, t1, v2, t2)
	rigid := mt
	if h != 0 {
		rigid -= h * h * meanInverse(h, v1, t1, v2, t2)
	}
	m2, m4 := meanSquares(v1, v2)
	sum := rigid + c.c1*m2 + c.c3*(h*h*m2+m4)
	if c.c2 != 0 {
		t3rd := (meanVT3(v1, t1, v2, t2) + 3*h*h*mt) / 4
		sum += c.c2 * (t3rd - h*h*mt)
	}
	return sum
}

// lifting is what it took to bring the load up from the anchor's level to a height.
func (p pointLoad) lifting(z, surface float64) float64 {
	// In water, through the height over which its buoyancy goes, and in air.
	whole := math.Min(z, surface-p.size)
	e := p.wet * whole
	if z > whole {
		end := math.Min(z, surface)
		a, _ := p.at(surface - whole)
		b, _ := p.at(surface - end)
		e += (a + b) / 2 * (end - whole)
		e += p.dry * math.Max(0, z-surface)
	}
	return e
}
