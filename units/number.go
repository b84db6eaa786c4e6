package units

import (
	"math/big"
	"strconv"
	"strings"
)

// A number as it was typed, without a sign:
//
//	decimal              12  12.5  .5  1.25e3
//	over/under           5/16
//	decimal over/under   1 1/2  1-1/2
type number struct {
	decimal     string // "0" before a bare fraction
	over, under string
}

// scanNumber splits a number off the front of s. The reason is not empty when
// there is none or it is malformed.
func scanNumber(s string) (n number, rest, reason string) {
	whole := digits(s)
	rest = s[len(whole):]
	if whole != "" && strings.HasPrefix(rest, "/") {
		n.decimal = "0"
		return scanFraction(n, s)
	}
	if strings.HasPrefix(rest, ".") {
		decimals := digits(rest[1:])
		if decimals == "" {
			return n, s, "digits are missing after the decimal point"
		}
		rest = rest[1+len(decimals):]
	}
	if len(rest) == len(s) {
		return n, s, "it does not begin with a number"
	}
	if rest != "" && (rest[0] == 'e' || rest[0] == 'E') {
		exponent := rest[1:]
		if exponent != "" && (exponent[0] == '-' || exponent[0] == '+') {
			exponent = exponent[1:]
		}
		if d := digits(exponent); d != "" {
			if e, err := strconv.Atoi(d); err != nil || e > maxExponent {
				return n, s, "the exponent is beyond " + strconv.Itoa(maxExponent)
			}
			rest = exponent[len(d):]
		}
	}
	n.decimal = s[:len(s)-len(rest)]
	if n.decimal != whole {
		return n, rest, ""
	}
	// A whole number may be followed by a fraction.
	after := strings.TrimLeft(rest, " \t")
	if len(after) == len(rest) {
		var dash bool
		if after, dash = strings.CutPrefix(rest, "-"); !dash {
			return n, rest, ""
		}
	}
	if over := digits(after); over != "" && strings.HasPrefix(after[len(over):], "/") {
		return scanFraction(n, after)
	}
	return n, rest, ""
}

// scanFraction reads the fraction that s begins with: digits and a stroke are
// known to be there.
func scanFraction(n number, s string) (number, string, string) {
	n.over = digits(s)
	rest := s[len(n.over)+1:]
	n.under = digits(rest)
	switch {
	case n.under == "":
		return n, s, "digits are missing after the fraction stroke"
	case strings.Trim(n.under, "0") == "":
		return n, s, "the fraction divides by zero"
	case n.decimal != "0" && n.fraction().Cmp(big.NewRat(1, 1)) >= 0:
		return n, s, "the fraction after a whole number is not less than one"
	}
	return n, rest[len(n.under):], ""
}

// digits returns the decimal digits that s begins with.
func digits(s string) string {
	i := 0
	for i < len(s) && isDigit(s[i]) {
		i++
	}
	return s[:i]
}

func (n number) isWhole() bool {
	return n.over == "" && digits(n.decimal) == n.decimal
}

// fraction and rat read only what scanNumber has let through, and so cannot fail.
func (n number) fraction() *big.Rat {
	// In base 10: big.Rat would take 010/16 for an octal numerator.
	over, _ := new(big.Int).SetString(n.over, 10)
	under, _ := new(big.Int).SetString(n.under, 10)
	return new(big.Rat).SetFrac(over, under)
}

func (n number) rat() *big.Rat {
	x, _ := new(big.Rat).SetString(n.decimal) // always decimal without a stroke
	if n.over != "" {
		x.Add(x, n.fraction())
	}
	return x
}
