package canvas

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"example.com/forepeak/units"
)

const milli = units.Millimetre

func rectangle(w, h units.Length) []Point {
	return []Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

// sign is that of the turn a, b, c, in rational numbers.
func sign(a, b, c Point) int {
	r := func(l units.Length) *big.Rat { return new(big.Rat).SetFloat64(float64(l)) }
	sub := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }
	mul := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
	return mul(sub(r(b.X), r(a.X)), sub(r(c.Y), r(a.Y))).Cmp(mul(sub(r(b.Y), r(a.Y)), sub(r(c.X), r(a.X))))
}

// apart is the least distance between two outlines, 0 if edges cross or one
// lies in the other.
func apart(p, q []Point) float64 {
	least := math.Inf(1)
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			d := q[(j+1)%len(q)]
			if sign(a, b, c)*sign(a, b, d) < 0 && sign(c, d, a)*sign(c, d, b) < 0 {
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
	holds := func(ring []Point, v Point) bool {
		in := false
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y > v.Y) != (b.Y > v.Y) && (sign(a, b, v) > 0) == (b.Y > a.Y) {
				in = !in
			}
		}
		return in
	}
	if least > 1e-9 && (holds(p, q[0]) || holds(q, p[0])) {
		return 0
	}
	return least
}

// checkLaid checks a plan by its cut lines, without the certificate.
func checkLaid(t *testing.T, l Lay, p LayPlan) {
	t.Helper()
	const hair = 3e-9 // metres
	for _, u := range p.Rolls {
		r := l.Rolls[u.Roll]
		for i, a := range u.Laid {
			for _, v := range a.Cut {
				if float64(v.X) < -hair || v.X > u.Used+hair || v.Y < r.Selvedge-hair || v.Y > r.Width-r.Selvedge+hair {
					t.Fatalf("%s: %v off the roll of %v, used %v", a.Name, v, r.Width, u.Used)
				}
			}
			for _, b := range u.Laid[:i] {
				if d := apart(a.Cut, b.Cut); d < float64(l.Gap)-hair {
					t.Fatalf("%s and %s are %v apart, gap %v\n%v\n%v", a.Name, b.Name, d, l.Gap, a.Cut, b.Cut)
				}
			}
			for _, f := range r.Flaws {
				if d := apart(a.Cut, f.Outline); d < float64(l.Gap)/2-hair {
					t.Fatalf("%s is %v from a flaw", a.Name, d)
				}
			}
		}
		if u.Bound > u.Used || u.Excess < 0 || u.Utilisation > 1+1e-12 || u.Utilisation <= 0 {
			t.Fatalf("bound %v, used %v, utilisation %v", u.Bound, u.Used, u.Utilisation)
		}
		x0, y0 := u.Rest.From.X, u.Rest.From.Y
		for _, a := range u.Laid {
			rest := []Point{{X: x0 + 1e-5, Y: y0 + 1e-5}, {X: x0 + u.Rest.Length, Y: y0 + 1e-5}, {X: x0 + u.Rest.Length, Y: y0 + u.Rest.Width - 1e-5}, {X: x0 + 1e-5, Y: y0 + u.Rest.Width - 1e-5}}
			if u.Rest.Length > 1e-4 && u.Rest.Width > 1e-4 && apart(a.Cut, rest) == 0 {
				t.Fatalf("%s lies on the rest %+v", a.Name, u.Rest)
			}
		}
	}
	if err := p.check(l); err != nil {
		t.Fatal(err)
	}
}

