package canvas_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

func awningHandlers() map[string]refcheck.Handler {
	h := map[string]refcheck.Handler{
		"canvas.Membrane.Pull#pull": func(in refcheck.Inputs) (any, error) {
			pull, _, err := membrane(in).Pull(in.Pressure("pressure"))
			return pull, err
		},
		"canvas.Membrane.Pull#sag": func(in refcheck.Inputs) (any, error) {
			_, sag, err := membrane(in).Pull(in.Pressure("pressure"))
			return sag, err
		},
		"canvas.Membrane.Measured": func(in refcheck.Inputs) (any, error) {
			return canvas.Membrane{Span: in.Length("span"), Prestress: in.ForcePerLength("prestress")}.
				Measured(in.Pressure("pressure"), in.Length("sag"))
		},
		"canvas.SagPull": func(in refcheck.Inputs) (any, error) {
			return canvas.SagPull(in.Length("span"), in.Length("sag"), in.Pressure("pressure"))
		},
		"canvas.WaterPull": func(in refcheck.Inputs) (any, error) { return canvas.WaterPull(in.Length("span")) },
	}
	for name, edge := range map[string]func(a, b units.Length, c units.ForcePerLength) (canvas.EdgeLoad, error){
		"ArcEdge": canvas.ArcEdge, "ParabolaEdge": canvas.ParabolaEdge,
	} {
		for part, of := range map[string]func(canvas.EdgeLoad) any{
			"middle": func(e canvas.EdgeLoad) any { return e.Middle },
			"end":    func(e canvas.EdgeLoad) any { return e.End },
			"angle":  func(e canvas.EdgeLoad) any { return e.Angle },
			"length": func(e canvas.EdgeLoad) any { return e.Length },
			"area":   func(e canvas.EdgeLoad) any { return e.Area },
		} {
			if name == "ArcEdge" && part == "middle" {
				continue
			}
			h["canvas."+name+"#"+part] = func(in refcheck.Inputs) (any, error) {
				e, err := edge(in.Length("chord"), in.Length("hollow"), in.ForcePerLength("pull"))
				return of(e), err
			}
		}
	}
	h["canvas.ArcEdge#stress"] = func(in refcheck.Inputs) (any, error) {
		e, err := canvas.ArcEdge(in.Length("chord"), in.Length("hollow"), in.ForcePerLength("pull"))
		return units.Pressure(float64(e.End) / float64(in.Length("thickness").TimesLength(in.Length("width")))), err
	}
	for part, of := range map[string]func(canvas.Gust) any{
		"mean":      func(g canvas.Gust) any { return g.Mean },
		"intensity": func(g canvas.Gust) any { return g.Intensity },
		"gust":      func(g canvas.Gust) any { return g.Gust },
		"pressure":  func(g canvas.Gust) any { return g.Pressure },
	} {
		h["canvas.Wind.At#"+part] = func(in refcheck.Inputs) (any, error) {
			w := canvas.Wind{Mean: in.Speed("mean"), Height: in.Length("height")}
			if in.Has("terrain") {
				w.Terrain = canvas.Terrain(in.Text("terrain"))
			}
			g, err := w.At(in.Length("at"))
			return of(g), err
		}
	}
	for part, of := range map[string]func(canvas.Coefficients) float64{
		"down":       func(k canvas.Coefficients) float64 { return k.Down },
		"up":         func(k canvas.Coefficients) float64 { return k.Up },
		"middleDown": func(k canvas.Coefficients) float64 { return k.MiddleDown },
		"middleUp":   func(k canvas.Coefficients) float64 { return k.MiddleUp },
		"edgeDown":   func(k canvas.Coefficients) float64 { return k.EdgeDown },
		"edgeUp":     func(k canvas.Coefficients) float64 { return k.EdgeUp },
	} {
		h["canvas.Canopy.Coefficients#"+part] = func(in refcheck.Inputs) (any, error) {
			roof := canvas.Canopy{Pitch: in.Angle("pitch"), Blockage: in.Float("blockage")}
			if in.Has("roof") {
				roof.Roof = canvas.Roof(in.Text("roof"))
			}
			k, err := roof.Coefficients()
			return of(k), err
		}
	}
	for part, of := range map[string]func(canvas.AwningPlan) any{
		"area": func(p canvas.AwningPlan) any { return p.Area },
		"lost": func(p canvas.AwningPlan) any { return p.Lost },
		"corner": func(p canvas.AwningPlan) any {
			c := p.Cases[0].Corners[1]
			return units.Force(math.Hypot(float64(c.X), float64(c.Y)))
		},
	} {
		h["canvas.Awning.Plan#"+part] = func(in refcheck.Inputs) (any, error) {
			a := sunshade(in.Length("length"), in.Length("width"), in.Float("hollow"))
			p, err := a.Plan(canvas.Wind{Height: 10})
			if err != nil {
				return nil, err
			}
			return of(p), nil
		}
	}
	return h
}

func membrane(in refcheck.Inputs) canvas.Membrane {
	return canvas.Membrane{Span: in.Length("span"), Prestress: in.ForcePerLength("prestress"), Stiffness: in.ForcePerLength("stiffness")}
}

const kN = units.Kilonewton

func spread(hollow float64, corners ...canvas.Point) canvas.Awning {
	a := canvas.Awning{
		Name: "awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: 40 * mm},
		Canopy: canvas.Canopy{Pitch: 10 * units.Degree}, Above: 2 * units.Metre, Heel: 5 * units.Degree, Flutter: 1.5,
		Weight: 6 * units.Pascal, Prestress: 200 * units.NewtonPerMetre, Stiffness: 10 * units.KilonewtonPerMetre,
		Strength: 25 * units.KilonewtonPerMetre, Layers: 3, Safety: 4,
	}
	for i, c := range corners {
		a.Edges = append(a.Edges, canvas.AwningEdge{
			Name: fmt.Sprint("edge ", i+1), From: c, Hollow: hollow, Tape: 12 * kN,
			Tie: canvas.Tie{Strap: 8 * kN, Lashing: 4 * kN, Parts: 4, Fixing: 2 * kN},
		})
	}
	return a
}

