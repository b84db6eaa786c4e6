package rode_test

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Between points close together the curve is the chord: as long as the line
// between them with its stretch, and it points where the tension does.
func TestPointsFollowTheStretchedLine(t *testing.T) {
	rope := rode.Piece{Name: "rope", Kind: rode.OfRope, Length: 40, Mass: 0.12, Density: 1140}
	for _, s := range []rode.Stretch{
		rode.LinearStretch(30e3), {Reference: 40e3, A: 0.6612, B: -0.6645, C: 0.3535}, {Reference: 40e3, A: 0.3, C: 0.4}, {Reference: 40e3, A: 0.2, B: 0.3, C: 0.2},
	} {
		rope.Stretch = s
		st, err := rode.Solve(rode.Rode{Pieces: []rode.Piece{chain(20), rope}}, anchorage, 9000)
		if err != nil {
			t.Fatal(err)
		}
		var last *rode.CurvePoint
		for p := range st.Points(0.01) {
			if last != nil && p.Piece == 1 && last.Piece == 1 && p.Arc > last.Arc {
				e, err := rode.Rope{Stretch: s}.Strain((p.Tension + last.Tension) / 2)
				if err != nil {
					t.Fatal(err)
				}
				long := float64(p.Arc-last.Arc) * (1 + e)
				if chord := math.Hypot(float64(p.X-last.X), float64(p.Z-last.Z)); math.Abs(chord/long-1) > 1e-7 {
					t.Fatalf("%+v at %v: a chord of %v, the stretched line is %v", s, p.Arc, chord, long)
				}
			}
			q := p
			last = &q
		}
	}
}

// Stiffness and condition say the same: the condition is the relative change of
// distance for one of pull.
func TestConditionAndStiffness(t *testing.T) {
	for _, pull := range []units.Force{10, 100, 1e3, 1e5, 1e8, 1e11} {
		for _, p := range []rode.Piece{stiff(60), chain(60)} {
			st, err := rode.Solve(rode.Rode{Pieces: []rode.Piece{p}}, anchorage, pull)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "condition", st.Condition, float64(st.Stiffness)*float64(st.Distance)/float64(pull), st.Condition)
		}
	}
}

// Hung at a joint a fitting joins what is there, elsewhere it parts a piece.
func TestHangAtAJoint(t *testing.T) {
	f := rode.Fitting{Name: "kellet", Mass: 10}
	whole := rode.Rode{Pieces: []rode.Piece{chain(10), chain(20), chain(30)}}
	whole.Pieces[0].Top = []rode.Fitting{{Name: "shackle", Mass: 0.3}}
	for _, c := range []struct {
		down    units.Length
		lengths []units.Length
		at      int // the piece at whose top it hangs
		with    int
	}{
		{5, []units.Length{10, 20, 25, 5}, 2, 1},
		{30, []units.Length{10, 20, 30}, 1, 1},
		{40, []units.Length{10, 10, 10, 30}, 1, 1},
		{50, []units.Length{10, 20, 30}, 0, 2},
		{57, []units.Length{3, 7, 20, 30}, 0, 1},
	} {
		h, err := whole.Hang(f, c.down)
		if err != nil {
			t.Fatal(err)
		}
		if len(h.Pieces) != len(c.lengths) {
			t.Errorf("%v down: %d pieces", c.down, len(h.Pieces))
			continue
		}
		for i, p := range h.Pieces {
			near(t, "length", float64(p.Length), float64(c.lengths[i]), 1)
			if i == c.at && (len(p.Top) != c.with || p.Top[len(p.Top)-1].Name != "kellet") {
				t.Errorf("%v down: at the top of piece %d %+v", c.down, i, p.Top)
			}
		}
	}
	if len(whole.Pieces[0].Top) != 1 || len(whole.Pieces) != 3 {
		t.Error("the rode that was given is changed")
	}
}

