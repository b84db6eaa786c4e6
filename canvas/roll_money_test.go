package canvas

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
)

// moneyLay is a few pieces and two or three rolls, offcuts among them.
func moneyLay(r *rand.Rand, pieces int) Lay {
	l := Lay{Gap: units.Length(r.IntN(2)) * 4 * milli}
	l.Rolls = append(l.Rolls, Roll{Name: "roll", Width: 1.2, Price: units.Money(10 + r.IntN(10)), Increment: units.Length(r.IntN(3)) * 100 * milli})
	if r.IntN(2) == 0 {
		l.Rolls = append(l.Rolls, Roll{Name: "wide", Width: 1.6, Price: units.Money(14 + r.IntN(14)), Increment: 100 * milli})
	}
	for len(l.Rolls) < 2+r.IntN(2) {
		l.Rolls = append(l.Rolls, Roll{
			Name: "offcut", Width: 0.4 + units.Length(r.IntN(9))*100*milli, Length: 0.4 + units.Length(r.IntN(9))*100*milli, Value: units.Money(r.IntN(8)),
		})
	}
	for range pieces {
		w, h := 0.2+units.Length(r.IntN(12))*50*milli, 0.2+units.Length(r.IntN(12))*50*milli
		cut := rectangle(w, h)
		if r.IntN(3) == 0 {
			cut = cut[:3]
		}
		l.Pieces = append(l.Pieces, Cutting{Name: string(rune('a' + len(l.Pieces))), Cut: cut, Flip: r.IntN(2) == 0})
	}
	return l
}

// byHand tries every way to divide the pieces among the rolls and lays each roll
// by itself.
func byHand(t *testing.T, l Lay, work int64) float64 {
	t.Helper()
	n := len(l.Rolls)
	type key struct{ roll, set int }
	known := map[key]float64{}
	cost := func(roll, set int) float64 {
		k := key{roll, set}
		if c, ok := known[k]; ok || set == 0 {
			return c
		}
		one := Lay{Rolls: l.Rolls[roll : roll+1], Gap: l.Gap}
		for i, p := range l.Pieces {
			if set>>i&1 == 1 {
				one.Pieces = append(one.Pieces, p)
			}
		}
		p, err := one.Plan(t.Context(), LayOptions{Work: work})
		c := float64(p.Cost)
		if err != nil {
			c = math.Inf(1)
		}
		known[k] = c
		return c
	}
	best := math.Inf(1)
	sets := make([]int, n)
	var divide func(i int)
	divide = func(i int) {
		if i == len(l.Pieces) {
			sum := 0.0
			for r, set := range sets {
				sum += cost(r, set)
			}
			best = math.Min(best, sum)
			return
		}
		for r := range n {
			sets[r] |= 1 << i
			divide(i + 1)
			sets[r] &^= 1 << i
		}
	}
	divide(0)
	return best
}

// TestLayMoney compares plans over several rolls with all ways to divide the
// pieces, and the bound with both.
func TestLayMoney(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	same, proved, tight, count := 0, 0, 0.0, 40
	if testing.Short() || raceDetector {
		count = 15
	}
	for n := range count {
		l := moneyLay(r, 3+r.IntN(3))
		p, err := l.Plan(t.Context(), LayOptions{Seed: uint64(n), Work: 80_000})
		if err != nil {
			t.Fatalf("%+v: %v", l, err)
		}
		if err := p.Check(l); err != nil {
			t.Fatal(err)
		}
		best := byHand(t, l, 3000)
		if float64(p.Bound) > best+1e-6 {
			t.Fatalf("bound %v, all ways tried give %v: %+v", p.Bound, best, l)
		}
		switch d := float64(p.Cost) - best; {
		case d <= 1e-6:
			same++
		case d > 0.1*best:
			t.Errorf("%d: cost %v, all ways tried give %v: %+v", n, p.Cost, best, l)
		default:
			t.Logf("%d: cost %v, all ways tried give %v", n, p.Cost, best)
		}
		if float64(p.Cost-p.Bound) < 1e-6 {
			proved++
		}
		tight += float64((p.Bound + 1e-9) / (p.Cost + 1e-9))
	}
	t.Logf("%d of %d as cheap as all ways, %d proved; bound over cost %.3f", same, count, proved, tight/float64(count))
	if same < count*9/10 {
		t.Errorf("only %d of %d are as cheap as all ways tried", same, count)
	}
}

