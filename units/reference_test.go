package units_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update

func TestReference(t *testing.T) {
	handlers := map[string]refcheck.Handler{
		"units.ParseLength":                parsed(units.ParseLength),
		"units.ParseArea":                  parsed(units.ParseArea),
		"units.ParseVolume":                parsed(units.ParseVolume),
		"units.ParseMass":                  parsed(units.ParseMass),
		"units.ParseForce":                 parsed(units.ParseForce),
		"units.ParseLinearDensity":         parsed(units.ParseLinearDensity),
		"units.ParseForcePerLength":        parsed(units.ParseForcePerLength),
		"units.ParsePressure":              parsed(units.ParsePressure),
		"units.ParseStiffness":             parsed(units.ParseStiffness),
		"units.ParseSpeed":                 parsed(units.ParseSpeed),
		"units.ParseAcceleration":          parsed(units.ParseAcceleration),
		"units.ParseAngle":                 parsed(units.ParseAngle),
		"units.ParseTemperature":           parsed(units.ParseTemperature),
		"units.ParseTemperatureDifference": parsed(units.ParseTemperatureDifference),
		"units.ParseDensity":               parsed(units.ParseDensity),
		"units.ParseTime":                  parsed(units.ParseTime),
		"units.ParseFrequency":             parsed(units.ParseFrequency),
		"units.ParseEnergy":                parsed(units.ParseEnergy),
		"units.ParsePower":                 parsed(units.ParsePower),
		"units.ParseTorque":                parsed(units.ParseTorque),
		"units.ParseCurrent":               parsed(units.ParseCurrent),
		"units.ParseVoltage":               parsed(units.ParseVoltage),
		"units.ParseResistance":            parsed(units.ParseResistance),
		"units.ParseResistancePerLength":   parsed(units.ParseResistancePerLength),
		"units.ParseCharge":                parsed(units.ParseCharge),
		"units.ParseMagneticFlux":          parsed(units.ParseMagneticFlux),
		"units.ParseInductance":            parsed(units.ParseInductance),
		"units.ParseAngularSpeed":          parsed(units.ParseAngularSpeed),
		"units.ParseMomentOfInertia":       parsed(units.ParseMomentOfInertia),

		"units.Length.Inches":          func(in refcheck.Inputs) (any, error) { return in.Length("in").Inches(), nil },
		"units.Length.Feet":            func(in refcheck.Inputs) (any, error) { return in.Length("in").Feet(), nil },
		"units.Length.Yards":           func(in refcheck.Inputs) (any, error) { return in.Length("in").Yards(), nil },
		"units.Length.StatuteMiles":    func(in refcheck.Inputs) (any, error) { return in.Length("in").StatuteMiles(), nil },
		"units.Length.NauticalMiles":   func(in refcheck.Inputs) (any, error) { return in.Length("in").NauticalMiles(), nil },
		"units.Speed.FeetPerSecond":    func(in refcheck.Inputs) (any, error) { return in.Speed("in").FeetPerSecond(), nil },
		"units.Mass.Weight":            func(in refcheck.Inputs) (any, error) { return in.Mass("in").Weight(), nil },
		"units.Force.Mass":             func(in refcheck.Inputs) (any, error) { return in.Force("in").Mass(), nil },
		"units.Frequency.Period":       func(in refcheck.Inputs) (any, error) { return in.Frequency("in").Period(), nil },
		"units.Frequency.AngularSpeed": func(in refcheck.Inputs) (any, error) { return in.Frequency("in").AngularSpeed(), nil },
		"units.Temperature.Sub":        func(in refcheck.Inputs) (any, error) { return in.Temperature("t").Sub(in.Temperature("u")), nil },
		"units.Temperature.Add": func(in refcheck.Inputs) (any, error) {
			return in.Temperature("t").Add(in.TemperatureDifference("d")), nil
		},
		"units.Atan2":       func(in refcheck.Inputs) (any, error) { return units.Atan2(in.Length("y"), in.Length("x")), nil },
		"units.Celsius":     func(in refcheck.Inputs) (any, error) { return units.Celsius(in.Float("c")), nil },
		"units.Fahrenheit":  func(in refcheck.Inputs) (any, error) { return units.Fahrenheit(in.Float("f")), nil },
		"units.Shot":        func(refcheck.Inputs) (any, error) { return units.Shot, nil },
		"units.Shackle":     func(refcheck.Inputs) (any, error) { return units.Shackle, nil },
		"units.CableLength": func(refcheck.Inputs) (any, error) { return units.CableLength, nil },
	}
	for name := range strings.FieldsSeq(accessors) {
		handlers["units."+name] = read(name)
	}
	for name, f := range map[string]refcheck.Handler{
		"Current.TimesResistance": func(in refcheck.Inputs) (any, error) {
			return in.Current("current").TimesResistance(in.Resistance("resistance")), nil
		},
		"Resistance.TimesCurrent": func(in refcheck.Inputs) (any, error) {
			return in.Resistance("resistance").TimesCurrent(in.Current("current")), nil
		},
		"Voltage.PerResistance": func(in refcheck.Inputs) (any, error) {
			return in.Voltage("voltage").PerResistance(in.Resistance("resistance")), nil
		},
		"Voltage.PerCurrent": func(in refcheck.Inputs) (any, error) {
			return in.Voltage("voltage").PerCurrent(in.Current("current")), nil
		},
		"Current.TimesVoltage": func(in refcheck.Inputs) (any, error) {
			return in.Current("current").TimesVoltage(in.Voltage("voltage")), nil
		},
		"Power.PerVoltage": func(in refcheck.Inputs) (any, error) {
			return in.Power("power").PerVoltage(in.Voltage("voltage")), nil
		},
		"Force.PerArea":      func(in refcheck.Inputs) (any, error) { return in.Force("force").PerArea(in.Area("area")), nil },
		"Pressure.TimesArea": func(in refcheck.Inputs) (any, error) { return in.Pressure("pressure").TimesArea(in.Area("area")), nil },
		"Mass.PerDensity":    func(in refcheck.Inputs) (any, error) { return in.Mass("mass").PerDensity(in.Density("density")), nil },
		"Density.TimesVolume": func(in refcheck.Inputs) (any, error) {
			return in.Density("density").TimesVolume(in.Volume("volume")), nil
		},
		"Force.PerLength":    func(in refcheck.Inputs) (any, error) { return in.Force("force").PerLength(in.Length("length")), nil },
		"Length.TimesLength": func(in refcheck.Inputs) (any, error) { return in.Length("a").TimesLength(in.Length("b")), nil },
		"Length.Per":         func(in refcheck.Inputs) (any, error) { return in.Length("a").Per(in.Length("b")), nil },
		"Force.PerAcceleration": func(in refcheck.Inputs) (any, error) {
			return in.Force("force").PerAcceleration(in.Acceleration("acceleration")), nil
		},
		"ResistancePerLength.TimesLength": func(in refcheck.Inputs) (any, error) {
			return in.ResistancePerLength("r").TimesLength(in.Length("run")).TimesCurrent(in.Current("current")), nil
		},
		"Length.TimesResistancePerLength": func(in refcheck.Inputs) (any, error) {
			return in.Length("run").TimesResistancePerLength(in.ResistancePerLength("r")).TimesCurrent(in.Current("current")), nil
		},
		"Length.TimesStiffness": func(in refcheck.Inputs) (any, error) {
			return in.Length("length").TimesStiffness(in.Stiffness("stiffness")), nil
		},
	} {
		handlers["units."+name] = f
	}
	exempt := map[string]string{}
	bookkeeping := map[string]string{"FromDuration": "a change of type: nanoseconds to seconds"}
	for _, k := range kinds {
		exempt[k.name] = "the methods without rows, Abs, In, Per, Scale and products that nobody prints: accessors are compared with exact rational factors, products with dimensions"
		bookkeeping[k.name+"Units"] = "lists of names"
	}
	refcheck.Run(t, refcheck.Suite{Package: "units", Handlers: handlers, Exempt: exempt, Bookkeeping: bookkeeping})
}

