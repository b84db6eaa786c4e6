package strip

import (
	"context"
	"flag"
	"testing"
	"time"
)

var (
	seconds = flag.Float64("strip.seconds", 10, "time for each instance of the benchmark")
	count   = flag.Int64("strip.work", 0, "places to try for each instance, in place of a time")
	workers = flag.Int("strip.workers", 1, "workers of the benchmark")
	seed    = flag.Uint64("strip.seed", 1, "seed of the benchmark")
)

// BenchmarkInstances lays the published instances, each for a time:
//
//	go test ./internal/strip -run=^$ -bench=Instances -benchtime=1x -args -strip.seconds=10
//
// It reports the length used, its excess over the published mean, the density
// and the places tried in a second.
func BenchmarkInstances(b *testing.B) {
	for _, in := range published {
		b.Run(in.name, func(b *testing.B) {
			in := read(b, in)
			for range b.N {
				began := time.Now()
				o := Options{Seed: *seed, Workers: *workers, Work: *count}
				if o.Work == 0 {
					o.Spent = func() float64 { return time.Since(began).Seconds() / *seconds }
				}
				got, err := Solve(context.Background(), in.problem, o)
				if err != nil {
					b.Fatal(err)
				}
				if err := Certify(in.problem, got.Layout); err != nil {
					b.Fatal(err)
				}
				length := float64(got.Layout.Length) / in.scale
				b.ReportMetric(length, "length")
				b.ReportMetric(100*(length/in.mean-1), "%over-mean")
				b.ReportMetric(100*in.area/(in.width*length), "%density")
				b.ReportMetric(float64(got.Work)/time.Since(began).Seconds(), "places/s")
				b.ReportMetric(0, "ns/op")
			}
		})
	}
}
