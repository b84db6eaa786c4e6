package main

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/wiring"
)

// The schema and new.json are made of the Go types and the comments of their
// fields, so that a field needs to be described once. go test -update writes them.
func TestSchema(t *testing.T) {
	d := describe(t)
	schema := d.object(reflect.TypeFor[boatFile]())
	schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	schema["title"] = "Boat file of fitout"
	schema["$defs"] = d.defs
	compare(t, "boat.schema.json", indented(t, schema))

	var raw json.RawMessage = dunlin
	compare(t, "new.json", indented(t, d.explained(t, raw, reflect.TypeFor[boatFile]())))
	for _, undescribed := range d.without {
		t.Errorf("%s has no comment that says what it is", undescribed)
	}
}

func compare(t *testing.T, file string, want []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s does not match the types: go test ./examples/fitout -update", file)
	}
}

func indented(t *testing.T, v any) []byte {
	t.Helper()
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// description is what is known of the types from their source.
type description struct {
	comments map[string]string // by Type.Field
	defs     map[string]any    // the quantities
	without  []string
}

func describe(t *testing.T) *description {
	d := &description{comments: map[string]string{}, defs: map[string]any{}}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			spec, ok := n.(*ast.TypeSpec)
			if !ok {
				return true
			}
			s, ok := spec.Type.(*ast.StructType)
			if !ok {
				return true
			}
			for _, field := range s.Fields.List {
				text := strings.Join(strings.Fields(field.Doc.Text()+" "+field.Comment.Text()), " ")
				for _, name := range field.Names {
					d.comments[spec.Name.Name+"."+name.Name] = text
				}
			}
			return true
		})
	}
	return d
}

// comment says what a field is.
func (d *description) comment(owner reflect.Type, f reflect.StructField) string {
	text := d.comments[owner.Name()+"."+f.Name]
	if text == "" {
		d.without = append(d.without, owner.Name()+"."+f.Name)
	}
	if f.Tag.Get("file") == "optional" {
		text += " (may be left out)"
	}
	return text
}

func (d *description) object(owner reflect.Type) map[string]any {
	properties, required := map[string]any{}, []string{}
	for f := range fieldsOf(owner) {
		p := d.value(f.Type)
		p["description"] = d.comment(owner, f)
		properties[fieldName(f)] = p
		if f.Tag.Get("file") != "optional" {
			required = append(required, fieldName(f))
		}
	}
	return map[string]any{
		"type": "object", "properties": properties, "required": required, "additionalProperties": false,
		"patternProperties": map[string]any{"^_": map[string]any{"type": "string", "description": "a note"}},
	}
}

func fieldsOf(owner reflect.Type) func(func(reflect.StructField) bool) {
	return func(yield func(reflect.StructField) bool) {
		for i := range owner.NumField() {
			if !yield(owner.Field(i)) {
				return
			}
		}
	}
}

func (d *description) value(t reflect.Type) map[string]any {
	if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		name := strings.ToLower(t.Name()[:1]) + t.Name()[1:]
		def := map[string]any{"type": "string"}
		switch t {
		case reflect.TypeFor[anchor.Rig]():
			def["enum"] = []string{"sloop", "cutter", "ketch", "motor"}
		case reflect.TypeFor[wiring.Chemistry]():
			// its own package accepts or refuses it
		default:
			def["examples"] = []string{strings.Trim(example(reflect.New(t).Elem()), `"`)}
			def["pattern"] = "[0-9]"
		}
		d.defs[name] = def
		return map[string]any{"$ref": "#/$defs/" + name}
	}
	switch t.Kind() {
	case reflect.Struct:
		return d.object(t)
	case reflect.Pointer:
		return d.value(t.Elem())
	case reflect.Slice:
		return map[string]any{"type": "array", "items": d.value(t.Elem())}
	}
	return map[string]any{"type": map[reflect.Kind]string{
		reflect.Float64: "number", reflect.Int: "integer", reflect.String: "string", reflect.Bool: "boolean",
	}[t.Kind()]}
}

// pair keeps the order of a file, which a map would lose.
type pair struct {
	name  string
	value any
}

type ordered []pair

