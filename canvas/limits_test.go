package canvas

import (
	"context"
	"errors"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// fieldOf finds a field by what an error calls it, as in Edges[0].Tie.Parts.
func fieldOf(v reflect.Value, path string) reflect.Value {
	for _, m := range regexp.MustCompile(`\.?(\w+)|\[(\d+)\]`).FindAllStringSubmatch(path, -1) {
		if m[1] != "" {
			v = reflect.Indirect(v).FieldByName(m[1])
		} else {
			i, _ := strconv.Atoi(m[2])
			v = v.Index(i)
		}
	}
	return v
}

// bounds are a field and the least and the greatest value that its documentation or
// its refusal states; math.NaN() is one that another rule forbids before.
type bounds struct {
	field     string
	low, high float64
}

// limited gives each field its limits, which are accepted, and values just beyond
// them, which are refused by the field's name. Errors about other fields that the
// limits provoke do not matter, but that all are fine to begin with.
func limited[T any](t *testing.T, good T, call func(T) error, limits ...bounds) {
	t.Helper()
	what := reflect.TypeFor[T]().Name()
	if err := call(good); err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	for _, l := range limits {
		for i, at := range []float64{l.low, l.high} {
			if math.IsNaN(at) {
				continue
			}
			v := copied(t, good)
			p := fieldOf(reflect.ValueOf(&v).Elem(), l.field)
			blamed := func(x float64) bool {
				if p.CanInt() {
					p.SetInt(int64(x))
				} else {
					p.SetFloat(x)
				}
				err := call(v)
				var e *Error
				return errors.As(err, &e) && e.Field == l.field
			}
			beyond := math.Max(1e-9, 1e-9*math.Abs(at))
			if p.CanInt() {
				beyond = 1
			}
			if i == 0 {
				beyond = -beyond
			}
			if at == huge { // what is as large as may be takes long to work out
				at, beyond = most, 1e-7
			} else if blamed(at) {
				t.Errorf("%s.%s: %v is refused: %v", what, l.field, at, call(v))
			}
			if !blamed(at + beyond) {
				t.Errorf("%s.%s: beyond %v: %v", what, l.field, at, call(v))
			}
			if p.CanFloat() && !blamed(math.NaN()) {
				t.Errorf("%s.%s: no number: %v", what, l.field, call(v))
			}
		}
	}
}

const (
	least = 1e-5 // m, of what is there
	most  = 100  // m, of anything sewn
	huge  = -1   // most, of which only more is tried
)

var none = math.NaN()

func square(f Finish) Panel {
	return Panel{Name: "p", Edges: []Edge{
		{Name: "a", Finish: f}, {Name: "b", From: Point{X: 2}, Finish: f}, {Name: "c", From: Point{2, 1}, Finish: f}, {Name: "d", From: Point{Y: 1}, Finish: f},
	}}
}

// second is the error of what returns something and an error.
func second[T any](_ T, err error) error { return err }

func TestLimitsOfPanels(t *testing.T) {
	type args struct {
		Cloth Cloth
		P     Point
		Grain units.Angle
	}
	limited(t, args{Cloth{Name: "c", Thickness: 1e-3}, Point{1, 1}, 1}, func(a args) error {
		err := second(a.Cloth.Cut(a.P, a.Grain))
		var e *Error
		if errors.As(err, &e) && !strings.HasPrefix(e.Field, "Cloth") {
			return lower(err)
		}
		return err
	}, bounds{"Cloth.Thickness", 0, 0.02}, bounds{"Cloth.Warp", -0.3, 0.3}, bounds{"Cloth.Weft", -0.3, 0.3}, bounds{"Cloth.Fold", 0, 0.5},
		bounds{"P.X", -most, most}, bounds{"P.Y", -most, most}, bounds{"Grain", -10, 10})
	p := square(Finish{Kind: DoubleHem, Width: 0.03, Turn: 0.01})
	p.Edges[1].Course = Course{Curve: Arc, Depth: 0.1}
	p.Edges[2].Course = Course{Curve: Batten, Offsets: []Offset{{1, 0.1}}}
	p.Holes = []Hole{{Name: "h", At: Point{0.6, 0.5}, Width: 0.1, Length: 0.2, Margin: 0.05, Split: true}}
	p.Patches = []CornerPatch{{Corner: 0, Along: 0.2, Layers: 3, Step: 0.05}}
	p.Darts = []Dart{{Edge: "a", At: 0.5, Width: 0.04, Depth: 0.2}}
	p.Fittings = []Fitting{{Name: "eye", At: Point{1.5, 0.5}, Diameter: 0.01, Strap: []Point{{1, 1}, {2, 2}}}}
	p.Match = &Match{At: Point{0.4, 0.3}, Along: 0.01, Across: 0.02, Tolerance: 1e-3}
	lay := func(p Panel) error { return second(p.Area()) }
	limited(t, p, lay,
		bounds{"Quantity", 0, 10000}, bounds{"Mirrored", 0, 10000}, bounds{"Grain", -10, 10},
		bounds{"Edges[0].From.X", -most, most}, bounds{"Edges[2].From.Y", -most, most},
		bounds{"Edges[0].Finish.Width", none, most}, bounds{"Edges[0].Finish.Turn", least, 0.03},
		bounds{"Edges[0].Finish.Rope", 0, most}, bounds{"Edges[0].Finish.Gap", 0, most},
		bounds{"Edges[1].Course.Depth", none, 10}, bounds{"Edges[2].Course.Offsets[0].Out", -most, most},
		bounds{"Holes[0].At.X", -most, most}, bounds{"Holes[0].At.Y", -most, most}, bounds{"Holes[0].Width", least, most},
		bounds{"Holes[0].Margin", none, most}, bounds{"Holes[0].Length", 0.1, most}, bounds{"Holes[0].Angle", -10, 10},
		bounds{"Patches[0].Corner", 0, 3}, bounds{"Patches[0].Along", least, 1}, bounds{"Patches[0].Layers", 1, 20},
		bounds{"Patches[0].Step", least, 0.09},
		bounds{"Darts[0].At", 0.01, 0.99}, bounds{"Darts[0].Width", least, most}, bounds{"Darts[0].Depth", 0.04, none},
		bounds{"Fittings[0].At.X", -most, most}, bounds{"Fittings[0].At.Y", -most, most}, bounds{"Fittings[0].Diameter", 0, most},
		bounds{"Match.At.X", -most, most}, bounds{"Match.Along", 0, most}, bounds{"Match.Across", 0, most}, bounds{"Match.Tolerance", 0, most},
		bounds{"Fittings[0].Strap[1].X", -most, most}, bounds{"Fittings[0].Strap[0].Y", -most, most})
	// Offsets go forward, from the first corner to the next.
	p = square(Finish{})
	p.Edges[0].Course = Course{Curve: Batten, Offsets: []Offset{{0.5, 0.1}, {1, 0.1}, {1.5, 0.1}}}
	limited(t, p, lay, bounds{"Edges[0].Course.Offsets[0].Along", 4.0005e-6, none}, bounds{"Edges[0].Course.Offsets[1].Along", 0.5000040005, none},
		bounds{"Edges[0].Course.Offsets[2].Along", 1.0000040005, 1.9999959995})
	p.Edges[0].Course = Course{Curve: Catenary, Depth: -0.2}
	limited(t, p, lay, bounds{"Edges[0].Course.Depth", -2, none})
	p.Edges[0].Course.Depth = 0.2
	limited(t, p, lay, bounds{"Edges[0].Course.Depth", 2.00001e-6, 2})
	for _, n := range []int{2, 2001} { // two curved edges make a panel; too many make none
		p := Panel{Name: "round"}
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			p.Edges = append(p.Edges, Edge{From: Point{units.Length(cos), units.Length(sin)}, Course: Course{Curve: Arc, Depth: units.Length(1 - math.Cos(math.Pi/float64(n)))}})
		}
		a, err := p.Area()
		if n == 2 && (err != nil || math.Abs(float64(a)-math.Pi) > 1e-12) || n > 2 && !errors.Is(err, ErrInput) {
			t.Errorf("%d edges: %v, %v", n, a, err)
		}
	}
}

