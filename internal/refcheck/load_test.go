package refcheck

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"
)

const headerLine = "id,func,inputs,want,unit,tol,kind,source,where,read,comment\n"

// data is testdata with one file of package rope.
func data(rows ...string) fstest.MapFS {
	return fstest.MapFS{"rope/a.csv": {Data: []byte(headerLine + strings.Join(rows, "\n") + "\n")}}
}

func TestLoad(t *testing.T) {
	rows, errs := load(fstest.MapFS{
		"rope/b.csv": {Data: []byte(headerLine + `b-1,rope.Line.Weight,,12e3,N,500,practice,,,,` + "\n")},
		"rope/a.csv": {Data: []byte("# a comment, \"with a quote\n" + headerLine + "\n# another\n" +
			`a-1,rope.Stretch#span,load=2.5 kN; length=30 m,1.24,m,0.005,example,"Title, 3rd ed.",p. 7,original,` + "\n" +
			`a-2,rope.Kind,,laid,text,,standard,Title,cl. 3,reproduction,` + "\n" +
			`a-3,rope.Stretch,,-0.50,1,0.01,library,Title,,,two methods differ` + "\n")},
		"rope/deeper/c.csv": {Data: []byte("not a table of values")},
	}, "rope")
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	if len(rows) != 4 {
		t.Fatalf("%d rows, want 4", len(rows))
	}
	a1, a2, a3, b1 := rows[0], rows[1], rows[2], rows[3]
	if a1.id != "a-1" || a1.file != "testdata/rope/a.csv" || a1.line != 5 || a1.source != "Title, 3rd ed." {
		t.Errorf("first row is %+v", a1)
	}
	if a1.name() != "rope.Stretch" || a1.printed.value != 1.24 || a1.printed.places != 2 || a1.printed.rounding != 0.005 || a1.widened {
		t.Errorf("first row is %+v", a1)
	}
	if !a2.isText() || a2.widened {
		t.Errorf("second row is %+v", a2)
	}
	if a3.unit != "" || !a3.widened || a3.tol != 0.01 {
		t.Errorf("third row is %+v", a3)
	}
	if b1.printed.rounding != 500 || b1.printed.value != 12000 || b1.widened {
		t.Errorf("fourth row is %+v", b1)
	}
}

