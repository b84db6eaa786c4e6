package canvas

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// What is bought and what it costs, by hand.
func TestCostOfALength(t *testing.T) {
	for _, c := range []struct {
		roll         Roll
		used, bought units.Length
		cost         units.Money
	}{
		{Roll{Price: 10}, 1.23, 1.23, 12.3},
		{Roll{Price: 10, Increment: 0.25}, 1.23, 1.25, 12.5},
		{Roll{Price: 10, Increment: 0.25}, 1.25, 1.25, 12.5},
		{Roll{Price: 10, Increment: 0.25}, 1.25 + 1e-12, 1.25, 12.5},
		{Roll{Price: 10, Increment: 0.25}, 1.2501, 1.5, 15},
		{Roll{Price: 10, Increment: 0.25, Length: 1.3}, 1.28, 1.3, 13},
		{Roll{Price: 10, Length: 3}, 1.28, 1.28, 12.8},
		{Roll{Value: 3, Length: 2}, 0.5, 2, 3},
		{Roll{Value: 3, Length: 2, Price: 10}, 0.5, 0.5, 8},
		{Roll{Value: 4}, 0.5, 0.5, 4},
	} {
		bought, cost := (&Lay{}).cost(&c.roll, c.used)
		if math.Abs(float64(bought-c.bought)) > 1e-12 || math.Abs(float64(cost-c.cost)) > 1e-9 {
			t.Errorf("%+v of %+v: %v for %v", c.used, c.roll, bought, cost)
		}
	}
	// Sums of money are compared one after the other, what is alike but for rounding is alike.
	a := expense{1, 2, 3, 4}
	for k, b := range []expense{{1.1, 0, 0, 0}, {1, 2.1, 0, 0}, {1, 2, 3.1, 0}, {1, 2, 3, 4.1}, {1 + 9e-8, 2 + 9e-8, 3 - 9e-8, 4.1}} {
		if !a.less(b) || b.less(a) {
			t.Errorf("%d: %+v and %+v", k, a, b)
		}
	}
	if b := (expense{1 + 9e-8, 2 - 9e-8, 3 + 9e-8, 4 - 9e-8}); a.less(b) || b.less(a) {
		t.Errorf("%+v and %+v differ", a, b)
	}
	if got := a.plus(expense{10, 20, 30, 40}); got != (expense{11, 22, 33, 44}) {
		t.Errorf("%+v", got)
	}
	l := Lay{Rolls: []Roll{{Price: 10, Increment: 1}, {Length: 2, Value: 3}, {Value: 5, Length: 4, Price: 2}}, Pieces: []Cutting{{}}}
	s := &laying{lay: ruled{&l, hundredth}, kinds: []kind{{area: 2e10}}}
	for k, want := range []expense{{0, 10, 5, 0.5}, {0, 3, 3, 0}, {0, 6, 6, 0.5}} {
		if got := s.expense(k, 0.5); got != want {
			t.Errorf("half a metre of roll %d: %+v, want %+v", k, got, want)
		}
	}
	if got := s.expenseOf(nil, []int{3}); math.Abs(got.left-6) > 1e-12 || got.money != 0 {
		t.Errorf("three pieces of 2 m2 left: %+v", got)
	}
}

