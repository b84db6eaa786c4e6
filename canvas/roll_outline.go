package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// thinnest is how wide a piece has to be on the average. Below, points to the nearest
// nanometre no longer tell which side of it is inside.
const thinnest = 1e-7 // m

// posture is a piece in one position: with the grain turned, and perhaps with
// the cloth flipped.
type posture struct {
	turn    units.Angle
	flipped bool
	cut     []float64  // cut line, in units, moved so that straight sides are whole if they can be
	by      [2]float64 // how far
	end     float64    // how far it reaches in X, with its curves
	match   [2]float64
}

// kind is pieces that are alike.
type kind struct {
	piece    int
	mirrored bool
	count    int
	turns    []posture
	held     [][]int64 // for each turn, the ring that is laid
	area     float64   // within the cut line, units squared
}

// turns are the angles of the grain that a piece may have.
func (p *Cutting) turns() []units.Angle {
	switch p.Lie {
	case OneWay:
		return []units.Angle{0}
	case Listed:
		return p.Turns
	case AnyWay:
		out := make([]units.Angle, 0, 64)
		for k := range 24 {
			out = append(out, units.Angle(float64(k)*math.Pi/12))
		}
		for k, a := range p.Cut {
			b := p.Cut[(k+1)%len(p.Cut)]
			d := b.bare().Sub(a.bare())
			side := math.Round(1e9*(math.Atan2(d.Y, d.X)-float64(p.Grain))) / 1e9
			far := 0.0
			for _, q := range p.Cut {
				far = max(far, q.bare().Sub(a.bare()).Norm())
			}
			if len(out) >= 60 || d.Norm() < 0.3*far {
				continue
			}
			for q := range 4 {
				t := math.Mod(float64(q)*math.Pi/2-side+8*math.Pi, 2*math.Pi)
				if !slices.ContainsFunc(out, func(u units.Angle) bool { return math.Abs(float64(u)-t) < 1e-6 }) {
					out = append(out, units.Angle(t))
				}
			}
		}
		return out
	}
	return []units.Angle{0, units.Angle(math.Pi)}
}

// place is a line of a piece with the grain turned, in units.
func (l ruled) place(p *Cutting, line []Point, turn units.Angle, mirrored bool) []float64 {
	flat := make([]float64, 0, 2*len(line))
	for _, q := range line {
		flat = append(flat, l.of(q.X), l.of(q.Y))
	}
	flat = strip.Turned(flat, -float64(p.Grain))
	if mirrored {
		for k := 1; k < len(flat); k += 2 {
			flat[k] = -flat[k]
		}
	}
	return strip.Turned(flat, float64(turn))
}

// kinds are the pieces of a lay, those as drawn and those mirrored.
func (l ruled) kinds() ([]kind, error) {
	var out []kind
	for i := range l.Pieces {
		p := &l.Pieces[i]
		field := fmt.Sprintf("Pieces[%d] (%s)", i, p.Name)
		cut, clear, err := l.tidy(p, field)
		if err != nil {
			return nil, err
		}
		counts := [2]int{p.Quantity, p.QuantityMirrored}
		if counts == [2]int{} {
			counts[0] = 1
		}
		for m, count := range counts {
			if count == 0 {
				continue
			}
			k := kind{piece: i, mirrored: m == 1, count: count}
			for _, t := range p.turns() {
				for f := range 2 {
					if f == 1 && !p.Flip {
						continue
					}
					o := posture{turn: t, flipped: f == 1, cut: l.place(p, cut, t, (m == 1) != (f == 1))}
					c := slices.Clone(clear)
					o.by = settle(o.cut)
					if (m == 1) != (f == 1) { // mirrored, it runs the other way
						o.cut = backwards(o.cut)
						slices.Reverse(c[:len(c)-1])
					}
					if p.Match != nil {
						at := l.place(p, []Point{p.Match.At}, t, (m == 1) != (f == 1))
						o.match = [2]float64{at[0] - o.by[0], at[1] - o.by[1]}
					}
					o.end = reachOf(o.cut, c, l.gap()/2)
					held, err := strip.Outer(o.cut, c, l.of(l.deviation()))
					if err != nil {
						return nil, refuseAs(ErrOutline, field+".Cut", err, "a simple outline")
					}
					k.turns = append(k.turns, o)
					k.held = append(k.held, held)
				}
			}
			k.area = math.Abs(ringArea(k.turns[0].cut))
			out = append(out, k)
		}
	}
	return out, nil
}

