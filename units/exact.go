package units

// Definitions from which every factor of the package is derived. All are exact
// and untyped: a typed 12*Inch would be rounded twice, 12*inch is rounded once.
const (
	// International yard and pound agreement of 1959.
	inch  = 0.0254 // m
	foot  = 12 * inch
	yard  = 3 * foot
	pound = 0.45359237 // kg
	ounce = pound / 16

	// The fathom is 6 international feet, 1.8288 m. NIST SP 811 prints
	// 1.828804 m because it takes 6 US survey feet (1200/3937 m each), a foot
	// that was retired at the end of 2022. The two differ by 2 parts in a million.
	fathom = 6 * foot

	// International nautical mile (Monaco, 1929).
	nauticalMile = 1852.0 // m

	// Lengths by convention, see the exported constants.
	cableLength = nauticalMile / 10
	shackle     = 27.5        // m
	shot        = 15 * fathom // 90 ft, 27.432 m

	// Standard acceleration of free fall (3rd CGPM, 1901).
	gravity = 9.80665 // m/s^2

	poundForce    = pound * gravity // N
	kilogramForce = gravity         // N

	// US liquid gallon, 231 cubic inches.
	usGallon = 231 * inch * inch * inch // m^3
	// Imperial gallon (United Kingdom, Weights and Measures Act 1985).
	imperialGallon = 4.54609e-3 // m^3

	minute = 60.0 // s
	hour   = 60 * minute

	// Horsepower: 550 ft·lbf/s, and the metric 75 kgf·m/s.
	mechanicalHorsepower = 550 * foot * poundForce // W
	metricHorsepower     = 75 * kilogramForce      // W
)