func TestLoadRefuses(t *testing.T) {
	const good = `ok,rope.Stretch,a=1; b=2 m,1.24,m,0.005,standard,Title,p. 7,original,`
	file := func(text string) fstest.MapFS { return fstest.MapFS{"rope/a.csv": {Data: []byte(text)}} }
	for _, c := range []struct {
		name string
		data fstest.MapFS
		want string
	}{
		{"no files", fstest.MapFS{}, "testdata/rope has no .csv file"},
		{"no rows", data(), "testdata/rope/a.csv: no values"},
		{"empty file", file(""), "testdata/rope/a.csv: no values"},
		{"header", file("id,func\nx,y\n"), "testdata/rope/a.csv:1: header is not id,func,"},
		{"not UTF-8", file(headerLine + "\xff"), "testdata/rope/a.csv: not UTF-8"},
		{"open quote", data(`a,"b`), "testdata/rope/a.csv:2: extraneous or missing"},
		{"fields", data(`a,b,c`), "testdata/rope/a.csv:2: 3 fields, want 11"},
		{"line number", data("# note", good, "bad,b,c"), "testdata/rope/a.csv:4: 3 fields"},
		{"id twice", data(good, good), "testdata/rope/a.csv:3: ok: id is already that of testdata/rope/a.csv:2"},
		{"id", data(`a b,rope.Stretch,,1,,0.5,practice,,,,`), `testdata/rope/a.csv:2: a b: id "a b"`},
		{"no id", data(`,rope.Stretch,,1,,0.5,practice,,,,`), `id ""`},
		{"other package", data(`a,chain.Stretch,,1,,0.5,practice,,,,`), `func "chain.Stretch" is not of the form rope.Name`},
		{"not exported", data(`a,rope.stretch,,1,,0.5,practice,,,,`), `func "rope.stretch"`},
		{"no variant", data(`a,rope.Stretch#,,1,,0.5,practice,,,,`), `func "rope.Stretch#"`},
		{"space", data(`a,rope.Stretch,, 1,,0.5,practice,,,,`), "want begins or ends with a space"},
		{"line break", data("a,rope.Stretch,,1,,0.5,practice,,,,\"two\nlines\""), "comment contains a line break"},
		{"input", data(`a,rope.Stretch,load,1,,0.5,practice,,,,`), `inputs: "load" is not key=value`},
		{"input value", data(`a,rope.Stretch,load=,1,,0.5,practice,,,,`), `inputs: "load=" is not key=value`},
		{"input end", data(`a,rope.Stretch,load=1;,1,,0.5,practice,,,,`), `inputs: "" is not key=value`},
		{"input key", data(`a,rope.Stretch,2x=1,1,,0.5,practice,,,,`), `inputs: key "2x" is not a word`},
		{"input space", data(`a,rope.Stretch,x= 1,1,,0.5,practice,,,,`), `inputs: space after =`},
		{"input twice", data(`a,rope.Stretch,x=1; x=2,1,,0.5,practice,,,,`), `inputs: key "x" is given twice`},
		{"no want", data(`a,rope.Stretch,,,,0.5,practice,,,,`), "want is empty"},
		{"no text", data(`a,rope.Stretch,,,text,,practice,,,,`), "want is empty"},
		{"want", data(`a,rope.Stretch,,about 3,,0.5,practice,,,,`), `want: "about 3" is not a decimal number`},
		{"want NaN", data(`a,rope.Stretch,,NaN,,0.5,practice,,,,`), `want: "NaN" is not a decimal number`},
		{"want hex", data(`a,rope.Stretch,,0x1p3,,0.5,practice,,,,`), `want: "0x1p3" is not a decimal number`},
		{"want range", data(`a,rope.Stretch,,1e999,,0.5,practice,,,,`), `want: "1e999" is out of range`},
		{"want digits", data(`a,rope.Stretch,,1e-330,,0.5,practice,,,,`), `want: "1e-330" has more digits than can be checked`},
		{"no tol", data(`a,rope.Stretch,,1,,,practice,,,,`), `tol: "" is not a decimal number`},
		{"tol", data(`a,rope.Stretch,,1,,1 %,practice,,,,`), `tol: "1 %" is not a decimal number`},
		{"tol zero", data(`a,rope.Stretch,,1,,0,practice,,,,`), `tol 0 is not above zero`},
		{"tol negative", data(`a,rope.Stretch,,1,,-0.5,practice,,,,`), `tol -0.5 is not above zero`},
		{"tol of a text", data(`a,rope.Stretch,,laid,text,1,practice,,,,`), `tol "1" on a text`},
		{"tol too wide", data(`a,rope.Stretch,,12.30,,0.05,practice,,,,`), `tol 0.05 is more than half a unit of the last digit of 12.30`},
		{"kind", data(`a,rope.Stretch,,1,,0.5,blog,,,,`), `kind "blog" is none of standard, handbook, `},
		{"no source", data(`a,rope.Stretch,,1,,0.5,example,,p. 1,original,`), "kind example without a source"},
		{"no library", data(`a,rope.Stretch,,1,,0.5,library,,,,`), "kind library without a source"},
		{"no page", data(`a,rope.Stretch,,1,,0.5,handbook,Title,,original,`), "kind handbook without the table, section or page"},
		{"not read", data(`a,rope.Stretch,,1,,0.5,dataset,Title,p. 1,,`), `read "" is neither original nor reproduction`},
		{"read", data(`a,rope.Stretch,,1,,0.5,standard,Title,p. 1,yes,`), `read "yes" is neither`},
		{"read memory", data(`a,rope.Stretch,,1,,0.5,memory,Title,p. 1,original,`), `read "original", but kind memory`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, errs := load(c.data, "rope")
			wantError(t, errs, c.want)
		})
	}
}

// wantError wants one of the errors to contain text.
func wantError(t *testing.T, errs []error, text string) {
	t.Helper()
	if len(errs) == 0 {
		t.Fatalf("no error, want %q", text)
	}
	if !strings.Contains(errors.Join(errs...).Error(), text) {
		t.Errorf("got %q, want %q", errs, text)
	}
}

func TestPackages(t *testing.T) {
	names, err := packages(fstest.MapFS{
		"README.md": {}, "rope/b.csv": {}, "rope/a.csv": {}, "chain/x.csv": {}, "sail/deeper/x.csv": {},
	})
	if err != nil || strings.Join(names, " ") != "chain rope" {
		t.Errorf("got %v, %v", names, err)
	}
}
