package refcheck

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"testing"
)

var update = flag.Bool("refcheck.update", false, "write testdata/"+reportName+" instead of comparing it")

// testdataDir is seen from the folder of the package under test, where go test
// runs it.
const testdataDir = "../testdata"

// Run checks one package of the module; call it from that package's test.
func Run(t testing.TB, s Suite) {
	t.Helper()
	run(t, s, *update)
}

func run(t testing.TB, s Suite, update bool) {
	t.Helper()
	testdata := os.DirFS(testdataDir)
	f, errs := examine(s, testdata, os.DirFS("."))
	for _, err := range errs {
		t.Error(err)
	}
	if len(errs) > 0 {
		return // the report shows values that hold, and no others
	}
	var err error
	if update {
		err = write(testdataDir, s.Package, f.section())
	} else {
		err = compareSection(testdata, s.Package, f.section())
	}
	if err != nil {
		t.Error(err)
	}
}

// readReport gives an empty report if there is none.
func readReport(testdata fs.FS) (report, error) {
	text, err := fs.ReadFile(testdata, reportName)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return report{}, err
	}
	r, err := parseReport(string(text))
	if err != nil {
		return report{}, fmt.Errorf("testdata/%s: %w; run %s", reportName, err, regenerate)
	}
	return r, nil
}

func compareSection(testdata fs.FS, pkg, section string) error {
	r, err := readReport(testdata)
	if err != nil {
		return err
	}
	return compareReports("section "+pkg+" is", r.sections[pkg], section)
}

// write replaces the totals and the section of one package, and drops the
// sections of packages that have no values any more. A report that is damaged
// is begun anew: the tests of the other packages add their sections again.
func write(dir, pkg, section string) error {
	testdata := os.DirFS(dir)
	old, err := readReport(testdata)
	if err != nil {
		old = report{}
	}
	names, err := packages(testdata)
	if err != nil {
		return err
	}
	var errs []error
	r := report{sections: map[string]string{}}
	if r.totals, errs = totals(testdata); len(errs) > 0 {
		return errors.Join(errs...)
	}
	for _, name := range names {
		if text, ok := old.sections[name]; ok {
			r.sections[name] = text
		}
	}
	r.sections[pkg] = section
	return os.WriteFile(dir+"/"+reportName, []byte(r.String()), 0o644)
}
