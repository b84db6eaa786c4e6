package rode_test

import (
	"math"

	"example.com/forepeak/rode"
)

// This file is the reference that the solver is checked against: it integrates
// the defining equations of the line numerically, step by step from the bow
// down, and shares nothing with the closed forms but the statement of the
// problem:
//
//	dx/ds = (1 + e) H/T,  dz/ds = (1 + e) V/T,  dV/ds = w(z),  e = e(T)
//
// with w the weight per unstretched length below or above the water, a jump of
// V at every joint, and along the bed dT/ds = w (mu cos + sin).

// model is a rode at a site in SI numbers, worked out from the public types.
type model struct {
	pieces        []modelPiece
	joints        []modelJoint
	depth, roller float64
	sin, cos, mu  float64
	length        float64
	weight        float64 // the sum of all weights, without regard to sign and medium
}

type modelPiece struct {
	l, wet, dry  float64
	ref, a, b, c float64
}

type modelJoint struct{ wet, dry, size float64 }

const standardGravity = 9.80665

func newModel(r rode.Rode, s rode.Site) *model {
	water := s.Water.KilogramsPerCubicMetre()
	if water == 0 {
		water = 1025
	}
	m := &model{
		depth: s.Depth.Metres(), roller: s.Roller.Metres(), mu: s.Friction,
		sin: math.Sin(s.Slope.Radians()), cos: math.Cos(s.Slope.Radians()),
	}
	for i, p := range r.Pieces {
		dry := p.Mass.KilogramsPerMetre() * standardGravity
		q := modelPiece{
			l: p.Length.Metres(), dry: dry, wet: dry * (1 - water/p.Density.KilogramsPerCubicMetre()),
			ref: p.Stretch.Reference.Newtons(), a: p.Stretch.A, b: p.Stretch.B, c: p.Stretch.C,
		}
		m.pieces = append(m.pieces, q)
		m.length += q.l
		m.weight += q.l * q.dry
		if i == len(r.Pieces)-1 {
			break
		}
		var mass, volume float64
		for _, f := range p.Top {
			mass += f.Mass.Kilograms()
			volume += f.Volume.CubicMetres()
		}
		j := modelJoint{
			dry: mass * standardGravity, wet: (mass - water*volume) * standardGravity, size: math.Cbrt(volume),
		}
		m.joints = append(m.joints, j)
		m.weight += math.Max(j.dry, math.Abs(j.wet))
	}
	return m
}

// light tells whether some piece weighs next to nothing in water.
func (m *model) light() bool {
	for _, p := range m.pieces {
		if p.wet < 1e-2*p.dry {
			return true
		}
	}
	return false
}

func (p *modelPiece) strain(t float64) float64 {
	if p.ref == 0 {
		return 0
	}
	r := t / p.ref
	return p.a*r + p.b*r*r + p.c*r*r*r
}

// load is what a joint weighs with its middle at a height above the water: its
// buoyancy comes and goes over its own size.
func (j modelJoint) load(height float64) float64 {
	if j.size == 0 {
		return j.dry
	}
	part := math.Min(1, math.Max(0, -height/j.size))
	return j.dry + (j.wet-j.dry)*part
}

// traced is what an integration from the bow down to the anchor found.
type traced struct {
	x, drop          float64 // from the bow to the anchor
	vBottom          float64 // vertical force at the anchor end of the hanging line
	touched          bool    // part of the line lies on the bed
	onBed, friction  float64
	anchorH, anchorV float64
	stretch          float64
	pieces           []tracedPiece
}

type tracedPiece struct {
	tUpper, tLower, stretch, onBed float64
	x, drop                        float64 // of the upper end, from the bow
}

// state of an integration: on the hanging line x, drop, V and the stretch; on
// the bed the distance along it, the tension, the stretch and the friction.
type vec [4]float64

type field func(y *vec) vec

