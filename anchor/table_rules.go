package anchor

import "example.com/forepeak/units"

// designLoads is table 1 of ABYC H-40 (2003), Anchoring, mooring and strong
// points. Working and lunch loads from 20 ft on and storm at 30 ft were checked
// against reproductions, all else is recalled.
var designLoads = []struct {
	length, sailBeam, powerBeam      float64 // ft
	permanent, storm, working, light float64 // lbf
}{
	{10, 4, 5, 480, 320, 160, 40},
	{15, 5, 6, 750, 500, 250, 60},
	{20, 7, 8, 1080, 720, 360, 90},
	{25, 8, 9, 1470, 980, 490, 125},
	{30, 9, 11, 2100, 1400, 700, 175},
	{35, 10, 13, 2700, 1800, 900, 225},
	{40, 11, 14, 3600, 2400, 1200, 300},
	{50, 13, 16, 4800, 3200, 1600, 400},
	{60, 15, 18, 6000, 4000, 2000, 500},
}

// equipment is table 1 of IACS recommendation 10 (rev. 5, 2023) up to number 205,
// and that of IACS UR A1 from there, recalled.
var equipment = []struct {
	over, to      float64
	mass          units.Mass   // of each bower anchor
	length        units.Length // of chain in all
	mild, special float64      // its diameter in grade 1 and in grade 2, mm
}{
	{50, 70, 180, 220, 14, 12.5},
	{70, 90, 240, 220, 16, 14},
	{90, 110, 300, 247.5, 17.5, 16},
	{110, 130, 360, 247.5, 19, 17.5},
	{130, 150, 420, 275, 20.5, 17.5},
	{150, 175, 480, 275, 22, 19},
	{175, 205, 570, 302.5, 24, 20.5},
	{205, 240, 660, 302.5, 26, 22},
	{240, 280, 780, 330, 28, 24},
	{280, 320, 900, 357.5, 30, 26},
	{320, 360, 1020, 357.5, 32, 28},
	{360, 400, 1140, 385, 34, 30},
	{400, 450, 1290, 385, 36, 32},
	{450, 500, 1440, 412.5, 38, 34},
}

// smallVessels is table 20.1 of the small vessel code of the UK Maritime and
// Coastguard Agency.
var smallVessels = []struct {
	length                                     units.Length
	main, kedge                                units.Mass
	mainChain, mainRope, kedgeChain, kedgeRope float64 // mm
}{
	{6, 8, 4, 6, 12, 6, 10},
	{7, 9, 4, 8, 12, 6, 10},
	{8, 10, 5, 8, 12, 6, 10},
	{9, 11, 5, 8, 12, 6, 10},
	{10, 13, 6, 8, 12, 6, 10},
	{11, 15, 7, 8, 12, 6, 10},
	{12, 18, 9, 8, 14, 8, 12},
	{13, 21, 10, 10, 14, 8, 12},
	{14, 24, 12, 10, 14, 8, 12},
	{15, 27, 13, 10, 14, 8, 12},
	{16, 30, 15, 10, 14, 8, 12},
	{17, 34, 17, 10, 14, 8, 14},
	{18, 38, 19, 10, 16, 8, 14},
	{19, 42, 21, 12, 16, 10, 14},
	{20, 47, 23, 12, 16, 10, 14},
	{21, 52, 26, 12, 16, 10, 14},
	{22, 57, 28, 12, 19, 10, 16},
	{23, 62, 31, 12, 19, 10, 16},
	{24, 68, 34, 12, 19, 10, 16},
}
