package pattern_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"log"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

func rectangle(x, y, w, h units.Length) []canvas.Point {
	return []canvas.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

func deckRoll() pattern.Roll {
	var round []canvas.Point
	for i := range 90 {
		a := units.Angle(i) * 4 * units.Degree
		round = append(round, canvas.Point{X: 2700*mm + (300 * mm).Scale(a.Cos()), Y: 1000*mm + (300 * mm).Scale(a.Sin())})
	}
	return pattern.Roll{
		Title: "Locker and bottle on one roll", Width: 1370 * mm, Length: 4200 * mm,
		Pieces: []pattern.RollPiece{
			{Name: "wrap", Order: 2, Outline: rectangle(0, 0, 1932*mm, 376*mm)},
			{Name: "top of the deck locker", Order: 1, Outline: rectangle(0, 390*mm, 650*mm, 410*mm)},
			{Name: "round", Order: 3, Outline: round},
			{Name: "strip", Order: 4, Outline: rectangle(1940*mm, 0, 1200*mm, 40*mm)},
			{Name: "tab", Order: 12, Outline: rectangle(1940*mm, 60*mm, 60*mm, 40*mm)},
		},
		Flaws:  []canvas.Flaw{{Name: "stain", Outline: rectangle(1000*mm, 900*mm, 300*mm, 200*mm)}},
		Offcut: pattern.Zone{From: canvas.Point{X: 3150 * mm}, To: canvas.Point{X: 4200 * mm, Y: 1370 * mm}},
	}
}

// Where the pieces of a cover lie on the roll, to be drawn beside the order of cutting.
func ExampleRoll_Draw() {
	sheet, err := deckRoll().Draw()
	if err != nil {
		log.Fatal(err)
	}
	w, h := sheet.Size()
	fmt.Printf("%.0f mm by %.0f mm\n", w.Millimetres(), h.Millimetres())
	var svg bytes.Buffer
	if err := sheet.WriteSVG(&svg, "roll"); err != nil {
		log.Fatal(err)
	}
	fmt.Println(strings.Count(svg.String(), `class="roll-piece"`), "pieces drawn")
	// Output:
	// 242 mm by 144 mm
	// 5 pieces drawn
}

// A plan of two pieces on cloth alike on both sides, with a stain of three corners.
func ExampleRollOf() {
	lay := canvas.Lay{
		Rolls: []canvas.Roll{{
			Name: "acrylic", Width: 0.55, Price: 24,
			Flaws: []canvas.Flaw{{Name: "stain", Outline: []canvas.Point{{X: 0.02}, {X: 0.12}, {X: 0.02, Y: 0.1}}}},
		}},
		Pieces: []canvas.Cutting{
			{Name: "tent", Cut: []canvas.Point{{}, {X: 1}, {X: 0.5, Y: 0.5}}, Lie: canvas.OneWay, Flip: true},
			{Name: "flap", Cut: rectangle(0, 0, 0.4, 0.5), QuantityMirrored: 1},
		},
	}
	plan, err := lay.Plan(context.Background(), canvas.LayOptions{Work: 4000})
	if err != nil {
		log.Fatal(err)
	}
	roll := pattern.RollOf(lay, plan.Rolls[0])
	for _, p := range roll.Pieces {
		fmt.Println(p.Order, p.Name)
	}
	sheet, err := roll.Draw()
	if err != nil {
		log.Fatal(err)
	}
	w, h := sheet.Size()
	fmt.Printf("%s, %.2f m, drawn on %.0f mm by %.0f mm\n", roll.Title, roll.Length.Metres(), w.Millimetres(), h.Millimetres())
	// Output:
	// 1 tent, wrong side up
	// 2 flap, mirrored
	// acrylic, 1.35 m, drawn on 190 mm by 131 mm
}

// What RollOf says is what the plan says, and roll and plan do not have to fit.
func TestRollOf(t *testing.T) {
	lay := canvas.Lay{Rolls: []canvas.Roll{{Name: "a", Width: 2}, {
		Name: "b", Width: 1.4, Length: 3,
		Flaws: []canvas.Flaw{{Name: "hole", Outline: []canvas.Point{{X: 2}, {X: 3}, {X: 2, Y: 1}}}},
	}}}
	use := canvas.RollUse{
		Roll: 1, Name: "b", Used: 1.5, Bought: 3, Laid: []canvas.Laid{
			{Name: "x", Cut: rectangle(0, 0, 1, 1)},
			{Name: "y", Cut: rectangle(1, 0, 0.5, 1), Mirrored: true, Flipped: true},
		},
		Rest: canvas.Rest{From: canvas.Point{X: 1.5, Y: 0.1}, Length: 1.5, Width: 1.2},
	}
	got := pattern.RollOf(lay, use)
	want := pattern.Roll{
		Title: "b", Width: 1.4, Length: 3, Flaws: lay.Rolls[1].Flaws,
		Pieces: []pattern.RollPiece{{Name: "x", Order: 1, Outline: use.Laid[0].Cut}, {Name: "y, mirrored, wrong side up", Order: 2, Outline: use.Laid[1].Cut}},
		Offcut: pattern.Zone{From: canvas.Point{X: 1.5, Y: 0.1}, To: canvas.Point{X: 3, Y: 1.2 + 0.1}},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if got := pattern.RollOf(lay, canvas.RollUse{Name: "nothing"}); got.Offcut != (pattern.Zone{}) || len(got.Pieces) > 0 {
		t.Errorf("%+v", got)
	}
	for _, roll := range []int{-1, 2} {
		use.Roll = roll
		var e *canvas.Error
		if _, err := pattern.RollOf(lay, use).Draw(); !errors.As(err, &e) || e.Field != "Width" {
			t.Errorf("roll %d of 2: %v", roll, err)
		}
	}
}

// A flaw is drawn as its outline, as far as it lies on the roll, with its hatching inside.
func TestFlawsAreDrawnAsTheirOutlines(t *testing.T) {
	hollow := []canvas.Point{{X: 0.2, Y: 0.2}, {X: 0.8, Y: 0.2}, {X: 0.8, Y: 0.8}, {X: 0.5, Y: 0.4}, {X: 0.2, Y: 0.8}}
	for _, tt := range []struct {
		name    string
		outline []canvas.Point
		corners int
		area    float64 // m2 of the roll
	}{
		{"triangle", []canvas.Point{{X: 0.2, Y: 0.2}, {X: 0.8, Y: 0.2}, {X: 0.2, Y: 0.6}}, 3, 0.12},
		{"hollow", hollow, 5, 0.24},
		{"over the selvedge", rectangle(0.3, -0.5, 0.5, 1), 4, 0.25},
		{"over the end", rectangle(1.5, 0.2, 3, 0.4), 4, 0.2},
		{"at the corner", []canvas.Point{{X: -0.5, Y: 0.7}, {X: 0.7, Y: -0.5}, {X: 0.7, Y: 0.7}}, 5, 0.47},
		{"off the roll", rectangle(2.5, 0.2, 3, 0.4), 0, 0},
		{"all", rectangle(-1, -1, 5, 5), 4, 2},
	} {
		s, err := pattern.Roll{Width: 1, Length: 2, Flaws: []canvas.Flaw{{Outline: tt.outline}}}.Draw()
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		var b bytes.Buffer
		if err := s.WriteSVG(&b, "r"); err != nil {
			t.Fatal(err)
		}
		type figure struct {
			Class  string `xml:"class,attr"`
			Points string `xml:"points,attr"`
		}
		var doc struct {
			Polygons  []figure `xml:"polygon"`
			Polylines []figure `xml:"polyline"`
		}
		if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		read := func(f figure) (l line) {
			for _, xy := range strings.Fields(f.Points) {
				var q [2]float64
				if _, err := fmt.Sscanf(xy, "%g,%g", &q[0], &q[1]); err != nil {
					t.Fatal(err)
				}
				l = append(l, q)
			}
			return l
		}
		var ring line
		for _, f := range doc.Polygons {
			if f.Class == "r-flaw" {
				ring = read(f)
			}
		}
		if tt.corners == 0 {
			if ring != nil || strings.Contains(b.String(), ">flaw<") {
				t.Errorf("%s: %v is drawn", tt.name, ring)
			}
			continue
		}
		twice := 0.0
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			twice += p[0]*q[1] - q[0]*p[1]
		}
		const scale = 10
		if a := math.Abs(twice) / 2 * scale * scale / 1e6; len(ring) != tt.corners || math.Abs(a-tt.area) > 2e-4 {
			t.Errorf("%s: %d corners and %.4f m2, want %d and %.4f", tt.name, len(ring), a, tt.corners, tt.area)
		}
		closed := append(ring[:len(ring):len(ring)], ring[0])
		hatched := 0
		for _, f := range doc.Polylines {
			l := read(f)
			if f.Class != "r-thin" || len(l) != 2 || math.Abs(l[0][0]+l[0][1]-l[1][0]-l[1][1]) > 0.02 || l[0] == l[1] {
				continue // no hatching
			}
			hatched++
			for k := 1; k < 10; k++ { // within the outline, or on it
				f := float64(k) / 10
				x, y := l[0][0]+f*(l[1][0]-l[0][0]), l[0][1]+f*(l[1][1]-l[0][1])
				if around(closed, x, y) == 0 && off(closed, x, y) > 0.03 {
					t.Errorf("%s: hatched at %.2f, %.2f", tt.name, x, y)
				}
			}
		}
		if hatched < 20 {
			t.Errorf("%s: %d strokes", tt.name, hatched)
		}
	}
}

// As many pieces as a lay may have can be drawn.
func TestRollOfTenThousandPieces(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	r := pattern.Roll{Width: 1.5, Length: 60}
	for i := range 10000 {
		x, y := units.Length(i/20), units.Length(i%20)
		r.Pieces = append(r.Pieces, pattern.RollPiece{Name: "tab", Order: i + 1, Outline: rectangle(120*mm*x, 75*mm*y, 110*mm, 65*mm)})
	}
	s, err := r.Draw()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.WriteSVG(io.Discard, "r"); err != nil {
		t.Error(err)
	}
}

// rollSVG is what a test reads of a drawing of a roll.
type rollSVG struct {
	Polygons []struct {
		Class  string `xml:"class,attr"`
		Points string `xml:"points,attr"`
	} `xml:"polygon"`
	Texts []struct {
		X    float64 `xml:"x,attr"`
		Y    float64 `xml:"y,attr"`
		Text string  `xml:",chardata"`
	} `xml:"text"`
}

// readSVG reads a drawing whose classes begin with r.
func readSVG(t *testing.T, s *pattern.Sheet) (doc rollSVG) {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, "r"); err != nil {
		t.Fatal(err)
	}
	if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// Every piece has its number within its lines and its true size over the scale.
func TestRollIsToScale(t *testing.T) {
	r := deckRoll()
	s, err := r.Draw()
	if err != nil {
		t.Fatal(err)
	}
	doc := readSVG(t, s)
	const scale = 20.0
	var at []line
	for _, p := range doc.Polygons {
		if p.Class != "r-piece" {
			continue
		}
		var l line
		for _, xy := range strings.Fields(p.Points) {
			var q [2]float64
			if _, err := fmt.Sscanf(xy, "%g,%g", &q[0], &q[1]); err != nil {
				t.Fatal(err)
			}
			l = append(l, q)
		}
		at = append(at, l)
	}
	if len(at) != len(r.Pieces) {
		t.Fatalf("%d pieces drawn", len(at))
	}
	for i, l := range at {
		w, h := l.size()
		want := rollSize(r.Pieces[i].Outline)
		if math.Abs(w-want[0]/scale) > 0.011 || math.Abs(h-want[1]/scale) > 0.011 {
			t.Errorf("%s is drawn %v by %v, want %v over %v", r.Pieces[i].Name, w, h, want, scale)
		}
		numbers := 0
		for _, word := range doc.Texts {
			x, y := l.box()
			if word.Text == fmt.Sprint(r.Pieces[i].Order) && word.X > x[0] && word.X < x[1] && word.Y > y[0]-1 && word.Y < y[1]+1 {
				numbers++
			}
		}
		if numbers != 1 {
			t.Errorf("%s bears %d numbers", r.Pieces[i].Name, numbers)
		}
	}
	text := ""
	for _, word := range doc.Texts {
		text += word.Text + "\n"
	}
	for _, want := range []string{"stain\n", "left over: 1050 × 1370 mm", "1 : 20", "1932 × 376 at 0, 0"} {
		if !strings.Contains(text, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
}

func (l line) box() (x, y [2]float64) {
	x, y = [2]float64{l[0][0], l[0][0]}, [2]float64{l[0][1], l[0][1]}
	for _, p := range l {
		x[0], x[1] = math.Min(x[0], p[0]), math.Max(x[1], p[0])
		y[0], y[1] = math.Min(y[0], p[1]), math.Max(y[1], p[1])
	}
	return x, y
}

func rollSize(outline []canvas.Point) (out [2]float64) {
	var l line
	for _, p := range outline {
		l = append(l, [2]float64{p.X.Millimetres(), p.Y.Millimetres()})
	}
	out[0], out[1] = l.size()
	return out
}

func TestRollRefuses(t *testing.T) {
	nan := units.Length(math.NaN())
	for name, c := range map[string]struct {
		change func(*pattern.Roll)
		field  string
		err    error
	}{
		"no width":   {func(r *pattern.Roll) { r.Width = 0 }, "Width", canvas.ErrInput},
		"endless":    {func(r *pattern.Roll) { r.Length = units.Length(math.Inf(1)) }, "Length", canvas.ErrInput},
		"empty":      {func(r *pattern.Roll) { r.Pieces[1].Outline = nil }, "Pieces[1].Outline", canvas.ErrInput},
		"not finite": {func(r *pattern.Roll) { r.Pieces[0].Outline[2].X = nan }, "Pieces[0].Outline", canvas.ErrInput},
		"outside":    {func(r *pattern.Roll) { r.Pieces[0].Outline[2].Y = 2 }, "Pieces[0].Outline", canvas.ErrInput},
		"flat":       {func(r *pattern.Roll) { r.Pieces[0].Outline = rectangle(0, 0, 1, 0) }, "Pieces[0].Outline", canvas.ErrOutline},
		"crossing": {func(r *pattern.Roll) {
			o := r.Pieces[0].Outline
			o[0], o[1] = o[1], o[0]
		}, "Pieces[0].Outline", canvas.ErrOutline},
		"flaw of two points":   {func(r *pattern.Roll) { r.Flaws[0].Outline = r.Flaws[0].Outline[:2] }, "Flaws[0].Outline", canvas.ErrInput},
		"flaw without an end":  {func(r *pattern.Roll) { r.Flaws[0].Outline[1].Y = nan }, "Flaws[0].Outline", canvas.ErrInput},
		"offcut outside":       {func(r *pattern.Roll) { r.Offcut.To.X = 5 }, "Offcut", canvas.ErrInput},
		"offcut the wrong way": {func(r *pattern.Roll) { r.Offcut.From, r.Offcut.To = r.Offcut.To, r.Offcut.From }, "Offcut", canvas.ErrInput},
		"too many":             {func(r *pattern.Roll) { r.Flaws = make([]canvas.Flaw, 9996) }, "Pieces", canvas.ErrInput},
	} {
		r := deckRoll()
		c.change(&r)
		_, err := r.Draw()
		var e *canvas.Error
		if !errors.As(err, &e) || !errors.Is(err, c.err) || e.Field != c.field {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Nothing on it yet is a drawing too, and so are very long and very short rolls.
	for _, l := range []units.Length{0.05, 3, 100} {
		s, err := pattern.Roll{Width: 0.1, Length: l}.Draw()
		if err != nil {
			t.Fatal(err)
		}
		if err := s.WriteTiled(io.Discard, pattern.A4); err != nil {
			t.Error(err)
		}
	}
}

// A piece too narrow for its number has it beside, clear of every piece; where others
// hem it in, farther off with a line to it.
func TestNumberBesideANarrowPiece(t *testing.T) {
	for _, hemmed := range []bool{false, true} {
		r := deckRoll()
		r.Pieces = []pattern.RollPiece{{Name: "half of a ring", Order: 7, Outline: []canvas.Point{
			{X: 500 * mm, Y: 500 * mm},
			{X: 545 * mm, Y: 500 * mm},
			{X: 545 * mm, Y: 512 * mm},
			{X: 512 * mm, Y: 512 * mm},
			{X: 512 * mm, Y: 558 * mm},
			{X: 545 * mm, Y: 558 * mm},
			{X: 545 * mm, Y: 570 * mm},
			{X: 500 * mm, Y: 570 * mm},
		}}}
		if hemmed {
			for k, c := range [][4]units.Length{{460, 440, 120, 55}, {460, 575, 120, 55}, {440, 500, 55, 70}, {550, 500, 55, 70}} {
				r.Pieces = append(r.Pieces, pattern.RollPiece{Name: "hem", Order: 10 + k, Outline: rectangle(c[0]*mm, c[1]*mm, c[2]*mm, c[3]*mm)})
			}
		}
		s, err := r.Draw()
		if err != nil {
			t.Fatal(err)
		}
		doc := readSVG(t, s)
		var number *[2]float64
		for _, text := range doc.Texts {
			if text.Text == "7" { // the one on the cloth comes before that in the list
				number = &[2]float64{text.X, text.Y}
				break
			}
		}
		if number == nil {
			t.Fatal("no number")
		}
		pieces := 0
		for _, p := range doc.Polygons {
			if p.Class != "r-piece" {
				continue
			}
			pieces++
			lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
			for _, xy := range strings.Fields(p.Points) {
				var q [2]float64
				if _, err := fmt.Sscanf(xy, "%g,%g", &q[0], &q[1]); err != nil {
					t.Fatal(err)
				}
				for k := range q {
					lo[k], hi[k] = min(lo[k], q[k]), max(hi[k], q[k])
				}
			}
			if number[0] > lo[0] && number[0] < hi[0] && number[1] > lo[1] && number[1] < hi[1] {
				t.Errorf("hemmed in %v: the number stands at %v on a piece from %v to %v", hemmed, *number, lo, hi)
			}
		}
		if pieces != len(r.Pieces) {
			t.Errorf("%d pieces", pieces)
		}
	}
}

// Names of flaws stay on the sheet, and off the scale, the numbers of pieces and one another.
func TestNamesOfFlaws(t *testing.T) {
	r := pattern.Roll{
		Title: "roll", Width: 1.5, Length: 3,
		Pieces: []pattern.RollPiece{
			{Name: "a", Order: 1, Outline: rectangle(0.05, 0.05, 0.9, 0.6)},
			{Name: "b", Order: 2, Outline: rectangle(0.1, 0.72, 0.7, 0.7)},
			{Name: "c", Order: 3, Outline: rectangle(1.2, 0.02, 0.5, 0.3)},
			{Name: "d", Order: 4, Outline: rectangle(1.2, 0.35, 0.5, 0.2)},
			{Name: "e", Order: 5, Outline: rectangle(1.2, 0.6, 0.5, 0.8)},
		},
		Flaws: []canvas.Flaw{
			{Name: "a stain of diesel beside the end", Outline: rectangle(0, 0.66, 0.02, 0.05)},
			{Name: "join of two rolls", Outline: rectangle(1.05, 0, 0.05, 1.5)},
			{Name: "a very long name of a tear at the far end", Outline: rectangle(2.9, 1.2, 0.1, 0.1)},
			{Name: "spot", Outline: rectangle(1.4, 0.56, 0.03, 0.03)},
			{Name: "at the number", Outline: rectangle(1.4, 0.36, 0.1, 0.02)},
			{Outline: rectangle(2, 0, 0.1, 0.05)},
			{Name: "another", Outline: rectangle(2.05, 0.06, 0.1, 0.05)},
		},
	}
	s, err := r.Draw()
	if err != nil {
		t.Fatal(err)
	}
	p := draw(t, s)
	p.inside(t)
	type rect struct{ x0, y0, x1, y1 float64 }
	var words []rect
	for _, w := range p.texts {
		long := svg.TextWidth(w.text, 3)
		lo := map[string]float64{"": w.x, "middle": w.x - long/2, "end": w.x - long}[w.anchor]
		words = append(words, rect{lo, w.y - 2.2, lo + long, w.y})
	}
	found := 0
	for i, a := range words {
		text := p.texts[i].text
		if !strings.ContainsAny(text, "abcdefghijklmnopqrstuvwxyz") || len(text) < 4 || p.texts[i].anchor != "middle" {
			continue
		}
		found++
		for k, b := range words {
			if k != i && a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q lies on %q", text, p.texts[k].text)
			}
		}
		for _, l := range p.lines["thin"] { // the scale, and the hatching
			x, y := l.box()
			if level := y[1]-y[0] < 0.01 && x[1]-x[0] > 50; level && a.y0 < y[1] && a.y1 > y[0] && a.x0 < x[1] && a.x1 > x[0] {
				t.Errorf("%q lies on the scale", text)
			}
		}
	}
	if found < 7 {
		t.Errorf("%d names", found)
	}
}
