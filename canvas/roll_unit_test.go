package canvas

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Pieces are laid in the unit in which the repeats are whole, or more of the rest.
func TestUnitOfALay(t *testing.T) {
	const in = units.Inch
	sixteenth := rectangle(in.Scale(11+3./16), in.Scale(20+1./16))
	tenth := rectangle(in.Scale(11.3), in.Scale(20.7))
	one := func(width units.Length, cut []Point, change func(*Lay)) Lay {
		l := Lay{Rolls: []Roll{{Width: width}}, Pieces: []Cutting{{Name: "p", Cut: cut, Quantity: 3, Match: &Match{}}}}
		change(&l)
		return l
	}
	for name, c := range map[string]struct {
		l    Lay
		want float64
	}{
		"millimetres":             {one(1.5, rectangle(0.3, 0.4), func(*Lay) {}), hundredth},
		"hundredths":              {one(1.5, rectangle(0.30001, 0.4), func(*Lay) {}), hundredth},
		"sixteenths":              {one(1.5, sixteenth, func(*Lay) {}), fine},
		"tenths of an inch":       {one(1.5, tenth, func(*Lay) {}), hundredth},
		"a width in sixteenths":   {one(in.Scale(53+15./16), rectangle(0.3, 0.4), func(*Lay) {}), fine},
		"a gap of 1/16 in":        {one(1.5, rectangle(0.3, 0.4), func(l *Lay) { l.Gap = in.Scale(1. / 16) }), fine},
		"a repeat of 2 5/8 in":    {one(1.5, tenth, func(l *Lay) { l.Rolls[0].Across = in.Scale(2 + 5./8) }), fine},
		"a repeat of 25.2 in":     {one(1.5, sixteenth, func(l *Lay) { l.Rolls[0].Along = in.Scale(25.2) }), hundredth},
		"repeats of 25 and 12 in": {one(1.5, sixteenth, func(l *Lay) { l.Rolls[0].Along, l.Rolls[0].Across = in.Scale(25), in.Scale(12) }), fine},
	} {
		plan, err := c.l.Plan(t.Context(), LayOptions{Work: 2000})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := plan.Check(c.l); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := c.l.ruled().unit; got != c.want || float64(plan.Certificate.Unit) != c.want*1e-9 {
			t.Errorf("%s: %v nm, certified in %v, want %v nm", name, got, plan.Certificate.Unit, c.want)
		}
	}
	// Too much for a search in the finer one, unless rectangles alone are laid.
	l := one(1.5, sixteenth, func(l *Lay) { l.Pieces[0].Quantity = 700 })
	if got := l.ruled().unit; got != fine {
		t.Errorf("700 rectangles: %v nm", got)
	}
	for name, change := range map[string]func(*Lay){
		"a triangle":      func(l *Lay) { l.Pieces = append(l.Pieces, Cutting{Cut: []Point{{}, {X: 0.1}, {Y: 0.1}}}) },
		"any way":         func(l *Lay) { l.Pieces[0].Lie = AnyWay },
		"a flaw":          func(l *Lay) { l.Rolls[0].Flaws = []Flaw{{Outline: rectangle(0.1, 0.1)}} },
		"on a pattern":    func(l *Lay) { l.Rolls[0].Along = in },
		"20,000 and more": func(l *Lay) { l.Pieces[0].Quantity = 12_000 },
	} {
		l := one(1.5, sixteenth, func(l *Lay) { l.Pieces[0].Quantity = 700; change(l) })
		if got := l.ruled().unit; got != hundredth {
			t.Errorf("700 rectangles and %s: %v nm", name, got)
		}
	}
	// Neither holds both.
	l.Rolls[0].Along, l.Rolls[0].Across = in.Scale(25.2), in.Scale(2+5./8)
	if _, err := l.Plan(t.Context(), LayOptions{}); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), "all repeats multiples") {
		t.Error(err)
	}
}

