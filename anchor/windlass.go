package anchor

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Windlass is a motor on a chain wheel behind a bow roller.
type Windlass struct {
	Drive Drive
	// Roller and Wheel are the efficiencies of the bow roller and of the chain
	// wheel: 0 counts as 0.85 and as 0.95, those of good ones, turning freely.
	// A fixed fairlead has 0.7 (IACS UR A3 takes that for a hawse pipe).
	Roller, Wheel float64
}

// Haul is one anchor to be got up.
type Haul struct {
	Rode   rode.Rode // all that is out
	Site   rode.Site
	Anchor units.Mass // of steel
	// Pull is what wind and current pull at the bow meanwhile; 0 if the
	// engine takes the boat up to the anchor.
	Pull units.Force
	// Breakout is the force, over the anchor's weight, that tears it out of the bed,
	// and Travel how far it moves under that force; 0 counts as 0.3 m. After a blow
	// Breakout may be as much as the anchor has held: let the boat, snubbed short,
	// do that work and not the windlass.
	Breakout units.Force
	Travel   units.Length
	Supply   Supply
}

// Step is a moment of the retrieval.
type Step struct {
	Out     units.Length // rode outside the roller
	Tension units.Force  // outside the roller
	Running
}

// Stage is a part of a retrieval as an electrician needs it: volts and amperes at the
// motor, and for how long.
type Stage struct {
	Name    string
	Time    units.Time
	Voltage units.Voltage // mean
	Current units.Current // mean
	// Heating is the root of the mean square of the current, what warms cables.
	Heating, Peak units.Current
}

// Retrieval is a whole retrieval: shortening up, breaking out, lifting.
type Retrieval struct {
	Stages []Stage
	Steps  []Step

	Time   units.Time
	Charge units.Charge
	Energy units.Energy // electrical, at the motor
	Work   units.Energy // done on the rode outside the roller
	// Hardest is the step with the greatest current.
	Hardest Step
}

// Retrieve follows the getting up of an anchor, step by step along the rode.
//
// Shortening up, the tension is that of the rode in equilibrium at Pull with what is
// still out. The anchor breaks out when the tension at its shackle is its weight and
// Breakout, at the latest when the rode is up and down. Lifting, the rode hangs with
// its weight. The chain wheel pulls the tension over the efficiencies of roller and
// wheel; time, charge and energy are integrals over the length with the speed and
// current of [Drive.Run].
//
// Waves, in which the bow throws its weight on the chain, are not in it. The error
// wraps [ErrStall] where the windlass is not strong enough, and says at which
// length. Heaving a boat up to her anchor against a blow overloads any windlass: use
// the engine.
func (w Windlass) Retrieve(h Haul) (Retrieval, error) {
	m, err := w.Drive.motor()
	if err != nil {
		return Retrieval{}, err
	}
	var c checker
	between(&c, "Roller", or(w.Roller, 0.85), 0.2, 1)
	between(&c, "Wheel", or(w.Wheel, 0.95), 0.2, 1)
	checkHaul(&c, h.Rode, h.Site, h.Anchor)
	h.Supply.check(&c, w.Drive.Voltage)
	between(&c, "Pull", h.Pull, 0, 1e7)
	between(&c, "Breakout", h.Breakout, 0, 1e7)
	between(&c, "Travel", or(h.Travel, 0.3), 0.01, 10)
	rise := float64(h.Site.Rise())
	length := float64(h.Rode.Length())
	if c.err == nil && !(length > rise && rise > float64(or(h.Travel, 0.3))) {
		c.err = refuse("Rode", h.Rode.Length(), "a length that reaches the bed, which is deeper than Travel")
	}
	between(&c, "Rode", h.Rode.Length(), 0, 2000)
	if c.err != nil {
		return Retrieval{}, c.err
	}
	friction := or(w.Roller, 0.85) * or(w.Wheel, 0.95)
	run := func(out, tension float64) (Step, error) {
		r, err := m.run(tension/friction, h.Supply)
		if err != nil {
			if e, ok := err.(*Error); ok {
				e.Field = fmt.Sprintf("pull with %.1f m out", out)
			}
		}
		return Step{units.Length(out), units.Force(tension), r}, err
	}

	apeak, tension, err := h.apeak()
	if err != nil {
		return Retrieval{}, err
	}
	var out Retrieval
	travel := math.Min(float64(or(h.Travel, 0.3)), apeak)
	for _, s := range []struct {
		name     string
		from, to float64
		tension  func(out float64) (float64, error)
	}{
		{"shortening up", length, apeak, func(out float64) (float64, error) {
			_, t, err := h.tension(out)
			return t, err
		}},
		{"breaking out", apeak, apeak - travel, func(float64) (float64, error) { return tension, nil }},
		{"lifting", apeak - travel, 0, func(out float64) (float64, error) {
			return hanging(h.Rode, h.Site, float64(h.Anchor), out), nil
		}},
	} {
		if err := out.stage(s.name, h.cuts(s.from, s.to), func(o float64) (Step, error) {
			t, err := s.tension(o)
			if err != nil {
				return Step{}, err
			}
			return run(o, t)
		}); err != nil {
			return Retrieval{}, err
		}
	}
	return out, nil
}

