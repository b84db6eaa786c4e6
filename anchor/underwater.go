package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Underwater is a boat below the water.
type Underwater struct {
	Length  units.Length // of the waterline
	Beam    units.Length // at the waterline
	Draught units.Length // of the hull without fins, mean along the waterline
	Mass    units.Mass   // displacement
	// Midship is the area of the hull's section at midships, under water; 0 counts
	// as 0.7 times Beam times Draught.
	Midship units.Area
	// Wetted is the hull's wetted surface; 0 counts as 1.7 T L + volume / T.
	Wetted units.Area
	// Form is the form factor k of the hull's drag over that of a plate; 0 counts
	// as 0.2.
	Form       float64
	Fins       []Fin
	Propellers []Propeller
}

// Fin is a keel, a skeg or a rudder.
type Fin struct {
	Name  string
	Side  units.Area   // one side of it
	Chord units.Length // mean length along the boat
	// Form is the form factor of its drag along the boat; 0 counts as 0.3.
	Form    float64
	Station units.Length // of its middle, forward of midships
}

// Propeller stands still in the stream.
type Propeller struct {
	Diameter units.Length
	// BladeArea is the expanded area of the blades over that of the disc; 0 counts
	// as 0.5.
	BladeArea float64
	// Drag is the coefficient on the blades' expanded area; 0 counts as 1.0, a
	// locked propeller (UFC 4-159-03, 2005, section 4-5.2). Turning freely it has
	// about half of that, folded a twentieth.
	Drag float64
}

// CurrentLoad is the load of a current and what it is made of.
type CurrentLoad struct {
	Load
	Hull, Fins, Propellers Load
	Reynolds, Friction     float64 // of the hull along the stream
}

// Load is the load of a current that comes from an angle off the bow, positive to
// starboard. Along the boat the hull and the fins have the friction of the ITTC-1957
// line with a form factor and propellers the drag of their blades,
//
//	X = -rho V²/2 cos(a) (C(Re) (1 + k) S + ... + C_p A_p)
//
// and across the hull the broadside drag of UFC 4-159-03 (2005), equations 10 to 14,
//
//	Y = -rho V²/2 sin(a) L T (C0 + (C1 - C0) (T/d)²),  C0 = 0.22 sqrt(L² A_m / (B V)),  C1 = 3.2
//
// which in shallow water is several times that in deep, and for fins 1.2 times their
// area, in whatever depth. C0 is a fit to ships: a small hull is rounder, so take Y
// as good to a third. Reynolds numbers below 1e4, a stream of a millimetre a second,
// count as 1e4.
//
// The boat makes no waves: a current faster than 0.35 sqrt(g L) is [ErrRange]. The water has
// to be deeper than the draught.
func (u Underwater) Load(s Current, from units.Angle) (CurrentLoad, error) {
	var c checker
	u.check(&c)
	s.check(&c)
	c.must(finite(float64(from)), "from", from, "a finite angle")
	if c.err == nil && s.Depth <= u.Draught {
		c.err = refuse("Current.Depth", s.Depth, fmt.Sprintf("more than the draught, %v", u.Draught))
	}
	if limit := units.Speed(0.35 * math.Sqrt(gravity*float64(u.Length))); c.err == nil && s.Speed > limit {
		c.err = refuseAs(ErrRange, "Current.Speed", s.Speed, fmt.Sprintf("no more than %.3v, above which the hull makes waves", limit))
	}
	if c.err != nil {
		return CurrentLoad{}, c.err
	}
	sin, cos := math.Sincos(float64(from))
	q := s.density() * float64(s.Speed) * float64(s.Speed) / 2
	nu := s.viscosity()
	friction := func(length units.Length) (re, cf float64) {
		re = float64(s.Speed) * float64(length) / nu
		return re, ittc(math.Max(re, leastReynolds))
	}
	load := func(along, across float64, station units.Length) Load {
		y := 0 - q*sin*across // never -0
		return Load{units.Force(0 - q*cos*along), units.Force(y), units.Torque(y * float64(station))}
	}

	var out CurrentLoad
	out.Reynolds, out.Friction = friction(u.Length)
	out.Hull = load(out.Friction*(1+or(u.Form, 0.2))*float64(u.wetted(s)), u.broadside(s), u.Length.Scale(shift(sin, cos)))
	for _, f := range u.Fins {
		_, cf := friction(f.Chord)
		out.Fins = out.Fins.Plus(load(2*float64(f.Side)*cf*(1+or(f.Form, 0.3)), 1.2*float64(f.Side),
			f.Station+f.Chord.Scale(shift(sin, cos))))
	}
	for _, p := range u.Propellers {
		blades := or(p.BladeArea, 0.5) * math.Pi / 4 * float64(p.Diameter) * float64(p.Diameter)
		out.Propellers = out.Propellers.Plus(load(or(p.Drag, 1)*blades, 0, 0))
	}
	out.Load = out.Hull.Plus(out.Fins).Plus(out.Propellers)
	return out, nil
}

func (u Underwater) wetted(s Current) units.Area {
	return or(u.Wetted, u.Draught.TimesLength(u.Length).Scale(1.7)+u.volume(s).PerLength(u.Draught))
}

func (u Underwater) volume(s Current) units.Volume {
	return u.Mass.PerDensity(units.Density(s.density()))
}

// broadside is the hull's drag area to a current from abeam.
func (u Underwater) broadside(s Current) float64 {
	l, b, t := float64(u.Length), float64(u.Beam), float64(u.Draught)
	midship := or(float64(u.Midship), 0.7*b*t)
	deep := 0.22 * math.Sqrt(l*l*midship/(b*float64(u.volume(s))))
	const shallow = 3.2
	ratio := t / float64(s.Depth)
	return l * t * (deep + (shallow-deep)*ratio*ratio)
}

func (u Underwater) check(c *checker) {
	between(c, "Length", u.Length, 1, 200)
	between(c, "Beam", u.Beam, u.Length.Scale(0.02), u.Length)
	between(c, "Draught", u.Draught, u.Length.Scale(0.002), u.Length)
	// The block coefficient of anything that floats upright.
	box := u.Length.TimesLength(u.Beam).TimesLength(u.Draught)
	between(c, "Mass", u.Mass, units.Density(100).TimesVolume(box), rode.SeaWater.TimesVolume(box))
	between(c, "Midship", u.Midship, 0, u.Beam.TimesLength(u.Draught))
	between(c, "Wetted", u.Wetted, 0, 100000)
	between(c, "Form", u.Form, 0, 2)
	for i := range u.Fins {
		c.within("Fins", i, u.Fins[i].check)
	}
	for i := range u.Propellers {
		c.within("Propellers", i, u.Propellers[i].check)
	}
}

func (f *Fin) check(c *checker) {
	between(c, "Side", f.Side, 0, 10000)
	between(c, "Chord", f.Chord, 0.01, 200)
	between(c, "Form", f.Form, 0, 2)
	between(c, "Station", f.Station, -200, 200)
}

func (p *Propeller) check(c *checker) {
	between(c, "Diameter", p.Diameter, 0.05, 10)
	between(c, "BladeArea", p.BladeArea, 0, 1)
	between(c, "Drag", p.Drag, 0, 3)
}

const gravity = 9.80665
