package rode_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
	"github.com/google/go-cmp/cmp"
)

// near fails unless got is want to within a billionth of scale.
func near(t *testing.T, what string, got, want, scale float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*scale) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// stiff is chain that does not stretch.
func stiff(l units.Length) rode.Piece {
	p := chain(l)
	p.Stretch = rode.Stretch{}
	return p
}

// wetWeight and dryWeight are what stiff and chain weigh in N/m.
const (
	dryWeight = 1.4 * 9.80665
	wetWeight = dryWeight * (1 - 1025./7850)
)

func TestNoPull(t *testing.T) {
	st := mustSolve(t, rode.Rode{Pieces: []rode.Piece{stiff(30)}}, anchorage, 0)
	hangs := wetWeight*8 + dryWeight*1.45
	near(t, "tension", st.Tension.Newtons(), hangs, hangs)
	near(t, "vertical force", st.Vertical.Newtons(), hangs, hangs)
	near(t, "bow angle", st.BowAngle.Degrees(), 90, 90)
	near(t, "distance", st.Distance.Metres(), 30-9.45, 30)
	near(t, "length on the bed", st.OnBed.Metres(), 30-9.45, 30)
	if st.Anchor != (rode.AnchorPull{}) || st.Stiffness != 0 || st.Condition != 0 || st.Stretch != 0 || st.Lifted {
		t.Errorf("the anchor feels %+v, stiffness %v, condition %v, stretch %v", st.Anchor, st.Stiffness, st.Condition, st.Stretch)
	}

	// Where it stretches, each metre by the mean tension in it.
	st = mustSolve(t, rode.Rode{Pieces: []rode.Piece{chain(30)}}, rode.Site{Depth: 500 * units.Millimetre * 18}, 0)
	hung := 9.0
	for range 50 {
		hung = 9 / (1 + wetWeight*hung/2/4.5e6)
	}
	near(t, "distance", st.Distance.Metres(), 30-hung, 30)
	near(t, "stretch", st.Stretch.Metres(), 9-hung, 30)
}

func TestAllButTheRiseOnTheBed(t *testing.T) {
	st := mustSolve(t, rode.Rode{Pieces: []rode.Piece{stiff(50)}}, anchorage, 1e-3)
	near(t, "length on the bed", st.OnBed.Metres(), 50-9.45, 50*1e3*2)
	if st.Anchor.Tension != 0 || st.Friction != 1e-3 || st.Anchor.FromBed != 0 {
		t.Errorf("the bed holds %v and the anchor %v of a pull of 1 mN", st.Friction, st.Anchor.Tension)
	}
}

// Rodes that once were not solved, or without end.
func TestHardCases(t *testing.T) {
	rope := rode.Rode{Pieces: []rode.Piece{
		{
			Name: "rope", Length: 1.590646263926227, Mass: 2.7782860606869053, Density: 1140,
			Stretch: rode.Stretch{Reference: 4181.023676274719, A: 0.38882810506380505, B: 0.9081778074556834, C: 0.8998641878805856},
		},
		{Name: "rope", Length: 6.3925615031174425, Mass: 0.3998602420705811, Density: 1140, Stretch: rode.LinearStretch(1385.5701630396054)},
	}}
	for _, c := range []struct {
		name string
		rode rode.Rode
		site rode.Site
		pull units.Force
	}{
		// Newton's steps go to and fro between two flat ends of an S.
		{"to and fro", rope, rode.Site{Depth: 2.164309184434904, Roller: 1.9259224368330328, Slope: 0.12126480280958836}, 9.165057662034389},
		// The line dips into the water and leaves it again before the anchor.
		{"dips", rode.Rode{Pieces: []rode.Piece{stiff(30)}}, rode.Site{Depth: -1, Roller: 1.2, Slope: -0.4}, 1500},
		{"dips, light", rode.Rode{Pieces: []rode.Piece{warp(18)}}, rode.Site{Depth: -0.2, Roller: 0.7, Slope: -0.38}, 20},
	} {
		st := mustSolve(t, c.rode, c.site, c.pull)
		rep := &report{worst: map[string]float64{}}
		compare(rep, newModel(c.rode, c.site), &st)
		rep.flush(t, 0, c.name)
	}
}

