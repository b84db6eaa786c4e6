package draw

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// SwingPlan draws the widest swing circle of a night from above, north up: the
// boat as she lies to each wind of the forecast, the shoals of the night, the
// radius of an alarm and the circles of neighbours.
type SwingPlan struct {
	Title string // none if empty
	Night anchor.Night
	Plan  anchor.NightPlan // of that night
	Alarm units.Length     // radius of the anchor alarm about the anchor; 0 for none
	Hulls int              // of the sketch: 2 for a catamaran; 0 counts as 1
	// Neighbours are drawn with their circles at the pull given.
	Neighbours []Neighbour
	Imperial   bool `json:",omitempty"` // as that of NightPlot, with the scale
	// Prefix as in NightPlot; empty counts as "swing".
	Prefix string
}

// Neighbour is another boat and the circle it swings in.
type Neighbour struct {
	anchor.Neighbour
	Circle anchor.Circle
}

// WriteSVG writes the drawing, 180 mm wide, at the largest round scale that fits.
func (p SwingPlan) WriteSVG(w io.Writer) error {
	if err := p.check(); err != nil {
		return err
	}
	s, err := newSheet(p.Prefix, "swing")
	if err != nil {
		return err
	}
	if p.Title != "" {
		s.lines("title", huge, p.Title)
	}
	in := ruler{p.Imperial}
	text := fmt.Sprintf("%s of rode out. The stern stays within %s of the anchor, the position antenna within %s.",
		in.near(p.Plan.Out), in.far(p.Plan.Widest.Stern), in.far(p.Plan.Widest.Antenna))
	if p.Alarm > 0 {
		text += fmt.Sprintf(" Alarm at %s.", in.far(p.Alarm))
	}
	s.lines("small", small, text)
	s.y += 4

	v := p.fit(s)
	v.draw(&p)
	v.scaleBar()
	entries := []entry{{"surface", "circle of the stern"}, {"antenna", "circle of the antenna"}}
	if p.Alarm > 0 {
		entries = append(entries, entry{"alarm", "alarm"})
	}
	if len(p.Neighbours) > 0 {
		entries = append(entries, entry{"other", "circle of a neighbour"})
	}
	s.legend(entries)
	s.y += 2
	s.lines("note", small, "North is up. Hulls are sketches of the right length. Boats in one wind swing together; in calms and at the turn of the tide each goes its own way, and chain and rope differ most.")
	title := p.Title
	if title == "" {
		title = "Swing circle"
	}
	return s.write(w, title, text)
}

func (p *SwingPlan) check() error {
	if err := checkPlan(&p.Night, &p.Plan); err != nil {
		return err
	}
	most := func(field string, x, hi float64) error {
		if !(x >= 0 && x <= hi) {
			return refuse(field, x, fmt.Sprintf("from 0 to %v", hi))
		}
		return nil
	}
	if err := most("Alarm", p.Alarm.Metres(), 1e5); err != nil {
		return err
	}
	if p.Hulls < 0 || p.Hulls > 2 {
		return refuse("Hulls", p.Hulls, "1 or 2")
	}
	if !(p.Plan.Widest.Stern > 0) {
		return refuse("Plan.Widest.Stern", p.Plan.Widest.Stern, "more than 0")
	}
	for i, n := range p.Neighbours {
		f := fmt.Sprintf("Neighbours[%d].", i)
		if !finite(n.Bearing.Radians()) {
			return refuse(f+"Bearing", n.Bearing, "a finite angle")
		}
		for _, err := range []error{
			most(f+"Distance", n.Distance.Metres(), 1e5), most(f+"Circle.Stern", n.Circle.Stern.Metres(), 1e5),
			most(f+"Circle.Bow", n.Circle.Bow.Metres(), 1e5), most(f+"Swing.Stern", n.Swing.Stern.Metres(), 1e3),
		} {
			if err != nil {
				return err
			}
		}
	}
	for i, s := range p.Night.Shoals {
		f := fmt.Sprintf("Night.Shoals[%d].", i)
		if !finite(s.Bearing.Radians()) {
			return refuse(f+"Bearing", s.Bearing, "a finite angle")
		}
		if err := most(f+"Distance", s.Distance.Metres(), 1e5); err != nil {
			return err
		}
	}
	for i, w := range p.Night.Winds {
		if !finite(w.Direction.Radians()) {
			return refuse(fmt.Sprintf("Night.Winds[%d].Direction", i), w.Direction, "a finite angle")
		}
	}
	return nil
}

