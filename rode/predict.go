package rode

import (
	"math"

	"example.com/forepeak/units"
)

// Predict says how much is out when the counter c, which may have another
// setting since the lays, shows a value, all of it on the part of the rode that
// was calibrated: Low and High are the 95 % interval for one more lay, with its
// rounding, its random error and the uncertainty of the payout. At full scope the
// last of these is the largest.
func (r Calibration) Predict(c Counter, shown units.Length) (LengthOut, error) {
	var k checker
	between(&k, "Payout", r.Payout, leastPayout, mostPayout)
	notNegative(&k, "U", r.U)
	between(&k, "Interval.Low", r.Interval.Low, -mostPayout, r.Payout)
	between(&k, "Interval.High", r.Interval.High, r.Payout, 1e3*mostPayout)
	between(&k, "Random", r.Random, 0, 100)
	if k.err != nil {
		return LengthOut{}, k.err
	}
	p, err := c.Length(Scale{Chain: r.Payout, ChainU: min(r.U, r.Payout)}, shown)
	if err != nil {
		return LengthOut{}, err
	}
	random, z := float64(r.Random), quantile95(0)
	p.U = units.Length(math.Hypot(float64(p.U), random))
	if r.Method == ByLeastSquares {
		half := p.U.Scale(z)
		if r.U > 0 { // the factor of the payout's own interval
			half = p.U.Scale(math.Max(z, (r.Interval.High - r.Payout).Per(r.U)))
		}
		p.Low, p.High = p.Length-half, p.Length+half
		return p, nil
	}
	slack := units.Length(z * random)
	p.Low = max(0, p.Low.Scale(r.Interval.Low.Per(r.Payout))-slack)
	p.High = p.High.Scale(r.Interval.High.Per(r.Payout)) + slack
	return p, nil
}
