package pattern_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"log"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

const inch = units.Inch

// inInches is a bottle's cover as an owner with an inch tape has it.
func inInches(t testing.TB) []canvas.Piece {
	t.Helper()
	v, err := canvas.BottleCover{
		Name: "Bottle cover", Diameter: 12 * inch, Height: 16 * inch, Rise: 6 * inch, Gores: 8, Ease: 0.375 * inch, Clearance: 1.5 * inch,
		Valve: 4.5 * inch, Hose: 1.25 * inch, HoseHeight: 12 * inch, Seam: 0.5 * inch, Hem: 0.75 * inch, Imperial: true,
	}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	pieces, err := v.Pieces(canvas.Cloth{Thickness: 0.02 * inch, Warp: -0.01})
	if err != nil {
		t.Fatal(err)
	}
	return pieces
}

var metricWord = regexp.MustCompile(`[0-9] ?(mm|cm|m|kN|N)\b|\bmm\b|metre`)

// says fails where words lack one, or have one that is metric.
func says(t *testing.T, name, words string, want ...string) {
	t.Helper()
	if found := metricWord.FindString(words); found != "" {
		t.Errorf("%s: %q in %q", name, found, words)
	}
	for _, w := range want {
		if !strings.Contains(words, w) {
			t.Errorf("%s does not say %q: %q", name, w, words)
		}
	}
}

func (p picture) words() string {
	var b strings.Builder
	for _, w := range p.texts {
		b.WriteString(w.text + " ")
	}
	return b.String()
}

