package refcheck

import (
	"bufio"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

const (
	reportName = "README.md"
	regenerate = "go generate -run refcheck ./..."
)

// report is testdata/README.md. Each package's test writes and checks its own
// section; the totals follow from the rows alone.
type report struct {
	totals   string
	sections map[string]string // by package
}

func (r report) String() string {
	var b strings.Builder
	b.WriteString(r.totals)
	for _, pkg := range slices.Sorted(maps.Keys(r.sections)) {
		fmt.Fprintf(&b, "\n%s\n%s%s\n", begin(pkg), r.sections[pkg], end(pkg))
	}
	return b.String()
}

func begin(pkg string) string { return "<!-- begin " + pkg + " -->" }
func end(pkg string) string   { return "<!-- end " + pkg + " -->" }

// parseReport is the inverse of String.
func parseReport(text string) (report, error) {
	r := report{sections: map[string]string{}}
	var totals, section strings.Builder
	var pkg string // the section that is open
	for line := range strings.Lines(strings.ReplaceAll(text, "\r\n", "\n")) {
		opened, isBegin := strings.CutPrefix(strings.TrimSuffix(line, " -->\n"), "<!-- begin ")
		switch {
		case pkg == "" && isBegin:
			pkg = opened
			section.Reset()
		case pkg == "" && len(r.sections) == 0:
			totals.WriteString(line)
		case pkg == "" && line != "\n":
			return report{}, fmt.Errorf("text between two sections: %q", line)
		case pkg != "" && line == end(pkg)+"\n":
			r.sections[pkg] = section.String()
			pkg = ""
		case pkg != "":
			section.WriteString(line)
		}
	}
	if pkg != "" {
		return report{}, fmt.Errorf("section %s does not end", pkg)
	}
	r.totals = strings.TrimSuffix(totals.String(), "\n")
	if len(r.sections) == 0 {
		r.totals = totals.String()
	}
	return r, nil
}

const introduction = `# Published values

<!-- Written by ` + regenerate + `; do not edit. -->

Every row of the ` + "`.csv`" + ` files here is a number that was printed outside this project. ` + "`go test ./...`" + `
computes each of them again and fails when one is further off than its tolerance, when an exported
calculation has neither a row nor a reason why not, and when this report is out of date. After a change to
the rows or to what the packages export, write it again with

    ` + regenerate + `

- **worst** is the largest deviation among the values of a source, in units of the printed rounding (half a
  unit of the last printed digit), with the row where it occurs. At 1.0 or below the source could have printed
  what is computed here. A row that is allowed more has to explain why, and is listed with its explanation
  and with how far off it is, as a share of the printed value.
- **read** says whether the value was copied from the source itself or from somebody's reproduction of it.
- **standard**, **handbook**, **example** (worked example) and **dataset** are published; **library** was computed
  by a general-purpose library; **practice** is a common fact of the trade without a source; **memory** was
  recalled and not looked up, and counts for little.
- Each section ends with which sources check which calculation, with the calculations for which nothing
  printed was found and how they are tested instead, and with what computes nothing.

`

// totals covers every package that has values.
func totals(testdata fs.FS) (text string, errs []error) {
	names, err := packages(testdata)
	if err != nil {
		return "", []error{err}
	}
	var b strings.Builder
	b.WriteString(introduction)
	b.WriteString("| package | values | " + strings.Join(kinds, " | ") + " | from memory |\n")
	b.WriteString("|---|" + strings.Repeat("--:|", len(kinds)+2) + "\n")
	line := func(name string, rows []row) {
		counts := countKinds(rows)
		fmt.Fprintf(&b, "| %s | %d |", name, len(rows))
		for _, kind := range kinds {
			fmt.Fprintf(&b, " %d |", counts[kind])
		}
		fmt.Fprintf(&b, " %d %% |\n", percent(counts["memory"], len(rows)))
	}
	var all []row
	for _, name := range names {
		rows, bad := load(testdata, name)
		errs = append(errs, bad...)
		line("["+name+"](#"+name+")", rows)
		all = append(all, rows...)
	}
	line("all", all)
	return b.String(), errs
}

func countKinds(rows []row) map[string]int {
	counts := map[string]int{}
	for _, r := range rows {
		counts[r.kind]++
	}
	return counts
}

func percent(part, whole int) int {
	if whole == 0 {
		return 0
	}
	return (200*part + whole) / (2 * whole)
}

// compareReports returns the first line in which they differ.
func compareReports(what, have, want string) error {
	if have == want {
		return nil
	}
	h, w := bufio.NewScanner(strings.NewReader(have)), bufio.NewScanner(strings.NewReader(want))
	for {
		moreHave, moreWant := h.Scan(), w.Scan()
		if h.Text() != w.Text() || !moreHave && !moreWant {
			return fmt.Errorf("testdata/%s: %s out of date; run %s\nhas:  %s\nwant: %s", reportName, what, regenerate, h.Text(), w.Text())
		}
	}
}
