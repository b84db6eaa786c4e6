package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// A boat whose length is written in feet gets her answers in feet, inches, pounds
// and gauges, on the page too, and others in metric units.
func TestFamily(t *testing.T) {
	d := demo(t, "curlew")
	d.says(t, "Wire the windlass with 1/0 AWG cable, 31.0 ft one way", "In 20.0 ft at low water let out 130 ft in 15 kn, 130 ft in 25 kn, 157 ft in 35 kn",
		"copper at 140 °F", "hose of 1 in inside", "BBB 5/16 in G30 chain 130.0 1.15 6588")
	page, err := d.files(d.report)
	if err != nil {
		t.Fatal(err)
	}
	words := regexp.MustCompile(`(?s)<style>.*?</style>|(width|height)="[0-9.]+mm"`).ReplaceAllString(string(page["index.html"]), "")
	metricUnit := regexp.MustCompile(`[0-9][  ](m|mm|cm|kN|N|kg|kg/m|J|N·m|m²|mm²|m/s|°C)([^a-zA-Z0-9Ω²/·]|$)|, (m|mm|cm|kN|kg|kg/m|N|N/m|m²)(<| |$)`)
	known := []string{"polyester three-strand 8 mm", "8 mm cord"}
	for _, text := range []string{d.text(), d.summary(), words} {
		text = strings.Join(strings.Fields(text), " ")
		for _, k := range known {
			text = strings.ReplaceAll(strings.ReplaceAll(text, k, ""), strings.ReplaceAll(k, "8 mm", "8\u00a0mm"), "")
		}
		for _, at := range metricUnit.FindAllStringIndex(text, -1) {
			t.Errorf("metric: ...%s...", text[max(0, at[0]-40):min(len(text), at[1]+40)])
		}
	}
	if !strings.Contains(string(page["marks.txt"]), "out, ft") || !strings.Contains(words, "Depth at the anchor, ft") {
		t.Error("marks or pictures in metres")
	}
	for _, boat := range []string{"dunlin", "plover"} {
		demo(t, boat).saysNot(t, "lbf")
		demo(t, boat).saysNot(t, "AWG")
	}
}

// Rode is let out in whole feet, no less than what is wanted.
func TestWhole(t *testing.T) {
	for _, c := range []struct {
		in   family
		l    units.Length
		up   units.Length
		down units.Length
	}{
		{metric, 42.1 * units.Metre, 43 * units.Metre, 42 * units.Metre},
		{metric, 42 * units.Metre, 42 * units.Metre, 42 * units.Metre},
		{imperial, 42 * units.Metre, 138 * units.Foot, 137 * units.Foot}, // 137.8 ft
		{imperial, 130 * units.Foot, 130 * units.Foot, 130 * units.Foot},
	} {
		if up, down := c.in.whole(c.l), c.in.wholeDown(c.l); (up-c.up).Abs() > 1e-9 || (down-c.down).Abs() > 1e-9 {
			t.Errorf("%v: %v and %v, want %v and %v", c.l, up, down, c.up, c.down)
		}
	}
	for _, c := range []struct{ got, want string }{
		{imperial.force.say(1*units.Kilonewton, 1), "225 lbf"},
		{imperial.force.up(1*units.Kilonewton, 1), "225 lbf"},
		{imperial.force.up(1.001*units.Kilonewton, 1), "226 lbf"},
		{metric.force.up(1.01*units.Kilonewton, 1), "1.1 kN"},
		{metric.force.up(1.1*units.Kilonewton, 1), "1.1 kN"},
		{imperial.small.short(units.Inch.Scale(0.625), 1), "0.625 in"},
		{imperial.small.short(1*units.Inch, 1), "1 in"},
		{metric.small.short(20*units.Millimetre, 1), "20 mm"},
		{metric.small.down(19.9*units.Millimetre, 0), "19"},
		{imperial.temperature.say(units.Celsius(60), 0), "140 °F"},
		{imperial.reword("creeps -12.0 mm, 2.5 m of 50 mm² and 1.0 kN"), "creeps -0.472 in, 8.2 ft of 50 mm² and 225 lbf"},
		{metric.reword("12 mm"), "12 mm"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// What is wrong with a file in feet is said in feet.
func TestMistakesInFeet(t *testing.T) {
	file, err := os.ReadFile("testdata/curlew.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, want string }{
		{`"waterline": "29 ft"`, `"waterline": "290 ft"`, "boat.waterline: found 290.0 ft; accepted: 17.0 ft to 34.1 ft"},
		{`"mass": "35 lb"`, `"mass": "3500 lb"`, "anchor.mass: found 3501 lb; accepted: 2.20 lb to 1102 lb"},
	} {
		name := filepath.Join(t.TempDir(), "boat.json")
		if err := os.WriteFile(name, []byte(change(string(file), c.old, c.new)), 0o644); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		if code := run([]string{"-boat", name}, &out, &errs); code != 2 || errs.String() != "fitout: "+name+": "+c.want+"\n" {
			t.Errorf("%d, %q", code, &errs)
		}
	}
}
