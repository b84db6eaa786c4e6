package wiring

import (
	"errors"
	"fmt"

	"example.com/forepeak/internal/accept"
)

// What can be wrong. Every error of this package is an [*Error] that wraps one
// of these, or wraps such an [*Error]: errors.As finds it.
var (
	// ErrInput is for a value that cannot be: negative, not finite, contradictory.
	ErrInput = errors.New("value not accepted")
	// ErrRange is for a value outside the table or correlation that would answer it:
	// tables are not extrapolated.
	ErrRange = errors.New("outside the published range")
	// ErrUnknown is for a name that is not in a table or a circuit.
	ErrUnknown = errors.New("not known")
	// ErrCollapse is for a load that the network cannot supply: the voltage at it
	// falls away before it gets its power or current.
	ErrCollapse = errors.New("voltage collapses")
	// ErrNoSolution is for a network whose equations could not be solved within
	// the numbers a computer can hold.
	ErrNoSolution = errors.New("no solution found")
	// ErrRating is for a load that no device can carry which the rules let protect
	// the conductor.
	ErrRating = errors.New("no rating protects the conductor")
	// ErrNoConductor is for a target that no conductor of the stock meets.
	ErrNoConductor = errors.New("no conductor of the stock meets the target")
)

// Error says which value was refused and what would be accepted.
type Error struct {
	Field string // as in Elements[3] (out).Cable.Length
	Value string // what was found
	Want  string // what would be accepted
	Err   error  // one of the package's sentinels
}

func (e *Error) Error() string {
	s := fmt.Sprintf("wiring: %v: %s is %s", e.Err, e.Field, e.Value)
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
