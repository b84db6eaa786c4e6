package wiring

import "example.com/forepeak/units"

// DeviceKind tells a fuse from a breaker.
type DeviceKind string

// Kinds of overcurrent device.
const (
	Fuse    DeviceKind = "fuse"
	Breaker DeviceKind = "breaker"
)

// Device is a fuse or a circuit breaker.
type Device struct {
	Kind         DeviceKind
	Rating       units.Current
	Resistance   units.Resistance // of the closed device at its rating
	Interrupting units.Current    // what it can break, 0: not known
	Band         *Band            `json:",omitempty"` // when it opens, from the maker or [PublishedBand]
}

func (d Device) check(c *checker, field string) {
	must(c, d.Kind == Fuse || d.Kind == Breaker, field+".Kind", d.Kind, `"fuse" or "breaker"`)
	positive(c, field+".Rating", d.Rating)
	ohmic(c, field+".Resistance", d.Resistance)
	notNegative(c, field+".Interrupting", d.Interrupting)
	if d.Band != nil {
		d.Band.check(c, field+".Band")
	}
}