// view places metres east and north of the anchor on the page.
type view struct {
	*sheet
	in        ruler
	scale, mm float64
	east, top float64 // metres east at the page's middle, and north at its top
	edge      float64 // top of the drawing on the page
	height    float64
	taken     []svg.Point // all over what no name may lie on
}

// fit chooses the scale.
func (p *SwingPlan) fit(s *sheet) *view {
	w, e, so, n := 0.0, 0.0, 0.0, 0.0
	add := func(east, north, r float64) {
		w, e = min(w, east-r), max(e, east+r)
		so, n = min(so, north-r), max(n, north+r)
	}
	add(0, 0, max(p.Plan.Widest.Stern, p.Alarm).Metres())
	for _, k := range p.Neighbours {
		sin, cos := math.Sincos(k.Bearing.Radians())
		add(k.Distance.Metres()*sin, k.Distance.Metres()*cos, k.Circle.Stern.Metres())
	}
	for _, k := range p.Night.Shoals {
		// A shoal far outside would only make everything else small.
		if k.Distance <= max(p.Plan.Widest.Stern, p.Alarm).Scale(2) {
			sin, cos := math.Sincos(k.Bearing.Radians())
			add(k.Distance.Metres()*sin, k.Distance.Metres()*cos, 0)
		}
	}
	const pad, tallest = 8.0, 170.0
	v := &view{sheet: s, in: ruler{p.Imperial}}
	first, numbers := v.in.scales()
	for ten := first; ; ten *= 10 {
		done := false
		for _, k := range numbers {
			v.scale, v.mm = k*ten, 1000/(k*ten)
			if (e-w)*v.mm+2*pad <= width-2*margin && (n-so)*v.mm+2*pad <= tallest {
				done = true
				break
			}
		}
		if done {
			break
		}
	}
	v.height = (n-so)*v.mm + 2*pad
	v.east = (w + e) / 2
	v.top = n + pad/v.mm
	v.edge = s.y
	return v
}

func (v *view) at(east, north float64) svg.Point {
	return svg.Point{X: width/2 + (east-v.east)*v.mm, Y: v.edge + (v.top-north)*v.mm}
}

func (v *view) draw(p *SwingPlan) {
	centre := v.at(0, 0)
	v.Circle("swing", centre, p.Plan.Widest.Stern.Metres()*v.mm)
	v.Circle("antenna", centre, p.Plan.Widest.Antenna.Metres()*v.mm)
	if p.Alarm > 0 {
		v.Circle("alarm", centre, p.Alarm.Metres()*v.mm)
	}
	winds := p.winds()
	for i := range p.Neighbours {
		v.neighbour(&p.Neighbours[i], winds)
	}
	for i, w := range winds {
		v.boat(0, 0, w.wind, w.bow, p.Night.Stern.Metres(), p.Hulls)
		sin, cos := math.Sincos(w.wind + math.Pi)
		end := v.at((w.bow+p.Night.Stern.Metres())*sin, (w.bow+p.Night.Stern.Metres())*cos)
		v.taken = append(v.taken, svg.Point{X: end.X + 3*sin, Y: end.Y - 3*cos})
		v.Text("over", svg.Point{X: end.X + 3*sin, Y: end.Y - 3*cos + 0.36*small}, svg.Centre, svg.Span{Text: strconv.Itoa(i + 1)})
		v.windArrow(&p.Plan.Widest, w, strconv.Itoa(i+1)+": "+w.label)
	}
	for i := range p.Night.Shoals {
		v.shoal(&p.Night.Shoals[i])
	}
	v.anchor(0, 0, "")
	v.north()
	v.y = v.edge + v.height
}

// lying is the boat at the beginning of one wind.
type lying struct {
	label string
	wind  float64 // direction it comes from
	bow   float64 // distance from the anchor
}

