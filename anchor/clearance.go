package anchor

import (
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Neighbour is another boat at anchor.
type Neighbour struct {
	Name     string
	Bearing  units.Angle  // of its anchor from ours, clockwise from north
	Distance units.Length // between the anchors
	Swing    Swing
}

// farthest is how far from each other boats are compared; it bounds the search.
const farthest = 1e5 // m

// Clearance is the water left between two boats at anchor.
type Clearance struct {
	Ours, Theirs Circle
	// Least is the clear water between the hulls when the winds that the boats lie
	// to differ by no more than was asked, and WindFrom our wind then. 0 is a
	// collision.
	Least    units.Length
	WindFrom units.Angle
	// Apart is the clear water whatever each boat lies to, as in a calm or at the
	// turn of the tide. It is negative by how far the circles overlap.
	Apart units.Length
}

// ClearOf is the least clearance to a neighbour over all directions of the wind,
// at one strength of it: pull is what it pulls our boat with, theirs what it pulls
// theirs with. A boat is taken as its centre line with half its beam on either
// side.
//
// Boats that all lie to one wind turn together and stay clear though their
// circles overlap; differ says how far apart their headings may be. Chain and
// rope, keels long and short, and a tide that turns make boats differ most when
// there is least wind: ask about calms as well as gales. Least is exact to a
// centimetre, or to a 5000th of the circles' radii where that is more.
func ClearOf(ours Swing, pull units.Force, n Neighbour, theirs units.Force, differ units.Angle) (Clearance, error) {
	var c checker
	ours.check(&c, "ours.")
	n.Swing.check(&c, "Neighbour.Swing.")
	between(&c, "Neighbour.Distance", n.Distance, 0, farthest)
	between(&c, "Neighbour.Bearing", n.Bearing, -units.Turn, units.Turn)
	notNegative(&c, "pull", pull)
	notNegative(&c, "theirs", theirs)
	between(&c, "differ", differ, 0, units.Turn/2)
	if c.err != nil {
		return Clearance{}, c.err
	}
	var cl Clearance
	for _, boat := range []struct {
		swing      *Swing
		pull       units.Force
		path, name string // of the swing and of the pull
		circle     *Circle
	}{
		{&ours, pull, "ours.", "pull", &cl.Ours},
		{&n.Swing, theirs, "Neighbour.Swing.", "theirs", &cl.Theirs},
	} {
		st, err := rode.Solve(boat.swing.Rode, boat.swing.Site, boat.pull)
		if err != nil {
			return Clearance{}, inRode(boat.path+"Rode.", boat.path+"Site.", map[string]string{"pull": boat.name}, err)
		}
		*boat.circle = boat.swing.circle(st.Distance)
	}
	between(&c, "ours.Rode", cl.Ours.Bow, 0, farthest)
	between(&c, "Neighbour.Swing.Rode", cl.Theirs.Bow, 0, farthest)
	if c.err != nil {
		return Clearance{}, c.err
	}
	beams := (ours.Beam + n.Swing.Beam) / 2
	cl.Apart = n.Distance - cl.Ours.Stern - cl.Theirs.Stern - beams
	sin, cos := math.Sincos(float64(n.Bearing))
	p := pair{
		x: float64(n.Distance) * sin, y: float64(n.Distance) * cos,
		bow: [2]float64{float64(cl.Ours.Bow), float64(cl.Theirs.Bow)},
		end: [2]float64{float64(cl.Ours.Stern), float64(cl.Theirs.Stern)},
	}
	least, wind, found := p.least(float64(differ))
	if !found {
		return Clearance{}, refuseAs(ErrRange, "ours.Rode", cl.Ours.Bow, "swing circles small enough to search")
	}
	cl.Least = max(0, units.Length(least)-beams)
	cl.WindFrom = units.Angle(math.Mod(wind+2*math.Pi, 2*math.Pi))
	return cl, nil
}

// pair is two boats as lines from bow to stern, each on a ray from its anchor:
// ours at the origin, theirs at x east, y north.
type pair struct {
	x, y     float64
	bow, end [2]float64
}

// apart is the distance between the lines in winds from two directions.
func (p *pair) apart(wind, theirs float64) float64 {
	s0, c0 := math.Sincos(wind + math.Pi)
	s1, c1 := math.Sincos(theirs + math.Pi)
	a := [2]float64{p.bow[0] * s0, p.bow[0] * c0}
	b := [2]float64{p.end[0] * s0, p.end[0] * c0}
	c := [2]float64{p.x + p.bow[1]*s1, p.y + p.bow[1]*c1}
	d := [2]float64{p.x + p.end[1]*s1, p.y + p.end[1]*c1}
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	return min(toLine(a, b, c), toLine(a, b, d), toLine(c, d, a), toLine(c, d, b))
}

// side is positive where p is to the left of the line from a to b.
func side(a, b, p [2]float64) float64 {
	return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
}

// toLine is the distance of p from the line between a and b.
func toLine(a, b, p [2]float64) float64 {
	ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], p[0]-a[0], p[1]-a[1]
	t := 0.0
	if l := ux*ux + uy*uy; l > 0 {
		t = min(1, max(0, (ux*vx+uy*vy)/l))
	}
	return math.Hypot(vx-t*ux, vy-t*uy)
}

// least searches all winds and all differences up to differ by branch and bound:
// no point of a boat moves farther than its radius times the turn, so a cell
// whose middle is farther off than that above the best yet cannot hold better.
func (p *pair) least(differ float64) (distance, wind float64, found bool) {
	type cell struct{ wind, by, halfWind, halfBy, at float64 }
	distance = math.Inf(1)
	look := func(c cell) cell {
		c.at = p.apart(c.wind, c.wind+c.by)
		if c.at < distance {
			distance, wind = c.at, c.wind
		}
		return c
	}
	const first = 72
	var cells []cell
	for i := range first {
		cells = append(cells, look(cell{wind: 2 * math.Pi * (float64(i) + 0.5) / first, halfWind: math.Pi / first, halfBy: differ}))
	}
	both := p.end[0] + p.end[1]
	good := max(0.01, both/5000)
	for n := 0; len(cells) > 0 && distance > good; n++ { // no less than 0 can be found
		if n > 1_000_000 {
			return 0, 0, false
		}
		c := cells[len(cells)-1]
		cells = cells[:len(cells)-1]
		turn, by := both*c.halfWind, p.end[1]*c.halfBy
		if c.at-turn-by >= distance-good {
			continue
		}
		lower, upper := c, c
		if turn >= by {
			c.halfWind /= 2
			lower.halfWind, upper.halfWind = c.halfWind, c.halfWind
			lower.wind -= c.halfWind
			upper.wind += c.halfWind
		} else {
			c.halfBy /= 2
			lower.halfBy, upper.halfBy = c.halfBy, c.halfBy
			lower.by -= c.halfBy
			upper.by += c.halfBy
		}
		cells = append(cells, look(lower), look(upper))
	}
	return distance, wind, true
}
