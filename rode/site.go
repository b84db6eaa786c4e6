package rode

import (
	"math"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/units"
)

// Site is where the anchor lies and where the bow is.
type Site struct {
	// Depth of the water at the anchor. Negative for an anchor on the dry.
	Depth units.Length
	// Roller is the height of the bow roller above the water, negative for a
	// fairlead under it.
	Roller units.Length
	// Slope of the bed along the rode, positive where it rises toward the boat.
	Slope units.Angle
	// Friction between rode and bed as a fraction of the weight on it. Zero, a
	// rode that slides freely, is on the safe side for the pull on the anchor.
	Friction float64
	// Water is its density; zero counts as SeaWater.
	Water units.Density
}

// Densities of water.
const (
	SeaWater   units.Density = 1025 // ocean water, about 15 °C
	FreshWater units.Density = 1000
)

// Rise is the height of the bow roller above the anchor.
func (s Site) Rise() units.Length { return s.Depth + s.Roller }

// Scope is the length of rode outside the roller over the rise. It is 0 where there
// is none, the roller no higher than the anchor, or where one of the two is no number.
func (s Site) Scope(out units.Length) float64 {
	scope := out.Per(s.Rise())
	if !(s.Rise() > 0) || !finite(scope) {
		return 0
	}
	return scope
}

func (s Site) water() units.Density {
	if s.Water == 0 {
		return SeaWater
	}
	return s.Water
}

func (s Site) check(c *checker) {
	// A kilometre each way is far beyond any boat's and keeps rounding harmless.
	between(c, "Depth", s.Depth, -1000, 12000)
	between(c, "Roller", s.Roller, -12000, 1000)
	if c.err == nil && !(s.Rise() >= accept.Smallest) {
		c.err = refuse("Depth", s.Depth, "an anchor below the roller (Depth + Roller more than 0)")
	}
	between(c, "Slope", s.Slope, -units.Angle(math.Pi/3), units.Angle(math.Pi/3))
	between(c, "Friction", s.Friction, 0, 10)
	between(c, "Water", s.water(), 500, 2000)
}
