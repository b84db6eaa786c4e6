package wiring

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Spell is a current that flows for a time.
type Spell struct {
	Current units.Current
	For     units.Time
}

// Ride is what a device does in a sequence of spells: a motor's start, its pull,
// its stall.
type Ride struct {
	Holds bool // it cannot open
	// MayOpen is the earliest moment at which it can open, from the start of the
	// first spell; 0 with Holds, or when the band states no earliest time.
	MayOpen units.Time
	Opens   bool // it must open
	// OpensBy is the latest moment; 0 unless Opens.
	OpensBy units.Time
	// InSpell counts the spell in which it may open first, from 0; -1 with Holds.
	InSpell int
}

// RideThrough says whether a device opens during a sequence of spells that begins
// with the device cold.
//
// For "may open" the device is a thermal one, which keeps all warmth and opens as soon
// as its band allows from cold, with one time constant at each current m, in ratings:
//
//	dq/dt = (m² - q) / tau(m), opens at q = m0²
//	tau(m) = earliest(m) / ln(m²/(m² - m0²))
//
// m0 is what it carries for ever: the largest multiple that the band lets it hold for half
// an hour, or 1. Currents up to m0 warm it with the least tau of the band's points. So a
// haul at nine tenths of the rating leaves a quarter or a third of the time to a stall after it,
// and "holds" is safe to believe, of magnetic devices, too.
//
// For "must open" each spell uses up the part of the device's life that its length is of
// the latest time; that is only as good as the sum where a heavy spell comes before a light
// one. Surroundings hotter than the band's shorten all times, see [Band.Opening].
func RideThrough(d Device, spells []Spell) (Ride, error) {
	var c checker
	d.check(&c, "device")
	must(&c, d.Band != nil, "device.Band", "not given", "the band of the device")
	must(&c, len(spells) > 0, "spells", "empty", "at least one spell")
	checkSpells(&c, "spells", spells)
	if c.err != nil {
		return Ride{}, c.err
	}
	r := Ride{Holds: true, InSpell: -1}
	warm := d.warming()
	var late, clock float64
	for i, s := range spells {
		m, t := s.Current.Per(d.Rating), s.For.Seconds()
		if wait := warm.left(m); r.Holds && t >= wait*(1-1e-12) {
			r.Holds, r.InSpell = false, i
			r.MayOpen = units.Time(clock + wait)
		}
		warm.pass(m, t)
		last := d.Band.latest(m)
		if !r.Opens && late+t/last >= 1 {
			r.Opens = true
			r.OpensBy = units.Time(clock + math.Max(0, (1-late)*last))
		}
		late += t / last
		clock += t
	}
	return r, nil
}

func checkSpells(c *checker, field string, spells []Spell) {
	for i, s := range spells {
		notNegative(c, fmt.Sprintf("%s[%d].Current", field, i), s.Current)
		positive(c, fmt.Sprintf("%s[%d].For", field, i), s.For)
	}
}

// warming is a device that opens as early as its band allows.
type warming struct {
	band  *Band
	holds float64 // m0
	quick float64 // least tau, s
	q     float64 // warmth, as the square of the multiple that would hold it
	life  float64 // used up by currents from 1 to m0
}

// holdsFor is how long a device carries what it carries for ever, at least.
const holdsFor = 1800 // s

func (d Device) warming() warming {
	w := warming{band: d.Band, holds: 1}
	for _, p := range d.Band.Points {
		if p.Earliest.Seconds() >= holdsFor {
			w.holds = math.Max(w.holds, p.Multiple)
		}
	}
	w.quick = math.Inf(1)
	for _, p := range d.Band.Points {
		if p.Multiple > w.holds && p.Earliest > 0 {
			w.quick = math.Min(w.quick, w.tau(p.Multiple))
		}
	}
	if math.IsInf(w.quick, 1) {
		w.quick = 0 // nothing is stated: warm at once
	}
	return w
}

func (w *warming) tau(m float64) float64 {
	return w.band.earliest(m) / -math.Log1p(-w.holds*w.holds/(m*m))
}

// left is the time to opening at a current from now on, infinite where it never opens.
func (w *warming) left(m float64) float64 {
	switch first := w.band.earliest(m); {
	case m <= 1:
		return math.Inf(1)
	case m <= w.holds:
		return math.Max(0, 1-w.life) * first
	case w.q >= w.holds*w.holds:
		return 0
	default:
		return w.tau(m) * math.Log((m*m-w.q)/(m*m-w.holds*w.holds))
	}
}

// pass lets a time go by; nothing cools.
func (w *warming) pass(m, t float64) {
	tau := w.quick
	switch {
	case m > w.holds:
		tau = w.tau(m)
	case m > 1:
		w.life += t / w.band.earliest(m)
	}
	if tau == 0 {
		w.q = math.Max(w.q, m*m)
	} else {
		w.q = math.Max(w.q, m*m-(m*m-w.q)*math.Exp(-t/tau))
	}
}
