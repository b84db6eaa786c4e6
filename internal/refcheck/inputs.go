package refcheck

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Inputs are the key=value pairs of one row. The getters have no error result,
// to keep handlers as short as the calls they make: a key that is missing, or
// whose value does not parse, gives a zero value and fails the row afterwards,
// whatever the handler returns. So does a key that no getter asked for.
type Inputs struct {
	values map[string]string
	used   map[string]bool
	errs   *[]error
}

var keySyntax = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*$`)

func parseInputs(s string) (Inputs, error) {
	in := Inputs{values: map[string]string{}, used: map[string]bool{}, errs: new([]error)}
	if s == "" {
		return in, nil
	}
	for pair := range strings.SplitSeq(s, ";") {
		key, value, found := strings.Cut(strings.TrimSpace(pair), "=")
		_, twice := in.values[key]
		switch {
		case !found || value == "":
			return in, fmt.Errorf("%q is not key=value", pair)
		case !keySyntax.MatchString(key):
			return in, fmt.Errorf("key %q is not a word", key)
		case strings.TrimSpace(value) != value:
			return in, fmt.Errorf("space after = in %q", pair)
		case twice:
			return in, fmt.Errorf("key %q is given twice", key)
		}
		in.values[key] = value
	}
	return in, nil
}

// Has reports whether the row gives key. Asking is not using.
func (in Inputs) Has(key string) bool {
	_, ok := in.values[key]
	return ok
}

// Text returns a value as it is written.
func (in Inputs) Text(key string) string {
	return get(in, key, func(s string) (string, error) { return s, nil })
}

// Float returns a pure number.
func (in Inputs) Float(key string) float64 {
	return get(in, key, func(s string) (float64, error) {
		d, err := parseDecimal(s)
		return d.value, err
	})
}

// Int returns a count.
func (in Inputs) Int(key string) int { return get(in, key, strconv.Atoi) }

// get marks the key as used and keeps the error for the row.
func get[T any](in Inputs, key string, parse func(string) (T, error)) T {
	in.used[key] = true
	var value T
	text, ok := in.values[key]
	if !ok {
		*in.errs = append(*in.errs, fmt.Errorf("input %s is missing", key))
		return value
	}
	value, err := parse(text)
	if err != nil {
		*in.errs = append(*in.errs, fmt.Errorf("input %s: %w", key, err))
	}
	return value
}

// unused is a key that no getter asked for, if there is one.
func (in Inputs) unused() (key string, found bool) {
	for _, key := range slices.Sorted(maps.Keys(in.values)) {
		if !in.used[key] {
			return key, true
		}
	}
	return "", false
}
