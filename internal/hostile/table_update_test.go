package hostile

import (
	"bytes"
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write table_test.go and values.txt")

// The packages of the library, from the root of the module.
var packages = []string{"units", "rode", "rode/draw", "anchor", "anchor/draw", "wiring", "wiring/draw", "canvas", "canvas/pattern"}

// TestTable checks that table_test.go names every exported function, type and constant.
func TestTable(t *testing.T) {
	const file = "table_test.go"
	want := table(t)
	if *update {
		if err := os.WriteFile(file, want, 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s lags behind the source: go test ./internal/hostile -run Table -update", file)
	}
}

func table(t *testing.T) []byte {
	var imports, functions, types, constants bytes.Buffer
	for _, path := range packages {
		name := strings.ReplaceAll(path, "/", "")
		fmt.Fprintf(&imports, "%s \"example.com/forepeak/%s\"\n", name, path)
		var calls, named, consts []string
		files, err := filepath.Glob(filepath.Join("..", "..", filepath.FromSlash(path), "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no source: %v", path, err)
		}
		for _, f := range files {
			if strings.HasSuffix(f, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), f, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range parsed.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if d.Recv == nil && d.Name.IsExported() && d.Type.TypeParams == nil {
						var params []string
						for _, field := range d.Type.Params.List {
							for _, n := range field.Names {
								params = append(params, n.Name)
							}
						}
						calls = append(calls, fmt.Sprintf("{%q, %s.%s, %q},\n", path+"."+d.Name.Name, name, d.Name.Name, strings.Join(params, " ")))
					}
				case *ast.GenDecl:
					for _, s := range d.Specs {
						if d.Tok == token.CONST {
							for _, n := range s.(*ast.ValueSpec).Names {
								if n.IsExported() {
									consts = append(consts, fmt.Sprintf("%s.%s,\n", name, n.Name))
								}
							}
						}
						if ty, ok := s.(*ast.TypeSpec); ok && ty.Name.IsExported() && ty.TypeParams == nil && !isInterface(ty) {
							named = append(named, fmt.Sprintf("reflect.TypeFor[%s.%s](),\n", name, ty.Name.Name))
						}
					}
				}
			}
		}
		slices.Sort(calls)
		slices.Sort(named)
		slices.Sort(consts)
		functions.WriteString(strings.Join(calls, ""))
		types.WriteString(strings.Join(named, ""))
		constants.WriteString(strings.Join(consts, ""))
	}
	source := "// Code written by go test ./internal/hostile -run Table -update. DO NOT EDIT.\n\npackage hostile\n\nimport (\n\"reflect\"\n\n" +
		imports.String() + ")\n\nvar functions = []function{\n" + functions.String() + "}\n\nvar types = []reflect.Type{\n" + types.String() + "}\n\nvar constants = []any{\n" + constants.String() + "}\n"
	out, err := format.Source([]byte(source))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func isInterface(t *ast.TypeSpec) bool {
	_, ok := t.Type.(*ast.InterfaceType)
	return ok
}
