package rode_test

import (
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// compassSearch finds the ring in plan by a compass search, which knows of nothing
// but the value: the elastic energy of the legs, each the integral of its tension
// over its extension taken from the rope's curve, less the work of the pull.
func compassSearch(b rode.Bridle, pull units.Force, sheer units.Angle) (x, y float64) {
	s := b.Rope.Stretch
	ref := float64(s.Reference)
	energy := func(d, length float64) float64 {
		strain := d/length - 1
		if strain <= 0 {
			return 0
		}
		lo, hi := 0.0, 4.0 // r with strain = A r + B r² + C r³
		for range 60 {
			if m := (lo + hi) / 2; m*(s.A+m*(s.B+m*s.C)) < strain {
				lo = m
			} else {
				hi = m
			}
		}
		// The tension times the extension, less the integral of extension over tension.
		return length * ref * lo * lo * (s.A/2 + lo*(2*s.B/3+lo*3*s.C/4))
	}
	half := float64(b.Spread) / 2
	sin, cos := math.Sincos(float64(sheer))
	value := func(x, y float64) float64 {
		return energy(math.Hypot(x, y-half), float64(b.Port)) + energy(math.Hypot(x, y+half), float64(b.Starboard)) -
			float64(pull)*(x*cos+y*sin)
	}
	x = 0.9 * float64(b.Port)
	least := value(x, y)
	for step := 1.0; step > 1e-7; {
		moved := false
		for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
			if e := value(x+step*d[0], y+step*d[1]); e < least {
				x, y, least, moved = x+step*d[0], y+step*d[1], e, true
			}
		}
		if !moved {
			step /= 2
		}
	}
	return x, y
}

func TestBridleHasTheLeastEnergy(t *testing.T) {
	for _, legs := range [][2]units.Length{{9, 9}, {8, 10}, {12, 6.5}} {
		b := bridleOf(t, 6, legs[0], legs[1])
		for _, sheer := range []float64{0, 12, 35, -50} {
			angle := units.Degree.Scale(sheer)
			st := solveBridle(t, b, rode.BridlePull{Horizontal: 4400, Sheer: angle})
			x, y := compassSearch(b, 4400, angle)
			// Where the energy is least it is flat: its rounding moves the minimum by micrometres.
			if math.Abs(x-float64(st.Forward)) > 1e-5 || math.Abs(y-float64(st.ToPort)) > 1e-5 {
				t.Errorf("legs %v, sheer %v°: least energy at %v, %v, solved %v, %v", legs, sheer, x, y, st.Forward, st.ToPort)
			}
		}
	}
}

// Two legs that spread to a half angle a are softer than side by side by cos² a
// while the pull is light, as Rode.Snub says.
func TestSpreadLegsAreSofter(t *testing.T) {
	b := bridleOf(t, units.Length(2*9*math.Sin(15*math.Pi/180)), 9, 9)
	ea := float64(b.Rope.Stretch.Reference) / b.Rope.Stretch.A
	forward := func(pull units.Force) float64 {
		return float64(solveBridle(t, b, rode.BridlePull{Horizontal: pull}).Forward)
	}
	stiffness := 0.1 / (forward(1.05) - forward(0.95))
	if ratio := stiffness / (2 * ea / 9); math.Abs(ratio-0.933) > 0.001 {
		t.Errorf("spread legs have %v of the stiffness", ratio)
	}
}

func BenchmarkBridle(b *testing.B) {
	br := bridleOf(b, 6, 9, 9)
	b.Run("solve", func(b *testing.B) {
		for b.Loop() {
			if _, err := rode.SolveBridle(br, rode.BridlePull{Horizontal: 4400, Sheer: 0.2}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("compass search", func(b *testing.B) {
		for b.Loop() {
			compassSearch(br, 4400, 0.2)
		}
	})
}

func BenchmarkSurge(b *testing.B) {
	r, s, g, rope := plover(b)
	whole := snub(b, r, rode.Snubber{Rope: rope, Length: 10})
	for b.Loop() {
		if _, err := rode.SolveSurge(whole, s, g); err != nil {
			b.Fatal(err)
		}
	}
}
