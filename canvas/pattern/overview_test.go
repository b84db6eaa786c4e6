package pattern_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"log"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

// picture is an SVG read back.
type picture struct {
	width, height float64
	lines         map[string][]line // by class
	texts         []placed
}

type placed struct {
	x, y   float64
	text   string
	anchor string
}

func draw(t testing.TB, s *pattern.Sheet) picture {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, "p"); err != nil {
		t.Fatal(err)
	}
	type poly struct {
		Class  string `xml:"class,attr"`
		Points string `xml:"points,attr"`
	}
	var doc struct {
		ViewBox   string `xml:"viewBox,attr"`
		Polygons  []poly `xml:"polygon"`
		Polylines []poly `xml:"polyline"`
		Texts     []struct {
			X      float64 `xml:"x,attr"`
			Y      float64 `xml:"y,attr"`
			Anchor string  `xml:"text-anchor,attr"`
			Text   string  `xml:",chardata"`
		} `xml:"text"`
	}
	if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	p := picture{lines: map[string][]line{}}
	if _, err := fmt.Sscanf(doc.ViewBox, "0 0 %g %g", &p.width, &p.height); err != nil {
		t.Fatal(err)
	}
	for _, q := range append(doc.Polygons, doc.Polylines...) {
		var l line
		for _, xy := range strings.Fields(q.Points) {
			var a [2]float64
			if _, err := fmt.Sscanf(xy, "%g,%g", &a[0], &a[1]); err != nil {
				t.Fatal(err)
			}
			l = append(l, a)
		}
		p.lines[strings.TrimPrefix(q.Class, "p-")] = append(p.lines[strings.TrimPrefix(q.Class, "p-")], l)
	}
	for _, w := range doc.Texts {
		p.texts = append(p.texts, placed{w.X, w.Y, w.Text, w.Anchor})
	}
	return p
}

// inside fails where anything is drawn beyond the paper.
func (p picture) inside(t testing.TB) {
	t.Helper()
	for class, ls := range p.lines {
		for _, l := range ls {
			x, y := l.box()
			if x[0] < 0 || y[0] < 0 || x[1] > p.width+0.01 || y[1] > p.height+0.01 {
				t.Errorf("a line %s from %v to %v on paper of %v by %v", class, x, y, p.width, p.height)
			}
		}
	}
	for _, w := range p.texts {
		long := 0.55 * 3 * float64(len([]rune(w.text))) // about
		lo := map[string]float64{"": w.x, "middle": w.x - long/2, "end": w.x - long}[w.anchor]
		if lo < 0 || lo+long > p.width+2 || w.y < 0 || w.y > p.height {
			t.Errorf("%q at %v, %v (%s) on paper of %v by %v", w.text, w.x, w.y, w.anchor, p.width, p.height)
		}
	}
}

// What a canvas worker hangs on the wall: all pieces small, with their sizes.
func ExampleOverview() {
	cover, err := canvas.Cylinder{
		Name: "Bucket cover", Diameter: 280 * mm, Height: 150 * mm, Ease: 6 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}.Cover()
	if err != nil {
		log.Fatal(err)
	}
	pieces, err := cover.Pieces(canvas.Cloth{Thickness: 0.5 * mm})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := pattern.Overview(cover.Title, pieces, 190*mm)
	if err != nil {
		log.Fatal(err)
	}
	w, h := sheet.Size()
	fmt.Printf("%.0f mm by %.0f mm\n", w.Millimetres(), h.Millimetres())
	// Output:
	// 190 mm by 89 mm
}

