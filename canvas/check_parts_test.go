package canvas

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
)

// outlinesApart is the least distance of the edges of two outlines, 0 where they cross.
func outlinesApart(p, q []Point) float64 {
	least := math.Inf(1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			d := q[(j+1)%len(q)]
			if sign(a, b, c)*sign(a, b, d) <= 0 && sign(c, d, a)*sign(c, d, b) <= 0 && sign(a, b, c) != sign(a, b, d) {
				return 0
			}
			for _, e := range [][3]Point{{a, c, d}, {b, c, d}, {c, a, b}, {d, a, b}} {
				ux, uy := float64(e[2].X-e[1].X), float64(e[2].Y-e[1].Y)
				vx, vy := float64(e[0].X-e[1].X), float64(e[0].Y-e[1].Y)
				t := max(0, min(1, (ux*vx+uy*vy)/(ux*ux+uy*uy)))
				least = min(least, math.Hypot(vx-t*ux, vy-t*uy))
			}
		}
	}
	return least
}

// An outline holds another with a gap all round if it does and no edges are nearer.
func TestHoldsWithAGap(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 4))
	held, not := 0, 0
	for range 150 {
		var outer []Point // about a middle
		n := 5 + r.IntN(8)
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.4*r.Float64()) / float64(n))
			d := 0.04 + 0.03*r.Float64()
			outer = append(outer, at(math.Round(1e6*d*cos)/1e6, math.Round(1e6*d*sin)/1e6))
		}
		inner := randomSimple(r, 3+r.IntN(5), 40)
		x, y := units.Length(0.03+0.02*r.Float64()), units.Length(0.03+0.02*r.Float64())
		for k := range inner {
			inner[k].X, inner[k].Y = inner[k].X-x, inner[k].Y-y
		}
		one, two := flawRing(Flaw{Outline: outer}), flawRing(Flaw{Outline: inner})
		gap := 0.006 * r.Float64()
		d := outlinesApart(outer, inner)
		if math.Abs(d-gap) < 2e-8 || d == 0 && gap < 2e-8 {
			continue
		}
		want := d > gap && heldSlowly(outer, inner)
		if got := one.holds(&two, gap*1e9); got != want {
			t.Fatalf("%v holds %v by %v: %v, they are %v apart", outer, inner, gap, got, d)
		}
		if want {
			held++
		} else {
			not++
		}
	}
	if held < 8 || not < 8 {
		t.Errorf("%d held, %d not", held, not)
	}
}

