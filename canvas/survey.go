package canvas

import (
	"fmt"
	"slices"

	"example.com/forepeak/units"
)

// Survey is a frame or an opening measured from corner to corner.
//
// Corners are named in order, anticlockwise as seen from outside the cloth. The
// first is the origin, the second lies on the X axis, and all lie in one plane
// unless there are Heights or Gaps.
type Survey struct {
	Corners []string
	Tapes   []Tape
	// Heights above a flat plane of the measurer's choice, such as a board or the
	// level of a hose. Three corners or more, not in one line, or none.
	Heights []Height
	// Gaps between two strings that cross, which tell a warped frame from a
	// misread tape. Tapes alone hardly show warp: a corner of a frame of 3 by 2 m
	// is 0.2 m out of the plane before six tapes good to 1 mm contradict each other.
	Gaps []Gap
	// Sigma is the standard deviation of one reading: two thirds of repeated
	// readings are within it. A steel tape between clear corners gives 1 mm or so.
	Sigma units.Length
	// Sketch is where the corners roughly are, in their order. It is needed only
	// where a corner is tied to two others alone and the outline is hollow there.
	Sketch []Point
}

// Tape is a distance read between two corners.
type Tape struct {
	From, To string
	Distance units.Length
	Sigma    units.Length // 0 is that of the survey
}

// Height is how far a corner lies above the reference plane.
type Height struct {
	Corner string
	Above  units.Length
	Sigma  units.Length // 0 is that of the survey
}

// Gap is how far the second of two strings, each between two corners, passes
// above the first where they cross; negative when it passes below. Above is the
// side from which the corners run anticlockwise. The strings are the shortest
// distance apart.
type Gap struct {
	First, Second [2]string
	Above         units.Length
	Sigma         units.Length // 0 is that of the survey
}

// Corner is a corner as adjusted.
type Corner struct {
	Name string
	At   Space
	// Sigma is the standard error along each axis, from the survey's Sigma, not
	// from how well the readings happen to agree.
	Sigma Space
}

// Reading is a measurement and what the adjustment did to it.
type Reading struct {
	Name     string // as in A-C, height of A, gap A-C/B-D
	Read     units.Length
	Adjusted units.Length
	Residual units.Length // adjusted less read
	// Redundancy is the part of an error in this reading that its residual shows:
	// 0 when nothing checks it, 1 when it is wholly checked by the others.
	Redundancy float64
	// Standardised is the residual divided by its own standard deviation; 0
	// where Redundancy is.
	Standardised float64
}

// Adjustment is a survey balanced by least squares.
type Adjustment struct {
	Corners  []Corner
	Readings []Reading
	// Redundancy is the number of readings more than are needed.
	Redundancy int
	// Weighted is the sum of the squares of residuals, each divided by its
	// reading's Sigma; Limit is what it exceeds once in a thousand surveys.
	Weighted, Limit float64
	// Fits says that the readings agree as well as their Sigma claims.
	Fits bool
	// Misread is the reading that is probably wrong: without it, and without no
	// other, the rest fits. It is empty when the survey fits or when what there is
	// cannot tell; Suspects are then the readings that could each be the one.
	Misread  string
	Suspects []string
	// Error is how much Misread was probably read too long.
	Error units.Length
	// Next is the further distance that would make the corners surest, empty
	// when all have been measured.
	Next string
	// Advice is what to do now, in a sentence.
	Advice string
}

// Corner returns the adjusted corner of a name.
func (a Adjustment) Corner(name string) (Corner, error) {
	for _, c := range a.Corners {
		if c.Name == name {
			return c, nil
		}
	}
	return Corner{}, refuseAs(ErrUnknown, "Corner", name, "a corner of the survey")
}

// Outline returns the corners without their heights.
func (a Adjustment) Outline() []Point {
	out := make([]Point, len(a.Corners))
	for i, c := range a.Corners {
		out[i] = Point{c.At.X, c.At.Y}
	}
	return out
}

// check looks at everything but whether the corners can be placed, and gives
// the number of each corner.
func (s *Survey) check() (map[string]int, error) {
	var c checker
	c.count("Corners", len(s.Corners), 3, 60)
	if c.err != nil {
		return nil, c.err
	}
	c.size("Sigma", s.Sigma)
	index := map[string]int{}
	for i, name := range s.Corners {
		if _, twice := index[name]; (twice || name == "") && c.err == nil {
			c.err = refuse(fmt.Sprintf("Corners[%d]", i), fmt.Sprintf("%q", name), "a name of its own")
		}
		index[name] = i
	}
	two := func(field, from, to string) {
		_, ok := index[from]
		_, ok2 := index[to]
		if c.err == nil && (!ok || !ok2 || from == to) {
			c.err = refuseAs(ErrUnknown, field, fmt.Sprintf("%q to %q", from, to), "two corners of the survey")
		}
	}
	sigma := func(field string, l units.Length) {
		if l != 0 {
			c.size(field+".Sigma", l)
		}
	}
	c.count("Tapes", len(s.Tapes), 3, 500)
	for i, t := range s.Tapes {
		field := fmt.Sprintf("Tapes[%d]", i)
		two(field, t.From, t.To)
		c.size(field+".Distance", t.Distance)
		sigma(field, t.Sigma)
	}
	c.count("Heights", len(s.Heights), 0, 500)
	seen := []string{}
	for i, h := range s.Heights {
		field := fmt.Sprintf("Heights[%d]", i)
		if _, ok := index[h.Corner]; !ok && c.err == nil {
			c.err = refuseAs(ErrUnknown, field+".Corner", fmt.Sprintf("%q", h.Corner), "a corner of the survey")
		}
		between(&c, field+".Above", h.Above, -largest, largest)
		sigma(field, h.Sigma)
		if !slices.Contains(seen, h.Corner) {
			seen = append(seen, h.Corner)
		}
	}
	if n := len(seen); n == 1 || n == 2 {
		c.count("Heights", n, 3, 500)
	}
	c.count("Gaps", len(s.Gaps), 0, 100)
	for i, g := range s.Gaps {
		field := fmt.Sprintf("Gaps[%d]", i)
		two(field+".First", g.First[0], g.First[1])
		two(field+".Second", g.Second[0], g.Second[1])
		between(&c, field+".Above", g.Above, -largest, largest)
		sigma(field, g.Sigma)
		if c.err == nil && (slices.Contains(g.First[:], g.Second[0]) || slices.Contains(g.First[:], g.Second[1])) {
			c.err = refuse(field, g, "two strings without a corner in common")
		}
	}
	if n := len(s.Sketch); n != 0 && n != len(s.Corners) && c.err == nil {
		c.err = refuse("Sketch", fmt.Sprint(n, " points"), fmt.Sprintf("none, or %d", len(s.Corners)))
	}
	for i, p := range s.Sketch {
		c.point(fmt.Sprintf("Sketch[%d]", i), p)
	}
	return index, c.err
}
