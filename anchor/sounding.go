package anchor

import (
	"time"

	"example.com/forepeak/units"
)

// Sounding is what the depth sounder showed over the anchor, and when.
type Sounding struct {
	At    time.Time
	Shown units.Length
	// Offset is how deep under the surface the level lies from which the sounder
	// counts: 0 if it shows the depth of the water, the depth of the transducer if
	// it shows what is below that, the draught if it shows what is below the keel.
	Offset units.Length
}

// Depth of the water at the time of the sounding.
func (s Sounding) Depth() units.Length { return s.Shown + s.Offset }

func (s Sounding) check(c *checker, field string) {
	between(c, field+"Shown", s.Shown, 0, 1000)
	between(c, field+"Offset", s.Offset, 0, 20)
	c.must(s.Depth() > 0, field+"Shown", s.Shown, "more than 0 with the offset")
	if c.err == nil {
		c.err = checkTime(field+"At", s.At)
	}
}

// DepthAt is the depth of the water at another time, where the sounding was
// taken: the sounding and what the tide has risen since. It may be negative, for
// a place that has dried. Chart datum and a steady surge of the weather cancel.
func (s Sounding) DepthAt(td Tide, at time.Time) (units.Length, error) {
	var c checker
	s.check(&c, "Sounding.")
	if c.err != nil {
		return 0, c.err
	}
	then, err := td.Height(s.At)
	if err != nil {
		return 0, err
	}
	now, err := td.Height(at)
	if err != nil {
		return 0, err
	}
	return s.Depth() + (now - then), nil
}
