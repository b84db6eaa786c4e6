package refcheck

import (
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"slices"
	"strings"
)

// api is what a package exports, by name without the package: Solve, Chain,
// Chain.Weight.
type api struct {
	calculations []string        // functions and methods to be checked, sorted
	all          map[string]bool // what a row may name: these, types, constants and variables
}

// plumbing are methods that print, read or compare a value.
var plumbing = []string{"String", "GoString", "Format", "Error", "Unwrap", "Is", "As"}

func isPlumbing(method string) bool {
	return slices.Contains(plumbing, method) ||
		strings.HasPrefix(method, "Marshal") || strings.HasPrefix(method, "Unmarshal") || strings.HasPrefix(method, "Append")
}

// exported reads the Go files of a package, in the root of source. Files for
// other systems count too: the report must be the same everywhere.
func exported(source fs.FS, name string) (api, error) {
	paths, err := fs.Glob(source, "*.go")
	if err != nil {
		return api{}, err
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		text, err := fs.ReadFile(source, path)
		if err != nil {
			return api{}, err
		}
		file, err := parser.ParseFile(fset, path, text, parser.SkipObjectResolution)
		if err != nil {
			return api{}, err
		}
		if file.Name.Name == name { // not a generator beside it
			files = append(files, file)
		}
	}
	if len(files) == 0 {
		return api{}, fmt.Errorf("no Go files of package %s beside the test", name)
	}
	pkg, err := doc.NewFromFiles(fset, files, "")
	if err != nil {
		return api{}, err
	}

	a := api{all: map[string]bool{}}
	calculation := func(name string) {
		a.all[name] = true
		a.calculations = append(a.calculations, name)
	}
	values := func(groups []*doc.Value) {
		for _, group := range groups {
			for _, name := range group.Names {
				a.all[name] = true
			}
		}
	}
	functions := func(list []*doc.Func) {
		for _, f := range list {
			calculation(f.Name)
		}
	}
	functions(pkg.Funcs)
	values(pkg.Consts)
	values(pkg.Vars)
	for _, t := range pkg.Types {
		a.all[t.Name] = true
		functions(t.Funcs)
		values(t.Consts)
		values(t.Vars)
		for _, m := range t.Methods {
			if isPlumbing(m.Name) {
				a.all[t.Name+"."+m.Name] = true
				continue
			}
			calculation(t.Name + "." + m.Name)
		}
	}
	slices.Sort(a.calculations)
	return a, nil
}

// typeOf is Chain for Chain.Weight, and nothing for Solve.
func typeOf(name string) string {
	t, _, isMethod := strings.Cut(name, ".")
	if !isMethod {
		return ""
	}
	return t
}
