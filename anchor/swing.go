package anchor

import (
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Swing is a boat that swings round its anchor.
type Swing struct {
	Rode    rode.Rode    // as let out
	Site    rode.Site    // depth at the state of tide asked about
	Stern   units.Length // from the bow roller to the aftermost point, davits and dinghy included
	Antenna units.Length // from the bow roller aft to the position antenna
	Beam    units.Length
}

// Circle holds the radii about the anchor within which parts of a boat stay.
type Circle struct{ Bow, Antenna, Stern units.Length }

// SwingCircle is the circle of a boat at a pull: the distance to which the pull
// stretches the rode, and from there the boat in line with it. A stronger pull
// and a lower tide make it wider; what bounds both is sqrt(L² - h²) for a rode L
// from an anchor h below the roller. It holds for every direction of wind over a
// level bed, and for a boat that sheers.
func SwingCircle(s Swing, pull units.Force) (Circle, error) {
	var c checker
	s.check(&c, "")
	if c.err != nil {
		return Circle{}, c.err
	}
	st, err := rode.Solve(s.Rode, s.Site, pull)
	if err != nil {
		return Circle{}, inRode("Rode.", "Site.", nil, err)
	}
	return s.circle(st.Distance), nil
}

func (s *Swing) circle(bow units.Length) Circle {
	return Circle{Bow: bow, Antenna: bow + s.Antenna, Stern: bow + s.Stern}
}

func (s *Swing) check(c *checker, field string) {
	between(c, field+"Stern", s.Stern, 0, 500)
	between(c, field+"Antenna", s.Antenna, 0, 500)
	between(c, field+"Beam", s.Beam, 0, 100)
	c.must(s.Antenna <= s.Stern, field+"Antenna", s.Antenna, "not abaft the stern, "+s.Stern.String())
}
