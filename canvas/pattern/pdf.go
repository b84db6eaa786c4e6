package pattern

import (
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-pdf/fpdf"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/units"
)

func sorted(m map[string]float64) []string { return slices.Sorted(maps.Keys(m)) }

// Paper is a size of paper, upright.
type Paper struct{ Width, Height units.Length }

// Papers for WriteTiled.
var (
	A4     = Paper{210 * units.Millimetre, 297 * units.Millimetre}
	A3     = Paper{297 * units.Millimetre, 420 * units.Millimetre}
	Letter = Paper{8.5 * units.Inch, 11 * units.Inch}
)

const (
	// widest is what a page of PDF may measure: 200 inches.
	widest = 200 * 25.4
	// unprinted is the margin that common printers leave white, mm.
	unprinted = 10.0
	// overlap of neighbouring tiles, mm.
	overlap = 10.0
	// footer is below the part of the pattern on a tile, mm.
	footer = 10.0
)

// writer is a PDF in millimetres.
type writer struct {
	*fpdf.Fpdf
	latin func(string) string
}

func newPDF(title string, width, height float64) *writer {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: width, Ht: height}})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	// The standard fonts have the letters of western Europe, see western; the writer
	// panics on text that is not UTF-8.
	table := f.UnicodeTranslatorFromDescriptor("")
	latin := func(s string) string { return table(strings.ToValidUTF8(s, "?")) }
	f.SetTitle(latin(title), false)
	// The same pattern gives the same file, byte for byte.
	f.SetCatalogSort(true)
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	return &writer{f, latin}
}

// western refuses words that the standard fonts have no letters for. Written all the same
// they would be rows of dots, and a left part could not be told from a right one.
func (s *Sheet) western() error {
	table := newPDF("", 100, 100).latin
	for _, t := range append([]word{{text: s.title}}, s.words...) {
		for _, r := range t.text {
			if r == utf8.RuneError || r > unicode.MaxASCII && table(string(r)) == "." {
				return refuse("Sheet", strconv.Quote(t.text), "letters of western European languages in PDF, whose standard fonts have no others: write it as SVG, or with other names")
			}
		}
	}
	return nil
}

// WritePDF writes the sheet on one page of its own size, for a plotter. A page of PDF
// measures at most 200 in (5.08 m) either way. Words are in letters of western European
// languages (Windows code page 1252); what has others is refused, and needs WriteSVG.
func (s *Sheet) WritePDF(w io.Writer) error {
	if err := s.western(); err != nil {
		return err
	}
	if s.width > widest || s.height > widest {
		width, height := s.Size()
		return refuse("Sheet", fmt.Sprintf("%.3v by %.3v", width, height), "at most 5.08 m either way on one page: use WriteTiled, or lay it out narrower")
	}
	f := newPDF(s.title, s.width, s.height)
	f.page(s.width, s.height)
	f.sheet(s, 0, 0, 1)
	return f.Output(w)
}

func (f *writer) page(width, height float64) {
	f.AddPageFormat("P", fpdf.SizeType{Wd: width, Ht: height})
}

// sheet draws a sheet with its origin at a place and at a scale.
func (f *writer) sheet(s *Sheet, x, y, scale float64) {
	for _, m := range s.marks {
		l := looks[m.style]
		f.SetLineWidth(math.Max(0.1, l.width*math.Min(1, 3*scale)))
		dash := slices.Clone(l.dash)
		for i := range dash {
			dash[i] *= scale
		}
		f.SetDashPattern(dash, 0)
		f.path(m, x, y, scale)
	}
	f.SetDashPattern(nil, 0)
	if scale < 1 {
		return
	}
	for _, t := range s.words {
		t.at.X += x
		t.at.Y += y
		f.word(t)
	}
}

func (f *writer) path(m stroke, x, y, scale float64) {
	for i, p := range m.points {
		if i == 0 {
			f.MoveTo(x+scale*p.X, y+scale*p.Y)
		} else {
			f.LineTo(x+scale*p.X, y+scale*p.Y)
		}
	}
	switch grey := looks[m.style].grey; {
	case m.closed && grey > 0:
		f.SetFillColor(grey, grey, grey)
		f.DrawPath("b")
		f.SetFillColor(0, 0, 0)
	case m.closed:
		f.DrawPath("s")
	default:
		f.DrawPath("S")
	}
}

func (f *writer) word(t word) {
	face := ""
	if t.bold {
		face = "B"
	}
	f.SetFont("Helvetica", face, t.size*72/25.4)
	text := f.latin(t.text)
	x := t.at.X
	switch t.align {
	case svg.Centre:
		x -= f.GetStringWidth(text) / 2
	case svg.Right:
		x -= f.GetStringWidth(text)
	}
	f.Text(x, t.at.Y, text)
}
