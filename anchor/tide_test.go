package anchor_test

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

// at is a time on the invented night of most tests.
func at(hour, minute int) time.Time {
	return time.Date(2030, 5, 17, hour, minute, 0, 0, time.UTC)
}

func springTide(rule anchor.TideRule) anchor.Tide {
	return anchor.Tide{Rule: rule, Turns: []anchor.Turn{
		{At: at(12, 10), Height: 0.6},
		{At: at(18, 22), Height: 4.9},
		{At: at(24, 40), Height: 0.8},
		{At: at(30, 55), Height: 4.7},
	}}
}

func constituent(t testing.TB, name string, amplitude units.Length, phase units.Angle) anchor.Constituent {
	t.Helper()
	speed, err := anchor.ConstituentSpeed(name)
	if err != nil {
		t.Fatal(err)
	}
	return anchor.Constituent{Name: name, Amplitude: amplitude, Phase: phase, Speed: speed}
}

func mixedTide(t testing.TB) anchor.Tide {
	return anchor.Tide{Mean: 2.1, Epoch: at(0, 0), Constituents: []anchor.Constituent{
		constituent(t, "M2", 1.2, 1), constituent(t, "S2", 0.4, 2), constituent(t, "K1", 0.5, 3),
		constituent(t, "O1", 0.3, 4), constituent(t, "M4", 0.15, 5),
	}}
}

// One constituent is a cosine from turn to turn, which is what the cosine rule
// makes of its own high and low waters.
func TestCosineRuleIsOneConstituent(t *testing.T) {
	wave := anchor.Tide{Mean: 2, Epoch: at(0, 0), Constituents: []anchor.Constituent{constituent(t, "S2", 1.5, 0.4)}}
	turns, err := wave.Between(at(0, 0), at(48, 0))
	if err != nil || len(turns) != 8 {
		t.Fatalf("%d turns, %v", len(turns), err)
	}
	table := anchor.Tide{Turns: turns}
	for m := 60; m < 42*60; m += 7 {
		a, err := wave.Height(at(0, m))
		b, err2 := table.Height(at(0, m))
		if err != nil || err2 != nil || (a-b).Abs() > 1e-6 {
			t.Fatalf("at minute %d: %v and %v, %v %v", m, a, b, err, err2)
		}
	}
	for i, turn := range turns {
		want := units.Length(2 - 1.5)
		if turn.High {
			want = 2 + 1.5
		}
		if (turn.Height-want).Abs() > 1e-9 || i > 0 && turn.High == turns[i-1].High {
			t.Errorf("turn %d: %+v", i, turn)
		}
	}
}

// A search second by second finds the same turns.
func TestHarmonicTurnsBySearch(t *testing.T) {
	tide := mixedTide(t)
	turns, err := tide.Between(at(0, 0), at(24, 50))
	if err != nil {
		t.Fatal(err)
	}
	var want []time.Time
	height := func(s int) float64 {
		h, err := tide.Height(at(0, 0).Add(time.Duration(s) * time.Second))
		if err != nil {
			t.Fatal(err)
		}
		return h.Metres()
	}
	const step = 20
	for s := step; s < (24*60+50)*60; s += step {
		a, b, c := height(s-step), height(s), height(s+step)
		if b > a && b >= c || b < a && b <= c {
			want = append(want, at(0, 0).Add(time.Duration(s)*time.Second))
		}
	}
	if len(want) != len(turns) || len(turns) < 3 {
		t.Fatalf("%d turns, a search finds %d", len(turns), len(want))
	}
	for i := range want {
		if d := turns[i].At.Sub(want[i]).Abs(); d > step*time.Second {
			t.Errorf("turn %d at %v, a search finds %v", i, turns[i].At, want[i])
		}
	}
}

func TestTurnsAtTheEnds(t *testing.T) {
	wave := anchor.Tide{Epoch: at(0, 0), Constituents: []anchor.Constituent{constituent(t, "S2", 1, 0)}}
	turns, err := wave.Between(at(0, 0), at(12, 0))
	if err != nil || len(turns) < 2 || !turns[0].At.Equal(at(0, 0)) || !turns[0].High || turns[1].High {
		t.Errorf("%+v, %v", turns, err)
	}
	table := springTide(anchor.Cosine)
	turns, err = table.Between(at(12, 10), at(30, 55))
	want := append([]anchor.Turn(nil), table.Turns...)
	want[1].High, want[3].High = true, true
	if !reflect.DeepEqual(turns, want) || err != nil {
		t.Errorf("%v, want %v, %v", turns, want, err)
	}
	still := anchor.Tide{Epoch: at(0, 0), Constituents: []anchor.Constituent{{Amplitude: 1}}}
	if turns, err = still.Between(at(0, 0), at(12, 0)); err != nil || len(turns) != 0 {
		t.Errorf("water that stands still turns: %+v, %v", turns, err)
	}
}

// The rule of twelfths leaves the cosine by at most 2.56 % of the range.
func TestRulesApart(t *testing.T) {
	worst := 0.0
	for i := range 100001 {
		part := float64(i) / 100000
		a, err := anchor.Twelfths.Risen(part)
		b, err2 := anchor.Cosine.Risen(part)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		worst = max(worst, math.Abs(a-b))
	}
	if math.Abs(worst-0.0256) > 0.00005 {
		t.Errorf("%.5f of the range apart", worst)
	}
}