func sunshade(length, width units.Length, hollow float64) canvas.Awning {
	return spread(hollow, canvas.Point{}, canvas.Point{X: length}, canvas.Point{X: length, Y: width}, canvas.Point{Y: width})
}

// polygonAwning has n corners on an uneven oval.
func polygonAwning(n int) canvas.Awning {
	var corners []canvas.Point
	for i := range n {
		s, c := math.Sincos(2*math.Pi*float64(i)/float64(n) + 0.3*math.Sin(float64(i)))
		corners = append(corners, canvas.Point{X: units.Length(3 * c), Y: units.Length(2 * s)})
	}
	return spread(0.04, corners...)
}

var fresh = canvas.Wind{Mean: 15 * units.Knot, Height: 10 * units.Metre}

func plan(t *testing.T, a canvas.Awning, w canvas.Wind) canvas.AwningPlan {
	t.Helper()
	p, err := a.Plan(w)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What the corners hold balances: no force and no moment is left over, in the
// plane of the cloth or square to it.
func TestAwningBalances(t *testing.T) {
	for n := 3; n <= 8; n++ {
		a := polygonAwning(n)
		p := plan(t, a, fresh)
		// The middle of the finished area, by strips across the outline.
		cx, cy, area := middle(t, p.Panel)
		if math.Abs(area/float64(p.Area)-1) > 1e-4 {
			t.Errorf("%d corners: area %g, by strips %g", n, float64(p.Area), area)
		}
		for _, k := range p.Cases {
			var fx, fy, fz, mx, my, mz, scale float64
			for i, c := range k.Corners {
				x, y := float64(a.Edges[i].From.X), float64(a.Edges[i].From.Y)
				fx, fy, fz = fx+float64(c.X), fy+float64(c.Y), fz+float64(c.Out)
				mx, my = mx+y*float64(c.Out), my+x*float64(c.Out)
				mz += x*float64(c.Y) - y*float64(c.X)
				scale = math.Max(scale, float64(c.Pull))
			}
			load := float64(k.Pressure) * float64(p.Area)
			for what, left := range map[string]float64{
				"X": fx, "Y": fy, "moment in the plane": mz / 3,
				"square to the cloth": fz - load,
			} {
				if math.Abs(left) > 1e-9*scale {
					t.Errorf("%d corners, %s: %g N left over in %s", n, k.Name, left, what)
				}
			}
			if math.Abs(mx-load*cy) > 2e-3*math.Abs(load) || math.Abs(my-load*cx) > 2e-3*math.Abs(load) {
				t.Errorf("%d corners, %s: moments %g and %g, want %g and %g", n, k.Name, mx, my, load*cy, load*cx)
			}
		}
	}
}

// middle cuts the outline that the pieces have into triangles from one point.
func middle(t *testing.T, p canvas.Panel) (x, y, area float64) {
	t.Helper()
	p.Holes, p.Patches = nil, nil
	pieces, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
	if err != nil {
		t.Fatal(err)
	}
	var ring []canvas.Point
	for _, line := range pieces[0].Sew {
		ring = append(ring, line[:len(line)-1]...)
	}
	o := ring[0]
	for i := 2; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		part := (float64(a.X-o.X)*float64(b.Y-o.Y) - float64(a.Y-o.Y)*float64(b.X-o.X)) / 2
		area += part
		x += part * float64(o.X+a.X+b.X) / 3
		y += part * float64(o.Y+a.Y+b.Y) / 3
	}
	return x / area, y / area, area
}

// Corners that are alike carry alike, whatever the awning's place and turn.
func TestAwningSymmetry(t *testing.T) {
	p := plan(t, sunshade(4, 3, 0.1), fresh)
	for _, k := range p.Cases {
		for _, c := range k.Corners[1:] {
			if math.Abs(c.Pull.Per(k.Corners[0].Pull)-1) > 1e-9 {
				t.Errorf("%s: %v and %v", k.Name, c.Pull, k.Corners[0].Pull)
			}
		}
	}
	s, c := math.Sincos(0.7)
	moved := polygonAwning(5)
	for i := range moved.Edges {
		q := &moved.Edges[i].From
		*q = canvas.Point{X: q.X.Scale(c) - q.Y.Scale(s) + 3, Y: q.X.Scale(s) + q.Y.Scale(c) - 1}
	}
	one, two := plan(t, polygonAwning(5), fresh), plan(t, moved, fresh)
	for i, k := range one.Cases {
		for j := range k.Corners {
			if a, b := k.Corners[j].Pull, two.Cases[i].Corners[j].Pull; math.Abs(a.Per(b)-1) > 1e-6 {
				t.Errorf("%s, corner %d: %v, moved %v", k.Name, j+1, a, b)
			}
		}
	}
	if math.Abs(one.Strike.Wind.Per(two.Strike.Wind)-1) > 1e-6 {
		t.Errorf("strike at %v, moved %v", one.Strike.Wind, two.Strike.Wind)
	}
}