func (o ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, p := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(p.name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(p.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// explained is a value of a file with a note before each field of its objects.
func (d *description) explained(t *testing.T, raw json.RawMessage, typ reflect.Type) any {
	t.Helper()
	if typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	switch {
	case reflect.PointerTo(typ).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()):
	case typ.Kind() == reflect.Struct:
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(raw, &fields); err != nil {
			t.Fatal(err)
		}
		var out ordered
		for f := range fieldsOf(typ) {
			name, note := fieldName(f), d.comment(typ, f)
			value, given := fields[name]
			if f.Type.Kind() == reflect.Slice || f.Type.Kind() == reflect.Pointer && !given {
				note += d.notes(f.Type.Elem())
			}
			out = append(out, pair{"_" + name, note})
			if given {
				out = append(out, pair{name, d.explained(t, value, f.Type)})
			}
		}
		return out
	}
	return raw // a list too: what its entries are is said once, before it
}

// notes are those of the fields of a struct that is not there, or that a list has
// many of.
func (d *description) notes(typ reflect.Type) string {
	if typ.Kind() != reflect.Struct {
		return ""
	}
	var each []string
	for f := range fieldsOf(typ) {
		note := fieldName(f) + ": " + d.comment(typ, f)
		if f.Type.Kind() == reflect.Slice {
			note += d.notes(f.Type.Elem())
		}
		each = append(each, note)
	}
	return ". With " + strings.Join(each, "; ")
}

// The boat files are what the schema says, and what is not is refused by both the
// schema and the decoder.
func TestFilesMatchSchema(t *testing.T) {
	data, err := os.ReadFile("boat.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	valid := func(file []byte) error {
		var v any
		if err := json.Unmarshal(file, &v); err != nil {
			return err
		}
		return validate(schema, schema, v, "")
	}
	for name, file := range map[string][]byte{"dunlin.json": dunlin, "plover.json": plover, "new.json": newFile} {
		if err := valid(file); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, c := range [][2]string{
		{`"waterline": "9.1 m"`, `"waterline": 9.1`},
		{`"waterline": "9.1 m"`, `"waterlin": "9.1 m"`},
		{`"waterline": "9.1 m",`, ``},
		{`"waterline": "9.1 m"`, `"waterline": "long"`},
		{`"hulls": 1`, `"hulls": 1.5`},
		{`"metalHull": true`, `"metalHull": "yes"`},
		{`"rig": "cutter"`, `"rig": "junk"`},
		{`"hollow": 0.08`, `"hollow": "0.08"`},
		{`"lowWater": ["4 m", "6 m", "8 m", "10 m", "12 m"]`, `"lowWater": "4 m"`},
		{`"name": "Dunlin"`, `"name": "Dunlin", "_x": 3`},
	} {
		file := strings.Replace(string(dunlin), c[0], c[1], 1)
		if file == string(dunlin) {
			t.Fatalf("%q is not in dunlin.json", c[0])
		}
		if valid([]byte(file)) == nil {
			t.Errorf("the schema accepts %s", c[1])
		}
		if decode([]byte(file), new(boatFile)) == nil {
			t.Errorf("the decoder accepts %s", c[1])
		}
	}
}

// validate is as much of JSON Schema as the schema of boat files uses.
func validate(root, schema map[string]any, v any, at string) error {
	if ref, ok := schema["$ref"].(string); ok {
		return validate(root, root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any), v, at)
	}
	bad := fmt.Errorf("%s: %v is not %v", at, v, schema["type"])
	switch schema["type"] {
	case "string":
		s, ok := v.(string)
		if !ok || schema["pattern"] == "[0-9]" && !strings.ContainsAny(s, "0123456789") {
			return bad
		}
		if enum, ok := schema["enum"].([]any); ok && !slices.Contains(enum, v) {
			return bad
		}
	case "number":
		if _, ok := v.(float64); !ok {
			return bad
		}
	case "integer":
		if x, ok := v.(float64); !ok || x != float64(int(x)) {
			return bad
		}
	case "boolean":
		if _, ok := v.(bool); !ok {
			return bad
		}
	case "array":
		list, ok := v.([]any)
		if !ok {
			return bad
		}
		for i, item := range list {
			if err := validate(root, schema["items"].(map[string]any), item, fmt.Sprintf("%s[%d]", at, i)); err != nil {
				return err
			}
		}
	case "object":
		fields, ok := v.(map[string]any)
		if !ok {
			return bad
		}
		for _, name := range schema["required"].([]any) {
			if _, ok := fields[name.(string)]; !ok {
				return fmt.Errorf("%s.%s is missing", at, name)
			}
		}
		properties := schema["properties"].(map[string]any)
		for name, value := range fields {
			p, known := properties[name].(map[string]any)
			switch {
			case strings.HasPrefix(name, "_"):
				p = schema["patternProperties"].(map[string]any)["^_"].(map[string]any)
			case !known:
				return fmt.Errorf("%s.%s is not known", at, name)
			}
			if err := validate(root, p, value, at+"."+name); err != nil {
				return err
			}
		}
	default:
		return fmt.Errorf("%s: the schema has the type %v", at, schema["type"])
	}
	return nil
}

// A new boat file is Dunlin's, whose plan there is, and is not written over another.
func TestNew(t *testing.T) {
	name := filepath.Join(t.TempDir(), "my.json")
	var out, errs bytes.Buffer
	if code := run([]string{"-new", name}, &out, &errs); code != 0 || errs.Len() > 0 || !strings.Contains(out.String(), name) {
		t.Fatal(code, out.String(), errs.String())
	}
	written, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var fresh, old boatFile
	if err := errors.Join(decode(written, &fresh), decode(dunlin, &old)); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(fresh, old) {
		t.Error("the new file is another boat's than Dunlin's")
	}
	if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if code := run([]string{"-new", name}, &out, &errs); code != 1 || !strings.Contains(errs.String(), name) {
		t.Error(code, errs.String())
	}
	if data, err := os.ReadFile(name); err != nil || string(data) != "mine" {
		t.Errorf("written over: %q, %v", data, err)
	}
}
