package main

import (
	_ "embed"
	"html/template"
	"io"
)

//go:embed page.html
var pageText string

// writePage writes the report as one page that needs nothing else: its pictures
// are those of files, put inline.
func (r *report) writePage(w io.Writer, files map[string][]byte) error {
	page, err := template.New("page").Funcs(template.FuncMap{
		"keep":  keepUnits,
		"svg":   func(file string) template.HTML { return template.HTML(files[file]) },
		"words": func(c string) bool { return len(c) > 24 },
	}).Parse(pageText)
	if err != nil {
		return err
	}
	return page.Execute(w, r)
}
