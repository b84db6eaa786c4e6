package rode_test

import "math"

// This file is a second reference, for rodes with floats: the least energy of a
// chain of short straight elements above a level bed, found by Newton's method
// with the bed's contacts as an active set. It knows nothing of arches; it is
// only as fine as its elements.

// node is a place on the line with the weight of half an element on each side
// and of the fittings there.
type node struct {
	arc, z float64
	loads  []ramp
}

// ramp is a weight that goes from wet to dry between two heights.
type ramp struct{ wet, dry, low, high float64 }

// at is the energy of the weight at a height, and its two derivatives.
func (r ramp) at(z float64) (e, f, k float64) {
	switch d := r.dry - r.wet; {
	case z <= r.low:
		return r.wet * z, r.wet, 0
	case z >= r.high:
		return r.wet*z + d*((r.high-r.low)/2+(z-r.high)), r.dry, 0
	default:
		u := (z - r.low) / (r.high - r.low)
		return r.wet*z + d*u*(z-r.low)/2, r.wet + d*u, d / (r.high - r.low)
	}
}

// element is the energy of an element whose height grows by p per unstretched
// length, and its two derivatives: the vertical force and its rate.
func (p *modelPiece) element(h, slope float64) (e, v, k float64) {
	rise := func(v float64) (slope, rate, energy float64) {
		t := math.Hypot(h, v)
		c1, c2, c3 := 0.0, 0.0, 0.0
		if p.ref != 0 {
			c1, c2, c3 = p.a/p.ref, p.b/(p.ref*p.ref), p.c/(p.ref*p.ref*p.ref)
		}
		s := 1 + t*(c1+t*(c2+t*c3)) // stretched length
		ds := c1 + t*(2*c2+t*3*c3)
		return s * v / t, s*h*h/(t*t*t) + ds*v*v/(t*t), t * (1 + t*(c1/2+t*(c2/3+t*c3/4)))
	}
	if p.ref == 0 && math.Abs(slope) >= 1 {
		return math.Inf(1), 0, 0
	}
	lo, hi := 0.0, h
	for {
		if s, _, _ := rise(hi); s > math.Abs(slope) || math.IsInf(hi, 1) {
			break
		}
		hi *= 4
	}
	v = (lo + hi) / 2
	for range 200 {
		s, rate, _ := rise(v)
		if s < math.Abs(slope) {
			lo = v
		} else {
			hi = v
		}
		next := v - (s-math.Abs(slope))/rate
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-v) <= 1e-14*hi {
			break
		}
		v = next
	}
	_, rate, energy := rise(v)
	return v*math.Abs(slope) - energy, math.Copysign(v, slope), 1 / rate
}

// rest finds the shape under a pull without friction, in elements of about the
// given length. It reports whether it converged.
func (m *model) rest(h, size float64) (nodes []node, ok bool) {
	type part struct {
		p  *modelPiece
		ds float64
	}
	var parts []part
	nodes = []node{{}}
	rise := m.depth + m.roller
	for i := range m.pieces {
		p := &m.pieces[i]
		n := int(math.Ceil(p.l/size)) + 1
		ds := p.l / float64(n)
		half := ramp{p.wet * ds / 2, p.dry * ds / 2, m.depth - ds/2, m.depth + ds/2}
		for range n {
			last := &nodes[len(nodes)-1]
			last.loads = append(last.loads, half)
			nodes = append(nodes, node{arc: last.arc + ds, loads: []ramp{half}})
			parts = append(parts, part{p, ds})
		}
		if i < len(m.joints) {
			j := m.joints[i]
			last := &nodes[len(nodes)-1]
			last.loads = append(last.loads, ramp{j.wet, j.dry, m.depth - j.size, m.depth + 1e-9})
		}
	}
	n := len(parts)
	for i := range nodes {
		nodes[i].z = rise * nodes[i].arc / m.length
	}
	nodes[n].z = rise
	// energy of the shape, its slope g, and its curvature: diagonal d, off it o.
	g, d, o := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	energy := func(z []float64) float64 {
		sum := 0.0
		clear(g)
		clear(d)
		for i := range parts {
			e, v, k := parts[i].p.element(h, (z[i+1]-z[i])/parts[i].ds)
			k /= parts[i].ds
			sum += e * parts[i].ds
			g[i] -= v
			g[i+1] += v
			d[i] += k
			d[i+1] += k
			o[i] = -k
		}
		for i := range nodes {
			for _, r := range nodes[i].loads {
				e, f, k := r.at(z[i])
				sum += e
				g[i] += f
				d[i] += k
			}
		}
		return sum
	}
	z := make([]float64, n+1)
	for i := range z {
		z[i] = nodes[i].z
	}
	e := energy(z)
	step, trial := make([]float64, n+1), make([]float64, n+1)
	c, r := make([]float64, n+1), make([]float64, n+1)
	for range 500 {
		held := func(i int) bool { return i == 0 || i == n || z[i] <= 0 && g[i] >= 0 }
		// Newton's step on the free nodes, by elimination.
		for i := range z {
			step[i], c[i], r[i] = 0, 0, 0
			if held(i) {
				continue
			}
			pivot := d[i]
			r[i] = -g[i]
			if i > 0 {
				pivot -= o[i-1] * c[i-1]
				r[i] -= o[i-1] * r[i-1]
			}
			if !held(i + 1) {
				c[i] = o[i] / pivot
			}
			r[i] /= pivot
		}
		down := 0.0
		for i := n - 1; i > 0; i-- {
			if !held(i) {
				step[i] = r[i] - c[i]*step[i+1]
				down += step[i] * g[i]
			}
		}
		a := 1.0
		move := 0.0
		for {
			move = 0
			for i := range z {
				trial[i] = math.Max(0, z[i]+a*step[i])
				move = math.Max(move, math.Abs(trial[i]-z[i]))
			}
			if f := energy(trial); f <= e+1e-4*a*down || move < 1e-12*m.length {
				e = f
				break
			}
			a /= 2
		}
		copy(z, trial)
		if move < 1e-10*m.length {
			for i := range z {
				nodes[i].z = z[i]
			}
			return nodes, true
		}
	}
	return nodes, false
}

// height interpolates the shape.
func height(nodes []node, arc float64) float64 {
	for i := 1; i < len(nodes); i++ {
		a, b := nodes[i-1], nodes[i]
		if arc <= b.arc || i == len(nodes)-1 {
			return a.z + (b.z-a.z)*(arc-a.arc)/(b.arc-a.arc)
		}
	}
	return 0
}
