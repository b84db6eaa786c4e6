package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// fieldError is an error about a field of the question.
type fieldError struct {
	field string
	err   error
}

func (e *fieldError) Error() string { return e.err.Error() }
func (e *fieldError) Unwrap() error { return e.err }

// inPart says in which part of the question the field of a library error is.
func inPart(part string, err error) error {
	var (
		r *rode.Error
		a *anchor.Error
	)
	switch {
	case errors.As(err, &r):
		part += "." + r.Field
	case errors.As(err, &a):
		part += "." + a.Field
	}
	return &fieldError{part, err}
}

// refusal takes an error apart: the errors of the library say which field they
// are about, what was found and what is accepted.
func refusal(err error) Refusal {
	r := Refusal{Error: err.Error()}
	var at *fieldError
	if errors.As(err, &at) {
		r.Field = at.field
	}
	var (
		inRode   *rode.Error
		inAnchor *anchor.Error
		inUnits  *units.ParseError
		inType   *json.UnmarshalTypeError
		inSyntax *json.SyntaxError
	)
	switch {
	case errors.As(err, &inRode):
		r.Error, r.Value, r.Want = inRode.Err.Error(), inRode.Value, inRode.Want
	case errors.As(err, &inAnchor):
		r.Error, r.Value, r.Want = inAnchor.Err.Error(), inAnchor.Value, inAnchor.Want
	case errors.As(err, &inUnits):
		r.Error, r.Value = inUnits.Reason, inUnits.Input
		r.Want = inUnits.Quantity + " with its unit"
		if len(inUnits.Accepted) > 0 {
			r.Want += ": " + strings.Join(inUnits.Accepted, ", ")
		}
	case errors.As(err, &inType):
		r.Error, r.Field, r.Value = "value of the wrong kind", inType.Field, inType.Value
	case errors.As(err, &inSyntax):
		r.Error = fmt.Sprintf("not JSON at byte %d: %v", inSyntax.Offset, err)
	default:
		// There is no type for this one.
		if name, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
			r.Error, r.Field = "unknown field", strings.Trim(name, `"`)
		}
	}
	return r
}

// refusedText is the text that a type of the library did not accept.
func refusedText(err error) (string, bool) {
	var (
		inUnits  *units.ParseError
		inRode   *rode.Error
		inAnchor *anchor.Error
		quoted   string
	)
	switch {
	case errors.As(err, &inUnits):
		return inUnits.Input, true
	case errors.As(err, &inRode):
		quoted = inRode.Value
	case errors.As(err, &inAnchor):
		quoted = inAnchor.Value
	}
	text, err := strconv.Unquote(quoted)
	return text, err == nil
}

// fieldOf finds the field whose value is a text, the first if there are more:
// encoding/json does not say where a text was that a type did not accept.
func fieldOf(body []byte, text string) string {
	type level struct {
		name  string
		index int // -1 in an object
	}
	var path []level
	dec := json.NewDecoder(bytes.NewReader(body))
	key := false // the next text in an object is a name
	for {
		token, err := dec.Token()
		if err != nil {
			return ""
		}
		top := len(path) - 1
		inObject := top >= 0 && path[top].index < 0
		if name, ok := token.(string); ok && inObject && key {
			path[top].name, key = name, false
			continue
		}
		switch token {
		case json.Delim('}'), json.Delim(']'):
			path = path[:top]
			key = true
			continue
		}
		if top >= 0 && !inObject {
			path[top].index++
		}
		switch token {
		case json.Delim('{'):
			path, key = append(path, level{index: -1}), true
			continue
		case json.Delim('['):
			path = append(path, level{})
			continue
		case text:
			var b []byte
			for _, l := range path {
				switch {
				case l.index >= 0:
					b = fmt.Appendf(b, "[%d]", l.index-1)
				case len(b) > 0:
					b = append(b, '.')
					fallthrough
				default:
					b = append(b, l.name...)
				}
			}
			return string(b)
		}
		key = inObject
	}
}
