package draw

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

// Show is what of a circuit is drawn.
type Show string

// What is drawn.
const (
	// Power is what carries the current: all but the control circuit and leakage. Bonds are
	// drawn, even where they carry nothing until there is a fault.
	Power      Show = ""
	Control    Show = "control" // the elements marked as such
	Everything Show = "everything"
)

// Diagram is the drawing of a circuit.
type Diagram struct {
	Title   string // none if empty
	Circuit wiring.Circuit
	Show    Show
	// Solution gives the drops, currents and voltages; nil: none are shown.
	Solution *wiring.Solution
	// Imperial has the lengths of cables in feet.
	Imperial bool `json:",omitempty"`
	// Prefix begins the classes and ids of the file: a lower-case letter, then
	// lower-case letters, digits and hyphens; empty counts as "circuit". Drawings inline in
	// one page need different ones.
	Prefix string

	whole  wiring.Circuit  // with what is left out
	left   string          // what is left out, in words
	partly map[string]bool // nodes at which something ends that is left out
}

// WriteSVG writes the drawing, at most 260 mm wide: what is wider goes on in another band
// below, and wires that are parted there bear the same number at both ends.
func (g Diagram) WriteSVG(w io.Writer) error {
	if err := checkPrefix(g.Prefix); err != nil {
		return err
	}
	if g.Prefix == "" {
		g.Prefix = "circuit"
	}
	if _, err := wiring.NewSolver(g.Circuit); err != nil {
		return err // a circuit that it takes can be drawn
	}
	if g.Solution != nil && len(g.Solution.Branches) != len(g.Circuit.Elements) {
		return refuse("Solution.Branches", len(g.Solution.Branches), fmt.Sprintf("%d, one for each element", len(g.Circuit.Elements)))
	}
	if err := g.choose(); err != nil {
		return err
	}
	bands := lay(g.Circuit, g.partly, g.texts, g.label)
	d := svg.New(g.Prefix)
	width := 120.0
	for _, p := range bands {
		width = math.Max(width, p.width()+2*margin)
	}
	y := float64(margin)
	for _, s := range svg.Wrap(g.Title, huge*bold, width-2*margin) {
		y += huge
		d.Text("title", svg.Point{X: margin, Y: y}, svg.Left, svg.Span{Text: s})
		y += 3
	}
	for i, p := range bands {
		if i > 0 {
			y += between
		}
		g.draw(d, p, svg.Point{X: margin, Y: y})
		y += p.height()
	}
	y += 4
	for _, s := range svg.Wrap(g.note(len(bands) > 1), body, width-2*margin) {
		y += line
		d.Text("note", svg.Point{X: margin, Y: y}, svg.Left, svg.Span{Text: s})
	}
	title := g.Title
	if title == "" {
		title = "Circuit diagram"
	}
	err := d.Write(w, svg.Page{
		Width: width, Height: y + margin, Title: title,
		Desc:    fmt.Sprintf("A circuit of %d parts between %d nodes.", len(g.Circuit.Elements), nodes(g.Circuit)),
		Classes: classes,
	})
	if errors.Is(err, svg.ErrCoordinate) {
		return refuse("Circuit", err, "a circuit that fits on 10 km of paper")
	}
	return err
}

// choose leaves what is shown of circuit and solution.
func (g *Diagram) choose() error {
	keep := func(i int) bool { return true }
	switch g.Show {
	case Power:
		keep = func(i int) bool { return !g.Circuit.Elements[i].Control && !leaks(g.Circuit.Elements[i]) }
	case Control:
		keep = func(i int) bool { return g.Circuit.Elements[i].Control }
	case Everything:
	default:
		return refuse("Show", strconv.Quote(string(g.Show)), "empty, control or everything")
	}
	var elements []wiring.Element
	var branches []wiring.Branch
	shown, left := map[string]bool{}, map[string]bool{} // nodes
	leakage, control := false, false
	for i, e := range g.Circuit.Elements {
		if !keep(i) {
			leakage, control = leakage || leaks(e), control || e.Control
			left[e.From], left[e.To] = true, true
			continue
		}
		elements = append(elements, e)
		shown[e.From], shown[e.To] = true, true
		if g.Solution != nil {
			branches = append(branches, g.Solution.Branches[i])
		}
	}
	g.whole = g.Circuit
	g.partly = map[string]bool{}
	for n := range left {
		if shown[n] {
			g.partly[n] = true
		}
	}
	switch {
	case g.Show == Control:
		g.left = "The main circuit is not shown."
	case leakage && control:
		g.left = "The control circuit and leakage are not shown."
	case leakage:
		g.left = "Leakage is not shown."
	case control:
		g.left = "The control circuit is not shown."
	}
	if len(elements) == 0 {
		return refuse("Circuit", "without elements to show", "at least one")
	}
	g.Circuit.Elements = elements
	if g.Solution != nil {
		s := *g.Solution
		s.Branches = branches
		g.Solution = &s
	}
	return nil
}

