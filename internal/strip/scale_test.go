package strip

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"
)

// scattered is n pieces of as many different shapes, random star-shaped polygons
// of 4 to 10 corners, turned by half turns.
func scattered(n int, seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 1))
	p := Problem{Width: int64(3000 * math.Sqrt(float64(n)))}
	for range n {
		corners := 4 + r.IntN(7)
		ring := make([]int64, 0, 2*corners)
		for k := range corners {
			angle := 2 * math.Pi * (float64(k) + 0.8*r.Float64()) / float64(corners)
			out := 1000 + 1500*r.Float64()
			ring = append(ring, int64(math.Round(out*math.Cos(angle))), int64(math.Round(out*math.Sin(angle))))
		}
		if notSimple(clean(ring)) != "" {
			continue
		}
		p.Shapes = append(p.Shapes, Shape{Turns: [][]int64{ring, quarterTurns(ring, 2)}, Count: 1})
	}
	return p
}

// BenchmarkScale lays 10 to 1,000 pieces and reports the time for a move that is
// kept, that for a place tried, and the memory.
func BenchmarkScale(b *testing.B) {
	for _, n := range []int{10, 30, 100, 300, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := scattered(n, 1)
			for range b.N {
				var before, after runtime.MemStats
				runtime.GC()
				runtime.ReadMemStats(&before)
				s := newSolver(context.Background(), p, Options{Seed: 1, Work: 2000000 + 10000*int64(n)})
				if err := s.start(); err != nil {
					b.Fatal(err)
				}
				work, began := s.work(), time.Now()
				s.run()
				took := time.Since(began)
				moves := int64(0)
				for _, w := range s.crew {
					moves += w.moves
				}
				runtime.GC()
				runtime.ReadMemStats(&after)
				b.ReportMetric(float64(took.Nanoseconds())/float64(moves), "ns/move")
				b.ReportMetric(float64(took.Nanoseconds())/float64(s.work()-work), "ns/place")
				b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/1e6, "MB")
				area := 0.0
				for _, sh := range p.Shapes {
					area += ringArea(sh.Turns[0])
				}
				b.ReportMetric(100*area/(float64(p.Width)*s.lead().bestAt), "%density")
				b.ReportMetric(0, "ns/op")
				runtime.KeepAlive(s)
			}
		})
	}
}

// TestSweepAllocates checks that moves allocate nothing.
func TestSweepAllocates(t *testing.T) {
	for _, p := range []Problem{read(t, published[5]).problem, scattered(10, 2)} {
		s := newSolver(t.Context(), p, Options{Seed: 1, Work: 1 << 40})
		if err := s.start(); err != nil {
			t.Fatal(err)
		}
		w := s.crew[0]
		attempt := func() {
			w.copy(&w.best)
			w.shorten(0.8 * w.bestAt)
			w.even()
			for range 3 {
				w.sweep()
				w.reweigh()
			}
		}
		for range 200 { // tables are made and bins grow
			attempt()
		}
		moves := w.moves
		allocated := testing.AllocsPerRun(10, attempt)
		// A table may not have been asked for before, or a bin be fuller than ever.
		if moved := float64(w.moves-moves) / 10; moved < 10 || allocated > 0.05*moved {
			t.Errorf("%v allocations for %v moves", allocated, moved)
		}
	}
}
