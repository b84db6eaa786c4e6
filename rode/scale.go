package rode

import (
	"math"

	"example.com/forepeak/units"
)

// Scale says what the wheel pays out per turn along a rode: chain by its links,
// rope by what was measured, since rope wedges and slips and no table knows by
// how much. The zero values are chain without rope (Rope is zero) and rope
// without chain (Chain and Splice are zero).
type Scale struct {
	// Chain is paid out per turn while chain is on the wheel, from ChainWheel.Payout
	// or Calibrate; ChainU is its standard uncertainty.
	Chain  units.Length `json:",omitempty"`
	ChainU units.Length `json:",omitempty"`
	// Splice is how much is out when the splice reaches the wheel.
	Splice units.Length `json:",omitempty"`
	// Rope is paid out per turn from there on, from Calibrate with lays on the
	// rope; RopeU is its standard uncertainty.
	Rope  units.Length `json:",omitempty"`
	RopeU units.Length `json:",omitempty"`
}

// The ranges in which wheels, counters and lays are believed.
const (
	leastPayout units.Length = 1e-3
	mostPayout  units.Length = 100
	mostOut     units.Length = 1e5
)

func (s *Scale) check(c *checker) {
	if s.Chain != 0 || s.Rope == 0 {
		between(c, "Chain", s.Chain, leastPayout, mostPayout)
	}
	between(c, "ChainU", s.ChainU, 0, s.Chain)
	switch {
	case s.Rope == 0:
		between(c, "Splice", s.Splice, 0, 0)
	case s.Chain == 0:
		between(c, "Splice", s.Splice, 0, 0)
		between(c, "Rope", s.Rope, leastPayout, mostPayout)
	default:
		between(c, "Rope", s.Rope, leastPayout, mostPayout)
		positive(c, "Splice", s.Splice)
		between(c, "Splice", s.Splice, 0, mostOut)
	}
	between(c, "RopeU", s.RopeU, 0, s.Rope)
}

// Turns is how often the wheel turns while a length runs out from nothing.
func (s Scale) Turns(out units.Length) (float64, error) {
	var c checker
	s.check(&c)
	between(&c, "out", out, 0, mostOut)
	if c.err != nil {
		return 0, c.err
	}
	return s.turns(out), nil
}

func (s *Scale) turns(out units.Length) float64 {
	switch {
	case s.Rope == 0 || s.Chain != 0 && out <= s.Splice:
		return out.Per(s.Chain)
	case s.Chain == 0:
		return out.Per(s.Rope)
	default:
		return s.Splice.Per(s.Chain) + (out - s.Splice).Per(s.Rope)
	}
}

// Out is the length that has run out after so many turns, and its standard
// uncertainty from those of the two scales. Neither counts the error of the
// counter; Counter.Length does.
func (s Scale) Out(turns float64) (out, u units.Length, err error) {
	var c checker
	s.check(&c)
	between(&c, "turns", turns, 0, mostOut.Per(leastPayout))
	if c.err != nil {
		return 0, 0, c.err
	}
	out, u = s.out(turns)
	return out, u, nil
}

func (s *Scale) out(turns float64) (out, u units.Length) {
	chain, rope := turns, 0.0
	if s.Rope != 0 {
		chain = 0
		if s.Chain != 0 {
			chain = math.Min(turns, s.Splice.Per(s.Chain))
		}
		rope = turns - chain
	}
	// Where the splice's position is given, the chain part is known from it: the
	// chain's uncertainty then moves the splice along the turns.
	cu, ru := float64(s.ChainU)*chain, float64(s.RopeU)*rope
	if rope > 0 && s.Chain != 0 {
		cu *= s.Rope.Per(s.Chain)
	}
	return s.Chain.Scale(chain) + s.Rope.Scale(rope), units.Length(math.Hypot(cu, ru))
}