// Pieces have their sizes over one scale, and the sizes that are written are theirs.
func TestOverviewIsToScale(t *testing.T) {
	for name, pieces := range map[string][]canvas.Piece{"bottle": bottle(t), "awning": awning(t)} {
		s, err := pattern.Overview(name, pieces, 190*mm)
		if err != nil {
			t.Fatal(err)
		}
		p := draw(t, s)
		p.inside(t)
		if len(p.lines["piece"]) != len(pieces) {
			t.Fatalf("%s: %d pieces drawn, want %d", name, len(p.lines["piece"]), len(pieces))
		}
		scale := 0.0
		for _, w := range p.texts {
			_, _ = fmt.Sscanf(w.text, "Drawn 1 : %g", &scale)
		}
		if scale == 0 {
			t.Fatalf("%s: no scale", name)
		}
		for i := range pieces {
			want := rollSize(pieces[i].Cut)
			found := false
			for _, l := range p.lines["piece"] {
				w, h := l.size()
				found = found || math.Abs(w-want[0]/scale) < 0.25 && math.Abs(h-want[1]/scale) < 0.25
			}
			if !found {
				t.Errorf("%s: no %s of %v over %v", name, pieces[i].Name, want, scale)
			}
			for _, v := range want {
				text := fmt.Sprintf("%.0f", v)
				if !contains(p.texts, text) {
					t.Errorf("%s: %s mm of %s is not written", name, text, pieces[i].Name)
				}
			}
		}
	}
}

func contains(texts []placed, want string) bool {
	for _, w := range texts {
		if w.text == want {
			return true
		}
	}
	return false
}

// How an awning is set, for the wall beside the pattern.
func ExampleAwningPlan() {
	p, err := foredeck().Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := pattern.AwningPlan(p)
	if err != nil {
		log.Fatal(err)
	}
	var svg bytes.Buffer
	if err := sheet.WriteSVG(&svg, "awning"); err != nil {
		log.Fatal(err)
	}
	for _, want := range []string{"chord 2400", "inner stay", "corner 3", "CAUTION, WIND"} {
		fmt.Println(want+":", strings.Contains(svg.String(), want))
	}
	// Output:
	// chord 2400: true
	// inner stay: true
	// corner 3: true
	// CAUTION, WIND: true
}

// Every corner bears its greatest pull, and the arrow goes the way of the pull.
func TestAwningPlan(t *testing.T) {
	for n := 3; n <= 8; n++ {
		a := foredeck()
		tie := a.Edges[0].Tie
		tie.Eyelet = 3 * units.Kilonewton
		a.Edges, a.Openings = nil, nil
		for i := range n {
			at := units.Angle(2 * math.Pi * (float64(i) + 0.25) / float64(n))
			a.Edges = append(a.Edges, canvas.AwningEdge{
				Name: fmt.Sprintf("edge %d", i+1), From: canvas.Point{X: units.Length(1.8 * at.Cos()), Y: units.Length(1.6 * at.Sin())}, Hollow: 0.08,
				Tape: 12 * units.Kilonewton, Tie: tie,
			})
		}
		plan, err := a.Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
		if err != nil {
			t.Fatal(err)
		}
		s, err := pattern.AwningPlan(plan)
		if err != nil {
			t.Fatal(err)
		}
		p := draw(t, s)
		p.inside(t)
		if straps, holes := len(p.lines["straps"]), len(plan.Panel.Fittings); straps != n || holes != 2*n {
			t.Errorf("%d corners: %d straps drawn, %d fittings", n, straps, holes)
		}
		// No word about an edge or a corner lies on the edges.
		for _, w := range p.texts {
			if !regexp.MustCompile(`^(edge|chord|hollow|along it|corner) [0-9]+$`).MatchString(w.text) {
				continue
			}
			wide, x := svg.TextWidth(w.text, 3), w.x
			switch w.anchor {
			case "middle":
				x -= wide / 2
			case "end":
				x -= wide
			}
			for _, l := range p.lines["piece"] {
				for k := range l {
					a, b := l[k], l[(k+1)%len(l)]
					for part := range 21 {
						s := float64(part) / 20
						if u, v := a[0]+s*(b[0]-a[0]), a[1]+s*(b[1]-a[1]); u > x && u < x+wide && v > w.y-2.2 && v < w.y {
							t.Errorf("%d corners: %q lies on an edge", n, w.text)
						}
					}
				}
			}
		}
		for i := range n {
			worst := units.Force(0)
			for _, k := range plan.Cases {
				worst = max(worst, k.Corners[i].Pull)
			}
			if !contains(p.texts, fmt.Sprintf("%.2f kN", worst.Kilonewtons())) || !contains(p.texts, fmt.Sprintf("corner %d", i+1)) {
				t.Errorf("%d corners: the pull of corner %d is not written", n, i+1)
			}
		}
	}
	if _, err := pattern.AwningPlan(canvas.AwningPlan{}); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no awning: %v", err)
	}
}

