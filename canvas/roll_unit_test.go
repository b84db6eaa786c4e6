package canvas

import (
	"errors"
	"slices"
	"strings"
	"testing"

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
	// Too much for a search in the finer one.
	l := one(1.5, sixteenth, func(l *Lay) { l.Pieces[0].Quantity = 700 })
	if got := l.ruled().unit; got != hundredth {
		t.Errorf("700 pieces: %v nm", got)
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
