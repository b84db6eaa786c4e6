package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Waves is a seaway at the anchorage, coming from ahead: up to 20 m high, of periods
// from 0.5 s to 30 s. Waves higher than Miche's limit for their length L and the depth d,
// 0.142 L tanh(2 pi d/L), have broken, and are [ErrRange].
type Waves struct {
	Height units.Length // significant, from crest to trough
	Period units.Time   // of the spectrum's peak
	Depth  units.Length
}

// Wavelength is the length of a wave of small height,
//
//	L = (g T²/2 pi) tanh(2 pi d/L)
//
// solved to rounding for any depth, not by the short cuts of deep or of shallow
// water. The period is from 0.1 s to 1000 s.
func Wavelength(period units.Time, depth units.Length) (units.Length, error) {
	var c checker
	between(&c, "period", period, 0.1, 1000)
	between(&c, "depth", depth, 1e-3, 12000)
	if c.err != nil {
		return 0, c.err
	}
	return units.Length(2 * math.Pi / wavenumber(float64(period), float64(depth))), nil
}

// wavenumber solves w² d/g = y tanh(y) for y = k d with Newton's rule. The
// function is convex and the start, by Eckart, lies above the root but for
// rounding, so that every step goes down to it.
func wavenumber(period, depth float64) float64 {
	w := 2 * math.Pi / period
	a := w * w * depth / gravity
	y := a / math.Sqrt(math.Tanh(a))
	for range 50 {
		t := math.Tanh(y)
		step := (y*t - a) / (t + y*(1-t*t))
		y -= step
		if math.Abs(step) <= 1e-15*y {
			break
		}
	}
	return y / depth
}

// WaveSurge is what the water does to a boat that floats free in the waves.
type WaveSurge struct {
	Wavelength units.Length
	Celerity   units.Speed // of the crests
	// Amplitude is the significant amplitude with which the water at the surface
	// goes to and fro, Boat that of a boat of a length, which averages over it, and
	// Speed the boat's greatest speed in that.
	Amplitude, Boat units.Length
	Speed           units.Speed
}

// Surge gives the to and fro of a boat of a waterline length in the waves, all taken
// at the period of the peak,
//
//	a = (H/2) / tanh(k d),  boat = a |sin(k l/2) / (k l/2)|
//
// (linear waves; Coastal Engineering Manual, part II, chapter 1). In shallow water the
// motion is longer than the wave is high. A rode that cannot stretch by as much takes up
// the rest as a jerk, which [Ride.Simulate] follows.
func (w Waves) Surge(waterline units.Length) (WaveSurge, error) {
	var c checker
	k := w.check(&c)
	between(&c, "waterline", waterline, 0, 400)
	if c.err != nil {
		return WaveSurge{}, c.err
	}
	a := float64(w.Height) / 2 / math.Tanh(k*float64(w.Depth))
	boat := a
	if x := k * float64(waterline) / 2; x > 0 {
		boat *= math.Abs(math.Sin(x) / x)
	}
	omega := 2 * math.Pi / float64(w.Period)
	return WaveSurge{
		Wavelength: units.Length(2 * math.Pi / k), Celerity: units.Speed(omega / k),
		Amplitude: units.Length(a), Boat: units.Length(boat), Speed: units.Speed(boat * omega),
	}, nil
}

// Drift is the range of the mean force with which waves from ahead push a boat of a beam, whose
// waterline at the bow makes half an angle of entrance with the centreline:
//
//	F = rho g H²/16 B R² (1 + 2 k d / sinh(2 k d)),  R² = sin²(entrance) .. 1
//
// Low is for waves much shorter than the boat, which the sides of the bow turn
// away (Faltinsen, Sea Loads on Ships and Offshore Structures, 1990, chapter 5),
// High for a bow that throws all of them back (Longuet-Higgins, Proc. R. Soc. A
// 352, 1977). Waves about as long as the boat make her pitch and come between the
// two, nearer to High; waves much longer than the boat do less than Low. The entrance is from 0° to 90°.
func (w Waves) Drift(beam units.Length, entrance units.Angle) (units.Interval[units.Force], error) {
	var c checker
	k := w.check(&c)
	between(&c, "beam", beam, 0, 100)
	between(&c, "entrance", entrance, 0, math.Pi/2)
	if c.err != nil {
		return units.Interval[units.Force]{}, c.err
	}
	shallow := 1.0
	if x := 2 * k * float64(w.Depth); x < 700 {
		shallow += x / math.Sinh(x)
	}
	h := float64(w.Height)
	most := 1025 * gravity * h * h / 16 * float64(beam) * shallow
	sin := entrance.Sin()
	return units.Interval[units.Force]{Low: units.Force(most * sin * sin), High: units.Force(most)}, nil
}

// check is the wave number of waves that can be: those too high for the depth
// or for their length have broken.
func (w Waves) check(c *checker) float64 {
	between(c, "Waves.Height", w.Height, 0, 20)
	between(c, "Waves.Period", w.Period, 0.5, 30)
	between(c, "Waves.Depth", w.Depth, 0.1, 12000)
	if c.err != nil {
		return 0
	}
	k := wavenumber(float64(w.Period), float64(w.Depth))
	// Miche's limit, (H/L) = 0.142 tanh(k d).
	limit := 0.142 * 2 * math.Pi / k * math.Tanh(k*float64(w.Depth))
	if float64(w.Height) > limit {
		c.err = refuseAs(ErrRange, "Waves.Height", w.Height, fmt.Sprintf("no more than %.3v, above which waves of this period break in this depth", units.Length(limit)))
	}
	return k
}