func TestLayKnown(t *testing.T) {
	square := Cutting{Name: "square", Cut: rectangle(500*milli, 500*milli), Quantity: 6}
	for _, tt := range []struct {
		name string
		lay  Lay
		used units.Length
		cost units.Money
	}{
		{"three across", Lay{Rolls: []Roll{{Width: 1500 * milli, Price: 20}}, Pieces: []Cutting{square}}, 1, 20},
		{"gap leaves two", Lay{Rolls: []Roll{{Width: 1500 * milli, Price: 20}}, Pieces: []Cutting{square}, Gap: 2 * milli}, 1504 * milli, 20 * 1.504},
		{"room for the gap", Lay{Rolls: []Roll{{Width: 1504 * milli}}, Pieces: []Cutting{square}, Gap: 2 * milli}, 1002 * milli, 0},
		{"selvedge", Lay{Rolls: []Roll{{Width: 1510 * milli, Selvedge: 5 * milli}}, Pieces: []Cutting{square}}, 1, 0},
		{"by the half metre", Lay{Rolls: []Roll{{Width: 1499 * milli, Price: 10, Increment: 400 * milli}}, Pieces: []Cutting{square}}, 1500 * milli, 16},
		{"full width", Lay{Rolls: []Roll{{Width: 1530 * milli}}, Pieces: []Cutting{{Cut: rectangle(2, 1530*milli)}}, Gap: 5 * milli}, 2, 0},
		{"across a flaw", Lay{
			Rolls:  []Roll{{Width: 500 * milli, Flaws: []Flaw{{Outline: []Point{{X: 1.2, Y: -0.1}, {X: 1.3, Y: -0.1}, {X: 1.3, Y: 0.7}, {X: 1.2, Y: 0.7}}}}}},
			Pieces: []Cutting{{Cut: rectangle(500*milli, 500*milli), Quantity: 3}},
		}, 1800*milli + 20*units.Micrometre, 0},
		{"handed pair", Lay{
			Rolls:  []Roll{{Width: 1000 * milli}},
			Pieces: []Cutting{{Cut: []Point{{}, {X: 1}, {Y: 1}}, QuantityMirrored: 1, Quantity: 1, Lie: OneWay}},
		}, 2, 0},
		{"the same, free to turn", Lay{
			Rolls:  []Roll{{Width: 1000 * milli}},
			Pieces: []Cutting{{Cut: []Point{{}, {X: 1}, {Y: 1}}, QuantityMirrored: 1, Quantity: 1, Lie: Listed, Turns: []units.Angle{0, 90 * units.Degree, 180 * units.Degree, 270 * units.Degree}}},
		}, 1, 0},
		{"the same, flipped", Lay{
			Rolls:  []Roll{{Width: 1000 * milli}},
			Pieces: []Cutting{{Cut: []Point{{}, {X: 1}, {Y: 1}}, QuantityMirrored: 1, Quantity: 1, Flip: true}},
		}, 1, 0},
		{"stripes", Lay{
			Rolls:  []Roll{{Width: 500 * milli, Along: 350 * milli}},
			Pieces: []Cutting{{Cut: rectangle(500*milli, 500*milli), Quantity: 2, Lie: OneWay, Match: &Match{At: Point{X: 100 * milli}}}},
		}, (250 + 700 + 500) * milli, 0},
		{"offcut first", Lay{
			Rolls:  []Roll{{Width: 1500 * milli, Price: 20}, {Name: "offcut", Width: 510 * milli, Length: 1600 * milli, Value: 1}},
			Pieces: []Cutting{square},
		}, 500 * milli, 11},
		{"offcut too dear", Lay{
			Rolls:  []Roll{{Width: 1500 * milli, Price: 20}, {Name: "offcut", Width: 510 * milli, Length: 1600 * milli, Value: 11}},
			Pieces: []Cutting{square},
		}, 1, 20},
	} {
		p, err := tt.lay.Plan(t.Context(), LayOptions{Seed: 1, Work: 60000})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		checkLaid(t, tt.lay, p)
		// With little work pieces that fit without play end up a little apart.
		if got := p.Rolls[0].Used; got < tt.used-20*units.Micrometre || got > tt.used+3*milli {
			t.Errorf("%s: used %v, want %v", tt.name, got, tt.used)
		}
		if math.Abs(float64(p.Cost-tt.cost)) > 0.06 {
			t.Errorf("%s: costs %v, want %v", tt.name, p.Cost, tt.cost)
		}
	}
}

