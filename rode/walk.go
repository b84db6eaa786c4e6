package rode

import (
	"math"

	"example.com/forepeak/units"
)

// walk is the state while going down the line from the bow, or from the upper
// end of a lower arch, with the horizontal force h fixed. drop is measured
// down from the bow roller, run horizontally from the walk's start. The
// derivatives hold at a fixed spot of the line: by the start value of v
// (suffix V) and by h (suffix H).
type walk struct {
	h, v, t   float64
	drop, run float64
	long      float64 // elongation
	wet       bool
	at        spot

	vV, vH       float64
	dropV, dropH float64
	runV, runH   float64

	reaction float64  // upward force of the bed on a point load that rests on it
	lowest   *minimum // of a line with buoyant parts
}

// minimum is the deepest place at which the line ran parallel to the bed.
type minimum struct {
	drop, dropV float64
	at          spot
	found       bool
	parts       int     // recorded down to it
	atPoint     bool    // at the point load above the spot,
	down        float64 // with this vertical force below it
}

// stop says why a walk ended.
type stop int

const (
	atAnchor   stop = iota // the whole line hangs free
	onBed                  // the line came to lie on the bed inside a piece
	pointOnBed             // a point load rests on the bed
)

// start begins a walk, still empty, at the bow with the vertical force v and the tension t.
func (k *walk) start(ln *line, h, v, t float64) {
	n := len(ln.pieces) - 1
	k.h, k.v, k.t = h, v, t
	k.wet = ln.roller <= 0
	k.at.i, k.at.below = n, ln.pieces[n].l
	k.vV = 1
}

// down walks toward the anchor. Without buoyant parts it stops where the line
// meets the bed; with them it goes on and remembers the deepest minimum. With
// all it also works out the run and every derivative; rec, if any, is told of
// each stretch walked.
func (ln *line) down(k *walk, all bool, rec *record) stop {
	bedV := k.h * ln.tan // vertical force in a line parallel to the bed
	for {
		p := &ln.pieces[k.at.i]
		for k.at.below > 0 {
			w, l := p.wet, k.at.below
			if !k.wet {
				w = p.dry
			}
			touches, crosses, lowest := false, false, false
			if w > 0 && (k.v > bedV || !ln.buoyant && k.v == bedV) {
				if free := (k.v - bedV) / w; free <= l {
					l, touches = free, true
				}
			}
			switch {
			case !k.wet && k.v > 0:
				deep := l
				if k.v < w*l { // the line dips, and rises again toward the anchor
					deep = k.v / w
				}
				if y := ln.roller - k.drop; k.fall(&p.law, w, deep) >= y {
					l = k.surface(&p.law, w, y, deep)
					crosses, touches = true, false
				}
			case k.wet && bedV < 0 && k.v < w*l:
				if y := k.drop - ln.roller; k.fall(&p.law, w, l) < -y {
					touches = false
					if k.v > 0 {
						l, lowest = k.v/w, true // so far first
					} else {
						l = k.surface(&p.law, w, y, l)
						crosses = true
					}
				}
			}
			var v, t float64 // at the lower end
			switch {
			case touches:
				v, t = bedV, k.h*ln.sec
			case lowest:
				t = k.h
			default:
				v = k.v - w*l
				t = math.Sqrt(k.h*k.h + v*v)
			}
			if rec == nil {
				k.step(&p.law, l, v, t, all)
			} else {
				part := rec.hang(k, l, v, t)
				drop, run, long := k.drop, k.run, k.long
				k.step(&p.law, l, v, t, all)
				part.Upper = Position{units.Length(k.run - run), units.Length(k.drop - drop)}
				part.Elongation = units.Length(k.long - long)
			}
			if crosses {
				k.cross(p, ln.roller)
			}
			if touches {
				if !ln.buoyant {
					return onBed
				}
				k.note(rec, false, 0)
			}
		}
		if k.at.i == 0 {
			return atAnchor
		}
		if ln.pass(k, bedV, rec) {
			return pointOnBed
		}
	}
}

