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
//	2 R asin(L/(2 R)) = L (1 + (H - H0)/EA), R = H/p
//
// with the prestress H0: an even pressure bends a strip to an arc of radius R,
// as long as the strip that H has stretched. A shallow arc has
//
//	H^2 (H - H0) = EA (p L)^2/24, sag = p L^2/(8 H)
//
// whose pull is 1 % too low at a sag of 6 % of the span, 2 % at 10 %, 12 % at
// 22 %. Cloth that would be blown up to more than a half circle is refused. A flat cloth without
// prestress that does not stretch would have to pull infinitely hard: one
// without stiffness is refused too.
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
	// The stretch is between those of a shallow arc and of a half circle,
	// x^2/6 and (pi/2 - 1) x^2 with x = p L/(2 H), and H is p L/2 or more.
	least := math.Max(h0, p*l/2)
	more := math.Cbrt(ea * p * l * p * l / 4 * (math.Pi/2 - 1))
	h, err := root.Find(func(h float64) (float64, error) {
		return ea*m.stretch(pressure, units.ForcePerLength(h)) - (h - h0), nil
	}, least, math.Max(least, (h0+more)*(1+1e-12)), 1e-12*more)
	if err != nil {
		return 0, 0, refuse("pressure", pressure, "one that blows the cloth up to less than a half circle")
	}
	return units.ForcePerLength(h), m.sag(pressure, units.ForcePerLength(h)), nil
}

// stretch is how much longer an arc of the span is than the span, as a part of it.
func (m Membrane) stretch(pressure units.Pressure, pull units.ForcePerLength) float64 {
	x := m.half(pressure, pull)
	if x < 0.03 { // asin(x)/x - 1 has no digits left
		y := x * x
		return y * (1./6 + y*(3./40+y*(5./112+y*35/1152)))
	}
	return math.Asin(x)/x - 1
}

func (m Membrane) sag(pressure units.Pressure, pull units.ForcePerLength) units.Length {
	x := m.half(pressure, pull)
	return m.Span.Scale(x / 2 / (1 + math.Sqrt((1-x)*(1+x))))
}

// half is the sine of half the angle of the arc, span/(2 radius).
func (m Membrane) half(pressure units.Pressure, pull units.ForcePerLength) float64 {
	return math.Min(1, float64(pressure)*float64(m.Span)/(2*float64(pull))) // 1 up to rounding
}

// Measured returns the stiffness that explains a sag measured in the middle of
// the span under a known even pressure, full water bottles laid out on it say:
//
//	EA = (H - H0) L/(2 R asin(L/(2 R)) - L) with R = L^2/(8 sag) + sag/2, H = p R
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
	if c.err == nil && !(h > m.Prestress) {
		c.err = refuse("sag", sag, fmt.Sprintf("less than the %.3v of the prestress alone", m.sag(pressure, m.Prestress)))
	}
	if c.err != nil {
		return 0, c.err
	}
	return (h - m.Prestress).Scale(1 / m.stretch(pressure, h)), nil
}

func (m Membrane) check(c *checker) {
	c.size("Span", m.Span)
	between(c, "Prestress", m.Prestress, 0, greatestPull)
	between(c, "Stiffness", m.Stiffness, 100*units.NewtonPerMetre, 100000*units.KilonewtonPerMetre)
}

// SagPull returns the pull in a cloth from the sag that was measured in the
// middle of a span under an even pressure, its own weight in a calm say:
//
//	p (L^2/(8 sag) + sag/2)
//
// the pressure times the radius of the arc. The sag is at most a fifth of the span.
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
	l, s := float64(span), float64(sag)
	return units.ForcePerLength(float64(pressure) * (l*l/(8*s) + s/2)), nil
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