// TestLayRandom lays random panels with curves, gaps and flaws, and measures
// between their cut lines.
func TestLayRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for k := range 20 {
		l := Lay{
			Rolls: []Roll{{Width: 1500 * milli, Selvedge: units.Length(r.IntN(3)) * 5 * milli, Price: 10, Increment: 100 * milli}},
			Gap:   units.Length(r.IntN(3)) * 3 * milli,
		}
		if r.IntN(2) == 0 {
			x := units.Length(r.Float64())
			l.Rolls[0].Flaws = []Flaw{{Outline: []Point{{X: x, Y: 0.5}, {X: x + 0.1, Y: 0.5}, {X: x, Y: 0.7}}}}
		}
		if r.IntN(3) == 0 {
			l.Rolls = append(l.Rolls, Roll{Width: 800 * milli, Length: 900 * milli, Value: 2})
		}
		for range 1 + r.IntN(3) {
			var cut []Point
			n := 3 + r.IntN(30)
			for m := range n {
				d := 0.1 + 0.3*r.Float64()
				s, c := math.Sincos(2 * math.Pi * (float64(m) + 0.7*r.Float64()) / float64(n))
				cut = append(cut, Point{X: units.Length(d * c), Y: units.Length(d * s)})
			}
			p := Cutting{Name: string(rune('a' + len(l.Pieces))), Cut: cut, Quantity: r.IntN(3), QuantityMirrored: r.IntN(2), Flip: r.IntN(2) == 0, Grain: units.Angle(r.Float64())}
			p.Lie = []Lie{EitherWay, OneWay, AnyWay}[r.IntN(3)]
			l.Pieces = append(l.Pieces, p)
		}
		p, err := l.Plan(t.Context(), LayOptions{Seed: uint64(k), Work: 1500})
		if err != nil {
			t.Fatalf("%+v: %v", l, err)
		}
		checkLaid(t, l, p)
		if k == 0 {
			data, err := json.Marshal(p)
			if err != nil {
				t.Fatal(err)
			}
			var back LayPlan
			if err := json.Unmarshal(data, &back); err != nil || back.Certificate.Check() != nil {
				t.Fatalf("the plan does not come back: %v", err)
			}
			again, _ := json.Marshal(back)
			if string(again) != string(data) {
				t.Error("the plan changes on the way")
			}
			in, _ := json.Marshal(l)
			var lay Lay
			if err := json.Unmarshal(in, &lay); err != nil {
				t.Fatal(err)
			}
			same, err := lay.Plan(t.Context(), LayOptions{Seed: uint64(k), Work: 1500})
			if text, _ := json.Marshal(same); err != nil || string(text) != string(data) {
				t.Error("the input changes on the way")
			}
		}
	}
}

// TestLayHoldsCurves cuts a disc with a hem, whose cut line is a circle.
func TestLayHoldsCurves(t *testing.T) {
	const radius, hem = 0.3, 0.04
	panel := Panel{Name: "disc", Edges: []Edge{
		{Name: "a", From: Point{X: -radius}, Course: Course{Curve: Arc, Depth: radius}, Finish: Finish{Kind: PlainSeam, Width: hem}, Corner: Crossed},
		{Name: "b", From: Point{X: radius}, Course: Course{Curve: Arc, Depth: radius}, Finish: Finish{Kind: PlainSeam, Width: hem}, Corner: Crossed},
	}}
	pieces, err := Cover{Panels: []Panel{panel}}.Pieces(Cloth{Thickness: 0.5 * milli})
	if err != nil {
		t.Fatal(err)
	}
	out := 0.0
	for _, v := range pieces[0].Cut {
		out = max(out, math.Hypot(float64(v.X), float64(v.Y)))
	}
	out -= 2 * tolerance // the true radius of the cut line, or less
	l := Lay{Rolls: []Roll{{Width: 1}}, Pieces: []Cutting{pieces[0].Cutting()}}
	p, err := l.Plan(t.Context(), LayOptions{Work: 1000})
	if err != nil {
		t.Fatal(err)
	}
	u := p.Rolls[0]
	if d := float64(u.Used) - 2*out; d < 0 || d > 1.2e-3 {
		t.Errorf("%v used for a circle of %v", u.Used, 2*out)
	}
	q := p.Certificate.Sheets[0].Pieces[0]
	centre := u.Laid[0].At
	for k := range 1000 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 1000)
		v := Point{centre.X + units.Length(out*c), centre.Y + units.Length(out*s)}
		n, in := len(q.Outline), true
		for m := 0; m < n; m += 2 { // the ring is convex
			at := func(m int) Point {
				return Point{units.Length(float64(q.Outline[m%n]+q.X) * 1e-5), units.Length(float64(q.Outline[(m+1)%n]+q.Y) * 1e-5)}
			}
			in = in && sign(at(m), at(m+2), v) >= 0
		}
		if !in {
			t.Fatalf("%v of the circle is not held", v)
		}
	}
}