func TestTaut(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(30), stiff(10)}}
	span := math.Sqrt(40*40 - 9.45*9.45)
	st := mustSolve(t, r, anchorage, 1e9)
	near(t, "distance", st.Distance.Metres(), span, 40)
	near(t, "angle", st.BowAngle.Radians(), math.Asin(9.45/40), 1e3)
	near(t, "angle at the anchor", st.Anchor.FromLevel.Radians(), math.Asin(9.45/40), 1e3)
	near(t, "tension", st.Tension.Newtons(), 1e9*40/span, 1e11)
	if !st.Lifted || st.Condition < 1e9 {
		t.Errorf("lifted %v, condition %v", st.Lifted, st.Condition)
	}

	_, err := rode.SolveDistance(r, anchorage, units.Length(span+1e-6))
	wants(t, err, rode.ErrTaut, "distance")
	st, err = rode.SolveDistance(r, anchorage, units.Length(span-1e-6))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "distance", st.Distance.Metres(), span-1e-6, 1e-3)

	// A straight rode without weight in water has no stiffness to speak of, and no infinite one.
	float := rode.Rode{Pieces: []rode.Piece{{Name: "neutral", Length: 20, Mass: 1, Density: rode.SeaWater}}}
	st = mustSolve(t, float, rode.Site{Depth: 12, Roller: -2}, 100)
	near(t, "tension", st.Tension.Newtons(), 100/math.Cos(math.Asin(0.5)), 100)
	near(t, "distance", st.Distance.Metres(), 20*math.Cos(math.Asin(0.5)), 20)
	if st.Condition != 1e15 {
		t.Errorf("condition %v of a rigid rod", st.Condition)
	}
}

func TestSlackWhenNearer(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(30)}}
	want := mustSolve(t, r, anchorage, 0)
	for _, d := range []units.Length{0, 5, 20} {
		st, err := rode.SolveDistance(r, anchorage, d)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "slack", st.Slack.Metres(), 30-9.45-d.Metres(), 30)
		st.Slack = 0
		if diff := cmp.Diff(want, st); diff != "" {
			t.Errorf("slack rode: %s", diff)
		}
	}
	st, err := rode.SolveTension(r, anchorage, want.Tension)
	if err != nil || st.Pull != 0 || st.Slack != 0 {
		t.Errorf("at the tension of the hanging rode: %v, pull %v, slack %v", err, st.Pull, st.Slack)
	}
}

func TestSlopes(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(40)}}
	for _, slope := range []units.Angle{8 * units.Degree, -8 * units.Degree} {
		site := anchorage
		site.Slope, site.Friction = slope, 0
		st := mustSolve(t, r, site, 300)
		lies := st.Parts[0]
		if !lies.OnBed || st.OnBed != lies.Length {
			t.Fatalf("slope %v: nothing lies on the bed", slope)
		}
		// Along the bed, without friction, tension changes by the weight times the height.
		near(t, "tension at the anchor", st.Anchor.Tension.Newtons(),
			lies.TensionUpper.Newtons()-wetWeight*lies.Upper.Z.Metres(), 300)
		near(t, "slope of the bed", lies.Upper.Z.Per(lies.Upper.X), slope.Tan(), 1)
		near(t, "angle at the anchor", st.Anchor.FromLevel.Radians(), slope.Radians(), 1)
		near(t, "angle from the bed", st.Anchor.FromBed.Radians(), 0, 1)
		near(t, "pull along the bed", lies.TensionUpper.Newtons()*slope.Cos(), 300, 300)

		site.Friction = 0.5
		st = mustSolve(t, r, site, 300)
		lies = st.Parts[0]
		near(t, "friction", st.Friction.Newtons(), 0.5*wetWeight*lies.Length.Metres()*slope.Cos(), 300)
		near(t, "tension at the anchor", st.Anchor.Tension.Newtons(),
			lies.TensionUpper.Newtons()-wetWeight*lies.Upper.Z.Metres()-st.Friction.Newtons(), 300)

		// Lifted, the angle from the bed is that from the horizontal less the slope.
		st = mustSolve(t, r, site, 3000)
		if !st.Lifted {
			t.Fatal("the rode still lies on the bed")
		}
		near(t, "angle from the bed", st.Anchor.FromBed.Radians(), st.Anchor.FromLevel.Radians()-slope.Radians(), 1)
	}
}

