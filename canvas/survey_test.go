package canvas_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

// polygon is a survey of corners with every distance between them.
func polygon(at []canvas.Space, noise func() float64) canvas.Survey {
	s := canvas.Survey{Sigma: mm}
	for i := range at {
		s.Corners = append(s.Corners, string(rune('A'+i)))
		for j := range i {
			d := math.Hypot(math.Hypot(float64(at[i].X-at[j].X), float64(at[i].Y-at[j].Y)), float64(at[i].Z-at[j].Z))
			s.Tapes = append(s.Tapes, canvas.Tape{From: s.Corners[j], To: s.Corners[i], Distance: units.Length(d + noise())})
		}
	}
	return s
}

func none() float64 { return 0 }

var house = []canvas.Space{{}, {X: 2.4}, {X: 2.9, Y: 1.5}, {X: 1.1, Y: 2.6}, {X: -0.5, Y: 1.3}}

func TestExactTapesGiveTheCorners(t *testing.T) {
	a, err := polygon(house, none).Adjust()
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range a.Corners {
		if d := math.Hypot(float64(c.At.X-house[i].X), float64(c.At.Y-house[i].Y)); d > 1e-9 {
			t.Errorf("%s is %v m off", c.Name, d)
		}
	}
	if !a.Fits || a.Redundancy != 3 || a.Weighted > 1e-9 {
		t.Errorf("fits %v, redundancy %d, sum %v", a.Fits, a.Redundancy, a.Weighted)
	}
	sum := 0.0
	for _, r := range a.Readings {
		sum += r.Redundancy
	}
	if math.Abs(sum-3) > 1e-9 {
		t.Errorf("the redundancies add up to %v, want 3", sum)
	}
}

// No corners near the adjusted ones have a smaller sum of squares.
func TestNothingNearbyIsBetter(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		s := polygon(house, func() float64 { return 2e-3 * r.NormFloat64() })
		a, err := s.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		sum := func(by float64) float64 {
			at := make([][2]float64, len(a.Corners))
			for i, c := range a.Corners {
				at[i] = [2]float64{float64(c.At.X) + by*r.NormFloat64(), float64(c.At.Y) + by*r.NormFloat64()}
			}
			sum := 0.0
			for _, p := range s.Tapes {
				i, j := p.From[0]-'A', p.To[0]-'A'
				v := 1000 * (math.Hypot(at[i][0]-at[j][0], at[i][1]-at[j][1]) - float64(p.Distance))
				sum += v * v
			}
			return sum
		}
		if d := sum(0) - a.Weighted; math.Abs(d) > 1e-6 {
			t.Errorf("the sum of squares is %v off", d)
		}
		for _, by := range []float64{1e-2, 1e-3, 1e-4, 1e-5} {
			for range 50 {
				if got := sum(by); got < a.Weighted-1e-9 {
					t.Fatalf("moving the corners by %v m gives %v, less than %v", by, got, a.Weighted)
				}
			}
		}
	}
}

// A hundred surveys with errors of the stated size scatter as the standard
// errors say, and about none of them is called unfit.
func TestStandardErrors(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	const runs = 400
	var sumX, sumY float64
	unfit := 0
	var said canvas.Space
	for range runs {
		a, err := polygon(house, func() float64 { return 1e-3 * r.NormFloat64() }).Adjust()
		if err != nil {
			t.Fatal(err)
		}
		c := a.Corners[3]
		sumX += math.Pow(float64(c.At.X-house[3].X), 2)
		sumY += math.Pow(float64(c.At.Y-house[3].Y), 2)
		said = c.Sigma
		if !a.Fits {
			unfit++
		}
	}
	for name, k := range map[string][2]float64{
		"X": {math.Sqrt(sumX / runs), float64(said.X)}, "Y": {math.Sqrt(sumY / runs), float64(said.Y)},
	} {
		if k[0]/k[1] < 0.85 || k[0]/k[1] > 1.15 {
			t.Errorf("%s scatters by %.3g m, %.3g was said", name, k[0], k[1])
		}
	}
	if unfit > 4 {
		t.Errorf("%d of %d good surveys are called unfit", unfit, runs)
	}
}

// With three readings more than needed, one misread tape is named, whichever it is.
func TestMisreadTapeIsNamed(t *testing.T) {
	for i := range 10 {
		s := polygon(house, none)
		s.Tapes[i].Distance += 0.1
		a, err := s.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		want := s.Tapes[i].From + "-" + s.Tapes[i].To
		if a.Fits || a.Misread != want || math.Abs(float64(a.Error)-0.1) > 1e-6 {
			t.Errorf("%s read 100 mm too long: fits %v, named %q, by %v", want, a.Fits, a.Misread, a.Error)
		}
		if !strings.Contains(a.Advice, want) || !strings.Contains(a.Advice, "100 mm too long") {
			t.Errorf("advice: %s", a.Advice)
		}
	}
}

