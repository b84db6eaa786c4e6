package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Heat from a round cable in still air, from first principles.
const (
	stefanBoltzmann   = 5.670374419e-8 // W/(m² K⁴)
	emissivity        = 0.9            // of plastic and rubber; from memory, 0.85 to 0.95
	insulationConduct = 0.19           // W/(m K), plastic insulation; from memory, 0.16 to 0.25
	copperHeat        = 3.45e6         // J/(K m³), IEC 60364-5-54 annex A
	insulationHeat    = 2.0e6          // J/(K m³); from memory, 1.7e6 to 2.4e6
	seaLevel          = 101325         // Pa
	gasConstantOfAir  = 287.05         // J/(kg K)
)

// Air conducts, flows and stores heat by these, at sea level, T in kelvin. Viscosity and
// conductivity by Sutherland's law with the constants of White, Viscous Fluid Flow.
func airAt(t float64) (conductivity, kinematicViscosity, prandtl float64) {
	mu := 1.716e-5 * math.Pow(t/273, 1.5) * (273 + 111) / (t + 111)
	k := 0.0241 * math.Pow(t/273, 1.5) * (273 + 194) / (t + 194)
	rho := seaLevel / (gasConstantOfAir * t)
	const cp = 1007 // J/(kg K)
	return k, mu / rho, mu * cp / k
}

// surfaceLoss is the heat in W/m that a horizontal cylinder gives off: natural
// convection by Churchill and Chu and radiation to surroundings as warm as the air.
func surfaceLoss(diameter, surface, ambient, emissivity float64) float64 {
	if surface <= ambient {
		return 0
	}
	film := (surface + ambient) / 2
	k, nu, pr := airAt(film)
	ra := 9.80665 / film * (surface - ambient) * diameter * diameter * diameter / (nu * nu) * pr
	nusselt := 0.60 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.559/pr, 9.0/16), 8.0/27)
	h := nusselt * nusselt * k / diameter
	radiation := emissivity * stefanBoltzmann * (math.Pow(surface, 4) - math.Pow(ambient, 4))
	return math.Pi * diameter * (h*(surface-ambient) + radiation)
}

// SurfaceLoss returns the heat that a length of a horizontal round bar, pipe or cable gives
// to still air and surroundings of the same temperature. Convection is that of Churchill and
// Chu (Int. J. Heat Mass Transfer 18, 1975) for a horizontal cylinder,
//
//	Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))^2,  Ra < 1e12
//
// with air properties at the mean of surface and ambient; radiation is
// emissivity * sigma * (Ts^4 - Ta^4). Temperatures from -60 to 250 °C, diameters from 0.1 mm to 1 m.
func SurfaceLoss(diameter, length units.Length, surface, ambient units.Temperature, emissivity float64) (units.Power, error) {
	var c checker
	between(&c, "diameter", diameter, 0.1*units.Millimetre, units.Metre)
	between(&c, "length", length, 0, 1e5)
	between(&c, "ambient", ambient, coldestCopper, hottestCopper)
	between(&c, "surface", surface, ambient, hottestCopper)
	between(&c, "emissivity", emissivity, 0, 1)
	if c.err != nil {
		return 0, c.err
	}
	return units.Power(float64(length) * surfaceLoss(float64(diameter), float64(surface), float64(ambient), emissivity)), nil
}

// thermal is a cable ready for the heat balance, in SI, kelvin and per metre.
type thermal struct {
	resistance float64 // at 20 °C
	outer      float64 // diameter of the cable
	inside     float64 // thermal resistance of the insulation, K m/W
	capacity   float64 // of copper and insulation, J/(K m)
	ambient    float64
	open       float64 // part of its surface that gives off heat
}

