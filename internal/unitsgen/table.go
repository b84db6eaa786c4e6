package main

// A quantity of the table becomes a type of package units.
type quantity struct {
	Type     string // Go name
	Name     string // in errors and comments
	Doc      string // follows "<Type> is "
	Units    []unit // the SI unit first
	Readable []step // rising; none means the SI unit
	Say      [2]string
	Refused  []refusal
	Affine   bool // a point on a scale: it has no multiples and no ratio
}

// A unit of the table becomes a constant, an accessor and names for parsing.
// The names are separated by commas; the first is the symbol. The generator adds
// the other spellings of ², ³, ·, Ω and µ.
type unit struct {
	Const    string // Go name of the constant; empty when there is none
	Accessor string
	Names    string // empty when the word is refused in parsing
	Factor   string // exact, in terms of exact.go
	Note     string // continues the comment of the constant
	Pi       bool   // factor is to be multiplied by pi

	Hundredths uint64 // offset of an affine unit
	Smaller    string // symbol of the unit that may follow
}

// A step is a unit of the readable form and the SI size from which it is used.
type step struct{ Symbol, From string }

type refusal struct{ Words, Reason string }

var quantities = []quantity{
	{
		Type: "Length", Name: "length", Doc: "a length, distance or depth in metres.",
		Say: [2]string{"m", "ft"},
		Units: []unit{
			{"Metre", "Metres", "m, metre, metres, meter, meters", "1", "", false, 0, ""},
			{"Micrometre", "Micrometres", "µm, micrometre, micrometres, micrometer, micrometers", "1e-6", "", false, 0, ""},
			{"Millimetre", "Millimetres", "mm, millimetre, millimetres, millimeter, millimeters", "1e-3", "", false, 0, ""},
			{"Centimetre", "Centimetres", "cm, centimetre, centimetres, centimeter, centimeters", "1e-2", "", false, 0, ""},
			{"Kilometre", "Kilometres", "km, kilometre, kilometres, kilometer, kilometers", "1000", "", false, 0, ""},
			{"Inch", "Inches", "in, inch, inches, \", ″", "inch", "", false, 0, ""},
			{"Foot", "Feet", "ft, foot, feet, ', ′", "foot", "the international foot", false, 0, "in"},
			{"Yard", "Yards", "yd, yard, yards", "yard", "", false, 0, ""},
			{"Fathom", "Fathoms", "fathom, fathoms", "fathom", "6 international feet; NIST SP 811 prints 1.828804 m, which is 6 US survey feet", false, 0, ""},
			{"NauticalMile", "NauticalMiles", "nmi, nautical mile, nautical miles", "nauticalMile", "the international nautical mile", false, 0, ""},
			{"StatuteMile", "StatuteMiles", "mi, statute mile, statute miles", "1760 * yard", "", false, 0, ""},
			{"CableLength", "CableLengths", "", "cableLength", "by convention a tenth of a nautical mile; older British use is 608 ft, older American 720 ft", false, 0, ""},
			{"Shackle", "Shackles", "", "shackle", "a length of anchor cable, by the metric convention; 15 fathoms in imperial chain (see Shot), 12 1/2 in British naval use before 1949", false, 0, ""},
			{"Shot", "Shots", "", "shot", "a length of anchor cable, by convention 15 fathoms or 90 ft", false, 0, ""},
		},
		Readable: []step{{"mm", "1e-3"}, {"m", "1"}, {"km", "1000"}},
		Refused: []refusal{
			{"cable, cables, cable length, cable lengths", "a cable is 185.2 m (units.CableLength) in one convention, 608 ft or 720 ft in others: write metres or feet"},
			{"shackle, shackles", "a shackle of cable is 27.5 m (units.Shackle) in metric chain, 15 fathoms = 27.432 m (units.Shot) in imperial: write metres, feet or fathoms"},
			{"shot, shots", "a shot of cable is 15 fathoms = 27.432 m (units.Shot) by one convention, 27.5 m (units.Shackle) by another: write metres, feet or fathoms"},
			{"mile, miles", "there are two kinds of mile: write nautical mile (nmi) or statute mile (mi)"},
			{"M", "M is used for the nautical mile and mistaken for the metre: write nmi or m"},
			{"NM, nm, Nm", "write nmi for nautical miles (nm is the nanometre, N m the newton metre)"},
		},
	},
	{
		Type: "Area", Name: "area", Doc: "an area or cross-section in square metres.",
		Say: [2]string{"m2", "ft2"},
		Units: []unit{
			{"SquareMetre", "SquareMetres", "m², square metre, square metres, square meter, square meters, sq m", "1", "", false, 0, ""},
			{"SquareMillimetre", "SquareMillimetres", "mm², square millimetre, square millimetres, square millimeter, square millimeters, sq mm", "1e-6", "", false, 0, ""},
			{"SquareCentimetre", "SquareCentimetres", "cm², square centimetre, square centimetres, square centimeter, square centimeters, sq cm", "1e-4", "", false, 0, ""},
			{"SquareInch", "SquareInches", "in², square inch, square inches, sq in", "inch * inch", "", false, 0, ""},
			{"SquareFoot", "SquareFeet", "ft², square foot, square feet, sq ft", "foot * foot", "", false, 0, ""},
			{"SquareYard", "SquareYards", "yd², square yard, square yards, sq yd", "yard * yard", "", false, 0, ""},
			{"CircularMil", "CircularMils", "cmil, circular mil, circular mils", "1e-6 * inch * inch / 4", "the area of a circle one thousandth of an inch across", true, 0, ""},
			{"KilocircularMil", "KilocircularMils", "kcmil", "1e-3 * inch * inch / 4", "a thousand circular mils", true, 0, ""},
		},
		Readable: []step{{"mm²", "1e-6"}, {"m²", "1e-2"}},
	},
	{
		Type: "Volume", Name: "volume", Doc: "a volume in cubic metres.",
		Say: [2]string{"L", "m3"},
		Units: []unit{
			{"CubicMetre", "CubicMetres", "m³, cubic metre, cubic metres, cubic meter, cubic meters", "1", "", false, 0, ""},
			{"CubicMillimetre", "CubicMillimetres", "mm³, cubic millimetre, cubic millimetres, cubic millimeter, cubic millimeters", "1e-9", "", false, 0, ""},
			{"CubicCentimetre", "CubicCentimetres", "cm³, cubic centimetre, cubic centimetres, cubic centimeter, cubic centimeters", "1e-6", "", false, 0, ""},
			{"Millilitre", "Millilitres", "mL, ml, millilitre, millilitres, milliliter, milliliters", "1e-6", "", false, 0, ""},
			{"Litre", "Litres", "L, l, litre, litres, liter, liters", "1e-3", "", false, 0, ""},
			{"CubicInch", "CubicInches", "in³, cubic inch, cubic inches, cu in", "inch * inch * inch", "", false, 0, ""},
			{"CubicFoot", "CubicFeet", "ft³, cubic foot, cubic feet, cu ft", "foot * foot * foot", "", false, 0, ""},
			{"USGallon", "USGallons", "US gal, US gallon, US gallons", "usGallon", "231 cubic inches", false, 0, ""},
			{"ImperialGallon", "ImperialGallons", "imp gal, imperial gallon, imperial gallons", "imperialGallon", "", false, 0, ""},
		},
		Readable: []step{{"mL", "1e-6"}, {"L", "1e-3"}, {"m³", "1"}},
		Refused: []refusal{
			{"gal, gallon, gallons", "there are two kinds of gallon: write US gal (3.785 L) or imp gal (4.546 L)"},
		},
	},
	{
		Type: "Mass", Name: "mass", Doc: "a mass in kilograms.",
		Say: [2]string{"kg", "lb"},
		Units: []unit{
			{"Kilogram", "Kilograms", "kg, kilogram, kilograms", "1", "", false, 0, ""},
			{"Gram", "Grams", "g, gram, grams", "1e-3", "", false, 0, ""},
			{"Tonne", "Tonnes", "t, tonne, tonnes", "1000", "", false, 0, ""},
			{"Pound", "Pounds", "lb, lbs, pound, pounds", "pound", "the avoirdupois pound", false, 0, "oz"},
			{"Ounce", "Ounces", "oz, ounce, ounces", "ounce", "the avoirdupois ounce", false, 0, ""},
			{"LongTon", "LongTons", "long ton, long tons", "2240 * pound", "2240 lb", false, 0, ""},
			{"ShortTon", "ShortTons", "short ton, short tons", "2000 * pound", "2000 lb", false, 0, ""},
		},
		Readable: []step{{"g", "1e-3"}, {"kg", "1"}, {"t", "1000"}},
		Refused: []refusal{
			{"ton, tons", "there are three kinds of ton: write t (1000 kg), long ton (2240 lb) or short ton (2000 lb)"},
		},
	},
	{
		Type: "Force", Name: "force", Doc: "a force or weight in newtons.",
		Say: [2]string{"N", "lbf"},
		Units: []unit{
			{"Newton", "Newtons", "N, newton, newtons", "1", "", false, 0, ""},
			{"Decanewton", "Decanewtons", "daN, decanewton, decanewtons", "10", "", false, 0, ""},
			{"Kilonewton", "Kilonewtons", "kN, kilonewton, kilonewtons", "1000", "", false, 0, ""},
			{"PoundForce", "PoundsForce", "lbf, pound-force, pounds-force", "poundForce", "", false, 0, ""},
			{"KilogramForce", "KilogramsForce", "kgf, kilogram-force, kilograms-force", "kilogramForce", "", false, 0, ""},
			{"TonneForce", "TonnesForce", "tf, tonne-force, tonnes-force", "1000 * kilogramForce", "", false, 0, ""},
		},
		Readable: []step{{"N", "1"}, {"kN", "1000"}},
		Refused: []refusal{
			{"lb, lbs, pound, pounds", "lb is a mass: write lbf for the force"},
			{"kg, kgs, kilogram, kilograms, kilo, kilos", "kg is a mass: write kgf for the force"},
			{"t, tonne, tonnes", "t is a mass: write tf for the force"},
			{"ton, tons, tonf, ton-force, tons-force", "there are three kinds of ton: write tf (1000 kgf), kN or lbf"},
		},
	},
	{
		Type: "LinearDensity", Name: "linear density", Doc: "a mass per length, as of chain or rope, in kilograms per metre.",
		Say: [2]string{"kg/m", "lb/ft"},
		Units: []unit{
			{"KilogramPerMetre", "KilogramsPerMetre", "kg/m", "1", "", false, 0, ""},
			{"GramPerMetre", "GramsPerMetre", "g/m", "1e-3", "", false, 0, ""},
			{"KilogramPer100Metres", "KilogramsPer100Metres", "kg/100m, kg/100 m", "1e-2", "", false, 0, ""},
			{"Tex", "Tex", "tex", "1e-6", "gram per kilometre of thread or yarn", false, 0, ""},
			{"PoundPerFoot", "PoundsPerFoot", "lb/ft", "pound / foot", "", false, 0, ""},
			{"PoundPer100Feet", "PoundsPer100Feet", "lb/100ft, lb/100 ft", "pound / (100 * foot)", "", false, 0, ""},
		},
		Readable: []step{{"g/m", "1e-3"}, {"kg/m", "1"}},
	},
	{
		Type: "ForcePerLength", Name: "force per length", Doc: "a force per length, as the weight of a metre of chain or the strength of a strip of cloth, in newtons per metre.",
		Say: [2]string{"N/m", "lbf/ft"},
		Units: []unit{
			{"NewtonPerMetre", "NewtonsPerMetre", "N/m", "1", "", false, 0, ""},
			{"NewtonPerMillimetre", "NewtonsPerMillimetre", "N/mm", "1000", "", false, 0, ""},
			{"NewtonPer5Centimetres", "NewtonsPer5Centimetres", "N/5cm, N/5 cm", "20", "strip strength of cloth", false, 0, ""},
			{"KilonewtonPerMetre", "KilonewtonsPerMetre", "kN/m", "1000", "", false, 0, ""},
			{"KilogramForcePerMetre", "KilogramsForcePerMetre", "kgf/m", "kilogramForce", "", false, 0, ""},
			{"PoundForcePerFoot", "PoundsForcePerFoot", "lbf/ft", "poundForce / foot", "", false, 0, ""},
			{"PoundForcePerInch", "PoundsForcePerInch", "lbf/in", "poundForce / inch", "", false, 0, ""},
		},
		Readable: []step{{"N/m", "1"}, {"kN/m", "1000"}},
	},
	{
		Type: "Pressure", Name: "pressure", Doc: "a pressure, stress or modulus in pascals.",
		Say: [2]string{"Pa", "psi"},
		Units: []unit{
			{"Pascal", "Pascals", "Pa, pascal, pascals", "1", "", false, 0, ""},
			{"Hectopascal", "Hectopascals", "hPa, hectopascal, hectopascals", "100", "", false, 0, ""},
			{"Kilopascal", "Kilopascals", "kPa, kilopascal, kilopascals", "1e3", "", false, 0, ""},
			{"Megapascal", "Megapascals", "MPa, megapascal, megapascals", "1e6", "", false, 0, ""},
			{"Gigapascal", "Gigapascals", "GPa, gigapascal, gigapascals", "1e9", "", false, 0, ""},
			{"NewtonPerSquareMillimetre", "NewtonsPerSquareMillimetre", "N/mm²", "1e6", "", false, 0, ""},
			{"Bar", "Bars", "bar, bars", "1e5", "", false, 0, ""},
			{"PoundPerSquareInch", "PoundsPerSquareInch", "psi, lbf/in²", "poundForce / (inch * inch)", "of force", false, 0, ""},
			{"PoundPerSquareFoot", "PoundsPerSquareFoot", "psf, lbf/ft²", "poundForce / (foot * foot)", "of force", false, 0, ""},
		},
		Readable: []step{{"Pa", "1"}, {"kPa", "1e3"}, {"MPa", "1e6"}, {"GPa", "1e9"}},
	},
	{
		Type: "Stiffness", Name: "stiffness", Doc: "a force per stretch, as of a spring or a snubber, in newtons per metre. Its constants end in OfStretch to be told from those of ForcePerLength.",
		Say: [2]string{"N/m", "lbf/in"},
		Units: []unit{
			{"NewtonPerMetreOfStretch", "NewtonsPerMetre", "N/m", "1", "", false, 0, ""},
			{"NewtonPerMillimetreOfStretch", "NewtonsPerMillimetre", "N/mm", "1000", "", false, 0, ""},
			{"KilonewtonPerMetreOfStretch", "KilonewtonsPerMetre", "kN/m", "1000", "", false, 0, ""},
			{"PoundForcePerFootOfStretch", "PoundsForcePerFoot", "lbf/ft", "poundForce / foot", "", false, 0, ""},
			{"PoundForcePerInchOfStretch", "PoundsForcePerInch", "lbf/in", "poundForce / inch", "", false, 0, ""},
		},
		Readable: []step{{"N/m", "1"}, {"kN/m", "1000"}},
	},
	{
		Type: "Speed", Name: "speed", Doc: "a speed in metres per second.",
		Say: [2]string{"m/s", "kn"},
		Units: []unit{
			{"MetrePerSecond", "MetresPerSecond", "m/s", "1", "", false, 0, ""},
			{"MetrePerMinute", "MetresPerMinute", "m/min", "1 / minute", "", false, 0, ""},
			{"KilometrePerHour", "KilometresPerHour", "km/h", "1000 / hour", "", false, 0, ""},
			{"Knot", "Knots", "kn, kt, kts, knot, knots", "nauticalMile / hour", "", false, 0, ""},
			{"FootPerSecond", "FeetPerSecond", "ft/s", "foot", "", false, 0, ""},
			{"FootPerMinute", "FeetPerMinute", "ft/min", "foot / minute", "", false, 0, ""},
			{"MilePerHour", "MilesPerHour", "mph", "1760 * yard / hour", "of statute miles", false, 0, ""},
		},
	},
	{
		Type: "Acceleration", Name: "acceleration", Doc: "an acceleration in metres per second squared.",
		Say: [2]string{"m/s2", "g"},
		Units: []unit{
			{"MetrePerSecondSquared", "MetresPerSecondSquared", "m/s²", "1", "", false, 0, ""},
			{"FootPerSecondSquared", "FeetPerSecondSquared", "ft/s²", "foot", "", false, 0, ""},
			{"StandardGravity", "StandardGravities", "g", "gravity", "the standard acceleration of free fall", false, 0, ""},
		},
	},
	{
		Type: "Angle", Name: "angle", Doc: "a plane angle in radians.",
		Say: [2]string{"°", "rad"},
		Units: []unit{
			{"Radian", "Radians", "rad, radian, radians", "1", "", false, 0, ""},
			{"Degree", "Degrees", "°, deg, degree, degrees", "1.0 / 180", "", true, 0, ""},
			{"Turn", "Turns", "turn, turns", "2", "", true, 0, ""},
		},
		Readable: []step{{"°", "0"}},
		Refused: []refusal{
			{"', \", ′, ″", "minutes and seconds of arc are not taken: write decimal degrees"},
		},
	},
	{
		Type: "Temperature", Name: "temperature", Doc: "a point on the temperature scale in kelvins, made from other scales with [Celsius] and [Fahrenheit]. What is added to it or lies between two of them is a [TemperatureDifference].",
		Say: [2]string{"°C", "°F"}, Affine: true,
		Units: []unit{
			{"", "Kelvins", "K, kelvin, kelvins", "1", "", false, 0, ""},
			{"", "Celsius", "°C, degC, C, degree Celsius, degrees Celsius", "1", "", false, 27315, ""},
			{"", "Fahrenheit", "°F, degF, F, degree Fahrenheit, degrees Fahrenheit", "5.0 / 9", "", false, 45967, ""},
		},
		Readable: []step{{"°C", "0"}},
		Refused: []refusal{
			{"°, deg, degree, degrees", "write °C or °F"},
		},
	},
	{
		Type: "TemperatureDifference", Name: "temperature difference", Doc: "a difference of temperatures, such as a rise, in kelvins.",
		Say: [2]string{"K", "°F"},
		Units: []unit{
			{"Kelvin", "Kelvins", "K, kelvin, kelvins", "1", "", false, 0, ""},
			{"CelsiusDegree", "CelsiusDegrees", "°C, degC, C", "1", "", false, 0, ""},
			{"FahrenheitDegree", "FahrenheitDegrees", "°F, degF, F", "5.0 / 9", "", false, 0, ""},
		},
		Refused: []refusal{
			{"°, deg, degree, degrees", "write K, °C or °F"},
		},
	},
	{
		Type: "Density", Name: "density", Doc: "a mass per volume in kilograms per cubic metre.",
		Say: [2]string{"kg/m3", "lb/ft3"},
		Units: []unit{
			{"KilogramPerCubicMetre", "KilogramsPerCubicMetre", "kg/m³", "1", "", false, 0, ""},
			{"GramPerCubicCentimetre", "GramsPerCubicCentimetre", "g/cm³", "1000", "", false, 0, ""},
			{"KilogramPerLitre", "KilogramsPerLitre", "kg/L, kg/l", "1000", "", false, 0, ""},
			{"PoundPerCubicFoot", "PoundsPerCubicFoot", "lb/ft³", "pound / (foot * foot * foot)", "", false, 0, ""},
			{"PoundPerCubicInch", "PoundsPerCubicInch", "lb/in³", "pound / (inch * inch * inch)", "", false, 0, ""},
		},
	},
	{
		Type: "Time", Name: "time", Doc: "a duration in seconds, for where time.Duration is too coarse or too short. It is not a point in time.",
		Say: [2]string{"s", "min"},
		Units: []unit{
			{"Second", "Seconds", "s, second, seconds", "1", "", false, 0, ""},
			{"Millisecond", "Milliseconds", "ms, millisecond, milliseconds", "1e-3", "", false, 0, ""},
			{"Minute", "Minutes", "min, minute, minutes", "minute", "", false, 0, "s"},
			{"Hour", "Hours", "h, hour, hours", "hour", "", false, 0, "min"},
			{"Day", "Days", "d, day, days", "24 * hour", "24 hours", false, 0, "h"},
		},
		Readable: []step{{"ms", "1e-3"}, {"s", "1"}, {"min", "60"}, {"h", "3600"}},
		Refused: []refusal{
			{"m", "m is the metre: write min for minutes"},
		},
	},
	{
		Type: "Frequency", Name: "frequency", Doc: "a frequency in hertz. Rotation is an [AngularSpeed].",
		Say: [2]string{"Hz", "kHz"},
		Units: []unit{
			{"Hertz", "Hertz", "Hz, hertz", "1", "", false, 0, ""},
			{"Kilohertz", "Kilohertz", "kHz, kilohertz", "1000", "", false, 0, ""},
		},
		Readable: []step{{"Hz", "1"}, {"kHz", "1000"}},
	},
	{
		Type: "Energy", Name: "energy", Doc: "an energy or work in joules. It is not a [Torque].",
		Say: [2]string{"J", "Wh"},
		Units: []unit{
			{"Joule", "Joules", "J, joule, joules", "1", "", false, 0, ""},
			{"Kilojoule", "Kilojoules", "kJ, kilojoule, kilojoules", "1e3", "", false, 0, ""},
			{"Megajoule", "Megajoules", "MJ, megajoule, megajoules", "1e6", "", false, 0, ""},
			{"WattHour", "WattHours", "Wh, W·h, watt hour, watt hours, watt-hour, watt-hours", "hour", "", false, 0, ""},
			{"KilowattHour", "KilowattHours", "kWh, kW·h, kilowatt hour, kilowatt hours, kilowatt-hour, kilowatt-hours", "1000 * hour", "", false, 0, ""},
			{"FootPoundForce", "FootPoundsForce", "ft·lbf", "foot * poundForce", "", false, 0, ""},
		},
		Readable: []step{{"J", "1"}, {"kJ", "1e3"}, {"MJ", "1e6"}},
	},
	{
		Type: "Power", Name: "power", Doc: "a power in watts.",
		Say: [2]string{"W", "kW"},
		Units: []unit{
			{"Watt", "Watts", "W, watt, watts", "1", "", false, 0, ""},
			{"Milliwatt", "Milliwatts", "mW, milliwatt, milliwatts", "1e-3", "", false, 0, ""},
			{"Kilowatt", "Kilowatts", "kW, kilowatt, kilowatts", "1000", "", false, 0, ""},
			{"MetricHorsepower", "MetricHorsepower", "PS, metric horsepower, metric hp", "metricHorsepower", "75 kgf·m/s", false, 0, ""},
			{"MechanicalHorsepower", "MechanicalHorsepower", "mechanical hp, mechanical horsepower", "mechanicalHorsepower", "550 ft·lbf/s", false, 0, ""},
		},
		Readable: []step{{"mW", "1e-3"}, {"W", "1"}, {"kW", "1000"}},
		Refused: []refusal{
			{"hp, HP, Hp, bhp, horsepower", "there are two kinds of horsepower: write PS (735.5 W) or mechanical hp (745.7 W)"},
		},
	},
	{
		Type: "Torque", Name: "torque", Doc: "a torque or bending moment in newton metres. It is not an [Energy].",
		Say: [2]string{"N m", "lbf ft"},
		Units: []unit{
			{"NewtonMetre", "NewtonMetres", "N·m, Nm, newton metre, newton metres, newton meter, newton meters", "1", "", false, 0, ""},
			{"KilonewtonMetre", "KilonewtonMetres", "kN·m, kNm", "1000", "", false, 0, ""},
			{"KilogramForceMetre", "KilogramForceMetres", "kgf·m", "kilogramForce", "", false, 0, ""},
			{"PoundForceFoot", "PoundForceFeet", "lbf·ft", "poundForce * foot", "", false, 0, ""},
			{"PoundForceInch", "PoundForceInches", "lbf·in", "poundForce * inch", "", false, 0, ""},
		},
		Readable: []step{{"N·m", "1"}, {"kN·m", "1000"}},
		Refused: []refusal{
			{"lb ft, lb·ft, lb-ft, ft lb, ft·lb, ft-lb, ft lbs, ft-lbs", "lb is a mass: write lbf ft for the torque"},
		},
	},
	{
		Type: "Current", Name: "current", Doc: "an electric current in amperes.",
		Say: [2]string{"A", "mA"},
		Units: []unit{
			{"Ampere", "Amperes", "A, ampere, amperes, amp, amps", "1", "", false, 0, ""},
			{"Milliampere", "Milliamperes", "mA, milliampere, milliamperes, milliamp, milliamps", "1e-3", "", false, 0, ""},
			{"Kiloampere", "Kiloamperes", "kA, kiloampere, kiloamperes, kiloamp, kiloamps", "1000", "", false, 0, ""},
		},
		Readable: []step{{"mA", "1e-3"}, {"A", "1"}, {"kA", "1000"}},
		Refused: []refusal{
			{"Ah, A·h, mAh", "an ampere hour is a charge: write A"},
		},
	},
	{
		Type: "Voltage", Name: "voltage", Doc: "a voltage or voltage drop in volts.",
		Say: [2]string{"V", "mV"},
		Units: []unit{
			{"Volt", "Volts", "V, volt, volts", "1", "", false, 0, ""},
			{"Millivolt", "Millivolts", "mV, millivolt, millivolts", "1e-3", "", false, 0, ""},
			{"Kilovolt", "Kilovolts", "kV, kilovolt, kilovolts", "1000", "", false, 0, ""},
		},
		Readable: []step{{"mV", "1e-3"}, {"V", "1"}, {"kV", "1000"}},
	},
	{
		Type: "Resistance", Name: "resistance", Doc: "an electric resistance in ohms.",
		Say: [2]string{"ohm", "mohm"},
		Units: []unit{
			{"Ohm", "Ohms", "Ω, ohms", "1", "", false, 0, ""},
			{"Microhm", "Microhms", "µΩ, microhm, microhms", "1e-6", "", false, 0, ""},
			{"Milliohm", "Milliohms", "mΩ, milliohm, milliohms", "1e-3", "", false, 0, ""},
			{"Kilohm", "Kilohms", "kΩ, kilohm, kilohms", "1e3", "", false, 0, ""},
			{"Megohm", "Megohms", "MΩ, megohm, megohms", "1e6", "", false, 0, ""},
		},
		Readable: []step{{"µΩ", "1e-6"}, {"mΩ", "1e-3"}, {"Ω", "1"}, {"kΩ", "1e3"}, {"MΩ", "1e6"}},
	},
	{
		Type: "ResistancePerLength", Name: "resistance per length", Doc: "an electric resistance per length of conductor in ohms per metre.",
		Say: [2]string{"ohm/m", "mohm/m"},
		Units: []unit{
			{"OhmPerMetre", "OhmsPerMetre", "Ω/m", "1", "", false, 0, ""},
			{"MilliohmPerMetre", "MilliohmsPerMetre", "mΩ/m", "1e-3", "", false, 0, ""},
			{"OhmPerKilometre", "OhmsPerKilometre", "Ω/km", "1e-3", "", false, 0, ""},
			{"OhmPerKilofoot", "OhmsPerKilofoot", "Ω/kft, Ω/1000ft, Ω/1000 ft", "1 / (1000 * foot)", "1000 ft", false, 0, ""},
		},
		Readable: []step{{"mΩ/m", "1e-3"}, {"Ω/m", "1"}},
	},
	{
		Type: "Charge", Name: "charge", Doc: "an electric charge, as a battery holds, in coulombs.",
		Say: [2]string{"Ah", "C"},
		Units: []unit{
			{"Coulomb", "Coulombs", "C, coulomb, coulombs", "1", "", false, 0, ""},
			{"MilliampereHour", "MilliampereHours", "mAh, mA·h", "1e-3 * hour", "", false, 0, ""},
			{"AmpereHour", "AmpereHours", "Ah, A·h, ampere hour, ampere hours, ampere-hour, ampere-hours, amp hour, amp hours, amp-hour, amp-hours", "hour", "", false, 0, ""},
		},
		Readable: []step{{"C", "1"}, {"mAh", "3.6"}, {"Ah", "3600"}},
	},
	{
		Type: "MagneticFlux", Name: "magnetic flux", Doc: "a magnetic flux or flux linkage in webers, which are volt seconds.",
		Say: [2]string{"Wb", "V s"},
		Units: []unit{
			{"Weber", "Webers", "Wb, weber, webers, V·s", "1", "", false, 0, ""},
			{"Milliweber", "Milliwebers", "mWb, milliweber, milliwebers", "1e-3", "", false, 0, ""},
		},
		Readable: []step{{"mWb", "1e-3"}, {"Wb", "1"}},
	},
	{
		Type: "Inductance", Name: "inductance", Doc: "an inductance, the flux linkage per current, in henries.",
		Say: [2]string{"mH", "H"},
		Units: []unit{
			{"Henry", "Henries", "H, henry, henries", "1", "", false, 0, ""},
			{"Microhenry", "Microhenries", "µH, microhenry, microhenries", "1e-6", "", false, 0, ""},
			{"Millihenry", "Millihenries", "mH, millihenry, millihenries", "1e-3", "", false, 0, ""},
		},
		Readable: []step{{"µH", "1e-6"}, {"mH", "1e-3"}, {"H", "1"}},
	},
	{
		Type: "AngularSpeed", Name: "angular speed", Doc: "a speed of rotation in radians per second.",
		Say: [2]string{"rpm", "rad/s"},
		Units: []unit{
			{"RadianPerSecond", "RadiansPerSecond", "rad/s", "1", "", false, 0, ""},
			{"DegreePerSecond", "DegreesPerSecond", "°/s, deg/s", "1.0 / 180", "", true, 0, ""},
			{"RevolutionPerMinute", "RevolutionsPerMinute", "rpm, r/min, rev/min", "2 / minute", "", true, 0, ""},
		},
		Readable: []step{{"rpm", "0"}},
	},
	{
		Type: "MomentOfInertia", Name: "moment of inertia", Doc: "a mass moment of inertia in kilogram square metres.",
		Say: [2]string{"kg m2", "lb ft2"},
		Units: []unit{
			{"KilogramSquareMetre", "KilogramSquareMetres", "kg·m²", "1", "", false, 0, ""},
			{"PoundSquareFoot", "PoundSquareFeet", "lb·ft²", "pound * foot * foot", "", false, 0, ""},
		},
	},
}

