package rode_test

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// The rope round an eye, stepped along its middle, closes at the throat.
func TestEyeRope(t *testing.T) {
	rope, err := rode.RopeByName("polyamide three-strand 16 mm")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ eye, round units.Length }{{0.3, 0.05}, {0.3, 0.1}, {0.15, 0.1}, {0.4, 0.02}} {
		e := rode.EyeSplice{Rope: rope, Eye: c.eye, Round: c.round}
		a, err := e.Allowance()
		if err != nil {
			t.Fatal(err)
		}
		angle, err := rode.EyeAngle(c.eye, c.round)
		if err != nil {
			t.Fatal(err)
		}
		// Round the post from one tangent point to the other, with steps of arc,
		// then straight to where the inner sides meet.
		r := float64(c.round)/2 + float64(rope.Diameter)/2
		turn, n, sum := math.Pi+float64(angle), 100000, 0.0
		for range n {
			sum += 2 * r * math.Sin(turn/float64(n)/2)
		}
		inner := float64(c.round) / 2
		sum += 2 * inner / math.Tan(float64(angle)/2)
		if math.Abs(float64(a.Around)/sum-1) > 1e-8 {
			t.Errorf("%+v: %v, want %v", c, a.Around, sum)
		}
		if math.Abs(float64(a.Extra-(a.Around+a.Tail-c.eye))) > 1e-15 {
			t.Errorf("%+v: extra %v", c, a.Extra)
		}
	}
	// A measured lay counts.
	e := rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.05, Lay: 60 * units.Millimetre}
	if a, err := e.Allowance(); err != nil || math.Abs(float64(a.Tail)-16*0.02) > 1e-12 {
		t.Errorf("tail %v, %v", a.Tail, err)
	}
}

// The eye of the limiting angle has it.
func TestEyeAngleInverse(t *testing.T) {
	for _, post := range []units.Length{0.03, 0.1, 0.7} {
		l, err := rode.EyeLengthFor(post, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		a, err := rode.EyeAngle(l.ByAngle, post)
		if err != nil || math.Abs(float64(a-rode.EyeAngleLimit)) > 1e-12 {
			t.Errorf("post %v: eye %v opens to %v, %v", post, l.ByAngle, a, err)
		}
	}
}

// A bridle of one rope with a locked eye is shorter than two legs, by the eye.
func TestMidlineEye(t *testing.T) {
	rope, err := rode.RopeByName("HMPE twelve-strand 10 mm")
	if err != nil {
		t.Fatal(err)
	}
	a, err := rode.EyeSplice{Rope: rope, Eye: 0.15, Round: 0.03}.MidlineAllowance()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(a.Extra-(a.Around+4*rope.Diameter-0.3))) > 1e-15 {
		t.Errorf("%+v", a)
	}
	laid, err := rode.RopeByName("polyamide three-strand 10 mm")
	if err != nil {
		t.Fatal(err)
	}
	_, err = rode.EyeSplice{Rope: laid, Eye: 0.15, Round: 0.03}.MidlineAllowance()
	refused(t, "EyeSplice.Rope.Construction", err)
}

