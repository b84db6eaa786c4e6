package refcheck

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"strings"
	"testing"
)

// TestExamples finds an Example for every exported function and method of the library but those
// that print or read, and those that are generated: a thousand accessors need no more than one of
// a kind.
func TestExamples(t *testing.T) {
	for _, path := range []string{
		"units", "rode", "rode/draw", "anchor", "anchor/draw", "wiring", "wiring/draw", "canvas", "canvas/pattern",
	} {
		source := os.DirFS("../../" + path)
		name := path[strings.LastIndex(path, "/")+1:]
		a, err := exported(source, name)
		if err != nil {
			t.Fatal(err)
		}
		shown, generated := map[string]bool{}, map[string]bool{}
		for _, file := range parsed(t, source) {
			if ast.IsGenerated(file) {
				for _, d := range file.Decls {
					if f, ok := d.(*ast.FuncDecl); ok {
						generated[declared(f)] = true
					}
				}
			}
			for _, e := range doc.Examples(file) {
				// Stock_Find, Withstand_once: a suffix begins with a small letter.
				parts := strings.Split(e.Name, "_")
				if last := parts[len(parts)-1]; len(parts) > 1 && last != "" && strings.ToUpper(last[:1]) != last[:1] {
					parts = parts[:len(parts)-1]
				}
				shown[strings.Join(parts, ".")] = e.Output != "" || e.EmptyOutput
			}
		}
		for _, calculation := range a.calculations {
			if !shown[calculation] && !generated[calculation] {
				t.Errorf("%s.%s has no Example with checked output", path, calculation)
			}
		}
	}
}

func parsed(t *testing.T, source fs.FS) []*ast.File {
	paths, err := fs.Glob(source, "*.go")
	if err != nil || len(paths) == 0 {
		t.Fatal(paths, err)
	}
	var files []*ast.File
	for _, path := range paths {
		text, err := fs.ReadFile(source, path)
		if err != nil {
			t.Fatal(err)
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

// declared is the name of a function as in api: Solve, Chain.Weight.
func declared(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return f.Name.Name
	}
	of := f.Recv.List[0].Type
	if p, ok := of.(*ast.StarExpr); ok {
		of = p.X
	}
	if id, ok := of.(*ast.Ident); ok {
		return id.Name + "." + f.Name.Name
	}
	return ""
}
