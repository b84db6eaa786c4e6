package rode

import (
	"math"

	"example.com/forepeak/units"
)

// State is how a rode hangs, and what every part of it feels.
type State struct {
	Pull     units.Force // horizontal, at the bow
	Vertical units.Force // downward, at the bow
	Tension  units.Force // at the bow
	BowAngle units.Angle // of the rode below the horizontal at the roller

	Depth    units.Length // of the water at the anchor, as in Site
	Distance units.Length // horizontal, from anchor to roller
	Out      units.Length // unstretched length from anchor to roller
	Scope    float64      // Out over the height of the roller above the anchor
	Stretch  units.Length // of the whole rode
	// Slack is how much nearer to the anchor the boat is than the rode, hanging
	// straight down and laid out without pull, would reach.
	Slack units.Length

	OnBed    units.Length // unstretched length that lies on the bed
	Lifted   bool         // no part of it does
	Friction units.Force  // carried by it

	Anchor AnchorPull

	// Stiffness is the change of pull with distance. Condition is the relative
	// error of the pull for a relative error of the distance, (dH/H)/(dX/X): near
	// the taut rode it is large, and a pull computed from a distance is no better
	// than the distance times it. It is at most 1e15, as for a straight rode that
	// does not stretch, where no digit of the pull follows from the distance, and
	// Stiffness then is not to be relied on. Both are 0 at no pull, where the
	// distance says nothing of the pull.
	Stiffness units.Stiffness
	Condition float64

	Pieces []PieceState
	Joints []JointState // between one piece and the next
	// WeakestWorking and WeakestBreaking are the piece or fitting that comes
	// nearest to its working and to its breaking load. The name is empty where
	// no load is known.
	WeakestWorking, WeakestBreaking Loaded

	Parts []Part // the curve, from the anchor up
}

const maxCondition = 1e15

// AnchorPull is what the anchor feels at its shackle.
type AnchorPull struct {
	Tension    units.Force
	Horizontal units.Force
	Vertical   units.Force // upward
	// FromBed is the angle of the pull above the bed's surface: 0 while the rode
	// lies on the bed there. FromLevel is its angle above the horizontal.
	FromBed, FromLevel units.Angle
}

// PieceState is what one piece feels.
type PieceState struct {
	Name                       string
	Lower, Upper               Position
	TensionLower, TensionUpper units.Force
	MaxTension                 units.Force
	Stretch                    units.Length
	OnBed                      units.Length // unstretched
	// OfWorking and OfBreaking are the greatest tension as a fraction of the
	// working and of the breaking load; 0 where that is not known.
	OfWorking, OfBreaking float64
}

// JointState is what happens at the joint above a piece.
type JointState struct {
	Position
	Tension units.Force // the greater of both sides
	// Lifted is whether the joint is off the bed, Reaction the bed's upward
	// force on the fittings there.
	Lifted   bool
	Reaction units.Force
}

// Loaded names a piece or fitting and its tension as a fraction of its load.
type Loaded struct {
	Name     string
	Tension  units.Force
	Fraction float64
}

