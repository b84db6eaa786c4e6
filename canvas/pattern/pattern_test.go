package pattern_test

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

func bottle(t testing.TB) []canvas.Piece {
	t.Helper()
	v, err := canvas.BottleCover{
		Name: "Bottle cover", Diameter: 300 * mm, Height: 400 * mm, Rise: 150 * mm, Gores: 8, Ease: 10 * mm, Clearance: 40 * mm,
		Valve: 110 * mm, Hose: 30 * mm, HoseHeight: 300 * mm, Seam: 12 * mm, Hem: 20 * mm,
	}.Cover()
	if err != nil {
		t.Fatal(err)
	}
	p, err := v.Pieces(canvas.Cloth{Thickness: 0.5 * mm, Warp: -0.01})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func lay(t testing.TB, pieces []canvas.Piece, width units.Length) *pattern.Sheet {
	t.Helper()
	s, err := pattern.FullSize("Bottle cover", pieces, width)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// line is a polyline read back, in millimetres, Y down.
type line [][2]float64

// sizes are width and height of a line.
func (l line) size() (w, h float64) {
	lo, hi := l[0], l[0]
	for _, p := range l {
		for k := range 2 {
			lo[k], hi[k] = math.Min(lo[k], p[k]), math.Max(hi[k], p[k])
		}
	}
	return hi[0] - lo[0], hi[1] - lo[1]
}

// perimeter is that of a closed line.
func (l line) perimeter() float64 {
	sum := 0.0
	for i, p := range l {
		q := l[(i+1)%len(l)]
		sum += math.Hypot(q[0]-p[0], q[1]-p[1])
	}
	return sum
}

// check finds the one square of a side in mm and every cut line among lines read back.
func check(t *testing.T, lines []line, pieces []canvas.Piece, side, tol float64) {
	t.Helper()
	squares := 0
	for _, l := range lines {
		if w, h := l.size(); len(l) == 4 && math.Abs(w-side) < tol && math.Abs(h-side) < tol {
			squares++
		}
	}
	if squares != 1 {
		t.Errorf("%d squares of %v mm", squares, side)
	}
	for _, p := range pieces {
		best := math.Inf(1)
		for _, l := range lines {
			if len(l) != len(p.Cut) {
				continue
			}
			// Distances from the first point to all others do not care where it lies.
			worst := 0.0
			for i, q := range p.Cut {
				want := math.Hypot((q.X - p.Cut[0].X).Millimetres(), (q.Y - p.Cut[0].Y).Millimetres())
				worst = math.Max(worst, math.Abs(math.Hypot(l[i][0]-l[0][0], l[i][1]-l[0][1])-want))
			}
			best = math.Min(best, worst)
		}
		if best > tol {
			t.Errorf("the cut line of %s is off by %v mm", p.Name, best)
		}
	}
}

// The SVG, read back by a parser of XML, is in millimetres and 1:1.
func TestSVGIsTrueToScale(t *testing.T) {
	pieces := bottle(t)
	s := lay(t, pieces, 1500*mm)
	var b bytes.Buffer
	if err := s.WriteSVG(&b, "p"); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Width    string `xml:"width,attr"`
		ViewBox  string `xml:"viewBox,attr"`
		Polygons []struct {
			Points string `xml:"points,attr"`
		} `xml:"polygon"`
		Texts []struct {
			Text string `xml:",chardata"`
		} `xml:"text"`
	}
	if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	width, _ := s.Size()
	if w, err := strconv.ParseFloat(strings.TrimSuffix(doc.Width, "mm"), 64); err != nil || math.Abs(w-width.Millimetres()) > 0.01 || !strings.HasPrefix(doc.ViewBox, fmt.Sprintf("0 0 %v ", w)) {
		t.Errorf("width %s, viewBox %s, want %v", doc.Width, doc.ViewBox, width)
	}
	var lines []line
	for _, p := range doc.Polygons {
		var l line
		for _, xy := range strings.Fields(p.Points) {
			var q [2]float64
			if _, err := fmt.Sscanf(xy, "%g,%g", &q[0], &q[1]); err != nil {
				t.Fatal(err)
			}
			l = append(l, q)
		}
		lines = append(lines, l)
	}
	check(t, lines, pieces, 100, 0.015)
	words := ""
	for _, w := range doc.Texts {
		words += w.Text + " "
	}
	for _, want := range []string{"100 mm × 100 mm", "CAUTION, GAS", "gore", "cut 8", "wall", "seam 12 mm"} {
		if !strings.Contains(words, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
}

var (
	streams = regexp.MustCompile(`(?s)stream\r?\n(.*?)\r?\nendstream`)
	boxes   = regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)
	text    = regexp.MustCompile(`\((?:\\.|[^\\)])*\)`)
	ops     = regexp.MustCompile(`(-?[0-9.]+) (-?[0-9.]+) ([ml])\s|([sS])\s`)
)

// readPDF takes the paths out of each page, knowing nothing of the writer: it
// unpacks the streams and reads the operators m, l, s and S.
func readPDF(t *testing.T, file []byte) (pages [][]line) {
	t.Helper()
	for _, m := range streams.FindAllSubmatch(file, -1) {
		z, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue // a font, not a page
		}
		page, err := io.ReadAll(z)
		if err != nil {
			t.Fatal(err)
		}
		var lines []line
		var now line
		for _, o := range ops.FindAllSubmatch(text.ReplaceAll(page, nil), -1) {
			if len(o[4]) > 0 {
				if len(now) > 0 {
					lines = append(lines, now)
				}
				now = nil
				continue
			}
			x, _ := strconv.ParseFloat(string(o[1]), 64)
			y, _ := strconv.ParseFloat(string(o[2]), 64)
			if string(o[3]) == "m" {
				now = nil
			}
			now = append(now, [2]float64{x * 25.4 / 72, -y * 25.4 / 72})
		}
		pages = append(pages, lines)
	}
	return pages
}

func TestPDFIsTrueToScale(t *testing.T) {
	pieces := bottle(t)
	s := lay(t, pieces, 1500*mm)
	var b, again bytes.Buffer
	if err := s.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if err := lay(t, pieces, 1500*mm).WritePDF(&again); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Errorf("the same sheet gives another file: %v", err)
	}
	w, h := s.Size()
	found := false
	for _, m := range boxes.FindAllSubmatch(b.Bytes(), -1) {
		x, _ := strconv.ParseFloat(string(m[1]), 64)
		y, _ := strconv.ParseFloat(string(m[2]), 64)
		found = found || math.Abs(x*25.4/72-w.Millimetres()) < 0.01 && math.Abs(y*25.4/72-h.Millimetres()) < 0.01
	}
	if !found {
		t.Errorf("no page of %v by %v", w, h)
	}
	pages := readPDF(t, b.Bytes())
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	check(t, pages[0], pieces, 100, 0.01)
}

