package rode

import "math"

// given is what a solution is asked to match by varying the horizontal force.
type given int

const (
	givenPull given = iota
	givenDistance
	givenTension
)

// solve finds the equilibrium in which the pull, distance or tension is want.
func (ln *line) solve(by given, want float64, rec *record) (balanced, error) {
	if by == givenPull {
		return ln.under(want, 0, rec)
	}
	slack, err := ln.under(0, 0, ln.scratch(rec))
	if err != nil {
		return balanced{}, err
	}
	if ln.measure(by, &slack) >= want {
		return ln.under(0, slack.v, rec)
	}
	h, v, err := ln.search(by, want, &slack, rec)
	if err != nil {
		return balanced{}, err
	}
	return ln.under(h, v, rec)
}

// scratch is a record for a trial solution. Only a line with buoyant parts
// needs one; it uses the room behind what rec holds.
func (ln *line) scratch(rec *record) *record {
	if !ln.buoyant {
		return nil
	}
	return &record{rec.parts[len(rec.parts):], rec.pieces}
}

// under is the equilibrium for a horizontal force h.
func (ln *line) under(h, guess float64, rec *record) (balanced, error) {
	if ln.buoyant {
		return ln.underArches(h, rec)
	}
	if guess == 0 {
		v, exact := ln.guess(h)
		if exact {
			if b, g := ln.at(h, v, rec); math.Abs(g) <= ln.tolerance() {
				return b, nil
			}
			if rec != nil {
				rec.parts = rec.parts[:0]
			}
		}
		guess = v
	}
	v, err := ln.balance(h, guess)
	if err != nil {
		return balanced{}, err
	}
	b, _ := ln.at(h, v, rec)
	return b, nil
}

// underArches adds the rates, taken by central differences: where arches meet
// the bed the contact moves with h, and the exact rates would follow every
// contact.
func (ln *line) underArches(h float64, rec *record) (balanced, error) {
	b, err := ln.arches(h, rec)
	if err != nil || h == 0 {
		return b, err
	}
	d := 1e-5 * h
	up, err := ln.arches(h+d, ln.scratch(rec))
	if err != nil {
		return balanced{}, err
	}
	down, err := ln.arches(h-d, ln.scratch(rec))
	if err != nil {
		return balanced{}, err
	}
	b.rate = (up.run - down.run) / (2 * d)
	b.vRate = (up.v - down.v) / (2 * d)
	return b, nil
}

func (ln *line) measure(by given, b *balanced) float64 {
	if by == givenDistance {
		return b.run
	}
	return math.Sqrt(b.h*b.h + b.v*b.v)
}

func (ln *line) measureRate(by given, b *balanced) float64 {
	if by == givenDistance {
		return b.rate
	}
	return (b.h + b.v*b.vRate) / math.Sqrt(b.h*b.h+b.v*b.v)
}

// search varies the horizontal force until the distance or the tension is
// want. Both grow steadily with it. Each step is Newton's for the pair (h, v),
// taken along the curve of equilibria: the vertical force follows h by its
// exact rate, so that the inner search starts next to its answer. The step is
// taken in log h, with a bracket, because h ranges over many powers of ten.
func (ln *line) search(by given, want float64, slack *balanced, rec *record) (h, v float64, err error) {
	lo, hi := 0.0, math.Inf(1)
	h = ln.firstPull(by, want, slack)
	v = 0
	for range 300 {
		b, err := ln.under(h, v, ln.scratch(rec))
		if err != nil {
			return 0, 0, err
		}
		f := ln.measure(by, &b) - want
		if f == 0 {
			return h, b.v, nil
		}
		if f < 0 {
			lo = h
		} else {
			hi = h
		}
		dh := -f / ln.measureRate(by, &b)
		next := h + dh
		if !(math.Abs(dh) < 0.1*h) {
			next = h * math.Exp(math.Max(-3, math.Min(3, dh/h)))
		}
		if !(next > lo && next < hi) {
			switch {
			case math.IsInf(hi, 1):
				next = 8 * h
			case lo == 0:
				next = h / 8
			default:
				next = math.Sqrt(lo) * math.Sqrt(hi)
			}
		}
		if math.Abs(next-h) <= 2e-16*h || !(next > lo && next < hi) {
			return h, b.v, nil
		}
		if next > maxPull {
			return 0, 0, ErrTaut
		}
		v = b.v + b.vRate*(next-h)
		h = next
	}
	return h, v, ErrNoBalance
}

// maxPull bounds the search: more than any line could carry.
const maxPull = 1e15

// firstPull estimates the pull that takes a line to a distance from the
// parabola through the same ends, between the slack and the taut limit.
func (ln *line) firstPull(by given, want float64, slack *balanced) float64 {
	if by == givenTension {
		return want - math.Min(slack.v, want*(1-1e-3))
	}
	taut := math.Sqrt(math.Max(ln.length*ln.length-ln.rise*ln.rise, 0))
	w := math.Max(slack.v, 1e-6)
	free := taut - want
	if free <= 0 {
		free = 1e-6 * taut
	}
	return w * math.Max(1e-6, (want-slack.run)/free)
}
