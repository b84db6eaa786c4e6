package draw_test

import (
	"bytes"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

var update = flag.Bool("update", false, "write the golden drawing anew: look at it before you commit it")

func TestGolden(t *testing.T) {
	c := picture{name: "golden", title: "Chain and rope with a weight & a float <1>", boat: draw.Boat{Length: 10.4, Overhang: 0.9}}
	r := of(with(chain(20), buoy), chain(10), with(rope(6), kellet), rope(24))
	for _, pull := range []units.Force{120, 900} {
		c.views = append(c.views, wanted{pull.String(), r, rode.Site{Depth: 7.25, Roller: 1.45, Friction: 0.6}, pull})
	}
	var b bytes.Buffer
	if err := c.profile(t).WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("testdata", "profile.svg")
	if *update {
		if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), want) {
		got, want := strings.Split(b.String(), "\n"), strings.Split(string(want), "\n")
		for i := range min(len(got), len(want)) {
			if got[i] != want[i] {
				t.Fatalf("line %d is\n%s\nwant\n%s", i+1, got[i], want[i])
			}
		}
		t.Fatalf("%d lines, want %d", len(got), len(want))
	}
}

func TestPictures(t *testing.T) {
	for _, c := range pictures {
		t.Run(c.name, func(t *testing.T) {
			p := c.profile(t)
			root, text := read(t, p)
			checkPage(t, root, text)
			checkCurves(t, root, p)
		})
	}
}

func TestRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	drawn := 0
	for range 150 {
		var rd rode.Rode
		for range 1 + r.IntN(4) {
			p := chain(units.Length(math.Exp(r.Float64()*4 + 0.5)))
			switch r.IntN(3) {
			case 0:
				p = rope(p.Length)
			case 1:
				p.Top = []rode.Fitting{{Name: "w", Mass: units.Mass(math.Exp(r.Float64()*4 - 1)), Volume: 1e-4}}
			}
			rd.Pieces = append(rd.Pieces, p)
		}
		p := draw.Profile{Boat: draw.Boat{Length: units.Length(r.IntN(2)) * 10}}
		for i := range 1 + r.IntN(5) {
			s := rode.Site{
				Depth:    rd.Length().Scale(0.02 + 0.9*r.Float64()),
				Roller:   units.Length(r.Float64()*3 - 0.6),
				Slope:    degrees(float64(r.IntN(3)-1) * 10 * r.Float64()),
				Friction: r.Float64(),
			}
			st, err := rode.Solve(rd, s, units.Force(math.Exp(r.Float64()*9-1))*units.Force(min(1, i)))
			if err != nil {
				continue // too short, aground
			}
			p.Views = append(p.Views, draw.View{Label: strings.Repeat("wind ", r.IntN(60)), State: st, Rode: rd, Site: s})
		}
		if len(p.Views) == 0 {
			continue
		}
		drawn++
		root, text := read(t, p)
		checkPage(t, root, text)
		checkCurves(t, root, p)
		if t.Failed() {
			t.Fatalf("drawing %d", drawn)
		}
	}
	if drawn < 100 {
		t.Errorf("only %d drawings", drawn)
	}
}

var (
	fontSize  = regexp.MustCompile(`\.rode-([a-z]+)\{[^}]*font-size:([0-9.]+)px[^}]*\}`)
	notNumber = regexp.MustCompile(`NaN|Inf|e[+-][0-9]`)
)

type box struct {
	left, top, right, bottom float64
	text                     string
}

