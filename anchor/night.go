package anchor

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Night is a stay at anchor over a tide, to be planned.
type Night struct {
	From, To time.Time
	Tide     Tide
	Sounding Sounding // over the anchor; it may be earlier than From

	Rode rode.Rode    // all of it, from the anchor up
	Out  units.Length // let out; 0 for as much as the night asks for
	// Roller is the height of the bow roller above the water, Friction and Water as
	// in rode.Site.
	Roller   units.Length
	Friction float64
	Water    units.Density

	Winds []NightWind // in the order of time, the first no later than From
	// Steepest is the angle above the bed at which the anchor may be pulled.
	Steepest units.Angle
	// Wave is the height from trough to crest of the waves to plan for. A trough
	// takes half of it from under the keel, a crest lifts the bow by as much.
	Wave units.Length
	// TideError is by how much the tide may stand higher or lower than predicted.
	TideError units.Length

	Draught        units.Length
	UnderKeel      units.Length // the least wanted under the keel
	Stern, Antenna units.Length // as in Swing
	// Slope is the greatest slope of the bed about the anchor, whichever way it goes
	// up. On one side it makes the water shoaler, on the other the anchor is pulled so
	// much more steeply. Shoals are what stands above that.
	Slope  units.Angle
	Shoals []Shoal

	Step units.Time // from one moment of the plan to the next; 0 counts as 10 minutes
}

// NightWind is the wind from a time until the next.
type NightWind struct {
	From      time.Time
	Direction units.Angle // that it comes from; only drawings use it
	Pull      units.Force // horizontal, of the gusts with the current and the waves; 0 in a calm
}

// Shoal is a place that is shoaler than the bed at the anchor.
type Shoal struct {
	Name     string
	Bearing  units.Angle  // from the anchor; only drawings use it
	Distance units.Length // from the anchor to its nearest part
	Rise     units.Length // how much it stands above the bed at the anchor
}

// Moment is the state of things at one time of the night.
type Moment struct {
	At    time.Time
	Tide  units.Length // above chart datum, as predicted
	Depth units.Length // at the anchor, as predicted
	Pull  units.Force
	// Tension at the bow, OnBed, Scope and Circle are those of the predicted depth. On a
	// bed that slopes Circle is that with the boat uphill of the anchor, where it is
	// widest, and all else that with her downhill, where it pulls hardest.
	Tension units.Force
	OnBed   units.Length
	Scope   float64
	Circle  Circle
	// Angle of the pull above the bed at the anchor and the rode Needed to keep it
	// from being steeper than was asked allow for the crest, the error of the tide and
	// the slope. In a calm Needed is what reaches the bed.
	Angle  units.Angle
	Needed units.Length
	// UnderKeel allows for the trough, the error of the tide and the shoalest place
	// inside the widest circle of the night.
	UnderKeel units.Length
}

// NightPlan is a night at anchor, moment by moment.
type NightPlan struct {
	Out    units.Length // let out
	Needed units.Length // for the worst moment
	Veer   units.Length // how much more to let out before that; 0 if Out is enough
	Turns  []Turn       // of the tide in the night

	// Moments go from From to To: step by step, and at every turn of the tide and
	// change of the wind. At a change both winds count.
	Moments []Moment
	// Low and High index the moments of the least and greatest depth, Worst the one
	// that needs the most rode.
	Low, High, Worst int
	Widest           Circle // of the night
	// Shoalest names what is the shoalest inside it, and Rise is how much that
	// stands above the bed at the anchor.
	Shoalest string
	Rise     units.Length
}

