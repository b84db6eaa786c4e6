package rode_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// What is accepted up to a limit is accepted at the limit, and not beyond it.
func TestLimitsAreAccepted(t *testing.T) {
	r, s, g, rope := plover(t)
	wheel := rode.ChainWheel{Pockets: 6, Pitch: 0.028, Wire: 0.01}
	scale := rode.Scale{Chain: 0.336}
	eye := rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.06}
	craft := rode.Craft{Hull: 12, Waterline: 11, Category: "A"}
	shop := func(l rode.CutList) error { return second(l.Shopping()) }
	ropes := func(c rode.CutRope) error { c.Rope = rope; return shop(rode.CutList{Ropes: []rode.CutRope{c}}) }
	part := func(count, pack int) error {
		return shop(rode.CutList{Parts: []rode.CutPart{{Name: "ring", Count: count, Pack: pack}}})
	}
	length := func(count int) error {
		return shop(rode.CutList{Lengths: []rode.CutLength{{Name: "cord", Each: 1, Count: count}}})
	}
	pockets := func(n int) error { w := wheel; w.Pockets = n; return second(w.Payout()) }
	pulses := func(n int) error {
		return second(rode.Counter{Setting: 0.33, Pulses: n}.Reading(scale, 0, 1))
	}
	step := func(l units.Length) error {
		return second(rode.Counter{Setting: 1e-3, Step: l}.Reading(scale, 0, 1))
	}
	moves := func(m ...units.Length) error { return second(rode.Counter{Setting: 0.33}.Reading(scale, 0, m...)) }
	phase := func(p float64) error { return second(rode.Counter{Setting: 0.33}.Reading(scale, p, 1)) }
	snub := func(legs int) error {
		return second(r.Snub(rode.Snubber{Rope: rope, Length: 10, Legs: legs}))
	}
	pieces := func(n int) error {
		return second(rode.NewSolver(rode.Rode{Pieces: slices.Repeat([]rode.Piece{chain(1)}, n)}, s))
	}
	fittings := func(n int) error {
		one := rode.Rode{AtAnchor: slices.Repeat([]rode.Fitting{{Name: "ring", Mass: 0.1}}, n), Pieces: []rode.Piece{chain(20)}}
		return second(rode.NewSolver(one, s))
	}
	snubbers := func(n int) error {
		return second(rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 9000, OfBreaking: 1}, make([]rode.Snubber, n)))
	}
	lays := func(n int) error {
		return second(rode.Calibrate(rode.Counter{Setting: 0.33}, make([]rode.Lay, n), rode.LayErrors{Repeat: 0.1}))
	}
	one := func(l rode.Lay) error {
		return second(rode.Calibrate(rode.Counter{Setting: 0.33}, []rode.Lay{l}, rode.LayErrors{Repeat: 0.1}))
	}
	marks := func(every units.Length, scheme ...string) error {
		return second(rode.MarkRode(rode.MarkPlan{Every: every, Chain: 10, Pitch: 0.025, Scheme: [][]string{scheme}}))
	}
	kinked := func(b float64) error {
		p := chain(20)
		p.Stretch = rode.Stretch{Reference: 1e4, A: 1, B: b, C: 0.75}
		return second(rode.NewSolver(rode.Rode{Pieces: []rode.Piece{p}}, s))
	}
	gust := func(f units.Force) error {
		return second(rode.SolveSurge(rode.Rode{Pieces: []rode.Piece{chain(35)}}, s, rode.Surge{Mass: 1000, Rest: 500, Gust: f}))
	}
	sheer := func(a units.Angle) error {
		return second(rode.SolveBridle(bridleOf(t, 6, 9, 9), rode.BridlePull{Horizontal: 1000, Sheer: a}))
	}
	limit := func(f units.Force) error { return second(rode.Stretch{Reference: 1, A: 1, Limit: 0.5}.Strain(f)) }
	for i, c := range []struct {
		field            string
		accepted, beyond error
	}{
		{"Ropes[0].Count", ropes(rode.CutRope{Finished: 1, Count: 10000}), ropes(rode.CutRope{Finished: 1, Count: 10001})},
		{"Ropes[0].Count", ropes(rode.CutRope{Finished: 1, Count: 0}), ropes(rode.CutRope{Finished: 1, Count: -1})},
		{"Ropes[0].Eyes", ropes(rode.CutRope{Finished: 1, Eyes: []rode.EyeSplice{eye, eye}}), ropes(rode.CutRope{Finished: 1, Eyes: []rode.EyeSplice{eye, eye, eye}})},
		{"Ropes[0].Finished", ropes(rode.CutRope{Finished: 1e-12, Tail: 1}), ropes(rode.CutRope{Tail: 1})},
		{"Ropes[0].Tail", ropes(rode.CutRope{Finished: 1}), ropes(rode.CutRope{Finished: 1, Tail: -0.1})},
		{"Lengths[0].Count", length(10000), length(10001)},
		{"Lengths[0].Count", length(0), length(-1)},
		{"Parts[0].Count", part(10000, 0), part(10001, 0)},
		{"Parts[0].Count", part(1, 0), part(0, 0)},
		{"Parts[0].Count", part(1, 10000), part(1, 10001)},
		{"Parts[0].Count", part(1, 0), part(1, -1)},
		{"Pockets", pockets(3), pockets(2)},
		{"Pockets", pockets(100), pockets(101)},
		{"links", second(rode.MeasuredPitch(1, 1)), second(rode.MeasuredPitch(1, 0))},
		{"links", second(rode.MeasuredPitch(1e4, 1e6)), second(rode.MeasuredPitch(1e4, 1e6+1))},
		{"Pulses", pulses(0), pulses(-1)},
		{"Pulses", pulses(1000), pulses(1001)},
		{"Step", step(1e-4), step(0.99e-4)},
		{"phase", phase(0), phase(-1e-9)},
		{"phase", phase(0.999), phase(1)},
		{"moves[1]", moves(10, -10), moves(10, -10.01)},
		{"moves[1]", moves(5e4, 5e4), moves(5e4, 50001)},
		{"Snubber.Legs", snub(0), snub(-1)},
		{"Snubber.Legs", snub(2), snub(3)},
		{"Pieces", pieces(1000), pieces(1001)},
		{"AtAnchor", fittings(1000), fittings(1001)},
		{"snubbers", snubbers(0), snubbers(1001)},
		// One pulse between two changes; from anywhere to the change it may be less.
		{"lays[0].To", one(rode.Lay{From: 0.33, To: 0.66, FromAtChange: true, ToAtChange: true, Taped: 0.33}), one(rode.Lay{From: 0.33, To: 0.66, ToAtChange: true, Taped: 0.33})},
		{"lays", one(rode.Lay{To: 9.9, Taped: 10}), lays(0)},
		{"lays", one(rode.Lay{To: 9.9, Taped: 10}), lays(1e5 + 1)},
		{"Every", marks(0.025), marks(0.0249)},
		{"Scheme[0]", marks(0.05, "a", "b"), marks(0.05, "a", "b", "c")},
		{"Pieces[0].Stretch.B", kinked(-1.4999), kinked(-1.5)},
		{"Surge.Gust", gust(500), gust(499)},
		{"BridlePull.Sheer", sheer(89 * units.Degree), sheer(90 * units.Degree)},
		{"BridlePull.Sheer", sheer(-89 * units.Degree), sheer(-90 * units.Degree)},
		{"turns", second(rode.SeizingTwine(0.014, 0.002, 1)), second(rode.SeizingTwine(0.014, 0.002, 0))},
		{"turns", second(rode.SeizingTwine(0.014, 0.002, 1000)), second(rode.SeizingTwine(0.014, 0.002, 1001))},
		// 0.54 of 1 kN, twice for each of 100 turns.
		{"cord.Breaking", second(rode.BitterEndLashing(107.9e3, rode.Rope{Breaking: 1e3}, 1)), second(rode.BitterEndLashing(108.1e3, rode.Rope{Breaking: 1e3}, 1))},
		{"parts", second(rode.LashingLoad(1, 1, 0)), second(rode.LashingLoad(1, 0, 0))},
		{"eye", second(rode.EyeAngle(0.1, 0.1)), second(rode.EyeAngle(0.0999, 0.1))},
		{"EyeSplice.Eye", second(rode.EyeSplice{Rope: rope, Eye: 0.15, Round: 0.1}.Allowance()), second(rode.EyeSplice{Rope: rope, Eye: 0.1499, Round: 0.1}.Allowance())},
		{"Craft.Waterline", second(rode.Craft{Hull: 12, Waterline: 12, Category: "D"}.StrongPoints()), second(rode.Craft{Hull: 12, Waterline: 12.1, Category: "D"}.StrongPoints())},
		{"use", second(craft.StrongPointLoad(rode.Aft)), second(craft.StrongPointLoad(3))},
		{"tension", limit(0.5), limit(0.501)},
	} {
		if c.accepted != nil {
			t.Errorf("%d, %s at its limit: %v", i, c.field, c.accepted)
		}
		refused(t, c.field, c.beyond)
	}
}

