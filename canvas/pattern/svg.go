package pattern

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/forepeak/internal/svg"
)

const (
	sans           = "font-family:Helvetica,Arial,sans-serif;"
	ink, inkDark   = "#111", "#e8e6e1"
	page, pageDark = "#fff", "#15191e"
)

// WriteSVG writes the sheet in one piece, 1:1 in millimetres. The prefix of its
// classes and ids, a lower-case letter, then lower-case letters, digits and hyphens,
// tells it from another drawing in the same page; empty counts as "pattern".
func (s *Sheet) WriteSVG(w io.Writer, prefix string) error {
	if prefix == "" {
		prefix = "pattern"
	}
	if !svg.IsPrefix(prefix) {
		return refuse("prefix", strconv.Quote(prefix), svg.PrefixWanted)
	}
	d := svg.New(prefix)
	var used [styles]bool
	for _, m := range s.marks {
		used[m.style] = true
		if m.closed {
			d.Polygon(looks[m.style].name, m.points...)
		} else {
			d.Polyline(looks[m.style].name, m.points...)
		}
	}
	sizes := map[string]float64{}
	for _, t := range s.words {
		class := fmt.Sprintf("t%.0f", 10*t.size)
		if t.bold {
			class += "b"
		}
		sizes[class] = t.size
		d.Text(class, t.at, t.align, svg.Span{Text: t.text})
	}
	classes := []svg.Class{{Name: "paper", Style: "fill:" + page, Dark: "fill:" + pageDark}}
	for i, l := range looks {
		if !used[i] {
			continue
		}
		fill, dark := "none", ""
		if l.grey > 0 {
			fill = fmt.Sprintf("rgb(%d,%[1]d,%[1]d)", l.grey)
			dark = fmt.Sprintf("fill:rgb(%d,%[1]d,%[1]d);", l.dark)
		}
		css := fmt.Sprintf("fill:%s;stroke:%s;stroke-width:%v;stroke-linejoin:round", fill, ink, l.width)
		if len(l.dash) > 0 {
			css += ";stroke-dasharray:" + strings.Trim(fmt.Sprint(l.dash), "[]")
		}
		classes = append(classes, svg.Class{Name: l.name, Style: css, Dark: dark + "stroke:" + inkDark})
	}
	for _, name := range sorted(sizes) {
		css := fmt.Sprintf("%sfont-size:%vpx;fill:%s", sans, sizes[name], ink)
		if strings.HasSuffix(name, "b") {
			css += ";font-weight:bold"
		}
		classes = append(classes, svg.Class{Name: name, Style: css, Dark: "fill:" + inkDark})
	}
	return d.Write(w, svg.Page{
		Width: s.width, Height: s.height, Title: s.title,
		Desc:    s.desc,
		Classes: classes,
	})
}
