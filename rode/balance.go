package rode

import "math"

// balanced is a line in equilibrium under a horizontal force h at the bow.
type balanced struct {
	h, v   float64 // at the bow
	run    float64 // horizontal distance from anchor to bow
	bed    bed
	anchor struct{ h, v float64 } // pull on the anchor, v in excess of the bed's direction when lifted
	lifted bool                   // the whole line is off the bed
	rate   float64                // d run / d h
	vRate  float64                // d v / d h
	steps  int                    // walks down the line that it took, without those of arches
}

// imbalance completes a walk with what lies on the bed: how far the walk's
// start value makes the bow too high above the anchor, and that by v.
func (ln *line) imbalance(k *walk, s stop) (g, gV float64) {
	g, gV = k.drop-ln.rise, k.dropV
	if s != atAnchor && ln.sin != 0 {
		var b bed
		ln.lay(k, nil, &b)
		grip := ln.friction*ln.cos + ln.sin
		g += ln.sin * b.laid
		gV += ln.sin * (b.laidT*grip*k.vV - b.laidZ*k.dropV)
	}
	return g, gV
}

// balance finds the vertical force at the bow for a horizontal force h, by
// Newton's method inside a bracket. A greater force at the bow lifts every spot
// of the line, so the imbalance grows steadily with it. While line lies on the
// bed the drop is nearly linear in tension (exactly so for an inextensible
// chain), so the step is taken in tension there. guess may be 0. It returns how many
// walks it took too.
func (ln *line) balance(h, guess float64) (float64, int, error) {
	lo := h * ln.tan
	hi := math.Inf(1)
	v := guess
	if !(v > lo) {
		v, _, _ = ln.guess(h)
	}
	tol := ln.tolerance()
	var pace pace
	for steps := range 400 {
		var k walk
		k.start(ln, h, v, math.Sqrt(h*h+v*v))
		s := ln.down(&k, false, nil)
		g, gV := ln.imbalance(&k, s)
		if math.Abs(g) <= tol {
			return v, steps + 1, nil
		}
		if g < 0 {
			lo = v
		} else {
			hi = v
		}
		next := v - g/gV
		if s != atAnchor && v > 0 {
			t := math.Sqrt(h*h + v*v)
			next = math.NaN()
			if t -= g * v / (gV * t); t > h {
				next = math.Sqrt((t - h) * (t + h))
			}
		}
		if slow := pace.slow(g); !(next > lo && next < hi) || slow && !math.IsInf(hi, 1) {
			if math.IsInf(hi, 1) {
				next = 2*math.Max(v, 0) + h + 1
			} else {
				next = lo + (hi-lo)/2
			}
		}
		if next == v || math.Abs(next-v) <= 1e-16*math.Abs(v) || !(next > lo && next < hi) {
			return v, steps + 1, nil
		}
		if math.IsInf(next, 1) {
			break
		}
		v = next
	}
	return 0, 0, ErrNoBalance
}

// pace watches a Newton iteration, which can go to and fro inside its bracket
// for long where a function is flat on both sides of its root.
type pace struct {
	last       float64
	slowBefore bool
}

// slow reports whether the residual has twice in a row not come down by half.
func (p *pace) slow(residual float64) bool {
	r := math.Abs(residual)
	slow := p.last > 0 && r > p.last/2
	both := slow && p.slowBefore
	p.last, p.slowBefore = r, slow && !both
	return both
}

// tolerance is what rounding leaves of a height summed over the line.
func (ln *line) tolerance() float64 { return 1e-15 * (ln.rise + ln.length) }

// guess is the vertical force and the tension at the bow of a line all of whose
// hanging part is like its top piece. For such a line on a flat bed, with a linear
// strain law, they are exact: the tension grows from the bed to the surface, and
// from there to the roller, by a d that satisfies d (1 + c1 (t + d/2)) = w z.
func (ln *line) guess(h float64) (v, t float64, exact bool) {
	n := len(ln.pieces) - 1
	p := &ln.pieces[n]
	if p.wet <= 0 || p.dry <= 0 || ln.tan != 0 {
		v = ln.roughGuess(h)
		return v, math.Sqrt(h*h + v*v), false
	}
	gain := func(t, wz float64) float64 {
		a := 1 + p.law.c1*t
		return 2 * wz / (a + math.Sqrt(a*a+2*p.law.c1*wz))
	}
	dry := min(max(ln.roller, 0), ln.rise)
	d := gain(h, p.wet*(ln.rise-dry))
	if dry > 0 {
		d += gain(h+d, p.dry*dry)
	}
	v = math.Sqrt(d * (2*h + d))
	if v-p.wet*p.l > 0 && n > 0 {
		v = ln.roughGuess(h)
		return v, math.Sqrt(h*h + v*v), false
	}
	return v, h + d, p.law.c2 == 0 && p.law.c3 == 0
}

// roughGuess takes the mean weight of the parts that would hang straight down.
func (ln *line) roughGuess(h float64) float64 {
	need, weight := ln.rise, 0.0
	for i := len(ln.pieces) - 1; i >= 0 && need > 0; i-- {
		p := &ln.pieces[i]
		l := math.Min(p.l, need)
		weight += math.Max(p.wet, 0) * l
		need -= l
	}
	return math.Sqrt(weight*(2*h+weight)) + h*math.Max(ln.tan, 0)
}

// at completes the equilibrium for a horizontal force h whose vertical force
// at the bow is v and tension t, and tells how far off it is.
func (ln *line) at(h, v, t float64, rec *record, b *balanced) (g float64) {
	var k walk
	k.start(ln, h, v, t)
	s := ln.down(&k, true, rec)
	g = k.drop - ln.rise
	b.steps++
	b.h, b.v, b.run, b.lifted = h, v, k.run, s == atAnchor
	gV, gH, runV, runH := k.dropV, k.dropH, k.runV, k.runH
	b.anchor.h, b.anchor.v = h, k.v
	b.bed = bed{}
	if !b.lifted {
		ln.lay(&k, rec, &b.bed)
		grip := ln.friction*ln.cos + ln.sin
		laidV := b.bed.laidT*grip*k.vV - b.bed.laidZ*k.dropV
		laidH := b.bed.laidT*(ln.sec-grip*(ln.tan-k.vH)) - b.bed.laidZ*k.dropH
		b.run += ln.cos * b.bed.laid
		g += ln.sin * b.bed.laid
		gV += ln.sin * laidV
		gH += ln.sin * laidH
		runV += ln.cos * laidV
		runH += ln.cos * laidH
		b.anchor.h, b.anchor.v = b.bed.tension*ln.cos, b.bed.tension*ln.sin
	}
	b.vRate = -gH / gV
	b.rate = runH + runV*b.vRate
	return g
}
