package hostile

import (
	"context"
	"fmt"
	"io"
	"reflect"
	"strings"

	"example.com/forepeak/units"
)

// arguments returns a struct with one field for each parameter of f, the
// receiver first, filled with values that are accepted: from valid, by the name
// of the parameter or by its type; else made up from the type.
func arguments(name string, f reflect.Type, params []string) (reflect.Value, error) {
	fields := make([]reflect.StructField, f.NumIn())
	for i := range fields {
		field := fmt.Sprintf("Arg%d", i)
		if i < len(params) {
			field = "Arg_" + params[i]
		}
		fields[i] = reflect.StructField{Name: field, Type: f.In(i)}
	}
	args := reflect.New(reflect.StructOf(fields)).Elem()
	for i := range fields {
		key := key(name, i, params)
		if v, ok := valid[key]; ok {
			x := reflect.ValueOf(v)
			number := x.CanInt() || x.CanFloat()
			if !x.CanConvert(fields[i].Type) || number != (fields[i].Type.Kind() == reflect.Float64 || fields[i].Type.Kind() == reflect.Int) {
				return args, fmt.Errorf("%s: valid value is a %v, want a %v", key, x.Type(), fields[i].Type)
			}
			args.Field(i).Set(x.Convert(fields[i].Type))
			continue
		}
		if err := fill(args.Field(i), 0); err != nil {
			return args, fmt.Errorf("%s: %w", key, err)
		}
	}
	return args, nil
}

// A variant is arguments with one of them replaced by another value, from also, or
// with several.
type variant struct {
	key     string
	args    reflect.Value
	changed int // -1 if several
}

func further(args reflect.Value, name string, params []string) (list []variant) {
	for k, values := range together[name] {
		c := clone(args)
		for i := range args.NumField() {
			_, of, _ := strings.Cut(key(name, i, params), " ")
			if v, ok := values[of]; ok {
				c.Field(i).Set(reflect.ValueOf(v).Convert(c.Field(i).Type()))
			}
		}
		list = append(list, variant{fmt.Sprintf("%s, %d", name, k+1), c, -1})
	}
	for i := range args.NumField() {
		t := args.Type().Field(i).Type
		of := t
		if t.Kind() == reflect.Pointer {
			of = t.Elem()
		}
		for _, key := range []string{key(name, i, params), of.String()} {
			for k, f := range also[key] {
				v := reflect.ValueOf(f())
				if !v.CanConvert(of) {
					panic(fmt.Sprintf("%s: the value is a %v, want a %v", key, v.Type(), of))
				}
				c := clone(args)
				v = v.Convert(of)
				if of != t {
					p := reflect.New(of)
					p.Elem().Set(v)
					v = p
				}
				c.Field(i).Set(v)
				list = append(list, variant{fmt.Sprintf("%s, %d", key, k+1), c, i})
			}
		}
	}
	return list
}

// key is that of a parameter in valid.
func key(name string, i int, params []string) string {
	if i < len(params) {
		return name + " " + params[i]
	}
	return fmt.Sprintf("%s %d", name, i)
}

// fill makes up a value from its type.
func fill(v reflect.Value, depth int) error {
	t := v.Type()
	if x, ok := byType[t]; ok {
		v.Set(reflect.ValueOf(x()))
		return nil
	}
	if depth > 6 {
		return nil
	}
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(1)
		switch t {
		case reflect.TypeFor[units.Temperature]():
			v.SetFloat(293.15)
		case reflect.TypeFor[units.Density]():
			v.SetFloat(1025)
		case reflect.TypeFor[units.Angle]():
			v.SetFloat(0.1)
		case reflect.TypeFor[float64]():
			v.SetFloat(0.5)
		}
	case reflect.Int, reflect.Int64:
		v.SetInt(1)
	case reflect.String:
		v.SetString("a")
	case reflect.Struct:
		for i := range v.NumField() {
			if t.Field(i).IsExported() {
				if err := fill(v.Field(i), depth+1); err != nil {
					return err
				}
			}
		}
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Uint8 {
			v.SetBytes([]byte("1 m"))
			return nil
		}
		v.Set(reflect.MakeSlice(t, 2, 2))
		for i := range 2 {
			if err := fill(v.Index(i), depth+1); err != nil {
				return err
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			if err := fill(v.Index(i), depth+1); err != nil {
				return err
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(t.Elem()))
		return fill(v.Elem(), depth+1)
	case reflect.Interface:
		switch {
		case t == reflect.TypeFor[context.Context]():
			v.Set(reflect.ValueOf(context.Background()))
		case t == reflect.TypeFor[io.Writer]():
			v.Set(reflect.ValueOf(io.Discard))
		case t == reflect.TypeFor[fmt.State]():
			v.Set(reflect.ValueOf(&state{}))
		default:
			return fmt.Errorf("no valid value of type %v", t)
		}
	}
	return nil
}

// state is where a value formats itself.
type state struct{ strings.Builder }

func (s *state) Width() (int, bool)     { return 0, false }
func (s *state) Precision() (int, bool) { return 0, false }
func (s *state) Flag(int) bool          { return false }
