package canvas

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// aLay has all that a lay can have.
func aLay() Lay {
	var disc []Point
	for k := range 60 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 60)
		disc = append(disc, Point{X: units.Length(0.2 * c), Y: units.Length(0.15 * s)})
	}
	return Lay{
		Rolls: []Roll{
			{
				Name: "roll", Width: 1.2, Selvedge: 10 * milli, Price: 20, Increment: 250 * milli, Along: 40 * milli, Across: 25 * milli, Pattern: Point{7 * milli, -3 * milli},
				Flaws: []Flaw{{Name: "stain", Outline: []Point{{0.6, 0.6}, {0.65, 0.6}, {0.6, 0.7}}}},
			},
			{Name: "offcut", Width: 0.8, Length: 0.9, Value: 1},
		},
		Pieces: []Cutting{
			{Name: "side", Cut: []Point{{}, {X: 0.7}, {0.7, 0.2}, {0, 0.5}}, Quantity: 2, QuantityMirrored: 1, Grain: 0.2},
			{Name: "disc", Cut: disc, Quantity: 2, Lie: Listed, Turns: []units.Angle{0.3, 1.2}},
			{Name: "flap", Cut: []Point{{}, {X: 0.3}, {0.1, 0.2}}, Quantity: 2, Lie: OneWay, Flip: true},
			{Name: "strip", Cut: rectangle(0.5, 0.1), Match: &Match{At: Point{0.1, 0.05}, Along: 10 * milli, Across: 5 * milli, Tolerance: 1 * milli}},
		},
		Gap: 4 * milli,
	}
}