// A product of the table becomes up to four methods: A.Times<NameB>(B) C,
// B.Times<A>(A) C, C.Per<PerB>(B) A and C.Per<A>(A) B. A name stands in for the
// type's where two products would give two methods of one name.
type product struct {
	A, B, C     string
	NameB, PerB string // empty: the type
	OneWay      bool   // without B.Times<A>
	Doc         string // what the product is, in a few words
}

var products = []product{
	{"Length", "Length", "Area", "", "", false, ""},
	{"Area", "Length", "Volume", "", "", false, ""},
	{"Speed", "Time", "Length", "", "", false, ""},
	{"Acceleration", "Time", "Speed", "", "", false, ""},
	{"AngularSpeed", "Time", "Angle", "", "", false, ""},
	{"Mass", "Acceleration", "Force", "", "", false, ""},
	{"LinearDensity", "Length", "Mass", "", "", false, ""},
	{"Density", "Volume", "Mass", "", "", false, ""},
	{"Density", "Area", "LinearDensity", "", "", false, ""},
	{"Mass", "Area", "MomentOfInertia", "", "", false, "the area is the radius of gyration squared"},
	{"ForcePerLength", "Length", "Force", "", "", false, ""},
	{"Stiffness", "Length", "Force", "", "Stretch", false, "the force at that stretch"},
	{"Pressure", "Area", "Force", "", "", false, ""},
	{"Pressure", "Length", "ForcePerLength", "", "", false, "of a strip or a curved skin of that radius"},
	{"Force", "Length", "Energy", "", "", false, "the work done along the force; the moment of a force is TimesArm"},
	{"Force", "Length", "Torque", "Arm", "Arm", true, "the moment about a point at that distance from the line of force"},
	{"Torque", "AngularSpeed", "Power", "", "", false, ""},
	{"Force", "Speed", "Power", "", "", false, ""},
	{"Power", "Time", "Energy", "", "", false, ""},
	{"Current", "Resistance", "Voltage", "", "", false, ""},
	{"Voltage", "Current", "Power", "", "", false, ""},
	{"Voltage", "Charge", "Energy", "", "", false, ""},
	{"Current", "Time", "Charge", "", "", false, ""},
	{"ResistancePerLength", "Length", "Resistance", "", "", false, ""},
	{"MagneticFlux", "AngularSpeed", "Voltage", "", "", false, "what turning induces"},
	{"Inductance", "Current", "MagneticFlux", "", "", false, ""},
}
