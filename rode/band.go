package rode

import (
	"math"

	"example.com/forepeak/units"
)

// Band is a length out predicted from a reading, with its 95 % interval.
type Band struct {
	Length, U units.Length
	Interval  Interval
}

// Predict says how much is out when the counter c, which may have another
// setting since the lays, shows a value, all of it on the part of the rode that
// was calibrated: the interval for one more lay, with its rounding, its random
// error and the uncertainty of the payout. At full scope the last of these is
// the largest.
func (r Calibration) Predict(c Counter, shown units.Length) (Band, error) {
	var k checker
	between(&k, "Payout", r.Payout, leastPayout, mostPayout)
	notNegative(&k, "U", r.U)
	between(&k, "Interval.Low", r.Interval.Low, -mostPayout, r.Payout)
	between(&k, "Interval.High", r.Interval.High, r.Payout, 1e3*mostPayout)
	between(&k, "Random", r.Random, 0, 100)
	if k.err != nil {
		return Band{}, k.err
	}
	l, err := c.Length(Scale{Chain: r.Payout, ChainU: min(r.U, r.Payout)}, shown)
	if err != nil {
		return Band{}, err
	}
	random, z := float64(r.Random), quantile95(0)
	b := Band{Length: l.Length, U: units.Length(math.Hypot(float64(l.U), random))}
	if r.Method == ByLeastSquares {
		half := b.U.Scale(z)
		if r.U > 0 { // the factor of the payout's own interval
			half = b.U.Scale(math.Max(z, (r.Interval.High - r.Payout).Per(r.U)))
		}
		b.Interval = Interval{l.Length - half, l.Length + half}
		return b, nil
	}
	slack := units.Length(z * random)
	b.Interval.Low = max(0, l.Low.Scale(r.Interval.Low.Per(r.Payout))-slack)
	b.Interval.High = l.High.Scale(r.Interval.High.Per(r.Payout)) + slack
	return b, nil
}
