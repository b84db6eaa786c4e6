package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
)

func TestElements(t *testing.T) {
	d := New("t")
	d.Begin("all")
	d.Line("thin", Point{0, 0}, Point{10, 2.5})
	d.Polyline("thin", Point{0, 0}, Point{1.005, -0.001}, Point{1.0 / 3, -2.0 / 3})
	d.Polygon("fill", Point{0, 0}, Point{1, 0}, Point{0, 1})
	d.Circle("fill", Point{5, 5}, 0.75)
	d.Rect("fill", Point{1, 2}, Point{4, 6})
	var p Path
	p.Move(Point{1, 1})
	p.Line(Point{2, 1})
	p.Curve(Point{3, 1}, Point{3, 2})
	p.Close()
	d.Path("fill", &p)
	d.Text("words", Point{3, 4}, Left, Span{Text: "a < b & "}, Span{Class: "bold", Text: "\"c\"\x00"})
	d.Text("words", Point{3, 4}, Centre)
	d.Text("words", Point{3, 4}, Right)
	d.End()
	var b bytes.Buffer
	err := d.Write(&b, Page{
		Width: 210, Height: 29.7, Title: "T & t", Desc: "<d>",
		Classes: []Class{{"paper", "fill:#fff", "fill:#000"}, {"thin", "stroke:red", ""}},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := `<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="29.7mm" viewBox="0 0 210 29.7" role="img" aria-labelledby="t-title t-desc">
<title id="t-title">T &amp; t</title>
<desc id="t-desc">&lt;d&gt;</desc>
<style>
.t-paper{fill:#fff}
.t-thin{stroke:red}
@media screen and (prefers-color-scheme:dark){
.t-paper{fill:#000}
}
</style>
<rect class="t-paper" x="0" y="0" width="210" height="29.7"/>
<g class="t-all">
<line class="t-thin" x1="0" y1="0" x2="10" y2="2.5"/>
<polyline class="t-thin" points="0,0 1,0 0.33,-0.67"/>
<polygon class="t-fill" points="0,0 1,0 0,1"/>
<circle class="t-fill" cx="5" cy="5" r="0.75"/>
<rect class="t-fill" x="1" y="2" width="3" height="4"/>
<path class="t-fill" d="M1,1L2,1Q3,1 3,2Z"/>
<text class="t-words" x="3" y="4">a &lt; b &amp; <tspan class="t-bold">&#34;c&#34;` + "\ufffd" + `</tspan></text>
<text class="t-words" x="3" y="4" text-anchor="middle"></text>
<text class="t-words" x="3" y="4" text-anchor="end"></text>
</g>
</svg>
`
	if got := b.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if err := xml.Unmarshal(b.Bytes(), new(struct{})); err != nil {
		t.Error(err)
	}
}

func TestNumbers(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", math.Copysign(0, -1): "0", -0.004: "0", 0.006: "0.01", -0.1: "-0.1", 12.34: "12.34",
		12.30: "12.3", 100: "100", 99.999: "100", -7.05: "-7.05", 1e7: "10000000",
	} {
		d := New("t")
		if d.number("", x); string(d.body) != want || d.err != nil {
			t.Errorf("%v is written %q, error %v, want %q", x, d.body, d.err, want)
		}
	}
}

func TestErrors(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1.1e7} {
		d := New("t")
		d.Circle("c", Point{x, 0}, 1)
		d.Circle("c", Point{0, 0}, 1)
		var b bytes.Buffer
		if err := d.Write(&b, Page{}); !errors.Is(err, ErrCoordinate) || b.Len() > 0 {
			t.Errorf("%v: error %v with %d bytes written", x, err, b.Len())
		}
	}
	if err := New("t").Write(io.Discard, Page{Width: math.NaN()}); !errors.Is(err, ErrCoordinate) {
		t.Errorf("width: %v", err)
	}
	d := New("t")
	d.Begin("g")
	if err := d.Write(io.Discard, Page{}); err == nil {
		t.Error("an open group is not refused")
	}
	for n := range 3 {
		if err := New("t").Write(&full{n}, Page{}); (err == nil) != (n == 2) && err != errFull {
			t.Errorf("writer full after %d: %v", n, err)
		}
	}
}

func TestPrefixes(t *testing.T) {
	for prefix, want := range map[string]bool{
		"a": true, "roll-2": true, "z9-": true, "": false, "-a": false, "2a": false, "A": false, "aB": false, "a_b": false, "a b": false, "\u00e9": false, "a\u0661": false, `x"><script>`: false, "a\n": false,
	} {
		if got := IsPrefix(prefix); got != want {
			t.Errorf("%q: %v", prefix, got)
		}
		var b bytes.Buffer
		if err := New(prefix).Write(&b, Page{}); errors.Is(err, ErrPrefix) == want || (b.Len() > 0) != want {
			t.Errorf("%q: %v, %d bytes", prefix, err, b.Len())
		}
	}
}

var errFull = errors.New("full")

// full is a writer that fails after some calls.
type full struct{ left int }

func (f *full) Write(b []byte) (int, error) {
	if f.left--; f.left < 0 {
		return 0, errFull
	}
	return len(b), nil
}

// The widths are sums of the advances in DejaVu Sans, a wide face.
func TestTextWidth(t *testing.T) {
	for text, em := range map[string]float64{
		"bow tension 1.44 kN": 10.257,
		"anchor angle 0.0°":   8.954,
		"WINDLASS MAKER":      9.160,
		"The shape is that in still water under a steady pull": 25.126,
		"1234567890": 6.362,
		"Übergröße":  5.296,
	} {
		if w := TextWidth(text, 1); w < em || w > 1.15*em {
			t.Errorf("%q is %.3f em, want %.3f and at most 15 %% more", text, w, em)
		}
	}
	if w := TextWidth("e\u0301", 10); w != TextWidth("e", 10) {
		t.Errorf("a combining accent takes room: %v", w)
	}
}

func FuzzWrap(f *testing.F) {
	f.Add("The shape is that in still water", 3.0, 40.0)
	f.Add("Donaudampfschifffahrtsgesellschaft", 3.0, 20.0)
	f.Add(" \n\t", 3.0, 20.0)
	f.Add("錨 anchor\xff", 3.0, 7.0)
	f.Fuzz(func(t *testing.T, s string, size, width float64) {
		if !(size > 0.1 && size < 100 && width > 2*size && width < 1000) {
			t.Skip()
		}
		lines := Wrap(s, size, width)
		for _, l := range lines {
			if w := TextWidth(l, size); w > width*(1+1e-9) {
				t.Errorf("%q is %v wide, want at most %v", l, w, width)
			}
		}
		// Nothing is lost or added but the breaks.
		squeeze := func(s string) string { return strings.Join(strings.Fields(string([]rune(s))), "") }
		if got, want := squeeze(strings.Join(lines, " ")), squeeze(s); got != want {
			t.Errorf("%q became %q", want, got)
		}
	})
}
