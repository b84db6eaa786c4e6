package units_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"testing"

	"example.com/forepeak/units"
)

// A kind lets the tests treat all quantity types alike.
type kind struct {
	name  string
	parse func(string) (float64, error)
	of    func(float64) any // the value of x in SI
	zero  func() any        // a pointer to a new value
	units func() []string
	dim   dimension
}

// A dimension is the exponents of kilogram, metre, second and ampere.
type dimension struct{ kg, m, s, a int }

func kindOf[Q ~float64](name string, parse func(string) (Q, error), symbols func() []string, d dimension) kind {
	return kind{
		name: name,
		parse: func(s string) (float64, error) {
			x, err := parse(s)
			return float64(x), err
		},
		of:    func(x float64) any { return Q(x) },
		zero:  func() any { return new(Q) },
		units: symbols,
		dim:   d,
	}
}

var kinds = []kind{
	kindOf("Length", units.ParseLength, units.LengthUnits, dimension{m: 1}),
	kindOf("Area", units.ParseArea, units.AreaUnits, dimension{m: 2}),
	kindOf("Volume", units.ParseVolume, units.VolumeUnits, dimension{m: 3}),
	kindOf("Mass", units.ParseMass, units.MassUnits, dimension{kg: 1}),
	kindOf("Force", units.ParseForce, units.ForceUnits, dimension{kg: 1, m: 1, s: -2}),
	kindOf("LinearDensity", units.ParseLinearDensity, units.LinearDensityUnits, dimension{kg: 1, m: -1}),
	kindOf("ForcePerLength", units.ParseForcePerLength, units.ForcePerLengthUnits, dimension{kg: 1, s: -2}),
	kindOf("Pressure", units.ParsePressure, units.PressureUnits, dimension{kg: 1, m: -1, s: -2}),
	kindOf("Stiffness", units.ParseStiffness, units.StiffnessUnits, dimension{kg: 1, s: -2}),
	kindOf("Speed", units.ParseSpeed, units.SpeedUnits, dimension{m: 1, s: -1}),
	kindOf("Acceleration", units.ParseAcceleration, units.AccelerationUnits, dimension{m: 1, s: -2}),
	kindOf("Angle", units.ParseAngle, units.AngleUnits, dimension{}),
	kindOf("Temperature", units.ParseTemperature, units.TemperatureUnits, dimension{}),
	kindOf("TemperatureDifference", units.ParseTemperatureDifference, units.TemperatureDifferenceUnits, dimension{}),
	kindOf("Density", units.ParseDensity, units.DensityUnits, dimension{kg: 1, m: -3}),
	kindOf("Time", units.ParseTime, units.TimeUnits, dimension{s: 1}),
	kindOf("Frequency", units.ParseFrequency, units.FrequencyUnits, dimension{s: -1}),
	kindOf("Energy", units.ParseEnergy, units.EnergyUnits, dimension{kg: 1, m: 2, s: -2}),
	kindOf("Power", units.ParsePower, units.PowerUnits, dimension{kg: 1, m: 2, s: -3}),
	kindOf("Torque", units.ParseTorque, units.TorqueUnits, dimension{kg: 1, m: 2, s: -2}),
	kindOf("Current", units.ParseCurrent, units.CurrentUnits, dimension{a: 1}),
	kindOf("Voltage", units.ParseVoltage, units.VoltageUnits, dimension{kg: 1, m: 2, s: -3, a: -1}),
	kindOf("Resistance", units.ParseResistance, units.ResistanceUnits, dimension{kg: 1, m: 2, s: -3, a: -2}),
	kindOf("ResistancePerLength", units.ParseResistancePerLength, units.ResistancePerLengthUnits, dimension{kg: 1, m: 1, s: -3, a: -2}),
	kindOf("Charge", units.ParseCharge, units.ChargeUnits, dimension{s: 1, a: 1}),
	kindOf("MagneticFlux", units.ParseMagneticFlux, units.MagneticFluxUnits, dimension{kg: 1, m: 2, s: -2, a: -1}),
	kindOf("Inductance", units.ParseInductance, units.InductanceUnits, dimension{kg: 1, m: 2, s: -2, a: -2}),
	kindOf("AngularSpeed", units.ParseAngularSpeed, units.AngularSpeedUnits, dimension{s: -1}),
	kindOf("MomentOfInertia", units.ParseMomentOfInertia, units.MomentOfInertiaUnits, dimension{kg: 1, m: 2}),
}

func kindNamed(t *testing.T, name string) kind {
	t.Helper()
	for _, k := range kinds {
		if k.name == name {
			return k
		}
	}
	t.Fatalf("no quantity %s in the tests", name)
	return kind{}
}

func TestKindsAreAllQuantities(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "quantities_gen.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, d := range file.Decls {
		if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.TYPE {
			names = append(names, g.Specs[0].(*ast.TypeSpec).Name.Name)
		}
	}
	if len(names) != len(kinds) {
		t.Fatalf("the package has %d quantities, the tests %d", len(names), len(kinds))
	}
	for _, n := range names {
		kindNamed(t, n)
	}
}