func (p *SwingPlan) winds() []lying {
	var list []lying
	m := p.Plan.Moments
	for i, w := range p.Night.Winds {
		if i+1 < len(p.Night.Winds) && !p.Night.Winds[i+1].From.After(m[0].At) || w.From.After(m[len(m)-1].At) {
			continue // before or after the night
		}
		at := 0
		for at < len(m)-1 && m[at].At.Before(w.From) {
			at++
		}
		list = append(list, lying{
			fmt.Sprintf("%s, wind from %03.0f°", clock(m[at].At), math.Mod(w.Direction.Degrees()+360, 360)),
			w.Direction.Radians(), m[at].Circle.Bow.Metres(),
		})
	}
	return list
}

// boat draws a boat lying downwind of its anchor.
func (v *view) boat(east, north, wind, bow, length float64, hulls int) {
	sin, cos := math.Sincos(wind + math.Pi)
	place := func(along, abeam float64) svg.Point {
		return v.at(east+(bow+along)*sin-abeam*cos, north+(bow+along)*cos+abeam*sin)
	}
	v.Line("rode", v.at(east, north), place(0, 0))
	for i := range 41 {
		v.taken = append(v.taken, place(-bow*float64(i)/40, 0))
	}
	if length <= 0 {
		v.Circle("dot", place(0, 0), 0.6)
		return
	}
	b := 0.16 * length
	if hulls == 2 {
		b = 0.26 * length
	}
	for i := range 11 {
		for j := range 3 {
			v.taken = append(v.taken, place(length*float64(i)/10, b*float64(j-1)))
		}
	}
	hull := func(abeam, b float64) {
		var h svg.Path
		h.Move(place(0, abeam))
		h.Curve(place(0.25*length, abeam+b), place(0.6*length, abeam+b))
		h.Curve(place(0.85*length, abeam+b), place(length, abeam+0.7*b))
		h.Line(place(length, abeam-0.7*b))
		h.Curve(place(0.85*length, abeam-b), place(0.6*length, abeam-b))
		h.Curve(place(0.25*length, abeam-b), place(0, abeam))
		h.Close()
		v.Path("hull", &h)
	}
	if hulls != 2 {
		hull(0, b)
		return
	}
	side := 0.21 * length
	v.Polygon("hull", place(0.3*length, -side), place(0.3*length, side), place(0.85*length, side), place(0.85*length, -side))
	hull(-side, b-side)
	hull(side, b-side)
}

// anchor draws the place of an anchor.
func (v *view) anchor(east, north float64, name string) {
	p := v.at(east, north)
	const r = 1.6
	v.Line("tick", svg.Point{X: p.X - r, Y: p.Y}, svg.Point{X: p.X + r, Y: p.Y})
	v.Line("tick", svg.Point{X: p.X, Y: p.Y - r}, svg.Point{X: p.X, Y: p.Y + r})
	v.Circle("dot", p, 0.8)
	if name != "" {
		v.Text("over", svg.Point{X: p.X - 2, Y: p.Y - 1.6}, svg.Right, svg.Span{Text: name})
	}
}

func (v *view) neighbour(n *Neighbour, winds []lying) {
	sin, cos := math.Sincos(n.Bearing.Radians())
	east, north := n.Distance.Metres()*sin, n.Distance.Metres()*cos
	v.Circle("other", v.at(east, north), n.Circle.Stern.Metres()*v.mm)
	for _, w := range winds {
		v.boat(east, north, w.wind, n.Circle.Bow.Metres(), n.Swing.Stern.Metres(), 1)
	}
	v.anchor(east, north, n.Name)
}

// shoal draws a triangle at the nearest part of a shoal.
func (v *view) shoal(s *anchor.Shoal) {
	sin, cos := math.Sincos(s.Bearing.Radians())
	p := v.at(s.Distance.Metres()*sin, s.Distance.Metres()*cos)
	if p.X < margin || p.X > width-margin || p.Y < v.edge || p.Y > v.edge+v.height {
		return
	}
	v.Polygon("shoal", svg.Point{X: p.X, Y: p.Y - 1.8}, svg.Point{X: p.X + 2, Y: p.Y + 1.4}, svg.Point{X: p.X - 2, Y: p.Y + 1.4})
	text := s.Name
	if text != "" {
		text += ", "
	}
	text += v.in.rise(s.Rise) + " high"
	w := svg.TextWidth(text, small)
	// Beside it, then farther below or above: the first place that lies on nothing.
	at := svg.Point{X: p.X + 3, Y: p.Y + 1}
	if at.X+w > width-margin {
		at.X = p.X - 3 - w
	}
	places := []svg.Point{{X: p.X + 3, Y: p.Y + 1}, {X: p.X - 3 - w, Y: p.Y + 1}}
	for down := 2.4 + small; down < 15; down += small {
		for _, y := range []float64{p.Y + down, p.Y - down + small} {
			places = append(places, svg.Point{X: p.X - w/2, Y: y}, svg.Point{X: p.X, Y: y}, svg.Point{X: p.X - w, Y: y})
		}
	}
	if i := slices.IndexFunc(places, func(q svg.Point) bool { return v.clear(q, w) }); i >= 0 {
		at = places[i]
	}
	v.Text("over", at, svg.Left, svg.Span{Text: text})
}

