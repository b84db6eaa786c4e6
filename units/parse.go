package units

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Limits that keep the exact arithmetic small whatever is typed.
const (
	maxInput    = 100 // bytes
	maxExponent = 400 // of ten
)

// parse reads a number and a unit, or several where a smaller unit may follow
// (41ft 3in), converts the digits exactly and rounds once, to nearest even.
func (q *quantity) parse(input string) (float64, error) {
	if len(input) > maxInput {
		return 0, q.errSyntax(input, "longer than "+strconv.Itoa(maxInput)+" bytes")
	}
	if strings.Contains(input, ",") {
		return 0, q.errSyntax(input, "a comma is not accepted, as 1,200 is 1200 to some and 1.2 to others: write 1200 or 1.2")
	}
	s := trimBlanks(input)
	negative := strings.HasPrefix(s, "-")
	if negative || strings.HasPrefix(s, "+") {
		s = s[1:]
	}
	p, rest, err := q.scanPart(input, s)
	if err != nil {
		return 0, err
	}
	if rest == "" {
		if x, ok := p.quick(); ok {
			if negative {
				x = -x
			}
			return x, nil
		}
	}
	sum := p.exact(negative)
	for rest != "" {
		if p.unit.smaller == "" {
			// What follows may belong to the unit, as in m2 where a length is wanted.
			return 0, q.errUnit(input, p.tail)
		}
		var next part
		if next, rest, err = q.scanPart(input, rest); err != nil {
			return 0, err
		}
		if reason := next.follows(p); reason != "" {
			return 0, q.errSyntax(input, reason)
		}
		sum.Add(sum, next.exact(negative))
		p = next
	}
	x, _ := sum.Float64()
	switch {
	case math.IsInf(x, 0):
		return 0, q.errSyntax(input, "too large")
	case x == 0 && sum.Sign() != 0:
		return 0, q.errSyntax(input, "too small")
	case x == 0 && negative && p.unit.hundredths == 0:
		x = math.Copysign(0, -1)
	}
	return x, nil
}

// A part is one number with its unit.
type part struct {
	number
	unit *unit
	tail string // the input from the unit on
}

// scanPart splits a number and a unit off the front of s, which is a tail of
// input without leading blanks; rest has none either.
func (q *quantity) scanPart(input, s string) (p part, rest string, err error) {
	var reason string
	p.number, rest, reason = scanNumber(s)
	if reason != "" {
		return p, "", q.errSyntax(input, reason)
	}
	number := s[:len(s)-len(rest)]
	p.tail = trimBlanks(rest)
	if p.tail == "" {
		return p, "", q.errSyntax(input, "the unit is missing: write for example "+number+" "+q.say[0]+" or "+number+" "+q.say[1])
	}
	var name string
	if p.unit, name = q.find(p.tail); p.unit == nil {
		return p, "", q.errUnit(input, p.tail)
	}
	return p, trimBlanks(p.tail[len(name):]), nil
}

// follows says what is wrong with p after the larger unit of before; it is
// empty when nothing is.
func (p part) follows(before part) string {
	switch {
	case p.unit.symbol() != before.unit.smaller:
		return "only " + before.unit.smaller + " may follow " + before.unit.symbol()
	case !before.isWhole():
		return "a smaller unit may follow only a whole number of " + before.unit.symbol()
	}
	whole := part{number: number{decimal: "1"}, unit: before.unit}
	if p.exact(false).Cmp(whole.exact(false)) >= 0 {
		return "as much as one " + before.unit.symbol() + " or more in " + p.unit.symbol() + " after " + before.unit.symbol()
	}
	return ""
}

// exact returns the value in SI.
func (p part) exact(negative bool) *big.Rat {
	x := p.rat()
	if negative {
		x.Neg(x) // before the offset: -3 °C
	}
	x.Add(x, new(big.Rat).SetFrac64(int64(p.unit.hundredths), 100))
	x.Mul(x, new(big.Rat).SetFrac64(int64(p.unit.num), int64(p.unit.den)))
	if p.unit.pi {
		pi, _ := new(big.Rat).SetString(piDigits)
		x.Mul(x, pi)
	}
	return x
}

// piDigits is pi to so many digits that the rounding of a product cannot tell.
const piDigits = "3.14159265358979323846264338327950288419716939937510582097494459230781640628620899"

// quick does what exact does for the usual short decimal, without big numbers:
// the quotient of two integers below 2^53 is correctly rounded. It declines
// whatever it cannot do, zero among it (its sign is parse's business).
func (p part) quick() (x float64, ok bool) {
	if p.over != "" || p.unit.pi || p.unit.hundredths != 0 {
		return 0, false
	}
	if p.unit.num == p.unit.den {
		x, err := strconv.ParseFloat(p.decimal, 64)
		return x, err == nil && x != 0
	}
	const limit = 1 << 53
	num, den, pointSeen := uint64(0), uint64(1), false
	for i := 0; i < len(p.decimal); i++ {
		switch c := p.decimal[i]; {
		case c == '.':
			pointSeen = true
		case !isDigit(c):
			return 0, false
		default:
			num = 10*num + uint64(c-'0')
			if pointSeen {
				den *= 10
			}
		}
		if num >= limit || den >= limit {
			return 0, false
		}
	}
	if num == 0 || num >= limit/p.unit.num || den >= limit/p.unit.den {
		return 0, false
	}
	return float64(num*p.unit.num) / float64(den*p.unit.den), true
}

func (q *quantity) errSyntax(input, reason string) error {
	return &ParseError{Quantity: q.name, Input: clip(input), Reason: reason}
}

func trimBlanks(s string) string { return strings.Trim(s, " \t") }

func isBlank(c byte) bool { return c == ' ' || c == '\t' }

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