func TestLayRefuses(t *testing.T) {
	good := func() Lay {
		return Lay{Rolls: []Roll{{Name: "roll", Width: 1}}, Pieces: []Cutting{{Name: "p", Cut: rectangle(0.5, 0.5)}}}
	}
	for _, tt := range []struct {
		change func(*Lay)
		want   error
		text   string
	}{
		{func(l *Lay) { l.Rolls = nil }, ErrInput, "Rolls"},
		{func(l *Lay) { l.Pieces = nil }, ErrInput, "Pieces"},
		{func(l *Lay) { l.Pieces[0].Cut = l.Pieces[0].Cut[:2] }, ErrInput, "Pieces[0] (p).Cut"},
		{func(l *Lay) { l.Pieces[0].Cut[1].X = units.Length(math.NaN()) }, ErrInput, "Pieces[0] (p).Cut"},
		{func(l *Lay) { l.Pieces[0].Cut[1], l.Pieces[0].Cut[2] = l.Pieces[0].Cut[2], l.Pieces[0].Cut[1] }, ErrOutline, "Pieces[0] (p).Cut"},
		{func(l *Lay) { l.Pieces[0].Cut = []Point{{}, {X: 1}, {X: 2}} }, ErrOutline, "Pieces[0] (p).Cut"},
		{func(l *Lay) { l.Pieces[0].Cut = []Point{{}, {}, {}} }, ErrOutline, "Pieces[0] (p).Cut"},
		{func(l *Lay) { l.Pieces[0].Lie = "askew" }, ErrUnknown, "Lie"},
		{func(l *Lay) { l.Pieces[0].Lie = Listed }, ErrInput, "Turns"},
		{func(l *Lay) { l.Pieces[0].Cut = rectangle(2, 1.001) }, ErrCloth, "Pieces[0] (p)"},
		{func(l *Lay) { l.Rolls[0].Length = 0.4 }, ErrCloth, "Pieces[0] (p) is on rolls too short for it: 500 mm along the roll"},
		{func(l *Lay) { // of two rolls neither is enough
			l.Pieces[0].Cut = rectangle(0.6, 0.5)
			l.Rolls = []Roll{{Width: 0.4}, {Width: 1, Length: 0.55}}
		}, ErrCloth, "Pieces[0] (p) is on rolls too short for it: 600 mm along the roll"},
		{func(l *Lay) { l.Rolls[0].Width, l.Rolls[0].Length, l.Pieces[0].Quantity = 1.1, 0.9, 3 }, ErrCloth, "where no room was found for 1 of p"},
		{func(l *Lay) { l.Rolls[0].Width, l.Rolls[0].Length, l.Pieces[0].Quantity = 1.1, 0.9, 4 }, ErrCloth, "too short for 2 of p"},
		{func(l *Lay) { l.Rolls[0].Along = 0.0123456 }, ErrInput, "Along"},
		{func(l *Lay) { l.Rolls[0].Selvedge = 0.5 }, ErrInput, "Selvedge"},
		{func(l *Lay) { l.Gap = -1 }, ErrInput, "Gap"},
		{func(l *Lay) {
			l.Rolls[0].Flaws = []Flaw{{Name: "f", Outline: []Point{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}}}}
		}, ErrOutline, "Flaws[0] (f)"},
	} {
		l := good()
		tt.change(&l)
		p, err := l.Plan(t.Context(), LayOptions{Work: 2000})
		var e *Error
		if !errors.As(err, &e) || e.Err != tt.want || !strings.Contains(err.Error(), tt.text) {
			t.Errorf("%v, want %v about %s", err, tt.want, tt.text)
		}
		if len(p.Rolls) > 0 {
			checkLaid(t, l, p)
		}
	}
}

