package strip

import (
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"hash/fnv"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The results on the published instances are kept in results.csv beside them, a
// run a row, and summed up in RESULTS.md. This adds the runs that are missing, or
// were made by another search, one after another, and may be stopped and started
// again:
//
//	go test ./internal/strip -run=TestResults -timeout=0 -args -strip.record=10,60,600
//
// A run is given work, not time: that of two workers in so many seconds at the
// rates in published, so that a busy machine makes it longer and no worse.
var (
	record = flag.String("strip.record", "", "seconds, with commas between, of the results to record")
	only   = flag.String("strip.only", "", "instances to record, all if empty")
)

const (
	resultsFile  = "results.csv"
	resultsTable = "RESULTS.md"
	seeds        = 5
	crew         = 2 // workers
)

// run is a row of results.csv.
type run struct {
	instance string
	seconds  int
	seed     uint64
	work     int64
	length   float64
	search   string // tells searches apart, see thisSearch
}

func (r run) row() []string {
	return []string{
		r.instance, strconv.Itoa(r.seconds), strconv.FormatUint(r.seed, 10), strconv.FormatInt(r.work, 10),
		strconv.FormatFloat(r.length, 'g', -1, 64), r.search,
	}
}

// thisSearch is a number made of all fingerprints: one of them may
// stay the same when the search changes.
func thisSearch() string {
	h := fnv.New64a()
	for _, name := range slices.Sorted(maps.Keys(fingerprints)) {
		fmt.Fprintln(h, fingerprints[name])
	}
	return fmt.Sprintf("%#x", h.Sum64())
}

var resultsHead = []string{"instance", "seconds", "seed", "work", "length", "search"}

func resultsPath(name string) string {
	return filepath.Join("..", "..", "testdata", "canvas", "esicup", name)
}

func readResults(t *testing.T) []run {
	t.Helper()
	f, err := os.Open(resultsPath(resultsFile))
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || !slices.Equal(rows[0], resultsHead) {
		t.Fatalf("%s: %v, %v", resultsFile, rows, err)
	}
	var runs []run
	for _, row := range rows[1:] {
		r := run{instance: row[0], search: row[5]}
		if _, err := fmt.Sscan(strings.Join(row[1:5], " "), &r.seconds, &r.seed, &r.work, &r.length); err != nil {
			t.Fatalf("%s: %v: %v", resultsFile, row, err)
		}
		runs = append(runs, r)
	}
	return runs
}

func writeResults(t *testing.T, runs []run) {
	t.Helper()
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Write(resultsHead)
	for _, r := range runs {
		w.Write(r.row())
	}
	w.Flush()
	for name, text := range map[string]string{resultsFile: b.String(), resultsTable: summary(t, runs)} {
		if err := os.WriteFile(resultsPath(name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// summary is RESULTS.md.
func summary(t *testing.T, runs []run) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, `# Results on the published instances

Written by the command at the head of internal/strip/results_test.go from results.csv. Every layout was certified.

Used length over the published mean, in per cent, of %d seeds with %d workers: a negative number is shorter than the mean.
The mean is that of 50 runs of 1,200 s with three threads by Gardeyn, Vanden Berghe and Wauters, arXiv 2509.13329 (2025).
Strips have the nominal width. Density is the area of the pieces over that of the strip used, of the median run. Seconds
are an amount of work: what %d cores of the machine on which the rate was taken do in that time. A star marks results of
an earlier state of the search.

| instance | seconds | million places | seeds | best | median | worst | length, median | density %% |
| --- | --- | --- | --- | --- | --- | --- | --- | --- |
`, seeds, crew, crew)
	type key struct {
		seconds int
		sum     float64
		n       int
	}
	var means []key
	for _, in := range published {
		in = read(t, in)
		for _, seconds := range secondsOf(runs) {
			var lengths []float64
			var work int64
			star := ""
			for _, r := range runs {
				if r.instance == in.name && r.seconds == seconds {
					lengths = append(lengths, r.length)
					work = max(work, r.work)
					if r.search != thisSearch() {
						star = "*"
					}
				}
			}
			if len(lengths) == 0 {
				continue
			}
			slices.Sort(lengths)
			over := func(l float64) float64 { return 100 * (l/in.mean - 1) }
			median := (lengths[(len(lengths)-1)/2] + lengths[len(lengths)/2]) / 2
			fmt.Fprintf(&b, "| %s%s | %d | %d | %d | %+.2f | %+.2f | %+.2f | %.4g | %.2f |\n", in.name, star, seconds, work/1e6, len(lengths),
				over(lengths[0]), over(median), over(lengths[len(lengths)-1]), median, 100*in.area/(in.width*median))
			k := slices.IndexFunc(means, func(k key) bool { return k.seconds == seconds })
			if k < 0 {
				k, means = len(means), append(means, key{seconds: seconds})
			}
			means[k].sum += over(median)
			means[k].n++
		}
	}
	b.WriteString("\n")
	for _, m := range means {
		fmt.Fprintf(&b, "Mean of the medians of %d instances at %d s: %+.2f %%.\n", m.n, m.seconds, m.sum/float64(m.n))
	}
	return b.String()
}

func secondsOf(runs []run) []int {
	var list []int
	for _, r := range runs {
		list = append(list, r.seconds)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// TestResults records results if asked to, and checks that RESULTS.md says what
// results.csv does.
func TestResults(t *testing.T) {
	runs := readResults(t)
	if *record == "" {
		text, err := os.ReadFile(resultsPath(resultsTable))
		if err != nil {
			t.Fatal(err)
		}
		if want := summary(t, runs); string(text) != want {
			t.Errorf("%s is stale, want\n%s", resultsTable, want)
		}
		return
	}
	for text := range strings.SplitSeq(*record, ",") {
		seconds, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		for seed := uint64(1); seed <= seeds; seed++ {
			for _, in := range published {
				if *only != "" && !slices.Contains(strings.Split(*only, ","), in.name) {
					continue
				}
				r := run{in.name, seconds, seed, int64(in.rate * 1e6 * float64(seconds*crew)), 0, thisSearch()}
				k := slices.IndexFunc(runs, func(o run) bool {
					return o.instance == r.instance && o.seconds == r.seconds && o.seed == r.seed
				})
				if k >= 0 && runs[k].search == r.search && runs[k].work == r.work {
					continue
				}
				in = read(t, in)
				got, err := Solve(context.Background(), in.problem, Options{Seed: seed, Work: r.work, Workers: crew})
				if err != nil {
					t.Fatal(err)
				}
				if err := Certify(in.problem, got.Layout); err != nil {
					t.Fatal(err)
				}
				r.length = float64(got.Layout.Length) / in.scale
				if k >= 0 {
					runs[k] = r
				} else {
					runs = append(runs, r)
				}
				writeResults(t, runs)
				t.Logf("%s, %d s, seed %d: %.4g, %+.2f %%", in.name, seconds, seed, r.length, 100*(r.length/in.mean-1))
			}
		}
	}
}
