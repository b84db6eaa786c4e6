package hostile

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/canvas"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// A function is one that the library exports, with the names of its parameters.
type function struct {
	name   string
	call   any
	params string
}

// calls is how many of each function are made with one part spoilt; a third as
// many have several spoilt.
var calls = flag.Int("calls", 90, "calls of each function")

// patience: a call that takes longer runs on. It is far more than any should
// take, since the machine may be busy and the race detector on.
const patience = 20 * time.Second

// TestHostile is the harness: see the comment of the package.
func TestHostile(t *testing.T) {
	if runtime.GOOS == "js" || raced {
		t.Skip("too slow, or on one thread only, to tell a call that runs on")
	}
	list := callables()
	for _, f := range list {
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			hold(t, f.name, f.call, strings.Fields(f.params))
		})
	}
	t.Logf("%d functions and methods", len(list))
}

// A callable is a function, or a method with its receiver as the first of its
// parameters, which then have no names.
type callable struct {
	name   string
	call   reflect.Value
	params string
}

// callables are all exported functions and methods.
func callables() []callable {
	var list []callable
	for _, f := range functions {
		list = append(list, callable{f.name, reflect.ValueOf(f.call), f.params})
	}
	for _, ty := range types {
		pointer := reflect.PointerTo(ty)
		for i := range pointer.NumMethod() {
			m := pointer.Method(i)
			on := pointer
			if v, ok := ty.MethodByName(m.Name); ok {
				m, on = v, ty
			}
			name := strings.TrimPrefix(ty.PkgPath(), "example.com/forepeak/") + "." + ty.Name() + "." + m.Name
			if !skipped(on) {
				list = append(list, callable{name, m.Func, ""})
			}
		}
	}
	return list
}

// skipped tells methods that say what an error is, whose receivers nobody makes up.
func skipped(on reflect.Type) bool {
	return on.Implements(reflect.TypeFor[error]())
}

func hold(t *testing.T, name string, f reflect.Value, params []string) {
	args, err := arguments(name, f.Type(), params)
	if err != nil {
		t.Fatal(err)
	}
	whole := reflect.New(args.Type()).Elem()
	whole.Set(args)
	if !strings.HasPrefix(name, "units.") {
		if out := call(t, name, f, whole, "valid values"); out != nil {
			if err := errorOf(out); err != nil {
				t.Fatalf("valid values are refused: %v", err)
			}
		}
	}
	h := fnv.New64()
	h.Write([]byte(name))
	rng := rand.New(rand.NewPCG(1, h.Sum64()))
	n := *calls
	if testing.Short() { // as on other builds, where what differs is in the values
		n /= 3
	}
	if k, ok := costly[name]; ok {
		n = min(n, k)
	}
	spoils(t, rng, name, f, params, whole, n)
	for _, other := range further(whole, name, params) {
		call(t, name, f, other.args, other.key)
		spoils(t, rng, name, f, params, other.args, n/3)
	}
}

// spoils makes n calls with one part spoilt, and some with several.
func spoils(t *testing.T, rng *rand.Rand, name string, f reflect.Value, params []string, whole reflect.Value, n int) {
	all := changes(rng, whole)
	if len(params) == 0 && whole.NumField() > 0 && whole.Field(0).Kind() == reflect.Pointer {
		// A method called on nothing panics, as everywhere in Go.
		all = slices.DeleteFunc(all, func(c change) bool { return len(c.path) == 1 && c.path[0].index == 0 })
	}
	for _, c := range some(rng, all, n) {
		try(t, name, f, whole, c)
	}
	if len(all) < 2 {
		return
	}
	for range n / 3 {
		list := make([]change, 2+rng.IntN(3))
		for i := range list {
			list[i] = all[rng.IntN(len(all))]
		}
		try(t, name, f, whole, list...)
	}
}

func try(t *testing.T, name string, f, whole reflect.Value, list ...change) {
	if t.Failed() {
		return // one finding of each function at a time
	}
	spoilt := apply(whole, list...)
	what := ""
	for _, c := range list {
		what += describe(whole, spoilt, c) + "; "
	}
	out := call(t, name, f, spoilt, what)
	if out == nil || strings.HasPrefix(name, "units.") {
		return
	}
	if !returnsError(f.Type()) || callersOwn[name] {
		return
	}
	if err := errorOf(out); err != nil {
		if errors.Is(err, errWrite) || errors.Is(err, context.Canceled) {
			return
		}
		if field, ok := fieldOf(err); !ok {
			t.Errorf("%s: the error is not of the package's type: %T %v", what, err, err)
		} else if field == "" {
			t.Errorf("%s: the error names no field: %v", what, err)
		}
		return
	}
	for i, v := range out {
		if where := notFinite(v, fmt.Sprintf("result %d", i), 0); where != "" {
			t.Errorf("%s: no error, but %s", what, where)
		}
	}
}

