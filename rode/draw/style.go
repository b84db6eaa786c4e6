package draw

import "example.com/forepeak/internal/svg"

const (
	sans = "font-family:Helvetica,Arial,sans-serif;"
	// Inks and papers, by day and on a dark screen.
	ink, inkDark       = "#1c1c1c", "#e8e6e1"
	muted, mutedDark   = "#5a5a5a", "#a8adb3"
	paper, paperDark   = "#fff", "#15191e"
	ropeInk, ropeDark  = "#a8430a", "#f0a165"
	waterInk, waterInD = "#2f6f9f", "#6fb1e0"
)

// classes is how everything looks. Chain and rope differ in form too, so that
// nothing depends on colour.
var classes = []svg.Class{
	{Name: "paper", Style: "fill:" + paper, Dark: "fill:" + paperDark},
	{Name: "title", Style: sans + "font-size:5px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "label", Style: sans + "font-size:3.8px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "scale", Style: sans + "font-size:3.8px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "medium", Style: sans + "font-size:3px;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "small", Style: sans + "font-size:2.8px;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "note", Style: sans + "font-size:2.8px;fill:" + muted, Dark: "fill:" + mutedDark},
	{Name: "muted", Style: "fill:" + muted, Dark: "fill:" + mutedDark},
	{Name: "rule", Style: "stroke:#b4b4b4;stroke-width:.2", Dark: "stroke:#4a5159"},
	{Name: "water", Style: "fill:#e4f0f8", Dark: "fill:#17303f"},
	{Name: "surface", Style: "stroke:" + waterInk + ";stroke-width:.35", Dark: "stroke:" + waterInD},
	{Name: "level", Style: "fill:none;stroke:" + waterInk + ";stroke-width:.25", Dark: "stroke:" + waterInD},
	{Name: "ground", Style: "fill:#efe7d6", Dark: "fill:#332c20"},
	{Name: "hatch", Style: "fill:none;stroke:#8b7a55;stroke-width:.2", Dark: "stroke:#96855f"},
	{Name: "bed", Style: "stroke:#6d5c38;stroke-width:.35", Dark: "stroke:#c2ad80"},
	{Name: "thin", Style: "stroke:" + muted + ";stroke-width:.18", Dark: "stroke:" + mutedDark},
	{Name: "tick", Style: "stroke:" + ink + ";stroke-width:.35", Dark: "stroke:" + inkDark},
	{Name: "hull", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.4;stroke-linejoin:round", Dark: "fill:#262c33;stroke:" + inkDark},
	{Name: "roller", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.4", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
	{Name: "shank", Style: "fill:none;stroke:" + ink + ";stroke-width:.8", Dark: "stroke:" + inkDark},
	{Name: "fluke", Style: "fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "chain", Style: "fill:none;stroke:" + ink + ";stroke-width:.4;stroke-linejoin:round", Dark: "stroke:" + inkDark},
	{Name: "links", Style: "fill:none;stroke:" + ink + ";stroke-width:1.1;stroke-linecap:round;stroke-linejoin:round;stroke-dasharray:.9 1.9", Dark: "stroke:" + inkDark},
	{Name: "rope", Style: "fill:none;stroke:" + ropeInk + ";stroke-width:.7;stroke-linejoin:round", Dark: "stroke:" + ropeDark},
	{Name: "joint", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.4", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
	{Name: "kellet", Style: "fill:" + ink + ";stroke:" + paper + ";stroke-width:.2", Dark: "fill:" + inkDark + ";stroke:" + paperDark},
	{Name: "buoy", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.4", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
	{Name: "belt", Style: "stroke:" + ink + ";stroke-width:.4", Dark: "stroke:" + inkDark},
	{Name: "lying", Style: "stroke:" + ink + ";stroke-width:.3", Dark: "stroke:" + inkDark},
	{Name: "even", Style: "fill:" + ink + ";stroke:" + ink + ";stroke-width:.2", Dark: "fill:" + inkDark + ";stroke:" + inkDark},
	{Name: "odd", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.2", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
}
