package canvas

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
)

// Parts that fit side by side in the width stay within it under every function.
func TestPortionsAreDualFeasible(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		left := 1.0
		sums := make([]float64, measures)
		for left > 1e-3 {
			x := left * r.Float64()
			switch r.IntN(3) {
			case 0: // where the functions jump
				x = float64(1+r.IntN(40)) / float64(1+r.IntN(40))
			case 1:
				x = left
			}
			if x > left {
				continue
			}
			left -= x
			for k, v := range portions(x, nil) {
				sums[k] += v
			}
		}
		for k, s := range sums {
			if s > 1+1e-9 {
				t.Fatalf("function %d: parts of one width add up to %v", k, s)
			}
		}
	}
}

// Slices take up no more than the piece; all of it where its sides run along or
// across the roll, and most of it otherwise.
func TestSlicesOfPieces(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	u := []float64{0, 0, 5, 0, 5, 4, 4, 4, 4, 1, 1, 1, 1, 3, 0, 3}
	sum := func(ring []float64) (area float64) {
		for _, s := range slicesOf(ring, 0) {
			if s.along <= 0 || s.across < 0 {
				t.Fatalf("%v: slice %+v", ring, s)
			}
			area += s.along * s.across
		}
		return area
	}
	if got := sum(u); math.Abs(got-(5+3+2)) > 1e-12 {
		t.Errorf("a U of area 10 has slices of %v", got)
	}
	for range 500 {
		var ring []float64
		n := 3 + r.IntN(8)
		for k := range n { // about a middle
			d := 1 + 4*r.Float64()
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5*r.Float64()) / float64(n))
			ring = append(ring, d*cos, d*sin)
		}
		whole := 0.0
		for k := 0; k < 2*n; k += 2 {
			whole += (ring[k]*ring[(k+3)%(2*n)] - ring[(k+2)%(2*n)]*ring[k+1]) / 2
		}
		if got := sum(ring); got > whole*(1+1e-9) || got < 0.6*whole {
			t.Fatalf("%v of area %v has slices of %v", ring, whole, got)
		}
	}
}

// Bounds that anyone can tell: pieces wider than half the roll lie one after the
// other; no piece is shorter than itself; and pieces need their area.
func TestBoundOfTheObvious(t *testing.T) {
	const m = 1e9 / hundredth
	rect := func(long, wide float64) posture {
		return posture{cut: []float64{0, 0, long * m, 0, long * m, wide * m, 0, wide * m}}
	}
	triangle := posture{cut: []float64{0, 0, m, 0, 0, m}}
	for _, c := range []struct {
		name   string
		l      Lay
		kinds  []kind
		counts []int
		want   float64
	}{
		{"more than half", Lay{}, []kind{{area: 0.3 * m * m, turns: []posture{rect(0.5, 0.6)}}}, []int{4}, 2},
		{"of two kinds", Lay{}, []kind{{area: 0.3 * m * m, turns: []posture{rect(0.5, 0.6)}}, {area: 0.16 * m * m, turns: []posture{rect(0.2, 0.8)}}}, []int{4, 3}, 2.6},
		{"turned as is best", Lay{}, []kind{{area: 0.54 * m * m, turns: []posture{rect(0.9, 0.6), rect(0.6, 0.9)}}}, []int{5}, 3},
		{"turned the other way round", Lay{}, []kind{{area: 0.54 * m * m, turns: []posture{rect(0.6, 0.9), rect(0.9, 0.6)}}}, []int{5}, 3},
		{"too wide one way", Lay{}, []kind{{area: 0.66 * m * m, turns: []posture{rect(0.6, 1.1), rect(1.1, 0.6)}}}, []int{2}, 2.2},
		{"with a gap", Lay{Gap: 10 * milli}, []kind{{area: 0.3 * m * m, turns: []posture{rect(0.5, 0.6)}}}, []int{1}, 0.5},
		{"area", Lay{}, []kind{{area: 0.09 * m * m, turns: []posture{rect(0.3, 0.3)}}}, []int{100}, 100 * 0.3 / 3},
		{"the longest", Lay{}, []kind{{area: 0.03 * m * m, turns: []posture{rect(3, 0.01)}}}, []int{2}, 3},
		{"triangles by area", Lay{}, []kind{{area: 0.5 * m * m, turns: []posture{triangle}}}, []int{6}, 3},
		{"none of one kind", Lay{}, []kind{{area: 0.3 * m * m, turns: []posture{rect(0.5, 0.6)}}, {area: 0.03 * m * m, turns: []posture{rect(3, 0.01)}}}, []int{4, 0}, 2},
	} {
		c.l.Rolls = []Roll{{Width: 1}}
		s := laying{lay: ruled{&c.l, hundredth}, kinds: c.kinds}
		got := s.bound(0, c.counts) / m
		if math.Abs(got-c.want) > 2e-3 {
			t.Errorf("%s: at least %v m, want %v", c.name, got, c.want)
		}
	}
}

// Notches narrower than the gap are no room, and no width twice: pieces as wide as
// the roll lie on it one behind the other, whatever is cut into them.
func TestBoundWithNarrowNotches(t *testing.T) {
	ring := func(mm ...float64) (out []Point) {
		for k := 0; k < len(mm); k += 2 {
			out = append(out, at(mm[k]/1000, mm[k+1]/1000))
		}
		return out
	}
	comb := ring(0, 0, 500, 0, 500, 1000, 0, 1000)
	for y := 950.0; y > 0; y -= 50 {
		comb = append(comb, ring(0, y+1, 400, y+0.5, 400, y-0.5, 0, y-1)...)
	}
	for _, tt := range []struct {
		name string
		cut  []Point
	}{
		{"slit", ring(0, 0, 500, 0, 500, 1000, 0, 1000, 0, 501, 300, 501, 300, 500, 0, 500)},
		{"wedge", ring(0, 0, 500, 0, 500, 1000, 0, 1000, 0, 540, 300, 500, 0, 500)},
		{"comb", comb},
	} {
		for _, gap := range []units.Length{0, 4 * milli, 50 * milli} {
			for _, n := range []int{1, 3} {
				l := Lay{Rolls: []Roll{{Width: 1, Price: 1}}, Gap: gap, Pieces: []Cutting{{Name: tt.name, Cut: tt.cut, Quantity: n}}}
				plan, err := l.Plan(t.Context(), LayOptions{Work: 2000})
				if err != nil {
					t.Errorf("%s, gap %v: %v", tt.name, gap, err)
					continue
				}
				least := units.Length(float64(n) * 0.3) // the fingers
				if u := plan.Rolls[0]; u.Bound > u.Used || u.Bound < least {
					t.Errorf("%d %s, gap %v: no way below %v, %v used", n, tt.name, gap, u.Bound, u.Used)
				}
			}
		}
	}
	offcut := Lay{Rolls: []Roll{{Width: 1, Length: 0.5}}, Gap: 50 * milli, Pieces: []Cutting{{Name: "slit", Cut: ring(0, 0, 500, 0, 500, 1000, 0, 1000, 0, 501, 300, 501, 300, 500, 0, 500)}}}
	if _, err := offcut.Plan(t.Context(), LayOptions{Work: 2000}); err != nil {
		t.Error(err)
	}
}