// With two readings more than needed a misread tape is named where the others tell
// which it was, and whatever is named is the one.
func TestMisreadTapeOfTwoToSpare(t *testing.T) {
	named := 0
	for out := range 10 {
		for i := range 9 {
			s := polygon(house, none)
			s.Tapes = append(s.Tapes[:out:out], s.Tapes[out+1:]...)
			s.Tapes[i].Distance -= 0.05
			a, err := s.Adjust()
			if err != nil {
				t.Fatal(err)
			}
			want := s.Tapes[i].From + "-" + s.Tapes[i].To
			if a.Redundancy != 2 || a.Fits || !slices.Contains(a.Suspects, want) {
				t.Errorf("without tape %d, %s misread: %+v", out, want, a)
			}
			if (len(a.Suspects) == 1) != (a.Misread != "") || a.Misread != "" && (a.Misread != want || math.Abs(float64(a.Error)+0.05) > 1e-6 || !strings.Contains(a.Advice, "50 mm too short")) {
				t.Errorf("without tape %d, %s misread: %q by %v of %q, %q", out, want, a.Misread, a.Error, a.Suspects, a.Advice)
			}
			if a.Misread != "" {
				named++
			} else if a.Error != 0 || !strings.Contains(a.Advice, "a tape is misread or the frame is warped") {
				t.Errorf("nothing named, %v, %q", a.Error, a.Advice)
			}
		}
	}
	if named < 20 {
		t.Errorf("%d of 90 named", named)
	}
	// Fewer readings than unknown coordinates, though a sketch places the corners.
	s := polygon(rectangle(), none)
	s.Tapes = s.Tapes[:4]
	for _, q := range rectangle() {
		s.Sketch = append(s.Sketch, canvas.Point{X: q.X, Y: q.Y})
	}
	if _, err := s.Adjust(); !errors.Is(err, canvas.ErrMeasure) || !strings.Contains(err.Error(), "4 readings, want 5 or more") {
		t.Error(err)
	}
}

func rectangle() []canvas.Space { return []canvas.Space{{}, {X: 3}, {X: 3, Y: 2}, {Y: 2}} }

// Six distances have one redundancy: a mistake is seen, and never located.
func TestOneRedundancyLocatesNothing(t *testing.T) {
	for i := range 6 {
		s := polygon(rectangle(), none)
		s.Tapes[i].Distance += 0.05
		a, err := s.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		if a.Redundancy != 1 || a.Fits || a.Misread != "" || len(a.Suspects) != 6 {
			t.Errorf("tape %d: redundancy %d, fits %v, named %q, suspects %v", i, a.Redundancy, a.Fits, a.Misread, a.Suspects)
		}
		for _, r := range a.Readings {
			if d := math.Abs(r.Standardised) - math.Abs(a.Readings[0].Standardised); math.Abs(d) > 1e-3 {
				t.Errorf("tape %d: standardised residuals differ by %v", i, d)
			}
		}
		if a.Next != "" || !strings.Contains(a.Advice, "strings crossed along the diagonals") {
			t.Errorf("next %q, advice %q", a.Next, a.Advice)
		}
	}
}

// A warped frame is told from a misread tape by the gap between two strings, and
// placed in space; so it is by heights.
func TestWarpedFrame(t *testing.T) {
	at := rectangle()
	at[3].Z = 0.3
	flat := polygon(at, none)
	if a, err := flat.Adjust(); err != nil || a.Fits {
		t.Fatalf("a warped frame passes as flat: %v", err)
	}
	// Of the strings A-C and B-D, that from B to D passes over by nearly half its end's height.
	withGap := flat
	withGap.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: gap(at)}}
	withHeights := flat
	for i, c := range flat.Corners {
		withHeights.Heights = append(withHeights.Heights, canvas.Height{Corner: c, Above: at[i].Z})
	}
	for name, s := range map[string]canvas.Survey{"gap": withGap, "heights": withHeights} {
		a, err := s.Adjust()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if z := float64(a.Corners[3].At.Z); !a.Fits || math.Abs(z-0.3) > 1e-6 {
			t.Errorf("%s: fits %v, D is %v m up, want 0.3 m: %s", name, a.Fits, z, a.Advice)
		}
	}
	down := withGap
	down.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: -gap(at)}}
	if a, err := down.Adjust(); err != nil || math.Abs(float64(a.Corners[3].At.Z)+0.3) > 1e-6 {
		t.Errorf("the other way: %v, %v", a, err)
	}
	// A misread tape contradicts the gap.
	wrong := withGap
	wrong.Tapes = append([]canvas.Tape{}, flat.Tapes...)
	wrong.Tapes[2].Distance += 0.05
	if a, err := wrong.Adjust(); err != nil || a.Fits {
		t.Errorf("a misread tape passes beside the gap: %v", err)
	}
}

