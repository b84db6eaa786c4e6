package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// A pack is a package as it is, parsed and with types.
type pack struct {
	path, name, dir string
	files           []*file
	info            *types.Info
	types           *types.Package
}

type file struct {
	path string
	text string
	tree *ast.File
	set  *token.FileSet
	pack *pack
}

// A site is one change of the text between two offsets.
type site struct {
	id       int
	file     string
	line     int
	kind     string
	from, at int // the text from..at is what changes
	old, to  string
	// before and after stand round the original text, so that it is kept and can hold further sites:
	// before + original + after, in which to is written out.
	before, after string
}

func load(pattern string) (*pack, error) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Name,Dir,GoFiles,Export,DepOnly", pattern).Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	export := map[string]string{}
	p := &pack{}
	var names []string
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var l struct {
			ImportPath, Name, Dir, Export string
			GoFiles                       []string
			DepOnly                       bool
		}
		if err := d.Decode(&l); err == io.EOF {
			break
		} else if err != nil {
			return nil, err
		}
		export[l.ImportPath] = l.Export
		if !l.DepOnly {
			p.path, p.name, p.dir, names = l.ImportPath, l.Name, l.Dir, l.GoFiles
		}
	}
	set := token.NewFileSet()
	var trees []*ast.File
	for _, name := range names {
		path := filepath.Join(p.dir, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		tree, err := parser.ParseFile(set, path, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		trees = append(trees, tree)
		p.files = append(p.files, &file{path, string(text), tree, set, p})
	}
	c := types.Config{Importer: importer.ForCompiler(set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(export[path]) })}
	p.info = &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
	p.types, err = c.Check(p.path, set, trees, p.info)
	return p, err
}

var (
	boundary = map[token.Token]string{
		token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">", token.EQL: "!=", token.NEQ: "==",
		token.LAND: "||", token.LOR: "&&",
	}
	arithmetic = map[token.Token]string{token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*", token.REM: "*"}
	assigned   = map[token.Token]string{
		token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.MUL_ASSIGN: "/=", token.QUO_ASSIGN: "*=",
		token.INC: "--", token.DEC: "++",
	}
	extreme = map[string]string{"min": "max", "max": "min", "math.Min": "math.Max", "math.Max": "math.Min"}
)

// sites lists what could be changed in f.
func (f *file) sites(info *types.Info) []*site {
	var all []*site
	add := func(n ast.Node, kind, to, before, after string) {
		at := f.set.Position(n.Pos())
		end := f.set.Position(n.End()).Offset
		all = append(all, &site{
			file: filepath.Base(f.path), line: at.Line, kind: kind, from: at.Offset, at: end,
			old: f.text[at.Offset:end], to: to, before: before, after: after,
		})
	}
	// value puts another expression of the same type in the place of e.
	value := func(e ast.Expr, kind, to string) {
		if name, ok := f.typeName(info.TypeOf(e)); ok {
			add(e, kind, to, "func() "+name+" { if mutant__(ID) { return "+to+" }; return ", " }()")
		}
	}
	truth := func(e ast.Expr, kind, to string) {
		add(e, kind, to, "(mutant__(ID) && ("+to+") || !mutant__(ID) && (", "))")
	}
	condition := func(e ast.Expr) {
		if e != nil {
			add(e, "negated", "!("+f.of(e)+")", "mutant__(ID) != (", ")")
		}
	}
	statements := func(list []ast.Stmt) {
		for _, s := range list {
			switch s := s.(type) {
			case *ast.ExprStmt:
				add(s, "left out", "", "if !mutant__(ID) { ", " }")
			case *ast.BranchStmt:
				if s.Tok == token.BREAK || s.Tok == token.CONTINUE {
					add(s, "left out", "", "if !mutant__(ID) { ", " }")
				}
			case *ast.IncDecStmt:
				to := f.of(s.X) + assigned[s.Tok]
				add(s, "assignment", to, "if mutant__(ID) { "+to+" } else { ", " }")
			case *ast.AssignStmt:
				if s.Tok != token.DEFINE && !isBlank(s.Lhs) {
					add(s, "left out", "", "if !mutant__(ID) { ", " }")
				}
				if op := assigned[s.Tok]; op != "" && isNumber(info.TypeOf(s.Lhs[0])) {
					to := f.of(s.Lhs[0]) + op + f.of(s.Rhs[0])
					add(s, "assignment", to, "if mutant__(ID) { "+to+" } else { ", " }")
				}
			}
		}
	}
	ast.Inspect(f.tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec, *ast.ArrayType:
			return false
		case *ast.GenDecl:
			return n.Tok == token.VAR
		case *ast.BlockStmt:
			statements(n.List)
		case *ast.CaseClause:
			statements(n.Body)
		case *ast.CommClause:
			statements(n.Body)
		case *ast.IfStmt:
			condition(n.Cond)
			if last := len(n.Body.List) - 1; last >= 0 && n.Else == nil {
				if r, ok := n.Body.List[last].(*ast.ReturnStmt); ok {
					add(r, "left out", "", "if !mutant__(ID) { ", " }")
				}
			}
		case *ast.ForStmt:
			condition(n.Cond)
		case *ast.UnaryExpr:
			if info.Types[n].Value == nil && n.Op == token.SUB {
				value(n, "arithmetic", f.of(n.X))
			}
		case *ast.CallExpr:
			if to := extreme[f.of(n.Fun)]; to != "" && info.Types[n].Value == nil {
				value(n, "extreme", to+f.text[f.offset(n.Lparen):f.offset(n.End())])
			}
		case *ast.BinaryExpr:
			if info.Types[n].Value != nil {
				return false
			}
			x, y := f.of(n.X), f.of(n.Y)
			if op := boundary[n.Op]; op != "" {
				truth(n, "comparison", x+" "+op+" "+y)
				for _, side := range []ast.Expr{n.X, n.Y} {
					if c := info.Types[side]; c.Value != nil && isNumber(c.Type) && c.Value.Kind() != constant.String {
						value(side, "constant", f.of(side)+"+1")
					}
				}
			}
			if op := arithmetic[n.Op]; op != "" && isNumber(info.TypeOf(n)) {
				value(n, "arithmetic", x+" "+op+" "+y)
			}
		}
		return true
	})
	return all
}

