package rode

import (
	"iter"
	"math"

	"example.com/forepeak/units"
)

// Position is a place in the vertical plane of the rode: X horizontally from
// the anchor toward the boat, Z upward from the anchor.
type Position struct{ X, Z units.Length }

// Part is a stretch of one piece that hangs in one medium or lies on the bed.
type Part struct {
	Piece        int          // index in Rode.Pieces
	Length       units.Length // unstretched
	OnBed        bool
	Dry          bool // above the water
	Lower, Upper Position
	// Horizontal is the force that is the same all along a hanging part; 0 on the bed.
	Horizontal units.Force
	// VerticalLower and VerticalUpper are the vertical forces at the ends of a
	// hanging part, positive where the line rises toward the boat.
	VerticalLower, VerticalUpper units.Force
	// TensionLower and TensionUpper are the tensions at the ends.
	TensionLower, TensionUpper units.Force
	Elongation                 units.Length
	Stretch                    Stretch
}

// CurvePoint is one point of the rode's curve.
type CurvePoint struct {
	Position
	Arc     units.Length // unstretched length from the anchor
	Tension units.Force
	Piece   int
	OnBed   bool
}

// Points yields the rode's curve from the anchor to the bow: the ends of every
// part, and between them points no farther apart along the unstretched line
// than spacing. A spacing that is not positive yields the ends alone.
func (st *State) Points(spacing units.Length) iter.Seq[CurvePoint] {
	return func(yield func(CurvePoint) bool) {
		var arc units.Length
		for i := range st.Parts {
			p := &st.Parts[i]
			n := 1
			if spacing > 0 && p.Length > spacing {
				n = int(min(math.Ceil(p.Length.Per(spacing)), maxPoints))
			}
			first := 1
			if i == 0 {
				first = 0
			}
			for j := first; j <= n; j++ {
				q := p.at(float64(j) / float64(n))
				q.Arc = arc + p.Length.Scale(float64(j)/float64(n))
				if !yield(q) {
					return
				}
			}
			arc += p.Length
		}
	}
}

// maxPoints bounds the points of one part, so that a mistyped spacing ends.
const maxPoints = 1e6

// at is the point at a fraction of the part's unstretched length from its
// lower end.
func (p *Part) at(f float64) CurvePoint {
	c := CurvePoint{Piece: p.Piece, OnBed: p.OnBed}
	law := p.Stretch.law()
	l := f * float64(p.Length)
	switch {
	case f == 0:
		c.Position, c.Tension = p.Lower, p.TensionLower
	case f == 1:
		c.Position, c.Tension = p.Upper, p.TensionUpper
	case p.OnBed:
		low := float64(p.TensionLower)
		t := low + f*float64(p.TensionUpper-p.TensionLower)
		whole := 1 + law.meanRamp(low, float64(p.TensionUpper))
		g := f * (1 + law.meanRamp(low, t)) / whole
		c.Position = Position{
			p.Lower.X + (p.Upper.X - p.Lower.X).Scale(g),
			p.Lower.Z + (p.Upper.Z - p.Lower.Z).Scale(g),
		}
		c.Tension = units.Force(t)
	default:
		h, v1 := float64(p.Horizontal), float64(p.VerticalLower)
		v2 := v1 + f*float64(p.VerticalUpper-p.VerticalLower)
		t1, t2 := float64(p.TensionLower), math.Sqrt(h*h+v2*v2)
		c.X = p.Lower.X
		if h > 0 {
			c.X += units.Length(l * law.meanRun(h, v1, t1, v2, t2, meanInverse(h, v1, t1, v2, t2)))
		}
		c.Z = p.Lower.Z + units.Length(l*law.meanRise(v1, t1, v2, t2))
		c.Tension = units.Force(t2)
	}
	return c
}

// record notes the line part by part as it is walked, from the bow down. Until
// place puts them where they belong, Upper holds the part's extent: how far it
// runs and rises.
type record struct {
	parts  []Part
	pieces []Piece
}

// next is the part after the last one recorded. It may hold an older one: hang
// and lie set every field but Lower, which place does, sparing the time to clear it.
func (r *record) next(piece int) *Part {
	n := len(r.parts)
	if n < cap(r.parts) {
		r.parts = r.parts[:n+1]
	} else {
		r.parts = append(r.parts, Part{})
	}
	p := &r.parts[n]
	p.Piece = piece
	p.Stretch = r.pieces[piece].Stretch
	return p
}

// hang notes the l metres that a walk is about to go down to where the vertical
// force is v and the tension t. Their extent is for the walk to fill in.
func (r *record) hang(k *walk, l, v, t float64) *Part {
	p := r.next(k.at.i)
	p.Length, p.OnBed, p.Dry = units.Length(l), false, !k.wet
	p.Horizontal = units.Force(k.h)
	p.VerticalLower, p.VerticalUpper = units.Force(v), units.Force(k.v)
	p.TensionLower, p.TensionUpper = units.Force(t), units.Force(k.t)
	return p
}

func (r *record) lie(i int, l, laid, low, high float64, wet bool) {
	p := r.next(i)
	p.Length, p.OnBed, p.Dry = units.Length(l), true, !wet
	p.Upper = Position{X: units.Length(laid)}
	p.Horizontal, p.VerticalLower, p.VerticalUpper = 0, 0, 0
	p.TensionLower, p.TensionUpper = units.Force(low), units.Force(high)
	p.Elongation = units.Length(laid - l)
}

// place orders the parts from the anchor up and gives them their positions.
func (r *record) place(sin, cos float64) {
	ps := r.parts
	for i, j := 0, len(ps)-1; i < j; i, j = i+1, j-1 {
		ps[i], ps[j] = ps[j], ps[i]
	}
	var at Position
	for i := range ps {
		p := &ps[i]
		run, rise := p.Upper.X, p.Upper.Z
		if p.OnBed {
			run, rise = run.Scale(cos), run.Scale(sin)
		}
		p.Lower = at
		at.X += run
		at.Z += rise
		p.Upper = at
	}
}
