package anchor

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/rode"
)

// What can be wrong. Every error of this package is an [*Error] that wraps one of
// these, or a [*rode.Error] whose Field begins with the way to the rode or the site,
// as in Neighbour.Swing.Rode.Pieces[0].Length. A ride that its context ends returns the
// context's error.
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
	// ErrAground is for a plan in which the keel comes nearer to the bottom than it
	// may.
	ErrAground = errors.New("not enough water under the keel")
	// ErrParted is for a rode loaded beyond its curve, or thousands of kilonewtons: it
	// has parted. It is an ErrRange too.
	ErrParted = fmt.Errorf("%w: the rode parts", ErrRange)
)

// Error says which value was refused and what would be accepted.
type Error struct {
	Field string // as in Parts[1].Front
	Value string // what was found
	Want  string // what would be accepted
	Err   error  // one of the package's, as ErrInput
}

func (e *Error) Error() string {
	s := fmt.Sprintf("anchor: %v: %s is %s", e.Err, e.Field, e.Value)
	if e.Want != "" {
		s += ", want " + e.Want
	}
	return s
}

// Unwrap gives Err.
func (e *Error) Unwrap() error { return e.Err }

func refuse(field string, value any, want string) error {
	return refuseAs(ErrInput, field, value, want)
}

func refuseAs(err error, field string, value any, want string) error {
	return &Error{Field: field, Value: accept.Show(value), Want: want, Err: err}
}

// within puts the way to a part of what was asked before the field of an error.
func within(path string, err error) error {
	switch e := err.(type) {
	case *Error:
		inner := *e
		inner.Field = path + e.Field
		return &inner
	case *rode.Error:
		inner := *e
		inner.Field = path + e.Field
		return &inner
	}
	return err
}

// siteFields are those of a rode.Site, none of which a rode.Rode has.
var siteFields = []string{"Depth", "Roller", "Slope", "Friction", "Water"}

// inRode puts the way to a rode or to its site before the field of an error of
// package rode. What that was asked besides, such as the pull, is called by the name
// that it has here.
func inRode(rodeAt, siteAt string, asked map[string]string, err error) error {
	e, ok := err.(*rode.Error)
	if !ok {
		return err
	}
	if name, ok := asked[e.Field]; ok {
		inner := *e
		inner.Field = name
		return &inner
	}
	first, _, _ := strings.Cut(e.Field, ".")
	first, _, _ = strings.Cut(first, "[")
	switch {
	case slices.Contains(siteFields, first):
		return within(siteAt, err)
	case strings.Contains(first, " "): // a description, as tension in a rope
		return within(strings.TrimSuffix(rodeAt, ".")+": ", err)
	case first == strings.ToLower(first): // an argument with the same name here
		return err
	}
	return within(rodeAt, err)
}