func TestLimitsOfFinishes(t *testing.T) {
	all := Finish{Width: 0.03, Turn: 0.01, Rope: 0.006, Gap: 0.008}
	for kind, limits := range map[FinishKind][]bounds{
		Raw:        {{"Width", 0, most}},
		PlainSeam:  {{"Width", least, most}},
		SingleHem:  {{"Width", least, most}, {"Turn", 0, most}},
		DoubleHem:  {{"Width", none, most}, {"Turn", least, 0.03}},
		FelledIn:   {{"Width", least, most}},
		FelledOver: {{"Width", none, most}, {"Turn", least, 0.03}},
		Lapped:     {{"Width", least, most}},
		French:     {{"Turn", least, none}},
		Sleeve:     {{"Rope", least, most}},
		Zip:        {{"Width", 0.004, most}, {"Gap", least, 0.06}},
	} {
		f := all
		f.Kind = kind
		limited(t, f, func(f Finish) error {
			err := second(f.Allowance(1e-3))
			var e *Error
			if errors.As(err, &e) { // named as a part of a finish
				short := *e
				short.Field = e.Field[len("Finish."):]
				// Of two that do not go together the error names the other.
				if kind == Zip && f.Gap > 0.06 {
					short.Field = "Gap"
				}
				return &short
			}
			return err
		}, limits...)
	}
	// A French seam hides its first one: the turn is less than the width.
	if _, err := (Finish{Kind: French, Width: 0.01, Turn: 0.01}).Allowance(0); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
	if a, err := (Finish{Kind: French, Width: 0.01, Turn: 0.009}).Allowance(0); err != nil || math.Abs(float64(a)-0.019) > 1e-15 {
		t.Error(a, err)
	}
	for _, k := range []FinishKind{Raw, PlainSeam, SingleHem, DoubleHem, Bound, Sleeve, FelledOver, FelledIn, Lapped, French, Zip, Webbing} {
		f := all
		f.Kind, f.Strip = k, true
		if _, err := f.Allowance(0); (err == nil) != slices.Contains([]FinishKind{SingleHem, DoubleHem, Sleeve}, k) {
			t.Errorf("%q with a strip: %v", k, err)
		}
		f.Strip, f.Clipped = false, true
		if _, err := f.Allowance(0); (err == nil) != slices.Contains([]FinishKind{SingleHem, Zip, Webbing}, k) {
			t.Errorf("%q clipped: %v", k, err)
		}
	}
	if _, err := (Finish{Kind: SingleHem, Width: 0.03, Turn: 0.01, Strip: true, Clipped: true}).Allowance(0); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
	type turn struct{ depth, radius units.Length }
	for _, k := range []struct {
		turn
		ok bool
	}{{turn{0.01, 0.0101}, true}, {turn{0.01, 0.01}, false}, {turn{0.01, -0.01}, false}, {turn{0.01, -0.0101}, true}, {turn{0.01, 1e6}, true}, {turn{0.01, 1.1e6}, false}, {turn{0, 1}, false}} {
		if _, err := FoldStrain(k.depth, k.radius); (err == nil) != k.ok {
			t.Errorf("%+v: %v", k, err)
		}
	}
}

