package hostile

import "reflect"

// byType holds values that are accepted, for types that cannot be made up.
var byType = map[reflect.Type]func() any{}

func addType(f func() any) { byType[reflect.TypeOf(f())] = f }

// valid holds values that are accepted, by function and parameter; of methods,
// whose parameters have no names here, by number, the receiver being 0.
var valid = map[string]any{}

// allowedToFail lists calls whose valid values are refused all the same.
var allowedToFail = map[string]bool{}

// costly lists functions that take long, with the number of calls they get.
var costly = map[string]int{}

// mayBeInfinite lists results that are infinite by their documentation.
var mayBeInfinite = map[string][]string{}

// callersOwn lists what only finds a part of what it is given.
var callersOwn = map[string]bool{"wiring.Circuit.Element": true}

// others are errors that are not about a value.
var others = []error{}
