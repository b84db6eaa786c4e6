package units

import (
	"strconv"
	"strings"
)

// A quantity is what the methods of one quantity type share: its units and how
// it is printed. The generated tables are static data; nothing runs at start-up.
type quantity struct {
	name     string    // "length"
	goType   string    // "Length"
	units    []unit    // the first is the SI unit
	readable []step    // units for %.3v, rising; nil means the SI unit
	say      [2]string // units in the example of the error about a bare number
	refused  []refusal
}

// A unit turns numbers into SI: si = (number + offset) * num/den, times pi if pi is set.
type unit struct {
	names    []string // the first is the symbol that is printed
	num, den uint64   // exact, both below 2^63
	pi       bool

	// Either of the two turns SI into the unit: the one that binary holds
	// exactly, where there is one.
	mul, div float64

	// offset of an affine unit, in hundredths of the unit (273.15 is 27315).
	hundredths uint64

	// smaller is the symbol of the unit that may follow, as inches follow feet.
	smaller string
}

// A step of the readable form: the unit is used from this SI size on.
type step struct {
	unit int // index in units
	from float64
}

// A refusal explains why a word that people use is not taken.
type refusal struct {
	words  []string
	reason string
}

func (u *unit) symbol() string { return u.names[0] }

// fromSI returns the SI value x in the unit.
func (u *unit) fromSI(x float64) float64 {
	if u.mul != 0 {
		x = float64(x * u.mul) // the conversion keeps the product from being fused
	} else {
		x /= u.div
	}
	if u.hundredths != 0 {
		x -= float64(u.hundredths) / 100
	}
	return x
}

func (q *quantity) symbols() []string {
	s := make([]string, len(q.units))
	for i := range q.units {
		s[i] = q.units[i].symbol()
	}
	return s
}

// find returns the unit whose name is the longest that s begins with and that
// ends there: at the end, a blank or a digit. It is nil when there is none.
func (q *quantity) find(s string) (u *unit, name string) {
	for i := range q.units {
		for _, n := range q.units[i].names {
			if len(n) > len(name) && beginsWith(s, n) {
				u, name = &q.units[i], n
			}
		}
	}
	return u, name
}

func beginsWith(s, word string) bool {
	if !strings.HasPrefix(s, word) {
		return false
	}
	if len(s) == len(word) {
		return true
	}
	c := s[len(word)]
	return isBlank(c) || isDigit(c)
}

func (q *quantity) in(x float64, name string) (float64, error) {
	u, n := q.find(name)
	if u == nil || n != name {
		return 0, q.errUnit(name, name)
	}
	return u.fromSI(x), nil
}

// errUnit explains why rest, the text of input from the unit on, is not a unit here.
func (q *quantity) errUnit(input, rest string) error {
	e := &ParseError{Quantity: q.name, Input: clip(input), Accepted: q.symbols()}
	for _, r := range q.refused {
		for _, w := range r.words {
			if beginsWith(rest, w) {
				e.Reason = r.reason
				return e
			}
		}
	}
	word := clip(rest)
	var like string
	for i := range q.units {
		for _, n := range q.units[i].names {
			if like == "" && strings.EqualFold(n, rest) {
				like = n
			}
		}
	}
	other := ownerOf(rest)
	switch {
	case other != "" && like != "":
		e.Reason = strconv.Quote(word) + " is a unit of " + other + "; " + strconv.Quote(like) + " is one of " + q.name
	case other != "":
		e.Reason = strconv.Quote(word) + " is a unit of " + other
	case like != "":
		e.Reason = "unknown unit " + strconv.Quote(word) + ", did you mean " + strconv.Quote(like) + " (upper and lower case differ)"
	default:
		e.Reason = "unknown unit " + strconv.Quote(word)
	}
	return e
}

// ownerOf names the quantity that has a unit of this name.
func ownerOf(name string) string {
	for _, q := range quantities {
		if u, n := q.find(name); u != nil && n == name {
			return q.name
		}
	}
	return ""
}
