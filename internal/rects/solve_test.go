package rects

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// solved solves and certifies.
func solved(t testing.TB, p Problem, o Options) Layout {
	t.Helper()
	l, err := Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := Certify(p, l); err != nil {
		t.Fatal(err)
	}
	if l.Bound > l.Length {
		t.Fatalf("bound %d above the length %d", l.Bound, l.Length)
	}
	return l
}

func (p Problem) area() int64 {
	var a int64
	for _, q := range p.Pieces {
		a += q.Along * q.Across * int64(q.Count)
	}
	return a
}

// Published sets of up to 25 pieces are laid without waste, which proves itself.
// With quarter turns allowed the four that want more than the work given are left out.
func TestPublished(t *testing.T) {
	hard := map[string]bool{"hopper-n2a": true, "hopper-n2b": true, "hopper-n2c": true, "hopper-t2a": true}
	long := map[string]bool{"hopper-n2b": true, "hopper-n2c": true, "hopper-n1b": true, "hopper-t2a": true, "ht2001a-C1_2": true}
	for _, s := range publishedSets(t) {
		if got := s.p.area(); got != s.p.Width*s.length {
			t.Errorf("%s: the pieces have an area of %d, the strip %d by %d", s.name, got, s.p.Width, s.length)
		}
		if s.count > 25 || testing.Short() && long[s.name] {
			continue
		}
		if l := solved(t, s.p, Options{Work: 5e5}); l.Length != s.length || !l.Optimal() {
			t.Errorf("%s: length %d, bound %d, want %d", s.name, l.Length, l.Bound, s.length)
		}
		if hard[s.name] {
			continue
		}
		if l := solved(t, turning(s.p), Options{Work: 5e5}); l.Length != s.length || !l.Optimal() {
			t.Errorf("%s, turning: length %d, bound %d, want %d", s.name, l.Length, l.Bound, s.length)
		}
	}
}

// dissected cuts a rectangle into n pieces, by cuts right through or by
// pinwheels of five, none thinner than least.
func dissected(r *rand.Rand, width, length, least int64, n int, pinwheels bool) []Piece {
	all := []Piece{{Along: length, Across: width, Count: 1}}
	for tries := 0; len(all) < n && tries < 10000; tries++ {
		i := r.IntN(len(all))
		for j := range all { // large ones first, mostly
			if r.IntN(2) == 0 && all[j].Along*all[j].Across > all[i].Along*all[i].Across {
				i = j
			}
		}
		q := all[i]
		piece := func(along, across int64) Piece { return Piece{Along: along, Across: across, Count: 1} }
		if pinwheels && n-len(all) >= 4 && q.Along >= 3*least && q.Across >= 3*least && r.IntN(2) == 0 {
			x1 := least + r.Int64N(q.Along-3*least+1)
			x2 := x1 + least + r.Int64N(q.Along-x1-2*least+1)
			y1 := least + r.Int64N(q.Across-3*least+1)
			y2 := y1 + least + r.Int64N(q.Across-y1-2*least+1)
			all[i] = piece(x2, y1)
			all = append(all, piece(q.Along-x2, y2), piece(q.Along-x1, q.Across-y2), piece(x1, q.Across-y1), piece(x2-x1, y2-y1))
			continue
		}
		if r.IntN(2) == 0 && q.Along >= 2*least {
			cut := least + r.Int64N(q.Along-2*least+1)
			all[i] = piece(cut, q.Across)
			all = append(all, piece(q.Along-cut, q.Across))
		} else if q.Across >= 2*least {
			cut := least + r.Int64N(q.Across-2*least+1)
			all[i] = piece(q.Along, cut)
			all = append(all, piece(q.Along, q.Across-cut))
		}
	}
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all
}

