package hostile

import (
	"reflect"

	"example.com/forepeak/rode"
)

// byType holds values that are accepted, for types that cannot be made up.
var byType = map[reflect.Type]func() any{
	reflect.TypeFor[*rode.Solver](): func() any { s, _ := rode.NewSolver(theRode(), theSite()); return s },
}

// valid holds values that are accepted, by function and parameter.
var valid = map[string]any{}

// allowedToFail lists calls whose valid values are refused all the same.
var allowedToFail = map[string]bool{}

// costly lists functions that take long, with the number of calls they get.
var costly = map[string]int{}

// mayBeInfinite lists results that are infinite by their documentation.
var mayBeInfinite = map[string][]string{}

// others are errors that are not about a value.
var others = []error{}

func theRode() rode.Rode { return rode.Rode{} }
func theSite() rode.Site { return rode.Site{} }