// On a dry, level bed all of the rode is out of the water; a bow over the water
// and an anchor up the beach have both.
func TestDryAnchor(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(30)}}
	r.Pieces[0].Top = nil
	st := mustSolve(t, r, rode.Site{Depth: -0.5, Roller: 2, Friction: 0.4}, 50)
	near(t, "tension", st.Tension.Newtons(), 50+dryWeight*1.5, 50)
	near(t, "friction", st.Friction.Newtons(), math.Min(50, 0.4*dryWeight*st.OnBed.Metres()), 50)
	for _, p := range st.Parts {
		if !p.Dry {
			t.Errorf("%+v", p)
		}
	}

	st = mustSolve(t, r, rode.Site{Depth: -0.5, Roller: 2, Slope: -10 * units.Degree, Friction: 0.1}, 150)
	var kinds []string
	for _, p := range st.Parts {
		kinds = append(kinds, fmt.Sprint(map[bool]string{false: "hangs", true: "lies"}[p.OnBed], map[bool]string{false: " wet", true: " dry"}[p.Dry]))
	}
	if d := cmp.Diff([]string{"lies dry", "lies wet", "hangs wet", "hangs dry"}, kinds); d != "" {
		t.Error(d)
	}
	near(t, "the waterline", st.Parts[0].Upper.Z.Metres(), -0.5, 1)
	lost := st.Parts[1].TensionUpper - st.Anchor.Tension
	grip := 0.1*math.Cos(10*math.Pi/180) - math.Sin(10*math.Pi/180)
	near(t, "tension lost on the bed", lost.Newtons(),
		grip*(dryWeight*st.Parts[0].Length.Metres()+wetWeight*st.Parts[1].Length.Metres()), 150)

	// Tighter, it hangs free and leaves the water before the anchor.
	st = mustSolve(t, r, rode.Site{Depth: -0.5, Roller: 2, Slope: -20 * units.Degree}, 800)
	kinds = nil
	for _, p := range st.Parts {
		kinds = append(kinds, fmt.Sprint(p.OnBed, p.Dry))
	}
	if d := cmp.Diff([]string{"false true", "false false", "false false", "false true"}, kinds); d != "" {
		t.Errorf("%s%+v", d, st.Parts)
	}
}

func TestWeightsOnTheBed(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(10), stiff(30)}}
	kellet := rode.Fitting{Name: "kellet", Mass: 10, Volume: 10. / 7850}
	w := kellet.Weight(rode.SeaWater).Newtons()
	r.Pieces[0].Top = []rode.Fitting{kellet}
	st := mustSolve(t, r, anchorage, 20)
	if j := st.Joints[0]; j.Lifted {
		t.Errorf("%+v", j)
	}
	near(t, "reaction", st.Joints[0].Reaction.Newtons(), w, w)

	// Just lifting: part of it hangs on the rode.
	lo, hi := units.Force(20), units.Force(5000)
	for range 60 {
		mid := (lo + hi) / 2
		if mustSolve(t, r, anchorage, mid).Joints[0].Lifted {
			hi = mid
		} else {
			lo = mid
		}
	}
	st = mustSolve(t, r, anchorage, lo*(1-1e-3))
	if j := st.Joints[0]; j.Lifted || j.Reaction <= 0 || j.Reaction.Newtons() > 0.05*w {
		t.Errorf("just before it lifts: %+v", j)
	}
	st = mustSolve(t, r, anchorage, hi*(1+1e-3))
	if j := st.Joints[0]; !j.Lifted || j.Reaction != 0 {
		t.Errorf("just after it lifted: %+v", j)
	}
}