func (b box) meets(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

// checkPage checks what holds for every drawing: its size, that nothing is
// cut off, that texts are large enough and on nothing else.
func checkPage(t *testing.T, root *element, text string) {
	t.Helper()
	if bad := notNumber.FindString(text); bad != "" {
		t.Errorf("%s in the drawing", bad)
	}
	if ids := strings.Count(text, ` id="rode-`); ids != 2 || strings.Count(text, ` id="`) != ids {
		t.Error("an id without the prefix")
	}
	view := numbers(t, root.attr("viewBox"))
	width, height := view[2], view[3]
	if width < 180 || width > 260 || root.attr("width") != strings.Fields(root.attr("viewBox"))[2]+"mm" {
		t.Errorf("the page is %s wide with view box %s", root.attr("width"), root.attr("viewBox"))
	}
	sizes := map[string]float64{}
	for _, m := range fontSize.FindAllStringSubmatch(text, -1) {
		sizes["rode-"+m[1]] = numbers(t, m[2])[0]
	}
	var texts []box
	var marks []box // small things texts must keep clear of: ends of lines, joints
	inside := func(x, y float64, what string) {
		if x < 0 || x > width || y < 0 || y > height {
			t.Errorf("%s at %v,%v is off the page of %v by %v", what, x, y, width, height)
		}
	}
	root.each(func(e *element) {
		class := e.attr("class")
		switch e.XMLName.Local {
		case "text":
			size, ok := sizes[class]
			if !ok || size < 2.6 {
				t.Errorf("text %q of class %s is %v mm high", e.words(), class, size)
			}
			at := numbers(t, e.attr("x")+" "+e.attr("y"))
			w := svg.TextWidth(e.words(), size)
			b := box{at[0], at[1] - 0.75*size, at[0] + w, at[1] + 0.22*size, e.words()}
			switch e.attr("text-anchor") {
			case "middle":
				b.left, b.right = at[0]-w/2, at[0]+w/2
			case "end":
				b.left, b.right = at[0]-w, at[0]
			}
			inside(b.left, b.top, b.text)
			inside(b.right, b.bottom, b.text)
			texts = append(texts, b)
		case "line":
			n := numbers(t, e.attr("x1")+" "+e.attr("y1")+" "+e.attr("x2")+" "+e.attr("y2"))
			inside(n[0], n[1], class)
			inside(n[2], n[3], class)
			for i := range 301 {
				f := float64(i) / 300
				x, y := n[0]+f*(n[2]-n[0]), n[1]+f*(n[3]-n[1])
				marks = append(marks, box{x, y, x, y, class})
			}
		case "circle":
			n := numbers(t, e.attr("cx")+" "+e.attr("cy")+" "+e.attr("r"))
			inside(n[0]-n[2], n[1]-n[2], class)
			inside(n[0]+n[2], n[1]+n[2], class)
			marks = append(marks, box{n[0] - n[2], n[1] - n[2], n[0] + n[2], n[1] + n[2], class})
		case "rect":
			n := numbers(t, e.attr("x")+" "+e.attr("y")+" "+e.attr("width")+" "+e.attr("height"))
			inside(n[0], n[1], class)
			inside(n[0]+n[2], n[1]+n[3], class)
		case "polyline", "polygon", "path":
			n := numbers(t, e.attr("points")+e.attr("d"))
			whole := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1), class}
			for i := 0; i+1 < len(n); i += 2 {
				x, y := n[i], n[i+1]
				inside(x, y, class)
				whole = box{min(whole.left, x), min(whole.top, y), max(whole.right, x), max(whole.bottom, y), class}
				if e.XMLName.Local == "polyline" {
					marks = append(marks, box{x, y, x, y, class})
				}
			}
			switch class {
			case "rode-level", "rode-hull", "rode-kellet", "rode-fluke", "rode-shank":
				marks = append(marks, whole)
			}
		}
	})
	for i, a := range texts {
		for _, b := range texts[i+1:] {
			if a.meets(b) {
				t.Errorf("%q lies on %q", a.text, b.text)
			}
		}
		for _, m := range marks {
			if a.meets(m) {
				t.Errorf("%q lies on a %s", a.text, m.text)
			}
		}
	}
}

// checkCurves reads the lines of the rode back and compares them with the states.
func checkCurves(t *testing.T, root *element, p draw.Profile) {
	t.Helper()
	scale := 0.0
	var groups [][][]float64 // of each view the points of each piece
	root.each(func(e *element) {
		switch e.attr("class") {
		case "rode-scale":
			scale = numbers(t, strings.TrimPrefix(e.Text, "1:"))[0]
		case "rode-view":
			groups = append(groups, nil)
		case "rode-chain", "rode-rope":
			if e.XMLName.Local == "polyline" {
				g := &groups[len(groups)-1]
				*g = append(*g, numbers(t, e.attr("points")))
			}
		}
	})
	if len(groups) != len(p.Views) {
		t.Fatalf("%d pictures of %d views", len(groups), len(p.Views))
	}
	mm := 1000 / scale
	for i, pieces := range groups {
		v := &p.Views[i]
		if len(pieces) != len(v.Rode.Pieces) {
			t.Fatalf("view %d has %d lines for %d pieces", i, len(pieces), len(v.Rode.Pieces))
		}
		x0, y0 := pieces[0][0], pieces[0][1]
		if x0 != groups[0][0][0] {
			t.Errorf("view %d begins at %v, the first at %v", i, x0, groups[0][0][0])
		}
		for j, line := range pieces {
			s := &v.State.Pieces[j]
			n := len(line)
			for k, end := range []rode.Position{s.Lower, s.Upper} {
				x, y := line[k*(n-2)], line[k*(n-2)+1]
				if wx, wy := x0+end.X.Metres()*mm, y0-end.Z.Metres()*mm; math.Abs(x-wx) > 0.0101 || math.Abs(y-wy) > 0.0101 {
					t.Errorf("view %d, end %d of piece %d is at %v,%v, want %v,%v", i, k, j, x, y, wx, wy)
				}
			}
		}
		for q := range v.State.Points(units.Length(1 / mm)) {
			x, y := x0+q.X.Metres()*mm, y0-q.Z.Metres()*mm
			// 0.01 mm for what is left out, and the rounding of the anchor and the points.
			if d := distance(pieces[q.Piece], x, y); d > 0.03 {
				t.Errorf("view %d, %v along the rode: the line is %v mm away", i, q.Arc, d)
			}
		}
	}
}

// distance of a point from a polyline.
func distance(line []float64, x, y float64) float64 {
	d := math.Inf(1)
	for i := 0; i+3 < len(line); i += 2 {
		ax, ay, dx, dy := line[i], line[i+1], line[i+2]-line[i], line[i+3]-line[i+1]
		f := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			f = min(1, max(0, ((x-ax)*dx+(y-ay)*dy)/l))
		}
		d = min(d, math.Hypot(x-ax-f*dx, y-ay-f*dy))
	}
	return d
}