// One strong point forward, one aft over 6 m, one more of each over 12 m, one on each
// side over 18 m.
func TestStrongPointsByLength(t *testing.T) {
	for _, c := range []struct {
		hull units.Length
		want rode.StrongPointCount
	}{
		{6, rode.StrongPointCount{Forward: 1}},
		{6.01, rode.StrongPointCount{Forward: 1, Aft: 1}},
		{12, rode.StrongPointCount{Forward: 1, Aft: 1}},
		{12.01, rode.StrongPointCount{Forward: 2, Aft: 2}},
		{18, rode.StrongPointCount{Forward: 2, Aft: 2}},
		{18.01, rode.StrongPointCount{Forward: 2, Aft: 2, EachSide: 1}},
	} {
		got, err := rode.Craft{Hull: c.hull, Waterline: c.hull - 1, Category: "B"}.StrongPoints()
		if err != nil || got != c.want {
			t.Errorf("%v: %+v, %v, want %+v", c.hull, got, err, c.want)
		}
	}
}

// A load of half of what bears it is borne; a little more is a problem, and so is one
// that comes near to what the cleat breaks at.
func TestCleatIsGoodForItsLoad(t *testing.T) {
	// X (4.3 LC - 5.4) kN with LC = 10 m and X = 1.
	craft := rode.Craft{Hull: 10.5, Waterline: 9.5, Category: "A"}
	const rule units.Force = 37.6e3
	if got, err := craft.StrongPointLoad(rode.ForAnchoring); err != nil || math.Abs(float64(got-rule)) > 1e-9 {
		t.Fatal(got, err)
	}
	for _, c := range []struct {
		load, strength, breaking units.Force
		problems                 []string // what each begins with or holds
	}{
		{18.7e3, 0, 30e3, nil},
		{18.9e3, 0, 30e3, []string{"51 % of the 37.6 kN that the rule asks for anchoring, more than 50 %, and nothing more is known"}},
		{37.5e3, 0, 30e3, []string{"100 % of the 37.6 kN"}},
		{37.7e3, 0, 30e3, []string{"than the 37.6 kN that the rule asks"}},
		{18e3, 0, 30.2e3, []string{"breaks at 80 %"}},
		{20e3, 40e3, 32e3, nil}, // half of the cleat's strength and 0.8 of it
		{20.1e3, 40e3, 32e3, []string{"20.1 kN is 51 % of the cleat's strength of 40.0 kN, more than 50 %"}},
		{38e3, 80e3, 32e3, []string{"than the 37.6 kN that the rule asks"}},
		{18e3, 40e3, 32.1e3, []string{"breaks at 80 %"}},
		{36.9e3, 37e3, 29e3, []string{"100 % of the cleat's strength of 37.0 kN", "strength of 37.0 kN is less than the 37.6 kN"}},
		{39e3, 38e3, 30e3, []string{"than the 37.6 kN that the rule asks", "103 % of the cleat's strength of 38.0 kN"}},
	} {
		q, err := craft.CheckCleat(rode.ForAnchoring, c.load, c.strength, rode.Rope{Breaking: c.breaking})
		if err != nil || len(q.Problems) != len(c.problems) {
			t.Errorf("%+v: %+v, %v", c, q, err)
			continue
		}
		for i, p := range c.problems {
			if !strings.Contains(q.Problems[i], p) {
				t.Errorf("%+v: %q", c, q.Problems)
			}
		}
		holds := rule
		if c.strength > 0 {
			holds = c.strength
			near(t, "of the strength", q.OfStrength, float64(c.load/c.strength), 1)
		} else if q.OfStrength != 0 {
			t.Errorf("the strength is not known: %+v", q)
		}
		near(t, "of the rule", q.OfRule, float64(c.load/rule), 1)
		near(t, "rope of the cleat", q.RopeOfCleat, float64(c.breaking/holds), 1)
	}
	// Never more than the boat weighs.
	craft.Mass = 2000
	if got, err := craft.StrongPointLoad(rode.ForAnchoring); err != nil || math.Abs(float64(got)-2000*9.80665) > 1e-9 {
		t.Error(got, err)
	}
}

