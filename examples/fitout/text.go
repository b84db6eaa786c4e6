package main

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// columns is the width of the terminal that the text is made for.
const columns = 80

// text is the whole report for a terminal or a file.
func (r *report) text() string {
	t := &textWriter{}
	t.opening(r)
	for i, s := range r.Sections {
		t.title(fmt.Sprintf("%d. %s", i+1, s.Title), "-")
		for _, b := range s.Blocks {
			t.block(b)
		}
		for _, c := range s.Cautions {
			t.gap()
			t.wrap("", "", c)
		}
	}
	return t.String()
}

// summary is what fits two screens: warnings and decisions, then the tables that
// are needed on deck and in the shop.
func (r *report) summary() string {
	t := &textWriter{}
	t.opening(r)
	for _, s := range r.Sections {
		for _, b := range s.Blocks {
			if b.Table != nil && b.Table.Brief > 0 {
				t.gap()
				brief := *b.Table
				brief.Head = brief.Head[:brief.Brief]
				t.table(brief)
			}
		}
	}
	return t.String()
}

// opening is the title, and what every section has to say first.
func (t *textWriter) opening(r *report) {
	t.title(r.Title, "=")
	if r.Note != "" {
		t.wrap("", "", r.Note)
	}
	t.gap()
	t.wrap("", "", "WARNINGS")
	for _, s := range r.Sections {
		for _, w := range s.Warn {
			t.wrap("! ", "  ", w)
		}
	}
	t.gap()
	t.wrap("", "", "DECISIONS")
	for _, s := range r.Sections {
		for _, d := range s.Do {
			t.wrap("- ", "  ", d)
		}
	}
}

type textWriter struct{ strings.Builder }

func (t *textWriter) gap() {
	if t.Len() > 0 && !strings.HasSuffix(t.String(), "\n\n") {
		t.WriteString("\n")
	}
}

func (t *textWriter) title(s, under string) {
	t.gap()
	fmt.Fprintf(t, "%s\n%s\n", s, strings.Repeat(under, utf8.RuneCountInString(s)))
}

func (t *textWriter) block(b block) {
	switch {
	case b.Heading != "":
		t.gap()
		t.wrap("", "", strings.ToUpper(b.Heading))
	case b.Text != "":
		t.gap()
		t.wrap("", "", b.Text)
	case b.List != nil:
		for _, item := range b.List {
			t.wrap("- ", "  ", item)
		}
	case b.Table != nil:
		t.gap()
		t.table(*b.Table)
	}
}

// wrap writes a text in lines that fit, the first after one string and the
// others after another.
func (t *textWriter) wrap(first, next, s string) {
	for _, line := range fold(s, columns-utf8.RuneCountInString(first)) {
		t.WriteString(strings.TrimRight(first+line, " ") + "\n")
		first = next
	}
}

// table writes a table. Where it is too wide, its widest columns are folded.
func (t *textWriter) table(b table) {
	t.wrap("", "", b.Caption)
	widths, least := make([]int, len(b.Head)), make([]int, len(b.Head))
	total := 0
	for i, head := range b.Head {
		words := strings.Fields(head)
		for _, row := range b.Rows {
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
			words = append(words, strings.Fields(row[i])...)
		}
		if b.Numeric(i) {
			least[i] = widths[i]
		}
		for _, w := range words {
			least[i] = max(least[i], utf8.RuneCountInString(w))
		}
		widths[i] = max(widths[i], utf8.RuneCountInString(head))
		total += 2 + widths[i]
	}
	for ; total > columns; total-- {
		widest := -1
		for i := range widths {
			if widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	t.cells(b.Head, widths, b)
	for _, row := range b.Rows {
		t.cells(row[:len(b.Head)], widths, b)
	}
}

// cells writes a row, each cell folded to the width of its column.
func (t *textWriter) cells(cells []string, widths []int, b table) {
	folded := make([][]string, len(cells))
	height := 0
	for i, c := range cells {
		folded[i] = fold(c, widths[i])
		height = max(height, len(folded[i]))
	}
	for line := range height {
		out := ""
		for i := range cells {
			c := ""
			if line < len(folded[i]) {
				c = folded[i][line]
			}
			pad := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(c)))
			if b.Numeric(i) {
				out += "  " + pad + c
			} else {
				out += "  " + c + pad
			}
		}
		t.WriteString(strings.TrimRight(out, " ") + "\n")
	}
}

// Numeric reports whether a column holds numbers, which stand to the right.
func (t *table) Numeric(column int) bool {
	for _, row := range t.Rows {
		if c := row[column]; c != "" && (!strings.ContainsAny(c[:1], "0123456789+-") || len(c) > 16) {
			return false
		}
	}
	return true
}

// fold cuts a text into lines of a width at most, where it can.
func fold(s string, width int) []string {
	lines := []string{""}
	for _, word := range strings.FieldsFunc(keepUnits(s), func(r rune) bool { return r == ' ' }) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case utf8.RuneCountInString(*last)+1+utf8.RuneCountInString(word) <= width:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
	}
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], "\u00a0", " ")
	}
	return lines
}

// keepUnits joins a number and its unit, so that no line ends between them.
func keepUnits(s string) string { return beforeUnit.ReplaceAllString(s, "$1\u00a0$2") }

var beforeUnit = regexp.MustCompile(`([0-9]) ((?:mm|cm|m|kg|kN|N|kn|min|s|kA|A|Ah|V|W|J|ft|in|lb|lbf|AWG)\b|%|[kM]?Ω|°[CF])`)
