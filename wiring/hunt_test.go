package wiring_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// labourOf walks a plan to the section that is at fault.
func labourOf(t *testing.T, h Hunt, joints []Joint, fault int) float64 {
	t.Helper()
	at := map[string]int{}
	for i, j := range joints {
		at[j.Name] = i
	}
	labour := 0.0
	test := h.First
	for test.Section == "" {
		labour += test.Effort.Seconds()
		if fault <= at[test.Joint] {
			test = test.Near
		} else {
			test = test.Far
		}
	}
	if test.Section != fmt.Sprint("s", fault) {
		t.Errorf("the plan ends at %s, want s%d", test.Section, fault)
	}
	return labour
}

// PlanHunt is compared with every order of joints: parting them in an order, leaving out
// those that would tell nothing, is one plan, and there are no others.
func TestPlanHuntAgainstEveryOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 24))
	for n := 1; n <= 7; n++ {
		for range 12 {
			sections, joints, sum := make([]Section, n), make([]Joint, n-1), 0.0
			for i := range sections {
				sections[i] = Section{fmt.Sprint("s", i), r.Float64() * float64(r.IntN(4))}
				sum += sections[i].Likelihood
			}
			if sum == 0 {
				continue
			}
			for i := range joints {
				joints[i] = Joint{fmt.Sprint("j", i), units.Time(r.Float64() * 1000)}
			}
			h, err := PlanHunt(sections, joints, ByResistance)
			if err != nil {
				t.Fatal(err)
			}
			expected, worst := 0.0, 0.0
			for i := range sections {
				l := labourOf(t, h, joints, i)
				expected += l * sections[i].Likelihood / sum
				worst = math.Max(worst, l)
			}
			near(t, "expected labour of the plan", h.Expected.Seconds(), expected, 1e-9*(1+expected))
			near(t, "worst labour of the plan", h.Worst.Seconds(), worst, 1e-9*(1+worst))
			best := math.Inf(1)
			permutations(n-1, func(order []int) {
				total := 0.0
				for fault, s := range sections {
					lo, hi := 0, n-1
					for _, j := range order {
						if lo <= j && j < hi {
							total += joints[j].Effort.Seconds() * s.Likelihood / sum
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
			near(t, fmt.Sprintf("expected labour of %d sections", n), h.Expected.Seconds(), best, 1e-9*(1+best))
		}
	}
}

// permutations calls f with every order of 0 to n-1.
func permutations(n int, f func([]int)) {
	order := make([]int, 0, n)
	used := make([]bool, n)
	var next func()
	next = func() {
		if len(order) == n {
			f(order)
			return
		}
		for i := range n {
			if !used[i] {
				used[i] = true
				order = append(order, i)
				next()
				order = order[:len(order)-1]
				used[i] = false
			}
		}
	}
	next()
}

// Equal efforts and likelihoods give the fewest tests: halving.
func TestPlanHuntFewestTests(t *testing.T) {
	for n := 1; n <= 64; n++ {
		sections, joints := make([]Section, n), make([]Joint, n-1)
		for i := range sections {
			sections[i] = Section{fmt.Sprint("s", i), 1}
		}
		for i := range joints {
			joints[i] = Joint{fmt.Sprint("j", i), 60}
		}
		h, err := PlanHunt(sections, joints, ByLamp)
		if err != nil {
			t.Fatal(err)
		}
		// The mean depth of a tree of n leaves that is as flat as can be.
		k := math.Floor(math.Log2(float64(n)))
		mean := k + 2 - math.Exp2(k+1)/float64(n)
		near(t, fmt.Sprintf("tests for %d sections", n), h.Expected.Minutes(), mean, 1e-9)
	}
}

// A joint that is hard to reach is parted last, even in the middle.
func TestPlanHuntAvoidsLabour(t *testing.T) {
	s := []Section{{"s0", 1}, {"s1", 1}, {"s2", 1}, {"s3", 1}}
	h, err := PlanHunt(s, []Joint{{"a", 60}, {"b", 3600}, {"c", 60}}, BySmallFuse)
	if err != nil {
		t.Fatal(err)
	}
	if h.First.Joint == "b" || h.Caution == "" {
		t.Errorf("first %+v", h.First)
	}
	roundTrip(t, h)
}

func FuzzPlanHunt(f *testing.F) {
	f.Add(5, 1.0, 60.0, 1.0)
	f.Add(1, 0.0, 0.0, 0.0)
	f.Add(300, 1e300, 1e300, -1.0)
	f.Fuzz(func(t *testing.T, n int, likelihood, effort, growth float64) {
		if n < 0 || n > 40 {
			n = 40
		}
		s, j := make([]Section, n), make([]Joint, max(0, n-1))
		for i := range s {
			s[i] = Section{fmt.Sprint(i), likelihood * math.Pow(growth, float64(i))}
		}
		for i := range j {
			j[i] = Joint{fmt.Sprint(i), units.Time(effort * math.Pow(growth, float64(n-i)))}
		}
		h, err := PlanHunt(s, j, ByLamp)
		if err != nil {
			return
		}
		if e := h.Expected.Seconds(); !(e >= 0) || math.IsInf(e, 0) || !(h.Worst.Seconds() >= e*(1-1e-9)) {
			t.Errorf("expected %v, worst %v", h.Expected, h.Worst)
		}
	})
}
