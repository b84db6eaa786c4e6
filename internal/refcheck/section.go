package refcheck

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
)

// section is the package's part of the report.
func (f findings) section() string {
	var b strings.Builder
	fmt.Fprintf(&b, "## %s\n\n", f.suite.Package)
	sources, number := f.bySource()
	f.writeSummary(&b)
	f.writeSources(&b, sources)
	f.writeWidened(&b)
	f.writeCalculations(&b, number)
	writeReasons(&b, "Calculations without a published value", f.suite.Exempt)
	writeReasons(&b, "Nothing to check: lists, look-ups, copies, sums and comparisons", f.suite.Bookkeeping)
	return b.String()
}

// writeSummary says how many values agree, how many do not, and how far the
// worst of those is off.
func (f findings) writeSummary(b *strings.Builder) {
	var further int
	var worst result
	for _, r := range f.results {
		if !r.widened {
			continue
		}
		further++
		if math.Abs(r.share()) > math.Abs(worst.share()) {
			worst = r
		}
	}
	fmt.Fprintf(b, "%d values agree to the last printed digit", len(f.results)-further)
	if further > 0 {
		fmt.Fprintf(b, "; %d need more room, and say why below. The furthest off, by %s, is %s", further, percentOff(worst), worst.id)
	}
	b.WriteString(".\n\n")
}

// share is how far the computed value lies from the printed one, as a share of it.
func (r result) share() float64 {
	if r.isText() || r.printed.value == 0 {
		return 0
	}
	return (r.got - r.printed.value) / math.Abs(r.printed.value)
}

// percentOff has two digits, or whole per cents, and is the same on every processor.
func percentOff(r result) string {
	off := 100 * r.share() * (1 + 1e-9)
	if math.Abs(off) >= 99.5 {
		return fmt.Sprintf("%.0f %%", off)
	}
	return fmt.Sprintf("%.2g %%", off)
}

// sourceOf names what has no source by its kind.
func sourceOf(r row) string {
	switch {
	case r.source != "":
		return r.source
	case r.kind == "practice":
		return "*common practice*"
	default:
		return "*memory*"
	}
}

// bySource groups the results in the order in which their sources first occur,
// and numbers the sources from 1.
func (f findings) bySource() (groups [][]result, number map[string]int) {
	number = map[string]int{}
	for _, r := range f.results {
		n := number[sourceOf(r.row)]
		if n == 0 {
			groups = append(groups, nil)
			n = len(groups)
			number[sourceOf(r.row)] = n
		}
		groups[n-1] = append(groups[n-1], r)
	}
	return groups, number
}

func (f findings) writeSources(b *strings.Builder, groups [][]result) {
	b.WriteString("| | source | values | kind | read | worst | at |\n|--:|---|--:|---|---|--:|---|\n")
	for i, group := range groups {
		worst := group[0]
		var rows []row
		var read []string
		for _, r := range group {
			rows = append(rows, r.row)
			if r.deviation > worst.deviation {
				worst = r
			}
			if r.read != "" && !slices.Contains(read, r.read) {
				read = append(read, r.read)
			}
		}
		slices.Sort(read)
		fmt.Fprintf(b, "| %d | %s | %d | %s | %s | %.1f | %s |\n",
			i+1, cell(sourceOf(group[0].row)), len(group), kindList(rows), strings.Join(read, ", "), worst.deviation, worst.id)
	}
}

// kindList is "standard", or "standard 3, memory 1" for a source of several kinds.
func kindList(rows []row) string {
	counts := countKinds(rows)
	var list []string
	for _, kind := range kinds {
		switch {
		case counts[kind] == len(rows):
			return kind
		case counts[kind] > 0:
			list = append(list, fmt.Sprintf("%s %d", kind, counts[kind]))
		}
	}
	return strings.Join(list, ", ")
}

func (f findings) writeWidened(b *strings.Builder) {
	heading := "\n**More room than the printed rounding, and why**\n\n"
	for _, r := range f.results {
		if !r.widened {
			continue
		}
		b.WriteString(heading)
		heading = ""
		fmt.Fprintf(b, "- %s: printed %s (tolerance %v), computed %s, %.1f roundings or %s off: %s\n",
			r.id, withUnit(r.want, r.unit), r.tol, withUnit(oneMoreDigit(r), r.unit), r.deviation, percentOff(r), cell(r.comment))
	}
}

func withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + cell(unit)
}

// oneMoreDigit prints what was computed with one digit more than the source
// does. The nudge lets a tie go the same way on every processor.
func oneMoreDigit(r result) string {
	got := r.got * (1 + 1e-12)
	digits := r.printed.places + 1
	if digits < 0 || digits > 9 {
		return strconv.FormatFloat(got, 'e', significant(got, digits), 64)
	}
	return strconv.FormatFloat(got, 'f', digits, 64)
}

// significant is the precision that the 'e' format needs to show a number to
// so many decimal places.
func significant(x float64, places int) int {
	if x == 0 {
		return 0
	}
	return max(0, places+int(math.Floor(math.Log10(math.Abs(x)))))
}

func (f findings) writeCalculations(b *strings.Builder, number map[string]int) {
	bySource := map[string]map[int]int{} // name, then source number: values
	for _, r := range f.results {
		name := strings.TrimPrefix(r.name(), f.suite.Package+".")
		if bySource[name] == nil {
			bySource[name] = map[int]int{}
		}
		bySource[name][number[sourceOf(r.row)]]++
	}
	b.WriteString("\n| calculation | values | sources |\n|---|--:|---|\n")
	for _, name := range slices.Sorted(maps.Keys(bySource)) {
		var values int
		var list []string
		for _, n := range slices.Sorted(maps.Keys(bySource[name])) {
			values += bySource[name][n]
			list = append(list, strconv.Itoa(n))
		}
		fmt.Fprintf(b, "| `%s`%s | %d | %s |\n", name, f.methods(name, bySource), values, strings.Join(list, ", "))
	}
}

// methods tells how many methods the rows of a type stand for.
func (f findings) methods(name string, rows map[string]map[int]int) string {
	var n int
	for _, c := range f.api.calculations {
		if typeOf(c) == name && rows[c] == nil {
			n++
		}
	}
	switch n {
	case 0:
		return ""
	case 1:
		return " and its method"
	default:
		return fmt.Sprintf(" and its %d methods", n)
	}
}

// writeReasons lists what no row checks, those with one reason together.
func writeReasons(b *strings.Builder, heading string, exempt map[string]string) {
	if len(exempt) == 0 {
		return
	}
	fmt.Fprintf(b, "\n**%s**\n\n", heading)
	byReason := map[string][]string{}
	var reasons []string // in the order of the first name
	for _, name := range slices.Sorted(maps.Keys(exempt)) {
		reason := exempt[name]
		if byReason[reason] == nil {
			reasons = append(reasons, reason)
		}
		byReason[reason] = append(byReason[reason], "`"+name+"`")
	}
	for _, reason := range reasons {
		fmt.Fprintf(b, "- %s: %s\n", strings.Join(byReason[reason], ", "), cell(reason))
	}
}

// cell keeps a text from breaking a table or opening a comment.
func cell(s string) string {
	return strings.NewReplacer("|", `\|`, "<", "&lt;", "\n", " ").Replace(s)
}
