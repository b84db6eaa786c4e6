package rode

// Chain for small craft and for general use. Values that no source at hand
// prints are 0, not guessed. Where sources differ, testdata/rode/chain.csv shows
// both.
//
//   - ISO 4565:1986 (also EN 24565), small craft anchor chain, and DIN 766:1986,
//     calibrated chain: pitch, greatest outside width, mass, proof and breaking
//     force read in a table that a chain supplier keys to the two standards, and
//     the 12 mm G40 and the 6 mm G30 DIN breaking force in a second table. The
//     10 mm size differs between the two standards: pitch 30 and 28 mm. ISO 4565
//     and DIN 766 are standards of grade 3; G40 rows are the same dimensions in
//     stronger steel, as sold. Working loads of DIN 766, and the outside widths of
//     its 6 and 8 mm (3.4 d where ISO 4565 has 3.6 d), were read in a supplier's
//     data sheet.
//   - EN 818-3:1999+A1:2008, lifting chain of grade 4: forces read in table 5,
//     dimensions by its rules 3 d, 3.7 d and 1.3 d, which its rows of larger sizes
//     were read to follow, mass from memory.
//   - ASTM A413, grades 30 (proof coil), 43 (high test) and 70 (transport, not
//     for a chain wheel): working loads read in 49 CFR 393.108, breaking force 4,
//     3 and 4 times that; proof 2 times for grades 30 and 70 (read) and 1.5 times
//     for 43 (from memory); wire diameters from memory, of which those of grade 30
//     agree with the standard's definition of a grade. Link lengths are bounds
//     there, not sizes, so pitch is 0.
//   - US windlass chain, grade 43 strength with short links: only 5/16 in was read.
//   - BBB (short-link proof coil): wire of 5/16 and 1/2 in read in Gerr, Boat
//     Mechanical Systems Handbook (2009), the rest from memory, approximate.

const (
	srcISODIN   = "ISO 4565 and DIN 766, as tabulated by a chain supplier"
	srcEN818    = "EN 818-3:1999+A1:2008"
	srcASTM     = "ASTM A413 sizes; working load of 49 CFR 393.108"
	srcWindlass = "pitch from a chandlery note, strength of ASTM A413 grade 43"
	srcBBB      = "trade sizes of BBB chain, from memory"
)

// Exact factors of the rows below.
const (
	inchSI    = 0.0254     // m
	footSI    = 0.3048     // m
	poundSI   = 0.45359237 // kg
	gravitySI = 9.80665    // m/s^2
)

// chainRow is one chain in SI units. Zero means not published.
type chainRow struct {
	standard, size, grade string

	wire    float64 // diameter, m
	pitch   float64 // inside length of a link, m
	outside float64 // greatest outside width, m
	inside  float64 // least inside width, m
	mass    float64 // kg/m

	proof    float64 // N
	working  float64 // working load limit, N
	breaking float64 // least breaking force, N

	source string
	kind   string // of its breaking force: standard, dataset or memory
}

