package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Ride is a boat that rides to her anchor in gusts and waves, to be followed in
// time.
type Ride struct {
	Above Windage
	Below Underwater
	// Ahead is how far the bow roller is forward of midships.
	Ahead units.Length
	// Gyradius is the radius of gyration in yaw; 0 counts as a quarter of the
	// waterline.
	Gyradius units.Length
	// Surging, Swaying and Yawing are the times in which linear drag alone (waves
	// that the boat makes) brings a motion over the ground, less that of the water in
	// the waves, down to 1/e of itself; 0 for none. The drag with the square of the
	// speed is that of Below.
	Surging, Swaying, Yawing units.Time

	// Rode is as let out, a snubber as its last piece, and Site where it lies, with
	// the mean height of the roller. Rope must have the stretch that it has in
	// cycles of seconds, see rode.Rope.Cyclic.
	Rode rode.Rode
	Site rode.Site
	// Fairlead is the friction coefficient of the roller, which keeps a part of the
	// load from the cleat; 0 is on the safe side.
	Fairlead float64

	Wind    Wind // its Speed is the hourly mean
	Gusts   Gusts
	Current Current
	// CurrentFrom is where the current comes from, to the right of where the wind
	// comes from.
	CurrentFrom units.Angle
	// Waves come from where the wind does; none if their Height is 0. Their Depth may
	// be left 0 for that of the Site.
	Waves   Waves
	Regular bool        // one wave of that height and period instead of a spectrum
	Drift   units.Force // mean force of the waves, see Waves.Drift

	Duration units.Time // followed, after Settle; 0 counts as an hour
	Settle   units.Time // followed before, and left out of the results; 0 counts as 5 minutes
	Step     units.Time // 0 counts as 1/20 s
	Seed     uint64     // the same seed gives the same gusts and waves
	// Every is the time between the entries of RideResult.Track; 0 for none.
	Every units.Time
}

func (r *Ride) duration() float64 { return float64(or(r.Duration, 3600)) }
func (r *Ride) settle() float64   { return float64(or(r.Settle, 300)) }
func (r *Ride) step() float64     { return float64(or(r.Step, 0.05)) }

func (r *Ride) waves() Waves {
	w := r.Waves
	w.Depth = or(w.Depth, r.Site.Depth)
	return w
}

func (r *Ride) check() error {
	var c checker
	r.Above.check(&c)
	r.Below.check(&c)
	r.Wind.check(&c)
	r.Gusts.check(&c)
	r.Current.check(&c)
	between(&c, "Wind.Speed", r.Wind.Speed, 1, 60)
	between(&c, "Ahead", r.Ahead, 0.1, 200)
	between(&c, "Gyradius", or(r.Gyradius, r.Below.Length/4), r.Below.Length/20, r.Below.Length)
	for _, t := range []struct {
		field string
		t     units.Time
	}{{"Surging", r.Surging}, {"Swaying", r.Swaying}, {"Yawing", r.Yawing}} {
		if t.t != 0 {
			between(&c, t.field, t.t, 1, 1e6)
		}
	}
	between(&c, "Fairlead", r.Fairlead, 0, 1)
	c.must(finite(float64(r.CurrentFrom)), "CurrentFrom", r.CurrentFrom, "a finite angle")
	between(&c, "Waves.Height", r.Waves.Height, 0, 20)
	between(&c, "Drift", r.Drift, 0, 1e7)
	between(&c, "Duration", units.Time(r.duration()), 60, 6*3600)
	between(&c, "Settle", units.Time(r.settle()), 10, 3600)
	between(&c, "Step", units.Time(r.step()), 0.001, 0.2)
	between(&c, "Every", r.Every, 0, 3600)
	if c.err != nil {
		return c.err
	}
	if r.Current.Depth <= r.Below.Draught {
		return refuse("Current.Depth", r.Current.Depth, "more than the draught, "+r.Below.Draught.String())
	}
	if r.Waves.Height > 0 {
		r.waves().check(&c)
		// A wave shorter than a few steps would not be seen.
		between(&c, "Waves.Period", r.Waves.Period, units.Time(8*ripple*r.step()), 30)
	}
	return c.err
}

// AddedMass is the water that takes part in a boat's accelerations.
type AddedMass struct {
	Along, Across units.Mass
	Yaw           units.MomentOfInertia
}

// AddedMass is the mass of water that takes part in a boat's accelerations at low
// frequency in deep water: along her a tenth of her own, across and in yaw that of
// half circles of her draught along the waterline and of her fins as plates under a
// flat hull,
//
//	across = rho pi/2 (T² L + sum of s² c),  yaw = rho pi/2 (T² L³/12 + sum of s² c x²)
//
// (J. N. Newman, Marine Hydrodynamics, 1977, chapter 4, for the sections), with
// s the depth and c the chord of a fin at x.
func (u Underwater) AddedMass(water Current) (AddedMass, error) {
	var c checker
	u.check(&c)
	water.check(&c)
	if c.err != nil {
		return AddedMass{}, c.err
	}
	l, t := float64(u.Length), float64(u.Draught)
	k := water.density() * math.Pi / 2
	y, n := k*t*t*l, k*t*t*l*l*l/12
	for _, f := range u.Fins {
		s := float64(f.Side) / float64(f.Chord)
		m := k * s * s * float64(f.Chord)
		y += m
		n += m * float64(f.Station) * float64(f.Station)
	}
	return AddedMass{Along: u.Mass.Scale(0.1), Across: units.Mass(y), Yaw: units.MomentOfInertia(n)}, nil
}
