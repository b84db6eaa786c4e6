package draw

import "example.com/forepeak/internal/svg"

const (
	sans = "font-family:Helvetica,Arial,sans-serif;"
	// Inks and papers, by day and on a dark screen.
	ink, inkDark     = "#1c1c1c", "#e8e6e1"
	muted, mutedDark = "#5a5a5a", "#a8adb3"
	paper, paperDark = "#fff", "#15191e"
	blue, blueDark   = "#2f6f9f", "#6fb1e0"
	rust, rustDark   = "#a8430a", "#f0a165"
)

var classes = []svg.Class{
	{Name: "paper", Style: "fill:" + paper, Dark: "fill:" + paperDark},
	{Name: "title", Style: sans + "font-size:5px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "label", Style: sans + "font-size:3.4px;font-weight:bold;fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "small", Style: sans + "font-size:2.8px;fill:" + ink, Dark: "fill:" + inkDark},
	// Text over lines has a rim of paper.
	{Name: "over", Style: sans + "font-size:2.8px;fill:" + ink + ";stroke:" + paper + ";stroke-width:.9px;stroke-linejoin:round;paint-order:stroke", Dark: "fill:" + inkDark + ";stroke:" + paperDark},
	{Name: "note", Style: sans + "font-size:2.8px;fill:" + muted, Dark: "fill:" + mutedDark},
	{Name: "axis", Style: "fill:none;stroke:" + ink + ";stroke-width:.3", Dark: "stroke:" + inkDark},
	{Name: "grid", Style: "fill:none;stroke:#cfcfcf;stroke-width:.15", Dark: "stroke:#3a4148"},
	{Name: "mark", Style: "fill:none;stroke:" + muted + ";stroke-width:.25;stroke-dasharray:1 1", Dark: "stroke:" + mutedDark},
	{Name: "water", Style: "fill:#e4f0f8", Dark: "fill:#17303f"},
	{Name: "surface", Style: "fill:none;stroke:" + blue + ";stroke-width:.6;stroke-linejoin:round", Dark: "stroke:" + blueDark},
	{Name: "ground", Style: "fill:#efe7d6", Dark: "fill:#332c20"},
	{Name: "bed", Style: "fill:none;stroke:#6d5c38;stroke-width:.35", Dark: "stroke:#c2ad80"},
	{Name: "keel", Style: "fill:none;stroke:" + ink + ";stroke-width:.5;stroke-linejoin:round", Dark: "stroke:" + inkDark},
	{Name: "trough", Style: "fill:none;stroke:" + ink + ";stroke-width:.35;stroke-linejoin:round;stroke-dasharray:1.6 1", Dark: "stroke:" + inkDark},
	{Name: "curve", Style: "fill:none;stroke:" + ink + ";stroke-width:.6;stroke-linejoin:round", Dark: "stroke:" + inkDark},
	{Name: "tension", Style: "fill:none;stroke:" + rust + ";stroke-width:.6;stroke-linejoin:round", Dark: "stroke:" + rustDark},
	{Name: "pull", Style: "fill:none;stroke:" + ink + ";stroke-width:.45;stroke-linejoin:round;stroke-dasharray:2.4 1.2", Dark: "stroke:" + inkDark},
	{Name: "dot", Style: "fill:" + ink, Dark: "fill:" + inkDark},
	{Name: "tick", Style: "stroke:" + ink + ";stroke-width:.35", Dark: "stroke:" + inkDark},
	{Name: "swing", Style: "fill:#e4f0f8;stroke:" + blue + ";stroke-width:.6", Dark: "fill:#17303f;stroke:" + blueDark},
	{Name: "other", Style: "fill:none;stroke:" + blue + ";stroke-width:.4;stroke-dasharray:3 1.2", Dark: "stroke:" + blueDark},
	{Name: "antenna", Style: "fill:none;stroke:" + blue + ";stroke-width:.3;stroke-dasharray:.6 1", Dark: "stroke:" + blueDark},
	{Name: "alarm", Style: "fill:none;stroke:" + rust + ";stroke-width:.6;stroke-dasharray:4 1.2 .8 1.2", Dark: "stroke:" + rustDark},
	{Name: "hull", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.4;stroke-linejoin:round", Dark: "fill:#262c33;stroke:" + inkDark},
	{Name: "rode", Style: "stroke:" + ink + ";stroke-width:.35", Dark: "stroke:" + inkDark},
	{Name: "shoal", Style: "fill:#efe7d6;stroke:#6d5c38;stroke-width:.4", Dark: "fill:#332c20;stroke:#c2ad80"},
	{Name: "even", Style: "fill:" + ink + ";stroke:" + ink + ";stroke-width:.2", Dark: "fill:" + inkDark + ";stroke:" + inkDark},
	{Name: "odd", Style: "fill:" + paper + ";stroke:" + ink + ";stroke-width:.2", Dark: "fill:" + paperDark + ";stroke:" + inkDark},
}
