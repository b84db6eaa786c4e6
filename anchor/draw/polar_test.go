package draw_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"log"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
	"example.com/forepeak/units"
)

func polar(t testing.TB) draw.WindPolar {
	t.Helper()
	b, err := anchor.Estimate(anchor.Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1})
	if err != nil {
		t.Fatal(err)
	}
	return draw.WindPolar{
		Title: "Grebe, wind load by estimate", Boat: b, Spread: anchor.EstimateSpread,
		Winds: []anchor.Wind{{Speed: 30 * units.Knot}, {Speed: 20 * units.Knot}, {Speed: 40 * units.Knot}},
	}
}

func TestPolarRefuses(t *testing.T) {
	for _, c := range []struct {
		field  string
		change func(*draw.WindPolar)
	}{
		{"Winds", func(p *draw.WindPolar) { p.Winds = nil }},
		{"Winds", func(p *draw.WindPolar) { p.Winds = make([]anchor.Wind, 4) }},
		{"Winds", func(p *draw.WindPolar) { p.Winds = make([]anchor.Wind, 1) }},
		{"Wind.Speed", func(p *draw.WindPolar) { p.Winds[1].Speed = -1 }},
		{"Spread", func(p *draw.WindPolar) { p.Spread = 0.5 }},
		{"Spread", func(p *draw.WindPolar) { p.Spread = math.NaN() }},
		{"Hulls", func(p *draw.WindPolar) { p.Hulls = 3 }},
		{"Prefix", func(p *draw.WindPolar) { p.Prefix = "A" }},
		{"Parts", func(p *draw.WindPolar) { p.Boat.Parts = nil }},
	} {
		p := polar(t)
		c.change(&p)
		var b bytes.Buffer
		var e *anchor.Error
		if err := p.WriteSVG(&b); !errors.As(err, &e) || e.Field != c.field || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", c.field, err, b.Len())
		}
	}
}

func ExampleWindPolar_WriteSVG() {
	boat, err := anchor.Estimate(anchor.Dimensions{Length: 10.4, Beam: 3.4, Freeboard: 1.1})
	if err != nil {
		log.Fatal(err)
	}
	var b bytes.Buffer // or a file
	p := draw.WindPolar{Boat: boat, Winds: []anchor.Wind{{Speed: 30 * units.Knot}}, Spread: anchor.EstimateSpread}
	if err := p.WriteSVG(&b); err != nil {
		log.Fatal(err)
	}
	fmt.Println(strings.Contains(b.String(), "30 kn: 946 N ahead"))
	// Output:
	// true
}

// A catamaran is drawn as one, in both drawings from above, and nothing else changes.
func TestHulls(t *testing.T) {
	hulls := func(d interface{ WriteSVG(io.Writer) error }) (hulls int, rest string) {
		var b bytes.Buffer
		if err := d.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if hull := regexp.MustCompile(`<(path|rect|polygon) class="[a-z]+-hull"`).FindString(line); hull == "" {
				rest += line
			} else if strings.HasPrefix(hull, "<path") {
				hulls++
			}
		}
		return hulls, rest
	}
	p, s := polar(t), draw.SwingPlan{Night: night(), Plan: planned(t, night())}
	one, polarRest := hulls(p)
	boats, swingRest := hulls(s)
	p.Hulls, s.Hulls = 2, 2
	if n, rest := hulls(p); one != 1 || n != 2 || rest != polarRest {
		t.Errorf("%d and %d hulls in the polar, the rest alike: %v", one, n, rest == polarRest)
	}
	if n, _ := hulls(s); boats == 0 || n != 2*boats || swingRest == "" {
		t.Errorf("%d and %d hulls in the plan", boats, n)
	}
}

// The sketch lies within the curve of the weakest wind.
func TestSketchIsWithin(t *testing.T) {
	p := polar(t)
	p.Winds[0].Speed, p.Winds[1].Speed = 15*units.Knot, 45*units.Knot
	var b bytes.Buffer
	if err := p.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	var x, bow, curve float64
	hull := regexp.MustCompile(`class="polar-hull" d="M([0-9.]+)[ ,]([0-9.]+)`).FindStringSubmatch(b.String())
	ahead := regexp.MustCompile(`class="polar-curve" points="([0-9.]+),([0-9.]+)`).FindStringSubmatch(b.String())
	if hull == nil || ahead == nil {
		t.Fatal("no hull, or no curve")
	}
	for i, s := range []string{hull[1], hull[2], ahead[2]} {
		if _, err := fmt.Sscan(s, []*float64{&x, &bow, &curve}[i]); err != nil {
			t.Fatal(err)
		}
	}
	if ahead[1] != hull[1] || bow < curve+0.3 {
		t.Errorf("the bow at %v, %v, the curve ahead at %s, %v", x, bow, ahead[1], curve)
	}
}
