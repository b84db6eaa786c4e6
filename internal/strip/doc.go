// Package strip lays polygons on a strip of fixed width so that the strip used
// is as short as the work allowed makes it, and certifies layouts.
//
// Coordinates are integers in a unit of the caller's choice: x runs along the
// strip from 0, y across it from 0 to the width. A shape is given once for each
// rotation in which it may lie; [Turned] and [Outer] turn an outline, grow it by a
// gap and round it outward. Pieces are only translated, by whole
// units, so what is searched, returned and certified are the same numbers, and
// pieces that touch, or that fill the width exactly, are legal.
//
// [Solve] starts from a sampled leftmost placement in decreasing size, then
// shortens the strip step by step. At each length it lets the pieces overlap
// and moves them one at a time, over the whole strip and then down the slope of
// a weighted overlap, until none overlap; the weight of a pair grows for as
// long as it overlaps (guided local search). Overlap is decided exactly, by
// the winding number of the convolution of two outlines; how bad it is comes
// from circles inscribed in the pieces, which has a slope everywhere. Both are
// tabulated for each pair of outlines.
//
// A worker that gets no further lays all pieces anew. [Gather] then moves what
// lies loose to the begin of the strip.
//
// The plan follows the literature on overlap minimisation: Egeblad, Nielsen and
// Odgaard, European Journal of Operational Research 183 (2007) 1249; Imamichi,
// Yagiura and Nagamochi, Discrete Optimization 6 (2009) 345; and the circles of
// Gardeyn, Vanden Berghe and Wauters, arXiv 2509.13329 (2025).
//
// The search computes in float64. Sizes are limited so that every coordinate
// and every cross product of differences is a whole number that float64 holds
// exactly; all other products are rounded before they are added, so that no
// processor fuses the two. For a seed, an amount of work and a number of
// workers the layout is the same on every platform.
//
// Flaws that nothing may overlap, an end of the strip, and grids on which a piece
// may lie are for cloth that is stained, short or striped.
//
// [Certify] decides with 128-bit integers that a layout is complete, inside the
// strip and free of overlap. It shares only the tests of a ring with the search:
// whether it is simple, and which way it runs.
package strip
