package rode

import (
	"math"
	"strconv"

	"example.com/forepeak/units"
)

// Counter is a chain counter: a sensor that gives a pulse whenever a magnet on
// the wheel passes it, and a display that multiplies. One that shows more than is
// out leaves the boat on less scope than its crew believe: calibrate it, and keep
// marks on the rode to check it by.
type Counter struct {
	// Setting is what the counter has been told a turn pays out.
	Setting units.Length
	// Pulses per turn, one for each magnet; zero counts as one.
	Pulses int `json:",omitempty"`
	// Step of the display, such as 1 m or 0.1 m; zero shows every pulse.
	Step units.Length `json:",omitempty"`
	// Nearest is for a display that rounds to the nearest step. Otherwise it cuts
	// off what is less than a whole one.
	Nearest bool `json:",omitempty"`
	// Missed is the part of the pulses that gets lost, 0 for none.
	Missed float64 `json:",omitempty"`
}

func (c *Counter) check(k *checker) {
	between(k, "Setting", c.Setting, leastPayout, mostPayout)
	if k.err == nil && (c.Pulses < 0 || c.Pulses > 1000) {
		k.err = refuse("Pulses", strconv.Itoa(c.Pulses), "from 1 to 1000, or 0 for 1")
	}
	between(k, "Step", c.Step, 0, mostPayout)
	if k.err == nil && c.Step > 0 && c.Step < 1e-4 {
		k.err = refuse("Step", c.Step, "0, or at least 0.1 mm")
	}
	between(k, "Missed", c.Missed, 0, 0.9)
}

// pulses per turn.
func (c *Counter) pulses() float64 { return math.Max(1, float64(c.Pulses)) }

// whole numbers that went through decimal fractions: 3.3 / 0.33 is 10.
const nearlyWhole = 1e-9

func floor(x float64) float64 { return math.Floor(x + nearlyWhole*math.Max(1, math.Abs(x))) }
func ceil(x float64) float64  { return math.Ceil(x - nearlyWhole*math.Max(1, math.Abs(x))) }

// shows is what the display makes of a count of pulses.
func (c *Counter) shows(count float64) units.Length {
	x := c.Setting.Scale(count / c.pulses())
	switch {
	case c.Step == 0:
		return x
	case c.Nearest:
		return c.Step.Scale(floor(x.Per(c.Step) + 0.5))
	default:
		return c.Step.Scale(floor(x.Per(c.Step)))
	}
}

// counts is the inverse: the display shows a value from the first count until,
// exclusively, the second. It refuses a value that the display cannot show.
func (c *Counter) counts(k *checker, field string, shown units.Length) (from, until float64) {
	between(k, field, shown, 0, mostOut)
	if k.err != nil {
		return 0, 0
	}
	perCount := c.Setting.Scale(1 / c.pulses())
	if c.Step == 0 {
		from = math.Round(shown.Per(perCount))
		return from, from + 1
	}
	steps := shown.Per(c.Step)
	if math.Abs(steps-math.Round(steps)) > 1e-6*math.Max(1, steps) {
		k.err = refuse(field, shown, "a multiple of the display's step, "+c.Step.String())
		return 0, 0
	}
	below := 0.0
	if c.Nearest {
		below = 0.5
	}
	per := c.Step.Per(perCount)
	from, until = ceil((math.Round(steps)-below)*per), ceil((math.Round(steps)+1-below)*per)
	if from == until {
		k.err = refuse(field, shown, "a reading that this setting can give: the display jumps over it")
	}
	return from, until
}

// CounterError is the relative error of the reading of a counter that is set
// to one payout per turn on a wheel that has another,
//
//	setting / payout - 1
//
// negative when less is shown than is out.
func CounterError(payout, setting units.Length) (float64, error) {
	var c checker
	between(&c, "payout", payout, leastPayout, mostPayout)
	between(&c, "setting", setting, leastPayout, mostPayout)
	if c.err != nil {
		return 0, c.err
	}
	return (setting - payout).Per(payout), nil
}

// Reading is what the display shows after moves that begin with nothing out and
// the counter at zero: a positive move pays out, a negative one heaves in. Phase,
// from 0 to less than 1, is how far the wheel stood beyond a magnet, in spaces
// between magnets. Chain that runs out while the counter does not see it, or
// does not know its direction, is no move.
func (c Counter) Reading(s Scale, phase float64, moves ...units.Length) (units.Length, error) {
	var k checker
	c.check(&k)
	s.check(&k)
	if k.err == nil && !(phase >= 0 && phase < 1) {
		k.err = refuse("phase", phase, "from 0 to less than 1")
	}
	var out units.Length
	var count, passed float64
	at := 0.0
	for i, m := range moves {
		field := "moves[" + strconv.Itoa(i) + "]"
		between(&k, field, m, -mostOut, mostOut)
		out += m
		if k.err == nil && (out < -1e-9 || out > mostOut) {
			k.err = refuse(field, m, "what leaves from 0 to "+mostOut.String()+" out")
		}
		if k.err != nil {
			break
		}
		to := floor(phase + c.pulses()*s.turns(max(out, 0)))
		n := math.Abs(to - at)
		lost := math.Floor(c.Missed*(passed+n)) - math.Floor(c.Missed*passed)
		passed += n
		count += math.Copysign(n-lost, to-at)
		at = to
	}
	if k.err != nil {
		return 0, k.err
	}
	return c.shows(count), nil
}

// Readings is what the display can show when a length has been paid out from zero:
// where in the interval, depends on where the wheel stood when it began.
func (c Counter) Readings(s Scale, out units.Length) (shown units.Interval[units.Length], err error) {
	const nearlyOne = 1 - 1e-6
	if shown.Low, err = c.Reading(s, 0, out); err == nil {
		shown.High, err = c.Reading(s, nearlyOne, out)
	}
	return shown, err
}

// LengthOut is a length inferred from a reading.
type LengthOut struct {
	Length units.Length
	// From Counter.Length, Low and High are as far as the rounding of pulses and
	// display alone can go; from Calibration.Predict they are the 95 % interval.
	units.Interval[units.Length]
	// U is the standard uncertainty: rounding, and the uncertainty of the scale.
	U units.Length
}

// Length is how much is out when the display, which was set to zero with nothing
// out, shows a value.
func (c Counter) Length(s Scale, shown units.Length) (LengthOut, error) {
	var k checker
	c.check(&k)
	s.check(&k)
	from, until := c.counts(&k, "shown", shown)
	if k.err != nil {
		return LengthOut{}, k.err
	}
	first, last := from, until-1
	if c.Missed > 0 { // count = passed - floor(Missed passed)
		first = math.Max(0, math.Floor((from-1)/(1-c.Missed))+1)
		last = math.Max(first, math.Floor((until-1)/(1-c.Missed)))
	}
	// The wheel began anywhere between two magnets and stopped anywhere between two.
	m := c.pulses()
	var l LengthOut
	l.Length, l.U = s.out(math.Max(0, first+last) / 2 / m)
	l.Low, _ = s.out(math.Max(0, first-1) / m)
	l.High, _ = s.out(math.Max(0, last+1) / m)
	width := last - first + 1
	onePulse := float64(l.High-l.Low) / (width + 1)
	l.U = units.Length(math.Hypot(float64(l.U), onePulse*math.Sqrt((1+width*width)/12)))
	return l, nil
}
