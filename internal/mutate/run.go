package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A runner runs the test binaries that have every change in them.
type runner struct {
	scratch string
	tests   []test
}

// A binary is the tests of a package, run in its folder.
type binary struct{ path, dir string }

type test struct {
	in      binary
	pattern string
	took    time.Duration
	reaches map[int]bool
}

// quick is how long a test may take to be among the first ones tried.
const quick = 50 * time.Millisecond

// build compiles the tests of p and of the package of also, "./internal/hostile TestBlame/rode", of which the tests that
// match the pattern count as one.
func (p *pack) build(scratch string, sites []*site, also string) (*runner, error) {
	replace, err := p.overlay(scratch, sites)
	if err != nil {
		return nil, err
	}
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return nil, err
	}
	overlay := filepath.Join(scratch, "overlay.json")
	if err := os.WriteFile(overlay, list, 0o644); err != nil {
		return nil, err
	}
	compile := func(name, path, dir string) (binary, error) {
		b := binary{filepath.Join(scratch, name), dir}
		out, err := exec.Command("go", "test", "-c", "-vet=off", "-p", "1", "-overlay", overlay, "-o", b.path, path).CombinedOutput()
		if err != nil {
			return b, fmt.Errorf("%w\n%s", err, out)
		}
		return b, nil
	}
	r := &runner{scratch: scratch}
	own, err := compile("own.test", p.path, p.dir)
	if err != nil {
		return nil, err
	}
	if also != "" {
		path, pattern, _ := strings.Cut(also, " ")
		other, err := compile("also.test", path, path)
		if err != nil {
			return nil, err
		}
		r.tests = append(r.tests, test{in: other, pattern: pattern})
	}
	names, failed, _ := own.run(time.Minute, "MUTANT=0", "-test.list", ".")
	if failed {
		return nil, errors.New(names)
	}
	for name := range strings.Lines(names) {
		if name = strings.TrimSpace(name); !strings.HasPrefix(name, "Benchmark") {
			r.tests = append(r.tests, test{in: own, pattern: "^" + name + "$"})
		}
	}
	return r, nil
}

// run gives the output, whether it failed, and whether it ran out of time.
func (b binary) run(limit time.Duration, env string, args ...string) (out string, failed, late bool) {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	// A change can make a loop that allocates for ever: 4 GB of addresses are enough for any test.
	c := exec.CommandContext(ctx, "sh", append([]string{"-c", `ulimit -v 4000000; exec "$@"`, "sh", b.path, "-test.short"}, args...)...)
	c.Dir = b.dir
	c.Env = append(os.Environ(), env)
	c.WaitDelay = time.Second
	var text bytes.Buffer
	c.Stdout, c.Stderr = &text, &text
	err := c.Run()
	return text.String(), err != nil, errors.Is(ctx.Err(), context.DeadlineExceeded)
}

// reach runs every test by itself, without a change, and notes what it reaches.
func (r *runner) reach() error {
	var good []test
	for _, t := range r.tests {
		hits := filepath.Join(r.scratch, "hits")
		if err := os.WriteFile(hits, nil, 0o644); err != nil {
			return err
		}
		start := time.Now()
		if out, failed, _ := t.in.run(5*time.Minute, "MUTANT_HITS="+hits, "-test.run", t.pattern); failed {
			log.Printf("left out: %s fails without a change: %s", t.pattern, oneLine(out))
			continue
		}
		t.took, t.reaches = time.Since(start), map[int]bool{}
		text, err := os.ReadFile(hits)
		if err != nil {
			return err
		}
		for _, f := range strings.Fields(string(text)) {
			id, err := strconv.Atoi(f)
			if err != nil {
				return err
			}
			t.reaches[id] = true
		}
		good = append(good, t)
	}
	r.tests = good
	slices.SortFunc(r.tests, func(a, b test) int { return cmp.Compare(a.took, b.took) })
	return nil
}

var failure = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)|^(panic: .*|fatal error: .*)`)

// try makes one change and runs the tests that reach it.
func (r *runner) try(id int) (verdict, by string) {
	// Together in one process: the quick ones, the slow ones, those of the other package.
	type group struct {
		in       binary
		slow     bool
		patterns []string
		took     time.Duration
	}
	var groups []*group
	for _, t := range r.tests { // by time
		if !t.reaches[id] {
			continue
		}
		slow := t.took >= quick
		i := slices.IndexFunc(groups, func(g *group) bool { return g.in == t.in && g.slow == slow })
		if i < 0 {
			i = len(groups)
			groups = append(groups, &group{in: t.in, slow: slow})
		}
		groups[i].patterns = append(groups[i].patterns, t.pattern)
		groups[i].took += t.took
	}
	if len(groups) == 0 {
		return "unreached", ""
	}
	for _, g := range groups {
		// On a busy machine a test may take some times what it took before.
		out, failed, late := g.in.run(min(20*time.Second+4*g.took, 3*time.Minute), fmt.Sprint("MUTANT=", id),
			"-test.failfast", "-test.run", strings.Join(g.patterns, "|"))
		if late {
			return "timed out", ""
		}
		if failed {
			return "killed", "by " + strings.Join(strings.Fields(failure.FindString(out)), " ")
		}
	}
	return "survived", ""
}

func sorted(s []*site, less func(a, b *site) int) []*site {
	s = slices.Clone(s)
	slices.SortFunc(s, less)
	return s
}