// A float at the surface rides as deep as it must to carry what hangs on it.
func TestFloatAtTheSurface(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{stiff(20), warp(20)}}
	float := rode.Fitting{Name: "float", Mass: 1, Volume: 20 * units.Litre}
	r.Pieces[0].Top = []rode.Fitting{float}
	st := mustSolve(t, r, anchorage, 0)
	var below, above units.Force
	for _, p := range st.Parts {
		if p.Piece == 0 && !p.OnBed {
			below = p.VerticalUpper
		}
		if p.Piece == 1 && above == 0 {
			above = p.VerticalLower
		}
	}
	draught := anchorage.Depth - st.Joints[0].Z
	size := math.Cbrt(20e-3)
	if !(draught > 0 && draught.Metres() < size) {
		t.Fatalf("the float is %v under", draught)
	}
	near(t, "what the float carries", (below - above).Newtons(), (1025*20e-3*draught.Metres()/size-1)*9.80665, 100)
	near(t, "chain hanging", below.Newtons(), wetWeight*(20-st.Pieces[0].OnBed.Metres()), 100)
}

func TestWeakest(t *testing.T) {
	r := rode.Rode{
		AtAnchor: []rode.Fitting{{Name: "anchor shackle", Working: 9000, Breaking: 45000}},
		Pieces:   []rode.Piece{chain(20), warp(30)},
	}
	r.Pieces[0].Top = []rode.Fitting{{Name: "splice", Breaking: 36000}}
	r.Pieces[1].Top = []rode.Fitting{{Name: "hook", Working: 12000, SideLoad: 0.5}}
	st := mustSolve(t, r, anchorage, 3000)
	want := rode.Loaded{Name: "hook", Tension: st.Tension, Fraction: st.Tension.Newtons() / 6000}
	if d := cmp.Diff(want, st.WeakestWorking); d != "" {
		t.Error(d)
	}
	want = rode.Loaded{Name: "chain", Tension: st.Pieces[0].MaxTension, Fraction: st.Pieces[0].MaxTension.Per(32000)}
	if d := cmp.Diff(want, st.WeakestBreaking); d != "" {
		t.Error(d)
	}
	near(t, "of breaking", st.Pieces[1].OfBreaking, st.Pieces[1].MaxTension.Newtons()/40000, 1)
	near(t, "of working", st.Pieces[1].OfWorking, 0, 1)

	st = mustSolve(t, rode.Rode{Pieces: []rode.Piece{{Length: 20, Mass: 1, Density: 7850}}}, anchorage, 3000)
	if st.WeakestWorking != (rode.Loaded{}) || st.WeakestBreaking != (rode.Loaded{}) {
		t.Errorf("no load is known, and %+v, %+v", st.WeakestWorking, st.WeakestBreaking)
	}
}

func TestPoints(t *testing.T) {
	st := mustSolve(t, rode.Rode{Pieces: []rode.Piece{chain(15), warp(10)}}, anchorage, 120)
	var last rode.CurvePoint
	n := 0
	for p := range st.Points(0.25) {
		if n == 0 && p.Position != (rode.Position{}) {
			t.Errorf("the curve begins at %v", p.Position)
		}
		if n > 0 {
			d := math.Hypot((p.X - last.X).Metres(), (p.Z - last.Z).Metres())
			if l := (p.Arc - last.Arc).Metres(); !(l > 0 && l <= 0.25+1e-12 && d <= l*1.02 && d >= 0.9*l) {
				t.Errorf("from %v to %v is %v m of line", last.Position, p.Position, l)
			}
			if p.Tension < last.Tension || p.Piece < last.Piece || p.OnBed && !last.OnBed {
				t.Errorf("%+v comes after %+v", p, last)
			}
		}
		last = p
		n++
	}
	near(t, "arc", last.Arc.Metres(), 25, 25)
	near(t, "rise", last.Z.Metres(), 9.45, 25)
	near(t, "distance", last.X.Metres(), st.Distance.Metres(), 25)
	if n < 100 || last.Tension != st.Tension {
		t.Errorf("%d points, the last with %v", n, last.Tension)
	}

	ends := 0
	for range st.Points(0) {
		ends++
	}
	if ends != len(st.Parts)+1 {
		t.Errorf("%d ends of %d parts", ends, len(st.Parts))
	}
	for range st.Points(0.25) {
		break // must not go on
	}
	for p := range st.Points(1e-30) {
		if p.Arc > 1e-3 {
			break // must not begin with an endless loop
		}
	}
}

