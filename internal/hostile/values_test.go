package hostile

import (
	"bufio"
	"bytes"
	"fmt"
	"hash/fnv"
	"io"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// tolerance is by how much a number may differ from one platform to another, as
// a share of its size or of its spread, whichever is greater.
const tolerance = 1e-12

// nothing is a difference that is none in any unit: what is left of a current
// that cancels, squared.
const nothing = 1e-30

const valuesFile = "testdata/values.txt"

// A result is one number or word of what a calculation gives.
type result struct {
	path   string
	text   string  // exact, unless it is a number
	number bool    // x is meant
	x      float64 //
	spread float64 // how far x moves when its inputs move by their own size
}

// TestValues compares what every exported calculation gives for accepted values
// with what was written down on amd64. Words, whole numbers and layouts are the
// same everywhere; other numbers within the tolerance.
//
// The spread of a number is its size times its condition, as it was measured
// when it was written down: all inputs are moved by a tiny share of themselves,
// up or down by lot, and the largest answer is divided by that share. A number
// with a spread of a hundred times its size loses two digits of its inputs, and
// no algorithm can do better. The spread of a coordinate is at least the largest
// coordinate of its point.
func TestValues(t *testing.T) {
	if raced {
		t.Skip("numbers are the same with the race detector")
	}
	want := map[string][]result{}
	if !*update {
		want = readValues(t)
	}
	got := map[string][]result{}
	var worst struct {
		share      float64
		name, path string
	}
	numbers := 0
	for _, c := range calculations(t) {
		if *update {
			got[c.name] = c.measured(t)
			continue
		}
		got[c.name] = c.results(t, nil)
		old, ok := want[c.name]
		if !ok {
			t.Errorf("%s is not in %s: go test ./internal/hostile -run Values -update", c.name, valuesFile)
			continue
		}
		if len(old) != len(got[c.name]) {
			t.Errorf("%s: %d results, want %d", c.name, len(got[c.name]), len(old))
			continue
		}
		for i, g := range got[c.name] {
			w := old[i]
			if g.path != w.path || g.number != w.number || !g.number && g.text != w.text {
				t.Errorf("%s %s: %s, want %s %s", c.name, g.path, g.shown(), w.path, w.shown())
				continue
			}
			if !g.number {
				continue
			}
			numbers++
			share := 0.0
			switch {
			case g.x == w.x:
			case strings.HasPrefix(c.name, "canvas.Lay.Plan"):
				share = math.Inf(1)
			default:
				share = math.Abs(g.x-w.x) / max(tolerance*max(math.Abs(w.x), w.spread), nothing)
			}
			if !(share <= 1) {
				t.Errorf("%s %s: %v, want %v (spread %.1e): %.3g times the tolerance", c.name, g.path, g.x, w.x, w.spread, share)
			}
			if share > worst.share {
				worst.share, worst.name, worst.path = share, c.name, g.path
			}
		}
	}
	if *update {
		writeValues(t, got)
		return
	}
	for name := range want {
		if _, ok := got[name]; !ok {
			t.Errorf("%s is in %s, but is no calculation", name, valuesFile)
		}
	}
	t.Logf("%s/%s: %d calculations, %d numbers; the worst differs by %.2g of the tolerance (%s %s)",
		runtime.GOOS, runtime.GOARCH, len(got), numbers, worst.share, worst.name, worst.path)
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

func (r result) shown() string {
	if r.number {
		return strconv.FormatFloat(r.x, 'g', -1, 64)
	}
	return r.text
}

func writeValues(t *testing.T, got map[string][]result) {
	if runtime.GOARCH != "amd64" {
		t.Fatal("values are written down on amd64")
	}
	var b bytes.Buffer
	b.WriteString("# Written by go test ./internal/hostile -run Values -update. See TestValues.\n")
	for _, name := range slices.Sorted(maps.Keys(got)) {
		fmt.Fprintf(&b, "= %s\n", name)
		for _, r := range got[name] {
			if r.number {
				fmt.Fprintf(&b, "%s\t%s\t%.1e\n", r.path, r.shown(), r.spread)
			} else {
				fmt.Fprintf(&b, "%s\t%s\n", r.path, r.text)
			}
		}
	}
	if err := os.WriteFile(valuesFile, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
}

func readValues(t *testing.T) map[string][]result {
	f, err := os.Open(valuesFile)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want := map[string][]result{}
	name := ""
	for s := bufio.NewScanner(f); s.Scan(); {
		line := s.Text()
		if strings.HasPrefix(line, "#") {
			continue
		}
		if after, ok := strings.CutPrefix(line, "= "); ok {
			name = after
			want[name] = nil
			continue
		}
		parts := strings.Split(line, "\t")
		r := result{path: parts[0], text: parts[1]}
		if len(parts) == 3 {
			var err1, err2 error
			r.x, err1 = strconv.ParseFloat(parts[1], 64)
			r.spread, err2 = strconv.ParseFloat(parts[2], 64)
			if err1 != nil || err2 != nil {
				t.Fatalf("%s: %q", valuesFile, line)
			}
			r.number = true
		}
		want[name] = append(want[name], r)
	}
	return want
}
