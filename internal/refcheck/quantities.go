package refcheck

import "example.com/forepeak/units"

// The getters of quantities parse what package units parses: a number and its
// unit.

func (in Inputs) Length(key string) units.Length { return get(in, key, units.ParseLength) }
func (in Inputs) Area(key string) units.Area     { return get(in, key, units.ParseArea) }
func (in Inputs) Volume(key string) units.Volume { return get(in, key, units.ParseVolume) }
func (in Inputs) Mass(key string) units.Mass     { return get(in, key, units.ParseMass) }
func (in Inputs) Force(key string) units.Force   { return get(in, key, units.ParseForce) }
func (in Inputs) LinearDensity(key string) units.LinearDensity {
	return get(in, key, units.ParseLinearDensity)
}

func (in Inputs) ForcePerLength(key string) units.ForcePerLength {
	return get(in, key, units.ParseForcePerLength)
}
func (in Inputs) Pressure(key string) units.Pressure   { return get(in, key, units.ParsePressure) }
func (in Inputs) Stiffness(key string) units.Stiffness { return get(in, key, units.ParseStiffness) }
func (in Inputs) Speed(key string) units.Speed         { return get(in, key, units.ParseSpeed) }
func (in Inputs) Acceleration(key string) units.Acceleration {
	return get(in, key, units.ParseAcceleration)
}
func (in Inputs) Angle(key string) units.Angle { return get(in, key, units.ParseAngle) }
func (in Inputs) Temperature(key string) units.Temperature {
	return get(in, key, units.ParseTemperature)
}

func (in Inputs) TemperatureDifference(key string) units.TemperatureDifference {
	return get(in, key, units.ParseTemperatureDifference)
}
func (in Inputs) Density(key string) units.Density       { return get(in, key, units.ParseDensity) }
func (in Inputs) Time(key string) units.Time             { return get(in, key, units.ParseTime) }
func (in Inputs) Frequency(key string) units.Frequency   { return get(in, key, units.ParseFrequency) }
func (in Inputs) Energy(key string) units.Energy         { return get(in, key, units.ParseEnergy) }
func (in Inputs) Power(key string) units.Power           { return get(in, key, units.ParsePower) }
func (in Inputs) Torque(key string) units.Torque         { return get(in, key, units.ParseTorque) }
func (in Inputs) Current(key string) units.Current       { return get(in, key, units.ParseCurrent) }
func (in Inputs) Voltage(key string) units.Voltage       { return get(in, key, units.ParseVoltage) }
func (in Inputs) Resistance(key string) units.Resistance { return get(in, key, units.ParseResistance) }

func (in Inputs) ResistancePerLength(key string) units.ResistancePerLength {
	return get(in, key, units.ParseResistancePerLength)
}
func (in Inputs) Charge(key string) units.Charge { return get(in, key, units.ParseCharge) }
func (in Inputs) AngularSpeed(key string) units.AngularSpeed {
	return get(in, key, units.ParseAngularSpeed)
}

func (in Inputs) MomentOfInertia(key string) units.MomentOfInertia {
	return get(in, key, units.ParseMomentOfInertia)
}
