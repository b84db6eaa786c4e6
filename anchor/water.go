package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Current is a stream of water past the boat.
type Current struct {
	Speed       units.Speed
	Depth       units.Length      // of the water under and around the boat
	Temperature units.Temperature // 0 counts as 15 °C; from 0 °C to 35 °C
	Fresh       bool              // fresh water instead of the sea
}

func (s Current) density() float64 {
	if s.Fresh {
		return float64(rode.FreshWater)
	}
	return float64(rode.SeaWater)
}

func (s Current) check(c *checker) {
	between(c, "Current.Speed", s.Speed, 0, 10)
	between(c, "Current.Depth", s.Depth, 0.1, 12000)
	between(c, "Current.Temperature", or(s.Temperature, units.Celsius(15)), units.Celsius(0), units.Celsius(35))
}

// viscosity is the kinematic viscosity, m²/s: Sharqawy, Lienhard and Zubair,
// Desalination and Water Treatment 16, 2010, equations 22 and 23, over a
// density by the same authors' equation 8.
func (s Current) viscosity() float64 {
	t := float64(or(s.Temperature, units.Celsius(15))) - 273.15
	salt := 0.035
	if s.Fresh {
		salt = 0
	}
	pure := 4.2844e-5 + 1/(0.157*(t+64.993)*(t+64.993)-91.296)
	a := 1.541 + 1.998e-2*t - 9.52e-5*t*t
	b := 7.974 - 7.561e-2*t + 4.724e-4*t*t
	density := 999.9 + 2.034e-2*t - 6.162e-3*t*t + 2.261e-5*t*t*t - 4.657e-8*t*t*t*t +
		salt*(802.0-2.001*t+1.677e-2*t*t-3.060e-5*t*t*t-1.613e-5*salt*t*t)
	return pure * (1 + a*salt + b*salt*salt) / density
}

// Reynolds is the number of a length in the current, V L / nu.
func (s Current) Reynolds(length units.Length) (float64, error) {
	var c checker
	s.check(&c)
	between(&c, "length", length, 0, 1000)
	if c.err != nil {
		return 0, c.err
	}
	return float64(s.Speed) * float64(length) / s.viscosity(), nil
}

const leastReynolds, mostReynolds = 1e4, 1e10

// FrictionCoefficient is the ITTC-1957 model-ship correlation line,
//
//	C = 0.075 / (log10(Re) - 2)²
//
// for a Reynolds number from 1e4 to 1e10.
func FrictionCoefficient(reynolds float64) (float64, error) {
	if !(reynolds >= leastReynolds && reynolds <= mostReynolds) {
		return 0, refuseAs(ErrRange, "reynolds", reynolds, "from 1e4 to 1e10")
	}
	return ittc(reynolds), nil
}

func ittc(reynolds float64) float64 {
	x := math.Log10(reynolds) - 2
	return 0.075 / (x * x)
}
