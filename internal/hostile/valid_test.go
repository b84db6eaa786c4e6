package hostile

import "reflect"

// byType holds values that are accepted, for types that cannot be made up.
var byType = map[reflect.Type]func() any{}

func addType(f func() any) { byType[reflect.TypeOf(f())] = f }

// valid holds values that are accepted, by function and parameter; of methods,
// whose parameters have no names here, by number, the receiver being 0.
var valid = map[string]any{}

// also holds further values that are accepted, by type or by the keys of valid:
// other kinds, with the parts that valid leaves out and without those it has.
var also = map[string][]func() any{}

// together holds arguments of a function that are accepted only with each other, by
// their names or numbers.
var together = map[string][]map[string]any{}

// alsoType is for values that some function accepts, not each that takes the type.
func alsoType(f func() any) {
	t := reflect.TypeOf(f()).String()
	also[t] = append(also[t], f)
}

// costly lists functions that take long, with the number of calls they get.
var costly = map[string]int{}

// callersOwn lists what only finds a part of what it is given.
var callersOwn = map[string]bool{"wiring.Circuit.Element": true}
