package units

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// append writes the shortest text that parses back to x, in the SI unit.
func (q *quantity) append(b []byte, x float64) []byte {
	// Plain digits as far as a person can count the zeros.
	form := byte('f')
	if a := math.Abs(x); a != 0 && a < 1e-5 || a >= 1e15 {
		form = 'e'
	}
	return q.units[0].appendSymbol(strconv.AppendFloat(b, x, form, -1, 64))
}

func (q *quantity) string(x float64) string {
	return string(q.append(make([]byte, 0, 32), x))
}

// appendText is append, but refuses what cannot be parsed back.
func (q *quantity) appendText(b []byte, x float64) ([]byte, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return b, &ValueError{Quantity: q.name, Value: q.string(x), Reason: "only finite values have a text form"}
	}
	return q.append(b, x), nil
}

// appendSymbol writes the unit after a number. The degree sign stands close.
func (u *unit) appendSymbol(b []byte) []byte {
	if u.symbol() != "°" {
		b = append(b, ' ')
	}
	return append(b, u.symbol()...)
}

// appendReadable writes x with so many significant digits in the unit of q that
// suits its size.
func (q *quantity) appendReadable(b []byte, x float64, digits int) []byte {
	u := &q.units[0]
	if x != 0 || len(q.readable) == 1 { // zero suits no size: it is printed in SI
		// A size that rounds up to the next unit's is printed in that one:
		// 1.00 m, not 1000 mm.
		for i := range q.readable {
			s := &q.readable[i]
			if i > 0 && math.Abs(roundTo(u.fromSI(x), digits)) < u.fromSI(s.from) {
				break
			}
			u = &q.units[s.unit]
		}
	}
	v := roundTo(u.fromSI(x), digits)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		u, v = &q.units[0], roundTo(x, digits) // the largest angle overflows in degrees, not in radians
	}
	form, decimals := byte('e'), digits-1
	if a := math.Abs(v); a == 0 || a >= 1e-4 && a < 1e7 {
		form = 'f'
		if a != 0 {
			decimals = max(0, digits-1-exponent(v))
		}
	}
	return u.appendSymbol(strconv.AppendFloat(b, v, form, decimals, 64))
}

// roundTo returns the float64 nearest to x with so many significant digits.
func roundTo(x float64, digits int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x // rounds beyond the largest number
	}
	return r
}

// exponent returns the decimal exponent of a finite x.
func exponent(x float64) int {
	s := strconv.FormatFloat(x, 'e', -1, 64)
	e, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
	return e
}

// format implements the fmt verbs as [Length.Format] documents them.
func (q *quantity) format(f fmt.State, verb rune, x float64) {
	var b []byte
	switch precision, set := f.Precision(); verb {
	case 'v', 's', 'q':
		switch {
		case verb == 'v' && f.Flag('#'):
			b = fmt.Appendf(b, "units.%s(%s)", q.goType, strconv.FormatFloat(x, 'g', -1, 64))
		case set:
			b = q.appendReadable(b, x, max(1, precision))
		default:
			b = q.append(b, x)
		}
	case 'e', 'E', 'f', 'F', 'g', 'G':
		if !set {
			precision = 6
			if verb == 'g' || verb == 'G' {
				precision = -1
			}
		}
		if verb == 'F' {
			verb = 'f'
		}
		b = q.units[0].appendSymbol(strconv.AppendFloat(b, x, byte(verb), precision, 64))
	default:
		fmt.Fprintf(f, "%%!%c(units.%s=%s)", verb, q.goType, q.string(x))
		return
	}
	finite := !math.IsNaN(x) && !math.IsInf(x, 0)
	if isDigit(b[0]) && finite {
		switch {
		case f.Flag('+'):
			b = slices.Insert(b, 0, '+')
		case f.Flag(' '):
			b = slices.Insert(b, 0, ' ')
		}
	}
	if verb == 'q' {
		b = strconv.AppendQuote(nil, string(b))
	}
	width, _ := f.Width()
	pad := max(0, width-utf8.RuneCount(b))
	switch {
	case f.Flag('-'):
		b = append(b, strings.Repeat(" ", pad)...)
	case f.Flag('0') && finite && isDigit(b[0]):
		b = slices.Insert(b, 0, bytes.Repeat([]byte{'0'}, pad)...)
	case f.Flag('0') && finite && (b[0] == '-' || b[0] == '+' || b[0] == ' '):
		b = slices.Insert(b, 1, bytes.Repeat([]byte{'0'}, pad)...)
	default:
		b = slices.Insert(b, 0, bytes.Repeat([]byte{' '}, pad)...)
	}
	_, _ = f.Write(b) // fmt reports no error of its own either
}