func parsed[Q any](parse func(string) (Q, error)) refcheck.Handler {
	return func(in refcheck.Inputs) (any, error) { return parse(in.Text("in")) }
}

// accessors have a row with the printed size of their unit, or of another in theirs.
const accessors = `
	Length.Fathoms Area.SquareFeet Area.SquareInches Area.SquareYards Area.CircularMils Volume.CubicFeet
	Volume.CubicInches Volume.USGallons Volume.ImperialGallons Mass.Pounds Mass.Ounces Mass.LongTons
	Mass.ShortTons Force.PoundsForce Force.KilogramsForce LinearDensity.PoundsPerFoot
	ForcePerLength.PoundsForcePerFoot ForcePerLength.PoundsForcePerInch Pressure.PoundsPerSquareInch
	Pressure.PoundsPerSquareFoot Speed.Knots Speed.KilometresPerHour Speed.MilesPerHour
	Speed.FeetPerMinute Speed.MetresPerMinute Acceleration.FeetPerSecondSquared
	Acceleration.StandardGravities Angle.Degrees Angle.Turns AngularSpeed.RevolutionsPerMinute
	Density.PoundsPerCubicFoot Density.PoundsPerCubicInch Time.Days Time.Hours Energy.FootPoundsForce
	Energy.KilowattHours Energy.WattHours Power.MetricHorsepower Torque.PoundForceFeet
	Torque.PoundForceInches Torque.KilogramForceMetres Charge.AmpereHours Charge.MilliampereHours
	Stiffness.PoundsForcePerInch Stiffness.PoundsForcePerFoot Length.Millimetres Length.Centimetres
	Length.Kilometres Area.SquareMillimetres Area.SquareCentimetres Volume.Millilitres Mass.Grams
	Force.Kilonewtons Pressure.NewtonsPerSquareMillimetre Pressure.Hectopascals Pressure.Gigapascals
	Density.GramsPerCubicCentimetre Density.KilogramsPerLitre Time.Milliseconds Frequency.Kilohertz
	Power.Milliwatts Power.Kilowatts Current.Milliamperes Current.Kiloamperes Voltage.Millivolts
	Voltage.Kilovolts Resistance.Microhms MagneticFlux.Milliwebers Inductance.Microhenries
	Inductance.Millihenries Resistance.Milliohms Resistance.Megohms Energy.Megajoules Energy.Kilojoules
	Torque.KilonewtonMetres Length.Micrometres Volume.Litres Mass.Tonnes LinearDensity.Tex Pressure.Bars
	Power.MechanicalHorsepower Time.Minutes
	Length.Metres Area.SquareMetres Volume.CubicMetres Mass.Kilograms Force.Newtons
	LinearDensity.KilogramsPerMetre ForcePerLength.NewtonsPerMetre Pressure.Pascals Speed.MetresPerSecond
	Acceleration.MetresPerSecondSquared Angle.Radians AngularSpeed.RadiansPerSecond
	Density.KilogramsPerCubicMetre Time.Seconds Energy.Joules Power.Watts Torque.NewtonMetres Charge.Coulombs
	MomentOfInertia.KilogramSquareMetres Stiffness.NewtonsPerMetre Frequency.Hertz Current.Amperes Voltage.Volts
	Resistance.Ohms MagneticFlux.Webers Inductance.Henries MomentOfInertia.PoundSquareFeet Length.Shots
	Length.Shackles Length.CableLengths ResistancePerLength.OhmsPerKilofoot ResistancePerLength.OhmsPerKilometre
	ResistancePerLength.MilliohmsPerMetre LinearDensity.PoundsPer100Feet TemperatureDifference.FahrenheitDegrees
	TemperatureDifference.CelsiusDegrees TemperatureDifference.Kelvins Temperature.Celsius Temperature.Fahrenheit
	Temperature.Kelvins Angle.Cos Angle.Sin
`

// read is an accessor of what a row gives.
func read(name string) refcheck.Handler {
	quantity, method, _ := strings.Cut(name, ".")
	k := kinds[slices.IndexFunc(kinds, func(k kind) bool { return k.name == quantity })]
	return func(in refcheck.Inputs) (any, error) {
		v, err := k.parse(in.Text("in"))
		if err != nil {
			return nil, err
		}
		return reflect.ValueOf(k.of(v)).MethodByName(method).Call(nil)[0].Float(), nil
	}
}
