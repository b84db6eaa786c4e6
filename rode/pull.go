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
func (ln *line) solve(by given, want float64, rec *record, b *balanced) error {
	if by == givenPull {
		return ln.under(want, 0, rec, b)
	}
	// Without pull there may be no answer: floats come to the surface, and a
	// piece that weighs nothing lies anyhow. A tight rode may have one all the same.
	var trial record
	err := ln.under(0, 0, ln.scratch(rec, &trial), b)
	if err == nil && ln.measure(by, b) >= want {
		return ln.under(0, b.v, rec, b)
	}
	var slack balanced
	if err == nil {
		slack = *b
	}
	h, v, err := ln.search(by, want, slack, err, rec, b)
	if err != nil {
		return err
	}
	if err := ln.under(h, v, rec, b); err != nil {
		return err
	}
	if !(math.Abs(ln.measure(by, b)-want) <= 1e-9*want) {
		return ErrNoBalance
	}
	return nil
}

// scratch is a record for a trial solution, put into s. Only a line with buoyant
// parts needs one; it uses the room behind what rec holds.
func (ln *line) scratch(rec, s *record) *record {
	if !ln.buoyant {
		return nil
	}
	*s = record{rec.parts[len(rec.parts):], rec.pieces}
	return s
}

// under is the equilibrium for a horizontal force h.
func (ln *line) under(h, guess float64, rec *record, b *balanced) (err error) {
	if ln.buoyant {
		*b, err = ln.underArches(h, rec)
		return err
	}
	if guess == 0 {
		v, t, exact := ln.guess(h)
		if exact {
			if g := ln.at(h, v, t, rec, b); math.Abs(g) <= ln.tolerance() {
				return nil
			}
			if rec != nil {
				rec.parts = rec.parts[:0]
			}
		}
		guess = v
	}
	v, steps, err := ln.balance(h, guess)
	if err != nil {
		return err
	}
	b.steps += steps
	g := ln.at(h, v, math.Sqrt(h*h+v*v), rec, b)
	switch {
	case math.Abs(g) <= 1e-9*(ln.rise+ln.length):
		return nil
	case h > 0 && g > 0 && ln.sin > 0:
		return ErrBed
	}
	return ErrNoBalance
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
	var trial record
	up, err := ln.arches(h+d, ln.scratch(rec, &trial))
	if err != nil {
		return balanced{}, err
	}
	down, err := ln.arches(h-d, ln.scratch(rec, &trial))
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
// want. Both grow steadily with it, the tension at least beyond that of the slack
// rode. Each step is Newton's for the pair (h, v),
// taken along the curve of equilibria: the vertical force follows h by its
// exact rate, so that the inner search starts next to its answer. The step is
// taken in log h, with a bracket, because h ranges over many powers of ten.
//
// below is what refuses a pull of zero, if anything: a rode may have an
// equilibrium under some pulls only, and the bracket closes in on those. What b
// holds last is the equilibrium that was tried last.
func (ln *line) search(by given, want float64, slack balanced, below error, rec *record, b *balanced) (h, v float64, err error) {
	var trial record
	lo, hi := 0.0, math.Inf(1)
	var above error // what refuses a pull of hi
	tol := 1e-15 * want
	if by == givenDistance {
		tol = ln.tolerance()
	}
	h = ln.firstPull(by, want, &slack)
	var pace pace
	for range 300 {
		*b = balanced{steps: b.steps}
		err := ln.under(h, v, ln.scratch(rec, &trial), b)
		next := math.NaN()
		switch {
		case err == nil:
			f := ln.measure(by, b) - want
			dh := -f / ln.measureRate(by, b)
			if math.Abs(f) <= tol || math.Abs(dh) <= 2e-16*h {
				return h, b.v, nil
			}
			if f < 0 {
				lo, below = h, nil
			} else {
				hi, above = h, nil
			}
			next = h + dh
			if !(math.Abs(dh) < 0.1*h) {
				next = h * math.Exp(math.Max(-3, math.Min(3, dh/h)))
			}
			if pace.slow(f) && lo > 0 && !math.IsInf(hi, 1) {
				next = math.Sqrt(lo) * math.Sqrt(hi)
			}
		case err == ErrSurface, err == ErrNoBalance && h < ln.weight:
			// The less pull, the higher floats rise and the less determined is what weighs nothing.
			lo, below = h, err
		case err == ErrBed, err == ErrNoBalance:
			// The more pull, the farther the rode stretches.
			hi, above = h, err
		default:
			return 0, 0, err
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
			switch {
			case next > lo && next < hi:
			case above != nil:
				return 0, 0, above
			default:
				return h, b.v, below
			}
		}
		if next > maxPull {
			if err == nil && math.Abs(ln.measure(by, b)-want) <= 1e-12*want {
				return h, b.v, nil
			}
			return 0, 0, ErrTaut
		}
		if next < leastPull || below != nil && lo == 0 && next < 1e-12*ln.weight {
			return h, b.v, below
		}
		v = b.v + b.vRate*(next-h)
		h = next
	}
	return h, v, ErrNoBalance
}

// maxPull bounds the search: more than any line could carry.
const maxPull = 1e15

// firstPull estimates the pull that takes a line to a distance, from how far
// that is on the way from the slack to the straight line.
func (ln *line) firstPull(by given, want float64, slack *balanced) float64 {
	if by == givenTension {
		return want - math.Min(slack.v, want*(1-1e-3))
	}
	w := slack.v
	if w <= 0 {
		w = ln.weight
	}
	straight := math.Sqrt((ln.length - ln.rise) * (ln.length + ln.rise))
	if want >= straight {
		return 10 * w
	}
	r := (want - slack.run) / (straight - want)
	return w * math.Max(1e-6, math.Min(r, math.Sqrt(r)))
}