// gap is the distance of the lines A-C and B-D by the volume of the tetrahedron.
func gap(p []canvas.Space) units.Length {
	x := func(a, b canvas.Space) [3]float64 {
		return [3]float64{float64(b.X - a.X), float64(b.Y - a.Y), float64(b.Z - a.Z)}
	}
	u, v, w := x(p[0], p[2]), x(p[1], p[3]), x(p[0], p[1])
	m := [3]float64{u[1]*v[2] - u[2]*v[1], u[2]*v[0] - u[0]*v[2], u[0]*v[1] - u[1]*v[0]}
	return units.Length((w[0]*m[0] + w[1]*m[1] + w[2]*m[2]) / math.Sqrt(m[0]*m[0]+m[1]*m[1]+m[2]*m[2]))
}

// The advised distance reduces the corners' variances more than any other does.
func TestNextHelpsMost(t *testing.T) {
	s := polygon(house, none)
	all := s.Tapes
	keep := func(leave ...string) []canvas.Tape {
		var out []canvas.Tape
		for _, p := range all {
			if !strings.Contains(strings.Join(leave, " "), p.From+"-"+p.To) {
				out = append(out, p)
			}
		}
		return out
	}
	s.Tapes = keep("A-D", "C-E", "B-E")
	a, err := s.Adjust()
	if err != nil {
		t.Fatal(err)
	}
	total := func(tapes []canvas.Tape) float64 {
		s.Tapes = tapes
		a, err := s.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, c := range a.Corners {
			sum += math.Pow(float64(c.Sigma.X), 2) + math.Pow(float64(c.Sigma.Y), 2)
		}
		return sum
	}
	best, name := math.Inf(1), ""
	for add, leave := range map[string][]string{"A-D": {"C-E", "B-E"}, "C-E": {"A-D", "B-E"}, "B-E": {"A-D", "C-E"}} {
		if v := total(keep(leave...)); v < best {
			best, name = v, add
		}
	}
	if a.Next != name {
		t.Errorf("advised %s, but %s helps most", a.Next, name)
	}
}

// The residuals do not depend on which corner is the origin.
func TestFrameOfReferenceDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	s := polygon(house, func() float64 { return 2e-3 * r.NormFloat64() })
	first, err := s.Adjust()
	if err != nil {
		t.Fatal(err)
	}
	for turn := 1; turn < 5; turn++ {
		o := s
		o.Corners = append(append([]string{}, s.Corners[turn:]...), s.Corners[:turn]...)
		a, err := o.Adjust()
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Readings {
			if d := math.Abs(float64(a.Readings[i].Residual - first.Readings[i].Residual)); d > 1e-10 {
				t.Errorf("from %s, residual of %s is %v m off", o.Corners[0], a.Readings[i].Name, d)
			}
		}
	}
	impossible := canvas.Survey{Corners: []string{"A", "B", "C"}, Sigma: mm, Tapes: []canvas.Tape{
		{From: "A", To: "B", Distance: 1}, {From: "B", To: "C", Distance: 1.5}, {From: "C", To: "A", Distance: 3},
	}}
	if a, err := impossible.Adjust(); err == nil && (a.Fits || !strings.Contains(a.Advice, "no figure")) {
		t.Errorf("a triangle that cannot be: %+v", a)
	}
}

func TestSketch(t *testing.T) {
	// A hollow corner C tied to B and D only.
	at := []canvas.Space{{}, {X: 4}, {X: 2, Y: 1}, {X: 2, Y: 4}}
	s := polygon(at, none)
	s.Tapes = append(s.Tapes[:1:1], s.Tapes[2:]...) // without A-C
	for _, p := range at {
		s.Sketch = append(s.Sketch, canvas.Point{X: p.X + 0.1, Y: p.Y - 0.1})
	}
	a, err := s.Adjust()
	if err != nil {
		t.Fatal(err)
	}
	if d := math.Hypot(float64(a.Corners[2].At.X-2), float64(a.Corners[2].At.Y-1)); d > 1e-6 {
		t.Errorf("C is %v m off: %+v", d, a.Corners)
	}
	if !strings.Contains(a.Advice, "nothing checks") || a.Next != "A-C" {
		t.Errorf("advice %q, next %q", a.Advice, a.Next)
	}
}

