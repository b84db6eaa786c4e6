package rode

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"example.com/forepeak/units"
)

// mostLabel is how long the words for a mark may be: the longest makes every line of
// the table as wide.
const mostLabel = 500

// Table is the marks as text to print and take on deck, lengths in the unit,
// which is a name that units.ParseLength knows: "m", "ft", "fathom". How far the
// link is off stands in millimetres, or in tenths of an inch if the unit is made of
// inches. A link is found by counting on from the one before. The markers of a mark
// are at most 500 characters long together, and words of one line as those of a
// MarkPlan.
func (m Marks) Table(unit string) (string, error) {
	if _, err := units.Length(0).In(unit); err != nil {
		return "", &Error{Field: "unit", Value: strconv.Quote(unit), Want: strings.Join(units.LengthUnits(), ", "), Err: ErrUnknown}
	}
	in := func(l units.Length, digits int) string {
		x, _ := l.In(unit) // the name was tried above
		return strconv.FormatFloat(x, 'f', digits, 64)
	}
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	small, off := "mm", func(l units.Length) string { return fmt.Sprintf("%+g", math.Round(l.Millimetres())+0) }
	if inch, _ := units.Inch.In(unit); math.Abs(math.Remainder(1/inch, 1)) < 1e-9 {
		small, off = "in", func(l units.Length) string { return fmt.Sprintf("%+.1f", math.Round(10*l.Inches())/10+0) }
	}
	fmt.Fprintf(w, "out, %s\tmark\tcount on\tlink\toff, %s\n", unit, small)
	for i, k := range m.Marks {
		for _, l := range [...]struct {
			field string
			units.Length
		}{{"At", k.At}, {"FromSplice", k.FromSplice}, {"Off", k.Off}} {
			if !finite(float64(l.Length)) {
				return "", refuse(fmt.Sprintf("Marks[%d].%s", i, l.field), l.Length, "finite")
			}
		}
		for j, name := range k.Markers {
			if !oneLine(name) {
				return "", refuse(fmt.Sprintf("Marks[%d].Markers[%d]", i, j), strconv.Quote(name), wordsOfOneLine)
			}
		}
		label := strings.Join(k.Markers, " + ")
		switch n := utf8.RuneCountInString(label); {
		case n == 0:
			label = "-"
		case n > mostLabel:
			return "", refuse(fmt.Sprintf("Marks[%d].Markers", i), fmt.Sprintf("%d characters", n), fmt.Sprintf("at most %d", mostLabel))
		}
		if k.Kind == OfRope {
			fmt.Fprintf(w, "%s\t%s\trope, %s %s beyond the splice\n", in(k.At, 1), label, in(k.FromSplice, 2), unit)
			continue
		}
		fmt.Fprintf(w, "%s\t%s\t%d\t%d\t%s\n", in(k.At, 1), label, k.Links, k.Link, off(k.Off))
	}
	if err := w.Flush(); err != nil {
		return "", err
	}
	if len(m.Buy) > 0 {
		b.WriteString("\nmarkers:")
		for i, c := range m.Buy {
			if !oneLine(c.Marker) {
				return "", refuse(fmt.Sprintf("Buy[%d].Marker", i), strconv.Quote(c.Marker), wordsOfOneLine)
			}
			if i > 0 {
				b.WriteByte(',')
			}
			fmt.Fprintf(&b, " %d × %s", c.Count, c.Marker)
		}
		b.WriteByte('\n')
	}
	// Trailing blanks would differ on paper from nothing, and in files.
	lines := strings.Split(b.String(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n"), nil
}
