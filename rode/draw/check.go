package draw

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// ErrMismatch is for a state that was not solved for the rode and site beside it.
var ErrMismatch = errors.New("state of another rode or site")

func refuse(err error, field string, value any, want string) error {
	return &rode.Error{Field: field, Value: accept.Show(value), Want: want, Err: err}
}

func checkPrefix(prefix string) error {
	if prefix != "" && !svg.IsPrefix(prefix) {
		return refuse(rode.ErrInput, "Prefix", strconv.Quote(prefix), svg.PrefixWanted)
	}
	return nil
}

func (p *Profile) check() error {
	if len(p.Views) == 0 {
		return refuse(rode.ErrInput, "Views", "empty", "at least one view")
	}
	if err := checkPrefix(p.Prefix); err != nil {
		return err
	}
	if l := p.Boat.Length; !(l >= 0 && l <= 1000) {
		return refuse(rode.ErrInput, "Boat.Length", l, "from 0 to 1000 m")
	}
	if n := p.Boat.Hulls; n < 0 || n > 2 {
		return refuse(rode.ErrInput, "Boat.Hulls", n, "0, 1 or 2")
	}
	most := units.Length(10)
	if p.Boat.Length > 0 {
		most = p.Boat.Length.Scale(0.4)
	}
	if o := p.Boat.Overhang; !(o >= 0 && o <= most) {
		return refuse(rode.ErrInput, "Boat.Overhang", o, fmt.Sprintf("from 0 to %.3v", most))
	}
	for i := range p.Views {
		if err := p.Views[i].check(fmt.Sprintf("Views[%d].", i)); err != nil {
			return err
		}
	}
	return nil
}

// check tells whether the rode and the site are sound and the state can be theirs.
func (v *View) check(field string) error {
	var e *rode.Error
	if _, err := rode.NewSolver(v.Rode, v.Site); errors.As(err, &e) {
		return refuse(e.Err, field+e.Field, e.Value, e.Want)
	}
	st, pieces := &v.State, v.Rode.Pieces
	if len(st.Parts) == 0 {
		return refuse(rode.ErrInput, field+"State.Parts", "empty", "a solved state")
	}
	for _, n := range []struct {
		name  string
		value float64
	}{
		{"Pull", st.Pull.Newtons()},
		{"Tension", st.Tension.Newtons()},
		{"OnBed", st.OnBed.Metres()},
		{"Out", st.Out.Metres()},
		{"Scope", st.Scope},
		{"Anchor.FromBed", st.Anchor.FromBed.Radians()},
	} {
		if !finite(n.value) {
			return refuse(rode.ErrInput, field+"State."+n.name, n.value, "a finite number")
		}
	}
	if len(st.Joints) != len(pieces)-1 {
		return refuse(ErrMismatch, field+"State.Joints", fmt.Sprintf("%d long", len(st.Joints)), fmt.Sprintf("one less than the %d pieces", len(pieces)))
	}
	near := 1e-6 * v.Rode.Length()
	if !((st.Depth - v.Site.Depth).Abs() <= near) {
		return refuse(ErrMismatch, field+"State.Depth", st.Depth, "the depth of the site, "+v.Site.Depth.String())
	}
	left := make([]units.Length, len(pieces))
	for i := range pieces {
		left[i] = pieces[i].Length
	}
	var at rode.Position
	for i := range st.Parts {
		p, f := &st.Parts[i], fmt.Sprintf("%sState.Parts[%d].", field, i)
		if p.Piece < 0 || p.Piece >= len(pieces) || i > 0 && p.Piece < st.Parts[i-1].Piece {
			return refuse(ErrMismatch, f+"Piece", p.Piece, fmt.Sprintf("0 to %d, in order", len(pieces)-1))
		}
		if !close(p.Lower, at, near) {
			return refuse(ErrMismatch, f+"Lower", p.Lower, "the end of the part below, "+fmt.Sprint(at))
		}
		at = p.Upper
		if !finite(at.X.Metres()) || !finite(at.Z.Metres()) {
			return refuse(rode.ErrInput, f+"Upper", at, "a finite place")
		}
		if bed := v.bed(at.X); p.OnBed && !((at.Z - bed).Abs() <= near) {
			return refuse(ErrMismatch, f+"Upper.Z", at.Z, "a place on the bed, "+bed.String())
		}
		left[p.Piece] -= p.Length
	}
	if rise := v.Site.Rise(); !((at.Z - rise).Abs() <= near) {
		return refuse(ErrMismatch, field+"State.Parts: upper end", at.Z, "the height of the roller, "+rise.String())
	}
	for i, l := range left {
		if !(l.Abs() <= near) {
			return refuse(ErrMismatch, fmt.Sprintf("%sRode.Pieces[%d].Length", field, i), pieces[i].Length, "the length in the state, "+(pieces[i].Length-l).String())
		}
	}
	for i, j := range st.Joints {
		if !finite(j.X.Metres()) || !finite(j.Z.Metres()) {
			return refuse(rode.ErrInput, fmt.Sprintf("%sState.Joints[%d]", field, i), j.Position, "a finite place")
		}
	}
	return nil
}

// bed is its height at a distance from the anchor.
func (v *View) bed(x units.Length) units.Length { return x.Scale(v.Site.Slope.Tan()) }

func close(a, b rode.Position, near units.Length) bool {
	return (a.X-b.X).Abs() <= near && (a.Z-b.Z).Abs() <= near
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
