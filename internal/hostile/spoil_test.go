package hostile

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
)

// A step leads from a value to one of its parts: a field, an element, what a
// pointer points to.
type step struct {
	kind  reflect.Kind // Struct, Slice, Array, Pointer
	index int
}

// leaves lists the paths to all parts of v that can be spoilt. Of long slices
// the first two elements and the last are enough.
func leaves(v reflect.Value, path []step, list *[][]step) {
	add := func() { *list = append(*list, append([]step(nil), path...)) }
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				leaves(v.Field(i), append(path, step{reflect.Struct, i}), list)
			}
		}
	case reflect.Slice:
		add()
		for i := range v.Len() {
			if i < 2 || i == v.Len()-1 {
				leaves(v.Index(i), append(path, step{reflect.Slice, i}), list)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			leaves(v.Index(i), append(path, step{reflect.Array, i}), list)
		}
	case reflect.Pointer:
		add()
		if !v.IsNil() {
			leaves(v.Elem(), append(path, step{reflect.Pointer, 0}), list)
		}
	case reflect.Interface:
		if t := v.Type(); t == reflect.TypeFor[context.Context]() || t == reflect.TypeFor[io.Writer]() {
			add()
		}
	case reflect.Chan:
	default:
		add()
	}
}

// clone copies v deeply, apart from unexported fields of structs, which are
// copied as they are.
func clone(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	c.Set(v)
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				c.Field(i).Set(clone(v.Field(i)))
			}
		}
	case reflect.Slice:
		if !v.IsNil() {
			c.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
			for i := range v.Len() {
				c.Index(i).Set(clone(v.Index(i)))
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			c.Index(i).Set(clone(v.Index(i)))
		}
	case reflect.Pointer:
		if !v.IsNil() && !opaque(v.Type().Elem()) {
			c.Set(reflect.New(v.Type().Elem()))
			c.Elem().Set(clone(v.Elem()))
		}
	case reflect.Map:
		if !v.IsNil() {
			c.Set(reflect.MakeMap(v.Type()))
			for _, k := range v.MapKeys() {
				c.SetMapIndex(k, v.MapIndex(k))
			}
		}
	}
	return c
}

// opaque tells a struct that has no exported field, such as a solver.
func opaque(t reflect.Type) bool {
	if t.Kind() != reflect.Struct {
		return false
	}
	for i := range t.NumField() {
		if t.Field(i).IsExported() {
			return false
		}
	}
	return t.NumField() > 0
}

// at follows a path. The value must be settable.
func at(v reflect.Value, path []step) reflect.Value {
	for _, s := range path {
		switch s.kind {
		case reflect.Struct:
			v = v.Field(s.index)
		case reflect.Slice, reflect.Array:
			if s.index >= v.Len() {
				return reflect.Value{}
			}
			v = v.Index(s.index)
		case reflect.Pointer:
			if v.IsNil() {
				return reflect.Value{}
			}
			v = v.Elem()
		}
	}
	return v
}

var strangeFloats = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 1,
	5e-324, -5e-324, 1e-300, 1e300, -1e300, math.MaxFloat64, 1e-12, 1e12,
}

// Ratios by which a number is put wrong: inches for millimetres, kilonewtons
// for newtons, the sign.
var wrongUnits = []float64{-1, 1000, 0.001, 25.4, 1 / 25.4, 1e6, 1e-6, 1 + 1e-15}

var strangeInts = []int64{0, -1, 1, 2, 127, 1 << 20, math.MaxInt32, math.MinInt32}

var strangeStrings = []string{"", " ", "unknown", "\x00", "\xff\xfe", "NaN", strings.Repeat("a", 1<<16)}

// Where what is written goes nowhere, and what was asked for is no longer wanted.
var errWrite = errors.New("nowhere to write")

type nowhere struct{}

func (nowhere) Write([]byte) (int, error) { return 0, errWrite }

func cancelled() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return ctx
}

// known lists the constants of each type that has some, such as the kinds of a hem.
var known = func() map[reflect.Type][]reflect.Value {
	m := map[reflect.Type][]reflect.Value{}
	for _, c := range constants {
		if v := reflect.ValueOf(c); v.Kind() != reflect.Float64 && v.Type().PkgPath() != "" {
			m[v.Type()] = append(m[v.Type()], v)
		}
	}
	return m
}()

// ways counts the ways in which the part v can be spoilt.
func ways(v reflect.Value) int { return len(known[v.Type()]) + strange(v) }

func strange(v reflect.Value) int {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		return len(strangeFloats) + len(wrongUnits)
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8,
		reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		return len(strangeInts)
	case reflect.String:
		return len(strangeStrings)
	case reflect.Slice:
		return 8
	case reflect.Bool, reflect.Pointer, reflect.Map, reflect.Func, reflect.Interface:
		return 1
	default:
		return 0
	}
}

