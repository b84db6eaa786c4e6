package draw

import (
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/svg"
)

// NightPlot draws the course of a night: the depth of the water with what the
// keel has under it, the scope, and the load, over one axis of time.
type NightPlot struct {
	Title string // none if empty
	Night anchor.Night
	Plan  anchor.NightPlan // of that night
	// Imperial has lengths in feet and forces in pounds-force.
	Imperial bool `json:",omitempty"`
	// Prefix begins the classes and ids of the file: a lower-case letter, then
	// lower-case letters, digits and hyphens; empty counts as "night".
	Prefix string
}

// WriteSVG writes the drawing, 180 mm wide.
func (p NightPlot) WriteSVG(w io.Writer) error {
	if err := checkPlan(&p.Night, &p.Plan); err != nil {
		return err
	}
	s, err := newSheet(p.Prefix, "night")
	if err != nil {
		return err
	}
	if p.Title != "" {
		s.lines("title", huge, p.Title)
	}
	low, worst := &p.Plan.Moments[p.Plan.Low], &p.Plan.Moments[p.Plan.Worst]
	in := ruler{p.Imperial}
	text := fmt.Sprintf("%s let out. Low at %s: %s of water, %s under the keel in a trough. The night needs %s, at %s.",
		in.near(p.Plan.Out), when(&p.Plan, low.At), in.near(low.Depth), in.clear(low.UnderKeel), in.near(p.Plan.Needed), when(&p.Plan, worst.At))
	if p.Plan.Veer > 0 {
		text += fmt.Sprintf(" Veer %s before then.", in.near(p.Plan.Veer))
	}
	s.lines("small", small, text)

	c := &chart{sheet: s, in: in, moments: p.Plan.Moments, left: margin + 12, right: width - margin - 3}
	c.depth(&p.Night, &p.Plan)
	c.scope(&p.Plan)
	c.load(&p.Night)
	c.hours()

	s.legend([]entry{
		{"surface", "surface"},
		{"keel", "keel in smooth water"},
		{"trough", "keel in a trough, with the tide's error"},
		{"bed", "shoalest inside the circle"},
		{"tension", "tension at the bow"},
		{"pull", "pull of wind, waves and current"},
	})
	s.y += 2
	s.lines("note", small, "Depths are predicted from a sounding and the tide table; weather moves the water besides. "+
		"Loads are those of a steady pull: gusts, sheering and waves load a rode to a multiple of it.")
	title := p.Title
	if title == "" {
		title = "Night at anchor"
	}
	return s.write(w, title, text)
}