// TestLayLooksHarder has a cheaper order that a first quick look at each division
// of the pieces does not show: the top from the offcut, and two weather cloths
// and a wrap that nest on 2.26 m if they are laid with some care.
func TestLayLooksHarder(t *testing.T) {
	const mm = units.Millimetre
	l := Lay{Gap: 4 * mm, Pieces: []Cutting{
		{Name: "top", Cut: rectangle(668*mm, 548*mm)},
		{Name: "wrap", Cut: rectangle(2253.6*mm, 139.5*mm)},
		{Name: "weather cloth", Quantity: 1, QuantityMirrored: 1, Cut: []Point{
			{X: -18.2 * mm, Y: 35.2 * mm},
			{},
			{X: 30.7 * mm, Y: -25 * mm},
			{X: 1868.2 * mm, Y: -25 * mm},
			{X: 1900 * mm},
			{X: 1916.8 * mm, Y: 36.8 * mm},
			{X: 1779.3 * mm, Y: 605 * mm},
			{X: 1750 * mm, Y: 620 * mm},
			{X: 1726.5 * mm, Y: 643.1 * mm},
			{X: 116.4 * mm, Y: 506.5 * mm},
			{X: 100 * mm, Y: 480 * mm},
			{X: 71.7 * mm, Y: 466.9 * mm},
		}},
	}, Rolls: []Roll{{Name: "roll", Width: 1500 * mm, Selvedge: 10 * mm, Price: 38, Increment: 100 * mm}, {Name: "offcut", Width: 700 * mm, Length: 900 * mm, Value: 5}}}
	for seed := range uint64(3) {
		p, err := l.Plan(t.Context(), LayOptions{Seed: seed, Work: 200_000})
		if err != nil {
			t.Fatal(err)
		}
		// 2.3 m at 38 and the offcut at 5.
		if want := 92.4; float64(p.Cost) > want+1e-6 {
			t.Errorf("seed %d: %v, want %v", seed, p.Cost, want)
		}
	}
}

// A bolt with more cloth on it than is needed is as good as one without an end.
func TestLayOnABolt(t *testing.T) {
	for _, n := range []int{20, 60, 120} {
		l := Lay{Rolls: []Roll{{Width: 1.4, Price: 5}}, Gap: 4 * milli, Pieces: []Cutting{
			{Name: "p", Cut: []Point{{}, at(0.3, 0), at(0.25, 0.2), at(0, 0.17)}, Quantity: n - n/4},
			{Name: "q", Cut: []Point{{}, at(0.2, 0.02), at(0.2, 0.2), at(0.03, 0.15)}, Quantity: n / 4},
		}}
		o := LayOptions{Work: 60_000}
		endless, err := l.Plan(t.Context(), o)
		if err != nil {
			t.Fatal(err)
		}
		l.Rolls[0].Length = 30
		bolt, err := l.Plan(t.Context(), o)
		if err != nil || math.Abs(float64(bolt.Cost/endless.Cost)-1) > 0.04 {
			t.Errorf("%d: for %v, with an end for %v, %v", n, endless.Cost, bolt.Cost, err)
		}
		l.Rolls = append(l.Rolls, Roll{Name: "dearer", Width: 1.4, Price: 10})
		if both, err := l.Plan(t.Context(), o); err != nil || math.Abs(float64(both.Cost/endless.Cost)-1) > 0.04 {
			t.Errorf("%d: for %v, beside a dearer roll for %v, %v", n, endless.Cost, both.Cost, err)
		}
	}
}

// What is too much for one search may have room on several offcuts.
func TestLayOnManyOffcuts(t *testing.T) {
	l := Lay{Pieces: []Cutting{{Name: "lath", Cut: []Point{{}, at(90, 0), at(90, 0.04), at(1, 0.08)}, Quantity: 8}}}
	for range 2 {
		l.Rolls = append(l.Rolls, Roll{Width: 1, Length: 95})
	}
	plan, err := l.Plan(t.Context(), LayOptions{Work: 2000})
	if err != nil || len(plan.Rolls) != 2 {
		t.Errorf("%d rolls, %v", len(plan.Rolls), err)
	}
}