func TestFitsRefusesWhatDoesNotFit(t *testing.T) {
	thimble := rode.Thimble{Name: "16 mm", Groove: 0.017, Width: 0.028, Length: 0.044, Wall: 0.002, Thick: 0.022}
	link := rode.Chain{Standard: "DIN 766", Wire: 0.01, Pitch: 0.028, OutsideWidth: 0.036}
	for _, c := range []struct {
		name  string
		s     rode.Shackle
		field string // of the refusal, "" is none
		chain bool
	}{
		{name: "just so", s: rode.Shackle{Body: 0.028, Inside: 0.022}},
		{name: "bow too thick", s: rode.Shackle{Body: 0.0281, Inside: 0.022}, field: "Shackle.Body"},
		{name: "bow too narrow", s: rode.Shackle{Body: 0.028, Inside: 0.0219}, field: "Shackle.Inside"},
		{name: "just so", s: rode.Shackle{Pin: 0.0159, Gape: 0.01}, chain: true},
		{name: "pin too thick", s: rode.Shackle{Pin: 0.0161, Gape: 0.01}, field: "Shackle.Pin", chain: true},
		{name: "ears too close", s: rode.Shackle{Pin: 0.0159, Gape: 0.0099}, field: "Shackle.Gape", chain: true},
	} {
		err := c.s.FitsThimble(thimble)
		if c.chain {
			err = c.s.FitsChain(link)
		}
		switch {
		case c.field != "":
			refused(t, c.field, err)
		case err != nil:
			t.Errorf("%s: %v", c.name, err)
		}
	}
	narrow := link
	narrow.InsideWidth, narrow.OutsideWidth = 0.011, 0 // the least width counts where it is known
	refused(t, "Shackle.Pin", rode.Shackle{Pin: 0.0111, Gape: 0.01}.FitsChain(narrow))
}

// An unknown chain is answered with those of its standard, or with how to ask.
func TestUnknownChainNamesWhatThereIs(t *testing.T) {
	_, err := rode.ChainByName("DIN 766 8.1 mm G30")
	if err == nil || !strings.Contains(err.Error(), "DIN 766 8 mm G30") || strings.Contains(err.Error(), "such as") {
		t.Error(err)
	}
	_, err = rode.ChainByName("chain")
	if err == nil || !strings.Contains(err.Error(), "such as") {
		t.Error(err)
	}
}

// Allowances of a cut list are those of its eyes.
func TestCutListCountsEachEye(t *testing.T) {
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		t.Fatal(err)
	}
	eye := rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.06}
	end, err := eye.Allowance()
	if err != nil {
		t.Fatal(err)
	}
	middle, err := eye.MidlineAllowance()
	if err != nil {
		t.Fatal(err)
	}
	s, err := rode.CutList{Ropes: []rode.CutRope{
		{Name: "ends", Rope: rope, Finished: 9, Eyes: []rode.EyeSplice{eye, eye}},
		{Name: "bridle", Rope: rope, Finished: 9, Midline: []rode.EyeSplice{eye}, Tail: 1.5},
	}}.Shopping()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two eyes", float64(s.Cuts[0].Length), float64(9+2*end.Extra), 9)
	near(t, "an eye in the middle", float64(s.Cuts[1].Length), float64(9+middle.Extra+1.5), 9)
}

// Tape that may be wrong by its scale widens what the readings allow, on both sides.
func TestTapeScaleWidensTheFeasible(t *testing.T) {
	lays := laysBetween(counter33, 0.336, 0, 20, 60, -40)
	sure := calibrate(t, lays, rode.LayErrors{Tape: 0.01, Repeat: 0.001}).Feasible
	unsure := calibrate(t, lays, rode.LayErrors{Tape: 0.01, Repeat: 0.001, TapeScale: 0.002}).Feasible
	if !(unsure.Low < sure.Low-0.001*0.336 && unsure.High > sure.High+0.001*0.336) {
		t.Errorf("%v, with the scale of the tape %v", sure, unsure)
	}
}