func TestLayStops(t *testing.T) {
	l := Lay{Rolls: []Roll{{Width: 1}}, Pieces: []Cutting{{Cut: []Point{{}, {X: 0.3}, {X: 0.1, Y: 0.4}}, Quantity: 20}}}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	p, err := l.Plan(ctx, LayOptions{Work: 1 << 40})
	if err != nil {
		t.Fatal(err)
	}
	checkLaid(t, l, p)
	left := 100 * time.Second
	p, err = l.Plan(t.Context(), LayOptions{Left: func() time.Duration { left -= time.Second; return left }})
	if err != nil || left > 0 || left < -10*time.Second {
		t.Fatalf("%v left, %v", left, err)
	}
	checkLaid(t, l, p)
}

// TestLayPlatforms pins a plan, which must be the same on every platform. It
// changes when the search does.
func TestLayPlatforms(t *testing.T) {
	var disc []Point
	for k := range 200 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 200)
		disc = append(disc, Point{X: units.Length(math.Round(3e8*c) / 1e9), Y: units.Length(math.Round(2e8*s) / 1e9)})
	}
	l := Lay{
		Rolls:  []Roll{{Width: 1.53, Selvedge: 0.01}},
		Pieces: []Cutting{{Cut: disc, Quantity: 3, Lie: AnyWay, Grain: 0.3}, {Cut: []Point{{}, {X: 0.7, Y: 0.1}, {Y: 0.4}}, Quantity: 3, Flip: true, Lie: Listed, Turns: []units.Angle{0.1, 1.234, 3}}},
		Gap:    3 * milli,
	}
	p, err := l.Plan(t.Context(), LayOptions{Seed: 5, Work: 20000})
	if err != nil {
		t.Fatal(err)
	}
	checkLaid(t, l, p)
	h := fnv.New64a()
	fmt.Fprintf(h, "{%v}\n", p.Certificate.Sheets)
	const want uint64 = 0xe8202967c8e8d52e
	if got := h.Sum64(); got != want {
		t.Errorf("%#x, want %#x", got, want)
	}
}

