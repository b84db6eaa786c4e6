package rode

// Fibre ropes, new, dry and unspliced: a splice costs about a tenth.
//
//   - polyester: breaking force read in OCIMF, Mooring Equipment Guidelines, 2nd
//     edition, table 6.5, column BS 4928 (1985), eight-strand; three-strand has
//     the same values in that standard (memory), mass from memory.
//   - polyamide: ISO 1140:1990, from memory; three- and eight-strand are equal.
//   - polypropylene: ISO 1346:1990, from memory.
//   - US sizes in inches: read in a rope trade table of Cordage Institute class;
//     the diameter is nominal.
//   - double-braid polyamide: UFC 4-159-03 (2005), table 6-8, average strength.
//   - HMPE: the regression of an open mooring library for twelve-strand rope,
//     used below the diameters it was fitted to; not the table of ISO 10325.

const (
	srcOCIMF   = "OCIMF Mooring Equipment Guidelines, 2nd ed., table 6.5 (BS 4928)"
	srcISO1140 = "ISO 1140:1990, from memory"
	srcISO1346 = "ISO 1346:1990, from memory"
	srcUS      = "US rope trade table, Cordage Institute class"
	srcUFC     = "UFC 4-159-03 (2005), table 6-8"
	srcHMPE    = "regression of MoorPy's default line properties"
)

// ropeRow is one rope in SI units. Zero means not published.
type ropeRow struct {
	fibre, construction, size string

	diameter float64 // nominal, m
	mass     float64 // kg/m
	breaking float64 // least breaking force, N

	source string
	kind   string // of its breaking force: handbook, dataset, library or memory
}

