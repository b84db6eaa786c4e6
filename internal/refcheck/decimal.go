package refcheck

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
)

// decimal is a number as a source prints it.
type decimal struct {
	value    float64
	rounding float64  // half a unit of the last printed digit
	exact    *big.Rat // the printed number itself
	places   int      // digits after the decimal point, negative for 12e3
}

var decimalSyntax = regexp.MustCompile(`^-?[0-9]+(?:\.([0-9]+))?(?:[eE]([+-]?[0-9]{1,3}))?$`)

func parseDecimal(s string) (decimal, error) {
	m := decimalSyntax.FindStringSubmatch(s)
	if m == nil {
		return decimal{}, fmt.Errorf("%q is not a decimal number", s)
	}
	var exponent int
	if m[2] != "" {
		exponent, _ = strconv.Atoi(m[2]) // three digits at most
	}
	value, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return decimal{}, fmt.Errorf("%q is out of range", s)
	}
	exact, _ := new(big.Rat).SetString(s) // accepts all that the syntax above does
	d := decimal{value: value, exact: exact, places: len(m[1]) - exponent}
	d.rounding, _ = d.halfUnit().Float64()
	if d.rounding == 0 {
		return decimal{}, fmt.Errorf("%q has more digits than can be checked", s)
	}
	return d, nil
}

// halfUnit is exact, so that a tolerance of 0.05 beside a printed 12.3 is not
// refused for the last bit of a float.
func (d decimal) halfUnit() *big.Rat {
	half, _ := new(big.Rat).SetString(fmt.Sprintf("5e%d", -d.places-1))
	return half
}