// wants fails unless an error is an *Error of a kind that names a field.
func wants(t *testing.T, err, kind error, field string) {
	t.Helper()
	var e *rode.Error
	if !errors.As(err, &e) || !errors.Is(err, kind) || e.Field != field || e.Value == "" {
		t.Errorf("error is %v (field %+v), want %v of %s", err, e, kind, field)
	}
}

func TestRefusals(t *testing.T) {
	heavy := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
	floats := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
	floats.Pieces[0].Top = []rode.Fitting{{Name: "float", Volume: 3e-3}}
	floating := rode.Rode{Pieces: []rode.Piece{chain(5), {Name: "floating rope", Length: 40, Mass: 0.1, Density: 910}}}

	_, err := rode.Solve(rode.Rode{Pieces: []rode.Piece{chain(9)}}, anchorage, 100)
	wants(t, err, rode.ErrShort, "Length")
	site := anchorage
	site.Slope = 5 * units.Degree
	_, err = rode.Solve(floats, site, 100)
	wants(t, err, rode.ErrSlope, "Slope")
	site.Slope = 20 * units.Degree
	_, err = rode.Solve(heavy, site, 100)
	wants(t, err, rode.ErrBed, "Slope")
	_, err = rode.Solve(floating, anchorage, 2)
	wants(t, err, rode.ErrSurface, "pull")
	_, err = rode.SolveDistance(floating, anchorage, 30)
	wants(t, err, rode.ErrSurface, "distance")
	_, err = rode.SolveTension(heavy, anchorage, mustSolve(t, heavy, anchorage, 0).Tension.Scale(1-1e-9))
	wants(t, err, rode.ErrInput, "tension")

	// Floating rope that surfaces on a slack rode may stay down on a tight one.
	floating.Pieces[1].Length = 20
	floating.Pieces = append(floating.Pieces, chain(10))
	_, err = rode.Solve(floating, rode.Site{Depth: 6}, 0)
	wants(t, err, rode.ErrSurface, "pull")
	tight := mustSolve(t, floating, rode.Site{Depth: 6}, 500)
	st, err := rode.SolveDistance(floating, rode.Site{Depth: 6}, tight.Distance)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pull", st.Pull.Newtons(), 500, 500*tight.Condition)
	_, err = rode.SolveDistance(floating, rode.Site{Depth: 6}, 18)
	wants(t, err, rode.ErrSurface, "distance")

	// A rode that stretches up a rising bed until it would reach above the roller.
	soft := rode.Rode{Pieces: []rode.Piece{stiff(40)}}
	soft.Pieces[0].Stretch = rode.LinearStretch(10 * units.Kilonewton)
	site.Slope = 13 * units.Degree
	if _, err = rode.Solve(soft, site, 100); err != nil {
		t.Fatal(err)
	}
	_, err = rode.Solve(soft, site, 8000)
	wants(t, err, rode.ErrBed, "pull")
	_, err = rode.SolveDistance(soft, site, 60)
	wants(t, err, rode.ErrBed, "distance")

	// A load-extension curve ends where it was measured.
	limited := rode.Rode{Pieces: []rode.Piece{warp(40)}}
	limited.Pieces[0].Stretch.Limit = 10 * units.Kilonewton
	mustSolve(t, limited, anchorage, 9000)
	_, err = rode.Solve(limited, anchorage, 11000)
	wants(t, err, rode.ErrStretch, "tension in warp")

	// Without pull a piece that weighs nothing lies anyhow.
	neutral := rode.Rode{Pieces: []rode.Piece{{Name: "neutral", Length: 20, Mass: 1, Density: rode.SeaWater}}}
	_, err = rode.Solve(neutral, rode.Site{Depth: 12, Roller: -2}, 0)
	wants(t, err, rode.ErrNoBalance, "pull")
	if err.Error() == "" {
		t.Error("no text")
	}
}