func TestAwningScaling(t *testing.T) {
	// Without wind, pulls grow with the size; the span too.
	twice := sunshade(6, 4, 0.1)
	twice.Weight /= 2 // so that the cloth pulls as hard
	small, large := plan(t, sunshade(3, 2, 0.1), canvas.Wind{Height: 10}), plan(t, twice, canvas.Wind{Height: 10})
	for i := range small.Cases[0].Edges {
		if r := large.Cases[0].Edges[i].End.Per(small.Cases[0].Edges[i].End); math.Abs(r-2) > 1e-9 {
			t.Errorf("edge %d: %g times the tension at twice the size", i+1, r)
		}
	}
	if r := large.Span.Per(small.Span); math.Abs(r-2) > 1e-9 {
		t.Errorf("span %g times", r)
	}
	// Far above the prestress the pull grows as the pressure to 2/3, the speed to 4/3.
	a := sunshade(3, 3, 0.1)
	a.Prestress, a.Weight = 0.001, 0.1
	a.Stiffness *= 10000 // shallow arcs
	one, two := plan(t, a, canvas.Wind{Mean: 10, Height: 10}), plan(t, a, canvas.Wind{Mean: 20, Height: 10})
	if r := two.Cases[4].Pull.Per(one.Cases[4].Pull); math.Abs(r/math.Pow(2, 4.0/3)-1) > 0.002 {
		t.Errorf("twice the wind pulls %g times", r)
	}
	// Flatter edges pull harder; more heel, flutter, height and stiffness too.
	base := plan(t, sunshade(4, 3, 0.1), fresh)
	for name, change := range map[string]func(*canvas.Awning){
		"flat edges": func(a *canvas.Awning) { *a = sunshade(4, 3, 0.05) },
		"heel":       func(a *canvas.Awning) { a.Heel = 15 * units.Degree },
		"flutter":    func(a *canvas.Awning) { a.Flutter = 2 },
		"prestress":  func(a *canvas.Awning) { a.Prestress *= 2 },
		"stiffness":  func(a *canvas.Awning) { a.Stiffness *= 2 },
		"height":     func(a *canvas.Awning) { a.Above = 4 },
	} {
		a := sunshade(4, 3, 0.1)
		change(&a)
		p := plan(t, a, fresh)
		if !(p.Cases[4].Used > base.Cases[4].Used && p.Strike.Wind < base.Strike.Wind) {
			t.Errorf("%s: used %g, was %g; strike at %v, was %v", name, p.Cases[4].Used, base.Cases[4].Used, p.Strike.Wind, base.Strike.Wind)
		}
	}
}

// At the wind in which it is to be struck, the weakest part carries just what is
// allowed.
func TestStrike(t *testing.T) {
	a := sunshade(4, 3, 0.1)
	p := plan(t, a, fresh)
	w := fresh
	w.Mean = p.Strike.Wind
	at := plan(t, a, w)
	worst := at.Cases[0]
	for _, k := range at.Cases {
		if k.Used > worst.Used {
			worst = k
		}
	}
	if math.Abs(worst.Used-1) > 1e-6 || worst.Weakest != p.Strike.Part {
		t.Errorf("in %v %s is used to %g; the plan says %s", w.Mean, worst.Weakest, worst.Used, p.Strike.Part)
	}
	a.Prestress = 10 * units.KilonewtonPerMetre
	if p := plan(t, a, fresh); p.Strike.Wind != 0 || p.Strike.Part == "" || !strings.HasPrefix(p.Cover().Remarks[0], "do not set it") {
		t.Errorf("overloaded without wind: %+v, %q", p.Strike, p.Cover().Remarks)
	}
	a = sunshade(0.3, 0.3, 0.1)
	if p := plan(t, a, fresh); p.Strike.Part != "" || p.Strike.Wind != 40*units.MetrePerSecond {
		t.Errorf("a handkerchief: %+v", p.Strike)
	}
}

// A pressure bends an elastic strip to an arc, whose length is that of the
// stretched strip: by bisection.
func TestMembraneAgainstArc(t *testing.T) {
	for _, c := range []struct{ p, h0, ea, cubic float64 }{ // how far the shallow arc's cubic is off at most
		{0.001, 500, 200e3, 1e-8}, {20, 500, 200e3, 0.00015}, {100, 100, 60e3, 0.01}, {60, 40, 8e3, 0.021}, {150, 0, 8e3, 0.05}, {300, 0, 4e3, 0.13}, {5000, 0, 16e3, 0.3},
	} {
		m := canvas.Membrane{Span: 3, Prestress: units.ForcePerLength(c.h0), Stiffness: units.ForcePerLength(c.ea)}
		got, sag, err := m.Pull(units.Pressure(c.p))
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := math.Max(c.h0, c.p*1.5), 1e7 // pull = p R, R from half the span
		for range 200 {
			n := (lo + hi) / 2
			r := n / c.p
			if long := 2*r*math.Asin(1.5/r) - 3; long > (n-c.h0)/c.ea*3 {
				lo = n
			} else {
				hi = n
			}
		}
		r := lo / c.p
		if rise := r - math.Sqrt(r*r-1.5*1.5); math.Abs(float64(got)/lo-1) > 1e-9 || math.Abs(float64(sag)-rise) > 1e-9*r {
			t.Errorf("%+v: %v and %v, exactly %.6f N/m and %.6f m", c, got, sag, lo, rise)
		}
		// The cubic of the comment pulls less, as much as it says there.
		h := lo
		for range 200 {
			f := h*h*(h-c.h0) - c.ea*c.p*c.p*9/24
			h -= f / (3*h*h - 2*h*c.h0)
		}
		if off := 1 - h/lo; off < -1e-9 || off > c.cubic || off < 0.7*c.cubic-1e-8 {
			t.Errorf("%+v: the cubic is %.3g %% off at a sag of %.1f %%", c, 100*off, 100*float64(sag)/3)
		}
	}
	// A strip that the pressure would blow up to more than a half circle.
	soft := canvas.Membrane{Span: 3, Stiffness: 8000}
	half := 8000 * (math.Pi/2 - 1) / 1.5
	if _, sag, err := soft.Pull(units.Pressure(half * (1 - 1e-9))); err != nil || math.Abs(float64(sag)-1.5) > 1e-3 {
		t.Errorf("nearly a half circle: %v, %v", sag, err)
	}
	if _, _, err := soft.Pull(units.Pressure(half * (1 + 1e-9))); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("more than a half circle: %v", err)
	}
}

