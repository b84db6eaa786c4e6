package anchor

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"example.com/forepeak/units"
)

// RideExtremes is what many realisations tell.
type RideExtremes struct {
	Runs []RideResult // without tracks
	// BowPeak and AnchorPeak are fitted to the peaks of the runs: the greatest load
	// in one Duration.
	BowPeak, AnchorPeak Gumbel
	// Expected is the mean of the peaks at the bow, and Bow and Anchor the loads
	// that nine Durations of ten stay under, each with the interval of 90 %.
	Expected    units.Force
	Bow, Anchor Quantile
	// Snatch is the greatest of the runs, and Trusted whether all of them are.
	Snatch  float64
	Trusted bool
}

// Realise follows n realisations of gusts and waves, ten or more, on all cores, and
// fits the distribution of the greatest loads. The same seed gives the same numbers on
// any number of cores. progress, if not nil, is told how many are done; it may be called
// from several goroutines, one at a time. Tracks are not kept.
//
// The errors, and what is left out, are those of [Ride.Simulate]: one run in which the rode
// parts ends them all.
func (r Ride) Realise(ctx context.Context, n int, progress func(done, of int)) (RideExtremes, error) {
	if n < 10 || n > 100000 {
		return RideExtremes{}, refuse("n", n, "from 10 to 100000")
	}
	r.Every = 0
	s, err := newSystem(&r)
	if err != nil {
		return RideExtremes{}, err
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	out := RideExtremes{Runs: make([]RideResult, n), Trusted: true}
	errs := make([]error, n)
	var next atomic.Int64
	var wait sync.WaitGroup
	var lock sync.Mutex
	done := 0
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			run := newRun(s, &r)
			for {
				i := int(next.Add(1) - 1)
				if i >= n {
					return
				}
				if out.Runs[i], errs[i] = run.realise(ctx, uint64(i), nil); errs[i] != nil {
					cancel()
					return
				}
				if progress != nil {
					lock.Lock()
					done++
					progress(done, n)
					lock.Unlock()
				}
			}
		})
	}
	wait.Wait()
	// An error of a run comes before the cancelling it caused.
	var failed error
	for _, err := range errs {
		if err != nil && (failed == nil || failed == context.Canceled) {
			failed = err
		}
	}
	if failed != nil {
		return RideExtremes{}, failed
	}
	bow, anchor := make([]units.Force, n), make([]units.Force, n)
	for i := range out.Runs {
		bow[i], anchor[i] = out.Runs[i].Bow.Peak, out.Runs[i].Anchor.Peak
		out.Expected += bow[i].Scale(1 / float64(n))
		out.Snatch = max(out.Snatch, out.Runs[i].Snatch)
		out.Trusted = out.Trusted && out.Runs[i].Trusted
	}
	if out.BowPeak, out.Bow, err = ninth(bow); err != nil {
		return RideExtremes{}, err
	}
	if out.AnchorPeak, out.Anchor, err = ninth(anchor); err != nil {
		return RideExtremes{}, err
	}
	return out, nil
}

func ninth(peaks []units.Force) (g Gumbel, q Quantile, err error) {
	if g, err = FitGumbel(peaks); err == nil {
		q, err = g.Quantile(0.9)
	}
	return g, q, err
}