func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		field  string
		change func(r *rode.Rode, s *rode.Site)
	}{
		{"Pieces", func(r *rode.Rode, s *rode.Site) { r.Pieces = nil }},
		{"AtAnchor[0].Mass", func(r *rode.Rode, s *rode.Site) { r.AtAnchor[0].Mass = -1 }},
		{"AtAnchor[0].Working", func(r *rode.Rode, s *rode.Site) { r.AtAnchor[0].Working = units.Force(nan) }},
		{"Pieces[1].Kind", func(r *rode.Rode, s *rode.Site) { r.Pieces[1].Kind = 7 }},
		{"Pieces[0].Length", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Length = 0 }},
		{"Pieces[1].Length", func(r *rode.Rode, s *rode.Site) { r.Pieces[1].Length = units.Length(inf) }},
		{"Pieces[1].Mass", func(r *rode.Rode, s *rode.Site) { r.Pieces[1].Mass = 0 }},
		{"Pieces[0].Density", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Density = units.Density(nan) }},
		{"Pieces[0].Working", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Working = -1 }},
		{"Pieces[0].Breaking", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Breaking = units.Force(inf) }},
		{"Pieces[0].Stretch.Reference", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.Reference = 0 }},
		{"Pieces[0].Stretch.A", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.A = 0 }},
		{"Pieces[0].Stretch.B", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.B = -1 }},
		{"Pieces[0].Stretch.C", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.C = -1 }},
		{"Pieces[0].Stretch.B", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.B = 1e300 }},
		{"Pieces[0].Mass", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Mass = 1e-300 }},
		{"Pieces[0].Working", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Working = 1e300 }},
		{"Pieces[0].Stretch.Limit", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Stretch.Limit = -1 }},
		{"Pieces[0].Top[1].Mass", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Top[1].Mass = -1 }},
		{"Pieces[0].Top[0].Volume", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Top[0].Volume = -1 }},
		{"Pieces[0].Top[0].Breaking", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Top[0].Breaking = -1 }},
		{"Pieces[0].Top[0].SideLoad", func(r *rode.Rode, s *rode.Site) { r.Pieces[0].Top[0].SideLoad = 1.1 }},
		{"Depth", func(r *rode.Rode, s *rode.Site) { s.Depth = units.Length(nan) }},
		{"Depth", func(r *rode.Rode, s *rode.Site) { s.Depth = -1.45 }},
		{"Depth", func(r *rode.Rode, s *rode.Site) { s.Depth = 13000 }},
		{"Roller", func(r *rode.Rode, s *rode.Site) { s.Roller = units.Length(inf) }},
		{"Slope", func(r *rode.Rode, s *rode.Site) { s.Slope = 61 * units.Degree }},
		{"Friction", func(r *rode.Rode, s *rode.Site) { s.Friction = -0.1 }},
		{"Water", func(r *rode.Rode, s *rode.Site) { s.Water = 100 }},
	} {
		r := rode.Rode{
			AtAnchor: []rode.Fitting{{Name: "shackle", Mass: 0.2, Working: 1e4}},
			Pieces:   []rode.Piece{chain(20), warp(20)},
		}
		r.Pieces[0].Top = []rode.Fitting{{Name: "kellet", Mass: 5, Volume: 5e-4}, {Name: "splice"}}
		s := anchorage
		mustSolver(t, r, s)
		c.change(&r, &s)
		_, err := rode.NewSolver(r, s)
		wants(t, err, rode.ErrInput, c.field)
		_, err = rode.Solve(r, s, 100)
		wants(t, err, rode.ErrInput, c.field)
	}

	sv := mustSolver(t, rode.Rode{Pieces: []rode.Piece{chain(20)}}, anchorage)
	var st rode.State
	for _, x := range []float64{-1, nan, inf, -inf, 1e16} {
		wants(t, sv.Solve(&st, units.Force(x)), rode.ErrInput, "pull")
		wants(t, sv.SolveDistance(&st, units.Length(x)), rode.ErrInput, "distance")
		wants(t, sv.SolveTension(&st, units.Force(x)), rode.ErrInput, "tension")
	}

	for _, x := range []units.Length{0, -1, units.Length(nan), 21} {
		_, err := rode.Rode{Pieces: []rode.Piece{chain(20)}}.Veer(x)
		wants(t, err, rode.ErrInput, "out")
	}

	for _, x := range []units.Force{-1, units.Force(nan), units.Force(inf)} {
		_, err := rode.LinearStretch(1e6).Strain(x)
		wants(t, err, rode.ErrInput, "tension")
	}
	_, err := rode.Stretch{Reference: 1, A: 1, Limit: 0.5}.Strain(0.6)
	wants(t, err, rode.ErrStretch, "tension")
	_, err = rode.Stretch{A: 1}.Strain(1)
	wants(t, err, rode.ErrInput, "Stretch.Reference")
	if e, err := (rode.Stretch{}).Strain(1e9); e != 0 || err != nil {
		t.Errorf("the zero Stretch strains %v, %v", e, err)
	}
}

