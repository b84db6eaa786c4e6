package draw

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

// Diagram is the drawing of a circuit.
type Diagram struct {
	Title   string // none if empty
	Circuit wiring.Circuit
	// Solution gives the drops, currents and voltages; nil: none are shown.
	Solution *wiring.Solution
	// Prefix begins the classes and ids of the file: a lower-case letter, then
	// lower-case letters, digits and hyphens; empty counts as "circuit". Drawings inline in
	// one page need different ones.
	Prefix string
}

// WriteSVG writes the drawing. The page is as large as the circuit asks for.
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
	p := lay(g.Circuit, g.texts, g.label)
	d := svg.New(g.Prefix)
	width := math.Max(p.columns[len(p.columns)-1].x+2*margin, 120)
	y := float64(margin)
	for _, s := range svg.Wrap(g.Title, huge*bold, width-2*margin) {
		y += huge
		d.Text("title", svg.Point{X: margin, Y: y}, svg.Left, svg.Span{Text: s})
		y += 3
	}
	g.draw(d, p, svg.Point{X: margin, Y: y})
	y += float64(p.levels) * pitch
	for _, s := range svg.Wrap(g.note(), body, width-2*margin) {
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

func nodes(c wiring.Circuit) int {
	seen := map[string]bool{}
	for _, e := range c.Elements {
		seen[e.From], seen[e.To] = true, true
	}
	return len(seen)
}

func (g *Diagram) note() string {
	s := "Symbols of IEC 60617. Wires are joined where there is a dot. Small rings are lugs, heavy lines cables."
	if g.Solution != nil {
		s += " Voltages of nodes are against the reference; volts under a part are its drop."
	}
	return s
}

// draw draws the plan with its upper left corner at a place.
func (g *Diagram) draw(d *svg.Drawing, p *plan, at svg.Point) {
	for _, k := range p.columns {
		x := at.X + k.x
		if k.bottom > k.top {
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
		for _, side := range []struct {
			column int
			dx     float64
			align  svg.Align
		}{{r.left, clearance, svg.Left}, {r.right, -clearance, svg.Right}} {
			if side.column < 0 {
				continue
			}
			k := p.columns[side.column]
			for i, s := range k.label {
				class := "name"
				if i > 0 {
					class = "text"
				}
				d.Text(class, svg.Point{X: at.X + k.x + side.dx, Y: y - 1.6 - line*float64(len(k.label)-1-i)}, side.align, svg.Span{Text: s})
			}
		}
	}
	for i, k := range p.columns {
		if k.ends < 3 {
			continue
		}
		for _, r := range p.rows {
			if r.from == i || r.to == i {
				d.Circle("dot", svg.Point{X: at.X + k.x, Y: at.Y + p.y(r.level)}, 0.7)
			}
		}
	}
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
	above = svg.Wrap(e.Name, body*bold, 28)
	if len(above) > 2 {
		above = []string{above[0], above[1] + "…"}
	}
	switch {
	case e.Battery != nil:
		below = append(below, string(e.Battery.Chemistry), fmt.Sprintf("%.0f Ah", e.Battery.Capacity.AmpereHours()))
	case e.Alternator != nil:
		below = append(below, fmt.Sprintf("%.4v, %.3v", e.Alternator.Voltage, e.Alternator.Limit))
	case e.Cable != nil:
		size := e.Cable.Conductor.Size
		if size == "" {
			size = fmt.Sprintf("%.3g mm²", e.Cable.Conductor.Area.SquareMillimetres())
		}
		if e.Cable.Parallel > 1 {
			size = fmt.Sprintf("%d x %s", e.Cable.Parallel, size)
		}
		below = append(below, fmt.Sprintf("%s, %.3v", size, e.Cable.Length))
	case e.Device != nil:
		below = append(below, fmt.Sprintf("%g A", e.Device.Rating.Amperes()))
	case e.Contact != nil:
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
		below = append(below, fmt.Sprintf("%.3v, %.3v", b.Drop.Abs(), b.Current.Abs()))
	}
	return above, below
}

// label is what stands at a node.
func (g *Diagram) label(node string) []string {
	l := []string{node}
	if g.Solution != nil {
		if v, ok := g.Solution.Nodes[node]; ok {
			l = append(l, fmt.Sprintf("%.2f V", v.Volts()))
		}
	}
	return slices.Clip(l)
}