// generated is a set without waste; with turns, pieces are given turned at random.
func generated(seed uint64, n int, pinwheels, turns bool) (Problem, int64) {
	r := rand.New(rand.NewPCG(seed, 17))
	width, length := 30+r.Int64N(171), 30+r.Int64N(171)
	p := Problem{Width: width, Pieces: dissected(r, width, length, 3, n, pinwheels)}
	for i := range p.Pieces {
		q := &p.Pieces[i]
		if q.Turn = turns; turns && r.IntN(2) == 0 {
			q.Along, q.Across = q.Across, q.Along
		}
	}
	return p, length
}

func TestGenerated(t *testing.T) {
	var work int64
	for seed := range uint64(60) {
		n := 5 + int(seed)%15
		turns := seed%4 >= 2
		if turns {
			n = min(n, 12)
		}
		p, length := generated(seed, n, seed%2 == 1, turns)
		if got := p.area(); got != p.Width*length {
			t.Fatalf("seed %d: area %d, want %d", seed, got, p.Width*length)
		}
		if l := solved(t, p, Options{Work: 3e4}); l.Length != length || !l.Optimal() {
			t.Errorf("seed %d, %d pieces, turns %v: length %d, bound %d, want %d", seed, n, turns, l.Length, l.Bound, length)
		} else {
			work += l.Work
		}
	}
	// What looks good first and what is given up early make the search quick: it took
	// 71,000 steps when this was written.
	if work > 80_000 {
		t.Errorf("%d steps", work)
	}
}

// exhaustive tries every place of every piece in turn.
func exhaustive(p Problem) int64 {
	var all []Piece
	for _, q := range p.Pieces {
		for range q.Count {
			all = append(all, q)
		}
	}
	var try func(i int, length int64, taken []uint64) bool
	try = func(i int, length int64, taken []uint64) bool {
		if i == len(all) {
			return true
		}
		sides := [][2]int64{{all[i].Along, all[i].Across}}
		if all[i].Turn {
			sides = append(sides, [2]int64{all[i].Across, all[i].Along})
		}
		for _, s := range sides {
			for x := int64(0); x+s[0] <= length; x++ {
			next:
				for y := int64(0); y+s[1] <= p.Width; y++ {
					mask := (uint64(1)<<s[1] - 1) << y
					for k := x; k < x+s[0]; k++ {
						if taken[k]&mask != 0 {
							continue next
						}
					}
					after := slices.Clone(taken)
					for k := x; k < x+s[0]; k++ {
						after[k] |= mask
					}
					if try(i+1, length, after) {
						return true
					}
				}
			}
		}
		return false
	}
	for length := (p.area() + p.Width - 1) / p.Width; ; length++ {
		if try(0, length, make([]uint64, length)) {
			return length
		}
	}
}