func (f *file) offset(p token.Pos) int { return f.set.Position(p).Offset }

func (f *file) of(n ast.Node) string { return f.text[f.offset(n.Pos()):f.offset(n.End())] }

func isNumber(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
}

func isBlank(lhs []ast.Expr) bool {
	id, ok := lhs[0].(*ast.Ident)
	return ok && len(lhs) == 1 && id.Name == "_"
}

// typeName writes t as f can, and tells whether it can: what is not imported has no name there.
func (f *file) typeName(t types.Type) (string, bool) {
	imported := map[string]string{}
	for _, i := range f.tree.Imports {
		path := strings.Trim(i.Path.Value, `"`)
		imported[path] = filepath.Base(path)
		if i.Name != nil {
			imported[path] = i.Name.Name
		}
	}
	ok := true
	if b, is := t.(*types.Basic); is && b.Info()&types.IsUntyped != 0 {
		return types.Default(t).String(), true
	}
	name := types.TypeString(t, func(p *types.Package) string {
		if p == f.pack.types {
			return ""
		}
		ok = ok && imported[p.Path()] != ""
		return imported[p.Path()]
	})
	return name, ok
}

// rewrite gives f's text with those sites that are f's.
func (f *file) rewrite(sites []*site) string {
	open, shut := map[int][]*site{}, map[int][]*site{}
	for _, s := range sites {
		if s.file == filepath.Base(f.path) {
			open[s.from] = append(open[s.from], s)
			shut[s.at] = append(shut[s.at], s)
		}
	}
	// The sites are nested. Of those that begin together the longest comes first; of those that end together the last
	// one begun is the first to end; sites of the same text nest by number.
	outer := func(a, b *site) bool {
		switch {
		case a.from != b.from:
			return a.from < b.from
		case a.at != b.at:
			return a.at > b.at
		case strings.HasPrefix(a.before, "if") != strings.HasPrefix(b.before, "if"):
			return strings.HasPrefix(a.before, "if") // a statement holds its expression
		}
		return a.id < b.id
	}
	less := func(a, b *site) int {
		if outer(a, b) {
			return -1
		}
		return 1
	}
	var b strings.Builder
	for i := 0; i <= len(f.text); i++ {
		for _, s := range sorted(shut[i], func(a, b *site) int { return less(b, a) }) {
			b.WriteString(strings.ReplaceAll(s.after, "ID", fmt.Sprint(s.id)))
		}
		for _, s := range sorted(open[i], less) {
			b.WriteString(strings.ReplaceAll(s.before, "ID", fmt.Sprint(s.id)))
		}
		if i < len(f.text) {
			b.WriteByte(f.text[i])
		}
	}
	return b.String()
}
