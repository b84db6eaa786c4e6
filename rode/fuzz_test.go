package rode_test

import (
	"encoding/binary"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// encode writes a problem as bytes for the fuzzer: the number of pieces, what
// is given, and the numbers one after another. Each piece has one fitting.
func encode(s sample, by byte, want float64) []byte {
	b := []byte{byte(len(s.rode.Pieces)), by}
	for _, x := range []float64{
		want, s.site.Depth.Metres(), s.site.Roller.Metres(), s.site.Slope.Radians(), s.site.Friction, float64(s.site.Water),
	} {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
	}
	for _, p := range s.rode.Pieces {
		var f rode.Fitting
		if len(p.Top) > 0 {
			f = p.Top[0]
		}
		for _, x := range []float64{
			float64(p.Length), float64(p.Mass), float64(p.Density), float64(p.Stretch.Reference), p.Stretch.A, p.Stretch.B, p.Stretch.C,
			float64(f.Mass), float64(f.Volume),
		} {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
		}
	}
	return b
}

// decode reads what encode wrote, or anything: missing numbers are 0.
func decode(b []byte) (s sample, by byte, want float64) {
	next := func() float64 {
		if len(b) < 8 {
			b = nil
			return 0
		}
		x := math.Float64frombits(binary.LittleEndian.Uint64(b))
		b = b[8:]
		return x
	}
	if len(b) < 2 {
		return s, 0, 0
	}
	n := int(b[0] % 8)
	by = b[1] % 3
	b = b[2:]
	want = next()
	s.site.Depth, s.site.Roller, s.site.Slope = units.Length(next()), units.Length(next()), units.Angle(next())
	s.site.Friction, s.site.Water = next(), units.Density(next())
	for range n {
		p := rode.Piece{Length: units.Length(next()), Mass: units.LinearDensity(next()), Density: units.Density(next())}
		p.Stretch.Reference = units.Force(next())
		p.Stretch.A, p.Stretch.B, p.Stretch.C = next(), next(), next()
		p.Top = []rode.Fitting{{Mass: units.Mass(next()), Volume: units.Volume(next())}}
		s.rode.Pieces = append(s.rode.Pieces, p)
	}
	return s, by, want
}

// Whatever comes in, the answer is an error of this package, or finite numbers
// of a rode that ends at the roller. The seeds in testdata are rodes of chain
// and rope, with a kellet, with a float, sloping, dry, and taut.
func FuzzSolve(f *testing.F) {
	for i, s := range []sample{
		{rode.Rode{Pieces: []rode.Piece{chain(40)}}, anchorage, 500},
		{rode.Rode{Pieces: []rode.Piece{chain(20), warp(30)}}, anchorage, 40},
		{rode.Rode{Pieces: []rode.Piece{chain(20), warp(30), stiff(2)}}, rode.Site{Depth: 6, Slope: -0.1}, 900},
	} {
		f.Add(encode(s, byte(i), s.pull.Newtons()))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, by, want := decode(data)
		var st rode.State
		sv, err := rode.NewSolver(s.rode, s.site)
		if err == nil {
			switch by {
			case 0:
				err = sv.Solve(&st, units.Force(want))
			case 1:
				err = sv.SolveDistance(&st, units.Length(want))
			case 2:
				err = sv.SolveTension(&st, units.Force(want))
			}
		}
		if bad := sound(s.rode, s.site, &st, err); bad != nil {
			t.Fatalf("%v: by %d, %v, %#v", bad, by, want, s)
		}
		if err != nil {
			return
		}
		for p := range st.Points(s.site.Rise().Scale(0.1)) {
			if math.IsNaN(p.X.Metres() + p.Z.Metres() + p.Tension.Newtons()) {
				t.Fatalf("point %+v: by %d, %v, %#v", p, by, want, s)
			}
			if p.Arc > 100*s.site.Rise() {
				break
			}
		}
	})
}
