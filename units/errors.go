package units

import (
	"errors"
	"fmt"
	"strings"
)

// ErrParse is wrapped by every error of the Parse functions, the In methods and
// UnmarshalText.
var ErrParse = errors.New("units: cannot parse")

// ErrValue is wrapped by the errors about a value that cannot be written or
// converted: NaN and infinities in MarshalText, a Time beyond time.Duration.
var ErrValue = errors.New("units: value out of range")

// ParseError says what text was refused, why, and which units would be taken.
type ParseError struct {
	Quantity string   // "length"
	Input    string   // the text, cut when long
	Reason   string   // what is wrong with it
	Accepted []string // symbols of the units accepted; nil when the unit is not what is wrong
}

func (e *ParseError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "units: %s %q: %s", e.Quantity, e.Input, e.Reason)
	if len(e.Accepted) > 0 {
		b.WriteString("; accepted units: ")
		b.WriteString(strings.Join(e.Accepted, ", "))
	}
	return b.String()
}

// Unwrap returns [ErrParse].
func (e *ParseError) Unwrap() error { return ErrParse }

// ValueError says which value of which quantity could not be used, and why.
type ValueError struct {
	Quantity string // "time"
	Value    string // in the SI unit, "1e+20 s"
	Reason   string // what is wrong and what would be accepted
}

func (e *ValueError) Error() string {
	return "units: " + e.Quantity + " " + e.Value + ": " + e.Reason
}

// Unwrap returns [ErrValue].
func (e *ValueError) Unwrap() error { return ErrValue }

// clip shortens what is repeated in an error.
func clip(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "..."
}
