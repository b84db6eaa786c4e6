package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"
)

// The rules of an accessible page that can be checked without a browser.
// CONTRIBUTING.md says how to check the others.
func TestPage(t *testing.T) {
	for _, name := range []string{"dunlin", "plover"} {
		p := demo(t, name)
		files, err := p.files(p.report)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range faults(files["index.html"]) {
			t.Errorf("%s: %s", name, fault)
		}
		// The page says what the text says.
		words := strings.Join(strings.Fields(strings.ReplaceAll(plain(files["index.html"]), "\u00a0", " ")), " ")
		for _, s := range p.Sections {
			for _, line := range append(append([]string{s.Title}, s.Warn...), s.Do...) {
				if !strings.Contains(words, strings.Join(strings.Fields(line), " ")) {
					t.Errorf("%s: the page lacks %q", name, line)
				}
			}
		}
	}
}

// The checks find what they look for.
func TestPageFaults(t *testing.T) {
	good := `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>t</title></head>` +
		`<body><a href="#a">x</a><main><h1>A</h1><h2 id="a">B</h2><table><caption>c</caption><thead><tr><th scope="col">d</th></tr></thead></table>` +
		`<svg role="img" aria-labelledby="u v"><title id="u">u</title><desc id="v">v</desc></svg></main></body></html>`
	if f := faults([]byte(good)); len(f) > 0 {
		t.Fatal(f)
	}
	for _, c := range [][2]string{
		{`lang="en"`, ``},
		{`<h2 id="a">B</h2>`, `<h3 id="a">B</h3>`},
		{`<h1>A</h1>`, `<h1>A</h1><h1>A</h1>`},
		{`id="u"`, `id="a"`},
		{`href="#a"`, `href="#b"`},
		{`href="#a"`, `href="https://example.com"`},
		{`scope="col"`, ``},
		{`<caption>c</caption>`, ``},
		{`<desc id="v">v</desc>`, ``},
		{`aria-labelledby="u v"`, ``},
		{`<main>`, `<main><img src="x.png">`},
		{`<main>`, `<main><style>p{background:url(x.png)}</style>`},
		{`<title>t</title>`, ``},
	} {
		if bad := strings.Replace(good, c[0], c[1], 1); len(faults([]byte(bad))) == 0 {
			t.Errorf("%s: not found", c[1])
		}
	}
}

var outside = regexp.MustCompile(`url\(|@import|\bsrc=`)

// faults are what is wrong with a page.
func faults(page []byte) (list []string) {
	add := func(s string) { list = append(list, s) }
	if outside.Match(page) {
		add("it refers to something outside")
	}
	d := decoder(page)
	ids, targets := map[string]bool{}, []string{}
	level, h1, main, title, captions, tables, lang := 0, 0, 0, 0, 0, 0, false
	var pictures []map[string]bool // the title and desc of each
	inSVG := false
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			add(err.Error())
			break
		}
		if end, ok := token.(xml.EndElement); ok && end.Name.Local == "svg" {
			inSVG = false
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		if id, ok := attr["id"]; ok {
			if ids[id] {
				add("the id " + id + " is there twice")
			}
			ids[id] = true
		}
		targets = append(targets, strings.Fields(attr["aria-labelledby"])...)
		switch name := e.Name.Local; name {
		case "html":
			lang = attr["lang"] != ""
		case "main":
			main++
		case "h1", "h2", "h3", "h4":
			n := int(name[1] - '0')
			if n > level+1 {
				add("a heading of level " + name[1:] + " follows a lesser one")
			}
			if level = n; n == 1 {
				h1++
			}
		case "a":
			if !strings.HasPrefix(attr["href"], "#") {
				add("a link to " + attr["href"])
				continue
			}
			targets = append(targets, attr["href"][1:])
		case "link", "script", "img", "iframe", "object":
			add("an element " + name)
		case "table":
			tables++
		case "caption":
			captions++
		case "th":
			if attr["scope"] == "" {
				add("a th without scope")
			}
		case "svg":
			inSVG = true
			if attr["role"] != "img" || attr["aria-labelledby"] == "" {
				add("a picture without a name")
			}
			pictures = append(pictures, map[string]bool{})
		case "title", "desc":
			if inSVG {
				pictures[len(pictures)-1][name] = true
			} else if name == "title" {
				title++
			}
		}
	}
	for _, id := range targets {
		if !ids[id] {
			add("nothing has the id " + id)
		}
	}
	for _, p := range pictures {
		if !p["title"] || !p["desc"] {
			add("a picture without title or desc")
		}
	}
	if !lang || h1 != 1 || main != 1 || title != 1 || captions != tables {
		add("lang, one h1, one main, one title and a caption for every table are wanted")
	}
	return list
}

func decoder(page []byte) *xml.Decoder {
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	return d
}

// plain is the text of a page.
func plain(page []byte) string {
	var b strings.Builder
	d := decoder(page)
	for {
		token, err := d.Token()
		if err != nil {
			return b.String()
		}
		if c, ok := token.(xml.CharData); ok {
			b.Write(c)
			b.WriteByte(' ')
		}
	}
}