// trace goes from the bow, where the forces are h and v, down to the anchor.
func (m *model) trace(h, v float64) traced {
	r := traced{pieces: make([]tracedPiece, len(m.pieces))}
	bedV := h * m.sin / m.cos
	y := vec{0, 0, v, 0}
	var bed *vec // once the line has come to rest
	var touchDrop, touchX float64
	grip := m.mu*m.cos + m.sin
	rest := func(reaction float64) {
		t := h / m.cos
		f := m.mu * m.cos * reaction
		if lost := grip * reaction; lost > t {
			f *= t / lost
			t = 0
		} else {
			t -= lost
		}
		bed = &vec{0, t, 0, f}
		touchX, touchDrop = y[0], y[1]
	}
	tension := func() float64 {
		if bed != nil {
			return bed[1]
		}
		return math.Hypot(h, y[2])
	}
	for i := len(m.pieces) - 1; i >= 0; i-- {
		p, q := &m.pieces[i], &r.pieces[i]
		q.tUpper = tension()
		q.x, q.drop = y[0], y[1]
		if bed != nil {
			q.x, q.drop = touchX+bed[0]*m.cos, touchDrop+bed[0]*m.sin
		}
		left := p.l
		y[3] = 0
		if bed == nil {
			left = m.hang(p, h, bedV, &y, left)
			if left > 0 || y[2] == bedV && p.wet > 0 {
				rest(0)
			}
			q.stretch = y[3]
		}
		if bed != nil {
			q.onBed = left
			r.onBed += left
			bed[2] = 0
			m.lie(p, grip, touchDrop, bed, left)
			q.stretch += bed[2]
		}
		r.stretch += q.stretch
		q.tLower = tension()
		if i == 0 {
			break
		}
		j := m.joints[i-1]
		if bed != nil {
			load := j.load(m.roller - touchDrop - bed[0]*m.sin)
			lost := grip * load
			f := m.mu * m.cos * load
			if lost > bed[1] {
				f *= bed[1] / lost
				lost = bed[1]
			}
			bed[1] -= lost
			bed[3] += f
			continue
		}
		load := j.load(m.roller - y[1])
		below := y[2] - load
		if load > 0 && y[2] >= bedV && below < bedV {
			rest(bedV - below)
			continue
		}
		y[2] = below
	}
	if bed == nil {
		r.x, r.drop, r.vBottom = y[0], y[1], y[2]
		r.anchorH, r.anchorV = h, y[2]
		return r
	}
	r.touched = true
	r.vBottom = bedV
	r.x, r.drop = touchX+bed[0]*m.cos, touchDrop+bed[0]*m.sin
	r.friction = bed[3]
	r.anchorH, r.anchorV = bed[1]*m.cos, bed[1]*m.sin
	return r
}

// hang follows the hanging line down a piece until it comes parallel to the
// bed, and returns what is left of the piece.
func (m *model) hang(p *modelPiece, h, bedV float64, y *vec, left float64) float64 {
	for left > 0 {
		height := m.roller - y[1]
		// Going down the line leads down where V > 0 and up where V < 0.
		wet := height < 0 || height == 0 && y[2] >= 0
		w := p.dry
		if wet {
			w = p.wet
		}
		if w > 0 && y[2] == bedV {
			return left
		}
		f := func(y *vec) vec {
			v := y[2]
			t := math.Sqrt(h*h + v*v)
			e := p.strain(t)
			if t == 0 {
				return vec{0, 0, -w, 0}
			}
			return vec{(1 + e) * h / t, (1 + e) * v / t, -w, e}
		}
		events := []func(y *vec) float64{
			func(y *vec) float64 { return y[2] - bedV },
			func(y *vec) float64 { return y[2] },
		}
		if wet {
			events = append(events, func(y *vec) float64 { return y[1] - m.roller })
		} else {
			events = append(events, func(y *vec) float64 { return m.roller - y[1] })
		}
		// The curve bends over a length T/w, and a longer step could pass over the bend.
		bend := func(y *vec) float64 {
			if w == 0 {
				return left
			}
			return math.Sqrt(h*h+y[2]*y[2]) / (2 * math.Abs(w))
		}
		gone, event := integrate(f, bend, y, left, m.length, events)
		left -= gone
		switch event {
		case 0:
			y[2] = bedV
			return left
		case 1:
			y[2] = 0
		case 2:
			y[1] = m.roller
		default:
			left = 0
		}
	}
	return 0
}