// pdfWords are the words of each page, in the order in which they are written.
func pdfWords(t *testing.T, file []byte) (pages []string) {
	t.Helper()
	unescape := strings.NewReplacer(`\(`, "(", `\)`, ")", `\\`, `\`, "\xd7", "×")
	for _, m := range streams.FindAllSubmatch(file, -1) {
		z, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue // a font, not a page
		}
		page, err := io.ReadAll(z)
		if err != nil {
			t.Fatal(err)
		}
		words := ""
		for _, w := range text.FindAll(page, -1) {
			words += unescape.Replace(string(w[1:len(w)-1])) + " "
		}
		pages = append(pages, words)
	}
	return pages
}

// The square, the line on every page and all words are for an inch tape; the cut lines
// are true as ever.
func TestImperialIsTrueToScale(t *testing.T) {
	const side = 4 * 25.4
	pieces := inInches(t)
	s := lay(t, pieces, 60*inch)
	p := draw(t, s)
	p.inside(t)
	says(t, "SVG", p.words(), "4 in × 4 in", "seam 1/2 in", "close it every 6 in", "hem 3/4 in")
	check(t, p.lines["cut"], pieces, side, 0.015)

	var one bytes.Buffer
	if err := s.WritePDF(&one); err != nil {
		t.Fatal(err)
	}
	says(t, "PDF", strings.Join(pdfWords(t, one.Bytes()), ""), "4 in × 4 in", "seam 1/2 in")
	check(t, readPDF(t, one.Bytes())[0], pieces, side, 0.01)

	var b bytes.Buffer
	if err := s.WriteTiled(&b, pattern.Letter); err != nil {
		t.Fatal(err)
	}
	pages, words := readPDF(t, b.Bytes()), pdfWords(t, b.Bytes())
	if len(pages) != len(words) || len(pages) < 4 {
		t.Fatalf("%d pages, %d with words", len(pages), len(words))
	}
	says(t, "first page", words[0], "4 in × 4 in", "line on every page: 4 in", "wall: cut 1, 40 1/4 in × 16 1/8 in")
	check(t, pages[0], nil, side, 0.01)
	for i, page := range pages[1:] {
		says(t, fmt.Sprintf("page %d", i+2), words[i+1], "4 in")
		ruler := false
		for _, l := range page {
			w, h := l.size()
			ruler = ruler || len(l) == 2 && math.Abs(w-side) < 0.01 && h < 0.01
		}
		if !ruler {
			t.Errorf("page %d has no line of 4 in", i+2)
		}
	}
}

// What is drawn small has its sizes to a sixteenth, its pulls in pounds and its scale in feet.
func TestImperialDrawings(t *testing.T) {
	cover := func() (*pattern.Sheet, error) { return pattern.Overview("What is to be cut", inInches(t), 190*mm) }
	awning := func() (*pattern.Sheet, error) {
		a := foredeck()
		a.Imperial = true
		p, err := a.Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
		if err != nil {
			return nil, err
		}
		return pattern.AwningPlan(p)
	}
	roll := func() (*pattern.Sheet, error) {
		r := deckRoll()
		r.Imperial = true
		return r.Draw()
	}
	bias := func() (*pattern.Sheet, error) {
		r, err := pattern.BiasStrips(canvas.BiasBinding{Length: 16 * units.Foot, Width: 2 * inch, Roll: 54 * inch, Imperial: true})
		if err != nil {
			return nil, err
		}
		return r.Draw()
	}
	for name, k := range map[string]struct {
		draw func() (*pattern.Sheet, error)
		want []string
	}{
		"overview": {cover, []string{"Sizes in inches", "40 1/4 16 1/8 wall"}},
		"awning":   {awning, []string{"Finished sizes in inches", "chord 94 1/2", "457 lbf corner 1", "11 lbf of it down", "close it every 6 in"}},
		"roll": {roll, []string{
			"13 ft 9 3/8 in of cloth 53 15/16 in wide", "0 ft", "left over: 41 5/16 in × 53 15/16 in", "from the lower selvedge, in inches", "76 1/16 × 14 13/16 at 0, 0",
		}},
		"binding": {bias, []string{"Bias binding, 16 ft long and 2 in wide", "what the list says, about every 2 13/16 in", "below from 2 13/16 to 5 11/16, above from 56 13/16 to 59 11/16 inches"}},
	} {
		s, err := k.draw()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		p := draw(t, s)
		p.inside(t)
		says(t, name, p.words(), k.want...)
	}
}

// The marks of the roll's scale stand where their feet are.
func TestRulerInFeet(t *testing.T) {
	for _, long := range []units.Length{3 * units.Foot, 14 * units.Foot, 100 * units.Foot} {
		s, err := pattern.Roll{Width: 54 * inch, Length: long, Imperial: true}.Draw()
		if err != nil {
			t.Fatal(err)
		}
		p := draw(t, s)
		var scale, base, zero float64
		for _, w := range p.texts {
			if at := strings.Index(w.text, "drawn 1 : "); at >= 0 {
				_, _ = fmt.Sscanf(w.text[at:], "drawn 1 : %g.", &scale)
			}
			if w.text == "0 ft" {
				zero, base = w.x, w.y
			}
		}
		marks := 0
		for _, w := range p.texts {
			var feet float64
			if _, err := fmt.Sscanf(w.text, "%g", &feet); err != nil || w.y != base || feet == 0 {
				continue
			}
			marks++
			if want := zero + feet*304.8/scale; math.Abs(w.x-want) > 0.011 {
				t.Errorf("%v: %s stands at %v, want %v", long, w.text, w.x, want)
			}
		}
		if marks < 3 || scale == 0 {
			t.Errorf("%v: %d marks at 1 : %v", long, marks, scale)
		}
	}
}

// A table in inches marks the same points, to half a sixteenth.
func TestOffsetsInInches(t *testing.T) {
	for _, p := range inInches(t) {
		var b bytes.Buffer
		if err := pattern.WriteOffsets(&b, p, 2*mm); err != nil {
			t.Fatal(err)
		}
		says(t, p.Name, b.String(), "to next   (inches)", "that is the cut line, to 1/8 in.")
		points, err := p.MarkingOut(2 * mm)
		if err != nil {
			t.Fatal(err)
		}
		row := regexp.MustCompile(`(?m)^ *([0-9]+)  +([0-9 /]+?)  +([0-9 /]+?)  +([0-9 /]+)$`)
		rows := row.FindAllStringSubmatch(b.String(), -1)
		if len(rows) != len(points) {
			t.Fatalf("%s: %d rows for %d points", p.Name, len(rows), len(points))
		}
		for i, r := range rows {
			for k, want := range []units.Length{points[i].X, points[i].Y} {
				if got, err := units.ParseLength(r[k+2] + " in"); err != nil || (got-want).Abs() > units.Inch/31 {
					t.Errorf("%s, point %d: %q for %v, %v", p.Name, i+1, r[k+2], want, err)
				}
			}
		}
	}
}

// What a canvas worker with an inch tape is given.
func ExampleWriteOffsets_inches() {
	piece := canvas.Piece{
		Name: "flap", Quantity: 2, Imperial: true,
		Cut: []canvas.Point{{}, {X: 23.625 * units.Inch}, {X: 23.625 * units.Inch, Y: 12.5 * units.Inch}, {Y: 12.5 * units.Inch}},
	}
	var table bytes.Buffer
	if err := pattern.WriteOffsets(&table, piece, units.Millimetre); err != nil {
		log.Fatal(err)
	}
	_, rows, _ := strings.Cut(table.String(), "The warp lies along the baseline.\n\n")
	fmt.Print(rows)
	// Output:
	// point      along     square    to next   (inches)
	//     1          0          0     23 5/8
	//     2     23 5/8          0     12 1/2
	//     3     23 5/8     12 1/2     23 5/8
	//     4          0     12 1/2     12 1/2
}
