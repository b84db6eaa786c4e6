package draw

import (
	"errors"
	"fmt"
	"io"
	"math"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

// Bars is a bar chart of where the volts go on the way to a load.
type Bars struct {
	Title  string // none if empty
	Report wiring.DropReport
	Prefix string // as in Diagram; empty counts as "drop"
}

// WriteSVG writes the chart, 180 mm wide. Bars of one part each, in the order of the
// current, are to one scale; parts that gain voltage have none.
func (b Bars) WriteSVG(w io.Writer) error {
	if err := checkPrefix(b.Prefix); err != nil {
		return err
	}
	if b.Prefix == "" {
		b.Prefix = "drop"
	}
	r := b.Report
	if len(r.Parts) == 0 {
		return refuse("Report.Parts", "empty", "at least one part")
	}
	if !(r.Total.Volts() > 0) || math.IsInf(r.Total.Volts(), 0) {
		return refuse("Report.Total", r.Total, "more than 0")
	}
	const width, names, values = 180, 58, 34
	most := 0.0
	for i, p := range r.Parts {
		if v := p.Drop.Volts(); math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse(fmt.Sprintf("Report.Parts[%d].Drop", i), p.Drop, "a finite voltage")
		}
		most = math.Max(most, p.Drop.Volts())
	}
	d := svg.New(b.Prefix)
	y := float64(margin)
	for _, s := range svg.Wrap(b.Title, huge*bold, width-2*margin) {
		y += huge
		d.Text("title", svg.Point{X: margin, Y: y}, svg.Left, svg.Span{Text: s})
		y += 3
	}
	y += line
	d.Text("text", svg.Point{X: margin, Y: y}, svg.Left, svg.Span{Text: fmt.Sprintf(
		"%.2f V without current, %.2f V at the %s: %.2f V lost", r.EMF.Volts(), r.AtLoad.Volts(), r.Load, r.Total.Volts())})
	y += 3
	left := float64(margin + names)
	scale := (width - margin - values - left) / math.Max(most, 1e-12)
	top := y
	for _, p := range r.Parts {
		lines := svg.Wrap(p.Name, body, names-4)
		tall := math.Max(5.5, line*float64(len(lines))+1.5)
		middle := y + tall/2
		for i, s := range lines {
			d.Text("text", svg.Point{X: left - 2, Y: middle + 1 + line*(float64(i)-float64(len(lines)-1)/2)}, svg.Right, svg.Span{Text: s})
		}
		end := left
		if v := p.Drop.Volts(); v > 0 {
			end += v * scale
			d.Rect("bar", svg.Point{X: left, Y: middle - 1.8}, svg.Point{X: end, Y: middle + 1.8})
		}
		d.Text("text", svg.Point{X: end + 1.5, Y: middle + 1}, svg.Left, svg.Span{Text: fmt.Sprintf(
			"%.0f mV, %.1f %%", p.Drop.Millivolts(), 100*p.Drop.Per(r.Total))})
		y += tall
	}
	d.Line("wire", svg.Point{X: left, Y: top}, svg.Point{X: left, Y: y})
	title := b.Title
	if title == "" {
		title = "Where the volts go"
	}
	err := d.Write(w, svg.Page{
		Width: width, Height: y + margin, Title: title,
		Desc:    fmt.Sprintf("Bars for the drop of %d parts on the way to the %s.", len(r.Parts), r.Load),
		Classes: classes,
	})
	if errors.Is(err, svg.ErrCoordinate) {
		return refuse("Report", err, "voltages that can be drawn")
	}
	return err
}
