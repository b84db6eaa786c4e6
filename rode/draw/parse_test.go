package draw_test

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/forepeak/rode/draw"
)

// element is what encoding/xml reads of an SVG element.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Kids    []element  `xml:",any"`
}

func (e *element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// each visits the element and all in it.
func (e *element) each(visit func(*element)) {
	visit(e)
	for i := range e.Kids {
		e.Kids[i].each(visit)
	}
}

// words is the text of an element with its spans in their place.
func (e *element) words() string {
	var s strings.Builder
	for i := range e.Kids {
		s.WriteString(e.Kids[i].words())
	}
	return s.String() + e.Text
}

var number = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)

func numbers(t testing.TB, s string) []float64 {
	t.Helper()
	var xs []float64
	for _, n := range number.FindAllString(s, -1) {
		x, err := strconv.ParseFloat(n, 64)
		if err != nil {
			t.Fatal(err)
		}
		if _, frac, ok := strings.Cut(n, "."); ok && (len(frac) > 2 || strings.HasSuffix(frac, "0")) {
			t.Errorf("%s is not the shortest number of hundredths", n)
		}
		xs = append(xs, x)
	}
	return xs
}

// read draws and reads the drawing back.
func read(t testing.TB, p draw.Profile) (*element, string) {
	t.Helper()
	var b bytes.Buffer
	if err := p.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	var root element
	if err := xml.Unmarshal(b.Bytes(), &root); err != nil {
		t.Fatalf("not well formed: %v", err)
	}
	return &root, b.String()
}
