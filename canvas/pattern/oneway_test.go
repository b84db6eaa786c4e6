package pattern

import (
	"math"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/units"
)

// The arrow of a piece that lies one way has one tip, where its grain points; others
// have two. What is printed beside says what the arrows in use mean.
func TestOneWayArrow(t *testing.T) {
	piece := func(lie canvas.Lie, grain units.Angle) canvas.Piece {
		return canvas.Piece{Name: "p", Cut: []canvas.Point{{}, {X: 0.3}, {X: 0.3, Y: 0.2}, {Y: 0.2}}, Quantity: 1, Lie: lie, Grain: grain}
	}
	tips := func(s *Sheet) (n int) {
		for _, b := range s.pieces {
			for _, m := range b.marks {
				if len(m.points) == 3 && !m.closed {
					n++
				}
			}
		}
		return n
	}
	for _, tt := range []struct {
		pieces   []canvas.Piece
		tips     int
		one, two bool
	}{
		{[]canvas.Piece{piece(canvas.EitherWay, 0)}, 2, false, true},
		{[]canvas.Piece{piece(canvas.OneWay, 0)}, 1, true, false},
		{[]canvas.Piece{piece(canvas.AnyWay, 1), piece(canvas.OneWay, 0)}, 3, true, true},
	} {
		s, err := FullSize("t", tt.pieces, 1)
		if err != nil {
			t.Fatal(err)
		}
		var svg strings.Builder
		if err := s.WriteSVG(&svg, "x"); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(svg.String()), " ")
		if n := tips(s); n != tt.tips || strings.Contains(text, "Single arrow") != tt.one || strings.Contains(text, "Double arrow") != tt.two {
			t.Errorf("%d tips, want %+v", n, tt)
		}
	}
	// The tip is at the end to which the grain points: up the page for 90 degrees.
	s, err := FullSize("t", []canvas.Piece{piece(canvas.OneWay, 90*units.Degree)}, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range s.pieces[0].marks {
		if len(m.points) == 3 && !m.closed && !(m.points[1].Y < m.points[0].Y && math.Abs(m.points[1].Y-m.points[0].Y) > 1) {
			t.Errorf("a tip at %v", m.points)
		}
	}
	for _, tt := range []struct {
		lie   canvas.Lie
		grain float64
		want  string
	}{
		{canvas.EitherWay, 0, "lies along the baseline."},
		{canvas.EitherWay, 180, "lies along the baseline."},
		{canvas.EitherWay, -90, "lies square to the baseline."},
		{canvas.EitherWay, 210, "lies at 30 degrees to the baseline, anticlockwise."},
		{canvas.OneWay, 0, "lies along the baseline, from the roll's free end on to the right."},
		{canvas.OneWay, 180, "lies at 180 degrees to the baseline, anticlockwise, from the roll's free end on."},
		{canvas.OneWay, -90, "lies at 270 degrees to the baseline, anticlockwise, from the roll's free end on."},
	} {
		var b strings.Builder
		if err := WriteOffsets(&b, piece(tt.lie, units.Degree.Scale(tt.grain)), units.Millimetre); err != nil || !strings.Contains(b.String(), tt.want) {
			t.Errorf("%q at %v degrees: %v, want %q in\n%s", tt.lie, tt.grain, err, tt.want, b.String())
		}
	}
}
