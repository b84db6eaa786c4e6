package svg

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
)

// ErrPrefix is for a prefix that is not made of what [PrefixWanted] says.
var ErrPrefix = errors.New("svg: prefix not accepted")

// ErrCoordinate is for a coordinate that is not finite or is beyond 10 km of paper.
var ErrCoordinate = errors.New("svg: coordinate not accepted")

// Point is a place on the page in millimetres, X to the right and Y down.
type Point struct{ X, Y float64 }

// Drawing collects the elements of a picture, the lowest first.
type Drawing struct {
	prefix string
	body   []byte
	open   int // groups
	err    error
}

// New begins a drawing. The prefix of its classes and ids is what [PrefixWanted]
// says; two drawings in one page need different ones.
func New(prefix string) *Drawing {
	d := &Drawing{prefix: prefix}
	if !IsPrefix(prefix) { // it is written as it is
		d.err = fmt.Errorf("%w: %q, want %s", ErrPrefix, prefix, PrefixWanted)
	}
	return d
}

// Page is what encloses the elements. Its class paper, if there is one, fills it.
type Page struct {
	Width, Height float64 // mm
	// Title and Desc are read to those who do not see the picture.
	Title, Desc string
	Classes     []Class
}

// Class is how the elements of a class look. Dark is what changes on a dark
// screen. Both are CSS declarations without < and &, which HTML would read as markup.
type Class struct{ Name, Style, Dark string }

// Write writes the drawing as one svg element.
func (d *Drawing) Write(w io.Writer, p Page) error {
	body, open := d.body, d.open
	d.body = nil // from here on it holds what comes before
	d.raw(`<svg xmlns="http://www.w3.org/2000/svg"`)
	d.number(` width="`, p.Width)
	d.number(`mm" height="`, p.Height)
	d.number(`mm" viewBox="0 0 `, p.Width)
	d.number(" ", p.Height)
	d.raw(`" role="img" aria-labelledby="` + d.prefix + `-title ` + d.prefix + `-desc">` + "\n")
	d.raw(`<title id="` + d.prefix + `-title">`).escape(p.Title).raw("</title>\n")
	d.raw(`<desc id="` + d.prefix + `-desc">`).escape(p.Desc).raw("</desc>\n")
	d.raw("<style>\n")
	for _, c := range p.Classes {
		d.rule(c.Name, c.Style)
	}
	d.raw("@media screen and (prefers-color-scheme:dark){\n")
	for _, c := range p.Classes {
		d.rule(c.Name, c.Dark)
	}
	d.raw("}\n</style>\n")
	if slices.ContainsFunc(p.Classes, func(c Class) bool { return c.Name == "paper" }) {
		d.Rect("paper", Point{}, Point{p.Width, p.Height})
	}
	head := d.body
	d.body = body
	if d.err != nil {
		return d.err
	}
	if open != 0 {
		return fmt.Errorf("svg: %d groups left open", open)
	}
	for _, b := range [][]byte{head, body, []byte("</svg>\n")} {
		if _, err := w.Write(b); err != nil {
			return err
		}
	}
	return nil
}

func (d *Drawing) rule(class, style string) {
	if style != "" {
		d.raw("." + d.prefix + "-" + class + "{" + style + "}\n")
	}
}

// raw appends markup as it is.
func (d *Drawing) raw(s string) *Drawing {
	d.body = append(d.body, s...)
	return d
}

// number appends markup and a number after it.
func (d *Drawing) number(before string, x float64) *Drawing {
	d.raw(before)
	n := math.Round(x * 100)
	if !(math.Abs(n) <= 1e9) {
		if d.err == nil {
			d.err = fmt.Errorf("%w: %v mm", ErrCoordinate, x)
		}
		n = 0
	}
	d.body = appendHundredths(d.body, int64(n))
	return d
}

// appendHundredths writes n/100 with the fewest digits. Whole numbers, so that
// it is the same on every machine.
func appendHundredths(b []byte, n int64) []byte {
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	b = strconv.AppendInt(b, n/100, 10)
	if f := n % 100; f != 0 {
		b = append(b, '.', byte('0'+f/10))
		if f%10 != 0 {
			b = append(b, byte('0'+f%10))
		}
	}
	return b
}