func TestLimitsOfCovers(t *testing.T) {
	a, b := square(Finish{Kind: PlainSeam, Width: 0.015}), square(Finish{Kind: PlainSeam, Width: 0.015})
	a.Name, b.Name = "a", "b"
	v := Cover{Panels: []Panel{a, b}, Seams: []Seam{{Name: "s", A: Side{Panel: "a", Edges: []string{"b"}, Times: 1}, B: Side{Panel: "b", Edges: []string{"d"}, Backward: true}, Marks: 3}}}
	limited(t, v, Cover.Check, bounds{"Seams[0].Fullness", -0.5, 0.5}, bounds{"Seams[0].Marks", 0, 1000}, bounds{"Seams[0].A.Times", 0, 1000})
	// Sides of 1 m may differ by half a millimetre, by declared fullness besides.
	for _, k := range []struct {
		more, full float64
		ok         bool
	}{{0.00049, 0, true}, {0.00051, 0, false}, {-0.00049, 0, true}, {-0.00051, 0, false}, {0.02, 0.02, true}, {0.02, 0.0194, false}, {-0.02, -0.02, true}, {0.02, -0.02, false}} {
		v := copied(t, v)
		v.Panels[1].Edges[3].From.Y = units.Length(1 + k.more)
		v.Seams[0].Fullness = k.full
		err := v.Check()
		if (err == nil) != k.ok || err != nil && !errors.Is(err, ErrSeam) {
			t.Errorf("%+v: %v", k, err)
		}
	}
	for name, change := range map[string]func(*Cover){
		"Panels":             func(v *Cover) { v.Panels = slices.Repeat(v.Panels, 501) },
		"Seams":              func(v *Cover) { v.Seams = slices.Repeat(v.Seams, 1001) },
		"Panels[1].Name":     func(v *Cover) { v.Panels[1].Name = "a" },
		"Panels[0].Name":     func(v *Cover) { v.Panels[0].Name = "" },
		"Panels[1].Quantity": func(v *Cover) { v.Panels[1].Quantity = -1 },
		"Seams[0].A.Panel":   func(v *Cover) { v.Seams[0].A.Panel = "c" },
		"Seams[0].B.Edges":   func(v *Cover) { v.Seams[0].B.Edges = nil },
		"Seams[0].B.Edges[0]": func(v *Cover) {
			v.Panels[1].Edges[3].Name = ""
			v.Seams[0].B.Edges[0] = ""
		},
		"Seams[0].A.Edges[1]": func(v *Cover) { v.Seams[0].A.Edges = []string{"b", "d"} },
		"Seams[0].A.Edges":    func(v *Cover) { v.Seams[0].A.Edges, v.Seams[0].A.Times = []string{"b", "c"}, 2 },
	} {
		v := copied(t, v)
		change(&v)
		_, err := v.SeamLengths()
		var e *Error
		if !errors.As(err, &e) || e.Field != name {
			t.Errorf("%s: %v", name, err)
		}
	}
	// The last edge is followed by the first.
	v.Seams[0].A.Edges, v.Seams[0].B.Edges = []string{"d", "a"}, []string{"b", "c"}
	if got, err := v.SeamLengths(); err != nil || math.Abs(float64(got[0][0])-3) > 1e-12 || math.Abs(float64(got[0][1])-3) > 1e-12 {
		t.Error(got, err)
	}
}

