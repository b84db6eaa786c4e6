package wiring

import "example.com/forepeak/units"

// MotorType is how a motor's field is made.
type MotorType string

// Types of motor.
const (
	PermanentMagnet MotorType = "permanent magnet"
	Series          MotorType = "series"
	Compound        MotorType = "compound"
)

// Motor is a direct-current motor under a torque. [FitMotor] makes one from
// catalogue points.
type Motor struct {
	Type       MotorType
	Voltage    units.Voltage    // of the catalogue points
	Resistance units.Resistance // of armature, brushes and series field

	// Flux linkage in V s (volts per rad/s, N m per ampere):
	// permanent magnet: Flux; series: Slope*I/(1+Saturation*I);
	// compound: Flux*V/Voltage + Slope*I.
	Flux       float64 `json:",omitempty"` // V s
	Slope      float64 `json:",omitempty"` // V s/A
	Saturation float64 `json:",omitempty"` // 1/A

	// Shaft torque = Efficiency * flux * current - Drag.
	Efficiency float64
	Drag       units.Torque

	Load units.Torque // that it works against
}
