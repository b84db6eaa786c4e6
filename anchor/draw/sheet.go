package draw

import (
	"errors"
	"io"
	"math"
	"strconv"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/accept"
	"example.com/forepeak/internal/svg"
)

// Sizes on the page, in millimetres.
const (
	margin = 8.0
	width  = 180.0
	small  = 2.8 // sizes of text
	medium = 3.4
	huge   = 5.0
	bold   = 1.15 // how much wider bold text is
)

func refuse(field string, value any, want string) error {
	return &anchor.Error{Field: field, Value: accept.Show(value), Want: want, Err: anchor.ErrInput}
}

// sheet is the page while it is filled from the top down.
type sheet struct {
	*svg.Drawing
	y float64 // down to where the page is filled
}

func newSheet(prefix, instead string) (*sheet, error) {
	if prefix == "" {
		prefix = instead
	}
	if !svg.IsPrefix(prefix) {
		return nil, refuse("Prefix", strconv.Quote(prefix), svg.PrefixWanted)
	}
	return &sheet{Drawing: svg.New(prefix), y: margin}, nil
}

// lines writes a text from margin to margin.
func (s *sheet) lines(class string, size float64, text string) {
	wide := size
	if class != "note" && class != "small" {
		wide *= bold
	}
	for _, line := range svg.Wrap(text, wide, width-2*margin) {
		s.y += 1.3 * size
		s.Text(class, svg.Point{X: margin, Y: s.y}, svg.Left, svg.Span{Text: line})
	}
}

func (s *sheet) write(w io.Writer, title, desc string) error {
	err := s.Drawing.Write(w, svg.Page{
		Width: width, Height: s.y + margin, Title: title, Desc: desc, Classes: classes,
	})
	if errors.Is(err, svg.ErrCoordinate) {
		return refuse("drawing", err, "values that are finite and can be drawn")
	}
	return err
}

// entry is a line of a legend.
type entry struct{ class, text string }

// legend sets lines with their meaning one after the other.
func (s *sheet) legend(entries []entry) {
	const line, gap, between = 10.0, 2.0, 6.0
	s.y += 6
	x := margin
	for _, e := range entries {
		w := line + gap + svg.TextWidth(e.text, small)
		if x > margin && x+w > width-margin {
			x = margin
			s.y += 1.7 * small
		}
		s.Line(e.class, svg.Point{X: x, Y: s.y - 1}, svg.Point{X: x + line, Y: s.y - 1})
		s.Text("small", svg.Point{X: x + line + gap, Y: s.y}, svg.Left, svg.Span{Text: e.text})
		x += w + between
	}
}

// round is the least 1, 2 or 5 times a power of ten that is no less than x.
func round(x float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(x)))
	for _, n := range []float64{1, 2, 5} {
		if n*ten >= x*(1-1e-9) {
			return n * ten
		}
	}
	return 10 * ten
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
