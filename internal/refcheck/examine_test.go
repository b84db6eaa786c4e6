package refcheck

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

// source is a package with everything that the checker tells apart.
var source = fstest.MapFS{
	"rope.go": {Data: []byte(`package rope

import "fmt"

const Turns = 3

var Fathom = 1.8288

type Line struct{ part }

type Rows []Line

type part struct{}

func (part) Length() float64                { return 0 }
func (*Line) Weight() float64               { return 0 }
func (Line) String() string                 { return "" }
func (Line) AppendText([]byte) []byte       { return nil }
func (Line) MarshalText() ([]byte, error)   { return nil, nil }
func (*Line) UnmarshalText([]byte) error    { return nil }
func (Line) hidden()                        { fmt.Println() }

func Parse(string) (Line, error) { return Line{}, nil }
func Stretch() float64           { return 0 }
func stretch() float64           { return 0 }
`)},
	"rope_js.go":   {Data: []byte("package rope\n\nfunc Elsewhere() {}\n")},
	"generate.go":  {Data: []byte("//go:build ignore\n\npackage main\n\nfunc Generate() {}\n")},
	"rope_test.go": {Data: []byte("package rope\n\nfunc TestNothing() {}\n")},
	"deeper/x.go":  {Data: []byte("package deeper\n\nfunc Nothing() {}\n")},
}

// newtons stands in for a quantity.
type newtons float64

func (n newtons) In(unit string) (float64, error) {
	switch unit {
	case "N":
		return float64(n), nil
	case "kN":
		return float64(n) / 1000, nil
	}
	return 0, fmt.Errorf("%q is not a unit of force", unit)
}

func constant(v any) Handler {
	return func(Inputs) (any, error) { return v, nil }
}

