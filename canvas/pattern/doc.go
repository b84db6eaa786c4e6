// Package pattern draws the pieces of package canvas at true scale: as SVG in
// millimetres, as one wide page of PDF for a plotter, and as PDF tiled on sheets
// of paper that are taped together.
//
// Lines are told apart by their form: the cut line is thick, the finished line
// (where it is sewn or folded) is dashed, a slit is a chain line, match marks are
// short strokes with the number of their pair. Every drawing bears a square of
// 100 mm: measure it before cutting, since printers like to scale.
//
// Lines are true to 0.01 mm in SVG and 0.004 mm in PDF; what the printer does is
// checked with the square. Only programs that import this package compile a PDF
// writer in.
package pattern