// A boat on its side lets the anchor's weight pull aside with all of it, one upside
// down lets it hang from the roller.
func TestSecuredUpsideDown(t *testing.T) {
	const w = 20 * 9.80665
	for _, c := range []struct {
		heel              units.Angle
		up                units.Acceleration
		aside, lift, hold float64
	}{
		{30 * units.Degree, 0, w / 2, 0, 2 * w},
		{90 * units.Degree, 0, w, 0, 2 * w},
		{120 * units.Degree, 0, w, w / 2, 2 * w},
		{180 * units.Degree, 0, w, w, 2 * w},
		{120 * units.Degree, 3 * 9.80665, w, 2 * w, 2 * w}, // thrown off the roller by more than it hangs from it
		{0, 4 * 9.80665, 0, 3 * w, 3 * w},
	} {
		l, err := rode.SecureAnchor(20, rode.BowMotion{Vertical: c.up, Heel: c.heel})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "aside", float64(l.Aside), c.aside, w)
		near(t, "lift", float64(l.Lift), c.lift, w)
		near(t, "hold", float64(l.Hold), c.hold, w)
	}
}

// A chain hardly longer than the way from hook to roller hangs straight, or is
// refused as taut: rounding decides, but nothing else comes of it.
func TestSlackChainNearlyStraight(t *testing.T) {
	for i := range 2000 {
		k := rode.SlackChain{Apart: units.Length(0.1 + 0.013*float64(i)), Above: units.Length(0.7*float64(i%7) + 0.1), Weight: 20}
		span := math.Hypot(float64(k.Apart), float64(k.Above))
		k.Length = units.Length(math.Nextafter(span, 1e9))
		l, err := k.Hang()
		switch {
		case err != nil:
			if !errors.Is(err, rode.ErrTaut) {
				t.Errorf("%+v: %v", k, err)
			}
		case !(l.Below >= 0 && l.Below < 1e-3 && float64(l.Horizontal) > 1e4*float64(k.Length)):
			t.Errorf("%+v: %+v", k, l)
		}
	}
}