// tidy returns the cut line of a piece, anticlockwise and without repeated
// points, and for each of its edges how far what is laid must keep clear of it:
// half the gap, and what a curve bulges beyond its points.
func (l ruled) tidy(p *Cutting, field string) ([]Point, []float64, error) {
	var cut []Point
	var fine []int64
	for _, q := range p.Cut {
		x, y := int64(math.Round(float64(q.X)*1e9)), int64(math.Round(float64(q.Y)*1e9))
		if n := len(fine); n > 0 && fine[n-2] == x && fine[n-1] == y {
			continue
		}
		cut, fine = append(cut, q), append(fine, x, y)
	}
	for n := len(fine); n > 2 && fine[0] == fine[n-2] && fine[1] == fine[n-1]; n = len(fine) {
		cut, fine = cut[:len(cut)-1], fine[:n-2]
	}
	anticlockwise, err := strip.Simple(fine)
	if err != nil {
		return nil, nil, refuseAs(ErrOutline, field+".Cut", err, "a simple outline with an area")
	}
	if !anticlockwise {
		slices.Reverse(cut)
	}
	n := len(cut)
	area, round := 0.0, 0.0
	for k := range cut {
		a, b := cut[k].bare(), cut[(k+1)%n].bare()
		area, round = area+a.Sub(cut[0].bare()).Cross(b.Sub(cut[0].bare()))/2, round+b.Sub(a).Norm()
	}
	if thick := 2 * area / round; thick < thinnest {
		return nil, nil, refuseAs(ErrOutline, field+".Cut", fmt.Sprintf("%.3g mm wide", thick*1e3), "a piece that is wider than 0.0001 mm on the average")
	}
	clear := make([]float64, n)
	for k := range cut {
		a, b, c, d := cut[(k+n-1)%n].bare(), cut[k].bare(), cut[(k+1)%n].bare(), cut[(k+2)%n].bare()
		clear[k] = l.gap() / 2
		length := c.Sub(b).Norm()
		bend := max(bendAt(a, b, c), bendAt(b, c, d))
		// A curve bulges by length times bend / 8; twice that is safe, rounded to
		// whole nanometres.
		clear[k] += math.Round(min(length*bend/4, 4*tolerance)*1e9) / l.unit
	}
	return cut, clear, nil
}

// bendAt is the turn at b, if it may be that of a curve's points: half a radian
// at most.
func bendAt(a, b, c plane.Point) float64 {
	u, v := b.Sub(a), c.Sub(b)
	turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
	if turn < 1e-6 || turn > 0.5 {
		return 0
	}
	return turn
}

func (l *Lay) deviation() units.Length {
	if l.Deviation == 0 {
		return 0.3 * units.Millimetre
	}
	return l.Deviation
}

// reachOf is the greatest X of a line whose edges have to be cleared by so much,
// half a gap of which is no part of it.
func reachOf(cut, clear []float64, half float64) float64 {
	most := math.Inf(-1)
	for k, c := range clear {
		most = max(most, max(cut[2*k], cut[(2*k+2)%len(cut)])+c-half)
	}
	return most
}

func backwards(ring []float64) []float64 {
	out := make([]float64, 0, len(ring))
	for k := len(ring) - 2; k >= 0; k -= 2 {
		out = append(out, ring[k], ring[k+1])
	}
	return out
}

func ringArea(ring []float64) float64 {
	sum, n := 0.0, len(ring)
	for k := 0; k < n; k += 2 {
		sum += float64(ring[k]*ring[(k+3)%n]) - float64(ring[(k+2)%n]*ring[k+1])
	}
	return sum / 2
}