func TestLimitsOfSolids(t *testing.T) {
	box := RoundedBox{Name: "b", Length: 0.6, Width: 0.4, Height: 0.3, Radius: 0.06, Ease: 0.01, Base: DrawCord, Tuck: 0.05, Seam: 0.012, Hem: 0.02}
	limited(t, box, func(b RoundedBox) error { return second(b.Cover()) },
		bounds{"Length", least, huge}, bounds{"Width", least, huge}, bounds{"Height", least, huge}, bounds{"Radius", least, 0.1994999995},
		bounds{"Ease", 0, huge}, bounds{"Tuck", 0, huge}, bounds{"Seam", least, huge}, bounds{"Hem", least, huge})
	box.Base, box.Tuck, box.Hem, box.Gap = ZipBase, 0, 0, 0.01
	limited(t, box, func(b RoundedBox) error { return second(b.Cover()) }, bounds{"Gap", least, huge}, bounds{"Tuck", 0, 0})
	cylinder := Cylinder{Name: "c", Diameter: 0.3, Height: 0.4, Ease: 0.01, Rise: 0.1, Gores: 8, Opening: 0.1, Seam: 0.012, Hem: 0.02}
	limited(t, cylinder, func(c Cylinder) error { return second(c.Cover()) },
		bounds{"Diameter", least, none}, bounds{"Height", least, huge}, bounds{"Ease", 0, none}, bounds{"Rise", 0, none}, bounds{"Gores", 3, 200},
		bounds{"Opening", 0, 0.279}, bounds{"Seam", least, huge}, bounds{"Hem", least, huge})
	cylinder.Rise, cylinder.Gores = 0, 0
	limited(t, cylinder, func(c Cylinder) error { return second(c.Cover()) }, bounds{"Gores", 0, 0})
	bottle := BottleCover{
		Name: "bottle", Diameter: 0.3, Height: 0.4, Rise: 0.15, Gores: 8, Ease: 0.01, Clearance: 0.04, Valve: 0.11, Hose: 0.03, HoseHeight: 0.3, Seam: 0.012, Hem: 0.02,
	}
	cover := func(b BottleCover) error { return second(b.Cover()) }
	limited(t, bottle, cover, bounds{"Height", least, huge}, bounds{"Clearance", 0.01, 0.2}, bounds{"Valve", 0.1, huge}, bounds{"Hose", least, huge},
		bounds{"HoseHeight", least, huge}, bounds{"Rise", 0.0031000001, none}, bounds{"Diameter", least, none}, bounds{"Ease", 0, none}, bounds{"Gores", 3, 200})
	bottle.Closed, bottle.Clearance, bottle.Vent, bottle.Gap = true, 0, 0.03, 0.008
	limited(t, bottle, cover, bounds{"Vent", 0.019, none}, bounds{"Clearance", 0, 0}, bounds{"Gap", least, huge})
	limited(t, Dome{Name: "d", Diameter: 2, Rise: 1, Gores: 8, Opening: 0.2, Seam: 0.012}, func(d Dome) error { return second(d.Cover()) },
		bounds{"Diameter", least, huge}, bounds{"Rise", 0.0200000005, huge}, bounds{"Gores", 3, 200}, bounds{"Seam", least, huge}, bounds{"Opening", 0, none})
	limited(t, Dome{Name: "d", Diameter: 0.2, Rise: 1, Gores: 8, Seam: 0.012}, func(d Dome) error { return second(d.Deviation()) },
		bounds{"Rise", none, 19.99999999}, bounds{"Gores", 3, 200}, bounds{"Opening", none, 0.197999999})
	limited(t, Sphere{Name: "s", Diameter: 0.5, Gores: 8, Seam: 0.012}, func(s Sphere) error { return second(s.Cover()) },
		bounds{"Diameter", least, huge}, bounds{"Gores", 3, 200}, bounds{"Seam", least, huge})
	limited(t, Frustum{Name: "f", Bottom: 0.5, Top: 0.3, Height: 0.4, Seam: 0.012}, func(f Frustum) error { return second(f.Cover()) },
		bounds{"Bottom", least, huge}, bounds{"Top", 0, huge}, bounds{"Height", least, huge}, bounds{"Seam", least, huge})
	limited(t, ObliqueCone{Name: "o", Bottom: 0.5, Top: 0.3, Height: 0.4, OffsetX: 0.05, OffsetY: 0.1, Seam: 0.012}, func(k ObliqueCone) error { return second(k.Cover()) },
		bounds{"Bottom", least, huge}, bounds{"Top", 0, none}, bounds{"Height", least, huge}, bounds{"OffsetX", -most, huge}, bounds{"OffsetY", -most, huge}, bounds{"Seam", least, huge})
	limited(t, Transition{Name: "t", Length: 0.5, Width: 0.4, Diameter: 0.3, Height: 0.4, Seam: 0.012}, func(k Transition) error { return second(k.Cover()) },
		bounds{"Length", least, huge}, bounds{"Width", least, huge}, bounds{"Diameter", least, huge}, bounds{"Height", least, huge},
		bounds{"OffsetX", -most, huge}, bounds{"OffsetY", -most, huge}, bounds{"Seam", least, huge})
}