// A pattern's repeat in units, the remainder within it, and a tolerance less half a
// unit for rounding.
func TestStepsOfAPattern(t *testing.T) {
	for _, c := range []struct {
		repeat    units.Length
		phase     float64
		tolerance units.Length
		want      strip.Steps
	}{
		{0, 123, 1e-3, strip.Steps{}},
		{0.35, 100000.4, 1e-3, strip.Steps{Repeat: 35000, Phase: 30000, Tolerance: 99}},
		{0.35, 34999.6, 0, strip.Steps{Repeat: 35000, Phase: 0, Tolerance: 0}},
		{0.35, 10, 1, strip.Steps{Repeat: 35000, Phase: 10, Tolerance: 35000}},
		{0.35, 10, 1.6e-5, strip.Steps{Repeat: 35000, Phase: 10, Tolerance: 1}},
	} {
		if got := (ruled{nil, hundredth}).steps(c.repeat, c.phase, c.tolerance); got != c.want {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}

// The hull of points is convex and leaves none out.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	cross := func(a, b, c plane.Point) float64 { return b.Sub(a).Cross(c.Sub(a)) }
	for range 300 {
		var points []plane.Point
		for range 3 + r.IntN(12) {
			points = append(points, plane.Point{X: float64(r.IntN(9)), Y: float64(r.IntN(9))})
		}
		out := hull(points)
		if len(out) < 3 {
			continue // all in a line
		}
		for k, a := range out {
			b := out[(k+1)%len(out)]
			if cross(a, b, out[(k+2)%len(out)]) <= 0 || !slices.Contains(points, a) {
				t.Fatalf("%v of %v is not convex at %v", out, points, b)
			}
			for _, p := range points {
				if cross(a, b, p) < 0 {
					t.Fatalf("%v of %v leaves %v out", out, points, p)
				}
			}
		}
	}
}

// Flaws on the cloth between the selvedges, in units from half a gap outside it, with
// what lies off the cloth cut away.
func TestFlawsOnTheCloth(t *testing.T) {
	for name, c := range map[string]struct {
		flaw                           []Point
		left, right, low, high, within float64 // m, on the cloth; NaN where it is left out
	}{
		"inside":          {rectangleAt(0.6, 0.2, 0.1, 0.05), 0.6, 0.7, 0.2, 0.25, 3e-5},
		"clockwise":       {[]Point{{0.6, 0.2}, {0.6, 0.25}, {0.7, 0.25}, {0.7, 0.2}}, 0.6, 0.7, 0.2, 0.25, 3e-5},
		"over the edge":   {rectangleAt(0.6, 0.45, 0.1, 0.2), 0.6, 0.7, 0.45, 0.492, 5e-5},
		"below":           {rectangleAt(0.6, -0.1, 0.1, 0.2), 0.6, 0.7, 0.008, 0.1, 5e-5},
		"before the end":  {rectangleAt(-0.3, 0.2, 0.35, 0.1), -0.002, 0.05, 0.2, 0.3, 5e-5},
		"in the selvedge": {rectangleAt(0.3, 0, 0.1, 0.007), math.NaN(), 0, 0, 0, 0},
		"beside the roll": {rectangleAt(0.3, 0.6, 0.1, 0.1), math.NaN(), 0, 0, 0, 0},
	} {
		l := Lay{Rolls: []Roll{{Width: 0.5, Selvedge: 0.01, Flaws: []Flaw{{Outline: c.flaw}}}}, Gap: 4e-3}
		in := ruled{&l, hundredth}
		got, err := in.flaws(0)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if math.IsNaN(c.left) {
			if len(got) != 0 {
				t.Errorf("%s: %v", name, got)
			}
			continue
		}
		if len(got) != 1 {
			t.Fatalf("%s: %v", name, got)
		}
		x0, x1, y0, y1 := box(got[0])
		// The origin of what is laid is half a gap before the end and below the selvedge.
		for k, d := range [][2]float64{{c.left + 0.002, float64(in.length(float64(x0)))}, {c.low - 0.01 + 0.002, float64(in.length(float64(y0)))}, {float64(in.length(float64(x1))), c.right + 0.002}, {float64(in.length(float64(y1))), c.high - 0.01 + 0.002}} {
			if out := d[0] - d[1]; out < -1e-9 && c.within < 4e-5 || out < -c.within || out > c.within {
				t.Errorf("%s: side %d of %v is %v m outside", name, k, got[0], out)
			}
		}
	}
}

func rectangleAt(x, y, w, h units.Length) []Point {
	return []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// Rectangles along the roll are told from others, and their quarter turns.
func TestRectanglesAreTold(t *testing.T) {
	rect := []int64{0, 0, 30, 0, 30, 20, 0, 20}
	turned := []int64{5, 5, 5, 35, -15, 35, -15, 5}
	grid := strip.Grid{X: strip.Steps{Repeat: 10}}
	for name, c := range map[string]struct {
		p    strip.Problem
		ok   bool
		turn bool
	}{
		"one":            {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect}, Count: 2}}}, true, false},
		"half a turn":    {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect, rect}, Count: 2}}}, true, false},
		"a quarter turn": {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect, turned}, Count: 2}}}, true, true},
		"another size":   {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect, {0, 0, 30, 0, 30, 21, 0, 21}}, Count: 2}}}, false, false},
		"a flaw":         {strip.Problem{Width: 50, Flaws: [][]int64{rect}, Shapes: []strip.Shape{{Turns: [][]int64{rect}}}}, false, false},
		"a pattern":      {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect}, Grids: []strip.Grid{grid}}}}, false, false},
		"a triangle":     {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{rect[:6]}}}}, false, false},
		"askew":          {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{{0, 0, 30, 1, 29, 21, -1, 20}}}}}, false, false},
		"a bow tie":      {strip.Problem{Width: 50, Shapes: []strip.Shape{{Turns: [][]int64{{0, 0, 30, 20, 30, 0, 0, 20}}}}}, false, false},
	} {
		got, ok := rectangles(c.p)
		if ok != c.ok {
			t.Errorf("%s: %v", name, ok)
		}
		if ok && (got.Width != 50 || len(got.Pieces) != 1 || got.Pieces[0].Along != 30 || got.Pieces[0].Across != 20 || got.Pieces[0].Count != 2 || got.Pieces[0].Turn != c.turn) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Portions of the width by their definitions in the paper: u_k(x) = (ceil((k+1) x) - 1)/k
// between the jumps, and of U_e all, nothing or x.
func TestPortionsByDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 2000 {
		x := r.Float64() * 1.02
		near := func(at float64) bool { return math.Abs(x-at) < 1e-8 }
		got := portions(x, nil)
		if len(got) != measures || math.Abs(got[0]-x) > 1.1e-9 || got[0] > x {
			t.Fatalf("%v: %v", x, got)
		}
		for k := 1; k <= 12; k++ {
			jump := math.Round(float64(k+1) * x)
			if near(jump / float64(k+1)) {
				continue
			}
			if want := (math.Ceil(float64(k+1)*x) - 1) / float64(k); math.Abs(got[k]-want) > 1e-12 {
				t.Fatalf("u_%d(%v) = %v, want %v", k, x, got[k], want)
			}
		}
		for m := 1; m <= 10; m++ {
			e := float64(m) / 20
			want := x
			switch {
			case near(e) || near(1-e):
				continue
			case x > 1-e:
				want = 1
			case x < e:
				want = 0
			}
			if math.Abs(got[12+m]-want) > 1.1e-9 {
				t.Fatalf("U of %v (%v) = %v, want %v", e, x, got[12+m], want)
			}
		}
	}
	// Where a function jumps it has its lower value, so that what just fits counts as fitting.
	for k := 1; k <= 12; k++ {
		if got := portions(1/float64(k+1), nil)[k]; got != 0 {
			t.Errorf("u_%d(1/%d) = %v", k, k+1, got)
		}
	}
	if got := portions(0.75, nil)[12+5]; math.Abs(got-0.75) > 2e-9 {
		t.Errorf("U_1/4(3/4) = %v", got)
	}
}

