package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// Lying is a heading at which a boat can lie quietly to her rode.
type Lying struct {
	// WindFrom and CurrentFrom are the angles off the bow, positive to starboard,
	// from -180° to 180°.
	WindFrom, CurrentFrom units.Angle
	Wind                  WindLoad
	Current               CurrentLoad
	Pull                  units.Force // on the rode, horizontal
	// RodeTo is where the rode leads from the bow, off the bow, positive to
	// starboard. Beyond 90° the boat lies over her own rode.
	RodeTo units.Angle
}

// Lie finds how a boat lies at anchor between a wind and a current: the headings at
// which their moment about the bow roller vanishes and turns her back when she is
// turned away. The current comes from an angle to the right of where the wind comes
// from; 180° is wind against current. roller is how far the bow roller is forward of
// midships, and has to be more than 0.
//
// There may be two such headings, or a boat held stern to one of them, and between
// them she sheers about: each is returned, that with the greatest pull first. A wind
// and a current that both are zero have none, nor has a boat whose windage lies
// forward of her roller: the error wraps [ErrNoBalance]. The balance is static. It
// says nothing of how she swings from one heading to the other.
func Lie(above Windage, below Underwater, w Wind, s Current, apart units.Angle, roller units.Length) ([]Lying, error) {
	var c checker
	between(&c, "roller", roller, 0, 200)
	if c.err == nil && roller == 0 {
		c.err = refuse("roller", roller, "more than 0")
	}
	c.must(finite(float64(apart)), "apart", apart, "a finite angle")
	if c.err != nil {
		return nil, c.err
	}
	at := func(from float64) (Lying, error) {
		windFrom := units.Angle(math.Remainder(from, 2*math.Pi))
		currentFrom := units.Angle(math.Remainder(from+float64(apart), 2*math.Pi))
		wind, err := above.Load(w, windFrom)
		if err != nil {
			return Lying{}, err
		}
		current, err := below.Load(s, currentFrom)
		return Lying{WindFrom: windFrom, CurrentFrom: currentFrom, Wind: wind, Current: current}, err
	}
	// The moment about the roller, positive to starboard. A boat turned to starboard
	// has the wind from farther to port, so it must grow with the wind's angle.
	moment := func(from float64) (float64, error) {
		l, err := at(from)
		if err != nil {
			return 0, err
		}
		sum := l.Wind.Plus(l.Current.Load)
		return float64(sum.Yaw) - float64(roller)*float64(sum.Y), nil
	}
	var found []Lying
	const steps = 180
	// Half a step off, so that symmetrical cases do not fall on a step.
	angle := func(i int) float64 { return (float64(i) + 0.5) * 2 * math.Pi / steps }
	before, err := moment(angle(-1))
	if err != nil {
		return nil, err
	}
	for i := range steps {
		after, err := moment(angle(i))
		if err != nil {
			return nil, err
		}
		if before <= 0 && after > 0 {
			from, err := root.Find(moment, angle(i-1), angle(i), 1e-12)
			if err != nil {
				return nil, err
			}
			l, err := at(from)
			if err != nil {
				return nil, err
			}
			sum := l.Wind.Plus(l.Current.Load)
			l.Pull = sum.Force()
			l.RodeTo = units.Angle(math.Atan2(0-float64(sum.Y), 0-float64(sum.X)))
			found = append(found, l)
		}
		before = after
	}
	if len(found) == 0 {
		return nil, refuseAs(ErrNoBalance, "wind and current", fmt.Sprintf("%v and %v", w.Speed, s.Speed), "one of them to hold her to her rode")
	}
	for i := 1; i < len(found); i++ {
		for j := i; j > 0 && found[j].Pull > found[j-1].Pull; j-- {
			found[j], found[j-1] = found[j-1], found[j]
		}
	}
	return found, nil
}