func TestLimitsOfAwnings(t *testing.T) {
	a := Awning{
		Name: "awning", Edge: Finish{Kind: Webbing, Width: 0.04}, Canopy: Canopy{Pitch: 10 * units.Degree, Blockage: 0.3}, Above: 2, Heel: 5 * units.Degree, Flutter: 1.5,
		Weight: 6, Prestress: 200, Stiffness: 10e3, Strength: 25e3, Layers: 3, Safety: 4,
	}
	for i, c := range []Point{{}, {X: 4}, {4, 3}, {Y: 3}} {
		a.Edges = append(a.Edges, AwningEdge{Name: string(rune('a' + i)), From: c, Hollow: 0.08, Tape: 12e3, Tie: Tie{Eyelet: 3e3, Strap: 8e3, Lashing: 4e3, Parts: 4, Fixing: 2e3}})
	}
	a.Openings = []AwningOpening{{Name: "stay", At: Point{2, 2}, Diameter: 0.02, Lean: 65 * units.Degree, Clearance: 0.03, Overlap: 0.08, Edge: "c"}}
	wind := Wind{Mean: 8, Height: 10}
	deg := float64(units.Degree)
	limited(t, a, func(a Awning) error { return second(a.Plan(wind)) },
		bounds{"Edges[0].From.X", -most, huge}, bounds{"Edges[2].From.Y", -most, huge}, bounds{"Edges[1].Hollow", 0.02, 0.25}, bounds{"Edges[1].Tape", 0, 1e6},
		bounds{"Edges[1].Tie.Eyelet", 0, 1e6}, bounds{"Edges[1].Tie.Strap", 0, 1e6}, bounds{"Edges[3].Tie.Lashing", 0, 1e6}, bounds{"Edges[3].Tie.Parts", 1, 100},
		bounds{"Edges[1].Tie.Fixing", 1, 1e6}, bounds{"Above", 0.1, 100}, bounds{"Heel", 0, none}, bounds{"Flutter", 1, 5}, bounds{"Weight", 0.1, 200},
		bounds{"Prestress", none, 100e3}, bounds{"Strength", 100, 1e6}, bounds{"Stiffness", 100, 1e8}, bounds{"Layers", 1, 10}, bounds{"Safety", 1, 20},
		bounds{"Openings[0].Diameter", least, huge}, bounds{"Openings[0].Lean", 10 * deg, none}, bounds{"Openings[0].Clearance", 0, huge}, bounds{"Openings[0].Overlap", least, huge},
		bounds{"Canopy.Blockage", 0, 1}, bounds{"Canopy.Pitch", 0, 30 * deg})
	level := a
	level.Canopy.Pitch = 0
	limited(t, level, func(a Awning) error { return second(a.Plan(wind)) }, bounds{"Heel", 0, 30 * deg})
	soft := a
	soft.Prestress, soft.Sag, soft.Weight, soft.Stiffness = 0, 0.3, 200, 4000
	limited(t, soft, func(a Awning) error { return second(a.frame()) }, bounds{"Sag", none, 0.6})
	a.Prestress, a.Sag = 0, 0.05
	limited(t, a, func(a Awning) error { return second(a.Plan(wind)) }, bounds{"Sag", 0.0003, none})
	a.Edges[0].Tie.Lashing, a.Edges[0].Tie.Parts = 0, 0 // no parts of what is not there
	if _, err := a.Plan(wind); err != nil {
		t.Error(err)
	}
	for n := 2; n <= 9; n++ {
		b := a
		b.Openings, b.Edges = nil, nil
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			e := a.Edges[0]
			e.From, e.Hollow = Point{units.Length(3 * cos), units.Length(3 * sin)}, 0.02
			b.Edges = append(b.Edges, e)
		}
		if _, err := b.Plan(wind); (err == nil) != (n >= 3 && n <= 8) {
			t.Errorf("%d edges: %v", n, err)
		}
	}
	m := Membrane{Span: 3, Prestress: 200, Stiffness: 10e3}
	limited(t, m, func(m Membrane) error { return second2(m.Pull(50)) }, bounds{"Span", least, huge}, bounds{"Prestress", 0, 1e6}, bounds{"Stiffness", 100, 1e8})
	type pull struct {
		Span, Sag units.Length
		Pressure  units.Pressure
	}
	limited(t, pull{3, 0.1, 10}, func(p pull) error { return lower(second(SagPull(p.Span, p.Sag, p.Pressure))) },
		bounds{"Span", least, huge}, bounds{"Sag", 0.0003, 0.6}, bounds{"Pressure", 0.01, 1e5})
	limited(t, pull{3, 0.1, 50}, func(p pull) error { return lower(second(m.Measured(p.Pressure, p.Sag))) }, bounds{"Sag", 0.0003, none}, bounds{"Pressure", none, 1e5})
	limited(t, pull{3, 0.1, 10}, func(p pull) error { return lower(second(WaterPull(p.Span))) }, bounds{"Span", least, huge})
	limited(t, pull{3, 0.1, 10}, func(p pull) error { return lower(second2(Membrane{p.Span, 200, 1e8}.Pull(p.Pressure))) }, bounds{"Pressure", 0, 1e5})
	type edge struct {
		Chord, Hollow units.Length
		Pull          units.ForcePerLength
	}
	for _, f := range []func(units.Length, units.Length, units.ForcePerLength) (EdgeLoad, error){ArcEdge, ParabolaEdge} {
		limited(t, edge{3, 0.3, 1000}, func(e edge) error { return lower(second(f(e.Chord, e.Hollow, e.Pull))) },
			bounds{"Chord", least, huge}, bounds{"Hollow", 0.003, 1.5}, bounds{"Pull", 0, 1e6})
	}
	type at struct {
		Wind   Wind
		Height units.Length
	}
	limited(t, at{wind, 2}, func(a at) error { return lower(second(a.Wind.At(a.Height))) },
		bounds{"Wind.Mean", 0, 60}, bounds{"Wind.Height", 0.1, 200}, bounds{"Height", 0.1, 200})
	if _, err := (Wind{Mean: 8, Height: 10, Terrain: "moor"}).At(2); !errors.Is(err, ErrUnknown) {
		t.Error(err)
	}
	roof := func(k Canopy) error {
		err := second(k.Coefficients())
		var e *Error
		if errors.As(err, &e) {
			short := *e
			short.Field = e.Field[len("Canopy."):]
			return &short
		}
		return err
	}
	limited(t, Canopy{Pitch: 10 * units.Degree}, roof, bounds{"Blockage", 0, 1}, bounds{"Pitch", 0, 30 * deg})
	limited(t, Canopy{Roof: Duopitch, Pitch: 10 * units.Degree}, roof, bounds{"Pitch", 5 * deg, 30 * deg})
	limited(t, Canopy{Roof: Duopitch, Pitch: -10 * units.Degree}, roof, bounds{"Pitch", -20 * deg, -5 * deg})
	if _, err := (Canopy{Roof: "dome"}).Coefficients(); !errors.Is(err, ErrUnknown) {
		t.Error(err)
	}
}

func second2[A, B any](_ A, _ B, err error) error { return err }

// lower lets a struct of a test stand for arguments: their names begin with a small letter.
func lower(err error) error {
	var e *Error
	if errors.As(err, &e) {
		big := *e
		big.Field = string(e.Field[0]&^0x20) + e.Field[1:]
		return &big
	}
	return err
}