func TestExported(t *testing.T) {
	a, err := exported(source, "rope")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(a.calculations, " "), "Elsewhere Line.Length Line.Weight Parse Stretch"; got != want {
		t.Errorf("calculations %s, want %s", got, want)
	}
	for _, name := range []string{"Line", "Rows", "Line.String", "Turns", "Fathom", "Stretch"} {
		if !a.all[name] {
			t.Errorf("%s is missing", name)
		}
	}
	for _, name := range []string{"stretch", "part", "TestNothing", "Nothing", "Generate", "Line.hidden"} {
		if a.all[name] {
			t.Errorf("%s is not exported", name)
		}
	}
	for name, bad := range map[string]fstest.MapFS{
		"no files": {"a_test.go": {}},
		"syntax":   {"a.go": {Data: []byte("package")}},
	} {
		if _, err := exported(bad, "rope"); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestCompute(t *testing.T) {
	const (
		number  = `a,rope.Stretch,,1.24,,0.005,practice,,,,`
		percent = `a,rope.Stretch,,12.5,%,0.05,practice,,,,`
		force   = `a,rope.Stretch,,1.5,kN,0.05,practice,,,,`
		word    = `a,rope.Stretch,,laid,text,,practice,,,,`
		precise = `a,rope.Stretch,,0.45359237,,1e-20,practice,,,,`
		input   = `a,rope.Stretch,n=3; x=0.5; s=two words,1,,0.5,practice,,,,`
	)
	for _, c := range []struct {
		name      string
		row       string
		handler   Handler
		deviation float64
		err       string
	}{
		{"exact", number, constant(1.24), 0, ""},
		{"within", number, constant(1.2425), 0.5, ""},
		{"at the limit above", number, constant(1.245), 1, ""},
		{"at the limit below", number, constant(1.235), 1, ""},
		{"outside", number, constant(1.2452), 0, "got 1.2452 , want 1.24, off by 0.0052 and not 0.005"},
		{"last bits", precise, constant(math.Nextafter(0.45359237, 1)), 0, ""},
		{"more than last bits", precise, constant(0.453592370001), 0, "off by"},
		{"int", `a,rope.Turns,,3,,0.5,practice,,,,`, constant(3), 0, ""},
		{"per cent", percent, constant(0.125), 0, ""},
		{"not per cent", percent, constant(12.5), 0, "got 1250 %"},
		{"quantity", force, constant(newtons(1525)), 0.5, ""},
		{"quantity outside", force, constant(newtons(1600)), 0, "got 1.6 kN"},
		{"text", word, constant("laid"), 0, ""},
		{"other text", word, constant("braided"), 0, `got braided (string), want the text "laid"`},
		{"number for text", word, constant(1.0), 0, "got 1 (float64)"},
		{"NaN", number, constant(math.NaN()), 0, "got NaN"},
		{"infinite", percent, constant(math.Inf(-1)), 0, "got -Inf"},
		{"NaN quantity", force, constant(newtons(math.NaN())), 0, "got NaN"},
		{"no unit", number, constant(newtons(1.24)), 0, "got a refcheck.newtons, but the row has no unit"},
		{"wrong unit", `a,rope.Stretch,,1.5,m,0.05,practice,,,,`, constant(newtons(1.5)), 0, `"m" is not a unit of force`},
		{"unit without quantity", force, constant(1.5), 0, "got the pure number 1.5, want a quantity in kN"},
		{"nothing", number, constant(nil), 0, "got a <nil>"},
		{"error", number, func(Inputs) (any, error) { return 1.24, errors.New("too taut") }, 0, "too taut"},
		{"inputs", input, func(in Inputs) (any, error) {
			if !in.Has("n") || in.Has("m") {
				return nil, errors.New("Has is wrong")
			}
			return float64(in.Int("n")) - in.Float("x")*float64(len(in.Text("s"))-5), nil
		}, 0, ""},
		{"unused input", input, func(in Inputs) (any, error) {
			in.Has("s")
			return in.Float("x") + float64(in.Int("n")), nil
		}, 0, "input s is not used by the handler"},
		{"missing input", input, func(in Inputs) (any, error) { return in.Float("y"), errors.New("y is 0") }, 0, "input y is missing"},
		{"input not a count", input, func(in Inputs) (any, error) { return in.Int("x"), nil }, 0, "input x:"},
		{"input not a number", input, func(in Inputs) (any, error) { return in.Float("s"), nil }, 0, "input s:"},
	} {
		t.Run(c.name, func(t *testing.T) {
			rows, errs := load(data(c.row), "rope")
			if len(errs) > 0 {
				t.Fatal(errs)
			}
			got, err := compute(rows[0], c.handler)
			if c.err != "" {
				wantError(t, []error{err}, c.err)
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if got.deviation != c.deviation {
				t.Errorf("deviation %v, want %v", got.deviation, c.deviation)
			}
		})
	}
	if _, err := compute(row{inputs: "x"}, constant(1.0)); err == nil {
		t.Error("no error for inputs that do not parse")
	}
}

func TestTenths(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{
		{0, 0},
		{1e-9, 0},
		{0.04, 0},
		{0.05, 0.1},
		{0.15, 0.2},
		{0.25, 0.3},
		{0.999, 1},
		{1, 1},
		{12.34, 12.3},
		{math.Nextafter(0.25, 0), 0.3},
		{math.Nextafter(0.25, 1), 0.3}, // one answer on both sides of a tie
	} {
		if got := tenths(c.in); got != c.want {
			t.Errorf("tenths(%v) = %v, want %v", c.in, got, c.want)
		}
	}
}

// lines checks everything that rope exports.
func lines() (suite Suite, rows []string) {
	suite = Suite{
		Package: "rope",
		Handlers: map[string]Handler{
			"rope.Stretch": constant(1.2425),
			"rope.Line":    constant(newtons(1500)),
		},
		Exempt: map[string]string{"Parse": "reads", "Elsewhere": "prints"},
	}
	rows = []string{
		`a,rope.Stretch,,1.24,,0.005,example,Title,p. 7,original,`,
		`b,rope.Line,,1.5,kN,0.05,practice,,,,`,
	}
	return suite, rows
}

func TestExamine(t *testing.T) {
	suite, rows := lines()
	f, errs := examine(suite, data(rows...), source)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	if len(f.results) != 2 || f.results[0].deviation != 0.5 || f.results[1].got != 1.5 {
		t.Errorf("got %+v", f.results)
	}
}

func TestExamineRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(s *Suite, rows *[]string)
		want string
	}{
		{"bad row", func(_ *Suite, rows *[]string) { *rows = append(*rows, "x") }, "testdata/rope/a.csv:4: 1 fields"},
		{"row without handler", func(s *Suite, _ *[]string) { delete(s.Handlers, "rope.Line") }, "testdata/rope/a.csv:3: b: no handler for rope.Line"},
		{"handler without row", func(s *Suite, _ *[]string) { s.Handlers["rope.Line#x"] = constant(1.0) }, "handler for rope.Line#x, but no row in testdata/rope"},
		{"value", func(s *Suite, _ *[]string) { s.Handlers["rope.Stretch"] = constant(2.0) }, "testdata/rope/a.csv:2: a: rope.Stretch: got 2"},
		{"calculation without row", func(s *Suite, _ *[]string) { delete(s.Exempt, "Parse") }, "rope.Parse is an exported calculation without a row"},
		{"method without row", func(s *Suite, rows *[]string) {
			s.Handlers["rope.Line.Weight"] = s.Handlers["rope.Line"]
			delete(s.Handlers, "rope.Line")
			(*rows)[1] = strings.Replace((*rows)[1], "rope.Line", "rope.Line.Weight", 1)
		}, "rope.Line.Length is an exported calculation without a row"},
		{"not exported", func(s *Suite, rows *[]string) {
			s.Handlers["rope.Strech"] = constant(1.24)
			*rows = append(*rows, `c,rope.Strech,,1.24,,0.005,practice,,,,`)
		}, "testdata/rope/a.csv:4: c: rope.Strech is not exported"},
		{"exempt nothing", func(s *Suite, _ *[]string) { s.Exempt["Prase"] = "typing error" }, "exempt rope.Prase is not exported"},
		{"exempt has row", func(s *Suite, _ *[]string) { s.Exempt["Stretch"] = "but checked" }, "exempt rope.Stretch has rows"},
		{"exempt type has row", func(s *Suite, _ *[]string) { s.Exempt["Line"] = "but checked" }, "exempt rope.Line has rows"},
		{"exempt twice", func(s *Suite, _ *[]string) { s.Bookkeeping = map[string]string{"Parse": "reads"} }, "exempt rope.Parse is bookkeeping as well"},
		{"bookkeeping has row", func(s *Suite, _ *[]string) { s.Bookkeeping = map[string]string{"Stretch": "copies"} }, "exempt rope.Stretch has rows"},
		{"exempt without reason", func(s *Suite, _ *[]string) { s.Exempt["Parse"] = "" }, "exempt rope.Parse has no reason"},
	} {
		t.Run(c.name, func(t *testing.T) {
			suite, rows := lines()
			c.edit(&suite, &rows)
			_, errs := examine(suite, data(rows...), source)
			wantError(t, errs, c.want)
		})
	}
	suite, rows := lines()
	_, errs := examine(suite, data(rows...), fstest.MapFS{})
	wantError(t, errs, "no Go files of package rope")
}

// A type exempts those of its methods that no row checks.
func TestExemptType(t *testing.T) {
	suite, rows := lines()
	suite.Handlers["rope.Line.Weight"] = suite.Handlers["rope.Line"]
	delete(suite.Handlers, "rope.Line")
	rows[1] = strings.Replace(rows[1], "rope.Line", "rope.Line.Weight", 1)
	suite.Exempt["Line"] = "the rest reads fields"
	if _, errs := examine(suite, data(rows...), source); len(errs) > 0 {
		t.Error(errs)
	}
}
