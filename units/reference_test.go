package units_test

import (
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
	exempt := map[string]string{}
	bookkeeping := map[string]string{"FromDuration": "a change of type: nanoseconds to seconds"}
	for _, k := range kinds {
		exempt[k.name] = "the methods without rows: Parse with the same factors has them; accessors are compared with exact rational factors, products with dimensions"
		bookkeeping[k.name+"Units"] = "lists of names"
	}
	refcheck.Run(t, refcheck.Suite{Package: "units", Handlers: handlers, Exempt: exempt, Bookkeeping: bookkeeping})
}

func parsed[Q any](parse func(string) (Q, error)) refcheck.Handler {
	return func(in refcheck.Inputs) (any, error) { return parse(in.Text("in")) }
}
