package draw

import (
	"strconv"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

const (
	sans = "font-family:Helvetica,Arial,sans-serif;"
	// Inks and papers, by day and on a dark screen.
	ink, inkDark     = "#1c1c1c", "#e8e6e1"
	muted, mutedDark = "#5a5a5a", "#a8adb3"
	paper, paperDark = "#fff", "#15191e"
)

// Sizes in millimetres.
const (
	margin = 8
	huge   = 5
	body   = 2.8
	line   = 3.6 // from base line to base line
	bold   = 1.1 // a bold text is so much wider
)

var classes = []svg.Class{
	{Name: "paper", Style: "fill:" + paper, Dark: "fill:" + paperDark},
	{Name: "title", Style: sans + "font-size:5px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "name", Style: sans + "font-size:2.8px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "text", Style: sans + "font-size:2.8px;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "note", Style: sans + "font-size:2.8px;fill:" + muted, Dark: "fill:" + mutedDark},
	{Name: "letter", Style: sans + "font-size:4.5px;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "wire", Style: "fill:none;stroke:" + ink + ";stroke-width:.35;stroke-linecap:round", Dark: "stroke:" + inkDark},
	{Name: "cable", Style: "fill:none;stroke:" + ink + ";stroke-width:1.3", Dark: "stroke:" + inkDark},
	{Name: "thick", Style: "fill:none;stroke:" + ink + ";stroke-width:.9", Dark: "stroke:" + inkDark},
	{Name: "hollow", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.35", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
	{Name: "dashed", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.35;stroke-dasharray:1 .7", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
	{Name: "dot", Style: "fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "bar", Style: "fill:#3f7ca8", Dark: "fill:#5fa3d3"},
	{Name: "rule", Style: "stroke:#b4b4b4;stroke-width:.2", Dark: "stroke:#4a5159"},
}

func refuse(field string, value any, want string) error {
	return &wiring.Error{Field: field, Value: accept.Show(value), Want: want, Err: wiring.ErrInput}
}

func checkPrefix(p string) error {
	if p != "" && !svg.IsPrefix(p) {
		return refuse("Prefix", strconv.Quote(p), svg.PrefixWanted)
	}
	return nil
}
