package refcheck

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"
)

// packages are the folders of testdata that hold published values.
func packages(testdata fs.FS) ([]string, error) {
	files, err := fs.Glob(testdata, "*/*.csv")
	if err != nil {
		return nil, err
	}
	var names []string
	for _, f := range files {
		names = append(names, path.Dir(f))
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// load reads the values of one package, files in order of name. The rows are
// only complete if there are no errors.
func load(testdata fs.FS, pkg string) (rows []row, errs []error) {
	files, err := fs.Glob(testdata, pkg+"/*.csv")
	if err != nil {
		return nil, []error{err}
	}
	if len(files) == 0 {
		return nil, []error{fmt.Errorf("testdata/%s has no .csv file", pkg)}
	}
	seen := map[string]row{}
	for _, name := range files {
		data, err := fs.ReadFile(testdata, name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		inFile, bad := parse(pkg, "testdata/"+name, string(data))
		errs = append(errs, bad...)
		for _, r := range inFile {
			if first, ok := seen[r.id]; ok {
				errs = append(errs, r.errorf("id is already that of %s:%d", first.file, first.line))
			}
			seen[r.id] = r
		}
		rows = append(rows, inFile...)
	}
	return rows, errs
}

func parse(pkg, file, text string) (rows []row, errs []error) {
	if !utf8.ValidString(text) {
		return nil, []error{fmt.Errorf("%s: not UTF-8", file)}
	}
	records := csv.NewReader(strings.NewReader(text))
	records.Comment = '#'
	records.FieldsPerRecord = -1 // counted below, with a clearer message
	first := true
	for {
		fields, err := records.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			var syntax *csv.ParseError
			if errors.As(err, &syntax) {
				err = fmt.Errorf("%s:%d: %w", file, syntax.Line, syntax.Err)
			}
			return rows, append(errs, err) // what follows cannot be told apart
		}
		line, _ := records.FieldPos(0)
		switch {
		case first:
			first = false
			if !slices.Equal(fields, header) {
				return nil, append(errs, fmt.Errorf("%s:%d: header is not %s", file, line, strings.Join(header, ",")))
			}
		case len(fields) != len(header):
			errs = append(errs, fmt.Errorf("%s:%d: %d fields, want %d", file, line, len(fields), len(header)))
		default:
			r, bad := newRow(pkg, file, line, fields)
			errs = append(errs, bad...)
			if len(bad) == 0 {
				rows = append(rows, r)
			}
		}
	}
	if len(rows) == 0 && len(errs) == 0 {
		errs = append(errs, fmt.Errorf("%s: no values", file))
	}
	return rows, errs
}
