package main

import (
	"errors"
	"strings"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/wiring"
)

// inWords puts an error of the library into the words of a boat file, behind the
// part of the file that was put before it.
func inWords(err error) error {
	var own *fileError
	var a *anchor.Error
	var r *rode.Error
	var w *wiring.Error
	switch {
	case errors.As(err, &own):
		return err
	case errors.As(err, &a):
		return found(err, a, a.Field, a.Value, a.Want, a.Err)
	case errors.As(err, &r):
		return found(err, r, r.Field, r.Value, r.Want, r.Err)
	case errors.As(err, &w):
		return found(err, w, w.Field, w.Value, w.Want, w.Err)
	}
	return err
}

func found(whole, inner error, field, value, want string, why error) error {
	at := strings.TrimSuffix(whole.Error(), inner.Error())
	return &fileError{at + field, value + " (" + why.Error() + ")", want}
}

// each is every single error of those that were joined.
func each(err error) []error {
	many, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var all []error
	for _, e := range many.Unwrap() {
		all = append(all, each(e)...)
	}
	return all
}
