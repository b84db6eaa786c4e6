package refcheck

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

// Suite is how one package of the module is checked.
type Suite struct {
	Package  string             // rope: its folder, and the folder in testdata
	Handlers map[string]Handler // by func, as the rows have it: rope.Stretch#span

	// Exempt gives the reason why a calculation has no published value, and how
	// it is tested instead: a function (Stretch), a method (Line.Weight) or what
	// no row checks of a type (Line).
	Exempt map[string]string

	// Bookkeeping is what is no calculation, by the same names: lists, look-ups,
	// copies, constructors, plain sums and comparisons. String, Format, GoString, Error, Unwrap, Is, As,
	// Marshal..., Unmarshal... and Append... methods need no entry.
	Bookkeeping map[string]string
}

// findings are the values of a package that hold and what they check.
type findings struct {
	suite   Suite
	results []result // in order of file and line
	api     api
}

// examine runs all rows of a package. Only without errors are the findings
// complete.
func examine(s Suite, testdata, source fs.FS) (f findings, errs []error) {
	rows, errs := load(testdata, s.Package)
	exports, err := exported(source, s.Package)
	if err != nil {
		errs = append(errs, err)
	}
	if len(errs) > 0 {
		return f, errs // everything below would repeat them
	}
	f = findings{suite: s, api: exports}
	used := map[string]bool{}
	named := map[string]bool{}
	for _, r := range rows {
		name := strings.TrimPrefix(r.name(), s.Package+".")
		named[name] = true
		if !exports.all[name] {
			errs = append(errs, r.errorf("%s is not exported by the package", r.name()))
		}
		handler, ok := s.Handlers[r.function]
		if !ok {
			errs = append(errs, r.errorf("no handler for %s", r.function))
			continue
		}
		used[r.function] = true
		res, err := compute(r, handler)
		if err != nil {
			errs = append(errs, r.errorf("%s: %w", r.function, err))
			continue
		}
		f.results = append(f.results, res)
	}
	for _, function := range slices.Sorted(maps.Keys(s.Handlers)) {
		if !used[function] {
			errs = append(errs, fmt.Errorf("handler for %s, but no row in testdata/%s", function, s.Package))
		}
	}
	return f, append(errs, s.uncovered(exports, named)...)
}

// uncovered are the calculations that neither a row nor an exemption names, and
// the exemptions that are not needed.
func (s Suite) uncovered(a api, named map[string]bool) (errs []error) {
	needed := map[string]bool{}
	for _, c := range a.calculations {
		if named[c] || named[typeOf(c)] {
			continue
		}
		exempt, ok := s.exemption(c)
		if !ok {
			errs = append(errs, fmt.Errorf("%s.%s is an exported calculation without a row in testdata/%[1]s", s.Package, c))
			continue
		}
		needed[exempt] = true
	}
	reasons := maps.Clone(s.Exempt)
	for name, reason := range s.Bookkeeping {
		if _, twice := reasons[name]; twice {
			errs = append(errs, fmt.Errorf("exempt %s.%s is bookkeeping as well", s.Package, name))
			continue
		}
		if reasons == nil {
			reasons = map[string]string{}
		}
		reasons[name] = reason
	}
	for _, name := range slices.Sorted(maps.Keys(reasons)) {
		switch {
		case !a.all[name]:
			errs = append(errs, fmt.Errorf("exempt %s.%s is not exported by the package", s.Package, name))
		case !needed[name]:
			errs = append(errs, fmt.Errorf("exempt %s.%s has rows, or nothing to check", s.Package, name))
		case reasons[name] == "":
			errs = append(errs, fmt.Errorf("exempt %s.%s has no reason", s.Package, name))
		}
	}
	return errs
}

// exemption is the entry of Exempt or Bookkeeping that lets a calculation go unchecked.
func (s Suite) exemption(calculation string) (name string, ok bool) {
	for _, name := range []string{calculation, typeOf(calculation)} {
		_, exempt := s.Exempt[name]
		_, bookkeeping := s.Bookkeeping[name]
		if exempt || bookkeeping {
			return name, true
		}
	}
	return "", false
}