// Slack: the wind alone makes the pull; limits of the cubic.
func TestMembraneLimits(t *testing.T) {
	slack, _, _ := canvas.Membrane{Span: 2, Stiffness: 12000}.Pull(50)
	if want := math.Cbrt(12000 * 100 * 100 / 24.0); float64(slack) < want || float64(slack) > 1.015*want {
		t.Errorf("slack: %v, want %g and a little more", slack, want)
	}
	taut, sag, _ := canvas.Membrane{Span: 2, Prestress: 5000, Stiffness: 12000}.Pull(0.001)
	if math.Abs(float64(taut)-5000) > 1e-6 || math.Abs(float64(sag)-0.001*4/8/5000) > 1e-15 {
		t.Errorf("taut: %v, %v", taut, sag)
	}
	if _, _, err := (canvas.Membrane{Span: 2}).Pull(50); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("flat and without stretch: %v", err)
	}
}

// The circle holds w s/2 more than the parabola's middle, exactly; a straight
// edge is refused, a flat one needs w L^2/(8 s).
func TestEdges(t *testing.T) {
	for _, n := range []float64{0.001, 0.05, 0.1, 0.25, 0.5} {
		arc, err := canvas.ArcEdge(4, units.Length(4*n), 300)
		par, err2 := canvas.ParabolaEdge(4, units.Length(4*n), 300)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if want := float64(par.Middle) + 300*4*n/2; math.Abs(float64(arc.End)/want-1) > 1e-12 {
			t.Errorf("hollow %g: %v, want %g N", n, arc.End, want)
		}
		// Both hold the same load across the chord.
		if v := float64(par.End) * par.Angle.Sin(); math.Abs(v-600) > 1e-9 {
			t.Errorf("hollow %g: the parabola's ends hold %g N across the chord, want 600", n, v)
		}
		if v := float64(arc.End) * arc.Angle.Sin(); math.Abs(v-600) > 1e-9 {
			t.Errorf("hollow %g: the arc's ends hold %g N across the chord, want 600", n, v)
		}
	}
	for _, hollow := range []units.Length{0, -1, 3, units.Length(math.NaN()), units.Length(math.Inf(1))} {
		if _, err := canvas.ArcEdge(4, hollow, 300); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("hollow %v: %v", hollow, err)
		}
	}
}

// A film of water on a cloth of just that pull neither grows nor runs off: the
// lowest pull at which N y” + rho g y = 0 has a shape that is zero at both
// ends, by shooting.
func TestWaterPull(t *testing.T) {
	const span = 2.5
	pull, err := canvas.WaterPull(span)
	if err != nil {
		t.Fatal(err)
	}
	end := func(n float64) float64 {
		y, v, h := 0.0, 1.0, span/20000
		for range 20000 {
			v -= 9806.65 * y / n * h / 2
			y += v * h
			v -= 9806.65 * y / n * h / 2
		}
		return y
	}
	if a, b := end(float64(pull)*0.999), end(float64(pull)*1.001); !(a < 0 && b > 0) {
		t.Errorf("%v: %g and %g at the far end", pull, a, b)
	}
}

func TestRain(t *testing.T) {
	a := sunshade(3, 2, 0.1)
	p := plan(t, a, fresh)
	if !p.Rain.Drains || p.Rain.Pull < p.Prestress {
		t.Errorf("%+v", p.Rain)
	}
	a.Canopy.Pitch = 0
	if p := plan(t, a, fresh); p.Rain.Drains {
		t.Error("a level awning drains")
	}
	a.Canopy = canvas.Canopy{Roof: canvas.Duopitch, Pitch: -12 * units.Degree}
	if p := plan(t, a, fresh); p.Rain.Drains {
		t.Error("a valley drains")
	}
	// A sag measured in a calm instead of a prestress.
	a = sunshade(3, 2, 0.1)
	a.Prestress, a.Sag = 0, 20*mm
	if p := plan(t, a, fresh); math.Abs(float64(p.Cases[0].Sag-a.Sag)) > 1e-9 || p.Rain.Sag != p.Cases[0].Sag || !(p.Prestress < 150) {
		t.Errorf("prestress %v, sag %v", p.Prestress, p.Cases[0].Sag) // 6 Pa (2 m)^2/(8 20 mm) is 150 N/m
	}
}

// The hole for a leaning stay is longer than wide, and the panel is slit.
func TestAwningOpening(t *testing.T) {
	a := sunshade(4, 3, 0.1)
	a.Openings = []canvas.AwningOpening{{
		Name: "stay", At: canvas.Point{X: 2, Y: 2}, Diameter: 20 * mm, Lean: 30 * units.Degree,
		Direction: 90 * units.Degree, Clearance: 30 * mm, Overlap: 80 * mm, Edge: "edge 3",
	}}
	p := plan(t, a, fresh)
	h := p.Panel.Holes[0]
	if h.Width != 80*mm || math.Abs(float64(h.Length-100*mm)) > 1e-12 || !h.Split {
		t.Errorf("%+v", h)
	}
	v := p.Cover()
	pieces, err := v.Pieces(canvas.Cloth{Thickness: 0.5 * mm})
	if err != nil {
		t.Fatal(err)
	}
	if len(v.Cautions) != 1 || len(v.Remarks) != 2 {
		t.Errorf("%q, %q", v.Cautions, v.Remarks)
	}
	// The slit is as long as the way from the hole to the hollow edge, and so is the flap.
	if l, err := p.Flaps[0].Length("slit"); err != nil || math.Abs(float64(l)-(1-0.4-0.05)) > 1e-5 {
		t.Errorf("a flap %v long, %v", l, err)
	}
	if len(pieces[0].Holes) != 1 || len(pieces[0].Holes[0].Slit) == 0 {
		t.Error("no slit")
	}
	// 4 corners of 3 layers, two halves round the stay, the flap.
	if len(pieces) != 1+4*3+2+1 {
		t.Errorf("%d pieces", len(pieces))
	}
	a.Openings[0].Lean, a.Openings[0].At.Y = 90*units.Degree, 2.9
	if _, err := a.Plan(fresh); !errors.Is(err, canvas.ErrOutline) {
		t.Errorf("a mast through the edge: %v", err)
	}
}

