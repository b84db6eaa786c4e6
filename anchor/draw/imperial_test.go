package draw_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/units"
)

// page is an SVG read back, as far as it is needed here.
type page struct {
	Desc  string `xml:"desc"`
	Texts []struct {
		X      float64 `xml:"x,attr"`
		Y      float64 `xml:"y,attr"`
		Class  string  `xml:"class,attr"`
		Anchor string  `xml:"text-anchor,attr"`
		Text   string  `xml:",chardata"`
	} `xml:"text"`
	Polylines []struct {
		Class  string `xml:"class,attr"`
		Points string `xml:"points,attr"`
	} `xml:"polyline"`
	Rects []struct {
		Class string  `xml:"class,attr"`
		X     float64 `xml:"x,attr"`
		Width float64 `xml:"width,attr"`
	} `xml:"rect"`
}

func drawn(t *testing.T, d drawing) page {
	t.Helper()
	var b bytes.Buffer
	if err := d.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	var p page
	if err := xml.Unmarshal(b.Bytes(), &p); err != nil {
		t.Fatal(err)
	}
	return p
}

var metricWord = regexp.MustCompile(`[0-9][  ](m|kN|N)\b|, (m|kN)$|metre`)

// Drawings in feet have no metric word, and say what they show.
func TestImperial(t *testing.T) {
	for name, d := range drawings(t) {
		var want []string
		switch k := d.(type) {
		case draw.NightPlot:
			k.Imperial = true
			d, want = k, []string{"Depth at the anchor, ft", "Load, lbf", "ft let out"}
		case draw.SwingPlan:
			k.Imperial = true
			d, want = k, []string{"ft of rode out", "ft high"}
		case draw.WindPolar:
			k.Imperial = true
			d, want = k, []string{"30 kn: 213 lbf ahead", " lbf"}
		}
		p := drawn(t, d)
		var words strings.Builder
		for _, w := range append([]string{p.Desc}, texts(p)...) {
			words.WriteString(w + "\n")
			if found := metricWord.FindString(w); found != "" {
				t.Errorf("%s: %q in %q", name, found, w)
			}
		}
		for _, w := range want {
			if !strings.Contains(words.String(), w) {
				t.Errorf("%s does not say %q", name, w)
			}
		}
	}
}

func texts(p page) (out []string) {
	for _, w := range p.Texts {
		out = append(out, w.Text)
	}
	return out
}

// The curve of the depth lies where the axis in feet has it, and the axis has round feet.
func TestDepthInFeet(t *testing.T) {
	n := night()
	plan := planned(t, n)
	p := drawn(t, draw.NightPlot{Night: n, Plan: plan, Imperial: true})
	var values, ys []float64
	for _, w := range p.Texts {
		v, err := strconv.ParseFloat(w.Text, 64)
		if w.Anchor != "end" || err != nil {
			continue
		}
		if len(values) > 0 && v <= values[len(values)-1] {
			break // the next panel
		}
		values, ys = append(values, v), append(ys, w.Y-0.36*2.8)
	}
	if len(values) < 4 || values[1]-values[0] != 10 {
		t.Fatalf("an axis of %v", values)
	}
	perFoot := (ys[len(ys)-1] - ys[0]) / (values[len(values)-1] - values[0])
	curves := 0
	for _, l := range p.Polylines {
		if l.Class != "night-surface" {
			continue
		}
		curves++
		for i, xy := range strings.Fields(l.Points) {
			_, y, _ := strings.Cut(xy, ",")
			got, err := strconv.ParseFloat(y, 64)
			if want := ys[0] + perFoot*(plan.Moments[i].Depth.Feet()-values[0]); err != nil || math.Abs(got-want) > 0.03 {
				t.Fatalf("moment %d is drawn at %v, want %v", i, y, want)
			}
		}
	}
	if curves != 1 {
		t.Errorf("%d curves of the depth", curves)
	}
}

// The bar of feet is as long as the scale has it.
func TestSwingBarInFeet(t *testing.T) {
	n := night()
	p := drawn(t, draw.SwingPlan{Night: n, Plan: planned(t, n), Imperial: true})
	var scale, long, feet float64
	for _, r := range p.Rects {
		if strings.HasSuffix(r.Class, "-even") || strings.HasSuffix(r.Class, "-odd") {
			long += r.Width
		}
	}
	for _, w := range p.Texts {
		if s, ok := strings.CutPrefix(w.Text, "1:"); ok && strings.HasSuffix(w.Class, "-label") {
			scale, _ = strconv.ParseFloat(s, 64)
		}
		if s, ok := strings.CutSuffix(w.Text, " ft"); ok && w.Anchor == "middle" {
			feet, _ = strconv.ParseFloat(s, 64)
		}
	}
	if want := units.Foot.Scale(feet).Millimetres() / scale; !(math.Abs(long-want) < 0.03) || math.Mod(scale, 6) != 0 {
		t.Errorf("%v ft at 1:%v are %v mm long", feet, scale, long)
	}
}