func TestTiles(t *testing.T) {
	pieces := bottle(t)
	s := lay(t, pieces, 1500*mm)
	for name, paper := range map[string]pattern.Paper{"A4": pattern.A4, "A3": pattern.A3, "Letter": pattern.Letter} {
		var b bytes.Buffer
		if err := s.WriteTiled(&b, paper); err != nil {
			t.Fatal(err)
		}
		pages := readPDF(t, b.Bytes())
		w, h := s.Size()
		most := 1 + math.Ceil((w.Millimetres()-10)/(paper.Width.Millimetres()-30))*math.Ceil((h.Millimetres()-10)/(paper.Height.Millimetres()-40))
		if len(pages) < 4 || float64(len(pages)) > most {
			t.Errorf("%s: %d pages, at most %v", name, len(pages), most)
		}
		// Every tile bears the line of 100 mm; together they hold the whole drawing.
		all := pages[0] // with the square
		for i, page := range pages[1:] {
			all = append(all, page...)
			ruler := false
			for _, l := range page {
				if w, h := l.size(); len(l) == 2 && math.Abs(w-100) < 0.01 && h < 0.01 {
					ruler = true
				}
			}
			if !ruler {
				t.Errorf("%s: page %d has no line of 100 mm", name, i+2)
			}
		}
		check(t, all, pieces, 100, 0.01)
		// What two neighbours both show is moved by a step from one to the other.
		shared, step := 0, 0.0
		for i := 2; i < len(pages); i++ {
			for _, a := range pages[i-1] {
				for _, c := range pages[i] {
					if len(a) < 5 || len(a) != len(c) || math.Abs(a.perimeter()-c.perimeter()) > 1e-3 || math.Abs(a[0][1]-c[0][1]) > 0.01 {
						continue
					}
					shared++
					moved := a[0][0] - c[0][0]
					if step == 0 { // all pages stand or all lie
						step = paper.Width.Millimetres() - 30
						if lying := paper.Height.Millimetres() - 30; math.Abs(moved-lying) < math.Abs(moved-step) {
							step = lying
						}
					}
					if math.Abs(moved-step) > 0.01 {
						t.Errorf("%s: page %d is moved by %v mm, want %v", name, i+1, moved, step)
					}
				}
			}
		}
		if shared < 3 {
			t.Errorf("%s: neighbours share %d lines", name, shared)
		}
	}
}