// fill turns a solution, whose parts lie in st.Parts from the bow down, into a State.
func (sv *Solver) fill(st *State, b *balanced) {
	ln := &sv.line
	parts, pieces, joints := st.Parts, st.Pieces[:0], st.Joints[:0]
	st.Pull, st.Vertical = units.Force(b.h), units.Force(b.v)
	st.Tension = parts[len(parts)-1].TensionUpper
	st.BowAngle = units.Angle(math.Atan2(b.v, b.h))
	st.Depth = sv.site.Depth
	st.Distance, st.Out, st.Scope = units.Length(b.run), units.Length(ln.length), ln.length/ln.rise
	st.Stretch, st.Slack = 0, 0
	st.OnBed, st.Lifted, st.Friction = units.Length(b.bed.length), b.lifted, units.Force(b.bed.friction)
	a := &st.Anchor
	a.Horizontal, a.Vertical = units.Force(b.anchor.h), units.Force(b.anchor.v)
	a.Tension = parts[0].TensionLower
	a.FromLevel, a.FromBed = 0, 0
	if b.anchor.v != 0 {
		a.FromLevel = units.Angle(math.Atan2(b.anchor.v, b.anchor.h))
	}
	st.Stiffness, st.Condition = 0, 0
	st.WeakestWorking, st.WeakestBreaking = Loaded{}, Loaded{}
	if !parts[0].OnBed {
		a.FromBed = max(0, a.FromLevel-sv.site.Slope)
	}
	if b.h > 0 {
		st.Condition, st.Stiffness = b.run/(b.h*b.rate), units.Stiffness(1/b.rate)
		if !(st.Condition > 0 && st.Condition < maxCondition) {
			st.Condition, st.Stiffness = maxCondition, units.Stiffness(maxCondition*b.h/b.run)
		}
	}
	for i := range parts {
		p := &parts[i]
		if len(pieces) == p.Piece {
			pieces = append(pieces, PieceState{})
			q := &pieces[p.Piece]
			q.Name, q.Lower, q.TensionLower = sv.rode.Pieces[p.Piece].Name, p.Lower, p.TensionLower
		}
		q := &pieces[p.Piece]
		q.Upper, q.TensionUpper = p.Upper, p.TensionUpper
		q.MaxTension = max(q.MaxTension, p.TensionLower, p.TensionUpper)
		q.Stretch += p.Elongation
		if p.OnBed {
			q.OnBed += p.Length
		}
	}
	for i := range pieces {
		q := &pieces[i]
		st.Stretch += q.Stretch
		r := &sv.rode.Pieces[i]
		q.OfWorking = st.WeakestWorking.load(r.Name, q.MaxTension, r.Working, 1)
		q.OfBreaking = st.WeakestBreaking.load(r.Name, q.MaxTension, r.Breaking, 1)
		if i < len(pieces)-1 {
			j := JointState{Position: q.Upper, Tension: max(q.TensionUpper, pieces[i+1].TensionLower)}
			sv.settle(&j, parts, i)
			joints = append(joints, j)
			st.loadAll(r.Top, j.Tension)
		} else {
			st.loadAll(r.Top, st.Tension)
		}
	}
	st.loadAll(sv.rode.AtAnchor, st.Anchor.Tension)
	st.Parts, st.Pieces, st.Joints = parts, pieces, joints
}

// settle tells whether the joint above piece i is off the bed, and how much of
// its load the bed carries: what the parts below and above do not.
func (sv *Solver) settle(j *JointState, parts []Part, i int) {
	k := 0
	for parts[k].Piece <= i {
		k++
	}
	ln := &sv.line
	below, above := &parts[k-1], &parts[k]
	up, down := float64(above.VerticalLower), float64(below.VerticalUpper)
	if above.OnBed {
		up = float64(above.TensionLower) * ln.sin
	}
	if below.OnBed {
		down = float64(below.TensionUpper) * ln.sin
	}
	j.Lifted = !below.OnBed && !above.OnBed
	if j.Lifted && math.Abs(float64(j.Z)) > 1e-9*ln.length {
		return // a weight between two arches may rest on the level bed all the same
	}
	load, _ := ln.points[i].at(ln.rise - ln.roller - float64(j.Z))
	if n := load + down - up; n > 1e-9*math.Abs(load) {
		j.Reaction = units.Force(n)
		j.Lifted = false
	}
}

// load works out a tension as a fraction of a load and keeps the greatest.
func (l *Loaded) load(name string, tension, rated units.Force, left float64) float64 {
	if rated == 0 {
		return 0
	}
	f := tension.Per(rated) / left
	if l.Name == "" || f > l.Fraction {
		*l = Loaded{name, tension, f}
	}
	return f
}

func (st *State) loadAll(fs []Fitting, tension units.Force) {
	for i := range fs {
		f := &fs[i]
		st.WeakestWorking.load(f.Name, tension, f.Working, f.sideLoad())
		st.WeakestBreaking.load(f.Name, tension, f.Breaking, f.sideLoad())
	}
}
