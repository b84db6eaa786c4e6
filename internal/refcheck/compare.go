package refcheck

import (
	"errors"
	"fmt"
	"math"
)

// A Handler computes what a row's source printed. It returns a float64 (or an
// int) for a pure number, a string for a text, or a quantity: any value that
// converts itself to the unit of the row.
type Handler func(in Inputs) (any, error)

// quantity is what every type of package units has.
type quantity interface {
	In(unit string) (float64, error)
}

// result is a row that has been computed.
type result struct {
	row
	got float64 // in the printed unit

	// deviation is |got - want| in units of the printed rounding, to one
	// decimal: up to 1 the source could have printed got.
	deviation float64
}

// compute runs the handler. The error says why the row does not hold.
func compute(r row, handler Handler) (result, error) {
	in, err := parseInputs(r.inputs)
	if err != nil {
		return result{}, err
	}
	value, err := handler(in)
	if len(*in.errs) > 0 {
		return result{}, errors.Join(*in.errs...) // the handler's own error follows from these
	}
	if err != nil {
		return result{}, err
	}
	if key, found := in.unused(); found {
		return result{}, fmt.Errorf("input %s is not used by the handler", key)
	}
	if r.isText() {
		if text, ok := value.(string); !ok || text != r.want {
			return result{}, fmt.Errorf("got %v (%[1]T), want the text %q", value, r.want)
		}
		return result{row: r}, nil
	}
	got, err := inUnit(value, r.unit)
	if err != nil {
		return result{}, err
	}
	off := distance(got, r.printed.value)
	if off > r.tol {
		return result{}, fmt.Errorf("got %v %s, want %s, off by %.3g and not %v", got, r.unit, r.want, off, r.tol)
	}
	return result{row: r, got: got, deviation: tenths(off / r.printed.rounding)}, nil
}

// inUnit is the number that a source would print for value in unit.
func inUnit(value any, unit string) (float64, error) {
	var number float64
	switch v := value.(type) {
	case float64:
		number = v
	case int:
		number = float64(v)
	case quantity:
		if unit == "" {
			return 0, fmt.Errorf("got a %T, but the row has no unit", v)
		}
		var err error
		if number, err = v.In(unit); err != nil {
			return 0, err
		}
		return number, finite(number)
	default:
		return 0, fmt.Errorf("got a %T, want a number or a quantity", value)
	}
	switch unit {
	case "":
	case "%":
		number *= 100
	default:
		return 0, fmt.Errorf("got the pure number %v, want a quantity in %s", number, unit)
	}
	return number, finite(number)
}

func finite(x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("got %v", x)
	}
	return nil
}

// distance is |got - want| without the noise of float64 itself, which differs
// from one processor to the next and would decide whether half a unit of the
// last digit is within half a unit of the last digit.
func distance(got, want float64) float64 {
	const fewLastBits = 4 * 0x1p-52
	return max(0, math.Abs(got-want)-fewLastBits*math.Abs(want))
}

// tenths rounds to one decimal. A tie goes up on every processor, also when it
// is only nearly a tie.
func tenths(x float64) float64 {
	return math.Floor(x*10+0.5+1e-6) / 10
}
