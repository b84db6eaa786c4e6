package rode_test

import (
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// The pull under which a chain that does not stretch leaves the anchor at an angle a
// to the horizontal has a closed form: with T the tension and V the vertical force at
// the bow, T = H/cos a + w z and V = H tan a + w L, so that H² + V² = T² gives
//
//	H = w (L² - z²) / (2 (z / cos a - L tan a))
func TestPullForByHand(t *testing.T) {
	site := rode.Site{Depth: 9, Friction: 0.5}
	r := rode.Rode{Pieces: []rode.Piece{stiff(40)}}
	for _, slope := range []units.Angle{-8, 0, 3, 8, 12} {
		site.Slope = slope * units.Degree
		for _, angle := range []units.Angle{0, 0.5, 4} {
			a := float64((slope + angle) * units.Degree)
			below := 9/math.Cos(a) - 40*math.Tan(a)
			got, err := rode.PullFor(r, site, angle*units.Degree)
			if below <= 0 { // a straight line is flatter
				wants(t, err, rode.ErrNoBalance, "angle")
				continue
			}
			if err != nil {
				t.Errorf("slope %v°, angle %v°: %v", float64(slope), float64(angle), err)
				continue
			}
			want := wetWeight * (40*40 - 9*9) / (2 * below)
			near(t, "pull", float64(got), want, 10*want)
		}
	}
}

// What stretches lifts at some pull and is flattened by a greater one. The pull found
// is the first: a little less is flatter, a little more steeper.
func TestPullForWhatStretches(t *testing.T) {
	soft := chain(40)
	soft.Stretch = rode.LinearStretch(20e3)
	limited := warp(20)
	limited.Stretch.Limit = 6e3
	for _, c := range []struct {
		name   string
		pieces []rode.Piece
		slope  units.Angle
		angle  units.Angle
		none   bool
	}{
		{name: "chain", pieces: []rode.Piece{chain(40)}, angle: 5},
		{name: "chain on a rising bed", pieces: []rode.Piece{chain(40)}, slope: 5},
		{name: "chain on a rising bed, at an angle", pieces: []rode.Piece{chain(40)}, slope: 5, angle: 3},
		{name: "chain, nearly straight", pieces: []rode.Piece{chain(40)}, angle: 13},
		{name: "chain, steeper than straight", pieces: []rode.Piece{chain(40)}, angle: 14, none: true},
		{name: "soft chain", pieces: []rode.Piece{soft}, angle: 8},
		{name: "soft chain on a rising bed", pieces: []rode.Piece{soft}, slope: 8, angle: 0.1},
		{name: "soft chain, steeper than ever", pieces: []rode.Piece{soft}, slope: 8, angle: 0.5, none: true},
		{name: "chain and rope", pieces: []rode.Piece{chain(20), limited}, angle: 8},
		{name: "rope that parts before", pieces: []rode.Piece{chain(60), limited}, slope: 0, angle: 5, none: true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rode.Rode{Pieces: c.pieces}
			site := anchorage
			site.Slope = c.slope * units.Degree
			pull, err := rode.PullFor(r, site, c.angle*units.Degree)
			if c.none {
				wants(t, err, rode.ErrNoBalance, "angle")
				for pull := units.Force(10); pull < 1e7; pull *= 1.1 {
					st, err := rode.Solve(r, site, pull)
					if err != nil {
						break // beyond the rope's curve, or the bed is in the way
					}
					if st.Anchor.FromBed >= c.angle*units.Degree {
						t.Errorf("%v from the bed at %v", st.Anchor.FromBed, pull)
					}
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			st := mustSolve(t, r, site, pull)
			near(t, "angle", st.Anchor.FromBed.Degrees(), float64(c.angle), 90)
			near(t, "on the bed", st.OnBed.Metres(), 0, 40)
			if less := mustSolve(t, r, site, pull*0.999); !(less.Anchor.FromBed < st.Anchor.FromBed || less.OnBed > 0) {
				t.Errorf("a little less pull than %v: %v from the bed", pull, less.Anchor.FromBed)
			}
			if more := mustSolve(t, r, site, pull*1.001); !(more.Anchor.FromBed > st.Anchor.FromBed) {
				t.Errorf("a little more pull than %v: %v from the bed", pull, more.Anchor.FromBed)
			}
		})
	}
}

// Hardly longer than the rise the rode hangs from a rope that no pull would spare:
// that length is too short, no reason to refuse all others.
func TestLengthForShortChain(t *testing.T) {
	rope := warp(60) // that hardly stretches, and is measured to 40 kN
	rope.Stretch = rode.Stretch{Reference: 40e3, A: 0.03, Limit: 40e3}
	r := rode.Rode{Pieces: []rode.Piece{chain(5), rope}}
	const pull = 14e3
	l, err := rode.LengthFor(r, anchorage, pull, 20*units.Degree)
	if err != nil {
		t.Fatal(err)
	}
	for by, steeper := range map[units.Length]bool{1e-6: false, -1e-6: true} {
		v, err := r.Veer(l + by)
		if err != nil {
			t.Fatal(err)
		}
		if st := mustSolve(t, v, anchorage, pull); (st.Anchor.FromBed > 20*units.Degree) != steeper {
			t.Errorf("%v and %v: %v° from the bed", l, by, st.Anchor.FromBed.Degrees())
		}
	}
	// A rope that would part before a pull is let out at any length.
	_, err = rode.LengthFor(r, anchorage, 41e3, 30*units.Degree)
	wants(t, err, rode.ErrStretch, "tension in warp")
	// Upright is steep enough for whoever asks for no more.
	if l, err := rode.LengthFor(rode.Rode{Pieces: []rode.Piece{chain(40)}}, anchorage, 900, 90*units.Degree); err != nil || math.Abs(float64(l)-9.45) > 1e-6 {
		t.Errorf("upright: %v, %v", l, err)
	}
}
