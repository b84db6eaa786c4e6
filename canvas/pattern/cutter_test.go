package pattern_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"log"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

func awning(t testing.TB) []canvas.Piece {
	t.Helper()
	p, err := foredeck().Plan(canvas.Wind{Mean: 12 * units.Knot, Height: 10 * units.Metre})
	if err != nil {
		t.Fatal(err)
	}
	pieces, err := p.Cover().Pieces(canvas.Cloth{Thickness: 0.5 * mm, Warp: -0.01})
	if err != nil {
		t.Fatal(err)
	}
	return pieces
}

func foredeck() canvas.Awning {
	a := canvas.Awning{
		Name: "foredeck awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: 40 * mm},
		Canopy: canvas.Canopy{Pitch: 15 * units.Degree, Blockage: 0.3}, Above: 2.2 * units.Metre, Heel: 5 * units.Degree, Flutter: 1.5,
		Weight: 6 * units.Pascal, Sag: 45 * mm, Stiffness: 8 * units.KilonewtonPerMetre,
		Strength: 25 * units.KilonewtonPerMetre, Layers: 3, Safety: 4,
		Openings: []canvas.AwningOpening{{
			Name: "inner stay", At: canvas.Point{Y: 1.5 * units.Metre}, Diameter: 8 * mm, Lean: 65 * units.Degree,
			Direction: 90 * units.Degree, Clearance: 25 * mm, Overlap: 80 * mm, Edge: "fore",
		}},
	}
	tie := canvas.Tie{Strap: 8 * units.Kilonewton, Lashing: 4 * units.Kilonewton, Parts: 4, Fixing: 2 * units.Kilonewton}
	corners := []canvas.Point{{X: -1.2}, {X: 1.2}, {X: 0.6, Y: 2.2}, {X: -0.6, Y: 2.2}}
	for i, name := range []string{"aft", "starboard", "fore", "port"} {
		a.Edges = append(a.Edges, canvas.AwningEdge{Name: name, From: corners[i], Hollow: 0.08, Tape: 12 * units.Kilonewton, Tie: tie})
	}
	return a
}

// read is what a cutter would make of the file.
type cutPiece struct {
	quantity, mirrored string
	lines              []line
	kinds              []string
}

func readPolylines(t *testing.T, file []byte) map[string]*cutPiece {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(file)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], ","); got != "piece,quantity,mirrored,line,kind,x_mm,y_mm" {
		t.Errorf("columns %s", got)
	}
	out := map[string]*cutPiece{}
	for _, r := range rows[1:] {
		p := out[r[0]]
		if p == nil {
			p = &cutPiece{quantity: r[1], mirrored: r[2]}
			out[r[0]] = p
		}
		n, err := strconv.Atoi(r[3])
		if err != nil || n < len(p.lines) || n > len(p.lines)+1 {
			t.Fatalf("row %v: line out of turn", r)
		}
		if n > len(p.lines) {
			p.lines, p.kinds = append(p.lines, nil), append(p.kinds, r[4])
		}
		var q [2]float64
		for k := range 2 {
			if q[k], err = strconv.ParseFloat(r[5+k], 64); err != nil {
				t.Fatal(err)
			}
		}
		p.lines[n-1] = append(p.lines[n-1], q)
	}
	return out
}

// off is how far a point is from a polyline, found by a walk in small steps: not
// the way it is found in the package.
func off(l line, x, y float64) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l); i++ {
		a, b := l[i-1], l[i]
		lo, hi := 0.0, 1.0
		at := func(t float64) float64 { return math.Hypot(a[0]+t*(b[0]-a[0])-x, a[1]+t*(b[1]-a[1])-y) }
		for range 60 { // the distance has one minimum along a side
			m, n := lo+(hi-lo)/3, hi-(hi-lo)/3
			if at(m) < at(n) {
				hi = n
			} else {
				lo = m
			}
		}
		best = math.Min(best, at((lo+hi)/2))
	}
	return best
}

// around is how often a closed line goes round a point.
func around(l line, x, y float64) int {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		a, b := l[i-1], l[i]
		ax, ay, bx, by := a[0]-x, a[1]-y, b[0]-x, b[1]-y
		sum += math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
	}
	return int(math.Round(sum / (2 * math.Pi)))
}