var ropeTable = []ropeRow{
	{"polyester", "three-strand", "8 mm", 8e-3, 48e-3, 1e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "8 mm", 8e-3, 48e-3, 1e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "10 mm", 10e-3, 76e-3, 1.6e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "10 mm", 10e-3, 76e-3, 1.6e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "12 mm", 12e-3, 110e-3, 2.3e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "12 mm", 12e-3, 110e-3, 2.3e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "14 mm", 14e-3, 148e-3, 3.2e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "14 mm", 14e-3, 148e-3, 3.2e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "16 mm", 16e-3, 195e-3, 4.1e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "16 mm", 16e-3, 195e-3, 4.1e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "18 mm", 18e-3, 245e-3, 5.1e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "18 mm", 18e-3, 245e-3, 5.1e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "20 mm", 20e-3, 303e-3, 6.3e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "20 mm", 20e-3, 303e-3, 6.3e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "22 mm", 22e-3, 367e-3, 7.6e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "22 mm", 22e-3, 367e-3, 7.6e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyester", "three-strand", "24 mm", 24e-3, 437e-3, 9.5e3 * gravitySI, srcOCIMF, "memory"},
	{"polyester", "eight-strand", "24 mm", 24e-3, 437e-3, 9.5e3 * gravitySI, srcOCIMF, "handbook"},
	{"polyamide", "three-strand", "8 mm", 8e-3, 40e-3, 1350 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "8 mm", 8e-3, 40e-3, 1350 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "10 mm", 10e-3, 62e-3, 2080 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "10 mm", 10e-3, 62e-3, 2080 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "12 mm", 12e-3, 89e-3, 3000 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "12 mm", 12e-3, 89e-3, 3000 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "14 mm", 14e-3, 122e-3, 4100 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "14 mm", 14e-3, 122e-3, 4100 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "16 mm", 16e-3, 158e-3, 5300 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "16 mm", 16e-3, 158e-3, 5300 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "18 mm", 18e-3, 200e-3, 6700 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "18 mm", 18e-3, 200e-3, 6700 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "20 mm", 20e-3, 245e-3, 8300 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "20 mm", 20e-3, 245e-3, 8300 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "22 mm", 22e-3, 300e-3, 10000 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "22 mm", 22e-3, 300e-3, 10000 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "three-strand", "24 mm", 24e-3, 355e-3, 12000 * gravitySI, srcISO1140, "memory"},
	{"polyamide", "eight-strand", "24 mm", 24e-3, 355e-3, 12000 * gravitySI, srcISO1140, "memory"},
	{"polypropylene", "three-strand", "8 mm", 8e-3, 30e-3, 960 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "8 mm", 8e-3, 30e-3, 960 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "10 mm", 10e-3, 45e-3, 1425 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "10 mm", 10e-3, 45e-3, 1425 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "12 mm", 12e-3, 65e-3, 2030 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "12 mm", 12e-3, 65e-3, 2030 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "14 mm", 14e-3, 90e-3, 2790 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "14 mm", 14e-3, 90e-3, 2790 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "16 mm", 16e-3, 115e-3, 3500 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "16 mm", 16e-3, 115e-3, 3500 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "18 mm", 18e-3, 148e-3, 4450 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "18 mm", 18e-3, 148e-3, 4450 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "20 mm", 20e-3, 180e-3, 5370 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "20 mm", 20e-3, 180e-3, 5370 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "22 mm", 22e-3, 220e-3, 6500 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "22 mm", 22e-3, 220e-3, 6500 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "three-strand", "24 mm", 24e-3, 260e-3, 7600 * gravitySI, srcISO1346, "memory"},
	{"polypropylene", "eight-strand", "24 mm", 24e-3, 260e-3, 7600 * gravitySI, srcISO1346, "memory"},
	{"polyamide", "three-strand", "5/16 in", 5.0 / 16 * inchSI, 2.50e-2 * poundSI / footSI, 2300 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "5/16 in", 5.0 / 16 * inchSI, 1.80e-2 * poundSI / footSI, 1710 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "3/8 in", 3.0 / 8 * inchSI, 3.50e-2 * poundSI / footSI, 3340 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "3/8 in", 3.0 / 8 * inchSI, 2.80e-2 * poundSI / footSI, 2440 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "7/16 in", 7.0 / 16 * inchSI, 5.00e-2 * poundSI / footSI, 4500 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "7/16 in", 7.0 / 16 * inchSI, 3.80e-2 * poundSI / footSI, 3160 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "1/2 in", 1.0 / 2 * inchSI, 6.50e-2 * poundSI / footSI, 5750 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "1/2 in", 1.0 / 2 * inchSI, 4.70e-2 * poundSI / footSI, 3780 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "9/16 in", 9.0 / 16 * inchSI, 8.15e-2 * poundSI / footSI, 7200 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "9/16 in", 9.0 / 16 * inchSI, 6.10e-2 * poundSI / footSI, 4600 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "5/8 in", 5.0 / 8 * inchSI, 10.5e-2 * poundSI / footSI, 9350 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "5/8 in", 5.0 / 8 * inchSI, 7.50e-2 * poundSI / footSI, 5600 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "3/4 in", 3.0 / 4 * inchSI, 14.5e-2 * poundSI / footSI, 12800 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "3/4 in", 3.0 / 4 * inchSI, 10.7e-2 * poundSI / footSI, 7650 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "three-strand", "7/8 in", 7.0 / 8 * inchSI, 20.0e-2 * poundSI / footSI, 18000 * poundSI * gravitySI, srcUS, "dataset"},
	{"polypropylene", "three-strand", "7/8 in", 7.0 / 8 * inchSI, 15.0e-2 * poundSI / footSI, 10400 * poundSI * gravitySI, srcUS, "dataset"},
	{"polyamide", "double-braid", "1 in", inchSI, 0, 149.5e3, srcUFC, "handbook"},
	{"HMPE", "twelve-strand", "8 mm", 8e-3, 495.72 * 8e-3 * 8e-3, (579.5e6 + 650.65e6*8e-3) * 8e-3 * 8e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "10 mm", 10e-3, 495.72 * 10e-3 * 10e-3, (579.5e6 + 650.65e6*10e-3) * 10e-3 * 10e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "12 mm", 12e-3, 495.72 * 12e-3 * 12e-3, (579.5e6 + 650.65e6*12e-3) * 12e-3 * 12e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "14 mm", 14e-3, 495.72 * 14e-3 * 14e-3, (579.5e6 + 650.65e6*14e-3) * 14e-3 * 14e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "16 mm", 16e-3, 495.72 * 16e-3 * 16e-3, (579.5e6 + 650.65e6*16e-3) * 16e-3 * 16e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "18 mm", 18e-3, 495.72 * 18e-3 * 18e-3, (579.5e6 + 650.65e6*18e-3) * 18e-3 * 18e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "20 mm", 20e-3, 495.72 * 20e-3 * 20e-3, (579.5e6 + 650.65e6*20e-3) * 20e-3 * 20e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "22 mm", 22e-3, 495.72 * 22e-3 * 22e-3, (579.5e6 + 650.65e6*22e-3) * 22e-3 * 22e-3, srcHMPE, "library"},
	{"HMPE", "twelve-strand", "24 mm", 24e-3, 495.72 * 24e-3 * 24e-3, (579.5e6 + 650.65e6*24e-3) * 24e-3 * 24e-3, srcHMPE, "library"},
}

// stretchRow is the load-extension law of a kind of rope, fitted by weighted
// least squares to the points in testdata/rode/extension.csv:
//
//	strain = a t + b t^2 + c t^3,  t = tension / breaking force
//
// It rises for every t >= 0 (b^2 < 3 a c). The points reach from t = 0.1 to 1;
// most are bands of handbooks, from memory, so a strain is good to about a fifth
// of itself. "worked" is rope whose construction has settled under load, "new"
// includes that settling. Eight-strand polyester and polypropylene have no points
// of their own; the three-strand law is the nearest.
type stretchRow struct {
	fibre, construction, state string

	a, b, c float64
}

var stretchTable = []stretchRow{
	{"polyamide", "three-strand", "worked", 0.8177, -0.6519, 0.2341},
	{"polyamide", "three-strand", "new", 1.2707, -1.6821, 0.912},
	{"polyamide", "eight-strand", "worked", 0.6612, -0.6645, 0.3535},
	{"polyamide", "double-braid", "worked", 0.2826, 0, 0},
	{"polyester", "three-strand", "worked", 0.2633, -0.2339, 0.1308},
	{"polyester", "double-braid", "worked", 0.1268, -0.1144, 0.0729},
	{"polypropylene", "three-strand", "worked", 0.325, -0.2808, 0.1808},
	{"HMPE", "twelve-strand", "worked", 0.0506, -0.0816, 0.0611},
}