// Turns between changes of the display are known but for the pulses at either end;
// four magnets tell them four times as well as one.
func TestTurnsOfALay(t *testing.T) {
	lay := []rode.Lay{{From: 0, To: 19.8, Taped: 20}}
	u := func(pulses int) float64 {
		r, err := rode.Calibrate(rode.Counter{Setting: 0.33, Pulses: pulses}, lay, rode.LayErrors{Repeat: 0.01})
		if err != nil {
			t.Fatal(err)
		}
		return r.Lays[0].TurnsU
	}
	one, four := u(1), u(4)
	if !(one > 0.1 && one < 1) {
		t.Errorf("one pulse a turn: %v turns", one)
	}
	if !(four < one) {
		t.Errorf("four pulses a turn: %v turns, one: %v", four, one)
	}
}

// As many markers as there are links between two marks can be set, and no more.
func TestMarkersFillTheLinksBetween(t *testing.T) {
	p := rode.MarkPlan{Every: 0.5, Chain: 5, Pitch: 0.1, Scheme: [][]string{{"a", "b", "c", "d", "e"}}}
	if _, err := rode.MarkRode(p); err != nil {
		t.Error(err)
	}
	p.Scheme[0] = append(p.Scheme[0], "f")
	_, err := rode.MarkRode(p)
	refused(t, "Scheme[0]", err)
}

// Names end where the list of them does.
func TestKindBeyondTheLast(t *testing.T) {
	for k, want := range map[rode.Kind]bool{-1: false, 0: true, 1: true, 2: false} {
		if _, err := k.MarshalText(); (err == nil) != want {
			t.Errorf("kind %d: %v", int(k), err)
		}
	}
}

// A sinker that is passing through the surface weighs less the deeper it is: the
// stiffness counts that.
func TestStiffnessWithASinkerInTheSurface(t *testing.T) {
	site := rode.Site{Depth: 6, Roller: 1.5}
	partly := 0
	for below := units.Length(1.45); below < 2.2; below += 0.01 {
		r := rode.Rode{Pieces: []rode.Piece{chain(40), chain(below)}}
		r.Pieces[0].Top = []rode.Fitting{{Name: "sinker", Mass: 60, Volume: 0.03}}
		sv := mustSolver(t, r, site)
		var lo, st, hi rode.State
		for _, c := range []struct {
			st   *rode.State
			pull units.Force
		}{{&lo, 250 * (1 - 1e-5)}, {&st, 250}, {&hi, 250 * (1 + 1e-5)}} {
			if err := sv.Solve(c.st, c.pull); err != nil {
				t.Fatal(err)
			}
		}
		if z := st.Joints[0].Z - 6; z > -0.3 && z < -0.01 {
			partly++
		}
		up, down := float64(hi.Distance-st.Distance), float64(st.Distance-lo.Distance)
		if math.Abs(up-down) > 1e-3*(up+down) {
			continue
		}
		want := 250 * 2e-5 / (up + down)
		if got := float64(st.Stiffness); math.Abs(got-want) > 1e-5*want {
			t.Errorf("%v below the roller, at %v: stiffness %v, by difference %v", below, st.Joints[0].Z, got, want)
		}
	}
	if partly < 5 {
		t.Errorf("the sinker is in the surface %d times", partly)
	}
}

func TestRefusedByTheEndsOfRodes(t *testing.T) {
	rope, err := rode.RopeByName("polyamide eight-strand 14 mm")
	if err != nil {
		t.Fatal(err)
	}
	_, err = rode.Rode{Pieces: []rode.Piece{rope.Piece(30)}}.Snub(rode.Snubber{Rope: rope, Length: 8, Legs: 1, Slack: 2})
	refused(t, "Snubber.Slack", err)
	for _, l := range []units.Length{4.9, 5} {
		_, err = rode.SlackChain{Length: l, Apart: 3, Above: 4, Weight: 12}.Hang()
		refused(t, "SlackChain.Length", err)
	}
	// Without a step what is bought is what is needed.
	s, err := rode.CutList{Ropes: []rode.CutRope{{Name: "line", Rope: rope, Finished: 7.3, Count: 2}}}.Shopping()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "length to buy", float64(s.Buy[0].Length), 14.6, 14.6)
}
