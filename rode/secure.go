package rode

import (
	"math"

	"example.com/forepeak/units"
)

// BowMotion is how the bow moves in the sea the anchor has to stay put in. A
// bow that leaps out of a wave and falls reaches one or two times the
// acceleration of free fall; what a boat does depends on its length, weight and
// speed, and nobody publishes it for small craft: the caller decides.
type BowMotion struct {
	Vertical units.Acceleration // of the bow, greatest, up or down
	Ahead    units.Acceleration // along the boat, when it runs into a wave
	Aside    units.Acceleration
	Pitch    units.Angle // greatest, bow down
	Heel     units.Angle
}

// SecureLoads is what holds an anchor on its roller, and its chain from running
// out, has to bear.
type SecureLoads struct {
	Weight units.Force
	Lift   units.Force // off the roller, when the bow falls faster than the anchor would: m (a - g); 0 if it does not
	Press  units.Force // onto the roller, when the bow is thrown up: m (a + g)
	Ahead  units.Force // m (a + g sin pitch)
	Aside  units.Force // m (a + g sin heel)
	Twice  units.Force // HeldWeights times the weight, in any direction
	// Hold is the greatest of Lift, Ahead, Aside and Twice: the load for the pin
	// or lashing.
	Hold units.Force
}

// HeldWeights is the load in weights of the thing that a US rule for boats asks
// of what holds a loose weight, in every direction. The rule is for batteries (33 CFR
// 183.420(a), there with 90 lbf as the most); for an anchor in the open it is
// the least to aim at.
const HeldWeights = 2

// SecureAnchor works out the loads on pin or lashing from the anchor's mass and
// the boat's motion. A sea that comes aboard adds its own, which is not in it.
// An anchor that gets loose at sea holes the bow: lash it in two places, take
// the load off the windlass, and let nobody go forward to it in a seaway
// without being hooked on.
func SecureAnchor(anchor units.Mass, m BowMotion) (SecureLoads, error) {
	var c checker
	positive(&c, "anchor", anchor)
	notNegative(&c, "BowMotion.Vertical", m.Vertical)
	notNegative(&c, "BowMotion.Ahead", m.Ahead)
	notNegative(&c, "BowMotion.Aside", m.Aside)
	between(&c, "BowMotion.Pitch", m.Pitch, 0, units.Angle(math.Pi/2))
	between(&c, "BowMotion.Heel", m.Heel, 0, units.Angle(math.Pi))
	if c.err != nil {
		return SecureLoads{}, c.err
	}
	w := anchor.Weight()
	leaning := m.Heel.Sin()
	if m.Heel > units.Angle(math.Pi/2) {
		leaning = 1 // it has passed through 90° on the way
	}
	l := SecureLoads{
		Weight: w,
		Lift:   max(0, anchor.TimesAcceleration(m.Vertical)-w),
		Press:  anchor.TimesAcceleration(m.Vertical) + w,
		Ahead:  anchor.TimesAcceleration(m.Ahead) + w.Scale(m.Pitch.Sin()),
		Aside:  anchor.TimesAcceleration(m.Aside) + w.Scale(leaning),
		Twice:  w.Scale(HeldWeights),
	}
	if down := w.Scale(-m.Heel.Cos()); down > l.Lift { // beyond 90° it hangs from the roller
		l.Lift = down
	}
	l.Hold = max(l.Lift, l.Ahead, l.Aside, l.Twice)
	return l, nil
}

// LashingLoad is the tension in each of the parts of a lashing that share a load
// at an angle to its direction: F / (n cos a). A lashing across the load holds
// nothing; angles beyond 80° are refused.
func LashingLoad(load units.Force, parts int, angle units.Angle) (units.Force, error) {
	var c checker
	notNegative(&c, "load", load)
	if c.err == nil && parts < 1 {
		c.err = refuse("parts", parts, "1 or more")
	}
	between(&c, "angle", angle, 0, 80*units.Degree)
	if c.err != nil {
		return 0, c.err
	}
	return load.Scale(1 / (float64(parts) * angle.Cos())), nil
}

// PinShear is the shear stress in a pin through both cheeks of a roller, which is
// loaded in two sections: F / (2 pi d²/4).
func PinShear(load units.Force, diameter units.Length) (units.Pressure, error) {
	var c checker
	notNegative(&c, "load", load)
	positive(&c, "diameter", diameter)
	if c.err != nil {
		return 0, c.err
	}
	d := float64(diameter)
	return units.Pressure(float64(load) / (math.Pi / 2 * d * d)), nil
}
