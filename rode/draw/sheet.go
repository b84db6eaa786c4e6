package draw

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Sizes on the page, in millimetres.
const (
	margin    = 8.0
	minWidth  = 180.0
	maxWidth  = 260.0
	maxStrip  = 150.0 // of the part of a picture that is to scale
	maxStrips = 340.0 // of all pictures together
	maxScale  = 1000000
	beyond    = 4.0 // of water and bed to the right of the boat

	small  = 2.8 // sizes of text
	medium = 3.0
	large  = 3.8
	huge   = 5.0
)

// sheet is the page while it is filled from the top down.
type sheet struct {
	*svg.Drawing
	boat    Boat
	in      ruler
	scale   float64   // 1:scale
	mm      float64   // on the page for a metre
	width   float64   // of the page
	anchor  float64   // X of the anchors
	y       float64   // down to where the page is filled
	columns []float64 // of the figures: their width with the gap after it
}

func (s *sheet) right() float64 { return s.width - margin }

// extent is what a view takes up, in metres from the anchor.
type extent struct{ right, low, high float64 }

// extent depends on the scale by the least size of a bow that can be seen.
func (v *View) extent(b Boat, mm float64) extent {
	h := v.hull(b, mm)
	distance, depth := v.distance().Metres(), v.Site.Depth.Metres()
	e := extent{
		right: distance + h.aft(),
		high:  math.Max(depth, v.Site.Rise().Metres()),
	}
	if !h.none {
		e.high = math.Max(e.high, depth+1.15*h.deck)
	}
	for i := range v.State.Parts {
		p := &v.State.Parts[i]
		e.low = math.Min(e.low, p.Lower.Z.Metres())
		e.high = math.Max(e.high, p.Upper.Z.Metres())
	}
	bed := v.bed(units.Length(e.right)).Metres()
	e.low = math.Min(e.low, bed)
	e.high = math.Max(e.high, bed)
	return e
}

// distance is that of the end of the curve from the anchor.
func (v *View) distance() units.Length { return v.State.Parts[len(v.State.Parts)-1].Upper.X }

// sheet chooses the scale and the width of the page.
func (p *Profile) sheet() (*sheet, error) {
	s := &sheet{Drawing: svg.New(p.Prefix), boat: p.Boat, in: ruler{p.Imperial}, y: margin}
	words := 0.0
	for i := range p.Views {
		words = math.Max(words, svg.TextWidth(s.in.length(p.Views[i].Site.Depth), small))
	}
	s.anchor = margin + depthLine + math.Max(9, words+3)
	var right float64
	s.scale = s.in.scale(func(mm float64) bool {
		right = 0
		highest, sum := 0.0, 0.0
		for i := range p.Views {
			e := p.Views[i].extent(p.Boat, mm)
			right = math.Max(right, e.right)
			highest = math.Max(highest, e.high-e.low)
			sum += e.high - e.low
		}
		return s.anchor+right*mm+beyond+margin <= maxWidth && highest*mm <= maxStrip && sum*mm <= maxStrips
	})
	if s.scale > maxScale {
		return nil, refuse(rode.ErrInput, "Views", fmt.Sprintf("%.3g m wide", right), fmt.Sprintf("what fits a page at 1:%v", maxScale))
	}
	s.mm = 1000 / s.scale
	s.width = math.Max(minWidth, math.Ceil(s.anchor+right*s.mm+beyond+margin))
	s.columns = s.spread(s.in.columns(p.Views))
	return s, nil
}

// inner is the width between the margins.
func (s *sheet) inner() float64 { return s.width - 2*margin }

// bold is how much wider bold text is.
const bold = 1.15

// lines writes lines of text from the left margin.
func (s *sheet) lines(class string, size float64, lines []string) {
	for _, line := range lines {
		s.y += 1.3 * size
		s.Text(class, svg.Point{X: margin, Y: s.y}, svg.Left, svg.Span{Text: line})
	}
}
