package canvas

import (
	"errors"
	"fmt"

	"example.com/forepeak/internal/accept"
)

// What can be wrong. Every error of this package is an [*Error] that wraps one
// of these.
var (
	// ErrInput is for a value that cannot be: negative, not finite, out of range.
	ErrInput = errors.New("value not accepted")
	// ErrUnknown is for a name that nothing has.
	ErrUnknown = errors.New("no such name")
	// ErrMeasure is for too few measurements, or for such as cannot be placed.
	ErrMeasure = errors.New("the measurements do not place the corners")
	// ErrOutline is for an outline that crosses itself or runs clockwise.
	ErrOutline = errors.New("not an outline")
	// ErrFold is for an edge that cannot be turned without puckering or tearing.
	ErrFold = errors.New("the edge is too curved to be turned")
	// ErrSeam is for two sides of a seam that are not of one length.
	ErrSeam = errors.New("the sides of the seam differ")
	// ErrVent is for a cover in which gas could gather.
	ErrVent = errors.New("gas would be held in")
	// ErrMesh is for triangles that do not make sheets to be laid flat: slivers,
	// sides with three triangles or two that face opposite ways, holes, closed surfaces.
	ErrMesh = errors.New("not a surface that can be laid flat")
	// ErrFlat is for a sheet that covers itself when it is laid flat.
	ErrFlat = errors.New("the surface does not lie flat")
	// ErrSplit is for a panel that cannot be divided along a line.
	ErrSplit = errors.New("the panel cannot be split there")
	// ErrCloth is for pieces for which there is no room on the cloth.
	ErrCloth = errors.New("no room on the cloth")
	// ErrLay is for a plan that does not do what it should: pieces that overlap, or
	// others than were asked for.
	ErrLay = errors.New("the plan does not hold")
)

// Error says which value was refused and what would be accepted.
type Error struct {
	Field string // as in Edges[1].Finish.Width
	Value string // what was found
	Want  string // what would be accepted
	Err   error  // one of the package's sentinels
}

func (e *Error) Error() string {
	s := fmt.Sprintf("canvas: %v: %s is %s", e.Err, e.Field, e.Value)
	if e.Want != "" {
		s += ", want " + e.Want
	}
	return s
}

// Unwrap gives the sentinel.
func (e *Error) Unwrap() error { return e.Err }

func refuse(field string, value any, want string) error {
	return refuseAs(ErrInput, field, value, want)
}

func refuseAs(err error, field string, value any, want string) error {
	return &Error{Field: field, Value: accept.Show(value), Want: want, Err: err}
}
