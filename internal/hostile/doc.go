// Package hostile holds two tests that call every exported function and method
// of the library.
//
// TestHostile calls them with values that no one should give: not numbers,
// infinite, zero of both signs, negative, huge, tiny, a thousand times too large
// (a unit mistaken), empty, absent, repeated ten thousand times.
//
// table_test.go names every exported function and type; it is written by
//
//	go test ./internal/hostile -run Table -update
//
// and a test fails when it lags behind the source. valid_test.go holds, for what
// cannot be made up, values that are accepted: each call is first made with
// those, then with one of them spoilt at a time, then with several. also_test.go holds
// other shapes of these values, of which the same is made: other kinds, with parts
// that may be left out and without those that need not be there.
//
// A part is spoilt, too, by every exported constant of its type, by another part of
// the same type (a name that something else has), by what is made up in place of what is
// absent; writers fail, contexts are done.
//
// Whatever returns an error must return one, with the field named in the error
// of its package, or finite numbers. Nothing may panic or run on. Accessors and
// products of package units follow IEEE 754 and are only asked not to panic.
//
// TestValues calls them with values that are accepted, and compares what they
// give with testdata/values.txt, which is written on amd64 by
//
//	go test ./internal/hostile -run Values -update
//
// so that results are the same on every platform. scenes_test.go adds harder
// cases. After a change that is meant to change results the difference of the
// file shows which did.
//
// A second test spoils each number by itself: the error names the field that holds
// it, and what is accepted is what nothing reads.
package hostile
