// Package draw draws circuits and where their volts go as SVG.
//
// A [Diagram] is a circuit diagram with the symbols of IEC 60617: every part with its
// size or rating, and with its drop and current where a solution is given. It is
// laid out by itself: a node where more than two parts meet, or a post of a source, is
// a vertical line in a column of its own; the parts between two of them are in line on
// a level; and every symbol stands in a gap between columns, so that nothing lies on
// anything else. Wires cross without a dot where they are not joined.
//
// [Bars] is a bar chart of a drop report. Lengths of cables are in metres, or in feet where
// a diagram is Imperial.
//
// One millimetre of the file is one millimetre on paper. The file stands alone or inline in
// an HTML page, follows the reader's dark screen and prints on white. Every error about
// the data is a *[wiring.Error]; nothing has been written then. Errors of the writer come as
// they are.
//
// # Caution
//
// A diagram shows how parts are joined, not how they are to be installed. Follow the rules in
// force and the makers' instructions, and have the work checked by a qualified marine
// electrician.
package draw