// A slit through the patch of a corner is warned of, one beside it is not.
func TestSlitThroughCorner(t *testing.T) {
	for _, c := range []struct {
		x, y units.Length
		edge string
		cut  string // "" for none
	}{
		{3.82, 2.7, "edge 3", "corner 3"},
		{3.86, 2.8, "edge 2", "corner 3"},
		{3.4, 2.6, "edge 3", ""},
		{2, 2, "", ""},
		{0.18, 0.3, "edge 1", "corner 1"},
		{0.18, 0.3, "edge 3", ""},
	} {
		a := sunshade(4, 3, 0.1)
		for i := range a.Edges {
			a.Edges[i].Tape = 20 * units.Kilonewton // so that the patches are 300 mm long
		}
		a.Openings = []canvas.AwningOpening{{
			Name: "stay", At: canvas.Point{X: c.x, Y: c.y}, Diameter: 10 * mm, Lean: 90 * units.Degree, Clearance: 10 * mm, Overlap: 40 * mm, Edge: c.edge,
		}}
		p := plan(t, a, fresh)
		for _, k := range p.Panel.Patches {
			if k.Along != 300*mm {
				t.Fatal(k.Along)
			}
		}
		v := p.Cover()
		said := strings.Join(v.Cautions[1:], "\n")
		if want := "CAUTION, CORNER: the slit of stay runs through the patch of " + c.cut + ","; (said != "") != (c.cut != "") || c.cut != "" && !strings.HasPrefix(said, want) {
			t.Errorf("from %v, %v to %q: %q, want %q", c.x, c.y, c.edge, said, c.cut)
		}
	}
}

// Without tape the band and the patches carry the edges.
func TestAwningWithoutTape(t *testing.T) {
	taped, bare := sunshade(4, 3, 0.1), sunshade(4, 3, 0.1)
	for i := range bare.Edges {
		bare.Edges[i].Tape = 0
	}
	with, without := plan(t, taped, fresh), plan(t, bare, fresh)
	if with.Band != without.Band || !(with.Band > 10*mm) {
		t.Errorf("bands %v and %v", with.Band, without.Band)
	}
	worst := without.Cases[4].Edges[0].End
	if want := float64(worst) * 4 / (25000 * 3); math.Abs(float64(with.Band)-want) > 1e-12 {
		t.Errorf("band %v, want %g m", with.Band, want)
	}
	for i := range with.Panel.Patches {
		if a, b := with.Panel.Patches[i].Along, without.Panel.Patches[i].Along; a != 300*mm || b < a {
			t.Errorf("patch %d: %v with tape, %v without", i+1, a, b)
		}
	}
}

func TestCanopyTables(t *testing.T) {
	for _, k := range []canvas.Canopy{
		{Pitch: -1},
		{Pitch: 31 * units.Degree},
		{Roof: canvas.Duopitch},
		{Roof: canvas.Duopitch, Pitch: 4.9 * units.Degree},
		{Roof: "tent"},
		{Blockage: 2},
		{Blockage: math.NaN()},
		{Pitch: units.Angle(math.NaN())},
		{Roof: canvas.Duopitch, Pitch: -21 * units.Degree},
	} {
		if c, err := k.Coefficients(); err == nil {
			t.Errorf("%+v: %+v", k, c)
		}
	}
	// The middle is pressed and lifted less than the edges, and the whole less than
	// the middle; coefficients change without jumps.
	for _, roof := range []canvas.Roof{canvas.Monopitch, canvas.Duopitch} {
		var last canvas.Coefficients
		from := 0.0
		if roof == canvas.Duopitch {
			from = 5
		}
		for a := from; a <= 30; a += 0.25 {
			k, err := canvas.Canopy{Roof: roof, Pitch: units.Degree.Scale(a), Blockage: 0.3}.Coefficients()
			if err != nil {
				t.Fatal(err)
			}
			if !(k.Down > 0 && k.Up < 0 && k.EdgeDown > k.MiddleDown && k.EdgeUp < k.MiddleUp && k.MiddleDown >= k.Down && k.MiddleUp <= k.Up) {
				t.Errorf("%q %g: %+v", roof, a, k)
			}
			if a > from && (math.Abs(k.Up-last.Up) > 0.05 || math.Abs(k.EdgeUp-last.EdgeUp) > 0.06) {
				t.Errorf("%q %g: a jump from %+v to %+v", roof, a, last, k)
			}
			last = k
		}
	}
}