// Stripes of 2 5/8 in lie true at the end of a long row.
func TestStripesInEighths(t *testing.T) {
	const in = units.Inch
	l := Lay{
		Rolls:  []Roll{{Width: in.Scale(54), Along: in.Scale(2 + 5./8)}},
		Pieces: []Cutting{{Name: "p", Cut: rectangle(in.Scale(10), in.Scale(40)), Quantity: 60, Match: &Match{}, Lie: OneWay}},
	}
	plan, err := l.Plan(t.Context(), LayOptions{Work: 20_000})
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Check(l); err != nil {
		t.Fatal(err)
	}
	// 10 in take four repeats.
	last := slices.MaxFunc(plan.Rolls[0].Laid, func(a, b Laid) int {
		if a.At.X < b.At.X {
			return -1
		}
		return 1
	})
	if want := in.Scale(59 * 4 * (2 + 5./8)); last.At.X < want-1e-9 || last.At.X > want+1e-9 {
		t.Errorf("the last of 60 begins at %v, want %v", last.At.X, want)
	}
}

// movedBy moves an outline.
func movedBy(line []Point, x, y units.Length) []Point {
	out := slices.Clone(line)
	for i := range out {
		out[i].X, out[i].Y = out[i].X+x, out[i].Y+y
	}
	return out
}

// Three pieces of 17 7/8 in fill 54 in between two selvedges of 3/16 in, wherever they
// are drawn, in any posture, and whatever small pieces lie beside them.
func TestSixteenthsThreeAbreast(t *testing.T) {
	const in = units.Inch
	three := rectangle(in.Scale(20+1./16), in.Scale(17+7./8))
	for name, c := range map[string]struct {
		change func(*Cutting)
		odd    bool
	}{
		"from zero":     {func(*Cutting) {}, false},
		"from 1/64 in":  {func(p *Cutting) { p.Cut = movedBy(p.Cut, in.Scale(1./64), in.Scale(1./64)) }, false},
		"from anywhere": {func(p *Cutting) { p.Cut = movedBy(p.Cut, 0.123456789, -3.000000007) }, false},
		"mirrored and flipped": {func(p *Cutting) {
			p.Cut = movedBy(p.Cut, 0.000001, 0.000002)
			p.Quantity, p.QuantityMirrored, p.Flip = 1, 2, true
		}, false},
		"with the grain across": {func(p *Cutting) {
			p.Cut, p.Grain = movedBy(rectangle(in.Scale(17+7./8), in.Scale(20+1./16)), 0.000001, 0.7), 90*units.Degree
		}, false},
		"one way":         {func(p *Cutting) { p.Cut, p.Lie = movedBy(p.Cut, 0.000004, 0.000003), OneWay }, false},
		"two odd squares": {func(*Cutting) {}, true},
	} {
		l := Lay{Rolls: []Roll{{Width: in.Scale(54), Selvedge: in.Scale(3. / 16)}}, Pieces: []Cutting{{Name: "p", Cut: three, Quantity: 3}}}
		c.change(&l.Pieces[0])
		want := in.Scale(20 + 1./16)
		if c.odd {
			for k := range 2 {
				l.Pieces = append(l.Pieces, Cutting{Name: "odd", Cut: rectangle(0.05001, 0.05003+units.Length(k)*1e-5)})
			}
			want += 0.0501
		}
		plan, err := l.Plan(t.Context(), LayOptions{Work: 20_000})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := plan.Check(l); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := plan.Rolls[0].Used; got > want+1e-5 {
			t.Errorf("%s: %v m used, want %v", name, got, want)
		}
	}
	// A match stays where it is on the piece.
	l := Lay{Rolls: []Roll{{Width: in.Scale(54), Selvedge: in.Scale(3. / 16), Along: in.Scale(4)}}, Pieces: []Cutting{{
		Name: "p", Cut: movedBy(three, 0.0000017, 0.0000043), Quantity: 3, Lie: OneWay, Match: &Match{At: Point{0.1, 0.1}, Along: in, Tolerance: 0.0001},
	}}}
	plan, err := l.Plan(t.Context(), LayOptions{Work: 2000})
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Check(l); err != nil {
		t.Error(err)
	}
	for _, q := range plan.Rolls[0].Laid {
		for k, v := range q.Cut {
			if d := v.X - q.At.X - l.Pieces[0].Cut[k].X; d.Abs() > 1e-9 {
				t.Errorf("corner %d is %v from where At puts it", k, d)
			}
		}
	}
}

