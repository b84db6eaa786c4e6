package anchor

import (
	"math"

	"example.com/forepeak/units"
)

// Air is the state of the air. The zero Air is dry, at 15 °C and 1013.25 hPa:
// 1.225 kg/m³.
type Air struct {
	Temperature units.Temperature // 0 counts as 15 °C; from -40 °C to 50 °C
	Pressure    units.Pressure    // 0 counts as 1013.25 hPa; from 850 hPa to 1100 hPa
	Humidity    float64           // relative, from 0 to 1
}

// Gas constants of dry air and of water vapour, J/(kg K).
const (
	dryAir = 287.05287 // ICAO standard atmosphere
	vapour = 461.523
)

// Density is that of moist air as a mixture of two ideal gases,
//
//	rho = (p - e) / (Rd T) + e / (Rv T)
//
// with e the humidity times the vapour pressure over water of Magnus in the
// form of the WMO guide to instruments, 6.112 hPa exp(17.62 t / (243.12 + t)),
// t in °C. A warm, moist day has air 4 % lighter than the standard; wind loads go
// with it.
func (a Air) Density() (units.Density, error) {
	var c checker
	a.check(&c)
	return units.Density(a.density()), c.err
}

func (a Air) check(c *checker) {
	between(c, "Temperature", or(a.Temperature, units.Celsius(15)), units.Celsius(-40), units.Celsius(50))
	between(c, "Pressure", or(a.Pressure, 101325), 85000, 110000)
	between(c, "Humidity", a.Humidity, 0, 1)
}

func (a Air) density() float64 {
	t := float64(or(a.Temperature, units.Celsius(15)))
	p := float64(or(a.Pressure, 101325))
	celsius := t - 273.15
	e := a.Humidity * 611.2 * math.Exp(17.62*celsius/(243.12+celsius))
	return (p-e)/(dryAir*t) + e/(vapour*t)
}
