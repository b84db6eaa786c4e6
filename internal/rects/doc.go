// Package rects lays rectangles on a strip of fixed width in the least length,
// and proves that it is the least where the work allowed is enough for that.
//
// Sizes are integers in a unit of the caller's choice. x runs along the strip
// from 0, y across it from 0 to the width; sides stay parallel to those of the
// strip, and a piece may be given a quarter turn where that is allowed. Pieces
// may touch.
//
// [Solve] works from both sides. Lower bounds come from the area, from dual
// feasible functions of both sides (pieces that cannot lie side by side are the
// simplest case) and from the sums that sides can make: the least length is one
// of them. Upper bounds come from best fit on the lowest gap of the skyline, with
// a local search over the order of the pieces. Between the two a depth-first
// search decides whether the pieces go into a length: it fills gaps of the skyline from
// their left corner, keeps account of what is wasted, and goes back as soon as
// the sums of the sides left prove more waste than the length has room for. Where
// the length has no room for waste at all, it takes the gap with the fewest
// choices first, which is what solves sets cut from a full rectangle.
//
// The plan follows the literature: Burke, Kendall and Whitwell, Operations
// Research 52 (2004) 655 (best fit); Martello, Monaci and Vigo, INFORMS Journal on
// Computing 15 (2003) 310, and Boschetti and Montaletti, Operations Research 58 (2010) 1774 (bounds and
// reductions); Carlier, Clautiaux and Moukrim, Computers and Operations Research
// 34 (2007) 2223 (dual feasible functions); Kenmochi, Imamichi, Nonobe, Yagiura
// and Nagamochi, European Journal of Operational Research 198 (2009) 73 (perfect
// packing).
//
// All arithmetic is on integers: for a seed and an amount of work the layout is
// the same on every platform. [Certify] shares no code with the search.
package rects
