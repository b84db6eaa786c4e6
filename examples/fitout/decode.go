package main

import (
	"bytes"
	"cmp"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// A fileError is one line about one field: what was found and what is accepted.
type fileError struct{ field, found, want string }

func (e *fileError) Error() string {
	s := fmt.Sprintf("%s: found %s", e.field, e.found)
	if e.want != "" {
		s += "; accepted: " + e.want
	}
	return s
}

// decode reads a file into v. It is stricter than encoding/json: names are
// spelled exactly, every field is there unless it is optional, none is there
// twice or unknown, and every complaint names its field; all of them are joined.
// JSON has no comments: a field whose name begins with _ is a note to the reader.
func decode(data []byte, v any) error {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return &fileError{"the file", "text in UTF-16", "UTF-8: save it so"}
	}
	data = withoutMark(data)
	dec := json.NewDecoder(bytes.NewReader(data))
	var raw json.RawMessage
	if err := dec.Decode(&raw); err != nil {
		return syntaxError(data, err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return &fileError{"the file", "more after its closing brace", "one { ... }"}
	}
	return decodeValue(raw, reflect.ValueOf(v).Elem(), "")
}

// withoutMark is data without the mark of the byte order that some editors put there.
func withoutMark(data []byte) []byte { return bytes.TrimPrefix(data, []byte("\ufeff")) }

func syntaxError(data []byte, err error) error {
	var s *json.SyntaxError
	line := 1 + bytes.Count(data, []byte("\n"))
	if errors.As(err, &s) {
		line = 1 + bytes.Count(data[:min(int(s.Offset), len(data))], []byte("\n"))
	}
	return &fileError{fmt.Sprintf("line %d", line), err.Error(), "JSON"}
}

func decodeValue(raw json.RawMessage, v reflect.Value, field string) error {
	if t, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		var s string
		if json.Unmarshal(raw, &s) != nil {
			return &fileError{field, show(raw), `text in quotes, such as ` + cmp.Or(sample(field), example(v))}
		}
		if err := t.UnmarshalText([]byte(s)); err != nil {
			return refused(field, raw, v, err)
		}
		return nil
	}
	switch v.Kind() {
	case reflect.Struct:
		return decodeStruct(raw, v, field)
	case reflect.Slice:
		var items []json.RawMessage
		if json.Unmarshal(raw, &items) != nil || items == nil {
			return &fileError{field, show(raw), "a list in [ ]"}
		}
		v.Set(reflect.MakeSlice(v.Type(), len(items), len(items)))
		var mistakes []error
		for i := range items {
			mistakes = append(mistakes, decodeValue(items[i], v.Index(i), fmt.Sprintf("%s[%d]", field, i)))
		}
		return errors.Join(mistakes...)
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return decodeValue(raw, v.Elem(), field)
	}
	want := map[reflect.Kind]string{reflect.Float64: "a number", reflect.Int: "a whole number", reflect.String: "text in quotes", reflect.Bool: "true or false"}[v.Kind()]
	if bytes.Equal(raw, []byte("null")) || json.Unmarshal(raw, v.Addr().Interface()) != nil {
		return &fileError{field, show(raw), want}
	}
	return nil
}

func decodeStruct(raw json.RawMessage, v reflect.Value, field string) error {
	where := field
	if where == "" {
		where = "the file"
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	if open, _ := dec.Token(); open != json.Delim('{') {
		return &fileError{where, show(raw), "fields in { }"}
	}
	var names, seen []string
	byName := map[string]int{}
	for i := range v.NumField() {
		n := fieldName(v.Type().Field(i))
		names = append(names, n)
		byName[n] = i
	}
	var mistakes []error
	misspelt := false // then what is missing is likely to be there under another name
	for dec.More() {
		key, _ := dec.Token()
		name, _ := key.(string)
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return err
		}
		i, known := byName[name]
		path := strings.TrimPrefix(field+"."+name, ".")
		if q := strconv.Quote(name); !known && q != `"`+name+`"` {
			path = strings.TrimPrefix(field+"."+q, ".") // on one line
		}
		switch {
		case strings.HasPrefix(name, "_"):
			if json.Unmarshal(value, new(string)) != nil {
				mistakes = append(mistakes, &fileError{path, show(value), "text in quotes: names that begin with _ are notes"})
			}
		case !known:
			misspelt = true
			mistakes = append(mistakes, &fileError{path, "a field that is not known", strings.Join(names, ", ")})
		case slices.Contains(seen, name):
			mistakes = append(mistakes, &fileError{path, "the field twice", "once"})
		default:
			mistakes = append(mistakes, decodeValue(value, v.Field(i), path))
		}
		seen = append(seen, name)
	}
	for _, n := range names {
		if misspelt {
			break
		}
		if f := v.Type().Field(byName[n]); !slices.Contains(seen, n) && f.Tag.Get("file") != "optional" {
			mistakes = append(mistakes, &fileError{strings.TrimPrefix(field+"."+n, "."), "nothing", "the field is needed"})
		}
	}
	return errors.Join(mistakes...)
}

// fieldName is the name of a field in a file.
func fieldName(f reflect.StructField) string { return strings.ToLower(f.Name[:1]) + f.Name[1:] }

// refused puts what a package says of a text into the words of a boat file.
func refused(field string, raw json.RawMessage, v reflect.Value, err error) error {
	var p *units.ParseError
	var named *anchor.Error
	switch {
	case errors.As(err, &named):
		return &fileError{field, show(raw), named.Want}
	case !errors.As(err, &p):
		return &fileError{field, show(raw), "a time such as " + example(v)}
	}
	want := "a " + p.Quantity
	if strings.ContainsAny(p.Quantity[:1], "aeiou") {
		want = "an " + p.Quantity
	}
	if p.Accepted != nil {
		want += " in " + strings.Join(p.Accepted, ", ")
	}
	// Of a unit that is missing the package names those of chain where thread is wanted.
	reason, hint, missing := strings.Cut(p.Reason, ": write for example")
	if s := sample(field); missing && s != "" {
		if _, unit, _ := strings.Cut(strings.Trim(s, `"`), " "); !strings.Contains(hint, " "+unit) {
			return &fileError{field, show(raw) + " (" + reason + ")", want + ", such as " + s}
		}
	}
	return &fileError{field, show(raw) + " (" + p.Reason + ")", want}
}

// example prints a quantity of the type wanted.
func example(v reflect.Value) string {
	one := reflect.New(v.Type()).Elem()
	switch {
	case one.CanFloat():
		one.SetFloat(1)
	case v.Type() == reflect.TypeFor[time.Time]():
		return `"2030-05-17T20:00:00Z"`
	}
	return fmt.Sprintf("%q", one.Interface())
}

// sample is what a demo boat's file has in a field, "" where it has none.
func sample(field string) string { return at(dunlin, field) }

func show(raw json.RawMessage) string {
	s := strings.Join(strings.Fields(string(raw)), " ")
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "..."
	}
	return s
}
