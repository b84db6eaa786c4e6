package rode

import "math"

// bed is what lies between the anchor and the place where the line comes to
// rest, worked out from that place down to the anchor. Friction and, on a
// slope, the line's own weight change the tension by w (mu cos + sin) a metre;
// it never goes below zero: there the line lies slack.
type bed struct {
	length   float64 // unstretched length on the bed
	laid     float64 // the same with its stretch: distance along the bed
	yield    float64 // d laid / d tension at the upper end
	tension  float64 // left at the anchor
	friction float64
}

// lay goes down the bed from a spot where the tension is t. reaction is the
// bed's force on a point load that rests at the spot.
func (ln *line) lay(from spot, t, reaction float64, rec *record) bed {
	var b bed
	grip := ln.friction*ln.cos + ln.sin
	t = b.drag(t, reaction, ln.friction*ln.cos, grip)
	for i, l := from.i, from.below; ; {
		p := &ln.pieces[i]
		t = b.stretch(p, i, l, t, ln.friction*ln.cos, grip, rec)
		if i == 0 {
			break
		}
		i--
		l = ln.pieces[i].l
		t = b.drag(t, ln.points[i].wet, ln.friction*ln.cos, grip)
	}
	b.tension = t
	return b
}

// drag is the tension left below a load that rests on the bed.
func (b *bed) drag(t, load, rub, grip float64) float64 {
	lost := grip * load
	if lost > t {
		b.friction += rub / grip * t
		return 0
	}
	b.friction += rub * load
	return t - lost
}

// stretch adds l metres of a piece with tension t at the upper end and returns
// the tension at the lower end. Each newton of weight takes grip off the
// tension, rub of that by friction.
func (b *bed) stretch(p *span, i int, l, t, rub, grip float64, rec *record) float64 {
	if l <= 0 {
		return t
	}
	b.length += l
	rate := grip * p.wet
	taut := l
	if rate*l > t {
		taut = t / rate
	}
	low := math.Max(0, t-rate*taut)
	if taut < l {
		low = 0
	}
	laid := taut * (1 + p.law.meanRamp(low, t))
	b.laid += laid + (l - taut)
	b.friction += rub * p.wet * taut
	b.yield += taut * p.law.meanSlopeRamp(low, t)
	if rec != nil {
		rec.lie(i, taut, laid, low, t)
		if taut < l {
			rec.lie(i, l-taut, l-taut, 0, 0)
		}
	}
	return low
}