// pass takes the walk past the joint below piece k.at.i. It reports whether
// the load there rests on the bed.
func (ln *line) pass(k *walk, bedV float64, rec *record) bool {
	k.at = spot{k.at.i - 1, ln.pieces[k.at.i-1].l}
	q := &ln.points[k.at.i]
	if *q == (pointLoad{}) {
		return false
	}
	load, slope := q.at(k.drop - ln.roller)
	v := k.v - load
	k.vV -= slope * k.dropV
	k.vH -= slope * k.dropH
	if load > 0 && v < bedV && (k.v > bedV || !ln.buoyant && k.v == bedV) {
		if !ln.buoyant {
			k.reaction = bedV - v
			return true
		}
		k.note(rec, true, v)
	}
	k.v = v
	k.t = math.Sqrt(k.h*k.h + v*v)
	return false
}

// step goes down l metres of a piece to where the vertical force is v2 and the
// tension t2.
func (k *walk) step(c *law, l, v2, t2 float64, all bool) {
	switch {
	case all && k.h > 0:
		var m means
		m.all(c, k.h, v2, t2, k.v, k.t)
		k.drop += l * m.rise
		k.run += l * m.run
		k.long += l * m.strain
		k.dropV += l * m.vv * k.vV
		k.dropH += l * (m.hv + m.vv*k.vH)
		k.runV += l * m.hv * k.vV
		k.runH += l * (m.hh + m.hv*k.vH)
	case all:
		k.long += l * c.meanStrain(0, v2, t2, k.v, k.t, absMeanTension(0, v2, t2, k.v, k.t))
		fallthrough
	default:
		k.drop += l * c.meanRise(v2, t2, k.v, k.t)
		k.dropV += l * c.meanVV(k.h, v2, t2, k.v, k.t) * k.vV
	}
	k.v, k.t = v2, t2
	k.at.below -= l
}

// fall is how far l metres of a piece lead down.
func (k *walk) fall(c *law, w, l float64) float64 {
	v := k.v - w*l
	return l * c.meanRise(v, math.Sqrt(k.h*k.h+v*v), k.v, k.t)
}

// surface finds the length of line, at most limit, that leads down to the
// water y below or, where the line rises toward a dry anchor, up out of the
// water y above. Newton's method starts from the answer for a linear law; height
// changes steadily with length as long as v keeps its sign, so [0, limit] is a
// bracket.
func (k *walk) surface(c *law, w, y, limit float64) float64 {
	if y <= 0 {
		return 0
	}
	down := 1.0
	if k.v <= 0 {
		down = -1
	}
	lo, hi := 0.0, limit
	l := y / (1 + c.at(k.t))
	// With a linear law the tension there, t = k.t - d w, has d (1 + c1 (k.t + t)/2) = y.
	a := 1 + c.c1*k.t
	d := 2 * y / (a + math.Sqrt(a*a-2*down*c.c1*w*y))
	if t := k.t - down*d*w; t > k.h {
		l = d * (k.t + t) / (math.Abs(k.v) + math.Sqrt((t-k.h)*(t+k.h)))
	}
	for range 200 {
		if !(l > lo && l < hi) {
			l = (lo + hi) / 2
		}
		v := k.v - w*l
		t := math.Sqrt(k.h*k.h + v*v)
		f := down*l*c.meanRise(v, t, k.v, k.t) - y
		if f < 0 {
			lo = l
		} else {
			hi = l
		}
		d := f * t / (math.Abs(v) * (1 + c.at(t)))
		if math.Abs(d) <= 2e-16*limit || hi-lo <= 2e-16*limit {
			break
		}
		l -= d
	}
	return l
}

// cross takes the walk through the surface: the weight per metre changes at a
// spot that itself moves with the start value and with h. The drop is set to
// the roller's height, so that rounding cannot take it through twice.
func (k *walk) cross(p *span, roller float64) {
	rate := (p.dry - p.wet) * k.t / (math.Abs(k.v) * (1 + p.law.at(k.t)))
	k.vV += rate * k.dropV
	k.vH += rate * k.dropH
	k.drop = roller
	k.wet = !k.wet
}

// note keeps the deepest minimum.
func (k *walk) note(rec *record, atPoint bool, down float64) {
	if !k.lowest.found || k.drop > k.lowest.drop {
		*k.lowest = minimum{k.drop, k.dropV, k.at, true, 0, atPoint, down}
		if rec != nil {
			k.lowest.parts = len(rec.parts)
		}
	}
}
