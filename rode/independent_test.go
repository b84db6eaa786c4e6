package rode_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// logUniform is a random number from lo to hi, all powers of ten as likely.
func logUniform(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Exp(r.Float64()*math.Log(hi/lo))
}

// sample is a random rode without buoyancy, and a pull for it.
type sample struct {
	rode rode.Rode
	site rode.Site
	pull units.Force
}

// randomSample draws a rode of 1 to 5 pieces: chains, ropes, pieces a little
// heavier than water and just as heavy, weights at joints, on a bed that is
// level or slopes, with the roller above the water or below it.
func randomSample(r *rand.Rand) sample {
	for {
		var s sample
		n := 1 + r.IntN(5)
		s.site.Water = []units.Density{0, rode.SeaWater, rode.FreshWater}[r.IntN(3)]
		water := s.site.Water
		if water == 0 {
			water = rode.SeaWater
		}
		length, weight := 0.0, 0.0
		for range n {
			p := rode.Piece{
				Name:   "piece",
				Length: units.Length(logUniform(r, 0.5, 80)),
				Mass:   units.LinearDensity(logUniform(r, 0.05, 5)),
			}
			switch r.IntN(8) {
			case 0:
				p.Density = water
			case 1:
				p.Density = water * units.Density(1+logUniform(r, 1e-9, 1e-2))
			case 2, 3:
				p.Kind, p.Density = rode.OfRope, 1140
			default:
				p.Density = 7850
			}
			length += p.Length.Metres()
			s.rode.Pieces = append(s.rode.Pieces, p)
		}
		for i := range n - 1 {
			if r.IntN(2) == 0 {
				mass := logUniform(r, 0.1, 50)
				s.rode.Pieces[i].Top = []rode.Fitting{{
					Name: "kellet", Mass: units.Mass(mass), Volume: units.Volume(mass / []float64{11340, 7850, 1100}[r.IntN(3)]),
				}}
				if r.IntN(3) == 0 {
					s.rode.Pieces[i].Top = append(s.rode.Pieces[i].Top, rode.Fitting{Name: "shackle", Mass: 0.3})
				}
			}
		}
		s.site.Slope = []units.Angle{0, 0, units.Angle(r.Float64() * 0.4), units.Angle(-r.Float64() * 0.4)}[r.IntN(4)]
		s.site.Friction = []float64{0, r.Float64()}[r.IntN(2)]
		rise := length * (0.02 + 0.96*r.Float64())
		if rise <= length*(math.Sin(s.site.Slope.Radians())+0.01) {
			continue
		}
		roller := 0.0
		switch r.IntN(5) {
		case 0:
			roller = -rise * r.Float64()
		case 1:
		case 2:
			roller = rise * r.Float64()
		default:
			roller = rise * 0.3 * r.Float64()
		}
		s.site.Roller = units.Length(roller)
		s.site.Depth = units.Length(rise - roller)
		m := newModel(s.rode, s.site)
		for _, p := range m.pieces {
			weight += p.l * p.wet
		}
		for _, j := range m.joints {
			weight += j.wet
		}
		weight = math.Max(weight, 1e-2*m.weight)
		s.pull = units.Force(weight * logUniform(r, 1e-3, 1e3))
		most := s.pull.Newtons() + m.weight
		for i := range s.rode.Pieces {
			p := &s.rode.Pieces[i]
			ref := units.Force(most * logUniform(r, 3, 3000))
			switch r.IntN(3) {
			case 0:
				p.Stretch = rode.Linear(ref)
			case 1:
				b := r.Float64()*4 - 2
				p.Stretch = rode.Stretch{Reference: ref, A: r.Float64() + 0.01, B: b}
				p.Stretch.C = b * b / (3 * p.Stretch.A) * (1.01 + r.Float64())
			}
		}
		return s
	}
}

func TestScratch2(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	bad := 0
	worst := 0.0
	for i := range 10000 {
		s := randomSample(r)
		st, err := rode.Solve(s.rode, s.site, s.pull)
		if err != nil {
			t.Errorf("%d: %v %+v", i, err, s)
			continue
		}
		m := newModel(s.rode, s.site)
		tr := m.trace(float64(st.Pull), float64(st.Vertical))
		rise := float64(s.site.Depth + s.site.Roller)
		dz := math.Abs(tr.drop-rise) / m.length
		dx := math.Abs(tr.x-float64(st.Distance)) / m.length
		worst = max(worst, dz, dx)
		if dz > 1e-9 || dx > 1e-9 {
			bad++
			if bad < 8 {
				fmt.Printf("%d dz %g dx %g touched %v %v %+v\n", i, dz, dx, tr.touched, st.Lifted, s)
			}
		}
	}
	fmt.Println(bad, worst)
}
