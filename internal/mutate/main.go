// Command mutate measures how much of a package's code its tests hold fast: it changes the code in a random sample of
// places, one at a time, and counts the changes that some test notices.
//
//	go run ./internal/mutate -n 150 ./rode
//
// All changes are compiled into one test binary, each behind a switch, through an overlay: no file of the tree is
// touched. A first run of every test by itself finds out which changes it reaches; after that each change meets only
// these tests, the quick ones first. A change that no test reaches counts as survived.
package main

import (
	"flag"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

func main() {
	log.SetFlags(0)
	n := flag.Int("n", 100, "changes to try in each package; 0 tries all")
	seed := flag.Uint64("seed", 1, "seed of the sample")
	only := flag.String("only", "", "take the changes of this `file` alone, or of file:line")
	also := flag.String("also", "", "count the tests of another `package and pattern` too, as in './internal/hostile TestBlame/rode'")
	all := flag.Bool("v", false, "list what was killed too")
	flag.Parse()
	failed := false
	for _, pattern := range flag.Args() {
		if err := measure(pattern, *n, *seed, *only, *also, *all); err != nil {
			log.Printf("%s: %v", pattern, err)
			failed = true
		}
	}
	if failed {
		os.Exit(1)
	}
}

func measure(pattern string, n int, seed uint64, only, also string, all bool) error {
	p, err := load(pattern)
	if err != nil {
		return err
	}
	var sites []*site
	for _, f := range p.files {
		for _, s := range f.sites(p.info) {
			if only == "" || only == s.file || only == s.place() {
				sites = append(sites, s)
			}
		}
	}
	found := len(sites)
	if n > 0 && n < found {
		rng := rand.New(rand.NewPCG(seed, 0))
		rng.Shuffle(found, func(i, j int) { sites[i], sites[j] = sites[j], sites[i] })
		sites = sites[:n]
	}
	slices.SortFunc(sites, func(a, b *site) int {
		return strings.Compare(fmt.Sprintf("%s %9d %s", a.file, a.from, a.to), fmt.Sprintf("%s %9d %s", b.file, b.from, b.to))
	})
	for i, s := range sites {
		s.id = i + 1
	}
	scratch, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	r, err := p.build(scratch, sites, also)
	if err != nil {
		return err
	}
	if err := r.reach(); err != nil {
		return err
	}
	start := time.Now()
	count := map[string]int{}
	for _, s := range sites {
		verdict, by := r.try(s.id)
		count[verdict]++
		if verdict != "killed" || all {
			fmt.Printf("%-9s %s: %s: %s  ->  %s  %s\n", verdict, s.place(), s.kind, oneLine(s.old), oneLine(s.to), by)
		}
	}
	killed, total := float64(count["killed"]+count["timed out"]), float64(len(sites))
	share := killed / total
	// Half the width of the 95 % interval; a sample that is a good part of all the places is worth more.
	spread := 1.96 * math.Sqrt(share*(1-share)/total*(1-total/float64(found)))
	fmt.Printf("%s: %d of %d places, seed %d: killed %d (timed out %d), survived %d, not reached %d: %.1f %% +- %.1f, %.0f s\n",
		p.path, len(sites), found, seed, int(killed), count["timed out"], count["survived"], count["unreached"],
		100*share, 100*spread, time.Since(start).Seconds())
	return nil
}

func (s *site) place() string { return fmt.Sprintf("%s:%d", s.file, s.line) }

func oneLine(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if len(s) > 90 {
		s = s[:90] + "..."
	}
	return s
}

func (p *pack) overlay(scratch string, sites []*site) (map[string]string, error) {
	replace := map[string]string{}
	add := func(path, text string) error {
		to := filepath.Join(scratch, filepath.Base(path))
		replace[path] = to
		return os.WriteFile(to, []byte(text), 0o644)
	}
	for _, f := range p.files {
		if err := add(f.path, f.rewrite(sites)); err != nil {
			return nil, err
		}
	}
	return replace, add(filepath.Join(p.dir, "mutant__.go"), strings.Replace(helper, "PACKAGE", p.name, 1))
}

// helper is the switch that each change hangs on. With MUTANT_HITS set it changes nothing and notes what is reached.
const helper = `package PACKAGE

import (
	"os"
	"strconv"
	"sync"
)

var (
	mutantID__, _ = strconv.Atoi(os.Getenv("MUTANT"))
	mutantHits__  = os.Getenv("MUTANT_HITS")
	mutantNoted__ sync.Map
)

func mutant__(id int) bool { return id == mutantID__ || mutantHits__ != "" && mutantNote__(id) }

func mutantNote__(id int) bool {
	if _, old := mutantNoted__.LoadOrStore(id, true); !old {
		f, err := os.OpenFile(mutantHits__, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
		if err != nil {
			panic(err)
		}
		defer f.Close()
		if _, err := f.WriteString(strconv.Itoa(id) + "\n"); err != nil {
			panic(err)
		}
	}
	return false
}
`
