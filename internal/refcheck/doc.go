// Package refcheck compares the module's calculations with values that
// somebody else printed, and writes down how well they agree.
//
// The values are rows of testdata/<package>/*.csv. A row says what was computed,
// from which inputs, what was printed, to which digit, and where:
//
//	id,func,inputs,want,unit,tol,kind,source,where,read,comment
//	rope-07,rope.Stretch,load=2.5 kN; length=30 m,1.24,m,0.005,example,"Title, 3rd ed.",example 4-2,original,
//
// The columns:
//
//   - id is unique in its package.
//   - func names what is checked: rope.Stretch, rope.Line.Weight, or a type,
//     rope.Line, which stands for the type and all its methods. A suffix tells
//     apart several results of one calculation: rope.Stretch#span.
//   - inputs are key=value pairs separated by semicolons; a quantity carries its
//     unit. What every row of a calculation shares belongs in its handler.
//   - want is copied from the source with all the digits printed there, and unit
//     is the unit it is printed in: empty or 1 for a pure number, % for a pure
//     number printed in per cent, text for a word.
//   - tol is in the printed unit: half a unit of the last printed digit. More
//     than that is a disagreement and needs a comment that explains it. A row
//     whose unit is text has no tol.
//   - kind is standard, handbook, example (a worked example), dataset, library
//     (computed by a general-purpose library), practice (common in the trade, no
//     source) or memory (recalled, not seen).
//   - source is title and edition, where is the table, section or page, and read
//     is original or reproduction. A library needs a source, practice and memory
//     need none, and none of the three has been read.
//
// Lines that start with # are comments.
//
// A package's test gives each func a [Handler] and calls [Run], which fails on
// a row without a handler, a handler without a row, a value out of tolerance,
// an input that the handler did not use, an exported calculation that no row
// checks, and a report, testdata/README.md, that is not what the rows now say:
//
//	//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update
//
//	func TestReference(t *testing.T) {
//		refcheck.Run(t, refcheck.Suite{
//			Package: "rope",
//			Handlers: map[string]refcheck.Handler{
//				"rope.Stretch": func(in refcheck.Inputs) (any, error) {
//					return rope.Stretch(in.Force("load"), in.Length("length"))
//				},
//			},
//			Exempt:      map[string]string{"Wear": "the caller's figures, tested by putting the answer back"},
//			Bookkeeping: map[string]string{"Catalogue": "a list"},
//		})
//	}
//
// Package units must do this from its external test package, units_test, since
// this package imports it. The report is written by go generate -run refcheck ./...
package refcheck