func TestSurveyRefuses(t *testing.T) {
	good := polygon(rectangle(), none)
	for name, c := range map[string]struct {
		change func(*canvas.Survey)
		want   error
		field  string
	}{
		"no sigma":       {func(s *canvas.Survey) { s.Sigma = 0 }, canvas.ErrInput, "Sigma"},
		"two corners":    {func(s *canvas.Survey) { s.Corners = s.Corners[:2] }, canvas.ErrInput, "Corners"},
		"a name twice":   {func(s *canvas.Survey) { s.Corners = []string{"A", "B", "C", "A"} }, canvas.ErrInput, "Corners[3]"},
		"unknown corner": {func(s *canvas.Survey) { s.Tapes[2].To = "X" }, canvas.ErrUnknown, "Tapes[2]"},
		"to itself":      {func(s *canvas.Survey) { s.Tapes[2].To = s.Tapes[2].From }, canvas.ErrUnknown, "Tapes[2]"},
		"negative tape":  {func(s *canvas.Survey) { s.Tapes[1].Distance = -1 }, canvas.ErrInput, "Tapes[1].Distance"},
		"not a number":   {func(s *canvas.Survey) { s.Tapes[1].Distance = units.Length(math.NaN()) }, canvas.ErrInput, "Tapes[1].Distance"},
		"two heights":    {func(s *canvas.Survey) { s.Heights = []canvas.Height{{Corner: "A"}, {Corner: "B"}} }, canvas.ErrInput, "Heights"},
		"strings touch": {func(s *canvas.Survey) {
			s.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"A", "D"}}}
		}, canvas.ErrInput, "Gaps[0]"},
		"short sketch":    {func(s *canvas.Survey) { s.Sketch = []canvas.Point{{}} }, canvas.ErrInput, "Sketch"},
		"too few":         {func(s *canvas.Survey) { s.Tapes = s.Tapes[:4] }, canvas.ErrMeasure, ""},
		"one twice":       {func(s *canvas.Survey) { s.Tapes = append(s.Tapes[:4:4], s.Tapes[3], s.Tapes[3]) }, canvas.ErrMeasure, ""},
		"heights in line": {func(s *canvas.Survey) { s.Heights = []canvas.Height{{Corner: "A"}, {Corner: "A"}, {Corner: "A"}} }, canvas.ErrInput, "Heights"},
	} {
		s := good
		s.Corners = append([]string{}, good.Corners...)
		s.Tapes = append([]canvas.Tape{}, good.Tapes...)
		c.change(&s)
		_, err := s.Adjust()
		var e *canvas.Error
		if !errors.Is(err, c.want) || !errors.As(err, &e) || c.field != "" && e.Field != c.field {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzSurvey(f *testing.F) {
	f.Add(3.0, 2.0, 3.01, 1.99, 3.612, 3.6, 0.0, uint8(0))
	f.Add(3.0, 2.0, 3.0, 2.0, 3.5, 3.5, 0.2, uint8(1))
	f.Add(1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.1, uint8(2))
	f.Add(1e-3, 90.0, 1e-3, 90.0, 90.0, 0.5, -5.0, uint8(1))
	f.Fuzz(func(t *testing.T, ab, bc, cd, da, ac, bd, up float64, kind uint8) {
		s := canvas.Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: mm}
		for i, d := range []float64{ab, bc, cd, da, ac, bd} {
			ends := [][2]string{{"A", "B"}, {"B", "C"}, {"C", "D"}, {"D", "A"}, {"A", "C"}, {"B", "D"}}[i]
			s.Tapes = append(s.Tapes, canvas.Tape{From: ends[0], To: ends[1], Distance: units.Length(d)})
		}
		switch kind % 3 {
		case 1:
			s.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: units.Length(up)}}
		case 2:
			for _, c := range s.Corners {
				s.Heights = append(s.Heights, canvas.Height{Corner: c, Above: units.Length(up)})
				up = -up / 2
			}
		}
		a, err := s.Adjust()
		if err != nil {
			var e *canvas.Error
			if !errors.As(err, &e) {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		for _, c := range a.Corners {
			for _, x := range []units.Length{c.At.X, c.At.Y, c.At.Z, c.Sigma.X, c.Sigma.Y, c.Sigma.Z} {
				if math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
					t.Fatalf("%+v", a)
				}
			}
		}
		for _, r := range a.Readings {
			if math.IsNaN(float64(r.Residual)) || math.IsNaN(r.Standardised) || r.Redundancy < 0 || r.Redundancy > 1+1e-9 {
				t.Fatalf("%+v", r)
			}
		}
	})
}
