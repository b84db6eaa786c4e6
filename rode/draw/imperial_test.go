package draw_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// Names of lines and fittings come from the caller and stay as they are.
var callers = regexp.MustCompile(`8 mm chain|14 mm polyamide|12 mm polypropylene|Dunlin in 6 m, 50 m out|Weight 18 m down from the bow|12 kg kellet|Fairlead 70 m down|Half a metre of water|Hard pull, 120 m|an 11.9 m catamaran`)

var metricWord = regexp.MustCompile(`[0-9][  ](mm|cm|m|kN|N)\b|metre`)

// bar is the scale bar of a drawing: where its parts begin and end, and what is written there.
func bar(t *testing.T, root *element) (scale float64, ends []float64, last string) {
	t.Helper()
	top := 0.0
	root.each(func(e *element) {
		switch class := e.attr("class"); {
		case strings.HasSuffix(class, "-scale"):
			scale, top = numbers(t, strings.TrimPrefix(e.Text, "1:"))[0], numbers(t, e.attr("y"))[0]
		case strings.HasSuffix(class, "-even"), strings.HasSuffix(class, "-odd"):
			x := numbers(t, e.attr("x")+" "+e.attr("width"))
			ends = append(ends, x[0], x[0]+x[1])
		}
	})
	root.each(func(e *element) {
		if y := e.attr("y"); e.XMLName.Local == "text" && y != "" && math.Abs(numbers(t, y)[0]-(top-2.8)) < 0.02 {
			if x := numbers(t, e.attr("x"))[0]; len(ends) > 0 && math.Abs(x-ends[len(ends)-1]) < 0.02 {
				last = e.words()
			}
		}
	})
	return scale, ends, last
}

// In feet a drawing has no metric word, the page holds what the metric one holds, an inch
// is a whole number of feet, and the bar is as long as it says.
func TestImperial(t *testing.T) {
	check := func(name string, root *element, text string) {
		t.Helper()
		words := callers.ReplaceAllString(root.words()+" "+text, "")
		words = regexp.MustCompile(`(width|height)="[0-9.]+mm"`).ReplaceAllString(words, "")
		if found := metricWord.FindString(words); found != "" {
			t.Errorf("%s: %q in the words", name, found)
		}
		if !strings.Contains(words, " ft") || !strings.Contains(words, " lbf") {
			t.Errorf("%s: no feet or pounds", name)
		}
		scale, ends, last := bar(t, root)
		if scale == 0 || scale/6 != math.Round(scale/6) {
			t.Errorf("%s: scale 1:%v", name, scale)
		}
		feet, err := units.ParseLength(last)
		if err != nil || len(ends) < 2 {
			t.Fatalf("%s: bar of %q: %v", name, last, err)
		}
		if long := ends[len(ends)-1] - ends[0]; math.Abs(long-feet.Millimetres()/scale) > 0.02 {
			t.Errorf("%s: %s are %v mm at 1:%v", name, last, long, scale)
		}
	}
	for i, c := range pictures {
		p := c.profile(t)
		p.Imperial = true
		root, text := read(t, p)
		if i%4 == 0 { // they take long, and words are little wider in feet
			checkPage(t, root, text)
			checkCurves(t, root, p)
		}
		check(c.name, root, text)
	}
	for name, b := range bows(t) {
		b.Imperial = true
		var buf bytes.Buffer
		if err := b.WriteSVG(&buf); err != nil {
			t.Fatal(err)
		}
		var root element
		if err := xml.Unmarshal(buf.Bytes(), &root); err != nil {
			t.Fatal(err)
		}
		check(name, &root, buf.String())
	}
}

// What is said of the scale can be checked with a ruler divided into sixteenths.
func TestImperialScale(t *testing.T) {
	p := pictures[0].profile(t)
	p.Title, p.Imperial = "", true
	_, text := read(t, p)
	for _, want := range []string{"Scale 1:360, an inch to 30 ft", "30 ft of the bar measure 1 in", "depth 19.7 ft, roller 4.8 ft above the water", "out 164 ft"} {
		if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), want) {
			t.Errorf("%q is not said", want)
		}
	}
}