// Blockage never makes a plan milder: from 15 degrees on the tables have less
// uplift with it, but the empty canopy's holds downwind.
func TestBlockageIsNotMilder(t *testing.T) {
	for _, roof := range []canvas.Canopy{
		{Pitch: 10 * units.Degree}, {Pitch: 25 * units.Degree}, {Roof: canvas.Duopitch, Pitch: 20 * units.Degree}, {Roof: canvas.Duopitch, Pitch: -12 * units.Degree},
	} {
		a := sunshade(4, 3, 0.1)
		a.Canopy = roof
		empty := plan(t, a, fresh)
		for _, blockage := range []float64{0.3, 1} {
			a.Canopy.Blockage = blockage
			p := plan(t, a, fresh)
			for i, k := range p.Cases {
				if k.Used < empty.Cases[i].Used || p.Strike.Wind > empty.Strike.Wind.Scale(1+1e-6) {
					t.Errorf("%+v, %s: used %g, empty %g; strike at %v, empty %v", a.Canopy, k.Name, k.Used, empty.Cases[i].Used, p.Strike.Wind, empty.Strike.Wind)
				}
			}
		}
	}
	// At 25 degrees the middle is lifted less with blockage in the tables.
	k, err := canvas.Canopy{Pitch: 25 * units.Degree, Blockage: 1}.Coefficients()
	if err != nil || k.MiddleUp != -1.5 {
		t.Errorf("%+v, %v", k, err)
	}
}

// The worst pull of a corner is one of the cases' and none is greater.
func TestWorst(t *testing.T) {
	p := plan(t, polygonAwning(5), fresh)
	for i := range 5 {
		found := false
		for _, k := range p.Cases {
			found = found || k.Corners[i] == p.Worst(i)
			if k.Corners[i].Pull > p.Worst(i).Pull {
				t.Errorf("corner %d: %v in %s, worst %v", i+1, k.Corners[i].Pull, k.Name, p.Worst(i).Pull)
			}
		}
		if !found {
			t.Errorf("corner %d: %+v is in no case", i+1, p.Worst(i))
		}
	}
	if p.Worst(-1) != (canvas.CornerPull{}) || p.Worst(5) != (canvas.CornerPull{}) {
		t.Error("a pull of no corner")
	}
}

// What each part carries over what it may: breaking loads by Safety, of the
// lashing half of all its parts, of the fixing its working load. The part that is
// named is the one that carries the most, of those that are there.
func TestWeakestPart(t *testing.T) {
	seen := map[string]bool{}
	for i := range 40 {
		a := polygonAwning(3 + i%4)
		a.Strength = []units.ForcePerLength{2e3, 25e3}[i%2]
		for k := range a.Edges {
			e := &a.Edges[k]
			part := func(force units.Force, n int) units.Force { // weak, strong or none
				return []units.Force{force / 2, 20 * force, 0}[(i*7+k*3+n*(i/3))%3]
			}
			e.Tape = part(2e3, 1)
			if i%2 == 0 {
				e.Tape = 200e3 // the corners of weak cloth alone would have no room for their patches
			}
			e.Tie = canvas.Tie{Eyelet: part(3e3, 2), Strap: part(8e3, 3), Lashing: part(3e3, 4), Parts: 1 + i%3, Fixing: 1e3 * units.Force(1+10*(i%5))}
		}
		p := plan(t, a, fresh)
		for _, k := range p.Cases {
			most, weakest := float64(k.Pull)*a.Safety/float64(a.Strength), "cloth"
			part := func(name string, load, allowed float64) {
				if allowed > 0 && load/allowed > most*(1+1e-12) {
					most, weakest = load/allowed, name
				}
			}
			for n, e := range a.Edges {
				part("tape of "+e.Name, float64(k.Edges[n].End), float64(e.Tape)/a.Safety)
				pull := float64(k.Corners[n].Pull)
				part(fmt.Sprintf("eyelet of corner %d", n+1), pull, float64(e.Tie.Eyelet)/a.Safety)
				part(fmt.Sprintf("strap of corner %d", n+1), pull, float64(e.Tie.Strap)/a.Safety)
				part(fmt.Sprintf("lashing of corner %d", n+1), pull, float64(e.Tie.Lashing)*float64(e.Tie.Parts)/2/a.Safety)
				part(fmt.Sprintf("fixing of corner %d", n+1), pull, float64(e.Tie.Fixing))
			}
			if math.Abs(k.Used-most) > 1e-12*most || k.Weakest != weakest {
				t.Errorf("%d, %s: %s to %v, want %s to %v", i, k.Name, k.Weakest, k.Used, weakest, most)
			}
			seen[strings.Fields(weakest)[0]] = true
		}
	}
	if len(seen) != 6 {
		t.Errorf("only %v are ever the weakest", seen)
	}
}

// Straps and eyelets lie in the direction of the worst pull: a strap from the inner
// end of the patch to 60 mm beyond the corner, an eyelet a third of the shortest
// layer inside it.
func TestRigLiesInThePull(t *testing.T) {
	a := polygonAwning(5)
	for i := range a.Edges {
		a.Edges[i].Tie.Eyelet = units.Force(i%2) * 9 * kN
		a.Edges[i].Tie.Strap = units.Force((i+1)/2%2) * 9 * kN
	}
	p := plan(t, a, fresh)
	fittings := p.Panel.Fittings
	for i, e := range a.Edges {
		worst, patch := p.Worst(i), p.Panel.Patches[i]
		pull := math.Hypot(float64(worst.X), float64(worst.Y))
		check := func(q canvas.Point, inside float64) {
			t.Helper()
			x, y := float64(e.From.X)-inside*float64(worst.X)/pull, float64(e.From.Y)-inside*float64(worst.Y)/pull
			if math.Hypot(float64(q.X)-x, float64(q.Y)-y) > 1e-12 {
				t.Errorf("corner %d: %v, want %v, %v", i+1, q, x, y)
			}
		}
		if e.Tie.Strap > 0 {
			f := fittings[0]
			fittings = fittings[1:]
			if f.Name != "strap" || f.At != e.From || f.Diameter != 0 || len(f.Strap) != 2 {
				t.Fatalf("corner %d: %+v", i+1, f)
			}
			check(f.Strap[0], float64(patch.Along))
			check(f.Strap[1], -0.06)
		}
		if e.Tie.Eyelet > 0 {
			f := fittings[0]
			fittings = fittings[1:]
			if f.Name != "eyelet" || f.Diameter != 12*mm || f.Strap != nil {
				t.Fatalf("corner %d: %+v", i+1, f)
			}
			// Three layers, each a quarter of the patch shorter than the one before.
			check(f.At, float64(patch.Along)/2/3)
		}
		if patch.Corner != i || patch.Layers != 3 || !patch.Round || math.Abs(patch.Step.Per(patch.Along)-0.25) > 1e-12 {
			t.Errorf("corner %d: %+v", i+1, patch)
		}
	}
	if len(fittings) > 0 {
		t.Errorf("left over: %+v", fittings)
	}
}

