package canvas

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/forepeak/units"
)

// Compasses place convex corners where they are, from all distances or from two for
// each, in the frame of the first two; so does a sketch that is right.
func TestCompassesPlaceTheCorners(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	for n := range 300 {
		k := 3 + r.IntN(6)
		var truth [][2]float64
		for i := range k {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5*r.Float64()) / float64(k))
			truth = append(truth, [2]float64{2 * cos, 1.5 * sin}) // convex, anticlockwise
		}
		s := Survey{Sigma: 1e-3}
		apart := func(i, j int) units.Length {
			return units.Length(math.Hypot(truth[i][0]-truth[j][0], truth[i][1]-truth[j][1]))
		}
		for i := range k {
			s.Corners = append(s.Corners, fmt.Sprint(i))
		}
		for i := range k {
			for j := range i {
				// All, or the outline and all from the first corner.
				if n%2 == 0 || j == 0 || j == i-1 {
					s.Tapes = append(s.Tapes, Tape{From: s.Corners[i], To: s.Corners[j], Distance: apart(i, j)})
				}
			}
		}
		r.Shuffle(len(s.Tapes), func(i, j int) { s.Tapes[i], s.Tapes[j] = s.Tapes[j], s.Tapes[i] })
		if n%5 == 4 { // turned and moved
			for _, q := range truth {
				s.Sketch = append(s.Sketch, Point{units.Length(3 - q[1]), units.Length(q[0] - 2)})
			}
		}
		index, err := s.check()
		if err != nil {
			t.Fatal(err)
		}
		w := newNetwork(&s, index)
		if err := w.place(); err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		x, y := truth[1][0]-truth[0][0], truth[1][1]-truth[0][1]
		l := math.Hypot(x, y)
		for i, p := range w.points {
			dx, dy := truth[i][0]-truth[0][0], truth[i][1]-truth[0][1]
			if math.Hypot(p[0]-(dx*x+dy*y)/l, p[1]-(dy*x-dx*y)/l) > 1e-6 || p[2] != 0 {
				t.Fatalf("%d corners, corner %d at %v, want %v, %v", k, i, p, (dx*x+dy*y)/l, (dy*x-dx*y)/l)
			}
		}
		if w.points[1][1] != 0 {
			t.Errorf("the second corner is off the axis by %v", w.points[1][1])
		}
	}
	for name, c := range map[string]struct {
		change func(*Survey)
		want   string
	}{
		"a corner tied once": {func(s *Survey) { s.Tapes = s.Tapes[:4] }, "a corner with fewer than two distances"},
		"no triangle": {func(s *Survey) {
			s.Tapes = []Tape{{"A", "B", 1, 0}, {"B", "C", 1, 0}, {"C", "D", 1, 0}, {"D", "A", 1, 0}}
		}, "a figure that can move"},
		"a sketch of one place": {func(s *Survey) { s.Sketch = make([]Point, 4) }, "the two first corners in one place"},
	} {
		s := Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: 1e-3, Tapes: []Tape{{"A", "B", 1, 0}, {"B", "C", 1, 0}, {"A", "C", 1.2, 0}, {"C", "D", 1, 0}, {"D", "A", 1, 0}}}
		c.change(&s)
		if _, err := s.Adjust(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What heights and gaps say lifts the corners to begin with: heights as measured;
// the first three corners stay in the plane where only gaps are known, and the
// others leave it to the side that the gap tells.
func TestLiftOfTheCorners(t *testing.T) {
	s := Survey{Corners: []string{"A", "B", "C", "D", "E"}, Sigma: 2e-3}
	index := map[string]int{"A": 0, "B": 1, "C": 2, "D": 3, "E": 4}
	height := func(s Survey) (out [5]float64) {
		n := newNetwork(&s, index)
		n.lift()
		for i, p := range n.points {
			out[i] = p[2]
		}
		return out
	}
	with := s
	with.Heights = []Height{{"A", 0.1, 0}, {"C", -0.2, 0}, {"E", 0.3, 0}}
	with.Gaps = []Gap{{[2]string{"A", "C"}, [2]string{"B", "D"}, 0.05, 0}}
	if got := height(with); got != [5]float64{0.1, 0, -0.2, 0, 0.3} {
		t.Errorf("%v", got)
	}
	with = s
	with.Gaps = []Gap{{[2]string{"A", "C"}, [2]string{"B", "D"}, 0.05, 0}} // B-D passes above A-C
	if got := height(with); got != [5]float64{0, 0, 0, 0.1, 2e-3} {
		t.Errorf("%v", got)
	}
	with.Gaps = []Gap{{[2]string{"B", "D"}, [2]string{"A", "C"}, 0.05, 0}, {[2]string{"A", "E"}, [2]string{"B", "C"}, 0, 3e-3}}
	if got := height(with); got != [5]float64{0, 0, 0, -0.1, -6e-3} {
		t.Errorf("%v", got)
	}
}

// What is said of a survey: by what the readings agree on, and which distance to measure next.
func TestAdviceOfSurveys(t *testing.T) {
	d := units.Length(math.Sqrt(13))
	all := []Tape{{"A", "B", 3, 0}, {"B", "C", 2, 0}, {"C", "D", 3, 0}, {"D", "A", 2, 0}, {"A", "C", d, 0}, {"B", "D", d, 0}}
	heights := []Height{{"A", 0, 0}, {"B", 0, 0}, {"C", 0, 0}, {"D", 0, 0}}
	for name, c := range map[string]struct {
		change func(*Survey)
		want   string
		next   string
		fits   bool
	}{
		"all agree":      {func(s *Survey) {}, "the readings agree", "", true},
		"one not taken":  {func(s *Survey) { s.Tapes = s.Tapes[:5] }, "nothing checks these readings: one misread tape would go unseen; the distance B-D would help most", "B-D", true},
		"one too long":   {func(s *Survey) { s.Tapes[4].Distance += 0.05 }, "the readings do not fit a flat figure: a tape is misread or the frame is warped, and these readings cannot tell which; measure the gap between two strings crossed along the diagonals, or the corners' heights above a flat plane", "", false},
		"with heights":   {func(s *Survey) { s.Heights = heights; s.Tapes[4].Distance += 0.05 }, "the readings contradict each other: measure again ", "", false},
		"heights, right": {func(s *Survey) { s.Heights = heights }, "the readings agree", "", true},
		"all are wrong": {func(s *Survey) {
			s.Heights = heights
			for i, by := range []units.Length{0.1, -0.2, 0.15, 0.3, -0.1, 0.25} {
				s.Tapes[i].Distance += by
			}
			s.Tapes = append(s.Tapes, Tape{"A", "B", 2.5, 0}, Tape{"C", "D", 3.6, 0})
		}, "the readings contradict each other in more than one place: measure all again", "", false},
	} {
		s := Survey{Corners: []string{"A", "B", "C", "D"}, Sigma: 1e-3, Tapes: append([]Tape{}, all...)}
		c.change(&s)
		a, err := s.Adjust()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		exact := a.Advice == c.want
		if name == "with heights" {
			exact = a.Advice == c.want+strings.Join(a.Suspects, ", ") && len(a.Suspects) > 1
		}
		if !exact || a.Next != c.next || a.Fits != c.fits || a.Redundancy != len(s.Tapes)+len(s.Heights)-5-len(s.Heights)/4*4 {
			t.Errorf("%s: %q, next %q, fits %v, redundancy %d, suspects %q", name, a.Advice, a.Next, a.Fits, a.Redundancy, a.Suspects)
		}
	}
	// Three sides that make no triangle.
	s := Survey{Corners: []string{"A", "B", "C"}, Sigma: 1e-3, Tapes: []Tape{{"A", "B", 3, 0}, {"B", "C", 1, 0}, {"C", "A", 1, 0}}}
	if a, err := s.Adjust(); err == nil && a.Advice != "no figure has these measures: measure all again" {
		t.Errorf("%+v", a)
	}
	// What is over and above is the number of readings less the coordinates to be found.
	for redundancy, want := range map[int]float64{1: 10.828, 2: 13.816, 5: 20.515} { // chi-square at 0.1 %, as in printed tables (memory)
		if got := limit(redundancy); math.Abs(got-want) > 5e-4 {
			t.Errorf("limit for %d: %v, want %v", redundancy, got, want)
		}
	}
	if limit(0) != 1e-6 || limit(-1) != 1e-6 {
		t.Error(limit(0))
	}
}