// The strips of a binding on the cloth, at 45 degrees.
func ExampleBiasStrips() {
	roll, err := pattern.BiasStrips(canvas.BiasBinding{Length: 5 * units.Metre, Width: 60 * mm, Roll: 1400 * mm})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(roll.Title)
	fmt.Printf("%.0f mm of cloth\n", roll.Length.Millimetres())
	for _, p := range roll.Pieces {
		fmt.Println(p.Order, p.Name)
	}
	// Output:
	// Bias binding, 5.0 m long and 60 mm wide before folding, in 3 strips
	// 1655 mm of cloth
	// 1 strip: below from 0 to 85, above from 1400 to 1485 mm
	// 2 strip: below from 85 to 170, above from 1485 to 1570 mm
	// 3 strip: below from 170 to 255, above from 1570 to 1655 mm
}

// Strips are as wide as asked for, lie at 45 degrees, do not overlap and are
// together at least as long as the binding.
func TestBiasStrips(t *testing.T) {
	for _, c := range []struct{ length, width, roll float64 }{{5, 0.06, 1.4}, {0.3, 0.02, 0.9}, {60, 0.045, 1.37}, {2, 0.5, 1}} {
		r, err := pattern.BiasStrips(canvas.BiasBinding{Length: units.Length(c.length), Width: units.Length(c.width), Roll: units.Length(c.roll)})
		if err != nil {
			t.Fatal(err)
		}
		together := 0.0
		for i, p := range r.Pieces {
			o := p.Outline
			dx, dy := float64(o[3].X-o[0].X), float64(o[3].Y-o[0].Y)
			if math.Abs(dx-dy) > 1e-12 {
				t.Errorf("%+v: strip %d does not lie at 45 degrees", c, i+1)
			}
			across := float64(o[1].X-o[0].X) / math.Sqrt2
			if math.Abs(across-c.width) > 1e-9 {
				t.Errorf("%+v: strip %d is %v wide", c, i+1, across)
			}
			if i > 0 && math.Abs(float64(o[0].X-r.Pieces[i-1].Outline[1].X)) > 1e-12 {
				t.Errorf("%+v: strip %d does not lie beside the one before", c, i+1)
			}
			together += dx * math.Sqrt2
		}
		if together < c.length {
			t.Errorf("%+v: the strips are %v long", c, together)
		}
		s, err := r.Draw()
		if err != nil {
			t.Fatal(err)
		}
		draw(t, s).inside(t)
	}
	for _, c := range []canvas.BiasBinding{
		{Width: 0.1, Roll: 1},
		{Length: 1, Roll: 1},
		{Length: 1, Width: 0.6, Roll: 1},
		{Length: 1000, Width: 0.05, Roll: 1},
		{Length: units.Length(math.NaN()), Width: 0.05, Roll: 1},
	} {
		if _, err := pattern.BiasStrips(c); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

func TestStack(t *testing.T) {
	if _, err := pattern.Stack(); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("nothing: %v", err)
	}
	if _, err := pattern.Stack(nil); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("nil: %v", err)
	}
	a, err := deckRoll().Draw()
	if err != nil {
		t.Fatal(err)
	}
	b, err := pattern.Overview("bottle", bottle(t), 190*mm)
	if err != nil {
		t.Fatal(err)
	}
	both, err := pattern.Stack(a, b)
	if err != nil {
		t.Fatal(err)
	}
	pa, pb, p := draw(t, a), draw(t, b), draw(t, both)
	p.inside(t)
	if math.Abs(p.height-pa.height-pb.height) > 0.02 || math.Abs(p.width-math.Max(pa.width, pb.width)) > 0.02 {
		t.Errorf("%v by %v from %v by %v and %v by %v", p.width, p.height, pa.width, pa.height, pb.width, pb.height)
	}
	for class := range p.lines {
		if len(p.lines[class]) != len(pa.lines[class])+len(pb.lines[class]) {
			t.Errorf("%d lines %s", len(p.lines[class]), class)
		}
	}
}

