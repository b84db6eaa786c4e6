package hostile

import "reflect"

// byType holds values that are accepted, for types that cannot be made up.
var byType = map[reflect.Type]func() any{}

func addType(f func() any) { byType[reflect.TypeOf(f())] = f }

// valid holds values that are accepted, by function and parameter; of methods,
// whose parameters have no names here, by number, the receiver being 0.
var valid = map[string]any{}

// costly lists functions that take long, with the number of calls they get.
var costly = map[string]int{}

// callersOwn lists what only finds a part of what it is given.
var callersOwn = map[string]bool{"wiring.Circuit.Element": true}