// A state is refused by the solver of another rode, and where it was tampered with,
// by the name of what is wrong.
func TestEnergyOfASpoiltState(t *testing.T) {
	sv := mustSolver(t, rode.Rode{Pieces: []rode.Piece{chain(20), chain(20)}}, anchorage)
	energy := func(spoil func(st *rode.State)) error {
		var st rode.State
		if err := sv.Solve(&st, 800); err != nil {
			t.Fatal(err)
		}
		spoil(&st)
		return second(sv.Energy(&st))
	}
	if err := energy(func(*rode.State) {}); err != nil {
		t.Fatal(err)
	}
	refused(t, "State", second(sv.Energy(nil)))
	refused(t, "State", sv.Solve(nil, 1))
	for _, c := range []struct {
		field string
		spoil func(st *rode.State)
	}{
		{"State.Pieces", func(st *rode.State) { st.Pieces = st.Pieces[:1] }},
		{"State.Pieces", func(st *rode.State) { st.Joints = nil }},
		{"State.Parts", func(st *rode.State) { st.Parts[0].Piece = 2 }},
		{"State.Parts", func(st *rode.State) { st.Parts[0].Piece = -1 }},
		{"State.Parts", func(st *rode.State) { st.Parts[0].Stretch.Reference = -1 }},
		{"State.Parts", func(st *rode.State) { st.Parts[0].Stretch.Reference = units.Force(math.Inf(1)) }},
		{"State.Parts", func(st *rode.State) { st.Parts[0].Upper.Z = units.Length(math.NaN()) }},
		{"State.Joints", func(st *rode.State) { st.Joints[0].Z = units.Length(math.Inf(1)) }},
	} {
		refused(t, c.field, energy(c.spoil))
	}
}

