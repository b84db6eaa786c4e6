package rode

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func mk(pieces []span, pts []pointLoad, depth, roller, mu, slope float64) *line {
	ln := &line{pieces: pieces, points: pts, roller: roller, rise: depth + roller, friction: mu}
	ln.sin, ln.cos = math.Sincos(slope)
	ln.tan = ln.sin / ln.cos
	for _, p := range pieces {
		ln.length += p.l
		if p.wet < 0 {
			ln.buoyant = true
		}
	}
	for _, p := range pts {
		if p.wet < 0 {
			ln.buoyant = true
		}
	}
	return ln
}

func TestScratch(t *testing.T) {
	// OC3
	ln := mk([]span{{902.2, 698.094, 1, law{1 / 384.243e6, 0, 0}}}, nil, 320, -70, 0, 0)
	b, err := ln.solve(givenDistance, 848.67, &record{nil, make([]Piece,9)})
	fmt.Println(b, err, "V3", 3*b.v, "k", 1/b.rate)
	r := rand.New(rand.NewPCG(1, 2))
	for range 200000 {
		n := 1 + r.IntN(5)
		ps := make([]span, n)
		pts := make([]pointLoad, n-1)
		L := 0.0
		for i := range ps {
			w := math.Exp(r.Float64()*6 - 2)
			ps[i] = span{l: math.Exp(r.Float64()*4 - 0.5), wet: w, dry: w * 1.15}
			if r.IntN(2) == 0 {
				ps[i].law = law{1e-5 * r.Float64(), -1e-9 * r.Float64(), 1e-12}
			}
			L += ps[i].l
			if i > 0 && r.IntN(2) == 0 {
				w := math.Exp(r.Float64()*5 - 1)
				pts[i-1] = pointLoad{w, w * 1.3, 0.1}
			}
		}
		rise := L * (0.05 + 0.8*r.Float64())
		roller := rise * 0.3 * r.Float64()
		ln := mk(ps, pts, rise-roller, roller, r.Float64(), 0)
		h := math.Exp(r.Float64()*12 - 3)
		b, err := ln.solve(givenPull, h, nil)
		if err != nil {
			t.Fatal(err, *ln, h)
		}
		c, err := ln.solve(givenDistance, b.run, nil)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(c.run-b.run) > 1e-12*L {
			t.Fatal(b, c, b.rate*h/L)
		}
		c, err = ln.solve(givenTension, math.Hypot(b.h, b.v), nil)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(c.h-b.h) > 1e-9*h {
			t.Fatal(b, c, b.rate*h/L)
		}
	}
}

func BenchmarkPull(b *testing.B) {
	ln := mk([]span{{60, 12.3, 14.2, law{1e-7, 0, 0}}}, nil, 8, 1.4, 0.7, 0)
	for b.Loop() {
		ln.solve(givenPull, 500, nil)
	}
}
func BenchmarkDist(b *testing.B) {
	ln := mk([]span{{60, 12.3, 14.2, law{1e-7, 0, 0}}}, nil, 8, 1.4, 0.7, 0)
	for b.Loop() {
		ln.solve(givenDistance, 56, nil)
	}
}