// FuzzLay lays a polygon, three times, on a roll with a flaw.
func FuzzLay(f *testing.F) {
	f.Add([]byte{0, 0, 200, 0, 200, 100, 0, 100}, uint8(3), uint8(0))
	f.Add([]byte{0, 0, 255, 1, 255, 2}, uint8(0), uint8(1))
	f.Add([]byte{0, 0, 90, 0, 90, 90, 20, 90, 20, 30, 60, 30, 60, 60, 50, 60, 50, 40, 30, 40, 30, 80, 80, 80, 80, 10, 10, 10, 10, 100, 0, 100}, uint8(5), uint8(3))
	f.Add([]byte{100, 0, 120, 80, 200, 100, 120, 120, 100, 200, 80, 120, 0, 100, 80, 80}, uint8(10), uint8(2))
	f.Add([]byte{0, 0, 0, 0, 50, 0, 100, 0, 100, 0, 100, 50}, uint8(1), uint8(3))
	f.Add([]byte{0, 0, 100, 100, 100, 0, 0, 100}, uint8(1), uint8(0))
	f.Add([]byte{7, 7, 7, 7, 7, 7}, uint8(1), uint8(0))
	f.Fuzz(func(t *testing.T, data []byte, gap, kind uint8) {
		if len(data) > 60 {
			return
		}
		var cut []Point
		for k := 0; k+1 < len(data); k += 2 {
			cut = append(cut, Point{X: units.Length(data[k]) * milli, Y: units.Length(data[k+1]) * milli})
		}
		l := Lay{
			Rolls:  []Roll{{Width: 400 * milli, Flaws: []Flaw{{Outline: []Point{{X: 0.1, Y: 0.1}, {X: 0.2, Y: 0.1}, {X: 0.1, Y: 0.2}}}}}},
			Pieces: []Cutting{{Cut: cut, Quantity: 2, QuantityMirrored: 1, Flip: kind&2 != 0, Lie: []Lie{EitherWay, AnyWay}[kind&1]}},
			Gap:    units.Length(gap) * milli / 10,
		}
		p, err := l.Plan(t.Context(), LayOptions{Work: 300})
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("%v is not an *Error", err)
			}
			return
		}
		checkLaid(t, l, p)
	})
}

// Sets cut from a full rectangle (testdata/canvas/rects) are laid again without
// waste, and that is proved.
func TestLayRectangles(t *testing.T) {
	for _, s := range []struct {
		name          string
		width, length float64
		sides         [][2]float64 // across, along
		turn          bool
	}{
		{"ht2001a-C1_1", 20, 20, [][2]float64{{2, 12}, {7, 12}, {8, 6}, {3, 6}, {3, 5}, {5, 5}, {3, 12}, {3, 7}, {5, 7}, {2, 6}, {3, 2}, {4, 2}, {3, 4}, {4, 4}, {9, 2}, {11, 2}}, false},
		{"bkw-1", 40, 40, [][2]float64{{7, 6}, {7, 6}, {40, 16}, {5, 20}, {24, 24}, {7, 4}, {4, 4}, {7, 8}, {4, 20}, {5, 4}}, true},
	} {
		l := Lay{Rolls: []Roll{{Width: units.Length(s.width) * units.Centimetre, Price: 10}}}
		for _, a := range s.sides {
			c := Cutting{Cut: rectangle(units.Length(a[1]/100), units.Length(a[0]/100))}
			if s.turn {
				c.Lie, c.Turns = Listed, []units.Angle{0, 90 * units.Degree}
			}
			l.Pieces = append(l.Pieces, c)
		}
		p, err := l.Plan(t.Context(), LayOptions{Work: 400_000})
		if err != nil {
			t.Fatal(s.name, err)
		}
		u := p.Rolls[0]
		want := units.Length(s.length) * units.Centimetre
		if math.Abs(float64(u.Used-want)) > 1e-9 || math.Abs(float64(u.Bound-want)) > 1e-9 {
			t.Errorf("%s: used %v, bound %v, want %v", s.name, u.Used, u.Bound, want)
		}
		within, least := map[string]bool{}, 0.0
		for _, q := range u.Laid {
			within[fmt.Sprint(q.Piece)] = true
			least += math.Abs(float64(areaOfPoints(q.Cut)))
		}
		if len(within) != len(s.sides) || math.Abs(least-s.width*s.length/1e4) > 1e-9 {
			t.Errorf("%s: %d pieces of %v m²", s.name, len(within), least)
		}
	}
}