// Refusals of parts that do not go together, and of what is passed through.
func TestRefusedOnTheWay(t *testing.T) {
	r, s, g, rope := plover(t)
	link := rode.Chain{Wire: 0.01, Pitch: 0.028, OutsideWidth: 0.036}
	thimble := rode.Thimble{Name: "16 mm", Width: 0.028, Thick: 0.022}
	shackle := rode.Shackle{Name: "10 mm", Pin: 0.011, Gape: 0.02, Body: 0.01, Inside: 0.028, Working: 10e3}
	narrow := link
	narrow.OutsideWidth = 0.02
	twelve := rope
	twelve.Construction = "double-braid"
	lost := rode.Calibration{Payout: 0.336, Interval: units.Interval[units.Length]{Low: 0.33, High: 0.34}}
	for _, c := range []struct {
		field string
		err   error
	}{
		{"Chain.OutsideWidth", shackle.FitsChain(narrow)},
		{"load", second(rode.ChooseShackle([]rode.Shackle{shackle}, link, thimble, -1))},
		{"stock[1].Inside", second(rode.ChooseSleeve([]rode.Sleeve{{"20 mm", 0.02}, {}}, 0.01, rode.OverSplice))},
		{"diameter", second(rode.ChooseSleeve(nil, 0, rode.OverSplice))},
		{"Chain.Pitch", second(rode.Chain{Wire: 0.01, Pitch: 0.0199, OutsideWidth: 0.036}.LinkMass())},
		{"Chain.OutsideWidth", second(rode.Chain{Wire: 0.01, Pitch: 0.028, OutsideWidth: 0.0299}.LinkMass())},
		{"grade", second(rode.GradeBreaking(0.01, 9))},
		{"Lengths[0].Step", second(rode.CutList{Lengths: []rode.CutLength{{Name: "cord", Each: 1, Step: -1}}}.Shopping())},
		{"Ropes[0].Midline[0].EyeSplice.Rope.Construction", second(rode.CutList{Ropes: []rode.CutRope{{
			Rope: twelve, Finished: 5, Midline: []rode.EyeSplice{{Rope: twelve, Eye: 0.3, Round: 0.06}},
		}}}.Shopping())},
		{"Marks[1].At", second(rode.Marks{Marks: []rode.Mark{{At: 1}, {At: units.Length(math.NaN())}}}.Table("m"))},
		{"Marks[0].Markers", second(rode.Marks{Marks: []rode.Mark{{At: 1, Markers: slices.Repeat([]string{"blue"}, 73)}}}.Table("m"))}, // 508 characters
		{"Marks[0].Markers[1]", second(rode.Marks{Marks: []rode.Mark{{At: 1, Markers: []string{"blue", "red\tred"}}}}.Table("m"))},
		{"Buy[0].Marker", second(rode.Marks{Buy: []rode.MarkerCount{{Marker: "red\nred", Count: 1}}}.Table("m"))},
		{"Marks[0].Off", second(rode.Marks{Marks: []rode.Mark{{At: 1, Off: units.Length(math.Inf(1))}}}.Table("m"))},
		{"Craft.Hull", second(rode.Craft{}.CheckCleat(rode.Aft, 1, 0, rope))},
		{"Setting", second(lost.Predict(rode.Counter{}, 1))},
		{"Surge.Mass", second(rode.SolveSurge(r, s, rode.Surge{Rest: 1}))},
		{"Friction", second(rode.SolveSurge(r, rode.Site{Depth: 7, Roller: 1.7, Friction: -1}, g))},
	} {
		refused(t, c.field, c.err)
	}
	// As strong as the load is strong enough.
	if got, err := rode.ChooseShackle([]rode.Shackle{shackle}, link, thimble, 10e3); err != nil || got != shackle {
		t.Errorf("%+v, %v", got, err)
	}
	p := surge(t, r, s, g)
	if p.Share(-1) != 0 || p.Share(1) != 0 || !(p.Share(0) > 0.99 && p.Share(0) < 1.01) {
		t.Errorf("shares %v, %v and %v of a rode of one piece", p.Share(-1), p.Share(0), p.Share(1))
	}
	// Nothing that pulls or moves: it stays where it is.
	if p := surge(t, r, s, rode.Surge{Mass: 1000}); p.Run > 1e-6 || p.Share(0) != 0 {
		t.Errorf("%v back, a share of %v", p.Run, p.Share(0))
	}
	// An empty locker has no heap, and marks that would be on the shackle are not made.
	if ss, err := (rode.Locker{Length: 0.6, Width: 0.4, Fall: 1.2}).Stow(rode.OfChain, 1e-9, 0.01); err != nil || ss[0].Heap > 1e-9 {
		t.Errorf("%+v, %v", ss, err)
	}
	m, err := rode.MarkRode(rode.MarkPlan{Every: 0.5, AtAnchor: 1.2, Chain: 2, Pitch: 0.025})
	if err != nil || len(m.Marks) != 4 || m.Marks[0].At != 1.5 {
		t.Errorf("%+v, %v", m, err)
	}
}
