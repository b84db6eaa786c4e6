package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// nylon is a rope of the strength and the stretch of 16 mm polyamide.
func nylon() rode.Rope {
	return rode.Rope{
		Fibre: "polyamide", Construction: "eight-strand", Size: "16 mm", Diameter: 0.016, Mass: 0.158, Density: 1140,
		Breaking: 44e3, Stretch: rode.Stretch{Reference: 44e3, A: 0.66, B: -0.66, C: 0.35, Limit: 44e3},
	}
}

// bridle is the drawing of a bridle on a catamaran.
func bridle(t testing.TB, pull units.Force, sheer units.Angle, hulls int) draw.Bow {
	t.Helper()
	b := rode.Bridle{Rope: nylon(), Spread: 6, Port: 9, Starboard: 9}
	s := rode.Site{Depth: 7, Roller: 1.2}
	if hulls == 1 {
		b.Spread, b.Port, b.Starboard = 1.4, 6, 6
	}
	h, err := rode.HangBridle(of(chain(35)), s, b, pull, sheer, 12)
	if err != nil {
		t.Fatal(err)
	}
	return draw.Bridle(b, h, s, 12, hulls)
}

func snubber(t testing.TB) draw.Bow {
	t.Helper()
	r, err := of(chain(30)).Snub(rode.Snubber{Rope: nylon(), Length: 8, Slack: 11})
	if err != nil {
		t.Fatal(err)
	}
	s := rode.Site{Depth: 5, Roller: 1.45}
	st, err := rode.Solve(r, s, 1300)
	if err != nil {
		t.Fatal(err)
	}
	return draw.Snubber(st, s, 11)
}

func bows(t testing.TB) map[string]draw.Bow {
	ahead := bridle(t, 2300, 0, 2)
	ahead.Title = "Bridle of an 11.9 m catamaran & <its ring>"
	return map[string]draw.Bow{
		"catamaran": ahead, "sheer": bridle(t, 4400, degrees(30), 2), "starboard": bridle(t, 900, degrees(-25), 2),
		"monohull": bridle(t, 1300, degrees(8), 1), "snubber": snubber(t),
	}
}

func TestBow(t *testing.T) {
	for name, b := range bows(t) {
		var buf bytes.Buffer
		if err := b.WriteSVG(&buf); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := xml.Unmarshal(buf.Bytes(), new(struct{})); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		text := buf.String()
		for _, l := range b.Lines {
			if !strings.Contains(text, l.Name) {
				t.Errorf("%s: %s is not named", name, l.Name)
			}
		}
		if strings.Contains(text, "slack") != (b.Lines[0].Slack > 0 || len(b.Lines) > 1 && b.Lines[1].Slack > 0) && !strings.Contains(text, "slack chain") {
			t.Errorf("%s: a slack leg is not told", name)
		}
	}
}

