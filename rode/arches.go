package rode

import "math"

// With a float or a floating rope the line may touch the bed, rise over the
// float and touch again, any number of times. For a given horizontal force on
// a flat bed the equilibrium is still unique: height is the running sum of a
// steadily growing function of the vertical force, so the line has the least
// energy of all lines above the bed, and that is a convex problem. It is
// solved from the bow down, arch by arch. In each arch the free start value is
// raised until the arch just touches the bed (or reaches the anchor); every
// height in the arch falls steadily with the start value, so this is again one
// bracketed search a time. What lies between two arches rests on the bed.

// arches is the equilibrium of a line with buoyant parts on a flat bed.
func (ln *line) arches(h float64, rec *record) (balanced, error) {
	begin := func(v float64) (k walk) {
		k.start(ln, h, v, math.Sqrt(h*h+v*v))
		return k
	}
	v, err := ln.raise(begin, -ln.lift(), math.Inf(1))
	if err != nil {
		return balanced{}, err
	}
	b := balanced{h: h, v: v}
	k := begin(v)
	var touch minimum
	for {
		touch, k.lowest = minimum{}, &touch
		ln.hangArch(&k, rec)
		if !touch.found {
			b.lifted = b.bed.length == 0
			b.anchor.h, b.anchor.v = k.h, k.v
			break
		}
		next, found, err := ln.rest(k.h, touch, &b.bed, rec)
		if err != nil {
			return balanced{}, err
		}
		if !found {
			b.anchor.h = b.bed.tension
			break
		}
		k = next
	}
	drop := 0.0
	for i := range rec.parts {
		p := &rec.parts[i]
		if p.surfaces(drop, ln.roller) {
			return balanced{}, ErrSurface
		}
		b.run += float64(p.Upper.X)
		drop += float64(p.Upper.Z)
	}
	if !(math.Abs(drop-ln.rise) <= 1e-9*(ln.rise+ln.length)) {
		return balanced{}, ErrNoBalance
	}
	return b, nil
}

// hangArch walks one arch to where it touches the bed, k.lowest, or to the anchor.
func (ln *line) hangArch(k *walk, rec *record) {
	ln.down(k, true, rec)
	m := k.lowest
	if !m.found || m.drop < k.drop {
		*m = minimum{}
		return
	}
	rec.parts = rec.parts[:m.parts] // the walk went on to the anchor
}

// rest lays the line on the bed from a touch downward as far as it stays
// there, and gives the start of the next arch. found is false where everything
// down to the anchor rests.
func (ln *line) rest(h float64, touch minimum, b *bed, rec *record) (next walk, found bool, err error) {
	tol := ln.tolerance()
	mu := ln.friction
	b.tension, b.wet = h, true
	i, below := touch.at.i, touch.at.below
	load := 0.0 // of a point that rests at the upper end of what is left of piece i
	if touch.atPoint {
		load = -touch.down
	}
	for {
		if load > 0 {
			// The bed carries part of the point load, and the rest of it hangs
			// on the next arch, if the arch would sink without that.
			begin := func(v float64) walk {
				return ln.arch(math.Max(0, h-mu*(v+load)), v, 1, spot{i, below})
			}
			if g, _ := ln.depth(begin(0)); g > tol {
				v, err := ln.raise(begin, -load, 0)
				b.drag(v+load, mu, mu)
				return begin(v), true, err
			}
			b.drag(load, mu, mu)
			h = b.tension
		}
		p := &ln.pieces[i]
		begin := func(l float64) walk {
			return ln.arch(math.Max(0, h-mu*p.wet*l), 0, p.wet, spot{i, below - l})
		}
		if g, _ := ln.depth(begin(below)); g > tol {
			l, err := ln.raise(begin, 0, below)
			if err == nil {
				b.stretch(p, i, l, mu, mu, rec)
			}
			return begin(l), true, err
		}
		b.stretch(p, i, below, mu, mu, rec)
		h = b.tension
		if i == 0 {
			return walk{}, false, nil
		}
		i--
		below = ln.pieces[i].l
		load, _ = ln.points[i].at(ln.rise - ln.roller)
	}
}

// arch starts a walk on the bed.
func (ln *line) arch(h, v, vV float64, at spot) walk {
	return walk{h: h, v: v, t: math.Sqrt(h*h + v*v), drop: ln.rise, wet: true, at: at, vV: vV}
}

// surfaces reports whether a hanging part, its upper end drop below the roller,
// comes up to the surface from below.
func (p *Part) surfaces(drop, roller float64) bool {
	if p.Dry || p.OnBed {
		return false
	}
	high := math.Min(drop, drop+float64(p.Upper.Z))
	if up, down := float64(p.VerticalUpper), float64(p.VerticalLower); up < 0 && down > 0 {
		law := p.Stretch.law()
		l := float64(p.Length) * up / (up - down)
		high = drop + l*law.meanRise(0, float64(p.Horizontal), up, float64(p.TensionUpper))
	}
	return high < roller-1e-9*(1+math.Abs(roller))
}

// lift is the most that floats and floating rope can pull upward.
func (ln *line) lift() float64 {
	f := 0.0
	for _, p := range ln.pieces {
		f -= math.Min(0, p.wet) * p.l
	}
	for _, q := range ln.points {
		f -= math.Min(0, q.wet)
	}
	return f
}

// depth is how far below the bed the deepest spot of a walk from k would come,
// and its derivative by the start value.
func (ln *line) depth(k walk) (g, gV float64) {
	var m minimum
	k.lowest = &m
	ln.down(&k, false, nil)
	g, gV = k.drop-ln.rise, k.dropV
	if m.found && m.drop-ln.rise > g {
		g, gV = m.drop-ln.rise, m.dropV
	}
	return g, gV
}

// raise finds the start value at which the walk just touches the bed. What
// defeats it is the surface: floating rope that comes down to it from the bow
// goes on along it or, a little steeper, into the deep, with nothing in between,
// and floats that are partly out of the water are all springs.
func (ln *line) raise(begin func(float64) walk, lo, hi float64) (float64, error) {
	tol := ln.tolerance()
	v := 1.0
	if !math.IsInf(hi, 1) {
		v = (lo + hi) / 2
	} else if g, _, _ := ln.guess(begin(0).h); g > lo {
		v = g
	}
	var pace pace
	for range 400 {
		g, gV := ln.depth(begin(v))
		if math.Abs(g) <= tol {
			return v, nil
		}
		if g < 0 {
			lo = v
		} else {
			hi = v
		}
		next := v - g/gV
		if slow := pace.slow(g); !(next > lo && next < hi) || slow && !math.IsInf(hi, 1) {
			if math.IsInf(hi, 1) {
				next = 2*math.Abs(v) + 1
			} else {
				next = lo + (hi-lo)/2
			}
		}
		if math.IsInf(next, 1) {
			break
		}
		if next == lo || next == hi || next == v {
			if math.Abs(g) > 1e-9*(ln.rise+ln.length) {
				break // a jump
			}
			return v, nil
		}
		v = next
	}
	return 0, ErrSurface
}
