package hostile

import (
	"bufio"
	"bytes"
	"fmt"
	"maps"
	"math"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// tolerance is by how much a number may differ from one platform to another, as
// a share of its size or of its spread, whichever is greater.
const tolerance = 1e-12

// nothing is a difference that is none in any unit: what is left of a current
// that cancels, squared.
const nothing = 1e-30

const valuesFile = "testdata/values.txt"

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
		if _, twice := got[c.name]; twice {
			t.Errorf("two calculations are named %s", c.name)
		}
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