func newThermal(c Conductor, ambient units.Temperature) (thermal, error) {
	var ck checker
	c.check(&ck, "conductor")
	between(&ck, "ambient", ambient, coldestCopper, hottestCopper)
	if ck.err != nil {
		return thermal{}, ck.err
	}
	c = c.estimated()
	core := math.Sqrt(4 * float64(c.Area) / (math.Pi * strandFill))
	outer := float64(c.Diameter)
	if outer <= core {
		return thermal{}, refuse("conductor.Diameter", fmt.Sprintf("%.3v", c.Diameter), fmt.Sprintf("more than the strands' %.3v, or 0 for an estimate", units.Length(core)))
	}
	if outer > 1 {
		return thermal{}, refuse("conductor.Diameter", fmt.Sprintf("%.3v", c.Diameter), "1 m or less")
	}
	plastic := math.Pi / 4 * (outer*outer - core*core)
	return thermal{
		resistance: float64(c.Resistance),
		outer:      outer,
		inside:     math.Log(outer/core) / (2 * math.Pi * insulationConduct),
		capacity:   copperHeat*float64(c.Area) + insulationHeat*plastic,
		ambient:    float64(ambient),
		open:       1,
	}, nil
}

// heating is what the current puts in, W/m.
func (h thermal) heating(amps, t float64) float64 {
	return amps * amps * h.resistance * (234.5 + t - 273.15) / 254.5
}

// cooling is what leaves copper at t, W/m: the surface is as warm as makes what passes
// the insulation equal to what the air takes.
func (h thermal) cooling(t float64) float64 {
	if t <= h.ambient {
		return 0
	}
	surface, err := root.Find(func(s float64) (float64, error) {
		return h.open*surfaceLoss(h.outer, s, h.ambient, emissivity) - (t-s)/h.inside, nil
	}, h.ambient, t, 1e-9)
	if err != nil {
		return 0 // cannot happen: the ends have opposite signs
	}
	return (t - surface) / h.inside
}

// SteadyCurrent returns the current that holds the copper of one cable, lying alone and level in
// still air, at its Insulation temperature for ever: loss I²R equals the heat that
// passes the insulation (0.19 W/(m K)), and leaves it by [SurfaceLoss] (emissivity 0.9).
//
// Rule tables give 0.77 to 1.07 times as much (American ones for 60 and 75 °C insulation down to
// 0.6 in the least sizes, which their fuses hold down), as they have other installations in
// mind: the package's tests say how near each one is. Use it to understand a table and to go
// beyond one in time, not instead of one.
func SteadyCurrent(c Conductor, ambient units.Temperature) (units.Current, error) {
	h, err := newThermal(c, ambient)
	if err != nil {
		return 0, err
	}
	if c.Insulation <= ambient {
		return 0, refuse("conductor.Insulation", fmt.Sprintf("%.3v", c.Insulation), "a temperature above the ambient")
	}
	t := float64(c.Insulation)
	return units.Current(math.Sqrt(h.cooling(t) / h.heating(1, t))), nil
}

// SteadyTemperature returns the temperature of the copper at a current that flows for ever, by
// the balance of [SteadyCurrent]. More than 250 °C is [ErrRange].
func SteadyTemperature(c Conductor, ambient units.Temperature, current units.Current) (units.Temperature, error) {
	h, err := newThermal(c, ambient)
	if err != nil {
		return 0, err
	}
	var ck checker
	between(&ck, "current", current, 0, 1e6)
	if ck.err != nil {
		return 0, ck.err
	}
	return h.steady(float64(current))
}

func (h thermal) steady(amps float64) (units.Temperature, error) {
	hottest := float64(hottestCopper)
	net := func(t float64) (float64, error) { return h.cooling(t) - h.heating(amps, t), nil }
	if top, _ := net(hottest); top < 0 {
		return 0, refuseAs(ErrRange, "current", fmt.Sprintf("%.4v", units.Current(amps)), "one that leaves the copper below 250 °C")
	}
	if amps == 0 {
		return units.Temperature(h.ambient), nil
	}
	t, err := root.Find(net, h.ambient, hottest, 1e-9)
	if err != nil {
		return 0, refuseAs(ErrNoSolution, "current", units.Current(amps), err.Error())
	}
	return units.Temperature(t), nil
}
