package rode

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// EyeAngleLimit is the greatest angle between the two sides of an eye at the
// splice, 60° (29 CFR 1926.251(d)(2)(viii)): a wider eye pries the splice open.
const EyeAngleLimit = 60 * units.Degree

// EyeAngle is the angle between the sides of an eye at its throat when it lies
// round a post of a diameter D. With the eye's length E from the throat to the
// far side of the post, both inside,
//
//	sin(a/2) = (D/2) / (E - D/2)
//
// It refuses an eye too short to go round the post, E less than D.
func EyeAngle(eye, post units.Length) (units.Angle, error) {
	var c checker
	positive(&c, "post", post)
	positive(&c, "eye", eye)
	if c.err == nil && eye < post {
		c.err = refuse("eye", eye, "at least the post's diameter, "+post.String())
	}
	if c.err != nil {
		return 0, c.err
	}
	r := float64(post) / 2
	return units.Angle(2 * math.Asin(r/(float64(eye)-r))), nil
}

// EyeLength is how long an eye has to be, inside, from the throat to the far side
// of what it lies round.
type EyeLength struct {
	ByAngle units.Length // at which the throat opens to the limit of 60°: 1.5 D
	Least   units.Length // 3 D, and 6 rope diameters
	Good    units.Length // 5 D, and 6 rope diameters
}

// EyeLengthFor is the length of an eye for a post, bollard or pin of a diameter
// D and a rope of a diameter d: at an angle a it is D/2 (1 + 1/sin(a/2)), which is
// geometry. That riggers ask for 5 D, at least 3 D, and never less than 6 d is
// practice: no standard was read.
func EyeLengthFor(post, rope units.Length) (EyeLength, error) {
	var c checker
	positive(&c, "post", post)
	positive(&c, "rope", rope)
	if c.err != nil {
		return EyeLength{}, c.err
	}
	return EyeLength{
		ByAngle: post.Scale((1 + 1/math.Sin(float64(EyeAngleLimit)/2)) / 2),
		Least:   max(post.Scale(3), rope.Scale(6)),
		Good:    max(post.Scale(5), rope.Scale(6)),
	}, nil
}

// Cleat is a horn cleat, measured.
type Cleat struct {
	Horns units.Length // from tip to tip
	Thick units.Length // height of a horn
	Base  units.Length // across, where the eye lies round it
}

// EyeLength is the length of an eye that is dropped over the horns of a cleat and
// led through its base: the flattened eye has to pass over both horns, so that
// half its inside circumference is their length from tip to tip and the height
// of a horn; and its throat must not open more than EyeAngleLimit round the base.
// The greater of both.
func (k Cleat) EyeLength() (units.Length, error) {
	var c checker
	positive(&c, "Cleat.Horns", k.Horns)
	positive(&c, "Cleat.Thick", k.Thick)
	positive(&c, "Cleat.Base", k.Base)
	if c.err != nil {
		return 0, c.err
	}
	return max(k.Horns+k.Thick, k.Base.Scale((1+1/math.Sin(float64(EyeAngleLimit)/2))/2)), nil
}

// EyeSplice is an eye at the end of a rope.
type EyeSplice struct {
	Rope  Rope
	Eye   units.Length // inside, from the throat to the far end
	Round units.Length // diameter of what it lies round: post, pin or the back of a thimble
	// Lay is the lay length of three-strand rope, measured; 0 counts as LayDiameters.
	Lay units.Length
}

// EyeAllowance is the rope that an eye takes.
type EyeAllowance struct {
	Around units.Length // in the eye, along the middle of the rope
	Tail   units.Length // for tucks or bury, and to be cut off
	// Extra is what to add to the finished length, which is measured to the far
	// end of the eye, inside: Around + Tail - Eye.
	Extra units.Length
}

// Allowance works out the rope for an eye. Round a post of diameter D at a
// throat angle a the inside of the eye measures
//
//	2 sqrt(c² - r²) + r (pi + a),  r = D/2,  c = Eye - r
//
// and the middle of the rope, half a diameter d farther out, (pi + a) d/2 more.
// The tail is EyeSpliceCrowns thirds of a lay in three-strand rope, and what is
// usual for the construction in others: 20 d in eight-strand, 73.5 d in hollow
// twelve-strand, 42 d in double braid. A splicer's habits differ: try one first.
func (e EyeSplice) Allowance() (EyeAllowance, error) {
	tail, err := e.check(spliceTails)
	if err != nil {
		return EyeAllowance{}, err
	}
	if e.Lay > 0 {
		if e.Rope.Construction != "three-strand" {
			return EyeAllowance{}, refuse("EyeSplice.Lay", e.Lay, "0 but for three-strand rope")
		}
		tail = e.Lay.Scale(EyeSpliceCrowns / 3.0)
	}
	a := EyeAllowance{Around: e.around(), Tail: tail}
	a.Extra = a.Around + a.Tail - e.Eye
	return a, nil
}

// lockedPasses is what the two passes of a locked eye take, in diameters.
var lockedPasses = map[string]float64{"eight-strand": 4, "twelve-strand": 4}

// MidlineAllowance works out the rope for an eye between the ends of a rope, for
// a bridle of one length: the loop is locked by passing each side through the
// other, in hollow twelve-strand or plaited eight-strand rope, and no end is
// buried. The finished legs are measured to the far end of the eye, so that
//
//	Extra = Around + passes - 2 Eye
//
// since the legs count one side of it each, and what goes round its end is left
// to add. The two passes take about two diameters each, by experience: try one first. A
// locked eye holds without load, but has no test result here: take
// SpliceFactor at best.
func (e EyeSplice) MidlineAllowance() (EyeAllowance, error) {
	passes, err := e.check(lockedPasses)
	if err != nil {
		return EyeAllowance{}, err
	}
	a := EyeAllowance{Around: e.around(), Tail: passes}
	a.Extra = a.Around + a.Tail - 2*e.Eye
	return a, nil
}

func (e EyeSplice) check(tails map[string]float64) (tail units.Length, err error) {
	var c checker
	positive(&c, "EyeSplice.Rope.Diameter", e.Rope.Diameter)
	notNegative(&c, "EyeSplice.Lay", e.Lay)
	positive(&c, "EyeSplice.Eye", e.Eye)
	positive(&c, "EyeSplice.Round", e.Round)
	if c.err != nil {
		return 0, c.err
	}
	d, ok := tails[e.Rope.Construction]
	if !ok {
		return 0, refuseAs(ErrUnknown, "EyeSplice.Rope.Construction", strconv.Quote(e.Rope.Construction), names(tails))
	}
	angle, err := EyeAngle(e.Eye, e.Round)
	if err != nil {
		return 0, refuse("EyeSplice.Eye", e.Eye, "at least the diameter of what it lies round, "+e.Round.String())
	}
	if angle > EyeAngleLimit*(1+1e-9) {
		return 0, refuse("EyeSplice.Eye", e.Eye, "at least 1.5 times the diameter of what it lies round, "+
			e.Round.String()+": the throat would open more than 60°")
	}
	return e.Rope.Diameter.Scale(d), nil
}

func (e EyeSplice) around() units.Length {
	r := float64(e.Round) / 2
	c := float64(e.Eye) - r
	turn := math.Pi + 2*math.Asin(r/c)
	return units.Length(2*math.Sqrt((c-r)*(c+r)) + turn*(r+float64(e.Rope.Diameter)/2))
}