var chainTable = []chainRow{
	{"ISO 4565", "6 mm", "G30", 6e-3, 18.5e-3, 21.6e-3, 0, 0.8, 10e3, 0, 18e3, srcISODIN, "dataset"},
	{"ISO 4565", "6 mm", "G40", 6e-3, 18.5e-3, 21.6e-3, 0, 0.8, 10e3, 0, 20e3, srcISODIN, "dataset"},
	{"ISO 4565", "8 mm", "G30", 8e-3, 24e-3, 28.8e-3, 0, 1.4, 20e3, 0, 32e3, srcISODIN, "dataset"},
	{"ISO 4565", "8 mm", "G40", 8e-3, 24e-3, 28.8e-3, 0, 1.4, 20e3, 0, 40e3, srcISODIN, "dataset"},
	{"ISO 4565", "10 mm", "G30", 10e-3, 30e-3, 36e-3, 0, 2.25, 32e3, 0, 50e3, srcISODIN, "dataset"},
	{"ISO 4565", "10 mm", "G40", 10e-3, 30e-3, 36e-3, 0, 2.25, 32e3, 0, 63e3, srcISODIN, "dataset"},
	{"ISO 4565", "12 mm", "G30", 12e-3, 36e-3, 43.2e-3, 0, 3.25, 35e3, 0, 71e3, srcISODIN, "dataset"},
	{"ISO 4565", "12 mm", "G40", 12e-3, 36e-3, 43.2e-3, 0, 3.25, 35e3, 0, 90e3, srcISODIN, "dataset"},
	{"DIN 766", "6 mm", "G30", 6e-3, 18.5e-3, 20.4e-3, 0, 0.8, 10e3, 400 * gravitySI, 16e3, srcISODIN, "dataset"},
	{"DIN 766", "7 mm", "G30", 7e-3, 22e-3, 23.8e-3, 0, 1.15, 16e3, 630 * gravitySI, 25e3, srcISODIN, "dataset"},
	{"DIN 766", "8 mm", "G30", 8e-3, 24e-3, 27.2e-3, 0, 1.4, 20e3, 800 * gravitySI, 32e3, srcISODIN, "dataset"},
	{"DIN 766", "10 mm", "G30", 10e-3, 28e-3, 36e-3, 0, 2.2, 32e3, 1250 * gravitySI, 50e3, srcISODIN, "dataset"},
	{"DIN 766", "13 mm", "G30", 13e-3, 36e-3, 47e-3, 0, 3.9, 50e3, 2000 * gravitySI, 80e3, srcISODIN, "dataset"},
	{"DIN 766", "14 mm", "G30", 14e-3, 41e-3, 50e-3, 0, 4.25, 63e3, 2500 * gravitySI, 100e3, srcISODIN, "dataset"},
	{"DIN 766", "16 mm", "G30", 16e-3, 45e-3, 58e-3, 0, 5.8, 80e3, 3200 * gravitySI, 125e3, srcISODIN, "dataset"},
	{"DIN 766", "6 mm", "G40", 6e-3, 18.5e-3, 20.4e-3, 0, 0.8, 10e3, 0, 20e3, srcISODIN, "dataset"},
	{"DIN 766", "7 mm", "G40", 7e-3, 22e-3, 23.8e-3, 0, 1.15, 16e3, 0, 30e3, srcISODIN, "dataset"},
	{"DIN 766", "8 mm", "G40", 8e-3, 24e-3, 27.2e-3, 0, 1.4, 20e3, 0, 40e3, srcISODIN, "dataset"},
	{"DIN 766", "10 mm", "G40", 10e-3, 28e-3, 36e-3, 0, 2.2, 32e3, 0, 63e3, srcISODIN, "dataset"},
	{"DIN 766", "14 mm", "G40", 14e-3, 41e-3, 50e-3, 0, 4.25, 63e3, 0, 121e3, srcISODIN, "dataset"},
	{"EN 818-3", "7 mm", "G40", 7e-3, 21e-3, 25.9e-3, 9.1e-3, 1.1, 15.4e3, 0.75e3 * gravitySI, 30.8e3, srcEN818, "standard"},
	{"EN 818-3", "8 mm", "G40", 8e-3, 24e-3, 29.6e-3, 10.4e-3, 1.4, 20.1e3, 1e3 * gravitySI, 40.2e3, srcEN818, "standard"},
	{"EN 818-3", "10 mm", "G40", 10e-3, 30e-3, 37e-3, 13e-3, 2.2, 31.4e3, 1.6e3 * gravitySI, 62.8e3, srcEN818, "standard"},
	{"EN 818-3", "13 mm", "G40", 13e-3, 39e-3, 48.1e-3, 16.9e-3, 3.8, 53.1e3, 2.65e3 * gravitySI, 106e3, srcEN818, "standard"},
	{"EN 818-3", "16 mm", "G40", 16e-3, 48e-3, 59.2e-3, 20.8e-3, 5.7, 80.4e3, 4e3 * gravitySI, 161e3, srcEN818, "standard"},
	{"ASTM A413", "1/4 in", "G30", 0.276 * inchSI, 0, 0, 0, 0, 2 * 1300 * poundSI * gravitySI, 1300 * poundSI * gravitySI, 4 * 1300 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "1/4 in", "G43", 0.276 * inchSI, 0, 0, 0, 0, 1.5 * 2600 * poundSI * gravitySI, 2600 * poundSI * gravitySI, 3 * 2600 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "1/4 in", "G70", 0.276 * inchSI, 0, 0, 0, 0, 2 * 3150 * poundSI * gravitySI, 3150 * poundSI * gravitySI, 4 * 3150 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/16 in", "G30", 0.331 * inchSI, 0, 0, 0, 0, 2 * 1900 * poundSI * gravitySI, 1900 * poundSI * gravitySI, 4 * 1900 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/16 in", "G43", 0.331 * inchSI, 0, 0, 0, 0, 1.5 * 3900 * poundSI * gravitySI, 3900 * poundSI * gravitySI, 3 * 3900 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/16 in", "G70", 0.331 * inchSI, 0, 0, 0, 0, 2 * 4700 * poundSI * gravitySI, 4700 * poundSI * gravitySI, 4 * 4700 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "3/8 in", "G30", 0.394 * inchSI, 0, 0, 0, 0, 2 * 2650 * poundSI * gravitySI, 2650 * poundSI * gravitySI, 4 * 2650 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "3/8 in", "G43", 0.394 * inchSI, 0, 0, 0, 0, 1.5 * 5400 * poundSI * gravitySI, 5400 * poundSI * gravitySI, 3 * 5400 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "3/8 in", "G70", 0.394 * inchSI, 0, 0, 0, 0, 2 * 6600 * poundSI * gravitySI, 6600 * poundSI * gravitySI, 4 * 6600 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "7/16 in", "G30", 0.468 * inchSI, 0, 0, 0, 0, 2 * 3700 * poundSI * gravitySI, 3700 * poundSI * gravitySI, 4 * 3700 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "7/16 in", "G43", 0.468 * inchSI, 0, 0, 0, 0, 1.5 * 7200 * poundSI * gravitySI, 7200 * poundSI * gravitySI, 3 * 7200 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "7/16 in", "G70", 0.468 * inchSI, 0, 0, 0, 0, 2 * 8750 * poundSI * gravitySI, 8750 * poundSI * gravitySI, 4 * 8750 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "1/2 in", "G30", 0.512 * inchSI, 0, 0, 0, 0, 2 * 4500 * poundSI * gravitySI, 4500 * poundSI * gravitySI, 4 * 4500 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "1/2 in", "G43", 0.512 * inchSI, 0, 0, 0, 0, 1.5 * 9200 * poundSI * gravitySI, 9200 * poundSI * gravitySI, 3 * 9200 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "1/2 in", "G70", 0.512 * inchSI, 0, 0, 0, 0, 2 * 11300 * poundSI * gravitySI, 11300 * poundSI * gravitySI, 4 * 11300 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/8 in", "G30", 0.63 * inchSI, 0, 0, 0, 0, 2 * 6900 * poundSI * gravitySI, 6900 * poundSI * gravitySI, 4 * 6900 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/8 in", "G43", 0.63 * inchSI, 0, 0, 0, 0, 1.5 * 13000 * poundSI * gravitySI, 13000 * poundSI * gravitySI, 3 * 13000 * poundSI * gravitySI, srcASTM, "dataset"},
	{"ASTM A413", "5/8 in", "G70", 0.63 * inchSI, 0, 0, 0, 0, 2 * 15800 * poundSI * gravitySI, 15800 * poundSI * gravitySI, 4 * 15800 * poundSI * gravitySI, srcASTM, "dataset"},
	{"US windlass", "5/16 in", "G43", 8.7e-3, 26.1e-3, 0, 0, 0, 0, 3900 * poundSI * gravitySI, 3 * 3900 * poundSI * gravitySI, srcWindlass, "dataset"},
	{"BBB", "1/4 in", "G30", 7.14e-3, 0.87 * inchSI, 0, 0, 76e-2 * poundSI / footSI, 2 * 1300 * poundSI * gravitySI, 1300 * poundSI * gravitySI, 4 * 1300 * poundSI * gravitySI, srcBBB, "memory"},
	{"BBB", "5/16 in", "G30", 8.73e-3, 1 * inchSI, 0, 0, 115e-2 * poundSI / footSI, 2 * 1900 * poundSI * gravitySI, 1900 * poundSI * gravitySI, 4 * 1900 * poundSI * gravitySI, srcBBB, "memory"},
	{"BBB", "3/8 in", "G30", 10.3e-3, 1.09 * inchSI, 0, 0, 173e-2 * poundSI / footSI, 2 * 2650 * poundSI * gravitySI, 2650 * poundSI * gravitySI, 4 * 2650 * poundSI * gravitySI, srcBBB, "memory"},
	{"BBB", "1/2 in", "G30", 13.48e-3, 1.34 * inchSI, 0, 0, 296e-2 * poundSI / footSI, 2 * 4500 * poundSI * gravitySI, 4500 * poundSI * gravitySI, 4 * 4500 * poundSI * gravitySI, srcBBB, "memory"},
}
