package hostile

import (
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
	case reflect.Interface, reflect.Func, reflect.Chan:
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

// ways counts the ways in which the part v can be spoilt.
func ways(v reflect.Value) int {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		return len(strangeFloats) + len(wrongUnits)
	case reflect.Int, reflect.Int64, reflect.Int32, reflect.Int16, reflect.Int8,
		reflect.Uint, reflect.Uint64, reflect.Uint32, reflect.Uint16, reflect.Uint8:
		return len(strangeInts)
	case reflect.String:
		return len(strangeStrings)
	case reflect.Slice:
		return 6
	case reflect.Bool:
		return 1
	case reflect.Pointer, reflect.Map:
		return 1
	default:
		return 0
	}
}

// spoil sets the part v in one of its ways.
func spoil(v reflect.Value, way int) {
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
	case reflect.Pointer, reflect.Map:
		v.SetZero()
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
		case 5: // very many
			if n > 0 {
				const many = 10_000
				long := reflect.MakeSlice(v.Type(), many, many)
				for i := range many {
					long.Index(i).Set(v.Index(i % n))
				}
				v.Set(long)
			}
		}
	}
}

// A change is one part spoilt in one way.
type change struct {
	path []step
	way  int
}

// changes lists every way to spoil v by one part.
func changes(v reflect.Value) []change {
	var paths [][]step
	leaves(v, nil, &paths)
	var list []change
	for _, p := range paths {
		for w := range ways(at(v, p)) {
			list = append(list, change{p, w})
		}
	}
	return list
}

// apply returns a copy of v with the changes made.
func apply(v reflect.Value, list ...change) reflect.Value {
	c := clone(v)
	for _, ch := range list {
		if part := at(c, ch.path); part.IsValid() && part.CanSet() && ch.way < ways(part) {
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