func TestSplicesRefuse(t *testing.T) {
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		t.Fatal(err)
	}
	eye := func(e rode.EyeSplice) error { _, err := e.Allowance(); return err }
	craft := rode.Craft{Hull: 12, Waterline: 11, Category: "A"}
	point := func(k rode.Craft) error { _, err := k.StrongPointLoad(rode.ForAnchoring); return err }
	nan := units.Length(math.NaN())
	for _, c := range []struct {
		field string
		err   error
	}{
		{"EyeSplice.Eye", eye(rode.EyeSplice{Rope: rope, Eye: 0.14, Round: 0.1})},
		{"EyeSplice.Eye", eye(rode.EyeSplice{Rope: rope, Eye: 0.04, Round: 0.1})},
		{"EyeSplice.Eye", eye(rode.EyeSplice{Rope: rope, Round: 0.1})},
		{"EyeSplice.Round", eye(rode.EyeSplice{Rope: rope, Eye: 0.1})},
		{"EyeSplice.Rope.Diameter", eye(rode.EyeSplice{Eye: 0.3, Round: 0.1})},
		{"EyeSplice.Rope.Construction", eye(rode.EyeSplice{Rope: rode.Rope{Diameter: 0.01, Construction: "wire"}, Eye: 0.3, Round: 0.1})},
		{"EyeSplice.Lay", eye(rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.1, Lay: 0.05})},
		{"eye", second(rode.EyeAngle(0.05, 0.1))},
		{"post", second(rode.EyeAngle(0.05, nan))},
		{"rope", second(rode.EyeLengthFor(0.1, 0))},
		{"Cleat.Horns", second(rode.Cleat{Thick: 0.01, Base: 0.01}.EyeLength())},
		{"Cleat.Base", second(rode.Cleat{Horns: 0.2, Thick: 0.01, Base: -1}.EyeLength())},
		{"fibre", second(rode.EyeSpliceTucks("wire"))},
		{"fibre", second(rode.ShortSpliceTucks("wire"))},
		{"diameter", second(rode.SpliceTail(0))},
		{"diameter", second(rode.SpliceTaperTail(nan))},
		{"construction", second(rode.SpliceFactor("braid"))},
		{"width", second(rode.FlatSleeve(0))},
		{"diameter", second(rode.NeedSleeve(0))},
		{"end", second(rode.ChooseSleeve(nil, 0.01, 7))},
		{"stock", second(rode.ChooseSleeve(nil, 0.01, rode.OverSplice))},
		{"Fairlead.Inboard", second(rode.Fairlead{}.Sleeve())},
		{"Fairlead.Strain", second(rode.Fairlead{Inboard: 1, Strain: 2}.Sleeve())},
		{"rope", second(rode.SeizingTwine(0, 0.001, 8))},
		{"turns", second(rode.SeizingTwine(0.01, 0.001, 0))},
		{"load", second(rode.BitterEndLashing(0, rope, 1))},
		{"span", second(rode.BitterEndLashing(1, rope, 0))},
		{"cord.Breaking", second(rode.BitterEndLashing(1e9, rope, 1))},
		{"anchor", second(rode.SecureAnchor(0, rode.BowMotion{}))},
		{"BowMotion.Vertical", second(rode.SecureAnchor(1, rode.BowMotion{Vertical: -1}))},
		{"BowMotion.Pitch", second(rode.SecureAnchor(1, rode.BowMotion{Pitch: 2}))},
		{"parts", second(rode.LashingLoad(1, 0, 0))},
		{"angle", second(rode.LashingLoad(1, 1, 1.5))},
		{"diameter", second(rode.PinShear(1, 0))},
		{"Craft.Hull", point(rode.Craft{Hull: 30, Waterline: 11, Category: "A"})},
		{"Craft.Waterline", point(rode.Craft{Hull: 12, Waterline: 13, Category: "A"})},
		{"Craft.Category", point(rode.Craft{Hull: 12, Waterline: 11})},
		{"use", second(craft.StrongPointLoad(9))},
		{"load", second(craft.CheckCleat(rode.ForAnchoring, -1, 0, rope))},
		{"rope.Breaking", second(craft.CheckCleat(rode.ForAnchoring, 1, 0, rode.Rope{}))},
		{"Craft.Hull", second(rode.Craft{}.StrongPoints())},
		{"diameter", rode.Thimble{Groove: 0.012}.FitsRope(0.014)},
		{"Thimble.Groove", rode.Thimble{}.FitsRope(0.014)},
		{"Shackle.Pin", rode.Shackle{}.FitsChain(rode.Chain{})},
		{"Shackle.Body", rode.Shackle{}.FitsThimble(rode.Thimble{})},
		{"stock", second(rode.ChooseShackle(nil, rode.Chain{}, rode.Thimble{}, 1))},
		{"Ropes[0].Eyes[0].EyeSplice.Eye", second(rode.CutList{Ropes: []rode.CutRope{{Finished: 1, Eyes: []rode.EyeSplice{{Rope: rope, Round: 1}}}}}.Shopping())},
		{"Ropes[0].Finished", second(rode.CutList{Ropes: []rode.CutRope{{}}}.Shopping())},
		{"Ropes[0].Step", second(rode.CutList{Ropes: []rode.CutRope{{Finished: 1, Step: -1}}}.Shopping())},
		{"Lengths[0].Each", second(rode.CutList{Lengths: []rode.CutLength{{}}}.Shopping())},
		{"Parts[0].Count", second(rode.CutList{Parts: []rode.CutPart{{}}}.Shopping())},
	} {
		refused(t, c.field, c.err)
	}
}