// clear says that a line of text lies on the page, and on no boat, rode or other text.
func (v *view) clear(at svg.Point, w float64) bool {
	if at.X < margin || at.X+w > width-margin {
		return false
	}
	for _, q := range v.taken {
		if q.X > at.X-1 && q.X < at.X+w+1 && q.Y > at.Y-small && q.Y < at.Y+0.3*small {
			return false
		}
	}
	return true
}

// windArrow points from the circle's windward edge at the anchor.
func (v *view) windArrow(c *anchor.Circle, w lying, text string) {
	sin, cos := math.Sincos(w.wind)
	r := c.Stern.Metres()
	from, to := v.at(0.95*r*sin, 0.95*r*cos), v.at(0.78*r*sin, 0.78*r*cos)
	v.Line("tick", from, to)
	// The head, in the plane of the page.
	ux, uy := to.X-from.X, to.Y-from.Y
	if l := math.Hypot(ux, uy); l > 0 {
		ux, uy = ux/l, uy/l
		v.Polygon("dot", to, svg.Point{X: to.X - 2.4*ux + 1.1*uy, Y: to.Y - 2.4*uy - 1.1*ux}, svg.Point{X: to.X - 2.4*ux - 1.1*uy, Y: to.Y - 2.4*uy + 1.1*ux})
	}
	align := svg.Left
	x := to.X + 2
	if sin > 0 {
		align, x = svg.Right, to.X-2
	}
	v.Text("over", svg.Point{X: x, Y: to.Y + 0.36*small + 2.2}, align, svg.Span{Text: text})
	long := svg.TextWidth(text, small)
	for i := range 21 {
		at := x + long*float64(i)/20
		if align == svg.Right {
			at -= long
		}
		v.taken = append(v.taken, svg.Point{X: at, Y: to.Y + 2.2})
	}
}

func (v *view) north() {
	x, y := width-margin-5, v.edge+14
	v.Line("tick", svg.Point{X: x, Y: y}, svg.Point{X: x, Y: y - 10})
	v.Polygon("dot", svg.Point{X: x, Y: y - 13}, svg.Point{X: x + 1.6, Y: y - 9}, svg.Point{X: x - 1.6, Y: y - 9})
	v.Text("label", svg.Point{X: x, Y: y + 4}, svg.Centre, svg.Span{Text: "N"})
}

// scaleBar draws a bar of metres or feet to check with a ruler.
func (v *view) scaleBar() {
	v.y += 9
	unit, name := v.in.unit()
	mm := unit.Metres() * v.mm
	step := round(12 / mm)
	n := max(1, min(5, int((width-2*margin-30)/(step*mm))))
	left := margin + 20
	for i := range n {
		class := "even"
		if i%2 == 1 {
			class = "odd"
		}
		x := left + float64(i)*step*mm
		v.Rect(class, svg.Point{X: x, Y: v.y}, svg.Point{X: x + step*mm, Y: v.y + 1.6})
	}
	for i := range n + 1 {
		t := number(float64(i) * step)
		if i == n {
			t += " " + name
		}
		v.Text("small", svg.Point{X: left + float64(i)*step*mm, Y: v.y - 1.2}, svg.Centre, svg.Span{Text: t})
	}
	v.Text("label", svg.Point{X: margin, Y: v.y + 1.6}, svg.Left, svg.Span{Text: "1:" + strconv.FormatFloat(v.scale, 'f', -1, 64)})
	v.y += 2
}
