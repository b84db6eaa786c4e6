// Package hostile holds a test that calls every exported function and method of
// the library with values that no one should give it: not numbers, infinite,
// zero of both signs, negative, huge, tiny, a thousand times too large (a unit
// mistaken), empty, absent, repeated ten thousand times.
//
// table_test.go names every exported function and type; it is written by
//
//	go test ./internal/hostile -run Table -update
//
// and a test fails when it lags behind the source. valid_test.go holds, for what
// cannot be made up, values that are accepted: each call is first made with
// those, then with one of them spoilt at a time, then with several.
//
// Whatever returns an error must return one, with the field named in the error
// of its package, or finite numbers. Nothing may panic or run on. Accessors and
// products of package units follow IEEE 754 and are only asked not to panic.
//
// A second test spoils each number by itself: the error names the field that holds
// it, and what is accepted is what nothing reads.
package hostile
