package rode

import (
	"errors"
	"fmt"

	"example.com/forepeak/internal/accept"
)

// What can be wrong. Every error of this package is an [*Error] that wraps one
// of these.
var (
	// ErrInput is for a value that cannot be: negative, not finite, out of a table.
	ErrInput = errors.New("value not accepted")
	// ErrShort is for a rode that does not reach from the roller to the anchor, or
	// that is not enough for what is asked of it.
	ErrShort = errors.New("not long enough")
	// ErrTaut is for a distance beyond the taut rode.
	ErrTaut = errors.New("beyond the taut rode")
	// ErrBed is for a bed that rises to the boat within the rode's length, or on
	// which the ring of a bridle would lie.
	ErrBed = errors.New("the bed is in the way")
	// ErrSurface is for a float or floating rope that would come to the surface:
	// a rode that lies along the surface is not modelled.
	ErrSurface = errors.New("part of the rode floats on the surface")
	// ErrSlope is for floats or floating rope over a sloping bed, which is not modelled.
	ErrSlope = errors.New("buoyant rode over a sloping bed")
	// ErrStretch is for a tension beyond the one to which a load-extension curve was measured.
	ErrStretch = errors.New("beyond the measured load-extension curve")
	// ErrNoBalance is for a rode without an equilibrium within the numbers a
	// computer can hold.
	ErrNoBalance = errors.New("no equilibrium found")
	// ErrUnknown is for a name that is not in a catalogue or a list.
	ErrUnknown = errors.New("not in the catalogue")
	// ErrFit is for parts that do not go together.
	ErrFit = errors.New("does not fit")
)

// Error says which value was refused and what would be accepted.
type Error struct {
	Field string // as in Pieces[1].Length
	Value string // what was found
	Want  string // what would be accepted
	Err   error  // one of the package's sentinels
}

func (e *Error) Error() string {
	s := fmt.Sprintf("rode: %v: %s is %s", e.Err, e.Field, e.Value)
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