func small(r *rand.Rand) Problem {
	p := Problem{Width: 2 + r.Int64N(5)}
	for n := 1 + r.IntN(5); n > 0; n-- {
		q := Piece{Along: 1 + r.Int64N(5), Across: 1 + r.Int64N(p.Width), Count: 1, Turn: r.IntN(2) == 0}
		if n > 1 && r.IntN(4) == 0 {
			q.Count, n = 2, n-1
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}

// Small sets, most of which cannot be laid without waste, are proved optimal,
// and the length is that of an exhaustive search.
func TestExhaustive(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	wasted := 0
	sets := 2000
	if testing.Short() {
		sets = 600
	}
	for i := range sets {
		p := small(r)
		l := solved(t, p, Options{Seed: uint64(i), Work: 1e6})
		if want := exhaustive(p); l.Length != want || !l.Optimal() {
			t.Fatalf("%+v: length %d, bound %d, want %d", p, l.Length, l.Bound, want)
		}
		if l.Length*p.Width > p.area() {
			wasted++
		}
	}
	if wasted < sets/2 {
		t.Errorf("only %d sets had waste", wasted)
	}
}

// The search alone, without best fit and bounds before it, finds the
// least length too: no is a proof.
func TestDecideExhaustive(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	sets := 1500
	if testing.Short() {
		sets = 500
	}
	var work int64
	for range sets {
		p := small(r)
		want := exhaustive(p)
		kinds := kindsOf(p)
		rank := make([]int, len(kinds))
		for k := range rank {
			rank[k] = k
		}
		for length := max(1, want-2); length <= want; length++ {
			var answers []answer
			for _, d := range []*decider{
				newDecider(context.Background(), p.Width, length, kinds),
				newDecider(context.Background(), length, p.Width, exchanged(kinds)),
			} {
				answers = append(answers, d.try(rank, 1e6))
				work += d.work
			}
			expected := no
			if length == want {
				expected = yes
			}
			for side, got := range answers {
				if got != expected {
					t.Fatalf("%+v in length %d, side %d: %v, want %v", p, length, side, got, expected)
				}
			}
			if expected == yes && refuted(p.Width, length, kinds) {
				t.Fatalf("%+v: a bound refutes length %d", p, length)
			}
		}
	}
	if work > 30*int64(sets) { // 24 to 29 when this was written
		t.Errorf("%d steps for %d sets", work, sets)
	}
}

func TestBounds(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Problem
		want int64
	}{
		{"two that cannot lie side by side", Problem{Width: 10, Pieces: []Piece{{Along: 4, Across: 6, Count: 3}}}, 12},
		{"two side by side at most", Problem{Width: 10, Pieces: []Piece{{Along: 4, Across: 4, Count: 5}}}, 12},
		{"the longest", Problem{Width: 10, Pieces: []Piece{{Along: 40, Across: 1, Count: 1}, {Along: 3, Across: 3, Count: 2}}}, 40},
		{"turned to fit", Problem{Width: 10, Pieces: []Piece{{Along: 3, Across: 20, Count: 2, Turn: true}}}, 20},
		{"turned to lie lower", Problem{Width: 10, Pieces: []Piece{{Along: 9, Across: 2, Count: 1, Turn: true}}}, 2},
		{"sides that add up", Problem{Width: 7, Pieces: []Piece{{Along: 3, Across: 5, Count: 2}, {Along: 4, Across: 2, Count: 1}}}, 6},
	} {
		if l := solved(t, c.p, Options{Work: 1e5}); l.Length != c.want || !l.Optimal() {
			t.Errorf("%s: length %d, bound %d, want %d", c.name, l.Length, l.Bound, c.want)
		}
	}
}

func TestCheck(t *testing.T) {
	one := Piece{Along: 1, Across: 1, Count: 1}
	for _, c := range []struct {
		p     Problem
		is    error
		field string
	}{
		{Problem{}, ErrSize, "Width"},
		{Problem{Width: 1<<26 + 1, Pieces: []Piece{one}}, ErrSize, "Width"},
		{Problem{Width: 5}, ErrCount, "Pieces"},
		{Problem{Width: 5, Pieces: []Piece{one, {Along: 0, Across: 1, Count: 1}}}, ErrSize, "Pieces[1].Along"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 1, Across: -1, Count: 1}}}, ErrSize, "Pieces[0].Across"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 1, Across: 1}}}, ErrCount, "Pieces[0].Count"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 1, Across: 1, Count: 1 << 14}, one}}, ErrCount, "Pieces[1].Count"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 1, Across: 6, Count: 1}}}, ErrFit, "Pieces[0].Across"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 6, Across: 6, Count: 1, Turn: true}}}, ErrFit, "Pieces[0].Across"},
		{Problem{Width: 5, Pieces: []Piece{{Along: 1 << 26, Across: 1, Count: 17}}}, ErrSize, "Pieces[0].Along"},
	} {
		_, err := Solve(context.Background(), c.p, Options{})
		var e *Error
		if !errors.Is(err, c.is) || !errors.As(err, &e) || e.Field != c.field {
			t.Errorf("%+v: %v, want %v in %s", c.p, err, c.is, c.field)
		}
	}
}