func leaks(e wiring.Element) bool { return e.Contact != nil && e.Contact.Role == wiring.Leakage }

// reference names the node whose voltage is called 0.
func (g *Diagram) reference() string {
	if g.whole.Reference != "" {
		return g.whole.Reference
	}
	for _, e := range g.whole.Elements {
		if e.Battery != nil || e.Alternator != nil {
			return e.From
		}
	}
	return "the reference"
}

func nodes(c wiring.Circuit) int {
	seen := map[string]bool{}
	for _, e := range c.Elements {
		seen[e.From], seen[e.To] = true, true
	}
	return len(seen)
}

func (g *Diagram) note(parted bool) string {
	s := "Symbols of IEC 60617. Wires are joined where there is a dot. Small rings are lugs, heavy lines cables."
	if parted {
		s += " A wire that ends at an arrow goes on at the arrow with the same number."
	}
	if g.left != "" {
		s += " " + g.left
	}
	if len(g.partly) > 0 {
		s += " At dots in rings it is joined to what is drawn."
	}
	if g.Solution != nil {
		s += fmt.Sprintf(" Voltages of nodes are against %s; volts under a part are its drop.", g.reference())
	}
	return s
}

// draw draws the plan with its upper left corner at a place.
func (g *Diagram) draw(d *svg.Drawing, p *plan, at svg.Point) {
	for _, k := range p.columns {
		x := at.X + k.x
		if k.bottom > k.top && !k.edge {
			d.Line("wire", svg.Point{X: x, Y: at.Y + p.y(k.top)}, svg.Point{X: x, Y: at.Y + p.y(k.bottom)})
		}
	}
	for _, r := range p.rows {
		y := at.Y + p.y(r.level)
		x := at.X + p.columns[r.from].x
		for _, it := range r.items {
			e := g.Circuit.Elements[it.element]
			h := symbolWidth(e) / 2
			d.Line("wire", svg.Point{X: x, Y: y}, svg.Point{X: at.X + it.x - h, Y: y})
			symbol(d, e, svg.Point{X: at.X + it.x, Y: y}, it.turned, g.open(it.element))
			x = at.X + it.x + h
			for i, s := range it.above {
				d.Text("name", svg.Point{X: at.X + it.x, Y: y - half - 1 - line*float64(len(it.above)-1-i)}, svg.Centre, svg.Span{Text: s})
			}
			for i, s := range it.below {
				d.Text("text", svg.Point{X: at.X + it.x, Y: y + half + line*(float64(i)+0.7)}, svg.Centre, svg.Span{Text: s})
			}
		}
		d.Line("wire", svg.Point{X: x, Y: y}, svg.Point{X: at.X + p.columns[r.to].x, Y: y})
		if k := p.columns[r.from]; k.edge {
			markEdge(d, svg.Point{X: at.X + k.x, Y: y}, 1, r.mark)
		}
		if k := p.columns[r.to]; k.edge {
			markEdge(d, svg.Point{X: at.X + k.x, Y: y}, -1, r.mark)
		}
		for _, side := range []struct {
			column int
			dx     float64
			align  svg.Align
		}{{r.left, clearance, svg.Left}, {r.right, -clearance, svg.Right}} {
			if side.column < 0 {
				continue
			}
			k := p.columns[side.column]
			for i, l := range k.label {
				d.Text(l.class, svg.Point{X: at.X + k.x + side.dx, Y: y - 1.6 - line*float64(len(k.label)-1-i)}, side.align, svg.Span{Text: l.text})
			}
		}
	}
	for i, k := range p.columns {
		if k.edge || k.ends < 3 && !g.partly[k.node] {
			continue
		}
		for _, r := range p.rows {
			if r.from == i || r.to == i {
				at := svg.Point{X: at.X + k.x, Y: at.Y + p.y(r.level)}
				if g.partly[k.node] {
					d.Circle("hollow", at, 1.3)
				}
				d.Circle("dot", at, 0.7)
			}
		}
	}
}

