package wiring

// tableISO is table A.1 of ISO 10133, at 30 °C: A by mm² and insulation temperature.
// All of it is from memory. The 200 °C column from 2.5 to 150 mm² is also printed in a
// battery maker's manual, which calls it one of 105 °C; the readings are unresolved.
var tableISO = ampacityTable{
	rules:   ISO,
	ambient: 30,
	columns: []float64{60, 70, 85, 105, 125, 200},
	engine:  []float64{0, 0.75, 0.82, 0.86, 0.89, 1}, // 0: not allowed; from memory
	kind:    "memory",
	rows: []ampacityRow{
		{"0.75 mm²", 0.75, []float64{8, 10, 12, 16, 20, 25}},
		{"1 mm²", 1, []float64{12, 14, 18, 20, 25, 35}},
		{"1.5 mm²", 1.5, []float64{16, 18, 21, 25, 30, 40}},
		{"2.5 mm²", 2.5, []float64{20, 25, 30, 35, 40, 45}},
		{"4 mm²", 4, []float64{30, 35, 40, 45, 50, 55}},
		{"6 mm²", 6, []float64{40, 45, 50, 60, 70, 75}},
		{"10 mm²", 10, []float64{60, 65, 70, 90, 100, 120}},
		{"16 mm²", 16, []float64{80, 90, 100, 130, 150, 170}},
		{"25 mm²", 25, []float64{110, 120, 140, 170, 185, 200}},
		{"35 mm²", 35, []float64{140, 160, 185, 210, 225, 240}},
		{"50 mm²", 50, []float64{180, 210, 230, 270, 300, 325}},
		{"70 mm²", 70, []float64{220, 265, 285, 330, 360, 375}},
		{"95 mm²", 95, []float64{260, 310, 330, 390, 410, 430}},
		{"120 mm²", 120, []float64{300, 360, 400, 450, 480, 520}},
		{"150 mm²", 150, []float64{350, 380, 430, 475, 520, 560}},
	},
}

// tableCFR is table 5 of 33 CFR 183.425, at 30 °C: A by gauge and insulation temperature.
// The voluntary American standard prints the same figures; its 105 °C column is confirmed
// by two tables of boat cable.
var tableCFR = ampacityTable{
	rules:   CFR,
	ambient: 30,
	columns: []float64{60, 75, 80, 90, 105, 125, 200},
	// Note 1, for engine spaces at 50 °C, was cut off in every copy seen: the factors
	// are from memory, those of 60 and 75 °C also printed for buildings.
	engine: []float64{0.58, 0.75, 0.78, 0.82, 0.86, 0.89, 1},
	kind:   "standard",
	rows: []ampacityRow{
		{"18 AWG", 0.823, []float64{10, 10, 15, 20, 20, 25, 25}},
		{"16 AWG", 1.309, []float64{15, 15, 20, 25, 25, 30, 35}},
		{"14 AWG", 2.081, []float64{20, 20, 25, 30, 35, 40, 45}},
		{"12 AWG", 3.309, []float64{25, 25, 35, 40, 45, 50, 55}},
		{"10 AWG", 5.261, []float64{40, 40, 50, 55, 60, 70, 70}},
		{"8 AWG", 8.366, []float64{55, 65, 70, 70, 80, 90, 100}},
		{"6 AWG", 13.3, []float64{80, 95, 100, 100, 120, 125, 135}},
		{"4 AWG", 21.15, []float64{105, 125, 130, 135, 160, 170, 180}},
		{"3 AWG", 26.67, []float64{120, 145, 150, 155, 180, 195, 210}},
		{"2 AWG", 33.63, []float64{140, 170, 175, 180, 210, 225, 240}},
		{"1 AWG", 42.41, []float64{165, 195, 210, 210, 245, 265, 280}},
		{"1/0 AWG", 53.48, []float64{195, 230, 245, 245, 285, 305, 325}},
		{"2/0 AWG", 67.43, []float64{225, 265, 285, 285, 330, 355, 370}},
		{"3/0 AWG", 85.03, []float64{260, 310, 330, 330, 385, 410, 430}},
		{"4/0 AWG", 107.2, []float64{300, 360, 385, 385, 445, 475, 510}},
	},
}

// tableIEC60092 is that of IEC 60092-352 for single cables, at 45 °C: A by mm². The 85 °C
// column was read in a class society's rules and in a maker's data sheet.
var tableIEC60092 = ampacityTable{
	rules:   IEC60092,
	ambient: 45,
	columns: []float64{80, 85},
	kind:    "standard",
	rows: []ampacityRow{
		{"1.5 mm²", 1.5, []float64{19, 20}},
		{"2.5 mm²", 2.5, []float64{26, 28}},
		{"4 mm²", 4, []float64{35, 38}},
		{"6 mm²", 6, []float64{45, 48}},
		{"10 mm²", 10, []float64{63, 67}},
		{"16 mm²", 16, []float64{84, 90}},
		{"25 mm²", 25, []float64{110, 120}},
		{"35 mm²", 35, []float64{140, 145}},
		{"50 mm²", 50, []float64{165, 180}},
		{"70 mm²", 70, []float64{215, 225}},
		{"95 mm²", 95, []float64{260, 275}},
		{"120 mm²", 120, []float64{300, 320}},
		{"150 mm²", 150, []float64{340, 365}},
		{"185 mm²", 185, []float64{390, 415}},
		{"240 mm²", 240, []float64{460, 490}},
		{"300 mm²", 300, []float64{530, 560}},
	},
}
