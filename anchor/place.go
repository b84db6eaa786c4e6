package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// LatLon is a position on the WGS 84 ellipsoid, north and east positive.
type LatLon struct{ Lat, Lon units.Angle }

// Place is a position on a plane that touches the Earth near the anchor.
type Place struct{ East, North units.Length }

// WGS 84: half the greater axis, and the square of the first eccentricity from
// the flattening 1/298.257223563.
const (
	earthRadius  = 6378137.0
	flattening   = 1 / 298.257223563
	eccentricity = flattening * (2 - flattening)
)

// PlaceOf is where a position lies seen from an origin, with the ellipsoid's radii
// of curvature at the latitude in the middle:
//
//	north = M dLat,  M = a (1 - e²) / (1 - e² sin² lat)^(3/2)
//	east  = N cos lat dLon,  N = a / (1 - e² sin² lat)^(1/2)
//
// Distances from the origin are good to a millimetre in a kilometre within 70° of
// the equator. It refuses positions more than 10 km apart in either direction and
// those beyond 89° of latitude.
func PlaceOf(origin, at LatLon) (Place, error) {
	var c checker
	for _, p := range []struct {
		field string
		at    LatLon
	}{{"origin.", origin}, {"at.", at}} {
		between(&c, p.field+"Lat", p.at.Lat, -89*units.Degree, 89*units.Degree)
		between(&c, p.field+"Lon", p.at.Lon, -units.Turn, units.Turn)
	}
	if c.err != nil {
		return Place{}, c.err
	}
	dLat := float64(at.Lat - origin.Lat)
	dLon := math.Remainder(float64(at.Lon-origin.Lon), 2*math.Pi)
	sin, cos := math.Sincos(float64(origin.Lat) + dLat/2)
	q := 1 - eccentricity*sin*sin
	n := earthRadius / math.Sqrt(q)
	m := n * (1 - eccentricity) / q
	p := Place{East: units.Length(n * cos * dLon), North: units.Length(m * dLat)}
	between(&c, "north of origin", p.North, -10000, 10000)
	between(&c, "east of origin", p.East, -10000, 10000)
	if c.err != nil {
		return Place{}, c.err
	}
	return p, nil
}

// From is the distance between two places.
func (p Place) From(q Place) units.Length {
	return units.Length(math.Hypot(float64(p.East-q.East), float64(p.North-q.North)))
}