func TestRefuses(t *testing.T) {
	pieces := bottle(t)
	if _, err := pattern.FullSize("none", nil, 1); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no pieces: %v", err)
	}
	for _, w := range []units.Length{0, -1, units.Length(math.NaN()), units.Length(math.Inf(1))} {
		if _, err := pattern.FullSize("w", pieces, w); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("width %v: %v", w, err)
		}
	}
	if _, err := pattern.FullSize("w", []canvas.Piece{{Name: "empty"}}, 1); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("a piece without an outline: %v", err)
	}
	far := canvas.Piece{Name: "far", Cut: []canvas.Point{{}, {X: units.Length(math.Inf(1))}, {Y: 1}}}
	if _, err := pattern.FullSize("w", []canvas.Piece{far}, 1); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("an endless piece: %v", err)
	}
	long := canvas.Piece{Name: "long", Cut: []canvas.Point{{}, {X: 6}, {X: 6, Y: 1}, {Y: 1}}}
	s, err := pattern.FullSize("long", []canvas.Piece{long}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.WritePDF(io.Discard); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("a page of 6 m: %v", err)
	}
	if err := s.WriteTiled(io.Discard, pattern.A4); err != nil {
		t.Errorf("tiled: %v", err)
	}
	if err := s.WriteTiled(io.Discard, pattern.Paper{Width: 50 * mm, Height: 50 * mm}); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("on stamps: %v", err)
	}
}

func FuzzLay(f *testing.F) {
	f.Add("name", "note", 0.5, 0.3, 1.5, uint8(3))
	f.Add("<&>\xff", "\u0000é漢", 1e-5, 90.0, 0.1, uint8(0))
	f.Add("", "", -1.0, 1.0, 2.0, uint8(9))
	f.Fuzz(func(t *testing.T, name, note string, w, h, width float64, n uint8) {
		x, y := units.Length(w), units.Length(h)
		p := canvas.Piece{
			Name: name, Quantity: int(n), Notes: []string{note}, Cut: []canvas.Point{{}, {X: x}, {X: x, Y: y}, {Y: y}},
			Sew: [][]canvas.Point{{{}, {X: x}}}, Edges: []string{note}, Grain: units.Angle(n),
			Marks: []canvas.Mark{{Seam: name, Number: int(n), At: canvas.Point{X: x / 2}, To: canvas.Point{X: x / 2, Y: -1 * mm}}},
		}
		s, err := pattern.FullSize(name, []canvas.Piece{p, p}, units.Length(width))
		if err != nil {
			if !errors.Is(err, canvas.ErrInput) && !errors.Is(err, canvas.ErrOutline) {
				t.Fatal(err)
			}
			return
		}
		var b bytes.Buffer
		if err := s.WriteSVG(&b, "p"); err != nil {
			t.Fatal(err)
		}
		if err := xml.Unmarshal(b.Bytes(), new(struct{})); err != nil {
			t.Fatal(err)
		}
		errs := []error{s.WritePDF(io.Discard), pattern.WritePolylines(&b, []canvas.Piece{p}, mm), pattern.WriteOffsets(&b, p, mm)}
		if o, err := pattern.Overview(name, []canvas.Piece{p}, units.Length(width)); err != nil {
			errs = append(errs, err)
		} else {
			errs = append(errs, o.WriteSVG(io.Discard, "o"))
		}
		roll := pattern.Roll{
			Title: note, Width: units.Length(width), Length: x, Pieces: []pattern.RollPiece{{Name: name, Order: int(n), Outline: p.Cut}},
			Flaws: []canvas.Flaw{{Name: name, Outline: []canvas.Point{{}, {X: x / 2}, {X: x / 2, Y: y}, {Y: y}}}}, Offcut: pattern.Zone{Name: note, From: canvas.Point{X: x / 2}, To: p.Cut[2]},
		}
		if o, err := roll.Draw(); err != nil {
			errs = append(errs, err)
		} else {
			errs = append(errs, o.WriteSVG(io.Discard, "r"), o.WritePDF(io.Discard))
		}
		if w, h := s.Size(); w < 3 && h < 3 { // or it takes hundreds of pages
			errs = append(errs, s.WriteTiled(io.Discard, pattern.A4))
		}
		for _, err := range errs {
			if err != nil && !errors.Is(err, canvas.ErrInput) && !errors.Is(err, canvas.ErrOutline) {
				t.Fatal(err)
			}
		}
	})
}