// Rectangles fill the cloth to a hair where their sides and the gap are whole in one
// of the units. Others are laid a hair larger, but nothing is proved of them that is not true: these lie in one
// row.
func TestBoundOfRectanglesOffTheGrid(t *testing.T) {
	const in = units.Inch
	for _, tt := range []struct {
		name               string
		width, across, gap units.Length
		n                  int
		row                bool // is found, too
	}{
		{"sixteenths", in.Scale(53.75), in.Scale(13 + 7./16), 0, 4, true},
		{"sixty-fourths", in.Scale(53.8125), in.Scale(13 + 29./64), 0, 4, false},
		{"thirds", 1, units.Length(1. / 3), 0, 3, false},
		{"an eighth between", in.Scale(52.375), in.Scale(13), in.Scale(1. / 8), 4, true},
		{"a quarter of a millimetre between", 1000.75 * milli, 250 * milli, 0.25 * milli, 4, true},
		{"a quarter of an inch between", in.Scale(52.75), in.Scale(13), in.Scale(1. / 4), 4, true},
		{"as wide as the cloth", 1, 1, in.Scale(1. / 8), 1, true},
		{"as wide as the cloth in inches", in.Scale(54.25), in.Scale(54.25), in.Scale(1. / 16), 1, true},
	} {
		l := Lay{Rolls: []Roll{{Width: tt.width, Price: 1}}, Gap: tt.gap, Pieces: []Cutting{{Cut: rectangle(0.3, tt.across), Quantity: tt.n}}}
		plan, err := l.Plan(t.Context(), LayOptions{Work: 10_000})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		u := plan.Rolls[0]
		if u.Bound > 0.3+1e-9 || u.Bound < 0.3-1e-9 || plan.Bound > 0.3+1e-9 {
			t.Errorf("%s: no way below %v, for %v", tt.name, u.Bound, plan.Bound)
		}
		if row := u.Used < 0.3+1e-9; row != tt.row {
			t.Errorf("%s: %v used", tt.name, u.Used)
		}
	}
}

// What is too large says in which way.
func TestLayTooLarge(t *testing.T) {
	const in = units.Inch
	for _, tt := range []struct {
		roll Roll
		cut  []Point
		want string
	}{
		{Roll{Width: 1}, rectangle(0.3, 1.2), "is 1.20 m across the roll"},
		{Roll{Width: 1, Length: 2}, rectangle(2.5, 0.3), "is on rolls too short for it: 2.50 m along the roll"},
		{Roll{Width: in.Scale(53 + 61./64)}, rectangle(0.3, in.Scale(53+61./64)), "is as large as the cloth"},
		{Roll{Width: 1, Length: in.Scale(53 + 61./64)}, rectangle(in.Scale(53+61./64), 0.3), "is as large as the cloth"},
	} {
		_, err := Lay{Rolls: []Roll{tt.roll}, Pieces: []Cutting{{Name: "p", Cut: tt.cut}}}.Plan(t.Context(), LayOptions{Work: 1000})
		if !errors.Is(err, ErrCloth) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v, want %q", err, tt.want)
		}
	}
}

// A time is asked in place of the work for rectangles, too.
func TestLayRectanglesInATime(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	l := Lay{Rolls: []Roll{{Width: 1}}}
	for range 80 {
		l.Pieces = append(l.Pieces, Cutting{Cut: rectangle(units.Length(40+r.IntN(300))*milli, units.Length(40+r.IntN(300))*milli)})
	}
	short, err := l.Plan(t.Context(), LayOptions{Work: 100})
	if err != nil {
		t.Fatal(err)
	}
	for _, wait := range []time.Duration{time.Second / 4, 2 * time.Second, 20 * time.Second} { // on a busy machine
		end := time.Now().Add(wait)
		long, err := l.Plan(t.Context(), LayOptions{Work: 100, Left: func() time.Duration { return time.Until(end) }})
		if err != nil || long.Rolls[0].Used > short.Rolls[0].Used {
			t.Fatalf("%v, in a time %v, %v", short.Rolls[0].Used, long.Rolls[0].Used, err)
		}
		if long.Work >= 4*short.Work {
			return
		}
	}
	t.Error("no more steps in a time than with next to no work")
}

func areaOfPoints(ring []Point) (a units.Area) {
	for k, p := range ring {
		q := ring[(k+1)%len(ring)]
		a += units.Area((float64(p.X)*float64(q.Y) - float64(q.X)*float64(p.Y)) / 2)
	}
	return a
}