// call calls f with the fields of args. It returns nil if f panics or runs on.
func call(t *testing.T, name string, f, args reflect.Value, what string) []reflect.Value {
	t.Helper()
	type outcome struct {
		out   []reflect.Value
		panic any
		stack []byte
	}
	in := make([]reflect.Value, args.NumField())
	for i := range in {
		in[i] = args.Field(i)
	}
	done := make(chan outcome, 1)
	go func() {
		var o outcome
		defer func() {
			if o.panic = recover(); o.panic != nil {
				o.stack = debug.Stack()
			}
			done <- o
		}()
		if f.Type().IsVariadic() {
			o.out = f.CallSlice(in)
		} else {
			o.out = f.Call(in)
		}
		for _, v := range o.out {
			walk(v)
		}
	}()
	start := time.Now()
	select {
	case o := <-done:
		if o.panic != nil {
			t.Errorf("%s: panic: %v\n%s", what, o.panic, trim(o.stack))
			return nil
		}
		if took := time.Since(start); took > patience/5 {
			t.Logf("%s: %s takes %v", name, what, took.Round(time.Millisecond))
		}
		return o.out
	case <-time.After(patience):
		t.Errorf("%s: still running after %v", what, patience)
		return nil
	}
}

// walk takes what an iterator gives, up to a bound: an iterator is only asked
// not to panic.
func walk(v reflect.Value) {
	if v.Kind() != reflect.Func || v.IsNil() || !v.Type().CanSeq() {
		return
	}
	n := 0
	for range v.Seq() {
		if n++; n > 100_000 {
			return
		}
	}
}

func trim(stack []byte) string {
	var lines []string
	for l := range strings.Lines(string(stack)) {
		if strings.Contains(l, "/forepeak/") || strings.Contains(l, ".go:") && !strings.Contains(l, "/src/") {
			lines = append(lines, l)
		}
	}
	return strings.Join(lines[:min(len(lines), 12)], "")
}

func returnsError(t reflect.Type) bool {
	return t.NumOut() > 0 && t.Out(t.NumOut()-1) == reflect.TypeFor[error]()
}

func errorOf(out []reflect.Value) error {
	if len(out) == 0 {
		return nil
	}
	err, _ := out[len(out)-1].Interface().(error)
	return err
}

// fieldOf returns the field that the error of a package of the library names.
func fieldOf(err error) (string, bool) {
	if e, ok := errors.AsType[*rode.Error](err); ok {
		return e.Field, true
	}
	if e, ok := errors.AsType[*anchor.Error](err); ok {
		return e.Field, true
	}
	if e, ok := errors.AsType[*wiring.Error](err); ok {
		return e.Field, true
	}
	if e, ok := errors.AsType[*canvas.Error](err); ok {
		return e.Field, true
	}
	if e, ok := errors.AsType[*units.ParseError](err); ok {
		return e.Quantity, true
	}
	if e, ok := errors.AsType[*units.ValueError](err); ok {
		return e.Quantity, true
	}
	return "", false
}

// notFinite finds a number in v that is not finite.
func notFinite(v reflect.Value, where string, depth int) string {
	if depth > 12 {
		return ""
	}
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprintf("%s is %v", where, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if s := notFinite(v.Field(i), where+"."+v.Type().Field(i).Name, depth+1); s != "" {
					return s
				}
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if s := notFinite(v.Index(i), fmt.Sprintf("%s[%d]", where, i), depth+1); s != "" {
				return s
			}
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return notFinite(v.Elem(), where, depth+1)
		}
	}
	return ""
}

func describe(whole, spoilt reflect.Value, c change) string {
	name := ""
	v := whole
	for _, s := range c.path {
		switch s.kind {
		case reflect.Struct:
			name += "." + v.Type().Field(s.index).Name
			v = v.Field(s.index)
		case reflect.Slice, reflect.Array:
			name += fmt.Sprintf("[%d]", s.index)
			v = v.Index(s.index)
		case reflect.Pointer:
			v = v.Elem()
		}
	}
	part := at(spoilt, c.path)
	if !part.IsValid() {
		return name + " (gone)"
	}
	many := ""
	if part.Kind() == reflect.Slice && part.Len() > 3 { // ten thousand panels would take longer to print than to lay out
		many = fmt.Sprintf("%d: ", part.Len())
		part = part.Slice(0, 3)
	}
	text := fmt.Sprintf("%+v", part.Interface())
	if len(text) > 60 {
		text = text[:60] + "..."
	}
	return name + " = " + many + text
}

// TestFurther checks that each further value is accepted by some function.
func TestFurther(t *testing.T) {
	if runtime.GOOS == "js" || raced {
		t.Skip("acceptance is the same there, and calls take long")
	}
	accepted, refused := map[string]bool{}, map[string]string{}
	for _, c := range callables() {
		params := strings.Fields(c.params)
		args, err := arguments(c.name, c.call.Type(), params)
		if err != nil {
			t.Fatal(err)
		}
		for _, other := range further(args, c.name, params) {
			key := other.key
			// A method that refuses nothing says nothing about its receiver.
			if accepted[key] || !returnsError(c.call.Type()) && !strings.HasPrefix(key, c.name) {
				continue
			}
			if out := call(t, c.name, c.call, other.args, key); out == nil {
				continue
			} else if err := errorOf(out); err != nil {
				refused[key] += fmt.Sprintf("\n\t%s: %v", c.name, err)
			} else {
				accepted[key] = true
			}
		}
	}
	keys := map[string]int{}
	for key, list := range also {
		keys[key] = len(list)
	}
	for key, list := range together {
		keys[key] = len(list)
	}
	for key, n := range keys {
		for i := range n {
			if k := fmt.Sprintf("%s, %d", key, i+1); !accepted[k] {
				t.Errorf("%s: no function accepts it%s", k, refused[k])
			}
		}
	}
}
