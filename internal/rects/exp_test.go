package rects

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestExp(t *testing.T) {
	for _, cfg := range []struct {
		steps int64
		noise float64
		pow   float64
	}{{3000, 0.5, 1}, {20000, 0.5, 1}, {20000, 0.15, 1}, {20000, 1.5, 1}, {100000, 0.5, 1}, {3000, 0.15, 1}} {
		tot := [2]int{}
		line := ""
		for _, s := range publishedSets(t) {
			for turn, p := range []Problem{s.p, turning(s.p)} {
				if s.count != 25 || s.p.Width != 200 {
					continue
				}
				tk := reduce(p)
				random := rand.New(rand.NewPCG(1, 2))
				var used int64
				found := false
				var ds [2]*decider
				ds[0] = newDecider(context.Background(), 200, 200, tk.rest)
				ds[1] = newDecider(context.Background(), 200, 200, exchanged(tk.rest))
				for r := 0; used < 2000000 && !found; r++ {
					n := len(tk.rest)
					key := make([]float64, n)
					order := make([]int, n)
					for i := range key {
						order[i] = i
						key[i] = math.Log(float64(tk.rest[i].area)) + cfg.noise*random.NormFloat64()
					}
					slices.SortFunc(order, func(a, b int) int { return cmp.Compare(key[b], key[a]) })
					rank := make([]int, n)
					for r, k := range order {
						rank[k] = r
					}
					d := ds[r%2]
					b := d.work
					if d.try(rank, cfg.steps) == yes {
						found = true
						tot[turn]++
					}
					used += d.work - b
				}
				if found {
					line += " " + s.name + map[int]string{0: "", 1: "T"}[turn] + ":" + map[bool]string{true: "", false: "-"}[found] + itoa(used/1000)
				}
			}
		}
		t.Logf("%+v found %v %s", cfg, tot, line)
	}
}

func itoa(v int64) string {
	s := ""
	for {
		s = string(rune('0'+v%10)) + s
		if v /= 10; v == 0 {
			return s + "k"
		}
	}
}