// markEdge ends a wire at the edge of a band: an arrow and a number. inwards is 1 on the
// left and -1 on the right.
func markEdge(d *svg.Drawing, at svg.Point, inwards float64, mark int) {
	d.Polyline("wire", svg.Point{X: at.X + 2*inwards, Y: at.Y - 1.2}, at, svg.Point{X: at.X + 2*inwards, Y: at.Y + 1.2})
	d.Text("name", svg.Point{X: at.X + 5.5*inwards, Y: at.Y - 1.2}, svg.Centre, svg.Span{Text: strconv.Itoa(mark)})
}

// open says whether a contact or device stands open.
func (g *Diagram) open(i int) bool {
	e := g.Circuit.Elements[i]
	return e.Contact != nil && e.Contact.Open || g.Solution != nil && g.Solution.Branches[i].State == wiring.Off
}

// texts are what stands above and below a symbol.
func (g *Diagram) texts(i int) (above, below []string) {
	e := g.Circuit.Elements[i]
	if e.Contact != nil && e.Contact.Role == wiring.Lug {
		return nil, nil
	}
	above = svg.Wrap(e.Name, body*bold, labelRoom)
	switch {
	case e.Battery != nil:
		below = append(below, string(e.Battery.Chemistry), fmt.Sprintf("%.0f Ah", e.Battery.Capacity.AmpereHours()))
	case e.Alternator != nil:
		below = append(below, fmt.Sprintf("%.4v", e.Alternator.Voltage), fmt.Sprintf("%.3v", e.Alternator.Limit))
	case e.Cable != nil:
		size := e.Cable.Conductor.Size
		if size == "" {
			size = fmt.Sprintf("%.3g mm²", e.Cable.Conductor.Area.SquareMillimetres())
		}
		if e.Cable.Parallel > 1 {
			size = fmt.Sprintf("%d x %s", e.Cable.Parallel, size)
		}
		long := fmt.Sprintf("%.3v", e.Cable.Length)
		if g.Imperial {
			long = imperial.Feet(e.Cable.Length)
		}
		below = append(below, svg.Wrap(size+", "+long, body, labelRoom)...)
	case e.Device != nil:
		below = append(below, fmt.Sprintf("%g A", e.Device.Rating.Amperes()))
	case leaks(e):
		below = append(below, fmt.Sprintf("%.2v", e.Contact.Resistance))
	case e.Load != nil:
		switch l := e.Load; {
		case l.Resistance != 0:
			below = append(below, fmt.Sprintf("%.3v", l.Resistance))
		case l.Current != 0:
			below = append(below, fmt.Sprintf("%.3v", l.Current))
		default:
			below = append(below, fmt.Sprintf("%.3v", l.Power))
		}
	case e.Motor != nil:
		below = append(below, string(e.Motor.Type))
	}
	if g.Solution == nil {
		return above, below
	}
	b := g.Solution.Branches[i]
	switch {
	case b.State == wiring.Off:
		below = append(below, "open")
	case math.Abs(b.Current.Amperes()) >= 5e-4:
		below = append(below, fmt.Sprintf("%.3v", b.Drop.Abs()), fmt.Sprintf("%.3v", b.Current.Abs()))
	}
	return above, below
}

// labelLine is a line of what stands at a node.
type labelLine struct{ class, text string }

// label is what stands at a node.
func (g *Diagram) label(node string) []labelLine {
	var l []labelLine
	for _, s := range svg.Wrap(node, body*bold, labelRoom) {
		l = append(l, labelLine{"name", s})
	}
	if g.Solution != nil {
		if v, ok := g.Solution.Nodes[node]; ok {
			l = append(l, labelLine{"text", fmt.Sprintf("%.2f V", v.Volts())})
		}
	}
	return l
}
