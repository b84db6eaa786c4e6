package anchor

import (
	"math"
	"reflect"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// A sine of whole periods: the deviation is its amplitude over the root of two,
// and all its peaks are alike.
func TestSumUpOfASine(t *testing.T) {
	var v []float64
	for i := range 4000 {
		v = append(v, 50+20*math.Sin(2*math.Pi*float64(i)/400-1))
	}
	f := sumUp(v)
	for what, c := range map[string][2]float64{
		"mean":        {float64(f.Mean), 50},
		"deviation":   {float64(f.Deviation), 20 / math.Sqrt2},
		"peak":        {float64(f.Peak), 70},
		"significant": {float64(f.Significant), 70},
	} {
		if math.Abs(c[0]-c[1]) > 2e-3 {
			t.Errorf("%s %v, want %v", what, c[0], c[1])
		}
	}
	// Peaks of 1 to 9: the highest third is 7, 8 and 9.
	v = v[:0]
	for _, k := range []float64{3, 9, 1, 7, 2, 8, 4, 6, 5} {
		v = append(v, 0, k, 0)
	}
	mean := 45.0 / 27
	for i := range v { // those below the mean are no peaks of their own
		if v[i] == 1 {
			v[i] = mean + 0.1
		}
	}
	if f := sumUp(v); math.Abs(float64(f.Significant)-8) > 1e-12 || f.Peak != 9 {
		t.Errorf("significant %v, peak %v, want 8 and 9", f.Significant, f.Peak)
	}
}

// Weight in water against drag at the speed of sinking, with the thickness of the
// rope or wire itself: 1.2 rho/2 d v² for a rope, 2.4 for a chain.
func TestFallSpeedBalances(t *testing.T) {
	const d = 0.014
	rope := rode.Piece{Kind: rode.OfRope, Length: 30, Mass: units.LinearDensity(math.Pi / 4 * d * d * 1380), Density: 1380}
	chain := rode.Piece{Length: 30, Mass: 1.4, Density: rode.Steel}
	for _, c := range []struct {
		piece rode.Piece
		drag  float64
	}{{rope, 1.2 * d}, {chain, 2.4 * 0.008}} {
		v := fallSpeed(&Ride{Rode: rode.Rode{Pieces: []rode.Piece{c.piece}}})
		weight := float64(c.piece.Mass) * 9.80665 * (1 - 1025/float64(c.piece.Density))
		if drag := 1025 / 2.0 * c.drag * v * v; math.Abs(drag/weight-1) > 1e-3 {
			t.Errorf("%v: sinks at %v m/s, where the drag is %v N/m and the weight %v", c.piece.Kind, v, drag, weight)
		}
	}
}

// Names of enumerated values end where their lists do, both ways.
func TestTextOfEnumerations(t *testing.T) {
	for _, e := range []struct {
		name string
		last int
		text func(i int) ([]byte, error)
		back func(text []byte) (int, error)
		said func(i int) string
	}{
		{"Spectrum", len(spectrumNames) - 1, func(i int) ([]byte, error) { return Spectrum(i).MarshalText() }, func(b []byte) (int, error) { var x Spectrum; err := x.UnmarshalText(b); return int(x), err }, func(i int) string { return Spectrum(i).String() }},
		{"Kind", len(kindNames) - 1, func(i int) ([]byte, error) { return Kind(i).MarshalText() }, func(b []byte) (int, error) { var x Kind; err := x.UnmarshalText(b); return int(x), err }, func(i int) string { return Kind(i).String() }},
		{"Soil", len(soilNames) - 1, func(i int) ([]byte, error) { return Soil(i).MarshalText() }, func(b []byte) (int, error) { var x Soil; err := x.UnmarshalText(b); return int(x), err }, func(i int) string { return Soil(i).String() }},
		{"Rig", len(rigNames) - 1, func(i int) ([]byte, error) { return Rig(i).MarshalText() }, func(b []byte) (int, error) { var x Rig; err := x.UnmarshalText(b); return int(x), err }, func(i int) string { return Rig(i).String() }},
		{"Exposure", len(exposureNames) - 1, func(i int) ([]byte, error) { return Exposure(i).MarshalText() }, func(b []byte) (int, error) { var x Exposure; err := x.UnmarshalText(b); return int(x), err }, func(i int) string { return Exposure(i).String() }},
	} {
		seen := map[string]bool{}
		for i := -1; i <= e.last+1; i++ {
			text, err := e.text(i)
			if (err == nil) != (i >= 0 && i <= e.last) {
				t.Errorf("%s %d: %q, %v", e.name, i, text, err)
			}
			said := e.said(i)
			if said == "" || seen[said] {
				t.Errorf("%s %d is called %q", e.name, i, said)
			}
			seen[said] = true
			if err == nil {
				if back, err := e.back(text); err != nil || back != i || said != string(text) {
					t.Errorf("%s %d: %q is read as %d, %v", e.name, i, text, back, err)
				}
			}
		}
		if _, err := e.back([]byte("x")); err == nil {
			t.Errorf("%s: a name of none is accepted", e.name)
		}
	}
}

// The parts of an estimated boat: hulls and deck between them are as wide as the
// boat, a motor boat has no sails, and there are one or two hulls.
func TestEstimateHasTheBoatsMeasures(t *testing.T) {
	d := Dimensions{Length: 12, Beam: 6.5, Freeboard: 1.3, Hulls: 2}
	w, err := Estimate(d)
	if err != nil {
		t.Fatal(err)
	}
	wide := 0.0
	for _, p := range w.Parts[:3] {
		wide += float64(p.Front) / float64(p.Top-p.Bottom)
	}
	if math.Abs(wide-6.5) > 1e-12 {
		t.Errorf("the hulls and the deck between are %v m wide, the boat 6.5", wide)
	}
	has := func(rig Rig, part string) bool {
		d := Dimensions{Length: 12, Beam: 4, Freeboard: 1.3, Rig: rig}
		w, err := Estimate(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range w.Parts {
			if p.Name == part {
				return true
			}
		}
		return false
	}
	for rig := Rig(0); int(rig) < len(rigNames); rig++ {
		if has(rig, "rolled headsail") == (rig == Motor) || has(rig, "wheelhouse") != (rig == Motor) ||
			has(rig, "rolled staysail") != (rig == Cutter) || has(rig, "mizzen rigging") != (rig == Ketch) {
			t.Errorf("a %v has the parts of another rig", rig)
		}
	}
	d.Hulls = 3
	if _, err := Estimate(d); err == nil {
		t.Error("three hulls are not refused")
	}
	d.Hulls, d.Rig = 1, Rig(len(rigNames))
	if _, err := Estimate(d); err == nil {
		t.Error("a rig that is none is not refused")
	}
}

// Another bottom takes the same part of every figure.
func TestOnScalesEveryFigure(t *testing.T) {
	sand := Held{Law: 1000, Interval: units.Interval[units.Force]{Low: 800, High: 1200}, Efficiency: 20}
	mud, err := sand.On(Bottom{Name: "mud", Factor: 0.25})
	if want := (Held{Law: 250, Interval: units.Interval[units.Force]{Low: 200, High: 300}, Efficiency: 5, Bottom: "mud"}); err != nil || mud != want {
		t.Errorf("%+v, %v, want %+v", mud, err, want)
	}
}

// Where the wind acts does not depend on how hard it blows.
func TestHeightOfALightAir(t *testing.T) {
	w, err := Estimate(Dimensions{Length: 10, Beam: 3.3, Freeboard: 1.1})
	if err != nil {
		t.Fatal(err)
	}
	gale, err := w.Load(Wind{Speed: 20}, 0.6)
	if err != nil {
		t.Fatal(err)
	}
	air, err := w.Load(Wind{Speed: 0.02}, 0.6)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(gale.Height-air.Height)) > 1e-9 || math.Abs(float64(gale.Arm-air.Arm)) > 1e-9 || gale.Height <= 0 {
		t.Errorf("height and arm %v %v in a gale, %v %v in light air", gale.Height, gale.Arm, air.Height, air.Arm)
	}
}

// The fields of a rode and those of its site are told apart by their names.
func TestFieldsOfRodeAndSite(t *testing.T) {
	site := reflect.TypeFor[rode.Site]()
	if site.NumField() != len(siteFields) {
		t.Errorf("%d fields of a site, want %v", site.NumField(), siteFields)
	}
	for _, name := range siteFields {
		if _, ok := site.FieldByName(name); !ok {
			t.Errorf("a site has no %s", name)
		}
		if _, ok := reflect.TypeFor[rode.Rode]().FieldByName(name); ok {
			t.Errorf("a rode has a %s too", name)
		}
	}
}
