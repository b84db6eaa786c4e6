package canvas

// Canopy roofs of EN 1991-1-4:2005, tables 7.6 and 7.7, compared with two
// transcriptions each (the zones of table 7.7 with two files of one program): the
// standard itself was not seen. They differ in three places. In two the greater
// uplift stands; for zone C at 20 degrees, where zone D has as much, what goes with
// the lines above and below. Values are net of both faces, positive downwards,
// for rigid roofs on land.
//
// Zones: A the middle, B strips of a tenth of the length at the gables, C
// strips of a tenth of the depth at the windward and leeward edges, D the strip
// along a duopitch roof's ridge or valley, a fifth of the depth wide.
type canopyRow struct {
	angle          float64    // degrees
	down, up0, up1 canopyLine // at most; at least with blockage 0 and 1
}

// canopyLine is a line of the tables: the whole, zones A to D. D is 0 where there is none.
type canopyLine struct{ whole, a, b, c, d float64 }

// monopitch is table 7.6.
var monopitch = []canopyRow{
	{0, canopyLine{0.2, 0.5, 1.8, 1.1, 0}, canopyLine{-0.5, -0.6, -1.3, -1.4, 0}, canopyLine{-1.3, -1.5, -1.8, -2.2, 0}},
	{5, canopyLine{0.4, 0.8, 2.1, 1.3, 0}, canopyLine{-0.7, -1.1, -1.7, -1.8, 0}, canopyLine{-1.4, -1.6, -2.2, -2.5, 0}},
	{10, canopyLine{0.5, 1.2, 2.4, 1.6, 0}, canopyLine{-0.9, -1.5, -2.0, -2.1, 0}, canopyLine{-1.4, -2.1, -2.6, -2.7, 0}},
	{15, canopyLine{0.7, 1.4, 2.7, 1.8, 0}, canopyLine{-1.1, -1.8, -2.4, -2.5, 0}, canopyLine{-1.4, -1.6, -2.9, -3.0, 0}},
	{20, canopyLine{0.8, 1.7, 2.9, 2.1, 0}, canopyLine{-1.3, -2.2, -2.8, -2.9, 0}, canopyLine{-1.4, -1.6, -2.9, -3.0, 0}},
	{25, canopyLine{1.0, 2.0, 3.1, 2.3, 0}, canopyLine{-1.6, -2.6, -3.2, -3.2, 0}, canopyLine{-1.4, -1.5, -2.5, -2.8, 0}},
	{30, canopyLine{1.2, 2.2, 3.2, 2.4, 0}, canopyLine{-1.8, -3.0, -3.8, -3.6, 0}, canopyLine{-1.4, -1.5, -2.2, -2.7, 0}},
}

// duopitch is table 7.7, negative angles for a roof that is lowest in the middle.
var duopitch = []canopyRow{
	{-20, canopyLine{0.7, 0.8, 1.6, 0.6, 1.7}, canopyLine{-0.7, -0.9, -1.3, -1.6, -0.6}, canopyLine{-1.3, -1.5, -2.4, -2.4, -0.6}},
	{-15, canopyLine{0.5, 0.6, 1.5, 0.7, 1.4}, canopyLine{-0.6, -0.8, -1.3, -1.6, -0.6}, canopyLine{-1.4, -1.6, -2.7, -2.6, -0.6}},
	{-10, canopyLine{0.4, 0.6, 1.4, 0.8, 1.1}, canopyLine{-0.6, -0.8, -1.3, -1.5, -0.6}, canopyLine{-1.4, -1.6, -2.7, -2.6, -0.6}},
	{-5, canopyLine{0.3, 0.5, 1.5, 0.8, 0.8}, canopyLine{-0.5, -0.7, -1.3, -1.6, -0.6}, canopyLine{-1.3, -1.5, -2.4, -2.4, -0.6}},
	{5, canopyLine{0.3, 0.6, 1.8, 1.3, 0.4}, canopyLine{-0.6, -0.6, -1.4, -1.4, -1.1}, canopyLine{-1.3, -1.3, -2.0, -1.8, -1.5}},
	{10, canopyLine{0.4, 0.7, 1.8, 1.4, 0.4}, canopyLine{-0.7, -0.7, -1.5, -1.4, -1.4}, canopyLine{-1.3, -1.3, -2.0, -1.8, -1.8}},
	{15, canopyLine{0.4, 0.9, 1.9, 1.4, 0.4}, canopyLine{-0.8, -0.9, -1.7, -1.4, -1.8}, canopyLine{-1.3, -1.3, -2.2, -1.6, -2.1}},
	{20, canopyLine{0.6, 1.1, 1.9, 1.5, 0.4}, canopyLine{-0.9, -1.2, -1.8, -1.4, -2.0}, canopyLine{-1.4, -1.4, -2.2, -1.6, -2.1}},
	{25, canopyLine{0.7, 1.2, 1.9, 1.6, 0.5}, canopyLine{-1.0, -1.4, -1.9, -1.4, -2.0}, canopyLine{-1.3, -1.4, -2.0, -1.5, -2.0}},
	{30, canopyLine{0.9, 1.3, 1.9, 1.6, 0.7}, canopyLine{-1.0, -1.4, -1.9, -1.4, -2.0}, canopyLine{-1.3, -1.4, -1.8, -1.4, -2.0}},
}