func checkPlan(n *anchor.Night, p *anchor.NightPlan) error {
	last := len(p.Moments) - 1
	if last < 1 {
		return refuse("Plan.Moments", fmt.Sprintf("%d long", last+1), "at least two")
	}
	for _, i := range []struct {
		field string
		index int
	}{{"Low", p.Low}, {"High", p.High}, {"Worst", p.Worst}} {
		if i.index < 0 || i.index > last {
			return refuse("Plan."+i.field, i.index, fmt.Sprintf("an index of Moments, 0 to %d", last))
		}
	}
	if d := p.Moments[last].At.Sub(p.Moments[0].At); d > 366*24*time.Hour {
		return refuse("Plan.Moments", d, "no more than a year")
	}
	most := func(field string, x, lo, hi float64) error {
		if !(x >= lo && x <= hi) {
			return refuse(field, x, fmt.Sprintf("from %v to %v", lo, hi))
		}
		return nil
	}
	for i := range p.Moments {
		m, f := &p.Moments[i], fmt.Sprintf("Plan.Moments[%d].", i)
		if i > 0 && !m.At.After(p.Moments[i-1].At) {
			return refuse(f+"At", m.At, "later than the moment before it")
		}
		for _, err := range []error{
			most(f+"Depth", m.Depth.Metres(), 0, 1e5), most(f+"UnderKeel", m.UnderKeel.Metres(), -1e5, 1e5),
			most(f+"Scope", m.Scope, 0, 1e6), most(f+"Tension", m.Tension.Newtons(), 0, 1e9),
			most(f+"Pull", m.Pull.Newtons(), 0, 1e9), most(f+"Angle", m.Angle.Radians(), -2, 2), most(f+"Circle.Bow", m.Circle.Bow.Metres(), 0, 1e5),
		} {
			if err != nil {
				return err
			}
		}
	}
	for _, err := range []error{
		most("Plan.Out", p.Out.Metres(), 0, 1e5), most("Plan.Needed", p.Needed.Metres(), 0, 1e5),
		most("Plan.Veer", p.Veer.Metres(), 0, 1e5), most("Plan.Rise", p.Rise.Metres(), 0, 1e5),
		most("Plan.Widest.Stern", p.Widest.Stern.Metres(), 0, 1e5), most("Plan.Widest.Antenna", p.Widest.Antenna.Metres(), 0, 1e5),
		most("Night.Draught", n.Draught.Metres(), 0, 1e3), most("Night.Stern", n.Stern.Metres(), 0, 1e3),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

func clock(at time.Time) string { return at.Format("15:04") }

// long tells whether a plan needs the days beside the times.
func long(p *anchor.NightPlan) bool {
	return p.Moments[len(p.Moments)-1].At.Sub(p.Moments[0].At) > 24*time.Hour
}

// when is a time of the plan, with its day where that is needed.
func when(p *anchor.NightPlan, at time.Time) string {
	if long(p) {
		return at.Format("2 Jan 15:04")
	}
	return clock(at)
}

// chart draws panels over one axis of time.
type chart struct {
	*sheet
	in          ruler
	moments     []anchor.Moment
	left, right float64
	top, bottom float64 // of the panel
	lo, hi      float64 // values there
}

func (c *chart) x(at time.Time) float64 {
	from, to := c.moments[0].At, c.moments[len(c.moments)-1].At
	return c.left + (c.right-c.left)*at.Sub(from).Seconds()/to.Sub(from).Seconds()
}

func (c *chart) at(at time.Time, v float64) svg.Point {
	return svg.Point{X: c.x(at), Y: c.bottom - (c.bottom-c.top)*(v-c.lo)/(c.hi-c.lo)}
}

// panel begins a panel of a height for values from lo to hi.
func (c *chart) panel(title string, height, lo, hi float64) {
	c.y += 4
	c.lines("label", medium, title)
	c.y += 5 // room for the marks' texts
	c.top, c.bottom = c.y, c.y+height
	c.y = c.bottom
	step := round(max(hi-lo, 1e-9) / 5)
	c.lo, c.hi = step*math.Floor(lo/step+1e-9), step*math.Ceil(hi/step-1e-9)
	if c.hi == c.lo {
		c.hi += step
	}
	for i := 0; ; i++ {
		v := c.lo + float64(i)*step
		if v > c.hi+step/2 {
			break
		}
		p := c.at(c.moments[0].At, v)
		c.Line("grid", p, svg.Point{X: c.right, Y: p.Y})
		c.Text("small", svg.Point{X: c.left - 1.5, Y: p.Y + 0.36*small}, svg.Right, svg.Span{Text: number(step * math.Round(v/step))})
	}
}

// frame draws the axes over what is in the panel.
func (c *chart) frame() {
	c.Line("axis", svg.Point{X: c.left, Y: c.top}, svg.Point{X: c.left, Y: c.bottom})
	c.Line("axis", svg.Point{X: c.left, Y: c.bottom}, svg.Point{X: c.right, Y: c.bottom})
}

func (c *chart) curve(class string, value func(*anchor.Moment) float64) {
	var line []svg.Point
	for i := range c.moments {
		line = append(line, c.at(c.moments[i].At, value(&c.moments[i])))
	}
	c.Polyline(class, line...)
}

// mark draws a line through the panel with a text at its top, kept inside.
func (c *chart) mark(at time.Time, text string) {
	x := c.x(at)
	c.Line("mark", svg.Point{X: x, Y: c.top}, svg.Point{X: x, Y: c.bottom})
	half := svg.TextWidth(text, small) / 2
	c.Text("small", svg.Point{X: min(max(x, c.left+half), c.right-half), Y: c.top - 0.8}, svg.Centre, svg.Span{Text: text})
}

// marks are those that fit beside each other, the earlier first.
func (c *chart) marks(times []time.Time, texts []string) {
	end := c.left - 10
	for i, at := range times {
		half := svg.TextWidth(texts[i], small) / 2
		x := min(max(c.x(at), c.left+half), c.right-half)
		if x-half < end+2 {
			c.Line("mark", svg.Point{X: c.x(at), Y: c.top}, svg.Point{X: c.x(at), Y: c.bottom})
			continue
		}
		c.mark(at, texts[i])
		end = x + half
	}
}

func (c *chart) depth(n *anchor.Night, p *anchor.NightPlan) {
	lo, hi := 0.0, 0.0
	for i := range c.moments {
		hi = max(hi, c.in.on(c.moments[i].Depth))
		lo = min(lo, c.in.on(c.moments[i].UnderKeel)+c.in.on(p.Rise))
	}
	_, unit := c.in.unit()
	c.panel("Depth at the anchor, "+unit, 55, lo, hi)
	surface := func(m *anchor.Moment) float64 { return c.in.on(m.Depth) }
	from, to := c.moments[0].At, c.moments[len(c.moments)-1].At
	water := []svg.Point{c.at(from, 0)}
	for i := range c.moments {
		water = append(water, c.at(c.moments[i].At, surface(&c.moments[i])))
	}
	c.Polygon("water", append(water, c.at(to, 0))...)
	if rise := c.in.on(p.Rise); rise > 0 {
		c.Rect("ground", c.at(from, rise), c.at(to, 0))
		c.Line("bed", c.at(from, rise), c.at(to, rise))
		c.Text("small", svg.Point{X: c.left + 2, Y: c.at(from, rise).Y - 1}, svg.Left, svg.Span{Text: p.Shoalest})
	}
	c.Line("bed", c.at(from, 0), c.at(to, 0))
	c.curve("surface", surface)
	c.curve("keel", func(m *anchor.Moment) float64 { return c.in.on(m.Depth - n.Draught) })
	c.curve("trough", func(m *anchor.Moment) float64 { return c.in.on(m.UnderKeel + p.Rise) })
	c.clearance(p)
	var times []time.Time
	var texts []string
	for _, t := range p.Turns {
		if t.At.Before(from) || t.At.After(to) {
			continue
		}
		name := "low water "
		if t.High {
			name = "high water "
		}
		times, texts = append(times, t.At), append(texts, name+clock(t.At))
	}
	c.marks(times, texts)
	c.frame()
}

// clearance is the dimension of the water under the keel when it is least.
func (c *chart) clearance(p *anchor.NightPlan) {
	least := 0
	for i := range c.moments {
		if c.moments[i].UnderKeel < c.moments[least].UnderKeel {
			least = i
		}
	}
	m := &c.moments[least]
	a, b := c.at(m.At, c.in.on(p.Rise)), c.at(m.At, c.in.on(m.UnderKeel+p.Rise))
	for _, y := range []float64{a.Y, b.Y} {
		c.Line("tick", svg.Point{X: a.X - 0.8, Y: y + 0.8}, svg.Point{X: a.X + 0.8, Y: y - 0.8})
	}
	c.Line("tick", a, b)
	text := c.in.clear(m.UnderKeel)
	at, align := svg.Point{X: a.X + 1.6, Y: (a.Y+b.Y)/2 + 0.36*small}, svg.Left
	if at.X+svg.TextWidth(text, small) > c.right {
		at.X, align = a.X-1.6, svg.Right
	}
	c.Text("small", at, align, svg.Span{Text: text})
}

func (c *chart) scope(p *anchor.NightPlan) {
	lo, hi := math.Inf(1), 0.0
	for i := range c.moments {
		lo, hi = min(lo, c.moments[i].Scope), max(hi, c.moments[i].Scope)
	}
	c.panel("Scope with "+c.in.near(p.Out)+" out", 28, min(lo, 3), hi)
	c.curve("curve", func(m *anchor.Moment) float64 { return m.Scope })
	worst := &c.moments[p.Worst]
	c.Circle("dot", c.at(worst.At, worst.Scope), 0.9)
	c.mark(worst.At, fmt.Sprintf("worst %s: %.1f° at the anchor", when(p, worst.At), worst.Angle.Degrees()))
	c.frame()
}

func (c *chart) load(n *anchor.Night) {
	hi := 0.0
	for i := range c.moments {
		hi = max(hi, c.in.load(c.moments[i].Tension), c.in.load(c.moments[i].Pull))
	}
	c.panel("Load, "+c.in.loadUnit(), 32, 0, max(hi, 1e-3))
	c.steps("tension", n, func(m *anchor.Moment) float64 { return c.in.load(m.Tension) })
	c.steps("pull", n, func(m *anchor.Moment) float64 { return c.in.load(m.Pull) })
	var times []time.Time
	var texts []string
	for _, w := range n.Winds {
		if from, to := c.moments[0].At, c.moments[len(c.moments)-1].At; w.From.After(from) && w.From.Before(to) {
			times, texts = append(times, w.From), append(texts, "wind changes "+clock(w.From))
		}
	}
	c.marks(times, texts)
	c.frame()
}

// steps draws a curve that goes straight up or down where the wind changes.
func (c *chart) steps(class string, n *anchor.Night, value func(*anchor.Moment) float64) {
	var line []svg.Point
	for i := range c.moments {
		m := &c.moments[i]
		changes := slices.ContainsFunc(n.Winds, func(w anchor.NightWind) bool { return w.From.Equal(m.At) })
		if changes && i > 0 {
			line = append(line, c.at(m.At, value(&c.moments[i-1])))
		}
		line = append(line, c.at(m.At, value(m)))
		if changes && i < len(c.moments)-1 {
			line = append(line, c.at(m.At, value(&c.moments[i+1])))
		}
	}
	c.Polyline(class, line...)
}

// hours writes the times under the last panel.
func (c *chart) hours() {
	from, to := c.moments[0].At, c.moments[len(c.moments)-1].At
	room := svg.TextWidth("00:00", small) + 3
	step := time.Minute
	for _, s := range []time.Duration{1, 5, 10, 30, 60, 120, 180, 240, 360, 720, 1440, 2 * 1440, 7 * 1440, 14 * 1440, 28 * 1440, 100 * 1440} {
		if step = s * time.Minute; (c.right-c.left)*step.Seconds() >= room*to.Sub(from).Seconds() {
			break
		}
	}
	y, mo, d := from.Date()
	midnight := time.Date(y, mo, d, 0, 0, 0, 0, from.Location())
	for at := midnight; !at.After(to); at = at.Add(step) {
		if at.Before(from) {
			continue
		}
		x := c.x(at)
		c.Line("axis", svg.Point{X: x, Y: c.bottom}, svg.Point{X: x, Y: c.bottom + 1.2})
		text := clock(at)
		if step >= 24*time.Hour || text == "00:00" && to.Sub(from) > 24*time.Hour {
			text = at.Format("2 Jan")
		}
		c.Text("small", svg.Point{X: x, Y: c.bottom + 1.6 + small}, svg.Centre, svg.Span{Text: text})
	}
	c.y = c.bottom + 1.6 + 1.3*small
}
