package draw

import (
	"errors"
	"fmt"
	"io"
	"math"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Bow is a drawing of a snubber or bridle: in plan from above and in profile
// from port, the anchor to the left. [Bridle] and [Snubber] fill it in.
type Bow struct {
	Title  string       // none if empty
	Hulls  int          // 1 or 2; 0 counts as 1
	Height units.Length // of the fairleads above the water
	// Forward, ToPort and Below are where the ring or hook is, from the middle
	// between the fairleads.
	Forward, ToPort, Below units.Length
	Lines                  []Line       // 1 or 2
	Sheer                  units.Angle  // of the rode in plan, positive to port
	Down                   units.Angle  // of the rode below the horizontal at the ring
	Slack                  units.Length // chain in a loop from ring to roller; 0 draws none
	Depth                  units.Length // of the water, to draw the bed where it is near; 0 leaves it away
	Imperial               bool         `json:",omitempty"` // as that of Profile
	Prefix                 string       // as that of Profile; empty counts as "bow"
}

// Line is one line from the ring to a fairlead.
type Line struct {
	Name    string       // such as "port leg"
	ToPort  units.Length // of its fairlead from the middle
	Tension units.Force
	Slack   units.Length // by which it is longer than the distance; 0 if taut
}

// Bridle is the drawing of a bridle as it hangs, with a length of slack chain.
func Bridle(b rode.Bridle, h rode.BridleHang, s rode.Site, slack units.Length, hulls int) Bow {
	half := b.Spread.Scale(0.5)
	return Bow{
		Hulls: hulls, Height: s.Roller, Depth: s.Depth,
		Forward: h.Bridle.Forward, ToPort: h.Bridle.ToPort, Below: h.Bridle.Below,
		Lines: []Line{
			{"port leg", half, h.Bridle.Port.Tension, h.Bridle.Port.Slack},
			{"starboard leg", -half, h.Bridle.Starboard.Tension, h.Bridle.Starboard.Slack},
		},
		Sheer: h.Bridle.Sheer, Down: h.Rode.BowAngle, Slack: slack,
	}
}

// Snubber is the drawing of a one-line snubber, the last piece of a state's rode,
// with a length of slack chain. A state of one piece gives a Bow that WriteSVG refuses.
func Snubber(st rode.State, s rode.Site, slack units.Length) Bow {
	if len(st.Pieces) < 2 || len(st.Joints) == 0 {
		return Bow{}
	}
	hook := st.Joints[len(st.Joints)-1].Position
	below := st.Pieces[len(st.Pieces)-2]
	b := Bow{
		Hulls: 1, Height: s.Roller, Depth: s.Depth, Slack: slack,
		Forward: st.Distance - hook.X, Below: s.Rise() - hook.Z,
		Lines: []Line{{Name: "snubber", Tension: st.Tension}},
	}
	for _, p := range st.Parts { // the rode's direction where it meets the hook
		if p.Piece == len(st.Pieces)-2 && !p.OnBed && below.TensionUpper > 0 {
			b.Down = units.Angle(math.Atan2(float64(p.VerticalUpper), float64(p.Horizontal)))
		}
	}
	return b
}

func (b *Bow) check() error {
	for _, q := range []struct {
		field  string
		value  float64
		lo, hi float64
	}{
		{"Height", float64(b.Height), -20, 50},
		{"Forward", float64(b.Forward), 0.1, 300},
		{"ToPort", float64(b.ToPort), -300, 300},
		{"Below", float64(b.Below), -50, 300},
		{"Sheer", float64(b.Sheer), -math.Pi / 2, math.Pi / 2},
		{"Down", float64(b.Down), -math.Pi / 2, math.Pi / 2},
		{"Slack", float64(b.Slack), 0, 1000},
		{"Depth", float64(b.Depth), 0, 12000},
		{"Hulls", float64(b.Hulls), 0, 2},
		{"Lines", float64(len(b.Lines)), 1, 2},
	} {
		if !(q.value >= q.lo && q.value <= q.hi) {
			return refuse(rode.ErrInput, q.field, q.value, fmt.Sprintf("from %.3g to %.3g", q.lo, q.hi))
		}
	}
	for i, l := range b.Lines {
		if !(l.ToPort.Abs() <= 50) {
			return refuse(rode.ErrInput, fmt.Sprintf("Lines[%d].ToPort", i), l.ToPort, "at most 50 m either way")
		}
		if !(l.Tension >= 0) || math.IsInf(float64(l.Tension), 0) || !(l.Slack >= 0) {
			return refuse(rode.ErrInput, fmt.Sprintf("Lines[%d].Tension", i), l.Tension, "0 or more and finite, as its Slack")
		}
	}
	return checkPrefix(b.Prefix)
}

// bow is the page and where on it things are.
type bow struct {
	*sheet
	*Bow
	origin float64 // X of the fairleads
	level  float64 // Y of the centreline in plan, of the water in profile
	loop   []rode.Position
}

// Sizes in metres of what is only sketched.
const (
	aftOf   = 0.45 // of Forward: what is drawn of the boat
	aheadOf = 0.3  // of Forward: what is drawn of the rode
)

// WriteSVG writes the drawing, at the largest round scale at which it fits a
// page 180 mm wide.
func (b Bow) WriteSVG(w io.Writer) error {
	if err := b.check(); err != nil {
		return err
	}
	if b.Prefix == "" {
		b.Prefix = "bow"
	}
	d := bow{sheet: &sheet{Drawing: svg.New(b.Prefix), in: ruler{b.Imperial}, y: margin, width: minWidth, anchor: margin + 24}, Bow: &b}
	d.loop = b.hang()
	wide := float64(b.Forward) * (1 + aftOf + aheadOf)
	d.scale = d.in.scale(func(mm float64) bool {
		return wide*mm <= d.inner() && (d.halfPlan()*2)*mm <= maxStrip && (d.above()+d.below())*mm <= maxStrip
	})
	if d.scale > maxScale {
		return refuse(rode.ErrInput, "Forward", b.Forward, "what fits a page")
	}
	d.mm = 1000 / d.scale
	d.origin = d.right() - float64(b.Forward)*aftOf*d.mm
	d.lines("title", huge, svg.Wrap(b.Title, bold*huge, d.inner()))
	d.plan()
	d.profile()
	d.scaleBar()
	d.lines("note", small, svg.Wrap("Hulls and symbols are sketches; fairleads, lines, ring and slack chain are to scale, under a steady pull. "+
		"The rode is drawn as a straight line from the ring on. Gusts, sheering and waves load a line to a multiple of it. "+
		"Keep out of the line of a loaded rope and of the bight of a bridle: it snaps back.", small, d.inner()))
	err := d.Drawing.Write(w, svg.Page{
		Width: d.width, Height: d.y + margin, Title: b.title(), Desc: b.describe(), Classes: bowClasses,
	})
	if errors.Is(err, svg.ErrCoordinate) {
		return refuse(rode.ErrInput, "Forward", b.Forward, "sizes that can be drawn")
	}
	return err
}

// bowClasses adds the style of a line that is slack.
var bowClasses = append(append([]svg.Class(nil), classes...),
	svg.Class{Name: "slack", Style: "fill:none;stroke:" + ropeInk + ";stroke-width:.5;stroke-dasharray:2 1.2", Dark: "stroke:" + ropeDark})

func (b *Bow) title() string {
	if b.Title != "" {
		return b.Title
	}
	return "The bow from above and from the side"
}

func (b *Bow) describe() string {
	s := ""
	for _, l := range b.Lines {
		s += b.says(l) + "; "
	}
	return s + b.ringSays()
}

func (b *Bow) says(l Line) string {
	if l.Slack > 0 {
		return l.Name + " slack by " + ruler{b.Imperial}.length(l.Slack)
	}
	return l.Name + " " + ruler{b.Imperial}.force(l.Tension)
}

func (b *Bow) ringSays() string {
	in, name, h := ruler{b.Imperial}, "ring", b.Height-b.Below
	if len(b.Lines) == 1 {
		name = "hook"
	}
	if h < 0 {
		return name + " " + in.length(-h) + " below the water"
	}
	return name + " " + in.length(h) + " above the water"
}

func (b *Bow) hulls() int { return max(b.Hulls, 1) }

// halfPlan is half the width of the plan, in metres.
func (b *Bow) halfPlan() float64 {
	w := 1.0
	for _, l := range b.Lines {
		w = math.Max(w, math.Abs(float64(l.ToPort))+0.9)
	}
	end := float64(b.ToPort) + aheadOf*float64(b.Forward)*math.Tan(math.Min(math.Abs(float64(b.Sheer)), 1.2))*math.Copysign(1, float64(b.Sheer))
	return math.Max(w, math.Max(math.Abs(end), math.Abs(float64(b.ToPort)))+0.4)
}

// above and below are how far the profile reaches from the water.
func (b *Bow) above() float64 {
	return math.Max(0.3, math.Max(float64(b.Height), float64(b.Height-b.Below))+0.5)
}

func (d *bow) below() float64 {
	ring := float64(d.Height - d.Below)
	low := math.Max(0.8, -ring+0.6)
	low = math.Max(low, aheadOf*float64(d.Forward)*math.Tan(math.Min(float64(d.Down), 1.2))-ring)
	for _, p := range d.loop {
		low = math.Max(low, -float64(p.Z)+0.4)
	}
	if d.Depth > 0 {
		low = math.Min(low, float64(d.Depth)) // the bed ends it
	}
	return low
}

// hang is the slack chain from ring to roller: X ahead of the fairleads, Z above
// the water. A chain that would be taut is left away; one that would hang below the
// bed lies on it.
func (b *Bow) hang() []rode.Position {
	across := math.Hypot(float64(b.Forward), float64(b.ToPort))
	k := rode.SlackChain{Length: b.Slack, Apart: units.Length(across), Above: b.Below, Weight: 1}
	l, err := k.Hang()
	if err != nil {
		return nil
	}
	ring := float64(b.Depth + b.Height - b.Below) // above the bed
	if b.Depth > 0 && ring >= 0 && float64(l.Below) > ring {
		return b.lie(across, ring)
	}
	a, h0 := float64(l.Horizontal), float64(l.AtHook)
	var ps []rode.Position
	const n = 60
	for i := range n + 1 {
		u := (float64(k.Length)*float64(i)/n - h0) / a
		v := h0 / a
		x := a * (math.Asinh(u) + math.Asinh(v))
		z := a * (math.Hypot(1, u) - math.Hypot(1, v))
		ps = append(ps, rode.Position{
			X: b.Forward.Scale(1 - x/across), Z: b.Height - b.Below + units.Length(z),
		})
	}
	return ps
}

// lie is the slack chain when a part of it lies straight on the bed: an arm rises from
// there to the ring and another to the roller, both with the same horizontal force, a
// times the weight of a metre. An arm of a height h is sqrt(h² + 2 a h) long.
func (b *Bow) lie(across, ring float64) []rode.Position {
	roller := float64(b.Depth + b.Height)
	arm := func(h, a float64) (long, reach float64) {
		long = math.Sqrt(h * (h + 2*a))
		return long, a * math.Asinh(long/a)
	}
	spare := float64(b.Slack) - across // that the arms take up by being steep
	steep := func(a float64) float64 {
		s1, x1 := arm(ring, a)
		s2, x2 := arm(roller, a)
		return s1 - x1 + s2 - x2
	}
	lo, hi := 1e-6*roller, roller
	for range 60 {
		if steep(hi) <= spare {
			break
		}
		lo, hi = hi, 2*hi
	}
	for range 60 { // what a chain has to spare beyond two upright arms lies in a heap
		if mid := (lo + hi) / 2; steep(mid) > spare {
			lo = mid
		} else {
			hi = mid
		}
	}
	a := lo
	_, x1 := arm(ring, a)
	_, x2 := arm(roller, a)
	var ps []rode.Position
	const n = 30
	rise := func(h, x float64) float64 { // at a distance from where it leaves the bed
		return math.Min(h, 2*a*math.Pow(math.Sinh(x/(2*a)), 2))
	}
	add := func(x, z float64) {
		ps = append(ps, rode.Position{X: b.Forward.Scale(1 - x/across), Z: units.Length(z) - b.Depth})
	}
	for i := range n + 1 {
		left := float64(n-i) / n
		add(x1*(1-left), rise(ring, x1*left))
	}
	for i := range n + 1 {
		up := float64(i) / n
		add(across-x2*(1-up), rise(roller, x2*up))
	}
	return ps
}

// at is the place on the page of a point ahead of the fairleads, and down the
// page: to port in plan, down in profile.
func (d *bow) at(ahead, down float64) svg.Point {
	return svg.Point{X: d.origin - ahead*d.mm, Y: d.level + down*d.mm}
}

func (d *bow) heading(text string) {
	d.y += 4
	d.Line("rule", svg.Point{X: margin, Y: d.y}, svg.Point{X: d.right(), Y: d.y})
	d.sheet.lines("label", large, []string{text})
}

func (d *bow) plan() {
	d.heading("From above")
	says := ""
	for i, l := range d.Lines {
		if i > 0 {
			says += ", "
		}
		says += d.says(l)
	}
	d.sheet.lines("medium", medium, svg.Wrap(says+"; rode "+d.leads(), medium, d.inner()))
	half := d.halfPlan()
	d.level = d.y + 3 + half*d.mm
	d.y = d.level + half*d.mm

	d.Begin("plan")
	d.hullsFromAbove()
	ahead, port := float64(d.Forward), float64(d.ToPort)
	ring := d.at(ahead, port)
	far := aheadOf * ahead
	d.chainTo(ring, d.at(ahead+far, port+far*math.Tan(math.Max(-1.2, math.Min(1.2, float64(d.Sheer))))))
	for _, l := range d.Lines {
		from := d.at(0, float64(l.ToPort))
		d.line(l, ring, from)
		d.Circle("roller", from, 0.8)
		text := svg.Point{X: from.X + 2, Y: from.Y + 0.36*small}
		if d.hulls() == 1 && l.ToPort != 0 { // clear of the hull's side
			text.Y -= math.Copysign(0.9*small, float64(l.ToPort))
		}
		d.Text("small", text, svg.Left, svg.Span{Text: l.Name})
	}
	d.Circle("joint", ring, 1)
	d.End()
}

// leads is where the rode leads to, in words.
func (b *Bow) leads() string {
	switch deg := math.Round(b.Sheer.Degrees()); {
	case deg > 0:
		return fmt.Sprintf("%.0f° to port", deg)
	case deg < 0:
		return fmt.Sprintf("%.0f° to starboard", -deg)
	}
	return "straight ahead"
}

// line draws a line, taut or slack.
func (d *bow) line(l Line, a, b svg.Point) {
	class := "rope"
	if l.Slack > 0 {
		class = "slack"
	}
	d.Line(class, a, b)
}

func (d *bow) chainTo(a, b svg.Point) {
	d.Polyline("chain", a, b)
	d.Polyline("links", a, b)
}

// hullsFromAbove sketches one bow through the fairleads, or one round each.
func (d *bow) hullsFromAbove() {
	aft := -aftOf * float64(d.Forward)
	outer := 0.0
	for _, l := range d.Lines {
		outer = math.Max(outer, math.Abs(float64(l.ToPort)))
	}
	switch {
	case d.hulls() == 2:
		for _, y := range []float64{-outer, outer} {
			d.hullFromAbove(y, 0.5, 0.7, 0.7, aft)
		}
		d.Polygon("hull", d.at(aft*0.7, -outer), d.at(aft*0.7, outer), d.at(aft*0.85, outer), d.at(aft*0.85, -outer))
	case outer == 0:
		d.hullFromAbove(0, 0, 0.8, 0.8, aft)
	default:
		d.hullFromAbove(0, math.Min(1.4*outer, 0.6*float64(d.Forward)), outer*1.25, outer, aft)
	}
}

// hullFromAbove is a bow about a line: where its stem is, and its half widths aft
// and at the fairleads.
func (d *bow) hullFromAbove(y, stem, wide, half, aft float64) {
	var p svg.Path
	p.Move(d.at(aft, y-wide))
	p.Line(d.at(aft*0.7, y-wide))
	if half < wide { // through the fairleads
		p.Curve(d.at(aft*0.3, y-wide), d.at(0, y-half))
		p.Curve(d.at(stem*0.6, y-half*0.55), d.at(stem, y))
		p.Curve(d.at(stem*0.6, y+half*0.55), d.at(0, y+half))
		p.Curve(d.at(aft*0.3, y+wide), d.at(aft*0.7, y+wide))
	} else {
		p.Curve(d.at(stem*0.3, y-wide*0.9), d.at(stem, y))
		p.Curve(d.at(stem*0.3, y+wide*0.9), d.at(aft*0.7, y+wide))
	}
	p.Line(d.at(aft, y+wide))
	(&frame{sheet: d.sheet}).breakLine(&p, d.at(aft, y+wide), d.at(aft, y-wide))
	p.Close()
	d.Path("hull", &p)
}

func (d *bow) profile() {
	d.heading("From port")
	d.sheet.lines("medium", medium, svg.Wrap(d.ringSays(), medium, d.inner()))
	d.level = d.y + 3 + d.above()*d.mm
	bottom := d.below()
	d.y = d.level + bottom*d.mm

	d.Begin("profile")
	left, right := margin, d.right()
	d.Rect("water", svg.Point{X: left, Y: d.level}, svg.Point{X: right, Y: d.y})
	height, aft := float64(d.Height), -aftOf*float64(d.Forward)
	deck := math.Max(height, 0.6)
	var p svg.Path
	p.Move(d.at(aft, -deck))
	p.Line(d.at(0, -deck))
	p.Curve(d.at(-0.15*deck, 0), d.at(-0.5*deck, 0.35))
	p.Line(d.at(aft, 0.4))
	(&frame{sheet: d.sheet}).breakLine(&p, d.at(aft, 0.4), d.at(aft, -deck))
	p.Close()
	d.Path("hull", &p)
	d.Line("surface", svg.Point{X: left, Y: d.level}, svg.Point{X: right, Y: d.level})
	if d.Depth > 0 && float64(d.Depth) <= bottom+1e-9 {
		d.Line("bed", svg.Point{X: left, Y: d.y}, svg.Point{X: right, Y: d.y})
	}
	if len(d.loop) > 0 {
		var ps []svg.Point
		for _, q := range d.loop {
			ps = append(ps, d.at(float64(q.X), -float64(q.Z)))
		}
		d.Polyline("chain", ps...)
		d.Polyline("links", ps...)
	}
	ahead, up := float64(d.Forward), float64(d.Height-d.Below)
	ring, far := d.at(ahead, -up), aheadOf*float64(d.Forward)
	d.chainTo(ring, d.at(ahead+far, -up+math.Min(far*math.Tan(math.Min(float64(d.Down), 1.2)), bottom+up)))
	for _, l := range d.Lines {
		d.line(l, ring, d.at(0, -height))
	}
	d.Circle("roller", d.at(0, -height), 0.8)
	d.Circle("joint", ring, 1)
	d.End()
}
