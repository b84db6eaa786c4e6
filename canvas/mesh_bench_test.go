package canvas_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// The plain local/global method with the weights of cotangents and a dense matrix
// comes to the same layout.
func TestFlattenAgainstDense(t *testing.T) {
	for _, m := range []canvas.Mesh{bump(4, 1), bump(5, 2), sphereCap(6, 1.3)} {
		s := mustFlatten(t, m).Sheets[0]
		d := canvas.Sheet{From: s.From, Triangles: s.Triangles, Points: dense(m, s, 400)}
		if got := strainOf(m, d); math.Abs(got-s.Energy) > 1e-6*got {
			t.Errorf("energy %v, dense %v", s.Energy, got)
		}
		for i := range s.Points {
			for j := range i {
				a := math.Hypot(float64(s.Points[i].X-s.Points[j].X), float64(s.Points[i].Y-s.Points[j].Y))
				b := math.Hypot(float64(d.Points[i].X-d.Points[j].X), float64(d.Points[i].Y-d.Points[j].Y))
				if math.Abs(a-b) > 1e-5 {
					t.Fatalf("%d to %d is %v, dense %v", i, j, a, b)
				}
			}
		}
	}
}

// dense flattens a sheet from its points seen from above.
func dense(m canvas.Mesh, s canvas.Sheet, rounds int) []canvas.Point {
	n := len(s.From)
	at := make([][2]float64, n)
	for p, q := range s.From {
		at[p] = [2]float64{float64(m.Points[q].X), float64(m.Points[q].Y)}
	}
	type side struct {
		i, j   int
		x, y   float64 // from i to j in the triangle's plane
		weight float64 // cotangent of the angle opposite
	}
	all := make([][3]side, len(s.Triangles))
	a := mat.NewSymDense(n, nil)
	for k, t := range s.Triangles {
		var l [3]float64 // opposite each corner
		for c := range 3 {
			l[c] = apart(m.Points[s.From[t.Corners[(c+1)%3]]], m.Points[s.From[t.Corners[(c+2)%3]]])
		}
		x := (l[1]*l[1] + l[2]*l[2] - l[0]*l[0]) / (2 * l[2])
		y := math.Sqrt(l[1]*l[1] - x*x)
		z := [3][2]float64{{0, 0}, {l[2], 0}, {x, y}}
		for c := range 3 {
			i, j := (c+1)%3, (c+2)%3
			cos := (l[i]*l[i] + l[j]*l[j] - l[c]*l[c]) / (2 * l[i] * l[j])
			e := side{t.Corners[i], t.Corners[j], z[j][0] - z[i][0], z[j][1] - z[i][1], cos / math.Sqrt(1-cos*cos)}
			all[k][c] = e
			a.SetSym(e.i, e.i, a.At(e.i, e.i)+e.weight)
			a.SetSym(e.j, e.j, a.At(e.j, e.j)+e.weight)
			a.SetSym(e.i, e.j, a.At(e.i, e.j)-e.weight)
		}
	}
	a.SetSym(0, 0, a.At(0, 0)+1)
	var factors mat.Cholesky
	if !factors.Factorize(a) {
		return nil
	}
	var u mat.Dense
	for range rounds {
		b := mat.NewDense(n, 2, nil)
		for _, t := range all {
			cos, sin := 0.0, 0.0
			for _, e := range t {
				dx, dy := at[e.j][0]-at[e.i][0], at[e.j][1]-at[e.i][1]
				cos += e.weight * (dx*e.x + dy*e.y)
				sin += e.weight * (dy*e.x - dx*e.y)
			}
			r := math.Hypot(cos, sin)
			cos, sin = cos/r, sin/r
			for _, e := range t {
				x, y := e.weight*(cos*e.x-sin*e.y), e.weight*(sin*e.x+cos*e.y)
				b.Set(e.j, 0, b.At(e.j, 0)+x)
				b.Set(e.j, 1, b.At(e.j, 1)+y)
				b.Set(e.i, 0, b.At(e.i, 0)-x)
				b.Set(e.i, 1, b.At(e.i, 1)-y)
			}
		}
		if err := factors.SolveTo(&u, b); err != nil {
			return nil
		}
		for p := range at {
			at[p] = [2]float64{u.At(p, 0), u.At(p, 1)}
		}
	}
	out := make([]canvas.Point, n)
	for p := range out {
		out[p] = canvas.Point{X: units.Length(at[p][0]), Y: units.Length(at[p][1])}
	}
	return out
}

func BenchmarkFlatten(b *testing.B) {
	for _, rings := range []int{10, 20, 41} {
		m := sphereCap(rings, math.Pi/3)
		b.Run(fmt.Sprint(len(m.Triangles)), func(b *testing.B) {
			for b.Loop() {
				mustFlatten(b, m)
			}
		})
	}
}

// The same with a general-purpose dense matrix, refined no further than 30 steps.
func BenchmarkFlattenDense(b *testing.B) {
	for _, rings := range []int{10, 20} {
		m := sphereCap(rings, math.Pi/3)
		s := mustFlatten(b, m).Sheets[0]
		b.Run(fmt.Sprint(len(m.Triangles)), func(b *testing.B) {
			for b.Loop() {
				if dense(m, s, 30) == nil {
					b.Fatal("not positive definite")
				}
			}
		})
	}
}
