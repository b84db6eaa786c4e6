package rode

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/forepeak/units"
)

// LayLine is the straight line through the lays,
//
//	taped = Slip + Payout times turns
//
// by weighted least squares, with the standard uncertainties of its two terms
// and their correlation after JCGM 100:2008 (the GUM), annex H.3.
type LayLine struct {
	// Slip is what every lay gains or loses whatever its length: the jump of the
	// first link, slack at a mark.
	Slip, SlipU     units.Length
	Payout, PayoutU units.Length // per turn
	// Correlation of the two. Near -1 the lays cannot tell them apart: a short lay
	// beside a long one brings it towards 0.
	Correlation float64
	// Scatter is the standard deviation of a lay from the line, where it was judged
	// from the lays; 0 where it was given.
	Scatter units.Length `json:",omitempty"`
	// Freedom is the number of degrees of freedom of the scatter; 0 where it was given.
	Freedom int `json:",omitempty"`
	// Told reports whether the slip is more than chance, at the level of 5 %, and
	// Least is the slip that these lays would have told from none.
	Told  bool
	Least units.Length
}

// At is the length that the line gives for so many turns, and its standard
// uncertainty,
//
//	u² = uSlip² + (turns uPayout)² + 2 turns uSlip uPayout r
func (l LayLine) At(turns float64) (length, u units.Length, err error) {
	var c checker
	between(&c, "turns", turns, -1e9, 1e9)
	between(&c, "Correlation", l.Correlation, -1, 1)
	between(&c, "Slip", l.Slip, -mostOut, mostOut)
	between(&c, "SlipU", l.SlipU, 0, mostOut)
	between(&c, "Payout", l.Payout, -mostOut, mostOut)
	between(&c, "PayoutU", l.PayoutU, 0, mostOut)
	if c.err != nil {
		return 0, 0, c.err
	}
	a, b := float64(l.SlipU), turns*float64(l.PayoutU)
	v := a*a + b*b + 2*a*b*l.Correlation
	return l.Slip + l.Payout.Scale(turns), units.Length(math.Sqrt(math.Max(0, v))), nil
}

// laySample is one lay as least squares sees it.
type laySample struct {
	x, y     float64 // turns, taped
	variance float64 // of y; if it is relative, scatter is judged from the samples
	inward   bool
}

// quantile95 is the factor of a 95 % interval for so many degrees of freedom;
// zero stands for a variance that is known.
func quantile95(freedom int) float64 {
	if freedom == 0 {
		return distuv.UnitNormal.Quantile(0.975)
	}
	return distuv.StudentsT{Sigma: 1, Nu: float64(freedom)}.Quantile(0.975)
}

// fitLine is nil where the samples do not determine a line and its scatter.
func fitLine(samples []laySample, known bool) *LayLine {
	free := len(samples) - 2
	if free < 0 || free == 0 && !known {
		return nil
	}
	var w, wx, wy float64
	for _, s := range samples {
		w += 1 / s.variance
		wx += s.x / s.variance
		wy += s.y / s.variance
	}
	mx, my := wx/w, wy/w
	var sxx, sxy float64
	for _, s := range samples {
		sxx += (s.x - mx) * (s.x - mx) / s.variance
		sxy += (s.x - mx) * (s.y - my) / s.variance
	}
	if sxx <= 1e-9*w*mx*mx {
		return nil // all of one length
	}
	slope := sxy / sxx
	offset := my - slope*mx
	scale := 1.0
	l := &LayLine{}
	if !known {
		scale = 0
		var squares float64
		for _, s := range samples {
			r := s.y - offset - slope*s.x
			scale += r * r / s.variance
			squares += r * r
		}
		scale /= float64(free)
		l.Freedom = free
		l.Scatter = units.Length(math.Sqrt(squares / float64(free)))
	}
	vo, vs := scale*(1/w+mx*mx/sxx), scale/sxx
	l.Slip, l.SlipU = units.Length(offset), units.Length(math.Sqrt(vo))
	l.Payout, l.PayoutU = units.Length(slope), units.Length(math.Sqrt(vs))
	l.Correlation = -mx / math.Sqrt(sxx/w+mx*mx)
	l.Least = l.SlipU.Scale(quantile95(l.Freedom))
	l.Told = l.Slip.Abs() > l.Least
	return l
}

// LayDirections compares lays outward with lays inward. Chain that is dragged
// over its wheel by its load runs out by more per turn than it comes in; slip of
// that kind cannot be told from a wrong scale by lays in one direction.
type LayDirections struct {
	Out, In units.Length // payout per turn
	// Difference is Out less In, with its standard uncertainty. Half of it is what
	// slips per turn.
	Difference, DifferenceU units.Length
	// Told reports whether the difference is more than chance, at the level of 5 %,
	// and Least is the difference that these lays would have told from none.
	Told  bool
	Least units.Length
}

// fitDirections is nil where lays in one direction are lacking, or one more to
// judge the scatter.
func fitDirections(samples []laySample, known bool) *LayDirections {
	free := len(samples) - 2
	var sxx, sxy [2]float64
	for _, s := range samples {
		i := 0
		if s.inward {
			i = 1
		}
		sxx[i] += s.x * s.x / s.variance
		sxy[i] += s.x * s.y / s.variance
	}
	if sxx[0] == 0 || sxx[1] == 0 || free < 1 && !known {
		return nil
	}
	out, in := sxy[0]/sxx[0], sxy[1]/sxx[1]
	scale := 1.0
	if known {
		free = 0
	} else {
		scale = 0
		for _, s := range samples {
			p := out
			if s.inward {
				p = in
			}
			scale += (s.y - p*s.x) * (s.y - p*s.x) / s.variance
		}
		scale /= float64(free)
	}
	u := math.Sqrt(scale * (1/sxx[0] + 1/sxx[1]))
	d := &LayDirections{
		Out: units.Length(out), In: units.Length(in),
		Difference: units.Length(out - in), DifferenceU: units.Length(u),
		Least: units.Length(u * quantile95(free)),
	}
	d.Told = d.Difference.Abs() > d.Least
	return d
}