func TestVeer(t *testing.T) {
	r := rode.Rode{AtAnchor: []rode.Fitting{{Name: "shackle"}}, Pieces: []rode.Piece{chain(20), warp(30)}}
	r.Pieces[0].Top = []rode.Fitting{{Name: "splice"}}
	for _, c := range []struct{ out, first, second units.Length }{{12, 12, 0}, {20, 20, 0}, {35, 20, 15}, {50, 20, 30}} {
		v, err := r.Veer(c.out)
		if err != nil {
			t.Fatal(err)
		}
		want := rode.Rode{AtAnchor: r.AtAnchor, Pieces: []rode.Piece{chain(c.first)}}
		if c.second > 0 {
			want.Pieces[0].Top = r.Pieces[0].Top
			want.Pieces = append(want.Pieces, warp(c.second))
		}
		if d := cmp.Diff(want, v); d != "" {
			t.Errorf("%v: %s", c.out, d)
		}
		near(t, "length", v.Length().Metres(), c.out.Metres(), 50)
	}
	if len(r.Pieces[0].Top) != 1 || r.Pieces[1].Length != 30 {
		t.Error("the rode was changed")
	}
	near(t, "scope", anchorage.Scope(47.25), 5, 5)
	for _, s := range []rode.Site{{}, {Depth: -3, Roller: 1}, {Depth: units.Length(math.NaN())}, {Depth: 1e-320}} {
		for _, out := range []units.Length{0, 5, units.Length(math.Inf(1))} {
			if got := s.Scope(out); got != 0 {
				t.Errorf("%+v: a scope of %v for %v", s, got, out)
			}
		}
	}
	near(t, "rise", anchorage.Rise().Metres(), 9.45, 9)
}

func TestJSON(t *testing.T) {
	r := rode.Rode{Pieces: []rode.Piece{chain(20), warp(20)}}
	st := mustSolve(t, r, anchorage, 400)
	for _, v := range []any{r, anchorage, st} {
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		back := reflect.New(reflect.TypeOf(v))
		if err := json.Unmarshal(text, back.Interface()); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(v, back.Elem().Interface()); d != "" {
			t.Error(d)
		}
	}
	var k rode.Kind
	err := json.Unmarshal([]byte(`"cable"`), &k)
	wants(t, err, rode.ErrUnknown, "Kind")
	_, err = rode.Kind(9).MarshalText()
	wants(t, err, rode.ErrInput, "Kind")
	if s := rode.Kind(9).String(); s != "Kind(9)" {
		t.Error(s)
	}
}

// finite finds a number in a value that is not.
func finite(v reflect.Value, path string) error {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%s is %v", path, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if err := finite(v.Field(i), path+"."+v.Type().Field(i).Name); err != nil {
				return err
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := finite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); err != nil {
				return err
			}
		}
	}
	return nil
}