// spoil sets the part v in one of its ways.
func spoil(v reflect.Value, way int) {
	if list := known[v.Type()]; way < len(list) {
		v.Set(list[way])
		return
	}
	way -= len(known[v.Type()])
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		if way < len(strangeFloats) {
			v.SetFloat(strangeFloats[way])
		} else {
			v.SetFloat(v.Float() * wrongUnits[way-len(strangeFloats)])
		}
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8:
		x := strangeInts[way]
		if v.OverflowInt(x) {
			x = 99
		}
		v.SetInt(x)
	case reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		x := uint64(strangeInts[way])
		if v.OverflowUint(x) {
			x = 99
		}
		v.SetUint(x)
	case reflect.String:
		v.SetString(strangeStrings[way])
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Pointer: // what is there goes, what is not comes
		if !v.IsNil() || fill(v, 0) != nil {
			v.SetZero()
		}
	case reflect.Map:
		if !v.IsNil() {
			v.SetZero()
			return
		}
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		if fill(key, 0) == nil && fill(value, 0) == nil {
			v.Set(reflect.MakeMap(v.Type()))
			v.SetMapIndex(key, value)
		}
	case reflect.Func:
		if !v.IsNil() {
			v.SetZero()
			return
		}
		v.Set(reflect.MakeFunc(v.Type(), func([]reflect.Value) []reflect.Value {
			out := make([]reflect.Value, v.Type().NumOut())
			for i := range out {
				out[i] = reflect.Zero(v.Type().Out(i))
			}
			return out
		}))
	case reflect.Interface:
		if v.Type() == reflect.TypeFor[io.Writer]() {
			v.Set(reflect.ValueOf(nowhere{}))
		} else {
			v.Set(reflect.ValueOf(cancelled()))
		}
	case reflect.Slice:
		n := v.Len()
		switch way {
		case 0:
			v.SetZero()
		case 1:
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		case 2: // one of them only
			if n > 0 {
				v.Set(v.Slice(0, 1))
			}
		case 3: // everything twice
			v.Set(reflect.AppendSlice(v.Slice3(0, n, n), v.Slice(0, n)))
		case 4: // the wrong way round
			for i := range n / 2 {
				a, b := clone(v.Index(i)), clone(v.Index(n-1-i))
				v.Index(i).Set(b)
				v.Index(n - 1 - i).Set(a)
			}
		case 5, 6: // very many, all with the same names or each with its own
			if n > 0 {
				many := 10_000
				if way == 6 { // not refused at the second one, and so looked at
					many = 2000
				}
				long := reflect.MakeSlice(v.Type(), many, many)
				for i := range many {
					e := long.Index(i)
					e.Set(v.Index(i % n))
					if e.Kind() != reflect.Struct || way == 5 {
						continue
					}
					if name := e.FieldByName("Name"); name.IsValid() && name.Kind() == reflect.String {
						name.SetString(fmt.Sprint(name.String(), " ", i))
					}
				}
				v.Set(long)
			}
		case 7: // others
			if fill(v, 0) != nil {
				v.SetZero()
			}
		}
	}
}

// A change is one part spoilt in one way, or put in the place of another of its
// type: a name that something else has, a piece that follows itself.
type change struct {
	path []step
	way  int
	from []step // the other part, or nil
}

// changes lists every way to spoil v by one part, with two others, drawn by lot,
// in its place.
func changes(rng *rand.Rand, v reflect.Value) []change {
	var paths [][]step
	leaves(v, nil, &paths)
	alike := map[reflect.Type][][]step{}
	for _, p := range paths {
		t := at(v, p).Type()
		alike[t] = append(alike[t], p)
	}
	var list []change
	for _, p := range paths {
		part := at(v, p)
		for w := range ways(part) {
			list = append(list, change{path: p, way: w})
		}
		if others := alike[part.Type()]; len(others) > 1 {
			for range 2 {
				list = append(list, change{path: p, from: others[rng.IntN(len(others))]})
			}
		}
	}
	return list
}

// apply returns a copy of v with the changes made.
func apply(v reflect.Value, list ...change) reflect.Value {
	c := clone(v)
	for _, ch := range list {
		part := at(c, ch.path)
		if !part.IsValid() || !part.CanSet() {
			continue
		}
		if ch.from != nil {
			if other := at(c, ch.from); other.IsValid() {
				part.Set(clone(other))
			}
		} else if ch.way < ways(part) {
			spoil(part, ch.way)
		}
	}
	return c
}

// some picks n of the list, all if there are no more.
func some(rng *rand.Rand, list []change, n int) []change {
	if len(list) <= n {
		return list
	}
	picked := make([]change, n)
	for i, k := range rng.Perm(len(list))[:n] {
		picked[i] = list[k]
	}
	return picked
}
