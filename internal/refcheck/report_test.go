package refcheck

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// The values that the module ships: the totals of the report follow from the
// rows, and each folder with rows has a section, that is, a test that runs them.
func TestRepository(t *testing.T) {
	testdata := os.DirFS("../../testdata")
	names, err := packages(testdata)
	if err != nil {
		t.Fatal(err)
	}
	r, err := readReport(testdata)
	if err != nil {
		t.Fatal(err)
	}
	want, errs := totals(testdata)
	for _, err := range errs {
		t.Error(err)
	}
	if len(names) > 0 || r.totals != "" {
		if err := compareReports("the totals are", r.totals, want); err != nil {
			t.Error(err)
		}
	}
	for _, name := range names {
		if _, ok := r.sections[name]; !ok {
			t.Errorf("testdata/%s: section %s is missing; has the package a test that calls refcheck.Run?", reportName, name)
		}
		delete(r.sections, name)
	}
	for name := range r.sections {
		t.Errorf("testdata/%s: section %s, but no values in testdata/%[2]s; run %s", reportName, name, regenerate)
	}
}

func TestSection(t *testing.T) {
	suite := Suite{
		Package: "rope",
		Handlers: map[string]Handler{
			"rope.Stretch":      constant(1.2425),
			"rope.Stretch#kind": constant("laid | plaited"),
			"rope.Line":         constant(newtons(1525)),
			"rope.Line.Weight":  constant(newtons(13e9)),
			"rope.Turns":        constant(0),
		},
		Exempt:      map[string]string{"Parse": "reads <text>"},
		Bookkeeping: map[string]string{"Elsewhere": "prints"},
	}
	f, errs := examine(suite, data(
		`a,rope.Stretch,,1.24,,0.005,example,Title,p. 7,reproduction,`,
		`b,rope.Line,,1.5,kN,0.05,practice,,,,`,
		`c,rope.Stretch,,1.2,,0.05,example,Title,p. 8,original,`,
		`d,rope.Stretch,,1.3,,0.1,memory,Title,,,the book | rounds up`,
		`e,rope.Line.Weight,,12e9,N,1e9,memory,,,,a guess`,
		`f,rope.Stretch#kind,,laid | plaited,text,,library,Words 1.0,,,`,
		`g,rope.Turns,,0.0000000001,,1,practice,,,,none is nearly that`,
	), source)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	want := `## rope

4 values agree to the last printed digit; 3 need more room, and say why below. The furthest off, by -100 %, is g.

| | source | values | kind | read | worst | at |
|--:|---|--:|---|---|--:|---|
| 1 | Title | 3 | example 2, memory 1 | original, reproduction | 1.2 | d |
| 2 | *common practice* | 2 | practice |  | 2.0 | g |
| 3 | *memory* | 1 | memory |  | 2.0 | e |
| 4 | Words 1.0 | 1 | library |  | 0.0 | f |

**More room than the printed rounding, and why**

- d: printed 1.3 (tolerance 0.1), computed 1.24, 1.2 roundings or -4.4 % off: the book \| rounds up
- e: printed 12e9 N (tolerance 1e+09), computed 1.30e+10 N, 2.0 roundings or 8.3 % off: a guess
- g: printed 0.0000000001 (tolerance 1), computed 0e+00, 2.0 roundings or -100 % off: none is nearly that

| calculation | values | sources |
|---|--:|---|
| ` + "`Line`" + ` and its method | 1 | 2 |
| ` + "`Line.Weight`" + ` | 1 | 3 |
| ` + "`Stretch`" + ` | 4 | 1, 4 |
| ` + "`Turns`" + ` | 1 | 2 |

**Calculations without a published value**

- ` + "`Parse`" + `: reads &lt;text>

**Nothing to check: lists, look-ups, copies, sums and comparisons**

- ` + "`Elsewhere`" + `: prints
`
	if diff := cmp.Diff(want, f.section()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}

	delete(suite.Handlers, "rope.Line.Weight")
	f.suite.Exempt, f.suite.Bookkeeping = map[string]string{"Line": "a", "Turns": "b", "Stretch": "a"}, nil
	if got := f.section(); !strings.HasSuffix(got, "\n- `Line`, `Stretch`: a\n- `Turns`: b\n") {
		t.Errorf("reasons are not put together: %s", got)
	}
	f.suite.Exempt = nil
	f.results = f.results[:2]
	if got := f.section(); !strings.Contains(got, "`Line` and its 2 methods") || strings.Contains(got, "**") {
		t.Errorf("got %s", got)
	}
}