// On which side of a line a point lies, in whole numbers; distances against a fine
// division of the edge.
func TestSidesAndDistances(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 4))
	whole := func(x float64) *big.Int { return big.NewInt(int64(x)) }
	zero := 0
	for range 3000 {
		a := checkPoint{math.Round(1e11 * r.Float64()), math.Round(1e11 * r.Float64())}
		u := checkPoint{math.Round(1e10 * r.NormFloat64()), math.Round(1e10 * r.NormFloat64())}
		b := checkPoint{a.x + u.x, a.y + u.y}
		k := float64(r.IntN(4))
		c := checkPoint{a.x + k*u.x + float64(r.IntN(3)-1), a.y + k*u.y + float64(r.IntN(3)-1)}
		p := new(big.Int).Mul(new(big.Int).Sub(whole(b.x), whole(a.x)), new(big.Int).Sub(whole(c.y), whole(a.y)))
		q := new(big.Int).Mul(new(big.Int).Sub(whole(b.y), whole(a.y)), new(big.Int).Sub(whole(c.x), whole(a.x)))
		if got := side(a, b, c); got != p.Cmp(q) {
			t.Fatalf("%v of the way from %v to %v: %d, want %d", c, a, b, got, p.Cmp(q))
		}
		if p.Cmp(q) == 0 {
			zero++
		}
	}
	if zero < 100 {
		t.Errorf("%d in line", zero)
	}
	for range 500 {
		point := func() checkPoint { return checkPoint{1e6 * r.Float64(), 1e6 * r.Float64()} }
		v, a, b, c, d := point(), point(), point(), point(), point()
		got, part := off(v, a, b)
		least, fine := math.Inf(1), 20000
		for k := range fine + 1 {
			s := float64(k) / float64(fine)
			least = math.Min(least, v.sub(checkPoint{a.x + s*(b.x-a.x), a.y + s*(b.y-a.y)}).norm())
		}
		if got > least+1e-6 || got < least-100 || part < 0 || part > 1 || math.Abs(v.sub(checkPoint{a.x + part*(b.x-a.x), a.y + part*(b.y-a.y)}).norm()-got) > 1e-5 {
			t.Fatalf("%v of %v, %v: %v at %v, want %v", v, a, b, got, part, least)
		}
		// Two edges: no place of one is nearer the other, and boxes are never farther apart.
		between := apartBy(a, b, c, d)
		least = math.Inf(1)
		for k := range 2001 {
			s := float64(k) / 2000
			near, _ := off(checkPoint{a.x + s*(b.x-a.x), a.y + s*(b.y-a.y)}, c, d)
			least = math.Min(least, near)
		}
		if between > least+1e-6 || between < least-1000 || apartInBoxes(a, b, c, d) > between+1e-6 {
			t.Fatalf("%v, %v and %v, %v: %v, want %v; boxes %v", a, b, c, d, between, least, apartInBoxes(a, b, c, d))
		}
	}
	for _, k := range []struct {
		a, b, c, d checkPoint
		want       float64
	}{
		{checkPoint{0, 0}, checkPoint{10, 0}, checkPoint{13, 5}, checkPoint{20, 5}, 5},
		{checkPoint{0, 0}, checkPoint{10, 0}, checkPoint{13, 2}, checkPoint{20, 2}, 3},
		{checkPoint{20, 0}, checkPoint{13, 0}, checkPoint{0, 0}, checkPoint{10, 1}, 3},
		{checkPoint{0, 9}, checkPoint{10, 20}, checkPoint{0, 0}, checkPoint{10, 2}, 7},
		{checkPoint{0, 0}, checkPoint{10, 10}, checkPoint{0, 10}, checkPoint{10, 0}, -10},
	} {
		if got := apartInBoxes(k.a, k.b, k.c, k.d); got != k.want {
			t.Errorf("%+v: %v", k, got)
		}
	}
	// An outline by its points: repeated ones go, and it is turned anticlockwise.
	ring := newCheckRing([]complex128{0, 0, 4i, 4 + 4i, 4, 0.3, 0})
	if len(ring.at) != 4 || ring.area() != 16 || ring.signedArea() != 16 || ring.length() != 16 || ring.x1 != 4 || ring.y1 != 4 || ring.x0 != 0 || ring.y0 != 0 {
		t.Errorf("%+v", ring)
	}
	for _, v := range []struct {
		p  checkPoint
		in bool
	}{{checkPoint{1, 1}, true}, {checkPoint{3.9, 3.9}, true}, {checkPoint{4.1, 1}, false}, {checkPoint{-0.1, 1}, false}, {checkPoint{1, 4.1}, false}, {checkPoint{1, -0.1}, false}} {
		if got := ring.inside(v.p); got != v.in {
			t.Errorf("%v inside: %v", v.p, got)
		}
	}
}

