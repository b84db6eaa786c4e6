// Package examples is a tutorial: folders to be run in their order, and the main
// job, fitout. README.md is the way through them.
package examples

import (
	"flag"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the tutorials' output into README.md")

// The output that README.md shows under each tutorial is the one that the
// tutorial's own test checks, and each tutorial is short.
func TestReadmeShowsTheOutput(t *testing.T) {
	tests, err := filepath.Glob("[0-9][0-9]-*/main_test.go")
	if err != nil || len(tests) < 3 {
		t.Fatalf("tutorials found: %v, %v", tests, err)
	}
	data, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(data)
	for _, file := range tests {
		folder := filepath.ToSlash(filepath.Dir(file))
		src, err := os.ReadFile(folder + "/main.go")
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(src), "\n"); n > 80 {
			t.Errorf("%s/main.go has %d lines, at most 80 make a tutorial", folder, n)
		}
		if question, _, _ := strings.Cut(string(src), "\n"); !strings.HasPrefix(question, "// ") || !strings.HasSuffix(question, "?") {
			t.Errorf("%s/main.go opens with %q, not with a skipper's question", folder, question)
		}
		begin := "    go run ./examples/" + folder + "\n\n```text\n"
		i := strings.Index(readme, begin)
		if i < 0 {
			t.Errorf("README.md has no block that begins with %q", begin)
			continue
		}
		i += len(begin)
		n := strings.Index(readme[i:], "```")
		if want := output(t, file); readme[i:i+n] != want {
			if !*update {
				t.Errorf("README.md shows another output of %s: run go test ./examples -update", folder)
			}
			readme = readme[:i] + want + readme[i+n:]
		}
	}
	if *update && readme != string(data) {
		if err := os.WriteFile("README.md", []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// output is what the Example in a test file prints.
func output(t *testing.T, file string) string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range doc.Examples([]*ast.File{f}...) {
		if e.Name == "" {
			return e.Output
		}
	}
	t.Fatalf("%s has no Example", file)
	return ""
}

// The README's program is the package example of rode, with its output.
func TestTopReadmeShowsTheExample(t *testing.T) {
	const file = "../rode/example_package_test.go"
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(src), "func Example() {\n")
	body, _, _ = strings.Cut(body, "\t// Output:")
	body = strings.TrimPrefix(strings.ReplaceAll("\n"+body, "\n\t", "\n"), "\n")
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"```go\n" + body + "```\n", "```text\n" + output(t, file) + "```\n"} {
		if !strings.Contains(string(readme), want) {
			t.Errorf("README.md lacks\n%s", want)
		}
	}
}