func TestTotals(t *testing.T) {
	two := data(
		`a,rope.Stretch,,1.24,,0.005,example,Title,p. 7,reproduction,`,
		`b,rope.Stretch,,1.2,,0.05,memory,,,,`,
		`c,rope.Stretch,,1.3,,0.05,memory,,,,`,
	)
	two["chain/b.csv"] = &fstest.MapFile{Data: []byte(headerLine + `a,chain.Weight,,1.24,,0.005,standard,Title,p. 7,original,` + "\n")}
	got, errs := totals(two)
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	want := introduction + `| package | values | standard | handbook | example | dataset | library | practice | memory | from memory |
|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|
| [chain](#chain) | 1 | 1 | 0 | 0 | 0 | 0 | 0 | 0 | 0 % |
| [rope](#rope) | 3 | 0 | 0 | 1 | 0 | 0 | 0 | 2 | 67 % |
| all | 4 | 1 | 0 | 1 | 0 | 0 | 0 | 2 | 50 % |
`
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if _, errs := totals(data("x")); len(errs) == 0 {
		t.Error("no error for a bad row")
	}
	if text, errs := totals(fstest.MapFS{}); len(errs) > 0 || !strings.Contains(text, "| all | 0 |") {
		t.Errorf("without values: %s, %v", text, errs)
	}
}

func TestParseReport(t *testing.T) {
	for _, r := range []report{
		{sections: map[string]string{}},
		{totals: "# Title\n\ntext\n", sections: map[string]string{}},
		{totals: "# Title\n", sections: map[string]string{"rope": "## rope\n\ntext\n", "chain": ""}},
	} {
		for _, text := range []string{r.String(), strings.ReplaceAll(r.String(), "\n", "\r\n")} {
			got, err := parseReport(text)
			if err != nil {
				t.Errorf("%q: %v", text, err)
			}
			if diff := cmp.Diff(r, got, cmp.AllowUnexported(report{})); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		}
	}
	for text, want := range map[string]string{
		"<!-- begin rope -->\ntext\n":                            "section rope does not end",
		"<!-- begin rope -->\n<!-- end rope -->\nmore\n":         "text between two sections",
		"<!-- begin rope -->\n<!-- end chain -->\n":              "section rope does not end",
		"# Title\n<!-- begin rope -->\n<!-- end rope -->\nx\n\n": `"x\n"`,
	} {
		_, err := parseReport(text)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: got %v, want %s", text, err, want)
		}
	}
}

// recorder collects what Run reports.
type recorder struct {
	testing.TB
	errs []error
}

func (r *recorder) Helper()           {}
func (r *recorder) Error(args ...any) { r.errs = append(r.errs, args[0].(error)) }