// What a cutter reads back is every line of every piece, within the stated
// deviation, with the cut lines on the side of the cloth, in far fewer points.
func TestPolylinesRoundTrip(t *testing.T) {
	for name, pieces := range map[string][]canvas.Piece{"bottle": bottle(t), "awning": awning(t)} {
		for _, deviation := range []float64{0.02, 0.2, 1} {
			var b bytes.Buffer
			if err := pattern.WritePolylines(&b, pieces, mm.Scale(deviation)); err != nil {
				t.Fatal(err)
			}
			got := readPolylines(t, b.Bytes())
			if len(got) != len(pieces) {
				t.Fatalf("%s: %d pieces, want %d", name, len(got), len(pieces))
			}
			points, all := 0, 0
			for i := range pieces {
				p := &pieces[i]
				g := got[p.Name]
				if g == nil || g.quantity != fmt.Sprint(p.Quantity) || g.mirrored != fmt.Sprint(p.Mirrored) {
					t.Fatalf("%s: %s is not as often as wanted: %+v", name, p.Name, g)
				}
				type want struct {
					kind   string
					line   []canvas.Point
					closed bool
				}
				wants := []want{{"cut", p.Cut, true}}
				for _, h := range p.Holes {
					wants = append(wants, want{"hole", h.Line, true})
				}
				for _, h := range p.Holes {
					if len(h.Slit) > 0 {
						wants = append(wants, want{"slit", h.Slit, false})
					}
				}
				for _, s := range p.Sew {
					wants = append(wants, want{"sew", s, false})
				}
				for _, m := range p.Marks {
					wants = append(wants, want{"mark", []canvas.Point{m.At, m.To}, false})
				}
				for _, l := range p.Patches {
					wants = append(wants, want{"patch", l, false})
				}
				for _, f := range p.Fittings {
					wants = append(wants, want{"strap", f.Strap, false})
				}
				if len(wants) != len(g.lines) {
					t.Fatalf("%s, %s: %d lines, want %d", name, p.Name, len(g.lines), len(wants))
				}
				for k, w := range wants {
					l := g.lines[k]
					if g.kinds[k] != w.kind || w.closed && l[0] != l[len(l)-1] {
						t.Errorf("%s, %s: line %d is %s, want %s", name, p.Name, k+1, g.kinds[k], w.kind)
					}
					points += len(l)
					all += len(w.line)
					step := max(1, len(w.line)/60)
					for n := 0; n < len(w.line); n += step {
						x, y := w.line[n].X.Millimetres(), w.line[n].Y.Millimetres()
						d := off(l, x, y)
						if d > deviation {
							t.Fatalf("%s, %s: %s leaves the true line by %.4f mm, want %v", name, p.Name, w.kind, d, deviation)
						}
						if turns := around(l, x, y); w.closed && d > 2e-3 && (turns == 0) != (w.kind == "hole") {
							t.Errorf("%s, %s: the %s line cuts cloth away by %.4f mm", name, p.Name, w.kind, d)
						}
					}
				}
			}
			if deviation >= 0.2 && points*2 > all {
				t.Errorf("%s: %d points are left of %d", name, points, all)
			}
			t.Logf("%s: %d points of %d at %v mm", name, points, all, deviation)
		}
	}
}

