package wiring

import "example.com/forepeak/units"

// Chemistry is the kind of a battery.
type Chemistry string

// Chemistries.
const (
	Flooded          Chemistry = "flooded lead-acid"
	AGM              Chemistry = "AGM lead-acid"
	Gel              Chemistry = "gel lead-acid"
	LithiumPhosphate Chemistry = "lithium iron phosphate"
)

// Battery is a bank seen at its posts.
type Battery struct {
	Chemistry  Chemistry
	Cells      int              // in series: 6 lead-acid or 4 lithium for 12 V
	Capacity   units.Charge     // rated, of the whole bank
	RatedOver  units.Time       // discharge time of the rating, 0: 20 h lead-acid, 1 h lithium
	Peukert    float64          // exponent, 0: 1 (the capacity does not depend on the current)
	Resistance units.Resistance // of the whole bank, full, at 25 °C, with its links

	Charge      float64           // state of charge, 0 empty to 1 full
	Temperature units.Temperature // 0: 25 °C

	// OpenCircuit overrides what the chemistry's curve gives, as measured after a rest.
	OpenCircuit units.Voltage `json:",omitempty"`

	Disconnect *Disconnect `json:",omitempty"`
}

// Disconnect is the electronic switch of a battery's management.
type Disconnect struct {
	Resistance units.Resistance // of the closed switch
	Continuous units.Current    // carried for ever
	Peak       units.Current    // carried for PeakTime; more than that opens at once
	PeakTime   units.Time
	LowVoltage units.Voltage     // opens at the posts below this, 0: never
	LowTemp    units.Temperature // opens when colder, 0: never
}