func TestLimitsOfSurveys(t *testing.T) {
	s := Survey{
		Corners: []string{"A", "B", "C", "D"}, Sigma: 1e-3,
		Tapes:   []Tape{{"A", "B", 3, 0}, {"B", "C", 2, 1e-3}, {"C", "D", 3, 0}, {"D", "A", 2, 0}, {"A", "C", units.Length(math.Sqrt(13)), 0}, {"B", "D", units.Length(math.Sqrt(13)), 0}},
		Heights: []Height{{"A", 0, 1e-3}, {"B", 0, 0}, {"C", 0, 0}, {"D", 0, 0}},
		Gaps:    []Gap{{[2]string{"A", "C"}, [2]string{"B", "D"}, 0, 1e-3}},
		Sketch:  []Point{{}, {X: 3}, {3, 2}, {Y: 2}},
	}
	adjust := func(s Survey) error { return second(s.Adjust()) }
	limited(t, s, adjust, bounds{"Sigma", least, most}, bounds{"Tapes[1].Distance", least, most}, bounds{"Tapes[1].Sigma", least, most},
		bounds{"Heights[1].Above", -most, most}, bounds{"Heights[0].Sigma", least, most}, bounds{"Gaps[0].Above", -most, most}, bounds{"Gaps[0].Sigma", least, most},
		bounds{"Sketch[0].X", -most, most}, bounds{"Sketch[3].Y", -most, most})
	for name, change := range map[string]func(*Survey){
		"Corners":           func(s *Survey) { s.Corners = s.Corners[:2] },
		"Corners[2]":        func(s *Survey) { s.Corners[2] = "A" },
		"Corners[3]":        func(s *Survey) { s.Corners[3] = "" },
		"Tapes":             func(s *Survey) { s.Tapes = s.Tapes[:2] },
		"Tapes[1]":          func(s *Survey) { s.Tapes[1].From = "X" },
		"Tapes[2]":          func(s *Survey) { s.Tapes[2].To = "X" },
		"Tapes[3]":          func(s *Survey) { s.Tapes[3].To = "D" },
		"Heights[1].Corner": func(s *Survey) { s.Heights[1].Corner = "X" },
		"Heights":           func(s *Survey) { s.Heights = []Height{{"A", 0, 0}, {"A", 0, 0}, {"B", 0, 0}} },
		"Gaps[0].First":     func(s *Survey) { s.Gaps[0].First[1] = "A" },
		"Gaps[0].Second":    func(s *Survey) { s.Gaps[0].Second[1] = "X" },
		"Gaps[0]":           func(s *Survey) { s.Gaps[0].Second[1] = "A" },
		"Sketch":            func(s *Survey) { s.Sketch = s.Sketch[:3] },
	} {
		s := copied(t, s)
		change(&s)
		var e *Error
		if err := adjust(s); !errors.As(err, &e) || e.Field != name {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Heights of three corners are enough for a plane, wherever the strings cross.
	s.Heights = s.Heights[:3]
	if err := adjust(s); err != nil {
		t.Error(err)
	}
	s.Gaps[0].Second[0] = "C"
	var e *Error
	if err := adjust(s); !errors.As(err, &e) || e.Field != "Gaps[0]" {
		t.Error(err)
	}
}

func TestLimitsOfMeshes(t *testing.T) {
	m := Mesh{
		Name: "m", Points: []Space{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, Triangles: [][3]int{{0, 1, 2}, {0, 2, 3}},
		Lines: []Line{{Name: "foot", Points: []int{0, 1}, Finish: Finish{Kind: SingleHem, Width: 0.02}}}, Warp: [2]int{0, 1},
	}
	limited(t, m, func(m Mesh) error { return second(m.Flatten(Limits{})) },
		bounds{"Points[0].X", -most, most}, bounds{"Points[1].Y", -most, most}, bounds{"Points[2].Z", -most, most},
		bounds{"Triangles[0][1]", 0, 3}, bounds{"Triangles[1][2]", 0, 3}, bounds{"Lines[0].Finish.Width", least, most}, bounds{"Lines[0].Points[0]", 0, 3},
		bounds{"Warp[1]", 0, 3})
	type flat struct{ Limits Limits }
	limited(t, flat{}, func(f flat) error { return second(m.Flatten(f.Limits)) },
		bounds{"Limits.Warp", 0, 1}, bounds{"Limits.Weft", 0, 1}, bounds{"Limits.Shear", 0, math.Pi / 4}, bounds{"Limits.Ease", 0, 1})
	for name, change := range map[string]func(*Mesh){
		"Points":          func(m *Mesh) { m.Points = m.Points[:2] },
		"Triangles":       func(m *Mesh) { m.Triangles = nil },
		"Lines[0].Name":   func(m *Mesh) { m.Lines[0].Name = "" },
		"Lines[0].Points": func(m *Mesh) { m.Lines[0].Points = m.Lines[0].Points[:1] },
	} {
		m := copied(t, m)
		change(&m)
		for _, err := range []error{second(m.Flatten(Limits{})), second(m.Suggest())} {
			var e *Error
			if !errors.As(err, &e) || e.Field != name {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	// A triangle is a ten-thousandth as high as it is long, and 0.01 mm long, at least.
	for _, k := range []struct {
		long, high units.Length
		ok         bool
	}{{1, 1.001e-4, true}, {1, 0.999e-4, false}, {1.01e-5, 1e-5, true}, {0.99e-5, 0.5e-5, false}} {
		m := Mesh{Points: []Space{{}, {X: k.long}, {X: k.long / 2, Y: k.high}}, Triangles: [][3]int{{0, 1, 2}}}
		if err := m.check(); (err == nil) != k.ok || err != nil && !errors.Is(err, ErrMesh) {
			t.Errorf("%+v: %v", k, err)
		}
	}
	grid := func(rows, columns int) error {
		g := make([][]Space, rows)
		for i := range g {
			for j := range columns {
				g[i] = append(g[i], Space{X: units.Length(j) / 100, Y: units.Length(i) / 100})
			}
		}
		return second(Grid(g))
	}
	for _, k := range []struct {
		rows, columns int
		ok            bool
	}{{1, 2, false}, {2, 1, false}, {2, 2, true}, {101, 101, true}, {101, 102, false}} {
		if err := grid(k.rows, k.columns); (err == nil) != k.ok {
			t.Errorf("%d by %d: %v", k.rows, k.columns, err)
		}
	}
	type rows struct{ Rows [2][2]Space }
	limited(t, rows{[2][2]Space{{{}, {X: 1}}, {{Y: 1}, {X: 1, Y: 1}}}}, func(r rows) error { return lower(second(Grid([][]Space{r.Rows[0][:], r.Rows[1][:]}))) },
		bounds{"Rows[0][0].X", -most, most}, bounds{"Rows[1][0].Y", -most, most}, bounds{"Rows[1][1].Z", -most, most})
	if err := second(Grid([][]Space{{{}, {X: 1}}, {{Y: 1}}})); err == nil {
		t.Error("rows of two lengths")
	}
}

func TestLimitsOfSewing(t *testing.T) {
	type args struct {
		Length, Most, Thickness, Girth, Chord, Rise, Depth, Radius, Deviation units.Length
		Thread                                                                units.LinearDensity
	}
	good := args{1, 0.1, 1e-3, 1, 1, 0.1, 0.01, 1, 1e-3, 90e-6}
	limited(t, good, func(a args) error { return lower(second2(Spacing(a.Length, a.Most))) },
		bounds{"Length", least, most}, bounds{"Most", 1e-4, most})
	limited(t, good, func(a args) error { return lower(second(Diameter(a.Girth, a.Thickness))) }, bounds{"Girth", least, most}, bounds{"Thickness", 0, none})
	limited(t, good, func(a args) error { return lower(second(ArcRadius(a.Chord, a.Rise))) }, bounds{"Chord", least, most}, bounds{"Rise", least, most})
	limited(t, good, func(a args) error { return lower(second(FoldStrain(a.Depth, a.Radius))) }, bounds{"Depth", least, most}, bounds{"Radius", none, 1e6})
	limited(t, good, func(a args) error { return lower(second(ClipSpacing(a.Radius, a.Deviation))) }, bounds{"Radius", least, most}, bounds{"Deviation", least, 1})
	limited(t, args{Length: 4e-3, Thickness: 1e-3}, func(a args) error { return lower(second(ThreadRatio(Lockstitch, a.Thickness, a.Length))) },
		bounds{"Length", 0.5e-3, 0.05}, bounds{"Thickness", 0, 0.05})
	limited(t, good, func(a args) error { return lower(second(Ticket(a.Thread))) }, bounds{"Thread", 1e-6, 10000e-6})
	limited(t, good, func(a args) error { return lower(second(Needle(a.Thread))) }, bounds{"Thread", 10e-6, 280e-6})
	limited(t, BiasBinding{Length: 5, Width: 0.05, Roll: 1.5}, func(b BiasBinding) error { return second2(b.Cloth()) },
		bounds{"Length", 1e-3, 1e4}, bounds{"Width", least, 0.75}, bounds{"Roll", none, most})
	type seam struct {
		Sewing
		Seam units.Length
	}
	limited(t, seam{Sewing{Lockstitch, 4e-3, 0.1}, 10}, func(s seam) error { return lower(second(s.Sewing.Thread(s.Seam, 1e-3))) },
		bounds{"Seam", 0, 1e6}, bounds{"Waste", 0, 10})
	type list struct {
		Thread Ware
		Needed units.Length
	}
	bill := func(l list) error { return second(PriceList{Thread: l.Thread}.Bill(Quantities{Thread: l.Needed}, nil)) }
	limited(t, list{Ware{Lot: 1000, Low: 18}, 100}, bill, bounds{"Thread.Low", 0, 1e9})
	limited(t, list{Ware{Lot: 1000, Low: 18, High: 20}, 100}, bill, bounds{"Thread.High", 18, 1e9}, bounds{"Thread.Lot", 1e-3, 1e6})
	p := square(Finish{})
	type inset struct{ Inset, Most units.Length }
	limited(t, inset{0.02, 0.3}, func(i inset) error { return lower(second(p.Fasteners([]string{"a", "b"}, i.Inset, i.Most))) },
		bounds{"Inset", least, none}, bounds{"Most", none, most})
	type thin struct{ Deviation units.Length }
	piece := Piece{Cut: rectangle(1, 1)}
	limited(t, thin{1e-3}, func(x thin) error { return lower(second(piece.MarkingOut(x.Deviation))) }, bounds{"Deviation", least, most})
}

func TestLimitsOfLays(t *testing.T) {
	l := Lay{
		Rolls: []Roll{{
			Name: "r", Width: 1, Length: 3, Selvedge: 0.01, Price: 10, Increment: 0.1, Value: 1, Along: 0.2, Across: 0.1,
			Flaws: []Flaw{{Name: "f", Outline: []Point{{2.8, 0.8}, {2.9, 0.8}, {2.9, 0.9}}}},
		}},
		Pieces: []Cutting{
			{Name: "p", Cut: rectangle(0.5, 0.4), Quantity: 1, QuantityMirrored: 1, Match: &Match{At: Point{0.1, 0.1}, Along: 0.01, Across: 0.01, Tolerance: 1e-3}},
			{Name: "q", Cut: rectangle(0.2, 0.2), Lie: Listed, Turns: []units.Angle{0.5}},
		},
		Gap: 2e-3, Deviation: 1e-3,
	}
	check := func(l Lay) error {
		err := l.check()
		var e *Error
		if errors.As(err, &e) { // the names of pieces are in the way
			short := *e
			short.Field = regexp.MustCompile(` \(\w+\)`).ReplaceAllString(e.Field, "")
			return &short
		}
		return err
	}
	limited(t, l, check,
		bounds{"Gap", 0, 0.1}, bounds{"Deviation", 0, 0.01}, bounds{"Rolls[0].Width", none, most}, bounds{"Rolls[0].Length", 0, most},
		bounds{"Rolls[0].Selvedge", 0, 0.499}, bounds{"Rolls[0].Price", 0, 1e9}, bounds{"Rolls[0].Value", 0, 1e9}, bounds{"Rolls[0].Increment", 0, most},
		bounds{"Rolls[0].Along", 0, most}, bounds{"Rolls[0].Across", 0, most},
		bounds{"Rolls[0].Pattern.X", -most, most}, bounds{"Rolls[0].Pattern.Y", -most, most},
		bounds{"Pieces[0].Quantity", 0, none}, bounds{"Pieces[0].QuantityMirrored", 0, none}, bounds{"Pieces[0].Grain", -10, 10}, bounds{"Pieces[1].Turns[0]", none, none},
		bounds{"Pieces[0].Match.Along", 0, most}, bounds{"Pieces[0].Match.Across", 0, most}, bounds{"Pieces[0].Match.Tolerance", 0, most})
	for field, change := range map[string]func(*Lay, units.Length){
		"Rolls[0].Flaws[0].Outline.X": func(l *Lay, x units.Length) { l.Rolls[0].Flaws[0].Outline[1].X = x },
		"Pieces[0].Cut.Y":             func(l *Lay, x units.Length) { l.Pieces[0].Cut[3].Y = x },
		"Pieces[0].Match.At.X":        func(l *Lay, x units.Length) { l.Pieces[0].Match.At.X = x },
		"Pieces[1].Turns":             func(l *Lay, x units.Length) { l.Pieces[1].Turns[0] = units.Angle(x / 10) },
		"Rolls[0].Along":              func(l *Lay, x units.Length) { l.Rolls[0].Along = 0.2 + (x-100)/100 },
		"Rolls[0].Across": func(l *Lay, x units.Length) {
			if x > 100 {
				l.Rolls[0].Across = 1e-14 // nothing, in units of 0.01 mm
			}
		},
	} {
		for _, x := range []units.Length{100, 100.0001} {
			l := copied(t, l)
			change(&l, x)
			err := check(l)
			var e *Error
			if bad := errors.As(err, &e); bad != (x > 100) || bad && e.Field != field {
				t.Errorf("%s at %v: %v", field, x, err)
			}
		}
	}
	for field, change := range map[string]func(*Lay, int){
		"Rolls": func(l *Lay, n int) { l.Rolls = slices.Repeat(l.Rolls, 100*n) },
		"Pieces": func(l *Lay, n int) {
			l.Pieces = slices.Repeat([]Cutting{{Cut: rectangle(0.1, 0.1)}}, 10000*n)
		},
		"Pieces in all":             func(l *Lay, n int) { l.Pieces[0].Quantity = 9996 + 2*n },
		"Pieces[0].Quantity":        func(l *Lay, n int) { l.Pieces[0].Quantity, l.Pieces[0].QuantityMirrored = 9998+3*(n-1), 0 },
		"Pieces[1].Turns":           func(l *Lay, n int) { l.Pieces[1].Turns = make([]units.Angle, 360+n-1) },
		"Rolls[0].Flaws[0].Outline": func(l *Lay, n int) { l.Rolls[0].Flaws[0].Outline = l.Rolls[0].Flaws[0].Outline[:4-n] },
		"Pieces[0].Cut":             func(l *Lay, n int) { l.Pieces[0].Cut = l.Pieces[0].Cut[:4-n] },
	} {
		for n := 1; n <= 2; n++ {
			l := copied(t, l)
			change(&l, n)
			err := check(l)
			var e *Error
			if bad := errors.As(err, &e); bad != (n > 1) || bad && e.Field != field {
				t.Errorf("%s, %d: %v", field, n, err)
			}
		}
	}
	for lie, turns := range map[Lie]bool{EitherWay: false, OneWay: false, AnyWay: false, Listed: true} {
		l := copied(t, l)
		l.Pieces[1].Lie = lie
		if err := check(l); (err == nil) != turns {
			t.Errorf("%q with turns: %v", lie, err)
		}
		l.Pieces[1].Turns = nil
		if err := check(l); (err == nil) == turns {
			t.Errorf("%q without: %v", lie, err)
		}
	}
	var e *Error
	if _, err := l.PlanCovers(context.Background(), []Cover{{Panels: []Panel{square(Finish{})}}}, Cloth{Warp: 1}, Finish{}, LayOptions{}); !errors.As(err, &e) || e.Field != "covers[0].Cloth.Warp" {
		t.Error(err)
	}
}