func TestCertifyRefuses(t *testing.T) {
	p := Problem{Width: 4, Pieces: []Piece{{Along: 2, Across: 2, Count: 2}, {Along: 3, Across: 1, Count: 1, Turn: true}}}
	good := Layout{Length: 5, Places: []Place{{Piece: 0}, {Piece: 0, Y: 2}, {Piece: 1, X: 2}}}
	if err := Certify(p, good); err != nil {
		t.Fatal(err)
	}
	if err := Certify(Problem{Pieces: p.Pieces}, good); !errors.Is(err, ErrSize) {
		t.Errorf("no width: %v", err)
	}
	for name, change := range map[string]func(*Layout){
		"overlap":          func(l *Layout) { l.Places[1].Y = 1 },
		"same place":       func(l *Layout) { l.Places[1].Y = 0 },
		"beyond the end":   func(l *Layout) { l.Length = 4 },
		"beyond the width": func(l *Layout) { l.Places[1].Y = 3 },
		"before the start": func(l *Layout) { l.Places[0].X = -1 },
		"far away":         func(l *Layout) { l.Places[0].X = 1<<63 - 1 },
		"missing":          func(l *Layout) { l.Places = l.Places[:2] },
		"once too often":   func(l *Layout) { l.Places = append(l.Places, Place{Piece: 1, X: 2, Y: 2}) },
		"no such piece":    func(l *Layout) { l.Places[2].Piece = 2 },
		"turned":           func(l *Layout) { l.Places[0].Turned = true },
		"huge":             func(l *Layout) { l.Length = 1<<63 - 1 },
		"less than none":   func(l *Layout) { l.Length = -1 << 63 },
		"by one":           func(l *Layout) { l.Places[2].X, l.Length = 1, 4 },
	} {
		l := Layout{Length: good.Length, Places: slices.Clone(good.Places)}
		change(&l)
		if err := Certify(p, l); !errors.Is(err, ErrLayout) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The layout depends on seed and work alone, and more work does not make it worse.
func TestDeterministic(t *testing.T) {
	p, _ := generated(3, 22, true, true)
	var last int64 = 1 << 40
	for _, work := range []int64{0, 1e3, 1e4, 3e4} {
		a, b := solved(t, p, Options{Seed: 7, Work: work}), solved(t, p, Options{Seed: 7, Work: work})
		if diff := cmp.Diff(a, b); diff != "" {
			t.Errorf("work %d: %s", work, diff)
		}
		if a.Length > last {
			t.Errorf("work %d: length %d after %d", work, a.Length, last)
		}
		if a.Work > work+int64(len(p.Pieces))*8+1 {
			t.Errorf("work %d: %d steps", work, a.Work)
		}
		last = a.Length
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p, _ := generated(4, 25, true, true)
	l, err := Solve(ctx, p, Options{Work: 1e12})
	if err != nil {
		t.Fatal(err)
	}
	if err := Certify(p, l); err != nil {
		t.Error(err)
	}
}

// Input that is large in every way is answered with bounded work.
func TestLarge(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	for name, p := range map[string]Problem{
		"large sides":   {Width: 1<<26 - 5, Pieces: []Piece{{Along: 1<<26 - 3, Across: 1<<25 + 1, Count: 5, Turn: true}, {Along: 9999991, Across: 7777777, Count: 9}}},
		"strips":        {Width: 1 << 26, Pieces: []Piece{{Along: 1, Across: 1 << 26, Count: 15}, {Along: 1 << 15, Across: 1, Count: 1 << 10}}},
		"many alike":    {Width: 1000, Pieces: []Piece{{Along: 7, Across: 3, Count: 1 << 14, Turn: true}}},
		"primes":        {Width: 104729, Pieces: []Piece{{Along: 7919, Across: 6007, Count: 40, Turn: true}, {Along: 4001, Across: 3001, Count: 60, Turn: true}}},
		"one":           {Width: 3, Pieces: []Piece{{Along: 5, Across: 3, Count: 1}}},
		"wide of waste": {Width: 1 << 20, Pieces: []Piece{{Along: 1000003, Across: 524289, Count: 3, Turn: true}, {Along: 3, Across: 5, Count: 20}}},
		"many kinds": func() Problem {
			p := Problem{Width: 5000}
			for range 1000 {
				p.Pieces = append(p.Pieces, Piece{Along: 1 + r.Int64N(900), Across: 1 + r.Int64N(900), Count: 1, Turn: true})
			}
			return p
		}(),
	} {
		l := solved(t, p, Options{Work: 2e4})
		t.Logf("%s: length %d, bound %d", name, l.Length, l.Bound)
	}
}

func FuzzSolve(f *testing.F) {
	f.Add(int64(6), []byte{2, 3, 1, 0, 4, 1, 2, 1})
	f.Add(int64(5), []byte{5, 5, 1, 1, 1, 5, 1, 1, 9, 2, 3, 0})
	f.Add(int64(1), []byte{1, 1, 9, 0})
	f.Add(int64(1<<26), []byte{255, 255, 255, 7})
	f.Add(int64(-1), []byte{})
	f.Fuzz(func(t *testing.T, width int64, data []byte) {
		p := Problem{Width: width}
		for len(data) >= 4 && len(p.Pieces) < 12 {
			q := Piece{Along: int64(data[0]), Across: int64(data[1]), Count: int(data[2] % 16), Turn: data[3]&1 == 1}
			if data[3]&2 == 2 {
				q.Along <<= 18
			}
			if data[3]&4 == 4 {
				q.Across <<= 18
			}
			p.Pieces, data = append(p.Pieces, q), data[4:]
		}
		l, err := Solve(context.Background(), p, Options{Work: 3000})
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Field == "" {
				t.Fatalf("%v has no field", err)
			}
			return
		}
		if err := Certify(p, l); err != nil {
			t.Fatal(err)
		}
		if l.Bound > l.Length || l.Bound*p.Width < p.area() && l.Bound < l.Length && l.Bound < leastLength(p.Width, kindsOf(p)) {
			t.Fatalf("length %d, bound %d", l.Length, l.Bound)
		}
	})
}

// Times to the proved optimum of generated sets of 5 to 25 pieces, with work for
// about 10 s:
//
//	go test ./internal/rects -run ^$ -bench Generated -benchtime 1x
func BenchmarkGenerated(b *testing.B) {
	for _, turns := range []bool{false, true} {
		for _, pinwheels := range []bool{false, true} {
			b.Run(fmt.Sprintf("turns=%v/pinwheels=%v", turns, pinwheels), func(b *testing.B) {
				for b.Loop() {
					var took []time.Duration
					open := 0
					for seed := range uint64(63) {
						p, length := generated(1000+seed, 5+int(seed)/3, pinwheels, turns)
						start := time.Now()
						l := solved(b, p, Options{Work: 8e6})
						took = append(took, time.Since(start))
						if l.Length != length || !l.Optimal() {
							open++
							b.Logf("seed %d, %d pieces: length %d, known %d, %.1f s", 1000+seed, len(p.Pieces), l.Length, length, took[seed].Seconds())
						}
					}
					slices.Sort(took)
					for _, q := range []int{50, 90, 100} {
						b.ReportMetric(took[min(len(took)*q/100, len(took)-1)].Seconds(), fmt.Sprintf("s/%d%%", q))
					}
					b.ReportMetric(float64(open), "unsolved")
				}
			})
		}
	}
}

func BenchmarkZeroWaste(b *testing.B) {
	for _, s := range publishedSets(b) {
		if s.name != "ht2001a-C1_1" && s.name != "hopper-n2a" {
			continue
		}
		b.Run(fmt.Sprintf("%s/%d", s.name, s.count), func(b *testing.B) {
			for b.Loop() {
				if l, err := Solve(context.Background(), s.p, Options{Work: 3e6}); err != nil || l.Length != s.length {
					b.Fatal(l.Length, err)
				}
			}
		})
	}
}
