package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"testing"
)

const source = `package p

var table = [...]float64{1, 2}

func f(a, b float64, n int, list []int) (float64, error) {
	const most = 10
	if a < 0 && n <= most {
		return 0, nil
	}
	s := -a
	for i := 0; i < n; i++ {
		s += a * b
		if i == 3 {
			continue
		}
		n--
	}
	list = append(list, min(n, 2))
	print(len(list))
	return s - table[0], nil
}
`

func parsed(t *testing.T, text string) (*file, error) {
	t.Helper()
	p := &pack{info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}}
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, "p.go", text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var c types.Config
	p.types, err = c.Check("p", set, []*ast.File{tree}, p.info)
	return &file{"p.go", text, tree, set, p}, err
}

// Every change of a small file, and the file with all of them in it still compiles.
func TestSites(t *testing.T) {
	f, err := parsed(t, source)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	all := f.sites(f.pack.info)
	for i, s := range all {
		s.id = i + 1
		got = append(got, fmt.Sprintf("%d %s: %s -> %s", s.line, s.kind, oneLine(s.old), s.to))
	}
	want := []string{
		"7 comparison: a < 0 && n <= most -> a < 0 || n <= most",
		"7 comparison: a < 0 -> a <= 0",
		"7 comparison: n <= most -> n < most",
		"7 constant: 0 -> 0+1",
		"7 constant: most -> most+1",
		"7 negated: a < 0 && n <= most -> !(a < 0 && n <= most)",
		"8 left out: return 0, nil -> ",
		"10 arithmetic: -a -> a",
		"11 comparison: i < n -> i <= n",
		"11 negated: i < n -> !(i < n)",
		"12 arithmetic: a * b -> a / b",
		"12 assignment: s += a * b -> s-=a * b",
		"12 left out: s += a * b -> ",
		"13 comparison: i == 3 -> i != 3",
		"13 constant: 3 -> 3+1",
		"13 negated: i == 3 -> !(i == 3)",
		"14 left out: continue -> ",
		"16 assignment: n-- -> n++",
		"18 extreme: min(n, 2) -> max(n, 2)",
		"18 left out: list = append(list, min(n, 2)) -> ",
		"19 left out: print(len(list)) -> ",
		"20 arithmetic: s - table[0] -> s + table[0]",
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	changed := f.rewrite(all) + "\nfunc mutant__(id int) bool { return id == 0 }\n"
	if n := strings.Count(changed, "mutant__("); n < len(all) {
		t.Errorf("%d changes, %d switches", len(all), n)
	}
	if _, err := parsed(t, changed); err != nil {
		t.Errorf("%v in\n%s", err, changed)
	}
}