// Slices of a triangle are as wide as it is at their narrow ends; a parallelogram
// is as wide everywhere.
func TestSlicesByHand(t *testing.T) {
	got := slicesOf([]float64{0, 0, 400, 0, 400, 200}, 0)
	want := []slice{{100, 0}, {100, 50}, {100, 100}, {100, 150}}
	if !slices.Equal(got, want) {
		t.Errorf("a triangle: %v, want %v", got, want)
	}
	sum := 0.0
	for _, s := range slicesOf([]float64{0, 0, 400, 100, 400, 150, 0, 50}, 0) {
		sum += s.along
		if math.Abs(s.across-50) > 1e-12 {
			t.Errorf("a parallelogram: %v", s)
		}
	}
	if math.Abs(sum-400) > 1e-12 {
		t.Errorf("%v long", sum)
	}
	// Two legs are two stretches of cloth.
	legs := 0.0
	for _, s := range slicesOf([]float64{0, 0, 100, 0, 100, 80, 0, 80, 0, 50, 60, 50, 60, 30, 0, 30}, 0) {
		if s.across == 30 {
			legs += s.along
		} else if s.across != 80 {
			t.Errorf("%v", s)
		}
	}
	if math.Abs(legs-120) > 1e-12 {
		t.Errorf("legs of %v", legs)
	}
}

// The bound on cost of one measure against the linear programme that it bounds:
// never above it, equal where there is one offcut, and near it with two.
func TestDualAgainstLinearProgramme(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	near, equal, tried := 0.0, 0, 0
	for range 400 {
		rolls := 2 + r.IntN(2)
		kinds := 2 + r.IntN(4)
		l := Lay{Pieces: make([]Cutting, kinds)}
		s := &laying{lay: ruled{&l, hundredth}}
		price, room := make([]float64, rolls), make([]float64, rolls)
		for i := range rolls {
			l.Rolls = append(l.Rolls, Roll{Width: 1})
			price[i] = 5 + 10*r.Float64()
			if i > 0 {
				price[i], room[i] = 3*r.Float64(), 1+4*r.Float64()
			}
		}
		s.prints = make([][]*footprint, rolls)
		takes := make([][]float64, kinds)
		for k := range kinds {
			s.kinds = append(s.kinds, kind{count: 1 + r.IntN(4)})
			takes[k] = make([]float64, rolls)
			for i := range rolls {
				takes[k][i] = 0.1 + r.Float64()
				if i > 0 && r.IntN(4) == 0 {
					takes[k][i] = math.Inf(1) // it does not fit there
				}
			}
		}
		for i := range rolls {
			s.prints[i] = make([]*footprint, kinds)
			for k := range kinds {
				f := &footprint{fits: !math.IsInf(takes[k][i], 1)}
				if f.fits {
					f.takes[3] = takes[k][i]
				}
				s.prints[i][k] = f
			}
		}
		all := make([]int, rolls)
		for i := range all {
			all[i] = i
		}
		got := s.dual(all, price, room, 3)
		// Parts x(k, i) of the pieces: least price x takes, all parts of a kind are its
		// count, what an offcut takes is no more than its room (with a slack).
		var c []float64
		var rows [][]float64
		var b []float64
		type variable struct{ k, i int }
		var vars []variable
		for k := range kinds {
			for i := range rolls {
				if !math.IsInf(takes[k][i], 1) {
					vars = append(vars, variable{k, i})
					c = append(c, price[i]*takes[k][i])
				}
			}
		}
		n := len(vars) + rolls - 1
		for k := range kinds {
			row := make([]float64, n)
			for v, at := range vars {
				if at.k == k {
					row[v] = 1
				}
			}
			rows, b = append(rows, row), append(b, float64(s.kinds[k].count))
		}
		for i := 1; i < rolls; i++ {
			row := make([]float64, n)
			for v, at := range vars {
				if at.i == i {
					row[v] = takes[at.k][i]
				}
			}
			row[len(vars)+i-1] = 1
			rows, b = append(rows, row), append(b, room[i])
		}
		c = append(c, make([]float64, rolls-1)...)
		a := mat.NewDense(len(rows), n, nil)
		for i, row := range rows {
			a.SetRow(i, row)
		}
		want, _, err := lp.Simplex(c, a, b, 1e-10, nil)
		if err != nil {
			continue
		}
		tried++
		if got > want*(1+1e-9) {
			t.Fatalf("bound %v, the least cost is %v", got, want)
		}
		if math.Abs(got-want) < 1e-9*want {
			equal++
		} else if rolls == 2 {
			t.Errorf("one offcut: bound %v, the least cost is %v", got, want)
		}
		near += got / want
	}
	if tried < 350 || near/float64(tried) < 0.98 || equal < tried*9/10 {
		t.Errorf("%d tried, %d equal, %.4f on average", tried, equal, near/float64(tried))
	}
}