func TestPolylinesRefuse(t *testing.T) {
	pieces := bottle(t)
	for _, d := range []units.Length{0, -1, 1, units.Length(math.NaN())} {
		if err := pattern.WritePolylines(&bytes.Buffer{}, pieces, d); !errors.Is(err, canvas.ErrInput) {
			t.Errorf("deviation %v: %v", d, err)
		}
	}
	if err := pattern.WritePolylines(&bytes.Buffer{}, nil, mm); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no pieces: %v", err)
	}
	if err := pattern.WritePolylines(full{}, pieces, mm); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
	if err := pattern.WriteOffsets(full{}, pieces[0], mm); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
	if err := pattern.WriteOffsets(&bytes.Buffer{}, pieces[0], 0); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no deviation: %v", err)
	}
	if err := pattern.WriteOffsets(&bytes.Buffer{}, canvas.Piece{}, mm); !errors.Is(err, canvas.ErrInput) {
		t.Errorf("no piece: %v", err)
	}
	nan := canvas.Point{X: units.Length(math.NaN())}
	for name, p := range map[string]canvas.Piece{
		"Sew[0]":        {Sew: [][]canvas.Point{{nan, nan}}},
		"Sew[0] short":  {Sew: [][]canvas.Point{{{}}}},
		"Holes[0].Line": {Holes: []canvas.HoleLine{{}}},
		"Holes[0].Slit": {Holes: []canvas.HoleLine{{Line: rectangle(0, 0, 1, 1), Slit: []canvas.Point{nan}}}},
		"Marks[0]":      {Marks: []canvas.Mark{{At: nan}}},
		"Clips[0]":      {Clips: [][2]canvas.Point{{nan, nan}}},
		"Grain":         {Grain: units.Angle(math.Inf(1))},
	} {
		p.Cut = rectangle(0, 0, 2, 1)
		field, _, _ := strings.Cut(name, " ")
		var e *canvas.Error
		if err := pattern.WritePolylines(&bytes.Buffer{}, []canvas.Piece{p}, mm); !errors.As(err, &e) || !strings.Contains(e.Field, field) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := pattern.FullSize("bad", []canvas.Piece{p}, 1); !errors.As(err, &e) || !strings.Contains(e.Field, field) {
			t.Errorf("%s: Lay: %v", name, err)
		}
	}
}