// lie follows the line along the bed toward the anchor.
func (m *model) lie(p *modelPiece, grip, touchDrop float64, y *vec, left float64) {
	height := m.roller - touchDrop - y[0]*m.sin
	wet := height < 0
	for left > 0 {
		w := p.dry
		if wet {
			w = p.wet
		}
		slack := y[1] == 0 && grip*w >= 0
		f := func(y *vec) vec {
			if slack {
				return vec{1, 0, 0, 0}
			}
			e := p.strain(y[1])
			return vec{1 + e, -grip * w, e, m.mu * m.cos * w}
		}
		tight := func(y *vec) float64 { return y[1] }
		if slack {
			tight = func(*vec) float64 { return 1 }
		}
		surface := func(*vec) float64 { return 1 }
		if m.sin > 0 && !wet {
			surface = func(y *vec) float64 { return m.roller - touchDrop - y[0]*m.sin }
		}
		if m.sin < 0 && wet {
			surface = func(y *vec) float64 { return touchDrop + y[0]*m.sin - m.roller }
		}
		whole := func(*vec) float64 { return left }
		gone, event := integrate(f, whole, y, left, m.length, []func(*vec) float64{tight, surface})
		left -= gone
		switch event {
		case 0:
			y[1] = 0
		case 1:
			wet = !wet
		default:
			left = 0
		}
	}
}

// integrate follows dy/ds = f over at most span, to the first event (a function
// that falls to 0 or below after having been above it). It returns how far it
// went and which event ended it, -1 for none. No step is longer than longest. Each event cuts off the step for
// those after it, so one that could come and go within a step must follow one
// that ends the step before it goes.
func integrate(f field, longest func(*vec) float64, y *vec, span, scale float64, events []func(*vec) float64) (gone float64, event int) {
	step := span
	for gone < span {
		step = math.Min(step, math.Max(longest(y), 1e-9*scale))
		last := step >= span-gone
		if last {
			step = span - gone
		}
		next, good, easy := extrapolate(f, *y, step, scale)
		if !good && step > 1e-14*scale {
			step /= 2
			continue
		}
		first := -1
		at := step
		for i, g := range events {
			if !(g(y) > 0 && g(&next) <= 0) {
				continue
			}
			lo, hi := 0.0, at
			for range 200 {
				mid := (lo + hi) / 2
				if mid == lo || mid == hi {
					break
				}
				if z, _, _ := extrapolate(f, *y, mid, scale); g(&z) > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			first, at = i, hi
			next, _, _ = extrapolate(f, *y, at, scale)
		}
		if first >= 0 {
			*y = next
			return gone + at, first
		}
		*y = next
		if last {
			return span, -1
		}
		gone += step
		if easy {
			step *= 2
		}
	}
	return span, -1
}

// extrapolate takes one step by Gragg's modified midpoint rule, extrapolated
// to no step size (Bulirsch and Stoer). good tells whether two orders agree,
// easy whether low ones did.
func extrapolate(f field, y vec, step, scale float64) (out vec, good, easy bool) {
	const rows = 9
	var table [rows]vec
	f0 := f(&y)
	for k := range rows {
		n := 2 * (k + 1)
		d := step / float64(n)
		a, b := y, y
		for c := range b {
			b[c] += d * f0[c]
		}
		for range n - 1 {
			g := f(&b)
			for c := range a {
				a[c], b[c] = b[c], a[c]+2*d*g[c]
			}
		}
		g := f(&b)
		row := vec{}
		for c := range row {
			row[c] = (a[c] + b[c] + d*g[c]) / 2
		}
		// Neville's scheme in the square of the step.
		previous := row
		for j := 1; j <= k; j++ {
			r := float64(k+1) / float64(k+1-j)
			r = r*r - 1
			older := table[j-1]
			table[j-1] = previous
			for c := range previous {
				previous[c] += (previous[c] - older[c]) / r
			}
		}
		if k > 0 {
			worst := 0.0
			for c, z := range previous {
				worst = math.Max(worst, math.Abs(z-table[k-1][c])/(scale+math.Abs(z)))
			}
			if k > 2 && worst <= 3e-15 {
				return previous, true, k < rows-3
			}
		}
		table[k] = previous
		out = previous
	}
	return out, false, false
}