func TestGoldenBow(t *testing.T) {
	var buf bytes.Buffer
	if err := bows(t)["catamaran"].WriteSVG(&buf); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("testdata", "bow.svg")
	if *update {
		if err := os.WriteFile(path, buf.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(buf.Bytes(), want) {
		t.Errorf("the drawing has changed: look at it and run go test ./rode/draw -update")
	}
}

// Whatever a caller puts in, there is a file that can be read or an error of the package.
func FuzzBow(f *testing.F) {
	f.Add(1.2, 8.3, 0.0, 2.4, 3.0, -3.0, 1300.0, 0.1, 0.2, 12.0, 7.0, 2)
	f.Add(-1.0, 0.1, -3.0, -4.0, 50.0, 50.0, 0.0, -1.5, 1.57, 0.0, 0.0, 1)
	f.Fuzz(func(t *testing.T, height, forward, toPort, below, a, b, tension, sheer, down, slack, depth float64, hulls int) {
		bow := draw.Bow{
			Hulls: hulls, Height: units.Length(height), Forward: units.Length(forward), ToPort: units.Length(toPort), Below: units.Length(below),
			Lines: []draw.Line{{"a", units.Length(a), units.Force(tension), 0}, {"b", units.Length(b), 0, units.Length(slack)}},
			Sheer: units.Angle(sheer), Down: units.Angle(down), Slack: units.Length(slack), Depth: units.Length(depth),
		}
		var buf bytes.Buffer
		if err := bow.WriteSVG(&buf); err != nil {
			if _, ok := errors.AsType[*rode.Error](err); !ok || buf.Len() > 0 {
				t.Errorf("%v with %d bytes written", err, buf.Len())
			}
			return
		}
		if err := xml.Unmarshal(buf.Bytes(), new(struct{})); err != nil {
			t.Error(err)
		}
	})
}

// The plan is true to scale: the lines are as far from end to end as the legs are long.
func TestBowIsToScale(t *testing.T) {
	b := bridle(t, 2300, degrees(15), 2)
	var buf bytes.Buffer
	if err := b.WriteSVG(&buf); err != nil {
		t.Fatal(err)
	}
	var root element
	if err := xml.Unmarshal(buf.Bytes(), &root); err != nil {
		t.Fatal(err)
	}
	var plan []float64
	scale := 0.0
	root.each(func(e *element) {
		switch e.attr("class") {
		case "bow-rope":
			at := func(name string) float64 { return numbers(t, e.attr(name))[0] }
			if len(plan) < 2 { // those of the plan come first
				plan = append(plan, math.Hypot(at("x2")-at("x1"), at("y2")-at("y1")))
			}
		case "bow-scale":
			scale = numbers(t, strings.TrimPrefix(e.words(), "1:"))[0]
		}
	})
	for i, l := range b.Lines {
		want := math.Hypot(float64(b.Forward), float64(b.ToPort-l.ToPort)) * 1000 / scale
		if len(plan) != 2 || math.Abs(plan[i]-want) > 0.03 {
			t.Errorf("%s is %v mm long, want %v mm", l.Name, plan, want)
		}
	}
}

func TestBowRefuses(t *testing.T) {
	good := bridle(t, 2300, 0, 2)
	for field, f := range map[string]func(*draw.Bow){
		"Forward":          func(b *draw.Bow) { b.Forward = 0 },
		"Below":            func(b *draw.Bow) { b.Below = units.Length(math.NaN()) },
		"Sheer":            func(b *draw.Bow) { b.Sheer = 2 },
		"Down":             func(b *draw.Bow) { b.Down = units.Angle(math.Inf(1)) },
		"Hulls":            func(b *draw.Bow) { b.Hulls = 3 },
		"Lines":            func(b *draw.Bow) { b.Lines = nil },
		"Lines[0].ToPort":  func(b *draw.Bow) { b.Lines = []draw.Line{{ToPort: 90}} },
		"Lines[0].Tension": func(b *draw.Bow) { b.Lines = []draw.Line{{Tension: -1}} },
		"Slack":            func(b *draw.Bow) { b.Slack = -1 },
		"Prefix":           func(b *draw.Bow) { b.Prefix = "A" },
	} {
		b := good
		f(&b)
		err := b.WriteSVG(io.Discard)
		if e, ok := errors.AsType[*rode.Error](err); !ok || e.Field != field {
			t.Errorf("%s: got %v", field, err)
		}
	}
	if err := draw.Snubber(rode.State{}, rode.Site{}, 0).WriteSVG(io.Discard); err == nil {
		t.Error("a state without a snubber is not refused")
	}
}

func ExampleBow_WriteSVG() {
	b := draw.Bow{
		Hulls: 2, Height: 1.2, Forward: 8, Below: 2,
		Lines: []draw.Line{{Name: "port leg", ToPort: 3, Tension: 1300}, {Name: "starboard leg", ToPort: -3, Tension: 1300}},
	}
	if err := b.WriteSVG(io.Discard); err != nil {
		panic(err)
	}
	// Output:
}