// inPackage makes a module of one package in an empty folder and goes there.
func inPackage(t *testing.T, rows []string) {
	t.Helper()
	root := t.TempDir()
	for name, text := range map[string]string{
		"testdata/rope/a.csv": headerLine + strings.Join(rows, "\n") + "\n",
		"rope/rope.go":        string(source["rope.go"].Data) + "\nfunc Elsewhere() {}\n",
	} {
		file := filepath.Join(root, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(filepath.Join(root, "rope"))
}

func runOnce(t *testing.T, s Suite, update bool) []error {
	t.Helper()
	r := &recorder{TB: t}
	run(r, s, update)
	return r.errs
}

func TestRun(t *testing.T) {
	suite, rows := lines()
	inPackage(t, rows)
	report := filepath.Join(testdataDir, reportName)

	wantError(t, runOnce(t, suite, false), "testdata/README.md: section rope is out of date; run go generate")
	if _, err := os.Stat(report); err == nil {
		t.Fatal("a test without the flag wrote the report")
	}
	if errs := runOnce(t, suite, true); len(errs) > 0 {
		t.Fatal(errs)
	}
	fresh := &recorder{TB: t}
	if Run(fresh, suite); len(fresh.errs) > 0 {
		t.Fatalf("a fresh report is stale: %v", fresh.errs)
	}
	written, err := os.ReadFile(report)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(written), introduction) || !strings.Contains(string(written), "\n## rope\n") {
		t.Errorf("report is %s", written)
	}

	t.Run("failing values are not written", func(t *testing.T) {
		failing, _ := lines()
		failing.Handlers["rope.Stretch"] = constant(2.0)
		wantError(t, runOnce(t, failing, true), "off by")
		if now, err := os.ReadFile(report); err != nil || string(now) != string(written) {
			t.Errorf("the report has changed, or %v", err)
		}
	})
	t.Run("deviation has changed", func(t *testing.T) {
		moved, _ := lines()
		moved.Handlers["rope.Stretch"] = constant(1.241)
		wantError(t, runOnce(t, moved, false), "has:  | 1 | Title | 1 | example | original | 0.5 | a |")
	})
	t.Run("other sections stay, dropped packages go", func(t *testing.T) {
		others := string(written) + "\n" + begin("chain") + "\nkept\n" + end("chain") + "\n\n" + begin("sail") + "\ndropped\n" + end("sail") + "\n"
		chain := filepath.Join(testdataDir, "chain")
		if err := os.MkdirAll(chain, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(chain, "a.csv"), []byte(headerLine+`a,chain.Weight,,1,,0.5,practice,,,,`+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(report, []byte(others), 0o644); err != nil {
			t.Fatal(err)
		}
		if errs := runOnce(t, suite, true); len(errs) > 0 {
			t.Fatal(errs)
		}
		now, err := readReport(os.DirFS(testdataDir))
		if err != nil {
			t.Fatal(err)
		}
		if now.sections["chain"] != "kept\n" || now.sections["sail"] != "" || !strings.Contains(now.totals, "| [chain](#chain) | 1 |") {
			t.Errorf("report is %s", now)
		}
		if err := os.WriteFile(filepath.Join(chain, "a.csv"), []byte("bad"), 0o644); err != nil {
			t.Fatal(err)
		}
		wantError(t, runOnce(t, suite, true), "testdata/chain/a.csv:1: header")
		if err := os.RemoveAll(chain); err != nil {
			t.Fatal(err)
		}
	})
	t.Run("a damaged report is begun anew", func(t *testing.T) {
		if err := os.WriteFile(report, []byte("<<<<<<<\n"+begin("rope")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		wantError(t, runOnce(t, suite, false), "section rope does not end; run go generate")
		if errs := runOnce(t, suite, true); len(errs) > 0 {
			t.Fatal(errs)
		}
		if now, err := os.ReadFile(report); err != nil || string(now) != string(written) {
			t.Errorf("the report is not as before, or %v", err)
		}
	})
	t.Run("a report that cannot be read", func(t *testing.T) {
		if err := os.Remove(report); err != nil {
			t.Fatal(err)
		}
		if err := os.Mkdir(report, 0o755); err != nil {
			t.Fatal(err)
		}
		if errs := runOnce(t, suite, false); len(errs) == 0 {
			t.Error("no error")
		}
		if errs := runOnce(t, suite, true); len(errs) == 0 {
			t.Error("no error when writing")
		}
	})
}