// second is the error of a call.
func second[T any](_ T, err error) error { return err }

// A sleeve that passes over the bare rope only is refused by that reason.
func TestChooseSleeve(t *testing.T) {
	stock := []rode.Sleeve{{"16 mm", 0.016}, {"30 mm", 0.030}, {"22 mm", 0.022}, {"26 mm", 0.026}}
	for end, want := range map[rode.SleeveEnd]string{rode.OverSplice: "22 mm", rode.OverEye: "26 mm"} {
		if s, err := rode.ChooseSleeve(stock, 0.014, end); err != nil || s.Name != want {
			t.Errorf("end %v: %v, %v", end, s, err)
		}
	}
	_, err := rode.ChooseSleeve(stock[:1], 0.014, rode.OverSplice)
	refused(t, "stock", err)
	if err == nil || !strings.Contains(err.Error(), "only before the splice is made") {
		t.Error(err)
	}
}

func TestChooseShackle(t *testing.T) {
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		t.Fatal(err)
	}
	thimble := rode.Thimble{Name: "16 mm", Groove: 0.017, Width: 0.028, Length: 0.044, Wall: 0.002, Thick: 0.022}
	stock := []rode.Shackle{
		{Name: "14 mm", Pin: 0.016, Gape: 0.028, Body: 0.014, Inside: 0.042, Working: 20e3},
		{Name: "10 mm", Pin: 0.011, Gape: 0.02, Body: 0.01, Inside: 0.028, Working: 10e3},
		{Name: "8 mm", Pin: 0.0085, Gape: 0.016, Body: 0.008, Inside: 0.023, Working: 6e3},
	}
	if s, err := rode.ChooseShackle(stock, chain, thimble, 5e3); err != nil || s.Name != "8 mm" {
		t.Errorf("%v, %v", s, err)
	}
	if s, err := rode.ChooseShackle(stock, chain, thimble, 8e3); err != nil || s.Name != "10 mm" {
		t.Errorf("%v, %v", s, err)
	}
	_, err = rode.ChooseShackle(stock, chain, thimble, 15e3)
	refused(t, "stock", err)
	for _, name := range []string{"14 mm: does not fit: Shackle.Pin", "10 mm: works at", "8 mm: works at"} {
		if err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%q is missing: %v", name, err)
		}
	}
}

// The sum of the cuts is what is needed, and what is bought is a whole number of steps.
func TestShopping(t *testing.T) {
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		t.Fatal(err)
	}
	eye := rode.EyeSplice{Rope: rope, Eye: 0.3, Round: 0.06}
	list := rode.CutList{
		Ropes: []rode.CutRope{
			{Name: "leg", Rope: rope, Count: 2, Finished: 9, Eyes: []rode.EyeSplice{eye, eye}, Step: 0.5},
			{Name: "spare", Rope: rope, Finished: 2, Midline: []rode.EyeSplice{eye}, Tail: 1.5, Step: 0.5},
		},
		Lengths: []rode.CutLength{{Name: "sleeve 30 mm", Each: 1, Count: 2, Why: "fairleads", Step: 1}},
		Parts:   []rode.CutPart{{Name: "thimble", Count: 3, Why: "rings", Pack: 2}},
	}
	s, err := list.Shopping()
	if err != nil {
		t.Fatal(err)
	}
	need := 0.0
	for _, c := range s.Cuts[:2] {
		sum := c.Finished
		for _, a := range c.Allowances {
			sum += a.Length
			if a.Why == "" {
				t.Errorf("%s: an allowance without a reason", c.Name)
			}
		}
		if math.Abs(float64(sum-c.Length)) > 1e-12 {
			t.Errorf("%s: %v, its parts are %v", c.Name, c.Length, sum)
		}
		need += float64(c.Length) * float64(c.Count)
	}
	if len(s.Buy) != 3 {
		t.Fatalf("%+v", s.Buy)
	}
	b := s.Buy[0]
	if math.Abs(float64(b.Need)-need) > 1e-12 || b.Length < b.Need || b.Length >= b.Need+0.5 || math.Mod(float64(b.Length), 0.5) != 0 {
		t.Errorf("%+v, need %v", b, need)
	}
	if s.Buy[1].Length != 2 || s.Buy[2].Count != 4 {
		t.Errorf("%+v", s.Buy[1:])
	}
}