// copied goes by JSON, which shares nothing.
func copied[T any](t *testing.T, v T) (out T) {
	t.Helper()
	data, err := json.Marshal(v)
	if err == nil {
		err = json.Unmarshal(data, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// leaves calls f with every number, text and truth in a value.
func leaves(v reflect.Value, path string, f func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			leaves(v.Field(i), path+"."+v.Type().Field(i).Name, f)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			leaves(v.Index(i), fmt.Sprintf("%s[%d]", path, i), f)
		}
	default:
		f(path, v)
	}
}

// TestLayCheckEveryField changes every field of a plan, one at a time.
func TestLayCheckEveryField(t *testing.T) {
	l := aLay()
	plan, err := l.Plan(t.Context(), LayOptions{Work: 4000})
	if err != nil {
		t.Fatal(err)
	}
	if err := plan.Check(l); err != nil {
		t.Fatal(err)
	}
	if len(plan.Rolls) != 2 {
		t.Fatalf("%d rolls, 2 make a better test", len(plan.Rolls))
	}
	p := copied(t, plan)
	tried := 0
	leaves(reflect.ValueOf(&p).Elem(), "", func(path string, v reflect.Value) {
		// What was worked, and what may well be elsewhere.
		for _, free := range []string{".Work", ".Rest.From.Y", ".Rest.Width", ".Outline[", ".Flaws[", ".Length", ".End", ".Width", ".Phase"} {
			if strings.HasPrefix(path, ".Certificate") && !strings.HasSuffix(path, "].Name") && !strings.HasSuffix(path, ".Roll") || strings.HasSuffix(path, free) {
				return
			}
		}
		if path == ".Bound" {
			return
		}
		was := reflect.New(v.Type()).Elem()
		was.Set(v)
		by := map[string]float64{"units.Length": 50e-6, "units.Angle": 1e-3, "units.Money": 0.01, "float64": 1e-4}[v.Type().String()]
		for _, sign := range []int{1, -1} {
			switch v.Kind() {
			case reflect.Bool:
				v.SetBool(!v.Bool())
			case reflect.Int:
				v.SetInt(v.Int() + int64(sign))
			case reflect.String:
				v.SetString(v.String() + "x")
			case reflect.Float64:
				if by == 0 {
					t.Fatalf("%s is a %v", path, v.Type())
				}
				v.SetFloat(v.Float() + float64(sign)*by)
			default:
				t.Fatalf("%s is a %v", path, v.Kind())
			}
			tried++
			if err := p.Check(l); !errors.Is(err, ErrLay) {
				t.Errorf("%s from %v to %v: %v", path, was, v, err)
			}
			v.Set(was)
			if v.Kind() == reflect.Float64 {
				v.SetFloat(math.NaN())
				if err := p.Check(l); !errors.Is(err, ErrLay) {
					t.Errorf("%s from %v to no number: %v", path, was, err)
				}
				v.Set(was)
			}
		}
	})
	if err := p.Check(l); err != nil || tried < 600 {
		t.Fatalf("%d fields changed: %v", tried, err)
	}
}

// TestLayCheckMistakes makes the mistakes that could be made between the drawing
// of a piece and the search, in the plan, its certificate or what was asked for.
func TestLayCheckMistakes(t *testing.T) {
	good := aLay()
	plan, err := good.Plan(t.Context(), LayOptions{Work: 4000})
	if err != nil {
		t.Fatal(err)
	}
	// A piece moved, wherever it is written down but in the certificate, or there too.
	move := func(p *LayPlan, roll, piece int, x, y units.Length, too bool) {
		q := &p.Rolls[roll].Laid[piece]
		q.At.X, q.At.Y = q.At.X+x, q.At.Y+y
		for k := range q.Cut {
			q.Cut[k].X, q.Cut[k].Y = q.Cut[k].X+x, q.Cut[k].Y+y
		}
		if too {
			c := &p.Certificate.Sheets[roll].Pieces[piece]
			c.X, c.Y = c.X+int64(math.Round(x.Millimetres()*100)), c.Y+int64(math.Round(y.Millimetres()*100))
		}
	}
	name := func(p *LayPlan, want string) (roll, piece int) {
		for i, u := range p.Rolls {
			for k, q := range u.Laid {
				if q.Name == want {
					return i, k
				}
			}
		}
		t.Fatalf("%s is not laid", want)
		return 0, 0
	}
	type change = func(*Lay, *LayPlan)
	tests := map[string]change{
		"one piece less":          func(_ *Lay, p *LayPlan) { u := &p.Rolls[0]; u.Laid = u.Laid[:len(u.Laid)-1] },
		"a roll less":             func(_ *Lay, p *LayPlan) { p.Rolls = p.Rolls[:1] },
		"two on one place":        func(_ *Lay, p *LayPlan) { p.Rolls[0].Laid[1] = p.Rolls[0].Laid[0] },
		"no certificate":          func(_ *Lay, p *LayPlan) { p.Certificate = LayCertificate{} },
		"a certificate of others": func(_ *Lay, p *LayPlan) { s := p.Certificate.Sheets; s[0], s[1] = s[1], s[0] },
		"certified smaller": func(_ *Lay, p *LayPlan) {
			q := &p.Certificate.Sheets[0].Pieces[0]
			for k := range q.Outline {
				q.Outline[k] = q.Outline[k] * 99 / 100
			}
		},
		"certified mirrored": func(_ *Lay, p *LayPlan) {
			i, k := name(p, "flap")
			q := &p.Certificate.Sheets[i].Pieces[k]
			for m := 1; m < len(q.Outline); m += 2 {
				q.Outline[m] = -q.Outline[m]
			}
		},
		"certified on wider cloth": func(_ *Lay, p *LayPlan) { p.Certificate.Sheets[0].Width += 10 },
		"a larger piece":           func(l *Lay, _ *LayPlan) { l.Pieces[1].Cut[7].X += 1 * milli },
		"one more wanted":          func(l *Lay, _ *LayPlan) { l.Pieces[2].Quantity++ },
		"one less wanted":          func(l *Lay, _ *LayPlan) { l.Pieces[0].Quantity-- },
		"the other hand wanted": func(l *Lay, _ *LayPlan) {
			q := &l.Pieces[0]
			q.Quantity, q.QuantityMirrored = q.QuantityMirrored, q.Quantity
		},
		"mirror image wanted": func(l *Lay, _ *LayPlan) {
			for k := range l.Pieces[0].Cut {
				l.Pieces[0].Cut[k].Y *= -1
			}
			l.Pieces[0].Grain *= -1
		},
		"a wider gap wanted": func(l *Lay, _ *LayPlan) { l.Gap += 100 * units.Micrometre },
		"another grain":      func(l *Lay, _ *LayPlan) { l.Pieces[0].Grain += 1e-3 },
		"other turns":        func(l *Lay, _ *LayPlan) { l.Pieces[1].Turns = []units.Angle{0} },
		"narrower cloth":     func(l *Lay, _ *LayPlan) { l.Rolls[1].Width -= 300 * milli },
		"a shorter offcut":   func(l *Lay, _ *LayPlan) { l.Rolls[1].Length -= 30 * milli },
		"broader selvedges":  func(l *Lay, _ *LayPlan) { l.Rolls[0].Selvedge += 1 * milli },
		"another price":      func(l *Lay, _ *LayPlan) { l.Rolls[0].Price++ },
		"other lengths sold": func(l *Lay, _ *LayPlan) { l.Rolls[0].Increment = 333 * milli },
		"other stripes":      func(l *Lay, _ *LayPlan) { l.Pieces[3].Match.Along += 7 * milli; l.Rolls[0].Length = 0 },
		"a flaw under a piece": func(l *Lay, p *LayPlan) {
			q := p.Rolls[0].Laid[0].Cut
			l.Rolls[0].Flaws = append(l.Rolls[0].Flaws, Flaw{Outline: []Point{q[0], q[1], q[2]}})
		},
		"a pin hole within a piece": func(l *Lay, p *LayPlan) {
			i, k := name(p, "disc")
			at := p.Rolls[i].Laid[k].At
			i = p.Rolls[i].Roll
			l.Rolls[i].Flaws = append(l.Rolls[i].Flaws, Flaw{Outline: []Point{at, {at.X + 1*milli, at.Y}, {at.X, at.Y + 1*milli}}})
		},
		"a piece within another": func(_ *Lay, p *LayPlan) {
			i, k := name(p, "disc")
			j, m := name(p, "flap")
			if i != j {
				t.Fatal("on different rolls")
			}
			to := p.Rolls[i].Laid[k].At
			from := p.Rolls[j].Laid[m].At
			move(p, j, m, to.X-from.X-0.05, to.Y-from.Y-0.05, true)
		},
		"a rest on a piece": func(_ *Lay, p *LayPlan) {
			u := &p.Rolls[0]
			u.Rest.From.X, u.Rest.Length = u.Rest.From.X-0.1, u.Rest.Length+0.1
		},
		"a rest on the selvedge": func(_ *Lay, p *LayPlan) { p.Rolls[0].Rest.Width = 1.2 },
	}
	for i, d := range [][2]units.Length{{1 * milli, 0}, {-1 * milli, 0}, {0, 1 * milli}, {0, -1 * milli}} {
		for r := range plan.Rolls {
			for k := range plan.Rolls[r].Laid {
				tests[fmt.Sprintf("moved %d: %d of %d", i, k, r)] = func(_ *Lay, p *LayPlan) { move(p, r, k, d[0], d[1], false) }
			}
		}
	}
	for name, change := range tests {
		l, p := copied(t, good), copied(t, plan)
		change(&l, &p)
		err := p.Check(l)
		var e *Error
		if !errors.Is(err, ErrLay) || !errors.As(err, &e) {
			t.Errorf("%s: %v", name, err)
		}
		if testing.Verbose() && !strings.HasPrefix(name, "moved") {
			t.Logf("%s: %v", name, err)
		}
	}
	bad := copied(t, good)
	bad.Pieces[0].Cut[0].X = units.Length(math.NaN())
	if err := plan.Check(bad); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
}

// TestCheckRing compares what Check decides on two outlines with rational
// arithmetic and with distances.
func TestCheckRing(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	seen := map[string]int{}
	for n := range 2000 {
		span := []int{4, 9, 30}[n%3] // small numbers make outlines touch
		var rings [2][]Point
		for k := range rings {
			rings[k] = randomSimple(r, 3+r.IntN(6), span)
		}
		a, b := rings[0], rings[1]
		if r.IntN(8) == 0 {
			b = a
		}
		one, two := flawRing(Flaw{Outline: a}), flawRing(Flaw{Outline: b})
		over := overlapsSlowly(a, b)
		if got := one.clear(&two, 0); got == over {
			t.Fatalf("clear is %v of %v and %v, which overlap: %v", got, a, b, over)
		}
		if one.clear(&two, 0) != two.clear(&one, 0) {
			t.Fatalf("clear depends on the order of %v and %v", a, b)
		}
		gap := units.Length(r.IntN(4)) * milli / 2
		if d := apart(a, b); gap > 0 && math.Abs(d-float64(gap)) > 1e-7 {
			if got, want := one.clear(&two, nm(gap)), d > float64(gap) && !over; got != want {
				t.Fatalf("clear by %v is %v of %v and %v, which are %v apart", gap, got, a, b, d)
			}
		}
		in := heldSlowly(a, b)
		if got := one.holds(&two, 0); got != in {
			t.Fatalf("%v holds %v: %v, want %v", a, b, got, in)
		}
		seen[fmt.Sprint(over, in)]++
	}
	if len(seen) < 3 || seen["true true"] < 50 {
		t.Error(seen)
	}
}