// PlanNight plans a night at anchor from a sounding, a tide and a forecast: depth
// and scope in the course of the tide, the swing circle, the water under the keel,
// and the rode to let out so that at its worst moment the anchor is pulled no
// steeper than asked.
//
// It refuses a plan with less under the keel than asked ([ErrAground]) and one for
// which the rode is not long enough ([rode.ErrShort]). The whole circle counts, though
// the wind may never take the boat so far round: for the keel the shoalest place
// inside it, for the rode the boat straight downhill of her anchor. Squat, pitching
// and heel deepen a keel beyond what is reckoned here; charts of an anchorage can
// be older than its sandbanks. Loads are static: read the caution of rode.Solve.
func PlanNight(n Night) (NightPlan, error) {
	if err := n.check(); err != nil {
		return NightPlan{}, err
	}
	p := NightPlan{Out: n.Out}
	var err error
	if p.Turns, err = n.Tide.Between(n.From, n.To); err != nil {
		return NightPlan{}, err
	}
	if err := n.Tide.reaches(n.Sounding.At, n.Sounding.At); err != nil {
		return NightPlan{}, err
	}
	sounded := units.Length(n.Tide.height(n.Sounding.At))
	for _, at := range n.times(p.Turns) {
		m := Moment{At: at, Tide: units.Length(n.Tide.height(at))}
		m.Pull, _ = n.pull(at)
		m.Depth = n.Sounding.Depth() + (m.Tide - sounded)
		p.Moments = append(p.Moments, m)
	}
	// Before any rode is reckoned there must be water to anchor in.
	if err := n.afloat(&p, "bed at the anchor"); err != nil {
		return NightPlan{}, err
	}
	for i := range p.Moments {
		m := &p.Moments[i]
		if m.Needed, err = n.needed(m); err != nil {
			return NightPlan{}, n.named(m.At, err)
		}
		switch {
		case m.Depth < p.Moments[p.Low].Depth:
			p.Low = i
		case m.Depth > p.Moments[p.High].Depth:
			p.High = i
		}
		if m.Needed > p.Needed {
			p.Needed, p.Worst = m.Needed, i
		}
	}
	if p.Out == 0 {
		p.Out = p.Needed
	}
	p.Veer = max(0, p.Needed-p.Out)
	stranded, err := n.hang(&p)
	if err != nil {
		return NightPlan{}, err
	}
	p.Shoalest, p.Rise = n.shoalest(p.Widest.Stern)
	if err := n.afloat(&p, p.Shoalest); err != nil {
		return NightPlan{}, err
	}
	if stranded != nil {
		return NightPlan{}, stranded
	}
	return p, nil
}

// margin is what the water may stand above its predicted level at the bow.
func (n *Night) margin() units.Length { return n.TideError + n.Wave/2 }

// site is that of a boat that lies where the bed rises towards her by a slope.
func (n *Night) site(depth units.Length, slope units.Angle) rode.Site {
	return rode.Site{Depth: depth, Roller: n.Roller, Slope: slope, Friction: n.Friction, Water: n.Water}
}

// needed is the rode that keeps the pull from being too steep with the boat downhill
// of her anchor.
func (n *Night) needed(m *Moment) (units.Length, error) {
	s := n.site(m.Depth+n.margin(), -n.Slope)
	if m.Pull > 0 {
		return rode.LengthFor(n.Rode, s, m.Pull, n.Steepest)
	}
	if _, err := rode.NewSolver(n.Rode, s); err != nil {
		return 0, err
	}
	return min(s.Rise().Scale(1+1e-9), n.Rode.Length()), nil // straight down, but for a hair
}

// named says which part of the night an error of package rode is about.
func (n *Night) named(at time.Time, err error) error {
	_, i := n.pull(at)
	return inRode("Rode.", "", map[string]string{
		"pull": fmt.Sprintf("Winds[%d].Pull", i), "angle": "Steepest", "out": "Out",
	}, err)
}

// afloat fills in the water under the keel and refuses too little of it.
func (n *Night) afloat(p *NightPlan, over string) error {
	least := 0
	for i := range p.Moments {
		m := &p.Moments[i]
		m.UnderKeel = m.Depth - p.Rise - n.margin() - n.Draught
		if m.UnderKeel < p.Moments[least].UnderKeel {
			least = i
		}
	}
	if m := &p.Moments[least]; m.UnderKeel < n.UnderKeel {
		return refuseAs(ErrAground, "clearance over the "+over+" at "+m.At.Format("2006-01-02 15:04"),
			fmt.Sprintf("%.2f m", m.UnderKeel.Metres()), "at least "+n.UnderKeel.String())
	}
	return nil
}

