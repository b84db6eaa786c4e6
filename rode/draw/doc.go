// Package draw draws rodes, snubbers and bridles to scale as SVG.
//
// A [Bow] is a snubber or bridle from above and from the side.
//
// A [Profile] sets one picture below the other, all at one scale that is equal
// along and up, so that angles are true, with the anchors in line. One
// millimetre of the file is one millimetre on paper; the scale is printed, and a
// bar is there to check it with a ruler. The file stands alone or inline in an
// HTML page, follows the reader's dark screen and prints on white. In a page
// give it the style
//
//	svg { max-width: 100%; height: auto }
//
// to have it shrink on a small screen, bar and all.
//
// Lengths are in metres and forces in newtons, or in feet and pounds-force where a
// drawing is Imperial.
//
// Chain is drawn as links and rope as a plain line. Of the fittings between two
// pieces those lighter than water are drawn as floats, and those that weigh more
// in it than a kilogram does in air, and than a metre of either piece, as weights;
// the rest are connectors, drawn like the joint of two different lines.
//
// Every error about the data is a *[rode.Error] that names the view and the
// field; nothing has been written then. Errors of the writer come as they are.
//
// # Caution
//
// A picture shows the static shape in still water. Gusts, sheering and waves
// load a rode to a multiple of the pull drawn.
package draw
