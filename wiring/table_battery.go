package wiring

// Voltage per cell at rest at 25 °C against state of charge, rounded figures that
// makers and handbooks print alike, from memory. The flooded curve ends at 10 %,
// since nobody prints it below.

type chemistry struct {
	curve      []restPoint // by rising charge
	perKelvin  float64     // V per cell and K
	discharged float64     // rise of the resistance from full to empty, as a share
	doubling   float64     // K of cooling that double the resistance
}

type restPoint struct {
	charge float64
	volts  float64 // per cell
}

var chemistries = map[Chemistry]chemistry{
	Flooded: {
		curve: []restPoint{
			{0.1, 1.918},
			{0.2, 1.943},
			{0.3, 1.969},
			{0.4, 1.993},
			{0.5, 2.017},
			{0.6, 2.040},
			{0.7, 2.062},
			{0.8, 2.083},
			{0.9, 2.103},
			{1, 2.122},
		},
		perKelvin:  0.2e-3,
		discharged: 1,
		doubling:   43,
	},
	AGM: {
		curve: []restPoint{
			{0, 11.8 / 6},
			{0.25, 12.0 / 6},
			{0.5, 12.3 / 6},
			{0.75, 12.6 / 6},
			{1, 12.8 / 6},
		},
		perKelvin:  0.2e-3,
		discharged: 1,
		doubling:   43,
	},
	Gel: {
		curve: []restPoint{
			{0, 11.8 / 6},
			{0.25, 12.0 / 6},
			{0.5, 12.35 / 6},
			{0.75, 12.65 / 6},
			{1, 12.85 / 6},
		},
		perKelvin:  0.2e-3,
		discharged: 1,
		doubling:   43,
	},
	LithiumPhosphate: {
		curve: []restPoint{
			{0, 10.0 / 4},
			{0.1, 12.0 / 4},
			{0.2, 12.8 / 4},
			{0.3, 12.9 / 4},
			{0.4, 13.0 / 4},
			{0.5, 13.05 / 4},
			{0.6, 13.1 / 4},
			{0.7, 13.2 / 4},
			{0.8, 13.3 / 4},
			{0.9, 13.4 / 4},
			{1, 13.6 / 4},
		},
		discharged: 0.3,
		doubling:   25,
	},
}