// Rectangles are laid in sixteenths however many they are, and so are covers.
func TestManySixteenths(t *testing.T) {
	const in = units.Inch
	l := Lay{Rolls: []Roll{{Width: in.Scale(54), Selvedge: in.Scale(3. / 16)}}, Pieces: []Cutting{{Name: "p", Cut: rectangle(in.Scale(60), in.Scale(17+7./8)), Quantity: 300}}}
	plan, err := l.Plan(t.Context(), LayOptions{Work: 20_000})
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Check(l); err != nil {
		t.Error(err)
	}
	if got := plan.Rolls[0].Used; got > in.Scale(6000)+1e-5 {
		t.Errorf("%v used, want %v", got, in.Scale(6000))
	}
	wide := polygonPanel("p", Point{}, Point{X: in.Scale(20)}, Point{in.Scale(20), in.Scale(53 + 5./8)}, Point{Y: in.Scale(53 + 5./8)})
	wide.Quantity = 300
	l.Pieces = nil
	covers, err := l.PlanCovers(t.Context(), []Cover{{Panels: []Panel{wide}}}, Cloth{}, Finish{Kind: PlainSeam, Width: 0.01}, LayOptions{Work: 20_000})
	if err != nil {
		t.Fatal(err)
	}
	if got := covers.Plan.Rolls[0].Used; len(covers.Splits) > 0 || got > in.Scale(6000)+1e-5 {
		t.Errorf("%v used, %d seams", got, len(covers.Splits))
	}
}

// A flaw that a selvedge cuts off is held on the slant too.
func TestFlawAcrossTheSelvedge(t *testing.T) {
	for _, far := range []units.Length{0.02, 0.1, 0.5, 2} {
		for _, over := range []bool{false, true} {
			flaw := []Point{{0.011, 0.013}, {0.011, 0.003}, {0.011 + far, 0.013}}
			if over {
				for i := range flaw {
					flaw[i].Y = 0.06 - flaw[i].Y
				}
			}
			l := Lay{Rolls: []Roll{{Width: 0.06, Selvedge: 0.005, Flaws: []Flaw{{Outline: flaw}}}}, Gap: 0.003, Pieces: []Cutting{{Name: "p", Cut: rectangle(0.01, 0.01)}}}
			in := l.ruled()
			held, err := in.flaws(0)
			if err != nil || len(held) != 1 {
				t.Fatal(held, err)
			}
			var ring []plane.Point
			for k := 0; k < len(held[0]); k += 2 {
				ring = append(ring, plane.Point{X: float64(held[0][k]), Y: float64(held[0][k+1])})
			}
			for i := range 1000 { // along its slanting side, on the cloth
				s := units.Length(i) / 999
				x, y := in.of(flaw[1].X+s*(flaw[2].X-flaw[1].X))+in.gap()/2, in.of(flaw[1].Y+s*(flaw[2].Y-flaw[1].Y)-0.005)+in.gap()/2
				if y < 0 || y > float64(in.width(&l.Rolls[0])) {
					continue
				}
				if q := (plane.Point{X: x, Y: y}); !plane.Contains(ring, q) && plane.Distance(append(ring, ring[0]), q) > 1e-3 {
					t.Fatalf("%v of the flaw to %v is outside what is held, %v", q, far, held)
				}
			}
		}
	}
}
