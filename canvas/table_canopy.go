package canvas

// Canopy roofs of EN 1991-1-4:2005, tables 7.6 and 7.7, as recalled: not seen
// in the standard itself. Values are net of both faces, positive downwards, for
// rigid roofs on land.
//
// Zones: A the middle, B strips of a tenth of the length at the gables, C
// strips of a tenth of the depth at the windward and leeward edges. The duopitch
// roof has a strip D along its ridge, which is left out here.
type canopyRow struct {
	angle            float64 // degrees
	down             float64
	up0, up1         float64 // blockage 0 and 1
	downA, downB     float64
	downC            float64
	up0A, up0B, up0C float64
	up1A, up1B, up1C float64
}

// monopitch is table 7.6.
var monopitch = []canopyRow{
	{0, 0.2, -0.5, -1.3, 0.5, 1.8, 1.1, -0.6, -1.3, -1.4, -1.5, -1.8, -2.2},
	{5, 0.4, -0.7, -1.4, 0.8, 2.1, 1.3, -1.1, -1.7, -1.8, -1.6, -2.2, -2.5},
	{10, 0.5, -0.9, -1.4, 1.2, 2.4, 1.6, -1.5, -2.0, -2.1, -2.1, -2.6, -2.7},
	{15, 0.7, -1.1, -1.4, 1.4, 2.7, 1.8, -1.8, -2.4, -2.5, -1.6, -2.9, -3.0},
	{20, 0.8, -1.3, -1.4, 1.7, 2.9, 2.1, -2.2, -2.8, -2.9, -1.6, -2.9, -3.0},
	{25, 1.0, -1.6, -1.4, 2.0, 3.1, 2.3, -2.6, -3.2, -3.2, -1.5, -2.5, -2.8},
	{30, 1.2, -1.8, -1.4, 2.2, 3.2, 2.4, -3.0, -3.8, -3.6, -1.5, -2.2, -2.7},
}

// duopitch is table 7.7, negative angles for a roof that is lowest in the middle.
var duopitch = []canopyRow{
	{-20, 0.7, -0.7, -1.3, 0.8, 1.6, 0.6, -0.9, -1.3, -1.6, -1.5, -2.4, -2.4},
	{-15, 0.5, -0.6, -1.4, 0.6, 1.5, 0.7, -0.8, -1.3, -1.6, -1.6, -2.7, -2.6},
	{-10, 0.4, -0.6, -1.4, 0.6, 1.4, 0.8, -0.8, -1.3, -1.5, -1.6, -2.7, -2.6},
	{-5, 0.3, -0.5, -1.3, 0.5, 1.5, 0.8, -0.7, -1.3, -1.6, -1.5, -2.4, -2.4},
	{5, 0.3, -0.6, -1.3, 0.6, 1.8, 1.3, -0.6, -1.4, -1.4, -1.3, -2.0, -1.8},
	{10, 0.4, -0.7, -1.3, 0.7, 1.8, 1.4, -0.7, -1.5, -1.4, -1.3, -2.0, -1.8},
	{15, 0.4, -0.8, -1.3, 0.9, 1.9, 1.4, -0.9, -1.7, -1.4, -1.3, -2.2, -1.6},
	{20, 0.6, -0.9, -1.3, 1.1, 1.9, 1.5, -1.2, -1.8, -1.4, -1.4, -2.2, -1.6},
	{25, 0.7, -1.0, -1.3, 1.2, 1.9, 1.6, -1.4, -1.9, -1.4, -1.4, -2.0, -1.5},
	{30, 0.9, -1.0, -1.3, 1.3, 1.9, 1.6, -1.4, -1.9, -1.4, -1.4, -1.8, -1.4},
}
