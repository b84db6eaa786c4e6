package anchor_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func chainOf(length units.Length) rode.Piece {
	return rode.Piece{Name: "8 mm chain", Length: length, Mass: 1.4, Density: rode.Steel}
}

func ropeOf(length units.Length) rode.Piece {
	return rode.Piece{
		Name: "14 mm polyamide", Kind: rode.OfRope, Length: length, Mass: 0.12, Density: 1140,
		Stretch: rode.LinearStretch(100 * units.Kilonewton),
	}
}

func swings() (chain, rope anchor.Swing) {
	site := rode.Site{Depth: 6, Roller: 1.4, Friction: 0.6}
	chain = anchor.Swing{Rode: rode.Rode{Pieces: []rode.Piece{chainOf(35)}}, Site: site, Stern: 10.4, Antenna: 9, Beam: 3.2}
	rope = anchor.Swing{Rode: rode.Rode{Pieces: []rode.Piece{chainOf(8), ropeOf(42)}}, Site: site, Stern: 9, Antenna: 8, Beam: 3}
	return chain, rope
}

// The circle lies between the rode hanging straight down and the taut rode, and
// grows with the pull and with falling water.
func TestSwingCircleBounds(t *testing.T) {
	chain, _ := swings()
	last := units.Length(0)
	for _, pull := range []units.Force{0, 50, 200, 1000, 5000, 20000} {
		c, err := anchor.SwingCircle(chain, pull)
		if err != nil {
			t.Fatal(err)
		}
		rise := chain.Site.Rise().Metres()
		loose, taut := 35-rise, math.Sqrt(35*35-rise*rise)
		if c.Bow < last || c.Bow.Metres() < loose-1e-9 || c.Bow.Metres() > taut {
			t.Errorf("pull %v: bow at %v, want from %v to %v and more than %v", pull, c.Bow, loose, taut, last)
		}
		if c.Stern != c.Bow+chain.Stern || c.Antenna != c.Bow+chain.Antenna {
			t.Errorf("pull %v: %+v", pull, c)
		}
		last = c.Bow
		low := chain
		low.Site.Depth--
		if l, err := anchor.SwingCircle(low, pull); err != nil || l.Bow <= c.Bow {
			t.Errorf("pull %v: %v at low water, %v at high, %v", pull, l.Bow, c.Bow, err)
		}
	}
}

// An exhaustive search finds no less than ClearOf, and hardly more.
func TestClearanceBySearch(t *testing.T) {
	chain, rope := swings()
	rng := rand.New(rand.NewPCG(4, 4))
	for range 12 {
		n := anchor.Neighbour{
			Bearing: units.Angle(2 * math.Pi * rng.Float64()), Distance: units.Length(20 + 90*rng.Float64()), Swing: rope,
		}
		pull, differ := units.Force(20+2000*rng.Float64()), units.Angle(rng.Float64())
		cl, err := anchor.ClearOf(chain, pull, n, pull/2, differ)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		line := func(c anchor.Circle, east, north, wind float64) (points [21][2]float64) {
			for i := range points {
				r := c.Bow.Metres() + float64(i)/20*(c.Stern-c.Bow).Metres()
				points[i] = [2]float64{east - r*math.Sin(wind), north - r*math.Cos(wind)}
			}
			return points
		}
		for w := range 180 {
			wind := float64(w) * math.Pi / 90
			a := line(cl.Ours, 0, 0, wind)
			for d := -8; d <= 8; d++ {
				b := line(cl.Theirs, n.Distance.Metres()*n.Bearing.Sin(), n.Distance.Metres()*n.Bearing.Cos(), wind+float64(d)/8*differ.Radians())
				for _, p := range a {
					for _, q := range b {
						least = min(least, math.Hypot(p[0]-q[0], p[1]-q[1]))
					}
				}
			}
		}
		least = max(0, least-3.1)
		if got := cl.Least.Metres(); got > least+0.02 || got < least-2.5 {
			t.Errorf("distance %v, differ %v: %.2f m clear, a search finds %.2f m", n.Distance, differ, got, least)
		}
		if cl.Apart > cl.Least+0.02 {
			t.Errorf("circles %v apart, hulls %v", cl.Apart, cl.Least)
		}
	}
}

func TestClearanceSymmetry(t *testing.T) {
	chain, rope := swings()
	n := anchor.Neighbour{Bearing: 0.7, Distance: 55, Swing: rope}
	a, err := anchor.ClearOf(chain, 600, n, 400, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	// From the neighbour's side.
	back := anchor.Neighbour{Bearing: 0.7 - math.Pi, Distance: 55, Swing: chain}
	b, err := anchor.ClearOf(rope, 400, back, 600, 0.5)
	if err != nil || (a.Least-b.Least).Abs() > 0.03 || (a.Apart-b.Apart).Abs() > 1e-9 {
		t.Errorf("%+v from the other side %+v, %v", a, b, err)
	}
	// Turned round with the wind.
	n.Bearing += 1.1
	c, err := anchor.ClearOf(chain, 600, n, 400, 0.5)
	if err != nil || (a.Least-c.Least).Abs() > 0.03 {
		t.Errorf("%+v turned %+v, %v", a, c, err)
	}
	// Two boats alike in one wind keep the distance of their anchors along it.
	same := anchor.Neighbour{Distance: 40, Swing: chain}
	d, err := anchor.ClearOf(chain, 600, same, 600, 0)
	if want := 40 - chain.Stern - chain.Beam; err != nil || (d.Least-want).Abs() > 0.02 {
		t.Errorf("alike: %v clear, want %v, %v", d.Least, want, err)
	}
	// More freedom never clears more.
	last := units.Length(math.Inf(1))
	for _, differ := range []units.Angle{0, 0.2, 0.6, 1.5, math.Pi} {
		e, err := anchor.ClearOf(chain, 600, n, 400, differ)
		if err != nil || e.Least > last+0.02 {
			t.Errorf("differ %v: %v clear, less freedom %v, %v", differ, e.Least, last, err)
		}
		last = e.Least
	}
	// With all the freedom there is it is that of the circles.
	far := anchor.Neighbour{Distance: 120, Swing: rope}
	f, err := anchor.ClearOf(chain, 600, far, 400, math.Pi)
	if err != nil || (f.Least-f.Apart).Abs() > 0.02 {
		t.Errorf("circles %v apart, hulls %v, %v", f.Apart, f.Least, err)
	}
}

func TestSwingRefuses(t *testing.T) {
	chain, rope := swings()
	bad := chain
	bad.Antenna = 11
	_, err := anchor.SwingCircle(bad, 100)
	refused(t, err, "Antenna")
	bad = chain
	bad.Beam = units.Length(math.NaN())
	_, err = anchor.SwingCircle(bad, 100)
	refused(t, err, "Beam")
	if _, err = anchor.SwingCircle(chain, units.Force(math.NaN())); err == nil {
		t.Error("a pull of NaN")
	}
	_, err = anchor.ClearOf(chain, 1, anchor.Neighbour{Distance: -1, Swing: rope}, 1, 0)
	refused(t, err, "Neighbour.Distance")
	_, err = anchor.ClearOf(chain, 1, anchor.Neighbour{Distance: 50, Swing: rope}, 1, 4)
	refused(t, err, "differ")
	_, err = anchor.ClearOf(chain, 1, anchor.Neighbour{Bearing: units.Angle(math.Inf(-1)), Swing: rope}, 1, 1)
	refused(t, err, "Neighbour.Bearing")
}
