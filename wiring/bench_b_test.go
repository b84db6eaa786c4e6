package wiring_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

func benchRuns(b *testing.B) []Run {
	stock := stockOf(b)
	var runs []Run
	for i := range 5 {
		r := Run{Name: fmt.Sprint("run ", i), Requirement: Requirement{
			Stock: stock, Run: units.Length(3 + 2*i), Current: units.Current(40 - 7*i), System: 12, MaxDrop: NonCriticalDrop,
		}}
		if i > 0 {
			r.After = runs[(i-1)/2].Name
		}
		runs = append(runs, r)
	}
	return runs
}

func BenchmarkSizeRuns(b *testing.B) {
	runs := benchRuns(b)
	for b.Loop() {
		if _, err := SizeRuns(runs, LeastMass); err != nil {
			b.Fatal(err)
		}
	}
}

// Every combination of conductors for the same runs.
func BenchmarkSizeRunsExhaustive(b *testing.B) {
	runs := benchRuns(b)
	for b.Loop() {
		best := math.Inf(1)
		var try func(i int, at [5]float64, mass float64)
		try = func(i int, at [5]float64, mass float64) {
			if i == len(runs) {
				best = math.Min(best, mass)
				return
			}
			for _, c := range runs[i].Stock {
				v := runs[i].Current.Amperes() * c.Resistance.OhmsPerMetre() * runs[i].Run.Metres() * 294.5 / 254.5
				if i > 0 {
					v += at[(i-1)/2]
				}
				if v <= 1.2 {
					at[i] = v
					try(i+1, at, mass+c.Mass.KilogramsPerMetre()*runs[i].Run.Metres())
				}
			}
		}
		try(0, [5]float64{}, 0)
		if math.IsInf(best, 1) {
			b.Fatal("nothing fits")
		}
	}
}

func BenchmarkStudyFaults(b *testing.B) {
	c, err := testWindlass(b).Circuit(Hauling)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := StudyFaults(c, FaultStudy{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPlanHunt(b *testing.B) {
	for _, n := range []int{8, 64} {
		s, j := make([]Section, n), make([]Joint, n-1)
		for i := range s {
			s[i] = Section{Name: fmt.Sprint(i), Likelihood: 1 + float64(i%5)}
		}
		for i := range j {
			j[i] = Joint{Name: fmt.Sprint(i), Effort: units.Time(60 * (1 + i%7))}
		}
		b.Run(fmt.Sprint(n, " sections"), func(b *testing.B) {
			for b.Loop() {
				if _, err := PlanHunt(s, j, ByResistance); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Every order of parting 8 sections.
func BenchmarkPlanHuntEveryOrder(b *testing.B) {
	for b.Loop() {
		best := math.Inf(1)
		permutations(7, func(order []int) {
			total := 0.0
			for fault := range 8 {
				lo, hi := 0, 7
				for _, j := range order {
					if lo <= j && j < hi {
						total += float64(1+j%7) * float64(1+fault%5)
						if fault <= j {
							hi = j
						} else {
							lo = j + 1
						}
					}
				}
			}
			best = math.Min(best, total)
		})
	}
}
