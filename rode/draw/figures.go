package draw

import (
	"fmt"
	"strings"

	"example.com/forepeak/internal/svg"
)

// figure is one figure of a view and what it is.
type figure struct{ name, value string }

// figures are those printed above a picture.
func (v *View) figures(in ruler) []figure {
	st := &v.State
	return []figure{
		{"pull", in.force(st.Pull)},
		{"bow tension", in.force(st.Tension)},
		{"anchor angle", fmt.Sprintf("%.1f°", st.Anchor.FromBed.Degrees())},
		{"on the bed", in.rough(st.OnBed)},
		{"out", in.length(st.Out)},
		{"scope", fmt.Sprintf("%.1f", st.Scope)},
	}
}

// columns are the widths of the figures, alike in all views.
func (r ruler) columns(views []View) []float64 {
	var widths []float64
	for i := range views {
		for j, f := range views[i].figures(r) {
			if j == len(widths) {
				widths = append(widths, 0)
			}
			widths[j] = max(widths[j], svg.TextWidth(f.name+" "+f.value, medium))
		}
	}
	return widths
}

// spread sets the columns apart as far as the page allows.
func (s *sheet) spread(columns []float64) []float64 {
	room := s.inner() - 1
	for _, w := range columns {
		room -= w
	}
	gap := min(max(room/float64(len(columns)-1), 4), 10)
	for i := range columns {
		columns[i] += gap
	}
	return columns
}

// noBreak is a space that is not dropped at the edge of a span.
const noBreak = "\u00a0"

// figures writes them in columns, in as many lines as it takes.
func (s *sheet) figures(v *View) {
	x := margin
	s.y += 1.7 * medium
	for i, f := range v.figures(s.in) {
		if x > margin && x+svg.TextWidth(f.name+" "+f.value, medium) > s.right() {
			x = margin
			s.y += 1.4 * medium
		}
		s.Text("medium", svg.Point{X: x, Y: s.y}, svg.Left, svg.Span{Class: "muted", Text: f.name}, svg.Span{Text: noBreak + f.value})
		x += s.columns[i]
	}
}

func (p *Profile) title() string {
	if p.Title != "" {
		return p.Title
	}
	return "Rode from anchor to bow"
}

// describe says what the drawing shows, for those who do not see it.
func (p *Profile) describe() string {
	var b strings.Builder
	in := ruler{p.Imperial}
	b.WriteString("Rode from the side, to scale, from the anchor on the left to the bow on the right.")
	for i := range p.Views {
		v := &p.Views[i]
		label := v.Label
		if label == "" {
			label = fmt.Sprintf("Picture %d", i+1)
		}
		fmt.Fprintf(&b, " %s: depth %s, roller %s above the water", label, in.length(v.Site.Depth), in.length(v.Site.Roller))
		for _, f := range v.figures(in) {
			b.WriteString(", " + f.name + " " + f.value)
		}
		b.WriteString(".")
	}
	return b.String()
}
