// Package pattern draws the pieces of package canvas at true scale, and what goes with them.
//
//   - [FullSize] puts pieces on a [Sheet], to be written as SVG in millimetres, as one wide
//     page of PDF for a plotter, or as PDF tiled on sheets of paper that are taped together.
//     SVG takes all letters; PDF is refused where words have others than western European ones.
//   - [WritePolylines] are the lines for a cutting machine, [WriteOffsets] a table for marking a
//     piece out with a tape and a square.
//   - [Overview] draws pieces small with their sizes, [AwningPlan] an awning as it is
//     set, with the pulls of its corners. They are for the wall, not to be cut by.
//   - [Roll] is where pieces lie on the cloth, with flaws, order of cutting and what is
//     left; [RollOf] takes it from a plan, [BiasStrips] lays out a binding on the bias.
//
// Lines are told apart by their form, and the sheet explains those that it has: the cut
// line is thick, the finished line (where it is sewn or folded) is dashed, a slit is a
// chain line, dots show where a patch is sewn on, match marks are short strokes with
// the number of their pair. Every true-scale drawing bears a square of 100 mm, every
// tile a line of 100 mm: measure them before cutting, since printers like to scale.
//
// Sizes are in millimetres, or for an inch tape where pieces, an awning's plan, a roll
// or a binding are Imperial: in inches to a sixteenth, in feet and inches from 10 ft on
// where the unit is written beside the number, pulls in pounds-force; square and
// line measure 4 in. The files, and [WritePolylines], are in millimetres all the same.
//
// Lines are true to 0.01 mm in SVG and 0.005 mm in PDF; what the printer does is
// checked with the square. Only programs that import this package compile a PDF
// writer in. A piece without an outline, with one that crosses itself, or with numbers
// that are not finite is refused with a [canvas.Error].
package pattern
