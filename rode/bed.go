package rode

import "math"

// bed is what lies between the anchor and the place where the line comes to
// rest, worked out from that place down to the anchor. Friction and, on a
// slope, the line's own weight change the tension by w (mu cos + sin) a metre;
// it never goes below zero: there the line lies slack.
type bed struct {
	length   float64 // unstretched length on the bed
	laid     float64 // the same with its stretch: distance along the bed
	friction float64
	tension  float64 // at the spot reached, in the end at the anchor
	wet      bool    // the spot reached is below the water

	// Derivatives of the tension and of the distance laid, by the tension
	// (suffix T) and by the height (suffix Z) where the line comes to rest.
	tensionT, tensionZ float64
	laidT, laidZ       float64
}

// lay goes down the bed from where a walk came to rest, into an empty b.
func (ln *line) lay(k *walk, rec *record, b *bed) {
	b.tension, b.wet, b.tensionT = k.h*ln.sec, k.wet, 1
	rub := ln.friction * ln.cos
	grip := rub + ln.sin
	top := ln.roller - k.drop // height above the water
	b.drag(k.reaction, rub, grip)
	for i, l := k.at.i, k.at.below; ; {
		p := &ln.pieces[i]
		if b.wet && ln.sin < 0 || !b.wet && ln.sin > 0 {
			// Somewhere on the way the bed passes through the surface.
			rate := grip * p.weight(b.wet)
			if before, ok := b.reach(p, l, rate, top/ln.sin-b.laid); ok {
				b.stretch(p, i, before, rub, grip, rec)
				l -= before
				b.cross(p, rate, grip, ln.sin)
			}
		}
		b.stretch(p, i, l, rub, grip, rec)
		if i == 0 {
			return
		}
		i--
		l = ln.pieces[i].l
		load, slope := ln.points[i].at(b.laid*ln.sin - top)
		b.drag(load, rub, grip)
		b.tensionT -= grip * slope * ln.sin * b.laidT
		b.tensionZ -= grip * slope * (ln.sin*b.laidZ - 1)
	}
}

func (p *span) weight(wet bool) float64 {
	if wet {
		return p.wet
	}
	return p.dry
}

// drag takes the tension past a load that rests on the bed. Each newton of
// weight takes grip off the tension, rub of that by friction.
func (b *bed) drag(load, rub, grip float64) {
	lost := grip * load
	if lost > b.tension {
		b.friction += rub / grip * b.tension
		b.slacken()
		return
	}
	b.friction += rub * load
	b.tension -= lost
}

func (b *bed) slacken() { b.tension, b.tensionT, b.tensionZ = 0, 0, 0 }

// stretch adds l metres of a piece.
func (b *bed) stretch(p *span, i int, l, rub, grip float64, rec *record) {
	if l <= 0 {
		return
	}
	b.length += l
	w := p.weight(b.wet)
	high := b.tension
	taut := tautLength(high, grip*w, l)
	b.tension -= grip * w * taut
	if taut < l {
		b.tension = 0
	}
	low := b.tension
	laid := taut * (1 + p.law.meanRamp(low, high))
	b.laid += laid + (l - taut)
	b.friction += rub * w * taut
	yield := taut * p.law.meanSlopeRamp(low, high)
	b.laidT += yield * b.tensionT
	b.laidZ += yield * b.tensionZ
	if rec != nil && taut > 0 {
		rec.lie(i, taut, laid, low, high, b.wet)
	}
	if taut < l {
		b.slacken()
		if rec != nil {
			rec.lie(i, l-taut, l-taut, 0, 0, b.wet)
		}
	}
}

// tautLength is how much of l metres is under tension, which loses rate a
// metre from t.
func tautLength(t, rate, l float64) float64 {
	if rate*l > t {
		return t / rate
	}
	return l
}

// reach is the unstretched length of a piece, at most limit, that covers a
// distance along the bed. It reports whether the piece is long enough.
func (b *bed) reach(p *span, limit, rate, distance float64) (l float64, ok bool) {
	covers := func(l float64) (distance, low float64) {
		taut := tautLength(b.tension, rate, l)
		low = math.Max(0, b.tension-rate*taut)
		return taut*(1+p.law.meanRamp(low, b.tension)) + (l - taut), low
	}
	if d, _ := covers(limit); d < distance {
		return 0, false
	}
	lo, hi := 0.0, limit
	l = distance / (1 + p.law.at(b.tension))
	for range 200 {
		if !(l > lo && l < hi) {
			l = (lo + hi) / 2
		}
		d, low := covers(l)
		if d < distance {
			lo = l
		} else {
			hi = l
		}
		step := (d - distance) / (1 + p.law.at(low))
		if math.Abs(step) <= 2e-16*limit || hi-lo <= 2e-16*limit {
			break
		}
		l -= step
	}
	return l, true
}

// cross takes the bed through the surface: rate, the tension lost per metre,
// changes at a spot that itself moves with what the line does above it.
func (b *bed) cross(p *span, rate, grip, sin float64) {
	b.wet = !b.wet
	change := grip*p.weight(b.wet) - rate
	if b.tension > 0 {
		e := 1 + p.law.at(b.tension)
		b.tensionT -= change * b.laidT / e
		b.tensionZ += change * (1/sin - b.laidZ) / e
	}
}