// A check of numbers one by one: what an offcut sold by the metre costs, increments,
// rests and certificates that are not of this roll.
func TestLayCheckOfOtherRolls(t *testing.T) {
	base := Lay{Rolls: []Roll{{Name: "r", Width: 1, Price: 10, Increment: 0.25}}, Pieces: []Cutting{{Name: "p", Cut: rectangle(0.49, 0.4), Quantity: 3}}}
	for name, c := range map[string]struct {
		lay    func(*Lay)
		change func(*LayPlan)
		ok     bool
	}{
		"as it is":            {nil, nil, true},
		"the end sold whole":  {func(l *Lay) { l.Rolls[0].Length = 1.1 }, nil, true},
		"an offcut":           {func(l *Lay) { l.Rolls[0] = Roll{Name: "r", Width: 1, Length: 1.1, Value: 2} }, nil, true},
		"an offcut, part of":  {func(l *Lay) { l.Rolls[0] = Roll{Name: "r", Width: 1, Length: 1.1, Value: 2} }, func(p *LayPlan) { p.Rolls[0].Bought = 1 }, false},
		"one increment more":  {nil, func(p *LayPlan) { u := &p.Rolls[0]; u.Bought, u.Cost, p.Cost, u.Rest = 1.25, 12.5, 12.5, Rest{} }, false},
		"one increment less":  {nil, func(p *LayPlan) { u := &p.Rolls[0]; u.Bought, u.Cost, p.Cost, u.Rest = 0.75, 7.5, 7.5, Rest{} }, false},
		"no rest":             {nil, func(p *LayPlan) { p.Rolls[0].Rest = Rest{} }, true},
		"a smaller rest":      {nil, func(p *LayPlan) { r := &p.Rolls[0].Rest; r.Width /= 2 }, true},
		"a rest of no width":  {nil, func(p *LayPlan) { r := &p.Rolls[0].Rest; r.Width = -r.Width }, false},
		"a rest of no length": {nil, func(p *LayPlan) { r := &p.Rolls[0].Rest; r.From.X, r.Length = r.From.X+r.Length, 0 }, false},
		"a rest before it":    {nil, func(p *LayPlan) { r := &p.Rolls[0].Rest; r.From.X, r.Length = -0.1, p.Rolls[0].Bought+0.1 }, false},
		"a rest that ends":    {nil, func(p *LayPlan) { r := &p.Rolls[0].Rest; r.Length -= 1e-3 }, false},
		"a bound of more":     {nil, func(p *LayPlan) { p.Bound = p.Cost + 0.01 }, false},
		"a bound of less":     {nil, func(p *LayPlan) { p.Bound = 0 }, true},
		"a bound below 0":     {nil, func(p *LayPlan) { p.Bound = -0.01 }, false},
		"a bound on length":   {nil, func(p *LayPlan) { u := &p.Rolls[0]; u.Bound = u.Used + 1e-6; u.Excess = float64(u.Used/u.Bound) - 1 }, false},
		"no bound on length":  {nil, func(p *LayPlan) { u := &p.Rolls[0]; u.Bound = u.Used / 2; u.Excess = 1 }, true},
		"a roll that is not":  {nil, func(p *LayPlan) { p.Rolls[0].Roll = 1 }, false},
		"a roll below":        {nil, func(p *LayPlan) { p.Rolls[0].Roll = -1 }, false},
		"a roll twice": {func(l *Lay) { l.Pieces[0].Quantity = 6 }, func(p *LayPlan) {
			p.Rolls = append(p.Rolls, p.Rolls[0])
			p.Certificate.Sheets = append(p.Certificate.Sheets, p.Certificate.Sheets[0])
			p.Cost *= 2
		}, false},
		"a piece that is not": {nil, func(p *LayPlan) { p.Rolls[0].Laid[1].Piece = 1 }, false},
		"a piece below":       {nil, func(p *LayPlan) { p.Rolls[0].Laid[1].Piece = -1 }, false},
		"points left out":     {nil, func(p *LayPlan) { q := &p.Rolls[0].Laid[1]; q.Cut = q.Cut[:3] }, false},
		"the order of cutting": {nil, func(p *LayPlan) {
			u, s := p.Rolls[0].Laid, p.Certificate.Sheets[0].Pieces
			u[0], u[2], s[0], s[2] = u[2], u[0], s[2], s[0]
		}, false},
		"a certificate less":  {nil, func(p *LayPlan) { s := &p.Certificate.Sheets[0]; s.Pieces = s.Pieces[:2] }, false},
		"an outline of 2":     {nil, func(p *LayPlan) { q := &p.Certificate.Sheets[0].Pieces[0]; q.Outline = q.Outline[:4] }, false},
		"half a point":        {nil, func(p *LayPlan) { q := &p.Certificate.Sheets[0].Pieces[0]; q.Outline = q.Outline[:7] }, false},
		"certified elsewhere": {nil, func(p *LayPlan) { p.Certificate.Sheets[0].Pieces[0].X += 100 }, false},
		"another unit":        {nil, func(p *LayPlan) { p.Certificate.Unit = fine * 1e-9 }, false},
		"no unit":             {nil, func(p *LayPlan) { p.Certificate.Unit = 0 }, false},
		"certified too wide":  {nil, func(p *LayPlan) { p.Certificate.Sheets[0].Width++ }, false},
		"certified endless":   {func(l *Lay) { l.Rolls[0].Length = 1.1 }, func(p *LayPlan) { p.Certificate.Sheets[0].End = 0 }, false},
		"certified too long":  {func(l *Lay) { l.Rolls[0].Length = 1.1 }, func(p *LayPlan) { p.Certificate.Sheets[0].End++ }, false},
	} {
		l := copied(t, base)
		if c.lay != nil {
			c.lay(&l)
		}
		p, err := l.Plan(t.Context(), LayOptions{Work: 2000})
		if err != nil {
			t.Fatal(name, err)
		}
		if u := p.Rolls[0]; len(u.Laid) == 3 && (math.Abs(float64(u.Used)-0.98) > 1e-9 || u.Rest == (Rest{}) && name != "an offcut") {
			t.Fatalf("%s: %+v", name, u) // two beside one another and one behind them
		}
		if c.change != nil {
			c.change(&p)
		}
		if err := p.Check(l); (err == nil) != c.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}