var errFull = errors.New("full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

// A piece for a cutter that keeps within 0.1 mm.
func ExampleWritePolylines() {
	pocket := canvas.Piece{
		Name: "pocket", Quantity: 2, Cut: rectangle(0, 0, 200*mm, 150*mm),
		Sew: [][]canvas.Point{{{X: 15 * mm, Y: 15 * mm}, {X: 185 * mm, Y: 15 * mm}}},
	}
	if err := pattern.WritePolylines(os.Stdout, []canvas.Piece{pocket}, 0.1*mm); err != nil {
		log.Fatal(err)
	}
	// Output:
	// piece,quantity,mirrored,line,kind,x_mm,y_mm
	// pocket,2,0,1,cut,0,0
	// pocket,2,0,1,cut,200,0
	// pocket,2,0,1,cut,200,150
	// pocket,2,0,1,cut,0,150
	// pocket,2,0,1,cut,0,0
	// pocket,2,0,2,sew,15,15
	// pocket,2,0,2,sew,185,15
}

// A dodger's side window, marked out on the cloth with a tape and a square.
func ExampleWriteOffsets() {
	window := canvas.Piece{Name: "side window", Quantity: 1, Mirrored: 1, Cut: []canvas.Point{
		{X: 0, Y: 20 * mm}, {X: 600 * mm, Y: 0}, {X: 520 * mm, Y: 310 * mm}, {X: 60 * mm, Y: 340 * mm},
	}}
	if err := pattern.WriteOffsets(os.Stdout, window, 1*mm); err != nil {
		log.Fatal(err)
	}
	// Output:
	// side window: cut 1 and 1 mirrored
	//
	// Draw a baseline of 600 mm on the cloth, its right side up, and mark its left end.
	// Measure along the baseline, from there square to it, and mark the point. Join the
	// points in turn, the last one with point 1: that is the cut line, to 1.0 mm.
	// Check each point by its distance to the next. The warp lies along the baseline.
	//
	// point   along  square  to next   (mm)
	//     1     600       0      320
	//     2     520     310      461
	//     3      60     340      326
	//     4       0      20      600
}

// The distances from each point to the next that are printed belong to the
// offsets that are printed, and the points lie on the cut line.
func TestOffsetsAgree(t *testing.T) {
	for _, p := range awning(t) {
		var b bytes.Buffer
		if err := pattern.WriteOffsets(&b, p, 2*mm); err != nil {
			t.Fatal(err)
		}
		var xs, ys, next []float64
		for l := range strings.Lines(b.String()) {
			var n int
			var x, y, d float64
			if k, _ := fmt.Sscan(l, &n, &x, &y, &d); k == 4 && n == len(xs)+1 {
				xs, ys, next = append(xs, x), append(ys, y), append(next, d)
			}
		}
		if len(xs) < 3 || len(xs) > 80 {
			t.Errorf("%s: %d points", p.Name, len(xs))
		}
		var ring line
		lo := p.Cut[0]
		for _, q := range p.Cut {
			lo.X, lo.Y = min(lo.X, q.X), min(lo.Y, q.Y)
		}
		for _, q := range append(p.Cut[:len(p.Cut):len(p.Cut)], p.Cut[0]) {
			ring = append(ring, [2]float64{(q.X - lo.X).Millimetres(), (q.Y - lo.Y).Millimetres()})
		}
		for i := range xs {
			k := (i + 1) % len(xs)
			if d := math.Hypot(xs[k]-xs[i], ys[k]-ys[i]); math.Abs(d-next[i]) > 1.92 { // all three are rounded
				t.Errorf("%s: point %d is %.1f mm from the next, printed %v", p.Name, i+1, d, next[i])
			}
			if d := off(ring, xs[i], ys[i]); d > 0.71 {
				t.Errorf("%s: point %d is %.2f mm from the cut line", p.Name, i+1, d)
			}
		}
	}
}

// A leaf, two arcs that meet at sharp points: its corners move outwards by no more
// than the sides may, whatever the deviation.
func TestSharpCorners(t *testing.T) {
	for _, depth := range []units.Length{3 * mm, 10 * mm, 40 * mm, -5 * mm} {
		leaf := canvas.Panel{Name: "leaf", Grain: 3 * units.Angle(math.Pi) / 4, Edges: []canvas.Edge{
			{Name: "a", Course: canvas.Course{Curve: canvas.Arc, Depth: 60 * mm}},
			{Name: "b", From: canvas.Point{X: 0.4}, Course: canvas.Course{Curve: canvas.Arc, Depth: depth}},
		}}
		pieces, err := canvas.Cover{Title: "leaf", Panels: []canvas.Panel{leaf}}.Pieces(canvas.Cloth{})
		if err != nil {
			t.Fatal(err)
		}
		for _, deviation := range []float64{0.01, 0.05, 0.5, 2, 10} {
			var b bytes.Buffer
			if err := pattern.WritePolylines(&b, pieces, mm.Scale(deviation)); err != nil {
				t.Fatal(err)
			}
			l := readPolylines(t, b.Bytes())["leaf"].lines[0]
			var ring line
			for _, q := range append(pieces[0].Cut[:len(pieces[0].Cut):len(pieces[0].Cut)], pieces[0].Cut[0]) {
				ring = append(ring, [2]float64{q.X.Millimetres(), q.Y.Millimetres()})
			}
			for _, q := range l {
				if d := off(ring, q[0], q[1]); d > deviation {
					t.Errorf("depth %v, deviation %v: a point is %v mm away", depth, deviation, d)
				}
			}
			for _, q := range ring {
				if d := off(l, q[0], q[1]); d > deviation || d > 2e-3 && around(l, q[0], q[1]) == 0 {
					t.Errorf("depth %v, deviation %v: cloth is cut away by %v mm", depth, deviation, d)
				}
			}
		}
		var b bytes.Buffer
		if err := pattern.WriteOffsets(&b, pieces[0], mm); err != nil || !strings.Contains(b.String(), "warp lies at 135 degrees") {
			t.Errorf("%v: %s", err, &b)
		}
	}
	for grain, want := range map[units.Angle]string{0: "along", units.Angle(math.Pi): "along", units.Angle(-math.Pi / 2): "square to", 1: "at 57 degrees", -1: "at 123 degrees"} {
		var b bytes.Buffer
		p := canvas.Piece{Name: "p", Quantity: 1, Cut: rectangle(0, 0, 1, 1), Grain: grain}
		if err := pattern.WriteOffsets(&b, p, mm); err != nil || !strings.Contains(b.String(), "The warp lies "+want) {
			t.Errorf("%v: %v: %s", grain, err, &b)
		}
	}
}
