package units_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// Go lets a length be multiplied by a length and calls the result a length.
// No code of the module may do so.
func TestModuleDoesNotMultiplyQuantities(t *testing.T) {
	if runtime.GOOS == "js" {
		t.Skip("needs the go command")
	}
	packages := listPackages(t, "./...")
	fset := token.NewFileSet()
	imports := exportData(fset, packages)
	checked := 0
	for _, p := range packages {
		if p.Module == nil || !p.Module.Main || p.DepOnly {
			continue
		}
		var files []*ast.File
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Errorf("%s: %v", p.ImportPath, err)
				continue
			}
			files = append(files, file)
			checked++
		}
		for _, complaint := range quantityProducts(fset, p.ImportPath, files, imports) {
			t.Error(complaint)
		}
	}
	if checked == 0 {
		t.Error("no file was checked")
	}
}

// The check itself, on code that it must flag and code that it must not.
func TestQuantityProducts(t *testing.T) {
	if runtime.GOOS == "js" {
		t.Skip("needs the go command")
	}
	const source = `package p
import ("math"; "example.com/forepeak/units")
const half = 0.5
type own units.Length
func f(l, m units.Length, a units.Area, x float64, n own) {
	_ = l * m // want
	_ = l / m // want
	_ = l / units.Foot // want
	_ = units.Length(x) * units.Metre // want
	_ = units.Metre * units.Metre // want
	l *= m // want
	l /= m // want
	_ = (l) * (m + m) // want
	_ = -l * m // want
	_ = 2 * l
	_ = l * 2
	_ = l / 2
	_ = l * half
	_ = math.Pi * l
	_ = -(2 * half) * l
	_ = 12.5 * units.Foot
	_ = half / 3 * units.Foot
	_ = float64(l) * float64(m)
	_ = l + m - m
	_ = x * x
	_ = n * n
	_ = l.TimesLength(m)
	_ = l.Per(m) * x
	l *= 2
	l += m
}
`
	packages := listPackages(t, ".")
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "p.go", source, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	got := make(map[int]bool)
	for _, c := range quantityProducts(fset, "p", []*ast.File{file}, exportData(fset, packages)) {
		var line int
		if _, err := fmt.Sscanf(c, "p.go:%d:", &line); err != nil {
			t.Fatalf("%q: %v", c, err)
		}
		got[line] = true
	}
	for i, line := range strings.Split(source, "\n") {
		if want := strings.HasSuffix(line, "// want"); want != got[i+1] {
			t.Errorf("line %d %q: flagged is %v", i+1, line, got[i+1])
		}
	}
}

// quantityProducts lists where two quantities are multiplied or divided. A
// number written as such, or an untyped constant, is not a quantity.
func quantityProducts(fset *token.FileSet, path string, files []*ast.File, imports types.Importer) (complaints []string) {
	info := &types.Info{Types: make(map[ast.Expr]types.TypeAndValue), Uses: make(map[*ast.Ident]types.Object)}
	// Errors are the compiler's business.
	conf := types.Config{Importer: imports, Error: func(error) {}}
	_, _ = conf.Check(path, fset, files, info)
	complain := func(x, y ast.Expr, op token.Token, pos token.Pos) {
		tx, ty := quantityOf(info, x), quantityOf(info, y)
		if tx != "" && ty != "" {
			complaints = append(complaints, fmt.Sprintf("%v: %s %v %s: the dimension is lost, use a method such as Times, Per or Scale", fset.Position(pos), tx, op, ty))
		}
	}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if n.Op == token.MUL || n.Op == token.QUO {
					complain(n.X, n.Y, n.Op, n.OpPos)
				}
			case *ast.AssignStmt:
				if n.Tok == token.MUL_ASSIGN || n.Tok == token.QUO_ASSIGN {
					complain(n.Lhs[0], n.Rhs[0], n.Tok, n.TokPos)
				}
			}
			return true
		})
	}
	return complaints
}

// quantityOf names the quantity type of an operand; it is empty for others and
// for untyped constants.
func quantityOf(info *types.Info, e ast.Expr) string {
	named, ok := types.Unalias(info.TypeOf(e)).(*types.Named)
	if !ok || named.Obj().Pkg() == nil || !strings.HasSuffix(named.Obj().Pkg().Path(), "forepeak/units") || isUntyped(info, e) {
		return ""
	}
	if b, ok := named.Underlying().(*types.Basic); !ok || b.Kind() != types.Float64 {
		return ""
	}
	return named.Obj().Name()
}

// isUntyped says whether e was an untyped constant before it took the type of
// the other operand.
func isUntyped(info *types.Info, e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.BasicLit:
		return true
	case *ast.ParenExpr:
		return isUntyped(info, e.X)
	case *ast.UnaryExpr:
		return isUntyped(info, e.X)
	case *ast.BinaryExpr:
		return isUntyped(info, e.X) && isUntyped(info, e.Y)
	case *ast.SelectorExpr:
		return isUntyped(info, e.Sel)
	case *ast.Ident:
		c, ok := info.Uses[e].(*types.Const)
		if !ok {
			return false
		}
		b, ok := c.Type().(*types.Basic)
		return ok && b.Info()&types.IsUntyped != 0
	}
	return false
}

type listed struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
	DepOnly                 bool
	Module                  *struct{ Main bool }
}

// listPackages asks the go command, which also compiles what is imported.
func listPackages(t *testing.T, pattern string) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles,DepOnly,Module", pattern)
	cmd.Dir = ".."
	if pattern == "." {
		cmd.Dir = "."
	}
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.Bytes())
	}
	var packages []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			return packages
		} else if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}

// exportData imports from what the compiler left in the build cache.
func exportData(fset *token.FileSet, packages []listed) types.Importer {
	files := make(map[string]string)
	for _, p := range packages {
		files[p.ImportPath] = p.Export
	}
	return importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) {
		if files[path] == "" {
			return nil, fmt.Errorf("no export data of %s", path)
		}
		return os.Open(files[path])
	})
}