// A patch is a tenth of the shorter edge long, 100 mm at least, and where edges
// have no tape as long as it takes to spread their tension over the corner's angle.
func TestPatchesSpreadThePull(t *testing.T) {
	up := func(x float64) float64 { return math.Ceil(x*100-1e-9) / 100 }
	for _, c := range []struct {
		length, width, hollow float64
		strength              units.ForcePerLength
		tape                  [4]units.Force
	}{
		{4, 3, 0.1, 25e3, [4]units.Force{1, 1, 1, 1}},
		{0.9, 0.6, 0.1, 25e3, [4]units.Force{1, 1, 1, 1}},
		{4.13, 3.17, 0.06, 25e3, [4]units.Force{0, 0, 0, 0}},
		{4, 3, 0.1, 15e3, [4]units.Force{1, 0, 1, 0}},
		{4, 3, 0.1, 15e3, [4]units.Force{0, 0, 1, 1}},
	} {
		a := sunshade(units.Length(c.length), units.Length(c.width), c.hollow)
		a.Strength = c.strength
		for i := range a.Edges {
			a.Edges[i].Tape = c.tape[i] * 12 * kN
		}
		p := plan(t, a, fresh)
		angle := math.Pi/2 - 4*math.Atan(2*c.hollow)
		for i := range 4 {
			pull := 0.0 // of the edges without tape, the greatest in all cases
			for _, k := range p.Cases {
				one, two := 0.0, 0.0
				if c.tape[i] == 0 {
					one = float64(k.Edges[i].End)
				}
				if c.tape[(i+3)%4] == 0 {
					two = float64(k.Edges[(i+3)%4].End)
				}
				pull = math.Max(pull, math.Sqrt(one*one+two*two+2*one*two*math.Cos(angle)))
			}
			want := up(math.Max(0.1, math.Max(math.Min(c.length, c.width)/10, pull*4/(float64(c.strength)*angle))))
			if got := p.Panel.Patches[i].Along; math.Abs(float64(got)-want) > 1e-9 {
				t.Errorf("%+v, corner %d: a patch of %v, want %v m", c, i+1, got, want)
			}
		}
	}
	// Corners that the hollows leave five degrees of, or less, are refused.
	for _, left := range []float64{4.9, 5.1} {
		whole := left*math.Pi/180 + 4*math.Atan(2*0.025)
		half := units.Length(2 * math.Tan(whole/2))
		_, err := spread(0.025, canvas.Point{}, canvas.Point{X: 2, Y: -half}, canvas.Point{X: 2, Y: half}).Plan(fresh)
		var e *canvas.Error
		if (left > 5) != (err == nil) || err != nil && (!errors.As(err, &e) || e.Field != "Edges[0].Hollow") {
			t.Errorf("%.3f degrees left: %v", left, err)
		}
	}
}

// The span is the least width between two parallels, over all directions.
func TestSpanIsTheLeastWidth(t *testing.T) {
	for n := 3; n <= 8; n++ {
		a := polygonAwning(n)
		least := math.Inf(1)
		for i := range 20000 {
			sin, cos := math.Sincos(math.Pi * float64(i) / 20000)
			low, high := math.Inf(1), math.Inf(-1)
			for _, e := range a.Edges {
				h := float64(e.From.X)*cos + float64(e.From.Y)*sin
				low, high = math.Min(low, h), math.Max(high, h)
			}
			least = math.Min(least, high-low)
		}
		if got := float64(plan(t, a, fresh).Span); got > least+1e-12 || got < least*(1-1e-3) {
			t.Errorf("%d corners: span %v, want %v", n, got, least)
		}
	}
}

func TestAwningRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for field, change := range map[string]func(*canvas.Awning){
		"Edges ":              func(a *canvas.Awning) { a.Edges = a.Edges[:2] },
		"Edges[1].Hollow":     func(a *canvas.Awning) { a.Edges[1].Hollow = 0 },
		"Edges[0].Hollow":     func(a *canvas.Awning) { a.Edges[0].Hollow = nan },
		"Edges[0].From.X":     func(a *canvas.Awning) { a.Edges[0].From.X = units.Length(inf) },
		"Edges[0].Tie.Fixing": func(a *canvas.Awning) { a.Edges[0].Tie.Fixing = 0 },
		"Edges[0].Tie.Parts":  func(a *canvas.Awning) { a.Edges[0].Tie.Parts = 0 },
		"Edges[2].Tape":       func(a *canvas.Awning) { a.Edges[2].Tape = -1 },
		"Above":               func(a *canvas.Awning) { a.Above = 0 },
		"Heel":                func(a *canvas.Awning) { a.Heel = 25 * units.Degree },
		"Flutter":             func(a *canvas.Awning) { a.Flutter = 0 },
		"Weight":              func(a *canvas.Awning) { a.Weight = units.Pressure(nan) },
		"Prestress":           func(a *canvas.Awning) { a.Prestress = 0 },
		"Stiffness":           func(a *canvas.Awning) { a.Stiffness = 0 },
		"Strength":            func(a *canvas.Awning) { a.Strength = 0 },
		"Layers":              func(a *canvas.Awning) { a.Layers = 0 },
		"Safety":              func(a *canvas.Awning) { a.Safety = 0 },
		"Canopy.Pitch":        func(a *canvas.Awning) { a.Canopy.Pitch = 40 * units.Degree },
		"Canopy.Roof":         func(a *canvas.Awning) { a.Canopy.Roof = "tent" },
		"Panel.Edges":         func(a *canvas.Awning) { a.Edges[0], a.Edges[1] = a.Edges[1], a.Edges[0] },
		"Sag ":                func(a *canvas.Awning) { a.Sag = -0.045 },
		"Sag  ":               func(a *canvas.Awning) { a.Prestress, a.Sag = 0, -0.045 },
		"Sag   ":              func(a *canvas.Awning) { a.Prestress, a.Sag = 0, units.Length(nan) },
		"Stiffness ":          func(a *canvas.Awning) { a.Stiffness, a.Prestress, a.Flutter = 100, 0.001, 5 },
		"Openings[0].Lean": func(a *canvas.Awning) {
			a.Openings = []canvas.AwningOpening{{Diameter: 10 * mm, Overlap: 10 * mm}}
		},
		"Sag    ": func(a *canvas.Awning) { a.Prestress, a.Sag = 0, 2 },
		"Sag":     func(a *canvas.Awning) { a.Prestress, a.Sag = 0, 0.3 },
	} {
		a := sunshade(4, 3, 0.1)
		change(&a)
		p, err := a.Plan(fresh)
		var e *canvas.Error
		if !errors.As(err, &e) || !strings.HasPrefix(e.Field+"    ", field) {
			t.Errorf("%s: %v, %+v", field, err, p)
		}
	}
	for _, w := range []canvas.Wind{{Mean: 10}, {Mean: units.Speed(nan), Height: 10}, {Mean: -1, Height: 10}, {Mean: 100, Height: 10}, {Mean: 10, Height: 10, Terrain: "moon"}} {
		if _, err := sunshade(4, 3, 0.1).Plan(w); err == nil {
			t.Errorf("%+v accepted", w)
		}
	}
}

func FuzzAwning(f *testing.F) {
	f.Add(4.0, 3.0, 0.5, 0.1, 10.0, 200.0, 10.0, 5.0)
	f.Add(1e-5, 3.0, -2.0, 0.25, 60.0, 0.001, 30.0, 0.0)
	f.Add(4.0, 1e-4, 3.9, 0.02, 0.0, 1e5, 0.0, 30.0)
	f.Fuzz(func(t *testing.T, length, width, shift, hollow, wind, prestress, pitch, heel float64) {
		a := spread(hollow, canvas.Point{}, canvas.Point{X: units.Length(length)},
			canvas.Point{X: units.Length(length + shift), Y: units.Length(width)}, canvas.Point{X: units.Length(shift), Y: units.Length(width)})
		a.Prestress, a.Canopy.Pitch, a.Heel = units.ForcePerLength(prestress), units.Degree.Scale(pitch), units.Degree.Scale(heel)
		p, err := a.Plan(canvas.Wind{Mean: units.Speed(wind), Height: 10})
		if err != nil {
			var e *canvas.Error
			if !errors.As(err, &e) {
				t.Fatalf("%T %v", err, err)
			}
			return
		}
		if _, err := json.Marshal(p); err != nil { // refuses NaN and infinities
			t.Fatal(err)
		}
	})
}

func TestAwningJSON(t *testing.T) {
	a := sunshade(4, 3, 0.1)
	p := plan(t, a, fresh)
	roundTrip(t, a)
	roundTrip(t, p)
}

func TestAwningPartsRefuse(t *testing.T) {
	nan := math.NaN()
	for name, err := range map[string]error{
		"parabola": second(canvas.ParabolaEdge(4, 0, 300)),
		"pull":     second(canvas.ArcEdge(4, 0.4, units.ForcePerLength(nan))),
		"slack":    second(canvas.Membrane{Span: 2, Prestress: 200}.Measured(10, 0.1)),
		"no sag":   second(canvas.Membrane{Span: 2}.Measured(10, 0)),
		"no load":  second(canvas.SagPull(2, 0.1, 0)),
		"span":     second(canvas.WaterPull(units.Length(nan))),
		"sliver":   second(spread(0.15, canvas.Point{}, canvas.Point{X: 4}, canvas.Point{X: 2, Y: 1.2}).Plan(fresh)),
	} {
		var e *canvas.Error
		if !errors.As(err, &e) || e.Field == "" || e.Want == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, _, err := (canvas.Membrane{Span: 2, Stiffness: 1000}).Pull(-1); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("a negative pressure: %v", err)
	}
}

func second[T any](_ T, err error) error { return err }

// What was measured is what comes out again.
func TestMeasuredStiffness(t *testing.T) {
	for _, m := range []canvas.Membrane{{Span: 2, Stiffness: 8000}, {Span: 3, Prestress: 50, Stiffness: 60000}, {Span: 0.5, Prestress: 500, Stiffness: 1e6}} {
		_, sag, err := m.Pull(40)
		if err != nil {
			t.Fatal(err)
		}
		if ea, err := m.Measured(40, sag); err != nil || math.Abs(ea.Per(m.Stiffness)-1) > 1e-6 {
			t.Errorf("%+v: %v, %v", m, ea, err)
		}
	}
}
