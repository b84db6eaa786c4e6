package rode_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// Every inverse question says which value it cannot answer with.
func TestInverseRefusals(t *testing.T) {
	nan := math.NaN()
	good := rode.Rode{Pieces: []rode.Piece{chain(40)}}
	short := rode.Rode{Pieces: []rode.Piece{chain(5)}}
	floating := chain(40)
	floating.Density = 500
	floats := rode.Rode{Pieces: []rode.Piece{floating}}
	rope := chain(40)
	rope.Kind = rode.OfRope
	ropes := rode.Rode{Pieces: []rode.Piece{rope}}
	kellet := rode.Fitting{Name: "kellet", Mass: 10}
	atOnce := func(r rode.Rode, pull units.Force, angle units.Angle) error {
		return second(rode.LengthFor(r, anchorage, pull, angle))
	}
	compare := func(r rode.Rode, f rode.Fitting, down units.Length, pull units.Force) error {
		return second(rode.CompareKellet(r, anchorage, f, down, pull))
	}
	depths, pulls := []units.Length{5, 8}, []units.Force{800}
	for _, c := range []struct {
		what, field string
		err, is     error
	}{
		{"no pull", "pull", atOnce(good, 0, 0), rode.ErrInput},
		{"an angle that is not a number", "angle", atOnce(good, 800, units.Angle(nan)), rode.ErrInput},
		{"a rode shorter than the rise", "Length", atOnce(short, 800, 0), rode.ErrShort},
		{"a floating rode", "Pieces", atOnce(floats, 800, 0), rode.ErrInput},
		{"a rode that is not enough", "Length", atOnce(good, 50e3, 0), rode.ErrShort},

		{"an angle beyond upright", "angle", second(rode.PullFor(good, anchorage, 2)), rode.ErrInput},
		{"a rode shorter than the rise", "Length", second(rode.PullFor(short, anchorage, 0)), rode.ErrShort},
		{"a floating rode", "Pieces", second(rode.PullFor(floats, anchorage, 0)), rode.ErrInput},
		{"an angle that no pull reaches", "angle", second(rode.PullFor(good, anchorage, 1)), rode.ErrNoBalance},

		{"a table of too short a rode", "Length", second(rode.ScopeTable(short, anchorage, depths, pulls, 0)), rode.ErrShort},
		{"a table without pull", "pull", second(rode.ScopeTable(good, anchorage, depths, []units.Force{-1}, 0)), rode.ErrInput},

		{"a kellet without mass", "kellet.Mass", compare(good, rode.Fitting{}, 10, 800), rode.ErrInput},
		{"a kellet below the anchor", "down", compare(good, kellet, 41, 800), rode.ErrInput},
		{"a kellet at the anchor", "down", compare(good, kellet, 40, 800), rode.ErrInput},
		{"a kellet on rope", "Pieces[0].Kind", compare(ropes, kellet, 10, 800), rode.ErrInput},
		{"a kellet on a short rode", "Length", compare(short, kellet, 2, 800), rode.ErrShort},
		{"hung nowhere", "down", second(good.Hang(kellet, units.Length(math.Inf(1)))), rode.ErrInput},
		{"hung on nothing", "Pieces", second(rode.Rode{}.Hang(kellet, 1)), rode.ErrInput},
	} {
		var e *rode.Error
		if !errors.Is(c.err, c.is) || !errors.As(c.err, &e) || e.Field != c.field {
			t.Errorf("%s: %v, want %v about %s", c.what, c.err, c.is, c.field)
		}
	}
}

// Every entry of the catalogues is found by its own name, and is fit for a rode
// once its mass is known.
func TestCataloguesByName(t *testing.T) {
	for _, c := range rode.Chains() {
		got, err := rode.ChainByName(c.Name())
		if err != nil || got != c {
			t.Errorf("%s: %+v %v", c.Name(), got, err)
		}
		_, err = rode.Solve(rode.Rode{Pieces: []rode.Piece{c.Piece(30)}}, anchorage, 500)
		if c.Mass == 0 { // none printed in the standard
			wants(t, err, rode.ErrInput, "Pieces[0].Mass")
		} else if err != nil {
			t.Error(err)
		}
	}
	for _, r := range rode.Ropes() {
		got, err := rode.RopeByName(r.Name())
		if err != nil || got != r {
			t.Errorf("%s: %+v %v", r.Name(), got, err)
		}
		if _, err := rode.RopeStretch(r.Fibre, r.Construction, r.Breaking); err != nil {
			t.Error(err)
		}
		if e, err := r.Strain(r.Breaking); !(e > 0.01 && e < 0.6) || err != nil {
			t.Errorf("%s breaks at a strain of %v, %v", r.Name(), e, err)
		}
	}
	for _, c := range []struct {
		field string
		err   error
	}{
		{"rope", second(rode.RopeByName("sisal"))},
		{"rope", second(rode.RopeByName("polyamide, thick"))},
		{"fibre, construction", second(rode.RopeStretch("sisal", "three-strand", 1e4))},
		{"breaking", second(rode.RopeStretch("polyamide", "three-strand", 0))},
		{"rope", second(rode.Rope{Fibre: "polyester", Construction: "three-strand"}.New())},
		{"Rope.Breaking", second(rode.Rope{Breaking: -1}.New())},
		{"left", second(rode.Rope{Breaking: 1e4}.Used(0))},
		{"knot", second(rode.KnotFactor("granny"))},
	} {
		var e *rode.Error
		if !errors.As(c.err, &e) || e.Field != c.field {
			t.Errorf("%v, want something about %s", c.err, c.field)
		}
	}
}

func TestStrongPointText(t *testing.T) {
	for _, u := range []rode.StrongPoint{rode.ForAnchoring, rode.ForMooring, rode.Aft} {
		b, err := json.Marshal(map[string]rode.StrongPoint{"use": u})
		if err != nil || string(b) != `{"use":"`+u.String()+`"}` {
			t.Errorf("%s %v", b, err)
		}
		back := map[string]rode.StrongPoint{}
		if err := json.Unmarshal(b, &back); err != nil || back["use"] != u {
			t.Errorf("%s is read as %v, %v", b, back, err)
		}
	}
	if _, err := rode.StrongPoint(3).MarshalText(); !errors.Is(err, rode.ErrInput) {
		t.Errorf("a use that is none: %v", err)
	}
	if u := rode.Aft; !errors.Is(u.UnmarshalText([]byte("amidships")), rode.ErrUnknown) || u != rode.Aft {
		t.Errorf("read as %v", u)
	}
	if s := rode.OverEye.String() + " " + rode.SleeveEnd(7).String(); s != "eye SleeveEnd(7)" {
		t.Error(s)
	}
}

// What hangs on a rode of one piece, and a rode of none.
func TestWithoutAHook(t *testing.T) {
	st := mustSolve(t, rode.Rode{Pieces: []rode.Piece{chain(40)}}, anchorage, 800)
	peak := rode.SurgePeak{Peak: st}
	if st.HookHeight() != 0 || peak.LeastSlack() != 0 {
		t.Errorf("a hook %v above the water, %v of slack", st.HookHeight(), peak.LeastSlack())
	}
}
