package anchor

import (
	"errors"
	"fmt"

	"example.com/forepeak/internal/accept"
)

// What can be wrong. Every error of this package is an [*Error] that wraps one
// of these, or an error of package rode.
var (
	// ErrInput is for a value that cannot be: negative, not finite, contradictory.
	ErrInput = errors.New("value not accepted")
	// ErrRange is for a value outside the data a rule or a formula rests on.
	ErrRange = errors.New("outside the rule's range")
	// ErrUnknown is for a name that is not in a list.
	ErrUnknown = errors.New("not in the list")
	// ErrStall is for a windlass that cannot lift what hangs on it.
	ErrStall = errors.New("windlass stalls")
	// ErrNoBalance is for a boat that finds no heading to lie at.
	ErrNoBalance = errors.New("no equilibrium found")
)

// Error says which value was refused and what would be accepted.
type Error struct {
	Field string // as in Parts[1].Front
	Value string // what was found
	Want  string // what would be accepted
	Err   error  // one of the package's sentinels
}

func (e *Error) Error() string {
	s := fmt.Sprintf("anchor: %v: %s is %s", e.Err, e.Field, e.Value)
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