// tension solves the rode with a length of it out, under Pull: at the anchor
// and at the bow.
func (h *Haul) tension(out float64) (anchor, bow float64, err error) {
	r, err := h.Rode.Veer(units.Length(math.Min(out, float64(h.Rode.Length()))))
	if err != nil {
		return 0, 0, h.named(err)
	}
	st, err := rode.Solve(r, h.Site, h.Pull)
	return float64(st.Anchor.Tension), float64(st.Tension), h.named(err)
}

func (h *Haul) named(err error) error {
	return inRode("Rode.", "Site.", map[string]string{"pull": "Pull"}, err)
}

// apeak is the length out at which the anchor breaks out, and the tension at the
// bow that it takes.
func (h *Haul) apeak() (out, tension float64, err error) {
	water := float64(or(h.Site.Water, rode.SeaWater))
	hold := float64(h.Breakout) + float64(h.Anchor)*gravity*(1-water/float64(rode.Steel))
	length, rise := float64(h.Rode.Length()), float64(h.Site.Rise())
	upright := rise * (1 + 1e-3) // up and down, but for a hair
	if upright > length || h.Pull == 0 {
		upright = math.Min(upright, length)
		return upright, hanging(h.Rode, h.Site, 0, upright) + hold, nil
	}
	over := func(out float64) (float64, error) {
		a, _, err := h.tension(out)
		return a - hold, err
	}
	at, err := over(length)
	if err != nil {
		return 0, 0, err
	}
	if at >= 0 {
		return 0, 0, refuse("Breakout", h.Breakout, "more than what the anchor holds already: it would drag")
	}
	if at, err = over(upright); err != nil {
		return 0, 0, err
	}
	if at <= 0 {
		return upright, hanging(h.Rode, h.Site, 0, upright) + hold, nil
	}
	if out, err = root.Find(over, upright, length, 1e-9*length); err != nil {
		return 0, 0, err
	}
	_, tension, err = h.tension(out)
	return out, tension, err
}

// cuts are the lengths out, from one down to another, at which the load jumps or
// bends: where the anchor or a joint leaves the bed, leaves the water or comes to
// the roller.
func (h *Haul) cuts(from, to float64) []float64 {
	all := []float64{from, to}
	arc := 0.0
	for i := range h.Rode.Pieces {
		for _, at := range []float64{arc, arc + float64(h.Site.Roller), arc + float64(h.Site.Rise())} {
			if at < from && at > to {
				all = append(all, at)
			}
		}
		arc += float64(h.Rode.Pieces[i].Length)
	}
	slices.Sort(all)
	slices.Reverse(all)
	return slices.Compact(all)
}

// stage integrates along lengths out by Simpson's rule over steps of a quarter of a
// metre or less.
func (r *Retrieval) stage(name string, cuts []float64, run func(out float64) (Step, error)) error {
	if len(cuts) < 2 {
		return nil
	}
	var seconds, charge, square, energy, work, volts float64
	s := Stage{Name: name}
	add := func(out, weight float64) (Step, error) {
		p, err := run(out)
		if err != nil {
			return p, err
		}
		dt := weight / float64(p.Speed)
		i, u := float64(p.Current), float64(p.Voltage)
		seconds += dt
		charge += i * dt
		square += i * i * dt
		volts += u * dt
		energy += u * i * dt
		work += float64(p.Tension) * weight
		s.Peak = max(s.Peak, p.Current)
		if p.Current > r.Hardest.Current {
			r.Hardest = p
		}
		return p, nil
	}
	for c, from := range cuts[:len(cuts)-1] {
		n := int(math.Ceil((from - cuts[c+1]) / 0.25))
		dx := (from - cuts[c+1]) / float64(n)
		for k := range n {
			// A hair inside the step's ends, since the load may jump there.
			a := from - float64(k)*dx
			first, err := add(a-1e-9*dx, dx/6)
			if err != nil {
				return err
			}
			if _, err = add(a-dx/2, 4*dx/6); err != nil {
				return err
			}
			if _, err = add(a-dx*(1-1e-9), dx/6); err != nil {
				return err
			}
			r.Steps = append(r.Steps, first)
		}
	}
	s.Time = units.Time(seconds)
	s.Voltage, s.Current = units.Voltage(volts/seconds), units.Current(charge/seconds)
	s.Heating = units.Current(math.Sqrt(square / seconds))
	r.Stages = append(r.Stages, s)
	r.Time += s.Time
	r.Charge += units.Charge(charge)
	r.Energy += units.Energy(energy)
	r.Work += units.Energy(work)
	return nil
}