func TestTideRunsBetweenItsTurns(t *testing.T) {
	for _, rule := range []anchor.TideRule{anchor.Cosine, anchor.Twelfths} {
		tide := springTide(rule)
		for _, turn := range tide.Turns {
			if h, err := tide.Height(turn.At); err != nil || (h-turn.Height).Abs() > 1e-12 {
				t.Errorf("%v: %v at the turn of %v, %v", rule, h, turn.Height, err)
			}
		}
		last := units.Length(0.6)
		for m := range 6*60 + 12 {
			h, err := tide.Height(at(12, 10+m))
			if err != nil || h < last {
				t.Fatalf("%v: falls at minute %d, %v", rule, m, err)
			}
			last = h
		}
	}
}

func TestSoundingForgetsDatumAndSurge(t *testing.T) {
	s := anchor.Sounding{At: at(17, 0), Shown: 4.2, Offset: 0.5}
	tide := springTide(anchor.Cosine)
	a, err := s.DepthAt(tide, at(25, 0))
	for i := range tide.Turns {
		tide.Turns[i].Height += 0.37
	}
	b, err2 := s.DepthAt(tide, at(25, 0))
	if err != nil || err2 != nil || (a-b).Abs() > 1e-12 {
		t.Errorf("%v and %v, %v %v", a, b, err, err2)
	}
	if d, err := s.DepthAt(tide, s.At); err != nil || d != s.Depth() {
		t.Errorf("%v at the sounding, %v", d, err)
	}
}

func TestTideJSON(t *testing.T) {
	for _, tide := range []anchor.Tide{springTide(anchor.Twelfths), mixedTide(t)} {
		text, err := json.Marshal(tide)
		if err != nil {
			t.Fatal(err)
		}
		var back anchor.Tide
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back, tide) {
			t.Errorf("%v, want %v", back, tide)
		}
	}
	var r anchor.TideRule
	if err := r.UnmarshalText([]byte("thirds")); err == nil {
		t.Error("a rule of thirds was read")
	}
	if _, err := anchor.TideRule(7).MarshalText(); err == nil {
		t.Error("tide rule 7 was written")
	}
}

func TestTideRefuses(t *testing.T) {
	turn := func(h int, height units.Length) anchor.Turn { return anchor.Turn{At: at(h, 0), Height: height} }
	nan := units.Length(math.NaN())
	for field, tide := range map[string]anchor.Tide{
		"Tide.Turns":                     {Turns: []anchor.Turn{turn(0, 1)}},
		"Tide.Turns[1].Height":           {Turns: []anchor.Turn{turn(0, 1), turn(6, nan)}},
		"Tide.Turns[1].At":               {Turns: []anchor.Turn{turn(6, 1), turn(6, 3)}},
		"Tide.Turns[2].Height":           {Turns: []anchor.Turn{turn(0, 1), turn(6, 2), turn(12, 3)}},
		"Tide.Turns[2].At":               {Turns: []anchor.Turn{turn(0, 1), turn(6, 2), turn(60, 1)}},
		"Tide.Turns[0].At":               {Turns: []anchor.Turn{{Height: 1}, turn(6, 2)}},
		"Tide.Rule":                      {Rule: 2},
		"Tide.Constituents":              {Turns: []anchor.Turn{turn(0, 1), turn(6, 2)}, Constituents: make([]anchor.Constituent, 1)},
		"Tide.Mean":                      {Mean: nan, Epoch: at(0, 0), Constituents: make([]anchor.Constituent, 1)},
		"Tide.Epoch":                     {Constituents: make([]anchor.Constituent, 1)},
		"Tide.Constituents[0].Amplitude": {Epoch: at(0, 0), Constituents: []anchor.Constituent{{Amplitude: -1}}},
		"Tide.Constituents[0].Phase":     {Epoch: at(0, 0), Constituents: []anchor.Constituent{{Phase: units.Angle(math.Inf(1))}}},
		"Tide.Constituents[0].Speed":     {Epoch: at(0, 0), Constituents: []anchor.Constituent{{Speed: 1}}},
	} {
		_, err := tide.Height(at(1, 0))
		refused(t, err, field)
		_, err = tide.Between(at(1, 0), at(2, 0))
		refused(t, err, field)
	}
	good := springTide(anchor.Cosine)
	if _, err := good.Height(at(5, 0)); err == nil {
		t.Error("a height before the tide table begins")
	}
	if _, err := good.Height(time.Time{}); err == nil {
		t.Error("a height in the year 1")
	}
	_, err := good.Between(at(20, 0), at(19, 0))
	refused(t, err, "to")
	if _, err := anchor.ConstituentSpeed("X9"); err == nil {
		t.Error("constituent X9")
	}
	_, err = anchor.Cosine.Risen(1.01)
	refused(t, err, "part")
	for field, s := range map[string]anchor.Sounding{
		"Sounding.Shown":  {At: at(13, 0), Shown: nan},
		"Sounding.Offset": {At: at(13, 0), Shown: 4, Offset: -1},
		"Sounding.At":     {Shown: 4},
	} {
		_, err := s.DepthAt(good, at(14, 0))
		refused(t, err, field)
	}
}
