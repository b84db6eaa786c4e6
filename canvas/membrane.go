package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Membrane is a strip of cloth between two lines that hold it, one metre of it
// or any other width.
type Membrane struct {
	Span      units.Length
	Prestress units.ForcePerLength // pull in the cloth before the pressure comes
	// Stiffness is what a metre of width would pull with if the cloth were
	// stretched to twice its length at the rate it has for small stretch: EA of a
	// metre. Woven and coated cloth has some 100 to 1000 kN/m; ask its maker, or
	// hang a weight on a strip and measure.
	Stiffness units.ForcePerLength
}

// Pull returns the pull H in the cloth under an even pressure p, and its sag in
// the middle of the span L:
//
//	H^2 (H - H0) = EA (p L)^2/24, sag = p L^2/(8 H)
//
// with the prestress H0. It is the cable of small sag with an elastic strip in
// it: the strip is longer than the span by 8/3 sag^2/L and stretched by
// (H - H0) L/EA. Beside the arc that an even pressure makes, the pull is 1 % too
// low at a sag of 6 % of the span, 2 % at 10 %, 5 % at 14 %, 12 % at 22 %. A flat cloth without
// prestress that does not stretch would have to pull infinitely hard: one
// without stiffness is refused.
func (m Membrane) Pull(pressure units.Pressure) (pull units.ForcePerLength, sag units.Length, err error) {
	var c checker
	m.check(&c)
	between(&c, "pressure", pressure, 0, greatestPressure)
	if c.err != nil {
		return 0, 0, c.err
	}
	l, p, h0, ea := float64(m.Span), float64(pressure), float64(m.Prestress), float64(m.Stiffness)
	if p == 0 {
		return m.Prestress, 0, nil
	}
	load := ea * p * l * p * l / 24
	// H - H0 is between 0 and the root for H0 = 0, since H^2 >= (H - H0)^2.
	more := math.Cbrt(load)
	h, err := root.Find(func(h float64) (float64, error) { return h*h*(h-h0) - load, nil }, h0, (h0+more)*(1+1e-12), 1e-12*more)
	if err != nil {
		return 0, 0, refuse("pressure", pressure, "one that the cloth can carry")
	}
	return units.ForcePerLength(h), units.Length(p * l * l / (8 * h)), nil
}

// Measured returns the stiffness that explains a sag measured in the middle of
// the span under a known even pressure, full water bottles laid out on it say:
//
//	EA = 24 H^2 (H - H0)/(p L)^2 with H = p L^2/(8 sag)
//
// It counts in what gives besides the cloth, tapes and lashings above all, and is often
// a small part of the cloth's own. The sag must be less than the prestress alone
// would give; m's Stiffness is not used.
func (m Membrane) Measured(pressure units.Pressure, sag units.Length) (units.ForcePerLength, error) {
	h, err := SagPull(m.Span, sag, pressure)
	if err != nil {
		return 0, err
	}
	var c checker
	between(&c, "Prestress", m.Prestress, 0, greatestPull)
	pl := float64(pressure.TimesLength(m.Span))
	if c.err == nil && !(h > m.Prestress) {
		c.err = refuse("sag", sag, fmt.Sprintf("less than the %.3v of the prestress alone", units.Length(pl*float64(m.Span)/(8*float64(m.Prestress)))))
	}
	return units.ForcePerLength(24 * float64(h) * float64(h) * float64(h-m.Prestress) / (pl * pl)), c.err
}

func (m Membrane) check(c *checker) {
	c.size("Span", m.Span)
	between(c, "Prestress", m.Prestress, 0, greatestPull)
	between(c, "Stiffness", m.Stiffness, 100*units.NewtonPerMetre, 100000*units.KilonewtonPerMetre)
}

// SagPull returns the pull in a cloth from the sag that was measured in the
// middle of a span under an even pressure, its own weight in a calm say:
// p L^2/(8 sag). The sag is at most a fifth of the span.
func SagPull(span, sag units.Length, pressure units.Pressure) (units.ForcePerLength, error) {
	var c checker
	c.size("span", span)
	if c.err == nil {
		between(&c, "sag", sag, span/10000, span/5)
	}
	between(&c, "pressure", pressure, 0.01*units.Pascal, greatestPressure)
	if c.err != nil {
		return 0, c.err
	}
	l := float64(span)
	return units.ForcePerLength(float64(pressure) * l * l / (8 * float64(sag))), nil
}

// greatestPressure is more than any wind.
const greatestPressure = 100 * units.Kilopascal

// WaterPull is the pull that a cloth with nothing but its tension needs to
// carry a film of water without growing a pool: rho g (L/pi)^2. Below it a
// little water makes a hollow that takes more water than made it, without end;
// 9 kN/m for 3 m, which no awning has. It must drain instead: see [AwningRain].
func WaterPull(span units.Length) (units.ForcePerLength, error) {
	var c checker
	c.size("span", span)
	l := float64(span) / math.Pi
	return units.ForcePerLength(freshWater * gravity * l * l), c.err
}

const (
	freshWater = 1000.0 // kg/m3, rain
	gravity    = float64(units.StandardGravity)
)
