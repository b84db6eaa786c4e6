package refcheck

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

var header = []string{"id", "func", "inputs", "want", "unit", "tol", "kind", "source", "where", "read", "comment"}

// kinds are in the order in which the report shows them: the strongest first.
var kinds = []string{"standard", "handbook", "example", "dataset", "library", "practice", "memory"}

// row is one published value.
type row struct {
	file     string // slash-separated, from the module's root
	line     int
	id       string
	function string // with its variant: rode.Solve#span
	inputs   string
	want     string
	printed  decimal // want as a number; unused when unit is text
	unit     string
	tol      float64 // in the printed unit; unused when unit is text
	widened  bool    // tol is more than half a unit of the last printed digit
	kind     string
	source   string
	where    string
	read     string
	comment  string
}

func (r row) isText() bool { return r.unit == "text" }

// name is what the row checks, without its variant: rode.Solve.
func (r row) name() string {
	name, _, _ := strings.Cut(r.function, "#")
	return name
}

// errorf says what is wrong with the row in the form that editors follow.
func (r row) errorf(format string, args ...any) error {
	return fmt.Errorf("%s:%d: %s: %w", r.file, r.line, r.id, fmt.Errorf(format, args...))
}

var (
	idSyntax       = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)
	functionSyntax = regexp.MustCompile(`^[a-z][a-z0-9]*\.[A-Z][A-Za-z0-9]*(\.[A-Z][A-Za-z0-9]*)?(#[A-Za-z0-9_-]+)?$`)
)

// newRow reads the fields of one record, as many as the header has, and reports
// everything that is wrong with them.
func newRow(pkg, file string, line int, fields []string) (row, []error) {
	r := row{
		file: file, line: line, id: fields[0], function: fields[1], inputs: fields[2], want: fields[3], unit: fields[4],
		kind: fields[6], source: fields[7], where: fields[8], read: fields[9], comment: fields[10],
	}
	if r.unit == "1" {
		r.unit = ""
	}
	var errs []error
	fail := func(format string, args ...any) { errs = append(errs, r.errorf(format, args...)) }

	for i, field := range fields {
		if strings.TrimSpace(field) != field {
			fail("%s begins or ends with a space", header[i])
		}
		if strings.ContainsFunc(field, unicode.IsControl) {
			fail("%s contains a line break or another control character", header[i])
		}
	}
	if !idSyntax.MatchString(r.id) {
		fail("id %q is not made of letters, digits, '.', '_' and '-'", r.id)
	}
	if !functionSyntax.MatchString(r.function) || !strings.HasPrefix(r.function, pkg+".") {
		fail("func %q is not of the form %s.Name, %[2]s.Type.Method or either with #variant", r.function, pkg)
	}
	if _, err := parseInputs(r.inputs); err != nil {
		fail("inputs: %w", err)
	}
	if r.want == "" {
		fail("want is empty")
	}
	for _, err := range r.readNumbers(fields[5]) {
		fail("%w", err)
	}
	for _, err := range r.checkSource() {
		fail("%w", err)
	}
	return r, errs
}

// readNumbers sets what compares want with a result.
func (r *row) readNumbers(tol string) (errs []error) {
	if r.isText() {
		if tol != "" {
			errs = append(errs, fmt.Errorf("tol %q on a text", tol))
		}
		return errs
	}
	want, err := parseDecimal(r.want)
	if err != nil {
		errs = append(errs, fmt.Errorf("want: %w", err))
	}
	width, err := parseDecimal(tol)
	switch {
	case err != nil:
		errs = append(errs, fmt.Errorf("tol: %w", err))
	case width.value <= 0:
		errs = append(errs, fmt.Errorf("tol %s is not above zero", tol))
	}
	if len(errs) > 0 {
		return errs
	}
	r.printed, r.tol = want, width.value
	r.widened = width.exact.Cmp(want.halfUnit()) > 0
	if r.widened && r.comment == "" {
		errs = append(errs, fmt.Errorf("tol %s is more than half a unit of the last digit of %s, and no comment says why", tol, r.want))
	}
	return errs
}

// checkSource refuses a value that nobody could look up again.
func (r row) checkSource() (errs []error) {
	var published bool
	switch r.kind {
	case "standard", "handbook", "example", "dataset":
		published = true
	case "library", "practice", "memory":
	default:
		return append(errs, fmt.Errorf("kind %q is none of %s", r.kind, strings.Join(kinds, ", ")))
	}
	if r.source == "" && (published || r.kind == "library") {
		errs = append(errs, fmt.Errorf("kind %s without a source", r.kind))
	}
	if r.where == "" && published {
		errs = append(errs, fmt.Errorf("kind %s without the table, section or page (where)", r.kind))
	}
	switch {
	case published && r.read != "original" && r.read != "reproduction":
		errs = append(errs, fmt.Errorf("read %q is neither original nor reproduction", r.read))
	case !published && r.read != "":
		errs = append(errs, fmt.Errorf("read %q, but kind %s has not been read anywhere", r.read, r.kind))
	}
	return errs
}
