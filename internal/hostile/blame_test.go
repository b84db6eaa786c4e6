package hostile

import (
	"math"
	"reflect"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// TestBlame puts one value that is no number, or infinite, at a time into values
// that are accepted. Either it is refused, by an error that names the field which
// holds it, or nothing reads the field: the results are as before.
func TestBlame(t *testing.T) {
	if runtime.GOOS == "js" || raced {
		t.Skip("too slow, or on one thread only, to tell a call that runs on")
	}
	each(t, func(t *testing.T, name string, f reflect.Value, params []string) {
		if strings.HasPrefix(name, "units.") || !returnsError(f.Type()) || callersOwn[name] {
			return
		}
		args, err := arguments(name, f.Type(), params)
		if err != nil {
			t.Fatal(err)
		}
		whole := reflect.New(args.Type()).Elem()
		whole.Set(args)
		blame(t, name, f, whole, -1)
		for _, o := range further(whole, name, params) {
			blame(t, name, f, o.args, o.changed)
		}
	})
}

// blame tries each number of whole, or of one of the arguments only.
func blame(t *testing.T, name string, f, whole reflect.Value, only int) {
	before := call(t, name, f, clone(whole), "valid values")
	if before == nil || errorOf(before) != nil {
		return
	}
	values := []float64{math.NaN(), math.Inf(1), math.Inf(-1)}
	_, slow := costly[name]
	slow = slow || strings.Contains(name, "/") // drawings
	if slow || only >= 0 {
		values = values[:1]
	}
	var paths [][]step
	leaves(whole, nil, &paths)
	for i, p := range paths {
		if slow && len(paths) > 60 && i%5 != 0 || only >= 0 && p[0].index != only {
			continue
		}
		if at(whole, p).Kind() != reflect.Float64 {
			continue
		}
		for _, x := range values {
			spoilt := clone(whole)
			at(spoilt, p).SetFloat(x)
			what := describe(whole, spoilt, change{path: p})
			out := call(t, name, f, spoilt, what)
			if out == nil {
				continue
			}
			if err := errorOf(out); err != nil {
				if !blames(err.Error(), what) {
					t.Errorf("%s: refused by naming another field: %v", what, err)
				}
			} else if !unread(before, out) {
				t.Errorf("%s: accepted, and changes the result", what)
			} else if math.IsNaN(x) && !slow {
				if other := otherwise(t, name, f, whole, p, before); other != "" {
					t.Errorf("%s: accepted, though it is read: %s changes the result", what, other)
				}
			}
		}
	}
}

// otherwise looks for a number in the place of a part that changes what f returns.
func otherwise(t *testing.T, name string, f, whole reflect.Value, p []step, before []reflect.Value) string {
	v := at(whole, p).Float()
	for _, x := range []float64{1000 * v, v / 1000, -v, 0} {
		other := clone(whole)
		at(other, p).SetFloat(x)
		what := describe(whole, other, change{path: p})
		if out := call(t, name, f, other, what); out != nil && !unread(before, out) {
			return what
		}
	}
	return ""
}

// unread compares results, but for functions among them.
func unread(before, after []reflect.Value) bool {
	for i := range before {
		if k := before[i].Kind(); k != reflect.Func && !reflect.DeepEqual(before[i].Interface(), after[i].Interface()) {
			return false
		}
	}
	return true
}

var index = regexp.MustCompile(`\[\d+\]`)

// blames tells whether an error names the field at the end of a path such as
// ".Arg_site.Depth = NaN m", or the list of it where that is a result handed back.
func blames(err, what string) bool {
	path, value, _ := strings.Cut(what, " = ")
	names := strings.Split(index.ReplaceAllString(path, ""), ".")
	last := strings.TrimPrefix(names[len(names)-1], "Arg_")
	if strings.HasPrefix(last, "Arg") || last == "X" || last == "Y" || last == "Z" {
		// A method's parameters have no names here, a point's coordinates have that of the point: the value tells.
		last, _, _ = strings.Cut(value, " ")
	}
	err = strings.ToLower(err)
	if strings.Contains(err, strings.TrimSuffix(strings.ToLower(last), "s")) {
		return true
	}
	for _, list := range []string{"Parts", "Joints", "Views", "Branches", "Corners"} {
		if strings.Contains(path, list+"[") && strings.Contains(err, strings.ToLower(list)) {
			return true
		}
	}
	return false
}

func each(t *testing.T, do func(t *testing.T, name string, f reflect.Value, params []string)) {
	for _, c := range callables() {
		t.Run(c.name, func(t *testing.T) { t.Parallel(); do(t, c.name, c.call, strings.Fields(c.params)) })
	}
}
