package wiring

// IEC 60228:2004, tables 2 and 3: largest resistance at 20 °C in ohm/km of conductors of
// class 2 (stranded) and class 5 (flexible), of plain and of tinned annealed copper.
// Read in two reproductions that agree. At 50 mm² the flexible class is lower than the
// stranded one; that is how the standard has it.
var tableIEC60228 = []struct {
	area                             float64 // mm²
	plain2, tinned2, plain5, tinned5 float64 // ohm/km
}{
	{0.5, 36.0, 36.7, 39.0, 40.1},
	{0.75, 24.5, 24.8, 26.0, 26.7},
	{1, 18.1, 18.2, 19.5, 20.0},
	{1.5, 12.1, 12.2, 13.3, 13.7},
	{2.5, 7.41, 7.56, 7.98, 8.21},
	{4, 4.61, 4.70, 4.95, 5.09},
	{6, 3.08, 3.11, 3.30, 3.39},
	{10, 1.83, 1.84, 1.91, 1.95},
	{16, 1.15, 1.16, 1.21, 1.24},
	{25, 0.727, 0.734, 0.780, 0.795},
	{35, 0.524, 0.529, 0.554, 0.565},
	{50, 0.387, 0.391, 0.386, 0.393},
	{70, 0.268, 0.270, 0.272, 0.277},
	{95, 0.193, 0.195, 0.206, 0.210},
	{120, 0.153, 0.154, 0.161, 0.164},
	{150, 0.124, 0.126, 0.129, 0.132},
	{185, 0.0991, 0.100, 0.106, 0.108},
	{240, 0.0754, 0.0762, 0.0801, 0.0817},
	{300, 0.0601, 0.0607, 0.0641, 0.0654},
}
