package hostile

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"io"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// A result is one number or word of what a calculation gives.
type result struct {
	path   string
	text   string // exact, unless it is a number
	number bool   // x is meant, not text
	x      float64
	spread float64 // how far x moves when its inputs move by their own size
}

// A calculation is a call with values that are accepted.
type calculation struct {
	name string
	call reflect.Value
	args func() reflect.Value // fresh ones
	// first tells values of the table from others near them, of which fewer results
	// are kept.
	first bool
}

// calculations are those of the table, each with the values that it has there
// and twice with others near them, then the scenes.
func calculations(t *testing.T) []calculation {
	var list []calculation
	for _, f := range callables() {
		for variant := range 3 {
			name := f.name
			if variant > 0 {
				name += " " + strconv.Itoa(variant)
			}
			h := fnv.New64()
			h.Write([]byte(name))
			list = append(list, calculation{name, f.call, func() reflect.Value {
				args, err := arguments(f.name, f.call.Type(), strings.Fields(f.params))
				if err != nil {
					t.Fatal(err)
				}
				if variant == 0 {
					return clone(args)
				}
				rng := rand.New(rand.NewPCG(uint64(variant), h.Sum64()))
				return scaled(args, func() float64 { return float64(922+rng.IntN(205)) / 1024 })
			}, variant == 0})
			if f.call.Type().NumIn() == 0 || strings.HasPrefix(f.name, "units.") {
				break // one factor each
			}
		}
	}
	for _, s := range scenes() {
		list = append(list, calculation{s.name, reflect.ValueOf(s.call), s.fresh, false})
	}
	return list
}

// scaled returns a copy of v with each number in it times what by gives.
func scaled(v reflect.Value, by func() float64) reflect.Value {
	c := clone(v)
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Field(i))
				}
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Float64:
			v.SetFloat(v.Float() * by())
		}
	}
	walk(c)
	return c
}

// results makes the call, with the arguments moved by by unless that is nil.
func (c calculation) results(t *testing.T, by func() float64) []result {
	t.Helper()
	args := c.args()
	if by != nil {
		args = scaled(args, by)
	}
	var written []*bytes.Buffer
	in := make([]reflect.Value, args.NumField())
	before := make([][]result, len(in)) // of what may be written to
	for i := range in {
		in[i] = args.Field(i)
		if in[i].Type() == reflect.TypeFor[io.Writer]() {
			b := new(bytes.Buffer)
			written = append(written, b)
			in[i] = reflect.ValueOf(b)
		} else if in[i].Kind() == reflect.Pointer {
			flatten(&before[i], "in"+strconv.Itoa(i), in[i])
		}
	}
	var out []reflect.Value
	if c.call.Type().IsVariadic() {
		out = c.call.CallSlice(in)
	} else {
		out = c.call.Call(in)
	}
	var list []result
	if returnsError(c.call.Type()) {
		if err := errorOf(out); err != nil {
			field, _ := fieldOf(err)
			return []result{{path: "error", text: field}}
		}
		out = out[:len(out)-1]
	}
	for i, v := range out {
		flatten(&list, strconv.Itoa(i), v)
	}
	for i, v := range in {
		if before[i] != nil {
			var after []result
			if flatten(&after, "in"+strconv.Itoa(i), v); !slices.Equal(before[i], after) {
				list = append(list, after...)
			}
		}
	}
	for _, b := range written {
		list = append(list, result{path: "written", text: short(b.String())})
	}
	// The first half of the room for what comes first, which says most.
	most := 20
	if c.first {
		most = 40
	}
	if len(list) <= most {
		return list
	}
	return append(list[:most/2:most/2], few(list[most/2:], most/2)...)
}

// few takes up to about n evenly from the list.
func few[T any](list []T, n int) []T {
	if len(list) <= n {
		return list
	}
	some := make([]T, n)
	for i := range some {
		some[i] = list[i*(len(list)-1)/(n-1)]
	}
	return some
}

// measured makes the call, and again with inputs that are moved.
func (c calculation) measured(t *testing.T) []result {
	const share = 1.0 / (1 << 26)
	list := c.results(t, nil)
	rng := rand.New(rand.NewPCG(1, 2))
	sparse := false // only a few of the inputs, where all of them are refused
	done := 0
	for n := 0; n < 40 && done < 8; n++ {
		sparse = n >= 8 && done == 0
		signs := rng.Uint64()
		var ends [2][]result
		for k := range ends {
			inner := rand.New(rand.NewPCG(signs, 3))
			ends[k] = c.results(t, func() float64 {
				up := inner.IntN(2) == k
				switch {
				case sparse && inner.IntN(10) > 0:
					return 1
				case up:
					return 1 + share
				}
				return 1 - share
			})
		}
		if !alike(list, ends[0]) || !alike(list, ends[1]) {
			continue
		}
		done++
		for i := range list {
			if list[i].number {
				list[i].spread = max(list[i].spread, math.Abs(ends[1][i].x-ends[0][i].x)/(2*share))
			}
		}
	}
	if done == 0 && slices.ContainsFunc(list, func(r result) bool { return r.number }) {
		t.Logf("%s: no spread", c.name)
	}
	return list
}

func alike(a, b []result) bool {
	return slices.EqualFunc(a, b, func(a, b result) bool { return a.path == b.path && a.number == b.number })
}

// flatten lists what v holds. Of long slices, five elements have to do.
func flatten(list *[]result, path string, v reflect.Value) {
	exact := func(s string) { *list = append(*list, result{path: path, text: s}) }
	if v.CanInterface() {
		switch x := v.Interface().(type) {
		case time.Time:
			exact(x.Format(time.RFC3339Nano))
			return
		case []byte:
			exact(short(string(x)))
			return
		}
	}
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			exact(fmt.Sprint(x))
		} else {
			*list = append(*list, result{path: path, number: true, x: x})
		}
	case reflect.Bool, reflect.Int, reflect.Int64, reflect.Int32, reflect.Uint64, reflect.Uint8, reflect.Uint32:
		if v.CanInt() {
			exact(strconv.FormatInt(v.Int(), 10))
		} else {
			exact(fmt.Sprint(v))
		}
	case reflect.String:
		exact(short(v.String()))
	case reflect.Struct:
		start := len(*list)
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				flatten(list, path+"."+f.Name, v.Field(i))
			}
		}
		// The coordinates of a point have one scale.
		scale := 0.0
		coordinate := func(r *result) bool {
			return r.number && strings.HasPrefix(r.path, path+".") && slices.Contains([]string{"X", "Y", "Z"}, r.path[len(path)+1:])
		}
		for i := start; i < len(*list); i++ {
			if r := &(*list)[i]; coordinate(r) {
				scale = max(scale, math.Abs(r.x))
			}
		}
		for i := start; i < len(*list); i++ {
			if r := &(*list)[i]; coordinate(r) {
				r.spread = scale
			}
		}
	case reflect.Slice, reflect.Array:
		n := v.Len()
		*list = append(*list, result{path: path + ".len", text: strconv.Itoa(n)})
		index := make([]int, n)
		for i := range index {
			index[i] = i
		}
		for _, i := range few(index, 5) {
			flatten(list, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			exact("nil")
		} else {
			flatten(list, path, v.Elem())
		}
	}
}

// short is the text, or a number that stands for it.
func short(s string) string {
	if len(s) <= 32 {
		return strconv.Quote(s)
	}
	h := fnv.New64a()
	h.Write([]byte(s))
	return fmt.Sprintf("%d bytes %x", len(s), h.Sum64())
}