// sound checks what must hold of any answer to any input: an error of this
// package, or finite numbers of a rode that ends where it should.
func sound(r rode.Rode, s rode.Site, st *rode.State, err error) error {
	if err != nil {
		var e *rode.Error
		if !errors.As(err, &e) {
			return fmt.Errorf("error %w is of another kind", err)
		}
		return nil
	}
	if err := finite(reflect.ValueOf(*st), "State"); err != nil {
		return err
	}
	length := (st.Out + st.Stretch).Metres()
	top := st.Parts[len(st.Parts)-1].Upper
	if d := math.Abs((top.Z - s.Rise()).Metres()); d > 1e-8*length {
		return fmt.Errorf("the rode ends %v m off the roller", d)
	}
	if st.Pull < 0 || st.Tension < st.Pull*(1-1e-12) || st.OnBed < 0 || st.OnBed.Metres() > r.Length().Metres()*(1+1e-12) {
		return fmt.Errorf("pull %v, tension %v, on the bed %v", st.Pull, st.Tension, st.OnBed)
	}
	return nil
}

var hostile = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 0, 5e-324, -5e-324, 1e-300, 1e-30, 1e-9, -1, 1, 1e9, 1e30, 1e300, math.MaxFloat64, -math.MaxFloat64,
}

// hostileFields lists pointers to every number of a rode and a site.
func hostileFields(r *rode.Rode, s *rode.Site, want *float64) []reflect.Value {
	var all []reflect.Value
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Float64:
			all = append(all, v)
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		}
	}
	walk(reflect.ValueOf(r).Elem())
	walk(reflect.ValueOf(s).Elem())
	return append(all, reflect.ValueOf(want).Elem())
}

func TestHostileValues(t *testing.T) {
	solved := 0
	plain := func() sample {
		s := sample{
			rode.Rode{AtAnchor: []rode.Fitting{{Name: "shackle", Mass: 0.2, Working: 1e4}}, Pieces: []rode.Piece{chain(20), warp(20)}}, anchorage, 300,
		}
		s.rode.Pieces[0].Top = []rode.Fitting{{Name: "kellet", Mass: 5, Volume: 5e-4, SideLoad: 0.5}}
		s.site.Water = rode.SeaWater
		return s
	}
	try := func(s sample, change func(fields []reflect.Value)) {
		want := s.pull.Newtons()
		change(hostileFields(&s.rode, &s.site, &want))
		for by, solve := range []func() (rode.State, error){
			func() (rode.State, error) { return rode.Solve(s.rode, s.site, units.Force(want)) },
			func() (rode.State, error) { return rode.SolveDistance(s.rode, s.site, units.Length(want)) },
			func() (rode.State, error) {
				return rode.SolveDistance(s.rode, s.site, (s.rode.Length() - s.site.Rise()).Scale(0.99))
			},
			func() (rode.State, error) { return rode.SolveTension(s.rode, s.site, units.Force(want)) },
		} {
			st, err := solve()
			if bad := sound(s.rode, s.site, &st, err); bad != nil {
				t.Errorf("%v: by %d, %v, %#v", bad, by, want, s)
			}
			if err == nil {
				solved++
			}
		}
	}
	fields := 0
	try(plain(), func(f []reflect.Value) { fields = len(f) })
	for i := range fields {
		for _, x := range hostile {
			try(plain(), func(f []reflect.Value) { f[i].SetFloat(x) })
		}
	}
	r := rand.New(rand.NewPCG(18, 0))
	for i := range samples() {
		s := plain()
		switch i % 3 {
		case 1:
			s = randomSample(r)
		case 2:
			s = randomBuoyant(r)
		}
		try(s, func(f []reflect.Value) {
			for range 1 + r.IntN(3) {
				x := f[r.IntN(len(f))]
				switch r.IntN(4) {
				case 0:
					x.SetFloat(hostile[r.IntN(len(hostile))])
				case 1:
					x.SetFloat(x.Float() * logUniform(r, 1e-14, 1e14))
				default:
					x.SetFloat(x.Float() * logUniform(r, 1e-2, 1e2))
				}
			}
		})
		if t.Failed() {
			break
		}
	}
	t.Logf("%d of the hostile problems had an answer", solved)
	if solved < samples()/2 {
		t.Error("too few problems had an answer for the test to mean anything")
	}
}