// The arrow of the grain keeps off what is written beside the edges.
func TestArrowKeepsOffWords(t *testing.T) {
	for _, high := range []units.Length{60 * mm, 90 * mm, 120 * mm, 150 * mm, 180 * mm} {
		for grain := 80.0; grain <= 100; grain += 2 {
			name := strings.Repeat("strip ", 1+int(grain)%7)
			v := canvas.Cover{Title: "strip", Panels: []canvas.Panel{{Name: name, Grain: units.Degree.Scale(grain), Edges: []canvas.Edge{
				{Name: "a long name of a lower edge", From: canvas.Point{}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}},
				{Name: "right", From: canvas.Point{X: 300 * mm, Y: -high / 4}},
				{Name: "a long name of an upper edge", From: canvas.Point{X: 290 * mm, Y: high}, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: 12 * mm}},
				{Name: "left", From: canvas.Point{X: 10 * mm, Y: high}},
			}}}}
			pieces, err := v.Pieces(canvas.Cloth{})
			if err != nil {
				t.Fatal(err)
			}
			s, err := pattern.FullSize("strip", pieces, 2*units.Metre)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := s.WriteSVG(&b, "p"); err != nil {
				t.Fatal(err)
			}
			var doc struct {
				Lines []struct {
					Class  string `xml:"class,attr"`
					Points string `xml:"points,attr"`
				} `xml:"polyline"`
				Texts []struct {
					X    float64 `xml:"x,attr"`
					Y    float64 `xml:"y,attr"`
					Text string  `xml:",chardata"`
				} `xml:"text"`
			}
			if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
				t.Fatal(err)
			}
			arrows := 0
			for _, l := range doc.Lines {
				if l.Class != "p-thin" {
					continue
				}
				arrows++
				var ends [][2]float64
				for _, xy := range strings.Fields(l.Points) {
					var q [2]float64
					if _, err := fmt.Sscanf(xy, "%g,%g", &q[0], &q[1]); err != nil {
						t.Fatal(err)
					}
					ends = append(ends, q)
				}
				for _, text := range doc.Texts {
					if !strings.Contains(text.Text, "long name") {
						continue
					}
					half := svg.TextWidth(text.Text, 3) / 2 // centred on its place
					for i := range 201 {
						s := float64(i) / 200
						a, z := ends[0], ends[len(ends)-1]
						if x, y := a[0]+s*(z[0]-a[0]), a[1]+s*(z[1]-a[1]); math.Abs(x-text.X) < half && y > text.Y-2 && y < text.Y+0.3 {
							t.Errorf("%v high, grain %v: the arrow lies on %q", high, grain, text.Text)
							break
						}
					}
				}
			}
			if arrows == 0 {
				t.Errorf("%v high, grain %v: no arrow", high, grain)
			}
		}
	}
}

// A prefix is written as it is, so that it must not be markup.
func TestPrefixOfASheet(t *testing.T) {
	s, err := pattern.FullSize("p", []canvas.Piece{{Name: "p", Quantity: 1, Cut: []canvas.Point{{}, {X: 0.2}, {Y: 0.2}}}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, prefix := range []string{`x"><script>`, "A", "1", "a b", "é"} {
		var b bytes.Buffer
		var e *canvas.Error
		if err := s.WriteSVG(&b, prefix); !errors.As(err, &e) || e.Field != "prefix" || b.Len() > 0 {
			t.Errorf("%q: %v, %d bytes", prefix, err, b.Len())
		}
	}
	var b bytes.Buffer
	if err := s.WriteSVG(&b, ""); err != nil || !strings.Contains(b.String(), `id="pattern-title"`) {
		t.Errorf("%v", err)
	}
}

// Names that PDF could only write as rows of dots are refused by name.
func TestLettersOfPDF(t *testing.T) {
	for name, ok := range map[string]bool{
		"left": true, "Überzug, größer … „quer“ – 5 €": true, "ÀÿŒœŠšŽž": true, "": true, "a.b": true,
		"Чехол левый": false, "κάλυμμα": false, "罩": false, "żagiel": false, "\xff": false,
	} {
		cut := []canvas.Point{{}, {X: 0.2}, {X: 0.2, Y: 0.2}, {Y: 0.2}}
		for _, p := range []canvas.Piece{{Name: name, Quantity: 1, Cut: cut}, {Name: "p", Notes: []string{"mind", name}, Quantity: 1, Cut: cut}} {
			s, err := pattern.FullSize("title", []canvas.Piece{p}, 1)
			if err != nil {
				t.Fatal(err)
			}
			for _, err := range []error{s.WritePDF(io.Discard), s.WriteTiled(io.Discard, pattern.A4)} {
				if ok && err != nil || !ok && (!errors.Is(err, canvas.ErrInput) || !strings.Contains(err.Error(), "SVG")) {
					t.Errorf("%q: %v", name, err)
				}
			}
			if err := s.WriteSVG(io.Discard, "p"); err != nil {
				t.Errorf("%q: %v", name, err)
			}
		}
	}
}
