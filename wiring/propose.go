package wiring

import (
	"fmt"

	"example.com/forepeak/units"
)

// SecondFuse describes a breaker that sits farther from the source than the rules
// allow, so that the cable up to it needs a fuse of its own at the source.
type SecondFuse struct {
	Breaker Device
	Cable   Cable // between the fuse and the breaker

	Rules    Rules
	Ampacity units.Current // of the cable, by the rules
	System   units.Voltage
	Series   Ratings  // in which the fuse is sold
	Band     BandName // of the fuse
	// Interrupting is what fuses of that kind break.
	Interrupting units.Current
	Resistance   units.Resistance // of the fuse

	Stall units.Current // of the motor
	// Near is the fault current of the strong bank at the fuse, Far that of the weak bank
	// at the breaker, where out and back can touch: the High and the Low of [FaultCurrents],
	// without the fuse. Its own Resistance lowers what flows through it, at System.
	Near, Far units.Current
	Final     units.Temperature // of the copper after a fault; 0: ThermoplasticLimit
}

// FuseProposal is the fuse for the source and how it works with the breaker.
type FuseProposal struct {
	Fuse  Device
	Limit RatingLimit
	// Coordinated says that the fuse is at least 1.6 times the breaker, the ratio at which
	// fuses of one kind in series are told apart (IEC 60269; between a fuse and a breaker a
	// rule of the trade). The bands may prove more or less, see Selectivity.
	Coordinated bool
	Selectivity Selectivity // up to the stall current
	Opens       OpenTimes   // at the Far fault
	LetThrough  LetThrough  // the most that passes at Far or at Near; 0 if it need not open
	Withstand   LetThrough  // of one conductor
	Protects    bool        // the cable: opens at both before the withstand is used up, and within 5 s
	Breaks      bool        // it can break Near
	Findings    []string
}

// ratioApart of ratings in series.
const ratioApart = 1.6

// ProposeFuse chooses a fuse for the source: the smallest of the series that is at
// least 1.6 times the breaker and not more than the rules let protect the cable. If
// there is none, the largest that they allow and that is not less than the breaker;
// then a stall may open the fuse before the breaker. The error is an [ErrRating] if
// there is no such fuse either: the cable is too small for the breaker.
//
// Caution: the cable between the post and the fuse stays unprotected; keep it within the rules
// that [CheckPlacement] states, and use a holder made for the interrupting current.
func ProposeFuse(s SecondFuse) (FuseProposal, error) {
	or(&s.Final, ThermoplasticLimit)
	var c checker
	s.Breaker.check(&c, "Breaker")
	must(&c, s.Breaker.Band != nil, "Breaker.Band", "not given", "the band of the breaker")
	ohmic(&c, "Resistance", s.Resistance)
	positive(&c, "Stall", s.Stall)
	must(&c, s.Stall > s.Breaker.Rating, "Stall", s.Stall, "more than the rating of the breaker")
	positive(&c, "Near", s.Near)
	positive(&c, "Far", s.Far)
	notNegative(&c, "Interrupting", s.Interrupting)
	initial := s.Cable.Conductor.Insulation
	or(&initial, units.Celsius(70))
	between(&c, "Cable.Conductor.Insulation", initial, units.Celsius(-60), units.Celsius(300))
	if c.err != nil {
		return FuseProposal{}, c.err
	}
	limit, err := LargestRating(s.Rules, s.Ampacity, s.System, s.Series)
	if err != nil {
		return FuseProposal{}, err
	}
	p := FuseProposal{Limit: limit}
	rating, err := s.Series.AtLeast(s.Breaker.Rating.Scale(ratioApart))
	if p.Coordinated = err == nil && rating <= limit.Limit; !p.Coordinated {
		rating, err = s.Series.AtMost(limit.Limit)
		if err != nil || rating < s.Breaker.Rating {
			return FuseProposal{}, refuseAs(ErrRating, "Ampacity", s.Ampacity, fmt.Sprintf(
				"one that allows a fuse of at least the breaker's %.3v: %s", s.Breaker.Rating, limit.Because))
		}
		p.find("no fuse of 1.6 times the breaker is allowed: a stall may open the fuse before the breaker")
	}
	band, err := PublishedBand(s.Band, rating)
	if err != nil {
		return FuseProposal{}, err
	}
	p.Fuse = Device{Kind: Fuse, Rating: rating, Resistance: s.Resistance, Interrupting: s.Interrupting, Band: &band}
	if p.Selectivity, err = Selective(p.Fuse, s.Breaker, s.Stall); err != nil {
		return FuseProposal{}, err
	}
	if !p.Selectivity.Full {
		p.find("the bands alone do not prove that the breaker opens before the fuse up to the stall current of %.3v", s.Stall)
	}
	if p.Withstand, err = Withstand(s.Cable.Conductor.Area, initial, s.Final); err != nil {
		return FuseProposal{}, err
	}
	behind := func(i units.Current) units.Current {
		return s.System.PerResistance(s.System.PerCurrent(i) + s.Resistance)
	}
	far, near := behind(s.Far), behind(s.Near)
	p.Opens = band.opening(far.Per(rating))
	most := far
	if p.Opens.Opens {
		for _, i := range []units.Current{far, near} {
			if through := LetThrough(i.Amperes() * i.Amperes() * band.latest(i.Per(rating))); through > p.LetThrough {
				p.LetThrough, most = through, i
			}
		}
	}
	p.Protects = p.Opens.Opens && p.Opens.Latest <= offWithin && p.LetThrough <= p.Withstand
	switch {
	case !p.Opens.Opens:
		p.find("the fuse need not open at the smallest fault, %.3v", far)
	case p.Opens.Latest > offWithin:
		p.find("the fuse is sure to open only after %.3v at the smallest fault, %.3v", p.Opens.Latest, far)
	case !p.Protects:
		p.find("by its slowest times the fuse lets %v pass at %.3v, more than k²S² = %v: take one whose maker states less", p.LetThrough, most, p.Withstand)
	}
	p.Breaks = s.Interrupting >= s.Near
	if !p.Breaks {
		p.find("the fuse is not known to break %.3v at the bank", s.Near)
	}
	return p, nil
}

func (p *FuseProposal) find(format string, a ...any) {
	p.Findings = append(p.Findings, fmt.Sprintf(format, a...))
}