// hang solves the rode let out at every moment. Where it is long enough for the bow
// to come uphill to where the bed is as high as the roller, that is the circle, which
// will be found to be aground, and stranded says so.
func (n *Night) hang(p *NightPlan) (stranded, err error) {
	out, err := n.Rode.Veer(p.Out)
	if err != nil {
		return nil, n.named(n.From, err)
	}
	boat := Swing{Stern: n.Stern, Antenna: n.Antenna}
	var st rode.State
	solve := func(depth units.Length, slope units.Angle, pull units.Force) error {
		sv, err := rode.NewSolver(out, n.site(depth, slope))
		if err != nil {
			return err
		}
		return sv.Solve(&st, pull)
	}
	for i := range p.Moments {
		m := &p.Moments[i]
		if err := solve(m.Depth+n.margin(), -n.Slope, m.Pull); err != nil {
			return nil, n.named(m.At, err)
		}
		m.Angle = st.Anchor.FromBed
		if err := solve(m.Depth, -n.Slope, m.Pull); err != nil {
			return nil, n.named(m.At, err)
		}
		m.Tension, m.OnBed, m.Scope = st.Tension, st.OnBed, st.Scope
		bow := st.Distance
		if n.Slope > 0 {
			err := solve(m.Depth, n.Slope, m.Pull)
			switch {
			case errors.Is(err, rode.ErrBed):
				stranded = n.named(m.At, err)
				bow = max(bow, (m.Depth + n.Roller).Scale(1/n.Slope.Tan()))
			case err != nil:
				return nil, n.named(m.At, err)
			default:
				bow = max(bow, st.Distance)
			}
		}
		m.Circle = boat.circle(bow)
		if i == 0 || m.Circle.Bow > p.Widest.Bow {
			p.Widest = m.Circle
		}
	}
	return stranded, nil
}

// shoalest is what stands highest inside a circle, and how high.
func (n *Night) shoalest(radius units.Length) (string, units.Length) {
	name, rise := "bed at the anchor", units.Length(0)
	if r := radius.Scale(n.Slope.Tan()); r > 0 {
		name, rise = "upper side of the bed", r
	}
	for i, s := range n.Shoals {
		if s.Distance <= radius && s.Rise > rise {
			name, rise = s.Name, s.Rise
			if name == "" {
				name = fmt.Sprintf("shoal %d", i+1)
			}
		}
	}
	return name, rise
}

// times are those of the moments.
func (n *Night) times(turns []Turn) []time.Time {
	times := []time.Time{n.To}
	step, _ := n.step().Duration() // checked
	for at := n.From; at.Before(n.To); at = at.Add(step) {
		times = append(times, at)
	}
	for _, t := range turns {
		times = append(times, t.At)
	}
	for _, w := range n.Winds {
		if w.From.After(n.From) && w.From.Before(n.To) {
			times = append(times, w.From)
		}
	}
	slices.SortFunc(times, time.Time.Compare)
	return slices.CompactFunc(times, time.Time.Equal)
}

func (n *Night) step() units.Time { return or(n.Step, 600) }

// pull at a time and which wind it is of; at a change of wind the greater one.
func (n *Night) pull(at time.Time) (pull units.Force, wind int) {
	for i, w := range n.Winds {
		last := i == len(n.Winds)-1
		if now := !at.Before(w.From) && (last || !at.After(n.Winds[i+1].From)); now && w.Pull >= pull {
			pull, wind = w.Pull, i
		}
	}
	return pull, wind
}

func (n *Night) check() error {
	if err := interval(n.From, n.To); err != nil {
		return err
	}
	var c checker
	n.Sounding.check(&c, "Sounding.")
	for _, l := range []struct {
		field string
		l     units.Length
		most  units.Length
	}{
		{"Wave", n.Wave, 20},
		{"TideError", n.TideError, 10},
		{"Draught", n.Draught, 20},
		{"UnderKeel", n.UnderKeel, 20},
		{"Out", n.Out, 1e5},
	} {
		between(&c, l.field, l.l, 0, l.most)
	}
	between(&c, "Steepest", n.Steepest, 0, units.Turn/8)
	between(&c, "Slope", n.Slope, 0, units.Turn/8)
	between(&c, "Step", n.step(), 1, 86400)
	steps := n.To.Sub(n.From).Seconds() / n.step().Seconds()
	c.must(steps <= 5000, "Step", n.step(), "no more than 5000 steps from From to To")
	s := Swing{Stern: n.Stern, Antenna: n.Antenna}
	s.check(&c, "")
	c.must(len(n.Winds) > 0, "Winds", "empty", "at least one")
	for i, w := range n.Winds {
		f := fmt.Sprintf("Winds[%d].", i)
		notNegative(&c, f+"Pull", w.Pull)
		between(&c, f+"Direction", w.Direction, -units.Turn, units.Turn)
		if i == 0 {
			c.must(!w.From.After(n.From), f+"From", w.From, "no later than the plan, "+n.From.String())
		} else {
			c.must(w.From.After(n.Winds[i-1].From), f+"From", w.From, "later than the wind before it")
		}
	}
	for i, s := range n.Shoals {
		f := fmt.Sprintf("Shoals[%d].", i)
		between(&c, f+"Bearing", s.Bearing, -units.Turn, units.Turn)
		between(&c, f+"Distance", s.Distance, 0, 1e5)
		between(&c, f+"Rise", s.Rise, 0, 1000)
	}
	return c.err
}