// Bounds on the cost, by hand: pieces more than half as wide as the roll lie one
// after the other.
func TestLeastCostByHand(t *testing.T) {
	wide := Cutting{Name: "wide", Cut: rectangle(1, 0.6), Quantity: 5, Lie: OneWay}
	for name, c := range map[string]struct {
		rolls []Roll
		want  units.Money
	}{
		"by the metre":                 {[]Roll{{Width: 1, Price: 10}}, 50},
		"by threes":                    {[]Roll{{Width: 1, Price: 10, Increment: 3}}, 60},
		"of two the cheaper":           {[]Roll{{Width: 1, Price: 10}, {Width: 1.1, Price: 9}}, 45},
		"two beside one another":       {[]Roll{{Width: 1, Price: 10}, {Width: 1.2, Price: 15}}, 37.5},
		"an offcut for two":            {[]Roll{{Width: 1, Price: 10}, {Width: 1, Length: 2, Value: 3}}, 33},
		"an offcut too dear":           {[]Roll{{Width: 1, Price: 10}, {Width: 1, Length: 2, Value: 30}}, 50},
		"an offcut too narrow":         {[]Roll{{Width: 1, Price: 10}, {Width: 0.5, Length: 2}}, 50},
		"an offcut too short":          {[]Roll{{Width: 1, Price: 10}, {Width: 1, Length: 0.9}}, 50},
		"a short end sold by length":   {[]Roll{{Width: 1, Price: 10}, {Width: 1, Length: 2, Price: 4}}, 38},
		"seven rolls, values by parts": {append([]Roll{{Width: 1, Price: 10}}, slices.Repeat([]Roll{{Width: 1, Length: 1, Value: 2}}, 6)...), 10},
		"not enough":                   {[]Roll{{Width: 1, Length: 4.5, Value: 1}}, 0},
		"just enough":                  {[]Roll{{Width: 1, Length: 5, Value: 1}}, 1},
	} {
		l := Lay{Rolls: c.rolls, Pieces: []Cutting{wide}}
		kinds, err := l.ruled().kinds()
		if err != nil {
			t.Fatal(err)
		}
		s := &laying{lay: l.ruled(), kinds: kinds}
		if got := s.leastCost(); math.Abs(float64(got-c.want)) > 1e-6 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// The rest is the largest rectangle at the end of what was bought, by hand.
func TestRestByHand(t *testing.T) {
	for name, c := range map[string]struct {
		roll   Roll
		gap    units.Length
		pieces []Point // corners of rectangles of 0.5 by 0.25 m on the roll
		bought units.Length
		want   Rest
	}{
		"beside":             {Roll{Width: 1}, 0, []Point{{}}, 0.5, Rest{From: Point{Y: 0.25}, Length: 0.5, Width: 0.75}},
		"behind":             {Roll{Width: 1}, 0, []Point{{}}, 3, Rest{From: Point{X: 0.5}, Length: 2.5, Width: 1}},
		"above, not behind":  {Roll{Width: 1}, 0, []Point{{}, {X: 0.5}}, 1.1, Rest{From: Point{Y: 0.25}, Length: 1.1, Width: 0.75}},
		"between":            {Roll{Width: 1}, 0, []Point{{}, {Y: 0.75}}, 0.6, Rest{From: Point{Y: 0.25}, Length: 0.6, Width: 0.5}},
		"selvedges and gaps": {Roll{Width: 1.02, Selvedge: 0.01}, 0, []Point{{Y: 0.01}}, 0.5, Rest{From: Point{Y: 0.26}, Length: 0.5, Width: 0.75}},
		"none":               {Roll{Width: 0.25}, 0, []Point{{}}, 0.5, Rest{}},
		"a flaw farther on":  {Roll{Width: 1, Flaws: []Flaw{{Outline: rectangleAt(0.9, 0, 0.1, 1)}}}, 0, []Point{{}}, 0.9, Rest{From: Point{Y: 0.25}, Length: 0.9, Width: 0.75}},
		"a flaw":             {Roll{Width: 1, Flaws: []Flaw{{Outline: rectangleAt(0.9, 0, 0.1, 1)}}}, 0, []Point{{}}, 3, Rest{From: Point{X: 1}, Length: 2, Width: 1}},
	} {
		l := ruled{&Lay{Rolls: []Roll{c.roll}, Gap: c.gap}, hundredth}
		s := CertifiedSheet{Width: l.width(&c.roll)}
		for _, p := range c.pieces {
			s.Pieces = append(s.Pieces, CertifiedPiece{Outline: []int64{0, 0, 50000, 0, 50000, 25000, 0, 25000}, X: int64(l.of(p.X)), Y: int64(l.of(p.Y - c.roll.Selvedge))})
		}
		for _, f := range c.roll.Flaws {
			var ring []int64
			for _, q := range f.Outline {
				ring = append(ring, int64(l.of(q.X)), int64(l.of(q.Y)))
			}
			s.Flaws = append(s.Flaws, ring)
		}
		got := l.rest(&c.roll, s, c.bought)
		d := math.Max(math.Max(math.Abs(float64(got.From.X-c.want.From.X)), math.Abs(float64(got.From.Y-c.want.From.Y))), math.Max(math.Abs(float64(got.Length-c.want.Length)), math.Abs(float64(got.Width-c.want.Width))))
		if d > 1e-9 {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
	// In the corner beside a triangle a rectangle of half its sides.
	half := ruled{&Lay{Rolls: []Roll{{Width: 1}}}, hundredth}
	beside := CertifiedSheet{Width: half.width(&half.Rolls[0]), Pieces: []CertifiedPiece{{Outline: []int64{0, 0, 100000, 0, 0, 100000}}}}
	if got, want := half.rest(&half.Rolls[0], beside, 1), (Rest{From: Point{X: 0.5, Y: 0.5}, Length: 0.5, Width: 0.5}); math.Abs(float64(got.From.X-want.From.X)) > 1e-9 || math.Abs(float64(got.From.Y-want.From.Y)) > 1e-9 || math.Abs(float64(got.Length*got.Width)-0.25) > 1e-9 {
		t.Errorf("%+v, want %+v", got, want)
	}
	// With a gap, the rest begins a gap behind the pieces, and ends at the selvedges.
	l := ruled{&Lay{Rolls: []Roll{{Width: 0.5}}, Gap: 0.01}, hundredth}
	s := CertifiedSheet{Width: l.width(&l.Rolls[0]), Pieces: []CertifiedPiece{{Outline: []int64{0, 0, 51000, 0, 51000, 51000, 0, 51000}}}}
	got := l.rest(&l.Rolls[0], s, 2)
	if math.Abs(float64(got.From.X)-0.505) > 1e-9 || got.From.Y != 0 || math.Abs(float64(got.Width)-0.5) > 1e-9 || math.Abs(float64(got.From.X+got.Length)-2) > 1e-9 {
		t.Errorf("%+v", got)
	}
}

// The angles that a piece may have: as stated, and for any way those that lay its
// long sides along the roll or across it.
func TestTurnsOfAPiece(t *testing.T) {
	p := Cutting{Cut: []Point{{}, {X: 1}, {0.3, 0.4}}, Grain: 0.2}
	if got := p.turns(); !slices.Equal(got, []units.Angle{0, math.Pi}) {
		t.Errorf("%v", got)
	}
	p.Lie = OneWay
	if got := p.turns(); !slices.Equal(got, []units.Angle{0}) {
		t.Errorf("%v", got)
	}
	p.Lie, p.Turns = Listed, []units.Angle{0.3, 7}
	if got := p.turns(); !slices.Equal(got, p.Turns) {
		t.Errorf("%v", got)
	}
	p.Lie = AnyWay
	got := p.turns()
	for k := range 24 {
		if got[k] != units.Angle(float64(k)*math.Pi/12) {
			t.Errorf("%v", got[k])
		}
	}
	if len(got) != 24+3*4 {
		t.Errorf("%d turns, want 24 and four for each side", len(got))
	}
	for _, turn := range got[24:] {
		if turn < 0 || turn >= 2*math.Pi {
			t.Errorf("%v", turn)
		}
		along := false
		flat := ruled{nil, hundredth}.place(&p, p.Cut, turn, false)
		for k := 0; k < 6; k += 2 {
			dx, dy := math.Abs(flat[k]-flat[(k+2)%6]), math.Abs(flat[k+1]-flat[(k+3)%6])
			along = along || dx < 1e-3 || dy < 1e-3
		}
		if !along {
			t.Errorf("at %v no side lies along the roll or across it: %v", turn, flat)
		}
	}
	// Sides shorter than three tenths of the piece give none, nor do many corners more than 64.
	p.Cut = []Point{{}, {X: 1}, {1.02, 0.29}, {0.1, 0.31}}
	if got := p.turns(); len(got) >= 24+4*4 {
		t.Errorf("%d turns", len(got))
	}
	var ring []Point
	for k := range 40 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 40)
		ring = append(ring, Point{units.Length(cos), units.Length(sin)}, Point{units.Length(3 * cos), units.Length(3 * sin)})
	}
	p.Cut = ring
	if got := p.turns(); len(got) > 64 || len(got) < 60 {
		t.Errorf("%d turns of a star", len(got))
	}
	// Only the check's own directions are ones that a piece may have.
	for _, c := range []struct {
		lie  Lie
		turn float64
		ok   bool
	}{
		{EitherWay, 0, true},
		{EitherWay, math.Pi, true},
		{EitherWay, -math.Pi, true},
		{EitherWay, 2 * math.Pi, true},
		{EitherWay, math.Pi / 2, false},
		{EitherWay, 1e-6, false},
		{OneWay, 0, true},
		{OneWay, math.Pi, false},
		{OneWay, 2 * math.Pi, true},
		{Listed, 0.3, true},
		{Listed, 0.3 + 2*math.Pi, true},
		{Listed, 7, true},
		{Listed, 7 - 2*math.Pi, true},
		{Listed, 0, false},
		{AnyWay, 1.234, true},
		{AnyWay, math.NaN(), false},
		{AnyWay, math.Inf(1), false},
	} {
		p := Cutting{Lie: c.lie, Turns: []units.Angle{0.3, 7}}
		if got := p.mayTurn(units.Angle(c.turn)); got != c.ok {
			t.Errorf("%+v: %v", c, got)
		}
	}
	for _, c := range []struct {
		at                      float64 // nm
		repeat, rest, tolerance units.Length
		ok                      bool
	}{
		{123, 0, 0, 0, true},
		{0.75e9, 0.35, 0.05, 0, true},
		{0.75e9 + 5010, 0.35, 0.05, 0, true},
		{0.75e9 + 5011, 0.35, 0.05, 0, false},
		{0.75e9 - 5011, 0.35, 0.05, 0, false},
		{0.75e9 + 1000009, 0.35, 0.05, 1e-3, true},
		{0.75e9 + 1000011, 0.35, 0.05, 1e-3, false},
		{0.7e9, 0.35, 0.05, 1e-3, false},
	} {
		if got := onRepeat(c.at, c.repeat, c.rest, c.tolerance); got != c.ok {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// exchangeOf is work on rolls of which some pieces are laid; kinds are rectangles as
// wide as all rolls.
func exchangeOf(t *testing.T, rolls []Roll, lengths []units.Length, counts []int) *laying {
	t.Helper()
	l := Lay{Rolls: rolls}
	for i, long := range lengths {
		l.Pieces = append(l.Pieces, Cutting{Name: fmt.Sprint(i), Cut: rectangle(long, 1), Quantity: counts[i], Lie: OneWay})
	}
	kinds, err := l.ruled().kinds()
	if err != nil {
		t.Fatal(err)
	}
	return &laying{ctx: t.Context(), lay: l.ruled(), kinds: kinds, options: LayOptions{Work: 100_000}, flaws: make([][][]int64, len(rolls)), circles: &strip.Circles{}}
}

// An offcut is filled with the largest pieces first, for as long as they fit.
func TestFillTakesTheLargestFirst(t *testing.T) {
	for _, c := range []struct {
		long   units.Length
		counts []int
		want   []int
	}{
		{2, []int{1, 1, 1}, []int{1, 1, 0}}, // 1.2 + 0.7
		{2.4, []int{1, 1, 1}, []int{1, 1, 1}},
		{1.7, []int{1, 1, 1}, []int{1, 0, 1}},
		{2.4, []int{3, 3, 3}, []int{2, 0, 0}},
		{1.1, []int{3, 0, 3}, []int{0, 0, 2}},
		{1.9, []int{3, 1, 3}, []int{1, 1, 0}},
		{0.4, []int{1, 1, 1}, nil},
	} {
		s := exchangeOf(t, []Roll{{Width: 1, Length: c.long}}, []units.Length{1.2, 0.7, 0.5}, []int{3, 3, 3})
		got, err := s.fill(0, c.counts, strip.Options{Work: 1000})
		if err != nil {
			t.Fatal(err)
		}
		if c.want == nil {
			if got != nil {
				t.Errorf("%+v: %v", c, got.counts)
			}
			continue
		}
		if got == nil || !slices.Equal(got.counts, c.want) {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}

// Pieces go on the roll that is cheapest for them, and on others if they do not fit.
func TestEndlessRolls(t *testing.T) {
	narrow, wide := Roll{Name: "narrow", Width: 1, Price: 1}, Roll{Name: "wide", Width: 2, Price: 10}
	broad := Cutting{Name: "broad", Cut: rectangle(1, 1.5), Lie: OneWay}
	small := Cutting{Name: "small", Cut: rectangle(1, 0.9), Lie: OneWay}
	for name, c := range map[string]struct {
		rolls []Roll
		cost  float64
		on    map[string][]int
		left  []int
	}{
		"each on its own":   {[]Roll{narrow, wide}, 11, map[string][]int{"narrow": {0, 1}, "wide": {1, 0}}, []int{0, 0}},
		"the other order":   {[]Roll{wide, narrow}, 11, map[string][]int{"narrow": {0, 1}, "wide": {1, 0}}, []int{0, 0}},
		"the wide one":      {[]Roll{wide}, 20, map[string][]int{"wide": {1, 1}}, []int{0, 0}},
		"one too narrow":    {[]Roll{narrow}, 1, map[string][]int{"narrow": {0, 1}}, []int{1, 0}},
		"nothing but ends":  {[]Roll{{Width: 2, Length: 3}}, 0, nil, []int{1, 1}},
		"the wide is cheap": {[]Roll{narrow, {Name: "wide", Width: 2, Price: 0.4}}, 0.8, map[string][]int{"wide": {1, 1}}, []int{0, 0}},
	} {
		l := Lay{Rolls: c.rolls, Pieces: []Cutting{broad, small}}
		kinds, err := l.ruled().kinds()
		if err != nil {
			t.Fatal(err)
		}
		s := &laying{ctx: t.Context(), lay: l.ruled(), kinds: kinds, options: LayOptions{Work: 100_000}, flaws: make([][][]int64, len(c.rolls)), circles: &strip.Circles{}}
		sheets, left, err := s.endless([]int{1, 1}, strip.Options{Work: 1000})
		if err != nil {
			t.Fatal(err)
		}
		if got := s.expenseOf(sheets, nil).money; math.Abs(got-c.cost) > 1e-6 || !slices.Equal(left, c.left) || len(sheets) != len(c.on) {
			t.Errorf("%s: %v, %v left, %d rolls", name, got, left, len(sheets))
		}
		for _, u := range sheets {
			if want := c.on[l.Rolls[u.roll].Name]; !slices.Equal(u.counts, want) {
				t.Errorf("%s: %v on %s, want %v", name, u.counts, l.Rolls[u.roll].Name, want)
			}
		}
	}
}

// Moves are all of one piece, of all of a kind, of all there is, and one against
// another; those that are made save money and lose no piece.
func TestMovesBetweenRolls(t *testing.T) {
	s := exchangeOf(t, []Roll{{Width: 1, Price: 10}, {Width: 1, Length: 2, Value: 3}, {Width: 1, Length: 1, Value: 1}}, []units.Length{1.2, 0.7, 0.5}, []int{2, 3, 1})
	x := &exchange{laying: s, on: make([]*filled, 3), left: []int{0, 1, 0}, quick: strip.Options{Work: 1000}, known: map[string]*filled{}}
	x.on[0] = &filled{roll: 0, counts: []int{2, 2, 0}}
	x.on[1] = &filled{roll: 1, counts: []int{0, 0, 1}}
	for _, u := range x.on[:2] {
		if ok, err := s.solve(u, strip.Options{Work: 1000}); err != nil || !ok {
			t.Fatal(ok, err)
		}
	}
	var got []string
	for _, m := range x.moves() {
		got = append(got, fmt.Sprint(m))
	}
	// By hand: from what is left (one piece of kind 1), from roll 0 (two kinds of two), from roll 1 (one piece).
	want := []string{
		"{-1 0 [0 1 0]}", "{-1 0 [-1 1 0]}", "{-1 1 [0 1 0]}", "{-1 1 [0 1 -1]}", "{-1 2 [0 1 0]}",
		"{0 1 [1 0 0]}", "{0 1 [2 0 0]}", "{0 1 [1 0 -1]}", "{0 1 [0 1 0]}", "{0 1 [0 2 0]}", "{0 1 [0 1 -1]}", "{0 1 [2 2 0]}",
		"{0 2 [1 0 0]}", "{0 2 [2 0 0]}", "{0 2 [0 1 0]}", "{0 2 [0 2 0]}", "{0 2 [2 2 0]}",
		"{1 0 [0 0 1]}", "{1 0 [-1 0 1]}", "{1 0 [0 -1 1]}", "{1 2 [0 0 1]}",
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	r := rand.New(rand.NewPCG(1, 1))
	some := 0
	for range 2000 {
		m, ok := x.some(r)
		if !ok {
			continue
		}
		some++
		for k, n := range m.counts {
			if m.from == m.to || n > x.at(m.from)[k] || -n > x.at(m.to)[k] {
				t.Fatalf("%+v moves what is not there", m)
			}
		}
	}
	if some < 1000 {
		t.Errorf("%d moves", some)
	}
	// Whatever is moved, nothing is lost and nothing gets dearer.
	total := func() (counts []int, e expense) {
		counts, e = slices.Clone(x.left), s.expenseOf(nil, x.left)
		for roll, u := range x.on {
			if u == nil {
				continue
			}
			e = e.plus(s.expense(roll, s.used(*u)))
			long := 0.0
			for k, n := range u.counts {
				counts[k] += n
				long += float64(n) * []float64{1.2, 0.7, 0.5}[k]
			}
			if end := s.lay.Rolls[roll].Length; end > 0 && long > float64(end)+1e-9 || math.Abs(float64(s.used(*u))-long) > 1e-4 {
				t.Fatalf("%v on roll %d use %v", u.counts, roll, s.used(*u))
			}
		}
		return counts, e
	}
	made := 0
	for range 3000 {
		m, ok := x.some(r)
		if all := x.moves(); !ok && len(all) > 0 {
			m, ok = all[r.IntN(len(all))], true
		}
		if !ok {
			continue
		}
		before, was := total()
		done, err := x.try(m)
		if err != nil {
			t.Fatal(err)
		}
		after, now := total()
		if !slices.Equal(before, after) || done != now.less(was) {
			t.Fatalf("%+v: %v, %v to %v, %+v to %+v", m, done, before, after, was, now)
		}
		if done {
			made++
		}
	}
	// In the end: of 2 x 1.2, 3 x 0.7 and 0.5 m, the offcuts of 2 m and 1 m cost 4 together and
	// save 10 a metre. By all ways to divide them, what is bought of the roll is least.
	least := math.Inf(1)
	for a := range 3 {
		for b := range 4 {
			for c := range 2 {
				for d := range 3 - a {
					for e := range 4 - b {
						for f := range 2 - c {
							one, two := 1.2*float64(a)+0.7*float64(b)+0.5*float64(c), 1.2*float64(d)+0.7*float64(e)+0.5*float64(f)
							if one > 2 || two > 1 {
								continue
							}
							cost := 10 * (2*1.2 + 3*0.7 + 0.5 - one - two)
							if one > 0 {
								cost += 3
							}
							if two > 0 {
								cost++
							}
							least = math.Min(least, cost)
						}
					}
				}
			}
		}
	}
	if _, e := total(); math.Abs(e.money-least) > 1e-2 || e.left > 0 || made == 0 {
		t.Errorf("%d moves made: %+v, all ways give %v", made, e, least)
	}
}

// A roll's layout with fewer pieces is what is left of it, nothing if some are more;
// what is sure not to fit is not tried.
func TestLayoutsWithFewerPieces(t *testing.T) {
	s := exchangeOf(t, []Roll{{Width: 1}, {Width: 1, Length: 2.5}}, []units.Length{1.2, 0.7, 0.5}, []int{2, 3, 1})
	x := &exchange{laying: s}
	whole := &filled{counts: []int{1, 2, 1}}
	if ok, err := s.solve(whole, strip.Options{Work: 1000}); err != nil || !ok {
		t.Fatal(ok, err)
	}
	_, before := s.problem(0, whole.counts)
	for _, counts := range [][]int{{1, 2, 1}, {0, 2, 1}, {1, 0, 1}, {0, 1, 0}, {1, 1, 0}} {
		got := x.without(whole, counts)
		if got == nil || got.Length != whole.layout.Length {
			t.Fatalf("%v: %+v", counts, got)
		}
		_, of := s.problem(0, counts)
		have := make([]int, 3)
		for _, at := range got.Places {
			k := of[at.Shape]
			have[k]++
			if !slices.ContainsFunc(whole.layout.Places, func(b strip.Place) bool {
				return before[b.Shape] == k && b.X == at.X && b.Y == at.Y && b.Turn == at.Turn
			}) {
				t.Errorf("%v: %+v lay elsewhere", counts, at)
			}
		}
		if !slices.Equal(have, counts) {
			t.Errorf("%v: %v", counts, have)
		}
	}
	for _, counts := range [][]int{{2, 0, 0}, {0, 3, 0}} {
		if got := x.without(whole, counts); got != nil {
			t.Errorf("%v: %+v", counts, got)
		}
	}
	for _, c := range []struct {
		roll   int
		counts []int
		over   bool
	}{{1, []int{1, 1, 1}, false}, {1, []int{2, 0, 0}, false}, {1, []int{2, 0, 1}, true}, {1, []int{1, 2, 0}, true}, {0, []int{9, 9, 9}, false}} {
		if got := s.over(&filled{roll: c.roll, counts: c.counts}); got != c.over {
			t.Errorf("%+v: %v", c, got)
		}
	}
	// What a roll of this length takes is laid, what it does not is not.
	for _, c := range []struct {
		counts []int
		ok     bool
	}{{[]int{1, 1, 1}, true}, {[]int{2, 0, 0}, true}, {[]int{2, 1, 0}, false}} {
		u := &filled{roll: 1, counts: c.counts}
		if ok, err := s.solve(u, strip.Options{Work: 1000}); err != nil || ok != c.ok {
			t.Errorf("%v: %v, %v", c.counts, ok, err)
		} else if used := s.used(*u); ok && math.Abs(float64(used)-[]float64{2.4, 2.4}[c.counts[0]-1]) > 1e-9 {
			t.Errorf("%v use %v", c.counts, used)
		}
	}
	// A start that is as short is kept; a shorter length is told.
	p, of := s.problem(0, []int{1, 0, 1})
	r, ok := rectangles(p)
	if !ok {
		t.Fatal("no rectangles")
	}
	told := int64(0)
	got, bound, err := s.rectangles(0, p, of, r, strip.Options{Work: 1000, Progress: func(length, work int64) { told = length }})
	if err != nil || got.Layout.Length != 170_000 || bound != 170_000 || told != 170_000 || len(got.Layout.Places) != 2 {
		t.Errorf("%+v, bound %v, told %d, %v", got.Layout, bound, told, err)
	}
	told = 0
	start := &strip.Layout{Length: 170_000, Places: []strip.Place{{Shape: 1}, {Shape: 0, X: 50_000}}}
	got, _, err = s.rectangles(0, p, of, r, strip.Options{Work: 1000, Start: start, Progress: func(length, work int64) { told = length }})
	if err != nil || !slices.Equal(got.Layout.Places, start.Places) || told != 0 {
		t.Errorf("%+v, told %d, %v", got.Layout, told, err)
	}
	p.End = 169_999
	if _, _, err := s.rectangles(0, p, of, r, strip.Options{Work: 1000}); err == nil {
		t.Error("beyond the end")
	}
}