// Darts, eyelets and straps are drawn where they are, and the words keep clear of them.
func TestFittingsAndDarts(t *testing.T) {
	p := canvas.Panel{
		Name: "side", Edges: []canvas.Edge{
			{Name: "foot", Finish: canvas.Finish{Kind: canvas.SingleHem, Width: 20 * mm}},
			{Name: "aft", From: canvas.Point{X: 0.8}},
			{Name: "top", From: canvas.Point{X: 0.8, Y: 0.5}},
			{Name: "fore", From: canvas.Point{Y: 0.5}},
		},
		Darts: []canvas.Dart{{Edge: "foot", At: 0.5, Width: 30 * mm, Depth: 150 * mm}},
	}
	snaps, err := p.Fasteners([]string{"top"}, 20*mm, 200*mm)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range snaps {
		p.Fittings = append(p.Fittings, canvas.Fitting{Name: "snap", At: at, Diameter: 4 * mm})
	}
	p.Fittings = append(p.Fittings, canvas.Fitting{Name: "strap", Strap: []canvas.Point{{X: 0.7, Y: 0.1}, {X: 0.9, Y: 0.1}}})
	pieces, err := canvas.Cover{Title: "side", Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{Thickness: 0.5 * mm})
	if err != nil {
		t.Fatal(err)
	}
	d := draw(t, lay(t, pieces, 1200*mm))
	d.inside(t)
	if n := len(d.lines["fold"]); n != 2 { // and in the legend
		t.Errorf("%d folds", n)
	}
	equal := 0
	for _, l := range d.lines["sew"] {
		if len(l) == 3 {
			a, b := math.Hypot(l[0][0]-l[1][0], l[0][1]-l[1][1]), math.Hypot(l[2][0]-l[1][0], l[2][1]-l[1][1])
			if math.Abs(a-b) < 0.02 && math.Abs(a-math.Hypot(150, 15)) < 0.02 {
				equal++
			}
		}
	}
	if equal != 1 {
		t.Errorf("%d darts with equal legs", equal)
	}
	holes := 0
	for _, l := range d.lines["cut"] {
		if w, h := l.size(); math.Abs(w-4) < 0.02 && math.Abs(h-4) < 0.02 {
			holes++
		}
	}
	if holes != len(snaps) || !contains(d.texts, "snap 4 mm") || !contains(d.texts, "strap") {
		t.Errorf("%d of %d snaps are drawn: %v", holes, len(snaps), d.texts)
	}
	if len(d.lines["strap"]) != 2 {
		t.Errorf("%d straps, with the legend", len(d.lines["strap"]))
	}
	s, err := pattern.Overview("side", pieces, 190*mm)
	if err != nil {
		t.Fatal(err)
	}
	draw(t, s).inside(t)
	if err := lay(t, pieces, 1200*mm).WriteTiled(io.Discard, pattern.Letter); err != nil {
		t.Error(err)
	}
}

func TestOverviewRefuses(t *testing.T) {
	pieces := bottle(t)
	for _, w := range []units.Length{0, 3, units.Length(math.NaN())} {
		if _, err := pattern.Overview("w", pieces, w); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("width %v: %v", w, err)
		}
	}
	if _, err := pattern.Overview("none", nil, 0.2); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no pieces: %v", err)
	}
	crossed := canvas.Piece{Name: "bow tie", Cut: []canvas.Point{{}, {X: 1, Y: 1}, {X: 1}, {Y: 1}}}
	if _, err := pattern.Overview("bow", []canvas.Piece{crossed}, 0.2); !errors.Is(err, canvas.ErrOutline) {
		t.Errorf("a crossing: %v", err)
	}
	if _, err := pattern.FullSize("bow", []canvas.Piece{crossed}, 1); !errors.Is(err, canvas.ErrOutline) {
		t.Errorf("a crossing: %v", err)
	}
}
